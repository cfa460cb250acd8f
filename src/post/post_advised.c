/* "He should be getting 400 g of beef", "the vet said he needs 400 g of chicken": advice is not what is fed. Where nothing
 * else says what is, it is what the post has to check: counted, with that said beside each line, and asked. */
#include "post/post_parts.h"

static bool is_advice(const struct post_left *left) {
  return !left->fed && (strcmp(left->why, NOT_FED_ADVICE) == 0 || strcmp(left->why, NOT_FED_HEARSAY) == 0);
}

/* The words behind those that make it advice; "" where none are left. */
static struct span without_advice(struct post_reader *r, struct span text) {
  enum { TIMES = 4 };
  for (int i = 0; i < TIMES; i++) {
    struct tokens t = tokens_of(text, r->arena);
    size_t at = 0, used = 0;
    const char *why = not_fed_at(&t, &at);
    if (!why) return text;
    if (strcmp(why, NOT_FED_HEARSAY) == 0) /* the verb stands behind who says it */
      while (at < t.count && !says_a(&t, at, CLASS_HEARSAY_VERB)) at++;
    else if (strcmp(why, NOT_FED_ADVICE) == 0)
      used = phrase_of(&t, at, CLASS_TOLD_AS_ADVICE);
    else
      break;
    size_t from = at + (used > 0 ? used : 1);
    if (from >= t.count) break;
    text = tokens_span(&t, from, t.count - from);
  }
  return (struct span){"", 0};
}

void post_take_advised(struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++)
    if (r->item[i].kind != ITEM_GONE) return;
  for (size_t k = 0; k < r->left_count; k++) {
    struct post_left left = r->left[k];
    struct span rest = is_advice(&left) ? without_advice(r, span_of(left.text)) : (struct span){"", 0};
    size_t items = r->count;
    struct tokens named = tokens_of(rest, r->arena);
    if (rest.n == 0 || !post_names_food(r, &named, 0, named.count)) continue;
    r->line = left.line;
    post_read_sentence(r, arena_span(r->keep, rest), false);
    bool any = false;
    for (size_t i = items; i < r->count; i++) {
      any = any || r->item[i].kind == ITEM_FOOD;
      post_doubt(r, i, "advised or planned, and counted as nothing else says what is fed");
    }
    if (any) {
      memmove(r->left + k, r->left + k + 1, (r->left_count - k - 1) * sizeof *r->left);
      r->left_count--;
      k--;
      r->ask_of = items + 1;
      post_ask(r, 4, "Is '%.*s' what is fed? It was counted, as nothing else says what is.",
               SPAN_ARG(post_quote(r, span_of(left.text))));
      r->ask_of = 0;
    }
    arena_rewind(r->arena, r->begin);
  }
}
