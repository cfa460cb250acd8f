/* Part of a tin whose weight is told, before it or behind its food: "half a can of pumpkin (425 g)", "a third of a 400 g tin
 * of salmon"; or of all of them: "half a can of tuna daily, cans are 112 g drained": so many grams of what is in it. */
#include "base/num.h"
#include "post/rewrite/post_rewrite.h"

/* The food as it comes out of a tin, "canned" or else cooked, as far as any table has it: the word before it. */
static const char *out_of_tin(struct post_reader *r, struct span food) {
  static const char *const WORD[] = {"canned ", "cooked "};
  const char *assumed;
  for (size_t i = 0; i < COUNT_OF(WORD); i++) {
    struct buf b;
    buf_init(&b, r->arena, food.n + 24);
    buf_addf(&b, "1 g %s%.*s", WORD[i], SPAN_ARG(food));
    if (strict_takes(r, buf_text(&b), &assumed, NULL)) return WORD[i];
  }
  return "";
}

/* "half a", "1/4 of a", "0.5": which part of one, and how many tokens; 0. */
static size_t part_at(const struct tokens *t, size_t at, double *part) {
  size_t used = post_part_at(t, at, part);
  if (used == 0 && says(t, at, "quarter third")) *part = says(t, at, "third") ? 1.0 / 3 : 0.25, used = 1;
  struct quantity q = quantity_at(t, at);
  if (used == 0 && q.fault == QUANTITY_FINE && q.low == q.high && q.low > 0 && q.low < 1) *part = q.low, used = q.tokens;
  if (used == 0 || !(*part > 0 && *part < 1)) return 0;
  if (says(t, at + used, "of")) used++;
  if (says(t, at + used, "a an the one my his her each")) used++;
  return used;
}

/* What the tin weighs, told behind its food: "(425 g)", "(425 g cans)", ", 425 g tin"; its tokens, 0. Not what may be the
 * weight of the part itself: "half a tin of tuna, about 50 g each time", "half a tin of salmon (213 g)". */
static size_t weight_behind(const struct tokens *t, size_t at, double part, struct post_amount *weight, bool *drained,
                            bool *doubtful) {
  static const double LARGEST_TIN_G = 500; /* own choice: what is sold for the table */
  bool bracket = is_mark(t, at, '('), named = false;
  if (!bracket && !is_mark(t, at, ',')) return 0;
  size_t i = at + 1;
  while (says(t, i, "the a small large big about around those")) i++;
  *weight = post_amount_at(t, i);
  if (!weight->is_mass || weight->low != weight->high) return 0;
  named = weight->tinned;
  i += weight->tokens;
  *drained = false;
  for (size_t words = i; is_word(t, i) && i < words + 5; i++) {
    *drained = *drained || says(t, i, "drained");
    named = named || says(t, i, "tin can tins cans");
  }
  if (!named && bracket && is_mark(t, i, ')')) *doubtful = true;
  if (!named && (!bracket || post_in_grams(weight) / part <= LARGEST_TIN_G)) return 0;
  if (!bracket) return i - at;
  return is_mark(t, i, ')') ? i + 1 - at : 0;
}

static bool write_part(struct post_reader *r, struct span text, const char *from, const char *to, double amount,
                       const char *unit, struct span food, bool drained, struct span *out) {
  struct buf b;
  buf_init(&b, r->arena, food.n + 80);
  num_sig(&b, amount, 4);
  buf_addf(&b, " %s %s%.*s%s", unit, out_of_tin(r, food), SPAN_ARG(food), drained ? ", drained" : "");
  *out = post_cut_out(r, text, from, to, buf_text(&b));
  return true;
}

/* ", cans are 112 g drained", "(tins are 125 g)": what all tins of the sentence weigh, from 'from' to 'to'; false: nothing
 * says it. */
