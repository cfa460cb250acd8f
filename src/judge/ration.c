#include "judge/ration.h"

#include <math.h>

double ration_line_grams_per_day(const struct ration_line *l) { return l->grams_fed * l->times_per_28 / CALENDAR_DAYS; }

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
