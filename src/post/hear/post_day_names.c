/* Which days of the week are named. */
#include "post/hear/post_hear.h"

/* The days of the week that are named from 'at' on: "Mon to Fri", "Tuesday, Thursday and Sunday"; how many tokens. */
size_t post_days_named(const struct tokens *t, size_t at, unsigned *days) {
  size_t from = at, used = at;
  int last = -1;
  *days = 0;
  while (at < t->count) {
    const char *number;
    int day = is_word(t, at) && meaning_at(t, at, CLASS_DAY_OF_WEEK, &number) > 0 ? number[0] - '1' : -1;
    if (says(t, at, "weekend weekends"))
      *days |= 0x60;
    else if (says(t, at, "weekdays weekday"))
      *days |= 0x1F;
    else if (day < 0)
      break;
    bool range = last >= 0 && day >= 0 && (is_mark(t, at - 1, '-') || says(t, at - 1, "to till until through thru"));
    for (int d = last; range && d != day; d = (d + 1) % 7) *days |= 1u << d;
    if (day >= 0) *days |= 1u << day;
    last = day;
    used = ++at;
    while (is_mark(t, at, ',') || is_mark(t, at, '/') || is_mark(t, at, '&') || is_mark(t, at, '+') || is_mark(t, at, '-') ||
           says_a(t, at, CLASS_BETWEEN_DAYS))
      at++;
  }
  return used - from;
}
