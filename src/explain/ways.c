#include "explain/ways.h"
#include "base/table.h"

#include <math.h>

WORD_TABLE(way_key, WAY_COUNT, "raw", "simmered-broth-kept", "simmered-drained", "baked");
WORD_TABLE(way_name, WAY_COUNT, "raw", "simmered, broth kept", "simmered, drained", "baked");

WORD_TABLE(way_left_text, LEFT_COUNT, "", "left raw, for there is bone in it and cooked bone splinters", "used as it is",
           "counted as cooked already", "left uncooked, as there are no cooking figures for it");

static const struct {
  enum state state;
  int8_t broth;
} METHOD[] = {{STATE_RAW, -1}, {STATE_SIMMERED, 1}, {STATE_SIMMERED, 0}, {STATE_BAKED, -1}};
ROW_FOR_EACH(METHOD, WAY_COUNT);

/* ---- one line -------------------------------------------------------------------------------------------------- */

static double raw_grams(const struct ration_line *l) {
  double g = 0;
  for (int i = 0; i < l->part_count; i++) g += l->part[i].grams;
  return g;
}

static enum way_left left_as(const struct library *lib, const struct ration_line *l) {
  const struct img_food *food = l->part_count > 0 ? library_food(lib, l->part[0].food) : NULL;
  if (!food) return LEFT_NO_FIGURES;
  if (l->part_count > 1 || (food->flags & FOOD_BONE)) return LEFT_BONE;
  if (stays_as_it_is(food) || food->part == PART_DAIRY) return LEFT_AS_IT_IS;
  if (!cooks_from_raw(food)) return LEFT_COOKED_ALREADY;
  if (food->retention_group == RETAIN_NO_GROUP) return LEFT_NO_FIGURES;
  return LEFT_NOT;
}

static void set_raw(struct ration_line *l, const struct library *lib) {
  const struct img_food *food = library_food(lib, l->part[0].food);
  l->part[0].retention = -1;
  l->grams_fed = raw_grams(l);
  l->state = food ? (enum state)food->state : l->state;
  l->broth_kept = l->cooked_bone = false;
}

/* What the meat loses in the pot is in the broth: with the broth, at least the raw weight is eaten. Water that was added is
 * not counted; what grains and legumes take up is. */
static double weight_share(enum way way, double yield) {
  if (!(yield > 0)) return 1;
  return way == WAY_BROTH_KEPT ? fmax(1, yield) : yield;
}

static void cook_line(const struct library *lib, enum way way, struct ration_line *l, struct way_line *w,
                      struct arena *arena) {
  bool broth_matters;
  uint32_t group = library_food(lib, l->part[0].food)->retention_group;
  w->row = retention_row(lib, group, METHOD[way].state, METHOD[way].broth, &w->other_method, &broth_matters);
  if (!w->row) {
    w->left = LEFT_NO_FIGURES;
    return;
  }
  w->yield = yield_of(lib, l->part[0].food, METHOD[way].state, arena);
  l->part[0].retention = (int32_t)(w->row - IMG_ROWS(&lib->image, IMG_RETENTION, struct img_retention));
  l->grams_fed = raw_grams(l) * weight_share(way, w->yield.mean);
  l->state = METHOD[way].state;
  l->broth_kept = way == WAY_BROTH_KEPT;
}

/* ---- a ration -------------------------------------------------------------------------------------------------- */

static void cook_ration(const struct library *lib, const struct ration *ration, enum way way, struct cooked_way *out,
                        struct arena *arena) {
  struct ration_line *line = ARENA_NEW(arena, struct ration_line, ration->line_count);
  struct way_line *how = ARENA_NEW(arena, struct way_line, ration->line_count);
  *out = (struct cooked_way){.way = way, .ration = *ration, .line = how};
  for (size_t i = 0; i < ration->line_count; i++) {
    line[i] = ration->line[i];
    how[i] = (struct way_line){.left = left_as(lib, &line[i]), .yield = {.mean = 1, .low = 1, .high = 1}};
    if (how[i].left == LEFT_NOT || how[i].left == LEFT_BONE) set_raw(&line[i], lib);
    if (how[i].left == LEFT_NOT && way != WAY_RAW) cook_line(lib, way, &line[i], &how[i], arena);
    bool cooked = how[i].row != NULL;
    out->cooked_count += cooked;
    out->yield_unknown += cooked && !(how[i].yield.mean > 0);
    double grams = ration_line_grams_per_day(&line[i]), fed = line[i].grams_fed;
    double raw = cooked && fed > 0 ? raw_grams(&line[i]) * grams / fed : 0; /* nothing stays nothing, however it is cooked */
    out->grams_low += cooked ? raw * weight_share(way, how[i].yield.low) : grams;
    out->grams_high += cooked ? raw * weight_share(way, how[i].yield.high) : grams;
  }
  out->ration.line = line;
}

const struct cooked_way *ways_of(const struct library *lib, const struct ration *ration, struct arena *arena) {
  struct cooked_way *ways = ARENA_NEW(arena, struct cooked_way, WAY_COUNT);
  for (int w = 0; w < WAY_COUNT; w++) cook_ration(lib, ration, (enum way)w, &ways[w], arena);
  return ways;
}

/* ---- volume ---------------------------------------------------------------------------------------------------- */

/* ml of so many grams; not known where the density is not. */
static double ml_of(const struct library *lib, double g, const char *density) {
  double g_per_ml = library_constant_value(lib, density, SPECIES_DOG);
  return g_per_ml > 0 ? g / g_per_ml : (double)NAN;
}

double volume_of(const struct library *lib, const struct check_result *r) {
  static const struct {
    enum nutrient id;
    const char *density; /* data/constants.tsv, g per ml, one row for both species */
  } SOLID[] = {{NUT_PROTEIN, "density-protein"},
               {NUT_FAT, "density-fat"},
               {NUT_CARBOHYDRATE, "density-carbohydrate"},
               {NUT_ASH, "density-ash"}};
  double solids = 0, ml = 0;
  for (size_t i = 0; i < COUNT_OF(SOLID); i++) {
    double g = known_part(r->nutrient[SOLID[i].id].amount);
    solids += g;
    ml += ml_of(lib, g, SOLID[i].density);
  }
  double water = fmax(0, r->energy.grams_per_day - solids);
  return ml + ml_of(lib, water, "density-water");
}
