/* "Makes about 10 cups, he gets 2 cups a day": how long a batch lasts that is measured by the cup. */
#include "post/whole/post_whole.h"

/* "about", "roughly" before 'at'. */
static size_t before_about(const struct tokens *t, size_t at) {
  while (at > 0 && says(t, at - 1, "about around roughly approx approximately nearly almost just only up to")) at--;
  return at;
}

/* No food behind it: the amount is one of the whole. */
static bool stands_alone(struct post_reader *r, const struct tokens *t, size_t end) {
  if (says(t, end, "of") && says(t, end + 1, "it this that the food")) return true;
  return end >= t->count || !is_word(t, end) || (post_mention_at(r, t, end) == 0 && says_a(t, end, CLASS_CLAUSE_OPENER)) ||
         says(t, end, "in total altogether all and so");
}

static bool hear_yield(struct post_reader *r, struct tokens *t, size_t i, const struct post_amount *a) {
  size_t verb = before_about(t, i), end = i + a->tokens;
  if (verb == 0 || !says(t, verb - 1, "makes make made yields yield yielded gives") || !stands_alone(r, t, end))
    return false;
  r->yield = *a;
  take(t, verb - 1, end - verb + 1);
  return true;
}

static bool hear_share(struct post_reader *r, struct tokens *t, size_t i, const struct post_amount *a) {
  size_t verb = before_about(t, i), end = i + a->tokens;
  if (says(t, end, "of") && says(t, end + 1, "it this that")) end += 2;
  struct frequency f = end < t->count ? frequency_at(t, end) : (struct frequency){0};
  bool daily = f.tokens > 0 && f.times_per_28 == CALENDAR_DAYS && !f.each_meal && !f.refuse && f.feedings >= 1;
  if (verb == 0 || !says_a(t, verb - 1, CLASS_FEEDING_BEFORE_TOTAL) || !daily) return false;
  size_t behind = end + f.tokens;
  if (behind < t->count && is_word(t, behind) && !says(t, behind, "in and so which split")) return false;
  double days = r->yield.low / (a->low * f.feedings);
  if (!(days >= 1 && days <= 60) || r->makes_days > 0 || r->makes_meals > 0) return false;
  r->makes_days = days;
  r->makes_line = r->line;
  take(t, verb - 1, behind - verb + 1);
  return true;
}

bool post_hear_yield(struct post_reader *r, struct tokens *t) {
  bool heard = false;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0 || !a.is_volume || a.low != a.high) continue;
    if (hear_yield(r, t, i, &a) || (r->yield.tokens > 0 && strcmp(r->yield.unit, a.unit) == 0 && hear_share(r, t, i, &a)))
      heard = true;
    i += a.tokens - 1;
  }
  return heard;
}
