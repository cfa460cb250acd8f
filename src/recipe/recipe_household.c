/* Handfuls, pinches, tins and pieces: data/household.tsv. */
#include <math.h>

#include "base/num.h"
#include "recipe/recipe_food.h"

static struct household not_known(void) { return (struct household){(double)NAN, (double)NAN, (double)NAN, NULL}; }

enum { SLIP_LEAST = 5 }; /* letters: in shorter words a slip makes another word */

/* One slip of the pen is let pass, as the search lets it pass: "chiken". */
static bool holds_word(struct span text, struct span word) {
  while (text.n > 0) {
    struct span here = span_piece(&text, ' ');
    if (span_eq(here, word) || (word.n >= SLIP_LEAST && here.n >= SLIP_LEAST && span_distance(here, word, 1) <= 1))
      return true;
  }
  return false;
}

/* How many of 'words' there are; -1 when one of them is missing in the text. */
static int holds_all(struct span text, struct span words) {
  int n = 0;
  for (; words.n > 0; n++)
    if (!holds_word(text, span_piece(&words, ' '))) return -1;
  return n;
}

/* "handful", "handfuls", "handfull", "spoonful": the measure as it was counted. */
static bool is_measure(struct span counted, struct span spellings) {
  while (spellings.n > 0) {
    struct span word = span_piece(&spellings, '|');
    if (counted.n < word.n || !span_eq_fold(span_cut(counted, 0, word.n), word)) continue;
    struct span ending = span_cut(counted, word.n, counted.n);
    if (ending.n == 0 || span_is(ending, "s") || span_is(ending, "es") || span_is(ending, "ful") ||
        span_is(ending, "fuls") || span_is(ending, "full") || span_is(ending, "l"))
      return true;
  }
  return false;
}

static bool is_for_food(struct line_food *f, struct span foods, struct span text) {
  if (foods.n == 0) return true;
  struct span part = span_of(part_word[library_food(f->lib, f->food)->part % PART_COUNT]);
  while (foods.n > 0) {
    struct span one = span_piece(&foods, '|');
    if (span_eq(one, part) || holds_all(text, one) > 0) return true;
  }
  return false;
}

/* "2 cabbage leaves", "1 broccoli floret": a part, which weighs less than the whole piece. */
static bool is_part_of_piece(struct span text, struct span foods) {
  static const char *const PARTS[] = {"floret", "leaf", "stalk", "stem", "seed", "sprig", "slice", "wedge", "spear", "peel"};
  for (size_t i = 0; i < COUNT_OF(PARTS); i++)
    if (has_folded_word(text, span_of(PARTS[i])) && !has_folded_word(foods, span_of(PARTS[i]))) return true;
  return false;
}

static const struct img_household *find_row(struct line_food *f) {
  const struct img_household *rows = IMG_ROWS(&f->lib->image, IMG_HOUSEHOLD, struct img_household), *best = NULL;
  const struct recipe_line *l = f->line;
  struct span text = line_fold(f, l->whole), unit = l->unit == UNIT_EACH ? l->unit_at : span_of(unit_info[l->unit].word);
  bool sized = l->unit >= UNIT_SMALL && l->unit <= UNIT_EXTRA_LARGE; /* the range holds small and large ones */
  bool piece =
      sized || unit.n == 0 || span_is_fold(unit, "each") || span_starts_fold(unit, "piece") || span_is_fold(unit, "whole");
  int most = 0;
  for (size_t i = 0; i < img_count(&f->lib->image, IMG_HOUSEHOLD); i++) {
    struct span words = span_of(lib_str(f->lib, rows[i].words)), foods = span_of(lib_str(f->lib, rows[i].foods));
    if (words.n > 0 && is_measure(unit, words) && is_for_food(f, foods, text)) return &rows[i];
    int n = words.n == 0 && piece ? holds_all(text, foods) : 0;
    if (n <= most || is_part_of_piece(text, foods)) continue;
    most = n;
    best = &rows[i];
  }
  return best;
}

struct household household_one(struct line_food *f, double g_per_ml) {
  const struct img_household *row = find_row(f);
  if (!row || (row->is_volume && !(g_per_ml > 0))) return not_known();
  double by = row->is_volume ? g_per_ml : 1;
  struct household h = {(double)row->low * by, (double)row->middle * by, (double)row->high * by, NULL};
  struct span spellings = span_of(lib_str(f->lib, row->words));
  struct span counted = spellings.n > 0 ? span_piece(&spellings, '|') : span_of("piece");
  struct buf b;
  buf_init(&b, f->arena, 160);
  buf_addf(&b, "one %.*s taken as ", SPAN_ARG(counted));
  num_sig(&b, h.middle, 3);
  buf_adds(&b, " g (");
  num_sig(&b, h.low, 2);
  buf_adds(&b, " to ");
  num_sig(&b, h.high, 2);
  buf_adds(&b, " g)");
  h.words = buf_text(&b);
  return h;
}
