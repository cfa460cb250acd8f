/* mend_rather.c: a food rather than a pill, where it does the same.
 *
 * Fewest lines come first (mend_few.c), and there a capsule of choline is one line, while an egg is two: the meat has to
 * make room for its energy. Whoever feeds sees that the other way round. So, once the few are found, each pill is put
 * against the foods that supply what the bowl lacks without it: a new food counts twice as much as a line of the owner's
 * that changes, a pill three times. What then can go, goes. */
#include <math.h>

#include "change/mend_search.h"

enum { OWN_COUNTS = 1, FOOD_COUNTS = 2, PILL_COUNTS = 3 };
enum { LINES_FEW = 7 };    /* with more than that nobody wants a line more, be it a food */
enum { SPARED_LEAST = 2 }; /* lines, for a new main food */
static const double MORE_ROOM = 0.15;  /* of the owner's main foods, for all foods in place of pills */
static const double HELPS_LEAST = 0.5; /* of what is lacking without the pill, at the food's usual most */

static int effort(const struct mend_search *s, const double *x) {
  int sum = 0;
  for (size_t j = 0; j < s->columns; j++)
    if (mend_in_use(s, j, x[j])) sum += s->column[j].line >= 0 ? OWN_COUNTS : s->column[j].pill ? PILL_COUNTS : FOOD_COUNTS;
  return sum;
}

static int lines_of(const struct mend_search *s, const double *x) {
  int n = 0;
  for (size_t j = 0; j < s->columns; j++) n += mend_in_use(s, j, x[j]);
  return n;
}

/* Pills and feedings of pills a day. */
static double pills(const struct mend_search *s, const double *x) {
  double sum = 0;
  for (size_t j = 0; j < s->columns; j++)
    if (s->column[j].pill && mend_in_use(s, j, x[j])) sum += x[j] / s->column[j].whole;
  return sum;
}

/* Of as much effort the one with fewer pills, and then the one that costs less. */
static bool is_less(const struct mend_search *s, const struct mend_choice *a, const struct mend_choice *b) {
  int m = effort(s, a->x), n = effort(s, b->x);
  double p = pills(s, a->x), q = pills(s, b->x);
  return m != n ? m < n : fabs(p - q) > 1e-6 ? p < q : a->cost < b->cost * (1 - 1e-3);
}

/* What is missing of each nutrient without a column, by the judge; 0: nothing. */
static void lacking_without(struct mend_search *s, const double *x, size_t column, double *gap) {
  struct arena scratch;
  arena_init(&scratch, s->arena->on_full);
  double *without = ARENA_NEW(&scratch, double, s->columns);
  memcpy(without, x, s->columns * sizeof *without);
  without[column] = 0;
  const struct check_result *r = model_judge(s->p, 0, without, &scratch);
  for (int n = 0; n < NUT_COUNT; n++) {
    const struct nutrient_result *of = &r->nutrient[n];
    double have = isnan(of->window_amount) ? 0 : of->window_amount;
    bool kept = model_keeps_nutrient(s->p, 0, (enum nutrient)n, r);
    gap[n] = kept || !(of->allowance > have) ? 0 : of->allowance - have;
  }
  arena_free(&scratch);
}

static uint32_t food_of(const struct mend_search *s, const struct mend_column *c) {
  return c->line >= 0 ? s->q->ration->line[c->line].shown_food : s->q->offer[c->offer].food.line.shown_food;
}

/* Does a food, or more of a line of the owner's, supply half at least of each thing that is lacking? */
static bool may_stand_in(const struct mend_search *s, size_t j, const double *gap) {
  const struct mend_column *c = &s->column[j];
  const struct img_value *v = library_values(s->lib, food_of(s, c));
  bool any = false;
  if (c->pill || c->sign < 0) return false;
  for (int n = 0; n < NUT_COUNT; n++) {
    double brings = v[n].status == VALUE_UNKNOWN ? 0 : (double)v[n].mean / 100 * c->usual;
    if (gap[n] > 0 && brings < HELPS_LEAST * gap[n]) return false;
    any |= gap[n] > 0;
  }
  return any;
}

/* What share of the owner's main foods goes. */
double mend_main_lost(const struct mend_search *s, const double *x) {
  double lost = 0, all = 0;
  for (size_t j = 0; j < s->columns; j++) {
    if (s->column[j].sign >= 0 || !s->column[j].main) continue;
    all += s->column[j].most;
    if (mend_in_use(s, j, x[j])) lost += x[j];
  }
  return all > 0 ? lost / all : 0;
}

static const double ALL_OF_IT = 1 - 1e-6, MORE_THAN_HALF = 0.5 + 1e-6;

/* Does so large a part of a food of the owner's go, of which less goes in the other? */
static bool takes_out(const struct mend_search *s, double part, const double *x, const double *other) {
  for (size_t j = 0; j < s->columns; j++) {
    double most = s->column[j].most * part;
    if (s->column[j].line >= 0 && s->column[j].sign < 0 && x[j] >= most && other[j] < most) return true;
  }
  return false;
}

