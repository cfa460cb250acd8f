#include "app/app_trend.h"

#include <math.h>
#include <stdlib.h>

#include "app/app_parts.h"
#include "app/measure.h"
#include "app/trend_words.h"
#include "foods/constant_keys.h"

enum { USUAL_FORECAST = 28, ADVISED_EVERY = 7, LEAST_EVERY = 1, MOST_EVERY = 14, WEIGHINGS_MOST = 200 };
static const double A_TENTH = 0.10;

static int by_days(const void *a, const void *b) {
  int x = *(const int *)a, y = *(const int *)b;
  return (x > y) - (x < y);
}

/* The middle of the gaps between days with a weighing. */
static int every_days(const struct trend_input *in, struct arena *arena) {
  int *gap = ARENA_NEW(arena, int, in->weight_count + 1);
  size_t n = 0;
  for (size_t i = 1; i < in->weight_count; i++)
    if (in->weight[i].day > in->weight[i - 1].day) gap[n++] = (int)(in->weight[i].day - in->weight[i - 1].day);
  if (n < 3) return ADVISED_EVERY;
  qsort(gap, n, sizeof *gap, by_days);
  int middle = gap[n / 2];
  return middle < LEAST_EVERY ? LEAST_EVERY : middle > MOST_EVERY ? MOST_EVERY : middle;
}

static void take_rates(const struct library *lib, struct app_trend_answer *out) {
  const struct img_constant *rate = library_constant(lib, K_LOSS_RATE, out->animal->species);
  out->safe_low = rate ? rate->low / 100.0 : (double)NAN;
  out->safe_high = rate ? rate->high / 100.0 : (double)NAN;
}

static void ask_for_more(const struct library *lib, struct trend_input in, struct app_trend_answer *out,
                         struct arena *arena) {
  const double share[] = {app_equation_half(lib, out->animal->species), A_TENTH};
  int wanted[COUNT_OF(share)] = {0};
  bool tenth = (out->told.trend->need.high - out->told.trend->need.low) / 2 <= A_TENTH * out->told.trend->need.mean;
  if (!out->surer || !tenth)
    trend_weighings_wanted(&in, out->every_days, share, wanted, COUNT_OF(share), WEIGHINGS_MOST, arena);
  out->wanted_surer = out->surer ? 0 : wanted[0];
  out->wanted_ten = tenth ? 0 : wanted[1];
}

static void estimate(const struct library *lib, const struct app_check_request *q, struct app_diary *diary,
                     struct app_trend_answer *out, struct arena *arena) {
  struct trend_input *in = &diary->in;
  const struct request *ask = &q->ask;
  in->until = date_days(ask->until.year > 0 ? ask->until : ask->today);
  if (out->refusal == REFUSE_NOT) {
    in->forecast_days = ask->forecast > 0 ? ask->forecast : USUAL_FORECAST;
    in->planned_kcal = ask->kcal > 0 ? ask->kcal : (double)NAN;
  } else {
    in->intake_count = 0;
  }
  out->told.until = in->until;
  out->every_days = every_days(in, arena);
  out->told.trend = trend_estimate(in, arena);
  out->surer = app_is_surer(lib, out->animal->species, out->told.trend);
  if (out->refusal == REFUSE_NOT) ask_for_more(lib, *in, out, arena);
}

void app_trend(const struct library *lib, const struct app_check_request *q, struct app_trend_answer *out,
               struct arena *arena) {
  struct app_check_answer texts = {0};
  struct app_diary diary;
  *out = (struct app_trend_answer){.told = {.direction = "", .need = "", .eaten = "", .ahead = ""}};
  diags_init(&texts.animal_diags, arena, q->animals.name, q->animals.text);
  diags_init(&texts.recipe_diags, arena, NULL, (struct span){NULL, 0});
  diags_init(&out->journal_diags, arena, q->journal->text.name, q->journal->text.text);
  bool found = app_find_animal(lib, q, NULL, &out->animal, &texts, arena) && out->animal;
  out->animal_diags = texts.animal_diags;
  if (!found) return;
  if (!app_read_diary(lib, q, out->animal, DIAG_ERROR, &diary, &out->journal_diags, arena)) return;
  out->refusal = animal_refusal(out->animal);
  out->body = animal_body(lib, out->animal);
  out->equation = animal_energy(lib, out->animal, arena);
  take_rates(lib, out);
  estimate(lib, q, &diary, out, arena);
  trend_say(out, &diary, arena);
}
