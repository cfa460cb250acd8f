/* Whose bowl a line is of, in a post that names several animals: what stands behind another one's name, up to the next name,
 * may be that one's. */
#include "post/govern/post_govern.h"

enum { NAMES_MOST = 8, SENTENCES_MOST = 300 }; /* names are told in the beginning */

struct eaters {
  struct span name[NAMES_MOST];
  size_t count;
};

/* A word as names are written, and no other that the tables know. */
static struct span name_as_written(struct post_reader *r, const struct tokens *t, size_t at) {
  struct span name = post_pet_name(r, t, at), none = {"", 0};
  bool other = name.n < 3 || name.p[1] < 'a' || name.p[1] > 'z' || is_vague(name) || is_a(name, CLASS_EVERYDAY) ||
               is_a(name, CLASS_ANOTHER_OWNER) || is_a(name, CLASS_DAY_OF_WEEK);
  return other ? none : name;
}

/* "the boys", "the others", "the cat": eaters without a name, where one animal is asked about. */
static bool is_nameless(struct post_reader *r, const struct tokens *t, size_t at) {
  enum species s;
  if (at == 0 || !says(t, at - 1, "the our") || r->animals > 1) return false;
  if (says(t, at, "boys girls lads others puppies pups kittens siblings adults")) return true;
  return is_word(t, at) && token_is_animal(&t->item[at], &s) && r->weighed_species >= 0 && (int)s != r->weighed_species;
}

/* The name, or any other word, of somebody who eats here; its tokens. */
static bool eats_here(const struct tokens *t, size_t at) {
  enum { FAR = 12 };
  if (says_a(t, at + 1, CLASS_EATER_VERB)) return true;
  size_t n = t->item[at].at.n;
  bool own = n > 4 && t->item[at].at.p[n - 2] == '\'';
  if (own && says(t, at + 1, "bowl day food dinner breakfast portion share tea supper meals ration pot")) return true;
  if (at == 0 && is_mark(t, 1, ':')) return true; /* "Tam: 200 g of beef" */
  if (!is_mark(t, at + 1, '(') && !is_mark(t, at + 1, ',')) return false;
  for (size_t i = at + 2; i < t->count && i < at + FAR; i++)
    if (is_mark(t, i, ')') || is_mark(t, i, ':')) return is_mark(t, i, ':') || says_a(t, i + 1, CLASS_EATER_VERB);
  return false;
}

static bool has_weight(const struct tokens *t, size_t at) {
  for (size_t i = at + 1; i < t->count && i < at + 4; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens > 0 && a.is_mass && (strcmp(a.unit, "kg") == 0 || strcmp(a.unit, "lb") == 0)) return true;
  }
  return false;
}

/* Is it written so within a sentence, or twice at the beginning of one, where every word has a capital? */
static bool is_surely_a_name(struct post_reader *r, struct span name) {
  size_t within = 0, begins = 0;
  for (size_t h = 0; h < r->heard_count && h < SENTENCES_MOST; h++) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    for (size_t i = 0; i < t.count; i++) {
      struct span word = t.item[i].at;
      if (word.n > name.n && word.p[name.n] == '\'') word.n = name.n;
      bool same = t.item[i].kind == TOKEN_WORD && span_eq(word, name);
      within += same && i > 0;
      begins += same && i == 0;
    }
  }
  return within > 0 || begins > 1;
}

static void take_census(struct post_reader *r, struct eaters *e) {
  for (size_t h = 0; h < r->heard_count && h < SENTENCES_MOST; h++) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    for (size_t i = 0; i < t.count && e->count < NAMES_MOST; i++) {
      struct span name = name_as_written(r, &t, i);
      if (name.n == 0 || (!eats_here(&t, i) && !has_weight(&t, i))) continue;
      if (!is_surely_a_name(r, name)) continue;
      bool known = false;
      for (size_t k = 0; k < e->count; k++) known = known || post_same_name(e->name[k], name);
      if (!known) e->name[e->count++] = name;
    }
  }
}

static struct span the_one_asked_about(const struct post_reader *r) {
  if (r->asked_about.n > 0) return r->asked_about;
  for (size_t i = 0; i < r->named_count; i++)
    if (r->named[i].kg == r->weight_kg) return r->named[i].name;
  return (struct span){"", 0};
}

