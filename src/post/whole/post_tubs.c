/* Tubs, bags, portions: what each of them holds, and how many are eaten in a day. */
#include "post/whole/post_whole.h"

/* "tub", "ice cream tub", "of them": what is eaten, behind how many; its end, 'at' when it is none. */
static size_t tubs_end(const struct tokens *t, size_t at) {
  enum { WORDS_BETWEEN = 2 };
  if (says(t, at, "of") && says(t, at + 1, "them these those")) return at + 2;
  if (says(t, at, "of") && says(t, at + 1, "the these those my")) at += 2;
  for (size_t i = at; i < t->count && i <= at + WORDS_BETWEEN && is_word(t, i); i++) {
    if (says_a(t, i, CLASS_VESSEL_OF_SUPPLY)) return i + 1;
    if (says_a(t, i, CLASS_BEHIND_NO_VESSEL)) break;
  }
  return at;
}

static size_t a_day_at(const struct tokens *t, size_t at) {
  if (says(t, at, "a per each every") && says(t, at + 1, "day")) return 2;
  return says(t, at, "daily") ? 1 : 0;
}

/* "gets through one and a half of them a day", "a bag a day", "has two tubs each day": how many; 0. */
static double tubs_a_day(struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low > 0 && q.low <= 6)) continue;
    size_t behind = i + q.tokens;
    double many = q.low;
    if (phrase_at(t, behind, "and a half") > 0) many += 0.5, behind += 3;
    size_t end = tubs_end(t, behind), a_day = end > behind ? a_day_at(t, end) : 0;
    if (a_day == 0 && end > behind && says(t, end, "of") && says(t, end + 1, "it this that"))
      a_day = a_day_at(t, end + 2), end += 2;
    if (phrase_at(t, end, "and a half") > 0 && end > behind) { /* "a tub and a half a day" */
      a_day = a_day_at(t, end + 3);
      if (a_day > 0) many += 0.5, end += 3;
    }
    if (a_day == 0) continue;
    take(t, i, end + a_day - i);
    return many;
  }
  return 0;
}

static bool is_lot(const struct tokens *t, size_t at) {
  return says_a(t, at, CLASS_VESSEL_OF_SUPPLY) || says(t, at, "lots packs parcels patties pouches blocks");
}

/* "in 500 g bags", "into tubs of 300 g", "each bag weighs 450 g": what one of them holds, and takes it; 0. */
static double weight_of_tub(struct tokens *t) {
  for (size_t i = 1; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    size_t behind = i + a.tokens, lot = is_mark(t, behind, '-') ? behind + 1 : behind;
    if (a.tokens == 0 || !a.is_mass || a.low != a.high) continue;
    bool in = says(t, i - 1, "in into as of") && is_lot(t, lot);
    bool one = says(t, i - 1, "in into as") && is_lot(t, behind - 1); /* "500 g bag" is one unit */
    bool of = i > 1 && says(t, i - 1, "of") && is_lot(t, i - 2) &&
              (behind >= t->count || t->item[behind].kind == TOKEN_MARK || says(t, behind, "each and"));
    bool weighs = i > 2 && says(t, i - 1, "weighs holds is") && is_lot(t, i - 2) && says(t, i - 3, "each every one a") &&
                  (behind >= t->count || !is_word(t, behind));
    if (!in && !one && !of && !weighs) continue;
    size_t from = in || one ? i - 1 : of ? i - 2 : i - 3, end = in ? lot + 1 : behind;
    if (says(t, end, "of")) continue; /* "in 500 g bags of frozen peas" */
    take(t, from, end - from);
    return post_in_grams(&a);
  }
  return 0;
}

/* "portioned into 65 x 200 g": how many, and takes it; 0. */
static double so_many_of(struct tokens *t) {
  for (size_t i = 1; i + 2 < t->count; i++) {
    bool by = is_mark(t, i + 1, 'x') || says(t, i + 1, "x lots");
    if (!says(t, i - 1, "into as makes") || !is_number(t, i) || !by || !post_amount_at(t, i + 2).is_mass) continue;
    double many = t->item[i].value;
    size_t end = i + 2 + post_amount_at(t, i + 2).tokens;
    if (!(many >= 4) || (end < t->count && is_word(t, end) && !is_lot(t, end))) continue;
    size_t from = i - 1;
    while (from > 0 && is_word(t, from - 1) &&
           (token_is_a(&t->item[from - 1], CLASS_CHATTER) || says_a(t, from - 1, CLASS_PACKING)))
      from--;
    take(t, from, end + (is_lot(t, end) ? 1 : 0) - from);
    return many;
  }
  return 0;
}

