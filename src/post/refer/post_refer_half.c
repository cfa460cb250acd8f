/* A part of one food that another one takes the place of: "40 g cod in place of half the rabbit", "on Mondays 100 g of tripe
 * instead of half of the beef": of the food that was told before, so much less, every day or on those days. What cannot be
 * written so is left to those who ask. */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "recipe/frequency.h"

struct half {
  size_t at, to;   /* the tokens that say it, without the food that comes */
  bool before;     /* and they stand before it: "a third of the lamb is replaced by 50 g of rabbit" */
  double part;     /* of the old one that goes */
  struct span old; /* its words */
};

static size_t in_its_place(const struct tokens *t, size_t at) {
  if (says(t, at, "instead") && says(t, at + 1, "of")) return 2;
  if (says(t, at, "replacing replaces")) return 1;
  if (says(t, at, "in") && says(t, at + 1, "place lieu") && says(t, at + 2, "of")) return 3;
  return says(t, at, "in") && says(t, at + 1, "the") && says(t, at + 2, "place") && says(t, at + 3, "of") ? 4 : 0;
}

static bool ends_words(const struct tokens *t, size_t at) {
  return at >= t->count || t->item[at].kind == TOKEN_MARK || says(t, at, "on at every each now since for and but so with she he it they i we") ||
         frequency_at(t, at).tokens > 0;
}

/* "A third of the lamb has been replaced by 50 g of rabbit", from 'at' on. */
static bool passive_half(struct story *st, const struct tokens *t, size_t at, struct half *h) {
  enum { WORDS_MOST = 4 };
  size_t part = post_part_at(t, at, &h->part), old = at + part;
  if (part == 0 || !(h->part > 0 && h->part < 1) || !says(t, old, "of") || !says(t, old + 1, "the his her its my our"))
    return false;
  size_t end = old += 2, to;
  while (end < old + WORDS_MOST && is_word(t, end) && !says(t, end, "is are has have was gets been")) end++;
  for (to = end; says(t, to, "is are has have been gets now being") && to < end + 4;) to++;
  if (to == end || !says(t, to, "replaced swapped exchanged") || !says(t, to + 1, "by with for")) return false;
  if (!post_amount_at(t, to + 2).is_mass || !post_names_food(st->r, t, old, end)) return false;
  *h = (struct half){.at = at, .to = to + 2, .before = true, .part = h->part, .old = tokens_span(t, old, end - old)};
  return true;
}

static bool find_half(struct story *st, const struct tokens *t, struct half *h) {
  enum { WORDS_MOST = 4 };
  *h = (struct half){.at = 0};
  for (size_t k = 0; k + 4 < t->count; k++)
    if (passive_half(st, t, k, h)) return true;
  for (size_t k = 2; k + 2 < t->count; k++) {
    size_t used = in_its_place(t, k), at = k + used;
    if (used == 0) continue;
    size_t part = post_part_at(t, at, &h->part);
    if (part == 0 || !(h->part > 0 && h->part < 1)) continue;
    at += part;
    if (says(t, at, "of")) at++;
    if (says(t, at, "the his her its my our that this")) at++;
    size_t end = at;
    while (end < at + WORDS_MOST && !ends_words(t, end)) end++;
    if (end == at || !ends_words(t, end) || !post_names_food(st->r, t, at, end)) continue;
    h->at = k, h->to = end, h->old = tokens_span(t, at, end - at);
    return true;
  }
  return false;
}

/* The food that comes stands before, with a weight of its own. */
static bool comes_with_weight(struct story *st, const struct tokens *t, size_t at) {
  for (size_t i = 0; i < at; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.is_mass && !a.bare && i + a.tokens < at) {
      bool last = true;
      for (size_t k = i + a.tokens; k < at; k++) last = last && !post_amount_at(t, k).is_mass;
      if (last) return post_names_food(st->r, t, i + a.tokens, at);
    }
  }
  return false;
}

/* Or behind: "instead of half of the beef she gets 80 g tripe". */
static bool comes_behind(struct story *st, const struct tokens *t, size_t to) {
  enum { NEAR = 4 };
  for (size_t i = to; i < t->count && i < to + NEAR && !is_mark(t, i, '.'); i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.is_mass && !a.bare) return post_names_food(st->r, t, i + a.tokens, t->count);
  }
  return false;
}

