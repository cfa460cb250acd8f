/* The ledger: each word of a post that changes an amount, though it is no amount of a food, belongs to a reader that used
 * it. What is left over when all is read is asked about, and the lines that it may change say that they were counted
 * without. */
#include "post/govern/post_govern.h"

#include "base/num.h"

/* ---- what is said and asked ---- */

static const struct {
  const char *ask, *counted; /* behind the owner's words */
  double low, high;          /* what the line may be, as a part of what was counted; 1 and 1: nobody can say */
} SAYS[GOVERNS_KINDS] = {
    [GOVERNS_EDIT] = {"which amount is right now? All were counted as they stand.", "counted as it stood before", 1, 1},
    [GOVERNS_OTHER] = {"which of the food is for the animal that you ask about? All of it was counted.",
                       "counted as if all of it were for one animal", 0.2, 1},
    [GOVERNS_AGAIN] = {"is that fed beside the amount that stands above, or in its place? Both were counted.",
                       "counted beside another amount of the same food", 0.1, 1},
    [GOVERNS_DATED] = {"which of these days is fed as it is today? All were counted.",
                       "counted beside what other dates tell", 0.1, 1},
    [GOVERNS_PART] = {"how much of the food is that, for this animal? It was counted as if all went into its bowl.",
                      "counted whole", 0.2, 1},
    [GOVERNS_COUNT] = {"how many days does the food last, and how much of it is fed a day? It was counted without.",
                       "counted without how long it lasts", 1, 1},
    [GOVERNS_EACH] =
        {"are the amounts for each, or for all together? They were counted as they stand, for one animal a day.",
         "counted as it stands, for one animal a day", 0.5, 2},
    [GOVERNS_INSTEAD] = {"what is left out then, how much is fed in its place, and how often? Both were counted.",
                         "counted beside what it stands for", 0.5, 1},
    [GOVERNS_TURNS] = {"what is fed in turn, and how often? It was counted every time.", "counted as fed every time", 0.3,
                       1},
    [GOVERNS_EXCEPT] = {"when is it not fed, or which food is left out? It was counted every day.", "counted every day", 0.5,
                        1},
    [GOVERNS_PAST] = {"is it still fed today, and how much? It was counted.", "counted as fed today", 0.1, 1},
    [GOVERNS_COMING] = {"how much is fed today? It was counted as it stands.", "counted as fed today", 0.1, 1},
    [GOVERNS_CHANGING] = {"how much is fed today? It was counted as it stands.", "counted as fed today", 0.5, 1.5},
    [GOVERNS_NOT] = {"on which days is that not fed, or is it fed no longer? It was counted.", "counted as always fed", 0.1,
                     1},
    [GOVERNS_CONDITION] = {"how often is that so? It was counted as if always.", "counted as if always so", 0.1, 1},
    [GOVERNS_LABEL] = {"which of them is fed when? All were counted every day.", "counted every day", 0.3, 1},
    [GOVERNS_OFTEN] = {"which foods is that said of? It was not counted with any.", "counted without it", 0.5, 2},
    [GOVERNS_SAME] = {"what is the same, and how much is it in all? It was counted once.", "counted once", 1, 2},
    [GOVERNS_TIMES] = {"how much is that, in grams a day? It was counted without.", "counted without it", 0.5, 2},
    [GOVERNS_OR] = {"which of them is fed, and how often? It was counted as it stands.", "counted as if it alone were fed",
                    0.3, 1},
    [GOVERNS_RATE] = {"how much does that come to a day? It was counted as it stands.", "counted as it stands", 1, 1},
    [GOVERNS_WEIGHED] = {"which foods were weighed raw or dry, and which cooked? They were taken as the lines say.",
                         "weighed raw or cooked as the line says", 0.7, 1.4},
    [GOVERNS_VARY] = {"how much is it as a rule, and between which limits?", "counted as it stands, though it varies", 0.7,
                      1.3},
    [GOVERNS_NUMBER] = {"what does the number say? It was counted without.", "counted without this number", 1, 1}};

