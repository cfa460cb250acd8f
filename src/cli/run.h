/* run.h: one run of the program: what every verb has at hand, and the verbs.
 *
 * Layer: cli. */
#ifndef BW_RUN_H
#define BW_RUN_H

#include "cli/system.h"

struct run {
  const struct options *options;
  struct library lib; /* with the own foods of --foods */
  struct report_style style;
  struct date today;
  struct arena *arena; /* lives as long as the run */
};

/* Which of two codes the run ends with: trouble, then input not understood, refused, short or over, computed. */
int worse_code(int a, int b);
/* Warnings and errors of a text on standard error; warnings alone are left out with --quiet. */
void show_diags(const struct run *s, const struct diags *d, struct arena *arena);
/* A note on standard error that --quiet leaves out. */
void note(const struct run *s, const char *fmt, ...) PRINTF_LIKE(2, 3);

/* ---- animals.c: who the answer is for ---- */

struct whom {
  struct animal one_off; /* --dog, --cat */
  bool is_one_off;
  struct app_input animals; /* name NULL: none given */
  const char *name;         /* NULL: the recipe decides */
};
int find_whom(const struct run *s, struct whom *out) MUST_USE;
/* Says on standard error how to give an animal. */
void hint_at_animals(const struct run *s, const struct recipe *recipe);

int verb_check(struct run *s) MUST_USE;
int verb_need(struct run *s) MUST_USE;
int verb_mend(struct run *s) MUST_USE;
int verb_swap(struct run *s) MUST_USE;
int verb_compose(struct run *s) MUST_USE;
int verb_side(struct run *s) MUST_USE;
int verb_foods(struct run *s) MUST_USE;
int verb_food(struct run *s) MUST_USE;
int verb_library(struct run *s) MUST_USE;
int verb_serve(struct run *s) MUST_USE;

#endif
