/* mixed.h: branch and bound over bound changes. Private to this folder.
 *
 * A column that may be "zero or at least least" is free (0 .. hi), in use (least .. hi) or out (0 .. 0); whole units narrow
 * lo and hi to multiples. With at most N columns in use, each of the columns that count is undecided, taken, or out. Every
 * node is the same tableau with other bounds.
 *
 * What a solved node proves. Let z be its value, d the reduced costs, and "dear" mean: not cheaper than the best answer
 * found or than the guess (mixed.c). By weak duality every answer below this node costs at least z, and (1) an unused column
 * in use: at least z + d least, for in the bound z = y' limits + d' x its term alone rises by that much; (2) a used column
 * left out, or brought up to its least amount: at least z + one step of the dual ratio test on its row, for after that step
 * y still bounds every answer. This stays true further down, where there are fewer answers; (3) with s undecided columns
 * used and room for r, s - r or more of them must go, and whichever they are, one of them is as dear to leave out as the (s
 * - r)-th cheapest; (4) a further column in use as well: one more must go, so at least the (s - r + 1)-th cheapest. What is
 * dear is settled at once: by (1), (2) and (4) columns are out, by (2) they are taken, by (3) the node is done. When all
 * places are taken, all other columns that count are out together. Each column settled makes the next bounds sharper, for a
 * column that is out cannot help in a ratio test.
 *
 * Then the used column is decided that is dearest to leave out, by (2) and by what leaving it out has cost so far: without
 * it there is little to gain, with it a place is gone. */
#ifndef BW_LP_MIXED_H
#define BW_LP_MIXED_H

#include "lp/kept.h"
#include "lp/solver.h"

/* One side of a decision: the column's new bounds, whether it then counts as in
 * use, and what can be reached at best. */
struct side {
  double lo, hi, bound;
  bool taken;
};

struct branch {
  int col;
  struct side down, up;
};

/* A decision whose first side is being looked at: where the node stood, and the
 * other side. */
struct frame {
  struct kept at;
  double *out; /* and 'in' */
  bool *taken;
  double value;
  int col;
  struct side second;
};

/* A column in use, and what the node can cost at least without it and with it. */
struct price {
  int col;
  double out, in;
};

/* What leaving a column out has cost so far, all told, and how often. */
struct habit {
  double cost;
  long times;
};

struct tree {
  struct lp_solver *s;
  const struct lp_limits *limits;
  struct arena scratch;
  struct frame *frame;
  size_t depth, made, cap;
  double *best_x; /* [n] scaled values of the best answer */
  double best;    /* its scaled objective */
  double root;    /* nothing is better than this: the relaxation, then the guesses
                     that failed */
  double guess;   /* nothing dearer is looked at in this walk */
  double here;    /* nothing at the node at hand is better than this */
  bool guessed;   /* something was left out because of the guess alone */
  bool found, stopped;
  enum simplex_end trouble;
  long nodes, most_nodes, ask_at;
  int left_out; /* the column that the node at hand leaves out, and the value
                   before; -1 */
  double left_from;
  bool *taken;         /* [n] decided to count as in use, whatever its amount */
  bool priced;         /* out is that of the node at hand, nothing has moved since */
  double *least;       /* [n] the least amount above zero */
  double *out, *in;    /* [n], [n] behind: nothing cheaper is possible without this one; with it */
  struct price *price; /* [n] scratch */
  struct habit *habit; /* [n] */
};

enum verdict { DECIDE, COMPLETE, PRUNED, AGAIN };

/* The value from which on nothing is worth having. */
double tree_dear(const struct tree *t);
/* Is this value dear? Remembers if it is only the guess that says so. */
bool tree_not_worth(struct tree *t, double value);

/* mixed_node.c: nothing is decided, but that a column without room for its
 * least amount is out. */
void node_begin(struct tree *t);
/* Judges the solved node of value 'now'. DECIDE: 'out' is next. COMPLETE: it
 * needs no decision. PRUNED: it can give nothing better. AGAIN: bounds were
 * changed that x may break; solve and ask again. */
enum verdict node_judge(struct tree *t, double now, struct branch *out);
/* The node's x, rounded to what it means, becomes the best answer. */
void node_remember(struct tree *t, double now);
/* Amounts up to this count as none: scaled. */
double node_used_above(const struct lp_col *c, double scale);
void node_apply(struct tree *t, int col, double lo, double hi, bool taken);

#endif
