/* The measures that the food's own record weighs, and which of them a line means. */
#include "recipe/recipe_measures.h"

#include <math.h>

static int number_of_words(struct span s) {
  int n = 0;
  struct span w;
  while (folded_word(&s, &w)) n++;
  return n;
}

static struct span folded(struct line_food *f, const char *s) { return line_fold(f, span_of(s)); }

struct measures measures_of(const struct line_food *f) {
  struct measures m;
  m.at = library_measures(f->lib, f->food, &m.count);
  return m;
}

/* How well a measure's words suit the line: shared words count for it, words the line does not say a little against it. */
static double suits(struct line_food *f, const struct img_measure *m, struct span line) {
  struct span words = folded(f, lib_str(f->lib, m->words));
  int shared = shared_words(words, line);
  return shared - 0.1 * (number_of_words(words) - shared);
}

static const struct img_measure *best_measure(struct line_food *f,
                                              bool (*fits)(struct line_food *, const struct img_measure *)) {
  struct measures all = measures_of(f);
  struct span line = line_fold(f, f->line->whole);
  const struct img_measure *best = NULL;
  double best_fit = -INFINITY;
  for (size_t i = 0; i < all.count; i++) {
    if (!(all.at[i].grams > 0) || !fits(f, &all.at[i])) continue;
    double fit = suits(f, &all.at[i], line);
    if (fit > best_fit) {
      best_fit = fit;
      best = &all.at[i];
    }
  }
  return best;
}

bool unit_is_volume(enum unit u) { return u < UNIT_COUNT && unit_info[u].kind == UNIT_KIND_VOLUME; }
static bool says_ground(struct line_food *f) {
  struct span line = line_fold(f, f->line->whole);
  return has_folded_word(line, SPAN_LIT("ground")) || has_folded_word(line, SPAN_LIT("milled"));
}

/* A spoon of ground seed holds less than one of whole seed. */
static bool is_of_whole(struct line_food *f, const struct img_measure *m) {
  return says_ground(f) && has_folded_word(folded(f, lib_str(f->lib, m->words)), SPAN_LIT("whole"));
}
/* Nor a spoon of cream as much as one of cream that was whipped. */
static bool is_of_whipped(struct line_food *f, const struct img_measure *m) {
  struct span words = folded(f, lib_str(f->lib, m->words));
  return has_folded_word(words, SPAN_LIT("whipped")) && !has_folded_word(words, SPAN_LIT("fluid")) &&
         !has_folded_word(line_fold(f, f->line->whole), SPAN_LIT("whipped"));
}
/* "mashed potato": of what grows, and not from a tin. */
static bool says_mashed(struct line_food *f) {
  const struct img_food *food = library_food(f->lib, f->food);
  struct span line = line_fold(f, f->line->whole);
  return (food->part == PART_VEGETABLE || food->part == PART_FRUIT) && food->state != STATE_CANNED &&
         (has_folded_word(line, SPAN_LIT("mashed")) || has_folded_word(line, SPAN_LIT("pureed")));
}

/* Nor cubes as much as mash: "1/4 cup sweet potato cubes", and "1/2 cup mashed potato" of a record that weighs pieces. */
static bool is_of_another_cut(struct line_food *f, const struct img_measure *m) {
  static const char *const PIECES[] = {"cube", "cubed", "diced", "chopped", "chunk", "sliced", "slice"};
  struct span words = folded(f, lib_str(f->lib, m->words)), line = line_fold(f, f->line->whole);
  bool mash = has_folded_word(words, SPAN_LIT("mashed")), mashed = says_mashed(f);
  for (size_t i = 0; i < COUNT_OF(PIECES) && mash && !mashed; i++)
    if (has_folded_word(line, span_of(PIECES[i]))) return true;
  return mashed && !mash;
}
static bool same_unit(struct line_food *f, const struct img_measure *m) {
  return m->unit == (uint32_t)f->line->unit && !is_of_whole(f, m) && !is_of_whipped(f, m) && !is_of_another_cut(f, m);
}
static bool any_volume(struct line_food *f, const struct img_measure *m) {
  return unit_is_volume((enum unit)m->unit) && !is_of_whole(f, m) && !is_of_whipped(f, m) && !is_of_another_cut(f, m);
}

