#include "foods/hazard_words.h"

#include "foods/hazard_tokens.h"

/* ---- one word against one token
 * ----------------------------------------------------------------------------------
 */

/* A word of the library's own dictionary is what it says, never a slip for
 * another. */
static bool is_known_word(const struct library *lib, struct span word) {
  const struct img_token *rows = IMG_ROWS(&lib->image, IMG_TOKENS, struct img_token);
  size_t low = 0, high = img_count(&lib->image, IMG_TOKENS);
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    const char *text = lib_str(lib, rows[middle].text);
    int order = strncmp(text, word.p, word.n);
    if (order == 0 && text[word.n]) order = 1;
    if (order == 0) return true;
    if (order < 0)
      low = middle + 1;
    else
      high = middle;
  }
  return false;
}

static bool is_vowel(char c) { return c == 'a' || c == 'e' || c == 'i' || c == 'o' || c == 'u' || c == 'y'; }

/* Two letters that changed places, one too many or one too few; one vowel for
 * another; in words of six letters and more any letter for another. */
static bool is_slip(struct span word, struct span typed) {
  enum { SHORTEST = 5, MAY_REPLACE = 6 };
  if (word.n < SHORTEST || typed.n < SHORTEST || word.p[0] != typed.p[0]) return false;
  size_t head = 0, tail = 0, least = word.n < typed.n ? word.n : typed.n;
  while (head < least && word.p[head] == typed.p[head]) head++;
  while (tail < least - head && word.p[word.n - 1 - tail] == typed.p[typed.n - 1 - tail]) tail++;
  size_t left = word.n - head - tail, other = typed.n - head - tail;
  if (left + other == 1) return true;
  if (left == 1 && other == 1) return word.n >= MAY_REPLACE || (is_vowel(word.p[head]) && is_vowel(typed.p[head]));
  return left == 2 && other == 2 && word.p[head] == typed.p[head + 1] && word.p[head + 1] == typed.p[head];
}

enum fit { FIT_NOT, FIT_SLIP, FIT_EXACT };
/* What names a danger may be misspelt and turned round; what excuses one stands
 * as it is written. */
enum how { LOOSELY, STRICTLY };

/* 'word' is folded, or "=" and a word as it must be written, or "@cooked". */
static enum fit word_fits(const struct library *lib, const struct hazard_text *t, size_t at, struct span word,
                          enum how how) {
  const struct hazard_token *x = &t->token[at];
  if (word.p[0] == '=') return span_eq_fold(x->at, span_cut(word, 1, word.n)) ? FIT_EXACT : FIT_NOT;
  if (word.p[0] == '@') return token_is_cooked(t, at) ? FIT_EXACT : FIT_NOT;
  if (span_eq(x->folded, word)) return FIT_EXACT;
  bool slip = how == LOOSELY && is_slip(word, x->folded) && !is_known_word(lib, x->folded);
  return slip ? FIT_SLIP : FIT_NOT;
}

/* ---- a phrase
 * ----------------------------------------------------------------------------------------------------
 */

enum { WORDS_MOST = 6, SMALL_WORDS_MOST = 3 };

struct phrase {
  struct span word[WORDS_MOST];
  size_t count;
};

static struct span cut_before(struct span *rest, const char *mark) {
  size_t n = strlen(mark);
  for (const char *from = rest->p, *end = rest->p + rest->n; from < end; from++) {
    from = memchr(from, mark[0], (size_t)(end - from));
    if (!from || (size_t)(end - from) < n) break;
    if (memcmp(from, mark, n) != 0) continue;
    size_t i = (size_t)(from - rest->p);
    struct span piece = span_cut(*rest, 0, i);
    *rest = span_cut(*rest, i + n, rest->n);
    return piece;
  }
  struct span piece = *rest;
  *rest = (struct span){rest->p + rest->n, 0};
  return piece;
}

static struct phrase phrase_of(struct span words) {
  struct phrase p = {.count = 0};
  while (words.n > 0 && p.count < WORDS_MOST) {
    struct span w = cut_before(&words, " ");
    if (w.n > 0) p.word[p.count++] = w;
  }
  return p;
}

/* No token begins with the first letter of this word: nothing to look for (a
 * slip keeps the first letter). */
static bool is_out_of_question(const struct hazard_text *t, struct span word) {
  char c = word.p[0];
  return c >= 'a' && c <= 'z' && !(t->letters & (1u << (c - 'a')));
}

static bool is_small_word(const struct hazard_text *t, size_t at) {
  return TOKEN_IN(t, at, "of", "the", "a", "an", "its", "it", "with", "in", "their", "on", "from", "my", "some", "one");
}

struct place {
  size_t first, last;
  bool slip;
};

/* All words of the phrase side by side from token 'first' on, in any order,
 * small words between them. The first word of the phrase is its adjective: a
 * comma may stand before it ("kidney beans, raw"), not behind it ("raw, kidney
 * beans"). */
