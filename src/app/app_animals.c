/* The animals of a text, and which of them an answer is for. */
#include "app/app.h"

#include "app/app_parts.h"

static const struct span WHOLE_TEXT = {NULL, 0};

bool app_animals(const struct app_input *animals, struct date today, struct diags *d, struct animal **out, size_t *count,
                 struct arena *arena) {
  diags_init(d, arena, animals->name, animals->text);
  return animal_read(animals->text, today, d, out, count, arena);
}

/* ---- which animal ---- */

/* "Juniper, Moss and Pim" */
static const char *names_of(const struct animal *a, size_t count, struct arena *arena) {
  enum { MOST_SHOWN = 8 };
  struct buf b;
  buf_init(&b, arena, 1024);
  for (size_t i = 0; i < count && i < MOST_SHOWN; i++) {
    if (i > 0) buf_adds(&b, i + 1 == count ? " and " : ", ");
    buf_adds(&b, a[i].name);
  }
  if (count > MOST_SHOWN) buf_adds(&b, " ...");
  return buf_text(&b);
}

static const struct animal *by_name(const struct animal *a, size_t count, struct span name) {
  for (size_t i = 0; i < count; i++)
    if (span_eq_fold(span_of(a[i].name), name)) return &a[i];
  return NULL;
}

/* "For: Juniper" in the place of the name that is there, else below the recipe's own name or above everything. */
static void offer_names(struct diags *d, const struct recipe *recipe, const struct animal *a, size_t count,
                        struct arena *arena) {
  enum { MOST_OFFERED = 8 };
  if (!recipe) return;
  struct span below = recipe->name_at, at = recipe->for_at;
  bool behind = at.n == 0 && below.n > 0;
  if (at.n == 0) at = behind ? span_cut(below, below.n, below.n) : span_cut(d->text, 0, 0);
  for (size_t i = 0; i < count && i < MOST_OFFERED; i++) {
    struct buf write, label;
    buf_init(&write, arena, 1024);
    buf_init(&label, arena, 1024);
    buf_addf(&write, at.n > 0 ? "%s" : behind ? "\nFor: %s" : "For: %s\n", a[i].name);
    buf_addf(&label, "for %s", a[i].name);
    diag_fix(d, at, buf_text(&write), buf_text(&label));
  }
}

static const struct animal *choose(const struct app_check_request *q, const struct recipe *recipe, const struct animal *a,
                                   size_t count, struct app_check_answer *out, struct arena *arena) {
  bool header = !q->for_name && recipe && recipe->for_whom && recipe->for_whom[0];
  const char *wanted = q->for_name ? q->for_name : header ? recipe->for_whom : NULL;
  if (wanted) {
    const struct animal *found = by_name(a, count, span_trim(span_of(wanted)));
    struct diags *d = header ? &out->recipe_diags : &out->animal_diags;
    if (found) return found;
    diag_say(d, DIAG_ERROR, DIAG_WHICH_ANIMAL, header ? recipe->for_at : WHOLE_TEXT,
             "there is no animal '%s' in %s; it has %s", wanted, q->animals.name, names_of(a, count, arena));
    offer_names(d, header ? recipe : NULL, a, count, arena);
    return NULL;
  }
  if (count == 1) return a;
  if (count == 0) {
    diag_say(&out->animal_diags, DIAG_ERROR, DIAG_EMPTY, WHOLE_TEXT,
             "there is no animal in this text; begin one with 'Animal: NAME'");
  } else {
    struct diags *d = recipe ? &out->recipe_diags : &out->animal_diags;
    diag_say(d, DIAG_ERROR, DIAG_WHICH_ANIMAL, WHOLE_TEXT,
             recipe ? "which animal? there are %s; name one in the recipe, as in 'For: %s'" : "which animal? there are %s",
             names_of(a, count, arena), a[0].name);
    diag_brief(d, "which animal? there are %s", names_of(a, count, arena));
    offer_names(d, recipe, a, count, arena);
  }
  return NULL;
}

static bool find_animal(const struct app_check_request *q, const struct recipe *recipe, const struct animal **animal,
                        struct app_check_answer *out, struct arena *arena) {
  struct animal *all = NULL;
  size_t count = 0;
  *animal = q->one_off;
  if (q->one_off) return true;
  /* "Dog: 18 kg" in the recipe, unless a name is asked for. */
  bool by_name = q->for_name || (recipe && recipe->for_whom && recipe->for_whom[0] && q->animals.name);
  if (recipe && recipe->animal_at.n > 0 && !by_name) {
    struct animal *own = ARENA_NEW(arena, struct animal, 1);
    *animal = own;
    return animal_read_words(recipe->animal_at, recipe->animal_species, q->ask.today, &out->recipe_diags, own, arena);
  }
  if (!q->animals.name) return true;
  if (!app_animals(&q->animals, q->ask.today, &out->animal_diags, &all, &count, arena)) return false;
  *animal = choose(q, recipe, all, count, out, arena);
  return *animal != NULL;
}

bool app_find_animal(const struct library *lib, const struct app_check_request *q, const struct recipe *recipe,
                     const struct animal **animal, struct app_check_answer *out, struct arena *arena) {
  if (!find_animal(q, recipe, animal, out, arena)) return false;
  *animal = app_animal_as_noted(lib, *animal, q->post ? NULL : recipe, arena);
  return true;
}
