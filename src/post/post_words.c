/* The words and phrases that the reader of posts knows, and where a text says one. */
#include "post/post_words.h"

#include "post_words_table.h"

static char small(char c) { return c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c; }

/* ---- one word in a list of the code's own ---- */

/* Where a word of the list may begin: a blank and then its first letter, eight bytes at a time. */
static uint64_t zero_bytes(uint64_t v) { return (v - 0x0101010101010101U) & ~v & 0x8080808080808080U; }

static bool spells(const char *list, size_t at, size_t n, struct span word) {
  if (at + word.n > n || (at + word.n < n && list[at + word.n] != ' ')) return false;
  size_t i = 1;
  while (i < word.n && list[at + i] == small(word.p[i])) i++;
  return i == word.n;
}

bool word_in_list(struct span word, const char *list, size_t n) {
  if (word.n == 0 || word.n > n) return false;
  char first = small(word.p[0]);
  uint64_t letter = 0x0101010101010101U * (uint8_t)first, blank = 0x0101010101010101U * ' ';
  if (list[0] == first && spells(list, 0, n, word)) return true;
  size_t at = 0;
  for (; at + 9 <= n; at += 8) {
    uint64_t here, next;
    memcpy(&here, list + at, 8);
    memcpy(&next, list + at + 1, 8);
    if ((zero_bytes(here ^ blank) & zero_bytes(next ^ letter)) == 0) continue;
    for (size_t i = at; i < at + 8; i++)
      if (list[i] == ' ' && list[i + 1] == first && spells(list, i + 1, n, word)) return true;
  }
  for (; at + 1 < n; at++)
    if (list[at] == ' ' && list[at + 1] == first && spells(list, at + 1, n, word)) return true;
  return false;
}

/* ---- the table ---- */

enum { NO_WORD = UINT16_MAX };

/* Which word of the table it is; NO_WORD. */
static uint16_t look_up(struct span word) {
  char folded[LONGEST_WORD];
  if (word.n == 0 || word.n > LONGEST_WORD) return NO_WORD;
  for (size_t i = 0; i < word.n; i++) folded[i] = small(word.p[i]);
  size_t low = first_of_length[word.n], high = first_of_length[word.n + 1], first = low;
  const char *text = word_text + text_of_length[word.n];
  while (low < high) {
    size_t mid = (low + high) / 2;
    int order = memcmp(folded, text + (mid - first) * word.n, word.n);
    if (order == 0) return (uint16_t)mid;
    if (order < 0)
      high = mid;
    else
      low = mid + 1;
  }
  return NO_WORD;
}

static bool is_of(uint16_t word, enum post_class c) {
  if (word == NO_WORD) return false;
  size_t from = plain_from[word], to = plain_from[word + 1];
  while (from < to && plain[from] < c) from++;
  return from < to && plain[from] == c;
}

/* The phrases that begin with a word stand in a row; where. */
static size_t first_phrase(uint16_t word) {
  size_t low = 0, high = PHRASES;
  while (low < high) {
    size_t mid = (low + high) / 2;
    if (phrase_word[mid] < word)
      low = mid + 1;
    else
      high = mid;
  }
  return low;
}

static uint16_t word_at(const struct tokens *t, size_t at) {
  struct token *k = &t->item[at];
  if (k->known == 0) {
    char mark = (char)k->mark;
    uint16_t w = NO_WORD;
    if (k->kind == TOKEN_WORD)
      w = look_up(k->word);
    else if (k->kind != TOKEN_MARK)
      w = look_up(k->at);
    else if (k->mark < 128)
      w = look_up((struct span){&mark, 1});
    k->known = (uint16_t)(w + 2); /* NO_WORD: 1 */
  }
  return (uint16_t)(k->known - 2);
}

bool is_a(struct span word, enum post_class c) { return is_of(look_up(word), c); }

const char *means_as(struct span word, enum post_class c) {
  uint16_t w = look_up(word);
  if (!is_of(w, c)) return NULL;
  for (size_t i = first_phrase(w); i < PHRASES && phrase_word[i] == w; i++)
    if (phrase_class[i] == c && phrase_text[phrase_rest[i]] == '\0') return phrase_text + phrase_means[i];
  return "";
}

bool says_a(const struct tokens *t, size_t at, enum post_class c) {
  return at < t->count && t->item[at].kind == TOKEN_WORD && !t->item[at].taken && is_of(word_at(t, at), c);
}

size_t meaning_at(const struct tokens *t, size_t at, enum post_class c, const char **means) {
  if (at >= t->count || t->item[at].taken) return 0;
  uint16_t w = word_at(t, at);
  if (w == NO_WORD) return 0;
  bool longer = (phrase_begins[w / 8] >> w % 8 & 1) != 0;
  for (size_t i = longer ? first_phrase(w) : PHRASES; i < PHRASES && phrase_word[i] == w && phrase_class[i] <= c; i++) {
    if (phrase_class[i] != c) continue;
    const char *rest = phrase_text + phrase_rest[i];
    size_t used = rest[0] == '\0' ? 0 : phrase_at(t, at + 1, rest);
    if (rest[0] != '\0' && used == 0) continue;
    *means = phrase_text + phrase_means[i];
    return 1 + used;
  }
  *means = "";
  return is_of(w, c) ? 1 : 0;
}

size_t phrase_of(const struct tokens *t, size_t at, enum post_class c) {
  const char *means;
  return meaning_at(t, at, c, &means);
}

bool holds_a(const struct tokens *t, size_t from, size_t to, enum post_class c) {
  for (size_t i = from; i < to; i++)
    if (phrase_of(t, i, c) > 0) return true;
  return false;
}

/* ---- any text ---- */

bool text_holds(struct span text, enum post_class c) {
  for (size_t i = text_from[c]; i < text_from[c + 1]; i++)
    if (span_holds_fold(text, span_of(phrase_text + text_phrase[i]))) return true;
  return false;
}

size_t text_begins(struct span text, enum post_class c, const char **means) {
  for (size_t i = text_from[c]; i < text_from[c + 1]; i++)
    if (span_starts_fold(text, phrase_text + text_phrase[i])) {
      *means = phrase_text + text_means[i];
      return strlen(phrase_text + text_phrase[i]);
    }
  return 0;
}
