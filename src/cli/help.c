/* The help texts, made from the same tables that read the command line. */
#include "cli/options.h"

enum { HELP_WIDTH = 79, OPTION_COLUMN = 26 };

/* Words of 'text', wrapped, every line but the first indented; the cursor already stands at column 'indent'. */
static void add_wrapped(struct buf *out, const char *text, size_t indent) {
  size_t column = indent;
  struct span rest = span_of(text);
  while (rest.n > 0) {
    const char *blank = memchr(rest.p, ' ', rest.n);
    size_t n = blank ? (size_t)(blank - rest.p) : rest.n;
    if (column > indent && column + 1 + n > HELP_WIDTH) {
      buf_addc(out, '\n');
      buf_repeat(out, " ", indent);
      column = indent;
    } else if (column > indent) {
      buf_addc(out, ' ');
      column++;
    }
    buf_add(out, span_cut(rest, 0, n));
    column += n;
    rest = span_cut(rest, blank ? n + 1 : n, rest.n);
  }
  buf_addc(out, '\n');
}

static void add_example(struct buf *out, const char *command, const char *says) {
  buf_addf(out, "  %s\n      %s\n", command, says);
}

void help_overview(struct buf *out) {
  add_wrapped(
      out,
      "Bowlwright works out whether a home-prepared ration gives one healthy adult dog or cat what it needs, shows where "
      "every number comes from, and says plainly what nobody knows.",
      0);
  buf_adds(out, "\nTry:\n\n");
  add_example(out, verb_spec[VERB_CHECK].example, verb_spec[VERB_CHECK].example_says);
  add_example(out, verb_spec[VERB_NEED].example, verb_spec[VERB_NEED].example_says);
  add_example(out, verb_spec[VERB_FOODS].example, verb_spec[VERB_FOODS].example_says);
  buf_adds(out, "\nVerbs:\n\n");
  for (int v = 0; v < VERB_COUNT; v++) {
    buf_addf(out, "  %s", verb_spec[v].word);
    buf_repeat(out, " ", 10 - strlen(verb_spec[v].word));
    buf_addf(out, "%s\n", verb_spec[v].summary);
  }
  buf_adds(out, "\n'bowlwright VERB --help' explains one of them.\nA recipe is plain text, one food a line:\n\n"
                "  Recipe: Weeknight bowl\n"
                "  For: Juniper\n\n"
                "  300 g lamb shoulder, raw\n"
                "  2 large eggs, every other day\n"
                "  20 g lamb liver\n");
}

/* Everything here can be typed as it stands, wherever the program is: no file of ours is needed. */
void help_greeting(struct buf *out) {
  add_wrapped(out,
              "Bowlwright works out whether a home-prepared ration gives one healthy adult dog or cat what it needs, and "
              "what would mend it.",
              0);
  buf_adds(out, "\nType this first, with the weight of your dog (or --cat 4.6kg):\n\n"
                "  bowlwright check - --dog 18kg\n\n"
                "then what goes into a day's bowl, one food a line, and Ctrl-D at the end:\n\n"
                "  300 g lamb shoulder, raw\n"
                "  20 g lamb liver\n"
                "  1 large egg, every other day\n\n"
                "When the bowl is in a file:\n\n");
  add_example(out, "bowlwright check bowl.txt --dog 18kg", "is it enough?");
  add_example(out, "bowlwright mend bowl.txt --dog 18kg", "the smallest change after which it is");
  add_example(out, "bowlwright reply post.txt --posted", "a bowl as somebody posted it: the answer to paste under it");
  add_example(out, "bowlwright serve", "all of it as a page in your browser, on this machine only");
  buf_adds(
      out,
      "\n'bowlwright --help' lists all that it can do, 'bowlwright VERB --help' explains\none of them with an example.\n");
}

static void add_option(struct buf *out, const struct option *s) {
  size_t before = out->n;
  buf_addf(out, "  --%s", s->word);
  if (s->kind != OPTION_FLAG) buf_addc(out, ' ');
  option_value(s, out);
  size_t used = out->n - before;
  if (used + 2 > OPTION_COLUMN) {
    buf_addc(out, '\n');
    used = 0;
  }
  buf_repeat(out, " ", OPTION_COLUMN - used);
  add_wrapped(out, s->help, OPTION_COLUMN);
}

void help_verb(enum verb v, struct buf *out) {
  const struct verb_spec *s = &verb_spec[v];
  buf_addf(out, "bowlwright %s%s%s [options]\n\n", s->word, s->operands[0] ? " " : "", s->operands);
  add_wrapped(out, s->details, 0);
  buf_adds(out, "\nExample:\n\n");
  add_example(out, s->example, s->example_says);
  buf_adds(out, "\nOptions:\n\n");
  const struct option *o;
  for (int i = 0; (o = option_row(i)); i++)
    if (o->verbs & (1U << v)) add_option(out, o);
  buf_addc(out, '\n');
  add_wrapped(out, s->exits, 0);
}
