/* swap_bench.c: one line against the library, once for time and once written out for the numpy form of the same work.
 *
 * Usage: swap_bench LIBRARY OUT. Prints the seconds of the best of many passes, of opening (the one-time table), the number
 * of offers and of nutrients; writes to OUT (little-endian float64 unless said) the arrays that the baseline works on. The
 * ration is twelve plain foods (fixed seed) for an 18 kg dog, a food of average energy goes out, and every plain food of the
 * library that can take its place is on offer. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "change/swap_parts.h"

enum { LINES = 12, PASSES = 60 };

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

static double seconds(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static struct ration_line line_of(uint32_t food, double grams) {
  struct ration_line l = {
      .text = "", .part_count = 1, .grams_fed = grams, .shown_food = food, .state = STATE_UNSTATED, .grams_from = ""};
  l.part[0] = (struct portion){.food = food, .grams = grams, .retention = -1};
  ration_spread_days(&l, CALENDAR_DAYS, 0);
  return l;
}

static void put(FILE *out, double x) { fwrite(&x, sizeof x, 1, out); }
static void put_row(FILE *out, const double *x, size_t n) { fwrite(x, sizeof *x, n, out); }

/* Offers that the pass itself judges; the few others go to the judge in either form and are left out of both. */
static size_t ordinary(const struct library *lib, const struct ration *r, struct ration_line *offer) {
  size_t n = 0;
  for (uint32_t f = 0; f < library_count(lib); f++) {
    bool there = (library_food(lib, f)->flags & FOOD_RAW_WHITE) != 0;
    for (size_t i = 0; i < r->line_count; i++) there = there || r->line[i].shown_food == f;
    if (!there) offer[n++] = line_of(f, 1);
  }
  return n;
}

static void write_out(const struct swap *s, const char *path) {
  FILE *out = fopen(path, "wb");
  size_t n = s->ask.offers;
  if (!out) exit(6);
  put(out, (double)n);
  put(out, (double)s->rows);
  put(out, normal_quantile(s->ask.options.sure));
  put_row(out, s->grams_exact, n);
  put_row(out, s->fat_mg, n);
  put_row(out, s->kcal, n);
  put(out, s->rest_for_fat);
  put(out, s->rest_kcal);
  for (size_t i = 0; i < s->rows; i++) {
    const struct swap_row *r = &s->row[i];
    const double head[] = {(double)r->n,
                           r->waived,
                           r->allowance.fixed,
                           r->minimum.fixed,
                           r->ceiling_fixed ? r->upper.fixed : (double)NAN,
                           r->ceiling_per_kcal ? r->upper.per_kcal : (double)NAN,
                           r->rest.worst,
                           r->rest.worst_cv,
                           r->rest.worst_most};
    put_row(out, head, COUNT_OF(head));
    put_row(out, r->mean_exact, n);
    put_row(out, r->variance_exact, n);
    put_row(out, r->most_exact, n);
    for (size_t k = 0; k < n; k++) put(out, (double)r->verdict[k]);
  }
  if (fclose(out) != 0) exit(6);
}

int main(int argc, char **argv) {
  if (argc != 3) return 2;
  size_t bytes_n;
  struct library lib = {0};
  void *bytes = read_whole(argv[1], &bytes_n);
  if (image_open(&lib.image, bytes, bytes_n) != IMAGE_FINE) return 6;
  struct arena arena;
  arena_init(&arena, NULL);
  struct ration_line line[LINES], *offer = ARENA_NEW(&arena, struct ration_line, library_count(&lib));
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
  struct swap_ask ask = {&lib, &r, 0, &dog, CHECK_OPTIONS_DEFAULT, true, offer, ordinary(&lib, &r, offer)};
  double start = seconds();
  struct swap *s = swap_open(&ask, &arena);
  double opened = seconds() - start, best = INFINITY;
  size_t top[20];
  for (int i = 0; i < PASSES; i++) {
    start = seconds();
    swap_pass(s);
    swap_best(s, top, COUNT_OF(top));
    double took = seconds() - start;
    if (took < best) best = took;
  }
  printf("%.9g %.9g %zu %zu\n", best, opened, s->ask.offers, s->rows);
  write_out(s, argv[2]);
  arena_free(&arena);
  free(bytes);
  return 0;
}
