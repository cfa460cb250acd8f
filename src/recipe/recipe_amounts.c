/* The amounts of a line: its unit, what one package holds, a second amount behind the food. */
#include <math.h>

#include "recipe/recipe_line.h"

size_t next_free(const struct tokens *t, size_t at) {
  while (at < t->count && t->item[at].taken) at++;
  return at;
}

/* "x" as a word or the multiplication sign. */
static bool is_times(const struct tokens *t, size_t at) { return phrase_at(t, at, "x") > 0; }

static bool is_amount_digit(const struct tokens *t, size_t at) {
  return at < t->count && !t->item[at].taken && (t->item[at].kind == TOKEN_NUMBER || t->item[at].kind == TOKEN_FRACTION);
}

/* ---- units ---- */

static struct span joined(const struct tokens *t, size_t a, size_t b, char out[32]) {
  struct span x = t->item[a].word, y = t->item[b].word;
  if (x.n + y.n + 1 > 31) return (struct span){out, 0};
  memcpy(out, x.p, x.n);
  out[x.n] = ' ';
  memcpy(out + x.n + 1, y.p, y.n);
  return (struct span){out, x.n + 1 + y.n};
}

enum unit unit_at_token(const struct tokens *t, size_t at, size_t *used) {
  char two[32];
  *used = 0;
  if (is_mark(t, at, '%')) {
    *used = 1;
    return UNIT_PERCENT;
  }
  if (!is_word(t, at)) return UNIT_NONE;
  size_t second = is_mark(t, at + 1, '.') ? at + 2 : at + 1; /* "fl. oz" */
  enum unit u = is_word(t, second) ? unit_by_word(joined(t, at, second, two)) : UNIT_NONE;
  size_t last = second;
  if (u == UNIT_NONE) {
    u = unit_by_word(t->item[at].word);
    last = at;
  }
  if (u == UNIT_NONE) return u;
  *used = last - at + 1;
  if (is_mark(t, last + 1, '.') && t->item[last + 1].glued) ++*used; /* "tbsp." */
  return u;
}

static enum unit_kind kind_of(enum unit u) { return unit_info[u].kind; }

/* "3 tbs hemp seed", "3 tbs. hemp seed": right after the amount, with a food after it, one letter away from a unit. */
static bool looks_like_unit(const struct tokens *t, size_t at) {
  struct span w = t->item[at].word;
  size_t next = next_free(t, at + 1);
  if (is_mark(t, next, '.') && t->item[next].glued) next = next_free(t, next + 1);
  if (!is_word(t, next) || only_looks_like_unit(w)) return false;
  return w.n < 3 || unit_nearest(w) != NULL;
}

static void say_unknown_unit(struct line_reader *r, size_t at) {
  struct span shown = quoted(r->t.item[at].at);
  const char *near = unit_nearest(r->t.item[at].word);
  if (is_foreign_unit(r->t.item[at].word) || !near) {
    diag_say(r->d, DIAG_ERROR, DIAG_UNIT, r->t.item[at].at,
             "unknown unit '%.*s'; write grams (g), or ml, tsp, tbsp, cup, or a count such as 'large' or 'can'",
             SPAN_ARG(shown));
  } else {
    diag_say(r->d, DIAG_ERROR, DIAG_MISSPELT, r->t.item[at].at, "unknown unit '%.*s'; did you mean '%s'?", SPAN_ARG(shown),
             near);
    misspelt_fix(r->d, r->t.item[at].at, near);
  }
}

/* ---- one amount with its unit ---- */

struct amount {
  struct quantity q;
  enum unit unit;      /* UNIT_NONE: no unit written */
  size_t from, tokens; /* all of it */
  struct span at, unit_at;
  struct span whole; /* number and unit */
  bool each;         /* "120 g each" */
};

