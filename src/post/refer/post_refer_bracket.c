/* What a head says in brackets of all that stands below it: "What my cats eat in a week (both together, so halve it. 4.5 and
 * 4.8 kg):" is the sentence of the bracket, and the head without it. */
#include "post/refer/post_refer.h"

/* "muscle meat (beef, usually flank)": "beef flank". */
static void cut_of_flesh(struct story *st, size_t i) {
  enum { WORDS_MOST = 3 };
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 3 < t->count; k++) {
    size_t used =
        is_mark(t, k, ',') && says_a(t, k - 1, CLASS_ANIMAL_OF_FLESH) ? phrase_of(t, k + 1, CLASS_OF_THIS_KIND) : 0;
    size_t cut = k + 1 + used, end = cut;
    if (used == 0) continue;
    while (is_word(t, end) && end < cut + WORDS_MOST) end++;
    if (end == cut || !is_mark(t, end, ')') || says_a(t, cut, CLASS_ANIMAL_OF_FLESH)) continue;
    struct buf b;
    struct search_hit hit;
    buf_init(&b, st->r->arena, 200);
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(t->item[k - 1].at), SPAN_ARG(tokens_span(t, cut, end - cut)));
    if (!post_look_up(st->r, buf_span(&b), &hit) || hit.words_missed > 0) continue;
    refer_between(st, i, k, cut, " ");
    return;
  }
}

/* "veg (carrots peas sweetcorn, equal parts)": a list without commas. */
static void list_apart(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 3 < t->count; k++) {
    size_t end = k + 1;
    if (!is_mark(t, k, '(')) continue;
    while (is_word(t, end) && post_names_food(st->r, t, end, end + 1)) end++;
    if (end < k + 3 || !is_mark(t, end, ',') || !says(t, end + 1, "equal equally evenly in half")) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 200);
    for (size_t m = k + 1; m < end; m++) buf_addf(&b, "%s%.*s", m > k + 1 ? ", " : "", SPAN_ARG(t->item[m].at));
    refer_between(st, i, k + 1, end, buf_text(&b));
    return;
  }
}

/* The bracket of a head as a sentence of its own. */
static void head_apart(struct story *st) {
  enum { SENTENCES_MOST = 3 };
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    size_t open = 1, last = i, close = 0;
    while (open < t->count && !is_mark(t, open, '(')) open++;
    if (open >= t->count || !holds_a(t, open, t->count, CLASS_DIVIDED) || post_any_amount(t, 0) != post_any_amount(t, open))
      continue;
    for (; last < st->count && last < i + SENTENCES_MOST && close == 0; last += close == 0) {
      const struct tokens *end = &st->s[last].t;
      for (size_t k = last == i ? open : 0; k < end->count && close == 0; k++)
        if (is_mark(end, k, ')')) close = k;
      if (close > 0 && !(is_mark(end, close + 1, ':') && close + 2 >= end->count)) close = end->count;
    }
    if (close == 0 || last >= st->count || close >= st->s[last].t.count || st->s[last].line != st->s[i].line) continue;
    if (post_names_food(st->r, t, open, t->count)) continue;
    struct buf b;
    buf_init(&b, st->r->arena, st->s[i].text.n + st->s[last].text.n + 20);
    struct span head = tokens_span(t, 0, open), inside = {"", 0};
    if (last > i) {
      inside = tokens_span(t, open + 1, t->count - open - 1);
      const struct tokens *end = &st->s[last].t;
      buf_addf(&b, "%.*s\x1F%.*s:", SPAN_ARG(tokens_span(end, 0, close)), SPAN_ARG(head));
      refer_write(st, last, buf_text(&b));
      refer_write(st, i, arena_text(st->r->arena, inside));
    } else {
      inside = tokens_span(t, open + 1, close - open - 1);
      buf_addf(&b, "%.*s\x1F%.*s:", SPAN_ARG(inside), SPAN_ARG(head));
      refer_write(st, i, buf_text(&b));
    }
    return;
  }
}

void refer_bracket(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    bool bracket = false;
    for (size_t k = 0; k < st->s[i].t.count && !bracket; k++) bracket = is_mark(&st->s[i].t, k, '(');
    if (!bracket) continue;
    cut_of_flesh(st, i);
    list_apart(st, i);
  }
  head_apart(st);
}
