/* Properties of the drawing that hold for any result at any width. It begins with what the judge says of the household's
 * bowl; then its figures are thrown about, further than any bowl could. What answers look like is compared where they are
 * computed: tests/cli/drawn.py, tests/report/answers_test.c. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "app/app.h"
#include "report/pen.h"
#include "report/report.h"
#include "review/review.h"
#include "tests/support/built_image.h"

enum { LINES_MOST = 16 };

/* The result of a real bowl, with what may be changed in it copied. */
struct sample {
  struct check_result r;
  struct ration ration;
  struct ration_line line[LINES_MOST];
  size_t line_count;
};

static struct arena kept;
static struct check_result answered;

static struct span file_text(const char *name) {
  char path[1024];
  snprintf(path, sizeof path, "%s/examples/%s", BW_SOURCE_DIR, name);
  FILE *f = fopen(path, "rb");
  if (!f) fail_msg("no %s", path);
  char *text = arena_alloc(&kept, 1 << 16, 1);
  size_t n = fread(text, 1, (1 << 16) - 1, f);
  fclose(f);
  text[n] = '\0';
  return (struct span){text, n};
}

static int answer_the_bowl(void **state) {
  (void)state;
  arena_init(&kept, NULL);
  struct app_check_request q = {.recipe = {"weeknight-bowl", file_text("weeknight-bowl.recipe")},
                                .animals = {"saltmarsh", file_text("saltmarsh.animals")},
                                .for_name = "Juniper",
                                .ask = {.today = {2026, 11, 2}, .check = CHECK_OPTIONS_DEFAULT}};
  struct app_check_answer out;
  app_check(built_library(), &q, &out, &kept);
  assert_non_null(out.result);
  answered = *out.result;
  return 0;
}

static int forget(void **state) {
  (void)state;
  arena_free(&kept);
  return 0;
}

static void sample_fill(struct sample *s) {
  s->r = answered;
  s->ration = *answered.ration;
  s->line_count = s->ration.line_count;
  assert_in_range(s->line_count, 1, LINES_MOST);
  memcpy(s->line, s->ration.line, s->line_count * sizeof *s->line);
  s->ration.line = s->line;
  s->r.ration = &s->ration;
}

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
  report_check(built_library(), &sample.r, &style, &a->out);
  return buf_text(&a->out);
}

/* ---- properties ---- */

/* A small generator of its own so that a failure can be repeated (numbers of the minimal standard, Park and Miller 1988). */
static uint32_t seed;
static uint32_t roll(uint32_t below) {
  seed = (uint32_t)((uint64_t)seed * 48271U % 2147483647U);
  return seed % below;
}

static uint32_t any_food(void) { return roll((uint32_t)library_count(built_library())); }

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
    if (roll(4) == 0) n->lists = NULL; /* nobody supplies any */
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
  for (size_t i = 0; i < s->line_count; i++)
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
      report_need(built_library(), &sample.r, &style, &a.out);
      report_food(built_library(), any_food(), &style, &a.out);
      if (k < 4 && width % 4 == 0) report_library(built_library(), &style, &a.out);
      report_foods(built_library(), SPAN_LIT("egg"), &(struct search_hit){any_food(), 1, false, 1, ""}, 1, &style, &a.out);
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

static bool says_none_is_needed(struct span line) { return span_holds_fold(line, SPAN_LIT("none needed")); }

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
      if (says_none_is_needed(line)) continue; /* in words, without a rail */
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

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(no_line_is_wider_than_the_terminal),
      cmocka_unit_test(the_allowance_is_one_straight_line),
  };
  return cmocka_run_group_tests(tests, answer_the_bowl, forget);
}
