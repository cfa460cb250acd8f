/* Largest first, equal ones in the order of the lines. */
#include "judge/check_steps.h"

void suppliers_sort(struct supplier *from, size_t n) {
  for (size_t i = 1; i < n; i++) {
    struct supplier s = from[i];
    size_t j = i;
    for (; j > 0 && from[j - 1].amount < s.amount; j--) from[j] = from[j - 1];
    from[j] = s;
  }
}
