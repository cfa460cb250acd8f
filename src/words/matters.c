#include "words/matters.h"

#include "judge/uncounted.h"

bool words_uncounted_matters(const struct library *lib, const struct check_result *r, size_t i, struct arena *a) {
  const struct ration *is = r->ration;
  if (!is_judged(r) || i >= is->uncounted_count) return true;
  struct ration none = *is, alone = *is;
  none.uncounted_count = 0;
  alone.uncounted = &is->uncounted[i];
  alone.uncounted_count = 1;
  const struct check_result *without = check_numbers(lib, &none, r->animal, &r->options, a),
                            *with = check_numbers(lib, &alone, r->animal, &r->options, a);
  bool doses[NUT_COUNT] = {false};
  uncounted_doses(lib, with, doses);
  for (int n = 0; n < NUT_COUNT; n++)
    if (doses[n] || with->nutrient[n].verdict != without->nutrient[n].verdict) return true;
  return with->energy.beside;
}
