/* What stands for an amount or a food that was told before: "parsnip, ditto", "and the same of cabbage", "also 60 but cod",
 * "the same but no rice, gets beans instead". Written out where the words leave no doubt what is meant. */
#include "base/num.h"
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

/* A weight or a volume, or pieces with a unit of their own. */
static bool is_measured(const struct post_amount *a) { return a->tokens > 0 && !a->bare && !a->cannot && !a->is_percent; }

/* The last amount of the sentence before 'at'; t->count none. */
static size_t amount_before(const struct tokens *t, size_t at, struct post_amount *a) {
  size_t found = t->count, from = at;
  while (from > 0 && !ends_sentence(t, from - 1)) from--;
  for (size_t i = from; i < at; i++) {
    struct post_amount here = post_amount_at(t, i);
    if (is_measured(&here)) found = i, *a = here;
    if (here.tokens > 0) i += here.tokens - 1;
  }
  return found;
}

static bool ends_clause_at(const struct tokens *t, size_t at) {
  return ends_sentence(t, at) || is_mark(t, at, ',') || is_mark(t, at, ';') || is_mark(t, at, ')');
}

/* "carrots, 80 g; parsnip, ditto": a food and no meal before the word, in its own clause. */
static bool ditto_amount(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 1; i < t->count; i++) {
    struct post_amount a;
    size_t from = i, word = i;
    if (!says(t, i, "ditto idem same likewise") || !ends_clause_at(t, i + 1)) continue;
    if (says(t, word - 1, "the")) word--;
    if (word == 0) continue;
    from = word;
    if (is_mark(t, from - 1, ',') || is_mark(t, from - 1, '-') || is_mark(t, from - 1, ':')) from--;
    size_t end = from;
    while (from > 0 && !ends_clause_at(t, from - 1) && !says(t, from - 1, "and")) from--;
    bool food = post_food_end(r, t, from) == end && end > from;
    for (size_t k = from; k < end; k++) food = food && !is_meal_word(t->item[k].word);
    size_t at = food ? amount_before(t, from, &a) : t->count;
    if (at >= t->count) continue;
    *out = post_cut_out(r, line, token_begin(t, word), token_end(t, i), arena_text(r->keep, tokens_span(t, at, a.tokens)));
    return true;
  }
  return false;
}

/* The amount of the one food of the sentence before, or of the line before it; "" where there are several or none. */
static struct span only_amount(struct post_reader *r, struct span before, struct span line, const char *at) {
  struct told_food told[TOLD_MOST];
  struct span here = {line.p, (size_t)(at - line.p)}, last = {"", 0}, one;
  for (struct lines lines = lines_of(before); lines_next(&lines, &one);)
    if (trim_blanks(one).n > 0) last = one;
  bool own = trim_blanks(here).n > 0;
  size_t n = post_told_foods(r, own ? here : last, told, TOLD_MOST);
  if (n > 0) return n == 1 ? told[0].said : (struct span){"", 0};
  struct tokens t = tokens_of(own ? here : last, r->arena); /* "minced lamb 150 g": the amount behind its food */
  struct span found = {"", 0};
  for (size_t i = 0; i < t.count; i++) {
    struct post_amount a = post_amount_at(&t, i);
    double kg;
    if (!a.is_mass || post_weight_at(&t, i, &kg) > 0) continue;
    if (found.n > 0) return (struct span){"", 0};
    found = tokens_span(&t, i, a.tokens);
  }
  return found;
}

/* "Mornings 120 g turkey with 20 g carrot, evenings the same weight of beef": at another meal it is the weight of what that
 * one begins with, which is said and asked where its foods weigh differently; "" where the two stand at one meal. */
