/* checksum.c: one number over all bits of the answers of a fixed corpus; see lp_same_bits_test.sh. */
#include <stdio.h>

#include "models.h"

static uint64_t sum = 1469598103934665603ULL;

static void take(const void *data, size_t n) {
  const unsigned char *p = data;
  for (size_t i = 0; i < n; i++) sum = (sum ^ p[i]) * 1099511628211ULL;
}

static void take_answer(const struct lp_model *m, const struct lp_answer *a) {
  take(&a->status, sizeof a->status);
  take(&a->pivots, sizeof a->pivots);
  take(&a->nodes, sizeof a->nodes);
  if (!a->has_x) return;
  take(a->x, m->cols * sizeof *a->x);
  take(a->activity, m->rows * sizeof *a->activity);
  take(a->dual, m->rows * sizeof *a->dual);
}

int main(void) {
  for (uint64_t seed = 0; seed < 600; seed++) {
    struct arena arena;
    struct lp_model m;
    arena_init(&arena, NULL);
    make_any(&m, &arena, seed);
    struct lp_solver *s = lp_open(&m, 0, &arena);
    take_answer(&m, lp_solve(s, NULL));
    take_answer(&m, lp_polish(s, NULL));
    struct draw r = draw_from(seed);
    make_mixed(&m, &arena, &r, 12, 6);
    take_answer(&m, lp_solve_mixed(lp_open(&m, 0, &arena), NULL));
    arena_free(&arena);
  }
  printf("%016llx\n", (unsigned long long)sum);
  return 0;
}
