/* impossible.c: why nothing was found, what comes nearest, and what would help. */
#include <math.h>

#include "base/num.h"
#include "change/program_parts.h"

/* ---- a smallest conflict ---------------------------------------------------------------------------------------- */

static const char *bound_words(const struct program *p, size_t col, bool most) {
  const struct lp_col *c = &p->model.col[col];
  struct buf b;
  buf_init(&b, p->arena, 200);
  buf_addf(&b, "%s: %s ", c->name, most ? "at most" : "at least");
  num_sig(&b, most ? c->hi : c->lo, 3);
  buf_adds(&b, " g a day");
  return buf_text(&b);
}

/* No food can be less than nothing: that is no limit that somebody set. */
static bool natural_lower(const struct lp_col *c) { return c->lo <= 0; }
static bool takes_away(const struct program *p, size_t col) {
  for (size_t b = 0; b < p->bowls; b++)
    if (p->bowl[b]->share[col] > 0) return false;
  return p->bowls > 0;
}

static bool in_some_bowl(const struct program *p, size_t col) {
  for (size_t b = 0; b < p->bowls; b++)
    if (p->bowl[b]->base[p->of_column[col]] > 0) return true;
  return false;
}

/* There is seldom one conflict only. Limits of the bowl say more than "so much of this food and no more": it is looked for
 * with the upper ends of all columns let go, with those of foods that are in the bowl already, and with none; the one that
 * is shortest to read counts. */
enum ease { EASE_ALL, EASE_PRESENT, EASE_NONE, EASES };

static struct lp_conflict conflict_with(struct program *p, enum ease ease, struct arena *scratch) {
  struct lp_model m = p->model;
  m.col = ARENA_NEW(scratch, struct lp_col, m.cols);
  memcpy(m.col, p->model.col, m.cols * sizeof *m.col);
  for (size_t j = 0; j < p->columns; j++) {
    struct lp_col *c = &m.col[j];
    bool free_above = ease == EASE_ALL || (ease == EASE_PRESENT && in_some_bowl(p, j));
    if (free_above && c->hi > c->lo && !takes_away(p, j)) c->hi = INFINITY, c->unit = 0;
  }
  return lp_smallest_conflict(&m, scratch);
}

static double weight_of(const struct program *p, const struct lp_conflict *c) {
  static const double OFFERED = 1.5, PRESENT = 4;
  double sum = 0;
  for (size_t i = 0; i < p->model.rows; i++) sum += c->row_lo[i] || c->row_hi[i];
  for (size_t j = 0; j < p->columns; j++)
    if (c->col_hi[j] && !takes_away(p, j)) sum += in_some_bowl(p, j) ? PRESENT : OFFERED;
  return sum;
}

struct program_conflict program_conflict(struct program *p, struct arena *arena) {
  struct arena scratch;
  arena_init(&scratch, arena->on_full);
  struct lp_conflict c = {.count = 0};
  for (int ease = 0; ease < EASES; ease++) {
    struct lp_conflict other = conflict_with(p, (enum ease)ease, &scratch);
    if (other.count > 0 && (c.count == 0 || weight_of(p, &other) < weight_of(p, &c))) c = other;
  }
  struct program_conflict out = {.words = ARENA_NEW(arena, const char *, c.count)};
  bool *told = ARENA_NEW(&scratch, bool, p->limit_count);
  for (size_t i = 0; i < p->model.rows && c.count > 0; i++) {
    if ((!c.row_lo[i] && !c.row_hi[i]) || told[p->note[i].limit]) continue;
    told[p->note[i].limit] = true;
    out.words[out.count++] = p->limit[p->note[i].limit].name;
  }
  for (size_t j = 0; j < p->columns && c.count > 0; j++) {
    if (takes_away(p, j)) continue;
    if (c.col_lo[j] && !natural_lower(&p->model.col[j])) out.words[out.count++] = bound_words(p, j, false);
    if (c.col_hi[j]) out.words[out.count++] = bound_words(p, j, true);
  }
  arena_free(&scratch);
  return out;
}

/* ---- the nearest ------------------------------------------------------------------------------------------------ */

/* Too much or too little food is no repair: a miss of the energy weighs so many times more than one of a nutrient. */
static const double ENERGY_WEIGHT = 20, COST_SHARE = 1e-6;

static double miss_cost(enum limit_kind k) { return k == LIMIT_ENERGY_LEAST || k == LIMIT_ENERGY_MOST ? ENERGY_WEIGHT : 1; }

