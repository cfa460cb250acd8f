/* Of a line that is counted: what its sentence says that makes it doubtful. In true doubt it is left out and asked about, else
 * what was assumed is said. */
#include "base/num.h"
#include "post/post_net.h"

/* ---- what is done ---- */

void post_doubt(struct post_reader *r, size_t at, const char *assumed) {
  struct item *item = &r->item[at];
  if (item->kind != ITEM_FOOD) return;
  item->doubted = true;
  if (strstr(item->assumed, assumed)) return;
  item->assumed = arena_text(r->keep, span_of(post_joined(r, assumed, item->assumed)));
}

void post_withdraw(struct post_reader *r, size_t at, struct span text, const char *why) {
  struct item *item = &r->item[at];
  if (item->kind != ITEM_FOOD) return;
  item->kind = ITEM_UNKNOWN;
  item->text = arena_text(r->keep, post_own_words(r, text));
  struct post_left left = {item->line, item->text, why, true};
  ARENA_PUSH(r->keep, r->left, r->left_count, r->left_cap, left);
}

/* ---- words that make a line doubtful ---- */

enum doubt { DOUBT_NONE, DOUBT_PAST, DOUBT_IF, DOUBT_DENIED, DOUBT_HEARSAY, DOUBT_OTHER, DOUBT_RARE, DOUBT_SURE, DOUBT_PART };

static const struct {
  const char *why, *ask; /* left out because; and asked. 'why' NULL: counted, and 'ask' is said and asked */
} DOUBT[] = {[DOUBT_NONE] = {NULL, NULL},
             [DOUBT_PAST] = {"it may be told of the past", "Is '%.*s' still fed?"},
             [DOUBT_IF] = {"it is told with a condition", "Is '%.*s' fed now, and how often?"},
             [DOUBT_DENIED] = {"the sentence says no to something", "Is '%.*s' fed?"},
             [DOUBT_HEARSAY] = {"it may be somebody's advice", "Is '%.*s' what you feed, or advice?"},
             [DOUBT_OTHER] = {"it may be told of another animal", "Who gets '%.*s'?"},
             [DOUBT_RARE] = {"the post does not say how often", "How often, and how much of it, is '%.*s' fed?"},
             [DOUBT_SURE] = {NULL, "Is '%.*s' right? The post is not sure of it, and it was counted as it stands."},
             [DOUBT_PART] = {NULL, "Does all of '%.*s' go to this animal? It was counted whole."}};

/* "not more than", "no bone", "can't go wrong": said of how much, or of a cut. */
static bool denies_nothing(const struct tokens *t, size_t at) {
  return says(t, at + 1, "more less over exceeding too bone bones skin salt added sugar shell only just always sure bad much many enough") ||
         (at > 0 && says(t, at - 1, "why if or"));
}

static enum doubt cue_at(const struct tokens *t, size_t at, bool *far) {
  *far = false;
  if (says(t, at, "if unless whenever"))
    return *far = true, at > 0 && says(t, at - 1, "see wonder wondering know check as ask asking even sure what") ? DOUBT_NONE : DOUBT_IF;
  if (says(t, at, "might could would should may must")) {
    bool month = says(t, at, "may") && t->item[at].at.p[0] == 'M';
    return month ? DOUBT_NONE : DOUBT_IF;
  }
  if (says(t, at, "want wants hope hoping intend meant mean planned intend gonna")) return DOUBT_IF;
  if (says(t, at, "ago originally previously earlier formerly")) return *far = true, DOUBT_PAST;
  if (says(t, at, "last") && says(t, at + 1, "week month year summer winter autumn spring time night"))
    return at > 0 && says(t, at - 1, "since") ? DOUBT_NONE : (*far = true, DOUBT_PAST);
  if (says(t, at, "was were had did got ate fed started began until till")) {
    bool verb = says(t, at, "had was were") && says(t, at + 1, "him her it them spayed neutered");
    return verb || (says(t, at, "started began") && at > 0 && says(t, at - 1, "i we")) ? DOUBT_NONE : DOUBT_PAST;
  }
  if (says(t, at, "don't dont doesn't doesnt didn't didnt won't wont can't cant cannot never not haven't havent hasn't isn't wouldn't stop "
                  "stopped nobody"))
    return denies_nothing(t, at) ? DOUBT_NONE : DOUBT_DENIED;
  if (says(t, at, "said says say tells told recommends recommended advised advises suggests suggested thinks reckons"))
    return DOUBT_HEARSAY;
  if (says(t, at, "other another second") && says(t, at + 1, "dog dogs cat cats pup puppy one girl boy two")) return DOUBT_OTHER;
  if (says(t, at, "sister brother mate housemate sister's brother's mum's mother's neighbour's neighbor's friend's dad's")) return DOUBT_OTHER;
  if (says(t, at, "sometimes occasionally odd occasional rarely seldom whenever hopefully")) return DOUBT_RARE;
  if (says(t, at, "usually mostly normally probably perhaps possibly guess reckon think supposedly")) return DOUBT_SURE;
  if (says(t, at, "share shared shares between leftover leftovers") && !says(t, at + 1, "breakfast meals two three the meals morning"))
    return DOUBT_PART;
  return DOUBT_NONE;
}

