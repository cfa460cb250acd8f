/* Days that refer to other days: "Mon chicken 250 g" down the lines, "every day except Sunday: ...", "Sun: half of that",
 * "two meals of 110 g mince each", "Weekend: 300 g turkey each day". */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

static const char *begin_of(const struct tokens *t, size_t at) { return t->item[at].at.p; }
static const char *end_of(const struct tokens *t, size_t at) { return t->item[at].at.p + t->item[at].at.n; }
static const char *text_end(const struct tokens *t) { return end_of(t, t->count - 1); }

/* "Mon-Fri" is one word: the days of it; 0 tokens where it is none. */
static size_t days_joined(const struct tokens *t, size_t at, unsigned *days) {
  if (!is_word(t, at)) return 0;
  struct span word = t->item[at].word;
  const char *hyphen = memchr(word.p, '-', word.n);
  if (!hyphen) return 0;
  struct span first = {word.p, (size_t)(hyphen - word.p)}, last = {hyphen + 1, word.n - first.n - 1};
  const char *a = means_as(first, CLASS_DAY_OF_WEEK), *b = means_as(last, CLASS_DAY_OF_WEEK);
  if (!a || !b) return 0;
  *days = 1u << (b[0] - '1');
  for (int d = a[0] - '1'; d != b[0] - '1'; d = (d + 1) % 7) *days |= 1u << d;
  return 1;
}

/* The days at the start of a sentence: the tokens to behind them; 0. */
static size_t days_first(const struct tokens *t, unsigned *days) {
  size_t at = says(t, 0, "on from every each") ? 1 : 0;
  if (says(t, at, "the")) at++;
  size_t used = post_days_named(t, at, days);
  if (used == 0) used = days_joined(t, at, days);
  return used > 0 ? at + used : 0;
}

static struct span cut_between(struct story *st, const struct tokens *t, const char *from, const char *to,
                               const char *instead) {
  const char *begin = begin_of(t, 0), *end = text_end(t);
  return post_cut_out(st->r, (struct span){begin, (size_t)(end - begin)}, from, to, instead);
}

static void write_span(struct story *st, size_t i, struct span text) { refer_write(st, i, arena_text(st->r->keep, text)); }

/* ---- "Mon chicken 250g" ---- */

/* A line that begins with days and goes on with words or an amount, without a mark between: where it goes on; 0. */
static size_t bare_day_line(const struct story *st, size_t i, unsigned *days) {
  const struct tokens *t = &st->s[i].t;
  bool first = i == 0 || st->s[i - 1].line != st->s[i].line;
  size_t used = first && t->count > 1 && !says(t, 0, "on from every each") ? post_days_named(t, 0, days) : 0;
  if (used == 0 || used >= t->count || says(t, used, "same as like ditto likewise to till until")) return 0;
  return t->item[used].kind == TOKEN_MARK ? 0 : used;
}

static void colons_behind_days(struct story *st) {
  enum { ENOUGH = 3 };
  unsigned seen = 0, days;
  size_t lines = 0;
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    size_t used = post_days_named(t, 0, &days); /* "Wed same as Mon" is such a line as well */
    bool line = bare_day_line(st, i, &days) > 0 || (used > 0 && says(t, used, "same as like ditto likewise"));
    if (line && (days & seen) == 0) seen |= days, lines++;
  }
  for (size_t i = 0; lines >= ENOUGH && i < st->count; i++) {
    size_t used = bare_day_line(st, i, &days);
    if (used == 0) continue;
    const struct tokens *t = &st->s[i].t;
    write_span(st, i, cut_between(st, t, end_of(t, used - 1), begin_of(t, used), ": "));
  }
}

/* ---- "every day except Sunday: ..." ---- */

/* "all days", "the same on all seven days": every day. */
static void all_days(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 1 < t->count; k++) {
    size_t days = k + 1;
    if (!says(t, k, "all")) continue;
    if (says(t, days, "the seven")) days++;
    if (says(t, days, "7") || is_number(t, days)) days++;
    if (!says(t, days, "days") || says(t, days + 1, "of long")) continue;
    size_t from = k > 0 && says(t, k - 1, "on for") ? k - 1 : k;
    if (from > 0 && says(t, from - 1, "same equal")) from--;
    if (from > 0 && says(t, from - 1, "the") && says(t, from, "same")) from--;
    write_span(st, i, cut_between(st, t, begin_of(t, from), end_of(t, days), "every day"));
    return;
  }
}

