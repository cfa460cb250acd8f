/* answered_parts.h: what the answers to an owner's questions share. Private to the answers. Layer: words. */
#ifndef BW_WORDS_ANSWERED_PARTS_H
#define BW_WORDS_ANSWERED_PARTS_H

#include "words/answered.h"
#include "words/verdicts.h"

struct asked_scene {
  const struct library *lib;
  const struct check_result *r;
  const struct owners_question *q;
  struct arena *a;
  bool *balance_told;
};

/* Each "" where nothing can be said.
 * answered_food.c: "can I drop the liver?": yes or no, what would be missing, and what stands in for it. */
const char *answered_without(const struct asked_scene *x);
/* answered_exchange.c: "can I swap the liver for kidney?", "is cheese ok?": the judge is asked for that bowl. */
const char *answered_exchange(const struct asked_scene *x);
const char *answered_adding(const struct asked_scene *x);
/* answered_food.c, for it: how many lines are meant by these words, and which is the first; what differs between two bowls; names, of
 * which so many are told. */
size_t answered_lines(const struct asked_scene *x, const char *food, size_t *first);
bool answered_names_line(const struct asked_scene *x, const char *food, size_t line);
struct answered_change {
  enum nutrient lost[NUT_COUNT], gained[NUT_COUNT], harmed[NUT_COUNT], cured[NUT_COUNT]; /* harmed: too much now */
  size_t lose, gain, harm, cure;
};
struct answered_change answered_change(const struct check_result *was, const struct check_result *is);
const char *answered_names(const struct asked_scene *x, const enum nutrient *n, size_t count);
/* "What hangs on the rabbit?" */
const char *answered_hangs(const struct asked_scene *x);
/* answered_less.c: "what falls short first if she gets less?"; of one that is to lose weight also how much less. */
const char *answered_less(const struct asked_scene *x);
/* answered_bones.c: "which bone?": some that suit this animal by their size, and how much of one covers the calcium. */
const char *answered_bones(const struct asked_scene *x);

#endif
