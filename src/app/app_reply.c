#include "app/app_reply.h"

#include "post/post.h"
#include "words/words.h"

static bool holds_danger(const struct check_result *r) {
  for (size_t i = 0; r && i < r->finding_count; i++)
    if (r->finding[i].danger) return true;
  return false;
}

static bool is_wanting(const struct check_result *r) {
  if (!r->animal || r->refusal != REFUSE_NOT || r->ration->line_count == 0) return false;
  if (holds_danger(r)) return true;
  return r->verdict_count[VERDICT_SHORT] + r->verdict_count[VERDICT_THIN] + r->verdict_count[VERDICT_OVER] +
             r->verdict_count[VERDICT_UNPROVEN] >
         0;
}

static void tell_of_post(const struct post *post, struct app_reply_answer *out, struct arena *arena) {
  if (!post) return;
  const struct post_question **question = ARENA_NEW(arena, const struct post_question *, post->question_count + 1);
  for (size_t i = 0; i < post->question_count; i++) /* what is dangerous is told before all else */
    if (!(post->question[i].about == ASKS_OF_DANGER && holds_danger(out->check.result)))
      question[out->questions++] = &post->question[i];
  out->question = question;
}

/* A main food that is cut to less than half: nobody would know the dinner again. Lines are those of the recipe, which stay
 * in their order when it is scaled first. */
static bool is_recognisable(const struct check_result *before, const struct mended *m) {
  static const double MAIN = 0.2 /* of the energy */, LEAST_LEFT = 0.5;
  for (size_t i = 0; i < m->proposal->count; i++) {
    const struct mend_change *c = &m->proposal->change[i];
    for (size_t k = 0; k < before->energy.from_count && c->line >= 0 && !c->danger; k++)
      if (before->energy.from[k].line == c->line && before->energy.from[k].share >= MAIN && c->to_g < LEAST_LEFT * c->from_g)
        return false;
  }
  return true;
}

static enum reply_why_none why_none(const struct app_reply_answer *a) {
  if (a->mended) return REPLY_NOT_LOOKED;
  if (!mend_is_a_dinner(a->check.result)) return REPLY_NO_DINNER;
  if (a->mend.answer.count > 0) return REPLY_TOO_MUCH_CHANGED;
  const struct mend_result *m = a->mend.understood ? a->mend.answer.mend : NULL;
  return m && m->status == MEND_STOPPED ? REPLY_RAN_OUT_OF_TIME : REPLY_NONE_FOUND;
}

void app_reply(const struct library *lib, const struct app_mend_request *q, struct app_reply_answer *out,
               struct arena *arena) {
  *out = (struct app_reply_answer){0};
  app_check(lib, &q->check, &out->check, arena);
  tell_of_post(out->check.post, out, arena);
  if (!out->check.result || !is_wanting(out->check.result)) return;
  struct app_mend_request change = *q;
  change.quick = false; /* the change that 'mend' of the same text proposes, and no other */
  app_mend(lib, &change, &out->mend, arena);
  if (out->mend.understood && out->mend.answer.mend->status == MEND_FOUND && out->mend.answer.count > 0)
    for (size_t i = 0; i < out->mend.answer.count && !out->mended; i++)
      if (is_recognisable(out->check.result, &out->mend.answer.found[i])) out->mended = &out->mend.answer.found[i];
  out->why_none = why_none(out);
}
