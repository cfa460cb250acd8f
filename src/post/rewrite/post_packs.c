/* Packs whose weight stands somewhere else than right before them: "1 15-oz can of pumpkin", "1 (15 oz) can green beans", "1
 * small bag green beans (12 oz)", "frozen veg bag 32 oz" as "15 oz can of pumpkin", "12 oz green beans". */
#include "post/rewrite/post_rewrite.h"

static bool is_pack(const struct tokens *t, size_t at) {
  while (says(t, at, "small large big little medium family sized")) at++;
  return says_a(t, at, CLASS_PACK_WITH_WEIGHT);
}

static struct span cut(struct post_reader *r, const struct tokens *t, struct span text, size_t from, size_t to,
                       const char *instead) {
  return post_cut_out(r, text, token_begin(t, from), token_end(t, to - 1), instead);
}

/* "15-oz can": the hyphen is none of a word; and one of it is one. */
static bool hyphened(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (!is_number(t, i) || !is_mark(t, i + 1, '-') || !t->item[i + 1].glued || i + 2 >= t->count || !t->item[i + 2].glued)
    return false;
  if (!says(t, i + 2, "oz ounce ounces g gram gm gr kg lb pound ml") || !is_pack(t, i + 3)) return false;
  bool one = i > 0 && (says(t, i - 1, "one a") || (is_number(t, i - 1) && t->item[i - 1].value == 1)) && !t->item[i].glued &&
             !(i > 1 && says(t, i - 2, "half quarter third of"));
  struct buf b;
  buf_init(&b, r->arena, 40);
  buf_addf(&b, "%.*s ", SPAN_ARG(t->item[i].at));
  *out = cut(r, t, text, one ? i - 1 : i, i + 2, buf_text(&b));
  return true;
}

/* "2 (15 oz) cans of beans" */
static bool in_bracket(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (i == 0 || !is_mark(t, i, '(')) return false;
  struct post_amount a = post_amount_at(t, i + 1);
  size_t close = i + 1 + a.tokens;
  struct quantity q = quantity_at(t, i - 1);
  if (!(a.is_mass || a.is_volume) || !is_mark(t, close, ')') || !is_pack(t, close + 1)) return false;
  if (q.fault != QUANTITY_FINE || q.tokens != 1 || q.low != q.high || says(t, i - 1, "half quarter")) return false;
  struct buf b;
  buf_init(&b, r->arena, 60);
  amount_write(&b, &a, q.low);
  *out = cut(r, t, text, i - 1, close + 1, buf_text(&b));
  return true;
}

/* "a small bag of green beans (12 oz)": how large it is the bracket tells. */
static bool sized(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (!says(t, i, "small large big little medium family") || !says_a(t, i + 1, CLASS_PACK_WITH_WEIGHT) || i == 0)
    return false;
  if (quantity_at(t, i - 1).fault != QUANTITY_FINE && !says(t, i - 1, "a one")) return false;
  for (size_t k = i + 2; k < t->count && k < i + 9; k++)
    if (post_amount_at(t, k).is_mass && (is_mark(t, k - 1, '(') || is_mark(t, k - 1, ',') || is_mark(t, k - 1, '-'))) {
      *out = cut(r, t, text, i, i + 1, "");
      return true;
    }
  return false;
}

/* "mixed veg frozen bag 32 oz": what it comes in stands behind the food. */
static bool behind(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  if (i == 0 || !says(t, i, "bag pack packet box tub carton punnet") || !is_word(t, i - 1)) return false;
  struct post_amount a = post_amount_at(t, i + 1);
  size_t end = i + 1 + a.tokens;
  if (!a.is_mass || (end < t->count && t->item[end].kind != TOKEN_MARK)) return false;
  bool named = false;
  for (size_t k = i; k-- > 0 && k + 5 > i && is_word(t, k);)
    named = named || post_mention_at(r, t, k) > 0 || says(t, k, "veg veggies vegetables greens");
  if (!named) return false;
  *out = cut(r, t, text, i, i + 1, "");
  return true;
}

/* "Recipe per week (7 bags):", "Week menu, 7 days x 520 g:": how it is packed, and what comes to a day. */
static bool heads_a_week(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  if (t->count < 4 || t->count > 14 || !is_mark(t, t->count - 1, ':')) return false;
  for (size_t i = 1; i + 3 < t->count; i++) {
    bool week = false;
    for (size_t k = 0; k < i; k++) week = week || says(t, k, "week weekly fortnight month");
    if (week && is_mark(t, i, '(') && is_number(t, i + 1) && says_a(t, i + 2, CLASS_VESSEL_OF_SUPPLY) &&
        is_mark(t, i + 3, ')')) {
      *out = cut(r, t, text, i, i + 4, "");
      return true;
    }
    size_t by = i + 2;
    if (is_number(t, i) && says(t, i + 1, "days day") &&
        (says(t, by, "x at of a") || is_mark(t, by, 'x') || is_mark(t, by, '*')) && post_amount_at(t, by + 1).is_mass &&
        by + 1 + post_amount_at(t, by + 1).tokens + 1 == t->count && !post_names_food(r, t, 0, i)) {
      struct buf b;
      buf_init(&b, r->arena, 60);
      buf_addf(&b, "Makes %.*s days:", SPAN_ARG(t->item[i].at));
      *out = cut(r, t, text, 0, t->count, buf_text(&b));
      return true;
    }
  }
  return false;
}

/* "60 g mixed veg as above": what was told of it before is no part of the amount. */
static bool as_above(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { FAR = 6 };
  if (i < 2 || !says(t, i, "as like") || !says(t, i + 1, "above before")) return false;
  if (i + 2 < t->count && t->item[i + 2].kind != TOKEN_MARK) return false;
  bool amount = false;
  for (size_t k = i; k-- > 0 && k + FAR > i && is_word(t, i - 1) && !is_mark(t, k, ',');) {
    struct post_amount a = post_amount_at(t, k);
    amount = amount || a.is_mass || a.is_volume;
  }
  if (!amount) return false;
  *out = cut(r, t, text, i, i + 2, "");
  return true;
}

bool post_packs_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  if (heads_a_week(r, t, text, out)) return true;
  for (size_t i = 0; i + 1 < t->count; i++)
    if (as_above(r, t, text, i, out) || hyphened(r, t, text, i, out) || in_bracket(r, t, text, i, out) ||
        sized(r, t, text, i, out) || behind(r, t, text, i, out))
      return true;
  return false;
}
