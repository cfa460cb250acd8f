/* larder_read.h: the steps that read a larder text. Private to the larder reader. Layer: larder. */
#ifndef BW_LARDER_READ_H
#define BW_LARDER_READ_H

#include "foods/unit.h"
#include "larder/larder_text.h"
#include "text/scan.h"

/* A number or a range with words that open one side: "up to 300", "at least 5", "10-25", "about 10". */
struct bounds {
  double low, high; /* -INFINITY, INFINITY when open */
  bool only_least;  /* "at least" */
  bool about;
  size_t tokens; /* 0: nothing of the kind stands there */
};
/* Complains about a faulty number when 'd' is not NULL. */
struct bounds bounds_at(const struct tokens *t, size_t at, struct diags *d);

/* larder_clause.c: what stands behind the food's words. */
enum clause_kind { CLAUSE_NONE, CLAUSE_RANGE, CLAUSE_TIMES, CLAUSE_WHOLE, CLAUSE_PRICE, CLAUSE_PACK, CLAUSE_ANY };

struct clause {
  enum clause_kind kind;
  struct bounds bounds;
  enum unit unit; /* UNIT_NONE: none written */
  struct span unit_at;
  bool a_time, if_used, a_day;
  double per_28;              /* CLAUSE_TIMES: of one period */
  double price, price_amount; /* CLAUSE_PACK: price_amount units in one */
  struct span currency;
};

/* All of the tokens must be understood. */
struct clause clause_of(const struct tokens *t);
/* The token with which the clauses begin; t->count when the line is a food alone. 'gap': what stands there is behind a wide
 * gap or a pin, so it was meant as clauses even if nothing in it is understood. */
size_t clauses_begin(const struct tokens *t, bool *gap);
/* The token behind the clause that begins at 'from'; is the one at 'i' a comma or semicolon between two? */
size_t clause_end(const struct tokens *t, size_t from);
bool clause_breaks_at(const struct tokens *t, size_t i);
/* Is the token within the brackets of a pin; a word such as "tablet"? */
bool inside_pin(const struct tokens *t, size_t at);
bool pill_word_at(const struct tokens *t, size_t at);

/* larder_line.c: one line with a food. False when there is no food in it. */
bool larder_line_read(struct span line, int number, struct diags *d, const char **currency, struct larder_line *out,
                      struct arena *arena) MUST_USE;

/* larder_limits.c: what stands behind "Limits:". */
struct limit_list {
  struct larder_limit *item;
  size_t count, cap;
};
void larder_limits_read(struct span value, int number, struct diags *d, struct limit_list *out, struct arena *arena);

#endif
