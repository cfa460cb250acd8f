#include <math.h>

#include "judge/check_steps.h"
#include "judge/constants.h"
#include "judge/stats.h"
#include "judge/totals_parts.h"

struct factors {
  double protein, fat, carbohydrate;
};

/* kcal of one gram of a food, by source, with the variance of the sum. */
struct kcal {
  double protein, fat, carbohydrate, total, cv2;
};

/* Carbohydrate is published by difference and holds the fibre. Where the fibre of a plant is not known, none is taken
 * away: the energy then reads a little high, which the manual says. */
static double without_fiber(const struct stream *s) { return fmax(0.0, s->per_g[NUT_CARBOHYDRATE] - s->per_g[NUT_FIBER]); }

static double part_variance(const struct stream *s, enum nutrient n, double kcal) {
  return kcal * kcal * cv2_of_product(s->value_cv2[n], s->kept_cv2[n]);
}

static bool has_gap(const struct stream *s) {
  return s->missing[NUT_PROTEIN] || s->missing[NUT_FAT] || s->missing[NUT_CARBOHYDRATE];
}

static struct kcal kcal_per_g(const struct stream *s, const struct factors *f) {
  struct kcal k = {f->protein * s->per_g[NUT_PROTEIN], f->fat * s->per_g[NUT_FAT], f->carbohydrate * without_fiber(s), 0, 0};
  k.total = k.protein + k.fat + k.carbohydrate;
  double variance = part_variance(s, NUT_PROTEIN, k.protein) + part_variance(s, NUT_FAT, k.fat) +
                    part_variance(s, NUT_CARBOHYDRATE, k.carbohydrate);
  if (has_gap(s) && !s->missing[NUT_ENERGY]) { /* a label that states its energy and no more */
    k.total = s->per_g[NUT_ENERGY];
    variance = part_variance(s, NUT_ENERGY, k.total);
  }
  k.cv2 = k.total > 0 ? variance / (k.total * k.total) : 0;
  return k;
}

struct energy_sum {
  double kcal, variance, protein, fat, carbohydrate;
};

/* Portions of one food share its spread; between foods the variances add. */
static struct energy_sum sum_energy(const struct totals *t, const struct kcal *per_g) {
  struct energy_sum e = {0, 0, 0, 0, 0};
  for (int i = 0; i < t->row_count;) {
    uint32_t food = t->stream[t->row[i].stream]->food;
    double total = 0, loose = 0, cv2 = 0;
    for (; i < t->row_count && t->stream[t->row[i].stream]->food == food; i++) {
      const struct portion_row *r = &t->row[i];
      const struct kcal *k = &per_g[r->stream];
      double x = r->day_g * k->total;
      total += x;
      loose += x * x * r->grams_cv2;
      cv2 = fmax(cv2, k->cv2);
      e.protein += r->day_g * k->protein;
      e.fat += r->day_g * k->fat;
      e.carbohydrate += r->day_g * k->carbohydrate;
    }
    e.kcal += total;
    e.variance += cv2 * total * total + (1 + cv2) * loose;
  }
  return e;
}

/* From here on the energy of each food is what this species gets from it, so that windows, suppliers and gaps are those of
 * the supply and not of the published figure. */
static void set_energy(struct stream *s, const struct kcal *per_g) {
  if (!has_gap(s) || !s->missing[NUT_ENERGY]) {
    s->missing[NUT_ENERGY] = false;
    s->high_per_g[NUT_ENERGY] = s->most_per_g[NUT_ENERGY] = 0;
    s->status[NUT_ENERGY] = VALUE_MEASURED;
  }
  s->per_g[NUT_ENERGY] = per_g->total;
  s->value_cv2[NUT_ENERGY] = per_g->cv2;
  s->kept_cv2[NUT_ENERGY] = 0;
}