/* The same program with a column for each limit, open and paid for: how far it is missed, as a share of it. */
static struct program *with_misses(const struct program *p) {
  struct program *q = ARENA_NEW(p->arena, struct program, 1);
  double dearest = 0;
  *q = *p;
  lp_init(&q->model, p->arena);
  for (size_t j = 0; j < p->columns; j++) {
    struct lp_col c = p->model.col[j];
    c.least = c.unit = 0;
    c.cost = p->model.col[j].cost;
    dearest = fmax(dearest, fabs(c.cost) * fmax(1, isfinite(c.hi) ? c.hi : 1));
    lp_add_col(&q->model, c);
  }
  for (size_t j = 0; j < p->columns && dearest > 0; j++) q->model.col[j].cost *= COST_SHARE / dearest;
  q->slack_first = (int)p->columns;
  for (size_t i = 0; i < p->limit_count; i++)
    lp_add_col(&q->model, (struct lp_col){.name = p->limit[i].name, .hi = INFINITY, .cost = miss_cost(p->limit[i].kind)});
  q->note = NULL;
  q->notes = q->note_cap = 0;
  for (size_t i = 0; i < p->model.rows; i++) {
    const struct lp_row *r = &p->model.row[i];
    int row = lp_add_row(&q->model, r->name, r->lo, r->hi);
    for (size_t j = 0; j < p->columns; j++) lp_set(&q->model, row, (int)j, p->model.a[i][j]);
    program_set_slack(q, row, p->note[i].limit);
    ARENA_PUSH(q->arena, q->note, q->notes, q->note_cap, p->note[i]);
  }
  return q;
}

static double sum_of_misses(const struct program *q, const double *x) {
  double sum = 0;
  for (size_t i = 0; i < q->limit_count; i++) sum += miss_cost(q->limit[i].kind) * x[q->columns + i];
  return sum;
}

struct program_nearest program_nearest(struct program *p, struct arena *arena) {
  struct program *q = with_misses(p);
  struct program_answer a = program_solve(q, false, NULL);
  struct program_nearest out = {.has_x = a.has_x, .misses = NAN};
  if (!a.has_x) return out;
  out.x = ARENA_NEW(arena, double, p->columns);
  memcpy(out.x, a.x, p->columns * sizeof *out.x);
  out.misses = sum_of_misses(q, a.x);
  out.price = ARENA_NEW(arena, double, p->limit_count);
  for (size_t i = 0; i < a.rows; i++) out.price[q->note[i].limit] += a.dual[i];
  return out;
}

/* ---- what would help -------------------------------------------------------------------------------------------- */

enum { TRIED = 12 };
/* The most of a food that is worth trying: common practice. */
static const double MOST_G_PER_METABOLIC_KG = 12, MOST_ENERGY_SHARE = 0.25, DRY_BELOW = 0.2; /* water, g per g */

/* What a gram of a food is worth at the prices of the limits: how much of the misses it takes away. */
static double worth(const struct program *p, const struct bowl *b, int bowl, const struct program_nearest *nearest,
                    const struct gram *g) {
  double sum = 0, thousand = g->kcal / 1000;
  for (size_t i = 0; i < p->limit_count; i++) {
    const struct limit *l = &p->limit[i];
    double price = nearest->price[i];
    if (price == 0 || l->bowl != bowl) continue;
    if (l->kind == LIMIT_ENERGY_LEAST || l->kind == LIMIT_ENERGY_MOST) sum += price * g->kcal;
    if (l->kind == LIMIT_MASS) sum += price;
    if (l->nutrient == NUT_NONE || l->nutrient == NUT_ENERGY || l->kind == LIMIT_FAT_SHARE) continue;
    const struct duty *d = &b->duty[l->nutrient];
    const struct form *f = l->kind == LIMIT_ALLOWANCE ? &d->need[0] : d->uppers > 0 ? &d->upper[0] : NULL;
    /* A figure that grows with the energy grows with this food as well. */
    double grows = f && f->per_g && b->gram[0].kcal > 0 ? f->per_g[0] / b->gram[0].kcal * 1000 * thousand : 0;
    sum += price * (g->totals->amount[l->nutrient] - grows);
  }
  return sum;
}

/* A day for an animal of 10 kg; 0: nobody uses it as a repair. */
static double most_of_fixes(const struct library *lib, uint32_t food) {
  const struct img_fix *fix = IMG_ROWS(&lib->image, IMG_FIXES, struct img_fix);
  double most = 0;
  for (size_t i = 0; i < img_count(&lib->image, IMG_FIXES); i++)
    if (fix[i].food == food) most = fmax(most, fix[i].most_g);
  return most;
}

static bool ordinary(const struct program *p, uint32_t food) {
  const struct img_food *f = library_food(p->lib, food);
  enum { ODD = FOOD_ENRICHED | FOOD_BRAND | FOOD_DISH | FOOD_SALTED | FOOD_BONE | FOOD_RAW_WHITE | FOOD_KELP };
  bool plain = f && (f->flags & FOOD_PLAIN) && !(f->flags & ODD) && f->hazard == NO_INDEX;
  if (f && f->part == PART_SUPPLEMENT) plain = most_of_fixes(p->lib, food) > 0; /* no pure substances by the spoon */
  if (!plain || f->part == PART_OTHER || strstr(lib_str(p->lib, f->group), "Spice")) return false;
  for (size_t i = 0; i < p->candidates; i++)
    if (p->candidate[i].line.shown_food == food) return false;
  return true;
}

