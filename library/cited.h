/* cited.h: figures from named sources that stand beside the food tables (data/cited*.tsv, data/ifct_pairs.tsv). */
#ifndef BW_LIBRARY_CITED_H
#define BW_LIBRARY_CITED_H

#include "library/match.h"

struct cited_food {
  struct span key, class;
  struct food_rule rule;
  bool salted_too;
};

/* What several sources together say of one nutrient in one food, in the nutrient's unit per 100 g. */
struct cited_figure {
  enum nutrient nutrient;
  const struct cited_food *food;
  double sum;         /* of the sources' means, those that found none left out */
  double low, high;   /* over all sources and their ranges */
  int sources, zeros; /* zeros: sources that found none beside others that did */
  uint16_t source;    /* the first one named */
};

struct cited_tables {
  struct cited_figure *figure;
  size_t figures;
  struct cited_food *food;
  size_t foods;
  bool *fits;                    /* [foods] room for the food at hand */
  double usual_error[NUT_COUNT]; /* how far sources usually lie apart for one food; see cited_error */
};

void cited_read(struct cited_tables *c, struct arena *arena, const char *data_dir);
double cited_mean(const struct cited_figure *f);
/* Coefficient of variation: that of a lognormal whose 5th and 95th percentile are the lowest and highest figure, but at
 * least the median of that over the foods which two or more sources report: a lone figure, or two that happen to agree, are
 * no surer than the rest. */
double cited_error(const struct cited_tables *c, const struct cited_figure *f);

/* cited_classes.c: foods that take the mean of their class; cooked records by way of the raw one; chloride by way of salt.
 */
void cited_cooked(struct foods_build *b, const char *data_dir);
/* raw: the classes of raw foods, which come before cooking; else the others. */
void cited_by_class(struct foods_build *b, const struct cited_tables *c, const char *data_dir, bool raw);
void cited_chloride_of_salt(struct foods_build *b);

#endif