static struct span of_other_meal(struct post_reader *r, const struct tokens *t, size_t from, size_t amount_at, size_t at,
                                 struct span food) {
  size_t meal = at;
  for (size_t k = amount_at; k < at; k++)
    if (is_word(t, k) && token_is_a(&t->item[k], CLASS_MEAL) && !says(t, k, "meal feed")) meal = k;
  struct told_food told[TOLD_MOST];
  size_t n = meal < at ? post_told_foods(r, tokens_span(t, from, meal - from), told, TOLD_MOST) : 0;
  if (n < 2) return (struct span){"", 0};
  bool differ = false;
  for (size_t k = 1; k < n; k++) differ = differ || !span_eq_fold(told[k].said, told[0].said);
  if (!differ) return told[0].said;
  struct buf note, ask;
  buf_init(&note, r->keep, 200);
  buf_addf(&note, "as much as of the %.*s", SPAN_ARG(told[0].food));
  buf_init(&ask, r->keep, 300);
  buf_addf(&ask, "As much of '%.*s' as of which food? It was counted as %.*s, like the %.*s.", SPAN_ARG(food),
           SPAN_ARG(told[0].said), SPAN_ARG(told[0].food));
  post_will_say(r, food, buf_text(&note), buf_text(&ask));
  return told[0].said;
}

/* "70 g of swede and the same of cabbage", "and the same amount of peas" */
static bool same_of(struct post_reader *r, struct span before, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 1; i + 2 < t->count; i++) {
    struct post_amount a;
    size_t of = i + 1;
    if (!says(t, i, "same")) continue;
    if (says(t, of, "amount weight quantity again")) of++;
    if (says(t, of, "in by") && says(t, of + 1, "weight grams")) of += 2;
    if (!says(t, of, "of in") || post_food_end(r, t, of + 1) == of + 1) continue;
    size_t begin = says(t, i - 1, "the") ? i - 1 : i, from = begin;
    bool other = false; /* it stands for what it replaces, which is another sentence's */
    while (from > 0 && !ends_sentence(t, from - 1)) from--;
    for (size_t k = from; !ends_sentence(t, k); k++)
      other = other || says_a(t, k, CLASS_REPLACED) || says(t, k, "instead replace replacing place");
    if (other) continue;
    size_t at = amount_before(t, begin, &a);
    struct span amount = at < t->count ? tokens_span(t, at, a.tokens) : only_amount(r, before, line, token_begin(t, from));
    if (amount.n == 0) continue;
    size_t named = post_food_end(r, t, of + 1);
    struct span other_meal =
        at < t->count ? of_other_meal(r, t, from, at, begin, t->item[named - 1].word) : (struct span){"", 0};
    if (other_meal.n > 0) amount = other_meal;
    *out = post_cut_out(r, line, token_begin(t, begin), token_end(t, of - 1), arena_text(r->keep, amount));
    return true;
  }
  return false;
}

/* "Tam, same as above but ...", "Dot gets the same": what another animal eats, which other readers hear. */
static bool of_an_animal(struct post_reader *r, const struct tokens *t, size_t at) {
  size_t from = at;
  if (says(t, at + 1, "as for")) return true;
  while (from > 0 && !ends_sentence(t, from - 1)) from--;
  for (size_t i = from; i < at; i++) {
    enum species s;
    bool eats = says_a(t, i + 1, CLASS_EATER_VERB) || (i == from && (is_mark(t, i + 1, ',') || is_mark(t, i + 1, ':')));
    if (eats && (post_pet_name(r, t, i).n > 0 || (is_word(t, i) && is_animal_word(t->item[i].word, &s)))) return true;
  }
  return false;
}

/* "Sun: same but no beef": a day of its own, whose lines are copied with what is otherwise (post_other_day.c). */
static bool of_a_day(const struct tokens *t, size_t at) {
  size_t from = at, days_end;
  unsigned days;
  while (from > 0 && !ends_sentence(t, from - 1)) from--;
  if (from == at) return false;
  if (says(t, from, "on")) from++;
  days_end = from + post_days_named(t, from, &days);
  if (days_end == from) return false;
  while (is_mark(t, days_end, ':') || is_mark(t, days_end, ',') || is_mark(t, days_end, '-') || says(t, days_end, "the is"))
    days_end++;
  return days_end == at;
}

/* The unit of a weight of so many that the text tells; false when it tells none. */
static bool unit_of_number(struct post_reader *r, struct span text, double number, struct post_amount *a) {
  struct span line;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count; i++) {
      struct post_amount here = post_amount_at(&t, i);
      if (!here.is_mass || here.low != number || here.high != number) continue;
      memcpy(a->unit, here.unit, sizeof a->unit);
      return true;
    }
  }
  return false;
}

