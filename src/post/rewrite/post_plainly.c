/* What is said of one food in a roundabout way, in the words that every reader knows: "a 20 g lump of cheddar", "eggs, two of
 * them", "130 g of it", "boiled and shredded", "on a Monday and another on a Friday", "rice (30 g dry)". */
#include "post/rewrite/post_rewrite.h"

static struct span cut(struct post_reader *r, const struct tokens *t, struct span text, size_t from, size_t to,
                       const char *instead) {
  return post_cut_out(r, text, token_begin(t, from), token_end(t, to - 1), instead);
}

/* "A 20 gram lump of cheddar": what was weighed needs no shape. */
static bool shape_of_weight(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 2; i + 2 < t->count; i++) {
    if (!says(t, i + 1, "of") || !says_a(t, i, CLASS_SHAPE_WEIGHED)) continue;
    bool weighed = false;
    for (size_t back = 2; back <= 4 && back <= i && !weighed; back++) {
      struct post_amount a = post_amount_at(t, i - back);
      weighed = a.is_mass && i - back + a.tokens == i;
    }
    if (!weighed) continue;
    *out = cut(r, t, text, i, i + 2, "of");
    return true;
  }
  return false;
}

/* ---- ways of preparing, joined ---- */

/* "boiled", "shredded", "peeled": of a food, and no name of another one. */
static bool is_participle(const struct tokens *t, size_t at) {
  if (!is_word(t, at) || says_a(t, at, CLASS_HEADING_OF_PAST) || says(t, at, "weighed measured fed need added")) return false;
  struct span w = t->item[at].word;
  const char *state;
  bool ed = w.n > 4 && span_is(span_cut(w, w.n - 2, w.n), "ed");
  if (!ed && !says(t, at, "ground cut")) return false;
  return !says_a(t, at, CLASS_CHANGES_THE_FOOD) || says(t, at, "shredded") ||
         meaning_at(t, at, CLASS_STATE_BEHIND_NAME, &state) > 0;
}

/* Is a food named in the words right before 'at', with no mark between? */
static bool behind_a_food(struct post_reader *r, const struct tokens *t, size_t at) {
  enum { FAR = 5 };
  for (size_t i = at; i-- > 0 && i + FAR > at && (is_word(t, i) || is_mark(t, i, ','));)
    if (post_mention_at(r, t, i) > 0) return true;
  return false;
}

/* "70 g chicken breast boiled and shredded", "60 g washed and grated courgette": one food. */
static bool joined_participles(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 1; i + 1 < t->count; i++) {
    bool joins = says(t, i, "and n then") || is_mark(t, i, '&') || is_mark(t, i, '+') || is_mark(t, i, '/');
    if (!joins || !is_participle(t, i - 1) || !is_participle(t, i + 1) || says(t, i + 2, "the his her it a some my")) continue;
    bool behind = behind_a_food(r, t, i - 1), before = post_mention_at(r, t, i + 2) > 0;
    for (size_t back = 1; back <= 4 && back < i && !before; back++) { /* "60 g washed and grated courgette" */
      struct post_amount a = post_amount_at(t, i - 1 - back);
      before = a.tokens > 0 && i - 1 - back + a.tokens + (says(t, i - 2, "of") ? 1 : 0) == i - 1;
    }
    if (says(t, i - 1, "drained rinsed") && says(t, i + 1, "drained rinsed")) continue; /* as tables have it */
    if (!behind && !before) continue;
    const char *state; /* before the name the one that tells more of it: "cooked and cooled rice" */
    bool first = meaning_at(t, i - 1, CLASS_STATE_BEHIND_NAME, &state) > 0;
    *out = behind ? cut(r, t, text, i, i + 1, ", ") : first ? cut(r, t, text, i, i + 2, "") : cut(r, t, text, i - 1, i + 1, "");
    return true;
  }
  return false;
}

/* ---- what goes on with a food that was named ---- */

/* The name that ends at 'end', from the beginning of its clause; t->count: none, or an amount stands by it. */
static size_t name_before(struct post_reader *r, const struct tokens *t, size_t end) {
  enum { WORDS_MOST = 9 };
  size_t from = end;
  bool named = false;
  while (from > 0 && from + WORDS_MOST > end && is_word(t, from - 1) && !says_a(t, from - 1, CLASS_FEEDING_VERB) &&
         !says(t, from - 1, "and plus then") && post_amount_at(t, from - 1).tokens == 0)
    from--;
  if (from == end || (from > 0 && (is_word(t, from - 1) || is_number(t, from - 1)) && !says_a(t, from - 1, CLASS_FEEDING_VERB) &&
                      !says(t, from - 1, "and plus then")))
    return t->count;
  for (size_t i = from; i < end; i++) named = named || post_mention_at(r, t, i) > 0;
  return named ? from : t->count;
}

