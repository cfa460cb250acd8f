/* "rail": where the marks of a nutrient stand, for whoever draws them; and what the page has of pictures as constants. */
#include "picture/rail.h"
#include "picture/ribbon.h"

#include "json/json_parts.h"
#include "json/json_print.h"

static int mark_end(const struct at *at) { return (int)((const struct rail_places *)at->it)->mark_end; }

static const struct field RAIL[] = {
    NUMBER("mark", "", struct rail_places, mark, "the amount"),
    WORD_OF_ALWAYS("mark_end", mark_end, rail_end_word, RAIL_END_COUNT, "whether the amount lies beyond the scale"),
    NUMBER("low", "", struct rail_places, low, "5th percentile"),
    NUMBER("high", "", struct rail_places, high, "95th percentile"),
    NUMBER("unknown_from", "", struct rail_places, unknown_from, "what is known"),
    NUMBER("unknown_to", "", struct rail_places, unknown_to, "what foods without a figure might make of it"),
    NUMBER("minimum", "", struct rail_places, minimum, ""),
    NUMBER("limit", "", struct rail_places, limit, "the upper limit; null beyond the scale"),
    NUMBER("leanest", "", struct rail_places, leanest, "the leanest days, where they decide"),
    TRUTH("limit_is_tested", struct rail_places, limit_is_tested, "the highest level tested, no proven limit"),
    TRUTH("sure", struct rail_places, sure, "false: thin or unproven"),
};
const struct shape json_rail_shape =
    SHAPE("Rail", RAIL, "shares of the scale's width: 0 a quarter of the allowance, 1 eight times it, logarithmic");

void json_rail(struct json *j, const char *key, const struct at *at) {
  struct rail_places places;
  if (!rail_places(at->it, &places)) {
    json_nothing(j, key);
    return;
  }
  struct at inner = {at->lib, &json_rail_shape, &places, at, 0};
  json_shape(j, key, &json_rail_shape, &inner);
}

void json_rail_says(struct json *j, const char *key, const struct at *at) {
  json_text(j, key, rail_says(at->it, j->out->arena));
}

/* ---- constants of the page --------------------------------------------------------------------------------------- */

static void print_path(struct buf *out, const struct rail_sign_drawn *s) {
  const struct sign_stroke *t = s->stroke, *end = t + s->strokes;
  for (; t < end; t++) {
    bool goes_on = t > s->stroke && t[-1].x2 == t->x1 && t[-1].y2 == t->y1;
    if (!goes_on) buf_addf(out, "M%g %g", t->x1, t->y1);
    if (t > s->stroke && t->x2 == s->stroke->x1 && t->y2 == s->stroke->y1) {
      buf_addc(out, 'Z');
    } else {
      buf_addf(out, "L%g %g", t->x2, t->y2);
    }
  }
}

void json_print_pictures(struct buf *out) {
  buf_adds(out, "\n/** The words under a rail's scale, in equal steps from 0 to 1. */\nexport const RAIL_SCALE = [");
  for (int i = 0; i < RAIL_SCALE_MARKS; i++) buf_addf(out, "%s'%s'", i > 0 ? ", " : "", rail_scale_word[i]);
  buf_addf(out, "];\n/** Where the need stands. */\nexport const RAIL_NEED = %g;\n", rail_place(1));
  buf_addf(out, "/** The height of the rails that marks are drawn for. */\nexport const RAIL_HEIGHT = %d;\n",
           RAIL_SIGN_HEIGHT);
  buf_adds(
      out,
      "/** The marks of a rail: 'd' goes through the mark's place, 'r' is a disc's radius or half of a bar's height. */\n"
      "export const RAIL_SIGNS = {\n");
  for (int i = 0; i < SIGN_COUNT; i++) {
    const struct rail_sign_drawn *s = &rail_sign[i];
    buf_addf(out, "  %s: { words: '%s', d: '", s->key, s->words);
    print_path(out, s);
    buf_addf(out, "', r: %g, thick: %g, dashed: %s },\n", s->radius, s->thick, s->dashed ? "true" : "false");
  }
  buf_adds(out, "} as const;\n/** The tones of pictures on white. */\nexport const TONES = {");
  for (int i = 0; i < PAINT_HATCH; i++) buf_addf(out, "%s %s: '#%06x'", i > 0 ? "," : "", paint_word[i], paint_rgb[i]);
  buf_adds(out, " } as const;\n/** The tones of a bar's pieces, in turn. */\nexport const PIECE_TONES = [");
  for (int i = 0; i < PIECE_PAINTS; i++) buf_addf(out, "%s'%s'", i > 0 ? ", " : "", paint_word[piece_paint[i]]);
  buf_adds(out, "] as const;\n");
  buf_addf(out, "/** How much of the bowl may be set to be eaten. */\nexport const EATEN_PERCENT = [%d, %d] as const;\n",
           EATEN_LEAST, EATEN_MOST);
}
