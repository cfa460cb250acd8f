#include "foods/uncounted_words.h"

#include <math.h>

#include "base/buf.h"
#include "base/num.h"

enum { WORDS_MOST = 60, ROWS_MOST = 8 };
/* Words beside those of a kind: a maker's name, a colour. With more of them the line is about something else, too. */
enum { BESIDE_A_KIND = 2, BESIDE_A_TRIFLE = 2, DOSES_MOST = 20 };

struct word {
  struct span at;   /* in small letters, without apostrophes */
  int piece;        /* of the text: "vitamin E, 4 caps" has two */
  bool in_brackets; /* says more of what stands before it */
  bool number, known;
  bool of_phrase; /* "omega 3": the number is one of a name */
};

struct text {
  const struct library *lib;
  struct word word[WORDS_MOST];
  size_t count;
  int pieces;
  const struct img_uncounted *named[ROWS_MOST]; /* what it is said to be, each once */
  size_t named_count;
  bool piece_named[WORDS_MOST + 1];
  const struct img_uncounted *trifle;
  bool powder, cut_short;
};

static bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || (c & 0x80) != 0;
}

static bool is_any(struct span w, const char *const *words, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (span_is(w, words[i])) return true;
  return false;
}

static bool is_joint(struct span w) {
  static const char *const WORDS[] = {"and", "with", "in", "plus", "or", "then"};
  return is_any(w, WORDS, COUNT_OF(WORDS));
}

/* From 'at' on: the letters of one word, apostrophes left out. */
static struct span word_at(struct span text, size_t *at, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 16);
  for (; *at < text.n; (*at)++) {
    char c = text.p[*at];
    bool apostrophe = c == '\'' || (c == '\xE2' && *at + 2 < text.n && text.p[*at + 1] == '\x80');
    bool within_number = (c == '.' || c == ',') && b.n > 0 && *at + 1 < text.n && text.p[*at + 1] >= '0' &&
                         text.p[*at + 1] <= '9' && text.p[*at - 1] >= '0' && text.p[*at - 1] <= '9';
    if (apostrophe) {
      *at += c == '\'' ? 0 : 2;
      continue;
    }
    if (!is_letter(c) && !within_number) break;
    buf_addc(&b, c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c);
  }
  return buf_span(&b);
}

static void take_apart(struct text *t, struct span text, struct arena *arena) {
  bool brackets = false;
  for (size_t i = 0; i < text.n;) {
    char c = text.p[i];
    if (!is_letter(c)) {
      if (memchr(",;+&/():", c, 8)) t->pieces++;
      brackets = c == '(' || (brackets && c != ')');
      i++;
      continue;
    }
    struct span w = word_at(text, &i, arena);
    if (w.n == 0) {
      i++;
      continue;
    }
    if (is_joint(w)) {
      t->pieces++;
      continue;
    }
    if (t->count == WORDS_MOST || t->pieces > WORDS_MOST) {
      t->cut_short = true;
      return;
    }
    bool number = w.p[0] >= '0' && w.p[0] <= '9';
    t->word[t->count++] = (struct word){w, t->pieces, brackets, number, number, false};
  }
}

/* The words of the phrase, from word 'i' on, within one piece; 0: others stand there. */
static size_t phrase_words(const struct text *t, size_t i, struct span phrase) {
  size_t n = 0;
  for (; phrase.n > 0; n++) {
    struct span word = span_piece(&phrase, ' ');
    if (i + n >= t->count || t->word[i + n].piece != t->word[i].piece || !span_eq(t->word[i + n].at, word)) return 0;
  }
  return n;
}

