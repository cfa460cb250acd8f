/* What a governing word was used for, and which lines it may change. */
#include "foods/refused.h"
#include "post/govern/post_govern.h"

/* ---- the table ---- */

/* As data/post_words.tsv spells them. ORDER enum governs */
static const char *const KIND[GOVERNS_KINDS] = {[GOVERNS_NOTHING] = "-",
                                                [GOVERNS_EDIT] = "edit",
                                                [GOVERNS_OTHER] = "other",
                                                [GOVERNS_AGAIN] = "-",
                                                [GOVERNS_DATED] = "-",
                                                [GOVERNS_LABEL] = "-",
                                                [GOVERNS_PART] = "part",
                                                [GOVERNS_COUNT] = "count",
                                                [GOVERNS_EACH] = "each",
                                                [GOVERNS_INSTEAD] = "instead",
                                                [GOVERNS_TURNS] = "turns",
                                                [GOVERNS_EXCEPT] = "except",
                                                [GOVERNS_NOT] = "-",
                                                [GOVERNS_PAST] = "past",
                                                [GOVERNS_COMING] = "coming",
                                                [GOVERNS_CHANGING] = "changing",
                                                [GOVERNS_CONDITION] = "condition",
                                                [GOVERNS_OFTEN] = "-",
                                                [GOVERNS_SAME] = "same",
                                                [GOVERNS_TIMES] = "times",
                                                [GOVERNS_OR] = "-",
                                                [GOVERNS_RATE] = "rate",
                                                [GOVERNS_WEIGHED] = "weighed",
                                                [GOVERNS_VARY] = "vary",
                                                [GOVERNS_NUMBER] = "-"};

/* A word of the table; a phrase that only begins like one is passed over. */
size_t governs_at(const struct tokens *t, size_t at, enum governs *kind) {
  const char *means = "";
  size_t used = meaning_at(t, at, CLASS_GOVERNS, &means), nothing = phrase_of(t, at, CLASS_NO_GOVERNOR);
  *kind = GOVERNS_NOTHING;
  if (nothing >= used) return nothing;
  for (int k = 1; k < GOVERNS_KINDS; k++)
    if (strcmp(means, KIND[k]) == 0) *kind = (enum governs)k;
  return used;
}

/* ---- what is accounted for ---- */

bool governed_is_told(const struct governed *g, size_t at) {
  const struct post_reader *r = g->n.r;
  struct span word = g->n.t.item[at].at;
  if (net_claim_at(&g->n, at, CLAIM_TOLD) || net_claim_at(&g->n, at, CLAIM_AMOUNT) || net_within(word, r->whole_said))
    return true;
  for (size_t i = g->net_from; i < r->claim_count; i++) /* told by the net */
    if (r->claim[i].kind == CLAIM_TOLD && net_within(word, r->claim[i].text)) return true;
  return false;
}

const struct claim *governed_line(const struct governed *g, size_t at) { return net_claim_at(&g->n, at, CLAIM_LINE); }

/* ---- how often ---- */

static bool same_often(const struct frequency *a, const struct frequency *b) {
  double days_a = a->per_28 > 0 ? a->per_28 : a->times_per_28, days_b = b->per_28 > 0 ? b->per_28 : b->times_per_28;
  return days_a == days_b && a->days == b->days && a->each_meal == b->each_meal &&
         (a->feedings == b->feedings || a->each_meal);
}

/* Does the text of a line say so, too? */
static bool item_is_so_often(struct post_reader *r, const struct item *item, const struct frequency *f) {
  struct tokens t = post_tokens(r, span_of(item->text));
  for (size_t i = 0; i < t.count; i++) {
    struct frequency own = frequency_at(&t, i);
    if (own.tokens == 0) continue;
    if (f->days == 0 && f->feedings <= 1 && own.times_per_28 == (f->per_28 > 0 ? f->per_28 : f->times_per_28))
      return true; /* "weekly, on Mondays" */
    if (same_often(&own, f) || (f->other_days && own.other_days)) return true;
    if (f->days != 0 && own.days != 0 && (own.days & f->days) == f->days) return true; /* "Mon", "Wed" of one line */
    i += own.tokens - 1;
  }
  return false;
}

