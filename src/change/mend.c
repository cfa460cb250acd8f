#include "change/mend.h"
#include "base/table.h"

#include <math.h>

#include "change/mend_search.h"
#include "judge/meal.h"
#include "judge/totals.h"

WORD_TABLE(mend_with_word, MEND_WITH_COUNT, "both", "foods", "supplements");

/* ---- what the person asks ---------------------------------------------------------------------------------------- */

static const double ENERGY_SLACK = 0.05;

bool mend_size_fits(const struct check_result *before) {
  const struct energy_need *need = &before->energy.need;
  double supply = before->energy.supply_kcal;
  if (meal_is_for_loss(before)) return true;
  return supply >= need->low_kcal && supply <= need->high_kcal;
}

/* What is not counted can only add to it. */
static bool is_too_much_without_it(const struct check_result *before) {
  return before->energy.supply_kcal > before->energy.need.kcal && !mend_size_fits(before);
}

bool mend_size_is_known(const struct check_result *before) {
  return !before->energy.beside || is_too_much_without_it(before);
}

/* A line is not changed for the sake of so little (mend_leave.c). */
static const double ENERGY_LEFT = 0.03;

static void widen(struct model_limits *l) {
  l->kept_least = l->energy_least * (1 - ENERGY_LEFT);
  l->kept_most = l->energy_most * (1 + ENERGY_LEFT);
}

/* Of one that is too heavy: no more than it gets, nor back to what would hold the weight, nor below the floor. A bowl of as
 * much as is aimed at may have as much as the high end of what animals lost weight on. */
static void hold_to_loss(struct model_limits *l, const struct check_result *before) {
  const struct animal_body *b = &before->body;
  double supply = before->energy.supply_kcal, need = before->energy.need.kcal;
  bool at_aim = supply >= b->aim_kcal * (1 - ENERGY_SLACK) && supply <= b->aim_high_kcal;
  bool below = supply < b->aim_kcal * (1 - ENERGY_SLACK);
  double most = fmin(at_aim ? b->aim_high_kcal : below ? supply * (1 + ENERGY_SLACK) : supply, need);
  double least = fmin(supply, fmax(b->loss_kcal, supply * (1 - ENERGY_SLACK)));
  l->energy_most = l->kept_most = most;
  l->energy_least = l->kept_least = least;
}

struct model_limits mend_limits(const struct library *lib, const struct check_result *before) {
  const struct energy_need *need = &before->energy.need;
  double supply = before->energy.supply_kcal;
  bool fits = mend_size_fits(before), known = mend_size_is_known(before);
  struct model_limits l = model_limits_around(fits || !known ? supply : need->kcal, ENERGY_SLACK);
  l.past_cautious = l.mannerly = true;
  /* Nothing of a bowl below the need has to make room for what is added; without what is not counted it is enough then. */
  if (!known || fits) l.energy_most = fmax(l.energy_most, need->kcal);
  widen(&l);
  if (before->body.aim_kcal > 0 && (meal_is_for_loss(before) || (!known && supply < need->kcal))) {
    hold_to_loss(&l, before);
    return l;
  }
  if (!known) return l;
  /* A bowl of a usual size stays one: mended again it is left alone. */
  double least = fmin(need->low_kcal, fits ? supply : INFINITY), most = need->high_kcal;
  /* Nor does it pass the mark at which the review would say that it is rich or poor, where it did not before. */
  double rich = need->kcal * model_advised(lib, "energy-high"), poor = need->kcal * model_advised(lib, "energy-low");
  if (!(fits && supply > rich)) most = fmin(most, rich);
  if (!(fits && supply < poor)) least = fmax(least, poor);
  l.energy_least = fmax(l.energy_least, least);
  l.energy_most = fmin(l.energy_most, most);
  l.kept_least = fmax(l.kept_least, least);
  l.kept_most = fmin(l.kept_most, most);
  return l;
}

bool mend_is_below_need(const struct check_result *after) {
  static const double CLOSE = 0.05;
  return after && after->energy.supply_kcal < after->energy.need.kcal * (1 - CLOSE);
}

bool mend_is_a_dinner(const struct check_result *before) {
  /* Of less nothing would be left recognisable; and what nobody knows the energy of cannot be given a size. */
  return !before->energy.in_part && !meal_is_unread(before) && before->energy.supply_kcal >= meal_least_kcal(before);
}

