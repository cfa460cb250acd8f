/* What a larder says of a food is what is offered of it: so much, so often, in those pieces. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include "foods/refused.h"
#include "tests/mend/offers_scene.h"

static const char PLAIN[] = "Makes: 2 days\n700 g lamb shoulder, raw\n";
static const char POT[] = "Makes: 2 days\nCook: raw weight, simmered\n700 g lamb shoulder\n";

/* The only food of a larder, as it is offered to a recipe; NULL: it is not. */
static const struct mend_offer *offer_of(const char *recipe, const char *larder, struct offer_text *t) {
  struct offers *o = ARENA_NEW(&arena, struct offers, 1);
  *o = offers_of(recipe, larder);
  for (size_t i = 0; i < o->count; i++)
    if (o->offer[i].tier == MEND_LARDER) {
      *t = o->text[i];
      return &o->offer[i];
    }
  return NULL;
}

/* As the new text will have it: grams, or a number of things. */
static double written(const struct offer_text *t, double grams_per_day) {
  return grams_per_day * t->per_day / (t->unit == UNIT_G ? 1 : t->unit_g);
}

static void is(double x, double wanted) { assert_true(fabs(x - wanted) <= 1e-6 * wanted); }

/* A larder's grams are grams of the text, also where the text weighs raw what is then cooked. */
static void a_range_holds_for_the_grams_written(void **state) {
  (void)state;
  static const char *const RECIPE[] = {PLAIN, POT};
  struct offer_text t;
  for (size_t i = 0; i < COUNT_OF(RECIPE); i++) {
    const struct mend_offer *daily = offer_of(RECIPE[i], "lamb heart    100-120 g a day\n", &t);
    assert_non_null(daily);
    is(written(&t, daily->least), 200); /* two days */
    is(written(&t, daily->most), 240);
    const struct mend_offer *weekly = offer_of(RECIPE[i], "lamb heart    at most once a week, 100 g a time\n", &t);
    assert_non_null(weekly);
    is(written(&t, weekly->most), 100);
    const struct mend_offer *range = offer_of(RECIPE[i], "lamb heart    at most once a week, 40-100 g a time\n", &t);
    assert_non_null(range);
    is(written(&t, range->least), 40);
    is(written(&t, range->most), 100);
  }
}

/* Whole cans are cans, not single fish; spoons are spoons. */
static void whole_things_are_counted_as_the_larder_counts_them(void **state) {
  (void)state;
  struct offer_text t;
  const struct mend_offer *can = offer_of(PLAIN, "sardines in oil    0-2 cans a day, whole\n", &t);
  assert_non_null(can);
  assert_int_equal(t.unit, UNIT_CAN);
  assert_string_equal(t.unit_word, "can");
  is(written(&t, can->whole), 1);
  is(written(&t, can->most), 4);
  const struct mend_offer *weekly = offer_of(PLAIN, "sardines in oil    at most twice a week, 1 can a time, whole\n", &t);
  assert_non_null(weekly);
  is(written(&t, weekly->most), 1);
  assert_int_equal(t.unit, UNIT_CAN);
  const struct mend_offer *spoon = offer_of(PLAIN, "salmon oil    0-2 tsp a day, whole\n", &t);
  assert_non_null(spoon);
  assert_int_equal(t.unit, UNIT_TSP);
  is(written(&t, spoon->whole), 1);
  is(written(&t, spoon->most), 4);
  const struct mend_offer *egg = offer_of(PLAIN, "extra large egg [usda:01123]    0-1 a day, whole\n", &t);
  assert_non_null(egg);
  is(egg->whole, 28); /* half of 56 g: USDA's weight of an extra large egg */
  /* Half an egg a day is none in the bowl of one day. */
  assert_null(offer_of("700 g lamb shoulder, raw\n", "large egg [usda:01123]    0-0.5 a day, whole\n", &t));
  assert_non_null(offer_of(PLAIN, "large egg [usda:01123]    0-0.5 a day, whole\n", &t));
}

