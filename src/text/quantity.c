/* Amounts as people write them. The rules stand in scan.h at quantity_at. */
#include <math.h>

#include "base/num.h"
#include "text/scan.h"

static const struct {
  const char *word;
  double value;
} NUMBER_WORDS[] = {{"a", 1},         {"an", 1},       {"one", 1},      {"two", 2},        {"three", 3},
                    {"four", 4},      {"five", 5},     {"six", 6},      {"seven", 7},      {"eight", 8},
                    {"nine", 9},      {"ten", 10},     {"eleven", 11},  {"twelve", 12},    {"thirteen", 13},
                    {"fourteen", 14}, {"fifteen", 15}, {"sixteen", 16}, {"seventeen", 17}, {"eighteen", 18},
                    {"nineteen", 19}, {"twenty", 20},  {"thirty", 30},  {"forty", 40},     {"fifty", 50},
                    {"sixty", 60},    {"seventy", 70}, {"eighty", 80},  {"ninety", 90}};

/* Longest first: "half a dozen" before "half a". */
static const struct {
  const char *phrase;
  double value;
} PART_PHRASES[] = {{"half a dozen", 6},
                    {"a dozen", 12},
                    {"one dozen", 12},
                    {"dozen", 12},
                    {"three quarters of a", 0.75},
                    {"three quarters of an", 0.75},
                    {"three quarters", 0.75},
                    {"two thirds of a", 2.0 / 3},
                    {"two thirds of an", 2.0 / 3},
                    {"two thirds", 2.0 / 3},
                    {"half of a", 0.5},
                    {"half of an", 0.5},
                    {"half a", 0.5},
                    {"half an", 0.5},
                    {"one half", 0.5},
                    {"a half", 0.5},
                    {"half", 0.5},
                    {"a quarter of a", 0.25},
                    {"a quarter of an", 0.25},
                    {"quarter of a", 0.25},
                    {"quarter of an", 0.25},
                    {"a quarter", 0.25},
                    {"one quarter", 0.25},
                    {"quarter", 0.25},
                    {"a third of a", 1.0 / 3},
                    {"a third of an", 1.0 / 3},
                    {"third of a", 1.0 / 3},
                    {"a third", 1.0 / 3},
                    {"one third", 1.0 / 3},
                    {"an half", 0.5},
                    {"an eighth of a", 0.125},
                    {"an eighth", 0.125},
                    {"a couple hundred", 200},
                    {"a couple of hundred", 200}};

struct simple {
  enum quantity_fault fault;
  double value;
  size_t tokens; /* 0: no number here */
};

static bool is_kind(const struct tokens *t, size_t at, enum token_kind kind) {
  return at < t->count && !t->item[at].taken && t->item[at].kind == kind;
}

static bool is_glued_mark(const struct tokens *t, size_t at, char mark) {
  return is_kind(t, at, TOKEN_MARK) && t->item[at].glued && t->item[at].mark == (unsigned char)mark;
}

static bool is_glued_number(const struct tokens *t, size_t at) { return is_kind(t, at, TOKEN_NUMBER) && t->item[at].glued; }

static struct simple fault(enum quantity_fault f, size_t tokens) { return (struct simple){f, (double)NAN, tokens}; }

/* "1/2": a number, a slash and a number without blanks. "80/20" is a lean share and no amount. */
static struct simple slash_fraction_at(const struct tokens *t, size_t at) {
  if (!is_kind(t, at, TOKEN_NUMBER) || !is_glued_mark(t, at + 1, '/') || !is_glued_number(t, at + 2))
    return (struct simple){0};
  double over = t->item[at].value, under = t->item[at + 2].value;
  if (!(over >= 0) || !(under >= 0)) return fault(QUANTITY_TOO_LONG, 3);
  if (under == 0) return fault(QUANTITY_ZERO_DIVISOR, 3);
  if (over >= under && over + under == 100) return (struct simple){0};
  if (is_glued_mark(t, at + 3, '/')) return fault(QUANTITY_MALFORMED, 5);
  return (struct simple){QUANTITY_FINE, over / under, 3};
}