static bool often_is_used(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  struct frequency f = frequency_at(&g->n.t, w->at);
  const struct claim *line = governed_line(g, w->at);
  if (f.feedings > 1 && f.times_per_28 == CALENDAR_DAYS && (r->meals_a_day == f.feedings || r->meals_told == f.feedings))
    return true;
  for (size_t i = 0; i < r->count && f.feedings > 1 && f.times_per_28 == CALENDAR_DAYS && !g->lines; i++)
    if (r->item[i].kind == ITEM_FOOD && r->item[i].timed) return true;               /* each meal is told by itself */
  if (!g->lines && (r->makes_days > 0 || r->any_period) && f.days != 0) return true; /* the day it is cooked or bought */
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    bool mine = line ? i >= line->first && i < line->last : item->sentence >= g->n.number;
    if (item->kind == ITEM_GONE || !mine) continue;
    if (item_is_so_often(r, item, &f)) return true;
  }
  return false;
}

/* ---- the rest ---- */

static bool says_in(const struct tokens *t, size_t from, size_t to, const char *words) {
  for (size_t i = from; i < to && i < t->count; i++)
    if (says(t, i, words)) return true;
  return false;
}

/* "half in the morning and half at night": of one day's food. */
static bool is_of_the_day(const struct tokens *t, size_t from) {
  for (size_t i = from; i < t->count && i < from + 5; i++)
    if ((is_word(t, i) && token_is_a(&t->item[i], CLASS_MEAL)) || says(t, i, "meal meals am pm")) return true;
  return false;
}

/* "he leaves about a third of the evening one" */
static bool is_left_over(const struct tokens *t, const struct governor *w) {
  return says_in(t, w->at > 3 ? w->at - 3 : 0, w->at + w->tokens, "leaves leave leaving finishes refuses");
}

static bool any_at_each_meal(struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++) {
    struct tokens t = post_tokens(r, span_of(r->item[i].text));
    for (size_t k = 0; k < t.count && r->item[i].kind == ITEM_FOOD; k++)
      if (frequency_at(&t, k).each_meal) return true;
  }
  return false;
}

/* "Two meals a day, each one 100 g of turkey": of a meal, where the lines say a day. */
static bool is_each_of_meals(struct governed *g) {
  struct post_reader *r = g->n.r;
  if (!(post_meals_said(&g->n.t) > 1)) return false;
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind != ITEM_FOOD || r->item[i].sentence != g->n.number) continue;
    struct tokens t = post_tokens(r, span_of(r->item[i].text));
    for (size_t k = 0; k < t.count; k++)
      if (frequency_at(&t, k).each_meal || frequency_at(&t, k).feedings > 1) return false;
  }
  return true;
}

static bool number_is_used(struct governed *g, const struct governor *w, const struct claim *line) {
  struct span number = g->n.t.item[w->at].at;
  if (g->n.r->pot_part > 0) return true; /* the lines have a part of it */
  if (!line || not_an_amount(&g->n.t, w->at) > 0 || (w->at > 0 && says(&g->n.t, w->at - 1, "x"))) return true;
  for (size_t i = w->at; i-- > 0 && i + 6 > w->at;)
    if (not_an_amount(&g->n.t, i) > w->at - i) return true;
  for (size_t k = line->first; k < line->last && k < g->n.r->count; k++)
    if (g->n.r->item[k].kind != ITEM_FOOD || span_holds_fold(span_of(g->n.r->item[k].text), number)) return true;
  return false;
}

/* Two foods with "or" between them, of which one line came. */
static bool or_is_harmless(struct governed *g, const struct governor *w, const struct claim *line) {
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  bool before = false, behind = false;
  if (!line) return true;
  for (size_t i = w->at > 4 ? w->at - 4 : 0; i < w->at; i++)
    before = before || (governed_line(g, i) == line && post_mention_at(r, t, i) > 0);
  for (size_t i = w->at + 1; i < t->count && i < w->at + 4 && !net_ends_clause(t, i); i++)
    behind = behind || post_mention_at(r, t, i) > 0;
  return !before || !behind;
}

