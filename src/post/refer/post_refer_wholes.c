/* A whole and its parts, told apart: "250 g of chicken with rice, the chicken is 150 and the rice is the rest", "beef and
 * rice 1:1, 400 g together", "the 240 g are chicken mince, except for 30 g which are liver". */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

enum { FOODS_MOST = 5 };

static const char *begin_of(const struct tokens *t, size_t at) { return t->item[at].at.p; }
static const char *end_of(const struct tokens *t, size_t at) { return t->item[at].at.p + t->item[at].at.n; }

/* The sentence with "N g food, N g food" in the place of the tokens [from, to). */
static void write_parts(struct story *st, size_t i, size_t from, size_t to, const double *grams, const struct span *food,
                        size_t count) {
  const struct tokens *t = &st->s[i].t;
  struct buf b;
  buf_init(&b, st->r->arena, REFER_MOST_BYTES);
  const char *begin = begin_of(t, 0), *last = end_of(t, t->count - 1), *end = to > 0 ? end_of(t, to - 1) : begin;
  buf_add(&b, (struct span){begin, (size_t)(begin_of(t, from) - begin)});
  for (size_t k = 0; k < count; k++) {
    buf_adds(&b, k > 0 ? ", " : "");
    num_sig(&b, grams[k], 5);
    buf_addf(&b, " g %.*s", SPAN_ARG(food[k]));
  }
  if (last > end) buf_add(&b, (struct span){end, (size_t)(last - end)});
  refer_write(st, i, buf_text(&b));
}

/* "chicken with rice", "lamb and rice", "beef, rice and peas": foods without amounts from 'at' on; where they end. */
static size_t foods_at(struct story *st, const struct tokens *t, size_t at, struct span food[FOODS_MOST], size_t *count) {
  size_t end = at;
  for (*count = 0; *count < FOODS_MOST;) {
    size_t to = post_food_end(st->r, t, at);
    while (to > at + 1 && says(t, to - 1, "in at per a for the together total every each of")) to--;
    if (to == at) break;
    food[(*count)++] = tokens_span(t, at, to - at);
    end = at = to;
    while (is_mark(t, at, ',') || is_mark(t, at, '/') || is_mark(t, at, '&') || is_mark(t, at, '+') ||
           says(t, at, "and with plus to"))
      at++;
    if (at == end) break;
  }
  return end;
}

/* ---- the rest ---- */

/* A clause from 'at' on that names one of the two foods and the rest ("the rice is the rest", "what remains is the rice"),
 * or one of them and how much ("the chicken are 150", "200 g is lamb"); where it ends. */
static size_t clause_of_part(struct story *st, const struct tokens *t, size_t at, const struct span food[2], int *which,
                             double *grams) {
  bool rest = false, many = false;
  double amount = 0;
  *which = -1;
  size_t i = at;
  for (; i < t->count; i++) {
    if (is_mark(t, i, ',') || is_mark(t, i, ';') || is_mark(t, i, '.') || is_mark(t, i, '(')) break;
    if (says(t, i, "and") && i > at) break;
    if (says_a(t, i, CLASS_THE_REST)) {
      rest = true;
      continue;
    }
    double g;
    size_t used = refer_grams(t, i, &g);
    if (used == 0 && is_number(t, i) && post_amount_at(t, i).bare) g = t->item[i].value, used = post_amount_at(t, i).tokens;
    if (used > 0) {
      many = many || amount > 0;
      amount = g;
      i += used - 1;
      continue;
    }
    for (int k = 0; k < 2 && is_word(t, i); k++)
      if (refer_same_food(t->item[i].word, food[k])) {
        many = many || (*which >= 0 && *which != k);
        *which = k;
      }
    if (*which < 0 && post_mention_at(st->r, t, i) > 0) return at; /* of another food */
  }
  if (*which < 0 || many || rest == (amount > 0)) return at;
  *grams = rest ? 0 : amount;
  return i;
}

