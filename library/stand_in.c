#include "library/stand_in.h"

#include <math.h>

#include "library/spread.h"

const enum nutrient stand_in_base[STAND_BASES] = {NUT_NONE, NUT_PROTEIN, NUT_FAT, NUT_WATER, NUT_ASH};

double stand_in_amount(const struct build_food *f, int base) {
  enum nutrient n = stand_in_base[base];
  if (n == NUT_NONE) return 1;
  const struct img_value *v = &f->value[n];
  if (v->status != VALUE_MEASURED && v->status != VALUE_CITED) return NAN;
  return n == NUT_WATER ? 100 - (double)v->mean : (double)v->mean;
}

struct teacher stand_in_teacher(const struct foods_build *b, const struct kinship *k, uint32_t food, enum nutrient n) {
  struct teacher t = {.food = food, .kin = k->kin[food], .cut = k->cut[food]};
  for (int i = 0; i < STAND_BASES; i++) {
    double amount = stand_in_amount(&b->food[food], i);
    t.ratio[i] = amount > 0 ? (double)b->food[food].value[n].mean / amount : NAN;
  }
  return t;
}

/* ---- means in steps: records of a cut, cuts of a kin, kins ------------------------------------------------------- */

struct mean {
  double sum;
  int n;
};
static void mean_add(struct mean *m, double x) {
  m->sum += x;
  m->n++;
}

static bool is_wanted(enum stand_in how, const struct teacher *t, uint32_t food, int own_kin, int own_cut) {
  if (how == STAND_CUT) return t->cut == own_cut && t->food != food;
  if (how == STAND_KIN) return t->kin == own_kin && t->cut != own_cut;
  return t->kin != own_kin;
}

/* Teachers are sorted by kin, then cut: one walk for all bases. */
static void stepwise(const struct stand_scene *s, uint32_t food, enum stand_in how, struct stand_guess guess[STAND_BASES]) {
  int own_kin = s->kinship->kin[food], own_cut = s->kinship->cut[food], records[STAND_BASES] = {0};
  struct mean all[STAND_BASES] = {{0, 0}};
  for (size_t i = 0; i < s->teachers;) {
    int kin = s->teacher[i].kin;
    struct mean of_kin[STAND_BASES] = {{0, 0}};
    for (; i < s->teachers && s->teacher[i].kin == kin;) {
      int cut = s->teacher[i].cut;
      struct mean of_cut[STAND_BASES] = {{0, 0}};
      for (; i < s->teachers && s->teacher[i].kin == kin && s->teacher[i].cut == cut; i++) {
        const struct teacher *t = &s->teacher[i];
        for (int k = 0; k < STAND_BASES && is_wanted(how, t, food, own_kin, own_cut); k++)
          if (isfinite(t->ratio[k])) mean_add(&of_cut[k], t->ratio[k]);
      }
      for (int k = 0; k < STAND_BASES; k++) {
        if (of_cut[k].n > 0) mean_add(&of_kin[k], of_cut[k].sum / of_cut[k].n);
        records[k] += of_cut[k].n;
      }
    }
    for (int k = 0; k < STAND_BASES; k++)
      if (of_kin[k].n > 0) mean_add(&all[k], of_kin[k].sum / of_kin[k].n);
  }
  for (int k = 0; k < STAND_BASES; k++)
    guess[k] = (struct stand_guess){all[k].n > 0 ? all[k].sum / all[k].n : NAN, records[k]};
}

/* ---- the nearest ------------------------------------------------------------------------------------------------- */

enum { NEIGHBOURS = 5 };
struct neighbour {
  double distance;
  const struct teacher *teacher;
};

/* Keeps the nearest of each cut, nearest first. */
static int keep_nearest(struct neighbour *near, int count, struct neighbour x) {
  int at = 0, end;
  for (end = 0; end < count && near[end].teacher->cut != x.teacher->cut;) end++;
  if (end < count && near[end].distance <= x.distance) return count; /* the cut has a nearer one */
  if (end == count) end = count < NEIGHBOURS ? count++ : NEIGHBOURS; /* the last place falls off */
  while (at < end && near[at].distance <= x.distance) at++;
  if (at >= NEIGHBOURS) return count;
  for (int i = end < NEIGHBOURS ? end : NEIGHBOURS - 1; i > at; i--) near[i] = near[i - 1];
  near[at] = x;
  return count;
}

