/* Clauses of which no reader has taken a word, and that tell of something fed: "My mother gives him the heel of the loaf
 * every evening". They are told as left out, and asked about. */
#include "post/govern/post_govern.h"

static bool is_heard(const struct governed *g, size_t at) { return governed_is_told(g, at) || governed_line(g, at) != NULL; }

/* A thing that is fed and that no table has, or what one counts food by. */
static bool names_thing(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (phrase_of(t, i, CLASS_FED_THING) > 0 || says_a(t, i, CLASS_CANNOT_MEASURE) || says_a(t, i, CLASS_PACKED_SHAPE) ||
        post_mention_at(r, t, i) > 0)
      return true;
  return false;
}

static bool tells_amount(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to;) {
    size_t skip = frequency_at(t, i).tokens;
    if (skip == 0) skip = not_an_amount(t, i);
    struct post_amount a = skip > 0 ? (struct post_amount){0} : post_amount_at(t, i);
    size_t behind = i + a.tokens;
    if (a.tokens > 0 && a.bare && names_thing(r, t, behind, to < behind + 5 ? to : behind + 5)) return true;
    if (a.tokens > 0 && a.bare && !a.by_word && a.low >= 2 && frequency_at(t, behind).tokens > 0) return true;
    if (a.tokens > 0 && behind == to && i > from && says(t, i - 1, "gets has eats")) return true; /* "She gets two." */
    if (a.tokens > 0 && a.bare && !a.by_word && a.low >= 5 && says(t, behind, "now today instead")) return true;
    i += skip > 0 ? skip : a.tokens > 0 ? a.tokens : 1;
  }
  return false;
}

/* "She has a dentizorb every day": a thing that is had, and no walk or bath. */
static bool has_a_thing(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i + 2 < to; i++) {
    size_t at = i + 1;
    if (!says(t, i, "has have enjoys eats")) continue;
    while (says(t, at, "always also usually only just now")) at++;
    size_t thing = at;
    while (says(t, thing, "a an one half two his her small big little")) thing++;
    if (thing > at && post_is_thing(t, at) &&
        !says(t, thing,
              "nap bath run sleep wee poo poop cuddle play lie check look lot few bit problem issue issues habit history "
              "tummy stomach coat good bad "
              "great lovely very history condition allergy allergies body score way thing tendency go drink rest swim "
              "massage brush brushing"))
      return true;
  }
  return false;
}

/* "gives him ...", "gets ... every evening": and neither walks nor the vet. */
static bool tells_feeding(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  bool eats = false, given = false, timed = false, content = false;
  if (holds_a(t, from, to, CLASS_ABOUT_THE_ANIMAL)) return false;
  for (size_t i = from; i + 2 < to; i++) /* "I do all her meals on a Saturday": when it is cooked */
    if (says(t, i, "i we") && says(t, i + 1, "do make prep cook prepare batch") &&
        (says(t, i + 2, "all it") || says(t, i + 3, "meals food bowls dinners")))
      return false;
  for (size_t i = from; i < to; i++) {
    bool verb = says_a(t, i, CLASS_FEEDING_VERB);
    bool to_him = i + 1 < to && says(t, i + 1, "him her them it");
    given = given || (says(t, i, "gives give slips slip sneaks sneak feeds feed hands hand throws throw") && to_him);
    eats = eats || verb;
    given = given || (verb && i + 1 < to && says(t, i + 1, "whatever anything odds scraps"));
    given = given || (says(t, i, "also") && i + 2 < to && says(t, i + 1, "gets has eats takes") &&
                      says(t, i + 2, "a an half some one another two three quarter"));
    timed = timed || frequency_at(t, i).tokens > 0 || (is_word(t, i) && token_is_a(&t->item[i], CLASS_MEAL));
    content = content || (is_word(t, i) && t->item[i].word.n > 2 && !verb && !(i == from && post_pet_name(r, t, i).n > 0) &&
                          !token_is_a(&t->item[i], CLASS_CHATTER) && !token_is_a(&t->item[i], CLASS_CLAUSE_OPENER) &&
                          !token_is_a(&t->item[i], CLASS_VAGUE_AMOUNT) && !is_a(t->item[i].word, CLASS_EVERYDAY) &&
                          !says(t, i, "raw cooked homemade fresh one morning mornings evening evenings night nights") &&
                          frequency_at(t, i).tokens == 0);
  }
  size_t behind = to + 1; /* "She has a dentizorb too, every day" */
  if (is_mark(t, to, ',') && behind < t->count) {
    size_t often = frequency_at(t, behind).tokens;
    timed = timed || (often > 0 && (behind + often >= t->count || t->item[behind + often].kind == TOKEN_MARK));
  }
  return content && (given || ((eats || has_a_thing(t, from, to)) && timed));
}

