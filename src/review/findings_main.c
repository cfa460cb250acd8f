/* The foods behind a surplus or an unevenness, so that a remedy names what is in this bowl and nothing else. */
#include <math.h>

#include "foods/constant_keys.h"
#include "review/findings_internal.h"

enum { NAMED_MOST = 2 };

static enum part part_of(const struct review *r, int line) { return (enum part)food_of_line(r, (size_t)line)->part; }

/* "chicken carcass"; "the zinc supplement" where the line calls it by the nutrient's own name. */
static const char *source_words(const struct review *r, enum nutrient n, int line) {
  const char *food = line_words(r, line);
  bool bare = part_of(r, line) == PART_SUPPLEMENT && (span_is_fold(span_of(food), nutrient_info[n].name) ||
                                                      span_is_fold(span_of(food), words_nutrient(r->arena, n)));
  return bare ? words_text(r->arena, "the %s supplement", words_nutrient(r->arena, n)) : food;
}

/* A supplement that makes up all of the surplus is the easiest to cut: nothing is eaten the less for it. */
static int supplement_behind(const struct review *r, const struct nutrient_result *n, double surplus) {
  const struct supply_list *list = who_supplies(n);
  for (size_t i = 0; i < list->from_count; i++)
    if (part_of(r, list->from[i].line) == PART_SUPPLEMENT && list->from[i].amount >= surplus) return list->from[i].line;
  return -1;
}

static bool lasts_all_days(const struct review *r, int line) {
  return r->result->ration->line[line].times_per_28 >= CALENDAR_DAYS;
}

/* The largest suppliers until they supply most of it; 'uneven': only what is not fed every day. */
static const char *largest_words(const struct review *r, const struct nutrient_result *n, bool uneven) {
  static const double MOST = 0.6;
  const struct supply_list *list = who_supplies(n);
  const char *name[NAMED_MOST];
  size_t count = 0;
  double share = 0;
  for (size_t i = 0; i < list->from_count && count < NAMED_MOST && share < MOST; i++) {
    if (uneven && lasts_all_days(r, list->from[i].line)) continue;
    name[count++] = source_words(r, n->id, list->from[i].line);
    share += list->from[i].share;
  }
  return count > 0 ? words_list(r->arena, name, count, NAMED_MOST) : "";
}

const char *main_words(const struct review *r, const struct nutrient_result *n, double surplus) {
  int line = surplus > 0 ? supplement_behind(r, n, surplus) : -1;
  const char *words = line >= 0 ? source_words(r, n->id, line) : largest_words(r, n, false);
  return words[0] ? words : "what supplies it";
}

const char *uneven_words(const struct review *r, const struct nutrient_result *n) {
  const char *words = largest_words(r, n, true);
  return words[0] ? words : main_words(r, n, 0);
}

const char *leaner_words(const struct review *r) {
  const struct nutrient_result *fat = &r->result->nutrient[NUT_FAT];
  const struct supply_list *list = who_supplies(fat);
  enum part part = list->from_count > 0 ? part_of(r, list->from[0].line) : PART_OTHER;
  const char *food = main_words(r, fat, 0);
  if (part == PART_MUSCLE || part == PART_ORGAN_OTHER)
    return words_text(r->arena, "a leaner cut instead of %s, or the fat trimmed off", food);
  return words_text(r->arena, "less %s", food);
}

/* ---- vitamin E against the fat ----------------------------------------------------------------------------------- */

/* mg of vitamin E that the unsaturated fat of each line asks for. */
static void asks_for_vitamin_e(const struct review *r, double *of_line) {
  static const struct {
    enum nutrient n;
    const char *key;
  } TERM[] = {{NUT_LINOLEIC, K_E_PER_PUFA},
              {NUT_ARACHIDONIC, K_E_PER_PUFA},
              {NUT_ALPHA_LINOLENIC, K_E_PER_PUFA},
              {NUT_EPA, K_E_PER_EPA},
              {NUT_DHA, K_E_PER_DHA}};
  for (size_t k = 0; k < COUNT_OF(TERM); k++) {
    const struct supply_list *n = who_supplies(&r->result->nutrient[TERM[k].n]);
    double mg = constant_of(r, TERM[k].key);
    for (size_t i = 0; i < n->from_count && mg > 0; i++) of_line[n->from[i].line] += mg * n->from[i].amount;
  }
  double per_oil = constant_of(r, K_E_PER_FISH_OIL);
  for (size_t i = 0; i < r->result->ration->line_count && per_oil > 0; i++)
    if (food_of_line(r, i)->flags & FOOD_FISH_OIL)
      of_line[i] += per_oil * ration_line_grams_per_day(&r->result->ration->line[i]);
}

int line_behind_vitamin_e(const struct review *r) {
  size_t lines = r->result->ration->line_count;
  double *mg = ARENA_NEW(r->arena, double, lines + 1);
  int best = -1;
  for (size_t i = 0; i <= lines; i++) mg[i] = 0;
  asks_for_vitamin_e(r, mg);
  for (size_t i = 0; i < lines; i++)
    if (mg[i] > (best < 0 ? 0 : mg[best])) best = (int)i;
  return best;
}

bool line_is_oil(const struct review *r, int line) { return line >= 0 && part_of(r, line) == PART_FAT_OIL; }
