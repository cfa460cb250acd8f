/* tiny_image.h: a food library of a few foods and figures, made in memory, for tests.
 *
 * Fill it, then tiny_open() once: the same reader checks it that checks the real file. A new food holds nothing of
 * anything (VALUE_NONE) until a value is set; set VALUE_UNKNOWN with tiny_unknown(). */
#ifndef BW_TINY_IMAGE_H
#define BW_TINY_IMAGE_H

#include "foods/library.h"
#include "judge/animal.h"
#include "judge/ration.h"

enum { TINY_MOST = 64 };

struct tiny {
  struct arena *arena;
  char strings[8192];
  size_t string_bytes;
  struct img_source source[2];
  struct img_food food[TINY_MOST];
  struct img_value value[TINY_MOST][NUT_COUNT];
  size_t foods;
  struct img_class_value class_value[SPREAD_CLASS_COUNT][NUT_COUNT];
  struct img_allowance allowance[4 * TINY_MOST];
  size_t allowances;
  struct img_window window[TINY_MOST];
  size_t windows;
  struct img_energy energy[TINY_MOST];
  size_t energies;
  struct img_constant constant[TINY_MOST];
  size_t constants;
  struct img_retention retention[4];
  size_t retentions;
  struct library lib;
};

/* With the constants of data/constants.tsv that the arithmetic needs (sources stand there), and nothing else. */
struct tiny *tiny_new(struct arena *arena);
img_text tiny_text(struct tiny *t, const char *s);

uint32_t tiny_food(struct tiny *t, const char *code, enum part part, enum spread_class spread);
void tiny_value(struct tiny *t, uint32_t food, enum nutrient n, double mean, double cv); /* measured */
void tiny_status(struct tiny *t, uint32_t food, enum nutrient n, enum value_status status);
void tiny_unknown(struct tiny *t, uint32_t food, enum nutrient n);
void tiny_class_high(struct tiny *t, enum spread_class c, enum nutrient n, double high);
/* at_kcal NaN: none. */
struct img_allowance *tiny_allowance(struct tiny *t, enum standard_id std, enum species s, enum nutrient n,
                                     enum allow_level level, enum allow_basis basis, double amount, double at_kcal);
void tiny_window(struct tiny *t, int species, enum nutrient n, int days, bool highest_day);
struct img_energy *tiny_energy(struct tiny *t, const char *words, enum species s, int activity, int neutered, double factor,
                               double exponent);
/* Adds it, or changes it when it is there. */
void tiny_constant(struct tiny *t, const char *key, int species, double value);
/* All factors 1, published; change them before tiny_open(). Returns the index for a portion. */
int32_t tiny_retention(struct tiny *t);

const struct library *tiny_open(struct tiny *t);

/* A healthy adult of that species and weight, four years old. */
struct animal tiny_animal(enum species s, double kg);
/* A line of one food, eaten on every day. */
struct ration_line tiny_line(uint32_t food, double grams);
/* The same on so many days of 28. */
struct ration_line tiny_line_on(uint32_t food, double grams, double times_per_28, int offset);
struct ration tiny_ration(const struct ration_line *line, size_t count);

#endif
