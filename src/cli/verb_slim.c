/* bowlwright slim: a weight plan for an overweight adult. */
#include "app/app_slim.h"
#include "cli/progress.h"
#include "cli/run.h"
#include "report/mend.h"
#include "report/slim.h"

static void draw(const struct run *s, const struct app_slim_answer *a, struct buf *out) {
  const struct slim_shown shown = {.animal = a->animal,
                                   .refusal = a->refusal,
                                   .from = a->from,
                                   .plan = &a->plan,
                                   .lead = a->lead,
                                   .rule = a->rule,
                                   .stop = a->stop,
                                   .rules = a->rules,
                                   .stops = a->stops,
                                   .grams_at_lowest = a->grams_at_lowest};
  report_slim(&s->lib, &shown, &s->style, out);
  if (a->bowl_wanted && a->bowl.understood) report_mend(&s->lib, &a->bowl.answer, &s->style, out);
}

static int code_of(const struct app_slim_answer *a) {
  if (a->refusal != REFUSE_NOT) return EXIT_REFUSED;
  if (a->plan.status == SLIM_NO_ROOM) return EXIT_NONE_EXISTS;
  if (!a->bowl_wanted) return EXIT_COMPUTED;
  if (!a->bowl.understood) return EXIT_NOT_UNDERSTOOD;
  enum mend_status m = a->bowl.answer.mend->status;
  return m == MEND_FOUND ? EXIT_COMPUTED : m == MEND_NOT_LINEAR ? EXIT_USAGE : EXIT_NONE_EXISTS;
}

static int show(const struct run *s, const struct app_slim_answer *a) {
  struct buf out;
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (s->options->json) {
    json_slim(&s->lib, a, &out);
    if (a->refusal != REFUSE_NOT) note(s, "%s %s", refusal_text(a->refusal), refusal_ask(a->refusal));
  } else {
    draw(s, a, &out);
  }
  int code = finish_answer(s, &out);
  return code != EXIT_COMPUTED ? code : code_of(a);
}

int verb_slim(struct run *s) {
  struct app_slim_request q = {0};
  struct app_slim_answer a;
  struct progress bar;
  int code = ask_about(s, &q.mend.check);
  if (code == EXIT_COMPUTED && s->options->operand.count > 0)
    code = read_recipe_and_larder(s, &q.mend.check.recipe, &q.mend.larder);
  if (code != EXIT_COMPUTED) return code;
  progress_start(&bar, s, "mending");
  bar.lines = true;
  q.mend.one_way = true;
  q.mend.go_on = progress_go_on;
  q.mend.user = &bar;
  app_slim(&s->lib, &q, &a, s->arena);
  progress_end(&bar);
  if (a.bowl_wanted) show_recipe_diags(s, &a.bowl.check);
  show_diags(s, &a.animal_diags, s->arena);
  show_diags(s, &a.journal_diags, s->arena);
  if (a.bowl_wanted) show_diags(s, &a.bowl.larder_diags, s->arena);
  if (a.bowl_wanted) show_diags(s, &a.bowl.request_diags, s->arena);
  return a.understood ? show(s, &a) : not_understood(&a.animal_diags);
}
