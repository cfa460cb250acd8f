/* What would cover a gap: foods and shop units of data/fixes.tsv in amounts that people use, each tried before it is said:
 * the ration with it is judged like any other, the nutrient is then met, nothing else is worse for it and there is nothing
 * new to act on. */
#include <math.h>

#include "base/num.h"
#include "foods/constant_keys.h"
#include "foods/portion.h"
#include "foods/unit.h"
#include "judge/uncounted.h"
#include "review/findings_internal.h"

/* ---- amounts of a kitchen -------------------------------------------------------------------------------------- */

/* Rounded up, so that the gap stays covered: to 10 g from 100 g, to 5 g from 20 g, to 1 g from 5 g, to a tenth below. */
static double kitchen_grams(double grams) {
  double step = grams >= 100 ? 10 : grams >= 20 ? 5 : grams >= 5 ? 1 : 0.1;
  return ceil(grams / step - 1e-9) * step;
}

/* "1 tsp", "1 1/2 tbsp": counts that people can measure. */
static const struct {
  double count;
  const char *words;
} COUNTS[] = {{0.25, "1/4"}, {0.5, "1/2"}, {1, "1"}, {1.5, "1 1/2"}, {2, "2"}, {3, "3"}, {4, "4"}};

struct household {
  const char *count, *unit;
  double error; /* relative */
};

static void try_measure(struct household *best, double grams, double one, const char *unit) {
  if (!(one > 0)) return;
  for (size_t i = 0; i < COUNT_OF(COUNTS); i++) {
    double error = fabs(COUNTS[i].count * one / grams - 1);
    if (error < best->error) *best = (struct household){COUNTS[i].words, unit, error};
  }
}

/* A household measure within this of the amount says the same. */
static const double MEASURE_TOLERANCE = 0.2;

/* People spoon what pours; mussels and liver go on the scales. */
static bool is_spooned(enum part p) {
  return p == PART_SEED_NUT || p == PART_GRAIN || p == PART_LEGUME || p == PART_FAT_OIL || p == PART_SUPPLEMENT;
}

/* By the food's own measures, else by its density; "" when neither fits. */
static const char *household_words(const struct review *r, uint32_t food, double grams) {
  struct household best = {NULL, NULL, MEASURE_TOLERANCE};
  const struct img_food *f = library_food(r->lib, food);
  size_t measures;
  if (!is_spooned((enum part)f->part)) return "";
  const struct img_measure *one = library_measures(r->lib, food, &measures);
  for (size_t i = 0; i < measures; i++, one++) {
    if (one->unit == UNIT_TSP || one->unit == UNIT_TBSP)
      try_measure(&best, grams, (double)one->grams, unit_info[one->unit].word);
  }
  if (!best.count && f->density > 0) {
    try_measure(&best, grams, (double)f->density * unit_info[UNIT_TSP].factor, unit_info[UNIT_TSP].word);
    try_measure(&best, grams, (double)f->density * unit_info[UNIT_TBSP].factor, unit_info[UNIT_TBSP].word);
  }
  if (!best.count) return "";
  struct buf b;
  buf_init(&b, r->arena, 64);
  buf_addf(&b, " (about %s %s)", best.count, best.unit);
  return buf_text(&b);
}

/* ---- what a gram supplies -------------------------------------------------------------------------------------- */

static double known(const struct img_value *v, enum nutrient n) {
  return v[n].status == VALUE_UNKNOWN || isnan(v[n].mean) ? 0 : (double)v[n].mean;
}

/* Per 100 g, vitamin A as the species can use it. */
static double held(const struct review *r, uint32_t food, enum nutrient n) {
  const struct img_value *v = library_values(r->lib, food);
  if (n != NUT_VITAMIN_A || known(v, n) > 0) return known(v, n);
  double factor = constant_of(r, K_CAROTENE_FACTOR);
  return known(v, NUT_RETINOL) + (isfinite(factor) ? factor * known(v, NUT_BETA_CAROTENE) : 0);
}

/* ---- one trial --------------------------------------------------------------------------------------------------- */

/* So much of a row of the table, so often. */
struct remedy {
  const struct img_fix *fix;        /* NULL: nothing */
  const struct img_shop_unit *unit; /* NULL: weighed */
  double amount, times;             /* grams or units a feeding; feedings in 28 days */
  double grams;                     /* a day, on average */
  bool covers;                      /* else it goes some of the way */
  double share;                     /* of what is missing */
  const struct remedy *with;        /* given together with it; NULL */
};

