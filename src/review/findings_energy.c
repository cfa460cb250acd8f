/* Energy: too much, too little, where it comes from, and whether the animal can eat the bulk. */
#include <math.h>

#include "judge/meal.h"
#include "review/findings_internal.h"
#include "words/verdicts.h"

/* The range of the need within a sentence: of animals about the equation, or of what the journal shows. */
static const char *range_words(struct review *r, bool far) {
  const struct energy_need *need = &r->result->energy.need;
  const char *low = words_whole(r->arena, need->low_kcal), *high = words_whole(r->arena, need->high_kcal);
  if (r->result->animal->measured)
    return words_text(r->arena, far ? "what the journal shows (%s to %s)" : "the journal shows that, between %s and %s kcal",
                      low, high);
  if (far) return words_text(r->arena, "the usual range (%s to %s)", low, high);
  const char *kind = r->result->animal->species == SPECIES_CAT ? "cats" : "dogs";
  return words_text(r->arena, "individual %s range from %s to %s kcal", kind, low, high);
}

static const char *why_words(struct review *r, double ratio) {
  const char *who = words_called(r->result->animal);
  if (r->result->animal->measured)
    return words_text(r->arena, "This is %s's own need, by scale and bowl: on so much of this food the weight will %s", who,
                      ratio < 1 ? "fall" : "rise");
  return words_text(r->arena, "Needs differ by half between animals of one size, so this may be right for %s or not", who);
}

/* "about 48 % more", "about 2.6 times as much", "about twice as much": a share says little once it is more than the whole.
 */
static const char *more_food_words(struct review *r, double times) {
  static const double TIMES_FROM = 2;
  if (times < TIMES_FROM) return words_text(r->arena, "about %s more", words_share(r->arena, times - 1));
  return words_text(r->arena, "about %s as much", words_times(r->arena, times));
}

/* "at least 1582 kcal", where the energy of some food is known in part only. */
static void draft_supply(struct draft *d, const struct energy_result *e) {
  struct arena *a = d->review->arena;
  draft_number(d, "supply", e->supply_kcal, "kcal");
  if (e->in_part) draft_word(d, "supply", words_text(a, "at least %s", amount_words(a, e->supply_kcal, "kcal")));
}

/* "the carbohydrate of the kibble is not known", "the protein and fat of it are not known" */
static const char *lacking_words(struct review *r) {
  static const enum nutrient FROM[] = {NUT_PROTEIN, NUT_FAT, NUT_CARBOHYDRATE};
  const struct supply_list *e = who_supplies(&r->result->nutrient[NUT_ENERGY]);
  const char *name[COUNT_OF(FROM)];
  size_t count = 0;
  for (size_t i = 0; i < COUNT_OF(FROM); i++) {
    bool lacks = false;
    for (size_t k = 0; k < e->missing_count; k++) lacks |= nutrient_lacks_line(&r->result->nutrient[FROM[i]], e->missing[k]);
    if (lacks) name[count++] = words_nutrient(r->arena, FROM[i]);
  }
  return words_text(r->arena, "the %s of %s %s not known", words_list(r->arena, name, count, count),
                    unknown_list(r, e->missing, e->missing_count, 3), count == 1 ? "is" : "are");
}

/* Too much is known to be too much; whether it is too little nobody can say. */
static void supply_known_in_part(struct review *r) {
  const struct energy_result *e = &r->result->energy;
  struct draft d;
  if (!draft_begin(&d, r, "energy-partly-known", NULL)) return;
  draft_of(&d, NUT_ENERGY);
  draft_supply(&d, e);
  draft_number(&d, "need", e->need.kcal, "kcal");
  draft_word(&d, "known",
             isfinite(e->supply_kcal)
                 ? words_text(r->arena, "At least %s a day is known, and how much more it is nobody can say",
                              amount_words(r->arena, e->supply_kcal, "kcal"))
                 : "Nobody can say how much energy this gives");
  draft_word(&d, "lacking", lacking_words(r));
  draft_end(&d);
}

