/* would_help.c: foods of the library that people buy and that would make an impossible program possible, alone or a few
 * together.
 *
 * The prices of the nearest answer (dual values of the missed limits) say what a gram of any food would be worth. The
 * foods that are worth most, from among those that help with different limits, are put on offer and the program is solved
 * again: what is said of a food has been computed with that food. */
#include <math.h>

#include "change/model_parts.h"
#include "foods/portion.h"

enum { TRIED = 24, TRIED_PER_LIMIT = 4, TOLD_PER_LIMIT = 2 };
/* The most of a food that is worth trying: common practice. */
static const double MOST_G_PER_METABOLIC_KG = 12, MOST_ENERGY_SHARE = 0.25, DRY_BELOW = 0.2, /* water, g per g */
    TABLE_KG = 10,                                                                           /* of data/shop_units.tsv */
    OBVIOUS = 10; /* times its worth, in the order of trials */

/* What is to be mended, and where a food would go: share[bowl] of each gram. Rules of columns (least, unit, most_used) are
 * kept as in the nearest answer, or not. */
struct offer {
  const struct model *p;
  const struct model_nearest *nearest;
  const double *share; /* [bowls] */
  const struct lp_limits *limits;
};

static bool may_go_on(const struct offer *o) {
  return !o->limits || !o->limits->go_on || o->limits->go_on(o->limits->user, NULL, -INFINITY, 0);
}

/* ---- which foods are worth a trial ------------------------------------------------------------------------------- */

struct trial {
  uint32_t food;
  double most;  /* g a day */
  double worth; /* of so much of it, at the prices of the nearest answer */
  int limit;    /* the one for which it is worth most */
};

/* What a gram of a food in one bowl is worth at the price of one of its limits. */
static double worth_for(const struct bowl *b, const struct limit *l, double price, const struct gram *g) {
  double sum = 0;
  if (l->kind == LIMIT_ENERGY_LEAST || l->kind == LIMIT_ENERGY_MOST) sum += price * g->kcal;
  if (l->kind == LIMIT_MASS) sum += price;
  if (l->nutrient == NUT_NONE || l->nutrient == NUT_ENERGY || l->kind == LIMIT_FAT_SHARE) return sum;
  const struct duty *d = &b->duty[l->nutrient];
  const struct form *f = l->kind == LIMIT_ALLOWANCE ? &d->need[0] : d->uppers > 0 ? &d->upper[0] : NULL;
  /* A figure that grows with the energy grows with this food as well. */
  double grows = f && f->per_g && b->gram[0].kcal > 0 ? f->per_g[0] / b->gram[0].kcal * g->kcal : 0;
  return sum + price * (g->totals->amount[l->nutrient] - grows);
}

/* What a gram of a food is worth, shared out to the bowls as it would be: how much of the misses it takes away. */
static double worth(const struct offer *o, const struct gram *gram, int *limit) {
  double sum = 0, largest = 0;
  *limit = -1;
  for (size_t i = 0; i < o->p->limit_count; i++) {
    const struct limit *l = &o->p->limit[i];
    if (o->nearest->price[i] == 0 || l->bowl < 0 || o->share[l->bowl] == 0) continue;
    double part = o->share[l->bowl] * worth_for(o->p->bowl[l->bowl], l, o->nearest->price[i], &gram[l->bowl]);
    sum += part;
    if (part > largest) largest = part, *limit = (int)i;
  }
  return sum;
}

/* Is it used to cover a nutrient: a kitchen food, or something that shops sell by the piece? */
static const struct img_fix *fix_of(const struct library *lib, uint32_t food) {
  const struct img_fix *fix = IMG_ROWS(&lib->image, IMG_FIXES, struct img_fix);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FIXES); i++)
    if (fix[i].food == food) return &fix[i];
  return NULL;
}

