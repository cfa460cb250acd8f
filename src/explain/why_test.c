/* The chain is added up here from its own parts and compared with what check reported. */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#define RANDOM_SEED 1866
#include "tests/support/fresh_random.h"

#include "explain/why.h"
#include "tests/support/built_image.h"
#include "tests/support/near.h"
#include "tests/support/tiny_image.h"

enum { RATIONS = 60, MOST_LINES = 10 };

static const struct check_result *random_check(struct check_options *o) {
  static const double TIMES[] = {28, 28, 14, 8, 4, 1};
  const struct library *lib = built_library();
  size_t n = 1 + gsl_rng_uniform_int(rng, MOST_LINES), rows = img_count(&lib->image, IMG_RETENTION);
  struct ration_line *line = ARENA_NEW(&arena, struct ration_line, n);
  struct ration *ration = ARENA_NEW(&arena, struct ration, 1);
  struct animal *animal = ARENA_NEW(&arena, struct animal, 1);
  for (size_t i = 0; i < n; i++) {
    uint32_t food = (uint32_t)gsl_rng_uniform_int(rng, library_count(lib));
    if (i > 0 && gsl_rng_uniform_int(rng, 4) == 0) food = line[i - 1].part[0].food; /* one food on two lines */
    line[i] = tiny_line_on(food, 1 + 200 * gsl_rng_uniform(rng), TIMES[gsl_rng_uniform_int(rng, COUNT_OF(TIMES))], (int)i);
    line[i].part[0].grams_cv = 0.2 * gsl_rng_uniform(rng);
    if (gsl_rng_uniform_int(rng, 3) == 0) line[i].part[0].retention = (int32_t)gsl_rng_uniform_int(rng, rows);
  }
  *ration = tiny_ration(line, n);
  *animal = tiny_animal(gsl_rng_uniform_int(rng, 2) ? SPECIES_DOG : SPECIES_CAT, 3 + 5 * gsl_rng_uniform(rng));
  *o = CHECK_OPTIONS_DEFAULT;
  o->standard = (enum standard_id)gsl_rng_uniform_int(rng, STANDARD_COUNT);
  o->energy_by = gsl_rng_uniform_int(rng, 2) ? ENERGY_ATWATER : ENERGY_FOUR_STEP;
  o->sure = 0.5 + 0.49 * gsl_rng_uniform(rng);
  return check_numbers(lib, ration, animal, o, &arena);
}

static void assert_close(double got, double want) { assert_near(got, want, 1e-9 * fabs(want) + 1e-12); }

/* grams / 100 x the sum of factor x value x share kept, from the printed parts alone. */
static double product(const struct why_portion *p, double grams) {
  double x = 0;
  for (int i = 0; i < p->term_count; i++) {
    double term = p->term[i].factor * p->term[i].value * p->term[i].kept;
    x += isnan(term) ? 0 : term;
  }
  return grams * x / 100;
}

static void assert_adds_up(const struct why_chain *c, const struct check_result *r) {
  const struct nutrient_result *n = c->n;
  double sum = 0, lean = 0, rich = 0, variance = 0;
  for (size_t i = 0; i < c->count; i++) {
    const struct why_portion *p = &c->portion[i];
    if (p->missing && product(p, p->grams) == 0) {
      assert_true(isnan(p->amount)); /* not known, so not 0 */
    } else {
      assert_close(p->amount, product(p, p->grams));
    }
    sum += product(p, p->grams);
    lean += product(p, p->lean_grams);
    rich += product(p, p->rich_grams);
    variance += p->from_content + p->from_kept + p->from_weight;
    if (i > 0) assert_true(c->portion[i - 1].line <= p->line);
  }
  if ((n->id == NUT_ENERGY ? r->energy.known : n->known) == KNOWN_NONE) {
    assert_true(sum == 0 && isnan(c->sum) && isnan(n->amount) && isnan(c->lean.amount) && isnan(c->met.chance));
    return;
  }
  bool four_step = n->id == NUT_ENERGY && r->options.energy_by == ENERGY_FOUR_STEP;
  if (!four_step) assert_close(sum, n->amount);
  if (four_step && !isnan(n->amount)) assert_close(c->four_step.kcal, n->amount);
  assert_close(lean, n->window_amount);
  assert_close(rich, n->window_high);
  assert_close(variance, c->variance);
  if (!four_step && n->amount > 0) assert_close(sqrt(variance) / sum, n->cv);
}

