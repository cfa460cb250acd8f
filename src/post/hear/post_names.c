/* Where a post names a food, whether or not anything is fed by it: the everyday names, and words that begin a record's name.
 */
#include "foods/search_words.h"
#include "post/hear/post_hear.h"

/* ---- the table of everyday names, by their words in any order ---- */

static bool is_everyday_name_anew(struct post_reader *r, struct span words) {
  struct synonyms syn = search_synonyms(&r->lib->image);
  struct search_words typed = search_split(search_fold(&r->lib->image, words, r->arena));
  struct search_words canonical = search_canonical(&syn, &typed);
  return canonical.count > 0 && (search_is_name(r->lib, &canonical) || search_is_name(r->lib, &typed));
}

/* The steps ask for the same words again and again, each in a text of its own. */
enum { NAMES_SEEN = 512, NAME_SEEN_MOST_BYTES = 27, SEEN_NOT_YET = 0, SEEN_NO, SEEN_YES };

struct name_seen {
  char words[NAME_SEEN_MOST_BYTES];
  uint8_t n;
  uint8_t everyday, known; /* is it an everyday name, is it a word of the tables */
};

/* NULL for words too long to be kept. */
static struct name_seen *seen_as(struct name_seen *seen, struct span words) {
  if (words.n == 0 || words.n > NAME_SEEN_MOST_BYTES) return NULL;
  uint32_t hash = post_hash(words);
  struct name_seen *s = &seen[(hash ^ hash >> 16) % NAMES_SEEN];
  if (s->n == words.n && memcmp(s->words, words.p, words.n) == 0) return s;
  *s = (struct name_seen){.n = (uint8_t)words.n};
  memcpy(s->words, words.p, words.n);
  return s;
}

/* ---- a single word that begins a record's name: "couscous" ---- */

/* Words of records and of everyday names that say other things in a post; "tea" is a meal. */

/* "Couscous, dry" begins with couscous; "Fish, tilapia, raw" with tilapia. */
static struct span head_of(struct span name) {
  for (;;) {
    const char *comma = memchr(name.p, ',', name.n);
    struct span head = span_cut(name, 0, comma ? (size_t)(comma - name.p) : name.n);
    if (!comma || !is_a(head, CLASS_GROUP_OF_RECORDS)) return head;
    name = span_trim(span_cut(name, head.n + 1, name.n));
  }
}

static bool same_words(struct post_reader *r, struct span a, struct span b) {
  struct synonyms syn = search_synonyms(&r->lib->image);
  struct search_words x = search_split(search_fold(&r->lib->image, a, r->arena));
  struct search_words y = search_split(search_fold(&r->lib->image, b, r->arena));
  x = search_canonical(&syn, &x), y = search_canonical(&syn, &y);
  return x.count > 0 && x.count == y.count && search_sum(&x) == search_sum(&y);
}

static bool begins_a_record(struct post_reader *r, struct span word) {
  struct search_hit hit;
  struct span folded = search_fold(&r->lib->image, word, r->arena);
  if (folded.n < 3 || memchr(folded.p, ' ', folded.n) || !search_token(&r->lib->image, folded)) return false;
  if (!post_look_up(r, word, &hit) || hit.words_missed > 0 || hit.score < 0.6) return false;
  if (hit.exact_name) return true;
  struct span name = span_of(library_name(r->lib, hit.food)); /* "Couscous, dry", and not "Mother's loaf, pork" */
  return same_words(r, head_of(name), word);
}

/* "Pepper gets 200 g", "our dog Ginger": a capital within a sentence, or who eats. */
static bool is_a_name(const struct tokens *t, size_t at, bool shouts) {
  enum species s;
  if (says_a(t, at + 1, CLASS_BEHIND_OWN_NAME) && at == 0) return true;
  if (at > 0 && is_word(t, at - 1) && (token_is_animal(&t->item[at - 1], &s) || says(t, at - 1, "called named")))
    return true;
  bool capital = t->item[at].at.p[0] >= 'A' && t->item[at].at.p[0] <= 'Z';
  bool small_next = t->item[at].at.n > 1 && t->item[at].at.p[1] >= 'a' && t->item[at].at.p[1] <= 'z';
  return capital && small_next && !shouts && at > 0 && is_word(t, at - 1) && !is_number(t, at - 1) &&
         says_a(t, at + 1, CLASS_BEHIND_OWN_NAME_WITHIN);
}

/* "Olive", of a cat that is called so; not where an amount stands beside it. */
bool post_is_own_name(const struct post_reader *r, const struct tokens *t, size_t at) {
  if (r->own_name.n == 0 || !is_word(t, at)) return false;
  struct span w = t->item[at].at;
  if (w.n == r->own_name.n + 2 && w.p[w.n - 1] == 's') w.n -= 2; /* "Olive's" */
  bool eats =
      says_a(t, at + 1, CLASS_EATER_VERB) || says(t, at + 1, "is loves likes hates won't"); /* "every day moose gets" */
  if (!(eats ? span_eq_fold(w, r->own_name) : span_eq(w, r->own_name)) || is_number(t, at + 1)) return false;
  return at == 0 || !(is_number(t, at - 1) || says_a(t, at - 1, CLASS_UNIT) || says(t, at - 1, "of fresh dried"));
}

