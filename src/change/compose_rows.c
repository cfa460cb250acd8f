/* compose_rows.c: the larder's limits and the aim as rows, columns and costs. Coefficients are what the judge says of one
 * gram a day. */
#include <math.h>

#include "base/num.h"
#include "change/compose_parts.h"
#include "change/model_parts.h"

/* ---- a food's range --------------------------------------------------------------------------------------------- */

bool compose_counted_feedings(const struct compose_food *f) { return f->times_high >= 0 && f->low == f->high; }

/* Fed, or not at all: a range at each feeding begins only when it is fed. */
static bool may_be_left_out(const struct compose_food *f) { return f->times_high >= 0 && !(f->times_low > 0); }

double compose_least(const struct compose_food *f) {
  double least = may_be_left_out(f) ? fmax(f->least, f->low) : f->least;
  if (compose_counted_feedings(f)) return 0; /* as much at each feeding as the larder says */
  return least * (f->times_high >= 0 ? f->times_high / CALENDAR_DAYS : 1);
}

double compose_range_low(const struct compose_food *f) { return may_be_left_out(f) ? 0 : f->low; }

/* ---- one gram ---------------------------------------------------------------------------------------------------- */

/* The gram of a candidate that is rarely fed is a gram a day on the average all the same. Only what depends on nothing but
 * the species is read from it. */
static const struct check_result *gram_of(const struct composer *c, size_t candidate, const struct animal *animal) {
  const struct check_result **known_gram = &c->gram[animal->species][candidate];
  if (*known_gram) return *known_gram;
  struct ration_line *line = ARENA_NEW(c->arena, struct ration_line, 1);
  struct ration *r = ARENA_NEW(c->arena, struct ration, 1);
  *line = candidate_line(&c->candidate[candidate], 1);
  *r = (struct ration){.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = 1};
  return *known_gram = check_numbers(c->lib, r, animal, &c->q->options, c->arena);
}

static double known(double x) { return isnan(x) ? 0 : x; }

double compose_kcal_per_g(const struct composer *c, size_t candidate) {
  return known(gram_of(c, candidate, c->q->animal)->energy.supply_kcal);
}

/* A pinch of seaweed does not matter: what could be so much of the food that the bowl's energy is no longer known does. */
static bool clouds_energy(const struct composer *c, size_t candidate) {
  const struct gram *g = &c->p->bowl[0]->gram[candidate];
  double need = 0, most = 0;
  for (size_t a = 0; a < c->q->animals; a++) need += c->need[a];
  for (size_t j = 0; j < c->columns; j++)
    if ((size_t)c->column_candidate[j] == candidate) most = fmax(most, model_lp(c->p)->col[j].hi);
  return energy_is_in_part(g->kcal, g->kcal_missing) && most * g->kcal_missing > energy_room_for_missing(need);
}

void compose_note_energy(struct composer *c) {
  const char **name = ARENA_NEW(c->arena, const char *, c->q->foods);
  for (size_t i = 0, last = c->q->foods; i < c->candidates; i++) {
    size_t food = (size_t)c->food_of[i];
    if (food == last || !clouds_energy(c, i)) continue; /* the numbers of feedings of one food lie together */
    name[c->out->energy_unknown_count++] = c->q->food[food].food.name;
    last = food;
  }
  c->out->energy_unknown = name;
}

static double macro_kcal(const struct check_result *r, enum nutrient n) {
  const struct energy_result *e = &r->energy;
  double share = n == NUT_PROTEIN ? e->share_protein : n == NUT_FAT ? e->share_fat : e->share_carbohydrate;
  return known(share * e->macro_kcal);
}

/* Where nobody has published the fat, as much as its kind may hold; an unknown cost would leave no order at all. */
static double fat_of(const struct nutrient_result *fat) { return isnan(fat->amount) ? known(fat->possible) : fat->amount; }

