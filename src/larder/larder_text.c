#include "larder/larder_text.h"
#include "base/table.h"

#include <math.h>

#include "base/num.h"
#include "larder/larder_read.h"
#include "recipe/recipe_food.h"
#include "recipe/recipe_line.h"

WORD_TABLE(larder_aim_word, AIM_COUNT, "cheapest", "lightest", "leanest", "nearest");
const enum bowl_part pattern_part[] = {BOWL_MUSCLE, BOWL_BONE, BOWL_ORGAN_LIVER, BOWL_ORGAN_SECRETING};
ROW_FOR_EACH(pattern_part, PATTERN_PARTS);

struct parser {
  struct larder *out;
  struct diags *d;
  struct arena *arena;
  struct larder_line *line;
  size_t count, cap;
  struct limit_list limits;
  const char *currency;
  int number; /* of the line */
};

#define SAY(code, r, at, ...) diag_say((r)->d, DIAG_ERROR, DIAG_##code, (at), __VA_ARGS__)

/* ---- headers ---- */

/* Four numbers with colons between, as the trade writes them. */
static bool read_pattern(const struct tokens *t, size_t at, struct larder_wish *out, struct span value, struct diags *d) {
  double sum = 0;
  for (size_t i = 0; i < PATTERN_PARTS; i++) {
    bool number = at < t->count && t->item[at].kind == TOKEN_NUMBER;
    if (number) sum += out->pattern[i] = t->item[at].value;
    bool colon = i + 1 == PATTERN_PARTS ? at + 1 == t->count : phrase_at(t, at + 1, ":") > 0;
    if (!number || !colon) {
      diag_say(d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, value,
               "'%.*s' is not a pattern; write muscle meat, bone, liver and other organs in per cent, as in 'nearest to "
               "80:10:5:5'",
               SPAN_ARG(quoted(value)));
      return false;
    }
    at += 2;
  }
  if (!(fabs(sum - 100) < 1e-6)) {
    struct buf b;
    buf_init(&b, d->arena, 32);
    num_sig(&b, sum, 5);
    diag_say(d, DIAG_ERROR, DIAG_NUMBER, value, "the four parts of a pattern add up to 100; these add up to %s",
             buf_text(&b));
    return false;
  }
  for (size_t i = 0; i < PATTERN_PARTS; i++) out->pattern[i] /= 100;
  return true;
}

bool larder_aim_read(struct span value, struct diags *d, struct larder_wish *out, struct arena *arena) {
  struct tokens t = tokens_of(value, arena);
  *out = (struct larder_wish){.aim = AIM_COUNT};
  for (int i = 0; i < AIM_NEAREST; i++)
    if (t.count == 1 && phrase_at(&t, 0, larder_aim_word[i]) > 0) out->aim = (enum larder_aim)i;
  if (out->aim != AIM_COUNT) return true;
  size_t nearest = ANY_OF(&t, 0, "nearest to", "near to", "nearest", "near");
  if (nearest > 0) {
    out->aim = AIM_NEAREST;
    return read_pattern(&t, nearest, out, value, d);
  }
  const char *near =
      t.count == 1 && t.item[0].kind == TOKEN_WORD ? nearest_word(t.item[0].word, larder_aim_word, AIM_NEAREST) : NULL;
  if (near) {
    diag_say(d, DIAG_ERROR, DIAG_MISSPELT, value, "unknown aim '%.*s'; did you mean '%s'?", SPAN_ARG(quoted(value)), near);
    misspelt_fix(d, value, near);
  } else {
    diag_say(d, DIAG_ERROR, DIAG_UNKNOWN_WORD, value,
             "unknown aim '%.*s'; the aims are cheapest, lightest, leanest and 'nearest to 80:10:5:5'",
             SPAN_ARG(quoted(value)));
  }
  return false;
}

static void read_for(struct header_value *v) {
  struct larder *out = v->into;
  struct span value = v->value;
  const char **names = NULL;
  size_t cap = 0;
  while (value.n > 0) {
    size_t n = 0;
    while (n < value.n && value.p[n] != ',' && value.p[n] != ';' && value.p[n] != '&' &&
           !(n > 0 && value.p[n - 1] == ' ' && span_starts_fold(span_cut(value, n, value.n), "and ")))
      n++;
    struct span name = span_trim(span_cut(value, 0, n));
    if (name.n > 0) ARENA_PUSH(v->arena, names, out->for_count, cap, arena_text(v->arena, name));
    bool mark = n < value.n && (value.p[n] == ',' || value.p[n] == ';' || value.p[n] == '&');
    value = span_cut(value, n + (mark ? 1 : n < value.n ? 4 : 0), value.n);
  }
  out->for_whom = names;
}