/* The words around a governor: its clause, or what is near where that is long. */
static struct span words_near(const struct governed *g, const struct governor *w) {
  enum { BEFORE = 4, BEHIND = 5 };
  const struct tokens *t = &g->n.t;
  size_t from = w->at, to = w->at + w->tokens;
  while (from > 0 && from + BEFORE > w->at && !net_ends_clause(t, from - 1)) from--;
  while (to < t->count && to < w->at + w->tokens + BEHIND && !net_ends_clause(t, to)) to++;
  return tokens_span(t, from, to - from);
}

/* "200 g beef" becomes "200 g (100-200 g) beef". */
static void widen(struct post_reader *r, struct item *item, double low, double high) {
  struct tokens t = post_tokens(r, span_of(item->text));
  struct post_amount a = post_amount_at(&t, 0);
  if (!(low < high) || !a.is_mass || a.low != a.high || a.tokens == 0 || a.tokens >= t.count || is_mark(&t, a.tokens, '('))
    return;
  struct buf b;
  const char *assumed;
  struct ration_line got;
  buf_init(&b, r->arena, strlen(item->text) + 80);
  amount_write(&b, &a, 1);
  buf_adds(&b, " (");
  num_sig(&b, low * a.low, 4);
  buf_addc(&b, '-');
  num_sig(&b, high * a.low, 4);
  buf_addf(&b, " %s) %s", a.unit, t.item[a.tokens].at.p);
  double grams = r->taken_grams;
  uint32_t food = r->taken_food;
  if (strict_takes(r, buf_text(&b), &assumed, &got) && got.shown_food == item->food)
    item->text = arena_text(r->keep, buf_span(&b));
  r->taken_grams = grams;
  r->taken_food = food;
}

/* What the answer could change: a part of a spoonful little, all of the food most. */
static double weight_of_reach(const struct post_reader *r, const struct governed *g) {
  double reached = 0, all = 0;
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind != ITEM_FOOD || !(r->item[i].grams > 0)) continue;
    all += r->item[i].grams;
    if (g->reach[i]) reached += r->item[i].grams;
  }
  double share = all > 0 ? reached / all : 1;
  return share > 0.3 ? 3.2 : share > 0.05 ? 2.4 : 1.4;
}

static void ask_about(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  struct span words = post_quote(r, words_near(g, w));
  struct buf note;
  size_t first = r->count;
  buf_init(&note, r->arena, words.n + 120);
  buf_addf(&note, "%s; the post says '%.*s'", SAYS[w->kind].counted, SPAN_ARG(words));
  r->line = g->n.h->line;
  double weight = weight_of_reach(r, g);
  for (size_t i = 0; i < r->count; i++) {
    if (!g->reach[i] || r->item[i].kind != ITEM_FOOD) continue;
    if (first == r->count) first = i;
    if (r->item[i].doubted) continue;
    widen(r, &r->item[i], SAYS[w->kind].low, SAYS[w->kind].high);
    post_doubt(r, i, buf_text(&note));
  }
  r->ask_of = first < r->count ? first + 1 : 0;
  struct post_question *q = post_ask(r, weight, "You write '%.*s': %s", SPAN_ARG(words), SAYS[w->kind].ask);
  if (q) q->about = ASKS_OF_AMOUNTS;
  r->ask_of = 0;
}

/* ---- finding them ---- */

/* "20 tubs", "two portions a day", "lasts him 5 days" */
static size_t count_at(const struct tokens *t, size_t at) {
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE || says(t, at, "a an half") || !(q.low >= 2)) return 0;
  size_t behind = at + q.tokens;
  for (size_t i = behind; i < behind + 3 && i < t->count && is_word(t, i); i++) {
    if (says_a(t, i, CLASS_VESSEL_OF_SUPPLY))
      return says(t, i + 1, "of") && post_amount_at(t, at).tokens > 0 ? 0 : i + 1 - at;
    if (says(t, i, "of a an the in and or for g kg lb oz")) break;
  }
  bool time =
      q.low >= 2 && says(t, behind, "days day's days' weeks week's months") && !says(t, behind + 1, "ago old now in of");
  return time && holds_a(t, 0, t->count, CLASS_TELLS_SUPPLY) ? q.tokens + 1 : 0;
}