static int find_nearest(const struct stand_scene *s, uint32_t food, bool other_kin, struct neighbour near[NEIGHBOURS]) {
  int count = 0, own_kin = s->kinship->kin[food], own_cut = s->kinship->cut[food];
  for (size_t i = 0; i < s->teachers; i++) {
    const struct teacher *t = &s->teacher[i];
    if (t->cut == own_cut || (other_kin && t->kin == own_kin)) continue;
    double d = features_distance(&s->features[food], &s->features[t->food], &s->scale, s->nutrient);
    if (isfinite(d)) count = keep_nearest(near, count, (struct neighbour){d, t});
  }
  return count;
}

static struct stand_guess nearest(const struct neighbour *near, int count, int base) {
  double sum = 0, weight = 0;
  int n = 0;
  for (int i = 0; i < count; i++) {
    double w = 1 / (0.05 + near[i].distance), r = near[i].teacher->ratio[base];
    if (!isfinite(r)) continue;
    sum += w * r;
    weight += w;
    n++;
  }
  return (struct stand_guess){n >= 2 ? sum / weight : NAN, n};
}

void stand_in_guess(const struct stand_scene *s, uint32_t food, enum stand_in how, struct stand_guess guess[STAND_BASES]) {
  struct neighbour near[NEIGHBOURS];
  bool by_distance = how == STAND_NEAR || how == STAND_NEAR_OTHER;
  int count = by_distance ? find_nearest(s, food, how == STAND_NEAR_OTHER, near) : 0;
  if (!by_distance) stepwise(s, food, how, guess);
  for (int i = 0; i < STAND_BASES && by_distance; i++) guess[i] = nearest(near, count, i);
}

/* ---- how far off ------------------------------------------------------------------------------------------------- */

static const double FAR_OFF = 2.5; /* logarithm that stands for "something" where nothing was guessed, and the other way */

static double log_error(double guess, double found) {
  if (guess > 0 && found > 0) return fmax(-FAR_OFF, fmin(log(found / guess), FAR_OFF));
  return guess > 0 ? -FAR_OFF : found > 0 ? FAR_OFF : 0;
}

void stand_in_try(const struct stand_scene *s, enum stand_in how, const bool *judge, struct stand_trial trial[STAND_BASES],
                  struct arena *scratch) {
  for (int i = 0; i < STAND_BASES; i++)
    trial[i] =
        (struct stand_trial){ARENA_NEW(scratch, uint32_t, s->teachers + 1), ARENA_NEW(scratch, double, s->teachers + 1), 0};
  for (size_t i = 0; i < s->teachers; i++) {
    struct stand_guess guess[STAND_BASES];
    const struct teacher *t = &s->teacher[i];
    if (!judge[i]) continue;
    stand_in_guess(s, t->food, how, guess);
    for (int k = 0; k < STAND_BASES; k++) {
      if (!isfinite(guess[k].ratio) || !isfinite(t->ratio[k])) continue;
      trial[k].food[trial[k].n] = t->food;
      trial[k].error[trial[k].n++] = log_error(guess[k].ratio, t->ratio[k]);
    }
  }
}

double stand_in_error(const struct stand_trial *t, struct arena *scratch) {
  /* Nine of ten left-out values lie inside: so the 5th to 95th percentile means what it says, whatever the tails. */
  enum { LEAST_JUDGED = 4 };
  static const double SHARE = 0.90, Z = 1.6449;
  if (t->n < LEAST_JUDGED) return NAN;
  double *size = ARENA_NEW(scratch, double, t->n);
  for (size_t i = 0; i < t->n; i++) size[i] = fabs(t->error[i]);
  double sigma = quantile(size, t->n, SHARE) / Z * (1 + 1 / sqrt((double)t->n));
  return sqrt(expm1(sigma * sigma));
}
