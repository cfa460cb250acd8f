#include "app/app_lines.h"

#include "animal/animal_text.h"
#include "label/label_text.h"
#include "larder/larder_text.h"
#include "recipe/recipe_text.h"

const char *const text_kind_word[TEXT_KIND_COUNT] = {"recipe", "larder", "animals", "foods"};

enum { TITLE_MOST_BYTES = 80, FIRST_FOOD_MOST_BYTES = 60 };

static struct span key_of(const struct line_parts *l) {
  return trim_blanks(span_cut(l->key, 0, l->key.n > 0 ? l->key.n - 1 : 0));
}

static void settle_kind(enum text_kind kind, struct line_parts *l, size_t foods, struct arena *arena) {
  static const char *(*const HEADER[TEXT_KIND_COUNT])(struct span) = {NULL, larder_header, animal_header, label_header};
  if (kind == TEXT_RECIPE) {
    recipe_line_kind(l, foods, arena);
    return;
  }
  if (l->kind == LINE_UNCOUNTED) l->kind = LINE_FOOD; /* a recipe's own sign */
  if (l->kind != LINE_FOOD || l->key.n == 0) return;
  l->header = HEADER[kind](key_of(l));
  /* Of labels and animals every line is "Key: value": an amount of zinc as much as a name. */
  if (l->header || kind != TEXT_LARDER || foods == 0) l->kind = LINE_HEADER;
}

static bool is(const struct line_parts *l, const char *header) { return l->header && strcmp(l->header, header) == 0; }

static const char *at_most(struct span s, size_t most, struct arena *arena) {
  size_t n = s.n < most ? s.n : most;
  while (n < s.n && n > 0 && ((unsigned char)s.p[n] & 0xC0) == 0x80) n--; /* whole characters */
  return arena_text(arena, trim_blanks(span_cut(s, 0, n)));
}

void app_lines(enum text_kind kind, struct span text, struct app_lines *out, struct arena *arena) {
  static const char *const NAMED[TEXT_KIND_COUNT] = {"Recipe", "Larder", "Animal", "Food"};
  struct app_line *lines = NULL;
  const char **names = NULL;
  const char *first = "";
  size_t cap = 0, name_cap = 0, foods = 0;
  bool listed = kind == TEXT_ANIMALS || kind == TEXT_FOODS;
  *out = (struct app_lines){.title = "", .for_whom = ""};
  for (size_t at = 0; at <= text.n;) {
    const char *end = memchr(text.p + at, '\n', text.n - at);
    size_t stop = end ? (size_t)(end - text.p) : text.n;
    struct app_line l = {.whole = span_cut(text, at, stop)};
    line_parts_read(l.whole, &l.parts);
    settle_kind(kind, &l.parts, foods, arena);
    if (is(&l.parts, NAMED[kind]) && l.parts.value.n > 0) {
      if (listed) {
        const char *name = arena_text(arena, l.parts.value);
        ARENA_PUSH(arena, names, out->name_count, name_cap, name);
      } else if (!out->title[0]) {
        out->title = at_most(l.parts.value, TITLE_MOST_BYTES, arena);
      }
    }
    if (is(&l.parts, "For") && !out->for_whom[0]) out->for_whom = arena_text(arena, l.parts.value);
    bool food = l.parts.kind == LINE_FOOD || l.parts.kind == LINE_UNCOUNTED;
    if (food && !first[0]) first = at_most(l.parts.said, FIRST_FOOD_MOST_BYTES, arena);
    foods += food ? 1 : 0;
    ARENA_PUSH(arena, lines, out->count, cap, l);
    at = stop + 1;
  }
  if (!out->title[0] && !listed) out->title = first;
  out->line = lines;
  out->names = names;
  out->begun = foods > 0 || (listed && out->name_count > 0);
}
