/* Ordinary ways to write that the readers of a line know in another order: "rice 60 g dry", "every 3rd day", "Sundays just a
 * lamb neck", "since last Monday", "(if there's no carrot, parsnip)", "my mum's dog", "2 cups morning and 2 cups night",
 * "the same except it's 100 g of chicken and not cod". */
#include "base/num.h"
#include "post/refer/post_refer.h"

static bool ends_piece(const struct tokens *t, size_t at) {
  return at >= t->count || t->item[at].kind == TOKEN_MARK || says(t, at, "and plus");
}

/* "rice 60 g dry, peas 20 g" */
static void dry_behind(struct story *st, size_t i) {
  for (size_t k = 1; k + 1 < st->s[i].t.count; k++) {
    const struct tokens *t = &st->s[i].t;
    struct post_amount a = is_number(t, k) ? post_amount_at(t, k) : (struct post_amount){0};
    size_t dry = k + a.tokens;
    if (!(a.is_mass || a.is_volume) || !says(t, dry, "dry") || !ends_piece(t, dry + 1)) continue;
    size_t from = k;
    while (from > 0 && is_word(t, from - 1) && k - from < 4) from--;
    if (from == k || !post_names_food(st->r, t, from, k)) continue;
    refer_between(st, i, dry, dry + 1, "(dry)");
  }
}

/* "every 3rd day" */
static void ordinals(struct story *st, size_t i) {
  static const char *const WORD[] = {"", "", "second", "third", "fourth", "fifth", "sixth", "seventh"};
  for (size_t k = 1; k + 2 < st->s[i].t.count; k++) {
    const struct tokens *t = &st->s[i].t;
    if (!says(t, k - 1, "every each") || !is_number(t, k) || !says(t, k + 1, "nd rd th") || !says(t, k + 2, "day days week"))
      continue;
    double n = t->item[k].value;
    if (n >= 3 && n <= 7 && n == floor(n)) refer_between(st, i, k, k + 2, WORD[(int)n]);
  }
}

/* "since last Monday", "as of Tuesday", "starting Monday": when it began, and no day of its own. */
static void since_a_day(struct story *st, size_t i) {
  const char *day;
  const struct tokens *t = &st->s[i].t;
  if (holds_a(t, 0, t->count, CLASS_NOT_EATING)) return; /* "won't eat since Tuesday": how long is what matters */
  for (size_t k = 0; k + 1 < t->count; k++) {
    size_t at = says(t, k, "since starting started") ? k + 1 : says(t, k, "as") && says(t, k + 1, "of") ? k + 2 : 0;
    if (at == 0) continue;
    while (says(t, at, "last this on the past")) at++;
    if (meaning_at(t, at, CLASS_DAY_OF_WEEK, &day) == 0 || says(t, at + 1, "to till until and or") ||
        is_mark(t, at + 1, '-'))
      continue;
    refer_between(st, i, k, at + 1, "");
    return;
  }
}

/* "Sundays just a lamb neck": he gets nothing else then. */
static void just_that_day(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  unsigned days;
  size_t on = says(t, 0, "on") ? 1 : 0, at = on;
  at += post_days_named(t, at, &days);
  if (at == on) return;
  while (at < t->count && (is_mark(t, at, ':') || is_mark(t, at, ',') || is_mark(t, at, '-') || says(t, at, "it's its is")))
    at++;
  size_t only = at;
  if (!says(t, at, "just only")) return;
  at++;
  if (!post_names_food(st->r, t, at, t->count)) return;
  for (size_t k = at; k < t->count; k++)
    if (is_word(t, k) && token_is_a(&t->item[k], CLASS_MEAL)) return; /* of a meal alone */
  refer_between(st, i, only, only + 1, "he only gets");
}

/* "(if there's no carrot, parsnip)" behind an amount: at times another food, and told. */
static void other_at_times(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 2; k + 3 < t->count; k++) {
    size_t end = k + 1;
    bool when = false;
    if (!is_mark(t, k, '(')) continue;
    while (end < t->count && !is_mark(t, end, ')')) {
      when = when || says(t, end, "if when whenever");
      end++;
    }
    struct tokens in = tokens_part(t, k + 1, end < t->count ? end : t->count), before = {t->item, k};
    if (!when || end >= t->count || post_any_amount(&in, 0) || !post_any_amount(&before, 0)) continue;
    if (!post_names_food(st->r, t, k + 1, end)) continue;
    st->r->line = st->s[i].line;
    post_note(st->r, tokens_span(t, k + 1, end - k - 1), "at times, in the place of another food");
    st->r->line = 0;
    refer_between(st, i, k, end + 1, "");
    return;
  }
}

/* "Meal one", "meal two": the first and the second. */
static void numbered_meals(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  if (!says(t, 0, "meal feed")) return;
  const char *which = says(t, 1, "one")     ? "First meal"
                      : says(t, 1, "two")   ? "Second meal"
                      : says(t, 1, "three") ? "Third meal"
                                            : NULL;
  if (which && (is_mark(t, 2, ':') || says(t, 2, "is") || is_mark(t, 2, '-'))) refer_between(st, i, 0, 2, which);
}

/* "the same except it's 100 g of chicken and not cod", "same but 50 g oats instead of the rice": as everybody else writes
 * it.
 */
