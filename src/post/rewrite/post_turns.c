/* Foods that take turns, written out food by food: "beef weeks 400 g beef, fish weeks 350 g cod", "turkey, pork or rabbit,
 * 300 g of whichever it is", "either 280 g lamb or 280 g beef, about half and half". */
#include "base/num.h"
#include "post/rewrite/post_rewrite.h"

enum { TURNS_MOST = 4 };

/* "beef weeks are", "fish days:": how many tokens before what is fed then; 0. */
static size_t turn_label(const struct tokens *t, size_t at, bool days_too) {
  if (says(t, at, "weeks") && is_number(t, at + 1) && (says(t, at + 2, "and") || is_mark(t, at + 2, '&')) &&
      is_number(t, at + 3))
    return is_mark(t, at + 4, ':') ? 5 : 4; /* "weeks 1 and 3 beef mince 400 g" */
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

/* Foods in [from, to) with ',', "or", "the next" between: each that is named, without what leads to it. */
static size_t foods_in_turn(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct span *out) {
  enum { WORDS_MOST = 6 };
  size_t n = 0, begin = from;
  for (size_t i = from; i <= to; i++) {
    bool ends = i == to || t->item[i].kind == TOKEN_MARK || says(t, i, "or and then n");
    if (!ends) continue;
    size_t next = 1;
    while (begin < i && next > 0) {
      next = phrase_of(t, begin, CLASS_SECOND_TURN) + phrase_of(t, begin, CLASS_FIRST_TURN);
      if (next == 0 && (token_is_a(&t->item[begin], CLASS_CHATTER) || says(t, begin, "either week weeks"))) next = 1;
      begin += next;
    }
    if (begin < i && (i - begin > WORDS_MOST || post_any_amount(&(struct tokens){t->item, i}, begin))) return 0;
    if (begin < i && !post_names_food(r, t, begin, i)) return 0;
    if (begin < i && n < 8) out[n++] = tokens_span(t, begin, i - begin);
    begin = i + 1;
  }
  return n;
}

static struct span each_of_them(struct post_reader *r, struct span text, const struct post_amount *a,
                                const struct span *food, size_t n, struct span behind) {
  struct buf b;
  buf_init(&b, r->keep, 2 * text.n + n * 60);
  for (size_t k = 0; k < n; k++) {
    if (k > 0) buf_adds(&b, ", ");
    amount_write(&b, a, 1 / (double)n);
    buf_addf(&b, " %.*s", SPAN_ARG(food[k]));
  }
  buf_add(&b, behind);
  return buf_span(&b);
}

/* "turkey mince, pork mince, rabbit; 320 g a day of whichever it is", "300 g of meat a day, that's beef, lamb or pork" */
static bool of_whichever(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  struct span food[8];
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0) continue;
    size_t behind = i + a.tokens;
    if (says(t, behind, "of")) behind++;
    size_t kind = says(t, behind, "meat protein mince fish") && !(a.is_percent) ? behind + 1 : 0;
    behind = kind > 0 ? kind : i + a.tokens;
    behind += frequency_at(t, behind).tokens;
    bool weighed = (a.is_mass || a.is_volume) && a.low == a.high;
    size_t which = phrase_of(t, behind, CLASS_OF_WHICHEVER);
    if (weighed && which > 0 && i > 0) {
      size_t to = i, from = 0;
      while (to > 0 && (t->item[to - 1].kind == TOKEN_MARK || says(t, to - 1, "he she gets has eats it's its about"))) to--;
      for (size_t k = 0; k < to; k++)
        if (is_mark(t, k, ':') || says_a(t, k, CLASS_BEFORE_LIST)) from = k + 1;
      size_t n = foods_in_turn(r, t, from, to, food);
      if (n < 2) return false;
      size_t end = behind + which;
      while (end < t->count && t->item[end].kind != TOKEN_MARK) end++;
      const char *rest = end < t->count ? t->item[end].at.p : text.p + text.n;
      *out = each_of_them(r, text, &a, food, n, (struct span){rest, (size_t)(text.p + text.n - rest)});
      return true;
    }
    size_t to = behind, or = t->count;
    while (kind > 0 &&
           (t->item[to < t->count ? to : 0].kind == TOKEN_MARK || says(t, to, "that's thats which is either so it's")))
      to++;
    size_t end = to;
    while (end < t->count && !says_a(t, end, CLASS_DEPENDING) && !is_mark(t, end, '(') && !is_mark(t, end, ')') &&
           !is_mark(t, end, '.')) {
      if (says(t, end, "or")) or = end;
      end++;
    }
    if (kind > 0 && weighed && to > behind && or < end) {
      size_t n = foods_in_turn(r, t, to, end, food);
      if (n >= 2) {
        *out = each_of_them(r, text, &a, food, n, (struct span){"", 0});
        return true;
      }
    }
    i += a.tokens - 1;
  }
  return false;
}

/* "250 g lamb 4 days a week and 250 g cod the other three": so many days as well. */
static bool the_other_days(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  double days = 0;
  for (size_t i = 0; i + 2 < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    bool of_days = q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 1 && q.low <= 6;
    if (of_days && says(t, i + q.tokens, "days day times") && says(t, i + q.tokens + 1, "a per of in")) days = q.low;
    if (!(days > 0) || !says(t, i, "the") || !says(t, i + 1, "other remaining")) continue;
    struct quantity left = quantity_at(t, i + 2);
    size_t end = i + 2 + left.tokens;
    if (left.fault != QUANTITY_FINE || left.low + days != 7) continue;
    if (says(t, end, "days")) end++;
    size_t from = i > 0 && says(t, i - 1, "on for") ? i - 1 : i;
    struct buf b;
    buf_init(&b, r->keep, text.n + 30);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[from].at.p - text.p)});
    num_sig(&b, left.low, 2);
    buf_adds(&b, " days a week");
    const char *rest = t->item[end - 1].at.p + t->item[end - 1].at.n;
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
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

/* "as AM plus 10 g of liver", "same as breakfast": that meal once more. */
static bool as_other_meal(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  size_t at = says(t, 0, "the") ? 1 : 0, as = says(t, at, "same") ? at + 1 : at;
  if (!says(t, as, "as like")) return false;
  as++;
  if (says(t, as, "at in for")) as++;
  if (says(t, as, "the")) as++;
  if (!is_word(t, as) || !token_is_a(&t->item[as], CLASS_MEAL)) return false;
  struct buf b;
  buf_init(&b, r->keep, text.n + 12);
  size_t rest = as + 1;
  if (says(t, rest, "but")) rest++;
  if (says(t, rest, "plus with and")) rest++;
  buf_adds(&b, "the same");
  if (rest < t->count)
    buf_addf(&b, says_a(t, rest, CLASS_LEAVES_OUT) ? " %.*s" : ", %.*s",
             SPAN_ARG(((struct span){t->item[rest].at.p, (size_t)(text.p + text.n - t->item[rest].at.p)})));
  *out = buf_span(&b);
  return true;
}

bool post_turns_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  bool may = false; /* most sentences say none of it */
  for (size_t i = 0; i < t->count && !may; i++)
    may =
        says(t, i, "weeks days whichever whatever either or meals feeds bowls feedings down up one another it day's week's");
  if (as_other_meal(r, t, text, out)) return true;
  return may && (labelled_turns(r, t, text, out) || of_whichever(r, t, text, out) || evenly_either(r, t, text, out) ||
                 in_some_meals(r, t, text, out) || half_of_it(r, t, text, out) || changed_to(r, t, text, out) ||
                 and_one_on(r, t, text, out) || the_other_days(r, t, text, out));
}
