/* What would close a gap: foods of data/fixes.tsv, in amounts that a kitchen can weigh, with what else they bring. */
#include <math.h>

#include "base/num.h"
#include "foods/constant_keys.h"
#include "foods/portion.h"
#include "foods/unit.h"
#include "review/findings_internal.h"

/* ---- amounts of a kitchen -------------------------------------------------------------------------------------- */

/* Rounded up, so that the gap stays closed: to 5 g from 20 g, to 1 g from 5 g, to half a gram from 1 g, to a tenth below. */
static double kitchen_grams(double grams) {
  double step = grams >= 100 ? 10 : grams >= 20 ? 5 : grams >= 5 ? 1 : grams >= 1 ? 0.5 : grams >= 0.1 ? 0.1 : 0.005;
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

/* People spoon what pours and count eggs; mussels and liver go on the scales. */
static bool is_spooned(enum part p) {
  return p == PART_SEED_NUT || p == PART_GRAIN || p == PART_LEGUME || p == PART_FAT_OIL || p == PART_SUPPLEMENT;
}

/* By the food's own measures, else by its density; "" when neither fits. */
static const char *household_words(const struct review *r, uint32_t food, double grams) {
  struct household best = {NULL, NULL, MEASURE_TOLERANCE};
  const struct img_food *f = library_food(r->lib, food);
  const struct img_measure *m = IMG_ROWS(&r->lib->image, IMG_MEASURES, struct img_measure);
  bool spooned = is_spooned((enum part)f->part);
  for (uint32_t i = 0; i < f->measure_count; i++) {
    const struct img_measure *one = &m[f->measure_first + i];
    bool spoon = spooned && (one->unit == UNIT_TSP || one->unit == UNIT_TBSP);
    bool counted = f->part == PART_EGG && one->unit == UNIT_LARGE;
    if (spoon || counted) try_measure(&best, grams, (double)one->grams, unit_info[one->unit].word);
  }
  if (!best.count && spooned && f->density > 0) {
    try_measure(&best, grams, (double)f->density * unit_info[UNIT_TSP].factor, unit_info[UNIT_TSP].word);
    try_measure(&best, grams, (double)f->density * unit_info[UNIT_TBSP].factor, unit_info[UNIT_TBSP].word);
  }
  if (!best.count) return "";
  struct buf b;
  buf_init(&b, r->arena, 64);
  buf_addf(&b, " (about %s %s)", best.count, best.unit);
  return buf_text(&b);
}

/* ---- what a gram brings ---------------------------------------------------------------------------------------- */

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

/* Toward the gap: a food rich in unsaturated fat raises the need for vitamin E while it brings some. */
static double brings(const struct review *r, uint32_t food, enum nutrient n) {
  double gross = held(r, food, n);
  if (n != NUT_VITAMIN_E || !r->result->nutrient[n].adjusted) return gross;
  const struct img_value *v = library_values(r->lib, food);
  double pufa = known(v, NUT_LINOLEIC) + known(v, NUT_ARACHIDONIC) + known(v, NUT_ALPHA_LINOLENIC);
  return gross - pufa * constant_of(r, K_E_PER_PUFA) - known(v, NUT_EPA) * constant_of(r, K_E_PER_EPA) -
         known(v, NUT_DHA) * constant_of(r, K_E_PER_DHA);
}

/* What is missing so that the allowance is met with the confidence asked, the relative spread staying as it is. */
static double gap_of(const struct review *r, const struct nutrient_result *n) {
  double cv = isfinite(n->cv) ? n->cv : 0;
  return n->allowance / lognormal_quantile(1.0, cv, 1.0 - r->result->options.sure) - n->window_amount;
}

/* A food that varies much brings its own doubt: whether so many grams of it really make the nutrient met. */
static bool meets_with(const struct review *r, const struct nutrient_result *n, uint32_t food, double grams) {
  double own = isfinite(n->cv) ? n->cv * n->window_amount : 0, more = brings(r, food, n->id) / 100 * grams;
  double spread = img_cv(library_values(r->lib, food)[n->id]) * more, mean = n->window_amount + more;
  double cv = mean > 0 ? sqrt(own * own + spread * spread) / mean : 0;
  return lognormal_quantile(mean, cv, 1.0 - r->result->options.sure) >= n->allowance;
}

/* The kitchen amount that meets the nutrient; INFINITY when even 'most' does not. */
static double meeting_grams(const struct review *r, const struct nutrient_result *n, uint32_t food, double most) {
  const double step = 1.1; /* finer than a kitchen weighs */
  double per_gram = brings(r, food, n->id) / 100;
  if (!(per_gram > 0) || !(most > 0)) return INFINITY;
  double least = fmax(0, n->allowance - n->window_amount) / per_gram;
  /* Where the tables reach the allowance already, a thousandth of the most is where the search begins. */
  for (double grams = fmax(least, most / 1000); grams <= most; grams *= step)
    if (meets_with(r, n, food, kitchen_grams(grams))) return kitchen_grams(grams);
  return INFINITY;
}

/* Whether so many grams a day would push another nutrient over its upper limit. */
static bool opens_a_hole(const struct review *r, uint32_t food, double grams) {
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct nutrient_result *n = &r->result->nutrient[k];
    if (isfinite(n->upper) && !n->upper_greater_than && known_part(n->amount) <= n->upper &&
        known_part(n->amount) + grams / 100 * held(r, food, (enum nutrient)k) > n->upper)
      return true;
  }
  return false;
}

