/* What stands in a piece of a sentence: words that may name a food, how often it is fed, the first amount. */
#include "base/num.h"
#include "foods/search_words.h"
#include "post/hear/post_hear.h"

/* ---- what words are left once the reader of recipes has taken its own ---- */

static void take_frequencies(struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used = t->item[i].taken ? 0 : frequency_at(t, i).tokens;
    take(t, i, used);
    i += used > 0 ? used - 1 : 0;
  }
}

/* Words of [from, to) that may name a food: no amount, no frequency, no qualifier, no chatter. */
static size_t count_content(struct post_reader *r, struct span text) {
  struct recipe_line line = {.state = STATE_UNSTATED, .broth = -1, .wish = SEARCH_WISH_NONE};
  struct diags d;
  diags_init(&d, r->arena, "", text);
  struct line_reader reader = {.out = &line, .d = &d, .arena = r->arena, .text = text, .t = post_tokens(r, text)};
  take_frequencies(&reader.t);
  read_qualifiers(&reader);
  size_t n = 0;
  for (size_t i = 0; i < reader.t.count; i++) {
    if (reader.t.item[i].taken) continue;
    struct post_amount a = post_amount_at(&reader.t, i);
    if (a.tokens > 0 && !a.bare) {
      i += a.tokens - 1;
      continue;
    }
    if (reader.t.item[i].kind != TOKEN_WORD) continue;
    struct token *k = &reader.t.item[i];
    size_t used = 0;
    if (k->word.n <= 1 || token_is_a(k, CLASS_CHATTER) || token_is_a(k, CLASS_CLAUSE_OPENER) ||
        token_is_a(k, CLASS_VAGUE_AMOUNT) || token_is_a(k, CLASS_MEAL))
      continue;
    n += !(unit_at_token(&reader.t, i, &used) != UNIT_NONE && used > 0);
  }
  return n;
}

/* It depends on the text alone, and is asked for again and again. */
size_t content_words(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  if (from >= to) return 0;
  struct span text = tokens_span(t, from, to - from);
  struct counted_words *slot = &r->counted_words[post_hash(text) % LOOKED_UP_SLOTS];
  if (text.n == 0) return 0;
  if (!span_eq(slot->text, text)) {
    slot->text = span_of(arena_text(r->keep, text));
    slot->count = count_content(r, text);
  }
  return slot->count;
}

/* The first frequency that stands in [from, to), as written, one that names a meal or days before others; "". */
const char *post_often_in(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  struct tokens part = {t->item + from, to - from};
  bool told = false;
  for (size_t i = 0; from < to && i < part.count; i++) {
    struct frequency f = part.item[i].taken ? (struct frequency){0} : frequency_at(&part, i);
    told = told || f.each_meal || f.days != 0;
  }
  for (size_t i = 0; from < to && i < part.count; i++) {
    struct frequency f = part.item[i].taken ? (struct frequency){0} : frequency_at(&part, i);
    if (f.tokens == 0 || (told && !f.each_meal && f.days == 0)) continue;
    char *often = arena_text(r->arena, tokens_span(&part, i, f.tokens));
    if (token_is_a(&part.item[i], CLASS_BEGINS_OFTEN)) often[0] |= 0x20; /* "Each day" */
    return often;
  }
  return "";
}

/* ---- amounts of a segment ---- */

