#include "judge/check.h"
#include "base/table.h"

#include <math.h>

#include "judge/check_steps.h"
#include "judge/constants.h"
#include "judge/exchange.h"
#include "judge/meal.h"
#include "judge/memory.h"
#include "judge/stats.h"
#include "judge/uncounted.h"
#include "judge/verdict.h"

/* ---- amounts --------------------------------------------------------------------------------------------------- */

static double as_share(double x) { return !(x > 0.0) ? 0.0 : x < 1.0 ? x : 1.0; }

static void fill_amounts(const struct totals *t, double supply_kcal, struct nutrient_result *out) {
  for (int i = 0; i < NUT_COUNT; i++) {
    struct nutrient_result *n = &out[i];
    n->id = (enum nutrient)i;
    n->amount = t->amount[i];
    n->known_share = t->missing_g[i] != 0 && t->eaten_g > 0 ? as_share(1.0 - t->missing_g[i] / t->eaten_g) : 1.0;
    n->possible = t->ration->uncounted_count > 0 ? (double)NAN : n->amount + t->missing_high[i];
    n->per_1000kcal = supply_kcal > 0 ? n->amount / supply_kcal * 1000.0 : (double)NAN;
  }
}

/* The spread that a band was drawn from is mostly that of the window, too: it is left where the chances look for it. */
static void fill_bands(const struct totals *t, struct nutrient_result *out, struct verdict_memory memory[NUT_COUNT]) {
  struct lognormal_bands bands;
  lognormal_bands(t->amount, t->variance, &bands);
  for (int i = 0; i < NUT_COUNT; i++) {
    out[i].cv = bands.cv[i];
    out[i].low = bands.low[i];
    out[i].high = bands.high[i];
    verdict_remember_spread(&memory[i], bands.cv[i], bands.sigma2[i]);
  }
}

static void fill_spreads(const struct totals *t, struct nutrient_result *out) {
  for (int i = 0; i < NUT_COUNT; i++) out[i].cv = totals_cv(t->amount[i], t->variance[i]);
}

/* The amount is that of the method asked for; windows and suppliers are those of the Atwater factors. */
static void fill_energy_row(const struct energy_result *e, struct nutrient_result *n) {
  n->amount = e->supply_kcal;
  n->low = e->supply_low;
  n->high = e->supply_high;
  n->per_1000kcal = e->supply_kcal > 0 ? 1000.0 : (double)NAN;
}

/* What amounts are set against: a lower bound of the energy is no measure of them. */
static double whole_kcal(const struct energy_result *e) { return energy_is_whole(e) ? e->supply_kcal : (double)NAN; }

WORD_TABLE(known_word, KNOWN_COUNT, "none", "part", "all"); /* ORDER KNOWN */

static const double ALL_OF_IT = 1 - 1e-9; /* shares of mass add up to one within rounding */

static enum known known_of(const struct totals *t, const struct nutrient_result *n) {
  bool uncounted = t->ration->uncounted_count > 0;
  if (uncounted && t->row_count == 0) return KNOWN_NONE;
  if (n->known_share >= ALL_OF_IT) return uncounted ? KNOWN_PART : KNOWN_ALL;
  return n->amount == 0 ? KNOWN_NONE : KNOWN_PART;
}

/* The same of the energy: none of the food has a figure for it, nor for what it comes from. */
static void withhold_unknown_energy(const struct totals *t, struct energy_result *e) {
  double *const field[] = {&e->supply_kcal, &e->supply_low, &e->supply_high, &e->kcal_per_kg, &e->macro_kcal};
  bool counted = t->row_count > 0 && (t->amount[NUT_ENERGY] != 0 || t->missing_g[NUT_ENERGY] < t->eaten_g * ALL_OF_IT);
  bool empty = t->row_count == 0 && t->ration->uncounted_count == 0;
  for (size_t i = 0; i < COUNT_OF(field) && !counted && !empty; i++) *field[i] = (double)NAN;
  e->known = !counted && !empty ? KNOWN_NONE : energy_is_whole(e) ? KNOWN_ALL : KNOWN_PART;
}

/* An amount of which nothing is known was summed as 0, a lower bound that the verdict rests on; nobody is to read it as 0.
 */
static void withhold_unknown(struct nutrient_result *n) {
  if (n->known != KNOWN_NONE) return;
  double *const field[] = {&n->amount,         &n->low,           &n->high,           &n->cv,
                           &n->per_1000kcal,   &n->window_amount, &n->window_high,    &n->window_cv,
                           &n->window_high_cv, &n->lowest_day,    &n->highest_day,    &n->ratio,
                           &n->chance_met,     &n->chance_kept,   &n->estimated_share};
  for (size_t i = 0; i < COUNT_OF(field); i++) *field[i] = (double)NAN;
}