/* "in two of the four meals", "on three of his days" */
static size_t some_of_at(const struct tokens *t, size_t at) {
  struct quantity q = quantity_at(t, at);
  size_t of = at + q.tokens;
  if (q.fault != QUANTITY_FINE || !says(t, of, "of") || !says(t, of + 1, "the his her their those these them")) return 0;
  struct quantity whole = quantity_at(t, of + 2);
  size_t behind = of + 2 + (whole.fault == QUANTITY_FINE ? whole.tokens : 0);
  return says(t, behind, "meals meal feeds days weeks tubs portions bowls times") ? behind + 1 - at : 0;
}

/* "4 meals of 30 g" */
static size_t meals_of_at(const struct tokens *t, size_t at) {
  struct quantity q = quantity_at(t, at);
  size_t behind = at + q.tokens;
  bool meals = q.fault == QUANTITY_FINE && q.low >= 2 && says(t, behind, "meals feeds bowls") && says(t, behind + 1, "of");
  return meals ? q.tokens + 2 : 0;
}

/* "three times the rice", "thrice that" */
static size_t times_as_much_at(const struct tokens *t, size_t at) {
  struct quantity q = quantity_at(t, at);
  size_t behind = says(t, at, "twice thrice") ? at + 1 : at + q.tokens + 1;
  bool times = says(t, at, "twice thrice") || (q.fault == QUANTITY_FINE && q.low >= 2 && says(t, behind - 1, "times x"));
  return times && says(t, behind, "the that this") ? behind + 1 - at : 0;
}

/* "no supper", "skips her breakfast", "nobody does a breakfast" */
static size_t no_meal_at(const struct tokens *t, size_t at) {
  enum { FAR = 4 };
  if (!says(t, at, "no nobody skip skips skipped misses without")) return 0;
  for (size_t i = at + 1; i < t->count && i < at + FAR && !net_ends_clause(t, i); i++)
    if (says(t, i, "breakfast brekkie lunch dinner supper tea meal meals food")) return i + 1 - at;
  return 0;
}

/* A share that is no food's: "gets 60%". */
static size_t bare_share_at(const struct tokens *t, size_t at) {
  return is_number(t, at) && is_mark(t, at + 1, '%') && not_an_amount(t, at) == 0 ? 2 : 0;
}

/* "no chicken", "not the mince": a food that is counted in another sentence, or in another line of this one. */
static size_t no_food_at(struct governed *g, size_t at) {
  const struct tokens *t = &g->n.t;
  size_t food = says(t, at + 1, "more the any") ? at + 2 : at + 1;
  if (!says(t, at, "no without not") || !is_word(t, food) || says(t, at + 1, "more")) return 0;
  if (word_is_filler(t->item[food].word) && !net_is_kind(t->item[food].word)) return 0;
  for (size_t k = 0; k < g->n.r->count; k++)
    if (g->n.r->item[k].kind == ITEM_FOOD && governed_is_meant(g, k, food)) return food + 1 - at;
  return 0;
}

/* "plus the 40 g kefir", "just 200 g of the mince": of a food that was counted before. */
static bool tells_again(struct governed *g, size_t at) {
  const struct tokens *t = &g->n.t;
  struct post_reader *r = g->n.r;
  const struct claim *line = governed_line(g, at);
  struct post_amount a = says(t, at, "the") ? post_amount_at(t, at + 1) : (struct post_amount){0};
  bool before = a.is_mass || a.is_volume;
  bool behind = says(t, at, "of") && says(t, at + 1, "the his her") && at > 0 && net_claim_at(&g->n, at - 1, CLAIM_AMOUNT);
  if (!line || (!before && !behind) || r->item[line->first].kind != ITEM_FOOD) return false;
  struct item *own = &r->item[line->first];
  for (size_t k = 0; k < line->first; k++) {
    bool two_meals = own->timed && r->item[k].timed && !post_tells_often(r, own) && !post_tells_often(r, &r->item[k]);
    if (r->item[k].kind != ITEM_FOOD || two_meals) continue;
    bool same = r->item[k].food == own->food;
    for (size_t i = at; i < t->count && governed_line(g, i) == line && !same; i++)
      same = is_word(t, i) && governed_is_food(g, k, i);
    if (same) return true;
  }
  return false;
}

