#include "foods/refused.h"

#include "foods/search.h"

/* "Vitamin D" is D3 as well. */
static bool is_word_or_its_number(struct span has, struct span word) {
  if (has.n < word.n || !span_eq(span_cut(has, 0, word.n), word)) return false;
  for (size_t i = word.n; i < has.n; i++)
    if (has.p[i] < '0' || has.p[i] > '9') return false;
  return true;
}

/* Does the folded text hold these folded words, each whole? A letter alone stands behind the word before it: "vitamin d". */
static bool holds_words(struct span text, struct span words) {
  struct span behind = {text.p, 0};
  if (words.n == 0) return false;
  while (words.n > 0) {
    struct span word = span_piece(&words, ' '), rest = word.n == 1 && behind.n > 0 ? behind : text;
    bool found = word.n == 0;
    do {
      found = found || is_word_or_its_number(span_piece(&rest, ' '), word);
    } while (rest.n > 0 && !found && word.n > 1);
    if (!found) return false;
    behind = rest;
  }
  return true;
}

static const struct img_food_group *group_folded(const struct library *lib, struct span folded) {
  const struct img_food_group *row = IMG_ROWS(&lib->image, IMG_FOOD_GROUPS, struct img_food_group);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FOOD_GROUPS); i++)
    for (struct span words = span_of(lib_str(lib, row[i].words)); words.n > 0;)
      if (span_eq(span_piece(&words, '|'), folded)) return &row[i];
  return NULL;
}

const struct img_food_group *food_group_of(const struct library *lib, struct span words, struct arena *arena) {
  return group_folded(lib, search_fold(&lib->image, words, arena));
}

static bool belongs(const struct library *lib, const struct img_food_group *g, const struct img_food *f, struct span name) {
  bool in = (g->kinds >> f->kind & 1) != 0 || (g->parts >> f->part & 1) != 0;
  for (struct span names = span_of(lib_str(lib, g->names)); names.n > 0;) {
    struct span one = span_piece(&names, '|'), rest = one;
    bool but = span_is(span_piece(&rest, ' '), "not");
    if (!holds_words(name, but ? rest : one)) continue;
    if (but) return false;
    in = true;
  }
  return in;
}

bool food_is_refused(const struct library *lib, uint32_t food, const char *called, struct span refused,
                     struct arena *arena) {
  const struct img_food *f = library_food(lib, food);
  if (!f) return false;
  if (span_eq_fold(refused, span_of(library_code(lib, food)))) return true;
  struct span words = search_fold(&lib->image, refused, arena), rest = words, first = span_piece(&rest, ' ');
  bool raw = span_is(first, "raw"), cooked = span_is(first, "cooked");
  if ((raw || cooked) && rest.n > 0) {
    if (state_is_cooked((enum state)f->state) != cooked) return false;
    words = rest;
  }
  struct span name = search_fold(&lib->image, span_of(library_name(lib, food)), arena);
  const struct img_food_group *g = group_folded(lib, words);
  if (g && belongs(lib, g, f, name)) return true;
  return holds_words(name, words) || holds_words(search_fold(&lib->image, span_of(called), arena), words);
}