/* Bone and cooking that the larder states are in the line that is added. */
static void the_larders_bone_is_kept(void **state) {
  (void)state;
  static const char *const LARDER[] = {"chicken wing, bone-in    0-2 a day, whole\n",
                                       "chicken wing, bone-in    up to 80 g\n",
                                       "chicken wing, bone-in    at most twice a week, 80 g a time\n"};
  struct offer_text t;
  for (size_t i = 0; i < COUNT_OF(LARDER); i++) {
    const struct mend_offer *o = offer_of(PLAIN, LARDER[i], &t);
    assert_non_null(o);
    assert_int_equal(o->food.line.part_count, 2);
    assert_non_null(strstr(t.food, "bone-in"));
    assert_null(offer_of(POT, LARDER[i], &t)); /* its bones would be cooked */
  }
  const struct mend_offer *o = offer_of(PLAIN, "lamb heart, raw weight, simmered    up to 80 g\n", &t);
  assert_non_null(o);
  assert_int_equal(o->food.line.state, STATE_SIMMERED);
  is(written(&t, o->most), 160);
}

/* An offer is fed on the days that a reader of the new text would give it. */
static void an_offer_has_the_days_of_its_line(void **state) {
  (void)state;
  struct offer_text t;
  const struct mend_offer *heart = offer_of(POT,
                                            "chicken wing, bone-in    at most once a week, 80 g a time\n"
                                            "lamb heart    at most once a week, 100 g a time\n",
                                            &t);
  assert_non_null(heart);
  struct ration_line first = heart->food.line;
  ration_spread_days(&first, 4, 0);
  assert_memory_equal(heart->food.line.fed_on, first.fed_on, sizeof first.fed_on);
}

/* The text of a proposal that brings the first line to 'to' times its amount and adds two of the offer. */
static const char *changed_text(const char *recipe, double times, const char *larder) {
  static struct animal a;
  struct app_check_answer check;
  const struct ration *ration;
  const struct animal *animal;
  struct offers offers = offers_of(recipe, larder);
  struct mended out;
  a = dog(18);
  struct app_mend_request q = request(recipe, &a);
  assert_true(app_understand(built_library(), &q.check, &check, &ration, &animal, &arena));
  double g = ration_line_grams_per_day(&ration->line[0]);
  struct mend_change change[] = {{.line = 0, .offer = -1, .from_g = g, .to_g = g * times},
                                 {.line = -1, .offer = 0, .to_g = 2 * offers.offer[0].whole}};
  struct mend_proposal p = {.change = change, .count = COUNT_OF(change)};
  struct text_edit e = {.lib = built_library(),
                        .q = &q,
                        .recipe = check.recipe,
                        .ration = ration,
                        .offers = &offers,
                        .arena = &arena,
                        .animal = animal};
  edit_text(&e, &p, false, &out);
  return out.text;
}

static void counting_words_follow_the_number(void **state) {
  (void)state;
  static const char CANS[] = "sardines in oil    0-2 cans a day, whole\n", EGGS[] = "large egg    0-2 a day, whole\n";
  assert_string_equal(changed_text("1 leaf basil\n", 3, CANS), "3 leaves basil\n2 cans sardines in oil [usda:15088]\n");
  assert_string_equal(changed_text("3 leaves basil\n", 1.0 / 3, CANS),
                      "1 leaf basil\n2 cans sardines in oil [usda:15088]\n");
  static const char TINS[] = "sardines in oil (3.75 oz)    0-2 cans a day, whole\n"; /* an ounce: 28.35 g */
  assert_string_equal(changed_text("1 leaf basil\n", 2, TINS),
                      "2 leaves basil\n2 cans (106.3 g each) sardines in oil [usda:15088]\n");
  const char *eggs = changed_text("1 clove garlic\n", 2, EGGS);
  assert_non_null(strstr(eggs, "2 cloves garlic\n2 large egg ["));
}

/* A shop unit, typed as it would be added, holds what its row says of it: the amounts on labels (data/shop_units.tsv)
 * against the records' own figures. */
