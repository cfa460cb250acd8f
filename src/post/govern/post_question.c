/* What the owner asks of the bowl: "is it too much liver?", "is the calcium right", "her coat is dull". Nothing is counted
 * by it; whoever answers says of what was asked what the figures say. */
#include "base/table.h"
#include "post/govern/post_govern.h"

/* ORDER ASKED_OF; words of the table. */
static const char *const KEY[] = {"", "ratio", "amount", "weight", "liver", "bone", "health", "food", "less", "exchange", "adding", "supplement"};
ROW_FOR_EACH(KEY, ASKED_OF_COUNT);
static const char HALF[] = "half";         /* what is meant to be fed is so much, whether that is asked or said as a plan */
static const char ONLY_ALONE[] = "enough"; /* "is it enough?" asks about the amount, "enough calcium?" does not */

static bool names_same(const struct owners_question *a, const struct owners_question *b) {
  if (a->of != b->of) return false;
  if (a->of == ASKED_OF_HEALTH) return strcmp(a->words, b->words) == 0;
  if (a->of == ASKED_OF_EXCHANGE || a->of == ASKED_OF_ADDING) return strcmp(a->words, b->words) == 0;
  if (a->of != ASKED_OF_NUTRIENTS) return true;
  return a->nutrients == b->nutrients && memcmp(a->nutrient, b->nutrient, a->nutrients * sizeof a->nutrient[0]) == 0;
}

static void take_meaning(struct owners_question *q, struct span means) {
  while (means.n > 0) {
    size_t n = 0;
    while (n < means.n && means.p[n] != ' ') n++;
    struct span word = span_cut(means, 0, n);
    for (size_t k = 1; k < COUNT_OF(KEY); k++)
      if (span_is(word, KEY[k])) q->of = (enum asked_of)k;
    q->half = q->half || span_is(word, HALF);
    enum nutrient of = nutrient_by_key(word);
    if (of != NUT_NONE && q->nutrients < ASKED_OF_NUTRIENTS_MOST) q->nutrient[q->nutrients++] = of;
    means = span_trim(span_cut(means, n, means.n));
  }
}

static void keep_question(struct post_reader *r, const struct owners_question *q) {
  for (size_t i = 0; i < r->asks; i++)
    if (names_same(q, &r->asked[i])) return;
  if (r->asks < OWNERS_QUESTIONS_MOST) r->asked[r->asks++] = *q;
}

static bool is_question(const struct tokens *t) {
  if (is_mark(t, t->count - 1, '?')) return true;
  size_t joint = says(t, 0, "also and oh plus so but") ? 1 : 0;
  return phrase_of(t, joint, CLASS_OPENS_QUESTION) > 0 || holds_a(t, 0, t->count, CLASS_WONDERS);
}

/* "I want to halve it": a plan, and whoever reads it has to say whether it is a good one. */
static bool means_to(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "want wanna gonna plan planning thinking tempted going thought") || says(t, i, "i'd i'll ill id"))
      return true;
  return false;
}

/* "Can I skip the kelp?", "leave the kelp out". */
static bool does_without(const struct tokens *t) {
  for (size_t i = 0; i + 1 < t->count; i++)
    for (size_t k = i + 1; says(t, i, "leave leaving") && k < t->count; k++)
      if (says(t, k, "out off")) return true;
  return holds_a(t, 0, t->count, CLASS_DOES_WITHOUT);
}

/* "No itching", "her coat was dull before": nothing that is seen today. "Has had loose stools" is. */
static bool is_denied(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    if (says(t, i, "no not never without was were used stopped gone cleared isn't isnt hasn't hasnt doesn't doesnt"))
      return true;
    if (says(t, i, "had") && !(i > 0 && says(t, i - 1, "has have he's she's hes shes"))) return true;
  }
  return false;
}

/* "My neighbour's dog is itchy". */
static bool is_somebody_elses(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct span word = t->item[i].word;
    bool owns = word.n > 2 && span_is(span_cut(word, word.n - 2, word.n), "'s");
    if (owns && is_a(span_cut(word, 0, word.n - 2), CLASS_ADVICE_GIVER)) return true;
  }
  return false;
}

