#define _POSIX_C_SOURCE 200809L
#include "cli/progress.h"

#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

static const double FIRST_SHOWN = 0.5, SHOWN_EVERY = 0.1; /* seconds */
enum { BAR_COLUMNS = 14 };

static volatile sig_atomic_t interrupted;

static void on_interrupt(int number) {
  (void)number;
  interrupted = 1;
}

/* The bar holds numbers and words of ours only, and moves the cursor: write_errors would take that away. */
static void write_bar(struct span s) {
  while (s.n > 0) {
    ssize_t n = write(STDERR_FILENO, s.p, s.n);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return;
    s = span_cut(s, (size_t)n, s.n);
  }
}

static const double PATIENCE = 60; /* seconds, unless said */

static double seconds(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* The bar goes back to the start of its line and wipes what stands behind it: not every terminal knows how. */
static bool can_wipe(void) {
  const char *kind = getenv("TERM");
  return isatty(STDERR_FILENO) == 1 && kind && kind[0] && strcmp(kind, "dumb") != 0;
}

void progress_start(struct progress *p, const struct run *s, const char *what) {
  double said = s->options->ask.patience, patience = said > 0 ? said : PATIENCE;
  struct sigaction once = {.sa_handler = on_interrupt, .sa_flags = (int)SA_RESETHAND};
  double now = seconds();
  bool shown = can_wipe() && !s->options->quiet;
  *p = (struct progress){.what = what, .shown = shown, .started = now, .last = now, .patience = patience};
  interrupted = 0;
  sigemptyset(&once.sa_mask);
  sigaction(SIGINT, &once, NULL);
}

static bool has_best(const struct lp_answer *best) { return best && best->has_x && fabs(best->objective) > 0; }

/* How near the best found is to the best that there can be, or the time that is used up if that is more. */
static double done(const struct progress *p, const struct lp_answer *best, double bound, double now) {
  double used = (now - p->started) / p->patience, near = 0;
  if (has_best(best) && isfinite(bound)) near = 1 - (best->objective - bound) / fabs(best->objective);
  return fmin(1, fmax(0, fmax(near, used)));
}

static void say_best(const struct progress *p, const struct lp_answer *best, double bound, struct buf *b) {
  if (!has_best(best)) {
    buf_adds(b, "nothing found yet");
  } else if (p->lines) {
    int lines = (int)best->objective, least = (int)fmax(1, bound);
    buf_addf(b, "%d line%s so far", lines, lines == 1 ? "" : "s");
    if (least < lines) buf_addf(b, ", at least %d needed", least);
  } else if (isfinite(bound)) {
    buf_adds(b, "within ");
    num_fixed(b, 100 * fmax(0, (best->objective - bound) / fabs(best->objective)), 1);
    buf_adds(b, " % of the best");
  } else {
    buf_adds(b, "a recipe is found");
  }
}

static void draw(struct progress *p, const struct lp_answer *best, double bound, double now) {
  char bytes[200];
  struct arena arena;
  struct buf b;
  arena_init(&arena, out_of_memory);
  buf_init(&b, &arena, sizeof bytes);
  int full = (int)(BAR_COLUMNS * done(p, best, bound, now));
  buf_addf(&b, "\r%s [", p->what);
  buf_repeat(&b, "#", (size_t)full);
  buf_repeat(&b, ".", (size_t)(BAR_COLUMNS - full));
  buf_addf(&b, "] %d s, ", (int)(now - p->started));
  say_best(p, best, bound, &b);
  buf_adds(&b, "; Ctrl-C stops\x1b[K");
  write_bar(buf_span(&b));
  arena_free(&arena);
  p->drawn = true;
}

bool progress_go_on(void *user, const struct lp_answer *best, double bound, long nodes) {
  struct progress *p = user;
  double now = seconds();
  (void)nodes;
  if (interrupted || now - p->started > p->patience) return false;
  if (p->shown && now - p->started > FIRST_SHOWN && now - p->last > SHOWN_EVERY) {
    draw(p, best, bound, now);
    p->last = now;
  }
  return true;
}

void progress_end(struct progress *p) {
  if (p->drawn) write_bar(SPAN_LIT("\r\x1b[K"));
  signal(SIGINT, SIG_DFL);
}
