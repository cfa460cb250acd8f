#include "explain/doubt.h"

/* Parts of the variance of one food. */
struct parts_of_doubt {
  double amount, content_cv2, kept, weight;
};

static void weigh(struct doubt *best, enum doubt_kind kind, const struct portion_row *row, uint32_t food, double variance,
                  double total) {
  if (!(variance > best->share * total)) return;
  *best = (struct doubt){kind, food, row->line, variance / total};
}

struct doubt doubt_largest(const struct totals *t, enum nutrient n) {
  struct doubt best = {DOUBT_CONTENT, NO_INDEX, -1, 0};
  double total = t->variance[n];
  if (!(total > 0)) return best;
  for (int i = 0; i < t->row_count;) {
    const struct portion_row *first = &t->row[i];
    uint32_t food = t->stream[first->stream]->food;
    struct parts_of_doubt p = {0, 0, 0, 0};
    for (; i < t->row_count && t->stream[t->row[i].stream]->food == food; i++) {
      const struct stream *s = t->stream[t->row[i].stream];
      double x = t->row[i].day_g * s->per_g[n];
      p.amount += x;
      p.content_cv2 = fmax(p.content_cv2, s->value_cv2[n]);
      p.kept += x * x * s->kept_cv2[n]; /* of one stream on two lines a little low: only the largest part matters here */
      p.weight += x * x * t->row[i].grams_cv2;
    }
    weigh(&best, DOUBT_CONTENT, first, food, p.content_cv2 * p.amount * p.amount, total);
    weigh(&best, DOUBT_KEPT, first, food, p.kept, total);
    weigh(&best, DOUBT_AMOUNT, first, food, p.weight, total);
  }
  return best;
}
