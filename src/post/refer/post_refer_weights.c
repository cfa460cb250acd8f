/* The animal's weight by the way: "down from 17 to 14 kg", "lost 1.3 kg, now 9.6 kg", "how heavy is she", "3.9",
 * "two dogs, 5 kg (Pip) and 6.5 kg (Nell)", "he is 16 kilos and stopped itching". */
#include "base/num.h"
#include "post/refer/post_refer.h"

static bool is_unit_of_weight(const struct tokens *t, size_t at) {
  return says_a(t, at, CLASS_KILOGRAMS) || says(t, at, "lb lbs pounds pound");
}

/* "17 to 14 kg", "36 kg to 31 kg", "4.5 and 4.8 kg": two numbers of one unit with one of the words between; the tokens; 0.
 */
static size_t two_weights(const struct tokens *t, size_t at, const char *between, struct span number[2], struct span *unit) {
  double kg;
  if (!is_number(t, at) || is_mark(t, at + 1, '/')) return 0;
  size_t next = at + 1 + is_unit_of_weight(t, at + 1);
  if (!says(t, next, between) || !is_number(t, next + 1) || post_weight_at(t, next + 1, &kg) == 0) return 0;
  if (!is_unit_of_weight(t, next + 2)) return 0;
  number[0] = t->item[at].at, number[1] = t->item[next + 1].at, *unit = t->item[next + 2].at;
  return next + 3 - at;
}

static bool says_in_front(const struct tokens *t, size_t at, enum post_class c) {
  for (size_t k = 0; k < at; k++)
    if (says_a(t, k, c)) return true;
  return false;
}

/* "Trying to get the beagle down from 17 to 14 kg": it is to weigh less. */
static void from_to(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  struct span n[2], unit;
  for (size_t k = 1; k + 3 < t->count; k++) {
    size_t used = says(t, k - 1, "from") ? two_weights(t, k, "to", n, &unit) : 0, from = k - 1, end = k + used;
    if (used == 0 || says(t, end, "of") || post_mention_at(st->r, t, end) > 0) continue;
    bool wished = says_in_front(t, k, CLASS_WISHES_WEIGHT), done = k > 1 && says(t, k - 2, "gone went come dropped fell");
    done = done || (k > 2 && says(t, k - 2, "down up") && says(t, k - 3, "gone went come came dropped is he's she's got"));
    if (done && says(t, end, "a per each every daily worth at")) return; /* "gone from 2 lb to 3 lb a day" */
    if (done) { /* "has gone from 24 to 22.5 kg since spring" */
      struct buf b;
      buf_init(&b, st->r->arena, 200);
      buf_addf(&b, "from %.*s %.*s, now weighs %.*s %.*s", SPAN_ARG(n[0]), SPAN_ARG(unit), SPAN_ARG(n[1]), SPAN_ARG(unit));
      while (says(t, end, "since") && is_word(t, end + 1)) end += 2;
      refer_between(st, i, from, end, buf_text(&b));
      return;
    }
    if (!wished) return; /* what was lost unasked is a sign of illness: post_signs.c */
    while (from > 0 && says(t, from - 1, "down up went dropped gone shrunk slimmed has have")) from--;
    struct buf b;
    buf_init(&b, st->r->arena, 200);
    buf_addf(&b, "weighs %.*s %.*s, should be %.*s %.*s", SPAN_ARG(n[0]), SPAN_ARG(unit), SPAN_ARG(n[1]), SPAN_ARG(unit));
    size_t first = from; /* "Trying to get", "We want to bring": up to the animal */
    while (first > 0 && !says(t, first - 1, "the my our him her") && t->item[first - 1].kind != TOKEN_MARK)
      first--;
    bool animal = first > 0 && says(t, first - 1, "the my our");
    if (says(t, end, "since") && is_word(t, end + 1)) end += 2; /* "since spring" */
    refer_between(st, i, from, end, buf_text(&b));
    if (animal) refer_between(st, i, 0, first, "My ");
    if (!animal && first > 0) refer_between(st, i, 0, from, "Now ");
    return;
  }
}

