/* answer.h: the parts of an answer on a ration. Each writes whole lines and leaves a blank line before itself.
 *
 * Layer: report, internal. */
#ifndef BW_REPORT_ANSWER_H
#define BW_REPORT_ANSWER_H

#include "explain/asked.h"
#include "picture/pieces.h"
#include "report/say.h"
#include "words/usual.h"
#include "words/verdicts.h"

struct view {
  struct pen pen;
  const struct library *lib;
  const struct check_result *r;
};

/* ---- shared pieces (pieces.c) ---------------------------------------------------------------------------------- */
void heading(const struct pen *p, const char *title, const char *aside);
/* Items held together and set apart, wrapped; empty ones are left out. */
void legend(const struct pen *p, const char *const *item, size_t count);
/* The cell of a place from 0 to 1 on a ribbon of so many columns. */
int ribbon_cell(int columns, double place);
/* The pieces in their places, and under them what each is. */
void ribbon_fill(struct row *r, int column, int columns, const struct pieces *p);
void ribbon_legend(const struct pen *p, int column, const struct pieces *pieces);
/* "lamb shoulder 59 %, duck neck 12 % and 4 more"; within a sentence "lamb shoulder (59 %), duck neck (12 %) and 4 more" */
const char *supplier_words(const struct view *v, const struct supplier *from, size_t count, int most);
const char *suppliers_in_words(const struct view *v, const struct supplier *from, size_t count, int most);
/* "duck neck and cooked millet": lines that have no value. */
const char *missing_words(const struct view *v, const struct nutrient_result *n, int most);

/* ---- parts of the answer --------------------------------------------------------------------------------------- */
struct post;
void answer_left_out(const struct view *v, const struct post *post); /* of a posted text */
void answer_asked(const struct view *v, const struct post *post);    /* what the owner asks */
void answer_posted(const struct view *v, const struct post *post);   /* questions and assumptions */
void answer_title(const struct view *v);
void answer_dangers(const struct view *v); /* toxic foods, cooked bone: above everything */
void answer_verdict(const struct view *v);
void answer_energy(const struct view *v);
void answer_energy_need(const struct view *v); /* the band alone, without a bowl */
void answer_findings(const struct view *v);
void answer_rails(const struct view *v);
void answer_quiet(const struct view *v);
void answer_ratio(const struct view *v, const struct ratio_view *q);
void answer_balance(const struct view *v);
void answer_parts(const struct view *v);
void answer_lines(const struct view *v);
void answer_footnote(const struct view *v);
void answer_refusal(const struct view *v);
void answer_composition(const struct view *v);

/* "NRC 2006, by body weight", and with the metabolic weight behind it. */
const char *standard_in_short(const struct view *v);
const char *standard_words(const struct view *v);
/* How many of the standard's figures used here are not confirmed; out of how many. */
int unconfirmed_figures(const struct check_result *r, int *all);

#endif
