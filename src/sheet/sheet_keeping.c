/* Fridge and freezer, thawing, serving; changing over to a new food. */
#include <math.h>

#include "sheet/maker.h"

static const struct img_kitchen *rows(const struct maker *m, size_t *count) {
  *count = img_count(&m->f->lib->image, IMG_KITCHEN);
  return IMG_ROWS(&m->f->lib->image, IMG_KITCHEN, struct img_kitchen);
}

static const char *says(const struct maker *m, const struct img_kitchen *row) {
  const char *us = lib_str(m->f->lib, row->says_us);
  return m->style->units == UNITS_US && us[0] ? us : lib_str(m->f->lib, row->says);
}

/* ---- when a sentence has something to speak of ---- */

static bool any_raw(const struct maker *m) {
  const struct kitchen *k = m->f->kitchen;
  for (size_t i = 0; i < k->line_count; i++)
    if (k->line[i].keep && k->line[i].keep->form == KITCHEN_RAW && !k->line[i].danger) return true;
  return false;
}

static bool any_supplement(const struct maker *m) {
  const struct ration *ration = m->r->ration;
  for (size_t i = 0; i < ration->line_count; i++) {
    uint8_t part = library_food(m->f->lib, ration->line[i].shown_food)->part;
    if (part == PART_SUPPLEMENT || part == PART_FAT_OIL) return true;
  }
  return false;
}

static bool applies(const struct maker *m, const struct img_kitchen *row) {
  const char *words = lib_str(m->f->lib, row->words);
  if (row->form == KITCHEN_RAW && !any_raw(m)) return false;
  if (strcmp(words, "supplement") == 0) return any_supplement(m);
  if (strcmp(words, "cat") == 0) return m->r->animal && m->r->animal->species == SPECIES_CAT;
  return true;
}

static void say_topic(const struct maker *m, enum kitchen_topic topic) {
  size_t count;
  const struct img_kitchen *row = rows(m, &count);
  for (size_t i = 0; i < count; i++)
    if (row[i].topic == topic && applies(m, &row[i])) add_point(m, says(m, &row[i]));
}

/* ---- keeping ----------------------------------------------------------------------------------------------------- */

enum { KEEP_FOOD, KEEP_FRIDGE, KEEP_FREEZER, KEEP_COLUMNS };

static bool is_among(const char *name, const char *const *list, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (strcmp(list[i], name) == 0) return true;
  return false;
}

/* Each kind of food once, with those of the bowl that are of it. */
static void keep_rows(const struct maker *m, struct sheet_table *t) {
  const struct kitchen *k = m->f->kitchen;
  size_t count;
  const struct img_kitchen *row = rows(m, &count);
  for (size_t i = 0; i < count; i++) {
    const char **food = ARENA_NEW(m->arena, const char *, k->line_count + 1);
    size_t foods = 0;
    for (size_t l = 0; l < k->line_count; l++)
      if (k->line[l].keep == &row[i] && !k->line[l].danger && !is_among(k->line[l].food, food, foods))
        food[foods++] = k->line[l].food;
    if (foods == 0) continue;
    struct sheet_cell *c = add_row(m, t);
    c[KEEP_FOOD].text = words_text(m->arena, "%s", says(m, &row[i]));
    c[KEEP_FOOD].small = clean(m, words_list(m->arena, food, foods, 6));
    c[KEEP_FRIDGE].text = days_words(m, (double)row[i].low, (double)row[i].high, "day", "days");
    c[KEEP_FREEZER].text =
        row[i].high2 > 0 ? days_words(m, (double)row[i].low2, (double)row[i].high2, "month", "months") : "not for it";
  }
}

static const char *mixed(const struct maker *m) {
  const struct kitchen *k = m->f->kitchen;
  struct arena *a = m->arena;
  const char *fridge = days_words(m, k->fridge_low, k->fridge_high, "day", "days");
  const char *frozen = k->freezer_high > 0 ? words_text(a, ", and %s in the freezer",
                                                        days_words(m, k->freezer_low, k->freezer_high, "month", "months"))
                                           : "";
  return words_text(a, "All of it mixed keeps as long as its shortest part: %s in the fridge%s.", fridge, frozen);
}

static void keeping(const struct maker *m) {
  static const struct sheet_column COLUMN[KEEP_COLUMNS] = {
      {"Kind of food", 0.52, false, false}, {"Fridge", 0.24, false, false}, {"Freezer", 0.24, false, false}};
  const struct kitchen *k = m->f->kitchen;
  add_heading(m, "Keeping and thawing");
  if (k->shortest) {
    keep_rows(m, add_table(m, "How long the foods keep", COLUMN, KEEP_COLUMNS));
    add_paragraph(m, TONE_STRONG, mixed(m));
    if (k->not_frozen_count > 0)
      add_paragraph(m, TONE_PLAIN,
                    words_text(m->arena, "Not into the freezer, but in when the bowl is served: %s.",
                               words_list(m->arena, k->not_frozen, k->not_frozen_count, 8)));
  } else {
    add_paragraph(m, TONE_PLAIN, "No keeping time is known for these foods: go by their labels.");
  }
  say_topic(m, KITCHEN_COLD);
  say_topic(m, KITCHEN_THAW);
  say_topic(m, KITCHEN_SERVE);
}

/* ---- changing over ----------------------------------------------------------------------------------------------- */

enum { CHANGE_SHARE, CHANGE_WEEK, CHANGE_TEN, CHANGE_NEW, CHANGE_COLUMNS };

static const char *from_to(const struct maker *m, double low, double high) {
  struct arena *a = m->arena;
  if (!(high > 0)) return words_text(a, "from day %s on", words_whole(a, low));
  if (high == low) return words_text(a, "day %s", words_whole(a, low));
  return words_text(a, "days %s to %s", words_whole(a, low), words_whole(a, high));
}

static void changing(const struct maker *m) {
  static const struct sheet_column COLUMN[CHANGE_COLUMNS] = {{"Of the new bowl", 0.28, false, false},
                                                             {"In a week", 0.24, false, false},
                                                             {"In ten days", 0.24, false, false},
                                                             {"New food a day", 0.24, true, false}};
  size_t count;
  const struct img_kitchen *row = rows(m, &count);
  add_heading(m, "Changing over to it");
  struct sheet_table *t = add_table(m, "How much of the new food on which day", COLUMN, CHANGE_COLUMNS);
  for (size_t i = 0; i < count; i++) {
    if (row[i].topic != KITCHEN_CHANGE) continue;
    struct sheet_cell *c = add_row(m, t);
    c[CHANGE_SHARE].text = says(m, &row[i]);
    c[CHANGE_WEEK].text = from_to(m, (double)row[i].low, (double)row[i].high);
    c[CHANGE_TEN].text = from_to(m, (double)row[i].low2, (double)row[i].high2);
    c[CHANGE_NEW].text = mass(m, m->f->kitchen->bowl_g * (double)row[i].share);
  }
  add_paragraph(m, TONE_PLAIN, "The rest is the food fed until now, a little less of it each time.");
  say_topic(m, KITCHEN_CHANGE_CARE);
}

void make_keeping(const struct maker *m) {
  if (m->f->kitchen->line_count == 0) return;
  keeping(m);
  changing(m);
}
