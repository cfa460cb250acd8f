/* models.h: generated programs for the tests and the benchmark of src/lp. The same seed gives the same model everywhere.
 *
 * Foods are drawn with densities around what a dog or cat needs per 1,000 kcal (orders of magnitude from the published
 * allowances; the exact figures do not matter here), so that the programs look like those that diets lead to: some forty
 * rows from micrograms to grams, dense, minima, maxima, ratios, few of them binding. The other kinds are made to hurt. */
#ifndef BW_TEST_LP_MODELS_H
#define BW_TEST_LP_MODELS_H

#include <math.h>

#include "lp/lp.h"

struct draw {
  uint64_t state;
};

static inline uint32_t draw_bits(struct draw *r) {
  r->state = r->state * 6364136223846793005ULL + 1442695040888963407ULL;
  uint64_t x = r->state ^ (r->state >> 29);
  return (uint32_t)((x * 0xbf58476d1ce4e5b9ULL) >> 32);
}
static inline double draw_share(struct draw *r) { return draw_bits(r) / 4294967296.0; }
static inline int draw_below(struct draw *r, int n) { return (int)(draw_share(r) * n); }
static inline bool draw_chance(struct draw *r, double p) { return draw_share(r) < p; }
/* Near enough to normal: twelve uniform numbers; no library function, so the same on every machine. */
static inline double draw_normal(struct draw *r) {
  double sum = -6;
  for (int i = 0; i < 12; i++) sum += draw_share(r);
  return sum;
}
/* 2^x by repeated squaring of a short series: again the same on every machine. */
static inline double draw_exp2(double x) {
  double y = x / 1024 * 0.6931471805599453, e = 1 + y * (1 + y / 2 * (1 + y / 3 * (1 + y / 4)));
  for (int i = 0; i < 10; i++) e *= e;
  return e;
}
static inline double larger_of(double a, double b) { return a > b ? a : b; }
static inline double smaller_of(double a, double b) { return a < b ? a : b; }
static inline struct draw draw_from(uint64_t seed) {
  struct draw r = {seed * 0x9e3779b97f4a7c15ULL + 1};
  for (int i = 0; i < 4; i++) draw_bits(&r);
  return r;
}

/* ---- diets ---- */

struct need {
  const char *name;
  double dog, cat, most; /* per 1,000 kcal; most: a multiple of the need, 0 none */
};

static const struct need NEEDS[] = {
    {"protein_g", 45, 62.5, 0},         {"arginine_g", 1.3, 2.5, 0},      {"histidine_g", 0.58, 0.75, 0},
    {"isoleucine_g", 1.15, 1.25, 0},    {"leucine_g", 2.05, 2.55, 0},     {"lysine_g", 1.05, 0.85, 0},
    {"methionine_g", 1.0, 0.43, 0},     {"met_cys_g", 1.91, 0.85, 0},     {"phenylalanine_g", 1.35, 1.25, 0},
    {"phe_tyr_g", 2.23, 3.83, 0},       {"threonine_g", 1.3, 1.6, 0},     {"tryptophan_g", 0.43, 0.33, 0},
    {"valine_g", 1.48, 1.28, 0},        {"fat_g", 13.75, 22.5, 6},        {"linoleic_g", 3.27, 1.25, 5},
    {"epa_dha_mg", 110, 25, 25},        {"calcium_g", 1.25, 1.0, 4},      {"phosphorus_g", 1.0, 0.64, 4},
    {"potassium_g", 1.25, 1.5, 0},      {"sodium_g", 0.25, 0.19, 15},     {"chloride_g", 0.38, 0.29, 0},
    {"magnesium_g", 0.18, 0.1, 0},      {"iron_mg", 9, 20, 18},           {"copper_mg", 1.8, 1.25, 4},
    {"zinc_mg", 18, 18.8, 3.5},         {"manganese_mg", 1.44, 1.25, 27}, {"selenium_ug", 75, 75, 2},
    {"iodine_ug", 260, 325, 10},        {"vitamin_a_ug", 454, 250, 60},   {"vitamin_d_ug", 3.4, 1.75, 6},
    {"vitamin_e_mg", 9, 9.5, 0},        {"thiamin_mg", 0.54, 1.1, 0},     {"riboflavin_mg", 1.5, 0.8, 0},
    {"pantothenic_mg", 3.55, 1.44, 0},  {"pyridoxine_mg", 0.36, 0.63, 0}, {"cobalamin_ug", 8.4, 4.4, 0},
    {"niacin_mg", 4.1, 8, 0},           {"folate_ug", 67.5, 188, 0},      {"choline_mg", 409, 600, 0},
    {"taurine_g", 0.0003, 0.5, 100000},
};
enum { NEEDS_COUNT = sizeof NEEDS / sizeof *NEEDS, FOODS_MOST = 2048 };

