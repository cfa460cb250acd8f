/* "side --json": the rations or foods, and row by row what each supplies. */
#include "base/table.h"
#include "explain/side.h"

#include "explain/ways.h"
#include "json/json_parts.h"

/* What side gave, with the ways of cooking when those were asked for. */
struct sides {
  const struct side *s;
  const struct cooked_way *way; /* NULL: none */
};

static const struct sides *sides(const struct at *at) { return at_within(at, &json_side_shape); }
static const struct side *side(const struct at *at) { return sides(at)->s; }

static WORD_TABLE(LETTER, SIDE_MOST, "A", "B", "C", "D", "E", "F");
static int letter(const struct at *at) { return (int)at->place; }

/* ---- ways of cooking --------------------------------------------------------------------------------------------- */

static const struct shape way_shape;
static const struct cooked_way *way(const struct at *at) { return at_within(at, &way_shape); }
static const struct way_line *way_line(const struct at *at) { return &way(at)->line[at->place]; }

static double way_line_grams(const struct at *at) { return ration_line_grams_per_day(at->it); }
static int way_line_cooked(const struct at *at) { return way_line(at)->row != NULL; }
static const char *way_line_left(const struct at *at) { return way_left_text[way_line(at)->left]; }
static double way_line_yield(const struct at *at) { return way_line(at)->row ? way_line(at)->yield.mean : NOT_KNOWN; }
static const char *way_line_table(const struct at *at) {
  return way_line(at)->row ? lib_str(at->lib, way_line(at)->row->code) : NULL;
}

static const struct field WAY_LINE[] = {
    NUMBER_POSITIVE("line", "", struct ration_line, line, "of the recipe"),
    NUMBER_OF_ALWAYS("grams_per_day", "g a day", way_line_grams, "as eaten"),
    TRUTH_OF("cooked", way_line_cooked, ""),
    TEXT_OF("left", way_line_left, "why it is not cooked"),
    NUMBER_OF("yield", "g per g raw", way_line_yield, ""),
    TEXT_OF("cooking_table", way_line_table, "code of the row behind the losses"),
};
static const struct shape way_line_shape = SHAPE("SideLine", WAY_LINE, "a line, cooked this way");

static const struct field WAY[] = {
    WORD("way", struct cooked_way, way, way_key, WAY_COUNT, ""),
    NUMBER("grams_low", "g a day", struct cooked_way, grams_low, "by the ranges of the yields"),
    NUMBER("grams_high", "g a day", struct cooked_way, grams_high, "by the ranges of the yields"),
    ROWS("lines", struct cooked_way, ration.line, ration.line_count, &way_line_shape, ""),
};
static const struct shape way_shape = SHAPE("SideWay", WAY, "a way of cooking");

/* ---- what is compared -------------------------------------------------------------------------------------------- */

static const struct side_item *item(const struct at *at) { return at->it; }
static bool of_foods(const struct at *at) { return side(at)->kind == SIDE_FOODS; }

static const char *item_food(const struct at *at) { return library_code(at->lib, item(at)->food); }
static const char *item_record(const struct at *at) { return library_name(at->lib, item(at)->food); }
static const struct field ITEM_FOOD[] = {TEXT_OF_ALWAYS("food", item_food, "the pin"),
                                         TEXT_OF_ALWAYS("record", item_record, "its name")};
static const struct shape item_food_shape = SHAPE("SideFood", ITEM_FOOD, "a food");
static const void *item_if_food(const struct at *at) { return of_foods(at) ? at->it : NULL; }

static double item_grams(const struct at *at) { return of_foods(at) ? NOT_KNOWN : item(at)->grams_per_day; }
static double item_kcal(const struct at *at) { return of_foods(at) ? NOT_KNOWN : item(at)->kcal_per_day; }
static int item_in_part(const struct at *at) { return !energy_is_whole(&item(at)->r->energy); }
static double item_kcal_per_kg(const struct at *at) { return item(at)->r->energy.kcal_per_kg; }
/* A bowl of nothing has no volume. */
static double item_ml(const struct at *at) {
  double grams = item(at)->r->energy.grams_per_day;
  if (of_foods(at) || !(grams > 0)) return NOT_KNOWN;
  return volume_of(at->lib, item(at)->r) * item(at)->grams_per_day / grams;
}
static const void *item_energy(const struct at *at) { return &item(at)->r->energy; }
static const void *item_way(const struct at *at) { return sides(at)->way ? &sides(at)->way[at->place] : NULL; }

