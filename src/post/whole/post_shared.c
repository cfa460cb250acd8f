/* How several animals share what is fed: one pot, divided among so many, in halves, so many ways; and what one of them has
 * alone. */
#include "base/num.h"
#include "post/whole/post_whole.h"

/* Is it time that is shared, and nobody's pot? "between the two days", "split between morning and evening" */
static bool is_of_time(const struct tokens *t, size_t at) {
  for (size_t k = at; k < at + 3 && k < t->count; k++) {
    if (k > 0 && says(t, k, "bowl dish pot tray pan") && says(t, k - 1, "one same a")) continue; /* "they share one bowl" */
    if (says(t, k, "days meals feeds feedings weeks bowls mornings evenings twice") ||
        (is_word(t, k) && (token_is_a(&t->item[k], CLASS_MEAL) || token_is_a(&t->item[k], CLASS_VESSEL))))
      return true;
  }
  return false;
}

/* Words that tell of one pot for several. */
bool post_tells_of_pot(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_ONE_POT);
    if (used > 0 && !is_of_time(t, i + used)) return true;
  }
  return false;
}

static bool is_asked_or_advised(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (is_mark(t, i, '?') || says(t, i, "should could would might if half-and-half")) return true;
  return false;
}

static bool is_of_several(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "both together cats dogs them they two three four all pair share pups kitties everything")) return true;
  return false;
}

/* "between the two pugs": how many they are. */
static void count_the_eaters(struct post_reader *r, const struct tokens *t, size_t at) {
  if (!says(t, at, "between among")) return;
  at++;
  if (says(t, at, "the my our both")) at++;
  struct quantity q = quantity_at(t, at);
  bool many = q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 2 && q.low <= 6 && q.low == floor(q.low);
  if (many && !(r->animals > 1)) r->animals = (int)q.low;
}

/* "Both together, so halve it", "for three cats so a third of it each"; "split evenly", "half goes to each": as much to each of
 * them, however many there are. */
static void hear_divided(struct post_reader *r, struct tokens *t) {
  static const double EVENLY = 1;
  const char *among;
  if (!holds_a(t, 0, t->count, CLASS_DIVIDED) || is_asked_or_advised(t)) return;
  for (size_t i = 0; i < t->count; i++) {
    double parts;
    size_t used = meaning_at(t, i, CLASS_DIVIDED, &among), from = i;
    if (used == 0 || !num_parse(span_of(among), &parts) || is_of_time(t, i + used)) continue;
    if (parts != EVENLY && !is_of_several(t)) return;
    if (parts == EVENLY) {
      count_the_eaters(r, t, i + used);
      r->one_pot = true;
    }
    while (from > 0 && says(t, from - 1, "so you need to then just please have it's its and")) from--;
    if (says(t, i + used, "for") && says(t, i + used + 1, "one each")) used += 2;
    r->divided_by = parts;
    post_claim(r, tokens_span(t, from, i + used - from), CLAIM_TOLD, 0, 0);
    take(t, from, i + used - from);
    return;
  }
}

/* "They share it half half", "split 50/50 between them": the two of them get half each. */
static void hear_halves(struct post_reader *r, struct tokens *t) {
  bool shares = false, them = false;
  for (size_t i = 0; i < t->count && !shares; i++) shares = says(t, i, "share shares shared split splits divide divided");
  for (size_t i = 0; i < t->count && shares && !them; i++)
    them = says(t, i, "they them both two cats dogs girls boys sisters brothers pair");
  for (size_t i = 0; i < t->count && them; i++) {
    size_t used = phrase_of(t, i, CLASS_IN_HALVES);
    if (used == 0) continue;
    r->part_of_each = 0.5;
    r->one_pot = true;
    for (size_t k = i; k < i + used; k++) post_claim(r, t->item[k].at, CLAIM_TOLD, 0, 0);
    take(t, i, used);
  }
}

/* "Split three ways", of as many animals. */
static void hear_ways(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i + 2 < t->count; i++) {
    if (!says(t, i, "split splits divided shared goes cut")) continue;
    struct quantity q = quantity_at(t, i + 1);
    size_t ways = i + 1 + q.tokens;
    if (q.fault != QUANTITY_FINE || q.low != q.high || !says(t, ways, "ways") || (int)q.low != r->animals || r->animals < 2)
      continue;
    r->part_of_each = 1 / q.low;
    r->one_pot = true;
    size_t from = i;
    while (from > 0 && says(t, from - 1, "that's thats it's its that is it and all")) from--;
    post_claim(r, tokens_span(t, from, ways + 1 - from), CLAIM_TOLD, 0, 0);
    take(t, from, ways + 1 - from);
  }
}

