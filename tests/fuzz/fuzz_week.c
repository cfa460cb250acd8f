/* fuzz_week.c: any bytes as a plan of weeks over two recipes and two animals: it is refused with a word, or every day and
 * window of it is judged within bounds. */
#include <math.h>

#include "app/app_week.h"
#include "fuzz_library.h"

static const char ANIMALS[] = "Animal: Juniper\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n\n"
                              "Animal: Pim\nSpecies: cat\nAge: 4 years\nWeight: 4.6 kg\n";
static const char BOWL[] = "Recipe: Weeknight bowl\n300 g beef mince 90/10\n20 g beef liver, raw\n"
                           "1 can sardines in water, drained, once a week\n";
static const char PLATE[] =
    "Recipe: Plate\nMakes: 3 days\n180 g turkey thigh, boneless, skinless, raw\n1 egg, every other day\n";

static bool is_chance(double x) { return isnan(x) || (x >= 0 && x <= 1); }
static bool is_amount(double x) { return isnan(x) || (isfinite(x) && x >= 0); }

static void judged(const struct week *w, struct span text) {
  int days = w->days->days, known = 0;
  for (int d = 0; d < days; d++) known += isfinite(w->kcal[d]);
  must(known == w->known_days, "a day is known when its energy is", text);
  for (int i = 0; w->judged && i < NUT_COUNT; i++) {
    const struct week_nutrient *n = &w->nutrient[i];
    if (!n->known || n->verdict == VERDICT_NO_FIGURE) continue;
    must(n->verdict < VERDICT_COUNT && n->averaging < AVERAGING_COUNT, "a verdict is one", text);
    must(n->windows_failing <= n->windows && n->windows <= days, "no more windows fail than there are", text);
    must(n->days_below <= days && n->highest_day < days, "days are those of the plan", text);
    must(n->leanest.first < days && n->richest.first < days, "windows begin in the plan", text);
    must(is_chance(n->leanest.chance) && is_chance(n->richest.chance), "a chance is one", text);
    for (int d = 0; d < days; d++) must(is_amount(n->day[d]) && is_amount(n->window[d]), "an amount is one", text);
    for (size_t k = 0; k < n->streak_count; k++)
      must(n->streak[k].first < days && n->streak[k].days <= days, "streaks lie in the plan", text);
  }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct app_week_answer a;
  struct span text = {(const char *)data, size};
  if (size == 0 || size > 4096 || memchr(data, '\0', size)) return 0; /* refused before anybody reads it */
  const struct app_input recipe[] = {{"bowl.recipe", SPAN_LIT(BOWL)}, {"plate.recipe", SPAN_LIT(PLATE)}};
  struct app_week_request q = {.recipe = recipe, .count = COUNT_OF(recipe), .named = COUNT_OF(recipe)};
  q.check.ask = REQUEST_DEFAULT;
  q.check.ask.today = (struct date){2026, 11, 2};
  q.check.animals = (struct app_input){"animals", SPAN_LIT(ANIMALS)};
  q.plan = (struct app_input){"plan", text};
  arena_init(&arena, NULL);
  app_week(fuzz_library(), &q, &a, &arena);
  must(a.count > 0 || a.texts.recipe_diags.errors + a.texts.animal_diags.errors > 0,
       "without an answer there is a word of why", text);
  for (size_t i = 0; i < a.count; i++) judged(a.of[i].week, text);
  arena_free(&arena);
  return 0;
}
