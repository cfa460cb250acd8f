/* Every food of the image in its order, for whoever sends the library in two parts (page/build/pack-library.mjs). */
#include "json/json_parts.h"

static const struct img_food *food_of(const struct at *at) { return library_food(at->lib, (uint32_t)at->place); }
static double number_or_null(uint32_t food) { return food == NO_INDEX ? NOT_KNOWN : food; }

static const char *near_pin(const struct at *at) { return library_code(at->lib, (uint32_t)at->place); }
static const char *near_name(const struct at *at) { return library_name(at->lib, (uint32_t)at->place); }
static int near_named(const struct at *at) { return *(const bool *)at->it; }
static double near_bone(const struct at *at) { return number_or_null(food_of(at)->bone_food); }
static double near_raw(const struct at *at) { return number_or_null(food_of(at)->raw_form); }

static const struct field FOOD[] = {
    TEXT_OF_ALWAYS("food", near_pin, "the pin"),
    TEXT_OF_ALWAYS("name", near_name, "of the record"),
    TRUTH_OF("named", near_named, "an everyday phrase means it, or it is used to supply a nutrient"),
    NUMBER_OF("bone", "", near_bone, "the number of its bone record"),
    NUMBER_OF("raw", "", near_raw, "the number of its raw form"),
};
static const struct shape food_shape = SHAPE("NearFood", FOOD, "a food of the image");

static size_t foods(const struct at *at) { return img_count(&at->lib->image, IMG_FOODS); }
static const void *food(const struct at *at, size_t i) { return (const bool *)at->it + i; }

static const struct field NEAR[] = {ROWS_OF("foods", foods, food, &food_shape, "in their order")};
const struct shape json_near_shape = SHAPE("Near", NEAR, "every food of the image");

void json_near(const struct library *lib, const bool *named, struct buf *out) {
  json_write(lib, &json_near_shape, named, out);
}
