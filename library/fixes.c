/* fixes.c: what people add for a nutrient (data/fixes.tsv), what is sold by the piece (data/shop_units.tsv) and how much of
 * a kind of food is usual (data/portions.tsv). Runs after the foods: codes must exist. */
#include <math.h>

#include "base/num.h"
#include "base/table.h"
#include "foods/unit.h"
#include "library/match.h"

static WORD_TABLE(SPECIES, SPECIES_BOTH + 1, "dog", "cat", "both");

static const struct img_food *foods_of(const struct writer *w, size_t *count) {
  *count = w->section[IMG_FOODS].count;
  return w->section[IMG_FOODS].rows;
}

static uint32_t food_index(const struct writer *w, const struct tsv *t, size_t row, struct span code) {
  size_t count;
  const struct img_food *food = foods_of(w, &count);
  for (size_t i = 0; i < count; i++)
    if (span_is(code, w->strings.p + food[i].code)) return (uint32_t)i;
  tsv_fail(t, row, "there is no food record '%.*s'", SPAN_ARG(code));
}

static struct tsv table(struct writer *w, const char *data_dir, const char *name, const char *const *columns) {
  struct tsv t;
  tsv_read(&t, path_join(w->arena, data_dir, name), columns, w->arena);
  return t;
}

static uint8_t confidence_in(const struct tsv *t, size_t row) {
  return (uint8_t)tsv_word(t, row, "confidence", confidence_word, CONF_COUNT);
}

/* ---- shop units -------------------------------------------------------------------------------------------------- */

static void read_often(const struct tsv *t, size_t row, struct img_shop_unit *u) {
  struct span cell = tsv_cell(t, row, "often");
  for (size_t n = 0; cell.n > 0; n++) {
    const char *mark = memchr(cell.p, '|', cell.n);
    size_t length = mark ? (size_t)(mark - cell.p) : cell.n;
    double times;
    if (n >= COUNT_OF(u->often) || !num_parse(span_cut(cell, 0, length), &times) || !(times >= 1 && times <= 28))
      tsv_fail(t, row, "'often' is up to four counts of 1 to 28 with '|' between");
    u->often[n] = (uint8_t)times;
    cell = span_cut(cell, length + (mark ? 1 : 0), cell.n);
  }
  if (u->often[0] == 0) tsv_fail(t, row, "'often' is empty");
}

/* What the label of one states, in the unit of the nutrient; of a food its grams. */
static void read_holds(const struct tsv *t, size_t row, struct img_shop_unit *u) {
  double holds = tsv_number(t, row, "holds");
  u->nutrient = NUT_COUNT;
  u->holds = (float)holds;
  enum unit unit = unit_by_word(tsv_cell(t, row, "holds_unit"));
  if (tsv_cell(t, row, "nutrient").n == 0) {
    if (unit != UNIT_G || !(holds > 0)) tsv_fail(t, row, "a food has its grams");
    return;
  }
  enum nutrient n = nutrient_by_key(tsv_cell(t, row, "nutrient"));
  if (n == NUT_NONE || !(holds > 0) || unit == UNIT_NONE)
    tsv_fail(t, row, "what one holds: a nutrient, an amount and its unit");
  u->nutrient = (uint8_t)n;
  u->holds = (float)unit_nutrient_amount(holds, unit, n, true);
}

static void build_shop_units(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"key",  "code",   "nutrient", "holds", "holds_unit", "unit",   "one",        "many",
                                        "name", "halves", "often",    "most",  "times_need", "source", "confidence", NULL};
  static const char *const YES[] = {"no", "yes"};
  struct tsv t = table(w, data_dir, "shop_units.tsv", COLUMNS);
  struct img_shop_unit *u = ARENA_NEW(w->arena, struct img_shop_unit, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    u[r] = (struct img_shop_unit){.key = writer_text(w, tsv_cell(&t, r, "key")),
                                  .unit = writer_text(w, tsv_cell(&t, r, "unit")),
                                  .one = writer_text(w, tsv_cell(&t, r, "one")),
                                  .many = writer_text(w, tsv_cell(&t, r, "many")),
                                  .name = writer_text(w, tsv_cell(&t, r, "name")),
                                  .food = food_index(w, &t, r, tsv_cell(&t, r, "code")),
                                  .most = (float)tsv_number(&t, r, "most"),
                                  .times_need = (float)tsv_number(&t, r, "times_need"),
                                  .halves = (uint8_t)tsv_word(&t, r, "halves", YES, 2),
                                  .confidence = confidence_in(&t, r),
                                  .source = source_index(&t, r, "source"),
                                  .row = (uint16_t)t.line[r]};
    read_often(&t, r, &u[r]);
    read_holds(&t, r, &u[r]);
    if (u[r].nutrient < NUT_COUNT && !(u[r].times_need > 0)) tsv_fail(&t, r, "'times_need' is missing");
    if (!(u[r].most >= 1)) tsv_fail(&t, r, "'most' is at least one unit");
    if (unit_by_word(tsv_cell(&t, r, "unit")) == UNIT_NONE) tsv_fail(&t, r, "unknown unit");
  }
  writer_section(w, IMG_SHOP_UNITS, u, t.rows, sizeof *u);
}

/* ---- portions ---------------------------------------------------------------------------------------------------- */

/* The food as the rules of our tables look at it. */
static struct build_food as_built(const struct writer *w, const struct img_food *f) {
  return (struct build_food){.food = *f, .code = w->strings.p + f->code, .name = w->strings.p + f->name};
}

static uint8_t first_fit(const struct food_rule *rule, const struct img_portion *p, size_t rows, const struct build_food *f,
                         enum species s) {
  for (size_t r = 0; r < rows; r++)
    if ((p[r].species == SPECIES_BOTH || p[r].species == s) && food_rule_fits(&rule[r], f)) return (uint8_t)r;
  return NO_PORTION;
}