static bool line_says(struct governed *g, const struct claim *line, struct span words) {
  for (size_t k = line->first; k < line->last && k < g->n.r->count; k++)
    if (span_holds_fold(span_of(g->n.r->item[k].text), words)) return true;
  return false;
}

static bool weighed_is_used(struct governed *g, const struct governor *w, const struct claim *line) {
  static const char *const COOKED[] = {"cooked",  "boiled",  "simmered", "steamed", "baked",
                                       "roasted", "poached", "fried",    "grilled"};
  const struct tokens *t = &g->n.t;
  if (!line) return false;
  if (!says_in(t, w->at, w->at + w->tokens, "cooked after")) return true;
  for (size_t i = 0; i < COUNT_OF(COOKED); i++)
    if (line_says(g, line, span_of(COOKED[i]))) return true;
  return false;
}

/* "2 Feb -", "Feb 2:", "12/3": the date that an entry of a diary begins with. */
size_t governed_date(const struct tokens *t) {
  if (is_number(t, 0) && says_a(t, 1, CLASS_MONTH_NAME) && t->item[0].value <= 31) return 2;
  if (says_a(t, 0, CLASS_MONTH_NAME) && is_number(t, 1) && t->item[1].value <= 31) return 2;
  return 0;
}

size_t governed_label(const struct tokens *t) {
  const char *day;
  bool of_time = is_word(t, 0) && says(t, 1, "day days week weeks month months") && is_mark(t, 2, ':') &&
                 quantity_at(t, 0).fault != QUANTITY_FINE && meaning_at(t, 0, CLASS_DAY_OF_WEEK, &day) == 0 &&
                 !says(t, 0, "every each per all the a one this that his her");
  if (of_time) return 2; /* "Meat week:", "Quiet days:" */
  if (!says_a(t, 0, CLASS_ALTERNATIVE_LABEL) || t->count < 2) return 0;
  bool number = is_number(t, 1) || says(t, 1, "one two three four a b c d");
  bool ends = t->count == 2 || is_mark(t, 2, ':') || is_mark(t, 2, '-') || is_mark(t, 2, '(') || is_mark(t, 2, '.');
  return number && ends ? 2 : 0;
}

/* Other sentences begin with a label of the same word. */
static bool several_labels(const struct governed *g) {
  const struct post_reader *r = g->n.r;
  size_t labels = 0;
  for (size_t i = 0; i < r->heard_count; i++) {
    struct tokens t = post_tokens(r, span_cut(r->heard[i].text, 0, r->heard[i].text.n < 24 ? r->heard[i].text.n : 24));
    bool of_time = says(&t, 1, "day days week weeks month months"),
         own = says(&g->n.t, 1, "day days week weeks month months");
    labels += governed_label(&t) > 0 && (span_eq(t.item[0].word, g->n.t.item[0].word) || (of_time && own));
  }
  return labels > 1;
}

/* Other sentences begin with a date as well. */
static bool several_dates(const struct governed *g) {
  const struct post_reader *r = g->n.r;
  size_t dates = 0;
  for (size_t i = 0; i < r->heard_count; i++) {
    struct tokens t = post_tokens(r, span_cut(r->heard[i].text, 0, r->heard[i].text.n < 24 ? r->heard[i].text.n : 24));
    dates += governed_date(&t) > 0;
  }
  return dates > 1;
}

static bool count_is_used(const struct governed *g, const struct governor *w) {
  const struct tokens *t = &g->n.t;
  const struct post_reader *r = g->n.r;
  double n = quantity_at(t, w->at).low;
  size_t near = w->at > 3 ? w->at - 3 : 0;
  bool days = says_in(t, w->at, w->at + w->tokens, "days weeks months");
  if (days && w->at > 0 && says(t, w->at - 1, "since last past")) return true;
  if (days && (r->feeds_g > 0 || r->makes_meals == n * r->meals_a_day)) return true;
  if (n <= 6 && !days && says_in(t, near, w->at, "split divided spread shared")) return true; /* over the day */
  return n == r->makes_meals || n == r->meals_a_day || n == r->makes_days;
}

/* "Sundays she gets only bones": what else is fed is not fed then; of "she gets only liver on Sundays" that is not told. */
bool governed_is_only(const struct tokens *t, const struct governor *w) {
  return w->kind == GOVERNS_INSTEAD && says_in(t, w->at, w->at + w->tokens, "only just nothing");
}

