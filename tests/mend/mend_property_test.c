/* What mend returns is a text; read by the recipe's own reader and judged by check with the same options, everything that
 * was promised is met. Over random recipes, animals, standards, bases and confidences. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "app/app_mend.h"
#include "base/num.h"
#include "tests/support/built_image.h"
#include "tests/support/sampled.h"
#include "tests/support/unit_random.h"

static struct arena arena;

/* Lines as people post them: weights, spoons, counts, ranges, frequencies, cooking, bone, comments. '%' is a factor of size.
 */
static const struct {
  const char *before;
  double amount;
  const char *after;
} LINES[] = {
    {"", 300, " g lamb shoulder, raw"},
    {"", 300, " g chicken thigh, skinless, raw weight, simmered"},
    {"", 250, " g beef mince 90/10, raw   # from the freezer"},
    {"", 200, " g turkey breast, roasted"},
    {"", 12, " oz pork loin, raw"},
    {"", 30, " g beef liver [usda:13325]"},
    {"", 20, " g chicken liver, twice a week"},
    {"", 60, " g duck neck, raw, bone-in"},
    {"", 2, " large eggs, every other day"},
    {"", 1, " egg, boiled"},
    {"", 1, " can (4.4 oz) mackerel in brine, drained, weekly"},
    {"", 90, " g salmon, raw, 3 times a week"},
    {"", 150, " g cooked white rice"},
    {"", 1, " cup cooked oatmeal"},
    {"", 100, " g sweet potato, raw weight, boiled"},
    {"", 40, " g spinach, raw"},
    {"", 50, " g carrots"},
    {"", 2, " tsp sunflower oil"},
    {"", 5, " ml salmon oil"},
    {"", 2, " g ground eggshell"},
    {"", 1, " tsp ground hemp seed"},
    {"- ", 35, " g plain yogurt"},
    {"", 1, " clove garlic"},
};

static void add_line(struct buf *b, int i, double size, bool range) {
  bool counted = LINES[i].amount <= 2 && LINES[i].after[1] != 'g';
  double x = counted ? ceil(LINES[i].amount * fmax(1, size)) : LINES[i].amount * size;
  buf_adds(b, LINES[i].before);
  num_sig(b, x, 2);
  if (range && !counted) {
    buf_addc(b, '-');
    num_sig(b, x * 1.2, 2);
  }
  buf_addf(b, "%s\n", LINES[i].after);
}

static const char *random_recipe(double size) {
  static const char *const HEADER[] = {"", "Makes: 2 days\n\n", "Recipe: A bowl\nMakes: 3 days\n\n", "Makes: 7 days\n"};
  struct buf b;
  int days = below(4), used = 0;
  bool taken[COUNT_OF(LINES)] = {false};
  buf_init(&b, &arena, 10000);
  buf_adds(&b, HEADER[days]);
  static const double DAYS[] = {1, 2, 3, 7};
  while (used < 3 + below(5)) {
    int i = used == 0 ? below(5) : below((int)COUNT_OF(LINES));
    if (taken[i]) continue;
    taken[i] = true;
    add_line(&b, i, size * DAYS[days] * (0.3 + unit_random()), unit_random() < 0.1);
    used++;
  }
  return buf_text(&b);
}

static struct animal random_animal(void) {
  bool cat = unit_random() < 0.35;
  struct animal a = animal_plain(cat ? SPECIES_CAT : SPECIES_DOG, cat ? 3 + 4 * unit_random() : 4 + 40 * unit_random());
  a.activity = (enum activity)(1 + below(3));
  return a;
}

static int found, none, fewest, searched, searched_fewest;

static void judge_again(const struct app_mend_request *q, const struct mended *m, const struct model_limits *l) {
  struct app_check_request check = q->check;
  struct app_check_answer a;
  check.recipe.text = span_of(m->text);
  app_check(built_library(), &check, &a, &arena);
  assert_non_null(a.result);
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &a.result->nutrient[i];
    bool fine = (n->verdict == VERDICT_MET || n->verdict == VERDICT_NO_FIGURE) && !n->highest_day_over;
    if (!fine) print_error("%s is %s\n%s\n", nutrient_info[i].key, verdict_word[n->verdict], m->text);
    assert_true(fine);
  }
  assert_true(a.result->balance.ca_p >= 1 && a.result->balance.ca_p <= 2);
  double kcal = a.result->energy.supply_kcal;
  assert_true(model_energy_kept(l, kcal));
}

