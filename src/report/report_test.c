/* Properties of the drawing that hold for any result at any width; and the small answers of a made-up library, compared with
 * the texts in tests/golden. What check draws is compared where it is computed: tests/cli/drawn.py, tests/report/answers_test.c.
 *
 * After a wanted change of the drawing, BW_GOLDEN_WRITE=1 writes the texts anew; look at them before they are kept. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "report/pen.h"
#include "report/report_sample.h"

static struct sample sample;

struct answer {
  struct arena arena;
  struct buf out;
};

static void answer_start(struct answer *a) {
  arena_init(&a->arena, NULL);
  buf_init(&a->out, &a->arena, (size_t)1 << 22);
}

static const char *check_text(struct answer *a, struct report_style style) {
  answer_start(a);
  report_check(&sample.lib, &sample.r, &style, &a->out);
  return buf_text(&a->out);
}

/* ---- golden texts ---- */

static void golden(const char *name, const char *text) {
  char path[1024];
  snprintf(path, sizeof path, "%s/tests/golden/%s.txt", BW_SOURCE_DIR, name);
  if (getenv("BW_GOLDEN_WRITE")) {
    FILE *f = fopen(path, "wb");
    assert_non_null(f);
    assert_int_equal(fwrite(text, 1, strlen(text), f), strlen(text));
    assert_int_equal(fclose(f), 0);
    return;
  }
  FILE *f = fopen(path, "rb");
  if (!f) fail_msg("no %s", path);
  static char kept[1 << 20];
  size_t n = fread(kept, 1, sizeof kept - 1, f);
  fclose(f);
  kept[n] = '\0';
  if (strcmp(kept, text) == 0) return;
  fprintf(stderr, "---- %s is drawn as ----\n%s", name, text);
  fail_msg("%s differs", name);
}

static void a_refused_animal(void **state) {
  (void)state;
  sample_fill(&sample);
  sample.r.refusal = REFUSE_PREGNANT;
  sample.r.finding_count = 0;
  struct answer a;
  const char *text = check_text(&a, (struct report_style){80, false, true, false});
  /* Kind words come before any figure, and no verdict, rail or allowance appears. */
  assert_true(strstr(text, "Ask a veterinarian") < strstr(text, "kcal"));
  assert_null(strstr(text, "┃"));
  assert_null(strstr(text, "short"));
  arena_free(&a.arena);
}

static void the_other_answers(void **state) {
  (void)state;
  struct answer a;
  struct report_style style = {80, false, true, false}, all = {100, false, true, true};
  const struct search_hit hits[] = {{3, 1, true, 0, "a goose egg differs"}, {0, 0.7, false, 1, ""}, {2, 0.6, false, 0, ""}};
  sample_fill(&sample);
  answer_start(&a);
  report_need(&sample.lib, &sample.r, &style, &a.out);
  golden("need-80", buf_text(&a.out));
  arena_free(&a.arena);
  answer_start(&a);
  report_need(&sample.lib, &sample.r, &all, &a.out);
  golden("need-100-all", buf_text(&a.out));
  arena_free(&a.arena);
  answer_start(&a);
  report_foods(&sample.lib, SPAN_LIT("egg"), hits, COUNT_OF(hits), &style, &a.out);
  report_foods(&sample.lib, SPAN_LIT("unicorn"), hits, 0, &style, &a.out);
  golden("foods-80", buf_text(&a.out));
  arena_free(&a.arena);
  answer_start(&a);
  report_food(&sample.lib, 3, &style, &a.out);
  report_food(&sample.lib, 1, &style, &a.out);
  golden("food-80", buf_text(&a.out));
  arena_free(&a.arena);
  answer_start(&a);
  report_library(&sample.lib, &style, &a.out);
  report_library(&sample.lib, &all, &a.out);
  golden("library", buf_text(&a.out));
  arena_free(&a.arena);
}

/* ---- properties ---- */

/* A small generator of its own so that a failure can be repeated (numbers of the minimal standard, Park and Miller 1988). */
static uint32_t seed;
static uint32_t roll(uint32_t below) {
  seed = (uint32_t)((uint64_t)seed * 48271U % 2147483647U);
  return seed % below;
}

static double any_number(void) {
  switch (roll(8)) {
  case 0:
    return (double)NAN;
  case 1:
    return 0;
  case 2:
    return (double)INFINITY;
  case 3:
    return exp((double)roll(60) - 20);
  case 4:
    return -1;
  default:
    return (double)(roll(100000) + 1) / (double)(roll(1000) + 1);
  }
}

