/* pipeline.c: the steps of the builder in their order, and the sections of foods that come out. */
#include "foods/unit.h"
#include "library/foods.h"
#include "library/tables.h"

enum { FIRST_CAP = 16384, CODE_HASH = 1 << 16 };

/* ---- sections -------------------------------------------------------------------------------------------------- */

/* "cup, chopped" begins with a kitchen unit; "extra large" and "fl oz" are units of two words. */
static enum unit unit_of_words(const char *words) {
  size_t one = strcspn(words, " ,(");
  size_t two = words[one] == ' ' ? one + 1 + strcspn(words + one + 1, " ,(") : one;
  enum unit u = unit_by_word((struct span){words, two});
  return u != UNIT_NONE ? u : unit_by_word((struct span){words, one});
}

static struct img_food finished(struct writer *w, const struct build_food *f) {
  struct img_food food = f->food;
  food.code = writer_textz(w, f->code);
  food.name = writer_textz(w, f->name);
  food.group = writer_textz(w, f->group);
  food.note = writer_textz(w, f->note);
  food.refuse_text = writer_textz(w, f->refuse_text ? f->refuse_text : "");
  return food;
}

static void write_measures(struct foods_build *b, struct img_food *food) {
  size_t count = 0, at = 0;
  for (size_t i = 0; i < b->count; i++) count += (size_t)b->food[i].measure_count;
  struct img_measure *m = ARENA_NEW(b->arena, struct img_measure, count);
  for (size_t i = 0; i < b->count; i++) {
    const struct build_food *f = &b->food[i];
    food[i].measure_first = (uint32_t)at;
    food[i].measure_count = (uint32_t)f->measure_count;
    for (int k = 0; k < f->measure_count; k++)
      m[at++] = (struct img_measure){writer_textz(b->w, f->measure[k].words), (float)f->measure[k].grams,
                                     (uint32_t)unit_of_words(f->measure[k].words)};
  }
  writer_section(b->w, IMG_MEASURES, m, count, sizeof *m);
}

static void write_foods(struct foods_build *b) {
  struct img_food *food = ARENA_NEW(b->arena, struct img_food, b->count);
  struct img_value *value = ARENA_NEW(b->arena, struct img_value, b->count * NUT_COUNT);
  for (size_t i = 0; i < b->count; i++) {
    food[i] = finished(b->w, &b->food[i]);
    memcpy(value + i * NUT_COUNT, b->food[i].value, sizeof b->food[i].value);
  }
  write_measures(b, food);
  writer_section(b->w, IMG_FOODS, food, b->count, sizeof *food);
  writer_section(b->w, IMG_VALUES, value, b->count * NUT_COUNT, sizeof *value);
}

void foods_gather(struct foods_build *b, struct writer *w, const char *packages_dir, const char *data_dir) {
  *b = (struct foods_build){.w = w, .arena = w->arena, .cap = FIRST_CAP, .code_hash_size = CODE_HASH};
  b->food = ARENA_NEW(b->arena, struct build_food, b->cap);
  b->code_hash = ARENA_NEW(b->arena, uint32_t, b->code_hash_size);
  read_sr28(b, packages_dir, data_dir);
  read_ifct(b, packages_dir, data_dir);
  sort_parts(b, data_dir);
  add_own_records(b, data_dir);
  sort_retention(b, data_dir);
  complete_amino_fatty(b, data_dir);
  complete_cited(b, data_dir);
  complete_absent(b, data_dir);
}

void foods_estimate(struct foods_build *b, const char *data_dir) {
  complete_patterns(b, data_dir);
  complete_spread(b, data_dir);
}

void build_foods(struct writer *w, const char *packages_dir, const char *data_dir) {
  struct foods_build b;
  foods_gather(&b, w, packages_dir, data_dir);
  foods_estimate(&b, data_dir);
  add_cuts(&b, data_dir);
  write_foods(&b);
}

void build_tables(struct writer *w, const char *data_dir) {
  build_allowances(w, data_dir);
  build_windows(w, data_dir);
  build_energy(w, data_dir);
  build_constants(w, data_dir);
  build_retention(w, data_dir);
  build_yields(w, data_dir);
  build_hazards(w, data_dir);
  build_densities(w, data_dir);
  build_household(w, data_dir);
  build_kitchen(w, data_dir);
  build_food_groups(w, data_dir);
  build_uncounted(w, data_dir);
  build_findings(w, data_dir);
}
