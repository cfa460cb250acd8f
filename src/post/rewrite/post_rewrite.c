/* Sentences that say one thing of several foods, written out food by food: "75 g each of beef and lamb", "peas and carrots,
 * 50 g each", "one day 300 g beef, the next 300 g cod", "a quarter of a 400 g tin", "240 g of it". */
#include "base/num.h"
#include "post/rewrite/post_rewrite.h"

enum { LISTED_MOST = 8 };

static bool ends_list(const struct tokens *t, size_t at) {
  if (t->item[at].kind == TOKEN_MARK)
    return strchr(";.!?()", (int)(t->item[at].mark & 127)) != NULL && t->item[at].mark < 128;
  return frequency_at(t, at).tokens > 0 || token_is_a(&t->item[at], CLASS_CLAUSE_OPENER) || says_a(t, at, CLASS_ENDS_LIST);
}

static struct span written_out(struct post_reader *r, struct span text, struct span amount, const struct span *food,
                               size_t n, struct span replaced, const char *behind) {
  struct buf b;
  buf_init(&b, r->keep, text.n + n * (amount.n + 24) + 64);
  buf_add(&b, (struct span){text.p, (size_t)(replaced.p - text.p)});
  for (size_t i = 0; i < n; i++)
    buf_addf(&b, "%s%.*s %.*s%s", i > 0 ? ", " : "", SPAN_ARG(amount), SPAN_ARG(food[i]), behind);
  const char *rest = replaced.p + replaced.n;
  buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
  return buf_span(&b);
}

/* "75 g each of beef and lamb", "100 g each: carrots, peas, rice", "a teaspoon each of X and Y" */
static bool each_of(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  struct span food[LISTED_MOST];
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0) continue;
    size_t each = i + a.tokens;
    bool says_each =
        says(t, each, "each") && (says(t, each + 1, "of") || is_mark(t, each + 1, ':') || is_mark(t, each + 1, '-'));
    bool of_each = says(t, each, "of") && says(t, each + 1, "each") && is_mark(t, each + 2, ':');
    bool listed = says(t, each, "each") && post_mention_at(r, t, each + 1) > 0; /* "30 g each carrot, kale and peas" */
    if (a.is_percent || (!says_each && !of_each && !listed)) {
      i += a.tokens - 1;
      continue;
    }
    size_t from = each + (of_each ? 3 : says_each ? 2 : 1), to = from;
    for (; to < t->count && !ends_list(t, to); to++) {
      struct post_amount next = post_amount_at(t, to);
      if (next.is_mass || next.is_volume) break;
    }
    while (to > from && (t->item[to - 1].kind == TOKEN_MARK || says(t, to - 1, "and plus"))) to--;
    size_t n = post_foods_listed(r, t, from, to, food);
    if (n < 2) return false;
    const char *often = to < t->count && frequency_at(t, to).tokens > 0
                            ? arena_text(r->arena, tokens_span(t, to, frequency_at(t, to).tokens))
                            : "";
    struct buf behind;
    buf_init(&behind, r->arena, 100);
    buf_addf(&behind, "%s%s", often[0] ? " " : "", often);
    size_t end = to + (often[0] ? frequency_at(t, to).tokens : 0);
    *out = written_out(r, text, tokens_span(t, i, a.tokens), food, n, tokens_span(t, i, end - i), buf_text(&behind));
    return true;
  }
  return false;
}

/* "Peas, carrots and rice, 50 g each" */
static bool behind_each(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  struct span food[LISTED_MOST];
  for (size_t i = 1; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    size_t each = i + a.tokens;
    bool suits =
        (a.is_mass || a.is_volume) && says(t, each, "each apiece") && !says_a(t, each + 1, CLASS_BEHIND_EACH_OF_TIME);
    if (!suits) {
      if (a.tokens > 0) i += a.tokens - 1;
      continue;
    }
    size_t to = i;
    while (to > 0 && (t->item[to - 1].kind == TOKEN_MARK || says(t, to - 1, "at about"))) to--;
    for (size_t from = 0; from < to; from++) {
      bool begins = from == 0 || is_mark(t, from - 1, ':') || is_mark(t, from - 1, ';') || is_mark(t, from - 1, '.') ||
                    is_mark(t, from - 1, '(') || says_a(t, from - 1, CLASS_BEFORE_LIST);
      size_t n = begins ? post_foods_listed(r, t, from, to, food) : 0;
      if (n < 2) continue;
      *out = written_out(r, text, tokens_span(t, i, a.tokens), food, n, tokens_span(t, from, each + 1 - from), "");
      return true;
    }
    return false;
  }
  return false;
}