static bool ordinary(const struct model *p, uint32_t food) {
  const struct img_food *f = library_food(p->lib, food);
  enum { ODD = FOOD_ENRICHED | FOOD_BRAND | FOOD_DISH | FOOD_SALTED | FOOD_BONE | FOOD_RAW_WHITE | FOOD_KELP };
  if (f && f->part == PART_SHELLFISH && f->state == STATE_RAW) return false; /* only from somebody's own larder */
  bool plain = f && (f->flags & FOOD_PLAIN) && !(f->flags & ODD) && f->hazard == NO_INDEX;
  if (f && f->part == PART_SUPPLEMENT) plain = fix_of(p->lib, food) != NULL; /* no pure substances by the spoon */
  if (!plain || f->part == PART_OTHER || strstr(lib_str(p->lib, f->group), "Spice")) return false;
  for (size_t i = 0; i < p->candidates; i++)
    if (p->candidate[i].line.shown_food == food) return false;
  return true;
}

void model_heed(struct model *p, const struct ration *r) { p->heeded = r; }

/* A ceiling of data/portions.tsv, of a shop unit, or, where neither is known, of the mass and of the energy. */
static double most_for(const struct bowl *b, const struct library *lib, uint32_t food, const struct gram *g) {
  struct animal_body body = animal_body(lib, b->animal);
  const struct img_fix *fix = fix_of(lib, food);
  double metabolic = body.metabolic_kg, most = portion_most_g(lib, food, b->animal->species, metabolic, (double)NAN);
  if (isfinite(most)) return most;
  if (fix && fix->shop_unit != NO_INDEX) {
    const struct img_shop_unit *u = &IMG_ROWS(&lib->image, IMG_SHOP_UNITS, struct img_shop_unit)[fix->shop_unit];
    double per_g = u->nutrient < NUT_COUNT ? (double)library_values(lib, food)[u->nutrient].mean / 100 : 0;
    if (per_g > 0) return (double)u->holds / per_g * fmax(1, (double)u->most * metabolic / pow(TABLE_KG, body.exponent));
  }
  bool dry = g->totals->amount[NUT_WATER] < DRY_BELOW;
  double by_mass = MOST_G_PER_METABOLIC_KG * metabolic * (dry ? 0.25 : 1),
         usual = b->limits.energy_most > 0 ? b->limits.energy_most : 500;
  return g->kcal > 0 ? fmin(by_mass, MOST_ENERGY_SHARE * usual / g->kcal) : by_mass;
}

/* As much as no bowl gets more of it than is worth trying there. */
static double most_grams(const struct offer *o, uint32_t food, const struct gram *gram) {
  double most = INFINITY;
  for (size_t b = 0; b < o->p->bowls; b++)
    if (o->share[b] > 0) most = fmin(most, most_for(o->p->bowl[b], o->p->lib, food, &gram[b]) / o->share[b]);
  return most;
}

/* Keeps the worthiest: at most TRIED in all, so many for each limit. The list is in falling order. */
static void keep_best(struct trial *best, size_t *count, struct trial x) {
  size_t alike = 0, out = *count;
  for (size_t i = 0; i < *count; i++)
    if (best[i].limit == x.limit && ++alike == TRIED_PER_LIMIT) out = i; /* the least of its own kind */
  if (out == *count && *count == TRIED) out = TRIED - 1;
  if (out < *count && !(x.worth > best[out].worth)) return;
  if (out == *count) (*count)++;
  for (; out > 0 && x.worth > best[out - 1].worth; out--) best[out] = best[out - 1];
  best[out] = x;
}

/* Is it the first thing that people use for what this limit asks? Then it is tried before rarer foods that are worth more.
 */
static bool is_obvious(const struct offer *o, uint32_t food, int limit) {
  const struct img_fix *fix = IMG_ROWS(&o->p->lib->image, IMG_FIXES, struct img_fix);
  for (size_t i = 0; i < img_count(&o->p->lib->image, IMG_FIXES); i++)
    if (limit >= 0 && fix[i].food == food && !fix[i].late && (enum nutrient)fix[i].nutrient == o->p->limit[limit].nutrient)
      return true;
  return false;
}

