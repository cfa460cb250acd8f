/* The top of an answer: title, dangers, the verdict in one line, energy, what to act on. */
#include "report/answer.h"

#include <math.h>

void answer_title(const struct view *v) {
  const struct pen *p = &v->pen;
  const struct check_result *r = v->r;
  const char *name = r->ration && r->ration->name && r->ration->name[0] ? r->ration->name : "This bowl";
  const char *who = r->animal ? words_animal(p->arena, r->animal) : "no animal given: not judged";
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
  bool any = false, fed = false;
  for (size_t i = 0; i < v->r->finding_count; i++) fed |= v->r->finding[i].danger && !v->r->finding[i].asked;
  for (size_t i = 0; i < v->r->finding_count; i++) {
    const struct finding *f = &v->r->finding[i];
    if (!f->danger) continue;
    blank_line(&v->pen);
    if (!any) {
      struct row row;
      row_start(&row, &v->pen);
      row_put(&row, MARGIN, INK_LOUD, fed ? "Danger: do not feed this as it is" : "Danger: what is asked about");
      row_end(&row);
    }
    write_finding(v, f, true);
    any = true;
  }
}

/* ---- the verdict in one sentence ----------------------------------------------------------------------------------- */

static void add_count(struct row *row, int *at, int count, enum ink ink, const char *words) {
  if (count == 0) return;
  const struct pen *p = row->pen;
  const char *text = say_text(p, "%d %s", count, words);
  if (*at > MARGIN) *at = row_put(row, *at, INK_DIM, pen_glyph(p, G_BETWEEN));
  *at = row_put(row, *at, ink, text);
}

/* Words that an estimate decided, where nobody has published a figure of the food itself. */
static void write_lent(const struct view *v) {
  enum { NAMED = 4 };
  const struct pen *p = &v->pen;
  struct buf b;
  int count = 0;
  buf_init(&b, p->arena, 1024);
  for (int i = 0; i < NUT_COUNT; i++) {
    if (!v->r->nutrient[i].estimate_decides) continue;
    if (count < NAMED) buf_addf(&b, "%s%s", count ? ", " : "", words_nutrient(p->arena, (enum nutrient)i));
    count++;
  }
  if (count == 0) return;
  struct prose how = prose_at(MARGIN, INK_DIM);
  const char *more = count > NAMED ? say_text(p, " and %d more", count - NAMED) : "";
  prose_write(
      p, &how,
      say_text(p, "Estimates decide %d of these (%s%s): --why tells what each rests on.", count, buf_text(&b), more));
}

void answer_verdict(const struct view *v) {
  static const enum group_id TOLD[] = {GROUP_SHORT, GROUP_OVER, GROUP_THIN, GROUP_NEAR_LIMIT, GROUP_UNPROVEN};
  const struct pen *p = &v->pen;
  struct group group[GROUP_COUNT];
  int judged = 0, at = MARGIN;
  words_groups(v->r, group);
  for (int i = 0; i < GROUP_COUNT; i++) judged += i == GROUP_NO_FIGURE ? 0 : group[i].count;
  bool bad = group[GROUP_SHORT].count || group[GROUP_OVER].count;
  struct prose how = prose_at(MARGIN, bad ? INK_LOUD : INK_STRONG);
  struct row row;
  blank_line(p);
  prose_write(p, &how, words_lead(v->r, p->arena));
  if (judged == group[GROUP_MET].count) { /* said already */
    write_lent(v);
    return;
  }
  row_start(&row, p);
  for (size_t i = 0; i < COUNT_OF(TOLD); i++)
    add_count(&row, &at, group[TOLD[i]].count, i < 2 ? INK_ACCENT : INK_PLAIN,
              TOLD[i] == GROUP_NEAR_LIMIT ? "close to a limit" : group[TOLD[i]].key);
  if (at > MARGIN) at = row_put(&row, at, INK_DIM, pen_glyph(p, G_BETWEEN));
  row_put(&row, at, INK_PLAIN, say_text(p, "%d of %d met", group[GROUP_MET].count, judged));
  row_end(&row);
  write_lent(v);
}

/* ---- what to act on -------------------------------------------------------------------------------------------- */

enum { WATCH_SHOWN = 4 };

static int count_weight(const struct view *v, enum finding_weight w) {
  int n = 0;
  for (size_t i = 0; i < v->r->finding_count; i++)
    if (v->r->finding[i].weight == w && !v->r->finding[i].danger) n++;
  return n;
}

static void findings_of(const struct view *v, enum finding_weight weight, int most) {
  const struct pen *p = &v->pen;
  int shown = 0;
  if (count_weight(v, weight) == 0) return;
  heading(p, words_weight(weight), "");
  for (size_t i = 0; i < v->r->finding_count && shown < most; i++) {
    const struct finding *f = &v->r->finding[i];
    if (f->weight != weight || f->danger) continue;
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
  findings_of(v, FINDING_ACT, everything);
  findings_of(v, FINDING_WATCH, v->pen.all ? everything : WATCH_SHOWN);
  if (v->pen.all) {
    findings_of(v, FINDING_KNOW, everything);
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
