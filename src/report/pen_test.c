/* Columns, cutting, wrapping, and what never reaches a terminal. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>
#include <math.h>

#include "report/pen.h"

struct bench {
  struct arena arena;
  struct buf out;
  struct pen pen;
};

static struct bench *bench_start(struct bench *b, int width, bool unicode) {
  arena_init(&b->arena, NULL);
  buf_init(&b->out, &b->arena, (size_t)1 << 16);
  b->pen = pen_start(&(struct report_style){.width = width, .unicode = unicode}, &b->out);
  return b;
}
static void bench_end(struct bench *b) { arena_free(&b->arena); }

static int columns(bool unicode, const char *text) {
  struct bench b;
  int n = text_columns(&bench_start(&b, 80, unicode)->pen, text);
  bench_end(&b);
  return n;
}

/* Widths as a terminal shows them: Unicode Standard Annex 11 (East Asian Width) for the wide ones, the code charts for the
 * combining ones. */
static void columns_are_counted_in_characters(void **state) {
  (void)state;
  assert_int_equal(columns(true, "lamb"), 4);
  assert_int_equal(columns(true, "µg"), 2);
  assert_int_equal(columns(true, "crème fraîche"), 13);
  assert_int_equal(columns(true, "cre\xCC\x80me"), 5); /* e + U+0300 */
  assert_int_equal(columns(true, "━━●━╸"), 5);
  assert_int_equal(columns(true, "魚"), 2);
  assert_int_equal(columns(true, "a\xE2\x80\x8B"
                                 "b"),
                   2);                              /* zero-width space */
  assert_int_equal(columns(true, "a\xFF\xC3z"), 4); /* two bytes that begin no character */
  assert_int_equal(columns(false, "µg"), 2);
  assert_int_equal(columns(false, "½ cup"), 7); /* 1/2 cup */
}

static const char *one_row(struct bench *b, int columns_wanted, const char *text) {
  struct row r;
  row_start(&r, &b->pen);
  row_fit(&r, 0, columns_wanted, INK_PLAIN, text);
  row_end(&r);
  return buf_text(&b->out);
}

static void long_text_ends_in_an_ellipsis(void **state) {
  (void)state;
  struct bench b;
  assert_string_equal(one_row(bench_start(&b, 80, true), 8, "lamb shoulder"), "lamb sh…\n");
  bench_end(&b);
  assert_string_equal(one_row(bench_start(&b, 80, true), 6, "lamb, shoulder"), "lamb…\n");
  bench_end(&b);
  assert_string_equal(one_row(bench_start(&b, 80, false), 8, "lamb shoulder"), "lamb s..\n");
  bench_end(&b);
  assert_string_equal(one_row(bench_start(&b, 80, true), 13, "lamb shoulder"), "lamb shoulder\n");
  bench_end(&b);
}

static const char *whole(struct bench *b, int columns_wanted, const char *name) {
  struct row r;
  row_start(&r, &b->pen);
  row_put(&r, 0, INK_PLAIN, "1");
  row_end_whole(&r, 3, columns_wanted, INK_PLAIN, name);
  return buf_text(&b->out);
}

/* A name of USDA SR28 that another record shares but for its last word. */
static void long_names_go_on_below(void **state) {
  (void)state;
  static const char NAME[] = "Beef, variety meats and by-products, liver, cooked, braised";
  struct bench b;
  assert_string_equal(whole(bench_start(&b, 80, true), 40, NAME),
                      "1  Beef, variety meats and by-products,\n   liver, cooked, braised\n");
  bench_end(&b);
  assert_string_equal(whole(bench_start(&b, 80, true), 70, NAME),
                      "1  Beef, variety meats and by-products, liver, cooked, braised\n");
  bench_end(&b);
  assert_string_equal(whole(bench_start(&b, 80, true), 5, "a sauerkraut"), "1  a\n   saue…\n");
  bench_end(&b);
  assert_string_equal(whole(bench_start(&b, 80, true), 5, ""), "1\n");
  bench_end(&b);
}

static const char *kept(struct bench *b, const char *line) {
  struct row r;
  row_start(&r, &b->pen);
  row_put(&r, 2, INK_PLAIN, "+");
  row_end_kept(&r, 4, INK_PLAIN, line);
  return buf_text(&b->out);
}

