/* A multivitamin or another product that is known by its label alone, told in passing: "Also one multivitamin \"X\"".
 * Whatever holds it is nobody's guess, but that it is fed must not be lost: it stands as what is not counted. */
#include "post/animal/post_animal.h"
#include "post/hear/post_net.h"
#include "post/line/post_line.h"

/* Is it in a line, counted or not? */
static bool stands_already(const struct post_reader *r, const struct heard *h, struct span words) {
  for (size_t i = 0; i < r->count; i++)
    if (r->item[i].kind != ITEM_GONE && r->item[i].line == h->line && span_holds_fold(span_of(r->item[i].text), words))
      return true;
  for (size_t i = 0; i < r->left_count; i++)
    if (r->left[i].line == h->line && span_holds_fold(span_of(r->left[i].text), words)) return true;
  return false;
}

/* "no multivitamin", "I would give", "if he had": not surely fed. */
static bool is_fed(const struct tokens *t, size_t at) {
  for (size_t i = 0; i < t->count; i++) {
    bool near = i < at && i + 6 > at;
    if (near && says(t, i, "no not never without stop stopped skip skipped out or refuses hates")) return false;
    if (near && says_a(t, i, CLASS_DENYING)) return false;
    if (says(t, i, "if should would could might need needs want wants think thinking recommend recommended which what any"))
      return false;
  }
  return true;
}

/* The words around it: up to the marks and joints of the sentence, with a bracket right behind. */
static struct span around(const struct net *n, size_t from, size_t to) {
  const struct tokens *t = &n->t;
  enum { FAR = 7 };
  size_t begin = from;
  while (begin > 0 && begin + FAR > from && !net_ends_clause(t, begin - 1) && !says(t, begin - 1, "and plus with also n") &&
         !is_mark(t, begin - 1, '+') && !is_mark(t, begin - 1, '&') && !net_claim_at(n, begin - 1, CLAIM_LINE) &&
         !says_a(t, begin - 1, CLASS_FEEDING_VERB) && !says(t, begin - 1, "has have had takes get's"))
    begin--;
  while (to < t->count && !net_ends_clause(t, to) && !says(t, to, "and plus with") && !is_mark(t, to, '+') &&
         !is_mark(t, to, '&'))
    to++;
  if (is_mark(t, to, '('))
    while (to < t->count && !is_mark(t, to - 1, ')')) to++;
  return tokens_span(t, begin, to - begin);
}

/* "I sprinkle katozin complete on it", "we add morwell garden mix as the package says": what goes over the food, in words
 * that are no food's and tell no amount; how many tokens from 'at' on; 0. */
static size_t sprinkled(struct net *n, size_t at) {
  enum { WORDS_MOST = 4 };
  const struct tokens *t = &n->t;
  size_t end = at;
  if (at < 1 || !says(t, at - 1, "sprinkle sprinkles add adds use give") || post_any_amount(t, at)) return 0;
  while (end < t->count && is_word(t, end) && end <= at + WORDS_MOST && !says_a(t, end, CLASS_ENDS_SPRINKLED) &&
         !(end > at && says(t, end, "and with")))
    if (says_a(t, end, CLASS_NEVER_SPRINKLED) || says_a(t, end, CLASS_CHATTER) || post_mention_at(n->r, t, end) > 0)
      return 0;
    else
      end++;
  if (end == at || end > at + WORDS_MOST) return 0;
  bool over = says(t, end, "on over to onto") && says_a(t, end + 1, CLASS_SPRINKLED_OVER);
  bool label = phrase_of(t, end, CLASS_AS_ON_LABEL) > 0;
  return over || label ? end - at : 0;
}

static void leave_product(struct net *n, size_t at, size_t used) {
  struct post_reader *r = n->r;
  struct span text = around(n, at, at + used);
  r->line = n->h->line;
  r->sentence = n->h->text;
  post_leave(r, text, "what is in it stands on its label alone", true);
  post_ask(r, 2.5,
           "What does the label of '%.*s' state for each nutrient, per tablet, scoop or gram, and how much of it is fed?",
           SPAN_ARG(post_quote(r, text)));
}

/* "I didn't buy yet", "is ordered", "haven't started". */
static bool not_there_yet(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "yet ordered") || (says(t, i, "haven't havent hasn't hasnt didn't didnt") &&
                                      says(t, i + 1, "started start bought buy come got arrived given opened")))
      return true;
  return false;
}

static void hear(struct net *n) {
  struct post_reader *r = n->r;
  const struct tokens *t = &n->t;
  if (t->count == 0 || is_mark(t, t->count - 1, '?') || is_of_another(t) || not_fed(t)) return;
  for (size_t i = 0; i < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_PRODUCT);
    if (used == 0) used = sprinkled(n, i);
    if (used == 0) continue;
    struct span words = tokens_span(t, i, used);
    int species;
    struct span whose;
    bool ours = post_told_of(r, t, i, i + used, &whose, &species) && post_is_ours(r, whose, species);
    bool heads = is_mark(t, i + used, ':') && i + used + 1 < t->count; /* "Vitamin powder: katozin complete 5 g" */
    if (heads && stands_already(r, n->h, tokens_span(t, i + used + 1, 1))) ours = false;
    if (ours && !stands_already(r, n->h, words) && is_fed(t, i)) {
      leave_product(n, i, used);
    } else if (ours && !stands_already(r, n->h, words) && !is_fed(t, i) && not_there_yet(t)) {
      r->line = n->h->line;
      r->sentence = n->h->text;
      post_note(r, words, "not fed yet, as the post says");
    }
    i += used - 1;
  }
}

/* "He also hunts", "brings in a bird now and then and eats it": what an animal catches stands on no list. */
static void hear_prey(struct net *n) {
  enum { FAR = 6 };
  struct post_reader *r = n->r;
  const struct tokens *t = &n->t;
  bool hunts = false;
  if (t->count == 0 || is_mark(t, t->count - 1, '?') || is_of_another(t) || post_any_amount(t, 0)) return;
  for (size_t i = 0; i < t->count; i++) {
    if (says(t, i, "no not never doesn't doesnt can't cant won't didn't used stopped")) {
      bool stops = says(t, i, "can't cant") && says(t, i + 1, "stop"); /* "he hunts, can't stop him" */
      if (!stops) return;
    }
    hunts = hunts || phrase_of(t, i, CLASS_HUNTS) > 0;
    for (size_t k = i + 1; k < t->count && k < i + FAR && !hunts; k++)
      hunts = says_a(t, i, CLASS_CATCHES) && says_a(t, k, CLASS_CAUGHT);
  }
  if (!hunts) return;
  r->line = n->h->line;
  r->sentence = n->h->text;
  post_note(r, n->h->text, "what it catches itself is not counted");
}

void post_hear_products(struct post_reader *r) {
  if (r->heard_count > 0) r->heard[r->heard_count - 1].claim_to = r->claim_count;
  for (size_t i = 0; i < r->heard_count; i++) {
    struct net n = {.r = r, .h = &r->heard[i], .claim_to = r->heard[i].claim_to, .number = i + 1};
    n.t = post_tokens(r, n.h->text);
    hear(&n);
    hear_prey(&n);
    arena_rewind(r->arena, r->begin);
  }
  r->sentence = (struct span){"", 0};
}
