/* What compose returns is a text; read by the recipe's own reader and judged by check with the same options, everything that
 * was promised is met, for every animal of the household. Over random larders (raw and cooked, with ranges, pieces, feedings
 * and limits), dogs and cats, standards, bases and confidences. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "app/app_compose.h"
#include "base/num.h"
#include "tests/support/built_image.h"
#include "tests/support/unit_random.h"

static struct arena arena;
static bool chance(double p) { return unit_random() < p; }

/* The most, g a day, for a dog of 18 kg; 'cook': it may be cooked. */
static const struct {
  const char *food;
  double most;
  bool cook;
} FOODS[] = {{"lamb shoulder, raw [usda:17039]", 300, true},
             {"lamb heart, raw [usda:17191]", 200, true},
             {"beef liver, raw [usda:13325]", 25, true},
             {"chicken thighs, skin on, raw [usda:05091]", 250, true},
             {"turkey breast, roasted", 200, false},
             {"haddock, raw [usda:15033]", 200, true},
             {"canned sardine [usda:15088]", 70, false},
             {"raw Eastern oyster [usda:15167]", 40, false},
             {"blue mussel, raw [usda:15164]", 90, true},
             {"beef spleen [usda:13333]", 40, true},
             {"cooked millet [usda:20032]", 200, false},
             {"cooked white rice", 200, false},
             {"spinach, raw [usda:11457]", 80, true},
             {"kale, raw [usda:11233]", 80, true},
             {"wheat germ [usda:20078]", 30, false},
             {"hemp seed [usda:12012]", 15, false},
             {"sunflower oil [usda:04506]", 15, false},
             {"salmon oil [usda:04593]", 8, false},
             {"egg yolk [usda:01125]", 40, true},
             {"ground eggshell [ours:eggshell]", 8, false},
             {"natural vitamin E [ours:vitamin-e-natural]", 0.3, false},
             {"zinc picolinate [ours:zinc-picolinate]", 0.3, false},
             {"choline bitartrate [ours:choline-bitartrate]", 3, false}};

static void add_amount(struct buf *b, double g) {
  num_sig(b, g, 3);
  buf_adds(b, " g");
}

static void add_food(struct buf *b, size_t i, double size, bool cooked) {
  double most = FOODS[i].most * size * (0.6 + unit_random());
  const char *pin = strchr(FOODS[i].food, '['), *raw = strstr(FOODS[i].food, ", raw");
  if (cooked && FOODS[i].cook)
    buf_addf(b, "%.*s, raw weight, simmered %s  ", (int)((raw ? raw : pin - 1) - FOODS[i].food), FOODS[i].food, pin);
  else
    buf_addf(b, "%s  ", FOODS[i].food);
  if (chance(0.08)) {
    buf_adds(b, "at least ");
    add_amount(b, most / 8);
    buf_adds(b, " if used, ");
  }
  buf_adds(b, "up to ");
  add_amount(b, most);
  buf_adds(b, "\n");
}

static const char *random_larder(double size, bool cooked) {
  struct buf b;
  buf_init(&b, &arena, 20000);
  buf_addf(&b, "Larder: any\nAim: %s\n\n", below(2) ? "lightest" : "leanest");
  for (size_t i = 0; i < COUNT_OF(FOODS); i++)
    if (!chance(0.06)) add_food(&b, i, size, cooked && chance(0.7));
  if (chance(0.7)) buf_addf(&b, "large egg [usda:01123]  0-%d a day, whole\n", 1 + (int)size);
  if (chance(0.4)) {
    buf_adds(&b, "mackerel, canned, drained [usda:15048]  at most twice a week, ");
    add_amount(&b, 110 * size);
    buf_adds(&b, " a time\n");
  }
  if (chance(0.3)) buf_addf(&b, "Limits: fat at most %d %% of energy\n", 40 + below(25));
  if (chance(0.15)) buf_addf(&b, "Limits: at most %d foods\n", 13 + below(4));
  return buf_text(&b);
}

static struct animal random_animal(bool cat) {
  struct animal a = animal_plain(cat ? SPECIES_CAT : SPECIES_DOG, cat ? 3 + 4 * unit_random() : 4 + 40 * unit_random());
  a.activity = (enum activity)(1 + below(3));
  return a;
}

static bool patience(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)best;
  (void)bound;
  return nodes < 200 && ++*(long *)user < 300;
}

