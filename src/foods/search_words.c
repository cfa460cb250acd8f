#include "foods/search_words.h"

#include "base/num.h"

void search_words_add(struct search_words *w, struct span text, double quality) {
  if (w->count < SEARCH_MOST_WORDS && text.n > 0) w->at[w->count++] = (struct search_word){text, quality, false};
}

struct search_words search_split(struct span folded) {
  struct search_words w = {.count = 0};
  for (size_t from = 0, at = 0; folded.n > 0 && at <= folded.n; at++)
    if (at == folded.n || folded.p[at] == ' ') {
      search_words_add(&w, span_cut(folded, from, at), 1);
      from = at + 1;
    }
  return w;
}

/* ---- synonyms -------------------------------------------------------------------------------------------------------- */

struct synonyms search_synonyms(const struct image *img) {
  return (struct synonyms){IMG_ROWS(img, IMG_SYNONYMS, struct img_synonym), img_count(img, IMG_SYNONYMS), img->strings};
}

/* The words from..from+n-1 with blanks between, against NUL-terminated text: <0, 0, >0 like strcmp. */
static int compare_words(const struct search_words *w, size_t from, size_t n, const char *text) {
  for (size_t i = 0; i < n; i++) {
    struct span word = w->at[from + i].text;
    if (i > 0 && *text++ != ' ') return text[-1] < ' ' ? 1 : -1;
    int order = strncmp(word.p, text, word.n);
    if (order != 0) return order;
    text += word.n;
  }
  return *text ? -1 : 0;
}

static const struct img_synonym *find_synonym(const struct synonyms *s, const struct search_words *w, size_t from,
                                              size_t n) {
  size_t low = 0, high = s->count;
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    int order = compare_words(w, from, n, s->strings + s->row[middle].from);
    if (order == 0) return &s->row[middle];
    if (order < 0)
      high = middle;
    else
      low = middle + 1;
  }
  return NULL;
}

struct search_words search_canonical(const struct synonyms *syn, const struct search_words *in) {
  struct search_words out = {.count = 0};
  for (size_t i = 0; i < in->count;) {
    const struct img_synonym *hit = NULL;
    size_t n = in->count - i < SYNONYM_MOST_WORDS ? in->count - i : SYNONYM_MOST_WORDS;
    while (n > 0 && !(hit = find_synonym(syn, in, i, n))) n--;
    if (hit) {
      struct search_words to = search_split(span_of(syn->strings + hit->to));
      for (size_t k = 0; k < to.count; k++) search_words_add(&out, to.at[k].text, in->at[i].quality);
      i += n;
    } else {
      if (out.count < SEARCH_MOST_WORDS) out.at[out.count++] = in->at[i];
      i++;
    }
  }
  return out;
}

/* ---- wishes ---------------------------------------------------------------------------------------------------------- */

enum wish_field { WISH_STATE, WISH_SKIN, WISH_BONE, WISH_LEAN, WISH_DRAINED };

/* What the words around a food's name say, as the synonyms leave them (data/synonyms.tsv joins "skin on", "with skin" and
 * "meat and skin" into one word). Longer phrases come before the shorter ones that they begin with. */
static const struct wish_phrase {
  const char *words;
  enum wish_field field;
  int value;
} WISH_PHRASE[] = {
    {"skinon", WISH_SKIN, 1},
    {"skinless", WISH_SKIN, 0},
    {"meatonly", WISH_SKIN, 0},
    {"bonein", WISH_BONE, 1},
    {"boneless", WISH_BONE, 0},
    {"leanonly", WISH_LEAN, 1},
    {"lean", WISH_LEAN, 1},
    {"drained", WISH_DRAINED, 1},
    {"raw", WISH_STATE, STATE_RAW},
    {"freezedried", WISH_STATE, STATE_FREEZE_DRIED},
    {"dry roasted", WISH_STATE, STATE_ROASTED},
    {"dried", WISH_STATE, STATE_DRIED},
    {"dry", WISH_STATE, STATE_DRIED},
    {"hardboiled", WISH_STATE, STATE_BOILED},
    {"boiled", WISH_STATE, STATE_BOILED},
    {"simmered", WISH_STATE, STATE_SIMMERED},
    {"stewed", WISH_STATE, STATE_SIMMERED},
    {"braised", WISH_STATE, STATE_SIMMERED},
    {"poached", WISH_STATE, STATE_SIMMERED},
    {"baked", WISH_STATE, STATE_BAKED},
    {"roasted", WISH_STATE, STATE_ROASTED},
    {"panfried", WISH_STATE, STATE_PAN_FRIED},
    {"pan browned", WISH_STATE, STATE_PAN_FRIED},
    {"fried", WISH_STATE, STATE_PAN_FRIED},
    {"pressure cooked", WISH_STATE, STATE_PRESSURE_COOKED},
    {"steamed", WISH_STATE, STATE_STEAMED},
    {"grilled", WISH_STATE, STATE_GRILLED},
    {"microwaved", WISH_STATE, STATE_MICROWAVED},
    {"canned", WISH_STATE, STATE_CANNED},
    {"cooked", WISH_STATE, STATE_COOKED_OTHER},
};

