/* What is bought and told again by the day ("14 eggs a fortnight, so one a day"), and what lasts as long as something that
 * was told before ("a bag of peas in the same time"). */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

/* ---- the same by the day ---- */

/* "a day", "each day", "daily", "every other day": its tokens; 0. */
static size_t rate_at(const struct tokens *t, size_t at) {
  if (at >= t->count) return 0;
  if (says(t, at, "a per each every") && says(t, at + 1, "day")) return 2;
  struct frequency f = frequency_at(t, at);
  return f.tokens > 0 && !f.refuse && !f.each_meal && f.feedings <= 1 && !(f.per_28 > 0) ? f.tokens : 0;
}

/* "so one a day", "(ie 100 g a day)", "that's two daily": how many tokens, where the amount begins, and the rate behind it;
 * 0. */
static size_t told_again(const struct tokens *t, size_t at, size_t *amount, size_t *rate) {
  size_t i = at;
  bool open = is_mark(t, i, '('), apart = open;
  while (i < t->count && t->item[i].kind == TOKEN_MARK && !is_mark(t, i, '.') && !is_mark(t, i, ';')) i++, apart = true;
  bool so = says(t, i, "so ie i.e that's thats meaning makes equals hence") || is_mark(t, i, '=');
  if (says(t, i, "i") && says(t, i + 2, "e")) i += 2, so = true; /* "i.e." in pieces */
  if (says(t, i, "which that") && says(t, i + 1, "is makes means")) i++, so = true;
  if (!so && !open) return 0;
  if (so) i++;
  while (i < t->count && (is_mark(t, i, '.') || is_mark(t, i, ',') || says(t, i, "about roughly it's its"))) i++;
  struct quantity q = quantity_at(t, i);
  struct post_amount a = i < t->count ? post_amount_at(t, i) : (struct post_amount){0};
  size_t used = a.tokens > 0 ? a.tokens : q.fault == QUANTITY_FINE ? q.tokens : 0, end = i + used;
  if (used == 0 || !apart) return 0;
  *amount = i;
  if (says(t, end, "of") && says(t, end + 1, "them these")) end += 2;
  if (says(t, end, "for")) end++; /* "one for each day" */
  *rate = end;
  size_t often = rate_at(t, end);
  if (often == 0) return 0;
  end += often;
  if (open && is_mark(t, end, ')')) end++;
  return end - at;
}

static void by_the_day(struct story *st, size_t i) {
  enum { FAR = 14 };
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 2; k + 2 < t->count; k++) {
    size_t amount = 0, rate = 0, used = told_again(t, k, &amount, &rate), first = k, tokens = 0, food, end;
    if (used == 0) continue;
    for (size_t m = k > FAR ? k - FAR : 0; m < k; m++) {
      struct post_amount a = post_amount_at(t, m);
      if (a.tokens == 0 || not_an_amount(t, m) > 0 || frequency_at(t, m).tokens > 0) continue;
      first = m, tokens = a.tokens;
      m += a.tokens - 1;
    }
    if (tokens == 0) continue;
    struct post_amount whole = post_amount_at(t, first), day = post_amount_at(t, amount);
    double many = day.tokens > 0 ? day.low : quantity_at(t, amount).low;
    food = first + tokens + says(t, first + tokens, "of");
    end = post_food_end(st->r, t, food);
    if (end == food) continue;
    bool counted = whole.bare && (day.tokens == 0 || day.bare) && many < whole.low && rate > amount;
    bool weighed = whole.is_mass && day.is_mass && post_in_grams(&day) < post_in_grams(&whole);
    if (!counted && !weighed) continue;
    struct buf b;
    buf_init(&b, st->r->arena, st->s[i].text.n + 100);
    buf_addf(&b, "%.*s %.*s %.*s", SPAN_ARG(tokens_span(t, amount, rate - amount)),
             SPAN_ARG(tokens_span(t, food, end - food)), SPAN_ARG(tokens_span(t, rate, rate_at(t, rate))));
    refer_between(st, i, first, k + used, buf_text(&b));
    return;
  }
}

/* ---- as long as that ---- */

/* "every two weeks", "a fortnight", "lasts ten days": how many days of it were told; tokens, 0. */
static size_t period_at(const struct tokens *t, size_t at, double *days) {
  double per_28 = 0;
  bool joined = false;
  size_t used = frequency_period_at(t, at, &per_28, &joined);
  if (used > 0 && joined && per_28 > 0 && per_28 < CALENDAR_DAYS) return *days = CALENDAR_DAYS / per_28, used;
  bool every = says(t, at, "every lasts lasting does do for takes");
  size_t from = every ? at + 1 : at;
  if (every && says(t, from, "him her us them me it")) from++;
  struct quantity q = quantity_at(t, from);
  if (!every || q.fault != QUANTITY_FINE || q.low != q.high) return 0;
  size_t unit = from + q.tokens;
  double each = says(t, unit, "days day")       ? 1
                : says(t, unit, "weeks week")   ? 7
                : says(t, unit, "fortnight")    ? 14
                : says(t, unit, "months month") ? 28
                                                : 0;
  *days = q.low * each;
  return each > 0 && *days > 1 && *days <= 60 ? unit + 1 - at : 0;
}

/* "in the same time", "lasts the same", "in those ten days", "lasts as long": its tokens; 0. */
static size_t same_time_at(const struct tokens *t, size_t at) {
  size_t i = at;
  if (says(t, i, "lasts does do last takes") && says(t, i + 1, "the") && says(t, i + 2, "same")) {
    i += 3;
    struct quantity q = quantity_at(t, i);
    if (q.fault == QUANTITY_FINE && says(t, i + q.tokens, "days weeks week")) i += q.tokens + 1;
    if (says(t, i, "time period")) i++;
    return i - at;
  }
  if (says(t, i, "lasts last") && says(t, i + 1, "as just") && (says(t, i + 2, "long") || says(t, i + 2, "as")))
    return says(t, i + 2, "long") ? 3 : 4;
  if (!says(t, i, "in for over during within")) return 0;
  if (!says(t, i + 1, "the that those this these")) return 0;
  size_t same = i + 2 + says(t, i + 2, "same");
  struct quantity q = quantity_at(t, same);
  if (q.fault == QUANTITY_FINE && says(t, i + 1, "those these") && says(t, same + q.tokens, "days weeks"))
    return same + q.tokens + 1 - at;
  return (says(t, same, "time period") && (same > i + 2 || says(t, i + 1, "that"))) ? same + 1 - at : 0;
}

void refer_rate(struct story *st) {
  double days = 0, told;
  for (size_t i = 0; i < st->count; i++) {
    for (size_t k = 0; k < st->s[i].t.count; k++) {
      const struct tokens *t = &st->s[i].t;
      size_t same = days > 1 ? same_time_at(t, k) : 0;
      if (same > 0 && post_names_food(st->r, t, 0, t->count) && post_any_amount(t, 0)) {
        struct buf b;
        buf_init(&b, st->r->arena, 60);
        buf_adds(&b, "every ");
        num_sig(&b, days, 4);
        buf_adds(&b, " days");
        refer_between(st, i, k, k + same, buf_text(&b));
        k += 2;
        continue;
      }
      if (period_at(t, k, &told) > 0) days = told;
    }
    by_the_day(st, i);
  }
}
