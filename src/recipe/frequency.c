#include "recipe/frequency.h"

#include <math.h>

#include "base/num.h"

enum { WEEKS = 4, WORKDAYS = 0x1F, WEEKEND = 0x60 };

static const char HOW_OFTEN[] = "say how often, as in 'twice a week', or leave the line out with '#'";
static const char TWO_MEANINGS[] = "this has two meanings; write 'twice a week' or 'every 2 weeks'";

static const struct {
  const char *phrase;
  double times_per_28; /* NaN: with every meal; below 0: the amount is that of a period, of which 28 days hold so many */
  const char *refuse;
} PHRASES[] = {{"every day", 28, NULL},
               {"each day", 28, NULL},
               {"everyday", 28, NULL},
               {"daily", 28, NULL},
               {"a day", 28, NULL},
               {"per day", 28, NULL},
               {"/ day", 28, NULL},
               {"/ d", 28, NULL},
               {"every other day", 14, NULL},
               {"every second day", 14, NULL},
               {"every 2 nd day", 14, NULL},
               {"every 3 rd day", 28.0 / 3, NULL},
               {"every 4 th day", 7, NULL},
               {"every other morning", 14, NULL},
               {"every other evening", 14, NULL},
               {"every other night", 14, NULL},
               {"every second morning", 14, NULL},
               {"every second evening", 14, NULL},
               {"every second night", 14, NULL},
               {"on alternate days", 14, NULL},
               {"alternate days", 14, NULL},
               {"every third day", 28.0 / 3, NULL},
               {"every fourth day", 7, NULL},
               {"every fifth day", 28.0 / 5, NULL},
               {"weekly", 4, NULL},
               {"every week", 4, NULL},
               {"each week", 4, NULL},
               {"every other week", 2, NULL},
               {"every second week", 2, NULL},
               {"fortnightly", 2, NULL},
               {"every fortnight", 2, NULL},
               {"monthly", 1, NULL},
               {"every month", 1, NULL},
               {"each month", 1, NULL},
               {"on weekdays", 5 * WEEKS, NULL},
               {"weekdays", 5 * WEEKS, NULL},
               {"on weekends", 2 * WEEKS, NULL},
               {"at weekends", 2 * WEEKS, NULL},
               {"weekends", 2 * WEEKS, NULL},
               {"with every meal", NAN, NULL},
               {"with each meal", NAN, NULL},
               {"at every meal", NAN, NULL},
               {"at each meal", NAN, NULL},
               {"every meal", NAN, NULL},
               {"each meal", NAN, NULL},
               {"per meal", NAN, NULL},
               {"a meal", NAN, NULL},
               {"/ meal", NAN, NULL},
               {"by day", 28, NULL},
               {"at the day", 28, NULL},
               {"every morning", 28, NULL},
               {"every evening", 28, NULL},
               {"every night", 28, NULL},
               {"each morning", 28, NULL},
               {"each evening", 28, NULL},
               {"each night", 28, NULL},
               {"a night", 28, NULL},
               {"nightly", 28, NULL},
               {"by week", -4, NULL},
               {"in one week", -4, NULL},
               {"in the week", -4, NULL},
               {"during the week", -4, NULL},
               {"per portion", NAN, NULL},
               {"per bowl", NAN, NULL},
               {"per serving", NAN, NULL},
               {"per tub", NAN, NULL},
               {"per bag", NAN, NULL},
               {"per container", NAN, NULL},
               {"each portion", NAN, NULL},
               {"by every meal", NAN, NULL},
               {"by each meal", NAN, NULL},
               {"a week", -4, NULL},
               {"per week", -4, NULL},
               {"/ week", -4, NULL},
               {"/ wk", -4, NULL},
               {"a month", -1, NULL},
               {"per month", -1, NULL},
               {"a fortnight", -2, NULL},
               {"per fortnight", -2, NULL},
               {"for the week", -4, NULL},
               {"for the whole week", -4, NULL},
               {"for the entire week", -4, NULL},
               {"throughout the week", -4, NULL},
               {"for the month", -1, NULL},
               {"for the whole month", -1, NULL},
               {"for the fortnight", -2, NULL},
               {"in a week", -4, NULL},
               {"over the week", -4, NULL},
               {"over the whole week", -4, NULL},
               {"across the week", -4, NULL},
               {"over a week", -4, NULL},
               {"per wk", -4, NULL},
               {"a wk", -4, NULL},
               {"/ month", -1, NULL},
               {"biweekly", 0, TWO_MEANINGS},
               {"bi-weekly", 0, TWO_MEANINGS},
               {"bimonthly", 0, TWO_MEANINGS},
               {"bi-monthly", 0, TWO_MEANINGS},
               {"occasionally", 0, HOW_OFTEN},
               {"sometimes", 0, HOW_OFTEN},
               {"now and then", 0, HOW_OFTEN},
               {"from time to time", 0, HOW_OFTEN},
               {"as needed", 0, HOW_OFTEN},
               {"if needed", 0, HOW_OFTEN},
               {"rarely", 0, HOW_OFTEN},
               {"optional", 0, HOW_OFTEN}};