/* Grams of one unit: a food's own, or as much of the record as holds the stated amount. */
static double unit_grams(const struct review *r, const struct img_shop_unit *u) {
  if (u->nutrient >= NUT_COUNT) return (double)u->holds;
  double per_100g = held(r, u->food, (enum nutrient)u->nutrient);
  return per_100g > 0 ? (double)u->holds / per_100g * 100 : 0;
}

static struct exchange *review_trial(struct review *r) {
  if (!r->trial)
    r->trial = exchange_open(r->lib, r->result->ration, r->result->ration->line_count, r->result->animal,
                             &r->result->options, r->arena);
  return r->trial;
}

void review_end(struct review *r) {
  if (r->trial) exchange_close(r->trial);
  r->trial = NULL;
}

static struct ration_line line_of(const struct review *r, const struct remedy *m) {
  double grams = m->grams * CALENDAR_DAYS / m->times;
  struct ration_line more = {.text = "",
                             .part_count = 1,
                             .part = {{.food = m->fix->food, .grams = grams, .retention = -1}},
                             .grams_fed = grams,
                             .state = (enum state)library_food(r->lib, m->fix->food)->state,
                             .pinned = true,
                             .shown_food = m->fix->food,
                             .grams_from = "",
                             .low_g = grams,
                             .high_g = grams};
  ration_spread_days(&more, m->times, 0);
  return more;
}

/* The sums with it; the verdicts are reached one by one, as far as they are needed. */
static const struct check_result *sums_with(struct review *r, const struct remedy *m) {
  struct ration_line more = line_of(r, m);
  return exchange_sums(review_trial(r), &more);
}

static int trouble(enum verdict v) {
  return v == VERDICT_SHORT || v == VERDICT_OVER ? 2 : v == VERDICT_MET || v == VERDICT_NO_FIGURE ? 0 : 1;
}

static bool is_worse(struct review *r, const struct nutrient_result *a, const struct nutrient_result *b) {
  if (review_becomes_act(r, a, b)) return true;
  if (trouble(b->verdict) > trouble(a->verdict) || (b->verdict == VERDICT_OVER && a->verdict != VERDICT_OVER)) return true;
  return (b->highest_day_over && !a->highest_day_over) || (b->near_upper && !a->near_upper);
}

/* Mostly the answer is no, and all are looked at. */
enum { JUDGED_AT_ONCE = 16 };

/* Is anything worse for it: a nutrient, the richest day, calcium to phosphorus, the energy? */
static bool makes_worse(struct review *r, const struct check_result *sums) {
  const struct check_result *was = r->result;
  double a = was->balance.ca_p, b = sums->balance.ca_p;
  if ((b < 1 && !(a < 1 && b >= a)) || (b > 2 && !(a > 2 && b <= a))) return true;
  if (sums->energy.supply_kcal > sums->energy.need.high_kcal && was->energy.supply_kcal <= was->energy.need.high_kcal)
    return true;
  for (int n = 0; n < NUT_COUNT; n++) {
    const struct nutrient_result *now = &sums->nutrient[n];
    if (n % JUDGED_AT_ONCE == 0) exchange_judge(r->trial, n, n + JUDGED_AT_ONCE);
    bool judged = !isnan(now->allowance) || !isnan(now->upper); /* nothing gets worse where no figure says what is good */
    if (judged && is_worse(r, &was->nutrient[n], exchange_nutrient(r->trial, (enum nutrient)n))) return true;
  }
  return false;
}

static bool is_met(struct review *r, enum nutrient n) { return exchange_nutrient(r->trial, n)->verdict == VERDICT_MET; }

static bool breaks_something(struct review *r, const struct remedy *m, const struct check_result *sums) {
  return makes_worse(r, sums) || review_raises_a_mark(r, &sums->balance, m->fix->food, m->grams);
}

static bool breaks(struct review *r, const struct remedy *m) { return breaks_something(r, m, sums_with(r, m)); }

