/* An edit below a post: what it drops, swaps or scales in the lines above, without an amount of its own. */
#include "base/num.h"
#include "post/govern/post_govern.h"

static bool begins_edit(const struct post_reader *r, const struct heard *h) {
  struct tokens t = post_tokens(r, span_cut(h->text, 0, h->text.n < 60 ? h->text.n : 60));
  size_t at = t.count > 0 && t.item[0].kind == TOKEN_MARK ? 1 : 0; /* "*edit: ..." */
  return says_a(&t, at, CLASS_EDIT_LABEL);
}

/* What is known of the sentence before saves the walk to the beginning of the line. */
static bool in_edit(const struct net *n) {
  for (const struct heard *h = n->h;; h--) {
    if (h->line != n->h->line) return false;
    if (h->in_edit != 0) return h->in_edit > 0;
    if (begins_edit(n->r, h)) return true;
    if (h == n->r->heard) return false;
  }
}

bool net_in_edit(const struct net *n) {
  struct heard *h = &n->r->heard[n->h - n->r->heard];
  h->in_edit = in_edit(n) ? 1 : -1;
  return h->in_edit > 0;
}

/* A word that is no filler, in the text of this one line alone. */
static bool is_word_of(const struct post_reader *r, size_t item, struct span word) {
  return r->item[item].kind == ITEM_FOOD && word.n > 1 && !is_chatter(word) &&
         net_has_word(span_of(r->item[item].text), word);
}

static size_t item_of_word(const struct net *n, struct span word) {
  const struct post_reader *r = n->r;
  size_t found = r->count;
  for (size_t k = 0; k < r->count; k++) {
    if (r->item[k].sentence >= n->number || !is_word_of(r, k, word)) continue;
    if (found < r->count) return r->count;
    found = k;
  }
  return found;
}

size_t net_item_by_word(struct net *n) {
  for (size_t i = 0; i < n->t.count; i++) {
    if (!is_word(&n->t, i) || frequency_at(&n->t, i).tokens > 0 || is_a(n->t.item[i].word, CLASS_BESIDE_A_FOOD)) continue;
    size_t found = item_of_word(n, n->t.item[i].word);
    if (found < n->r->count) return found;
  }
  return n->r->count;
}

size_t net_last_of_edit(struct net *n) {
  size_t found = n->r->count;
  struct tokens own = n->t;
  for (const struct heard *h = n->h; h > n->r->heard && found == n->r->count && (h - 1)->line == n->h->line;) {
    h--;
    n->t = post_tokens(n->r, h->text);
    found = net_item_by_word(n);
  }
  n->t = own;
  return found;
}

/* The line gets another text, where the strict reader takes it. */
bool net_rewrite(struct net *n, size_t at, const char *text, const char *ask) {
  struct post_reader *r = n->r;
  struct item *item = &r->item[at];
  const char *assumed;
  struct buf note;
  if (!strict_takes(r, text, &assumed, NULL)) return false;
  buf_init(&note, r->arena, strlen(item->text) + 100);
  buf_addf(&note, "changed in the post, before it said '%s'", item->text);
  item->text = arena_text(r->keep, span_of(text));
  item->food = r->taken_food;
  item->words = span_of(arena_text(r->keep, r->taken_words));
  item->grams = r->taken_grams;
  item->assumed = "";
  post_doubt(r, at, buf_text(&note));
  r->line = n->h->line;
  r->ask_of = at + 1;
  post_ask(r, 2, "You write '%.*s': %s '%s' is counted.", SPAN_ARG(post_quote(r, n->h->text)), ask, item->text);
  r->ask_of = 0;
  return true;
}

/* "Oil doubled", "halved the rice" */
static bool scales(struct net *n) {
  struct post_reader *r = n->r;
  const char *times = NULL;
  double by;
  for (size_t i = 0; i < n->t.count && !times; i++)
    if (meaning_at(&n->t, i, CLASS_SCALED, &times) == 0) times = NULL;
  size_t at = times ? net_item_by_word(n) : r->count;
  if (at >= r->count || !num_parse(span_of(times), &by)) return false;
  struct tokens own = post_tokens(r, span_of(r->item[at].text));
  struct post_amount a = post_amount_at(&own, 0);
  if (a.tokens == 0 || a.tokens >= own.count) return false;
  struct buf b;
  buf_init(&b, r->arena, strlen(r->item[at].text) + 60);
  amount_write(&b, &a, by);
  buf_addf(&b, " %s", own.item[a.tokens].at.p);
  return net_rewrite(n, at, buf_text(&b), "how much is that now?");
}

