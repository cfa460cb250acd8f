#define _POSIX_C_SOURCE 200809L
#include "cli/progress.h"

#include <math.h>
#include <signal.h>
#include <time.h>
#include <unistd.h>

static const double FIRST_SHOWN = 0.5, SHOWN_EVERY = 0.1; /* seconds */
enum { BAR_COLUMNS = 20 };

static volatile sig_atomic_t interrupted;

static void on_interrupt(int number) {
  (void)number;
  interrupted = 1;
}

static double seconds(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

void progress_start(struct progress *p, const struct run *s, const char *what, double patience) {
  struct sigaction once = {.sa_handler = on_interrupt, .sa_flags = (int)SA_RESETHAND};
  double now = seconds();
  *p = (struct progress){what, isatty(STDERR_FILENO) == 1 && !s->options->quiet, false, now, now, patience};
  interrupted = 0;
  sigemptyset(&once.sa_mask);
  sigaction(SIGINT, &once, NULL);
}

/* How near the best found is to the best that there can be; without one, the time that is used up. */
static double done(const struct progress *p, const struct lp_answer *best, double bound, double now) {
  if (!best || !best->has_x || !(fabs(best->objective) > 0)) return 0;
  double gap = (best->objective - bound) / fabs(best->objective), used = (now - p->started) / p->patience;
  return fmin(1, fmax(0, fmax(1 - gap, used)));
}

static void draw(struct progress *p, const struct lp_answer *best, double bound, double now) {
  char bytes[160];
  struct arena arena;
  struct buf b;
  arena_init(&arena, out_of_memory);
  buf_init(&b, &arena, sizeof bytes);
  int full = (int)(BAR_COLUMNS * done(p, best, bound, now));
  buf_addf(&b, "\r%s [", p->what);
  buf_repeat(&b, "#", (size_t)full);
  buf_repeat(&b, ".", (size_t)(BAR_COLUMNS - full));
  buf_addf(&b, "] %d s, ", (int)(now - p->started));
  if (best && best->has_x && fabs(best->objective) > 0) {
    buf_adds(&b, "within ");
    num_fixed(&b, 100 * fmax(0, (best->objective - bound) / fabs(best->objective)), 1);
    buf_adds(&b, " % of the best");
  } else {
    buf_adds(&b, "nothing found yet");
  }
  buf_adds(&b, "; Ctrl-C stops\x1b[K");
  write_errors(buf_span(&b));
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
  if (p->drawn) write_errors(SPAN_LIT("\r\x1b[K"));
  signal(SIGINT, SIG_DFL);
}
