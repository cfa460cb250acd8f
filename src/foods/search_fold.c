/* Folding: from what people type, or what a table prints, to plain singular words. */
#include "foods/search.h"

static bool is_digit(char c) { return c >= '0' && c <= '9'; }
static bool is_letter(char c) { return c >= 'a' && c <= 'z'; }

/* Reads one UTF-8 character; a byte that begins none is returned as U+FFFD, one byte long. */
static uint32_t read_char(struct span s, size_t at, size_t *length) {
  static const uint32_t LEAST[] = {0, 0, 0x80, 0x800, 0x10000};
  unsigned char first = (unsigned char)s.p[at];
  size_t n = first < 0x80 ? 1 : first >= 0xf0 && first < 0xf8 ? 4 : first >= 0xe0 ? 3 : first >= 0xc2 ? 2 : 0;
  *length = 1;
  if (n == 1) return first;
  if (n == 0 || first >= 0xf8 || at + n > s.n) return 0xfffd;
  uint32_t c = first & (0x7fu >> n);
  for (size_t i = 1; i < n; i++) {
    unsigned char next = (unsigned char)s.p[at + i];
    if ((next & 0xc0) != 0x80) return 0xfffd;
    c = c << 6 | (next & 0x3f);
  }
  if (c < LEAST[n]) return 0xfffd;
  *length = n;
  return c;
}

static const struct img_fold *find_fold(const struct img_fold *folds, size_t count, uint32_t c) {
  size_t low = 0, high = count;
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    if (folds[middle].code_point < c)
      low = middle + 1;
    else
      high = middle;
  }
  return low < count && folds[low].code_point == c ? &folds[low] : NULL;
}

/* The plural forms that no rule below reaches, and the words that only look like plurals. */
static const struct {
  char plural[12], singular[12];
} IRREGULAR[] = {{"leaves", "leaf"},
                 {"loaves", "loaf"},
                 {"halves", "half"},
                 {"calves", "calf"},
                 {"hooves", "hoof"},
                 {"knives", "knife"},
                 {"geese", "goose"},
                 {"feet", "foot"},
                 {"teeth", "tooth"},
                 {"mice", "mouse"},
                 {"oxen", "ox"},
                 {"cookies", "cookie"},
                 {"brownies", "brownie"},
                 {"veggies", "veggie"},
                 {"smoothies", "smoothie"},
                 {"calories", "calorie"},
                 {"species", "species"},
                 {"series", "series"},
                 {"pancreas", "pancreas"},
                 {"pancreases", "pancreas"},
                 {"molasses", "molasses"},
                 {"testes", "testis"},
                 {"quiches", "quiche"},
                 {"octopi", "octopus"},
                 {"fungi", "fungus"}};

static bool ends(const char *word, size_t n, const char *tail) {
  size_t k = strlen(tail);
  return n > k && memcmp(word + n - k, tail, k) == 0;
}

/* Cuts the word to its singular and returns its new length. The result need not be English ("brussel"): it only has
 * to be the same on both sides of a comparison. */
static size_t singular(char *word, size_t n) {
  struct span whole = {word, n};
  if (n <= 3) return n;
  for (size_t i = 0; i < COUNT_OF(IRREGULAR); i++)
    if (IRREGULAR[i].plural[0] == word[0] && span_is(whole, IRREGULAR[i].plural)) {
      size_t k = strlen(IRREGULAR[i].singular);
      memcpy(word, IRREGULAR[i].singular, k);
      return k;
    }
  if (word[n - 1] != 's' || !is_letter(word[n - 2])) return n;
  if (ends(word, n, "ss") || ends(word, n, "us") || ends(word, n, "is")) return n;
  if (n > 4 && ends(word, n, "ies")) {
    word[n - 3] = 'y';
    return n - 2;
  }
  static const char *const TAKE_ES[] = {"ches", "shes", "xes", "sses", "zzes", "oes"};
  for (size_t i = 0; n > 4 && i < COUNT_OF(TAKE_ES); i++)
    if (ends(word, n, TAKE_ES[i])) return n - 2;
  return n - 1;
}

struct folding {
  char *p;
  size_t n, word; /* word: where the word being written begins */
};

static void end_word(struct folding *f) {
  if (f->n > f->word) {
    f->n = f->word + singular(f->p + f->word, f->n - f->word);
    f->p[f->n++] = ' ';
  }
  f->word = f->n;
}

/* "90 %" is one word like "90%": a number that was just closed is opened again. */
static bool reopen_number(struct folding *f) {
  if (f->n == f->word && f->n >= 2 && is_digit(f->p[f->n - 2])) {
    f->word = --f->n;
    while (f->word > 0 && f->p[f->word - 1] != ' ') f->word--;
  }
  return f->n > f->word && is_digit(f->p[f->n - 1]);
}

static void fold_ascii(struct folding *f, struct span in, size_t at) {
  char c = in.p[at];
  if (c >= 'A' && c <= 'Z') c = (char)(c + ('a' - 'A'));
  bool after_digit = f->n > f->word && is_digit(f->p[f->n - 1]);
  bool before_digit = at + 1 < in.n && is_digit(in.p[at + 1]);
  if (c == '\'') return; /* goat's -> goats */
  if (is_letter(c) || is_digit(c) || ((c == '/' || c == '.') && after_digit && before_digit))
    f->p[f->n++] = c;
  else if (c == '%' && reopen_number(f))
    f->p[f->n++] = c;
  else
    end_word(f);
}

/* A fold without letters drops the character (accents that stand alone, curly apostrophes). */
static void fold_other(struct folding *f, const struct img_fold *fold) {
  if (!fold) {
    end_word(f);
    return;
  }
  for (size_t i = 0; i < sizeof fold->plain && fold->plain[i]; i++) f->p[f->n++] = fold->plain[i];
}

struct span search_fold_with(const struct img_fold *folds, size_t fold_count, struct span words, struct arena *a) {
  /* A character of two bytes or more becomes at most four; a closing blank may follow any character. */
  struct folding f = {arena_alloc(a, 2 * words.n + 2, 1), 0, 0};
  for (size_t at = 0, length = 1; at < words.n; at += length) {
    uint32_t c = read_char(words, at, &length);
    if (c < 0x80)
      fold_ascii(&f, words, at);
    else
      fold_other(&f, find_fold(folds, fold_count, c));
  }
  end_word(&f);
  if (f.n > 0) f.n--;
  f.p[f.n] = '\0';
  return (struct span){f.p, f.n};
}

struct span search_fold(const struct image *img, struct span words, struct arena *a) {
  return search_fold_with(IMG_ROWS(img, IMG_FOLDS, struct img_fold), img_count(img, IMG_FOLDS), words, a);
}
