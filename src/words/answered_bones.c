/* Raw pieces with bone that suit an animal by their size: too large to be swallowed whole, and small enough to be eaten up. */
#include <math.h>

#include "base/table.h"
#include "words/answered_parts.h"

/* What shops sell for it; cats are given no bone that carries weight (common practice). */
static const struct {
  const char *code, *called;
  bool cats;
} BONY[] = {{"usda:05100", "chicken wing", true},  {"cut:duck-neck", "duck neck", true},
            {"cut:chicken-neck", "chicken neck", true}, {"usda:05157", "quail", true},
            {"cut:lamb-neck", "lamb neck slice", false}, {"cut:chicken-carcass", "chicken carcass", false},
            {"cut:turkey-neck", "turkey neck", false}};

/* A piece as a share of the body (own choice: chicken wings and necks for cats, turkey necks and carcasses for large dogs). */
static const double PIECE_LEAST = 0.0035, PIECE_MOST = 0.035;
static const double A_BITE = 0.5; /* of a piece: less of it than that is cut from it */

static double piece_g(const struct library *lib, const char *called) {
  const struct img_household *row = IMG_ROWS(&lib->image, IMG_HOUSEHOLD, struct img_household);
  for (size_t i = 0; i < img_count(&lib->image, IMG_HOUSEHOLD); i++)
    if (lib_str(lib, row[i].words)[0] == '\0' && strcmp(lib_str(lib, row[i].foods), called) == 0) return (double)row[i].middle;
  return (double)NAN;
}

/* Grams of calcium in a gram of it as bought; NaN. */
static double calcium_in(const struct library *lib, uint32_t food) {
  static const double PER_100G = 100;
  const struct img_food *f = library_food(lib, food);
  if (!f || !(f->bone_share > 0) || f->bone_food == NO_INDEX) return (double)NAN;
  double share = (double)f->bone_share, flesh = (double)library_values(lib, food)[NUT_CALCIUM].mean,
         bone = (double)library_values(lib, f->bone_food)[NUT_CALCIUM].mean;
  return (share * bone + (1 - share) * (flesh > 0 ? flesh : 0)) / PER_100G;
}

/* What is lacking, or what the bones hold that are to be replaced. */
static double calcium_wanted(const struct asked_scene *x) {
  const struct nutrient_result *n = &x->r->nutrient[NUT_CALCIUM];
  double lacking = n->allowance - known_part(n->amount), of_bones = 0;
  for (size_t i = 0; i < x->r->ration->line_count; i++) {
    const struct ration_line *l = &x->r->ration->line[i];
    if (l->part_count > 1) of_bones += ration_line_grams_per_day(l) * calcium_in(x->lib, l->shown_food);
  }
  return of_bones > 0 ? of_bones : lacking > 0 ? lacking : (double)NAN;
}

/* In place of bones that are not to be eaten whole: the same bone ground, or a powder. */
static const char *ground_words(const struct asked_scene *x, double wanted) {
  static const struct {
    const char *code, *called;
  } GROUND[] = {{"ours:bone-meal", "bone meal"}, {"ours:eggshell", "ground eggshell"}};
  static const double TENTHS_TO = 5; /* g: as a kitchen scale shows it */
  const char *item[COUNT_OF(GROUND)];
  size_t n = 0;
  for (size_t i = 0; i < COUNT_OF(GROUND); i++) {
    uint32_t food = library_by_code(x->lib, span_of(GROUND[i].code));
    double grams = wanted / (double)library_values(x->lib, food)[NUT_CALCIUM].mean * 100;
    if (grams > 0 && !ration_refuses(x->lib, x->r->ration, food, GROUND[i].called, x->a))
      item[n++] = words_text(x->a, "about %s of %s", words_mass(x->a, grams < TENTHS_TO ? round(grams * 10) / 10 : round(grams)), GROUND[i].called);
  }
  const char *amount = n > 0 ? words_text(x->a, ": %s a day holds the %s of calcium that are wanted",
                                          n > 1 ? words_text(x->a, "%s, or %s,", item[0], item[1]) : item[0],
                                          words_amount(x->a, wanted, nutrient_info[NUT_CALCIUM].unit))
                             : "";
  return words_text(x->a, "No whole bones for %s, as you write of it. Bone that is ground as fine as mince does the same, and so does a powder%s.",
                    words_called(x->r->animal), amount);
}

const char *answered_bones(const struct asked_scene *x) {
  enum { NAMED = 3 };
  size_t refused = 0;
  const char *item[NAMED], *amount = "";
  size_t n = 0;
  double kg = x->r->animal->weight_kg, wanted = calcium_wanted(x);
  bool cat = x->r->animal->species == SPECIES_CAT;
  for (size_t i = 0; i < sizeof BONY / sizeof *BONY && n < NAMED; i++) {
    double piece = piece_g(x->lib, BONY[i].called), share = piece / (kg * 1000);
    bool left = x->q->food && x->q->food[0] && span_holds_fold(span_of(x->q->food), span_of(BONY[i].called));
    if (!(share >= PIECE_LEAST && share <= PIECE_MOST) || (cat && !BONY[i].cats) || left) continue;
    if (ration_refuses(x->lib, x->r->ration, library_by_code(x->lib, span_of(BONY[i].code)), BONY[i].called, x->a)) {
      refused++;
      continue;
    }
    item[n++] = words_text(x->a, "%s (%s g each)", BONY[i].called, words_whole(x->a, piece));
    double grams = wanted / calcium_in(x->lib, library_by_code(x->lib, span_of(BONY[i].code)));
    if (!amount[0] && grams > 0)
      amount = words_text(x->a, " About %s g of %s a day, bone and all%s, holds the %s of calcium that are wanted.",
                          words_whole(x->a, grams), BONY[i].called, grams < piece * A_BITE ? " and cut up" : "", words_amount(x->a, wanted, nutrient_info[NUT_CALCIUM].unit));
  }
  if (n == 0) return refused > 0 ? ground_words(x, wanted) : "";
  return words_text(x->a, "Raw, never cooked, and eaten under your eyes, these suit %s by their size: %s.%s",
                    words_called(x->r->animal), words_list(x->a, item, n, n), amount);
}
