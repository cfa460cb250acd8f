#include "app/app_entry.h"

#include <math.h>
#include <stdlib.h>

#include "app/app_lines.h"
#include "app/app_page.h"
#include "base/num.h"
#include "text/scan.h"
#include "words/words.h"

/* ---- the day of a line ------------------------------------------------------------------------------------------ */

struct parts {
  struct span day, animal, fact, rest; /* as typed; n 0: not there */
  bool named, said;                    /* the animal's name, the fact's word are whole: something stands behind them */
  bool otherwise;                      /* the day is not written as a journal has it */
  long days;
};

static struct span first_word(struct span *s) {
  size_t n = 0;
  while (n < s->n && s->p[n] != ' ') n++;
  struct span word = span_cut(*s, 0, n);
  while (n < s->n && s->p[n] == ' ') n++;
  *s = span_cut(*s, n, s->n);
  return word;
}

static bool is_a_day(struct span word, long today, long *days) {
  struct date date;
  if (date_read(word, &date)) {
    *days = date_days(date);
    return true;
  }
  if (span_is_fold(word, "today")) *days = today;
  if (span_is_fold(word, "yesterday")) *days = today - 1;
  return span_is_fold(word, "today") || span_is_fold(word, "yesterday");
}

static struct parts parts_of(struct span line, long today) {
  struct parts p = {.days = today};
  struct span rest = trim_blanks(line);
  /* A blank at the end says that the word before it is whole. */
  bool ended = line.n > 0 && line.p[line.n - 1] == ' ';
  struct span ahead = rest, word = first_word(&ahead);
  struct journal_other_day other;
  if (is_a_day(word, today, &p.days)) {
    p.day = word;
    rest = ahead;
  } else if (journal_day_otherwise(rest, today, &other)) {
    p.day = span_cut(rest, 0, other.bytes);
    p.otherwise = true;
    rest = trim_blanks(span_cut(rest, other.bytes, rest.n));
  }
  p.animal = first_word(&rest);
  p.named = p.animal.n > 0 && (rest.n > 0 || ended);
  p.fact = first_word(&rest);
  p.said = p.fact.n > 0 && (rest.n > 0 || ended);
  p.rest = rest;
  return p;
}

const char *app_entry_line(struct span line, long today, struct arena *arena) {
  struct span rest = trim_blanks(line), ahead = rest;
  struct buf b;
  long days = today;
  struct span word = first_word(&ahead);
  struct journal_other_day other;
  buf_init(&b, arena, JOURNAL_LINE_MOST + 16);
  if (is_a_day(word, today, &days))
    rest = ahead;
  else if (journal_day_otherwise(rest, today, &other))
    return arena_text(arena, rest);
  date_print(&b, days);
  buf_addc(&b, ' ');
  buf_add(&b, rest);
  return buf_text(&b);
}

/* ---- the journal ------------------------------------------------------------------------------------------------- */

static struct journal_known known_of(const struct app_check_request *q, struct diags *d, struct arena *arena) {
  struct journal_known known = {.today = q->ask.today.year > 0 ? date_days(q->ask.today) : 0};
  struct animal *all = NULL;
  size_t count = 0;
  diags_init(d, arena, q->animals.name, q->animals.text);
  if (q->animals.text.n == 0 || !app_animals(&q->animals, q->ask.today, d, &all, &count, arena) || count == 0) return known;
  const char **name = ARENA_NEW(arena, const char *, count + 1);
  for (size_t i = 0; i < count; i++) name[i] = all[i].name;
  known.name = name;
  known.name_count = count;
  return known;
}

static const char *says(const struct journal_entry *e, struct arena *arena) {
  return words_text(arena, "%s%s%s %.*s", e->correction ? "correction: " : "", journal_fact_word[e->fact],
                    e->fact == JOURNAL_NOTE ? ":" : "", SPAN_ARG(e->said));
}

static int by_day_and_line(const void *x, const void *y) {
  const struct journal_entry *a = *(const struct journal_entry *const *)x, *b = *(const struct journal_entry *const *)y;
  return a->day != b->day ? (a->day > b->day) - (a->day < b->day) : (a->line > b->line) - (a->line < b->line);
}

