/* The program that sets paper is this one. */
#include "cli/run.h"
#include "paper/paper.h"

int paper_begin(const struct run *s) {
  (void)s;
  return EXIT_COMPUTED;
}

int paper_write(const struct run *s, const struct sheet *sheet, struct buf *out) {
  struct paper_told told = {0};
  switch (paper_pdf(sheet, out, &told)) {
  case PAPER_NO_FONTS:
    complain(
        "no font is installed on this machine; a PDF needs one, such as Debian's fonts-dejavu-core. HTML needs none: --out "
        "FILE.html");
    return EXIT_TROUBLE;
  case PAPER_FAILED:
    complain("the PDF could not be set: %s", out->cut ? "it is too long" : told.why);
    return EXIT_TROUBLE;
  case PAPER_DONE:
    break;
  }
  if (told.unknown_letters > 0)
    note(s, "%d characters are in no font on this machine and are drawn as boxes", told.unknown_letters);
  return EXIT_COMPUTED;
}