/* "Is it needed daily, or is twice a week ok?" */
static bool asks_how_often(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (frequency_at(t, i).tokens > 0 || (says(t, i, "how") && says(t, i + 1, "often"))) return true;
  return false;
}

static bool asks_too_much(const struct tokens *t) {
  for (size_t i = 0; i + 1 < t->count; i++)
    if (says(t, i, "too") && says(t, i + 1, "much high")) return true;
  for (size_t i = 0; i + 1 < t->count; i++) /* "can she still have this much protein?" */
    if (says(t, i, "this so that as") && says(t, i + 1, "much"))
      return !says_in(t, 0, t->count, "enough need needs require how");
  return says_in(t, 0, t->count, "ruins ruin harm harms harmful damage damages strain strains overload overloads");
}

/* The tokens of "the kelp" in "skip the kelp", of "the rabbit" in "what hangs on the rabbit?": the first food from here. */
static size_t food_from(struct governed *g, size_t *at) {
  const struct tokens *t = &g->n.t;
  for (size_t i = *at; i < t->count; i++) {
    size_t n = governed_line(g, i) ? 0 : post_mention_at(g->n.r, t, i);
    if (n == 0) continue;
    *at = i;
    return n;
  }
  return 0;
}

/* Where the words of a class end in it; 0: it has none of them. */
static size_t behind_a(const struct tokens *t, enum post_class class) {
  for (size_t i = 0; i < t->count; i++) {
    size_t n = phrase_of(t, i, class);
    if (n > 0) return i + n;
  }
  return 0;
}

static struct owners_question begun(struct governed *g, size_t at, size_t tokens, enum asked_of of) {
  struct post_reader *r = g->n.r;
  return (struct owners_question){
      .line = g->n.h->line, .of = of, .words = arena_text(r->keep, tokens_span(&g->n.t, at, tokens)), .food = ""};
}

/* What is asked of one food by its name, where no word of the table has told it: "can I drop the rice?" */
static void ask_of_food(struct governed *g, bool leaves_out) {
  const struct tokens *t = &g->n.t;
  size_t at = leaves_out ? 0 : behind_a(t, CLASS_HANGS_ON), n;
  if ((!leaves_out && at == 0) || (n = food_from(g, &at)) == 0) return;
  struct owners_question q = begun(g, at, n, ASKED_OF_FOOD);
  q.food = q.words;
  q.leaves_out = leaves_out;
  keep_question(g->n.r, &q);
}

/* The name of a food at or behind a place, and its record. */
struct named {
  size_t at, tokens; /* tokens 0: there is none */
  uint32_t record;
};

static struct named named_from(struct governed *g, size_t from, size_t to) {
  for (size_t i = from; i < to && i < g->n.t.count; i++) {
    struct search_hit hit;
    size_t n = governed_line(g, i) ? 0 : post_mention_at(g->n.r, &g->n.t, i);
    if (n > 0 && post_look_up(g->n.r, tokens_span(&g->n.t, i, n), &hit)) return (struct named){i, n, hit.food};
  }
  return (struct named){0};
}

static const char *words_at(struct governed *g, struct named food) {
  return arena_text(g->n.r->keep, tokens_span(&g->n.t, food.at, food.tokens));
}

/* "Can I swap the liver for kidney?", "could I use salmon instead of the beef?" */
static bool ask_of_exchange(struct governed *g) {
  const struct tokens *t = &g->n.t;
  for (size_t i = 0; i < t->count; i++) {
    size_t verb = phrase_of(t, i, CLASS_ASKS_EXCHANGE), instead = phrase_of(t, i, CLASS_ASKS_INSTEAD);
    if (verb == 0 && instead == 0) continue;
    struct named first = named_from(g, verb > 0 ? i + verb : 0, verb > 0 ? t->count : i),
                 second = named_from(g, verb > 0 ? first.at + first.tokens : i + instead, t->count);
    if (first.tokens == 0 || second.tokens == 0 || first.record == second.record) return false;
    bool between = false;
    for (size_t k = first.at + first.tokens; k < second.at; k++) between = between || says(t, k, "for with by to of than");
    if (!between) return false;
    struct owners_question q = begun(g, first.at, second.at + second.tokens - first.at, ASKED_OF_EXCHANGE);
    struct named goes = verb > 0 ? first : second, comes = verb > 0 ? second : first;
    q.food = words_at(g, goes);
    q.record = goes.record;
    q.other = words_at(g, comes);
    q.other_record = comes.record;
    keep_question(g->n.r, &q);
    return true;
  }
  return false;
}