static bool says(struct line_food *f, const struct img_measure *m, const char *word) {
  return has_folded_word(folded(f, lib_str(f->lib, m->words)), span_of(word));
}

/* A handful of breast is no whole breast. */
static bool is_by_hand(struct span unit) {
  static const char *const WORDS[] = {"handful", "splash", "drizzle", "dash", "sprinkle", "dab", "smidgen", "knob", "dollop", "glug", "squirt", "pump"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (span_starts_fold(unit, WORDS[i])) return true;
  return false;
}

/* "fillet", "large", "bunch": the measure begins with the word that was counted. */
static bool counted_word(struct line_food *f, const struct img_measure *m) {
  struct span words = folded(f, lib_str(f->lib, m->words)), first;
  struct span unit = f->line->unit == UNIT_EACH ? line_fold(f, f->line->unit_at) : folded(f, unit_info[f->line->unit].word);
  if (unit.n == 0 || !folded_word(&words, &first)) return false;
  if (f->line->unit == UNIT_EXTRA_LARGE) return says(f, m, "extra") && says(f, m, "large");
  if (f->line->unit == UNIT_LARGE && says(f, m, "extra")) return false;
  if (f->line->unit >= UNIT_SMALL && f->line->unit <= UNIT_LARGE)
    return has_folded_word(folded(f, lib_str(f->lib, m->words)), unit);
  bool by_hand = f->line->unit == UNIT_EACH && is_by_hand(f->line->unit_at);
  return has_folded_word(unit, first) || (!by_hand && m->unit == (uint32_t)f->line->unit);
}

/* "2 chicken thighs": the measure begins with a word of the food. */
static bool named_of_any_size(struct line_food *f, const struct img_measure *m) {
  struct span words = folded(f, lib_str(f->lib, m->words)), first;
  return m->unit == UNIT_NONE && folded_word(&words, &first) && has_folded_word(line_fold(f, f->line->food), first);
}

/* Nobody who writes "2 potatoes" means the large ones that a table happens to weigh. */
static bool named_piece(struct line_food *f, const struct img_measure *m) {
  return named_of_any_size(f, m) && !says(f, m, "large") && !says(f, m, "small");
}

static bool usual_piece(struct line_food *f, const struct img_measure *m) {
  static const char *const WORDS[] = {"medium", "each", "whole", "piece", "fruit", "item", "egg"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++) {
    struct span words = folded(f, lib_str(f->lib, m->words)), first;
    if (folded_word(&words, &first) && span_is(first, WORDS[i])) return true;
  }
  return false;
}

const struct img_measure *measure_in_unit(struct line_food *f) { return best_measure(f, same_unit); }
const struct img_measure *measure_by_volume(struct line_food *f) { return best_measure(f, any_volume); }
const struct img_measure *measure_counted(struct line_food *f) { return best_measure(f, counted_word); }
const struct img_measure *measure_named(struct line_food *f) { return best_measure(f, named_piece); }
const struct img_measure *measure_named_of_any_size(struct line_food *f) { return best_measure(f, named_of_any_size); }
const struct img_measure *measure_of_usual_piece(struct line_food *f) { return best_measure(f, usual_piece); }

bool measure_assumes_mash(struct line_food *f, const struct img_measure *m) {
  return unit_is_volume((enum unit)m->unit) && has_folded_word(folded(f, lib_str(f->lib, m->words)), SPAN_LIT("mashed")) &&
         !says_mashed(f);
}

const struct img_density *density_by_words(struct line_food *f) {
  const struct img_density *rows = IMG_ROWS(&f->lib->image, IMG_DENSITIES, struct img_density), *best = NULL;
  struct buf b;
  buf_init(&b, f->arena, strlen(library_name(f->lib, f->food)) + 16);
  if (says_mashed(f))
    buf_adds(&b, "mashed");
  else
    buf_addf(&b, "%s%s", library_name(f->lib, f->food), says_ground(f) ? " ground" : "");
  struct span name = line_fold(f, buf_span(&b));
  int best_words = 0;
  for (size_t i = 0; i < img_count(&f->lib->image, IMG_DENSITIES); i++) {
    struct span words = span_of(lib_str(f->lib, rows[i].words));
    int n = number_of_words(words);
    if (n > best_words && shared_words(words, name) == n) {
      best = &rows[i];
      best_words = n;
    }
  }
  return best;
}
