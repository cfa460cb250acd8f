/* One line of a larder: the food's words, then what may be taken of it and what it costs.
 *
 * The food ends where the first clause begins that is understood as a range, a frequency or a price. Places are tried in the
 * order in which people mark them: a wide gap, a pin, a comma, any word. */
#include <math.h>

#include "base/num.h"
#include "larder/larder_read.h"
#include "recipe/frequency.h"
#include "recipe/recipe_line.h"

static const char EXAMPLE[] =
    "up to 300 g', '10-25 g', '0-1 a day, whole', 'at most twice a week, 110 g a time' or '9.80 per kg";

/* ---- taking the clauses ---- */

struct larder_reader {
  struct diags *d;
  struct arena *arena;
  struct larder_line *out;
  const char **currency;
  enum unit unit;      /* of the range; UNIT_NONE */
  struct span unit_at; /* as written */
  struct span whole_at, times_at, pack_at;
  struct span price_unit_at;
};

#define SAY(code, r, at, ...) diag_say((r)->d, DIAG_ERROR, DIAG_##code, (at), __VA_ARGS__)

static bool already(struct larder_reader *r, struct span first, struct span again, const char *what) {
  if (first.n == 0) return false;
  SAY(TWICE, r, again, "a second %s, '%.*s', in one line; keep one of them", what, SPAN_ARG(quoted(again)));
  return true;
}

static void take_range(struct larder_reader *r, struct clause c, struct span at) {
  struct larder_line *l = r->out;
  if (c.if_used) { /* "at least 5 g if used" stands beside a range */
    if (!(c.bounds.low > 0) || l->least > 0) {
      SAY(NUMBER, r, at, "'%.*s': write it as in 'at least 5 g if used'", SPAN_ARG(quoted(at)));
      return;
    }
    l->least = c.bounds.low;
    if (!c.bounds.only_least && c.bounds.high < INFINITY && c.bounds.high > c.bounds.low) {
      if (already(r, l->range_at, at, "range")) return;
      l->high = c.bounds.high;
      l->range_at = at;
    }
  } else {
    if (already(r, l->range_at, at, "range")) return;
    l->range_at = at;
    l->low = fmax(0.0, c.bounds.low);
    l->high = c.bounds.high;
    l->a_time = c.a_time;
  }
  enum unit_kind kind = unit_info[c.unit].kind;
  double grams = kind == UNIT_KIND_MASS ? unit_convert(1, c.unit) : 1;
  enum unit unit = kind == UNIT_KIND_MASS ? UNIT_G : c.unit == UNIT_NONE ? UNIT_EACH : c.unit;
  if (c.bounds.about) SAY(NUMBER, r, at, "'%.*s': write a range, as in '80-120 g'", SPAN_ARG(quoted(at)));
  if (r->unit != UNIT_NONE && r->unit != unit) {
    SAY(UNIT, r, at, "'%.*s' is in other units than what comes before; write both in one", SPAN_ARG(quoted(at)));
    return;
  }
  r->unit = unit;
  r->unit_at = c.unit_at;
  if (c.if_used) l->least *= grams;
  if (l->range_at.p == at.p) {
    l->low *= grams;
    l->high *= grams;
  }
}

static void take_times(struct larder_reader *r, struct clause c, struct span at) {
  if (already(r, r->times_at, at, "frequency")) return;
  r->times_at = at;
  r->out->times_low = fmax(0.0, c.bounds.low) * c.per_28;
  r->out->times_high = c.bounds.high * c.per_28;
  if (!(r->out->times_high <= CALENDAR_DAYS))
    SAY(NUMBER, r, at, "'%.*s': write how often at most, up to seven times a week", SPAN_ARG(quoted(at)));
  else if (r->out->times_low != floor(r->out->times_low) || r->out->times_high != floor(r->out->times_high))
    SAY(NUMBER, r, at, "'%.*s': write a whole number of times, as in 'at most twice a week'", SPAN_ARG(quoted(at)));
}

/* Dearer than any food or tablet: a slip of the unit. */
static const double PRICE_MOST = 100000;

static void take_price(struct larder_reader *r, struct clause c, struct span at) {
  if (already(r, r->out->price_at, at, "price")) return;
  struct larder_line *l = r->out;
  l->price_at = at;
  l->price = c.price;
  l->price_amount = c.price_amount;
  l->price_unit = c.unit;
  r->price_unit_at = c.unit_at;
  bool is_free = c.unit_at.n == 0 && c.unit == UNIT_G;
  if (!is_free && !(c.price > 0)) {
    SAY(NUMBER, r, at, "a price of nothing; write 'free' if that is meant, or leave the price out");
  } else if (!(c.price <= PRICE_MOST)) {
    SAY(NUMBER, r, at, "'%.*s': that price is absurd; write what one kilogram or one piece costs, as in '9.80 per kg'",
        SPAN_ARG(quoted(at)));
  }
  if (c.currency.n == 0) return;
  const char *sign = arena_text(r->arena, c.currency);
  if (*r->currency && (*r->currency)[0] && strcmp(*r->currency, sign) != 0)
    SAY(UNIT, r, at, "prices in %s and in %s; write all of them in one", *r->currency, sign);
  *r->currency = sign;
}

