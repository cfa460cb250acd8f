/* Single lines: what owners call a food and its amount (words10.tsv), behind a food that everybody reads. Prints each line
 * that was not read, and how many of them stand there wrong with neither a doubt nor a question.
 *
 * post_named_test open|held|all [all] prints the lines that were not read, or all; with the path of a file, what came of
 * each of its lines. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include "base/num.h"
#include "tests/post/reading.h"
#include "tests/support/built_image.h"

enum { NAMED_MOST_BYTES = 64 * 1024, NAMED_COLUMNS = 5, NAMED_NEAR = 88 };

static const char BEFORE[] = "Dog, 20 kg, neutered, 5 years old, every day:\n450 g bison mince\n";
static bool printed;

struct named {
  struct span low, high, record, text;
  bool held;
};

struct named_score {
  int lines, read, told, doubted, hidden;
};

static char named_bytes[NAMED_MOST_BYTES];

static struct span named_cell(struct span *row) {
  const char *tab = memchr(row->p, '\t', row->n);
  size_t n = tab ? (size_t)(tab - row->p) : row->n;
  struct span cell = span_cut(*row, 0, n);
  *row = span_cut(*row, tab ? n + 1 : n, row->n);
  return cell;
}

static double named_grams(struct span cell) {
  double x = NAN;
  return num_parse(cell, &x) ? x : NAN;
}

/* Is the food of this line the one that a careful reader takes, or may take? */
static bool named_right(const struct named *n, const struct reading *r, const struct ration_line *l) {
  double low = named_grams(n->low), high = named_grams(n->high), grams = ration_line_grams_per_day(l);
  if (!suits(span_of(library_name(built_library(), l->shown_food)), n->record)) return n->record.n == 0;
  if (isnan(low) && isnan(high)) return false;
  if (isnan(low)) return grams <= 1.13 * high;
  if (isnan(high)) high = low * 100 / NAMED_NEAR, low = low * NAMED_NEAR / 100;
  (void)r;
  return grams >= low && grams <= high;
}

static bool named_of_line(const struct reading *r, size_t i) {
  return !span_holds_fold(span_of(r->ration.line[i].text), SPAN_LIT("bison"));
}

static bool named_asked(const struct reading *r) {
  for (size_t i = 0; i < r->post.left_count; i++)
    if (r->post.left[i].line == 3) return true;
  for (size_t i = 0; i < r->post.question_count; i++)
    if (r->post.question[i].line == 3 && r->post.question[i].about != ASKS_OF_BONE) return true;
  return false;
}

static void named_outcome(const struct reading *r) {
  for (size_t i = 0; i < r->ration.line_count; i++)
    if (named_of_line(r, i))
      printf("         = %.2f g  %s%s\n", ration_line_grams_per_day(&r->ration.line[i]),
             library_name(built_library(), r->ration.line[i].shown_food),
             is_doubted(r, &r->ration.line[i]) ? "  (doubted)" : "");
  for (size_t i = 0; i < r->post.line_count; i++)
    if (r->post.line[i].line == 3 && r->post.line[i].assumed[0]) printf("         assumed: %s\n", r->post.line[i].assumed);
  for (size_t i = 0; i < r->post.left_count; i++)
    printf("         left: %s (%s)\n", r->post.left[i].text, r->post.left[i].why);
  for (size_t i = 0; printed && i < r->post.question_count; i++)
    if (r->post.question[i].line == 3) printf("         ask: %s\n", r->post.question[i].ask);
}

static struct reading *named_read(struct span text, struct arena *arena) {
  struct reading *r = ARENA_NEW(arena, struct reading, 1);
  struct buf post;
  buf_init(&post, arena, 4096);
  buf_addf(&post, "%s%.*s\n", BEFORE, SPAN_ARG(text));
  assert_true(read_post(built_library(), r, buf_span(&post), arena));
  return r;
}

