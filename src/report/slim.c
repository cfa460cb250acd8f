#include "report/slim.h"

#include <math.h>

#include "report/answer.h"
#include "text/date.h"

enum { DATE = MARGIN, KCAL = 14, GRAMS = 23, EXPECT = 34, BAND = 43, LIGHT = 64, ROWS_SHOWN = 14 };

static const char *date_words(const struct pen *p, long day) {
  struct buf b;
  buf_init(&b, p->arena, 16);
  date_print(&b, day);
  return buf_text(&b);
}

static const char *kg_words(const struct pen *p, double kg) { return say_text(p, kg < 10 ? "%.2f" : "%.1f", kg); }

static void write_head(const struct pen *p, bool grams) {
  struct row r;
  row_start(&r, p);
  row_put(&r, DATE, INK_DIM, "from");
  row_right(&r, KCAL + 7, 8, INK_DIM, "kcal");
  if (grams) row_right(&r, GRAMS + 8, 8, INK_DIM, "g a day");
  row_right(&r, EXPECT + 7, 8, INK_DIM, "expect");
  row_put(&r, BAND + 2, INK_DIM, "between");
  if (p->width >= LIGHT + 12) row_right(&r, LIGHT + 11, 11, INK_DIM, "too light");
  row_end(&r);
}

static void write_weighing(const struct pen *p, const struct slim_shown *s, const struct slim_weighing *w) {
  struct row r;
  double grams = s->grams_at_lowest * w->kcal / s->plan->lowest_kcal;
  row_start(&r, p);
  row_put(&r, DATE, INK_PLAIN, date_words(p, s->from + w->day));
  row_right(&r, KCAL + 7, 8, INK_STRONG, words_whole(p->arena, w->kcal));
  if (isfinite(grams)) row_right(&r, GRAMS + 8, 8, INK_PLAIN, words_whole(p->arena, grams));
  row_right(&r, EXPECT + 7, 8, INK_STRONG, kg_words(p, w->weight.mean));
  row_put(&r, BAND + 2, INK_PLAIN,
          w->day == 0 ? "" : say_text(p, "%s to %s", kg_words(p, w->weight.low), kg_words(p, w->weight.high)));
  if (p->width >= LIGHT + 12 && isfinite(w->too_light))
    row_right(&r, LIGHT + 11, 11, INK_DIM, say_text(p, "below %s", kg_words(p, w->too_light)));
  row_end(&r);
}

static void write_weighings(const struct pen *p, const struct slim_shown *s) {
  size_t n = s->plan->weighing_count, shown = p->all || n <= ROWS_SHOWN ? n : ROWS_SHOWN - 1;
  heading(p, "Feed and weigh", "kg");
  write_head(p, isfinite(s->grams_at_lowest));
  for (size_t i = 0; i < shown; i++) write_weighing(p, s, &s->plan->weighing[i]);
  if (shown == n) return;
  struct prose how = prose_at(MARGIN, INK_DIM);
  prose_write(p, &how, say_text(p, "... %zu more (--all), and at the end:", n - shown - 1));
  write_weighing(p, s, &s->plan->weighing[n - 1]);
}

static void write_list(const struct pen *p, const char *title, const char *const *text, size_t count, enum ink bar) {
  heading(p, title, "");
  for (size_t i = 0; i < count; i++) {
    struct prose how = prose_at(MARGIN + 2, INK_PLAIN);
    how.bar = G_BAR;
    how.bar_at = MARGIN;
    how.bar_ink = bar;
    prose_write(p, &how, text[i]);
  }
}

void report_slim(const struct library *lib, const struct slim_shown *s, const struct report_style *style, struct buf *out) {
  const struct check_result who = {.animal = s->animal, .refusal = s->refusal};
  struct view v = {.pen = pen_start(style, out), .lib = lib, .r = &who};
  const struct pen *p = &v.pen;
  struct prose strong = prose_at(MARGIN, INK_STRONG);
  blank_line(p);
  prose_write(p, &strong, words_animal(p->arena, s->animal));
  if (s->refusal != REFUSE_NOT) {
    answer_refusal(&v);
    return;
  }
  blank_line(p);
  prose_write(p, &strong, s->lead);
  if (s->plan->status != SLIM_FOUND) return;
  write_weighings(p, s);
  write_list(p, "Meanwhile", s->rule, s->rules, INK_DIM);
  write_list(p, "Stop, and ask", s->stop, s->stops, INK_ACCENT);
}