static bool ends_of_it(const struct tokens *t, size_t at) {
  return at >= t->count || t->item[at].kind == TOKEN_MARK || frequency_at(t, at).tokens > 0 ||
         says(t, at, "once when after cooked raw in at for each every with and worth goes");
}

/* "neck of lamb off the bone, 130 g of it a day" */
static bool amount_of_it(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 2; i + 1 < t->count; i++) {
    if (!says(t, i, "of") || !says(t, i + 1, "it that this them those these") || !ends_of_it(t, i + 2)) continue;
    for (size_t back = 1; back <= 4 && back < i; back++) {
      size_t at = i - back, mark = at;
      struct post_amount a = post_amount_at(t, at);
      if (a.tokens != back || !(a.is_mass || a.is_volume)) continue;
      while (mark > 0 && says(t, mark - 1, "about around roughly i give she he gets has")) mark--;
      if (mark < 2 || !(is_mark(t, mark - 1, ',') || is_mark(t, mark - 1, ':') || is_mark(t, mark - 1, '-') ||
                        is_mark(t, mark - 1, ';')))
        continue;
      if (name_before(r, t, mark - 1) == t->count) continue;
      *out = cut(r, t, text, i, i + 2, "");
      return true;
    }
  }
  return false;
}

/* "Sardine, one small one on Fridays", "eggs, two of them a week", "salmon, one 30 g piece": so many of what was named. */
static bool counted_behind(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 1; i + 2 < t->count; i++) {
    if (!is_mark(t, i, ',') && !is_mark(t, i, ':') && !is_mark(t, i, '-')) continue;
    size_t at = i + 1;
    while (says(t, at, "just only about maybe i give the")) at++;
    struct quantity q = quantity_at(t, at);
    if (q.fault != QUANTITY_FINE || q.tokens == 0 || q.low != q.high || q.low < 1) continue;
    size_t size = at + q.tokens, end;
    struct post_amount weight = q.low == 1 ? post_amount_at(t, size) : (struct post_amount){0};
    struct post_amount own = post_amount_at(t, at);
    if (own.is_mass && own.low == own.high) weight = own, size = at; /* "a 60 g one" */
    if (weight.is_mass) {
      end = size + weight.tokens;
      if (!says(t, end, "one piece")) continue;
    } else {
      end = says(t, size, "small medium large big little tiny whole") ? size + 1 : size;
      bool of_them = says(t, end, "of") && says(t, end + 1, "them those these it");
      bool one = says(t, at, "one") && end == size && says(t, i + 1, "just only the") && ends_of_it(t, end);
      if (!of_them && !one && !(end > size && says(t, end, "one ones"))) continue;
      end += of_them ? 1 : 0;
      if (one) end--;
    }
    size_t from = name_before(r, t, i);
    if (from == t->count) continue;
    struct buf b;
    buf_init(&b, r->arena, text.n + 20);
    size_t first = weight.is_mass ? size : at, last = weight.is_mass ? size + weight.tokens : end;
    if (!weight.is_mass && says(t, end, "of")) last = end;
    if (!weight.is_mass && (says(t, end, "them those these it"))) last = end - 1;
    if (says(t, at, "one") && last == at) last = at + 1;
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(tokens_span(t, first, last - first)), SPAN_ARG(tokens_span(t, from, i - from)));
    *out = cut(r, t, text, from, end + 1, buf_text(&b));
    return true;
  }
  return false;
}

/* "a wing on a Monday and another on a Thursday", "100 g on Tuesday, the same again on Friday": on both days. */
static bool and_another(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  const char *day;
  for (size_t i = 1; i + 2 < t->count; i++) {
    size_t at = i;
    if (!is_word(t, i - 1) || meaning_at(t, i - 1, CLASS_DAY_OF_WEEK, &day) == 0) continue;
    while (says(t, at, "evening evenings morning mornings night nights")) at++;
    while (is_mark(t, at, ',') || is_mark(t, at, ';') || says(t, at, "and then plus")) at++;
    size_t used = at > i ? phrase_of(t, at, CLASS_ANOTHER_SO) : 0, next = at + used;
    if (used == 0) continue;
    struct post_amount again = post_amount_at(t, next); /* "another 60 g" */
    bool more = again.tokens > 0 && !again.by_word;
    if (more) {
      bool same = false;
      for (size_t k = 0; k < i && !same; k++) {
        struct post_amount a = post_amount_at(t, k);
        same = a.tokens > 0 && !a.by_word && a.low == again.low && a.high == again.high && strcmp(a.unit, again.unit) == 0;
      }
      if (!same) continue;
      next += again.tokens;
    }
    while (says(t, next, "on a the every each")) next++;
    if (!is_word(t, next) || meaning_at(t, next, CLASS_DAY_OF_WEEK, &day) == 0) continue;
    size_t from = i; /* "on a Monday": on Monday */
    *out = cut(r, t, text, from, next, " and ");
    return true;
  }
  return false;
}

