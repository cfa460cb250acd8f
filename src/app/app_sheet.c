#include "app/app_sheet.h"

static bool read_larder(const struct library *lib, const struct app_sheet_request *q, struct app_sheet_answer *out,
                        struct kitchen_request *k, struct arena *arena) {
  struct larder *larder = ARENA_NEW(arena, struct larder, 1);
  struct larder_food *food = NULL;
  diags_init(&out->larder_diags, arena, q->larder.name, q->larder.text);
  if (!q->larder.name) return true;
  if (!larder_parse(q->larder.text, &out->larder_diags, larder, arena)) return false;
  if (!larder_resolve(lib, larder, &out->larder_diags, &food, arena)) return false;
  k->larder = larder;
  k->larder_food = food;
  return true;
}

void app_sheet(const struct library *lib, const struct app_sheet_request *q, struct app_sheet_answer *out,
               struct arena *arena) {
  struct kitchen_request k = {.days = q->check.ask.days, .meals = q->check.ask.meals, .lib = lib};
  *out = (struct app_sheet_answer){0};
  app_check(lib, &q->check, &out->check, arena);
  bool understood = read_larder(lib, q, out, &k, arena);
  if (!out->check.result || !understood) return;
  k.recipe = out->check.recipe;
  out->kitchen = kitchen_of(out->check.result, &k, arena);
}