/* "Every day but Monday and Thursday: 10 g of liver" */
static void except_first(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  size_t at = says(t, 0, "on") ? 1 : 0;
  unsigned days;
  if (says(t, at, "every each all any") && says(t, at + 1, "day days"))
    at += 2;
  else if (says(t, at, "daily"))
    at++;
  else
    return;
  bool bracket = is_mark(t, at, '(');
  if (bracket || is_mark(t, at, ',') || is_mark(t, at, '-')) at++;
  size_t but = phrase_of(t, at, CLASS_EXCEPT_DAYS);
  if (but == 0 && says(t, at, "but save besides")) but = 1;
  if (but == 0) return;
  at += but;
  while (says(t, at, "for on the his her")) at++;
  size_t used = post_days_named(t, at, &days);
  if (used == 0 || days == 0x7F) return;
  at += used;
  if (bracket && is_mark(t, at, ')')) at++;
  if (at >= t->count || !post_any_amount(t, at)) return;
  struct buf b;
  buf_init(&b, st->r->arena, REFER_MOST_BYTES);
  buf_adds(&b, "On ");
  frequency_print_days(&b, 0x7FU & ~days);
  if (!is_mark(t, at, ':') && !is_mark(t, at, '-')) buf_addc(&b, ':');
  if (t->item[at].kind != TOKEN_MARK) buf_addc(&b, ' ');
  while (is_mark(t, at, ',')) at++;
  write_span(st, i, cut_between(st, t, begin_of(t, 0), begin_of(t, at), buf_text(&b)));
}

/* "..., Sunday is a fasting day" is a sentence of its own. */
static void fasting_apart(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  unsigned days;
  for (size_t k = 1; k + 1 < t->count; k++) {
    size_t from = k + 1;
    if (!is_mark(t, k, ',') && !is_mark(t, k, ';') && !says(t, k, "and")) continue;
    if (says(t, from, "and on")) from++;
    size_t used = post_days_named(t, from, &days);
    if (used == 0 || !holds_a(t, from + used, t->count, CLASS_FASTING) || post_any_amount(t, from + used)) continue;
    write_span(st, i, cut_between(st, t, begin_of(t, k), begin_of(t, k + 1), "\x1F"));
    return;
  }
}

/* ---- "2 meals of 110 g of mince each" ---- */

static void meals_of(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 3 < t->count; k++) {
    struct quantity q = quantity_at(t, k);
    size_t at = k + q.tokens;
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < 2 || q.low > 6 || !says(t, at, "meals feeds feedings"))
      continue;
    at++;
    size_t often = at < t->count ? frequency_at(t, at).tokens : 0;
    if (often > 0 && (frequency_at(t, at).times_per_28 != CALENDAR_DAYS || frequency_at(t, at).feedings > 1)) continue;
    at += often;
    double grams;
    size_t weight = says(t, at, "of") ? refer_grams(t, at + 1, &grams) : 0, food = at + 1 + weight;
    if (says(t, food, "of")) food++;
    if (weight == 0 || post_food_end(st->r, t, food) == food) continue;
    size_t to = at + 1;
    while (to < t->count && !says(t, to, "each apiece") && !is_mark(t, to, ';') && !is_mark(t, to, '.')) to++;
    bool each = says(t, to, "each apiece");
    for (size_t m = at + 1; m < to; m++)
      if (frequency_at(t, m).tokens > 0) return;
    struct buf b;
    buf_init(&b, st->r->arena, REFER_MOST_BYTES);
    refer_scaled(&b, t, at + 1, to, q.low);
    const char *end = end_of(t, each ? to : to - 1);
    if (!each) {
      struct buf note;
      buf_init(&note, st->r->keep, 100);
      num_sig(&note, q.low, 2);
      buf_adds(&note, " times a day what the post gives for a meal");
      refer_beside(st, i, tokens_span(t, food, to - food), buf_text(&note));
    }
    write_span(st, i, cut_between(st, t, begin_of(t, k), end, buf_text(&b)));
    return;
  }
}

/* ---- days, and "daily" of them ---- */

/* "on Saturdays", "at the weekend", "from Monday to Friday": the tokens to behind the days; 0. */
static size_t days_at(const struct tokens *t, size_t at, unsigned *days) {
  size_t from = at;
  if (says(t, at, "on from at over every each")) at++;
  if (says(t, at, "the")) at++;
  size_t used = post_days_named(t, at, days);
  if (used == 0) used = days_joined(t, at, days);
  return used > 0 ? at + used - from : 0;
}

