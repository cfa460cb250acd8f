/* many.h: the verdicts of many bowls, counted: which nutrients are short how often, how many bowls hold a danger.
 *
 * Layer: words. A tally is plain bytes without pointers, so that it can pass from one process to another. */
#ifndef BW_WORDS_MANY_H
#define BW_WORDS_MANY_H

#include "words/verdicts.h"

enum { TALLY_LEAD_BYTES = 240 };

/* Of one text. All zero: it could not be read. */
struct tally {
  uint8_t read, judged, refused, dangers;
  uint8_t left_out;            /* what was fed and could not be counted */
  uint8_t group[NUT_COUNT];    /* enum group_id; of a judged one */
  char lead[TALLY_LEAD_BYTES]; /* the bowl in one row; "" of one that is not judged */
};

/* 'left_out': how many things a post named that could not be counted. */
void tally_of(const struct check_result *r, size_t left_out, struct tally *out, struct arena *arena);

struct many_file {
  const char *name;    /* in its folder */
  int code;            /* the exit code that it alone would have had; -1: not reached */
  const char *note;    /* what was complained of; "" */
  const char *written; /* the answer's file; "" none */
  struct tally tally;
};

struct many {
  const struct many_file *file; /* in the order of their names */
  size_t count, other;          /* files; those of the folder that are no texts */
  /* many_count */
  size_t reached, judged, refused, unread, uncounted, with_danger, all_met;
  size_t by[NUT_COUNT][GROUP_COUNT]; /* of the judged */
  enum nutrient order[NUT_COUNT];    /* those with a figure, most often short first, then unproven */
  size_t order_count;
};

void many_count(struct many *m);
/* "12 texts: 10 judged ...": the first sentences of a summary. */
const char *many_lead(const struct many *m, struct arena *arena);

#endif
