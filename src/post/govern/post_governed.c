/* What a governing word was used for. */
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
  double per_28 = f.per_28 > 0 ? f.per_28 : f.times_per_28; /* "I cook every 4 days", and that is how long it lasts */
  if (!g->lines && r->makes_days > 1 && per_28 > 0 && fabs(CALENDAR_DAYS / per_28 - r->makes_days) < 0.1) return true;
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    bool mine = line ? i >= line->first && i < line->last : item->sentence >= g->n.number;
    if (item->kind == ITEM_GONE || !mine) continue;
    if (item_is_so_often(r, item, &f)) return true;
  }
  return false;
}

/* ---- the rest ---- */

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
bool governed_each_of_meals(struct governed *g) {
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
  bool cooked = says_in(t, w->at, w->at + w->tokens, "cooked after");
  if (!line) return !cooked && says_in(t, 0, t->count, "meat meats fish"); /* as they are taken without a word */
  if (!cooked) return true;
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
  if (is_mark(t, 2, '(') && is_word(t, 3) && token_is_a(&t->item[3], CLASS_MEAL)) return 0; /* "Bowl 1 (morning):" */
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
  bool told = r->makes_days > 0 || r->makes_meals > 0 || r->any_period; /* "for a week" */
  for (size_t i = 0; i < r->count && !(n > 0); i++) told = told || post_tells_often(g->n.r, &r->item[i]);
  if (!(n > 0) && told) return true;
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
bool governed_some_days(const struct tokens *t, size_t to) {
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
    if (g->lines && governed_each_of_meals(g)) return false;
    return r->for_one || r->pot_part > 0 || r->makes_days > 0 || r->makes_meals > 0 || (!(r->animals > 1) && line != NULL);
  case GOVERNS_TIMES:
    return doubled_is_told(g, w) || (r->rotation > 1 && phrase_of(t, w->at, CLASS_AT_EVERY_TURN) > 0) ||
           (says_in(t, w->at, w->at + w->tokens + 1, "meal meals bowl") && any_at_each_meal(g->n.r)) ||
           (line && says_in(t, w->at, w->at + w->tokens, "both") && any_at_each_meal(g->n.r));
  case GOVERNS_RATE:
    return r->feeds_percent > 0 || r->feeds_g > 0;
  case GOVERNS_OTHER:
    return (!line && w->tokens == 1) || r->pot_told || r->pot_part > 0; /* "the rice is mine" */
  case GOVERNS_EXCEPT:
    return says_in(t, w->at > 5 ? w->at - 5 : 0, w->at, "no nothing none anything not without never");
  case GOVERNS_EDIT:
    return says(t, w->at, "edit edited update ps") && g->lines;
  case GOVERNS_INSTEAD:
    if (governed_is_only(t, w))
      return !governed_some_days(t, says_in(t, w->at, w->at + w->tokens, "nothing") ? t->count : w->at);
    return says(t, w->at, "instead") && says_in(t, w->at, w->at + w->tokens + 2, "nothing");
  case GOVERNS_TURNS: /* "we alternate", and the lines do */
    for (size_t i = 0; i < r->count && !g->lines; i++)
      if (r->item[i].kind == ITEM_FOOD && post_tells_often(g->n.r, &r->item[i])) return true;
    return false;
  case GOVERNS_LABEL:
    return g->n.r->rotation > 1 || !several_labels(g);
  case GOVERNS_DATED:
    return !several_dates(g);
  default:
    return false;
  }
}
