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

/* With foods alone, where that is another way than the one that is put first, and a good one: nothing beyond the usual
 * portions, and not many more lines. */
static const struct mended *with_foods_only(const struct mended_answer *a) {
  enum { LINES_MORE = 3 };
  for (size_t i = 1; i < a->count; i++) {
    const struct mended *m = &a->found[i];
    bool good = m->proposal->with == MEND_FOODS && m->kept && !m->unlike && m->ask_count == 0;
    if (good && m->proposal->count <= a->found[0].proposal->count + LINES_MORE) return m;
  }
  return NULL;
}

static enum reply_why_none why_none(const struct app_reply_answer *a) {
  if (a->mended) return REPLY_NOT_LOOKED;
  if (!mend_is_a_dinner(a->check.result)) return REPLY_NO_DINNER;
  if (a->unlike) return REPLY_ANOTHER_DINNER;
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
  const struct mended_answer *found = &out->mend.answer;
  if (out->mend.understood && found->mend->status == MEND_FOUND && found->count > 0) {
    out->unlike = found->found[0].unlike;
    out->mended = out->unlike ? NULL : &found->found[0];
    out->foods_only = out->unlike ? NULL : with_foods_only(found);
  }
  out->why_none = why_none(out);
}
