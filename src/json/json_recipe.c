/* "recipe" of an answer: what every line was read as. */
#include "base/table.h"
#include "judge/uncounted.h"
#include "review/findings.h"
#include "words/words.h"
#include "json/json_parts.h"

const struct check_result *checked_result(const struct at *at) {
  while (!at->shape->judged) at = at->up;
  return ((const struct checked *)at->it)->r;
}

bool checked_brief(const struct at *at) {
  while (!at->shape->judged) at = at->up;
  return ((const struct checked *)at->it)->brief;
}

double checked_whole_kcal(const struct at *at) {
  while (!at->shape->judged) at = at->up;
  double whole = ((const struct checked *)at->it)->whole_kcal;
  return whole > 0 ? whole : NOT_KNOWN;
}

bool checked_judged(const struct check_result *r) { return r->animal && r->refusal == REFUSE_NOT; }

double line_number(const struct ration_line *l) { return l->line > 0 ? l->line : NOT_KNOWN; }

/* ---- the foods that could have been meant ----------------------------------------------------------------------- */

static const char *rival_food(const struct at *at) { return library_code(at->lib, *(const uint32_t *)at->it); }
static const char *rival_name(const struct at *at) { return library_name(at->lib, *(const uint32_t *)at->it); }

static const struct field RIVAL[] = {TEXT_OF_ALWAYS("food", rival_food, "the pin"),
                                     TEXT_OF_ALWAYS("name", rival_name, "of the record")};
static const struct shape rival_shape = SHAPE("Rival", RIVAL, "another record that fits about as well");

static size_t rivals(const struct at *at) { return ((const struct ration_line *)at->it)->rival_count; }
static const void *rival(const struct at *at, size_t i) {
  const uint32_t *food = &((const struct ration_line *)at->it)->rivals[i];
  return *food < library_count(at->lib) ? food : NULL;
}

/* ---- cooking ---------------------------------------------------------------------------------------------------- */

static const char *cooking_code(const struct at *at) {
  return lib_str(at->lib, ((const struct img_retention *)at->it)->code);
}
static const char *cooking_words(const struct at *at) {
  return lib_str(at->lib, ((const struct img_retention *)at->it)->words);
}
static const char *cooking_source(const struct at *at) {
  return json_source_key(at->lib, ((const struct img_retention *)at->it)->source);
}

static const struct field COOKING[] = {
    TEXT_OF("code", cooking_code, "of the row, as its table prints it"),
    TEXT_OF("words", cooking_words, "what the row is about"),
    TEXT_OF("source", cooking_source, "key of the source"),
    NUMBER_ALWAYS("row", "", struct img_retention, row, "of the data file"),
};
static const struct shape cooking_shape = SHAPE("CookingTable", COOKING, "the row behind the losses in cooking");

static const void *cooking(const struct at *at) {
  const struct ration_line *l = at->it;
  int32_t row = l->part_count > 0 ? l->part[0].retention : -1;
  if (row < 0 || (size_t)row >= img_count(&at->lib->image, IMG_RETENTION)) return NULL;
  return IMG_ROWS(&at->lib->image, IMG_RETENTION, struct img_retention) + row;
}

/* ---- what the arithmetic rests on: flesh, and the bone in it ----------------------------------------------------- */

static const char *portion_food(const struct at *at) {
  return json_food_code(at->lib, ((const struct portion *)at->it)->food);
}

static const struct field PORTION[] = {
    TEXT_OF_ALWAYS("food", portion_food, "the pin"),
    NUMBER_ALWAYS("grams", "g on a feeding day", struct portion, grams, "as the record counts it: raw for a raw record"),
    NUMBER_ALWAYS("grams_cv", "", struct portion, grams_cv, "coefficient of variation of the amount itself"),
};
static const struct shape portion_shape = SHAPE("Portion", PORTION, "a record behind a line, and its grams");

/* ---- a line ------------------------------------------------------------------------------------------------------ */

static const struct img_food *food_of(const struct at *at) {
  const struct ration_line *l = at->it;
  return l->shown_food < library_count(at->lib) ? library_food(at->lib, l->shown_food) : NULL;
}

static const char *line_food(const struct at *at) {
  return json_food_code(at->lib, ((const struct ration_line *)at->it)->shown_food);
}
static const char *line_name(const struct at *at) {
  return food_of(at) ? library_name(at->lib, ((const struct ration_line *)at->it)->shown_food) : NULL;
}
static double line_grams(const struct at *at) { return ration_line_grams_per_day(at->it); }
static int line_class(const struct at *at) {
  const struct img_food *f = food_of(at);
  return f ? (int)json_part_of((enum part)f->part) : -1;
}
static double line_days(const struct at *at) { return ((const struct ration_line *)at->it)->times_per_28 / 4; }
static double line_low(const struct at *at) {
  const struct ration_line *l = at->it;
  return l->low_g > 0 ? l->low_g : l->grams_fed;
}
static double line_high(const struct at *at) {
  const struct ration_line *l = at->it;
  return l->high_g > 0 ? l->high_g : l->grams_fed;
}
static int line_part(const struct at *at) { return food_of(at) ? food_of(at)->part : -1; }
static int line_state(const struct at *at) {
  enum state s = ((const struct ration_line *)at->it)->state;
  return s == STATE_UNSTATED ? -1 : (int)s;
}
enum { BY_PIN, BY_NAME, BY_SEARCH, BY_COUNT };
static WORD_TABLE(CHOSEN_BY, BY_COUNT, "pin", "everyday name", "search");
static int line_chosen(const struct at *at) {
  const struct ration_line *l = at->it;
  return l->pinned ? BY_PIN : l->found_by_name ? BY_NAME : BY_SEARCH;
}
static const char *line_source(const struct at *at) {
  return food_of(at) ? json_source_key(at->lib, food_of(at)->source) : NULL;
}

