#include "app/app_slim.h"

#include <math.h>

#include "app/app_parts.h"
#include "app/measure.h"
#include "foods/constant_keys.h"
#include "words/words.h"

static const double PER_CENT = 100;
static const struct span WHOLE_TEXT = {NULL, 0};

/* ---- figures ------------------------------------------------------------------------------------------------------- */

/* Today's weight by the journal, when it has a trend. */
static void weigh_by_journal(const struct trend_result *t, struct app_slim_answer *out) {
  if (!t || t->day_count == 0) return;
  out->weight_kg = t->weight.mean;
  out->weight_measured = true;
  for (size_t i = 0; i < t->day_count; i++) out->heaviest_kg = fmax(out->heaviest_kg, t->day[i].weight.mean);
}

static void take_figures(const struct library *lib, struct app_slim_answer *out, struct arena *arena) {
  const struct animal *a = out->animal;
  const struct img_constant *rate = library_constant(lib, K_LOSS_RATE, a->species);
  out->need = animal_energy(lib, a, arena);
  out->now = (struct trend_band){out->need.kcal, out->need.low_kcal, out->need.high_kcal};
  out->floor_kcal = animal_loss_floor(lib, a->species, out->body.ideal_kg);
  out->start_share = library_constant_value(lib, K_OVERWEIGHT_FROM, a->species) / PER_CENT;
  out->rate_low = rate ? rate->low / PER_CENT : (double)NAN;
  out->rate_high = rate ? rate->high / PER_CENT : (double)NAN;
}

enum { TOLD_BY_GUESS = 56, TOLD_BY_JOURNAL = SLIM_DAYS_MOST };

/* Overweight by hand and eye, or by the scale once: what was begun goes on to the ideal weight. */
static bool is_heavy(const struct library *lib, const struct app_slim_answer *s) {
  double ideal = library_constant_value(lib, K_CONDITION_IDEAL, s->animal->species);
  return s->animal->condition >= ideal + 1 || s->heaviest_kg >= (1 + s->start_share) * s->body.ideal_kg;
}

static struct slim_plan plan_of(const struct library *lib, const struct app_slim_answer *s, double least_kcal,
                                struct arena *arena) {
  const struct img_constant *rate = library_constant(lib, K_LOSS_RATE, s->animal->species);
  const struct img_constant *tissue = library_constant(lib, K_TISSUE_ENERGY, s->animal->species);
  bool cat = s->animal->species == SPECIES_CAT;
  if (!rate || !tissue) return (struct slim_plan){.status = SLIM_NO_ROOM};
  struct slim_input in = {.weight_kg = s->weight_kg,
                          .ideal_kg = s->body.ideal_kg,
                          .start_share = s->start_share,
                          .heavy_before = is_heavy(lib, s),
                          .need = s->now,
                          .floor_kcal = least_kcal,
                          .rate_low = s->rate_low,
                          .rate_aim = rate->value / PER_CENT,
                          .rate_high = s->rate_high,
                          .tissue_kcal = tissue->value,
                          .tissue_low = tissue->low,
                          .tissue_high = tissue->high,
                          .metabolic_exponent = s->body.exponent,
                          .every_days = cat ? 7 : 14,
                          .days_told = s->animal->measured ? TOLD_BY_JOURNAL : TOLD_BY_GUESS,
                          .round_kcal = cat ? 1 : 5};
  return slim_plan_for(&in, arena);
}

/* ---- words --------------------------------------------------------------------------------------------------------- */

static const char *kg(struct arena *arena, double x) { return words_text(arena, "%s kg", words_number(arena, x)); }

/* "0.7 %": rates of loss need the digit. */
static const char *rate_words(struct arena *arena, double share) { return words_text(arena, "%.1f %%", PER_CENT * share); }

static const char *lead_words(const struct app_slim_answer *s, struct arena *arena) {
  const char *who = words_capital(arena, words_called(s->animal)), *weight = kg(arena, s->weight_kg),
             *ideal = kg(arena, s->body.ideal_kg);
  const struct slim_plan *p = &s->plan;
  if (p->status == SLIM_NOT_NEEDED)
    return words_text(arena,
                      "%s weighs %s, and %s is ideal (%s): there is nothing to lose. Without 'Ideal:' or 'Condition:' in "
                      "its text the weight itself is taken to be ideal.",
                      who, weight, ideal, s->body.ideal_from);
  if (p->status == SLIM_LITTLE)
    return words_text(
        arena,
        "%s weighs %s, only %s above the ideal of %s (%s): that is too little for a plan, which begins at %s or "
        "at a body condition of 6 of 9. A full bowel or another scale can make that much difference. Leave out a treat, "
        "walk a little more, and weigh once a month; if it goes on rising, ask again.",
        who, weight, words_share(arena, s->weight_kg / s->body.ideal_kg - 1), ideal, s->body.ideal_from,
        words_share(arena, s->start_share));
  if (p->status == SLIM_NO_ROOM && s->bowl_kcal > s->floor_kcal)
    return words_text(arena,
                      "The smallest bowl of these foods that meets every need has %s kcal a day, and %s needs about %s: on "
                      "it no weight is "
                      "lost. About %s kcal would be the aim for %s, and never less than %s. Leaner foods, fewer treats and "
                      "less oil, cheese "
                      "and starch make room for that: change them, and make the plan again.",
                      words_whole(arena, s->bowl_kcal), words_called(s->animal), words_whole(arena, s->need.kcal),
                      words_whole(arena, s->body.aim_kcal), ideal, words_whole(arena, s->floor_kcal));
  if (p->status == SLIM_NO_ROOM)
    return words_text(
        arena,
        "%s needs about %s kcal a day, and less than %s kcal should not be fed without a veterinarian: there is "
        "nothing to save. Let the veterinarian look for a reason (thyroid, medicine) before anything is cut.",
        who, words_whole(arena, s->need.kcal), words_whole(arena, s->floor_kcal));
  const char *end =
      p->reached ? words_text(arena, "in about %d weeks", (p->days + 6) / 7) : "not within a year; plan again then";
  return words_text(arena,
                    "From %s%s to %s (ideal: %s): %s, losing about %s of its weight a week once the full step is reached. "
                    "Safe is %s to %s.",
                    weight, s->weight_measured ? " by the journal" : "", ideal, s->body.ideal_from, end,
                    rate_words(arena, p->per_week), rate_words(arena, s->rate_low), rate_words(arena, s->rate_high));
}

