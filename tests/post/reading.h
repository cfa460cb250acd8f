/* reading.h: a post read by the program. Include after the standard headers; the functions are static, so that each program
 * has its own. */
#ifndef BW_POST_READING_H
#define BW_POST_READING_H

#include <math.h>

#include "app/app.h"
#include "post/post.h"
#include "recipe/recipe_text.h"

struct reading {
  struct post post;
  struct ration ration;
  struct diags d;
  bool used[RECIPE_MOST_LINES];
};

static bool has(struct span text, struct span words) { return words.n > 0 && span_holds_fold(text, words); }

/* "chicken+thigh/dark": all of the pieces between '+', each one of those between '/'. */
static bool suits(struct span text, struct span words) {
  while (words.n > 0) {
    const char *plus = memchr(words.p, '+', words.n);
    size_t n = plus ? (size_t)(plus - words.p) : words.n;
    struct span choices = span_cut(words, 0, n);
    bool any = false;
    while (choices.n > 0) {
      const char *slash = memchr(choices.p, '/', choices.n);
      size_t m = slash ? (size_t)(slash - choices.p) : choices.n;
      any = any || has(text, span_trim(span_cut(choices, 0, m)));
      choices = span_cut(choices, slash ? m + 1 : m, choices.n);
    }
    if (!any) return false;
    words = span_cut(words, plus ? n + 1 : n, words.n);
  }
  return true;
}

/* Is it said of the counted line that whether, how much or how often it is fed was assumed? */
static bool is_doubted(const struct reading *r, const struct ration_line *l) {
  for (size_t i = 0; i < r->post.line_count; i++)
    if (r->post.line[i].strict_line == l->line) return r->post.line[i].doubted;
  return false;
}

static bool read_post(const struct library *lib, struct reading *r, struct span text, struct arena *arena) {
  post_read(lib, text, NULL, &r->post, arena);
  if (!r->post.recipe[0]) return true;
  struct app_check_request q = {.recipe = {"strict", span_of(r->post.recipe)}, .ask = REQUEST_DEFAULT};
  struct app_check_answer a;
  q.ask.numbers_only = true;
  app_check(lib, &q, &a, arena);
  r->d = a.recipe_diags;
  if (!a.result) return false;
  r->ration = *a.result->ration;
  return true;
}

#endif