/* ---- from amounts to proposals ----------------------------------------------------------------------------------- */

static double amount_of_line(const struct mend_search *s, size_t line, const double *x) {
  double g = s->start[line];
  for (size_t j = 0; j < s->columns; j++)
    if (s->column[j].line == (int)line) g += s->column[j].sign * x[j];
  return g > 1e-9 ? g : 0;
}

static double before_of_line(const struct mend_search *s, size_t line) {
  return ration_line_grams_per_day(&s->q->ration->line[line]);
}

/* The column of a change, for the question what it repairs; -1 when it was no choice. */
static int column_of_change(const struct mend_search *s, const struct mend_change *c, const double *x) {
  for (size_t j = 0; j < s->columns; j++) {
    bool same = c->line >= 0 ? s->column[j].line == c->line : s->column[j].line < 0 && s->column[j].offer == c->offer;
    if (same && x[j] > 0) return (int)j;
  }
  return -1;
}

/* -1 below 1 to 1, 1 above 2 to 1; 0 between, or not known. */
static int ratio_side(const struct check_result *r) { return r->balance.ca_p < 1 ? -1 : r->balance.ca_p > 2 ? 1 : 0; }

/* The same for any run of as many days as calcium is judged over. */
static int ratio_side_of_days(const struct mend_search *s, const struct check_result *r, struct arena *scratch) {
  const struct totals *t = totals_gather(s->lib, r->ration, 0, scratch);
  double ca[CALENDAR_DAYS], ph[CALENDAR_DAYS];
  totals_series(t, NUT_CALCIUM, ca);
  totals_series(t, NUT_PHOSPHORUS, ph);
  for (int first = 0; first < CALENDAR_DAYS; first++) {
    double a = 0, b = 0;
    for (int k = 0; k < r->nutrient[NUT_CALCIUM].window_days; k++) {
      a += ca[(first + k) % CALENDAR_DAYS];
      b += ph[(first + k) % CALENDAR_DAYS];
    }
    if (a < b || a > 2 * b) return a < b ? -1 : 1;
  }
  return 0;
}

/* Is there too much of it, rather than too little? */
static bool is_too_much(const struct nutrient_result *n) {
  bool firm = n->upper > 0 && !n->upper_greater_than;
  return n->verdict == VERDICT_OVER || n->highest_day_over || (firm && n->window_high > n->upper) || n->near_upper;
}

/* How far a nutrient is off, as a share of what it should be. */
static double miss_of(const struct nutrient_result *n) {
  double low = n->allowance > 0 ? 1 - known_part(n->window_amount) / n->allowance : 0;
  double high = n->upper > 0 && !n->upper_greater_than ? known_part(n->window_high) / n->upper - 1 : 0;
  return fmax(low, high);
}

/* Too little first, then too much; of each the largest miss first. */
static void put_repair(struct mend_change *c, double *loss, enum nutrient n, double by, bool too_much) {
  size_t first = too_much ? (size_t)c->too_much_from : 0, at = too_much ? c->repair_count : (size_t)c->too_much_from;
  memmove(loss + at + 1, loss + at, (c->repair_count - at) * sizeof *loss);
  memmove(c->repairs + at + 1, c->repairs + at, (c->repair_count - at) * sizeof *c->repairs);
  for (; at > first && by > loss[at - 1]; at--) {
    loss[at] = loss[at - 1];
    c->repairs[at] = c->repairs[at - 1];
  }
  loss[at] = by;
  c->repairs[at] = n;
  c->repair_count++;
  c->too_much_from += !too_much;
}

/* A nutrient is named as a reason only when what is added supplies a tenth of the need; of what is taken away, when that
 * alone would be a tenth of the limit. */
static const double WORTH_NAMING = 0.1;

static bool worth_naming(const struct nutrient_result *with, const struct nutrient_result *without, bool too_much) {
  double by = with->amount - without->amount, of = too_much ? without->upper : without->allowance;
  return !(of > 0) || fabs(by) >= WORTH_NAMING * of || with->adjusted;
}

