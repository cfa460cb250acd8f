
/* The net: each food that a post names and each amount belongs to a counted line, or to something told as not counted. What
 * is left over is told here, and asked about where it may be fed. */
#include "foods/refused.h"
#include "post/govern/post_govern.h"

static bool any_item_is(struct net *n, size_t first, size_t last, size_t at, size_t tokens) {
  for (size_t i = first; i < last && i < n->r->count; i++)
    if (net_item_is(n, &n->r->item[i], at, tokens)) return true;
  return false;
}

/* ---- what is left over ---- */

struct gap {
  size_t from, to; /* tokens */
  bool food, amount;
  const struct claim *beside; /* within the words of a counted line */
};

/* Is the food that is named here told of somewhere: counted, left out, or in a question? */
static bool is_told_elsewhere(struct net *n, size_t at, size_t tokens) {
  struct post_reader *r = n->r;
  if (!net_is_kind(n->t.item[at + tokens - 1].word) && any_item_is(n, 0, r->count, at, tokens)) return true;
  if (tokens == 1 && at > 0 && says(&n->t, at - 1, "no") && governed_some_days(&n->t, n->t.count)) /* "no meat on Fridays" */
    for (size_t i = 0; i < r->count; i++)
      if (r->item[i].kind == ITEM_FOOD && food_is_refused(r->lib, r->item[i].food, "", n->t.item[at].word, r->arena))
        return true;
  for (size_t i = 0; i < r->left_count; i++) {
    bool all = true;
    for (size_t k = at; k < at + tokens && all; k++) all = net_has_word(span_of(r->left[i].text), n->t.item[k].word);
    if (all) return true;
  }
  return false;
}

static bool is_of_a_body(const struct tokens *t, size_t at, size_t used) {
  for (size_t i = at > 4 ? at - 4 : 0; i < t->count && i < at + used + 4; i++)
    if (says(t, i,
             "weigh weighs weighing weighed weight bodyweight lost gained lose gain losing ideal target heavier lighter "
             "overweight underweight kcal calories bag sack"))
      return true;
  return false;
}

static bool has_number(struct span text, struct span number) {
  for (size_t i = 0; i + number.n <= text.n; i++) {
    bool begins = i == 0 || !memchr("0123456789.", text.p[i - 1], 11);
    size_t end = i + number.n;
    bool ends = end == text.n || !memchr("0123456789", text.p[end], 10);
    if (begins && ends && memcmp(text.p + i, number.p, number.n) == 0) return true;
  }
  return false;
}

static bool amount_is_counted(struct net *n, const struct claim *line, size_t at, size_t tokens) {
  for (size_t i = at; i < at + tokens; i++)
    if (net_claim_at(n, i, CLAIM_AMOUNT)) return true;
  for (size_t k = line ? line->first : 0; line && k < line->last && k < n->r->count; k++)
    for (size_t i = at; i < at + tokens; i++)
      if (n->t.item[i].kind == TOKEN_NUMBER && has_number(span_of(n->r->item[k].text), n->t.item[i].at)) return true;
  return false;
}

/* "three small meals", "total 305 g", "in 4 cups of water", "tolerance 5 %". */
static bool says_no_amount(const struct tokens *t, size_t at, const struct post_amount *a) {
  size_t behind = at + a->tokens;
  if (says(t, behind, "of")) behind++;
  if (says(t, behind, "meal meals water feeds")) return true;
  for (size_t i = at > 2 ? at - 2 : 0; i < at; i++)
    if (says(t, i, "total totals totalling altogether sum tolerance margin error adds comes")) return true;
  return false;
}

static const char *quoted_in(struct post_reader *r, const char *fmt, struct span text) {
  struct buf b;
  buf_init(&b, r->arena, text.n + strlen(fmt) + 16);
  buf_addf(&b, fmt, SPAN_ARG(quoted(text)));
  return buf_text(&b);
}

