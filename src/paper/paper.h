/* paper.h: a sheet as PDF, set by pango and written by cairo: text that can be selected, fonts embedded, no line, row or box
 * that a page's end cuts through, the head of a table again on every page.
 *
 * Layer: paper. No files: bytes go into a buffer. */
#ifndef BW_PAPER_H
#define BW_PAPER_H

#include "sheet/sheet.h"

enum paper_outcome { PAPER_DONE, PAPER_NO_FONTS, PAPER_FAILED };
struct paper_told {
  int pages;
  int unknown_letters; /* that no font of this machine has */
  const char *why;     /* of PAPER_FAILED */
};

enum paper_outcome paper_pdf(const struct sheet *s, struct buf *out, struct paper_told *told);

#endif