static const char *line_source_title(const struct at *at) {
  uint32_t source = food_of(at) ? food_of(at)->source : 0;
  const struct img_source *row = source ? library_source(at->lib, source) : NULL;
  return row ? lib_str(at->lib, row->title) : NULL;
}

static int line_danger(const struct at *at) {
  return findings_mark_line(checked_result(at), ((const struct ration_line *)at->it)->line);
}

static void write_telling(struct json *j, const char *key, const struct at *at) {
  const struct ration_line *l = at->it;
  json_text(j, key, food_of(at) ? words_telling(j->out->arena, at->lib, l->shown_food, span_of(l->text)) : "");
}

static const struct field LINE[] = {
    NUMBER_ALWAYS("line", "", struct ration_line, line, "its number in the text"),
    TEXT_ALWAYS("text", struct ration_line, text, "as written"),
    TEXT_OF_ALWAYS("food", line_food, "the pin of the record"),
    TEXT_OF_ALWAYS("name", line_name, "of the record"),
    NUMBER_OF_ALWAYS("grams_per_day", "g a day", line_grams, "average, as eaten, with bone"),
    WORD_OF_ALWAYS("class", line_class, json_part_key, BOWL_COUNT, "a key of `parts`"),
    NUMBER_OF_ALWAYS("days_per_week", "days", line_days, "on which it is fed"),
    NUMBER_ALWAYS("grams_when_fed", "g", struct ration_line, grams_fed, "on a day when it is fed"),
    TEXT("grams_from", struct ration_line, grams_from, "how a count or spoon became grams; null when a mass was written"),
    TEXT("assumed", struct ration_line, assumed, "the household measure taken"),
    NUMBER_OF_ALWAYS("low_g", "g", line_low, "least on a day when it is fed"),
    NUMBER_OF_ALWAYS("high_g", "g", line_high, "most on a day when it is fed"),
    WORD_OF_ALWAYS("part", line_part, part_word, PART_COUNT, "what it is of the animal or plant"),
    WORD_OF("state", line_state, state_word, STATE_COUNT, "as eaten"),
    TRUTH("cooked_bone", struct ration_line, cooked_bone, "a piece with bone that is cooked"),
    TRUTH_OF("danger", line_danger, "something in this line must not be fed"),
    WORD_OF_ALWAYS("chosen_by", line_chosen, CHOSEN_BY, BY_COUNT, "how the record was found"),
    TEXT("note", struct ration_line, note, "how the record differs from the food written"),
    TEXT_OF("source", line_source, "key of the record's source"),
    ROWS_IN("counted_as", struct ration_line, part, part_count, &portion_shape, "records and grams behind the line"),
    OBJECT_OF("cooking_table", cooking, &cooking_shape, "null when nothing is taken off for cooking"),
    ROWS_OF("rivals", rivals, rival, &rival_shape, "records that fit about as well"),
    FREE("telling", write_telling, "string", "what of the name the line does not say already"),
    TEXT_OF("source_title", line_source_title, "the publication it is from, in one line"),
};
static const struct shape line_shape = SHAPE("Line", LINE, "a line of the recipe");

/* ---- fed, and not counted --------------------------------------------------------------------------------------- */

static const struct ration_uncounted *uncounted(const struct at *at) { return at->it; }
static size_t may_be_count(const struct at *at) { return uncounted(at)->may_be_count; }
static const void *may_be(const struct at *at, size_t i) {
  const uint32_t *food = &uncounted(at)->may_be[i];
  return *food < library_count(at->lib) ? food : NULL;
}
static double most_g(const struct at *at) {
  double g = checked_result(at)->uncounted_g[at->place];
  return isfinite(g) ? g : NOT_KNOWN;
}

static int goes_out(const struct at *at) { return uncounted_is_out(checked_result(at), uncounted(at)); }

static const struct field UNCOUNTED[] = {
    NUMBER_ALWAYS("line", "", struct ration_uncounted, line, "its number in the text"),
    TEXT_ALWAYS("text", struct ration_uncounted, text, "as written"),
    ROWS_OF("may_be", may_be_count, may_be, &rival_shape, "records that fit its words; none: its kind says what it can hold"),
    TEXT("kind", struct ration_uncounted, kind.name, "what it is by its words: a multivitamin; without may_be and kind, anything"),
    TRUTH_OF("goes_out", goes_out, "a danger, which counts for nothing"),
    NUMBER_OF("most_g", "g a day", most_g,
              "so much of the first of them, or of its kind, was allowed for, before anything is called short; null: any amount"),
};
static const struct shape uncounted_shape = SHAPE("Uncounted", UNCOUNTED, "something fed that is not counted");

static const struct field RECIPE[] = {
    TEXT("name", struct ration, name, ""),
    NUMBER_ALWAYS("days", "days", struct ration, days, "that the batch makes"),
    ROWS("lines", struct ration, line, line_count, &line_shape, "those that hold a food"),
    NUMBER("meals_per_day", "", struct ration, meals_per_day, "null when not said"),
    ROWS("uncounted", struct ration, uncounted, uncounted_count, &uncounted_shape, "fed, and not counted"),
};
const struct shape json_recipe_shape = SHAPE("Recipe", RECIPE, "the recipe as it was read");
