/* "? some kale", "? 1 cup of that mix": what is fed without being counted, where its words say what it is. */
#include "recipe/recipe_food.h"
#include "recipe/recipe_line.h"
#include "text/scan.h"

/* Words of an amount that is none, before the food. */
static bool says_no_amount(struct span w) {
  static const char *const WORDS[] = {"some",  "a",      "an",   "bit",     "bits",  "of",    "few", "little",
                                      "lots",  "plenty", "any",  "random",  "extra", "other", "odd", "the",
                                      "his",   "her",    "lot",  "piece",   "also",  "plus",  "and", "with",
                                      "loads", "pieces", "more", "several", "tiny",  "bite"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (span_is_fold(w, WORDS[i])) return true;
  return false;
}

static struct span behind_no_amount(struct span s) {
  for (;;) {
    size_t n = 0;
    while (n < s.n && s.p[n] != ' ') n++;
    if (n == s.n || !says_no_amount(span_cut(s, 0, n))) return s;
    s = trim_blanks(span_cut(s, n, s.n));
  }
}

/* "some plain yoghurt when I have it": on which occasion says nothing of what it is. */
static struct span before_occasion(struct span s) {
  static const char *const OCCASIONS[] = {" when ", " whenever ", " if ", " as "};
  for (size_t at = 1; at < s.n; at++)
    for (size_t i = 0; i < COUNT_OF(OCCASIONS); i++)
      if (span_starts_fold(span_cut(s, at, s.n), OCCASIONS[i])) return trim_blanks(span_cut(s, 0, at));
  return s;
}

/* As a line of the recipe; a food without an amount is read with one, which says nothing. */
static bool read_as_line(const struct ration_uncounted *u, struct recipe_line *out, struct arena *arena) {
  struct span s = before_occasion(span_of(u->text));
  struct diags d;
  struct buf b;
  if (s.n >= LINE_MOST_BYTES / 2 || memchr(s.p, '#', s.n)) return false;
  buf_init(&b, arena, LINE_MOST_BYTES);
  buf_adds(&b, starts_with_amount(s, arena) ? "" : "1 g ");
  buf_add(&b, starts_with_amount(s, arena) ? s : behind_no_amount(s));
  diags_init(&d, arena, "", buf_span(&b));
  struct line_reader reader = {.out = out, .d = &d, .arena = arena};
  return recipe_line_read(&reader, buf_span(&b), u->line) && d.errors == 0;
}

static void find_foods(const struct library *lib, const struct recipe *recipe, struct ration_uncounted *u,
                       struct arena *arena) {
  struct recipe_line line = {0};
  struct diags d;
  if (!read_as_line(u, &line, arena)) return;
  diags_init(&d, arena, "", span_of(u->text));
  struct line_food f = {.lib = lib, .recipe = recipe, .line = &line, .d = &d, .arena = arena, .food = NO_INDEX};
  if (!choose_food(&f) || d.errors > 0) return;
  uint32_t *may_be = ARENA_NEW(arena, uint32_t, f.rival_count + 1);
  may_be[0] = f.food;
  for (size_t i = 0; i < f.rival_count; i++) may_be[i + 1] = f.rivals[i];
  u->may_be = may_be;
  u->may_be_count = f.rival_count + 1;
}

/* Not a supplement or a treat. */
static bool names_sole_food(struct span s) {
  static const char *const WORDS[] = {"dog food", "cat food", "kibble", "biscuit food", "dry food", "wet food", "complete"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (span_holds_fold(s, span_of(WORDS[i]))) return true;
  return false;
}

const struct ration_uncounted *uncounted_foods(const struct library *lib, const struct recipe *recipe, struct arena *arena) {
  struct ration_uncounted *all = ARENA_NEW(arena, struct ration_uncounted, recipe->uncounted_count + 1);
  for (size_t i = 0; i < recipe->uncounted_count; i++) {
    all[i] = recipe->uncounted[i];
    all[i].sole_food = names_sole_food(span_of(all[i].text));
    find_foods(lib, recipe, &all[i], arena);
  }
  return all;
}
