/* Two kinds of days of which one is counted: "on working days 600 g of mince, the other four days it's 400 g", "hard days:
 * ... The three easy days it is ...". How many the first are follows. */
#include "base/num.h"
#include "post/refer/post_refer.h"

enum { DAYS_OF_WEEK = 7 };

/* "the other four days", "the three days off", "on the two easy days", "the remaining 3 days": its tokens; 0. */
static size_t other_days_at(const struct tokens *t, size_t at, double *days) {
  size_t i = says(t, at, "on for") ? at + 1 : at;
  if (!says(t, i, "the his her")) return 0;
  i++;
  bool other = says(t, i, "other remaining");
  if (other) i++;
  struct quantity q = quantity_at(t, i);
  if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 1 && q.low < DAYS_OF_WEEK) || says(t, i, "a an")) return 0;
  i += q.tokens;
  if (says_a(t, i, CLASS_KIND_OF_REST) || says(t, i, "easy quiet lazy calm slow idle normal home")) other = true, i++;
  if (!says(t, i, "days day")) return 0;
  i++;
  if (says(t, i, "off")) other = true, i++;
  if (!other || says(t, i, "ago before after a per")) return 0;
  *days = q.low;
  return i - at;
}

/* "on working days", "Hard days:", "on those days", "days when he works": its tokens; 0. */
static size_t first_days_at(const struct tokens *t, size_t at) {
  size_t i = says(t, at, "on for") ? at + 1 : at;
  const char *day;
  bool on = i > at;
  if (says(t, i, "his her the")) i++;
  if (!is_word(t, i) || meaning_at(t, i, CLASS_DAY_OF_WEEK, &day) > 0 || !says(t, i + 1, "days")) return 0;
  if (says(t, i, "other all most some few many week every both rest two three four five six several calendar")) return 0;
  if (quantity_at(t, i).fault == QUANTITY_FINE || frequency_at(t, at).tokens > 0) return 0;
  size_t end = i + 2;
  bool marked = is_mark(t, end, ':') || is_mark(t, end, '=') || is_mark(t, end, '-');
  bool begins = at == 0 || t->item[at - 1].kind == TOKEN_MARK;
  bool feeds = says(t, end, "he she it it's they") || post_amount_at(t, end).tokens > 0 || is_mark(t, end, ',');
  return marked || (on && feeds) || (begins && feeds) ? end - at : 0;
}

static void write_days(struct story *st, size_t i, size_t at, size_t used, double days) {
  struct buf b;
  buf_init(&b, st->r->arena, 60);
  num_sig(&b, days, 1);
  buf_adds(&b, " days a week");
  const struct tokens *t = &st->s[i].t;
  size_t end = at + used;
  bool goes_on = is_mark(t, end, ':') || is_mark(t, end, '=') || is_mark(t, end, '-') || is_mark(t, end, ',');
  bool it = says(t, end, "it") && says(t, end + 1, "is");
  if (goes_on) used++;
  if (!goes_on && it) used += 2;
  if (!goes_on && says(t, end, "it's")) used++;
  buf_adds(&b, ":");
  refer_between(st, i, at, at + used, buf_text(&b));
}

/* Where days of the week are named, "on those days" are these, and other readers know them. */
static bool names_days(const struct story *st, size_t from, size_t to) {
  const char *day;
  for (size_t i = from; i <= to; i++)
    for (size_t k = 0; k < st->s[i].t.count; k++)
      if (meaning_at(&st->s[i].t, k, CLASS_DAY_OF_WEEK, &day) > 0) return true;
  return false;
}

/* Kinds of days, or days that are counted, besides the other ones: of three kinds nobody knows how many the first are. */
static size_t kinds_told(const struct story *st, size_t to) {
  size_t kinds = 0;
  for (size_t i = 0; i <= to; i++)
    for (size_t k = 0; k < st->s[i].t.count; k++) {
      size_t used = first_days_at(&st->s[i].t, k);
      kinds += used > 0;
      if (used > 0) k += used - 1;
    }
  return kinds;
}

/* "Day A (4 days a week): ...", "Day B (3 days a week): ...", "Both: 1 tsp olive oil": on all days. */
static void on_both(struct story *st) {
  size_t kinds = 0;
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    if (says(t, 0, "both") && is_mark(t, 1, ':') && kinds >= 2) refer_between(st, i, 0, 1, "Every day");
    for (size_t k = 0; k + 3 < t->count && k < 8; k++)
      if (is_number(t, k) && says(t, k + 1, "days") && says(t, k + 2, "a per") && says(t, k + 3, "week")) kinds++;
  }
}

void refer_day_kinds(struct story *st) {
  on_both(st);
  enum { FAR = 2 };
  for (size_t i = 0; i < st->count; i++) {
    double days = 0;
    size_t other = 0, used = 0, first = 0, n = 0, where = i;
    for (size_t k = 0; k < st->s[i].t.count && used == 0; k++)
      if ((used = other_days_at(&st->s[i].t, k, &days)) > 0) other = k;
    if (used == 0 || !post_any_amount(&st->s[i].t, other + used)) continue;
    for (size_t m = i + 1; m-- > 0 && m + FAR >= i && n == 0;) {
      size_t last = m == i ? other : st->s[m].t.count;
      for (size_t k = 0; k < last && n == 0; k++)
        if ((n = first_days_at(&st->s[m].t, k)) > 0) first = k, where = m;
      if (m == 0) break;
    }
    if (n == 0 || !post_any_amount(&st->s[where].t, first + n)) continue;
    if (kinds_told(st, i) != 1 || names_days(st, where > 0 ? where - 1 : 0, i)) continue;
    write_days(st, i, other, used, days);
    if (other > 0) { /* a sentence of its own, that the days are read in front */
      size_t cut = other;
      while (cut > 0 && (st->s[i].t.item[cut - 1].kind == TOKEN_MARK || says(&st->s[i].t, cut - 1, "and but"))) cut--;
      bool split = cut > 0 && refer_split(st, i, other);
      if (split && cut < other) refer_between(st, i, cut, st->s[i].t.count, "");
    }
    write_days(st, where, first, n, DAYS_OF_WEEK - days);
    if (first > 0) refer_split(st, where, first);
  }
}