struct diet {
  bool cat, cap_foods; /* cap_foods: every food has an upper amount */
  int foods;
  double tight;  /* 0: allowances as they are; up to 1: minima raised toward what the foods can give, maxima lowered */
  bool mixed;    /* "5 g if used", some foods in whole units, at most 'most_used' */
  int most_used; /* < 0: no limit */
};

static inline void add_food(struct lp_model *m, struct draw *r, const struct diet *d, int j) {
  struct lp_col c = {.name = "food", .hi = d->cap_foods || d->mixed ? 60 + 340 * draw_share(r) : INFINITY, .second = 1};
  c.cost = 0.05 + draw_exp2(1.2 * draw_normal(r));
  if (d->mixed) {
    c.counted = true;
    if (j % 12 == 3) {
      c.unit = 50;
    } else {
      c.least = 5;
    }
  }
  lp_add_col(m, c);
}

static inline void make_diet(struct lp_model *m, struct arena *arena, struct draw *r, const struct diet *d) {
  lp_init(m, arena);
  double *kcal = ARENA_NEW(arena, double, (size_t)d->foods), mega = d->cat ? 0.24 : 1.0 + draw_share(r);
  for (int j = 0; j < d->foods; j++) {
    add_food(m, r, d, j);
    kcal[j] = 1.4 * draw_exp2(1.0 * draw_normal(r)); /* a gram */
  }
  int row = lp_add_row(m, "energy", 950 * mega, 1050 * mega);
  for (int j = 0; j < d->foods; j++) lp_set(m, row, j, kcal[j]);
  for (int i = 0; i < NEEDS_COUNT; i++) {
    double need = d->cat ? NEEDS[i].cat : NEEDS[i].dog, most = NEEDS[i].most;
    double lo = need * mega * (1 + 0.3 * d->tight), hi = most > 0 ? need * mega * most * (1 - 0.5 * d->tight) : INFINITY;
    row = lp_add_row(m, NEEDS[i].name, lo, hi < lo ? lo : hi);
    bool common = i < 14; /* amino acids and fat are in nearly everything; trace elements come and go */
    for (int j = 0; j < d->foods; j++) {
      double share = draw_exp2((common ? 0.9 : 1.7) * draw_normal(r) - 0.2);
      lp_set(m, row, j, draw_chance(r, 0.89) ? need * kcal[j] / 1000 * share : 0);
    }
  }
  int calcium = 1 + 16, phosphorus = 1 + 17;
  row = lp_add_row(m, "calcium at least as much as phosphorus", 0, INFINITY);
  for (int j = 0; j < d->foods; j++) lp_set(m, row, j, m->a[calcium][j] - m->a[phosphorus][j]);
  row = lp_add_row(m, "calcium at most twice the phosphorus", -INFINITY, 0);
  for (int j = 0; j < d->foods; j++) lp_set(m, row, j, m->a[calcium][j] - 2 * m->a[phosphorus][j]);
  if (d->mixed) m->most_used = d->most_used;
}

/* ---- programs made to hurt ---- */

enum model_kind {
  PLAIN,
  DEGENERATE,
  BADLY_SCALED,
  IMPOSSIBLE,
  FREE_COLUMNS,
  ANY_SIGN,
  EQUALITIES,
  REDUNDANT,
  SMALL_WHOLE,
  KINDS
};
static const char *const KIND_NAME[] = {"plain",    "degenerate", "badly scaled", "impossible", "free columns",
                                        "any sign", "equalities", "redundant",    "small whole"};

/* Entries with few digits, so that ties and degenerate corners are exact. */
static inline double small_number(struct draw *r) { return draw_below(r, 7) - 3; }

