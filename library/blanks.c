/* blanks.c: what a published record leaves blank, estimated from the raw record of the same food, or from plain records of
 * the same class, kind and state. */
#include <math.h>
#include <stdlib.h>

#include "library/patterns.h"

enum { LEAST_RECORDS = 6 };
static const double WIDEST_BLANK_ERROR = 0.6; /* wider than that, "unknown" is the truer word */

enum preparation { PREP_RAW, PREP_COOKED, PREP_CANNED, PREP_DRIED, PREP_AS_SOLD, PREP_COUNT };
static const char *const PREPARATION_WORD[PREP_COUNT] = {"raw", "cooked", "canned", "dried", "as sold"};

static enum preparation preparation_of(const struct build_food *f) {
  enum state s = (enum state)f->food.state;
  if (s == STATE_RAW) return PREP_RAW;
  if (s == STATE_CANNED) return PREP_CANNED;
  if (s == STATE_DRIED || s == STATE_FREEZE_DRIED) return PREP_DRIED;
  return state_is_cooked(s) ? PREP_COOKED : PREP_AS_SOLD;
}

/* Iodine, chloride, taurine and biotin are no columns of the large table: cited.c looks after them. */
bool blanks_is_estimated(enum nutrient n) {
  static const enum nutrient OTHERS[] = {NUT_VITAMIN_A, NUT_IODINE, NUT_CHLORIDE, NUT_BIOTIN};
  for (size_t i = 0; i < COUNT_OF(OTHERS); i++)
    if (OTHERS[i] == n) return false;
  enum nutrient_group g = nutrient_info[n].group;
  bool fat_kind = n == NUT_SATURATED || n == NUT_MONOUNSATURATED || n == NUT_POLYUNSATURATED || n == NUT_CHOLESTEROL;
  return g == NG_MINERAL || g == NG_TRACE || g == NG_VITAMIN || g == NG_OTHER || fat_kind || n == NUT_ASH;
}

bool blanks_is_plain(const struct build_food *f) {
  return (f->food.flags & FOOD_PLAIN) &&
         !(f->food.flags & (FOOD_BRAND | FOOD_DISH | FOOD_ENRICHED | FOOD_SALTED | FOOD_BONE | FOOD_OWN));
}

struct cell { /* foods that may stand for one another */
  int class, kind;
  enum preparation preparation;
};

static bool is_in_cell(const struct cell *c, int class, const struct build_food *f) {
  return class == c->class && f->food.kind == c->kind && preparation_of(f) == c->preparation && blanks_is_plain(f);
}

struct blank_fit {
  enum nutrient base; /* NUT_NONE: per 100 g of food */
  double ratio, error;
  size_t records;
};

static double base_amount(const struct build_food *f, enum nutrient base) {
  if (base == NUT_NONE) return 1;
  return f->value[base].status == VALUE_MEASURED ? (double)f->value[base].mean : NAN;
}

static struct blank_fit fit_base(struct build_food *const *member, size_t members, enum nutrient n, enum nutrient base,
                                 struct ratio_set *set) {
  set->count = 0;
  for (size_t i = 0; i < members; i++) {
    double amount = base_amount(member[i], base);
    if (member[i]->value[n].status == VALUE_MEASURED && amount > 0)
      ratio_add(set, (int)i, (double)member[i]->value[n].mean / amount);
  }
  return (struct blank_fit){base, ratio_mean(set), ratio_error(set, set), set->count};
}

static void fill_nutrient(struct foods_build *b, const struct pattern_classes *p, const struct cell *c,
                          struct build_food *const *member, size_t members, enum nutrient n, struct ratio_set *set,
                          struct pattern_rows *rows, uint16_t source) {
  static const enum nutrient BASE[] = {NUT_NONE, NUT_PROTEIN, NUT_FAT};
  struct blank_fit best = {.error = INFINITY};
  size_t blanks = 0;
  for (size_t i = 0; i < members; i++) blanks += member[i]->value[n].status == VALUE_UNKNOWN;
  if (blanks == 0 || members < LEAST_RECORDS) return;
  for (size_t i = 0; i < COUNT_OF(BASE); i++) {
    struct blank_fit fit = fit_base(member, members, n, BASE[i], set);
    if (fit.records >= LEAST_RECORDS && fit.error < best.error) best = fit;
  }
  if (!(best.error < WIDEST_BLANK_ERROR)) return;
  uint32_t applied = 0;
  for (size_t i = 0; i < members; i++) {
    double amount = best.ratio * base_amount(member[i], best.base);
    if (member[i]->value[n].status != VALUE_UNKNOWN || !(amount >= 0)) continue;
    foods_set(member[i], n, amount, VALUE_ESTIMATED, best.error, source);
    applied++;
  }
  if (applied == 0) return;
  struct buf name;
  buf_init(&name, b->arena, 200);
  buf_addf(&name, "%s, %s, %s", p->class[c->class].name, kind_word[c->kind], PREPARATION_WORD[c->preparation]);
  struct img_pattern row = {writer_textz(b->w, buf_text(&name)),
                            (uint32_t)n,
                            (float)best.ratio,
                            (uint32_t)best.base,
                            (float)best.error,
                            (uint32_t)best.records,
                            applied};
  ARENA_PUSH(b->arena, rows->row, rows->count, rows->cap, row);
}

