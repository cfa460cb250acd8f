/* How often a day, told apart from the foods: "Feeding frequency f = 2/d. Per feeding: ...", "Sunday: f = 1/d", "this is for
 * one time, and such times two in day". */
#include "base/num.h"
#include "post/refer/post_refer.h"

static const char *begin_of(const struct tokens *t, size_t at) { return t->item[at].at.p; }
static const char *end_of(const struct tokens *t, size_t at) { return t->item[at].at.p + t->item[at].at.n; }

/* "2", "two", "2x": how many feedings; the tokens, 0 none. */
static size_t few_at(const struct tokens *t, size_t at, double *count) {
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < 1 || q.low > 6 || q.low != floor(q.low)) return 0;
  *count = q.low;
  return q.tokens;
}

/* "/d", "/day", "per day", "a day", "in the day", "daily", "every day": the tokens; 0. */
static size_t a_day_at(const struct tokens *t, size_t at) {
  size_t from = at;
  if (says(t, at, "daily")) return 1;
  if (is_mark(t, at, '/') || says(t, at, "per a in each every")) at++;
  if (at == from) return 0;
  if (says(t, at, "the a each every")) at++;
  return says(t, at, "day d") ? at + 1 - from : 0;
}

/* ---- "f = 2/d" ---- */

/* A sentence that tells how often and nothing else: "Feeding frequency f = 2/d", "n = 2 feedings per day", "Feeds per day:
 * 2".
 */
/* Behind days the number alone will do: "Saturday: 2x". */
static bool tells_frequency(const struct tokens *t, size_t from, double *count) {
  bool named = from > 0;
  size_t numbers = 0;
  for (size_t i = from; i < t->count; i++) {
    double number;
    size_t few = says(t, i, "a an") ? 0 : few_at(t, i, &number);
    if (few > 0) {
      *count = number;
      numbers++;
      i += few - 1;
      continue;
    }
    if (t->item[i].kind == TOKEN_MARK) continue;
    size_t day = a_day_at(t, i);
    if (day > 0) {
      i += day - 1;
      continue;
    }
    bool word = says_a(t, i, CLASS_FEEDING_RATE);
    bool letter = t->item[i].at.n == 1 && is_word(t, i) && is_mark(t, i + 1, '=');
    if (!word && !letter && !says(t, i, "d day per of is times x the a he she it they eats gets has only just"))
      return false;
    named = named || word || letter || says(t, i, "only"); /* "on Fridays only two" */
  }
  return numbers == 1 && named;
}

/* "Per feeding:", "Each feeding:", "One feed =": the tokens to the foods; 0. */
static size_t one_feeding_at(const struct tokens *t, size_t from) {
  size_t at = says(t, from, "at") ? from + 1 : from;
  if (says(t, at, "each") && says(t, at + 1, "is has contains")) return at + 2; /* of the meals told before */
  if (says(t, at, "portion meal serving") && is_mark(t, at + 1, ':')) return at + 2;
  if (!says(t, at, "per each every one a") || !says(t, at + 1, "feeding feed meal bowl portion serving")) return 0;
  at += 2;
  if (says(t, at, "is has contains")) return at + 1;
  if (at < t->count && is_number(t, at) && post_amount_at(t, at).is_mass) return at;
  return is_mark(t, at, ':') || is_mark(t, at, '=') || is_mark(t, at, '-') ? at + 1 : 0;
}

static size_t one_feeding(const struct tokens *t) { return one_feeding_at(t, 0); }

/* "Feeding rate 3 per day, per feeding 50 g rabbit": two sentences. */
static void feedings_apart(struct story *st) {
  for (size_t i = 0; i < st->count; i++)
    for (size_t k = 2; k + 2 < st->s[i].t.count; k++) {
      const struct tokens *t = &st->s[i].t;
      double count;
      struct tokens before = {t->item, k - 1};
      if (!is_mark(t, k - 1, ',') && !is_mark(t, k - 1, ';')) continue;
      if (one_feeding_at(t, k) == 0 || !tells_frequency(&before, 0, &count)) continue;
      if (refer_split(st, i, k)) break;
    }
}

struct feeding {
  double a_day, on_days; /* feedings; on the days of an exception, 0 none */
  unsigned days;
  size_t told_at, exception_at; /* sentences */
};

/* Both from all sentences; false where nobody tells it, or two tell it. */
static bool find_frequency(struct story *st, struct feeding *f) {
  *f = (struct feeding){.told_at = st->count, .exception_at = st->count};
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    unsigned days;
    double count = 0;
    size_t at = says(t, 0, "on") ? 1 : 0, day = post_days_named(t, at, &days);
    if (!tells_frequency(t, day > 0 ? at + day : 0, &count)) continue;
    if (day > 0) {
      if (f->told_at == st->count || f->exception_at < st->count) return false;
      f->on_days = count, f->days = days, f->exception_at = i;
    } else {
      if (f->told_at < st->count) return false;
      f->a_day = count, f->told_at = i;
    }
  }
  return f->told_at < st->count;
}

