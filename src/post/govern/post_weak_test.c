/* Names, measures and how often, in the words of owners: what the strict text must say, and what must be said beside it.
 * Each row is of a form that was once misread; whole posts and single lines with a person's reading stand in tests/post. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "base/buf.h"
#include "post/post.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"

static struct post weak_read(const char *lines) {
  struct post post;
  struct buf b;
  buf_init(&b, &arena, 2000);
  buf_addf(&b, "Dog, 20 kg, neutered, 5 years old.\n300 g bison mince\n%s\n", lines);
  post_read(built_library(), buf_span(&b), NULL, &post, &arena);
  return post;
}

/* A line that begins so: "100 g tripe weekly" is not the line "100 g tripe". */
static bool weak_line(const struct post *post, const char *line) {
  const char *at = strstr(post->recipe, line);
  size_t n = strlen(line);
  return at && (at == post->recipe || at[-1] == '\n') && (at[n] == '\n' || at[n] == '\0' || strncmp(at + n, "  #", 3) == 0);
}

static const struct {
  const char *lines, *strict;
} SAID[] = {
    /* a food without an amount, and not the heading of those below */
    {"Eggs twice a week\n50 g carrots", "50 g carrots"},
    {"Eggs twice a week\n50 g carrots", "? Eggs twice a week"},
    {"a katori of dal\n50 g carrots", "? a katori of dal"},
    {"one B complex\n50 g carrots", "? one B complex"},
    /* how often, in short */
    {"100 g tripe 5 days out of 7", "100 g tripe 5 days a week"},
    {"tripe: 100g, twice wkly", "100 g tripe, twice weekly"},
    {"100 g tripe at the weekend", "100 g tripe on weekends"},
    {"100 g tripe a couple of times a week", "100 g tripe twice a week"},
    /* what each holds, and how many; the measure behind the food */
    {"1 fish oil cap (1000 mg)", "1 capsule fish oil 1000 mg"},
    {"two 1000 mg fish oil softgels", "2 capsules fish oil 1000 mg"},
    {"1/2 a 400 g tin of chickpeas", "200 g chickpeas, canned"},
    {"oil 5 ml olive", "5 ml olive oil"},
    {"100 g split peas", "100 g split peas"},
    /* a rib bone is not the record of the rib's meat */
    {"1 beef rib bone", "? 1 beef rib bone"},
};

static void the_strict_text_says_it(void **state) {
  (void)state;
  for (size_t i = 0; i < COUNT_OF(SAID); i++) {
    struct post post = weak_read(SAID[i].lines);
    if (!weak_line(&post, SAID[i].strict)) fail_msg("'%s' became:\n%s", SAID[i].lines, post.recipe);
  }
}

static const struct {
  const char *line, *strict;
  bool doubted;
} DOUBT_OF[] = {
    {"80 g tilapia", "80 g tilapia", false},
    {"80 g boiled parsnip", "80 g boiled parsnip", false},
    {"15 mg zinc picolinate", "15 mg zinc picolinate", true},
    {"15 mg zinc", "15 mg zinc", false},
    {"1 salmon fillet", "1 salmon fillet", true},
    {"a mug of cooked rice", "200-350 ml", true},
    {"1 carrot most days", "1 carrot", true},
};

static void weak_matches_are_said(void **state) {
  (void)state;
  for (size_t i = 0; i < COUNT_OF(DOUBT_OF); i++) {
    struct post post = weak_read(DOUBT_OF[i].line);
    const char *at = strstr(post.recipe, DOUBT_OF[i].strict);
    int number = 1, found = 2;
    for (const char *p = post.recipe; at && p < at; p++) number += *p == '\n';
    for (size_t k = 0; at && k < post.line_count; k++)
      if (post.line[k].strict_line == number) found = post.line[k].doubted;
    if (found != DOUBT_OF[i].doubted) fail_msg("'%s': doubted %d of\n%s", DOUBT_OF[i].line, found, post.recipe);
  }
}

/* "For 8 weeks" of an elimination diet is no batch: by it 11 g a day would be fed. */
static void a_length_that_starves_is_not_taken(void **state) {
  (void)state;
  struct post post;
  post_read(
      built_library(),
      span_of("Only two foods allowed for 8 weeks: 300 g horse meat, 300 g potato. She is a 15 kg dog, spayed, 4 years."),
      NULL, &post, &arena);
  assert_null(strstr(post.recipe, "Makes:"));
  assert_non_null(strstr(post.recipe, "300 g horse meat"));
}

int main(void) {
  const struct CMUnitTest tests[] = {T(the_strict_text_says_it), T(weak_matches_are_said),
                                     T(a_length_that_starves_is_not_taken)};
  return cmocka_run_group_tests_name("post_weak", tests, NULL, NULL);
}
