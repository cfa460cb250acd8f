/* Lines in per cent whose whole depends on the animal: of its weight, or of its need of energy. */
#include <math.h>

#include "app/app_parts.h"
#include "base/num.h"

/* The lines in per cent alone, or the others alone. */
static struct ration only(const struct recipe *recipe, const struct ration *all, bool shares, struct arena *arena) {
  struct ration some = *all;
  struct ration_line *line = ARENA_NEW(arena, struct ration_line, all->line_count + 1);
  some.line = line;
  some.line_count = 0;
  for (size_t i = 0; i < all->line_count; i++)
    if (recipe_is_share(recipe, all->line[i].line) == shares) line[some.line_count++] = all->line[i];
  return some;
}

static const char *figure(double x, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 40);
  num_sig(&b, x, 3);
  return buf_text(&b);
}

static void scale_shares(const struct recipe *recipe, struct ration *ration, double by, const char *whole,
                         struct arena *arena) {
  struct ration_line *line = ARENA_NEW(arena, struct ration_line, ration->line_count + 1);
  for (size_t i = 0; i < ration->line_count; i++) {
    struct ration_line *l = &line[i];
    *l = ration->line[i];
    if (!recipe_is_share(recipe, l->line)) continue;
    l->grams_fed *= by;
    l->low_g *= by;
    l->high_g *= by;
    for (int p = 0; p < l->part_count; p++) l->part[p].grams *= by;
    l->grams_from = whole;
  }
  ration->line = line;
}

static struct span first_share(const struct recipe *recipe) {
  for (size_t i = 0; i < recipe->line_count; i++)
    if (recipe->line[i].unit == UNIT_PERCENT) return recipe->line[i].amount_at;
  return (struct span){NULL, 0};
}

enum { GIVEN_G_A_DAY = 1000 }; /* what the reader took for the whole */

static const char *words_of(struct arena *arena, const char *before, const char *figure_words, const char *after) {
  struct buf b;
  buf_init(&b, arena, 200);
  buf_addf(&b, "%s%s%s", before, figure_words, after);
  return buf_text(&b);
}

static bool of_body(const struct recipe *recipe, const struct animal *animal, struct ration *ration, struct diags *d,
                    struct arena *arena) {
  struct span at = first_share(recipe);
  if (!animal) {
    diag_say(d, DIAG_ERROR, DIAG_EMPTY, at, "per cent of which body weight? name the animal, as in 'Dog: 18 kg'");
    return false;
  }
  double grams = recipe->feeds_share * animal->weight_kg * 1000;
  scale_shares(recipe, ration, grams / GIVEN_G_A_DAY,
               words_of(arena, "a share of ", figure(grams, arena), " g a day, by body weight"), arena);
  return true;
}

static bool of_need(const struct library *lib, const struct recipe *recipe, const struct animal *animal,
                    const struct check_options *options, struct ration *ration, struct diags *d, struct arena *arena) {
  struct span at = first_share(recipe);
  if (!animal || animal_refusal(animal) != REFUSE_NOT) {
    diag_say(d, DIAG_WARNING, DIAG_ASSUMED, at,
             "per cent of what? without 'Total: 1200 g', 'Feeds: 450 g a day' or an animal, 1000 g a day are taken");
    return true;
  }
  struct ration shares = only(recipe, ration, true, arena), rest = only(recipe, ration, false, arena);
  const struct check_result *of_shares = check_numbers(lib, &shares, animal, options, arena);
  const struct check_result *of_rest = check_numbers(lib, &rest, animal, options, arena);
  double known = of_rest->energy.supply_kcal; /* of no line at all, or of kelp alone, it is not known: none is taken off */
  double of_others = rest.line_count > 0 && known >= 0 ? known : 0;
  double need = of_shares->energy.need.kcal, left = need - of_others;
  double by = of_shares->energy.supply_kcal > 0 ? left / of_shares->energy.supply_kcal : (double)NAN;
  if (!(by > 0) || !isfinite(by)) {
    diag_say(d, DIAG_ERROR, DIAG_NO_WEIGHT, at,
             "per cent of what? the other lines leave no room in the animal's energy need; add 'Total: 1200 g' or 'Feeds: "
             "450 g a day'");
    return false;
  }
  const char *grams = figure(by * of_shares->energy.grams_per_day, arena);
  scale_shares(recipe, ration, by, words_of(arena, "a share of ", grams, " g a day, from the energy need"), arena);
  diag_say(d, DIAG_WARNING, DIAG_ASSUMED, at,
           "no total is given, so the shares are scaled to the %s kcal a day that this animal is expected to need: %s g of "
           "them a day; 'Feeds: 450 g a day' or 'Total: 1200 g' says how much there is",
           figure(need, arena), grams);
  return true;
}

bool app_settle_shares(const struct library *lib, const struct recipe *recipe, const struct animal *animal,
                       const struct check_options *options, struct ration *ration, struct diags *d, struct arena *arena) {
  switch (recipe->shares_of) {
  case SHARES_OF_TOTAL:
    return true;
  case SHARES_OF_BODY:
    return of_body(recipe, animal, ration, d, arena);
  case SHARES_OF_NEED:
    return of_need(lib, recipe, animal, options, ration, d, arena);
  }
  return true;
}