/* "share a pot", "eat from one pot", "eat out of the same bowl", from 'at': behind it; 0. */
static size_t sharing_at(const struct tokens *t, size_t at) {
  size_t i = at + 1;
  bool from = says(t, i, "from") || (says(t, i, "out") && says(t, i + 1, "of"));
  if (from) i += says(t, i, "from") ? 1 : 2;
  if (!says(t, at, "share shares") && !(from && says(t, at, "eat eats fed"))) return 0;
  if (says(t, i, "the") && says(t, i + 1, "same")) i++;
  if (!says(t, i, "a one the same") || !says(t, i + 1, "pot bowl dish tray batch pan stew")) return 0;
  if (from && !says(t, i, "one same")) return 0;
  return i + 2;
}

/* "They share a pot": how they eat, and no share of a food. */
static void take_sharing(struct post_reader *r, struct tokens *t) {
  for (size_t i = 1; i < t->count; i++) {
    size_t end = sharing_at(t, i), from = i;
    if (end == 0 || (end < t->count && t->item[end].kind != TOKEN_MARK && !says(t, end, "and"))) continue;
    while (from > 0 && says(t, from - 1, "they both we all two the who which")) from--;
    post_claim(r, tokens_span(t, from, end - from), CLAIM_TOLD, 0, 0);
    take(t, from, end - from);
    return;
  }
}

/* "that the other two don't", "which he doesn't get", "the others have none", "Hugo gets none", from 'at': its end; 0. */
static size_t others_without(struct post_reader *r, const struct tokens *t, size_t at) {
  enum { WORDS_MOST = 4 };
  bool relative = says(t, at, "that which");
  if (!relative && !says(t, at, "and but") && !is_mark(t, at, ',')) return 0;
  bool others = says(t, at + 1, "the") && says(t, at + 2, "other others rest");
  if (!relative && !others && post_pet_name(r, t, at + 1).n == 0) return 0;
  size_t i = at + 1;
  while (i <= at + WORDS_MOST && is_word(t, i) && !says(t, i, "don't doesn't dont doesnt do does have has get gets")) i++;
  bool none = says(t, i, "have has get gets") && says(t, i + 1, "none nothing");
  bool not = says(t, i, "don't doesn't dont doesnt"), does_not = says(t, i, "do does") && says(t, i + 1, "not");
  if (i == at + 1 || (!none && !not && !does_not)) return 0;
  i += not ? 1 : 2;
  if (!none && says(t, i, "get have need")) i++;
  return i >= t->count || t->item[i].kind == TOKEN_MARK ? i : 0;
}

/* What the others do not get is of this one alone. */
static void take_others_without(struct post_reader *r, struct tokens *t) {
  for (size_t i = 1; i + 1 < t->count; i++) {
    size_t end = others_without(r, t, i);
    if (end == 0 || !post_any_amount(&(struct tokens){t->item, i}, 0)) continue;
    post_claim(r, tokens_span(t, i, end - i), CLAIM_TOLD, 0, 0);
    take(t, i, end - i);
    r->own = r->alone = true;
    return;
  }
}

/* "10 days' worth between Fern and Ivy", "among Moss, Bess and Jet": one pot for so many. */
static void hear_between_names(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i + 3 < t->count; i++) {
    if (!says(t, i, "between among")) continue;
    size_t names = 0, at = i + 1;
    while (post_pet_name(r, t, at).n > 0) {
      names++, at++;
      bool more = says(t, at, "and n") || is_mark(t, at, '&') || is_mark(t, at, ',');
      if (!more || post_pet_name(r, t, at + 1).n == 0) break;
      at++;
    }
    if (names < 2) continue;
    r->one_pot = true;
    if (r->animals <= 1) r->animals = (int)names;
    post_claim(r, tokens_span(t, i, at - i), CLAIM_TOLD, 0, 0);
    take(t, i, at - i);
    return;
  }
}

void post_hear_shared(struct post_reader *r, struct tokens *t) {
  r->alone = false;
  hear_divided(r, t);
  take_others_without(r, t);
  hear_halves(r, t);
  hear_ways(r, t);
  take_sharing(r, t);
  hear_between_names(r, t);
}
