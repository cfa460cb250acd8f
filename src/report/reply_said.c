/* Points of a reply and the words that several of them share. */
#include "report/reply_points.h"
#include "review/findings.h"
#include "words/matters.h"

void reply_say(struct gathering *g, enum reply_part_id part, double worth, bool must, const char *text) {
  const struct reply_point x = {.part = part, .text = text, .worth = worth, .must = must};
  ARENA_PUSH(g->arena, g->all.point, g->all.count, g->all.cap, x);
}

bool reply_fasts(const struct gathering *g) {
  const struct ration *r = g->r->ration;
  bool any = false;
  for (int day = 0; day < CALENDAR_DAYS && r->line_count > 0 && r->uncounted_count == 0; day++) {
    bool fed = false;
    for (size_t i = 0; i < r->line_count; i++) fed |= r->line[i].fed_on[day] && r->line[i].grams_fed > 0;
    any |= !fed;
  }
  return any;
}

bool reply_is_by_fast(const struct gathering *g, const struct nutrient_result *n) {
  bool short_of_it = n->verdict == VERDICT_SHORT || n->verdict == VERDICT_THIN;
  return short_of_it && !(n->window_amount > 0) && n->amount >= n->allowance && reply_fasts(g);
}

const char *reply_list(const struct gathering *g, const char *const *item, size_t count, size_t most) {
  return words_list(g->arena, item, count, count == most + 1 ? count : most);
}

const char **reply_uncounted_items(const struct gathering *g, size_t *count) {
  const struct ration *r = g->r->ration;
  const char **item = ARENA_NEW(g->arena, const char *, r->uncounted_count + 1);
  *count = 0;
  for (size_t i = 0; i < r->uncounted_count; i++)
    if (!findings_mark_line(g->r, r->uncounted[i].line) && words_uncounted_matters(g->f->lib, g->r, i, g->arena))
      item[(*count)++] = words_text(g->arena, "“%s”", r->uncounted[i].text);
  return item;
}

const char *reply_waved_through(const struct gathering *g) {
  const struct ration *r = g->r->ration;
  const char **item = ARENA_NEW(g->arena, const char *, r->uncounted_count + 1);
  size_t n = 0;
  for (size_t i = 0; i < r->uncounted_count; i++)
    if (!findings_mark_line(g->r, r->uncounted[i].line) && !words_uncounted_matters(g->f->lib, g->r, i, g->arena))
      item[n++] = words_text(g->arena, "“%s”", r->uncounted[i].text);
  return words_list(g->arena, item, n, n);
}

const char *reply_uncounted(const struct gathering *g, bool *many) {
  size_t n;
  const char **item = reply_uncounted_items(g, &n);
  if (many) *many = n > 1;
  return words_list(g->arena, item, n, n);
}
