/* bowlwright serve: handed to the program that holds the server. Its libraries (HTTP and what that needs, SQLite) take the
 * loader longer than most answers take; nobody but serve needs them. */
#define _POSIX_C_SOURCE 200809L
#include <errno.h>
#include <unistd.h>

#include "cli/run.h"

int verb_serve(struct run *s) {
  static const char *const PLACES[] = {"bowlwright-serve", "../libexec/bowlwright/bowlwright-serve", NULL};
  const char *program = find_near_program(PLACES, s->arena);
  if (!program) {
    complain("the part of the program that serves, '%s', is not here; 'make build' makes it", PLACES[0]);
    return EXIT_TROUBLE;
  }
  execv(program, s->argv);
  complain("cannot start '%s': %s", program, strerror(errno));
  return EXIT_TROUBLE;
}
