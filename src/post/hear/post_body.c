/* A weight, an age, and the weight that the animal should have, as people write them. */
#include "post/hear/post_hear.h"

static const double KG_PER_LB = 0.45359237, LB_PER_STONE = 14, WEEKS_PER_YEAR = 52.18;

/* ---- weight ---- */

/* "3 stone 2lb", "2st 4", "3 stone": the tokens behind the number of stones; 0. */
static size_t stones_at(const struct tokens *t, size_t unit, double stones, double *kg) {
  bool stone = says(t, unit, "stone stones"), st = says(t, unit, "st");
  if (!stone && !st) return 0;
  size_t at = unit + 1;
  if (says(t, at, "and")) at++;
  struct quantity pounds = quantity_at(t, at);
  size_t behind = at + pounds.tokens;
  bool lb = pounds.fault == QUANTITY_FINE && pounds.low < LB_PER_STONE && is_number(t, at);
  bool named = lb && says(t, behind, "lb lbs pound pounds");
  lb = named || (lb && (behind >= t->count || t->item[behind].kind == TOKEN_MARK)); /* "2st 4" */
  if (st && !lb && t->item[unit].glued && stones < 2) return 0;                     /* "the 1st" */
  *kg = (stones * LB_PER_STONE + (lb ? pounds.low : 0)) * KG_PER_LB;
  return (lb ? behind + named : unit + 1) - unit;
}

size_t post_weight_at(const struct tokens *t, size_t at, double *kg) {
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE || says(t, at, "a an")) return 0;
  double x = (q.low + q.high) / 2; /* "24-25 kg" */
  size_t unit = at + q.tokens;
  if (is_mark(t, unit, '-') || says(t, unit, "ish odd")) unit++;
  if (is_mark(t, unit, '-') || says(t, unit, "odd")) unit++;
  size_t used = 1, stones = stones_at(t, unit, x, kg);
  if (stones > 0)
    used = stones;
  else if (says_a(t, unit, CLASS_KILOGRAMS))
    *kg = x;
  else if (says(t, unit, "lb lbs pound pounds lbs.")) {
    struct quantity ounces = quantity_at(t, unit + 1); /* "8 lbs 4 oz" */
    bool more = is_number(t, unit + 1) && ounces.fault == QUANTITY_FINE && ounces.low < 16 &&
                says(t, unit + 1 + ounces.tokens, "oz ounce ounces");
    *kg = (x + (more ? ounces.low / 16 : 0)) * KG_PER_LB;
    used = more ? 2 + ounces.tokens : 1;
  } else if (is_mark(t, unit, '#') && t->item[unit].glued)
    *kg = x * KG_PER_LB;
  else
    return 0;
  return *kg >= 0.8 && *kg <= 110 ? unit + used - at : 0;
}

/* "I make 3 kg at a time", "I cook 5kg at once": of food. */
bool post_is_made_at_once(const struct tokens *t, size_t at, size_t used) {
  while (at > 0 && says(t, at - 1, "about around roughly up to only")) at--;
  if (at > 0 && says(t, at - 1, "make makes making made cook cooks cooking batch prep buy mince order")) return true;
  return phrase_of(t, at + used, CLASS_MADE_AT_ONCE) > 0;
}

/* ---- age ---- */

static bool is_animal(const struct tokens *t, size_t at) {
  enum species s;
  return is_word(t, at) && token_is_animal(&t->item[at], &s);
}

/* "4 mo kitten", "16 week old lab pup", "puppy (12 weeks, 6 kg)", "he's 10 weeks": so few weeks are an age only where they
 * are said to be one, for much else is counted in them. */
