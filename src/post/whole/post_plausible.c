/* How long food lasts of which one day would be far more than such an animal eats: the days that the post names decide,
 * where one of them makes sense of it. It holds however the owner puts it. */
#include "base/num.h"
#include "judge/animal.h"
#include "post/whole/post_whole.h"

/* Times the animal's need: above, nobody feeds so much a day; and between which a day's food lies. Common practice. */
static const double FAR_TOO_MUCH = 2.2, LEAST_A_DAY = 0.5, MOST_A_DAY = 1.7;

double post_kcal_a_day(const struct library *lib, const struct recipe *recipe, const struct ration *ration, bool shares) {
  double kcal = 0;
  for (size_t i = 0; i < ration->line_count; i++) {
    const struct ration_line *line = &ration->line[i];
    if (!shares && recipe_is_share(recipe, line->line)) continue;
    for (int k = 0; k < line->part_count; k++) {
      double per_100g = (double)library_values(lib, line->part[k].food)[NUT_ENERGY].mean;
      if (per_100g >= 0) kcal += per_100g / 100 * line->part[k].grams * line->times_per_28 / CALENDAR_DAYS;
    }
  }
  return kcal;
}

/* Grams a day of which the records tell no energy, as a part of all. */
static double part_without_energy(const struct library *lib, const struct ration *ration) {
  double without = 0, all = 0;
  for (size_t i = 0; i < ration->line_count; i++) {
    const struct ration_line *line = &ration->line[i];
    for (int k = 0; k < line->part_count; k++) {
      double grams = line->part[k].grams * line->times_per_28 / CALENDAR_DAYS;
      all += grams;
      if (!((double)library_values(lib, line->part[k].food)[NUT_ENERGY].mean >= 0)) without += grams;
    }
  }
  return all > 0 ? without / all : 1;
}

double post_kcal_needed(struct post_reader *r) {
  struct animal animal = {.name = "",
                          .species = r->species,
                          .weight_kg = r->weight_kg,
                          .ideal_kg = r->ideal_kg,
                          .condition = (double)NAN,
                          .age_years = r->age_years,
                          .adult_weight_kg = (double)NAN,
                          .neutered = (int8_t)r->neutered,
                          .activity = r->activity >= 0 ? (enum activity)r->activity : ACTIVITY_MODERATE,
                          .energy_kcal = (double)NAN,
                          .status = "",
                          .note = "",
                          .healthy = true,
                          .urgent = false};
  return animal_energy(r->lib, &animal, r->arena).kcal;
}

/* Days that are told at a token: "14 days", "a fortnight", "the week's"; 0. Not an age, a time that is past, or how often.
 */
static double days_named(const struct tokens *t, size_t at, size_t *tokens) {
  *tokens = 1;
  if (frequency_at(t, at).tokens > 0 || t->item[at].taken) return 0;
  for (size_t k = at > 3 ? at - 3 : 0; k < at; k++)
    if (says(t, k, "last past since within ago over another next first every after before until")) return 0;
  if (says(t, at, "fortnight")) return 14;
  if (says(t, at, "the a one") && says(t, at + 1, "week week's weeks'")) return *tokens = 2, 7;
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 1)) return 0;
  size_t unit = at + q.tokens;
  if (is_mark(t, unit, '-')) unit++;
  double days = says(t, unit, "day days day's days'") ? 1 : says(t, unit, "week weeks week's weeks'") ? 7 : 0;
  *tokens = unit + 1 - at;
  if (days > 0 && phrase_at(t, unit + 1, "and a half") > 0) return days * (q.low + 0.5);
  if (says(t, unit + 1, "old ago gone pregnant later before after now of on off a per")) return 0;
  return days * q.low;
}

/* Shares of what the animal needs, and beside them lines whose amounts are a good part of a day's food already: of what the
 * shares are is not told. */
static void doubt_shares_beside(struct post_reader *r, const struct recipe *recipe, const struct ration *ration) {
  static const double GOOD_PART = 0.25;
  if (recipe->shares_of != SHARES_OF_NEED || !(r->weight_kg > 0)) return;
  if (!(post_kcal_a_day(r->lib, recipe, ration, false) > GOOD_PART * post_kcal_needed(r))) return;
  bool any = false;
  for (size_t i = 0; i < r->count; i++) {
    const char *mark = strstr(r->item[i].text, " % ");
    if (r->item[i].kind != ITEM_FOOD || !mark || mark >= r->item[i].text + 10) continue;
    post_doubt(r, i, "a share of what the animal needs; the post does not say of how much food it is one");
    any = true;
  }
  r->line = 0;
  if (any) post_ask(r, 4, "Of how many grams a day are the shares told? They were taken of what the animal needs.");
}