static void a_shop_unit_holds_what_its_label_states(void **state) {
  (void)state;
  const struct library *lib = built_library();
  const struct img_shop_unit *u = IMG_ROWS(&lib->image, IMG_SHOP_UNITS, struct img_shop_unit);
  size_t stated = 0;
  struct animal a = dog(18);
  for (size_t i = 0; i < img_count(&lib->image, IMG_SHOP_UNITS); i++) {
    struct buf b;
    buf_init(&b, &arena, 400);
    buf_addf(&b, "2 %ss %s [%s]\n", lib_str(lib, u[i].unit), lib_str(lib, u[i].many), library_code(lib, u[i].food));
    if (unit_by_word(span_of(lib_str(lib, u[i].unit))) == UNIT_LARGE) {
      buf_init(&b, &arena, 400);
      buf_addf(&b, "2 large %s [%s]\n", lib_str(lib, u[i].many), library_code(lib, u[i].food));
    }
    struct app_mend_request q = request(buf_text(&b), &a);
    const struct check_result *r = check(&q, buf_text(&b));
    double holds = u[i].nutrient < NUT_COUNT ? r->nutrient[u[i].nutrient].amount : r->energy.grams_per_day;
    if (!(fabs(holds - 2 * (double)u[i].holds) < 1e-3 * holds)) print_error("%s: %g\n", buf_text(&b), holds);
    assert_true(fabs(holds - 2 * (double)u[i].holds) < 1e-3 * holds);
    stated++;
  }
  assert_true(stated >= 15);
}

/* What is offered without a larder keeps to the table of usual portions; no raw shellfish is among it. */
static void offers_keep_to_usual_portions(void **state) {
  (void)state;
  const struct library *lib = built_library();
  struct offers o = offers_of(PLAIN, "lamb heart    0-10 g a day\n");
  double metabolic = pow(18, 0.75);
  size_t weighed = 0;
  for (size_t i = 0; i < o.count; i++) {
    uint32_t food = o.offer[i].food.line.shown_food;
    const struct img_food *f = library_food(lib, food);
    assert_false(f->part == PART_SHELLFISH && f->state == STATE_RAW);
    if (f->part != PART_ORGAN_LIVER || o.text[i].unit != UNIT_G) continue;
    weighed++;
    assert_true(o.offer[i].most <= 4 * metabolic + 1e-6); /* 4 g per kg of metabolic weight: portions.tsv */
  }
  assert_true(weighed >= 2);
}

/* Raw flesh goes into raw bowls, cooked into those whose flesh is mostly cooked (data/fixes.tsv, 'way'); a tin into both.
 * Fish for cats is never raw: thiaminase destroys thiamin, and the lists of the fish that hold it differ (thiaminase_lists).
 */
static void offers_take_the_bowls_own_way(void **state) {
  (void)state;
  static const struct {
    const char *recipe;
    bool cat, raw;
  } BOWL[] = {{"300 g beef mince 90/10, raw\n", false, true},
              {"300 g beef mince 90/10, pan-fried\n150 g cooked white rice\n", false, false},
              {"Cook: raw weight, simmered\n300 g beef mince 90/10\n", false, false},
              {"300 g beef mince 90/10, pan-fried\n10 g beef liver\n", false, false},
              {"100 g beef mince 90/10, pan-fried\n120 g beef heart, raw\n", false, true},
              /* nobody said how it is fed */
              {"300 g beef mince 90/10\n150 g cooked white rice\n", false, false},
              {"300 g beef mince 90/10\n60 g beef heart, raw\n", false, true},
              {"300 g beef mince 90/10\n2 chicken wings, bone-in\n", false, true},
              {"120 g chicken thigh, skinless\n", true, false},
              {"120 g chicken thigh, skinless, raw\n", true, true},
              {"120 g chicken breast, roasted\n", true, false}};
  const struct library *lib = built_library();
  for (size_t i = 0; i < COUNT_OF(BOWL); i++) {
    struct animal a = dog(18);
    if (BOWL[i].cat) a = animal_plain(SPECIES_CAT, 4.5);
    struct offers o = offers_for(BOWL[i].recipe, NULL, a);
    size_t livers = 0, fish = 0;
    for (size_t k = 0; k < o.count; k++) {
      const struct ration_line *l = &o.offer[k].food.line;
      const struct img_food *f = library_food(lib, l->shown_food);
      bool raw = !state_is_cooked(l->state == STATE_UNSTATED ? (enum state)f->state : l->state);
      if (f->part == PART_FISH && BOWL[i].cat) assert_false(raw);
      if (f->part == PART_FISH && !BOWL[i].raw) assert_false(raw);
      if (f->part == PART_ORGAN_LIVER || f->part == PART_ORGAN_SECRETING) assert_int_equal(raw, BOWL[i].raw);
      livers += f->part == PART_ORGAN_LIVER;
      fish += f->part == PART_FISH;
    }
    assert_true(livers >= 1 && fish >= 2);
  }
}