static bool is_age_of_young(const struct tokens *t, size_t at, size_t end) {
  double kg;
  if (says(t, end, "old") || (says(t, end, "of") && says(t, end + 1, "age"))) return true;
  if (is_animal(t, end) || (is_word(t, end) && is_animal(t, end + 1) && !says(t, end, "for of the my our a"))) return true;
  if (at > 1 && is_mark(t, at - 1, ':') && says(t, at - 2, "age aged")) return true;
  bool weighed = end < t->count && t->item[end].taken && t->item[end].kind == TOKEN_NUMBER;
  if (weighed || post_weight_at(t, end, &kg) > 0) return true; /* "boxer x 5 months 18 kilo" */
  if (at > 0 && says(t, at - 1, "aged he's she's hes shes age")) return true;
  bool is = at > 0 && says(t, at - 1, "is only now just nearly almost about");
  size_t behind = end;
  while (is_mark(t, behind, ',') || is_mark(t, behind, ')') || is_mark(t, behind, '/') || says(t, behind, "and")) behind++;
  bool ends = behind >= t->count || behind > end || is_mark(t, end, '.') || is_mark(t, end, ':');
  if (is && ends) return true;
  if (post_weight_at(t, behind, &kg) > 0 && behind > end) return true;
  if (at > 0 && (is_mark(t, at - 1, '(') || is_mark(t, at - 1, ',')) && ends)
    for (size_t i = at; i-- > 0 && i + 6 > at;)
      if (is_animal(t, i) || (i + 1 < at && post_weight_at(t, i, &kg) > 0)) return true;
  return false;
}

size_t post_age_at(const struct tokens *t, size_t at, double *years) {
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low > 0 && q.low < 105)) return 0;
  size_t end = at + q.tokens;
  if (is_mark(t, end, '-')) end++;
  bool weeks = says(t, end, "week weeks wk wks week-old weeks-old wo"),
       months = says(t, end, "month months mo mths mth mos month-old months-old") ||
                (says(t, end, "m mth") && says(t, end + 1, "old"));
  bool hyphen = says(t, end, "week-old weeks-old month-old months-old wo");
  if (says_a(t, end, CLASS_YEARS) && q.low < 30)
    *years = q.low;
  else if ((weeks || months) && (hyphen || is_age_of_young(t, at, is_mark(t, end + 1, '-') ? end + 2 : end + 1)))
    *years = q.low / (weeks ? WEEKS_PER_YEAR : 12);
  else
    return 0;
  end++;
  if (is_mark(t, end, '.') && t->item[end].glued) end++;
  if (is_mark(t, end, '/') && says(t, end + 1, "o")) end += 2;
  if (is_mark(t, end, '-')) end++;
  if (says(t, end, "old")) end++;
  if (says(t, end, "of") && says(t, end + 1, "age")) end += 2;
  if (says(t, end, "ago worth")) return 0;
  return end - at;
}

/* ---- the weight that it should have ---- */

void post_hear_ideal(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_IS_IDEAL_WEIGHT), at = i + used;
    if (used == 0) continue;
    while (says(t, at, "is about around more like nearer closer to at be of")) at++;
    double kg = 0;
    size_t weight = post_weight_at(t, at, &kg), from = i;
    struct quantity q = quantity_at(t, at);
    bool bare = weight == 0 && is_number(t, at) && q.fault == QUANTITY_FINE && q.low == q.high &&
                (at + q.tokens >= t->count || t->item[at + q.tokens].kind == TOKEN_MARK ||
                 says(t, at + q.tokens, "according as says said per"));
    for (size_t k = 0; k < i && bare && !(kg > 0); k++) { /* "is 20kg, should be 18": of the same unit */
      double now;
      size_t told = post_weight_at(t, k, &now);
      if (told > 0) kg = q.low * (says_a(t, k + told - 1, CLASS_KILOGRAMS) ? 1 : KG_PER_LB);
      if (told == 0 && is_number(t, k) && k > 0 && says(t, k - 1, "weighs weighing"))
        kg = q.low; /* in its unit, whatever that is */
    }
    if (!(kg > 0)) continue;
    r->ideal_kg = kg;
    weight = weight > 0 ? weight : q.tokens;
    while (from > 0 && says(t, from - 1, "he she his her but and it its")) from--;
    if (from > 0 && is_mark(t, from - 1, ',')) from--;
    post_claim(r, tokens_span(t, from, at + weight - from), CLAIM_TOLD, 0, 0);
    take(t, from, at + weight - from);
  }
}