/* The first that would cover, were it not for what it raises, is held back: with something else beside it it may do. */
static bool covers(struct review *r, enum nutrient n, const struct remedy *m) {
  const struct check_result *sums = sums_with(r, m);
  if (!is_met(r, n) || makes_worse(r, sums)) return false;
  if (!review_raises_a_mark(r, &sums->balance, m->fix->food, m->grams)) return true;
  if (!r->held_back) {
    r->held_back = ARENA_NEW(r->arena, struct remedy, 1);
    *r->held_back = *m;
  }
  return false;
}

enum outcome { TOO_LITTLE, COVERS, BREAKS };

static enum outcome try_remedy(struct review *r, enum nutrient n, const struct remedy *m) {
  if (breaks(r, m)) return BREAKS;
  return is_met(r, n) ? COVERS : TOO_LITTLE;
}

/* ---- how much ---------------------------------------------------------------------------------------------------- */

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
  double per_gram = held(r, m->fix->food, n->id) / 100;
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
  double one = unit_grams(r, u), per_gram = held(r, m->fix->food, n->id) / 100,
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
  double grams = u ? unit_grams(r, u)
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
  double per_gram = held(r, m->fix->food, n->id) / 100, gap = gap_of(r, n);
  double most = portion_most_g(r->lib, m->fix->food, r->result->animal->species, r->result->body.metabolic_kg,
                               r->result->energy.grams_per_day);
  if (!(per_gram > 0) || !isfinite(most) || !(gap > 0)) return false;
  m->times = CALENDAR_DAYS;
  m->amount = m->grams = kitchen_grams(most / 2);
  m->share = m->grams * per_gram / gap;
  return m->grams <= most && m->share < 1 && !breaks(r, m);
}

static struct remedy best_remedy(struct review *r, const struct nutrient_result *n);

