/* stream.c: what one gram of a food, cooked one way, brings. Part of totals.h. */
#include "judge/stream.h"

#include <math.h>

#include "judge/stats.h"

static const double PER_100_G = 100.0;

/* Nothing holds more of anything than its own weight: the ceiling where a class has no figure. */
static double whole_weight(enum nutrient n) {
  switch (nutrient_info[n].unit[0]) {
  case 'g':
    return 1.0;
  case 'm':
    return 1e3;
  case 'k':
    return 10.0; /* kcal: above pure fat */
  default:
    return 1e6; /* µg */
  }
}

static void set_missing(struct stream *s, enum nutrient n, double high_per_g) {
  s->missing[n] = true;
  s->high_per_g[n] = high_per_g;
  s->most_per_g[n] = isnan(high_per_g) ? whole_weight(n) : high_per_g;
}

/* Classes that stand in where a class has no figure of its own: plants for plants, animal foods for animal foods, flesh for
 * bone. Supplements never use their class, which holds pure substances: a label states what was put in, and what it does not
 * state can be there as in ordinary food. So can anything be in what is of no class: that sweets and drinks, which make up
 * most of these, hold next to none of something says nothing of a sausage. */
#define ONE(c) (1u << (c))
enum {
  FLESH = ONE(SPREAD_RED_MEAT) | ONE(SPREAD_POULTRY),
  ANIMAL = FLESH | ONE(SPREAD_DAIRY) | ONE(SPREAD_EGG) | ONE(SPREAD_FISH) | ONE(SPREAD_ORGAN) | ONE(SPREAD_SHELLFISH),
  PLANT = ONE(SPREAD_FRUIT) | ONE(SPREAD_GRAIN) | ONE(SPREAD_LEGUME) | ONE(SPREAD_SEED_NUT) | ONE(SPREAD_VEGETABLE),
  ORDINARY_FOOD = ANIMAL | PLANT | ONE(SPREAD_FAT_OIL)
};

static unsigned kin_of(enum spread_class c) {
  if (c == SPREAD_BONE) return FLESH;
  if (ONE(c) & ANIMAL) return ANIMAL;
  if (ONE(c) & PLANT) return PLANT;
  return c == SPREAD_OTHER ? ORDINARY_FOOD | ONE(SPREAD_OTHER) : ORDINARY_FOOD;
}

static double highest_of(const struct library *lib, unsigned classes, enum nutrient n) {
  const struct img_class_value *rows = IMG_ROWS(&lib->image, IMG_CLASSES, struct img_class_value);
  double most = (double)NAN;
  for (int k = 0; k < SPREAD_CLASS_COUNT; k++) {
    double high = rows[(size_t)k * NUT_COUNT + (size_t)n].high;
    if (classes & ONE(k) && !isnan(high) && !(most >= high)) most = high;
  }
  return most / PER_100_G;
}

static double class_high_per_g(const struct library *lib, enum spread_class c, enum nutrient n) {
  const struct img_class_value *rows = IMG_ROWS(&lib->image, IMG_CLASSES, struct img_class_value);
  double own = rows[(size_t)c * NUT_COUNT + (size_t)n].high;
  bool is_kind = c != SPREAD_SUPPLEMENT && c != SPREAD_OTHER;
  if (!isnan(own) && is_kind) return own / PER_100_G;
  return highest_of(lib, kin_of(c), n);
}

double stream_high_of_food(const struct library *lib, enum nutrient n, double carotene_factor) {
  unsigned plain = ORDINARY_FOOD & ~(ONE(SPREAD_FAT_OIL) | ONE(SPREAD_SEED_NUT));
  if (n != NUT_VITAMIN_A) return highest_of(lib, plain, n);
  return fmax(highest_of(lib, plain, NUT_RETINOL), carotene_factor * highest_of(lib, plain, NUT_BETA_CAROTENE));
}

static void set_known(struct stream *s, enum nutrient n, const struct img_value *v, const struct img_retention *kept) {
  s->per_g[n] = v->mean / PER_100_G;
  s->value_cv2[n] = img_cv(*v) * img_cv(*v);
  s->status[n] = v->status;
  if (!kept || v->mean == 0) return; /* of nothing, nothing is lost */
  if (kept->status[n] == VALUE_UNKNOWN || isnan(kept->mean[n])) {
    /* Cooking adds none: the raw content is the most that can be left. */
    set_missing(s, n, s->per_g[n]);
    s->per_g[n] = s->value_cv2[n] = 0;
    s->status[n] = VALUE_UNKNOWN;
    return;
  }
  s->per_g[n] *= kept->mean[n];
  s->kept_cv2[n] = (double)kept->cv[n] * kept->cv[n];
  if (v->status != VALUE_NONE && kept->status[n] > v->status) s->status[n] = kept->status[n];
}

static uint8_t weaker_status(uint8_t a, uint8_t b) {
  if (a == VALUE_NONE) return b;
  if (b == VALUE_NONE) return a;
  return a > b ? a : b;
}

static double variance_of(const struct stream *s, enum nutrient n) {
  return s->per_g[n] * s->per_g[n] * cv2_of_product(s->value_cv2[n], s->kept_cv2[n]);
}

