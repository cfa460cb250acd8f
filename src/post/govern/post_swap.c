/* Days on which a food is not fed: "whiting instead of the mince on Fridays", "on Sundays prawns and no chicken", "every day
 * except Monday". */
#include "base/num.h"
#include "post/govern/post_govern.h"

/* Days of a week, or of four weeks; as often as that something else is fed. */
static bool is_some_days(const struct frequency *f) {
  return f->tokens > 0 && !f->refuse && !f->other_days && !f->each_meal && !(f->per_28 > 0) && f->feedings <= 1 &&
         f->times_per_28 > 0 && f->times_per_28 < CALENDAR_DAYS;
}

static struct frequency often_in(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to && i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    if (is_some_days(&f)) return f;
    if (f.tokens > 1) i += f.tokens - 1;
  }
  return (struct frequency){0};
}

/* The text of a line without how often; NULL where it is fed more than once a day or not every day, and 'some' is false. */
static const char *without_often(struct post_reader *r, const char *text, bool some) {
  struct tokens t = post_tokens(r, span_of(text));
  for (size_t i = 0; i < t.count; i++) {
    struct frequency f = frequency_at(&t, i);
    if (f.tokens == 0) continue;
    bool daily = f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal && !(f.per_28 > 0);
    if (!daily && !(some && is_some_days(&f))) return NULL;
    struct buf b;
    buf_init(&b, r->arena, strlen(text) + 4);
    struct span before = trim_blanks((struct span){text, (size_t)(t.item[i].at.p - text)});
    while (before.n > 0 && memchr(" ,-(", before.p[before.n - 1], 4)) before.n--;
    const char *behind = i + f.tokens < t.count ? t.item[i + f.tokens].at.p : "";
    buf_addf(&b, "%.*s%s%s", SPAN_ARG(before), behind[0] ? " " : "", behind);
    return buf_text(&b);
  }
  return text;
}

/* The same line on all days but those. */
static const char *on_other_days(struct post_reader *r, const char *text, const struct frequency *f) {
  struct buf b;
  buf_init(&b, r->arena, strlen(text) + 120);
  buf_addf(&b, "%s, ", text);
  if (f->days != 0) {
    unsigned others = 0x7FU & ~f->days;
    if (others == 0 || f->times_per_28 != 4 * __builtin_popcount(f->days)) return NULL;
    buf_adds(&b, "on ");
    frequency_print_days(&b, others);
    return buf_text(&b);
  }
  double others = CALENDAR_DAYS - f->times_per_28;
  int weeks = fmod(others, 4) == 0 ? 1 : 2;
  if (fmod(others * weeks, 4) != 0) return NULL;
  num_sig(&b, others * weeks / 4, 2);
  buf_addf(&b, " %s a %s", others * weeks == 4 ? "time" : "times", weeks == 1 ? "week" : "fortnight");
  return buf_text(&b);
}

/* The words of the governor and the two behind them, as far as no mark ends them. */
static struct span words_of(struct post_reader *r, const struct tokens *t, const struct governor *w) {
  size_t end = w->at + w->tokens, last = end + 2 < t->count ? end + 2 : t->count;
  while (end < last && !is_mark(t, end, ';') && !is_mark(t, end, ',') && !is_mark(t, end, '.')) end++;
  return post_quote(r, tokens_span(t, w->at, end - w->at));
}

/* It is used, and with it the days that stand in the sentence. */
static void claim_swap(struct governed *g, const struct governor *w, const struct frequency *f) {
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  r->sentence = g->n.h->text;
  post_claim(r, tokens_span(t, w->at, w->tokens), CLAIM_TOLD, 0, 0);
  for (size_t i = 0; i < t->count; i++) {
    struct frequency own = frequency_at(t, i);
    if (own.tokens > 0 && own.days == f->days && own.times_per_28 == f->times_per_28)
      post_claim(r, tokens_span(t, i, own.tokens), CLAIM_TOLD, 0, 0);
  }
  r->sentence = (struct span){"", 0};
}

static bool leave_days_out(struct governed *g, size_t item, const struct frequency *f, bool own, struct span words) {
  struct post_reader *r = g->n.r;
  struct item *line = &r->item[item];
  const char *bare = without_often(r, line->text, own), *text = bare ? on_other_days(r, bare, f) : NULL, *assumed;
  struct ration_line got;
  if (!text || !strict_takes(r, text, &assumed, &got) || got.shown_food != line->food) return false;
  struct buf note;
  buf_init(&note, r->arena, words.n + 80);
  buf_addf(&note, "not on the days of which the post says '%.*s'", SPAN_ARG(words));
  line->text = arena_text(r->keep, span_of(text));
  line->assumed = arena_text(r->keep, span_of(post_joined(r, buf_text(&note), line->assumed)));
  return true;
}

/* "a day-old chick instead of dinner": the meal whose food is not fed then; "" where none of the lines is told to be of it.
 */