/* Zinc that would crowd out the copper, and the copper for it: both are given, or neither. */
static bool pair_with_copper(struct review *r, struct remedy *zinc) {
  const struct check_result *was = r->result;
  size_t lines = was->ration->line_count;
  struct ration_line *line = ARENA_NEW(r->arena, struct ration_line, lines + 1);
  struct ration ration = *was->ration;
  memcpy(line, ration.line, lines * sizeof *line);
  line[lines] = line_of(r, zinc);
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

/* ---- words ------------------------------------------------------------------------------------------------------- */

static void add_brought(const struct review *r, struct buf *b, uint32_t food, double grams) {
  const char *word[3];
  size_t n = 0;
  double fat = grams / 100 * held(r, food, NUT_FAT), phytate = grams / 100 * held(r, food, NUT_PHYTATE),
         kcal = grams / 100 * held(r, food, NUT_ENERGY);
  struct buf text;
  if (fat >= 0.5) {
    buf_init(&text, r->arena, 64);
    num_sig(&text, fat, 2);
    buf_adds(&text, " g fat");
    word[n++] = buf_text(&text);
  }
  if (phytate >= 10) {
    buf_init(&text, r->arena, 64);
    num_sig(&text, phytate, 2);
    buf_adds(&text, " mg phytate");
    word[n++] = buf_text(&text);
  }
  if (kcal >= 0.03 * r->result->energy.supply_kcal) {
    buf_init(&text, r->arena, 64);
    num_fixed(&text, kcal, 0);
    buf_adds(&text, " kcal");
    word[n++] = buf_text(&text);
  }
  if (n > 0) buf_addf(b, " and add %s", list_of_few(r, word, n, n));
}

static void add_count(struct buf *b, double x) {
  double whole = floor(x);
  if (whole > 0) num_fixed(b, whole, 0);
  if (x > whole) buf_adds(b, whole > 0 ? " 1/2" : "1/2");
}

static const char *times_words(double times) {
  static const struct {
    double from; /* feedings in 28 days */
    const char *words;
  } ROW[] = {{CALENDAR_DAYS, " a day"}, {14, " every other day"}, {12, " 3 times a week"}, {8, " twice a week"}};
  for (size_t i = 0; i < COUNT_OF(ROW); i++)
    if (times >= ROW[i].from) return ROW[i].words;
  return " once a week";
}

/* "12 g of beef liver", "1/2 tablet of zinc 10 mg": one feeding, as the recipe's reader reads it back. */
static const char *feeding_words(const struct review *r, const struct remedy *m) {
  struct buf b;
  buf_init(&b, r->arena, 300);
  if (!m->unit) {
    buf_addf(&b, "%s of %s", amount_words(r->arena, m->amount, "g"), lib_str(r->lib, m->fix->words));
    return buf_text(&b);
  }
  const char *unit = lib_str(r->lib, m->unit->unit);
  bool many = m->amount > 1, sized = unit_by_word(span_of(unit)) == UNIT_LARGE;
  add_count(&b, m->amount);
  const char *what = lib_str(r->lib, many ? m->unit->many : m->unit->one);
  const char *size = what[0] == '(' ? strstr(what, ") ") : NULL; /* "(92 g) sardines in oil, drained" */
  if (size) buf_addf(&b, " %s%s %.*s of %s", unit, many ? "s" : "", (int)(size - what + 1), what, size + 2);
  if (!size) buf_addf(&b, " %s%s %s%s", unit, many && !sized ? "s" : "", sized ? "" : "of ", what);
  return buf_text(&b);
}

/* "12 g of beef liver a day", "1 can (92 g) of sardines in oil, drained, once a week" */
static const char *dose_words(const struct review *r, const struct remedy *m) {
  const char *once = feeding_words(r, m);
  return words_text(r->arena, "%s%s%s", once, m->unit && strchr(once, ',') ? "," : "",
                    m->unit ? times_words(m->times) : " a day");
}

static const char *measure_words(const struct review *r, const struct remedy *m) {
  return m->unit ? "" : household_words(r, m->fix->food, m->amount);
}

static const char *covering_words(const struct review *r, const struct remedy *m) {
  struct buf b;
  buf_init(&b, r->arena, 512);
  buf_addf(&b, "About %s%s", dose_words(r, m), measure_words(r, m));
  if (m->with) buf_addf(&b, " together with %s%s", dose_words(r, m->with), measure_words(r, m->with));
  buf_adds(&b, " would cover it");
  add_brought(r, &b, m->with ? m->with->fix->food : m->fix->food, m->with ? m->with->grams : m->grams);
  buf_adds(&b, ".");
  return buf_text(&b);
}

/* No single food does it: the one that comes nearest, and how far it goes. */
static const char *nearest_words(const struct review *r, const struct remedy *m) {
  struct buf b;
  buf_init(&b, r->arena, 512);
  buf_addf(&b, "No single food covers it; %s%s would supply %s of what is missing", dose_words(r, m), measure_words(r, m),
           words_share(r->arena, m->share));
  add_brought(r, &b, m->fix->food, m->grams);
  buf_adds(&b, ".");
  return buf_text(&b);
}

/* ---- what others ask --------------------------------------------------------------------------------------------- */

const char *remedy_for(struct review *r, const struct nutrient_result *n, bool *covers) {
  struct remedy m = best_remedy(r, n);
  *covers = m.fix && m.covers;
  if (!m.fix) return "";
  return m.covers ? covering_words(r, &m) : nearest_words(r, &m);
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
             ? (struct finding_remedy){m.fix->food, m.grams, m.times, dose_words(&r, &m), feeding_words(&r, &m)}
             : none;
}

/* Is there enough of it, whatever else is judged? A food that is fed daily adds the same to every window, and no need falls
 * because more is eaten, but those that hang on what the gut makes; sums of several nutrients are left to the judge. */
static bool may_be_met(const struct review *r, const struct remedy *m, enum nutrient n) {
  static const double ROUNDING = 1e-6;
  const struct nutrient_result *x = &r->result->nutrient[n];
  bool plain = n != NUT_VITAMIN_A && n != NUT_EPA_DHA && n != NUT_VITAMIN_K && n != NUT_BIOTIN && n != NUT_ENERGY;
  if (!plain || !(r->result->energy.supply_kcal > 0)) return true;
  return counted(x) + m->grams * held(r, m->fix->food, n) / 100 >= x->allowance * (1 - ROUNDING);
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
  const struct check_result *sums = sums_with(r, m);
  size_t covered = 0;
  for (size_t i = 0; i < count; i++)
    if (is_met(r, n[i])) name[covered++] = words_nutrient(r->arena, n[i]);
  return covered > most && !breaks_something(r, m, sums) ? covered : 0;
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
  buf_addf(&b, "About %s%s would cover %s", dose_words(r, &best), measure_words(r, &best),
           list_of_few(r, best_name, most, most));
  add_brought(r, &b, best.fix->food, best.grams);
  buf_adds(&b, ".");
  return buf_text(&b);
}
