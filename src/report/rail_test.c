/* Rails: places on the scale against a direct computation, and what is drawn where. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "report/rail.h"

enum { AT = 3 };

static const double NONE = (double)NAN;

struct drawn {
  struct arena arena;
  struct buf out;
  struct pen pen;
  struct row row;
};

static void draw(struct drawn *d, int per_octave, const struct rail *rail) {
  arena_init(&d->arena, NULL);
  buf_init(&d->out, &d->arena, (size_t)1 << 16);
  d->pen = pen_start(&(struct report_style){.width = 100, .unicode = true}, &d->out);
  row_start(&d->row, &d->pen);
  rail_draw(&d->row, AT, per_octave, rail, INK_PLAIN);
}

static int find(const struct drawn *d, const char *glyph) {
  for (int i = 0; i < d->row.end; i++)
    if (d->row.cell[i].n == strlen(glyph) && memcmp(d->row.cell[i].byte, glyph, d->row.cell[i].n) == 0) return i - AT;
  return -1;
}

static const char *text_of(struct drawn *d) {
  row_end(&d->row);
  return buf_text(&d->out);
}

static struct rail empty_rail(void) {
  return (struct rail){NONE, NONE, NONE, NONE, NONE, NONE, false, NONE, false, false, true};
}

/* The place of a ratio x among 5 p + 1 cells: 2 p cells right of the quarter is the allowance, p cells are an octave. */
static void the_mark_is_where_the_logarithm_says(void **state) {
  (void)state;
  for (int p = 3; p <= 10; p++)
    for (double x = 0.26; x < 7.9; x *= 1.0137) {
      struct drawn d;
      struct rail rail = empty_rail();
      rail.middle = x;
      draw(&d, p, &rail);
      double exact = (log(x) / log(2.0) + 2) * p;
      if (fabs(exact - floor(exact) - 0.5) > 1e-9) assert_int_equal(find(&d, "●"), (int)lround(exact));
      arena_free(&d.arena);
    }
}

static void doubling_moves_one_octave(void **state) {
  (void)state;
  for (int p = 3; p <= 10; p++) {
    assert_int_equal(rail_half(1, p), 2 * 2 * p + 1);
    for (double x = 0.25; x <= 4; x *= 2) assert_int_equal(rail_half(2 * x, p) - rail_half(x, p), 2 * p);
  }
}

static void outside_the_scale_is_outside(void **state) {
  (void)state;
  assert_int_equal(rail_half(0, 5), -1);
  assert_int_equal(rail_half(NONE, 5), -1);
  assert_int_equal(rail_half(-1, 5), -1);
  assert_int_equal(rail_half(0.01, 5), -1);
  assert_int_equal(rail_half(1e9, 5), 2 * rail_cells(5));
  assert_int_equal(rail_half((double)INFINITY, 5), 2 * rail_cells(5));
}

static void the_band_ends_to_half_a_cell(void **state) {
  (void)state;
  struct drawn d;
  struct rail rail = empty_rail();
  rail.low = exp2(-1.0 + 0.2 / 5); /* 0.2 cells right of the middle of cell 5 */
  rail.middle = 1;
  rail.high = exp2(1.0 - 0.2 / 5);
  draw(&d, 5, &rail);
  assert_string_equal(text_of(&d), "   ·    ╺━━━━●━━━━╸    ·    ·\n");
  arena_free(&d.arena);
}

static void every_line_and_mark_has_its_glyph(void **state) {
  (void)state;
  struct drawn d;
  struct rail rail = {
      .low = 0.4, .middle = 0.6, .high = 1.3, .lean = 0.45, .least = 0.5, .limit = 4, .reach = 2.5, .data_missing = true};
  draw(&d, 5, &rail);
  assert_string_equal(text_of(&d), "   ·  ╺◇┿○━━━╋━╸╱╱╱╱╱  ║    ·\n");
  arena_free(&d.arena);
}

static void what_is_off_the_scale_has_an_arrow(void **state) {
  (void)state;
  struct drawn d;
  struct rail rail = empty_rail();
  rail.low = 20, rail.middle = 30, rail.high = 40;
  draw(&d, 5, &rail);
  assert_int_equal(find(&d, "▸"), rail_cells(5) - 1);
  assert_int_equal(find(&d, "●"), -1);
  arena_free(&d.arena);
  rail.low = rail.middle = rail.high = 0;
  draw(&d, 5, &rail);
  assert_int_equal(find(&d, "◂"), 0);
  assert_int_equal(find(&d, "┃"), rail_need_cell(5));
  arena_free(&d.arena);
}

static void nothing_known_is_hatched_and_has_no_mark(void **state) {
  (void)state;
  struct drawn d;
  struct rail rail = empty_rail();
  rail.data_missing = true;
  rail.reach = 2;
  rail.sure = false;
  draw(&d, 5, &rail);
  assert_string_equal(text_of(&d), "   ╱╱╱╱╱╱╱╱╱╱┃╱╱╱╱╱    ·    ·\n");
  arena_free(&d.arena);
  rail.reach = NONE;
  rail.reach_unknown = true;
  draw(&d, 5, &rail);
  assert_string_equal(text_of(&d), "   ╱?   ·    ┃    ·    ·    ·\n");
  arena_free(&d.arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_mark_is_where_the_logarithm_says),
      cmocka_unit_test(doubling_moves_one_octave),
      cmocka_unit_test(outside_the_scale_is_outside),
      cmocka_unit_test(the_band_ends_to_half_a_cell),
      cmocka_unit_test(every_line_and_mark_has_its_glyph),
      cmocka_unit_test(what_is_off_the_scale_has_an_arrow),
      cmocka_unit_test(nothing_known_is_hatched_and_has_no_mark),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
