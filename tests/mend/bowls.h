/* bowls.h: 300 bowls as owners of dogs (3 to 60 kg) and cats (3 to 7 kg) feed them, the same on every machine. Built from
 * what people put into bowls - a main meat or two, organs or none, bone or none, vegetables, starch, eggs, fish, oil, a
 * supplement - without regard to what any answer makes of them. Numbers 3, 7, 11 ... are held aside: figures for them are
 * told apart, and nothing is fitted to them. Include after cmocka.h or by itself. */
#ifndef BW_BOWLS_H
#define BW_BOWLS_H

#include <math.h>

#include "app/app.h"
#include "base/num.h"
#include "tests/support/unit_random.h"

enum { BOWLS = 300 };

struct bowl {
  struct animal animal;
  enum standard_id standard;
  const char *text;
};

static inline bool bowl_held_aside(int number) { return number % 4 == 3; }

/* kcal: rough, of a gram; only to make bowls of a likely size. */
struct bowl_food {
  const char *words;
  double kcal;
};

static const struct bowl_food FED_DOG_MEAT[] = {{"beef mince 90/10, raw", 1.76},
                                                {"beef mince 80/20, raw", 2.54},
                                                {"chicken thigh, skin on, raw", 2.21},
                                                {"chicken thigh, skinless, raw", 1.21},
                                                {"chicken breast, skinless, raw", 1.2},
                                                {"turkey mince 93/7, raw", 1.5},
                                                {"lamb shoulder, raw", 2.64},
                                                {"pork loin, raw", 1.98},
                                                {"venison, raw", 1.2},
                                                {"rabbit, raw", 1.36},
                                                {"duck meat, skinless, raw", 1.35},
                                                {"ground beef, 85% lean, pan-fried", 2.5},
                                                {"chicken breast, roasted", 1.65},
                                                {"turkey mince 93/7, raw weight, pan-fried", 1.5}};
static const struct bowl_food FED_CAT_MEAT[] = {
    {"chicken thigh, skinless, raw", 1.21}, {"chicken thigh, skin on, raw", 2.21},
    {"turkey mince 93/7, raw", 1.5},        {"rabbit, raw", 1.36},
    {"chicken breast, roasted", 1.65},      {"beef mince 90/10, raw", 1.76},
    {"duck meat, skinless, raw", 1.35},     {"pork loin, raw", 1.98}};
static const struct bowl_food FED_HEART[] = {
    {"beef heart, raw", 1.12}, {"chicken hearts, raw", 1.53}, {"lamb heart, raw", 1.22}, {"chicken gizzards, raw", 0.94}};
static const struct bowl_food FED_LIVER[] = {
    {"beef liver, raw", 1.35}, {"chicken liver, raw", 1.19}, {"lamb liver, raw", 1.39}, {"pork liver, raw", 1.34}};
static const struct bowl_food FED_ORGAN[] = {
    {"beef kidney, raw", 0.99}, {"pork kidney, raw", 1}, {"beef spleen, raw", 1.05}};
static const struct bowl_food FED_BONE[] = {
    {"chicken necks, raw, bone-in", 1.9}, {"duck neck, raw, bone-in", 2}, {"chicken wings, raw, bone-in", 1.9}};
static const struct bowl_food FED_STARCH[] = {{"cooked white rice", 1.3},     {"cooked brown rice", 1.12},
                                              {"sweet potato, boiled", 0.76}, {"potato, boiled", 0.86},
                                              {"cooked oatmeal", 0.71},       {"cooked quinoa", 1.2}};
static const struct bowl_food FED_PLANT[] = {
    {"carrots, raw", 0.41},      {"pumpkin, canned", 0.34},     {"spinach, raw", 0.23},
    {"broccoli, steamed", 0.35}, {"green beans, boiled", 0.35}, {"zucchini, raw", 0.17},
    {"kale, raw", 0.35},         {"blueberries", 0.57},         {"apple", 0.52}};
static const struct bowl_food FED_FISH[] = {{"salmon, farmed, raw", 2.08}, {"cod, raw", 0.82}, {"mackerel, raw", 2.05}};

/* One of a list, by chance. */
#define FED_ANY(list) (&(list)[below((int)COUNT_OF(list))])

/* As people weigh: fives and tens. */
static inline double bowl_round(double grams) {
  double step = grams >= 200 ? 10 : grams >= 30 ? 5 : 1;
  return fmax(step, round(grams / step) * step);
}

/* 'kcal' of a food, for so many days. */
static inline void bowl_line(struct buf *b, const struct bowl_food *f, double kcal, int days) {
  num_sig(b, bowl_round(kcal / f->kcal * days), 4);
  buf_addf(b, " g %s\n", f->words);
}

static inline bool bowl_chance(double p) { return unit_random() < p; }

static inline void bowl_count(struct buf *b, double n, const char *words) {
  num_sig(b, fmax(1, round(n)), 3);
  buf_addf(b, " %s\n", words);
}

