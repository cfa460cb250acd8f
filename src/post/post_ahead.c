/* What is written otherwise in the whole text before its lines are read: numbers in words, "Recipe A:" of recipes that take
 * turns, "Working days (Mon to Fri):" and the rest days beside them. */
#include "base/num.h"
#include "post/post_item.h"

/* ---- numbers in words ---- */

/* "two hundred grams", "four and a half kilos": how many tokens the number has, with its value; 0. */
static size_t number_in_words(const struct tokens *t, size_t at, double *value) {
  if (!is_word(t, at) || (at > 0 && says(t, at - 1, "half quarter third to or"))) return 0;
  struct quantity q = quantity_at(t, at);
  size_t unit = at + q.tokens;
  if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 2) || is_number(t, unit - 1)) return 0;
  bool measured =
      says_a(t, unit, CLASS_KILOGRAMS) || says(t, unit, "g grams gram grammes kilo kgs mg ml lb lbs pounds ounces oz");
  if (!measured) return 0;
  *value = q.low;
  return q.tokens;
}

/* "a pair of sardines" are two; "the pair of them" are no food. */
static size_t pair_of(const struct tokens *t, size_t at) {
  enum species s;
  bool pair = says(t, at, "a one") && says(t, at + 1, "pair") && says(t, at + 2, "of") && is_word(t, at + 3);
  if (!pair || says(t, at + 3, "them us these those my our") || says_a(t, at + 3, CLASS_ANOTHER_ONE)) return 0;
  for (size_t i = at + 3; i < at + 6; i++)
    if (is_word(t, i) && is_animal_word(t->item[i].word, &s)) return 0;
  return 3;
}

/* "does her the week", "keeps them a fortnight", "lasts all week": how many tokens, with the days; 0. */
static size_t lasts_a_week(const struct tokens *t, size_t at, double *days, struct span *eater) {
  size_t from = at;
  if (!says(t, at, "does do lasts last keeps keep sees covers")) return 0;
  at++;
  *eater = (struct span){"", 0};
  if (says(t, at, "him her them us me both")) *eater = t->item[at++].at;
  if (says(t, at, "for")) at++;
  if (!says(t, at, "the a his her their all one") || (at == from + 1 && !says(t, from, "lasts last"))) return 0;
  at++;
  if (says(t, at, "whole full entire")) at++;
  *days = says(t, at, "week") ? 7 : says(t, at, "fortnight") ? 14 : says(t, at, "month") ? 28 : 0;
  return *days > 0 && !says(t, at + 1, "and or to") ? at + 1 - from : 0;
}

static struct span numbers_written(struct span line, const struct tokens *t, struct arena *arena) {
  struct buf b;
  const char *from = line.p;
  buf_init(&b, arena, line.n + 16 * t->count + 8);
  for (size_t i = 0; i < t->count; i++) {
    double value = 2;
    size_t used = number_in_words(t, i, &value);
    struct span eater = {"", 0};
    if (used == 0) used = pair_of(t, i);
    size_t lasts = used > 0 ? 0 : lasts_a_week(t, i, &value, &eater);
    bool single = says(t, i, "single") && i > 0 && says(t, i - 1, "every each"); /* "every single day" */
    if (used + lasts + single == 0) continue;
    buf_add(&b, (struct span){from, (size_t)(t->item[i].at.p - from)});
    if (lasts > 0) buf_addf(&b, "lasts %.*s%s", SPAN_ARG(eater), eater.n > 0 ? " " : "");
    if (!single) num_sig(&b, value, 6);
    if (lasts > 0) buf_adds(&b, " days");
    used += lasts + single;
    i += used - 1;
    from = t->item[i].at.p + t->item[i].at.n;
  }
  if (from == line.p) return line;
  buf_add(&b, (struct span){from, (size_t)(line.p + line.n - from)});
  return buf_span(&b);
}

/* ---- "Recipe A:", "Bowl two:" ---- */

