#include "report/trend.h"

#include <math.h>

#include "report/answer.h"
#include "text/date.h"

enum { ROWS = 11, AXIS_COLUMNS = 8, DRAWN_DAYS = 182, DRAWN_DAYS_ALL = 36500 };

/* The part that is drawn: columns of so many days, rows of so many kilograms. */
struct picture {
  const struct pen *p;
  const struct trend_told *told;
  long first, last;
  double low, high; /* kg at the lower edge of the lowest and the upper edge of the highest row */
  int columns;
};

static int column_of(const struct picture *x, long day) {
  double share = (double)(day - x->first) / (double)(x->last - x->first + 1);
  return (int)(share * x->columns);
}

/* 0 is the highest row; outside of the picture: -1. */
static int row_of(const struct picture *x, double kg) {
  double share = (x->high - kg) / (x->high - x->low);
  return share >= 0 && share < 1 ? (int)(share * ROWS) : -1;
}

static void widen(struct picture *x, double low, double high) {
  if (low < x->low) x->low = low;
  if (high > x->high) x->high = high;
}

/* A picture holds the bands and the readings that are not far off. */
static struct picture picture_of(const struct pen *p, const struct trend_told *told) {
  const struct trend_result *t = told->trend;
  struct picture x = {p,
                      told,
                      t->day[0].day,
                      told->until + (long)t->forecast_count,
                      INFINITY,
                      -INFINITY,
                      p->width - AXIS_COLUMNS - 2 * MARGIN};
  long longest = p->all ? DRAWN_DAYS_ALL : DRAWN_DAYS;
  if (told->until - x.first >= longest) x.first = told->until - longest + 1;
  for (size_t i = 0; i < t->day_count; i++)
    if (t->day[i].day >= x.first) widen(&x, t->day[i].weight.low, t->day[i].weight.high);
  for (size_t i = 0; i < t->reading_count; i++)
    if (t->reading[i].day >= x.first && !t->reading[i].outlier) widen(&x, t->reading[i].kg, t->reading[i].kg);
  for (size_t i = 0; i < t->forecast_count; i++) widen(&x, t->forecast[i].weight.low, t->forecast[i].weight.high);
  double room = fmax(0.02 * (x.high - x.low), 0.002 * x.high);
  widen(&x, x.low - room, x.high + room);
  return x;
}

typedef enum glyph canvas[ROWS][WIDTH_MOST];

static void paint_band(const struct picture *x, canvas c, long day, const struct trend_band *b, enum glyph middle,
                       enum glyph edge) {
  int column = column_of(x, day), top = row_of(x, b->high), bottom = row_of(x, b->low), mean = row_of(x, b->mean);
  if (column < 0 || column >= x->columns || top < 0 || bottom < 0) return;
  for (int r = top; r <= bottom; r++)
    if (c[r][column] == G_COUNT) c[r][column] = edge;
  if (mean >= 0) c[mean][column] = middle;
}

static void paint(const struct picture *x, canvas c) {
  const struct trend_result *t = x->told->trend;
  for (int r = 0; r < ROWS; r++)
    for (int k = 0; k < WIDTH_MOST; k++) c[r][k] = G_COUNT;
  for (size_t i = 0; i < t->day_count; i++)
    if (t->day[i].day >= x->first) paint_band(x, c, t->day[i].day, &t->day[i].weight, G_BAND, G_FILL_4);
  for (size_t i = 0; i < t->forecast_count; i++) paint_band(x, c, t->forecast[i].day, &t->forecast[i].weight, G_DOT, G_DOT);
  for (size_t i = 0; i < t->reading_count; i++) {
    const struct trend_reading *r = &t->reading[i];
    int row = row_of(x, r->kg);
    if (r->day < x->first || row < 0) continue;
    c[row][column_of(x, r->day)] = r->outlier ? G_TIMES : G_UNSURE;
  }
}

static enum ink ink_of(enum glyph g) {
  return g == G_BAND ? INK_STRONG : g == G_TIMES ? INK_ACCENT : g == G_UNSURE ? INK_PLAIN : INK_DIM;
}

