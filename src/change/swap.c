/* swap.c: what is computed once before the pass, and what is read from it afterwards. */
#include <math.h>

#include "change/swap_parts.h"
#include "foods/constant_keys.h"
#include "judge/check_steps.h"
#include "judge/stats.h"

/* ---- trouble ---------------------------------------------------------------------------------------------------- */

/* The order of worse and better that the answer is sorted by (docs/method/swap.md): a judgement, not a measurement. */
static const double THIN = 0.25, UNPROVEN = 0.5, SHORT = 0.5, OVER = 1.0;

double swap_trouble(enum verdict v, double worst_share, double rich_share) {
  switch (v) {
  case VERDICT_THIN:
    return THIN;
  case VERDICT_UNPROVEN:
    return UNPROVEN;
  case VERDICT_SHORT:
    return SHORT + (1 - fmin(1.0, fmax(0.0, worst_share)));
  case VERDICT_OVER:
    return OVER + fmin(1.0, fmax(0.0, rich_share - 1));
  case VERDICT_MET:
  case VERDICT_NO_FIGURE:
  case VERDICT_COUNT:
    break;
  }
  return 0;
}

static double part_of(double x, double whole) { return whole > 0 ? x / whole : (double)NAN; }

double swap_trouble_of(const struct nutrient_result *n) {
  return swap_trouble(n->verdict, part_of(known_part(n->window_amount), n->allowance),
                      part_of(known_part(n->window_high), n->upper));
}

static double trouble_of(const struct check_result *r) {
  double sum = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &r->nutrient[i];
    sum += swap_trouble_of(n);
  }
  return sum;
}

/* ---- the rest of the ration ------------------------------------------------------------------------------------- */

static double carotene_factor(const struct swap *s) {
  return library_constant_value(s->ask.lib, K_CAROTENE_FACTOR, s->ask.animal->species);
}

static struct ration without_line(const struct swap *s) {
  struct ration r = *s->ask.ration;
  struct ration_line *line = ARENA_NEW(s->arena, struct ration_line, r.line_count);
  for (size_t i = 0; i < r.line_count; i++) {
    line[i] = r.line[i];
    if (i == s->ask.line)
      for (int k = 0; k < line[i].part_count; k++) line[i].part[k].grams = 0;
  }
  r.line = line;
  return r;
}

static struct totals *supplied(const struct swap *s, const struct ration *r, double *kcal, struct arena *arena) {
  struct energy_result e = {0};
  struct totals *t = totals_gather(s->ask.lib, r, carotene_factor(s), arena);
  energy_supply(t, s->ask.animal->species, &s->ask.options, &e, arena);
  *kcal = e.supply_kcal;
  return t;
}

/* Amounts and variances in the poorest and the richest window; a food that is fed daily moves neither. */
static struct supply rest_supply(const struct totals *t, enum nutrient n, int days) {
  struct window_total worst = totals_over_calendar(t, n), rich = worst;
  if (!t->same_every_day && days < CALENDAR_DAYS) {
    double day[CALENDAR_DAYS], low = INFINITY, high = -INFINITY;
    totals_series(t, n, day);
    for (int i = 0; i < CALENDAR_DAYS; i++) {
      low = fmin(low, day[i]);
      high = fmax(high, day[i]);
    }
    if (high > low) {
      struct window_extremes e = window_extremes(day, days);
      worst = totals_in_window(t, n, e.worst, days);
      rich = totals_in_window(t, n, e.rich, days);
    }
  }
  return (struct supply){.worst = worst.amount,
                         .worst_cv = worst.cv * worst.cv * worst.amount * worst.amount,
                         .worst_most = worst.missing_most,
                         .rich = rich.amount,
                         .rich_cv = rich.cv * rich.cv * rich.amount * rich.amount,
                         .rich_possible = rich.missing_high};
}

static void fill_rest(struct swap *s) {
  const struct img_window *window[NUT_COUNT];
  struct ration rest = without_line(s);
  const struct totals *t = supplied(s, &rest, &s->rest_kcal, s->arena);
  struct vitamin_e_need e = vitamin_e_need(t, s->ask.animal->species);
  s->rest_for_fat = e.for_fat;
  s->rest_for_oil = e.for_oil;
  s->rest_protein = t->amount[NUT_PROTEIN];
  standard_windows(s->ask.lib, s->ask.animal->species, window);
  for (size_t i = 0; i < s->rows; i++) {
    const struct img_window *w = window[s->row[i].n];
    s->row[i].rest = rest_supply(t, s->row[i].n, w && w->days > 0 ? w->days : 1);
  }
}

/* ---- one gram of each offer ------------------------------------------------------------------------------------- */

static bool has_food(const struct swap *s, uint32_t food) {
  for (size_t i = 0; i < s->ask.ration->line_count; i++) {
    const struct ration_line *l = &s->ask.ration->line[i];
    for (int k = 0; k < l->part_count && i != s->ask.line; k++)
      if (l->part[k].food == food) return true;
  }
  return false;
}