static struct trial trial_of(const struct offer *o, uint32_t food, struct arena *scratch) {
  struct trial x = {.food = food, .limit = -1};
  struct gram *gram = ARENA_NEW(scratch, struct gram, o->p->bowls);
  for (size_t b = 0; b < o->p->bowls; b++) {
    if (o->share[b] == 0) continue;
    gram[b] = model_gram(o->p, o->p->bowl[b], food, scratch);
    if (!isfinite(gram[b].kcal)) return x;
  }
  double a_gram = worth(o, gram, &x.limit);
  if (!(a_gram > 0)) return x;
  x.most = most_grams(o, food, gram);
  x.worth = a_gram * x.most * (is_obvious(o, food, x.limit) ? OBVIOUS : 1);
  return x;
}

/* Foods with a name in everyday speech, and what people use to cover a nutrient (as it is bought: not the cooked record
 * beside the raw one): most of the library are cuts, breeds and animals that nobody can buy. */
static bool *usual_foods(const struct library *lib, struct arena *arena) {
  const struct img_name *name = IMG_ROWS(&lib->image, IMG_NAMES, struct img_name);
  const struct img_fix *fix = IMG_ROWS(&lib->image, IMG_FIXES, struct img_fix);
  size_t foods = library_count(lib);
  bool *is = ARENA_NEW(arena, bool, foods);
  for (size_t i = 0; i < img_count(&lib->image, IMG_NAMES); i++)
    if (name[i].food < foods) is[name[i].food] = true;
  for (size_t i = 0; i < img_count(&lib->image, IMG_FIXES); i++)
    if (fix[i].food < foods && fix[i].way != FIX_COOKED) is[fix[i].food] = true;
  return is;
}

static size_t choose(const struct offer *o, struct trial *best, const struct arena *arena) {
  size_t count = 0;
  struct arena all;
  arena_init(&all, arena->on_full);
  const bool *usual = usual_foods(o->p->lib, &all);
  for (uint32_t food = 0; food < library_count(o->p->lib); food++) {
    struct arena scratch;
    if (!usual[food] || !ordinary(o->p, food)) continue;
    if (!may_go_on(o)) break;
    arena_init(&scratch, arena->on_full);
    bool refused = o->p->heeded && ration_refuses(o->p->lib, o->p->heeded, food, "", &scratch);
    struct trial x = trial_of(o, food, &scratch);
    if (!refused && x.worth > 0 && x.limit >= 0) keep_best(best, &count, x);
    arena_free(&scratch);
  }
  arena_free(&all);
  return count;
}

/* ---- the program with a food more --------------------------------------------------------------------------------- */

/* One more food on offer in p, which is of->p or already has some. What was not in of->p costs 1 a gram, all else nothing,
 * so that no more is taken than it needs. NULL: the bowl cannot be stated so. */
static struct model *with_food(const struct offer *of, const struct model *p, uint32_t food, double most,
                               struct arena *arena) {
  bool counted = of->nearest->counted;
  struct candidate *c = ARENA_NEW(arena, struct candidate, p->candidates + 1);
  if (p->candidates > 0) memcpy(c, p->candidate, p->candidates * sizeof *c);
  c[p->candidates] = candidate_of(p->lib, food, NULL);
  struct model *q = model_new(p->lib, c, p->candidates + 1, arena);
  for (size_t j = 0; j < p->columns; j++) {
    struct lp_col col = p->model.col[j];
    if (!counted) col.least = col.unit = 0;
    col.second = 0;
    col.cost = j >= of->p->columns ? 1 : 0;
    model_column(q, p->of_column[j], col);
  }
  model_column(q, (int)p->candidates, (struct lp_col){.hi = most, .cost = 1, .counted = true});
  if (counted) model_lp(q)->most_used = p->model.most_used;
  for (size_t b = 0; b < p->bowls; b++) {
    double *base = ARENA_NEW(arena, double, p->candidates + 1), *share = ARENA_NEW(arena, double, p->columns + 1);
    memcpy(base, p->bowl[b]->base, p->candidates * sizeof *base);
    memcpy(share, p->bowl[b]->share, p->columns * sizeof *share);
    share[p->columns] = of->share[b];
    if (model_bowl(q, p->bowl[b]->animal, &p->bowl[b]->options, &p->bowl[b]->limits, base, share) < 0) return NULL;
  }
  for (size_t i = 0; i < p->model.rows; i++) {
    bool tie = p->limit[p->note[i].limit].kind == LIMIT_TIE;
    if (p->limit[p->note[i].limit].kind != LIMIT_OWN && !tie) continue;
    double *row = ARENA_NEW(arena, double, p->columns + 1);
    memcpy(row, p->model.a[i], p->columns * sizeof *row);
    (tie ? model_tie : model_row)(q, p->model.row[i].name, row, p->model.row[i].lo, p->model.row[i].hi);
  }
  return q;
}

