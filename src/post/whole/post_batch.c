/* How long a batch lasts, how many meals it is, and what is fed in all. */
#include "base/num.h"
#include "post/whole/post_whole.h"

static bool says_any(const struct tokens *t, const char *words) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, words)) return true;
  return false;
}

static void set_days(struct post_reader *r, double days) {
  if (!(days > 0) || days > 366) return;
  if (r->makes_days > 0 && r->makes_days != days) {
    post_ask(r, 3, "Two lengths are given for the batch. How many days does it last?");
    r->two_lengths = true;
    return;
  }
  r->makes_days = days;
  r->makes_line = r->line;
}

/* "14 old ice cream tubs": the vessel behind a number, a few words between; t->count none. */
static size_t vessel_at(const struct tokens *t, size_t at) {
  enum { WORDS_BETWEEN = 3 };
  for (size_t i = at; i < t->count && i <= at + WORDS_BETWEEN && is_word(t, i); i++) {
    if (says_a(t, i, CLASS_VESSEL)) return i;
    if (says_a(t, i, CLASS_BEHIND_NO_VESSEL)) break;
  }
  return t->count;
}

/* "makes", "lasts him", "that's", "the pan does": what stands before how long a batch lasts. */
static bool lasts_before(const struct tokens *t, size_t at) {
  while (at > 1 && says(t, at - 1, "exactly about around roughly approx approximately nearly almost just only maybe up to"))
    at--;
  if (at == 0) return false;
  bool the = at > 1 && says(t, at - 1, "the") && says(t, at - 2, "for"); /* "feeds them for the 7 days" */
  if (the && says_any(t, "feeds feed lasts last batch cook pot pan makes does")) at--;
  if (says(t, at - 1, "him her us them me it both") && at > 1) at--;
  if (says(t, at - 1, "of") && at > 3 && says(t, at - 2, "two pair three") && says(t, at - 3, "the"))
    at -= 3; /* "the two of them" */
  else if (says(t, at - 1, "of") && at > 2 && says(t, at - 2, "both all"))
    at -= 2; /* "lasts both of them" */
  if (says(t, at - 1, "two pair three") && at > 2 && says(t, at - 2, "the")) at -= 2;
  enum species s; /* "lasts my two dogs 2 days" */
  if (at > 2 && is_word(t, at - 1) && token_is_animal(&t->item[at - 1], &s)) {
    double kg; /* "lasts my 15 kg cocker 8 days" */
    at -= at > 3 && post_weight_at(t, at - 3, &kg) == 2 ? 3 : 1;
    if (at > 2 && says(t, at - 1, "of") && says(t, at - 2, "pair couple trio")) at -= 2;
    if (at > 1 && quantity_at(t, at - 1).fault == QUANTITY_FINE) at--;
    while (at > 1 && says(t, at - 1, "my our the both")) at--;
  }
  return says_a(t, at - 1, CLASS_LASTING);
}

/* "I end up with 24 tubs", "comes out at eight boxes", "From 2 kg ... I get 16 portions" */
static bool yields_before(const struct tokens *t, size_t at) {
  enum { FAR = 5 };
  while (at > 1 && says(t, at - 1, "exactly about around roughly approx approximately nearly almost just some")) at--;
  for (size_t i = at; i-- > 0 && i + FAR > at;) {
    size_t used = phrase_of(t, i, CLASS_YIELDING);
    if (used > 0 && i + used == at) return true;
  }
  return false;
}

static const char NO_MEALS_OF_A_DAY[] =
    "portion portions serving servings tub tubs bag bags container containers box boxes jar jars pot pots tray trays pack "
    "packs packet packets dish dishes meals dinners";

/* "Split over two meals", and nothing of a batch: the amounts are those of a day. */
static bool tells_a_day(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "daily") || (says(t, i, "a per each every") && says(t, i + 1, "day"))) return true;
  return false;
}

/* "200 g cooked chicken a day, split over two meals" */
static bool split_over_the_day(const struct tokens *t, size_t at, size_t vessel) {
  bool split = false;
  for (size_t i = at > 3 ? at - 3 : 0; i < at; i++) split = split || says(t, i, "split splits divided spread shared");
  split = split || (at > 0 && says(t, at - 1, "over across") && says(t, vessel, "meals feeds feedings")); /* "over three meals" */
  return split && says(t, vessel, "meal meals serving servings bowl bowls feeds portions") &&
         (tells_a_day(t) ||
          !says_any(t, "batch batches make made makes cook cooking pot pan freezer freeze fridge tubs "
                       "containers week days"));
}