/* The most of a food that is sensible for this animal: the table's figure is for 10 kg and grows with metabolic weight. */
static double most_grams(const struct review *r, const struct img_fix *fix) {
  if (fix->shop_unit != NO_INDEX) return 0;
  return portion_most_g(r->lib, fix->food, r->result->animal->species, r->result->body.metabolic_kg,
                        r->result->energy.grams_per_day);
}

/* Below a twentieth of that nobody weighs a food out: "a little more" says it better. A pure substance is weighed. */
static const double LEAST_SHARE_OF_MOST = 0.05;

static bool fits_species(const struct review *r, const struct img_fix *fix) {
  return fix->species == SPECIES_BOTH || fix->species == r->result->animal->species;
}

/* ---- words ----------------------------------------------------------------------------------------------------- */

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

static void add_amount(const struct review *r, struct buf *b, const struct img_fix *fix, double grams) {
  buf_addf(b, "%s%s of %s", words_mass(r->arena, grams), household_words(r, fix->food, grams), lib_str(r->lib, fix->words));
}

static const char *closing_words(const struct review *r, const struct img_fix *fix, double grams) {
  struct buf b;
  buf_init(&b, r->arena, 512);
  bool pure = library_food(r->lib, fix->food)->part == PART_SUPPLEMENT;
  if (!pure && grams < LEAST_SHARE_OF_MOST * most_grams(r, fix)) {
    buf_addf(&b, "A little more %s would cover it.", lib_str(r->lib, fix->words));
    return buf_text(&b);
  }
  buf_adds(&b, "About ");
  add_amount(r, &b, fix, grams);
  buf_adds(&b, " a day would cover it");
  add_brought(r, &b, fix->food, grams);
  buf_adds(&b, ".");
  return buf_text(&b);
}

/* No single food does it: the one that comes nearest, and how far it goes. */
static const char *nearest_words(const struct review *r, const struct img_fix *fix, double grams, double share) {
  struct buf b;
  buf_init(&b, r->arena, 512);
  buf_adds(&b, "No single food covers it; ");
  add_amount(r, &b, fix, grams);
  buf_addf(&b, " a day would supply %s of what is missing", words_share(r->arena, share));
  add_brought(r, &b, fix->food, grams);
  buf_adds(&b, ".");
  return buf_text(&b);
}

/* ---- choosing -------------------------------------------------------------------------------------------------- */

/* What the table offers for one gap. */
struct offer {
  const struct img_fix *fix; /* NULL: nothing */
  double grams, share;       /* share of the gap that it brings; 1 or more closes it */
};