/* "1 tub AM, half a tub PM": how many in all; 0. */
static double tubs_at_meals(struct tokens *t) {
  double sum = 0;
  size_t n = 0, first = 0, last = 0;
  for (size_t i = 0; i < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low > 0 && q.low <= 4)) continue;
    size_t behind = i + q.tokens;
    if (says(t, behind, "a of")) behind++; /* "half a tub" */
    size_t end = tubs_end(t, behind);
    if (end == behind) continue;
    if (is_mark(t, end, '(') && post_amount_at(t, end + 1).is_mass) end += post_amount_at(t, end + 1).tokens + 2;
    while (says(t, end, "in at for the")) end++;
    if (!is_word(t, end) || !token_is_a(&t->item[end], CLASS_MEAL)) continue;
    if (n++ == 0) first = i;
    sum += q.low;
    last = end + 1;
    i = end;
  }
  if (n < 2) return 0;
  take(t, first, last - first);
  return sum;
}

/* "Across the ten tubs I put 3 kg ...", "into all twelve boxes goes": how many, and takes it; 0. */
static double across_tubs(struct tokens *t) {
  for (size_t i = 0; i + 3 < t->count; i++) {
    if (!says(t, i, "across between among into over in to") || !says(t, i + 1, "the all these those")) continue;
    struct quantity q = quantity_at(t, i + 2);
    size_t tub = i + 2 + q.tokens;
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= 4) || !says_a(t, tub, CLASS_VESSEL_OF_SUPPLY)) continue;
    if (says(t, tub + 1, "of") || !post_any_amount(t, tub + 1)) continue;
    size_t end = tub + 1;
    while (is_mark(t, end, ',') || says(t, end, "i we put go goes in there's divide spread")) end++;
    take(t, i, end - i);
    return q.low;
  }
  return 0;
}

/* "3 a day", "two of them daily", "three in a day", behind who eats them: its end, 'many' how many; 0. */
static size_t so_many_a_day(const struct tokens *t, size_t at, double *many) {
  struct quantity q = quantity_at(t, at);
  if (at == 0 || q.fault != QUANTITY_FINE || q.low != q.high || !(q.low > 0 && q.low <= 6)) return 0;
  if (!says_a(t, at - 1, CLASS_EATER_VERB) && !says(t, at - 1, "through") && t->item[at - 1].kind != TOKEN_MARK) return 0;
  size_t end = at + q.tokens;
  if (says(t, end, "of") && says(t, end + 1, "them these those")) end += 2;
  if (says(t, end, "in")) end++;
  size_t a_day = a_day_at(t, end);
  if (a_day == 0) a_day = phrase_at(t, end, "per day");
  *many = q.low;
  return a_day > 0 ? end + a_day : 0;
}

/* "24 tubs and he eats 3 a day (am, noon, pm)", "that made 45 portions and he goes through three in a day": the meals that a
 * batch makes, and how many of them are a day's. */
static void tubs_and_so_many_a_day(struct post_reader *r, struct tokens *t) {
  static const double LEAST = 4;
  for (size_t i = 0; i < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    size_t behind = i + q.tokens, end = behind, to = 0;
    double many = 0;
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < LEAST || says(t, behind, "of")) continue;
    end = tubs_end(t, behind);
    if (end == behind || says(t, end, "of") || a_day_at(t, end) > 0) continue;
    for (size_t k = end; k < t->count && to == 0; k++) to = so_many_a_day(t, k, &many);
    if (to == 0 || !(many < q.low)) continue;
    r->makes_meals = q.low;
    r->meals_a_day = many;
    size_t from = i;
    while (from > 0 && t->item[from - 1].kind != TOKEN_MARK && post_amount_at(t, from - 1).tokens == 0) from--;
    bool times = is_mark(t, to, '(') && !post_any_amount(t, to); /* "(am, noon, pm)" */
    post_claim(r, tokens_span(t, from, (times ? t->count : to) - from), CLAIM_TOLD, 0, 0);
    take(t, from, (times ? t->count : to) - from);
    return;
  }
}

