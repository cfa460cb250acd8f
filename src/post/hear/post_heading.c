/* Lines, and beginnings of lines, that say when what follows is fed. */
#include "post/hear/post_hear.h"

/* "Breakfast", "AM 8:00 -", "in the PM", "7 pm": the tokens of a meal or a time at the start. */
size_t post_meal_prefix(const struct tokens *t) {
  size_t at = 0, meal = 0;
  while (at < t->count) {
    size_t ordinal = at == 0 ? (size_t)says(t, 0, "the") : 0;
    if (at == 0 && says(t, ordinal, "first second third last next") && says(t, ordinal + 1, "meal feed feeding bowl")) {
      meal = at = ordinal + 2; /* "Second feed at 5: ..." */
      if (says(t, at, "at") && is_number(t, at + 1) && t->item[at + 1].value <= 24)
        meal = at += 2 + says(t, at + 2, "am pm o'clock");
      if (says(t, at, "is was")) meal = ++at;
      continue;
    }
    if (at == 0 && says(t, at, "at in on for the my then")) {
      at++;
      if (says(t, at, "the")) at++;
      size_t hour = at + 1; /* "At 8: ...", "at 20 h - ..." */
      if (says(t, hour, "h hrs hours")) hour++;
      if (at == 1 && says(t, 0, "at") && is_number(t, 1) && t->item[1].value <= 24 && is_mark(t, hour, ':')) return hour + 1;
      if (!says_a(t, at, CLASS_TIME_BEHIND_AT)) return 0;
    }
    if (says(t, at, "am") && says(t, at + 1, "i")) return 0; /* "Am I starving her?" */
    if (is_word(t, at) && token_is_a(&t->item[at], CLASS_MEAL)) {
      bool food =
          says_a(t, at, CLASS_MEAL_OR_FOOD) && !(is_mark(t, at + 1, ':') || is_mark(t, at + 1, '-') || at + 1 >= t->count);
      if (food) break;
      meal = ++at;
      while (says(t, at, "meal feed bowl time is was")) meal = ++at;
      continue;
    }
    size_t used = not_an_amount(t, at);
    bool clock = used > 0 && (used == 3 || says(t, at + used - 1, "am pm") || is_mark(t, at + used, ':'));
    if (used > 0 && t->item[at].kind == TOKEN_NUMBER && clock && !is_mark(t, at + 1, '%') && !is_mark(t, at + 1, '/')) {
      at += used;
      meal = at;
      continue;
    }
    if (meal > 0 && (is_mark(t, at, ':') || is_mark(t, at, '-') || is_mark(t, at, ',') || is_mark(t, at, '.'))) {
      meal = ++at;
      continue;
    }
    break;
  }
  return meal;
}

enum { MOST_TURNS = 14 };

/* "2", or "B" as the second; 0. */
static int turn_number(struct span text, size_t *at) {
  static const char *const WORD[] = {"one", "two", "three", "four", "five", "six", "seven"};
  int k = 0;
  for (size_t i = 0; i < COUNT_OF(WORD); i++) {
    size_t n = strlen(WORD[i]);
    if (!span_starts_fold(span_cut(text, *at, text.n), WORD[i])) continue;
    if (*at + n < text.n && post_is_letter(text.p[*at + n])) continue;
    *at += n;
    return (int)i + 1;
  }
  if (*at < text.n && ((text.p[*at] | 0x20) >= 'a' && (text.p[*at] | 0x20) <= 'f'))
    return (text.p[(*at)++] | 0x20) - 'a' + 1;
  for (; *at < text.n && text.p[*at] >= '0' && text.p[*at] <= '9' && k <= MOST_TURNS; ++*at) k = 10 * k + text.p[*at] - '0';
  return k;
}

/* How many of "UNIT 1: ...", "UNIT 2: ..." begin lines; 0 when there are fewer than two, or one is missing. */
static int turns_of(struct span text, const char *unit) {
  bool seen[MOST_TURNS + 1] = {false};
  int most = 0, count = 0;
  for (size_t i = 0; i < text.n; i++) {
    bool sentence = i > 1 && text.p[i - 1] == ' ' && text.p[i - 2] == '.'; /* "Day one: beef. Day two: cod." */
    if (i > 0 && text.p[i - 1] != '\n' && text.p[i - 1] != 0x1F && !sentence) continue;
    size_t at = i;
    while (at < text.n && (text.p[at] == ' ' || text.p[at] == '-' || text.p[at] == '*')) at++;
    if (!span_starts_fold(span_cut(text, at, text.n), unit)) continue;
    at += strlen(unit);
    int k = turn_number(text, &at);
    while (at < text.n && text.p[at] == ' ') at++;
    bool marked = at >= text.n || text.p[at] == '\n' || text.p[at] == ':' || text.p[at] == '-' || text.p[at] == '.';
    if (k < 1 || k > MOST_TURNS || !marked) continue;
    count += !seen[k];
    seen[k] = true;
    if (k > most) most = k;
  }
  return count >= 2 && count == most ? most : 0;
}

