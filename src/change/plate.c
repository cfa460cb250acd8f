#include "change/plate.h"

#include <math.h>

#include "foods/constant_keys.h"
#include "foods/portion.h"
#include "foods/refused.h"
#include "judge/check_steps.h"
#include "review/findings.h"

/* Common practice, as are the figures of data/constants.tsv and data/portions.tsv that stand beside them. */
static const double WATERY_KCAL_PER_G = 0.6; /* carrots and apples, not sweet potato */
static const double WATERY_TIMES = 2;        /* twice the usual share is another kind of dinner */
static const double LIVER_SHARE = 0.15;      /* as much as that is a main food */
static const double FATTY = 0.5, LEAN = 0.4; /* share of the energy of a meat */
static const double ROOM = 0.95;             /* of the energy, for what is added afterwards */
static const double MEAT_TIMES_MOST = 8;
enum { LEANER_MOST = 3 };

enum heap { HEAP_REST, HEAP_WATERY, HEAP_LIVER, HEAP_MEAT };

struct food_line {
  enum heap heap;
  double grams, kcal_per_g, fat_share;
};

struct work {
  const struct library *lib;
  const struct plate_request *q;
  const struct animal *animal;
  struct arena *arena;
  struct food_line *line;
  struct plate *out;
  double grams, watery, liver, meat; /* of the bowl as it is */
};

/* ---- the bowl as it is ------------------------------------------------------------------------------------------------ */

static double fat_share_of(const struct library *lib, uint32_t food) {
  static const double FAT_KCAL = 9;
  const struct img_value *v = library_values(lib, food);
  double fat = v[NUT_FAT].mean, kcal = v[NUT_ENERGY].mean;
  return kcal > 0 ? FAT_KCAL * fat / kcal : (double)NAN;
}

static double kcal_per_g(const struct work *w, const struct ration_line *l) {
  struct line_energy e = energy_of_line(w->lib, w->animal->species, &w->q->before->options, l, w->arena);
  return l->grams_fed > 0 && !energy_is_in_part(e.kcal, e.missing_most) ? e.kcal / l->grams_fed : (double)NAN;
}

static enum heap heap_of(const struct img_food *f, double kcal) {
  bool plant = f->part == PART_VEGETABLE || f->part == PART_FRUIT;
  if (plant && kcal < WATERY_KCAL_PER_G) return HEAP_WATERY;
  return f->part == PART_ORGAN_LIVER ? HEAP_LIVER : f->part == PART_MUSCLE ? HEAP_MEAT : HEAP_REST;
}

static bool look(struct work *w) {
  const struct ration *r = w->q->ration;
  w->line = ARENA_NEW(w->arena, struct food_line, r->line_count + 1);
  for (size_t i = 0; i < r->line_count; i++) {
    const struct img_food *f = library_food(w->lib, r->line[i].shown_food);
    struct food_line *l = &w->line[i];
    *l = (struct food_line){.grams = ration_line_grams_per_day(&r->line[i])};
    if (!(l->grams > 0)) continue;
    l->kcal_per_g = kcal_per_g(w, &r->line[i]);
    if (!f || isnan(l->kcal_per_g)) return false;
    l->fat_share = fat_share_of(w->lib, r->line[i].shown_food);
    l->heap = w->q->keep[i] || (f->flags & FOOD_OWN) ? HEAP_REST : heap_of(f, l->kcal_per_g);
    w->grams += l->grams;
    if (l->heap == HEAP_WATERY) w->watery += l->grams;
    if (l->heap == HEAP_LIVER) w->liver += l->grams;
    if (l->heap == HEAP_MEAT) w->meat += l->grams;
  }
  return w->grams > 0;
}

/* ---- what is wrong ---------------------------------------------------------------------------------------------------- */

static double usual_share(const struct work *w) {
  return library_constant_value(w->lib, K_WATERY_SHARE, w->animal->species) / 100;
}

static double bulk_most_g(const struct work *w) {
  const struct img_finding *row = IMG_ROWS(&w->lib->image, IMG_FINDINGS, struct img_finding);
  for (size_t i = 0; i < img_count(&w->lib->image, IMG_FINDINGS); i++)
    if (strcmp(lib_str(w->lib, row[i].id), "bulk") == 0)
      return 1000 * w->animal->weight_kg * (w->animal->species == SPECIES_CAT ? row[i].threshold2 : row[i].threshold);
  return INFINITY;
}