/* 'into' = a + factor x b, of what is known; what either lacks is lacking. */
static void set_sum(struct stream *s, enum nutrient into, enum nutrient a, enum nutrient b, double factor) {
  double variance = variance_of(s, a) + factor * factor * variance_of(s, b);
  s->per_g[into] = s->per_g[a] + factor * s->per_g[b];
  s->value_cv2[into] = s->per_g[into] > 0 ? variance / (s->per_g[into] * s->per_g[into]) : 0;
  s->kept_cv2[into] = 0;
  s->missing[into] = false;
  s->high_per_g[into] = s->most_per_g[into] = 0;
  s->status[into] = s->missing[a] ? s->status[b] : s->missing[b] ? s->status[a] : weaker_status(s->status[a], s->status[b]);
  if (s->missing[a] || s->missing[b]) {
    set_missing(s, into, s->high_per_g[a] + factor * s->high_per_g[b]);
    s->most_per_g[into] = s->most_per_g[a] + factor * s->most_per_g[b];
  }
}

/* Vitamin A of a published record is retinol and what the species makes of carotene; a label states it outright. */
static void set_vitamin_a(struct stream *s, double carotene_factor) {
  if (!s->missing[NUT_VITAMIN_A]) return;
  if (carotene_factor == 0) {
    set_sum(s, NUT_VITAMIN_A, NUT_RETINOL, NUT_RETINOL, 0);
  } else {
    set_sum(s, NUT_VITAMIN_A, NUT_RETINOL, NUT_BETA_CAROTENE, carotene_factor);
  }
}

static void set_epa_dha(struct stream *s) {
  if (s->missing[NUT_EPA_DHA] && !s->missing[NUT_EPA] && !s->missing[NUT_DHA]) set_sum(s, NUT_EPA_DHA, NUT_EPA, NUT_DHA, 1);
}

/* What a nutrient is part of: no food holds more linoleic acid than fat. Taurine is no part of protein, cholesterol none of
 * what is counted as fat here. */
static enum nutrient whole_of(enum nutrient n) {
  if (n >= NUT_ARGININE && n <= NUT_VALINE) return NUT_PROTEIN;
  if (n >= NUT_LINOLEIC && n <= NUT_POLYUNSATURATED) return NUT_FAT;
  return NUT_NONE;
}

/* The most that can be missing of a part, two standard deviations above what is known of its whole. */
static void cap_by_whole(struct stream *s) {
  static const double DEVIATIONS = 2;
  for (int i = 0; i < NUT_COUNT; i++) {
    enum nutrient n = (enum nutrient)i, whole = whole_of(n);
    if (whole == NUT_NONE || !s->missing[n] || s->missing[whole]) continue;
    double most = s->per_g[whole] * (1 + DEVIATIONS * sqrt(cv2_of_product(s->value_cv2[whole], s->kept_cv2[whole])));
    if (most < s->most_per_g[n]) set_missing(s, n, most);
  }
}

void stream_fill(struct stream *s, const struct library *lib, double carotene_factor) {
  const struct img_food *food = s->record = library_food(lib, s->food);
  const struct img_value *value = library_values(lib, s->food);
  const struct img_retention *kept = NULL;
  if (s->retention >= 0 && (size_t)s->retention < img_count(&lib->image, IMG_RETENTION))
    kept = &IMG_ROWS(&lib->image, IMG_RETENTION, struct img_retention)[s->retention];
  for (int i = 0; i < NUT_COUNT; i++) {
    enum nutrient n = (enum nutrient)i;
    if (value && value[i].status != VALUE_UNKNOWN && !isnan(value[i].mean)) {
      set_known(s, n, &value[i], kept);
    } else {
      bool classed = food && food->spread_class < SPREAD_CLASS_COUNT;
      set_missing(s, n, classed ? class_high_per_g(lib, (enum spread_class)food->spread_class, n) : (double)NAN);
    }
  }
  cap_by_whole(s);
  set_vitamin_a(s, carotene_factor);
  set_epa_dha(s);
}

void stream_begin(struct stream *s, uint32_t food, int32_t retention, const struct library *lib, double carotene_factor) {
  memset(s, 0, sizeof *s);
  s->food = food;
  s->retention = retention;
  stream_fill(s, lib, carotene_factor);
}

struct stream_energy stream_energy_of(const struct stream *s) {
  enum { E = NUT_ENERGY };
  return (struct stream_energy){s->per_g[E],    s->high_per_g[E], s->most_per_g[E], s->value_cv2[E],
                                s->kept_cv2[E], s->status[E],     s->missing[E]};
}

void stream_set_energy(struct stream *s, const struct stream_energy *e) {
  enum { E = NUT_ENERGY };
  s->per_g[E] = e->per_g;
  s->high_per_g[E] = e->high_per_g;
  s->most_per_g[E] = e->most_per_g;
  s->value_cv2[E] = e->value_cv2;
  s->kept_cv2[E] = e->kept_cv2;
  s->status[E] = e->status;
  s->missing[E] = e->missing;
}