int post_day_rotation(struct span text, bool *weeks) {
  int days = turns_of(text, "day ");
  *weeks = days == 0 && turns_of(text, "week ") > 0;
  return *weeks ? turns_of(text, "week ") : days;
}

/* "Day 2": its weekday where seven take turns, else every so many days. */
static size_t numbered_day(struct post_reader *r, const struct tokens *t, const char *const name[7], const char **phrase) {
  if (r->rotation < 2 || !says(t, 0, r->turns_are_weeks ? "week" : "day") || t->count < 2) return 0;
  size_t at = 0;
  double k = is_number(t, 1)                                                      ? t->item[1].value
             : is_word(t, 1) && (t->item[1].word.n == 1 || t->item[1].word.n > 2) ? turn_number(t->item[1].word, &at)
                                                                                  : 0;
  if (!(k >= 1 && k <= r->rotation)) return 0;
  struct buf b;
  buf_init(&b, r->keep, 40);
  if (r->rotation == 7 && !r->turns_are_weeks)
    buf_addf(&b, "on %s", name[(int)k - 1]);
  else
    buf_addf(&b, "every %d days", r->rotation);
  *phrase = buf_text(&b);
  return 2;
}

/* The days at the start of a line, as the strict text says them; 0 tokens when there are none. */
size_t post_day_prefix(struct post_reader *r, const struct tokens *t, const char **phrase) {
  static const char *const NAME[7] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
  size_t turn = numbered_day(r, t, NAME, phrase);
  if (turn > 0) return turn;
  size_t at = says(t, 0, "on every each") ? 1 : 0;
  if (says(t, 0, "at on over") && says(t, 1, "the") && says(t, 2, "weekend weekends")) at = 2;
  unsigned days = 0;
  int last = -1;
  size_t used = 0, ranges = 0;
  while (at < t->count) {
    const char *number;
    int day = is_word(t, at) && meaning_at(t, at, CLASS_DAY_OF_WEEK, &number) > 0 ? number[0] - '1' : -1;
    struct frequency range_at = {0};
    if (day < 0 && is_word(t, at) && memchr(t->item[at].word.p, '-', t->item[at].word.n)) range_at = frequency_at(t, at);
    if (range_at.days != 0 && range_at.tokens == 1 && !range_at.refuse) /* "fri-sun" is one word */
      days |= range_at.days, ranges++;
    else if (says(t, at, "weekend weekends"))
      days |= 0x60;
    else if (says(t, at, "weekday weekdays"))
      days |= 0x1F;
    else if (day < 0)
      break;
    bool range =
        last >= 0 && day >= 0 && at > 0 && (is_mark(t, at - 1, '-') || says(t, at - 1, "to bis till until through thru"));
    if (range)
      for (int d = last; d != day; d = (d + 1) % 7) days |= 1u << d;
    if (day >= 0) days |= 1u << day;
    last = day;
    used = ++at;
    if (is_mark(t, at, ',') || is_mark(t, at, '/') || is_mark(t, at, '&') || is_mark(t, at, '+') || is_mark(t, at, '-') ||
        says_a(t, at, CLASS_BETWEEN_DAYS))
      at++;
    if (says(t, at, "and")) at++;
  }
  if (days == 0) return 0;
  if (ranges == 1 && used == 1) { /* in the words of the post */
    *phrase = arena_text(r->keep, t->item[0].at);
    return used;
  }
  struct buf b;
  buf_init(&b, r->keep, 120);
  int n = 0, count = 0;
  for (int d = 0; d < 7; d++) count += (days >> d & 1u) != 0;
  for (int d = 0; d < 7; d++)
    if (days >> d & 1u) {
      buf_addf(&b, "%s%s", n == 0 ? "on " : n + 1 == count ? " and " : ", ", NAME[d]);
      n++;
    }
  *phrase = count == 7 ? "" : buf_text(&b);
  return used;
}

