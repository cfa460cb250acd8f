#include "judge/check_steps.h"

void suppliers_sort(struct supplier *from, size_t n) {
  for (size_t i = 1; i < n; i++) {
    struct supplier s = from[i];
    size_t j = i;
    for (; j > 0 && from[j - 1].amount < s.amount; j--) from[j] = from[j - 1];
    from[j] = s;
  }
}

/* The portions of one line: the flesh, and the bone in it. */
struct line_rows {
  const struct stream *stream[LINE_PARTS];
  double grams[LINE_PARTS]; /* a day */
  int count;
};

/* What one line supplies of one nutrient. */
struct line_tally {
  double amount, largest;
  double estimated; /* the part that rests on estimates or single cited figures */
  enum value_status status;
  bool missing;
};

static struct line_tally tally_of(const struct line_rows *l, enum nutrient n) {
  struct line_tally sum = {0, 0, 0, VALUE_UNKNOWN, false};
  for (int i = 0; i < l->count; i++) {
    const struct stream *s = l->stream[i];
    double x = l->grams[i] * s->per_g[n];
    enum value_status status = (enum value_status)s->status[n];
    sum.missing |= s->missing[n];
    if (!(x > 0)) continue;
    sum.amount += x;
    if (status == VALUE_ESTIMATED || status == VALUE_CITED) sum.estimated += x;
    if (x > sum.largest) {
      sum.largest = x;
      sum.status = status;
    }
  }
  return sum;
}

/* Of every line and nutrient at most one of each: room for all, handed out from the front. */
struct room {
  struct supplier *from;
  int *missing;
};

static void fill_one(const struct line_rows *line, size_t lines, struct nutrient_result *out, struct room *room) {
  double estimated = 0;
  out->from = room->from;
  out->missing = room->missing;
  for (size_t i = 0; i < lines; i++) {
    struct line_tally l = tally_of(&line[i], out->id);
    estimated += l.estimated;
    if (l.missing) *room->missing++ = (int)i;
    if (!(l.amount > 0)) continue;
    struct supplier s = {(int)i, l.amount, l.amount / out->amount, l.status}, *at = room->from++;
    for (; at > out->from && at[-1].amount < s.amount; at--) *at = at[-1];
    *at = s;
  }
  out->from_count = (size_t)(room->from - out->from);
  out->missing_count = (size_t)(room->missing - out->missing);
  out->estimated_share = out->amount > 0 ? estimated / out->amount : 0;
}

static struct line_rows *rows_by_line(const struct totals *t, struct arena *arena) {
  struct line_rows *line = ARENA_NEW(arena, struct line_rows, t->ration->line_count);
  for (int r = 0; r < t->row_count; r++) {
    struct line_rows *l = &line[t->row[r].line];
    l->stream[l->count] = t->stream[t->row[r].stream];
    l->grams[l->count++] = t->row[r].day_g;
  }
  return line;
}

void suppliers_fill(const struct totals *t, struct nutrient_result *out, struct arena *arena) {
  size_t lines = t->ration->line_count, most = lines * NUT_COUNT;
  const struct line_rows *line = rows_by_line(t, arena);
  struct room room = {arena_raw(arena, most, sizeof(struct supplier)), arena_raw(arena, most, sizeof(int))};
  for (int i = 0; i < NUT_COUNT; i++) fill_one(line, lines, &out[i], &room);
}