/* ---- windows --------------------------------------------------------------------------------------------------- */

static struct supply supply_of(struct window_total worst, struct window_total rich) {
  return (struct supply){.worst = worst.amount,
                         .worst_cv = worst.cv,
                         .worst_most = worst.amount + worst.missing_most,
                         .rich = rich.amount,
                         .rich_cv = rich.cv,
                         .rich_possible = rich.amount + rich.missing_high};
}

/* What is fed without being counted adds up to so much of it. */
static struct window_total with_uncounted(const struct totals *t, enum nutrient n, struct window_total w) {
  if (!t->uncounted_most) return w;
  w.missing_most += t->uncounted_most[n];
  w.missing_high = (double)NAN;
  return w;
}

/* An amino acid of meat is estimated within a few per cent, and no word hangs on that; where half of what was lent would
 * give another word, one does. */
static struct supply less_lent(const struct supply *s, double lent_share) {
  static const double LENT_MAY_BE_LESS_BY = 0.5;
  struct supply less = *s;
  less.worst *= 1 - LENT_MAY_BE_LESS_BY * lent_share;
  less.worst_most = less.worst;
  less.rich *= 1 - LENT_MAY_BE_LESS_BY * lent_share;
  return less;
}

static struct window_total calendar_of(const struct totals *t, const struct nutrient_result *n) {
  struct window_total all = {t->amount[n->id], n->cv, t->missing_high[n->id], t->missing_most[n->id]};
  return with_uncounted(t, n->id, all);
}

static struct supply fill_window(const struct totals *t, struct nutrient_result *n) {
  struct window_total worst = calendar_of(t, n), rich = worst;
  struct day_range days = totals_days(t, n->id, n->window_days);
  n->lowest_day = days.lowest;
  n->highest_day = days.highest;
  if (!days.alike) {
    worst = with_uncounted(t, n->id, totals_in_window(t, n->id, days.worst, n->window_days));
    rich = days.rich == days.worst ? worst : with_uncounted(t, n->id, totals_in_window(t, n->id, days.rich, n->window_days));
  }
  n->window_amount = worst.amount;
  n->window_high = rich.amount;
  n->window_cv = worst.cv;
  n->window_most = worst.amount + worst.missing_most;
  n->window_high_cv = rich.cv;
  return supply_of(worst, rich);
}

/* ---- verdicts -------------------------------------------------------------------------------------------------- */

static bool estimates_decide(const struct nutrient_result *n, const struct limits *l, const struct supply *s, double sure,
                             struct verdict_memory *memory) {
  if (!(n->classed_share > 0) || n->verdict == VERDICT_NO_FIGURE || n->verdict == VERDICT_UNPROVEN) return false;
  struct supply less = less_lent(s, n->classed_share);
  return verdict_alone(l, &less, sure, memory) != n->verdict;
}

/* No word is better than met. */
static bool window_decides(const struct totals *t, const struct nutrient_result *n, const struct limits *l, double sure) {
  bool differs = n->window_amount != t->amount[n->id] || n->window_high != t->amount[n->id];
  if (!differs || n->verdict == VERDICT_MET) return false;
  struct supply calendar = supply_of(calendar_of(t, n), calendar_of(t, n));
  return verdict_rank(verdict_alone(l, &calendar, sure, NULL)) > verdict_rank(n->verdict);
}

/* What is known already of the chances that one nutrient's verdict hangs on; NULL: nothing. */
struct verdict_memories {
  struct verdict_memory *window, *less;
};

static struct limits limits_of(const struct nutrient_result *n) {
  return (struct limits){n->minimum, n->allowance, n->upper, n->upper_greater_than};
}

static void judge(const struct totals *t, struct nutrient_result *n, const struct supply *s, double sure,
                  struct verdict_memories memory) {
  struct limits l = limits_of(n);
  struct judgement j = verdict_again(&l, s, sure, memory.window);
  n->verdict = j.verdict;
  n->chance_met = j.chance_met;
  n->chance_kept = j.chance_kept;
  n->near_upper = j.near_upper;
  n->close_to_limit = j.close_to_limit;
  n->ratio = n->allowance > 0 ? n->window_amount / n->allowance : (double)NAN;
  n->verdict_by_window = window_decides(t, n, &l, sure);
  n->estimate_decides = estimates_decide(n, &l, s, sure, memory.less);
  n->highest_day_over = n->window && n->window->highest_day && !n->upper_greater_than && n->highest_day > n->upper;
}