bool post_any_amount(const struct tokens *t, size_t from) {
  for (size_t i = from; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens > 0 && !a.by_word) return true;
    size_t skip = not_an_amount(t, i);
    if (skip > 0) i += skip - 1;
  }
  return false;
}

/* "... what goes into him in a week.": the sentence ends with the period of all that follows. */
static bool says_what_goes_in(const struct tokens *t) {
  size_t n = t->count;
  while (n > 0 && t->item[n - 1].kind == TOKEN_MARK) n--;
  if (n < 6 || n > 30 ||
      !(phrase_at(t, n - 2, "a week") || phrase_at(t, n - 2, "per week") || phrase_at(t, n - 2, "one week")))
    return false;
  for (size_t i = 0; i + 2 < n; i++)
    if (says(t, i, "what") && says(t, i + 1, "goes he she it they gets")) return true;
  return false;
}

/* "twice a week:", "Every other day" with nothing else in the line: of each of the lines below. NULL: none. */
static const char *how_often(const struct post_reader *r, const struct tokens *t) {
  size_t n = t->count;
  while (n > 0 && t->item[n - 1].kind == TOKEN_MARK) n--;
  struct frequency f = frequency_at(t, 0);
  bool all = f.tokens > 0 && f.tokens == n && !f.refuse && f.days == 0 && !f.other_days && f.per_28 == 0;
  bool days = all && f.feedings <= 1 && f.times_per_28 > 4 && f.times_per_28 < CALENDAR_DAYS;
  bool heads = all && f.feedings > 1 && !f.each_meal && n < t->count && is_mark(t, n, ':'); /* "Twice daily:" */
  if (!days && !heads) return NULL;
  return arena_text(r->keep, tokens_span(t, 0, n));
}

/* An amount at 'at' that is the animal's weight. */
static bool is_its_weight(const struct post_reader *r, const struct post_amount *a) {
  return a->is_mass && r->weight_kg > 0 && fabs(post_in_grams(a) - 1000 * r->weight_kg) < 10 * r->weight_kg;
}

/* "Weekly shop for Rufus the setter, 24 kg (cat not included), all of it eaten by Sunday:" */
static const char *period_of_shop(const struct post_reader *r, const struct tokens *t) {
  size_t at = says(t, 0, "my our the his her this") ? 1 : 0;
  const char *period = says(t, at, "weekly")                        ? "a week"
                       : says(t, at, "fortnightly")                 ? "a fortnight"
                       : says(t, at, "monthly")                     ? "a month"
                       : says(t, at, "week's weeks week") && at > 0 ? "a week"
                                                                    : NULL;
  if (!period || !is_mark(t, t->count - 1, ':') || !says_a(t, at + 1, CLASS_FOOD_OF_A_PERIOD)) return NULL;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens > 0 && !is_its_weight(r, &a)) return NULL;
    if (a.tokens > 0) i += a.tokens - 1;
  }
  return period;
}

/* "Everything is per week here and ...", "All numbers per week.": said of the whole, and not of one food. */
static bool says_of_whole(const struct tokens *t) {
  size_t at = says(t, 0, "all the these my our both") ? 1 : 0;
  return says(t, 0, "everything all") || says_a(t, at, CLASS_WHOLE_OF_AMOUNTS);
}

