/* What raw food brings along: enzymes and proteins that take a vitamin away, parasites, germs. */
#include "base/table.h"
#include "review/findings_internal.h"

enum { LINES_NAMED = 3 };

static bool has_flag(const struct img_food *f, uint32_t flag) { return (f->flags & flag) != 0; }
/* ORDER PART: muscle .. egg */
static_assert(PART_MUSCLE == 0 && PART_BONE < PART_EGG && PART_FISH < PART_EGG && PART_SHELLFISH < PART_EGG &&
                  PART_EGG < PART_DAIRY && PART_EGG < PART_VEGETABLE,
              "ORDER PART: what an animal is made of, and its egg, come first");
static bool is_animal_food(const struct img_food *f, uint32_t unused) { return (void)unused, f->part <= PART_EGG; }
static bool is_fish(const struct img_food *f, uint32_t unused) { return (void)unused, f->part == PART_FISH; }
static bool is_of_kind(const struct img_food *f, uint32_t kind) { return f->kind == kind && f->part <= PART_EGG; }

/* One finding that names every raw line of which 'is' holds; 'of' may be NUT_NONE. */
static void raw_lines(struct review *r, const char *id, enum nutrient of, bool (*is)(const struct img_food *, uint32_t),
                      uint32_t what) {
  const struct ration *ration = r->result->ration;
  int *line = ARENA_NEW(r->arena, int, ration->line_count);
  size_t n = 0;
  double grams = 0;
  for (size_t i = 0; i < ration->line_count; i++) {
    if (!(ration->line[i].grams_fed > 0) || !line_is_raw(r, i) || !is(food_of_line(r, i), what)) continue;
    line[n++] = (int)i;
    grams += ration_line_grams_per_day(&ration->line[i]);
  }
  struct draft d;
  if (n == 0 || !draft_begin(&d, r, id, NULL)) return;
  if (of != NUT_NONE) draft_of(&d, of);
  d.prepares = true;
  draft_word(&d, "food", lines_list(r, line, n, LINES_NAMED));
  draft_number(&d, "grams", grams, "g");
  draft_end(&d);
}

void findings_raw(struct review *r) {
  bool cat = r->result->animal && r->result->animal->species == SPECIES_CAT;
  raw_lines(r, cat ? "thiaminase-cat" : "thiaminase-dog", NUT_THIAMIN, has_flag, FOOD_THIAMINASE);
  raw_lines(r, "avidin", NUT_BIOTIN, has_flag, FOOD_RAW_WHITE);
  raw_lines(r, "raw-pork", NUT_NONE, is_of_kind, KIND_PORK);
  raw_lines(r, "raw-game", NUT_NONE, is_of_kind, KIND_GAME);
  raw_lines(r, "raw-fish-parasites", NUT_NONE, is_fish, 0);
  raw_lines(r, "raw-hygiene", NUT_NONE, is_animal_food, 0);
}
