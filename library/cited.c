#include "library/cited.h"

#include <math.h>

#include "library/range.h"
#include "library/spread.h"

/* ---- the tables ----------------------------------------------------------------------------------------------- */

/* Grams in one of a unit. */
static double unit_in_grams(struct span unit) {
  if (span_is(unit, "g")) return 1;
  if (span_is(unit, "mg")) return 1e-3;
  return span_is(unit, "ug") || span_is(unit, "\xC2\xB5g") ? 1e-6 : NAN;
}

struct stated { /* one row, in the nutrient's unit */
  double mean, low, high;
};

static struct stated read_stated(const struct tsv *t, size_t row, enum nutrient n) {
  double scale = unit_in_grams(tsv_cell(t, row, "unit")) / unit_in_grams(span_of(nutrient_info[n].unit));
  double value = tsv_number(t, row, "value") * scale, low = tsv_number(t, row, "low") * scale,
         high = tsv_number(t, row, "high") * scale;
  if (!isfinite(scale)) tsv_fail(t, row, "the unit does not fit the nutrient");
  if (isfinite(low) != isfinite(high)) tsv_fail(t, row, "a range needs both ends");
  if (isfinite(low) && !(low > 0 && low <= high)) tsv_fail(t, row, "a range runs from a positive figure upward");
  if (!isfinite(value) && !isfinite(low)) tsv_fail(t, row, "no figure");
  if (!isfinite(value)) value = range_mean(low, high);
  if (!(value >= 0)) tsv_fail(t, row, "a figure cannot be negative");
  return (struct stated){value, isfinite(low) ? low : value, isfinite(high) ? high : value};
}

static struct cited_figure *figure_of(struct cited_tables *c, enum nutrient n, const struct cited_food *food) {
  for (size_t i = 0; i < c->figures; i++)
    if (c->figure[i].nutrient == n && c->figure[i].food == food) return &c->figure[i];
  c->figure[c->figures] = (struct cited_figure){.nutrient = n, .food = food, .low = INFINITY};
  return &c->figure[c->figures++];
}

static void add_stated(struct cited_figure *f, struct stated s, uint16_t source) {
  if (f->source == 0) f->source = source;
  if (s.mean > 0) {
    f->sum += s.mean;
    f->sources++;
    f->low = fmin(f->low, s.low);
    f->high = fmax(f->high, s.high);
  } else {
    f->zeros++;
  }
}

static const struct cited_food *food_by_key(const struct cited_tables *c, struct span key) {
  for (size_t i = 0; i < c->foods; i++)
    if (span_eq(c->food[i].key, key)) return &c->food[i];
  return NULL;
}

static void read_foods(struct cited_tables *c, struct arena *arena, const char *data_dir) {
  static const char *const WANTED[] = {"food", "part", "kind", "state", "words", "unless", "codes", "also", "class", NULL};
  struct tsv t;
  tsv_read(&t, path_join(arena, data_dir, "cited_foods.tsv"), WANTED, arena);
  c->food = ARENA_NEW(arena, struct cited_food, t.rows);
  c->fits = ARENA_NEW(arena, bool, t.rows);
  for (c->foods = 0; c->foods < t.rows; c->foods++) {
    struct span key = tsv_cell(&t, c->foods, "food");
    if (food_by_key(c, key)) tsv_fail(&t, c->foods, "food '%.*s' stands twice", SPAN_ARG(key));
    c->food[c->foods] = (struct cited_food){key, tsv_cell(&t, c->foods, "class"), food_rule_read(&t, c->foods),
                                            span_is(tsv_cell(&t, c->foods, "also"), "salted")};
  }
}

static void read_figures(struct cited_tables *c, struct arena *arena, const char *data_dir) {
  static const char *const WANTED[] = {"nutrient", "food", "value", "low", "high", "unit", "source", "confidence", NULL};
  struct tsv t;
  tsv_read(&t, path_join(arena, data_dir, "cited.tsv"), WANTED, arena);
  c->figure = ARENA_NEW(arena, struct cited_figure, t.rows);
  for (size_t i = 0; i < t.rows; i++) {
    struct span key = tsv_cell(&t, i, "nutrient"), food = tsv_cell(&t, i, "food");
    enum nutrient n = nutrient_by_key(key);
    uint16_t source = source_index(&t, i, "source");
    (void)tsv_word(&t, i, "confidence", confidence_word, CONF_COUNT);
    if (span_is(key, "vitamin_k2")) continue; /* no allowance counts it; the figures are there to be read */
    if (n == NUT_NONE) tsv_fail(&t, i, "'%.*s' is no nutrient", SPAN_ARG(key));
    const struct cited_food *whose = food_by_key(c, food);
    if (!whose) tsv_fail(&t, i, "food '%.*s' is not in cited_foods.tsv", SPAN_ARG(food));
    add_stated(figure_of(c, n, whose), read_stated(&t, i, n), source);
  }
}

/* ---- mean and error ------------------------------------------------------------------------------------------- */

/* A source that found none is read as half of the lowest that others found. */
static double range_error(const struct cited_figure *f) {
  if (f->sources == 0) return 0;
  return range_cv(f->zeros > 0 ? f->low / 2 : f->low, f->high);
}

double cited_error(const struct cited_tables *c, const struct cited_figure *f) {
  return f->sources > 0 ? fmax(range_error(f), c->usual_error[f->nutrient]) : 0;
}

/* Where fewer than three foods have two sources: a third, as for phytate and oxalate of one crop between countries. Fatty
 * acids are printed ranges of one table and stand as they are. */
static const double LONE_ERROR = 0.33;

