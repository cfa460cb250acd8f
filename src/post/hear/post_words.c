/* The words and phrases that the reader of posts knows, and where a text says one. */
#include "post/hear/post_words.h"

#include "post_words_table.h"

static char small(char c) { return c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c; }

/* ---- one word in a list of the code's own ---- */

static bool spells(const char *list, size_t at, size_t n, struct span word) {
  if (at + word.n > n || (at + word.n < n && list[at + word.n] != ' ')) return false;
  size_t i = 1;
  while (i < word.n && list[at + i] == small(word.p[i])) i++;
  return i == word.n;
}

/* Sixteen letters side by side, which every compiler here turns into what the machine has. */
typedef uint8_t letters __attribute__((vector_size(16)));

static letters letters_from(const char *p) {
  letters l;
  memcpy(&l, p, sizeof l);
  return l;
}

/* Of eight bytes, as they lie in memory, the first that is not zero; one is not. */
static size_t first_byte(uint64_t eight) {
  bool little = __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__;
  return (size_t)(little ? __builtin_ctzll(eight) : __builtin_clzll(eight)) / 8;
}

/* A word begins at the front, or where a blank stands before its first letter. */
bool word_in_list(struct span word, const char *list, size_t n) {
  if (word.n == 0 || word.n > n) return false;
  char first = small(word.p[0]);
  if (list[0] == first && spells(list, 0, n, word)) return true;
  size_t at = 0;
  for (; n > sizeof(letters) && at < n - 1; at += sizeof(letters)) {
    if (at + sizeof(letters) + 1 > n) at = n - sizeof(letters) - 1; /* the last ones, some of them again */
    letters begin = (letters)((letters_from(list + at) == (uint8_t)' ') & (letters_from(list + at + 1) == (uint8_t)first));
    uint64_t half[2];
    memcpy(half, &begin, sizeof half);
    for (size_t h = 0; h < COUNT_OF(half); h++) {
      size_t from = at + h * sizeof *half, to = from + (half[h] != 0 ? sizeof *half : 0);
      for (size_t i = to > from ? from + first_byte(half[h]) : from; i < to; i++)
        if (list[i] == ' ' && list[i + 1] == first && spells(list, i + 1, n, word)) return true;
    }
  }
  for (; at + 1 < n; at++)
    if (list[at] == ' ' && list[at + 1] == first && spells(list, at + 1, n, word)) return true;
  return false;
}

/* ---- the table ---- */

enum { NO_WORD_OF_TABLE = UINT16_MAX };
_Static_assert(LONGEST_WORD <= sizeof((struct known_words *)NULL)->slot[0].letters, "a word of the table fits");

/* A word of the table is known by the place of its classes in 'word_bytes'; 0 none. */
struct entry {
  size_t shared, more; /* letters of the word before, and of its own */
  const uint8_t *letters;
  size_t classes; /* where they are counted */
};

static struct entry entry_at(size_t at) {
  return (struct entry){word_bytes[at], word_bytes[at + 1], word_bytes + at + 2, at + 2 + word_bytes[at + 1]};
}

/* How many phrases it begins are told behind its classes. */
static size_t phrases_of(size_t classes) { return classes + 1 + word_bytes[classes]; }

static size_t entry_behind(size_t classes) {
  size_t at = phrases_of(classes);
  return at + (word_bytes[at] > 0 ? 3 : 1);
}

/* Mostly the first letter or two tell. */
static int compare_word(struct span a, const uint8_t *b, size_t n) {
  size_t i = 0, both = a.n < n ? a.n : n;
  while (i < both && (uint8_t)a.p[i] == b[i]) i++;
  if (i < both) return (uint8_t)a.p[i] < b[i] ? -1 : 1;
  return a.n < n ? -1 : a.n > n;
}