/* Where the second of two turns begins ("the next day", "even days"), and how long it is. */
static size_t second_turn(const struct tokens *t, size_t from, bool odd, size_t *used) {
  for (size_t i = from; i < t->count; i++)
    if ((*used = phrase_of(t, i, odd ? CLASS_EVEN_TURN : CLASS_SECOND_TURN)) > 0) return i;
  return t->count;
}

/* "500 g of turkey a day" of every other week: that it is daily goes without saying. */
static struct span without_daily(struct span s) {
  static const char *const DAILY[] = {" a day", " per day", " daily", " each day", " every day", "/day"};
  for (size_t i = 0; i < COUNT_OF(DAILY); i++) {
    size_t n = strlen(DAILY[i]);
    if (s.n > n && span_is_fold(span_cut(s, s.n - n, s.n), DAILY[i])) s.n -= n;
  }
  return s;
}

/* "100 g of venison one week and 100 g of duck the next": the turns stand behind their foods. */
static bool turns_behind(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 1; i < t->count; i++) {
    size_t first = phrase_of(t, i, CLASS_FIRST_TURN_BEHIND), next = 0, used = 0;
    if (first == 0 || !post_any_amount(&(struct tokens){t->item, i}, 0)) continue;
    for (size_t m = i + first; m < t->count && used == 0; m++) used = phrase_of(t, next = m, CLASS_SECOND_TURN_BEHIND);
    if (used == 0 || !post_any_amount(&(struct tokens){t->item, next}, i + first)) return false;
    struct buf b;
    buf_init(&b, r->keep, text.n + 60);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[i].at.p - text.p)});
    buf_adds(&b, "every other day");
    const char *mid = t->item[i + first - 1].at.p + t->item[i + first - 1].at.n;
    struct span between = {mid, (size_t)(t->item[next].at.p - mid)};
    while (between.n > 0 && memchr(" ,;", between.p[between.n - 1], 3)) between.n--;
    buf_addf(&b, "%.*s, every other day", SPAN_ARG(without_daily(between)));
    const char *rest = t->item[next + used - 1].at.p + t->item[next + used - 1].at.n;
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}

/* "300 g of beef with 100 g of pasta": the days behind each of them. */
static void add_with_days(struct post_reader *r, struct buf *b, struct span said, const char *days) {
  struct tokens t = post_tokens(r, said);
  const char *from = said.p;
  for (size_t i = 1; i + 1 < t.count; i++) {
    bool joins = says(&t, i, "with and plus") || is_mark(&t, i, ',') || is_mark(&t, i, '+') || is_mark(&t, i, '&');
    struct post_amount a = joins ? post_amount_at(&t, i + 1) : (struct post_amount){0};
    if (a.tokens == 0 || a.by_word || !post_any_amount(&(struct tokens){t.item, i}, 0)) continue;
    buf_addf(b, "%.*s %s, ", (int)(token_end(&t, i - 1) - from), from, days);
    from = token_begin(&t, i + 1);
  }
  buf_addf(b, "%.*s %s", (int)(said.p + said.n - from), from, days);
}