/* "..., mix it and press into 20 tubs": what is done with it belongs to no food. */
static void take_how_packed(struct post_reader *r, struct tokens *t, size_t at) {
  enum { FAR = 9 };
  bool it = false;
  for (size_t i = at; i-- > 0 && i + FAR > at && !t->item[i].taken && post_mention_at(r, t, i) == 0 && !is_number(t, i);) {
    it = it || says(t, i, "it them everything all lot");
    if (it && (is_mark(t, i, ',') || is_mark(t, i, ';'))) {
      take(t, i, at - i);
      return;
    }
  }
}

/* "a box does him two days": that is one of them, and not the batch. */
static bool of_one_vessel(const struct tokens *t, size_t at) {
  enum { FAR = 5 };
  for (size_t i = at; i-- > 1 && i + FAR > at && is_word(t, i);)
    if (says_a(t, i, CLASS_VESSEL)) return says(t, i - 1, "a each one every");
  return false;
}

/* "It has rained for nine days", "I have been away for six days": how long that has been so, and no food lasts by it. */
static bool has_been_so(const struct tokens *t, size_t at) {
  enum { FAR = 6 };
  if (at < 3 || !says(t, at - 1, "for")) return false;
  for (size_t i = at > FAR ? at - FAR : 0; i + 2 < at; i++) {
    struct span w = is_word(t, i + 1) ? t->item[i + 1].word : (struct span){"", 0};
    bool participle = (w.n > 3 && span_is(span_cut(w, w.n - 2, w.n), "ed")) || says(t, i + 1, "been gone had known");
    if (says(t, i, "has have it's she's he's we've i've") && participle &&
        !says(t, i + 1, "lasted kept fed cooked boiled baked frozen portioned batched"))
      return true;
  }
  return false;
}