static bool is_fish(const struct img_food *f) { return f && (f->part == PART_FISH || f->part == PART_SHELLFISH); }

/* What the gut makes depends on the whole bowl (fish for cats, raw white of egg): such foods go to the judge. */
static bool moves_gut_rules(const struct swap *s, const struct img_food *f) {
  bool fish_counts = library_constant(s->ask.lib, K_FISH_SHARE_VITAMIN_K, s->ask.animal->species) != NULL;
  return (fish_counts && is_fish(f)) || (f && (f->flags & FOOD_RAW_WHITE));
}

static bool is_special(const struct swap *s, const struct ration_line *offer) {
  for (int k = 0; k < offer->part_count; k++)
    if (has_food(s, offer->part[k].food) || moves_gut_rules(s, library_food(s->ask.lib, offer->part[k].food))) return true;
  return offer->part_count == 2 && offer->part[0].food == offer->part[1].food;
}

static bool must_judge_all(const struct swap *s) {
  const struct ration *r = s->ask.ration;
  for (size_t i = 0; i < r->line_count; i++)
    for (int k = 0; k < r->line[i].part_count && i != s->ask.line; k++) {
      const struct img_food *f = library_food(s->ask.lib, r->line[i].part[k].food);
      if (is_fish(f) && moves_gut_rules(s, f)) return true;
    }
  const struct ration_line *line = &r->line[s->ask.line];
  return line->times_per_28 < CALENDAR_DAYS || s->ask.options.energy_by != ENERGY_ATWATER || !(s->rest_kcal > 0);
}

static struct ration_line with_grams(const struct ration_line *offer, double grams) {
  struct ration_line l = *offer;
  double by = part_of(grams, offer->grams_fed);
  for (int k = 0; k < l.part_count; k++) l.part[k].grams *= by;
  l.grams_fed = grams;
  return l;
}

static double grams_in_place(const struct swap *s, double kcal_per_g) {
  double grams = s->by_mass ? s->line_g : part_of(s->line_kcal, kcal_per_g);
  return grams > 0 && grams <= SWAP_BULK * s->line_g ? grams : (double)NAN;
}

static void keep_rows(struct swap *s, size_t offer, const struct totals *t) {
  for (size_t i = 0; i < s->rows; i++) {
    struct swap_row *row = &s->row[i];
    row->mean[offer] = (float)(row->mean_exact[offer] = t->amount[row->n]);
    row->variance[offer] = (float)(row->variance_exact[offer] = t->variance[row->n]);
    row->most[offer] = (float)(row->most_exact[offer] = t->missing_most[row->n]);
    row->high_exact[offer] = t->missing_high[row->n];
  }
}

static void keep_offer(struct swap *s, size_t offer, struct arena *scratch) {
  struct ration_line line = with_grams(&s->ask.offer[offer], 1);
  struct ration one = {.name = "", .days = 1, .meals_per_day = NAN, .line = &line, .line_count = 1};
  ration_spread_days(&line, CALENDAR_DAYS, 0);
  const struct totals *t = supplied(s, &one, &s->kcal[offer], scratch);
  struct vitamin_e_need e = vitamin_e_need(t, s->ask.animal->species);
  s->fat_mg[offer] = e.for_fat;
  s->oil_mg[offer] = e.for_oil;
  s->protein[offer] = t->amount[NUT_PROTEIN];
  s->grams_exact[offer] = grams_in_place(s, s->kcal[offer]);
  s->grams[offer] = (float)s->grams_exact[offer];
  s->kcal_now[offer] = (float)(s->rest_kcal + s->grams_exact[offer] * s->kcal[offer]);
  s->special[offer] = s->judge_all || is_special(s, &line);
  keep_rows(s, offer, t);
}

static void keep_offers(struct swap *s) {
  enum { TOGETHER = 64 };
  struct arena scratch;
  arena_init(&scratch, s->arena->on_full);
  for (size_t i = 0; i < s->ask.offers; i++) {
    keep_offer(s, i, &scratch);
    if (i % TOGETHER == TOGETHER - 1) arena_free(&scratch);
  }
  arena_free(&scratch);
}

