/* What stands behind "Limits:": clauses that hold for the whole bowl, set apart by ';'. */
#include <math.h>

#include "larder/larder_read.h"
#include "recipe/recipe_line.h"

static const char EXAMPLE[] =
    "fat at most 50 % of energy', 'food at most 480 g', 'bone about 10 %', 'at most 9 foods' or 'no food above 60 %";

struct limits_reader {
  struct diags *d;
  struct limit_list *out;
  struct arena *arena;
  int line;
};

#define SAY(code, r, at, ...) diag_say((r)->d, DIAG_ERROR, DIAG_##code, (at), __VA_ARGS__)
#define BIT(part) (1u << (part))

/* "about" is this share to either side. */
static const double ABOUT = 0.2;

static const struct {
  const char *phrase;
  unsigned parts;
} PARTS[] = {{"muscle meat", BIT(BOWL_MUSCLE)},
             {"muscle", BIT(BOWL_MUSCLE)},
             {"meat", BIT(BOWL_MUSCLE)},
             {"liver", BIT(BOWL_ORGAN_LIVER)},
             {"secreting organs", BIT(BOWL_ORGAN_SECRETING)},
             {"secreting organ", BIT(BOWL_ORGAN_SECRETING)},
             {"other organs", BIT(BOWL_ORGAN_SECRETING)},
             {"organs", BIT(BOWL_ORGAN_LIVER) | BIT(BOWL_ORGAN_SECRETING)},
             {"organ", BIT(BOWL_ORGAN_LIVER) | BIT(BOWL_ORGAN_SECRETING)},
             {"offal", BIT(BOWL_ORGAN_LIVER) | BIT(BOWL_ORGAN_SECRETING)},
             {"bone", BIT(BOWL_BONE)},
             {"plants", BIT(BOWL_PLANT)},
             {"plant", BIT(BOWL_PLANT)},
             {"vegetables", BIT(BOWL_PLANT)},
             {"fish", BIT(BOWL_FISH)},
             {"eggs", BIT(BOWL_EGG)},
             {"egg", BIT(BOWL_EGG)},
             {"dairy", BIT(BOWL_DAIRY)},
             {"oils", BIT(BOWL_FAT_OIL)},
             {"oil", BIT(BOWL_FAT_OIL)},
             {"supplements", BIT(BOWL_SUPPLEMENT)},
             {"supplement", BIT(BOWL_SUPPLEMENT)}};

static void push(struct limits_reader *r, struct larder_limit limit, struct bounds b, double unit, struct span at) {
  limit.line = r->line;
  limit.at = at;
  limit.low = b.low * unit;
  limit.high = b.high * unit;
  if (b.about) {
    limit.low *= 1 - ABOUT;
    limit.high *= 1 + ABOUT;
  }
  if (r->out->count == LARDER_MOST_LIMITS) {
    SAY(LIMIT, r, at, "more than %d limits", LARDER_MOST_LIMITS);
    return;
  }
  ARENA_PUSH(r->arena, r->out->item, r->out->count, r->out->cap, limit);
}

/* Optional words behind a share: "of the food". */
static size_t of_food(const struct tokens *t, size_t at) {
  return ANY_OF(t, at, "of the food", "of the bowl", "of food", "of mass", "of the mass", "by weight");
}
static size_t of_energy(const struct tokens *t, size_t at) {
  return ANY_OF(t, at, "of energy", "of the energy", "of kcal", "of calories", "of the calories");
}
static size_t a_day(const struct tokens *t, size_t at) {
  return ANY_OF(t, at, "a day", "per day", "daily", "/ day", "each day");
}

static bool share_is_sane(struct limits_reader *r, struct bounds b, struct span at) {
  if (b.high <= 100 || b.high == INFINITY) {
    if (!(b.low > 100)) return true;
  }
  SAY(NUMBER, r, at, "'%.*s': a share lies between 0 and 100 %%", SPAN_ARG(quoted(at)));
  return false;
}