static void assert_judged(const struct why_chain *c, double sure) {
  static const enum verdict OF_RULE[RULE_COUNT] = {VERDICT_OVER,  VERDICT_OVER,  VERDICT_NO_FIGURE, VERDICT_UNPROVEN,
                                                   VERDICT_SHORT, VERDICT_SHORT, VERDICT_THIN,      VERDICT_THIN,
                                                   VERDICT_THIN,  VERDICT_MET};
  const struct nutrient_result *n = c->n;
  (void)sure;
  assert_int_equal(OF_RULE[c->rule], n->verdict);
  if (isnan(c->met.z)) return;
  /* The normal distribution of the GNU Scientific Library; the last digits of the figure are rounding room. */
  assert_near(gsl_cdf_ugaussian_P(c->met.z), n->chance_met, 1e-7);
  assert_near(gsl_cdf_ugaussian_P((log(c->met.mean / c->met.figure) - c->met.sigma * c->met.sigma / 2) / c->met.sigma),
              c->met.chance, 1e-9);
}

static void test_chains_add_up(void **state) {
  (void)state;
  struct why_key keys[NUT_COUNT];
  for (int k = 0; k < NUT_COUNT; k++) keys[k] = (struct why_key){(enum nutrient)k, BALANCE_COUNT};
  for (int i = 0; i < RATIONS; i++) {
    struct check_options o;
    const struct check_result *r = random_check(&o);
    const struct why *why = why_of(built_library(), r, keys, NUT_COUNT, &arena);
    for (int k = 0; k < NUT_COUNT; k++) {
      assert_adds_up(why[k].chain, r);
      if (k != NUT_ENERGY) assert_judged(why[k].chain, o.sure);
    }
  }
}

static void test_ratios_divide(void **state) {
  (void)state;
  struct why_key keys[BALANCE_COUNT];
  int seen = 0;
  for (int k = 0; k < BALANCE_COUNT; k++) keys[k] = (struct why_key){NUT_NONE, (enum balance_id)k};
  for (int i = 0; i < RATIONS; i++) {
    struct check_options o;
    const struct check_result *r = random_check(&o);
    const struct why *why = why_of(built_library(), r, keys, BALANCE_COUNT, &arena);
    for (int k = 0; k < BALANCE_COUNT; k++) {
      const struct why_ratio *q = &why[k].ratio;
      double top = 0, bottom = 0;
      for (int j = 0; j < q->top_count; j++)
        top += known_part(q->top[j].amount) / (isnan(q->top[j].molar_mass) ? 1 : q->top[j].molar_mass);
      for (int j = 0; j < q->bottom_count; j++)
        bottom += known_part(q->bottom[j].amount) / (isnan(q->bottom[j].molar_mass) ? 1 : q->bottom[j].molar_mass);
      if (isnan(q->value)) continue;
      assert_close(top / bottom, q->value);
      seen++;
    }
  }
  assert_true(seen > 100);
}

static void test_what_is_asked(void **state) {
  (void)state;
  struct why_key k;
  assert_true(why_key_read(SPAN_LIT("zinc"), &k) && k.nutrient == NUT_ZINC);
  assert_true(why_key_read(SPAN_LIT(" Vitamin E "), &k) && k.nutrient == NUT_VITAMIN_E);
  assert_true(why_key_read(SPAN_LIT("energy"), &k) && k.nutrient == NUT_ENERGY);
  assert_true(why_key_read(SPAN_LIT("Calcium:phosphorus"), &k) && k.nutrient == NUT_NONE && k.balance == BALANCE_CA_P);
  assert_true(why_key_read(SPAN_LIT("omega-6 : omega-3"), &k) && k.balance == BALANCE_N6_N3);
  assert_true(why_key_read(SPAN_LIT("phytate_zn"), &k) && k.balance == BALANCE_PHYTATE_ZN);
  assert_false(why_key_read(SPAN_LIT("zinck"), &k));
  assert_string_equal(why_key_nearest(SPAN_LIT("zinck")), "zinc");
  assert_string_equal(why_key_nearest(SPAN_LIT("vitamine e")), "vitamin_e");
  assert_null(why_key_nearest(SPAN_LIT("qqqqqqqqqqq")));
}

/* "Vitamin B1", "omega 3" and a ratio in words are what people type. */
static void common_names_are_understood(void **state) {
  static const struct {
    const char *words;
    enum nutrient n;
  } ROW[] = {{"B1", NUT_THIAMIN}, {"vitamin B2", NUT_RIBOFLAVIN}, {"omega 3", NUT_EPA_DHA}, {"Omega-6", NUT_LINOLEIC}, {"folic acid", NUT_FOLATE}};
  (void)state;
  struct why_key key;
  for (size_t i = 0; i < sizeof ROW / sizeof *ROW; i++) {
    assert_true(why_key_read(span_of(ROW[i].words), &key));
    assert_int_equal(key.nutrient, ROW[i].n);
  }
  assert_true(why_key_read(SPAN_LIT("calcium to phosphorus"), &key));
  assert_int_equal(key.nutrient, NUT_NONE);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(test_chains_add_up), cmocka_unit_test(test_ratios_divide),
                                     cmocka_unit_test(test_what_is_asked),
                                     cmocka_unit_test(common_names_are_understood)};
  return cmocka_run_group_tests(tests, fresh_random, done_random);
}
