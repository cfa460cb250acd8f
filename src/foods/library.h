/* library.h: the foods, those of the image and those that the user brought along.
 *
 * A food is an index: 0 .. image foods - 1, then own foods. Layer: foods. */
#ifndef BW_LIBRARY_H
#define BW_LIBRARY_H

#include "base/arena.h"
#include "foods/image.h"

/* A food of the user's own: a label. Same record as the image's, but its texts are plain pointers. */
struct own_food {
  struct img_food food;           /* its img_text fields are unused; bone_food, hazard NO_INDEX; flags FOOD_OWN */
  const char *code, *name, *note; /* "mine:zinc-15", "Zinc tablets" */
  struct img_value value[NUT_COUNT];
  const char *unit_word; /* "tablet": the piece that "Per: 1 tablet (0.4 g)" speaks of; NULL when per 100 g or per gram */
  double unit_g;         /* grams of one such piece; NaN when the label does not say */
};

/* A row of a standard that the user copied from its book: used in place of the image's rows for the same figure. */
struct own_allowance {
  struct img_allowance row; /* 'row': line of the file; 'printed' and 'note' unused */
  const char *printed;      /* "2.0 mg/kg^0.75", as written */
  const char *place;        /* "rows.txt, line 3, p. 359" */
};

struct search_memory; /* search.h */
struct hazard_said;   /* hazard_words.h */
struct judge_memory;  /* judge/memory.h */

struct library {
  struct image image;
  const struct own_food *own; /* [own_count] */
  size_t own_count;
  const struct own_allowance *own_allowance; /* [own_allowance_count] */
  size_t own_allowance_count;
  const char *own_allowance_file;         /* for people; NULL without own rows */
  struct search_memory *searched;         /* of whoever asks for the same words again and again; NULL nothing is kept */
  const struct hazard_said *hazards_said; /* of whoever looks for dangers in many texts; NULL nothing is kept */
  struct judge_memory *judged;            /* of whoever judges one ration after the other; NULL nothing is kept */
};

size_t library_count(const struct library *lib);
/* The label of an own food; NULL for a food of the image. */
const struct own_food *library_own(const struct library *lib, uint32_t food);
const struct img_food *library_food(const struct library *lib, uint32_t food);
/* A seasoning, by the group of its table: strong in everything, and fed by the pinch. */
bool food_is_spice(const struct library *lib, const struct img_food *f);
const char *library_code(const struct library *lib, uint32_t food);
const char *library_name(const struct library *lib, uint32_t food);
const char *library_note(const struct library *lib, uint32_t food);
/* NUT_COUNT values per 100 g. */
const struct img_value *library_values(const struct library *lib, uint32_t food);
/* The household measures of a record, and their number; an own food has none, its label says what it is counted by. */
const struct img_measure *library_measures(const struct library *lib, uint32_t food, size_t *count);
/* "usda:13325", "cut:duck-neck", "mine:zinc-15"; NO_INDEX when there is no such record. */
uint32_t library_by_code(const struct library *lib, struct span code);
/* Source row of a value or food; row 0 is "no source". Own foods give the row "label" a title of its own. */
const struct img_source *library_source(const struct library *lib, uint32_t source);
/* Source row of a value: for an estimate that of the way it was made, "class_pattern" for one from a pattern. */
uint32_t library_value_source(const struct library *lib, const struct img_value *v);
/* The pattern that an estimate rests on; NULL for every other value. */
const struct img_pattern *library_value_pattern(const struct library *lib, const struct img_value *v);
/* What the table prints and the class contradicts; NULL where nothing was set aside. */
const struct img_set_aside *library_set_aside(const struct library *lib, uint32_t food, enum nutrient n);
/* Rows of all standards: the user's own, then the image's; NULL for one of the image that an own row replaces (any with its
 * standard, species, nutrient and level). */
size_t library_allowance_count(const struct library *lib);
const struct img_allowance *library_allowance(const struct library *lib, size_t i);
/* The figure as printed, or as the user wrote it. */
const char *library_allowance_printed(const struct library *lib, const struct img_allowance *row);
/* Where an own row stands; NULL for rows of the image. */
const char *library_allowance_place(const struct library *lib, const struct img_allowance *row);
/* Text of the image. */
static inline const char *lib_str(const struct library *lib, img_text t) { return img_str(&lib->image, t); }

/* A row of data/findings.tsv by its id; NULL if there is none. */
const struct img_finding *library_finding(const struct library *lib, const char *id);

/* A constant of data/constants.tsv for a species (rows for both are found for either); NULL if there is none. */
const struct img_constant *library_constant(const struct library *lib, const char *key, enum species s);
/* Its value; NaN when absent, which shows in every result that needed it. */
double library_constant_value(const struct library *lib, const char *key, enum species s);

#endif
