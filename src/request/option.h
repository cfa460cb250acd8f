/* option.h: an option is a row: its word, what it takes, and the field of a struct that it fills. Whoever reads options, a
 * command line or a text of "key=value" lines, reads them by such rows; so does whoever explains them.
 *
 * Layer: request. Pure. */
#ifndef BW_OPTION_H
#define BW_OPTION_H

#include "base/arena.h"
#include "base/buf.h"
#include "text/date.h"

/* ORDER OPTION_KIND: READ[] in option.c. */
enum option_kind {
  OPTION_FLAG,    /* bool */
  OPTION_TEXT,    /* const char *; NULL: not said */
  OPTION_TEXTS,   /* struct text_list: may be given several times */
  OPTION_WEIGHT,  /* double, kg */
  OPTION_NUMBER,  /* double */
  OPTION_COUNT,   /* int */
  OPTION_PERCENT, /* double, as a share: 75 is 0.75 */
  OPTION_WORD,    /* an enum, by the index of the word */
  OPTION_DATE,    /* struct date */
  OPTION_KINDS
};

struct text_list {
  const char **item;
  size_t count, cap;
};

struct option {
  const char *word; /* without the hyphens */
  enum option_kind kind;
  size_t at;         /* the field's offset */
  const char *value; /* what it takes, as help shows it: "KG"; NULL for a flag and for a word, which shows its words */
  unsigned verbs;    /* bit 1 << enum verb (request.h); 0: not of the command line */
  const char *help;  /* NULL as long as verbs is 0 */
  double low, high;  /* kg, per cent, the numbers */
  const char *const *words; /* OPTION_WORD, by index */
  int word_count;
};

/* "kind, at" of a row; a field of a type that the kind does not fill does not compile. */
#define OPTION_TO(kind, type, field)                                                                                        \
  OPTION_##kind, (offsetof(type, field) + 0 * sizeof(char[_Generic(((type *)0)->field, OPTION_FILLS_##kind : 1, default     \
                                                                   : -1)]))
#define OPTION_FILLS_FLAG bool
#define OPTION_FILLS_TEXT const char *
#define OPTION_FILLS_TEXTS struct text_list
#define OPTION_FILLS_WEIGHT double
#define OPTION_FILLS_NUMBER double
#define OPTION_FILLS_COUNT int
#define OPTION_FILLS_PERCENT double
#define OPTION_FILLS_WORD unsigned int
#define OPTION_FILLS_DATE struct date

/* Reads a value and stores it in the struct at 'into'. False: 'complaint' says what the option takes, with 'before' ("--" or
 * "") in front of its word. Texts are borrowed. */
bool option_read(const struct option *o, const char *text, void *into, const char *before, struct buf *complaint,
                 struct arena *arena) MUST_USE;
/* What help shows behind the word: "KG", "weight|energy"; nothing for a flag. */
void option_value(const struct option *o, struct buf *out);
/* The known word that begins with what was typed, else one that is a slip or two away; NULL. */
const char *option_nearest_word(struct span word, const char *const *words, int count);

#endif
