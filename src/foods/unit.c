#include "foods/unit.h"
#include "base/table.h"

#include <math.h>

/* Grams and millilitres in one unit. Pound: 0.45359237 kg exactly (international avoirdupois pound, 1959), ounce a
 * sixteenth of it. US customary volumes follow from the gallon of 231 cubic inches (3.785411784 l exactly): cup 1/16,
 * fluid ounce 1/128, tablespoon 1/256, teaspoon 1/768 of it. A pinch is 1/16 teaspoon (common practice of US kitchens). */
#define G_PER_LB 453.59237
#define ML_PER_GALLON 3785.411784

const struct unit_info unit_info[] = {
    [UNIT_NONE] = {"", UNIT_KIND_NONE, 1, NULL},
    [UNIT_G] = {"g", UNIT_KIND_MASS, 1, NULL},
    [UNIT_KG] = {"kg", UNIT_KIND_MASS, 1000, NULL},
    [UNIT_MG] = {"mg", UNIT_KIND_MASS, 1e-3, NULL},
    [UNIT_UG] = {"\xC2\xB5g", UNIT_KIND_MASS, 1e-6, NULL},
    [UNIT_OZ] = {"oz", UNIT_KIND_MASS, G_PER_LB / 16, NULL},
    [UNIT_LB] = {"lb", UNIT_KIND_MASS, G_PER_LB, NULL},
    [UNIT_ML] = {"ml", UNIT_KIND_VOLUME, 1, NULL},
    [UNIT_L] = {"l", UNIT_KIND_VOLUME, 1000, NULL},
    [UNIT_TSP] = {"tsp", UNIT_KIND_VOLUME, ML_PER_GALLON / 768, NULL},
    [UNIT_TBSP] = {"tbsp", UNIT_KIND_VOLUME, ML_PER_GALLON / 256, NULL},
    [UNIT_CUP] = {"cup", UNIT_KIND_VOLUME, ML_PER_GALLON / 16, "cups"},
    [UNIT_FL_OZ] = {"fl oz", UNIT_KIND_VOLUME, ML_PER_GALLON / 128, NULL},
    [UNIT_PINCH] = {"pinch", UNIT_KIND_VOLUME, ML_PER_GALLON / 768 / 16, NULL},
    [UNIT_EACH] = {"each", UNIT_KIND_COUNT, 1, NULL},
    [UNIT_SMALL] = {"small", UNIT_KIND_COUNT, 1, NULL},
    [UNIT_MEDIUM] = {"medium", UNIT_KIND_COUNT, 1, NULL},
    [UNIT_LARGE] = {"large", UNIT_KIND_COUNT, 1, NULL},
    [UNIT_EXTRA_LARGE] = {"extra large", UNIT_KIND_COUNT, 1, NULL},
    [UNIT_CAN] = {"can", UNIT_KIND_COUNT, 1, "cans"},
    [UNIT_CAPSULE] = {"capsule", UNIT_KIND_COUNT, 1, "capsules"},
    [UNIT_TABLET] = {"tablet", UNIT_KIND_COUNT, 1, "tablets"},
    [UNIT_SOFTGEL] = {"softgel", UNIT_KIND_COUNT, 1, "softgels"},
    [UNIT_DROP] = {"drop", UNIT_KIND_COUNT, 1, "drops"},
    [UNIT_SCOOP] = {"scoop", UNIT_KIND_COUNT, 1, "scoops"},
    [UNIT_FILLET] = {"fillet", UNIT_KIND_COUNT, 1, "fillets"},
    [UNIT_CLOVE] = {"clove", UNIT_KIND_COUNT, 1, "cloves"},
    [UNIT_SLICE] = {"slice", UNIT_KIND_COUNT, 1, "slices"},
    [UNIT_STALK] = {"stalk", UNIT_KIND_COUNT, 1, "stalks"},
    [UNIT_LEAF] = {"leaf", UNIT_KIND_COUNT, 1, "leaves"},
    [UNIT_SHEET] = {"sheet", UNIT_KIND_COUNT, 1, "sheets"},
    [UNIT_IU] = {"IU", UNIT_KIND_IU, 1, NULL},
    [UNIT_PERCENT] = {"%", UNIT_KIND_PERCENT, 1, NULL},
};
ROW_FOR_EACH(unit_info, UNIT_COUNT);

