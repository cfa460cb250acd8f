#include "report/pen.h"
#include "base/table.h"
#include "text/scan.h"

static const char *const UNICODE_GLYPH[] = {
    [G_BAND] = "━",        [G_BAND_LEFT] = "╸",  [G_BAND_RIGHT] = "╺", [G_NEED] = "┃",       [G_NEED_BAND] = "╋",
    [G_NEED_LEFT] = "┫",   [G_NEED_RIGHT] = "┣", [G_LEAST] = "│",      [G_LEAST_BAND] = "┿", [G_LEAST_LEFT] = "┥",
    [G_LEAST_RIGHT] = "┝", [G_LIMIT] = "║",      [G_TESTED] = "┆",     [G_SURE] = "●",       [G_UNSURE] = "○",
    [G_LEAN] = "◇",        [G_HATCH] = "╱",      [G_DOT] = "·",        [G_OFF_LEFT] = "◂",   [G_OFF_RIGHT] = "▸",
    [G_FILL_1] = "█",      [G_FILL_2] = "▓",     [G_FILL_3] = "▒",     [G_FILL_4] = "░",     [G_RULE] = "─",
    [G_BAR] = "▌",         [G_BAR_THIN] = "│",   [G_ARROW] = "→",      [G_ELLIPSIS] = "…",   [G_TIMES] = "×",
    [G_BETWEEN] = " · ",   [G_DASH] = "–",       [G_EDGE_LEFT] = "├",  [G_EDGE_RIGHT] = "┤", [G_LINE] = "─",
    [G_TICK_DOWN] = "╻",
};
ROW_FOR_EACH(UNICODE_GLYPH, G_COUNT);
static const char *const ASCII_GLYPH[] = {
    [G_BAND] = "=",        [G_BAND_LEFT] = "=",  [G_BAND_RIGHT] = "=", [G_NEED] = "|",       [G_NEED_BAND] = "|",
    [G_NEED_LEFT] = "|",   [G_NEED_RIGHT] = "|", [G_LEAST] = ":",      [G_LEAST_BAND] = ":", [G_LEAST_LEFT] = ":",
    [G_LEAST_RIGHT] = ":", [G_LIMIT] = "]",      [G_TESTED] = ")",     [G_SURE] = "@",       [G_UNSURE] = "o",
    [G_LEAN] = "v",        [G_HATCH] = "/",      [G_DOT] = ".",        [G_OFF_LEFT] = "<",   [G_OFF_RIGHT] = ">",
    [G_FILL_1] = "#",      [G_FILL_2] = "=",     [G_FILL_3] = "+",     [G_FILL_4] = "-",     [G_RULE] = "-",
    [G_BAR] = "!",         [G_BAR_THIN] = ":",   [G_ARROW] = "->",     [G_ELLIPSIS] = "..",  [G_TIMES] = "x",
    [G_BETWEEN] = ", ",    [G_DASH] = "-",       [G_EDGE_LEFT] = "[",  [G_EDGE_RIGHT] = "]", [G_LINE] = "-",
    [G_TICK_DOWN] = "|",
};
ROW_FOR_EACH(ASCII_GLYPH, G_COUNT);

struct pen pen_start(const struct report_style *style, struct buf *out) {
  int width = style->width <= 0 ? 80 : style->width;
  if (width < WIDTH_LEAST) width = WIDTH_LEAST;
  if (width > WIDTH_MOST) width = WIDTH_MOST;
  return (struct pen){width, style->colour, style->unicode, style->all, out->arena, out};
}

const char *pen_glyph(const struct pen *p, enum glyph g) { return p->unicode ? UNICODE_GLYPH[g] : ASCII_GLYPH[g]; }

/* ---- characters ------------------------------------------------------------------------------------------------ */

struct letter {
  char byte[8];
  int n, columns; /* columns 0: joins the letter before it */
};

