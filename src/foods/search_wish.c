/* How well a record suits what was said about its preparation and cut. */
#include <math.h>

#include "foods/search_words.h"

/* A stated wish that the record contradicts: it stays below a record that merely lacks a word. */
static const double CONTRADICTION = 0.45;

enum cooking { COOKING_NONE, COOKING_MOIST, COOKING_DRY, COOKING_SOME };

static enum cooking cooking_of(enum state s) {
  switch (s) {
  case STATE_BOILED:
  case STATE_SIMMERED:
  case STATE_STEAMED:
  case STATE_PRESSURE_COOKED:
  case STATE_MICROWAVED:
    return COOKING_MOIST;
  case STATE_BAKED:
  case STATE_ROASTED:
  case STATE_PAN_FRIED:
  case STATE_GRILLED:
    return COOKING_DRY;
  case STATE_COOKED_OTHER:
    return COOKING_SOME;
  default:
    return COOKING_NONE;
  }
}

/* Grain, pulses and seeds are sold dry: tables call the same goods "raw", "dry", "dried" or nothing. */
static bool sold_dry(const struct img_food *f) {
  return f->part == PART_GRAIN || f->part == PART_LEGUME || f->part == PART_SEED_NUT || f->part == PART_SUPPLEMENT;
}

static enum state as_bought(const struct img_food *f) {
  enum state s = (enum state)f->state;
  if (s == STATE_UNSTATED || (s == STATE_DRIED && sold_dry(f))) return STATE_RAW;
  return s;
}

/* A raw record can stand for a cooked food (retention factors make it so); nothing can make a cooked record raw again. */
static double cooked_fit(enum state wish, enum state is, const struct img_food *f) {
  if (wish == is) return 1;
  if (is == STATE_RAW) return sold_dry(f) ? 0.6 : 0.75;
  if (is == STATE_CANNED) return 0.6;
  enum cooking wished = cooking_of(wish), found = cooking_of(is);
  if (found == COOKING_NONE) return CONTRADICTION;
  if (wished == COOKING_SOME && is == STATE_PAN_FRIED) return 0.94; /* who fries says so: it brings fat */
  if (wished == COOKING_SOME || found == COOKING_SOME) return 0.97;
  return wished == found ? 0.97 : 0.88;
}

static double state_fit(enum state wish, const struct img_food *f) {
  enum state is = as_bought(f);
  if (wish == STATE_UNSTATED || wish == is || wish == (enum state)f->state) return 1;
  if (cooking_of(wish) != COOKING_NONE) return cooked_fit(wish, is, f);
  if (wish == STATE_DRIED && is == STATE_RAW && sold_dry(f))
    return f->part == PART_SEED_NUT && f->state == STATE_RAW ? 0.8 : 1;
  if (wish == STATE_DRIED && is == STATE_FREEZE_DRIED) return 0.9;
  if (wish == STATE_FREEZE_DRIED && is == STATE_DRIED) return 0.8;
  if (wish == STATE_FREEZE_DRIED && is == STATE_RAW) return 0.7;
  return CONTRADICTION;
}

static double skin_fit(int8_t wish, uint32_t flags) {
  uint32_t wished = wish ? FOOD_SKIN : FOOD_SKINLESS, opposite = wish ? FOOD_SKINLESS : FOOD_SKIN;
  if (wish < 0 || (flags & wished)) return 1;
  return flags & opposite ? CONTRADICTION : 0.95;
}

static double bone_fit(int8_t wish, const struct img_food *f, const struct img_search_food *named) {
  if (wish < 0) return 1;
  enum search_cut cut = named ? (enum search_cut)named->cut : SEARCH_CUT_UNSAID;
  if (wish == 0) return f->flags & FOOD_BONE ? CONTRADICTION : cut == SEARCH_CUT_BONE_IN ? 0.9 : 1;
  if (cut == SEARCH_CUT_BONE_IN || f->bone_share > 0 || (f->flags & (FOOD_CUT | FOOD_ALWAYS_BONE_IN))) return 1;
  return cut == SEARCH_CUT_BONELESS ? 0.8 : 0.92;
}

static double lean_percent_fit(double wish, const struct img_search_food *named) {
  if (!(wish >= 0)) return 1;
  if (!named || named->lean_percent == 0) return 0.7;
  return fmax(CONTRADICTION, 1 - 0.02 * fabs(wish - named->lean_percent));
}

static double lean_fit(bool wish, uint32_t flags, const struct img_search_food *named) {
  if (!wish || (flags & FOOD_LEAN_ONLY)) return 1;
  if (flags & FOOD_WITH_FAT) return CONTRADICTION;
  /* Of minces that state their lean share, 90 % counts as lean. */
  if (named && named->lean_percent > 0) return fmin(1, 0.95 + 0.01 * (named->lean_percent - 95)) + 0.05;
  return 0.97;
}

static double drained_fit(bool wish, const struct img_food *f) {
  if (!wish || (f->flags & FOOD_DRAINED)) return 1;
  return f->state == STATE_CANNED ? 0.7 : 0.95;
}

double search_wish_fit(const struct search_wish *wish, const struct img_food *food, const struct img_search_food *named) {
  return state_fit(wish->state, food) * skin_fit(wish->skin, food->flags) * bone_fit(wish->bone_in, food, named) *
         lean_percent_fit(wish->lean_percent, named) * lean_fit(wish->lean, food->flags, named) *
         drained_fit(wish->drained, food);
}

static double state_loss(const struct img_food *f) {
  enum state is = as_bought(f);
  if (is == STATE_RAW) return f->state == STATE_UNSTATED ? 0.005 : 0;
  /* Raw or cooked rice is a threefold difference and people leave it out: cooked stays among the rivals. */
  if (cooking_of(is) != COOKING_NONE) return sold_dry(f) ? 0.045 : 0.08;
  return is == STATE_CANNED ? 0.07 : 0.12;
}

double search_unasked_loss(const struct search_wish *wish, const struct img_food *food) {
  double loss = 0;
  if (wish->state == STATE_UNSTATED) loss += state_loss(food);
  if (wish->skin < 0 && (food->flags & FOOD_SKINLESS)) loss += 0.01;
  if (!wish->lean && (food->flags & FOOD_LEAN_ONLY)) loss += 0.02;
  if (wish->bone_in < 0 && (food->flags & FOOD_BONE)) loss += 0.03;
  return loss;
}