/* With the foods that are on offer in q: enough, or the misses that are left, and the columns' amounts. */
struct outcome {
  bool enough;
  double misses; /* NaN: nothing could be found out */
  const double *x;
  const double *miss; /* [limits of q] */
};

static struct outcome outcome_of(const struct offer *of, struct model *q, struct arena *arena) {
  bool counted = of->nearest->counted;
  struct lp_limits some = model_some_nodes(of->limits);
  struct model_answer a = model_solve(q, counted, &some);
  if (a.has_x) return (struct outcome){.enough = true, .x = a.x};
  if (!may_go_on(of)) return (struct outcome){.misses = (double)NAN};
  struct model_nearest n = model_nearest(q, counted, of->limits, arena);
  if (!n.has_x || n.counted != counted || !may_go_on(of)) return (struct outcome){.misses = (double)NAN};
  return (struct outcome){.misses = n.misses, .x = n.x, .miss = n.miss};
}

/* ---- one food ------------------------------------------------------------------------------------------------------ */

/* The limits that are missed by less than half of what they were missed by, the largest relief first. */
static void note_relieved(const struct model *p, const struct model *q, const struct model_nearest *nearest,
                          const double *miss, struct model_help *h) {
  double relief[HELP_LIMITS] = {0};
  for (size_t i = 0; i < p->limit_count && i < q->limit_count; i++) {
    double by = nearest->miss[i] - (miss ? miss[i] : 0);
    bool same = strcmp(p->limit[i].name, q->limit[i].name) == 0;
    if (!same || !(by > 1e-6) || by < nearest->miss[i] / 2) continue;
    size_t at = h->relieved < HELP_LIMITS ? h->relieved++ : HELP_LIMITS - 1;
    if (at == HELP_LIMITS - 1 && !(by > relief[at])) continue;
    for (; at > 0 && by > relief[at - 1]; at--) relief[at] = relief[at - 1], h->limit[at] = h->limit[at - 1];
    relief[at] = by;
    h->limit[at] = &p->limit[i];
  }
}

static struct model_help try_food(const struct offer *of, const struct trial *t, const struct arena *arena) {
  struct model_help h = {
      .food = t->food, .most_grams = t->most, .grams = (double)NAN, .obvious = is_obvious(of, t->food, t->limit)};
  struct arena scratch;
  arena_init(&scratch, arena->on_full);
  struct model *q = with_food(of, of->p, t->food, t->most, &scratch);
  if (q) {
    struct outcome o = outcome_of(of, q, &scratch);
    h.enough = o.enough;
    if (o.x) h.grams = o.x[of->p->columns];
    if (o.enough) h.relief = 1;
    if (!o.enough && o.x && of->nearest->misses > 0) h.relief = fmax(0, 1 - o.misses / of->nearest->misses);
    if (o.x) note_relieved(of->p, q, of->nearest, o.miss, &h);
  }
  arena_free(&scratch);
  return h;
}

static bool better(const struct model_help *a, const struct model_help *b) {
  if (a->enough != b->enough) return a->enough;
  if (a->obvious != b->obvious) return a->obvious;
  return a->relief > b->relief;
}

static void sort_help(struct model_help *h, size_t n) {
  for (size_t i = 1; i < n; i++) {
    struct model_help x = h[i];
    size_t j = i;
    for (; j > 0 && better(&x, &h[j - 1]); j--) h[j] = h[j - 1];
    h[j] = x;
  }
}

