/* What the food contains, without any verdict: for an animal that is not judged here, or for none. */
#include "report/answer.h"

#include <math.h>

enum { NAME_COLUMNS = 25, VALUE_COLUMNS = 12, RANGE_COLUMNS = 19, NOTE_LEAST = 20, NARROW = 72 };

/* The plus has a column of its own, so that digits stay aligned. */
static void write_amount(struct row *row, int right, const struct nutrient_result *n, double x, enum ink ink) {
  if (n->known == KNOWN_NONE || !isfinite(x)) {
    row_right(row, right, VALUE_COLUMNS, INK_PLAIN, "not known");
    return;
  }
  row_right(row, right, VALUE_COLUMNS, ink, say_with_unit(row->pen, x, nutrient_info[n->id].unit));
  if (n->known != KNOWN_ALL) row_put(row, right, INK_DIM, "+");
}

static void write_nutrient(const struct view *v, const struct nutrient_result *n) {
  const struct pen *p = &v->pen;
  bool known = n->known != KNOWN_NONE;
  struct row row;
  row_start(&row, p);
  row_fit(&row, MARGIN, NAME_COLUMNS, INK_PLAIN, nutrient_info[n->id].name);
  int right = MARGIN + NAME_COLUMNS + VALUE_COLUMNS;
  write_amount(&row, right, n, n->amount, INK_STRONG);
  right += VALUE_COLUMNS + 1;
  if (known) write_amount(&row, right, n, n->per_1000kcal, INK_PLAIN);
  if (p->width >= NARROW) {
    right += RANGE_COLUMNS;
    if (known && isfinite(n->low) && isfinite(n->high))
      row_right(&row, right, RANGE_COLUMNS - 2, INK_DIM,
                say_text(p, "%s to %s", words_number(p->arena, n->low), words_number(p->arena, n->high)));
  }
  int at = right + 3;
  if (n->known != KNOWN_ALL && who_supplies(n)->missing_count > 0 && p->width - MARGIN - at >= NOTE_LEAST)
    row_fit(&row, at, p->width - MARGIN - at, INK_DIM, say_text(p, "no figure for %s", missing_words(v, n, 3)));
  row_end(&row);
}

static void write_header(const struct view *v) {
  const struct pen *p = &v->pen;
  struct row row;
  int right = MARGIN + NAME_COLUMNS + VALUE_COLUMNS;
  row_start(&row, p);
  row_right(&row, right, VALUE_COLUMNS, INK_DIM, "a day");
  right += VALUE_COLUMNS + 1;
  row_right(&row, right, VALUE_COLUMNS, INK_DIM, "in 1000 kcal");
  if (p->width >= NARROW) row_right(&row, right + RANGE_COLUMNS, RANGE_COLUMNS - 2, INK_DIM, "9 times in 10");
  row_end(&row);
}

void answer_composition(const struct view *v) {
  const struct pen *p = &v->pen;
  heading(p, "What the food contains", "");
  write_header(v);
  for (int g = NG_PROXIMATE; g < NG_COUNT; g++) {
    struct row row;
    if (g > NG_PROXIMATE) blank_line(p);
    row_start(&row, p);
    row_put(&row, MARGIN, INK_STRONG, words_nutrient_group((enum nutrient_group)g));
    row_end(&row);
    for (int i = 0; i < NUT_COUNT; i++)
      if ((int)nutrient_info[i].group == g) write_nutrient(v, &v->r->nutrient[i]);
  }
  struct prose how = prose_at(MARGIN, INK_DIM);
  blank_line(p);
  prose_write(p, &how, "+ and perhaps more: some foods have no figure. \"Not known\" is never zero.");
}