static void take_clause(struct larder_reader *r, const struct tokens *t, struct span at) {
  struct clause c = clause_of(t);
  switch (c.kind) {
  case CLAUSE_RANGE:
    take_range(r, c, at);
    break;
  case CLAUSE_TIMES:
    take_times(r, c, at);
    break;
  case CLAUSE_WHOLE:
    r->out->whole_units = true;
    r->whole_at = at;
    break;
  case CLAUSE_PRICE:
    take_price(r, c, at);
    break;
  case CLAUSE_PACK:
    if (already(r, r->pack_at, at, "pack")) break;
    r->pack_at = at;
    r->out->pack = c.price_amount;
    r->out->pack_unit = c.unit;
    break;
  case CLAUSE_ANY:
    if (!already(r, r->out->range_at, at, "range")) r->out->range_at = at;
    break;
  case CLAUSE_NONE: {
    size_t errors = r->d->errors;
    if (bounds_at(t, 0, r->d).tokens == 0 && r->d->errors > errors) break; /* a faulty number: said */
    SAY(NOT_UNDERSTOOD, r, at, "'%.*s' is not understood; write it as in '%s'", SPAN_ARG(quoted(at)), EXAMPLE);
    break;
  }
  }
}

static void take_clauses(struct larder_reader *r, const struct tokens *t, size_t from) {
  while (from < t->count) {
    if (clause_breaks_at(t, from)) {
      from++;
      continue;
    }
    size_t end = clause_end(t, from);
    struct tokens part = tokens_part(t, from, end);
    take_clause(r, &part, tokens_span(t, from, end - from));
    from = end;
  }
}

/* ---- contradictions ---- */

static void check_range(struct larder_reader *r) {
  struct larder_line *l = r->out;
  struct span at = l->range_at.n > 0 ? l->range_at : l->whole;
  if (l->least > l->high) SAY(NUMBER, r, at, "'at least ... if used' is more than the range allows");
  if (l->least > 0 && l->low > 0) SAY(TWICE, r, at, "the range already says that it is always used; leave out 'if used'");
  if (l->whole_units && r->unit == UNIT_G)
    SAY(UNIT, r, r->whole_at, "whole pieces are counted and not weighed; write it as in '0-2 a day, whole'");
  if (l->whole_units && l->high < INFINITY && ceil(l->low) > floor(l->high))
    SAY(NUMBER, r, at, "there is no whole number in this range");
  bool feeding = l->times_high >= 0;
  if (l->a_time && !feeding) SAY(NO_AMOUNT, r, at, "how often? write it as in 'at most twice a week, 110 g a time'");
  if (feeding && l->high == INFINITY && !(l->range_at.n == 0 && l->whole_units))
    SAY(NO_AMOUNT, r, at, "how much at each feeding? write it as in 'at most twice a week, 110 g a time'");
}

/* ---- the food ---- */

/* The recipe's own reader reads "1 UNIT FOOD"; what it complains about is said at the food's place. */
static bool read_one(struct larder_reader *r, const char *unit, struct span words, struct span food,
                     struct recipe_line *one) {
  struct buf b;
  struct diags own;
  buf_init(&b, r->arena, 2 * LINE_MOST_BYTES);
  buf_addf(&b, "1 %s%s%.*s", unit, unit[0] ? " " : "", SPAN_ARG(words));
  struct span text = span_of(buf_text(&b));
  diags_init(&own, r->arena, "", text);
  struct line_reader reader = {.out = one, .d = &own, .arena = r->arena};
  bool fine = recipe_line_read(&reader, text, r->out->line);
  for (size_t i = 0; i < own.count; i++)
    diag_say(r->d, own.item[i].level, own.item[i].code, food, "%s", own.item[i].message);
  if (one->frequency_stated)
    SAY(NOT_UNDERSTOOD, r, food, "how often it is fed goes after the food, as in 'at most twice a week, 110 g a time'");
  return fine && own.errors == 0;
}

static bool begins_with_weight(struct span food, struct arena *arena) {
  struct tokens t = tokens_of(food, arena);
  struct quantity q = quantity_at(&t, 0);
  size_t used = 0;
  if (q.fault == QUANTITY_NONE || t.count == 0 || t.item[0].kind == TOKEN_WORD) return false;
  enum unit_kind kind = unit_info[unit_at_token(&t, q.tokens, &used)].kind;
  return used > 0 && (kind == UNIT_KIND_MASS || kind == UNIT_KIND_VOLUME);
}

