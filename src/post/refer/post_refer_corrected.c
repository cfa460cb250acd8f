/* What a later sentence puts right: the animal's weight ("EDIT: she weighs 23, not 32"), how long a batch lasts ("Edit: it
 * is five days, not four"), the amount that was told last ("1 tsp kelp... no, 1/4 tsp"). It is written where the wrong one
 * stands. */
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

enum { NOT_THERE = (size_t)-1 >> 1 };

/* ---- a number in the place of another ---- */

struct put_right {
  size_t now, now_tokens; /* the number that is right */
  size_t old, old_tokens; /* and the one that was not; 0 tokens: not told */
};

static bool corrects(const struct tokens *t) {
  size_t at = t->count > 0 && t->item[0].kind == TOKEN_MARK ? 1 : 0;
  if (says_a(t, at, CLASS_EDIT_LABEL) || says(t, at, "oops whoops sorry typo")) return true;
  for (size_t k = 0; k < t->count; k++)
    if (says(t, k, "typo mistyped misread miscounted") || phrase_at(t, k, "i was wrong") > 0 ||
        phrase_at(t, k, "my mistake") > 0 || phrase_at(t, k, "my maths") > 0)
      return true;
  return false;
}

static bool is_denied(const struct tokens *t, size_t at) {
  if (says(t, at - 1, "a an the") && at > 1) at--;
  return at > 0 && (says(t, at - 1, "not isn't") || (at > 1 && says(t, at - 1, "of") && says(t, at - 2, "instead")));
}

/* One number that holds, and one at most that does not. "A week" is one that is told by its unit. */
static bool numbers_of(const struct tokens *t, struct put_right *p) {
  *p = (struct put_right){.now = NOT_THERE};
  for (size_t k = 0; k < t->count; k++) {
    struct quantity q = quantity_at(t, k);
    bool one = says(t, k, "a an one");
    if (q.fault != QUANTITY_FINE || q.low != q.high || (one && !says(t, k + 1, "week fortnight day"))) continue;
    if (k > 0 && is_denied(t, k)) {
      if (p->old_tokens > 0) return false;
      p->old = k, p->old_tokens = q.tokens;
    } else {
      if (p->now != NOT_THERE) return false;
      p->now = k, p->now_tokens = q.tokens;
    }
    k += q.tokens - 1;
  }
  return p->now != NOT_THERE;
}

static double value_at(const struct tokens *t, size_t at) { return quantity_at(t, at).low; }

static bool is_unit_of_weight(const struct tokens *t, size_t at) {
  return says_a(t, at, CLASS_KILOGRAMS) || says(t, at, "lb lbs pounds pound");
}

/* An animal's weight that stands there: no food follows it. */
static bool is_weight(struct story *st, const struct tokens *t, size_t at) {
  double kg;
  size_t used = post_weight_at(t, at, &kg), end = at + used;
  if (used == 0 || says(t, end, "of bag bags box boxes sack sacks")) return false;
  for (size_t k = end; k < end + 3 && is_word(t, k); k++)
    if (post_mention_at(st->r, t, k) > 0) return false;
  return true;
}

static bool weight_put_right(struct story *st, size_t i, const struct tokens *t, const struct put_right *p) {
  size_t unit = p->now + p->now_tokens, sentence = 0, found = 0, count = 0, tokens = 0;
  bool weighs = is_unit_of_weight(t, unit) || (p->old_tokens > 0 && is_unit_of_weight(t, p->old + p->old_tokens));
  for (size_t k = 0; k < t->count; k++) weighs = weighs || says(t, k, "weighs weigh weight heavy");
  if (!weighs) return false;
  double old = p->old_tokens > 0 ? value_at(t, p->old) : 0, kg;
  for (size_t m = 0; m < st->count; m++) {
    const struct tokens *told = &st->s[m].t;
    for (size_t k = 0; k < told->count && m != i; k++) {
      if (!is_weight(st, told, k) || (p->old_tokens > 0 && value_at(told, k) != old)) continue;
      sentence = m, found = k, tokens = post_weight_at(told, k, &kg);
      count++;
      k += tokens - 1;
    }
  }
  bool unit_told = is_unit_of_weight(t, unit);
  if (count > 1 || (count == 0 && !unit_told)) return false;
  const char *now = arena_text(st->r->keep, tokens_span(t, p->now, p->now_tokens + unit_told));
  if (count == 0) {
    struct buf b;
    buf_init(&b, st->r->arena, 60);
    buf_addf(&b, "weighs %s", now);
    refer_write(st, i, buf_text(&b));
    return true;
  }
  refer_between(st, sentence, found, found + (unit_told ? tokens : quantity_at(&st->s[sentence].t, found).tokens), now);
  refer_write(st, i, "");
  return true;
}