/* "One day 300 g beef, the next 300 g cod": every other day each. */
static bool by_turns(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_TURNS_BETWEEN), amid = i + used;
    size_t turn = is_mark(t, amid, ':') ? amid + 1 : amid;
    if (used == 0 || phrase_of(t, turn, CLASS_FIRST_TURN) > 0) continue; /* "I alternate: one day ..." */
    while (amid < t->count && !says(t, amid, "and with")) amid++;
    size_t end = amid + 1;
    while (end < t->count && t->item[end].kind != TOKEN_MARK) end++;
    if (amid + 1 >= t->count || !post_any_amount(&(struct tokens){t->item, amid}, i + used) || !post_any_amount(t, amid + 1))
      return false;
    struct buf w;
    buf_init(&w, r->keep, text.n + 80);
    buf_add(&w, (struct span){text.p, (size_t)(t->item[i].at.p - text.p)});
    buf_addf(&w, "%.*s every other day, %.*s every other day", SPAN_ARG(tokens_span(t, i + used, amid - i - used)),
             SPAN_ARG(tokens_span(t, amid + 1, end - amid - 1)));
    if (end < t->count) buf_add(&w, (struct span){t->item[end].at.p, (size_t)(text.p + text.n - t->item[end].at.p)});
    *out = buf_span(&w);
    return true;
  }
  for (size_t i = 0; i < t->count; i++) {
    const char *days;
    size_t first = meaning_at(t, i, CLASS_FIRST_TURN, &days), used = 0;
    if (first == 0) continue;
    bool odd = strcmp(days, "odd") == 0;
    size_t second = second_turn(t, i + first, odd, &used);
    if (second >= t->count || second + used >= t->count) return false;
    struct span a = tokens_span(t, i + first, second - i - first),
                b = tokens_span(t, second + used, t->count - second - used);
    while (a.n > 0 && memchr(" ,:;-", a.p[a.n - 1], 5)) a.n--;
    if (a.n > 4 && span_is_fold(span_cut(a, a.n - 4, a.n), " and")) a.n -= 4;
    while (a.n > 0 && memchr(" ,:;-", a.p[a.n - 1], 5)) a.n--;
    while (a.n > 0 && memchr(" ,:;-", a.p[0], 5)) a = span_cut(a, 1, a.n);
    while (b.n > 0 && memchr(" ,:;-", b.p[0], 5)) b = span_cut(b, 1, b.n);
    while (b.n > 0 && memchr(" .,;!", b.p[b.n - 1], 5)) b.n--;
    a = without_daily(a);
    b = without_daily(b);
    if (a.n < 4 || b.n < 4) return false;
    struct buf w;
    buf_init(&w, r->keep, 4 * text.n + 80);
    size_t label = i > 1 && (is_mark(t, i - 1, ':') || is_mark(t, i - 1, '-')) ? i - 1 : i; /* "I alternate: ..." */
    while (label < i && label > 0 && says(t, label - 1, "i we alternate alternating rotate rotating swap")) label--;
    const char *begin = t->item[label < i && !is_mark(t, label, ':') ? label : i].at.p;
    buf_add(&w, (struct span){text.p, (size_t)(begin - text.p)});
    add_with_days(r, &w, a, "every other day");
    buf_adds(&w, ", ");
    add_with_days(r, &w, b, "every other day");
    *out = buf_span(&w);
    return true;
  }
  return false;
}

/* "a quarter of a 400 g tin" is 100 g. */
static bool part_of_pack(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i < t->count; i++) {
    double part = 0;
    size_t used = post_part_at(t, i, &part);
    if (used == 0 && says(t, i, "quarter third")) part = says(t, i, "third") ? 1.0 / 3 : 0.25, used = 1;
    struct quantity q = quantity_at(t, i);
    if (used == 0 && q.fault == QUANTITY_FINE && q.low == q.high && q.low < 1 && q.low > 0) part = q.low, used = q.tokens;
    if (used == 0 || !says(t, i + used, "of") || !says(t, i + used + 1, "a an the one my")) continue;
    size_t pack = i + used + 2;
    struct post_amount a = pack < t->count && is_number(t, pack) ? post_amount_at(t, pack) : (struct post_amount){0};
    if (!(a.is_mass || a.is_volume) || a.low != a.high) continue;
    struct buf b;
    buf_init(&b, r->keep, text.n + 60);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[i].at.p - text.p)});
    num_sig(&b, part * a.low, 4);
    size_t behind = pack + a.tokens;
    buf_addf(&b, " %s", a.unit);
    if (says_a(t, behind, CLASS_PACK)) behind++;
    const char *rest = behind < t->count ? t->item[behind].at.p : text.p + text.n;
    buf_addf(&b, "%s", behind < t->count && t->item[behind].kind != TOKEN_MARK ? " " : "");
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}

