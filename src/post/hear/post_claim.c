
/* What of a post's words is accounted for, and by what: each reader of a sentence says so here. */
#include "post/hear/post_net.h"

bool net_within(struct span s, struct span whole) {
  return s.n > 0 && whole.n > 0 && s.p >= whole.p && s.p + s.n <= whole.p + whole.n;
}

void post_claim(struct post_reader *r, struct span text, enum claim_kind kind, size_t first, size_t last) {
  if (!net_within(text, r->sentence)) return;
  struct claim c = {text, kind, first, last};
  ARENA_PUSH(r->keep, r->claim, r->claim_count, r->claim_cap, c);
}

void post_claim_taken(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (t->item[i].taken) post_claim(r, t->item[i].at, CLAIM_TOLD, 0, 0);
}

void post_hear(struct post_reader *r, struct span text, bool bulleted) {
  struct heard h = {text, r->line, bulleted, r->claim_count, SIZE_MAX, 0, false};
  r->sentence = text;
  if (r->heard_count > 0) r->heard[r->heard_count - 1].claim_to = r->claim_count;
  ARENA_PUSH(r->keep, r->heard, r->heard_count, r->heard_cap, h);
}

const struct claim *net_claim_at(const struct net *n, size_t at, enum claim_kind kind) {
  const struct claim *found = NULL;
  for (size_t i = n->h->claim_from; i < n->claim_to; i++)
    if (n->r->claim[i].kind == kind && net_within(n->t.item[at].at, n->r->claim[i].text)) found = &n->r->claim[i];
  return found;
}

bool net_ends_clause(const struct tokens *t, size_t at) {
  const struct token *k = &t->item[at];
  if (k->kind == TOKEN_MARK) return k->mark < 128 && strchr(",;.!?()", (int)k->mark) != NULL;
  return says(t, at, "but because so while although though which");
}
