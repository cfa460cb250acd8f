/* "EDIT: meant 200 and not 300": a sentence that corrects a line told before. */
#include "base/num.h"
#include "post/govern/post_govern.h"

static bool says_correction(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says_a(t, i, CLASS_CORRECTION) || phrase_at(t, i, "should read") > 0 || phrase_at(t, i, "should say") > 0 ||
        phrase_at(t, i, "should be") > 0 || phrase_at(t, i, "wait no") > 0 || phrase_at(t, i, "no wait") > 0 ||
        phrase_at(t, i, "make that") > 0 || phrase_at(t, i, "i mean") > 0)
      return true;
  return false;
}

/* "no! 0.5 g", "no its powder, 1/4 tsp", "no" and then "0.5 g": of the line before it. */
static bool takes_back(const struct net *n) {
  static const char BACK[] = "no nope wait sorry oops";
  if (says(&n->t, 0, BACK) && (n->t.count < 2 || !is_word(&n->t, 1) || says(&n->t, 1, "it's its that's thats i not")))
    return true;
  if (n->number < 2 || n->t.count > 4 || post_amount_at(&n->t, 0).tokens == 0) return false;
  const struct heard *before = n->h - 1;
  struct tokens t = post_tokens(n->r, span_cut(before->text, 0, before->text.n < 12 ? before->text.n : 12));
  double kg;
  for (size_t i = 0; i < n->t.count; i++) { /* "No grains. 19 kg mutt" */
    enum species s;
    if (is_word(&n->t, i) && is_animal_word(n->t.item[i].word, &s)) return false;
  }
  if (t.count == 2 && is_word(&t, 1) && post_weight_at(&n->t, 0, &kg) > 0) return false;
  return before->line == n->h->line && t.count <= 2 && says(&t, 0, BACK);
}

/* The food of one of the two sentences before it, in the same line of the post; r->count. */
static size_t line_taken_back(const struct net *n) {
  const struct post_reader *r = n->r;
  for (size_t i = r->count; i-- > 0;)
    if (r->item[i].kind == ITEM_FOOD && r->item[i].line == n->h->line && r->item[i].sentence < n->number &&
        r->item[i].sentence + 2 >= n->number)
      return i;
  return r->count;
}

/* "not 300", "instead of 300 g": the amount that it is no longer. */
static bool is_the_old_one(const struct tokens *t, size_t at) {
  for (size_t i = at > 3 ? at - 3 : 0; i < at; i++)
    if (says(t, i, "not instead from was were") && !is_mark(t, at - 1, ',')) return true;
  return false;
}

/* The line without its amount. */
static struct span without_amount(struct post_reader *r, const char *line) {
  struct tokens t = post_tokens(r, span_of(line));
  struct post_amount a = post_amount_at(&t, 0);
  if (a.tokens == 0 || a.tokens >= t.count) return (struct span){"", 0};
  return tokens_span(&t, a.tokens, t.count - a.tokens);
}

static size_t last_line_of(struct net *n, size_t at, size_t tokens) {
  struct post_reader *r = n->r;
  for (size_t i = r->count; i-- > 0;) { /* its own words first: "beef" is no ox liver */
    bool own = r->item[i].kind == ITEM_FOOD && r->item[i].line < n->h->line + 1;
    for (size_t k = at; own && k < at + tokens; k++) own = net_has_word(span_of(r->item[i].text), n->t.item[k].word);
    if (own) return i;
  }
  for (size_t i = r->count; i-- > 0;)
    if (r->item[i].kind == ITEM_FOOD && r->item[i].line < n->h->line + 1 && net_item_is(n, &r->item[i], at, tokens))
      return i;
  return r->count;
}

/* The earlier line of the same food goes: this one is its correction. */
static void correct_by_line(struct net *n, size_t at) {
  struct post_reader *r = n->r;
  for (size_t k = 0; k < at; k++) {
    struct item *old = &r->item[k];
    bool same = old->kind == ITEM_FOOD && old->sentence < n->number &&
                (old->food == r->item[at].food || span_eq_fold(old->words, r->item[at].words));
    if (!same) continue;
    struct buf note;
    buf_init(&note, r->arena, strlen(old->text) + 100);
    buf_addf(&note, "corrected in the post, before it said '%s'", old->text);
    old->kind = ITEM_GONE;
    post_doubt(r, at, buf_text(&note));
    r->line = n->h->line;
    r->ask_of = at + 1;
    post_ask(r, 2, "Does '%.*s' replace '%s'? It was taken for a correction.", SPAN_ARG(post_quote(r, n->h->text)),
             old->text);
    r->ask_of = 0;
  }
}

/* "meant 400 not 500": the number alone stands for the old one, whose unit it has. */
static size_t line_with_number(struct post_reader *r, struct span number) {
  size_t found = r->count;
  for (size_t i = 0; i < r->count; i++) {
    struct tokens t = post_tokens(r, span_of(r->item[i].text));
    if (r->item[i].kind != ITEM_FOOD || t.count == 0 || !span_eq(t.item[0].at, number)) continue;
    if (found < r->count) return r->count; /* more than one */
    found = i;
  }
  return found;
}

