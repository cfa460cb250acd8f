/* bowlwright mend: the smallest change of a recipe after which everything is met. */
#include "app/app_mend.h"
#include "cli/progress.h"
#include "cli/run.h"
#include "report/mend.h"

static const double PATIENCE = 60; /* seconds, unless said */

static int ask(struct run *s, struct app_mend_request *q) {
  const struct options *o = s->options;
  struct whom whom;
  int code = find_whom(s, &whom);
  if (code == EXIT_COMPUTED) code = read_text(o->operand.item[0], &q->check.recipe, s->arena);
  if (code == EXIT_COMPUTED && o->larder) code = read_text(o->larder, &q->larder, s->arena);
  if (code != EXIT_COMPUTED) return code;
  q->check.animals = whom.animals;
  q->check.for_name = whom.name;
  if (whom.is_one_off) {
    struct animal *one_off = ARENA_NEW(s->arena, struct animal, 1);
    *one_off = whom.one_off;
    q->check.one_off = one_off;
  }
  q->check.today = s->today;
  q->check.options = o->check;
  q->keep = o->keep.item;
  q->keeps = o->keep.count;
  q->never = o->never.item;
  q->nevers = o->never.count;
  q->no_supplements = o->no_supplements;
  q->proposals = o->proposals > 0 ? o->proposals : 1;
  q->energy_kcal = o->kcal;
  return EXIT_COMPUTED;
}

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
    buf_addc(&out, '\n');
  } else {
    report_mend(&s->lib, &a->answer, &s->style, &out);
  }
  int code = write_answer(&out);
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
    note(s, "the search was stopped; the change keeps everything, but a smaller one may exist");
}

int verb_mend(struct run *s) {
  struct app_mend_request q = {0};
  struct app_mend_answer a;
  struct progress bar;
  int code = ask(s, &q);
  if (code != EXIT_COMPUTED) return code;
  progress_start(&bar, s, "mending", s->options->patience > 0 ? s->options->patience : PATIENCE);
  bar.lines = true;
  q.go_on = progress_go_on;
  q.user = &bar;
  app_mend(&s->lib, &q, &a, s->arena);
  progress_end(&bar);
  show_diags(s, &a.check.recipe_diags, s->arena);
  show_diags(s, &a.check.animal_diags, s->arena);
  show_diags(s, &a.larder_diags, s->arena);
  show_diags(s, &a.request_diags, s->arena);
  if (!a.understood) return EXIT_NOT_UNDERSTOOD;
  say_stopped(s, &a.answer);
  return show(s, &a);
}
