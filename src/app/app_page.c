#include "app/app_page.h"

/* ---- leaving out what is not understood ---------------------------------------------------------------------------- */

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

/* Only a recipe that goes wrong in lines of its own can be read without them. */
static bool can_leave_out(const struct app_check_answer *a) {
  return !a->result && a->animal_diags.errors == 0 && a->recipe_diags.errors > 0 && a->recipe_diags.errors < DIAG_MOST &&
         !line_is_faulty(&a->recipe_diags, 0);
}

static void list_left_out(const struct diags *d, struct app_page_answer *out, struct arena *arena) {
  int *lines = ARENA_NEW(arena, int, d->count + 1);
  for (size_t i = 0; i < d->count; i++) {
    bool again = out->left_outs > 0 && lines[out->left_outs - 1] == d->item[i].line;
    if (d->item[i].level == DIAG_ERROR && !again) lines[out->left_outs++] = d->item[i].line;
  }
  out->left_out = lines;
}

void app_page(const struct library *lib, const struct app_check_request *q, struct app_page_answer *out,
              struct arena *arena) {
  *out = (struct app_page_answer){.eaten = q->ask.eaten > 0 ? q->ask.eaten : 1};
  app_check(lib, q, &out->check, arena);
  if (!can_leave_out(&out->check)) return;
  struct app_check_request rest = *q;
  struct app_check_answer of_rest;
  rest.recipe.text = without_faulty(q->recipe.text, &out->check.recipe_diags, arena);
  app_check(lib, &rest, &of_rest, arena);
  out->check.result = of_rest.result;
  if (of_rest.result) list_left_out(&out->check.recipe_diags, out, arena);
}

/* ---- a larder ------------------------------------------------------------------------------------------------------ */

void app_larder(const struct library *lib, const struct app_input *larder, struct app_larder_answer *out,
                struct arena *arena) {
  struct larder read;
  struct larder_food *foods = NULL;
  diags_init(&out->diags, arena, larder->name, larder->text);
  out->understood = larder_parse(larder->text, &out->diags, &read, arena);
  out->understood = larder_resolve(lib, &read, &out->diags, &foods, arena) && out->understood;
}

/* ---- own foods ----------------------------------------------------------------------------------------------------- */

/* The foods of a text are read one after the other, each alone: one that is not understood does not take the others with it.
 * A text far longer than anybody's shelf is read as a whole. */
enum { READ_SINGLY_MOST_BYTES = 64 * 1024 };

/* The block behind as many empty lines as stand before it: complaints then name the right line. */
static struct span alone(struct span text, struct label_block b, struct arena *arena) {
  size_t before = (size_t)b.line - 1, n = b.to - b.from;
  char *copy = ARENA_NEW(arena, char, before + n + 1);
  memset(copy, '\n', before);
  memcpy(copy + before, text.p + b.from, n);
  return (struct span){copy, before + n};
}

static void read_block(struct library *lib, const char *name, struct span text, struct app_shelf_answer *out, size_t *cap,
                       struct arena *arena) {
  struct app_input labels = {name, text};
  struct diags d;
  if (span_trim(text).n == 0) return;
  /* A complaint is part of the diags; what was not understood has added nothing. */
  bool understood = app_add_foods(lib, &labels, &d, arena);
  (void)understood;
  ARENA_PUSH(arena, out->diags, out->count, *cap, d);
}

void app_shelf(struct library *lib, const struct app_input *labels, struct app_shelf_answer *out, struct arena *arena) {
  struct span text = arena_span(arena, labels->text);
  size_t cap = 0;
  *out = (struct app_shelf_answer){.first = lib->own_count};
  if (text.n > READ_SINGLY_MOST_BYTES) {
    read_block(lib, labels->name, text, out, &cap, arena);
    return;
  }
  int line = 1;
  for (size_t at = 0; at < text.n;) {
    struct label_block b = label_next_block(text, at, &line);
    read_block(lib, labels->name, alone(text, b, arena), out, &cap, arena);
    at = b.to;
  }
}
