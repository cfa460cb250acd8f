/* recipes.c: how many recipes a second the in-process check computes.
 *
 * Usage: bench_recipes LIBRARY COUNT OUT. Makes COUNT recipes of twelve ordinary foods (fixed seed), checks each for an 18
 * kg dog, prints recipes a second, and writes the same recipes to OUT for the numpy baseline: header (foods, nutrients,
 * recipes, lines), the values per 100 g of the foods used (unknown as 0), then per recipe twelve food numbers and grams; all
 * little-endian float64. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "bench/bench_kit.h"
#include "judge/check.h"
#include "judge/memory.h"

enum { LINES = 12, FOODS_USED = 400 };

static uint64_t seed = 20260401;
static uint32_t draw(uint32_t below) {
  seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
  return (uint32_t)(((seed >> 32) * below) >> 32);
}

static void put(FILE *out, double x) { fwrite(&x, sizeof x, 1, out); }

int main(int argc, char **argv) {
  if (argc != 4) return 2;
  struct library lib = bench_library(argv[1]);
  size_t recipes = strtoul(argv[2], NULL, 10), used = 0;
  uint32_t food[FOODS_USED];
  for (uint32_t i = 0; i < library_count(&lib) && used < FOODS_USED; i++)
    if (library_food(&lib, i)->flags & FOOD_PLAIN) food[used++] = i;

  struct arena setup, answer;
  arena_init(&setup, NULL);
  arena_init(&answer, NULL);
  lib.judged = judge_memory_new(&setup); /* as each worker on a folder of texts does */
  struct ration *ration = ARENA_NEW(&setup, struct ration, recipes);
  for (size_t r = 0; r < recipes; r++) {
    struct ration_line *line = ARENA_NEW(&setup, struct ration_line, LINES);
    for (int k = 0; k < LINES; k++) {
      double grams = 1 + draw(150);
      line[k] = (struct ration_line){.text = "",
                                     .part_count = 1,
                                     .grams_fed = grams,
                                     .shown_food = food[draw((uint32_t)used)],
                                     .state = STATE_UNSTATED,
                                     .grams_from = ""};
      line[k].part[0] = (struct portion){.food = line[k].shown_food, .grams = grams, .retention = -1};
      ration_spread_days(&line[k], CALENDAR_DAYS, 0);
    }
    ration[r] = (struct ration){.name = "", .days = 1, .meals_per_day = NAN, .line = line, .line_count = LINES};
  }

  struct animal dog = animal_plain(SPECIES_DOG, 18);
  dog.age_years = 6;
  dog.neutered = 1;
  struct check_options options = CHECK_OPTIONS_DEFAULT;
  double total = 0, best = INFINITY;
  for (int round = 0; round < 3; round++) {
    double start = bench_seconds(CLOCK_MONOTONIC);
    for (size_t r = 0; r < recipes; r++) {
      total += check_numbers(&lib, &ration[r], &dog, &options, &answer)->nutrient[NUT_ZINC].amount;
      arena_free(&answer);
    }
    double took = bench_seconds(CLOCK_MONOTONIC) - start;
    if (took < best) best = took;
  }
  printf("%.9g %.9g\n", (double)recipes / best, total / 3);

  FILE *out = fopen(argv[3], "wb");
  if (!out) return 6;
  put(out, (double)used);
  put(out, NUT_COUNT);
  put(out, (double)recipes);
  put(out, LINES);
  for (size_t i = 0; i < used; i++)
    for (int k = 0; k < NUT_COUNT; k++) {
      struct img_value v = library_values(&lib, food[i])[k];
      put(out, v.status == VALUE_UNKNOWN ? 0 : (double)v.mean);
    }
  for (size_t r = 0; r < recipes; r++)
    for (int k = 0; k < LINES; k++) {
      size_t which = 0;
      while (food[which] != ration[r].line[k].shown_food) which++;
      put(out, (double)which);
      put(out, ration[r].line[k].grams_fed);
    }
  return fclose(out) == 0 ? 0 : 6;
}
