#include "judge/check_steps.h"

#include "base/machine.h"
#include "judge/memory.h"
#include "judge/packs.h"

/* The portions of one line: the flesh, and the bone in it. */
struct line_rows {
  int stream[LINE_PARTS];   /* of the totals */
  double grams[LINE_PARTS]; /* a day */
  int count;
};

/* Of one result. Its lists are made when the first of them is asked for; their room is set aside with the result, so that
 * they last as long. */
struct supply_lists {
  const struct totals *totals;
  enum species species;
  const struct line_rows *rows; /* [lines] */
  int lines;
  struct supplier *from; /* of every line and nutrient at most one of each: room for all, handed out from the front */
  int *missing;
  void (*on_full)(void);
  bool are_listed;
  struct supply_list of[NUT_COUNT];
};

static inline bool rests_on_estimate(uint8_t status) { return status == VALUE_ESTIMATED || status == VALUE_CITED; }

/* What one line supplies of each nutrient; of a line of one portion status and missing are the stream's own. */
struct line_tally {
  double amount[NUT_ROOM], share[NUT_ROOM];
  int64_t place[NUT_ROOM]; /* among the lines, the largest first, equal ones in the order of the lines */
  const uint8_t *status;
  const bool *missing;
  uint8_t own_status[NUT_ROOM];
  bool own_missing[NUT_ROOM];
};

static inline void tally_one(const struct stream *restrict s, double grams, struct line_tally *restrict l) {
  for (int n = 0; n < NUT_ROOM; n++) l->amount[n] = grams * s->per_g[n];
  l->status = s->status;
  l->missing = s->missing;
}

static void tally_parts(const struct line_rows *rows, struct stream *const *stream, struct line_tally *l) {
  for (int n = 0; n < NUT_ROOM; n++) {
    double amount = 0, largest = 0;
    uint8_t status = VALUE_UNKNOWN;
    bool missing = false;
    for (int i = 0; i < rows->count; i++) {
      const struct stream *s = stream[rows->stream[i]];
      double x = rows->grams[i] * s->per_g[n];
      x = x > 0 ? x : 0;
      missing |= s->missing[n];
      amount += x;
      status = x > largest ? s->status[n] : status;
      largest = x > largest ? x : largest;
    }
    l->amount[n] = amount;
    l->own_status[n] = status;
    l->own_missing[n] = missing;
  }
  l->status = l->own_status;
  l->missing = l->own_missing;
}

/* ---- what is lent ---------------------------------------------------------------------------------------------- */

/* Of all lines: what rests on estimates or single cited figures, and what a class had to lend. */
struct lent {
  double estimated[NUT_ROOM], classed[NUT_ROOM];
};

MACHINE_KEPT(suppliers_width);

static void add_lent(struct lent *restrict sum, const struct stream *restrict s, double grams);
MACHINE_BOTH_WIDTHS(suppliers_width, void, add_lent,
                    (struct lent *restrict sum, const struct stream *restrict s, double grams), (sum, s, grams)) {
  for (int p = 0; p < PACKS; p++) {
    pack x = grams * AT_CONST(s->per_g, p);
    mask classed = ARE(s->status, p, VALUE_ESTIMATED);
    AT(sum->estimated, p) += ONLY(classed | ARE(s->status, p, VALUE_CITED), x);
    AT(sum->classed, p) += ONLY(classed, x);
  }
}

/* A line counts by the larger of its parts. */
static void add_lent_of_parts(struct lent *sum, const struct line_rows *rows, struct stream *const *stream) {
  struct line_tally l;
  tally_parts(rows, stream, &l);
  for (int n = 0; n < NUT_COUNT; n++) {
    for (int i = 0; i < rows->count; i++) {
      const struct stream *s = stream[rows->stream[i]];
      double x = rows->grams[i] * s->per_g[n];
      sum->estimated[n] += (x > 0 ? x : 0) * rests_on_estimate(s->status[n]);
    }
    sum->classed[n] += l.amount[n] * (l.status[n] == VALUE_ESTIMATED);
  }
}

