/* pattern_classes.c: classes of foods that share a pattern, and the rows of patterns as they grow. */
#include <math.h>

#include "library/patterns.h"

/* ---- classes ------------------------------------------------------------------------------------------------- */

static int class_by_name(const struct pattern_classes *p, struct span name) {
  for (int i = 0; i < p->count; i++)
    if (span_is(name, p->class[i].name)) return i;
  return -1;
}

static bool has_rule(const struct tsv *t, size_t row) {
  return tsv_cell(t, row, "part").n + tsv_cell(t, row, "kind").n + tsv_cell(t, row, "words").n > 0;
}

static void read_classes(struct pattern_classes *p, const struct tsv *t, struct arena *arena) {
  p->class = ARENA_NEW(arena, struct pattern_class, t->rows);
  for (size_t i = 0; i < t->rows; i++) {
    if (class_by_name(p, tsv_cell(t, i, "class")) >= 0) continue; /* a second rule of a class */
    double least = tsv_number(t, i, "least");
    p->class[p->count++] =
        (struct pattern_class){arena_text(arena, tsv_cell(t, i, "class")), -1, isfinite(least) ? (int)least : 4,
                               span_is(tsv_cell(t, i, "only"), "amino")};
  }
  for (size_t i = 0; i < t->rows; i++) {
    struct span parent = tsv_cell(t, i, "parent");
    if (parent.n == 0) continue;
    int at = class_by_name(p, parent);
    if (at < 0) tsv_fail(t, i, "there is no class '%.*s'", SPAN_ARG(parent));
    p->class[class_by_name(p, tsv_cell(t, i, "class"))].parent = at;
  }
  for (size_t i = 0; i < t->rows; i++) { /* more steps upward than there are classes: round and round */
    int steps = 0;
    for (int c = class_by_name(p, tsv_cell(t, i, "class")); c >= 0; c = p->class[c].parent)
      if (++steps > p->count) tsv_fail(t, i, "class '%.*s' is among its own parents", SPAN_ARG(tsv_cell(t, i, "class")));
  }
}

/* A rule that no record follows says nothing, and was meant to. */
static void check_classes_have_records(const struct pattern_classes *p, const struct foods_build *b, const struct tsv *t) {
  bool *found = ARENA_NEW(b->arena, bool, (size_t)p->count);
  for (size_t i = 0; i < b->count; i++)
    for (int c = p->of_food[i]; c >= 0; c = p->class[c].parent) found[c] = true;
  for (size_t i = 0; i < t->rows; i++)
    if (!found[class_by_name(p, tsv_cell(t, i, "class"))])
      tsv_fail(t, i, "no record is of class '%.*s'", SPAN_ARG(tsv_cell(t, i, "class")));
}

void pattern_classes_read(struct pattern_classes *p, struct foods_build *b, const char *data_dir) {
  static const char *const WANTED[] = {"class", "parent", "part",   "kind",       "words", "unless",
                                       "least", "only",   "source", "confidence", NULL};
  struct tsv t;
  tsv_read(&t, path_join(b->arena, data_dir, "patterns.tsv"), WANTED, b->arena);
  *p = (struct pattern_classes){.of_food = ARENA_NEW(b->arena, int, b->count)};
  read_classes(p, &t, b->arena);
  struct class_rule {
    struct food_rule rule;
    int class;
  } *row = ARENA_NEW(b->arena, struct class_rule, t.rows);
  size_t rules = 0;
  for (size_t r = 0; r < t.rows; r++)
    if (has_rule(&t, r))
      row[rules++] = (struct class_rule){food_rule_read(&t, r), class_by_name(p, tsv_cell(&t, r, "class"))};
  for (size_t i = 0; i < b->count; i++) {
    p->of_food[i] = -1;
    for (size_t r = 0; r < rules && p->of_food[i] < 0; r++)
      if (food_rule_fits(&row[r].rule, &b->food[i])) p->of_food[i] = row[r].class;
  }
  check_classes_have_records(p, b, &t);
}

bool pattern_class_holds(const struct pattern_classes *p, int c, int own) {
  while (own >= 0 && own != c) own = p->class[own].parent;
  return own >= 0;
}

/* ---- rows ---- */

size_t pattern_rows_add(struct pattern_rows *rows, struct foods_build *b, const char *name, struct img_pattern figures) {
  figures.name = writer_textz(b->w, name);
  ARENA_PUSH(b->arena, rows->row, rows->count, rows->cap, figures);
  return rows->count - 1;
}

uint16_t pattern_rows_source(const struct foods_build *b, size_t row) {
  size_t source = b->w->section[IMG_SOURCES].count + row;
  if (source > UINT16_MAX) build_fail("more than %d sources and patterns together", UINT16_MAX);
  return (uint16_t)source;
}

bool blanks_is_plain(const struct build_food *f) {
  return (f->food.flags & FOOD_PLAIN) &&
         !(f->food.flags & (FOOD_BRAND | FOOD_DISH | FOOD_ENRICHED | FOOD_SALTED | FOOD_BONE | FOOD_OWN));
}
