/* Writes the man page or a shell's completions from the rows that read the command line, so that they cannot fall behind.
 * Usage: bowlwright-pages man|bash|zsh|fish > FILE */
#include <stdio.h>

#include "cli/options.h"
#include "cli/system.h"

/* ---- man ---- */

/* roff reads a point or an apostrophe at the start of a line, and every backslash and hyphen, as its own. */
static void roff(struct buf *out, const char *text) {
  bool first = true;
  for (const char *p = text; *p; p++) {
    if (first && (*p == '.' || *p == '\'')) buf_adds(out, "\\&");
    first = *p == '\n';
    if (*p == '\\') {
      buf_adds(out, "\\e");
    } else if (*p == '-') {
      buf_adds(out, "\\-");
    } else {
      buf_addc(out, *p);
    }
  }
}

static void paragraph(struct buf *out, const char *text) {
  roff(out, text);
  buf_addc(out, '\n');
}

static void man_option(struct buf *out, const struct option *o) {
  buf_adds(out, ".TP\n\\fB");
  roff(out, "--");
  roff(out, o->word);
  buf_adds(out, "\\fR");
  if (o->kind != OPTION_FLAG) {
    buf_adds(out, " \\fI");
    option_value(o, out);
    buf_adds(out, "\\fR");
  }
  buf_addc(out, '\n');
  paragraph(out, o->help);
}

static bool of_every_verb(const struct option *o) { return o->verbs == ALL_VERBS; }

static void man_verb(struct buf *out, enum verb v) {
  const struct verb_spec *s = &verb_spec[v];
  const struct option *o;
  buf_addf(out, ".SH BOWLWRIGHT %s\n\\fBbowlwright %s\\fR %s [options]\n.PP\n", s->word, s->word, s->operands);
  paragraph(out, s->details);
  buf_adds(out, ".PP\nExample:\n.PP\n.nf\n.RS\n");
  paragraph(out, s->example);
  buf_adds(out, ".RE\n.fi\n");
  for (int i = 0; (o = option_row(i)); i++)
    if ((o->verbs & (1U << v)) && !of_every_verb(o)) man_option(out, o);
  buf_adds(out, ".PP\n");
  paragraph(out, s->exits);
}

static void man(struct buf *out) {
  const struct option *o;
  buf_adds(out, ".TH BOWLWRIGHT 1 \"\" \"bowlwright " BW_VERSION "\" \"User commands\"\n.SH NAME\n");
  paragraph(out, "bowlwright - does a home-prepared ration give one adult dog or cat what it needs?");
  buf_adds(out, ".SH SYNOPSIS\n\\fBbowlwright\\fR \\fIVERB\\fR [operands] [options]\n.SH DESCRIPTION\n");
  paragraph(out, "Reads a home-prepared recipe as its owner wrote it, and says what it gives one healthy adult dog or cat "
                 "beside what the animal needs, how sure each figure is, what falls short or goes over, and the change that "
                 "mends it. It is not for growing, pregnant, nursing or ill animals, and does not replace a veterinarian.");
  buf_adds(out, ".SH VERBS\n");
  for (int v = 0; v < VERB_COUNT; v++) {
    buf_addf(out, ".TP\n\\fB%s\\fR\n", verb_spec[v].word);
    paragraph(out, verb_spec[v].summary);
  }
  buf_adds(out, ".SH OPTIONS OF EVERY VERB\n");
  for (int i = 0; (o = option_row(i)); i++)
    if (of_every_verb(o)) man_option(out, o);
  for (int v = 0; v < VERB_COUNT; v++) man_verb(out, (enum verb)v);
  buf_adds(out, ".SH ENVIRONMENT\n.TP\n\\fBBOWLWRIGHT_LIBRARY\\fR\n");
  paragraph(out, "The food library, where it does not stand beside the program.");
  buf_adds(out, ".SH CAUTIONS\n");
  paragraph(out, "Raw meat carries bacteria: wash hands and boards, and ask a doctor before feeding it in a home with small "
                 "children or people with weak immunity. Never feed cooked bones. If an animal seems unwell, see a "
                 "veterinarian.");
}

/* ---- completions ---- */

static void option_words(struct buf *out, enum verb v) {
  const struct option *o;
  for (int i = 0; (o = option_row(i)); i++)
    if (o->verbs & (1U << v)) buf_addf(out, " --%s", o->word);
}

static void value_words(struct buf *out, const struct option *o) {
  for (int k = 0; k < o->word_count; k++) buf_addf(out, "%s%s", k > 0 ? " " : "", o->words[k]);
}

/* A case of bash: completes with the words that 'words' writes. */
static void bash_case(struct buf *out, const char *before, const char *word) {
  buf_addf(out, "    %s%s) mapfile -t COMPREPLY < <(compgen -W '", before, word);
}

