/* What a day of a plan or a journal holds: recipes by their names, foods by the line of a recipe. */
#include <math.h>

#include "app/week_parts.h"
#include "text/scan.h"

/* ---- recipes --------------------------------------------------------------------------------------------------- */

/* "examples/rice-pot.recipe" without its folder and ending. */
static struct span file_name(const char *path) {
  struct span s = span_of(path);
  for (size_t i = s.n; i-- > 0;)
    if (s.p[i] == '/') {
      s = span_cut(s, i + 1, s.n);
      break;
    }
  for (size_t i = s.n; i-- > 1;)
    if (s.p[i] == '.') return span_cut(s, 0, i);
  return s;
}

void kitchen_open(struct kitchen *k, const struct library *lib, const struct app_week_request *q, struct diags *recipe_diags,
                  struct arena *arena) {
  *k = (struct kitchen){.lib = lib, .q = q, .count = q->count, .recipe_diags = recipe_diags, .arena = arena};
  k->recipe = ARENA_NEW(arena, struct kitchen_recipe, q->count + 1);
  for (size_t i = 0; i < q->count; i++) {
    struct kitchen_recipe *r = &k->recipe[i];
    diags_init(&recipe_diags[i], arena, q->recipe[i].name, q->recipe[i].text);
    r->parsed = recipe_parse(q->recipe[i].text, &recipe_diags[i], &r->recipe, arena);
    r->name = r->recipe.name && r->recipe.name[0] ? r->recipe.name : arena_text(arena, file_name(q->recipe[i].name));
  }
}

void kitchen_for(struct kitchen *k, const struct animal *animal) {
  k->animal = animal;
  k->known = NULL;
  k->known_cap = k->known_count = 0;
  for (size_t i = 0; i < k->count; i++) k->recipe[i].resolved = false;
}

void kitchen_tell_apart(struct kitchen *k) {
  bool *twice = ARENA_NEW(k->arena, bool, k->count + 1);
  for (size_t i = 0; i < k->count; i++)
    for (size_t other = 0; other < k->count; other++)
      if (other != i && span_eq_fold(span_of(k->recipe[i].name), span_of(k->recipe[other].name))) twice[i] = true;
  for (size_t i = 0; i < k->count; i++)
    if (twice[i]) k->recipe[i].name = arena_text(k->arena, file_name(k->q->recipe[i].name));
}

static double grams_a_day(const struct ration *r) {
  double grams = 0;
  for (size_t i = 0; i < r->line_count; i++) grams += ration_line_grams_per_day(&r->line[i]);
  return grams;
}

bool kitchen_cook(struct kitchen *k, struct kitchen_recipe *r) {
  struct diags *d = &k->recipe_diags[r - k->recipe];
  if (r->resolved || r->failed) return !r->failed;
  bool fine = recipe_resolve(k->lib, &r->recipe, d, &r->ration, k->arena) && r->parsed;
  fine = fine && app_settle_shares(k->lib, &r->recipe, k->animal, &k->q->check.ask.check, &r->ration, d, k->arena);
  r->grams_a_day = grams_a_day(&r->ration);
  r->resolved = fine;
  r->failed = !fine;
  return fine;
}

bool kitchen_names_days(const struct kitchen_recipe *r, size_t line) {
  for (size_t i = 0; i < r->recipe.line_count; i++)
    if (r->recipe.line[i].line == r->ration.line[line].line) return r->recipe.line[i].days > 0;
  return false;
}

/* "weeknight-bowl" is the file of a "Weeknight bowl". */
static bool is_file_of(const struct kitchen *k, size_t i, struct span words) {
  char *name = arena_text(k->arena, file_name(k->q->recipe[i].name));
  if (span_eq_fold(span_of(name), words)) return true;
  for (char *c = name; *c; c++)
    if (*c == '-' || *c == '_') *c = ' ';
  return span_eq_fold(span_of(name), words);
}

/* "Weeknight bowl", "the weeknight bowl"; or as the file is called, "weeknight-bowl". The ones that were named on the
 * command line go before those that lie beside the plan. -1: none; 'other' is a second one that may be meant as well, else
 * -1. */
static int recipe_named(const struct kitchen *k, struct span words, int *other) {
  struct tokens t = tokens_of(words, k->arena);
  size_t article = phrase_at(&t, 0, "the");
  int at = -1;
  *other = -1;
  if (article > 0 && t.count > 1) words = tokens_span(&t, 1, t.count - 1);
  for (size_t i = 0; i < k->count; i++)
    if (is_file_of(k, i, words)) return (int)i;
  for (size_t i = 0; i < k->count; i++) {
    if (!span_eq_fold(span_of(k->recipe[i].name), words)) continue;
    bool both_named = i < k->q->named, first = at < 0;
    if (first) at = (int)i;
    if (!first && *other < 0 && (both_named || at >= (int)k->q->named)) *other = (int)i;
  }
  return at;
}

static void complain_of_two(const struct kitchen *k, struct span words, int at, int other, struct diags *d) {
  struct span one = file_name(k->q->recipe[at].name), two = file_name(k->q->recipe[other].name);
  diag_say(d, DIAG_ERROR, DIAG_SEVERAL, words, "two recipes are called '%s', in %s and in %s; write '%.*s' or '%.*s'",
           k->recipe[at].name, k->q->recipe[at].name, k->q->recipe[other].name, SPAN_ARG(one), SPAN_ARG(two));
}

