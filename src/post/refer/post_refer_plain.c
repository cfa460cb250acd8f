/* More ordinary ways to write: shares of lean meat ("55 % lean pork, 25 % sweet potato"), how long it has been so (", for a
 * year"), "Per meal (2 a day):", "mix for 3 days = 300 g turkey", "a 1 kg bag of carrots of which he gets half". */
#include "base/num.h"
#include "post/refer/post_refer.h"

/* "55% lean pork, 25% sweet potato": a share among shares; "90% lean beef" alone tells how lean it is. */
static void lean_share(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  double sum = 0;
  size_t shares = 0, lean = 0;
  for (size_t k = 0; k + 1 < t->count; k++) {
    if (!is_number(t, k) || !is_mark(t, k + 1, '%')) continue;
    sum += t->item[k].value, shares++;
    if (says(t, k + 2, "lean") && is_word(t, k + 3)) lean = k + 2;
  }
  if (lean == 0 || shares < 2 || !(sum > 95 && sum < 105)) return;
  refer_between(st, i, lean, lean + 1, "");
}

/* "..., for a year", "for years now": how long it has been so. */
static void for_years(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 1 < t->count; k++) {
    size_t at = k + 1;
    if (!says(t, k, "for")) continue;
    while (says(t, at, "a an the over about almost nearly many several some past last few two three four five six") ||
           is_number(t, at))
      at++;
    if (!says(t, at, "year years ages yrs")) continue;
    at++;
    if (says(t, at, "now")) at++;
    if (at < t->count && t->item[at].kind != TOKEN_MARK) continue;
    struct tokens before = {t->item, k};
    if (!post_any_amount(&before, 0)) continue;
    refer_between(st, i, is_mark(t, k - 1, ',') ? k - 1 : k, at, "");
    return;
  }
}

/* "Per meal (2 a day): ..." */
static void meals_in_bracket(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  if (!says(t, 0, "per each every") || !says(t, 1, "meal feed feeding") || !is_mark(t, 2, '(')) return;
  struct quantity q = quantity_at(t, 3);
  size_t end = 3 + q.tokens;
  if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 2 && q.low <= 6)) return;
  if (says(t, end, "x times of them meals")) end++;
  if (says(t, end, "a per each") && says(t, end + 1, "day"))
    end += 2;
  else if (says(t, end, "daily"))
    end++;
  else
    return;
  if (!is_mark(t, end, ')')) return;
  struct buf b;
  buf_init(&b, st->r->arena, 60);
  num_sig(&b, q.low, 1);
  buf_addf(&b, " meals a day%cPer meal", 0x1F);
  refer_between(st, i, 0, end + 1, buf_text(&b));
}

/* "Mix for 3 days = 300 g turkey": a colon. */
static void equals_behind_days(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 3; k + 1 < t->count; k++) {
    if (!is_mark(t, k, '=') || !says(t, k - 1, "days day week weeks") || post_amount_at(t, k + 1).tokens == 0) continue;
    bool length = says(t, k - 3, "for") || says(t, k - 2, "for");
    if (length) refer_between(st, i, k, k + 1, ":");
    return;
  }
}

/* "a 1 kg bag of carrots of which he gets half": so much of it. */
static void of_which_a_part(struct story *st, size_t i) {
  enum { FAR = 9 };
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 3; k + 4 < t->count; k++) {
    double part;
    if (!says(t, k, "of") || !says(t, k + 1, "which") || !says(t, k + 2, "he she it they") ||
        !says_a(t, k + 3, CLASS_EATER_VERB))
      continue;
    size_t used = post_part_at(t, k + 4, &part), found = t->count;
    if (used == 0 || !(part > 0 && part < 1)) continue;
    for (size_t m = k > FAR ? k - FAR : 0; m < k; m++) {
      struct post_amount a = post_amount_at(t, m);
      if (a.is_mass && is_number(t, m) && a.low == a.high) found = m;
    }
    if (found == t->count) continue;
    struct post_amount a = post_amount_at(t, found);
    size_t from = k;
    if (is_mark(t, from - 1, ',')) from--;
    struct buf b;
    buf_init(&b, st->r->arena, 60);
    amount_write(&b, &a, part);
    const char *now = arena_text(st->r->keep, buf_span(&b));
    refer_between(st, i, from, k + 4 + used, "");
    refer_between(st, i, found, found + a.tokens, now);
    return;
  }
}

/* "chicken 200, rice 150, peas 60 (all grams) x2 a day": both are said of all. */
static void all_grams_each_time(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 2; k + 3 < t->count; k++) {
    size_t at = k + 2, often;
    if (!is_mark(t, k, '(') || !says(t, k + 1, "all")) continue;
    if (says(t, at, "in")) at++;
    if (!says(t, at, "grams g gr gms") || !is_mark(t, at + 1, ')')) continue;
    often = at + 2;
    struct frequency f = often < t->count ? frequency_at(t, often) : (struct frequency){0};
    size_t end = often + f.tokens;
    if (f.tokens == 0 || f.refuse || !(f.feedings > 1) || (end < t->count && t->item[end].kind != TOKEN_MARK)) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 120);
    buf_addf(&b, ", %.*s%cAll in grams", SPAN_ARG(tokens_span(t, often, f.tokens)), 0x1F);
    refer_between(st, i, k, end, buf_text(&b));
    return;
  }
}

