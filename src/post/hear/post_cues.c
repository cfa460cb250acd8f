/* What a sentence tells that is not fed: the past, advice, plans, refusals, another animal's bowl. */
#include "post/hear/post_hear.h"

const char NOT_FED_PAST[] = "about the past", NOT_FED_ADVICE[] = "advice or an idea, not what is fed",
           NOT_FED_HEARSAY[] = "somebody's advice, not what is fed";

/* ---- somebody's advice ---- */

/* "My mum's dog lives on 400 g of chicken necks": not the one that is asked about. */
static bool anothers_animal(const struct tokens *t, size_t *at) {
  for (size_t i = 1; i < t->count; i++) {
    struct span owner = t->item[i - 1].word;
    if (!is_word(t, i - 1) || owner.n < 4 || !says(t, i, "dog dogs cat cats puppy kitten")) continue;
    if (owner.p[owner.n - 2] != '\'' || !is_a(span_cut(owner, 0, owner.n - 2), CLASS_ADVICE_GIVER)) continue;
    *at = i - 1;
    return true;
  }
  return false;
}

/* "My neighbour says a little garlic is fine", "my sister swears by peanut butter", "puts lentils in hers". */
static bool is_hearsay(const struct tokens *t, size_t *at) {
  for (size_t i = 0; i < t->count; i++) {
    bool says_so = says_a(t, i, CLASS_HEARSAY_VERB);
    bool does = says(t, i, "puts adds gives feeds uses");
    for (size_t k = i + 1; does && k < t->count && k < i + 6; k++)
      if (says(t, k, "hers theirs")) says_so = true; /* that is another animal */
    if (!says_so) continue;
    if (i > 0 && says(t, i - 1, "some others they many most folk folks lots") && !says(t, i, "thinks says") &&
        !(i > 1 && says(t, i - 2, "as like what than"))) {
      *at = i - 1; /* "some say rabbit is too lean" */
      return true;
    }
    for (size_t back = 1; back <= 3 && back <= i; back++)
      if (says_a(t, i - back, CLASS_ADVICE_GIVER)) {
        *at = i - back;
        return true;
      }
  }
  return false;
}

/* "as recommended by my vet", "the recommended dose": what is fed follows the advice. */
static bool is_followed(const struct tokens *t, size_t at) {
  if (!says_a(t, at, CLASS_RECOMMENDING)) return false;
  return (at > 0 && says(t, at - 1, "as the per than what")) || (at > 1 && says(t, at - 2, "as per what")) ||
         says(t, at + 1, "dose amount dosage daily serving");
}

/* ---- phrases ---- */

/* "v2 had 80 g of lentils": another version. */
static bool is_old_version(const struct tokens *t, size_t at) {
  if (!is_word(t, at) || t->item[at].word.n != 2 || t->item[at].word.p[0] != 'v') return false;
  return says(t, at + 1, "had was contained");
}

const char *not_fed(const struct tokens *t) {
  size_t at;
  return not_fed_at(t, &at);
}

/* "Removed in v3: kale 30 g", "Planned: mackerel": a heading of its own. */
static const char *not_fed_heading(const struct tokens *t) {
  for (size_t i = 1; i < t->count && i < 7; i++) {
    if (!is_mark(t, i, ':')) continue;
    for (size_t k = 0; k < i; k++) {
      if (phrase_of(t, k, CLASS_HEADING_OF_PAST) > 0) return NOT_FED_PAST;
      if (says_a(t, k, CLASS_HEADING_OF_PLANS)) return NOT_FED_ADVICE;
      if (says(t, k, "not") && says(t, k + 1, "much a very")) continue; /* "Not much to it: ..." */
      bool of_a_cut = k > 0 && says(t, k, "without no not");            /* "chicken thigh without skin, raw: 90 g" */
      if (!of_a_cut && says_a(t, k, CLASS_HEADING_OF_REFUSALS)) return "said not to be given";
    }
  }
  return NULL;
}

/* "Is 180 g of meat too little?", "is 150 g of pork enough protein?": one amount, and it is asked about. */
static bool asks_of_amount(const struct tokens *t) {
  size_t amounts = 0;
  bool too = false;
  if (t->count < 4 || !is_mark(t, t->count - 1, '?') || !says(t, 0, "is are isn't isnt so")) return false;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    amounts += a.tokens > 0 && !a.by_word;
    too = too || says(t, i, "enough") || (says(t, i, "too") && says(t, i + 1, "much little many high low few"));
    i += a.tokens > 0 ? a.tokens - 1 : 0;
  }
  return too && amounts == 1;
}

