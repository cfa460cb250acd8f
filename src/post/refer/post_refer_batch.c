/* What is made for many days, in the words of the sentence around the amounts: "yield 10 daily portions", "once a fortnight
 * I buy: ...", "not in the bags: ..."; the unit of all numbers told once; and what was fed, is fed and may be fed, with a
 * head each. */
#include "base/num.h"
#include "post/built/post_built.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

/* ---- a batch ---- */

/* "Not in the pot: 5 g of oil a day", "outside the bags: ..." */
static void beside_batch(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  size_t used = phrase_of(t, 0, CLASS_BESIDE_THE_BATCH), at = used, names = 0;
  if (used == 0) return;
  if (is_word(t, at) && is_mark(t, at + 1, ':')) at++; /* the pot, the tubs, the pan */
  if (!is_mark(t, at, ':')) return;
  while (is_mark(t, at, ':') || is_mark(t, at, ',') || is_mark(t, at, '-')) at++;
  if (at >= t->count || !post_names_food(st->r, t, at, t->count)) return;
  while (at + names < t->count && names < 3 && is_word(t, at + names) && !says(t, at + names, "gets has takes")) names++;
  if (says(t, at + names, "gets has takes")) at += names + 1; /* "A gets 5 g of oil" */
  refer_between(st, i, 0, at, "At serving: ");
}

/* "Onto each day's bowl I pour ...", "each day's share gets ...", "on top of each daily portion I put ...": beside the
 * batch. */
static void each_days_bowl(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  size_t at = 0;
  while (says(t, at, "and then plus also so") || is_mark(t, at, ',')) at++;
  if (phrase_at(t, at, "on top of") > 0) at += 3;
  bool onto = at > 2 || says(t, at, "into onto on to over in");
  if (says(t, at, "into onto on to over in")) at++;
  if (!says(t, at, "each every") || !says(t, at + 1, "day's days days' daily") || !is_word(t, at + 2)) return;
  at += 3;
  if (says(t, at, "then also")) at++;
  bool gets = says(t, at, "gets has");
  if (!onto && !gets) return;
  if (gets) at++;
  if (at < t->count && post_names_food(st->r, t, at, t->count)) refer_between(st, i, 0, at, "At serving: ");
}

/* "Into the week's pot go 2 kg of chicken", "for the week's batch I take": of a week. */
static void weeks_pot(struct story *st, size_t i) {
  enum { FAR = 4 };
  const struct tokens *t = &st->s[i].t;
  size_t from = 0, at;
  while (from < t->count && !says(t, from, "week's weeks")) from++;
  if (from == t->count || from < 2 || !says(t, from - 1, "the each every")) return;
  at = from + 2;
  from -= 2;
  if (!says(t, from, "in into for to") || (from > 0 && t->item[from - 1].kind != TOKEN_MARK)) return;
  while (at < from + 3 + FAR && says(t, at, "go goes i we take use put there's is comes need")) at++;
  if (is_mark(t, at, ':')) at++;
  if (at >= t->count || post_amount_at(t, at).tokens == 0) return;
  refer_between(st, i, from, at, "For the week: ");
}

static bool tells_portions(const struct story *st, size_t i) {
  for (size_t k = 0; k < st->count; k++) {
    const struct tokens *t = &st->s[k].t;
    for (size_t m = 0; m + 1 < t->count && k != i; m++) {
      struct quantity q = quantity_at(t, m);
      if (q.fault == QUANTITY_FINE && q.low >= 2 && says_a(t, m + q.tokens, CLASS_VESSEL_OF_SUPPLY)) return true;
      if (says(t, m, "lasts last makes") && quantity_at(t, m + 1).fault == QUANTITY_FINE) return true;
    }
  }
  return false;
}

/* "Once a fortnight I buy: 2.8 kg beef, ...": how often it is made, and not how often it is fed. */
static void made_so_often(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  struct frequency f = t->count > 4 ? frequency_at(t, 0) : (struct frequency){0};
  size_t at = f.tokens, verb;
  if (at == 0 || f.refuse || !(f.times_per_28 > 0) || f.times_per_28 > 4 || f.feedings > 1) return;
  if (is_mark(t, at, ',')) at++;
  if (!says(t, at, "i we")) return;
  for (verb = at + 1; verb < at + 4 && !says_a(t, verb, CLASS_MAKES_STOCK); verb++) {
  }
  if (!says_a(t, verb, CLASS_MAKES_STOCK) || !post_any_amount(t, verb + 1)) return;
  verb++;
  while (is_mark(t, verb, ':') || is_mark(t, verb, ',') || says(t, verb, "a up batch of in bulk from big with:")) verb++;
  struct buf b;
  buf_init(&b, st->r->arena, 60);
  if (!tells_portions(st, i)) {
    buf_adds(&b, "Makes ");
    num_sig(&b, CALENDAR_DAYS / f.times_per_28, 3);
    buf_adds(&b, " days\x1F");
  }
  refer_between(st, i, 0, verb, buf_text(&b));
}