/* All facts by day, and of one day as they stand in the text. */
static const struct journal_entry **facts_by_day(const struct journal *j, size_t *count, struct arena *arena) {
  const struct journal_entry **fact = ARENA_NEW(arena, const struct journal_entry *, j->entry_count + 1);
  bool in_order = true;
  *count = 0;
  for (size_t i = 0; i < j->entry_count; i++) {
    const struct journal_entry *e = &j->entry[i];
    if (!e->is_fact) continue;
    in_order = in_order && (*count == 0 || fact[*count - 1]->day <= e->day);
    fact[(*count)++] = e;
  }
  if (!in_order) qsort(fact, *count, sizeof *fact, by_day_and_line);
  return fact;
}

static void newest_first(struct app_journal_answer *out, struct arena *arena) {
  size_t count, most;
  const struct journal_entry **fact = facts_by_day(out->journal, &count, arena);
  struct app_entry_fact *told = ARENA_NEW(arena, struct app_entry_fact, (count < FACTS_MOST ? count : FACTS_MOST) + 1);
  for (size_t end = count; end > 0 && out->count < FACTS_MOST;) {
    size_t from = end - 1;
    while (from > 0 && fact[from - 1]->day == fact[end - 1]->day) from--;
    most = end - from < FACTS_MOST - out->count ? end : from + FACTS_MOST - out->count;
    for (size_t i = from; i < most; i++)
      told[out->count++] = (struct app_entry_fact){fact[i], out->journal->name[fact[i]->animal], says(fact[i], arena)};
    end = from;
  }
  out->fact = told;
}

static void find_last_meals(struct app_journal_answer *out, struct arena *arena) {
  const struct journal *j = out->journal;
  struct app_journal_animal *animal = ARENA_NEW(arena, struct app_journal_animal, j->name_count + 1);
  for (size_t i = 0; i < j->name_count; i++) animal[i].name = j->name[i];
  for (size_t i = 0; i < j->entry_count; i++) {
    const struct journal_entry *e = &j->entry[i];
    if (!e->is_fact || e->replaced || e->fact != JOURNAL_ATE) continue;
    if (!animal[e->animal].eats || e->day > animal[e->animal].last_ate) animal[e->animal].last_ate = e->day;
    animal[e->animal].eats = true;
  }
  out->animal = animal;
}

void app_journal_read(const struct app_check_request *q, const struct app_input *journal, int newest_days,
                      struct app_journal_answer *out, struct arena *arena) {
  struct journal *j = ARENA_NEW(arena, struct journal, 1);
  *out = (struct app_journal_answer){.journal = j};
  struct journal_known known = known_of(q, &out->animal_diags, arena);
  known.newest_days = newest_days;
  diags_init(&out->diags, arena, journal->name, journal->text);
  bool fine = journal_read(journal->text, &known, &out->diags, j, arena);
  (void)fine; /* what is not understood is complained about; the others are shown */
  newest_first(out, arena);
  find_last_meals(out, arena);
}

/* ---- what may be written next ------------------------------------------------------------------------------------- */

struct offering {
  const struct library *lib;
  const struct app_journal *journal;
  const struct journal *read;
  struct app_entry_answer *out;
  struct span before; /* of the line, as typed, up to what an offer takes the place of */
  struct arena *arena;
};

static bool begins_fold(struct span whole, struct span typed) {
  return typed.n <= whole.n && span_eq_fold(span_cut(whole, 0, typed.n), typed);
}

/* Every word that was typed begins one of the words. */
static bool fits(struct span whole, struct span typed) {
  struct span rest = trim_blanks(typed);
  while (rest.n > 0) {
    struct span word = first_word(&rest), look = whole;
    bool found = false;
    while (look.n > 0 && !found) found = begins_fold(first_word(&look), word);
    if (!found) return false;
  }
  return true;
}

static void offer(struct offering *o, const char *write, const char *label, const char *detail) {
  struct app_entry_answer *a = o->out;
  if (a->offers >= ENTRY_OFFERS_MOST) return;
  const char *whole = words_text(o->arena, "%.*s%s", SPAN_ARG(o->before), write);
  for (size_t i = 0; i < a->offers; i++)
    if (strcmp(a->offer[i].write, whole) == 0) return;
  a->offer[a->offers++] = (struct app_entry_offer){whole, label, detail};
}

