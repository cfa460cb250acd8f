/* unit_random.h: numbers between 0 and 1, the same on every machine; 'seed' says where they begin. */
#ifndef BW_UNIT_RANDOM_H
#define BW_UNIT_RANDOM_H

static unsigned long long seed;

static inline double unit_random(void) {
  seed = seed * 6364136223846793005ull + 1442695040888963407ull;
  return (double)(seed >> 11) / 9007199254740992.0;
}
static inline int below(int n) { return (int)(unit_random() * n) % n; }

#endif
