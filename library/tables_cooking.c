/* What cooking takes away: shares of nutrients that stay, and grams that are left. docs/method/cooking.md has the reasons.
 */
#include <math.h>
#include <stdlib.h>

#include "base/table.h"
#include "library/tables.h"

enum { COOKED_FROM = STATE_BOILED, COOKED_TO = STATE_COOKED_OTHER };

static bool is_wet(enum state s) {
  return s == STATE_BOILED || s == STATE_SIMMERED || s == STATE_STEAMED || s == STATE_PRESSURE_COOKED;
}

static enum state read_state(const struct tsv *t, size_t row, struct span word) {
  for (int s = COOKED_FROM; s <= COOKED_TO; s++)
    if (span_is(word, state_word[s])) return (enum state)s;
  tsv_fail(t, row, "'%.*s' is no way of cooking", SPAN_ARG(word));
}

static enum retention_group read_group(const struct tsv *t, size_t row, struct span word) {
  for (int g = 0; g < RETAIN_GROUP_COUNT; g++)
    if (span_is(word, retention_group_word[g])) return (enum retention_group)g;
  tsv_fail(t, row, "'%.*s' is no group of foods", SPAN_ARG(word));
}

/* ---- losses that the table of factors lacks -------------------------------------------------------------------- */

/* ORDER HEAT */
enum heat { HEAT_WET_DISCARDED, HEAT_WET_KEPT, HEAT_DRY, HEAT_ANY, HEAT_COUNT };
static WORD_TABLE(HEAT_WORD, HEAT_COUNT, "wet_discarded", "wet_kept", "dry", "any");
/* ORDER BROTH: as struct img_retention counts it */
enum broth { BROTH_DISCARDED, BROTH_KEPT, BROTH_NONE, BROTH_COUNT };
static WORD_TABLE(BROTH_WORD, BROTH_COUNT, "discarded", "kept", "n/a");

struct other_loss {
  enum nutrient nutrient;
  bool meat_only;
  enum heat heat;
  double low, high; /* shares */
};

struct other_losses {
  struct other_loss *loss;
  size_t count;
};

static struct other_losses read_other_losses(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"nutrient", "groups", "heat", "low", "high", "confidence", "source", NULL};
  static const char *const GROUPS[] = {"any", "meat"};
  struct tsv t;
  table_open(&t, w, data_dir, "retention_other.tsv", COLUMNS);
  struct other_losses all = {ARENA_NEW(w->arena, struct other_loss, t.rows), t.rows};
  for (size_t r = 0; r < t.rows; r++) {
    table_confidence(&t, r), source_index(&t, r, "source"); /* must be there */
    all.loss[r] = (struct other_loss){table_nutrient(&t, r, "nutrient"), tsv_word(&t, r, "groups", GROUPS, 2) == 1,
                                      (enum heat)tsv_word(&t, r, "heat", HEAT_WORD, HEAT_COUNT),
                                      table_figure(&t, r, "low", 0) / 100, table_figure(&t, r, "high", 0) / 100};
    if (!(all.loss[r].high >= all.loss[r].low)) tsv_fail(&t, r, "low is above high");
  }
  return all;
}

/* A row without broth is dry heat, unless the food lay in water or steam and nothing was poured away. */
static enum heat heat_of(enum state s, enum broth b) {
  if (!is_wet(s)) return HEAT_DRY;
  return b == BROTH_DISCARDED ? HEAT_WET_DISCARDED : HEAT_WET_KEPT;
}

static bool is_fat(enum nutrient n) { return n == NUT_FAT || nutrient_info[n].group == NG_FATTY; }

static const struct other_loss *other_loss_of(const struct other_losses *all, enum nutrient n, enum retention_group g,
                                              enum heat heat) {
  enum nutrient wanted = is_fat(n) ? NUT_FAT : n;
  for (size_t i = 0; i < all->count; i++) {
    const struct other_loss *o = &all->loss[i];
    if (o->nutrient == wanted && (!o->meat_only || g <= RETAIN_ORGAN) && (o->heat == HEAT_ANY || o->heat == heat)) return o;
  }
  return NULL;
}

/* ---- retention --------------------------------------------------------------------------------------------------- */

