/* fuzz_trend.c: any bytes as a journal whose grams are taken for kcal. Whatever it holds, the estimate ends, and what it
 * says is in order: an interval holds its mean, nothing known is NaN, every weighing is told. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "journal/journal.h"
#include "trend/trend.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void in_order(const struct trend_band *b) {
  if (isnan(b->mean) && isnan(b->low) && isnan(b->high)) return;
  if (!(b->low <= b->mean + 1e-9 * fabs(b->mean) && b->mean <= b->high + 1e-9 * fabs(b->high))) abort();
}

static void estimate(const struct journal *j, int animal, long until, struct arena *arena) {
  size_t weights, intakes;
  const struct dated_weight *w = journal_weights(j, animal, &weights, arena);
  const struct dated_intake *e = journal_intakes(j, animal, &intakes, arena);
  struct trend_weight *weight = ARENA_NEW(arena, struct trend_weight, weights + 1);
  struct trend_intake *intake = ARENA_NEW(arena, struct trend_intake, intakes + 1);
  for (size_t i = 0; i < weights; i++) weight[i] = (struct trend_weight){w[i].day, w[i].kg};
  for (size_t i = 0; i < intakes; i++) {
    intake[i] = (struct trend_intake){e[i].day, e[i].unknown ? (double)NAN : 0};
    for (size_t k = 0; k < e[i].item_count; k++) intake[i].kcal += e[i].item[k]->grams;
  }
  struct trend_input in = {weight, weights, intake, intakes, until, 28, (double)NAN, 7350, 7000, 7700, 0.75};
  const struct trend_result *r = trend_estimate(&in, arena);
  bool trend = r->lack == TREND_LACKS_NOTHING || r->lack == TREND_LACKS_INTAKE;
  if (trend != (r->day_count > 0) || trend != (r->forecast_count == 28)) abort();
  if (trend && (isnan(r->weight.mean) || isnan(r->per_week.mean))) abort();
  if ((r->lack == TREND_LACKS_NOTHING) == isnan(r->need.mean)) abort();
  in_order(&r->weight);
  in_order(&r->need);
  in_order(&r->per_week);
  for (size_t i = 0; i < r->day_count; i++) in_order(&r->day[i].weight);
  for (size_t i = 0; i < r->forecast_count; i++) in_order(&r->forecast[i].weight);
  const double share = 0.1;
  int wanted;
  trend_weighings_wanted(&in, 7, &share, &wanted, 1, 50, arena);
  if (wanted > 50) abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  static const long TODAY = 740287;
  struct arena arena;
  struct diags d;
  struct journal j;
  struct span text = {(const char *)data, size};
  const struct journal_known known = {.today = TODAY};
  arena_init(&arena, NULL);
  diags_init(&d, &arena, "fuzz", text);
  (void)!journal_read(text, &known, &d, &j, &arena);
  for (size_t a = 0; a < j.name_count && a < 4; a++) estimate(&j, (int)a, TODAY, &arena);
  arena_free(&arena);
  return 0;
}