/* "makes 6 days", "7 days worth", "lasts 8 days", "5-day batch", "makes 2 weeks", "split into 14 meals" */
static bool batch_number_at(struct post_reader *r, struct tokens *t, size_t i, bool batch) {
  struct quantity q = quantity_at(t, i);
  if (q.fault != QUANTITY_FINE || q.low != q.high || (says(t, i, "a an") && q.tokens == 1)) return false;
  size_t unit = i + q.tokens;
  if (is_mark(t, unit, '-')) unit++;
  bool days = says(t, unit, "day days day's days' tage jours"), weeks = says(t, unit, "week weeks wks"),
       months = says(t, unit, "month months months' month's");
  days = days || (says(t, unit, "d") && i > 0 && says(t, i - 1, "for lasts makes"));
  size_t vessel = days || weeks || months || q.low < 2 ? t->count : vessel_at(t, unit);
  bool meals = vessel < t->count;
  if (days && is_mark(t, unit + 1, '\'')) unit++; /* "three days' worth" */
  bool worth = says(t, unit + 1, "worth batch supply total totals shop ration rations") || phrase_at(t, unit + 1, "out of it") > 0 ||
               phrase_at(t, unit + 1, "at a time") > 0 || phrase_at(t, unit + 1, "out of that") > 0 ||
               phrase_at(t, unit + 1, "out of this") > 0 || phrase_at(t, unit + 1, "of food") > 0 ||
               phrase_at(t, unit + 1, "of it") > 0;
  bool lasts = lasts_before(t, i) || (meals && i > 0 && says(t, i - 1, "make filled filling into = to")) ||
               (meals && q.low >= 4 && i > 0 && says(t, i - 1, "in"));
  lasts = lasts || (i > 0 && says(t, i - 1, "in") && says_any(t, "gone eaten finished"));
  lasts = lasts || (meals && q.low >= 4 && says(t, vessel, NO_MEALS_OF_A_DAY) && yields_before(t, i));
  lasts = lasts || (i == 0 && meals && q.low >= 4 && !says(t, vessel + 1, "of") && /* "20 tubs, two a day" */
                    (r->count > 0 || (is_mark(t, vessel + 1, ',') && says(t, vessel + 2, "each one"))));
  bool behind_batch = i > 1 && t->item[i - 1].kind == TOKEN_MARK && says(t, i - 2, "batch batches"); /* "batch - 14 meals" */
  bool between = i > 1 && says(t, i - 1, "between among") && says(t, i - 2, "split divided shared portioned");
  lasts = lasts || (meals && q.low >= 4 && (behind_batch || between));
  bool stays = i > 0 && says(t, i - 1, "is be that's thats does do"); /* only of a batch */
  bool every = i > 0 && says(t, i - 1, "every") && says_any(t, "make makes cook cooks batch prep");
  bool bracketed = batch && i > 0 && (is_mark(t, i - 1, '(') || is_mark(t, i - 1, ','));
  bool of_food = meals && (says(t, vessel + 1, "of") ? !says(t, vessel + 2, "it this that the these food them my his her")
                                                     : post_mention_at(r, t, vessel + 1) > 0);
  bracketed = bracketed && !of_food; /* ", 3 packs of chicken livers" */
  if (says(t, unit, "meal tub portion bowl bag container") && says(t, unit + 1, "a per") && says(t, unit + 2, "day")) {
    r->meals_a_day = q.low;
    take(t, i, unit + 3 - i);
    return false;
  }
  if (days && (q.low == 1 || of_one_vessel(t, i))) return false; /* "each tub is one day" */
  bool spread =
      i > 1 && says(t, i - 1, "over across") && says(t, i - 2, "spread stretched shared"); /* one food of several */
  if (days && spread && !says_any(t, "batch batches pot pots pan cook cooker stew freezer freeze make makes")) return false;
  if (says(t, unit + 1, "ago old now a gone pregnant along") || (!days && !weeks && !months && !meals)) return false;
  if (meals && (says(t, vessel + 1, "a per") || (i > 0 && says(t, i - 1, "gets eats has")))) {
    if (says(t, vessel + 2, "day") || (q.low <= 6 && says(t, vessel, "meals") && i > 0 && says(t, i - 1, "gets eats has")))
      r->meals_a_day = q.low;
    return false;
  }
  if (!(worth || every || bracketed || (lasts && (batch || (!stays && (says_any(t, "makes lasts worth") || !months))))))
    return false;
  if (!worth && has_been_so(t, i)) return false;
  if (!worth && !every && !batch && i > 0 && says(t, i - 1, "for") &&
      says_any(t, "was were had did went been tried ill sick"))
    return false; /* "she was on the tins for eight weeks" */
  if (meals && q.low <= 4 && split_over_the_day(t, i, vessel)) {
    r->meals_a_day = q.low;
    size_t from = i > 0 && says(t, i - 1, "over across") ? i - 1 : i;
    take(t, from, vessel + 1 - from);
    return false;
  }
  bool often = false; /* "105 g a week, split over 3 servings": one food, and no batch */
  for (size_t k = 0; k < t->count; k++) {
    struct frequency f = frequency_at(t, k);
    often = often || (f.tokens > 0 && f.per_28 > 0 && f.per_28 < CALENDAR_DAYS);
  }
  if (meals && often && says(t, i - 1, "over in into between"))
    often = true;
  else if (meals)
    r->makes_meals = q.low;
  else
    set_days(r, q.low * (days ? 1 : weeks ? 7 : 28));
  size_t from = i;
  if (meals && i > 1 && says(t, i - 1, "into") && says(t, i - 2, "divides splits")) from = i - 2;
  take(t, from, (meals ? vessel : unit) + 1 - from);
  if (meals) take_how_packed(r, t, i);
  return true;
}

/* "Portions: 10" */
static bool portions_first(struct post_reader *r, struct tokens *t) {
  bool named =
      says(t, 0, "portions portion servings serves meals") && is_mark(t, 1, ':') && is_number(t, 2) && !is_word(t, 3);
  if (!named || !(t->item[2].value >= 2)) return false;
  r->makes_meals = t->item[2].value;
  take(t, 0, t->count);
  return true;
}

/* "two days", "a day and a half", "half a day"; 0. */
static double days_said(const struct tokens *t, size_t at) {
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE || q.low != q.high) return 0;
  size_t unit = at + q.tokens;
  if (says(t, unit, "a")) unit++;
  if (!says(t, unit, "day days")) return 0;
  return q.low + (phrase_at(t, unit + 1, "and a half") > 0 ? 0.5 : 0);
}

/* "one tub does him a day and a half", "each bag lasts two days": how many of them are eaten in a day; 0. */
static double vessels_a_day(const struct tokens *t) {
  for (size_t i = 0; i + 3 < t->count; i++) {
    if (!says(t, i, "each one every a") || !says_a(t, i + 1, CLASS_VESSEL) ||
        !says(t, i + 2, "does lasts is feeds covers makes"))
      continue;
    size_t at = i + 3;
    if (says(t, at, "him her it them us me the")) at++;
    while (says(t, at, "dog cat for about roughly exactly")) at++;
    double days = days_said(t, at);
    if (days > 0) return 1 / days;
  }
  return 0;
}