static bool one_of_a_food(struct post_reader *r, const struct tokens *t, size_t at, size_t to) {
  while (at < to && says(t, at, "of a an the")) at++;                                           /* "one half of an apple" */
  if (t->count <= 6 && at < to && is_word(t, at) && !token_is_a(&t->item[at], CLASS_CHATTER)) { /* "half an avocado" */
    struct search_hit hit;
    if (post_look_up(r, t->item[at].at, &hit) && hit.words_missed == 0 && hit.score >= 0.6) return true;
  }
  for (size_t k = at + 1; k < to && k <= at + 3 && is_word(t, k - 1); k++) /* "a fish oil capsule" */
    if (says(t, k, "capsule tablet softgel") && post_names_food(r, t, at, k)) return true;
  if (at + 1 < to && is_word(t, at) && is_word(t, at + 1)) { /* "a duck foot", of which no table has a record */
    struct span piece = tokens_span(t, at, 2);
    if (post_names_animal(piece, r->arena) && text_holds(piece, CLASS_PART_OF_BODY)) return true;
  }
  for (size_t n = 3; n > 0; n--) {
    if (at + n > to || !is_word(t, at) || token_is_a(&t->item[at], CLASS_CHATTER)) continue;
    struct buf b;
    struct search_hit hit;
    if (!post_look_up(r, tokens_span(t, at, n), &hit) || hit.words_missed > 0) continue;
    buf_init(&b, r->arena, 300);
    buf_addf(&b, "1 %.*s", SPAN_ARG(tokens_span(t, at, n)));
    const char *assumed;
    if (strict_takes(r, buf_text(&b), &assumed, NULL)) return true;
  }
  return false;
}

/* Is there the everyday name of a food in [from, to)? */
bool post_names_food(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  struct tokens part = {t->item, to}; /* the cheap look first; the search for what it does not settle */
  for (size_t i = from; i < to; i++)
    if (post_mention_at(r, &part, i) > 0) return true;
  for (size_t i = from; i < to; i++)
    for (size_t n = 1; n <= 3 && i + n <= to; n++) {
      struct search_hit hit;
      if (!is_word(t, i) || token_is_a(&t->item[i], CLASS_CHATTER) || token_is_a(&t->item[i], CLASS_MEAL) ||
          t->item[i].word.n < 3)
        continue;
      if (n == 1 ? post_is_settled(r, &t->item[i]) : post_is_settled(r, &t->item[i + n - 1])) continue;
      if (post_look_up_name(r, tokens_span(t, i, n), &hit) && hit.words_missed == 0) return true;
    }
  return false;
}

/* Is there a word that some food's name has? */
bool post_knows_a_word(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++) {
    if (!is_word(t, i) || token_is_a(&t->item[i], CLASS_CHATTER) || token_is_a(&t->item[i], CLASS_MEAL) ||
        t->item[i].word.n < 3)
      continue;
    if (search_token(&r->lib->image, search_fold(&r->lib->image, spelled_out(t->item[i].word), r->arena))) return true;
  }
  return false;
}

/* A percentage behind a mince, and its weight right behind that. */
static bool is_fat_of_mince(const struct tokens *t, size_t from, size_t at, size_t to) {
  bool minced = false;
  for (size_t i = from; i < at; i++) minced = minced || says(t, i, "mince minced ground burger");
  size_t behind = at + 2;
  if (!minced || !is_number(t, at) || !is_mark(t, at + 1, '%') || t->item[at].value > 35) return false;
  while (is_mark(t, behind, ',') || is_mark(t, behind, '(') || is_mark(t, behind, '-') || is_mark(t, behind, ':')) behind++;
  (void)to;
  return post_amount_at(t, behind).is_mass;
}

static bool mass_follows(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (post_amount_at(t, i).is_mass) return true;
  return false;
}

/* The first amount of [from, to); t->count when there is none. */
size_t post_find_amount(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct post_amount *out) {
  size_t number = t->count;
  struct post_amount bare = {0};
  for (size_t i = from; i < to; i++) {
    if (t->item[i].taken) continue;
    size_t skip = not_an_amount(t, i);
    if (skip > 0) {
      i += skip - 1;
      continue;
    }
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0 || i + a.tokens > to) continue;
    if (a.bare && a.by_word && !one_of_a_food(r, t, i + a.tokens, to) &&
        !(a.low >= 2 && post_names_food(r, t, i + a.tokens, to)))
      continue;
    if (is_fat_of_mince(t, from, i, to)) { /* "minced lamb 20%, 250 g" */
      i += a.tokens - 1;
      continue;
    }
    if (a.is_percent && mass_follows(t, i + a.tokens, to)) { /* "beef mince 15% - 150 g": its fat */
      i += a.tokens - 1;
      continue;
    }
    if (!a.bare) {
      *out = a;
      return i;
    }
    if (number == t->count) {
      number = i;
      bare = a;
    }
    i += a.tokens - 1;
  }
  *out = bare;
  return number;
}