static void fill_cell(struct foods_build *b, const struct pattern_classes *p, const struct cell *c,
                      struct build_food **member, struct ratio_set *set, struct pattern_rows *rows, uint16_t source) {
  size_t members = 0;
  for (size_t i = 0; i < b->count; i++)
    if (is_in_cell(c, p->of_food[i], &b->food[i])) member[members++] = &b->food[i];
  for (int n = 0; n < NUT_COUNT; n++)
    if (blanks_is_estimated((enum nutrient)n)) fill_nutrient(b, p, c, member, members, (enum nutrient)n, set, rows, source);
}

/* ---- cooked by way of raw ---------------------------------------------------------------------------------------- */

static double dry_matter(const struct build_food *f) {
  return f->value[NUT_WATER].status == VALUE_MEASURED ? 100 - (double)f->value[NUT_WATER].mean : NAN;
}

/* What a cooked record would hold if all of the nutrient stayed with the dry matter; NaN when that cannot be said. */
static double carried_over(const struct foods_build *b, const struct build_food *f, enum nutrient n) {
  if (f->food.raw_form == NO_INDEX || !blanks_is_plain(f) || !state_is_cooked((enum state)f->food.state)) return NAN;
  const struct build_food *raw = &b->food[f->food.raw_form];
  return raw->value[n].status == VALUE_MEASURED ? (double)raw->value[n].mean * dry_matter(f) / dry_matter(raw) : NAN;
}

/* The share that stays is learnt, nutrient by nutrient, from the pairs where both the raw and the cooked record are
 * published, within one part of the bowl; its error is found by leaving each pair out. */
static void fill_from_raw(struct foods_build *b, enum part part, enum nutrient n, struct ratio_set *set,
                          struct pattern_rows *rows, uint16_t source) {
  uint32_t applied = 0;
  set->count = 0;
  for (size_t i = 0; i < b->count; i++) {
    struct build_food *f = &b->food[i];
    double whole = f->food.part == part ? carried_over(b, f, n) : NAN;
    if (whole > 0 && f->value[n].status == VALUE_MEASURED) ratio_add(set, (int)i, (double)f->value[n].mean / whole);
  }
  double kept = ratio_mean(set), error = ratio_error(set, set);
  if (set->count < LEAST_RECORDS || !(error < WIDEST_BLANK_ERROR)) return;
  for (size_t i = 0; i < b->count; i++) {
    struct build_food *f = &b->food[i];
    double whole = f->food.part == part ? carried_over(b, f, n) : NAN;
    if (!(whole >= 0) || f->value[n].status != VALUE_UNKNOWN) continue;
    foods_set(f, n, kept * whole, VALUE_ESTIMATED, error, source);
    applied++;
  }
  if (applied == 0) return;
  struct buf name;
  buf_init(&name, b->arena, 200);
  buf_addf(&name, "%s, cooked, from its raw form by dry matter", part_word[part]);
  struct img_pattern row = {
      writer_textz(b->w, buf_text(&name)), (uint32_t)n, (float)kept, NUT_NONE, (float)error, (uint32_t)set->count, applied};
  ARENA_PUSH(b->arena, rows->row, rows->count, rows->cap, row);
}

void fill_blanks(struct foods_build *b, const struct pattern_classes *p, struct pattern_rows *rows, uint16_t source) {
  struct build_food **member = ARENA_NEW(b->arena, struct build_food *, b->count);
  struct ratio_set set = {ARENA_NEW(b->arena, struct ratio_group, b->count), 0};
  for (int part = 0; part < PART_COUNT; part++)
    for (int n = 0; n < NUT_COUNT; n++)
      if (blanks_is_estimated((enum nutrient)n)) fill_from_raw(b, (enum part)part, (enum nutrient)n, &set, rows, source);
  size_t cells = (size_t)p->count * KIND_COUNT * PREP_COUNT;
  bool *seen = ARENA_NEW(b->arena, bool, cells);
  for (size_t i = 0; i < b->count; i++) {
    const struct build_food *f = &b->food[i];
    if (p->of_food[i] < 0 || !blanks_is_plain(f)) continue;
    struct cell c = {p->of_food[i], f->food.kind, preparation_of(f)};
    size_t at = ((size_t)c.class * KIND_COUNT + (size_t)c.kind) * PREP_COUNT + c.preparation;
    if (!seen[at]) fill_cell(b, p, &c, member, &set, rows, source);
    seen[at] = true;
  }
}