static void make_room(struct swap *s) {
  size_t n = s->ask.offers + SWAP_PADDING;
  s->grams = ARENA_NEW(s->arena, float, n);
  s->kcal_now = ARENA_NEW(s->arena, float, n);
  s->trouble = ARENA_NEW(s->arena, float, n);
  s->special = ARENA_NEW(s->arena, uint8_t, n);
  double **exact[] = {&s->grams_exact, &s->kcal, &s->fat_mg, &s->oil_mg, &s->protein};
  for (size_t i = 0; i < COUNT_OF(exact); i++) *exact[i] = ARENA_NEW(s->arena, double, n);
  for (size_t i = 0; i < s->rows; i++) {
    struct swap_row *r = &s->row[i];
    float **single[] = {&r->mean, &r->variance, &r->most};
    double **twice[] = {&r->mean_exact, &r->variance_exact, &r->most_exact, &r->high_exact};
    for (size_t k = 0; k < COUNT_OF(single); k++) *single[k] = ARENA_NEW(s->arena, float, n);
    for (size_t k = 0; k < COUNT_OF(twice); k++) *twice[k] = ARENA_NEW(s->arena, double, n);
    r->verdict = ARENA_NEW(s->arena, int32_t, n);
  }
}

/* ---- opening ---------------------------------------------------------------------------------------------------- */

/* The line that goes: its grams and energy on a feeding day. */
static void measure_line(struct swap *s) {
  struct ration_line line = s->ask.ration->line[s->ask.line];
  struct ration one = {.name = "", .days = 1, .meals_per_day = NAN, .line = &line, .line_count = 1};
  ration_spread_days(&line, CALENDAR_DAYS, 0);
  s->line_g = line.grams_fed;
  supplied(s, &one, &s->line_kcal, s->arena);
  s->by_mass = s->ask.equal_mass || !(s->line_kcal > 0);
}

/* Where the gut makes enough the judge sets the allowance to nothing for every ordinary food alike: one is asked. */
static void find_waived(struct swap *s) {
  struct arena scratch;
  arena_init(&scratch, s->arena->on_full);
  for (size_t i = 0; i < s->ask.offers; i++) {
    if (s->special[i] || !(s->grams_exact[i] > 0)) continue;
    struct ration r = swap_ration(s, i, &scratch);
    const struct check_result *c = check_numbers(s->ask.lib, &r, s->ask.animal, &s->ask.options, &scratch);
    for (size_t k = 0; k < s->rows; k++) s->row[k].waived = c->nutrient[s->row[k].n].allowance == 0;
    break;
  }
  arena_free(&scratch);
}

struct swap *swap_open(const struct swap_ask *ask, struct arena *arena) {
  if (animal_refusal(ask->animal) != REFUSE_NOT) return NULL;
  struct swap *s = ARENA_NEW(arena, struct swap, 1);
  s->ask = *ask;
  s->arena = arena;
  swap_figures_fill(s);
  measure_line(s);
  fill_rest(s);
  s->judge_all = must_judge_all(s);
  make_room(s);
  keep_offers(s);
  find_waived(s);
  s->trouble_now = (float)trouble_of(check_numbers(ask->lib, ask->ration, ask->animal, &ask->options, arena));
  return s;
}

/* ---- reading ---------------------------------------------------------------------------------------------------- */

bool swap_is_by_mass(const struct swap *s) { return s->by_mass; }
double swap_grams(const struct swap *s, size_t offer) { return s->grams_exact[offer]; }
double swap_score(const struct swap *s, size_t offer) { return (double)(s->trouble_now - s->trouble[offer]); }

enum verdict swap_verdict(const struct swap *s, size_t offer, enum nutrient n) {
  int row = s->row_of[n];
  return row < 0 ? VERDICT_NO_FIGURE : (enum verdict)s->row[row].verdict[offer];
}

struct ration swap_ration(const struct swap *s, size_t offer, struct arena *arena) {
  struct ration r = *s->ask.ration;
  struct ration_line *line = ARENA_NEW(arena, struct ration_line, r.line_count), *now = &line[s->ask.line];
  memcpy(line, r.line, r.line_count * sizeof *line);
  struct ration_line in = with_grams(&s->ask.offer[offer], s->grams_exact[offer]);
  in.line = now->line;
  in.times_per_28 = now->times_per_28;
  memcpy(in.fed_on, now->fed_on, sizeof in.fed_on);
  *now = in;
  r.line = line;
  return r;
}

size_t swap_possible(const struct swap *s) {
  size_t n = 0;
  for (size_t i = 0; i < s->ask.offers; i++) n += s->grams_exact[i] > 0;
  return n;
}

static bool comes_before(const struct swap *s, size_t a, size_t b) {
  if (s->trouble[a] != s->trouble[b]) return s->trouble[a] < s->trouble[b];
  if (s->grams_exact[a] != s->grams_exact[b]) return s->grams_exact[a] < s->grams_exact[b];
  return a < b;
}

size_t swap_best(const struct swap *s, size_t *offer, size_t most) {
  size_t n = 0;
  for (size_t i = 0; i < s->ask.offers; i++) {
    if (!(s->grams_exact[i] > 0) || (n == most && (most == 0 || !comes_before(s, i, offer[n - 1])))) continue;
    size_t at = n < most ? n++ : n - 1;
    for (; at > 0 && comes_before(s, i, offer[at - 1]); at--) offer[at] = offer[at - 1];
    offer[at] = i;
  }
  return n;
}