/* What may follow a whole number: a fraction sign, "1/2", "and a half", "and 1/2". */
static struct simple fraction_after(const struct tokens *t, size_t at) {
  const struct token *k = at < t->count ? &t->item[at] : NULL;
  if (!k || k->kind == TOKEN_MARK || (k->kind == TOKEN_WORD && !span_is(k->word, "and"))) return (struct simple){0};
  if (is_kind(t, at, TOKEN_FRACTION)) return (struct simple){QUANTITY_FINE, t->item[at].value, 1};
  size_t joined = phrase_at(t, at, "and a half");
  if (joined > 0) return (struct simple){QUANTITY_FINE, 0.5, joined};
  joined = phrase_at(t, at, "and");
  if (joined > 0 && is_kind(t, at + 1, TOKEN_FRACTION)) return (struct simple){QUANTITY_FINE, t->item[at + 1].value, 2};
  struct simple slash = slash_fraction_at(t, at + joined);
  if (slash.tokens == 0 || (joined == 0 && t->item[at].glued)) return (struct simple){0};
  if (slash.fault == QUANTITY_FINE && slash.value >= 1) return (struct simple){0};
  slash.tokens += joined;
  return slash;
}

static struct simple digits_at(const struct tokens *t, size_t at) {
  struct simple slash = slash_fraction_at(t, at);
  if (slash.tokens > 0) return slash;
  if (is_glued_mark(t, at + 1, '/') && is_glued_number(t, at + 2)) return (struct simple){0}; /* "80/20" */
  if (is_glued_mark(t, at + 1, ',') && is_glued_number(t, at + 2)) return fault(QUANTITY_COMMA, 3);
  if (is_glued_number(t, at + 1)) return fault(QUANTITY_MALFORMED, 2);
  if (is_glued_mark(t, at + 1, '.') && is_glued_number(t, at + 2)) return fault(QUANTITY_MALFORMED, 3);
  double value = t->item[at].value;
  if (!(value >= 0)) return fault(QUANTITY_TOO_LONG, 1);
  if (value != floor(value)) return (struct simple){QUANTITY_FINE, value, 1};
  struct simple more = fraction_after(t, at + 1);
  if (more.fault != QUANTITY_FINE) return more;
  return (struct simple){QUANTITY_FINE, value + (more.tokens > 0 ? more.value : 0), 1 + more.tokens};
}

/* "two", "thirty", "thirty-one"; 0 when it is none. */
static double number_word(struct span word) {
  const char *dash = word.n > 5 ? memchr(word.p, '-', word.n) : NULL;
  size_t n = dash ? (size_t)(dash - word.p) : word.n;
  for (size_t i = 0; i < COUNT_OF(NUMBER_WORDS); i++) {
    if (NUMBER_WORDS[i].word[0] != word.p[0] || !span_is(span_cut(word, 0, n), NUMBER_WORDS[i].word)) continue;
    if (!dash) return NUMBER_WORDS[i].value;
    double ones = NUMBER_WORDS[i].value >= 20 ? number_word(span_cut(word, n + 1, word.n)) : 0;
    return ones >= 1 && ones <= 9 ? NUMBER_WORDS[i].value + ones : 0;
  }
  return 0;
}

static double number_word_at(const struct tokens *t, size_t at) {
  bool word = is_kind(t, at, TOKEN_WORD) && !t->item[at].no_quantity;
  return word && phrase_at(t, at, "a") == 0 && phrase_at(t, at, "an") == 0 ? number_word(t->item[at].word) : 0;
}

/* "thirty one", "two hundred", "a hundred and fifty": how many tokens more belong to the number. */
static size_t number_goes_on(const struct tokens *t, size_t at, double *value) {
  size_t used = 0;
  double ones = number_word_at(t, at);
  if (*value >= 20 && fmod(*value, 10) == 0 && ones >= 1 && ones <= 9) {
    *value += ones;
    used++;
  }
  if (phrase_at(t, at + used, "hundred") == 0) return used;
  *value *= 100;
  used++;
  size_t joined = phrase_at(t, at + used, "and");
  double rest = number_word_at(t, at + used + joined);
  if (rest < 1 || (joined == 0 && rest < 10)) return used;
  used += joined + 1;
  ones = number_word_at(t, at + used);
  bool more = rest >= 20 && fmod(rest, 10) == 0 && ones >= 1 && ones <= 9;
  *value += rest + (more ? ones : 0);
  return used + more;
}

