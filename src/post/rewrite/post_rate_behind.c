/* An amount for many days, and behind it what that is a day: "6 tsp of eggshell powder, so one tsp a day", "14 tsp olive oil
 * (1 a day)", "7 eggs, that's one a day". What is fed a day is the one that counts. */
#include "post/rewrite/post_rewrite.h"

static bool is_daily(const struct tokens *t, size_t at, size_t *used) {
  struct frequency f = frequency_at(t, at);
  *used = f.tokens;
  return f.tokens > 0 && f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal && !f.refuse && !f.other_days;
}

/* "so", "that's", "which is", or the bracket alone: the tokens up to the amount of a day; 0. */
static size_t so_at(const struct tokens *t, size_t at) {
  size_t i = at;
  bool bracket = is_mark(t, i, '('),
       marked = bracket || is_mark(t, i, ',') || is_mark(t, i, '-') || is_mark(t, i, ';') || is_mark(t, i, '='), so = false;
  if (marked) i++;
  for (; i < at + 5 &&
         (says(t, i, "so thats that's that is which i.e ie makes meaning about ie. it's its") || is_mark(t, i, '='));
       i++)
    so = true;
  return so || bracket || (marked && is_mark(t, at, '=')) ? i - at : 0;
}

bool post_rate_behind(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  enum { NAME_MOST = 7, BEHIND_MOST = 3 };
  for (size_t i = 0; i + 3 < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0) continue;
    size_t from = i + a.tokens, at = from, so = 0;
    bool spoon = a.is_volume || (a.bare && !a.by_word);
    if (says(t, from, "of")) from = at = from + 1;
    while (spoon && at < t->count && at < from + NAME_MOST && (so = at > from ? so_at(t, at) : 0) == 0 && is_word(t, at))
      at++;
    if (so == 0 || !post_names_food(r, t, from, at)) continue;
    size_t rate = at + so, used = 0;
    struct post_amount b = post_amount_at(t, rate);
    size_t behind = rate + b.tokens, last = behind;
    while (last < behind + BEHIND_MOST && is_word(t, last) && !is_daily(t, last, &used)) last++;
    if (b.tokens == 0 || !is_daily(t, last, &used) || !(b.low < a.low)) continue;
    bool same = strcmp(a.unit, b.unit) == 0 || (b.bare && last == behind && a.is_volume);
    if (!same || (last > behind && !a.bare)) continue;
    size_t end = last + used;
    if (is_mark(t, at, '(') && is_mark(t, end, ')')) end++;
    struct buf w;
    buf_init(&w, r->arena, text.n + 60);
    buf_addf(&w, "%.*s%s%s %.*s %.*s", SPAN_ARG(tokens_span(t, rate, b.tokens)), b.bare && a.is_volume ? " " : "",
             b.bare && a.is_volume ? a.unit : "", SPAN_ARG(tokens_span(t, from, at - from)),
             SPAN_ARG(tokens_span(t, last, used)));
    *out = post_cut_out(r, text, token_begin(t, i), token_end(t, end - 1), buf_text(&w));
    return true;
  }
  return false;
}