/* The question comes once for an eater; the lines all say so. */
static void doubt_line(struct post_reader *r, const struct net *n, const struct claim *line, struct span eater,
                       bool *asked) {
  struct buf note;
  bool any = false;
  buf_init(&note, r->arena, eater.n + 100);
  buf_addf(&note, "counted, though it may be for '%.*s'", SPAN_ARG(eater));
  for (size_t k = line->first; k < line->last && k < r->count; k++) {
    if (r->item[k].kind != ITEM_FOOD || r->item[k].doubted || r->item[k].own) continue;
    post_doubt(r, k, buf_text(&note));
    any = true;
  }
  if (!any || *asked) return;
  *asked = true;
  r->line = n->h->line;
  r->ask_of = line->first + 1;
  struct post_question *q = post_ask(r, 3, "Who gets '%.*s': the animal that you ask about, or '%.*s'? It was counted.",
                                     SPAN_ARG(post_quote(r, line->text)), SPAN_ARG(eater));
  if (q) q->about = ASKS_OF_AMOUNTS;
  r->ask_of = 0;
}

/* How many of them have a bowl of their own. */
static size_t eaters_by_name(struct post_reader *r, const struct eaters *e) {
  bool eats[NAMES_MOST] = {false};
  size_t count = 0;
  for (size_t h = 0; e->count > 0 && h < r->heard_count && h < SENTENCES_MOST; h++) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    for (size_t i = 0; i < t.count; i++) {
      struct span name = name_as_written(r, &t, i);
      for (size_t k = 0; k < e->count; k++) eats[k] = eats[k] || (post_same_name(e->name[k], name) && eats_here(&t, i));
    }
  }
  for (size_t k = 0; k < e->count; k++) count += eats[k];
  return count;
}

static void doubt_all_of_several(struct post_reader *r) {
  bool any = false;
  for (size_t k = 0; k < r->count; k++) {
    if (r->item[k].kind != ITEM_FOOD || r->item[k].doubted) continue;
    post_doubt(r, k, "the post names several animals; counted as if it were for the one that is asked about");
    any = true;
  }
  r->line = 0;
  struct post_question *q =
      any ? post_ask(r, 3.4, "Which of the animals is this about, and which of the food is its own? All was counted.")
          : NULL;
  if (q) q->about = ASKS_OF_AMOUNTS;
}

void doubt_whose(struct post_reader *r) {
  struct eaters e = {.count = 0};
  if (r->pot_told || r->pot_part > 0 || r->derived) return;
  take_census(r, &e);
  bool asked = false, asked_nameless = false;
  struct span ours = the_one_asked_about(r), other = {"", 0};
  if (ours.n == 0 && eaters_by_name(r, &e) > 1) {
    doubt_all_of_several(r);
    return;
  }
  for (size_t h = 0; h < r->heard_count; h++) {
    struct net n = {.r = r, .h = &r->heard[h], .claim_to = r->heard[h].claim_to, .number = h + 1};
    n.t = post_tokens(r, n.h->text);
    const struct claim *before = NULL;
    struct span nameless = {"", 0}; /* holds for its sentence */
    for (size_t i = 0; i < n.t.count; i++) {
      struct span name = e.count > 1 ? name_as_written(r, &n.t, i) : (struct span){"", 0};
      bool listed = false;
      for (size_t k = 0; k < e.count; k++) listed = listed || post_same_name(e.name[k], name);
      if (listed && e.count > 1 && ours.n > 0 && eats_here(&n.t, i)) {
        other = post_same_name(name, ours) ? (struct span){"", 0} : name;
        nameless = (struct span){"", 0};
        asked = false;
      }
      if (is_nameless(r, &n.t, i) && says_a(&n.t, i + 1, CLASS_EATER_VERB)) nameless = tokens_span(&n.t, i - 1, 2);
      const struct claim *line = net_claim_at(&n, i, CLAIM_LINE);
      struct span eater = nameless.n > 0 ? nameless : other;
      bool begins = line && line != before && net_claim_at(&n, i, CLAIM_AMOUNT);
      if (begins && eater.n > 0) doubt_line(r, &n, line, eater, nameless.n > 0 ? &asked_nameless : &asked);
      if (begins) before = line;
    }
  }
  arena_rewind(r->arena, r->begin);
}