static inline void bowl_dog_lines(struct buf *b, double kcal, double metabolic, int days) {
  bool cooked = bowl_chance(0.5), starch = cooked ? bowl_chance(0.8) : bowl_chance(0.15);
  const struct bowl_food *meat = FED_ANY(FED_DOG_MEAT);
  double left = kcal * (starch ? 0.25 + 0.15 * unit_random() : 0.1);
  double second = bowl_chance(0.35) ? 0.15 + 0.2 * unit_random() : 0;
  bowl_line(b, meat, (kcal - left) * (1 - second), days);
  if (second > 0) bowl_line(b, FED_ANY(FED_HEART), (kcal - left) * second, days);
  if (starch) bowl_line(b, FED_ANY(FED_STARCH), left * 0.8, days);
  if (!cooked && bowl_chance(0.6)) bowl_line(b, FED_ANY(FED_BONE), kcal * (0.08 + 0.1 * unit_random()), days);
  if (bowl_chance(0.6)) bowl_line(b, FED_ANY(FED_LIVER), metabolic * (2 + 4 * unit_random()), days);
  if (bowl_chance(0.25)) bowl_line(b, FED_ANY(FED_ORGAN), metabolic * (2 + 3 * unit_random()), days);
  for (int plants = below(4); plants > 0; plants--)
    bowl_line(b, FED_ANY(FED_PLANT), metabolic * (0.8 + 2.5 * unit_random()), days);
  if (bowl_chance(0.15)) bowl_line(b, FED_ANY(FED_FISH), kcal * (0.05 + 0.05 * unit_random()), days);
  if (bowl_chance(0.45)) {
    if (days > 1 || metabolic > 8)
      bowl_count(b, fmax(1, metabolic / 14 * days), "large eggs, boiled");
    else
      buf_adds(b, "1 large egg, boiled, twice a week\n");
  }
  if (bowl_chance(0.3)) bowl_count(b, fmax(1, metabolic / 8 * days), bowl_chance(0.5) ? "tsp salmon oil" : "tsp olive oil");
  if (bowl_chance(0.3)) {
    num_sig(b, fmax(0.5, round(metabolic * 0.25 * days * 2) / 2), 3);
    buf_adds(b, " g ground eggshell\n");
  }
  if (bowl_chance(0.15)) bowl_count(b, metabolic > 5 ? 2 * days : days, "g kelp powder, dried");
  if (bowl_chance(0.15)) buf_adds(b, metabolic > 8 ? "1 can (3.75 oz) sardines in oil, drained, weekly\n" : "");
  if (bowl_chance(0.12)) buf_adds(b, metabolic > 6 ? "1 capsule natural vitamin E 200 IU, weekly\n" : "");
}

static inline void bowl_cat_lines(struct buf *b, double kcal, int days) {
  double heart = bowl_chance(0.5) ? 0.1 + 0.15 * unit_random() : 0;
  bowl_line(b, FED_ANY(FED_CAT_MEAT), kcal * (0.85 - heart), days);
  if (heart > 0) bowl_line(b, FED_ANY(FED_HEART), kcal * heart, days);
  if (bowl_chance(0.35)) bowl_line(b, FED_ANY(FED_BONE), kcal * (0.08 + 0.06 * unit_random()), days);
  if (bowl_chance(0.6)) bowl_line(b, FED_ANY(FED_LIVER), kcal * (0.03 + 0.04 * unit_random()), days);
  if (bowl_chance(0.25)) bowl_line(b, FED_ANY(FED_PLANT), kcal * 0.01, days);
  if (bowl_chance(0.15)) bowl_line(b, FED_ANY(FED_FISH), kcal * 0.06, days);
  if (bowl_chance(0.35)) bowl_count(b, 0.4 * days + 0.6, "egg yolk, raw");
  if (bowl_chance(0.3)) bowl_count(b, days, "ml salmon oil");
  if (bowl_chance(0.35)) {
    num_sig(b, 0.5 * days * (1 + below(3)), 3);
    buf_adds(b, " g ground eggshell\n");
  }
  if (bowl_chance(0.3)) {
    num_sig(b, 250 * days, 5);
    buf_adds(b, " mg taurine\n");
  }
}

/* The same number is the same bowl; 'number' 0 to BOWLS - 1, beyond them more of the kind. */
static inline struct bowl bowl_of(const struct library *lib, int number, struct arena *arena) {
  static const int DAYS[] = {1, 1, 1, 2, 3, 7};
  seed = 20261128ull + 7919ull * (unsigned long long)number;
  for (int i = 0; i < 4; i++) unit_random();
  bool cat = bowl_chance(0.3);
  /* Dogs of all sizes alike often, by the logarithm of their weight. */
  double kg = cat ? 3 + 4 * unit_random() : 3 * pow(20, unit_random());
  struct bowl out = {.animal = animal_plain(cat ? SPECIES_CAT : SPECIES_DOG, round(kg * 10) / 10)};
  out.animal.activity = (enum activity)(1 + below(3));
  out.standard = (enum standard_id)below(STANDARD_COUNT);
  double kcal = animal_energy(lib, &out.animal, arena).kcal * (0.88 + 0.24 * unit_random());
  int days = DAYS[below((int)COUNT_OF(DAYS))];
  struct buf b;
  buf_init(&b, arena, 8000);
  buf_adds(&b, "Recipe: As posted\n");
  if (days > 1) buf_addf(&b, "Makes: %d days\n", days);
  buf_adds(&b, "\n");
  if (cat)
    bowl_cat_lines(&b, kcal, days);
  else
    bowl_dog_lines(&b, kcal, animal_body(lib, &out.animal).metabolic_kg, days);
  out.text = buf_text(&b);
  return out;
}

#endif
