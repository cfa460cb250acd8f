/* "OLD was 250 g of mince and 100 g of pasta, NEW is 230 g of venison": of what was and what is now, told one behind the
 * other, the second is fed. */
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

/* "Old:", "the old lot was", "before -": a label where a clause begins, and what stands behind it; its end, 0. */
static size_t label_at(const struct tokens *t, size_t at, const char *words, const char *verbs) {
  size_t i = says(t, at, "the my our") ? at + 1 : at;
  if (at > 0 && t->item[at - 1].kind != TOKEN_MARK && !says(t, at - 1, "and so but")) return 0;
  if (!says(t, i, words)) return 0;
  i++;
  if (says(t, i, "lot one recipe mix bowl diet food menu plan meal meals version list")) i++;
  if (is_mark(t, i, ':') || is_mark(t, i, '=') || says(t, i, verbs)) return i + 1;
  return is_mark(t, i, '-') && !t->item[i].glued ? i + 1 : 0;
}

struct span post_old_new(struct post_reader *r, struct span before, struct span line) {
  struct tokens t = post_tokens(r, line);
  (void)before;
  if (t.count > LINE_MOST_TOKENS) return line;
  for (size_t i = 0; i + 4 < t.count; i++) {
    size_t old = label_at(&t, i, "old before previous previously", "was were had");
    for (size_t k = old; old > 0 && k + 2 < t.count; k++) {
      size_t now = label_at(&t, k, "new now after current", "is are has");
      if (now == 0 || !post_any_amount(&t, now)) continue;
      struct tokens between = tokens_part(&t, old, k);
      if (!post_any_amount(&between, 0)) return line;
      post_note(r, tokens_span(&t, i, k - i), NOT_FED_PAST);
      return post_cut_out(r, line, token_begin(&t, i), token_begin(&t, now), "");
    }
  }
  return line;
}
