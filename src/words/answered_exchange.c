/* One food in the place of another, and a food that may come in: the judge is asked for that bowl. */
#include <math.h>

#include "foods/portion.h"
#include "judge/exchange.h"
#include "words/answered_parts.h"

/* What must not be fed to it at all is told by the review. */
static bool is_danger(const struct asked_scene *x, uint32_t food) {
  const struct img_food *f = library_food(x->lib, food);
  if (!f) return true;
  if (f->hazard >= img_count(&x->lib->image, IMG_HAZARDS)) return false;
  const struct img_hazard *h = &IMG_ROWS(&x->lib->image, IMG_HAZARDS, struct img_hazard)[f->hazard];
  return h->weight == FINDING_ACT && (h->species == SPECIES_BOTH || h->species == x->r->animal->species);
}

/* So much of a food at a feeding, on the days of a line; NULL: every day. */
static struct ration_line line_of(uint32_t food, double grams, const struct ration_line *as) {
  struct ration_line in = {.text = "", .food_words = "", .part_count = 1, .grams_fed = grams, .shown_food = food};
  in.part[0] = (struct portion){.food = food, .grams = grams, .retention = -1};
  ration_spread_days(&in, CALENDAR_DAYS, 0);
  if (!as) return in;
  in.times_per_28 = as->times_per_28;
  in.frequency_stated = as->frequency_stated;
  memcpy(in.fed_on, as->fed_on, sizeof in.fed_on);
  return in;
}

static double shown_grams(double grams) { return grams < 10 ? round(grams * 10) / 10 : round(grams); }

/* " It has 120 kcal a day more."; "" where it is next to nothing. */
static const char *energy_words(const struct asked_scene *x, double kcal) {
  static const double LITTLE = 0.03; /* of the need */
  double by = kcal - x->r->energy.supply_kcal;
  if (!(fabs(by) > LITTLE * x->r->energy.need.kcal)) return "";
  return words_text(x->a, " The bowl then has %s kcal a day %s.", words_whole(x->a, fabs(by)), by > 0 ? "more" : "less");
}

/* ", and too much copper", ", though enough iodine" */
static const char *besides(const struct asked_scene *x, const struct answered_change *c, const char *gained) {
  const char *harm = c->harm > 0 ? words_text(x->a, ", and too much %s", answered_names(x, c->harmed, c->harm)) : "";
  return c->gain > 0 ? words_text(x->a, "%s, %s %s", harm, gained, answered_names(x, c->gained, c->gain)) : harm;
}

/* Rice as it is bought, where no record has it boiled. */
static bool is_dry(const struct asked_scene *x, uint32_t food) {
  static const double DRY = 25; /* g of water in 100 g at most */
  const struct img_food *f = library_food(x->lib, food);
  return f && (f->part == PART_GRAIN || f->part == PART_LEGUME) &&
         (double)library_values(x->lib, food)[NUT_WATER].mean < DRY;
}

/* Grams of a food at a feeding that hold as much energy as the line does; NaN. */
static double as_much_energy(const struct asked_scene *x, size_t line, uint32_t food) {
  const struct ration_line *l = &x->r->ration->line[line];
  double was = (double)library_values(x->lib, l->shown_food)[NUT_ENERGY].mean,
         is = (double)library_values(x->lib, food)[NUT_ENERGY].mean;
  return is > 0 ? round(l->grams_fed * was / is) : (double)NAN;
}

/* The bowl without the line, with room for one in its place. */
static struct ration without_line(const struct asked_scene *x, size_t line) {
  const struct ration *is = x->r->ration;
  struct ration left = *is;
  struct ration_line *lines = ARENA_NEW(x->a, struct ration_line, is->line_count + 1);
  left.line = lines;
  left.line_count = 0;
  for (size_t i = 0; i < is->line_count; i++)
    if (i != line) lines[left.line_count++] = is->line[i];
  return left;
}

