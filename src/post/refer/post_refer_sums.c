/* Parts of a weight that is told apart from them: "Raw half (250 g): 60 % cheek, ...", "daily intake D = 170 g; 0.62 turkey,
 * ...", "500 g a day: chicken, with 300 g, then heart, 100, and the last 100 are apple". */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

enum { PAIRS_MOST = 12 };

struct pairs {
  double of[PAIRS_MOST];
  struct span food[PAIRS_MOST];
  size_t count, end; /* behind the last token of it */
  double sum;
};

static const char *end_of(const struct tokens *t, size_t at) { return t->item[at].at.p + t->item[at].at.n; }

static bool add_pair(struct pairs *p, double of, struct span food) {
  if (p->count == PAIRS_MOST) return false;
  p->of[p->count] = of;
  p->food[p->count++] = food;
  p->sum += of;
  return true;
}

static size_t food_or_water(struct story *st, const struct tokens *t, size_t at) {
  return says(t, at, "water") ? at + 1 : post_food_end(st->r, t, at);
}

/* ---- shares ---- */

/* "60 %", or of fractions "0.62", "3/5": the tokens; 0. */
static size_t share_at(const struct tokens *t, size_t at, bool percent, double *share) {
  if (percent) {
    if (!is_number(t, at) || !is_mark(t, at + 1, '%') || !(t->item[at].value > 0 && t->item[at].value < 100)) return 0;
    *share = t->item[at].value / 100;
    return 2;
  }
  size_t word = is_word(t, at) ? post_part_at(t, at, share) : 0; /* "a quarter", "half" */
  if (word == 0 && says(t, at, "half")) *share = 0.5, word = 1;
  if (word > 0) return *share < 1 ? word : 0;
  struct quantity q = quantity_at(t, at);
  bool fraction = q.fault == QUANTITY_FINE && q.low == q.high && q.low > 0 && q.low < 1 && is_number(t, at);
  if (!fraction || is_mark(t, at + q.tokens, '%') || !post_amount_at(t, at).bare) return 0;
  *share = q.low;
  return q.tokens;
}

/* "0.62 turkey thigh, 0.18 gizzard", "rabbit 0.7, heart 0.3": shares that add up to a whole. */
static bool shares_at(struct story *st, const struct tokens *t, size_t at, bool percent, struct pairs *p) {
  *p = (struct pairs){.count = 0};
  for (;;) {
    while (is_mark(t, at, ',') || is_mark(t, at, ';') || is_mark(t, at, '+') || is_mark(t, at, '&') ||
           says(t, at, "and plus"))
      at++;
    double share;
    size_t used = share_at(t, at, percent, &share), from = at + used;
    if (used > 0) {
      while (says(t, from, "of is are")) from++;
      size_t to = food_or_water(st, t, from);
      if (to == from || !add_pair(p, share, tokens_span(t, from, to - from))) break;
      at = p->end = to;
      continue;
    }
    size_t to = food_or_water(st, t, at), number = to;
    if (to == at) break;
    while (is_mark(t, number, ':') || is_mark(t, number, '=') || is_mark(t, number, '(')) number++;
    used = share_at(t, number, percent, &share);
    if (used == 0 || !add_pair(p, share, tokens_span(t, at, to - at))) break;
    at = number + used;
    if (is_mark(t, at, ')')) at++;
    p->end = at;
  }
  return p->count >= 2 && fabs(p->sum - 1) < 0.021;
}

static void write_list(struct buf *b, const struct pairs *p, double by, const char *unit) {
  for (size_t k = 0; k < p->count; k++) {
    buf_adds(b, k > 0 ? ", " : "");
    num_sig(b, p->of[k] * by, 4);
    buf_addf(b, " %s %.*s", unit, SPAN_ARG(p->food[k]));
  }
}

