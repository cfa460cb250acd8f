/* Capsules and tablets: what each holds, and how many. */
#include "post/post_item.h"

/* "fish oil capsules 1000 mg, 2 a day", "vitamin E 200 IU capsule, one": what each of them holds, and then how many. */
double post_how_many_of(const struct tokens *t, const struct segment *s, struct words *words) {
  size_t behind = s->amount + s->value.tokens;
  bool dose = strcmp(s->value.unit, "mg") == 0 || strcmp(s->value.unit, "IU") == 0 || strcmp(s->value.unit, "mcg") == 0;
  bool capsule = false;
  for (size_t i = s->from; dose && i < s->to; i++) capsule = capsule || says_a(t, i, CLASS_CAPSULE);
  if (capsule && s->amount > s->from) { /* "two 1000 mg fish oil softgels" */
    struct quantity q = quantity_at(t, s->amount - 1);
    if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 1 && q.low <= 20) return q.low;
  }
  for (size_t i = behind; capsule && i < s->to; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 0.5 && q.low <= 60) || says(t, i, "a an")) continue;
    size_t next = i + q.tokens;
    if (says_a(t, next, CLASS_CAPSULE)) next++;
    if (next >= s->to || t->item[next].kind == TOKEN_MARK || frequency_at(t, next).tokens > 0 ||
        says(t, next, "a per each daily of")) {
      words->skip_from = i;
      words->skip_to = next;
      return q.low;
    }
  }
  return 0;
}

/* "1 fish oil cap (1000 mg)", "2 salmon oil capsules 500 mg": so many, and behind them what each holds. */
void post_dose_of_each(const struct tokens *t, const struct segment *s, struct wanted *w, struct words *words) {
  size_t from = s->amount + s->value.tokens;
  bool capsule = false, bare = s->value.bare && s->value.low == s->value.high && s->value.low <= 20;
  for (size_t i = from; bare && w->times == 1 && i < s->to; i++) {
    capsule = capsule || says_a(t, i, CLASS_CAPSULE);
    struct post_amount a = capsule ? post_amount_at(t, i) : (struct post_amount){0};
    if (a.tokens == 0 || !word_in(span_of(a.unit), "mg IU mcg")) continue;
    w->times = s->value.low;
    w->amount = a;
    words->skip_from = i;
    words->skip_to = i + a.tokens;
    return;
  }
}
