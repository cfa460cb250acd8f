/* offers_scene.h: what mend has on offer for a recipe. Include after cmocka.h. */
#ifndef BW_OFFERS_SCENE_H
#define BW_OFFERS_SCENE_H

#include "app/app_parts.h"
#include "app/mend_parts.h"
#include "larder/larder_text.h"
#include "tests/mend/mend_scene.h"

static inline struct offers offers_for(const char *recipe, const char *larder, struct animal for_whom) {
  static struct animal a;
  struct app_check_answer check;
  const struct ration *ration;
  const struct animal *animal;
  struct offers out;
  struct diags d;
  a = for_whom;
  struct app_mend_request q = request(recipe, &a);
  if (larder) q.larder = (struct app_input){"larder", span_of(larder)};
  assert_true(app_understand(built_library(), &q.check, &check, &ration, &animal, &arena));
  diags_init(&d, &arena, "larder", q.larder.text);
  bool *without = ARENA_NEW(&arena, bool, LARDER_MOST_LINES);
  const struct check_result *before = check_numbers(built_library(), ration, animal, &q.check.ask.check, &arena);
  collect_offers(built_library(), &q, check.recipe, before, without, &d, &out, &arena);
  assert_int_equal(d.errors, 0);
  return out;
}

static inline struct offers offers_of(const char *recipe, const char *larder) { return offers_for(recipe, larder, dog(18)); }

static inline bool offers_any(const struct offers *o, const char *name) {
  for (size_t i = 0; i < o->count; i++)
    if (strstr(o->text[i].name, name)) return true;
  return false;
}

#endif