double compose_aim_cost(const struct composer *c, size_t candidate) {
  switch (c->q->aim) {
  case COMPOSE_CHEAPEST:
    return known(c->q->food[c->food_of[candidate]].price);
  case COMPOSE_LIGHTEST:
    return 1;
  case COMPOSE_LEANEST:
    return fat_of(&gram_of(c, candidate, c->q->animal)->nutrient[NUT_FAT]);
  case COMPOSE_NEAREST:
    break;
  }
  return 0;
}

/* ---- bowls ------------------------------------------------------------------------------------------------------- */

static const double ENERGY_SLACK = 0.05;

static bool one_part(unsigned parts, int *part) {
  for (int i = 0; i < BOWL_COUNT; i++)
    if (parts == 1u << i) {
      *part = i;
      return true;
    }
  return false;
}

static void add_limit(struct model_limits *l, const struct compose_limit *x, bool alone) {
  int part = 0;
  if (x->kind == COMPOSE_KCAL && alone) {
    l->energy_least = isfinite(x->low) ? x->low : (double)NAN;
    l->energy_most = isfinite(x->high) ? x->high : (double)NAN;
  }
  if (x->kind == COMPOSE_MASS && alone && isfinite(x->high))
    l->mass_most = fmin(known(l->mass_most) > 0 ? l->mass_most : INFINITY, x->high);
  if (x->kind == COMPOSE_ENERGY_SHARE && x->nutrient == NUT_FAT && isfinite(x->high)) l->fat_share_most = x->high;
  if (x->kind == COMPOSE_ONE_FOOD) l->food_share_most = x->high;
  if (x->kind == COMPOSE_PART && one_part(x->parts, &part)) {
    if (isfinite(x->low)) l->part_least[part] = x->low;
    if (isfinite(x->high)) l->part_most[part] = x->high;
  }
}

void compose_bowls(struct composer *c) {
  const struct compose_request *q = c->q;
  for (size_t a = 0; a < q->animals; a++) {
    struct model_limits l = model_limits_around(c->need[a], ENERGY_SLACK);
    for (size_t i = 0; i < q->limits; i++) add_limit(&l, &q->limit[i], q->animals == 1);
    double *share = ARENA_NEW(c->arena, double, model_lp(c->p)->cols);
    for (size_t j = 0; j < c->columns; j++)
      share[j] = c->column_animal[j] == ALL_BOWLS ? c->share[a] : c->column_animal[j] == (int)a ? 1 : 0;
    if (model_bowl(c->p, &q->animal[a], &q->options, &l, NULL, share) < 0) c->out->status = COMPOSE_NOT_LINEAR;
  }
}

/* ---- rows -------------------------------------------------------------------------------------------------------- */

static double *new_row(const struct composer *c) { return ARENA_NEW(c->arena, double, model_lp(c->p)->cols); }

static const char *row_name(const struct composer *c, const char *words, size_t animal) {
  struct buf b;
  if (c->q->animals == 1) return words;
  buf_init(&b, c->arena, 300);
  buf_addf(&b, "%s: %s", c->q->animal[animal].name, words);
  return buf_text(&b);
}

/* How much of a column is in the bowl of an animal. */
static double in_bowl(const struct composer *c, size_t column, size_t animal) {
  return c->column_animal[column] == ALL_BOWLS ? c->share[animal] : c->column_animal[column] == (int)animal ? 1 : 0;
}

static double share_of_parts(const struct check_result *r, unsigned parts) {
  double sum = 0;
  for (int i = 0; i < BOWL_COUNT; i++)
    if (parts & 1u << i) sum += r->parts[i];
  return sum;
}

/* What a gram counts on the two sides of "share of": of the part, of the whole. */
static void two_sides(const struct compose_limit *l, const struct check_result *r, double *part, double *whole) {
  if (l->kind == COMPOSE_PART) {
    *part = share_of_parts(r, l->parts);
    *whole = 1;
  } else {
    *part = macro_kcal(r, l->nutrient);
    *whole = r->energy.macro_kcal;
  }
}