static void is_met(const struct composed_bowl *b, const struct animal *a, const struct check_options *options) {
  struct app_check_request q = {.recipe = {"composed", span_of(b->text)}, .one_off = a, .ask.check = *options};
  struct app_check_answer answer;
  app_check(built_library(), &q, &answer, &arena);
  const struct check_result *r = answer.result;
  assert_non_null(r);
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &r->nutrient[i];
    if ((n->verdict != VERDICT_MET && n->verdict != VERDICT_NO_FIGURE) || n->highest_day_over)
      fail_msg("%s is %s (sure %g)\n%s", nutrient_info[i].key, verdict_word[n->verdict], options->sure, b->text);
  }
  double need = animal_energy(built_library(), a, &arena).kcal;
  assert_true(r->balance.ca_p >= 1 - 1e-9 && r->balance.ca_p <= 2 + 1e-9);
  assert_true(r->energy.supply_kcal >= 0.95 * need * (1 - 1e-6) && r->energy.supply_kcal <= 1.05 * need * (1 + 1e-6));
}

static int found, none, stopped, households, cats, cooked_found, by_energy, strict;

/* A text of animals that says what these are. */
static const char *animals_text(const struct animal *a, size_t count) {
  struct buf b;
  buf_init(&b, &arena, 2000);
  for (size_t i = 0; i < count; i++) {
    buf_addf(&b, "Animal: %s\nSpecies: %s\nAge: 5 years\nWeight: ", a[i].name, species_word[a[i].species]);
    num_sig(&b, a[i].weight_kg, 6);
    buf_addf(&b, " kg\nActivity: %s\n\n",
             a[i].activity == ACTIVITY_LOW    ? "low"
             : a[i].activity == ACTIVITY_HIGH ? "high"
                                              : "moderate");
  }
  return buf_text(&b);
}

static void compose_one(void) {
  static const char *const NAMES[] = {"Juniper", "Moss", "Pim"};
  struct animal a[3];
  size_t count = chance(0.2) ? 2 + (size_t)below(2) : 1;
  double kcal = 0;
  bool any_cat = false, cooked = chance(0.5);
  struct buf names;
  buf_init(&names, &arena, 100);
  for (size_t i = 0; i < count; i++) {
    a[i] = random_animal(chance(0.35));
    a[i].name = NAMES[i];
    any_cat |= a[i].species == SPECIES_CAT;
    kcal += animal_energy(built_library(), &a[i], &arena).kcal;
    buf_addf(&names, "%s%s", i == 0 ? "For: " : " and ", NAMES[i]);
  }
  struct buf text;
  buf_init(&text, &arena, 30000);
  buf_addf(&text, "%s\n%s", buf_text(&names), random_larder(kcal / 830, cooked));
  long asked = 0;
  struct app_compose_request q = {.larder = {"any", span_of(buf_text(&text))}, .check.ask.today = {2026, 11, 2}};
  q.check.animals = (struct app_input){"house", span_of(animals_text(a, count))};
  q.check.ask.check = CHECK_OPTIONS_DEFAULT;
  q.check.ask.check.standard = (enum standard_id)below(STANDARD_COUNT);
  q.check.ask.check.basis = chance(0.5) ? BASIS_WEIGHT : BASIS_ENERGY;
  q.check.ask.check.sure = 0.6 + 0.35 * unit_random();
  q.go_on = patience;
  q.user = &asked;
  struct app_compose_answer out;
  app_compose(built_library(), &q, &out, &arena);
  if (!out.understood) {
    struct buf b;
    buf_init(&b, &arena, 20000);
    diags_print(&out.larder_diags, &b, true);
    diags_print(&out.animal_diags, &b, true);
    print_error("%s\n%s", buf_text(&b), buf_text(&text));
  }
  assert_true(out.understood);
  const struct composed_answer *c = &out.answer;
  none += c->result->status == COMPOSE_NONE;
  stopped += c->result->status == COMPOSE_STOPPED && !c->found;
  /* Whatever the search found must read back. */
  assert_true(!c->result->dish == !c->found);
  if (!c->found) return;
  found++;
  households += count > 1;
  cats += any_cat;
  cooked_found += cooked;
  by_energy += q.check.ask.check.basis == BASIS_ENERGY;
  strict += q.check.ask.check.sure > 0.85;
  for (size_t i = 0; i < count; i++) is_met(&c->found->bowl[i], &c->request->animal[i], &q.check.ask.check);
}

static void what_is_composed_is_met(void **state) {
  (void)state;
  enum { ROUNDS = 240 };
  for (int i = 0; i < ROUNDS; i++) {
    seed = 9100 + (unsigned long long)i * 131;
    unit_random();
    arena_init(&arena, NULL);
    compose_one();
    arena_free(&arena);
  }
  print_message(
      "composed %d (households %d, with cats %d, cooked %d, by energy %d, surer than 85 %% %d); none %d, stopped %d\n",
      found, households, cats, cooked_found, by_energy, strict, none, stopped);
  assert_true(found >= 180 && households >= 20 && cats >= 50 && cooked_found >= 70 && by_energy >= 70 && strict >= 25);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(what_is_composed_is_met)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