static const char *date_words(const struct pen *p, long day) {
  struct buf b;
  buf_init(&b, p->arena, 16);
  date_print(&b, day);
  return buf_text(&b);
}

static void write_dates(const struct picture *x) {
  struct row r;
  int at = AXIS_COLUMNS + MARGIN, today = at + column_of(x, x->told->until), end = x->p->width - MARGIN;
  enum { DATE = 10 };
  row_start(&r, x->p);
  row_put(&r, at, INK_DIM, date_words(x->p, x->first));
  if (x->last > x->told->until) row_right(&r, end, DATE, INK_DIM, date_words(x->p, x->last));
  int middle = today - DATE / 2, most = x->last > x->told->until ? end - DATE - 1 : end;
  if (middle + DATE > most) middle = most - DATE;
  if (middle > at + DATE) row_put(&r, middle, INK_DIM, date_words(x->p, x->told->until));
  row_end(&r);
}

static void write_picture(const struct pen *p, const struct trend_told *told) {
  struct picture x = picture_of(p, told);
  canvas c;
  paint(&x, c);
  heading(p, "Weight", "kg");
  for (int k = 0; k < ROWS; k++) {
    struct row r;
    row_start(&r, p);
    if (k % 5 == 0) {
      double kg = x.high - (k + 0.5) * (x.high - x.low) / ROWS;
      row_right(&r, AXIS_COLUMNS, AXIS_COLUMNS - MARGIN, INK_DIM, say_text(p, kg < 10 ? "%.2f" : "%.1f", kg));
    }
    for (int i = 0; i < x.columns; i++)
      if (c[k][i] != G_COUNT) row_glyph(&r, AXIS_COLUMNS + MARGIN + i, ink_of(c[k][i]), c[k][i]);
    row_end(&r);
  }
  write_dates(&x);
  const char *item[] = {say_text(p, "%s the weight, with its band", pen_glyph(p, G_BAND)),
                        say_text(p, "%s a reading", pen_glyph(p, G_UNSURE)),
                        say_text(p, "%s far off", pen_glyph(p, G_TIMES)),
                        told->trend->forecast_count > 0 ? say_text(p, "%s what comes next", pen_glyph(p, G_DOT)) : ""};
  legend(p, item, COUNT_OF(item));
}

static void write_remarks(const struct pen *p, const struct trend_told *told) {
  static const struct {
    const char *title;
    enum ink ink;
  } OF[TREND_URGENCIES] = {{"Act", INK_ACCENT}, {"Watch", INK_STRONG}, {"Know", INK_DIM}};
  if (told->remark_count > 0) blank_line(p);
  for (size_t i = 0; i < told->remark_count; i++) {
    const struct trend_remark *m = &told->remark[i];
    struct prose how = prose_at(MARGIN + 2, INK_PLAIN);
    how.bar = G_BAR;
    how.bar_at = MARGIN;
    how.bar_ink = OF[m->urgency].ink;
    prose_write(p, &how, say_text(p, "%s: %s", OF[m->urgency].title, m->text));
  }
}

void report_trend(const struct library *lib, const struct animal *animal, const struct trend_told *told,
                  const struct report_style *style, struct buf *out) {
  const struct check_result who = {.animal = animal, .refusal = animal_refusal(animal)};
  struct view v = {pen_start(style, out), lib, &who};
  const struct pen *p = &v.pen;
  struct prose strong = prose_at(MARGIN, INK_STRONG), plain = prose_at(MARGIN, INK_PLAIN);
  const char *said[] = {told->need, told->eaten, told->ahead};
  blank_line(p);
  prose_write(p, &strong, words_animal(p->arena, animal));
  if (who.refusal != REFUSE_NOT) answer_refusal(&v);
  blank_line(p);
  prose_write(p, &strong, told->direction);
  for (size_t i = 0; i < COUNT_OF(said); i++)
    if (said[i][0]) prose_write(p, &plain, said[i]);
  write_remarks(p, told);
  if (told->trend->day_count > 0) write_picture(p, told);
}
