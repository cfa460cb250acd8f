/* Steps of the builder that are not there yet: weak stand-ins, so that an image with the rest of it can be built. */
#include <math.h>

#include "library/foods.h"

#if !__has_include("core/unit.c")
#include "core/unit.h"
enum unit unit_by_word(struct span word) { return (void)word, UNIT_NONE; }
double unit_convert(double amount, enum unit u) { return (void)amount, (void)u, 0; }
#endif

#define WEAK __attribute__((weak))

WEAK void build_tables(struct writer *w, const char *data_dir) { (void)w, (void)data_dir; }
WEAK void build_index(struct writer *w, const char *data_dir) { (void)w, (void)data_dir; }
WEAK void complete_amino_fatty(struct foods_build *b, const char *data_dir) { (void)b, (void)data_dir; }
WEAK void complete_cited(struct foods_build *b, const char *data_dir) { (void)b, (void)data_dir; }
WEAK void complete_absent(struct foods_build *b, const char *data_dir) { (void)b, (void)data_dir; }
WEAK void complete_patterns(struct foods_build *b, const char *d) { (void)b, (void)d; }
WEAK void complete_spread(struct foods_build *b, const char *data_dir) {
  (void)data_dir;
  size_t n = (size_t)SPREAD_CLASS_COUNT * NUT_COUNT;
  struct img_class_value *v = ARENA_NEW(b->arena, struct img_class_value, n);
  for (size_t i = 0; i < n; i++) v[i] = (struct img_class_value){NAN, NAN, NAN, 0};
  writer_section(b->w, IMG_CLASSES, v, n, sizeof *v);
}