/* "not carrot", "isn't peas": of a food that is counted. */
static bool takes_a_food_back(struct governed *g, size_t from) {
  const struct tokens *t = &g->n.t;
  for (size_t i = from; i + 1 < t->count; i++)
    for (size_t k = 0; k < g->n.r->count && says(t, i, "not isn't isnt wasn't weren't aren't"); k++)
      if (g->n.r->item[k].kind == ITEM_FOOD && governed_is_food(g, k, i + (says(t, i + 1, "the a any") ? 2 : 1)))
        return true;
  return false;
}

/* "5 g seaweed.. no! 0.5 g", "no, sorry", "oh sorry, it isn't peas": it corrects itself; the tokens of such words. */
static size_t taken_back_at(struct governed *g, size_t at) {
  const struct tokens *t = &g->n.t;
  size_t end = at;
  if (!says(t, at, "no nope wait sorry oops oh actually")) return 0;
  while (says(t, end, "no nope wait sorry oops oh actually") || (is_mark(t, end, ',') && end > at)) end++;
  size_t used = end - at;
  bool sure = used > 1 || !says(t, at, "oh actually");
  if (says(t, end, "only just make")) end++;
  if (g->n.h->corrected) return 0;
  if (at == 0 && end >= t->count) return sure ? used : 0;
  if (at == 0) {
    bool amount =
        post_any_amount(t, 1) && (says(t, end, "its it's it that's") || end > 1 || is_number(t, 1) || is_mark(t, 1, '!'));
    return (sure && amount) || takes_a_food_back(g, end) ? used : 0;
  }
  bool cut = t->item[at - 1].kind == TOKEN_MARK && t->item[at - 1].mark != '(';
  bool goes_on = end >= t->count || t->item[end].kind == TOKEN_MARK || quantity_at(t, end).fault == QUANTITY_FINE ||
                 says(t, end, "it's its it that's");
  return g->lines && cut && sure && goes_on ? used : 0;
}

static struct governor governor_at(struct governed *g, size_t at) {
  const struct tokens *t = &g->n.t;
  struct governor w = {.at = at};
  if ((w.tokens = governs_at(t, at, &w.kind)) > 0) {
    if (w.kind == GOVERNS_PART && says(t, at + w.tokens, "a an") && post_is_thing(t, at))
      w.kind = GOVERNS_NOTHING; /* "half a zorbix" */
    return w;
  }
  if (at == 0 && (w.tokens = governed_date(t)) > 0) return w.kind = GOVERNS_DATED, w;
  if (at == 0 && (w.tokens = governed_label(t)) > 0) return w.kind = GOVERNS_LABEL, w;
  if ((w.tokens = bare_share_at(t, at)) > 0) return w.kind = GOVERNS_PART, w;
  if ((w.tokens = meals_of_at(t, at)) > 0) return w.kind = GOVERNS_EACH, w;
  if ((w.tokens = some_of_at(t, at)) > 0) return w.kind = GOVERNS_COUNT, w;
  if ((w.tokens = no_meal_at(t, at)) > 0) return w.kind = GOVERNS_EXCEPT, w;
  if ((w.tokens = times_as_much_at(t, at)) > 0) return w.kind = GOVERNS_TIMES, w;
  if ((w.tokens = no_food_at(g, at)) > 0) return w.kind = GOVERNS_NOT, w;
  if (governed_other_eats(g, at)) return w.kind = GOVERNS_OTHER, w.tokens = 1, w;
  if (tells_again(g, at)) return w.kind = GOVERNS_AGAIN, w.tokens = 1, w;
  if ((w.tokens = taken_back_at(g, at)) > 0) return w.kind = GOVERNS_EDIT, w.back = at == 0, w;
  struct frequency f = frequency_at(t, at);
  if ((w.tokens = f.tokens) > 0) {
    bool plain = f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal && !f.other_days && !(f.per_28 > 0);
    return w.kind = plain ? GOVERNS_NOTHING : GOVERNS_OFTEN, w;
  }
  if ((w.tokens = count_at(t, at)) > 0) return w.kind = GOVERNS_COUNT, w;
  if (says(t, at, "or") && !says(t, at + 1, "so thereabouts more less two three"))
    return w.kind = GOVERNS_OR, w.tokens = 1, w;
  if (is_number(t, at)) return w.kind = GOVERNS_NUMBER, w.tokens = 1, w;
  return w;
}