/* "200 g", "2-3 tbsp", "200 g - 250 g"; tokens 0 when there is no number. Reads only. */
static struct amount amount_at(const struct tokens *t, size_t at) {
  struct amount a = {.from = at, .q = quantity_at(t, at)};
  a.tokens = a.q.fault == QUANTITY_NONE ? 0 : a.q.tokens;
  if (a.tokens == 0) return a;
  size_t used = 0;
  a.unit = unit_at_token(t, at + a.tokens, &used);
  a.at = tokens_span(t, at, a.tokens);
  if (used > 0) a.unit_at = tokens_span(t, at + a.tokens, used);
  a.tokens += used;
  a.whole = tokens_span(t, at, a.tokens);
  if (a.q.fault != QUANTITY_FINE || used == 0) return a;
  size_t dash = at + a.tokens;
  if (kind_of(a.unit) == UNIT_KIND_MASS && is_mark(t, dash, '-') && is_amount_digit(t, dash + 1)) {
    struct quantity end = quantity_at(t, dash + 1);
    size_t end_unit = 0;
    if (end.fault == QUANTITY_FINE && unit_at_token(t, dash + 1 + end.tokens, &end_unit) == a.unit && end.low == end.high) {
      a.q.high = end.high;
      if (end.high < a.q.low) a.q.fault = QUANTITY_DESCENDING;
      a.tokens += 1 + end.tokens + end_unit;
      a.at = tokens_span(t, at, a.tokens);
    }
  }
  size_t each = phrase_at(t, at + a.tokens, "each");
  a.each = each > 0;
  a.tokens += each;
  a.whole = tokens_span(t, at, a.tokens);
  return a;
}

static double middle(struct quantity q) { return (q.low + q.high) / 2; }

static double in_grams(struct amount a) { return unit_convert(middle(a.q), a.unit); }

static void set_amount(struct line_reader *r, struct amount a) {
  struct recipe_line *l = r->out;
  l->amount_at = a.at;
  l->unit = a.unit == UNIT_NONE ? UNIT_EACH : a.unit;
  l->unit_at = a.unit_at;
  if (a.q.fault != QUANTITY_FINE) {
    quantity_complain(&r->t, a.from, a.q, r->d);
    return; /* the amount stays NaN */
  }
  l->amount_low = a.q.low;
  l->amount_high = a.q.high;
  l->amount = middle(a.q);
}

/* ---- before the food ---- */

/* How many tokens say "about" here, with the point of an abbreviation. */
static size_t about_at(const struct tokens *t, size_t at) {
  static const char *const WORDS[] = {"about", "approx", "approximately", "around", "roughly", "ca", "circa", "~"};
  size_t used = 0;
  for (size_t i = 0; i < COUNT_OF(WORDS) && used == 0; i++) used = phrase_at(t, at, WORDS[i]);
  return used > 0 && is_mark(t, at + used, '.') ? used + 1 : used;
}

/* "about", "~": the amount is taken as it stands, and that is said. */
static void take_about(struct line_reader *r, size_t at) {
  size_t used = about_at(&r->t, at);
  if (used == 0) return;
  take(&r->t, at, used);
  diag_say(r->d, DIAG_WARNING, DIAG_NOT_UNDERSTOOD, r->t.item[at].at,
           "'%.*s' is left out and the amount taken as it stands; a range such as '180-220 g' says how unsure it is",
           SPAN_ARG(quoted(r->t.item[at].at)));
}

/* "55 g (40-80 g)": the amount, and how sure it is. */
static void sure_within(struct line_reader *r, struct amount range, double grams) {
  double low = unit_convert(range.q.low, range.unit), high = unit_convert(range.q.high, range.unit);
  if (!(low <= grams && grams <= high)) {
    diag_say(r->d, DIAG_ERROR, DIAG_NUMBER, range.at,
             "'%.*s' does not include the amount before it; write it as in '55 g (40-80 g)'", SPAN_ARG(quoted(range.whole)));
    return;
  }
  r->out->amount_low *= grams > 0 ? low / grams : 1;
  r->out->amount_high *= grams > 0 ? high / grams : 1;
}

/* After the unit: "(4.4 oz)", "of 120 g each", "x 110 g". Sets the grams of one. */
static void take_package(struct line_reader *r, size_t at) {
  struct tokens *t = &r->t;
  bool bracket = is_mark(t, at, '(');
  bool of = phrase_at(t, at, "of") > 0, times = is_times(t, at);
  size_t from = at + (bracket || of || times);
  if (!is_amount_digit(t, from)) return;
  struct amount a = amount_at(t, from);
  if (a.tokens == 0 || kind_of(a.unit) != UNIT_KIND_MASS) return;
  size_t end = from + a.tokens;
  if (bracket && !is_mark(t, end, ')')) return;
  if (!bracket && !times && !a.each) return; /* "2 eggs 100 g" is for the tail to judge */
  if (a.q.fault != QUANTITY_FINE) {
    quantity_complain(t, from, a.q, r->d);
    r->out->amount = (double)NAN;
  }
  enum unit_kind kind = kind_of(r->out->unit);
  double grams = in_grams(a), one = unit_convert(r->out->amount, r->out->unit);
  bool packed = r->out->unit >= UNIT_CAN && r->out->unit <= UNIT_SCOOP;
  take(t, at, end - at + bracket);
  if (kind == UNIT_KIND_MASS && bracket && a.q.high > a.q.low && a.q.fault == QUANTITY_FINE) {
    sure_within(r, a, one);
  } else if (kind == UNIT_KIND_MASS) { /* "1 lb (454 g)" says the same twice */
    if (fabs(grams - one) > 0.05 * one)
      diag_say(r->d, DIAG_ERROR, DIAG_TWICE, a.at, "'%.*s' and the amount before it do not agree; keep one of them",
               SPAN_ARG(quoted(a.whole)));
  } else if (!packed && !a.each && !times && r->out->amount != 1) {
    diag_say(r->d, DIAG_ERROR, DIAG_NO_WEIGHT, a.at,
             "is this the weight of one or of all? write '%.*s %s each' or only the weight", SPAN_ARG(quoted(a.at)),
             unit_info[a.unit].word);
  } else if (!(grams > 0)) {
    diag_say(r->d, DIAG_ERROR, DIAG_NUMBER, a.at, "the weight of one piece must be more than nothing");
  } else {
    r->out->package_g = grams;
  }
}

