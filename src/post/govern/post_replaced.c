/* "I've replaced the rice with the same weight of potato": what a sentence says of a line above it, without an edit. */
#include "post/govern/post_govern.h"
#include "post/rewrite/post_rewrite.h"

/* The one line above the sentence whose food has this word; r->count none, or several. */
static size_t line_above(const struct net *n, struct span word) {
  const struct post_reader *r = n->r;
  size_t found = r->count;
  if (word.n < 3 || is_chatter(word) || net_is_kind(word)) return found;
  for (size_t k = 0; k < r->count; k++) {
    if (r->item[k].kind != ITEM_FOOD || r->item[k].sentence >= n->number || !net_has_word(r->item[k].words, word)) continue;
    if (found < r->count) return r->count;
    found = k;
  }
  return found;
}

static bool on_some_days_only(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens > 0 && (f.days != 0 || f.refuse || f.times_per_28 < CALENDAR_DAYS)) return true;
    if (f.tokens > 0) i += f.tokens - 1;
  }
  return false;
}

/* The line of this sentence that is of the food at 'at'; r->count. */
static size_t line_here(struct net *n, size_t at, size_t tokens) {
  for (size_t k = 0; k < n->r->count; k++)
    if (n->r->item[k].kind == ITEM_FOOD && n->r->item[k].sentence == n->number && net_item_is(n, &n->r->item[k], at, tokens))
      return k;
  return n->r->count;
}

/* The old line gets the other food, as much of it. */
static bool gets_its_place(struct net *n, size_t old, size_t food, size_t end) {
  struct post_reader *r = n->r;
  struct tokens own = post_tokens(r, span_of(r->item[old].text));
  struct post_amount a = own.count > 0 ? post_amount_at(&own, 0) : (struct post_amount){0};
  size_t from = food;
  while (from > 0 && says(&n->t, from - 1, "cooked boiled steamed mashed raw baked roast roasted poached minced ground"))
    from--;
  if (a.tokens == 0) return false;
  struct buf b;
  buf_init(&b, r->arena, strlen(r->item[old].text) + n->h->text.n + 40);
  buf_addf(&b, "%.*s %.*s", SPAN_ARG(tokens_span(&own, 0, a.tokens)), SPAN_ARG(tokens_span(&n->t, from, end - from)));
  for (size_t i = a.tokens; i < own.count; i++)
    if (frequency_at(&own, i).tokens > 0) {
      buf_addf(&b, ", %.*s", SPAN_ARG(tokens_span(&own, i, frequency_at(&own, i).tokens)));
      break;
    }
  return net_rewrite(n, old, buf_text(&b), "is that fed in its place, as much of it?");
}

/* "replaced the rice with quinoa", "swapped the beef for 300 g of lamb". */
bool net_replaced(struct net *n) {
  enum { FAR = 4 };
  struct post_reader *r = n->r;
  const struct tokens *t = &n->t;
  const char *why = not_fed(t);
  if (n->asks || (why && why != NOT_FED_PAST) || on_some_days_only(t)) return false;
  for (size_t i = 0; i + 3 < t->count; i++) {
    if (!says_a(t, i, CLASS_REPLACED)) continue;
    size_t old = r->count, at = i + 1;
    for (; at < t->count && at <= i + FAR && !says(t, at, "with for by to"); at++)
      if (is_word(t, at) && old == r->count) old = line_above(n, t->item[at].word);
    if (old == r->count || !says(t, at, "with for by to")) continue;
    size_t food = at + 1, used = 0;
    while (food < t->count && food < at + 9 && !net_ends_clause(t, food) && (used = post_mention_at(r, t, food)) == 0)
      food++;
    if (used == 0 || net_is_kind(t->item[food + used - 1].word)) continue;
    if (line_here(n, food, used) == r->count) return gets_its_place(n, old, food, post_food_end(r, t, food));
    r->item[old].kind = ITEM_GONE;
    r->line = n->h->line;
    post_note(r, span_of(r->item[old].text), "another food stands in its place, as the post says");
    size_t now = line_here(n, food, used);
    post_doubt(r, now, "taken instead of another food, which is left out");
    r->ask_of = now + 1;
    post_ask(r, 2, "Is '%s' no longer fed? You write '%.*s'.", r->item[old].text, SPAN_ARG(post_quote(r, n->h->text)));
    r->ask_of = 0;
    return false;
  }
  return false;
}
