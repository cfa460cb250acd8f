#include "text/diag.h"
#include "base/table.h"

#include <stdarg.h>

#include "base/utf8.h"

enum { MESSAGE_BYTES = 1024, EXCERPT_CHARACTERS = 76 };

WORD_TABLE(diag_code_key, DIAG_CODE_COUNT, "misspelt", "no-food", "unknown-food", "not-in-library", "label-needed",
           "no-weight", "which-animal", "animal-needed", "danger", "number", "unit", "no-amount", "twice", "empty",
           "unknown-word", "not-understood", "cooking", "limit", "not-found", "several", "date", "assumed", "doubtful",
           "not-text", "period", "left-open", "request");

void diags_init(struct diags *d, struct arena *arena, const char *file, struct span text) {
  *d = (struct diags){.arena = arena, .file = file && file[0] ? file : "-", .text = text};
}

static bool points_into(struct span text, struct span at) {
  if (!at.p || !text.p) return false;
  uintptr_t from = (uintptr_t)text.p, p = (uintptr_t)at.p;
  return p >= from && p <= from + text.n && at.n <= text.n - (size_t)(p - from);
}

struct place {
  int line, column, width; /* width 0: of no characters */
};

static struct place locate(const struct diags *d, struct span at) {
  struct place out = {0, 0, 0};
  if (!points_into(d->text, at)) return out;
  size_t offset = (size_t)(at.p - d->text.p), start = 0;
  out.line = 1;
  for (const char *p = d->text.p; (p = memchr(p, '\n', offset - (size_t)(p - d->text.p))) != NULL;) {
    p++;
    start = (size_t)(p - d->text.p);
    out.line++;
  }
  /* A byte order mark is not something that an editor shows. */
  if (start == 0 && offset >= 3 && memcmp(d->text.p, "\xEF\xBB\xBF", 3) == 0) start = 3;
  out.column = utf8_count(span_cut(d->text, start, offset)) + 1;
  const char *end = at.n > 0 ? memchr(at.p, '\n', at.n) : NULL;
  out.width = utf8_count(end ? span_cut(at, 0, (size_t)(end - at.p)) : at);
  return out;
}

static bool before(const struct diag *a, const struct diag *b) {
  return a->line != b->line ? a->line < b->line : a->column < b->column;
}

/* Kept in the order of the text, so that what two passes found reads as one list. */
static void insert(struct diags *d, struct diag item) {
  ARENA_PUSH(d->arena, d->item, d->count, d->cap, item);
  d->last = d->count - 1;
  for (; d->last > 0 && before(&d->item[d->last], &d->item[d->last - 1]); d->last--) {
    struct diag swap = d->item[d->last];
    d->item[d->last] = d->item[d->last - 1];
    d->item[d->last - 1] = swap;
  }
}

static void add(struct diags *d, enum diag_level level, enum diag_code code, struct span at, const char *fmt, va_list args) {
  struct buf message;
  buf_init(&message, d->arena, MESSAGE_BYTES);
  if (level == DIAG_ERROR) d->errors++;
  d->last = SIZE_MAX;
  if (d->count >= DIAG_MOST) return;
  buf_addv(&message, fmt, args);
  struct place place = locate(d, at);
  insert(d, (struct diag){.level = level,
                          .code = code,
                          .line = place.line,
                          .column = place.column,
                          .width = place.width > 1 ? place.width : 1,
                          .message = buf_text(&message),
                          .brief = buf_text(&message)});
}

void diag_say(struct diags *d, enum diag_level level, enum diag_code code, struct span at, const char *fmt, ...) {
  va_list args;
  va_start(args, fmt);
  add(d, level, code, at, fmt, args);
  va_end(args);
}

void diag_again(struct diags *d, const struct diag *x, enum diag_level level, const char *behind) {
  struct buf message;
  if (level == DIAG_ERROR) d->errors++;
  d->last = SIZE_MAX;
  if (d->count >= DIAG_MOST) return;
  buf_init(&message, d->arena, MESSAGE_BYTES);
  buf_adds(&message, x->message);
  if (behind[0]) buf_addf(&message, "%s %s", x->message[strlen(x->message) - 1] == '?' ? "" : ".", behind);
  struct diag again = *x;
  again.level = level;
  again.message = again.brief = buf_text(&message);
  insert(d, again);
}

static struct diag *last(struct diags *d) { return d->last < d->count ? &d->item[d->last] : NULL; }

void diag_code(struct diags *d, enum diag_code code) {
  if (last(d)) last(d)->code = code;
}