/* "on a Monday and Thursday": no article. */
static bool article_of_day(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  const char *day;
  for (size_t i = 0; i + 3 < t->count; i++) {
    if (!says(t, i, "on") || !says(t, i + 1, "a") || meaning_at(t, i + 2, CLASS_DAY_OF_WEEK, &day) == 0) continue;
    if (!says(t, i + 3, "and")) continue;
    *out = cut(r, t, text, i + 1, i + 2, "");
    return true;
  }
  return false;
}

/* "Chicken mince 3 days, 200 g": so many days a week. */
static bool days_behind_food(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 1; i + 2 < t->count; i++) {
    struct quantity q = is_number(t, i) || is_word(t, i) ? quantity_at(t, i) : (struct quantity){.fault = QUANTITY_NONE};
    size_t days = i + q.tokens;
    if (q.fault != QUANTITY_FINE || q.tokens == 0 || q.low != q.high || !(q.low >= 1 && q.low <= 6)) continue;
    if (!says(t, days, "days day") || !(is_mark(t, days + 1, ',') || is_mark(t, days + 1, ':')) || frequency_at(t, i).tokens > 0)
      continue;
    bool named = false;
    for (size_t back = 1; back <= 3 && back <= i && !named; back++) named = is_word(t, i - back) && post_mention_at(r, t, i - back) > 0;
    if (!named && is_mark(t, i - 1, ')')) named = post_names_food(r, t, 0, i);
    struct post_amount a = post_amount_at(t, days + 2);
    if (!named || !a.is_mass || post_any_amount(&(struct tokens){t->item, i}, 0)) continue;
    *out = cut(r, t, text, days, days + 1, q.low == 1 ? "day a week" : "days a week");
    return true;
  }
  return false;
}

/* ---- one food for another ---- */

/* "I change the turkey for the same 150 g of salmon": the amount tells it. */
static bool same_weight(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i + 2 < t->count; i++) {
    size_t used = says(t, i, "the an") && says(t, i + 1, "same equal") ? 2 : 0;
    struct post_amount a = used > 0 ? post_amount_at(t, i + used) : (struct post_amount){0};
    if (!a.is_mass && !a.is_volume) continue;
    size_t behind = i + used + a.tokens;
    if (!says(t, behind, "of in") && post_mention_at(r, t, behind) == 0) continue;
    *out = says(t, behind, "in") ? cut(r, t, text, behind, behind + 1, "of") : cut(r, t, text, i, i + used, "");
    return true;
  }
  return false;
}

/* Where the food that is named at 'from' ends, before what it stands for and when it is fed; 'from': none is named. */
static size_t food_until(struct post_reader *r, const struct tokens *t, size_t from) {
  enum { WORDS_MOST = 6 };
  size_t to = from;
  bool named = false;
  while (is_word(t, to) && to < from + WORDS_MOST && !says(t, to, "for instead on in at as and with") &&
         frequency_at(t, to).tokens == 0) {
    named = named || post_mention_at(r, t, to) > 0;
    to++;
  }
  return named || (to > from && post_names_food(r, t, from, to)) ? to : from;
}