/* Words that a reader took of a sentence without lines, and of which nothing came: "weekly amounts", "same again at six",
 * "I make this twice a week" where no batch was heard. */
static bool is_taken_in_vain(const struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  bool kind = w->kind == GOVERNS_OFTEN || w->kind == GOVERNS_SAME || w->kind == GOVERNS_EXCEPT || w->kind == GOVERNS_COUNT ||
              w->kind == GOVERNS_PART || w->kind == GOVERNS_TIMES;
  if (!kind || g->lines || r->makes_days > 0 || r->makes_meals > 0 || r->meals_a_day > 0 || r->feeds_g > 0 ||
      r->rotation > 0 || r->fast_days != 0 || r->any_period || r->any_day || r->cooks_days > 0 || r->pot_told)
    return false;
  for (size_t i = 0; i < g->n.t.count; i++) /* all of it was told, or a part of it by another reader */
    if (is_word(&g->n.t, i) && (i < w->at || i >= w->at + w->tokens) && net_claim_at(&g->n, i, CLAIM_TOLD)) return false;
  if (says_in(&g->n.t, 0, g->n.t.count, "never ditto likewise") ||
      (w->kind == GOVERNS_EXCEPT && !says(&g->n.t, w->at, "not")))
    return false;
  for (size_t i = 0; i < r->count; i++)
    if (r->item[i].sentence == g->n.number || post_tells_often(r, &r->item[i])) return false;
  return true;
}

/* The most telling of the words that nobody used; kind NOTHING: none. */
static struct governor unused_in(struct governed *g) {
  struct governor found = {.kind = GOVERNS_NOTHING};
  for (size_t i = 0; i < g->n.t.count;) {
    struct governor w = governor_at(g, i);
    i += w.tokens > 0 ? w.tokens : 1;
    if (w.kind == GOVERNS_NOTHING || (found.kind != GOVERNS_NOTHING && w.kind >= found.kind)) continue;
    if ((governed_is_told(g, w.at) && !is_taken_in_vain(g, &w)) || governed_is_used(g, &w) || !governed_reach(g, &w))
      continue;
    bool only = governed_is_only(&g->n.t, &w);
    if (only && governed_only_then(g, &w)) continue;
    if (!only && (w.kind == GOVERNS_INSTEAD || w.kind == GOVERNS_EXCEPT || w.kind == GOVERNS_NOT) && governed_swap(g, &w)) {
      if (found.kind == GOVERNS_OFTEN && governed_is_told(g, found.at)) found.kind = GOVERNS_NOTHING; /* its days */
      continue;
    }
    found = w;
  }
  return found;
}

/* "veg and fruit, and that's courgette and blueberries": kinds of food counted beside foods that they may stand for. */
static void doubt_kinds_among_foods(struct post_reader *r) {
  for (size_t c = 0; c < r->claim_count; c++) {
    const struct claim *line = &r->claim[c];
    bool kind = false;
    if (line->kind != CLAIM_LINE || line->last < line->first + 3) continue; /* of one segment */
    for (size_t i = line->first; i < line->last && i < r->count; i++) {
      struct tokens t = post_tokens(r, span_of(r->item[i].text));
      kind = kind || (t.count > 0 && is_word(&t, t.count - 1) && net_is_kind(t.item[t.count - 1].word));
    }
    for (size_t i = line->first; i < line->last && i < r->count && kind; i++)
      post_doubt(r, i, "a kind of food and foods that may be of it were counted side by side");
  }
}

static bool is_kind_of_food(struct post_reader *r, const struct item *item) {
  struct tokens t = post_tokens(r, item->words);
  size_t kinds = 0;
  for (size_t i = 0; i < t.count; i++) {
    if (!is_word(&t, i)) continue;
    if (!net_is_kind(t.item[i].word) && !says(&t, i, "mix mixed frozen fresh cooked raw green root")) return false;
    kinds += net_is_kind(t.item[i].word);
  }
  return kinds > 0;
}