/* One of the nine words that begin a part. */
static bool may_be_part(struct span word) {
  switch (word.n) {
  case 1:
    return word.p[0] == 'a';
  case 2:
    return span_is(word, "an");
  case 3:
    return span_is(word, "one") || span_is(word, "two");
  case 4:
    return span_is(word, "half");
  case 5:
    return span_is(word, "dozen") || span_is(word, "three") || span_is(word, "third");
  case 7:
    return span_is(word, "quarter");
  default:
    return false;
  }
}

/* Could the word behind be the second of any of them? "dozen", "half" and "quarter" are parts by themselves. */
static bool may_be_second_of_part(const struct tokens *t, size_t at) {
  const struct token *k = &t->item[at];
  if (k->word.n >= 4) return true;
  return is_kind(t, at + 1, TOKEN_WORD) && t->item[at + 1].word.n > 0 && memchr("acdehoqt", t->item[at + 1].word.p[0], 8);
}

/* Whether the word behind begins as the second of the phrase: "a glug" begins no "a quarter". */
static bool may_go_on(const struct tokens *t, size_t at, const char *phrase) {
  const char *second = strchr(phrase, ' ');
  return !second || (is_kind(t, at + 1, TOKEN_WORD) && t->item[at + 1].word.n > 0 && t->item[at + 1].word.p[0] == second[1]);
}

static struct simple words_at(const struct tokens *t, size_t at) {
  if (t->item[at].no_quantity) return (struct simple){0};
  size_t parts = may_be_part(t->item[at].word) && may_be_second_of_part(t, at) ? COUNT_OF(PART_PHRASES) : 0;
  for (size_t i = 0; i < parts; i++) {
    if (PART_PHRASES[i].phrase[0] != t->item[at].word.p[0]) continue;
    size_t used = may_go_on(t, at, PART_PHRASES[i].phrase) ? phrase_at(t, at, PART_PHRASES[i].phrase) : 0;
    if (used > 0 && phrase_at(t, at, "half and half") == 0)
      return (struct simple){QUANTITY_FINE, PART_PHRASES[i].value, used};
  }
  double value = number_word(t->item[at].word);
  if (!(value > 0)) return (struct simple){0};
  if (phrase_at(t, at + 1, "dozen") > 0) return (struct simple){QUANTITY_FINE, 12 * value, 2};
  size_t used = 1 + number_goes_on(t, at + 1, &value);
  struct simple more = fraction_after(t, at + used);
  if (more.fault != QUANTITY_FINE) return more;
  bool article = span_is(t->item[at].word, "a") || span_is(t->item[at].word, "an"); /* "a 1/4 cup" is no more than that */
  if (article && more.tokens > 0 && (is_kind(t, at + used, TOKEN_NUMBER) || is_kind(t, at + used, TOKEN_FRACTION)))
    value = 0;
  return (struct simple){QUANTITY_FINE, value + (more.tokens > 0 ? more.value : 0), used + more.tokens};
}

static struct simple simple_at(const struct tokens *t, size_t at) {
  const struct token *k = at < t->count && !t->item[at].taken ? &t->item[at] : NULL;
  if (!k || k->kind == TOKEN_MARK) return (struct simple){0};
  if (k->kind == TOKEN_NUMBER) return digits_at(t, at);
  return k->kind == TOKEN_WORD ? words_at(t, at) : (struct simple){QUANTITY_FINE, k->value, 1};
}

/* The number after "-", "to" or "or". "or a ..." is not a range. */
static struct simple range_end_at(const struct tokens *t, size_t at) {
  if (at + 1 >= t->count || t->item[at + 1].no_quantity) return (struct simple){0};
  size_t joined = phrase_at(t, at, "-");
  if (joined == 0) joined = phrase_at(t, at, "to");
  if (joined == 0) joined = phrase_at(t, at, "or");
  if (joined == 0 || phrase_at(t, at + joined, "a") > 0 || phrase_at(t, at + joined, "an") > 0) return (struct simple){0};
  struct simple end = simple_at(t, at + joined);
  if (end.tokens > 0) end.tokens += joined;
  return end;
}

