/* headers.h: lines "Key: value", read by a table: one table a text (recipe, animal, label, larder), one row a key.
 *
 * A row says how the key is spelled, what a value looks like, and what reads it. What all of them have in common is here: a
 * key that is nearly known, nothing behind the colon, a second value, one number, words that are left over. Layer: text. */
#ifndef BW_HEADERS_H
#define BW_HEADERS_H

#include "text/scan.h"

struct header {
  struct span key, value; /* trimmed; value may be empty */
};
/* False when the line has no colon after one to five words. The comment must be off already. */
bool header_split(struct span line, struct header *out);

struct header_row;
/* What the reader of a row is given. */
struct header_value {
  const struct header_row *row;
  struct span line, value;
  struct tokens t; /* of the value */
  struct diags *d;
  struct arena *arena;
  void *reader; /* whoever reads the text */
  void *into;   /* what its lines describe */
};

struct header_row {
  const char *word;                     /* "Makes"; a row without a word is read by no key */
  const char *also;                     /* other spellings, '|' between them; NULL none */
  const char *leads;                    /* words that are not read as this one, but asked "did you mean"; NULL none */
  const char *example;                  /* "Makes: 3 days" */
  void (*read)(struct header_value *v); /* NULL: nothing is kept of it */
  size_t to;                            /* of header_text: the member that is filled */
  bool repeats;                         /* may stand more than once */
  bool near_foods;                      /* a word that is nearly this one is more likely a food: "Seeds" */
};

struct header_reader {
  const struct header_row *row;
  size_t rows;
  enum diag_level empty; /* how bad it is that nothing stands behind the colon */
  const char *again;     /* behind "a second 'Makes'": what to do about it */
  struct diags *d;
  struct arena *arena;
  struct span *seen; /* [rows] the values read; p NULL: none yet */
  void *reader, *into;
};

/* The row whose key this is (case, hyphens and double blanks do not matter); -1. */
int header_row_of(const struct header_reader *r, struct span key);
/* The row that was probably meant; -1. With 'foods', no row that a food's name may be near. */
int header_near(const struct header_reader *r, struct span key, bool foods);
/* False after a complaint: the value is missing or a second one. */
bool header_accept(struct header_reader *r, int row, struct header h, struct span line);
void header_read(struct header_reader *r, int row, struct span value, struct span line);
/* Both. */
void header_take(struct header_reader *r, int row, struct header h, struct span line);
/* "unknown header 'Totl' TAIL; did you mean 'Total'?" or what the headers are. */
void header_unknown(const struct header_reader *r, struct span key, enum diag_level level, const char *tail);

/* ---- values ---- */

/* Keeps the words: *(const char **) at 'to'. */
void header_text(struct header_value *v);
/* The one number that 't' begins with, and how many tokens it took; NaN after a complaint at 'value'. */
double value_number(struct diags *d, const struct tokens *t, struct span value, const char *example, size_t *used);
/* What follows must be nothing, or a full stop; else false, after a complaint. */
bool value_ends(struct diags *d, const struct tokens *t, size_t at, const char *example);
/* "'powder' is not a part; the words are muscle, bone ..." */
void value_words(struct diags *d, struct span value, const char *what, const char *const *words, int count);

#endif