static struct frequency fixed_phrase_at(const struct tokens *t, size_t at) {
  struct frequency f = {.feedings = 1};
  const struct token *k = at < t->count ? &t->item[at] : NULL;
  if (!k || (k->kind == TOKEN_MARK ? k->mark >= 0x80 : k->kind != TOKEN_WORD)) return f; /* none begins with a number */
  char first = k->kind == TOKEN_MARK ? (char)k->mark : k->word.p[0];
  for (size_t i = 0; i < COUNT_OF(PHRASES); i++) {
    size_t used = PHRASES[i].phrase[0] == first ? phrase_at(t, at, PHRASES[i].phrase) : 0;
    if (used <= f.tokens) continue;
    f.tokens = used;
    double times = PHRASES[i].times_per_28;
    f.each_meal = isnan(times);
    f.per_28 = times < 0 ? -times : 0;
    f.times_per_28 = f.each_meal || times < 0 ? 28 : times;
    f.refuse = PHRASES[i].refuse;
    bool weekend = strstr(PHRASES[i].phrase, "weekend") != NULL, workday = strstr(PHRASES[i].phrase, "weekday") != NULL;
    f.days = weekend ? WEEKEND : workday ? WORKDAYS : 0;
  }
  return f;
}

size_t frequency_period_at(const struct tokens *t, size_t at, double *per_28, bool *joined) {
  size_t whole = ANY_OF(t, at, "daily", "weekly", "monthly", "fortnightly");
  *joined = true;
  size_t of_seven = whole ? 0 : ANY_OF(t, at, "out of 7", "out of seven", "in 7", "in seven"); /* "6 days out of 7" */
  if (of_seven > 0) {
    *per_28 = WEEKS;
    return of_seven;
  }
  size_t before = whole ? 0
                        : ANY_OF(t, at, "in a", "out of a", "a", "per", "each", "every", "/", "in the", "for the", "by",
                                 "in one", "the", "in");
  if (!whole) *joined = before > 0;
  if (at + before >= t->count) return 0;
  struct span w = t->item[at + before].word;
  static const struct {
    const char *word;
    double per_28;
  } PERIODS[] = {{"day", 28},      {"daily", 28},      {"week", 4},  {"wk", 4},     {"weekly", 4},
                 {"fortnight", 2}, {"fortnightly", 2}, {"month", 1}, {"monthly", 1}};
  for (size_t i = 0; i < COUNT_OF(PERIODS); i++)
    if (t->item[at + before].kind == TOKEN_WORD && span_is(w, PERIODS[i].word)) {
      *per_28 = PERIODS[i].per_28;
      return before + 1;
    }
  return 0;
}

size_t frequency_count_at(const struct tokens *t, size_t at, struct quantity *q) {
  static const char *const WORDS[] = {"once", "twice", "thrice"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++) {
    if (phrase_at(t, at, WORDS[i]) == 0) continue;
    *q = (struct quantity){QUANTITY_FINE, (double)i + 1, (double)i + 1, 1};
    return 1;
  }
  *q = quantity_at(t, at);
  return 0;
}

