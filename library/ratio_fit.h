/* ratio_fit.h: one ratio for a class of foods, and how far off it is for a food it has not seen. */
#ifndef BW_LIBRARY_RATIO_FIT_H
#define BW_LIBRARY_RATIO_FIT_H

#include <stddef.h>

/* Ratios of independent analyses; records that share an analysis have one group and count once, by their mean. */
struct ratio_group {
  int group;
  double sum;
  int records;
};
struct ratio_set {
  struct ratio_group *group;
  size_t count;
};

/* Adds one record's ratio; 'set->group' must have room for every group. */
void ratio_add(struct ratio_set *set, int group, double ratio);
/* Mean over groups; NaN when empty. */
double ratio_mean(const struct ratio_set *set);
/* Leave-one-out error as a coefficient of variation: root mean square over the groups of 'judged' of
 * (their ratio - e) / e, where e is the mean of 'set' without that group. A group that is not zero where e is zero
 * counts as 2.55, the widest spread that a value can carry. NaN when nothing can be judged. */
double ratio_error(const struct ratio_set *set, const struct ratio_set *judged);

#endif