/* What the bowl has, raw or cooked, is not offered beside it. */
static void what_the_bowl_has_is_not_offered_again(void **state) {
  (void)state;
  static const struct {
    const char *recipe, *name;
    bool offered;
  } BOWL[] = {{"300 g beef mince 90/10, raw\n", "spinach", true},
              {"300 g beef mince 90/10, raw\n50 g spinach, raw\n", "spinach", false},
              {"300 g beef mince 90/10, raw\n50 g spinach, boiled\n", "spinach", false},
              {"300 g beef mince 90/10, pan-fried\n20 g carrots, raw\n", "cooked beef liver", true},
              {"300 g beef mince 90/10, pan-fried\n20 g beef liver, raw\n", "cooked beef liver", false}};
  for (size_t i = 0; i < COUNT_OF(BOWL); i++) {
    struct offers o = offers_of(BOWL[i].recipe, NULL);
    bool offered = false;
    for (size_t k = 0; k < o.count; k++) offered |= strcmp(o.text[k].name, BOWL[i].name) == 0;
    assert_int_equal(offered, BOWL[i].offered);
  }
}

/* The tablets, capsules and drops of one nutrient are of one group, of which one is used; half a capsule is half of its
 * powder, and how often it is given is said. */
static void one_form_of_a_nutrient_is_given_and_its_half_can_be_had(void **state) {
  (void)state;
  struct offers o = offers_of("120 g beef mince 90/10, raw\n", NULL);
  int group[NUT_COUNT] = {0};
  size_t forms = 0;
  for (size_t k = 0; k < o.count; k++) {
    if (!strstr(o.text[k].food, "[ours:potassium-iodide]") || o.text[k].unit == UNIT_G) continue;
    if (group[NUT_IODINE] == 0) group[NUT_IODINE] = o.offer[k].group;
    assert_int_equal(o.offer[k].group, group[NUT_IODINE]);
    forms++;
  }
  assert_true(forms >= 2);
  struct app_mend_request q = request("120 g beef mince 90/10, raw\n", NULL);
  struct app_check_answer check;
  const struct ration *ration;
  const struct animal *animal;
  assert_true(app_understand(built_library(), &q.check, &check, &ration, &animal, &arena));
  struct text_edit e = {.lib = built_library(),
                        .q = &q,
                        .recipe = check.recipe,
                        .ration = ration,
                        .offers = &o,
                        .arena = &arena,
                        .animal = animal};
  size_t halves = 0, rare = 0;
  for (size_t k = 0; k < o.count; k++) {
    bool capsule = o.text[k].unit == UNIT_CAPSULE && strstr(o.text[k].food, "choline") && o.offer[k].since > 0;
    bool weekly = strcmp(o.text[k].frequency, ", weekly") == 0;
    if (!capsule && !weekly) continue;
    struct mend_change c = {.line = -1, .offer = (int)k, .to_g = o.offer[k].whole};
    struct mend_proposal p = {.change = &c, .count = 1};
    struct mended m;
    edit_text(&e, &p, false, &m);
    if (capsule) assert_non_null(strstr(m.to[0], "1/2 capsule (opened: half of the powder)"));
    if (capsule)
      assert_non_null(
          strstr(m.text, "1/2 capsule choline 250 mg [ours:choline-bitartrate] # one of them opened: half of its powder"));
    if (weekly) assert_non_null(strstr(m.to[0], " once a week"));
    halves += capsule;
    rare += weekly;
  }
  assert_true(halves >= 1 && rare >= 2);
}

