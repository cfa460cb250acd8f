/* Animals by their names: of a post that tells of several, which of the foods another one gets. */
#include "post/govern/post_govern.h"

/* "Tess gets", "Tess (9 kg) has": a name before a verb of eating. */
static bool eats(struct post_reader *r, const struct tokens *t, size_t at) {
  enum { FAR = 6 };
  if (says_a(t, at + 1, CLASS_EATER_VERB)) return post_pet_name(r, t, at).n > 2;
  if (!is_mark(t, at + 1, '(') || post_pet_name(r, t, at).n < 3) return false;
  for (size_t i = at + 2; i < t->count && i < at + FAR; i++)
    if (is_mark(t, i, ')')) return says_a(t, i + 1, CLASS_EATER_VERB);
  return false;
}

/* The name of the animal that the post asks about; "" when nothing tells. */
static struct span ours(const struct post_reader *r) {
  if (r->asked_about.n > 0) return r->asked_about;
  for (size_t i = 0; i < r->named_count; i++)
    if (r->named[i].kg == r->weight_kg) return r->named[i].name;
  return (struct span){"", 0};
}

bool governed_other_eats(struct governed *g, size_t at) {
  struct post_reader *r = g->n.r;
  struct span name = ours(r);
  return name.n > 0 && !r->derived && eats(r, &g->n.t, at) && !post_same_name(g->n.t.item[at].at, name);
}