static void offer_names(struct offering *o, const struct journal_known *known, struct span typed) {
  for (size_t i = 0; i < known->name_count; i++)
    if (begins_fold(span_of(known->name[i]), typed))
      offer(o, words_text(o->arena, "%s ", known->name[i]), known->name[i], "");
  for (size_t i = 0; !known->name && i < o->read->name_count; i++)
    if (begins_fold(span_of(o->read->name[i]), typed))
      offer(o, words_text(o->arena, "%s ", o->read->name[i]), o->read->name[i], "");
}

static void offer_facts(struct offering *o, struct span typed) {
  static const struct {
    const char *write, *detail;
  } FACT[] = {{"ate ", "what it was fed"},           {"left ", "what stayed in the bowl"},
              {"weighs ", "what the scale said"},    {"note: ", "anything else worth knowing"},
              {"ate nothing", "a day without food"}, {"correction: ", "takes the place of what was written for that day"}};
  for (size_t i = 0; i < COUNT_OF(FACT); i++)
    if (begins_fold(span_of(FACT[i].write), typed)) offer(o, FACT[i].write, FACT[i].write, FACT[i].detail);
}

static const char *day_of(long days, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 16);
  date_print(&b, days);
  return buf_text(&b);
}

static bool only_number(struct span s) {
  double x;
  return s.n > 0 && num_read(s, &x) == s.n;
}

static void offer_weights(struct offering *o, struct span name, struct span typed) {
  int animal = journal_animal(o->read, name);
  size_t count = 0;
  if (only_number(typed)) {
    offer(o, words_text(o->arena, "%.*s kg", SPAN_ARG(typed)), words_text(o->arena, "%.*s kg", SPAN_ARG(typed)), "");
    offer(o, words_text(o->arena, "%.*s lb", SPAN_ARG(typed)), words_text(o->arena, "%.*s lb", SPAN_ARG(typed)), "");
  }
  if (animal < 0 || typed.n > 0) return;
  const struct dated_weight *w = journal_weights(o->read, animal, &count, o->arena);
  while (count > 0 && isnan(w[count - 1].kg)) count--;
  if (count == 0) return;
  const char *kg = words_text(o->arena, "%s kg", words_number(o->arena, w[count - 1].kg));
  offer(o, kg, kg, words_text(o->arena, "as on %s", day_of(w[count - 1].day, o->arena)));
}

static void offer_left(struct offering *o, struct span typed) {
  static const char *const SHARE[] = {"a quarter", "a third", "half", "everything", "unknown"};
  if (only_number(typed))
    offer(o, words_text(o->arena, "%.*s g", SPAN_ARG(typed)), words_text(o->arena, "%.*s g", SPAN_ARG(typed)), "");
  for (size_t i = 0; i < COUNT_OF(SHARE); i++)
    if (begins_fold(span_of(SHARE[i]), typed))
      offer(o, SHARE[i], SHARE[i], i + 1 == COUNT_OF(SHARE) ? "nobody weighed it" : "of what was put down");
}

/* What this animal was given before, the newest first. */
static void offer_eaten_before(struct offering *o, struct span name, struct span typed, size_t most) {
  int animal = journal_animal(o->read, name);
  size_t count = 0, told = 0;
  if (animal < 0) return;
  const struct dated_intake *day = journal_intakes(o->read, animal, &count, o->arena);
  for (size_t i = count; i-- > 0 && told < most;)
    for (size_t k = 0; k < day[i].item_count && told < most; k++) {
      const struct journal_item *item = day[i].item[k];
      if (item->unknown || !fits(item->whole, typed)) continue;
      const char *words = arena_text(o->arena, item->whole);
      size_t before = o->out->offers;
      offer(o, words, words, words_text(o->arena, "as on %s", day_of(day[i].day, o->arena)));
      told += o->out->offers > before;
    }
}

/* What each recipe calls itself; of two of one name, and of one without a name, what it is called by. */
static const char **recipe_names(const struct app_journal *journal, struct arena *arena) {
  const char **name = ARENA_NEW(arena, const char *, journal->count + 1);
  for (size_t i = 0; i < journal->count; i++) {
    struct app_lines lines;
    app_lines(TEXT_RECIPE, journal->recipe[i].text, &lines, arena);
    name[i] = lines.title;
  }
  for (size_t i = 0; i < journal->count; i++) {
    bool alone = name[i][0] != 0;
    for (size_t k = 0; k < journal->count; k++)
      alone = alone && (k == i || !span_eq_fold(span_of(name[k]), span_of(name[i])));
    if (!alone) name[i] = journal->recipe[i].name;
  }
  return name;
}

