#include "app/app_reply.h"

#include "post/post.h"
#include "words/words.h"

static bool is_wanting(const struct check_result *r) {
  if (!r->animal || r->refusal != REFUSE_NOT || r->ration->line_count == 0) return false;
  for (size_t i = 0; i < r->finding_count; i++)
    if (r->finding[i].danger) return true;
  return r->verdict_count[VERDICT_SHORT] + r->verdict_count[VERDICT_THIN] + r->verdict_count[VERDICT_OVER] +
             r->verdict_count[VERDICT_UNPROVEN] >
         0;
}

static void tell_of_post(const struct post *post, struct app_reply_answer *out, struct arena *arena) {
  if (!post) return;
  const char **question = ARENA_NEW(arena, const char *, post->question_count + 1);
  const char **left = ARENA_NEW(arena, const char *, post->left_count + 1);
  for (size_t i = 0; i < post->question_count; i++) question[out->questions++] = post->question[i].ask;
  for (size_t i = 0; i < post->left_count; i++)
    if (post->left[i].fed) left[out->left_outs++] = words_text(arena, "“%s”", post->left[i].text);
  out->question = question;
  out->left_out = left;
}

void app_reply(const struct library *lib, const struct app_mend_request *q, struct app_reply_answer *out,
               struct arena *arena) {
  *out = (struct app_reply_answer){0};
  app_check(lib, &q->check, &out->check, arena);
  tell_of_post(out->check.post, out, arena);
  if (!out->check.result || !is_wanting(out->check.result)) return;
  struct app_mend_request change = *q;
  change.quick = true;
  out->looked_for_change = true;
  app_mend(lib, &change, &out->mend, arena);
  if (out->mend.understood && out->mend.answer.mend->status == MEND_FOUND && out->mend.answer.count > 0)
    out->mended = &out->mend.answer.found[0];
}
