/* week_words.h: a week told to a person. Terminal, JSON and page say these sentences. Layer: time. */
#ifndef BW_TIME_WEEK_WORDS_H
#define BW_TIME_WEEK_WORDS_H

#include "time/week.h"
#include "words/words.h"

/* Needs that ask the same of the reader, worst first; in the order in which they are told. */
struct week_group {
  const char *key, *title;
  const struct week_nutrient *item[NUT_COUNT];
  size_t count;
};
enum { WEEK_GROUP_COUNT = 6 };
void week_groups(const struct week *w, struct week_group group[WEEK_GROUP_COUNT]);

/* What averaging buys and what it does not, in one to four sentences. */
const char *week_lead(const struct week *w, struct arena *arena);
/* "choline 62 %, thiamin 70 % and 3 more" of those that fail on this day and not on all; "" when none does;
 * "no food" of a day on which nothing is fed. */
const char *week_day_words(const struct week *w, int day, size_t most, struct arena *arena);
/* Those that fail on every day, with the least and the most of the days with food: "chloride 45 to 70 %". */
const char *week_always_words(const struct week *w, size_t most, struct arena *arena);
/* "Mon", or "2026-11-02" for a day with a date. */
const char *week_day_name(const struct week *w, int day, struct arena *arena);
/* 0 Monday to 6 Sunday. */
int week_weekday(const struct week *w, int day);
/* "7 days", "1 day" */
const char *week_days_words(int days, struct arena *arena);
extern const char *const week_day_short[7];

#endif
