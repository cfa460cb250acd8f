/* What would cover a gap: foods and shop units of data/fixes.tsv in amounts that people use, each tried before it is said:
 * the ration with it is judged like any other, the nutrient is then met, nothing else is worse for it and there is nothing
 * new to act on. */
#include <math.h>

#include "base/num.h"
#include "foods/portion.h"
#include "judge/uncounted.h"
#include "review/remedy.h"

/* Rounded up, so that the gap stays covered: to 10 g from 100 g, to 5 g from 20 g, to 1 g from 5 g, to a tenth below. */
static double kitchen_grams(double grams) {
  double step = grams >= 100 ? 10 : grams >= 20 ? 5 : grams >= 5 ? 1 : 0.1;
  return ceil(grams / step - 1e-9) * step;
}

/* The first that would cover, were it not for what it raises, is held back: with something else beside it it may do. */
static bool covers(struct review *r, enum nutrient n, const struct remedy *m) {
  const struct check_result *sums = remedy_sums(r, m);
  if (!remedy_meets(r, n) || remedy_makes_worse(r, sums)) return false;
  if (!review_raises_a_mark(r, &sums->balance, m->fix->food, m->grams)) return true;
  if (!r->held_back) {
    r->held_back = ARENA_NEW(r->arena, struct remedy, 1);
    *r->held_back = *m;
  }
  return false;
}

enum outcome { TOO_LITTLE, COVERS, BREAKS };

static enum outcome try_remedy(struct review *r, enum nutrient n, const struct remedy *m) {
  if (remedy_breaks(r, m)) return BREAKS;
  return remedy_meets(r, n) ? COVERS : TOO_LITTLE;
}

/* What is known of it; nothing known is nothing to count on. */
static double counted(const struct nutrient_result *n) { return isnan(n->window_amount) ? 0 : n->window_amount; }

/* What is missing so that the allowance is met with the confidence asked, the relative spread staying as it is. */
static double gap_of(const struct review *r, const struct nutrient_result *n) {
  double cv = isfinite(n->cv) ? n->cv : 0;
  return n->allowance / lognormal_quantile(1.0, cv, 1.0 - r->result->options.sure) - counted(n);
}

/* The first amount of a rising row that covers; tried from where the tables reach the allowance, some few times. */
enum { TRIALS = 5 };

static bool weigh_out(struct review *r, const struct nutrient_result *n, struct remedy *m) {
  static const double LEAST_SHARE = 0.12, GROW = 1.18; /* of the usual most: less is a trace nobody bothers with */
  double per_gram = remedy_held(r, m->fix->food, n->id) / 100;
  double most = portion_most_g(r->lib, m->fix->food, r->result->animal->species, r->result->body.metabolic_kg,
                               r->result->energy.grams_per_day);
  if (!(per_gram > 0) || !isfinite(most)) return false;
  double grams = fmax((n->allowance - counted(n)) / per_gram, LEAST_SHARE * most);
  m->times = CALENDAR_DAYS;
  for (int i = 0; i < TRIALS && kitchen_grams(grams) <= most; i++, grams = fmax(grams * GROW, gap_of(r, n) / per_gram)) {
    m->amount = m->grams = kitchen_grams(grams);
    enum outcome o = try_remedy(r, n->id, m);
    m->covers = o == COVERS;
    if (o != TOO_LITTLE) return m->covers;
  }
  return false;
}

/* Least first: rarely before often where the days allow it. */
static bool count_out(struct review *r, const struct nutrient_result *n, struct remedy *m) {
  const struct img_shop_unit *u = m->unit;
  const struct check_result *now = r->result;
  double one = remedy_unit_grams(r, u), per_gram = remedy_held(r, m->fix->food, n->id) / 100,
         size = now->body.metabolic_kg / pow(10, now->body.exponent), units = fmax(1, floor((double)u->most * size * 2) / 2),
         step = u->halves ? 0.5 : 1,
         ceiling = portion_most_g(r->lib, u->food, now->animal->species, now->body.metabolic_kg, now->energy.grams_per_day);
  double missing = n->allowance - counted(n);
  int tried = 0;
  if (!(one > 0) || !(per_gram > 0)) return false;
  for (size_t k = COUNT_OF(u->often); k-- > 0;) {
    bool daily = u->often[k] >= CALENDAR_DAYS;
    if (u->often[k] == 0) continue;
    for (double c = step; c <= (daily ? units : 1); c += step) {
      m->amount = c;
      m->times = u->often[k];
      m->grams = c * one * m->times / CALENDAR_DAYS;
      if (m->grams * per_gram < missing || m->grams > ceiling || (!daily && c * one > 3 * ceiling)) continue;
      if (tried++ >= TRIALS) return false;
      m->covers = covers(r, n->id, m);
      if (m->covers) return true;
    }
  }
  return false;
}

