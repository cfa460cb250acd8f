#include "text/scan.h"

#include "base/num.h"
#include "base/utf8.h"

/* ---- characters ---- */

bool is_blank_point(uint32_t c) {
  if (c == ' ' || c == '\t' || c == '\r' || c == 0xA0 || c == 0xAD) return true;
  return (c >= 0x2000 && c <= 0x200F) || (c >= 0x2028 && c <= 0x202F) || (c >= 0x205F && c <= 0x206F) || c == 0x3000 ||
         c == 0xFEFF;
}

/* A letter, digit or sign of ASCII: what nearly all text is made of, told without decoding. */
static bool is_plain(char c) { return c > ' ' && c < 0x7F; }

struct span trim_blanks(struct span s) {
  uint32_t c = 0;
  if (s.n > 0 && is_plain(s.p[0]) && is_plain(s.p[s.n - 1])) return s;
  for (size_t n; (n = utf8_read(s, &c)) > 0 && is_blank_point(c);) s = span_cut(s, n, s.n);
  while (s.n > 0) {
    size_t from = s.n - 1;
    while (from > 0 && ((unsigned char)s.p[from] & 0xC0) == 0x80) from--;
    if (utf8_read(span_cut(s, from, s.n), &c) == 0 || !is_blank_point(c)) break;
    s.n = from;
  }
  return s;
}

struct span quoted(struct span s) {
  enum { MOST = 40 };
  if (s.n == 0) return s;
  size_t i = 0;
  uint32_t c;
  for (int count = 0; count < MOST && i < s.n; count++) {
    size_t n = utf8_read(span_cut(s, i, s.n), &c);
    if (n == 0 || c < ' ') break;
    i += n;
  }
  size_t word = i; /* between words, where that leaves enough */
  while (word < s.n && word > i / 2 && s.p[word] != ' ') word--;
  if (word < s.n && word > i / 2) i = word;
  return span_cut(s, 0, i);
}

/* ---- a text and its lines ---- */

static bool is_control(uint32_t c) { return (c < ' ' && c != '\t' && c != '\r') || (c >= 0x7F && c < 0xA0); }

/* The first fault of a line; the others of the same line would say nothing new. */
static void check_characters(struct span line, struct diags *d) {
  for (size_t i = 0; i < line.n;) {
    if (is_plain(line.p[i]) || line.p[i] == ' ') {
      i++;
      continue;
    }
    uint32_t c = 0;
    size_t n = utf8_read(span_cut(line, i, line.n), &c);
    struct span at = span_cut(line, i, i + (n > 0 ? n : 1));
    if (n == 0) {
      diag_say(d, DIAG_ERROR, DIAG_NOT_TEXT, at, "byte 0x%c%c is not UTF-8 text; save the file as UTF-8",
               "0123456789ABCDEF"[(unsigned char)line.p[i] >> 4], "0123456789ABCDEF"[(unsigned char)line.p[i] & 15]);
      return;
    }
    if (c == 0) {
      diag_say(d, DIAG_ERROR, DIAG_NOT_TEXT, at, "a NUL byte: this is not plain text; save the file as UTF-8 text");
      return;
    }
    if (is_control(c)) {
      diag_say(d, DIAG_ERROR, DIAG_NOT_TEXT, at, "a control character (code %u) that plain text does not have; delete it",
               (unsigned)c);
      return;
    }
    i += n;
  }
}

static bool is_utf16(struct span text) {
  return text.n >= 2 && (memcmp(text.p, "\xFF\xFE", 2) == 0 || memcmp(text.p, "\xFE\xFF", 2) == 0);
}

bool text_fit(struct span text, size_t most_bytes, size_t line_most, struct diags *d) {
  size_t errors = d->errors;
  if (text.n > most_bytes) {
    diag_say(d, DIAG_ERROR, DIAG_LIMIT, (struct span){NULL, 0}, "the text has %zu bytes; the most that is read is %zu",
             text.n, most_bytes);
    return false;
  }
  if (is_utf16(text)) {
    diag_say(d, DIAG_ERROR, DIAG_NOT_TEXT, span_cut(text, 0, 1), "this is UTF-16 text; save the file as UTF-8");
    return false;
  }
  struct lines lines = lines_of(text);
  struct span line;
  while (lines_next(&lines, &line)) {
    if (line.n > line_most) {
      diag_say(d, DIAG_ERROR, DIAG_LIMIT, span_cut(line, 0, 1), "a line of %zu bytes; the longest that is read has %zu",
               line.n, line_most);
      continue;
    }
    check_characters(line, d);
    if (d->errors - errors > DIAG_MOST) return false;
  }
  return d->errors == errors;
}