static void no_allowances(struct check_result *r) {
  static const struct allowance NONE = {.minimum = NAN, .allowance = NAN, .upper = NAN, .cautious = NAN};
  r->allowances = (struct allowance_set){.standard = r->options.standard, .basis = r->options.basis};
  for (int i = 0; i < NUT_COUNT; i++) r->allowances.of[i] = NONE;
}

static int days_of(const struct img_window *w) {
  int days = w && w->days > 0 ? w->days : 1;
  return days < CALENDAR_DAYS ? days : CALENDAR_DAYS;
}

static void set_limit(const struct allowance *table, struct nutrient_result *n) {
  n->table = table;
  n->minimum = table->minimum;
  n->allowance = table->allowance;
  n->upper = table->upper;
  bool grows = table->allowance_by_energy;
  for (int k = 0; k < NEED_LINES; k++)
    n->need_line[k] = (struct need_line){grows ? 0 : n->allowance, grows ? n->allowance : 0};
  n->upper_greater_than = table->upper_greater_than;
  n->adjusted = false;
  n->adjusted_why = NULL;
  n->adjusted_from = n->adjusted_to = (double)NAN;
}

/* 'arena' NULL: without the words. */
static void set_limits(const struct img_window *const window[NUT_COUNT], struct check_result *r) {
  for (int i = 0; i < NUT_COUNT; i++) {
    struct nutrient_result *n = &r->nutrient[i];
    set_limit(&r->allowances.of[i], n);
    n->window = window[i];
    n->window_days = days_of(n->window);
  }
}

/* ---- all of it ------------------------------------------------------------------------------------------------- */

static const struct energy_need NO_NEED = {.kcal = NAN, .low_kcal = NAN, .high_kcal = NAN, .coefficient = NAN, .from = ""};

static void meet_animal(const struct library *lib, struct check_result *r, struct arena *arena) {
  r->body = (struct animal_body){.ideal_kg = NAN, .ideal_from = "", .metabolic_kg = NAN, .exponent = NAN, .loss_kcal = NAN, .aim_kcal = NAN, .aim_high_kcal = NAN};
  r->energy.need = NO_NEED;
  if (!r->animal) return;
  struct met_animal met = memory_animal(lib, r->animal, arena);
  r->refusal = animal_refusal(r->animal);
  r->body = met.body;
  if (r->refusal == REFUSE_NOT) r->energy.need = met.need;
}

/* Without an animal the food is counted as for a dog (4-9-4 is the general rule for natural foods), and retinol alone is
 * counted as vitamin A, which holds for both. */
static enum species species_of(const struct animal *a) { return a ? a->species : SPECIES_DOG; }

static double carotene_of(const struct library *lib, const struct animal *a) {
  if (!a) return 0.0;
  const double *kept = memory_constants(lib, a->species);
  return kept ? kept[JUDGE_CAROTENE_FACTOR] : library_constant_value(lib, K_CAROTENE_FACTOR, a->species);
}

static void reach_verdict(const struct totals *t, struct check_result *r, struct nutrient_result *n, const struct supply *s,
                          struct verdict_memories memory) {
  n->known = known_of(t, n);
  judge(t, n, s, r->options.sure, memory);
  withhold_unknown(n);
  if (n->id == NUT_ENERGY) fill_energy_row(&r->energy, n);
}

static void allow_for_uncounted(struct totals *t, const struct uncounted *u, struct energy_result *energy,
                                double most[NUT_COUNT]) {
  if (!u) return;
  uncounted_most(u, t->eaten_g, energy, most);
  t->uncounted_most = most;
  energy->beside = !(most[NUT_ENERGY] <= energy_room_for_missing(energy->supply_kcal));
  if (energy->beside) energy->supply_high = (double)NAN;
}

static const double *grams_allowed_for(const struct totals *t, const struct uncounted *u, const struct energy_result *energy,
                                       struct arena *arena) {
  double *g = ARENA_NEW(arena, double, t->ration->uncounted_count + 1);
  for (size_t i = 0; i < t->ration->uncounted_count; i++) g[i] = uncounted_grams(u, i, t->eaten_g, energy);
  return g;
}