static const struct img_shop_unit *unit_of(const struct review *r, const struct img_fix *fix) {
  if (fix->shop_unit == NO_INDEX) return NULL;
  return &IMG_ROWS(&r->lib->image, IMG_SHOP_UNITS, struct img_shop_unit)[fix->shop_unit];
}

/* Beside kelp of which nobody knows how much iodine it holds no more iodine is advised. */
static bool doubles(const struct review *r, const struct img_fix *fix) {
  const struct img_shop_unit *u = unit_of(r, fix);
  bool held[NUT_COUNT], open[NUT_COUNT] = {false};
  if (r->result->ration->uncounted_count == 0) return false;
  uncounted_given_for(r->result, open);
  if (open[fix->nutrient]) return true;
  uncounted_doses(r->lib, r->result, held);
  double grams = u ? remedy_unit_grams(r, u)
                   : portion_most_g(r->lib, fix->food, r->result->animal->species, r->result->body.metabolic_kg,
                                    r->result->energy.grams_per_day);
  return uncounted_is_doubled(r->lib, r->result, held, fix->food, grams);
}

static bool fits(const struct review *r, const struct img_fix *fix) {
  const struct ration *ration = r->result->ration;
  if (ration_refuses(r->lib, ration, fix->food, lib_str(r->lib, fix->words), r->arena)) return false;
  return ration_takes_fix(r->lib, ration, fix, r->result->animal->species) && !doubles(r, fix);
}

/* Half of the usual most, if that breaks nothing: it goes some of the way. */
static bool go_some_way(struct review *r, const struct nutrient_result *n, struct remedy *m) {
  double per_gram = remedy_held(r, m->fix->food, n->id) / 100, gap = gap_of(r, n);
  double most = portion_most_g(r->lib, m->fix->food, r->result->animal->species, r->result->body.metabolic_kg,
                               r->result->energy.grams_per_day);
  if (!(per_gram > 0) || !isfinite(most) || !(gap > 0)) return false;
  m->times = CALENDAR_DAYS;
  m->amount = m->grams = kitchen_grams(most / 2);
  m->share = m->grams * per_gram / gap;
  return m->grams <= most && m->share < 1 && !remedy_breaks(r, m);
}

static struct remedy best_remedy(struct review *r, const struct nutrient_result *n);

/* Zinc that would crowd out the copper, and the copper for it: both are given, or neither. */
static bool pair_with_copper(struct review *r, struct remedy *zinc) {
  const struct check_result *was = r->result;
  size_t lines = was->ration->line_count;
  struct ration_line *line = ARENA_NEW(r->arena, struct ration_line, lines + 1);
  struct ration ration = *was->ration;
  memcpy(line, ration.line, lines * sizeof *line);
  line[lines] = remedy_line(r, zinc);
  ration.line = line;
  ration.line_count = lines + 1;
  struct check_result with = *check_numbers(r->lib, &ration, was->animal, &was->options, r->arena);
  struct review next = {.lib = r->lib, .result = &with, .arena = r->arena, .row_letters = r->row_letters};
  struct remedy *copper = ARENA_NEW(r->arena, struct remedy, 1);
  *copper =
      is_lacking(&with.nutrient[NUT_COPPER]) ? best_remedy(&next, &with.nutrient[NUT_COPPER]) : (struct remedy){.fix = NULL};
  review_end(&next);
  zinc->with = copper;
  return zinc->covers = copper->fix && copper->covers;
}

/* The first row of the table that covers the gap; once a tablet had to be held back, one that holds what it lacked comes
 * before a food. */
static struct remedy first_that_covers(struct review *r, const struct nutrient_result *n) {
  const struct img_fix *fix = IMG_ROWS(&r->lib->image, IMG_FIXES, struct img_fix);
  size_t rows = img_count(&r->lib->image, IMG_FIXES);
  struct remedy food = {.fix = NULL};
  r->held_back = NULL;
  for (size_t i = 0; i < rows; i++) {
    struct remedy m = {.fix = &fix[i], .unit = unit_of(r, &fix[i])};
    if (fix[i].nutrient != n->id || !fits(r, &fix[i]) || (food.fix && !m.unit)) continue;
    if (!(m.unit ? count_out(r, n, &m) : weigh_out(r, n, &m))) continue;
    if (m.unit || !r->held_back) return m;
    food = m;
  }
  if (food.fix || n->id != NUT_ZINC || !r->held_back) return food;
  struct remedy zinc = *r->held_back;
  return pair_with_copper(r, &zinc) ? zinc : food;
}

/* What covers the gap; else what goes furthest. */
static struct remedy best_remedy(struct review *r, const struct nutrient_result *n) {
  const struct img_fix *fix = IMG_ROWS(&r->lib->image, IMG_FIXES, struct img_fix);
  size_t rows = img_count(&r->lib->image, IMG_FIXES);
  struct remedy best = {.fix = NULL};
  if (!(n->allowance > 0)) return best;
  best = first_that_covers(r, n);
  if (best.fix) return best;
  for (size_t i = 0; i < rows; i++) {
    struct remedy m = {.fix = &fix[i]};
    if (fix[i].nutrient != n->id || !fits(r, &fix[i]) || unit_of(r, &fix[i])) continue;
    if (go_some_way(r, n, &m) && m.share > best.share) best = m;
  }
  return best;
}

