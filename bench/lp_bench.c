/* lp_bench.c: the solver of src/lp against GLPK, Clp and Cbc on the same generated diets, in one process.
 *
 * Usage: bench_lp FOLDER. Prints lines "task solver microseconds objective" (medians over models of the least processor time
 * of a few runs) and writes the models of each task to FOLDER/TASK.lp for solvers that read files.
 *
 * What is timed, cold: from arrays to the answer, that is copying the model into the solver, scaling, solving. Warm: one
 * limit is moved and the solve goes on from the last basis, each in its own way. */
#include <coin/Cbc_C_Interface.h>
#include <coin/Clp_C_Interface.h>
#include <stdio.h>
#include <time.h>

#include "lp/write.h"
#include "tests/lp/glpk_oracle.h"
#include "tests/lp/models.h"

enum { MODELS = 20, MIXED_MODELS = 5, RUNS = 15, MOVES = 100 };

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return 1e6 * (double)t.tv_sec + 1e-3 * (double)t.tv_nsec;
}

static int by_size(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double median(double *x, int n) {
  qsort(x, (size_t)n, sizeof *x, by_size);
  return n % 2 ? x[n / 2] : (x[n / 2 - 1] + x[n / 2]) / 2;
}

struct timed {
  double us, objective;
};

/* ---- the baselines' forms of a model ---- */

struct columns {
  int *start, *index;
  double *value, *lo, *hi, *cost, *row_lo, *row_hi;
};

/* Rows divided by their largest entry: these solvers judge them by absolute tolerances. */
static struct columns by_column(const struct lp_model *m, struct arena *arena) {
  size_t n = m->cols, rows = m->rows;
  struct columns c = {ARENA_NEW(arena, int, n + 1),   ARENA_NEW(arena, int, n *rows), ARENA_NEW(arena, double, n *rows),
                      ARENA_NEW(arena, double, n),    ARENA_NEW(arena, double, n),    ARENA_NEW(arena, double, n),
                      ARENA_NEW(arena, double, rows), ARENA_NEW(arena, double, rows)};
  double *size = ARENA_NEW(arena, double, rows);
  for (size_t i = 0; i < rows; i++) {
    for (size_t j = 0; j < n; j++) size[i] = fmax(size[i], fabs(m->a[i][j]));
    c.row_lo[i] = m->row[i].lo / size[i];
    c.row_hi[i] = m->row[i].hi / size[i];
  }
  int count = 0;
  for (size_t j = 0; j < n; j++) {
    c.lo[j] = m->col[j].lo, c.hi[j] = m->col[j].hi, c.cost[j] = m->col[j].cost;
    for (size_t i = 0; i < rows; i++)
      if (m->a[i][j] != 0) c.index[count] = (int)i, c.value[count++] = m->a[i][j] / size[i];
    c.start[j + 1] = count;
  }
  return c;
}

static Clp_Simplex *clp_program(const struct lp_model *m, const struct columns *c) {
  Clp_Simplex *p = Clp_newModel();
  Clp_setLogLevel(p, 0);
  Clp_loadProblem(p, (int)m->cols, (int)m->rows, c->start, c->index, c->value, c->lo, c->hi, c->cost, c->row_lo, c->row_hi);
  return p;
}

static struct timed ours_cold(const struct lp_model *m) {
  struct timed best = {INFINITY, 0};
  for (int run = 0; run < RUNS; run++) {
    struct arena arena;
    arena_init(&arena, NULL);
    double start = now();
    const struct lp_answer *a = lp_solve(lp_open(m, 0, &arena), NULL);
    best.us = fmin(best.us, now() - start);
    best.objective = a->status == LP_OPTIMAL ? a->objective : NAN;
    arena_free(&arena);
  }
  return best;
}

static glp_smcp glpk_quiet(void) {
  glp_smcp how;
  glp_init_smcp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.meth = GLP_DUALP;
  return how;
}

static struct timed glpk_cold(const struct lp_model *m) {
  struct timed best = {INFINITY, 0};
  glp_smcp how = glpk_quiet();
  for (int run = 0; run < RUNS; run++) {
    double start = now();
    glp_prob *p = oracle_program(m);
    glp_scale_prob(p, GLP_SF_AUTO);
    glp_simplex(p, &how);
    best.us = fmin(best.us, now() - start);
    best.objective = glp_get_status(p) == GLP_OPT ? glp_get_obj_val(p) : NAN;
    glp_delete_prob(p);
  }
  return best;
}

static struct timed clp_cold(const struct lp_model *m, struct arena *arena) {
  struct timed best = {INFINITY, 0};
  struct columns c = by_column(m, arena);
  for (int run = 0; run < RUNS; run++) {
    double start = now();
    Clp_Simplex *p = clp_program(m, &c);
    Clp_dual(p, 0);
    best.us = fmin(best.us, now() - start);
    best.objective = Clp_status(p) == 0 ? Clp_objectiveValue(p) : NAN;
    Clp_deleteModel(p);
  }
  return best;
}

/* ---- warm ---- */

/* The k-th move: a minimum is raised or lowered a little, in the order of the rows. */
static double moved(const struct lp_model *m, int k, int *row) {
  *row = 1 + k % NEEDS_COUNT;
  return m->row[*row].lo * (k / NEEDS_COUNT % 2 ? 0.93 : 1.04);
}

static struct timed ours_warm(const struct lp_model *m) {
  struct arena arena;
  arena_init(&arena, NULL);
  struct lp_solver *s = lp_open(m, 0, &arena);
  lp_solve(s, NULL);
  double start = now();
  const struct lp_answer *a = NULL;
  for (int k = 0, row; k < MOVES; k++) {
    double lo = moved(m, k, &row);
    lp_change_row(s, row, lo, fmax(lo, m->row[row].hi));
    a = lp_solve(s, NULL);
  }
  struct timed t = {(now() - start) / MOVES, a->status == LP_OPTIMAL ? a->objective : NAN};
  arena_free(&arena);
  return t;
}

static double largest(const struct lp_model *m, int row) {
  double size = 0;
  for (size_t j = 0; j < m->cols; j++) size = fmax(size, fabs(m->a[row][j]));
  return size;
}

static struct timed glpk_warm(const struct lp_model *m) {
  glp_prob *p = oracle_program(m);
  glp_smcp how = glpk_quiet();
  glp_scale_prob(p, GLP_SF_AUTO);
  glp_simplex(p, &how);
  double start = now();
  for (int k = 0, row; k < MOVES; k++) {
    double lo = moved(m, k, &row), size = largest(m, row), hi = fmax(lo, m->row[row].hi);
    glp_set_row_bnds(p, row + 1, oracle_bounds(lo, hi), lo / size, hi / size);
    glp_simplex(p, &how);
  }
  struct timed t = {(now() - start) / MOVES, glp_get_status(p) == GLP_OPT ? glp_get_obj_val(p) : NAN};
  glp_delete_prob(p);
  return t;
}

static struct timed clp_warm(const struct lp_model *m, struct arena *arena) {
  struct columns c = by_column(m, arena);
  Clp_Simplex *p = clp_program(m, &c);
  Clp_dual(p, 0);
  double start = now();
  for (int k = 0, row; k < MOVES; k++) {
    double lo = moved(m, k, &row), size = largest(m, row);
    Clp_rowLower(p)[row] = lo / size;
    Clp_rowUpper(p)[row] = fmax(lo, m->row[row].hi) / size;
    Clp_dual(p, 0);
  }
  struct timed t = {(now() - start) / MOVES, Clp_status(p) == 0 ? Clp_objectiveValue(p) : NAN};
  Clp_deleteModel(p);
  return t;
}

/* ---- mixed ---- */

static struct timed ours_mixed(const struct lp_model *m) {
  struct arena arena;
  arena_init(&arena, NULL);
  double start = now();
  const struct lp_answer *a = lp_solve_mixed(lp_open(m, 0, &arena), NULL);
  struct timed t = {now() - start, a->status == LP_OPTIMAL ? a->objective : NAN};
  arena_free(&arena);
  return t;
}

static struct timed glpk_mixed(const struct lp_model *m) {
  glp_prob *p = oracle_program(m);
  oracle_make_mixed(p, m);
  glp_iocp how;
  glp_init_iocp(&how);
  how.msg_lev = GLP_MSG_OFF;
  how.presolve = GLP_ON;
  how.tm_lim = 60000;
  double start = now();
  int fault = glp_intopt(p, &how);
  struct timed t = {now() - start, fault == 0 && glp_mip_status(p) == GLP_OPT ? glp_mip_obj_val(p) : NAN};
  glp_delete_prob(p);
  return t;
}

/* Cbc reads the file that lp_write wrote. */
static struct timed cbc_mixed(const char *path) {
  Cbc_Model *p = Cbc_newModel();
  Cbc_setParameter(p, "logLevel", "0");
  Cbc_setParameter(p, "ratioGap", "0");
  Cbc_setParameter(p, "seconds", "120");
  if (Cbc_readLp(p, path) != 0) exit(6);
  double start = now();
  Cbc_solve(p);
  struct timed t = {now() - start, Cbc_isProvenOptimal(p) ? Cbc_getObjValue(p) : NAN};
  Cbc_deleteModel(p);
  return t;
}

/* ---- tasks ---- */

static void write_model(const struct lp_model *m, bool mixed, const char *path, const char *mode, struct arena *arena) {
  struct buf text;
  buf_init(&text, arena, 64u << 20);
  FILE *f = fopen(path, mode);
  if (!f || !lp_write(m, mixed, &text) || fwrite(text.p, 1, text.n, f) != text.n || fclose(f) != 0) exit(6);
}

static void report(const char *task, const char *solver, struct timed *t, int n) {
  double us[MODELS], sum = 0;
  for (int k = 0; k < n; k++) us[k] = t[k].us, sum += t[k].objective;
  printf("%s %s %.3f %.9g\n", task, solver, median(us, n), sum);
  fflush(stdout);
}

static void continuous(const char *folder, const char *name, int foods) {
  struct timed cold[3][MODELS], warm[3][MODELS];
  char path[1024], task[64];
  snprintf(path, sizeof path, "%s/cold%s.lp", folder, name);
  for (int k = 0; k < MODELS; k++) {
    struct arena arena;
    arena_init(&arena, NULL);
    struct draw r = draw_from((uint64_t)(1000 + k));
    struct lp_model m;
    make_diet(&m, &arena, &r, &(struct diet){.cat = k % 2, .foods = foods, .most_used = -1});
    write_model(&m, false, path, k == 0 ? "w" : "a", &arena);
    cold[0][k] = ours_cold(&m), cold[1][k] = glpk_cold(&m), cold[2][k] = clp_cold(&m, &arena);
    warm[0][k] = ours_warm(&m), warm[1][k] = glpk_warm(&m), warm[2][k] = clp_warm(&m, &arena);
    arena_free(&arena);
  }
  static const char *const SOLVER[] = {"ours", "glpk", "clp"};
  for (int s = 0; s < 3; s++) {
    snprintf(task, sizeof task, "cold%s", name);
    report(task, SOLVER[s], cold[s], MODELS);
    snprintf(task, sizeof task, "warm%s", name);
    report(task, SOLVER[s], warm[s], MODELS);
  }
}

static void mixed(const char *folder, const char *name, int foods) {
  struct timed ours[MODELS], glpk[MODELS], cbc[MODELS];
  char path[1024], one[1024];
  snprintf(path, sizeof path, "%s/%s.lp", folder, name);
  snprintf(one, sizeof one, "%s/one.lp", folder);
  for (int k = 0; k < MIXED_MODELS; k++) {
    struct arena arena;
    arena_init(&arena, NULL);
    struct draw r = draw_from((uint64_t)(2000 + k));
    struct lp_model m;
    make_diet(&m, &arena, &r, &(struct diet){.cat = k % 2, .foods = foods, .mixed = true, .most_used = 10});
    write_model(&m, true, path, k == 0 ? "w" : "a", &arena);
    write_model(&m, true, one, "w", &arena);
    ours[k] = ours_mixed(&m), glpk[k] = glpk_mixed(&m), cbc[k] = cbc_mixed(one);
    arena_free(&arena);
  }
  report(name, "ours", ours, MIXED_MODELS);
  report(name, "glpk", glpk, MIXED_MODELS);
  report(name, "cbc", cbc, MIXED_MODELS);
}

int main(int argc, char **argv) {
  if (argc < 2) return 2;
  glp_term_out(GLP_OFF);
  continuous(argv[1], "120", 120);
  continuous(argv[1], "540", 540);
  if (argc < 3) mixed(argv[1], "mixed120", 120);
  return 0;
}
