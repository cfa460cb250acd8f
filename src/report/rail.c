#include "report/rail.h"

#include <math.h>

int rail_half(double ratio, int per_octave) {
  int halves = 2 * rail_cells(per_octave);
  if (!(ratio > 0)) return -1;
  double at = 2 * (log2(ratio) + RAIL_OCTAVES_BELOW) * per_octave + 1;
  if (at < 0) return -1;
  if (at >= halves) return halves;
  return (int)floor(at);
}

static bool is_number(double x) { return isfinite(x); }

/* The three vertical lines that a band may cross: what to draw for the halves of the cell that the band covers. */
static enum glyph crossing(enum glyph upright, bool left, bool right) {
  static const enum glyph NEED[4] = {G_NEED, G_NEED_RIGHT, G_NEED_LEFT, G_NEED_BAND};
  static const enum glyph LEAST[4] = {G_LEAST, G_LEAST_RIGHT, G_LEAST_LEFT, G_LEAST_BAND};
  static const enum glyph NONE[4] = {G_DOT, G_BAND_RIGHT, G_BAND_LEFT, G_BAND};
  int which = (left ? 2 : 0) | (right ? 1 : 0);
  return upright == G_NEED ? NEED[which] : upright == G_LEAST ? LEAST[which] : upright == G_COUNT ? NONE[which] : upright;
}

static void draw_grid(struct row *r, int column, int per_octave) {
  for (int octave = 0; octave <= RAIL_OCTAVES; octave++) row_glyph(r, column + octave * per_octave, INK_DIM, G_DOT);
}

/* 0-based cell of a half, -1 off to the left, 'cells' off to the right. */
static int cell_of(int half) { return half < 0 ? -1 : half / 2; }

static void draw_cell(struct row *r, int column, int per_octave, const struct rail *rail, int cell, enum ink ink) {
  int halves = 2 * rail_cells(per_octave);
  int from = is_number(rail->low) ? rail_half(rail->low, per_octave) : halves;
  int to = is_number(rail->high) ? rail_half(rail->high, per_octave) : -1;
  bool left = from <= 2 * cell && 2 * cell <= to, right = from <= 2 * cell + 1 && 2 * cell + 1 <= to;
  enum glyph upright = G_COUNT;
  if (cell == rail_need_cell(per_octave)) {
    upright = G_NEED;
  } else if (is_number(rail->limit) && cell == cell_of(rail_half(rail->limit, per_octave))) {
    upright = rail->limit_is_tested ? G_TESTED : G_LIMIT;
  } else if (is_number(rail->least) && cell == cell_of(rail_half(rail->least, per_octave))) {
    upright = G_LEAST;
  }
  if (!left && !right && upright == G_COUNT) return;
  bool is_line = upright != G_COUNT && !(left || right);
  bool is_ceiling = upright == G_LIMIT || upright == G_TESTED;
  row_glyph(r, column + cell, is_line || is_ceiling ? INK_PLAIN : ink, crossing(upright, left, right));
}

static int last_cell_of_band(const struct rail *rail, int per_octave) {
  int to = is_number(rail->high) ? cell_of(rail_half(rail->high, per_octave)) : -1;
  int mark = is_number(rail->middle) ? cell_of(rail_half(rail->middle, per_octave)) : -1;
  return to > mark ? to : mark;
}

/* Hatched from where the band ends to where unknown foods could take it. */
static void draw_hatch(struct row *r, int column, int per_octave, const struct rail *rail) {
  if (!rail->data_missing) return;
  int cells = rail_cells(per_octave), need = rail_need_cell(per_octave);
  int from = last_cell_of_band(rail, per_octave) + 1;
  int to = is_number(rail->reach) ? cell_of(rail_half(rail->reach, per_octave)) : from;
  for (int cell = from; cell <= to && cell < cells; cell++)
    if (cell != need) row_glyph(r, column + cell, INK_PLAIN, G_HATCH);
  if (is_number(rail->reach) && to >= cells && from < cells) row_glyph(r, column + cells - 1, INK_PLAIN, G_OFF_RIGHT);
  int open_end = to + 1 == need ? need + 1 : to + 1;
  if (rail->reach_unknown && open_end < cells) row_put(r, column + open_end, INK_PLAIN, "?");
}

static void draw_mark(struct row *r, int column, int per_octave, double at, enum ink ink, enum glyph g) {
  if (!is_number(at)) return;
  int cells = rail_cells(per_octave), cell = cell_of(rail_half(at, per_octave));
  if (cell < 0) {
    row_glyph(r, column, ink, G_OFF_LEFT);
  } else if (cell >= cells) {
    row_glyph(r, column + cells - 1, ink, G_OFF_RIGHT);
  } else {
    row_glyph(r, column + cell, ink, g);
  }
}

void rail_draw(struct row *r, int column, int per_octave, const struct rail *rail, enum ink ink) {
  int cells = rail_cells(per_octave);
  draw_grid(r, column, per_octave);
  for (int cell = 0; cell < cells; cell++) draw_cell(r, column, per_octave, rail, cell, ink);
  draw_hatch(r, column, per_octave, rail);
  if (is_number(rail->low) && is_number(rail->high)) {
    if (rail_half(rail->low, per_octave) < 0) row_glyph(r, column, ink, G_OFF_LEFT);
    if (rail_half(rail->high, per_octave) >= 2 * cells) row_glyph(r, column + cells - 1, ink, G_OFF_RIGHT);
  }
  draw_mark(r, column, per_octave, rail->lean, ink, G_LEAN);
  draw_mark(r, column, per_octave, rail->middle, ink, rail->sure ? G_SURE : G_UNSURE);
}

void rail_scale(struct row *r, int column, int per_octave) {
  static const char *const ASCII_WORD[RAIL_OCTAVES + 1] = {"1/4", "1/2", "need", "2x", "4x", "8x"};
  for (int i = 0; i <= RAIL_OCTAVES; i++) {
    const char *word = r->pen->unicode ? rail_scale_word[i] : ASCII_WORD[i];
    int from_need = i - RAIL_OCTAVES_BELOW;
    if (per_octave < 4 && (from_need == -1 || from_need == 1)) continue; /* no room beside "need" */
    int back = i == 0 ? 0 : (text_columns(r->pen, word) - 1) / 2;
    row_put(r, column + i * per_octave - back, from_need == 0 ? INK_STRONG : INK_DIM, word);
  }
}
