/* scan.h: from bytes to lines, and from a line to words, numbers and marks. Shared by the readers of recipes, animals and
 * labels.
 *
 * Layer: text. Nothing here knows what a word means. Every span points into the text it came from, so that complaints
 * can name the place. */
#ifndef BW_SCAN_H
#define BW_SCAN_H

#include <math.h>

#include "text/diag.h"

/* ---- characters ---- */

/* Blanks as pasted texts have them: space, tab, no-break and thin spaces, zero-width and direction marks. */
bool is_blank_point(uint32_t code_point);
/* Without blanks of any kind at both ends. */
struct span trim_blanks(struct span s);
/* At most 40 characters of 's', for quoting in a message. */
struct span quoted(struct span s);

/* ---- a text and its lines ---- */

/* False, with every fault in 'd', when the text is too large, is not UTF-8, or holds NUL or control characters, or has a
 * line over 'line_most' bytes. */
bool text_fit(struct span text, size_t most_bytes, size_t line_most, struct diags *d) MUST_USE;

struct lines {
  struct span rest;
  int number; /* of the line last returned, from 1 */
};
struct lines lines_of(struct span text); /* steps over a byte order mark */
/* The next line without its end (LF, CRLF). */
bool lines_next(struct lines *l, struct span *line);
/* Cuts "# comment" off: a '#' at the start of the line or after a blank. */
struct span without_comment(struct span line);

/* ---- tokens ---- */

enum token_kind { TOKEN_NUMBER, TOKEN_FRACTION, TOKEN_WORD, TOKEN_MARK };

struct token {
  enum token_kind kind;
  bool no_quantity;  /* a word or mark with which none of those that quantity_at reads begins, as most are */
  bool no_frequency; /* the same of a reader of frequencies, once it has looked */
  struct span at;
  struct span word; /* words: in small letters, typographic hyphens and apostrophes made plain; arena */
  double value;     /* NUMBER as written, FRACTION (the sign for one half: 0.5); NaN for a number with too many digits */
  uint32_t mark;    /* MARK: the character, dashes as '-', fraction slashes as '/', the multiplication sign as 'x' */
  bool glued;       /* no blank between it and the token before */
  bool taken;       /* already understood */
  uint16_t known;   /* for a reader with a table of words: which of them it is; 0 not looked up yet */
  uint64_t classes; /* and a bit for each kind of word that it may be there; several kinds share one */
};

struct tokens {
  struct token *item;
  size_t count;
};
struct tokens tokens_of(struct span line, struct arena *arena);

/* How many tokens, from 'at' on and none of them taken, spell 'phrase' ("every other day", "90 % lean"); 0 if they do not.
 * A phrase is words and marks separated by single blanks. */
size_t phrase_spelled_at(const struct tokens *t, size_t at, const char *phrase);
/* Of a hundred phrases that are tried at a token, one or none begins with its first two letters. */
static inline bool phrase_may_begin(const struct token *k, const char *phrase) {
  struct span s = k->kind == TOKEN_WORD ? k->word : k->at;
  if (k->kind == TOKEN_MARK) return k->mark == (unsigned char)phrase[0];
  if (s.n == 0 || s.p[0] != phrase[0]) return false;
  return s.n > 1 ? s.p[1] == phrase[1] : phrase[1] == ' ' || phrase[1] == '\0';
}
static inline size_t phrase_at(const struct tokens *t, size_t at, const char *phrase) {
  return at < t->count && phrase_may_begin(&t->item[at], phrase) ? phrase_spelled_at(t, at, phrase) : 0;
}
/* The same of several phrases: the first that stands there. */
size_t any_of(const struct tokens *t, size_t at, const char *const *phrases, size_t count);
#define ANY_OF(t, at, ...)                                                                                                  \
  any_of((t), (at), (const char *const[]){__VA_ARGS__}, COUNT_OF(((const char *const[]){__VA_ARGS__})))
void take(struct tokens *t, size_t from, size_t count);
/* The tokens from 'from' to 'to' as a list of their own. */
static inline struct tokens tokens_part(const struct tokens *t, size_t from, size_t to) {
  return (struct tokens){t->item + from, to - from};
}
/* The text from the first to the last of 'count' tokens. */
struct span tokens_span(const struct tokens *t, size_t from, size_t count);

/* ---- amounts ---- */

enum quantity_fault {
  QUANTITY_FINE,
  QUANTITY_NONE,
  QUANTITY_COMMA,
  QUANTITY_NEGATIVE,
  QUANTITY_ZERO_DIVISOR,
  QUANTITY_DESCENDING,
  QUANTITY_TOO_LONG,
  QUANTITY_MALFORMED
};
struct quantity {
  enum quantity_fault fault;
  double low, high; /* equal unless a range was written */
  size_t tokens;    /* how many it took; for a fault: those the fault is about */
};
/* "2", "0.5", "1/2", "1 1/2", half sign, "2-3", "2 to 3", "a", "two", "half a", "one and a half", "a dozen". */
struct quantity quantity_read_at(const struct tokens *t, size_t at);
static inline struct quantity quantity_at(const struct tokens *t, size_t at) {
  if (at < t->count && !t->item[at].no_quantity) return quantity_read_at(t, at);
  return (struct quantity){QUANTITY_NONE, (double)NAN, (double)NAN, 0};
}
/* What 'no_quantity' says of a token that was just read. */
bool quantity_may_begin(const struct token *k);
/* Says what is wrong with it and what to type. */
void quantity_complain(const struct tokens *t, size_t at, struct quantity q, struct diags *d);

/* ---- words that are nearly known ---- */

/* Of the complaint added last: 'at' is nearly this word. */
void misspelt_fix(struct diags *d, struct span at, const char *meant);
/* The nearest of 'words' within a distance that a slip of the finger makes; NULL. */
const char *nearest_word(struct span word, const char *const *words, size_t count);

#endif