/* Days of the week, but not all, before 'to'. */
bool net_tells_some_days(const struct tokens *t, size_t to) {
  for (size_t i = 0; i < to; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens > 0 && f.times_per_28 > 0 && f.times_per_28 < CALENDAR_DAYS) return true;
  }
  return false;
}

/* "doubled the squash, so that's 140 g squash now": how much it is stands behind it. */
static bool doubled_is_told(const struct governed *g, const struct governor *w) {
  enum { FAR = 3 };
  const struct tokens *t = &g->n.t;
  for (size_t i = w->at + w->tokens; i < t->count && i < w->at + w->tokens + FAR && is_word(t, i); i++)
    for (size_t k = i + 1; k < t->count && !word_is_filler(t->item[i].word); k++)
      if (is_word(t, k) && span_eq(t->item[k].word, t->item[i].word) && governed_line(g, k)) return true;
  return false;
}

bool governed_is_used(struct governed *g, const struct governor *w) {
  const struct tokens *t = &g->n.t;
  const struct post_reader *r = g->n.r;
  const struct claim *line = governed_line(g, w->at);
  bool by_form = w->kind == GOVERNS_OR || w->kind == GOVERNS_AGAIN || w->kind == GOVERNS_NOT || w->kind == GOVERNS_EDIT;
  if (line && !by_form && line_says(g, line, tokens_span(t, w->at, w->tokens))) return true;
  switch (w->kind) {
  case GOVERNS_OFTEN:
    return often_is_used(g, w);
  case GOVERNS_PART:
    if (line && g->n.r->item[line->first].kind == ITEM_FOOD && strstr(g->n.r->item[line->first].text, " % ")) return true;
    return r->pot_told || (is_of_the_day(t, w->at + w->tokens) && !is_left_over(t, w)) ||
           says_in(t, w->at > 3 ? w->at - 3 : 0, w->at, "tolerance margin error");
  case GOVERNS_COUNT:
    return count_is_used(g, w);
  case GOVERNS_NUMBER:
    return number_is_used(g, w, line);
  case GOVERNS_OR:
    return or_is_harmless(g, w, line);
  case GOVERNS_WEIGHED:
    return weighed_is_used(g, w, line);
  case GOVERNS_EACH:
    if (g->lines && is_each_of_meals(g)) return false;
    return r->for_one || r->pot_part > 0 || r->makes_days > 0 || r->makes_meals > 0 || (!(r->animals > 1) && line != NULL);
  case GOVERNS_TIMES:
    return doubled_is_told(g, w) || (r->rotation > 1 && phrase_of(t, w->at, CLASS_AT_EVERY_TURN) > 0) ||
           (says_in(t, w->at, w->at + w->tokens + 1, "meal meals bowl") && any_at_each_meal(g->n.r)) ||
           (line && says_in(t, w->at, w->at + w->tokens, "both") && any_at_each_meal(g->n.r));
  case GOVERNS_RATE:
    return r->feeds_percent > 0 || r->feeds_g > 0;
  case GOVERNS_OTHER:
    return !line || r->pot_told || r->pot_part > 0;
  case GOVERNS_EXCEPT:
    return says_in(t, w->at > 5 ? w->at - 5 : 0, w->at, "no nothing none anything not without never");
  case GOVERNS_EDIT:
    return says(t, w->at, "edit edited update ps") && g->lines;
  case GOVERNS_INSTEAD:
    if (governed_is_only(t, w))
      return !net_tells_some_days(t, says_in(t, w->at, w->at + w->tokens, "nothing") ? t->count : w->at);
    return says(t, w->at, "instead") && says_in(t, w->at, w->at + w->tokens + 2, "nothing");
  case GOVERNS_LABEL:
    return g->n.r->rotation > 1 || !several_labels(g);
  case GOVERNS_DATED:
    return !several_dates(g);
  default:
    return false;
  }
}

/* ---- which lines ---- */

