/* rotate.h: which recipe on which day: the rotation with the fewest changes of recipe that meets every window of every need,
 * or what no rotation can meet.
 *
 * A recipe's day is its mean day. A plan of N days repeats; a change is a day whose recipe is not that of the day before,
 * the first day after the last one included. A need is met by a rotation when no window of it is short, thin or over;
 * windows that what is known does not decide stop nothing and are told. Exact: rotations are tried by their number of
 * changes, and left only where a window fails that is filled already. docs/method/rotation.md. Layer: time. */
#ifndef BW_TIME_ROTATE_H
#define BW_TIME_ROTATE_H

#include "time/week.h"

enum { ROTATE_RECIPES_MOST = 8, ROTATE_DAYS_MOST = 28 };

enum rotation_status {
  ROTATION_FOUND,
  ROTATION_NONE,     /* none exists: proven */
  ROTATION_NOT_FOUND /* none was found before the search ended */
};
extern const char *const rotation_status_key[3]; /* "found", "none-exists", "not-found" */

struct rotation {
  enum rotation_status status;
  int days;
  int recipe[ROTATE_DAYS_MOST]; /* FOUND: index of each day's */
  int changes, used_days[ROTATE_RECIPES_MOST];
  bool usable[ROTATE_RECIPES_MOST];           /* meets what is counted by the day: may stand on a day at all */
  bool unfit[ROTATE_RECIPES_MOST][NUT_COUNT]; /* what of that it does not meet */
  bool fails[ROTATE_RECIPES_MOST][NUT_COUNT]; /* fed every day alone, it does not meet this */
  /* NONE: needs that no rotation of these meets, each alone; without any, a smallest set that none meets together. */
  bool unreachable[NUT_COUNT], conflict[NUT_COUNT];
  bool conflict_smallest;  /* false: it may hold more than are needed */
  const struct week *week; /* FOUND: the rotation judged */
  long tried;              /* days that were set */
};

/* 'ration': a recipe each, with lines as a ration has them; 'alone': each judged by itself. 'wanted' NULL: every need that
 * has an allowance or a limit. 'most': days to set before the search ends; 0: a usual number. */
void rotate(const struct library *lib, const struct ration *const *ration, const struct check_result *const *alone,
            int recipes, int days, const bool wanted[NUT_COUNT], long most, struct rotation *out, struct arena *arena);

/* The days of such a rotation, for week_of: recipe[i] of 'ration' on day i, each on its mean. */
struct days_of_food rotation_days(const struct ration *const *ration, int recipes, const int *recipe, int days,
                                  struct arena *arena);

#endif