/* "240 g of it a day": the food that was named last, where one food alone was. */
static bool of_it(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  if (r->last_named.n == 0 || r->named_in_sentence > 1) return false;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0) continue;
    size_t of = i + a.tokens;
    bool it = (a.is_mass || a.is_volume || a.unit[0]) && says(t, of, "of") && says(t, of + 1, "it them this that those") &&
              (of + 2 >= t->count || t->item[of + 2].kind == TOKEN_MARK || frequency_at(t, of + 2).tokens > 0 ||
               says(t, of + 2, "in at with and every each"));
    for (size_t k = 0; it && k < i; k++) it = post_mention_at(r, t, k) == 0;
    if (it) {
      struct buf b;
      buf_init(&b, r->keep, text.n + r->last_named.n + 8);
      buf_add(&b, (struct span){text.p, (size_t)(t->item[of + 1].at.p - text.p)});
      buf_add(&b, r->last_named);
      const char *rest = t->item[of + 1].at.p + t->item[of + 1].at.n;
      buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
      *out = buf_span(&b);
      return true;
    }
    i += a.tokens - 1;
  }
  return false;
}

/* The food of the amount before 'at', with its words: "pork mince"; "" none. */
static struct span food_before(struct post_reader *r, const struct tokens *t, size_t at) {
  struct span food = {"", 0};
  for (size_t i = 0; i < at; i++) {
    struct post_amount a = post_amount_at(t, i);
    size_t from = i + a.tokens, to;
    if (a.tokens == 0 || a.bare) continue;
    if (says(t, from, "of")) from++;
    for (to = from; to < at && is_word(t, to) && !token_is_a(&t->item[to], CLASS_MEAL) && frequency_at(t, to).tokens == 0 &&
                    !says_a(t, to, CLASS_ENDS_FOOD_BEFORE);
         to++) {
    }
    bool named = false;
    for (size_t k = from; k < to; k++) named = named || post_mention_at(r, t, k) > 0;
    if (named) food = tokens_span(t, from, to - from);
    i = to > i ? to - 1 : i;
  }
  return food;
}

/* "90 g of pork mince in the morning and 110 g of the same in the eve", "50 g duck at 7 am, then 50 g again at 6" */
static bool of_the_same(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0) continue;
    size_t at = i + a.tokens, from = at;
    if (says(t, at, "of")) at++;
    if (says(t, at, "the")) at++;
    bool same = says(t, at, "same") || (at == from && says(t, at, "again") && !a.bare);
    if (says_a(t, at + 1, CLASS_THE_SAME_THING)) at += says(t, at, "same");
    if (!same || a.is_percent) {
      i += a.tokens - 1;
      continue;
    }
    struct span food = food_before(r, t, i);
    if (food.n == 0 && r->last_named.n > 0 && r->named_in_sentence <= 1) food = r->last_named;
    if (food.n == 0 && r->first_named.n > 0) food = r->first_named;
    if (food.n == 0) return false;
    struct buf b;
    buf_init(&b, r->keep, text.n + food.n + 8);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[from].at.p - text.p)});
    buf_add(&b, food);
    const char *rest = t->item[at].at.p + t->item[at].at.n;
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}

static void remember_named(struct post_reader *r, const struct tokens *t) {
  size_t count = 0;
  for (size_t i = 0; i < t->count;) {
    size_t n = post_mention_at(r, t, i);
    if (n > 0) {
      if (count == 0) r->first_named = food_before(r, t, t->count);
      count++;
      r->last_named = tokens_span(t, i, n);
    }
    i += n > 0 ? n : 1;
  }
  if (count > 0) r->named_in_sentence = count;
  if (count > 1) r->first_named = (struct span){"", 0};
}

