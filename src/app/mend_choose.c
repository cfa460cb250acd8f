/* Does a proposal leave the owner's dinner, or is it another one? Decided here for every verb: one that leaves it is put
 * first; where there is none, 'mend' shows the other as not recommended, and a letter says so and proposes none. */
#include "app/mend_parts.h"
#include "words/words.h"

/* Is something too much in the bowl that this line would still make too much? Then it has to go, main food or not. */
static bool is_at_fault(const struct check_result *before, const struct mend_change *c) {
  for (size_t i = (size_t)c->too_much_from; i < c->repair_count; i++) {
    const struct nutrient_result *n = &before->nutrient[c->repairs[i]];
    if (n->verdict == VERDICT_OVER || n->close_to_limit) return true;
  }
  return false;
}

/* A main food of which less than half is left for the sake of other things: nobody would know the dinner again. Lines are
 * those of the text. What was set right before the search (plate.h) is what was wrong. */
static const char *unlike(const struct check_result *before, const struct mended *m) {
  static const double MAIN = 0.2 /* of the energy */, LEAST_LEFT = 0.5;
  for (size_t i = 0; i < m->proposal->count; i++) {
    const struct mend_change *c = &m->proposal->change[i];
    if (c->line < 0 || c->danger || !(c->to_g < LEAST_LEFT * c->from_g) || is_at_fault(before, c)) continue;
    for (size_t k = 0; k < before->energy.from_count; k++)
      if (before->ration->line[before->energy.from[k].line].line == m->text_line[i] && before->energy.from[k].share >= MAIN)
        return m->food[i];
  }
  return NULL;
}

static void put_first(struct mended *found, size_t i) {
  struct mended first = found[i];
  memmove(found + 1, found, i * sizeof *found);
  found[0] = first;
}

void mend_choose(struct mended_answer *out, struct mended *found) {
  for (size_t i = 0; i < out->count; i++) found[i].unlike = unlike(out->before, &found[i]);
  for (size_t i = 1; i < out->count && found[0].unlike; i++)
    if (!found[i].unlike) put_first(found, i);
}
