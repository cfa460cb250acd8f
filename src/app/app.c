#include "app/app.h"

#include <math.h>

#include "app/app_parts.h"
#include "app/app_post.h"
#include "app/measure.h"
#include "base/num.h"
#include "label/allowance_text.h"
#include "review/review.h"

bool app_add_allowances(struct library *lib, const struct app_input *rows, struct diags *d, struct arena *arena) {
  struct own_allowance *own = NULL;
  size_t count = 0;
  diags_init(d, arena, rows->name, rows->text);
  if (!allowances_read(rows->text, rows->name, lib, d, &own, &count, arena)) return false;
  lib->own_allowance = own;
  lib->own_allowance_count = count;
  lib->own_allowance_file = rows->name;
  return true;
}

bool app_add_foods(struct library *lib, const struct app_input *labels, struct diags *d, struct arena *arena) {
  struct own_food *more = NULL;
  size_t count = 0;
  diags_init(d, arena, labels->name, labels->text);
  if (!label_read(labels->text, lib, d, &more, &count, arena)) return false;
  struct own_food *all = ARENA_NEW(arena, struct own_food, lib->own_count + count);
  if (lib->own_count > 0) memcpy(all, lib->own, lib->own_count * sizeof *all);
  if (count > 0) memcpy(all + lib->own_count, more, count * sizeof *all);
  lib->own = all;
  lib->own_count += count;
  return true;
}

/* ---- use cases ---- */

static void begin(const struct app_check_request *q, struct app_check_answer *out, struct arena *arena) {
  *out = (struct app_check_answer){0};
  diags_init(&out->recipe_diags, arena, q->recipe.name, q->recipe.text);
  diags_init(&out->animal_diags, arena, q->animals.name, q->animals.text);
  if (q->journal) diags_init(&out->journal_diags, arena, q->journal->text.name, q->journal->text.text);
}

/* The same calendar with every line smaller or larger. */
static void eat_share(struct ration *ration, double share, struct arena *arena) {
  struct ration_line *lines = ARENA_NEW(arena, struct ration_line, ration->line_count + 1);
  for (size_t i = 0; i < ration->line_count; i++) {
    lines[i] = ration->line[i];
    lines[i].grams_fed *= share;
    for (int p = 0; p < lines[i].part_count; p++) lines[i].part[p].grams *= share;
  }
  ration->line = lines;
}

bool app_understand(const struct library *lib, const struct app_check_request *q, struct app_check_answer *out,
                    const struct ration **ration, const struct animal **animal, struct arena *arena) {
  struct recipe *recipe = ARENA_NEW(arena, struct recipe, 1);
  struct ration *made = ARENA_NEW(arena, struct ration, 1);
  struct app_check_request read = *q;
  app_take_post(lib, &read, arena);
  q = &read;
  begin(q, out, arena);
  out->post = q->post;
  *animal = NULL;
  *ration = made;
  bool understood = recipe_parse(q->recipe.text, &out->recipe_diags, recipe, arena);
  /* Foods are looked up and the animal is read even when something is wrong already: all complaints come at once. */
  understood = recipe_resolve(lib, recipe, &out->recipe_diags, made, arena) && understood;
  understood = app_find_animal(lib, q, recipe, animal, out, arena) && understood;
  if (q->post) *animal = app_animal_of_post(q->post, *animal, arena);
  understood = app_measure_animal(lib, q, animal, &out->journal_diags, arena) && understood;
  out->recipe = recipe;
  if (understood)
    understood = app_settle_shares(lib, recipe, *animal, &q->ask.check, made, &out->recipe_diags, arena) && understood;
  if (!understood || out->recipe_diags.errors > 0 || out->animal_diags.errors > 0) {
    app_say_dangers(lib, &out->recipe_diags, arena);
    return false;
  }
  if (q->post) app_assume(q->post, made, arena);
  if (q->ask.eaten > 0) eat_share(made, q->ask.eaten, arena);
  return true;
}

bool app_names_line(struct span wanted, const struct ration_line *l) {
  double number;
  wanted = span_trim(wanted);
  if (num_parse(wanted, &number)) return number == (double)l->line;
  return wanted.n > 0 && span_holds_fold(span_of(l->text), wanted);
}

void app_check(const struct library *lib, const struct app_check_request *q, struct app_check_answer *out,
               struct arena *arena) {
  const struct ration *ration;
  const struct animal *animal;
  if (!app_understand(lib, q, out, &ration, &animal, arena)) return;
  out->result = q->ask.numbers_only ? check_numbers(lib, ration, animal, &q->ask.check, arena)
                                    : check_ration(lib, ration, animal, &q->ask.check, arena);
  if (out->post) out->post = app_rank_questions(lib, out->post, out->result, arena);
}

/* An empty ration supplies nothing, so that allowances per 1000 kcal eaten would be nothing too: they are taken at the need.
 */
static const struct check_result *at_the_need(const struct library *lib, const struct check_result *r, struct arena *arena) {
  struct check_result *copy = ARENA_NEW(arena, struct check_result, 1);
  *copy = *r;
  if (!r->animal || r->refusal != REFUSE_NOT) return copy;
  copy->energy.supply_kcal = r->energy.need.kcal;
  double kcal = r->energy.need.kcal;
  standard_allowances(lib, r->options.standard, r->options.basis, r->animal, &r->energy.need,
                      (struct energy_eaten){kcal, kcal}, &copy->allowances, arena);
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct allowance *a = &copy->allowances.of[i];
    struct nutrient_result *n = &copy->nutrient[i];
    n->minimum = a->minimum;
    n->allowance = a->allowance;
    n->upper = a->upper;
    n->upper_greater_than = a->upper_greater_than;
    n->table = a;
  }
  return copy;
}

void app_need(const struct library *lib, const struct app_check_request *q, struct app_check_answer *out,
              struct arena *arena) {
  const struct animal *animal = NULL;
  begin(q, out, arena);
  if (!app_find_animal(lib, q, NULL, &animal, out, arena) || !animal) return;
  if (!app_measure_animal(lib, q, &animal, &out->journal_diags, arena)) return;
  struct ration *nothing = ARENA_NEW(arena, struct ration, 1);
  *nothing = (struct ration){.name = "", .days = 1, .meals_per_day = NAN};
  out->result = at_the_need(lib, check_ration(lib, nothing, animal, &q->ask.check, arena), arena);
}

/* "[usda:17199]" or "usda:17199" */
static struct span without_brackets(struct span s) {
  s = span_trim(s);
  if (s.n >= 2 && s.p[0] == '[' && s.p[s.n - 1] == ']') s = span_trim(span_cut(s, 1, s.n - 1));
  return s;
}

uint32_t app_food(const struct library *lib, struct span words, struct search_hit *hits, size_t most, size_t *count,
                  struct arena *arena) {
  const double fits_well = 0.6;
  struct search_wish nothing_said = SEARCH_WISH_NONE;
  *count = 0;
  words = without_brackets(words);
  uint32_t food = library_by_code(lib, words);
  if (food != NO_INDEX) return food;
  const char *colon = memchr(words.p, ':', words.n);
  if (colon)
    words = span_cut(words, (size_t)(colon - words.p) + 1, words.n); /* a pin that does not exist: its words may help */
  *count = search_foods(lib, words, &nothing_said, hits, most, arena);
  bool fits = !colon && *count > 0 && hits[0].score >= fits_well && hits[0].words_missed == 0;
  return fits ? hits[0].food : NO_INDEX;
}
