/* near.h: numbers that must agree within a stated tolerance; NaN never agrees. Include after cmocka.h. */
#ifndef BW_NEAR_H
#define BW_NEAR_H

#include <math.h>

#define assert_near(got, want, tolerance)                                                                                   \
  do {                                                                                                                      \
    double got_ = (got), want_ = (want);                                                                                    \
    if (!(fabs(got_ - want_) <= (tolerance))) {                                                                             \
      print_error("%s is %.9g, wanted %.9g within %.3g\n", #got, got_, want_, (double)(tolerance));                         \
      fail();                                                                                                               \
    }                                                                                                                       \
  } while (0)

#endif