/* "Down 1.3 kg, now 9.6 kg (mini schnauzer)", "lost another 0.4 kg, so 7.8 kg now" */
static void lost_and_now(struct story *st, size_t i) {
  enum { FAR = 6 };
  const struct tokens *t = &st->s[i].t;
  double kg;
  for (size_t k = 0; k + 4 < t->count; k++) {
    size_t at = k + 1, now;
    if (!says(t, k, "down lost up gained dropped")) continue;
    while (says(t, at, "another by about almost nearly a further")) at++;
    if (!is_number(t, at) || !is_unit_of_weight(t, at + 1)) continue;
    bool said = false;
    for (now = at + 2; now < t->count && now < at + 2 + FAR && post_weight_at(t, now, &kg) == 0; now++)
      said = said || says(t, now, "now so at to currently");
    size_t used = now < t->count ? post_weight_at(t, now, &kg) : 0;
    if (used == 0 || (!said && !says(t, now + used, "now today"))) continue;
    size_t end = now + used + says(t, now + used, "now today");
    struct buf b;
    buf_init(&b, st->r->arena, 100);
    buf_addf(&b, "weighs %.*s", SPAN_ARG(tokens_span(t, now, used)));
    refer_between(st, i, k, end, buf_text(&b));
    return;
  }
}

/* Behind "[12:09]" or a bullet. */
static size_t behind_stamp(const struct tokens *t) {
  size_t at = 0;
  if (is_mark(t, 0, '['))
    while (at < t->count && !is_mark(t, at, ']')) at++;
  while (at < t->count && t->item[at].kind == TOKEN_MARK) at++;
  return at;
}

/* "how heavy is she", and the next line "3.9" */
static void asked_and_told(struct story *st, size_t i) {
  const struct tokens *q = &st->s[i].t;
  bool heavy = false;
  size_t next = i + 1;
  for (size_t k = 0; k < q->count && !heavy; k++) {
    if (is_number(q, k) && k > behind_stamp(q)) return;
    heavy = (says(q, k, "how") && says(q, k + 1, "heavy big") && says(q, k + 2, "is")) ||
            (says(q, k, "weigh") && k > 1 && (says(q, k - 2, "does do") || says(q, k - 3, "does do")));
  }
  while (heavy && next < st->count && st->s[next].t.count == 0) next++;
  if (!heavy || next >= st->count) return;
  const struct tokens *t = &st->s[next].t;
  size_t at = behind_stamp(t), begin = at;
  while (says(t, at, "about around roughly approx maybe nearly just under over he's she's hes shes is he she")) at++;
  size_t end = at + 1 + is_unit_of_weight(t, at + 1);
  if (!is_number(t, at) || end < t->count) return;
  struct buf b;
  buf_init(&b, st->r->arena, 100);
  buf_addf(&b, "weighs %.*s", SPAN_ARG(tokens_span(t, at, end - at)));
  refer_write(st, i, "");
  refer_between(st, next, begin < t->count ? 0 : begin, t->count, arena_text(st->r->keep, buf_span(&b)));
}

/* "5 kg (Pip) and 6.5 kg (Nell)": the names go first, as everybody else writes them. */
static void names_behind(struct story *st, size_t i) {
  enum { MOST = 4 };
  const struct tokens *t = &st->s[i].t;
  size_t at[MOST], count = 0;
  double kg;
  for (size_t k = 0; k + 3 < t->count && count < MOST; k++) {
    size_t used = post_weight_at(t, k, &kg), open = k + used;
    bool name = used > 0 && is_mark(t, open, '(') && is_word(t, open + 1) && is_mark(t, open + 2, ')') &&
                t->item[open + 1].at.p[0] >= 'A' && t->item[open + 1].at.p[0] <= 'Z' &&
                post_mention_at(st->r, t, open + 1) == 0;
    if (name) at[count++] = k;
  }
  if (count < 2) return;
  for (size_t n = count; n-- > 0;) {
    t = &st->s[i].t;
    size_t used = post_weight_at(t, at[n], &kg), open = at[n] + used;
    struct buf b;
    buf_init(&b, st->r->arena, 200);
    buf_addf(&b, "%.*s (%.*s)", SPAN_ARG(t->item[open + 1].at), SPAN_ARG(tokens_span(t, at[n], used)));
    refer_between(st, i, at[n], open + 3, buf_text(&b));
  }
}