/* "10 portions (1 portion = 1 day", "(a portion is what he gets per day)": the tokens from 'at' on; 0. */
static size_t behind_one_portion(const struct tokens *t, size_t of, size_t at) {
  enum { FAR = 12 };
  size_t day = of;
  if (!is_mark(t, of, '=') && !says(t, of, "is does lasts feeds for covers")) return 0;
  while (day < t->count && day < of + FAR && !is_mark(t, day, ')') && !is_mark(t, day, ',') && !says(t, day, "day daily"))
    day++;
  if (!says(t, day, "day daily") || says(t, day - 1, "half two")) return 0;
  return day + 1 + is_mark(t, day + 1, ')') - at;
}

/* "yield 10 daily portions", "10 portions, one a day", "12 boxes, one per day": days. The tokens; 0. */
static size_t daily_portions(const struct tokens *t, size_t at, double *days) {
  struct quantity q = quantity_at(t, at);
  size_t behind = at + q.tokens;
  if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 2) || q.low > 60) return 0;
  *days = q.low;
  if (says(t, behind, "daily day day's days' days") &&
      (says_a(t, behind + 1, CLASS_VESSEL_OF_SUPPLY) || says(t, behind + 1, "rations servings meals")))
    return behind + 2 - at;
  if (!says_a(t, behind, CLASS_VESSEL_OF_SUPPLY)) return 0;
  size_t one = behind + 1;
  while (is_mark(t, one, ',') || is_mark(t, one, '(')) one++;
  bool one_of_them = says(t, one, "one a each every") || (is_number(t, one) && t->item[one].value == 1);
  if (one_of_them && says_a(t, one + 1, CLASS_VESSEL_OF_SUPPLY)) return behind_one_portion(t, one + 2, at);
  if (!says(t, one, "one 1") && !(is_number(t, one) && t->item[one].value == 1)) return 0;
  one++;
  if (says_a(t, one, CLASS_VESSEL_OF_SUPPLY)) one++;
  bool day = says(t, one, "daily") || (says(t, one, "a per each every") && says(t, one + 1, "day"));
  return !day ? 0 : one + (says(t, one, "daily") ? 1 : 2) + is_mark(t, one + 2, ')') - at;
}

static void portions_are_days(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 2 < t->count; k++) {
    double days;
    size_t used = daily_portions(t, k, &days), from = k, to = k + used;
    if (used == 0) continue;
    while (from > 0 && t->item[from - 1].kind != TOKEN_MARK) from--;
    if (from > 0 && is_mark(t, from - 1, ':') && from < 3) from = 0; /* "Yield: 10 daily portions" */
    bool food = false;
    double kg;
    size_t end = to;
    while (end < t->count && t->item[end].kind != TOKEN_MARK && post_weight_at(t, end, &kg) == 0) end++;
    if (end == t->count || t->item[end].kind == TOKEN_MARK) to = end; /* "... = 1 day for a 20 kg dog" */
    for (size_t m = 0; m < t->count; m++) food = food || post_mention_at(st->r, t, m) > 0 || post_weight_at(t, m, &kg) > 0;
    struct buf b;
    buf_init(&b, st->r->arena, 60);
    buf_adds(&b, "\x1FMakes ");
    num_sig(&b, days, 3);
    buf_adds(&b, " days\x1F");
    for (size_t m = k, of; m < to; m++) /* "a portion is what my 20 kg dog gets per day" */
      if ((of = post_weight_at(t, m, &kg)) > 0) buf_addf(&b, "%.*s\x1F", SPAN_ARG(tokens_span(t, m, of + 1)));
    if (food)
      refer_between(st, i, from, to, buf_text(&b));
    else
      refer_write(st, i, buf_text(&b)); /* "Batch 14, cook date Saturday, yield 10 daily portions, in 10 boxes" */
    return;
  }
}

/* "eggs 5 pcs (whole)": a food and how many of it. */
static void pieces_behind(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 1 < t->count; k++) {
    if (!is_number(t, k) || !says(t, k + 1, "pcs pc pce pieces piece nos stk stück") || !is_word(t, k - 1)) continue;
    size_t from = k;
    while (from > 0 && is_word(t, from - 1) && k - from < 4) from--;
    if (from == k || !post_names_food(st->r, t, from, k) || (k + 2 < t->count && is_word(t, k + 2))) continue;
    size_t to = k + 2;
    if (is_mark(t, to, '(') && says(t, to + 1, "whole") && is_mark(t, to + 2, ')')) to += 3;
    struct buf b;
    buf_init(&b, st->r->arena, 100);
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(t->item[k].at), SPAN_ARG(tokens_span(t, from, k - from)));
    refer_between(st, i, from, to, buf_text(&b));
    t = &st->s[i].t;
  }
}

