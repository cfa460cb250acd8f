/* forms.c: the standard's figures and the other limits as rows.
 *
 * How a figure depends on the energy eaten is read off standard_allowances itself, by asking it at several energies: a
 * lower figure is either fixed or grows with the energy, an upper limit is the stricter of the two. */
#include <math.h>

#include "base/num.h"
#include "base/table.h"
#include "change/model_parts.h"

static double *per_candidate(const struct model *p) { return ARENA_NEW(p->arena, double, p->candidates); }

double form_at(const struct form *f, const double *grams, size_t n) {
  double x = f->constant;
  for (size_t i = 0; f->per_g && i < n; i++) x += f->per_g[i] * grams[i];
  return x;
}

/* ---- figures of the standard as functions of the energy eaten --------------------------------------------------- */

/* kcal a day at which the standard is asked. */
static const double USUAL_MASS_G = 100; /* shares of the food: a miss of so many grams counts as whole */
static const double LITTLE = 1e-3, THOUSAND = 1e3, TWICE = 2e3, MUCH = 1e9;

struct asked {
  struct allowance_set little, thousand, twice, much;
  struct allowance_set meal; /* with what is eaten beside it; of no use where nothing is */
};

static void ask(const struct model *p, const struct bowl *b, const struct energy_need *need, double kcal,
                struct allowance_set *out) {
  standard_allowances(p->lib, b->options.standard, b->options.basis, b->animal, need, (struct energy_eaten){kcal, kcal}, out,
                      p->arena);
}

static struct form fixed(double x) { return (struct form){x, NULL}; }

static struct form by_energy(const struct model *p, const struct bowl *b, double per_kcal) {
  struct form f = {0, per_candidate(p)};
  for (size_t i = 0; i < p->candidates; i++) f.per_g[i] = per_kcal * b->gram[i].kcal;
  return f;
}

static struct form lower_form(const struct model *p, const struct bowl *b, const struct asked *a, enum nutrient n) {
  if (b->options.meal_kcal > 0) return fixed(a->meal.of[n].allowance);
  double one = a->thousand.of[n].allowance, two = a->twice.of[n].allowance;
  return two > 1.5 * one ? by_energy(p, b, one / THOUSAND) : fixed(one);
}

/* The highest level tested ("greater than") warns and does not forbid, but nobody is offered a change that leads there. */
static void upper_forms(const struct model *p, const struct bowl *b, const struct asked *a, enum nutrient n,
                        struct duty *d) {
  if (b->options.meal_kcal > 0) {
    if (!isnan(a->meal.of[n].upper)) d->upper[d->uppers++] = fixed(a->meal.of[n].upper);
    return;
  }
  const struct allowance *low = &a->little.of[n], *high = &a->much.of[n];
  double per_kcal = low->upper / LITTLE;
  bool grows = low->upper < high->upper;
  bool ends = !isnan(high->upper) && !(grows && high->upper > 0.5 * per_kcal * MUCH);
  if (grows) d->upper[d->uppers++] = by_energy(p, b, per_kcal);
  if (ends) d->upper[d->uppers++] = fixed(high->upper);
}

bool model_limit_is_cautious(const struct library *lib, enum nutrient n) {
  static const char OVER[] = "-over";
  const struct img_finding *f = IMG_ROWS(&lib->image, IMG_FINDINGS, struct img_finding);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FINDINGS); i++) {
    struct span id = span_of(lib_str(lib, f[i].id));
    size_t key = strlen(nutrient_info[n].key);
    if (f[i].weight != FINDING_KNOW || id.n != key + sizeof OVER - 1) continue;
    if (span_is(span_cut(id, 0, key), nutrient_info[n].key) && span_is(span_cut(id, key, id.n), OVER)) return true;
  }
  return false;
}

/* ---- names for people ------------------------------------------------------------------------------------------- */

static const char *limit_name(const struct model *p, const char *what, const char *relation, double x, const char *unit) {
  struct buf b;
  buf_init(&b, p->arena, 200);
  buf_addf(&b, "%s: %s ", what, relation);
  num_sig(&b, x, 3);
  buf_addf(&b, " %s", unit);
  return buf_text(&b);
}

static const char *nutrient_limit_name(const struct model *p, const struct form *f, double per_1000kcal, enum nutrient n,
                                       const char *relation) {
  struct buf unit;
  buf_init(&unit, p->arena, 60);
  buf_addf(&unit, "%s %s", nutrient_info[n].unit, f->per_g ? "per 1000 kcal" : "a day");
  return limit_name(p, nutrient_info[n].name, relation, f->per_g ? per_1000kcal : f->constant, buf_text(&unit));
}