struct lines lines_of(struct span text) {
  if (text.n >= 3 && memcmp(text.p, "\xEF\xBB\xBF", 3) == 0) text = span_cut(text, 3, text.n);
  return (struct lines){.rest = text};
}

bool lines_next(struct lines *l, struct span *line) {
  if (l->rest.n == 0) return false;
  *line = span_piece(&l->rest, '\n');
  if (line->n > 0 && line->p[line->n - 1] == '\r') line->n--;
  l->number++;
  return true;
}

struct span without_comment(struct span line) {
  if (line.n == 0 || !memchr(line.p, '#', line.n)) return line;
  uint32_t c = 0, last = ' ';
  for (size_t i = 0, n; i < line.n && (n = utf8_read(span_cut(line, i, line.n), &c)) > 0; i += n) {
    if (c == '#' && is_blank_point(last)) return span_cut(line, 0, i);
    last = c;
  }
  return line;
}

/* ---- tokens ---- */

static const struct {
  uint32_t point;
  double value;
} FRACTIONS[] = {{0xBC, 1.0 / 4},    {0xBD, 1.0 / 2},   {0xBE, 3.0 / 4},   {0x2150, 1.0 / 7}, {0x2151, 1.0 / 9},
                 {0x2152, 1.0 / 10}, {0x2153, 1.0 / 3}, {0x2154, 2.0 / 3}, {0x2155, 1.0 / 5}, {0x2156, 2.0 / 5},
                 {0x2157, 3.0 / 5},  {0x2158, 4.0 / 5}, {0x2159, 1.0 / 6}, {0x215A, 5.0 / 6}, {0x215B, 1.0 / 8},
                 {0x215C, 3.0 / 8},  {0x215D, 5.0 / 8}, {0x215E, 7.0 / 8}};

static double fraction_value(uint32_t c) {
  for (size_t i = 0; i < COUNT_OF(FRACTIONS); i++)
    if (FRACTIONS[i].point == c) return FRACTIONS[i].value;
  return (double)NAN;
}

static bool is_digit_point(uint32_t c) { return c >= '0' && c <= '9'; }
static bool is_dash(uint32_t c) { return c == '-' || (c >= 0x2010 && c <= 0x2015) || c == 0x2212; }
static bool is_apostrophe(uint32_t c) { return c == '\'' || c == 0x2018 || c == 0x2019 || c == 0x02BC; }
static bool is_letter(uint32_t c) {
  if (c < 0x80) return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
  if (is_blank_point(c) || is_dash(c) || is_apostrophe(c) || !isnan(fraction_value(c))) return false;
  /* Latin-1 signs other than letters, general punctuation, arrows, boxes and bullets. */
  if (c < 0xC0) return c == 0xAA || c == 0xB5 || c == 0xBA;
  return c != 0xD7 && c != 0xF7 && !(c >= 0x2000 && c <= 0x2BFF) && !(c >= 0x3000 && c <= 0x303F);
}

static uint32_t point_at(struct span s, size_t i, size_t *bytes) {
  uint32_t c = 0;
  if (i < s.n && (unsigned char)s.p[i] < 0x80) { /* as nearly all are */
    *bytes = 1;
    return (unsigned char)s.p[i];
  }
  *bytes = i < s.n ? utf8_read(span_cut(s, i, s.n), &c) : 0;
  return *bytes > 0 ? c : 0;
}

/* Letters, digits, apostrophes, and hyphens with a letter or digit on both sides. */
static size_t word_bytes(struct span s) {
  size_t i = 0, n, more;
  for (uint32_t c; (c = point_at(s, i, &n)) != 0; i += n) {
    if (is_letter(c) || is_digit_point(c)) continue;
    if (i == 0 || !(is_dash(c) || is_apostrophe(c))) break;
    uint32_t next = point_at(s, i + n, &more);
    if (!is_letter(next) && !(is_dash(c) && is_digit_point(next))) break;
  }
  return i;
}

static struct span plain_word(struct span at, struct arena *arena) {
  char *p = arena_raw(arena, at.n + 1, 1);
  size_t to = 0, n;
  uint32_t c;
  for (size_t i = 0; (c = point_at(at, i, &n)) != 0; i += n) {
    if (c < 0x80) {
      p[to++] = (char)(c >= 'A' && c <= 'Z' ? c + ('a' - 'A') : c);
    } else if (is_dash(c) || is_apostrophe(c)) {
      p[to++] = is_dash(c) ? '-' : '\'';
    } else {
      memcpy(p + to, at.p + i, n);
      to += n;
    }
  }
  p[to] = '\0';
  return (struct span){p, to};
}

