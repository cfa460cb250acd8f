/* "Taurine 1/4 of a 1000mg capsule", "half a 400 IU vitamin E capsule": the part of its dose, "250 mg", and no pill. */
#include "base/num.h"
#include "post/rewrite/post_rewrite.h"

/* "1000mg", "400 IU": how many tokens of a dose, without its part. */
static size_t dose_at(const struct tokens *t, size_t at, double *dose, const char **unit) {
  static const char *const UNIT[] = {"mg", "mcg", "IU", "g"};
  static const char *const SAID[] = {"mg mgs milligram milligrams", "mcg ug \xC2\xB5g \xCE\xBCg microgram micrograms", "iu ius", "g gram"};
  if (!is_number(t, at)) return 0;
  *dose = t->item[at].value;
  for (size_t i = 0; i < COUNT_OF(UNIT); i++)
    if (*dose > 0 && says(t, at + 1, SAID[i])) return *unit = UNIT[i], 2;
  return 0;
}

bool post_part_of_pill(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  enum { NAME_MOST = 4 }; /* "vitamin E gel" */
  if (!holds_a(t, 0, t->count, CLASS_CAPSULE)) return false;
  for (size_t i = 0; i + 3 < t->count; i++) {
    struct quantity part = quantity_at(t, i);
    if (part.tokens == 0 || part.fault != QUANTITY_FINE || part.low != part.high || !(part.low > 0 && part.low < 1)) continue;
    size_t at = i + part.tokens;
    if (says(t, at, "of")) at++;
    if (says(t, at, "a an one the my those these")) at++;
    double dose;
    const char *unit;
    size_t used = dose_at(t, at, &dose, &unit), name = at + used, pill = name;
    while (used > 0 && is_word(t, pill) && !says_a(t, pill, CLASS_CAPSULE) && pill < name + NAME_MOST) pill++;
    if (used == 0 || !says_a(t, pill, CLASS_CAPSULE)) continue;
    struct buf b;
    buf_init(&b, r->arena, 100 + text.n);
    num_sig(&b, part.low * dose, 4);
    buf_addf(&b, " %s", unit);
    if (pill > name) buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(t, name, pill - name)));
    const struct span last = t->item[pill].at;
    *out = post_cut_out(r, text, t->item[i].at.p, last.p + last.n, buf_text(&b));
    return true;
  }
  return false;
}