static bool is_daily(const struct tokens *t, size_t at, size_t *used) {
  struct frequency f = frequency_at(t, at);
  *used = f.tokens;
  return f.tokens > 0 && f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal && !f.refuse;
}

/* Food for more than a day, or a part of something: "On Sundays I cook 5 kg of beef and she eats 400 g a day". */
static bool is_made_for_later(const struct tokens *t, size_t from) {
  static const double MOST_OF_A_DAY_G = 1500;
  for (size_t k = from; k < t->count; k++) {
    struct post_amount a = post_amount_at(t, k);
    bool much = a.is_mass && a.low == a.high && post_in_grams(&a) > MOST_OF_A_DAY_G;
    if (much || says_a(t, k, CLASS_MADE_FOR_LATER) || (says(t, k, "of") && says(t, k + 1, "it that this them"))) return true;
  }
  return false;
}

/* The foods of [from, to), which begins with 'days' tokens of days, without "daily"; what stands between the days and the
 * food is a sentence of its own. */
static void write_days(struct story *st, struct buf *b, const struct tokens *t, size_t from, size_t days, size_t to) {
  size_t used = from + days, food = used, skip = says(t, from, "from on at over") ? 1 : 0, daily;
  if (says(t, from + skip, "the")) skip++;
  while (food < to && !is_mark(t, food, ':') && post_amount_at(t, food).tokens == 0) food++;
  bool told = food > used && food < to && is_word(t, used);
  for (size_t k = used; k < food; k++) told = told && post_mention_at(st->r, t, k) == 0;
  if (told) {
    size_t end = food;
    while (end > used && (says(t, end - 1, "and eats gets has is it's") || is_mark(t, end - 1, ','))) end--;
    bool somebody = end == used + 1 && says(t, used, "he she it they we i");
    if (end > used && !somebody) buf_addf(b, "%.*s\x1F", SPAN_ARG(tokens_span(t, used, end - used)));
  } else {
    food = used;
  }
  buf_addf(b, "%.*s: ", SPAN_ARG(tokens_span(t, from + skip, days - skip)));
  while (food < to && (is_mark(t, food, ':') || is_mark(t, food, '-') || is_mark(t, food, ','))) food++;
  if (food >= to) return;
  const char *at = begin_of(t, food);
  for (size_t k = food; k < to; k++) {
    if (!is_daily(t, k, &daily)) continue;
    struct span before = trim_blanks((struct span){at, (size_t)(begin_of(t, k) - at)});
    buf_add(b, before);
    k += daily - 1;
    at = end_of(t, k);
  }
  const char *end = end_of(t, to - 1);
  if (end > at) buf_add(b, (struct span){at, (size_t)(end - at)});
}

/* "Weekend: 300 g turkey each day", "From Monday to Thursday she is with me: 200 g lamb, 80 g rice daily", "Monday to Friday
 * 200 g beef and 50 g peas daily, at the weekend 180 g cod a day": on each of these days. */
static void daily_of_days(struct story *st, size_t i) {
  enum { SPANS_MOST = 5 };
  const struct tokens *t = &st->s[i].t;
  size_t begin[SPANS_MOST + 1], length[SPANS_MOST], spans = 0, daily = 0, used;
  unsigned days;
  length[0] = days_at(t, 0, &days);
  if (length[0] == 0 || !post_any_amount(t, length[0]) || holds_a(t, 0, t->count, CLASS_EXCEPT_DAYS) ||
      is_made_for_later(t, length[0]))
    return;
  double grams;
  bool food = post_names_food(st->r, t, length[0], t->count);
  for (size_t k = length[0]; k < t->count; k++) food = food || refer_grams(t, k, &grams) > 0;
  if (!food) return; /* "Sundays: rate 2 per day" */
  begin[spans++] = 0;
  for (size_t k = length[0]; k < t->count; k++) {
    daily += is_daily(t, k, &used);
    size_t own = days_at(t, k, &days);
    if (own == 0) continue;
    bool apart = is_mark(t, k - 1, ',') || is_mark(t, k - 1, ';') || says(t, k - 1, "and but then");
    if (!apart || spans == SPANS_MOST || !post_any_amount(t, k + own)) return;
    begin[spans] = k;
    length[spans++] = own;
    k += own - 1;
  }
  begin[spans] = t->count;
  bool colon = false;
  for (size_t k = length[0]; k < t->count; k++) colon = colon || is_mark(t, k, ':');
  if (daily == 0 && !(says(t, 0, "from") && colon && spans == 1)) return;
  struct buf b;
  buf_init(&b, st->r->arena, REFER_MOST_BYTES);
  for (size_t k = 0; k < spans; k++) {
    size_t to = begin[k + 1];
    while (k + 1 < spans && (t->item[to - 1].kind == TOKEN_MARK || says(t, to - 1, "and but then"))) to--;
    if (!post_any_amount(&(struct tokens){t->item, to}, begin[k] + length[k])) return;
    if (k > 0) buf_addc(&b, 0x1F);
    write_days(st, &b, t, begin[k], length[k], to);
  }
  refer_write(st, i, buf_text(&b));
}