/* Of what the bowl lacks before anything is changed, what this change supplies the largest part of. */
static enum nutrient helps_with(const struct mend_search *s, const struct check_result *with,
                                const struct check_result *without) {
  enum nutrient best = NUT_NONE;
  double most = 0;
  for (int n = 0; n < NUT_COUNT; n++) {
    const struct nutrient_result *was = &s->before->nutrient[n];
    double by = (with->nutrient[n].amount - without->nutrient[n].amount) / was->allowance;
    if (model_keeps_nutrient(s->p, 0, (enum nutrient)n, s->before) || !(was->allowance > 0) || !(by > most)) continue;
    most = by;
    best = (enum nutrient)n;
  }
  return best;
}

/* The ration with this one change taken back: what then fails is what the change is for. */
static void give_reasons(struct mend_search *s, struct mend_change *c, const double *x, const struct check_result *after,
                         struct arena *arena) {
  int col = column_of_change(s, c, x);
  c->repairs = ARENA_NEW(arena, enum nutrient, NUT_COUNT + 1);
  c->helps = NUT_NONE;
  if (col < 0) return;
  struct arena scratch;
  arena_init(&scratch, arena->on_full);
  double *without = ARENA_NEW(&scratch, double, s->columns);
  memcpy(without, x, s->columns * sizeof *without);
  without[col] = 0;
  const struct check_result *r = model_judge(s->p, 0, without, &scratch);
  double loss[NUT_COUNT + 1];
  for (int n = 0; n < NUT_COUNT; n++) {
    if (!model_keeps_nutrient(s->p, 0, (enum nutrient)n, after) || model_keeps_nutrient(s->p, 0, (enum nutrient)n, r))
      continue;
    bool too_much = is_too_much(&r->nutrient[n]);
    if (!worth_naming(&after->nutrient[n], &r->nutrient[n], too_much)) continue;
    put_repair(c, loss, (enum nutrient)n, miss_of(&r->nutrient[n]), too_much);
  }
  if (c->repair_count == 0) c->helps = helps_with(s, after, r);
  double kcal = r->energy.supply_kcal;
  if (!model_energy_kept(&s->q->limits, kcal)) c->energy = kcal < s->q->limits.energy_least ? -1 : 1;
  c->balance = ratio_side(after) == 0 ? ratio_side(r) : 0;
  if (c->balance == 0 && ratio_side_of_days(s, after, &scratch) == 0) c->balance = ratio_side_of_days(s, r, &scratch);
  arena_free(&scratch);
}

/* ---- in which order ------------------------------------------------------------------------------------------------ */

/* How much of a bowl is in order: whole nutrients, and parts of those that are not. */
struct order_score {
  int kept;
  double misses;
};

static struct order_score score_of(struct mend_search *s, const double *x, struct arena *arena) {
  struct arena scratch;
  struct order_score out = {0, 0};
  arena_init(&scratch, arena->on_full);
  const struct check_result *r = model_judge(s->p, 0, x, &scratch);
  for (int n = 0; n < NUT_COUNT; n++) {
    bool kept = model_keeps_nutrient(s->p, 0, (enum nutrient)n, r);
    out.kept += kept;
    if (!kept) out.misses += fmin(1, fmax(0, miss_of(&r->nutrient[n])));
  }
  double ratio = r->balance.ca_p;
  if (ratio < 1 || ratio > 2) out.misses += ratio < 1 ? 1 - ratio : fmin(1, ratio - 2);
  arena_free(&scratch);
  return out;
}

static bool covers_more(struct order_score a, struct order_score b) {
  return a.kept != b.kept ? a.kept > b.kept : a.misses < b.misses - 1e-9;
}

/* Each change in its turn is the one that puts most of what is left in order. 'x' [columns] grows by the changes taken. */
static void put_in_order(struct mend_search *s, struct mend_change *c, size_t count, const double *all, double *x,
                         struct arena *arena) {
  for (size_t k = 0; k < count; k++) {
    size_t best = k;
    struct order_score most = {-1, INFINITY};
    for (size_t i = k; i < count; i++) {
      int col = column_of_change(s, &c[i], all);
      if (col < 0) { /* what is dangerous goes out first */
        best = i;
        most = score_of(s, x, arena);
        break;
      }
      x[col] = all[col];
      struct order_score now = score_of(s, x, arena);
      x[col] = 0;
      if (covers_more(now, most)) {
        most = now;
        best = i;
      }
    }
    struct mend_change taken = c[best];
    memmove(c + k + 1, c + k, (best - k) * sizeof *c);
    taken.covered = most.kept;
    c[k] = taken;
    int col = column_of_change(s, &taken, all);
    if (col >= 0) x[col] = all[col];
  }
}

