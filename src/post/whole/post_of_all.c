/* How often, told once of all the foods before it. */
#include "post/whole/post_whole.h"

/* "that's per meal", "in each meal, not a day": the amounts are those of a meal; those of "a day, not a meal" are not. */
static bool tells_of_meals(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (phrase_of(t, i, CLASS_OF_ONE_MEAL) > 0 && !(i > 0 && says(t, i - 1, "not isn't isnt no"))) return true;
  return false;
}

/* "twice daily", "three times a day"; "" none. */
static const char *times_a_day(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens == 0) continue;
    if (!f.refuse && f.feedings > 1 && f.times_per_28 == CALENDAR_DAYS)
      return arena_text(r->arena, tokens_span(t, i, f.tokens));
    i += f.tokens - 1;
  }
  return "";
}

bool post_said_of_all(struct post_reader *r, const struct tokens *t, struct span text) {
  enum { MOST_TOKENS = 26 };
  bool points = false;
  if (t->count > MOST_TOKENS || !post_any_food(r) || r->makes_days > 0 || r->makes_meals > 0) return false;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens > 0 && !a.bare && !a.cannot) return false; /* "one bowl" is none */
    if (says(t, i, "split divided over between into")) return false;
    points = points || says_a(t, i, CLASS_POINTS_BACK);
  }
  bool meals = tells_of_meals(t);
  const char *often = meals ? "at each meal" : times_a_day(r, t);
  if (!points || !often[0] || post_names_food(r, t, 0, t->count)) return false;
  if (meals && post_meals_said(t) > 1) r->meals_a_day = post_meals_said(t);
  struct buf note;
  buf_init(&note, r->arena, 120);
  buf_addf(&note, "%s, as the post says of all", often);
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    if (item->kind != ITEM_FOOD || item->served || post_tells_often(r, item)) continue;
    struct buf b;
    buf_init(&b, r->keep, strlen(item->text) + strlen(often) + 8);
    buf_addf(&b, "%s, %s", item->text, often);
    item->text = buf_text(&b);
    item->timed = true;
    post_doubt(r, i, buf_text(&note));
  }
  post_ask(r, 2.5, "Is '%.*s' said of all the foods above? It was taken so.", SPAN_ARG(post_quote(r, text)));
  post_claim(r, text, CLAIM_TOLD, 0, 0);
  return true;
}

/* "2x daily each of those", "all of that every day": how often the foods of this line that were told before are fed. */
bool post_told_of_those(struct post_reader *r, const struct tokens *t) {
  bool those = false;
  for (size_t i = 0; i < t->count; i++) those = those || says(t, i, "those these that all both everything") ||
                                                    (says(t, i, "each") && frequency_at(t, i).tokens == 0);
  const char *often = post_often_in(r, t, 0, t->count);
  for (size_t i = 0; i < t->count; i++)
    if (frequency_at(t, i).refuse) return false; /* "now and then" */
  if (t->count > 9 || !those || !often[0] || r->line_from >= r->count || post_names_food(r, t, 0, t->count)) return false;
  for (size_t i = 0; i < t->count; i++)
    if (post_amount_at(t, i).tokens > 0 && !post_amount_at(t, i).bare) return false;
  for (size_t i = r->line_from; i < r->count; i++) {
    struct item *item = &r->item[i];
    struct tokens own = tokens_of(span_of(item->text), r->arena);
    bool told = item->kind != ITEM_FOOD;
    for (size_t k = 0; k < own.count; k++) told = told || frequency_at(&own, k).tokens > 0;
    if (told) continue;
    struct buf b;
    buf_init(&b, r->keep, strlen(item->text) + strlen(often) + 8);
    buf_addf(&b, "%s, %s", item->text, often);
    item->text = buf_text(&b);
  }
  return true;
}

/* "Twice a day" in a line of its own, and no food below it. */
void post_doubt_headings(struct post_reader *r) {
  if (!r->period[0] || r->period_line == 0 || !post_any_food(r)) return;
  size_t said = 0; /* the sentence of it, where the line has others */
  for (size_t h = 0; h < r->heard_count; h++)
    if (r->heard[h].line == r->period_line && r->heard[h].text.n <= strlen(r->period) + 2 &&
        span_holds_fold(r->heard[h].text, span_of(r->period)))
      said = h + 1;
  for (size_t i = 0; i < r->count; i++)
    if (r->item[i].kind != ITEM_GONE &&
        (r->item[i].line > r->period_line || (r->item[i].line == r->period_line && r->item[i].sentence >= said)))
      return;
  r->line = r->period_line;
  post_ask(r, 3, "What is fed '%s'? No food is written below it, and those above were read without it.", r->period);
  for (size_t i = 0; i < r->count; i++)
    if (r->item[i].kind == ITEM_FOOD && !post_tells_often(r, &r->item[i]))
      post_doubt(r, i, "read without how often, which is written below it");
  r->line = 0;
}
