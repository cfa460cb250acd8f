/* told.h: a trend as it is told: sentences and remarks beside the figures. Layer: trend. */
#ifndef BW_TREND_TOLD_H
#define BW_TREND_TOLD_H

#include "trend/trend.h"

/* What is remarked beside the figures. ORDER TREND_REMARK: trend_remark_key[] in told.c. */
enum trend_remark_kind {
  REMARK_LOSS_TOO_FAST,
  REMARK_LOSS_UNEXPLAINED,
  REMARK_GAIN_FAST,
  REMARK_CHANGE,
  REMARK_STEP,         /* all readings step at once: a scale, a clip */
  REMARK_READING,      /* far off the days around it */
  REMARK_OTHER_WEIGHT, /* the animal's text says another weight */
  REMARK_OLD,
  REMARK_UNKNOWN_DAYS,
  REMARK_UNREAD_DAYS,
  REMARK_PARTLY_DAYS,
  REMARK_MUCH_EATEN, /* on one day, so much more than usual that it can hardly be right */
  REMARK_KINDS
};
extern const char *const trend_remark_key[REMARK_KINDS];

enum trend_urgency { TREND_ACT, TREND_WATCH, TREND_KNOW, TREND_URGENCIES };
extern const char *const trend_urgency_word[TREND_URGENCIES];
extern const char *const trend_lack_word[TREND_LACKS];

struct trend_remark {
  enum trend_remark_kind kind;
  enum trend_urgency urgency;
  const char *text;
};

struct trend_told {
  const struct trend_result *trend;
  long until;                        /* the day spoken of */
  const char *direction;             /* "Juniper weighs ... and is losing ...", or what is missing */
  const char *need;                  /* "Its own need is ...", or what is missing; "" */
  const char *eaten;                 /* what was eaten lately, against the need; "" */
  const char *ahead;                 /* the forecast; "" */
  const struct trend_remark *remark; /* what matters most first */
  size_t remark_count;
};

#endif
