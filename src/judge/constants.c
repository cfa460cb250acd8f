#include "judge/constants.h"

static const char *const KEY[JUDGE_CONSTANT_COUNT] = {
#define KEY_OF(key) [JUDGE_##key] = K_##key,
    JUDGE_CONSTANTS(KEY_OF)
#undef KEY_OF
};

double judge_constant(const struct totals *t, enum judge_constant c, enum species s) {
  return t->constant ? t->constant[c] : library_constant_value(t->lib, KEY[c], s);
}

const double *judge_constants(const struct library *lib, enum species s, struct arena *arena) {
  double *all = ARENA_NEW(arena, double, JUDGE_CONSTANT_COUNT);
  for (int i = 0; i < JUDGE_CONSTANT_COUNT; i++) all[i] = library_constant_value(lib, KEY[i], s);
  return all;
}
