#include "judge/verdict.h"
#include "base/table.h"
#include "judge/stats.h"

#include <math.h>

WORD_TABLE(verdict_word, VERDICT_COUNT, "short", "thin", "met", "over", "unproven", "no figure");

/* Where a standard gives no minimum, "short" begins this far below the allowance: part of the meaning of the word, and
 * so not a figure of a table. */
static const double SHORT_SHARE_OF_ALLOWANCE = 0.70;
/* Above the highest level tested is "over" only when this little chance is left of being below it: the low end of the band
 * that is shown. */
static const double NEARLY_NO_CHANCE = 0.05;
/* Two sums of the same grams in another order must not fall on two sides of a limit. */
static const double ROUNDING = 1e-9;

static bool reaches(double amount, double figure) { return amount >= figure * (1.0 - ROUNDING); }
static bool passes(double amount, double limit) { return amount > limit * (1.0 + ROUNDING); }

/* What foods without a value could add decides nothing where the word stays the same with all of it. */
static enum verdict_rule below_allowance(const struct limits *l, const struct supply *s) {
  bool printed = !isnan(l->minimum);
  double floor = printed ? l->minimum : SHORT_SHARE_OF_ALLOWANCE * l->allowance;
  bool above_floor = reaches(s->worst, floor);
  if (s->worst_most > s->worst) {
    if (reaches(s->worst_most, l->allowance)) return RULE_UNPROVEN;
    if (!above_floor && reaches(s->worst_most, floor)) return RULE_UNPROVEN;
  }
  if (above_floor) return RULE_UNDER_ALLOWANCE;
  return printed ? RULE_UNDER_MINIMUM : RULE_FAR_UNDER_ALLOWANCE;
}

/* Poorest and richest window are mostly the same one: a spread that 'other' has worked out is not worked out again. */
static double chance_at_least(double mean, double cv, double figure, struct chance_memory *m,
                              const struct chance_memory *other) {
  if (m->mean == mean && m->cv == cv && m->figure == figure) return m->chance;
  double sigma2 = cv == other->cv ? other->sigma2 : lognormal_sigma2(cv);
  *m = (struct chance_memory){mean, cv, figure, sigma2, lognormal_chance_with(mean, sigma2, figure)};
  return m->chance;
}

static double least_to_meet(const struct limits *l) { return l->allowance * (1.0 - ROUNDING); }
static double most_to_keep(const struct limits *l) { return l->upper * (1.0 + ROUNDING); }

static double chance_of_meeting(const struct limits *l, const struct supply *s, struct verdict_memory *m) {
  if (isnan(l->allowance)) return (double)NAN;
  return chance_at_least(s->worst, s->worst_cv, least_to_meet(l), &m->met, &m->kept);
}

static double chance_of_keeping(const struct limits *l, const struct supply *s, struct verdict_memory *m) {
  if (isnan(l->upper)) return (double)NAN;
  return 1.0 - chance_at_least(s->rich, s->rich_cv, most_to_keep(l), &m->kept, &m->met);
}

static void foresee(double mean, double cv, double figure, struct chance_memory *m, const struct chance_memory *other,
                    struct chance_round *round) {
  if (m->mean == mean && m->cv == cv && m->figure == figure) return;
  double sigma2 = cv == m->cv ? m->sigma2 : cv == other->cv ? other->sigma2 : lognormal_sigma2(cv);
  *m = (struct chance_memory){mean, cv, figure, sigma2, (double)NAN};
  round->of[round->list.count] = m;
  chance_list_add(&round->list, mean, sigma2, figure);
}

void chances_foresee(const struct limits *l, const struct supply *s, struct verdict_memory *m, struct chance_round *round) {
  if (!isnan(l->allowance)) foresee(s->worst, s->worst_cv, least_to_meet(l), &m->met, &m->kept, round);
  if (!isnan(l->upper)) foresee(s->rich, s->rich_cv, most_to_keep(l), &m->kept, &m->met, round);
}

void chances_foresee_word(const struct limits *l, const struct supply *s, struct verdict_memory *m,
                          struct chance_round *round) {
  bool reached = reaches(s->worst, l->allowance); /* NaN: no */
  if (reached) foresee(s->worst, s->worst_cv, least_to_meet(l), &m->met, &m->kept, round);
  if (!isnan(l->upper) && (reached || l->greater_than))
    foresee(s->rich, s->rich_cv, most_to_keep(l), &m->kept, &m->met, round);
}

void chances_work_out(struct chance_round *round) {
  lognormal_chances(&round->list);
  for (size_t i = 0; i < round->list.count; i++) round->of[i]->chance = round->list.chance[i];
}

struct chances {
  double met, kept;
};

