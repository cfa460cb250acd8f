/* What a posted text was read as: what is left out, what was assumed, what the owner should be asked. */
#include "post/post.h"
#include "report/answer.h"
#include "report/report.h"

enum { SHOWN_QUESTIONS = 6, SHOWN_ASSUMED = 5 };

enum left_kind { LEFT_FED, LEFT_TOLD, LEFT_NAMED };

static enum left_kind kind_of(const struct post_left *left) {
  if (left->fed) return LEFT_FED;
  return left->why == POST_NAMED_ONLY ? LEFT_NAMED : LEFT_TOLD;
}

static const char *list_left(const struct pen *p, const struct post *post, enum left_kind kind) {
  const char *list = "";
  size_t count = 0, all = 0;
  for (size_t i = 0; i < post->left_count; i++) all += kind_of(&post->left[i]) == kind;
  for (size_t i = 0; i < post->left_count; i++) {
    if (kind_of(&post->left[i]) != kind) continue;
    const char *join = count == 0 ? "" : count + 1 == all ? " and " : ", ";
    list = say_text(p, "%s%s\"%s\"", list, join, post->left[i].text);
    count++;
  }
  return list;
}

static void ask(const struct pen *p, const struct post *post) {
  if (post->question_count == 0) return;
  heading(p, "Ask the owner", "most telling first");
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  size_t most = p->all ? post->question_count : SHOWN_QUESTIONS;
  for (size_t i = 0; i < post->question_count && i < most; i++)
    prose_write(p, &how, say_text(p, "- %s", post->question[i].ask));
  if (post->question_count > most)
    prose_write(p, &how, say_text(p, "and %d more; --all shows them", (int)(post->question_count - most)));
}

static void assumed(const struct pen *p, const struct view *v, const struct post *post) {
  size_t all = 0;
  for (size_t i = 0; i < post->line_count; i++) all += post->line[i].assumed[0] != '\0';
  if (all == 0) return;
  heading(p, "Assumed", "the bands include these ranges");
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  size_t shown = 0;
  for (size_t i = 0; i < v->r->ration->line_count; i++) {
    const struct ration_line *l = &v->r->ration->line[i];
    if (!l->assumed || !l->assumed[0]) continue;
    if (!p->all && shown++ >= SHOWN_ASSUMED) break;
    prose_write(p, &how, say_text(p, "- %s: %s", l->text, l->assumed));
  }
  if (!p->all && all > SHOWN_ASSUMED)
    prose_write(p, &how, say_text(p, "and %d more; --all shows them", (int)(all - SHOWN_ASSUMED)));
}

void answer_left_out(const struct view *v, const struct post *post) {
  const struct pen *p = &v->pen;
  const char *fed = list_left(p, post, LEFT_FED), *other = list_left(p, post, LEFT_TOLD),
             *named = list_left(p, post, LEFT_NAMED);
  if (v->r && v->r->animal && v->r->refusal == REFUSE_NOT) fed = ""; /* the first sentence says it */
  if (!fed[0] && !other[0] && !named[0]) return;
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  blank_line(p);
  if (fed[0]) prose_write(p, &how, say_text(p, "Left out, and counted as unknown: %s.", fed));
  if (named[0]) prose_write(p, &how, say_text(p, "Mentioned, but not taken as fed: %s.", named));
  if (other[0])
    prose_write(p, &how, say_text(p, "Not counted (past, advice, about another animal, or not fed): %s.", other));
}

void answer_posted(const struct view *v, const struct post *post) {
  ask(&v->pen, post);
  assumed(&v->pen, v, post);
}

void report_unread(const struct post *post, const struct report_style *style, struct buf *out) {
  struct view v = {pen_start(style, out), NULL, NULL};
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  blank_line(&v.pen);
  prose_write(&v.pen, &how, post->sorry);
  answer_left_out(&v, post);
  ask(&v.pen, post);
}