static void offer_recipes(struct offering *o, const char *mass, struct span typed) {
  const char **name = recipe_names(o->journal, o->arena);
  for (size_t i = 0; i < o->journal->count; i++) {
    const char *called = o->journal->recipe[i].name;
    if (!fits(span_of(name[i]), typed) && !fits(span_of(called), typed)) continue;
    offer(o, words_text(o->arena, "%s%s", mass, name[i]), name[i], "a recipe");
  }
}

static void offer_foods(struct offering *o, struct span piece) {
  enum { MOST = 6 };
  struct app_suggestions s;
  app_suggest(o->lib, piece, MOST, &s, o->arena);
  if (s.column == 0 || s.pinned) return;
  size_t at = 0; /* characters are bytes up to the food's words, or nothing is offered */
  for (size_t i = 0; i < piece.n; i++)
    if ((unsigned char)piece.p[i] >= 0x80) return;
  at = (size_t)(s.column - 1);
  struct span mass = span_cut(piece, 0, at), behind = span_cut(piece, at + (size_t)s.width, piece.n);
  for (size_t i = 0; i < s.names; i++) {
    const char *phrase = lib_str(o->lib, s.name[i]->phrase);
    offer(o, words_text(o->arena, "%.*s%s%.*s", SPAN_ARG(mass), phrase, SPAN_ARG(behind)), phrase,
          library_name(o->lib, s.name[i]->food));
  }
  for (size_t i = 0; i < s.hits; i++) {
    const char *name = library_name(o->lib, s.hit[i].food), *code = library_code(o->lib, s.hit[i].food);
    offer(o, words_text(o->arena, "%.*s [%s]", SPAN_ARG(piece), code), name, words_text(o->arena, "[%s]", code));
  }
}

static void offer_meals(struct offering *o, struct span name, struct span typed) {
  enum { BEFORE_MOST = 4 };
  size_t begin = typed.n;
  while (begin > 0 && typed.p[begin - 1] != ';') begin--;
  while (begin < typed.n && typed.p[begin] == ' ') begin++;
  struct span piece = span_cut(typed, begin, typed.n);
  o->before.n += begin;
  struct tokens t = tokens_of(piece, o->arena);
  struct quantity q = quantity_at(&t, 0);
  size_t words = q.fault == QUANTITY_FINE ? q.tokens : 0;
  if (words > 0 && words < t.count && t.item[words].kind == TOKEN_WORD && (span_is(t.item[words].word, "g"))) words++;
  size_t mass_bytes = words > 0 && words < t.count ? (size_t)(t.item[words].at.p - piece.p) : words > 0 ? piece.n : 0;
  struct span rest = span_cut(piece, mass_bytes, piece.n);
  offer_eaten_before(o, name, piece, BEFORE_MOST);
  if (begin == 0 && begins_fold(SPAN_LIT("nothing"), piece)) offer(o, "nothing", "nothing", "a day without food");
  const char *mass = arena_text(o->arena, span_cut(piece, 0, mass_bytes));
  bool apart = mass_bytes > 0 && piece.p[mass_bytes - 1] != ' ';
  offer_recipes(o, apart ? words_text(o->arena, "%s ", mass) : mass, rest);
  if (rest.n > 1) offer_foods(o, piece);
}

static void offer_next(struct offering *o, const struct journal_known *known, struct span line, const struct parts *p) {
  static const char CORRECTION[] = "correction:";
  struct span head = line;
  head.n = p->animal.n > 0 ? (size_t)(p->animal.p - line.p) : line.n;
  o->before = head;
  bool grown = p->animal.n == 0 && line.n > 0 && line.p[line.n - 1] != ' '; /* a name would grow onto the day */
  if (!p->named) {
    if (!grown) offer_names(o, known, p->animal);
    return;
  }
  struct span fact = p->fact, rest = p->rest;
  bool said = p->said;
  if (said && (span_is_fold(fact, CORRECTION) || span_is_fold(fact, "correction"))) {
    fact = first_word(&rest);
    said = rest.n > 0 || (line.p[line.n - 1] == ' ' && fact.n > 0);
  }
  o->before = fact.n > 0 ? (struct span){line.p, (size_t)(fact.p - line.p)} : line;
  if (!said) {
    offer_facts(o, fact);
    return;
  }
  o->before = rest.n > 0 ? (struct span){line.p, (size_t)(rest.p - line.p)} : line;
  if (fact.n > 0 && fact.p[fact.n - 1] == ':') fact.n--;
  if (span_is_fold(fact, "weighs") || span_is_fold(fact, "weighed")) offer_weights(o, p->animal, rest);
  if (span_is_fold(fact, "left")) offer_left(o, rest);
  if (span_is_fold(fact, "ate") || span_is_fold(fact, "fed") || span_is_fold(fact, "eats")) offer_meals(o, p->animal, rest);
}