static bool moved(double from, double to) { return fabs(to - from) > 1e-7 * fmax(1e-3, fmax(from, to)); }

static void add_changes(struct mend_search *s, const double *x, struct mend_change *c, size_t *count) {
  for (size_t i = 0; i < s->q->ration->line_count; i++) {
    double from = before_of_line(s, i), to = amount_of_line(s, i, x);
    if (moved(from, to))
      c[(*count)++] = (struct mend_change){.line = (int)i,
                                           .offer = -1,
                                           .from_g = from,
                                           .to_g = to,
                                           .danger = s->danger[i],
                                           .unmeasured = mend_unmeasured(s->lib, &s->q->ration->line[i], s->before),
                                           .rich = mend_rich_dose(s->lib, &s->q->ration->line[i], s->before),
                                           .overdose = mend_overdose(s->lib, &s->q->ration->line[i], s->before)};
  }
  for (size_t j = 0; j < s->columns; j++)
    if (s->column[j].line < 0 && moved(0, x[j]))
      c[(*count)++] = (struct mend_change){.line = -1, .offer = s->column[j].offer, .from_g = 0, .to_g = x[j]};
}

/* The ceiling that a change passes; NaN: none. */
static double passed_ceiling(const struct mend_search *s, const struct mend_change *c, const double *x) {
  int col = column_of_change(s, c, x);
  if (col < 0) return NAN;
  const struct mend_column *of = &s->column[col];
  double most = mend_within_reach(s, (size_t)col, 0);
  if (!(x[col] > most * (1 + 1e-6))) return NAN;
  return of->line < 0 ? most : fmax(0, s->start[of->line] + of->sign * most);
}

static void add_reasons(struct mend_search *s, const double *x, struct mend_change *c, struct mend_proposal *p,
                        struct arena *arena) {
  double *steps = ARENA_NEW(arena, double, s->columns);
  for (size_t i = 0; i < p->count; i++) {
    give_reasons(s, &c[i], x, p->after, arena);
    c[i].usual_most = passed_ceiling(s, &c[i], x);
  }
  p->covered_first = score_of(s, steps, arena).kept;
  put_in_order(s, c, p->count, x, steps, arena);
  p->open = score_of(s, x, arena).kept - p->covered_first;
  for (size_t i = 0; i < p->count; i++) c[i].covered -= p->covered_first;
}

/* Only the first steps: what they leave open is left open. */
static void cut_to_steps(struct mend_search *s, const double *x, struct mend_proposal *p, struct arena *arena) {
  if (s->q->steps <= 0 || (size_t)s->q->steps >= p->count) return;
  double *some = ARENA_NEW(arena, double, s->columns);
  p->count = (size_t)s->q->steps;
  p->partial = true;
  for (size_t i = 0; i < p->count; i++) {
    int col = column_of_change(s, &p->change[i], x);
    if (col >= 0) some[col] = x[col];
  }
  p->ration = model_ration(s->p, 0, some, NULL, arena);
  p->after = check_numbers(s->lib, p->ration, s->q->animal, &s->q->options, arena);
}

static void fill_proposal(struct mend_search *s, const struct mend_choice *choice, bool with_reasons,
                          struct mend_proposal *out, struct arena *arena) {
  struct mend_change *c = ARENA_NEW(arena, struct mend_change, s->q->ration->line_count + s->columns);
  size_t count = 0;
  add_changes(s, choice->x, c, &count);
  int out_first = 0; /* lines that went out before any choice */
  for (size_t i = 0; i < count; i++) {
    out_first += c[i].danger;
    c[i].usual_most = NAN;
  }
  *out = (struct mend_proposal){.change = c,
                                .count = count,
                                .ration = model_ration(s->p, 0, choice->x, NULL, arena),
                                .cost = choice->cost,
                                .fewest = choice->fewest + out_first,
                                .fewest_proven = (int)count <= choice->fewest + out_first,
                                .least_proven = choice->least_proven,
                                .left = choice->left,
                                .one_more = choice->one_more,
                                .rather = choice->rather,
                                .rounded = choice->rounded,
                                .reach = mend_reach(choice->reach),
                                .at_hand = choice->at_hand,
                                .with = choice->with};
  if (out->left.lines > 0) {
    out->left.of += out_first;
    out->left.fewest += out_first;
  }
  out->after = check_numbers(s->lib, out->ration, s->q->animal, &s->q->options, arena);
  if (!with_reasons) return;
  add_reasons(s, choice->x, c, out, arena);
  cut_to_steps(s, choice->x, out, arena);
}

