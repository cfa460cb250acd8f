#include "wasm/page_answer.h"

static void mark(bool *named, size_t foods, uint32_t food) {
  if (food < foods) named[food] = true;
}

static void other(struct json *j, uint32_t food) { json_number(j, NULL, food == NO_INDEX ? -1.0 : (double)food); }

void page_near(const struct library *lib, struct buf *out, struct arena *arena) {
  const struct image *img = &lib->image;
  const struct img_food *food = IMG_ROWS(img, IMG_FOODS, struct img_food);
  const struct img_name *name = IMG_ROWS(img, IMG_NAMES, struct img_name);
  const struct img_fix *fix = IMG_ROWS(img, IMG_FIXES, struct img_fix);
  size_t foods = img_count(img, IMG_FOODS);
  bool *named = ARENA_NEW(arena, bool, foods);
  for (size_t i = 0; i < img_count(img, IMG_NAMES); i++) mark(named, foods, name[i].food);
  for (size_t i = 0; i < img_count(img, IMG_FIXES); i++) mark(named, foods, fix[i].food);
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '[');
  for (size_t i = 0; i < foods; i++) {
    json_open(j, NULL, '[');
    json_text(j, NULL, library_code(lib, (uint32_t)i));
    json_text(j, NULL, library_name(lib, (uint32_t)i));
    json_bool(j, NULL, named[i]);
    other(j, food[i].bone_food);
    other(j, food[i].raw_form);
    json_close(j, ']');
  }
  json_close(j, ']');
}
