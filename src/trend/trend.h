/* trend.h: from dated weights and dated intakes to the trend of the weight and the animal's own energy need, each with its
 * interval; what does not fit, when the trend changed, and what comes next as a band.
 *
 * The model (docs/method/trend.md), a step a day:
 *
 *   weight tomorrow = weight today + (energy eaten - own need) / energy of tissue + noise
 *   the need drifts slowly, and may have made a step lately
 *   a day that nobody wrote down is like the known days around it, and more by what drifts slowly too
 *   scale = weight + what is in the bowels + noise with heavy tails, so that one gulp of water or one slip of the pen pulls
 *   nothing
 *
 * Kalman filter and smoother; the sizes of the noises and the energy of tissue are not guessed but averaged over, each with
 * the weight that the data give it. Errors cannot occur; what cannot be known is NaN.
 *
 * Layer: trend. Pure. */
#ifndef BW_TREND_H
#define BW_TREND_H

#include "base/arena.h"

struct trend_weight {
  long day;  /* any day count */
  double kg; /* > 0 */
};

struct trend_intake {
  long day;
  double kcal; /* of the whole day; NaN: not known, or in part only */
};

struct trend_input {
  /* Each sorted by day; several weights of one day are several weighings. Days of the same number, at most, for intakes. */
  const struct trend_weight *weight;
  size_t weight_count;
  const struct trend_intake *intake;
  size_t intake_count;
  long until;                                  /* the day spoken of; data of later days are not looked at */
  int forecast_days;                           /* 0: none; at most TREND_FORECAST_MOST */
  double planned_kcal;                         /* eaten a day from now on; NaN: as lately */
  double tissue_kcal, tissue_low, tissue_high; /* kcal per kg of weight change; low and high: one standard deviation */
  double metabolic_exponent;                   /* the need grows with the weight to this power */
};

enum {
  TREND_DAYS_LEARNT =
      730, /* noises and need are learnt from the last two years; earlier days are drawn with what was learnt */
  TREND_FORECAST_MOST = 366,
  TREND_RECENT_DAYS = 28,  /* "lately", ... */
  TREND_RECENT_LEAST = 7,  /* ... of which so many must be known: a single fast is not what it eats */
  TREND_LEAST_WEIGHTS = 4, /* below these there is no trend, ... */
  TREND_LEAST_SPAN = 14,   /* days between the first and the last, ... */
  TREND_LEAST_KNOWN = 10,  /* ... and no need below so many days with a known intake */
  TREND_CHANGES_MOST = 4,
  TREND_SHIFTS_MOST = 3
};

struct trend_band {
  double mean, low, high; /* 90 %: the 5th and the 95th per cent */
};

struct trend_day {
  long day;
  struct trend_band weight; /* of the animal, not of the scale */
};

struct trend_reading {
  long day;
  double kg;
  double off_kg; /* scale less weight of that day */
  double trust;  /* near 1: as good as any; near 0: all but left out */
  bool outlier;  /* farther off than the noise of this scale explains */
};

struct trend_change {
  long day;                       /* about when */
  double before, after;           /* kg a week on either side */
  double kcal_before, kcal_after; /* mean of the known days of up to four weeks on either side; NaN */
  bool need_changed;              /* more than what was eaten explains */
};

/* All readings step at once and go on as before: another scale, a clip. Taken out of what is learnt. */
struct trend_shift {
  long before, after; /* the weighings on either side of it */
  double kg;
};

struct trend_forecast {
  long day;
  struct trend_band weight;         /* of the animal */
  double reading_low, reading_high; /* where nine of ten readings of the scale will lie */
};

enum trend_lack { TREND_LACKS_NOTHING, TREND_LACKS_WEIGHTS, TREND_LACKS_SPAN, TREND_LACKS_INTAKE, TREND_LACKS };

struct trend_result {
  enum trend_lack lack;        /* why there is no trend (weights, span), or no need (intake) */
  const struct trend_day *day; /* from the first weighing to 'until'; 0 without a trend */
  size_t day_count;
  const struct trend_reading *reading; /* a weighing each */
  size_t reading_count;
  struct trend_band weight;   /* on the day 'until' */
  struct trend_band per_week; /* change of weight, kg a week, over 'rate_days' */
  int rate_days;              /* the last 28 days, or as many as there are since the last change or the first weighing */
  double chance_loss;         /* that the weight went down over these days */
  struct trend_band need;     /* kcal a day, now; NaN without intakes */
  struct trend_band balance;  /* eaten lately less needed, kcal a day; NaN */
  double recent_kcal;         /* mean of the known days of the last 28; NaN when they are too few */
  size_t recent_known, known_days;   /* days with a known intake: of the last 28, of all */
  double scale_sd;                   /* kg: of one ordinary reading, with what is in the bowels */
  const struct trend_change *change; /* by day */
  size_t change_count;
  const struct trend_shift *shift; /* the clearest first */
  size_t shift_count;
  const struct trend_forecast *forecast; /* a day each, from 'until' + 1 */
  size_t forecast_count;
  double forecast_kcal; /* what the forecast takes to be eaten; NaN: the same trend goes on */
};

const struct trend_result *trend_estimate(const struct trend_input *in, struct arena *arena);

/* How many more weighings, one every 'every_days' with every day's food written down, until the need is known to
 * +- 'share[i]' of itself (90 %); 0: it is already; -1: more than 'most'. Depends on the noise learnt so far, not on what
 * the scale will say. */
void trend_weighings_wanted(const struct trend_input *in, int every_days, const double *share, int *wanted, int count,
                            int most, struct arena *arena);

#endif