static void rule(struct app_slim_answer *s, const char *text) {
  if (s->rules < SLIM_SENTENCES) s->rule[s->rules++] = text;
}
static void stop(struct app_slim_answer *s, const char *text) {
  if (s->stops < SLIM_SENTENCES) s->stop[s->stops++] = text;
}

static void say_rules(struct app_slim_answer *s, struct arena *arena) {
  bool cat = s->animal->species == SPECIES_CAT;
  const struct slim_plan *p = &s->plan;
  rule(s, words_text(arena, "Never less than %s kcal a day: %s", words_whole(arena, s->floor_kcal),
                     cat ? "a cat that eats too little may die of a fatty liver (hepatic lipidosis). It is the mean intake "
                           "on which cats lost weight in trials, by ideal weight."
                         : "it is the low end of what dogs that lost weight in trials ate, by ideal weight."));
  static const double CLOSE = 1.1; /* to the floor: then that is what holds it up */
  bool by_bowl = s->bowl_kcal > CLOSE * s->floor_kcal;
  if (by_bowl && p->per_week < s->rate_low)
    rule(s, words_text(arena,
                       "The bowl holds the energy up here: with less than %s kcal of it something would fall short, so the "
                       "loss is slower than is aimed at. Leaner foods, fewer treats and less oil, cheese and starch make "
                       "room for less energy: change them, and make the plan again.",
                       words_whole(arena, s->bowl_kcal)));
  else if (p->at_floor && !by_bowl)
    rule(s, "That floor holds the energy up here, so the loss is slower than the middle of the safe range. Slow is fine; "
            "more exercise is the other half.");
  if (s->animal->measured)
    rule(s, words_text(arena, "The need is the animal's own, %s.", s->need.from));
  else
    rule(s, words_text(arena,
                       "The need (%s kcal, between %s and %s) is a guess by the equation: the first three or four weighings "
                       "decide. Keep a journal and make the plan again with it: then it is made from the animal's own need.",
                       words_whole(arena, s->now.mean), words_whole(arena, s->now.low), words_whole(arena, s->now.high)));
  rule(s, "Treats count: at most a tenth of the energy, taken off the bowl.");
  rule(s, "Heavier than the band on two weighings: first look for food that nobody counts, then make a new plan from "
          "that day. Lighter than 'too light': feed a tenth more.");
}

static void say_stops(struct app_slim_answer *s, struct arena *arena) {
  bool cat = s->animal->species == SPECIES_CAT;
  stop(s, cat ? "It eats nothing for a day, or less than half for two: to the veterinarian at once, and end the plan."
              : "It eats nothing for two days, vomits, or has diarrhoea for more than two days: see the veterinarian.");
  if (cat) stop(s, "Yellow gums or ears, vomiting, hiding: the same day.");
  stop(s, words_text(arena, "It loses more than %s of its weight a week over two weighings: feed more, and ask.",
                     rate_words(arena, s->rate_high)));
  stop(s, "It loses weight without having been given less, drinks much more, or grows weak: see the veterinarian before "
          "going on.");
  stop(s, words_text(arena,
                     "It reaches %s or looks and feels right (ribs easily felt, a waist from above): feed for that weight, "
                     "and weigh once a month.",
                     kg(arena, s->body.ideal_kg)));
  stop(s,
       "Show the plan to the veterinarian before you start: heart, kidneys, thyroid and joints should be looked at first.");
}

/* ---- the bowl ------------------------------------------------------------------------------------------------------ */

static const struct check_result *bowl_of(const struct app_slim_answer *s, const char **text) {
  const struct mended_answer *a = &s->bowl.answer;
  *text = NULL;
  if (!s->bowl.understood || !a->mend) return NULL;
  if (a->count > 0) *text = a->found[0].text;
  return a->count > 0 ? a->found[0].after : a->mend->already_met ? a->before : NULL;
}