static bool at_limit(const struct check_result *r, enum nutrient n) {
  const struct nutrient_result *x = &r->nutrient[n];
  return x->verdict == VERDICT_OVER || x->highest_day_over || x->near_upper;
}

/* The bowl with amounts and foods as they are now in 'out', judged. */
static const struct check_result *judged(const struct work *w) {
  const struct ration *r = w->q->ration;
  struct ration_line *line = ARENA_NEW(w->arena, struct ration_line, r->line_count + 1);
  struct ration now = *r;
  for (size_t i = 0; i < r->line_count; i++) {
    struct candidate c = {"", r->line[i]};
    if (w->out->lean[i] != NO_INDEX) c = candidate_of(w->lib, w->out->lean[i], NULL);
    line[i] = candidate_line(&c, w->out->to_g[i]);
  }
  now.line = line;
  struct ration *kept = ARENA_NEW(w->arena, struct ration, 1);
  *kept = now;
  return check_numbers(w->lib, kept, w->animal, &w->q->before->options, w->arena);
}

static bool is_too_fat(const struct work *w) { return judged(w)->nutrient[NUT_FAT].verdict == VERDICT_OVER; }

/* ---- the lean cut of an animal ---------------------------------------------------------------------------------------- */

static bool is_refused(const struct work *w, uint32_t food, const char *said) {
  for (size_t i = 0; i < w->q->nevers; i++)
    if (food_is_refused(w->lib, food, said, span_of(w->q->never[i]), w->arena)) return true;
  return ration_refuses(w->lib, w->q->ration, food, said, w->arena);
}

static bool is_cooked(const struct work *w, const struct ration_line *l) {
  const struct img_food *f = library_food(w->lib, l->shown_food);
  return state_is_cooked(l->state != STATE_UNSTATED ? l->state : (enum state)f->state);
}

static bool is_ground(const struct library *lib, uint32_t food) {
  return span_holds_fold(span_of(library_name(lib, food)), span_of("ground"));
}

static bool may_stand_in(const struct work *w, uint32_t food, const struct ration_line *now, bool same_animal) {
  const struct img_food *f = library_food(w->lib, food), *of = library_food(w->lib, now->shown_food);
  if (food >= img_count(&w->lib->image, IMG_FOODS) || f->part != PART_MUSCLE || !(f->flags & FOOD_PLAIN)) return false;
  if ((f->flags & (FOOD_CUT | FOOD_RARE)) || (same_animal && f->kind != of->kind)) return false;
  if (state_is_cooked((enum state)f->state) != is_cooked(w, now)) return false;
  struct candidate c = candidate_of(w->lib, food, NULL);
  c.line.grams_fed = 1;
  return fat_share_of(w->lib, food) <= LEAN && !mend_dangerous(w->lib, &c.line, w->animal->species, w->arena);
}

static int unknowns(const struct library *lib, uint32_t food) {
  int n = 0;
  for (int k = 0; k < NUT_COUNT; k++) n += library_values(lib, food)[k].status == VALUE_UNKNOWN;
  return n;
}

/* Less is better: a name that means just this, minced where that is minced, and few figures lacking. */
static long awkwardness(const struct work *w, const struct img_name *name, const struct ration_line *now) {
  enum { RANK = 1 << 16, GROUND = 1 << 15, UNKNOWN = 1 << 8 };
  bool as_ground = is_ground(w->lib, name->food) == is_ground(w->lib, now->shown_food);
  return (long)name->rank * RANK + !as_ground * GROUND + unknowns(w->lib, name->food) * UNKNOWN +
         (long)strlen(lib_str(w->lib, name->said));
}

static uint32_t named_lean_cut(const struct work *w, const struct ration_line *now) {
  enum { RANK_MOST = 1 };
  const struct img_name *name = IMG_ROWS(&w->lib->image, IMG_NAMES, struct img_name);
  uint32_t best = NO_INDEX;
  long least = 0;
  for (size_t i = 0; i < img_count(&w->lib->image, IMG_NAMES); i++) {
    if (name[i].rank > RANK_MOST || !may_stand_in(w, name[i].food, now, true)) continue;
    if (is_refused(w, name[i].food, lib_str(w->lib, name[i].said))) continue;
    long by = awkwardness(w, &name[i], now);
    if (best != NO_INDEX && by >= least) continue;
    best = name[i].food;
    least = by;
  }
  return best;
}

