/* slim.h: the way of an overweight adult to its ideal weight: energy a day in steps, days to weigh, the weight to expect on
 * each. Arithmetic alone; docs/method/slim.md. Layer: trend. Pure. */
#ifndef BW_TREND_SLIM_H
#define BW_TREND_SLIM_H

#include "trend/trend.h"

struct slim_input {
  double weight_kg, ideal_kg;
  double start_share;     /* above the ideal weight, from where on a plan begins: 0.1 */
  bool heavy_before;      /* by its body condition, or it was heavier by that much already and is on its way: then go on */
  struct trend_band need; /* kcal a day, at this weight */
  double floor_kcal;      /* never less a day */
  double rate_low, rate_aim, rate_high;        /* loss a week, shares of the weight: safe, aimed at, the most that is safe */
  double tissue_kcal, tissue_low, tissue_high; /* kcal per kg */
  double metabolic_exponent;
  int every_days;    /* between weighings */
  int days_told;     /* weighings are listed up to this day: a band by a guess of the need soon says nothing */
  double round_kcal; /* steps are multiples of this */
};

enum slim_status { SLIM_FOUND, SLIM_NOT_NEEDED, SLIM_LITTLE, SLIM_NO_ROOM, SLIM_STATUSES };
/* "found", "not-needed", "a-little": above the ideal weight, but too little to plan for, "no-room" */
extern const char *const slim_status_word[SLIM_STATUSES];

struct slim_step {
  int day; /* from this day on, 0 the first */
  double kcal;
};

struct slim_weighing {
  int day;
  struct trend_band weight; /* to expect: the need's interval and that of tissue carried along, not below 'too_light' */
  double too_light;         /* below this it lost faster than is safe since the first day, on which it is NaN */
  double kcal;              /* fed from that day on */
};

enum { SLIM_DAYS_MOST = 364 };

struct slim_plan {
  enum slim_status status; /* SLIM_NO_ROOM: the floor leaves nothing to save: the need itself is in question */
  const struct slim_step *step;
  size_t step_count;
  const struct slim_weighing *weighing;
  size_t weighing_count;
  int days; /* until the ideal weight, or SLIM_DAYS_MOST */
  bool reached;
  bool at_floor; /* the floor holds the energy up: slower than was aimed at */
  double lowest_kcal;
  double per_week; /* loss in the first weeks of the full step, share of the weight */
};

struct slim_plan slim_plan_for(const struct slim_input *in, struct arena *arena);

#endif
