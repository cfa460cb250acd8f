/* What needs the whole text of a recipe: how many days it lasts, amounts told for a meal or a period, shares of the whole.
 */
#include "base/num.h"
#include "recipe/recipe_parser.h"

enum { SHARED_G_A_DAY = 1000 };

static void scale(struct recipe_line *l, double by) {
  l->amount *= by;
  l->scaled *= by;
  l->amount_low *= by;
  l->amount_high *= by;
}

void settle_makes(struct parser *p) {
  struct recipe *r = p->out;
  if (p->batch_meals > 0) {
    if (!(r->meals_per_day > 0)) {
      diag_say(p->d, DIAG_ERROR, DIAG_EMPTY, p->seen[HEADER_MAKES],
               "how many of them are fed a day? add the line 'Meals: 2 a day'");
      return;
    }
    r->days = p->batch_meals / r->meals_per_day;
    r->days_stated = true;
  }
  if (r->days > MOST_DAYS)
    diag_say(p->d, DIAG_ERROR, DIAG_LIMIT, p->seen[HEADER_MAKES], "a batch for more than %d days", MOST_DAYS);
}

/* "2 eggs a week" are one egg on two days; "600 g a week" are a seventh of it every day. */
static void settle_period(struct recipe_line *l, double per_28) {
  bool pieces = unit_info[l->unit].kind == UNIT_KIND_COUNT && l->amount_low == l->amount_high && l->amount >= 1;
  if (pieces && l->amount == floor(l->amount) && l->amount * per_28 <= CALENDAR_DAYS) {
    l->times_per_28 = l->amount * per_28;
    scale(l, 1 / l->amount);
  } else {
    scale(l, per_28 / CALENDAR_DAYS);
  }
}

static void settle_other_days(struct parser *p, size_t i) {
  unsigned before = i > 0 ? p->line[i - 1].days : 0;
  enum { WEEK = 0x7F };
  if (before == 0 || before == WEEK) {
    diag_say(p->d, DIAG_ERROR, DIAG_EMPTY, p->extra[i].each_meal_at,
             "which other days? name the days of the line before, as in 'on Monday and Thursday'");
    return;
  }
  if (p->extra[i - 1].often.other_days) { /* the same other days */
    p->line[i].days = before;
    p->line[i].times_per_28 = p->line[i - 1].times_per_28;
    return;
  }
  p->line[i].days = ~before & WEEK;
  p->line[i].times_per_28 = CALENDAR_DAYS - p->line[i - 1].times_per_28;
}

void settle_lines(struct parser *p) {
  struct recipe *r = p->out;
  for (size_t i = 0; i < p->count; i++) {
    struct recipe_line *l = &p->line[i];
    const struct frequency *often = &p->extra[i].often;
    if (often->tokens > 0 && often->feedings != 1) scale(l, often->feedings);
    if (often->per_28 > 0) settle_period(l, often->per_28);
    if (often->other_days) settle_other_days(p, i);
    if (often->each_meal) {
      if (!(r->meals_per_day > 0))
        diag_say(p->d, DIAG_ERROR, DIAG_EMPTY, p->extra[i].each_meal_at,
                 "how many meals are there a day? add the line 'Meals: 2 a day' at the top");
      scale(l, r->meals_per_day);
    }
    if (l->raw_weight && l->state == STATE_UNSTATED && r->cook == STATE_UNSTATED)
      diag_say(p->d, DIAG_WARNING, DIAG_COOKING, l->whole,
               "a raw weight without a method is read as fed raw; write 'raw weight, simmered' if it is cooked");
    if (l->state == STATE_UNSTATED && state_is_cooked(r->cook)) {
      if (!l->cooked_weight && p->cook_raw_weight) l->raw_weight = true;
      if (l->broth < 0) l->broth = p->cook_broth;
    }
  }
}

/* False when Feeds was not understood, which was said. */
static bool settle_feeds(struct parser *p) {
  if (p->out->feeds_share > 0) {
    p->out->shares_of = SHARES_OF_BODY;
    p->out->total_g = SHARED_G_A_DAY * p->out->days;
  } else {
    p->out->total_g = p->feeds_g * p->out->days;
  }
  return p->out->total_g > 0;
}

void settle_percent(struct parser *p) {
  double sum = 0;
  size_t percent = 0, faulty = 0;
  const struct recipe_line *first = NULL;
  for (size_t i = 0; i < p->count; i++) {
    faulty += isnan(p->line[i].amount) ? 1 : 0;
    if (p->line[i].unit != UNIT_PERCENT) continue;
    if (!first) first = &p->line[i];
    sum += isnan(p->line[i].amount) ? 0 : p->line[i].amount;
    percent++;
  }
  if (!first) return;
  if (!(p->out->total_g > 0) && (p->seen[HEADER_TOTAL].p || (p->seen[HEADER_FEEDS].p && !settle_feeds(p)))) return;
  if (!(p->out->total_g > 0)) {
    p->out->shares_of = SHARES_OF_NEED;
    p->out->total_g = SHARED_G_A_DAY * p->out->days;
  }
  /* Rounded shares may miss 100 by a little. */
  struct buf b;
  buf_init(&b, p->arena, 64);
  num_sig(&b, sum, 4);
  if (sum > 102) {
    diag_say(p->d, DIAG_ERROR, DIAG_NUMBER, first->amount_at, "the shares add up to %s %%, which is more than the whole",
             buf_text(&b));
  } else if (sum < 98 && percent == p->count && faulty == 0) {
    diag_say(p->d, DIAG_ERROR, DIAG_NUMBER, first->amount_at,
             "the shares add up to %s %%; write what the rest is, or grams in place of per cent", buf_text(&b));
  }
}
