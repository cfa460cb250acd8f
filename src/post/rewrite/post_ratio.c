/* Shares that are told in one go, written out food by food: "60:40 chicken and turkey", "two parts turkey to one part rice",
 * "half of the bowl is pork, a quarter potato, the rest beans". */
#include "base/num.h"
#include "post/hear/post_net.h"
#include "post/rewrite/post_rewrite.h"

enum { SHARES_MOST = 6, WORDS_OF_A_FOOD = 6 };

struct shares {
  double of[SHARES_MOST];
  struct span food[SHARES_MOST];
  size_t count;
};

/* "The mix of vegetables is two parts carrots ...", where "120 g of my mix of vegetables" could not be read: how much of it
 * is fed, in grams; it is read now. 0: no such mix. */
static double grams_of_mix(struct post_reader *r, struct span before) {
  struct tokens t = post_tokens(r, before);
  size_t mix = t.count;
  for (size_t i = 0; i < t.count; i++)
    if (says(&t, i, "mix mixture blend mash medley")) mix = i;
  for (size_t k = 0; k < r->count && mix < t.count; k++) {
    struct tokens own = post_tokens(r, span_of(r->item[k].text));
    struct post_amount a = own.count > 0 ? post_amount_at(&own, 0) : (struct post_amount){0};
    if (r->item[k].kind != ITEM_UNKNOWN || !a.is_mass || a.low != a.high) continue;
    if (!span_holds_fold(span_of(r->item[k].text), t.item[mix].word)) continue;
    for (size_t i = 0; i < r->left_count; i++)
      if (r->left[i].line == r->item[k].line && span_eq_fold(span_of(r->left[i].text), span_of(r->item[k].text)))
        r->left[i].fed = false, r->left[i].why = "its parts are told further down";
    net_forget_item(r, k);
    return post_in_grams(&a);
  }
  return 0;
}

static struct span written(struct post_reader *r, struct span text, const struct shares *s, double sum,
                           struct span replaced) {
  struct buf b;
  buf_init(&b, r->keep, 2 * text.n + 200);
  buf_add(&b, (struct span){text.p, (size_t)(replaced.p - text.p)});
  double grams = grams_of_mix(r, buf_span(&b));
  if (grams > 0) b.n = 0;
  for (size_t i = 0; i < s->count; i++) {
    buf_adds(&b, i > 0 ? ", " : "");
    num_sig(&b, (grams > 0 ? grams : 100) * s->of[i] / sum, 4);
    buf_addf(&b, grams > 0 ? " g %.*s" : " %% %.*s", SPAN_ARG(s->food[i]));
  }
  const char *rest = replaced.p + replaced.n;
  buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
  return buf_span(&b);
}

/* The end of a food's words from 'from' on, which must name one; 'from' when they name none. */
size_t post_food_end(struct post_reader *r, const struct tokens *t, size_t from) {
  size_t to = from;
  bool named = false;
  while (to < t->count && is_word(t, to) && to - from < WORDS_OF_A_FOOD) {
    if (says_a(t, to, CLASS_ENDS_SHARE_FOOD) || post_amount_at(t, to).tokens > 0 || frequency_at(t, to).tokens > 0 ||
        token_is_a(&t->item[to], CLASS_CLAUSE_OPENER))
      break;
    size_t used = post_mention_at(r, t, to);
    named = named || used > 0;
    to += used > 0 ? used : 1;
  }
  return named || (to > from && post_names_food(r, t, from, to)) ? to : from;
}

static size_t past_joint(const struct tokens *t, size_t at) {
  while (is_mark(t, at, ',') || is_mark(t, at, '&') || is_mark(t, at, '+') || is_mark(t, at, '/') ||
         says(t, at, "and to plus with"))
    at++;
  return at;
}

