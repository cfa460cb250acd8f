/* bench_kit.h: what benchmarks share: a file, the food library in it, and a clock. Whatever cannot be read ends the program.
 */
#ifndef BW_BENCH_KIT_H
#define BW_BENCH_KIT_H

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "foods/library.h"

/* The program keeps the bytes to its end; aligned as an image wants them. */
static inline struct span bench_file(const char *path) {
  FILE *f = fopen(path, "rb");
  if (!f || fseek(f, 0, SEEK_END) != 0) exit(6);
  long size = ftell(f);
  char *p = size > 0 ? aligned_alloc(64, ((size_t)size + 63) / 64 * 64) : NULL;
  rewind(f);
  if (!p || fread(p, 1, (size_t)size, f) != (size_t)size) exit(6);
  fclose(f);
  return (struct span){p, (size_t)size};
}

static inline struct library bench_library(const char *path) {
  struct library lib = {0};
  struct span bytes = bench_file(path);
  if (image_open(&lib.image, bytes.p, bytes.n) != IMAGE_FINE) exit(6);
  return lib;
}

/* CLOCK_PROCESS_CPUTIME_ID: what else the machine does meanwhile does not count; CLOCK_MONOTONIC: it does. */
static inline double bench_seconds(clockid_t clock) {
  struct timespec t;
  clock_gettime(clock, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

#endif
