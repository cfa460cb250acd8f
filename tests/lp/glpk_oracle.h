/* glpk_oracle.h: the same model for GLPK, an independent solver. Tests and benchmarks only; never linked into the program.
 *
 * GLPK judges rows by an absolute tolerance, so they are divided by their largest entry; "zero or at least", whole units and
 * the number of columns in use become binary and whole variables, as a modeller without semicontinuous columns writes it. */
#ifndef BW_TEST_GLPK_ORACLE_H
#define BW_TEST_GLPK_ORACLE_H

#include <glpk.h>
#include <math.h>
#include <stdlib.h>

#include "lp/lp.h"

static inline int oracle_bounds(double lo, double hi) {
  if (lo == -INFINITY) return hi == INFINITY ? GLP_FR : GLP_UP;
  if (hi == INFINITY) return GLP_LO;
  return lo == hi ? GLP_FX : GLP_DB;
}

static inline glp_prob *oracle_program(const struct lp_model *m) {
  glp_prob *p = glp_create_prob();
  glp_set_obj_dir(p, GLP_MIN);
  if (m->rows > 0) glp_add_rows(p, (int)m->rows);
  if (m->cols > 0) glp_add_cols(p, (int)m->cols);
  int *where = calloc(m->cols + 1, sizeof *where);
  double *value = calloc(m->cols + 1, sizeof *value);
  if (!where || !value) abort();
  for (size_t j = 0; j < m->cols; j++) {
    const struct lp_col *c = &m->col[j];
    glp_set_col_bnds(p, (int)j + 1, oracle_bounds(c->lo, c->hi), c->lo, c->hi);
    glp_set_obj_coef(p, (int)j + 1, c->cost);
  }
  for (size_t i = 0; i < m->rows; i++) {
    double largest = 0;
    int count = 0;
    for (size_t j = 0; j < m->cols; j++) largest = fmax(largest, fabs(m->a[i][j]));
    if (largest == 0) largest = 1;
    for (size_t j = 0; j < m->cols; j++)
      if (m->a[i][j] != 0) where[++count] = (int)j + 1, value[count] = m->a[i][j] / largest;
    glp_set_mat_row(p, (int)i + 1, count, where, value);
    double lo = m->row[i].lo / largest, hi = m->row[i].hi / largest;
    glp_set_row_bnds(p, (int)i + 1, oracle_bounds(lo, hi), lo, hi);
  }
  free(where);
  free(value);
  return p;
}

static inline void oracle_link(glp_prob *p, int a, double fa, int b, double fb, int kind, double at) {
  int row = glp_add_rows(p, 1), where[3] = {0, a, b};
  double value[3] = {0, fa, fb};
  glp_set_row_bnds(p, row, kind, at, at);
  glp_set_mat_row(p, row, 2, where, value);
}

/* Adds what makes the model mixed. */
static inline void oracle_make_mixed(glp_prob *p, const struct lp_model *m) {
  int *counted = calloc(m->cols + 1, sizeof *counted), count = 0;
  double *ones = calloc(m->cols + 1, sizeof *ones);
  if (!counted || !ones) abort();
  for (size_t j = 0; j < m->cols; j++) {
    const struct lp_col *c = &m->col[j];
    int x = (int)j + 1;
    bool limited = c->counted && m->most_used >= 0;
    if (c->least > 0 || limited) {
      int used = glp_add_cols(p, 1);
      glp_set_col_kind(p, used, GLP_BV);
      oracle_link(p, x, 1, used, -c->hi, GLP_UP, 0);
      if (c->least > 0) oracle_link(p, x, 1, used, -c->least, GLP_LO, 0);
      if (limited) counted[++count] = used, ones[count] = 1;
    }
    if (c->unit > 0) {
      int units = glp_add_cols(p, 1);
      glp_set_col_kind(p, units, GLP_IV);
      glp_set_col_bnds(p, units, GLP_LO, 0, 0);
      oracle_link(p, x, 1, units, -c->unit, GLP_FX, 0);
    }
  }
  if (m->most_used >= 0) {
    int row = glp_add_rows(p, 1);
    glp_set_row_bnds(p, row, GLP_UP, 0, m->most_used);
    glp_set_mat_row(p, row, count, counted, ones);
  }
  free(counted);
  free(ones);
}

struct oracle {
  enum lp_status status;
  double objective;
};

/* Continuous: 'least', 'unit' and 'most_used' are left aside. */
static inline struct oracle oracle_solve(const struct lp_model *m) {
  glp_prob *p = oracle_program(m);
  glp_smcp how;
  glp_init_smcp(&how);
  how.msg_lev = GLP_MSG_OFF;
  glp_term_out(GLP_OFF);
  struct oracle o = {LP_TROUBLE, NAN};
  if (m->cols > 0 && m->rows > 0) glp_scale_prob(p, GLP_SF_AUTO);
  /* Asked for the dual method it may stop at "no dual solution"; the primal method then tells the two apart. */
  for (int attempt = 0; attempt < 2 && o.status == LP_TROUBLE; attempt++) {
    if (attempt > 0) glp_std_basis(p);
    how.meth = attempt > 0 ? GLP_PRIMAL : GLP_DUALP;
    if (glp_simplex(p, &how) != 0) continue;
    int status = glp_get_status(p);
    if (status == GLP_OPT) o = (struct oracle){LP_OPTIMAL, glp_get_obj_val(p)};
    if (status == GLP_NOFEAS) o.status = LP_INFEASIBLE;
    if (status == GLP_UNBND) o.status = LP_UNBOUNDED;
  }
  glp_delete_prob(p);
  return o;
}

static inline struct oracle oracle_solve_mixed(const struct lp_model *m) {
  glp_prob *p = oracle_program(m);
  oracle_make_mixed(p, m);
  glp_iocp how;
  glp_init_iocp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.presolve = GLP_ON;
  glp_term_out(GLP_OFF);
  int fault = glp_intopt(p, &how), status = fault ? 0 : glp_mip_status(p);
  struct oracle o = {LP_TROUBLE, NAN};
  if (status == GLP_OPT) o = (struct oracle){LP_OPTIMAL, glp_mip_obj_val(p)};
  if (status == GLP_NOFEAS || fault == GLP_ENOPFS) o.status = LP_INFEASIBLE;
  if (fault == GLP_ENODFS) o.status = LP_UNBOUNDED;
  glp_delete_prob(p);
  return o;
}

#endif