/* The last block that begins with this word or one before it, of those with words of its letter. */
static size_t block_of(struct span word) {
  size_t low = 0, high = BLOCKS, letter = (unsigned char)word.p[0] - (size_t)'a';
  if (letter < COUNT_OF(letter_block) - 1) low = letter_block[letter], high = letter_block[letter + 1] + 1U;
  while (high - low > 1) {
    size_t mid = (low + high) / 2;
    struct entry first = entry_at(block_at[mid]);
    if (compare_word(word, first.letters, first.more) < 0)
      high = mid;
    else
      low = mid;
  }
  return low;
}

static uint16_t look_up(struct span word) {
  char folded[LONGEST_WORD];
  if (word.n == 0 || word.n > LONGEST_WORD) return 0;
  for (size_t i = 0; i < word.n; i++) folded[i] = small(word.p[i]);
  struct span w = {folded, word.n};
  size_t block = block_of(w), at = block_at[block], fits = 0; /* letters that it has in common with the entry before */
  for (size_t i = block * WORDS_A_BLOCK; i < WORDS && i < (block + 1) * WORDS_A_BLOCK; i++) {
    struct entry e = entry_at(at);
    if (e.shared < fits) return 0; /* the entries are past it */
    if (e.shared == fits) {
      size_t n = 0;
      while (n < e.more && fits + n < w.n && e.letters[n] == (uint8_t)w.p[fits + n]) n++;
      if (n == e.more && fits + n == w.n) return (uint16_t)e.classes;
      fits += n;
    }
    at = entry_behind(e.classes);
  }
  return 0;
}

static bool is_of(uint16_t word, enum post_class c) {
  if (word == 0) return false;
  const uint8_t *class = word_bytes + word + 1, *end = class + word_bytes[word];
  unsigned page = 0;
  for (; class < end; class ++) {
    if (*class == CLASSES_A_PAGE)
      page = CLASSES_A_PAGE;
    else if (page + *class >= (unsigned)c)
      return page + *class == (unsigned)c;
  }
  return false;
}

/* The phrases that begin with a word; how many. */
static size_t phrases_from(uint16_t word, size_t *first) {
  size_t at = phrases_of(word), count = word_bytes[at];
  *first = count > 0 ? word_bytes[at + 1] + 256U * word_bytes[at + 2] : 0;
  return count;
}

/* As it is looked up; 'mark' holds it where it is one. */
static struct span looked_up_as(const struct token *k, char *mark) {
  *mark = (char)k->mark;
  if (k->kind == TOKEN_WORD) return k->word;
  return k->kind == TOKEN_MARK ? (struct span){mark, k->mark < 128} : k->at;
}

static uint16_t known_as(struct span word) {
  uint16_t w = look_up(word);
  return w > 0 ? w : NO_WORD_OF_TABLE;
}

/* A bit for each class that it has by itself or that a phrase beginning with it has. */
static uint64_t classes_of(uint16_t known) {
  if (known == NO_WORD_OF_TABLE) return 0;
  const uint8_t *class = word_bytes + known + 1, *end = class + word_bytes[known];
  uint64_t classes = 0;
  unsigned page = 0;
  size_t first;
  for (; class < end; class ++) {
    if (*class == CLASSES_A_PAGE)
      page = CLASSES_A_PAGE;
    else
      classes |= (uint64_t)1 << (page + *class) % 64;
  }
  for (size_t count = phrases_from(known, &first), i = first; i < first + count; i++)
    classes |= (uint64_t)1 << phrase_class[i] % 64;
  return classes;
}

static uint16_t word_of(struct token *k) {
  char mark;
  if (k->known == 0) {
    k->known = known_as(looked_up_as(k, &mark));
    k->classes = classes_of(k->known);
  }
  return k->known == NO_WORD_OF_TABLE ? 0 : k->known;
}