/* What a word can say of foods that stand in other sentences, and are not named in its own. */
static bool reaches_far(enum governs kind) {
  switch (kind) {
  case GOVERNS_PART:
  case GOVERNS_COUNT:
  case GOVERNS_EACH:
  case GOVERNS_TIMES:
  case GOVERNS_RATE:
  case GOVERNS_WEIGHED:
  case GOVERNS_EDIT:
  case GOVERNS_OTHER:
  case GOVERNS_VARY:
  case GOVERNS_OFTEN:
  case GOVERNS_SAME:
    return true;
  default:
    return false;
  }
}

bool word_is_filler(struct span word) { return word.n < 3 || is_chatter(word) || is_a(word, CLASS_BESIDE_A_FOOD); }

bool governed_is_food(const struct governed *g, size_t item, size_t at) {
  const struct post_reader *r = g->n.r;
  const struct claim *line = governed_line(g, at);
  struct span word = g->n.t.item[at].word;
  bool own = line && item >= line->first && item < line->last;
  return !own && !word_is_filler(word) &&
         (net_has_word(r->item[item].words, word) || net_has_word(span_of(r->item[item].text), word));
}

bool governed_is_meant(const struct governed *g, size_t item, size_t at) {
  const struct post_reader *r = g->n.r;
  const struct claim *line = governed_line(g, at);
  bool own = line && item >= line->first && item < line->last;
  struct span word = g->n.t.item[at].word;
  if (governed_is_food(g, item, at)) return true;
  return !own && net_is_kind(word) && food_is_refused(r->lib, r->item[item].food, "", word, r->arena);
}

/* The first words behind "instead of" or "no" that name the food of another line, or its kind. */
static bool reach_behind(struct governed *g, const struct governor *w) {
  enum { FAR = 5 };
  struct post_reader *r = g->n.r;
  bool any = false;
  for (size_t i = w->at; i < g->n.t.count && i < w->at + w->tokens + FAR && !any; i++) {
    if (i >= w->at + w->tokens && net_ends_clause(&g->n.t, i)) break;
    for (size_t k = 0; k < r->count && is_word(&g->n.t, i); k++)
      if (r->item[k].kind == ITEM_FOOD && governed_is_meant(g, k, i)) g->reach[k] = any = true;
  }
  return any;
}

static bool is_on_some_days(struct post_reader *r, const struct item *item) {
  struct tokens t = post_tokens(r, span_of(item->text));
  return net_tells_some_days(&t, t.count);
}

/* Of a kind of food ("no meat on Fridays") only where its days are told: "no meat" by itself is no line's. */
static bool reach_of_mentions(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  bool any = (w->kind == GOVERNS_NOT || w->kind == GOVERNS_EXCEPT) && net_tells_some_days(&g->n.t, g->n.t.count) && reach_behind(g, w);
  for (size_t i = 0; i < g->n.t.count; i++) {
    if (governed_is_told(g, i) || governed_line(g, i)) continue;
    size_t used = post_mention_at(r, &g->n.t, i);
    if (used == 0) continue;
    struct span head = g->n.t.item[i + used - 1].word;
    for (size_t k = 0; k < r->count && !net_is_kind(head); k++) {
      if (r->item[k].kind != ITEM_FOOD || !net_item_is(&g->n, &r->item[k], i, used)) continue;
      g->reach[k] = any = true;
    }
    i += used - 1;
  }
  return any;
}

/* "potato instead of the pasta", and no line is of pasta: nothing else is left out by it. */
static bool names_no_line(struct governed *g, const struct governor *w) {
  enum { FAR = 4 };
  const struct tokens *t = &g->n.t;
  size_t behind = w->at + w->tokens;
  if (!says(t, behind, "of") && !says(t, behind - 1, "of than")) return false;
  for (size_t i = behind; i < t->count && i < behind + FAR && !net_ends_clause(t, i); i++) {
    size_t used = post_mention_at(g->n.r, t, i);
    if (used > 0) return !net_is_kind(t->item[i + used - 1].word) && !says_a(t, i + used - 1, CLASS_MINCED);
  }
  return false;
}

/* What is replaced: the food that is named, else what is fed every day in other sentences. */
static void reach_of_instead(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  memset(g->reach, 0, sizeof g->reach);
  if (reach_behind(g, w) || names_no_line(g, w)) return;
  for (size_t i = 0; i < r->count; i++)
    g->reach[i] = r->item[i].kind == ITEM_FOOD && r->item[i].sentence != g->n.number &&
                  !(governed_is_only(&g->n.t, w) ? is_on_some_days(r, &r->item[i]) : post_tells_often(r, &r->item[i]));
}