static bool is_a_pill(enum unit u) { return u == UNIT_TABLET || u == UNIT_CAPSULE || u == UNIT_DROP || u == UNIT_SOFTGEL; }

/* In a pot for a week pills and drops are given by the day or so and so often a week, never 44 drops at once; in a pot for
 * three days they may go in. Eggs go into either. */
static void pills_are_given_by_the_day_in_a_weeks_pot(void **state) {
  (void)state;
  static const char *const POTS[] = {"Makes: 3 days\n\n900 g beef mince 90/10, raw\n",
                                     "Makes: 7 days\n\n2100 g beef mince 90/10, raw\n"};
  for (int week = 0; week < 2; week++) {
    struct offers o = offers_of(POTS[week], NULL);
    size_t daily = 0, potted = 0, eggs = 0;
    for (size_t k = 0; k < o.count; k++) {
      const struct offer_text *t = &o.text[k];
      bool by_day = strcmp(t->frequency, ", daily") == 0;
      eggs += t->unit == UNIT_LARGE && !t->frequency[0];
      if (!is_a_pill(t->unit)) continue;
      daily += by_day;
      potted += !t->frequency[0];
      if (by_day) assert_true(o.offer[k].most <= 8 * t->unit_g); /* of shop_units.tsv at most four, for 10 kg */
    }
    assert_true(eggs > 0);
    assert_true(week ? potted == 0 && daily > 5 : daily == 0 && potted > 5);
  }
}

/* What a remedy says is typed in without a pin: its words alone name the record that was tried. */
static void the_words_of_a_fix_name_its_record(void **state) {
  (void)state;
  const struct library *lib = built_library();
  const struct img_fix *fix = IMG_ROWS(&lib->image, IMG_FIXES, struct img_fix);
  struct animal a = dog(18);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FIXES); i++) {
    struct buf b;
    buf_init(&b, &arena, 400);
    if (fix[i].shop_unit != NO_INDEX) continue;
    buf_addf(&b, "20 g of %s a day\n", lib_str(lib, fix[i].words));
    struct app_mend_request q = request(buf_text(&b), &a);
    const struct check_result *r = check(&q, buf_text(&b));
    assert_string_equal(library_code(lib, r->ration->line[0].shown_food), library_code(lib, fix[i].food));
  }
}

/* What the text says is never to be fed is not offered: by its name, by a word for several foods, nor as an oil of it. */
static void what_is_never_fed_is_not_offered(void **state) {
  (void)state;
  static const char *const REFUSED[] = {"chicken", "beef", "fish"};
  struct offers plain = offers_of(PLAIN, NULL),
                heeded = offers_of("Makes: 2 days\nNever: chicken, beef and fish\n700 g lamb shoulder, raw\n", NULL);
  size_t refused[2] = {0};
  for (int k = 0; k < 2; k++) {
    const struct offers *o = k == 0 ? &plain : &heeded;
    for (size_t i = 0; i < o->count; i++)
      for (size_t n = 0; n < COUNT_OF(REFUSED); n++)
        refused[k] +=
            food_is_refused(built_library(), o->offer[i].food.line.shown_food, o->text[i].name, span_of(REFUSED[n]), &arena);
  }
  assert_true(refused[0] > 5);
  assert_int_equal(refused[1], 0);
  assert_true(heeded.count > 20);
}

int main(void) {
  const struct CMUnitTest tests[] = {T(a_range_holds_for_the_grams_written),
                                     T(whole_things_are_counted_as_the_larder_counts_them),
                                     T(the_larders_bone_is_kept),
                                     T(an_offer_has_the_days_of_its_line),
                                     T(counting_words_follow_the_number),
                                     T(a_shop_unit_holds_what_its_label_states),
                                     T(offers_keep_to_usual_portions),
                                     T(offers_take_the_bowls_own_way),
                                     T(what_the_bowl_has_is_not_offered_again),
                                     T(the_words_of_a_fix_name_its_record),
                                     T(pills_are_given_by_the_day_in_a_weeks_pot),
                                     T(one_form_of_a_nutrient_is_given_and_its_half_can_be_had),
                                     T(what_is_never_fed_is_not_offered)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