static void take_row(struct text *t, size_t i, const struct img_uncounted *row) {
  switch ((enum uncounted_as)row->as) {
  case UNCOUNTED_TRIFLE:
    t->trifle = row;
    return;
  case UNCOUNTED_POWDER:
    t->powder = true;
    return;
  case UNCOUNTED_MEASURE:
  case UNCOUNTED_AS_COUNT:
    return;
  case UNCOUNTED_DOSE:
  case UNCOUNTED_SERVING:
  case UNCOUNTED_VAGUE:
  case UNCOUNTED_SNACK:
    break;
  }
  t->piece_named[t->word[i].piece] = true;
  for (size_t k = 0; k < t->named_count; k++)
    if (t->named[k] == row) return;
  if (t->named_count < ROWS_MOST)
    t->named[t->named_count++] = row;
  else
    t->cut_short = true;
}

/* "*stick" of a row: one word that ends so, with more before it, and that is none of those that the row excepts. */
static bool ends_with(const struct text *t, const struct img_uncounted *row, struct span word, struct span phrase) {
  enum { MORE_LEAST = 3 };
  if (phrase.n < 2 || phrase.p[0] != '*') return false;
  phrase = span_cut(phrase, 1, phrase.n);
  if (word.n < phrase.n + MORE_LEAST || !span_eq(span_cut(word, word.n - phrase.n, word.n), phrase)) return false;
  for (struct span words = span_of(lib_str(t->lib, row->unless)); words.n > 0;)
    if (span_eq(span_piece(&words, '|'), word)) return false;
  return true;
}

/* The longest phrase first, and each word once: "vitamin E" is no multivitamin. */
static void find_rows(struct text *t) {
  const struct img_uncounted *rows = IMG_ROWS(&t->lib->image, IMG_UNCOUNTED, struct img_uncounted);
  for (size_t i = 0; i < t->count;) {
    const struct img_uncounted *best = NULL, *ending = NULL;
    size_t most = 0;
    for (size_t r = 0; r < img_count(&t->lib->image, IMG_UNCOUNTED); r++)
      for (struct span words = span_of(lib_str(t->lib, rows[r].words)); words.n > 0;) {
        struct span phrase = span_piece(&words, '|');
        size_t n = phrase_words(t, i, phrase);
        if (n == 0 && !best && ends_with(t, &rows[r], t->word[i].at, phrase)) { /* an exact one goes before it */
          ending = &rows[r];
          continue;
        }
        if (n <= most) continue;
        most = n;
        best = &rows[r];
      }
    if (!best && ending) best = ending, most = 1;
    if (best) take_row(t, i, best);
    for (size_t k = 0; k < most; k++) t->word[i + k].known = true, t->word[i + k].of_phrase = most > 1;
    i += most > 0 ? most : 1;
  }
}

static size_t unknown_words(const struct text *t, int piece) {
  size_t n = 0;
  for (size_t i = 0; i < t->count; i++) n += t->word[i].piece == piece && !t->word[i].known && !t->word[i].in_brackets;
  return n;
}

/* Each part of the text that says anything names a kind. */
static bool is_named_throughout(const struct text *t) {
  for (int p = 0; p <= t->pieces; p++)
    if (unknown_words(t, p) > (t->piece_named[p] ? BESIDE_A_KIND : 0)) return false;
  return t->named_count > 0;
}

static bool is_trifle(const struct text *t) {
  size_t n = 0;
  if (!t->trifle || t->named_count > 0 || t->powder) return false;
  for (int p = 0; p <= t->pieces; p++) n += unknown_words(t, p);
  for (size_t i = 0; i < t->count; i++)
    for (struct span words = span_of(lib_str(t->lib, t->trifle->unless)); words.n > 0;) {
      struct span word = span_piece(&words, '|');
      if (t->word[i].at.n >= word.n && span_eq(span_cut(t->word[i].at, 0, word.n), word)) return false;
    }
  return n > 0 && n <= BESIDE_A_TRIFLE;
}

/* ---- how much of it ---------------------------------------------------------------------------------------------- */

static double number_of(struct span w) {
  static const char *const WORDS[] = {"two", "three", "four"};
  double x = 0;
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (span_is(w, WORDS[i])) return 2 + (double)i;
  return num_parse(w, &x) ? x : 0;
}