/* After "2 x": the number is a count of what follows. "2 x 110 g" is 220 g; "2 x 110 g cans" are two cans of 110 g. */
static struct amount multiplied(const struct tokens *t, struct amount count) {
  size_t x = count.from + count.tokens;
  if (count.unit != UNIT_NONE || !is_times(t, x)) return count;
  count.tokens++;
  if (!is_amount_digit(t, x + 1)) {
    size_t used = 0;
    count.unit = unit_at_token(t, x + 1, &used); /* "2 x cans" */
    if (used > 0) count.unit_at = tokens_span(t, x + 1, used);
    count.tokens += used;
    return count;
  }
  struct amount one = amount_at(t, x + 1);
  if (one.q.fault != QUANTITY_FINE) return one;
  one.from = count.from;
  one.tokens += count.tokens;
  one.at = tokens_span(t, count.from, count.tokens + one.q.tokens);
  one.q.low *= count.q.low;
  one.q.high *= count.q.high;
  return one;
}

/* "2 x 4.4 oz cans": sets unit and package when a counted unit follows the mass. */
static bool take_counted_package(struct line_reader *r, struct amount count, struct amount product) {
  struct tokens *t = &r->t;
  size_t used = 0, after = product.from + product.tokens;
  if (kind_of(product.unit) != UNIT_KIND_MASS || !is_times(t, count.from + count.tokens)) return false;
  enum unit u = unit_at_token(t, after, &used);
  if (used == 0 || kind_of(u) != UNIT_KIND_COUNT || product.q.fault != QUANTITY_FINE) return false;
  struct amount one = amount_at(t, count.from + count.tokens + 1);
  count.unit = u;
  count.unit_at = tokens_span(t, after, used);
  set_amount(r, count);
  r->out->package_g = in_grams(one);
  take(t, count.from, product.tokens + used);
  return true;
}

/* The word after a number that is no unit: a household measure, a misspelt unit, or the food. */
static void read_unit_word(struct line_reader *r, size_t at) {
  struct tokens *t = &r->t;
  if (!is_word(t, at)) return;
  struct span w = t->item[at].word;
  if (is_household_word(w) && is_word(t, next_free(t, at + 1))) {
    r->out->unit_at = t->item[at].at;
    take(t, at, 1);
  } else if (is_foreign_unit(w) || looks_like_unit(t, at) || t->item[at].glued) {
    say_unknown_unit(r, at);
    r->out->amount = (double)NAN;
    take(t, at, 1);
  }
}

/* "2 large cans": the size belongs to the can. */
static struct amount with_size(const struct tokens *t, struct amount a) {
  size_t used = 0;
  if (a.unit < UNIT_SMALL || a.unit > UNIT_EXTRA_LARGE) return a;
  enum unit u = unit_at_token(t, a.from + a.tokens, &used);
  if (used == 0 || kind_of(u) != UNIT_KIND_COUNT) return a;
  a.unit = u;
  a.unit_at.n = (size_t)(t->item[a.from + a.tokens].at.p - a.unit_at.p) + t->item[a.from + a.tokens].at.n;
  a.tokens += used;
  return a;
}

/* A measure without a number before it is one of it. */
static struct amount one_of(const struct tokens *t, size_t at, enum unit unit, size_t used) {
  struct amount a = {.from = at, .unit = unit, .tokens = used, .at = tokens_span(t, at, used)};
  a.q = (struct quantity){QUANTITY_FINE, 1, 1, 0};
  a.unit_at = a.at;
  return a;
}

