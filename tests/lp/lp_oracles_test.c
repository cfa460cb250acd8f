/* The solver of src/lp against two independent ones on the same generated models: GLPK (Debian libglpk), linked into this
 * test, and HiGHS (by way of Debian's python3-scipy), which reads what lp_write wrote. Status must agree always, objectives
 * to 1e-6 relative; where an oracle disagrees, the certificate that comes with our answer decides by arithmetic on the model
 * alone. The oracles are called wrong rarely, or the test fails. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include "glpk_oracle.h"
#include "lp/write.h"
#include "models.h"

enum { CONTINUOUS = 2040, MIXED = 400 };

struct asked {
  enum lp_status status;
  double objective;
  const char *kind;
};

static struct asked asked[CONTINUOUS > MIXED ? CONTINUOUS : MIXED];

static bool same(const struct asked *ours, enum lp_status status, double objective) {
  if (ours->status != status) return false;
  return status != LP_OPTIMAL || fabs(ours->objective - objective) <= 1e-6 * (1 + fabs(objective));
}

struct corpus_file {
  char path[32];
  FILE *file;
};

static struct corpus_file open_file(void) {
  struct corpus_file f = {.path = "/tmp/bowlwright-lp-XXXXXX"};
  int descriptor = mkstemp(f.path);
  assert_true(descriptor >= 0);
  f.file = fdopen(descriptor, "w");
  assert_non_null(f.file);
  return f;
}

static void write_model(FILE *file, const struct lp_model *m, bool mixed, struct arena *arena) {
  struct buf text;
  buf_init(&text, arena, 64u << 20);
  assert_true(lp_write(m, mixed, &text));
  assert_false(text.cut);
  assert_int_equal(fwrite(text.p, 1, text.n, file), text.n);
}

static enum lp_status status_word(const char *word) {
  if (strcmp(word, "optimal") == 0) return LP_OPTIMAL;
  if (strcmp(word, "infeasible") == 0) return LP_INFEASIBLE;
  return strcmp(word, "unbounded") == 0 ? LP_UNBOUNDED : LP_TROUBLE;
}

/* Runs HiGHS over the file. Returns how often it disagrees; fails when it cannot be run or does not answer every model. */
static int ask_highs(struct corpus_file *f, int models, bool mixed) {
  char command[256], word[32];
  assert_int_equal(fclose(f->file), 0);
  snprintf(command, sizeof command, "/usr/bin/python3 %s/tests/lp/highs.py %s", BW_SOURCE_DIR, f->path);
  FILE *answers = popen(command, "r");
  assert_non_null(answers);
  int disagree = 0, read = 0;
  double objective, seconds;
  while (fscanf(answers, "%31s %lf %lf", word, &objective, &seconds) == 3 && read < models) {
    const struct asked *ours = &asked[read];
    if (!same(ours, status_word(word), objective)) {
      disagree++;
      print_message("%s %d: HiGHS says %s %.10g, ours is %d %.10g\n", ours->kind, read, word, objective, (int)ours->status,
                    ours->objective);
      /* No certificate of optimality comes with a mixed answer: a better one may not exist anywhere. */
      if (mixed) assert_true(strcmp(word, "optimal") != 0 || objective >= ours->objective);
    }
    read++;
  }
  assert_int_equal(pclose(answers), 0); /* not zero: python3-scipy is missing (tools/setup.sh test) */
  assert_int_equal(read, models);
  remove(f->path);
  return disagree;
}

/* GLPK reads the text that lp_write wrote: it must be the same program. */
static void read_back(const struct lp_model *m, struct arena *arena, const struct asked *ours) {
  struct corpus_file f = open_file();
  write_model(f.file, m, false, arena);
  assert_int_equal(fclose(f.file), 0);
  glp_prob *p = glp_create_prob();
  glp_term_out(GLP_OFF);
  assert_int_equal(glp_read_lp(p, NULL, f.path), 0);
  glp_scale_prob(p, GLP_SF_AUTO);
  glp_smcp how;
  glp_init_smcp(&how);
  how.msg_lev = GLP_MSG_OFF;
  assert_int_equal(glp_simplex(p, &how), 0);
  if (ours->status == LP_OPTIMAL) assert_true(same(ours, LP_OPTIMAL, glp_get_obj_val(p)));
  glp_delete_prob(p);
  remove(f.path);
}