static void supply_against_need(struct review *r) {
  const struct energy_result *e = &r->result->energy;
  if (!(e->supply_kcal > 0) && !e->in_part)
    return; /* food of no energy: there is no share to speak of, and every need says so */
  double ratio = e->supply_kcal / e->need.kcal;
  const char *id = NULL;
  const struct img_finding *low = review_row(r, "energy-low"), *high = review_row(r, "energy-high");
  if (low && ratio < low->threshold) id = meal_is_far(r->result) ? "energy-far-too-low" : "energy-low";
  if (high && ratio > high->threshold) id = meal_is_far(r->result) ? "energy-far-too-high" : "energy-high";
  /* What is fed without being counted has energy that nobody knows: then too little is not known to be too little. */
  if (id && ratio < 1 && e->beside) id = "energy-uncounted";
  if (id && meal_is_for_loss(r->result)) id = "energy-for-loss";
  if (e->in_part && !(id && ratio > 1)) {
    supply_known_in_part(r);
    return;
  }
  struct draft d;
  if (!id || !draft_begin(&d, r, id, NULL)) return;
  draft_of(&d, NUT_ENERGY);
  if (strcmp(id, "energy-uncounted") == 0 && !meal_is_far(r->result)) d.weight = FINDING_WATCH;
  draft_supply(&d, e);
  draft_word(&d, "uncounted", unknown_list(r, NULL, 0, 3));
  if (e->in_part) /* nobody knows how much less of it gives as much as is needed */
    draft_word(&d, "then", "");
  else
    draft_word(&d, "then", then_words(r, 1 / ratio));
  draft_number(&d, "need", e->need.kcal, "kcal");
  draft_number(&d, "low", e->need.low_kcal, "kcal");
  draft_number(&d, "high", e->need.high_kcal, "kcal");
  draft_percent(&d, "percent", ratio);
  draft_percent(&d, "change", fabs(1 / ratio - 1));
  draft_word(&d, "change",
             words_text(r->arena, "%s %s", e->in_part ? "at least" : "about", words_share(r->arena, fabs(1 / ratio - 1))));
  double more = r->result->body.loss_kcal > e->supply_kcal ? r->result->body.loss_kcal / e->supply_kcal : 1 / ratio;
  draft_word(&d, "more", more_food_words(r, more)); /* of one that is to lose weight: as much as a plan feeds at least */
  draft_word(&d, "from", e->need.from);
  draft_word(&d, "range", range_words(r, meal_is_far(r->result)));
  draft_word(&d, "why", why_words(r, ratio));
  draft_number(&d, "least", r->result->body.loss_kcal, "kcal");
  draft_number(&d, "ideal", r->result->body.ideal_kg, "kg");
  draft_end(&d);
}

void findings_no_meal(struct review *r) {
  const struct energy_result *e = &r->result->energy;
  struct draft d;
  if (!draft_begin(&d, r, "no-meal", NULL)) return;
  draft_of(&d, NUT_ENERGY);
  draft_supply(&d, e);
  draft_number(&d, "need", e->need.kcal, "kcal");
  draft_percent(&d, "percent", e->supply_kcal / e->need.kcal);
  draft_end(&d);
}

const char *review_ask_first(struct review *r) {
  const struct ration *ration = r->result->ration;
  bool *danger = ARENA_NEW(r->arena, bool, ration->uncounted_count + 1);
  for (size_t i = 0; i < ration->uncounted_count; i++)
    for (size_t k = 0; k < r->count; k++)
      danger[i] |= r->item[k].f.danger && r->item[k].f.line == ration->uncounted[i].line;
  return words_ask_first(ration, danger, true, r->arena);
}

void findings_unread(struct review *r) {
  const struct energy_result *e = &r->result->energy;
  struct draft d;
  if (!draft_begin(&d, r, "energy-unread", NULL)) return;
  draft_of(&d, NUT_ENERGY);
  draft_supply(&d, e);
  draft_number(&d, "need", e->need.kcal, "kcal");
  draft_word(&d, "counted", words_counted_part(r->result, r->arena));
  draft_word(&d, "uncounted", unknown_list(r, NULL, 0, 3));
  draft_word(&d, "ask", review_ask_first(r));
  draft_end(&d);
}