const char *remedy_for(struct review *r, const struct nutrient_result *n, bool *covers) {
  struct remedy m = best_remedy(r, n);
  *covers = m.fix && m.covers;
  if (!m.fix) return "";
  return m.covers ? remedy_covering(r, &m) : remedy_nearest(r, &m);
}

void draft_fix(struct draft *d, const struct nutrient_result *n) {
  draft_word(d, "fix", remedy_for(d->review, n, &d->covers));
}

struct finding_remedy findings_remedy(const struct library *lib, const struct check_result *result, enum nutrient n,
                                      struct arena *arena) {
  struct finding_remedy none = {NO_INDEX, NAN, NAN, "", ""};
  struct check_result copy = *result;
  struct review r = {.lib = lib, .result = &copy, .arena = arena};
  const struct nutrient_result *x = &result->nutrient[n];
  if (!review_judged(&r) || !is_lacking(x) || !(x->allowance > 0)) return none;
  struct remedy m = best_remedy(&r, x);
  review_end(&r);
  return m.fix && m.covers && !m.with
             ? (struct finding_remedy){m.fix->food, m.grams, m.times, remedy_dose(&r, &m), remedy_feeding(&r, &m)}
             : none;
}

/* ---- one food for several gaps ---- */

/* Is there enough of it, whatever else is judged? A food that is fed daily adds the same to every window, and no need falls
 * because more is eaten, but those that hang on what the gut makes; sums of several nutrients are left to the judge. */
static bool may_be_met(const struct review *r, const struct remedy *m, enum nutrient n) {
  static const double ROUNDING = 1e-6;
  const struct nutrient_result *x = &r->result->nutrient[n];
  bool plain = n != NUT_VITAMIN_A && n != NUT_EPA_DHA && n != NUT_VITAMIN_K && n != NUT_BIOTIN && n != NUT_ENERGY;
  if (!plain || !(r->result->energy.supply_kcal > 0)) return true;
  return counted(x) + m->grams * remedy_held(r, m->fix->food, n) / 100 >= x->allowance * (1 - ROUNDING);
}

static size_t most_to_cover(const struct review *r, const struct remedy *m, const enum nutrient *n, size_t count) {
  size_t may = 0;
  for (size_t i = 0; i < count; i++) may += may_be_met(r, m, n[i]);
  return may;
}

/* Which of the gaps are covered with this; their number, 0 where it is no more than 'most'. */
static size_t covered_by(struct review *r, const struct remedy *m, const enum nutrient *n, size_t count, size_t most,
                         const char **name) {
  if (most_to_cover(r, m, n, count) <= most) return 0;
  const struct check_result *sums = remedy_sums(r, m);
  size_t covered = 0;
  for (size_t i = 0; i < count; i++)
    if (remedy_meets(r, n[i])) name[covered++] = words_nutrient(r->arena, n[i]);
  return covered > most && !remedy_breaks_with(r, m, sums) ? covered : 0;
}

const char *remedy_for_several(struct review *r, const enum nutrient *n, size_t count) {
  const struct img_fix *fix = IMG_ROWS(&r->lib->image, IMG_FIXES, struct img_fix);
  const char **name = ARENA_NEW(r->arena, const char *, count), **best_name = ARENA_NEW(r->arena, const char *, count);
  size_t rows = img_count(&r->lib->image, IMG_FIXES), most = 1;
  struct remedy best = {.fix = NULL};
  for (size_t i = 0; i < rows; i++) {
    struct remedy m = {.fix = &fix[i], .times = CALENDAR_DAYS};
    bool again = false;
    for (size_t k = 0; k < i; k++) again |= fix[k].food == fix[i].food;
    if (again || unit_of(r, &fix[i]) || !fits(r, &fix[i])) continue;
    m.amount = m.grams = kitchen_grams(portion_most_g(r->lib, fix[i].food, r->result->animal->species,
                                                      r->result->body.metabolic_kg, r->result->energy.grams_per_day) /
                                       2);
    size_t covered = covered_by(r, &m, n, count, most, name);
    if (covered <= most) continue;
    most = covered;
    best = m;
    memcpy(best_name, name, covered * sizeof *name);
  }
  if (!best.fix) return "";
  struct buf b;
  buf_init(&b, r->arena, 1024);
  buf_addf(&b, "About %s%s would cover %s", remedy_dose(r, &best), remedy_measure(r, &best),
           list_of_few(r, best_name, most, most));
  remedy_add_brought(r, &b, best.fix->food, best.grams);
  buf_adds(&b, ".");
  return buf_text(&b);
}