static void continuous_programs_agree(void **state) {
  (void)state;
  int models = models_to_try(CONTINUOUS), counts[LP_TROUBLE + 1] = {0}, glpk = 0;
  struct corpus_file f = open_file();
  for (int k = 0; k < models; k++) {
    struct arena arena;
    struct lp_model m;
    arena_init(&arena, NULL);
    const char *kind = make_any(&m, &arena, (uint64_t)k);
    assert_null(lp_fault(&m));
    const struct lp_answer *a = lp_solve(lp_open(&m, 0, &arena), NULL);
    const char *fault = not_proved(&m, a);
    if (fault) fail_msg("%s %d: %s", kind, k, fault);
    counts[a->status]++;
    asked[k] = (struct asked){a->status, a->objective, kind};
    struct oracle o = oracle_solve(&m);
    if (!same(&asked[k], o.status, o.objective)) {
      glpk++;
      print_message("%s %d: GLPK says %d %.10g, ours is %d %.10g\n", kind, k, (int)o.status, o.objective, (int)a->status,
                    a->objective);
    }
    write_model(f.file, &m, false, &arena);
    if (k % (KINDS + 3) == 0) read_back(&m, &arena, &asked[k]);
    arena_free(&arena);
  }
  int highs = ask_highs(&f, models, false);
  print_message("%d models (%d optimal, %d impossible, %d unbounded), each with its certificate; GLPK disagrees %d times, "
                "HiGHS %d times\n",
                models, counts[LP_OPTIMAL], counts[LP_INFEASIBLE], counts[LP_UNBOUNDED], glpk, highs);
  assert_true(counts[LP_INFEASIBLE] > models / 50 && counts[LP_UNBOUNDED] > models / 100);
  assert_true(glpk <= models / 200 + 1 && highs <= models / 200 + 1);
}

static void mixed_programs_agree(void **state) {
  (void)state;
  int models = models_to_try(MIXED), counts[LP_TROUBLE + 1] = {0};
  struct corpus_file f = open_file();
  for (int k = 0; k < models; k++) {
    struct arena arena;
    struct lp_model m;
    arena_init(&arena, NULL);
    struct draw r = draw_from(100000 + (uint64_t)k);
    int cols = 3 + draw_below(&r, 16), rows = 1 + draw_below(&r, 10);
    make_mixed(&m, &arena, &r, cols, rows);
    assert_null(lp_fault(&m));
    const struct lp_answer *a = lp_solve_mixed(lp_open(&m, 0, &arena), NULL);
    counts[a->status]++;
    const char *fault = a->status == LP_OPTIMAL ? not_mixed(&m, a->x) : NULL;
    if (fault) fail_msg("mixed %d: %s", k, fault);
    asked[k] = (struct asked){a->status, a->objective, "mixed"};
    struct oracle o = oracle_solve_mixed(&m);
    if (!same(&asked[k], o.status, o.objective))
      fail_msg("mixed %d: GLPK says %d %.10g, ours is %d %.10g", k, (int)o.status, o.objective, (int)a->status,
               a->objective);
    write_model(f.file, &m, true, &arena);
    arena_free(&arena);
  }
  int highs = ask_highs(&f, models, true);
  print_message("%d mixed models (%d optimal, %d impossible); GLPK agrees always, HiGHS disagrees %d times\n", models,
                counts[LP_OPTIMAL], counts[LP_INFEASIBLE], highs);
  assert_true(counts[LP_OPTIMAL] > models / 2);
  assert_true(highs <= models / 200 + 1);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(continuous_programs_agree), cmocka_unit_test(mixed_programs_agree)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
