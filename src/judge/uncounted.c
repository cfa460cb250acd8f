#include "judge/uncounted.h"

#include <math.h>

#include "foods/constant_keys.h"
#include "foods/portion.h"
#include "judge/stream.h"

struct may_be {
  struct stream **food; /* [count] */
  double *most_g;       /* [count] by the portions that people feed; INFINITY where none is known */
  size_t count;         /* 0: anything */
  bool taken;           /* ... but by the tablet, the drop or the pinch: too little of it to speak of as energy */
};

struct uncounted {
  struct may_be *line;
  size_t count;
};

static bool holds_one_of(const char *text, const char *const *word, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (span_holds_fold(span_of(text), span_of(word[i]))) return true;
  return false;
}

/* "1 multivitamin", "a joint tablet", "2 drops of ...": what is taken and not eaten, where nothing else is named beside it. */
static bool is_taken(const struct ration_uncounted *u) {
  static const char *const TAKEN[] = {"vitamin", "mineral supplement", "trace element", "premix",    "tablet", "capsule",
                                      "softgel", "drop of",            "drops",         "a pinch of", "probiotic"};
  static const char *const EATEN[] = {" and ", ",", "+", "&", " mix", "food", "meal", "chew", "treat", "with "};
  return !u->sole_food && holds_one_of(u->text, TAKEN, COUNT_OF(TAKEN)) && !holds_one_of(u->text, EATEN, COUNT_OF(EATEN));
}

struct uncounted *uncounted_gather(const struct library *lib, const struct ration *ration, enum species species,
                                   const struct animal_body *body, double carotene_factor, struct arena *arena) {
  if (ration->uncounted_count == 0) return NULL;
  double portions = library_constant_value(lib, K_UNCOUNTED_PORTIONS, species);
  struct uncounted *u = ARENA_NEW(arena, struct uncounted, 1);
  u->count = ration->uncounted_count;
  u->line = ARENA_NEW(arena, struct may_be, u->count);
  for (size_t i = 0; i < u->count; i++) {
    const struct ration_uncounted *from = &ration->uncounted[i];
    struct may_be *to = &u->line[i];
    to->count = from->may_be_count;
    to->taken = is_taken(from);
    to->food = ARENA_NEW(arena, struct stream *, to->count + 1);
    to->most_g = ARENA_NEW(arena, double, to->count + 1);
    for (size_t k = 0; k < to->count; k++) {
      to->food[k] = ARENA_NEW(arena, struct stream, 1);
      to->food[k]->food = from->may_be[k];
      to->food[k]->retention = -1;
      stream_fill(to->food[k], lib, carotene_factor);
      double most = portions * portion_most_g(lib, from->may_be[k], species, body->metabolic_kg, NAN);
      to->most_g[k] = isnan(most) ? INFINITY : most;
    }
  }
  return u;
}

/* Two standard deviations of the food's own spread above the published mean, and what may hide where no value is. */
static double most_of(const struct stream *s, int n) {
  return s->per_g[n] * (1 + 2 * sqrt(s->value_cv2[n])) + s->most_per_g[n];
}

/* A food without energy, or of which it is not known, fills nobody: any amount of it could be fed beside the rest. */
static double most_grams(const struct may_be *u, size_t k, double eaten_g, const struct energy_result *energy) {
  double rest = energy->need.high_kcal - (energy->supply_kcal > 0 ? energy->supply_kcal : 0);
  double kcal = u->food[k]->per_g[NUT_ENERGY];
  if (!(kcal > 0) || isnan(rest)) return u->most_g[k];
  return fmin(u->most_g[k], fmax(eaten_g, rest / kcal));
}

double uncounted_grams(const struct uncounted *u, size_t i, size_t k, double eaten_g, const struct energy_result *energy) {
  return u->line[i].count == 0 ? INFINITY : most_grams(&u->line[i], k, eaten_g, energy);
}

void uncounted_most(const struct uncounted *u, double eaten_g, const struct energy_result *energy, double most[NUT_COUNT]) {
  memset(most, 0, NUT_COUNT * sizeof *most);
  for (size_t i = 0; i < u->count; i++) {
    for (int n = 0; n < NUT_COUNT; n++) {
      double here = u->line[i].count > 0 || (n == NUT_ENERGY && u->line[i].taken) ? 0 : INFINITY;
      for (size_t k = 0; k < u->line[i].count; k++) {
        double per_g = most_of(u->line[i].food[k], n);
        if (per_g > 0) here = fmax(here, per_g * most_grams(&u->line[i], k, eaten_g, energy));
      }
      most[n] += here;
    }
  }
}