struct correction {
  size_t item; /* of which line */
  struct post_amount amount;
};

enum { SHORT_SENTENCE = 7 };

/* The food that was told last before this sentence. */
static size_t item_before(const struct net *n) {
  size_t found = n->r->count;
  for (size_t i = 0; i < n->r->count; i++)
    if (n->r->item[i].kind == ITEM_FOOD && n->r->item[i].sentence < n->number) found = i;
  return found;
}

static bool find_number(struct net *n, struct correction *c) {
  struct post_reader *r = n->r;
  size_t now = n->t.count, old = n->t.count;
  for (size_t i = 0; i < n->t.count; i++) {
    bool no = i > 0 && says(&n->t, i - 1, "no"); /* "wait no 180" is no number 180 */
    if (!is_number(&n->t, i) || (!no && not_an_amount(&n->t, i) > 0)) continue;
    struct post_amount own = post_amount_at(&n->t, i); /* "7 pumps of salmon oil" is no number of a line in grams */
    if (own.tokens > 1 && !own.is_mass && !own.is_volume) return false;
    if (is_the_old_one(&n->t, i))
      old = i;
    else if (now == n->t.count)
      now = i;
    else
      return false;
  }
  if (now == n->t.count) return false;
  size_t told = old < n->t.count ? line_with_number(r, n->t.item[old].at) : r->count;
  bool leads = now > 0 && says(&n->t, now - 1, "meant read say be no wait that mean it's its");
  leads = leads || (now > 0 && c->item < r->count && says(&n->t, now - 1, "is are to at gets now") && net_in_edit(n));
  if (told < r->count) c->item = told;
  if (c->item >= r->count && leads && n->t.count <= SHORT_SENTENCE) c->item = item_before(n); /* "wait no 180" */
  if (c->item >= r->count || (old == n->t.count && !leads)) return false;
  struct tokens own = post_tokens(r, span_of(r->item[c->item].text));
  c->amount = post_amount_at(&own, 0);
  if (!(c->amount.is_mass || c->amount.is_volume)) return false;
  c->amount.low = c->amount.high = n->t.item[now].value;
  return true;
}

/* "sorry, not carrot, parsnip": it is left out there as denied, and is fed. */
static void forget_denied(struct net *n, struct span food) {
  struct post_reader *r = n->r;
  size_t kept = 0;
  for (size_t i = 0; i < r->left_count; i++) {
    const struct post_left *l = &r->left[i];
    bool it = l->line == n->h->line && !l->fed && span_eq_fold(span_of(l->text), food);
    if (!it) r->left[kept++] = *l;
  }
  r->left_count = kept;
}

/* "it's lamb kidney, not ox", "sorry, not carrot, parsnip": another food in the place of a line's. */
static bool correct_food(struct net *n) {
  struct post_reader *r = n->r;
  size_t now = n->t.count, tokens = 0, no = n->t.count;
  for (size_t i = 0; i < n->t.count; i++) {
    if (says(&n->t, i, "not")) no = i;
    struct post_amount a = post_amount_at(&n->t, i);
    if (a.tokens > 0 && !a.by_word) return false;
    size_t used = post_mention_at(r, &n->t, i);
    if (used == 0) continue;
    bool behind = no < n->t.count && i > no + 1 && i > 0 && (is_mark(&n->t, i - 1, ',') || says(&n->t, i - 1, "but it's its"));
    if ((no == n->t.count || behind) && now == n->t.count) now = i, tokens = used;
    i += used - 1;
  }
  if (now == n->t.count || no == n->t.count || no + 1 >= n->t.count) return false;
  bool first = now < no;
  while ((first ? now + tokens < no : now + tokens < n->t.count) && is_word(&n->t, now + tokens) && !token_is_a(&n->t.item[now + tokens], CLASS_CHATTER)) tokens++;
  struct span head = n->t.item[now + tokens - 1].word, gone = n->t.item[no + 1].word;
  for (size_t k = r->count; k-- > 0;) {
    struct item *item = &r->item[k];
    if (item->kind != ITEM_FOOD || !net_has_word(span_of(item->text), gone)) continue;
    if (first && !net_has_word(span_of(item->text), head) && !net_is_kind(head) && tokens > 1) continue;
    struct tokens own = post_tokens(r, span_of(item->text));
    struct post_amount a = post_amount_at(&own, 0);
    if (a.tokens == 0) continue;
    struct buf b, note;
    const char *assumed;
    buf_init(&b, r->arena, strlen(item->text) + 200);
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(tokens_span(&own, 0, a.tokens)), SPAN_ARG(tokens_span(&n->t, now, tokens)));
    for (size_t i = a.tokens; i < own.count; i++)
      if (frequency_at(&own, i).tokens > 0) {
        buf_addf(&b, ", %.*s", SPAN_ARG(tokens_span(&own, i, frequency_at(&own, i).tokens)));
        break;
      }
    if (!strict_takes(r, buf_text(&b), &assumed, NULL)) continue;
    buf_init(&note, r->arena, 300);
    buf_addf(&note, "corrected in the post, before it said '%s'", item->text);
    item->text = arena_text(r->keep, buf_span(&b));
    item->food = r->taken_food;
    item->words = span_of(arena_text(r->keep, r->taken_words));
    item->assumed = "";
    forget_denied(n, tokens_span(&n->t, now, tokens));
    post_doubt(r, k, buf_text(&note));
    r->line = n->h->line;
    r->ask_of = k + 1;
    post_ask(r, 2, "Is '%.*s' a correction? It was taken for one: '%s' is counted.", SPAN_ARG(post_quote(r, n->h->text)),
             item->text);
    r->ask_of = 0;
    return true;
  }
  return false;
}