/* "at most 9 foods", "no food above 60 %" */
static bool read_counts(struct limits_reader *r, const struct tokens *t, struct span at) {
  struct bounds b = bounds_at(t, 0, NULL);
  if (b.tokens > 0 && ANY_OF(t, b.tokens, "foods", "food", "ingredients", "lines") + b.tokens == t->count) {
    if (b.only_least || b.about || b.high != floor(b.high) || b.high < 1)
      SAY(NUMBER, r, at, "'%.*s': write it as in 'at most 9 foods'", SPAN_ARG(quoted(at)));
    else
      push(r, (struct larder_limit){.kind = LARDER_FOODS}, b, 1, at);
    return true;
  }
  size_t lead =
      ANY_OF(t, 0, "no food above", "no food over", "no food more than", "each food at most", "every food at most");
  struct quantity q = lead ? quantity_at(t, lead) : (struct quantity){.fault = QUANTITY_NONE};
  if (q.fault != QUANTITY_FINE || q.low != q.high) return false;
  size_t end = lead + q.tokens, percent = phrase_at(t, end, "%");
  if (percent == 0 || end + percent + of_food(t, end + percent) != t->count) return false;
  b = (struct bounds){.low = -INFINITY, .high = q.high};
  if (share_is_sane(r, b, at)) push(r, (struct larder_limit){.kind = LARDER_ONE_FOOD}, b, 0.01, at);
  return true;
}

/* "food at most 480 g", "energy 780-820 kcal", "cost at most 3.20" */
static bool read_totals(struct limits_reader *r, const struct tokens *t, struct span at) {
  static const struct {
    const char *word;
    enum larder_limit_kind kind;
  } WORDS[] = {
      {"food", LARDER_FOOD}, {"mass", LARDER_FOOD}, {"energy", LARDER_KCAL}, {"cost", LARDER_COST}, {"price", LARDER_COST}};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++) {
    if (phrase_at(t, 0, WORDS[i].word) == 0) continue;
    struct bounds b = bounds_at(t, 1, r->d);
    size_t end = 1 + b.tokens, used = 0;
    double unit = 1;
    if (b.tokens == 0) return false;
    if (WORDS[i].kind == LARDER_FOOD) {
      enum unit u = unit_at_token(t, end, &used);
      if (unit_info[u].kind != UNIT_KIND_MASS) return false;
      unit = unit_convert(1, u);
    } else if (WORDS[i].kind == LARDER_KCAL) {
      used = ANY_OF(t, end, "kcal", "calories");
      if (used == 0) return false;
    }
    end += used;
    end += a_day(t, end);
    if (end != t->count) return false;
    if (b.low > b.high || !(b.high > 0)) {
      SAY(NUMBER, r, at, "'%.*s' leaves nothing", SPAN_ARG(quoted(at)));
      return true;
    }
    push(r, (struct larder_limit){.kind = WORDS[i].kind}, b, unit, at);
    return true;
  }
  return false;
}

/* "muscle 70-80 %", "bone about 10 % of the food" */
static bool read_part(struct limits_reader *r, const struct tokens *t, struct span at) {
  for (size_t i = 0; i < COUNT_OF(PARTS); i++) {
    size_t used = phrase_at(t, 0, PARTS[i].phrase);
    if (used == 0) continue;
    struct bounds b = bounds_at(t, used, r->d);
    size_t end = used + b.tokens, percent = phrase_at(t, end, "%");
    if (b.tokens == 0) return false;
    end += percent;
    if (end + of_food(t, end) != t->count) return false;
    if (percent == 0)
      SAY(UNIT, r, at, "'%.*s': per cent of the food is meant? write it as in 'bone 8-12 %%'", SPAN_ARG(quoted(at)));
    else if (share_is_sane(r, b, at))
      push(r, (struct larder_limit){.kind = LARDER_PART, .parts = PARTS[i].parts}, b, 0.01, at);
    return true;
  }
  return false;
}