/* "Veg 90 g: 30 g carrot ...": what stands behind the line of a kind opens a list of it. */
static bool opens_a_list(const struct post_reader *r, size_t item) {
  for (size_t c = 0; c < r->claim_count; c++) {
    const struct claim *line = &r->claim[c];
    if (line->kind != CLAIM_LINE || item < line->first || item >= line->last) continue;
    const char *behind = line->text.p + line->text.n;
    while (*behind == ' ') behind++;
    return *behind == ':' || *behind == '(';
  }
  return false;
}

/* "150 g vegetables, half carrot and half courgette": foods counted by halves or pieces behind a weight of their kind. */
static void doubt_parts_of_kinds(struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind != ITEM_FOOD || !is_kind_of_food(r, &r->item[i])) continue;
    for (size_t k = i + 1; k < r->count && r->item[k].sentence == r->item[i].sentence; k++) {
      struct tokens own = post_tokens(r, span_of(r->item[k].text));
      struct post_amount a = own.count > 0 ? post_amount_at(&own, 0) : (struct post_amount){0};
      bool part = !a.is_mass && !a.is_volume && a.low < 1;
      if (r->item[k].kind != ITEM_FOOD || (!part && !opens_a_list(r, i))) continue;
      post_doubt(r, i, "a kind of food and foods that may be of it were counted side by side");
      post_doubt(r, k, "it may be a part of the kind of food that stands before it");
    }
  }
}

/* "veg 60 g carrot, kale": what stands before the amount is a kind of food, and a food without an amount follows. */
static void doubt_amount_of_kind(struct governed *g) {
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  for (size_t i = 0; i < t->count; i++) {
    const struct claim *line = governed_line(g, i);
    size_t amount = i, kind = t->count;
    if (!line || (i > 0 && governed_line(g, i - 1) == line)) continue;
    while (amount < t->count && governed_line(g, amount) == line && !net_claim_at(&g->n, amount, CLAIM_AMOUNT)) amount++;
    for (size_t k = i; k < amount; k++)
      if (is_word(t, k) && (net_is_kind(t->item[k].word) || says_a(t, k, CLASS_MIXED_KIND))) kind = k;
    if (kind == t->count || !net_claim_at(&g->n, amount, CLAIM_AMOUNT)) continue;
    size_t end = amount;
    while (end < t->count && governed_line(g, end) == line) end++;
    bool open = false;
    for (size_t k = end; k < t->count && k < end + 4 && !governed_line(g, k); k++)
      open = open || (post_mention_at(r, t, k) > 0 && !is_mark(t, k, '.'));
    for (size_t k = line->first; k < line->last && k < r->count && open; k++)
      if (r->item[k].kind == ITEM_FOOD && !net_has_word(r->item[k].words, t->item[kind].word))
        post_doubt(r, k, "the amount may be for a kind of food, of which this is one");
  }
}

void post_govern(struct post_reader *r, size_t net_from) {
  if (!post_any_food(r)) return;
  doubt_kinds_among_foods(r);
  doubt_parts_of_kinds(r);
  doubt_whose(r);
  for (size_t i = 0; i < r->heard_count; i++) {
    struct governed *g = ARENA_NEW(r->arena, struct governed, 1);
    g->n = (struct net){.r = r, .h = &r->heard[i], .claim_to = r->heard[i].claim_to, .number = i + 1};
    g->n.t = post_tokens(r, r->heard[i].text);
    g->net_from = net_from;
    for (size_t c = g->n.h->claim_from; c < g->n.claim_to && !g->lines; c++)
      g->lines = r->claim[c].kind == CLAIM_LINE && r->item[r->claim[c].first].kind == ITEM_FOOD;
    hear_owners_question(g);
    tell_unheard(g);
    doubt_amount_of_kind(g);
    enum { MOST_A_SENTENCE = 3 };
    for (int asked = 0; asked < MOST_A_SENTENCE; asked++) { /* another one only where it may change other lines */
      struct governor w = unused_in(g);
      if (w.kind == GOVERNS_NOTHING || !governed_reach(g, &w)) break;
      if (w.kind == GOVERNS_PART && g->halves) break; /* not fed yet: it is answered */
      ask_about(g, &w);
    }
    arena_rewind(r->arena, r->begin);
  }
  doubt_by_what_was_left(r);
}
