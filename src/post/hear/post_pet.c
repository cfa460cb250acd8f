/* The names of animals, and which of several a post asks about. */
#include "post/hear/post_hear.h"

/* A word with a capital that may be a name, be it that of a food ("Bean", "Biscuit"); "Ted's" is Ted; "". */
static struct span any_name(const struct tokens *t, size_t at) {
  struct span none = {"", 0};
  enum species s;
  if (at >= t->count || t->item[at].kind != TOKEN_WORD || t->item[at].at.n < 2) return none;
  struct span name = t->item[at].at, word = t->item[at].word;
  if (name.p[0] < 'A' || name.p[0] > 'Z') return none;
  if (word.n > 3 && span_is(span_cut(word, word.n - 2, word.n), "'s")) { /* one letter or three in the text */
    size_t mark = name.n - 1;
    while (mark > 0 && (post_is_letter(name.p[mark]) == false || mark == name.n - 1)) mark--;
    name = span_cut(name, 0, mark + 1);
    word = span_cut(word, 0, word.n - 2);
  }
  struct token k = {.kind = TOKEN_WORD, .word = word}; /* looked up once */
  bool other = token_is_a(&k, CLASS_CHATTER) || token_is_animal(&k, &s) || token_is_a(&k, CLASS_CLAUSE_OPENER) ||
               token_is_a(&k, CLASS_MEAL) || token_is_a(&k, CLASS_ADVICE_GIVER) || token_is_a(&k, CLASS_MONTH_NAME) ||
               token_is_a(&k, CLASS_NO_PET_NAME);
  const char *number;
  other = other || meaning_at(t, at, CLASS_DAY_OF_WEEK, &number) > 0; /* "Thu: same as Mon" */
  return other || frequency_at(t, at).tokens > 0 ? none : name;
}

struct span post_pet_name(struct post_reader *r, const struct tokens *t, size_t at) {
  struct span name = any_name(t, at);
  return name.n > 0 && post_mention_at(r, t, at) == 0 ? name : (struct span){"", 0};
}

/* "the little one", "the smaller dog": one of several without a name; how many tokens, as 'of' it is called. */
static size_t one_of_them(const struct tokens *t, size_t at, struct span *of) {
  const char *called;
  size_t used = meaning_at(t, at, CLASS_ONE_OF_THEM, &called);
  if (used > 0) *of = span_of(called);
  return used;
}

struct span post_one_named(struct post_reader *r, const struct tokens *t, size_t at, size_t *used) {
  struct span name = {"", 0};
  *used = one_of_them(t, at, &name);
  if (*used > 0) return name;
  *used = 1;
  return post_pet_name(r, t, at);
}

struct span post_one_before(const struct tokens *t, size_t at) {
  enum { FAR = 6 };
  struct span name = {"", 0};
  while (at > 0 && (says(t, at - 1, "is weighs about around at who's which's") || is_mark(t, at - 1, '(') ||
                    is_mark(t, at - 1, ',') || is_mark(t, at - 1, ':')))
    at--;
  for (size_t i = at > FAR ? at - FAR : 0; i < at; i++)
    if (i + one_of_them(t, i, &name) == at && name.n > 0) return name;
  return (struct span){"", 0};
}

bool post_same_name(struct span a, struct span b) { /* "Bet", "Betty" */
  size_t n = a.n < b.n ? a.n : b.n;
  return n >= 2 && (a.n == b.n || n >= 3) && span_eq_fold(span_cut(a, 0, n), span_cut(b, 0, n));
}

/* ---- which one is asked about ---- */

static void asks_about(struct post_reader *r, struct span name) { r->asked_about = arena_span(r->keep, name); }

/* "It's Wren I need help with", "it's Ted's coat that worries me" */
static bool stressed_name(struct post_reader *r, const struct tokens *t, size_t at, struct span *name) {
  size_t of = says(t, at, "it's its") ? at + 1 : says(t, at, "it") && says(t, at + 1, "is") ? at + 2 : t->count;
  if (says(t, of, "only just mainly really")) of++;
  while (says(t, of, "the my our little old big young wee poor")) of++;
  size_t first = says(t, at, "it's its") ? at + 1 : at + 2, used = 0;
  if (of >= t->count) return false;
  if (says(t, first, "the my our")) first++;
  *name = post_one_named(r, t, first, &used);
  if (name->n == 0) *name = post_pet_name(r, t, of);
  return name->n > 0 && holds_a(t, of + 1, t->count, CLASS_WORRYING);
}

void post_hear_who(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_ASKED_ABOUT), at = i + used;
    struct span name = {"", 0};
    if (used > 0) one_of_them(t, says(t, at, "the my our") ? at + 1 : at, &name);
    while (used > 0 && at < i + used + 3 && says(t, at, "the my our little old big young wee poor")) at++;
    if (used > 0 && name.n == 0) name = any_name(t, at);
    size_t one = one_of_them(t, i, &name);
    if (one > 0 && phrase_of(t, i + one, CLASS_IS_ASKED_ABOUT) == 0 && used == 0) name = (struct span){"", 0};
    if (name.n == 0 && phrase_of(t, i + 1, CLASS_IS_ASKED_ABOUT) > 0) name = any_name(t, i);
    if (name.n > 0 || stressed_name(r, t, i, &name)) asks_about(r, name);
  }
}

/* How many animals a sentence names with their weights: "Rex 30kg, Nell 15kg and Pip 5kg." */
size_t post_roster(struct post_reader *r, const struct tokens *t) {
  size_t count = 0, sure = 0; /* "Moss" and "Bess" are no foods beside "Rex" */
  for (size_t i = 0; i + 1 < t->count; i++) {
    if (post_pet_name(r, t, i).n == 0) continue;
    size_t at = i + 1;
    if (is_mark(t, at, '(') || is_mark(t, at, ',') || is_mark(t, at, ':') || is_mark(t, at, '-') || is_mark(t, at, '='))
      at++;
    if (says(t, at, "is at weighs")) at++;
    struct post_amount a = post_amount_at(t, at);
    bool body = a.is_mass && (strcmp(a.unit, "kg") == 0 || strcmp(a.unit, "lb") == 0);
    size_t end = at + a.tokens;
    double years; /* "Rex 30kg 5yrs, Nell 15kg 9yrs" */
    if (body) end += post_age_at(t, end, &years);
    bool ends =
        end >= t->count || t->item[end].kind == TOKEN_MARK || says(t, end, "and n is") || says_a(t, end, CLASS_EATER_VERB);
    double part;
    ends = ends || post_part_at(t, end, &part) > 0; /* "and Rolo 18 kg two thirds" */
    struct search_hit hit;
    if (!body || !ends) continue;
    count++;
    sure += !(post_look_up_name(r, t->item[i].at, &hit) && hit.words_missed == 0 && hit.score >= 1);
  }
  return 2 * sure >= count ? count : 0;
}
