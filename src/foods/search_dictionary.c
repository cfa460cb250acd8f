/* The dictionary of the search: exact words, words that begin so, words that were meant. */
#include "foods/search_memory.h"

static const char *token_text(const struct image *img, const struct img_token *t) { return img_str(img, t->text); }

/* Index of the first token that is not before 'word'. */
static size_t lower_bound(const struct image *img, struct span word) {
  const struct img_token *token = IMG_ROWS(img, IMG_TOKENS, struct img_token);
  size_t low = 0, high = img_count(img, IMG_TOKENS);
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    if (strncmp(token_text(img, &token[middle]), word.p, word.n) < 0)
      low = middle + 1;
    else
      high = middle;
  }
  return low;
}

const struct img_token *search_tokens_from(const struct image *img, struct span word, size_t *count) {
  const struct img_token *token = IMG_ROWS(img, IMG_TOKENS, struct img_token);
  size_t first = lower_bound(img, word), end = first, all = img_count(img, IMG_TOKENS);
  while (end < all && strncmp(token_text(img, &token[end]), word.p, word.n) == 0) end++;
  *count = end - first;
  return end > first ? &token[first] : NULL;
}

/* Of the words that begin so the word itself is the first. */
const struct img_token *search_token(const struct image *img, struct span word) {
  const struct img_token *token = IMG_ROWS(img, IMG_TOKENS, struct img_token);
  size_t first = lower_bound(img, word);
  if (first == img_count(img, IMG_TOKENS)) return NULL;
  const char *text = token_text(img, &token[first]);
  return strncmp(text, word.p, word.n) == 0 && text[word.n] == '\0' ? &token[first] : NULL;
}

/* ---- typos ------------------------------------------------------------------------------------------------------------ */

static int bits_of(uint32_t x) { /* two, four, eight bits at a time */
  x -= x >> 1 & 0x55555555U;
  x = (x & 0x33333333U) + (x >> 2 & 0x33333333U);
  return (int)(((x + (x >> 4)) & 0x0F0F0F0FU) * 0x01010101U >> 24);
}

static int typos_allowed(size_t letters) { return letters >= 8 ? 2 : letters >= 4 ? 1 : 0; }

struct nearest {
  struct span word, best;
  struct word_shape shape;
  int most, distance; /* distance of 'best'; most + 1 while there is none */
  bool first_letter;  /* 'best' begins with the letter that was typed */
  uint32_t use;       /* foods that hold 'best': the commoner word is meant more often */
};

/* Most of the dictionary is ruled out before any table of distances is filled. */
static bool may_be_meant(const struct nearest *n, struct word_shape candidate) {
  uint32_t most = (uint32_t)n->most, longer = candidate.bytes + most - n->shape.bytes; /* than the shortest may be */
  return longer <= 2 * most && bits_of(n->shape.letters ^ candidate.letters) <= 2 * n->most;
}

static void try_word(struct nearest *n, struct span candidate, uint32_t use) {
  int d = span_distance(n->word, candidate, n->most);
  bool first = candidate.p[0] == n->word.p[0];
  if (d > n->distance || d > n->most) return;
  if (d == n->distance && (n->first_letter > first || (n->first_letter == first && n->use >= use))) return;
  n->best = candidate;
  n->distance = d;
  n->first_letter = first;
  n->use = use;
}

static bool has_digit(struct span word) {
  for (size_t i = 0; i < word.n; i++)
    if (word.p[i] >= '0' && word.p[i] <= '9') return true;
  return false;
}

/* The word of the dictionary or of the synonyms that was meant; n 0 when none is near. */
static struct span nearest_word(const struct library *lib, const struct synonyms *syn, struct span word, int *distance) {
  const struct image *img = &lib->image;
  struct nearest n = {.word = word, .shape = search_shape(word), .most = typos_allowed(word.n)};
  n.distance = n.most + 1;
  if (n.most == 0 || has_digit(word)) return n.best;
  const struct img_token *token = IMG_ROWS(img, IMG_TOKENS, struct img_token);
  const struct word_shape *known = lib->searched ? search_shapes(lib->searched, img, syn) : NULL;
  size_t tokens = img_count(img, IMG_TOKENS);
  for (size_t i = 0; i < tokens; i++)
    if (may_be_meant(&n, known ? known[i] : search_shape(span_of(token_text(img, &token[i])))))
      try_word(&n, span_of(token_text(img, &token[i])), token[i].posting_count);
  for (size_t i = 0; i < syn->count; i++) {
    const char *from = syn->strings + syn->row[i].from;
    if (may_be_meant(&n, known ? known[tokens + i] : search_shape(span_of(from)))) try_word(&n, span_of(from), 0);
  }
  *distance = n.distance;
  return n.best;
}

/* ---- putting words right ---------------------------------------------------------------------------------------------- */

static bool is_synonym(const struct synonyms *syn, struct span word) {
  struct search_words one = {.count = 0};
  search_words_add(&one, word, 1);
  struct search_words to = search_canonical(syn, &one);
  return to.count != 1 || !span_eq(to.at[0].text, word);
}

static bool is_known(const struct image *img, const struct synonyms *syn, struct span word) {
  return search_token(img, word) || is_synonym(syn, word);
}

/* Words of some foods' names, not merely known. */
static bool is_food_word(const struct image *img, const struct synonyms *syn, struct span word) {
  const struct img_token *t = search_token(img, word);
  return t ? t->posting_count > 0 && t->importance > 0 : is_synonym(syn, word);
}

