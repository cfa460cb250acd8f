/* Words that many findings share: lines, lists, amounts, names; and the small questions they ask of a result. */
#include <math.h>

#include "base/num.h"
#include "foods/constant_keys.h"
#include "review/findings_internal.h"

/* ---- words ----------------------------------------------------------------------------------------------------- */

const char *amount_words(struct arena *a, double x, const char *unit) {
  struct buf b;
  buf_init(&b, a, 64);
  if (!isfinite(x)) return "an unknown amount";
  /* Grams of a nutrient below a tenth read better as milligrams, and thousands of milligrams as grams. */
  if (unit && strcmp(unit, "g") == 0 && x != 0 && fabs(x) < 0.1) {
    x *= 1000;
    unit = "mg";
  } else if (unit && strcmp(unit, "mg") == 0 && fabs(x) >= 9999.5) {
    x /= 1000;
    unit = "g";
  } else if (unit && strcmp(unit, "\xC2\xB5g") == 0 && fabs(x) >= 9999.5) {
    x /= 1000;
    unit = "mg";
  }
  num_sig(&b, x, fabs(x) >= 1000 ? 4 : 3);
  if (unit && *unit) buf_addf(&b, " %s", unit);
  return buf_text(&b);
}

const char *percent_words(struct arena *a, double share) {
  struct buf b;
  buf_init(&b, a, 32);
  if (share > 0 && share < 0.01) {
    buf_adds(&b, "under 1");
  } else if (share < 1 && share >= 0.995) {
    buf_adds(&b, "over 99"); /* never a certainty that rounding made */
  } else {
    num_fixed(&b, share * 100, 0);
  }
  buf_adds(&b, " %");
  return buf_text(&b);
}

const char *nutrient_words_inside(const struct review *r, enum nutrient n) {
  const char *name = nutrient_info[n].name;
  bool abbreviation = name[0] >= 'A' && name[0] <= 'Z' && name[1] >= 'A' && name[1] <= 'Z';
  if (abbreviation) return name;
  char *inside = arena_text(r->arena, span_of(name));
  if (inside[0] >= 'A' && inside[0] <= 'Z') inside[0] = (char)(inside[0] - 'A' + 'a');
  return inside;
}

const char *animal_name(const struct review *r) {
  const struct animal *a = r->result->animal;
  if (!a) return "the animal";
  if (a->name && *a->name) return a->name;
  return a->species == SPECIES_CAT ? "the cat" : "the dog";
}

const char *line_words(const struct review *r, int line) {
  struct span s = span_of(r->result->ration->line[line].text);
  for (size_t i = 0; i < s.n; i++)
    if (s.p[i] == ',' || s.p[i] == '[' || s.p[i] == '#') {
      s = span_cut(s, 0, i);
      break;
    }
  return arena_text(r->arena, span_trim(s));
}

const char *words_list(const struct review *r, const char *const *word, size_t count, size_t most) {
  struct buf b;
  buf_init(&b, r->arena, 2048);
  /* "and 1 more" takes as much room as the name itself. */
  size_t shown = count <= most + 1 ? count : most;
  for (size_t i = 0; i < shown; i++) {
    if (i > 0) buf_adds(&b, i + 1 == count ? " and " : ", ");
    buf_adds(&b, word[i]);
  }
  if (count > shown) buf_addf(&b, " and %zu more", count - shown);
  return buf_text(&b);
}

const char *lines_list(const struct review *r, const int *line, size_t count, size_t most) {
  const char **word = ARENA_NEW(r->arena, const char *, count);
  for (size_t i = 0; i < count; i++) word[i] = line_words(r, line[i]);
  return words_list(r, word, count, most);
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
  return n->verdict == VERDICT_SHORT || n->verdict == VERDICT_UNPROVEN || (n->verdict == VERDICT_THIN && !n->near_upper);
}

const struct totals *review_totals(struct review *r) {
  if (!r->totals) r->totals = totals_gather(r->lib, r->result->ration, constant_of(r, K_CAROTENE_FACTOR), r->arena);
  return r->totals;
}

double gravity_of(struct review *r, enum nutrient n) {
  double own = row_threshold(r, review_id(r, n, "short"));
  return isnan(own) ? row_threshold(r, "nutrient-short") : own;
}