const char *not_fed_at(const struct tokens *t, size_t *at) {
  const char *heading = not_fed_heading(t);
  *at = 0;
  if (heading) return heading;
  if (asks_of_amount(t)) return NOT_FED_ADVICE;
  if (anothers_animal(t, at)) return "about another animal";
  if (is_hearsay(t, at)) return NOT_FED_HEARSAY;
  for (size_t i = 0; i < t->count; i++) {
    *at = i;
    bool more_than = phrase_at(t, i, "no more than") > 0 || phrase_at(t, i, "not yet weaned") > 0;
    bool question = i == 0 && is_mark(t, t->count - 1, '?') && says(t, i, "should could can would");
    if (question) return "a question, not what is fed";
    if (!more_than && (phrase_of(t, i, CLASS_TOLD_AS_PAST) > 0 || is_old_version(t, i))) return NOT_FED_PAST;
    if (phrase_of(t, i, CLASS_TOLD_AS_ADVICE) > 0 && !is_followed(t, i)) return NOT_FED_ADVICE;
    if (phrase_of(t, i, CLASS_TOLD_AS_REFUSED) > 0) return "said not to be given";
    if (phrase_of(t, i, CLASS_TOLD_AS_JOKE) > 0) { /* "A teaspoon of marmite, kidding": of what stands before it */
      while (*at > 0 && t->item[*at - 1].kind == TOKEN_MARK) --*at;
      if (*at > 0) --*at;
      return "a joke, and not what is fed";
    }
  }
  return NULL;
}

bool is_of_another(const struct tokens *t) { return holds_a(t, 0, t->count, CLASS_TOLD_OF_ANOTHER); }

/* ---- clauses ---- */

size_t clause_begin(const struct tokens *t, size_t at) {
  while (at > 0) {
    const struct token *k = &t->item[at];
    if (k->kind == TOKEN_MARK && k->mark < 128 && strchr(",.;!?():", (int)k->mark)) break;
    if (says_a(t, at, CLASS_JOINS_CLAUSES) &&
        (says_a(t, at + 1, CLASS_BEGINS_JOINED_CLAUSE) || says(t, at, "because cos coz cuz bc cause")))
      break;
    at--;
  }
  return at;
}

/* Where what is not fed begins, when food with an amount stands before it; 0. */
size_t clause_before(const struct tokens *t, size_t told) {
  size_t at = clause_begin(t, told);
  for (int pass = 0; pass < 2; pass++) {
    for (size_t i = 0; i < at; i++) {
      struct post_amount a = post_amount_at(t, i);
      if (a.tokens > 0 && !a.bare) return at;
      if (a.tokens > 0) i += a.tokens - 1;
    }
    bool own_amount = false; /* a writer without stops: "... 30 g beef liver used to do 50 g peas" */
    for (size_t i = told; i < t->count && i < told + 8; i++) own_amount = own_amount || post_amount_at(t, i).is_mass;
    at = own_amount ? told : 0;
  }
  return 0;
}

/* "... which we stopped", "but she hated it": it speaks of what stands before it. */
bool looks_back(const struct tokens *t, size_t clause, size_t told) {
  size_t at = clause;
  while (at < t->count && (t->item[at].kind == TOKEN_MARK || says(t, at, "but and though although"))) at++;
  if (says_a(t, at, CLASS_LOOKS_BACK)) return true;
  if (says(t, at, "i we he she") && says_a(t, at + 1, CLASS_REFUSING_VERB)) return true;
  for (size_t i = told; i < t->count && i < told + 6; i++)
    if (says(t, i, "it that this them those these") && (i + 1 >= t->count || !is_word(t, i + 1))) return true;
  return false;
}

/* Behind advice or the past: ", dinner is 200 g beef", "but she gets ...", "also 1000 mg fish oil"; t->count nowhere. */
size_t fed_again_at(const struct tokens *t, size_t from) {
  enum { NEAR = 7 };
  for (size_t i = from; i < t->count; i++) {
    if (!is_mark(t, i, ',') && !is_mark(t, i, ';') && !is_mark(t, i, ')') && !says_a(t, i, CLASS_FED_AGAIN)) continue;
    if (says(t, i, "also plus now") && post_amount_at(t, i + 1).tokens > 0) return i + 1;
    for (size_t k = i + 1; k < t->count && k <= i + NEAR; k++)
      if (says_a(t, k, CLASS_FED_AGAIN_VERB) && post_any_amount(t, k) && !says(t, k - 1, "to")) return i + 1;
  }
  return t->count;
}
