/* bowlwright swap: one line of a recipe against every food that could stand in its place. */
#include "app/app_swap.h"
#include "cli/run.h"
#include "report/swap.h"

enum { HITS_SHOWN = 10, HITS_ALL = 100 };

static int ask(struct run *s, struct app_swap_request *q) {
  const struct options *o = s->options;
  int code = ask_about(s, &q->check);
  if (code == EXIT_COMPUTED) code = read_recipe_and_larder(s, &q->check.recipe, &q->larder);
  struct buf line;
  buf_init(&line, s->arena, 4096);
  for (size_t i = 1; i < o->operand.count; i++) buf_addf(&line, "%s%s", i > 1 ? " " : "", o->operand.item[i]);
  q->check.ask.line = buf_text(&line);
  q->check.ask.most = o->all ? HITS_ALL : HITS_SHOWN;
  return code;
}

int verb_swap(struct run *s) {
  struct app_swap_request q = {0};
  struct app_swap_answer a;
  struct buf out;
  int code = ask(s, &q);
  if (code != EXIT_COMPUTED) return code;
  app_swap(&s->lib, &q, &a, s->arena);
  show_recipe_diags(s, &a.check);
  show_diags(s, &a.check.animal_diags, s->arena);
  show_diags(s, &a.larder_diags, s->arena);
  show_diags(s, &a.line_diags, s->arena);
  if (!a.swapped && s->options->operand.count < 2 && a.line_diags.errors > 0) return EXIT_USAGE;
  if (!a.swapped) return not_understood(&a.check.animal_diags);
  buf_init(&out, s->arena, ANSWER_MOST_BYTES);
  if (s->options->json) {
    json_swap(&s->lib, a.swapped, &out);
  } else {
    report_swap(&s->lib, a.swapped, &s->style, &out);
  }
  code = finish_answer(s, &out);
  return code != EXIT_COMPUTED ? code : a.swapped->refused ? EXIT_REFUSED : EXIT_COMPUTED;
}