static inline void rough_entries(struct lp_model *m, struct draw *r, enum model_kind kind, double *a) {
  double size = kind == BADLY_SCALED ? draw_exp2(40 * draw_share(r) - 20) : draw_exp2(20 * draw_share(r) - 10);
  for (size_t j = 0; j < m->cols; j++) {
    bool zero = draw_chance(r, 0.2);
    a[j] = kind == DEGENERATE || kind == SMALL_WHOLE ? small_number(r) : size * draw_exp2(1.5 * draw_normal(r));
    if (kind == BADLY_SCALED) a[j] *= draw_exp2(4 * draw_normal(r));
    if ((kind == ANY_SIGN || kind == FREE_COLUMNS) && draw_chance(r, 0.3)) a[j] = -a[j];
    if (zero) a[j] = 0;
  }
}

static inline void rough_limits(struct draw *r, enum model_kind kind, double at, double *lo, double *hi) {
  double slack = kind == DEGENERATE ? 0 : fabs(at) * 0.2 * draw_share(r);
  int what = draw_below(r, 10);
  *lo = -INFINITY, *hi = INFINITY;
  if (kind == EQUALITIES && what < 5) {
    *lo = *hi = at;
  } else if (what < 6) {
    *lo = at - slack;
  } else if (what < 9) {
    *hi = at + slack;
  } else {
    *lo = at - slack, *hi = at + slack;
  }
  if (kind == IMPOSSIBLE && draw_chance(r, 0.1)) *lo = fabs(at) * 3 + 1, *hi = INFINITY;
}

static inline void make_rough(struct lp_model *m, struct arena *arena, struct draw *r, enum model_kind kind, int cols,
                              int rows) {
  lp_init(m, arena);
  double *inside = ARENA_NEW(arena, double, (size_t)cols), *a = ARENA_NEW(arena, double, (size_t)cols);
  for (int j = 0; j < cols; j++) {
    struct lp_col c = {.name = "c", .hi = draw_chance(r, 0.4) ? INFINITY : 300 * draw_share(r), .second = draw_share(r)};
    c.cost = kind == DEGENERATE || kind == SMALL_WHOLE ? draw_below(r, 4) : draw_share(r);
    if (kind == ANY_SIGN && draw_chance(r, 0.3)) c.cost = -c.cost;
    if (kind == SMALL_WHOLE) c.hi = 1 + draw_below(r, 9);
    if (kind == FREE_COLUMNS && draw_chance(r, 0.15)) c.lo = -INFINITY;
    if (draw_chance(r, 0.2))
      inside[j] = kind == DEGENERATE ? smaller_of(floor(c.hi), draw_below(r, 5)) : draw_share(r) * smaller_of(c.hi, 100);
    lp_add_col(m, c);
  }
  for (int i = 0; i < rows; i++) {
    double at = 0, lo, hi;
    if (kind == REDUNDANT && i > 1 && draw_chance(r, 0.4)) { /* twice another row, or the sum of two */
      int first = draw_below(r, i), second = draw_below(r, i);
      for (int j = 0; j < cols; j++) a[j] = m->a[first][j] + m->a[second][j];
    } else if (kind == REDUNDANT && draw_chance(r, 0.1)) {
      for (int j = 0; j < cols; j++) a[j] = 0;
    } else {
      rough_entries(m, r, kind, a);
    }
    for (int j = 0; j < cols; j++) at += a[j] * inside[j];
    rough_limits(r, kind, at, &lo, &hi);
    int row = lp_add_row(m, "r", lo, hi);
    for (int j = 0; j < cols; j++) lp_set(m, row, j, a[j]);
  }
}

