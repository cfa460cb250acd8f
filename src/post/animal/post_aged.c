/* How old the animal is, with a unit or as a bare number beside what else is told of it. */
#include "post/animal/post_animal.h"

void post_take_age(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    double years = 0;
    size_t used = post_age_at(t, i, &years);
    if (used == 0 || (i > 0 && says(t, i - 1, "for last past over within about") && !says(t, i + used - 1, "old"))) continue;
    bool then =
        i > 1 && says(t, i - 1, "at") && (says_a(t, i - 2, CLASS_NEUTERED) || says_a(t, i - 2, CLASS_NEUTERED_IN_ITS_PLACE));
    bool doubted = is_mark(t, i + used, '?');                           /* "12 year old?? No, she is two" */
    if (isnan(r->age_years) && !then && !doubted) r->age_years = years; /* and not of "spayed at 2 years" */
    take(t, i, used);
    if (then) continue;
    return;
  }
  /* "Dog: 22 kg, neutered, 5": a bare number in the animal's own line */
  for (size_t i = 1; i < t->count && isnan(r->age_years); i++) {
    if (is_mark(t, i - 1, '/') && i > 1 && is_number(t, i - 2)) continue; /* "80/10/10" is a mince */
    bool said =
        says_a(t, i - 1, CLASS_BEFORE_AGE) || ((is_mark(t, i - 1, ',') || is_mark(t, i - 1, '/')) &&
                                               (i + 1 == t->count || is_mark(t, i + 1, '/') || is_mark(t, i + 1, ',') ||
                                                is_mark(t, i + 1, '.') || is_mark(t, i + 1, ')')));
    said = said || says(t, i - 1, "be both who's whos '");
    said = said || (is_mark(t, i - 1, '(') && is_mark(t, i + 1, ',') &&
                    says_a(t, i + 2, CLASS_TOLD_BESIDE_WEIGHT)); /* "(6, neutered)" */
    said =
        said || (i > 1 && says(t, i - 1, "roughly about around") && is_mark(t, i - 2, ',')); /* "rescue cat, roughly 6," */
    said = said || (i > 1 && (says(t, i - 1, "and n") || is_mark(t, i - 1, '&')) &&
                    t->item[i - 2].taken); /* behind the weight: "19 kg and 7" */
    said = said || (is_mark(t, i - 1, ',') && says(t, i + 1, "in last next") && says_a(t, i + 2, CLASS_MONTH_NAME));
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || says(t, i, "a an one") || !said || !(q.low >= 1 && q.low <= 22))
      continue;
    size_t next = i + q.tokens;
    if (next < t->count && t->item[next].kind == TOKEN_WORD && !says_a(t, next, CLASS_BEHIND_AGE)) continue;
    if (is_mark(t, next, '%') || is_mark(t, next, '/') || is_mark(t, next, 'x')) continue;
    r->age_years = q.low;
    take(t, i, q.tokens);
  }
}

/* "She is twelve and a bit deaf" */
bool post_is_age_in_words(const struct tokens *t, size_t at) {
  struct quantity q = quantity_at(t, at);
  size_t behind = at + q.tokens;
  return q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 1 && q.low <= 22 && !says(t, at, "a an one") &&
         (behind >= t->count || t->item[behind].kind == TOKEN_MARK || says_a(t, behind, CLASS_BEHIND_AGE));
}
