/* progress.h: long searches: a bar on standard error while they run, and Ctrl-C ends them with the best found so far.
 *
 * Layer: cli. */
#ifndef BW_PROGRESS_H
#define BW_PROGRESS_H

#include "cli/run.h"
#include "lp/lp.h"

struct progress {
  const char *what; /* "composing" */
  bool lines;       /* what is made small is a number of lines; else anything, told as a share */
  bool shown;       /* standard error is a terminal and --quiet was not said */
  bool drawn;
  double started, last, patience; /* seconds */
};

/* Ctrl-C is caught from here on (once; a second one ends the program). It ends by itself
 * after the patience that was asked for. */
void progress_start(struct progress *p, const struct run *s, const char *what);
/* For the searches of change/; 'user' is the progress. */
bool progress_go_on(void *user, const struct lp_answer *best, double bound, long nodes);
/* Takes the bar away and says when the search was cut short. */
void progress_end(struct progress *p);

#endif
