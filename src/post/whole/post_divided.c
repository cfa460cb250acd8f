/* Amounts of several animals, and how they are divided: "both together, so halve it", "for three cats so a third of it
 * each". */
#include "base/num.h"
#include "post/whole/post_whole.h"

/* Is it said of several, and does nobody ask or advise? */
static bool is_of_several(const struct tokens *t) {
  bool several = false;
  for (size_t i = 0; i < t->count; i++) {
    if (is_mark(t, i, '?') || says(t, i, "should could would might if half-and-half")) return false;
    several =
        several || says(t, i, "both together cats dogs them they two three four all pair share pups kitties everything");
  }
  return several;
}

void post_hear_divided(struct post_reader *r, struct tokens *t) {
  const char *among;
  if (!holds_a(t, 0, t->count, CLASS_DIVIDED) || !is_of_several(t)) return;
  for (size_t i = 0; i < t->count; i++) {
    double parts;
    size_t used = meaning_at(t, i, CLASS_DIVIDED, &among);
    if (used == 0 || !num_parse(span_of(among), &parts)) continue;
    size_t from = i;
    while (from > 0 && says(t, from - 1, "so you need to then just please have it's its")) from--;
    if (says(t, i + used, "for") && says(t, i + used + 1, "one each")) used += 2;
    r->divided_by = parts;
    post_claim(r, tokens_span(t, from, i + used - from), CLAIM_TOLD, 0, 0);
    take(t, from, i + used - from);
    return;
  }
}
