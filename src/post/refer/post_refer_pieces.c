/* What is made in one go is counted in pieces and eaten in pieces: "rolls into 40 balls, he eats 8 a day", "cut into 15
 * squares, 3 of them daily", "12 muffins, one at breakfast and two at dinner". Tubs and bags are told in `whole`. */
#include "base/num.h"
#include "post/refer/post_refer.h"

struct pieces {
  size_t said, from, to; /* the sentence; its tokens */
  double count;
  struct span shape; /* "muffins"; "" where no word says it */
};

static bool begins_alike(struct span a, struct span b) {
  size_t n = a.n < b.n ? a.n : b.n;
  if (n > 3) n--; /* "patty", "patties": without the last letter */
  for (size_t i = 0; i < n; i++)
    if ((a.p[i] | 0x20) != (b.p[i] | 0x20)) return false;
  return n > 2;
}

static bool makes_before(const struct tokens *t, size_t at) {
  while (at > 0 && says(t, at - 1, "about around roughly exactly some it them")) at--;
  return at > 0 && (says(t, at - 1, "into for") || says_a(t, at - 1, CLASS_MAKES_PIECES));
}

/* From 'at' back to the begin of its clause, where nothing in it tells a food or a weight; else 'at', with its verb. */
static size_t from_clause(struct post_reader *r, const struct tokens *t, size_t at, size_t verb) {
  size_t from = at;
  double kg;
  while (from > 0 && t->item[from - 1].kind != TOKEN_MARK && !says(t, from - 1, "and")) from--;
  for (size_t k = from; k < at; k++)
    if (post_mention_at(r, t, k) > 0 || post_weight_at(t, k, &kg) > 0 || post_amount_at(t, k).is_mass) return verb;
  return from > 0 && says(t, from - 1, "and") ? from - 1 : from;
}

/* "rolls into 40 balls", "(12 muffins", "slice it in 10", "one batch makes 24 of them" */
static bool made_at(struct story *st, size_t i, size_t k, struct pieces *p) {
  const struct tokens *t = &st->s[i].t;
  struct quantity q = quantity_at(t, k);
  size_t shape = k + q.tokens, end;
  if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 3) || q.low > 200) return false;
  bool makes = makes_before(t, k), cut = false;
  for (size_t m = k; m-- > 0 && m + 5 > k && says(t, k - 1, "in into") && is_word(t, m);)
    cut = cut || says_a(t, m, CLASS_MAKES_PIECES);
  if (!says_a(t, shape, CLASS_PIECE_OF_BATCH) && says_a(t, shape + 1, CLASS_PIECE_OF_BATCH)) shape++; /* "40 small balls" */
  if (says_a(t, shape, CLASS_PIECE_OF_BATCH)) {
    bool first = k == 0 || is_mark(t, k - 1, '(') || is_mark(t, k - 1, ':');
    if ((!makes && !cut && !first) || says(t, shape + 1, "of a per each daily every")) return false;
    p->shape = t->item[shape].word;
    end = shape + 1;
  } else if (makes && says(t, shape, "of") && says(t, shape + 1, "them these those")) {
    p->shape = (struct span){"", 0};
    end = shape + 2;
  } else if (cut && (shape >= t->count || t->item[shape].kind == TOKEN_MARK || says(t, shape, "and so"))) {
    p->shape = (struct span){"", 0};
    end = shape;
  } else {
    return false;
  }
  size_t verb = k;
  while (verb > 0 && (says(t, verb - 1, "in into about around roughly exactly some it them for") ||
                      says_a(t, verb - 1, CLASS_MAKES_PIECES)))
    verb--;
  p->said = i, p->count = q.low, p->to = end;
  p->from = from_clause(st->r, t, k, verb);
  return true;
}

/* "at breakfast", "for tea", "in the morning": the tokens; 0. */
static size_t at_meal(const struct tokens *t, size_t at) {
  size_t end = at;
  while (says(t, end, "at for with in the his her each every")) end++;
  return end > at && is_word(t, end) && token_is_a(&t->item[end], CLASS_MEAL) ? end + 1 - at : 0;
}

/* "he eats 8 a day", "four patties a day", "one at breakfast and two at dinner": how many a day of these pieces. */
static bool eaten_at(struct story *st, size_t i, size_t k, const struct pieces *made, struct pieces *p) {
  const struct tokens *t = &st->s[i].t;
  size_t at = k, end = k, meals = 0;
  bool daily = false, named = k > 0 && says(t, k - 1, "eats eat gets get has have give fed");
  p->count = 0;
  while (!daily) {
    struct quantity q = quantity_at(t, at);
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low > 0) || q.low > 20) break;
    size_t shape = at + q.tokens;
    if (says(t, shape, "of") && says(t, shape + 1, "them these those"))
      shape += 2, named = true;
    else if (says_a(t, shape, CLASS_PIECE_OF_BATCH)) {
      if (made->shape.n > 0 && !begins_alike(t->item[shape].word, made->shape)) break;
      shape++, named = true;
    }
    bool a = says(t, shape, "a per each every") && says(t, shape + 1, "day");
    size_t meal = a ? 0 : at_meal(t, shape);
    daily = a || (meals == 0 && says(t, shape, "daily"));
    if (!daily && meal == 0) break;
    p->count += q.low;
    end = shape + (a ? 2 : daily ? 1 : meal);
    meals += meal > 0;
    at = end;
    while (meals > 0 && (says(t, at, "and then") || is_mark(t, at, ','))) at++;
    if (at == end && meals > 0) break;
  }
  if (!named || (!daily && meals < 2)) return false;
  p->said = i, p->to = end;
  p->from = from_clause(st->r, t, k, k > 0 && is_word(t, k - 1) && !says(t, k - 1, "and") ? k - 1 : k);
  return true;
}

static bool find_eaten(struct story *st, const struct pieces *made, struct pieces *eaten) {
  for (size_t i = 0; i < st->count; i++)
    for (size_t k = 0; k + 1 < st->s[i].t.count; k++)
      if (!(i == made->said && k >= made->from && k < made->to) && eaten_at(st, i, k, made, eaten)) return true;
  return false;
}

/* Only where a word of the text says so are its numbers looked at. */
static bool find_made(struct story *st, struct pieces *made) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    bool said = false;
    for (size_t k = 0; k < t->count && !said; k++)
      said = says_a(t, k, CLASS_PIECE_OF_BATCH) || says_a(t, k, CLASS_MAKES_PIECES);
    for (size_t k = 0; said && k + 1 < t->count; k++)
      if (made_at(st, i, k, made)) return true;
  }
  return false;
}

void refer_pieces(struct story *st) {
  static const double MOST_DAYS = 60;
  struct pieces made, eaten, again;
  if (!find_made(st, &made) || !find_eaten(st, &made, &eaten)) return;
  double days = made.count / eaten.count;
  if (!(days >= 1.5) || days > MOST_DAYS) return;
  struct buf b;
  buf_init(&b, st->r->arena, 60);
  buf_adds(&b, "\x1FMakes ");
  num_sig(&b, days, 3);
  buf_adds(&b, " days\x1F");
  bool later = eaten.said > made.said || (eaten.said == made.said && eaten.from >= made.to);
  if (later) refer_between(st, eaten.said, eaten.from, eaten.to, "");
  refer_between(st, made.said, made.from, made.to, buf_text(&b));
  if (!later) refer_between(st, eaten.said, eaten.from, eaten.to, "");
  made.from = made.to = 0;
  if (find_eaten(st, &made, &again) && again.count == eaten.count) refer_between(st, again.said, again.from, again.to, "");
}
