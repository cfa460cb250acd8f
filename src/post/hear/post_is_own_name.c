/* Is a word the name of the animal, which is called as a food is? Asked wherever foods are looked for; heard in
 * post_own_name.c, which looks for foods itself. */
#include "post/hear/post_hear.h"

bool post_is_own_name(const struct post_reader *r, const struct tokens *t, size_t at) {
  if (r->own_name.n == 0 || !is_word(t, at)) return false;
  struct span w = t->item[at].at;
  if (w.n == r->own_name.n + 2 && w.p[w.n - 1] == 's') w.n -= 2; /* "Olive's" */
  bool eats =
      says_a(t, at + 1, CLASS_EATER_VERB) || says(t, at + 1, "is loves likes hates won't"); /* "every day moose gets" */
  if (!(eats ? span_eq_fold(w, r->own_name) : span_eq(w, r->own_name)) || is_number(t, at + 1)) return false;
  return at == 0 || !(is_number(t, at - 1) || says_a(t, at - 1, CLASS_UNIT) || says(t, at - 1, "of fresh dried"));
}
