/* Meals of a mix whose parts stand elsewhere: "3 meals of 250 g each of the following mix", "twice a day a bowl of 180 g of
 * the mix", "every meal is 200 g of the mix below and she has two meals". */
#include "post/whole/post_whole.h"

static bool is_meal(const struct tokens *t, size_t at) {
  return says(t, at, "meal meals bowl bowls portion portions serving servings feed feeds feeding feedings dinners");
}

/* "3 meals of", "two equal meals with", before the amount at 'at': how many, and where it begins; 0. */
static double meals_before(const struct tokens *t, size_t at, size_t *from) {
  enum { FAR = 5 };
  if (at < 2 || !says(t, at - 1, "of at with x")) return 0;
  size_t meal = at - 2;
  if (says(t, meal, "day") && meal > 1 && says(t, meal - 1, "a per each")) meal -= 2; /* "3 meals a day of 250 g" */
  if (says(t, meal, "daily") && meal > 0) meal--;
  if (!is_meal(t, meal)) return 0;
  for (size_t i = meal > FAR ? meal - FAR : 0; i < meal; i++) {
    struct quantity q = quantity_at(t, i);
    size_t words = i + q.tokens;
    while (words < meal && says(t, words, "equal small daily raw big separate same")) words++;
    bool whole = q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 2 && q.low <= 6 && q.low == floor(q.low);
    if (whole && words == meal) return *from = i, q.low;
  }
  return 0;
}

/* "of the mix below", ", made of the following", "each:" where shares are told: behind the amount; the tokens, 0. */
static size_t of_a_mix(const struct tokens *t, size_t at) {
  size_t i = at;
  bool each = says(t, i, "each apiece");
  if (each) i++;
  if (is_mark(t, i, ',') && says(t, i + 1, "made consisting")) i++;
  while (says(t, i, "made up consisting")) i++;
  size_t mix = phrase_of(t, i, CLASS_OF_THE_MIX);
  if (mix > 0) return i + mix - at;
  bool shares = is_mark(t, i, ':') && (i + 1 >= t->count || post_amount_at(t, i + 1).is_percent);
  return each && shares ? i - at : 0;
}

/* How many of a day the sentence tells beside the amount: "twice a day", "each meal ... two meals"; 0. */
static double times_told(const struct post_reader *r, const struct tokens *t, size_t *from, size_t *to) {
  for (size_t i = 0; i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens == 0 || f.refuse || !(f.feedings > 1) || f.times_per_28 != CALENDAR_DAYS) continue;
    *from = i, *to = i + f.tokens;
    return f.feedings;
  }
  for (size_t i = 0; i + 1 < t->count; i++) {
    if (!says(t, i, "every each per") || !is_meal(t, i + 1)) continue;
    *from = i, *to = i + 2;
    double told = 0;
    for (size_t k = 0; k + 1 < t->count; k++) {
      struct quantity q = quantity_at(t, k);
      if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 2 && q.low <= 6 && is_meal(t, k + q.tokens)) told = q.low;
    }
    return told > 0 ? told : r->meals_told;
  }
  return 0;
}

bool post_meals_of_mix(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    size_t behind = i + a.tokens, mix = a.is_mass && a.low == a.high ? of_a_mix(t, behind) : 0, from = i, to = i;
    if (mix == 0) continue;
    size_t first = i;
    double meals = meals_before(t, i, &first);
    bool counted = meals > 0;
    if (!counted) meals = times_told(r, t, &from, &to);
    if (!(meals > 1)) return false;
    r->feeds_g = meals * post_in_grams(&a);
    r->meals_a_day = meals;
    if (!counted && to > from) take(t, from, to - from);
    while (!counted && first > 0 &&
           (says(t, first - 1, "of a bowl meal portion is about has gets") || t->item[first - 1].taken))
      first--;
    take(t, first, behind + mix - first);
    return true;
  }
  return false;
}