/* "once", "twice", "3 times", "3x", "3 days", "2-3 times"; 'days' when days and not times were counted. */
static size_t times_at(const struct tokens *t, size_t at, struct quantity *q, bool *days) {
  *days = false;
  if (frequency_count_at(t, at, q) > 0) {
    size_t or_more = q->low == 1 ? ANY_OF(t, at + 1, "or twice", "to twice") : 0;
    if (or_more > 0) q->high = 2;
    return 1 + or_more;
  }
  if (q->fault != QUANTITY_FINE || at + q->tokens >= t->count) return 0;
  const struct token *k = &t->item[at + q->tokens]; /* mostly of another letter than all of these */
  if (k->kind == TOKEN_MARK ? k->mark != 'x' : k->kind != TOKEN_WORD || !memchr("txdemnb", k->word.p[0], 7)) return 0;
  size_t used = ANY_OF(t, at + q->tokens, "times", "time", "x");
  if (used == 0) {
    used = ANY_OF(t, at + q->tokens, "days", "day", "evenings", "evening", "mornings", "morning", "nights", "night",
                  "dinners", "breakfasts");
    *days = used > 0;
  }
  return used > 0 ? q->tokens + used : 0;
}

/* "x 3 a week", "x3/week" */
static size_t times_behind_x(const struct tokens *t, size_t at, struct quantity *q) {
  double glued = 0;
  if (at >= t->count || t->item[at].taken) return 0;
  if (phrase_at(t, at, "x") > 0) {
    *q = quantity_at(t, at + 1);
    return q->fault == QUANTITY_FINE ? 1 + q->tokens : 0;
  }
  struct span word = t->item[at].word;
  if (t->item[at].kind != TOKEN_WORD || word.n < 2 || word.p[0] != 'x') return 0;
  if (!num_parse(span_cut(word, 1, word.n), &glued) || !(glued > 0)) return 0;
  *q = (struct quantity){QUANTITY_FINE, glued, glued, 1};
  return 1;
}

static struct frequency times_a_period_at(const struct tokens *t, size_t at) {
  struct frequency f = {.feedings = 1};
  struct quantity q;
  bool days, joined, behind = false;
  double per_28 = 0;
  size_t used = times_at(t, at, &q, &days);
  if (used == 0) behind = (used = times_behind_x(t, at, &q)) > 0;
  size_t period = used > 0 ? frequency_period_at(t, at + used, &per_28, &joined) : 0;
  if (period == 0 || (days && (!joined || per_28 == 28)) || (behind && per_28 == 28)) return f;
  f.tokens = used + period;
  f.is_range = q.high > q.low;
  double times = (q.low + q.high) / 2;
  f.times_per_28 = times * per_28;
  if (per_28 == 28) { /* several feedings of one day */
    f.times_per_28 = 28;
    f.feedings = times;
    if (times > 24) f.refuse = "more than 24 times a day; write the amount of one day";
  } else if (times * per_28 > 28) {
    f.refuse = "that is more often than there are days; write the amount of one day and 'daily'";
  }
  return f;
}

/* "every 3 days", "once every 2 weeks", "every 2-3 days" */
static struct frequency every_n_at(const struct tokens *t, size_t at) {
  struct frequency f = {.feedings = 1};
  size_t used = ANY_OF(t, at, "once every", "once in", "every");
  if (used == 0) return f;
  struct quantity q = quantity_at(t, at + used);
  if (q.fault != QUANTITY_FINE) return f;
  used += q.tokens;
  double length = ANY_OF(t, at + used, "days", "day") ? 1 : ANY_OF(t, at + used, "weeks", "week") ? 7 : 0;
  if (length == 0 && ANY_OF(t, at + used, "months", "month")) length = 28;
  if (length == 0) return f;
  f.tokens = used + 1;
  f.is_range = q.high > q.low;
  double interval = length * (q.low + q.high) / 2;
  f.times_per_28 = interval > 0 ? 28 / interval : 0;
  if (!(interval >= 1)) f.refuse = "an interval is at least one day";
  return f;
}

/* ---- days of the week ---- */

enum { DAY_FORMS = 6 };
static const char *const DAY_NAMES[7][DAY_FORMS] = {
    {"monday", "mondays", "mon", "mons"},       {"tuesday", "tuesdays", "tue", "tues"},
    {"wednesday", "wednesdays", "wed", "weds"}, {"thursday", "thursdays", "thu", "thur", "thurs"},
    {"friday", "fridays", "fri", "fris"},       {"saturday", "saturdays", "sat", "sats"},
    {"sunday", "sundays", "sun", "suns"}};

static int day_named(struct span word) {
  for (int day = 0; day < 7; day++)
    for (int form = 0; form < DAY_FORMS && DAY_NAMES[day][form]; form++)
      if (span_is(word, DAY_NAMES[day][form])) return day;
  return -1;
}