/* Worth the look: most sentences say none of it. */
static bool may_say_so(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says_a(t, i, CLASS_GOVERNS_OTHERS)) return true;
  return false;
}

/* A pack, a day's amount of many, a food that stays out, bones that are taken out. */
static bool in_fewer_words(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  return post_tersely_written_out(r, t, text, out) || post_said_so_written_out(r, t, text, out) ||
         post_packs_written_out(r, t, text, out) || post_rate_behind(r, t, text, out) || post_taken_out(r, t, text, out) ||
         post_left_out_written_out(r, t, text, out);
}

struct span post_written_out(struct post_reader *r, struct span text) {
  text = post_rate_written_out(r, text);
  struct tokens t = post_tokens(r, text);
  for (size_t i = 0; i < LISTED_MOST && t.count < SENTENCE_MOST_WORDS && in_fewer_words(r, &t, text, &text); i++)
    t = post_tokens(r, text);
  for (int tins = 0; tins < 3 && t.count > 0 && t.count < SENTENCE_MOST_WORDS && post_part_of_tin(r, &t, text, &text);
       tins++)
    t = post_tokens(r, text);
  for (size_t i = 0; i < LISTED_MOST && t.count < SENTENCE_MOST_WORDS && post_plainly_written_out(r, &t, text, &text); i++)
    t = post_tokens(r, text);
  for (size_t i = 0; i < LISTED_MOST && t.count < SENTENCE_MOST_WORDS && post_kind_in_bracket(r, &t, text, &text); i++)
    t = post_tokens(r, text); /* one bracket a time */
  if (t.count < SENTENCE_MOST_WORDS && post_except_days(r, &t, text, &text)) t = post_tokens(r, text);
  struct span out = text;
  for (int pills = 0; pills < 3 && t.count < SENTENCE_MOST_WORDS && post_part_of_pill(r, &t, text, &out); pills++)
    text = out, t = post_tokens(r, text);
  for (int vitamin = 0; vitamin < 3 && t.count < SENTENCE_MOST_WORDS; vitamin++) {
    if (!post_vitamin_written_out(r, &t, text, &out)) break;
    text = out;
    t = post_tokens(r, text);
  }
  if (t.count < SENTENCE_MOST_WORDS && post_swapped_written_out(r, &t, text, &out)) {
    text = out;
    t = post_tokens(r, text);
  }
  for (int change = 0; change < 4 && t.count > 0 && t.count < SENTENCE_MOST_WORDS; change++) {
    if (!post_change_written_out(r, &t, text, &out)) break;
    text = out;
    t = post_tokens(r, text);
  }
  for (int nested = 0; nested < 4 && t.count > 0 && t.count < SENTENCE_MOST_WORDS; nested++) {
    if (!post_nested_written_out(r, &t, text, &out)) break;
    text = out;
    t = post_tokens(r, text);
  }
  bool done = t.count > 0 && t.count < SENTENCE_MOST_WORDS && post_turns_written_out(r, &t, text, &out);
  for (int choice = 0; choice < 3 && !done && t.count > 0 && t.count < SENTENCE_MOST_WORDS; choice++) {
    if (!post_choice_written_out(r, &t, text, &out)) break;
    text = out;
    t = post_tokens(r, text);
  }
  for (int either = 0; either < 3 && !done && t.count > 0 && t.count < SENTENCE_MOST_WORDS; either++) {
    if (!post_either_written_out(r, &t, text, &out)) break;
    text = out;
    t = post_tokens(r, text);
  }
  done = done || (t.count > 0 && t.count < SENTENCE_MOST_WORDS && may_say_so(&t) &&
                  (turns_behind(r, &t, text, &out) || by_turns(r, &t, text, &out) || each_of(r, &t, text, &out) ||
                   behind_each(r, &t, text, &out) || part_of_pack(r, &t, text, &out) || of_the_same(r, &t, text, &out) ||
                   of_it(r, &t, text, &out)));
  done = done || (t.count > 0 && t.count < SENTENCE_MOST_WORDS && post_ratio_written_out(r, &t, text, &out));
  remember_named(r, &t);
  return done ? out : text;
}