/* Words between a cue and the food that tell of today again: "was thin, now gets". */
static bool is_of_today(const struct tokens *t, size_t at, enum doubt d) {
  if (says(t, at, "but now today currently nowadays instead")) return true;
  if (d == DOUBT_IF) return false;
  if (says(t, at, "so and because")) return d != DOUBT_PAST && d != DOUBT_DENIED ? true : says(t, at + 1, "he she i we it they now");
  return says(t, at, "gets eats has is are gives feeds goes adds get's i'm i've") ||
         (says(t, at, "i we") && says(t, at + 1, "give feed add put use do"));
}

/* The tokens of a claimed piece of the sentence. */
static bool range_of(const struct net *n, const struct claim *c, size_t *from, size_t *to) {
  *from = *to = n->t.count;
  for (size_t i = 0; i < n->t.count; i++)
    if (net_within(n->t.item[i].at, c->text)) {
      if (*from == n->t.count) *from = i;
      *to = i + 1;
    }
  return *from < *to;
}

static size_t amount_of(const struct net *n, const struct claim *line, size_t from, size_t to) {
  for (size_t c = n->h->claim_from; c < n->claim_to; c++) {
    const struct claim *a = &n->r->claim[c];
    if (a->kind != CLAIM_AMOUNT || a->first != line->first) continue;
    for (size_t i = from; i < to; i++)
      if (net_within(n->t.item[i].at, a->text)) return i;
  }
  return from;
}

/* The first cue that reaches the food. */
static enum doubt doubt_of(const struct net *n, const struct claim *line) {
  size_t from, to;
  if (!range_of(n, line, &from, &to)) return DOUBT_NONE;
  size_t amount = amount_of(n, line, from, to);
  for (size_t i = 0; i < to; i++) {
    bool far;
    if (net_claim_at(n, i, CLAIM_TOLD)) continue;
    enum doubt d = cue_at(&n->t, i, &far);
    if (d == DOUBT_NONE || (i < from && !far)) continue;
    if (frequency_at(&n->t, i).tokens > 0) continue;
    bool cancelled = false;
    for (size_t k = i + 1; k < amount && !cancelled; k++) cancelled = is_of_today(&n->t, k, d);
    if (i > amount && d != DOUBT_PART && d != DOUBT_SURE) { /* behind the food: only in the words that are its own */
      for (size_t k = amount; k < i && !cancelled; k++)
        cancelled = net_ends_clause(&n->t, k) || says(&n->t, k, "and that which who because since for as to");
    }
    if (!cancelled) return d;
  }
  return DOUBT_NONE;
}

void net_doubt_lines(struct net *n) {
  struct post_reader *r = n->r;
  for (size_t c = n->h->claim_from; c < n->claim_to; c++) {
    const struct claim *line = &r->claim[c];
    if (line->kind != CLAIM_LINE) continue;
    enum doubt d = doubt_of(n, line);
    if (d == DOUBT_NONE) continue;
    struct span quote = post_quote(r, line->text);
    bool any = false;
    for (size_t i = line->first; i < line->last && i < r->count; i++) {
      if (r->item[i].kind != ITEM_FOOD) continue;
      any = true;
      if (!DOUBT[d].why)
        post_doubt(r, i, d == DOUBT_SURE ? "the post is not sure of it" : "counted as if all of it went to this animal");
      else
        post_withdraw(r, i, line->text, DOUBT[d].why);
    }
    if (!any) continue;
    struct buf b;
    buf_init(&b, r->arena, quote.n + 200);
    const char *mark = strstr(DOUBT[d].ask, "%.*s");
    buf_addf(&b, "%.*s%.*s%s", (int)(mark - DOUBT[d].ask), DOUBT[d].ask, SPAN_ARG(quote), mark + 4);
    r->line = n->h->line;
    r->ask_of = line->first + 1;
    post_ask(r, DOUBT[d].why ? 3 : 2, "%s", buf_text(&b));
    r->ask_of = 0;
  }
}