/* Every spelling that is understood, the first of each unit the one to suggest. */
static const struct {
  char word[16];
  enum unit unit;
} SPELLINGS[] = {
    {"g", UNIT_G},
    {"gram", UNIT_G},
    {"grams", UNIT_G},
    {"gramme", UNIT_G},
    {"grammes", UNIT_G},
    {"gm", UNIT_G},
    {"gr", UNIT_G},
    {"kg", UNIT_KG},
    {"kilogram", UNIT_KG},
    {"kilograms", UNIT_KG},
    {"kilo", UNIT_KG},
    {"kilos", UNIT_KG},
    {"mg", UNIT_MG},
    {"milligram", UNIT_MG},
    {"milligrams", UNIT_MG},
    {"\xC2\xB5g", UNIT_UG}, /* micro sign */
    {"\xCE\xBCg", UNIT_UG}, /* Greek mu */
    {"ug", UNIT_UG},
    {"mcg", UNIT_UG},
    {"microgram", UNIT_UG},
    {"micrograms", UNIT_UG},
    {"oz", UNIT_OZ},
    {"ounce", UNIT_OZ},
    {"ounces", UNIT_OZ},
    {"lb", UNIT_LB},
    {"lbs", UNIT_LB},
    {"pound", UNIT_LB},
    {"pounds", UNIT_LB},
    {"ml", UNIT_ML},
    {"millilitre", UNIT_ML},
    {"millilitres", UNIT_ML},
    {"milliliter", UNIT_ML},
    {"milliliters", UNIT_ML},
    {"l", UNIT_L},
    {"litre", UNIT_L},
    {"litres", UNIT_L},
    {"liter", UNIT_L},
    {"liters", UNIT_L},
    {"tsp", UNIT_TSP},
    {"tsps", UNIT_TSP},
    {"teaspoon", UNIT_TSP},
    {"teaspoons", UNIT_TSP},
    {"tbsp", UNIT_TBSP},
    {"tbsps", UNIT_TBSP},
    {"tablespoon", UNIT_TBSP},
    {"tablespoons", UNIT_TBSP},
    {"cup", UNIT_CUP},
    {"cups", UNIT_CUP},
    {"fl oz", UNIT_FL_OZ},
    {"fluid ounce", UNIT_FL_OZ},
    {"fluid ounces", UNIT_FL_OZ},
    {"pinch", UNIT_PINCH},
    {"pinches", UNIT_PINCH},
    {"each", UNIT_EACH},
    {"piece", UNIT_EACH},
    {"pieces", UNIT_EACH},
    {"whole", UNIT_EACH},
    {"small", UNIT_SMALL},
    {"medium", UNIT_MEDIUM},
    {"large", UNIT_LARGE},
    {"extra large", UNIT_EXTRA_LARGE},
    {"extra-large", UNIT_EXTRA_LARGE},
    {"xl", UNIT_EXTRA_LARGE},
    {"can", UNIT_CAN},
    {"cans", UNIT_CAN},
    {"tin", UNIT_CAN},
    {"tins", UNIT_CAN},
    {"capsule", UNIT_CAPSULE},
    {"capsules", UNIT_CAPSULE},
    {"tablet", UNIT_TABLET},
    {"tablets", UNIT_TABLET},
    {"softgel", UNIT_SOFTGEL},
    {"softgels", UNIT_SOFTGEL},
    {"drop", UNIT_DROP},
    {"drops", UNIT_DROP},
    {"scoop", UNIT_SCOOP},
    {"scoops", UNIT_SCOOP},
    {"fillet", UNIT_FILLET},
    {"fillets", UNIT_FILLET},
    {"filet", UNIT_FILLET},
    {"filets", UNIT_FILLET},
    {"clove", UNIT_CLOVE},
    {"cloves", UNIT_CLOVE},
    {"slice", UNIT_SLICE},
    {"slices", UNIT_SLICE},
    {"stalk", UNIT_STALK},
    {"stalks", UNIT_STALK},
    {"leaf", UNIT_LEAF},
    {"leaves", UNIT_LEAF},
    {"sheet", UNIT_SHEET},
    {"sheets", UNIT_SHEET},
    {"IU", UNIT_IU},
    {"i.u.", UNIT_IU},
    {"%", UNIT_PERCENT},
    {"percent", UNIT_PERCENT},
    {"per cent", UNIT_PERCENT},
};