void token_know(struct token *k, struct known_words *seen) {
  char mark;
  struct span word = looked_up_as(k, &mark);
  if (word.n == 0 || word.n > LONGEST_WORD || k->known != 0) return;
  uint32_t hash = 0;
  for (size_t i = 0; i < word.n; i++) hash = hash * 31 + (uint8_t)word.p[i];
  size_t at = (hash ^ hash >> 11) % COUNT_OF(seen->slot);
  if (seen->slot[at].n != word.n || memcmp(seen->slot[at].letters, word.p, word.n) != 0) {
    memcpy(seen->slot[at].letters, word.p, word.n);
    seen->slot[at].n = (uint8_t)word.n;
    seen->slot[at].known = known_as(word);
    seen->slot[at].classes = classes_of(seen->slot[at].known);
  }
  k->known = seen->slot[at].known;
  k->classes = seen->slot[at].classes;
}

bool is_a(struct span word, enum post_class c) { return is_of(look_up(word), c); }

const char *means_as(struct span word, enum post_class c) {
  struct token k = {.kind = TOKEN_WORD, .word = word};
  return token_means(&k, c);
}

const char *table_token_means(struct token *k, enum post_class c) {
  uint16_t w = k->kind == TOKEN_WORD ? word_of(k) : 0;
  size_t first;
  if (!is_of(w, c)) return NULL;
  for (size_t count = phrases_from(w, &first), i = first; i < first + count; i++)
    if (phrase_class[i] == c && phrase_text[phrase_rest[i]] == '\0') return phrase_text + meaning_text[phrase_means[i]];
  return "";
}

bool table_token_is_a(struct token *k, enum post_class c) { return k->kind == TOKEN_WORD && is_of(word_of(k), c); }

size_t table_meaning_at(const struct tokens *t, size_t at, enum post_class c, const char **means) {
  uint16_t w = word_of(&t->item[at]);
  size_t first;
  if (w == 0) return 0;
  for (size_t count = phrases_from(w, &first), i = first; i < first + count && phrase_class[i] <= c; i++) {
    if (phrase_class[i] != c) continue;
    const char *rest = phrase_text + phrase_rest[i];
    size_t used = rest[0] == '\0' ? 0 : phrase_at(t, at + 1, rest);
    if (rest[0] != '\0' && used == 0) continue;
    *means = phrase_text + meaning_text[phrase_means[i]];
    return 1 + used;
  }
  *means = "";
  return is_of(w, c) ? 1 : 0;
}

bool holds_a(const struct tokens *t, size_t from, size_t to, enum post_class c) {
  for (size_t i = from; i < to; i++)
    if (phrase_of(t, i, c) > 0) return true;
  return false;
}

/* ---- any text ---- */

/* May a phrase of the class begin so? In either case of a letter. */
static bool may_begin_text(char first, enum post_class c) { return (text_letters[c] >> ((uint8_t)first & 31) & 1) != 0; }

/* The first phrase of the class with which the text begins; text_from[c + 1] when none does. They stand by their letters. */
static size_t text_at_front(struct span text, enum post_class c) {
  size_t i = text_from[c], end = text_from[c + 1];
  char first = text.n > 0 ? small(text.p[0]) : '\0', second = text.n > 1 ? small(text.p[1]) : '\0';
  if (text.n == 0 || !may_begin_text(first, c)) return end;
  for (; i < end; i++) {
    const char *phrase = phrase_text + text_phrase[i];
    unsigned char begin = (unsigned char)small(phrase[0]);
    if (begin > (unsigned char)first) return end;
    if (begin < (unsigned char)first || (phrase[1] != '\0' && small(phrase[1]) != second)) continue;
    if (span_starts_fold(text, phrase)) return i;
  }
  return end;
}

/* In one walk over the text: most of its letters begin no phrase of the class. */
bool text_holds(struct span text, enum post_class c) {
  for (size_t at = 0; at < text.n; at++)
    if (may_begin_text(text.p[at], c) && text_at_front(span_cut(text, at, text.n), c) < text_from[c + 1]) return true;
  return false;
}

size_t text_begins(struct span text, enum post_class c, const char **means) {
  size_t i = text_at_front(text, c);
  if (i == text_from[c + 1]) return 0;
  *means = phrase_text + text_means[i];
  return strlen(phrase_text + text_phrase[i]);
}
