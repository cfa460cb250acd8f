/* mend_search.h: finding the few lines to touch. Private to this folder. */
#ifndef BW_MEND_SEARCH_H
#define BW_MEND_SEARCH_H

#include "change/mend.h"

/* One way of changing the ration: more of a line, less of it, or some of an offer. */
struct mend_column {
  int line, offer; /* one of them -1 */
  double sign;     /* of its share in the line */
  double most;     /* g a day */
  double cost;     /* of a gram */
  double whole, step;
  bool supplement, at_hand; /* at hand: the ration's own line, or from the larder */
};

struct mend_choice {
  double *x; /* [columns] */
  double cost;
  bool fewest_proven, rounded;
};

struct mend_search {
  const struct library *lib;
  const struct mend_request *q;
  const struct check_result *before;
  struct arena *arena;
  struct program *p;
  struct mend_column *column;
  size_t columns;
  double *start; /* [lines] g a day before any choice: 0 where the line had to go */
  bool *danger;  /* [lines] */
  bool *banned;  /* [columns] */
  bool at_hand;  /* look only among what is at hand */
  int reach;     /* how far amounts may go: see mend_search.c */
};

/* False when energy cannot be counted in a linear way. */
bool mend_search_begin(struct mend_search *s, const struct library *lib, const struct mend_request *q,
                       const struct check_result *before, struct arena *arena);
/* Up to 'most' choices, best first, no two with the same lines; how many. None: 'proven' says whether none exists. */
size_t mend_search_run(struct mend_search *s, struct mend_choice *out, size_t most, bool *proven);
/* Rounds the amounts to the kitchen's steps without asking for anything to hold. */
void mend_search_round_freely(struct mend_search *s, struct mend_choice *c);

#endif
