/* "I leave out the salt and use sunflower instead of safflower": what a recipe has and its reader does not feed, said behind
 * it. */
#include "post/govern/post_govern.h"

/* One line of food has the word: which; r->count none or several. */
static size_t only_item_with(const struct post_reader *r, struct span word) {
  size_t found = r->count;
  for (size_t k = 0; k < r->count; k++) {
    if (r->item[k].kind != ITEM_FOOD || !net_has_word(span_of(r->item[k].text), word)) continue;
    if (found < r->count) return r->count;
    found = k;
  }
  return found;
}

/* Only what is done always, and by the writer: no days, no question, nobody's advice. */
static bool is_of_today(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "if should could would can may said says told suggested when unless sometimes until before used ?") ||
        is_mark(t, i, '?') || frequency_at(t, i).tokens > 0 || says_a(t, i, CLASS_OTHER_DAYS))
      return false;
  return true;
}

/* "the salt", "salt": the name of a food there, its last word; n 0 none. */
static struct span food_said(struct post_reader *r, const struct tokens *t, size_t at, size_t *end) {
  if (says(t, at, "the any all that its")) at++;
  size_t used = post_mention_at(r, t, at);
  if (used == 0 && is_word(t, at) && only_item_with(r, t->item[at].word) < r->count) used = 1;
  *end = at + used;
  return used > 0 ? t->item[at + used - 1].word : (struct span){"", 0};
}

static bool leaves_out(struct post_reader *r, const struct heard *h, const struct tokens *t, size_t i) {
  size_t at = i + 1, end;
  if (i == 0 || !says(t, i - 1, "i we i've we've just always and but") ||
      !says(t, i, "leave left omit omitted skip skipped"))
    return false;
  bool out = says(t, at, "out off");
  if (out) at++;
  struct span word = food_said(r, t, at, &end);
  if (word.n == 0 || (says(t, i, "leave left") && !out && !says(t, end, "out off"))) return false;
  size_t item = only_item_with(r, word);
  if (item == r->count || r->item[item].line >= h->line) return false;
  r->line = r->item[item].line;
  post_note(r, span_of(r->item[item].text), "the post says that it is left out");
  net_forget_item(r, item);
  return true;
}

/* "use sunflower instead of safflower", "sunflower oil in place of the safflower oil" */
static void stands_for(struct post_reader *r, const struct heard *h, const struct tokens *t, size_t i) {
  size_t behind = says(t, i, "instead") && says(t, i + 1, "of") ? i + 2
                  : phrase_at(t, i, "in place of") > 0          ? i + 3
                                                                : 0,
         end, from = i;
  if (behind == 0 || i == 0) return;
  struct span old = food_said(r, t, behind, &end);
  while (from > 0 && is_word(t, from - 1) && i - from < 3 &&
         !says(t, from - 1, "use used using add feed give i we and the put in"))
    from--;
  if (old.n == 0 || from == i || from == 0 || !says(t, from - 1, "use used using add feed give put the")) return;
  struct tokens part = tokens_part(t, from, i);
  if (post_any_amount(&part, 0)) return;
  if (says(t, behind, "the")) behind++;
  struct span before = tokens_span(t, behind, end - behind), now = tokens_span(t, from, i - from);
  size_t at = only_item_with(r, t->item[behind].word);
  if (at == r->count || r->item[at].line >= h->line) return;
  struct item *item = &r->item[at];
  struct span text = span_of(item->text);
  for (size_t k = 0; k + before.n <= text.n; k++) {
    if (!span_eq_fold(span_cut(text, k, k + before.n), before)) continue;
    struct buf b, note;
    const char *assumed;
    buf_init(&b, r->keep, text.n + now.n + 8);
    buf_addf(&b, "%.*s%.*s%.*s", (int)k, text.p, SPAN_ARG(now), (int)(text.n - k - before.n), text.p + k + before.n);
    if (!strict_takes(r, buf_text(&b), &assumed, NULL)) return;
    buf_init(&note, r->keep, 100);
    buf_addf(&note, "in the place of %.*s, as the post says further down", SPAN_ARG(before));
    *item = (struct item){.kind = ITEM_FOOD,
                          .line = item->line,
                          .text = buf_text(&b),
                          .assumed = buf_text(&note),
                          .grams = r->taken_grams,
                          .food = r->taken_food,
                          .words = span_of(arena_text(r->keep, r->taken_words)),
                          .served = item->served,
                          .at_meals = item->at_meals,
                          .sentence = item->sentence,
                          .meal = item->meal,
                          .timed = item->timed,
                          .own = item->own};
    return;
  }
}

void post_left_out(struct post_reader *r) {
  for (size_t k = 0; k < r->heard_count; k++) {
    const struct heard *h = &r->heard[k];
    struct tokens t = post_tokens(r, h->text);
    if (!is_of_today(&t)) continue;
    for (size_t i = 0; i < t.count; i++)
      if (!leaves_out(r, h, &t, i)) stands_for(r, h, &t, i);
  }
  r->line = 0;
}
