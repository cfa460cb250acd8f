/* bowlwright mend: the smallest change of a recipe after which everything is met. */
#include "app/app_mend.h"
#include "cli/progress.h"
#include "cli/run.h"
#include "report/mend.h"

static int code_of(const struct app_mend_answer *a) {
  switch (a->answer.mend->status) {
  case MEND_REFUSED:
    return EXIT_REFUSED;
  case MEND_NOT_LINEAR:
    return EXIT_USAGE;
  case MEND_NONE:
  case MEND_STOPPED:
    return EXIT_NONE_EXISTS;
  case MEND_FOUND:
    break;
  }
  return EXIT_COMPUTED;
}

static int show(const struct run *s, const struct app_mend_answer *a) {
  struct buf out;
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (s->options->json) {
    json_mend(&s->lib, a, &out);
  } else {
    report_mend(&s->lib, &a->answer, &s->style, &out);
  }
  int code = finish_answer(s, &out);
  return code != EXIT_COMPUTED ? code : code_of(a);
}

static void say_stopped(const struct run *s, const struct mended_answer *a) {
  if (!a->mend->stopped) return;
  if (a->count == 0)
    note(s, "the search ended before a change was found; that none exists is not proven");
  else if (a->found[0].proposal->fewest_proven)
    note(
        s,
        "the search was stopped; fewer lines do not suffice, but a smaller change of as many may exist, or other proposals");
  else
    note(s, "the search was stopped; the change meets everything, but a smaller one may exist");
}

int verb_mend(struct run *s) {
  struct app_mend_request q = {0};
  struct app_mend_answer a;
  struct progress bar;
  int code = ask_about(s, &q.check);
  if (code == EXIT_COMPUTED) code = read_recipe_and_larder(s, &q.check.recipe, &q.larder);
  if (code != EXIT_COMPUTED) return code;
  progress_start(&bar, s, "mending");
  bar.lines = true;
  q.go_on = progress_go_on;
  q.user = &bar;
  app_mend(&s->lib, &q, &a, s->arena);
  progress_end(&bar);
  show_recipe_diags(s, &a.check);
  show_diags(s, &a.check.animal_diags, s->arena);
  show_diags(s, &a.larder_diags, s->arena);
  show_diags(s, &a.request_diags, s->arena);
  if (!a.understood) return not_understood(&a.request_diags);
  say_stopped(s, &a.answer);
  return show(s, &a);
}
