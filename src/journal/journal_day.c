/* Days as people write them elsewhere: "29.10.2026", "10/29/2026", "Thu, Oct 29th 2026", "29 October". They are not taken,
 * for some of them mean two days; but whoever wrote one is told what to type. */
#include "journal/journal_parts.h"

static const char *const MONTHS[] = {"January", "February", "March",     "April",   "May",      "June",
                                     "July",    "August",   "September", "October", "November", "December"};
static const char *const WEEKDAYS[] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
enum { MONTH_COUNT = COUNT_OF(MONTHS), WHOLE_YEAR = 4, SHORT_YEAR = 2, COMPACT = 8, LETTERS_LEAST = 3, PIECES = 3 };

static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
static bool is_digit(char c) { return c >= '0' && c <= '9'; }
static bool is_sign(char c) { return c == '.' || c == '/' || c == '-'; }

/* From 1: "Oct", "Sept", "october"; 0: none. */
static int named(struct span word, const char *const *names, int count) {
  for (int i = 0; word.n >= LETTERS_LEAST && i < count; i++)
    if (word.n <= strlen(names[i]) && span_eq_fold(word, (struct span){names[i], word.n})) return i + 1;
  return 0;
}

/* A number or a word of a day, and what stands behind it. */
struct piece {
  struct span at;
  int value; /* of a number; a month's 1 to 12; 0: neither */
  bool number;
  char sep; /* '.', '/', '-' or a blank; 0: the line ends, or goes on with something else */
  size_t end;
};

static bool ends_number(struct span word) {
  static const char *const ENDS[] = {"st", "nd", "rd", "th"};
  for (size_t i = 0; i < COUNT_OF(ENDS); i++)
    if (span_is_fold(word, ENDS[i])) return true;
  return false;
}

static size_t run(struct span s, size_t at, bool (*of)(char)) {
  size_t to = at;
  while (to < s.n && of(s.p[to])) to++;
  return to;
}

static struct piece piece_at(struct span s, size_t at) {
  struct piece p = {.at = {s.p + at, 0}, .end = at};
  size_t to = run(s, at, is_digit);
  p.number = to > at;
  if (p.number) {
    for (size_t i = at; i < to && i < at + COMPACT; i++) p.value = p.value * 10 + (s.p[i] - '0');
    size_t word = run(s, to, is_letter);
    p.at.n = to - at;
    if (word > to && ends_number(span_cut(s, to, word))) to = word;
  } else {
    to = run(s, at, is_letter);
    p.at.n = to - at;
    p.value = named(p.at, MONTHS, MONTH_COUNT);
  }
  p.end = to;
  char c = to < s.n ? s.p[to] : 0;
  p.sep = is_sign(c) ? c : c == ',' || c == ' ' ? ' ' : 0;
  return p;
}

static size_t behind(struct span s, const struct piece *p) {
  size_t at = p->end;
  while (at < s.n && (s.p[at] == p->sep || s.p[at] == ',' || s.p[at] == ' ')) at++;
  return at;
}

static void reading(struct journal_other_day *out, int year, int month, int day) {
  struct date d = {year, month, day};
  if (!out->month) out->year = year, out->month = month, out->day = day;
  if (!date_is_valid(d) || out->count == (int)COUNT_OF(out->days)) return;
  long days = date_days(d);
  if (out->count == 0 || out->days[0] != days) out->days[out->count++] = days;
}

static int whole_year(const struct piece *p) {
  enum { CENTURY = 2000 };
  return p->at.n == SHORT_YEAR ? CENTURY + p->value : p->value;
}

/* Without a year: the last such day that has been. */
static void reading_lately(struct journal_other_day *out, long today, int month, int day) {
  enum { YEARS_BACK = 8 }; /* as far as the last 29 February */
  if (today <= 0) {
    out->no_year = true;
    return;
  }
  int year = date_of_days(today).year;
  for (int back = 0; back <= YEARS_BACK; back++) {
    struct date d = {year - back, month, day};
    if (!date_is_valid(d) || date_days(d) > today) continue;
    reading(out, d.year, month, day);
    return;
  }
  reading(out, year, month, day); /* no year has it */
}

