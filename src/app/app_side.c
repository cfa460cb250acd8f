#include "app/app_side.h"

/* A food is a recipe of one line, so that bone-in cuts bring their bone and words are read as everywhere else. */
static struct app_input food_recipe(const struct library *lib, const char *words, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 8192);
  struct span w = span_trim(span_of(words));
  bool pin = library_by_code(lib, w) != NO_INDEX;
  buf_addf(&b, pin ? "100 g [%.*s]" : "100 g %.*s", SPAN_ARG(w));
  return (struct app_input){words, {buf_text(&b), b.n}};
}

static struct app_check_request request_for(const struct library *lib, const struct app_side_request *q, size_t i,
                                            const struct animal *animal, struct arena *arena) {
  struct app_check_request c = q->check;
  c.recipe = q->kind == SIDE_FOODS ? food_recipe(lib, q->input[i].name, arena) : q->input[i];
  c.ask.numbers_only = true;
  if (i == 0) return c;
  c.animals = (struct app_input){NULL, {NULL, 0}};
  c.for_name = NULL;
  c.one_off = animal;
  return c;
}

/* False when one of them was not understood; all complaints are there then. */
static bool understand(const struct library *lib, const struct app_side_request *q, struct app_side_answer *out,
                       struct arena *arena) {
  bool good = true;
  for (size_t i = 0; i < q->count; i++) {
    struct app_check_request c = request_for(lib, q, i, out->animal, arena);
    app_check(lib, &c, &out->of[i], arena);
    good = good && out->of[i].result;
    if (i == 0 && out->of[0].result) out->animal = out->of[0].result->animal;
  }
  return good;
}

static const char *name_of(const struct app_side_request *q, const struct app_side_answer *a, size_t i) {
  const char *name = a->of[i].result->ration->name;
  return q->kind != SIDE_FOODS && name && name[0] ? name : q->input[i].name;
}

static void take_ways(const struct library *lib, struct app_side_answer *out, struct side_item item[SIDE_MOST],
                      struct arena *arena) {
  out->ways = ways_of(lib, out->of[0].result->ration, arena);
  for (int w = 0; w < WAY_COUNT; w++)
    item[w] = (struct side_item){.name = way_name[w], .ration = &out->ways[w].ration, .food = NO_INDEX};
}

void app_side(const struct library *lib, const struct app_side_request *q, struct app_side_answer *out,
              struct arena *arena) {
  struct side_item item[SIDE_MOST] = {{.name = NULL}};
  int count = (int)q->count;
  memset(out, 0, sizeof *out);
  if (!understand(lib, q, out, arena)) return;
  if (q->kind == SIDE_WAYS) {
    take_ways(lib, out, item, arena);
    count = WAY_COUNT;
  } else {
    for (size_t i = 0; i < q->count; i++) {
      const struct ration *ration = out->of[i].result->ration;
      uint32_t food = ration->line_count > 0 ? ration->line[0].shown_food : NO_INDEX;
      item[i] = (struct side_item){.name = name_of(q, out, i), .ration = ration, .food = food};
    }
  }
  out->side = side_compare(lib, q->kind, q->per, item, count, out->animal, &q->check.ask.check, arena);
}