/* Weights of a batch without a word of how long it lasts. */
static bool says_one_day(const struct ration *ration) {
  if (ration->days_stated) return true;
  for (size_t i = 0; i < ration->line_count; i++)
    if (ration->line[i].times_per_28 < CALENDAR_DAYS || ration->line[i].frequency_stated) return true;
  return false;
}

double review_batch_days(const struct review *r) {
  const struct img_finding *row = review_row(r, "batch-or-day");
  const struct energy_result *e = &r->result->energy;
  double ratio = e->supply_kcal / e->need.kcal;
  return row && ratio > row->threshold && !says_one_day(r->result->ration) ? ratio : 1;
}

static void batch_or_day(struct review *r) {
  const struct energy_result *e = &r->result->energy;
  double ratio = review_batch_days(r);
  struct draft d;
  if (!(ratio > 1)) return;
  if (!draft_begin(&d, r, "batch-or-day", NULL)) return;
  draft_of(&d, NUT_ENERGY);
  draft_supply(&d, e);
  draft_number(&d, "grams", e->grams_per_day, "g");
  draft_number(&d, "need", e->need.kcal, "kcal");
  draft_number(&d, "times", ratio, "");
  draft_number(&d, "days", round(ratio), "days");
  draft_end(&d);
  review_silence(r, "energy-far-too-high");
  review_silence(r, "bulk");
}

static void where_calories_come_from(struct review *r) {
  const struct energy_result *e = &r->result->energy;
  struct draft d;
  if (e->from_count == 0 || !energy_is_whole(e) || !draft_begin(&d, r, "energy-sources", NULL)) return;
  draft_of(&d, NUT_ENERGY);
  draft_of(&d, NUT_FAT);
  draft_of(&d, NUT_PROTEIN);
  draft_of(&d, NUT_CARBOHYDRATE);
  draft_supply(&d, e);
  draft_percent(&d, "fat", e->share_fat);
  draft_percent(&d, "protein", e->share_protein);
  draft_percent(&d, "carbohydrate", e->share_carbohydrate);
  draft_word(&d, "food", line_words(r, e->from[0].line));
  draft_percent(&d, "share", e->from[0].share);
  draft_end(&d);
}

/* Near the upper limit but not over it: over has a finding of its own. */
static void much_fat(struct review *r) {
  const struct nutrient_result *fat = &r->result->nutrient[NUT_FAT];
  const struct img_finding *row = review_row(r, "fat-high");
  if (!row || !energy_is_whole(&r->result->energy) || fat->verdict == VERDICT_OVER || !(fat->amount > row->threshold * fat->upper))
    return;
  struct draft d;
  if (!draft_begin(&d, r, "fat-high", NULL)) return;
  draft_of(&d, NUT_FAT);
  draft_number(&d, "amount", fat->amount, "g");
  draft_number(&d, "upper", fat->upper, "g");
  draft_percent(&d, "share", r->result->energy.share_fat);
  const struct supply_list *list = who_supplies(fat);
  draft_word(&d, "food", list->from_count ? line_words(r, list->from[0].line) : "no single food");
  draft_word(&d, "leaner", leaner_words(r));
  draft_end(&d);
  review_silence(r, "fat-near-upper");
}

static void bulk(struct review *r) {
  const struct img_finding *row = review_row(r, "bulk");
  double grams = r->result->energy.grams_per_day, kg = r->result->animal->weight_kg;
  if (!row) return;
  double most = r->result->animal->species == SPECIES_CAT ? row->threshold2 : row->threshold;
  struct draft d;
  if (!(grams > most * kg * 1000) || !draft_begin(&d, r, "bulk", NULL)) return;
  draft_number(&d, "grams", grams, "g");
  draft_percent(&d, "percent", grams / (kg * 1000));
  draft_percent(&d, "usual", most);
  draft_number(&d, "density", r->result->energy.kcal_per_kg, "kcal per kg");
  draft_end(&d);
}

void findings_energy(struct review *r) {
  batch_or_day(r);
  supply_against_need(r);
  where_calories_come_from(r);
  much_fat(r);
  bulk(r);
}