/* ---- the unit of all numbers ---- */

/* "Units are ounces unless told", "all weights in oz" (of grams another reader knows it): a sentence of no food and no
 * number that names one unit. */
static const char *unit_told(const struct tokens *t, size_t *end) {
  enum { FAR = 12 };
  const char *unit = NULL;
  bool all = false;
  for (size_t k = 0; k < t->count; k++) {
    *end = k + 1;
    if (k == FAR) return NULL;
    if (unit && is_mark(t, k, '.')) break; /* "oz." ends no sentence */
    if (is_number(t, k)) return NULL;
    if (says(t, k, "ounces ounce oz")) unit = "oz";
    if (says(t, k, "pounds pound lbs lb")) unit = "lb";
    if (says(t, k, "units unit weights amounts numbers figures quantities masses everything all")) all = true;
  }
  return all ? unit : NULL;
}

/* "chicken 5", "oats 1 (dry)", "5 beef": a number that has no unit gets it; pieces stay pieces. */
static void write_unit(struct story *st, size_t i, const char *unit) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k < t->count; k++) {
    struct post_amount a = is_number(t, k) ? post_amount_at(t, k) : (struct post_amount){0};
    size_t behind = k + a.tokens;
    if (a.tokens == 0 || !a.bare || is_mark(t, behind, '%') || not_an_amount(t, k) > 0) continue;
    bool piece = is_mark(t, behind, '(') && says(t, behind + 1, "piece pieces whole pc pcs each");
    bool ends = behind >= t->count || t->item[behind].kind == TOKEN_MARK;
    if (piece || !ends || !is_word(t, k - 1)) continue;
    size_t from = k;
    while (from > 0 && is_word(t, from - 1) && k - from < 4) from--;
    if (!post_names_food(st->r, t, from, k)) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 60);
    buf_addf(&b, "%.*s %s", SPAN_ARG(tokens_span(t, k, a.tokens)), unit);
    refer_between(st, i, k, behind, buf_text(&b));
    t = &st->s[i].t;
  }
}

static void units(struct story *st) {
  const char *unit = NULL;
  size_t told = st->count, end = 0;
  for (size_t i = 0; i < st->count; i++) {
    size_t to = 0;
    const char *own = unit_told(&st->s[i].t, &to);
    if (own && unit) return;
    if (own) unit = own, told = i, end = to;
  }
  if (!unit) return;
  for (size_t i = 0; i < st->count; i++)
    if (i != told && st->s[i].t.count > 1) write_unit(st, i, unit);
  refer_between(st, told, 0, end, "");
}

/* "Both: fish oil 1 tsp": of two meals above. */
static void both_meals(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  size_t at = says(t, 0, "both") || says(t, 0, "each") ? 1 : 0;
  if (at > 0 && says(t, at, "meals times meal bowls")) at++;
  if (at == 0 || !is_mark(t, at, ':') || !post_any_amount(t, at + 1)) return;
  refer_between(st, i, 0, at + 1, "At each meal: ");
}

/* ---- what was, is and may be fed ---- */

enum tense { TENSE_NONE, TENSE_PAST, TENSE_NOW, TENSE_WISH };

/* "What I fed in September:", "What she gets since May:", "What I'd like to feed:": the token behind the mark; 0. */
static size_t tense_head(const struct tokens *t, enum tense *tense) {
  enum { FAR = 10 };
  *tense = TENSE_NONE;
  if (!says(t, 0, "what")) return 0;
  for (size_t k = 1; k < t->count && k < FAR; k++) {
    if (is_mark(t, k, ':') || is_mark(t, k, '=')) return *tense == TENSE_NONE ? 0 : k + 1;
    if (says_a(t, k, CLASS_WISHES_TO_FEED)) *tense = TENSE_WISH;
    if (*tense == TENSE_NONE && says(t, k, "fed gave got ate had used was were")) *tense = TENSE_PAST;
    if (*tense == TENSE_NONE && says(t, k, "feed feeds give gives gets get eats has is")) *tense = TENSE_NOW;
  }
  return 0;
}

/* "doubled", "halved", "as before": how much of what was fed; 0. */
static double change_at(const struct tokens *t, size_t at) {
  if (says(t, at, "doubled")) return 2;
  if (says(t, at, "tripled trebled")) return 3;
  if (says(t, at, "halved")) return 0.5;
  return says(t, at, "unchanged same") || (says(t, at, "as") && says(t, at + 1, "before")) ? 1 : 0;
}

