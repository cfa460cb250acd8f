/* Words that stand where a unit stands: measures without a weight, units that are not read, foods that look like units. */
#include "recipe/recipe_line.h"

static bool is_any_of(struct span w, const char *const *words, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (span_is(w, words[i])) return true;
  return false;
}

bool is_household_word(struct span w) {
  static const char *const WORDS[] = {
      "bunch",  "handful", "head",   "stick",    "jar",    "bag",    "packet",    "pack",     "package", "pkg",     "pkt",
      "box",    "bottle",  "tub",    "pot",      "bowl",   "glass",  "mug",       "plate",    "splash",  "drizzle", "knob",
      "dash",   "dollop",  "glug",   "sprinkle", "squirt", "pump",   "spoon",     "spoonful", "serving", "portion", "tray",
      "sachet", "carton",  "rasher", "strip",    "sprig",  "ear",    "piece",     "chunk",    "ladle",   "pouch",   "link",
      "patty",  "wedge",   "cube",   "spear",    "pod",    "floret", "container", "smidgen",  "dab"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++) {
    size_t n = strlen(WORDS[i]);
    if (w.n < n || !span_eq(span_cut(w, 0, n), span_of(WORDS[i]))) continue;
    struct span ending = span_cut(w, n, w.n);
    if (ending.n == 0 || span_is(ending, "s") || span_is(ending, "es") || span_is(ending, "ful") || span_is(ending, "fuls"))
      return true;
  }
  return span_is(w, "patties");
}

bool is_foreign_unit(struct span w) {
  static const char *const WORDS[] = {"pint", "pints", "pt", "quart", "quarts",    "qt",        "gallon",    "gallons",
                                      "gal",  "stone", "dl", "cl",    "deciliter", "decilitre", "centilitre"};
  return is_any_of(w, WORDS, COUNT_OF(WORDS));
}

bool only_looks_like_unit(struct span w) {
  static const char *const WORDS[] = {
      "cane",   "cap",    "capons", "cheeks",  "chives", "crop",    "filberts", "giblets", "grains",  "grapes",  "ground",
      "leafy",  "lean",   "leek",   "lite",    "little", "liver",   "livers",   "loaf",    "millet",  "mullet",  "olives",
      "ox",     "paunch", "peach",  "peaches", "pecans", "plaice",  "prunes",   "pullet",  "quinces", "riblets", "round",
      "rounds", "sheep",  "shells", "shoots",  "spiced", "spinach", "steaks",   "sweet",   "thin",    "whale",   "winter"};
  return is_any_of(w, WORDS, COUNT_OF(WORDS));
}