/* At 60 columns the margin begins at 58. */
static void lines_to_be_read_again_lose_their_remark_only(void **state) {
  (void)state;
  static const struct {
    const char *line, *drawn;
  } CASES[] = {
      {"1 capsule vitamin E 100 IU [ours:vitamin-e-natural], 3 times a week",
       "  + 1 capsule vitamin E 100 IU [ours:vitamin-e-natural], 3 times a week\n"},
      {"1 capsule vitamin E 100 IU [ours:vitamin-e-natural], 3 times a week # open it",
       "  + 1 capsule vitamin E 100 IU [ours:vitamin-e-natural], 3 times a week #…\n"},
      {"55 g cod [usda:15016] # steamed, and its bones taken out",
       "  + 55 g cod [usda:15016] # steamed, and its bones taken…\n"},
      {"155 g cod, baked, only its fillets, [usda:15016] cold # no skin",
       "  + 155 g cod, baked, only its fillets, [usda:15016] cold #\n"},
      {"1 egg\x1b[2J, three times a week, whole and with its shell # all",
       "  + 1 egg [2J, three times a week, whole and with its shell #…\n"},
  };
  struct bench b;
  for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
    assert_string_equal(kept(bench_start(&b, 60, true), CASES[i].line), CASES[i].drawn);
    bench_end(&b);
  }
}

static void commands_to_the_terminal_are_taken_out(void **state) {
  (void)state;
  struct bench b;
  assert_string_equal(one_row(bench_start(&b, 80, true), 70,
                              "a\x1b[2Jb\tc\x7f"
                              "d\xC2\x9B"
                              "e"),
                      "a [2Jb c d e\n");
  bench_end(&b);
  assert_string_equal(one_row(bench_start(&b, 80, true), 70,
                              "a\xE2\x80\xAE"
                              "b"),
                      "ab\n"); /* right-to-left override */
  bench_end(&b);
}

static void plain_is_ascii(void **state) {
  (void)state;
  struct bench b;
  const char *text = one_row(bench_start(&b, 80, false), 79, "½ crème µg – “x” … 魚 ≥ 3");
  assert_string_equal(text, "1/2 creme ug - \"x\" ... ? >= 3\n");
  bench_end(&b);
}

static void prose_is_wrapped_and_indented(void **state) {
  (void)state;
  struct bench b;
  bench_start(&b, 60, true);
  struct prose how = prose_at(2, INK_PLAIN);
  how.indent = 4;
  how.right = 16;
  prose_write(&b.pen, &how, "zinc is 11.2 mg, of 17 antidisestablishmentarianism");
  assert_string_equal(buf_text(&b.out),
                      "  zinc is\n    11.2 mg, of\n    17\n    antidisestab\n    lishmentaria\n    nism\n");
  bench_end(&b);
}

/* WCAG 2.1, relative luminance and contrast ratio (w3.org/TR/WCAG21). 3:1 is its bound for large text and graphics; the two
 * inks are used for marks, headings and asides, never alone for meaning. */
static double channel(int c) {
  double x = c / 255.0;
  return x <= 0.03928 ? x / 12.92 : pow((x + 0.055) / 1.055, 2.4);
}
static double luminance(int rgb) {
  return 0.2126 * channel(rgb >> 16 & 255) + 0.7152 * channel(rgb >> 8 & 255) + 0.0722 * channel(rgb & 255);
}
static double contrast(int a, int b) {
  double x = luminance(a), y = luminance(b);
  return (fmax(x, y) + 0.05) / (fmin(x, y) + 0.05);
}

static void inks_read_on_dark_and_on_light(void **state) {
  (void)state;
  static const int GROUND[] = {0xffffff, 0x000000, 0x1e1e1e};
  assert_true(fabs(contrast(0xffffff, 0x000000) - 21) < 1e-9);
  for (size_t i = 0; i < COUNT_OF(GROUND); i++) {
    assert_true(contrast(ACCENT_RGB, GROUND[i]) >= 3);
    assert_true(contrast(DIM_RGB, GROUND[i]) >= 3);
  }
}

/* The 256-colour cube of terminals: 16 + 36 r + 6 g + b with the steps 0, 95, 135, 175, 215, 255; greys 232 + i are 8 + 10
 * i. */
static void ink_codes_are_those_colours(void **state) {
  (void)state;
  static const int STEP[] = {0, 95, 135, 175, 215, 255};
  int cube = ACCENT_CODE - 16;
  assert_int_equal(STEP[cube / 36] << 16 | STEP[cube / 6 % 6] << 8 | STEP[cube % 6], ACCENT_RGB);
  int grey = 8 + 10 * (DIM_CODE - 232);
  assert_int_equal(grey << 16 | grey << 8 | grey, DIM_RGB);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(columns_are_counted_in_characters),
      cmocka_unit_test(long_text_ends_in_an_ellipsis),
      cmocka_unit_test(long_names_go_on_below),
      cmocka_unit_test(lines_to_be_read_again_lose_their_remark_only),
      cmocka_unit_test(commands_to_the_terminal_are_taken_out),
      cmocka_unit_test(plain_is_ascii),
      cmocka_unit_test(prose_is_wrapped_and_indented),
      cmocka_unit_test(inks_read_on_dark_and_on_light),
      cmocka_unit_test(ink_codes_are_those_colours),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