void post_doubt_energy(struct post_reader *r, const struct recipe *recipe, const struct ration *ration) {
  static const double FAR_TOO_LITTLE = 0.3, TOO_MUCH = 1.7, MOST_OF_ANY = 6000;
  bool gaps = false, any = false;
  doubt_shares_beside(r, recipe, ration);
  if (r->any_percent) return; /* shares say nothing of how much is fed */
  for (size_t i = 0; i < r->count; i++) {
    gaps = gaps || r->item[i].kind == ITEM_UNKNOWN;
    any = any || r->item[i].kind == ITEM_FOOD;
  }
  bool known = r->weight_kg > 0;
  double kcal = post_kcal_a_day(r->lib, recipe, ration, true), need = known ? post_kcal_needed(r) : 0;
  double most = known ? TOO_MUCH * need : MOST_OF_ANY, least = known ? FAR_TOO_LITTLE * need : 0;
  bool much = kcal > most, little = !gaps && kcal < least && part_without_energy(r->lib, ration) < 0.1;
  if (!any || (!much && !little)) return;
  struct buf b, note;
  buf_init(&b, r->arena, 40);
  buf_init(&note, r->keep, 200);
  num_sig(&b, known ? kcal / need : kcal, 2);
  buf_addf(&note, "all the food comes to %s %s a day; a period or a part may have been misread", buf_text(&b),
           known ? "times what the animal needs" : "kcal");
  for (size_t i = 0; i < r->count; i++) post_doubt(r, i, buf_text(&note));
  r->line = 0;
  if (post_has_asked(r, much ? POST_FOR_HOW_LONG : POST_IS_IT_ALL)) return; /* by its weight */
  post_ask(
      r, 4.5,
      much
          ? "For how many days, and for how many animals, is this food? As it was read it comes to %s %s a day."
          : "Is this all that is fed? As it was read it comes to %s %s a day; a day or a meal may have been taken for more.",
      buf_text(&b), known ? "times what the animal needs" : "kcal");
}

bool post_shares_have_room(struct post_reader *r, const struct recipe *recipe, const struct ration *ration) {
  if (recipe->shares_of != SHARES_OF_NEED || !(r->weight_kg > 0)) return true;
  double beside = post_kcal_a_day(r->lib, recipe, ration, false);
  return beside < post_kcal_needed(r) && post_kcal_a_day(r->lib, recipe, ration, true) > beside;
}

/* "Only two foods allowed for 8 weeks: 300 g ...": by the length that was heard it is next to nothing, and as a day's food
 * it is what the animal needs. */
static bool not_so_long(struct post_reader *r, const struct recipe *recipe, const struct ration *ration) {
  static const double NEXT_TO_NOTHING = 0.25;
  double days = r->makes_days;
  if (!(days > 1) || r->any_percent || !(r->weight_kg > 0)) return false;
  double kcal = post_kcal_a_day(r->lib, recipe, ration, true), need = post_kcal_needed(r);
  if (!(kcal < NEXT_TO_NOTHING * need)) return false;
  if (!(kcal * days >= LEAST_A_DAY * need && kcal * days <= MOST_A_DAY * need)) return false;
  r->makes_days = 0;
  if (days >= CALENDAR_DAYS) return true; /* how long it goes on, and nobody's batch */
  struct buf note;
  buf_init(&note, r->keep, 200);
  buf_adds(&note, "counted as food of one day; the post names ");
  num_sig(&note, days, 3);
  buf_adds(&note, " days, and for so many it would be next to nothing");
  for (size_t i = 0; i < r->count; i++) post_doubt(r, i, buf_text(&note));
  r->line = 0;
  post_ask(
      r, 5,
      "Is that what is fed in one day? It was counted so; for the days that the post names it would be next to nothing.");
  return true;
}

bool post_days_by_energy(struct post_reader *r, const struct recipe *recipe, const struct ration *ration) {
  if (not_so_long(r, recipe, ration)) return true;
  if (r->makes_days > 0 || r->makes_meals > 0 || r->any_percent || r->any_period || !(r->weight_kg > 0)) return false;
  double kcal = post_kcal_a_day(r->lib, recipe, ration, true), need = post_kcal_needed(r), found = 0;
  if (!(kcal > FAR_TOO_MUCH * need)) return false;
  struct span said = {"", 0};
  for (size_t h = 0; h < r->heard_count; h++) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    for (size_t i = 0; i < t.count; i++) {
      size_t used;
      double days = days_named(&t, i, &used);
      if (!(days > 1) || days > 62) continue;
      if (!(kcal / days >= LEAST_A_DAY * need && kcal / days <= MOST_A_DAY * need)) continue;
      if (found > 0 && found != days) return false; /* two that would do: the owner is asked */
      found = days;
      said = tokens_span(&t, i, used);
    }
  }
  if (!(found > 0)) return false;
  struct buf note;
  buf_init(&note, r->keep, 200);
  buf_addf(&note, "counted as food for %.*s, which the post names; as one day's it would be ", SPAN_ARG(quoted(said)));
  num_sig(&note, kcal / need, 2);
  buf_adds(&note, " times what the animal needs");
  r->makes_days = found;
  for (size_t i = 0; i < r->count; i++) post_doubt(r, i, buf_text(&note));
  r->line = 0;
  post_ask(r, 5, "Is all of this food for %.*s? It was counted so; for one day it would be far too much.",
           SPAN_ARG(quoted(said)));
  return true;
}