enum { GAPS_MOST = 24 };

/* "morning 50, evening 30 g", "50 g at breakfast, 30 at dinner": a number beside a meal is an amount. */
static bool at_a_meal(const struct net *n, size_t at, const struct post_amount *a) {
  if (a->tokens == 0 || !a->bare || a->by_word || !(a->low >= 5) || n->t.item[at].kind != TOKEN_NUMBER) return false;
  size_t behind = at + a->tokens;
  if (says(&n->t, behind, "at in for"))
    behind++;
  else if (behind < n->t.count && n->t.item[behind].kind == TOKEN_WORD)
    return false;
  bool meal = is_word(&n->t, behind) && token_is_a(&n->t.item[behind], CLASS_MEAL);
  return meal ||
         (at > 0 && is_word(&n->t, at - 1) && token_is_a(&n->t.item[at - 1], CLASS_MEAL) && !says(&n->t, at - 1, "am pm"));
}

/* "our girl Biscuit is a lab", "my cat Pumpkin weighs": the name of an animal. */
static bool names_a_pet(const struct tokens *t, size_t at, size_t used) {
  if (t->item[at].at.n == 0 || !(t->item[at].at.p[0] >= 'A' && t->item[at].at.p[0] <= 'Z') || at == 0) return false;
  bool before = says(t, at - 1, "girl boy lad lass dog cat pup puppy kitten called named mr mrs miss old");
  bool behind =
      says(t, at + used, "weighs eats loves gets") || (says(t, at + used, "is") && says(t, at + used + 1, "a an our my"));
  return before || (behind && !says(t, at - 1, "and or the of"));
}

static size_t find_gaps(struct net *n, struct gap gap[GAPS_MOST]) {
  size_t count = 0;
  for (size_t i = 0; i < n->t.count && count < GAPS_MOST;) {
    const struct claim *line = net_claim_at(n, i, CLAIM_LINE);
    size_t tokens = 0, skip;
    bool food = false;
    if (net_claim_at(n, i, CLAIM_TOLD) || net_within(n->t.item[i].at, n->r->whole_said)) {
      i++;
      continue;
    }
    skip = frequency_at(&n->t, i).tokens;
    if (skip == 0) skip = not_an_amount(&n->t, i);
    if (skip > 0) {
      i += skip;
      continue;
    }
    struct post_amount a = post_amount_at(&n->t, i);
    if (at_a_meal(n, i, &a) && !amount_is_counted(n, line, i, a.tokens)) {
      tokens = a.tokens;
    } else if (a.tokens > 0 && !a.bare) {
      tokens = a.tokens;
      if (a.cannot || says_no_amount(&n->t, i, &a))
        tokens = 0, skip = a.tokens;
      else if (amount_is_counted(n, line, i, tokens) || is_of_a_body(&n->t, i, tokens))
        tokens = 0, skip = a.tokens;
    } else if ((skip = post_mention_at(n->r, &n->t, i)) > 0 ||
               (!line && (skip = phrase_of(&n->t, i, CLASS_FED_THING)) > 0)) {
      food = true;
      tokens = skip;
      if (names_a_pet(&n->t, i, skip))
        tokens = 0;
      else if (line && any_item_is(n, line->first, line->last, i, tokens))
        tokens = 0;
      else if (is_told_elsewhere(n, i, tokens))
        tokens = 0;
    }
    if (tokens == 0) {
      i += skip > 0 ? skip : 1;
      continue;
    }
    struct gap *before = count > 0 ? &gap[count - 1] : NULL;
    bool joins = before && before->beside == line;
    for (size_t k = before ? before->to : 0; joins && k < i; k++)
      joins = !net_ends_clause(&n->t, k) && (line || !net_claim_at(n, k, CLAIM_LINE)) && !net_claim_at(n, k, CLAIM_TOLD);
    if (!joins) gap[count++] = (struct gap){.from = i, .beside = line};
    struct gap *now = &gap[count - 1];
    now->to = i + tokens;
    now->food = now->food || food;
    now->amount = now->amount || !food;
    i += tokens;
  }
  return count;
}