/* It stood there as something that was not understood. */
static void forget_unread(struct net *n) {
  struct post_reader *r = n->r;
  for (size_t i = 0; i < r->count; i++)
    if (r->item[i].kind == ITEM_UNKNOWN && r->item[i].line == n->h->line &&
        span_holds_fold(n->h->text, span_of(r->item[i].text)))
      net_forget_item(r, i);
  for (size_t i = 0; i < r->left_count; i++)
    if (r->left[i].line == n->h->line && r->left[i].fed && span_holds_fold(n->h->text, span_of(r->left[i].text))) {
      r->left[i].fed = false;
      r->left[i].why = "taken as a correction";
    }
}

/* "No, dog, 7 kg": a kind of animal and its weight correct no food. */
static bool is_of_the_animal(const struct tokens *t) {
  bool animal = false, weight = false;
  enum species s;
  double kg;
  for (size_t i = 0; i < t->count; i++) {
    animal = animal || (is_word(t, i) && is_animal_word(t->item[i].word, &s));
    weight = weight || post_weight_at(t, i, &kg) > 0;
  }
  return animal && weight;
}

bool net_correct(struct net *n) {
  struct post_reader *r = n->r;
  struct post_amount amount = {0};
  size_t item = r->count, at = 0;
  bool back = takes_back(n), line = false, edit = net_in_edit(n);
  if ((!back && !edit && !says_correction(&n->t)) || (!edit && is_of_the_animal(&n->t))) return false;
  for (size_t k = 0; k < r->count; k++)
    if (r->item[k].kind == ITEM_FOOD && r->item[k].sentence == n->number) {
      line = true;
      if (edit || says_correction(&n->t)) correct_by_line(n, k);
    }
  if (line) return edit && net_edit(n, forget_unread);
  if (edit && net_edit(n, forget_unread)) return true;
  for (size_t i = 0; i < n->t.count; i++) {
    struct post_amount a = post_amount_at(&n->t, i);
    if (a.tokens > 0 && (a.is_mass || a.is_volume) && !is_the_old_one(&n->t, i)) {
      if (amount.tokens > 0) return false;
      amount = a, at = i;
    }
    size_t tokens = a.tokens > 0 ? 0 : post_mention_at(r, &n->t, i);
    if (tokens > 0) {
      size_t k = last_line_of(n, i, tokens);
      if (k >= r->count && !net_is_kind(n->t.item[i + tokens - 1].word)) /* "forgot the fish oil, 2 g" */
        return correct_food(n) && (forget_unread(n), true);
      if (item < r->count && k < r->count && k != item) return correct_food(n) && (forget_unread(n), true);
      if (k < r->count) item = k;
      i += tokens - 1;
    }
    if (a.tokens > 0) i += a.tokens - 1;
  }
  if (back && item >= r->count && amount.tokens > 0) item = line_taken_back(n);
  if (item >= r->count) item = net_item_by_word(n);
  if (edit && item >= r->count && amount.tokens > 0) item = net_last_of_edit(n); /* "It's 0.4 g" */
  struct correction c = {item, amount};
  if (amount.tokens == 0 && !find_number(n, &c)) return correct_food(n) && (forget_unread(n), true);
  item = c.item, amount = c.amount;
  if (item >= r->count || amount.tokens == 0) return false;
  struct span rest = without_amount(r, r->item[item].text);
  struct buf b, note;
  const char *assumed;
  if (rest.n == 0) return false;
  buf_init(&b, r->arena, rest.n + 100);
  amount_write(&b, &amount, 1);
  buf_addf(&b, " %.*s", SPAN_ARG(rest));
  if (!strict_takes(r, buf_text(&b), &assumed, NULL)) return false;
  buf_init(&note, r->arena, 300);
  buf_addf(&note, "corrected in the post, before it said '%s'", r->item[item].text);
  r->item[item].text = arena_text(r->keep, buf_span(&b));
  r->item[item].grams = r->taken_grams;
  post_doubt(r, item, buf_text(&note));
  r->line = n->h->line;
  r->ask_of = item + 1;
  post_ask(r, 2, "Is '%.*s' a correction? It was taken for one: '%s' is counted.", SPAN_ARG(post_quote(r, n->h->text)),
           r->item[item].text);
  r->ask_of = 0;
  (void)at;
  forget_unread(n);
  return true;
}