/* One code point; a byte that begins none is U+FFFD and is stepped over alone. */
static uint32_t read_code(struct span *rest) {
  unsigned char c = (unsigned char)rest->p[0];
  size_t n = c < 0x80 ? 1 : c >= 0xc2 && c < 0xe0 ? 2 : c >= 0xe0 && c < 0xf0 ? 3 : c >= 0xf0 && c < 0xf5 ? 4 : 0;
  uint32_t code = n == 1 ? c : n == 2 ? c & 0x1fU : n == 3 ? c & 0x0fU : c & 0x07U;
  bool good = n > 0 && n <= rest->n;
  for (size_t i = 1; good && i < n; i++) {
    unsigned char d = (unsigned char)rest->p[i];
    good = (d & 0xc0) == 0x80;
    code = code << 6 | (d & 0x3fU);
  }
  if (!good) n = 1;
  *rest = span_cut(*rest, n, rest->n);
  return good ? code : 0xfffd;
}

static void write_code(uint32_t code, struct letter *l) {
  if (code < 0x80) {
    l->byte[0] = (char)code;
    l->n = 1;
  } else if (code < 0x800) {
    l->byte[0] = (char)(0xc0 | code >> 6);
    l->byte[1] = (char)(0x80 | (code & 0x3f));
    l->n = 2;
  } else if (code < 0x10000) {
    l->byte[0] = (char)(0xe0 | code >> 12);
    l->byte[1] = (char)(0x80 | (code >> 6 & 0x3f));
    l->byte[2] = (char)(0x80 | (code & 0x3f));
    l->n = 3;
  } else {
    l->byte[0] = (char)(0xf0 | code >> 18);
    l->byte[1] = (char)(0x80 | (code >> 12 & 0x3f));
    l->byte[2] = (char)(0x80 | (code >> 6 & 0x3f));
    l->byte[3] = (char)(0x80 | (code & 0x3f));
    l->n = 4;
  }
}

static bool is_within(uint32_t code, uint32_t from, uint32_t to) { return code >= from && code <= to; }

/* Marks that join the letter before them, and invisible ones. Blocks from the Unicode code charts. */
static bool is_joining(uint32_t c) {
  if (c < 0x0300) return false;
  return is_within(c, 0x0300, 0x036f) || is_within(c, 0x1ab0, 0x1aff) || is_within(c, 0x1dc0, 0x1dff) ||
         is_within(c, 0x20d0, 0x20ff) || is_within(c, 0xfe20, 0xfe2f);
}
/* Soft hyphen, zero-width and direction-changing characters, variation selectors, byte-order mark, tags: they would change
 * how the rest of the line is shown, so they are left out. */
static bool is_dropped(uint32_t c) {
  return c == 0xad || c == 0x61c || is_within(c, 0x200b, 0x200f) || is_within(c, 0x2028, 0x202e) ||
         is_within(c, 0x2060, 0x206f) || is_within(c, 0xfe00, 0xfe0f) || c == 0xfeff || is_within(c, 0xe0000, 0xe0fff);
}
/* Two columns: CJK, Hangul, full-width forms, pictographs (the "W" and "F" blocks of Unicode's East Asian Width, coarsely).
 */
static bool is_wide(uint32_t c) {
  return is_within(c, 0x1100, 0x115f) || is_within(c, 0x2e80, 0x303e) || is_within(c, 0x3041, 0xa4cf) ||
         is_within(c, 0xac00, 0xd7a3) || is_within(c, 0xf900, 0xfaff) || is_within(c, 0xfe30, 0xfe6f) ||
         is_within(c, 0xff00, 0xff60) || is_within(c, 0xffe0, 0xffe6) || is_within(c, 0x1f300, 0x1faff) ||
         is_within(c, 0x20000, 0x3fffd);
}

