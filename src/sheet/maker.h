/* maker.h: the parts of a sheet, each of which adds its blocks. Private to this folder. Layer: sheet. */
#ifndef BW_SHEET_MAKER_H
#define BW_SHEET_MAKER_H

#include "sheet/sheet.h"
#include "words/words.h"

struct maker {
  const struct sheet_facts *f;
  const struct check_result *r;
  const struct sheet_style *style;
  struct sheet *s;
  struct arena *arena;
};

bool sheet_judged(const struct maker *m);

/* ---- blocks; texts are made safe for any surface ---- */
void add_heading(const struct maker *m, const char *text);
void add_paragraph(const struct maker *m, enum sheet_tone tone, const char *text); /* "" adds nothing */
void add_point(const struct maker *m, const char *text);
void add_box(const struct maker *m, enum sheet_tone tone, const char *text, const char *why, const char *remedy);
void add_picture(const struct maker *m, const struct drawing *d);
struct sheet_table *add_table(const struct maker *m, const char *caption, const struct sheet_column *column, int columns);
/* A row with an empty cell for each column. */
struct sheet_cell *add_row(const struct maker *m, struct sheet_table *t);
void add_row_across(const struct maker *m, struct sheet_table *t, const char *text);
/* Without what no page may hold; the animal's and the recipe's own name set apart where they run from right to left. */
const char *clean(const struct maker *m, const char *text);

/* ---- figures ---- */
const char *mass(const struct maker *m, double grams);      /* on a kitchen scale */
const char *shop_mass(const struct maker *m, double grams); /* in a shop: rounded up */
const char *volume(const struct maker *m, double ml);       /* rounded up */
const char *money(const struct maker *m, double x);
/* "1 1/2", "0.35" */
const char *count_words(const struct maker *m, double x);
const char *days_words(const struct maker *m, double low, double high, const char *one, const char *many);

/* ---- parts, in their order ---- */
void make_head(const struct maker *m);    /* title, dangers, refusal, the verdict, energy */
void make_kitchen(const struct maker *m); /* bowl, batch, shopping */
void make_keeping(const struct maker *m); /* fridge, freezer, thawing, changing over */
void make_findings(const struct maker *m);
void make_nutrients(const struct maker *m);   /* rails with figures */
void make_supplies(const struct maker *m);    /* who supplies the nutrients asked for */
void make_composition(const struct maker *m); /* without verdicts */
void make_unknown(const struct maker *m);
void make_sources(const struct maker *m);

#endif
