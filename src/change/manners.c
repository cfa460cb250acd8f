/* manners.c: a bowl that meets everything may still make the review remark on it: a lot of zinc for the copper, vitamin A or
 * copper many times over from liver, calcium and phosphorus that do not come on the same days. Rows for that, with the
 * review's own thresholds (data/findings.tsv), which a search may leave aside when nothing else is found. */
#include <math.h>

#include "change/model_parts.h"

double model_advised(const struct library *lib, const char *finding) {
  const struct img_finding *f = IMG_ROWS(&lib->image, IMG_FINDINGS, struct img_finding);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FINDINGS); i++)
    if (strcmp(lib_str(lib, f[i].id), finding) == 0) return f[i].threshold;
  return (double)NAN;
}

void model_manners(struct model *p, bool kept) {
  for (size_t i = 0; i < p->notes; i++) {
    const struct row_note *n = &p->note[i];
    if (p->limit[n->limit].kind != LIMIT_MANNER) continue;
    p->model.row[i].lo = kept ? n->lo : -INFINITY;
    p->model.row[i].hi = kept ? n->hi : INFINITY;
  }
}

static void manner(struct model *p, int bowl, const char *name, const double *row, double most) {
  int limit = model_add_limit(p, (struct limit){LIMIT_MANNER, NUT_NONE, bowl, name, 1});
  model_add_form(p, bowl, limit, row, 0, -INFINITY, most, false);
}

/* 'most', or what the bowl has of it already. */
static double most_or_now(const struct model *p, int bowl, const double *row, double most) {
  double now = 0;
  for (size_t i = 0; i < p->candidates; i++) now += row[i] * p->bowl[bowl]->base[i];
  return fmax(most, now);
}

static double amount(const struct bowl *b, size_t candidate, enum nutrient n) {
  return b->gram[candidate].totals->amount[n];
}

static const double INSIDE = 1 - 1e-6; /* a hair's breadth of the threshold stays free for rounding */

/* What a food brings of it, as far as a liver would: for cats not what tablets bring, whose content is stated. What the
 * review remarks on is that one liver holds ten times as much as another; dogs eat liver, egg and mussels enough to do
 * without. */
static double as_of_liver(const struct model *p, const struct bowl *b, size_t candidate, enum nutrient n) {
  const struct img_food *f = library_food(p->lib, p->candidate[candidate].line.shown_food);
  if (f && f->part == PART_SUPPLEMENT) return 0;
  return amount(b, candidate, n);
}

/* Of that the carotene, of which a dog makes a little vitamin A and a cat none. */
static double of_carotene(const struct bowl *b, size_t candidate, enum nutrient n) {
  return n == NUT_VITAMIN_A ? b->carotene * amount(b, candidate, NUT_BETA_CAROTENE) : 0;
}

/* So many times the allowance at most. The carotene that is in the bowl leaves less for a liver, but no carrot is cut for
 * it. */
static void times_allowance(struct model *p, int bowl, const char *finding, enum nutrient n, double *row) {
  const struct bowl *b = p->bowl[bowl];
  const struct duty *d = &b->duty[n];
  double times = model_advised(p->lib, finding) * INSIDE, most = times * (d->needs > 0 ? d->need[0].constant : 0);
  if (!(times > 0) || !d->promised || d->needs == 0) return;
  for (size_t i = 0; i < p->candidates; i++) {
    double carotene = of_carotene(b, i, n);
    row[i] = as_of_liver(p, b, i, n) - (d->need[0].per_g ? times * d->need[0].per_g[i] : 0);
    if (!(b->base[i] > 0) || !(carotene > 0)) continue;
    row[i] = fmax(0, row[i] - carotene);
    most -= carotene * b->base[i];
  }
  manner(p, bowl, finding, row, most_or_now(p, bowl, row, most));
}

void model_manner_rows(struct model *p, int bowl) {
  struct bowl *b = p->bowl[bowl];
  double *row = ARENA_NEW(p->arena, double, p->candidates);
  double zinc = model_advised(p->lib, "zn-cu-high") * INSIDE, liver = model_advised(p->lib, "liver-share") * INSIDE;
  for (size_t i = 0; i < p->candidates; i++) row[i] = amount(b, i, NUT_ZINC) - zinc * amount(b, i, NUT_COPPER);
  if (zinc > 0) manner(p, bowl, "zn-cu-high", row, 0);
  for (size_t i = 0; i < p->candidates; i++) row[i] = b->gram[i].part[BOWL_ORGAN_LIVER] - liver * b->gram[i].totals->eaten_g;
  if (liver > 0) manner(p, bowl, "liver-share", row, most_or_now(p, bowl, row, 0));
  times_allowance(p, bowl, "liver-vitamin-a", NUT_VITAMIN_A, row);
  times_allowance(p, bowl, "liver-copper", NUT_COPPER, row);
  /* In a run of days as on average: the review asks to act on it, so this is not left aside. */
  if (b->limits.leave[NUT_CALCIUM] || b->limits.leave[NUT_PHOSPHORUS]) return; /* a label must say first what else there is */
  int calcium = b->duty[NUT_CALCIUM].limit_need;
  b->limit_uneven = model_add_limit(p, (struct limit){LIMIT_CA_P_LEAST, NUT_NONE, bowl,
                                                      "Calcium: one to two times the phosphorus in every run of days",
                                                      calcium >= 0 ? p->limit[calcium].size : 1});
}