/* The sentence of today, from 'from' on, with what it takes from the one of then. */
static void write_today(struct story *st, size_t i, size_t from, const struct told_food *then, size_t n) {
  const struct tokens *t = &st->s[i].t;
  struct buf b;
  buf_init(&b, st->r->arena, 3 * st->s[i].text.n + 300);
  for (size_t k = from; k < t->count; k++) {
    size_t end = is_word(t, k) ? post_food_end(st->r, t, k) : k, last = end;
    double by = 0;
    for (size_t m = k + 1; m <= end && m < t->count && by == 0; m++)
      if ((by = change_at(t, m)) > 0) last = m;
    const struct told_food *f = end > k ? post_told_food_of(then, n, t->item[(by > 0 ? last : end) - 1].word) : NULL;
    if (by > 0 && f) { /* "tripe doubled" */
      amount_write(&b, &f->amount, by);
      buf_addf(&b, " %.*s", SPAN_ARG(f->food));
      k = last + (says(t, last, "as") ? 1 : 0);
      continue;
    }
    bool counted = k > from && is_number(t, k - 1) && f && f->food.n > t->item[k].at.n; /* "2 wings", of a chicken */
    if (counted && t->item[k].word.n > 0 && end >= k + 1 && net_has_word(f->food, t->item[k].word)) {
      buf_addf(&b, " %.*s", SPAN_ARG(f->food));
      continue;
    }
    if (k > from && t->item[k].at.p > t->item[k - 1].at.p + t->item[k - 1].at.n) buf_addc(&b, ' ');
    buf_add(&b, t->item[k].at);
  }
  refer_write(st, i, buf_text(&b));
}

/* "which is new", "(new)": says nothing of today. */
static void without_new(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 2 < t->count; k++) {
    if (!says(t, k, "which that") || !says(t, k + 1, "is are") || !says(t, k + 2, "new")) continue;
    refer_between(st, i, k, k + 3, "");
    return;
  }
}

static void then_and_now(struct story *st) {
  struct told_food then[TOLD_MOST];
  size_t n = 0;
  enum tense tense;
  for (size_t i = 0; i < st->count; i++) {
    size_t from = tense_head(&st->s[i].t, &tense);
    if (from == 0) continue;
    if (tense == TENSE_PAST) {
      struct span text = arena_span(st->r->keep, st->s[i].text);
      n += post_told_foods(st->r, text, then + n, TOLD_MOST - n);
      struct tokens t = tokens_of(text, st->r->keep);
      for (size_t k = 0; k + 1 < t.count && n < TOLD_MOST; k++) { /* "3 chicken wings" */
        struct post_amount a = is_number(&t, k) ? post_amount_at(&t, k) : (struct post_amount){0};
        size_t end = a.bare && a.tokens == 1 ? post_food_end(st->r, &t, k + 1) : k + 1;
        if (end > k + 1)
          then[n++] =
              (struct told_food){.amount = a, .said = tokens_span(&t, k, 1), .food = tokens_span(&t, k + 1, end - k - 1)};
      }
    }
    if (tense == TENSE_NOW) {
      without_new(st, i);
      struct tokens head = tokens_part(&st->s[i].t, 0, from);
      if (post_any_amount(&head, 0)) from = 0; /* "What I feed my 17 kg dog each day:" */
      write_today(st, i, from, then, n);
      continue;
    }
    refer_tell(st, i, tense == TENSE_PAST ? NOT_FED_PAST : "only thought of, and not fed yet");
    refer_write(st, i, "");
  }
}

/* "Bones I did give in the begin, now not more": all of it was. */
static void no_more_now(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k < t->count; k++) {
    size_t used = phrase_of(t, k, CLASS_NO_MORE_NOW);
    if (used == 0 || k + used < t->count) continue;
    for (size_t m = 0; m < t->count; m++) /* "300 g beef, bones now not more" */
      if (post_amount_at(t, m).is_mass) return;
    refer_tell(st, i, NOT_FED_PAST);
    refer_write(st, i, "");
    return;
  }
}

void refer_batch(struct story *st) {
  units(st);
  then_and_now(st);
  for (size_t i = 0; i < st->count; i++) {
    if (st->s[i].t.count < 3) continue;
    beside_batch(st, i);
    each_days_bowl(st, i);
    weeks_pot(st, i);
    made_so_often(st, i);
    portions_are_days(st, i);
    pieces_behind(st, i);
    no_more_now(st, i);
    both_meals(st, i);
  }
}