/* Five fishes that all bring the same are one piece of news: of those that do not suffice, a few for each limit. */
static size_t tell(const struct model_help *tried, size_t count, struct model_help *out, size_t most) {
  size_t told = 0;
  for (size_t i = 0; i < count && told < most; i++) {
    size_t alike = 0;
    if (!(tried[i].relief > 0.01) || tried[i].relieved == 0) continue;
    for (size_t k = 0; k < told && !tried[i].enough; k++) alike += !out[k].enough && out[k].limit[0] == tried[i].limit[0];
    if (alike < TOLD_PER_LIMIT) out[told++] = tried[i];
  }
  return told;
}

/* ---- a few together ------------------------------------------------------------------------------------------------ */

/* Which of the foods leaves the least missing when it joins; -1 when none takes a noticeable part away. */
static int next_member(const struct offer *of, const struct model *now, const struct model_help *food, size_t count,
                       const bool *taken, double left, const struct arena *arena) {
  int best = -1;
  double least = left * 0.99;
  for (size_t i = 0; i < count; i++) {
    struct arena scratch;
    if (taken[i] || !may_go_on(of)) continue;
    arena_init(&scratch, arena->on_full);
    struct model *q = with_food(of, now, food[i].food, food[i].most_grams, &scratch);
    struct outcome o = q ? outcome_of(of, q, &scratch) : (struct outcome){.misses = (double)NAN};
    double misses = o.enough ? -1 : o.misses;
    if (misses < least) least = misses, best = (int)i;
    arena_free(&scratch);
    if (o.enough) break;
  }
  return best;
}

/* From the foods that were found to help by themselves, the best first. */
static struct model_team build_team(const struct offer *of, const struct model_help *food, size_t count,
                                    const struct arena *arena) {
  struct model_team team = {0};
  const struct model *now = of->p;
  bool *taken;
  double left = of->nearest->misses;
  struct arena scratch;
  arena_init(&scratch, arena->on_full);
  taken = ARENA_NEW(&scratch, bool, count);
  while (team.count < TEAM_MOST && !team.enough) {
    int k = team.count == 0 ? 0 : next_member(of, now, food, count, taken, left, arena);
    if (k < 0) break;
    taken[k] = true;
    team.food[team.count++] = food[k];
    struct model *more = with_food(of, now, food[k].food, food[k].most_grams, &scratch);
    struct outcome o = outcome_of(of, more, &scratch);
    now = more;
    team.enough = o.enough;
    left = o.misses;
    for (size_t i = 0; i < team.count && o.x; i++) team.food[i].grams = o.x[of->p->columns + i];
  }
  arena_free(&scratch);
  size_t used = 0; /* one that joined early may be needed no more */
  for (size_t i = 0; i < team.count && team.enough; i++)
    if (team.food[i].grams > 1e-6 * team.food[i].most_grams) team.food[used++] = team.food[i];
  team.count = used;
  return team;
}

struct model_helps model_would_help(const struct model *p, const double *share, const struct model_nearest *nearest,
                                    const struct lp_limits *limits, struct model_help *out, size_t most,
                                    const struct arena *arena) {
  struct trial trial[TRIED];
  struct model_help tried[TRIED];
  struct model_helps found = {.help = out};
  struct offer of = {p, nearest, share, limits};
  if (!nearest->has_x) return found;
  size_t count = choose(&of, trial, arena);
  size_t chosen = count;
  for (count = 0; count < chosen && may_go_on(&of); count++) tried[count] = try_food(&of, &trial[count], arena);
  sort_help(tried, count);
  found.count = tell(tried, count, out, most);
  size_t obvious = 0;
  while (obvious < count && tried[obvious].obvious) obvious++;
  if (count == 0 || found.count == 0 || out[0].enough) return found;
  if (obvious > 1) found.team = build_team(&of, tried, obvious, arena);
  if (count > 1 && !found.team.enough && may_go_on(&of)) found.team = build_team(&of, tried, count, arena);
  return found;
}
