/* measure.h: the journal's weights and what was eaten, in kcal, as trend/trend.h wants them. Private to this folder. */
#ifndef BW_APP_MEASURE_H
#define BW_APP_MEASURE_H

#include "app/app.h"
#include "journal/journal.h"
#include "trend/trend.h"

struct app_diary {
  const struct journal *journal;
  int animal;                        /* index in it */
  struct trend_input in;             /* of what it holds; until and what comes next are the caller's */
  const struct dated_weight *weight; /* one for each of in.weight, with its line */
  long first, last;                  /* days with an entry; 0 without one */
  size_t days_partly;                /* something was eaten whose energy is known in part only: not known */
  const char *partly_from;           /* what was written of it, the first time; as words to be told */
  size_t days_in_part;               /* something was eaten of which nothing is known */
  size_t days_far;                   /* much more was eaten than can be right: not known; the first of them, and its kcal */
  long far_day;
  double far_kcal, usual_kcal;
  size_t days_unread; /* something was eaten whose food was not understood: complained about, and not known */
};

/* What a journal is read with when one animal alone is asked about: the others' lines are left out. */
void app_journal_only(const struct app_check_request *q, const char *name, struct journal_known *known, struct arena *arena);

/* False when the journal's text was not understood, or has no such animal: complaints are in 'd', which has begun. Foods
 * that are not understood are warnings: their days are not known. 'level': of the complaint that the journal has no such
 * animal. */
bool app_read_diary(const struct library *lib, const struct app_check_request *q, const struct animal *animal,
                    enum diag_level level, struct app_diary *out, struct diags *d, struct arena *arena) MUST_USE;

/* Why such days are not known; "" when there are none. */
const char *app_partly_words(const struct app_diary *diary, struct arena *arena);

/* Nine chances in ten lie within this share of the equation's need, on either side. */
double app_equation_half(const struct library *lib, enum species species);
/* Is the need of the journal surer than that? */
bool app_is_surer(const struct library *lib, enum species species, const struct trend_result *t);
/* NULL when it is not surer than the equation. */
const struct measured_energy *app_measured(const struct library *lib, enum species species, const struct app_diary *diary,
                                           const struct trend_result *t, struct arena *arena);

/* With a journal in 'q', *animal becomes one whose need is measured, if that is surer; else 'd' says why not. Animals that
 * get no verdict stay as they are. */
bool app_measure_animal(const struct library *lib, const struct app_check_request *q, const struct animal **animal,
                        struct diags *d, struct arena *arena) MUST_USE;
/* The same; *trend: that of the journal, NULL without one. */
bool app_measure_by_trend(const struct library *lib, const struct app_check_request *q, const struct animal **animal,
                          const struct trend_result **trend, struct diags *d, struct arena *arena) MUST_USE;

#endif
