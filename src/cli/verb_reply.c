/* bowlwright reply: the answer to a posted recipe, ready to paste. */
#include "app/app_reply.h"
#include "cli/progress.h"
#include "cli/run.h"
#include "report/reply.h"

static struct reply_style style_of(const struct options *o) {
  struct reply_style style = {REPLY_LETTER, o->ask.lines, o->plain, o->ask.sign};
  if (o->ask.lines > 0) style.length = REPLY_LINES;
  if (o->ask.full) style.length = REPLY_FULL;
  return style;
}

static int show(const struct run *s, const struct app_reply_answer *a) {
  const struct reply_facts facts = {.lib = &s->lib,
                                    .check = a->check.result,
                                    .mended = a->mended,
                                    .foods_only = a->foods_only,
                                    .unlike = a->unlike,
                                    .why_none = a->why_none,
                                    .asked = a->check.post ? a->check.post->asked : NULL,
                                    .asks = a->check.post ? a->check.post->asks : 0,
                                    .cooked_told = a->check.post && a->check.post->cooked_told,
                                    .scaled = a->mend.answer.scaled,
                                    .in_grams = a->mend.answer.in_grams,
                                    .cooked = a->mend.answer.cooked,
                                    .cooked_count = a->mend.answer.cooked_count,
                                    .plate = a->mend.answer.plate,
                                    .plate_count = a->mend.answer.plate_count,
                                    .plate_words = a->mend.answer.plate_words,
                                    .left_out = a->mend.answer.left_out,
                                    .left_out_count = a->mend.answer.left_out_count,
                                    .question = a->question,
                                    .questions = a->questions};
  const struct reply_style style = style_of(s->options);
  struct buf text, out;
  buf_init(&text, s->arena, ANSWER_MOST_BYTES);
  report_reply(&facts, &style, &text);
  if (!s->options->json) return write_answer(&text);
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  json_reply(&s->lib, buf_text(&text), !style.plain, a->mended ? a->mended->text : NULL, facts.scaled, &out);
  return finish_answer(s, &out);
}

int verb_reply(struct run *s) {
  struct app_mend_request q = {0};
  struct app_reply_answer a;
  struct progress bar;
  int code = ask_about(s, &q.check);
  if (code == EXIT_COMPUTED && s->options->ask.lines > 0 && s->options->ask.full) {
    complain("--lines asks for a short answer and --full for the whole: say one of them");
    code = EXIT_USAGE;
  }
  if (code == EXIT_COMPUTED) code = read_recipe_and_larder(s, &q.check.recipe, &q.larder);
  if (code != EXIT_COMPUTED) return code;
  progress_start(&bar, s, "writing");
  bar.lines = true;
  q.go_on = progress_go_on;
  q.user = &bar;
  app_reply(&s->lib, &q, &a, s->arena);
  progress_end(&bar);
  show_recipe_diags(s, &a.check);
  show_diags(s, &a.check.animal_diags, s->arena);
  if (!a.check.result) return EXIT_NOT_UNDERSTOOD;
  tell_tally(s, a.check.result, a.check.post);
  code = show(s, &a);
  if (code != EXIT_COMPUTED) return code;
  return a.check.result->animal && a.check.result->refusal != REFUSE_NOT ? EXIT_REFUSED : EXIT_COMPUTED;
}
