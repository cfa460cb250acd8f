/* "The same weight of meat as in the morning, but turkey", "twice a week instead of the beef the same quantity of horse",
 * and how people from abroad say what a part of a food is. */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

static const char *begin_of(const struct tokens *t, size_t at) { return t->item[at].at.p; }
static const char *end_of(const struct tokens *t, size_t at) { return t->item[at].at.p + t->item[at].at.n; }

/* The sentence with the tokens [from, to) written anew. */
static void write_between(struct story *st, size_t i, size_t from, size_t to, const char *instead) {
  const struct tokens *t = &st->s[i].t;
  const char *begin = begin_of(t, 0), *end = end_of(t, t->count - 1);
  struct span text = {begin, (size_t)(end - begin)};
  struct span now = post_cut_out(st->r, text, begin_of(t, from), to > from ? end_of(t, to - 1) : begin_of(t, from), instead);
  refer_write(st, i, arena_text(st->r->arena, now));
}

/* ---- as much as of another food ---- */

static bool is_beef(const struct tokens *t, size_t at) { return says(t, at, "beef cow ox cattle"); }

/* The weight that a sentence before 'i' gives of a food with this word, or, without one, of its first meat that is no organ;
 * 0. */
static double weight_before(struct story *st, size_t i, const struct tokens *food, size_t word, struct span *found) {
  enum { FAR = 6, NAME = 7 };
  for (size_t k = i; k-- > 0 && k + FAR > i;) {
    const struct tokens *t = &st->s[k].t;
    for (size_t m = 0; m < t->count; m++) {
      double grams;
      size_t used = refer_grams(t, m, &grams);
      if (used == 0) continue;
      bool same = false, organ = false, named = false;
      for (size_t w = m + used; w < t->count && w < m + used + NAME && t->item[w].kind == TOKEN_WORD; w++) {
        if (post_amount_at(t, w).tokens > 0 || says(t, w, "and with plus")) break;
        organ = organ || says_a(t, w, CLASS_ORGAN_OF_MEAT);
        named = named || post_mention_at(st->r, t, w) > 0;
        bool this_one =
            food && (net_has_word(t->item[w].word, food->item[word].word) || (is_beef(t, w) && is_beef(food, word)));
        if (this_one) *found = t->item[w].at;
        same = same || this_one;
      }
      if (food ? same : named && !organ) return grams;
    }
  }
  return 0;
}

/* "..., no organs, ...": said of this meal beside that one, it changes no line. */
static void none_of_then(struct story *st, size_t i) {
  enum { FAR = 4 };
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 2 < t->count; k++) {
    if (!is_mark(t, k, ',') && !says(t, k, "and")) continue;
    size_t no = k + 1, end;
    if (says(t, no, "and but")) no++;
    if (!says(t, no, "no without")) continue;
    for (end = no + 1; end < t->count && end < no + FAR && is_word(t, end) && !says(t, end, "instead but and"); end++) {
    }
    if (end == no + 1 || post_any_amount(&(struct tokens){t->item, end}, no)) continue;
    if (end < t->count && is_word(t, end) && !says(t, end, "instead but and")) continue;
    if (says(t, end, "instead") || (is_mark(t, end, ',') && says(t, end + 1, "instead")))
      end += is_mark(t, end, ',') ? 2 : 1;
    write_between(st, i, k, end, ",");
    return;
  }
}

/* "100 g beef in the morning, in the evening the same weight of turkey": the second meal is a sentence of its own, and has
 * the one weight of the first. */
