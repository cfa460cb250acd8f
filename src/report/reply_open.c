/* Where no change was found: what stands in the way of one, and what would settle it. */
#include <math.h>

#include "report/reply_points.h"
#include "review/findings.h"
#include "words/heeded.h"

enum { UNPROVEN_MOST = 5, FEW_UNPROVEN = 4, FOODS_MOST = 3 };

/* "Turkey heart" inside a sentence; "EPA" stays. */
static const char *in_small_letters(struct gathering *g, const char *words) {
  bool capital = words[0] >= 'A' && words[0] <= 'Z' && words[1] >= 'a' && words[1] <= 'z';
  return capital ? words_text(g->arena, "%c%s", words[0] - 'A' + 'a', words + 1) : words;
}

/* The foods that most often lack a figure where one is needed. */
static const char *foods_without_figures(struct gathering *g) {
  const struct ration *r = g->r->ration;
  size_t *times = ARENA_NEW(g->arena, size_t, r->line_count + 1), n = 0;
  const char *item[FOODS_MOST];
  for (int k = 0; k < NUT_COUNT; k++) {
    if (g->r->nutrient[k].verdict != VERDICT_UNPROVEN) continue;
    const struct supply_list *list = who_supplies(&g->r->nutrient[k]);
    for (size_t i = 0; i < list->missing_count; i++) times[list->missing[i]]++;
  }
  while (n < FOODS_MOST) {
    size_t best = 0;
    for (size_t i = 1; i < r->line_count; i++)
      if (times[i] > times[best]) best = i;
    if (r->line_count == 0 || times[best] == 0) break;
    times[best] = 0;
    item[n++] = in_small_letters(g, words_line(g->arena, g->f->lib, r, (int)best));
  }
  return n > 0 ? words_list(g->arena, item, n, n) : "";
}

static const char *unproven_words(struct gathering *g, size_t *count) {
  const char *item[NUT_COUNT];
  *count = 0;
  for (int i = 0; i < NUT_COUNT; i++)
    if (g->r->nutrient[i].verdict == VERDICT_UNPROVEN) item[(*count)++] = words_nutrient(g->arena, (enum nutrient)i);
  return reply_list(g, item, *count, UNPROVEN_MOST);
}

/* What is in the way of a verdict, and what would settle it. */
static void tell_in_the_way(struct gathering *g) {
  size_t unproven;
  bool many = false;
  const char *uncounted = reply_uncounted(g, &many), *needs = unproven_words(g, &unproven);
  if (unproven == 0) return;
  bool few = g->length == REPLY_LINES;
  double worth = few ? 790 : 78;
  if (uncounted[0]) {
    reply_say(g, REPLY_CHANGE, worth, true,
              words_text(g->arena,
                         "I cannot judge %s until I know what is in %s. A label, or the weight and the kind of food, would "
                         "settle it%s.",
                         g->mostly_unread ? "the bowl" : needs, uncounted,
                         g->mostly_unread ? ""
                         : many           ? "; so would leaving them out for now"
                                          : "; so would leaving it out for now"));
    g->told_uncounted = true;
    return;
  }
  const char *foods = foods_without_figures(g);
  if (!foods[0]) return;
  bool few_needs = unproven < FEW_UNPROVEN;
  reply_say(g, few_needs ? REPLY_SURE : REPLY_CHANGE, few_needs ? 25 : worth, !few_needs,
            words_text(g->arena,
                       "I cannot judge %s: there is no figure for %s. What the seller or maker states would settle it.",
                       needs, foods));
}

/* Does one of the things to act on that are told name an amount that covers it? */
static bool covers_named(const struct gathering *g) {
  size_t told = 0;
  for (size_t i = 0; i < g->r->finding_count; i++) {
    const struct finding *f = &g->r->finding[i];
    if (f->danger || f->weight != FINDING_ACT) continue;
    if (told++ == ACTED_ON_MOST && g->length != REPLY_FULL) return false;
    if (f->covers) return true;
  }
  return false;
}

void reply_tell_none(struct gathering *g) {
  bool few = g->length == REPLY_LINES;
  tell_in_the_way(g);
  if (g->mostly_unread || g->f->why_none == REPLY_NOT_LOOKED) return;
  bool gaps = g->r->verdict_count[VERDICT_SHORT] + g->r->verdict_count[VERDICT_OVER] > 0;
  const char *first =
      g->f->why_none == REPLY_RAN_OUT_OF_TIME
          ? "I did not find one change that covers everything at once in the time that I gave it; there may "
            "be one."
      : g->f->why_none == REPLY_ANOTHER_DINNER
          ? words_text(g->arena, "I found no small change that covers everything at once. %s",
                       words_unlike(g->f->unlike, g->arena))
      : g->f->why_none == REPLY_NO_DINNER
          ? isfinite(g->r->energy.supply_kcal) && energy_is_whole(&g->r->energy)
                ? "There is too little food in this to mend it: it needs more of a dinner first."
                : "I cannot mend this before somebody knows how much energy is in it: its label should say."
          : "I found no change with usual portions that covers everything at once while your own foods stay.";
  reply_say(
      g, REPLY_CHANGE, few ? 780 : 76, true,
      words_text(
          g->arena, "%s%s", first,
          !gaps || g->f->why_none == REPLY_NO_DINNER ? ""
          : few                                      ? " Begin with what is named first."
          : covers_named(g)
              ? " The amounts named below each cover their own gap: begin with the first, and write again with what you "
                "then feed."
              : " Begin with what is named first below, and write again with what you then feed."));
}
