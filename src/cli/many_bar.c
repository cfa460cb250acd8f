/* How far a run over many texts is, on a terminal. */
#define _POSIX_C_SOURCE 200809L
#include <errno.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

#include "cli/many.h"

static const double FIRST_SHOWN = 0.3, SHOWN_EVERY = 0.1; /* seconds */
enum { BAR_COLUMNS = 24 };

static double seconds(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void write_bar(const char *text, size_t n) {
  while (n > 0) {
    ssize_t w = write(STDERR_FILENO, text, n);
    if (w < 0 && errno == EINTR) continue;
    if (w <= 0) return;
    text += w;
    n -= (size_t)w;
  }
}

void bar_start(struct bar *b, const struct run *s, const char *what) {
  double now = seconds();
  *b = (struct bar){.what = what, .shown = isatty(STDERR_FILENO) == 1 && !s->options->quiet, .started = now, .last = now};
}

void bar_move(struct bar *b, size_t done, size_t of) {
  double now = seconds();
  if (!b->shown || of == 0 || now - b->started < FIRST_SHOWN || now - b->last < SHOWN_EVERY) return;
  b->last = now;
  b->drawn = true;
  char line[200], bar[BAR_COLUMNS + 1];
  size_t full = done * BAR_COLUMNS / of;
  for (size_t i = 0; i < BAR_COLUMNS; i++) bar[i] = i < full ? '#' : '.';
  bar[BAR_COLUMNS] = '\0';
  double left = done > 0 ? (now - b->started) * (double)(of - done) / (double)done : 0;
  int n = snprintf(line, sizeof line, "\r%s [%s] %zu of %zu, about %d s left; Ctrl-C stops\x1b[K", b->what, bar, done, of,
                   (int)(left + 0.5));
  if (n > 0) write_bar(line, (size_t)n < sizeof line ? (size_t)n : sizeof line - 1);
}

void bar_end(struct bar *b) {
  if (b->drawn) write_bar("\r\x1b[K", 4);
}