static void any_result(struct sample *s) {
  struct check_result *r = &s->r;
  sample_fill(s);
  for (int i = 0; i < NUT_COUNT; i++) {
    struct nutrient_result *n = &r->nutrient[i];
    double *const field[] = {&n->amount,        &n->low,         &n->high,          &n->cv,          &n->possible,
                             &n->minimum,       &n->allowance,   &n->upper,         &n->ratio,       &n->per_1000kcal,
                             &n->window_amount, &n->highest_day, &n->adjusted_from, &n->adjusted_to, &n->estimated_share};
    for (size_t k = 0; k < COUNT_OF(field); k++) *field[k] = any_number();
    n->known = (enum known)roll(KNOWN_COUNT);
    n->known_share = roll(3) ? (double)roll(101) / 100 : any_number();
    n->chance_met = roll(3) ? (double)roll(1001) / 1000 : (double)NAN;
    n->chance_kept = roll(3) ? (double)roll(1001) / 1000 : (double)NAN;
    n->verdict = (enum verdict)roll(VERDICT_COUNT);
    n->window_days = (int)roll(29);
    n->near_upper = roll(4) == 0;
    n->verdict_by_window = roll(4) == 0;
    n->highest_day_over = roll(6) == 0;
    n->upper_greater_than = roll(3) == 0;
    n->adjusted = roll(5) == 0;
    n->from_count = roll(4) ? n->from_count : 0;
  }
  double *const energy[] = {&r->energy.need.kcal,     &r->energy.need.low_kcal, &r->energy.need.high_kcal,
                            &r->energy.supply_kcal,   &r->energy.kcal_per_kg,   &r->energy.grams_per_day,
                            &r->energy.share_protein, &r->energy.share_fat};
  for (size_t k = 0; k < COUNT_OF(energy); k++)
    if (roll(2)) *energy[k] = any_number();
  for (int i = 0; i < BOWL_COUNT; i++)
    if (roll(3) == 0) r->parts[i] = any_number();
  r->balance.ca_p = any_number();
  r->balance.phytate_zn = any_number();
  for (size_t i = 0; i < SAMPLE_FOODS; i++)
    if (roll(4) == 0) s->line[i].grams_fed = any_number();
  if (roll(3) == 0)
    s->line[0].text = "300 g crème fraîche\x1b[31m \xF0\x9F\xA5\x9A\xF0\x9F\xA5\x9A "
                      "魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚魚 "
                      "antidisestablishmentarianism-without-end-or-blank-in-it-at-all";
}

/* Colour codes take no column. */
static void check_lines(const char *text, const struct report_style *style) {
  struct answer scratch;
  answer_start(&scratch);
  struct pen pen = pen_start(style, &scratch.out);
  struct buf line;
  for (const char *at = text; *at;) {
    const char *end = strchr(at, '\n');
    assert_non_null(end);
    buf_init(&line, &scratch.arena, (size_t)1 << 16);
    for (const char *c = at; c < end; c++) {
      if (*c == '\x1b') {
        assert_true(style->colour);
        while (*c != 'm') c++;
        continue;
      }
      assert_false((unsigned char)*c < 0x20);
      if (!style->unicode) assert_true((unsigned char)*c < 0x7f);
      buf_addc(&line, *c);
    }
    int columns = text_columns(&pen, buf_text(&line));
    if (columns > style->width) fail_msg("%d columns of %d: %s", columns, style->width, buf_text(&line));
    if (line.n > 0) assert_int_not_equal(line.p[line.n - 1], ' ');
    at = end + 1;
  }
  arena_free(&scratch.arena);
}

static void no_line_is_wider_than_the_terminal(void **state) {
  (void)state;
  for (int width = WIDTH_LEAST; width <= WIDTH_MOST; width++)
    for (uint32_t k = 0; k < 8; k++) {
      struct report_style style = {width, (k & 4) != 0, (k & 1) != 0, (k & 2) != 0};
      struct answer a;
      seed = (uint32_t)width * 16 + k + 1;
      any_result(&sample);
      if (roll(6) == 0) sample.r.refusal = REFUSE_UNWELL;
      if (roll(9) == 0) sample.r.animal = NULL;
      check_lines(check_text(&a, style), &style);
      arena_free(&a.arena);
      answer_start(&a);
      report_need(&sample.lib, &sample.r, &style, &a.out);
      report_food(&sample.lib, roll(SAMPLE_FOODS), &style, &a.out);
      report_library(&sample.lib, &style, &a.out);
      report_foods(&sample.lib, SPAN_LIT("egg"), &(struct search_hit){roll(SAMPLE_FOODS), 1, false, 1, ""}, 1, &style,
                   &a.out);
      check_lines(buf_text(&a.out), &style);
      arena_free(&a.arena);
    }
}

