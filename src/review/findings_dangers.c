/* Toxic foods and cooked bone. Also raised when no verdict may be given: poison is poison for every animal. */
#include "foods/constant_keys.h"
#include "review/findings_internal.h"

static bool hazard_applies(const struct review *r, const struct img_hazard *h) {
  return !r->result->animal || h->species == SPECIES_BOTH || h->species == r->result->animal->species;
}

/* Some foods are dangerous only as long as they are raw (beans, green potato). */
static bool eaten_raw(const struct review *r, const struct ration_line *l) {
  enum state s = l->state != STATE_UNSTATED ? l->state : (enum state)library_food(r->lib, l->shown_food)->state;
  return !state_is_cooked(s);
}

static void toxic_food(struct review *r, int line) {
  const struct ration_line *l = &r->result->ration->line[line];
  uint32_t which = library_food(r->lib, l->shown_food)->hazard;
  if (which >= img_count(&r->lib->image, IMG_HAZARDS) || !(l->grams_fed > 0)) return;
  const struct img_hazard *h = &IMG_ROWS(&r->lib->image, IMG_HAZARDS, struct img_hazard)[which];
  if (!hazard_applies(r, h) || (h->raw_only && !eaten_raw(r, l))) return;
  const char *id = h->weight == FINDING_ACT ? "toxic-food" : "doubtful-food";
  struct draft d;
  if (!draft_begin(&d, r, id, NULL)) return;
  d.severity = line;
  draft_word(&d, "food", line_words(r, line));
  draft_word(&d, "what", lib_str(r->lib, h->words));
  draft_word(&d, "dose", lib_str(r->lib, h->dose));
  draft_word(&d, "advice", lib_str(r->lib, h->advice));
  draft_text_because(&d, "hazard", lib_str(r->lib, h->id));
  draft_text_because(&d, "food", library_code(r->lib, l->shown_food));
  if (r->result->animal) {
    double per_kg = l->grams_fed / r->result->animal->weight_kg;
    draft_number(&d, "grams_per_kg", per_kg, "g per kg body weight");
  } else {
    draft_word(&d, "grams_per_kg", amount_words(r->arena, l->grams_fed, "g"));
  }
  draft_text_because(&d, "hazard_source", lib_str(r->lib, library_source(r->lib, h->source)->key));
  draft_end(&d);
}

static void cooked_bone(struct review *r, int line) {
  if (!r->result->ration->line[line].cooked_bone) return;
  struct draft d;
  if (!draft_begin(&d, r, "cooked-bone", NULL)) return;
  d.severity = line;
  draft_word(&d, "food", line_words(r, line));
  draft_number(&d, "line", r->result->ration->line[line].line, "");
  draft_end(&d);
}

/* Salt on the saltiest day, worked out from the sodium, against the dose from which signs are known. */
static void salt(struct review *r) {
  if (!r->result->animal) return;
  double sodium_g = r->result->nutrient[NUT_SODIUM].highest_day / 1000, kg = r->result->animal->weight_kg;
  double per_kg = sodium_g / constant_of(r, K_SODIUM_OF_SALT) / kg, signs = constant_of(r, K_SALT_SIGNS);
  struct draft d;
  if (!(per_kg > signs) || !draft_begin(&d, r, "salt-danger", NULL)) return;
  draft_number(&d, "salt", per_kg * kg, "g");
  draft_number(&d, "per_kg", per_kg, "g");
  draft_number(&d, "signs", signs, "g");
  draft_end(&d);
}

void findings_dangers(struct review *r) {
  for (size_t i = 0; i < r->result->ration->line_count; i++) {
    toxic_food(r, (int)i);
    cooked_bone(r, (int)i);
  }
  salt(r);
}