/* ---- duties ----------------------------------------------------------------------------------------------------- */

/* The largest of the table's figure and what the fat asks for, both raised by what the fish oil asks for. */
static void grow_vitamin_e(const struct model *p, const struct bowl *b, struct duty *d) {
  struct form *table = &d->need[0], *fat = &d->need[1];
  *fat = (struct form){0, per_candidate(p)};
  double *with_oil = per_candidate(p);
  for (size_t i = 0; i < p->candidates; i++) {
    struct vitamin_e_need e = vitamin_e_need(b->gram[i].totals, b->animal->species);
    fat->per_g[i] = e.for_fat + e.for_oil;
    with_oil[i] = (table->per_g ? table->per_g[i] : 0) + e.for_oil;
  }
  table->per_g = with_oil;
  d->needs = 2;
}

static void grow_arginine(const struct model *p, const struct bowl *b, const struct form *protein, struct duty *d) {
  double part = arginine_per_protein(p->lib, b->options.standard, b->animal->species);
  if (!(part > 0)) return;
  struct form *above = &d->need[1], *table = &d->need[0];
  *above = (struct form){table->constant - part * protein->constant, per_candidate(p)};
  for (size_t i = 0; i < p->candidates; i++) {
    double table_g = table->per_g ? table->per_g[i] : 0, protein_g = protein->per_g ? protein->per_g[i] : 0;
    above->per_g[i] = table_g + part * (b->gram[i].totals->amount[NUT_PROTEIN] - protein_g);
  }
  d->needs = 2;
}

/* Where the gut makes enough, the judge itself sets the allowance to nothing for a bowl of plain food. */
static void find_waived(const struct model *p, int bowl) {
  struct bowl *b = p->bowl[bowl];
  if (p->candidates == 0) return;
  struct arena scratch;
  arena_init(&scratch, p->arena->on_full);
  struct candidate plain = p->candidate[0];
  for (size_t i = 0; i < p->candidates; i++) {
    const struct img_food *f = library_food(p->lib, p->candidate[i].line.shown_food);
    if (f && f->part == PART_MUSCLE) plain = p->candidate[i];
  }
  struct ration_line line = candidate_line(&plain, 1);
  struct ration r = {.name = "", .days = 1, .meals_per_day = NAN, .line = &line, .line_count = 1};
  const struct check_result *c = check_numbers(p->lib, &r, b->animal, &b->options, &scratch);
  for (int n = 0; n < NUT_COUNT; n++) {
    if (!b->duty[n].promised || c->nutrient[n].allowance > 0) continue;
    b->duty[n].promised = false;
    b->duty[n].waived = true;
  }
  arena_free(&scratch);
}

static double usual_kcal(const struct bowl *b) {
  double most = b->limits.energy_most, least = b->limits.energy_least;
  return most > 0 && isfinite(most) ? most : least > 0 ? least : THOUSAND;
}

static const char *need_name(const struct model *p, const struct duty *d, double per_1000kcal, enum nutrient n) {
  if (n != NUT_VITAMIN_E || d->needs < 2) return nutrient_limit_name(p, &d->need[0], per_1000kcal, n, "at least");
  bool fixed_amount = d->need[0].constant > 0;
  return limit_name(p, nutrient_info[n].name, "as much as the fats ask for, and at least",
                    fixed_amount ? d->need[0].constant : per_1000kcal, fixed_amount ? "mg a day" : "mg per 1000 kcal");
}

static void name_duties(struct model *p, int bowl, const struct asked *a, enum nutrient n) {
  const struct bowl *b = p->bowl[bowl];
  struct duty *d = &p->bowl[bowl]->duty[n];
  double thousands = usual_kcal(b) / THOUSAND, allowance = a->thousand.of[n].allowance;
  if (d->needs > 0) {
    double size = d->need[0].constant > 0 ? d->need[0].constant : allowance * thousands;
    d->limit_need = model_add_limit(p, (struct limit){LIMIT_ALLOWANCE, n, bowl, need_name(p, d, allowance, n), size});
  }
  if (d->uppers == 0) return;
  const struct form *u = &d->upper[d->uppers - 1];
  double per_1000kcal = a->little.of[n].upper / LITTLE * THOUSAND, size = u->per_g ? per_1000kcal * thousands : u->constant;
  const char *most = nutrient_limit_name(p, u, per_1000kcal, n, "at most");
  d->limit_upper = model_add_limit(p, (struct limit){LIMIT_UPPER, n, bowl, most, size});
  if (!d->highest_day) return;
  const char *day = nutrient_limit_name(p, u, per_1000kcal, n, "on no single day above");
  d->limit_day = model_add_limit(p, (struct limit){LIMIT_HIGHEST_DAY, n, bowl, day, size});
}