/* Latin-1 letters and signs from U+00A0 in plain ASCII. */
static const char *const LATIN1[96] = {
    " ", "!", "c",  "L",  "$", "Y", "|", "S",  "\"",  "(c)", "a",   "<<", "-", "",  "(R)", "-", " deg", "+-", "2",  "3",
    "'", "u", "P",  ",",  ",", "1", "o", ">>", "1/4", "1/2", "3/4", "?",  "A", "A", "A",   "A", "A",    "A",  "AE", "C",
    "E", "E", "E",  "E",  "I", "I", "I", "I",  "D",   "N",   "O",   "O",  "O", "O", "O",   "x", "O",    "U",  "U",  "U",
    "U", "Y", "Th", "ss", "a", "a", "a", "a",  "a",   "a",   "ae",  "c",  "e", "e", "e",   "e", "i",    "i",  "i",  "i",
    "d", "n", "o",  "o",  "o", "o", "o", "/",  "o",   "u",   "u",   "u",  "u", "y", "th",  "y",
};
static const struct {
  uint32_t code;
  const char *plain;
} ASCII_FOR[] = {
    {0x3bc, "u"},  {0x2010, "-"},  {0x2011, "-"},   {0x2012, "-"},   {0x2013, "-"},   {0x2014, "-"},  {0x2018, "'"},
    {0x2019, "'"}, {0x201c, "\""}, {0x201d, "\""},  {0x2026, "..."}, {0x2192, "->"},  {0x2264, "<="}, {0x2265, ">="},
    {0x2248, "~"}, {0x2212, "-"},  {0x2153, "1/3"}, {0x2154, "2/3"}, {0x215b, "1/8"}, {0x2044, "/"},  {0x2022, "-"},
};

static void set_plain(struct letter *l, const char *plain) {
  l->n = (int)strlen(plain);
  l->columns = l->n;
  memcpy(l->byte, plain, (size_t)l->n);
}

static void plain_letter(uint32_t code, struct letter *l) {
  if (is_within(code, 0xa0, 0xff)) {
    set_plain(l, LATIN1[code - 0xa0]);
    return;
  }
  for (size_t i = 0; i < COUNT_OF(ASCII_FOR); i++)
    if (ASCII_FOR[i].code == code) {
      set_plain(l, ASCII_FOR[i].plain);
      return;
    }
  set_plain(l, is_joining(code) ? "" : "?");
}

static bool is_no_break_space(struct span s) { return s.n > 1 && s.p[0] == '\xC2' && s.p[1] == '\xA0'; }

static bool next_other_letter(bool unicode, struct span *rest, struct letter *l) {
  if (is_no_break_space(*rest)) { /* before each unit */
    set_plain(l, " ");
    *rest = span_cut(*rest, 2, rest->n);
    return true;
  }
  uint32_t code = read_code(rest);
  *l = (struct letter){.columns = 1};
  if (code < 0x20 || is_within(code, 0x7f, 0xa0)) { /* controls, and the no-break space */
    set_plain(l, " ");
  } else if (unicode && is_within(code, 0x2100, 0x2e7f)) { /* lines and signs, of one column all */
    write_code(code, l);
  } else if (is_dropped(code)) {
    l->columns = 0;
  } else if (code < 0x80 || unicode) {
    write_code(code, l);
    l->columns = is_joining(code) ? 0 : is_wide(code) ? 2 : 1;
  } else {
    plain_letter(code, l);
  }
  return true;
}

/* The next thing to show; false at the end. A letter of no bytes is one that is left out. */
static inline bool next_letter(bool unicode, struct span *rest, struct letter *l) {
  if (rest->n == 0) return false;
  unsigned char c = (unsigned char)rest->p[0];
  if (c < ' ' || c > '~') return next_other_letter(unicode, rest, l);
  l->byte[0] = (char)c; /* nearly all */
  l->n = l->columns = 1;
  rest->p++;
  rest->n--;
  return true;
}

static bool is_plain_letter(char c) { return c >= ' ' && c <= '~'; }

/* How many of the first bytes are plain letters, one column each: nearly all are. */
static size_t plain_letters(struct span text) {
  size_t n = 0;
  while (n < text.n && is_plain_letter(text.p[n])) n++;
  return n;
}

static int span_columns(bool unicode, struct span text) {
  struct letter l;
  size_t plain = plain_letters(text);
  int columns = (int)plain;
  text = span_cut(text, plain, text.n);
  while (next_letter(unicode, &text, &l)) columns += l.columns;
  return columns;
}

int text_columns(const struct pen *p, const char *text) { return span_columns(p->unicode, span_of(text)); }

/* ---- rows ------------------------------------------------------------------------------------------------------ */