/* The same number for the same word, beginning with 1; 0 where none stands. */
static uint16_t number_of_word(const struct tsv *t, size_t row, const char *column) {
  struct span word = tsv_cell(t, row, column);
  for (size_t r = 0; word.n > 0 && r < row; r++)
    if (span_eq_fold(word, tsv_cell(t, r, column))) return (uint16_t)(r + 1);
  return word.n > 0 ? (uint16_t)(row + 1) : 0;
}

static void build_portions(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"class",        "species", "part",   "words",  "unless",     "most_g",
                                        "most_percent", "often",   "one_of", "source", "confidence", NULL};
  struct tsv t = table(w, data_dir, "portions.tsv", COLUMNS);
  struct img_portion *p = ARENA_NEW(w->arena, struct img_portion, t.rows);
  struct food_rule *rule = ARENA_NEW(w->arena, struct food_rule, t.rows);
  if (t.rows >= NO_PORTION) tsv_fail(&t, t.rows - 1, "too many rows");
  for (size_t r = 0; r < t.rows; r++) {
    rule[r] = food_rule_read(&t, r);
    p[r] = (struct img_portion){.words = writer_text(w, tsv_cell(&t, r, "class")),
                                .often = writer_text(w, tsv_cell(&t, r, "often")),
                                .most_g = (float)tsv_number(&t, r, "most_g"),
                                .most_share = (float)(tsv_number(&t, r, "most_percent") / 100),
                                .species = (uint8_t)tsv_word(&t, r, "species", SPECIES, 3),
                                .confidence = confidence_in(&t, r),
                                .source = source_index(&t, r, "source"),
                                .row = (uint16_t)t.line[r],
                                .one_of = number_of_word(&t, r, "one_of")};
    if (!(p[r].most_g > 0) || !(p[r].most_share > 0 && p[r].most_share <= 1)) tsv_fail(&t, r, "a ceiling is missing");
  }
  size_t foods;
  const struct img_food *food = foods_of(w, &foods);
  struct img_food_portion *of = ARENA_NEW(w->arena, struct img_food_portion, foods);
  for (size_t i = 0; i < foods; i++) {
    struct build_food f = as_built(w, &food[i]);
    for (int s = SPECIES_DOG; s <= SPECIES_CAT; s++) of[i].of[s] = first_fit(rule, p, t.rows, &f, (enum species)s);
  }
  writer_section(w, IMG_PORTIONS, p, t.rows, sizeof *p);
  writer_section(w, IMG_FOOD_PORTIONS, of, foods, sizeof *of);
}

/* ---- fixes ------------------------------------------------------------------------------------------------------- */

static uint32_t shop_unit_index(const struct writer *w, const struct tsv *t, size_t row, struct span key) {
  const struct img_shop_unit *u = w->section[IMG_SHOP_UNITS].rows;
  for (size_t i = 0; i < w->section[IMG_SHOP_UNITS].count; i++)
    if (span_is(key, w->strings.p + u[i].key)) return (uint32_t)i;
  tsv_fail(t, row, "shop_units.tsv has no '%.*s'", SPAN_ARG(key));
}

/* Every food that is weighed out as a repair has a ceiling: without one nothing would hold it back. */
static void fill_food(struct writer *w, const struct tsv *t, size_t row, struct img_fix *fix) {
  static const char UNIT[] = "unit:";
  struct span code = tsv_cell(t, row, "code");
  const struct img_food_portion *of = w->section[IMG_FOOD_PORTIONS].rows;
  fix->shop_unit = NO_INDEX;
  if (span_starts_fold(code, UNIT)) {
    fix->shop_unit = shop_unit_index(w, t, row, span_cut(code, sizeof UNIT - 1, code.n));
    fix->food = ((const struct img_shop_unit *)w->section[IMG_SHOP_UNITS].rows)[fix->shop_unit].food;
    return;
  }
  fix->food = food_index(w, t, row, code);
  if (of[fix->food].of[SPECIES_DOG] == NO_PORTION || of[fix->food].of[SPECIES_CAT] == NO_PORTION)
    tsv_fail(t, row, "portions.tsv has no ceiling for this food");
}

void build_fixes(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"nutrient", "species", "way", "code", "words", "late", "source", "confidence", NULL};
  static const char *const LATE[] = {"no", "yes", "last"}, *const WAY[FIX_WAY_COUNT] = {"any", "raw", "cooked"};
  build_shop_units(w, data_dir);
  build_portions(w, data_dir);
  struct tsv t = table(w, data_dir, "fixes.tsv", COLUMNS);
  struct img_fix *fix = ARENA_NEW(w->arena, struct img_fix, t.rows);
  for (size_t r = 0; r < t.rows; r++) {
    enum nutrient n = nutrient_by_key(tsv_cell(&t, r, "nutrient"));
    if (n == NUT_NONE) tsv_fail(&t, r, "unknown nutrient key");
    fix[r] = (struct img_fix){.nutrient = (uint8_t)n,
                              .species = (uint8_t)tsv_word(&t, r, "species", SPECIES, 3),
                              .confidence = confidence_in(&t, r),
                              .late = (uint8_t)tsv_word(&t, r, "late", LATE, 3),
                              .way = (uint8_t)tsv_word(&t, r, "way", WAY, FIX_WAY_COUNT),
                              .words = writer_text(w, tsv_cell(&t, r, "words")),
                              .source = source_index(&t, r, "source"),
                              .row = (uint16_t)t.line[r]};
    fill_food(w, &t, r, &fix[r]);
  }
  writer_section(w, IMG_FIXES, fix, t.rows, sizeof *fix);
}
