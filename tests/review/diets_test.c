/* Fifteen posted diets against what a careful nutritionist would say of them: expected.tsv, written beforehand, with
 * sources. The diets are in diets/: an animal, a line "----", a recipe. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "review_kit.h"

#include "tests/support/fresh_arena.h"

enum { DIETS_MOST = 40, EXPECTED_LEAST = 15 };

/* About twelve sentences that ask for something, in bowls that are wrong on purpose; more is a list that nobody reads. */
enum { SENTENCES_USUAL = 13, SENTENCES_MOST = 15 };

struct diet {
  const char *name;
  const struct check_result *r;
};

static struct diet diet[DIETS_MOST];
static size_t diets;

static const struct check_result *diet_of(struct span name) {
  for (size_t i = 0; i < diets; i++)
    if (span_is(name, diet[i].name)) return diet[i].r;
  assert_true(diets < DIETS_MOST);
  struct buf path;
  buf_init(&path, &arena, 1024);
  buf_addf(&path, "%sdiets/%.*s.txt", REVIEW_FOLDER, (int)name.n, name.p);
  const char *text = review_file(buf_text(&path), &arena).p, *cut = strstr(text, "----\n");
  assert_non_null(cut);
  struct span animals = {text, (size_t)(cut - text)};
  diet[diets].name = arena_text(&arena, name);
  diet[diets].r = review_check(span_of(cut + 5), animals, NULL, CHECK_OPTIONS_DEFAULT, &arena);
  assert_non_null(diet[diets].r);
  return diet[diets++].r;
}

/* Best place among alternatives "a|b". */
static size_t best_place(const struct check_result *r, struct span ids) {
  size_t best = 0, from = 0;
  for (size_t i = 0; i <= ids.n; i++) {
    if (i < ids.n && ids.p[i] != '|') continue;
    size_t p = place_of(r, arena_text(&arena, span_cut(ids, from, i)));
    if (p && (!best || p < best)) best = p;
    from = i + 1;
  }
  return best;
}

static bool fits(struct span place, size_t got) {
  if (span_is(place, "any")) return got > 0;
  if (span_is(place, "not")) return got == 0;
  if (span_is(place, "1-3")) return got >= 1 && got <= 3;
  assert_int_equal(place.n, 1);
  return got == (size_t)(place.p[0] - '0');
}

static struct span field(struct span line, int which) {
  size_t from = 0;
  for (size_t i = 0; i <= line.n; i++) {
    if (i < line.n && line.p[i] != '\t') continue;
    if (which-- == 0) return span_cut(line, from, i);
    from = i + 1;
  }
  return (struct span){line.p, 0};
}

static void what_a_nutritionist_would_say(void **state) {
  (void)state;
  struct span rest = review_file(REVIEW_FOLDER "expected.tsv", &arena), line;
  int wrong = 0, rows = 0;
  while (next_line(&rest, &line)) {
    if (line.n == 0 || line.p[0] == '#' || span_is(field(line, 0), "diet")) continue;
    const struct check_result *r = diet_of(field(line, 0));
    size_t got = best_place(r, field(line, 2));
    rows++;
    if (fits(field(line, 1), got)) continue;
    wrong++;
    fprintf(stderr, "  %.*s: at %zu\n", (int)line.n, line.p, got);
  }
  assert_true(rows > 0 && diets >= EXPECTED_LEAST);
  assert_int_equal(wrong, 0);
}

static void few_enough_to_read(void **state) {
  (void)state;
  size_t all = 0;
  for (size_t i = 0; i < diets; i++) {
    size_t n = 0;
    for (size_t k = 0; k < diet[i].r->finding_count; k++) n += diet[i].r->finding[k].weight != FINDING_KNOW;
    if (n > SENTENCES_MOST) {
      fprintf(stderr, "  %s: %zu sentences\n", diet[i].name, n);
      print_findings(diet[i].r);
    }
    assert_true(n <= SENTENCES_MOST);
    all += n;
  }
  assert_true(all <= diets * SENTENCES_USUAL);
}

static void sorted_and_said_once(void **state) {
  (void)state;
  for (size_t i = 0; i < diets; i++) {
    const struct check_result *r = diet[i].r;
    for (size_t k = 0; k + 1 < r->finding_count; k++) {
      const struct finding *a = &r->finding[k], *b = a + 1;
      assert_true(a->weight < b->weight || (a->weight == b->weight && a->order <= b->order));
      for (size_t m = k + 1; m < r->finding_count; m++) {
        if (strcmp(a->id, r->finding[m].id) != 0) continue;
        assert_string_not_equal(a->text, r->finding[m].text);
      }
    }
  }
}

/* "About N g of X would cover it" is tried out: X joins the diet, and the nutrient must be met. */
static void what_closes_a_gap_closes_it(void **state) {
  (void)state;
  const struct library *lib = built_library();
  int tried = 0;
  for (size_t i = 0; i < diets; i++) {
    const struct check_result *r = diet[i].r;
    for (int k = 0; k < NUT_COUNT; k++) {
      struct finding_remedy remedy = findings_remedy(lib, r, (enum nutrient)k, &arena);
      double grams = remedy.grams;
      uint32_t food = remedy.food;
      if (food == NO_INDEX) continue;
      struct ration with = *r->ration;
      struct ration_line *lines = ARENA_NEW(&arena, struct ration_line, with.line_count + 1);
      memcpy(lines, with.line, with.line_count * sizeof *lines);
      struct ration_line *more = &lines[with.line_count++];
      *more = (struct ration_line){.text = "more",
                                   .part = {{.food = food, .grams = grams, .retention = -1}},
                                   .part_count = 1,
                                   .grams_fed = grams,
                                   .shown_food = food,
                                   .state = STATE_UNSTATED};
      ration_spread_days(more, CALENDAR_DAYS, 0);
      with.line = lines;
      const struct nutrient_result *n = &check_numbers(lib, &with, r->animal, &r->options, &arena)->nutrient[k];
      /* A food that varies more than the bowl lowers the chance a little below the one that was asked for. */
      if (!(n->ratio >= 1 && n->chance_met >= r->options.sure - 0.12))
        fprintf(stderr, "  %s %s: ratio %f chance %f with %f g %s\n", diet[i].name, nutrient_info[k].key, n->ratio,
                n->chance_met, grams, library_name(lib, food));
      assert_true(n->ratio >= 1 && n->chance_met >= r->options.sure - 0.12);
      tried++;
    }
  }
  assert_true(tried > 50);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_a_nutritionist_would_say),
      cmocka_unit_test(few_enough_to_read),
      cmocka_unit_test(sorted_and_said_once),
      cmocka_unit_test(what_closes_a_gap_closes_it),
  };
  return cmocka_run_group_tests(tests, fresh, done);
}