static bool all_tins_weigh(const struct tokens *t, struct post_amount *weight, bool *drained, size_t *from, size_t *to) {
  for (size_t i = 1; i + 2 < t->count; i++) {
    size_t begin = says(t, i, "the a one each") ? i + 1 : i, at = begin + 1;
    if (!says(t, begin, "tins cans tin can") || !says(t, at, "are is weigh weighs hold holds")) continue;
    if (t->item[i - 1].kind != TOKEN_MARK) continue;
    for (at++; says(t, at, "about around the usual small roughly");) at++;
    *weight = post_amount_at(t, at);
    if (!weight->is_mass || weight->low != weight->high) continue;
    at += weight->tokens;
    *drained = says(t, at, "drained");
    while (says(t, at, "drained each ones weight net")) at++;
    if (is_mark(t, i - 1, '(') ? !is_mark(t, at, ')') : at < t->count && t->item[at].kind != TOKEN_MARK) continue;
    *from = i - 1, *to = is_mark(t, i - 1, '(') ? at + 1 : at;
    return true;
  }
  return false;
}

/* "2 cans of tuna daily, cans are 112 g drained": the one food of them as grams, and the rest of its words. */
static bool write_all_tins(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  enum { FOOD_MOST = 5 };
  struct post_amount weight;
  bool drained;
  size_t from, to, found = t->count, food = 0, end = 0, tins = 0;
  double many = 0;
  if (!all_tins_weigh(t, &weight, &drained, &from, &to)) return false;
  for (size_t i = 0; i + 2 < from; i++) {
    double part;
    size_t used = part_at(t, i, &part);
    struct quantity q = quantity_at(t, i);
    if (used == 0 && q.fault == QUANTITY_FINE && q.low == q.high) part = q.low, used = q.tokens;
    if (used == 0 || !says(t, i + used, "tin tins can cans")) continue;
    tins++;
    found = i, many = part, food = i + used + 1;
    if (says(t, food, "of")) food++;
    for (end = food; end < from && is_word(t, end) && end < food + FOOD_MOST && frequency_at(t, end).tokens == 0;) end++;
    i = food;
  }
  if (tins != 1 || end == food || !post_names_food(r, t, food, end)) return false;
  struct span name = tokens_span(t, food, end - food);
  struct buf b;
  buf_init(&b, r->arena, text.n + 80);
  num_sig(&b, many * weight.low, 4);
  buf_addf(&b, " %s %s%.*s%s", weight.unit, out_of_tin(r, name), SPAN_ARG(name), drained ? ", drained" : "");
  if (end < from) buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(t, end, from - end)));
  const char *begin = t->item[found].at.p, *behind = t->item[to - 1].at.p + t->item[to - 1].at.n;
  *out = post_cut_out(r, text, begin, behind, buf_text(&b));
  return true;
}

bool post_part_of_tin(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  enum { FOOD_MOST = 5 };
  if (write_all_tins(r, t, text, out)) return true;
  for (size_t i = 0; i + 2 < t->count; i++) {
    double part;
    size_t used = part_at(t, i, &part), tin = i + used;
    if (used == 0) continue;
    bool of = false; /* "half a 400 g tin" is read as it stands */
    for (size_t k = i; k < tin; k++) of = of || says(t, k, "of");
    if (!of && post_amount_at(t, i).tinned) continue;
    struct post_amount weight = is_number(t, tin) ? post_amount_at(t, tin) : (struct post_amount){0};
    bool before = weight.is_mass && weight.low == weight.high, drained = false;
    if (before) tin += weight.tokens;
    bool packed = before && weight.tinned; /* the amount has taken the word */
    if (!packed && !says(t, tin, "tin can tins cans")) continue;
    size_t food = packed ? tin : tin + 1, behind;
    if (says(t, food, "of")) food++;
    size_t end = food;
    while (is_word(t, end) && end < food + FOOD_MOST && !says(t, end, "and with plus a per each every daily")) end++;
    if (end == food || !post_names_food(r, t, food, end)) continue;
    struct span name = tokens_span(t, food, end - food);
    bool doubtful = false;
    behind = before ? 0 : weight_behind(t, end, part, &weight, &drained, &doubtful);
    if (!before && behind == 0 && doubtful)
      post_ask(r, 2.5, "In '%.*s': does the whole tin hold so much, or the part that is fed? It was taken for the tin.",
               SPAN_ARG(post_quote(r, tokens_span(t, i, end + 4 < t->count ? end + 4 - i : t->count - i))));
    if (!before && behind == 0) continue;
    const char *from = t->item[i].at.p, *to = t->item[end + behind - 1].at.p + t->item[end + behind - 1].at.n;
    return write_part(r, text, from, to, part * weight.low, weight.unit, name, drained, out);
  }
  return false;
}