void row_start(struct row *r, const struct pen *p) {
  memset(r->cell, 0, (size_t)p->width * sizeof r->cell[0]);
  r->end = 0;
  r->pen = p;
}

static void set_cell(struct row *r, int column, enum ink ink, const char *bytes, int n) {
  struct cell *c = &r->cell[column];
  memcpy(c->byte, bytes, (size_t)n);
  c->n = (uint8_t)n;
  c->ink = (uint8_t)ink;
  if (column + 1 > r->end) r->end = column + 1;
}

static void join_cell(struct row *r, int column, const struct letter *l) {
  if (column < 0 || l->n == 0) return;
  struct cell *c = &r->cell[column];
  if (c->n == 0 || (size_t)c->n + (size_t)l->n > sizeof c->byte) return;
  memcpy(c->byte + c->n, l->byte, (size_t)l->n);
  c->n = (uint8_t)(c->n + l->n);
}

enum { CELL_CONTINUES = 0xff }; /* the second column of a wide letter: n of its cell */

/* Plain letters, as many as there is room for. */
static size_t put_plain(struct row *r, int column, int limit, enum ink ink, struct span text) {
  size_t n = plain_letters(text), room = column >= 0 && column < limit ? (size_t)(limit - column) : 0;
  if (n > room) n = room;
  for (size_t i = 0; i < n; i++) {
    struct cell *c = &r->cell[(size_t)column + i];
    c->byte[0] = text.p[i];
    c->n = 1;
    c->ink = (uint8_t)ink;
  }
  if (n > 0 && column + (int)n > r->end) r->end = column + (int)n;
  return n;
}

static int put_span(struct row *r, int column, int limit, enum ink ink, struct span text) {
  struct letter l;
  if (limit > r->pen->width) limit = r->pen->width;
  size_t plain = put_plain(r, column, limit, ink, text);
  text = span_cut(text, plain, text.n);
  column += (int)plain;
  int last = plain > 0 ? column - 1 : -1;
  while (next_letter(r->pen->unicode, &text, &l)) {
    if (l.columns == 0) {
      join_cell(r, last, &l);
      continue;
    }
    if (column < 0 || column + l.columns > limit) break;
    last = column;
    bool wide = l.columns == 2 && l.n > 2;
    if (wide) {
      set_cell(r, column, ink, l.byte, l.n);
      set_cell(r, column + 1, ink, "", 0);
      r->cell[column + 1].n = CELL_CONTINUES;
    } else if (l.columns == 1) {
      set_cell(r, column, ink, l.byte, l.n);
    } else {
      for (int i = 0; i < l.n; i++) set_cell(r, column + i, ink, &l.byte[i], 1);
    }
    column += l.columns;
  }
  return column;
}

int row_put(struct row *r, int column, enum ink ink, const char *text) {
  return put_span(r, column, r->pen->width, ink, span_of(text));
}

int row_glyph(struct row *r, int column, enum ink ink, enum glyph g) {
  return row_put(r, column, ink, pen_glyph(r->pen, g));
}

void row_fill(struct row *r, int column, int columns, enum ink ink, enum glyph g) {
  int next = columns > 0 ? row_glyph(r, column, ink, g) : column;
  for (int i = 1; i < columns; i++) {
    if (next != column + 1 || column + i >= r->pen->width) {
      row_glyph(r, column + i, ink, g);
      continue;
    }
    r->cell[column + i] = r->cell[column];
    if (column + i + 1 > r->end) r->end = column + i + 1;
  }
}

int row_fit(struct row *r, int column, int columns, enum ink ink, const char *text) {
  if (columns > r->pen->width - column) columns = r->pen->width - column;
  if (columns <= 0) return column;
  if (text_columns(r->pen, text) <= columns) return put_span(r, column, column + columns, ink, span_of(text));
  int at = put_span(r, column, column + columns - text_columns(r->pen, pen_glyph(r->pen, G_ELLIPSIS)), ink, span_of(text));
  while (at > column && r->cell[at - 1].n == 1 && (r->cell[at - 1].byte[0] == ' ' || r->cell[at - 1].byte[0] == ',')) {
    r->cell[--at].n = 0;
  }
  return row_glyph(r, at, ink, G_ELLIPSIS);
}