static void find_meals_a_day(struct post_reader *r, struct tokens *t) {
  double vessels = vessels_a_day(t);
  if (vessels > 0) {
    r->meals_a_day = vessels;
    return;
  }
  for (size_t i = 0; i < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low > 6) continue;
    size_t end = i + q.tokens;
    bool vessel = says_a(t, end, CLASS_PORTION) || says_a(t, end, CLASS_VESSEL);
    end += vessel;
    if (says(t, end, "for") && (vessel || r->makes_meals > 0)) end++; /* "seven tubs, one for each day" */
    if (!says(t, end, "a per each every") || !says(t, end + 1, "day")) continue;
    r->meals_a_day = q.low;
    size_t from = i; /* "..., he eats 2 a day" of the tubs */
    while (r->makes_meals > 0 && from > 0 && says(t, from - 1, "he she they it and eats gets has eat get have")) from--;
    bool alone =
        from == 0 || t->item[from - 1].kind == TOKEN_MARK || t->item[from - 1].taken; /* "14 meals, two a day: 5 lb beef" */
    if (alone && (end + 2 >= t->count || !is_word(t, end + 2))) take(t, from, end + 2 - from);
  }
  size_t served = 0; /* "tub for breakfast, tub for tea", "one AM one PM" */
  bool one_a_day = false;
  for (size_t i = 0; i < t->count; i++) {
    bool one = says_a(t, i, CLASS_VESSEL) || says(t, i, "one 1 each another");
    size_t next = says(t, i + 1, "for at in the") ? i + 2 : i + 1;
    if (says(t, next, "the")) next++;
    if (one && says_a(t, next, CLASS_SERVED_AT)) served++;
    bool each = says(t, i, "each one every a") && says_a(t, i + 1, CLASS_VESSEL);
    one_a_day = one_a_day || (each && (says(t, i + 2, "is per for makes does") || is_mark(t, i + 2, '=')) &&
                              says(t, i + 3, "one a 1 the") && says(t, i + 4, "day"));
  }
  if (served >= 2) r->meals_a_day = (double)served;
  if (one_a_day) r->meals_a_day = 1;
}

/* "Sunday prep:", "prep on Sundays:", "Saturday batch cook:" at the front: the day of cooking; true when it was one. */
static bool take_prep_day(struct post_reader *r, struct tokens *t) {
  size_t at = 0, end;
  while (says_a(t, at, CLASS_PREPARES_FOOD)) at++;
  struct frequency f = frequency_at(t, at);
  if (f.tokens == 0 || f.days == 0 || f.times_per_28 != 4) return false;
  for (end = at + f.tokens; says_a(t, end, CLASS_PREPARES_FOOD) || says(t, end, "day"); end++) {
  }
  bool named = at > 0 || end > at + f.tokens;
  if (!named || !(is_mark(t, end, ':') || is_mark(t, end, '-') || is_mark(t, end, ',') || post_amount_at(t, end).tokens > 0))
    return false;
  r->cooks_days = 7;
  take(t, 0, is_mark(t, end, ':') || is_mark(t, end, '-') || is_mark(t, end, ',') ? end + 1 : end);
  return true;
}

/* "I cook on Sunday", "once a week I do a batch": when it is made, and not when it is fed. */
static void take_cooking_day(struct post_reader *r, struct tokens *t) {
  if (take_prep_day(r, t)) return;
  size_t cook = t->count;
  for (size_t i = 0; i + 1 < t->count; i++)
    if (says(t, i, "i we") && says_a(t, i + 1, CLASS_COOKING_DAY_VERB)) cook = i;
  if (cook == t->count || !says_any(t, "batch pot pan cook stew crockpot cooker prep big")) return;
  for (size_t i = 0; i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    bool near = f.tokens > 0 && (i + f.tokens == cook || (i > cook && i <= cook + 6));
    if (!near || f.times_per_28 >= 28) continue;
    if (says(t, i, "every") && frequency_at(t, i).times_per_28 > 0 && f.days == 0) set_days(r, 28 / f.times_per_28);
    if (f.per_28 == 2 && !(r->makes_days > 0)) set_days(r, 14);
    if (f.days != 0 || f.times_per_28 == 4) r->cooks_days = 7;
    if (f.times_per_28 == 2 || f.times_per_28 == 1)
      r->cooks_days = CALENDAR_DAYS / f.times_per_28; /* "every other Sunday" */
    take(t, i, f.tokens);
    return;
  }
}

