#include "judge/uncounted.h"

#include <math.h>

#include "foods/constant_keys.h"
#include "foods/portion.h"
#include "judge/stream.h"

struct may_be {
  const struct ration_uncounted *from;
  struct stream **food; /* [count] */
  double *most_g;       /* [count] by what is said, or by the portions that people feed; INFINITY where none is known */
  size_t count;         /* 0: no record fits */
};

struct uncounted {
  const struct library *lib;
  enum species species;
  double carotene_factor, snack_kcal; /* per gram of dry matter, at least */
  struct may_be *line;
  size_t count;
};

static void weigh_foods(struct may_be *to, const struct uncounted *u, double portions, double metabolic_kg,
                        struct arena *arena) {
  to->count = to->from->may_be_count;
  to->food = ARENA_NEW(arena, struct stream *, to->count + 1);
  to->most_g = ARENA_NEW(arena, double, to->count + 1);
  for (size_t k = 0; k < to->count; k++) {
    to->food[k] = ARENA_NEW(arena, struct stream, 1);
    to->food[k]->food = to->from->may_be[k];
    to->food[k]->retention = -1;
    stream_fill(to->food[k], u->lib, u->carotene_factor);
    double most = portions * portion_most_g(u->lib, to->from->may_be[k], u->species, metabolic_kg, NAN);
    to->most_g[k] = isnan(most) ? INFINITY : most;
    if (to->from->is_read && to->from->said_g >= 0) to->most_g[k] = to->from->said_g;
  }
}

struct uncounted *uncounted_gather(const struct library *lib, const struct ration *ration, enum species species,
                                   const struct animal_body *body, double carotene_factor, struct arena *arena) {
  if (ration->uncounted_count == 0) return NULL;
  double portions = library_constant_value(lib, K_UNCOUNTED_PORTIONS, species);
  struct uncounted *u = ARENA_NEW(arena, struct uncounted, 1);
  *u = (struct uncounted){.lib = lib,
                          .species = species,
                          .carotene_factor = carotene_factor,
                          .snack_kcal = library_constant_value(lib, K_SNACK_ENERGY, species),
                          .line = ARENA_NEW(arena, struct may_be, ration->uncounted_count),
                          .count = ration->uncounted_count};
  for (size_t i = 0; i < u->count; i++) {
    u->line[i].from = &ration->uncounted[i];
    weigh_foods(&u->line[i], u, portions, body->metabolic_kg, arena);
  }
  return u;
}

static bool goes_out(const struct ration_uncounted *u, enum species s) { return (u->goes_out >> s & 1) != 0; }

bool uncounted_is_out(const struct check_result *r, const struct ration_uncounted *u) {
  return r->animal && goes_out(u, r->animal->species);
}

/* Two standard deviations of the food's own spread above the published mean, and what may hide where no value is. */
static double most_of(const struct stream *s, int n) {
  return s->per_g[n] * (1 + 2 * sqrt(s->value_cv2[n])) + s->most_per_g[n];
}

/* A food without energy, or of which it is not known, fills nobody: any amount of it could be fed beside the rest. */
static double most_grams(const struct may_be *u, size_t k, double eaten_g, const struct energy_result *energy) {
  double rest = energy->need.high_kcal - (energy->supply_kcal > 0 ? energy->supply_kcal : 0);
  double kcal = u->food[k]->per_g[NUT_ENERGY];
  bool said = u->from->is_read && u->from->said_g >= 0;
  if (said || !(kcal > 0) || isnan(rest)) return u->most_g[k];
  if (u->from->kind.nameless) return fmin(u->most_g[k], (double)u->from->kind.snack->few * energy->need.kcal / kcal);
  return fmin(u->most_g[k], fmax(eaten_g, rest / kcal));
}

static double most_of_foods(const struct may_be *line, int n, double eaten_g, const struct energy_result *energy) {
  double most = 0;
  for (size_t k = 0; k < line->count; k++) {
    double per_g = most_of(line->food[k], n);
    if (per_g > 0) most = fmax(most, per_g * most_grams(line, k, eaten_g, energy));
  }
  return most;
}

/* ---- no food of the tables: what its kind allows for -------------------------------------------------------------- */

static const double LABEL_G = 100, GRAM_OF_FAT_KCAL = 9; /* per gram nothing holds more energy */

/* Of treats nobody says how many: so much of the need for energy, in food as dense as any. */
static double snack_grams(const struct uncounted *u, const struct ration_uncounted *from, const struct energy_result *energy) {
  double share = from->kind.few ? (double)from->kind.snack->few : (double)from->kind.snack->most;
  double most = share * energy->need.kcal / u->snack_kcal;
  if (from->said_g >= 0) most = from->said_g;
  return isnan(most) ? INFINITY : most;
}

static double most_of_snack(const struct uncounted *u, const struct ration_uncounted *from, enum nutrient n,
                            const struct energy_result *energy) {
  double grams = snack_grams(u, from, energy), food = stream_high_of_food(u->lib, n, u->carotene_factor);
  double made = (double)from->kind.snack->holds[n] / LABEL_G;
  if (n == NUT_ENERGY) return from->said_g >= 0 ? GRAM_OF_FAT_KCAL * grams : u->snack_kcal * grams;
  double per_g = isnan(food) ? made : fmax(food, made);
  return per_g > 0 ? per_g * grams : 0;
}

static double most_of_dose(const struct ration_uncounted *from, enum nutrient n) {
  const float *holds = from->kind.holds;
  double most = n == NUT_ENERGY ? GRAM_OF_FAT_KCAL * (double)holds[NUT_FAT] : (double)holds[n];
  return isnan(most) ? INFINITY : most;
}

/* Nobody knows what it is, but how much: any amount of a mineral or a vitamin may be in it, but of what food is made of no
 * more than it weighs. */