enum { LABELS_MOST = 4 };

/* "A", "2", "two", "#1"; 0. */
static int label_number(const struct tokens *t, size_t at, size_t *used) {
  *used = 1;
  if (is_mark(t, at, '#')) at++, *used = 2;
  if (is_number(t, at)) return (int)(t->item[at].value >= 1 && t->item[at].value <= LABELS_MOST ? t->item[at].value : 0);
  if (!is_word(t, at)) return 0;
  struct span w = t->item[at].word;
  if (w.n == 1 && w.p[0] >= 'a' && w.p[0] < 'a' + LABELS_MOST) return w.p[0] - 'a' + 1;
  struct quantity q = quantity_at(t, at);
  bool word = w.n > 2 && q.fault == QUANTITY_FINE && q.tokens == 1 && q.low == q.high && q.low <= LABELS_MOST;
  return word && q.low == (int)q.low ? (int)q.low : 0;
}

/* Behind a label: "(per day)", ":", "-": how many tokens; SIZE_MAX where something else follows. */
static size_t behind_label(const struct tokens *t, size_t at) {
  size_t from = at;
  if (is_mark(t, at, '(')) {
    while (at < t->count && !is_mark(t, at, ')')) {
      if (is_word(t, at) && !says(t, at, "per day a each every daily all amounts in grams g for one turn")) return SIZE_MAX;
      if (is_number(t, at)) return SIZE_MAX;
      at++;
    }
    at++;
  } else if (says(t, at, "per a each every daily")) {
    size_t often = frequency_at(t, at).tokens;
    if (often == 0) return SIZE_MAX;
    at += often;
  }
  while (is_mark(t, at, ':') || is_mark(t, at, '-') || is_mark(t, at, '.') || is_mark(t, at, '=')) at++;
  return at > from || at >= t->count ? at - from : SIZE_MAX;
}

/* A label where the line or a sentence of it begins: which one, and its tokens. */
static int label_at(const struct tokens *t, size_t at, size_t *used) {
  bool begins = at == 0 || is_mark(t, at - 1, '.') || is_mark(t, at - 1, '*') || is_mark(t, at - 1, '#') ||
                is_mark(t, at - 1, '-') || is_mark(t, at - 1, ';') || is_mark(t, at - 1, '!');
  size_t number_tokens;
  if (!begins || !says_a(t, at, CLASS_TURN_LABEL)) return 0;
  int k = label_number(t, at + 1, &number_tokens);
  size_t behind = k > 0 ? behind_label(t, at + 1 + number_tokens) : SIZE_MAX;
  if (behind == SIZE_MAX) return 0;
  *used = 1 + number_tokens + behind;
  return k;
}

/* How many labels of one kind there are, each of them once; 0 when one is missing or stands there twice. */
static int labels_in(struct post_reader *r, struct span text) {
  int seen[LABELS_MOST + 1] = {0}, most = 0;
  struct span word = {"", 0}, line;
  struct lines lines = lines_of(text);
  while (lines_next(&lines, &line)) {
    struct tokens t = tokens_of(line, r->arena);
    for (size_t i = 0; i < t.count; i++) {
      size_t used;
      int k = label_at(&t, i, &used);
      if (k == 0) continue;
      if (word.n > 0 && !span_eq_fold(word, t.item[i].at)) return 0;
      word = t.item[i].at;
      seen[k]++;
      if (k > most) most = k;
    }
  }
  for (int k = 1; k <= most; k++)
    if (seen[k] != 1) return 0;
  return most;
}