static void rest_of_two(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 4 < t->count; k++) {
    double whole, part[2], grams[2] = {-1, -1};
    size_t used = refer_grams(t, k, &whole), count, at;
    if (used == 0) continue;
    struct span food[FOODS_MOST];
    at = k + used;
    if (says(t, at, "of")) at++;
    size_t end = foods_at(st, t, at, food, &count), behind = end;
    if (count != 2) continue;
    while (says(t, behind, "a per for one in the every each day daily")) behind++;
    bool of_this = false; /* "..., of this the liver is 10": the other one is the rest */
    for (int clause = 0; clause < 2; clause++) {
      size_t mark = behind;
      while (is_mark(t, behind, ',') || is_mark(t, behind, ':') || is_mark(t, behind, '-') || is_mark(t, behind, ';') ||
             says(t, behind, "and of which"))
        behind++;
      if (says(t, behind - 1, "of") && behind > mark && says(t, behind, "this it that them")) behind++, of_this = true;
      int which;
      size_t to = clause_of_part(st, t, behind, food, &which, &part[0]);
      if (to == behind || grams[which] >= 0) {
        behind = mark;
        break;
      }
      grams[which] = part[0];
      behind = to;
    }
    for (int f = 0; f < 2; f++)
      if (of_this && grams[f] < 0 && grams[1 - f] > 0) grams[f] = 0;
    bool both = grams[0] > 0 && grams[1] > 0 && fabs(grams[0] + grams[1] - whole) < 0.01 * whole;
    if (grams[0] < 0 || grams[1] < 0 || (!both && (grams[0] > 0) == (grams[1] > 0))) continue;
    for (int f = 0; f < 2; f++)
      if (grams[f] == 0) grams[f] = whole - grams[1 - f];
    if (!(grams[0] > 0 && grams[1] > 0)) continue;
    write_parts(st, i, k, behind, grams, food, 2);
    return;
  }
}

/* ---- a ratio, and how much together ---- */

static size_t ratio_numbers(const struct tokens *t, size_t at, double of[FOODS_MOST], size_t *count) {
  size_t from = at;
  for (*count = 0; is_number(t, at) && *count < FOODS_MOST && t->item[at].value > 0 && t->item[at].value < 20;) {
    of[(*count)++] = t->item[at].value;
    at++;
    if (!(is_mark(t, at, ':') && t->item[at].glued && is_number(t, at + 1) && t->item[at + 1].glued)) break;
    at++;
  }
  return *count >= 2 ? at - from : 0;
}

/* "400 g together", "together 360 g", "in total 420 g", "all in all 280 g": the amount; its tokens with these words. */
static size_t together_at(const struct tokens *t, size_t at, double *grams) {
  size_t before = phrase_of(t, at, CLASS_TOGETHER), used = refer_grams(t, at + before, grams);
  if (used == 0) return 0;
  size_t behind = before > 0 ? 0 : phrase_of(t, at + used, CLASS_TOGETHER);
  return before + behind > 0 ? before + used + behind : 0;
}

/* The foods of a list before the ratio, in this sentence or the one before. */
static bool foods_before(struct story *st, size_t i, size_t ratio, size_t wanted, struct span food[FOODS_MOST],
                         size_t *begin) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k < ratio; k++) {
    size_t count;
    struct tokens before = {t->item, ratio};
    if (k > 0 && is_word(t, k - 1) && !says_a(t, k - 1, CLASS_CHATTER) && !says(t, k - 1, "just only of is")) continue;
    size_t end = foods_at(st, &before, k, food, &count);
    while (end < ratio && (t->item[end].kind == TOKEN_MARK || says(t, end, "in the a at ratio of mixed"))) end++;
    if (count == wanted && end == ratio) {
      *begin = k;
      return true;
    }
  }
  return false;
}