/* "From Monday to Friday 200 g": a span of days, and no day on which something begins. */
static void without_from(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 3 < t->count; k++) {
    unsigned days;
    size_t used = says(t, k, "from") ? post_days_named(t, k + 1, &days) : 0, end = k + 1 + used;
    if (used < 3 || !says(t, k + 2, "to till until through thru")) continue;
    if (k > 0 && !is_mark(t, end, ':') && !is_mark(t, end, ',')) continue;
    write_span(st, i, cut_between(st, t, begin_of(t, k), begin_of(t, k + 1), ""));
    return;
  }
}

/* "My husband feeds Monday to Wednesday: 250 g lamb and 80 g rice a day": who feeds is a sentence of its own. */
static void feeder_apart(struct story *st, size_t i) {
  enum { WORDS_MOST = 6 };
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k <= WORDS_MOST && k + 3 < t->count; k++) {
    unsigned days;
    if (!is_word(t, k - 1) || post_amount_at(t, k - 1).tokens > 0 || post_mention_at(st->r, t, k - 1) > 0 ||
        says_a(t, k - 1, CLASS_MADE_FOR_LATER) || (k == 1 && says(t, 0, "on at over from the every each")))
      return;
    size_t used = post_days_named(t, k, &days), end = k + used;
    if (used == 0) continue;
    bool span = used >= 3 && says(t, k + 1, "to till until through thru");
    if (!span || !(is_mark(t, end, ':') || is_mark(t, end, ',')) || !post_any_amount(t, end)) return;
    refer_split(st, i, k);
    return;
  }
}

/* ---- "Sun: half of that" ---- */

/* "Fri: as on Mon-Thu": the days in words that the reader of such lines knows. */
static void as_on_joined_days(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  unsigned days;
  size_t used = days_first(t, &days);
  for (size_t k = used; k < t->count && k < used + 6 && used > 0; k++) {
    if (days_joined(t, k, &days) == 0 || !says(t, k - 1, "as on like")) continue;
    struct buf b;
    buf_init(&b, st->r->arena, REFER_MOST_BYTES);
    const char *hyphen = memchr(t->item[k].at.p, '-', t->item[k].at.n);
    if (!hyphen) return;
    buf_addf(&b, "%.*s to %.*s", (int)(hyphen - t->item[k].at.p), t->item[k].at.p, (int)(end_of(t, k) - hyphen - 1),
             hyphen + 1);
    write_span(st, i, cut_between(st, t, begin_of(t, k), end_of(t, k), buf_text(&b)));
    return;
  }
}

/* "half of that", "double that", "two thirds of that", "twice as much": the part, and how many tokens; 0. */
static size_t part_of_that(const struct tokens *t, size_t at, double *part) {
  size_t used = 0;
  struct quantity q = quantity_at(t, at);
  if (q.fault == QUANTITY_FINE && q.low == q.high && q.low > 0 && q.low <= 4 && says(t, at + q.tokens, "times x"))
    *part = q.low, used = q.tokens + 1; /* "1.5 times that" */
  if (says(t, at, "double twice")) *part = 2, used = 1;
  if (says(t, at, "half")) *part = 0.5, used = 1;
  if (used == 0) used = post_part_at(t, at, part);
  if (used == 0) return 0;
  size_t behind = at + used;
  if (says(t, behind, "of")) behind++;
  if (says(t, behind, "the") && says(t, behind + 1, "amount amounts portion portions")) return behind + 2 - at;
  if (says(t, behind, "as") && says(t, behind + 1, "much")) return behind + 2 - at;
  return says(t, behind, "that this those these it") ? behind + 1 - at : 0;
}

