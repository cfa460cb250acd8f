/* bowlwright serve: handed to the program that holds the server. Its libraries (HTTP and what that needs, SQLite) take the
 * loader longer than most answers take; nobody but serve needs them. */
#define _POSIX_C_SOURCE 200809L
#include <errno.h>
#include <unistd.h>

#include "cli/run.h"

static int start_elsewhere(const struct run *s) {
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

int verb_serve(struct run *s) { return start_elsewhere(s); }

/* A journal in the store: the same program opens it. Does not come back when all is well. */
int store_ready(const struct run *s) { return start_elsewhere(s); }

int journal_to_store(const struct run *s, const struct journal *j) {
  (void)s, (void)j;
  return EXIT_TROUBLE;
}

int journal_from_store(const struct run *s, const char *path, struct app_input *out) {
  (void)s, (void)path, (void)out;
  return EXIT_TROUBLE;
}

int recipes_from_store(const struct run *s, const char *path, struct app_input *recipe, size_t *count, size_t most) {
  (void)s, (void)path, (void)recipe, (void)count, (void)most;
  return EXIT_TROUBLE;
}
