/* bowlwright: the command line. Reads the options and files, calls a use case, writes the answer. */
#define _POSIX_C_SOURCE 200809L
#include <signal.h>

#include "cli/many.h"
#include "judge/memory.h"

static int read_own_foods(struct run *s) {
  for (size_t i = 0; i < s->options->foods.count; i++) {
    struct app_input labels;
    struct diags d;
    int code = read_text(s->options->foods.item[i], &labels, s->arena);
    if (code != EXIT_COMPUTED) return code;
    bool understood = app_add_foods(&s->lib, &labels, &d, s->arena);
    show_diags(s, &d, s->arena);
    if (!understood) return EXIT_NOT_UNDERSTOOD;
  }
  return EXIT_COMPUTED;
}

static int read_own_allowances(struct run *s) {
  struct app_input rows;
  struct diags d;
  if (!s->options->allowances) return EXIT_COMPUTED;
  int code = read_text(s->options->allowances, &rows, s->arena);
  if (code != EXIT_COMPUTED) return code;
  bool understood = app_add_allowances(&s->lib, &rows, &d, s->arena);
  show_diags(s, &d, s->arena);
  return understood ? EXIT_COMPUTED : EXIT_NOT_UNDERSTOOD;
}

static int run(const struct options *o, char **argv, struct arena *arena) {
  struct run s = {.options = o, .verb = &verb_spec[o->verb], .argv = argv, .style = terminal_style(o), .arena = arena};
  int code = today(&s.today);
  if (code == EXIT_COMPUTED && o->verb == VERB_SHEET) code = sheet_begin(&s);
  /* The served page brings its own library, and a journal keeps words. */
  bool reckons = o->verb != VERB_SERVE && o->verb != VERB_JOURNAL;
  if (reckons) keep_memory();
  if (code == EXIT_COMPUTED && reckons) code = open_library(o->library, &s.lib, arena);
  if (code == EXIT_COMPUTED) code = read_own_foods(&s);
  if (code == EXIT_COMPUTED) code = read_own_allowances(&s);
  if (code != EXIT_COMPUTED) return code;
  if (many_is_asked(&s)) return many_run(&s);
  if (o->out && o->verb != VERB_SHEET) {
    complain("--out goes with a folder of texts; one answer goes to standard output: '> FILE'");
    return EXIT_USAGE;
  }
  s.lib.judged = judge_memory_new(arena); /* one bowl is judged again with each remedy that is tried */
  return s.verb->run(&s);
}

static int say_help(const struct options *o, struct arena *arena) {
  struct buf out;
  buf_init(&out, arena, ANSWER_MOST_BYTES);
  if (o->version) {
    buf_adds(&out, "bowlwright " BW_VERSION "\n");
  } else if (o->verb_given) {
    help_verb(o->verb, &out);
  } else if (!o->any) {
    help_greeting(&out);
  } else {
    help_overview(&out);
  }
  return write_answer(&out);
}

static int usage(const struct options *o, struct buf *complaint) {
  complain("%s", buf_text(complaint));
  if (o->verb_given) {
    complain("'bowlwright %s --help' explains it", verb_spec[o->verb].word);
  } else {
    complain("'bowlwright --help' lists the verbs");
  }
  return EXIT_USAGE;
}

int main(int argc, char **argv) {
  struct arena arena;
  struct options o;
  struct buf complaint;
  int code;
  /* A closed pipe is an error of write, not the end of the process. */
  signal(SIGPIPE, SIG_IGN);
  arena_init(&arena, out_of_memory);
  buf_init(&complaint, &arena, 64 * 1024);
  if (!options_parse(argc, argv, &o, &complaint, &arena)) {
    code = usage(&o, &complaint);
  } else if (o.help || o.version || !o.any) {
    code = say_help(&o, &arena);
  } else {
    code = run(&o, argv, &arena);
  }
  arena_free(&arena);
  return code;
}
