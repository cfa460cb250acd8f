/* trend_words.h: an answer on a trend in sentences. Private to this folder. */
#ifndef BW_APP_TREND_WORDS_H
#define BW_APP_TREND_WORDS_H

#include "app/app_trend.h"
#include "app/measure.h"

/* Fills the sentences and remarks of an answer whose figures stand. */
void trend_say(struct app_trend_answer *a, const struct app_diary *diary, struct arena *arena);

#endif
