/* A form filled in: "Meals per day: 3", "Meat (type, amount per meal): turkey, 40 g", "Carbohydrate (per meal): none, only
 * in the evening 25 g potato". The name says what is asked for and for how long; the rest is what is fed. */
#include "base/num.h"
#include "post/built/post_built.h"

enum { NAME_MOST_WORDS = 4 };

/* "Meat", "Fat / oil", "Bones and eggs": the tokens of such a name at the front; 0. */
static size_t name_at(const struct tokens *t) {
  size_t words = 0, at = 0;
  for (; at < t->count && words <= NAME_MOST_WORDS; at++) {
    bool joins = is_mark(t, at, '/') || is_mark(t, at, '&') || is_mark(t, at, ',') || says(t, at, "and or");
    if (is_word(t, at) && (token_is_a(&t->item[at], CLASS_KIND_OF_FOOD) || token_is_a(&t->item[at], CLASS_FORM_NAME)))
      words++;
    else if (!(joins && words > 0))
      break;
  }
  return words > 0 && words <= NAME_MOST_WORDS ? at : 0;
}

/* What the words in brackets say of how often: "Per meal", "Per week"; NULL: nothing. */
static const char *rate_in(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++) {
    bool per = (says(t, i, "per each every a") || is_mark(t, i, '/')) && i + 1 < to;
    if (per && says(t, i + 1, "meal feed feeding serving time bowl")) return "Per meal";
    if ((per && says(t, i + 1, "week wk")) || says(t, i, "weekly")) return "Per week";
    if ((per && says(t, i + 1, "month")) || says(t, i, "monthly")) return "Per month";
    if ((per && says(t, i + 1, "day d")) || says(t, i, "daily")) return "Daily";
  }
  return NULL;
}

/* "none, only in the evening 25 g potato": what is fed stands behind the exception. */
static size_t behind_none(const struct tokens *t, size_t at) {
  if (!says(t, at, "none no nothing nil") || !(is_mark(t, at + 1, ',') || is_mark(t, at + 1, ';'))) return at;
  return says(t, at + 2, "only except but just apart") ? at + (says(t, at + 3, "from for") ? 4 : 3) : at;
}

/* "Meals per day: 3", "Number of feeds: two" */
static size_t meals_asked(const struct tokens *t, double *meals) {
  size_t at = 0;
  while (says(t, at, "number no how many of daily")) at++;
  if (!says(t, at, "meals feeds feedings")) return 0;
  at++;
  while (says(t, at, "per a each day fed daily") || is_mark(t, at, '/')) at++;
  if (!(is_mark(t, at, ':') || is_mark(t, at, '=') || is_mark(t, at, '-'))) return 0;
  struct quantity q = quantity_at(t, at + 1);
  *meals = q.low;
  return q.fault == QUANTITY_FINE && q.tokens > 0 && q.low == q.high && q.low <= 6 && at + 1 + q.tokens == t->count
             ? t->count
             : 0;
}

struct span post_form(struct post_reader *r, struct span before, struct span line) {
  struct tokens t = post_tokens(r, line);
  struct buf b;
  double meals;
  (void)before;
  if (t.count < 3) return line;
  buf_init(&b, r->keep, line.n + 60);
  if (meals_asked(&t, &meals) > 0) {
    num_sig(&b, meals, 3);
    buf_adds(&b, " meals a day");
    return buf_span(&b);
  }
  size_t at = name_at(&t), open = at, rest;
  if (at == 0) return line;
  if (is_mark(&t, at, '(')) {
    while (at < t.count && !is_mark(&t, at, ')')) at++;
    at++;
  }
  if (!is_mark(&t, at, ':') || at + 1 >= t.count) return line;
  const char *rate = rate_in(&t, open, at);
  rest = behind_none(&t, at + 1);
  if (!rate && rest == at + 1) return line;
  struct span fed = span_cut(line, (size_t)(token_begin(&t, rest) - line.p), line.n);
  struct tokens said = tokens_part(&t, rest, t.count);
  bool own = false; /* it says itself how often, or at which meal */
  for (size_t i = 0; i < said.count && !own; i++)
    own = frequency_at(&said, i).tokens > 0 || (is_word(&said, i) && token_is_a(&said.item[i], CLASS_MEAL));
  if (rate && !own) buf_addf(&b, "%s: ", rate);
  buf_add(&b, fed);
  return buf_span(&b);
}
