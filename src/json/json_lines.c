/* A text as its lines, for whoever draws it. */
#include "app/app_lines.h"

#include "base/utf8.h"
#include "json/json_parts.h"

static const struct app_line *line(const struct at *at) { return at->it; }

/* In characters from 1; NaN where there is nothing. */
static double column(const struct at *at, struct span part) {
  struct span whole = line(at)->whole;
  if (part.n == 0) return NOT_KNOWN;
  return utf8_count(span_cut(whole, 0, (size_t)(part.p - whole.p))) + 1;
}
static double width(struct span part) { return part.n == 0 ? NOT_KNOWN : utf8_count(part); }

static int kind(const struct at *at) { return (int)line(at)->parts.kind; }
static const char *header(const struct at *at) { return line(at)->parts.header; }
static double key_column(const struct at *at) { return column(at, line(at)->parts.key); }
static double key_width(const struct at *at) { return width(line(at)->parts.key); }
static double pin_column(const struct at *at) { return column(at, line(at)->parts.pin); }
static double pin_width(const struct at *at) { return width(line(at)->parts.pin); }
static double remark_column(const struct at *at) { return column(at, line(at)->parts.remark); }
static double said_end(const struct at *at) {
  struct span said = line(at)->parts.said;
  return said.n == 0 ? 1 : column(at, said) + utf8_count(said);
}

static const char *text_of(const struct at *at, struct span s);

static const char *value(const struct at *at) { return text_of(at, line(at)->parts.value); }
static const char *ask(const struct at *at) { return text_of(at, line(at)->parts.ask); }

/* The outermost object lends its arena. */
struct lines_told {
  const struct app_lines *lines;
  struct arena *arena;
};

static const char *text_of(const struct at *at, struct span s) {
  const struct lines_told *told = at_within(at, &json_lines_shape);
  return s.n == 0 ? NULL : arena_text(told->arena, s);
}

static const struct field LINE[] = {
    WORD_OF_ALWAYS("kind", kind, line_kind_word, LINE_KIND_COUNT, "what it is"),
    TEXT_OF("header", header, "the header's own word; null when it is none that is known"),
    TEXT_OF("value", value, "what follows the colon"),
    NUMBER_OF("key_column", "characters", key_column, "from 1: where the words before the colon begin"),
    NUMBER_OF("key_width", "characters", key_width, "with the colon"),
    NUMBER_OF("pin_column", "characters", pin_column, "from 1"),
    NUMBER_OF("pin_width", "characters", pin_width, "with its brackets"),
    NUMBER_OF("remark_column", "characters", remark_column, "from 1: where its sign stands"),
    NUMBER_OF_ALWAYS("end_column", "characters", said_end, "after what is said, before blanks and remark"),
    TEXT_OF("ask", ask, "of a question for the owner: what is asked"),
};
static const struct shape line_shape = SHAPE("TextLine", LINE, "a line of a text, and its pieces");

static const struct app_lines *lines(const struct at *at) {
  return ((const struct lines_told *)at_within(at, &json_lines_shape))->lines;
}
static size_t count(const struct at *at) { return lines(at)->count; }
static const void *item(const struct at *at, size_t i) { return &lines(at)->line[i]; }
static size_t name_count(const struct at *at) { return lines(at)->name_count; }
static const char *name(const struct at *at, size_t i) { return lines(at)->names[i]; }
static const char *title(const struct at *at) { return lines(at)->title; }
static const char *for_whom(const struct at *at) { return lines(at)->for_whom; }
static int begun(const struct at *at) { return lines(at)->begun; }

static const struct field LINES[] = {
    TEXT_OF("title", title, "what the text calls itself, else its first food"),
    TEXT_OF("for_whom", for_whom, "the animal it names"),
    TEXTS_OF("names", name_count, name, "of the animals, or of the own foods"),
    TRUTH_OF("begun", begun, "it holds more than headers, headings and remarks"),
    ROWS_OF("lines", count, item, &line_shape, "all of them"),
};
const struct shape json_lines_shape = SHAPE("TextLines", LINES, "a text as its lines");

void json_lines(const struct app_lines *a, struct buf *out) {
  const struct lines_told told = {a, out->arena};
  json_write(NULL, &json_lines_shape, &told, out);
}