/* "one for breakfast and one for supper until the next Sunday": a day that ends a stretch is none on which is fed. */
static void take_end_of_stretch(struct tokens *t) {
  for (size_t i = 0; i + 1 < t->count; i++) {
    if (!says(t, i, "until till til")) continue;
    size_t at = i + 1;
    while (says(t, at, "the next following")) at++;
    const char *number;
    if (at > i + 1 && is_word(t, at) && meaning_at(t, at, CLASS_DAY_OF_WEEK, &number) > 0) take(t, i, at + 1 - i);
  }
}

/* "He gets a third of it each day", "300 g of it a day": of several foods that were told before. */
static void take_part_of_all(struct post_reader *r, struct tokens *t) {
  size_t weighed = 0;
  if (r->part_count > 1) return; /* "Poppy gets a third and Rolo two thirds of this every day" */
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    struct quantity q = quantity_at(t, i);
    size_t used = a.tokens;
    double part = 0;
    if (phrase_at(t, i, "a third") > 0 || phrase_at(t, i, "one third") > 0)
      part = 1.0 / 3, used = 2;
    else if (phrase_at(t, i, "a quarter") > 0 || phrase_at(t, i, "one quarter") > 0)
      part = 0.25, used = 2;
    else if (q.fault == QUANTITY_FINE && q.low == q.high && q.low < 1)
      part = q.low, used = q.tokens;
    size_t of = i + used, end = of + 2;
    if (used == 0) continue;
    bool it = says(t, of, "of") && says(t, of + 1, "it this that them everything");
    if (!it && says(t, of, "of") && says(t, of + 1, "the this that") && says_a(t, of + 2, CLASS_ALL_OF_IT)) it = true, end++;
    struct frequency f = end < t->count ? frequency_at(t, end) : (struct frequency){0};
    bool daily = f.tokens > 0 && f.times_per_28 == CALENDAR_DAYS && f.feedings <= 1 && !f.each_meal;
    if (it && daily && (weighed >= 2 || r->count >= 2) && (part > 0 || (a.is_mass && a.low == a.high))) {
      if (part > 0)
        set_days(r, floor(1 / part + 0.5));
      else
        r->feeds_g = post_in_grams(&a);
      size_t from = i;
      while (from > 0 && says_a(t, from - 1, CLASS_BEFORE_A_PART)) from--;
      take(t, from, end + f.tokens - from);
      return;
    }
    weighed += a.tokens > 0 && (a.is_mass || a.is_volume);
    i += used - 1;
  }
}

/* "That's a week for both dogs", "this is a fortnight for the two of them": of all that was told. */
static bool take_length_for_all(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < 2 && i < t->count; i++) {
    size_t at = says(t, i, "that's thats it's its") ? i + 1 : says(t, i, "that this it") && says(t, i + 1, "is") ? i + 2 : 0;
    if (at == 0 || !says(t, at, "a one") || !says(t, at + 1, "week fortnight month week's month's")) continue;
    double days = says(t, at + 1, "fortnight") ? 14 : says(t, at + 1, "week week's") ? 7 : 28;
    size_t to = at + 2;
    while (says(t, to, "of worth food")) to++;
    if (!says(t, to, "for") || !says(t, to + 1, "both all them the my our") || !post_any_food(r)) continue;
    if (!says(t, to + 1, "both all them") && !says(t, to + 2, "two three pair dogs cats lot")) continue;
    set_days(r, days);
    r->one_pot = true;
    post_claim(r, tokens_span(t, i, to - i), CLAIM_TOLD, 0, 0);
    take(t, i, to - i);
    return true;
  }
  return false;
}

/* "... lasts them both a week", "does the two of them a fortnight". */
static bool take_lasts_them(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i + 2 < t->count; i++) {
    if (!says(t, i, "lasts last does feeds feed keeps")) continue;
    size_t at = i + 1;
    bool several = false;
    for (; says(t, at, "them both the my our two three pair dogs cats all of boys girls"); at++)
      several = several || says(t, at, "them both two three pair all");
    if (!several || !says(t, at, "a one") || !says(t, at + 1, "week fortnight month")) continue;
    set_days(r, says(t, at + 1, "fortnight") ? 14 : says(t, at + 1, "week") ? 7 : 28);
    r->one_pot = true;
    post_claim(r, tokens_span(t, i, at + 2 - i), CLAIM_TOLD, 0, 0);
    take(t, i, at + 2 - i);
    return true;
  }
  return false;
}

