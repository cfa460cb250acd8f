#include "change/mend.h"

#include <math.h>

#include "change/mend_search.h"

/* ---- what the person asks ---------------------------------------------------------------------------------------- */

static const double ENERGY_SLACK = 0.05;

struct model_limits mend_limits(const struct check_result *before) {
  const struct energy_need *need = &before->energy.need;
  double supply = before->energy.supply_kcal;
  bool usual = supply >= need->low_kcal && supply <= need->high_kcal;
  return model_limits_around(usual ? supply : need->kcal, ENERGY_SLACK);
}

bool mend_dangerous(const struct library *lib, const struct ration_line *l, enum species s) {
  if (l->cooked_bone) return true;
  const struct img_food *f = library_food(lib, l->shown_food);
  if (!f || f->hazard >= img_count(&lib->image, IMG_HAZARDS) || !(l->grams_fed > 0)) return false;
  const struct img_hazard *h = &IMG_ROWS(&lib->image, IMG_HAZARDS, struct img_hazard)[f->hazard];
  enum state state = l->state != STATE_UNSTATED ? l->state : (enum state)f->state;
  if (h->raw_only && state_is_cooked(state)) return false;
  return h->weight == FINDING_ACT && (h->species == SPECIES_BOTH || h->species == s);
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

static bool ratio_fine(const struct check_result *r, const struct check_result *now) {
  double a = r->balance.ca_p, b = now->balance.ca_p;
  bool fine_now = b >= 1 && b <= 2, fine_then = a >= 1 && a <= 2;
  return !fine_now || fine_then;
}

/* How far a nutrient is off, as a share of what it should be. */
static double miss_of(const struct nutrient_result *n) {
  double low = n->allowance > 0 ? 1 - known_part(n->window_amount) / n->allowance : 0;
  double high = n->upper > 0 && !n->upper_greater_than ? known_part(n->window_high) / n->upper - 1 : 0;
  return fmax(low, high);
}

/* Largest miss first. */
static void put_repair(struct mend_change *c, double *loss, enum nutrient n, double by) {
  size_t at = c->repair_count++;
  for (; at > 0 && by > loss[at - 1]; at--) {
    loss[at] = loss[at - 1];
    c->repairs[at] = c->repairs[at - 1];
  }
  loss[at] = by;
  c->repairs[at] = n;
}

/* The ration with this one change taken back: what then fails is what the change is for. */
static void give_reasons(struct mend_search *s, struct mend_change *c, const double *x, const struct check_result *after,
                         struct arena *arena) {
  int col = column_of_change(s, c, x);
  c->repairs = ARENA_NEW(arena, enum nutrient, NUT_COUNT);
  if (col < 0) return;
  struct arena scratch;
  arena_init(&scratch, arena->on_full);
  double *without = ARENA_NEW(&scratch, double, s->columns);
  memcpy(without, x, s->columns * sizeof *without);
  without[col] = 0;
  const struct check_result *r = model_judge(s->p, 0, without, &scratch);
  double loss[NUT_COUNT];
  for (int n = 0; n < NUT_COUNT; n++)
    if (model_keeps_nutrient(s->p, 0, (enum nutrient)n, after) && !model_keeps_nutrient(s->p, 0, (enum nutrient)n, r))
      put_repair(c, loss, (enum nutrient)n, miss_of(&r->nutrient[n]));
  double kcal = r->energy.supply_kcal;
  c->for_energy = kcal < s->q->limits.energy_least || kcal > s->q->limits.energy_most;
  c->for_balance = !ratio_fine(r, after);
  arena_free(&scratch);
}

static bool moved(double from, double to) { return fabs(to - from) > 1e-7 * fmax(1e-3, fmax(from, to)); }

static void add_changes(struct mend_search *s, const double *x, struct mend_change *c, size_t *count) {
  for (size_t i = 0; i < s->q->ration->line_count; i++) {
    double from = before_of_line(s, i), to = amount_of_line(s, i, x);
    if (moved(from, to))
      c[(*count)++] = (struct mend_change){.line = (int)i, .offer = -1, .from_g = from, .to_g = to, .danger = s->danger[i]};
  }
  for (size_t j = 0; j < s->columns; j++)
    if (s->column[j].line < 0 && moved(0, x[j]))
      c[(*count)++] = (struct mend_change){.line = -1, .offer = s->column[j].offer, .from_g = 0, .to_g = x[j]};
}

static void fill_proposal(struct mend_search *s, const struct mend_choice *choice, bool with_reasons,
                          struct mend_proposal *out, struct arena *arena) {
  struct mend_change *c = ARENA_NEW(arena, struct mend_change, s->q->ration->line_count + s->columns);
  size_t count = 0;
  add_changes(s, choice->x, c, &count);
  const struct ration *r = model_ration(s->p, 0, choice->x, NULL, arena);
  const struct check_result *after = check_numbers(s->lib, r, s->q->animal, &s->q->options, arena);
  for (size_t i = 0; i < count; i++) {
    c[i].repairs = NULL;
    if (with_reasons) give_reasons(s, &c[i], choice->x, after, arena);
  }
  int out_first = 0; /* lines that went out before any choice */
  for (size_t i = 0; i < count; i++) out_first += c[i].danger;
  *out = (struct mend_proposal){.change = c,
                                .count = count,
                                .ration = r,
                                .after = after,
                                .cost = choice->cost,
                                .fewest = choice->fewest + out_first,
                                .fewest_proven = (int)count <= choice->fewest + out_first,
                                .least_proven = choice->least_proven,
                                .one_more = choice->one_more,
                                .rounded = choice->rounded,
                                .reach = mend_reach(choice->reach),
                                .at_hand = choice->at_hand};
}

/* ---- when nothing is found ---------------------------------------------------------------------------------------- */

enum { HELPS = 6 };

/* After a search that was stopped only the nearest is told: what stands in the way is not known. */
static void explain(struct mend_search *s, struct mend_result *out, struct arena *arena) {
  if (!out->stopped) out->conflict = model_conflict(s->p, arena);
  struct model_nearest near = model_nearest(s->p, false, NULL, arena);
  if (!near.has_x) return;
  struct mend_choice choice = {.x = near.x, .cost = NAN};
  struct mend_proposal *p = ARENA_NEW(arena, struct mend_proposal, 1);
  mend_search_round_freely(s, &choice);
  fill_proposal(s, &choice, false, p, arena);
  out->nearest = p;
  if (out->stopped) return;
  struct model_help *list = ARENA_NEW(arena, struct model_help, HELPS);
  out->help = model_would_help(s->p, (const double[]){1}, &near, list, HELPS, arena);
}

/* ---- all of it ----------------------------------------------------------------------------------------------------- */

static bool nothing_to_do(const struct mend_search *s) {
  for (size_t i = 0; i < s->q->ration->line_count; i++)
    if (s->danger[i]) return false;
  return s->q->ration->line_count > 0 && model_keeps(s->p, 0, s->before);
}

const struct mend_result *mend(const struct library *lib, const struct mend_request *q, struct arena *arena) {
  struct mend_result *out = ARENA_NEW(arena, struct mend_result, 1);
  out->before = check_numbers(lib, q->ration, q->animal, &q->options, arena);
  if (!q->animal || out->before->refusal != REFUSE_NOT) {
    out->status = MEND_REFUSED;
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
  struct mend_choice *choice = ARENA_NEW(arena, struct mend_choice, most);
  size_t found = mend_search_run(&s, choice, most, &out->proven);
  struct mend_proposal *p = ARENA_NEW(arena, struct mend_proposal, most);
  for (size_t i = 0; i < found; i++) fill_proposal(&s, &choice[i], true, &p[i], arena);
  out->proposal = p;
  out->proposals = found;
  out->stopped = s.stopped;
  out->status = found > 0 ? MEND_FOUND : s.stopped ? MEND_STOPPED : MEND_NONE;
  out->proven = out->proven && out->status == MEND_NONE;
  if (found == 0) explain(&s, out, arena);
  return out;
}
