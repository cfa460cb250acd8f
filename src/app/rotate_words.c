#include "app/rotate_words.h"

#include <math.h>

#include "words/words.h"

enum { NAMED = 12 };

static size_t names_of(const bool in[NUT_COUNT], const char *name[NUT_COUNT], struct arena *arena) {
  size_t count = 0;
  for (int n = 0; n < NUT_COUNT; n++)
    if (in[n]) name[count++] = words_nutrient(arena, (enum nutrient)n);
  return count;
}

/* "zinc and choline"; "" for none. */
static const char *list_of(const bool in[NUT_COUNT], struct arena *arena) {
  const char *name[NUT_COUNT];
  return words_list(arena, name, names_of(in, name, arena), NAMED);
}

static size_t count_of(const bool in[NUT_COUNT]) {
  size_t count = 0;
  for (int n = 0; n < NUT_COUNT; n++) count += in[n];
  return count;
}

/* ---- which rotation there is ---------------------------------------------------------------------------------------- */

/* "Lamb on 5 days and Fish on 2 days" */
static const char *shares(const struct app_rotate_answer *a, const struct rotation *r, struct arena *arena) {
  const char *item[ROTATE_RECIPES_MOST];
  size_t count = 0;
  for (int i = 0; i < a->recipes; i++)
    if (r->used_days[i] > 0)
      item[count++] =
          words_text(arena, "%s on %d %s", a->recipe[i].name, r->used_days[i], r->used_days[i] == 1 ? "day" : "days");
  return words_list(arena, item, count, count);
}

static const char *say_none(const struct rotation *r, struct arena *arena) {
  if (count_of(r->unreachable) > 0)
    return words_text(arena, "No rotation of these recipes meets %s, in whatever order and however often each is fed.",
                      list_of(r->unreachable, arena));
  return words_text(arena, "Each need is met by some rotation of these recipes, but none meets %s together%s.",
                    list_of(r->conflict, arena),
                    r->conflict_smallest ? "; without any one of them there is a rotation" : "");
}

/* Of what was found: behind "every window", where what is known does not decide one of them. */
static const char *as_far_as_known(const struct rotation *r) {
  const struct week *w = r->week;
  for (int n = 0; n < NUT_COUNT; n++)
    for (int i = 0; i < w->days->days && n != NUT_ENERGY; i++)
      if (w->nutrient[n].allowance > 0 && w->nutrient[n].window_verdict[i] == VERDICT_UNPROVEN) return " that can be judged";
  return "";
}

static const char *say_status(const struct app_rotate_answer *a, struct arena *arena) {
  const struct rotation *r = &a->rotation;
  if (r->status == ROTATION_FOUND && r->changes == 0)
    return words_text(arena, "%s every day meets every window of every need%s: nothing has to change.",
                      a->recipe[r->recipe[0]].name, as_far_as_known(r));
  if (r->status == ROTATION_FOUND)
    return words_text(
        arena,
        "%s: in the order below every window of every need%s is met, with %d changes of recipe in %d days, the "
        "step back to the first day included. None has fewer.",
        shares(a, r, arena), as_far_as_known(r), r->changes, r->days);
  if (r->status == ROTATION_NOT_FOUND)
    return "None was found before the search ended, which does not prove that there is none. Try fewer recipes or fewer "
           "days.";
  return say_none(r, arena);
}

/* ---- what would help ------------------------------------------------------------------------------------------------ */

static bool has_too_much(const struct app_rotate_answer *a, enum nutrient n) {
  for (int i = 0; i < a->recipes; i++)
    if (a->alone[i]->nutrient[n].verdict == VERDICT_OVER || a->alone[i]->nutrient[n].close_to_limit) return true;
  return false;
}

static const char *say_addition(const struct app_rotate_answer *a, const struct rotate_addition *x, struct arena *arena) {
  const char *what = words_nutrient(arena, x->id);
  if (x->food != NO_INDEX)
    return words_text(arena, "%s: %s. %s needs the least of it.", what, x->dose, a->recipe[x->recipe].name);
  return has_too_much(a, x->id)
             ? words_text(arena, "%s: there is too much of it, or nearly, which no addition mends; see mend.", what)
             : words_text(arena, "%s: no small addition is known that covers it; see mend.", what);
}

static bool adds_something(const struct app_rotate_answer *a) {
  for (size_t i = 0; i < a->additions; i++)
    if (a->addition[i].food != NO_INDEX) return true;
  return false;
}

static const char *say_with(const struct app_rotate_answer *a, struct arena *arena) {
  const struct rotation *w = &a->with;
  if (!adds_something(a)) return "";
  if (a->helps && w->changes == 0)
    return words_text(arena, "With that, %s every day meets every window%s.", a->recipe[w->recipe[0]].name,
                      as_far_as_known(w));
  if (a->helps)
    return words_text(arena,
                      "With that in every bowl, %s meets every window%s in the order below, with %d changes in %d days.",
                      shares(a, w, arena), as_far_as_known(w), w->changes, w->days);
  if (w->status != ROTATION_NONE) return "With all of that in every bowl no rotation was found before the search ended.";
  if (count_of(w->unreachable) > 0)
    return words_text(
        arena, "With all of that in every bowl, no rotation meets %s yet. mend changes a recipe so that it meets all.",
        list_of(w->unreachable, arena));
  return words_text(arena,
                    "With all of that in every bowl each need is met by some rotation, but none meets %s together. mend "
                    "changes a recipe so that it meets all.",
                    list_of(w->conflict, arena));
}

/* ---- the recipes ---------------------------------------------------------------------------------------------------- */

/* What nobody knows of it is neither met nor failed. */
static const char *not_judged(const struct check_result *alone, const bool fails[NUT_COUNT], struct arena *arena) {
  bool in[NUT_COUNT];
  for (int n = 0; n < NUT_COUNT; n++) in[n] = n != NUT_ENERGY && !fails[n] && alone->nutrient[n].verdict == VERDICT_UNPROVEN;
  return list_of(in, arena);
}

static const char *say_recipe(const struct app_rotate_answer *a, int i, struct arena *arena) {
  const struct rotation *r = &a->rotation;
  const char *unknown = not_judged(a->alone[i], r->fails[i], arena);
  if (count_of(r->fails[i]) == 0)
    return words_text(arena, "Fed alone every day it meets everything%s%s.",
                      unknown[0] ? " but what cannot be judged: " : "", unknown);
  const char *alone = words_text(arena, "Fed alone every day it does not meet %s%s%s%s.", list_of(r->fails[i], arena),
                                 unknown[0] ? "; " : "", unknown, unknown[0] ? " cannot be judged" : "");
  size_t unfit = count_of(r->unfit[i]);
  if (unfit == 0) return alone;
  return words_text(arena, "%s It fits on no day as it is: %s %s counted by the day.", alone, list_of(r->unfit[i], arena),
                    unfit == 1 ? "is" : "are");
}

void rotate_say(struct app_rotate_answer *a, struct arena *arena) {
  a->says = say_status(a, arena);
  for (size_t i = 0; i < a->additions; i++) a->addition[i].says = say_addition(a, &a->addition[i], arena);
  for (int i = 0; i < a->recipes; i++) a->recipe[i].says = say_recipe(a, i, arena);
  a->says_with = say_with(a, arena);
}