/* "vitamin E capsule 100 IU": what the label of one states is its strength, and no second amount. */
static bool states_a_dose(struct span food, struct arena *arena) {
  struct tokens t = tokens_of(food, arena);
  for (size_t i = 1; i < t.count; i++) {
    size_t used = 0;
    struct quantity q = quantity_at(&t, i);
    if (t.item[i].kind != TOKEN_NUMBER || q.fault != QUANTITY_FINE || inside_pin(&t, i)) continue;
    enum unit u = unit_at_token(&t, i + q.tokens, &used);
    if (used > 0 && (u == UNIT_IU || u == UNIT_MG || u == UNIT_UG)) return true;
  }
  return false;
}

/* "zinc tablet 15 mg" -> "tablet", "zinc 15 mg"; NULL: no word of it counts. */
static const char *counting_word(struct span food, struct span *rest, struct arena *arena) {
  struct tokens t = tokens_of(food, arena);
  for (size_t i = 1; i < t.count; i++) {
    size_t used = 1;
    if (!pill_word_at(&t, i)) continue;
    enum unit u = unit_at_token(&t, i, &used);
    struct span before = tokens_span(&t, 0, i);
    struct buf b;
    buf_init(&b, arena, food.n + 2);
    buf_add(&b, before);
    if (i + used < t.count) buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(&t, i + used, t.count - i - used)));
    *rest = buf_span(&b);
    return unit_info[u].word;
  }
  return NULL;
}

/* "1 capsule vitamin E 100 IU": the one is understood. */
static struct span without_one(struct span food, struct arena *arena) {
  struct tokens t = tokens_of(food, arena);
  struct quantity q = quantity_at(&t, 0);
  size_t used = 0;
  if (q.fault != QUANTITY_FINE || q.low != 1 || q.high != 1 || t.item[0].kind != TOKEN_NUMBER) return food;
  bool counted = unit_info[unit_at_token(&t, q.tokens, &used)].kind == UNIT_KIND_COUNT;
  size_t behind = q.tokens + used;
  return used > 0 && counted && behind < t.count ? tokens_span(&t, behind, t.count - behind) : food;
}

static bool read_food(struct larder_reader *r, struct span food) {
  r->out->food_at = food;
  if (food.n == 0) {
    SAY(EMPTY, r, r->out->whole, "no food here; write it as in 'lamb heart   up to 200 g'");
    return false;
  }
  if (begins_with_weight(food, r->arena)) {
    SAY(NOT_UNDERSTOOD, r, food, "a larder names the food first and then its range, as in 'lamb heart   up to 200 g'");
    return false;
  }
  bool pieces = r->unit == UNIT_EACH || (r->unit == UNIT_NONE && (r->out->whole_units || r->out->times_high >= 0));
  struct span words = food;
  const char *counted = NULL;
  if (pieces && states_a_dose(food, r->arena)) {
    words = without_one(food, r->arena);
    counted = counting_word(words, &words, r->arena);
  }
  const char *unit = r->unit == UNIT_G || (r->unit == UNIT_NONE && !pieces) ? "g"
                     : pieces                                               ? ""
                                                                            : arena_text(r->arena, r->unit_at);
  return read_one(r, counted ? counted : unit, words, food, &r->out->one);
}

bool larder_line_read(struct span line, int number, struct diags *d, const char **currency, struct larder_line *out,
                      struct arena *arena) {
  struct larder_reader r = {.d = d, .arena = arena, .out = out, .currency = currency};
  struct tokens t = tokens_of(line, arena);
  bool gap = false;
  *out = (struct larder_line){.line = number,
                              .whole = line,
                              .high = INFINITY,
                              .times_low = NAN,
                              .times_high = NAN,
                              .price = NAN,
                              .price_amount = 1,
                              .price_unit = UNIT_EACH,
                              .pack = NAN,
                              .pack_unit = UNIT_EACH};
  size_t from = clauses_begin(&t, &gap), food_end = from;
  while (food_end > 0 && clause_breaks_at(&t, food_end - 1)) food_end--;
  size_t errors = d->errors;
  take_clauses(&r, &t, from);
  struct span food = food_end > 0 ? tokens_span(&t, 0, food_end) : (struct span){line.p, 0};
  if (r.unit == UNIT_NONE && states_a_dose(food, arena)) out->whole_units = true; /* pills are counted */
  if (d->errors == errors) check_range(&r);
  if (r.times_at.n > 0 && out->range_at.n == 0) out->low = out->high = 1; /* one piece a time */
  return read_food(&r, food);
}
