/* A remedy in words: what to feed, in amounts and measures of a kitchen, how often, and what it brings with it. */
#include <math.h>

#include "base/num.h"
#include "foods/unit.h"
#include "review/remedy.h"

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

void remedy_add_brought(const struct review *r, struct buf *b, uint32_t food, double grams) {
  const char *word[3];
  size_t n = 0;
  double fat = grams / 100 * remedy_held(r, food, NUT_FAT), phytate = grams / 100 * remedy_held(r, food, NUT_PHYTATE),
         kcal = grams / 100 * remedy_held(r, food, NUT_ENERGY);
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
const char *remedy_feeding(const struct review *r, const struct remedy *m) {
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
const char *remedy_dose(const struct review *r, const struct remedy *m) {
  const char *once = remedy_feeding(r, m);
  return words_text(r->arena, "%s%s%s", once, m->unit && strchr(once, ',') ? "," : "",
                    m->unit ? times_words(m->times) : " a day");
}

const char *remedy_measure(const struct review *r, const struct remedy *m) {
  return m->unit ? "" : household_words(r, m->fix->food, m->amount);
}

const char *remedy_covering(const struct review *r, const struct remedy *m) {
  struct buf b;
  buf_init(&b, r->arena, 512);
  buf_addf(&b, "About %s%s", remedy_dose(r, m), remedy_measure(r, m));
  if (m->with) buf_addf(&b, " together with %s%s", remedy_dose(r, m->with), remedy_measure(r, m->with));
  buf_adds(&b, " would cover it");
  remedy_add_brought(r, &b, m->with ? m->with->fix->food : m->fix->food, m->with ? m->with->grams : m->grams);
  buf_adds(&b, ".");
  return buf_text(&b);
}

/* No single food does it: the one that comes nearest, and how far it goes. */
const char *remedy_nearest(const struct review *r, const struct remedy *m) {
  struct buf b;
  buf_init(&b, r->arena, 512);
  buf_addf(&b, "No single food covers it; %s%s would supply %s of what is missing", remedy_dose(r, m), remedy_measure(r, m),
           words_share(r->arena, m->share));
  remedy_add_brought(r, &b, m->fix->food, m->grams);
  buf_adds(&b, ".");
  return buf_text(&b);
}
