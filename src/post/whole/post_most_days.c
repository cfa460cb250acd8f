/* "2 eggs most days", "nearly every day": counted daily, which is said beside each line that it is said of, and asked once.
 */
#include "post/whole/post_whole.h"

/* Do the words stand between foods, so that they are said of those behind them alone? "200 g beef, and most days an egg" */
static bool begins_next_food(struct post_reader *r, const struct tokens *t, size_t at, size_t behind) {
  bool joined = at > 0 && (is_mark(t, at - 1, ',') || is_mark(t, at - 1, ';') || is_mark(t, at - 1, '&') ||
                           is_mark(t, at - 1, '+') || says(t, at - 1, "and plus then also"));
  struct tokens before = {t->item, at};
  return joined && post_any_amount(&before, 0) && (post_any_amount(t, behind) || post_names_food(r, t, behind, t->count));
}

/* Does the line say how often by words that are no part of these? The "every day" of "nearly every day" is. */
static bool is_told_otherwise(struct post_reader *r, const struct item *item, bool says_daily) {
  struct tokens t = tokens_of(span_of(item->text), r->arena);
  for (size_t i = 0; i < t.count; i++) {
    struct frequency f = frequency_at(&t, i);
    if (f.tokens > 0 && !(says_daily && f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1)) return true;
  }
  return false;
}

static bool stands_before(const struct post_reader *r, size_t item, const char *place) {
  for (size_t c = 0; c < r->claim_count; c++) {
    const struct claim *line = &r->claim[c];
    if (line->kind == CLAIM_LINE && line->first <= item && item < line->last) return line->text.p + line->text.n <= place;
  }
  return false;
}

static void ask_of(struct post_reader *r, const size_t *item, size_t count, struct span said) {
  enum { NAMED_MOST = 3 };
  struct buf b;
  r->ask_of = item[0] + 1;
  if (count == 1) {
    post_ask(r, 2, "On how many days a week is '%s' fed, which you write is %.*s? It was counted every day.",
             r->item[item[0]].text, SPAN_ARG(said));
  } else {
    buf_init(&b, r->arena, 4096);
    for (size_t i = 0; i < count && i < NAMED_MOST; i++)
      buf_addf(&b, "%s'%s'", i == 0 ? "" : i + 1 == count ? " and " : ", ", r->item[item[i]].text);
    if (count > NAMED_MOST) buf_addf(&b, " and %zu more", count - NAMED_MOST);
    post_ask(r, 2, "On how many days a week are these fed, of which you write '%.*s': %s? They were counted every day.",
             SPAN_ARG(said), buf_text(&b));
  }
  r->ask_of = 0;
}

void post_doubt_most_days(struct post_reader *r, struct span text, size_t items) {
  struct tokens t = post_tokens(r, text);
  for (size_t i = 0; i < t.count; i++) {
    size_t used = phrase_of(&t, i, CLASS_ALMOST_DAILY), count = 0;
    if (used == 0) continue;
    bool says_daily = !says(&t, i, "most");
    bool next = begins_next_food(r, &t, i, i + used);
    struct span said = tokens_span(&t, i, used);
    size_t *of = ARENA_NEW(r->arena, size_t, r->count - items + 1);
    for (size_t k = items; k < r->count; k++) {
      if (r->item[k].kind != ITEM_FOOD || is_told_otherwise(r, &r->item[k], says_daily)) continue;
      if (next && stands_before(r, k, said.p)) continue;
      post_doubt(r, k, "fed on most days, and counted every day");
      of[count++] = k;
    }
    if (count > 0) ask_of(r, of, count, said);
    return;
  }
}