static void same_weight_at_meal(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 2; k + 4 < t->count; k++) {
    size_t used = post_same_weight_of(t, k), food = k + used, end = used > 0 ? post_food_end(st->r, t, food) : food;
    if (end == food || net_is_kind(t->item[end - 1].word) || says(t, end, "as")) continue;
    size_t meal = k;
    if (is_mark(t, meal - 1, ':') || is_mark(t, meal - 1, '-')) meal--;
    if (!is_word(t, meal - 1) || !token_is_a(&t->item[meal - 1], CLASS_MEAL)) continue;
    meal--;
    while (meal > 0 && says(t, meal - 1, "in the at for his her")) meal--;
    double grams = 0, other;
    size_t weights = 0;
    if (meal == 0 && i == 0) continue;
    const struct tokens *first = meal > 0 ? t : &st->s[i - 1].t; /* where the first meal stands */
    for (size_t m = 0; m < (meal > 0 ? meal : first->count); m++)
      if (refer_grams(first, m, &other) > 0) grams = other, weights++;
    if (weights != 1) continue;
    struct buf w;
    buf_init(&w, st->r->arena, REFER_MOST_BYTES);
    num_sig(&w, grams, 5);
    buf_adds(&w, " g");
    write_between(st, i, k, food, buf_text(&w));
    if (meal > 0) refer_split(st, i, meal);
    return;
  }
}

/* "the same weight of muscle meat as in the morning but chicken", "as much meat as at breakfast, only chicken" */
static void as_much_as_then(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 5 < t->count; k++) {
    size_t at = k + post_same_weight_of(t, k);
    if (at == k && says(t, at, "the")) at++;
    if (says(t, at, "as") && says(t, at + 1, "much"))
      at += 2;
    else if (at < k + 2)
      continue;
    bool kind = false;
    while (says(t, at, "muscle meat fish flesh mince the raw cooked minced")) {
      kind = kind || says(t, at, "meat fish flesh mince");
      at++;
    }
    bool as = says(t, at, "as"), meal = false;
    for (size_t m = 0; m < k; m++) meal = meal || (is_word(t, m) && token_is_a(&t->item[m], CLASS_MEAL));
    if (!kind || (!as && !(meal && says(t, at, "but")))) continue; /* "in the evening the same amount of fish but salmon" */
    if (as) at++;
    while (as && says(t, at, "in at for the his her")) at++;
    if (as && (at >= t->count || !is_word(t, at) || !token_is_a(&t->item[at], CLASS_MEAL))) continue;
    if (as) at++;
    while (is_mark(t, at, ',') || is_mark(t, at, '(') || says(t, at, "but only just this time it's its with of now")) at++;
    size_t end = post_food_end(st->r, t, at);
    double grams = end > at ? weight_before(st, i, NULL, 0, NULL) : 0;
    if (!(grams > 0)) continue;
    struct buf b;
    buf_init(&b, st->r->arena, REFER_MOST_BYTES);
    num_sig(&b, grams, 5);
    buf_addf(&b, " g %.*s", SPAN_ARG(tokens_span(t, at, end - at)));
    write_between(st, i, k, end, buf_text(&b));
    none_of_then(st, i);
    return;
  }
}

static bool tells_some_days(const struct tokens *t) {
  unsigned days;
  for (size_t k = 0; k < t->count; k++) {
    struct frequency f = frequency_at(t, k);
    if (f.tokens > 0 && f.times_per_28 < CALENDAR_DAYS && !f.refuse && f.feedings <= 1) return true;
    if (post_days_named(t, k, &days) > 0) return true;
  }
  return false;
}

/* "Two times a week instead of the beef the same quantity of horse": with its weight, which the days are taken from. */
static void instead_as_much(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 6 < t->count; k++) {
    size_t used = says(t, k, "instead") && says(t, k + 1, "of") ? 2 : phrase_at(t, k, "in place of"), at = k + used;
    if (used == 0) continue;
    while (says(t, at, "the his her my")) at++;
    size_t old = at, same = at + 1;
    while (same < t->count && same < old + 4 && is_word(t, same) && !says(t, same, "the same")) same++;
    if (is_mark(t, same, ',')) same++;
    used = post_same_weight_of(t, same);
    if (used == 0) continue;
    at = same + used;
    size_t food = at, end = post_food_end(st->r, t, at), name;
    if (is_word(t, food) && net_is_kind(t->item[food].word) && is_mark(t, food + 1, '(')) { /* "fish (cod)" */
      end = post_food_end(st->r, t, food + 2);
      if (end == food + 2 || !is_mark(t, end, ')')) continue;
      food += 2;
    }
    struct span word = {"", 0};
    double grams = end > food && tells_some_days(t) ? weight_before(st, i, t, old, &word) : 0;
    if (!(grams > 0)) continue;
    struct buf b;
    buf_init(&b, st->r->arena, REFER_MOST_BYTES);
    num_sig(&b, grams, 5);
    for (name = end; name > food + 1 && says(t, name - 1, "flesh meat"); name--) { /* "horse flesh" */
    }
    buf_addf(&b, " g %.*s instead of the %.*s", SPAN_ARG(tokens_span(t, food, name - food)), SPAN_ARG(word));
    write_between(st, i, k, is_mark(t, end, ')') ? end + 1 : end, buf_text(&b));
    return;
  }
}

