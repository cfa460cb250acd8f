/* reply.h: the answer that somebody pastes under an owner's post: what is dangerous, what was asked and what matters most,
 * what to change and how, why, what is good, what only the owner can say, how sure this is. Every figure in it is one that
 * the check holds; it names nobody.
 *
 * Layer: report. */
#ifndef BW_REPORT_REPLY_H
#define BW_REPORT_REPLY_H

#include "base/buf.h"
#include "change/mended.h"
#include "judge/owners_question.h"
#include "post/post.h"

struct reply_facts {
  const struct library *lib;
  const struct check_result *check;    /* with the written review */
  const struct mended *mended;         /* the change that is proposed; NULL: none was found, or none is needed */
  const struct mended *foods_only;     /* another that does it without supplements, where that is good; NULL */
  const char *unlike;                  /* REPLY_ANOTHER_DINNER: of what too little is left */
  enum reply_why_none why_none;        /* without a change */
  const struct owners_question *asked; /* what the owner asks, in the order of the post */
  size_t asks;
  bool cooked_told; /* the owner says that it is cooked, if not in its lines */
  double scaled; /* what the amounts of 'mended' begin with, as a share of the owner's; 0: they are the owner's */
  bool in_grams; /* 'mended' begins with the owner's shares as grams */
  const struct cooked_first *cooked; /* lines that 'mended' begins with as cooked */
  size_t cooked_count;
  const struct plate_line *plate; /* lines that 'mended' begins with as set right */
  size_t plate_count;
  const char *plate_words;
  const struct left_out *left_out; /* dangerous lines that 'mended' begins without */
  size_t left_out_count;
  const struct post_question *const *question; /* most telling first */
  size_t questions;
};

enum reply_length { REPLY_LETTER, REPLY_LINES, REPLY_FULL };

struct reply_style {
  enum reply_length length;
  int lines;        /* of REPLY_LINES, at least 1 */
  bool plain;       /* no Markdown */
  const char *sign; /* NULL: unsigned */
};

/* A letter has 200 to 400 words where there is so much to say; "lines" exactly as many lines or fewer; the full answer every
 * finding and a table of the figures. */
void report_reply(const struct reply_facts *f, const struct reply_style *style, struct buf *out);

#endif
