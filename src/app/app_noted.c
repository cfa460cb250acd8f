/* What a post, a note or a remark says of an animal that is told elsewhere. */
#include "app/app_parts.h"
#include "app/app_post.h"

const struct animal *app_animal_of_post(const struct post *post, const struct animal *animal, struct arena *arena) {
  if (!animal || (!post->told.young && !post->told.pregnant && !post->told.nursing && !post->told.unwell)) return animal;
  struct animal *told = ARENA_NEW(arena, struct animal, 1);
  *told = *animal;
  told->young = told->young || post->told.young;
  told->pregnant = told->pregnant || post->told.pregnant;
  told->nursing = told->nursing || post->told.nursing;
  told->healthy = told->healthy && !post->told.unwell;
  told->urgent = told->urgent || post->told.urgent;
  if (animal_refusal(animal) == REFUSE_NOT) told->status = post->told.status;
  return told;
}

const struct animal *app_animal_as_noted(const struct library *lib, const struct animal *animal, const struct recipe *recipe,
                                         struct arena *arena) {
  enum { ROOM = 64 * 1024 };
  if (!animal || (animal->healthy && !animal->note[0] && (!recipe || recipe->remark_count == 0))) return animal;
  struct buf b;
  struct post post;
  buf_init(&b, arena, ROOM);
  if (!animal->healthy) buf_addf(&b, "%s.\n", animal->status);
  if (animal->note[0]) buf_addf(&b, "%s.\n", animal->note);
  for (size_t i = 0; recipe && i < recipe->remark_count; i++) {
    struct span s = span_of(recipe->remark[i].text);
    while (s.n > 0 && (s.p[0] == '#' || s.p[0] == ' ')) s = span_cut(s, 1, s.n);
    if (span_starts_fold(s, "recipe:")) s = span_cut(s, strlen("recipe:"), s.n);
    buf_addf(&b, "%.*s.\n", SPAN_ARG(s));
  }
  if (animal->healthy && !post_may_tell_of_state(buf_span(&b), arena)) return animal;
  post_read(lib, buf_span(&b), animal, &post, arena);
  return app_animal_of_post(&post, animal, arena);
}