static void set_energy_of_streams(struct totals *t, const struct kcal *per_g, const struct energy_sum *e) {
  for (int i = 0; i < t->stream_count; i++) set_energy(t->stream[i], &per_g[i]);
  t->amount[NUT_ENERGY] = e->kcal;
  t->variance[NUT_ENERGY] = e->variance;
  t->missing_g[NUT_ENERGY] = t->missing_high[NUT_ENERGY] = t->missing_most[NUT_ENERGY] = 0;
  for (int i = 0; i < t->row_count; i++) {
    const struct portion_row *r = &t->row[i];
    const struct stream *s = t->stream[r->stream];
    if (!s->missing[NUT_ENERGY]) continue;
    t->missing_g[NUT_ENERGY] += r->eaten_g;
    t->missing_high[NUT_ENERGY] += r->day_g * s->high_per_g[NUT_ENERGY];
    t->missing_most[NUT_ENERGY] += r->day_g * s->most_per_g[NUT_ENERGY];
  }
  totals_set_steady(t, NUT_ENERGY);
}

static double published(const struct totals *t) {
  double kcal = 0;
  for (int i = 0; i < t->row_count; i++) {
    const struct stream *s = t->stream[t->row[i].stream];
    if (s->missing[NUT_ENERGY]) return (double)NAN;
    kcal += t->row[i].day_g * s->per_g[NUT_ENERGY];
  }
  return kcal;
}

/* Protein, fat, carbohydrate and ash: what is left when the water is gone, cooked or not. */
static double dry_matter(const struct totals *t) {
  return t->amount[NUT_PROTEIN] + t->amount[NUT_FAT] + t->amount[NUT_CARBOHYDRATE] + t->amount[NUT_ASH];
}

/* NRC 2006 in four steps, with total dietary fibre: gross energy, its digestibility, less what the urine carries. Made
 * for whole prepared diets, so it is applied to the bowl and not food by food. */
static double four_step(const struct totals *t, enum species s) {
  static const enum nutrient NEEDED[] = {NUT_PROTEIN, NUT_FAT, NUT_CARBOHYDRATE, NUT_FIBER, NUT_ASH};
  for (size_t i = 0; i < COUNT_OF(NEEDED); i++)
    if (t->missing_g[NEEDED[i]] > 0) return (double)NAN;
  struct factors g = {judge_constant(t, JUDGE_GROSS_PROTEIN, s), judge_constant(t, JUDGE_GROSS_FAT, s),
                      judge_constant(t, JUDGE_GROSS_CARBOHYDRATE, s)};
  double dry = dry_matter(t);
  if (!(dry > 0)) return 0;
  double fiber_percent = 100.0 * t->amount[NUT_FIBER] / dry;
  double digestible =
      judge_constant(t, JUDGE_DIGESTIBILITY_START, s) - judge_constant(t, JUDGE_DIGESTIBILITY_SLOPE, s) * fiber_percent;
  double gross =
      g.protein * t->amount[NUT_PROTEIN] + g.fat * t->amount[NUT_FAT] + g.carbohydrate * t->amount[NUT_CARBOHYDRATE];
  return gross * digestible / 100.0 - judge_constant(t, JUDGE_URINARY_LOSS, s) * t->amount[NUT_PROTEIN];
}

static void fill_suppliers(const struct totals *t, const struct kcal *per_g, double kcal, struct energy_result *out,
                           struct arena *arena) {
  size_t lines = t->ration->line_count, n = 0;
  struct supplier *from = arena_raw(arena, lines, sizeof *from);
  double *of_line = ARENA_NEW(arena, double, lines);
  for (int i = 0; i < t->row_count; i++) of_line[t->row[i].line] += t->row[i].day_g * per_g[t->row[i].stream].total;
  for (size_t i = 0; i < lines; i++) {
    double x = of_line[i];
    size_t place = 0; /* to look for it would be to guess wrong as often as right: every line is compared */
    for (size_t k = 0; k < lines; k++) place += (of_line[k] > x) | ((of_line[k] == x) & (k < i));
    if (!(x > 0)) continue;
    from[place] = (struct supplier){x, x / kcal, (int)i, VALUE_MEASURED};
    n++;
  }
  out->from = from;
  out->from_count = n;
}

double energy_room_for_missing(double kcal) {
  static const double SLIGHT = 0.20; /* as far apart as two animals that the equation takes for alike */
  return SLIGHT * kcal;
}

bool energy_is_in_part(double kcal, double missing_most) { return missing_most > energy_room_for_missing(kcal); }

/* The other two ways give no figure at all where one is missing. */
static bool supply_in_part(const struct totals *t, const struct check_options *options, double kcal) {
  return options->energy_by == ENERGY_ATWATER && energy_is_in_part(kcal, t->missing_most[NUT_ENERGY]);
}

