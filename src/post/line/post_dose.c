/* Capsules and tablets: what each holds, and how many. */
#include "post/line/post_line.h"

/* "fish oil capsules 1000 mg, 2 a day", "vitamin E 200 IU capsule, one": what each of them holds, and then how many. */
double post_how_many_of(const struct tokens *t, const struct segment *s, struct words *words) {
  size_t behind = s->amount + s->value.tokens;
  bool dose = strcmp(s->value.unit, "mg") == 0 || strcmp(s->value.unit, "IU") == 0 || strcmp(s->value.unit, "mcg") == 0;
  bool capsule = false;
  for (size_t i = s->from; dose && i < s->to; i++) capsule = capsule || says_a(t, i, CLASS_CAPSULE);
  if (capsule && s->amount > s->from) { /* "two 1000 mg fish oil softgels" */
    struct quantity q = quantity_at(t, s->amount - 1);
    if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 1 && q.low <= 20) return q.low;
    q = quantity_at(t, s->from); /* "2 zinc tablets 15 mg" */
    if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 0.5 && q.low <= 20 && s->from + q.tokens < s->amount) {
      words->skip_from = s->from;
      words->skip_to = s->from + q.tokens;
      return q.low;
    }
  }
  for (size_t i = behind; capsule && i < s->to; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 0.5 && q.low <= 60) || says(t, i, "a an")) continue;
    size_t next = i + q.tokens;
    if (says_a(t, next, CLASS_CAPSULE)) next++;
    if (next >= s->to || t->item[next].kind == TOKEN_MARK || frequency_at(t, next).tokens > 0 ||
        says(t, next, "a per each daily of")) {
      static const double MOST_IN_ONE_MG = 1400; /* "4000 mg fish oil (4 caps)": of all of them */
      bool of_all = next > i + q.tokens && is_mark(t, i - 1, '(') && q.low > 1 && s->amount == s->from &&
                    strcmp(s->value.unit, "mg") == 0 && s->value.low > MOST_IN_ONE_MG;
      words->skip_from = i;
      words->skip_to = next;
      return of_all ? 1 : q.low;
    }
  }
  return 0;
}

/* "1 celery stick", "2 broccoli florets": the measure stands behind the food. */
void post_unit_behind(struct post_reader *r, struct wanted *w, struct words *words) {
  struct search_hit hit;
  size_t n = words->text.n, at = n;
  if (!w->amount.bare || w->amount.by_word || words->text.n == 0) return;
  while (at > 0 && words->text.p[at - 1] != ' ') at--;
  struct span last = span_cut(buf_span(&words->text), at, n);
  if (at < 2 || !is_a(last, CLASS_UNIT_BEHIND)) return;
  if (post_look_up(r, buf_span(&words->text), &hit) && hit.exact_name) return; /* "2 fish sticks" */
  const char *means = means_as(last, CLASS_UNIT);
  if (!means || strlen(means) >= sizeof w->amount.unit) return;
  memcpy(w->amount.unit, means, strlen(means) + 1);
  w->amount.bare = false;
  words->text.n = at - 1;
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