void model_fill_duties(struct model *p, int bowl) {
  struct bowl *b = p->bowl[bowl];
  struct asked a;
  struct energy_need need = animal_energy(p->lib, b->animal, p->arena);
  const struct img_window *window[NUT_COUNT];
  ask(p, b, &need, LITTLE, &a.little);
  ask(p, b, &need, THOUSAND, &a.thousand);
  ask(p, b, &need, TWICE, &a.twice);
  ask(p, b, &need, MUCH, &a.much);
  ask(p, b, &need, b->options.meal_kcal, &a.meal);
  standard_windows(p->lib, b->animal->species, window);
  for (int i = 0; i < NUT_COUNT; i++) {
    enum nutrient n = (enum nutrient)i;
    struct duty *d = &b->duty[i];
    *d = (struct duty){.limit_need = -1, .limit_upper = -1, .limit_day = -1, .days = 1};
    if (window[i] && window[i]->days > 0) d->days = window[i]->days < CALENDAR_DAYS ? window[i]->days : CALENDAR_DAYS;
    d->highest_day = window[i] && window[i]->highest_day;
    if (n == NUT_ENERGY) continue;
    if (!b->limits.leave[i] && a.thousand.of[i].allowance > 0) {
      d->promised = true;
      d->need[d->needs++] = lower_form(p, b, &a, n);
    }
    d->cautious = b->limits.past_cautious && model_limit_is_cautious(p->lib, n);
    if (!d->cautious) upper_forms(p, b, &a, n, d);
    d->ceiling = d->uppers > 0;
  }
  struct duty *e = &b->duty[NUT_VITAMIN_E], *arginine = &b->duty[NUT_ARGININE];
  if (e->promised) grow_vitamin_e(p, b, e);
  if (arginine->promised && a.thousand.of[NUT_PROTEIN].allowance > 0) {
    struct form protein = lower_form(p, b, &a, NUT_PROTEIN);
    grow_arginine(p, b, &protein, arginine);
  }
  find_waived(p, bowl);
  for (int i = 0; i < NUT_COUNT; i++) name_duties(p, bowl, &a, (enum nutrient)i);
}

/* ---- the rows that hold from the start -------------------------------------------------------------------------- */

static double known_high(double x) { return isnan(x) ? 0 : x; }

/* supply - need >= 0 and supply - upper <= 0, on the average of the calendar: the poorest window is not above it, nor the
 * richest below. */
static void average_rows(struct model *p, int bowl, enum nutrient n, double *row) {
  const struct bowl *b = p->bowl[bowl];
  const struct duty *d = &b->duty[n];
  for (int k = 0; d->promised && k < d->needs; k++) {
    const struct form *f = &d->need[k];
    for (size_t i = 0; i < p->candidates; i++) row[i] = b->gram[i].totals->amount[n] - (f->per_g ? f->per_g[i] : 0);
    model_add_form(p, bowl, d->limit_need, row, 0, f->constant, INFINITY, false);
  }
  for (int k = 0; k < d->uppers; k++) {
    const struct form *f = &d->upper[k];
    for (size_t i = 0; i < p->candidates; i++)
      row[i] = b->gram[i].totals->amount[n] + known_high(b->gram[i].totals->missing_high[n]) - (f->per_g ? f->per_g[i] : 0);
    model_add_form(p, bowl, d->limit_upper, row, 0, -INFINITY, f->constant, false);
  }
}

/* What a food may hold beyond its known energy is no nothing: the known energy must be so much more. */
static void energy_known_row(struct model *p, int bowl, double *row) {
  static const double INSIDE = 1 - 1e-6; /* a hair's breadth is left for rounding */
  const struct bowl *b = p->bowl[bowl];
  bool any = false;
  for (size_t i = 0; i < p->candidates; i++) {
    row[i] = INSIDE * energy_room_for_missing(b->gram[i].kcal) - b->gram[i].kcal_missing;
    any |= b->gram[i].kcal_missing > 0;
  }
  if (!any || !model_holds_energy(&b->limits)) return;
  struct limit l = {LIMIT_ENERGY_KNOWN, NUT_ENERGY, bowl, "Energy: known, but for a small part of it", usual_kcal(b)};
  model_add_form(p, bowl, model_add_limit(p, l), row, 0, 0, INFINITY, false);
}

