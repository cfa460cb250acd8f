/* The names of animals, and which of several a post asks about. */
#include "post/post_item.h"

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
  bool other = is_chatter(word) || is_animal_word(word, &s) || begins_clause(word) || is_meal_word(word) ||
               is_a(word, CLASS_ADVICE_GIVER) || is_a(word, CLASS_MONTH_NAME) || is_a(word, CLASS_NO_PET_NAME);
  return other || frequency_at(t, at).tokens > 0 ? none : name;
}

struct span post_pet_name(struct post_reader *r, const struct tokens *t, size_t at) {
  struct span name = any_name(t, at);
  return name.n > 0 && post_mention_at(r, t, at) == 0 ? name : (struct span){"", 0};
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
  if (of >= t->count) return false;
  *name = post_pet_name(r, t, of);
  return name->n > 0 && holds_a(t, of + 1, t->count, CLASS_WORRYING);
}

void post_hear_who(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_ASKED_ABOUT), at = i + used;
    while (used > 0 && at < i + used + 3 && says(t, at, "the my our little old big young wee poor")) at++;
    struct span name = used > 0 ? any_name(t, at) : (struct span){"", 0};
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
    bool ends = end >= t->count || t->item[end].kind == TOKEN_MARK || says(t, end, "and n");
    struct search_hit hit;
    if (!body || !ends) continue;
    count++;
    sure += !(post_look_up(r, t->item[i].at, &hit) && hit.exact_name && hit.words_missed == 0 && hit.score >= 1);
  }
  return 2 * sure >= count ? count : 0;
}
