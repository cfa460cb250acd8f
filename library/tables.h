/* tables.h: what the readers of our own tables share.
 *
 * pipeline.c runs them; tables_allowances.c has the standards, windows, energy equations and single figures;
 * tables_cooking.c retention and yields; tables_words.c hazards, densities and findings. A fault ends the program with file,
 * line, column. */
#ifndef BW_LIBRARY_TABLES_H
#define BW_LIBRARY_TABLES_H

#include "library/writer.h"

/* ORDER SPECIES: dog, cat, then both, as the tables spell them. */
uint8_t table_species(const struct tsv *t, size_t row);
uint8_t table_confidence(const struct tsv *t, size_t row);
enum nutrient table_nutrient(const struct tsv *t, size_t row, const char *column);
/* "yes", "no" or empty (which is 'empty'). */
bool table_yes(const struct tsv *t, size_t row, const char *column, bool empty);
img_text table_text(struct writer *w, const struct tsv *t, size_t row, const char *column);
/* A number that must be there, at least 'least'. */
double table_figure(const struct tsv *t, size_t row, const char *column, double least);
/* Opens data_dir/name with the columns wanted. */
void table_open(struct tsv *t, struct writer *w, const char *data_dir, const char *name, const char *const *columns);

void build_allowances(struct writer *w, const char *data_dir);
void build_windows(struct writer *w, const char *data_dir);
void build_energy(struct writer *w, const char *data_dir);
void build_constants(struct writer *w, const char *data_dir);
void build_retention(struct writer *w, const char *data_dir);
void build_yields(struct writer *w, const char *data_dir);
void build_hazards(struct writer *w, const char *data_dir);
void build_densities(struct writer *w, const char *data_dir);
void build_household(struct writer *w, const char *data_dir);
void build_kitchen(struct writer *w, const char *data_dir); /* tables_kitchen.c */
/* The alternatives of a cell, each as the search would fold it. */
struct span table_folded_words(struct writer *w, struct span words);
void build_food_groups(struct writer *w, const char *data_dir); /* tables_groups.c */
void build_uncounted(struct writer *w, const char *data_dir);   /* tables_uncounted.c */
void build_findings(struct writer *w, const char *data_dir);

#endif