/* "Pumpkin now, same weight, cooked": in the place of what this edit dropped. */
static bool takes_its_place(struct net *n) {
  struct post_reader *r = n->r;
  size_t food = n->t.count, tokens = 0, old = r->count;
  if (!holds_a(&n->t, 0, n->t.count, CLASS_SAME_AMOUNT)) return false;
  for (size_t i = 0; i < n->t.count && food == n->t.count; i++)
    if ((tokens = post_mention_at(r, &n->t, i)) > 0) food = i;
  for (size_t k = 0; k < r->count; k++)
    if (r->item[k].kind == ITEM_GONE && r->item[k].dropped_by == n->h->line) old = k;
  if (food == n->t.count || old == r->count) return false;
  while (food + tokens < n->t.count && is_word(&n->t, food + tokens) && post_mention_at(r, &n->t, food + tokens) > 0)
    tokens++;
  struct tokens own = post_tokens(r, span_of(r->item[old].text));
  struct post_amount a = post_amount_at(&own, 0);
  if (a.tokens == 0) return false;
  struct buf b;
  buf_init(&b, r->arena, strlen(r->item[old].text) + n->h->text.n + 40);
  buf_addf(&b, "%.*s %.*s", SPAN_ARG(tokens_span(&own, 0, a.tokens)), SPAN_ARG(tokens_span(&n->t, food, tokens)));
  for (size_t i = food + tokens; i < n->t.count; i++)
    if (says(&n->t, i, "cooked boiled steamed raw")) buf_addf(&b, ", %.*s", SPAN_ARG(n->t.item[i].word));
  for (size_t i = a.tokens; i < own.count; i++)
    if (frequency_at(&own, i).tokens > 0) {
      buf_addf(&b, ", %.*s", SPAN_ARG(tokens_span(&own, i, frequency_at(&own, i).tokens)));
      break;
    }
  r->item[old].kind = ITEM_FOOD;
  if (net_rewrite(n, old, buf_text(&b), "is that fed in its place, as much of it?")) return true;
  r->item[old].kind = ITEM_GONE;
  return false;
}

/* "Dropped the peas", "no carrot since Sunday", "the rice is gone": the line goes. */
static bool drops(struct net *n) {
  struct post_reader *r = n->r;
  bool any = false;
  for (size_t i = 0; i < n->t.count; i++) {
    size_t used = phrase_of(&n->t, i, CLASS_DROPPING), from = i + used, to = from + 4;
    if (used == 0) continue;
    bool behind = says_a(&n->t, i, CLASS_DROPPED_BEFORE); /* "the rice is gone" */
    if (behind) from = i > 4 ? i - 4 : 0, to = i;
    for (size_t k = from; k < to && k < n->t.count; k++) {
      if (!behind && net_ends_clause(&n->t, k)) break;
      if (!is_word(&n->t, k) || post_amount_at(&n->t, k).is_mass) continue;
      size_t at = item_of_word(n, n->t.item[k].word);
      if (at >= r->count) continue;
      r->item[at].kind = ITEM_GONE;
      r->item[at].dropped_by = n->h->line;
      r->line = n->h->line;
      post_note(r, span_of(r->item[at].text), "fed no longer, as the post says further down");
      any = true;
      break;
    }
  }
  return any;
}

/* "beef", of "beef's" as well; "" when it is no animal. */
static struct span animal_of(const struct tokens *t, size_t at) {
  struct span none = {"", 0};
  if (!is_word(t, at)) return none;
  struct span w = t->item[at].word;
  if (w.n > 3 && span_is(span_cut(w, w.n - 2, w.n), "'s")) w = span_cut(w, 0, w.n - 2);
  return is_a(w, CLASS_ANIMAL_OF_FLESH) ? w : none;
}

/* "it's not ox liver, it's lamb's": another animal's. */
static bool is_of_other_animal(struct net *n) {
  struct post_reader *r = n->r;
  struct span wrong = {"", 0}, right = {"", 0};
  for (size_t i = 0; i < n->t.count; i++) {
    struct span animal = animal_of(&n->t, i);
    if (animal.n == 0) continue;
    bool denied = i > 0 && says(&n->t, i - 1, "not isn't isnt no");
    *(denied ? &wrong : &right) = animal;
  }
  size_t at = wrong.n > 0 && right.n > 0 ? item_of_word(n, wrong) : r->count;
  if (at >= r->count) return false;
  struct tokens own = post_tokens(r, span_of(r->item[at].text));
  for (size_t i = 0; i < own.count; i++) {
    if (!is_word(&own, i) || !span_eq_fold(own.item[i].word, wrong)) continue;
    struct buf b;
    buf_init(&b, r->arena, strlen(r->item[at].text) + right.n + 8);
    struct span before = {r->item[at].text, (size_t)(own.item[i].at.p - r->item[at].text)};
    buf_addf(&b, "%.*s%.*s%s", SPAN_ARG(before), SPAN_ARG(right), own.item[i].at.p + own.item[i].at.n);
    return net_rewrite(n, at, buf_text(&b), "is it that one now?");
  }
  return false;
}

bool net_edit(struct net *n, void (*forget)(struct net *)) {
  bool done = drops(n);
  done = takes_its_place(n) || done;
  done = done || scales(n) || is_of_other_animal(n);
  if (done) forget(n);
  return done;
}