/* How often, and hardly a word besides: of what stands before it. */
static bool is_short(const struct tokens *t, const struct governor *w) {
  return w->kind == GOVERNS_OFTEN && t->count <= w->tokens + 2;
}

/* "My other dog gets ..." */
static bool tells_of_another_one(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "other another second") && says_a(t, i + 1, CLASS_ANOTHER_ONE)) return true;
  return false;
}

static bool is_counted(const struct post_reader *r, const struct claim *line) {
  for (size_t i = line->first; i < line->last && i < r->count; i++)
    if (r->item[i].kind == ITEM_FOOD) return true;
  return false;
}

bool governed_reach(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  const struct claim *line = governed_line(g, w->at);
  bool open = false;
  memset(g->reach, 0, sizeof g->reach);
  if (!g->lines && tells_of_another_one(t)) return false;
  if (line && w->kind == GOVERNS_PART && !is_counted(r, line)) line = NULL; /* "on half rations plus a scoop of ..." */
  if (w->kind == GOVERNS_LABEL) {
    for (size_t i = 0; i < r->count; i++) g->reach[i] = r->item[i].line >= g->n.h->line;
  } else if (w->back) {
    for (size_t i = 0; i < r->count; i++)
      g->reach[i] = r->item[i].sentence + 1 == g->n.number && r->item[i].line == g->n.h->line;
  } else if (line) {
    for (size_t i = line->first; i < line->last && i < r->count; i++) g->reach[i] = true;
  } else if (!g->lines && w->kind == GOVERNS_DATED) {
    return false;
  } else if (!g->lines) {
    const char *why = not_fed(t);
    bool asks = t->count > 0 && is_mark(t, t->count - 1, '?');
    if (asks || is_of_another(t) || (why && why != NOT_FED_PAST) || says_in(t, 0, t->count, "would could")) return false;
    if (is_short(t, w)) { /* "Twice daily." */
      for (size_t i = 0; i < r->count; i++)
        g->reach[i] = r->item[i].sentence <= g->n.number && !post_tells_often(r, &r->item[i]);
    } else if (!reach_of_mentions(g, w)) {
      if (!reaches_far(w->kind) || why || !holds_a(t, 0, t->count, CLASS_ABOUT_FEEDING) ||
          holds_a(t, 0, t->count, CLASS_ABOUT_THE_ANIMAL))
        return false;
      for (size_t i = 0; i < r->count; i++) g->reach[i] = true;
    }
  } else {
    for (size_t i = 0; i < r->count; i++) g->reach[i] = r->item[i].sentence == g->n.number;
  }
  if (w->kind == GOVERNS_AGAIN && line)
    for (size_t k = 0; k < line->first; k++)
      for (size_t i = w->at; i < t->count && governed_line(g, i) == line; i++)
        g->reach[k] =
            g->reach[k] || r->item[k].food == r->item[line->first].food || (is_word(t, i) && governed_is_food(g, k, i));
  if (w->kind == GOVERNS_NOT) memset(g->reach, 0, sizeof g->reach);
  if (w->kind == GOVERNS_NOT) reach_behind(g, w);
  if (w->kind == GOVERNS_INSTEAD) reach_of_instead(g, w);
  bool of_meal =
      w->kind == GOVERNS_TIMES && line &&
      (says_in(t, w->at, w->at + w->tokens, "meal meals bowl") ||
       says_in(t, w->at + w->tokens, w->at + w->tokens + 2, "portion portions rations amounts everything quantities"));
  if (of_meal || (w->kind == GOVERNS_EACH && g->lines && is_each_of_meals(g)))
    for (size_t i = 0; i < r->count; i++) g->reach[i] = r->item[i].sentence == g->n.number;
  for (size_t i = 0; i < r->count; i++) {
    g->reach[i] = g->reach[i] && r->item[i].kind == ITEM_FOOD;
    open = open || (g->reach[i] && !r->item[i].doubted);
  }
  return open;
}