/* "1//2", "½½": what is glued to the number makes it none, and no part of it may be taken for the amount. */
static bool is_spoilt(const struct tokens *t, struct amount a) {
  size_t next = a.from + a.q.tokens;
  return next < t->count && t->item[next].glued && (is_mark(t, next, '/') || is_amount_digit(t, next));
}

bool read_front_amount(struct line_reader *r) {
  struct tokens *t = &r->t;
  for (size_t i = next_free(t, 0); is_mark(t, i, ':') || is_mark(t, i, ',') || is_mark(t, i, ';'); i = next_free(t, i))
    take(t, i, 1); /* "every other day: 1 egg" */
  take_about(r, next_free(t, 0));
  size_t at = next_free(t, 0), used = 0;
  struct amount a = amount_at(t, at);
  if (a.tokens == 0 && unit_at_token(t, at, &used) == UNIT_PINCH) { /* "pinch of salt" */
    a = one_of(t, at, UNIT_PINCH, used);
  } else if (a.tokens == 0 && is_word(t, at) && is_household_word(t->item[at].word) && phrase_at(t, at + 1, "of") > 0) {
    a = one_of(t, at, UNIT_EACH, 1); /* "handful of blueberries" */
  }
  if (a.tokens == 0) return false;
  if (a.q.fault == QUANTITY_FINE && is_spoilt(t, a)) {
    struct span shown = quoted(tokens_span(t, at, a.q.tokens + 1));
    diag_say(r->d, DIAG_ERROR, DIAG_NUMBER, a.at, "'%.*s' is not an amount; write it as in '0.5', '1/2' or '1 1/2'",
             SPAN_ARG(shown));
    r->out->amount_at = a.at;
    return false;
  }
  struct amount product = multiplied(t, a);
  if (take_counted_package(r, a, product)) return true;
  a = with_size(t, product);
  set_amount(r, a);
  take(t, a.from, a.tokens);
  r->out->a_pinch = a.unit == UNIT_PINCH;
  size_t next = a.from + a.tokens;
  if (a.unit == UNIT_NONE && a.q.fault == QUANTITY_FINE) read_unit_word(r, next);
  take_package(r, next_free(t, next));
  next = next_free(t, next);
  if (phrase_at(t, next, "of") > 0) take(t, next, 1);
  return true;
}

/* ---- amounts behind the food ---- */

/* A number in the tail counts as an amount when a unit follows it or nothing does; "omega 3 oil" has none. */
static bool is_tail_amount(const struct tokens *t, struct amount a) {
  if (a.tokens == 0 || a.q.fault == QUANTITY_NEGATIVE) return a.tokens > 0;
  size_t next = next_free(t, a.from + a.tokens);
  if (a.unit != UNIT_NONE && a.unit != UNIT_PERCENT) return true; /* "2% milk" is a name */
  return next >= t->count || (t->item[next].kind == TOKEN_MARK && !is_mark(t, next, '%') && !is_mark(t, next, '&'));
}

/* Where a unit is written somewhere, a bare number ("omega 3") is part of a name. */
static size_t find_tail_amounts(struct line_reader *r, bool with_unit, struct amount *found, size_t most) {
  size_t count = 0;
  for (size_t i = 0; i < r->t.count && count < most; i++) {
    bool minus = is_mark(&r->t, i, '-') && is_amount_digit(&r->t, i + 1) && r->t.item[i + 1].glued;
    minus = minus && (!r->t.item[i].glued || is_mark(&r->t, i - 1, '-')); /* "omega-3" is a name */
    if (!minus && !is_amount_digit(&r->t, i)) continue;
    struct amount a = amount_at(&r->t, i);
    if (is_times(&r->t, i + a.tokens)) a = multiplied(&r->t, a);
    if (!is_tail_amount(&r->t, a) || (with_unit && a.unit == UNIT_NONE)) continue;
    size_t before = i > 0 ? i - 1 : 0; /* "eggs x 2", "lamb heart = 200 g" */
    if (i > 0 && (is_times(&r->t, before) || is_mark(&r->t, before, '~'))) take(&r->t, before, 1);
    found[count++] = a;
    i = a.from + a.tokens - 1;
  }
  return count;
}

static bool is_dose(struct amount a) { return a.unit == UNIT_IU || a.unit == UNIT_MG || a.unit == UNIT_UG; }

static bool is_piece(enum unit u) { return kind_of(u) == UNIT_KIND_COUNT; }

