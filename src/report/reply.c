/* A reply is gathered as points under headings first, each with its worth, and then cut to the length that is asked for. */
#include "report/reply.h"

#include "base/utf8.h"
#include "report/reply_points.h"

enum { LETTER_LEAST = 200, LETTER_MOST = 360, LETTER_CEILING = 365, QUESTIONS_IN_A_LETTER = 4 };

struct page {
  const struct reply_style *style;
  struct buf *out;
  struct arena *arena;
};

/* ---- what Markdown would read as its own ------------------------------------------------------------------------ */

/* Nor does a quoted word end the line or turn the direction of what stands behind it. */
static void write_text(const struct page *p, const char *text) {
  for (struct span s = span_of(text); s.n > 0;) {
    uint32_t c = 0;
    size_t n = utf8_read(s, &c);
    if (n == 1 && !p->style->plain && strchr("*_`<>[]|\\#", s.p[0])) buf_addc(p->out, '\\');
    buf_add(p->out, n > 0 && c != '\n' && utf8_is_obeyed(c) ? SPAN_LIT(" ") : span_cut(s, 0, n > 0 ? n : 1));
    s = span_cut(s, n > 0 ? n : 1, s.n);
  }
}

static void write_heading(const struct page *p, const char *title) {
  if (p->out->n > 0) buf_addc(p->out, '\n');
  if (!title[0]) return;
  if (p->style->plain) {
    buf_addf(p->out, "%s\n\n", title);
  } else {
    buf_addf(p->out, "**%s**\n\n", title);
  }
}

static void write_point(const struct page *p, const struct reply_point *point, enum reply_shape shape, int number) {
  if (shape == SHAPE_NUMBERED) buf_addf(p->out, "%d. ", number);
  if (shape == SHAPE_LISTED) buf_adds(p->out, "- ");
  write_text(p, point->text);
  buf_addc(p->out, '\n');
}

/* ---- the letter ------------------------------------------------------------------------------------------------- */

static size_t words_in(const char *text) {
  size_t n = 0;
  for (const char *c = text; *c; c++) n += c[0] != ' ' && (c[1] == ' ' || c[1] == '\0');
  return n;
}

static size_t words_taken(const struct reply_points *all) {
  size_t n = 0;
  for (size_t i = 0; i < all->count; i++) n += all->point[i].taken ? words_in(all->point[i].text) : 0;
  return n;
}

/* The next to be taken: the one of most worth that is still out. */
static struct reply_point *next_point(struct reply_points *all) {
  struct reply_point *best = NULL;
  for (size_t i = 0; i < all->count; i++) {
    struct reply_point *x = &all->point[i];
    if (!x->taken && !x->passed && (!best || x->worth > best->worth)) best = x;
  }
  return best;
}

static struct reply_point *least_point(struct reply_points *all) {
  struct reply_point *least = NULL;
  for (size_t i = 0; i < all->count; i++) {
    struct reply_point *x = &all->point[i];
    if (x->taken && x->worth < WORTH_KEEPING && (!least || x->worth < least->worth)) least = x;
  }
  return least;
}

/* What has to be said is said, unless it makes the letter too long and is worth less; then more, the most worth first, as
 * long as there is room. */
static void take_for_letter(struct reply_points *all) {
  for (size_t i = 0; i < all->count; i++) all->point[i].taken = all->point[i].must;
  for (struct reply_point *x; words_taken(all) > LETTER_CEILING && (x = least_point(all));) {
    x->taken = false;
    x->passed = true;
  }
  for (struct reply_point *x; (x = next_point(all));) {
    size_t now = words_taken(all), with = now + words_in(x->text);
    bool room = with <= LETTER_MOST && (now < LETTER_LEAST || x->worth >= WORTH_SAYING);
    x->taken = room;
    x->passed = !room;
  }
}

static void take_all(struct reply_points *all) {
  for (size_t i = 0; i < all->count; i++) all->point[i].taken = true;
}

static void write_parts(const struct page *p, const struct reply_points *all) {
  for (int part = 0; part < REPLY_PART_COUNT; part++) {
    const struct reply_part *what = &reply_part[part];
    int number = 0;
    for (size_t i = 0; i < all->count; i++) {
      const struct reply_point *x = &all->point[i];
      if (!x->taken || (int)x->part != part) continue;
      if (number++ == 0) {
        write_heading(p, what->title);
      } else if (what->shape == SHAPE_PARAGRAPH) {
        buf_addc(p->out, '\n');
      }
      write_point(p, x, what->shape, number);
    }
  }
}

/* ---- five lines ------------------------------------------------------------------------------------------------- */

/* One line of each part, most worth first, in the order in which they are told; then second lines. */
static void take_for_lines(struct reply_points *all, int lines) {
  for (int left = lines; left > 0; left--) {
    struct reply_point *x = next_point(all);
    if (!x) return;
    x->taken = true;
  }
}

static void write_lines(const struct page *p, const struct reply_points *all) {
  for (int part = 0; part < REPLY_PART_COUNT; part++)
    for (size_t i = 0; i < all->count; i++) {
      const struct reply_point *x = &all->point[i];
      if (!x->taken || (int)x->part != part) continue;
      if (!p->style->plain) buf_adds(p->out, "- ");
      write_text(p, x->text);
      buf_addc(p->out, '\n');
    }
}

/* ---- all of it --------------------------------------------------------------------------------------------------- */

static void write_table(const struct page *p, const struct reply_facts *f) {
  const struct check_result *r = f->check;
  if (p->style->length != REPLY_FULL || !r->animal || r->refusal != REFUSE_NOT) return;
  write_heading(p, "The figures, a day");
  if (!p->style->plain) buf_adds(p->out, "| | in the bowl | needed | at most | |\n| --- | ---: | ---: | ---: | --- |\n");
  for (int n = 0; n < NUT_COUNT; n++) {
    const struct nutrient_result *x = &r->nutrient[n];
    if (x->verdict == VERDICT_NO_FIGURE) continue;
    const char *unit = nutrient_info[n].unit;
    const char *cell[] = {nutrient_info[n].name, words_amount(p->arena, x->amount, unit),
                          x->allowance > 0 ? words_amount(p->arena, x->allowance, unit) : "-",
                          x->upper > 0 ? words_amount(p->arena, x->upper, unit) : "-",
                          x->close_to_limit ? "close to its limit" : verdict_word[x->verdict]};
    for (size_t i = 0; i < COUNT_OF(cell); i++) {
      buf_adds(p->out, p->style->plain ? (i > 0 ? "; " : "") : "| ");
      write_text(p, cell[i]);
      buf_adds(p->out, p->style->plain ? "" : " ");
    }
    buf_adds(p->out, p->style->plain ? "\n" : "|\n");
  }
}

void report_reply(const struct reply_facts *f, const struct reply_style *style, struct buf *out) {
  struct page p = {style, out, out->arena};
  struct reply_points all = reply_points(f, style->length, out->arena);
  if (style->length == REPLY_LINES) {
    take_for_lines(&all, style->lines);
    write_lines(&p, &all);
  } else {
    if (style->length == REPLY_FULL) take_all(&all);
    if (style->length == REPLY_LETTER) take_for_letter(&all);
    write_parts(&p, &all);
    write_table(&p, f);
  }
  if (style->sign && style->sign[0]) {
    buf_addc(out, '\n');
    write_text(&p, style->sign);
    buf_addc(out, '\n');
  }
}