int row_right(struct row *r, int right, int columns, enum ink ink, const char *text) {
  int wide = text_columns(r->pen, text);
  if (wide > columns) wide = columns;
  if (wide > right) wide = right;
  row_fit(r, right - wide, wide, ink, text);
  return right - wide;
}

bool row_is_free(const struct row *r, int column) {
  return column < 0 || column >= r->pen->width || r->cell[column].n == 0 ||
         (r->cell[column].n == 1 && r->cell[column].byte[0] == ' ');
}

static void ink_start(const struct pen *p, enum ink ink) {
  switch (ink) {
  case INK_STRONG:
    buf_adds(p->out, "\x1b[1m");
    break;
  case INK_DIM:
    buf_addf(p->out, "\x1b[38;5;%dm", DIM_CODE);
    break;
  case INK_ACCENT:
    buf_addf(p->out, "\x1b[38;5;%dm", ACCENT_CODE);
    break;
  case INK_LOUD:
    buf_addf(p->out, "\x1b[1;38;5;%dm", ACCENT_CODE);
    break;
  case INK_PLAIN:
  case INK_COUNT:
    break;
  }
}

static bool is_blank(const struct cell *c) { return c->n == 0 || (c->n == 1 && c->byte[0] == ' '); }

static void write_cells(struct row *r) {
  const struct pen *p = r->pen;
  while (r->end > 0 && is_blank(&r->cell[r->end - 1])) r->end--;
  enum ink now = INK_PLAIN;
  char byte[WIDTH_MOST * sizeof r->cell[0].byte]; /* of one ink, not written yet */
  size_t bytes = 0;
  for (int i = 0; i < r->end; i++) {
    const struct cell *c = &r->cell[i];
    if (c->n == CELL_CONTINUES) continue;
    enum ink want = is_blank(c) ? now : (enum ink)c->ink; /* a blank has no ink: fewer codes */
    if (p->colour && want != now) {
      buf_add(p->out, (struct span){byte, bytes});
      bytes = 0;
      if (now != INK_PLAIN) buf_adds(p->out, "\x1b[0m");
      ink_start(p, want);
    }
    now = want;
    if (c->n <= 1) {
      byte[bytes++] = c->n == 0 ? ' ' : c->byte[0];
    } else {
      memcpy(&byte[bytes], c->byte, c->n);
      bytes += c->n;
    }
  }
  buf_add(p->out, (struct span){byte, bytes});
  if (p->colour && now != INK_PLAIN) buf_adds(p->out, "\x1b[0m");
}

void row_end(struct row *r) {
  write_cells(r);
  buf_addc(r->pen->out, '\n');
}

/* Past the last column of the row, which has no cells there. */
static void write_beyond(struct row *r, int column, enum ink ink, struct span text) {
  const struct pen *p = r->pen;
  struct letter l;
  write_cells(r);
  for (int i = r->end; i < column; i++) buf_addc(p->out, ' ');
  if (p->colour) ink_start(p, ink);
  while (next_letter(p->unicode, &text, &l)) buf_add(p->out, (struct span){l.byte, (size_t)l.n});
  if (p->colour && ink != INK_PLAIN) buf_adds(p->out, "\x1b[0m");
}

void row_end_kept(struct row *r, int column, enum ink ink, const char *text) {
  const struct pen *p = r->pen;
  struct span all = span_of(text), said = without_comment(all), remark = span_cut(all, said.n, all.n);
  int next = column + span_columns(p->unicode, said), room = p->width - MARGIN - next;
  if (room < 0) {
    write_beyond(r, column, ink, said);
    if (remark.n > 0) buf_addf(p->out, "#%s", pen_glyph(p, G_ELLIPSIS));
    buf_addc(p->out, '\n');
    return;
  }
  put_span(r, column, p->width, ink, said);
  if (remark.n > 0 && room > 2)
    row_fit(r, next, room, ink, arena_text(p->arena, remark));
  else if (remark.n > 0)
    row_put(r, next, ink, "#"); /* the margin has room for it */
  row_end(r);
}

