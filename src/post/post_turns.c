/* Foods that take turns, written out food by food: "beef weeks 400 g beef, fish weeks 350 g cod", "turkey, pork or rabbit,
 * 300 g of whichever it is", "either 280 g lamb or 280 g beef, about half and half". */
#include "base/num.h"
#include "post/post_item.h"

enum { TURNS_MOST = 4 };

/* "beef weeks are", "fish days:": how many tokens before what is fed then; 0. */
static size_t turn_label(const struct tokens *t, size_t at, bool days_too) {
  if (!is_word(t, at) || says_a(t, at, CLASS_NO_TURN_LABEL) || quantity_at(t, at).fault == QUANTITY_FINE) return 0;
  if (!says(t, at + 1, days_too ? "weeks days" : "weeks")) return 0;
  size_t end = at + 2;
  while (is_mark(t, end, ':') || is_mark(t, end, ',') || is_mark(t, end, '-') || is_mark(t, end, '=') ||
         says(t, end, "are is it's its he she gets has eats"))
    end++;
  struct post_amount a = post_amount_at(t, end);
  return a.is_mass || a.is_volume ? end - at : 0;
}

static struct span without_daily_words(struct span s) {
  static const char *const DAILY[] = {" a day", " per day", " daily", " each day", " every day", "/day"};
  while (s.n > 0 && memchr(" ,;.:-", s.p[s.n - 1], 6)) s.n--;
  if (s.n > 4 && span_is_fold(span_cut(s, s.n - 4, s.n), " and")) s.n -= 4;
  while (s.n > 0 && memchr(" ,;.:-", s.p[s.n - 1], 6)) s.n--;
  for (size_t i = 0; i < COUNT_OF(DAILY); i++) {
    size_t n = strlen(DAILY[i]);
    if (s.n > n && span_is_fold(span_cut(s, s.n - n, s.n), DAILY[i])) s.n -= n;
  }
  return s;
}

/* "Beef weeks are 400 g of beef mince daily, fish weeks 350 g of pollock daily" */
static bool labelled_turns(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  size_t at[TURNS_MOST + 1], label[TURNS_MOST], count = 0, end = t->count;
  bool turns = holds_a(t, 0, t->count, CLASS_TAKING_TURNS);
  for (size_t i = 0; i < t->count; i++) {
    size_t used = turn_label(t, i, turns);
    if (used == 0) continue;
    if (count == TURNS_MOST) return false;
    at[count] = i;
    label[count++] = used;
  }
  if (count < 2) return false;
  at[count] = end;
  struct buf b;
  buf_init(&b, r->keep, text.n + 60 * count + 8);
  for (size_t k = 0; k < count; k++) {
    struct span piece = without_daily_words(tokens_span(t, at[k] + label[k], at[k + 1] - at[k] - label[k]));
    buf_addf(&b, "%s%.*s every ", k > 0 ? ", " : "", SPAN_ARG(piece));
    if (count == 2)
      buf_adds(&b, "other day");
    else
      buf_addf(&b, "%d days", (int)count);
  }
  *out = buf_span(&b);
  return true;
}

/* "turkey mince, pork mince, rabbit; 320 g a day of whichever it is" */
static bool of_whichever(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  struct span food[8];
  for (size_t i = 1; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0) continue;
    size_t behind = i + a.tokens;
    behind += frequency_at(t, behind).tokens;
    if (!(a.is_mass || a.is_volume) || a.low != a.high || phrase_of(t, behind, CLASS_OF_WHICHEVER) == 0) {
      i += a.tokens - 1;
      continue;
    }
    size_t to = i, from = 0;
    while (to > 0 && (t->item[to - 1].kind == TOKEN_MARK || says(t, to - 1, "he she gets has eats it's its about"))) to--;
    for (size_t k = 0; k < to; k++)
      if (is_mark(t, k, ':') || says_a(t, k, CLASS_BEFORE_LIST)) from = k + 1;
    size_t n = post_foods_listed(r, t, from, to, food);
    if (n < 2) return false;
    struct buf b;
    buf_init(&b, r->keep, text.n + n * 60);
    for (size_t k = 0; k < n; k++) {
      if (k > 0) buf_adds(&b, ", ");
      amount_write(&b, &a, 1 / (double)n);
      buf_addf(&b, " %.*s", SPAN_ARG(food[k]));
    }
    *out = buf_span(&b);
    return true;
  }
  return false;
}