/* "satdays", "wendsday": begins and ends as a day does. */
static int misspelt_day(struct span word) {
  static const char *const BEGINS[] = {"mon", "tu", "we", "th", "fri", "sat", "sun"};
  struct span stem = word.n > 0 && word.p[word.n - 1] == 's' ? span_cut(word, 0, word.n - 1) : word;
  bool day = stem.n >= 6 && stem.n <= 10 &&
             (span_is(span_cut(stem, stem.n - 3, stem.n), "day") || span_is(span_cut(stem, stem.n - 2, stem.n), "dy"));
  for (int i = 0; day && i < 7; i++)
    if (span_starts_fold(stem, BEGINS[i])) return i;
  return -1;
}

/* 0 to 6, -1; 'whole' is false for "sun", which may be the sun of "sun dried"; "suns" is one. */
static int day_of_week(const struct tokens *t, size_t at, bool *whole) {
  if (at >= t->count || t->item[at].taken || t->item[at].kind != TOKEN_WORD) return -1;
  for (int day = 0; day < 7; day++)
    for (int form = 0; form < DAY_FORMS && DAY_NAMES[day][form]; form++)
      if (span_is(t->item[at].word, DAY_NAMES[day][form])) {
        *whole = form != 2;
        return day;
      }
  *whole = true;
  return misspelt_day(t->item[at].word);
}

/* "Mon-Fri", "Monday to Friday", "Fri-Mon" */
static unsigned days_between(int from, int to) {
  unsigned days = 1u << from;
  while (from != to) {
    from = (from + 1) % 7;
    days |= 1u << from;
  }
  return days;
}

static int bits(unsigned days) {
  int n = 0;
  for (; days; days &= days - 1) n++;
  return n;
}

/* "mon-fri" without blanks is one word. */
static unsigned joined_days(const struct token *k) {
  if (k->taken || k->kind != TOKEN_WORD) return 0;
  const char *dash = memchr(k->word.p, '-', k->word.n);
  if (!dash) return 0;
  size_t n = (size_t)(dash - k->word.p);
  int from = day_named(span_cut(k->word, 0, n)), to = day_named(span_cut(k->word, n + 1, k->word.n));
  return from < 0 || to < 0 ? 0 : days_between(from, to);
}

/* Days with commas, words and ranges between them. One short name alone ("sun") may be another word, unless something leads
 * to it. */
static struct frequency weekdays_at(const struct tokens *t, size_t at) {
  struct frequency f = {.feedings = 1};
  size_t lead = ANY_OF(t, at, "on a", "on", "every", "each");
  unsigned days = 0;
  size_t used = lead;
  bool whole = false, all_whole = true, range = false;
  int before = -1;
  for (size_t i = at + lead; i < t->count;) {
    unsigned joined = joined_days(&t->item[i]);
    int day = day_of_week(t, i, &whole);
    if (day < 0 && joined == 0) break;
    all_whole = all_whole && (joined > 0 || whole);
    days |= joined > 0 ? joined : range ? days_between(before, day) : 1u << day;
    range = false;
    before = day;
    used = ++i - at;
    size_t to = day >= 0 ? ANY_OF(t, i, "-", "to", "through", "thru", "till", "until") : 0;
    range = to > 0;
    i += to > 0
             ? to
             : ANY_OF(t, i, ", and a", ", and", "and on a", "and a", "and on", "and", ", on", ",", "&", "n", "/", "+", "on");
  }
  if (days == 0 || (lead == 0 && !all_whole && bits(days) < 2)) return f;
  f.tokens = used;
  f.days = days;
  f.times_per_28 = (double)bits(days) * WEEKS;
  return f;
}

static struct frequency other_days_at(const struct tokens *t, size_t at) {
  size_t used = ANY_OF(t, at, "on the other days", "on all other days", "on other days", "the other days", "all other days");
  return (struct frequency){.tokens = used, .feedings = 1, .times_per_28 = 28, .other_days = used > 0};
}