/* "Raw half (250 g): 60 % beef cheek, ...": a name that is no food, its weight, and shares of it. */
static void shares_of_part(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 4 < t->count && k < 8; k++) {
    double whole;
    size_t used = refer_grams(t, k, &whole), at = k + used;
    if (used == 0) {
      if (post_mention_at(st->r, t, k - 1) > 0) return;
      continue;
    }
    bool bracket = is_mark(t, k - 1, '('), marked = bracket || is_mark(t, k - 1, ',') || is_mark(t, k - 1, '=') ||
                                                    is_mark(t, k - 1, '-') || is_mark(t, k - 1, ':') ||
                                                    says(t, k - 1, "is weighs makes of");
    if (bracket && is_mark(t, at, ')')) at++;
    if (!marked || !(is_mark(t, at, ':') || is_mark(t, at, '=') || is_mark(t, at, '-'))) return;
    struct pairs p;
    if (!shares_at(st, t, at + 1, true, &p) && !shares_at(st, t, at + 1, false, &p)) return;
    struct buf b;
    buf_init(&b, st->r->arena, REFER_MOST_BYTES);
    bool meal = is_word(t, 0) && token_is_a(&t->item[0], CLASS_MEAL);
    if (meal) buf_addf(&b, "%.*s: ", SPAN_ARG(t->item[0].at));
    write_list(&b, &p, whole, "g");
    const char *end = end_of(t, p.end - 1), *last = end_of(t, t->count - 1);
    if (last > end) buf_add(&b, (struct span){end, (size_t)(last - end)});
    refer_write(st, i, buf_text(&b));
    return;
  }
}

/* ---- a whole, told apart ---- */

struct whole {
  double grams;
  size_t sentence, at, tokens;
};

/* Is it how much is fed a day, of no food in particular? "500 g a day", "Daily intake D = 170 g", "a bowl of 400 g" */
static bool is_whole(struct story *st, const struct tokens *t, size_t at, size_t used) {
  size_t behind = at + used;
  if (says(t, behind, "of") && says_a(t, behind + 1, CLASS_WORD_OF_ALL_FOOD)) return true;
  if (behind < t->count && is_word(t, behind) && food_or_water(st, t, behind) > behind) return false;
  for (size_t k = 0; k < t->count; k++) {
    struct frequency f = frequency_at(t, k);
    if (f.tokens > 0 && f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal) return true;
    if (says(t, k, "daily d")) return true;
  }
  return false;
}

/* In sentence 'i' or the two before it. */
static bool find_whole(struct story *st, size_t i, struct whole *w) {
  enum { FAR = 3 };
  for (size_t k = i + 1; k-- > 0 && k + FAR > i;) {
    const struct tokens *t = &st->s[k].t;
    for (size_t m = 0; m < t->count; m++) {
      size_t bowl = k == i ? refer_grams(t, m, &w->grams) : 0; /* "The bowl weighs 400 g: 250 beef, ..." */
      if (bowl > 0 && is_mark(t, m + bowl, ':') && m > 0 && is_word(t, m - 1)) {
        *w = (struct whole){w->grams, k, m, bowl};
        return true;
      }
      double kg;
      size_t used = refer_grams(t, m, &w->grams);
      if (used == 0 || (post_weight_at(t, m, &kg) > 0 && !says(t, m + 1, "g gr grams"))) continue;
      if (!is_whole(st, t, m, used)) continue;
      *w = (struct whole){w->grams, k, m, used};
      return true;
    }
  }
  return false;
}

/* "Daily intake D = 170 g": nothing but the whole. */
static bool tells_only_whole(const struct tokens *t, const struct whole *w) {
  for (size_t k = 0; k < t->count; k++) {
    if (k == w->at) k += w->tokens;
    if (k >= t->count) break;
    bool letter = is_word(t, k) && t->item[k].at.n == 1;
    if (t->item[k].kind != TOKEN_MARK && !letter &&
        !says(t, k, "daily total intake ration mass food weight amount day per a is in all the each"))
      return false;
  }
  return true;
}

/* ", multiply by D", "times R": how many tokens. */
static size_t multiply_by(const struct tokens *t, size_t at) {
  size_t from = at;
  while (is_mark(t, at, ';') || is_mark(t, at, ',') || is_mark(t, at, '(') || is_mark(t, at, '-')) at++;
  if (!says(t, at, "multiply multiplied times x") && !is_mark(t, at, '*')) return 0;
  at++;
  if (says(t, at, "by all")) at++;
  if (says(t, at, "by the")) at++;
  if (at < t->count && is_word(t, at) && (t->item[at].at.n <= 2 || says(t, at, "total whole intake ration"))) at++;
  if (is_mark(t, at, ')')) at++;
  return at - from;
}

/* "1/2 apple and 1/2 banana" */
static bool are_halves(const struct pairs *p) {
  for (size_t i = 0; i < p->count; i++)
    if (p->of[i] != 0.5) return false;
  return true;
}

static bool tells_shares(const struct tokens *t) {
  size_t shares = 0;
  double share;
  for (size_t k = 0; k < t->count && shares < 2; k++) shares += share_at(t, k, false, &share) > 0;
  return shares >= 2;
}

