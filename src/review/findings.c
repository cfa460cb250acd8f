#include "review/findings.h"

#include <math.h>

#include "judge/meal.h"
#include "review/findings_internal.h"

/* ---- one thing is said once ------------------------------------------------------------------------------------ */

static bool silenced(const struct review *r, const char *id) {
  for (size_t i = 0; i < r->silenced_count; i++)
    if (strcmp(r->silenced[i], id) == 0) return true;
  return false;
}

static void drop_repeats(struct review *r) {
  size_t kept = 0;
  for (size_t i = 0; i < r->count; i++) {
    const struct finding *f = &r->item[i].f;
    bool repeat = silenced(r, f->id);
    for (size_t k = 0; k < kept && !repeat; k++)
      repeat = strcmp(r->item[k].f.id, f->id) == 0 && strcmp(r->item[k].f.text, f->text) == 0;
    if (!repeat) r->item[kept++] = r->item[i];
  }
  r->count = kept;
}

/* ---- order ----------------------------------------------------------------------------------------------------- */

static bool comes_first(const struct finding *a, const struct finding *b) {
  if (a->weight != b->weight) return a->weight < b->weight;
  return a->order < b->order;
}

/* Insertion: a few dozen items, and equal ones keep the order in which they were found. */
static void sort_findings(struct finding *f, size_t n) {
  for (size_t i = 1; i < n; i++) {
    struct finding x = f[i];
    size_t k = i;
    for (; k > 0 && comes_first(&x, &f[k - 1]); k--) f[k] = f[k - 1];
    f[k] = x;
  }
}

static void hand_out(struct review *r) {
  struct finding *out = ARENA_NEW(r->arena, struct finding, r->count);
  for (size_t i = 0; i < r->count; i++) out[i] = r->item[i].f;
  sort_findings(out, r->count);
  r->result->finding = out;
  r->result->finding_count = r->count;
}

/* After folding: what is told in a list needs no remedy of its own. */
static void write_remedies(struct review *r) {
  for (size_t i = 0; i < r->count; i++) {
    struct noted *n = &r->item[i];
    if (n->gap) n->f.remedy = review_fill_fix(r, n->f.remedy, remedy_for(r, n->gap, &n->f.covers));
  }
}

void findings_write(const struct library *lib, struct check_result *result, struct arena *arena) {
  struct review r = {.lib = lib, .result = result, .arena = arena, .row_letters = review_letters(lib, arena)};
  findings_dangers(&r);
  if (meal_is_part(result)) { /* what is short then is everything, or nobody knows what is */
    if (meal_is_none(result))
      findings_no_meal(&r);
    else
      findings_unread(&r);
    findings_over(&r);
    findings_uncounted(&r);
    findings_raw(&r);
  } else if (result->ration->line_count > 0) {
    if (review_judged(&r)) {
      findings_energy(&r);
      findings_verdicts(&r);
      findings_rests(&r);
      findings_animal(&r);
      findings_quiet(&r);
      findings_records(&r);
    }
    findings_minerals(&r);
    findings_fats(&r);
    findings_foods(&r);
    findings_uncounted(&r);
    findings_raw(&r);
  }
  drop_repeats(&r);
  findings_fold(&r);
  write_remedies(&r);
  review_end(&r);
  hand_out(&r);
}

bool findings_say(const struct check_result *result, const char *id) {
  for (size_t i = 0; result && i < result->finding_count; i++)
    if (strcmp(result->finding[i].id, id) == 0) return true;
  return false;
}

bool findings_mark_line(const struct check_result *result, int line) {
  for (size_t i = 0; line > 0 && i < result->finding_count; i++)
    if (result->finding[i].line == line && result->finding[i].danger) return true;
  return false;
}
