/* "Once a week she has a raw meaty bone, but I don't weigh it": what stands behind the food says that nobody knows how much
 * it is. The food is read without it, and where an amount is counted all the same that is said beside it. */
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

static bool leads_on(const struct tokens *t, size_t at) {
  return says(t, at, "but though although and") || is_mark(t, at, ',') || is_mark(t, at, '-');
}

/* The clause at 'at', with "but" and its comma before it, where it ends its sentence; its tokens, 0 none. */
static size_t unweighed_at(const struct tokens *t, size_t at) {
  size_t end = at;
  while (leads_on(t, end)) end++;
  size_t used = phrase_of(t, end, CLASS_UNWEIGHED);
  if (used == 0) return 0;
  end += used;
  while (says(t, end, "sorry tbh though it they that is are weigh weighs each time either")) end++;
  bool closed = ends_sentence(t, end) || is_mark(t, end, ';') || is_mark(t, end, ')');
  return closed ? end - at : 0;
}

struct span post_unweighed(struct post_reader *r, struct span before, struct span line) {
  struct tokens t = post_tokens(r, line);
  (void)before;
  for (size_t i = 1; i < t.count; i++) {
    if (i > 1 && leads_on(&t, i - 1)) continue; /* looked at from there */
    size_t used = unweighed_at(&t, i), from = i, food = i;
    if (used == 0) continue;
    while (from > 0 && !ends_sentence(&t, from - 1)) from--;
    for (size_t k = from; k < i; k++) { /* of the last food of the sentence */
      size_t end = post_food_end(r, &t, k);
      if (end > k) food = end - 1, k = end - 1;
    }
    if (food == i) continue; /* of no food, or of one that another sentence tells */
    post_will_say(r, t.item[food].word, "the post says that it is not weighed", NULL);
    return post_cut_out(r, line, token_begin(&t, i), token_end(&t, i + used - 1), "");
  }
  return line;
}