/* ---- what was found at a place of the text before: the steps ask again and again ---- */

enum { PLACES = 1024, FOUND_NOT_YET = 255 };

struct place {
  const char *word;
  uint32_t hash;   /* of the word: memory is used again */
  uint8_t mention; /* tokens; FOUND_NOT_YET */
};
struct places {
  struct place at[PLACES];
  struct name_seen seen[NAMES_SEEN];
};

struct places *post_places(struct arena *arena) {
  return ARENA_NEW(arena, struct places, 1);
}

static struct place *place_of(struct post_reader *r, const struct token *k) {
  struct place *p = &r->places->at[((uintptr_t)k->at.p ^ ((uintptr_t)k->at.p >> 12)) % PLACES];
  uint32_t hash = post_hash(k->word);
  if (p->word != k->at.p || p->hash != hash) *p = (struct place){k->at.p, hash, FOUND_NOT_YET};
  return p;
}

static bool is_everyday_name(struct post_reader *r, struct span words) {
  struct name_seen *s = seen_as(r->places->seen, words);
  if (!s) return is_everyday_name_anew(r, words);
  if (s->everyday == SEEN_NOT_YET) s->everyday = is_everyday_name_anew(r, words) ? SEEN_YES : SEEN_NO;
  return s->everyday == SEEN_YES;
}

bool post_names_both(struct post_reader *r, const struct tokens *t, size_t at) {
  return is_word(t, at) && is_word(t, at + 1) && is_everyday_name(r, tokens_span(t, at, 2));
}

static bool is_known_anew(struct post_reader *r, struct span word) {
  struct span folded = search_fold(&r->lib->image, word, r->arena);
  bool one = folded.n > 0 && !memchr(folded.p, ' ', folded.n);
  return !one || search_token(&r->lib->image, folded);
}

/* A name of the tables holds no word that is in none of them. */
static bool is_known(struct post_reader *r, const struct token *k) {
  struct name_seen *s = seen_as(r->places->seen, k->at);
  if (!s) return is_known_anew(r, k->at);
  if (s->known == SEEN_NOT_YET) s->known = is_known_anew(r, k->at) ? SEEN_YES : SEEN_NO;
  return s->known == SEEN_YES;
}

bool post_is_settled(struct post_reader *r, const struct token *k) {
  return k->kind == TOKEN_WORD && is_known(r, k) && !is_a(k->word, CLASS_NO_MENTION);
}

/* "sweetcorn" is no word of the tables, and "sweet corn" is a name. */
static bool is_name_by_other_words(struct post_reader *r, struct span word) {
  struct synonyms syn = search_synonyms(&r->lib->image);
  struct search_words typed = search_split(search_fold(&r->lib->image, word, r->arena));
  struct search_words meant = search_canonical(&syn, &typed);
  return typed.count == 1 && meant.count > 1 && search_is_name(r->lib, &meant);
}

static size_t mention_at(struct post_reader *r, const struct tokens *t, size_t at) {
  enum { MOST_WORDS = 3 };
  struct span first = t->item[at].word;
  enum species s;
  if (!is_known(r, &t->item[at])) {
    if (first.n < 5 || token_is_a(&t->item[at], CLASS_MEAL) || token_is_animal(&t->item[at], &s)) return 0;
    return is_name_by_other_words(r, first) ||
                   (is_everyday_name(r, first) && !is_a(first, CLASS_NO_MENTION) && !is_a_name(t, at, false))
               ? 1
               : 0;
  }
  size_t most = 1;
  while (most < MOST_WORDS && is_word(t, at + most) && !token_is_a(&t->item[at + most], CLASS_CHATTER) &&
         is_known(r, &t->item[at + most]))
    most++;
  for (size_t n = most; n > 0; n--) {
    if (n == 1 && (is_a(first, CLASS_NO_MENTION) || is_a_name(t, at, false))) return 0;
    if (is_everyday_name(r, tokens_span(t, at, n))) return n;
  }
  if (token_is_a(&t->item[at], CLASS_MEAL) || token_is_animal(&t->item[at], &s) || first.n < 4) return 0;
  return begins_a_record(r, first) ? 1 : 0;
}

size_t post_mention_at(struct post_reader *r, const struct tokens *t, size_t at) {
  if (!is_word(t, at) || post_is_own_name(r, t, at)) return 0;
  struct span first = t->item[at].word;
  struct token *k = &t->item[at];
  if (first.n < 3 || token_is_a(k, CLASS_CHATTER) || token_is_a(k, CLASS_VAGUE_AMOUNT)) return 0;
  if (at > 0 && token_is_a(k, CLASS_COOKING_VERB_OF_US) && says(t, at - 1, "i we")) return 0; /* "I chuck in 60 g" */
  if (says(t, at + 1, "sized size")) return 0;                                                /* "pea sized" */
  struct place *p = place_of(r, &t->item[at]);
  if (p->mention != FOUND_NOT_YET && at + p->mention <= t->count) return p->mention;
  size_t n = mention_at(r, t, at);
  place_of(r, &t->item[at])->mention = (uint8_t)n;
  return n;
}