static void same_except(struct story *st, size_t i) {
  enum { FAR = 10 };
  const struct tokens *t = &st->s[i].t;
  unsigned days;
  if (post_days_named(t, says(t, 0, "on") ? 1 : 0, &days) > 0) return; /* of a day: post_other_day.c */
  for (size_t k = 0; k + 4 < t->count; k++) {
    if (!says(t, k, "same ditto")) continue;
    size_t at = k + 1, from, gone, end;
    if (says(t, at, "again thing")) at++;
    if (is_mark(t, at, ',')) at++;
    if (!says(t, at, "but except only just")) continue;
    while (says(t, at, "but except only just that it's its it is with he she gets has this time")) at++;
    struct post_amount a = post_amount_at(t, at);
    if (a.tokens == 0 || a.is_percent) continue;
    for (from = at, gone = 0; at < from + FAR && at < t->count && gone == 0 && t->item[at].kind != TOKEN_MARK; at++) {
      if (says(t, at, "instead") && says(t, at + 1, "of")) gone = at + 2;
      if (says(t, at, "not") || (says(t, at, "rather") && says(t, at + 1, "than")))
        gone = says(t, at, "not") ? at + 1 : at + 2;
      if (phrase_at(t, at, "in place of") > 0) gone = at + 3;
      if (gone > 0) break;
    }
    if (gone == 0) continue;
    size_t last = at;
    while (last > from && says(t, last - 1, "and but")) last--;
    while (says(t, gone, "the his her")) gone++;
    for (end = gone; end < t->count && end < gone + 4 && is_word(t, end) && !says(t, end, "and plus with but"); end++) {
    }
    if (end == gone || !post_names_food(st->r, t, gone, end) || !post_names_food(st->r, t, from, last)) continue;
    struct buf b;
    buf_init(&b, st->r->arena, st->s[i].text.n + 60);
    buf_addf(&b, "but no %.*s, %.*s instead", SPAN_ARG(tokens_span(t, gone, end - gone)),
             SPAN_ARG(tokens_span(t, from, last - from)));
    refer_between(st, i, k + 1, end, buf_text(&b));
    return;
  }
}

/* "2 cups in the morning and 2 cups at night" of what stands above: so many a day. */
static void cups_at_meals(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 3 < t->count; k++) {
    struct post_amount a = post_amount_at(t, k);
    size_t at = k + a.tokens;
    if (!a.is_volume || a.low != a.high || strcmp(a.unit, "cup") != 0) continue;
    while (says(t, at, "in the at for")) at++;
    if (!is_word(t, at) || !token_is_a(&t->item[at], CLASS_MEAL)) continue;
    size_t next = at + 1;
    while (next < t->count && (is_mark(t, next, ',') || is_mark(t, next, '+') || says(t, next, "and plus"))) next++;
    struct post_amount more = next < t->count ? post_amount_at(t, next) : (struct post_amount){0};
    size_t end = next + more.tokens;
    if (!more.is_volume || strcmp(more.unit, a.unit) != 0 || more.low != more.high) continue;
    while (says(t, end, "in the at for")) end++;
    if (!is_word(t, end) || !token_is_a(&t->item[end], CLASS_MEAL)) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 60);
    num_sig(&b, a.low + more.low, 4);
    buf_adds(&b, " cups a day");
    refer_between(st, i, k, end + 1, buf_text(&b));
    return;
  }
}

/* "My mum's dog Jock ...", and no other animal is told of anywhere: it is that one. */
static void whose_dog(struct story *st) {
  size_t where = st->count, at = 0;
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    for (size_t k = 0; k < t->count; k++) {
      enum species s;
      if (says(t, k, "mine ours other")) return;
      if (!is_word(t, k) || !is_animal_word(t->item[k].word, &s)) continue;
      struct span w = k > 1 && is_word(t, k - 1) ? t->item[k - 1].word : (struct span){"", 0};
      bool owned = w.n > 3 && (w.p[w.n - 1] == '\'' || w.p[w.n - 2] == '\'') && says(t, k - 2, "my our");
      if (!owned || where < st->count) return;
      where = i, at = k - 1;
    }
  }
  if (where < st->count) refer_between(st, where, at, at + 1, "");
}

void refer_ordinary(struct story *st) {
  whose_dog(st);
  for (size_t i = 0; i < st->count; i++) {
    bool dry = false, every = false, since = false, bracket = false, same = false, cups = false;
    for (size_t k = 0; k < st->s[i].t.count; k++) {
      const struct tokens *t = &st->s[i].t;
      dry = dry || says(t, k, "dry");
      every = every || says(t, k, "every each");
      since = since || says(t, k, "since starting started as");
      bracket = bracket || says(t, k, "if when whenever");
      same = same || says(t, k, "same ditto");
      cups = cups || says(t, k, "cups cup");
    }
    if (dry) dry_behind(st, i);
    if (every) ordinals(st, i);
    if (since) since_a_day(st, i);
    if (bracket) other_at_times(st, i);
    if (same) same_except(st, i);
    if (cups) cups_at_meals(st, i);
    if (st->s[i].t.count > 2) just_that_day(st, i);
    if (st->s[i].t.count > 2) numbered_meals(st, i);
  }
}