/* "Is cheese ok?", "can I add some cottage cheese?" */
static void ask_of_adding(struct governed *g) {
  enum { NEAR = 4 };
  const struct tokens *t = &g->n.t;
  for (size_t i = 0; i < t->count; i++) {
    size_t phrase = phrase_of(t, i, CLASS_ASKS_ADDING), is = says(t, i, "is are") ? 1 : 0;
    if (phrase == 0 && is == 0) continue;
    size_t from = i + (phrase > 0 ? phrase : is);
    struct named food = named_from(g, from, from + NEAR);
    if (food.tokens == 0) continue;
    bool asks = phrase > 0;
    for (size_t k = food.at + food.tokens; k < t->count && k < food.at + food.tokens + NEAR; k++)
      asks = asks || says(t, k, "ok okay fine safe allowed alright good bad");
    if (!asks) continue;
    struct owners_question q = begun(g, food.at, food.tokens, ASKED_OF_ADDING);
    q.food = q.words;
    q.record = food.record;
    keep_question(g->n.r, &q);
    return;
  }
}

void hear_owners_question(struct governed *g) {
  const struct tokens *t = &g->n.t;
  bool alone = true;
  if (t->count == 0) return;
  bool asks = is_question(t);
  bool told = !is_denied(t) && !is_somebody_elses(t);
  bool health = holds_a(t, 0, t->count, CLASS_HEALTH_SIGN) && (asks || told), plans = !asks && told && means_to(t);
  if ((!asks && !health && !plans) || is_of_another(t)) return;
  if (asks && !health && ask_of_exchange(g)) return;
  struct owners_question amount = {0};
  bool leaves_out = asks && does_without(t), often = asks && asks_how_often(t), much = asks && asks_too_much(t);
  for (size_t i = 0, n = 0; i<t->count; i += n> 0 ? n : 1) {
    const char *means = NULL;
    n = 0;
    if (governed_line(g, i)) continue; /* "20 g liver, ok?" */
    n = health ? meaning_at(t, i, CLASS_HEALTH_SIGN, &means) : 0;
    bool sign = n > 0;
    if (n == 0 && (asks || plans)) n = meaning_at(t, i, CLASS_OWNER_ASKS, &means);
    if (n == 0 || (plans && !sign && !span_holds_fold(span_of(means), span_of(HALF)))) continue;
    struct owners_question q = begun(g, i, n, sign ? ASKED_OF_HEALTH : ASKED_OF_NUTRIENTS);
    if (!sign && strcmp(means, ONLY_ALONE) == 0) {
      amount = q;
      amount.of = ASKED_OF_AMOUNT;
      continue;
    }
    take_meaning(&q, span_of(means));
    g->halves = g->halves || q.half;
    size_t food = i;
    q.leaves_out = leaves_out && !sign;
    q.which = q.of == ASKED_OF_BONE && i > 0 && says(t, i - 1, "which what");
    if (q.which) { /* "what bone instead of necks" */
      food = i + n;
      size_t words = food_from(g, &food);
      if (words > 0) q.food = arena_text(g->n.r->keep, tokens_span(t, food, words));
    }
    if (q.leaves_out) {
      size_t words = food_from(g, &food);
      q.food = words > 0 && food == i ? arena_text(g->n.r->keep, tokens_span(t, food, words)) : q.words;
    }
    q.how_often = often && q.of == ASKED_OF_NUTRIENTS;
    q.much = much && q.of == ASKED_OF_NUTRIENTS;
    keep_question(g->n.r, &q);
    alone = false;
  }
  size_t before = g->n.r->asks;
  if (alone && asks) ask_of_food(g, leaves_out);
  if (alone && asks && !leaves_out && g->n.r->asks == before && amount.of != ASKED_OF_AMOUNT) ask_of_adding(g);
  if (alone && amount.of == ASKED_OF_AMOUNT) keep_question(g->n.r, &amount);
}
