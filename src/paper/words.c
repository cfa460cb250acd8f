#include <math.h>

#include "paper/strip.h"

static const char FAMILY[] = "Atkinson Hyperlegible, DejaVu Sans, Noto Sans, sans-serif";

/* Without pairs set closer and letters set as one: readers that take the text out again would part such words ("T oo"). */
static void set_plainly(PangoLayout *l) {
  PangoAttrList *list = pango_attr_list_new();
  pango_attr_list_insert(list, pango_attr_font_features_new("kern=0, liga=0, clig=0"));
  pango_layout_set_attributes(l, list);
  pango_attr_list_unref(list);
}

PangoLayout *set_words(struct setting *t, const char *text, double size, enum face face, double width, bool to_the_right) {
  PangoLayout *l = pango_layout_new(t->context);
  PangoFontDescription *font = pango_font_description_from_string(FAMILY);
  pango_font_description_set_absolute_size(font, size * PANGO_SCALE);
  if (face == FACE_BOLD) pango_font_description_set_weight(font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description(l, font);
  pango_font_description_free(font);
  set_plainly(l);
  pango_layout_set_text(l, text, -1);
  pango_layout_set_wrap(l, PANGO_WRAP_WORD_CHAR);
  if (width > 0) pango_layout_set_width(l, (int)floor(width * PANGO_SCALE));
  pango_layout_set_auto_dir(l, FALSE);
  if (to_the_right) pango_layout_set_alignment(l, PANGO_ALIGN_RIGHT);
  t->unknown_letters += pango_layout_get_unknown_glyphs_count(l);
  return l;
}

void run_as_it_does(PangoLayout *l) { pango_layout_set_auto_dir(l, TRUE); }

double words_height(PangoLayout *l) {
  int h;
  pango_layout_get_size(l, NULL, &h);
  return (double)h / PANGO_SCALE;
}

double words_width(PangoLayout *l) {
  PangoRectangle logical;
  pango_layout_get_extents(l, NULL, &logical);
  return (double)logical.width / PANGO_SCALE;
}

struct strip *add_strip(struct setting *t, struct strip s) {
  ARENA_PUSH(t->arena, t->strip, t->count, t->cap, s);
  return &t->strip[t->count - 1];
}

void add_item(struct setting *t, struct strip *s, struct item i) { ARENA_PUSH(t->arena, s->item, s->count, s->cap, i); }