static void read_aim(struct header_value *v) {
  struct larder *out = v->into;
  out->aim_stated = larder_aim_read(v->value, v->d, &out->wish, v->arena);
}

static void read_limits(struct header_value *v) {
  struct parser *p = v->reader;
  larder_limits_read(v->value, p->number, v->d, &p->limits, v->arena);
}

static void read_cook(struct header_value *v) {
  struct recipe_line said;
  if (!cook_read(v, &said)) return;
  if (said.raw_weight)
    diag_say(v->d, DIAG_ERROR, DIAG_COOKING, v->value,
             "in a larder foods are weighed as they are fed; write the method alone, as in '%s'", v->row->example);
  else
    ((struct larder *)v->into)->recipe.cook = said.state;
}

static const struct header_row HEADERS[] = {
    {"Larder", NULL, NULL, "Larder: the chest freezer", header_text, offsetof(struct larder, name), false, false},
    {"For", NULL, NULL, "For: Juniper", read_for, 0, false, false},
    {"Aim", NULL, NULL, "Aim: cheapest", read_aim, 0, false, false},
    {"Limits", "Limit", NULL, "Limits: at most 9 foods", read_limits, 0, true, false},
    {"Cook", NULL, NULL, "Cook: simmer", read_cook, 0, false, false},
    {"Note", "Notes", NULL, "Note: the eggs are small", NULL, 0, true, false}};

/* ---- lines ---- */

static bool read_line(struct parser *p, struct header_reader *headers, struct span line, int number) {
  struct header h;
  line = trim_blanks(without_comment(line));
  if (line.n == 0) return true;
  if (header_split(line, &h)) {
    int row = header_row_of(headers, h.key);
    p->number = number;
    if (row >= 0)
      header_take(headers, row, h, line);
    else
      header_unknown(headers, h.key, DIAG_ERROR, "");
    return true;
  }
  struct larder_line out;
  if (!larder_line_read(line, number, p->d, &p->currency, &out, p->arena)) return true;
  if (p->count == LARDER_MOST_LINES) {
    SAY(LIMIT, p, line, "more than %d foods; the rest is not read", LARDER_MOST_LINES);
    return false;
  }
  ARENA_PUSH(p->arena, p->line, p->count, p->cap, out);
  return true;
}

static bool same_limit(const struct larder_limit *a, const struct larder_limit *b) {
  return a->kind == b->kind && a->nutrient == b->nutrient && a->parts == b->parts;
}

/* Two limits for one thing that leave no amount between them. */
static void check_limits(struct parser *p) {
  for (size_t i = 0; i < p->limits.count; i++)
    for (size_t k = 0; k < i; k++) {
      const struct larder_limit *a = &p->limits.item[k], *b = &p->limits.item[i];
      if (same_limit(a, b) && fmax(a->low, b->low) > fmin(a->high, b->high))
        SAY(TWICE, p, b->at, "'%.*s' and '%.*s' contradict each other", SPAN_ARG(quoted(b->at)), SPAN_ARG(quoted(a->at)));
    }
}

static void check_prices(struct parser *p) {
  bool wants = p->out->wish.aim == AIM_CHEAPEST && p->out->aim_stated, any = false;
  for (size_t i = 0; i < p->limits.count; i++) wants = wants || p->limits.item[i].kind == LARDER_COST;
  if (!wants) return;
  for (size_t i = 0; i < p->count; i++) {
    any = any || !isnan(p->line[i].price);
    if (isnan(p->line[i].price) && p->line[i].high > 0)
      SAY(NO_AMOUNT, p, p->line[i].whole, "what does it cost? write it as in '9.80 per kg', '0.06 each' or 'free'");
  }
}

bool larder_parse(struct span text, struct diags *d, struct larder *out, struct arena *arena) {
  struct parser p = {.out = out, .d = d, .arena = arena, .currency = ""};
  struct span seen[COUNT_OF(HEADERS)] = {{NULL, 0}};
  struct header_reader headers = {HEADERS, COUNT_OF(HEADERS), DIAG_WARNING, "; keep one of them", d, arena, seen, &p, out};
  size_t errors = d->errors;
  *out = (struct larder){.name = "", .currency = "", .wish = {.aim = AIM_LIGHTEST}};
  out->recipe = (struct recipe){
      .name = "", .for_whom = "", .note = "", .days = 1, .meals_per_day = NAN, .total_g = NAN, .cook = STATE_UNSTATED};
  if (!text_fit(text, RECIPE_MOST_BYTES, LINE_MOST_BYTES, d)) return false;
  struct lines lines = lines_of(text);
  struct span line;
  while (lines_next(&lines, &line))
    if (!read_line(&p, &headers, line, lines.number)) break;
  check_limits(&p);
  check_prices(&p);
  out->line = p.line;
  out->line_count = p.count;
  out->limit = p.limits.item;
  out->limit_count = p.limits.count;
  out->currency = p.currency;
  if (p.count == 0 && d->errors == errors)
    diag_say(d, DIAG_ERROR, DIAG_EMPTY, (struct span){NULL, 0},
             "no food in this larder; write one a line, as in 'lamb heart   up to 200 g'");
  return d->errors == errors;
}