/* What is on offer for its protein (data/fixes.tsv). */
static uint32_t other_meat(const struct work *w, const struct ration_line *now) {
  const struct img_fix *fix = IMG_ROWS(&w->lib->image, IMG_FIXES, struct img_fix);
  uint32_t found = NO_INDEX;
  for (size_t i = 0; i < img_count(&w->lib->image, IMG_FIXES) && found == NO_INDEX; i++)
    if (fix[i].nutrient == NUT_PROTEIN && may_stand_in(w, fix[i].food, now, false) &&
        !is_refused(w, fix[i].food, lib_str(w->lib, fix[i].words)))
      found = fix[i].food;
  return found;
}

/* Of the same animal, else other meat. */
static uint32_t lean_cut(const struct work *w, const struct ration_line *now) {
  uint32_t found = named_lean_cut(w, now);
  return found != NO_INDEX ? found : other_meat(w, now);
}

const char *plate_name(const struct library *lib, uint32_t food) {
  const struct img_name *name = IMG_ROWS(&lib->image, IMG_NAMES, struct img_name), *best = NULL;
  for (size_t i = 0; i < img_count(&lib->image, IMG_NAMES); i++) {
    if (name[i].food != food || name[i].rank > 8) continue;
    bool better = !best || name[i].rank < best->rank ||
                  (name[i].rank == best->rank && strlen(lib_str(lib, name[i].said)) < strlen(lib_str(lib, best->said)));
    if (better) best = &name[i];
  }
  return best ? lib_str(lib, best->said) : NULL;
}

/* ---- set right -------------------------------------------------------------------------------------------------------- */

static double kcal_of(const struct work *w, size_t i) {
  double per_g = w->line[i].kcal_per_g;
  if (w->out->lean[i] != NO_INDEX) {
    struct candidate c = candidate_of(w->lib, w->out->lean[i], NULL);
    struct ration_line l = candidate_line(&c, 1);
    per_g = kcal_per_g(w, &l);
  }
  return per_g * w->out->to_g[i];
}

/* Everything that 'fills' does not name is as it is to be; these rise or fall together to what energy is left. */
static bool fill(struct work *w, const bool *fills) {
  double rest = 0, theirs = 0;
  for (size_t i = 0; i < w->q->ration->line_count; i++) *(fills[i] ? &theirs : &rest) += kcal_of(w, i);
  double factor = theirs > 0 ? (w->q->kcal * ROOM - rest) / theirs : 0;
  if (!(factor > 0) || factor > MEAT_TIMES_MOST) return false;
  for (size_t i = 0; i < w->q->ration->line_count; i++)
    if (fills[i]) w->out->to_g[i] *= factor;
  return true;
}

/* Liver to what is usual, all of it of the kind of which there is most, and no liver oil beside it; vegetables to their share. The meat fills the rest:
 * it decides how much a fifth of the food is, so that is done a few times over. */
static bool set_shares_right(struct work *w) {
  enum { ROUNDS = 6 };
  size_t n = w->q->ration->line_count, most = n;
  bool *fills = ARENA_NEW(w->arena, bool, n + 1);
  for (size_t i = 0; i < n; i++) {
    fills[i] = w->line[i].heap == HEAP_MEAT;
    if (w->line[i].heap == HEAP_LIVER && (most == n || w->line[i].grams > w->line[most].grams)) most = i;
  }
  for (size_t i = 0; i < n && w->out->of_liver > 0; i++)
    if (w->line[i].heap == HEAP_LIVER)
      w->out->to_g[i] = i != most ? 0
                                  : fmin(w->liver * w->out->times,
                                         portion_most_g(w->lib, w->q->ration->line[i].shown_food, w->animal->species,
                                                        w->q->before->body.metabolic_kg, NAN));
  for (size_t i = 0; i < n && w->out->of_liver > 0; i++)
    if (!w->q->keep[i] && mend_rich_dose(w->lib, &w->q->ration->line[i], w->q->before)) w->out->to_g[i] = 0;
  for (int round = 0; round < ROUNDS; round++) {
    double watery = 0, rest = 0, share = usual_share(w);
    if (!fill(w, fills)) return false;
    for (size_t i = 0; i < n; i++) *(w->line[i].heap == HEAP_WATERY ? &watery : &rest) += w->out->to_g[i];
    double by = rest * share / (1 - share) / watery;
    for (size_t i = 0; i < n && w->out->of_watery > 0; i++)
      if (w->line[i].heap == HEAP_WATERY) w->out->to_g[i] *= by;
  }
  return true;
}

