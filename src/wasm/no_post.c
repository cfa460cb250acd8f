/* no_post.c: in place of app/app_post.c in the module of the first calls (reactor.c). A worker that is asked about a posted
 * text goes on with the whole module (page/src/core/worker.ts); without this, every first visit would wait for the reader
 * of posts. Layer: above app. */
#include "app/app_parts.h"
#include "app/app_post.h"

void app_take_post(const struct library *lib, struct app_check_request *q, struct arena *arena) {
  (void)lib;
  if (!q->ask.posted) return;
  struct post *post = ARENA_NEW(arena, struct post, 1);
  *post = (struct post){.recipe = "", .sorry = "A posted text is read by the whole module only."};
  q->ask.posted = false;
  q->post = post;
  q->recipe.text = (struct span){"", 0};
}

const struct animal *app_animal_of_post(const struct post *post, const struct animal *animal, struct arena *arena) {
  (void)post, (void)arena;
  return animal;
}

const struct animal *app_animal_as_noted(const struct library *lib, const struct animal *animal, const struct recipe *recipe,
                                         struct arena *arena) {
  (void)lib, (void)recipe, (void)arena; /* the page asks the whole module where notes and remarks may tell of an illness */
  return animal;
}

void app_assume(const struct post *post, struct ration *ration, struct arena *arena) {
  (void)post, (void)ration, (void)arena;
}

const struct post *app_rank_questions(const struct library *lib, const struct post *post, const struct check_result *r,
                                      struct arena *arena) {
  (void)lib, (void)r, (void)arena;
  return post;
}
