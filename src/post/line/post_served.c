/* What is put into the bowl at meals ("I add a softgel to his breakfast"): a day's, and no part of a batch that it stands
 * beside. */
#include "post/line/post_line.h"

/* "to his breakfast", "over dinner", "on top of her evening meal": its end; 0. */
static size_t meal_phrase(const struct tokens *t, size_t at) {
  size_t i = at;
  if (says(t, i, "on") && says(t, i + 1, "top") && says(t, i + 2, "of")) i += 2;
  if (!says(t, i, "to into onto on over with in at of") || (says(t, i, "of") && i == at)) return 0;
  i++;
  if (says(t, i, "his her its their the each every one both")) i++;
  if (says(t, i, "of") && says(t, i + 1, "his her its their the")) i += 2;
  if (says(t, i, "morning evening main last first second midday daily")) i++;
  return says_a(t, i, CLASS_SERVED_MEAL) ? i + 1 : 0;
}

/* "in the morning", "at night", "each evening", "nightly": when a bowl is filled; its end, 0. A batch is cooked then as well. */
static size_t time_phrase(const struct tokens *t, size_t at) {
  bool in = says(t, at, "in") && says(t, at + 1, "the") && says(t, at + 2, "morning mornings evening evenings afternoon");
  bool each = says(t, at, "each every") && says(t, at + 1, "morning evening night afternoon noon");
  size_t end = in ? at + 3 : each || (says(t, at, "at") && says(t, at + 1, "night noon bedtime")) ? at + 2 : 0;
  for (size_t i = 0; i < t->count && end > 0; i++)
    if (says_a(t, i, CLASS_COOKING_DAY_VERB) || says_a(t, i, CLASS_PREPARES_FOOD) || says(t, i, "simmer simmered pot"))
      return 0;
  return end;
}

/* "(1000 mg)" before 'at' belongs to the food before it: where it begins; 'at' none. */
static size_t before_bracket(const struct tokens *t, size_t at) {
  enum { FAR = 8 };
  if (at == 0 || !is_mark(t, at - 1, ')')) return at;
  for (size_t i = at - 1; i > 0 && i + FAR > at; i--)
    if (is_mark(t, i - 1, '(')) return i - 1;
  return at;
}

static bool ends_stretch(const struct tokens *t, size_t at) {
  return is_mark(t, at, ';') || is_mark(t, at, ':') || is_mark(t, at, '.') || is_mark(t, at, '(') || is_mark(t, at, ')');
}

/* Behind the verb of adding that the phrase at 'at' belongs to; else of its own food alone, from the mark or the word before
 * it. */
static size_t begin_of(const struct tokens *t, size_t at) {
  size_t own = before_bracket(t, at);
  at = own;
  while (own > 0 && !ends_stretch(t, own - 1) && !is_mark(t, own - 1, ',') && !says_a(t, own - 1, CLASS_BETWEEN_FOODS))
    own--;
  for (size_t i = at; i > 0 && !ends_stretch(t, i - 1); i--)
    if (says_a(t, i - 1, CLASS_ADDING_VERB)) return i - 1 < own ? i - 1 : own;
  return own;
}

/* Where the phrase stands before its foods ("with breakfast he gets ...", "over her tea goes ..."), these go to the end. */
static size_t end_of(const struct tokens *t, size_t begin, size_t at, size_t behind) {
  struct tokens before = tokens_part(t, begin, at);
  size_t end = behind;
  if (post_any_amount(&before, 0)) return behind;
  while (end < t->count && !ends_stretch(t, end)) end++;
  return end;
}

bool post_is_at_meals(const struct tokens *t, size_t amount) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "split divided divide shared portioned")) return false; /* "split over breakfast and dinner" */
  for (size_t i = 0; i < t->count; i++) {
    size_t behind = meal_phrase(t, i);
    if (behind == 0) behind = time_phrase(t, i);
    if (behind == 0) continue;
    size_t begin = begin_of(t, i), end = end_of(t, begin, i, behind);
    if (amount >= begin && amount < end) return true;
  }
  return false;
}