/* "Composition by mass: 0.62 turkey thigh, 0.18 gizzard, ...; multiply by D". Without such words "1/2 apple and 1/2 banana"
 * are pieces. */
static void fractions_of_whole(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  if (!tells_shares(t)) return;
  bool shares = false;
  for (size_t k = 0; k < t->count; k++)
    shares = shares ||
             says(t, k, "composition mass fraction fractions share shares proportion proportions multiply multiplied") ||
             (says(t, k, "by") && says(t, k + 1, "weight"));
  struct whole before; /* "300 g in total a day: 2/3 beef, 1/3 rice", "1 day = 300 g. Turkey 2/3, rice 1/3." */
  bool told = !shares && find_whole(st, i, &before), same = told && before.sentence == i;
  bool behind = told && before.sentence + 1 == i;
  if (!shares && !same && !behind) return;
  for (size_t k = 0; k + 3 < t->count; k++) {
    struct pairs p;
    double share;
    bool begins = k == 0 || t->item[k - 1].kind == TOKEN_MARK || share_at(t, k, false, &share) > 0;
    if (same && !(k > 0 && is_mark(t, k - 1, ':'))) continue;
    if (!begins || !shares_at(st, t, k, false, &p)) continue;
    if (same && p.end < t->count && !is_mark(t, p.end, '.')) return; /* "...: 1/2 apple, 1/2 banana, 300 g beef" */
    if (behind && (k > 0 || p.end < t->count || fabs(p.sum - 1) > 0.01 || are_halves(&p))) return;
    struct whole w;
    bool found = find_whole(st, i, &w);
    struct buf b;
    buf_init(&b, st->r->arena, REFER_MOST_BYTES);
    size_t label = k;
    while (label > 0 && !is_mark(t, label - 1, '.') && !is_mark(t, label - 1, ';')) label--;
    for (size_t m = label; m < k; m++) /* "Composition by mass:" says no more; "Dog, 17 kg:" does */
      if (is_number(t, m) || (is_word(t, m) && !says_a(t, m, CLASS_OF_A_COMPOSITION) && t->item[m].at.n > 1)) label = k;
    if (label > 0) buf_addf(&b, "%.*s ", SPAN_ARG(tokens_span(t, 0, label)));
    write_list(&b, &p, found ? w.grams : 100, found ? "g" : "%");
    size_t rest = p.end + multiply_by(t, p.end);
    const char *end = end_of(t, rest - 1), *last = end_of(t, t->count - 1);
    if (last > end) buf_add(&b, (struct span){end, (size_t)(last - end)});
    refer_write(st, i, buf_text(&b));
    if (found && w.sentence < i && tells_only_whole(&st->s[w.sentence].t, &w)) refer_write(st, w.sentence, "");
    return;
  }
}

/* ---- a list that adds up ---- */

/* "100", "100 g": the tokens, and whether it has a unit; 0. */
static size_t number_at(const struct tokens *t, size_t at, double *value, bool *bare) {
  size_t used = refer_grams(t, at, value);
  *bare = false;
  if (used > 0) return used;
  struct post_amount a = is_number(t, at) ? post_amount_at(t, at) : (struct post_amount){0};
  if (a.tokens == 0 || !a.bare || a.low != a.high || is_mark(t, at + a.tokens, '%')) return 0;
  *value = a.low;
  *bare = true;
  return a.tokens;
}

/* Foods and numbers by turns, either first: "chicken, with 300 g, then beef heart, 100, and the last 50 are apple". False
 * where another word stands between, or a food has no number. */
