/* model_bowl.c: bowls of a model, from amounts and back: what a gram of each candidate is, the ration that an answer means,
 * and whether it keeps what was promised. */
#include <math.h>

#include "change/model_parts.h"
#include "foods/constant_keys.h"

/* ---- bowls ------------------------------------------------------------------------------------------------------ */

static const struct ration *ration_of(struct ration_line *line, size_t count, struct arena *arena) {
  struct ration *r = ARENA_NEW(arena, struct ration, 1);
  *r = (struct ration){.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = count};
  return r;
}

static struct gram gram_of(const struct library *lib, const struct bowl *b, const struct candidate *c, struct arena *arena) {
  struct ration_line *line = ARENA_NEW(arena, struct ration_line, 1);
  struct energy_result e;
  *line = candidate_line(c, 1);
  struct totals *t = totals_gather(lib, ration_of(line, 1, arena), b->carotene, arena);
  struct gram g = {.totals = t};
  energy_supply(t, b->animal->species, &b->options, &e, arena);
  g.kcal = e.supply_kcal;
  g.kcal_missing = b->options.energy_by == ENERGY_ATWATER ? t->missing_most[NUT_ENERGY] : 0;
  g.macro_kcal = e.macro_kcal;
  g.fat_kcal = e.macro_kcal > 0 ? e.share_fat * e.macro_kcal : 0;
  parts_fill(t, g.part);
  for (int i = 0; i < BOWL_COUNT; i++) g.part[i] *= t->eaten_g;
  return g;
}

struct gram model_gram(const struct model *p, const struct bowl *b, uint32_t food, struct arena *arena) {
  struct candidate c = candidate_of(p->lib, food, NULL);
  return gram_of(p->lib, b, &c, arena);
}

/* A food's spread is that of its most uncertain portion at most, and foods together are never less certain than the least
 * certain of them. */
static void find_spread(const struct model *p, struct bowl *b) {
  for (size_t i = 0; i < p->candidates; i++)
    for (int n = 0; n < NUT_COUNT; n++) {
      const struct totals *t = b->gram[i].totals;
      if (t->amount[n] > 0) b->cv_most[n] = fmax(b->cv_most[n], totals_cv(t->amount[n], t->variance[n]) * (1 + 1e-9));
    }
}

int model_bowl(struct model *p, const struct animal *animal, const struct check_options *options,
               const struct model_limits *limits, const double *base, const double *share) {
  if (!animal || animal_refusal(animal) != REFUSE_NOT || options->energy_by == ENERGY_FOUR_STEP) return -1;
  struct bowl *b = ARENA_NEW(p->arena, struct bowl, 1);
  *b = (struct bowl){.animal = animal, .options = *options, .limits = *limits, .limit_uneven = -1};
  b->carotene = library_constant_value(p->lib, K_CAROTENE_FACTOR, animal->species);
  b->base = ARENA_NEW(p->arena, double, p->candidates);
  b->share = ARENA_NEW(p->arena, double, p->columns);
  if (base) memcpy(b->base, base, p->candidates * sizeof *base);
  for (size_t j = 0; j < p->columns; j++) b->share[j] = share ? share[j] : 1;
  b->gram = ARENA_NEW(p->arena, struct gram, p->candidates);
  for (size_t i = 0; i < p->candidates; i++) {
    b->gram[i] = gram_of(p->lib, b, &p->candidate[i], p->arena);
    if (!isfinite(b->gram[i].kcal)) return -1; /* published energy is asked for, and this record has none */
  }
  find_spread(p, b);
  ARENA_PUSH(p->arena, p->bowl, p->bowls, p->bowl_cap, b);
  int index = (int)p->bowls - 1;
  model_fill_duties(p, index);
  model_first_rows(p, index);
  return index;
}

/* ---- bowls from answers ----------------------------------------------------------------------------------------- */