struct quantity quantity_read_at(const struct tokens *t, size_t at) {
  struct quantity q = {.fault = QUANTITY_NONE, .low = (double)NAN, .high = (double)NAN};
  bool minus = is_kind(t, at, TOKEN_MARK) && phrase_at(t, at, "-") > 0 && at + 1 < t->count && t->item[at + 1].glued;
  if (minus && (is_kind(t, at + 1, TOKEN_NUMBER) || is_kind(t, at + 1, TOKEN_FRACTION))) {
    struct simple after = simple_at(t, at + 1);
    if (after.tokens > 0) return (struct quantity){QUANTITY_NEGATIVE, (double)NAN, (double)NAN, 1 + after.tokens};
  }
  struct simple first = simple_at(t, at);
  if (first.tokens == 0) return q;
  q = (struct quantity){first.fault, first.value, first.value, first.tokens};
  if (q.fault != QUANTITY_FINE) return q;
  struct simple end = range_end_at(t, at + first.tokens);
  if (end.tokens == 0) return q;
  q.tokens += end.tokens;
  q.high = end.value;
  q.fault = end.fault != QUANTITY_FINE ? end.fault : end.value < first.value ? QUANTITY_DESCENDING : QUANTITY_FINE;
  return q;
}

void quantity_complain(const struct tokens *t, size_t at, struct quantity q, struct diags *d) {
  struct span where = tokens_span(t, at, q.tokens), shown = quoted(where);
  switch (q.fault) {
  case QUANTITY_COMMA: {
    struct span a = t->item[at].at, b = t->item[at + q.tokens - 1].at;
    while (at + 1 < t->count && q.tokens > 3 && a.p + a.n < b.p - 1) a = t->item[++at].at; /* the comma of a range's end */
    if (b.n == 3) {
      diag_say(d, DIAG_ERROR, DIAG_NUMBER, where,
               "'%.*s' has a comma; write %.*s%.*s for thousands or %.*s.%.*s for a decimal point", SPAN_ARG(shown),
               SPAN_ARG(quoted(a)), SPAN_ARG(b), SPAN_ARG(quoted(a)), SPAN_ARG(b));
    } else {
      diag_say(d, DIAG_ERROR, DIAG_NUMBER, where, "'%.*s' has a decimal comma; write %.*s.%.*s", SPAN_ARG(shown),
               SPAN_ARG(quoted(a)), SPAN_ARG(quoted(b)));
    }
    break;
  }
  case QUANTITY_NEGATIVE:
    diag_say(d, DIAG_ERROR, DIAG_NUMBER, where, "an amount cannot be negative; write '%.*s'",
             SPAN_ARG(quoted(tokens_span(t, at + 1, q.tokens - 1))));
    break;
  case QUANTITY_ZERO_DIVISOR:
    diag_say(d, DIAG_ERROR, DIAG_NUMBER, where, "'%.*s' divides by zero", SPAN_ARG(shown));
    break;
  case QUANTITY_DESCENDING:
    diag_say(
        d, DIAG_ERROR, DIAG_NUMBER, where,
        "'%.*s' goes down; a range is written from the smaller to the larger, as in '2-3', and one and a half as '1 1/2'",
        SPAN_ARG(shown));
    break;
  case QUANTITY_TOO_LONG:
    diag_say(d, DIAG_ERROR, DIAG_NUMBER, where, "'%.*s' has too many digits; at most fifteen are read", SPAN_ARG(shown));
    break;
  case QUANTITY_MALFORMED:
    diag_say(d, DIAG_ERROR, DIAG_NUMBER, where, "'%.*s' is not a number; write it as in 2, 0.5, 1/2 or 1 1/2",
             SPAN_ARG(shown));
    break;
  case QUANTITY_FINE:
  case QUANTITY_NONE:
    break;
  }
}