enum { SHORTEST_PART = 3, LONGEST_JOINED = 60 }; /* bytes: no two words of a food are longer together */

/* "beefheart": 0 when there is no place to part the word into two food words. */
static size_t parting(const struct image *img, const struct synonyms *syn, struct span word) {
  if (word.n > LONGEST_JOINED) return 0;
  for (size_t at = SHORTEST_PART; at + SHORTEST_PART <= word.n; at++)
    if (is_food_word(img, syn, span_cut(word, 0, at)) && is_food_word(img, syn, span_cut(word, at, word.n))) return at;
  return 0;
}

/* Do the two words say something together that neither says alone: "white fish"? */
static bool is_synonym_of_two(const struct synonyms *syn, struct span a, struct span b) {
  struct search_words two = {.count = 0};
  search_words_add(&two, a, 1);
  search_words_add(&two, b, 1);
  struct search_words to = search_canonical(syn, &two);
  return to.count != 2 || !span_eq(to.at[0].text, a) || !span_eq(to.at[1].text, b);
}

/* "egg plant": the joined word when some food's name holds it; n 0 otherwise, and where the table of synonyms knows better:
 * "white fish" is no whitefish. */
static struct span joined(const struct image *img, const struct synonyms *syn, struct span a, struct span b,
                          struct arena *arena) {
  char *text = arena_alloc(arena, a.n + b.n + 1, 1);
  memcpy(text, a.p, a.n);
  memcpy(text + a.n, b.p, b.n);
  struct span both = {text, a.n + b.n};
  const struct img_token *t = search_token(img, both);
  return t && t->posting_count > 0 && !is_synonym_of_two(syn, a, b) ? both : (struct span){text, 0};
}

static void add_marked(struct search_words *out, struct span word, bool unfinished) {
  size_t before = out->count;
  search_words_add(out, word, 1);
  if (out->count > before) out->at[before].may_be_unfinished = unfinished;
}

static void add_nearest(const struct library *lib, const struct synonyms *syn, struct span word, struct search_words *out) {
  static const double QUALITY[] = {1, 0.9, 0.8}; /* by typos */
  int typos = 0;
  struct search_words meant = search_split(nearest_word(lib, syn, word, &typos)); /* a synonym may be several words */
  for (size_t i = 0; i < meant.count; i++) search_words_add(out, meant.at[i].text, QUALITY[typos]);
  if (meant.count == 0) search_words_add(out, word, 1);
}

/* "sardin": one letter is missing; n 0 when no word of the dictionary is so near its end. */
static struct span almost_typed(const struct image *img, struct span word) {
  enum { SURE_ENOUGH = 5 };
  size_t count = 0;
  const struct img_token *t = word.n >= SURE_ENOUGH ? search_tokens_from(img, word, &count) : NULL;
  for (size_t i = 0; i < count; i++) {
    struct span whole = span_of(token_text(img, &t[i]));
    if (whole.n == word.n + 1 && t[i].importance > 0) return whole;
  }
  return (struct span){word.p, 0};
}

static void add_unfinished(const struct image *img, struct span word, struct search_words *out) {
  static const double ALMOST = 0.95;
  struct span whole = almost_typed(img, word);
  if (whole.n > 0)
    search_words_add(out, whole, ALMOST);
  else
    add_marked(out, word, true);
}

static void add_corrected(const struct library *lib, const struct synonyms *syn, struct span word, bool last,
                          struct search_words *out) {
  static const double RUN_TOGETHER = 0.97;
  const struct image *img = &lib->image;
  size_t beginnings = 0, part = 0;
  if (is_known(img, syn, word))
    add_marked(out, word, last);
  else if (word.n >= (last ? 2 : 4) && search_tokens_from(img, word, &beginnings))
    add_unfinished(img, word, out);
  else if ((part = parting(img, syn, word)) > 0) {
    search_words_add(out, span_cut(word, 0, part), RUN_TOGETHER);
    search_words_add(out, span_cut(word, part, word.n), RUN_TOGETHER);
  } else
    add_nearest(lib, syn, word, out);
}

/* The same, once for each word of a text. */
static void add_meant(const struct library *lib, const struct synonyms *syn, struct span word, bool last,
                      struct search_words *out) {
  if (!lib->searched) {
    add_corrected(lib, syn, word, last, out);
    return;
  }
  struct word_meant *meant = search_meant(lib->searched, word, last);
  if (!meant) {
    struct search_words now = {.count = 0};
    meant = search_keep_meant(lib->searched, word, last);
    add_corrected(lib, syn, meant->word, last, &now);
    search_fill_meant(lib->searched, meant, &now);
  }
  for (size_t i = 0; i < meant->count && out->count < SEARCH_MOST_WORDS; i++) out->at[out->count++] = meant->at[i];
}

struct search_words search_correct(const struct library *lib, const struct synonyms *syn, const struct search_words *in,
                                   struct arena *a) {
  struct search_words out = {.count = 0};
  for (size_t i = 0; i < in->count; i++) {
    struct span both = {NULL, 0};
    if (i + 1 < in->count) both = joined(&lib->image, syn, in->at[i].text, in->at[i + 1].text, a);
    if (both.n > 0) {
      search_words_add(&out, both, 1);
      i++;
    } else
      add_meant(lib, syn, in->at[i].text, i + 1 == in->count, &out);
  }
  return out;
}
