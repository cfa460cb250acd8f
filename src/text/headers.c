/* "Key: value" lines, for recipes, animals and labels alike. */
#include "text/scan.h"

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

int header_id(struct span key, const struct header_name *names, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (same_key(key, span_of(names[i].word))) return names[i].id;
  return -1;
}

const char *header_word(int id, const struct header_name *names, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (names[i].id == id && names[i].listed) return names[i].word;
  return "";
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

static int nearest_id(struct span key, const struct header_name *names, size_t count) {
  int best = slips_allowed(key) + 1, id = -1;
  for (size_t i = 0; i < count; i++) {
    int distance = span_distance(key, span_of(names[i].word), best);
    if (distance < best) {
      best = distance;
      id = names[i].id;
    }
  }
  return id;
}

void header_fix(struct diags *d, struct span key, const struct header_name *names, size_t count) {
  int id = nearest_id(key, names, count);
  if (id >= 0) misspelt_fix(d, key, header_word(id, names, count));
}

void misspelt_fix(struct diags *d, struct span at, const char *meant) {
  diag_code(d, DIAG_MISSPELT);
  diag_fix(d, at, meant, meant);
}

const char *header_hint(struct span key, const struct header_name *names, size_t count, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 512);
  int id = nearest_id(key, names, count);
  if (id >= 0) {
    buf_addf(&b, "; did you mean '%s'?", header_word(id, names, count));
    return buf_text(&b);
  }
  buf_adds(&b, "; the words before a colon are ");
  bool first = true;
  for (size_t i = 0; i < count; i++) {
    if (!names[i].listed) continue;
    if (!first) buf_adds(&b, ", ");
    buf_adds(&b, names[i].word);
    first = false;
  }
  return buf_text(&b);
}
