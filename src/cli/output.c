/* What leaves the program. */
#define _POSIX_C_SOURCE 200809L
#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "base/utf8.h"
#include "cli/system.h"

int write_all(int fd, struct span s) {
  while (s.n > 0) {
    ssize_t n = write(fd, s.p, s.n);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return errno;
    s = span_cut(s, (size_t)n, s.n);
  }
  return 0;
}

/* Messages quote what files and arguments hold: what a terminal would obey must not reach it, nor bytes that are no text.
 * When standard error itself is gone there is nobody left to tell. */
void write_errors(struct span text) {
  char piece[512];
  size_t n = 0;
  while (text.n > 0) {
    uint32_t c;
    size_t length = utf8_read(text, &c);
    bool shown = length > 0 && (c == '\n' || c == '\t' || !utf8_is_obeyed(c));
    struct span said = shown ? span_cut(text, 0, length) : SPAN_LIT("?");
    memcpy(piece + n, said.p, said.n);
    n += said.n;
    text = span_cut(text, length > 0 ? length : 1, text.n);
    if (n + 4 <= sizeof piece && text.n > 0) continue;
    if (write_all(STDERR_FILENO, (struct span){piece, n}) != 0) return;
    n = 0;
  }
}

void complain(const char *fmt, ...) {
  char line[2048];
  va_list args;
  va_start(args, fmt);
  int n = vsnprintf(line, sizeof line, fmt, args);
  va_end(args);
  if (n < 0) return;
  write_errors(SPAN_LIT("bowlwright: "));
  write_errors((struct span){line, (size_t)n < sizeof line ? (size_t)n : sizeof line - 1});
  write_errors(SPAN_LIT("\n"));
}

int write_answer(struct buf *b) {
  if (b->cut) {
    complain("the answer is too long to be written");
    return EXIT_TROUBLE;
  }
  int error = write_all(STDOUT_FILENO, buf_span(b));
  if (error == 0) return EXIT_COMPUTED;
  if (error != EPIPE) complain("the answer could not be written: %s", strerror(error));
  return EXIT_TROUBLE;
}

void out_of_memory(void) {
  write_errors(SPAN_LIT("bowlwright: out of memory\n"));
  _exit(EXIT_TROUBLE);
}