/* "60:40 chicken and turkey", "70/20/10: turkey mince, rice, carrots" */
static bool numbers_first(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i + 2 < t->count; i++) {
    struct shares s = {.of = {0}};
    double sum = 0;
    size_t at = i, marks = 0;
    bool colon = false;
    while (is_number(t, at) && s.count < SHARES_MOST && (at == i || t->item[at].glued)) {
      s.of[s.count++] = t->item[at].value;
      sum += t->item[at].value;
      if (!((is_mark(t, at + 1, ':') || is_mark(t, at + 1, '/')) && t->item[at + 1].glued && is_number(t, at + 2))) break;
      colon = colon || is_mark(t, at + 1, ':');
      marks++;
      at += 2;
    }
    if (s.count < 2 || sum < 99 || sum > 101) continue;
    size_t from = at + 1;
    bool told = is_mark(t, from, ':') || says(t, from, "mix blend split ratio of");
    while (is_mark(t, from, ':') || is_mark(t, from, '-') || says(t, from, "mix blend split ratio of a")) from++;
    if (!colon && !told) continue; /* "80/20 ground beef and turkey" */
    size_t end = from;
    for (size_t k = 0; k < s.count; k++) {
      size_t begin = k == 0 ? from : past_joint(t, end);
      if (k > 0 && begin == end) return false;
      end = post_food_end(r, t, begin);
      if (end == begin) return false;
      s.food[k] = tokens_span(t, begin, end - begin);
    }
    (void)marks;
    *out = written(r, text, &s, sum, tokens_span(t, i, end - i));
    return true;
  }
  return false;
}

/* "two parts minced turkey to one part cooked rice" */
static bool parts_of(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  struct shares s = {.of = {0}};
  double sum = 0;
  size_t first = t->count, end = 0;
  for (size_t i = 0; i < t->count && s.count < SHARES_MOST; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || !says(t, i + q.tokens, "part parts")) continue;
    size_t from = i + q.tokens + 1;
    if (says(t, from, "of")) from++;
    size_t to = post_food_end(r, t, from);
    if (to == from) return false;
    if (first == t->count) first = i;
    s.of[s.count] = q.low;
    s.food[s.count++] = tokens_span(t, from, to - from);
    sum += q.low;
    i = (end = to) - 1;
  }
  if (s.count < 2 || !(sum > 0)) return false;
  *out = written(r, text, &s, sum, tokens_span(t, first, end - first));
  return true;
}

/* "... the rest is split evenly between pumpkin and courgette" */
static bool rest_in_halves(struct post_reader *r, const struct tokens *t, size_t from, struct shares *s, double left,
                           size_t *end) {
  size_t first = s->count;
  for (size_t at = from; s->count < SHARES_MOST;) {
    size_t to = post_food_end(r, t, at);
    if (to == at) break;
    s->food[s->count++] = tokens_span(t, at, to - at);
    *end = to;
    at = past_joint(t, to);
    if (at == to) break;
  }
  for (size_t k = first; k < s->count; k++) s->of[k] = left / (double)(s->count - first);
  return s->count > first + 1 && left > 0;
}

/* "2 % of his weight: half beef ..." */
static bool tells_the_whole(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "bodyweight weight")) return true;
  return false;
}

/* "Half of the bowl is pork mince, a quarter is potato, the rest is green beans" */
static bool fractions_of_the_bowl(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  struct shares s = {.of = {0}};
  double sum = 0;
  size_t first = t->count, end = 0, rest = SHARES_MOST;
  bool bowl = r->feeds_g > 0 || r->feeds_percent > 0 || tells_the_whole(t); /* "600 g a day. Half is ..." */
  for (size_t i = 0; i < t->count && s.count < SHARES_MOST; i++) {
    double part = 0;
    size_t used = post_part_at(t, i, &part);
    if (used == 0 && s.count > 0 && is_number(t, i) && is_mark(t, i + 1, '%')) /* "half turkey, 30 % rice, the rest ..." */
      part = t->item[i].value / 100, used = 2;
    if (used == 0) used = phrase_at(t, i, "the rest");
    if (used == 0) continue;
    size_t from = i + used;
    bool whole = says(t, from, "of") && says(t, from + 1, "the it his her this that") &&
                 (says(t, from + 1, "it this that") || says_a(t, from + 2, CLASS_WHOLE_OF_SHARES));
    if (whole) from += says(t, from + 1, "it this that") ? 2 : 3;
    bool is = says(t, from, "is are");
    if (is) from++;
    if (!is && !(bowl && (s.count > 0 || (i > 0 && is_mark(t, i - 1, ':'))))) continue;
    size_t evenly = phrase_of(t, from, CLASS_SPLIT_EVENLY);
    if (evenly > 0 && part == 0) {
      if (!rest_in_halves(r, t, from + evenly, &s, 1 - sum, &end)) return false;
      sum = 1;
      break;
    }
    size_t to = post_food_end(r, t, from);
    if (to == from) return false;
    bowl = bowl || (whole && is);
    if (first == t->count) first = i;
    if (part == 0) rest = s.count;
    s.of[s.count] = part;
    s.food[s.count++] = tokens_span(t, from, to - from);
    sum += part;
    i = (end = to) - 1;
  }
  if (!bowl || s.count < 2 || sum > 1.001 || (rest == SHARES_MOST && sum < 0.99)) return false;
  if (rest < SHARES_MOST) s.of[rest] = 1 - sum, sum = 1;
  *out = written(r, text, &s, sum, tokens_span(t, first, end - first));
  return true;
}

