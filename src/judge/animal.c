#include "judge/animal.h"
#include "base/table.h"

#include <math.h>

#include "base/num.h"
#include "foods/constant_keys.h"

WORD_TABLE(activity_word, ACTIVITY_COUNT, "resting", "low", "moderate", "high", "working");

struct animal animal_plain(enum species species, double weight_kg) {
  return (struct animal){.name = "",
                         .species = species,
                         .weight_kg = weight_kg,
                         .ideal_kg = (double)NAN,
                         .condition = (double)NAN,
                         .age_years = (double)NAN,
                         .adult_weight_kg = (double)NAN,
                         .neutered = -1,
                         .activity = ACTIVITY_MODERATE,
                         .energy_kcal = (double)NAN,
                         .status = "healthy",
                         .note = "",
                         .healthy = true,
                         .urgent = false};
}

/* ---- may it be judged? --------------------------------------------------------------------------------------- */

static const double ADULT_DOG_YEARS = 1.0, ADULT_GIANT_DOG_YEARS = 2.0, ADULT_CAT_YEARS = 1.0;
static const double GIANT_DOG_KG = 40.0;

static bool still_growing(const struct animal *a) {
  if (a->young) return true;
  if (isnan(a->age_years)) return false;
  if (a->species == SPECIES_CAT) return a->age_years < ADULT_CAT_YEARS;
  double adult_kg = isnan(a->adult_weight_kg) ? a->weight_kg : a->adult_weight_kg;
  return a->age_years < (adult_kg > GIANT_DOG_KG ? ADULT_GIANT_DOG_YEARS : ADULT_DOG_YEARS);
}

enum refusal animal_refusal(const struct animal *a) {
  if (a->urgent) return REFUSE_URGENT;
  if (still_growing(a)) return REFUSE_GROWTH;
  if (a->pregnant) return REFUSE_PREGNANT;
  if (a->nursing) return REFUSE_NURSING;
  return a->healthy ? REFUSE_NOT : REFUSE_UNWELL;
}

static const struct {
  const char *key, *text, *ask;
} REFUSALS[] = {
    {"", "", ""},
    {"growth",
     "No verdict is given for a young animal: the tables used here are for adults, and a growing body is harmed sooner, and "
     "for "
     "life, by too little or too much calcium, energy or vitamin D. What the food contains is still shown.",
     "Ask a veterinarian trained in nutrition for a recipe made for growth, or feed a complete food for young animals "
     "meanwhile."},
    {"pregnant",
     "No verdict is given in pregnancy: the needs of mother and litter change from week to week, and the tables used here "
     "are for "
     "adults at rest. What the food contains is still shown.",
     "Ask a veterinarian trained in nutrition; a complete food for growth and reproduction is the usual choice."},
    {"nursing",
     "No verdict is given while she is nursing: milk can take two to four times her usual energy and a great deal of "
     "calcium, and "
     "the tables used here are for adults at rest. What the food contains is still shown.",
     "Ask a veterinarian trained in nutrition; a complete food for growth and reproduction is the usual choice."},
    {"unwell",
     "No verdict is given for an animal that is not well: an illness, or the medicine for it, can turn an ordinary "
     "allowance into "
     "too much or too little. What the food contains is still shown.",
     "Ask the veterinarian who treats it, who can call in a specialist in nutrition; take this list of what the food "
     "contains "
     "along."},
    {"urgent",
     "This cannot wait for a recipe: what is said about the animal may be an emergency, in which hours count. No verdict is "
     "given. What the food contains is still shown.",
     "Ring a veterinarian now, and go there today. What to feed afterwards is a question for the one who treats it, who can "
     "call in a specialist in nutrition."}};
ROW_FOR_EACH(REFUSALS, REFUSE_COUNT);

static size_t refusal_index(enum refusal r) { return r < REFUSE_COUNT ? (size_t)r : 0; }
const char *refusal_key(enum refusal r) { return REFUSALS[refusal_index(r)].key; }
const char *refusal_text(enum refusal r) { return REFUSALS[refusal_index(r)].text; }
const char *refusal_ask(enum refusal r) { return REFUSALS[refusal_index(r)].ask; }

/* ---- its body -------------------------------------------------------------------------------------------------- */

/* Ideal = weight / (1 + 0.10 x points above 5 of 9); a score at or below 5 leaves the weight as it is: a thin animal's
 * way back is not a matter of a formula. Source: data/constants.tsv, condition-step. */
static double ideal_from_condition(const struct library *lib, const struct animal *a) {
  double over = a->condition - library_constant_value(lib, K_CONDITION_IDEAL, a->species);
  return a->weight_kg / (1.0 + library_constant_value(lib, K_CONDITION_STEP, a->species) * over);
}

/* "63 kcal x kg^0.75", where the factor is one of those of the trials. */
static double loss_kcal_by(const struct library *lib, enum species s, double factor, double ideal_kg) {
  return factor * pow(ideal_kg, library_constant_value(lib, K_LOSS_ENERGY_EXPONENT, s));
}

double animal_loss_floor(const struct library *lib, enum species s, double ideal_kg) {
  const struct img_constant *c = library_constant(lib, K_LOSS_ENERGY, s);
  return c ? loss_kcal_by(lib, s, s == SPECIES_CAT ? c->value : c->low, ideal_kg) : (double)NAN;
}

