/* Records that no published table gives us whole: bone, shell, salts, kelp, pure substances. */
#include <math.h>

#include "base/table.h"
#include "library/foods.h"
#include "library/range.h"

enum rest { REST_UNKNOWN, REST_NONE, REST_MINERALS_UNKNOWN, REST_B_VITAMINS_UNKNOWN, REST_COUNT };
static WORD_TABLE(REST_WORD, REST_COUNT, "unknown", "none", "minerals unknown", "B vitamins unknown");

static const struct {
  const char *word;
  uint32_t flag;
} FLAGS[] = {{"bone", FOOD_BONE},         {"kelp", FOOD_KELP},
             {"plain", FOOD_PLAIN},       {"mixed", 0}, /* whole prey, broth: no class stands for it */
             {"fish oil", FOOD_FISH_OIL}, {"thiaminase", FOOD_THIAMINASE},
             {"rare", FOOD_RARE}};

static uint32_t flag_of(const struct tsv *t, size_t row, struct span word) {
  for (size_t i = 0; i < COUNT_OF(FLAGS); i++)
    if (span_is(word, FLAGS[i].word)) return FLAGS[i].flag;
  tsv_fail(t, row, "'%.*s' is not a flag of own foods", SPAN_ARG(word));
}

static uint32_t read_flags(const struct tsv *t, size_t row) {
  struct span list = tsv_cell(t, row, "flags");
  uint32_t flags = 0, plain = FOOD_PLAIN;
  while (list.n > 0) {
    struct span word = tsv_piece(&list, '|');
    flags |= flag_of(t, row, word);
    if (span_is(word, "mixed")) plain = 0;
  }
  return flags | plain;
}

static void add_food(struct foods_build *b, const struct tsv *t, size_t row) {
  struct arena *a = b->arena;
  struct build_food *f = foods_add(b, arena_text(a, tsv_cell(t, row, "code")));
  f->name = arena_text(a, tsv_cell(t, row, "name"));
  f->note = arena_text(a, tsv_cell(t, row, "note"));
  f->group = "Own records";
  f->group_code = "own";
  f->food.part = (uint8_t)tsv_word(t, row, "part", part_word, PART_COUNT);
  f->food.spread_class = (uint8_t)tsv_word(t, row, "class", spread_class_word, SPREAD_CLASS_COUNT);
  f->food.kind = (uint8_t)tsv_word(t, row, "kind", kind_word, KIND_COUNT);
  f->food.state = (uint8_t)tsv_word(t, row, "state", state_word, STATE_COUNT);
  f->food.flags = read_flags(t, row);
  f->food.source = source_index(t, row, "source");
  f->food.piece_g = (float)tsv_number(t, row, "piece_g");
}

static void add_value(struct foods_build *b, const struct tsv *t, size_t row) {
  struct build_food *f = foods_by_code(b, arena_text(b->arena, tsv_cell(t, row, "code")));
  if (!f) tsv_fail(t, row, "there is no food '%.*s'", SPAN_ARG(tsv_cell(t, row, "code")));
  enum nutrient n = nutrient_by_key(tsv_cell(t, row, "nutrient"));
  if (n == NUT_NONE) tsv_fail(t, row, "'%.*s' is not a nutrient", SPAN_ARG(tsv_cell(t, row, "nutrient")));
  double mean = tsv_number(t, row, "value"), low = tsv_number(t, row, "low"), high = tsv_number(t, row, "high");
  double cv = isnan(low) && isnan(high) ? 0 : range_cv(low, high);
  if (isnan(mean)) mean = range_mean(low, high);
  if (!(mean >= 0) || !(cv >= 0)) tsv_fail(t, row, "a value or a range from low to high is wanted");
  if (f->value[n].status != VALUE_UNKNOWN) tsv_fail(t, row, "this value is given twice");
  foods_set(f, n, mean, VALUE_CITED, cv, source_index(t, row, "source"));
}

/* What is sold as a B complex: the eight, and often choline. */
static bool is_b_vitamin(enum nutrient n) {
  return n == NUT_THIAMIN || n == NUT_RIBOFLAVIN || n == NUT_NIACIN || n == NUT_PANTOTHENIC || n == NUT_B6 || n == NUT_B12 ||
         n == NUT_FOLATE || n == NUT_BIOTIN || n == NUT_CHOLINE;
}

/* Vitamin A is computed from retinol and carotene and never stored. */
static void set_rest(struct build_food *f, enum rest rest, uint16_t source) {
  if (rest == REST_UNKNOWN) return;
  for (int n = 0; n < NUT_COUNT; n++) {
    enum nutrient_group group = nutrient_info[n].group;
    bool mineral = group == NG_MINERAL || group == NG_TRACE || n == NUT_ASH;
    if (n == NUT_VITAMIN_A || (rest == REST_MINERALS_UNKNOWN && (mineral || group == NG_PROXIMATE))) continue;
    if (n == NUT_ASH || n == NUT_WATER || n == NUT_ENERGY) continue;
    if (rest == REST_B_VITAMINS_UNKNOWN && is_b_vitamin((enum nutrient)n)) continue;
    foods_set(f, (enum nutrient)n, 0, VALUE_NONE, 0, source);
  }
}

void add_own_records(struct foods_build *b, const char *data_dir) {
  static const char *const FOODS[] = {"code", "name",    "part",   "class",      "kind", "state", "flags",
                                      "rest", "piece_g", "source", "confidence", "note", NULL};
  static const char *const VALUES[] = {"code", "nutrient", "value", "low", "high", "source", "confidence", "note", NULL};
  struct tsv foods, values;
  tsv_read(&foods, path_join(b->arena, data_dir, "own_foods.tsv"), FOODS, b->arena);
  tsv_read(&values, path_join(b->arena, data_dir, "own_values.tsv"), VALUES, b->arena);
  for (size_t row = 0; row < foods.rows; row++) {
    add_food(b, &foods, row);
    tsv_word(&foods, row, "confidence", confidence_word, CONF_COUNT);
  }
  for (size_t row = 0; row < values.rows; row++) {
    add_value(b, &values, row);
    tsv_word(&values, row, "confidence", confidence_word, CONF_COUNT);
  }
  for (size_t row = 0; row < foods.rows; row++) {
    struct build_food *f = foods_by_code(b, arena_text(b->arena, tsv_cell(&foods, row, "code")));
    set_rest(f, (enum rest)tsv_word(&foods, row, "rest", REST_WORD, REST_COUNT), source_by_key("own_reasoning"));
  }
}
