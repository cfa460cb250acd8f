/* How often the foods of one sentence are fed, where it is said beside several of them, of a meal, or in passing. */
#include "post/line/post_line.h"

/* "each morning", "with every dinner": a day's amount, and no part of a batch. */
bool post_each_morning(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i + 1 < to; i++)
    if (says(t, i, "each every") && says_a(t, i + 1, CLASS_EACH_MEAL_TIME)) return true;
  return false;
}

/* "a teaspoon of butter on each tub": as often as there are meals. */
static bool on_each_portion(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i + 1 < to; i++) {
    bool on = says_a(t, i, CLASS_BEFORE_EACH) || (i > 0 && says(t, i, "of") && says(t, i - 1, "top"));
    if (!on || !says(t, i + 1, "each every both") || (i > 0 && says(t, i - 1, "not"))) continue; /* "not for each bowl" */
    size_t at = i + 2;
    bool ends = at >= to || t->item[at].kind == TOKEN_MARK; /* "25 g of carrot with each", "oil on both" */
    if (says(t, i, "with") && at >= to && says(t, i + 1, "each both")) return true;
    if (says(t, i, "with on in") && ends && says(t, i + 1, "both") && !(r->animals > 1)) return true;
    if (says(t, at, "of")) at++;
    if (says(t, at, "the his her their these those")) at++;
    struct quantity q = quantity_at(t, at);
    if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 2 && q.low <= 6 &&
        says(t, at + q.tokens, "meals bowls feeds")) {
      if (!(r->meals_a_day > 0)) r->meals_a_day = q.low;
      return true;
    }
    if (says_a(t, at, CLASS_EACH_PORTION)) return true;
  }
  return false;
}

/* "Kelp 1/2 tsp daily, salmon oil 2 pumps", under a week that is told by its days. */
bool post_daily_beside(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens > 0 && f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal) return true;
  }
  return false;
}

/* "She also gets ...", beside a batch. */
bool post_says_also(const struct tokens *t) {
  bool fed = false, also = false;
  for (size_t i = 0; i < t->count; i++) {
    fed = fed || says(t, i, "gets has eats get have");
    also = also || says(t, i, "also too extra addition");
  }
  return fed && also;
}

/* "a grape now and then": nobody knows how often, and daily it is not. */
bool post_now_and_then(const struct tokens *t, size_t from, size_t to) { return holds_a(t, from, to, CLASS_NOW_AND_THEN); }

/* "spread over the whole week", "lasts her four days": of how often, what no reader took. */
bool post_often_left_unread(const struct tokens *t, size_t from, size_t to) {
  enum { NEAR = 6 };
  for (size_t i = from; i < to; i++) {
    if (!says_a(t, i, CLASS_SPREAD_OUT)) continue;
    for (size_t k = i + 1; k < to && k < i + NEAR; k++) {
      if (says(t, k, "meal meals feeds feedings bowls")) break;
      if (says(t, k, "days week weeks month months fortnight")) return true;
    }
  }
  return false;
}

bool post_says_other_days(const struct tokens *t, size_t from, size_t to) { return holds_a(t, from, to, CLASS_OTHER_DAYS); }

/* "in the last meal", "at breakfast": of one meal alone. */
bool post_at_one_meal(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (says_a(t, i, CLASS_ONE_MEAL) || (says(t, i, "last first one second third") && says(t, i + 1, "meal feed bowl")))
      return true;
  return false;
}

/* "Organ days are Mon and Thu, on those ...": of the foods that follow. */
void post_carry_days(struct post_reader *r, const struct tokens *t, const struct segment *s, const char **carried) {
  const char *often = post_often_in(r, t, s->from, s->to);
  bool days = !post_names_food(r, t, s->from, s->to);
  for (size_t i = s->from; i < s->to; i++) days = days || says(t, i, "days day");
  if (often[0] && days) *carried = often;
}