/* "Weekly totals for Dot:", "kg per week:", "Per week he eats": what the lines below are told for. */
bool post_period_heading(struct post_reader *r, const struct tokens *t) {
  const char *often = how_often(r, t), *shop = period_of_shop(r, t);
  if (often || shop) {
    if (shop) often = shop, r->any_period = true;
    r->period_line = r->line;
    r->period = often;
    r->days = r->bare_unit = "";
    return true;
  }
  struct frequency first = t->count > 0 ? frequency_at(t, 0) : (struct frequency){0};
  if (first.feedings > 1 && first.tokens + 1 >= t->count) return false; /* "Twice daily." is of the foods before it */
  bool told = says_what_goes_in(t) || says_of_whole(t);
  if (post_any_amount(t, 0) || (t->count > 14 && !told)) return false;
  const char *period = NULL;
  for (size_t i = 0; i < t->count; i++) { /* "one egg a day" is a food */
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens > 0 && !a.bare) return false;
    if (told && says(t, i, "a an")) continue; /* "everything is per week, he's a staffy" */
    if (a.tokens > 0 && is_word(t, i + a.tokens) && !token_is_a(&t->item[i + a.tokens], CLASS_CHATTER) &&
        !says_a(t, i + a.tokens, CLASS_STRETCH_OF_DAYS))
      return false;
  }
  for (size_t i = 0; i < t->count; i++) {
    double per_28 = 0;
    bool joined = false;
    if (frequency_period_at(t, i, &per_28, &joined) == 0 || !joined) continue;
    if (per_28 < CALENDAR_DAYS)
      period = per_28 == 4 ? "a week" : per_28 == 2 ? "a fortnight" : "a month";
    else if (!period)
      period = "";
  }
  const char *whole = NULL; /* "this is Monty's food for the week:" */
  for (size_t i = 0; i < t->count && !period && is_mark(t, t->count - 1, ':'); i++)
    if (meaning_at(t, i, CLASS_FOR_A_PERIOD, &whole) > 0) period = whole;
  if (!period) return false;
  bool heading = is_mark(t, t->count - 1, ':') || t->count <= 6 || told;
  if (!heading) return false;
  if (!is_mark(t, t->count - 1, ':') && !told && post_names_food(r, t, 0, t->count)) return false; /* "Eggs twice a week" */
  r->period = period;
  r->days = "";
  r->any_period = r->any_period || period[0];
  r->bare_unit = "";
  for (size_t i = 0; i < t->count; i++) {
    if (says(t, i, "kg kilo kilos")) r->bare_unit = "kg";
    if (says(t, i, "lb lbs pounds")) r->bare_unit = "lb";
    if (says(t, i, "grams g gms")) r->bare_unit = "g";
    if (says(t, i, "oz ounces")) r->bare_unit = "oz";
  }
  return true;
}

/* "three small meals", "twice a day", "2x daily": how many meals; 0. */
double post_meals_said(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens > 0 && f.feedings > 1 && f.times_per_28 == CALENDAR_DAYS) return f.feedings;
    struct quantity times;
    size_t count = frequency_count_at(t, i, &times), daily = i + (count > 0 ? count : times.tokens);
    if (count == 0 && says(t, daily, "times x")) daily++, count = 1;
    if (count > 0 && says(t, daily, "daily") && times.low == times.high && times.low >= 2 && times.low <= 6)
      return times.low;
    struct quantity q = quantity_at(t, i);
    size_t behind = i + q.tokens;
    if (says(t, behind, "small equal big little separate")) behind++;
    if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 2 && q.low <= 6 && says(t, behind, "meals feeds"))
      return q.low;
  }
  return 0;
}

/* "at each of her two meals", "in each of the three bowls": with how many there are; the tokens to its end; 0. */
static size_t each_of_the_meals(const struct tokens *t, size_t at, double *meals) {
  size_t i = says(t, at, "at in with for") ? at + 1 : at;
  if (!says(t, i, "each every") || !says(t, i + 1, "of") || !says(t, i + 2, "the his her their these those its")) return 0;
  struct quantity q = quantity_at(t, i + 3);
  size_t behind = q.fault == QUANTITY_FINE && q.low == q.high ? i + 3 + q.tokens : i + 3;
  if (says(t, behind, "daily small big main")) behind++;
  if (!says(t, behind, "meals feeds bowls feedings")) return 0;
  if (q.fault == QUANTITY_FINE && q.low >= 2 && q.low <= 6) *meals = q.low;
  return behind + 1 - at;
}

/* "He has three a day", behind amounts of a meal: how many of them; 0. */
static double bare_meals(const struct tokens *t) {
  for (size_t i = 1; i < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < 2 || q.low > 6 || !says_a(t, i - 1, CLASS_EATER_VERB))
      continue;
    size_t at = i + q.tokens;
    if (says(t, at, "of") && says(t, at + 1, "them these those")) at += 2;
    bool a_day = says(t, at, "daily") || (says(t, at, "a per each every") && says(t, at + 1, "day"));
    size_t end = at + (says(t, at, "daily") ? 1 : 2);
    if (a_day && (end >= t->count || t->item[end].kind == TOKEN_MARK || says(t, end, "and so"))) return q.low;
  }
  return 0;
}