static uint32_t plain_mark(uint32_t c) {
  if (is_dash(c)) return '-';
  if (c == 0x2044 || c == 0x2215) return '/';
  if (c == 0xD7 || c == 0x2715 || c == 0x2A2F) return 'x';
  if (c == 0xFF05) return '%';
  return c;
}

/* Fills one token from the start of 's', which does not begin with a blank: 'c', of n bytes; returns its bytes. */
static size_t token_read(struct span s, uint32_t c, size_t n, struct token *t, struct arena *arena) {
  if (n == 0) n = 1; /* not UTF-8: such a text was refused before */
  double fraction;
  if (c < 0x80 && is_letter(c)) {
    t->kind = TOKEN_WORD;
  } else if (is_digit_point(c) || (c == '.' && s.n > 1 && is_digit_point((unsigned char)s.p[1]))) {
    t->kind = TOKEN_NUMBER;
    size_t used = num_read(s, &t->value);
    if (used == 0) {
      t->value = (double)NAN;
      while (used < s.n && (is_digit_point((unsigned char)s.p[used]) || s.p[used] == '.')) used++;
    }
    n = used;
  } else if (c >= 0x80 && !isnan(fraction = fraction_value(c))) {
    t->kind = TOKEN_FRACTION;
    t->value = fraction;
  } else if (c >= 0x80 && is_letter(c)) {
    t->kind = TOKEN_WORD;
  } else {
    t->kind = TOKEN_MARK;
    t->mark = plain_mark(c);
  }
  if (t->kind == TOKEN_WORD) {
    n = word_bytes(s);
    t->word = plain_word(span_cut(s, 0, n), arena);
  }
  t->at = span_cut(s, 0, n);
  return n;
}

struct tokens tokens_of(struct span line, struct arena *arena) {
  struct tokens t = {0};
  size_t cap = line.n / 4 + 4; /* room for most of what people write */
  bool blank = true;
  if (line.n == 0) return t;
  t.item = arena_raw(arena, cap, sizeof *t.item);
  for (size_t i = 0, n; i < line.n; i += n) {
    uint32_t c = point_at(line, i, &n);
    if (is_blank_point(c) && n > 0) {
      blank = true;
      continue;
    }
    struct token token = {.glued = !blank};
    n = token_read(span_cut(line, i, line.n), c, n, &token, arena);
    token.no_quantity = !quantity_may_begin(&token);
    ARENA_PUSH(arena, t.item, t.count, cap, token);
    blank = false;
  }
  return t;
}

static bool token_spells(const struct token *t, struct span word) {
  if (t->taken) return false;
  if (t->kind == TOKEN_WORD) return span_eq(t->word, word);
  if (t->kind == TOKEN_MARK) return word.n == 1 && t->mark == (unsigned char)word.p[0];
  return span_eq(t->at, word);
}

size_t phrase_spelled_at(const struct tokens *t, size_t at, const char *phrase) {
  size_t used = 0;
  struct span rest = span_of(phrase);
  while (rest.n > 0) {
    const char *blank = memchr(rest.p, ' ', rest.n);
    size_t n = blank ? (size_t)(blank - rest.p) : rest.n;
    if (at + used >= t->count || !token_spells(&t->item[at + used], span_cut(rest, 0, n))) return 0;
    used++;
    rest = span_cut(rest, blank ? n + 1 : n, rest.n);
  }
  return used;
}

size_t any_of(const struct tokens *t, size_t at, const char *const *phrases, size_t count) {
  for (size_t i = 0; i < count; i++) {
    size_t used = phrase_at(t, at, phrases[i]);
    if (used > 0) return used;
  }
  return 0;
}

void take(struct tokens *t, size_t from, size_t count) {
  for (size_t i = from; i < from + count && i < t->count; i++) t->item[i].taken = true;
}

struct span tokens_span(const struct tokens *t, size_t from, size_t count) {
  if (t->count == 0) return (struct span){NULL, 0};
  if (from >= t->count) { /* after the last one */
    struct span last = t->item[t->count - 1].at;
    return (struct span){last.p + last.n, 0};
  }
  if (count == 0) return (struct span){t->item[from].at.p, 0};
  if (from + count > t->count) count = t->count - from;
  struct span last = t->item[from + count - 1].at;
  return (struct span){t->item[from].at.p, (size_t)(last.p + last.n - t->item[from].at.p)};
}