static bool list_that_adds_up(struct story *st, const struct tokens *t, size_t at, struct pairs *p, bool *any_bare) {
  struct span pending = {"", 0};
  *p = (struct pairs){.count = 0};
  *any_bare = false;
  while (at < t->count) {
    double value;
    bool bare;
    size_t used = number_at(t, at, &value, &bare);
    if (used > 0) {
      size_t behind = at + used;
      if (says(t, behind, "of") && says(t, behind + 1, "it that them this")) behind += 2;
      bool verb = says(t, behind, "are is");
      if (verb || pending.n == 0) {
        if (verb || says(t, behind, "of")) behind++;
        size_t to = food_or_water(st, t, behind);
        if (to == behind || pending.n > 0 || !add_pair(p, value, tokens_span(t, behind, to - behind))) return false;
        at = to;
      } else {
        if (!add_pair(p, value, pending)) return false;
        pending.n = 0;
        at = behind;
      }
      *any_bare = *any_bare || bare;
      p->end = at;
      continue;
    }
    if (t->item[at].kind == TOKEN_MARK || says_a(t, at, CLASS_BETWEEN_PARTS)) {
      if (is_mark(t, at, '.') || is_mark(t, at, '?')) return false;
      at++;
      continue;
    }
    size_t to = food_or_water(st, t, at);
    while (to > at + 1 && says_a(t, to - 1, CLASS_BETWEEN_PARTS)) to--;
    if (to == at || pending.n > 0) return false;
    pending = tokens_span(t, at, to - at);
    at = to;
  }
  return pending.n == 0 && p->count >= 2;
}

/* What stands before the list: kept where it tells of the animal. */
static void write_head(struct buf *b, const struct tokens *t, size_t list, const struct whole *w) {
  bool animal = false;
  double kg;
  enum species s;
  for (size_t k = 0; k < list; k++)
    animal =
        animal || (k != w->at && post_weight_at(t, k, &kg) > 0) || (is_word(t, k) && is_animal_word(t->item[k].word, &s));
  if (!animal) return;
  if (w->at > 0) buf_addf(b, "%.*s ", SPAN_ARG(tokens_span(t, 0, w->at)));
  size_t from = w->at + w->tokens;
  if (says(t, from, "of") && says_a(t, from + 1, CLASS_WORD_OF_ALL_FOOD)) from += 2;
  if (from < list) from += frequency_at(t, from).tokens;
  while (list > from && (t->item[list - 1].kind == TOKEN_MARK || says_a(t, list - 1, CLASS_BETWEEN_PARTS))) list--;
  if (list > from) buf_addf(b, "%.*s", SPAN_ARG(tokens_span(t, from, list - from)));
  buf_addc(b, 0x1F);
}

/* "I do 500 g a day" told how much all of it is, whose parts are told now. */
static void forget_whole(struct story *st, const struct whole *w) {
  const struct tokens *t = &st->s[w->sentence].t;
  size_t from = w->at, to = w->at + w->tokens;
  if (says(t, to, "of") && says_a(t, to + 1, CLASS_WORD_OF_ALL_FOOD)) to += 2;
  if (to < t->count) to += frequency_at(t, to).tokens;
  while (from > 0 && says(t, from - 1, "i we do feed give gets has get is about around he she so")) from--;
  const char *end = end_of(t, t->count - 1), *rest = to > 0 ? end_of(t, to - 1) : t->item[0].at.p;
  struct buf b;
  buf_init(&b, st->r->arena, REFER_MOST_BYTES);
  if (from > 0) buf_add(&b, tokens_span(t, 0, from));
  if (end > rest) buf_add(&b, (struct span){rest, (size_t)(end - rest)});
  refer_write(st, w->sentence, buf_text(&b));
}

static void adds_up(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  struct whole w;
  bool any_bare = false; /* a number without a unit, which the list must have */
  for (size_t k = 0; k < t->count && !any_bare; k++) any_bare = is_number(t, k) && post_amount_at(t, k).bare;
  if (!any_bare || !find_whole(st, i, &w)) return;
  for (size_t k = w.sentence == i ? w.at + w.tokens : 0; k + 3 < t->count && k < 30; k++) {
    bool bare, begins = k == 0 || t->item[k - 1].kind == TOKEN_MARK || says_a(t, k - 1, CLASS_BETWEEN_PARTS) ||
                        k == w.at + w.tokens;
    struct pairs p;
    if (!begins || t->item[k].kind == TOKEN_MARK || says_a(t, k, CLASS_BETWEEN_PARTS)) continue;
    if (!list_that_adds_up(st, t, k, &p, &bare)) continue;
    if (!bare || fabs(p.sum - w.grams) > 0.01 * w.grams) return;
    struct buf b;
    buf_init(&b, st->r->arena, REFER_MOST_BYTES);
    if (w.sentence == i) write_head(&b, t, k, &w);
    write_list(&b, &p, 1, "g");
    refer_write(st, i, buf_text(&b));
    if (w.sentence < i) forget_whole(st, &w);
    return;
  }
}

void refer_sums(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    if (st->s[i].t.count < 4) continue;
    shares_of_part(st, i);
    fractions_of_whole(st, i);
    adds_up(st, i);
  }
}
