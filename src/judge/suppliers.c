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
  int status;
  bool missing;
};

/* Thousands of times a bowl, and the processor could not guess which food holds what: sums instead of questions. */
static inline struct line_tally tally_of(const struct line_rows *l, int n) {
  static const double IS_ESTIMATE[VALUE_STATUS_COUNT] = {[VALUE_ESTIMATED] = 1, [VALUE_CITED] = 1};
  if (l->count == 1) {
    const struct stream *s = l->stream[0];
    double x = l->grams[0] * s->per_g[n];
    return (struct line_tally){x, x, x * IS_ESTIMATE[s->status[n]], s->status[n], s->missing[n]};
  }
  struct line_tally sum = {0, 0, 0, VALUE_UNKNOWN, false};
  for (int i = 0; i < l->count; i++) {
    const struct stream *s = l->stream[i];
    double x = l->grams[i] * s->per_g[n];
    int status = s->status[n];
    x = x > 0 ? x : 0;
    sum.missing |= s->missing[n];
    sum.amount += x;
    sum.estimated += x * IS_ESTIMATE[status];
    sum.status = x > sum.largest ? status : sum.status;
    sum.largest = x > sum.largest ? x : sum.largest;
  }
  return sum;
}

/* Of every line and nutrient at most one of each: room for all, handed out from the front. */
struct room {
  struct supplier *from;
  int *missing;
};

/* One that supplies some, and its place when the largest comes first and equal ones stay in the order of the lines. */
struct placed {
  double amount;
  int line, status, place;
};

/* Each is compared with each: to look for its place would be to guess wrong as often as right. */
static void place_last(struct placed *all, int count) {
  struct placed *last = &all[count - 1];
  int place = count - 1;
  for (int i = 0; i < count - 1; i++) {
    int smaller = all[i].amount < last->amount;
    all[i].place += smaller;
    place -= smaller;
  }
  last->place = place;
}

static void fill_one(const struct line_rows *line, size_t lines, struct placed *supplying, struct nutrient_result *out,
                     struct room *room) {
  double estimated = 0;
  int count = 0;
  out->from = room->from;
  out->missing = room->missing;
  for (size_t i = 0; i < lines; i++) {
    struct line_tally l = tally_of(&line[i], (int)out->id);
    estimated += l.estimated;
    *room->missing = (int)i; /* written over by the next where it lacks nothing */
    room->missing += l.missing;
    if (!(l.amount > 0)) continue;
    supplying[count++] = (struct placed){l.amount, (int)i, l.status, 0};
    place_last(supplying, count);
  }
  for (int i = 0; i < count; i++) {
    const struct placed *p = &supplying[i];
    room->from[p->place] = (struct supplier){p->line, p->amount, p->amount / out->amount, (enum value_status)p->status};
  }
  room->from += count;
  out->from_count = (size_t)count;
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
  struct placed *supplying = arena_raw(arena, lines, sizeof *supplying);
  struct room room = {arena_raw(arena, most, sizeof(struct supplier)), arena_raw(arena, most + 1, sizeof(int))};
  for (int i = 0; i < NUT_COUNT; i++) fill_one(line, lines, supplying, &out[i], &room);
}