static size_t days_at(const struct tokens *t, size_t at, double *days) {
  struct quantity q = quantity_at(t, at);
  size_t unit = at + q.tokens;
  if (q.fault != QUANTITY_FINE || q.low != q.high) return 0;
  double each = says(t, unit, "days day") ? 1 : says(t, unit, "weeks week") ? 7 : says(t, unit, "fortnight") ? 14 : 0;
  *days = q.low * each;
  return each > 0 && q.low > 0 ? q.tokens + 1 : 0;
}

static bool length_put_right(struct story *st, size_t i, const struct tokens *t, const struct put_right *p) {
  double now, was = 0, days;
  size_t used = days_at(t, p->now, &now), sentence = 0, found = 0, tokens = 0, count = 0;
  if (used == 0 || says(t, p->now + used, "a per old ago")) return false;
  if (p->old_tokens > 0 && days_at(t, p->old, &was) == 0) was = value_at(t, p->old);
  for (size_t m = 0; m < i; m++) {
    const struct tokens *told = &st->s[m].t;
    bool lasts = false;
    for (size_t k = 0; k < told->count; k++) {
      lasts = lasts || says_a(told, k, CLASS_LASTING) || says(told, k, "lasts feeds does makes batch");
      size_t n = lasts ? days_at(told, k, &days) : 0;
      if (n == 0 || says(told, k + n, "old ago a per") || (was > 0 && days != was)) continue;
      sentence = m, found = k, tokens = n;
      count++;
    }
  }
  if (count != 1) return false;
  refer_between(st, sentence, found, found + tokens, arena_text(st->r->keep, tokens_span(t, p->now, used)));
  refer_write(st, i, "");
  return true;
}

/* ---- the amount that was told last ---- */

/* "no, 1/4 tsp kelp", "no wait, 20 g" at the front of a sentence: where the amount stands; 0. */
static size_t amount_taken_back(const struct tokens *t) {
  size_t at = 0;
  while (says(t, at, "no nope wait sorry oops whoops er um")) at++;
  if (at == 0) return 0;
  for (size_t k = at; k < t->count; k++)
    if (says(t, k, "not")) return 0; /* "sorry, 200 g of heart, not 300": the lines are compared (post_correct.c) */
  if (phrase_at(t, at, "i mean") > 0 || phrase_at(t, at, "make that") > 0) at += 2;
  if (says(t, at, "it's its that's thats it")) at++;
  while (is_mark(t, at, ',')) at++;
  struct post_amount a = at < t->count ? post_amount_at(t, at) : (struct post_amount){0};
  return a.tokens > 0 && !a.bare && (a.is_mass || a.is_volume) ? at : 0;
}

static void last_amount_put_right(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t, *before = &st->s[i - 1].t;
  size_t at = amount_taken_back(t), found = NOT_THERE, used = 0;
  double kg;
  if (at == 0 || (post_weight_at(t, at, &kg) > 0 && !post_names_food(st->r, t, at, t->count))) return;
  struct post_amount a = post_amount_at(t, at);
  for (size_t k = 0; k < before->count; k++) {
    struct post_amount old = post_amount_at(before, k);
    if (old.tokens == 0) continue;
    bool alike = !old.bare && old.is_mass == a.is_mass && old.is_volume == a.is_volume;
    found = alike ? k : NOT_THERE;
    used = old.tokens;
    k += old.tokens - 1;
  }
  if (found == NOT_THERE) return;
  size_t food = at + a.tokens + says(t, at + a.tokens, "of"), end = post_food_end(st->r, t, food);
  if (end > food &&
      !refer_same_food(tokens_span(t, food, end - food), tokens_span(before, found + used, before->count - found - used)))
    return;
  if (end == food) end = at + a.tokens;
  size_t rest = end; /* ", 1 tsp would be mad" */
  for (size_t k = end; k + 1 < t->count; k++)
    if (says(t, k, "would") && says(t, k + 1, "be kill have")) rest = t->count;
  if (rest < t->count && t->item[rest].kind != TOKEN_MARK && !says(t, rest, "and sorry")) return;
  while (rest < t->count && (t->item[rest].kind == TOKEN_MARK || says(t, rest, "sorry"))) rest++;
  st->r->line = st->s[i].line;
  post_note(st->r, tokens_span(before, found, before->count - found), "taken back in the same breath");
  st->r->line = 0;
  const char *now = arena_text(st->r->keep, tokens_span(t, at, a.tokens));
  const char *behind = rest < t->count ? arena_text(st->r->keep, tokens_span(t, rest, t->count - rest)) : "";
  refer_write(st, i, behind);
  refer_between(st, i - 1, found, found + used, now);
}

void refer_corrected(struct story *st) {
  for (size_t i = 1; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    struct put_right p;
    if (t->count == 0) continue;
    if (says(t, 0, "no nope wait sorry oops whoops er um") && st->s[i - 1].t.count > 0) last_amount_put_right(st, i);
    t = &st->s[i].t;
    if (t->count == 0 || !corrects(t) || post_names_food(st->r, t, 0, t->count) || !numbers_of(t, &p)) continue;
    if (!length_put_right(st, i, t, &p)) weight_put_right(st, i, t, &p);
  }
}
