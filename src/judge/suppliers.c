#include "judge/check_steps.h"

#include "base/machine.h"

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

/* Four nutrients at once. */
typedef double pack __attribute__((vector_size(32), aligned(8), may_alias));
typedef int64_t mask __attribute__((vector_size(32), aligned(8), may_alias));
enum { PACK = 4, PACKS = (NUT_COUNT + PACK - 1) / PACK, ROOM = PACKS * PACK };
#define AT(numbers, p) (((pack *)(void *)(numbers))[p])
#define PLACE(numbers, p) (((mask *)(void *)(numbers))[p])

/* What one line supplies of each nutrient; of a line of one portion status and missing are the stream's own. */
struct line_tally {
  double amount[ROOM], share[ROOM];
  int64_t place[ROOM]; /* among the lines, the largest first, equal ones in the order of the lines */
  const uint8_t *status;
  const bool *missing;
  uint8_t own_status[NUT_COUNT];
  bool own_missing[NUT_COUNT];
};

/* Of all lines: what rests on estimates or single cited figures; what there is in all; how many supply some. */
struct all_tally {
  double estimated[ROOM], total[ROOM];
  int64_t count[ROOM];
};

static inline bool rests_on_estimate(uint8_t status) { return status == VALUE_ESTIMATED || status == VALUE_CITED; }

static inline void tally_one(const struct stream *restrict s, double grams, struct line_tally *restrict l,
                             double *restrict estimated) {
  for (int n = 0; n < NUT_COUNT; n++) l->amount[n] = grams * s->per_g[n];
  for (int n = 0; n < NUT_COUNT; n++) estimated[n] += l->amount[n] * rests_on_estimate(s->status[n]);
  l->status = s->status;
  l->missing = s->missing;
}

static void tally_parts(const struct line_rows *rows, struct line_tally *l, double *estimated) {
  for (int n = 0; n < NUT_COUNT; n++) {
    double amount = 0, largest = 0, lent = 0;
    uint8_t status = VALUE_UNKNOWN;
    bool missing = false;
    for (int i = 0; i < rows->count; i++) {
      const struct stream *s = rows->stream[i];
      double x = rows->grams[i] * s->per_g[n];
      x = x > 0 ? x : 0;
      missing |= s->missing[n];
      amount += x;
      lent += x * rests_on_estimate(s->status[n]);
      status = x > largest ? s->status[n] : status;
      largest = x > largest ? x : largest;
    }
    l->amount[n] = amount;
    l->own_status[n] = status;
    l->own_missing[n] = missing;
    estimated[n] += lent;
  }
  l->status = l->own_status;
  l->missing = l->own_missing;
}

/* Each line is compared with each: to look for its place would be to guess wrong as often as right. */
static inline void rank_all(struct line_tally *line, int lines, struct all_tally *all) {
  for (int p = 0; p < PACKS; p++) {
    mask count = {0, 0, 0, 0};
    for (int i = 0; i < lines; i++) {
      pack x = AT(line[i].amount, p);
      mask place = {0, 0, 0, 0};
      for (int k = 0; k < i; k++) {
        mask before = (mask)(AT(line[k].amount, p) >= x);
        place -= before;
        PLACE(line[k].place, p) += before + 1; /* all bits are -1 */
      }
      PLACE(line[i].place, p) = place;
      count -= (mask)(x > 0);
      AT(line[i].share, p) = x / AT(all->total, p);
    }
    PLACE(all->count, p) = count;
  }
}

/* Of every line and nutrient at most one of each: room for all, handed out from the front. What supplies none stands behind
 * those that do, and is written over by the next nutrient. */
struct room {
  struct supplier *from;
  int *missing;
};

static inline void hand_out(const struct line_tally *line, int lines, const struct all_tally *all,
                            struct nutrient_result *out, struct room *room) {
  int n = (int)out->id;
  out->from = room->from;
  out->missing = room->missing;
  for (int i = 0; i < lines; i++) {
    const struct line_tally *l = &line[i];
    room->from[l->place[n]] = (struct supplier){i, l->amount[n], l->share[n], (enum value_status)l->status[n]};
    *room->missing = i;
    room->missing += l->missing[n];
  }
  room->from += all->count[n];
  out->from_count = (size_t)all->count[n];
  out->missing_count = (size_t)(room->missing - out->missing);
  out->estimated_share = out->amount > 0 ? all->estimated[n] / out->amount : 0;
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

MACHINE_KEPT(suppliers_width);

static void fill_all(const struct line_rows *rows, int lines, struct line_tally *line, struct nutrient_result *out,
                     struct room *room);
MACHINE_BOTH_WIDTHS(suppliers_width, void, fill_all,
                    (const struct line_rows *rows, int lines, struct line_tally *line, struct nutrient_result *out,
                     struct room *room),
                    (rows, lines, line, out, room)) {
  struct all_tally all = {.estimated = {0}};
  for (int n = 0; n < ROOM; n++) all.total[n] = n < NUT_COUNT && out[n].amount != 0 ? out[n].amount : 1;
  for (int i = 0; i < lines; i++) {
    for (int n = NUT_COUNT; n < ROOM; n++) line[i].amount[n] = 0;
    if (rows[i].count == 1)
      tally_one(rows[i].stream[0], rows[i].grams[0], &line[i], all.estimated);
    else
      tally_parts(&rows[i], &line[i], all.estimated);
  }
  rank_all(line, lines, &all);
  for (int n = 0; n < NUT_COUNT; n++) hand_out(line, lines, &all, &out[n], room);
}

void suppliers_fill(const struct totals *t, struct nutrient_result *out, struct arena *arena) {
  size_t lines = t->ration->line_count, most = lines * (NUT_COUNT + 1);
  struct room room = {arena_raw(arena, most, sizeof(struct supplier)), arena_raw(arena, most + 1, sizeof(int))};
  struct arena_mark mark = arena_mark(arena);
  const struct line_rows *rows = rows_by_line(t, arena);
  fill_all(rows, (int)lines, arena_raw(arena, lines, sizeof(struct line_tally)), out, &room);
  arena_rewind(arena, mark);
}