static void say_two_amounts(struct line_reader *r, struct amount a) {
  diag_say(r->d, DIAG_ERROR, DIAG_TWICE, a.whole,
           "a second amount, '%.*s', in one line; keep one, and put what a label says about a product into a text of your "
           "own foods",
           SPAN_ARG(quoted(a.whole)));
}

/* What a second amount says about the first: the dose in a capsule, the weight of a can, the same mass in other units. */
static void read_second_amount(struct line_reader *r, struct amount a) {
  struct recipe_line *l = r->out;
  take(&r->t, a.from, a.tokens);
  if (a.q.fault != QUANTITY_FINE) {
    quantity_complain(&r->t, a.from, a.q, r->d);
  } else if (is_piece(l->unit) && is_dose(a) && isnan(l->dose)) {
    l->dose = middle(a.q);
    l->dose_unit = a.unit;
  } else if ((is_piece(l->unit) || kind_of(l->unit) == UNIT_KIND_VOLUME) && kind_of(a.unit) == UNIT_KIND_MASS &&
             isnan(l->package_g)) {
    bool packed = l->unit >= UNIT_CAN && l->unit <= UNIT_SCOOP;
    if (!packed && !a.each && l->amount != 1)
      diag_say(r->d, DIAG_ERROR, DIAG_NO_WEIGHT, a.at,
               "is this the weight of one or of all? write '%.*s %s each' or only the weight", SPAN_ARG(quoted(a.at)),
               unit_info[a.unit].word);
    else
      l->package_g = in_grams(a);
  } else if (kind_of(l->unit) == UNIT_KIND_MASS && kind_of(a.unit) == UNIT_KIND_MASS &&
             fabs(in_grams(a) - unit_convert(l->amount, l->unit)) <= 0.05 * in_grams(a)) {
    return; /* the same twice */
  } else {
    say_two_amounts(r, a);
  }
}

/* "8 g sunflower oil (about 1/2 tbsp)": grams count, and what a spoon of them is stands beside. */
static void take_what_is_said_beside(struct line_reader *r) {
  struct tokens *t = &r->t;
  for (size_t i = 0; i < t->count; i++) {
    size_t about = is_mark(t, i, '(') ? about_at(t, i + 1) : 0;
    struct amount a = {.tokens = 0};
    if (about > 0) a = amount_at(t, i + 1 + about);
    bool measure = a.tokens > 0 && a.q.fault == QUANTITY_FINE && kind_of(a.unit) == UNIT_KIND_VOLUME;
    if (measure && is_mark(t, a.from + a.tokens, ')')) take(t, i, a.from + a.tokens + 1 - i);
  }
}

void read_tail_amounts(struct line_reader *r, bool have_amount) {
  if (have_amount && kind_of(r->out->unit) == UNIT_KIND_MASS) take_what_is_said_beside(r);
  struct amount found[3];
  size_t count = find_tail_amounts(r, true, found, COUNT_OF(found)), first = 0;
  if (count == 0 && !have_amount) count = find_tail_amounts(r, false, found, 1);
  if (!have_amount && count > 0) {
    /* "vitamin E 200 IU, 1 capsule": the count is the amount, the dose belongs to one piece. */
    if (count > 1 && !is_piece(found[0].unit) && is_piece(found[1].unit)) first = 1;
    set_amount(r, found[first]);
    take(&r->t, found[first].from, found[first].tokens);
  } else {
    first = COUNT_OF(found);
  }
  for (size_t i = 0; i < count; i++)
    if (i != first) read_second_amount(r, found[i]);
}

/* "2 salmon fillets", "3 garlic cloves", "1 vitamin E capsule": the last word says what was counted. */
void read_trailing_unit(struct line_reader *r) {
  struct tokens *t = &r->t;
  struct recipe_line *l = r->out;
  size_t last = t->count, words = 0, used = 0;
  if (l->unit != UNIT_EACH || l->unit_at.n > 0) return;
  for (size_t i = 0; i < t->count; i++) {
    if (t->item[i].taken) continue;
    if (is_mark(t, i, ',') || is_mark(t, i, '(') || is_mark(t, i, ';')) break;
    if (!is_word(t, i)) continue;
    words++;
    last = i;
  }
  if (words < 2) return;
  enum unit u = unit_at_token(t, last, &used);
  bool counted = u >= UNIT_CAN && u <= UNIT_SHEET;
  if (!counted || used == 0) return;
  l->unit = u;
  l->unit_at = t->item[last].at;
  take(t, last, used);
}

bool starts_with_amount(struct span s, struct arena *arena) {
  struct tokens t = tokens_of(s, arena);
  return is_amount_digit(&t, 0) && quantity_at(&t, 0).fault != QUANTITY_NONE;
}