/* The clause around it, as far as nothing else has it. */
static struct span words_around(const struct net *n, const struct gap *g) {
  size_t from = g->from, to = g->to;
  if (!g->beside) {
    while (from > 0 && !net_ends_clause(&n->t, from - 1) && !net_claim_at(n, from - 1, CLAIM_LINE) &&
           !net_claim_at(n, from - 1, CLAIM_TOLD))
      from--;
    while (to < n->t.count && !net_ends_clause(&n->t, to) && !net_claim_at(n, to, CLAIM_LINE) &&
           !net_claim_at(n, to, CLAIM_TOLD))
      to++;
  }
  return tokens_span(&n->t, from, to - from);
}

/* "with no skin", "no bones": without a part, the food is fed. */
static bool denies_a_part(const struct tokens *t, size_t at) {
  return says(t, at, "no without not") &&
         (says_a(t, at + 1, CLASS_KEPT_BEHIND_NO) || says_a(t, at + 1, CLASS_NOT_EATEN_ANYWAY));
}

/* "no butter", "without seeds", "the corn's gone": said of what stands in [from, to). */
static bool is_denied(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from > 4 ? from - 4 : 0; i < to && i < t->count; i++) {
    if (i < from && t->item[i].kind == TOKEN_MARK && t->item[i].mark != '(') continue;
    if (says_a(t, i + 1, CLASS_DENIES_NO_FOOD) || denies_a_part(t, i)) continue; /* "no idea how much" */
    if (says(t, i,
             "allergic allergy intolerant hates dislikes no not never without don't dont doesn't doesnt didn't didnt won't "
             "wont can't cant cannot nobody none nor neither isn't isnt aren't arent haven't havent hasn't hasnt instead "
             "avoid"))
      return true;
  }
  for (size_t i = to; i < t->count && i < to + 3; i++)
    if (!says_a(t, i + 1, CLASS_DENIES_NO_FOOD) && !denies_a_part(t, i) &&
        says(t, i, "gone no out stopped stopd isn't aren't free"))
      return true;
  for (size_t i = from; i < to; i++) {
    struct span w = t->item[i].word;
    if (is_word(t, i) && w.n > 3 && span_is(span_cut(w, w.n - 2, w.n), "'s") && says(t, i + 1, "gone out off")) return true;
  }
  return false;
}

/* "veal, minced 170 g", of which "minced" alone came into a line: the line right beside a food that came into none. */
static void doubt_beside(struct net *n, const struct gap *g) {
  struct post_reader *r = n->r;
  size_t before = g->from, behind = g->to;
  if (!g->food || g->amount || g->beside) return;
  while (before > 0 && (is_mark(&n->t, before - 1, ',') || says(&n->t, before - 1, "and or with"))) before--;
  while (is_mark(&n->t, behind, ',') || says(&n->t, behind, "and or with")) behind++;
  const struct claim *line[2] = {before > 0 ? net_claim_at(n, before - 1, CLAIM_LINE) : NULL,
                                 net_claim_at(n, behind, CLAIM_LINE)};
  const char *note = quoted_in(r, "a food stands beside it that came into no line: '%.*s'", words_around(n, g));
  for (int i = 0; i < 2; i++)
    for (size_t k = line[i] ? line[i]->first : r->count; k < r->count && k < line[i]->last; k++) post_doubt(r, k, note);
}