/* 'known': the chances, if they were worked out already; most words hang on none. */
static enum verdict_rule rule_for(const struct limits *l, const struct supply *s, const struct chances *known, double sure,
                                  struct verdict_memory *m) {
  bool ceiling = !isnan(l->upper) && !l->greater_than;
  if (ceiling && passes(s->rich, l->upper)) return RULE_OVER;
  bool tested = l->greater_than && !isnan(l->upper);
  double kept = known ? known->kept : tested ? chance_of_keeping(l, s, m) : (double)NAN;
  if (l->greater_than && kept <= NEARLY_NO_CHANCE) return RULE_ABOVE_TESTED;
  if (isnan(l->allowance)) return RULE_NO_FIGURE;
  if (!reaches(s->worst, l->allowance)) return below_allowance(l, s);
  if (!((known ? known->met : chance_of_meeting(l, s, m)) >= sure)) return RULE_NOT_SURE;
  if (ceiling && !((known ? kept : chance_of_keeping(l, s, m)) >= sure)) return RULE_LIMIT_NOT_SURE;
  if (l->greater_than && passes(s->rich, l->upper))
    return RULE_LIMIT_NOT_SURE; /* rather above all that was tested than not */
  return RULE_MET;
}

/* ORDER VERDICT_RULE */
static const enum verdict VERDICT_OF_RULE[] = {VERDICT_OVER,  VERDICT_OVER,  VERDICT_NO_FIGURE, VERDICT_UNPROVEN,
                                               VERDICT_SHORT, VERDICT_SHORT, VERDICT_THIN,      VERDICT_THIN,
                                               VERDICT_THIN,  VERDICT_MET};
ROW_FOR_EACH(VERDICT_OF_RULE, RULE_COUNT);
WORD_TABLE(verdict_rule_key, RULE_COUNT, "over", "above-tested", "no-figure", "unproven", "under-minimum",
           "far-under-allowance", "under-allowance", "not-sure", "limit-not-sure", "met");
WORD_TABLE(
    verdict_rule_text, RULE_COUNT, "the richest window is above the upper limit",
    "the richest window is, nearly certainly, above the highest level ever tested", "the standard gives no allowance",
    "what is known does not reach the allowance, and what foods without a value could add may change the verdict",
    "below the minimum, even with all that foods without a value could add",
    "more than 30 % below the allowance, even with all that foods without a value could add; the standard prints no minimum",
    "below the allowance, but not by enough to be called short",
    "the allowance is reached, but not with the confidence asked for",
    "the allowance is reached, but the upper limit is not kept with the confidence asked for",
    "the allowance is reached and any upper limit kept, both with the confidence asked for", );

/* Foods without a value may lift the total past the limit: that is said, but it decides nothing. */
static bool may_pass_limit(const struct limits *l, const struct supply *s, double chance_kept, double sure) {
  bool below = !passes(s->rich, l->upper) || l->greater_than;
  return below && (!(chance_kept >= sure) || passes(s->rich_possible, l->upper));
}

struct judgement verdict_again(const struct limits *l, const struct supply *s, double sure, struct verdict_memory *memory) {
  double met = chance_of_meeting(l, s, memory), kept = chance_of_keeping(l, s, memory);
  enum verdict_rule rule = rule_for(l, s, &(struct chances){met, kept}, sure, memory);
  enum verdict verdict = VERDICT_OF_RULE[rule];
  bool near = !isnan(l->upper) && verdict != VERDICT_OVER && may_pass_limit(l, s, kept, sure);
  return (struct judgement){.chance_met = met,
                            .verdict = verdict,
                            .near_upper = near,
                            .chance_kept = kept,
                            .rule = rule,
                            .close_to_limit = rule == RULE_LIMIT_NOT_SURE};
}

struct judgement verdict_of(const struct limits *l, const struct supply *s, double sure) {
  struct verdict_memory none = VERDICT_MEMORY_EMPTY;
  return verdict_again(l, s, sure, &none);
}

enum verdict verdict_alone(const struct limits *l, const struct supply *s, double sure, struct verdict_memory *memory) {
  struct verdict_memory none = VERDICT_MEMORY_EMPTY;
  return VERDICT_OF_RULE[rule_for(l, s, NULL, sure, memory ? memory : &none)];
}

int verdict_rank(enum verdict v) {
  switch (v) {
  case VERDICT_MET:
    return 4;
  case VERDICT_THIN:
    return 3;
  case VERDICT_UNPROVEN:
    return 2;
  case VERDICT_SHORT:
  case VERDICT_OVER:
    return 1;
  case VERDICT_NO_FIGURE:
  case VERDICT_COUNT:
    break;
  }
  return 0;
}
