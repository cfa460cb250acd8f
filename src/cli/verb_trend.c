/* bowlwright trend: weights and what was eaten over time. */
#include "app/app_trend.h"
#include "cli/run.h"
#include "report/trend.h"

static int show(const struct run *s, const struct app_trend_answer *a) {
  struct buf out;
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (s->options->json) {
    json_trend(&s->lib, a, &out);
  } else {
    report_trend(&s->lib, a->animal, &a->told, &s->style, &out);
  }
  int code = finish_answer(s, &out);
  if (code != EXIT_COMPUTED || a->refusal == REFUSE_NOT) return code;
  if (s->options->json) note(s, "%s %s", refusal_text(a->refusal), refusal_ask(a->refusal));
  return EXIT_REFUSED;
}

int verb_trend(struct run *s) {
  struct app_check_request q;
  struct app_trend_answer a;
  struct app_journal journal;
  int code = ask_about(s, &q);
  if (code == EXIT_COMPUTED) code = read_journal_and_recipes(s, s->options->operand.item[0], 1, &journal);
  if (code != EXIT_COMPUTED) return code;
  q.journal = &journal;
  app_trend(&s->lib, &q, &a, s->arena);
  show_diags(s, &a.journal_diags, s->arena);
  show_diags(s, &a.animal_diags, s->arena);
  return a.told.trend ? show(s, &a) : not_understood(&a.animal_diags);
}
