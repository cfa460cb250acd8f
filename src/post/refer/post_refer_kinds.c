/* Days that are told by how many there are, and named by what is fed on them: "four days beef, three days chicken, 130 g
 * either way; on beef days a quail egg", "40 g of tuna but only three evenings, the other four evenings veal", "one Sunday
 * on two"; and weeks by their number: "in week one turkey, in week two rabbit". */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

enum { KINDS_MOST = 6, WEEK = 7 };

static const char *begin_of(const struct tokens *t, size_t at) { return t->item[at].at.p; }
static const char *end_of(const struct tokens *t, size_t at) { return t->item[at].at.p + t->item[at].at.n; }

/* ---- "every other Sunday" ---- */

static bool is_day_of_week(const struct tokens *t, size_t at) { return says_a(t, at, CLASS_DAY_OF_WEEK); }
static bool is_part_of_day(const struct tokens *t, size_t at) {
  return says(t, at, "day night evening morning dinner breakfast");
}

/* "other", "second", "2nd", "third": of how many one is meant; 0. */
static int ordinal_at(const struct tokens *t, size_t at) {
  if (says(t, at, "other second 2nd alternate")) return 2;
  if (says(t, at, "third 3rd")) return 3;
  return says(t, at, "fourth 4th") ? 4 : 0;
}

/* "every other Sunday", "one Sunday on two", "alternate Sundays", "one evening out of three" */
static void one_of_so_many(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 1 < t->count; k++) {
    size_t from = k, day, end;
    double of = 0;
    if (says(t, k, "every each one") && ordinal_at(t, k + 1) > 0) {
      of = ordinal_at(t, k + 1), day = k + 2, end = k + 3;
    } else if (says(t, k, "even odd") && says(t, k + 1, "dates") && !(k > 1 && says(t, k - 1, "or and"))) {
      of = 2, day = k + 1, end = k + 2;
    } else if (says(t, k, "alternate") && !(k > 0 && says(t, k - 1, "the"))) {
      of = 2, day = k + 1, end = k + 2;
    } else if (says(t, k, "one") || (is_number(t, k) && t->item[k].value == 1)) {
      size_t on = k + 2, used;
      if (says(t, on, "out") && says(t, on + 1, "of")) on++;
      struct quantity q = says(t, on, "on in of") ? quantity_at(t, on + 1) : (struct quantity){.fault = QUANTITY_NONE};
      used = q.fault == QUANTITY_FINE && q.low == q.high ? q.tokens : 0;
      if (used == 0 || q.low < 2 || q.low > 4) continue;
      of = q.low, day = k + 1, end = on + 1 + used;
    } else {
      continue;
    }
    bool named = is_day_of_week(t, day);
    if (!named && !is_part_of_day(t, day) && !says(t, day, "dates")) continue;
    if (!named && of == 2 && says(t, k, "every each")) continue; /* as every reader knows it */
    if (from > 0 && says(t, from - 1, "on")) from--;
    struct buf b;
    buf_init(&b, st->r->arena, 60);
    if (named)
      buf_adds(&b, of == 2 ? "once a fortnight" : of == 3 ? "once every 3 weeks" : "once every 4 weeks");
    else
      buf_addf(&b, "every %s day", of == 2 ? "other" : of == 3 ? "third" : "fourth");
    refer_between(st, i, from, end, buf_text(&b));
  }
}

/* "two evenings in the week", "three days of the week" */
static void so_many_in_week(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 3 < t->count; k++) {
    struct quantity q = quantity_at(t, k);
    size_t at = k + q.tokens, week = at + 2;
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < 1 || q.low > 6) continue;
    if (!says(t, at, "days evenings mornings nights dinners breakfasts") || !says(t, at + 1, "in of")) continue;
    if (says(t, week, "the a each every")) week++;
    if (!says(t, week, "week")) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 60);
    num_sig(&b, q.low, 1);
    buf_adds(&b, " days a week");
    refer_between(st, i, k > 0 && says(t, k - 1, "on") ? k - 1 : k, week + 1, buf_text(&b));
    return;
  }
}