static bool phrase_begins(const struct library *lib, const struct hazard_text *t, size_t first, const struct phrase *p,
                          enum how how, struct place *out) {
  bool used[WORDS_MOST] = {false};
  size_t found = 0, small = 0;
  *out = (struct place){first, first, false};
  bool adjective = false;
  for (size_t i = first; i < t->count && found < p->count; i++) {
    char gap = t->token[i].gap;
    if (i > first && gap == '.') return false;
    if (i > first && (gap == ',' || gap == '/' || gap == '(') && adjective && how == LOOSELY) return false;
    enum fit best = FIT_NOT;
    size_t which = 0;
    for (size_t k = 0; k < p->count && best != FIT_EXACT; k++) {
      bool out_of_turn = used[k] || (how == STRICTLY && k != found);
      enum fit f = out_of_turn ? FIT_NOT : word_fits(lib, t, i, p->word[k], how);
      if (f > best) {
        best = f;
        which = k;
      }
    }
    if (best == FIT_NOT) {
      if (found == 0 || !is_small_word(t, i) || ++small > SMALL_WORDS_MOST) return false;
      continue;
    }
    used[which] = true;
    adjective = which == 0;
    out->slip = out->slip || best == FIT_SLIP;
    out->last = i;
    found++;
  }
  return found == p->count;
}

/* May a token that begins so be one of the words? Neither the word itself nor a slip of it begins otherwise; what is said of
 * a word with a mark is looked at. */
static bool may_begin(const struct phrase *p, char c) {
  for (size_t k = 0; k < p->count; k++)
    if (p->word[k].p[0] == c || p->word[k].p[0] == '=' || p->word[k].p[0] == '@') return true;
  return false;
}

static bool phrase_from(const struct library *lib, const struct hazard_text *t, size_t from, const struct phrase *p,
                        enum how how, struct place *out) {
  for (size_t k = 0; k < p->count; k++)
    if (is_out_of_question(t, p->word[k])) return false;
  for (size_t i = from; i < t->count; i++)
    if (may_begin(p, t->token[i].folded.p[0]) && phrase_begins(lib, t, i, p, how, out)) return true;
  return false;
}

/* ---- one row
 * -----------------------------------------------------------------------------------------------------
 */

const struct img_hazard *hazard_row(const struct library *lib, uint32_t hazard) {
  return &IMG_ROWS(&lib->image, IMG_HAZARDS, struct img_hazard)[hazard];
}

/* An alternative of 'said', and which letters must begin tokens for it: of the first part's words, of all words. */
struct alternative {
  struct span words;
  uint32_t first, all;
};

struct hazard_said {
  struct alternative *alternative;
  uint32_t *end; /* [rows] of the rows' alternatives */
};

static uint32_t letter_of(char c) { return c >= 'a' && c <= 'z' ? 1U << (c - 'a') : 0; }

static struct alternative alternative_of(struct span words) {
  struct alternative a = {words, 0, 0};
  bool first = true, word = true;
  for (size_t i = 0; i < words.n; i++) {
    first = first && words.p[i] != '&';
    if (word && first) a.first |= letter_of(words.p[i]);
    if (word) a.all |= letter_of(words.p[i]);
    word = words.p[i] == ' ';
  }
  return a;
}

struct hazard_said *hazard_words_prepare(const struct library *lib, struct arena *arena) {
  uint32_t rows = (uint32_t)img_count(&lib->image, IMG_HAZARDS);
  struct hazard_said *said = ARENA_NEW(arena, struct hazard_said, 1);
  size_t count = 0, cap = 0;
  said->end = ARENA_NEW(arena, uint32_t, rows + 1);
  for (uint32_t r = 0; r < rows; r++) {
    for (const char *from = lib_str(lib, hazard_row(lib, r)->said), *end; *from; from = *end ? end + 1 : end) {
      end = strchr(from, '|');
      if (!end) end = from + strlen(from);
      struct alternative a = alternative_of((struct span){from, (size_t)(end - from)});
      if (a.words.n > 0) ARENA_PUSH(arena, said->alternative, count, cap, a);
    }
    said->end[r] = (uint32_t)count;
  }
  return said;
}

struct search_row {
  const struct library *lib;
  const struct hazard_text *t;
  const struct hazard_said *said;
  const struct img_hazard *h;
  uint32_t row;
  bool *masked;   /* tokens that something else claims: "grape" of "grape tomato" */
  bool is_masked; /* they have been looked for */
};

static void take_row(struct search_row *s, uint32_t row) {
  s->h = hazard_row(s->lib, row);
  s->row = row;
  s->is_masked = false;
}

static void mask(struct search_row *s) {
  struct span rest = span_of(lib_str(s->lib, s->h->unless));
  s->is_masked = true;
  memset(s->masked, 0, s->t->count);
  while (rest.n > 0) {
    struct phrase p = phrase_of(cut_before(&rest, "|"));
    struct place at;
    for (size_t from = 0; phrase_from(s->lib, s->t, from, &p, STRICTLY, &at); from = at.first + 1)
      for (size_t i = at.first; i <= at.last; i++) s->masked[i] = true;
  }
}