/* The nutrients that the table of factors has a column for. */
static const enum nutrient FACTORS[] = {NUT_CALCIUM,    NUT_IRON,    NUT_MAGNESIUM,    NUT_PHOSPHORUS, NUT_POTASSIUM,
                                        NUT_SODIUM,     NUT_ZINC,    NUT_COPPER,       NUT_VITAMIN_C,  NUT_THIAMIN,
                                        NUT_RIBOFLAVIN, NUT_NIACIN,  NUT_B6,           NUT_FOLATE,     NUT_B12,
                                        NUT_CHOLINE,    NUT_RETINOL, NUT_BETA_CAROTENE};

static void set_share(struct img_retention *r, enum nutrient n, double mean, double cv, enum value_status status) {
  r->mean[n] = (float)mean;
  r->cv[n] = (float)cv;
  r->status[n] = (uint8_t)status;
}

/* Every share between the two ends is taken as equally likely. */
static void set_range(struct img_retention *r, enum nutrient n, double low, double high, enum value_status status) {
  double mean = (low + high) / 2;
  set_share(r, n, mean, mean > 0 ? (high - low) / sqrt(12) / mean : 0, status);
}

/* The span of this row's own factors for minerals, or for vitamins; false when it has none. */
static bool range_of_kind(const struct img_retention *r, bool vitamins, double *low, double *high) {
  *low = INFINITY, *high = -INFINITY;
  for (size_t i = 0; i < COUNT_OF(FACTORS); i++) {
    enum nutrient n = FACTORS[i];
    if ((nutrient_info[n].group == NG_VITAMIN) != vitamins || r->status[n] != VALUE_MEASURED) continue;
    *low = fmin(*low, (double)r->mean[n]);
    *high = fmax(*high, (double)r->mean[n]);
  }
  return *low <= *high;
}

static void complete_nutrient(struct img_retention *r, enum nutrient n, const struct other_losses *others) {
  enum nutrient_group kind = nutrient_info[n].group;
  const struct other_loss *o =
      other_loss_of(others, n, (enum retention_group)r->group, heat_of((enum state)r->state, (enum broth)r->broth));
  double low, high;
  if (n == NUT_WATER) return; /* follows from the change of weight, not from a share */
  if (n == NUT_VITAMIN_A) {
    set_share(r, n, r->mean[NUT_RETINOL], 0, (enum value_status)r->status[NUT_RETINOL]);
  } else if (o) {
    set_range(r, n, o->low, o->high, is_fat(n) ? VALUE_ESTIMATED : VALUE_CITED);
  } else if (n == NUT_ASH || kind == NG_MINERAL || kind == NG_TRACE || kind == NG_VITAMIN) {
    if (range_of_kind(r, kind == NG_VITAMIN, &low, &high)) set_range(r, n, low, high, VALUE_ESTIMATED);
  } else {
    set_share(r, n, 1, 0, VALUE_ESTIMATED); /* protein, fat, carbohydrate, fibre: assumed kept */
  }
}

static void complete_row(struct img_retention *r, const struct other_losses *others) {
  for (int n = 0; n < NUT_COUNT; n++)
    if (r->status[n] != VALUE_MEASURED) complete_nutrient(r, (enum nutrient)n, others);
}

static struct img_retention read_factors(struct writer *w, const struct tsv *t, size_t row) {
  struct img_retention r = {.code = table_text(w, t, row, "code"),
                            .words = table_text(w, t, row, "words"),
                            .group = (uint8_t)read_group(t, row, tsv_cell(t, row, "group")),
                            .state = (uint8_t)read_state(t, row, tsv_cell(t, row, "state")),
                            .broth = (uint8_t)tsv_word(t, row, "broth", BROTH_WORD, BROTH_COUNT),
                            .rank = (uint8_t)table_figure(t, row, "rank", 0),
                            .source = source_index(t, row, "source"),
                            .row = (uint16_t)t->line[row]};
  for (int n = 0; n < NUT_COUNT; n++) set_share(&r, (enum nutrient)n, (double)NAN, 0, VALUE_UNKNOWN);
  for (size_t i = 0; i < COUNT_OF(FACTORS); i++) {
    double percent = tsv_number(t, row, nutrient_info[FACTORS[i]].key);
    if (isnan(percent)) continue;
    if (!(percent >= 0 && percent <= 100)) tsv_fail(t, row, "%s: a share is 0 to 100", nutrient_info[FACTORS[i]].key);
    set_share(&r, FACTORS[i], percent / 100, 0, VALUE_MEASURED);
  }
  return r;
}

struct retention_rows {
  struct img_retention *row;
  size_t count, cap;
};

