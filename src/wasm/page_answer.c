#include "wasm/page_answer.h"

#include "larder/larder_text.h"

#include <math.h>

/* ---- complaints ---- */

void page_complaints(struct json *j, const char *text, const struct diags *d) {
  for (size_t i = 0; i < d->count; i++) {
    const struct diag *item = &d->item[i];
    json_open(j, NULL, '{');
    json_text(j, "text", text);
    json_text(j, "level", item->level == DIAG_ERROR ? "error" : "warning");
    json_number(j, "line", item->line);
    json_number(j, "column", item->column);
    json_number(j, "width", item->width);
    json_text(j, "message", item->message);
    json_close(j, '}');
  }
}

/* ---- leaving out what is not understood ---- */

static bool line_is_faulty(const struct diags *d, int line) {
  for (size_t i = 0; i < d->count; i++)
    if (d->item[i].line == line && d->item[i].level == DIAG_ERROR) return true;
  return false;
}

/* The text with its faulty lines blanked, so that line numbers stay. */
static struct span without_faulty(struct span text, const struct diags *d, struct arena *arena) {
  char *copy = arena_text(arena, text);
  int line = 1;
  for (size_t at = 0; at < text.n; line++) {
    const char *end = memchr(text.p + at, '\n', text.n - at);
    size_t stop = end ? (size_t)(end - text.p) : text.n;
    if (line_is_faulty(d, line)) memset(copy + at, ' ', stop - at);
    at = stop + 1;
  }
  return (struct span){copy, text.n};
}

static void write_left_out(struct json *j, const struct diags *d) {
  int last = 0;
  for (size_t i = 0; i < d->count; i++) {
    if (d->item[i].level != DIAG_ERROR || d->item[i].line == last) continue;
    last = d->item[i].line;
    json_number(j, NULL, last);
  }
}

/* Only a recipe that goes wrong in lines of its own can be read without them. */
static bool can_leave_out(const struct app_check_answer *a) {
  return !a->result && a->animal_diags.errors == 0 && a->recipe_diags.errors > 0 && a->recipe_diags.errors < DIAG_MOST &&
         !line_is_faulty(&a->recipe_diags, 0);
}

void check_understood_lines(const struct library *lib, const struct app_check_request *q, struct app_check_answer *a,
                            struct arena *arena) {
  app_check(lib, q, a, arena);
  if (!can_leave_out(a)) return;
  struct app_check_request rest = *q;
  struct app_check_answer of_rest;
  rest.recipe.text = without_faulty(q->recipe.text, &a->recipe_diags, arena);
  app_check(lib, &rest, &of_rest, arena);
  a->result = of_rest.result;
}

void page_answer(const struct library *lib, const struct app_check_request *q, struct buf *out, struct arena *arena) {
  struct app_check_answer a;
  check_understood_lines(lib, q, &a, arena);
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '{');
  json_open(j, "complaints", '[');
  page_complaints(j, "recipe", &a.recipe_diags);
  page_complaints(j, "animals", &a.animal_diags);
  json_close(j, ']');
  json_open(j, "left_out", '[');
  if (a.result) write_left_out(j, &a.recipe_diags);
  json_close(j, ']');
  double eaten = q->ask.eaten > 0 ? q->ask.eaten : 1;
  json_number(j, "eaten", eaten);
  json_number(j, "all_kcal", a.result ? a.result->energy.supply_kcal / eaten : (double)NAN);
  if (a.result) {
    buf_adds(out, ",\"check\":");
    json_check(lib, a.result, out);
  } else {
    json_nothing(j, "check");
  }
  json_close(j, '}');
}

void page_larder(const struct library *lib, struct span text, struct buf *out, struct arena *arena) {
  struct diags d;
  struct larder larder;
  diags_init(&d, arena, "larder", text);
  struct larder_food *foods = NULL;
  bool understood = larder_parse(text, &d, &larder, arena);
  understood = larder_resolve(lib, &larder, &d, &foods, arena) && understood;
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '{');
  json_open(j, "complaints", '[');
  page_complaints(j, "larder", &d);
  json_close(j, ']');
  json_bool(j, "understood", understood);
  json_close(j, '}');
}
