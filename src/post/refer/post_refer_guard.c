/* Sentences that govern the lines around them and that no rule understood: "Sunday: f = 1/d", "1 box = 3 meals", "on beef
 * days 5 g of oil", "week two: ...". What they reach says so, and is asked about. And what stands for the food told before:
 * "in place of it", "80 g more". */
#include "post/built/post_built.h"
#include "post/refer/post_refer.h"

/* The one food with an amount that the sentence before tells; false where there are several or none. */
static bool only_food_before(struct story *st, size_t i, struct told_food *food) {
  struct told_food told[TOLD_MOST];
  for (size_t k = i; k-- > 0;) {
    if (st->s[k].t.count == 0) continue;
    size_t n = post_told_foods(st->r, arena_span(st->r->keep, st->s[k].text), told, TOLD_MOST);
    if (n == 0 || told[0].past) return false;
    *food = told[0];
    return n == 1;
  }
  return false;
}

/* "In place of it, on Fridays, 250 g of cod": with the name of the food. */
static void instead_of_it(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 2 < t->count; k++) {
    size_t used = says(t, k, "instead") && says(t, k + 1, "of") ? 2 : phrase_at(t, k, "in place of");
    struct told_food food;
    if (used == 0 || !says(t, k + used, "it that this") ||
        (k + used + 1 < t->count && is_word(t, k + used + 1) && post_mention_at(st->r, t, k + used + 1) > 0))
      continue;
    if (!only_food_before(st, i, &food)) return;
    struct buf b;
    buf_init(&b, st->r->arena, 200);
    buf_addf(&b, " instead of the %.*s", SPAN_ARG(food.food));
    if (k > 0) {
      refer_between(st, i, k, k + used + 1, buf_text(&b));
      return;
    }
    size_t from = k + used + 1; /* what is fed stands behind it */
    while (is_mark(t, from, ',')) from++;
    struct buf all;
    buf_init(&all, st->r->arena, st->s[i].text.n + 300);
    buf_addf(&all, "%.*s%s", SPAN_ARG(tokens_span(t, from, t->count - from)), buf_text(&b));
    refer_write(st, i, buf_text(&all));
    return;
  }
}

/* "On training days 80 g more": of the food that was told. */
static void more_of_it(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 1 < t->count; k++) {
    double grams;
    size_t used = refer_grams(t, k, &grams), end = k + used;
    struct told_food food;
    if (used == 0 || !says(t, end, "more extra")) continue;
    end++;
    if (says(t, end, "of") && says(t, end + 1, "it that this")) end += 2;
    if ((end < t->count && t->item[end].kind != TOKEN_MARK) || !only_food_before(st, i, &food)) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 200);
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(tokens_span(t, k, used)), SPAN_ARG(food.food));
    refer_between(st, i, k, end, buf_text(&b));
    return;
  }
}

/* ---- what no rule understood ---- */

static void ask_of_sentence(struct story *st, size_t i, const char *ask) {
  struct post_reader *r = st->r;
  r->line = st->s[i].line;
  struct span text = span_trim(st->s[i].text);
  while (text.n > 0 && memchr(".\x1F", text.p[text.n - 1], 2)) text.n--;
  post_ask(r, 3.2, "You write '%.*s': %s", SPAN_ARG(post_quote(r, text)), ask);
  r->line = 0;
}

/* "f = 1/d", "1 day = 500 g", "1 box = 2 meals": it says how the rest is to be counted. */
static bool is_formula(const struct tokens *t) {
  for (size_t k = 1; k + 1 < t->count; k++) {
    if (!is_mark(t, k, '=') || !is_number(t, k + 1)) continue;
    size_t behind = k + 2;
    bool rate = is_mark(t, behind, '/') && says(t, behind + 1, "d day wk week");
    bool letter = is_word(t, k - 1) && t->item[k - 1].at.n == 1;
    bool time = says(t, k - 1, "day days week weeks meal meals box boxes bag bags");
    if (rate || (letter && says(t, k - 1, "f n d")) || (time && !says(t, behind, "kg lb") && k > 1 && is_number(t, k - 2)))
      return true;
  }
  return false;
}

/* "Week A comes twice before B", "recipe 2 every third time": which of them how often. */
static bool counts_turns(const struct tokens *t) {
  bool turn = false, often = false;
  for (size_t k = 0; k + 1 < t->count; k++) {
    bool name = is_number(t, k + 1) || (is_word(t, k + 1) && t->item[k + 1].at.n == 1);
    turn = turn || (says(t, k, "week recipe menu bowl batch mix") && name && !(k > 0 && says(t, k - 1, "a per each every")));
    often = often || says(t, k, "twice thrice double times") || says(t, k + 1, "twice thrice double");
  }
  return turn && often && !post_any_amount(t, 0);
}

/* "on beef days", "pork days": days that no rule knew, and that nobody names. */
static bool is_of_food_days(struct story *st, const struct tokens *t) {
  unsigned days;
  for (size_t k = 0; k < t->count; k++)
    if (post_days_named(t, k, &days) > 0) return false;
  for (size_t k = 0; k + 1 < t->count; k++)
    if (is_word(t, k) && says(t, k + 1, "days") && post_mention_at(st->r, t, k) == 1 && !net_is_kind(t->item[k].word))
      return true;
  return false;
}

/* Is it of no food in particular? */
static bool tells_no_food(struct story *st, const struct tokens *t) {
  for (size_t k = 0; k < t->count; k++)
    if (post_mention_at(st->r, t, k) > 0) return false;
  return true;
}

void refer_pronouns(struct story *st) {
  for (size_t i = 1; i < st->count; i++) {
    if (st->s[i].t.count < 4) continue;
    instead_of_it(st, i);
    more_of_it(st, i);
  }
}

void refer_guard(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    if (st->s[i].changed || t->count < 3) continue;
    if ((is_formula(t) || counts_turns(t)) && tells_no_food(st, t)) {
      ask_of_sentence(st, i, "what does it change in the lines? They were counted without it.");
      refer_beside(st, SIZE_MAX, (struct span){"", 0}, "counted without a sentence that tells how often or how much in all");
    } else if (is_of_food_days(st, t) && post_any_amount(t, 0)) {
      ask_of_sentence(st, i, "how many days a week are these? It was counted as if every day.");
      refer_beside(st, i, (struct span){"", 0}, "counted every day; on how many days it is fed could not be read");
    }
  }
}
