/* "compose --json": the recipe, what it costs, and when there is none why, what comes nearest and what would help. */
#include "app/app_compose.h"
#include "base/table.h"

#include "json/json_parts.h"

static const struct composed_answer *answer(const struct at *at) { return at_within(at, &json_compose_shape); }

/* ---- a bowl ------------------------------------------------------------------------------------------------------ */

static const struct shape rest_shape, bowl_shape;
static const struct composed *dish(const struct at *at) { return at_within(at, &rest_shape); }
static const struct compose_bowl *bowl(const struct at *at) { return at_within(at, &bowl_shape); }

static size_t candidate(const struct at *at) { return (size_t)bowl(at)->candidate[at->place]; }
static const struct compose_food *larder_food(const struct at *at) {
  return &answer(at)->request->food[answer(at)->result->food_of[candidate(at)]];
}
static const char *line_food(const struct at *at) {
  return library_code(at->lib, ((const struct ration_line *)at->it)->shown_food);
}
static const char *line_name(const struct at *at) { return larder_food(at)->food.name; }
static double line_grams(const struct at *at) { return ration_line_grams_per_day(at->it); }
static double line_days(const struct at *at) { return answer(at)->result->times_of[candidate(at)] / 4; }
static double line_cost(const struct at *at) { return line_grams(at) * larder_food(at)->price; }

static const struct field LINE[] = {
    TEXT_OF_ALWAYS("food", line_food, "the pin"),
    TEXT_OF_ALWAYS("name", line_name, "as the larder calls it"),
    NUMBER_OF_ALWAYS("grams_per_day", "g a day", line_grams, "as eaten"),
    NUMBER_OF_ALWAYS("days_per_week", "days", line_days, ""),
    NUMBER_OF("cost", "currency a day", line_cost, "null without a price"),
};
static const struct shape line_shape = SHAPE("ComposeLine", LINE, "a food of the bowl");

static const char *wanting_key(const struct at *at) {
  return nutrient_info[((const struct nutrient_result *)at->it)->id].key;
}
static const char *wanting_unit(const struct at *at) {
  return nutrient_info[((const struct nutrient_result *)at->it)->id].unit;
}

static const struct field WANTING[] = {
    TEXT_OF_ALWAYS("key", wanting_key, "of the nutrient"),
    WORD("verdict", struct nutrient_result, verdict, verdict_word, VERDICT_COUNT, ""),
    TEXT_OF_ALWAYS("unit", wanting_unit, "of the amounts"),
    NUMBER("amount", "unit", struct nutrient_result, window_amount, "a day, in the poorest window"),
    NUMBER("allowance", "unit", struct nutrient_result, allowance, "a day"),
    NUMBER("upper", "unit", struct nutrient_result, upper, "a day"),
    NUMBER("chance_met", "", struct nutrient_result, chance_met, ""),
};
static const struct shape wanting_shape = SHAPE("ComposeWanting", WANTING, "a nutrient that is not met");

static const struct composed_bowl *text_of(const struct at *at) { return &dish(at)->bowl[bowl(at) - dish(at)->dish->bowl]; }
static size_t wantings(const struct at *at) { return text_of(at)->after ? NUT_COUNT : 0; }
static const void *wanting(const struct at *at, size_t i) {
  const struct nutrient_result *n = &text_of(at)->after->nutrient[i];
  return n->verdict == VERDICT_MET || n->verdict == VERDICT_NO_FIGURE ? NULL : n;
}

static const char *bowl_animal(const struct at *at) { return bowl(at)->animal->name; }
static int bowl_species(const struct at *at) { return (int)bowl(at)->animal->species; }
static double bowl_supply(const struct at *at) { return bowl(at)->after->energy.supply_kcal; }
static double bowl_grams(const struct at *at) { return bowl(at)->after->energy.grams_per_day; }
static const char *bowl_text(const struct at *at) { return text_of(at)->text; }
static const char *bowl_topper(const struct at *at) { return text_of(at)->topper; }
static int bowl_kept(const struct at *at) { return text_of(at)->kept; }
static size_t lines(const struct at *at) { return bowl(at)->ration->line_count; }
static const void *a_line(const struct at *at, size_t i) { return &bowl(at)->ration->line[i]; }

static void write_left(struct json *j, const char *key, const struct at *at) {
  (void)key;
  json_left(j, at, NULL, text_of(at)->after);
}

static const struct field BOWL[] = {
    TEXT_OF("animal", bowl_animal, "its name; null when only a weight was given"),
    WORD_OF_ALWAYS("species", bowl_species, species_word, SPECIES_COUNT, ""),
    NUMBER("base_share", "", struct compose_bowl, share, "of the base, that this animal gets"),
    NUMBER("need_kcal", "kcal a day", struct compose_bowl, need_kcal, ""),
    NUMBER_OF("supply_kcal", "kcal a day", bowl_supply, ""),
    NUMBER_OF("grams_per_day", "g a day", bowl_grams, "as eaten"),
    TEXT_OF("text", bowl_text, "a recipe for this animal, which `check` reads"),
    TEXT_OF("topper", bowl_topper, "what goes on top of the base, a line a food"),
    TRUTH_OF("kept", bowl_kept, "the text, read again, keeps every promise"),
    ROWS_OF("lines", lines, a_line, &line_shape, ""),
    ROWS_OF("wanting", wantings, wanting, &wanting_shape, "what is not met"),
    FREE_SAME(write_left, &json_left_shape),
};
static const struct shape bowl_shape = SHAPE("ComposeBowl", BOWL, "what one animal gets");

/* ---- a dish ------------------------------------------------------------------------------------------------------ */