/* Lines of the old text that are not touched stand in the new one to the last byte, and in their order. */
static void keeps_the_rest(const char *old, const struct mended *m) {
  const char *at = m->text;
  for (size_t i = 0; i < m->lines; i++) {
    if (m->line[i].kind == LINE_OUT) continue;
    size_t n = strlen(m->line[i].text);
    assert_memory_equal(at, m->line[i].text, n);
    assert_int_equal(at[n], '\n');
    at += n + 1;
  }
  assert_int_equal(*at, '\0');
  for (size_t i = 0; i < m->lines; i++) {
    if (m->line[i].kind == LINE_IN) continue;
    size_t n = strlen(m->line[i].text);
    assert_memory_equal(old, m->line[i].text, n);
    old += n + (old[n] == '\n');
  }
}

/* A bowl that was scaled to the animal first: every amount may be another, but no line goes, and what holds no amount stays.
 */
static void keeps_the_lines(const char *old, const struct mended *m) {
  for (size_t i = 0; i < m->lines; i++) {
    if (m->line[i].kind == LINE_IN) continue;
    size_t n = strcspn(old, "\n");
    if (strcspn(old, "0123456789") >= n) {
      assert_int_equal(n, strlen(m->line[i].text));
      assert_memory_equal(old, m->line[i].text, n);
    }
    old += n + (old[n] == '\n');
  }
  assert_int_equal(*old, '\0');
}

/* An egg stays whole: counted lines change by whole numbers. */
static void whole_things_stay_whole(const struct mended *m) {
  for (size_t i = 0; i < m->lines; i++) {
    const char *t = m->line[i].text;
    if (m->line[i].kind != LINE_IN) continue;
    if (strstr(t, " egg") && !strstr(t, "yolk") && !strstr(t, " g ") && !strstr(t, "mg ")) assert_null(strchr(t, '.'));
    if (strstr(t, "mackerel in brine")) assert_true(t[strspn(t, "0123456789")] == ' ');
  }
}

static void mend_one(bool thorough) {
  struct animal a = random_animal();
  double kcal = animal_energy(built_library(), &a, &arena).kcal, size = kcal / 900;
  const char *text = random_recipe(size);
  struct app_mend_request q = {.quick = !thorough};
  struct app_mend_answer r;
  q.check.recipe = (struct app_input){"random", span_of(text)};
  q.check.one_off = &a;
  q.check.ask.check = CHECK_OPTIONS_DEFAULT;
  q.check.ask.check.standard = (enum standard_id)below(STANDARD_COUNT);
  q.check.ask.check.basis = below(2) ? BASIS_WEIGHT : BASIS_ENERGY;
  q.check.ask.check.sure = below(2) ? 0.75 : 0.6 + 0.35 * unit_random();
  q.check.ask.no_supplements = below(4) == 0;
  app_mend(built_library(), &q, &r, &arena);
  if (!r.understood) {
    struct buf b;
    buf_init(&b, &arena, 10000);
    diags_print(&r.check.recipe_diags, &b, true);
    print_error("%s\n%s\n", text, buf_text(&b));
  }
  assert_true(r.understood);
  const struct mended_answer *m = &r.answer;
  assert_true(m->mend->status == MEND_FOUND || m->mend->status == MEND_NONE);
  /* Whatever the search believes, the text must read back to it. */
  assert_int_equal(m->count, m->mend->proposals);
  if (m->mend->status == MEND_NONE) none++;
  if (m->count == 0) return;
  found++;
  bool few = m->found[0].proposal->fewest_proven || m->found[0].proposal->one_more;
  fewest += few;
  searched += thorough;
  searched_fewest += thorough && few;
  struct model_limits l = mend_limits(built_library(), m->before);
  judge_again(&q, &m->found[0], &l);
  if (m->scaled > 0) {
    keeps_the_lines(text, &m->found[0]);
  } else {
    keeps_the_rest(text, &m->found[0]);
  }
  whole_things_stay_whole(&m->found[0]);
}

static void what_is_mended_is_met(void **state) {
  (void)state;
  enum { BOWLS = SAMPLED(200, 10) };
  for (int i = 0; i < BOWLS; i++) {
    seed = 5000 + (unsigned long long)i * 77;
    unit_random();
    arena_init(&arena, NULL);
    mend_one(i % 24 == 0);
    arena_free(&arena);
  }
  print_message("mended %d, of these as few lines as there can be %d (%d of %d with a whole search); none found for %d\n",
                found, fewest, searched_fewest, searched, none);
  assert_true(found >= BOWLS * 3 / 4);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(what_is_mended_is_met)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
