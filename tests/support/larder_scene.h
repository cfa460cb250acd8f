/* larder_scene.h: random larders and animals over the real library, for tests of compose. Include after cmocka.h. */
#ifndef BW_LARDER_SCENE_H
#define BW_LARDER_SCENE_H

#include <math.h>

#include "change/compose.h"
#include "foods/portion.h"
#include "near.h"
#include "tests/support/built_image.h"

enum { FOODS_MOST = 40 };

static uint64_t seed = 20260801;
static uint32_t draw(uint32_t below) {
  seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
  return (uint32_t)(((seed >> 33) * below) >> 31);
}
static double between(double low, double high) { return low + (high - low) * draw(1000) / 1000.0; }

/* Foods from which many bowls can be made: flesh, organs, egg, fish, oils, seeds and pure substances. */
static const char *const PANTRY[] = {"usda:17039", "usda:17191", "usda:17199", "usda:13327", "usda:05062", "usda:05027",
                                     "usda:01123", "usda:15048", "usda:15085", "usda:04593", "usda:12012", "usda:20032",
                                     "usda:11457", "usda:16027", "usda:04506", "usda:15164", "usda:13326", "usda:23562"};

static struct compose_food food_of(uint32_t f) {
  return (struct compose_food){.food = candidate_of(built_library(), f, NULL),
                               .high = INFINITY,
                               .times_low = NAN,
                               .times_high = NAN,
                               .price = between(0.002, 0.03)};
}

/* Several times what is usual of it for an animal of 10 kg (data/portions.tsv, data/shop_units.tsv). */
static double plenty_of(const struct library *lib, const struct img_fix *fix) {
  static const double METABOLIC_KG = 5.623, FOOD_G = 100; /* 10 kg to the power of 0.75 */
  if (fix->shop_unit == NO_INDEX) return 5 * portion_most_g(lib, fix->food, SPECIES_DOG, METABOLIC_KG, (double)NAN);
  const struct img_shop_unit *u = &IMG_ROWS(&lib->image, IMG_SHOP_UNITS, struct img_shop_unit)[fix->shop_unit];
  if (u->nutrient >= NUT_COUNT) return FOOD_G;
  return 5 * (double)(u->most * u->holds) / (double)library_values(lib, fix->food)[u->nutrient].mean * 100;
}

/* What people use to bring a nutrient (data/fixes.tsv of the library). */
static size_t add_fixes(struct compose_food *food, size_t n, enum species s) {
  const struct library *lib = built_library();
  const struct img_fix *fix = IMG_ROWS(&lib->image, IMG_FIXES, struct img_fix);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FIXES) && n < FOODS_MOST; i++) {
    bool there = fix[i].species != SPECIES_BOTH && fix[i].species != s;
    for (size_t k = 0; k < n; k++) there = there || food[k].food.line.shown_food == fix[i].food;
    if (there || draw(6) == 0) continue;
    food[n] = food_of(fix[i].food);
    food[n++].high = plenty_of(lib, &fix[i]);
  }
  return n;
}

static struct animal any_animal(enum species s) {
  bool cat = s == SPECIES_CAT;
  struct animal a = animal_plain(s, cat ? between(3, 6) : between(5, 40));
  a.name = cat ? "Pim" : "Moss";
  a.age_years = 5;
  a.neutered = 1;
  return a;
}

static double step(void *user, size_t food, double grams) {
  (void)user;
  (void)food;
  return grams >= 100 ? 5 : grams >= 20 ? 1 : grams >= 5 ? 0.5 : grams >= 1 ? 0.1 : 0.01;
}

static bool patience(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)bound;
  (void)best;
  return nodes < *(long *)user;
}

/* ---- a random larder ---- */

struct scene {
  struct animal animal;
  struct compose_food food[FOODS_MOST];
  struct compose_limit limit[3];
  struct compose_request q;
  long patience;
};

static void fill_pantry(struct scene *s) {
  size_t n = 0;
  for (size_t i = 0; i < COUNT_OF(PANTRY); i++) {
    if (draw(4) == 0) continue;
    struct compose_food *f = &s->food[n++];
    *f = food_of(built_food(PANTRY[i]));
    if (draw(6) == 0) f->least = between(2, 10);
    if (strcmp(PANTRY[i], "usda:01123") == 0) f->whole = 50;
    if (strcmp(PANTRY[i], "usda:15048") == 0 && draw(2) == 0) {
      f->low = f->high = between(20, 110);
      f->times_low = 0;
      f->times_high = 8;
    }
  }
  s->q.foods = draw(8) != 0 ? add_fixes(s->food, n, s->animal.species) : n;
}

static void fill_limits(struct scene *s) {
  if (draw(3) == 0)
    s->limit[s->q.limits++] = (struct compose_limit){
        .kind = COMPOSE_ENERGY_SHARE, .low = -INFINITY, .high = between(0.35, 0.6), .nutrient = NUT_FAT, .words = "fat"};
  if (draw(5) == 0)
    s->limit[s->q.limits++] =
        (struct compose_limit){.kind = COMPOSE_FOODS, .low = -INFINITY, .high = 9 + draw(4), .words = "foods"};
}

static void draw_scene(struct scene *s) {
  *s = (struct scene){.animal = any_animal(draw(3) == 0 ? SPECIES_CAT : SPECIES_DOG), .patience = 300};
  fill_pantry(s);
  fill_limits(s);
  s->q.food = s->food;
  s->q.animal = &s->animal;
  s->q.animals = 1;
  s->q.options = (struct check_options){draw(4) == 0 ? STANDARD_FEDIAF2021 : STANDARD_NRC2006, (enum basis)draw(BASIS_COUNT),
                                        draw(2) ? 0.75 : 0.5 + 0.01 * draw(45), ENERGY_ATWATER, 0};
  s->q.limit = s->limit;
  s->q.aim = (enum compose_aim)draw(3);
  s->q.step = step;
  s->q.go_on = patience;
  s->q.user = &s->patience;
}

static void everything_is_met(const struct compose_request *q, const struct compose_bowl *b, struct arena *a) {
  const struct check_result *c = check_numbers(built_library(), b->ration, b->animal, &q->options, a);
  assert_true(b->kept);
  for (int k = 0; k < NUT_COUNT; k++)
    if (c->nutrient[k].verdict != VERDICT_MET && c->nutrient[k].verdict != VERDICT_NO_FIGURE)
      fail_msg("%s is %s", nutrient_info[k].name, verdict_word[c->nutrient[k].verdict]);
  assert_true(c->energy.supply_kcal >= 0.95 * b->need_kcal - 1e-6);
  assert_true(c->energy.supply_kcal <= 1.05 * b->need_kcal + 1e-6);
  for (size_t i = 0; i < q->limits; i++)
    if (q->limit[i].kind == COMPOSE_ENERGY_SHARE) assert_true(c->energy.share_fat <= q->limit[i].high + 1e-6);
}

#endif