/* Of the nutrients from 'first' up to 'end' that were not judged yet: all chances at once. */
static void reach_some_verdicts(const struct totals *t, struct check_result *r, struct verdict_memory memory[NUT_COUNT],
                                int first, int end, bool judged[NUT_COUNT]) {
  struct supply s[NUT_COUNT];
  struct verdict_memory less[NUT_COUNT];
  struct chance_round round;
  round.list.count = 0;
  for (int i = first; i < end; i++) {
    if (judged[i]) continue;
    s[i] = fill_window(t, &r->nutrient[i]);
    struct limits l = limits_of(&r->nutrient[i]);
    chances_foresee(&l, &s[i], &memory[i], &round);
    if (!(r->nutrient[i].classed_share > 0)) continue;
    struct supply less_of_it = less_lent(&s[i], r->nutrient[i].classed_share);
    verdict_remember_spread(&less[i], memory[i].kept.cv, memory[i].kept.sigma2);
    chances_foresee_word(&l, &less_of_it, &less[i], &round);
  }
  chances_work_out(&round);
  for (int i = first; i < end; i++) {
    if (!judged[i]) reach_verdict(t, r, &r->nutrient[i], &s[i], (struct verdict_memories){&memory[i], &less[i]});
    judged[i] = true;
  }
}

static void reach_verdicts(const struct totals *t, struct check_result *r, struct verdict_memory memory[NUT_COUNT]) {
  bool judged[NUT_COUNT] = {false};
  reach_some_verdicts(t, r, memory, 0, NUT_COUNT, judged);
  for (int i = 0; i < NUT_COUNT; i++) r->verdict_count[r->nutrient[i].verdict]++;
}

struct check_result *check_to_review(const struct library *lib, const struct ration *ration, const struct animal *animal,
                                     const struct check_options *options, struct arena *arena) {
  const struct img_window *window[NUT_COUNT] = {NULL};
  struct check_result *r = ARENA_NEW(arena, struct check_result, 1);
  r->ration = ration;
  r->animal = animal;
  r->options = options ? *options : CHECK_OPTIONS_DEFAULT;
  meet_animal(lib, r, arena);
  struct totals *t = totals_gather_once(lib, ration, carotene_of(lib, animal), arena);
  t->constant = memory_constants(lib, species_of(animal));
  energy_supply(t, species_of(animal), &r->options, &r->energy, arena);
  struct uncounted *u = uncounted_gather(lib, ration, species_of(animal), &r->body, carotene_of(lib, animal), arena);
  allow_for_uncounted(t, u, &r->energy, r->uncounted_most);
  withhold_unknown_energy(t, &r->energy);
  r->uncounted_g = grams_allowed_for(t, u, &r->energy, arena);
  fill_amounts(t, whole_kcal(&r->energy), r->nutrient);
  struct verdict_memory memory[NUT_COUNT];
  fill_bands(t, r->nutrient, memory);
  suppliers_begin(t, species_of(animal), r->nutrient, arena);
  if (is_judged(r)) {
    memory_standard(lib, &r->options, animal, &(struct met_animal){r->body, r->energy.need}, meal_energy(r),
                    &r->allowances, arena);
  } else {
    no_allowances(r);
  }
  set_limits(animal ? memory_windows(lib, animal->species, window) : window, r);
  if (is_judged(r)) adjust_allowances(t, r, arena);
  reach_verdicts(t, r, memory);
  balance_fill(t, species_of(animal), whole_kcal(&r->energy), &r->balance);
  parts_fill(t, r->parts);
  return r;
}

const struct check_result *check_numbers(const struct library *lib, const struct ration *ration, const struct animal *animal,
                                         const struct check_options *options, struct arena *arena) {
  return check_to_review(lib, ration, animal, options, arena);
}

/* ---- the same ration, but this line ---------------------------------------------------------------------------- */

/* What is not written anew for every ration: all else of a nutrient is. */
static void begin_again(struct nutrient_result *n) { n->low = n->high = n->estimated_share = n->classed_share = 0; }

struct exchange {
  const struct library *lib;
  struct standard_rows rows;
  double carotene;
  struct ration ration;
  struct ration_line *line;
  size_t out;
  struct totals_kept *kept;
  struct uncounted *uncounted;
  struct energy_result energy; /* before any food */
  struct totals *totals;       /* with the line given last */
  bool judged[NUT_COUNT];      /* since then */
  struct verdict_memory memory[NUT_COUNT];
  struct check_result result;
  struct arena scratch;
  struct arena_mark begin;
};

static void copy_lines(struct exchange *x, const struct ration *ration, struct arena *arena) {
  x->ration = *ration;
  if (x->out == ration->line_count) x->ration.line_count++; /* empty as yet: it adds nothing */
  x->line = ARENA_NEW(arena, struct ration_line, x->ration.line_count);
  if (ration->line_count > 0) memcpy(x->line, ration->line, ration->line_count * sizeof *x->line);
  x->ration.line = x->line;
}