/* "evening: also 60 but cod", "the third is also 2 oz but it's duck": the unit is that of the same number before. */
static bool also_but(struct post_reader *r, struct span before, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 0; i + 3 < t->count; i++) {
    if (!says(t, i, "also again likewise")) continue;
    struct post_amount a = post_amount_at(t, i + 1);
    size_t but = i + 1 + a.tokens, food;
    if (a.tokens == 0 || a.is_percent || (a.bare && !is_number(t, i + 1))) continue;
    if (is_mark(t, but, ',')) but++;
    if (!says(t, but, "but only")) continue;
    for (food = but + 1; says(t, food, "it's its it is this time of with now in");) food++;
    if (post_food_end(r, t, food) == food) continue;
    struct buf b;
    buf_init(&b, r->keep, 100);
    if (a.bare && !unit_of_number(r, before, a.low, &a) &&
        !unit_of_number(r, (struct span){line.p, (size_t)(token_begin(t, i) - line.p)}, a.low, &a))
      continue;
    amount_write(&b, &a, 1);
    buf_addc(&b, ' ');
    *out = post_cut_out(r, line, token_begin(t, i), token_begin(t, food), buf_text(&b));
    return true;
  }
  return false;
}

/* "pm same but no rice, gets green beans instead (handful)": the meal without the one, and the other food. */
static bool same_but_no(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  enum { FAR = 12 };
  for (size_t i = 0; i + 3 < t->count; i++) {
    if (!says(t, i, "same ditto") || of_an_animal(r, t, i) || of_a_day(t, i)) continue;
    size_t no = i + 1;
    while (says(t, no, "again but only just as thing") || is_mark(t, no, ',')) no++;
    if (!says(t, no, "no without minus not")) continue;
    size_t gone = no + 1;
    while (says(t, gone, "the his her any")) gone++;
    size_t gone_end = post_food_end(r, t, gone), now = gone_end, instead = gone_end;
    if (gone_end == gone) continue;
    while (instead < t->count && instead < gone_end + FAR && !ends_sentence(t, instead) && !says(t, instead, "instead"))
      instead++;
    if (!says(t, instead, "instead") || says(t, instead + 1, "of")) continue;
    while (says(t, now, "and but he she it they i we gets get has have with is given takes eats do give") ||
           is_mark(t, now, ',') || is_mark(t, now, ';') || is_mark(t, now, '-'))
      now++;
    if (now >= instead) continue;
    struct span food = tokens_span(t, now, instead - now), amount = {"", 0};
    size_t end = instead + 1;
    if (!post_names_food(r, t, now, instead)) continue;
    if (is_mark(t, end, '(') || is_mark(t, end, ',')) {
      struct post_amount a = post_amount_at(t, end + 1);
      size_t close = end + 1 + a.tokens;
      if (a.tokens > 0 && (is_mark(t, end, ',') || is_mark(t, close, ')')))
        amount = tokens_span(t, end + 1, a.tokens), end = close + is_mark(t, close, ')');
    }
    struct buf b;
    buf_init(&b, r->keep, food.n + amount.n + 100);
    char behind = frequency_at(t, end).tokens > 0 ? ' ' : 0x1F; /* "... instead on tues": of this food alone */
    buf_addf(&b, " without %.*s%c%s%.*s%s%.*s%c", SPAN_ARG(tokens_span(t, gone, gone_end - gone)), 0x1F,
             amount.n > 0 ? "" : "- ", SPAN_ARG(amount), amount.n > 0 ? " " : "", SPAN_ARG(food), behind);
    *out = post_cut_out(r, line, token_end(t, i), token_end(t, end - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "same again but with 80 g green beans instead of the rice": the meal without the one, and the other food. */
static bool same_with(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  enum { FAR = 8 };
  for (size_t i = 0; i + 5 < t->count; i++) {
    if (!says(t, i, "same ditto") || of_an_animal(r, t, i) || of_a_day(t, i)) continue;
    size_t now = i + 1, instead, gone;
    while (says(t, now, "again but only just as thing meal") || is_mark(t, now, ',')) now++;
    if (!says(t, now, "with")) continue;
    struct post_amount a = post_amount_at(t, ++now);
    for (instead = now;
         instead < now + FAR && instead < t->count && !ends_sentence(t, instead) && !says(t, instead, "instead");)
      instead++;
    if (!says(t, instead, "instead") || !says(t, instead + 1, "of") || !(a.is_mass || a.is_volume)) continue;
    for (gone = instead + 2; says(t, gone, "the his her");) gone++;
    size_t end = post_food_end(r, t, gone);
    if (end == gone || !post_names_food(r, t, now + a.tokens, instead)) continue;
    struct buf b;
    buf_init(&b, r->keep, line.n + 40);
    buf_addf(&b, " without %.*s%c%.*s%c", SPAN_ARG(tokens_span(t, gone, end - gone)), 0x1F,
             SPAN_ARG(tokens_span(t, now, instead - now)), 0x1F);
    *out = post_cut_out(r, line, token_end(t, i), token_end(t, end - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "the same again, but without the cabbage": as every reader knows it. */
static bool same_without(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 0; i + 2 < t->count; i++) {
    if (!says(t, i, "same ditto") || of_an_animal(r, t, i) || of_a_day(t, i)) continue;
    size_t no = i + 1;
    while (says(t, no, "again but only just") || is_mark(t, no, ',')) no++;
    if (!says(t, no, "no without minus")) continue;
    size_t gone = no + 1;
    while (says(t, gone, "the his her any")) gone++;
    size_t gone_end = post_food_end(r, t, gone), instead = gone_end;
    if (gone_end == gone) continue;
    while (is_mark(t, instead, ',') || says(t, instead, "and but")) instead++;
    if (says(t, instead, "instead") && !says(t, instead + 1, "of")) { /* "... instead he gets 70 grams of carrots" */
      size_t now = instead + 1;
      while (says(t, now, "he she it they there gets get has have is are")) now++;
      struct buf b;
      buf_init(&b, r->keep, 200);
      buf_addf(&b, " without %.*s%c", SPAN_ARG(tokens_span(t, gone, gone_end - gone)), 0x1F);
      if (now >= t->count || post_amount_at(t, now).tokens == 0) continue;
      *out = post_cut_out(r, line, token_end(t, i), token_begin(t, now), buf_text(&b));
      return true;
    }
    if (no == i + 1) continue;
    *out = post_cut_out(r, line, token_end(t, i), token_begin(t, gone), " without ");
    return true;
  }
  return false;
}

/* "dinner ditto but with 40 g instead of 60": of the food that had so much. */
static bool same_but_amount(struct post_reader *r, struct span before, const struct tokens *t, struct span line,
                            struct span *out) {
  for (size_t i = 0; i + 4 < t->count; i++) {
    if (!says(t, i, "same ditto") || of_an_animal(r, t, i)) continue;
    size_t at = i + 1;
    while (says(t, at, "again but only just with w") || is_mark(t, at, ',') || is_mark(t, at, '/')) at++;
    struct post_amount a = post_amount_at(t, at);
    size_t old = at + a.tokens;
    if (!(a.is_mass || a.is_volume) || at == i + 1 || !says(t, old, "instead") || !says(t, old + 1, "of")) continue;
    old += 2 + says(t, old + 2, "the");
    struct post_amount was = post_amount_at(t, old);
    struct told_food told[TOLD_MOST];
    size_t n = was.tokens > 0 ? post_told_before(r, before, line, token_begin(t, i), told) : 0, found = n, count = 0;
    for (size_t k = 0; k < n; k++)
      if (told[k].amount.low == was.low && told[k].amount.is_mass == a.is_mass) found = k, count++;
    if (count != 1) continue;
    size_t end = old + was.tokens;
    struct buf b;
    buf_init(&b, r->keep, line.n + 60);
    buf_addf(&b, " without %.*s%c%.*s %.*s%c", SPAN_ARG(told[found].food), 0x1F, SPAN_ARG(tokens_span(t, at, a.tokens)),
             SPAN_ARG(told[found].food), 0x1F);
    *out = post_cut_out(r, line, token_end(t, i), token_end(t, end - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "dinner: as the first, minus the kale", "evening like breakfast": the same. */
static bool as_before(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  size_t meals = 0; /* "like the first" of three is not the one before */
  for (size_t i = 1; i < t->count; i++) {
    meals += is_word(t, i - 1) && is_meal_word(t->item[i - 1].word);
    if (meals > 2) return false;
    size_t used = phrase_of(t, i, CLASS_AS_BEFORE);
    bool begins = is_mark(t, i - 1, ':') || is_mark(t, i - 1, '-') || is_mark(t, i - 1, ',') || is_mark(t, i - 1, '=') ||
                  says(t, i - 1, "is are which") || (is_word(t, i - 1) && is_meal_word(t->item[i - 1].word));
    if (used == 0 || !begins ||
        !(i + used >= t->count || ends_clause_at(t, i + used) ||
          says(t, i + used, "but plus with without minus and only except")))
      continue;
    *out = post_cut_out(r, line, token_begin(t, i), token_end(t, i + used - 1), "the same");
    return true;
  }
  return false;
}

/* The days of which "same" is said right behind them: "fri-sun the same"; "" none. */
static struct span days_of_same(const struct tokens *t, size_t at) {
  enum { FAR = 6 };
  while (at > 0 && (says(t, at - 1, "the") || is_mark(t, at - 1, ':') || is_mark(t, at - 1, ','))) at--;
  for (size_t k = at > FAR ? at - FAR : 0; k < at; k++) {
    struct frequency f = frequency_at(t, k); /* "fri-sun", "on Saturdays" */
    if (f.days != 0 && !f.refuse && k + f.tokens == at) return tokens_span(t, k, f.tokens);
  }
  return (struct span){"", 0};
}

/* "mon-thu 150 g beef and 50 g tripe, fri-sun same without tripe": a sentence of its own. */
static bool same_apart(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  static const char END[] = {0x1F, 0};
  for (size_t i = 2; i < t->count; i++) {
    struct span days = says(t, i, "same ditto") ? days_of_same(t, i) : (struct span){"", 0};
    if (days.n == 0) continue;
    size_t begin = i, from;
    while (begin > 0 && t->item[begin].at.p > days.p) begin--;
    from = begin;
    while (from > 0 && (is_mark(t, from - 1, ',') || is_mark(t, from - 1, ';') || says(t, from - 1, "and then from")))
      from--;
    struct tokens before = {t->item, from};
    if (from == begin || from == 0 || !post_any_amount(&before, 0)) continue;
    *out = post_cut_out(r, line, token_begin(t, from), token_begin(t, begin), END);
    return true;
  }
  return false;
}

/* "dinner - same again, lamb for the cod": as much of the one as of the other, on the days that this is said of. */
static bool same_swapped(struct post_reader *r, struct span before, const struct tokens *t, struct span line,
                         struct span *out) {
  for (size_t i = 0; i + 3 < t->count; i++) {
    if (!says(t, i, "same ditto") || of_an_animal(r, t, i) || of_a_day(t, i)) continue;
    size_t now = i + 1;
    while (says(t, now, "again but only just as with thing except that it it's its is this time") || is_mark(t, now, ',') ||
           is_mark(t, now, '-'))
      now++;
    size_t end = now, gone = 0;
    while (is_word(t, end) && end < now + 4 && !says(t, end, "for instead in and not rather")) end++;
    if (end == now || !post_names_food(r, t, now, end) || post_amount_at(t, now).tokens > 0) continue;
    size_t stands = end + says(t, end, "and");
    if (says(t, stands, "for not")) gone = stands + 1;
    if (says(t, end, "instead rather") && says(t, end + 1, "of than")) gone = end + 2;
    if (phrase_at(t, end, "in place of") > 0) gone = end + 3;
    while (gone > 0 && says(t, gone, "the his her")) gone++;
    size_t gone_end = gone > 0 ? post_food_end(r, t, gone) : 0;
    if (gone == 0 || gone_end == gone) continue;
    struct told_food told[TOLD_MOST];
    size_t n = post_told_before(r, before, line, token_begin(t, i), told);
    const struct told_food *f = post_told_food_of(told, n, t->item[gone_end - 1].word);
    if (!f) continue;
    struct buf b;
    buf_init(&b, r->keep, f->said.n + line.n + 60);
    struct span days = days_of_same(t, i);
    buf_addf(&b, " without %.*s%c%.*s %.*s%s%.*s%c", SPAN_ARG(tokens_span(t, gone, gone_end - gone)), 0x1F,
             SPAN_ARG(f->said), SPAN_ARG(tokens_span(t, now, end - now)), days.n > 0 ? ", " : "", SPAN_ARG(days), 0x1F);
    *out = post_cut_out(r, line, token_end(t, i), token_end(t, gone_end - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "each evening the venison again but no oats": as much of it as before. */
static bool the_food_again(struct post_reader *r, struct span before, const struct tokens *t, struct span line,
                           struct span *out) {
  for (size_t i = 2; i < t->count; i++) {
    size_t the = i;
    if (!says(t, i, "again") || says(t, i - 1, "same and")) continue;
    while (the > 0 && the + 4 > i && !says(t, the, "the")) the--;
    if (!says(t, the, "the") || the == 0 || !is_word(t, the - 1) || !is_meal_word(t->item[the - 1].word) ||
        post_food_end(r, t, the + 1) < i)
      continue;
    struct told_food told[TOLD_MOST];
    size_t n = post_told_before(r, before, line, token_begin(t, the), told), end = i + 1;
    const struct told_food *f = post_told_food_of(told, n, t->item[i - 1].word);
    if (!f || f->past) continue;
    size_t no = end + is_mark(t, end, ',');
    no += says(t, no, "but");
    if (says(t, no, "no without") && post_food_end(r, t, no + 1) > no + 1) end = post_food_end(r, t, no + 1);
    struct buf b;
    buf_init(&b, r->keep, f->said.n + line.n + 4);
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(f->said), SPAN_ARG(f->food));
    *out = post_cut_out(r, line, token_begin(t, the), token_end(t, end - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "Both with 60 g of pasta": each of the meals before it. And "...: twice a day" at the end of a list. */
static bool both_with(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 0; i + 2 < t->count; i++) {
    bool begins = i == 0 || ends_sentence(t, i - 1);
    size_t with = i + 1 + says(t, i + 1, "come comes served");
    if (i > 0 && with > i + 1 && says(t, i - 1, "and") && says(t, i, "both") && says(t, with, "with")) {
      char mark[] = "\x1Fwith both meals"; /* "... and both come with 100 g of rice" */
      *out = post_cut_out(r, line, token_begin(t, i - 1), token_end(t, with), mark);
      return true;
    }
    if (begins && says(t, i, "both each") && says(t, with, "with") && post_amount_at(t, with + 1).tokens > 0) {
      *out = post_cut_out(r, line, token_begin(t, i), token_end(t, with), "with both meals");
      return true;
    }
    struct frequency f = is_mark(t, i, ':') ? frequency_at(t, i + 1) : (struct frequency){0};
    if (f.tokens == 0 || f.refuse || f.days != 0 || !ends_sentence(t, i + 1 + f.tokens)) continue;
    struct post_amount a;
    if (amount_before(t, i, &a) >= t->count) continue;
    *out = post_cut_out(r, line, token_begin(t, i), token_end(t, i), ",");
    return true;
  }
  return false;
}

/* "liver ten grams per day but that's beef liver not pork liver": which one it is, in its place. */
static bool that_is_not(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 1; i + 3 < t->count; i++) {
    if (!says(t, i, "that's that is it's its thats")) continue;
    size_t food = i + 1 + (says(t, i, "that") && says(t, i + 1, "is"));
    size_t no = food;
    while (is_word(t, no) && no < food + 4 && !says(t, no, "not")) no++;
    if (no == food || !says(t, no, "not") || post_food_end(r, t, food) < no) continue;
    struct span head = t->item[no - 1].word;
    size_t other = no + 1, end = other;
    while (is_word(t, end) && end < other + 3 && !says(t, end - 1, "liver kidney heart mince") && !is_mark(t, end, '.'))
      end++;
    bool same = false; /* "not pork liver", "not pork" */
    for (size_t k = other; k < end; k++) {
      same = same || span_eq_fold(t->item[k].word, head);
      if (span_eq_fold(t->item[k].word, head)) end = k + 1;
    }
    if (!same) continue;
    size_t was = i;
    for (size_t k = i; k-- > 0 && !ends_sentence(t, k);)
      if (is_word(t, k) && span_eq_fold(t->item[k].word, head)) {
        was = k;
        break;
      }
    if (was == i || (was > 0 && says_a(t, was - 1, CLASS_ANIMAL_OF_FLESH))) continue;
    size_t begin = i > 0 && says(t, i - 1, "but and so") ? i - 1 : i;
    char mark[] = {0x1F, 0};
    struct span cut = post_cut_out(r, line, token_begin(t, begin), token_end(t, end - 1), mark);
    const char *at = cut.p + (token_begin(t, was) - line.p);
    *out = post_cut_out(r, cut, at, at + t->item[was].at.n, arena_text(r->keep, tokens_span(t, food, no - food)));
    return true;
  }
  return false;
}

/* The weight of the food that is named at 'food', as it was told before; NULL. */
static const struct told_food *told_weight_of(struct post_reader *r, struct span before, const struct tokens *t,
                                              struct span line, size_t at, size_t food, size_t *end) {
  struct told_food *told = ARENA_NEW(r->arena, struct told_food, TOLD_MOST);
  *end = post_food_end(r, t, food);
  if (*end == food) return NULL;
  for (size_t k = food + 1; k < *end; k++) *end = says(t, k, "as at in") ? k : *end;
  size_t n = post_told_before(r, before, line, token_begin(t, at), told);
  const struct told_food *f = post_told_food_of(told, n, t->item[*end - 1].word);
  return f && f->amount.is_mass && f->amount.low == f->amount.high && !f->past ? f : NULL;
}

/* "Twice the lamb", "three times the rice", "the turkey as in the morning": so much of a weight that was told. */
static bool times_the_food(struct post_reader *r, struct span before, const struct tokens *t, struct span line,
                           struct span *out) {
  for (size_t i = 0; i + 1 < t->count; i++) {
    size_t end, the = i, cut;
    double times = says(t, i, "twice double") ? 2 : says(t, i, "thrice triple") ? 3 : 1;
    struct quantity q = times == 1 ? quantity_at(t, i) : (struct quantity){QUANTITY_NONE, 0, 0, 0};
    if (times > 1) the = i + 1;
    if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 2 && q.low <= 6 && says(t, i + q.tokens, "times"))
      times = q.low, the = i + q.tokens + 1;
    bool more =
        says(t, i, "another further") && is_number(t, i + 1) && says(t, i + 2, "of"); /* "another 60 of the millet" */
    if (more) the = i + 3;
    if (!says(t, the, "the")) continue;
    if (says(t, the + 1, "same")) the++;
    const struct told_food *f = told_weight_of(r, before, t, line, i, the + 1, &end);
    if (!f) continue;
    cut = end;
    if (says(t, cut, "as") && says(t, cut + 1, "in at") && !says(t, cut + 2, "least")) {
      cut += says(t, cut + 2, "the") ? 3 : 2;
      if (cut >= t->count || !token_is_a(&t->item[cut], CLASS_MEAL)) continue;
      cut++;
    }
    if (times == 1 && cut == end && !more) continue;
    struct buf b;
    struct post_amount a = f->amount;
    a.low = a.high = more ? t->item[i + 1].value : a.low * times;
    buf_init(&b, r->keep, 200);
    amount_write(&b, &a, 1);
    buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(t, the + 1, end - the - 1)));
    *out = post_cut_out(r, line, token_begin(t, i), token_end(t, cut - 1), buf_text(&b));
    return true;
  }
  return false;
}

struct span post_refers(struct post_reader *r, struct span before, struct span line) {
  struct tokens t = post_tokens(r, line);
  struct span out = line;
  bool may = false;
  for (size_t i = 0; i < t.count && !may; i++)
    may = says(&t, i, "ditto idem same also again likewise not as like both each twice double thrice times another") ||
          is_mark(&t, i, ':');
  if (!may || t.count > SENTENCE_MOST_WORDS * 2) return line;
  return times_the_food(r, before, &t, line, &out) || same_apart(r, &t, line, &out) || ditto_amount(r, &t, line, &out) ||
                 same_of(r, before, &t, line, &out) || also_but(r, before, &t, line, &out) || same_with(r, &t, line, &out) ||
                 same_but_no(r, &t, line, &out) || same_but_amount(r, before, &t, line, &out) ||
                 as_before(r, &t, line, &out) || same_swapped(r, before, &t, line, &out) || both_with(r, &t, line, &out) ||
                 the_food_again(r, before, &t, line, &out) || same_without(r, &t, line, &out) ||
                 that_is_not(r, &t, line, &out)
             ? out
             : line;
}