/* "no organs, instead 60 g of rice": what it stands for is told right before. */
static void instead_of_none(struct story *st, size_t i) {
  enum { FAR = 5 };
  const struct tokens *t = &st->s[i].t;
  if (tells_some_days(t)) return; /* "Fridays no rice, instead 60 g of potato": on these days alone */
  for (size_t k = 2; k + 2 < t->count; k++) {
    if (!says(t, k, "instead") || says(t, k + 1, "of") || post_amount_at(t, k + 1).tokens == 0 || !is_mark(t, k - 1, ','))
      continue;
    bool no = false;
    for (size_t m = k > FAR ? k - FAR : 0; m + 1 < k; m++) no = no || says(t, m, "no without");
    if (!no) continue;
    write_between(st, i, k, k + 1, "");
    return;
  }
}

/* ---- a part raw, a part cooked ---- */

/* "from this the half is cooked and the other half raw", "of it two thirds raw and one third cooked": a clause behind a
 * comma that says only so. */
static void parts_cooked(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 3; k + 3 < t->count; k++) {
    if (!is_mark(t, k, ',')) continue;
    size_t at = k + 1, parts = 0;
    bool raw = false, cooked = false;
    for (; at < t->count; at++) {
      double part;
      size_t used = post_part_at(t, at, &part);
      if (used == 0 && says(t, at, "half third thirds quarter rest")) used = 1;
      parts += used > 0;
      if (used > 0) {
        at += used - 1;
        continue;
      }
      raw = raw || says(t, at, "raw");
      cooked = cooked || says(t, at, "cooked boiled");
      bool goes_on = is_mark(t, at, ',') && !(raw && cooked);
      if (!goes_on && !says(t, at, "from of this it that which the a other is are and raw cooked boiled two one while"))
        break;
    }
    while (at > k && says(t, at - 1, "and")) at--;
    bool ends = at >= t->count || t->item[at].kind == TOKEN_MARK || says(t, at, "and");
    if (parts < 2 || !raw || !cooked || !ends) continue;
    struct span food = tokens_span(t, 0, k);
    size_t from = k, to = at;
    refer_beside(st, i, arena_span(st->r->keep, food),
                 "counted as weighed raw, though the post says that a part of it is cooked");
    write_between(st, i, from, to, "");
    return;
  }
}

/* ---- words from abroad ---- */

/* "two times in the week" */
static void times_in_week(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 3 < t->count; k++) {
    struct quantity q = quantity_at(t, k);
    size_t at = k + q.tokens, once = frequency_count_at(t, k, &q); /* "once in the week" */
    if (once > 0 ? !says(t, k + once, "in") : !says(t, at, "time times") || !says(t, at + 1, "in")) continue;
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low > 7) continue;
    if (once > 0) at = k + once - 1;
    size_t week = says(t, at + 2, "the a each every") ? at + 3 : at + 2;
    if (!says(t, week, "week day month")) continue;
    struct buf b;
    buf_init(&b, st->r->arena, REFER_MOST_BYTES);
    if (q.low != 1) num_sig(&b, q.low, 2);
    buf_addf(&b, q.low == 1 ? "once a %.*s" : " times a %.*s", SPAN_ARG(t->item[week].at));
    write_between(st, i, k, week + 1, buf_text(&b));
    return;
  }
}