static struct span meal_replaced(const struct post_reader *r, const struct tokens *t, const struct governor *w) {
  size_t at = w->at + w->tokens;
  if (says(t, at, "of")) at++;
  if (says(t, at, "his her the their its")) at++;
  if (at >= t->count || !is_word(t, at) || !token_is_a(&t->item[at], CLASS_MEAL)) return (struct span){"", 0};
  for (size_t k = 0; k < r->count; k++)
    if (r->item[k].kind == ITEM_FOOD && span_eq_fold(r->item[k].meal, t->item[at].word)) return t->item[at].word;
  return (struct span){"", 0};
}

/* "Sunday dinner is 40 g beef instead of the chicken": of several meals with that food the one that is named; "" none. */
static struct span meal_of_swap(const struct governed *g, size_t before) {
  const struct tokens *t = &g->n.t;
  const struct post_reader *r = g->n.r;
  struct span named = {"", 0};
  for (size_t i = 0; i < before; i++) {
    if (!is_word(t, i) || !says_a(t, i, CLASS_MEAL)) continue;
    for (size_t k = 0; k < r->count; k++) {
      if (!g->reach[k] || r->item[k].line == g->n.h->line || !span_eq_fold(r->item[k].meal, t->item[i].word)) continue;
      if (named.n > 0 && !span_eq_fold(named, t->item[i].word)) return (struct span){"", 0};
      named = t->item[i].word;
    }
  }
  return named;
}

/* "..., the heart stays" */
static bool is_left_as_it_was(const struct governed *g, size_t item) {
  const struct tokens *t = &g->n.t;
  enum { NEAR = 5 }; /* "the liver in the morning stays" */
  for (size_t i = 0; i + 1 < t->count; i++) {
    if (!is_word(t, i) || t->item[i].word.n <= 2 || !net_has_word(g->n.r->item[item].words, t->item[i].word)) continue;
    for (size_t k = i + 1; k < t->count && k < i + NEAR && t->item[k].kind != TOKEN_MARK; k++)
      if (phrase_of(t, k, CLASS_LEFT_AS_IT_WAS) > 0) return true;
  }
  return false;
}

/* An organ that the sentence does not name: of "instead of the chicken" the liver of a chicken is not meant, where its flesh
 * is fed as well. */
static bool is_organ_unnamed(const struct governed *g, size_t item) {
  const struct post_reader *r = g->n.r;
  struct tokens words = tokens_of(r->item[item].words, r->arena);
  for (size_t i = 0; i < words.count; i++) {
    if (!says_a(&words, i, CLASS_ORGAN_OF_MEAT)) continue;
    for (size_t k = 0; k < g->n.t.count; k++)
      if (net_has_word(words.item[i].word, g->n.t.item[k].word)) return false;
    return true;
  }
  return false;
}

static void leave_organs_out(struct governed *g, const struct claim *line, const struct governor *w) {
  const struct post_reader *r = g->n.r;
  bool flesh = false;
  if (net_is_kind(g->n.t.item[w->at + w->tokens - 1].word)) return; /* "no meat": neither flesh nor heart */
  for (size_t k = 0; k < r->count; k++)
    flesh = flesh || (g->reach[k] && !(line && k >= line->first && k < line->last) && !is_organ_unnamed(g, k));
  for (size_t k = 0; k < r->count && flesh; k++) g->reach[k] = g->reach[k] && !is_organ_unnamed(g, k);
}

bool governed_swap(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  const struct claim *line = governed_line(g, w->at);
  bool own = w->kind == GOVERNS_EXCEPT;
  if (r->makes_days > 0 || r->makes_meals > 0 || (own && !line)) return false;
  for (size_t k = w->at; k <= w->at + w->tokens + 1; k++)
    if (says(t, k, "some part half bit third quarter thirds quarters"))
      return false; /* "instead of some of the mince": nobody says of how much */
  struct frequency f = own ? often_in(t, w->at, w->at + w->tokens + 3) : (struct frequency){0};
  for (size_t k = line && !own ? line->first : r->count; k < r->count && k < line->last && f.tokens == 0; k++) {
    struct tokens said = post_tokens(r, span_of(r->item[k].text));
    f = often_in(&said, 0, said.count);
  }
  if (f.tokens == 0 && !own) f = often_in(t, 0, t->count);
  bool any = false;
  leave_organs_out(g, line, w);
  struct span meal = own ? (struct span){"", 0} : meal_replaced(r, t, w);
  if (!own && meal.n == 0) meal = meal_of_swap(g, w->at);
  for (size_t k = 0; k < r->count && f.tokens > 0; k++) {
    if (meal.n > 0 && !span_eq_fold(r->item[k].meal, meal)) continue;
    bool mine = line && k >= line->first && k < line->last;
    if (!g->reach[k] || mine != own || is_left_as_it_was(g, k)) continue;
    bool left = leave_days_out(g, k, &f, own, words_of(r, t, w));
    if (!left && !post_tells_often(r, &r->item[k])) return false; /* what has days of its own keeps them */
    any = any || left;
  }
  if (any) claim_swap(g, w, &f);
  return any;
}

