/* What less of the same food does: which needs it fails first, and how much less an animal may get that is too heavy. */
#include <math.h>

#include "explain/quiet.h"
#include "words/answered_parts.h"
#include "words/loss.h"

enum { NEXT_MOST = 3 };

/* Of one that is to lose weight: the energies of a weight plan (docs/method/slim.md). */
static const char *weight_words(const struct asked_scene *x) {
  const struct animal_body *b = &x->r->body;
  double supply = x->r->energy.supply_kcal, need = x->r->energy.need.kcal;
  const char *who = words_called(x->r->animal);
  if (!(b->loss_kcal > 0) || !isfinite(supply)) return "";
  const char *plan =
      words_text(x->a,
                 "While it loses weight %s gets no less than %s kcal a day, and %s kcal are expected to hold "
                 "it at %s kg",
                 who, words_whole(x->a, b->loss_kcal), words_whole(x->a, need), words_number(x->a, b->ideal_kg));
  static const double NEARLY = 1.05;
  const char *how = supply < b->loss_kcal            ? "this bowl is below that already, so no less of it"
                    : supply < NEARLY * b->loss_kcal ? "this bowl is there already, so no less of it"
                    : supply <= need ? "this bowl lies between the two, so weigh first, and cut only if the weight stays"
                                     : "so yes, less food, down to between the two";
  return words_text(x->a, "%s; this bowl has %s: %s.", plan, words_supply(&x->r->energy, x->a), how);
}

/* "Can I halve it, to be quick?" */
static const char *half_words(const struct asked_scene *x) {
  const struct energy_result *e = &x->r->energy;
  const struct animal_body *b = &x->r->body;
  bool cat = x->r->animal->species == SPECIES_CAT, heavy = b->loss_kcal > 0;
  const char *who = words_called(x->r->animal);
  double half = e->supply_kcal / 2, least = heavy ? b->loss_kcal : e->need.low_kcal;
  if (!(half > 0)) return "";
  if (half >= least && heavy && half <= b->aim_high_kcal)
    return words_text(
        x->a, "Yes: half of it is %s kcal a day, and on about so much %s loses weight. Come down to it over two weeks.",
        words_whole(x->a, half), who);
  if (half >= least) return words_text(x->a, "Half of it is %s kcal a day.", words_whole(x->a, half));
  return words_text(x->a, "No%s, do not halve it: half is %s kcal a day, and less than %s is too little for %s.%s",
                    cat ? ", never with a cat" : "", words_whole(x->a, half), words_whole(x->a, least), who,
                    cat && !heavy ? " A cat that suddenly eats far too little can die of a fatty liver (hepatic lipidosis)."
                                  : "");
}

const char *answered_less(const struct asked_scene *x) {
  if (x->q->half) {
    const char *half = half_words(x), *goal = words_loss_goal(x->lib, x->r, x->a);
    return goal[0] ? words_text(x->a, "%s %s %s", half, goal, words_loss_pace(x->lib, x->r, x->a)) : half;
  }
  struct quiet q = quiet_of(x->r);
  struct quiet_crossing at[NUT_COUNT];
  const char *item[NUT_COUNT], *weight = weight_words(x), *gap = weight[0] ? " " : "";
  size_t n = 0, all = quiet_crossings(&q, at);
  static const double CUT_MOST = 0.6, AT_ONCE = 0.985;
  if (!q.applies) return weight;
  for (size_t i = 0; i < all && n < NEXT_MOST + 1; i++)
    if (x->r->nutrient[at[i].id].verdict == VERDICT_MET && at[i].share >= CUT_MOST)
      item[n++] = at[i].share > AT_ONCE
                      ? words_text(x->a, "%s, with any less", words_nutrient(x->a, at[i].id))
                      : words_text(x->a, "%s below %s", words_nutrient(x->a, at[i].id), words_share(x->a, at[i].share));
  const char *more = x->r->verdict_count[VERDICT_SHORT] > 0 ? ", beside what is short already" : "";
  if (n == 0)
    return words_text(x->a, "%s%sDown to %s of this food nothing else falls short%s.", weight, gap,
                      words_share(x->a, CUT_MOST), more);
  const char *next = n > 1 ? words_text(x->a, ", then %s", words_list(x->a, item + 1, n - 1, n - 1)) : "";
  return words_text(x->a, "%s%sThe needs stay when less of this same food is fed: first to fall short is %s%s%s.", weight,
                    gap, item[0], next, more);
}
