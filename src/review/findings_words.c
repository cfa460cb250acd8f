/* Words that many findings share: lines, lists, amounts, names; and the small questions they ask of a result. */
#include <math.h>

#include "foods/constant_keys.h"
#include "judge/uncounted.h"
#include "review/findings_internal.h"

/* ---- words ----------------------------------------------------------------------------------------------------- */

const char *line_words(const struct review *r, int line) { return words_line(r->arena, r->lib, r->result->ration, line); }

/* "and 1 more" takes as much room as the name itself. */
const char *list_of_few(const struct review *r, const char *const *word, size_t count, size_t most) {
  return words_list(r->arena, word, count, count == most + 1 ? count : most);
}

const char *unknown_list(const struct review *r, const int *line, size_t count, size_t most) {
  const struct ration *ration = r->result->ration;
  const char **word = ARENA_NEW(r->arena, const char *, count + ration->uncounted_count);
  size_t n = 0;
  for (size_t i = 0; i < ration->uncounted_count; i++)
    if (!uncounted_is_out(r->result, &ration->uncounted[i])) word[n++] = ration->uncounted[i].text;
  for (size_t i = 0; i < count; i++) word[n++] = line_words(r, line[i]);
  return list_of_few(r, word, n, most);
}

const char *lines_list(const struct review *r, const int *line, size_t count, size_t most) {
  const char **word = ARENA_NEW(r->arena, const char *, count);
  for (size_t i = 0; i < count; i++) word[i] = line_words(r, line[i]);
  return list_of_few(r, word, count, most);
}

/* ---- questions ------------------------------------------------------------------------------------------------- */

const struct img_food *food_of_line(const struct review *r, size_t line) {
  return library_food(r->lib, r->result->ration->line[line].shown_food);
}

bool line_is_raw(const struct review *r, size_t line) {
  enum state s = r->result->ration->line[line].state;
  return s == STATE_RAW || (s == STATE_UNSTATED && food_of_line(r, line)->state == STATE_RAW);
}

bool any_line_with_flag(const struct review *r, uint32_t flag, const int **lines, size_t *count) {
  const struct ration *ration = r->result->ration;
  int *found = ARENA_NEW(r->arena, int, ration->line_count);
  size_t n = 0;
  for (size_t i = 0; i < ration->line_count; i++)
    if (ration->line[i].grams_fed > 0 && (food_of_line(r, i)->flags & flag)) found[n++] = (int)i;
  if (lines) *lines = found;
  if (count) *count = n;
  return n > 0;
}

double constant_of(const struct review *r, const char *key) {
  enum species s = r->result->animal ? r->result->animal->species : SPECIES_DOG;
  return library_constant_value(r->lib, key, s);
}

bool review_judged(const struct review *r) { return r->result->animal && r->result->refusal == REFUSE_NOT; }

bool is_lacking(const struct nutrient_result *n) {
  return n->verdict == VERDICT_SHORT || n->verdict == VERDICT_UNPROVEN || (n->verdict == VERDICT_THIN && !n->close_to_limit);
}

const struct totals *review_totals(struct review *r) {
  if (!r->totals) r->totals = totals_gather(r->lib, r->result->ration, constant_of(r, K_CAROTENE_FACTOR), r->arena);
  return r->totals;
}

double gravity_of(struct review *r, enum nutrient n) {
  double own = row_threshold(r, review_id(r, n, "short"));
  return isnan(own) ? row_threshold(r, "nutrient-short") : own;
}