/* "2 tablets", "4 caps"; one where no number says more. INFINITY: by the spoon or the gram, or too many to be a number of
 * tablets. */
static double doses_of(const struct text *t) {
  static const char *const PIECE[] = {"tab", "cap", "pill", "softgel", "chew"};
  double most = 1;
  if (t->powder) return (double)INFINITY;
  for (size_t i = 0; i < t->count; i++) {
    bool before_piece = i == 0;
    for (size_t k = 0; k < COUNT_OF(PIECE) && i + 1 < t->count; k++)
      before_piece |= span_starts_fold(t->word[i + 1].at, PIECE[k]);
    if (before_piece && !t->word[i].of_phrase) most = fmax(most, number_of(t->word[i].at));
  }
  return most <= DOSES_MOST ? most : (double)INFINITY;
}

static bool counts(const struct text *t, size_t k) {
  if (t->named[k]->as != UNCOUNTED_VAGUE) return true;
  for (size_t i = 0; i < t->named_count; i++)
    if (t->named[i]->as != UNCOUNTED_VAGUE) return false;
  return true;
}

/* What any row has any amount of, all have. */
static const float *held(const struct text *t, struct arena *arena) {
  float *holds = ARENA_NEW(arena, float, NUT_COUNT);
  double doses = doses_of(t);
  bool any = false;
  for (size_t k = 0; k < t->named_count; k++) {
    if (t->named[k]->as == UNCOUNTED_SNACK || !counts(t, k)) continue;
    bool serving = t->named[k]->as == UNCOUNTED_SERVING;
    any = true;
    for (int n = 0; n < NUT_COUNT; n++) {
      float one = t->named[k]->holds[n];
      bool some = !(one <= 0); /* NaN: any */
      if (some && serving && isfinite(one))
        holds[n] = fmaxf(holds[n], one);
      else if (some)
        holds[n] = isfinite(doses) ? fmaxf(holds[n], one * (float)doses) : NAN;
      if (isnan(one)) holds[n] = NAN;
    }
  }
  return any ? holds : NULL;
}

static const char *name_of(const struct text *t, struct arena *arena) {
  struct buf b;
  size_t told = 0;
  buf_init(&b, arena, 80);
  for (size_t k = 0; k < t->named_count; k++)
    if (counts(t, k)) buf_addf(&b, "%s%s", told++ > 0 ? " and " : "", lib_str(t->lib, t->named[k]->name));
  return buf_text(&b);
}

static const struct img_uncounted *snack_of(const struct library *lib) {
  const struct img_uncounted *rows = IMG_ROWS(&lib->image, IMG_UNCOUNTED, struct img_uncounted);
  for (size_t r = 0; r < img_count(&lib->image, IMG_UNCOUNTED); r++)
    if (rows[r].as == UNCOUNTED_SNACK) return &rows[r];
  return NULL;
}

bool uncounted_kind_of(const struct library *lib, struct span text, struct uncounted_kind *out, struct arena *arena) {
  struct text *t = ARENA_NEW(arena, struct text, 1);
  *out = (struct uncounted_kind){.name = ""};
  t->lib = lib;
  take_apart(t, text, arena);
  if (t->cut_short || t->pieces > WORDS_MOST) return false;
  find_rows(t);
  if (t->cut_short) return false;
  out->few = t->trifle != NULL;
  if (is_trifle(t)) {
    out->name = lib_str(lib, t->trifle->name);
    out->snack = snack_of(lib);
    out->nameless = true;
    return out->snack != NULL;
  }
  if (!is_named_throughout(t)) return false;
  for (size_t k = 0; k < t->named_count; k++)
    if (t->named[k]->as == UNCOUNTED_SNACK) out->snack = t->named[k];
  out->holds = held(t, arena);
  for (size_t k = 0; k < t->named_count; k++) out->vague |= t->named[k]->as == UNCOUNTED_VAGUE && counts(t, k);
  out->name = name_of(t, arena);
  return true;
}