struct exchange *exchange_open(const struct library *lib, const struct ration *ration, size_t line,
                               const struct animal *animal, const struct check_options *options, struct arena *arena) {
  struct exchange *x = ARENA_NEW(arena, struct exchange, 1);
  x->lib = lib;
  x->out = line;
  copy_lines(x, ration, arena);
  x->carotene = carotene_of(lib, animal);
  const struct totals *t = totals_gather(lib, &x->ration, x->carotene, arena);
  const double *constant = memory_constants(lib, species_of(animal));
  x->kept = totals_keep(t, (int)line, constant ? constant : judge_constants(lib, species_of(animal), arena), arena);
  x->result.ration = &x->ration;
  x->result.animal = animal;
  x->result.options = options ? *options : CHECK_OPTIONS_DEFAULT;
  meet_animal(lib, &x->result, arena);
  x->uncounted = uncounted_gather(lib, &x->ration, species_of(animal), &x->result.body, x->carotene, arena);
  if (is_judged(&x->result)) {
    memory_standard_fixed(lib, &x->result.options, animal, &(struct met_animal){x->result.body, x->result.energy.need},
                          &x->rows, &x->result.allowances);
  } else {
    no_allowances(&x->result);
  }
  const struct img_window *window[NUT_COUNT] = {NULL};
  set_limits(animal ? memory_windows(lib, animal->species, window) : window, &x->result);
  x->energy = x->result.energy;
  for (int i = 0; i < NUT_COUNT; i++) x->memory[i] = (struct verdict_memory)VERDICT_MEMORY_EMPTY;
  arena_init(&x->scratch, arena->on_full);
  x->begin = arena_mark(&x->scratch);
  return x;
}

void exchange_close(struct exchange *x) { arena_free(&x->scratch); }

/* What the energy moves, and what the food itself. */
static void move_limits(struct exchange *x) {
  struct check_result *r = &x->result;
  standard_again(&x->rows, meal_energy(r), &r->allowances, NULL);
  for (int i = 0; i < x->rows.moving_count; i++)
    set_limit(&r->allowances.of[x->rows.moving[i]], &r->nutrient[x->rows.moving[i]]);
  for (int i = 0; i < ADJUSTED_COUNT; i++)
    set_limit(&r->allowances.of[adjusted_nutrient[i]], &r->nutrient[adjusted_nutrient[i]]);
  adjust_allowances(x->totals, r, NULL);
}

const struct check_result *exchange_sums(struct exchange *x, const struct ration_line *in) {
  struct check_result *r = &x->result;
  arena_rewind(&x->scratch, x->begin);
  x->line[x->out] = *in;
  r->energy = x->energy;
  memset(x->judged, 0, sizeof x->judged);
  for (int i = 0; i < NUT_COUNT; i++) begin_again(&r->nutrient[i]);
  enum species species = species_of(r->animal);
  x->totals = totals_gather_again(x->lib, &x->ration, x->carotene, x->kept, &x->scratch);
  energy_supply_alone(x->totals, species, &r->options, &r->energy, &x->scratch);
  allow_for_uncounted(x->totals, x->uncounted, &r->energy, r->uncounted_most);
  withhold_unknown_energy(x->totals, &r->energy);
  fill_amounts(x->totals, whole_kcal(&r->energy), r->nutrient);
  fill_spreads(x->totals, r->nutrient);
  if (is_judged(r)) move_limits(x);
  balance_fill(x->totals, species, whole_kcal(&r->energy), &r->balance);
  return r;
}

const struct nutrient_result *exchange_nutrient(struct exchange *x, enum nutrient n) {
  struct nutrient_result *out = &x->result.nutrient[n];
  if (x->judged[n]) return out;
  struct supply s = fill_window(x->totals, out);
  reach_verdict(x->totals, &x->result, out, &s, (struct verdict_memories){&x->memory[n], NULL});
  x->judged[n] = true;
  return out;
}

void exchange_judge(struct exchange *x, int first, int end) {
  bool passed[NUT_COUNT];
  if (end > NUT_COUNT) end = NUT_COUNT;
  for (int i = first; i < end; i++) {
    const struct nutrient_result *n = &x->result.nutrient[i];
    bool has_figure = !isnan(n->allowance) || !isnan(n->upper);
    passed[i] = x->judged[i] || !has_figure;
    x->judged[i] |= has_figure;
  }
  reach_some_verdicts(x->totals, &x->result, x->memory, first, end, passed);
}

const struct check_result *exchange_line(struct exchange *x, const struct ration_line *in) {
  exchange_sums(x, in);
  memset(x->result.verdict_count, 0, sizeof x->result.verdict_count);
  reach_verdicts(x->totals, &x->result, x->memory);
  return &x->result;
}
