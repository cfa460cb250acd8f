#include "report/rotate.h"

#include <math.h>

#include "report/answer.h"

enum { NAMED = 6 };

static const char *list_of(const struct pen *p, const bool in[NUT_COUNT]) {
  const char *item[NUT_COUNT];
  int n = 0;
  for (int i = 0; i < NUT_COUNT; i++)
    if (in[i]) item[n++] = words_nutrient(p->arena, (enum nutrient)i);
  return n > 0 ? say_list(p, item, n, p->all ? n : 2 * NAMED) : "";
}

static void say_status(const struct pen *p, const struct rotate_view *v) {
  const struct rotation *r = v->rotation;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  const char *unreachable = list_of(p, r->unreachable), *conflict = list_of(p, r->conflict);
  if (r->status == ROTATION_FOUND && r->changes == 0) {
    prose_write(p, &how,
                say_text(p, "%s every day meets every window of every need: nothing has to change.", v->name[r->recipe[0]]));
  } else if (r->status == ROTATION_FOUND) {
    prose_write(p, &how,
                say_text(p,
                         "This rotation meets every window of every need, with %d changes of recipe in %d days, the "
                         "step back to the first day included. None has fewer.",
                         r->changes, r->days));
  } else if (r->status == ROTATION_NOT_FOUND) {
    prose_write(p, &how,
                "None was found before the search ended, which does not prove that there is none. Try fewer recipes "
                "or fewer days.");
  } else if (unreachable[0]) {
    prose_write(p, &how, say_text(p, "No rotation of these recipes meets %s, in whatever order.", unreachable));
  } else {
    prose_write(p, &how,
                say_text(p, "Each need is met by some rotation, and none meets %s together%s.", conflict,
                         r->conflict_smallest ? "; without any one of them there is a rotation" : ""));
  }
}

static void say_recipes(const struct pen *p, const struct rotate_view *v, const struct rotation *found) {
  heading(p, "The recipes", found ? "days, batches" : "fed alone every day");
  for (int i = 0; i < v->recipes; i++) {
    struct prose how = prose_at(MARGIN, INK_PLAIN);
    how.indent = MARGIN + 2;
    const char *fails = list_of(p, v->rotation->fails[i]);
    const char *days = !found ? "" : say_text(p, ", %d%s", found->used_days[i], found->used_days[i] == 1 ? " day" : " days");
    const char *batches =
        found && found->used_days[i] > 0 && isfinite(v->batches[i])
            ? say_text(p, " (%s batch%s)", words_number(p->arena, v->batches[i]), v->batches[i] == 1 ? "" : "es")
            : "";
    const char *unfit = v->rotation->usable[i] ? "" : " It fails what is counted by the day, so it fits on no day as it is.";
    prose_write(p, &how,
                say_text(p, "%s%s%s. %s%s%s%s", v->name[i], days, batches,
                         fails[0] ? "Alone it does not meet " : "Alone it meets everything", fails, ".", unfit));
  }
}

void report_rotate(const struct library *lib, const struct rotate_view *v, const struct report_style *style,
                   struct buf *out) {
  struct pen pen = pen_start(style, out);
  const struct pen *p = &pen;
  const struct rotation *found = v->rotation->status == ROTATION_FOUND ? v->rotation : v->with;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  (void)lib;
  heading(p, "Rotation", words_animal(p->arena, v->alone[0]->animal));
  blank_line(p);
  say_status(p, v);
  if (v->additions > 0) {
    heading(p, "The smallest addition", "to every bowl");
    for (size_t i = 0; i < v->additions; i++) {
      struct prose item = prose_at(MARGIN, INK_PLAIN);
      item.indent = MARGIN + 2;
      prose_write(p, &item, v->addition[i]);
    }
    if (v->with) {
      prose_write(
          p, &how,
          v->with->changes == 0
              ? say_text(p, "With that, %s every day meets every window.", v->name[v->with->recipe[0]])
              : say_text(p, "With that in every bowl, the rotation below meets every window, with %d changes in %d days.",
                         v->with->changes, v->with->days));
    } else {
      prose_write(p, &how, "Each mends its own need. All of them together still leave something open: see mend.");
    }
  }
  say_recipes(p, v, found);
  if (!v->plan[0]) return;
  heading(p, "As a plan", "to be kept, and read by week");
  for (struct span rest = span_of(v->plan); rest.n > 0;) {
    const char *end = memchr(rest.p, '\n', rest.n);
    size_t n = end ? (size_t)(end - rest.p) : rest.n;
    struct row r;
    row_start(&r, p);
    row_fit(&r, MARGIN + 2, p->width - 2 * MARGIN - 2, INK_PLAIN, arena_text(p->arena, span_cut(rest, 0, n)));
    row_end(&r);
    rest = span_cut(rest, n + 1, rest.n);
  }
}
