/* An animal that is called as a food is: "a tortie named Pepper", "Olive, 8 lbs, 10 years", "Basil is my ginger cat". Its
 * name is no food anywhere in the post, but where an amount stands beside it. */
#include "post/hear/post_hear.h"

static bool is_capital(const struct tokens *t, size_t at) {
  if (!is_word(t, at) || t->item[at].at.n < 3) return false;
  const char *p = t->item[at].at.p;
  return p[0] >= 'A' && p[0] <= 'Z' && p[1] >= 'a' && p[1] <= 'z';
}

static bool animal_near(const struct tokens *t, size_t from, size_t to) {
  enum species s;
  for (size_t i = from; i < to && i < t->count; i++)
    if (is_word(t, i) &&
        (token_is_animal(&t->item[i], &s) || says(t, i, "neutered spayed fixed castrated desexed kitty puss")))
      return true;
  return false;
}

/* "(4 kg", ", 8 lbs 4 oz, 10 years": what is told of an animal, and of no food. */
static bool weighed_behind(const struct tokens *t, size_t at) {
  enum { FAR = 8 };
  double kg, years;
  bool weight = false, age = false;
  if (!is_mark(t, at, ',') && !is_mark(t, at, '(') && !is_mark(t, at, ':')) return false;
  for (size_t i = at + 1; i < t->count && i < at + FAR; i++) {
    weight = weight || post_weight_at(t, i, &kg) > 0;
    age = age || post_age_at(t, i, &years) > 0;
  }
  return weight && (age || animal_near(t, at + 1, at + FAR));
}

static bool is_called(const struct tokens *t, size_t at) {
  enum { FAR = 8 };
  bool quoted = at > 0 && (is_mark(t, at - 1, '"') || is_mark(t, at - 1, '\'') || is_mark(t, at - 1, '('));
  size_t before = quoted ? at - 1 : at;
  if (before > 0 && says(t, before - 1, "named called name's names")) return true;
  if (before > 1 && says(t, before - 1, "is") && says(t, before - 2, "name names name's")) return true;
  if (quoted && !is_mark(t, at - 1, '(') && animal_near(t, at > FAR ? at - FAR : 0, at)) return true;
  if (says(t, at + 1, "is") && says(t, at + 2, "my our a an the") && animal_near(t, at + 3, at + FAR)) return true;
  if (says(t, at + 1, "the") && animal_near(t, at + 2, at + 5)) return true; /* "Moose the great dane" */
  return weighed_behind(t, at + 1);
}

void post_hear_own_name(struct post_reader *r, struct span text) {
  struct lines lines = lines_of(text);
  struct span line;
  while (r->own_name.n == 0 && lines_next(&lines, &line)) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count && r->own_name.n == 0; i++)
      if (is_capital(&t, i) && is_called(&t, i) && post_mention_at(r, &t, i) == 1)
        r->own_name = arena_span(r->keep, t.item[i].at);
    arena_rewind(r->arena, r->begin);
    post_splits_make_room(r->splits);
  }
}
