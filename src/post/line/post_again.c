/* "In the evening the same again", "the same minus the egg": the items of the meal before, once more. */
#include "post/line/post_line.h"

/* "the same beef": of that meal the foods that are named; false when none is. */
static bool repeat_named(struct post_reader *r, const struct tokens *t, const struct segment *s) {
  bool any = false;
  if (holds_a(t, s->from, s->to, CLASS_LEAVES_OUT)) return false; /* "the same minus the egg" */
  size_t from = r->meal_before, to = r->meal_from > r->meal_before ? r->meal_from : r->count;
  for (size_t at = s->from; at < s->to; at++) {
    size_t used = post_mention_at(r, t, at);
    for (size_t i = from; i < to && used > 0; i++) {
      struct item *item = &r->item[i];
      if (item->kind != ITEM_FOOD || !span_holds_fold(item->words, t->item[at + used - 1].word)) continue;
      r->taken_grams = item->grams;
      r->taken_food = item->food;
      r->taken_words = item->words;
      post_add(r, item->kind, item->text, post_joined(r, "the same once more, as the post says", r->item[i].assumed));
      any = true;
      break;
    }
    if (used > 1) at += used - 1;
  }
  return any;
}

/* "the same minus the egg", "but no rice": is this line's food what is left out? */
static bool is_left_out(const struct tokens *t, const struct segment *s, const struct item *item) {
  bool minus = false;
  for (size_t i = s->from; i < s->to; i++) {
    minus = minus || says_a(t, i, CLASS_LEAVES_OUT);
    if (minus && is_word(t, i) && t->item[i].word.n > 2 && !token_is_a(&t->item[i], CLASS_CHATTER) &&
        span_holds_fold(item->words, t->item[i].word))
      return true;
  }
  return false;
}

/* "same but 1 egg", "the same without the rice"; not "ditto, only with 10 g of liver on top", nor what was left out by it.
 */
static bool changes_the_same(const struct tokens *t, bool left_out) {
  bool same = false, changed = false;
  for (size_t i = 0; i < t->count; i++) {
    same = same || says(t, i, "same again ditto");
    if (!same || !says(t, i, "but except without minus less more bar only no")) continue;
    bool adds = says(t, i, "but only") && says(t, i + 1, "with plus also and this without no minus only");
    bool leaves = left_out && says(t, i, "without minus no except");
    changed = changed || !(adds || leaves);
  }
  return changed;
}

/* "evenings the same weight of turkey": of a food that the meal before has not; it is no meal once more. */
static bool of_another_food(struct post_reader *r, const struct tokens *t, const struct segment *s) {
  for (size_t i = s->from; i + 2 < s->to; i++)
    if (says(t, i, "same") && says(t, i + 1, "amount weight quantity in by of") && post_names_food(r, t, i + 2, s->to) &&
        (says(t, i + 1, "of") || says(t, i + 2, "of in weight"))) {
      struct span text = tokens_span(t, i, s->to - i);
      post_leave(r, text, "as much of it as of another food, and it could not be read of which", true);
      post_ask(r, 3, "How much is '%.*s', in grams?", SPAN_ARG(post_quote(r, text)));
      return true;
    }
  return false;
}

void post_repeat_meal(struct post_reader *r, const struct tokens *t, const struct segment *s) {
  enum { MOST = 15 };
  if (!holds_a(t, s->from, s->to, CLASS_LEAVES_OUT) && of_another_food(r, t, s)) return;
  for (size_t i = s->from; i + 1 < s->to; i++)
    if (says_same_weight(t, i)) return; /* of a food, and no meal */
  for (size_t i = s->from; i + 2 < s->to + 1; i++) { /* "AM same all week", "the same every day": nothing is fed once more */
    if (!says(t, i, "same")) continue;
    bool always = (says(t, i + 1, "all each every") && says(t, i + 2, "week day days year")) || says(t, i + 1, "daily always") ||
                  (says(t, i + 1, "all") && says(t, i + 2, "the") && says(t, i + 3, "time"));
    bool again = false; /* "evenings the same every day": of the meal before */
    for (size_t k = s->from; k < i; k++) again = again || says(t, k, "evening evenings night nights");
    if (always && !again) return;
  }
  bool meal = r->meal_from > 0 || r->meal_before > 0;
  for (size_t i = 0; i < t->count && !meal; i++)
    meal = is_word(t, i) && token_is_a(&t->item[i], CLASS_MEAL) && !says(t, i, "feed");
  bool label = !meal && (is_mark(t, 1, ':') || is_mark(t, 2, ':')) && s->from < 4; /* "Late: ditto" */
  if ((!meal && !label) || r->count == 0 || repeat_named(r, t, s)) return;
  size_t from = r->meal_from < r->count ? r->meal_from : r->meal_before, to = r->count;
  if (to <= from || to - from > MOST) return;
  for (size_t i = from; i < to; i++) /* "same bowl both times": told for each meal already */
    if (r->item[i].kind == ITEM_FOOD && strstr(r->item[i].text, "at each meal")) return;
  bool left_out = false;
  static const char NOTE[] = "the same once more, as the post says";
  for (size_t i = from; i < to; i++) {
    struct item *item = &r->item[i];
    if (is_left_out(t, s, item)) {
      left_out = true;
      continue;
    }
    r->taken_grams = item->grams;
    r->taken_food = item->food;
    r->taken_words = item->words;
    const char *assumed = strstr(item->assumed, NOTE) ? item->assumed : post_joined(r, NOTE, item->assumed);
    if (item->kind == ITEM_UNKNOWN)
      post_leave(r, span_of(item->text), "the same once more", true);
    else
      post_add(r, item->kind, item->text, assumed);
  }
  for (size_t i = to; i < r->count && label; i++) post_doubt(r, i, "taken for another meal, which the post does not name");
  for (size_t i = to; i < r->count && changes_the_same(t, left_out); i++)
    post_doubt(r, i, "the same once more, but the post changes something of it");
  r->meal_before = from;
}