static void energy_rows(struct model *p, int bowl, double *row) {
  const struct bowl *b = p->bowl[bowl];
  for (size_t i = 0; i < p->candidates; i++) row[i] = b->gram[i].kcal;
  double least = b->limits.energy_least, most = b->limits.energy_most;
  if (!isnan(least)) {
    const char *name = limit_name(p, "Energy", "at least", least, "kcal a day");
    int limit = model_add_limit(p, (struct limit){LIMIT_ENERGY_LEAST, NUT_ENERGY, bowl, name, least});
    model_add_form(p, bowl, limit, row, 0, least, INFINITY, false);
  }
  if (!isnan(most)) {
    const char *name = limit_name(p, "Energy", "at most", most, "kcal a day");
    int limit = model_add_limit(p, (struct limit){LIMIT_ENERGY_MOST, NUT_ENERGY, bowl, name, most});
    model_add_form(p, bowl, limit, row, 0, -INFINITY, most, false);
  }
  energy_known_row(p, bowl, row);
}

/* a - factor x b on one side of nothing. 'inside' keeps a hair's breadth of the limit free for rounding. */
static void ratio_row(struct model *p, const char *id, struct limit l, const double *a, const double *b, bool least,
                      double *row) {
  static const double INSIDE = 1e-6;
  double factor = model_advised(p->lib, id);
  if (!(factor > 0)) return;
  factor *= least ? 1 + INSIDE : 1 - INSIDE;
  for (size_t i = 0; i < p->candidates; i++) row[i] = a[i] - factor * b[i];
  int limit = model_add_limit(p, l);
  model_add_form(p, l.bowl, limit, row, 0, least ? 0 : -INFINITY, least ? INFINITY : 0, false);
}

static double *amounts_of(const struct model *p, int bowl, const enum nutrient *n, size_t count) {
  double *a = per_candidate(p);
  for (size_t i = 0; i < p->candidates; i++)
    for (size_t k = 0; k < count; k++) a[i] += p->bowl[bowl]->gram[i].totals->amount[n[k]];
  return a;
}

/* Where a limit has no amount of its own to measure a miss by, the nutrient's allowance serves. */
static double size_of(const struct model *p, int bowl, enum nutrient n) {
  int limit = p->bowl[bowl]->duty[n].limit_need;
  return limit >= 0 ? p->limit[limit].size : 1;
}

static void balance_rows(struct model *p, int bowl, double *row) {
  static const enum nutrient CA[] = {NUT_CALCIUM}, P[] = {NUT_PHOSPHORUS}, N6[] = {NUT_LINOLEIC, NUT_ARACHIDONIC},
                             N3[] = {NUT_ALPHA_LINOLENIC, NUT_EPA_DHA};
  double *ca = amounts_of(p, bowl, CA, 1), *ph = amounts_of(p, bowl, P, 1);
  double ca_size = size_of(p, bowl, NUT_CALCIUM), n6_size = size_of(p, bowl, NUT_LINOLEIC);
  struct limit low = {LIMIT_CA_P_LEAST, NUT_NONE, bowl, "Calcium: at least as much as phosphorus", ca_size},
               high = {LIMIT_CA_P_MOST, NUT_NONE, bowl, "Calcium: at most twice as much as phosphorus", ca_size},
               omega = {LIMIT_OMEGA, NUT_NONE, bowl, "Omega-6 fat: at most 30 times the omega-3 fat", n6_size};
  bool known = !p->bowl[bowl]->limits.leave[NUT_CALCIUM] && !p->bowl[bowl]->limits.leave[NUT_PHOSPHORUS];
  if (known) ratio_row(p, "ca-p-low", low, ca, ph, true, row);
  if (known) ratio_row(p, "ca-p-high", high, ca, ph, false, row);
  ratio_row(p, "omega-over", omega, amounts_of(p, bowl, N6, 2), amounts_of(p, bowl, N3, 2), false, row);
}

