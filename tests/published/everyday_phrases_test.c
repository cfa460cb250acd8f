/* What people write against the records that a nutritionist would choose: tests/published/everyday_phrases.tsv, chosen from
 * the published food descriptions of USDA SR28 and IFCT 2017. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "foods/search.h"
#include "tests/support/built_image.h"

enum { MOST_PHRASES = 400, LINE_BYTES = 300 };

struct phrase {
  char words[LINE_BYTES], codes[LINE_BYTES]; /* codes with ',' between */
};
static struct phrase phrase[MOST_PHRASES];
static size_t phrases;

struct score {
  size_t right, absurd, by_ranking;
};

static int read_phrases(void **state) {
  (void)state;
  FILE *f = fopen(BW_SOURCE_DIR "/tests/published/everyday_phrases.tsv", "r");
  char line[2 * LINE_BYTES];
  if (!f) return -1;
  while (phrases < MOST_PHRASES && fgets(line, sizeof line, f)) {
    char *tab = strchr(line, '\t');
    if (line[0] == '#' || !tab || strncmp(line, "phrase\t", 7) == 0) continue;
    *tab = '\0';
    snprintf(phrase[phrases].words, LINE_BYTES, "%.*s", LINE_BYTES - 1, line);
    snprintf(phrase[phrases].codes, LINE_BYTES, "%.*s", (int)strcspn(tab + 1, "\n"), tab + 1);
    phrases++;
  }
  fclose(f);
  return 0;
}

static bool lists(const char *codes, const char *code) {
  size_t n = strlen(code);
  for (const char *p = codes; *p; p += strcspn(p, ",") + (p[strcspn(p, ",")] == ','))
    if (strcspn(p, ",") == n && memcmp(p, code, n) == 0) return true;
  return false;
}

static uint32_t first_choice(const struct phrase *p) {
  char code[LINE_BYTES];
  snprintf(code, sizeof code, "%.*s", (int)strcspn(p->codes, ","), p->codes);
  return built_food(code);
}

static void judge(const struct phrase *p, struct score *score) {
  const struct library *lib = built_library();
  struct arena arena;
  struct search_hit hit[2];
  arena_init(&arena, NULL);
  size_t n = search_foods(lib, span_of(p->words), NULL, hit, 2, &arena);
  const struct img_food *wanted = library_food(lib, first_choice(p));
  bool right = n > 0 && lists(p->codes, library_code(lib, hit[0].food));
  score->right += right;
  score->by_ranking += right && !hit[0].exact_name;
  if (!right) print_message("'%s' gives %s\n", p->words, n > 0 ? library_name(lib, hit[0].food) : "nothing");
  /* A wrong record of the same part of the bowl misleads; one of another part is absurd. */
  score->absurd += !right && (n == 0 || library_food(lib, hit[0].food)->part != wanted->part);
  arena_free(&arena);
}

static void people_find_the_record_they_mean(void **state) {
  (void)state;
  struct score score = {0};
  for (size_t i = 0; i < phrases; i++) judge(&phrase[i], &score);
  assert_true(phrases >= 80);
  assert_true(score.right * 100 >= phrases * 95);
  assert_int_equal(score.absurd, 0);
  /* The table of everyday names must not do the work of the ranking. */
  assert_true(score.by_ranking >= 45);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(people_find_the_record_they_mean)};
  return cmocka_run_group_tests(tests, read_phrases, NULL);
}