/* Of two recipes of one name the one is taken whose file has that name; it is said, once. */
static void say_taken(struct kitchen *k, struct span words, int at, struct diags *d) {
  struct kitchen_recipe *r = &k->recipe[at];
  if (r->told || !span_eq_fold(span_of(r->name), words)) return;
  for (size_t i = 0; i < k->count; i++) {
    if ((int)i == at || !span_eq_fold(span_of(k->recipe[i].name), words)) continue;
    struct span two = file_name(k->q->recipe[i].name);
    r->told = true;
    diag_say(d, DIAG_WARNING, DIAG_ASSUMED, words, "two recipes are called '%s'; taken as %s; for the other write '%.*s'",
             r->name, k->q->recipe[at].name, SPAN_ARG(two));
    return;
  }
}

static const char *nearly_named(const struct kitchen *k, struct span words) {
  const char **name = ARENA_NEW(k->arena, const char *, k->count + 1);
  for (size_t i = 0; i < k->count; i++) name[i] = k->recipe[i].name;
  return nearest_word(words, name, k->count);
}

/* ---- foods by the line ----------------------------------------------------------------------------------------- */

/* Days stand before the words, not behind a food. */
static bool says_how_often(const struct recipe *r, const struct journal_item *item, struct diags *d) {
  for (size_t i = 0; i < r->line_count; i++) {
    const struct recipe_line *l = &r->line[i];
    if (!l->frequency_stated || (l->times_per_28 >= CALENDAR_DAYS && l->days == 0 && l->scaled >= 1)) continue;
    diag_say(d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, item->whole,
             "'%.*s' says how often; what is written here is for one day: write it on each day that has it, without that",
             SPAN_ARG(quoted(item->whole)));
    return true;
  }
  return false;
}

static bool read_foods(struct kitchen *k, const struct journal_item *item, struct diags *d, struct served *out) {
  struct recipe one;
  struct ration ration;
  if (!recipe_parse(item->whole, d, &one, k->arena) || says_how_often(&one, item, d)) return false;
  if (!recipe_resolve(k->lib, &one, d, &ration, k->arena)) return false;
  if (ration.line_count == 0) {
    diag_say(d, DIAG_ERROR, DIAG_NOT_FOUND, item->whole, "there is no food in '%.*s'", SPAN_ARG(quoted(item->whole)));
    return false;
  }
  out->line = ration.line;
  out->line_count = ration.line_count;
  for (size_t i = 0; i < ration.line_count; i++) out->grams += ration.line[i].grams_fed;
  return true;
}

static bool serve(struct kitchen *k, const struct journal_item *item, struct diags *d, struct served *out) {
  int other, at = recipe_named(k, item->food, &other);
  *out = (struct served){.words = item->whole, .recipe = at, .times = 1};
  if (other >= 0) {
    complain_of_two(k, item->food, at, other, d);
    return false;
  }
  if (at >= 0) {
    struct kitchen_recipe *r = &k->recipe[at];
    if (!kitchen_cook(k, r)) return false;
    say_taken(k, item->food, at, d);
    if (!isnan(item->grams) && !(r->grams_a_day > 0)) {
      diag_say(d, DIAG_ERROR, DIAG_NO_WEIGHT, item->whole, "'%s' has no weight, so there are no grams of it", r->name);
      return false;
    }
    out->times = isnan(item->grams) ? 1 : item->grams / r->grams_a_day;
    out->grams = out->times * r->grams_a_day;
    return true;
  }
  const char *near = nearly_named(k, item->food);
  if (near) {
    diag_say(d, DIAG_ERROR, DIAG_MISSPELT, item->food, "there is no recipe '%.*s'; did you mean '%s'?",
             SPAN_ARG(quoted(item->food)), near);
    misspelt_fix(d, item->food, near);
    return false;
  }
  size_t errors = d->errors;
  if (read_foods(k, item, d, out)) return true;
  if (isnan(item->grams) || d->errors == errors) return false;
  diag_say(d, DIAG_WARNING, DIAG_NOT_FOUND, item->food,
           "if '%.*s' is a recipe: no recipe of that name is among the files given or in the folder",
           SPAN_ARG(quoted(item->food)));
  return false;
}

/* ---- read once ------------------------------------------------------------------------------------------------- */

static struct served **place(struct served **known, size_t cap, struct span words) {
  size_t at = (size_t)checksum64(words.p, words.n) & (cap - 1);
  while (known[at] && !span_eq(known[at]->words, words)) at = (at + 1) & (cap - 1);
  return &known[at];
}

static void make_room(struct kitchen *k) {
  enum { FIRST = 256 };
  if (k->known && 2 * (k->known_count + 1) < k->known_cap) return;
  size_t cap = k->known ? 2 * k->known_cap : FIRST;
  struct served **more = ARENA_NEW(k->arena, struct served *, cap);
  for (size_t i = 0; i < k->known_cap; i++)
    if (k->known[i]) *place(more, cap, k->known[i]->words) = k->known[i];
  k->known = more;
  k->known_cap = cap;
}

const struct served *kitchen_serve(struct kitchen *k, const struct journal_item *item, struct diags *d) {
  make_room(k);
  struct served **at = place(k->known, k->known_cap, item->whole);
  if (!*at) {
    struct served *s = ARENA_NEW(k->arena, struct served, 1);
    s->fine = serve(k, item, d, s);
    s->words = item->whole;
    *at = s;
    k->known_count++;
  }
  return (*at)->fine ? *at : NULL;
}
