#include "app/app_page.h"
#include "base/utf8.h"

/* Everyday names are matched as they are typed: every word but the last must be there, the last may be unfinished. */

static bool has_word(struct span phrase, struct span word, bool unfinished) {
  for (size_t at = 0; at < phrase.n;) {
    const char *blank = memchr(phrase.p + at, ' ', phrase.n - at);
    size_t end = blank ? (size_t)(blank - phrase.p) : phrase.n;
    struct span one = span_cut(phrase, at, end);
    if (unfinished ? one.n >= word.n && memcmp(one.p, word.p, word.n) == 0 : span_eq(one, word)) return true;
    at = end + 1;
  }
  return false;
}

static bool begins(struct span phrase, struct span typed) {
  for (size_t at = 0; at < typed.n;) {
    const char *blank = memchr(typed.p + at, ' ', typed.n - at);
    size_t end = blank ? (size_t)(blank - typed.p) : typed.n;
    if (!has_word(phrase, span_cut(typed, at, end), !blank)) return false;
    at = end + 1;
  }
  return typed.n > 0;
}

static void find_names(const struct library *lib, struct span typed, size_t most, struct app_suggestions *out,
                       struct arena *arena) {
  const struct img_name *name = IMG_ROWS(&lib->image, IMG_NAMES, struct img_name);
  out->name = ARENA_NEW(arena, const struct img_name *, most + 1);
  for (size_t i = 0; i < img_count(&lib->image, IMG_NAMES) && out->names < most; i++)
    if (name[i].rank == 0 && begins(span_of(lib_str(lib, name[i].phrase)), typed)) out->name[out->names++] = &name[i];
}

/* The food's words of one line, wherever its amount, qualifiers and frequency stand. */
static struct span food_words(struct span line, struct recipe_line *read, struct arena *arena) {
  struct diags d;
  struct recipe recipe;
  diags_init(&d, arena, "line", line);
  bool understood = recipe_parse(line, &d, &recipe, arena);
  *read = (struct recipe_line){0};
  if (!understood || recipe.line_count != 1) return (struct span){line.p, 0};
  *read = recipe.line[0];
  return read->food_at;
}

void app_suggest(const struct library *lib, struct span line, size_t most, struct app_suggestions *out,
                 struct arena *arena) {
  struct recipe_line read;
  struct span at = food_words(line, &read, arena);
  struct search_hit *hits = ARENA_NEW(arena, struct search_hit, most + 1);
  *out = (struct app_suggestions){.words = at.n > 0 ? read.food : at, .hit = hits};
  out->column = at.n > 0 ? utf8_count(span_cut(line, 0, (size_t)(at.p - line.p))) + 1 : 0;
  out->width = utf8_count(at);
  out->pinned = read.pin.n > 0;
  out->hits = at.n > 0 ? search_foods(lib, out->words, &read.wish, hits, most, arena) : 0;
  find_names(lib, search_fold(&lib->image, out->words, arena), most, out, arena);
}

/* ---- foods that people name ------------------------------------------------------------------------------------------ */

static void mark(bool *named, size_t foods, uint32_t food) {
  if (food < foods) named[food] = true;
}

const bool *app_named_foods(const struct library *lib, struct arena *arena) {
  const struct img_name *name = IMG_ROWS(&lib->image, IMG_NAMES, struct img_name);
  const struct img_fix *fix = IMG_ROWS(&lib->image, IMG_FIXES, struct img_fix);
  size_t foods = library_count(lib);
  bool *named = ARENA_NEW(arena, bool, foods + 1);
  for (size_t i = 0; i < img_count(&lib->image, IMG_NAMES); i++) mark(named, foods, name[i].food);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FIXES); i++) mark(named, foods, fix[i].food);
  return named;
}
