#include "report/rotate.h"

#include <math.h>

#include "report/answer.h"

static void say_each(const struct pen *p, const char *const *sentence, size_t count) {
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  for (size_t i = 0; i < count; i++) prose_write(p, &how, sentence[i]);
}

/* "Weeknight bowl, 5 days (2.5 batches). Fed alone ..." */
static const char *recipe_row(const struct pen *p, const struct rotate_view *v, int i) {
  if (!v->found) return say_text(p, "%s. %s", v->name[i], v->told[i]);
  int days = v->found->used_days[i];
  const char *batches =
      days > 0 && isfinite(v->batches[i])
          ? say_text(p, " (%s batch%s)", words_number(p->arena, v->batches[i]), v->batches[i] == 1 ? "" : "es")
          : "";
  return say_text(p, "%s, %d %s%s. %s", v->name[i], days, days == 1 ? "day" : "days", batches, v->told[i]);
}

static void say_recipes(const struct pen *p, const struct rotate_view *v) {
  const char *row[ROTATE_RECIPES_MOST];
  heading(p, "The recipes", v->found ? "days, batches" : "");
  for (int i = 0; i < v->recipes; i++) row[i] = recipe_row(p, v, i);
  say_each(p, row, (size_t)v->recipes);
}

static void draw_plan(const struct pen *p, const char *plan) {
  heading(p, "As a plan", "to be kept, and read by week");
  for (struct span rest = span_of(plan); rest.n > 0;) {
    struct row r;
    row_start(&r, p);
    row_end_kept(&r, MARGIN + 2, INK_PLAIN, arena_text(p->arena, span_piece(&rest, '\n')));
  }
}

void report_rotate(const struct rotate_view *v, const struct report_style *style, struct buf *out) {
  struct pen pen = pen_start(style, out);
  const struct pen *p = &pen;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  heading(p, "Rotation", words_animal(p->arena, v->animal));
  blank_line(p);
  prose_write(p, &how, v->says);
  if (v->additions > 0) {
    heading(p, "The smallest addition", "to every bowl");
    say_each(p, v->addition, v->additions);
    if (v->says_with[0]) prose_write(p, &how, v->says_with);
  }
  say_recipes(p, v);
  if (v->plan[0]) draw_plan(p, v->plan);
}
