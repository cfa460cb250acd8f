#include "foods/nutrient.h"

const struct nutrient_info nutrient_info[NUT_COUNT] = {
#define X(id, key, name, unit, group) [NUT_##id] = {key, name, unit, NG_##group},
    NUTRIENT_LIST(X)
#undef X
};

enum nutrient nutrient_by_key(struct span key) {
  for (int i = 0; i < NUT_COUNT; i++)
    if (span_is(key, nutrient_info[i].key)) return (enum nutrient)i;
  return NUT_NONE;
}

/* What labels and people call them, beside the key and the name. */
static const struct {
  const char *word;
  enum nutrient id;
} ALIASES[] = {{"fibre", NUT_FIBER},
               {"total fat", NUT_FAT},
               {"carbs", NUT_CARBOHYDRATE},
               {"carbohydrates", NUT_CARBOHYDRATE},
               {"sugar", NUT_SUGARS},
               {"vitamin b1", NUT_THIAMIN},
               {"thiamine", NUT_THIAMIN},
               {"vitamin b2", NUT_RIBOFLAVIN},
               {"vitamin b3", NUT_NIACIN},
               {"nicotinic acid", NUT_NIACIN},
               {"vitamin b5", NUT_PANTOTHENIC},
               {"pantothenate", NUT_PANTOTHENIC},
               {"pyridoxine", NUT_B6},
               {"cobalamin", NUT_B12},
               {"folic acid", NUT_FOLATE},
               {"vitamin b9", NUT_FOLATE},
               {"vitamin b7", NUT_BIOTIN},
               {"vitamin h", NUT_BIOTIN},
               {"vitamin d3", NUT_VITAMIN_D},
               {"vitamin k1", NUT_VITAMIN_K},
               {"ascorbic acid", NUT_VITAMIN_C},
               {"vitamin a", NUT_VITAMIN_A},
               {"beta carotene", NUT_BETA_CAROTENE},
               {"epa+dha", NUT_EPA_DHA},
               {"ala", NUT_ALPHA_LINOLENIC},
               {"la", NUT_LINOLEIC},
               {"calories", NUT_ENERGY},
               {"moisture", NUT_WATER},
               {"salt as chloride", NUT_CHLORIDE}};

enum nutrient nutrient_by_name(struct span name) {
  name = span_trim(name);
  for (int i = 0; i < NUT_COUNT; i++)
    if (span_is_fold(name, nutrient_info[i].key) || span_is_fold(name, nutrient_info[i].name)) return (enum nutrient)i;
  for (size_t i = 0; i < COUNT_OF(ALIASES); i++)
    if (span_is_fold(name, ALIASES[i].word)) return ALIASES[i].id;
  return NUT_NONE;
}

const char *nutrient_inside(struct arena *a, enum nutrient n) {
  const char *name = nutrient_info[n].name;
  char *text = arena_text(a, span_of(name));
  bool word = name[0] >= 'A' && name[0] <= 'Z' && name[1] >= 'a' && name[1] <= 'z'; /* not "EPA" */
  if (word) text[0] = (char)(name[0] - 'A' + 'a');
  return text;
}
