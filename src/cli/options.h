/* options.h: the command line as declared tables. One row of a table gives parsing, type check, help and "did you mean".
 *
 * Layer: cli. */
#ifndef BW_OPTIONS_H
#define BW_OPTIONS_H

#include "base/num.h"
#include "explain/asked.h"
#include "explain/side.h"

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

/* ORDER VERB: verb_spec[] in options.c. */
enum verb {
  VERB_CHECK,
  VERB_MEND,
  VERB_SWAP,
  VERB_COMPOSE,
  VERB_NEED,
  VERB_SIDE,
  VERB_FOODS,
  VERB_FOOD,
  VERB_LIBRARY,
  VERB_SERVE,
  VERB_COUNT
};

struct verb_spec {
  const char *word, *operands;
  const char *summary; /* one line, for the overview */
  const char *details; /* a paragraph, for --help */
  const char *example, *example_says;
  int least, most; /* operands; most -1: any number */
};
extern const struct verb_spec verb_spec[VERB_COUNT];

enum option_id {
  OPT_FOR,
  OPT_DOG,
  OPT_CAT,
  OPT_STANDARD,
  OPT_BASIS,
  OPT_SURE,
  OPT_ENERGY_BY,
  OPT_FOODS,
  OPT_LARDER,
  OPT_KEEP,
  OPT_NEVER,
  OPT_NO_SUPPLEMENTS,
  OPT_PROPOSALS,
  OPT_KCAL,
  OPT_AIM,
  OPT_EQUAL,
  OPT_ANY_PART,
  OPT_EVERYDAY,
  OPT_PATIENCE,
  OPT_WHY,
  OPT_RATIO,
  OPT_COOKED,
  OPT_FOOD,
  OPT_PER,
  OPT_STORE,
  OPT_PORT,
  OPT_LISTEN,
  OPT_BEYOND,
  OPT_PAGE,
  OPT_BACKUP,
  OPT_OPEN,
  OPT_STRICT,
  OPT_JSON,
  OPT_ALL,
  OPT_PLAIN,
  OPT_WIDTH,
  OPT_QUIET,
  OPT_LIBRARY,
  OPT_HELP,
  OPT_VERSION,
  OPT_COUNT
};

enum option_takes { TAKES_NOTHING, TAKES_TEXT, TAKES_WEIGHT, TAKES_WORD, TAKES_NUMBER, TAKES_COUNT, TAKES_PERCENT };

struct option_spec {
  const char *word; /* without the hyphens */
  enum option_takes takes;
  const char *value;        /* as shown in help: "KG"; NULL for a flag */
  unsigned verbs;           /* bit 1 << enum verb */
  double low, high;         /* TAKES_WEIGHT in kg, the numbers */
  const char *const *words; /* TAKES_WORD, by index */
  int word_count;
  const char *help;
};
extern const struct option_spec option_spec[OPT_COUNT];

struct text_list {
  const char **item;
  size_t count, cap;
};

struct options {
  bool any; /* anything was said at all */
  bool verb_given;
  enum verb verb;
  struct text_list operand; /* files or words, without the verb */
  struct text_list keep, never;
  const char *larder; /* NULL: none */
  const char *aim;    /* NULL: the larder's */
  bool any_part, equal_mass, everyday;
  double patience; /* seconds; NaN: not said */
  bool no_supplements;
  int proposals; /* 0: one */
  double kcal;   /* a day; NaN: not said */
  struct text_list for_whom, foods, why, food;
  const char *ratio; /* NULL: not asked */
  enum side_per per;
  bool per_given, cooked;
  double dog_kg, cat_kg; /* NaN when not given */
  struct check_options check;
  bool json, quiet, strict, plain, all, help, version;
  int width;                                  /* 0: the terminal's */
  const char *library;                        /* NULL: the usual places */
  const char *store, *listen, *page, *backup; /* NULL: not said */
  int port;                                   /* -1: not said; 0: any that is free */
  bool beyond, open;
};

/* False when the command line is not understood; 'complaint' then says what is wrong and what to type. */
bool options_parse(int argc, char **argv, struct options *out, struct buf *complaint, struct arena *arena) MUST_USE;

/* help.c */
void help_overview(struct buf *out);
void help_verb(enum verb v, struct buf *out);

#endif