/* "either 280 g of lamb or 280 g of beef, about half and half" */
static bool evenly_either(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  size_t even = t->count, either = t->count, or = t->count;
  for (size_t i = 0; i < t->count; i++) {
    if (even == t->count && phrase_of(t, i, CLASS_EVENLY) > 0) even = i;
    if (says(t, i, "either")) either = i;
    if (says(t, i, "or") && or == t->count && post_amount_at(t, i + 1).is_mass) or = i;
  }
  if (even == t->count || or == t->count || even < or) return false;
  size_t from = either < or ? either + 1 : 0;
  while (from < or &&!post_amount_at(t, from).is_mass) from++;
  if (from >= or) return false;
  struct span a = without_daily_words(tokens_span(t, from, or -from)),
              b = without_daily_words(tokens_span(t, or +1, even - or -1));
  struct buf w;
  buf_init(&w, r->keep, text.n + 60);
  buf_addf(&w, "%.*s every other day, %.*s every other day", SPAN_ARG(a), SPAN_ARG(b));
  *out = buf_span(&w);
  return true;
}

/* "in two of the four meals 5 g of liver": so many times a day. */
static bool in_some_meals(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i + 3 < t->count; i++) {
    struct quantity q =
        says(t, i, "in at with on for to") ? quantity_at(t, i + 1) : (struct quantity){.fault = QUANTITY_NONE};
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 1 && q.low <= 5) || says(t, i + 1, "a an")) continue;
    size_t at = i + 1 + q.tokens;
    if (!says(t, at, "of") || !says(t, at + 1, "the his her their these those")) continue;
    at += 2;
    struct quantity all = quantity_at(t, at);
    if (all.fault == QUANTITY_FINE) at += all.tokens;
    if (!says(t, at, "meals feeds bowls feedings")) continue;
    struct buf b;
    buf_init(&b, r->keep, text.n + 40);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[i].at.p - text.p)});
    num_sig(&b, q.low, 2);
    buf_adds(&b, q.low == 1 ? " time a day" : " times a day");
    const char *rest = t->item[at].at.p + t->item[at].at.n;
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}

/* "a banana, half of it anyway": the part of one. */
static bool half_of_it(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i < t->count; i++) {
    size_t food = says(t, i, "a an one 1") ? i + 1 : t->count, used = food < t->count ? post_mention_at(r, t, food) : 0;
    size_t at = food + used;
    double part = 0;
    if (used == 0) continue;
    if (is_mark(t, at, ',') || is_mark(t, at, '(') || is_mark(t, at, '-')) at++;
    if (says(t, at, "well only just or")) at++;
    size_t of = post_part_at(t, at, &part);
    if (of == 0 || !says(t, at + of, "of") || !says(t, at + of + 1, "it one")) continue;
    struct buf b;
    buf_init(&b, r->keep, text.n + 40);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[i].at.p - text.p)});
    num_sig(&b, part, 4);
    buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(t, food, used)));
    size_t end = at + of + 1;
    while (says(t, end + 1, "anyway though only really") || is_mark(t, end + 1, ')')) end++;
    const char *rest = t->item[end].at.p + t->item[end].at.n;
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}

/* "chicken down to 350 g", "rice now up to 80 g": what is fed now; a limit ("up to 80 g of rice") stands before its food. */
static bool changed_to(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 1; i + 2 < t->count; i++) {
    size_t now = says(t, i, "now is has gone went came going") ? i + 1 : i;
    bool change = says(t, now, "down up") && says(t, now + 1, "to") && post_amount_at(t, now + 2).is_mass;
    size_t food = i;
    while (change && food > 0 && food + 3 > i && post_mention_at(r, t, food) == 0) food--;
    size_t used = change ? post_mention_at(r, t, food) : 0;
    if (used == 0 || (food + used != i && food + used + 1 != i)) continue;
    if (says(t, now, "up") && now == i && r->entries == 0 && !holds_a(t, 0, t->count, CLASS_OF_NOW)) continue;
    struct buf b;
    buf_init(&b, r->keep, text.n + 4);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[i].at.p - text.p)});
    const char *rest = t->item[now + 2].at.p;
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}

/* "one egg yolk on Mondays and one on Thursdays": on both days. */
static bool and_one_on(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 2; i + 3 < t->count; i++) {
    const char *day;
    bool one = says(t, i, "and") && says(t, i + 1, "one another 1") && says(t, i + 2, "on") &&
               meaning_at(t, i + 3, CLASS_DAY_OF_WEEK, &day) > 0 && meaning_at(t, i - 1, CLASS_DAY_OF_WEEK, &day) > 0;
    if (!one) continue;
    struct buf b;
    buf_init(&b, r->keep, text.n + 4);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[i + 1].at.p - text.p)});
    const char *rest = t->item[i + 3].at.p;
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}

bool post_turns_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  bool may = false; /* most sentences say none of it */
  for (size_t i = 0; i < t->count && !may; i++)
    may =
        says(t, i, "weeks days whichever whatever either or meals feeds bowls feedings down up one another it day's week's");
  return may && (labelled_turns(r, t, text, out) || of_whichever(r, t, text, out) || evenly_either(r, t, text, out) ||
                 in_some_meals(r, t, text, out) || half_of_it(r, t, text, out) || changed_to(r, t, text, out) ||
                 and_one_on(r, t, text, out));
}