/* "Mondays we substitute 170 g of mackerel for the lamb", "change the turkey for 150 g of salmon" */
static bool weighed_swap(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i + 4 < t->count; i++) {
    if (!says_a(t, i, CLASS_SWAPPING_VERB)) continue;
    size_t begin = i > 0 && says(t, i - 1, "i we") ? i - 1 : i, at = i + 1;
    struct post_amount a = post_amount_at(t, at);
    struct buf b;
    buf_init(&b, r->arena, text.n + 40);
    if (a.is_mass) { /* the new one first */
      size_t food = at + a.tokens + (says(t, at + a.tokens, "of") ? 1 : 0), end = food_until(r, t, food);
      if (end == food || !says(t, end, "for") || !says(t, end + 1, "the his her") || post_mention_at(r, t, end + 2) == 0) continue;
      size_t old = end + 2 + post_mention_at(r, t, end + 2);
      buf_addf(&b, "%.*s instead of the %.*s", SPAN_ARG(tokens_span(t, at, end - at)),
               SPAN_ARG(tokens_span(t, end + 2, old - end - 2)));
      *out = cut(r, t, text, begin, old, buf_text(&b));
      return true;
    }
    bool passive = i > 0 && says(t, i - 1, "is are gets get");
    size_t old = at, old_end;
    if (passive) {
      old_end = old = i - 1;
      while (old > 0 && is_word(t, old - 1) && !says(t, old - 1, "the his her") && frequency_at(t, old - 1).tokens == 0) old--;
      begin = old > 0 && says(t, old - 1, "the his her") ? old - 1 : old;
    } else {
      if (!says(t, at, "the his her out")) continue;
      while (says(t, old, "the his her out")) old++;
      for (old_end = old; is_word(t, old_end) && !says(t, old_end, "for with to by"); old_end++) {
      }
      at = old_end;
    }
    if (old_end == old || old_end - old > 3 || !says(t, at, "for with to by")) continue;
    at += says(t, at + 1, "about another") ? 2 : 1;
    a = post_amount_at(t, at);
    if (!a.is_mass) continue;
    size_t food = at + a.tokens + (says(t, at + a.tokens, "of") ? 1 : 0), end = food_until(r, t, food);
    if (end == food) continue;
    buf_addf(&b, "%.*s instead of the %.*s", SPAN_ARG(tokens_span(t, at, end - at)), SPAN_ARG(tokens_span(t, old, old_end - old)));
    *out = cut(r, t, text, begin, end, buf_text(&b));
    return true;
  }
  return false;
}

/* ---- brackets ---- */

static size_t close_of(const struct tokens *t, size_t open) {
  enum { FAR = 16 };
  size_t close = open + 1;
  while (close < t->count && close < open + FAR && !is_mark(t, close, ')') && !is_mark(t, close, '(')) close++;
  return is_mark(t, close, ')') ? close : t->count;
}

/* "turkey (the dark meat one)", "cabbage (the pointed sort)": what stands between. */
static bool the_one(struct post_reader *r, const struct tokens *t, struct span text, size_t open, size_t close, struct span *out) {
  if (!says(t, open + 1, "the") || close < open + 4 || close > open + 6 || !says(t, close - 1, "one ones sort kind type stuff variety")) return false;
  *out = cut(r, t, text, close - 1, close, "");
  *out = post_cut_out(r, *out, out->p + (token_begin(t, open + 1) - text.p), out->p + (token_end(t, open + 1) - text.p), "");
  return true;
}

/* "rice (30 g dry, cooked it's 80)", "barley (30 g raw)": in which state the amount before the bracket was weighed; NULL. */
static const char *state_weighed(const struct tokens *t, size_t open, size_t close, const struct post_amount *outer) {
  const char *of_outer = NULL;
  bool other = false;
  for (size_t i = open + 1; i < close; i++) {
    bool dry = says(t, i, "dry raw uncooked before"), cooked = says(t, i, "cooked boiled makes gives after");
    if (!dry && !cooked) continue;
    for (size_t k = i > open + 3 ? i - 3 : open + 1; k < close && k < i + 4; k++) { /* its figure stands beside it */
      if (!is_number(t, k)) continue;
      struct post_amount a = post_amount_at(t, k);
      bool same = a.tokens > 0 && a.low == outer->low && (a.bare || strcmp(a.unit, outer->unit) == 0);
      bool mark = false;
      for (size_t m = k < i ? k : i; m < (k < i ? i : k); m++) mark = mark || is_mark(t, m, ',') || is_mark(t, m, ';');
      if (mark || a.tokens == 0) continue;
      if (same)
        of_outer = dry ? "uncooked" : "cooked";
      else if (a.is_mass || a.bare)
        other = true, of_outer = of_outer ? of_outer : dry ? "cooked" : "uncooked";
    }
  }
  return other ? of_outer : NULL;
}

static bool two_weights(struct post_reader *r, const struct tokens *t, struct span text, size_t open, size_t close,
                        struct span *out) {
  enum { FAR = 6 };
  for (size_t back = 2; back <= FAR && back <= open; back++) {
    struct post_amount a = post_amount_at(t, open - back);
    if (!a.is_mass || a.low != a.high || open - back + a.tokens > open) continue;
    const char *state = state_weighed(t, open, close, &a);
    if (!state) return false;
    struct buf b;
    buf_init(&b, r->arena, 30);
    buf_addf(&b, ", %s", state);
    *out = cut(r, t, text, open, close + 1, buf_text(&b));
    return true;
  }
  return false;
}