/* ---- doses ------------------------------------------------------------------------------------------------------- */

static const enum nutrient HARMS_TWICE[] = {NUT_IODINE,   NUT_ZINC, NUT_COPPER,    NUT_MANGANESE,
                                            NUT_SELENIUM, NUT_IRON, NUT_VITAMIN_A, NUT_VITAMIN_D};
static const double DOSE_OF_A_GRAM = 0.1; /* of the need in one gram: it is taken for the sake of that */
static const double DOSE_LEAST = 0.05;    /* of the need: less beside it is a trace */

static double share_of_need(const struct library *lib, const struct check_result *r, uint32_t food, enum nutrient n,
                            double grams) {
  const struct img_value *v = library_values(lib, food);
  double need = r->nutrient[n].allowance, held = v[n].status != VALUE_UNKNOWN ? (double)v[n].mean : 0;
  if (n == NUT_VITAMIN_A && v[NUT_RETINOL].status != VALUE_UNKNOWN) held = fmax(held, (double)v[NUT_RETINOL].mean);
  return held > 0 && need > 0 ? held / 100 * grams / need : 0;
}

/* "a scoop of a multivitamin": nobody knows what is in it, but what kind of thing it is. */
static bool is_called_a_mixture(const char *text) {
  static const char *const WORDS[] = {"vitamin", "mineral", "premix", "trace element"};
  return holds_one_of(text, WORDS, COUNT_OF(WORDS));
}

/* "a scoop of seaweed", "zinc drops": what it is taken for, by its words. */
static bool is_called_a_dose_of(const char *text, enum nutrient n) {
  static const struct {
    const char *word;
    enum nutrient of;
  } WORDS[] = {{"seaweed", NUT_IODINE},      {"kelp", NUT_IODINE},         {"algae", NUT_IODINE},
               {"iodine", NUT_IODINE},       {"zinc", NUT_ZINC},           {"copper", NUT_COPPER},
               {"manganese", NUT_MANGANESE}, {"selenium", NUT_SELENIUM},   {"iron tablet", NUT_IRON},
               {"liver oil", NUT_VITAMIN_A}, {"liver oil", NUT_VITAMIN_D}, {"vitamin a", NUT_VITAMIN_A},
               {"vitamin d", NUT_VITAMIN_D}};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (WORDS[i].of == n && span_holds_fold(span_of(text), span_of(WORDS[i].word))) return true;
  return false;
}

void uncounted_doses(const struct library *lib, const struct check_result *r, bool held[NUT_COUNT]) {
  memset(held, 0, NUT_COUNT * sizeof *held);
  for (size_t i = 0; r->ration && i < r->ration->uncounted_count; i++) {
    const struct ration_uncounted *u = &r->ration->uncounted[i];
    bool mixture = u->may_be_count == 0 && is_called_a_mixture(u->text);
    for (size_t k = 0; k < COUNT_OF(HARMS_TWICE); k++) {
      enum nutrient n = HARMS_TWICE[k];
      held[n] |= mixture || is_called_a_dose_of(u->text, n);
      for (size_t m = 0; m < u->may_be_count; m++) held[n] |= share_of_need(lib, r, u->may_be[m], n, 1) >= DOSE_OF_A_GRAM;
    }
  }
}

bool uncounted_is_doubled(const struct library *lib, const struct check_result *r, const bool held[NUT_COUNT], uint32_t food,
                          double grams) {
  enum part p = (enum part)library_food(lib, food)->part;
  if (p != PART_SUPPLEMENT && p != PART_FAT_OIL && p != PART_ORGAN_LIVER) return false;
  for (size_t k = 0; k < COUNT_OF(HARMS_TWICE); k++) {
    double least = p == PART_ORGAN_LIVER ? 10 * DOSE_LEAST : DOSE_LEAST;
    if (held[HARMS_TWICE[k]] && share_of_need(lib, r, food, HARMS_TWICE[k], grams) >= least) return true;
  }
  return false;
}
