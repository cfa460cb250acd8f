/* One meal of certain days told first and another one of all the others: "Fish Friday: ... We do it every Friday, the other
 * six days she has ...": every sentence of amounts gets the days that are told for it elsewhere. */
#include "post/refer/post_refer.h"

enum { ALL_DAYS = 0x7F, WEEK = 7 };

static int days_of(unsigned days) {
  int n = 0;
  for (; days; days &= days - 1) n++;
  return n;
}

/* "the other six days", "all other days", "the rest of the week", "every other day of the week": the tokens; *count is how
 * many, 0 where nobody says. */
static size_t others_at(const struct tokens *t, size_t at, int *count) {
  size_t from = at;
  *count = 0;
  if (!is_word(t, at) || !memchr("aefhort", t->item[at].word.p[0], 7)) return 0;
  if (says(t, at, "on for")) at++;
  if (says(t, at, "every") && phrase_at(t, at + 1, "other day of the week") > 0) return at + 6 - from;
  if (says(t, at, "all")) at++;
  if (says(t, at, "the his her our")) at++;
  if (says(t, at, "rest remainder") && phrase_at(t, at + 1, "of the week") > 0) return at + 4 - from;
  if (!says(t, at, "other remaining") || at == from) return 0;
  struct quantity q = quantity_at(t, ++at);
  if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 1 && q.low < WEEK) *count = (int)q.low, at += q.tokens;
  return says(t, at, "days") ? at + 1 - from : 0;
}

/* Does it tell how much of a food; 'named': which a name says. */
static bool feeds_something(struct story *st, const struct tokens *t, size_t from, bool named) {
  bool amount = false, food = !named;
  double kg;
  for (size_t k = from; k < t->count; k++) {
    size_t weight = post_weight_at(t, k, &kg);
    enum species s;
    bool animal = weight > 0 && ((k > 0 && is_mark(t, k - 1, '(')) ||
                                 (is_word(t, k + weight) && token_is_animal(&t->item[k + weight], &s)));
    if (animal)
      k += weight - 1;
    else
      amount = amount || (post_amount_at(t, k).tokens > 0 && not_an_amount(t, k) == 0);
    food = food || post_mention_at(st->r, t, k) > 0;
  }
  return amount && food;
}

static bool is_daily(const struct tokens *t) {
  for (size_t k = 0; k < t->count; k++) {
    struct frequency f = frequency_at(t, k);
    if (f.tokens > 0 && f.days == 0) return true;
  }
  return false;
}

/* Where the list behind a head begins: "Egg Monday for the pug (8 kg): 2 eggs"; 0 none. */
static size_t behind_head(const struct tokens *t) {
  for (size_t k = 1; k + 1 < t->count; k++) {
    if (is_mark(t, k, ':')) return k + 1;
    if (post_amount_at(t, k).is_mass && (k == 0 || !is_mark(t, k - 1, '('))) return 0;
  }
  return 0;
}

/* All days that are named before the token 'to' of sentence 'last'; 0 where they are not the same ones each time. */
static unsigned days_told(const struct story *st, size_t last, size_t to) {
  unsigned found = 0, days;
  for (size_t i = 0; i <= last; i++) {
    const struct tokens *t = &st->s[i].t;
    for (size_t k = 0; k < (i == last ? to : t->count); k++) {
      size_t used = post_days_named(t, k, &days);
      if (used == 0) continue;
      if (found != 0 && days != found) return 0;
      found = days;
      k += used - 1;
    }
  }
  return found;
}

/* What a head tells of the animal stays, its days and its food go: "Egg Monday for the pug (8 kg)". */
static const char *of_the_animal(struct story *st, const struct tokens *t, size_t to) {
  double kg;
  unsigned days;
  size_t from = 0, weighed = to;
  for (size_t k = 0; k < to; k++) {
    size_t used = post_days_named(t, k, &days);
    if (used > 0 && weighed == to) from = k + used;
    if (weighed == to && post_weight_at(t, k, &kg) > 0) weighed = k;
  }
  while (from < weighed && t->item[from].kind == TOKEN_MARK && !is_mark(t, from, '(')) from++;
  return weighed < to ? arena_text(st->r->keep, tokens_span(t, from, to - from)) : "";
}

