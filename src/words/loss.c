#include "words/loss.h"

#include "foods/constant_keys.h"
#include "words/words.h"

const char *words_loss_goal(const struct library *lib, const struct check_result *r, struct arena *a) {
  const struct animal_body *b = &r->body;
  enum species s = r->animal->species;
  const struct img_constant *c = library_constant(lib, K_LOSS_ENERGY, s);
  if (!c || !(b->aim_kcal > 0)) return "";
  const char *floor = s == SPECIES_CAT ? "; never less, for a cat that suddenly eats too little, a fat one most of all, can "
                                         "die of a fatty liver (hepatic lipidosis)"
                                       : words_text(a, "; never less than %s", words_whole(a, b->loss_kcal));
  return words_text(a,
                    "To lose weight %s gets about %s kcal a day: %s kcal x %s^%s by the weight to aim at, the mean on which "
                    "%ss lost weight in trials (%s)%s.",
                    words_called(r->animal), words_whole(a, b->aim_kcal), words_number(a, c->value),
                    words_number(a, b->ideal_kg), words_number(a, library_constant_value(lib, K_LOSS_ENERGY_EXPONENT, s)),
                    species_word[s], lib_str(lib, library_source(lib, c->source)->title), floor);
}

const char *words_loss_pace(const struct library *lib, const struct check_result *r, struct arena *a) {
  const struct img_constant *rate = library_constant(lib, K_LOSS_RATE, r->animal->species);
  if (!rate || !(r->body.aim_kcal > 0)) return "";
  return words_text(a, "Safe is a loss of %s to %s %% of its weight a week.", words_number(a, rate->low),
                    words_number(a, rate->high));
}