static double most_of_weight(const struct ration_uncounted *from, enum nutrient n) {
  enum nutrient_group g = nutrient_info[n].group;
  if (!(from->said_g >= 0)) return INFINITY;
  if (n == NUT_ENERGY) return GRAM_OF_FAT_KCAL * from->said_g;
  return (g == NG_PROXIMATE || g == NG_AMINO || g == NG_FATTY) && nutrient_info[n].unit[0] == 'g' ? from->said_g : INFINITY;
}

static double most_of_line(const struct uncounted *u, const struct may_be *line, enum nutrient n, double eaten_g,
                           const struct energy_result *energy) {
  const struct ration_uncounted *from = line->from;
  if (goes_out(from, u->species)) return 0;
  if (line->count > 0) return most_of_foods(line, (int)n, eaten_g, energy);
  if (!from->is_read) return INFINITY;
  if (!from->kind.snack && !from->kind.holds) return most_of_weight(from, n);
  double snack = from->kind.snack ? most_of_snack(u, from, n, energy) : 0;
  return snack + (from->kind.holds ? fmin(most_of_dose(from, n), most_of_weight(from, n)) : 0);
}

double uncounted_grams(const struct uncounted *u, size_t i, double eaten_g, const struct energy_result *energy) {
  const struct ration_uncounted *from = u->line[i].from;
  if (goes_out(from, u->species)) return 0;
  if (u->line[i].count > 0) return most_grams(&u->line[i], 0, eaten_g, energy);
  if (!from->is_read || !from->kind.snack || from->kind.holds) return INFINITY;
  return snack_grams(u, from, energy);
}

void uncounted_most(const struct uncounted *u, double eaten_g, const struct energy_result *energy, double most[NUT_COUNT]) {
  memset(most, 0, NUT_COUNT * sizeof *most);
  for (size_t i = 0; i < u->count; i++)
    for (int n = 0; n < NUT_COUNT; n++) most[n] += most_of_line(u, &u->line[i], (enum nutrient)n, eaten_g, energy);
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

/* "2 scoops of a complete mix": nobody knows what is in it, but what kind of thing it is. */
static bool is_called_a_mixture(const char *text) {
  static const char *const WORDS[] = {"vitamin", "mineral", "premix", "trace element", "complete"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (span_holds_fold(span_of(text), span_of(WORDS[i]))) return true;
  return false;
}

/* So little of something without a name is no food, but taken for what is in it. */
static bool is_a_dose(const struct ration_uncounted *u) {
  static const double NO_FOOD_G = 15;
  return u->is_read && u->said_g <= NO_FOOD_G;
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

static bool may_be_a_dose(const struct library *lib, const struct check_result *r, const struct ration_uncounted *u,
                          enum nutrient n) {
  if (uncounted_is_out(r, u)) return false;
  if (u->may_be_count == 0 && u->kind.holds && !u->kind.vague) return isnan(u->kind.holds[n]);
  if (u->may_be_count == 0 && u->kind.snack) return false;
  if (is_called_a_dose_of(u->text, n)) return true;
  if (u->may_be_count == 0 && (is_called_a_mixture(u->text) || is_a_dose(u))) return true;
  for (size_t m = 0; m < u->may_be_count; m++)
    if (share_of_need(lib, r, u->may_be[m], n, 1) >= DOSE_OF_A_GRAM) return true;
  return false;
}

void uncounted_doses(const struct library *lib, const struct check_result *r, bool held[NUT_COUNT]) {
  memset(held, 0, NUT_COUNT * sizeof *held);
  for (size_t i = 0; r->ration && i < r->ration->uncounted_count; i++)
    for (size_t k = 0; k < COUNT_OF(HARMS_TWICE); k++)
      held[HARMS_TWICE[k]] |= may_be_a_dose(lib, r, &r->ration->uncounted[i], HARMS_TWICE[k]);
}

/* Minerals, vitamins and taurine: not what food itself is made of. */
static bool is_in_premixes(int n) {
  enum nutrient_group g = (enum nutrient_group)nutrient_info[n].group;
  return n == NUT_TAURINE || g == NG_MINERAL || g == NG_TRACE || g == NG_VITAMIN;
}

/* "2 g of a maker's complete": weighed by the gram and called a mixture, but of no kind, or of that of complete food. */
static bool is_nameless_mixture(const struct ration_uncounted *u) {
  bool food = u->kind.holds && isnan(u->kind.holds[NUT_PROTEIN]);
  return u->may_be_count == 0 && (food || !u->kind.holds) && !u->kind.snack && u->said_g > 0 && is_a_dose(u) &&
         is_called_a_mixture(u->text);
}

/* What such a thing is given for. One that may be food, or is said to be "a supplement", is given for nothing that is known. */
static bool is_given_for(const struct ration_uncounted *u, int n) {
  enum { GIVEN_FOR_MOST = 10 }; /* a B complex has nine; more than that is a mixture, whose fats are no reason for it */
  const float *holds = u->kind.holds;
  int any = 0;
  if (is_nameless_mixture(u)) return is_in_premixes(n);
  if (!holds || u->kind.vague || !isnan(holds[n])) return false;
  for (int k = 0; k < NUT_COUNT; k++) any += isnan(holds[k]);
  return any <= GIVEN_FOR_MOST || (is_in_premixes(n) && !isnan(holds[NUT_PROTEIN]));
}

void uncounted_given_for(const struct check_result *r, bool open[NUT_COUNT]) {
  for (size_t i = 0; r->ration && i < r->ration->uncounted_count; i++)
    for (int n = 0; n < NUT_COUNT && !uncounted_is_out(r, &r->ration->uncounted[i]); n++)
      open[n] |= is_given_for(&r->ration->uncounted[i], n);
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