/* ---- when nothing is found ---------------------------------------------------------------------------------------- */

enum { HELPS = 6 };

/* After a search that was stopped only the nearest is told: what stands in the way is not known. */
static void explain(struct mend_search *s, struct mend_result *out, struct arena *arena) {
  model_manners(s->p, false);
  struct lp_limits limits = {.go_on = s->q->go_on, .user = s->q->user};
  if (!out->stopped) out->conflict = model_conflict(s->p, &limits, arena);
  struct model_nearest near = model_nearest(s->p, false, NULL, arena);
  if (!near.has_x) return;
  struct model_nearest shown = mend_nearest(s, arena);
  struct mend_choice choice = {.x = shown.has_x ? shown.x : near.x, .cost = NAN};
  struct mend_proposal *p = ARENA_NEW(arena, struct mend_proposal, 1);
  mend_search_round_freely(s, &choice);
  fill_proposal(s, &choice, false, p, arena);
  out->nearest = p;
  if (out->stopped) return;
  struct model_help *list = ARENA_NEW(arena, struct model_help, HELPS);
  model_heed(s->p, s->q->ration);
  out->help = model_would_help(s->p, (const double[]){1}, &near, &limits, list, HELPS, arena);
}

/* ---- all of it ----------------------------------------------------------------------------------------------------- */

static bool nothing_to_do(const struct mend_search *s) {
  for (size_t i = 0; i < s->q->ration->line_count; i++)
    if (s->danger[i]) return false;
  return s->q->ration->line_count > 0 && model_keeps(s->p, 0, s->before);
}

/* What is not counted is eaten beside every bowl that is tried, though none of them holds it: figures per 1000 kcal are
 * those of the need for all of them, as they are for what the owner feeds. */
static const struct mend_request *beside_the_rest(const struct mend_request *q, const struct check_result *before,
                                                  struct arena *arena) {
  bool stays = before->energy.beside && isinf(before->uncounted_most[NUT_ENERGY]);
  if (!stays || before->energy.supply_kcal > before->energy.need.kcal) return q;
  struct mend_request *with = ARENA_NEW(arena, struct mend_request, 1);
  *with = *q;
  with->options.meal_kcal = before->energy.need.kcal;
  return with;
}

const struct mend_result *mend(const struct library *lib, const struct mend_request *asked, struct arena *arena) {
  struct mend_result *out = ARENA_NEW(arena, struct mend_result, 1);
  out->before = check_numbers(lib, asked->ration, asked->animal, &asked->options, arena);
  const struct mend_request *q = beside_the_rest(asked, out->before, arena);
  if (!q->animal || out->before->refusal != REFUSE_NOT) {
    out->status = MEND_REFUSED;
    return out;
  }
  if (!mend_is_a_dinner(out->before)) {
    out->status = MEND_NONE;
    return out;
  }
  struct mend_search s;
  if (!mend_search_begin(&s, lib, q, out->before, arena)) {
    out->status = MEND_NOT_LINEAR;
    return out;
  }
  if (nothing_to_do(&s)) {
    out->already_met = true;
    out->status = MEND_FOUND;
    return out;
  }
  size_t most = q->proposals > 1 ? (size_t)q->proposals : 1;
  struct mend_choice *choice = ARENA_NEW(arena, struct mend_choice, most + MEND_WITH_COUNT);
  size_t found = mend_search_run(&s, choice, most, &out->proven);
  struct mend_proposal *p = ARENA_NEW(arena, struct mend_proposal, found > 0 ? found : 1);
  for (size_t i = 0; i < found; i++) fill_proposal(&s, &choice[i], true, &p[i], arena);
  out->proposal = p;
  out->proposals = found;
  out->stopped = s.stopped;
  out->status = found > 0 ? MEND_FOUND : s.stopped ? MEND_STOPPED : MEND_NONE;
  out->proven = out->proven && out->status == MEND_NONE;
  if (found == 0) explain(&s, out, arena);
  return out;
}
