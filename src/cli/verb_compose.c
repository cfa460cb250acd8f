/* bowlwright compose: a recipe from a larder list. */
#include "app/app_compose.h"
#include "cli/progress.h"
#include "cli/run.h"
#include "report/compose.h"

static int code_of(const struct compose_result *r) {
  switch (r->status) {
  case COMPOSE_FOUND:
    return EXIT_COMPUTED;
  case COMPOSE_REFUSED:
    return EXIT_REFUSED;
  case COMPOSE_NONE:
    return EXIT_NONE_EXISTS;
  case COMPOSE_STOPPED:
    return r->dish ? EXIT_COMPUTED : EXIT_NONE_EXISTS;
  case COMPOSE_NOT_LINEAR:
    break;
  }
  return EXIT_USAGE;
}

static int show(const struct run *s, const struct app_compose_answer *a) {
  struct buf out;
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (s->options->json) {
    json_compose(&s->lib, a, &out);
  } else {
    report_compose(&s->lib, &a->answer, &s->style, &out);
  }
  int code = finish_answer(s, &out);
  return code != EXIT_COMPUTED ? code : code_of(a->answer.result);
}

static void say_stopped(const struct run *s, const struct compose_result *r) {
  if (r->status == COMPOSE_STOPPED)
    note(s, r->dish ? "the search was stopped; the recipe meets everything, but a better one may exist"
                    : "the search ended before a recipe was found; that none exists is not proven");
}

int verb_compose(struct run *s) {
  struct app_compose_request q = {0};
  struct app_compose_answer a;
  struct progress bar;
  int code = ask_about(s, &q.check);
  if (code == EXIT_COMPUTED) code = read_text(s->options->operand.item[0], &q.larder, s->arena);
  if (code != EXIT_COMPUTED) return code;
  progress_start(&bar, s, "composing");
  q.go_on = progress_go_on;
  q.user = &bar;
  app_compose(&s->lib, &q, &a, s->arena);
  progress_end(&bar);
  show_diags(s, &a.larder_diags, s->arena);
  show_diags(s, &a.animal_diags, s->arena);
  show_diags(s, &a.journal_diags, s->arena);
  show_diags(s, &a.aim_diags, s->arena);
  if (!a.understood) return EXIT_NOT_UNDERSTOOD;
  say_stopped(s, a.answer.result);
  return show(s, &a);
}