bool post_batch(struct post_reader *r, struct tokens *t) {
  bool length = take_length_for_all(r, t) || take_lasts_them(r, t);
  take_end_of_stretch(t);
  bool mix = post_meals_of_mix(r, t); /* "two bowls a day with 220 g each of this mix" */
  post_hear_tubs(r, t);
  take_part_of_all(r, t);
  take_cooking_day(r, t);
  bool batch =
      says_any(t, "batch batches makes make made worth split lasts pot pots pan cook freezer freeze stew fills fill "
                  "crockpot cooker divide divided gone tubs containers");
  bool found = post_hear_yield(r, t) || length;
  if (portions_first(r, t)) return true;
  if (!mix) post_hear_fed(r, t);
  for (size_t i = 0; i < t->count; i++)
    if (!t->item[i].taken) found = batch_number_at(r, t, i, batch) || found;
  if (phrase_at(t, 0, "every") == 0)
    for (size_t i = 0; i < t->count; i++) {
      bool week = phrase_at(t, i, "a week's worth") > 0 || phrase_at(t, i, "a weeks worth") > 0;
      bool month = phrase_at(t, i, "a months worth") > 0 || phrase_at(t, i, "a month's worth") > 0;
      if (week || month) set_days(r, week ? 7 : 28);
      found = found || week || month;
    }
  const char *period;
  for (size_t i = 0; i < t->count && i < 8; i++) { /* "The whole week's food for Ted, 14 kg: ..." */
    size_t used = meaning_at(t, i, CLASS_FOR_A_PERIOD, &period), colon = i + used;
    while (used > 0 && colon < t->count && !is_mark(t, colon, ':')) colon++;
    if (used == 0 || colon >= t->count || !post_any_amount(t, colon)) continue;
    set_days(r, strcmp(period, "a week") == 0 ? 7 : strcmp(period, "a fortnight") == 0 ? 14 : 28);
    take(t, i, used);
    found = true;
    break;
  }
  if (found || r->makes_meals > 0 || r->per_tub || r->tub_g > 0) find_meals_a_day(r, t);
  return found;
}

const char *post_lasts_alone(struct post_reader *r, struct tokens *t) {
  size_t amounts = 0, weighed = 0; /* "a carton of kefir, 500 ml, does him 4 days": one food, told twice */
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    weighed += a.tokens > 0 && (a.is_mass || a.is_volume);
    amounts += a.tokens > 0 && !a.bare && !a.is_mass && !a.is_volume;
    if (a.tokens > 0) i += a.tokens - 1;
    if (says_a(t, i, CLASS_NO_SINGLE_FOOD)) return "";
    bool spread = says(t, i, "over across") && i > 0 && says(t, i - 1, "spread split divided shared stretched");
    if (weighed > 1 || amounts > 1 || weighed + amounts == 0 || (!spread && !says(t, i, "lasts last does"))) continue;
    size_t at = says(t, i + 1, "him her us them me it") ? i + 2 : i + 1;
    if (says(t, i + 1, "my the our")) at = i + 3; /* "lasts my dog 8 days" */
    struct quantity q = quantity_at(t, at);
    if (q.fault != QUANTITY_FINE && says(t, at, "the")) /* "lasts her the week" */
      q = (struct quantity){.fault = QUANTITY_FINE, .low = 1, .high = 1, .tokens = 1};
    if (q.fault != QUANTITY_FINE) continue;
    size_t unit = at + q.tokens;
    double length = says(t, unit, "days day")                   ? 1
                    : says(t, unit, "weeks week wks fortnight") ? 7
                    : says(t, unit, "months month")             ? 28
                                                                : 0;
    if (says(t, unit, "fortnight")) length = 14;
    double days = length * (q.low + q.high) / 2;
    if (!(days >= 1 && days <= 28)) continue;
    struct buf b;
    buf_init(&b, r->arena, 60);
    buf_adds(&b, "every ");
    num_sig(&b, days, 4);
    buf_adds(&b, " days");
    size_t from = spread ? i - 1 : i;
    if (is_mark(t, unit + 1, ':') && post_any_amount(t, unit + 2)) return ""; /* "40 lb dog, lasts 5 days: 4 lb turkey, ..." */
    take(t, from, unit + 1 - from);
    return buf_text(&b);
  }
  return "";
}
