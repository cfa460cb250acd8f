/* "250 g beef daily except Fridays when he gets 200 g cod": the days on which one food is not fed, and what is fed on them,
 * written out day by day. */
#include "post/rewrite/post_rewrite.h"

/* "except on", "but not on", "apart from": how many tokens; 0. */
static size_t except_at(const struct tokens *t, size_t at) {
  size_t used = phrase_of(t, at, CLASS_EXCEPT_DAYS);
  if (used == 0) return 0;
  if (says(t, at + used, "on for")) used++;
  if (says(t, at + used, "the")) used++;
  return used;
}

/* "when he gets", "on which she has": what follows is fed on those days. */
static size_t then_fed_at(const struct tokens *t, size_t at) {
  size_t from = at;
  if (is_mark(t, at, ',')) at++;
  if (says(t, at, "on") && says(t, at + 1, "which those that"))
    at += 2;
  else if (says(t, at, "when where then"))
    at++;
  else
    return 0;
  if (says(t, at, "it") && says(t, at + 1, "is")) return at + 2 - from;
  if (says(t, at, "it's its")) return at + 1 - from;
  size_t verb = is_word(t, at) && says(t, at + 1, "just only then") ? at + 2 : at + 1;
  if (is_word(t, at) && says(t, verb, "gets has eats get have"))
    at = verb + 1;
  else if (is_word(t, at) && says(t, at + 1, "is") && says(t, at + 2, "given fed"))
    at += 3;
  else
    return 0;
  return at - from;
}

/* Of the food: "20 kg dog:" is another one. */
static size_t amounts_before(const struct tokens *t, size_t to) {
  size_t n = 0;
  for (size_t i = 0; i < to; i++) {
    if (is_mark(t, i, ':')) n = 0;
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0 || (a.bare && a.by_word)) continue;
    n++;
    i += a.tokens - 1;
  }
  return n;
}

/* "(he fasts)" behind those days: how many tokens. */
static size_t fasts_behind(const struct tokens *t, size_t at) {
  size_t close = at;
  if (!is_mark(t, at, '(')) return 0;
  while (close < t->count && !is_mark(t, close, ')')) close++;
  return close < t->count && holds_a(t, at, close, CLASS_FASTING) ? close + 1 - at : 0;
}

bool post_except_days(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 2; i < t->count; i++) {
    size_t used = except_at(t, i), days = i + used;
    struct frequency f = used > 0 ? frequency_at(t, days) : (struct frequency){0};
    if (f.tokens == 0 || f.days == 0 || f.days == 0x7F) continue;
    size_t amounts = amounts_before(t, i), alone = amounts == 0 ? then_fed_at(t, days + f.tokens) : 0;
    if (alone > 0 &&
        post_any_amount(t, days + f.tokens + alone)) { /* "that's every day bar Wednesday when she has a neck" */
      struct buf only;
      buf_init(&only, r->keep, text.n + 60);
      buf_addf(&only, "On %.*s only gets %.*s", SPAN_ARG(tokens_span(t, days, f.tokens)),
               SPAN_ARG(tokens_span(t, days + f.tokens + alone, t->count - days - f.tokens - alone)));
      *out = buf_span(&only);
      return true;
    }
    if (amounts != 1) continue;
    size_t before = i, behind = days + f.tokens;
    for (size_t k = 1; k < i; k++) { /* "daily" goes without saying */
      struct frequency daily = frequency_at(t, k);
      if (daily.tokens > 0 && k + daily.tokens == i && daily.times_per_28 == CALENDAR_DAYS && daily.feedings <= 1 &&
          !daily.refuse && !daily.each_meal && daily.days == 0 && !(daily.per_28 > 0))
        before = k;
    }
    while (before > 1 && is_mark(t, before - 1, ',')) before--;
    size_t fasts = fasts_behind(t, behind), fed = then_fed_at(t, behind);
    if (fasts > 0) r->fast_days |= f.days;
    struct buf b;
    buf_init(&b, r->keep, text.n + 400);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[before - 1].at.p + t->item[before - 1].at.n - text.p)});
    buf_adds(&b, ", on ");
    frequency_print_days(&b, 0x7FU & ~f.days);
    size_t rest = behind + fasts;
    if (fed > 0 && post_any_amount(t, behind + fed)) {
      size_t end = behind + fed;
      while (end < t->count && !is_mark(t, end, '.') && !is_mark(t, end, ';')) end++;
      buf_addf(&b, "; on ");
      frequency_print_days(&b, f.days);
      buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(t, behind + fed, end - behind - fed)));
      rest = end;
    }
    if (rest < t->count) {
      struct span left = tokens_span(t, rest, t->count - rest);
      buf_addf(&b, "%s%.*s", t->item[rest].kind == TOKEN_MARK ? "" : " ", SPAN_ARG(left));
    }
    *out = buf_span(&b);
    return true;
  }
  return false;
}
