/* Raw fish with thiaminase on a cat's plate is cooked by the change, not left with a caution. Which fish have it: the lists
 * of NRC 1982 and of Deutsch and Hasler 1943 (data/food_flags.tsv): herring, smelt and sprat do, cod and Atlantic mackerel
 * do not; heat destroys it, cold does not. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "app/mend_parts.h"
#include "mend_scene.h"
#include "review/findings.h"

static const char PLATE[] = "Makes: 4 days\n\n"
                            "- 380 g turkey thigh, boneless, skinless, roasted\n"
                            "- 60 g chicken hearts, raw\n"
                            "%s\n"
                            "- 1 egg yolk\n";

static const char *plate_with(const char *fish) {
  struct buf b;
  buf_init(&b, &arena, 1000);
  buf_addf(&b, PLATE, fish);
  return buf_text(&b);
}

static struct animal cat(double kg) { return animal_plain(SPECIES_CAT, kg); }

static bool has_line(const char *text, const char *line) {
  const char *at = strstr(text, line);
  size_t n = strlen(line);
  return at && (at == text || at[-1] == '\n') && (at[n] == '\n' || at[n] == '\0');
}

static const struct {
  const char *raw, *cooked;
} LINES[] = {
    {"- 40 g raw herring", "- 40 g herring, raw weight, steamed"},
    {"- 40 g herring, raw", "- 40 g herring, raw weight, steamed"},
    {"40 g herring, raw, twice a week", "40 g herring, twice a week, raw weight, steamed"},
    {"- 40 g Herring, RAW [usda:15039]   # from the market",
     "- 40 g Herring, raw weight, steamed [usda:15039]   # from the market"},
    {"* 30 g sprats, raw", "* 30 g sprats, raw weight, steamed"},
};

static void raw_herring_is_cooked(void **state) {
  (void)state;
  struct animal a = cat(4.6);
  for (size_t i = 0; i < COUNT_OF(LINES); i++) {
    const char *text = plate_with(LINES[i].raw);
    struct app_mend_request q = request(text, &a);
    q.quick = true;
    assert_true(findings_say(check(&q, text), "thiaminase-cat"));
    const struct app_mend_answer *m = ask(&q);
    assert_true(m->understood);
    assert_int_equal(m->answer.cooked_count, 1);
    assert_int_equal(m->answer.count, 1);
    const struct mended *found = &m->answer.found[0];
    const char *shown = strchr(LINES[i].cooked, ',');
    assert_non_null(strstr(found->text, shown)); /* its amount may have changed as well */
    assert_string_equal(m->answer.cooked[0].is, LINES[i].cooked);
    assert_string_equal(m->answer.cooked[0].was, LINES[i].raw);
    const struct check_result *after = check(&q, found->text);
    assert_false(findings_say(after, "thiaminase-cat"));
    for (int n = 0; n < NUT_COUNT; n++) assert_true(is_in_order(&after->nutrient[n]));
    bool out = false;
    for (size_t k = 0; k < found->lines; k++)
      out |= found->line[k].kind == LINE_OUT && strcmp(found->line[k].text, LINES[i].raw) == 0;
    assert_true(out); /* the difference is from the line as it was */
  }
}

static void what_need_not_be_cooked_stays(void **state) {
  (void)state;
  static const char *KEPT[] = {"herring"};
  struct animal a = cat(4.6), d = animal_plain(SPECIES_DOG, 4.6);
  struct app_mend_request dogs = request(plate_with("- 40 g raw herring"), &d),
                          cod = request(plate_with("- 40 g raw cod"), &a),
                          kept = request(plate_with("- 40 g raw herring"), &a);
  dogs.quick = cod.quick = kept.quick = true;
  kept.check.ask.keep.item = KEPT;
  kept.check.ask.keep.count = 1;
  assert_int_equal(ask(&dogs)->answer.cooked_count, 0);
  assert_int_equal(ask(&cod)->answer.cooked_count, 0);
  const struct app_mend_answer *m = ask(&kept);
  assert_int_equal(m->answer.cooked_count, 0);
  if (m->answer.count > 0) assert_true(has_line(m->answer.found[0].text, "- 40 g raw herring"));
}

/* Where everything else is right already the answer is that text with the fish cooked. */
static void only_the_fish_is_wrong(void **state) {
  (void)state;
  struct animal a = cat(4.6);
  struct app_mend_request q = request(plate_with("- 40 g raw herring"), &a);
  const struct app_mend_answer *m = ask(&q);
  assert_int_equal(m->answer.count, 1);
  const char *mended = m->answer.found[0].text, *at = strstr(mended, " g herring, raw weight, steamed");
  assert_non_null(at);
  struct buf b;
  buf_init(&b, &arena, 4000);
  buf_addf(&b, "%.*s g herring, raw%s", (int)(at - mended), mended, at + strlen(" g herring, raw weight, steamed"));
  struct app_mend_request again = request(buf_text(&b), &a);
  const struct app_mend_answer *r = ask(&again);
  assert_true(r->answer.mend->already_met);
  assert_int_equal(r->answer.count, 1);
  assert_string_equal(r->answer.found[0].text, mended);
  assert_string_equal(r->answer.found[0].summary, "Cooked, everything is met.");
}

/* Raw sprats of a cat's larder are not offered, and are for a dog; sprats that are steamed are for both. */
static void a_cats_larder_offers_no_raw_sprats(void **state) {
  (void)state;
  static const char *const LARDER[] = {"sprats, raw    up to 60 g\n", "sprats, raw weight, steamed    up to 60 g\n"};
  for (int i = 0; i < 4; i++) {
    bool dogs = i % 2 == 1, cooked = i >= 2;
    struct animal a = animal_plain(dogs ? SPECIES_DOG : SPECIES_CAT, 5);
    struct app_mend_request q = request(plate_with("- 20 g carrots, raw"), &a);
    q.larder = (struct app_input){"larder", span_of(LARDER[cooked])};
    struct app_mend_answer out;
    struct mending w;
    assert_true(mending_begin(built_library(), &q, &out, &w, &arena));
    assert_true(mending_offer(&w, &out));
    bool offered = false;
    for (size_t k = 0; k < w.offers.count; k++)
      offered |= w.offers.offer[k].food.line.shown_food == built_food("ours:sprat");
    assert_int_equal(offered, dogs || cooked);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {T(raw_herring_is_cooked), T(what_need_not_be_cooked_stays), T(only_the_fish_is_wrong),
                                     T(a_cats_larder_offers_no_raw_sprats)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
