/* "On those two days no beef": the days that were named last, written out. */
#include "post/rewrite/post_rewrite.h"

static int days_counted(unsigned days) {
  int n = 0;
  for (; days != 0; days >>= 1) n += (int)(days & 1);
  return n;
}

/* "those two days": how many there are said to be, 0 nothing said. */
static int number_told(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault == QUANTITY_FINE && q.low == q.high && !says(t, i, "a an")) return (int)q.low;
    if (says(t, i, "both")) return 2;
  }
  return 0;
}

/* "The other five: 450 g beef", where two days were named: "the other five days"; the text itself where nothing is so. */
static struct span with_days(struct post_reader *r, const struct tokens *t, struct span text) {
  enum { WEEK = 7 };
  for (size_t i = 0; i + 1 < t->count; i++) {
    struct quantity q = says(t, i, "other remaining") ? quantity_at(t, i + 1) : (struct quantity){.fault = QUANTITY_NONE};
    size_t end = i + 1 + q.tokens;
    bool apart = end < t->count && (is_mark(t, end, ':') || is_mark(t, end, ',') || is_mark(t, end, '-') ||
                                    says(t, end, "it's its it is he she they we i are he's she's days nights evenings"));
    if (q.fault != QUANTITY_FINE || q.tokens == 0 || !apart) continue;
    bool named = r->last_days_set != 0 && q.low + days_counted(r->last_days_set) == WEEK;
    bool counted = !named && r->last_days_set == 0 && q.low + r->last_days_counted == WEEK;
    if (!named && !counted) continue;
    if (says(t, end, "days nights evenings")) end++;
    const char *at = t->item[end - 1].at.p + t->item[end - 1].at.n;
    struct buf b;
    buf_init(&b, r->keep, text.n + 20);
    if (counted) { /* "five days a week ...; the other two it's": 2 days a week */
      size_t from = i > 0 && says(t, i - 1, "the") ? i - 1 : i;
      if (from > 0 && says(t, from - 1, "on for")) from--;
      buf_addf(&b, "%.*s%d days a week%.*s", (int)(t->item[from].at.p - text.p), text.p, (int)q.low, (int)(text.p + text.n - at), at);
      return buf_span(&b);
    }
    if (end > i + 1 + q.tokens) continue;
    buf_addf(&b, "%.*s days%.*s", (int)(at - text.p), text.p, (int)(text.p + text.n - at), at);
    return buf_span(&b);
  }
  return text;
}

/* "The lamb is left out", "I skip the beef": what goes, as [*from, *to); false: nothing does. */
static bool left_out_at(const struct tokens *t, size_t at, size_t *from, size_t *to, size_t *end) {
  enum { WORDS_MOST = 4 };
  static const char OUT[] = "out off away";
  bool somebody = says(t, at, "i we he she it they");
  if (somebody) {
    size_t verb = at + 1;
    bool skips = says(t, verb, "skip skips drop drops omit omits miss misses"), leaves = says(t, verb, "leave leaves");
    if (!skips && !leaves) return false;
    size_t i = leaves && says(t, verb + 1, OUT) ? verb + 2 : verb + 1;
    if (says(t, i, "the his her their")) i++;
    for (*from = *to = i; is_word(t, *to) && *to < i + WORDS_MOST && !says(t, *to, OUT); ++*to) {
    }
    *end = says(t, *to, OUT) ? *to + 1 : *to;
    return *to > *from && (skips || *end > *to || i > verb + 2);
  }
  if (!says(t, at, "the his her their")) return false;
  for (*from = *to = at + 1; is_word(t, *to) && *to < at + 1 + WORDS_MOST && !says(t, *to, "is are gets goes"); ++*to) {
  }
  if (*to == *from || !says(t, *to, "is are gets")) return false;
  *end = *to + 2;
  if (says(t, *to + 1, "skipped dropped omitted missing")) return true;
  *end = *to + 3;
  return says(t, *to + 1, "left missed taken") && says(t, *to + 2, OUT);
}

/* "On Fridays she has haddock, and that day the lamb is left out": no lamb, on the days that were named last. */
static struct span without_on_that_day(struct post_reader *r, const struct tokens *t, struct span text) {
  bool named = false;
  for (size_t i = 0; i + 3 < t->count; i++) {
    named = named || frequency_at(t, i).days != 0;
    size_t from, to, end, day = says(t, i, "on") ? i + 1 : i, at = day + 2;
    if (!says(t, day, "that those") || !says(t, day + 1, "day days") || (!named && r->last_days.n == 0)) continue;
    if (is_mark(t, at, ',')) at++;
    if (!left_out_at(t, at, &from, &to, &end) || !post_names_food(r, t, from, to)) continue;
    const char *behind = t->item[end - 1].at.p + t->item[end - 1].at.n;
    struct buf b;
    buf_init(&b, r->keep, text.n + r->last_days.n + 16);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[i].at.p - text.p)});
    if (!named) buf_addf(&b, "%s%.*s ", span_starts_fold(r->last_days, "on ") ? "" : "on ", SPAN_ARG(r->last_days));
    buf_addf(&b, "no %.*s", SPAN_ARG(tokens_span(t, from, to - from)));
    buf_add(&b, (struct span){behind, (size_t)(text.p + text.n - behind)});
    return buf_span(&b);
  }
  return text;
}

struct span post_those_days(struct post_reader *r, struct span text) {
  struct tokens t = post_tokens(r, text);
  struct span without = without_on_that_day(r, &t, text);
  if (without.p != text.p) text = without, t = post_tokens(r, text);
  if (r->last_days.n > 0 || r->last_days_counted > 0) {
    struct span whole = with_days(r, &t, text);
    if (whole.p != text.p) text = whole, t = post_tokens(r, text);
  }
  for (size_t i = 0; i < t.count && r->last_days.n > 0; i++) {
    size_t used = phrase_of(&t, i, CLASS_DAYS_TOLD_BEFORE);
    int told = used > 0 ? number_told(&t, i, i + used) : 0;
    if (used == 0 || (told > 0 && told != days_counted(r->last_days_set))) continue;
    const char *end = t.item[i + used - 1].at.p + t.item[i + used - 1].at.n;
    struct buf b;
    buf_init(&b, r->keep, text.n + r->last_days.n + 8);
    buf_add(&b, (struct span){text.p, (size_t)(t.item[i].at.p - text.p)});
    buf_addf(&b, "%s%.*s", span_starts_fold(r->last_days, "on ") ? "" : "on ", SPAN_ARG(r->last_days));
    buf_add(&b, (struct span){end, (size_t)(text.p + text.n - end)});
    return buf_span(&b);
  }
  for (size_t i = 0; i < t.count; i++) {
    struct frequency f = frequency_at(&t, i);
    if (f.tokens == 0 || f.refuse) continue;
    if (f.days != 0 && !f.other_days) {
      r->last_days = arena_span(r->keep, tokens_span(&t, i, f.tokens));
      r->last_days_set = f.days;
    } else if (f.days == 0 && !f.other_days && f.feedings <= 1 && !f.each_meal && !(f.per_28 > 0) &&
               f.times_per_28 > 4 && f.times_per_28 < CALENDAR_DAYS && f.times_per_28 == 4 * floor(f.times_per_28 / 4)) {
      r->last_days_counted = (int)(f.times_per_28 / 4);
      r->last_days_set = 0;
    }
    i += f.tokens - 1;
  }
  return text;
}