static void find_usual_errors(struct cited_tables *c, struct arena *arena) {
  double *error = ARENA_NEW(arena, double, c->figures + 1);
  for (int n = 0; n < NUT_COUNT; n++) {
    size_t count = 0;
    for (size_t i = 0; i < c->figures; i++)
      if (c->figure[i].nutrient == (enum nutrient)n && c->figure[i].sources + c->figure[i].zeros >= 2)
        error[count++] = range_error(&c->figure[i]);
    bool fatty = nutrient_info[n].group == NG_FATTY;
    c->usual_error[n] = fatty ? 0 : count >= 3 ? quantile(error, count, 0.5) : LONE_ERROR;
  }
}

void cited_read(struct cited_tables *c, struct arena *arena, const char *data_dir) {
  *c = (struct cited_tables){0};
  read_foods(c, arena, data_dir);
  read_figures(c, arena, data_dir);
  find_usual_errors(c, arena);
}

/* ---- phytate and oxalate of the Indian tables ------------------------------------------------------------------ */

struct pair {
  const char *ifct;
  struct food_rule rule;
};

static struct pair *read_pairs(struct foods_build *b, const char *data_dir, size_t *count) {
  static const char *const WANTED[] = {"ifct", "part", "kind", "state", "words", "unless", "source", "confidence", NULL};
  struct tsv t;
  tsv_read(&t, path_join(b->arena, data_dir, "ifct_pairs.tsv"), WANTED, b->arena);
  struct pair *pair = ARENA_NEW(b->arena, struct pair, t.rows);
  bool table_is_there = foods_by_code(b, "ifct:A001") != NULL;
  for (size_t i = 0; i < t.rows; i++) {
    pair[i] = (struct pair){arena_text(b->arena, tsv_cell(&t, i, "ifct")), food_rule_read(&t, i)};
    if (table_is_there && !foods_by_code(b, pair[i].ifct)) tsv_fail(&t, i, "there is no food '%s'", pair[i].ifct);
  }
  *count = t.rows;
  return pair;
}

static double dry_matter(const struct build_food *f) {
  return f->value[NUT_WATER].status == VALUE_MEASURED ? 100 - (double)f->value[NUT_WATER].mean : NAN;
}

/* The twin's amount, carried over by dry matter; NaN when the twin has none or either water is unknown. */
static double by_dry_matter(const struct build_food *f, const struct build_food *twin, enum nutrient n) {
  if (twin->value[n].status != VALUE_MEASURED || !(twin->value[n].mean > 0)) return NAN;
  return (double)twin->value[n].mean * dry_matter(f) / dry_matter(twin);
}

/* ---- setting --------------------------------------------------------------------------------------------------- */

static bool food_fits(const struct cited_food *c, const struct build_food *f) {
  uint32_t shut_out = FOOD_BRAND | FOOD_DISH | (c->salted_too ? 0u : (uint32_t)FOOD_SALTED);
  return !(f->food.flags & shut_out) && food_rule_fits(&c->rule, f);
}

/* What the sources say of a record, 'fits' telling which cited foods it is; sources is 0 where none does. */
static struct cited_figure figure_for(const struct cited_tables *c, const bool *fits, enum nutrient n) {
  for (size_t i = 0; i < c->figures; i++)
    if (c->figure[i].nutrient == n && fits[c->figure[i].food - c->food]) return c->figure[i];
  return (struct cited_figure){.nutrient = n, .low = INFINITY};
}

static const struct build_food *twin_of(struct foods_build *b, const struct pair *pair, size_t pairs,
                                        const struct build_food *f) {
  if (strncmp(f->code, "usda:", 5) != 0 || (f->food.flags & (FOOD_BRAND | FOOD_DISH))) return NULL;
  for (size_t i = 0; i < pairs; i++)
    if (food_rule_fits(&pair[i].rule, f)) return foods_by_code(b, pair[i].ifct);
  return NULL;
}

static void set_cited(struct foods_build *b, const struct cited_tables *c, const struct pair *pair, size_t pairs,
                      struct build_food *f) {
  uint16_t ifct = source_by_key("ifct2017");
  const struct build_food *twin = twin_of(b, pair, pairs, f);
  bool *fits = c->fits;
  for (size_t i = 0; i < c->foods; i++) fits[i] = food_fits(&c->food[i], f);
  for (int i = 0; i < NUT_COUNT; i++) {
    enum nutrient n = (enum nutrient)i;
    struct cited_figure found = figure_for(c, fits, n);
    if (twin && (n == NUT_PHYTATE || n == NUT_OXALATE)) {
      double amount = by_dry_matter(f, twin, n);
      if (amount > 0) add_stated(&found, (struct stated){amount, amount, amount}, ifct);
    }
    if (found.sources + found.zeros > 0)
      foods_set(f, n, cited_mean(&found), VALUE_CITED, cited_error(c, &found), found.source);
  }
  if (f->value[NUT_EPA].status == VALUE_CITED && f->value[NUT_DHA].status == VALUE_CITED)
    foods_set(f, NUT_EPA_DHA, (double)(f->value[NUT_EPA].mean + f->value[NUT_DHA].mean), VALUE_CITED,
              fmax(f->estimate_error[NUT_EPA], f->estimate_error[NUT_DHA]), f->value[NUT_EPA].source);
}

void complete_cited(struct foods_build *b, const char *data_dir) {
  struct cited_tables c;
  size_t pairs;
  cited_read(&c, b->arena, data_dir);
  struct pair *pair = read_pairs(b, data_dir, &pairs);
  for (size_t i = 0; i < b->count; i++) set_cited(b, &c, pair, pairs, &b->food[i]);
  cited_by_class(b, &c, data_dir, true);
  cited_cooked(b, data_dir);
  cited_by_class(b, &c, data_dir, false);
  cited_chloride_of_salt(b);
}
