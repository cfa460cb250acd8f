#include "app/app_week.h"

#include "app/measure.h"
#include "app/week_parts.h"
#include "plan/plan_text.h"
#include "post/post.h"
#include "review/review.h"
#include "words/words.h"

static const struct span WHOLE_TEXT = {NULL, 0};

static void judge(const struct library *lib, const struct app_week_request *q, const struct days_of_food *days,
                  const struct animal *animal, struct app_week_one *out, struct arena *arena) {
  struct days_of_food *kept = ARENA_NEW(arena, struct days_of_food, 1);
  *kept = *days;
  const struct check_result *mean = check_ration(lib, days_mean(kept, arena), animal, &q->check.ask.check, arena);
  out->animal = animal;
  out->week = week_of(lib, kept, mean, arena);
}

static void begin(const struct app_week_request *q, const struct app_input *text, struct app_week_answer *out,
                  struct arena *arena) {
  *out = (struct app_week_answer){.recipe_diags = ARENA_NEW(arena, struct diags, q->count + 1)};
  diags_init(&out->texts.recipe_diags, arena, text->name, text->text);
  diags_init(&out->texts.animal_diags, arena, q->check.animals.name, q->check.animals.text);
}

/* ---- one recipe with its own days ------------------------------------------------------------------------------ */

/* Of a post: what was assumed of its lines, and what stays to be asked. */
static void say_read(const struct post *post, struct app_week_one *one, struct arena *arena) {
  const char **says = ARENA_NEW(arena, const char *, post->line_count + post->question_count + 1);
  size_t n = 0;
  for (size_t i = 0; i < post->line_count; i++)
    if (post->line[i].assumed[0]) says[n++] = words_text(arena, "Line %d: %s.", post->line[i].line, post->line[i].assumed);
  for (size_t i = 0; i < post->question_count; i++) says[n++] = post->question[i].ask;
  one->assumed = says;
  one->assumed_count = n;
}

static void week_of_recipe(const struct library *lib, const struct app_week_request *q, struct app_week_answer *out,
                           struct arena *arena) {
  struct app_check_request check = q->check;
  const struct ration *ration;
  const struct animal *animal;
  check.recipe = q->recipe[0];
  if (!app_understand(lib, &check, &out->texts, &ration, &animal, arena)) return;
  struct days_of_food days = days_of_ration(ration, arena);
  out->of = ARENA_NEW(arena, struct app_week_one, 1);
  out->count = 1;
  judge(lib, q, &days, animal, &out->of[0], arena);
  if (out->texts.post) say_read(out->texts.post, &out->of[0], arena);
}

/* ---- a plan ---------------------------------------------------------------------------------------------------- */

/* Complaints about recipes that no day asks for are nobody's business. */
static bool recipes_are_fine(const struct kitchen *k) {
  bool fine = true;
  for (size_t i = 0; i < k->count; i++) {
    bool asked = k->recipe[i].resolved || k->recipe[i].failed || i < k->q->named;
    if (!asked) diags_init(&k->recipe_diags[i], k->arena, k->q->recipe[i].name, k->q->recipe[i].text);
    fine = fine && k->recipe_diags[i].errors == 0;
  }
  return fine;
}

static bool part_animal(const struct library *lib, const struct app_week_request *q, const struct plan_part *part, const struct animal **animal,
                        struct app_week_answer *out, struct arena *arena) {
  struct recipe asks = {.name = "", .for_whom = part->for_whom, .note = "", .for_at = part->for_at};
  return app_find_animal(lib, &q->check, &asks, animal, &out->texts, arena);
}

/* With a name asked for, only that animal's part of a plan for several. */
static bool is_asked_for(const struct app_week_request *q, const struct plan *plan, const struct plan_part *part) {
  if (!q->check.for_name || plan->part_count == 1) return true;
  return span_eq_fold(span_trim(span_of(q->check.for_name)), span_of(part->for_whom));
}

static void week_of_plan(const struct library *lib, const struct app_week_request *q, struct app_week_answer *out,
                         struct arena *arena) {
  struct plan *plan = ARENA_NEW(arena, struct plan, 1);
  struct diags *d = &out->texts.recipe_diags;
  struct kitchen k;
  bool fine = plan_read(q->plan.text, d, plan, arena);
  kitchen_open(&k, lib, q, out->recipe_diags, arena);
  struct app_week_one *of = ARENA_NEW(arena, struct app_week_one, plan->part_count + 1);
  size_t count = 0;
  for (size_t i = 0; fine && i < plan->part_count; i++) {
    struct days_of_food days;
    const struct animal *animal = NULL;
    if (!is_asked_for(q, plan, &plan->part[i])) continue;
    fine = part_animal(lib, q, &plan->part[i], &animal, out, arena) && fine;
    kitchen_for(&k, animal);
    fine = week_days_of_plan(&k, plan->name, &plan->part[i], d, &days) && fine;
    if (fine) judge(lib, q, &days, animal, &of[count++], arena);
  }
  if (fine && count == 0) {
    diag_say(d, DIAG_ERROR, DIAG_NOT_FOUND, plan->part[0].for_at, "this plan has nothing for '%s'", q->check.for_name);
    fine = false;
  }
  fine = recipes_are_fine(&k) && fine && d->errors == 0 && out->texts.animal_diags.errors == 0;
  if (!fine) return;
  out->of = of;
  out->count = count;
}

