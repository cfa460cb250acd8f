#include "wasm/page_answer.h"

/* While a person types, one food is nearly always half a food. So the foods of a text are read one after the other, each
 * alone: one that is not understood does not take the others with it. A text far longer than anybody's shelf is read as a
 * whole. */
enum { READ_SINGLY_MOST_BYTES = 64 * 1024 };

struct block {
  size_t from, to; /* bytes of the text */
  int line;        /* of its first byte, from 1 */
};

static bool begins_food(struct span line) {
  line = span_trim(line);
  return span_starts_fold(line, "food:") || span_starts_fold(line, "name:");
}

/* One food with what stands before it, up to the line where the next one begins; 'line' is counted on to that one. */
static struct block next_block(struct span text, size_t at, int *line) {
  struct block b = {at, at, *line};
  bool begun = false;
  while (b.to < text.n) {
    const char *end = memchr(text.p + b.to, '\n', text.n - b.to);
    size_t stop = end ? (size_t)(end - text.p) : text.n;
    bool begins = begins_food(span_cut(text, b.to, stop));
    if (begun && begins) break;
    begun = begun || begins;
    b.to = end ? stop + 1 : text.n;
    ++*line;
  }
  return b;
}

/* The block behind as many empty lines as stand before it: complaints then name the right line. */
static struct span alone(struct span text, struct block b, struct arena *arena) {
  size_t before = (size_t)b.line - 1, n = b.to - b.from;
  char *copy = ARENA_NEW(arena, char, before + n + 1);
  memset(copy, '\n', before);
  memcpy(copy + before, text.p + b.from, n);
  return (struct span){copy, before + n};
}

static void read_block(struct library *lib, struct span text, struct json *j, struct arena *arena) {
  struct diags d;
  struct app_input labels = {"foods", text};
  if (span_trim(text).n == 0) return;
  /* A complaint is part of the diags; what was not understood has added nothing. */
  bool understood = app_add_foods(lib, &labels, &d, arena);
  (void)understood;
  page_complaints(j, "foods", &d);
}

static void write_foods(struct json *j, const struct library *lib, size_t from) {
  json_open(j, "foods", '[');
  for (size_t i = from; i < lib->own_count; i++) {
    json_open(j, NULL, '{');
    json_text(j, "food", lib->own[i].code);
    json_text(j, "name", lib->own[i].name);
    json_close(j, '}');
  }
  json_close(j, ']');
}

void page_foods(struct library *lib, struct span text, struct buf *out, struct arena *arena) {
  size_t before = lib->own_count;
  struct json writer, *j = &writer;
  json_init(j, out);
  json_open(j, NULL, '{');
  json_open(j, "complaints", '[');
  if (text.n > READ_SINGLY_MOST_BYTES) {
    read_block(lib, arena_span(arena, text), j, arena);
  } else {
    int line = 1;
    for (size_t at = 0; at < text.n;) {
      struct block b = next_block(text, at, &line);
      read_block(lib, alone(text, b, arena), j, arena);
      at = b.to;
    }
  }
  json_close(j, ']');
  write_foods(j, lib, before);
  json_close(j, '}');
}