void model_amounts(const struct model *p, int bowl, const double *x, double *grams) {
  const struct bowl *b = p->bowl[bowl];
  for (size_t i = 0; i < p->candidates; i++) grams[i] = b->base[i];
  for (size_t j = 0; j < p->columns; j++) grams[p->of_column[j]] += b->share[j] * x[j];
  /* A line taken away to the last gram leaves rounding behind, not food. */
  for (size_t i = 0; i < p->candidates; i++)
    if (grams[i] < 1e-9 * fmax(1e-3, b->base[i])) grams[i] = 0;
}

const struct ration *model_ration(const struct model *p, int bowl, const double *x, int **of_line, struct arena *arena) {
  double *grams = ARENA_NEW(arena, double, p->candidates);
  struct ration_line *line = ARENA_NEW(arena, struct ration_line, p->candidates);
  int *of = ARENA_NEW(arena, int, p->candidates);
  size_t n = 0;
  model_amounts(p, bowl, x, grams);
  for (size_t i = 0; i < p->candidates; i++) {
    if (!(grams[i] > 0)) continue;
    of[n] = (int)i;
    line[n++] = candidate_line(&p->candidate[i], grams[i]);
  }
  if (of_line) *of_line = of;
  return ration_of(line, n, arena);
}

const struct check_result *model_judge(const struct model *p, int bowl, const double *x, struct arena *arena) {
  const struct bowl *b = p->bowl[bowl];
  return check_numbers(p->lib, model_ration(p, bowl, x, NULL, arena), b->animal, &b->options, arena);
}

void model_keep_judged(struct model *p, int bowl, const double *x, const struct check_result *r) {
  struct bowl *b = p->bowl[bowl];
  size_t bytes = p->columns * sizeof *x;
  if (!b->judged_at) b->judged_at = arena_alloc(p->arena, bytes, sizeof *x);
  memcpy(b->judged_at, x, bytes);
  b->judged = true;
  b->judged_kept = model_keeps(p, bowl, r);
}

bool model_judged_kept(struct model *p, int bowl, const double *x, struct arena *scratch) {
  const struct bowl *b = p->bowl[bowl];
  bool known = b->judged && memcmp(b->judged_at, x, p->columns * sizeof *x) == 0;
  if (!known) model_keep_judged(p, bowl, x, model_judge(p, bowl, x, scratch));
  return b->judged_kept;
}

bool model_promises(const struct model *p, int bowl, enum nutrient n) {
  const struct duty *d = &p->bowl[bowl]->duty[n];
  return d->promised || d->waived;
}

static bool nutrient_kept(const struct duty *d, const struct nutrient_result *n, double sure) {
  static const double ROUNDING = 1e-9;
  bool reached = n->verdict == VERDICT_MET || (d->cautious && n->verdict == VERDICT_OVER && n->chance_met >= sure);
  if ((d->promised || d->waived) && !reached) return false;
  if (!d->ceiling) return true;
  bool firm = !isnan(n->upper) && !n->upper_greater_than;
  if (n->verdict == VERDICT_OVER || n->highest_day_over) return false;
  return !firm || n->known == KNOWN_NONE || (n->chance_kept >= sure && !(n->window_high > n->upper * (1 + ROUNDING)));
}

bool model_keeps_nutrient(const struct model *p, int bowl, enum nutrient n, const struct check_result *r) {
  return nutrient_kept(&p->bowl[bowl]->duty[n], &r->nutrient[n], p->bowl[bowl]->options.sure);
}

bool model_keeps(const struct model *p, int bowl, const struct check_result *r) {
  const struct bowl *b = p->bowl[bowl];
  if (!model_energy_kept(&b->limits, r->energy.supply_kcal)) return false;
  if (r->energy.in_part && model_holds_energy(&b->limits)) return false;
  for (int n = 0; n < NUT_COUNT; n++)
    if (!model_keeps_nutrient(p, bowl, (enum nutrient)n, r)) return false;
  return true;
}
