/* bowlwright mend: the smallest change of a recipe after which everything is met. */
#define _POSIX_C_SOURCE 200809L
#include <signal.h>

#include "app/app_mend.h"
#include "cli/run.h"
#include "report/mend.h"

/* Ctrl-C ends the search and shows the best found so far; a second one ends the program. */
static volatile sig_atomic_t interrupted;

static void on_interrupt(int number) {
  (void)number;
  interrupted = 1;
}

static bool go_on(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)user;
  (void)best;
  (void)bound;
  (void)nodes;
  return !interrupted;
}

static void catch_interrupt(void) {
  struct sigaction once = {.sa_handler = on_interrupt, .sa_flags = (int)SA_RESETHAND};
  sigemptyset(&once.sa_mask);
  sigaction(SIGINT, &once, NULL);
}

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
  q->go_on = go_on;
  return EXIT_COMPUTED;
}

static int code_of(const struct app_mend_answer *a) {
  if (a->answer.mend->status == MEND_REFUSED) return EXIT_REFUSED;
  if (a->answer.mend->status == MEND_NOT_LINEAR) return EXIT_USAGE;
  return a->answer.mend->already_met || a->answer.count > 0 ? EXIT_COMPUTED : EXIT_NONE_EXISTS;
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

int verb_mend(struct run *s) {
  struct app_mend_request q = {0};
  struct app_mend_answer a;
  int code = ask(s, &q);
  if (code != EXIT_COMPUTED) return code;
  catch_interrupt();
  app_mend(&s->lib, &q, &a, s->arena);
  show_diags(s, &a.check.recipe_diags, s->arena);
  show_diags(s, &a.check.animal_diags, s->arena);
  show_diags(s, &a.larder_diags, s->arena);
  show_diags(s, &a.request_diags, s->arena);
  return a.understood ? show(s, &a) : EXIT_NOT_UNDERSTOOD;
}
