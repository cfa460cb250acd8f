#include "app/app_page.h"

#include "base/utf8.h"

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

/* ---- what lines leave open ------------------------------------------------------------------------------------------ */

enum { CHOOSING_LINES_MOST = 60 };

static int column_of(struct span text, const char *at) {
  const char *begin = at;
  while (begin > text.p && begin[-1] != '\n') begin--;
  return utf8_count((struct span){begin, (size_t)(at - begin)}) + 1;
}

/* 'read': the recipe that the result is of, and the text that it points into. */
static void list_choices(const struct library *lib, const struct app_check_answer *read, struct app_page_answer *out,
                         struct arena *arena) {
  const struct recipe *recipe = read->recipe;
  struct choice found[CHOICES_MOST];
  if (recipe->line_count > CHOOSING_LINES_MOST) return;
  struct line_choices *lines = ARENA_NEW(arena, struct line_choices, recipe->line_count + 1);
  for (size_t i = 0; i < recipe->line_count; i++) {
    const struct recipe_line *l = &recipe->line[i];
    size_t count = recipe_choices(lib, recipe, l, found, arena);
    if (count == 0) continue;
    struct choice *kept = ARENA_NEW(arena, struct choice, count);
    memcpy(kept, found, count * sizeof *kept);
    int column = column_of(read->recipe_diags.text, l->whole.p);
    lines[out->choice_count++] = (struct line_choices){l->line, column, kept, count};
  }
  out->choices = lines;
}

/* ---- a recipe while it is written ----------------------------------------------------------------------------------- */

static bool names_nobody(const struct app_check_answer *a) {
  for (size_t i = 0; i < a->recipe_diags.count; i++)
    if (a->recipe_diags.item[i].code == DIAG_WHICH_ANIMAL) return true;
  return false;
}

/* Animals that are only begun keep no recipe for another from being read. */
static bool read_without_faulty_animals(const struct library *lib, const struct app_check_request *q,
                                        struct app_check_answer *read, struct arena *arena) {
  if (read->result || read->animal_diags.errors == 0 || line_is_faulty(&read->animal_diags, 0)) return false;
  struct app_check_request rest = *q;
  struct app_check_answer again;
  rest.animals.text = animal_without_faulty(q->animals.text, &read->animal_diags, arena);
  app_check(lib, &rest, &again, arena);
  if (again.animal_diags.errors > 0 || (names_nobody(&again) && again.recipe->for_whom[0])) return false;
  again.animal_diags = read->animal_diags;
  *read = again;
  return true;
}

void app_page(const struct library *lib, const struct app_check_request *q, struct app_page_answer *out,
              struct arena *arena) {
  *out = (struct app_page_answer){.brief = q->ask.numbers_only, .eaten = q->ask.eaten > 0 ? q->ask.eaten : 1};
  struct app_check_request now = *q;
  app_check(lib, q, &out->check, arena);
  if (read_without_faulty_animals(lib, q, &out->check, arena))
    now.animals.text = animal_without_faulty(q->animals.text, &out->check.animal_diags, arena);
  struct app_check_answer read = out->check;
  if (can_leave_out(&out->check)) {
    now.recipe.text = without_faulty(q->recipe.text, &out->check.recipe_diags, arena);
    app_check(lib, &now, &read, arena);
    out->check.result = read.result;
    if (read.result) list_left_out(&out->check.recipe_diags, out, arena);
  }
  if (read.result && !q->ask.numbers_only) list_choices(lib, &read, out, arena);
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