static bool is_flesh(const struct mend_search *s, size_t j) {
  const struct img_food *f = library_food(s->lib, food_of(s, &s->column[j]));
  return f && f->part == PART_MUSCLE;
}

/* The owner's largest food makes room for what is added: of what is no flesh, or of flesh. [columns]: there is none. */
static size_t room_maker(const struct mend_search *s, bool flesh) {
  size_t best = s->columns;
  for (size_t j = 0; j < s->columns; j++)
    if (s->column[j].sign < 0 && s->column[j].main && is_flesh(s, j) == flesh &&
        (best == s->columns || s->column[j].most > s->column[best].most))
      best = j;
  return best;
}

/* 'c' without each of its columns in turn, as long as that is possible. */
static void let_go(struct mend_search *s, struct mend_choice *c) {
  bool *in = ARENA_NEW(s->arena, bool, s->columns), none;
  mend_lines_in_use(s, c->x, in);
  for (size_t j = s->columns; j-- > 0 && mend_go_on(s);) {
    struct mend_choice less = *c;
    if (!in[j]) continue;
    in[j] = false;
    if (mend_within(s, in, GRAIN_LEAST, 1, &less, &none) && is_less(s, &less, c) && !takes_out(s, ALL_OF_IT, less.x, c->x)) *c = less;
    mend_lines_in_use(s, c->x, in);
  }
}

/* The choice with column 'j' in the place of a pill: starch makes room for it before meat does, and both where one will not do.
 * False: there is none. */
static bool with_room(struct mend_search *s, size_t pill, size_t j, const struct mend_choice *c, struct mend_choice *other) {
  enum { STARCH = 1, FLESH = 2, BOTH = STARCH | FLESH };
  bool *in = ARENA_NEW(s->arena, bool, s->columns), none;
  const size_t room[] = {room_maker(s, false), room_maker(s, true)};
  for (int of = STARCH; of <= BOTH; of++) {
    *other = *c;
    mend_lines_in_use(s, c->x, in);
    in[pill] = false;
    in[j] = true;
    for (int k = 0; k < 2; k++)
      if ((of & (1 << k)) && room[k] < s->columns) in[room[k]] = true;
    if (!mend_kin_clash(s, in) && mend_within(s, in, GRAIN_LEAST, 1, other, &none)) return true;
  }
  return false;
}

/* The best choice with a food in the place of a pill; false: there is none that is less. */
static bool instead_of(struct mend_search *s, size_t pill, double lost_most, struct mend_choice *c) {
  double gap[NUT_COUNT];
  bool found = false;
  struct mend_choice best = *c;
  lacking_without(s, c->x, pill, gap);
  for (size_t j = 0; j < s->columns && mend_go_on(s); j++) {
    struct mend_choice other;
    if (mend_in_use(s, j, c->x[j]) || !may_stand_in(s, j, gap) || !with_room(s, pill, j, c, &other)) continue;
    if (!is_less(s, &other, &best) || mend_main_lost(s, other.x) > lost_most ||
        takes_out(s, ALL_OF_IT, other.x, c->x))
      continue;
    best = other;
    found = true;
  }
  if (found) *c = best;
  return found;
}

bool mend_adds_main(const struct mend_search *s, const double *x) {
  for (size_t j = 0; j < s->columns; j++)
    if (s->column[j].line < 0 && mend_in_use(s, j, x[j]) && mend_is_as_main(s, x[j])) return true;
  return false;
}

/* Foods alone, where they are no more trouble to whoever feeds, in portions as usual, and leave as much of the dinner: 300 g
 * of cod a day for its iodine are another one, unless with them two lines or more are spared. */
bool mend_foods_come_first(const struct mend_search *s, const struct mend_choice *both, const struct mend_choice *foods) {
  int last_usual = 2; /* a step of mend_reach(): from the next on portions are stretched */
  if (foods->reach > last_usual || foods->one_more || !foods->rounded) return false;
  if (takes_out(s, MORE_THAN_HALF, foods->x, both->x)) return false;
  bool spares = lines_of(s, foods->x) + SPARED_LEAST <= lines_of(s, both->x);
  if (mend_adds_main(s, foods->x) && !mend_adds_main(s, both->x) && !spares) return false;
  return pills(s, both->x) > 0 && effort(s, foods->x) <= effort(s, both->x);
}

bool mend_rather_food(struct mend_search *s, struct mend_choice *c) {
  bool any = false;
  double lost_most = mend_main_lost(s, c->x) + MORE_ROOM;
  for (size_t j = 0; j < s->columns && mend_go_on(s); j++) {
    struct mend_choice other = *c;
    if (!s->column[j].pill || !mend_in_use(s, j, c->x[j]) || !instead_of(s, j, lost_most, &other)) continue;
    let_go(s, &other);
    if (lines_of(s, other.x) > fmax(LINES_FEW, lines_of(s, c->x))) continue;
    *c = other;
    any = true;
  }
  if (any) c->least_proven = false;
  c->rather = any;
  return any;
}