static void write_feedings(struct story *st, const struct feeding *f) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    size_t from = one_feeding(t);
    if (from == 0 || !post_any_amount(t, from)) continue;
    struct buf b;
    buf_init(&b, st->r->arena, REFER_MOST_BYTES);
    if (f->days == 0) {
      buf_addf(&b, "At each meal: %.*s", SPAN_ARG(tokens_span(t, from, t->count - from)));
      refer_write(st, i, buf_text(&b));
      continue;
    }
    int on_days = __builtin_popcount(f->days);
    double a_week = f->a_day * (7 - on_days) + f->on_days * on_days;
    buf_adds(&b, "A week: ");
    refer_scaled(&b, t, from, t->count, a_week);
    struct buf note;
    buf_init(&note, st->r->keep, 100);
    num_sig(&note, a_week, 3);
    buf_adds(&note, " feedings a week, as the post says, of what it gives for each");
    refer_write(st, i, buf_text(&b));
    refer_beside(st, i, (struct span){"", 0}, buf_text(&note));
  }
}

static void frequency_apart(struct story *st) {
  struct feeding f;
  bool feeding = false;
  feedings_apart(st);
  for (size_t i = 0; i < st->count && !feeding; i++) feeding = one_feeding(&st->s[i].t) > 0;
  if (!feeding || !find_frequency(st, &f) || (f.a_day == 1 && f.days == 0)) return;
  write_feedings(st, &f);
  struct buf b;
  buf_init(&b, st->r->arena, REFER_MOST_BYTES);
  num_sig(&b, f.a_day, 2);
  buf_adds(&b, " meals a day");
  refer_write(st, f.told_at, f.days == 0 ? buf_text(&b) : "");
  if (f.exception_at < st->count) refer_write(st, f.exception_at, "");
}

/* ---- "this is for one time, and such times two in day" ---- */

/* "this is for one time", "so much for one feeding": the tokens; 0. */
static size_t for_one_time(const struct tokens *t, size_t at) {
  size_t from = at;
  if (says(t, at, "and so") && says(t, at + 1, "this that it")) at++;
  if (says(t, at, "this that it"))
    at++;
  else if (says(t, at, "so") && says(t, at + 1, "much"))
    at += 2;
  else if (says(t, at, "that's it's"))
    at++;
  else
    return 0;
  if (says(t, at, "is")) at++;
  if (!says(t, at, "for") || !says(t, at + 1, "one a")) return 0;
  return says_a(t, at + 2, CLASS_ONE_FEEDING) ? at + 3 - from : 0;
}

/* "such times two in day", "portions are two in a day", "he eats so two times a day", "and such feedings are three every
 * day": the tokens, with how many; 0. */
static size_t so_many_times(const struct tokens *t, size_t at, double *count) {
  size_t from = at;
  bool such = false;
  if (says(t, at, "and") && says(t, at + 1, "such of")) at++;
  if (says(t, at, "of") && says(t, at + 1, "such these")) at++;
  while (says(t, at, "such these he she it eats gets has so") || (at > from && says(t, at, "this like"))) {
    such = such || says(t, at, "such so these");
    at++;
  }
  bool counted = says_a(t, at, CLASS_ONE_FEEDING), bare = counted && !such;
  if (counted) at++;
  if (says(t, at, "are is there")) at++;
  size_t few = few_at(t, at, count);
  if (few == 0 || (!such && !bare) || *count < 2) return 0;
  at += few;
  bool times = says(t, at, "times x");
  if (times) at++;
  if (!counted && !times) return 0;
  size_t day = a_day_at(t, at);
  return day > 0 ? at + day - from : 0;
}

static void times_apart(struct story *st) {
  bool for_one = false;
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    for_one = for_one || one_feeding(t) > 0; /* "one portion is 90 g of ..." */
    for (size_t k = 0; k < t->count; k++) {
      bool begins = k == 0 || t->item[k - 1].kind == TOKEN_MARK || says(t, k - 1, "and");
      double count = 0;
      size_t one = begins ? for_one_time(t, k) : 0, from = one > 0 ? k + one : k;
      for_one = for_one || one > 0;
      if (one > 0 && from >= t->count && i + 1 < st->count) { /* how many stands in the next sentence */
        const char *begin = begin_of(t, 0), *cut = begin_of(t, k);
        if (so_many_times(&st->s[i + 1].t, 0, &count) == 0) continue;
        refer_write(st, i, arena_text(st->r->arena, (struct span){begin, (size_t)(cut - begin)}));
        break;
      }
      while (one > 0 && (is_mark(t, from, ',') || is_mark(t, from, ';') || is_mark(t, from, '-'))) from++;
      size_t times = begins && for_one ? so_many_times(t, from, &count) : 0;
      if (times == 0) continue;
      struct buf b;
      buf_init(&b, st->r->arena, REFER_MOST_BYTES);
      size_t cut = k;
      while (cut > 0 && (t->item[cut - 1].kind == TOKEN_MARK || says(t, cut - 1, "and"))) cut--;
      if (cut > 0) buf_addf(&b, "%.*s\x1F", SPAN_ARG(tokens_span(t, 0, cut)));
      buf_adds(&b, "That ");
      num_sig(&b, count, 2);
      buf_adds(&b, " times a day");
      const char *end = end_of(t, from + times - 1), *last = end_of(t, t->count - 1);
      if (last > end) buf_add(&b, (struct span){end, (size_t)(last - end)});
      refer_write(st, i, buf_text(&b));
      return;
    }
  }
}

void refer_meals(struct story *st) {
  frequency_apart(st);
  times_apart(st);
}