/* For lines whose letters are one column each. */
static size_t byte_at_column(struct span line, int column) {
  size_t k = 0;
  for (int seen = -1; k < line.n; k++)
    if (((unsigned char)line.p[k] & 0xc0) != 0x80 && ++seen == column) break;
  return k;
}

/* Every rail of an answer has the line of the allowance, or a mark upon it, in the column under the scale's "need". */
static void the_allowance_is_one_straight_line(void **state) {
  (void)state;
  static const char *const ON_THE_LINE[] = {"┃", "╋", "┫", "┣", "●", "○", "◇"};
  sample_fill(&sample);
  for (int width = WIDTH_LEAST; width <= WIDTH_MOST; width++) {
    struct answer a;
    const char *text = check_text(&a, (struct report_style){width, false, true, true});
    struct pen pen = pen_start(&(struct report_style){width, false, true, true}, &a.out);
    const char *scale = strstr(text, "¼");
    assert_non_null(scale);
    while (scale[-1] != '\n') scale--;
    const char *need = strstr(scale, "need");
    int column = text_columns(&pen, arena_text(&a.arena, (struct span){scale, (size_t)(need - scale)})) + 1;
    int rails = 0, judged = 0;
    for (int i = 0; i < NUT_COUNT; i++) judged += sample.r.nutrient[i].verdict != VERDICT_NO_FIGURE;
    for (const char *at = strchr(scale, '\n') + 1; *at && strstr(at, "No figure"); at = strchr(at, '\n') + 1) {
      struct span line = {at, (size_t)(strchr(at, '\n') - at)};
      bool names_one = false;
      for (int i = 0; i < NUT_COUNT; i++) {
        size_t n = strlen(nutrient_info[i].name) < 8 ? strlen(nutrient_info[i].name) : 8;
        names_one = names_one || (line.n > n + 2 && line.p[2] != ' ' && memcmp(line.p + 2, nutrient_info[i].name, n) == 0);
      }
      if (!names_one) continue;
      rails++;
      /* The chance, last in the line, is whole: nothing was cut off at the edge. */
      if (width < 108 && memcmp(line.p + 2, "Biotin", 6) != 0) assert_int_equal(line.p[line.n - 1], '%');
      size_t k = byte_at_column(line, column);
      bool on = false;
      for (size_t g = 0; g < COUNT_OF(ON_THE_LINE); g++)
        on = on || (line.n - k >= strlen(ON_THE_LINE[g]) && memcmp(line.p + k, ON_THE_LINE[g], strlen(ON_THE_LINE[g])) == 0);
      if (!on) fail_msg("width %d, column %d: %.*s", width, column, SPAN_ARG(line));
    }
    assert_int_equal(rails, judged);
    arena_free(&a.arena);
  }
}

static void worst_come_first(void **state) {
  (void)state;
  sample_fill(&sample);
  struct answer a;
  const char *text = strstr(check_text(&a, (struct report_style){80, false, true, false}), "Nutrients a day");
  static const char *const ORDER[] = {"\n  Short",    "\n  Vitamin E", "\n  Iodine", "\n  Manganese", "\n  Zinc",
                                      "\n  Thin",     "\n  Choline",   "\n  Over",   "\n  Vitamin A", "\n  Copper",
                                      "\n  Unproven", "\n  Biotin",    "\n  Met"};
  for (size_t i = 0; i < COUNT_OF(ORDER); i++) {
    const char *at = strstr(text, ORDER[i]);
    if (!at) fail_msg("%s is missing or too early", ORDER[i] + 1);
    text = at;
  }
  arena_free(&a.arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_refused_animal),
      cmocka_unit_test(the_other_answers),
      cmocka_unit_test(no_line_is_wider_than_the_terminal),
      cmocka_unit_test(the_allowance_is_one_straight_line),
      cmocka_unit_test(worst_come_first),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