/* "No treats", "what he gets a day", "I would give her": nothing is fed by it, or what is fed stands elsewhere. */
static bool feeds_nothing(const struct tokens *t, size_t from, size_t to) {
  if (holds_a(t, from, to, CLASS_WAY_OF_FEEDING)) return true; /* "I feed him strictly carnivore" */
  for (size_t i = from; i < to; i++)
    if (says(t, i,
             "no not never without nothing none don't dont doesn't doesnt didn't won't wont can't cant isn't isnt what how "
             "here's heres would could should rotation licks") ||
        says_a(t, i, CLASS_SHARED_OUT))
      return true;
  return false;
}

/* Is a food counted or left out in this line of the post? */
static bool feeds_in_line(struct post_reader *r, int line) {
  for (size_t i = 0; i < r->count; i++)
    if (r->item[i].line == line && r->item[i].kind != ITEM_GONE) return true;
  for (size_t i = 0; i < r->left_count; i++)
    if (r->left[i].line == line && r->left[i].fed) return true;
  return false;
}

/* "a katori of dal", "one B complex" among the lines of a list: an amount and a word or two, and not a word of who it is. */
static bool stands_listed(struct governed *g, size_t from, size_t to) {
  enum { WORDS_MOST = 5 };
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  enum species animal;
  size_t words = 0;
  size_t last = t->count;
  while (last > to && t->item[last - 1].kind == TOKEN_MARK) last--; /* "half a zorbix at bedtime!" */
  bool content = false, alone = from == 0 && to == last;
  struct quantity q = quantity_at(t, from);
  struct post_amount a = post_amount_at(t, from);
  bool behind = to > from + 1 && to <= from + 4 && t->item[to - 1].kind == TOKEN_NUMBER; /* "carr 50" */
  bool counted = q.fault == QUANTITY_FINE || a.tokens > 0 || says(t, from, "a an") || behind;
  bool listed = g->n.h->bulleted && alone && !is_mark(t, to - 1, ':') &&
                to <= 12; /* "- hydrolysed collagen, whatever falls off the spoon" */
  if (!alone || (!counted && !listed) || a.is_percent) return false;
  if (holds_a(t, from, to, CLASS_ABOUT_THE_ANIMAL) || not_an_amount(t, from) > 0) return false;
  for (size_t i = from; i < to; i++) {
    if (!is_word(t, i)) continue;
    struct span w = t->item[i].word;
    if (token_is_animal(&t->item[i], &animal) || says_a(t, i, CLASS_NO_FOOD) || says_a(t, i, CLASS_COUNTS_TIME) ||
        says_a(t, i, CLASS_TOLD_BESIDE_WEIGHT) || says_a(t, i, CLASS_KILOGRAMS) ||
        token_is_a(&t->item[i], CLASS_CLAUSE_OPENER) || token_is_a(&t->item[i], CLASS_EVERYDAY))
      return false;
    words += !is_chatter(w);
    content = content || (w.n > 2 && !is_chatter(w) && !is_vague(w) && quantity_at(t, i).fault == QUANTITY_NONE);
  }
  if (!content || (words > WORDS_MOST && !listed)) return false;
  return feeds_in_line(r, g->n.h->line - 1) || feeds_in_line(r, g->n.h->line + 1);
}

/* "Sun: whatever is left of our roast, chook mostly": what is fed on a day, or at a meal, and nobody took a word of it. */
static bool stands_under_a_day(struct governed *g, size_t from, size_t to) {
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  const char *day;
  size_t used = from == 0 ? post_day_prefix(r, t, &day) : 0;
  if (from == 0 && used == 0) used = post_meal_prefix(t);
  if (used > 0 && is_mark(t, used, ':')) used++;
  if (used == 0 || !is_mark(t, used - 1, ':') || used >= to || says_in(t, used, to, "fasting fast fasts nothing"))
    return false;
  for (size_t i = used; i < to; i++)
    if (is_word(t, i) && t->item[i].word.n > 2 && !token_is_a(&t->item[i], CLASS_CHATTER) &&
        !is_a(t->item[i].word, CLASS_EVERYDAY) && !holds_a(t, i, i + 1, CLASS_ABOUT_THE_ANIMAL))
      return !holds_a(t, used, to, CLASS_ABOUT_THE_ANIMAL);
  return false;
}

