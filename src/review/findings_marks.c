/* Ratios and shares past which the review asks to act, whatever the single nutrients say. One place decides what is said of
 * this bowl and what a remedy must not make of it. */
#include "review/findings_internal.h"

bool zinc_crowds_copper(const struct review *r, const struct balance *b, const struct nutrient_result *zinc,
                        const struct nutrient_result *copper) {
  bool copper_short = review_judged(r) && copper->verdict == VERDICT_SHORT;
  return b->zn_cu > row_threshold(r, "zn-cu-high-copper-short") && copper_short && zinc->ratio >= 1;
}

bool omega_6_is_over(const struct review *r, const struct balance *b, const struct nutrient_result *epa_dha) {
  /* A shortage of EPA and DHA names the ratio itself and has the same remedy. */
  return b->n6_n3 > row_threshold(r, "omega-over") && !(review_judged(r) && epa_dha->verdict == VERDICT_SHORT);
}

bool is_mostly_fish(const struct review *r, double fish) { return fish > row_threshold(r, "cat-mostly-fish"); }

static bool fish_becomes_most(struct review *r, uint32_t food, double grams) {
  const struct check_result *was = r->result;
  double fed = was->energy.grams_per_day, before = was->parts[BOWL_FISH];
  if (was->animal->species != SPECIES_CAT || json_part_of((enum part)library_food(r->lib, food)->part) != BOWL_FISH)
    return false;
  return is_mostly_fish(r, (before * fed + grams) / (fed + grams)) && !is_mostly_fish(r, before) &&
         is_lacking(exchange_nutrient(r->trial, NUT_VITAMIN_E));
}

bool review_raises_a_mark(struct review *r, const struct balance *b, uint32_t food, double grams) {
  const struct nutrient_result *was = r->result->nutrient;
  const struct balance *a = &r->result->balance;
  const struct nutrient_result *zinc = exchange_nutrient(r->trial, NUT_ZINC),
                               *copper = exchange_nutrient(r->trial, NUT_COPPER),
                               *epa_dha = exchange_nutrient(r->trial, NUT_EPA_DHA);
  if (zinc_crowds_copper(r, b, zinc, copper) && !zinc_crowds_copper(r, a, &was[NUT_ZINC], &was[NUT_COPPER])) return true;
  if (omega_6_is_over(r, b, epa_dha) && !omega_6_is_over(r, a, &was[NUT_EPA_DHA])) return true;
  return fish_becomes_most(r, food, grams);
}

bool review_becomes_act(struct review *r, const struct nutrient_result *a, const struct nutrient_result *b) {
  if (a->verdict != VERDICT_THIN || b->verdict != VERDICT_UNPROVEN) return false;
  const struct img_finding *row = review_row(r, review_id(r, b->id, "unproven"));
  return row && row->weight == FINDING_ACT;
}