enum unit unit_by_word(struct span word) {
  for (size_t i = 0; word.n > 0 && i < COUNT_OF(SPELLINGS); i++) {
    bool begins = ((SPELLINGS[i].word[0] ^ word.p[0]) & ~0x20) == 0; /* most rows end here */
    if (begins && span_is_fold(word, SPELLINGS[i].word)) return SPELLINGS[i].unit;
  }
  /* "tsp." and "oz." as people abbreviate */
  if (word.n > 1 && word.p[word.n - 1] == '.') return unit_by_word(span_cut(word, 0, word.n - 1));
  return UNIT_NONE;
}

const char *unit_nearest(struct span word) {
  /* One slip in a short word, two in a long one: "tbs" is near "tbsp", "cat" is near nothing but "can". */
  int most = word.n >= 6 ? 2 : 1, best = 2 * most + 2;
  const char *nearest = NULL;
  if (word.n < 2) return NULL;
  for (size_t i = 0; i < COUNT_OF(SPELLINGS); i++) {
    struct span spelling = span_of(SPELLINGS[i].word);
    if (spelling.n < 3) continue; /* everything is near "g" */
    int distance = span_distance(word, spelling, most);
    if (distance > most) continue;
    /* Slips seldom hit the first letter: "tbs" is "tbsp" rather than "lbs". */
    int cost = 2 * distance + !span_eq_fold(span_cut(word, 0, 1), span_cut(spelling, 0, 1));
    if (cost < best) {
      best = cost;
      nearest = SPELLINGS[i].word;
    }
  }
  return nearest;
}

static bool is_unit(enum unit u) { return (unsigned)u < UNIT_COUNT; }

double unit_convert(double amount, enum unit u) {
  if (!is_unit(u)) return (double)NAN;
  enum unit_kind kind = unit_info[u].kind;
  if (kind != UNIT_KIND_MASS && kind != UNIT_KIND_VOLUME) return (double)NAN;
  return amount * unit_info[u].factor;
}

/* International units in the nutrient's own unit. Vitamin A: 0.3 ug retinol, or 0.6 ug beta-carotene as labels count it;
 * vitamin D: 0.025 ug (IU definitions; NRC 2006). Vitamin E: 0.67 mg of the natural form. The synthetic form is half
 * stereoisomers that the body does not keep; human food tables, whose milligrams this project sums, count 0.45 mg an IU
 * (US labelling of dietary supplements). An IU itself stands for the same activity in both: the careful figure is used. */
static double per_iu(enum nutrient n, bool natural) {
  switch (n) {
  case NUT_VITAMIN_A:
  case NUT_RETINOL:
    return 0.3;
  case NUT_BETA_CAROTENE:
    return 0.6;
  case NUT_VITAMIN_D:
    return 0.025;
  case NUT_VITAMIN_E:
    return natural ? 0.67 : 0.45;
  default:
    return (double)NAN;
  }
}

double unit_nutrient_amount(double amount, enum unit u, enum nutrient n, bool natural) {
  if (!is_unit(u) || (unsigned)n >= NUT_COUNT) return (double)NAN;
  if (unit_info[u].kind == UNIT_KIND_IU) return amount * per_iu(n, natural);
  if (unit_info[u].kind != UNIT_KIND_MASS) return (double)NAN;
  enum unit own = unit_by_word(span_of(nutrient_info[n].unit)); /* g, mg or ug; kcal is no unit of this table */
  if (own == UNIT_NONE) return (double)NAN;
  if (u == own) return amount; /* exactly what the label says */
  return amount * unit_info[u].factor / unit_info[own].factor;
}