static void phytate_row(struct model *p, int bowl, double *row) {
  static const enum nutrient PHYTATE[] = {NUT_PHYTATE}, ZINC[] = {NUT_ZINC};
  const struct bowl *b = p->bowl[bowl];
  if (isnan(b->limits.phytate_zinc_most)) return;
  struct balance unit; /* the ratio of one mg to one mg, as the judge counts it */
  struct totals *t = ARENA_NEW(p->arena, struct totals, 1);
  *t = *b->gram[0].totals;
  t->amount[NUT_PHYTATE] = t->amount[NUT_ZINC] = 1;
  t->missing_g[NUT_PHYTATE] = t->missing_g[NUT_ZINC] = 0;
  balance_fill(t, b->animal->species, 1000, &unit);
  double *phytate = amounts_of(p, bowl, PHYTATE, 1), *zinc = amounts_of(p, bowl, ZINC, 1);
  for (size_t i = 0; i < p->candidates; i++)
    row[i] = phytate[i] * unit.phytate_zn - b->limits.phytate_zinc_most * (1 - 1e-6) * zinc[i];
  const char *name = limit_name(p, "Phytate", "at most", b->limits.phytate_zinc_most, "molecules to one of zinc");
  double size = b->limits.phytate_zinc_most * size_of(p, bowl, NUT_ZINC);
  int limit = model_add_limit(p, (struct limit){LIMIT_PHYTATE_ZINC, NUT_NONE, bowl, name, size});
  model_add_form(p, bowl, limit, row, 0, -INFINITY, 0, false);
}

static void mass_and_fat_rows(struct model *p, int bowl, double *row) {
  const struct bowl *b = p->bowl[bowl];
  const struct model_limits *l = &b->limits;
  if (!isnan(l->mass_most)) {
    for (size_t i = 0; i < p->candidates; i++) row[i] = b->gram[i].totals->eaten_g;
    const char *name = limit_name(p, "Food", "at most", l->mass_most, "g a day");
    int limit = model_add_limit(p, (struct limit){LIMIT_MASS, NUT_NONE, bowl, name, l->mass_most});
    model_add_form(p, bowl, limit, row, 0, -INFINITY, l->mass_most, false);
  }
  if (!isnan(l->fat_share_most)) {
    for (size_t i = 0; i < p->candidates; i++) row[i] = b->gram[i].fat_kcal - l->fat_share_most * b->gram[i].macro_kcal;
    const char *name = limit_name(p, "Fat", "at most", 100 * l->fat_share_most, "% of the energy");
    int limit = model_add_limit(p, (struct limit){LIMIT_FAT_SHARE, NUT_FAT, bowl, name, usual_kcal(b)});
    model_add_form(p, bowl, limit, row, 0, -INFINITY, 0, false);
  }
}

static void part_row(struct model *p, int bowl, int part, double share, bool least, double *row) {
  static WORD_TABLE(WORD, BOWL_COUNT, "Muscle meat", "Liver", "Other secreting organ", "Bone", "Plants", "Fish", "Egg",
                    "Dairy", "Fats and oils", "Supplements", "Other food");
  const struct bowl *b = p->bowl[bowl];
  if (isnan(share)) return;
  for (size_t i = 0; i < p->candidates; i++) row[i] = b->gram[i].part[part] - share * b->gram[i].totals->eaten_g;
  const char *name = limit_name(p, WORD[part], least ? "at least" : "at most", 100 * share, "% of the food");
  enum limit_kind kind = least ? LIMIT_PART_LEAST : LIMIT_PART_MOST;
  int limit = model_add_limit(p, (struct limit){kind, NUT_NONE, bowl, name, USUAL_MASS_G});
  model_add_form(p, bowl, limit, row, 0, least ? 0 : -INFINITY, least ? INFINITY : 0, false);
}

static void food_share_rows(struct model *p, int bowl, double *row) {
  const struct bowl *b = p->bowl[bowl];
  double most = b->limits.food_share_most;
  if (isnan(most)) return;
  for (size_t k = 0; k < p->candidates; k++) {
    for (size_t i = 0; i < p->candidates; i++) row[i] = ((i == k) - most) * b->gram[i].totals->eaten_g;
    const char *name = limit_name(p, p->candidate[k].name, "at most", 100 * most, "% of the food");
    int limit = model_add_limit(p, (struct limit){LIMIT_FOOD_SHARE, NUT_NONE, bowl, name, USUAL_MASS_G});
    model_add_form(p, bowl, limit, row, 0, -INFINITY, 0, false);
  }
}

void model_first_rows(struct model *p, int bowl) {
  const struct model_limits *l = &p->bowl[bowl]->limits;
  double *row = per_candidate(p);
  energy_rows(p, bowl, row);
  for (int n = 0; n < NUT_COUNT; n++) average_rows(p, bowl, (enum nutrient)n, row);
  if (l->balance) balance_rows(p, bowl, row);
  if (l->mannerly) model_manner_rows(p, bowl);
  if (p->candidates > 0) phytate_row(p, bowl, row);
  mass_and_fat_rows(p, bowl, row);
  for (int i = 0; i < BOWL_COUNT; i++) {
    part_row(p, bowl, i, l->part_least[i], true, row);
    part_row(p, bowl, i, l->part_most[i], false, row);
  }
  food_share_rows(p, bowl, row);
}
