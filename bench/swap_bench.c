/* swap_bench.c: every food of the library in one line of a ration, by the judge's form for that and by whole checks.
 *
 * Usage: swap_bench LIBRARY. Prints milliseconds and microseconds a food of both, best of several runs in one process, and
 * their ratio. The ration is twelve plain foods (fixed seed) for an 18 kg dog; the second line of figures is for a ration in
 * which one food is fed twice a week, so that windows are looked at. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "judge/exchange.h"

enum { LINES = 12, RUNS = 7 };

static uint64_t seed = 20260711;
static uint32_t draw(uint32_t below) {
  seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
  return (uint32_t)(((seed >> 32) * below) >> 32);
}

static void *read_whole(const char *path, size_t *n) {
  FILE *f = fopen(path, "rb");
  if (!f || fseek(f, 0, SEEK_END) != 0) exit(6);
  long size = ftell(f);
  void *p = size > 0 ? aligned_alloc(16, ((size_t)size + 15) / 16 * 16) : NULL;
  rewind(f);
  if (!p || fread(p, 1, (size_t)size, f) != (size_t)size) exit(6);
  fclose(f);
  *n = (size_t)size;
  return p;
}

/* Of this process on its core: what else the machine does meanwhile does not count. */
static double seconds(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static struct ration_line line_of(uint32_t food, double grams) {
  struct ration_line l = {
      .text = "", .part_count = 1, .grams_fed = grams, .shown_food = food, .state = STATE_UNSTATED, .grams_from = ""};
  l.part[0] = (struct portion){.food = food, .grams = grams, .retention = -1};
  ration_spread_days(&l, CALENDAR_DAYS, 0);
  return l;
}

struct took {
  double exchange, whole; /* seconds */
};

static double best_of(double a, double b) { return a < b ? a : b; }

static struct took measure(const struct library *lib, const struct ration *r, const struct animal *dog) {
  struct took t = {INFINITY, INFINITY};
  uint32_t foods = (uint32_t)library_count(lib);
  struct check_options o = CHECK_OPTIONS_DEFAULT;
  long met[2] = {0, 0};
  for (int run = 0; run < RUNS; run++) {
    struct arena arena;
    arena_init(&arena, NULL);
    double start = seconds();
    struct exchange *x = exchange_open(lib, r, 0, dog, &o, &arena);
    for (uint32_t f = 0; f < foods; f++) {
      struct ration_line in = line_of(f, 60);
      met[0] += exchange_line(x, &in)->verdict_count[VERDICT_MET];
    }
    exchange_close(x);
    t.exchange = best_of(t.exchange, seconds() - start);
    arena_free(&arena);
    struct ration_line line[LINES];
    struct ration now = *r;
    memcpy(line, r->line, sizeof line);
    now.line = line;
    start = seconds();
    for (uint32_t f = 0; f < foods; f++) {
      line[0] = line_of(f, 60);
      met[1] += check_numbers(lib, &now, dog, &o, &arena)->verdict_count[VERDICT_MET];
      arena_free(&arena);
    }
    t.whole = best_of(t.whole, seconds() - start);
  }
  if (met[0] != met[1]) exit(1);
  return t;
}

static void show(const char *what, struct took t, double foods) {
  printf("%s: %.0f ms for %.0f foods (%.1f us each); whole checks %.0f ms (%.1f us); ratio %.2f\n", what, 1e3 * t.exchange,
         foods, 1e6 * t.exchange / foods, 1e3 * t.whole, 1e6 * t.whole / foods, t.whole / t.exchange);
}

int main(int argc, char **argv) {
  if (argc != 2) return 2;
  size_t bytes_n;
  struct library lib = {0};
  void *bytes = read_whole(argv[1], &bytes_n);
  if (image_open(&lib.image, bytes, bytes_n) != IMAGE_FINE) return 6;
  struct ration_line line[LINES];
  for (int i = 0; i < LINES;) {
    uint32_t f = draw((uint32_t)library_count(&lib));
    if (library_food(&lib, f)->flags & FOOD_PLAIN) line[i++] = line_of(f, 10 + draw(90));
  }
  struct ration r = {.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = LINES};
  struct animal dog = {.name = "",
                       .species = SPECIES_DOG,
                       .weight_kg = 18,
                       .ideal_kg = NAN,
                       .condition = NAN,
                       .age_years = 6,
                       .adult_weight_kg = NAN,
                       .neutered = 1,
                       .activity = ACTIVITY_MODERATE,
                       .energy_kcal = NAN,
                       .status = "healthy",
                       .healthy = true};
  double foods = (double)library_count(&lib);
  show("fed daily", measure(&lib, &r, &dog), foods);
  ration_spread_days(&line[LINES - 1], 8, 0);
  show("one food twice a week", measure(&lib, &r, &dog), foods);
  free(bytes);
  return 0;
}