/* "he is 16 kilos and stopped itching": what was is told apart. */
static void weight_apart(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  double kg;
  for (size_t k = 1; k + 3 < t->count; k++) {
    size_t used = says(t, k - 1, "is weighs he's she's hes shes") ? post_weight_at(t, k, &kg) : 0;
    struct span verb = is_word(t, k + used + 1) ? t->item[k + used + 1].word : (struct span){"", 0};
    bool past =
        says_a(t, k + used + 1, CLASS_PAST_VERB) || (verb.n > 3 && span_is(span_cut(verb, verb.n - 2, verb.n), "ed"));
    if (used == 0 || !past || !says(t, k + used, "and but")) continue;
    refer_split(st, i, k + used + 1);
    return;
  }
}

/* "4.5 and 4.8 kg", "4, 5 and 6 kg": each with its unit. */
static void each_its_unit(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  struct span n[2], unit;
  for (size_t k = 0; k + 3 < t->count; k++) {
    size_t used = is_number(t, k) ? two_weights(t, k, "and", n, &unit) : 0, end = k + used;
    if (used == 0 || says(t, end, "of") || post_mention_at(st->r, t, end) > 0 || is_unit_of_weight(t, k + 1)) continue;
    if (k > 1 && is_word(t, k - 1) && post_mention_at(st->r, t, k - 1) > 0) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 200);
    size_t from = k; /* "weights are 4, 5 and 6 kg" */
    while (from > 1 && is_mark(t, from - 1, ',') && is_number(t, from - 2)) from -= 2;
    bool weights = from > 1 && says(t, from - 1, "are") && says(t, from - 2, "weights they");
    if (weights) buf_adds(&b, "they weigh ");
    for (size_t m = from; m < k; m += 2) buf_addf(&b, "%.*s %.*s, ", SPAN_ARG(t->item[m].at), SPAN_ARG(unit));
    if (weights) from -= 2;
    if (from < k) {
      buf_addf(&b, "%.*s %.*s and %.*s %.*s", SPAN_ARG(n[0]), SPAN_ARG(unit), SPAN_ARG(n[1]), SPAN_ARG(unit));
      refer_between(st, i, from, end, buf_text(&b));
      return;
    }
    bool begins = k == 0 || is_mark(t, k - 1, ';') || is_mark(t, k - 1, '(') || is_mark(t, k - 1, '.');
    if (begins && !post_names_food(st->r, t, 0, t->count)) buf_adds(&b, "\x1FThey weigh ");
    buf_addf(&b, "%.*s %.*s and %.*s %.*s", SPAN_ARG(n[0]), SPAN_ARG(unit), SPAN_ARG(n[1]), SPAN_ARG(unit));
    refer_between(st, i, k, end, buf_text(&b));
    return;
  }
}

void refer_weights(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    bool weight = false, asks = false;
    for (size_t k = 0; k < st->s[i].t.count; k++) {
      weight = weight || is_unit_of_weight(&st->s[i].t, k);
      asks = asks || says(&st->s[i].t, k, "heavy weigh");
    }
    if (asks) asked_and_told(st, i);
    if (!weight) continue;
    from_to(st, i);
    lost_and_now(st, i);
    names_behind(st, i);
    each_its_unit(st, i);
    weight_apart(st, i);
  }
}