static void named_judge(const struct named *n, const struct reading *r, struct named_score *s) {
  int right = 0, wrong = 0, doubted = 0;
  for (size_t i = 0; i < r->ration.line_count; i++) {
    if (!named_of_line(r, i)) continue;
    bool one = named_right(n, r, &r->ration.line[i]);
    right += one, wrong += !one;
    doubted += !one && is_doubted(r, &r->ration.line[i]);
  }
  bool asked = named_asked(r), may_be_left = isnan(named_grams(n->low));
  const char *what = "read";
  s->lines++;
  if (wrong == 0 && (right > 0 || (may_be_left && asked)))
    s->read++;
  else if (wrong > doubted || (right + wrong == 0 && !asked))
    s->hidden++, what = "HIDDEN";
  else if (wrong > 0)
    s->doubted++, what = "doubted";
  else
    s->told++, what = "told";
  if (!printed && what[0] == 'r') return;
  printf("%-8s %.*s\n", what, SPAN_ARG(n->text));
  named_outcome(r);
}

static struct span named_file(const char *path) {
  FILE *f = fopen(path, "rb");
  assert_non_null(f);
  size_t size = fread(named_bytes, 1, sizeof named_bytes, f);
  fclose(f);
  assert_true(size < sizeof named_bytes);
  return (struct span){named_bytes, size};
}

static struct span named_row(struct span *rest) {
  const char *end = memchr(rest->p, '\n', rest->n);
  struct span row = span_cut(*rest, 0, end ? (size_t)(end - rest->p) : rest->n);
  *rest = span_cut(*rest, end ? row.n + 1 : row.n, rest->n);
  return row;
}

static struct named_score named_run(bool open, bool held) {
  struct named_score s = {0};
  struct span rest = named_file(BW_SOURCE_DIR "/tests/post/words10.tsv");
  for (bool head = true; rest.n > 0;) {
    struct span row = named_row(&rest);
    if (row.n == 0 || row.p[0] == '#') continue;
    if (head) {
      head = false;
      continue;
    }
    struct named n = {.held = named_cell(&row).n > 0};
    n.low = named_cell(&row), n.high = named_cell(&row), n.record = named_cell(&row), n.text = row;
    if (n.held ? !held : !open) continue;
    struct arena arena;
    arena_init(&arena, NULL);
    named_judge(&n, named_read(n.text, &arena), &s);
    arena_free(&arena);
  }
  printf("%s: %d lines, read %.1f %%, told %d, counted otherwise and doubted %d, hidden %d\n", open ? "open" : "held",
         s.lines, 100.0 * s.read / s.lines, s.told, s.doubted, s.hidden);
  return s;
}

static void named_tell(const char *path) {
  for (struct span rest = named_file(path); rest.n > 0;) {
    struct span row = named_row(&rest);
    struct arena arena;
    arena_init(&arena, NULL);
    printf("%.*s\n", SPAN_ARG(row));
    named_outcome(named_read(row, &arena));
    arena_free(&arena);
  }
}

static void what_owners_call_a_food(void **state) {
  (void)state;
  struct named_score open = named_run(true, false), held = named_run(false, true);
  assert_true(open.lines == 253 && held.lines == 63);
  assert_true(open.read >= 242 && open.hidden <= 2); /* at the first look 208, and 15 hidden */
  assert_true(held.read >= 57 && held.hidden <= 3);  /* 56, and 2 */
}

int main(int argc, char **argv) {
  if (argc > 1 && strchr(argv[1], '/')) {
    named_tell(argv[1]);
    return 0;
  }
  if (argc > 1) {
    printed = argc > 2;
    if (strcmp(argv[1], "held") != 0) named_run(true, false);
    if (strcmp(argv[1], "open") != 0) named_run(false, true);
    return 0;
  }
  const struct CMUnitTest tests[] = {cmocka_unit_test(what_owners_call_a_food)};
  return cmocka_run_group_tests_name("words10", tests, NULL, NULL);
}