/* "On Sundays he only gets 400 g of lamb neck": what is fed every day is not fed then; said beside it, and asked. */
bool governed_only_then(struct governed *g, const struct governor *w) {
  struct post_reader *r = g->n.r;
  const struct tokens *t = &g->n.t;
  struct frequency f = often_in(t, 0, t->count);
  bool line = false, any = false;
  if (f.tokens == 0 || f.days == 0 || r->makes_days > 0 || r->makes_meals > 0 || r->any_period) return false;
  for (size_t i = 0; i < t->count; i++) {
    line = line || governed_line(g, i);
    if (is_word(t, i) && says_a(t, i, CLASS_MEAL)) return false; /* "Sunday evening": of that meal alone */
  }
  for (size_t k = 0; k < r->count && line; k++) {
    struct item *item = &r->item[k];
    if (item->kind != ITEM_FOOD || item->sentence == g->n.number || !without_often(r, item->text, false)) continue;
    if (!leave_days_out(g, k, &f, false, words_of(r, t, w))) continue;
    post_doubt(r, k, "the post says that on some days another food alone is fed");
    any = true;
  }
  if (!any) return false;
  r->line = g->n.h->line;
  struct post_question *q =
      post_ask(r, 3, "You write '%.*s': is nothing else fed then? All that is fed every day was left out on these days.",
               SPAN_ARG(post_quote(r, g->n.h->text)));
  if (q) q->about = ASKS_OF_AMOUNTS;
  claim_swap(g, w, &f);
  return true;
}

/* "He fasts for nobody, Sunday is his best day": the days are of another clause. */
static bool fasts_in_a_clause_before(const struct tokens *t) {
  bool fasts = false, apart = false;
  for (size_t i = 0; i < t->count; i++) {
    if (fasts && apart && frequency_at(t, i).tokens > 0) return true;
    fasts = fasts || phrase_of(t, i, CLASS_FASTING) > 0;
    apart = apart || (fasts && is_mark(t, i, ','));
    if (!fasts && frequency_at(t, i).tokens > 0) return false;
  }
  return false;
}

/* More than "it lasts 12 calendar days" */
static bool tells_food(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0 || a.by_word || a.cannot || says_a(t, i + a.tokens, CLASS_CANNOT_MEASURE)) continue;
    size_t behind = i + a.tokens;
    if (!a.bare || !(says_a(t, behind, CLASS_STRETCH_OF_DAYS) || says_a(t, behind + 1, CLASS_STRETCH_OF_DAYS))) return true;
    i += a.tokens;
  }
  return false;
}

/* "..., then no bag" */
static bool says_no_vessel(const struct tokens *t) {
  for (size_t i = 0; i + 1 < t->count; i++)
    if (says(t, i, "no") && says_a(t, i + 1, CLASS_CANNOT_MEASURE)) return true;
  return false;
}

/* "He gets nothing" is a fast; "nothing but the lamb", "nothing else" is none. */
static bool tells_fast(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_FASTING);
    if (used > 0 && !says(t, i + used, "but except else besides apart other bar save more")) return true;
  }
  return false;
}

/* "On Sunday is his fasting day", "Mondays he fasts": the days; 0 none. */
unsigned post_fasts_on(struct post_reader *r, const struct tokens *t) {
  const char *day = "";
  if (!tells_fast(t) || tells_food(t) || fasts_in_a_clause_before(t)) return 0;
  for (size_t i = 0; i < t->count; i++) /* "he fasts until the evening": then he eats */
    if (says(t, i, "until till")) return 0;
  struct frequency f = often_in(t, 0, t->count);
  r->fasts_unpacked = r->fasts_unpacked || says_no_vessel(t);
  if (f.tokens > 0 && f.days == 0) r->fast_times = f.times_per_28; /* "one day a week he fasts" */
  if (f.tokens > 0 || post_day_prefix(r, t, &day) == 0) return f.tokens > 0 ? f.days : 0;
  struct tokens said = post_tokens(r, span_of(day)); /* "Sun: fast day" */
  return often_in(&said, 0, said.count).days;
}

/* On those days nothing of what is fed every day. */
void post_leave_fasts_out(struct post_reader *r) {
  struct frequency f = {.days = r->fast_days, .times_per_28 = 4 * __builtin_popcount(r->fast_days)};
  if (r->fast_days == 0) f.times_per_28 = r->fast_times;
  if (!(f.times_per_28 > 0) || r->makes_days > 0 || r->makes_meals > 0 || r->any_period) return;
  for (size_t k = 0; k < r->count; k++) {
    struct item *line = &r->item[k];
    const char *bare = line->kind == ITEM_FOOD ? without_often(r, line->text, false) : NULL;
    const char *text = bare ? on_other_days(r, bare, &f) : NULL, *assumed;
    struct ration_line got;
    if (!text || !strict_takes(r, text, &assumed, &got) || got.shown_food != line->food) continue;
    line->text = arena_text(r->keep, span_of(text));
    line->assumed = arena_text(r->keep, span_of(post_joined(r, "not on the day without food", line->assumed)));
  }
}
