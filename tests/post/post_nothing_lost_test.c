/* post_nothing_lost_test.c: posts that are put together from foods, amounts and the marks and words around them, as people
 * write them (common practice). Whatever the mixture: a text of which anything is understood is answered, and each amount
 * stands somewhere in the answer: in a counted line, in one that is left out, or in a question. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include "base/buf.h"
#include "post/post.h"
#include "tests/support/built_image.h"
#include "tests/support/fresh_arena.h"

/* %n the amount, %f the food. */
static const char *const SAID[] = {
    "%n g %f",
    "%f %ng",
    "%f: %n g",
    "%f-%ng",
    "%f.....%ng",
    "%f...%n g",
    "%f (%n g)",
    "- %n grams of %f",
    "%ng %f daily",
    "%ng %f x 2 meals",
    "%n g %f x 3 days a week",
    "%n g %f except Sundays (he fasts)",
    "%n g of %f every other day",
    "%f = %n g",
    "%n g raw %f",
    "he gets %n g of %f in the morning",
    "%n g %f most days",
    "%n g %f or chicken hearts",
    "%n g %f whatever the weather",
    "approx.%ng %f",
    "%n g %f \xF0\x9F\xA5\xA9",
    "Dinner: %n g %f",
    "%n g %f for the whole week",
    "%n g %f 6 days out of 7",
    "* %f ~ %n g",
    "%n g %f blorfled in the flump",
};
static const char *const FOOD[] = {"beef mince", "beef heart", "chicken thigh", "beef liver", "carrots",      "white rice",
                                   "cod",        "sardines",   "peas",          "pumpkin",    "turkey mince", "lamb kidney"};
static const char *const BETWEEN[] = {"\n", "\n\n", ", ", "; ", "\n", ". ", " + ", "\n"};
static const char *const BEFORE[] = {"", "20kg dog\n", "My lab, 25 kg, 4 years, neutered:\n", "", "Hi all!\n"};
static const char *const BEHIND[] = {"", "\nThanks!", "", "\nIs that enough calcium?"};

static unsigned long long state_of = 1;
static size_t pick(size_t n) { /* the same posts each time */
  state_of = state_of * 6364136223846793005ULL + 1442695040888963407ULL;
  return (size_t)(state_of >> 33) % n;
}

static void add_said(struct buf *b, const char *said, const char *food, int amount) {
  for (const char *p = said; *p; p++) {
    if (p[0] == '%' && p[1] == 'n')
      buf_addf(b, "%d", amount), p++;
    else if (p[0] == '%' && p[1] == 'f')
      buf_adds(b, food), p++;
    else
      buf_addc(b, *p);
  }
}

static bool tells_number(const char *text, int amount) {
  char figure[16];
  snprintf(figure, sizeof figure, "%d", amount);
  size_t n = strlen(figure);
  for (const char *p = text; (p = strstr(p, figure)) != NULL; p++) {
    bool begins = p == text || !memchr("0123456789.", p[-1], 11);
    if (begins && !(p[n] >= '0' && p[n] <= '9')) return true;
  }
  return false;
}

enum { POSTS = 400, FOODS_MOST = 5 };

static void no_amount_is_lost(void **state) {
  int lost = 0, refused = 0;
  (void)state;
  for (int i = 0; i < POSTS; i++) {
    struct arena own;
    struct buf text;
    int amount[FOODS_MOST];
    size_t foods = 1 + pick(FOODS_MOST);
    arena_init(&own, NULL);
    buf_init(&text, &own, 4000);
    buf_adds(&text, BEFORE[pick(COUNT_OF(BEFORE))]);
    for (size_t k = 0; k < foods; k++) {
      amount[k] = 101 + 2 * (int)pick(9) + 20 * (int)k; /* all different, and no sum or share of others */
      if (k > 0) buf_adds(&text, BETWEEN[pick(COUNT_OF(BETWEEN))]);
      add_said(&text, SAID[pick(COUNT_OF(SAID))], FOOD[pick(COUNT_OF(FOOD))], amount[k]);
    }
    buf_adds(&text, BEHIND[pick(COUNT_OF(BEHIND))]);
    struct post post;
    post_read(built_library(), buf_span(&text), NULL, &post, &own);
    if (!post.recipe[0]) print_error("refused:\n%s\n\n", buf_text(&text)), refused++;
    for (size_t k = 0; k < foods && post.recipe[0]; k++)
      if (!tells_number(post.recipe, amount[k])) {
        print_error("%d is lost of:\n%s\nwhich became\n%s\n", amount[k], buf_text(&text), post.recipe);
        lost++;
      }
    arena_free(&own);
  }
  assert_int_equal(refused, 0);
  assert_int_equal(lost, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(no_amount_is_lost)};
  return cmocka_run_group_tests_name("post_nothing_lost", tests, NULL, NULL);
}