void diag_fix(struct diags *d, struct span at, const char *write, const char *label) {
  struct diag *item = last(d);
  struct place place = locate(d, at);
  if (!item || place.line == 0) return;
  struct diag_fix fix = {place.line, place.column, place.width, arena_text(d->arena, span_of(write)),
                         arena_text(d->arena, span_of(label))};
  ARENA_PUSH(d->arena, item->fix, item->fixes, item->fix_cap, fix);
}

static const char *message_of(const struct diags *d, const char *fmt, va_list args) {
  struct buf message;
  buf_init(&message, d->arena, MESSAGE_BYTES);
  buf_addv(&message, fmt, args);
  return buf_text(&message);
}

void diag_brief(struct diags *d, const char *fmt, ...) {
  va_list args;
  va_start(args, fmt);
  if (last(d)) last(d)->brief = message_of(d, fmt, args);
  va_end(args);
}

void diag_more(struct diags *d, const char *fmt, ...) {
  va_list args;
  va_start(args, fmt);
  if (last(d)) last(d)->more = message_of(d, fmt, args);
  va_end(args);
}

/* ---- printing ---- */

static struct span line_of(struct span text, int line) {
  for (int i = 1; text.n > 0; i++) {
    struct span at = span_piece(&text, '\n');
    if (i == line) return at;
  }
  return (struct span){text.p, 0};
}

/* Bytes of the first 'count' characters. */
static size_t bytes_of(struct span s, int count) {
  size_t i = 0;
  while (i < s.n && count > 0) {
    i++;
    while (i < s.n && ((unsigned char)s.p[i] & 0xC0) == 0x80) i++;
    count--;
  }
  return i;
}

/* A terminal must not be fed commands from a text that was refused for having them: each is a blank. */
static void add_shown(struct buf *out, struct span line) {
  while (line.n > 0) {
    uint32_t c;
    size_t n = utf8_read(line, &c);
    buf_add(out, n > 0 && utf8_is_obeyed(c) ? SPAN_LIT(" ") : span_cut(line, 0, n > 0 ? n : 1));
    line = span_cut(line, n > 0 ? n : 1, line.n);
  }
}

/* The source line, cut to a width around the place, and carets under it. */
static void print_excerpt(const struct diags *d, const struct diag *item, struct buf *out) {
  struct span line = line_of(d->text, item->line);
  if (item->line == 1 && line.n >= 3 && memcmp(line.p, "\xEF\xBB\xBF", 3) == 0) line = span_cut(line, 3, line.n);
  if (line.n > 0 && line.p[line.n - 1] == '\r') line.n--;
  int column = item->column - 1;
  int from = column > EXCERPT_CHARACTERS - 20 ? column - (EXCERPT_CHARACTERS - 20) : 0;
  line = span_cut(line, bytes_of(line, from), line.n);
  line = span_cut(line, 0, bytes_of(line, EXCERPT_CHARACTERS));
  column -= from;
  buf_adds(out, "    ");
  add_shown(out, line);
  int room = utf8_count(line) - column;
  int width = item->width < room ? item->width : room > 1 ? room : 1;
  buf_adds(out, "\n    ");
  buf_repeat(out, " ", (size_t)column);
  buf_repeat(out, "^", (size_t)width);
  buf_addc(out, '\n');
}

void diags_print(const struct diags *d, struct buf *out, bool excerpt) {
  static const char *const NONE[DIAG_CODE_COUNT] = {NULL};
  diags_print_with(d, out, excerpt, NONE);
}

void diags_print_with(const struct diags *d, struct buf *out, bool excerpt, const char *const hint[DIAG_CODE_COUNT]) {
  const char *file = strcmp(d->file, "-") == 0 ? "standard input" : d->file;
  size_t shown_errors = 0;
  for (size_t i = 0; i < d->count; i++) {
    const struct diag *item = &d->item[i];
    shown_errors += item->level == DIAG_ERROR;
    buf_adds(out, file);
    if (item->line > 0) buf_addf(out, ":%d:%d", item->line, item->column);
    buf_adds(out, item->level == DIAG_WARNING ? ": warning: " : ": ");
    buf_adds(out, item->message);
    if (hint[item->code]) buf_adds(out, hint[item->code]);
    buf_addc(out, '\n');
    if (excerpt && item->line > 0) print_excerpt(d, item, out);
  }
  if (d->errors > shown_errors)
    buf_addf(out, "%s: and %zu more errors, which are not shown\n", file, d->errors - shown_errors);
  else if (d->errors >= DIAG_MOST)
    buf_addf(out, "%s: there may be more; reading ended after %d errors\n", file, DIAG_MOST);
}
