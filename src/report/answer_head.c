/* The top of an answer: title, dangers, the verdict in one line, energy, what to act on. */
#include "report/answer.h"

#include <math.h>

#include "review/findings.h"

void answer_title(const struct view *v) {
  const struct pen *p = &v->pen;
  const struct check_result *r = v->r;
  const char *name = r->ration && r->ration->name && r->ration->name[0] ? r->ration->name : "This bowl";
  const char *who = r->animal ? animal_words(p, r->animal) : "no animal given: not judged";
  int room = p->width - 2 * MARGIN, wide = text_columns(p, who);
  struct row row;
  blank_line(p);
  row_start(&row, p);
  bool one_row = text_columns(p, name) + 3 + wide <= room;
  row_fit(&row, MARGIN, room, INK_STRONG, name);
  if (one_row) row_right(&row, p->width - MARGIN, wide, INK_DIM, who);
  row_end(&row);
  if (!one_row) {
    struct prose how = prose_at(MARGIN, INK_DIM);
    prose_write(p, &how, who);
  }
}

/* ---- dangers --------------------------------------------------------------------------------------------------- */

static void write_more(const struct pen *p, const struct prose *body, enum ink ink, const char *lead, const char *text) {
  if (!text || !text[0]) return;
  struct prose how = *body;
  how.ink = ink;
  how.indent = body->indent + text_columns(p, lead) + 1;
  prose_write(p, &how, say_text(p, "%s%s%s", say_held(p, lead), NBSP, text));
}

static void write_finding(const struct view *v, const struct finding *f, bool with_reason) {
  const struct pen *p = &v->pen;
  bool act = f->weight == FINDING_ACT;
  struct prose how = prose_at(MARGIN + 2, INK_PLAIN);
  how.bar = act ? G_BAR : G_BAR_THIN;
  how.bar_ink = act ? INK_ACCENT : INK_DIM;
  how.bar_at = MARGIN;
  prose_write(p, &how, f->text);
  if (with_reason) write_more(p, &how, INK_DIM, "Why:", f->reason);
  write_more(p, &how, INK_PLAIN, pen_glyph(p, G_ARROW), f->remedy);
  if (p->all && f->source && f->source[0])
    write_more(p, &how, INK_DIM, "Source:",
               say_text(p, "%s%s", f->source,
                        f->confidence == CONF_CONFIRMED ? "" : say_text(p, " (%s)", confidence_word[f->confidence])));
}

void answer_dangers(const struct view *v) {
  bool any = false;
  for (size_t i = 0; i < v->r->finding_count; i++) {
    const struct finding *f = &v->r->finding[i];
    if (!finding_is_danger(f)) continue;
    blank_line(&v->pen);
    if (!any) {
      struct row row;
      row_start(&row, &v->pen);
      row_put(&row, MARGIN, INK_LOUD, "Danger: do not feed this as it is");
      row_end(&row);
    }
    write_finding(v, f, true);
    any = true;
  }
}

/* ---- the verdict in one line ----------------------------------------------------------------------------------- */

struct names {
  const char *item[NUT_COUNT];
  int count;
};

static struct names names_of(const struct view *v, enum verdict verdict) {
  struct group g = group_of(v->r, verdict);
  struct names n = {.count = g.count};
  for (int i = 0; i < g.count; i++) n.item[i] = say_nutrient(&v->pen, g.item[i]->id);
  return n;
}

static const char *some(const struct pen *p, const struct names *n, int most) {
  if (most > 0) return say_list(p, n->item, n->count, most);
  return say_text(p, "of %d nutrient%s", n->count, n->count == 1 ? "" : "s");
}

static const char *verdict_with(const struct view *v, const struct names *by, int most) {
  const struct pen *p = &v->pen;
  const struct names *low = &by[VERDICT_SHORT], *high = &by[VERDICT_OVER], *thin = &by[VERDICT_THIN],
                     *open = &by[VERDICT_UNPROVEN];
  if (low->count && high->count)
    return say_text(p, most > 0 ? "Too little %s; too much %s." : "Too little %s, too much %s.", some(p, low, most),
                    most > 0 ? some(p, high, most) : say_text(p, "of %d", high->count));
  if (low->count) return say_text(p, "Too little %s.", some(p, low, most));
  if (high->count) return say_text(p, "Nothing is short, but too much %s.", some(p, high, most));
  if (thin->count && open->count && most > 0)
    return say_text(p, "Nothing surely short or over; unproven: %s; %d thin.", some(p, open, most), thin->count);
  if (thin->count && open->count)
    return say_text(p, "Nothing surely short or over; %d unproven, %d thin.", open->count, thin->count);
  if (thin->count && most > 0) return say_text(p, "Nothing is short or over, but thin: %s.", some(p, thin, most));
  if (thin->count) return say_text(p, "Nothing is short or over, but %d thin.", thin->count);
  if (open->count && most > 0)
    return say_text(p, "Nothing surely short or over; data is missing for %s.", some(p, open, most));
  if (open->count) return say_text(p, "Nothing surely short or over; data is missing for %d.", open->count);
  if (by[VERDICT_MET].count == 0) return "There is no figure here to judge by.";
  return say_text(p, "All %d needs are met, and nothing is over its limit.", by[VERDICT_MET].count);
}

