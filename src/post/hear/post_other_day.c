/* A day that is as another one: "Wed: same as Mon", "Sat: as above, but lamb instead of the beef", "Sun: same, no meat, two
 * eggs instead". */
#include "foods/refused.h"
#include "post/hear/post_hear.h"
#include "post/hear/post_net.h"

/* The days that a phrase names, as bits from Monday. */
static unsigned days_said_in(struct post_reader *r, const char *phrase) {
  struct tokens t = post_tokens(r, span_of(phrase));
  return t.count > 0 ? frequency_at(&t, 0).days : 0;
}

/* Is it fed on those days? Then the line without them is in *front. */
static bool is_of_days(struct post_reader *r, const struct item *item, unsigned days, struct span *front) {
  struct tokens t = post_tokens(r, span_of(item->text));
  for (size_t i = 0; i < t.count && item->kind == ITEM_FOOD; i++) {
    struct frequency f = frequency_at(&t, i);
    if (f.days == 0 || (f.days & days) != days || i + f.tokens != t.count) continue;
    *front = (struct span){item->text, (size_t)(t.item[i].at.p - item->text)};
    return true;
  }
  return false;
}

/* "as usual", "like the other days": as the day before. */
static size_t as_always(const struct tokens *t, size_t at) {
  if (says(t, at, "usual always normal before above yesterday")) return 1;
  size_t the = says(t, at, "on the all any") ? 1 : 0;
  if (says(t, at + the, "the") && the == 1) the++;
  if (says(t, at + the, "other") && says(t, at + the + 1, "days day")) return the + 2;
  return says(t, at + the, "day") && says(t, at + the + 1, "before") ? the + 2 : 0;
}

/* "same as Monday", "as on Tue", "like Mon", "ditto": how many tokens, and the other days, none: those before it. */
static size_t as_on_other_day(struct post_reader *r, const struct tokens *t, const char **other) {
  size_t at = says(t, 0, "same ditto likewise") ? 1 : says(t, 0, "the") && says(t, 1, "same") ? 2 : 0;
  bool same = at > 0;
  if (says(t, at, "again")) at++;
  size_t as = says(t, at, "as like see") ? at + 1 : at;
  *other = "";
  size_t before = as > at ? as_always(t, as) : 0; /* as the day before */
  if (before > 0) return as + before;
  if (says(t, as, "on")) as++;
  if (!same && as == 0) return 0;
  struct tokens rest = tokens_part(t, as, t->count);
  size_t days = as > at && as < t->count ? post_day_prefix(r, &rest, other) : 0;
  if (days == 0 && as > at) return 0; /* "same as" something that is no day */
  return days > 0 ? as + days : same ? at : 0;
}

/* ---- what is otherwise on it ---- */

struct otherwise {
  size_t old, old_end; /* the food that is not fed on it */
  struct span food;    /* what is fed in its place, as much of it; "": it stands behind with an amount, or nothing */
  bool found;
};
enum { OTHERWISE_MOST = 6 };

static bool ends_change(const struct tokens *t, size_t at) {
  return at >= t->count || t->item[at].kind == TOKEN_MARK || says(t, at, "but and instead plus with gets just only");
}

/* "no beef", "without the rice", "minus kale": where it ends; 0. */
static size_t without_at(const struct tokens *t, size_t at, struct otherwise *o) {
  enum { FAR = 5 };
  if (!says(t, at, "no without minus not")) return 0;
  size_t from = at + 1, end;
  while (says(t, from, "the any his her")) from++;
  for (end = from; !ends_change(t, end) && end < from + FAR && !says(t, end, "or at"); end++) {
  }
  if (end == from) return 0;
  *o = (struct otherwise){.old = from, .old_end = end};
  if (says(t, end, "at") && says(t, end + 1, "all")) end += 2;
  return end;
}

/* "lamb mince instead of the turkey", "haddock in place of the cod": from 'begin', where the new food begins; its end, 0. */
static size_t in_its_place_at(struct post_reader *r, const struct tokens *t, size_t at, size_t least, size_t *begin,
                              struct otherwise *o) {
  enum { FAR = 5 };
  size_t used = says(t, at, "instead") && says(t, at + 1, "of") ? 2 : phrase_at(t, at, "in place of");
  if (used == 0) used = phrase_at(t, at, "in the place of");
  if (used == 0) used = phrase_at(t, at, "rather than");
  if (used == 0) return 0;
  size_t from = at, end, old = at + used;
  while (from > least && !ends_change(t, from - 1)) from--;
  while (says(t, old, "the his her usual")) old++;
  for (end = old; !ends_change(t, end) && end < old + FAR; end++) {
  }
  if (end == old || from == at) return 0;
  bool amount = false;
  for (size_t i = from; i < at; i++) amount = amount || post_amount_at(t, i).tokens > 0;
  if (!post_names_food(r, t, from, at)) return 0;
  *begin = from;
  *o = (struct otherwise){.old = old, .old_end = end};
  if (!amount) o->food = tokens_span(t, from, at - from);
  return end;
}

/* Is the food of this line the one that is not fed? Of "meat" all that is of the kind. */
static bool is_food_of(struct post_reader *r, const struct tokens *t, const struct otherwise *o, const struct item *item) {
  for (size_t k = o->old; k < o->old_end; k++) {
    if (t->item[k].kind != TOKEN_WORD || token_is_a(&t->item[k], CLASS_CHATTER)) continue;
    if (span_holds_fold(item->words, t->item[k].word) || net_has_word(span_of(item->text), t->item[k].word)) return true;
    if (net_is_kind(t->item[k].word) && food_is_refused(r->lib, item->food, "", t->item[k].word, r->arena)) return true;
  }
  return false;
}