/* "ground rabbit (bones and organs in it)", "with bones and organs": minced with its bone. */
static bool bones_and_organs(struct post_reader *r, const struct tokens *t, struct span text, size_t open, size_t close,
                             struct span *out) {
  bool bone = false, flesh = false;
  for (size_t i = open + 1; i < close; i++) {
    bone = bone || says(t, i, "bone bones");
    if (t->item[i].kind == TOKEN_MARK ? !is_mark(t, i, ',') && !is_mark(t, i, '&') && !is_mark(t, i, '+')
                                      : !says_a(t, i, CLASS_OF_WHOLE_PREY))
      return false;
  }
  for (size_t i = open > 8 ? open - 8 : 0; i < open; i++) flesh = flesh || says_a(t, i, CLASS_MINCED);
  if (!bone || !flesh) return false;
  *out = cut(r, t, text, open, close + 1, "with bone");
  return true;
}

/* Nothing but digits and a stroke. */
static bool is_amount_like(struct span s) {
  for (size_t i = 0; i < s.n; i++)
    if (!memchr("0123456789/ ", s.p[i], 12)) return false;
  return true;
}

/* "60 g of peas and carrots (30 each)", "(half each)", "(30/30)": equal parts. */
static bool parts_in_bracket(struct post_reader *r, const struct tokens *t, struct span text, size_t open, size_t close,
                             struct span *out) {
  enum { FOODS = 4, FAR = 9 };
  struct span food[FOODS];
  for (size_t back = 3; back <= FAR && back <= open; back++) {
    struct post_amount a = post_amount_at(t, open - back);
    size_t from = open - back + a.tokens;
    if (!a.is_mass || a.low != a.high || from >= open) continue;
    if (says(t, from, "of")) from++;
    size_t n = post_foods_listed(r, t, from, open, food);
    if (n < 2 || n > FOODS) continue;
    bool even = says(t, open + 1, "half equal") || says(t, close - 1, "each");
    for (size_t i = open + 1; i < close && even; i++) {
      struct post_amount one = is_number(t, i) ? post_amount_at(t, i) : (struct post_amount){0};
      if (one.tokens > 0 && fabs(one.low * (double)n - a.low) > 0.02 * a.low && one.low >= 1) even = false;
    }
    struct span said = tokens_span(t, open + 1, close - open - 1); /* "(30/30)" */
    const char *slash = memchr(said.p, '/', said.n);
    size_t front = slash ? (size_t)(slash - said.p) : 0;
    bool pair = n == 2 && front > 0 && span_eq(span_cut(said, 0, front), span_cut(said, front + 1, said.n)) && is_amount_like(said);
    if (!even && !pair) continue;
    struct buf b;
    buf_init(&b, r->arena, 2 * text.n + 100);
    struct post_amount part = a;
    part.low = part.high = a.low / (double)n;
    for (size_t k = 0; k < n; k++) {
      if (k > 0) buf_adds(&b, ", ");
      amount_write(&b, &part, 1);
      buf_addf(&b, " %.*s", SPAN_ARG(food[k]));
    }
    *out = cut(r, t, text, open - back, close + 1, buf_text(&b));
    return true;
  }
  return false;
}

static bool bracket(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t open = 1; open + 1 < t->count; open++) {
    size_t close = is_mark(t, open, '(') ? close_of(t, open) : t->count;
    if (close == t->count || close == open + 1) continue;
    if (the_one(r, t, text, open, close, out) || two_weights(r, t, text, open, close, out) ||
        bones_and_organs(r, t, text, open, close, out) || parts_in_bracket(r, t, text, open, close, out))
      return true;
  }
  return false;
}

/* Worth the look: most sentences say none of it. */
static bool may_be_plainer(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (is_mark(t, i, '(') || says_a(t, i, CLASS_ROUNDABOUT) || (i > 0 && is_participle(t, i) && i + 1 < t->count)) return true;
  return false;
}

bool post_plainly_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  return may_be_plainer(t) &&
         (shape_of_weight(r, t, text, out) || joined_participles(r, t, text, out) || counted_behind(r, t, text, out) ||
          amount_of_it(r, t, text, out) || days_behind_food(r, t, text, out) || and_another(r, t, text, out) || article_of_day(r, t, text, out) ||
          same_weight(r, t, text, out) || weighed_swap(r, t, text, out) || bracket(r, t, text, out));
}