/* The first food of the table that closes the gap within a sensible amount and opens no other hole; else the one that brings
 * the most of it in half of the most that is sensible. */
static struct offer best_offer(const struct review *r, const struct nutrient_result *n) {
  const struct img_fix *fix = IMG_ROWS(&r->lib->image, IMG_FIXES, struct img_fix);
  struct offer best = {NULL, 0, 0};
  double gap = gap_of(r, n);
  for (size_t i = 0, rows = img_count(&r->lib->image, IMG_FIXES); i < rows && gap > 0; i++) {
    double per_gram = brings(r, fix[i].food, n->id) / 100, most = most_grams(r, &fix[i]);
    if (fix[i].nutrient != n->id || !fits_species(r, &fix[i]) || !(per_gram > 0)) continue;
    double grams = meeting_grams(r, n, fix[i].food, most);
    if (grams <= most && !opens_a_hole(r, fix[i].food, grams)) return (struct offer){&fix[i], grams, 1};
    double some = kitchen_grams(most / 2), share = some * per_gram / gap;
    if (share > best.share && share < 1 && !opens_a_hole(r, fix[i].food, some)) best = (struct offer){&fix[i], some, share};
  }
  return best;
}

const char *remedy_for(const struct review *r, const struct nutrient_result *n) {
  struct offer o = best_offer(r, n);
  if (!o.fix) return "";
  return o.share >= 1 ? closing_words(r, o.fix, o.grams) : nearest_words(r, o.fix, o.grams, o.share);
}

uint32_t findings_remedy(const struct library *lib, const struct check_result *result, enum nutrient n, double *grams,
                         struct arena *arena) {
  struct check_result copy = *result;
  struct review r = {.lib = lib, .result = &copy, .arena = arena};
  const struct nutrient_result *x = &result->nutrient[n];
  if (!review_judged(&r) || !is_lacking(x) || !(x->allowance > 0)) return NO_INDEX;
  struct offer o = best_offer(&r, x);
  *grams = o.grams;
  return o.fix && o.share >= 1 ? o.fix->food : NO_INDEX;
}

/* Which of the gaps so many grams close; their number. */
static size_t closed_by(const struct review *r, uint32_t food, double grams, const enum nutrient *n, size_t count,
                        const char **name) {
  size_t closed = 0;
  for (size_t i = 0; i < count; i++)
    if (brings(r, food, n[i]) * grams / 100 >= gap_of(r, &r->result->nutrient[n[i]]))
      name[closed++] = words_nutrient(r->arena, n[i]);
  return closed;
}

const char *remedy_for_several(const struct review *r, const enum nutrient *n, size_t count) {
  const struct img_fix *fix = IMG_ROWS(&r->lib->image, IMG_FIXES, struct img_fix), *best = NULL;
  const char **name = ARENA_NEW(r->arena, const char *, count), **best_name = ARENA_NEW(r->arena, const char *, count);
  size_t rows = img_count(&r->lib->image, IMG_FIXES), most_closed = 1;
  double best_g = 0;
  for (size_t i = 0; i < rows; i++) {
    double grams = kitchen_grams(most_grams(r, &fix[i]) / 2);
    if (!fits_species(r, &fix[i]) || opens_a_hole(r, fix[i].food, grams)) continue;
    size_t closed = closed_by(r, fix[i].food, grams, n, count, name);
    if (closed <= most_closed) continue;
    most_closed = closed;
    best = &fix[i];
    best_g = grams;
    memcpy(best_name, name, closed * sizeof *name);
  }
  if (!best) return "";
  struct buf b;
  buf_init(&b, r->arena, 1024);
  buf_adds(&b, "About ");
  add_amount(r, &b, best, best_g);
  buf_addf(&b, " a day would cover %s", list_of_few(r, best_name, most_closed, most_closed));
  add_brought(r, &b, best->food, best_g);
  buf_adds(&b, ".");
  return buf_text(&b);
}