/* A share is a row on each side of nothing: part - share x whole. */
static void share_rows(struct composer *c, const struct compose_limit *l, size_t animal) {
  double *low = new_row(c), *high = new_row(c);
  for (size_t j = 0; j < c->columns; j++) {
    double part, whole, in = in_bowl(c, j, animal);
    if (in == 0) continue;
    two_sides(l, gram_of(c, (size_t)c->column_candidate[j], &c->q->animal[animal]), &part, &whole);
    low[j] = in * (part - l->low * whole);
    high[j] = in * (part - l->high * whole);
  }
  const char *name = row_name(c, l->words, animal);
  if (isfinite(l->low)) model_row(c->p, name, low, 0, INFINITY);
  if (isfinite(l->high)) model_row(c->p, name, high, -INFINITY, 0);
}

/* What nobody knows of a food counts as nothing toward a least, and toward a most as much as its kind may hold. */
static void amount_rows(struct composer *c, const struct compose_limit *l, size_t animal) {
  double *low = new_row(c), *high = new_row(c);
  for (size_t j = 0; j < c->columns; j++) {
    const struct totals *t = c->p->bowl[animal]->gram[c->column_candidate[j]].totals;
    double in = in_bowl(c, j, animal), amount = t->amount[l->nutrient];
    low[j] = in * amount;
    high[j] = in * (amount + known(t->missing_high[l->nutrient]));
  }
  const char *name = row_name(c, l->words, animal);
  if (isfinite(l->low)) model_row(c->p, name, low, l->low, INFINITY);
  if (isfinite(l->high)) model_row(c->p, name, high, -INFINITY, l->high);
}

/* Over everything that leaves the larder in a day. */
static void total_row(struct composer *c, const struct compose_limit *l, double low, double high) {
  double *row = new_row(c);
  for (size_t j = 0; j < c->columns; j++)
    row[j] = l->kind == COMPOSE_COST ? known(c->q->food[c->food_of[c->column_candidate[j]]].price) : 1;
  model_row(c->p, l->words, row, low, high);
}

static void limit_rows(struct composer *c, const struct compose_limit *l) {
  bool alone = c->q->animals == 1;
  int part;
  switch (l->kind) {
  case COMPOSE_ENERGY_SHARE:
  case COMPOSE_PART:
    for (size_t a = 0; a < c->q->animals; a++) {
      struct compose_limit rest = *l;
      if (l->kind == COMPOSE_ENERGY_SHARE && l->nutrient == NUT_FAT) rest.high = INFINITY; /* the bowl's own row */
      if (l->kind == COMPOSE_PART && one_part(l->parts, &part)) continue;
      share_rows(c, &rest, a);
    }
    break;
  case COMPOSE_NUTRIENT:
    for (size_t a = 0; a < c->q->animals; a++) amount_rows(c, l, a);
    break;
  case COMPOSE_KCAL:
    if (!alone) { /* of all together */
      double *row = new_row(c);
      for (size_t j = 0; j < c->columns; j++) row[j] = compose_kcal_per_g(c, (size_t)c->column_candidate[j]);
      model_row(c->p, l->words, row, l->low, l->high);
    }
    break;
  case COMPOSE_MASS:
    if (isfinite(l->low)) total_row(c, l, l->low, INFINITY);
    if (!alone && isfinite(l->high)) total_row(c, l, -INFINITY, l->high);
    break;
  case COMPOSE_COST:
    total_row(c, l, l->low, l->high);
    break;
  case COMPOSE_FOODS: {
    struct lp_model *m = model_lp(c->p);
    int most = (int)l->high;
    m->most_used = m->most_used < 0 || most < m->most_used ? most : m->most_used;
    break;
  }
  case COMPOSE_ONE_FOOD:
    break;
  }
}