/* "Sundays the rice is doubled": as the lines know it, "double rice on Sundays". */
static void doubled_on_days(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 2; k < t->count; k++) {
    unsigned days;
    size_t end = k, food, begin, used = 0;
    if (!says(t, k, "doubled")) continue;
    while (end > 0 && says(t, end - 1, "is are gets get")) end--;
    for (food = end; food > 0 && is_word(t, food - 1) && end - food < 3 && !says(t, food - 1, "the his her"); food--) {
    }
    begin = food;
    while (begin > 0 && says(t, begin - 1, "the his her")) begin--;
    if (food == end || begin == food || post_food_end(st->r, t, food) < end) continue;
    for (size_t m = begin; m-- > 0;)
      if (post_days_named(t, m, &days) == begin - m) used = begin - m; /* all of them */
    if (used == 0) continue;
    size_t first = begin - used;
    while (first > 0 && (says(t, first - 1, "on only but and") || is_mark(t, first - 1, ';') || is_mark(t, first - 1, ',')))
      first--;
    struct buf b;
    buf_init(&b, st->r->arena, 200);
    buf_addf(&b,
             "\x1F"
             "Double %.*s on %.*s",
             SPAN_ARG(tokens_span(t, food, end - food)), SPAN_ARG(tokens_span(t, begin - used, used)));
    refer_between(st, i, first, k + 1, buf_text(&b));
    return;
  }
}

/* ---- days of their own behind a semicolon ---- */

/* "Sunday to Friday 150 g chicken; Saturday nothing but 120 g cod": the days hold up to the next ones. */
static void day_clauses(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  unsigned days;
  size_t first = says(t, 0, "on") ? 1 : 0, used = post_days_named(t, first, &days);
  if (used == 0 || !post_any_amount(t, first + used)) return;
  for (size_t k = first + used; k + 2 < t->count; k++) {
    size_t next = says(t, k + 1, "on and") ? k + 2 : k + 1, own = is_mark(t, k, ';') ? post_days_named(t, next, &days) : 0;
    if (own == 0) continue;
    size_t behind = next + own;
    while (is_mark(t, behind, ':') || is_mark(t, behind, ',') ||
           says(t, behind, "nothing but only just it's is he she gets has eats"))
      behind++;
    if (behind >= t->count || post_amount_at(t, behind).tokens == 0) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 120);
    buf_addf(&b, "\x1FOn %.*s: ", SPAN_ARG(tokens_span(t, next, own)));
    refer_between(st, i, k, behind, buf_text(&b));
    t = &st->s[i].t;
  }
}

/* ---- so many days, and the others ---- */

/* A number of days: "four days", "only three evenings", "the other four evenings", "the remaining dinners". */
struct days {
  size_t from, to; /* tokens, with "but only", "the other" */
  double count;    /* 0: the others, whatever is left */
};

static bool tells_days(const struct tokens *t, size_t at) {
  return says(t, at, "days nights evenings mornings dinners breakfasts lunches suppers");
}

static bool days_at(const struct tokens *t, size_t at, struct days *d) {
  size_t from = at, begin = at;
  while (says(t, at, "on but only just the other others remaining for and")) at++;
  for (begin = at; begin > from && !says(t, begin - 1, "and"); begin--) {
  }
  if (says(t, at, "rest remainder") && says(t, at + 1, "of") && says(t, at + 2, "the") && says(t, at + 3, "week")) {
    *d = (struct days){begin, at + 4, 0};
    return true;
  }
  struct quantity q = quantity_at(t, at);
  bool counted = q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 1 && q.low <= 6 && q.low == floor(q.low) &&
                 !says(t, at, "a an"); /* "two meals a day, so six days" */
  if (counted) {
    at += q.tokens;
    if (says(t, at, "other remaining")) at++;
    bool others = says(t, at > q.tokens ? at - q.tokens - 1 : t->count, "other remaining") &&
                  (at >= t->count || t->item[at].kind == TOKEN_MARK);
    if (others) at--; /* "the other three" */
    if (!others && !tells_days(t, at) && !(q.low == 1 && is_part_of_day(t, at))) return false;
  } else if (!(at > begin && says(t, at - 1, "other others remaining") && tells_days(t, at))) {
    return false;
  }
  at++;
  if (says(t, at, "a per in of each every") || is_mark(t, at, '/')) return false; /* "four days a week" says it all */
  if (says(t, at, "ago old long later before")) return false;
  *d = (struct days){begin, at, counted ? q.low : 0};
  return true;
}

/* All of a sentence, where they come to a week. */
static size_t days_of_a_week(const struct tokens *t, struct days d[KINDS_MOST]) {
  size_t n = 0, open = KINDS_MOST;
  double sum = 0;
  for (size_t k = 0; k < t->count; k++) {
    if (!days_at(t, k, &d[n])) continue;
    sum += d[n].count;
    if (d[n].count == 0) open = open == KINDS_MOST ? n : SIZE_MAX;
    k = d[n].to - 1;
    if (++n == KINDS_MOST) break;
  }
  if (open == SIZE_MAX || n < 2) return 0;
  if (open < KINDS_MOST) d[open].count = WEEK - sum, sum = WEEK;
  return sum == WEEK && (open == KINDS_MOST || d[open].count > 0) ? n : 0;
}