/* "Made up of half beef mince, 20% chicken wings, 15% heart": a part beside shares is a share. */
static bool part_beside_shares(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  size_t shares = 0;
  for (size_t i = 0; i + 1 < t->count; i++) shares += is_number(t, i) && is_mark(t, i + 1, '%') && not_an_amount(t, i) == 0;
  for (size_t i = 0; i < t->count && shares >= 2; i++) {
    double part = 0;
    size_t used = post_part_at(t, i, &part), from = i + used + (says(t, i + used, "of") ? 1 : 0);
    if (used == 0 || (i > 0 && says(t, i - 1, "and the other")) || post_food_end(r, t, from) == from) continue;
    struct buf b;
    buf_init(&b, r->keep, text.n + 20);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[i].at.p - text.p)});
    num_sig(&b, 100 * part, 4);
    buf_adds(&b, "% ");
    buf_add(&b, (struct span){t->item[from].at.p, (size_t)(text.p + text.n - t->item[from].at.p)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}

bool post_ratio_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  bool may = false;
  for (size_t i = 0; i < t->count && !may; i++)
    may = says(t, i, "parts part half third quarter quarters rest thirds fifth fifths sixth eighth tenth") ||
          (is_number(t, i) && (is_mark(t, i + 1, ':') || is_mark(t, i + 1, '/')));
  return may && (numbers_first(r, t, text, out) || parts_of(r, t, text, out) || fractions_of_the_bowl(r, t, text, out) ||
                 part_beside_shares(r, t, text, out));
}

/* ---- how much is fed in all ---- */

/* "per kilo", "for each kg of dog", and no food behind it: how many tokens; 0. */
static size_t per_kilo_of_body(const struct tokens *t, size_t at) {
  enum species s;
  if (says(t, at, "of") && says(t, at + 1, "food")) at += 2;
  size_t from = at;
  if (says(t, at, "for") && says(t, at + 1, "each every")) at++;
  if (is_mark(t, at, '/') || says(t, at, "per a each every")) at++;
  if (at == from || !says(t, at, "kg kilo kilogram")) return 0;
  at++;
  if (says(t, at, "a") && says(t, at + 1, "day")) at += 2;
  if (at >= t->count || t->item[at].kind == TOKEN_MARK) return at - from;
  size_t of = says(t, at, "of") ? at + 1 : at;
  while (says(t, of, "his her its the")) of++;
  bool body = says(t, of, "body bodyweight weight him her") || (is_word(t, of) && token_is_animal(&t->item[of], &s));
  if (!body) return 0;
  of++;
  if (says(t, of, "weight")) of++;
  return of - from;
}

/* "Per 1 kg of the mix: 600 g chicken ..." tells what it is made of: "for" says so to every reader. */
static struct span for_so_much(struct post_reader *r, const struct tokens *t, struct span text) {
  size_t of = says(t, 0, "per every") ? 1 : says(t, 0, "in for") && says(t, 1, "every each") ? 2 : 0;
  struct post_amount a = of > 0 ? post_amount_at(t, of) : (struct post_amount){0};
  size_t mix = of + a.tokens, colon = mix;
  while (colon < t->count && colon < mix + 6 && !is_mark(t, colon, ':')) colon++;
  if (!a.is_mass || !is_mark(t, colon, ':') || !post_any_amount(t, colon)) return text;
  struct buf b;
  buf_init(&b, r->keep, text.n + 40);
  buf_addf(&b, "For %.*s of the mix", SPAN_ARG(tokens_span(t, of, a.tokens)));
  buf_add(&b, (struct span){t->item[colon].at.p, (size_t)(text.p + text.n - t->item[colon].at.p)});
  return buf_span(&b);
}

struct span post_rate_written_out(struct post_reader *r, struct span text) {
  static const double LEAST_G = 10; /* less of it a kilogram is no bowl: a supplement's dose */
  struct tokens t = post_tokens(r, text);
  struct span made_of = for_so_much(r, &t, text);
  if (made_of.p != text.p) return made_of;
  for (size_t i = 0; i + 2 < t.count && t.count < SENTENCE_MOST_WORDS; i++) {
    struct post_amount a = post_amount_at(&t, i);
    size_t used = a.is_mass && a.low == a.high ? per_kilo_of_body(&t, i + a.tokens) : 0;
    if (used == 0 || post_in_grams(&a) < LEAST_G) continue;
    struct buf b;
    buf_init(&b, r->keep, text.n + 40);
    buf_add(&b, (struct span){text.p, (size_t)(t.item[i].at.p - text.p)});
    num_sig(&b, post_in_grams(&a) / 10, 4);
    buf_adds(&b, " % of body weight");
    const struct token *last = &t.item[i + a.tokens + used - 1];
    const char *rest = last->at.p + last->at.n;
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
    return buf_span(&b);
  }
  return text;
}