/* "Recipe A" as "Week 1", where the text says that they take turns. */
static struct span labels_written(struct post_reader *r, struct span text, struct arena *arena) {
  bool weeks, turns = false;
  struct span line;
  if (post_day_rotation(text, &weeks) > 0) return text;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line) && !turns;) {
    struct tokens t = tokens_of(line, r->arena);
    turns = holds_a(&t, 0, t.count, CLASS_TAKING_TURNS_ABOUT);
  }
  if (!turns || labels_in(r, text) < 2) return text;
  struct buf b;
  buf_init(&b, arena, 2 * text.n + 40);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = tokens_of(line, r->arena);
    const char *from = line.p;
    for (size_t i = 0; i < t.count; i++) {
      size_t used;
      int k = label_at(&t, i, &used);
      if (k == 0) continue;
      buf_add(&b, (struct span){from, (size_t)(t.item[i].at.p - from)});
      buf_addf(&b, "Week %d:", k);
      i += used - 1;
      from = t.item[i].at.p + t.item[i].at.n;
    }
    buf_add(&b, (struct span){from, (size_t)(line.p + line.n - from)});
    buf_addc(&b, '\n');
  }
  return buf_span(&b);
}

/* ---- kinds of days ---- */

/* The days of the week that are named from 'at' on: "Mon to Fri", "Tuesday, Thursday and Sunday"; how many tokens. */
static size_t days_named(const struct tokens *t, size_t at, unsigned *days) {
  size_t from = at, used = at;
  int last = -1;
  *days = 0;
  while (at < t->count) {
    const char *number;
    int day = is_word(t, at) && meaning_at(t, at, CLASS_DAY_OF_WEEK, &number) > 0 ? number[0] - '1' : -1;
    if (says(t, at, "weekend weekends"))
      *days |= 0x60;
    else if (says(t, at, "weekdays weekday"))
      *days |= 0x1F;
    else if (day < 0)
      break;
    bool range = last >= 0 && day >= 0 && (is_mark(t, at - 1, '-') || says(t, at - 1, "to till until through thru"));
    for (int d = last; range && d != day; d = (d + 1) % 7) *days |= 1u << d;
    if (day >= 0) *days |= 1u << day;
    last = day;
    used = ++at;
    while (is_mark(t, at, ',') || is_mark(t, at, '/') || is_mark(t, at, '&') || is_mark(t, at, '+') || is_mark(t, at, '-') ||
           says_a(t, at, CLASS_BETWEEN_DAYS))
      at++;
  }
  return used - from;
}

static void write_days(struct buf *b, unsigned days) {
  static const char *const NAME[7] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
  int left = 0;
  for (int d = 0; d < 7; d++) left += (days >> d & 1) != 0;
  int all = left;
  for (int d = 0; d < 7; d++)
    if (days >> d & 1) {
      buf_addf(b, "%s%s", left == all ? "" : left == 1 ? " and " : ", ", NAME[d]);
      left--;
    }
}

struct kinds_of_days {
  struct span kind; /* "working"; "" none is told */
  unsigned days;    /* bits from Monday */
  double count;     /* or how many of them a week has; 0 */
};

/* "working days (Mon to Fri)", "run days are Tue and Thu", "training days (3 a week)": the tokens from its kind on; 0. */
static size_t kind_told(const struct tokens *t, size_t at, struct kinds_of_days *k) {
  if (!says_a(t, at, CLASS_KIND_OF_DAY) || !says(t, at + 1, "day days")) return 0;
  size_t from = at + 2;
  bool bracket = is_mark(t, from, '(');
  while (is_mark(t, from, '(') || is_mark(t, from, '=') || is_mark(t, from, ',') || is_mark(t, from, '-') ||
         says(t, from, "are is on that's thats which ie i.e so being"))
    from++;
  unsigned days = 0;
  size_t used = from > at + 2 ? days_named(t, from, &days) : 0;
  struct quantity q = used == 0 && bracket ? quantity_at(t, from) : (struct quantity){.fault = QUANTITY_NONE};
  size_t often = from + q.tokens;
  if (says(t, often, "days times x")) often++;
  bool counted = q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 1 && q.low <= 6 && says(t, often, "a per") &&
                 says(t, often + 1, "week");
  if (used == 0 && !counted) return 0;
  *k = (struct kinds_of_days){.kind = t->item[at].word, .days = used > 0 ? days : 0, .count = counted ? q.low : 0};
  from = counted ? often + 2 : from + used;
  if (bracket && !is_mark(t, from, ')')) return 0;
  return from + bracket - at;
}

