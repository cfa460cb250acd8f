/* The journal on a page: what it holds, a line that is being written for it; several weeks at once. */
#include "app/app_entry.h"
#include "app/app_week.h"

#include "json/json_parts.h"

static const char *unless_empty(const char *s) { return s && s[0] ? s : NULL; }

/* ---- what the journal holds --------------------------------------------------------------------------------------- */

static const struct app_entry_fact *fact(const struct at *at) { return at->it; }
static void write_date(struct json *j, const char *key, const struct at *at) {
  struct buf b;
  buf_init(&b, j->out->arena, 16);
  date_print(&b, fact(at)->entry->day);
  json_text(j, key, buf_text(&b));
}
static void write_remark(struct json *j, const char *key, const struct at *at) {
  struct span r = fact(at)->entry->remark;
  if (r.n > 0) {
    json_span(j, key, r);
  } else {
    json_nothing(j, key);
  }
}
static int fact_word(const struct at *at) { return (int)fact(at)->entry->fact; }
static double fact_kg(const struct at *at) {
  return fact(at)->entry->fact == JOURNAL_WEIGHS ? fact(at)->entry->kg : NOT_KNOWN;
}
static double fact_line(const struct at *at) { return fact(at)->entry->line; }
static int fact_replaced(const struct at *at) { return fact(at)->entry->replaced; }
static int fact_asked(const struct at *at) { return fact(at)->entry->asked; }

static const struct field FACT[] = {
    NUMBER_OF_ALWAYS("line", "", fact_line, "of the text, from 1"),
    FREE("date", write_date, "string", ""),
    TEXT_ALWAYS("animal", struct app_entry_fact, animal, "as its own text spells it"),
    WORD_OF_ALWAYS("fact", fact_word, journal_fact_word, JOURNAL_FACTS, ""),
    TEXT_ALWAYS("says", struct app_entry_fact, says, "the line after the animal's name, without the remark"),
    FREE("remark", write_remark, "string | null", "with its sign"),
    NUMBER_OF("kg", "kg", fact_kg, "of a weighing; null: not known"),
    TRUTH_OF("replaced", fact_replaced, "a correction below takes its place: kept, not counted"),
    TRUTH_OF("asked", fact_asked, "a figure that can hardly be right: asked about, and counted"),
};
static const struct shape fact_shape = SHAPE("JournalFact", FACT, "one fact of a journal");

static const struct app_journal_answer *held(const struct at *at) { return at->it; }
static size_t animals(const struct at *at) { return held(at)->journal->name_count; }
static const void *animal_at(const struct at *at, size_t i) { return &held(at)->animal[i]; }
static int in_part(const struct at *at) { return held(at)->journal->in_part; }
static void write_last_ate(struct json *j, const char *key, const struct at *at) {
  const struct app_journal_animal *a = at->it;
  struct buf b;
  buf_init(&b, j->out->arena, 16);
  if (a->eats) date_print(&b, a->last_ate);
  if (a->eats) {
    json_text(j, key, buf_text(&b));
  } else {
    json_nothing(j, key);
  }
}

static const struct field ANIMAL[] = {
    TEXT_ALWAYS("name", struct app_journal_animal, name, "as its own text spells it"),
    FREE("last_ate", write_last_ate, "string | null", "the last day of which it is written what it ate"),
};
static const struct shape animal_shape = SHAPE("JournalAnimal", ANIMAL, "an animal that a journal tells of");

static const struct field JOURNAL[] = {
    ROWS_OF("animals", animals, animal_at, &animal_shape, "that it tells of, in the order in which it first does"),
    ROWS("facts", struct app_journal_answer, fact, count, &fact_shape, "the newest day first"),
    TRUTH_OF("part", in_part, "a first look at the newest days: last_ate and the complaints are not known of the whole"),
};
const struct shape json_journal_shape = SHAPE("JournalAnswer", JOURNAL, "what a journal holds");

void json_journal(const struct library *lib, const struct app_journal_answer *a, struct buf *out) {
  json_write(lib, &json_journal_shape, a, out);
}

/* ---- a line that is being written ---------------------------------------------------------------------------------- */

static const struct app_entry_answer *entry(const struct at *at) { return at->it; }
static const char *line_of(const struct at *at) { return unless_empty(entry(at)->line); }

static const struct field OFFER[] = {
    TEXT_ALWAYS("write", struct app_entry_offer, write, "the whole line with it"),
    TEXT_ALWAYS("label", struct app_entry_offer, label, "what is offered"),
    TEXT("detail", struct app_entry_offer, detail, ""),
};
static const struct shape offer_shape = SHAPE("EntryOffer", OFFER, "what may be written next");

static const struct field ENTRY[] = {
    TEXT_OF("line", line_of, "as it would be added, with its day; null: not understood yet"),
    ROWS_IN("offers", struct app_entry_answer, offer, offers, &offer_shape, "what may be written next"),
};
const struct shape json_entry_shape = SHAPE("EntryAnswer", ENTRY, "a line for the journal while it is written");

void json_entry(const struct library *lib, const struct app_entry_answer *a, struct buf *out) {
  json_write(lib, &json_entry_shape, a, out);
}

/* ---- weeks of several animals --------------------------------------------------------------------------------------- */

static const struct field WEEKS[] = {
    ROWS("weeks", struct app_week_answer, of, count, &json_week_shape, "one for each animal")};
const struct shape json_weeks_shape = SHAPE("WeeksAnswer", WEEKS, "a plan or a journal as weeks");

void json_weeks(const struct library *lib, const struct app_week_answer *a, struct buf *out) {
  json_write(lib, &json_weeks_shape, a, out);
}
