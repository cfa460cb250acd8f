/* mend_scene.h: a recipe that is to be mended for a dog or a cat. Include after cmocka.h. */
#ifndef BW_MEND_SCENE_H
#define BW_MEND_SCENE_H

#include <math.h>

#include "app/app_mend.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"

static inline struct animal dog(double kg) { return animal_plain(SPECIES_DOG, kg); }

static inline struct app_mend_request request(const char *text, const struct animal *a) {
  struct app_mend_request q = {.one_way = true};
  q.check.recipe = (struct app_input){"dinner", span_of(text)};
  q.check.one_off = a;
  q.check.ask.check = CHECK_OPTIONS_DEFAULT;
  return q;
}

static inline const struct app_mend_answer *ask(const struct app_mend_request *q) {
  struct app_mend_answer *a = ARENA_NEW(&arena, struct app_mend_answer, 1);
  app_mend(built_library(), q, a, &arena);
  return a;
}

/* As the contract has it: everything met; a limit that is only told of may be passed. */
static inline bool is_in_order(const struct nutrient_result *n) {
  bool told = n->verdict == VERDICT_OVER && model_limit_is_cautious(built_library(), n->id) && n->chance_met >= 0.5;
  return n->verdict == VERDICT_MET || n->verdict == VERDICT_NO_FIGURE || told;
}

/* The judge's own word on another text, with the same animal and options. */
static inline const struct check_result *check(const struct app_mend_request *q, const char *text) {
  struct app_check_request c = q->check;
  struct app_check_answer a;
  c.recipe.text = span_of(text);
  app_check(built_library(), &c, &a, &arena);
  assert_non_null(a.result);
  return a.result;
}

#endif