/* ---- records ---- */

static const double MOST_GRAMS_A_DAY = 50000;

/* The recipe's own complaints, said at the food's place in the larder. */
static bool weigh(const struct library *lib, const struct larder *larder, const struct larder_line *l,
                  const struct recipe_line *one, struct diags *d, struct ration_line *out, struct arena *arena) {
  struct diags own;
  diags_init(&own, arena, "", one->whole);
  bool fine = resolve_line(lib, &larder->recipe, one, &own, out, arena);
  for (size_t i = 0; i < own.count; i++)
    diag_say(d, own.item[i].level, own.item[i].code, l->food_at, "%s", own.item[i].message);
  return fine;
}

/* Grams as eaten of what the price speaks of; NaN after a complaint. */
static double priced_grams(const struct library *lib, const struct larder *larder, const struct larder_line *l,
                           const struct larder_food *f, struct diags *d, struct arena *arena) {
  enum unit_kind kind = unit_info[l->price_unit].kind;
  if (l->price == 0) return 1;
  if (kind == UNIT_KIND_MASS) return unit_convert(l->price_amount, l->price_unit);
  if (l->price_unit == l->one.unit || (l->price_unit == UNIT_EACH && unit_info[l->one.unit].kind == UNIT_KIND_COUNT))
    return f->unit_g * l->price_amount;
  struct recipe_line one = l->one;
  struct ration_line weighed;
  one.unit = l->price_unit;
  one.unit_at = (struct span){NULL, 0};
  if (!weigh(lib, larder, l, &one, d, &weighed, arena)) return (double)NAN;
  return weighed.grams_fed * l->price_amount;
}

static bool same_food(const struct ration_line *a, const struct ration_line *b) {
  return a->part[0].food == b->part[0].food && a->part[0].retention == b->part[0].retention &&
         a->part_count == b->part_count;
}

static const char *plain_name(const struct library *lib, const struct larder_line *l, const struct ration_line *r,
                              struct arena *arena) {
  return l->one.food.n > 0 ? arena_text(arena, l->one.food) : library_name(lib, r->shown_food);
}

static void resolve_one(const struct library *lib, const struct larder *larder, size_t i, struct diags *d,
                        struct larder_food *list, struct arena *arena) {
  const struct larder_line *l = &larder->line[i];
  struct larder_food *f = &list[i];
  *f = (struct larder_food){.line = l, .price_per_g = NAN, .name = ""};
  if (!weigh(lib, larder, l, &l->one, d, &f->one, arena)) return;
  ration_spread_days(&f->one, CALENDAR_DAYS, 0);
  f->unit_g = f->one.grams_fed;
  f->name = plain_name(lib, l, &f->one, arena);
  if (!(f->unit_g > 0)) {
    diag_say(d, DIAG_ERROR, DIAG_NUMBER, l->food_at, "one piece of it weighs nothing");
    return;
  }
  if (l->high < INFINITY && !(l->high * f->unit_g <= MOST_GRAMS_A_DAY))
    diag_say(d, DIAG_ERROR, DIAG_LIMIT, l->range_at.n > 0 ? l->range_at : l->whole, "more than 50 kg a day is not read");
  if (!isnan(l->price)) f->price_per_g = l->price / priced_grams(lib, larder, l, f, d, arena);
  for (size_t k = 0; k < i; k++)
    if (list[k].unit_g > 0 && same_food(&list[k].one, &f->one)) {
      diag_say(d, DIAG_ERROR, DIAG_TWICE, l->food_at, "[%s] is on line %d already; write one line for it",
               library_code(lib, f->one.shown_food), list[k].line->line);
      return;
    }
}

bool larder_resolve(const struct library *lib, const struct larder *larder, struct diags *d, struct larder_food **out,
                    struct arena *arena) {
  size_t errors = d->errors;
  *out = ARENA_NEW(arena, struct larder_food, larder->line_count + 1);
  for (size_t i = 0; i < larder->line_count; i++) resolve_one(lib, larder, i, d, *out, arena);
  return d->errors == errors;
}

const char *larder_header(struct span key) {
  const struct header_reader known = {.row = HEADERS, .rows = COUNT_OF(HEADERS)};
  int row = header_row_of(&known, key);
  return row >= 0 ? HEADERS[row].word : NULL;
}
