/* no_journal.c: in place of app/measure.c in the module of the first calls (reactor.c). A page asks about a journal when its
 * days are opened, and by then it has the whole module; without this, every first visit would wait for the reader of
 * journals and the estimator of needs. Layer: above app. */
#include "app/measure.h"

bool app_measure_animal(const struct library *lib, const struct app_check_request *q, const struct animal **animal,
                        struct diags *d, struct arena *arena) {
  (void)lib, (void)animal, (void)arena;
  if (!q->journal) return true;
  diag_say(d, DIAG_ERROR, DIAG_REQUEST, (struct span){NULL, 0}, "a journal is read by the whole module only");
  return false;
}