/* "With each of them he gets 80 g of rice and 20 g of yoghurt": both, up to one that is of a single meal. */
bool post_fed_at_each_meal(struct post_reader *r, const struct tokens *t, const struct segment *s, size_t to,
                           const char **carried) {
  bool each = on_each_portion(r, t, s->from, s->to);
  if (each && on_each_portion(r, t, s->from, s->amount)) *carried = "at each meal";
  if (!each && strcmp(*carried, "at each meal") == 0 && post_at_one_meal(t, s->said_from, to)) *carried = "";
  return each;
}

/* "100 g heart and 50 g carrots, twice daily.": behind a comma at the very end it holds for all, without one for the last;
 * asked in either case; "". */
const char *post_often_of_all(struct post_reader *r, const struct tokens *t, const struct segments *s) {
  size_t end = t->count, at = 0, foods = 0;
  while (end > 0 && t->item[end - 1].kind == TOKEN_MARK) end--;
  for (size_t i = 0; i < s->count; i++) foods += s->at[i].amount != SIZE_MAX && !s->at[i].skip;
  for (size_t i = 0; i < end; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens == 0) continue;
    if (i + f.tokens != end || i == 0 || f.refuse || f.days != 0) return "";
    if (!f.each_meal && !(f.feedings > 1)) return "";
    at = i;
    break;
  }
  if (at == 0 || foods < 2) return "";
  bool all = is_mark(t, at - 1, ',');
  post_ask(r, 3, "Is that %.*s for all of '%.*s', or for the last only? It was taken for %s.",
           SPAN_ARG(tokens_span(t, at, end - at)), SPAN_ARG(post_quote(r, tokens_span(t, 0, at - all))),
           all ? "all" : "the last");
  if (!all) return "";
  return post_often_in(r, t, at, end);
}

/* "1 oz of liver and 1 oz of kidney on Tuesdays and Fridays": the days stand behind the last of two equal amounts, and hold
 * for both. Behind unlike amounts ("400 g of beef and an egg on Sundays") they are the last one's; asked where it is in
 * doubt. "" where they hold for the last alone. */
const char *post_days_of_both(struct post_reader *r, const struct tokens *t, const struct segments *s, size_t at) {
  static const double ALIKE = 2.5;
  if (at + 1 >= s->count) return "";
  const struct segment *one = &s->at[at], *next = &s->at[at + 1];
  if (one->amount == SIZE_MAX || next->amount == SIZE_MAX || one->skip || next->skip || one->same || next->same) return "";
  bool joined = next->from > 0 && (says(t, next->from - 1, "and n with plus") || is_mark(t, next->from - 1, '&') ||
                                   is_mark(t, next->from - 1, '+'));
  size_t behind = next->amount + next->value.tokens;
  const char *own = post_often_in(r, t, one->said_from, one->to), *often = post_often_in(r, t, behind, next->to);
  if (!joined || own[0] || !often[0] || post_often_in(r, t, next->said_from, next->amount)[0]) return "";
  if (r->makes_days > 0 && post_each_morning(t, behind, next->to))
    return "daily"; /* "a spoon of oil and one of yoghurt every morning" */
  if (strcmp(one->value.unit, next->value.unit) != 0 || !(one->value.is_mass || one->value.is_volume)) return "";
  struct tokens said = post_tokens(r, span_of(often));
  struct frequency f = said.count > 0 ? frequency_at(&said, 0) : (struct frequency){0};
  if (f.tokens == 0 || f.refuse || f.times_per_28 >= CALENDAR_DAYS || f.each_meal || f.other_days) return "";
  double a = one->value.low, b = next->value.low;
  if (a == b) return often;
  if (a > ALIKE * b || b > ALIKE * a) return "";
  post_ask(r, 3, "Is '%s' said of both in '%.*s', or of the last only? It was taken for both.", often,
           SPAN_ARG(post_quote(r, tokens_span(t, one->from, next->to - one->from))));
  return often;
}