static bool is_year(const struct piece *p) { return p->number && p->at.n == WHOLE_YEAR; }
static bool is_short(const struct piece *p) { return p->number && p->at.n >= 1 && p->at.n <= SHORT_YEAR; }

/* "29.10.2026", "10/29/26", "2026/10/29", "29/10": with both figures at most twelve either may be the month. How many pieces
 * it takes; 0 none. */
static int in_figures(const struct piece p[PIECES], long today, struct journal_other_day *out) {
  if (!p[0].number || !is_sign(p[0].sep) || !is_short(&p[1])) return 0;
  bool three = p[1].sep == p[0].sep && p[2].number;
  if (three && is_year(&p[0]) && is_short(&p[2])) {
    reading(out, p[0].value, p[1].value, p[2].value);
    return PIECES;
  }
  bool two = !three && (p[0].sep == '/' ? p[1].sep != '/' : p[0].sep == '.' && p[1].sep == '.');
  bool year = three && (is_year(&p[2]) || p[2].at.n == SHORT_YEAR);
  if (!is_short(&p[0]) || (!two && !year)) return 0;
  for (int way = 0; way < 2; way++) {
    int day = p[way].value, month = p[1 - way].value;
    if (month > MONTH_COUNT) continue;
    if (three)
      reading(out, whole_year(&p[2]), month, day);
    else
      reading_lately(out, today, month, day);
  }
  return out->month == 0 && !out->no_year ? 0 : three ? PIECES : 2;
}

/* "29 October 2026", "Oct 29", "2026 Oct 29": how many pieces it takes; 0 none. */
static int in_words(const struct piece p[PIECES], long today, struct journal_other_day *out) {
  const struct piece *year = NULL, *day = NULL, *month = NULL;
  int taken = 0;
  for (; taken < PIECES; taken++) {
    const struct piece *x = &p[taken];
    if (!x->number && x->value > 0 && !month)
      month = x;
    else if (is_short(x) && !day)
      day = x;
    else if (!year && (is_year(x) || (x->number && x->at.n == SHORT_YEAR && p[0].sep == '-')))
      year = x;
    else
      break;
    if (!x->sep) {
      taken++;
      break;
    }
  }
  if (!month || !day) return 0;
  if (year)
    reading(out, whole_year(year), month->value, day->value);
  else
    reading_lately(out, today, month->value, day->value);
  return taken;
}

static bool begins_with_word(struct span s, const char *word) {
  size_t n = strlen(word);
  return s.n >= n && span_eq_fold(span_cut(s, 0, n), span_of(word)) && (s.n == n || s.p[n] == ' ' || s.p[n] == ':');
}

/* What a day ends with, and a time of the day behind it ("2026-10-29T08:00"), go with it. */
static bool ends_well(struct span line, size_t at, struct journal_other_day *out) {
  if (at < line.n && line.p[at] == 'T')
    while (at < line.n && line.p[at] != ' ') at++;
  while (at < line.n && (line.p[at] == '.' || line.p[at] == ',' || line.p[at] == ':')) at++;
  out->bytes = at;
  return at == line.n || is_blank_point((unsigned char)line.p[at]);
}