/* The longest run of words from the start that names a nutrient. */
static enum nutrient nutrient_at(const struct tokens *t, size_t *used) {
  enum nutrient found = NUT_NONE;
  for (size_t n = 1; n <= t->count && n <= 5; n++) {
    enum nutrient x = nutrient_by_name(tokens_span(t, 0, n));
    if (x == NUT_NONE) continue;
    found = x;
    *used = n;
  }
  return found;
}

/* "fat at most 50 % of energy", "zinc at least 20 mg" */
static bool read_nutrient(struct limits_reader *r, const struct tokens *t, struct span at) {
  size_t used = 0, unit_used = 0;
  enum nutrient n = nutrient_at(t, &used);
  if (n == NUT_NONE) return false;
  struct bounds b = bounds_at(t, used, r->d);
  size_t end = used + b.tokens;
  if (b.tokens == 0) return false;
  if (phrase_at(t, end, "%") > 0) {
    size_t of = of_energy(t, end + 1);
    bool share = n == NUT_PROTEIN || n == NUT_FAT || n == NUT_CARBOHYDRATE;
    if (end + 1 + of != t->count) return false;
    if (!share || of == 0)
      SAY(UNIT, r, at,
          "per cent of what? write it as in 'fat at most 50 %% of energy' or with a unit, as in 'zinc at least 20 mg'");
    else if (share_is_sane(r, b, at))
      push(r, (struct larder_limit){.kind = LARDER_ENERGY_SHARE, .nutrient = n}, b, 0.01, at);
    return true;
  }
  enum unit u = unit_at_token(t, end, &unit_used);
  double unit = unit_used > 0 ? unit_nutrient_amount(1, u, n, true) : (double)NAN;
  end += unit_used;
  end += a_day(t, end);
  if (end != t->count) return false;
  if (!(unit > 0))
    SAY(UNIT, r, at, "'%.*s': in which unit? write it as in '%s at least 20 %s'", SPAN_ARG(quoted(at)),
        nutrient_info[n].name, nutrient_info[n].unit);
  else
    push(r, (struct larder_limit){.kind = LARDER_NUTRIENT, .nutrient = n}, b, unit, at);
  return true;
}

static void read_clause(struct limits_reader *r, const struct tokens *t, struct span at) {
  size_t errors = r->d->errors;
  typedef bool read_as(struct limits_reader *, const struct tokens *, struct span);
  static read_as *const READ[] = {read_counts, read_nutrient, read_totals, read_part};
  for (size_t i = 0; i < COUNT_OF(READ); i++)
    if (READ[i](r, t, at) || r->d->errors > errors) return; /* a faulty number is said once */
  SAY(NOT_UNDERSTOOD, r, at, "the limit '%.*s' is not understood; write it as in '%s'", SPAN_ARG(quoted(at)), EXAMPLE);
}

void larder_limits_read(struct span value, int number, struct diags *d, struct limit_list *out, struct arena *arena) {
  struct limits_reader r = {.d = d, .out = out, .arena = arena, .line = number};
  struct tokens t = tokens_of(value, arena);
  for (size_t from = 0; from < t.count;) {
    size_t to = from;
    while (to < t.count &&
           !(t.item[to].kind == TOKEN_MARK && (t.item[to].mark == ';' || (t.item[to].mark == ',' && !t.item[to].glued) ||
                                               (t.item[to].mark == ',' && !(to + 1 < t.count && t.item[to + 1].glued)))))
      to++;
    size_t lead = from + (phrase_at(&t, from, "parts") > 0 ? 1 : 0);
    if (lead < to && phrase_at(&t, to - 1, ".") > 0 && to == t.count) t.count = --to;
    struct tokens part = tokens_part(&t, lead, to);
    if (part.count > 0) read_clause(&r, &part, tokens_span(&t, lead, to - lead));
    from = to + 1;
  }
}