/* ---- a journal ------------------------------------------------------------------------------------------------- */

/* Names of the animals that there are; NULL when none were given. */
static struct journal_known known_animals(const struct app_week_request *q, struct app_week_answer *out,
                                          struct arena *arena) {
  struct journal_known known = {.today = q->check.ask.today.year > 0 ? date_days(q->check.ask.today) : 0};
  struct animal *all = NULL;
  size_t count = 0;
  if (q->check.one_off || !q->check.animals.name) return known;
  if (!app_animals(&q->check.animals, q->check.ask.today, &out->texts.animal_diags, &all, &count, arena)) return known;
  const char **name = ARENA_NEW(arena, const char *, count + 1);
  for (size_t i = 0; i < count; i++) name[i] = all[i].name;
  known.name = name;
  known.name_count = count;
  return known;
}

/* With a name, that animal's days; else those of every animal that ate something. */
static bool is_wanted(const struct app_week_request *q, const struct journal *j, int animal, struct arena *arena) {
  size_t count;
  if (q->check.for_name) return span_eq_fold(span_trim(span_of(q->check.for_name)), span_of(j->name[animal]));
  journal_intakes(j, animal, &count, arena);
  return count > 0;
}

static void say_assumed(const struct kitchen *k, bool spread, struct app_week_one *one) {
  const char **says = ARENA_NEW(k->arena, const char *, 1);
  if (!spread) return;
  says[one->assumed_count++] = "Lines that a recipe does not feed every day are counted at their mean: a journal does not "
                               "say in which bowl they were.";
  one->assumed = says;
}

static void week_of_journal(const struct library *lib, const struct app_week_request *q, struct app_week_answer *out,
                            struct arena *arena) {
  struct diags *d = &out->texts.recipe_diags;
  struct journal_known known = known_animals(q, out, arena);
  struct journal *j = ARENA_NEW(arena, struct journal, 1);
  struct kitchen k;
  if (q->check.for_name)
    app_journal_only(&q->check, arena_text(arena, span_trim(span_of(q->check.for_name))), &known, arena);
  bool fine = journal_read(q->journal.text, &known, d, j, arena) && out->texts.animal_diags.errors == 0;
  kitchen_open(&k, lib, q, out->recipe_diags, arena);
  struct app_week_one *of = ARENA_NEW(arena, struct app_week_one, j->name_count + 1);
  size_t count = 0;
  for (int i = 0; fine && i < (int)j->name_count; i++) {
    struct recipe asks = {.name = "", .for_whom = j->name[i], .note = ""};
    struct days_of_food days;
    const struct animal *animal = NULL;
    bool spread;
    if (!is_wanted(q, j, i, arena)) continue;
    fine = app_find_animal(lib, &q->check, &asks, &animal, &out->texts, arena) && fine;
    kitchen_for(&k, animal);
    fine = week_days_of_journal(&k, j, i, d, &days, &spread) && fine;
    if (!fine) continue;
    say_assumed(&k, spread, &of[count]);
    judge(lib, q, &days, animal, &of[count++], arena);
  }
  if (fine && count == 0)
    diag_say(d, DIAG_ERROR, DIAG_EMPTY, WHOLE_TEXT,
             q->check.for_name ? "nobody wrote down what '%s' ate" : "nobody wrote down what was eaten%s",
             q->check.for_name ? q->check.for_name : "");
  fine = recipes_are_fine(&k) && fine && d->errors == 0 && out->texts.animal_diags.errors == 0;
  if (!fine) return;
  out->of = of;
  out->count = count;
}

void app_week(const struct library *lib, const struct app_week_request *q, struct app_week_answer *out,
              struct arena *arena) {
  bool planned = q->plan.text.n > 0;
  const struct app_input nothing = {"", {NULL, 0}};
  bool written = q->journal.name != NULL;
  begin(q, written ? &q->journal : planned ? &q->plan : q->count > 0 ? &q->recipe[0] : &nothing, out, arena);
  for (size_t i = 0; i < q->count; i++) diags_init(&out->recipe_diags[i], arena, q->recipe[i].name, q->recipe[i].text);
  if (written) {
    week_of_journal(lib, q, out, arena);
  } else if (planned) {
    week_of_plan(lib, q, out, arena);
  } else if (q->count > 0) {
    week_of_recipe(lib, q, out, arena);
  }
}