/* Columns that are "zero or at least", whole, counted, or all of it; rows that a hidden mixed answer satisfies, mostly. */
static inline void make_mixed(struct lp_model *m, struct arena *arena, struct draw *r, int cols, int rows) {
  double *inside = ARENA_NEW(arena, double, (size_t)cols), *a = ARENA_NEW(arena, double, (size_t)cols);
  lp_init(m, arena);
  for (int j = 0; j < cols; j++) {
    struct lp_col c = {
        .name = "c", .hi = 20 + 200 * draw_share(r), .cost = 0.1 + draw_share(r), .second = 1, .counted = true};
    if (draw_chance(r, 0.25)) c.unit = draw_chance(r, 0.5) ? 17 : 7;
    if (draw_chance(r, 0.6)) c.least = 5;
    if (draw_chance(r, 0.1)) c.counted = false;
    lp_add_col(m, c);
    if (draw_chance(r, 0.3)) inside[j] = c.unit > 0 ? c.unit : 5 + draw_share(r) * (c.hi - 5);
  }
  for (int i = 0; i < rows; i++) {
    double size = draw_exp2(14 * draw_share(r) - 7), at = 0;
    for (int j = 0; j < cols; j++) {
      a[j] = draw_chance(r, 0.8) ? size * draw_exp2(1.4 * draw_normal(r)) : 0;
      at += a[j] * inside[j];
    }
    bool minimum = draw_chance(r, 0.7);
    double lo = minimum ? at * (0.6 + 0.35 * draw_share(r)) : -INFINITY,
           hi = minimum ? INFINITY : at * (1.05 + draw_share(r));
    if (draw_chance(r, 0.02)) lo = 3 * fabs(at) + 1, hi = INFINITY; /* now and then more than there can be */
    int row = lp_add_row(m, "r", lo, hi);
    for (int j = 0; j < cols; j++) lp_set(m, row, j, a[j]);
  }
  if (draw_chance(r, 0.7)) m->most_used = 2 + draw_below(r, 6);
}

/* ---- what counts as an answer ---- */

enum {
  UNDER_SANITIZER =
#if defined(__SANITIZE_ADDRESS__)
      1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
      1
#else
      0
#endif
#else
      0
#endif
};

/* 'all' models, or a twentieth of them when every memory access is watched. */
static inline int models_to_try(int all) { return UNDER_SANITIZER ? (all + 19) / 20 : all; }

/* NULL, or what is wrong with an answer of lp_solve, by arithmetic on the model alone. */
static inline const char *not_proved(const struct lp_model *m, const struct lp_answer *a) {
  if (a->status == LP_INFEASIBLE) return lp_farkas_proves(m, a->farkas) ? NULL : "impossible, without proof";
  if (a->status == LP_UNBOUNDED) return lp_ray_proves(m, a->ray) ? NULL : "unbounded, without proof";
  if (a->status != LP_OPTIMAL) return "no answer";
  struct lp_check c = lp_verify(m, a->x);
  if (!(c.worst_row <= 1e-9)) return "a row is violated";
  if (!(c.worst_col <= 1e-9)) return "a bound is violated";
  double size = 1 + fabs(a->objective);
  if (!(fabs(c.objective - a->objective) <= 1e-9 * size)) return "the objective is not that of x";
  return lp_dual_bound(m, a->dual) >= a->objective - 1e-7 * size ? NULL : "not proved to be the best";
}

/* The same for the mixed part: x keeps "zero or at least", whole units and the number of columns in use. */
static inline const char *not_mixed(const struct lp_model *m, const double *x) {
  int used = 0;
  for (size_t j = 0; j < m->cols; j++) {
    const struct lp_col *c = &m->col[j];
    if (c->counted && x[j] > 0) used++;
    if (c->least > 0 && x[j] != 0 && !(x[j] >= c->least * (1 - 1e-9))) return "between zero and the least amount";
    double units = c->unit > 0 ? x[j] / c->unit : 0;
    if (!(fabs(units - floor(units + 0.5)) <= 1e-9)) return "not whole";
  }
  if (m->most_used >= 0 && used > m->most_used) return "too many in use";
  struct lp_check c = lp_verify(m, x);
  return c.worst_row <= 1e-9 && c.worst_col <= 1e-9 ? NULL : "a limit is violated";
}

/* One of the corpus: diets of dogs and cats, easy, tight and impossible, then all kinds of rough programs. */
static inline const char *make_any(struct lp_model *m, struct arena *arena, uint64_t seed) {
  struct draw r = draw_from(seed);
  int kind = (int)(seed % (KINDS + 3));
  if (kind >= 3) {
    int cols = 1 + draw_below(&r, kind - 3 == SMALL_WHOLE ? 8 : 80), rows = 1 + draw_below(&r, 40);
    make_rough(m, arena, &r, (enum model_kind)(kind - 3), cols, rows);
    return KIND_NAME[kind - 3];
  }
  struct diet d = {.cat = kind == 1, .cap_foods = draw_chance(&r, 0.5), .foods = 20 + draw_below(&r, 120), .most_used = -1};
  if (kind == 2) d.tight = draw_share(&r), d.cat = draw_chance(&r, 0.5);
  make_diet(m, arena, &r, &d);
  return kind == 0 ? "dog" : kind == 1 ? "cat" : "tight diet";
}

#endif
