/* "Just under an ounce", "a bit over a cup", "nearly 200 g": an amount that is not quite what it says. Taken as a range from
 * or to what it says, own judgement; docs/method/posts.md. */
#include "base/num.h"
#include "post/line/post_line.h"

static const double LESS = 0.9, MORE = 1.15;

/* Takes the words, and remembers which amount they stand before. */
void post_hear_near(struct post_reader *r, struct tokens *t) {
  r->near_count = 0;
  for (size_t i = 0; i < t->count; i++) {
    const char *means;
    size_t used = meaning_at(t, i, CLASS_NEAR_AMOUNT, &means);
    struct post_amount a = used > 0 ? post_amount_at(t, i + used) : (struct post_amount){0};
    bool of_measure = used > 0 && says(t, i + used - 1, "good generous scant"); /* of a spoon they are its size */
    if (a.tokens == 0 || (of_measure && !is_number(t, i + used))) continue;
    if (a.bare || a.cannot || a.is_percent || a.low != a.high || r->near_count == COUNT_OF(r->near)) continue;
    r->near[r->near_count++] = (struct near_amount){i + used, strcmp(means, "less") == 0, tokens_span(t, i, used)};
    post_claim(r, tokens_span(t, i, used), CLAIM_TOLD, 0, 0);
    take(t, i, used);
  }
}

const char *post_take_near(struct post_reader *r, size_t at, struct post_amount *a) {
  for (size_t i = 0; i < r->near_count; i++) {
    const struct near_amount *n = &r->near[i];
    if (n->at != at || a->low != a->high) continue;
    struct buf b;
    buf_init(&b, r->arena, 80 + n->said.n);
    *(n->less ? &a->low : &a->high) *= n->less ? LESS : MORE;
    buf_addf(&b, "'%.*s' taken as %s", SPAN_ARG(n->said), n->less ? "90 to 100 % of it" : "100 to 115 % of it");
    return buf_text(&b);
  }
  return "";
}
