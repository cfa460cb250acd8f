/* The clauses of a larder's line, "up to 300 g", "at most twice a week", "9.80 per kg": what each says, and where the food's
 * words end and the clauses begin. */
#include <math.h>

#include "larder/larder_read.h"
#include "recipe/frequency.h"
#include "recipe/recipe_line.h"

/* ---- numbers with words around them ---- */

/* "once", "twice", "thrice" or a number. */
static struct quantity count_at(const struct tokens *t, size_t at) {
  struct quantity q;
  frequency_count_at(t, at, &q);
  return q;
}

struct bounds bounds_at(const struct tokens *t, size_t at, struct diags *d) {
  struct bounds b = {.low = -INFINITY, .high = INFINITY};
  size_t most = ANY_OF(t, at, "up to", "at most", "no more than", "not more than", "maximum", "max", "not above", "below");
  size_t least =
      most ? 0 : ANY_OF(t, at, "at least", "no less than", "not less than", "minimum", "min", "not below", "above");
  size_t about = most || least ? 0 : ANY_OF(t, at, "about", "around", "roughly", "~");
  size_t lead = most + least + about;
  struct quantity q = count_at(t, at + lead);
  if (q.fault != QUANTITY_FINE) {
    if (d && q.fault != QUANTITY_NONE) quantity_complain(t, at + lead, q, d);
    return b;
  }
  b.tokens = lead + q.tokens;
  b.about = about > 0;
  b.only_least = least > 0;
  if (most == 0) b.low = q.low;
  if (least == 0) b.high = q.high;
  return b;
}

/* ---- clauses ---- */

/* "a week", "per day", "3x/wk": a period with a word before it that joins it. */
static size_t period_at(const struct tokens *t, size_t at, double *per_28) {
  bool joined = false;
  size_t used = frequency_period_at(t, at, per_28, &joined);
  return joined ? used : 0;
}

static bool read_times(const struct tokens *t, struct clause *c) {
  size_t at = c->bounds.tokens, period;
  at += ANY_OF(t, at, "times", "time", "x", "days", "day");
  period = period_at(t, at, &c->per_28);
  if (period == 0 || at + period != t->count || (at == c->bounds.tokens && c->per_28 == 28)) return false;
  if (c->per_28 == 28) return false; /* "twice a day": the calendar has days, not meals */
  c->kind = CLAUSE_TIMES;
  return true;
}

static bool read_range(const struct tokens *t, struct clause *c) {
  size_t at = c->bounds.tokens, used = 0;
  double per_28 = 0;
  c->unit = unit_at_token(t, at, &used);
  if (c->unit == UNIT_IU || c->unit == UNIT_PERCENT) return false;
  if (used > 0) c->unit_at = tokens_span(t, at, used);
  at += used;
  while (at < t->count) {
    size_t day = period_at(t, at, &per_28);
    if (day > 0 && per_28 == 28) {
      c->a_day = true;
      at += day;
      continue;
    }
    size_t time = ANY_OF(t, at, "a time", "each time", "per time", "at a time", "a feeding", "each");
    if (time > 0 && !(used == 0 && phrase_at(t, at, "each") > 0)) {
      c->a_time = true;
      at += time;
      continue;
    }
    size_t if_used = ANY_OF(t, at, "if used", "when used", "if any", "or none", "or nothing");
    if (if_used == 0) return false;
    c->if_used = true;
    at += if_used;
  }
  c->kind = CLAUSE_RANGE;
  return true;
}

static bool is_currency(const struct token *k) {
  return k->kind == TOKEN_MARK && (k->mark == '$' || k->mark == 0xA3 || k->mark == 0xA5 || k->mark == 0x20AC);
}