/* "rest days", "other days", "days off": the tokens; 0. */
static size_t other_kind(const struct tokens *t, size_t at) {
  if (says_a(t, at, CLASS_KIND_OF_REST) && says(t, at + 1, "day days")) return 2;
  return says(t, at, "days") && says(t, at + 1, "off") ? 2 : 0;
}

static void write_kind(struct buf *b, const struct kinds_of_days *k, bool rest) {
  if (k->count > 0) {
    num_sig(b, rest ? 7 - k->count : k->count, 1);
    buf_adds(b, " days a week");
  } else {
    write_days(b, rest ? ~k->days & 0x7F : k->days);
  }
}

/* "Run days are Tue and Thu.": it only says which they are. */
static bool only_tells_days(const struct tokens *t, size_t from, size_t end) {
  bool begins = from == 0 || is_mark(t, from - 1, '.') || is_mark(t, from - 1, '-') || is_mark(t, from - 1, '*');
  return begins && (end >= t->count || is_mark(t, end, '.'));
}

/* One line with its kinds of days as days of the week. */
static void write_line_of_days(struct buf *b, struct span line, const struct tokens *t, const struct kinds_of_days *k) {
  const char *from = line.p;
  for (size_t i = 0; i < t->count; i++) {
    struct kinds_of_days told;
    size_t used = kind_told(t, i, &told), rest = used > 0 ? 0 : other_kind(t, i), begin = i;
    bool again = used == 0 && rest == 0 && is_word(t, i) && span_eq_fold(t->item[i].word, k->kind);
    if (again && says(t, i + 1, "day days")) used = 2;
    if (used == 0 && rest == 0) continue;
    while (begin > 0 && says(t, begin - 1, "the his her my our all")) begin--;
    bool on = begin > 0 && says(t, begin - 1, "on");
    if (on && k->count > 0) begin--;
    buf_add(b, (struct span){from, (size_t)(t->item[begin].at.p - from)});
    i += (used > 0 ? used : rest) - 1;
    from = t->item[i].at.p + t->item[i].at.n;
    if (only_tells_days(t, begin, i + 1)) continue;
    if (!on && begin > 0 && is_word(t, begin - 1) && k->count == 0) buf_adds(b, "on ");
    write_kind(b, k, rest > 0);
  }
  buf_add(b, (struct span){from, (size_t)(line.p + line.n - from)});
}

static struct span kinds_of_days_written(struct post_reader *r, struct span text, struct arena *arena) {
  struct kinds_of_days k = {.kind = {"", 0}};
  struct span line;
  size_t kinds = 0;
  bool rest = false;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = tokens_of(line, r->arena);
    for (size_t i = 0; i < t.count; i++) {
      kinds += kind_told(&t, i, &k) > 0;
      rest = rest || other_kind(&t, i) > 0;
    }
  }
  if (kinds != 1 || !rest) return text;
  struct buf b;
  buf_init(&b, arena, 4 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = tokens_of(line, r->arena);
    write_line_of_days(&b, line, &t, &k);
    buf_addc(&b, '\n');
  }
  return buf_span(&b);
}

struct span post_ahead(struct post_reader *r, struct span text, struct arena *arena) {
  struct buf b;
  struct span line;
  bool any = false;
  buf_init(&b, arena, 4 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = tokens_of(line, r->arena);
    struct span now = numbers_written(line, &t, r->arena);
    any = any || now.p != line.p;
    buf_addf(&b, "%.*s\n", SPAN_ARG(now));
  }
  if (any) text = buf_span(&b);
  return kinds_of_days_written(r, labels_written(r, text, arena), arena);
}
