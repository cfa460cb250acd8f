/* The calls of the WebAssembly module in a native program: medians in milliseconds, one call a line. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

void *bw_alloc(size_t n);
int bw_open(const void *bytes, size_t n);
int bw_ask(const char *animals, size_t n, const char *request, size_t request_n);
int bw_page(const char *recipe, size_t n, const char *request, size_t request_n);
int bw_foods(const char *words, size_t n, int most);
int bw_swap(const char *recipe, size_t n, const char *request, size_t request_n);
int bw_mend(const char *recipe, size_t n, const char *larder, size_t larder_n, const char *request, size_t request_n);

struct text {
  char *p;
  size_t n;
};

static struct text file(const char *folder, const char *name) {
  char path[4096];
  snprintf(path, sizeof path, "%s%s%s", folder, name[0] ? "/" : "", name);
  FILE *f = fopen(path, "rb");
  if (!f || fseek(f, 0, SEEK_END) != 0) exit(6);
  long n = ftell(f);
  rewind(f);
  struct text t = {bw_alloc((size_t)n), (size_t)n};
  if (fread(t.p, 1, t.n, f) != t.n) exit(6);
  fclose(f);
  return t;
}

static double now_ms(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static int by_size(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static struct text recipe;

static void call(const char *what) {
  if (strcmp(what, "numbers") == 0) bw_page(recipe.p, recipe.n, "numbers-only", 12);
  if (strcmp(what, "review") == 0) bw_page(recipe.p, recipe.n, "", 0);
  if (strcmp(what, "foods") == 0) bw_foods("lamb should", 11, 12);
  if (strcmp(what, "swap") == 0) bw_swap(recipe.p, recipe.n, "line=5\nmost=8", 13);
  if (strcmp(what, "mend") == 0) bw_mend(recipe.p, recipe.n, "", 0, "", 0);
}

static void measure(const char *what, int times) {
  double ms[200];
  for (int i = 0; i < times && i < 20; i++) call(what);
  for (int i = 0; i < times; i++) {
    double began = now_ms();
    call(what);
    ms[i] = now_ms() - began;
  }
  qsort(ms, (size_t)times, sizeof *ms, by_size);
  printf("%s %f\n", what, ms[times / 2]);
}

int main(int count, char **word) {
  if (count != 3) return 2;
  struct text library = file(word[1], ""), animals = file(word[2], "saltmarsh.animals");
  recipe = file(word[2], "weeknight-bowl.recipe");
  if (bw_open(library.p, library.n) != 0) return 6;
  if (bw_ask(animals.p, animals.n, "today=2026-11-25", 16) != 0) return 2;
  measure("numbers", 200);
  measure("review", 100);
  measure("foods", 200);
  measure("swap", 10);
  measure("mend", 2);
  return 0;
}
