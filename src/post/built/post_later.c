/* How much it is, told behind the food: "a spoon of yoghurt at breakfast, a tablespoon I'd say", "a whole mackerel, and
 * that's roughly 280 g", "a large tin of pilchards on Wednesdays, 400 g with all the sauce", "a spoonful oil (tea spoon)".
 */
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

/* "a spoon of", "a whole", "a large tin of": how many tokens; 0. */
static size_t loose_measure(const struct tokens *t, size_t at) {
  size_t i = at;
  if (!says(t, i, "a an one")) return 0;
  if (at > 0 && (says(t, at - 1, "of half third quarter quarters thirds") || is_number(t, at - 1))) return 0; /* "1/4 of a can" */
  if (says(t, i + 1, "whole") && is_word(t, i + 2)) return 2;
  i++;
  if (says(t, i, "large big small good little nice")) i++;
  if (!says(t, i, "spoon spoonful spoonfull bit piece tin can dollop")) return 0;
  return i + 1 - at + says(t, i + 1, "of");
}

/* "tea spoon" in a bracket */
static size_t spoon_alone(const struct tokens *t, size_t at) {
  if (says(t, at, "teaspoon tsp tablespoon tbsp")) return 1;
  return says(t, at, "tea table dessert") && says(t, at + 1, "spoon") ? 2 : 0;
}

/* The amount that is told from the mark at 'at' on, with "roughly" before it; and where its clause ends; "" none. */
static struct span amount_behind(struct post_reader *r, const struct tokens *t, size_t at, size_t *end) {
  static const struct span NONE = {"", 0};
  size_t i = at + 1, from, bare;
  while (says(t, i, "and which that that's thats it it's its is weighs so usually")) i++;
  from = i;
  while (says(t, i, "roughly about around approx ca maybe probably perhaps")) i++;
  struct post_amount a = post_amount_at(t, i);
  bare = (a.tokens == 0 || (a.tokens == 1 && is_word(t, i))) && is_mark(t, at, '(') ? spoon_alone(t, i) : 0;
  if (bare == 0 && !a.is_mass && !a.is_volume) return NONE;
  if (a.tokens > 1 && is_mark(t, i + a.tokens - 1, '.')) a.tokens--; /* "280 g." */
  size_t q = i + (bare > 0 ? bare : a.tokens);
  if (says(t, q, "with")) {
    while (!ends_sentence(t, q) && !is_mark(t, q, ',') && !is_mark(t, q, ')')) q++;
  }
  while (says(t, q, "i'd i say would guess think roughly really or so maybe about that like")) q++;
  if (is_mark(t, at, '(')) {
    if (!is_mark(t, q, ')')) return NONE;
    q++;
  }
  if (!ends_sentence(t, q) && t->item[q].kind != TOKEN_MARK && !is_mark(t, at, '(')) return NONE;
  (void)r;
  *end = q;
  if (bare > 0)
    return span_of(says(t, i, "tea teaspoon tsp") ? "1 tsp" : says(t, i, "dessert") ? "1 dessertspoon" : "1 tbsp");
  return tokens_span(t, from, i + a.tokens - from);
}

struct span post_later(struct post_reader *r, struct span before, struct span line) {
  enum { NEAR = 12 };
  struct tokens t = post_tokens(r, line);
  (void)before;
  if (t.count > LINE_MOST_TOKENS) return line;
  for (size_t i = 0; i + 3 < t.count; i++) {
    size_t used = loose_measure(&t, i), food = i + used, end;
    if (used == 0 || (end = post_food_end(r, &t, food)) == food) continue;
    for (size_t k = end; k < t.count && k < end + NEAR && !ends_sentence(&t, k); k++) {
      size_t to = k;
      if (post_amount_at(&t, k).tokens > 0 && !says(&t, k, "a an")) break;
      if (!is_mark(&t, k, ',') && !is_mark(&t, k, '(') && !is_mark(&t, k, '-')) continue;
      struct span amount = amount_behind(r, &t, k, &to);
      if (amount.n == 0) break;
      struct span cut = post_cut_out(r, line, token_end(&t, k - 1), token_end(&t, to - 1), "");
      struct buf b;
      buf_init(&b, r->keep, amount.n + 4);
      buf_addf(&b, "%.*s", SPAN_ARG(amount));
      const char *from = cut.p + (token_begin(&t, i) - line.p);
      return post_cut_out(r, cut, from,
                          from + (token_end(&t, says(&t, food - 1, "whole") ? food - 2 : food - 1) - token_begin(&t, i)),
                          buf_text(&b));
    }
  }
  return line;
}