/* "3:2 beef to rice, 500 g a day" */
static bool ratio_first(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 4 < t->count; k++) {
    double of[FOODS_MOST], whole = 0, sum = 0, grams[FOODS_MOST];
    struct span food[FOODS_MOST];
    size_t count, named, used = ratio_numbers(t, k, of, &count), at = k + used;
    if (used == 0) continue;
    while (says(t, at, "of mix ratio")) at++;
    size_t end = foods_at(st, t, at, food, &named), amount = end;
    if (named != count) continue;
    while (is_mark(t, amount, ',') || is_mark(t, amount, '-') || is_mark(t, amount, '(')) amount++;
    size_t told = together_at(t, amount, &whole), weight = told > 0 ? told : refer_grams(t, amount, &whole);
    size_t behind = amount + weight;
    struct frequency f = behind < t->count ? frequency_at(t, behind) : (struct frequency){0};
    bool daily = f.tokens > 0 && f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal;
    if (weight == 0 || !(told > 0 || daily)) continue;
    for (size_t n = 0; n < count; n++) sum += of[n];
    for (size_t n = 0; n < count; n++) grams[n] = whole * of[n] / sum;
    write_parts(st, i, k, behind, grams, food, count);
    return true;
  }
  return false;
}

static void ratio_together(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k < t->count; k++) {
    double of[FOODS_MOST], whole = 0, sum = 0, grams[FOODS_MOST];
    size_t count, used = ratio_numbers(t, k, of, &count), amount = k + used, end;
    if (used == 0) continue;
    while (amount < t->count && (t->item[amount].kind == TOKEN_MARK || says(t, amount, "ratio mix it's so for"))) amount++;
    size_t told = together_at(t, amount, &whole);
    if (told == 0) continue;
    end = amount + told;
    struct span food[FOODS_MOST];
    size_t begin = k, before = st->count;
    if (!foods_before(st, i, k, count, food, &begin)) { /* "what about only beef and rice? 1:1, ..." */
      if (k > 0 || i == 0 || st->s[i - 1].t.count == 0) continue;
      const struct tokens *b = &st->s[i - 1].t;
      size_t stop = b->count, from;
      while (stop > 0 && b->item[stop - 1].kind == TOKEN_MARK) stop--;
      if (post_any_amount(b, 0) || !foods_before(st, i - 1, stop, count, food, &from)) continue;
      before = i - 1;
    }
    for (size_t f = 0; f < count; f++) {
      food[f] = arena_span(st->r->keep, food[f]);
      sum += of[f];
    }
    for (size_t f = 0; f < count; f++) grams[f] = whole * of[f] / sum;
    write_parts(st, i, begin, end, grams, food, count);
    if (before < st->count) refer_write(st, before, "");
    return;
  }
}

/* ---- "the 240 g are chicken mince, except for 30 g which are liver" ---- */

/* A daily amount of all the food, told in a sentence before 'i' without a food of its own; 0. */
static double whole_before(struct story *st, size_t i, size_t *sentence, size_t *at, size_t *tokens) {
  enum { FAR = 3 };
  for (size_t k = i; k-- > 0 && k + FAR >= i;) {
    const struct tokens *t = &st->s[k].t;
    for (size_t m = 0; m < t->count; m++) {
      double grams;
      size_t used = refer_grams(t, m, &grams), food = m + used;
      double kg;
      if (used == 0 || (post_weight_at(t, m, &kg) > 0 && !says(t, food, "of"))) continue;
      if (says(t, food, "of")) food++;
      bool kind = !is_word(t, food) || is_chatter(t->item[food].word) || frequency_at(t, food).tokens > 0 ||
                  says_a(t, food, CLASS_WORD_OF_ALL_FOOD);
      if (!kind) return 0;
      *sentence = k, *at = m, *tokens = food - m;
      return grams;
    }
  }
  return 0;
}

/* Cuts "240 g of" from the sentence that told the whole: its parts are told now. */
static void forget_whole(struct story *st, size_t sentence, size_t at, size_t tokens) {
  const struct tokens *t = &st->s[sentence].t;
  const char *begin = begin_of(t, 0), *last = end_of(t, t->count - 1);
  struct span text = {begin, (size_t)(last - begin)};
  size_t end = at + tokens;
  struct span cut = post_cut_out(st->r, text, begin_of(t, at), end < t->count ? begin_of(t, end) : last, "");
  refer_write(st, sentence, arena_text(st->r->arena, cut));
}

