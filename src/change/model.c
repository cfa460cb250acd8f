#include "change/model.h"

#include <math.h>

#include "change/model_parts.h"

/* ---- candidates ------------------------------------------------------------------------------------------------- */

struct candidate candidate_of(const struct library *lib, uint32_t food, const char *name) {
  const struct img_food *f = library_food(lib, food);
  struct candidate c = {.name = name ? name : library_name(lib, food)};
  c.line = (struct ration_line){.text = c.name,
                                .part_count = 1,
                                .grams_fed = 1,
                                .state = f ? (enum state)f->state : STATE_UNSTATED,
                                .pinned = true,
                                .shown_food = food,
                                .grams_from = ""};
  c.line.part[0] = (struct portion){.food = food, .grams = 1, .retention = -1};
  ration_spread_days(&c.line, CALENDAR_DAYS, 0);
  return c;
}

struct ration_line candidate_line(const struct candidate *c, double grams_per_day) {
  struct ration_line l = c->line;
  double now = ration_line_grams_per_day(&l), factor = now > 0 ? grams_per_day / now : 0;
  l.grams_fed *= factor;
  for (int i = 0; i < l.part_count; i++) l.part[i].grams *= factor;
  return l;
}

/* ---- limits ----------------------------------------------------------------------------------------------------- */

struct model_limits model_limits_none(void) {
  struct model_limits l = {.energy_least = NAN,
                           .energy_most = NAN,
                           .kept_least = NAN,
                           .kept_most = NAN,
                           .mass_most = NAN,
                           .fat_share_most = NAN,
                           .phytate_zinc_most = NAN,
                           .food_share_most = NAN};
  for (int i = 0; i < BOWL_COUNT; i++) l.part_least[i] = l.part_most[i] = (double)NAN;
  return l;
}

struct model_limits model_limits_around(double kcal, double slack) {
  struct model_limits l = model_limits_none();
  l.energy_least = kcal * (1 - slack);
  l.energy_most = kcal * (1 + slack);
  l.balance = true;
  return l;
}

bool model_energy_kept(const struct model_limits *l, double kcal) {
  static const double SLACK = 1e-6;
  double least = isnan(l->kept_least) ? l->energy_least : l->kept_least;
  double most = isnan(l->kept_most) ? l->energy_most : l->kept_most;
  return !(kcal < least * (1 - SLACK)) && !(kcal > most * (1 + SLACK));
}

void model_energy_rows(struct model *p, bool wide) {
  for (size_t i = 0; i < p->notes; i++) {
    const struct row_note *n = &p->note[i];
    const struct limit *l = &p->limit[n->limit];
    if (l->kind != LIMIT_ENERGY_LEAST && l->kind != LIMIT_ENERGY_MOST) continue;
    const struct model_limits *of = &p->bowl[l->bowl]->limits;
    double by = l->kind == LIMIT_ENERGY_LEAST ? of->kept_least - of->energy_least : of->kept_most - of->energy_most;
    if (!wide || isnan(by)) by = 0;
    p->model.row[i].lo = n->lo + by;
    p->model.row[i].hi = n->hi + by;
  }
}

bool model_rows_kept(const struct model *p, const double *x) {
  static const double SLACK = 1e-6;
  for (size_t i = 0; i < p->notes; i++) {
    enum limit_kind kind = p->limit[p->note[i].limit].kind;
    const struct lp_row *row = &p->model.row[i];
    double sum = 0, size = 0;
    if (kind == LIMIT_ALLOWANCE || kind == LIMIT_UPPER || kind == LIMIT_HIGHEST_DAY) continue;
    for (size_t j = 0; j < p->columns; j++) {
      sum += p->model.a[i][j] * x[j];
      size = fmax(size, fabs(p->model.a[i][j] * x[j]));
    }
    if (sum < row->lo - SLACK * size || sum > row->hi + SLACK * size) return false;
  }
  return true;
}

int model_add_limit(struct model *p, struct limit l) {
  ARENA_PUSH(p->arena, p->limit, p->limit_count, p->limit_cap, l);
  return (int)p->limit_count - 1;
}

const struct limit *model_limit_of_row(const struct model *p, size_t row) { return &p->limit[p->note[row].limit]; }

/* ---- building --------------------------------------------------------------------------------------------------- */

static bool share_food(const struct candidate *a, const struct candidate *b) {
  for (int i = 0; i < a->line.part_count; i++)
    for (int j = 0; j < b->line.part_count; j++)
      if (a->line.part[i].food == b->line.part[j].food) return true;
  return false;
}