/* "130 g either way", "each time 130 g", "always 130 g": the amount of each; the tokens of it, with its words; 0. */
static size_t amount_of_each(const struct tokens *t, size_t at, struct span *amount) {
  size_t from = at;
  at += phrase_of(t, at, CLASS_WHICHEVER);
  struct post_amount a = at < t->count && is_number(t, at) ? post_amount_at(t, at) : (struct post_amount){0};
  if (a.tokens == 0 || a.bare || a.is_percent) return 0;
  size_t end = at + a.tokens;
  if (says(t, end, "of") && says(t, end + 1, "it them either each")) end += says(t, end + 1, "either each") ? 1 : 2;
  size_t said = phrase_of(t, end, CLASS_WHICHEVER);
  if (at == from && said == 0) return 0;
  *amount = tokens_span(t, at, a.tokens);
  return end + said - from;
}

struct day_kind {
  struct span food;
  double count;
};

/* The food that stands behind so many days, else before them in the same part of the sentence; and has it an amount? */
static struct span food_beside(struct story *st, const struct tokens *t, const struct days *d, size_t next, bool *measured) {
  size_t from = d->to, end, before = d->from;
  *measured = false;
  while (before > 0 && t->item[before - 1].kind != TOKEN_MARK && !says(t, before - 1, "and")) before--;
  for (size_t k = before; k < next; k++) {
    struct post_amount a = k < d->from || k >= d->to ? post_amount_at(t, k) : (struct post_amount){0};
    *measured = *measured || (a.tokens > 0 && !a.bare);
  }
  while (says(t, from, "of is it's she he gets has eats the with") || is_mark(t, from, ':') || is_mark(t, from, '=')) from++;
  end = post_food_end(st->r, t, from);
  if (end > from && end <= next) return tokens_span(t, from, end - from);
  struct tokens part = {t->item, d->from};
  end = before < d->from ? post_food_end(st->r, &part, before) : before;
  return end > before && end == d->from ? tokens_span(t, before, end - before) : (struct span){"", 0}; /* "pork four days" */
}

/* Writes a sentence of so many days with "a week" behind each, and the amount of each where one is told for all. */
static size_t write_days(struct story *st, size_t i, struct day_kind kind[KINDS_MOST]) {
  const struct tokens *t = &st->s[i].t;
  struct days d[KINDS_MOST];
  size_t n = days_of_a_week(t, d), count = 0, said_at = 0, said = 0;
  struct span each = {"", 0};
  if (n == 0) return 0;
  for (size_t k = d[0].to; k < t->count && said == 0; k++)
    if ((said = amount_of_each(t, k, &each)) > 0) said_at = k;
  struct buf b;
  buf_init(&b, st->r->arena, 3 * st->s[i].text.n + 400);
  const char *at = begin_of(t, 0);
  for (size_t k = 0; k < n; k++) {
    bool measured;
    size_t next = k + 1 < n ? d[k + 1].from : t->count;
    if (said > 0 && said_at < next && said_at > d[k].to) next = said_at;
    struct span food = food_beside(st, t, &d[k], next, &measured);
    bool ahead = food.n > 0 && food.p < begin_of(t, d[k].from);
    if (ahead && each.n > 0 && !measured && food.p >= at)
      buf_addf(&b, "%.*s%.*s ", (int)(food.p - at), at, SPAN_ARG(each)), at = food.p;
    buf_add(&b, (struct span){at, (size_t)(begin_of(t, d[k].from) - at)});
    num_sig(&b, d[k].count, 1);
    buf_adds(&b, d[k].count == 1 ? " day a week" : " days a week");
    at = end_of(t, d[k].to - 1);
    if (food.n > 0 && each.n > 0 && !measured && !ahead) {
      buf_addf(&b, " %.*s", SPAN_ARG(each));
      at = food.p;
      buf_addc(&b, ' ');
    }
    if (food.n > 0) kind[count++] = (struct day_kind){food, d[k].count};
  }
  if (each.n > 0) {
    size_t cut = said_at;
    while (cut > 0 && t->item[cut - 1].kind == TOKEN_MARK) cut--;
    if (begin_of(t, cut) > at) buf_add(&b, (struct span){at, (size_t)(begin_of(t, cut) - at)});
    at = end_of(t, said_at + said - 1);
  }
  struct span rest = {at, (size_t)(end_of(t, t->count - 1) - at)};
  const char *stop = memchr(rest.p, ';', rest.n); /* the days hold no longer */
  if (stop)
    buf_addf(&b, "%.*s%c", (int)(stop - rest.p), rest.p, 0x1F), rest = span_cut(rest, (size_t)(stop + 1 - rest.p), rest.n);
  buf_add(&b, rest);
  refer_write(st, i, buf_text(&b));
  return count;
}

