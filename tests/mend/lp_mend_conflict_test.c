/* Why a recipe cannot be mended: every limit that is named is needed. Taken together they cannot be kept, and without any
 * one of them the others can: solved by GLPK, an independent solver. Where GLPK cannot tell, or says otherwise, arithmetic
 * decides: a certificate of impossibility, or amounts that keep everything. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "app/app_mend.h"
#include "base/num.h"
#include "tests/lp/glpk_oracle.h"
#include "tests/support/built_image.h"
#include "tests/support/sampled.h"
#include "tests/support/unit_random.h"

static int by_arithmetic;

static bool is_possible(const struct lp_model *m) {
  struct oracle o = oracle_solve(m);
  if (o.status == LP_OPTIMAL || o.status == LP_UNBOUNDED) return true;
  struct arena a;
  arena_init(&a, NULL);
  const struct lp_answer *x = lp_solve(lp_open(m, 0, &a), NULL);
  bool none = x->status == LP_INFEASIBLE && lp_farkas_proves(m, x->farkas);
  bool kept = x->has_x && lp_verify(m, x->x).worst_row < 1e-7 && lp_verify(m, x->x).worst_col < 1e-7;
  arena_free(&a);
  if (o.status == LP_INFEASIBLE && none) return false;
  by_arithmetic++;
  assert_true(none != kept);
  return kept;
}

/* "haddock: at most 120 g a day", as the answer words the end of a column. */
static bool names_end(const char *words, const struct lp_col *c, bool most) {
  struct arena a;
  struct buf b;
  double end = most ? c->hi : c->lo;
  if (!isfinite(end) || (!most && !(end > 0))) return false;
  arena_init(&a, NULL);
  buf_init(&b, &a, 400);
  buf_addf(&b, "%s: %s ", c->name, most ? "at most" : "at least");
  num_sig(&b, end, 3);
  buf_adds(&b, " g a day");
  bool same = strcmp(buf_text(&b), words) == 0;
  arena_free(&a);
  return same;
}

/* The model without the limit that these words name; false when nothing in it has that name. */
static bool without(const struct lp_model *m, const char *words, struct lp_model *out, struct arena *a) {
  bool found = false;
  *out = *m;
  out->row = ARENA_NEW(a, struct lp_row, m->rows);
  out->col = ARENA_NEW(a, struct lp_col, m->cols);
  memcpy(out->row, m->row, m->rows * sizeof *m->row);
  memcpy(out->col, m->col, m->cols * sizeof *m->col);
  for (size_t i = 0; i < m->rows; i++) {
    if (strcmp(m->row[i].name, words) != 0) continue;
    out->row[i].lo = -INFINITY;
    out->row[i].hi = INFINITY;
    found = true;
  }
  for (size_t j = 0; j < m->cols && !found; j++) {
    if (names_end(words, &m->col[j], true)) out->col[j].hi = INFINITY, found = true;
    if (names_end(words, &m->col[j], false)) out->col[j].lo = 0, found = true;
  }
  return found;
}

static void every_limit_is_needed(const struct model_conflict *c) {
  assert_non_null(c->model);
  assert_false(is_possible(c->model));
  for (size_t i = 0; i < c->model->cols; i++) assert_true(c->model->col[i].lo >= 0); /* no food is less than nothing */
  for (size_t i = 0; i < c->count; i++) {
    struct arena a;
    struct lp_model less;
    arena_init(&a, NULL);
    if (!without(c->model, c->words[i], &less, &a)) fail_msg("nothing is named '%s'", c->words[i]);
    if (!is_possible(&less)) fail_msg("not needed: '%s'", c->words[i]);
    arena_free(&a);
  }
}

/* ---- recipes that cannot be mended ------------------------------------------------------------------------------------ */

static const char *const BASES[] = {"chicken breast, skinless, raw", "lamb shoulder, raw", "turkey thigh, skinless, raw",
                                    "beef mince 90/10, raw", "pork loin, raw"};
static const char *const SIDES[] = {"cooked white rice", "carrots",
                                    "cooked oatmeal",    "sweet potato, raw weight, boiled",
                                    "olive oil",         "beef liver [usda:13325]"};
/* What supplies iodine, vitamin D, zinc, manganese and the like: none of it, and no supplements, leaves most dinners without
 * a change that would do. */
static const char *const NEVER[] = {"mussel", "oyster",  "haddock", "cod",   "pollock",  "sardine", "herring",  "kidney",
                                    "liver",  "spinach", "egg",     "wheat", "eggshell", "bone",    "mackerel", "oil"};

static const struct mend_result *try_one(struct arena *arena) {
  static struct animal animal;
  static const char *KEEP[3], *never[16];
  struct buf text;
  bool cat = unit_random() < 0.4;
  animal = animal_plain(cat ? SPECIES_CAT : SPECIES_DOG, cat ? 3 + 3 * unit_random() : 6 + 25 * unit_random());
  double size = animal_energy(built_library(), &animal, arena).kcal / 900;
  const char *base = BASES[(int)(unit_random() * COUNT_OF(BASES))], *side = SIDES[(int)(unit_random() * COUNT_OF(SIDES))];
  buf_init(&text, arena, 1000);
  num_sig(&text, (300 + 200 * unit_random()) * size, 3);
  buf_addf(&text, " g %s\n", base);
  num_sig(&text, (20 + 100 * unit_random()) * size, 3);
  buf_addf(&text, " g %s\n", side);
  struct app_mend_request q = {.quick = true, .check.ask.no_supplements = true};
  q.check.recipe = (struct app_input){"dinner", span_of(buf_text(&text))};
  q.check.one_off = &animal;
  q.check.ask.check = CHECK_OPTIONS_DEFAULT;
  q.check.ask.check.basis = unit_random() < 0.3 ? BASIS_ENERGY : BASIS_WEIGHT;
  q.check.ask.check.sure = 0.6 + 0.3 * unit_random();
  KEEP[0] = "1";
  q.check.ask.keep.item = KEEP;
  q.check.ask.keep.count = unit_random() < 0.7;
  for (size_t i = 0; i < COUNT_OF(NEVER); i++)
    if (unit_random() < 0.45) never[q.check.ask.never.count++] = NEVER[i];
  q.check.ask.never.item = never;
  struct app_mend_answer *a = ARENA_NEW(arena, struct app_mend_answer, 1);
  app_mend(built_library(), &q, a, arena);
  assert_true(a->understood);
  return a->answer.mend;
}

static void conflicts_are_smallest(void **state) {
  (void)state;
  enum { WANTED = SAMPLED(40, 4), TRIES = 8 * WANTED };
  int seen = 0, limits = 0;
  seed = 977;
  for (int i = 0; i < TRIES && seen < WANTED; i++) {
    struct arena arena;
    arena_init(&arena, NULL);
    const struct mend_result *r = try_one(&arena);
    if (r->status == MEND_NONE && r->conflict.count > 0) {
      every_limit_is_needed(&r->conflict);
      limits += (int)r->conflict.count;
      seen++;
    }
    arena_free(&arena);
  }
  print_message("%d conflicts, %d limits; %d times by arithmetic\n", seen, limits, by_arithmetic);
  assert_true(seen >= WANTED);
  assert_true(limits > 2 * WANTED);
  assert_true(by_arithmetic * 20 < limits);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(conflicts_are_smallest)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
