/* What a head says in brackets of all that stands below it: "What my cats eat in a week (both together, so halve it. 4.5 and
 * 4.8 kg):" is the sentence of the bracket, and the head without it. */
#include "post/refer/post_refer.h"

void refer_bracket(struct story *st) {
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