/* "on the other four days", "the remaining 3 days" */
static struct frequency other_n_days_at(const struct tokens *t, size_t at) {
  struct frequency f = {.feedings = 1};
  size_t lead = ANY_OF(t, at, "on the other", "on the remaining", "the other", "the remaining", "on the rest");
  struct quantity q = lead > 0 ? quantity_at(t, at + lead) : (struct quantity){.fault = QUANTITY_NONE};
  if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 1 && q.low <= 6)) return f;
  if (ANY_OF(t, at + lead + q.tokens, "days", "day") == 0) return f;
  f.tokens = lead + q.tokens + 1;
  f.times_per_28 = WEEKS * q.low;
  return f;
}

/* ---- all of them ---- */

/* 'list': words between blanks. */
static bool is_one_of(struct span word, const char *list) {
  for (const char *p = list; *p;) {
    size_t i = 0;
    while (i < word.n && p[i] == word.p[i]) i++;
    if (i == word.n && (p[i] == ' ' || p[i] == '\0')) return true;
    while (*p && *p != ' ') p++;
    if (*p) p++;
  }
  return false;
}

/* Most words begin no frequency. By the first letter: words, and how a day's name begins. */
static bool may_begin(const struct token *k) {
  static const struct {
    const char *words, *day, *other_day;
  } BY_LETTER[26] = {['a' - 'a'] = {"a at an as across all alternate another", NULL, NULL},
                     ['b' - 'a'] = {"by biweekly bi-weekly bimonthly bi-monthly", NULL, NULL},
                     ['d' - 'a'] = {"daily during", NULL, NULL},
                     ['e' - 'a'] = {"every each everyday eight eleven", NULL, NULL},
                     ['f' - 'a'] = {"for from four five fortnightly", "fri", NULL},
                     ['i' - 'a'] = {"in if", NULL, NULL},
                     ['m' - 'a'] = {"monthly", "mon", NULL},
                     ['n' - 'a'] = {"now nine nightly", NULL, NULL},
                     ['o' - 'a'] = {"on one once over out occasionally optional", NULL, NULL},
                     ['p' - 'a'] = {"per", NULL, NULL},
                     ['r' - 'a'] = {"rarely", NULL, NULL},
                     ['s' - 'a'] = {"sometimes six seven several", "sat", "sun"},
                     ['t' - 'a'] = {"twice two three ten twelve thrice throughout", "th", "tu"},
                     ['w' - 'a'] = {"with weekly weekdays weekends", "we", NULL}};
  if (k->kind == TOKEN_MARK) return k->mark == '/';
  if (k->kind != TOKEN_WORD || k->word.n == 0) return true;
  char first = k->word.p[0];
  if (first == 'x') return true;
  if (first < 'a' || first > 'z' || !BY_LETTER[first - 'a'].words) return false;
  const char *day = BY_LETTER[first - 'a'].day, *other = BY_LETTER[first - 'a'].other_day;
  return (day && span_starts_fold(k->word, day)) || (other && span_starts_fold(k->word, other)) ||
         is_one_of(k->word, BY_LETTER[first - 'a'].words);
}

void frequency_know(struct token *k) { k->no_frequency = !may_begin(k); }

struct frequency frequency_read_at(const struct tokens *t, size_t at) {
  if (at >= t->count || !may_begin(&t->item[at])) return (struct frequency){0};
  struct frequency (*const READERS[])(const struct tokens *, size_t) = {fixed_phrase_at, times_a_period_at, every_n_at,
                                                                        weekdays_at,     other_days_at,     other_n_days_at};
  struct frequency best = {0};
  bool number = t->item[at].kind == TOKEN_NUMBER || t->item[at].kind == TOKEN_FRACTION;
  if (number) best = times_a_period_at(t, at); /* all others begin with a word */
  for (size_t i = 0; i < COUNT_OF(READERS) && !number; i++) {
    struct frequency f = READERS[i](t, at);
    if (f.tokens > best.tokens) best = f;
  }
  if (best.tokens > 0 && !best.refuse && !(best.times_per_28 >= 1))
    best.refuse = "the calendar has four weeks; write what is fed at least once in 28 days";
  return best;
}

void frequency_print_days(struct buf *b, unsigned days) {
  int left = bits(days);
  for (int day = 0; day < 7; day++) {
    if (!(days & 1u << day)) continue;
    left--;
    const char *name = DAY_NAMES[day][0];
    buf_addc(b, (char)(name[0] - ('a' - 'A')));
    buf_adds(b, name + 1);
    if (left > 0) buf_adds(b, left == 1 ? " and " : ", ");
  }
}
