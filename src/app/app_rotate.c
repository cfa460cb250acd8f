#include "app/app_rotate.h"

#include <math.h>

#include "app/rotate_words.h"
#include "app/week_parts.h"
#include "review/review.h"

enum { USUAL_DAYS = 7 };

struct rotating {
  const struct library *lib;
  const struct app_week_request *q;
  struct app_rotate_answer *out;
  const struct ration **ration;
  const struct check_result **alone;
  int recipes, days;
  struct arena *arena;
};

/* ---- texts ------------------------------------------------------------------------------------------------------ */

static bool read_recipes(struct rotating *r, struct kitchen *k) {
  struct app_rotate_answer *out = r->out;
  bool fine = true;
  kitchen_open(k, r->lib, r->q, out->recipe_diags, r->arena);
  const struct recipe *first = k->count > 0 ? &k->recipe[0].recipe : NULL;
  fine = app_find_animal(r->lib, &r->q->check, first, &out->animal, &out->texts, r->arena);
  if (fine && !out->animal) {
    diag_say(&out->texts.animal_diags, DIAG_ERROR, DIAG_ANIMAL_NEEDED, (struct span){NULL, 0}, "a rotation needs an animal");
    fine = false;
  }
  kitchen_for(k, out->animal);
  kitchen_tell_apart(k);
  for (size_t i = 0; i < k->count; i++) {
    fine = kitchen_cook(k, &k->recipe[i]) && fine;
    r->ration[i] = &k->recipe[i].ration;
    out->recipe[i] = (struct rotate_recipe){.name = k->recipe[i].name, .file = r->q->recipe[i].name, .batch_days = NAN};
    if (k->recipe[i].ration.days_stated) out->recipe[i].batch_days = k->recipe[i].ration.days;
  }
  for (size_t i = 0; i < k->count; i++) fine = fine && out->recipe_diags[i].errors == 0;
  r->recipes = (int)k->count;
  return fine && out->texts.animal_diags.errors == 0;
}

static void judge_each(struct rotating *r) {
  for (int i = 0; i < r->recipes; i++) {
    int one[1] = {i};
    struct days_of_food *d = ARENA_NEW(r->arena, struct days_of_food, 1);
    *d = rotation_days(r->ration, r->recipes, one, 1, r->arena);
    d->name = r->ration[i]->name;
    r->alone[i] = check_ration(r->lib, days_mean(d, r->arena), r->out->animal, &r->q->check.ask.check, r->arena);
  }
}

/* ---- what would help --------------------------------------------------------------------------------------------- */

/* The recipe by which it takes least of a food. */
static struct rotate_addition smallest_addition(const struct rotating *r, enum nutrient n) {
  struct rotate_addition best = {n, 0, NO_INDEX, INFINITY, NAN, "", "", ""};
  for (int i = 0; i < r->recipes; i++) {
    struct finding_remedy m = findings_remedy(r->lib, r->alone[i], n, r->arena);
    if (m.food == NO_INDEX || !(m.grams < best.grams)) continue;
    best = (struct rotate_addition){n, i, m.food, m.grams, m.times, m.words, m.once, ""};
  }
  return best;
}

static void add_line(struct ration *ration, struct ration_line *line, const struct rotate_addition *a) {
  struct ration_line *l = &line[ration->line_count++];
  *l = (struct ration_line){.text = "an addition",
                            .food_words = "",
                            .part_count = 1,
                            .grams_fed = a->grams,
                            .shown_food = a->food,
                            .grams_from = "",
                            .low_g = a->grams,
                            .high_g = a->grams};
  l->part[0] = (struct portion){.food = a->food, .grams = a->grams, .retention = -1};
  ration_spread_days(l, CALENDAR_DAYS, 0);
}

/* Every recipe with one addition more, every day. */
static void add_to_all(struct rotating *with, const struct rotate_addition *a) {
  for (int k = 0; k < with->recipes; k++) {
    const struct ration *old = with->ration[k];
    struct ration *more = ARENA_NEW(with->arena, struct ration, 1);
    struct ration_line *line = ARENA_NEW(with->arena, struct ration_line, old->line_count + 1);
    *more = *old;
    if (old->line_count > 0) memcpy(line, old->line, old->line_count * sizeof *line);
    add_line(more, line, a);
    more->line = line;
    with->ration[k] = more;
  }
}

/* What no rotation meets, mended one by one; what then none meets together, likewise. 'first': of the additions that mend
 * what the recipes as they are do not meet. */
static void look_for_help(struct rotating *r) {
  struct app_rotate_answer *out = r->out;
  struct rotating with = *r;
  struct rotation next = out->rotation;
  bool tried[NUT_COUNT] = {false};
  size_t first = 0;
  with.ration = ARENA_NEW(r->arena, const struct ration *, (size_t)r->recipes);
  with.alone = ARENA_NEW(r->arena, const struct check_result *, (size_t)r->recipes);
  memcpy(with.ration, r->ration, (size_t)r->recipes * sizeof *r->ration);
  memcpy(with.alone, r->alone, (size_t)r->recipes * sizeof *r->alone);
  for (int round = 0; next.status == ROTATION_NONE; round++) {
    bool any = false;
    for (int n = 0; n < NUT_COUNT; n++) {
      if (!(next.unreachable[n] || next.conflict[n]) || tried[n]) continue;
      struct rotate_addition a = smallest_addition(&with, (enum nutrient)n);
      tried[n] = true;
      if (next.unreachable[n] || a.food != NO_INDEX) out->addition[out->additions++] = a;
      if (a.food == NO_INDEX) continue;
      any = true;
      add_to_all(&with, &a);
      judge_each(&with); /* one addition may do for several */
    }
    if (round == 0) first = out->additions;
    if (!any) break;
    rotate(r->lib, with.ration, with.alone, r->recipes, r->days, NULL, 0, &next, r->arena);
    if (round == 0 || next.status == ROTATION_FOUND) out->with = next;
  }
  out->helps = out->with.status == ROTATION_FOUND;
  if (!out->helps) out->additions = first; /* further ones lead nowhere */
}