/* Behind "three meals a day", "two small feeds": its end; 0. */
static size_t behind_meals(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens > 0 && f.feedings > 1 && f.times_per_28 == CALENDAR_DAYS) return i + f.tokens;
    struct quantity q = quantity_at(t, i);
    size_t end = i + q.tokens;
    if (says(t, end, "small equal big little separate")) end++;
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < 2 || q.low > 6 || !says(t, end, "meals feeds")) continue;
    struct frequency daily = end + 1 < t->count ? frequency_at(t, end + 1) : (struct frequency){0};
    return end + 1 + (daily.times_per_28 == CALENDAR_DAYS ? daily.tokens : 0);
  }
  return 0;
}

/* "Three meals a day, each one is 40 g of turkey", "four feeds a day, 45 g of turkey in each": where the amounts of one meal
 * begin; 0. */
static size_t amounts_of_each(struct post_reader *r, struct tokens *t) {
  size_t from = behind_meals(t), end = t->count;
  if (from == 0 || r->animals > 1 || !post_any_amount(t, from) || post_any_amount(&(struct tokens){t->item, from}, 0))
    return 0;
  for (size_t i = from; i < t->count && post_amount_at(t, i).tokens == 0; i++) {
    size_t used = phrase_of(t, i, CLASS_EACH_OF_MEALS);
    if (used == 0) continue;
    post_claim(r, tokens_span(t, 0, i + used), CLAIM_TOLD, 0, 0);
    return i + used;
  }
  while (end > from && t->item[end - 1].kind == TOKEN_MARK) end--;
  size_t each = end > from && says(t, end - 1, "each") ? 1 : 0;
  if (each == 0) return 0;
  if (end > from + 1 && says(t, end - 2, "in at for")) each++;
  post_claim(r, tokens_span(t, 0, from), CLAIM_TOLD, 0, 0);
  post_claim(r, tokens_span(t, end - each, each), CLAIM_TOLD, 0, 0);
  take(t, end - each, each);
  return from;
}

size_t post_each_meal(struct post_reader *r, struct tokens *t) {
  double meals = post_meals_said(t);
  bool shared_out = false; /* "split into two meals": then the amounts are a day's */
  for (size_t i = 0; i < t->count; i++) shared_out = shared_out || says_a(t, i, CLASS_SHARED_OUT);
  if (r->meals_told > meals && holds_a(t, 0, t->count, CLASS_AT_EACH_MEAL)) meals = r->meals_told; /* told before */
  if (meals > 1 && !shared_out) r->meals_told = meals, r->meals_line = r->line;
  bool per_meal = false; /* "three a day" speaks of meals where a line is told for each of them */
  double bare = r->meals_told > 0 ? 0 : bare_meals(t);
  for (size_t i = 0; i < r->count && bare > 0 && !per_meal; i++) per_meal = strstr(r->item[i].text, "at each meal") != NULL;
  if (per_meal) r->meals_told = bare, r->meals_line = r->line;
  size_t of_each = meals > 1 && !shared_out ? amounts_of_each(r, t) : 0;
  if (of_each == 0 && r->meals_told > 1 && !post_any_food(r) && r->animals < 2 && says(t, 0, "each every") &&
      says(t, 1, "one meal") && says(t, 2, "is has holds contains") && post_amount_at(t, 3).is_mass) {
    post_claim(r, tokens_span(t, 0, 3), CLAIM_TOLD, 0, 0); /* "She gets 3 meals a day. Each one is 35 g of turkey" */
    of_each = 3, meals = r->meals_told;
  }
  if (of_each > 0) {
    r->meals_a_day = meals;
    r->period = "at each meal";
    r->period_line = r->line;
    return of_each;
  }
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens > 0 && !a.bare && !says(t, i + a.tokens, "meals meal feeds")) return 0; /* of the foods that follow */
    if (post_mention_at(r, t, i) > 0) return 0;
    size_t used = phrase_of(t, i, CLASS_AT_EACH_MEAL);
    if (says(t, i, "the") && says(t, i + 1, "same") && says(t, i + 2, "each") && i + used < t->count && is_word(t, i + used))
      return 0; /* "it's the same each time so maybe ..." */
    if (used == 0) used = each_of_the_meals(t, i, &meals);
    if (used == 0) continue;
    post_claim(r, tokens_span(t, i, used), CLAIM_TOLD, 0, 0);
    if (meals > 1) r->meals_a_day = meals;
    r->period = "at each meal";
    r->period_line = r->line;
    return i + used;
  }
  return 0;
}
