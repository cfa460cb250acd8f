#include "lp/write.h"

#include <math.h>

enum { DIGITS = 16, TERMS_A_LINE = 8, POWERS = 22 };

static const double POWER10[POWERS + 1] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                           1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

/* x times ten to the e, in steps that are exact factors. */
static double times_power(double x, int e) {
  for (; e > POWERS; e -= POWERS) x *= POWER10[POWERS];
  for (; e < -POWERS; e += POWERS) x /= POWER10[POWERS];
  return e >= 0 ? x * POWER10[e] : x / POWER10[-e];
}

static void add_number(struct buf *b, double x) {
  if (x < 0) buf_addc(b, '-');
  x = fabs(x);
  if (x == floor(x) && x < 1e15) {
    buf_addf(b, "%ld", (long)x);
    return;
  }
  int e = 0; /* x = digits * 10^e with 16 digits before the point */
  while (times_power(x, -e) >= 1e16) e++;
  while (times_power(x, -e) < 1e15) e--;
  uint64_t whole = (uint64_t)(times_power(x, -e) + 0.5);
  while (whole % 10 == 0) whole /= 10, e++;
  char text[24];
  size_t n = sizeof text;
  for (; whole > 0; whole /= 10) text[--n] = (char)('0' + whole % 10);
  buf_add(b, (struct span){text + n, sizeof text - n});
  if (e != 0) buf_addf(b, "e%d", e);
}

static void add_term(struct buf *b, double f, const char *letter, size_t j, int *terms) {
  if (*terms > 0 && *terms % TERMS_A_LINE == 0) buf_adds(b, "\n   ");
  buf_adds(b, f < 0 ? " - " : " + ");
  add_number(b, fabs(f));
  buf_addf(b, " %s%zu", letter, j + 1);
  ++*terms;
}

static void add_form(struct buf *b, const double *f, size_t cols) {
  int terms = 0;
  for (size_t j = 0; j < cols; j++)
    if (f[j] != 0) add_term(b, f[j], "x", j, &terms);
  if (terms == 0) add_term(b, 0, "x", 0, &terms);
}

static void add_row(struct buf *b, const struct lp_model *m, size_t i, const char *which, const char *relation,
                    double limit) {
  buf_addf(b, " r%zu%s:", i + 1, which);
  add_form(b, m->a[i], m->cols);
  buf_addf(b, " %s ", relation);
  add_number(b, limit);
  buf_addc(b, '\n');
}

static void add_rows(struct buf *b, const struct lp_model *m) {
  for (size_t i = 0; i < m->rows; i++) {
    double lo = m->row[i].lo, hi = m->row[i].hi;
    if (lo == hi) {
      add_row(b, m, i, "", "=", lo);
      continue;
    }
    if (isfinite(lo)) add_row(b, m, i, isfinite(hi) ? "_lo" : "", ">=", lo);
    if (isfinite(hi)) add_row(b, m, i, isfinite(lo) ? "_hi" : "", "<=", hi);
  }
}

static bool needs_binary(const struct lp_model *m, const struct lp_col *c) {
  return c->least > 0 || (c->counted && m->most_used >= 0);
}

/* x - factor times the other variable, against zero. */
static void add_tie(struct buf *b, size_t j, double factor, const char *letter, const char *relation, const char *label) {
  buf_addf(b, " %s%zu: x%zu - ", label, j + 1, j + 1);
  add_number(b, factor);
  buf_addf(b, " %s%zu %s 0\n", letter, j + 1, relation);
}

static void add_mixed_rows(struct buf *b, const struct lp_model *m) {
  int terms = 0;
  for (size_t j = 0; j < m->cols; j++) {
    const struct lp_col *c = &m->col[j];
    if (needs_binary(m, c)) add_tie(b, j, c->hi, "u", "<=", "most");
    if (c->least > 0) add_tie(b, j, c->least, "u", ">=", "least");
    if (c->unit > 0) add_tie(b, j, c->unit, "k", "=", "unit");
  }
  if (m->most_used < 0) return;
  for (size_t j = 0; j < m->cols; j++) {
    if (!m->col[j].counted) continue;
    if (terms == 0) buf_adds(b, " used:");
    add_term(b, 1, "u", j, &terms);
  }
  if (terms > 0) buf_addf(b, " <= %d\n", m->most_used);
}

static void add_bounds(struct buf *b, const struct lp_model *m) {
  buf_adds(b, "Bounds\n");
  for (size_t j = 0; j < m->cols; j++) {
    double lo = m->col[j].lo, hi = m->col[j].hi;
    if (lo == -INFINITY && hi == INFINITY) {
      buf_addf(b, " x%zu free\n", j + 1);
      continue;
    }
    buf_addc(b, ' ');
    if (lo == -INFINITY) {
      buf_adds(b, "-inf");
    } else {
      add_number(b, lo);
    }
    buf_addf(b, " <= x%zu", j + 1);
    if (hi < INFINITY) {
      buf_adds(b, " <= ");
      add_number(b, hi);
    }
    buf_addc(b, '\n');
  }
}

static void add_kinds(struct buf *b, const struct lp_model *m) {
  bool some = false;
  for (size_t j = 0; j < m->cols; j++) {
    if (!(m->col[j].unit > 0)) continue;
    if (!some) buf_adds(b, "Generals\n");
    some = true;
    buf_addf(b, " k%zu\n", j + 1);
  }
  some = false;
  for (size_t j = 0; j < m->cols; j++) {
    if (!needs_binary(m, &m->col[j])) continue;
    if (!some) buf_adds(b, "Binaries\n");
    some = true;
    buf_addf(b, " u%zu\n", j + 1);
  }
}

/* Names may hold anything; a comment ends with its line. */
static void add_name(struct buf *b, const char *letter, size_t i, const char *name) {
  if (!name || !*name) return;
  buf_addf(b, "\\ %s%zu  ", letter, i + 1);
  for (; *name; name++) buf_addc(b, *name == '\n' || *name == '\r' ? ' ' : *name);
  buf_addc(b, '\n');
}

bool lp_write(const struct lp_model *m, bool mixed, struct buf *b) {
  for (size_t j = 0; mixed && j < m->cols; j++)
    if (needs_binary(m, &m->col[j]) && !isfinite(m->col[j].hi)) return false;
  for (size_t j = 0; j < m->cols; j++) add_name(b, "x", j, m->col[j].name);
  for (size_t i = 0; i < m->rows; i++) add_name(b, "r", i, m->row[i].name);
  int terms = 0;
  buf_adds(b, "Minimize\n cost:");
  for (size_t j = 0; j < m->cols; j++)
    if (m->col[j].cost != 0) add_term(b, m->col[j].cost, "x", j, &terms);
  if (terms == 0) add_term(b, 0, "x", 0, &terms);
  buf_adds(b, "\nSubject To\n");
  add_rows(b, m);
  if (mixed) add_mixed_rows(b, m);
  add_bounds(b, m);
  if (mixed) add_kinds(b, m);
  buf_adds(b, "End\n");
  return true;
}