static struct app_mend_request for_bowl(const struct app_slim_request *q, const struct app_slim_answer *s) {
  struct app_mend_request m = q->mend;
  m.check.ask.kcal = s->plan.lowest_kcal;
  m.check.one_off = s->animal;
  m.check.journal = NULL; /* the animal has its need already */
  return m;
}

/* On the first steps there is more of it: is that too much of anything? */
static void look_at_first_step(const struct library *lib, const struct app_slim_request *q, const char *text,
                               struct app_slim_answer *out, struct arena *arena) {
  struct app_check_request again = for_bowl(q, out).check;
  struct app_check_answer a;
  const char *over[NUT_COUNT];
  size_t n = 0;
  if (text) again.recipe.text = span_of(text);
  again.ask.posted = text ? false : again.ask.posted;
  again.ask.eaten = out->plan.step[0].kcal / out->plan.lowest_kcal;
  again.ask.numbers_only = true;
  app_check(lib, &again, &a, arena);
  for (int i = 0; a.result && i < NUT_COUNT; i++)
    if (a.result->nutrient[i].verdict == VERDICT_OVER) over[n++] = words_nutrient(arena, (enum nutrient)i);
  if (n > 0)
    rule(out, words_text(arena,
                         "On the first step there is more of the bowl, and then %s %s above the upper limit: feed the bowl "
                         "of the last step, and something plain beside it.",
                         words_list(arena, over, n, 4), n == 1 ? "is" : "are"));
}

/* The bowl that is found may have a little more energy than was asked for: then that is the lowest step, for with less of it
 * something would fall short. */
static void mend_bowl(const struct library *lib, const struct app_slim_request *q, struct app_slim_answer *out,
                      const char **text, struct arena *arena) {
  struct app_mend_request m = for_bowl(q, out);
  out->bowl_wanted = true;
  app_mend(lib, &m, &out->bowl, arena);
  const struct check_result *r = bowl_of(out, text);
  if (!r) return;
  if (r->energy.supply_kcal > out->plan.lowest_kcal) {
    out->bowl_kcal = r->energy.supply_kcal;
    out->plan = plan_of(lib, out, r->energy.supply_kcal, arena);
    out->lead = lead_words(out, arena);
    if (out->plan.status != SLIM_FOUND) return;
  }
  out->grams_at_lowest = r->energy.grams_per_day * out->plan.lowest_kcal / r->energy.supply_kcal;
}

void app_slim(const struct library *lib, const struct app_slim_request *q, struct app_slim_answer *out,
              struct arena *arena) {
  const struct app_check_request *c = &q->mend.check;
  struct app_check_answer texts = {0};
  *out = (struct app_slim_answer){
      .lead = "", .grams_at_lowest = (double)NAN, .bowl_kcal = (double)NAN, .heaviest_kg = (double)NAN};
  diags_init(&texts.animal_diags, arena, c->animals.name, c->animals.text);
  diags_init(&texts.recipe_diags, arena, c->recipe.name, c->recipe.text);
  if (c->journal) diags_init(&out->journal_diags, arena, c->journal->text.name, c->journal->text.text);
  struct recipe recipe = {.name = ""};
  struct diags aside;
  diags_init(&aside, arena, c->recipe.name, c->recipe.text);
  bool read = c->recipe.text.n > 0 && !c->ask.posted && recipe_parse(c->recipe.text, &aside, &recipe, arena);
  bool found = app_find_animal(lib, c, read ? &recipe : NULL, &out->animal, &texts, arena) && out->animal;
  const struct trend_result *trend = NULL;
  found = found && app_measure_by_trend(lib, c, &out->animal, &trend, &out->journal_diags, arena);
  out->animal_diags = texts.animal_diags;
  if (!found) {
    if (texts.recipe_diags.errors > 0) out->animal_diags = texts.recipe_diags; /* the one that the recipe names */
    if (out->animal_diags.errors == 0 && out->journal_diags.errors == 0) {
      diag_say(&out->animal_diags, DIAG_ERROR, DIAG_ANIMAL_NEEDED, WHOLE_TEXT,
               "a plan is made for an animal, and none is given");
    }
    return;
  }
  out->understood = true;
  out->from = date_days(c->ask.from.year > 0 ? c->ask.from : c->ask.today);
  out->refusal = animal_refusal(out->animal);
  out->body = animal_body(lib, out->animal);
  out->weight_kg = out->animal->weight_kg;
  if (out->refusal != REFUSE_NOT) return;
  weigh_by_journal(trend, out);
  take_figures(lib, out, arena);
  out->plan = plan_of(lib, out, out->floor_kcal, arena);
  out->lead = lead_words(out, arena);
  if (out->plan.status != SLIM_FOUND) return;
  const char *text = NULL;
  if (c->recipe.text.n > 0) mend_bowl(lib, q, out, &text, arena);
  if (out->plan.status != SLIM_FOUND) return;
  say_rules(out, arena);
  say_stops(out, arena);
  if (out->grams_at_lowest > 0) look_at_first_step(lib, q, text, out, arena);
}