/* "as Monday", "same as on weekdays": the days that it is like; 0 none. */
static unsigned as_on_days(const struct tokens *t, size_t from) {
  unsigned days;
  for (size_t k = from; k + 1 < t->count; k++) {
    size_t at = k + 1;
    if (!says(t, k, "as like")) continue;
    while (says(t, at, "on the")) at++;
    if (post_days_named(t, at, &days) > 0 || days_joined(t, at, &days) > 0) return days;
  }
  return 0;
}

/* The last sentence before 'i' that tells foods on days, or the one that it says is the same; where they begin; st->count
 * none. */
static size_t told_before(struct story *st, size_t i, size_t *food) {
  unsigned like = 0; /* the days that are meant, once a sentence said so */
  for (size_t k = i; k-- > 0;) {
    const struct tokens *t = &st->s[k].t;
    unsigned days;
    size_t used = days_first(t, &days);
    if (used == 0) {
      if (t->count > 0 && post_any_amount(t, 0)) return st->count;
      continue;
    }
    if (like != 0 && (days & like) != like) continue;
    if (!post_any_amount(t, used)) { /* "Sat: as on weekdays" */
      like = as_on_days(t, used);
      if (like == 0) return st->count;
      continue;
    }
    while (is_mark(t, used, ':') || is_mark(t, used, '-') || is_mark(t, used, ',')) used++;
    for (size_t m = used; m < t->count; m++)
      if (frequency_at(t, m).tokens > 0) return st->count;
    *food = used;
    return k;
  }
  return st->count;
}

static void part_of_another_day(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  unsigned days;
  double part = 1;
  size_t used = days_first(t, &days), at = used, food = 0;
  while (is_mark(t, at, ':') || is_mark(t, at, '-') || is_mark(t, at, ',') || says(t, at, "only just he she gets it's is"))
    at++;
  size_t said = used > 0 ? part_of_that(t, at, &part) : 0, behind = at + said;
  if (said == 0 || (behind < t->count && is_word(t, behind) && !says(t, behind, "with plus and but"))) return;
  size_t k = told_before(st, i, &food);
  if (k == st->count) return;
  struct buf b;
  buf_init(&b, st->r->arena, REFER_MOST_BYTES);
  buf_addf(&b, "%.*s: ", SPAN_ARG(tokens_span(t, 0, used)));
  if (refer_scaled(&b, &st->s[k].t, food, st->s[k].t.count, part) == 0) return;
  buf_add(&b, (struct span){end_of(t, behind - 1), (size_t)(text_end(t) - end_of(t, behind - 1))});
  refer_write(st, i, buf_text(&b));
}

/* "From Friday to Sunday: 200 g chicken, no rice": said of a food that other days alone have, it changes nothing. */
static void none_on_these_days(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  unsigned days, others;
  size_t used = days_first(t, &days);
  for (size_t k = used; k + 2 < t->count && used > 0; k++) {
    if (says(t, k, "same as like ditto likewise half double instead")) return;
    if (!is_mark(t, k, ',') || !says(t, k + 1, "no")) continue;
    size_t end = post_food_end(st->r, t, k + 2);
    if (end == k + 2 || (end < t->count && t->item[end].kind != TOKEN_MARK)) continue;
    bool elsewhere = false, here = false;
    for (size_t m = 0; m < st->count; m++) {
      if (m == i || !refer_same_food(tokens_span(t, k + 2, end - k - 2), st->s[m].text)) continue;
      size_t own = days_first(&st->s[m].t, &others);
      elsewhere = elsewhere || (own > 0 && (others & days) == 0);
      here = here || own == 0 || (others & days) != 0;
    }
    if (!elsewhere || here) continue;
    write_span(st, i, cut_between(st, t, begin_of(t, k), end_of(t, end - 1), ""));
    return;
  }
}

void refer_weeks(struct story *st) {
  for (size_t i = 0; i < st->count; i++)
    if (st->s[i].t.count > 4) none_on_these_days(st, i);
  colons_behind_days(st);
  for (size_t i = 0; i < st->count; i++) {
    if (st->s[i].t.count < 2) continue;
    except_first(st, i);
    all_days(st, i);
    fasting_apart(st, i);
    without_from(st, i);
    feeder_apart(st, i);
    meals_of(st, i);
    daily_of_days(st, i);
    as_on_joined_days(st, i);
    part_of_another_day(st, i);
  }
}