/* "which are chicken liver", "that is potato": the food behind; its end, 'at' where none is. */
static size_t food_of_part(struct story *st, const struct tokens *t, size_t at, struct span *food) {
  size_t from = at;
  if (says(t, at, "which that")) at++;
  if (says(t, at, "are is")) at++;
  if (says(t, at, "of the all")) at++;
  size_t to = post_food_end(st->r, t, at);
  if (to == at) return from;
  *food = tokens_span(t, at, to - at);
  return to;
}

/* "The 240 g are chicken mince, except for 30 g which are chicken liver", "it's all chicken mince but for 20 g ..." */
static void all_but(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 5 < t->count; k++) {
    double whole = 0, part, grams[2], told;
    size_t at = k, sentence = st->count, told_at = 0, tokens = 0;
    struct span food[2];
    if (says(t, k, "the those")) at++;
    size_t used = refer_grams(t, at, &whole);
    bool all = used == 0 && (says(t, k, "it's its") || (says(t, k, "it that") && says(t, k + 1, "is")));
    if (used == 0 && !all) continue;
    at += used + (all ? says(t, k, "it's its") ? 1 : 2 : 0);
    if (all && !says(t, at, "all")) continue;
    if (!all && !says(t, at, "are is")) continue;
    size_t end = food_of_part(st, t, at, &food[0]), but = end;
    if (end == at) continue;
    if (is_mark(t, but, ',')) but++;
    size_t except = phrase_of(t, but, CLASS_ALL_BUT);
    size_t amount = except > 0 ? refer_grams(t, but + except, &part) : 0;
    if (amount == 0) continue;
    size_t behind = but + except + amount, last = food_of_part(st, t, behind, &food[1]);
    if (last == behind) continue;
    told = whole_before(st, i, &sentence, &told_at, &tokens);
    if (all) whole = told;
    if (!(whole > part)) continue;
    grams[0] = whole - part, grams[1] = part;
    write_parts(st, i, k, last, grams, food, 2);
    if (told == whole) forget_whole(st, sentence, told_at, tokens);
    return;
  }
}

/* "250 of the 300 are rabbit, the rest is chicken heart" */
static void some_of_all(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 6 < t->count; k++) {
    double part, whole, grams[2];
    struct post_amount a = is_number(t, k) ? post_amount_at(t, k) : (struct post_amount){0};
    size_t of = k + a.tokens;
    if (a.tokens == 0 || !(a.bare || a.is_mass) || a.low != a.high || !says(t, of, "of") || !says(t, of + 1, "the those"))
      continue;
    struct post_amount all = is_number(t, of + 2) ? post_amount_at(t, of + 2) : (struct post_amount){0};
    if (all.tokens == 0 || !(all.bare || all.is_mass) || all.low != all.high) continue;
    part = a.bare ? a.low : post_in_grams(&a);
    whole = all.bare ? all.low : post_in_grams(&all);
    size_t at = of + 2 + all.tokens, sentence = st->count, told_at = 0, tokens = 0;
    struct span food[2];
    size_t end = food_of_part(st, t, at, &food[0]);
    if (end == at || !(whole > part)) continue;
    if (is_mark(t, end, ',') || says(t, end, "and")) end++;
    if (says(t, end, "and")) end++;
    if (says(t, end, "the")) end++;
    if (!says_a(t, end, CLASS_THE_REST)) continue;
    size_t last = food_of_part(st, t, end + 1, &food[1]);
    if (last == end + 1) continue;
    if (whole_before(st, i, &sentence, &told_at, &tokens) != whole) continue;
    grams[0] = part, grams[1] = whole - part;
    write_parts(st, i, k, last, grams, food, 2);
    forget_whole(st, sentence, told_at, tokens);
    return;
  }
}

void refer_wholes(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    if (st->s[i].t.count < 4) continue;
    rest_of_two(st, i);
    if (!ratio_first(st, i)) ratio_together(st, i);
    all_but(st, i);
    some_of_all(st, i);
  }
}
