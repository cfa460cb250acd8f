/* Bought with its bones, and weighed without them: "5 lb bone-in thighs (I take the bones out, ends up about 3 lb meat)" is
 * 3 lb of thighs without bone. What is left is what is fed. */
#include "post/rewrite/post_rewrite.h"

static bool is_bone(const struct tokens *t, size_t at) { return says(t, at, "bone bones bone-in"); }

/* "bone-in", "bone in", "with the bone", "on the bone": the tokens; 0. */
static size_t with_bone(const struct tokens *t, size_t at) {
  if (says(t, at, "bone-in")) return 1;
  if (says(t, at, "bone") && is_mark(t, at + 1, '-') && says(t, at + 2, "in")) return 3;
  if (says(t, at, "bone") && says(t, at + 1, "in")) return 2;
  size_t the = says(t, at + 1, "the its") ? 2 : 1;
  return says(t, at, "with on") && is_bone(t, at + the) ? the + 1 : 0;
}

bool post_taken_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  enum { FAR = 3, HEAD_MOST = 8 };
  for (size_t i = 3; i + 1 < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_ENDS_UP), at = i + used;
    if (used == 0) continue;
    while (says(t, at, "as about around at to with roughly me maybe only just")) at++;
    struct post_amount left = post_amount_at(t, at);
    size_t end = at + left.tokens;
    bool meat = false;
    for (size_t k = end; k < end + FAR && k < t->count && is_word(t, k); k++)
      if (says(t, k, "meat flesh boned deboned boneless picked clean peeled trimmed edible")) meat = true, end = k + 1;
    if (!left.is_mass || !meat) continue;
    size_t amount = t->count;
    struct post_amount own = {0};
    for (size_t k = 0; k < i && amount == t->count; k++) {
      own = post_amount_at(t, k);
      if (own.is_mass && not_an_amount(t, k) == 0) amount = k;
    }
    if (amount == t->count) continue;
    size_t food = amount + own.tokens, stop = food;
    if (says(t, food, "of")) food++;
    while (stop < i && !is_mark(t, stop, '(') && !is_mark(t, stop, ',') && !is_mark(t, stop, ';') &&
           !is_mark(t, stop, ':') && !(is_mark(t, stop, '-') && !t->item[stop].glued))
      stop++;
    if (!post_names_food(r, t, food, stop) || !(post_in_grams(&left) < post_in_grams(&own))) continue;
    bool skin = false;
    for (size_t k = stop; k < end; k++) skin = skin || says(t, k, "skin skins");
    struct buf b;
    buf_init(&b, r->arena, text.n + 60);
    buf_add(&b, tokens_span(t, at, left.tokens));
    for (size_t k = food; k < stop; k++) {
      size_t bone = with_bone(t, k);
      if (bone > 0) {
        k += bone - 1;
        continue;
      }
      buf_addf(&b, " %.*s", SPAN_ARG(t->item[k].at));
    }
    buf_addf(&b, ", boneless%s", skin ? ", no skin" : "");
    if (is_mark(t, end, ')')) end++;
    *out = post_cut_out(r, text, token_begin(t, amount), token_end(t, end - 1), buf_text(&b));
    return true;
  }
  return false;
}