/* Boiling and simmering are one to a table that rounds to 5 %; any other stand-in is a guess and says so. */
static bool is_guess(const struct img_retention *own, const struct img_retention *r) {
  bool own_water = own->state == STATE_BOILED || own->state == STATE_SIMMERED;
  bool water = r->state == STATE_BOILED || r->state == STATE_SIMMERED;
  return own->group != r->group || (own->state != r->state && !(own_water && water));
}

static void add_retention(struct writer *w, struct retention_rows *all, const struct tsv *t, struct img_retention r,
                          bool guess, const struct other_losses *others) {
  complete_row(&r, others);
  for (int n = 0; guess && n < NUT_COUNT; n++)
    if (r.status[n] == VALUE_MEASURED) r.status[n] = VALUE_ESTIMATED;
  for (size_t i = 0; i < all->count; i++) {
    const struct img_retention *o = &all->row[i];
    if (r.rank == 0 && o->rank == 0 && o->group == r.group && o->state == r.state && o->broth == r.broth)
      tsv_fail(t, (size_t)-1, "two rows of rank 0 (lines %d and %d) for %s, %s", (int)o->row, (int)r.row,
               retention_group_word[r.group], state_word[r.state]);
  }
  ARENA_PUSH(w->arena, all->row, all->count, all->cap, r);
}

/* "boiled" or "fish_lean/boiled": the same factors under another state, or for another group. */
static struct img_retention stand_in(struct writer *w, const struct tsv *t, size_t row, struct img_retention r,
                                     struct span word) {
  struct span group = {NULL, 0}, state = word;
  if (memchr(word.p, '/', word.n)) group = tsv_piece(&state, '/');
  if (group.n) r.group = (uint8_t)read_group(t, row, group);
  r.state = (uint8_t)read_state(t, row, state);
  r.rank = 0; /* there is no row of its own that could stand before it */
  struct buf b;
  buf_init(&b, w->arena, 300);
  struct span words = tsv_cell(t, row, "words");
  buf_addf(&b, "%.*s (stands in for %s, %s)", SPAN_ARG(words), retention_group_word[r.group], state_word[r.state]);
  r.words = writer_text(w, buf_span(&b));
  return r;
}

void build_retention(struct writer *w, const char *data_dir) {
  static const char *const COLUMNS[] = {"code", "words", "group",      "state",  "broth",
                                        "rank", "also",  "confidence", "source", NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "retention.tsv", COLUMNS);
  struct other_losses others = read_other_losses(w, data_dir);
  struct retention_rows all = {NULL, 0, 0};
  for (size_t r = 0; r < t.rows; r++) {
    table_confidence(&t, r);
    struct img_retention own = read_factors(w, &t, r);
    add_retention(w, &all, &t, own, false, &others);
    for (struct span also = tsv_cell(&t, r, "also"); also.n > 0;) {
      struct img_retention other = stand_in(w, &t, r, own, tsv_piece(&also, '|'));
      add_retention(w, &all, &t, other, is_guess(&own, &other), &others);
    }
  }
  writer_section(w, IMG_RETENTION, all.row, all.count, sizeof *all.row);
}

/* ---- yields ---------------------------------------------------------------------------------------------------- */

struct yield_rows {
  struct img_yield *row;
  size_t count, cap;
};

static void read_yields(struct writer *w, const char *data_dir, struct yield_rows *all) {
  static const char *const COLUMNS[] = {"words", "group", "state", "also", "yield", "confidence", "source", "note", NULL};
  struct tsv t;
  table_open(&t, w, data_dir, "yields.tsv", COLUMNS);
  for (size_t r = 0; r < t.rows; r++) {
    float yield = (float)table_figure(&t, r, "yield", 0.05);
    struct img_yield y = {.words = table_text(w, &t, r, "words"),
                          .group = (uint8_t)read_group(&t, r, tsv_cell(&t, r, "group")),
                          .state = (uint8_t)read_state(&t, r, tsv_cell(&t, r, "state")),
                          .confidence = table_confidence(&t, r),
                          .yield = yield,
                          .low = yield,
                          .high = yield,
                          .source = source_index(&t, r, "source"),
                          .row = (uint16_t)t.line[r]};
    ARENA_PUSH(w->arena, all->row, all->count, all->cap, y);
    struct span also = tsv_cell(&t, r, "also");
    if (also.n == 0) continue;
    y.state = (uint8_t)read_state(&t, r, also);
    ARENA_PUSH(w->arena, all->row, all->count, all->cap, y);
  }
}