/* Where the old food stands with its weight. */
struct told_old {
  size_t sentence, amount, end; /* the amount's first token, and the end of its part of the sentence */
  struct post_amount a;
};

static size_t olds_in(struct story *st, size_t s, size_t to, struct span old, struct told_old *out) {
  const struct tokens *t = &st->s[s].t;
  size_t count = 0;
  for (size_t i = 0; i < to; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (!a.is_mass || a.bare || a.is_percent || a.low != a.high) continue;
    size_t end = i + a.tokens;
    while (end < to && t->item[end].kind != TOKEN_MARK && !says(t, end, "and plus with") &&
           post_amount_at(t, end).tokens == 0)
      end++;
    if (refer_same_food(old, tokens_span(t, i, end - i))) *out = (struct told_old){s, i, end, a}, count++;
    i = end > i + 1 ? end - 1 : i;
  }
  return count;
}

/* In the same sentence, or else in one alone of those before it. */
static bool find_old(struct story *st, size_t i, size_t at, struct span old, struct told_old *out) {
  size_t here = olds_in(st, i, at, old, out), count = 0;
  struct told_old found;
  if (here > 0) return here == 1;
  for (size_t s = 0; s < i; s++) {
    size_t n = olds_in(st, s, st->s[s].t.count, old, &found);
    if (n > 0) *out = found;
    count += n;
  }
  return count == 1;
}

/* The days of the sentence: 0 every day; false where they are no days of the week. */
static bool days_of(const struct tokens *t, unsigned *days) {
  *days = 0;
  for (size_t i = 0; i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens == 0) continue;
    bool daily = f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal && !f.refuse;
    if (!daily && (f.days == 0 || f.refuse || *days != 0)) return false;
    if (!daily) *days = f.days;
    i += f.tokens - 1;
  }
  return true;
}

static void write_old(struct story *st, const struct told_old *o, const struct half *h, unsigned days) {
  const struct tokens *t = &st->s[o->sentence].t;
  struct buf b;
  buf_init(&b, st->r->arena, 400);
  if (days == 0) {
    amount_write(&b, &o->a, 1 - h->part);
    refer_between(st, o->sentence, o->amount, o->amount + o->a.tokens, buf_text(&b));
    return;
  }
  size_t end = o->end; /* its words without "a day" */
  for (size_t i = o->amount + o->a.tokens; i < end; i++)
    if (frequency_at(t, i).tokens > 0) end = i;
  struct span food = tokens_span(t, o->amount + o->a.tokens, end - o->amount - o->a.tokens);
  amount_write(&b, &o->a, 1);
  buf_addf(&b, " %.*s on ", SPAN_ARG(food));
  frequency_print_days(&b, 0x7FU & ~days);
  buf_adds(&b, ", ");
  amount_write(&b, &o->a, 1 - h->part);
  buf_addf(&b, " %.*s on ", SPAN_ARG(food));
  frequency_print_days(&b, days);
  refer_between(st, o->sentence, o->amount, o->end, buf_text(&b));
}

/* Does the part of the sentence say how often itself? Then it is no food of every day. */
static bool has_own_days(const struct tokens *t, const struct told_old *o) {
  for (size_t i = o->amount; i < o->end; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens > 0 && !(f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal)) return true;
  }
  return false;
}

void refer_half(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    struct half h;
    struct told_old o;
    unsigned days;
    const struct tokens *t = &st->s[i].t;
    if (!find_half(st, t, &h) || not_fed(t) || !(h.before || comes_with_weight(st, t, h.at) || comes_behind(st, t, h.to)) ||
        !days_of(t, &days))
      continue;
    if (!find_old(st, i, h.at, h.old, &o) || has_own_days(&st->s[o.sentence].t, &o)) continue;
    if (days != 0 && o.sentence == i) continue;
    struct buf note, was;
    buf_init(&was, st->r->keep, 80);
    amount_write(&was, &o.a, 1);
    buf_init(&note, st->r->keep, 200);
    buf_addf(&note, "part of the %s that the post tells goes for another food%s", buf_text(&was),
             days != 0 ? " on some days" : "");
    refer_beside(st, o.sentence, h.old, buf_text(&note));
    refer_between(st, i, h.at, h.to, ""); /* it stands behind the old one */
    write_old(st, &o, &h, days);
  }
}
