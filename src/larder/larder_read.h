/* larder_read.h: the steps that read a larder text. Private to the larder reader. Layer: larder. */
#ifndef BW_LARDER_READ_H
#define BW_LARDER_READ_H

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