static double most_grams(const struct bowl *b, const struct library *lib, uint32_t food, const struct gram *g) {
  static const double FIX_METABOLIC_KG = 5.623; /* 10 kg to the power of 0.75 */
  double metabolic = animal_body(lib, b->animal).metabolic_kg, fix = most_of_fixes(lib, food);
  if (fix > 0) return fix * metabolic / FIX_METABOLIC_KG;
  bool dry = g->totals->amount[NUT_WATER] < DRY_BELOW;
  double by_mass = MOST_G_PER_METABOLIC_KG * metabolic * (dry ? 0.25 : 1),
         usual = b->limits.energy_most > 0 ? b->limits.energy_most : 500;
  return g->kcal > 0 ? fmin(by_mass, MOST_ENERGY_SHARE * usual / g->kcal) : by_mass;
}

static void keep_best(struct program_help *best, double *value, size_t *count, uint32_t food, double worth_g, double grams) {
  size_t at = *count;
  double v = worth_g * grams;
  if (*count == TRIED && !(v > value[TRIED - 1])) return;
  if (*count < TRIED)
    (*count)++;
  else
    at = TRIED - 1;
  for (; at > 0 && v > value[at - 1]; at--) {
    best[at] = best[at - 1];
    value[at] = value[at - 1];
  }
  best[at] = (struct program_help){.food = food, .grams = grams};
  value[at] = v;
}

/* The program with one more food on offer, free of cost or not, in one bowl. */
static struct program *with_food(const struct program *p, int bowl, uint32_t food, double most) {
  struct candidate *c = ARENA_NEW(p->arena, struct candidate, p->candidates + 1);
  if (p->candidates > 0) memcpy(c, p->candidate, p->candidates * sizeof *c);
  c[p->candidates] = candidate_of(p->lib, food, NULL);
  struct program *q = program_new(p->lib, c, p->candidates + 1, p->arena);
  for (size_t j = 0; j < p->columns; j++) {
    struct lp_col col = p->model.col[j];
    col.cost = col.least = col.unit = 0;
    program_column(q, p->of_column[j], col);
  }
  program_column(q, (int)p->candidates, (struct lp_col){.hi = most, .cost = 1});
  for (size_t b = 0; b < p->bowls; b++) {
    double *base = ARENA_NEW(p->arena, double, p->candidates + 1), *share = ARENA_NEW(p->arena, double, p->columns + 1);
    memcpy(base, p->bowl[b]->base, p->candidates * sizeof *base);
    memcpy(share, p->bowl[b]->share, p->columns * sizeof *share);
    share[p->columns] = (int)b == bowl;
    if (program_bowl(q, p->bowl[b]->animal, &p->bowl[b]->options, &p->bowl[b]->limits, base, share) < 0) return NULL;
  }
  for (size_t i = 0; i < p->model.rows; i++) {
    if (p->limit[p->note[i].limit].kind != LIMIT_OWN) continue;
    double *row = ARENA_NEW(p->arena, double, p->columns + 1);
    memcpy(row, p->model.a[i], p->columns * sizeof *row);
    program_row(q, p->model.row[i].name, row, p->model.row[i].lo, p->model.row[i].hi);
  }
  return q;
}

static void try_food(struct program *p, int bowl, const struct program_nearest *nearest, struct program_help *h,
                     struct arena *arena) {
  struct program *q = with_food(p, bowl, h->food, h->grams);
  h->most_grams = h->grams;
  h->grams = NAN;
  if (!q) return;
  struct program_answer a = program_solve(q, false, NULL);
  if (a.status == PROGRAM_FOUND) {
    h->enough = true;
    h->grams = a.x[p->columns];
    h->relief = 1;
    return;
  }
  struct program_nearest n = program_nearest(q, arena);
  if (n.has_x && nearest->misses > 0) h->relief = fmax(0, 1 - n.misses / nearest->misses);
}

static bool better(const struct program_help *a, const struct program_help *b) {
  if (a->enough != b->enough) return a->enough;
  return a->relief > b->relief;
}

static void sort_help(struct program_help *h, size_t n) {
  for (size_t i = 1; i < n; i++) {
    struct program_help x = h[i];
    size_t j = i;
    for (; j > 0 && better(&x, &h[j - 1]); j--) h[j] = h[j - 1];
    h[j] = x;
  }
}

size_t program_would_help(struct program *p, int bowl, const struct program_nearest *nearest, struct program_help *out,
                          size_t most, struct arena *arena) {
  struct program_help best[TRIED];
  double value[TRIED];
  size_t count = 0, told = 0;
  if (!nearest->has_x) return 0;
  const struct bowl *b = p->bowl[bowl];
  for (uint32_t food = 0; food < library_count(p->lib); food++) {
    struct arena scratch;
    if (!ordinary(p, food)) continue;
    arena_init(&scratch, arena->on_full);
    struct gram g = program_gram(p, b, food, &scratch);
    double w = isfinite(g.kcal) ? worth(p, b, bowl, nearest, &g) : 0;
    if (w > 0) keep_best(best, value, &count, food, w, most_grams(b, p->lib, food, &g));
    arena_free(&scratch);
  }
  for (size_t i = 0; i < count; i++) try_food(p, bowl, nearest, &best[i], arena);
  sort_help(best, count);
  for (size_t i = 0; i < count && told < most; i++)
    if (best[i].relief > 0.01) out[told++] = best[i];
  return told;
}
