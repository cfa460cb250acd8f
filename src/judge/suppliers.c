#include "judge/check_steps.h"

void suppliers_sort(struct supplier *from, size_t n) {
  for (size_t i = 1; i < n; i++) {
    struct supplier s = from[i];
    size_t j = i;
    for (; j > 0 && from[j - 1].amount < s.amount; j--) from[j] = from[j - 1];
    from[j] = s;
  }
}

/* What one line brings of one nutrient. */
struct line_tally {
  double amount, largest;
  double estimated; /* the part that rests on estimates or single cited figures */
  enum value_status status;
  bool missing;
};

static void add_portion(struct line_tally *l, const struct stream *s, double grams, enum nutrient n) {
  double x = grams * s->per_g[n];
  enum value_status status = (enum value_status)s->status[n];
  l->missing |= s->missing[n];
  if (!(x > 0)) return;
  l->amount += x;
  if (status == VALUE_ESTIMATED || status == VALUE_CITED) l->estimated += x;
  if (x > l->largest) {
    l->largest = x;
    l->status = status;
  }
}

static void fill_one(const struct totals *t, struct nutrient_result *out, struct line_tally *tally, struct arena *arena) {
  size_t lines = t->ration->line_count, from = 0, missing = 0;
  double estimated = 0;
  for (size_t i = 0; i < lines; i++) {
    from += tally[i].amount > 0;
    missing += tally[i].missing;
    estimated += tally[i].estimated;
  }
  struct supplier *s = ARENA_NEW(arena, struct supplier, from);
  int *m = ARENA_NEW(arena, int, missing);
  out->from_count = out->missing_count = 0;
  for (size_t i = 0; i < lines; i++) {
    if (tally[i].missing) m[out->missing_count++] = (int)i;
    if (!(tally[i].amount > 0)) continue;
    s[out->from_count++] = (struct supplier){(int)i, tally[i].amount, tally[i].amount / out->amount, tally[i].status};
  }
  suppliers_sort(s, from);
  out->from = s;
  out->missing = m;
  out->estimated_share = out->amount > 0 ? estimated / out->amount : 0;
}

void suppliers_fill(const struct totals *t, struct nutrient_result *out, struct arena *arena) {
  size_t lines = t->ration->line_count;
  struct line_tally *tally = ARENA_NEW(arena, struct line_tally, lines);
  for (int i = 0; i < NUT_COUNT; i++) {
    enum nutrient n = (enum nutrient)i;
    memset(tally, 0, lines * sizeof *tally);
    for (int r = 0; r < t->row_count; r++) {
      const struct portion_row *row = &t->row[r];
      add_portion(&tally[row->line], t->stream[row->stream], row->day_g, n);
    }
    fill_one(t, &out[i], tally, arena);
  }
}
