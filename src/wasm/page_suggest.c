#include "wasm/page_answer.h"

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

static void write_names(struct json *j, const struct library *lib, struct span typed, size_t most) {
  const struct img_name *name = IMG_ROWS(&lib->image, IMG_NAMES, struct img_name);
  size_t shown = 0;
  for (size_t i = 0; i < img_count(&lib->image, IMG_NAMES) && shown < most; i++) {
    struct span phrase = span_of(lib_str(lib, name[i].phrase));
    if (name[i].rank != 0 || !begins(phrase, typed)) continue;
    json_open(j, NULL, '{');
    json_span(j, "phrase", phrase);
    json_text(j, "food", library_code(lib, name[i].food));
    json_text(j, "name", library_name(lib, name[i].food));
    json_close(j, '}');
    shown++;
  }
}

static int characters(struct span s) {
  int n = 0;
  for (size_t i = 0; i < s.n; i++) n += ((unsigned char)s.p[i] & 0xC0) != 0x80;
  return n;
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

void page_suggest(const struct library *lib, struct span line, size_t most, struct buf *out, struct arena *arena) {
  struct recipe_line read;
  struct span at = food_words(line, &read, arena);
  struct span words = at.n > 0 ? read.food : at;
  struct search_hit *hits = ARENA_NEW(arena, struct search_hit, most + 1);
  size_t count = at.n > 0 ? search_foods(lib, words, &read.wish, hits, most, arena) : 0;
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '{');
  json_number(j, "column", at.n > 0 ? characters(span_cut(line, 0, (size_t)(at.p - line.p))) + 1 : 0);
  json_number(j, "width", characters(at));
  json_bool(j, "pinned", read.pin.n > 0);
  json_open(j, "names", '[');
  write_names(j, lib, search_fold(&lib->image, words, arena), most);
  json_close(j, ']');
  buf_adds(out, ",\"found\":");
  json_foods(lib, words, hits, count, out);
  json_close(j, '}');
}
