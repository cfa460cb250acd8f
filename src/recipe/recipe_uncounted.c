/* "? some kale", "? 1 cup of that mix": what is fed without being counted, where its words say what it is. */
#include <math.h>

#include "foods/constant_keys.h"
#include "foods/hazard_words.h"
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

/* Words that stand where an amount stands: "pinch of kelp". */
static bool begins_with_measure(struct span s, struct arena *arena) {
  struct tokens t = tokens_of(s, arena);
  size_t used;
  return t.count > 1 && (unit_at_token(&t, 0, &used) != UNIT_NONE || is_household_word(t.item[0].word));
}

/* As a line of the recipe; a food without an amount is read with one, which says nothing. */
static bool read_as_line(const struct ration_uncounted *u, struct recipe_line *out, bool *amount, struct arena *arena) {
  struct span s = before_occasion(span_of(u->text));
  struct diags d;
  struct buf b;
  *amount = starts_with_amount(s, arena);
  if (s.n >= LINE_MOST_BYTES / 2 || memchr(s.p, '#', s.n)) return false;
  if (!*amount) s = behind_no_amount(s);
  buf_init(&b, arena, LINE_MOST_BYTES);
  buf_adds(&b, *amount ? "" : begins_with_measure(s, arena) ? "1 " : "1 g ");
  buf_add(&b, s);
  diags_init(&d, arena, "", buf_span(&b));
  struct line_reader reader = {.out = out, .d = &d, .arena = arena};
  bool fine = recipe_line_read(&reader, buf_span(&b), u->line) && d.errors == 0;
  *amount |= fine && unit_info[out->unit].kind != UNIT_KIND_MASS;
  return fine;
}

static void take_foods(struct ration_uncounted *u, const uint32_t *food, size_t count) {
  u->may_be = food;
  u->may_be_count = count;
}

/* Is each of these words in the record's name? A slip of the pen is let pass nowhere here. */
static bool is_called(struct line_food *f, uint32_t food, struct span words) {
  struct span name = line_fold(f, span_of(library_name(f->lib, food)));
  for (words = line_fold(f, words); words.n > 0;) {
    struct span word = span_piece(&words, ' ');
    bool found = false;
    for (struct span rest = name; rest.n > 0 && !found;) found = span_eq(span_piece(&rest, ' '), word);
    if (!found) return false;
  }
  return true;
}

/* "5 g liver": no record fits it well, but all that are called so are livers. */
static bool find_all_called_so(struct line_food *f, struct ration_uncounted *u) {
  enum { MOST = 24 };
  struct search_hit hit[MOST];
  struct search_wish wish = SEARCH_WISH_NONE;
  size_t n = search_foods(f->lib, f->line->food, &wish, hit, MOST, f->arena), fit = 0;
  uint32_t *food = ARENA_NEW(f->arena, uint32_t, MOST);
  for (size_t i = 0; i < n; i++)
    if (hit[i].words_missed == 0 && is_called(f, hit[i].food, f->line->food)) food[fit++] = hit[i].food;
  if (fit > 0) take_foods(u, food, fit);
  return fit > 0;
}

static bool choose_foods(struct line_food *f, struct ration_uncounted *u) {
  if (!choose_food(f) || f->d->errors > 0) return false;
  uint32_t *may_be = ARENA_NEW(f->arena, uint32_t, f->rival_count + 1);
  may_be[0] = f->food;
  for (size_t i = 0; i < f->rival_count; i++) may_be[i + 1] = f->rivals[i];
  take_foods(u, may_be, f->rival_count + 1);
  return true;
}

/* A mass needs no food; of a spoon or a piece each of the foods may weigh the most. */
static double grams_said(struct line_food *f, const struct ration_uncounted *u) {
  const struct recipe_line *l = f->line;
  double most = (double)NAN;
  enum unit_kind kind = unit_info[l->unit].kind;
  if (kind == UNIT_KIND_MASS) return l->amount_high * unit_convert(1, l->unit);
  if (kind == UNIT_KIND_VOLUME && u->may_be_count == 0)
    return l->amount_high * unit_convert(1, l->unit) * library_constant_value(f->lib, K_SPOONED_MOST, SPECIES_DOG);
  for (size_t i = 0; i < u->may_be_count; i++) {
    struct line_food one = *f;
    struct diags d;
    diags_init(&d, f->arena, "", l->whole);
    one.d = &d;
    one.food = u->may_be[i];
    if (!find_grams(&one) || !(one.grams_high >= 0)) return (double)NAN;
    if (!(one.grams_high <= most)) most = one.grams_high;
  }
  return most;
}

static void find_foods(const struct library *lib, const struct recipe *recipe, struct ration_uncounted *u,
                       struct arena *arena) {
  struct recipe_line line = {0};
  struct diags d;
  bool amount = false, is_kind = uncounted_kind_of(lib, span_of(u->text), &u->kind, arena);
  if (!is_kind) u->kind = (struct uncounted_kind){.name = ""};
  if (!read_as_line(u, &line, &amount, arena)) return;
  diags_init(&d, arena, "", span_of(u->text));
  struct line_food f = {.lib = lib, .recipe = recipe, .line = &line, .d = &d, .arena = arena, .food = NO_INDEX};
  bool treats = u->kind.snack && !u->kind.nameless; /* no table has what pets are treated to, but sweets called so */
  if (!treats && !choose_foods(&f, u) && (!is_kind || u->kind.nameless)) find_all_called_so(&f, u);
  if (amount) u->said_g = grams_said(&f, u);
}

static unsigned dangerous_for(const struct library *lib, struct span text, struct arena *arena) {
  unsigned bits = 0;
  for (int s = 0; s < SPECIES_COUNT; s++)
    if (hazard_words_danger(lib, text, s, arena) != NO_INDEX) bits |= 1U << s;
  return bits;
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
    all[i].is_read = true;
    all[i].said_g = (double)NAN;
    all[i].goes_out = dangerous_for(lib, span_of(all[i].text), arena);
    find_foods(lib, recipe, &all[i], arena);
  }
  return all;
}