/* "on beef days", "beef days:", "on the days with beef", "when it's beef": days by what is fed on them; the tokens; 0. */
static size_t days_of_food(const struct tokens *t, size_t at, const struct day_kind *kind) {
  size_t from = at;
  if (says(t, at, "on for when")) at++;
  while (says(t, at, "the those his her all it's its it is")) at++;
  if (is_word(t, at) && net_has_word(kind->food, t->item[at].word) &&
      says(t, at + 1, "day days evening evenings night nights"))
    return at + 2 - from;
  if (!says(t, at, "days day") || at == from) return 0;
  at++;
  while (says(t, at, "with of when where she he it gets has eats is there's it's there the")) at++;
  return is_word(t, at) && net_has_word(kind->food, t->item[at].word) ? at + 1 - from : 0;
}

static void write_kinds(struct story *st, size_t told, const struct day_kind *kind, size_t count) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    for (size_t k = 0; k + 1 < t->count && i != told; k++) {
      for (size_t m = 0; m < count; m++) {
        size_t used = days_of_food(t, k, &kind[m]), from = k, end = k + used;
        if (used == 0) continue;
        bool first = from == 0;
        while (first && (says(t, end, "plus also add i we give there's and she he it gets has") || is_mark(t, end, ':') ||
                         is_mark(t, end, '+') || is_mark(t, end, ',')))
          end++;
        struct buf b;
        buf_init(&b, st->r->arena, 60);
        num_sig(&b, kind[m].count, 1);
        buf_adds(&b, kind[m].count == 1 ? " day a week" : " days a week");
        if (first) buf_addc(&b, ' ');
        refer_between(st, i, from, end, buf_text(&b));
        t = &st->s[i].t;
        break;
      }
    }
  }
}

/* "Mon to Thu 300 g beef. On the beef days 20 g of spinach": the days of the week on which that food is fed; 0 nobody says.
 */
static unsigned named_days_of(const struct story *st, size_t i, struct span food) {
  unsigned found = 0, days;
  for (size_t k = 0; k < st->count; k++) {
    const struct tokens *t = &st->s[k].t;
    unsigned here = 0;
    for (size_t m = 0; m < t->count && k != i; m++) {
      size_t used = post_days_named(t, m, &days);
      if (used > 0) here = days, m += used - 1;
      if (used > 0 || here == 0 || !is_word(t, m) || !net_has_word(food, t->item[m].word)) continue;
      if (found != 0 && found != here) return 0;
      found = here;
    }
  }
  return found;
}

static void days_by_food(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 1 < t->count; k++) {
    size_t word = says(t, k, "on for") ? k + 1 : k, from = k;
    while (says(t, word, "the those his her")) word++;
    if (!is_word(t, word) || !says(t, word + 1, "day days") || post_mention_at(st->r, t, word) != 1) continue;
    unsigned days = named_days_of(st, i, t->item[word].word);
    if (days == 0 || days == 0x7F) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 120);
    buf_adds(&b, "on ");
    frequency_print_days(&b, days);
    size_t end = word + 2;
    while (from == 0 && says(t, end, "plus also add i we give there's and she he it gets has")) end++;
    if (from == 0 && !is_mark(t, end, ':')) buf_adds(&b, ": ");
    refer_between(st, i, from, end, buf_text(&b));
    return;
  }
}

static void counted_days(struct story *st) {
  struct day_kind kind[KINDS_MOST];
  for (size_t i = 0; i < st->count; i++) {
    size_t count = st->s[i].t.count > 3 ? write_days(st, i, kind) : 0;
    if (count > 0) write_kinds(st, i, kind, count);
  }
}

/* ---- weeks by their number ---- */