static double in_grams(const struct post_amount *a) {
  return a->low * (strcmp(a->unit, "kg") == 0   ? 1000
                   : strcmp(a->unit, "lb") == 0 ? 453.59237
                   : strcmp(a->unit, "oz") == 0 ? 28.349523
                                                : 1);
}

/* "Recipe, 1 day = 500 g (dog, 22 kg)", "daily portion: 420 g": the only weight of a sentence that tells of a day and of no
 * food; NaN. */
static double whole_of_a_day(struct post_reader *r, const struct tokens *t, struct span *said) {
  double grams = (double)NAN;
  bool day = false;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    day = day || says(t, i, "day daily day's days' 24h");
    if (a.tokens == 0 && is_word(t, i) && !token_is_a(&t->item[i], CLASS_NO_FOOD_BEHIND_TOTAL) &&
        !says(t, i, "food meal bowl recipe ration portion mix") && post_mention_at(r, t, i) > 0)
      return (double)NAN;
    if (!a.is_mass || a.low != a.high) continue;
    double x = in_grams(&a);
    bool body = r->weight_kg > 0 && fabs(x - 1000 * r->weight_kg) < 0.01 * x;
    i += a.tokens - 1;
    if (body) continue;
    if (grams > 0) return (double)NAN;
    grams = x;
    *said = tokens_span(t, i + 1 - a.tokens, a.tokens);
  }
  return day ? grams : (double)NAN;
}

static void find_whole_of_a_day(struct post_reader *r) {
  double found = 0;
  struct span said = {"", 0};
  for (size_t h = 0; h < r->heard_count; h++) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    struct span words;
    double x = whole_of_a_day(r, &t, &words);
    if (x > 0 && found > 0 && x != found) return; /* two of them: asked elsewhere */
    if (x > 0) found = x, said = words;
  }
  if (!(found > 0)) return;
  r->feeds_g = found;
  r->whole_said = said;
}

/* "450 g daily", where shares are told and no food stands beside it. */
void post_find_whole(struct post_reader *r) {
  bool share = false;
  for (size_t i = 0; i < r->count; i++) {
    double x;
    size_t n = r->item[i].kind == ITEM_FOOD ? num_read(span_of(r->item[i].text), &x) : 0;
    share = share || (n > 0 && strncmp(r->item[i].text + n, " % ", 3) == 0);
  }
  if (!share || r->feeds_g > 0 || r->feeds_percent > 0 || r->total_g > 0) return;
  double found = 0;
  for (size_t h = 0; h < r->heard_count; h++) {
    struct tokens t = post_tokens(r, r->heard[h].text);
    for (size_t i = 0; i < t.count; i++) {
      struct post_amount a = post_amount_at(&t, i);
      size_t behind = i + a.tokens;
      if (!a.is_mass || a.low != a.high) continue;
      if (says(&t, behind, "of") && says(&t, behind + 1, "it food this that")) behind += 2;
      if (phrase_at(&t, behind, "of the mix") > 0) behind += 3;
      if (says(&t, behind, "total altogether")) behind++;
      bool a_day = phrase_at(&t, behind, "a day") > 0 || phrase_at(&t, behind, "per day") > 0 || says(&t, behind, "daily") ||
                   (is_mark(&t, behind, '/') && says(&t, behind + 1, "day d")) || phrase_at(&t, behind, "each day") > 0;
      size_t end = behind + (says(&t, behind, "daily") ? 1 : 2);
      bool food = is_word(&t, end) && post_mention_at(r, &t, end) > 0;
      if (!a_day || food || (says(&t, end, "of") && !says(&t, end + 1, "it this that"))) continue;
      double grams = in_grams(&a);
      if (found > 0 && found != grams) return; /* two of them: asked elsewhere */
      found = grams;
      r->whole_said = tokens_span(&t, i, a.tokens);
    }
    arena_rewind(r->arena, r->begin);
  }
  if (found > 0)
    r->feeds_g = found;
  else
    find_whole_of_a_day(r);
}
