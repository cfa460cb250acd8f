/* week.h: days judged over the windows of data/windows.tsv: what averages out, what does not, and which days fail.
 *
 * The sums, the spreads and the verdicts are the judge's own (totals_in_window, verdict_of); here only windows are chosen
 * and compared. Of a window that holds a day of which nothing is known the sum is a lower bound: it may be met, or be too
 * much, and is not decided otherwise. docs/method/time.md. Layer: time. */
#ifndef BW_TIME_WEEK_H
#define BW_TIME_WEEK_H

#include "time/days.h"

/* What averaging over days does for a nutrient. ORDER AVERAGING: averaging_key[]. */
enum averaging {
  AVERAGING_NO_FIGURE,    /* the standard gives none */
  AVERAGING_NOT_NEEDED,   /* every single day meets it */
  AVERAGING_HELPS,        /* single days do not, every window does */
  AVERAGING_NOT_ENOUGH,   /* the mean of all days does, some window does not: the body does not wait so long */
  AVERAGING_SHORT_ANYWAY, /* not even the mean of all days does: too little, or too much */
  AVERAGING_UNPROVEN,     /* what is known does not decide it */
  AVERAGING_COUNT
};
extern const char *const averaging_key[AVERAGING_COUNT];

/* A run of days in a row, from the first on. */
struct day_run {
  int first, days;
};

struct week_window {
  int first;             /* -1: there is no window of known days */
  bool at_least;         /* it holds a day of which nothing is known: the amount is that of the others */
  double amount, cv;     /* mean a day; NaN: nothing is known of it */
  double ratio;          /* to the allowance; NaN */
  double chance;         /* leanest: that the allowance is reached; richest: that the upper limit is kept; NaN */
  double most, possible; /* with what foods without a value could hold: their whole weight, their class's high value */
};

struct week_nutrient {
  enum nutrient id;
  int window_days;
  double minimum, allowance, upper; /* a day, of the mean day; NaN none */
  bool upper_greater_than;
  bool known;           /* some food has a value */
  const double *day;    /* [days] amount; NaN: the day is not known */
  const double *window; /* [days] mean a day of what is known of the window that begins there; NaN: none, or nothing */
  const enum verdict *window_verdict; /* [days] VERDICT_NO_FIGURE where there is none */
  const double *day_most;             /* [days] with the most that foods without a value could hold; NaN: no such day */
  const bool *part;                   /* [days] the window that begins there holds a day of which nothing is known */
  const bool *gaps;                   /* [days] the window that begins there holds a day that is not known */
  struct week_window leanest, richest;
  enum verdict verdict;      /* of the leanest and the richest window: that of the judge */
  enum verdict day_verdict;  /* if every day had to stand for itself */
  enum verdict mean_verdict; /* of the mean of all known days */
  enum averaging averaging;
  int windows, windows_failing; /* judged; not met */
  int days_below;               /* single days under the allowance */
  bool too_much;                /* what fails is the upper side */
  const bool *fails;            /* [days] see week_fails_on */
  bool fails_always, fails_by_fasts;
  bool highest_day_over;        /* a single day passes the upper limit, where that matters */
  int highest_day;              /* index; -1 */
  const struct day_run *streak; /* days in a row that lie in windows which fail, longest first */
  size_t streak_count;
  const struct day_run *bridged; /* days in a row below the allowance that no window minds, longest first */
  size_t bridged_count;
};

struct week {
  const struct days_of_food *days;
  const struct check_result *mean; /* what the mean day is worth, with the review */
  bool judged;                     /* false: no animal, or one that is not judged */
  struct week_nutrient nutrient[NUT_COUNT];
  const double *kcal; /* [days] NaN: not known */
  struct {
    int window_days;
    const double *window;         /* [days] ratio of the window's sums; NaN */
    struct week_window low, high; /* ratio in 'amount' */
  } ca_p;
  int known_days, days_failing;
  bool food_known;   /* of some day something was counted, or it is known that nothing was eaten */
  const bool *fails; /* [days] some nutrient fails there that does not fail everywhere */
};

/* 'mean': days_mean(days) judged. */
const struct week *week_of(const struct library *lib, const struct days_of_food *days, const struct check_result *mean,
                           struct arena *arena);

/* Does this nutrient fail on this day: it lies in a window that fails, and has too little (too much) itself. */
bool week_fails_on(const struct week *w, enum nutrient n, int day);
/* Every known day of it lies in such a window and is below (above) itself: told once and not day by day. */
bool week_fails_always(const struct week *w, enum nutrient n);

/* Has its leanest window less of the allowance; what is not known comes last. */
bool week_leaner(const struct week_nutrient *a, const struct week_nutrient *b);

/* A day on which nothing is fed, and that is known. */
bool week_is_fast(const struct week *w, int day);
/* Does it fail for no other reason than such days? They are told once and not nutrient by nutrient. */
bool week_fails_by_fasts(const struct week *w, enum nutrient n);

#endif
