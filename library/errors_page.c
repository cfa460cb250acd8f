/* errors_page.c: how far off the estimates are, by class and nutrient, as a page of the method (docs/method/estimates.md).
 */
#include <errno.h>
#include <math.h>
#include <stdio.h>

#include "library/errors_page.h"

enum { CLASSES_MOST = 1000 };

struct class_errors {
  struct span name; /* "ruminant muscle, raw" */
  double error[NUT_COUNT], weight[NUT_COUNT];
};

/* "ruminant muscle, raw: the nearest of other kinds" */
static struct span class_of(const char *name) {
  const char *end = strstr(name, ": ");
  return end ? (struct span){name, (size_t)(end - name)} : (struct span){name, 0};
}

static size_t gather(const struct writer *w, struct class_errors *class) {
  const struct img_pattern *row = w->section[IMG_PATTERNS].rows;
  size_t classes = 0;
  for (size_t i = 0; i < w->section[IMG_PATTERNS].count; i++) {
    struct span name = class_of(w->strings.p + row[i].name);
    size_t at = 0;
    if (name.n == 0) continue; /* acids: docs/method/values.md tells their patterns */
    while (at < classes && !span_eq(class[at].name, name)) at++;
    if (at == CLASSES_MOST) build_fail("more than %d classes of estimates", CLASSES_MOST);
    if (at == classes) class[classes++] = (struct class_errors){.name = name};
    class[at].error[row[i].nutrient] += row[i].applied * (double)row[i].cv;
    class[at].weight[row[i].nutrient] += row[i].applied;
  }
  return classes;
}

static void write_class(FILE *f, const struct class_errors *c, const bool *told) {
  fprintf(f, "| %.*s |", SPAN_ARG(c->name));
  for (int n = 0; n < NUT_COUNT; n++) {
    if (!told[n]) continue;
    if (c->weight[n] > 0) {
      fprintf(f, " %.0f |", 100 * c->error[n] / c->weight[n]);
    } else {
      fprintf(f, " |");
    }
  }
  fprintf(f, "\n");
}

void errors_page(const struct writer *w, const char *path) {
  struct class_errors *class = ARENA_NEW(w->arena, struct class_errors, CLASSES_MOST);
  size_t classes = gather(w, class);
  bool told[NUT_COUNT] = {false};
  for (size_t i = 0; i < classes; i++)
    for (int n = 0; n < NUT_COUNT; n++) told[n] |= class[i].weight[n] > 0;
  FILE *f = fopen(path, "w");
  if (!f) build_fail("%s: cannot be written: %s", path, strerror(errno));
  fprintf(f, "# How far off the estimates are\n\n"
             "Written by `bowlwright-library-build PACKAGES DATA OUT docs/method/estimates.md`; a test compares. Error of "
             "the estimates that fill blank\n"
             "vitamins and minerals, as a coefficient of variation in per cent, mean over the records of the class that "
             "received one. Empty: nothing was blank, or\n"
             "nothing could be said within 120 %%. How it is found: [values](values.md). `bowlwright library --all` lists "
             "each way of estimating.\n\n"
             "| class |");
  for (int n = 0; n < NUT_COUNT; n++)
    if (told[n]) fprintf(f, " %s |", nutrient_info[n].name);
  fprintf(f, "\n| --- |");
  for (int n = 0; n < NUT_COUNT; n++)
    if (told[n]) fprintf(f, " ---: |");
  fprintf(f, "\n");
  for (size_t i = 0; i < classes; i++) write_class(f, &class[i], told);
  if (fclose(f) != 0) build_fail("%s: cannot be written: %s", path, strerror(errno));
}
