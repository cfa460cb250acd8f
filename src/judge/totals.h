/* totals.h: what a ration holds, food by food, and how sure that is.
 *
 * The portions of all lines are gathered by food: a food on two lines is one random variable, so its spread does not
 * shrink by being written twice. Within a food, portions cooked the same way share one retention factor. All amounts
 * are means of lognormal variables; foods are independent of each other. docs/method/totals.md. Layer: judge. */
#ifndef BW_TOTALS_H
#define BW_TOTALS_H

#include <math.h>

#include "judge/check.h"

/* One food in one way of cooking: what a gram of it (as the record counts) brings to the bowl. */
struct stream {
  const struct img_food *record; /* NULL: there is none */
  uint32_t food;
  int32_t retention;           /* -1 none: all of 'kept_cv2' is 0 */
  double per_g[NUT_ROOM];      /* known amount; 0 where nothing is known */
  double high_per_g[NUT_ROOM]; /* beyond that, what it could hold: the class's high value; NaN if the class has none */
  double most_per_g[NUT_ROOM]; /* the same, but never NaN: without a class figure, its whole weight */
  double value_cv2[NUT_ROOM];  /* squared CV of the food's content: shared by all streams of the food */
  double kept_cv2[NUT_ROOM];   /* squared CV of the retention factor: shared by the stream */
  uint8_t status[NUT_ROOM];    /* of the known part */
  bool missing[NUT_ROOM];      /* no value, or only part of one */
};

struct stream_key {
  uint32_t food;
  int32_t retention;
};

/* One portion of one line. Rows are sorted by food, then retention: those of a food, and of a stream, lie together. */
struct portion_row {
  int line;
  int stream;
  double grams, grams_cv2; /* on a day when it is fed */
  double day_g;            /* grams a day, averaged over the calendar */
  double eaten_g;          /* the same as eaten: this portion's part of the line's plate weight */
  int days;                /* of the calendar on which it is fed */
  const bool *fed_on;
  const uint8_t *fed_before;      /* [2 * CALENDAR_DAYS + 1] days fed before day i, the calendar written twice */
  const struct food_share *share; /* what is known already of what its food adds; NULL */
};

/* Averages a day over the calendar. */
#define DAY_SUMS                                                                                                            \
  double amount[NUT_ROOM], variance[NUT_ROOM];                                                                              \
  double missing_high[NUT_ROOM]; /* NaN: a food lacks the value and its class has no figure */                              \
  double missing_most[NUT_ROOM];                                                                                            \
  double missing_g[NUT_ROOM] /* grams as eaten of foods that lack the value */
struct day_sums {
  DAY_SUMS;
};

struct totals {
  const struct library *lib;
  const struct ration *ration;
  const double *constant; /* judge/constants.h, for one species; NULL: asked of the library each time */
  struct stream **stream; /* [stream_count] sorted by food, then retention */
  int stream_count;
  /* Of streams that library.judged lends: how to make them anew, and in which use of it they were lent. */
  const struct stream_key *key; /* [stream_count]; NULL: they are its own */
  double carotene_factor;
  unsigned use;
  struct portion_row *row;
  int row_count;
  const double *uncounted_most; /* [NUT_COUNT] a day, what is fed without being counted (uncounted.h); NULL: nothing is */
  bool same_every_day;
  double eaten_g; /* a day */
  union {
    struct day_sums sum;
    struct {
      DAY_SUMS;
    };
  };
  /* Where days differ: the sums of the foods that are fed alike on all of them, the other foods (their first rows), and what
   * the days are like. */
  struct day_sums *steady;
  int *varying;
  int varying_count;
  struct calendar *calendar;
};

/* 'carotene_factor': vitamin A that the species makes of a unit of beta-carotene; 0 counts retinol alone. */
struct totals *totals_gather(const struct library *lib, const struct ration *ration, double carotene_factor,
                             struct arena *arena);
/* The same, with streams that library.judged keeps: good only until totals are gathered again. */
struct totals *totals_gather_once(const struct library *lib, const struct ration *ration, double carotene_factor,
                                  struct arena *arena);
/* Its streams; made anew, and with the energy as published, where what was lent has gone to others since. */
struct stream **totals_streams_again(const struct totals *t, struct arena *arena);
/* What can be taken over from earlier totals of a ration in which one line is exchanged: foods of the other lines. */
struct totals_kept;
/* 't' is given up for it. 'constant': of the species that all of this is for. */
struct totals_kept *totals_keep(const struct totals *t, int line, const double *constant, struct arena *arena);
/* totals_gather with the same factor: the same sums to the last bit. The totals before are good no longer. */
struct totals *totals_gather_again(const struct library *lib, const struct ration *ration, double carotene_factor,
                                   struct totals_kept *kept, struct arena *arena);

/* Mean a day over the window of 'days' days that starts on 'first' (the calendar is a circle). */
struct window_total {
  double amount, cv;
  double missing_high, missing_most; /* a day, in that window */
};
struct window_total totals_in_window(const struct totals *t, enum nutrient n, int first, int days);
/* Which of two windows is the poorer, by what is known of them and the most that foods without a value could hold beyond it
 * (missing_most). Of two with the same known amount the poorer is the one that can hold less: of a fast and a day of which
 * nobody knows anything, the fast. Likewise the richer is the one that can hold more. Two sums of the same days may differ
 * in their last bits; only a real difference decides. */
struct known_window {
  double amount, missing;
};
bool window_is_poorer(struct known_window a, struct known_window than);
bool window_is_richer(struct known_window a, struct known_window than);
/* The same over the whole calendar. */
struct window_total totals_over_calendar(const struct totals *t, enum nutrient n);

/* Known amount on each day of the calendar. */
void totals_series(const struct totals *t, enum nutrient n, double day[CALENDAR_DAYS]);

/* The days, and the windows of 'days' days; the calendar is a circle. */
struct day_range {
  double lowest, highest; /* known amount of one day */
  int worst, rich;        /* first days of the poorest and of the richest window */
  bool alike;             /* every window holds each food as often: it is the calendar's mean day */
};
struct day_range totals_days(const struct totals *t, enum nutrient n, int days);

/* How the window's amount and variance answer to a gram more (on each day when it is fed) of each portion: the
 * derivatives of totals_in_window by row[].grams, [row_count] each. */
void totals_slopes(const struct totals *t, enum nutrient n, int first, int days, double *amount, double *variance);

static inline double totals_cv(double amount, double variance) { return amount > 0 ? sqrt(variance) / amount : 0.0; }

#endif
