/* firm.c: proofs. Planes that touch a quantile where it bends the wrong way may cut off bowls that are right (planes.c);
 * what is proven is proven without them. */
#include <math.h>

#include "change/model_parts.h"

size_t model_bold_rows(const struct model *p) {
  size_t n = 0;
  for (size_t i = 0; i < p->notes; i++) n += p->note[i].bold;
  return n;
}

double model_row_size(const struct model *p, size_t row) { return p->limit[p->note[row].limit].size; }

static bool is_bold(const struct row_note *note) { return note->bold; }

void model_forget(struct model *p) {
  model_drop_rows(p, is_bold);
  for (size_t b = 0; b < p->bowls; b++) {
    p->bowl[b]->judged = false;
    for (int n = 0; n < NUT_COUNT; n++) {
      struct duty *d = &p->bowl[b]->duty[n];
      if (!d->ended) continue;
      d->promised = d->ended = false;
      d->waived = true;
    }
  }
}

struct model *model_firm(const struct model *p, struct arena *arena) {
  struct model *q = ARENA_NEW(arena, struct model, 1);
  *q = *p;
  q->model.row = ARENA_NEW(arena, struct lp_row, p->model.rows + 1);
  q->model.a = ARENA_NEW(arena, double *, p->model.rows + 1);
  q->note = ARENA_NEW(arena, struct row_note, p->notes + 1);
  q->notes = q->model.rows = 0;
  for (size_t i = 0; i < p->notes; i++) {
    if (p->note[i].bold) continue;
    q->model.row[q->notes] = p->model.row[i];
    q->model.a[q->notes] = p->model.a[i];
    q->note[q->notes++] = p->note[i];
  }
  q->model.rows = q->notes;
  return q;
}

static double *firm_part(const struct model *p, const double *multiplier, struct arena *scratch) {
  double *y = ARENA_NEW(scratch, double, p->model.rows);
  for (size_t i = 0; i < p->model.rows; i++) y[i] = p->note[i].bold ? 0 : multiplier[i];
  return y;
}

bool model_proves_none(const struct model *p, struct lp_col *col, const double *farkas, struct arena *scratch) {
  struct lp_model m = p->model;
  m.col = col;
  return lp_farkas_proves(&m, firm_part(p, farkas, scratch));
}

double model_firm_bound(const struct model *p, struct lp_col *col, const double *dual, struct arena *scratch) {
  struct lp_model m = p->model;
  m.col = col;
  return lp_dual_bound(&m, firm_part(p, dual, scratch));
}