static bool names_days(const struct tokens *t, size_t to) {
  unsigned days;
  for (size_t k = 0; k < to; k++)
    if (post_days_named(t, k, &days) > 0) return true;
  return false;
}

/* "On Friday: " before the amounts of sentence 'i'; a head that only names the days goes. */
static void write_with_days(struct story *st, size_t i, unsigned days, bool listed) {
  const struct tokens *t = &st->s[i].t;
  size_t at = behind_head(t), head = at;
  bool own = at > 0 && names_days(t, at);
  if (!own) at = 0;
  while (at < t->count && t->item[at].kind == TOKEN_MARK) at++;
  if (!feeds_something(st, t, at, !listed)) {
    if (names_days(t, t->count)) refer_write(st, i, of_the_animal(st, t, t->count));
    return;
  }
  if (is_daily(t)) return;
  struct buf b;
  buf_init(&b, st->r->arena, st->s[i].text.n + 300);
  if (own) {
    const char *animal = of_the_animal(st, t, head - 1);
    if (animal[0]) buf_addf(&b, "%s\x1F", animal);
  }
  buf_adds(&b, "On ");
  frequency_print_days(&b, days);
  buf_addf(&b, ": %.*s", SPAN_ARG(tokens_span(t, at, t->count - at)));
  refer_write(st, i, buf_text(&b));
}

void refer_one_day(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    for (size_t k = 0; k + 2 < st->s[i].t.count; k++) {
      const struct tokens *t = &st->s[i].t;
      int count;
      unsigned named = 0;
      size_t used = others_at(t, k, &count), from = says(t, k, "from on") ? k + 1 : k;
      unsigned days = used > 0 ? days_told(st, i, k) : 0;
      if (used == 0 && k == 0 && i > 0 &&
          (used = post_days_named(t, from, &named)) > 0) { /* "From Monday to Saturday he has" */
        days = days_told(st, i - 1, st->s[i - 1].t.count), used += from - k;
        if (days == 0 || (named | days) != ALL_DAYS || (named & days) != 0) days = 0;
      }
      if (used == 0 || days == 0 || days == ALL_DAYS || (count > 0 && count != WEEK - days_of(days))) continue;
      if (!feeds_something(st, t, k + used, true) || (k > 0 && feeds_something(st, t, 0, true) && i == 0)) continue;
      bool any = false;
      bool by_itself = false; /* "Tuesday and Friday 200 g cod" has its days */
      for (size_t m = 0; m < i; m++) {
        bool fed = feeds_something(st, &st->s[m].t, 0, true);
        any = any || fed;
        by_itself = by_itself || (fed && post_days_named(&st->s[m].t, says(&st->s[m].t, 0, "on every") ? 1 : 0, &named) > 0);
      }
      if (!any || by_itself) continue;
      while (is_mark(t, k + used, ':') || is_mark(t, k + used, ',')) used++;
      struct buf b;
      buf_init(&b, st->r->arena, st->s[i].text.n + 300);
      buf_adds(&b, "On ");
      frequency_print_days(&b, ALL_DAYS & ~days);
      buf_addf(&b, ": %.*s", SPAN_ARG(tokens_span(t, k + used, t->count - k - used)));
      refer_write(st, i, buf_text(&b));
      bool listed = false; /* a line of one food below another that was known */
      for (size_t m = 0; m < i; m++) {
        bool fed = feeds_something(st, &st->s[m].t, 0, true);
        if (st->s[m].t.count > 0) write_with_days(st, m, days, listed && m > 0 && st->s[m].line == st->s[m - 1].line + 1);
        listed = listed || fed;
      }
      return;
    }
  }
}