static const struct field ITEM[] = {
    WORD_OF_ALWAYS("letter", letter, LETTER, SIDE_MOST, ""),
    TEXT("name", struct side_item, name, ""),
    SAME_OF(item_if_food, &item_food_shape),
    NUMBER_OF("grams_per_day", "g a day", item_grams, "as written; null for foods"),
    NUMBER_OF("kcal_per_day", "kcal a day", item_kcal, "as written; null for foods"),
    NUMBER_OF("kcal_per_kg", "kcal per kg", item_kcal_per_kg, ""),
    NUMBER_OF("ml_per_day", "ml a day", item_ml, "without air between the pieces; null for foods"),
    OBJECT_OF_ALWAYS("share", item_energy, &json_share_shape, "where the energy comes from"),
    TRUTH_OF("kcal_in_part", item_in_part, "both are lower bounds: the energy of some food is known in part only, or food is fed that is not counted"),
    SAME_OF(item_way, &way_shape),
};
static const struct shape item_shape = SHAPE("SideItem", ITEM, "a ration or food that is compared");

/* ---- nutrient by nutrient ---------------------------------------------------------------------------------------- */

static const struct shape row_shape;
static const struct side_row *row(const struct at *at) { return at_within(at, &row_shape); }
static const struct nutrient_result *result(const struct at *at) {
  return &side(at)->item[at->place].r->nutrient[row(at)->id];
}

static double cell_amount(const struct at *at) { return row(at)->amount[at->place]; }
static double cell_low(const struct at *at) { return row(at)->low[at->place]; }
static double cell_high(const struct at *at) { return row(at)->high[at->place]; }
static double cell_per_1000kcal(const struct at *at) {
  return isnan(cell_amount(at)) ? NOT_KNOWN : result(at)->per_1000kcal;
}
static double cell_known(const struct at *at) { return result(at)->known_share; }
static double cell_need(const struct at *at) { return row(at)->need[at->place]; }
static double cell_upper(const struct at *at) { return row(at)->upper[at->place]; }
static double cell_ratio(const struct at *at) { return row(at)->ratio[at->place]; }
static int cell_verdict(const struct at *at) {
  const struct side *s = side(at);
  bool judged = s->judged && s->per != SIDE_PER_100G && s->kind != SIDE_FOODS;
  return judged ? (int)row(at)->verdict[at->place] : -1;
}

static const struct field CELL[] = {
    WORD_OF_ALWAYS("letter", letter, LETTER, SIDE_MOST, ""),
    NUMBER_OF("amount", "unit", cell_amount, "for `per`"),
    NUMBER_OF("low", "unit", cell_low, "5th percentile"),
    NUMBER_OF("high", "unit", cell_high, "95th percentile"),
    NUMBER_OF("per_1000kcal", "unit", cell_per_1000kcal, ""),
    NUMBER_OF("known_share", "", cell_known, "of the food's mass that has a value"),
    NUMBER_OF("need", "unit", cell_need, "for `per`"),
    NUMBER_OF("upper", "unit", cell_upper, "for `per`"),
    NUMBER_OF("ratio", "", cell_ratio, "amount by need"),
    WORD_OF("verdict", cell_verdict, verdict_word, VERDICT_COUNT, ""),
};
static const struct shape cell_shape = SHAPE("SideCell", CELL, "what one of them supplies");

static const char *row_key(const struct at *at) { return nutrient_info[row(at)->id].key; }
static const char *row_name(const struct at *at) { return nutrient_info[row(at)->id].name; }
static const char *row_unit(const struct at *at) { return nutrient_info[row(at)->id].unit; }
static const char *const MEANING[] = {"verdicts-differ", "same-verdict", "more-in", "known-in", "alike"};
static int row_meaning(const struct at *at) {
  const struct side *s = side(at);
  int place = (int)(row(at) - s->row), g = 0;
  while (g + 1 < s->group_count && place >= s->group[g].first + s->group[g].count) g++;
  return (int)s->group[g].meaning;
}
static int row_most(const struct at *at) { return row(at)->most; }
static size_t cells(const struct at *at) { return (size_t)side(at)->count; }
static const void *cell(const struct at *at, size_t i) { return &row(at)->amount[i]; }