/* What is otherwise behind 'from'; those words that tell no food of their own are taken. */
static size_t find_otherwise(struct post_reader *r, struct tokens *t, size_t from, struct otherwise o[OTHERWISE_MOST]) {
  size_t count = 0;
  bool without = false;
  for (size_t i = from; i < t->count && count < OTHERWISE_MOST; i++) {
    size_t begin = i, end = without_at(t, i, &o[count]);
    if (end > 0) {
      without = true;
    } else if ((end = in_its_place_at(r, t, i, from, &begin, &o[count])) > 0) {
      if (o[count].food.n == 0) begin = i; /* its amount is read as any other */
    } else {
      continue;
    }
    post_claim(r, tokens_span(t, begin, end - begin), CLAIM_TOLD, 0, 0);
    count++;
    take(t, begin, end - begin);
    i = end - 1;
  }
  for (size_t i = from; i < t->count && without; i++)
    if (says(t, i, "instead")) post_claim(r, t->item[i].at, CLAIM_TOLD, 0, 0), take(t, i, 1);
  return count;
}

/* As much of the other food on this day. */
static void add_in_its_place(struct post_reader *r, const struct item *old, struct span front, struct span food,
                             const char *on) {
  struct tokens own = post_tokens(r, front);
  struct post_amount a = own.count > 0 ? post_amount_at(&own, 0) : (struct post_amount){0};
  struct buf b;
  struct ration_line got;
  const char *assumed;
  if (a.tokens == 0) return;
  buf_init(&b, r->arena, front.n + food.n + strlen(on) + 40);
  buf_addf(&b, "%.*s %.*s, %s", SPAN_ARG(tokens_span(&own, 0, a.tokens)), SPAN_ARG(food), on);
  if (strict_takes(r, buf_text(&b), &assumed, &got)) {
    post_add(r, ITEM_FOOD, buf_text(&b), "as much of it as of the food that it stands for on that day");
    return;
  }
  post_leave(r, food, "no food record fits these words well", true);
  post_ask(r, 3, "Which kind of '%.*s' is fed in the place of '%s'?", SPAN_ARG(food), old->text);
}

static void add_as_it_was(struct post_reader *r, const struct item *item, struct span front, const char *on) {
  struct buf b;
  buf_init(&b, r->arena, front.n + strlen(on) + 4);
  buf_addf(&b, "%.*s%s", SPAN_ARG(front), on);
  r->taken_grams = item->grams;
  r->taken_food = item->food;
  r->taken_words = item->words;
  post_add(r, ITEM_FOOD, buf_text(&b), "as on the other day, as the post says");
}

static bool names_more(const struct tokens *t, size_t from) {
  for (size_t i = from; i < t->count; i++)
    if (is_word(t, i) && !says_a(t, i, CLASS_ADDS_TO_SAME) && !token_is_a(&t->item[i], CLASS_CHATTER)) return true;
  return false;
}

size_t post_as_on_day(struct post_reader *r, struct tokens *t, struct span text, bool marked) {
  const char *other, *on = r->days;
  size_t used = as_on_other_day(r, t, &other), count = r->count, fed = 0;
  struct otherwise o[OTHERWISE_MOST];
  if (used == 0 || !on[0]) return 0;
  if (!marked && !other[0] && used < t->count && is_word(t, used) && !says_a(t, used, CLASS_ADDS_TO_SAME)) return 0;
  if (!other[0]) other = r->days_before;
  unsigned days = days_said_in(r, other);
  bool ends = used >= t->count || t->item[used].kind == TOKEN_MARK || says_a(t, used, CLASS_ADDS_TO_SAME) ||
              says(t, used, "only just");
  if (days == 0 || (!ends && post_any_amount(t, used))) return 0;
  size_t changes = find_otherwise(r, t, used, o);
  for (size_t i = 0; i < count; i++) {
    struct span front;
    if (!is_of_days(r, &r->item[i], days, &front)) continue;
    size_t k = 0;
    while (k < changes && !is_food_of(r, t, &o[k], &r->item[i])) k++;
    struct item item = r->item[i]; /* adding moves them */
    if (k == changes)
      add_as_it_was(r, &item, front, on);
    else if (o[k].food.n > 0 && !o[k].found)
      add_in_its_place(r, &item, front, o[k].food, on);
    fed++;
    if (k < changes) o[k].found = true;
  }
  if (fed == 0) {
    post_leave(r, text, "said to be as on another day, whose foods were not found", true);
    post_ask(r, 3, "What is fed in '%.*s'?", SPAN_ARG(post_quote(r, text)));
    return t->count;
  }
  for (size_t k = 0; k < changes; k++)
    if (!o[k].found && o[k].food.n > 0) post_leave(r, o[k].food, "the post does not say how much", true);
  if (!names_more(t, used)) { /* "same without tripe", and nothing more */
    post_claim(r, text, CLAIM_TOLD, 0, 0);
    return t->count;
  }
  post_claim(r, tokens_span(t, 0, used), CLAIM_TOLD, 0, 0);
  while (used < t->count &&
         (t->item[used].taken || t->item[used].kind == TOKEN_MARK || token_is_a(&t->item[used], CLASS_ADDS_TO_SAME)))
    used++;
  return used;
}
