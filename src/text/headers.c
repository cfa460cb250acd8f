#include "text/headers.h"

#include <math.h>

enum { KEY_BYTES = 48, KEY_WORDS = 5 };

static bool key_character(char c) {
  unsigned char u = (unsigned char)c;
  return (u >= 'a' && u <= 'z') || (u >= 'A' && u <= 'Z') || (u >= '0' && u <= '9') || u >= 0x80 ||
         memchr(" -_+()'&/", c, 9);
}

bool header_split(struct span line, struct header *out) {
  line = trim_blanks(line);
  const char *colon = line.n > 0 ? memchr(line.p, ':', line.n) : NULL;
  if (!colon) return false;
  struct span key = trim_blanks(span_cut(line, 0, (size_t)(colon - line.p)));
  if (key.n == 0 || key.n > KEY_BYTES) return false;
  int words = 1;
  for (size_t i = 0; i < key.n; i++) {
    if (!key_character(key.p[i])) return false;
    words += key.p[i] == ' ' && key.p[i - 1] != ' ';
  }
  bool letter_first = (key.p[0] | 0x20) >= 'a' && (key.p[0] | 0x20) <= 'z';
  if (words > KEY_WORDS || !(letter_first || (unsigned char)key.p[0] >= 0x80)) return false;
  out->key = key;
  out->value = trim_blanks(span_cut(line, (size_t)(colon - line.p) + 1, line.n));
  return true;
}

static bool between_words(char c) { return c == ' ' || c == '-' || c == '_' || c == '\t'; }

/* "Body weight", "body-weight" and "BODY_WEIGHT" are one key. */
static bool same_key(struct span a, struct span b) {
  size_t i = 0, j = 0;
  for (;;) {
    while (i < a.n && between_words(a.p[i])) i++;
    while (j < b.n && between_words(b.p[j])) j++;
    if (i == a.n || j == b.n) return i == a.n && j == b.n;
    if (!span_eq_fold(span_cut(a, i, i + 1), span_cut(b, j, j + 1))) return false;
    i++;
    j++;
  }
}

/* One slip for short words, two for longer ones. */
static int slips_allowed(struct span word) { return word.n < 3 ? 0 : word.n < 6 ? 1 : 2; }

const char *nearest_word(struct span word, const char *const *words, size_t count) {
  int best = slips_allowed(word) + 1;
  const char *found = NULL;
  for (size_t i = 0; i < count; i++) {
    int distance = span_distance(word, span_of(words[i]), best);
    if (distance < best) {
      best = distance;
      found = words[i];
    }
  }
  return found;
}

/* ---- rows ---- */

/* Cuts the word before the next '|' off; false at the end. */
static bool next_spelling(const char **words, struct span *out) {
  if (!*words || !**words) return false;
  size_t n = strcspn(*words, "|");
  *out = (struct span){*words, n};
  *words += n + ((*words)[n] == '|');
  return true;
}

static bool is_spelled(struct span key, const char *words) {
  for (struct span word; next_spelling(&words, &word);)
    if (same_key(key, word)) return true;
  return false;
}

int header_row_of(const struct header_reader *r, struct span key) {
  for (size_t i = 0; i < r->rows; i++)
    if (is_spelled(key, r->row[i].word) || is_spelled(key, r->row[i].also)) return (int)i;
  return -1;
}

static void try_spellings(struct span key, const char *words, int row, int *best, int *found) {
  for (struct span word; next_spelling(&words, &word);) {
    int distance = span_distance(key, word, *best);
    if (distance >= *best) continue;
    *best = distance;
    *found = row;
  }
}

int header_near(const struct header_reader *r, struct span key, bool foods) {
  int best = slips_allowed(key) + 1, found = -1;
  for (size_t i = 0; i < r->rows; i++)
    if (is_spelled(key, r->row[i].leads)) return (int)i;
  for (size_t i = 0; i < r->rows; i++) {
    if (foods && r->row[i].near_foods) continue;
    try_spellings(key, r->row[i].word, (int)i, &best, &found);
    try_spellings(key, r->row[i].also, (int)i, &best, &found);
  }
  return found;
}