/* "sorry not carrot, parsnip": what is denied is counted. */
static bool takes_back_a_line(struct net *n, size_t from, size_t to) {
  struct post_reader *r = n->r;
  bool any = false;
  if (!says(&n->t, from, "not isn't isnt wasn't wasnt aren't weren't")) return false;
  for (size_t i = from; i < to; i++) {
    size_t used = post_mention_at(r, &n->t, i);
    for (size_t k = 0; k < r->count && used > 0 && !net_is_kind(n->t.item[i + used - 1].word); k++)
      if (r->item[k].kind == ITEM_FOOD && net_item_is(n, &r->item[k], i, used)) {
        post_doubt(r, k, quoted_in(r, "counted, though the post says '%.*s'", n->h->text));
        any = true;
      }
  }
  return any;
}

/* "he doesnt get milk any more": all of that is told when the food is. */
static void claim_denial(struct net *n, const struct gap *g) {
  size_t from = g->from, to = g->to;
  for (size_t i = g->from > 4 ? g->from - 4 : 0; i < g->from && from == g->from; i++)
    if (says_a(&n->t, i, CLASS_DENYING)) from = i;
  if (says(&n->t, to, "any") && says(&n->t, to + 1, "more longer")) to += 2;
  if (says(&n->t, to, "anymore")) to++;
  if (takes_back_a_line(n, from, g->from)) return;
  post_claim(n->r, tokens_span(&n->t, from, to - from), CLAIM_TOLD, 0, 0);
}

const char POST_NAMED_ONLY[] = "mentioned, but not taken as fed";

/* Is a food surely named among the words that a line was found by? */
static bool names_surely(struct post_reader *r, const struct item *item) {
  struct tokens t = post_tokens(r, item->words);
  for (size_t i = 0; i < t.count; i++)
    if (post_mention_at(r, &t, i) > 0) return true;
  return false;
}

/* "In summer I swap the beef for salmon, 250 g": what was counted is no food's name, and one stands beside it. */
static bool took_the_wrong_word(struct net *n, const struct gap *g) {
  struct post_reader *r = n->r;
  const struct claim *line = g->beside;
  if (!line || !g->food || r->item[line->first].kind != ITEM_FOOD || names_surely(r, &r->item[line->first])) return false;
  for (size_t i = line->first; i < line->last && i < r->count; i++)
    post_withdraw(r, i, line->text, "whether or how it is fed could not be read with certainty");
  post_ask(r, 3, "Is '%.*s' fed? How much of it, and how often?", SPAN_ARG(post_quote(r, line->text)));
  return true;
}

/* "Friday: mackerel", "Dinner - cod": a list of what is fed. */
static bool under_a_day(struct post_reader *r, const struct tokens *t) {
  const char *day = "";
  size_t used = post_day_prefix(r, t, &day);
  if (used == 0) used = post_meal_prefix(t);
  return used > 0 && (is_mark(t, used, ':') || is_mark(t, used, '-') || (used > 1 && t->item[used - 1].kind == TOKEN_MARK));
}

/* "Rice too.", "plus gravy": a food, and hardly a word besides. */
static bool is_fragment(const struct net *n, const struct gap *g) {
  size_t words = 0;
  for (size_t i = 0; i < n->t.count; i++) words += is_word(&n->t, i) && !token_is_a(&n->t.item[i], CLASS_CHATTER);
  return g->food && words <= g->to - g->from + 1;
}

/* A line of a list. */
static bool is_listed(const struct net *n) {
  struct tokens t = post_tokens(n->r, n->h->text);
  return n->h->bulleted || post_strip_bullet(&t) > 0;
}

/* "She only eats fish": a kind of food, and what it is stands elsewhere. */
static bool is_only_a_kind(const struct net *n, const struct gap *g) {
  if (!g->food || g->amount || g->to != g->from + 1 || !net_is_kind(n->t.item[g->from].word) || n->r->count == 0)
    return false;
  return g->from > 1 && says(&n->t, g->from - 1, "eats eat likes loves") &&
         says(&n->t, g->from - 2, "only just mostly mainly");
}