/* "9.80 per kg", "0.06 each", "3.20 for 500 g", "free". */
static bool read_price(const struct tokens *t, struct clause *c) {
  size_t at = 0, used = 0;
  if (ANY_OF(t, 0, "free", "free of charge") == t->count) {
    *c = (struct clause){.kind = CLAUSE_PRICE, .price = 0, .price_amount = 1, .unit = UNIT_G};
    return true;
  }
  if (t->count > 0 && is_currency(&t->item[0])) {
    c->currency = t->item[0].at;
    at = 1;
  }
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE || q.low != q.high) return false;
  at += q.tokens;
  if (at < t->count && is_currency(&t->item[at])) {
    c->currency = t->item[at].at;
    at++;
  }
  c->price = q.low;
  c->price_amount = 1;
  c->unit = UNIT_EACH;
  size_t each = ANY_OF(t, at, "each", "a piece", "apiece", "per piece");
  if (each > 0 && at + each == t->count) {
    c->kind = CLAUSE_PRICE;
    return true;
  }
  size_t per = ANY_OF(t, at, "per", "a", "an", "/", "for", "the");
  if (per == 0) return false;
  at += per;
  struct quantity of = quantity_at(t, at);
  if (of.fault == QUANTITY_FINE && of.low == of.high && of.low > 0 && t->item[at].kind == TOKEN_NUMBER) {
    c->price_amount = of.low;
    at += of.tokens;
  }
  c->unit = unit_at_token(t, at, &used);
  if (used == 0 || c->unit == UNIT_PERCENT || c->unit == UNIT_IU || at + used != t->count) return false;
  c->unit_at = tokens_span(t, at, used);
  c->kind = CLAUSE_PRICE;
  return true;
}

/* "in packs of 500 g", "packs of 60". */
static bool read_pack(const struct tokens *t, struct clause *c) {
  size_t lead = ANY_OF(t, 0, "in packs of", "packs of", "a pack of", "pack of", "in bags of", "in boxes of"), used = 0;
  struct quantity q = quantity_at(t, lead);
  if (lead == 0 || q.fault != QUANTITY_FINE || q.low != q.high || !(q.low > 0)) return false;
  size_t at = lead + q.tokens;
  c->price_amount = q.low;
  c->unit = at < t->count ? unit_at_token(t, at, &used) : UNIT_EACH;
  enum unit_kind kind = unit_info[c->unit].kind;
  if (at + used != t->count || (kind != UNIT_KIND_MASS && kind != UNIT_KIND_COUNT)) return false;
  if (kind == UNIT_KIND_COUNT) c->unit = UNIT_EACH;
  c->kind = CLAUSE_PACK;
  return true;
}

struct clause clause_of(const struct tokens *t) {
  struct clause c = {.kind = CLAUSE_NONE};
  if (t->count == 0) return c;
  if (ANY_OF(t, 0, "whole", "whole only", "only whole", "whole ones", "whole pieces", "in whole pieces") == t->count ||
      phrase_at(t, 0, "in whole pieces") == t->count || phrase_at(t, 0, "whole only") == t->count) {
    c.kind = CLAUSE_WHOLE;
    return c;
  }
  if (ANY_OF(t, 0, "any", "any amount", "no limit") == t->count || phrase_at(t, 0, "any amount") == t->count) {
    c.kind = CLAUSE_ANY;
    return c;
  }
  if (read_price(t, &c) || read_pack(t, &c)) return c;
  c = (struct clause){.kind = CLAUSE_NONE, .bounds = bounds_at(t, 0, NULL)};
  if (c.bounds.tokens == 0) return c;
  if (!read_times(t, &c)) {
    c.kind = CLAUSE_NONE;
    if (!read_range(t, &c)) c.kind = CLAUSE_NONE;
  }
  return c;
}

/* ---- where clauses end ---- */

static bool wide_gap(const struct tokens *t, size_t i) {
  if (i == 0 || i >= t->count) return false;
  const char *from = t->item[i - 1].at.p + t->item[i - 1].at.n, *to = t->item[i].at.p;
  int blanks = 0;
  for (const char *p = from; p < to; p++) {
    if (*p == '\t') return true;
    blanks += *p == ' ';
  }
  return blanks >= 2;
}

bool clause_breaks_at(const struct tokens *t, size_t i) {
  const struct token *k = &t->item[i];
  if (k->kind != TOKEN_MARK || (k->mark != ',' && k->mark != ';')) return false;
  bool decimal = k->glued && i + 1 < t->count && t->item[i + 1].glued && t->item[i + 1].kind == TOKEN_NUMBER && i > 0 &&
                 t->item[i - 1].kind == TOKEN_NUMBER;
  return !decimal;
}