/* One number of feedings at a time; and one must be when the larder says so. */
static void feeding_rows(struct composer *c) {
  for (size_t f = 0; f < c->q->foods; f++) {
    double *row = new_row(c);
    int several = 0;
    for (size_t i = 0; i < c->candidates; i++) {
      if ((size_t)c->food_of[i] != f || !(model_lp(c->p)->col[i].unit > 0)) continue;
      row[i] = 1 / model_lp(c->p)->col[i].unit;
      several++;
    }
    const struct compose_food *food = &c->q->food[f];
    if (!(food->times_high >= 0) || food->low != food->high || several == 0) continue;
    struct buf b;
    buf_init(&b, c->arena, 300);
    buf_addf(&b, "%s: as often as the larder says", food->food.name);
    model_row(c->p, buf_text(&b), row, food->times_low > 0 ? 1 : -INFINITY, 1);
  }
}

/* For a household the larder's range holds for the base and all toppers together. */
static void range_rows(struct composer *c) {
  for (size_t i = 0; i < c->candidates && c->q->animals > 1; i++) {
    const struct compose_food *f = &c->q->food[c->food_of[i]];
    double by = c->times_of[i] / CALENDAR_DAYS;
    if ((f->times_high >= 0 && f->low == f->high) || (!isfinite(f->high) && !(compose_range_low(f) > 0))) continue;
    double *row = new_row(c);
    for (size_t j = 0; j < c->columns; j++) row[j] = (size_t)c->column_candidate[j] == i;
    struct buf b;
    buf_init(&b, c->arena, 300);
    buf_addf(&b, "%s: %s", f->food.name, f->words ? f->words : "the larder's range");
    model_row(c->p, buf_text(&b), row, compose_range_low(f) > 0 ? f->low * by : -INFINITY, f->high * by);
  }
}

/* ---- nearest to a pattern ------------------------------------------------------------------------------------------ */

/* Two columns a part, too much and too little, that belong to no bowl. */
void compose_aim_columns(struct composer *c) {
  for (int i = 0; i < 2 * BOWL_COUNT; i++)
    model_column(c->p, 0, (struct lp_col){.name = "distance from the pattern", .hi = INFINITY, .cost = 1});
}

static void pattern_rows(struct composer *c) {
  for (int part = 0; part < BOWL_COUNT && c->q->aim == COMPOSE_NEAREST; part++) {
    double *row = new_row(c);
    for (size_t j = 0; j < c->columns; j++) {
      const struct check_result *r = gram_of(c, (size_t)c->column_candidate[j], c->q->animal);
      row[j] = r->parts[part] - c->q->pattern[part];
    }
    row[c->columns + 2 * (size_t)part] = -1;
    row[c->columns + 2 * (size_t)part + 1] = 1;
    model_row(c->p, "the pattern", row, 0, 0);
  }
}

/* ---- a food counts once ------------------------------------------------------------------------------------------- */

/* In a household a food may be in the base and in toppers. What counts toward "at most so many foods", and what
 * is nothing or at least so much, is a column for the sum of them. */
void compose_count_columns(struct composer *c) {
  c->count_first = (int)model_lp(c->p)->cols;
  for (size_t f = 0; f < c->q->foods; f++) {
    const struct compose_food *food = &c->q->food[f];
    model_column(c->p, 0,
                 (struct lp_col){.name = food->food.name, .hi = INFINITY, .least = compose_least(food), .counted = true});
  }
}

static void count_rows(struct composer *c) {
  for (size_t f = 0; f < c->q->foods && c->count_first > 0; f++) {
    double *row = new_row(c);
    for (size_t j = 0; j < c->columns; j++) row[j] = (size_t)c->food_of[c->column_candidate[j]] == f;
    row[(size_t)c->count_first + f] = -1;
    model_tie(c->p, "a food counts once", row, 0, 0);
  }
}

void compose_rows(struct composer *c) {
  for (size_t i = 0; i < c->q->limits; i++) limit_rows(c, &c->q->limit[i]);
  feeding_rows(c);
  range_rows(c);
  pattern_rows(c);
  count_rows(c);
}
