/* diag.h: what is wrong with a text, where, and what to type instead. All of it at once.
 *
 * Printed as   dinner.txt:3:8: unknown unit 'tbs'; did you mean 'tbsp'?   (columns count characters, not bytes, from 1)
 * Layer: text. */
#ifndef BW_DIAG_H
#define BW_DIAG_H

#include "base/buf.h"

enum diag_level { DIAG_ERROR, DIAG_WARNING };

/* What can be done about a complaint goes by its code, never by its words. ORDER DIAG_CODE: diag_code_key[] in diag.c. */
enum diag_code {
  DIAG_MISSPELT,       /* a word that is nearly a known one */
  DIAG_NO_FOOD,        /* a line that may be no ingredient at all: a greeting, a remark */
  DIAG_UNKNOWN_FOOD,   /* no food record fits, though some are near */
  DIAG_NOT_IN_LIBRARY, /* none is even near: a food of one's own, or no food at all */
  DIAG_LABEL_NEEDED,   /* only the product's label can tell */
  DIAG_NO_WEIGHT,      /* an amount that does not become grams */
  DIAG_WHICH_ANIMAL,   /* several, and none is named; or a name that none of them has */
  DIAG_ANIMAL_NEEDED,  /* none was given */
  DIAG_DANGER,         /* what is written must not be fed */
  DIAG_NUMBER,         /* a number that is missing, malformed, a range or out of bounds */
  DIAG_UNIT,           /* a unit that is unknown, or does not fit */
  DIAG_NO_AMOUNT,      /* a line with a food and no amount */
  DIAG_TWICE,          /* said a second time, or against what was said before */
  DIAG_EMPTY,          /* nothing where something must stand */
  DIAG_UNKNOWN_WORD,   /* none of the words that may stand there */
  DIAG_NOT_UNDERSTOOD, /* words that are left over */
  DIAG_COOKING,        /* how it is cooked is not known, or goes against the record */
  DIAG_LIMIT,          /* too long, too many, too large */
  DIAG_NOT_FOUND,      /* what is named by its words or number is not there */
  DIAG_SEVERAL,        /* or is there more than once */
  DIAG_DATE,           /* no such day, a day still to come, days out of order */
  DIAG_ASSUMED,        /* read in one of several ways, which is told: the answer rests on it */
  DIAG_DOUBTFUL,       /* read, though it can hardly be meant so */
  DIAG_NOT_TEXT,       /* bytes that plain UTF-8 text does not have */
  DIAG_PERIOD,         /* more days than are judged at once */
  DIAG_LEFT_OPEN,      /* one of several foods, and it is not said which */
  DIAG_REQUEST,        /* not of a text: what was asked beside them cannot be asked */
  DIAG_CODE_COUNT
};
extern const char *const diag_code_key[DIAG_CODE_COUNT];

/* One thing that may be typed instead. */
struct diag_fix {
  int line, column;  /* where, as of a complaint */
  int width;         /* characters that give way to it; 0: nothing does */
  const char *write; /* may hold a line end: a line of its own */
  const char *label; /* for people: "tbsp", "Lamb, liver, raw" */
};

struct diag {
  enum diag_level level;
  enum diag_code code;
  int line, column;    /* 1-based; 0 for "the whole text" */
  int width;           /* characters the complaint is about, at least 1 */
  const char *message; /* what was found and what to type */
  const char *brief;   /* the same where the fixes are offered beside it */
  const char *more;    /* of a brief that leaves something for a second look: what; NULL */
  struct diag_fix *fix;
  size_t fixes, fix_cap;
};

struct diags {
  struct arena *arena;
  const char *file; /* as the person named it; "-" is shown as "standard input" */
  struct span text; /* the whole text, for the excerpt */
  struct diag *item;
  size_t count, cap;
  size_t errors;
  size_t last; /* place of the complaint added last; 'count' or more: it was not kept */
};

enum { DIAG_MOST = 200 }; /* further ones are counted, not kept */

void diags_init(struct diags *d, struct arena *arena, const char *file, struct span text);
/* 'at' points into d->text. */
void diag_say(struct diags *d, enum diag_level level, enum diag_code code, struct span at, const char *fmt, ...)
    PRINTF_LIKE(5, 6);
/* A complaint about the same text that was made elsewhere, with what may be typed instead; 'behind': a sentence more, or "".
 */
void diag_again(struct diags *d, const struct diag *x, enum diag_level level, const char *behind);
/* Of the complaint added last. 'at' points into d->text; of no characters: 'write' is put in there. */
void diag_code(struct diags *d, enum diag_code code);
void diag_fix(struct diags *d, struct span at, const char *write, const char *label);
void diag_brief(struct diags *d, const char *fmt, ...) PRINTF_LIKE(2, 3);
void diag_more(struct diags *d, const char *fmt, ...) PRINTF_LIKE(2, 3);
/* One line each; with 'excerpt' the source line and a mark under the place follow. */
void diags_print(const struct diags *d, struct buf *out, bool excerpt);
/* 'hint': by code, what only the caller has to offer, put behind the message; NULL none. */
void diags_print_with(const struct diags *d, struct buf *out, bool excerpt, const char *const hint[DIAG_CODE_COUNT]);

#endif