static double supply_by(const struct totals *t, enum species s, const struct check_options *options, double atwater) {
  switch (options->energy_by) {
  case ENERGY_PUBLISHED:
    return published(t);
  case ENERGY_FOUR_STEP:
    return four_step(t, s);
  case ENERGY_ATWATER:
    break;
  }
  return atwater;
}

static struct factors factors_of(const struct totals *t, enum species s) {
  return (struct factors){judge_constant(t, JUDGE_ATWATER_PROTEIN, s), judge_constant(t, JUDGE_ATWATER_FAT, s),
                          judge_constant(t, JUDGE_ATWATER_CARBOHYDRATE, s)};
}

static struct kcal *kcal_of_streams(const struct totals *t, enum species s, struct arena *arena) {
  struct factors f = factors_of(t, s);
  struct kcal *per_g = ARENA_NEW(arena, struct kcal, (size_t)t->stream_count);
  for (int i = 0; i < t->stream_count; i++) per_g[i] = kcal_per_g(t->stream[i], &f);
  return per_g;
}

void energy_supply_alone(struct totals *t, enum species s, const struct check_options *options, struct energy_result *out,
                         struct arena *arena) {
  const struct kcal *per_g = kcal_of_streams(t, s, arena);
  struct energy_sum e = sum_energy(t, per_g);
  out->supply_kcal = supply_by(t, s, options, e.kcal);
  out->grams_per_day = t->eaten_g;
  set_energy_of_streams(t, per_g, &e);
  out->in_part = supply_in_part(t, options, e.kcal);
}

void energy_supply(struct totals *t, enum species s, const struct check_options *options, struct energy_result *out,
                   struct arena *arena) {
  const struct kcal *per_g = kcal_of_streams(t, s, arena);
  struct energy_sum e = sum_energy(t, per_g);
  out->published_kcal = published(t);
  out->four_step_kcal = four_step(t, s);
  out->supply_kcal = supply_by(t, s, options, e.kcal);
  set_energy_of_streams(t, per_g, &e);
  out->in_part = supply_in_part(t, options, e.kcal);
  double cv = totals_cv(e.kcal, e.variance);
  out->supply_low = lognormal_at(out->supply_kcal, cv, -NORMAL_95);
  out->supply_high = out->in_part ? (double)NAN : lognormal_at(out->supply_kcal, cv, NORMAL_95);
  out->grams_per_day = t->eaten_g;
  out->kcal_per_kg = t->eaten_g > 0 ? out->supply_kcal / t->eaten_g * 1000.0 : (double)NAN;
  double macros = e.protein + e.fat + e.carbohydrate;
  out->macro_kcal = macros;
  out->share_protein = macros > 0 ? e.protein / macros : (double)NAN;
  out->share_fat = macros > 0 ? e.fat / macros : (double)NAN;
  out->share_carbohydrate = macros > 0 ? e.carbohydrate / macros : (double)NAN;
  fill_suppliers(t, per_g, e.kcal, out, arena);
}

struct stream *const *energy_streams_again(const struct totals *t, enum species s, struct arena *arena) {
  struct stream **stream = totals_streams_again(t, arena);
  struct factors f = factors_of(t, s);
  for (int i = 0; stream != t->stream && i < t->stream_count; i++) {
    struct kcal k = kcal_per_g(stream[i], &f);
    set_energy(stream[i], &k);
  }
  return stream;
}

struct line_energy energy_of_line(const struct library *lib, enum species s, const struct check_options *options,
                                  const struct ration_line *line, struct arena *arena) {
  struct ration_line daily = *line;
  struct ration one = {.name = "", .days = 1, .meals_per_day = NAN, .line = &daily, .line_count = 1};
  struct energy_result e = {0};
  ration_spread_days(&daily, CALENDAR_DAYS, 0);
  /* Carotene makes no energy. */
  struct totals *t = totals_gather(lib, &one, 0, arena);
  energy_supply_alone(t, s, options, &e, arena);
  return (struct line_energy){e.supply_kcal, options->energy_by == ENERGY_ATWATER ? t->missing_most[NUT_ENERGY] : 0};
}
