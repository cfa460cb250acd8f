#include "judge/ration.h"

#include <math.h>

#include "foods/refused.h"

double ration_line_grams_per_day(const struct ration_line *l) { return l->grams_fed * l->times_per_28 / CALENDAR_DAYS; }

static bool is_flesh(const struct img_food *f) {
  return f->part == PART_MUSCLE || f->part == PART_FISH || f->part == PART_SHELLFISH || f->part == PART_ORGAN_LIVER ||
         f->part == PART_ORGAN_SECRETING || f->part == PART_ORGAN_OTHER;
}

bool ration_is_cooked(const struct library *lib, const struct ration *r) {
  static const double MOST_OF_IT = 2.0 / 3;
  double raw = 0, cooked = 0;
  for (size_t i = 0; i < r->line_count; i++) {
    const struct ration_line *l = &r->line[i];
    const struct img_food *f = library_food(lib, l->shown_food);
    if (!f || !(l->grams_fed > 0) || !is_flesh(f)) continue;
    enum state state = l->state == STATE_UNSTATED ? (enum state)f->state : l->state;
    if (state != STATE_CANNED && f->state != STATE_CANNED && !l->state_assumed)
      *(state_is_cooked(state) ? &cooked : &raw) += ration_line_grams_per_day(l);
  }
  return cooked >= MOST_OF_IT * (cooked + raw);
}

bool ration_takes_fix(const struct library *lib, const struct ration *r, const struct img_fix *fix, enum species s) {
  if (fix->species != SPECIES_BOTH && fix->species != s) return false;
  return fix->way == FIX_ANY || (fix->way == FIX_COOKED) == ration_is_cooked(lib, r);
}

void ration_spread_days(struct ration_line *l, double times_per_28, int offset) {
  int times = !(times_per_28 > 0) ? 0 : times_per_28 >= CALENDAR_DAYS ? CALENDAR_DAYS : (int)lround(times_per_28);
  if (times == 0 && times_per_28 > 0) times = 1; /* rarer than once in the calendar: the calendar cannot show less */
  l->times_per_28 = times;
  memset(l->fed_on, 0, sizeof l->fed_on);
  /* Day i is fed when the running share times * i / 28 passes a whole number: gaps differ by one day at most. */
  for (int i = 0; i < CALENDAR_DAYS; i++) {
    bool fed = (i + 1) * times / CALENDAR_DAYS > i * times / CALENDAR_DAYS;
    int day = (i + offset) % CALENDAR_DAYS;
    if (day < 0) day += CALENDAR_DAYS;
    l->fed_on[day] = fed;
  }
}

void ration_name_days(struct ration_line *l, unsigned days) {
  int times = 0;
  for (int i = 0; i < CALENDAR_DAYS; i++) {
    l->fed_on[i] = days >> i % 7 & 1u;
    times += l->fed_on[i];
  }
  l->times_per_28 = times;
}

bool ration_is_on_trial(const struct ration *r) {
  for (size_t i = 0; i < r->never_count; i++)
    if (span_eq_fold(span_of(r->never[i]), SPAN_LIT("new food"))) return true;
  return false;
}

bool ration_refuses(const struct library *lib, const struct ration *r, uint32_t food, const char *called,
                    struct arena *arena) {
  for (size_t i = 0; i < r->never_count; i++)
    if (food_is_refused(lib, food, called, span_of(r->never[i]), arena)) return true;
  return false;
}
