/* patterns.h: classes of foods that share a pattern (data/patterns.tsv), shared by the steps that estimate. */
#ifndef BW_LIBRARY_PATTERNS_H
#define BW_LIBRARY_PATTERNS_H

#include "library/match.h"
#include "library/ratio_fit.h"

struct pattern_class {
  const char *name;
  int parent;      /* index, -1 none */
  int least;       /* independent analyses needed for an estimate */
  bool amino_only; /* its fatty acids come from elsewhere (fish in vegetable oil) */
};

struct pattern_classes {
  struct pattern_class *class;
  int count;
  int *of_food; /* [food]: a food's own class, -1 none */
};

void pattern_classes_read(struct pattern_classes *p, struct foods_build *b, const char *data_dir);
/* Is 'c' the class 'own' or one of its parents? */
bool pattern_class_holds(const struct pattern_classes *p, int c, int own);

struct teachers { /* records with published acids */
  struct build_food **food;
  int *own_class, *amino_group, *fatty_group; /* records of one analysis share a group; -1: nothing published */
  size_t count;
};
/* contradicted.c: amino acids that every other analysis of the class contradicts become unknown again, so that the class
 * speaks for them; writes IMG_SET_ASIDE and a row of the quarantine. */
void set_aside_contradicted(struct foods_build *b, const struct pattern_classes *p, const struct teachers *t);

/* Rows of IMG_PATTERNS while they grow. */
struct pattern_rows {
  struct img_pattern *row;
  size_t count, cap;
};
/* A row for estimates to come; 'source' of a value that rests on it is pattern_rows_source. */
size_t pattern_rows_add(struct pattern_rows *rows, struct foods_build *b, const char *name, struct img_pattern figures);
uint16_t pattern_rows_source(const struct foods_build *b, size_t row);

/* An estimate may be at most this far off. Wide, because "a trace" (EPA of red meat) is known better than "unknown" says. */
#define PATTERN_WIDEST_ERROR 1.2

/* A single food, raw or plainly prepared, nothing added: only such records teach and receive the estimates of blanks.c. */
bool blanks_is_plain(const struct build_food *f);
/* Is the nutrient one that blanks.c looks after? */
bool blanks_is_estimated(enum nutrient n);

/* blanks.c: vitamins, minerals and the like that a table leaves blank, from the plain foods of the same class. */
void fill_blanks(struct foods_build *b, const struct pattern_classes *p, struct pattern_rows *rows);

#endif