static void fill_wish(struct search_wish *wish, const struct wish_phrase *said) {
  switch (said->field) {
  case WISH_STATE:
    /* "cooked, boiled": the method says more than the general word, wherever it stands. */
    if (wish->state == STATE_UNSTATED || wish->state == STATE_COOKED_OTHER) wish->state = (enum state)said->value;
    break;
  case WISH_SKIN:
    if (wish->skin < 0) wish->skin = (int8_t)said->value;
    break;
  case WISH_BONE:
    if (wish->bone_in < 0) wish->bone_in = (int8_t)said->value;
    break;
  case WISH_LEAN:
    wish->lean = true;
    break;
  case WISH_DRAINED:
    wish->drained = true;
    break;
  }
}

/* How many words the phrase takes at 'at': 0 when it does not stand there. */
static size_t phrase_length(const struct search_words *w, size_t at, const char *phrase) {
  size_t n = 1;
  if (w->at[at].text.p[0] != phrase[0]) return 0;
  for (const char *p = phrase; *p; p++) n += *p == ' ';
  return at + n <= w->count && compare_words(w, at, n, phrase) == 0 ? n : 0;
}

static bool has_word(const struct search_words *w, const char *word) {
  for (size_t i = 0; i < w->count; i++)
    if (span_is(w->at[i].text, word)) return true;
  return false;
}

/* "90%" -> 90; false for anything else. */
static bool percent_of(struct span word, double *percent) {
  size_t n = num_read(word, percent);
  return n > 0 && n + 1 == word.n && word.p[n] == '%' && *percent <= 100;
}

/* "90/10": two parts of a hundred. */
static bool parts_of_hundred(struct span word, double *first) {
  double second = 0;
  size_t n = num_read(word, first);
  if (n == 0 || n >= word.n || word.p[n] != '/') return false;
  struct span rest = span_cut(word, n + 1, word.n);
  return num_read(rest, &second) == rest.n && rest.n > 0 && *first + second == 100;
}

/* "90/10", "90% lean", "lean 90%", "10% fat" of a mince: words taken, or 0. */
static size_t take_lean_percent(const struct search_words *w, size_t at, double *percent) {
  if (parts_of_hundred(w->at[at].text, percent)) return 1;
  bool two = at + 1 < w->count;
  if (two && span_is(w->at[at].text, "lean") && percent_of(w->at[at + 1].text, percent)) return 2;
  if (!two || !percent_of(w->at[at].text, percent)) return 0;
  if (span_is(w->at[at + 1].text, "lean")) return 2;
  if (!span_is(w->at[at + 1].text, "fat") || !has_word(w, "ground")) return 0;
  *percent = 100 - *percent;
  return 2;
}

struct search_words search_take_wishes(const struct search_words *in, struct search_wish *wish) {
  struct search_words rest = {.count = 0};
  for (size_t at = 0; at < in->count;) {
    double percent = 0;
    size_t taken = take_lean_percent(in, at, &percent);
    if (taken > 0 && !(wish->lean_percent >= 0)) wish->lean_percent = percent;
    for (size_t i = 0; taken == 0 && i < COUNT_OF(WISH_PHRASE); i++)
      if ((taken = phrase_length(in, at, WISH_PHRASE[i].words)) > 0) fill_wish(wish, &WISH_PHRASE[i]);
    if (taken == 0 && rest.count < SEARCH_MOST_WORDS) rest.at[rest.count++] = in->at[at];
    at += taken > 0 ? taken : 1;
  }
  return rest;
}

struct search_words search_without_cut(const struct search_words *in) {
  struct search_words out = {.count = 0};
  for (size_t i = 0; i < in->count; i++) {
    const struct wish_phrase *said = NULL;
    for (size_t k = 0; k < COUNT_OF(WISH_PHRASE) && !said; k++)
      if (span_is(in->at[i].text, WISH_PHRASE[k].words)) said = &WISH_PHRASE[k];
    if (!said || (said->field == WISH_STATE && said->value != STATE_RAW)) out.at[out.count++] = in->at[i];
  }
  return out;
}
