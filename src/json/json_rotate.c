/* Which recipe on which day. */
#include "app/app_rotate.h"

#include "json/json_parts.h"

static const struct app_rotate_answer *answer(const struct at *at) { return at_within(at, &json_rotate_shape); }
static const struct rotation *found(const struct at *at) {
  const struct app_rotate_answer *a = answer(at);
  return a->helps ? &a->with : a->rotation.status == ROTATION_FOUND ? &a->rotation : NULL;
}

static void write_fails(struct json *j, const char *key, const struct at *at) {
  json_open(j, key, '[');
  for (int n = 0; n < NUT_COUNT; n++)
    if (answer(at)->rotation.fails[at->place][n]) json_text(j, NULL, nutrient_info[n].key);
  json_close(j, ']');
}
static int usable(const struct at *at) { return answer(at)->rotation.usable[at->place]; }
static double kcal(const struct at *at) { return answer(at)->alone[at->place]->energy.supply_kcal; }

static const struct field RECIPE[] = {
    TEXT("name", struct rotate_recipe, name, ""),
    TEXT("file", struct rotate_recipe, file, ""),
    NUMBER_ALWAYS("days", "days", struct rotate_recipe, days, "of the rotation, on which it is fed"),
    NUMBER("batch_days", "days", struct rotate_recipe, batch_days, "that a batch makes; null when it is not said"),
    NUMBER("batches", "", struct rotate_recipe, batches, "for the whole rotation"),
    NUMBER_OF("kcal", "kcal a day", kcal, ""),
    TRUTH_OF("usable", usable, "it meets what is counted by the day, so that it may stand on a day"),
    TEXT("says", struct rotate_recipe, says, "what it does not meet alone, and why it fits on no day, as a sentence"),
    FREE("fails", write_fails, "string[]", "keys of what it does not meet, fed alone every day"),
};
static const struct shape recipe_shape = SHAPE("RotationRecipe", RECIPE, "a recipe that was offered");

static const struct rotate_addition *addition(const struct at *at) { return at->it; }
static const char *addition_key(const struct at *at) { return nutrient_info[addition(at)->id].key; }
static const char *addition_recipe(const struct at *at) {
  return addition(at)->food == NO_INDEX ? NULL : answer(at)->recipe[addition(at)->recipe].name;
}
static const char *addition_food(const struct at *at) { return json_food_code(at->lib, addition(at)->food); }
static const char *addition_name(const struct at *at) {
  return addition(at)->food == NO_INDEX ? NULL : library_name(at->lib, addition(at)->food);
}
static double addition_grams(const struct at *at) {
  return addition(at)->food == NO_INDEX ? NOT_KNOWN : addition(at)->grams;
}
static const struct field ADDITION[] = {
    TEXT_OF_ALWAYS("key", addition_key, "of the nutrient that no rotation meets"),
    TEXT_OF("food", addition_food, "null: none is known, or there is too much of the nutrient"),
    TEXT_OF("name", addition_name, ""),
    NUMBER_OF("grams", "g a day", addition_grams, ""),
    TEXT("dose", struct rotate_addition, dose, "as a line of a recipe has it, in amounts that can be bought"),
    TEXT_OF("recipe", addition_recipe, "that it is the smallest for"),
    TEXT("says", struct rotate_addition, says, "a sentence"),
};
static const struct shape addition_shape = SHAPE("RotationAddition", ADDITION, "what would mend a need");

static int status(const struct at *at) { return (int)answer(at)->rotation.status; }
static double days(const struct at *at) { return answer(at)->rotation.days; }
static double changes(const struct at *at) { return found(at) ? found(at)->changes : NOT_KNOWN; }
static size_t day_count(const struct at *at) { return found(at) ? (size_t)found(at)->days : 0; }
static const char *day_recipe(const struct at *at, size_t i) { return answer(at)->recipe[found(at)->recipe[i]].name; }
static const void *a_recipe(const struct at *at, size_t i) { return &answer(at)->recipe[i]; }
static size_t recipes(const struct at *at) { return (size_t)answer(at)->recipes; }
static void write_conflict(struct json *j, const char *key, const struct at *at) {
  json_open(j, key, '[');
  for (int n = 0; n < NUT_COUNT; n++)
    if (answer(at)->rotation.conflict[n]) json_text(j, NULL, nutrient_info[n].key);
  json_close(j, ']');
}
static const void *week(const struct at *at) { return answer(at)->week.week ? &answer(at)->week : NULL; }

static const struct field ROTATION[] = {
    WORD_OF_ALWAYS("status", status, rotation_status_key, 3, "of the recipes as they are"),
    NUMBER_OF_ALWAYS("days", "days", days, ""),
    NUMBER_OF("changes", "", changes, "of recipe, from the last day to the first included; null when none was found"),
    TEXTS_OF("calendar", day_count, day_recipe,
             "the recipe of each day; with `additions` in every bowl where `helps` is true"),
    ROWS_OF("recipes", recipes, a_recipe, &recipe_shape, ""),
    ROWS_IN("additions", struct app_rotate_answer, addition, additions, &addition_shape,
            "for each need that no rotation of these meets"),
    TRUTH("helps", struct app_rotate_answer, helps, "with all additions in every bowl a rotation was found"),
    TEXT("says", struct app_rotate_answer, says, "which rotation there is, or what none meets, in sentences"),
    TEXT("says_with", struct app_rotate_answer, says_with,
         "what the additions make possible, and what stays open with them"),
    FREE("conflict", write_conflict, "string[]", "keys that some rotation meets each, and none together"),
    TEXT("plan", struct app_rotate_answer, plan, "the rotation as a plan's text"),
    OBJECT_OF("week", week, &json_week_shape, "the rotation judged; null when none was found"),
};
const struct shape json_rotate_shape = SHAPE("Rotation", ROTATION, "the answer of `week --rotate --json`");

void json_rotate(const struct library *lib, const struct app_rotate_answer *a, struct buf *out) {
  json_write(lib, &json_rotate_shape, a, out);
}