struct model *model_new(const struct library *lib, const struct candidate *candidate, size_t count, struct arena *arena) {
  struct model *p = ARENA_NEW(arena, struct model, 1);
  struct candidate *kept = ARENA_NEW(arena, struct candidate, count);
  if (count > 0) memcpy(kept, candidate, count * sizeof *kept);
  *p = (struct model){.lib = lib, .arena = arena, .candidate = kept, .candidates = count, .slack_first = -1};
  p->food_shared = ARENA_NEW(arena, bool, count);
  for (size_t i = 0; i < count; i++)
    for (size_t j = 0; j < count; j++)
      if (i != j && share_food(&kept[i], &kept[j])) p->food_shared[i] = true;
  lp_init(&p->model, arena);
  return p;
}

int model_column(struct model *p, int candidate, struct lp_col col) {
  ARENA_PUSH(p->arena, p->of_column, p->columns, p->column_cap, candidate);
  if (!col.name) col.name = p->candidate[candidate].name;
  return lp_add_col(&p->model, col);
}

static void remember_row(struct model *p, int limit, bool plane) {
  const struct lp_row *row = &p->model.row[p->model.rows - 1];
  struct row_note n = {.limit = limit, .plane = plane, .lo = row->lo, .hi = row->hi};
  ARENA_PUSH(p->arena, p->note, p->notes, p->note_cap, n);
}

/* A miss is measured in parts of the limit. */
void model_set_slack(struct model *p, int row, int limit) {
  double size = p->limit[limit].size;
  if (p->slack_first < 0) return;
  struct lp_row *r = &p->model.row[row];
  if (isfinite(r->lo)) lp_set(&p->model, row, p->slack_first + limit, size);
  if (isfinite(r->hi)) lp_set(&p->model, row, p->slack_first + limit, -size);
}

/* What is left of a limit; a rounding error is nothing, and no measure of the row. */
static double left_of(double limit, double constant) {
  double left = limit - constant;
  return isfinite(left) && fabs(left) <= 1e-12 * fmax(fabs(limit), fabs(constant)) ? 0 : left;
}

int model_add_form(struct model *p, int bowl, int limit, const double *per_g, double constant, double lo, double hi,
                   bool plane) {
  const struct bowl *b = p->bowl[bowl];
  for (size_t i = 0; i < p->candidates; i++) constant += per_g[i] * b->base[i];
  int row = lp_add_row(&p->model, p->limit[limit].name, left_of(lo, constant), left_of(hi, constant));
  for (size_t j = 0; j < p->columns; j++) lp_set(&p->model, row, (int)j, b->share[j] * per_g[p->of_column[j]]);
  model_set_slack(p, row, limit);
  remember_row(p, limit, plane);
  return row;
}

static double own_size(double lo, double hi) {
  double size = isfinite(lo) && lo != 0 ? fabs(lo) : isfinite(hi) ? fabs(hi) : 0;
  return size > 0 ? size : 1;
}

static void add_own_row(struct model *p, struct limit l, const double *coefficient, double lo, double hi) {
  int limit = model_add_limit(p, l);
  const char *name = l.name;
  int row = lp_add_row(&p->model, name, lo, hi);
  for (size_t j = 0; j < p->columns; j++) lp_set(&p->model, row, (int)j, coefficient[j]);
  remember_row(p, limit, false);
}

void model_row(struct model *p, const char *name, const double *coefficient, double lo, double hi) {
  add_own_row(p, (struct limit){LIMIT_OWN, NUT_NONE, -1, name, own_size(lo, hi)}, coefficient, lo, hi);
}

void model_tie(struct model *p, const char *name, const double *coefficient, double lo, double hi) {
  add_own_row(p, (struct limit){LIMIT_TIE, NUT_NONE, -1, name, 0}, coefficient, lo, hi);
}

struct lp_model *model_lp(struct model *p) {
  return &p->model;
}

void model_drop_rows(struct model *p, bool (*goes)(const struct row_note *note)) {
  size_t kept = 0;
  for (size_t i = 0; i < p->notes; i++) {
    if (goes(&p->note[i])) continue;
    p->note[kept] = p->note[i];
    p->model.row[kept] = p->model.row[i];
    double *a = p->model.a[i]; /* rows change places, so that none is lost */
    p->model.a[i] = p->model.a[kept];
    p->model.a[kept] = a;
    kept++;
  }
  p->notes = p->model.rows = kept;
}
