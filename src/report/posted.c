/* What a posted text was read as: what is left out, what was assumed, what the owner should be asked. */
#include "post/post.h"
#include "report/answer.h"
#include "report/report.h"
#include "text/plain.h"
#include "words/answered.h"
#include "words/words.h"

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

/* ---- what was assumed: each thing once, with the lines that it is said of ---- */

struct said {
  const char *piece; /* "; " between several of the same lines */
  bool *of;          /* which of the lines */
  size_t lines;
};

static struct said *said_before(struct said *said, size_t count, struct span piece) {
  for (size_t i = 0; i < count; i++)
    if (span_eq(span_of(said[i].piece), piece)) return &said[i];
  return NULL;
}

/* What is said of the same lines becomes one. */
static size_t join_same_lines(const struct pen *p, struct said *said, size_t count, size_t lines) {
  size_t to = 0;
  for (size_t i = 0; i < count; i++) {
    size_t same = 0;
    while (same < to && memcmp(said[same].of, said[i].of, lines * sizeof *said[i].of) != 0) same++;
    if (same < to)
      said[same].piece = say_text(p, "%s; %s", said[same].piece, said[i].piece);
    else
      said[to++] = said[i];
  }
  return to;
}

static const char *lines_of_said(const struct pen *p, const struct ration *ration, const struct said *s) {
  enum { ALL_FROM = 3, NAMED_MOST = 6 };
  const char **text = ARENA_NEW(p->arena, const char *, ration->line_count + 1);
  size_t n = 0;
  if (s->lines == ration->line_count && s->lines >= ALL_FROM) return "all foods";
  for (size_t i = 0; i < ration->line_count; i++)
    if (s->of[i]) text[n++] = ration->line[i].text;
  return words_list(p->arena, text, n, p->all || n <= NAMED_MOST ? n : NAMED_MOST);
}

static void assumed(const struct pen *p, const struct view *v) {
  const struct ration *ration = v->r->ration;
  struct said *said = NULL;
  size_t count = 0, cap = 0;
  for (size_t i = 0; i < ration->line_count; i++) {
    const char *text = ration->line[i].assumed;
    for (struct span rest = span_of(text ? text : ""); rest.n > 0;) {
      struct span piece = plain_next_piece(&rest);
      struct said *s = said_before(said, count, piece);
      if (piece.n == 0 || (s && s->of[i])) continue;
      if (!s) {
        struct said one = {arena_text(p->arena, piece), ARENA_NEW(p->arena, bool, ration->line_count), 0};
        ARENA_PUSH(p->arena, said, count, cap, one);
        s = &said[count - 1];
      }
      s->of[i] = true;
      s->lines++;
    }
  }
  if (count == 0) return;
  count = join_same_lines(p, said, count, ration->line_count);
  heading(p, "Assumed", "the bands include these ranges");
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 2;
  size_t most = p->all || count < SHOWN_ASSUMED ? count : SHOWN_ASSUMED;
  for (size_t i = 0; i < most; i++)
    prose_write(p, &how, say_text(p, "- %s: %s", lines_of_said(p, ration, &said[i]), said[i].piece));
  if (count > most) prose_write(p, &how, say_text(p, "and %d more; --all shows them", (int)(count - most)));
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

void answer_asked(const struct view *v, const struct post *post) {
  const struct pen *p = &v->pen;
  const char *answers = words_answers(v->lib, v->r, post->asked, post->asks, p->arena);
  struct prose how = prose_at(MARGIN, INK_STRONG);
  if (!answers[0]) return;
  blank_line(p);
  prose_write(p, &how, answers);
}

void answer_posted(const struct view *v, const struct post *post) {
  ask(&v->pen, post);
  assumed(&v->pen, v);
}

void report_unread(const struct post *post, const struct report_style *style, struct buf *out) {
  struct view v = {pen_start(style, out), NULL, NULL};
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  blank_line(&v.pen);
  prose_write(&v.pen, &how, post->sorry);
  answer_left_out(&v, post);
  ask(&v.pen, post);
}
