#include "review/review.h"

const struct check_result *check_ration(const struct library *lib, const struct ration *ration, const struct animal *animal,
                                        const struct check_options *options, struct arena *arena) {
  struct check_result *r = check_to_review(lib, ration, animal, options, arena);
  findings_write(lib, r, arena);
  return r;
}