/* "one spoon small of oil", "a small spoon of honey", "one eating spoon quark" */
static void spoons(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 2 < t->count; k++) {
    bool before = says(t, k, "small little") && says(t, k + 1, "spoon spoons");
    bool behind = says(t, k, "spoon spoons") && says(t, k + 1, "small little");
    bool eating = says(t, k, "eating soup") && says(t, k + 1, "spoon spoons");
    bool weighed = false; /* "1 coffee spoon of it, about 2 g" */
    for (size_t m = k + 2; m < t->count && m < k + 9; m++) weighed = weighed || post_amount_at(t, m).is_mass;
    if (says(t, k, "coffee") && says(t, k + 1, "spoon spoons") && !weighed) /* half a teaspoon here, a whole one there */
      refer_beside(st, i, tokens_span(t, 0, t->count), "a coffee spoon was taken as a teaspoon; many hold half of it");
    if (!before && !behind && !eating) continue;
    size_t food = k + 2;
    if (says(t, food, "of")) food++;
    size_t end = post_food_end(st->r, t, food);
    if (end == food) continue;
    if (!eating) refer_beside(st, i, tokens_span(t, food, end - food), "a small spoon was taken as a teaspoon");
    write_between(st, i, k, k + 2, eating ? "tablespoon" : "teaspoon");
    return;
  }
}

/* "he says "a bit of veg"": what somebody else says that he feeds is named, and asked about. */
static void says_some(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 3 < t->count; k++) {
    if (!is_mark(t, k - 1, ',') || !says(t, k, "he she they") || !says(t, k + 1, "says say said")) continue;
    size_t quote = k + 2, some = t->item[quote].kind == TOKEN_MARK ? quote + 1 : quote;
    bool few = says(t, some, "some") || (says(t, some, "a") && says(t, some + 1, "bit little few"));
    if (!few || post_any_amount(t, some + 2)) continue;
    write_between(st, i, k, some, "");
    return;
  }
}

/* "for 25 kg of dog" */
static void kilos_of_animal(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  enum species s;
  for (size_t k = 1; k + 1 < t->count; k++) {
    if (!says(t, k, "of") || !is_word(t, k + 1) || !is_animal_word(t->item[k + 1].word, &s)) continue;
    if (!says(t, k - 1, "kg kgs kilo kilos lb lbs pounds") && !(t->item[k - 1].kind == TOKEN_NUMBER)) continue;
    if (k < 2 || (!is_number(t, k - 2) && !is_number(t, k - 1))) continue;
    write_between(st, i, k, k + 1, "");
    return;
  }
}

/* "500 g of rice (this is the not cooked weight)" */
static void weighed_in_bracket(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 2 < t->count; k++) {
    bool raw = false, dry = false, weight = false;
    size_t at = k + 1;
    if (!is_mark(t, k, '(')) continue;
    for (; at < t->count && is_word(t, at); at++) {
      bool not_cooked = says(t, at, "cooked") && says(t, at - 1, "not");
      raw = raw || not_cooked || says(t, at, "raw uncooked");
      dry = dry || says(t, at, "dry");
      weight = weight || says(t, at, "weight weighed");
      if (!not_cooked && !says(t, at, "this is it's that the a not raw uncooked dry weight weighed when")) break;
    }
    if (!is_mark(t, at, ')') || !weight || raw == dry) continue;
    write_between(st, i, k, at + 1, raw ? "(raw)" : "(dry)");
    return;
  }
}

/* "Where there is gizzard now there was heart before" */
static void was_before(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  bool now = false, then = false;
  for (size_t k = 0; k + 1 < t->count; k++) {
    now = now || (says(t, k, "where") && says(t, k + 1, "there") && says(t, k + 2, "is are"));
    then = then || (now && says(t, k, "there") && says(t, k + 1, "was were"));
  }
  if (!then || post_any_amount(t, is_number(t, 0) ? 1 : 0)) return;
  refer_tell(st, i, NOT_FED_PAST);
  refer_write(st, i, "");
}

void refer_same(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    if (st->s[i].t.count < 4) continue;
    times_in_week(st, i);
    spoons(st, i);
    parts_cooked(st, i);
    as_much_as_then(st, i);
    same_weight_at_meal(st, i);
    instead_as_much(st, i);
    instead_of_none(st, i);
    weighed_in_bracket(st, i);
    was_before(st, i);
    says_some(st, i);
    kilos_of_animal(st, i);
  }
}