static const struct field ROW[] = {
    TEXT_OF_ALWAYS("key", row_key, "of the nutrient"),
    TEXT_OF_ALWAYS("name", row_name, "for people"),
    TEXT_OF_ALWAYS("unit", row_unit, "of the amounts"),
    WORD_OF_ALWAYS("meaning", row_meaning, MEANING, (int)COUNT_OF(MEANING), "what the difference means"),
    NUMBER("factor", "", struct side_row, factor, "largest by smallest amount"),
    WORD_OF("most", row_most, LETTER, SIDE_MOST, "who has most"),
    ROWS_OF("of", cells, cell, &cell_shape, "one for each of `items`"),
};
static const struct shape row_shape = SHAPE("SideNutrient", ROW, "one nutrient, side by side");

/* ---- the whole --------------------------------------------------------------------------------------------------- */

static const struct check_result *first(const struct at *at) { return side(at)->item[0].r; }
static const struct animal *animal(const struct at *at) { return side(at)->animal; }
static const char *animal_name(const struct at *at) { return animal(at)->name; }
static int animal_species(const struct at *at) { return (int)animal(at)->species; }
static double animal_weight(const struct at *at) { return animal(at)->weight_kg; }
static double animal_need(const struct at *at) { return first(at)->energy.need.kcal; }

static const struct field ANIMAL[] = {
    TEXT_OF("name", animal_name, "null when only a weight was given"),
    WORD_OF_ALWAYS("species", animal_species, species_word, SPECIES_COUNT, ""),
    NUMBER_OF("weight_kg", "kg", animal_weight, ""),
    NUMBER_OF("need_kcal", "kcal a day", animal_need, ""),
};
static const struct shape animal_shape = SHAPE("SideAnimal", ANIMAL, "the animal that both are for");

static int kind(const struct at *at) { return (int)side(at)->kind; }
static int per(const struct at *at) { return (int)side(at)->per; }
static int standard(const struct at *at) { return (int)first(at)->options.standard; }
static int basis(const struct at *at) {
  return (int)(side(at)->judged ? first(at)->allowances.basis : first(at)->options.basis);
}
static double sure(const struct at *at) { return first(at)->options.sure; }
static const void *the_animal(const struct at *at) { return animal(at); }
static size_t items(const struct at *at) { return (size_t)side(at)->count; }
static const void *an_item(const struct at *at, size_t i) { return &side(at)->item[i]; }
static size_t rows(const struct at *at) { return (size_t)side(at)->row_count; }
static const void *a_row(const struct at *at, size_t i) { return &side(at)->row[i]; }
static const char *refused(const struct at *at) {
  return first(at)->refusal == REFUSE_NOT ? NULL : refusal_key(first(at)->refusal);
}

static const struct field SIDE[] = {
    WORD_OF_ALWAYS("kind", kind, side_kind_key, SIDE_WAYS + 1, "what is compared"),
    WORD_OF_ALWAYS("per", per, side_per_key, SIDE_PER_COUNT, "what the amounts are given for"),
    WORD_OF_ALWAYS("standard", standard, standard_key, STANDARD_COUNT, ""),
    WORD_OF_ALWAYS("basis", basis, basis_key, BASIS_COUNT, ""),
    NUMBER_OF_ALWAYS("sure", "", sure, "the confidence asked for, 0.5 to 0.99"),
    OBJECT_OF("animal", the_animal, &animal_shape, "null when none was given"),
    ROWS_OF("items", items, an_item, &item_shape, ""),
    ROWS_OF("nutrients", rows, a_row, &row_shape, "in the order of the drawing"),
    TEXT_OF("refused", refused, "why no verdict is given"),
};
const struct shape json_side_shape = SHAPE("Side", SIDE, "the answer of `side --json`");

void json_side(const struct library *lib, const struct side *s, const struct cooked_way *ways, struct buf *out) {
  struct sides it = {s, ways};
  json_write(lib, &json_side_shape, &it, out);
}