/* ---- the line ------------------------------------------------------------------------------------------------------ */

/* Complaints about the last line of the whole text, with their places in the line as it was typed: 'moved' characters to the
 * left. */
static void take_complaints(const struct diags *whole, int last, int moved, struct diags *d) {
  for (size_t i = 0; i < whole->count; i++) {
    const struct diag *x = &whole->item[i];
    if (x->line != last) continue;
    diag_say(d, x->level, x->code, (struct span){NULL, 0}, "%s", x->message);
    struct diag *mine = &d->item[d->last];
    *mine = *x;
    mine->line = 1;
    mine->column = x->column > moved ? x->column - moved : 1;
    for (size_t k = 0; k < mine->fixes; k++) { /* of a text that goes away: they may be changed */
      mine->fix[k].line = 1;
      mine->fix[k].column = mine->fix[k].column > moved ? mine->fix[k].column - moved : 1;
    }
  }
}

/* How much farther to the right the line's words stand in the journal than as typed. */
static int words_moved(struct span line, const struct parts *p) {
  enum { DAY_AND_BLANK = 11 };
  struct span typed = trim_blanks(line);
  if (p->otherwise) return -(int)(typed.p - line.p);
  return DAY_AND_BLANK - (int)((p->animal.n > 0 ? p->animal.p : typed.p) - line.p);
}

/* Of a long journal the end, where new lines stand: it has what was written lately, and 'before' lines stand above it. */
static struct span newest_part(struct span text, int *before) {
  enum { MOST_BYTES = 64 * 1024 };
  const char *end = text.n > MOST_BYTES ? memchr(text.p + text.n - MOST_BYTES, '\n', MOST_BYTES - 1) : NULL;
  *before = 0;
  if (!end) return text;
  size_t from = (size_t)(end - text.p) + 1;
  for (const char *p = text.p; (p = memchr(p, '\n', (size_t)(text.p + from - p))) != NULL; p++) ++*before;
  return span_cut(text, from, text.n);
}

static int lines_in(struct span text) {
  int n = 0;
  for (size_t i = 0; i < text.n; i++) n += text.p[i] == '\n';
  return n;
}

void app_entry(const struct library *lib, const struct app_check_request *q, const struct app_journal *journal,
               struct span line, struct app_entry_answer *out, struct arena *arena) {
  *out = (struct app_entry_answer){.offers = 0};
  struct journal_known known = known_of(q, &out->animal_diags, arena);
  struct parts p = parts_of(line, known.today);
  struct diags before;
  struct journal j, after;
  struct buf all;
  diags_init(&out->diags, arena, "entry", line);
  struct span near = newest_part(journal->text.text, &known.lines_before);
  diags_init(&before, arena, journal->text.name, near);
  bool fine = journal_read(near, &known, &before, &j, arena);
  (void)fine; /* a line that is not understood stays as it is, and new ones may follow it */
  struct offering o = {lib, journal, &j, out, line, arena};
  offer_next(&o, &known, line, &p);
  if (!p.said) return;
  buf_init(&all, arena, JOURNAL_MOST_BYTES);
  buf_add(&all, near);
  if (all.n > 0 && all.p[all.n - 1] != '\n') buf_addc(&all, '\n');
  const char *whole = app_entry_line(line, known.today, arena);
  buf_addf(&all, "%s\n", whole);
  struct diags d;
  diags_init(&d, arena, "entry", buf_span(&all));
  fine = journal_read(buf_span(&all), &known, &d, &after, arena);
  (void)fine; /* only the last line counts here */
  take_complaints(&d, lines_in(buf_span(&all)), words_moved(line, &p), &out->diags);
  bool understood = after.entry_count > 0 && after.entry[lines_in(buf_span(&all)) - 1].is_fact;
  if (understood && out->diags.errors == 0) out->line = whole;
}
