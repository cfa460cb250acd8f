#include "wasm/page_answer.h"

#include <math.h>

/* ---- complaints ---- */

static void write_complaints(struct json *j, const char *text, const struct diags *d) {
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

void page_answer(const struct library *lib, const struct app_check_request *q, struct buf *out, struct arena *arena) {
  struct app_check_answer a, rest;
  app_check(lib, q, &a, arena);
  const struct check_result *result = a.result;
  bool partly = can_leave_out(&a);
  if (partly) {
    struct app_check_request q_rest = *q;
    q_rest.recipe.text = without_faulty(q->recipe.text, &a.recipe_diags, arena);
    app_check(lib, &q_rest, &rest, arena);
    result = rest.result;
  }
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '{');
  json_open(j, "complaints", '[');
  write_complaints(j, "recipe", &a.recipe_diags);
  write_complaints(j, "animals", &a.animal_diags);
  json_close(j, ']');
  json_open(j, "left_out", '[');
  if (partly && result) write_left_out(j, &a.recipe_diags);
  json_close(j, ']');
  double eaten = q->eaten > 0 ? q->eaten : 1;
  json_number(j, "eaten", eaten);
  json_number(j, "all_kcal", result ? result->energy.supply_kcal / eaten : NAN);
  if (result) {
    buf_adds(out, ",\"check\":");
    json_check(lib, result, out);
  } else {
    json_null(j, "check");
  }
  json_close(j, '}');
}
