/* Which of the owner's lines go out whatever the search finds: dangers, kelp without a measure beside too much iodine, an
 * oil or a dose that is rich in what is at its limit. What is not counted goes before that (src/app/leave_out.c). */
#include "change/mend_search.h"
#include "foods/hazard_words.h"

/* An own label has no record to tell: its name does. */
static bool named_dangerous(const struct library *lib, const struct ration_line *l, enum species s, const struct arena *of) {
  struct arena scratch;
  if (l->shown_food < img_count(&lib->image, IMG_FOODS) || !(l->grams_fed > 0)) return false;
  arena_init(&scratch, of->on_full);
  bool is = hazard_words_danger(lib, span_of(library_name(lib, l->shown_food)), (int)s, &scratch) != NO_INDEX;
  arena_free(&scratch);
  return is;
}

static enum state state_of(const struct img_food *f, const struct ration_line *l) {
  return l->state != STATE_UNSTATED ? l->state : (enum state)f->state;
}

static bool is_cooked(const struct img_food *f, const struct ration_line *l) { return state_is_cooked(state_of(f, l)); }

bool mend_thiaminase(const struct library *lib, const struct ration_line *l, enum species s) {
  const struct img_food *f = library_food(lib, l->shown_food);
  if (s != SPECIES_CAT || !f || !(f->flags & FOOD_THIAMINASE) || !(l->grams_fed > 0)) return false;
  return state_of(f, l) != STATE_UNSTATED && !is_cooked(f, l); /* drying does not end it, as freezing does not */
}

/* Of those that are only watched: no bowl that is proposed keeps them. */
static bool is_better_left_out(const struct library *lib, const struct img_hazard *h) {
  static const char *const OUT[] = {"avocado", "nutmeg"};
  for (size_t i = 0; i < COUNT_OF(OUT); i++)
    if (strcmp(lib_str(lib, h->id), OUT[i]) == 0) return true;
  return false;
}

bool mend_dangerous(const struct library *lib, const struct ration_line *l, enum species s, const struct arena *arena) {
  if (l->cooked_bone || named_dangerous(lib, l, s, arena) || mend_thiaminase(lib, l, s)) return true;
  const struct img_food *f = library_food(lib, l->shown_food);
  if (!f || f->hazard >= img_count(&lib->image, IMG_HAZARDS) || !(l->grams_fed > 0)) return false;
  const struct img_hazard *h = &IMG_ROWS(&lib->image, IMG_HAZARDS, struct img_hazard)[f->hazard];
  if (h->raw_only && is_cooked(f, l)) return false;
  return (h->weight == FINDING_ACT || is_better_left_out(lib, h)) && (h->species == SPECIES_BOTH || h->species == s);
}

bool mend_unmeasured(const struct library *lib, const struct ration_line *l, const struct check_result *before) {
  const struct img_food *f = library_food(lib, l->shown_food);
  const struct nutrient_result *iodine = &before->nutrient[NUT_IODINE];
  return f && (f->flags & FOOD_KELP) && iodine->amount > iodine->upper;
}

/* Vitamins A and D stay in the body: what is too much of them adds up. */
static const enum nutrient ADDS_UP[] = {NUT_VITAMIN_A, NUT_VITAMIN_D};

static double brought_by(const struct library *lib, const struct ration_line *l, enum nutrient n) {
  return (double)library_values(lib, l->shown_food)[n].mean / 100 * ration_line_grams_per_day(l);
}

enum nutrient mend_overdose(const struct library *lib, const struct ration_line *l, const struct check_result *before) {
  const struct img_food *f = library_food(lib, l->shown_food);
  for (size_t i = 0; f && f->part == PART_SUPPLEMENT && i < COUNT_OF(ADDS_UP); i++) {
    const struct nutrient_result *r = &before->nutrient[ADDS_UP[i]];
    if (r->verdict == VERDICT_OVER && brought_by(lib, l, ADDS_UP[i]) > r->upper) return ADDS_UP[i];
  }
  return NUT_NONE;
}

bool mend_rich_dose(const struct library *lib, const struct ration_line *l, const struct check_result *before) {
  static const double MUCH = 0.1; /* of the limit, from the oil alone: common practice */
  const struct img_food *f = library_food(lib, l->shown_food);
  bool at_limit = false, rich = false;
  if (mend_overdose(lib, l, before) != NUT_NONE) return true;
  if (!f || f->part != PART_FAT_OIL) return false;
  for (size_t i = 0; i < COUNT_OF(ADDS_UP); i++) {
    const struct nutrient_result *r = &before->nutrient[ADDS_UP[i]];
    at_limit |= r->verdict == VERDICT_OVER || r->highest_day_over || r->near_upper;
    rich |= brought_by(lib, l, ADDS_UP[i]) > MUCH * r->upper;
  }
  return at_limit && rich;
}

bool mend_goes(const struct mend_search *s, const struct ration_line *l) {
  return mend_dangerous(s->lib, l, s->q->animal->species, s->arena) || mend_unmeasured(s->lib, l, s->before) ||
         mend_rich_dose(s->lib, l, s->before);
}