/* "in week one", "the second week", "week B": which one; 'word' is its name. The tokens; 0. */
static size_t week_at(const struct tokens *t, size_t at, int *number) {
  static const char *const ORDINAL[] = {"first 1st one a", "second 2nd two b", "third 3rd three c", "fourth 4th four d"};
  size_t from = at;
  while (says(t, at, "in on during for the and then")) at++;
  *number = 0;
  if (says(t, at, "one") && says(t, at + 1, "week")) *number = 1; /* "the next week" is known to the lines */
  if (says(t, at, "following other") && says(t, at + 1, "week")) *number = 2;
  if (says(t, at, "week") && says(t, at + 1, "after")) *number = 2;
  if (*number > 0) return at + 2 - from;
  bool before = says(t, at, "week") && at + 1 < t->count;
  bool behind = says(t, at + 1, "week");
  if (!before && !behind) return 0;
  *number = 0;
  size_t name = before ? at + 1 : at;
  if (before && is_number(t, name) && t->item[name].value >= 1 && t->item[name].value <= 4)
    *number = (int)t->item[name].value;
  for (int k = 0; k < (int)COUNT_OF(ORDINAL) && *number == 0; k++)
    if (says(t, name, ORDINAL[k]) && !(behind && !before && says(t, name, "one two three four a b c d"))) *number = k + 1;
  if (*number == 0 || says(t, at + 2, "of in after a")) return 0;
  return at + 2 - from;
}

/* Of which each starts a part of the sentence. */
static bool begins_part(const struct tokens *t, size_t at) {
  return at == 0 || t->item[at - 1].kind == TOKEN_MARK || says(t, at - 1, "and then");
}

/* "In week one 300 g of turkey a day, in week two rabbit": each part with its week as its head. */
static void weeks_apart(struct story *st) {
  unsigned seen = 0;
  int number, most = 0;
  for (size_t i = 0; i < st->count; i++)
    for (size_t k = 0; k + 1 < st->s[i].t.count; k++)
      if (begins_part(&st->s[i].t, k) && week_at(&st->s[i].t, k, &number) > 0) {
        seen |= 1u << number;
        if (number > most) most = number;
      }
  if (most < 2 || seen != (1u << (most + 1)) - 2) return;
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    struct buf b;
    bool any = false;
    if (t->count < 3) continue;
    buf_init(&b, st->r->arena, 2 * st->s[i].text.n + 200);
    const char *at = begin_of(t, 0);
    for (size_t k = 0; k + 1 < t->count; k++) {
      size_t used = begins_part(t, k) ? week_at(t, k, &number) : 0, behind = k + used;
      if (used == 0 || !post_any_amount(t, behind)) continue;
      size_t cut = k;
      while (cut > 0 && (t->item[cut - 1].kind == TOKEN_MARK || says(t, cut - 1, "and then"))) cut--;
      if (begin_of(t, k) > at) buf_add(&b, (struct span){at, (size_t)((cut > 0 ? end_of(t, cut - 1) : at) - at)});
      if (k > 0) buf_addc(&b, 0x1F);
      buf_addf(&b, "Week %d: ", number);
      while (is_mark(t, behind, ':') || is_mark(t, behind, ',') || is_mark(t, behind, '=') || is_mark(t, behind, '-') ||
             says(t, behind, "it's its"))
        behind++;
      at = behind < t->count ? begin_of(t, behind) : end_of(t, t->count - 1);
      k = behind - 1;
      any = true;
    }
    size_t end = t->count;
    for (size_t k = 0; any && k < t->count; k++) { /* ", then it starts again" */
      size_t used = phrase_of(t, k, CLASS_STARTS_AGAIN);
      if (used > 0 && begin_of(t, k) >= at) end = k, k = t->count;
    }
    while (end > 0 && (t->item[end - 1].kind == TOKEN_MARK || says(t, end - 1, "and then it"))) end--;
    if (!any) continue;
    if (end_of(t, end - 1) > at) buf_add(&b, (struct span){at, (size_t)(end_of(t, end - 1) - at)});
    refer_write(st, i, buf_text(&b));
  }
}

/* "Whatever the week: 100 g of potato", "in both weeks", "every week the same:": every day. */
static void every_week(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  size_t used = t->count > 3 ? phrase_of(t, 0, CLASS_WHATEVER_WEEK) : 0;
  if (used == 0 || !post_any_amount(t, used)) return;
  while (is_mark(t, used, ',') || is_mark(t, used, ':') || is_mark(t, used, '-')) used++;
  refer_between(st, i, 0, used, "Every day: ");
}

void refer_kinds(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    if (st->s[i].t.count < 3) continue;
    one_of_so_many(st, i);
    so_many_in_week(st, i);
    doubled_on_days(st, i);
    day_clauses(st, i);
    every_week(st, i);
  }
  weeks_apart(st);
  counted_days(st);
  for (size_t i = 0; i < st->count; i++)
    if (st->s[i].t.count > 3) days_by_food(st, i);
}
