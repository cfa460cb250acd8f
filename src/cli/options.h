/* options.h: the command line as declared tables. One row of a table gives parsing, type check, help and "did you mean".
 *
 * A verb is a row of verb_spec[] (verbs.c); an option is a row with the field that it fills: of struct request what is
 * asked (request/request.h), of struct options what only a command line has. Layer: cli. */
#ifndef BW_OPTIONS_H
#define BW_OPTIONS_H

#include "request/request.h"

/* Exit codes: part of what scripts rely on. */
enum exit_code {
  EXIT_COMPUTED = 0,      /* whatever the verdict */
  EXIT_SHORT_OR_OVER = 1, /* computed, --strict, and something is short or over */
  EXIT_USAGE = 2,
  EXIT_NOT_UNDERSTOOD = 3, /* the input; nothing was computed */
  EXIT_REFUSED = 4,        /* for the animal's sake; composition only */
  EXIT_NONE_EXISTS = 5,    /* no recipe exists under these limits; the reason is shown */
  EXIT_TROUBLE = 6         /* a file, the library, the system */
};

struct run;
struct options;

struct verb_spec {
  const char *word, *operands;
  const char *summary; /* one line, for the overview */
  const char *details; /* a paragraph, for --help */
  const char *example, *example_says;
  int least, most; /* operands; most -1: any number */
  enum { OPERANDS_ARE_WORDS, OPERANDS_ARE_TEXTS, OPERANDS_ARE_ANIMALS } operands_are;
  const char *needs_animal; /* what the complaint says it is needed for; NULL: works without one, or the text may tell it */
  const char *exits;        /* what each exit code says, for --help */
  int (*run)(struct run *s);
};
extern const struct verb_spec verb_spec[VERB_COUNT];

/* Verbs that also answer every text of a folder (many.h). */
struct verb_of_many {
  const char *(*ending)(const struct options *o); /* of the name of a text's answer; NULL: the verb takes no folder */
  bool keeps_answers;                             /* it is asked for the sake of its answers: --out is needed */
};
extern const struct verb_of_many verb_of_many[VERB_COUNT];

enum { FORMAT_UNSAID = 2 };

struct options {
  bool any; /* anything was said at all */
  bool verb_given;
  enum verb verb;
  struct text_list operand; /* files or words, without the verb */
  struct request ask;
  struct text_list for_whom;
  double dog_kg, cat_kg; /* NaN when not given */
  struct text_list foods, food;
  const char *allowances; /* NULL: the built-in rows alone */
  bool worksheet, licences;
  const char *larder;  /* NULL: none */
  const char *out;     /* where answers go; NULL: standard output */
  int jobs;            /* 0: as many as there are cores */
  const char *svg;     /* of a check: the picture goes there; NULL: none is asked */
  unsigned int format; /* of a sheet: index of html|pdf; FORMAT_UNSAID */
  const char *journal; /* NULL: none */
  const char *add;     /* a line for the journal; NULL */
  bool csv;
  bool json, quiet, strict, plain, all, help, version;
  int width;           /* 0: the terminal's */
  const char *library; /* NULL: the usual places */
  /* serve */
  const char *store, *listen, *page, *backup; /* NULL: not said */
  int port;                                   /* -1: not said; 0: any that is free */
  bool beyond, open;
};

/* Every option of the command line, in the order of the help; NULL behind the last. */
const struct option *option_row(int i);

/* False when the command line is not understood; 'complaint' then says what is wrong and what to type. */
bool options_parse(int argc, char **argv, struct options *out, struct buf *complaint, struct arena *arena) MUST_USE;

/* help.c */
void help_greeting(struct buf *out); /* for whoever types the bare name: what to type first */
void help_overview(struct buf *out);
void help_verb(enum verb v, struct buf *out);

#endif
