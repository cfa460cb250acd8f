/* posted.h: a post read, and what its strict text must have and what not. Include after fresh_arena.h. */
#ifndef BW_POSTED_H
#define BW_POSTED_H

#include "post/post.h"
#include "tests/support/built_image.h"

static inline struct post posted(const char *text) {
  struct post post;
  post_read(built_library(), span_of(text), NULL, &post, &arena);
  return post;
}

static inline bool posted_asks(const struct post *post, const char *words) {
  for (size_t i = 0; i < post->question_count; i++)
    if (strstr(post->question[i].ask, words)) return true;
  return false;
}

/* Both stand in its strict text, and the last one does not ("" or NULL: whatever); else says what it became. */
static inline bool posted_becomes(const char *text, const char *line, const char *other, const char *never) {
  struct post post = posted(text);
  bool has = strstr(post.recipe, line) && (!other || strstr(post.recipe, other));
  bool has_not = !never || !never[0] || !strstr(post.recipe, never);
  if (!has) print_error("'%s' became, without '%s' or '%s',\n%s\n", text, line, other ? other : "", post.recipe);
  if (!has_not) print_error("'%s' became, with '%s',\n%s\n", text, never, post.recipe);
  return has && has_not;
}

#endif