/* "M W F - 400 g beef", "MWF: ...", "T/Th ...", "SS ...": days by their letters, before an amount; tokens, 0. */
static size_t letters_at(const struct tokens *t, size_t at, const char **days) {
  static const struct {
    const char *letters[3], *joined, *days;
  } GROUP[] = {{{"m", "w", "f"}, "mwf", "Mon, Wed, Fri"},
               {{"t", "t th", NULL}, "tt tth", "Tue, Thu"},
               {{"s", "s", NULL}, "ss", "Sat, Sun"}};
  if (at > 0 && t->item[at - 1].kind != TOKEN_MARK) return 0;
  for (size_t g = 0; g < COUNT_OF(GROUP); g++) {
    size_t i = at, n = 0;
    if (says(t, at, GROUP[g].joined)) {
      i = at + 1;
    } else {
      for (; n < 3 && GROUP[g].letters[n] && says(t, i, GROUP[g].letters[n]); n++) {
        i++;
        if (n + 1 < 3 && GROUP[g].letters[n + 1] && (is_mark(t, i, '/') || is_mark(t, i, ',') || is_mark(t, i, '&'))) i++;
      }
      if (n < 3 && GROUP[g].letters[n]) continue;
    }
    size_t behind = i;
    if (is_mark(t, behind, '-') || is_mark(t, behind, ':') || is_mark(t, behind, '=')) behind++;
    if (behind >= t->count || post_amount_at(t, behind).tokens == 0) continue;
    *days = GROUP[g].days;
    return behind - at;
  }
  return 0;
}

/* Of two groups at least: one alone may be anything. */
static void days_by_letters(struct story *st) {
  size_t groups = 0;
  const char *days;
  for (size_t i = 0; i < st->count; i++)
    for (size_t k = 0; k < st->s[i].t.count; k++) groups += letters_at(&st->s[i].t, k, &days) > 0;
  for (size_t i = 0; i < st->count && groups >= 2; i++)
    for (size_t k = 0; k < st->s[i].t.count; k++) {
      size_t used = letters_at(&st->s[i].t, k, &days);
      if (used == 0) continue;
      struct buf b;
      buf_init(&b, st->r->arena, 40);
      buf_addf(&b, "%s:", days);
      refer_between(st, i, k, k + used, buf_text(&b));
      if (k > 0) refer_split(st, i, k);
      break;
    }
}

/* "Sunday: no mince, 2 eggs instead, rest as always": as on the other days, with what is otherwise. */
static void rest_as_always(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  unsigned days;
  size_t on = says(t, 0, "on") ? 1 : 0, head = on + post_days_named(t, on, &days), end = t->count;
  if (head == on || t->count < head + 5) return;
  for (size_t k = head + 2; k + 1 < t->count && end == t->count; k++) {
    size_t at = k;
    if (says(t, at, "the") && says(t, at + 1, "rest")) at++;
    bool rest = says(t, at, "rest") || (says(t, at, "everything all") && says(t, at + 1, "else"));
    if (!rest) continue;
    at += says(t, at, "rest") ? 1 : 2;
    while (says(t, at, "is stays the")) at++;
    bool as = says(t, at, "same unchanged") ||
              (says(t, at, "as like") && says(t, at + 1, "always usual ever before normal on the in"));
    if (as) end = k;
  }
  if (end == t->count) return;
  size_t last = end, first = head;
  while (last > head && (t->item[last - 1].kind == TOKEN_MARK || says(t, last - 1, "and but"))) last--;
  while (first < last && t->item[first].kind == TOKEN_MARK) first++;
  if (first >= last) return;
  struct buf b;
  buf_init(&b, st->r->arena, st->s[i].text.n + 60);
  buf_addf(&b, "%.*s: same, %.*s", SPAN_ARG(tokens_span(t, 0, head)), SPAN_ARG(tokens_span(t, first, last - first)));
  refer_write(st, i, buf_text(&b));
}

void refer_plain(struct story *st) {
  days_by_letters(st);
  for (size_t i = 0; i < st->count; i++) {
    bool lean = false, years = false, equals = false, which = false, grams = false;
    for (size_t k = 0; k < st->s[i].t.count; k++) {
      const struct tokens *t = &st->s[i].t;
      lean = lean || says(t, k, "lean");
      years = years || says(t, k, "year years ages yrs");
      equals = equals || is_mark(t, k, '=');
      which = which || says(t, k, "which");
      grams = grams || says(t, k, "grams g gr gms");
    }
    if (lean) lean_share(st, i);
    if (years) for_years(st, i);
    if (equals) equals_behind_days(st, i);
    if (which) of_which_a_part(st, i);
    if (grams) all_grams_each_time(st, i);
    if (st->s[i].t.count > 6) meals_in_bracket(st, i), rest_as_always(st, i);
  }
}