static void bash(struct buf *out) {
  static const char END_CASE[] = "' -- \"$word\"); return ;;\n";
  const struct option *o;
  buf_adds(out, "# bash completion for bowlwright\n"
                "_bowlwright() {\n"
                "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
                "  COMPREPLY=()\n"
                "  if ((COMP_CWORD == 1)); then before=bowlwright; fi\n"
                "  case $before in\n");
  bash_case(out, "", "bowlwright");
  for (int v = 0; v < VERB_COUNT; v++) buf_addf(out, "%s ", verb_spec[v].word);
  buf_adds(out, "--help --version");
  buf_adds(out, END_CASE);
  for (int i = 0; (o = option_row(i)); i++) {
    if (o->verbs == 0 || !o->words) continue;
    bash_case(out, "--", o->word);
    value_words(out, o);
    buf_adds(out, END_CASE);
  }
  buf_adds(out, "  esac\n"
                "  if [[ $word != -* ]]; then mapfile -t COMPREPLY < <(compgen -f -- \"$word\"); return; fi\n"
                "  case ${COMP_WORDS[1]} in\n");
  for (int v = 0; v < VERB_COUNT; v++) {
    bash_case(out, "", verb_spec[v].word);
    option_words(out, (enum verb)v);
    buf_adds(out, END_CASE);
  }
  buf_adds(out, "  esac\n}\ncomplete -o filenames -F _bowlwright bowlwright\n");
}

/* Text within single quotes of zsh or fish; brackets and colons would end a description of zsh. */
static void quoted(struct buf *out, const char *text) {
  for (const char *p = text; *p; p++) {
    if (*p == '\'') {
      buf_adds(out, "'\\''");
    } else {
      buf_addc(out, *p == '[' || *p == ']' || *p == ':' ? ' ' : *p);
    }
  }
}

static void zsh_option(struct buf *out, const struct option *o) {
  buf_addf(out, " \\\n  '*--%s[", o->word);
  quoted(out, o->help);
  buf_addc(out, ']');
  if (o->kind != OPTION_FLAG) {
    buf_addc(out, ':');
    option_value(o, out);
    buf_addc(out, ':');
  }
  if (o->words) {
    buf_addc(out, '(');
    value_words(out, o);
    buf_addc(out, ')');
  } else if (o->kind != OPTION_FLAG) {
    buf_adds(out, "_files");
  }
  buf_addc(out, '\'');
}

static void zsh(struct buf *out) {
  const struct option *o;
  buf_adds(out, "#compdef bowlwright\nlocal -a verbs\nverbs=(\n");
  for (int v = 0; v < VERB_COUNT; v++) {
    buf_addf(out, "  '%s:", verb_spec[v].word);
    quoted(out, verb_spec[v].summary);
    buf_adds(out, "'\n");
  }
  buf_adds(out, ")\nif ((CURRENT == 2)); then\n  _describe 'verb' verbs\n  return\nfi\ncase $words[2] in\n");
  for (int v = 0; v < VERB_COUNT; v++) {
    buf_addf(out, "%s) _arguments", verb_spec[v].word);
    for (int i = 0; (o = option_row(i)); i++)
      if (o->verbs & (1U << v)) zsh_option(out, o);
    buf_adds(out, " \\\n  '*:file:_files' ;;\n");
  }
  buf_adds(out, "esac\n");
}

static void fish(struct buf *out) {
  const struct option *o;
  for (int v = 0; v < VERB_COUNT; v++) {
    buf_addf(out, "complete -c bowlwright -n __fish_use_subcommand -f -a %s -d '", verb_spec[v].word);
    quoted(out, verb_spec[v].summary);
    buf_adds(out, "'\n");
    for (int i = 0; (o = option_row(i)); i++) {
      if (!(o->verbs & (1U << v))) continue;
      buf_addf(out, "complete -c bowlwright -n '__fish_seen_subcommand_from %s' -l %s%s -d '", verb_spec[v].word, o->word,
               o->kind != OPTION_FLAG ? " -r" : "");
      quoted(out, o->help);
      buf_adds(out, "'\n");
    }
  }
}

int main(int argc, char **argv) {
  static const struct {
    const char *word;
    void (*write)(struct buf *out);
  } PAGES[] = {{"man", man}, {"bash", bash}, {"zsh", zsh}, {"fish", fish}};
  struct arena arena;
  struct buf out;
  int code = EXIT_USAGE;
  arena_init(&arena, out_of_memory);
  buf_init(&out, &arena, ANSWER_MOST_BYTES);
  for (size_t i = 0; argc == 2 && i < COUNT_OF(PAGES); i++) {
    if (strcmp(argv[1], PAGES[i].word) != 0) continue;
    PAGES[i].write(&out);
    code = write_answer(&out);
  }
  if (code == EXIT_USAGE) complain("usage: bowlwright-pages man|bash|zsh|fish");
  arena_free(&arena);
  return code;
}