/* Bytes of as many whole words as take at most 'columns'; 0: not even the first. */
static size_t whole_words(const struct pen *p, struct span text, int columns) {
  size_t fits = 0;
  for (size_t i = 1; i <= text.n; i++) {
    if (i < text.n && text.p[i] != ' ') continue;
    if (span_columns(p->unicode, span_cut(text, 0, i)) > columns) break;
    fits = i;
  }
  return fits;
}

void row_end_whole(struct row *r, int column, int columns, enum ink ink, const char *text) {
  for (;;) {
    size_t fits = whole_words(r->pen, span_of(text), columns);
    if (fits == 0) row_fit(r, column, columns, ink, text);
    put_span(r, column, column + columns, ink, span_cut(span_of(text), 0, fits));
    row_end(r);
    if (fits == 0 || text[fits] == '\0') return;
    text += fits + 1;
    row_start(r, r->pen);
  }
}

void blank_line(const struct pen *p) { buf_addc(p->out, '\n'); }

/* ---- prose ----------------------------------------------------------------------------------------------------- */

static bool is_gap(char c) { return c == ' ' || c == '\n' || c == '\t'; }

static struct span bare_word(struct span *rest) {
  size_t from = 0;
  while (from < rest->n && is_gap(rest->p[from])) from++;
  size_t to = from;
  while (to < rest->n && !is_gap(rest->p[to])) to++;
  struct span word = span_cut(*rest, from, to);
  *rest = span_cut(*rest, to, rest->n);
  return word;
}

static bool is_unit(struct span word) {
  static const char *const UNIT[] = {"g", "mg", "\xC2\xB5g", "kg", "kcal", "IU", "%", "ml", "\xC3\x97"};
  while (word.n > 0 && strchr(".,;:)", word.p[word.n - 1])) word.n--;
  for (size_t i = 0; i < COUNT_OF(UNIT); i++)
    if (span_is(word, UNIT[i])) return true;
  return false;
}

/* A number and its unit count as one word, so that no line begins with a unit. */
static struct span next_word(struct span *rest) {
  struct span word = bare_word(rest);
  bool number = word.n > 0 && word.p[word.n - 1] >= '0' && word.p[word.n - 1] <= '9';
  if (!number || rest->n == 0 || rest->p[0] != ' ') return word;
  struct span after = *rest, unit = bare_word(&after);
  if (unit.p != rest->p + 1 || !is_unit(unit)) return word;
  *rest = after;
  return (struct span){word.p, (size_t)(unit.p + unit.n - word.p)};
}

/* A word too long for a line is broken where the line ends. */
static struct span split_long(bool unicode, struct span *word, int columns) {
  struct span rest = *word;
  struct letter l;
  int used = 0;
  size_t keep = 0;
  while (next_letter(unicode, &rest, &l) && (used += l.columns) <= columns) keep = word->n - rest.n;
  if (keep == 0) keep = word->n;
  struct span head = span_cut(*word, 0, keep);
  *word = span_cut(*word, keep, word->n);
  return head;
}

void prose_write(const struct pen *p, const struct prose *how, const char *text) {
  int right = how->right;
  if (right <= 0) right = how->indent + PROSE_MOST;
  if (right > p->width - MARGIN) right = p->width - MARGIN;
  struct span rest = span_of(text);
  struct row r;
  int column = how->first;
  bool open = false;
  for (struct span word = next_word(&rest); word.n > 0;) {
    int wide = span_columns(p->unicode, word);
    bool fresh = !open;
    if (fresh) {
      row_start(&r, p);
      if (how->bar != G_COUNT) row_glyph(&r, how->bar_at, how->bar_ink, how->bar);
      open = true;
    }
    int gap = fresh ? 0 : 1;
    if (column + gap + wide <= right) {
      column = put_span(&r, column + gap, right, how->ink, word);
      word = next_word(&rest);
      continue;
    }
    if (fresh) { /* longer than a whole line */
      struct span head = split_long(p->unicode, &word, right - column);
      put_span(&r, column, right, how->ink, head);
      if (word.n == 0) word = next_word(&rest);
    }
    row_end(&r);
    open = false;
    column = how->indent;
  }
  if (open) row_end(&r);
}
