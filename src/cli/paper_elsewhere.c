/* A sheet on paper: handed to the program that can set one. Its libraries (cairo, pango and what they need) take the loader
 * longer than most answers take; nobody but a sheet as PDF needs them. */
#define _POSIX_C_SOURCE 200809L
#include <errno.h>
#include <unistd.h>

#include "cli/run.h"

int paper_begin(const struct run *s) {
  static const char *const PLACES[] = {"bowlwright-sheet", "../libexec/bowlwright/bowlwright-sheet", NULL};
  const char *program = find_near_program(PLACES, s->arena);
  if (!program) {
    complain("the part of the program that writes PDF, '%s', is not here; 'make build' makes it where cairo and pango are "
             "installed. HTML needs none of it: --out FILE.html, and a browser prints it",
             PLACES[0]);
    return EXIT_TROUBLE;
  }
  execv(program, s->argv);
  complain("cannot start '%s': %s", program, strerror(errno));
  return EXIT_TROUBLE;
}

int paper_write(const struct run *s, const struct sheet *sheet, struct buf *out) {
  (void)s, (void)sheet, (void)out;
  return EXIT_TROUBLE; /* paper_begin does not come back with a sheet to write */
}