size_t clause_end(const struct tokens *t, size_t from) {
  size_t i = from;
  while (i < t->count && !clause_breaks_at(t, i) && !(i > from && wide_gap(t, i))) i++;
  return i;
}

static bool clause_starts(const struct tokens *t, size_t at) {
  if (at >= t->count || clause_breaks_at(t, at)) return false;
  struct tokens part = tokens_part(t, at, clause_end(t, at));
  return clause_of(&part).kind != CLAUSE_NONE;
}

/* "up to 1,5 kg", "25-10 g": meant as a range, and complained about as one. */
static bool faulty_range_starts(const struct tokens *t, size_t at) {
  struct tokens part = tokens_part(t, at, clause_end(t, at));
  size_t lead = ANY_OF(&part, 0, "up to", "at most", "no more than", "at least", "about");
  struct quantity q = count_at(&part, lead);
  return q.fault != QUANTITY_FINE && q.fault != QUANTITY_NONE;
}

static size_t pin_end(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (t->item[i].kind == TOKEN_MARK && t->item[i].mark == ']') return i + 1;
  return 0;
}

bool inside_pin(const struct tokens *t, size_t at) {
  bool open = false;
  for (size_t i = 0; i < at; i++) {
    if (t->item[i].kind != TOKEN_MARK) continue;
    if (t->item[i].mark == '[') open = true;
    if (t->item[i].mark == ']') open = false;
  }
  return open;
}

/* A clause was found at 'at', among words without a wide gap: where it really begins. "10-5 g" must not be read as a food
 * that ends in "10-" and has 5 g, nor "up to -3 g" as 3 g. */
static size_t whole_clause(const struct tokens *t, size_t at) {
  enum { LONGEST_LEAD = 4 }; /* up, to, -, 3 */
  for (size_t back = LONGEST_LEAD; back > 0; back--)
    if (at > back && faulty_range_starts(t, at - back)) return at - back;
  return at;
}

bool pill_word_at(const struct tokens *t, size_t at) {
  size_t used = 0;
  enum unit u = t->item[at].kind == TOKEN_WORD ? unit_at_token(t, at, &used) : UNIT_NONE;
  return used == 1 && (u == UNIT_CAPSULE || u == UNIT_TABLET || u == UNIT_SOFTGEL || u == UNIT_DROP);
}

/* "zinc tablet 15 mg": what one holds, and not how much of it is taken. */
static bool is_strength(const struct tokens *t, size_t at) {
  struct quantity q = quantity_at(t, at);
  size_t used = 0;
  if (at == 0 || q.fault != QUANTITY_FINE || !pill_word_at(t, at - 1)) return false;
  enum unit u = unit_at_token(t, at + q.tokens, &used);
  return used > 0 && (u == UNIT_MG || u == UNIT_UG);
}

size_t clauses_begin(const struct tokens *t, bool *gap) {
  size_t first_gap = t->count, pin = pin_end(t);
  for (size_t i = 1; i < t->count; i++)
    if (wide_gap(t, i) && !inside_pin(t, i)) {
      if (clause_starts(t, i) || faulty_range_starts(t, i)) return i;
      bool pin_follows = t->item[i].kind == TOKEN_MARK && t->item[i].mark == '[';
      if (first_gap == t->count && !pin_follows) first_gap = i;
    }
  size_t behind_pin = pin + (pin > 0 && pin < t->count && clause_breaks_at(t, pin));
  if (pin > 0 && behind_pin < t->count && (clause_starts(t, behind_pin) || faulty_range_starts(t, behind_pin)))
    return behind_pin;
  for (size_t i = 1; i + 1 < t->count; i++)
    if (clause_breaks_at(t, i) && !inside_pin(t, i) && clause_starts(t, i + 1)) return i + 1;
  for (size_t i = 1; i < t->count; i++)
    if (!inside_pin(t, i) && !clause_breaks_at(t, i - 1) && !is_strength(t, i) && clause_starts(t, i))
      return whole_clause(t, i);
  *gap = first_gap < t->count;
  return first_gap;
}