/* Grains and legumes swell in water; in the oven they would not, so nothing is borrowed for dry heat. */
static bool swells(enum retention_group g) {
  return g == RETAIN_OATMEAL || g == RETAIN_CEREAL || g == RETAIN_PASTA || g == RETAIN_RICE || g == RETAIN_LEGUME;
}

enum { MOST_MEMBERS = 64 };

static size_t members_of(const struct yield_rows *all, enum retention_group g, enum state s, const struct img_yield **out) {
  size_t n = 0;
  for (size_t i = 0; i < all->count && n < MOST_MEMBERS; i++)
    if (all->row[i].group == g && all->row[i].state == s) out[n++] = &all->row[i];
  return n;
}

/* The states to borrow from, nearest first: first the same kind of heat, then the other. */
static size_t borrow(const struct yield_rows *all, enum retention_group g, enum state s, const struct img_yield **out) {
  static const enum state WET[] = {STATE_SIMMERED, STATE_BOILED, STATE_STEAMED};
  static const enum state DRY[] = {STATE_ROASTED, STATE_BAKED, STATE_GRILLED, STATE_PAN_FRIED};
  bool wet_first = is_wet(s);
  if (swells(g) && !is_wet(s) && s != STATE_MICROWAVED && s != STATE_COOKED_OTHER) return 0;
  for (int round = 0; round < 2; round++) {
    bool wet = (round == 0) == wet_first;
    const enum state *from = wet ? WET : DRY;
    for (size_t i = 0; i < (wet ? COUNT_OF(WET) : COUNT_OF(DRY)); i++) {
      size_t n = members_of(all, g, from[i], out);
      if (n) return n;
    }
  }
  return 0;
}

static int by_yield(const void *a, const void *b) {
  float x = (*(const struct img_yield *const *)a)->yield, y = (*(const struct img_yield *const *)b)->yield;
  return (x > y) - (x < y);
}

/* Rows that agree, or a single one, have no spread of their own, and a borrowed one less than none: ten per cent either way,
 * about the half-width of the groups of meat that have several rows. */
static const float WIDEN = 0.10F;

static struct img_yield summary(struct writer *w, enum retention_group g, enum state s, const struct img_yield **member,
                                size_t n, bool borrowed) {
  qsort(member, n, sizeof *member, by_yield);
  const struct img_yield *middle = member[n / 2];
  struct img_yield y = *middle;
  if (n % 2 == 0) y.yield = (member[n / 2 - 1]->yield + member[n / 2]->yield) / 2;
  y.state = (uint8_t)s;
  y.low = member[0]->yield;
  y.high = member[n - 1]->yield;
  if (borrowed || !(y.low < y.high)) y.low *= 1 - WIDEN, y.high *= 1 + WIDEN;
  for (size_t i = 0; i < n; i++)
    if (member[i]->confidence > y.confidence) y.confidence = member[i]->confidence;
  if (borrowed) y.confidence = CONF_MEMORY;
  struct buf b;
  buf_init(&b, w->arena, 200);
  buf_addf(&b, "%s, %s: ", retention_group_word[g], state_word[s]);
  if (borrowed)
    buf_addf(&b, "as %s", state_word[middle->state]);
  else if (n == 1)
    buf_addf(&b, "%s", w->strings.p + middle->words);
  else
    buf_addf(&b, "middle of %zu foods", n);
  y.words = writer_text(w, buf_span(&b));
  return y;
}

/* For each group and state one row stands in front; the rows behind it follow for reading. */
void build_yields(struct writer *w, const char *data_dir) {
  struct yield_rows all = {NULL, 0, 0}, out = {NULL, 0, 0};
  read_yields(w, data_dir, &all);
  for (int g = 0; g < RETAIN_NO_GROUP; g++)
    for (int s = COOKED_FROM; s <= COOKED_TO; s++) {
      const struct img_yield *member[MOST_MEMBERS];
      size_t n = members_of(&all, (enum retention_group)g, (enum state)s, member);
      bool borrowed = n == 0;
      if (borrowed && s != STATE_CANNED && s != STATE_DRIED && s != STATE_FREEZE_DRIED)
        n = borrow(&all, (enum retention_group)g, (enum state)s, member);
      if (n == 0) continue;
      struct img_yield y = summary(w, (enum retention_group)g, (enum state)s, member, n, borrowed);
      ARENA_PUSH(w->arena, out.row, out.count, out.cap, y);
    }
  for (size_t i = 0; i < all.count; i++) ARENA_PUSH(w->arena, out.row, out.count, out.cap, all.row[i]);
  writer_section(w, IMG_YIELDS, out.row, out.count, sizeof *out.row);
}