static const char *exchanged_words(const struct asked_scene *x, size_t line, uint32_t food, const char *called) {
  const struct ration *is = x->r->ration;
  struct ration left = without_line(x, line);
  bool dry = is_dry(x, food) && !is_dry(x, is->line[line].shown_food);
  double grams = dry ? as_much_energy(x, line, food) : is->line[line].grams_fed;
  if (!(grams > 0)) return "";
  if (dry) called = words_text(x->a, "%s, weighed dry,", called);
  struct ration_line in = line_of(food, grams, &is->line[line]);
  struct exchange *ex = exchange_open(x->lib, &left, left.line_count, x->r->animal, &x->r->options, x->a);
  const struct check_result *r = exchange_line(ex, &in);
  struct answered_change c = answered_change(x->r, r);
  const char *energy = energy_words(x, r->energy.supply_kcal), *was = words_line(x->a, x->lib, is, (int)line),
             *mass = words_mass(x->a, shown_grams(grams)),
             *cured = c.cure > 0
                          ? words_text(x->a, " There would no longer be too much %s.", answered_names(x, c.cured, c.cure))
                          : "";
  exchange_close(ex);
  if (c.lose == 0 && c.harm == 0)
    return words_text(x->a, "Yes, %s of %s may take the place of %s: nothing that is enough now would fall short%s.%s%s",
                      mass, called, was, besides(x, &c, "and there would be enough"), cured, energy);
  if (c.lose == 0)
    return words_text(x->a, "Not as much: %s of %s in place of %s would supply too much %s.%s%s", mass, called, was,
                      answered_names(x, c.harmed, c.harm), cured, energy);
  return words_text(x->a, "Not by itself: with %s of %s in place of %s there would be too little %s%s.%s%s", mass,
                    called, was, answered_names(x, c.lost, c.lose), besides(x, &c, "though enough"), cured, energy);
}

/* "Oats" in the place of boiled rice are boiled as well. */
static uint32_t in_the_state_of(const struct library *lib, uint32_t food, const struct ration_line *line) {
  const struct img_food *own = library_food(lib, line->shown_food), *f = library_food(lib, food);
  bool cooked = state_is_cooked(line->state) || (own && state_is_cooked((enum state)own->state));
  if (!cooked || !f || state_is_cooked((enum state)f->state)) return food;
  for (size_t i = 0; i < img_count(&lib->image, IMG_FOODS); i++) {
    const struct img_food *c = library_food(lib, (uint32_t)i);
    if (c->raw_form == food && state_is_cooked((enum state)c->state)) return (uint32_t)i;
  }
  return food;
}

/* The one line that is meant; of several ("the beef" beside beef liver) the heaviest. False: none. */
static bool line_meant(const struct asked_scene *x, const char *food, size_t *line) {
  size_t n = answered_lines(x, food, line);
  for (size_t i = 0; n > 1 && i < x->r->ration->line_count; i++)
    if (answered_names_line(x, food, i) &&
        ration_line_grams_per_day(&x->r->ration->line[i]) > ration_line_grams_per_day(&x->r->ration->line[*line]))
      *line = i;
  return n > 0;
}

const char *answered_exchange(const struct asked_scene *x) {
  const struct owners_question *q = x->q;
  size_t line = 0;
  if (!q->food || !q->other) return "";
  bool first = line_meant(x, q->food, &line), turned = !first && line_meant(x, q->other, &line);
  uint32_t comes = turned ? q->record : q->other_record;
  if ((!first && !turned) || is_danger(x, comes)) return "";
  return exchanged_words(x, line, in_the_state_of(x->lib, comes, &x->r->ration->line[line]), turned ? q->food : q->other);
}

/* ---- a food more ---- */