static bool is_too_heavy(const struct library *lib, const struct animal *a, double ideal_kg) {
  static const double PER_CENT = 100;
  double ideal = library_constant_value(lib, K_CONDITION_IDEAL, a->species);
  return a->condition >= ideal + 1 ||
         a->weight_kg >= (1 + library_constant_value(lib, K_OVERWEIGHT_FROM, a->species) / PER_CENT) * ideal_kg;
}

struct animal_body animal_body(const struct library *lib, const struct animal *a) {
  struct animal_body b = {.ideal_kg = a->weight_kg, .ideal_from = "the weight itself"};
  if (a->ideal_kg > 0) {
    b.ideal_kg = a->ideal_kg;
    b.ideal_from = "as stated";
  } else if (a->condition > library_constant_value(lib, K_CONDITION_IDEAL, a->species)) {
    b.ideal_kg = ideal_from_condition(lib, a);
    b.ideal_from = "estimated from the condition score";
  }
  b.exponent = library_constant_value(lib, K_METABOLIC_EXPONENT, a->species);
  b.metabolic_kg = pow(b.ideal_kg, b.exponent);
  const struct img_constant *c = library_constant(lib, K_LOSS_ENERGY, a->species);
  bool heavy = c && is_too_heavy(lib, a, b.ideal_kg);
  b.loss_kcal = heavy ? animal_loss_floor(lib, a->species, b.ideal_kg) : (double)NAN;
  b.aim_kcal = heavy ? loss_kcal_by(lib, a->species, c->value, b.ideal_kg) : (double)NAN;
  b.aim_high_kcal = heavy ? loss_kcal_by(lib, a->species, c->high, b.ideal_kg) : (double)NAN;
  return b;
}

/* ---- its energy ------------------------------------------------------------------------------------------------ */

enum { ROW_ANY = 0xff, EITHER = 2 };

static bool age_fits(const struct img_energy *row, double years) {
  if (!isnan(row->age_from) && !(years >= row->age_from)) return false;
  return isnan(row->age_to) || years < row->age_to;
}

/* How closely a row speaks of this animal; -1 when it does not. A stated activity says more about energy than age does,
 * age more than neutering, and an activity that nobody stated says least. */
static int row_fit(const struct img_energy *row, const struct animal *a) {
  if (row->species != a->species && row->species != SPECIES_BOTH) return -1;
  if (row->activity != ROW_ANY && row->activity != a->activity) return -1;
  if (row->neutered != EITHER && row->neutered != a->neutered) return -1;
  if (!age_fits(row, a->age_years)) return -1;
  int fit = 0;
  if (row->activity != ROW_ANY) fit += a->activity_stated ? 8 : 1;
  if (!isnan(row->age_from) || !isnan(row->age_to)) fit += 4;
  if (row->neutered != EITHER) fit += 2;
  return fit;
}

static const struct img_energy *best_row(const struct library *lib, const struct animal *a) {
  const struct img_energy *rows = IMG_ROWS(&lib->image, IMG_ENERGY, struct img_energy), *best = NULL;
  int best_fit = -1;
  for (size_t i = 0; i < img_count(&lib->image, IMG_ENERGY); i++) {
    int fit = row_fit(&rows[i], a);
    if (fit > best_fit) {
      best_fit = fit;
      best = &rows[i];
    }
  }
  return best;
}

static const char *equation_text(const struct library *lib, const struct img_energy *row, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 400);
  num_sig(&b, row->factor, 4);
  buf_adds(&b, " kcal x kg^");
  num_sig(&b, row->exponent, 3);
  buf_addf(&b, " (%s)", lib_str(lib, row->words));
  return buf_text(&b);
}

struct energy_need animal_energy(const struct library *lib, const struct animal *a, struct arena *arena) {
  struct animal_body body = animal_body(lib, a);
  struct energy_need e = {
      .kcal = (double)NAN, .low_kcal = (double)NAN, .high_kcal = (double)NAN, .from = "no equation fits"};
  const struct img_energy *row = NULL;
  if (a->measured) {
    e.kcal = a->measured->kcal;
    e.low_kcal = a->measured->low_kcal;
    e.high_kcal = a->measured->high_kcal;
    e.from = a->measured->from;
  } else if (a->energy_kcal > 0) {
    e.kcal = e.low_kcal = e.high_kcal = a->energy_kcal;
    e.from = "stated";
  } else if ((row = best_row(lib, a)) != NULL) {
    double per_factor = pow(body.ideal_kg, row->exponent);
    double spread = 2.0 * library_constant_value(lib, K_ENERGY_SD_SHARE, a->species);
    e.row = row;
    e.kcal = row->factor * per_factor;
    e.low_kcal = isnan(row->low) ? e.kcal * fmax(0.0, 1.0 - spread) : row->low * per_factor;
    e.high_kcal = isnan(row->high) ? e.kcal * (1.0 + spread) : row->high * per_factor;
    e.from = equation_text(lib, row, arena);
  }
  e.coefficient = e.kcal / body.metabolic_kg;
  return e;
}