/* "Supplements: kelp 1/2 tsp": the name of a part of the list. */
static bool is_heading_of_list(const struct net *n, const struct gap *g) {
  return g->food && !g->amount && g->to == g->from + 1 && says_a(&n->t, g->from, CLASS_HEADING_OF_LIST) &&
         is_mark(&n->t, g->to, ':');
}

/* "Cat food for 2 cats, each 4.5 kg": what it is all for. "Dog food for breakfast" is food from a bag. */
static bool is_for_whom(const struct net *n) {
  enum species s;
  for (size_t i = 0; i + 3 < n->t.count; i++)
    if (is_word(&n->t, i) && token_is_animal(&n->t.item[i], &s) && says(&n->t, i + 1, "food meals dinner recipe mix stew") &&
        says(&n->t, i + 2, "for") && (is_number(&n->t, i + 3) || says(&n->t, i + 3, "my our two three both")))
      return true;
  return false;
}

/* "They each get about 2 cups a day", of a batch: of all that is in it, and of no food by itself. */
static bool is_portion_of_batch(const struct net *n, const struct gap *g) {
  return g->amount && !g->food && n->r->makes_days > 0 && post_often_in(n->r, &n->t, g->from, n->t.count)[0] &&
         holds_a(&n->t, 0, g->from + 1, CLASS_EATER_VERB);
}

/* "On weekends instead of chicken fish, same grams": on those days it is fed, whatever it says no to. */
static bool swaps_on_days(const struct net *n, const struct gap *g) {
  bool instead = false, days = false;
  if (!g->food || n->asks || post_any_amount(&n->t, 0)) return false;
  for (size_t i = 0; i < n->t.count; i++) {
    struct frequency f = frequency_at(&n->t, i);
    instead = instead || says(&n->t, i, "instead") || phrase_at(&n->t, i, "in place of") > 0;
    days = days || (f.tokens > 0 && !f.refuse && f.times_per_28 > 0 && f.times_per_28 < CALENDAR_DAYS);
    if (f.tokens > 0) i += f.tokens - 1;
  }
  return instead && days;
}

static void tell(struct net *n, const struct gap *g) {
  struct post_reader *r = n->r;
  struct span text = words_around(n, g);
  const char *why = not_fed(&n->t);
  bool denied = is_denied(&n->t, g->from, g->to), fed = !why && !n->asks && !denied && !is_only_a_kind(n, g);
  r->line = n->h->line;
  r->sentence = n->h->text;
  if (is_heading_of_list(n, g) || (!g->amount && is_for_whom(n)) || (fed && took_the_wrong_word(n, g))) return;
  if (!why) why = n->asks ? "a question, not what is fed" : denied ? "said not to be given" : POST_NAMED_ONLY;
  if (g->beside && !g->food) { /* a second amount for one food */
    struct item *item = &r->item[g->beside->first];
    post_doubt(r, g->beside->first, quoted_in(r, "the post names another amount as well: '%.*s'", text));
    r->ask_of = g->beside->first + 1;
    post_ask(r, 3, "'%.*s' names two amounts. Which one is fed? '%s' was counted.", SPAN_ARG(post_quote(r, g->beside->text)),
             item->text);
    r->ask_of = 0;
  } else if ((fed || denied) && swaps_on_days(n, g)) {
    if (!post_leave(r, text, "whether or how it is fed could not be read with certainty", true))
      post_ask(r, 3, "What is fed in the place of what, and how much, in '%.*s'?", SPAN_ARG(post_quote(r, n->h->text)));
  } else if (fed && g->food && (g->amount || n->fed || is_listed(n) || under_a_day(r, &n->t) || is_fragment(n, g))) {
    bool danger = post_leave(r, text, "whether or how it is fed could not be read with certainty", true);
    doubt_beside(n, g);
    if (!danger)
      post_ask(r, g->amount ? 3 : 2, "Is '%.*s' fed? How much of it, and how often?", SPAN_ARG(post_quote(r, text)));
  } else {
    post_note(r, post_own_words(r, text), why);
    if (fed) doubt_beside(n, g);
    if (denied) claim_denial(n, g);
    if (fed && (g->food || g->amount) && (n->has || g->amount) && !is_portion_of_batch(n, g))
      post_ask(r, 1.5, g->food ? "Is '%.*s' fed as well? How much, and how often?" : "Which food is meant by '%.*s'?",
               SPAN_ARG(post_quote(r, text)));
  }
}

