/* What is written otherwise in the whole text before its lines are read: numbers in words, "Working days (Mon
 * to Fri):" and the rest days beside them. */
#include "base/num.h"
#include "post/page/post_page.h"

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
    if (is_word(t, i) && token_is_animal(&t->item[i], &s)) return 0;
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

struct span post_numbers(struct post_reader *r, struct span before, struct span line) {
  (void)before;
  struct tokens t = post_tokens(r, line);
  return numbers_written(line, &t, r->keep);
}

/* ---- kinds of days ---- */

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
  size_t used = from > at + 2 ? post_days_named(t, from, &days) : 0;
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
    frequency_print_days(b, rest ? ~k->days & 0x7F : k->days);
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
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count; i++) {
      kinds += kind_told(&t, i, &k) > 0;
      rest = rest || other_kind(&t, i) > 0;
    }
  }
  if (kinds != 1 || !rest) return text;
  struct buf b;
  buf_init(&b, arena, 4 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
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
    struct tokens t = post_tokens(r, line);
    struct span now = numbers_written(line, &t, r->arena);
    any = any || now.p != line.p;
    buf_addf(&b, "%.*s\n", SPAN_ARG(now));
  }
  if (any) text = buf_span(&b);
  return kinds_of_days_written(r, post_labels_written(r, text, arena), arena);
}