bool header_accept(struct header_reader *r, int row, struct header h, struct span line) {
  if (h.value.n == 0) {
    diag_say(r->d, r->empty, DIAG_EMPTY, line, "there is nothing after '%.*s:'", SPAN_ARG(quoted(h.key)));
    return false;
  }
  if (row < 0) return true;
  if (r->seen[row].p && !r->row[row].repeats) {
    diag_say(r->d, DIAG_ERROR, DIAG_TWICE, line, "a second '%s'%s", r->row[row].word, r->again);
    return false;
  }
  r->seen[row] = h.value;
  return true;
}

void header_read(struct header_reader *r, int row, struct span value, struct span line) {
  struct header_value v = {&r->row[row], line, value, tokens_of(value, r->arena), r->d, r->arena, r->reader, r->into};
  if (r->row[row].read) r->row[row].read(&v);
}

void header_take(struct header_reader *r, int row, struct header h, struct span line) {
  if (header_accept(r, row, h, line)) header_read(r, row, h.value, line);
}

void header_unknown(const struct header_reader *r, struct span key, enum diag_level level, const char *tail) {
  struct span shown = quoted(key);
  int near = header_near(r, key, false);
  if (near >= 0) {
    const char *meant = r->row[near].word;
    diag_say(r->d, level, DIAG_MISSPELT, key, "unknown header '%.*s'%s; did you mean '%s'?", SPAN_ARG(shown), tail, meant);
    misspelt_fix(r->d, key, meant);
    return;
  }
  struct buf b;
  buf_init(&b, r->arena, 512);
  for (size_t i = 0; i < r->rows; i++)
    if (r->row[i].word) buf_addf(&b, "%s%s", b.n > 0 ? ", " : "", r->row[i].word);
  diag_say(r->d, level, DIAG_UNKNOWN_WORD, key, "unknown header '%.*s'%s; the words before a colon are %s", SPAN_ARG(shown),
           tail, buf_text(&b));
}

/* ---- values ---- */

void header_text(struct header_value *v) {
  *(const char **)(void *)((char *)v->into + v->row->to) = arena_text(v->arena, v->value);
}

double value_number(struct diags *d, const struct tokens *t, struct span value, const char *example, size_t *used) {
  struct quantity q = quantity_at(t, 0);
  *used = q.tokens;
  if (q.fault == QUANTITY_NONE)
    diag_say(d, DIAG_ERROR, DIAG_NUMBER, value, "'%.*s' has no number; write it as in '%s'", SPAN_ARG(quoted(value)),
             example);
  else if (q.fault != QUANTITY_FINE)
    quantity_complain(t, 0, q, d);
  else if (q.low != q.high)
    diag_say(d, DIAG_ERROR, DIAG_NUMBER, value, "'%.*s' is a range; write one number, as in '%s'", SPAN_ARG(quoted(value)),
             example);
  else
    return q.low;
  return (double)NAN;
}

bool value_ends(struct diags *d, const struct tokens *t, size_t at, const char *example) {
  if (at < t->count && phrase_at(t, at, ".") > 0) at++;
  if (at >= t->count) return true;
  struct span rest = tokens_span(t, at, t->count - at);
  diag_say(d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, rest, "'%.*s' is not understood here; write it as in '%s'",
           SPAN_ARG(quoted(rest)), example);
  return false;
}

void value_words(struct diags *d, struct span value, const char *what, const char *const *words, int count) {
  struct buf b;
  buf_init(&b, d->arena, 512);
  for (int i = 0; i < count; i++) buf_addf(&b, "%s%s", i > 0 ? ", " : "", words[i]);
  diag_say(d, DIAG_ERROR, DIAG_UNKNOWN_WORD, value, "'%.*s' is not %s; the words are %s", SPAN_ARG(quoted(value)), what,
           buf_text(&b));
}

void misspelt_fix(struct diags *d, struct span at, const char *meant) {
  diag_code(d, DIAG_MISSPELT);
  diag_fix(d, at, meant, meant);
}