static bool is_answered(const struct search_row *s) {
  struct span rest = span_of(lib_str(s->lib, s->h->answered));
  struct place at;
  while (rest.n > 0) {
    struct phrase p = phrase_of(cut_before(&rest, "|"));
    if (phrase_from(s->lib, s->t, 0, &p, STRICTLY, &at)) return true;
  }
  return false;
}

static bool is_name(const struct search_row *s, struct place at) {
  struct span rest = span_of(lib_str(s->lib, s->h->names));
  while (at.first == at.last && rest.n > 0)
    if (span_eq(cut_before(&rest, "|"), s->t->token[at.first].folded)) return hazard_is_name(s->t, at.first);
  return false;
}

static bool any_masked(struct search_row *s, struct place at) {
  if (!s->is_masked) mask(s);
  for (size_t i = at.first; i <= at.last; i++)
    if (s->masked[i]) return true;
  return false;
}

/* The next place of a phrase that is nothing else, no name and not denied.
 * 'mark' only notes candidates. */
static bool find_phrase(struct search_row *s, struct span words, struct place *out, bool mark) {
  struct phrase p = phrase_of(words);
  bool found = false;
  for (size_t from = 0; phrase_from(s->lib, s->t, from, &p, LOOSELY, out); from = out->first + 1) {
    if (any_masked(s, *out) || is_name(s, *out)) continue;
    for (size_t i = out->first; mark && i <= out->last; i++) s->t->token[i].candidate = true;
    if (!mark && !hazard_denied(s->t, out->first, out->last)) return true;
    found = true;
  }
  return mark && found;
}

/* "wing & @cooked": every part of it somewhere. The place is that of the first.
 */
static bool find_alternative(struct search_row *s, struct span words, struct place *out, bool mark) {
  struct place other;
  if (!find_phrase(s, cut_before(&words, " & "), out, mark)) return false;
  while (words.n > 0)
    if (!find_phrase(s, cut_before(&words, " & "), &other, mark)) return false;
  return true;
}

static bool find_row(struct search_row *s, struct place *out, bool mark) {
  bool any = false, may = false;
  const struct alternative *from = s->said->alternative + (s->row > 0 ? s->said->end[s->row - 1] : 0),
                           *end = s->said->alternative + s->said->end[s->row];
  for (const struct alternative *a = from; a < end && !may; a++) may = !(a->all & ~s->t->letters);
  for (const struct alternative *a = from; a < end && may; a++) {
    if (a->first & ~s->t->letters) continue;
    any = find_alternative(s, a->words, out, mark) || any;
    if (any && !mark) return true;
  }
  return any;
}

/* ---- a text
 * ------------------------------------------------------------------------------------------------------
 */

static size_t find_in(const struct library *lib, const struct hazard_said *said, struct span text, struct hazard_hit *hits,
                      size_t most, struct arena *scratch) {
  struct hazard_text t;
  size_t rows = img_count(&lib->image, IMG_HAZARDS), found = 0, named = 0;
  hazard_tokens(lib, text, &t, scratch);
  if (t.count == 0) return 0;
  struct search_row s = {.lib = lib, .t = &t, .said = said, .masked = ARENA_NEW(scratch, bool, t.count)};
  uint32_t *maybe = ARENA_NEW(scratch, uint32_t, rows + 1);
  struct place at;
  /* First what is named at all, so that a denial can reach along a list of such
   * words. */
  for (uint32_t r = 0; r < rows; r++) {
    take_row(&s, r);
    if (find_row(&s, &at, true)) maybe[named++] = r;
  }
  for (size_t i = 0; i < named && found < most; i++) {
    take_row(&s, maybe[i]);
    if (is_answered(&s) || !find_row(&s, &at, false)) continue;
    const char *from = t.token[at.first].at.p, *to = t.token[at.last].at.p + t.token[at.last].at.n;
    hits[found++] = (struct hazard_hit){maybe[i], {from, (size_t)(to - from)}, at.slip};
  }
  return found;
}

size_t hazard_words_find(const struct library *lib, struct span text, struct hazard_hit *hits, size_t most,
                         struct arena *scratch) {
  if (lib->hazards_said) return find_in(lib, lib->hazards_said, text, hits, most, scratch);
  struct arena_mark mark = arena_mark(scratch);
  size_t n = find_in(lib, hazard_words_prepare(lib, scratch), text, hits, most, scratch);
  arena_rewind(scratch, mark);
  return n;
}

uint32_t hazard_words_danger(const struct library *lib, struct span text, int species, struct arena *scratch) {
  struct hazard_hit hits[HAZARD_HITS_MOST];
  size_t n = hazard_words_find(lib, text, hits, HAZARD_HITS_MOST, scratch);
  for (size_t i = 0; i < n; i++) {
    const struct img_hazard *h = hazard_row(lib, hits[i].hazard);
    bool concerns = species == SPECIES_BOTH || h->species == SPECIES_BOTH || h->species == species;
    if (h->weight == FINDING_ACT && concerns) return hits[i].hazard;
  }
  return NO_INDEX;
}