static void fill_shares(struct supply_lists *x, struct nutrient_result *out) {
  struct lent sum = {{0}, {0}};
  struct stream *const *stream = x->totals->stream;
  for (int i = 0; i < x->lines; i++) {
    const struct line_rows *rows = &x->rows[i];
    if (rows->count == 1) add_lent(&sum, stream[rows->stream[0]], rows->grams[0]);
    if (rows->count > 1) add_lent_of_parts(&sum, rows, stream);
  }
  for (int n = 0; n < NUT_COUNT; n++) {
    out[n].lists = x;
    out[n].estimated_share = out[n].amount > 0 ? sum.estimated[n] / out[n].amount : 0;
    out[n].classed_share = out[n].amount > 0 ? sum.classed[n] / out[n].amount : 0;
  }
}

static const struct line_rows *rows_by_line(const struct totals *t, struct arena *arena) {
  struct line_rows *line = ARENA_NEW(arena, struct line_rows, t->ration->line_count);
  for (int r = 0; r < t->row_count; r++) {
    struct line_rows *l = &line[t->row[r].line];
    l->stream[l->count] = t->row[r].stream;
    l->grams[l->count++] = t->row[r].day_g;
  }
  return line;
}

void suppliers_begin(const struct totals *t, enum species s, struct nutrient_result *out, struct arena *arena) {
  size_t lines = t->ration->line_count, most = lines * (NUT_COUNT + 1);
  struct supply_lists *x = arena_raw(arena, 1, sizeof *x);
  x->totals = t;
  x->species = s;
  x->rows = rows_by_line(t, arena);
  x->lines = (int)lines;
  x->from = arena_raw(arena, most, sizeof *x->from);
  x->missing = arena_raw(arena, most + 1, sizeof *x->missing);
  x->on_full = arena->on_full;
  x->are_listed = false;
  fill_shares(x, out);
}

/* ---- the lists ------------------------------------------------------------------------------------------------- */

/* Of all lines: what there is in all; how many supply some. */
struct all_tally {
  double total[NUT_ROOM];
  int64_t count[NUT_ROOM];
};

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

struct room {
  struct supplier *from;
  int *missing;
};

/* What supplies none stands behind those that do, and is written over by the next nutrient. */
static inline void hand_out(const struct line_tally *line, int lines, int n, int64_t count, struct supply_list *out,
                            struct room *room) {
  out->from = room->from;
  out->missing = room->missing;
  for (int i = 0; i < lines; i++) {
    const struct line_tally *l = &line[i];
    room->from[l->place[n]] = (struct supplier){l->amount[n], l->share[n], i, (enum value_status)l->status[n]};
    *room->missing = i;
    room->missing += l->missing[n];
  }
  room->from += count;
  out->from_count = (size_t)count;
  out->missing_count = (size_t)(room->missing - out->missing);
}

static void fill_all(struct supply_lists *x, struct stream *const *stream, struct line_tally *line);
MACHINE_BOTH_WIDTHS(suppliers_width, void, fill_all,
                    (struct supply_lists * x, struct stream *const *stream, struct line_tally *line), (x, stream, line)) {
  struct all_tally all = {.total = {0}};
  struct room room = {x->from, x->missing};
  for (int n = 0; n < NUT_ROOM; n++) all.total[n] = x->totals->amount[n] != 0 ? x->totals->amount[n] : 1;
  for (int i = 0; i < x->lines; i++) {
    if (x->rows[i].count == 1)
      tally_one(stream[x->rows[i].stream[0]], x->rows[i].grams[0], &line[i]);
    else
      tally_parts(&x->rows[i], stream, &line[i]);
  }
  rank_all(line, x->lines, &all);
  for (int n = 0; n < NUT_COUNT; n++) hand_out(line, x->lines, n, all.count[n], &x->of[n], &room);
}

static void list_all(struct supply_lists *x) {
  struct arena scratch;
  arena_init(&scratch, x->on_full);
  struct stream *const *stream = energy_streams_again(x->totals, x->species, &scratch);
  fill_all(x, stream, arena_raw(&scratch, (size_t)x->lines, sizeof(struct line_tally)));
  x->are_listed = true;
  arena_free(&scratch);
}

const struct supply_list *who_supplies(const struct nutrient_result *n) {
  static const struct supply_list NOBODY;
  if (!n->lists) return &NOBODY;
  if (!n->lists->are_listed) list_all(n->lists);
  return &n->lists->of[n->id];
}