/* ---- the rotation as a plan --------------------------------------------------------------------------------------- */

enum { WEEK = 7, A_WEEK = 4 }; /* the latter: feedings in 28 days of what is fed once a week */

/* Of what is not fed every day: Monday; Monday and Thursday; Monday, Wednesday and Friday. */
static bool is_fed_on(const struct rotate_addition *a, int weekday) {
  static const unsigned DAYS[] = {1U << 0, 1U << 0 | 1U << 3, 1U << 0 | 1U << 2 | 1U << 4};
  int a_week = (int)(a->times / A_WEEK + 0.5);
  return a_week >= WEEK || a_week < 1 || a_week > (int)COUNT_OF(DAYS) || (DAYS[a_week - 1] >> weekday & 1);
}

/* "Iodine bowl; 1 can of sardines" */
static const char *menu_of(const struct rotating *r, const struct rotation *found, int day) {
  const struct app_rotate_answer *out = r->out;
  struct buf b;
  buf_init(&b, r->arena, 1 << 12);
  buf_adds(&b, out->recipe[found->recipe[day]].name);
  for (size_t i = 0; out->helps && i < out->additions; i++) {
    const struct rotate_addition *a = &out->addition[i];
    if (a->food != NO_INDEX && is_fed_on(a, day % WEEK)) buf_addf(&b, "; %s", a->once);
  }
  return buf_text(&b);
}

static void write_plan(struct rotating *r, const struct rotation *found) {
  static const char *const DAY[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
  struct app_rotate_answer *out = r->out;
  const char *menu[ROTATE_DAYS_MOST];
  struct buf b;
  buf_init(&b, r->arena, 1 << 16);
  if (r->days % WEEK != 0) return; /* a plan is one of whole weeks */
  for (int i = 0; i < r->days; i++) menu[i] = menu_of(r, found, i);
  buf_adds(&b, "Plan: Rotation\n");
  if (out->animal->name[0]) buf_addf(&b, "For: %s\n", out->animal->name);
  for (int i = 0; i < r->days;) {
    if (i % WEEK == 0 && r->days > WEEK) buf_addf(&b, "Week %d:\n", i / WEEK + 1);
    int last = i;
    while (last + 1 < r->days && (last + 1) % WEEK != 0 && strcmp(menu[last + 1], menu[i]) == 0) last++;
    buf_addf(&b, "%s%s%s: %s\n", DAY[i % WEEK], last > i ? "-" : "", last > i ? DAY[last % WEEK] : "", menu[i]);
    i = last + 1;
  }
  out->plan = buf_text(&b);
}

static void show_found(struct rotating *r) {
  struct app_rotate_answer *out = r->out;
  const struct rotation *found = out->helps ? &out->with : &out->rotation;
  for (int i = 0; i < r->recipes; i++) {
    out->recipe[i].days = found->used_days[i];
    out->recipe[i].batches = out->recipe[i].days / out->recipe[i].batch_days;
  }
  write_plan(r, found);
  out->week = (struct app_week_one){.animal = out->animal, .week = found->week};
}

void app_rotate(const struct library *lib, const struct app_week_request *q, struct app_rotate_answer *out,
                struct arena *arena) {
  struct kitchen k;
  *out = (struct app_rotate_answer){.recipe_diags = ARENA_NEW(arena, struct diags, q->count + 1),
                                    .with = {.status = ROTATION_NOT_FOUND},
                                    .plan = "",
                                    .says = "",
                                    .says_with = ""};
  diags_init(&out->texts.recipe_diags, arena, "", (struct span){NULL, 0});
  diags_init(&out->texts.animal_diags, arena, q->check.animals.name, q->check.animals.text);
  struct rotating r = {.lib = lib,
                       .q = q,
                       .out = out,
                       .ration = ARENA_NEW(arena, const struct ration *, q->count + 1),
                       .alone = ARENA_NEW(arena, const struct check_result *, q->count + 1),
                       .days = q->check.ask.days > 0 ? q->check.ask.days : USUAL_DAYS,
                       .arena = arena};
  if (!read_recipes(&r, &k)) return;
  out->understood = true;
  out->recipes = r.recipes;
  judge_each(&r);
  out->alone = r.alone;
  if (r.alone[0]->refusal != REFUSE_NOT) return;
  rotate(lib, r.ration, r.alone, r.recipes, r.days, NULL, 0, &out->rotation, arena);
  if (out->rotation.status == ROTATION_NONE) look_for_help(&r);
  if (out->rotation.status == ROTATION_FOUND || out->helps) show_found(&r);
  rotate_say(out, arena);
}