/* The meat that brings most fat, of those that are fatty and have a lean cut to stand in. */
static size_t fattest(const struct work *w, uint32_t *lean) {
  size_t best = w->q->ration->line_count;
  double most = 0;
  for (size_t i = 0; i < w->q->ration->line_count; i++) {
    double brings = w->line[i].fat_share * w->line[i].kcal_per_g * w->line[i].grams;
    const struct ration_line *l = &w->q->ration->line[i];
    if (w->line[i].heap != HEAP_MEAT || w->out->lean[i] != NO_INDEX || !(w->line[i].fat_share > FATTY)) continue;
    if (!(brings > most) || (l->frequency_stated && l->times_per_28 < CALENDAR_DAYS)) continue;
    uint32_t cut = lean_cut(w, l);
    if (cut == NO_INDEX) continue;
    most = brings;
    best = i;
    *lean = cut;
  }
  return best;
}

static bool set_fat_right(struct work *w) {
  size_t n = w->q->ration->line_count;
  bool *fills = ARENA_NEW(w->arena, bool, n + 1);
  for (int k = 0; k < LEANER_MOST && is_too_fat(w); k++) {
    uint32_t lean = NO_INDEX;
    size_t i = fattest(w, &lean);
    if (i == n) break;
    w->out->lean[i] = lean;
    fills[i] = true;
    if (!fill(w, fills)) return false;
  }
  return !is_too_fat(w);
}

/* Tuna of which a cat gets so much that the review tells of its mercury: meat takes its place, and the owner hears that once a
 * week it does no harm. */
static bool set_tuna_right(struct work *w) {
  size_t n = w->q->ration->line_count;
  bool *fills = ARENA_NEW(w->arena, bool, n + 1);
  if (w->animal->species != SPECIES_CAT || !findings_say(w->q->before, "tuna-mercury")) return false;
  for (size_t i = 0; i < n; i++) {
    const struct ration_line *l = &w->q->ration->line[i];
    const struct img_food *f = library_food(w->lib, l->shown_food);
    bool tuna = f && f->part == PART_FISH && span_holds_fold(span_of(library_name(w->lib, l->shown_food)), span_of("tuna"));
    uint32_t meat = tuna && !w->q->keep[i] && w->line[i].grams > 0 ? other_meat(w, l) : NO_INDEX;
    if (meat == NO_INDEX) continue;
    w->out->tuna_g += w->line[i].grams;
    w->out->lean[i] = meat;
    fills[i] = true;
  }
  return w->out->tuna_g > 0 && fill(w, fills);
}

bool plate_right(const struct library *lib, const struct plate_request *q, struct plate *out, struct arena *arena) {
  const struct energy_result *e = &q->before->energy;
  struct work w = {.lib = lib, .q = q, .animal = q->before->animal, .arena = arena, .out = out};
  size_t n = q->ration->line_count;
  *out = (struct plate){.to_g = ARENA_NEW(arena, double, n + 1), .lean = ARENA_NEW(arena, uint32_t, n + 1)};
  if (!w.animal || !(e->supply_kcal > 0) || e->in_part || !(q->kcal > 0) || !look(&w)) return false;
  out->would_weigh_g = w.grams * q->kcal / e->supply_kcal;
  out->times = mend_size_fits(q->before) ? 1 : fmin(1, q->kcal / e->supply_kcal);
  for (size_t i = 0; i < n; i++) {
    out->to_g[i] = w.line[i].grams * out->times;
    out->lean[i] = NO_INDEX;
  }
  if (set_tuna_right(&w)) return true;
  /* Beside food that nobody counted its proportions are not known; the mercury of what is counted is. */
  if (out->tuna_g > 0 || q->ration->uncounted_count > 0 || !(w.meat > 0)) return false;
  bool rich = at_limit(q->before, NUT_VITAMIN_A) || at_limit(q->before, NUT_COPPER);
  if (out->would_weigh_g > bulk_most_g(&w) && w.watery > WATERY_TIMES * usual_share(&w) * w.grams)
    out->of_watery = w.watery / w.grams;
  if (rich && w.liver >= LIVER_SHARE * w.grams) out->of_liver = w.liver / w.grams;
  if ((out->of_watery > 0 || out->of_liver > 0) && !set_shares_right(&w)) return false;
  if (out->of_watery > 0 || out->of_liver > 0) return true;
  if (!is_too_fat(&w)) return false;
  out->of_fat = e->share_fat;
  return set_fat_right(&w);
}