static const char *fed_words(const struct asked_scene *x, size_t line) {
  const struct ration *is = x->r->ration;
  struct ration left = without_line(x, line);
  const char *food = words_line(x->a, x->lib, is, (int)line);
  if (left.line_count == 0) return "";
  struct answered_change c = answered_change(x->r, check_numbers(x->lib, &left, x->r->animal, &x->r->options, x->a));
  if (c.cure > 0)
    return words_text(x->a, "Of %s less fits: without it there would no longer be too much %s.", food,
                      answered_names(x, c.cured, c.cure));
  return words_text(x->a, "The figures have nothing against %s, as much as is fed: no limit is passed for it.", food);
}

/* A tenth of the energy is what may come beside a bowl that is worked out (common practice), and no more than is usual of
 * such a food. NaN: its energy is not known. */
static double trial_grams(const struct asked_scene *x, uint32_t food, bool *tenth) {
  static const double BESIDE = 0.1, PER_100G = 100;
  const struct img_value *kcal = &library_values(x->lib, food)[NUT_ENERGY];
  double by_energy =
      kcal->status == VALUE_UNKNOWN ? (double)NAN : BESIDE * x->r->energy.need.kcal / ((double)kcal->mean / PER_100G);
  double usual = portion_most_g(x->lib, food, x->r->animal->species, x->r->body.metabolic_kg, x->r->energy.grams_per_day);
  *tenth = by_energy < usual;
  return fmin(by_energy, usual);
}

/* So much of everything. */
static struct ration *less_of_all(const struct asked_scene *x, double times) {
  const struct ration *is = x->r->ration;
  struct ration *less = ARENA_NEW(x->a, struct ration, 1);
  struct ration_line *line = ARENA_NEW(x->a, struct ration_line, is->line_count + 1);
  memcpy(line, is->line, is->line_count * sizeof *line);
  *less = *is;
  less->line = line;
  for (size_t i = 0; i < is->line_count; i++) {
    line[i].grams_fed *= times;
    for (int k = 0; k < line[i].part_count; k++) line[i].part[k].grams *= times;
  }
  return less;
}

const char *answered_adding(const struct asked_scene *x) {
  static const double LEAST = 0.5, PER_100G = 100;
  size_t line = 0, lines = answered_lines(x, x->q->food, &line);
  uint32_t food = x->q->record;
  double supply = x->r->energy.supply_kcal;
  bool tenth;
  if (lines == 1) return fed_words(x, line);
  if (lines > 1 || is_danger(x, food) || ration_refuses(x->lib, x->r->ration, food, x->q->food, x->a)) return "";
  double grams = shown_grams(trial_grams(x, food, &tenth));
  double kcal = (double)library_values(x->lib, food)[NUT_ENERGY].mean / PER_100G * grams;
  if (!(grams >= LEAST) || !isfinite(grams) || !(supply > 2 * kcal)) return "";
  struct ration_line in = line_of(food, grams, NULL);
  struct ration *rest = less_of_all(x, 1 - kcal / supply);
  struct exchange *ex = exchange_open(x->lib, rest, rest->line_count, x->r->animal, &x->r->options, x->a);
  struct answered_change c = answered_change(x->r, exchange_line(ex, &in));
  exchange_close(ex);
  const char *mass = words_mass(x->a, grams), *most = tenth ? "a tenth of the energy" : "as much as is usual",
             *with = words_text(x->a, "with %s a day, %s, and as much less of the rest (%s kcal)", mass, most,
                                words_whole(x->a, kcal));
  if (c.harm > 0)
    return words_text(x->a, "Of %s less than that, if any: %s there would be too much %s.", x->q->food, with,
                      answered_names(x, c.harmed, c.harm));
  const char *gain = c.gain > 0 ? words_text(x->a, ", and there is enough %s", answered_names(x, c.gained, c.gain)) : "",
             *lose = c.lose > 0 ? words_text(x->a, ", but too little %s", answered_names(x, c.lost, c.lose)) : "";
  return words_text(x->a, "As to %s, yes, a little: %s no limit is passed%s%s.", x->q->food, with, gain, lose);
}