bool journal_day_otherwise(struct span line, long today, struct journal_other_day *out) {
  static const char *const NEAR[] = {"today", "yesterday"};
  *out = (struct journal_other_day){.count = 0};
  for (int i = 0; i < (int)COUNT_OF(NEAR); i++)
    if (today > 0 && begins_with_word(line, NEAR[i])) {
      out->days[out->count++] = today - i;
      out->bytes = strlen(NEAR[i]);
      return true;
    }
  struct piece first = piece_at(line, 0);
  size_t from = !first.number && named(first.at, WEEKDAYS, (int)COUNT_OF(WEEKDAYS)) && first.sep ? behind(line, &first) : 0;
  struct piece p[PIECES];
  for (size_t i = 0, at = from; i < PIECES; i++) {
    p[i] = piece_at(line, at);
    at = behind(line, &p[i]);
  }
  int pieces = 0;
  if (p[0].number && p[0].at.n == COMPACT) {
    reading(out, p[0].value / 10000, p[0].value / 100 % 100, p[0].value % 100); /* "20261029" */
    pieces = out->count;
  } else {
    pieces = in_figures(p, today, out);
    if (pieces == 0) pieces = in_words(p, today, out);
  }
  if (pieces == 0) return false;
  return ends_well(line, p[pieces - 1].end, out);
}

/* ---- what is said of it ------------------------------------------------------------------------------------------- */

static const char *iso(long days, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, 16);
  date_print(&b, days);
  return buf_text(&b);
}

static const char *in_full(long days, struct arena *arena) {
  struct buf b;
  struct date d = date_of_days(days);
  buf_init(&b, arena, 32);
  buf_addf(&b, "%d %s", d.day, MONTHS[d.month - 1]);
  return buf_text(&b);
}

static void complain_of_no_day(struct diags *d, struct span word, int year, int month, int day) {
  if (year < 1) {
    diag_say(d, DIAG_ERROR, DIAG_DATE, word, "there is no year %d; a day is written year-month-day, as in 2026-11-02", year);
  } else if (month < 1 || month > MONTH_COUNT) {
    diag_say(d, DIAG_ERROR, DIAG_DATE, word, "there is no month %d; a day is written year-month-day, as in 2026-11-02",
             month);
  } else if (month == 2 && day == 29) {
    diag_say(d, DIAG_ERROR, DIAG_DATE, word, "%d is not a leap year; its February has 28 days", year);
  } else {
    diag_say(d, DIAG_ERROR, DIAG_DATE, word, "%s has no day %d; a day is written year-month-day, as in 2026-11-02",
             MONTHS[month - 1], day);
  }
}

void journal_complain_of_day(struct journal_reader *r, struct span line, struct span word) {
  struct journal_other_day other;
  long today = r->known ? r->known->today : 0;
  bool dated = journal_day_otherwise(line, today, &other);
  struct span at = span_cut(line, 0, other.bytes), rest = trim_blanks(span_cut(line, other.bytes, line.n));
  if (dated && other.count == 0 && other.no_year) {
    diag_say(r->d, DIAG_ERROR, DIAG_DATE, at, "'%.*s' of which year? a day is written year-month-day, as in 2026-11-02",
             SPAN_ARG(quoted(at)));
  } else if (dated && other.count == 0) {
    complain_of_no_day(r->d, at, other.year, other.month, other.day);
  } else if (dated && other.count == 1) {
    const char *day = iso(other.days[0], r->arena);
    diag_say(r->d, DIAG_ERROR, DIAG_DATE, at, "a day is written year-month-day; write '%s%s%.*s'", day,
             rest.n > 0 ? " " : "", SPAN_ARG(quoted(rest)));
    diag_fix(r->d, at, day, day);
  } else if (dated) {
    const char *one = iso(other.days[0], r->arena), *two = iso(other.days[1], r->arena);
    const char *first = in_full(other.days[0], r->arena), *second = in_full(other.days[1], r->arena);
    diag_say(r->d, DIAG_ERROR, DIAG_DATE, at, "'%.*s' may be %s or %s; write '%s' or '%s'", SPAN_ARG(quoted(at)), first,
             second, one, two);
    diag_fix(r->d, at, one, first);
    diag_fix(r->d, at, two, second);
  } else {
    diag_say(r->d, DIAG_ERROR, DIAG_DATE, word,
             "a line begins with its day, as in '2026-11-02 Juniper weighs 18.2 kg'; '%.*s' is not a day%s",
             SPAN_ARG(quoted(word)), word.n > 0 && is_digit(word.p[0]) ? ": write year-month-day" : "");
  }
}