static void hear_again(struct net *n) {
  struct gap gap[GAPS_MOST];
  n->t = post_tokens(n->r, n->h->text);
  for (size_t i = 0; i < n->t.count; i++) {
    n->fed = n->fed || says_a(&n->t, i, CLASS_FEEDING_VERB) || says(&n->t, i, "fed giving put puts");
    n->has = n->has || says(&n->t, i, "has have had goes takes shares");
  }
  n->asks = n->t.count > 0 && is_mark(&n->t, n->t.count - 1, '?');
  bool timed = false;
  for (size_t i = 0; i < n->t.count; i++)
    timed = timed || (is_word(&n->t, i) && token_is_a(&n->t.item[i], CLASS_MEAL)) ||
            (n->t.item[i].kind == TOKEN_NUMBER && not_an_amount(&n->t, i) > 0 && says(&n->t, i + 1, "am pm"));
  for (size_t i = 0; i < n->r->count; i++)
    if (n->r->item[i].sentence == n->number) n->r->item[i].timed = n->r->item[i].timed || timed;
  double meals = post_meals_said(&n->t);
  if (meals > 1) n->r->meals_heard = n->r->meals_heard > 0 && n->r->meals_heard != meals ? (double)NAN : meals;
  net_doubt_lines(n);
  if (net_correct(n) || net_replaced(n)) {
    n->r->heard[n->number - 1].corrected = true;
    return;
  }
  size_t count = find_gaps(n, gap);
  for (size_t i = 0; i < count; i++) tell(n, &gap[i]);
}

/* Does the name end with a thing that is made for animals, and that people eat under the same name? */
static bool is_feed(struct post_reader *r, struct span words) {
  struct tokens t = post_tokens(r, words);
  return t.count > 0 && says_a(&t, t.count - 1, CLASS_FEED_BY_NAME);
}

/* A counted line whose words are no food's everyday name: what it was read as is said. */
static void doubt_names(struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    if (item->kind != ITEM_FOOD || item->words.n == 0) continue;
    bool feed = is_feed(r, item->words); /* "biscuits" are a dog's */
    if (!feed && names_surely(r, item)) continue;
    const char *name = library_name(r->lib, item->food);
    struct buf b;
    buf_init(&b, r->arena, 400);
    buf_addf(&b, "'%.*s' read as %s", SPAN_ARG(quoted(item->words)), name);
    struct search_hit hit;
    if (!feed && post_look_up_name(r, item->words, &hit) && hit.score >= 1) continue;
    r->line = item->line;
    r->ask_of = i + 1;
    if (!strstr(item->assumed, buf_text(&b))) post_doubt(r, i, buf_text(&b));
    item->doubted = true;
    post_ask(r, 2, "'%.*s' was read as '%s'. Is that right?", SPAN_ARG(quoted(item->words)), name);
    r->ask_of = 0;
    arena_rewind(r->arena, r->begin);
  }
}

void post_net(struct post_reader *r) {
  if (r->heard_count > 0) r->heard[r->heard_count - 1].claim_to = r->claim_count;
  r->sentence = (struct span){"", 0};
  for (size_t i = 0; i < r->heard_count; i++) {
    struct net n = {.r = r, .h = &r->heard[i], .claim_to = r->heard[i].claim_to, .number = i + 1};
    hear_again(&n);
    arena_rewind(r->arena, r->begin);
  }
  net_weigh_pieces(r);
  doubt_names(r);
  post_doubt_weak(r);
}
