
/* Is a food that a post names the food of a line? */
#include "post/hear/post_net.h"

/* "berry" and "berries", "egg" and "eggs". */
static bool same_word(struct span a, struct span b) {
  if (a.n > b.n) {
    struct span swap = a;
    a = b, b = swap;
  }
  if (a.n < 3) return span_eq_fold(a, b);
  if (a.p[a.n - 1] == 'y' && b.n == a.n + 2 && span_is_fold(span_cut(b, b.n - 3, b.n), "ies"))
    return span_eq_fold(span_cut(a, 0, a.n - 1), span_cut(b, 0, a.n - 1));
  struct span rest = span_cut(b, a.n, b.n);
  return span_eq_fold(a, span_cut(b, 0, a.n)) && (rest.n == 0 || word_in(rest, "s es d ed"));
}

static bool stands_between_words(char c) {
  switch (c) {
  case ' ':
  case ',':
  case ';':
  case '(':
  case ')':
  case '/':
  case '&':
  case '+':
  case '-':
    return true;
  default:
    return false;
  }
}

bool net_has_word(struct span text, struct span word) {
  for (size_t i = 0; i < text.n && word.n > 0;) {
    while (i < text.n && stands_between_words(text.p[i])) i++;
    size_t from = i;
    while (i < text.n && !stands_between_words(text.p[i])) i++;
    bool may_be = i > from && ((text.p[from] ^ word.p[0]) & ~0x20) == 0; /* the first letter tells of nearly all */
    if (may_be && same_word(span_cut(text, from, i), word)) return true;
  }
  return false;
}

/* Kinds of food: beside a counted line they say what it is one of. */

bool word_is_filler(struct span word) { return word.n < 3 || is_chatter(word) || is_a(word, CLASS_BESIDE_A_FOOD); }

bool net_is_kind(struct span word) { return is_a(word, CLASS_KIND_OF_FOOD); }

bool net_item_is(struct net *n, const struct item *item, size_t at, size_t tokens) {
  struct search_hit hit;
  if (item->kind == ITEM_UNKNOWN) {
    for (size_t i = at; i < at + tokens; i++)
      if (!net_has_word(span_of(item->text), n->t.item[i].word)) return false;
    return true;
  }
  if (item->kind != ITEM_FOOD) return false;
  struct span name = span_of(library_name(n->r->lib, item->food)), text = span_of(item->text);
  bool all = true;
  for (size_t i = at; i < at + tokens && all; i++) {
    struct span w = n->t.item[i].word;
    const char *longer = token_means(&n->t.item[i], CLASS_SHORT_FORM_OF);
    all = net_has_word(item->words, w) || net_has_word(name, w) || net_has_word(text, w) ||
          (longer && net_has_word(item->words, span_of(longer)));
  }
  struct token *head = &n->t.item[at + tokens - 1]; /* "porridge oats" */
  if (all || net_has_word(item->words, head->word) || token_is_a(head, CLASS_KIND_OF_FOOD)) return true;
  return post_look_up(n->r, tokens_span(&n->t, at, tokens), &hit) && hit.food == item->food;
}