static void tell(struct governed *g, size_t from, size_t to) {
  struct post_reader *r = g->n.r;
  struct span text = tokens_span(&g->n.t, from, to - from);
  r->line = g->n.h->line;
  r->sentence = g->n.h->text;
  if (post_leave(r, text, "whether or how it is fed could not be read with certainty", true)) return;
  struct post_question *q =
      post_ask(r, 2, "Is '%.*s' fed? What is it, how much, and how often?", SPAN_ARG(post_quote(r, text)));
  if (q) q->about = ASKS_OF_AMOUNTS;
}

/* "Luna lives on tins", "the other two eat kibble", "Ted is on a prescription dry": what others live on is told as such. */
static void tell_of_others(struct governed *g, size_t from, size_t to) {
  const struct tokens *t = &g->n.t;
  struct post_reader *r = g->n.r;
  bool lives = false, thing = false;
  for (size_t i = from; i < to; i++) {
    lives = lives || (says(t, i, "lives live is are stays stay") && says(t, i + 1, "on")) ||
            says(t, i, "eats eat gets get has have");
    thing = thing || says(t, i, "tins tinned kibble dry pouches biscuits wet prescription raw canned cans") ||
            phrase_of(t, i, CLASS_FED_THING) > 0;
  }
  struct span text = tokens_span(t, from, to - from);
  if (!lives || !thing || post_any_amount(&(struct tokens){t->item, to}, from)) return;
  for (size_t i = 0; i < r->left_count; i++)
    if (span_holds_fold(span_of(r->left[i].text), text)) return;
  for (size_t k = 0; k < r->count; k++)
    if (r->item[k].sentence == g->n.number && r->item[k].kind != ITEM_GONE &&
        net_within(t->item[from].at, span_of(r->item[k].text)))
      return;
  r->line = g->n.h->line;
  post_note(r, text, "mentioned, but not taken as fed");
}

/* "Ted is on a prescription dry so please ignore him": taken as a whole for what it says of whom the post is about. */
static bool lives_on(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i + 2 < to; i++)
    if (says(t, i, "lives live is are") && says(t, i + 1, "on") && holds_a(t, i + 2, to, CLASS_FED_THING)) return true;
  for (size_t i = from; i + 2 < to; i++)
    if (says(t, i, "lives live is are") && says(t, i + 1, "on a the") && says(t, to - 1, "dry tins kibble pouches"))
      return true;
  return false;
}

/* The clauses of which nobody took a word, and with 'others' those of what others live on. */
static void each_unheard(struct governed *g, void (*tells)(struct governed *g, size_t from, size_t to), bool others) {
  const struct tokens *t = &g->n.t;
  for (size_t from = 0; from < t->count;) {
    size_t to = from;
    bool heard = false;
    for (; to < t->count && !(to > from && net_ends_clause(t, to)); to++) heard = heard || is_heard(g, to);
    size_t first = net_ends_clause(t, from) ? from + 1 : from;
    if (first < to && (!heard || (others && !g->lines && lives_on(t, first, to)))) tells(g, first, to);
    from = to;
  }
}

static void tell_fed(struct governed *g, size_t first, size_t to) {
  const struct tokens *t = &g->n.t;
  size_t who = says(t, first, "the my our and but") ? first + 1 : first;
  if (says(t, who, "the my our")) who++;
  if (says(t, who, "other others") && who > first) { /* "the other two eat kibble" */
    tell_of_others(g, first, to);
    return;
  }
  if (!feeds_nothing(t, first, to) && (tells_amount(g->n.r, t, first, to) || tells_feeding(g->n.r, t, first, to) ||
                                       stands_listed(g, first, to) || stands_under_a_day(g, first, to)))
    tell(g, first, to);
}

void tell_unheard(struct governed *g) {
  const struct tokens *t = &g->n.t;
  if (t->count == 0 || is_mark(t, t->count - 1, '?')) return;
  if (!is_of_another(t) && !not_fed(t)) each_unheard(g, tell_fed, false);
  each_unheard(g, tell_of_others, true);
}