/* As many names as one line holds. */
static const char *verdict_line(const struct view *v, const struct names *by, int columns) {
  const char *line = "";
  for (int most = NUT_COUNT; most >= 0; most--) {
    line = verdict_with(v, by, most);
    if (text_columns(&v->pen, line) <= columns) return line;
  }
  return line;
}

static void add_count(struct row *row, int *at, int count, enum ink ink, const char *words) {
  if (count == 0) return;
  const struct pen *p = row->pen;
  const char *text = say_text(p, "%d %s", count, words);
  if (*at > MARGIN) *at = row_put(row, *at, INK_DIM, pen_glyph(p, G_BETWEEN));
  *at = row_put(row, *at, ink, text);
}

void answer_verdict(const struct view *v) {
  const struct pen *p = &v->pen;
  struct names by[VERDICT_COUNT];
  int judged = 0;
  for (int i = 0; i < VERDICT_COUNT; i++) {
    by[i] = names_of(v, (enum verdict)i);
    if (i != VERDICT_NO_FIGURE) judged += by[i].count;
  }
  bool bad = by[VERDICT_SHORT].count || by[VERDICT_OVER].count;
  struct row row;
  blank_line(p);
  row_start(&row, p);
  int room = p->width - 2 * MARGIN;
  row_fit(&row, MARGIN, room, bad ? INK_LOUD : INK_STRONG, verdict_line(v, by, room));
  row_end(&row);
  if (judged == by[VERDICT_MET].count) return; /* said already */
  int at = MARGIN;
  row_start(&row, p);
  add_count(&row, &at, by[VERDICT_SHORT].count, INK_ACCENT, "short");
  add_count(&row, &at, by[VERDICT_OVER].count, INK_ACCENT, "over");
  add_count(&row, &at, by[VERDICT_THIN].count, INK_PLAIN, "thin");
  add_count(&row, &at, by[VERDICT_UNPROVEN].count, INK_PLAIN, "unproven");
  if (at > MARGIN) at = row_put(&row, at, INK_DIM, pen_glyph(p, G_BETWEEN));
  row_put(&row, at, INK_PLAIN, say_text(p, "%d of %d met", by[VERDICT_MET].count, judged));
  row_end(&row);
}

/* ---- what to act on -------------------------------------------------------------------------------------------- */

enum { WATCH_SHOWN = 4 };

static int count_weight(const struct view *v, enum finding_weight w) {
  int n = 0;
  for (size_t i = 0; i < v->r->finding_count; i++)
    if (v->r->finding[i].weight == w && !finding_is_danger(&v->r->finding[i])) n++;
  return n;
}

static void findings_of(const struct view *v, enum finding_weight weight, const char *title, int most) {
  const struct pen *p = &v->pen;
  int shown = 0;
  if (count_weight(v, weight) == 0) return;
  heading(p, title, "");
  for (size_t i = 0; i < v->r->finding_count && shown < most; i++) {
    const struct finding *f = &v->r->finding[i];
    if (f->weight != weight || finding_is_danger(f)) continue;
    if (shown++ > 0) blank_line(p);
    write_finding(v, f, p->all);
  }
}

/* Counts what was not shown. */
static void write_folded(const struct view *v, int watch, int know) {
  const struct pen *p = &v->pen;
  if (watch + know == 0) return;
  const char *more = watch ? say_text(p, "%d more to keep an eye on", watch) : "";
  const char *notes = know ? say_text(p, "%d %s to know", know, know == 1 ? "thing" : "things") : "";
  struct prose how = prose_at(MARGIN + 2, INK_DIM);
  blank_line(p);
  prose_write(
      p, &how,
      say_text(p, "%s%s%s: --all shows %s.", more, watch && know ? ", " : "", notes, watch + know == 1 ? "it" : "them"));
}

void answer_findings(const struct view *v) {
  int everything = (int)v->r->finding_count, watch = count_weight(v, FINDING_WATCH);
  findings_of(v, FINDING_ACT, "Act on", everything);
  findings_of(v, FINDING_WATCH, "Keep an eye on", v->pen.all ? everything : WATCH_SHOWN);
  if (v->pen.all) {
    findings_of(v, FINDING_KNOW, "Good to know", everything);
  } else {
    write_folded(v, watch > WATCH_SHOWN ? watch - WATCH_SHOWN : 0, count_weight(v, FINDING_KNOW));
  }
}

void answer_refusal(const struct view *v) {
  const struct pen *p = &v->pen;
  struct prose how = prose_at(MARGIN + 2, INK_PLAIN);
  how.bar = G_BAR;
  how.bar_ink = INK_ACCENT;
  how.bar_at = MARGIN;
  blank_line(p);
  prose_write(p, &how, refusal_text(v->r->refusal));
  how.ink = INK_STRONG;
  prose_write(p, &how, refusal_ask(v->r->refusal));
}
