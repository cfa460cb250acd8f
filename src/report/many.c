#include "report/many.h"

#include "report/pen.h"

enum { NAME_COLUMNS = 26, BAR_COLUMNS = 24, NUTRIENTS_SHOWN = 12, LEFT = 2 };

/* ---- one line a text ---- */

static const char *state_of(const struct many_file *f, struct arena *a) {
  const struct tally *t = &f->tally;
  if (f->code < 0) return "not reached";
  if (!t->read) return f->note[0] ? f->note : "not understood";
  const char *state = t->refused  ? "not judged, for the animal's sake"
                      : t->judged ? t->lead
                                  : "no animal given: only what is in it";
  if (t->left_out == 0) return state;
  return words_text(a, "%s (%d not counted)", state, t->left_out);
}

static void write_file_row(const struct pen *p, const struct many_file *f) {
  struct row r;
  row_start(&r, p);
  row_fit(&r, LEFT, NAME_COLUMNS, f->tally.dangers > 0 ? INK_LOUD : INK_PLAIN, f->name);
  int column = LEFT + NAME_COLUMNS + 1;
  enum ink ink = f->tally.dangers > 0 ? INK_LOUD : INK_PLAIN;
  const char *state = state_of(f, p->arena);
  if (p->all) {
    row_end_whole(&r, column, p->width - column, ink, state);
    return;
  }
  row_fit(&r, column, p->width - column, ink, state);
  row_end(&r);
}

/* ---- the nutrients ---- */

static int columns_of(size_t n, size_t of) {
  if (n == 0 || of == 0) return 0;
  int c = (int)((double)n * BAR_COLUMNS / (double)of + 0.5);
  return c > 0 ? c : 1;
}

static void write_nutrient_row(const struct pen *p, const struct many *m, enum nutrient n) {
  const size_t *by = m->by[n];
  struct row r;
  row_start(&r, p);
  row_fit(&r, LEFT, NAME_COLUMNS - 8, INK_PLAIN, words_nutrient(p->arena, n));
  int at = LEFT + NAME_COLUMNS - 7, end = columns_of(by[GROUP_SHORT], m->judged);
  row_fill(&r, at, end, INK_ACCENT, G_FILL_4);
  row_fill(&r, at + end, BAR_COLUMNS - end, INK_DIM, G_DOT);
  const char *item[4];
  size_t count = 0;
  static const enum group_id SAID[] = {GROUP_SHORT, GROUP_THIN, GROUP_OVER, GROUP_UNPROVEN};
  static const char *const WORDS[] = {"short", "thin", "over", "unproven"};
  for (size_t i = 0; i < COUNT_OF(SAID); i++)
    if (by[SAID[i]] > 0) item[count++] = words_text(p->arena, "%s %zu", WORDS[i], by[SAID[i]]);
  const char *words = count > 0 ? words_list(p->arena, item, count, count) : "met";
  int column = at + BAR_COLUMNS + 2;
  row_end_whole(&r, column, p->width - column, INK_PLAIN, words);
}

static void write_prose(const struct pen *p, const char *text) {
  struct prose how = prose_at(LEFT, INK_PLAIN);
  prose_write(p, &how, text);
}

static void write_nutrients(const struct pen *p, const struct many *m) {
  if (m->judged == 0) return;
  blank_line(p);
  write_prose(p, words_text(p->arena, "How often each need is not met, of %zu judged:", m->judged));
  size_t most = p->all || m->order_count < NUTRIENTS_SHOWN ? m->order_count : NUTRIENTS_SHOWN, shown = 0;
  for (size_t i = 0; i < most; i++) {
    const size_t *by = m->by[m->order[i]];
    if (!p->all && by[GROUP_SHORT] + by[GROUP_THIN] + by[GROUP_OVER] + by[GROUP_UNPROVEN] == 0) continue;
    write_nutrient_row(p, m, m->order[i]);
    shown++;
  }
  if (shown < m->order_count)
    write_prose(p, words_text(p->arena, "%zu more nutrients: --all shows them.", m->order_count - shown));
  if (m->all_met > 0) write_prose(p, words_text(p->arena, "Every need is met in %zu.", m->all_met));
}

void report_many(const struct many *m, const struct report_style *style, struct buf *out) {
  struct pen p = pen_start(style, out);
  blank_line(&p);
  write_prose(&p, many_lead(m, p.arena));
  if (m->uncounted > 0)
    write_prose(&p, words_text(p.arena, "In %zu something is fed that could not be counted.", m->uncounted));
  if (m->other > 0)
    write_prose(&p, words_text(p.arena, "%zu other file%s of the folder %s no text and %s left alone.", m->other,
                               m->other == 1 ? "" : "s", m->other == 1 ? "is" : "are", m->other == 1 ? "was" : "were"));
  blank_line(&p);
  for (size_t i = 0; i < m->count; i++) write_file_row(&p, &m->file[i]);
  write_nutrients(&p, m);
}
