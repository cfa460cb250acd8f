/* The days of a food, told behind its amount: "Edit: sorry, the tripe is only Mon, Wed, Fri", "forgot to say, the spinach is
 * just on weekends": written where the food stands. */
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

struct days_later {
  size_t food, food_end, days, end; /* tokens */
};

/* "the tripe is only Tue and Sat" */
static bool days_told_later(struct story *st, const struct tokens *t, struct days_later *d) {
  for (size_t k = 1; k + 2 < t->count; k++) {
    if (!says(t, k - 1, "the his her") || post_mention_at(st->r, t, k) == 0) continue;
    size_t at = post_food_end(st->r, t, k);
    bool only = false;
    *d = (struct days_later){.food = k, .food_end = at};
    bool done = false; /* "actually I do the vitamin E only once a week" */
    for (size_t m = k > 3 ? k - 3 : 0; m < k; m++) done = done || says(t, m, "do give feed use");
    if (!done && !says(t, at, "is are goes comes gets")) continue;
    if (done) at--;
    for (at++; says(t, at, "only just in fed given on"); at++) only = only || says(t, at, "only just");
    if (is_word(t, at - 1) && says(t, at - 1, "on")) at--;
    struct frequency f = at < t->count ? frequency_at(t, at) : (struct frequency){0};
    if (!only || f.tokens == 0 || f.refuse || f.other_days || f.each_meal) continue;
    if (f.days == 0 && !(f.times_per_28 > 0 && f.times_per_28 < CALENDAR_DAYS)) continue;
    unsigned days;
    size_t named = post_days_named(t, says(t, at, "on") ? at + 1 : at, &days) + (says(t, at, "on") ? 1 : 0);
    d->days = at, d->end = at + (named > f.tokens ? named : f.tokens); /* "Mon, Wed, Fri" */
    return true;
  }
  return false;
}

/* Where in sentence 'i' that food ends, with the amount behind it; 0. */
static size_t told_with_amount(struct story *st, size_t i, struct span food) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k < t->count; k++) {
    if (post_mention_at(st->r, t, k) == 0) continue;
    size_t end = post_food_end(st->r, t, k);
    if (end == k) continue;
    if (refer_same_food(food, tokens_span(t, k, end - k))) {
      size_t mark = is_mark(t, end, ',') || is_mark(t, end, ':') || is_mark(t, end, '-');
      struct post_amount behind = end + mark < t->count ? post_amount_at(t, end + mark) : (struct post_amount){0};
      bool before = false;
      for (size_t m = k > 5 ? k - 5 : 0; m < k; m++) before = before || post_amount_at(t, m).tokens > 0;
      if (!before && behind.tokens == 0) return 0;
      return before ? end : end + mark + behind.tokens;
    }
    k = end - 1;
  }
  return 0;
}

void refer_days_later(struct story *st) {
  for (size_t i = 1; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    struct days_later d;
    bool only = false;
    for (size_t k = 0; k < t->count && !only; k++) only = says(t, k, "only just");
    if (!only || !days_told_later(st, t, &d)) continue;
    struct tokens before = {t->item, d.food};
    if (post_any_amount(&before, 0)) continue;
    size_t where = 0, line = st->count;
    for (size_t m = i; m-- > 0 && where == 0;)
      if ((where = told_with_amount(st, m, tokens_span(t, d.food, d.food_end - d.food))) > 0) line = m;
    if (line == st->count) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 200);
    bool bare = says(t, d.days, "on at") || frequency_at(t, d.days).days == 0; /* "once a week" */
    buf_addf(&b, "%s%.*s", bare ? " " : " on ", SPAN_ARG(tokens_span(t, d.days, d.end - d.days)));
    struct tokens rest = {t->item, t->count};
    bool more = d.end < t->count && post_any_amount(&rest, d.end);
    refer_between(st, line, where, where, buf_text(&b));
    if (more)
      refer_between(st, i, 0, d.end, "");
    else
      refer_write(st, i, "");
  }
}