/* "One pot = 4 days", "a tray is four days of food": how long all of it lasts, at 'from'; false: nothing of it. */
static bool pot_lasts_at(struct post_reader *r, struct tokens *t, size_t from) {
  size_t at = says(t, from, "one a this that the") || (is_number(t, from) && t->item[from].value == 1) ? from + 1 : from;
  if (at == from || r->makes_days > 0 || !(says_a(t, at, CLASS_THE_POT) || says_a(t, at, CLASS_COOKWARE))) return false;
  if (!is_mark(t, at + 1, '=') && !says(t, at + 1, "is does lasts makes equals")) return false;
  struct quantity q = quantity_at(t, at + 2);
  size_t unit = at + 2 + q.tokens, end = unit + 1;
  if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low > 1 && q.low <= 31) || !says(t, unit, "days")) return false;
  r->makes_days = q.low;
  r->makes_line = r->line;
  if (says(t, end, "of") && says(t, end + 1, "food it meals grub")) end += 2;
  if (says(t, end, "for")) end++;
  post_claim(r, tokens_span(t, from, end - from), CLAIM_TOLD, 0, 0);
  take(t, from, end - from);
  return true;
}

static void one_pot_lasts(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if ((i == 0 || t->item[i - 1].kind == TOKEN_MARK) && pot_lasts_at(r, t, i)) return;
}

void post_hear_tubs(struct post_reader *r, struct tokens *t) {
  one_pot_lasts(r, t);
  tubs_and_so_many_a_day(r, t);
  double packed = so_many_of(t);
  if (packed > 0) r->makes_meals = packed;
  double across = across_tubs(t);
  if (across > 0) r->makes_meals = across;
  double holds = weight_of_tub(t);
  if (holds > 0) r->tub_g = holds;
  bool food = false; /* "a pot of yoghurt a day" is a food */
  for (size_t i = 0; i < t->count && !food; i++)
    food = says(t, i, "of") && i > 0 && says_a(t, i - 1, CLASS_VESSEL_OF_SUPPLY) && post_mention_at(r, t, i + 1) > 0;
  double at_a_time = 0; /* "the tubs are made 12 at a time" */
  bool tubs = false;
  for (size_t i = 0; i < t->count; i++) {
    tubs = tubs || says_a(t, i, CLASS_VESSEL_OF_SUPPLY);
    struct quantity q = quantity_at(t, i);
    if (q.fault == QUANTITY_FINE && phrase_at(t, i + q.tokens, "at a time") > 0 && q.low == q.high) at_a_time = q.low;
  }
  if (tubs && at_a_time >= 4 && !r->per_tub) r->makes_meals = at_a_time;
  double many = food ? 0 : tubs_at_meals(t);
  if (many == 0 && !food) many = tubs_a_day(t);
  if (many > 0) r->meals_a_day = many;
}

/* "Each tub holds 180 g of turkey, ...", "Per bag:" */
size_t post_in_each_tub(struct post_reader *r, const struct tokens *t) {
  size_t at = says(t, 0, "so in and") ? 1 : 0;
  if (says(t, at, "in")) at++;
  bool each = says(t, at, "each every per"),
       one = says(t, at, "one a") && !says(t, at + 1, "pot tray dish"); /* "a pot: 3 kg ..." */
  bool bare =
      at == 0 && says(t, 0, "tub bag portion box") && (is_mark(t, 1, '=') || is_mark(t, 1, ':')); /* "Tub = 200 g ..." */
  if (!bare && ((!each && !one) || says(t, at + 1, "batch batches") || !says_a(t, at + 1, CLASS_VESSEL_OF_SUPPLY))) return 0;
  size_t end = bare ? 1 : at + 2;
  bool holds = says_a(t, end, CLASS_HOLDING);
  if (one && !holds) return 0;
  while (says_a(t, end, CLASS_HOLDING) || is_mark(t, end, ':') || is_mark(t, end, '=') || is_mark(t, end, '-'))
    holds = true, end++;
  if (!holds || (end < t->count && !post_any_amount(t, end))) return 0;
  if (end < t->count && !post_names_food(r, t, end, t->count)) return 0;
  r->per_tub = true;
  r->period = "at each meal";
  r->period_line = r->line;
  post_claim(r, tokens_span(t, 0, end), CLAIM_TOLD, 0, 0);
  return end;
}

void post_weigh_tubs(struct post_reader *r) {
  if (!(r->tub_g > 0) || !(r->meals_a_day > 0) || r->feeds_g > 0 || r->makes_days > 0 || r->makes_meals > 0) return;
  r->cooks_days = 0;
  r->feeds_g = r->tub_g * r->meals_a_day;
}