static const char *dish_text(const struct at *at) { return ((const struct composed *)at->it)->bowl[0].text; }
static double dish_grams(const struct at *at) { return dish(at)->dish->grams; }
static double dish_cost(const struct at *at) { return dish(at)->dish->grams > 0 ? dish(at)->dish->cost : NOT_KNOWN; }
static double week_cost(const struct at *at) { return 7 * dish_cost(at); }
static int dish_rounded(const struct at *at) { return dish(at)->dish->rounded; }
static size_t bowls(const struct at *at) { return answer(at)->request->animals; }
static const void *a_bowl(const struct at *at, size_t i) { return &dish(at)->dish->bowl[i]; }

static const struct field REST[] = {
    NUMBER_OF("grams_per_day", "g a day", dish_grams, "of all bowls"),
    NUMBER_OF("cost_per_week", "currency a week", week_cost, "null when a food has no price"),
    NUMBER_OF("cost_per_day", "currency a day", dish_cost, "null when a food has no price"),
    TRUTH_OF("rounded", dish_rounded, "amounts are whole steps"),
    ROWS_OF("bowls", bowls, a_bowl, &bowl_shape, "one for each animal"),
    TEXT("base", struct composed, base, "household: the base for all in a day, a line a food"),
};
static const struct shape rest_shape = SHAPE("ComposeRest", REST, "what was composed, beside its text");

static const struct field DISH[] = {
    TEXT_OF("text", dish_text, "the recipe of the first animal, which `check` reads"),
    SAME_AS(&rest_shape),
};
static const struct shape dish_shape = SHAPE("ComposeDish", DISH, "what was composed");

/* ---- the whole --------------------------------------------------------------------------------------------------- */

static const struct compose_result *result(const struct at *at) { return answer(at)->result; }
/* ORDER COMPOSE_STATUS. */
static const char *const STATUS[] = {"found", "stopped", "none-exists", "refused", "not-linear"};
ROW_FOR_EACH(STATUS, COMPOSE_NOT_LINEAR + 1);

static int cut_short(const struct at *at) { return result(at)->cut_short; }
static int status(const struct at *at) { return (int)result(at)->status; }
static double objective(const struct at *at) { return answer(at)->found ? answer(at)->found->dish->objective : NOT_KNOWN; }
static double before_rounding(const struct at *at) { return answer(at)->found ? result(at)->objective : NOT_KNOWN; }
static double bound(const struct at *at) { return answer(at)->found ? result(at)->bound : NOT_KNOWN; }
static int proven(const struct at *at) { return result(at)->proven; }
static const void *found(const struct at *at) { return answer(at)->found; }
static const char *found_text(const struct at *at) { return answer(at)->found ? answer(at)->found->bowl[0].text : NULL; }

static size_t conflicts(const struct at *at) { return result(at)->conflict.count; }
static const char *conflict(const struct at *at, size_t i) { return result(at)->conflict.words[i]; }
static const char *because(const struct at *at) { return result(at)->conflict.sentence; }
static size_t cloudy_count(const struct at *at) { return result(at)->energy_unknown_count; }
static const char *cloudy(const struct at *at, size_t i) { return result(at)->energy_unknown[i]; }
static const void *nearest(const struct at *at) { return answer(at)->nearest; }
static size_t missed_count(const struct at *at) { return result(at)->nearest_missed_count; }
static const char *missed(const struct at *at, size_t i) { return result(at)->nearest_missed[i]; }
static const char *help_for(const struct at *at) { return result(at)->help_for ? result(at)->help_for->name : NULL; }
static const void *helps(const struct at *at) { return &result(at)->help; }
static const char *refused(const struct at *at) {
  return result(at)->status == COMPOSE_REFUSED ? refusal_text(animal_refusal(result(at)->refused)) : NULL;
}

static const struct field COMPOSE[] = {
    TEXT("larder", struct composed_answer, name, "its name"),
    WORD_OF_ALWAYS("status", status, STATUS, (int)COUNT_OF(STATUS), ""),
    TEXT("aim", struct composed_answer, aim, ""),
    NUMBER_OF("objective", "", objective, "what the search made least"),
    NUMBER_OF("objective_before_rounding", "", before_rounding, ""),
    NUMBER_OF("bound", "", bound, "nothing better than this exists"),
    TRUTH_OF("proven", proven, "by arithmetic, not by patience"),
    TRUTH_OF("cut_short", cut_short, "the search for what comes nearest and what would help was not finished"),
    TEXT("currency", struct composed_answer, currency, "as the larder has it"),
    TEXT_OF("text", found_text, "the recipe of the first animal, which `check` reads; null when there is none"),
    SAME_OF(found, &rest_shape),
    TEXTS_OF("conflict", conflicts, conflict, "a smallest set of limits that cannot all be kept, in words"),
    TEXT_OF("because", because, "the same as a sentence"),
    TEXTS_OF("energy_unknown", cloudy_count, cloudy,
             "foods whose energy is not known: they are used sparingly or not at all"),
    OBJECT_OF("nearest", nearest, &dish_shape, "what comes closest"),
    TEXTS_OF("nearest_misses", missed_count, missed, "limits beside the nutrients that it does not keep, in words"),
    TEXT_OF("would_help_for", help_for, "the animal whose bowl `would_help` is about"),
    SAME_OF_ALWAYS(helps, &json_helps_shape),
    TEXT_OF("refused", refused, "why no formula is given"),
};
const struct shape json_compose_shape = SHAPE("Compose", COMPOSE, "the answer of `compose --json`");

void json_compose(const struct library *lib, const struct app_compose_answer *a, struct buf *out) {
  json_write(lib, &json_compose_shape, &a->answer, out);
}
