/* Proportions and the total that they are of, wherever it stands: "3 parts turkey to 1 part lentils to 1 part veg (carrot
 * and celery, equal). The bowl is 350 g", "to every kilo of duck come 150 g of hearts; she gets 120 g of the mix a day". */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

enum { PARTS_MOST = 16 };

struct parts {
  double of[PARTS_MOST];
  struct span food[PARTS_MOST];
  size_t count, from, end; /* tokens */
  double sum;
};

static const char *end_of(const struct tokens *t, size_t at) { return t->item[at].at.p + t->item[at].at.n; }

static bool add_part(struct parts *p, double of, struct span food) {
  if (p->count == PARTS_MOST || !(of > 0)) return false;
  p->of[p->count] = of;
  p->food[p->count++] = food;
  p->sum += of;
  return true;
}

/* ---- what a kind of food is made of ---- */

static size_t past_joint(const struct tokens *t, size_t at) {
  while (is_mark(t, at, ',') || is_mark(t, at, '&') || is_mark(t, at, '+') || is_mark(t, at, '/') ||
         says(t, at, "and plus the"))
    at++;
  return at;
}

/* "(carrot & celery, equal)", "(half carrot, half peas)", behind a kind of food: its foods with their shares; the tokens. */
static size_t made_of(struct story *st, const struct tokens *t, size_t at, double whole, struct parts *p) {
  if (!is_mark(t, at, '(')) return 0;
  struct parts own = {.count = 0};
  size_t k = at + 1, told = 0;
  while (k < t->count && !is_mark(t, k, ')')) {
    double share = 1;
    size_t used = post_part_at(t, k, &share);
    if (used == 0 && says(t, k, "half")) share = 0.5, used = 1;
    told += used > 0;
    k += used;
    if (says(t, k, "of")) k++;
    if (used == 0 && says(t, k, "equal equally even evenly parts half")) {
      k++;
      continue;
    }
    struct tokens rest = {t->item, t->count};
    for (size_t m = k; m < t->count; m++)
      if (t->item[m].kind == TOKEN_MARK || (m > k && post_part_at(t, m, &whole) > 0 && says(t, m, "half"))) {
        rest.count = m;
        break;
      }
    size_t end = post_food_end(st->r, &rest, k);
    if (end == k || !add_part(&own, used > 0 ? share : 1, tokens_span(t, k, end - k))) return 0;
    k = past_joint(t, end);
  }
  if (own.count < 2 || (told > 0 && told < own.count) || !is_mark(t, k, ')')) return 0;
  for (size_t m = 0; m < own.count; m++)
    if (!add_part(p, own.of[m] / own.sum, own.food[m])) return 0;
  return k + 1 - at;
}

/* A food, or a kind with what it is made of, that has 'of' parts; where it ends, 'at' there is none. */
static size_t food_or_kind(struct story *st, const struct tokens *t, size_t at, double of, struct parts *p) {
  size_t end = post_food_end(st->r, t, at), first = p->count;
  double sum = p->sum;
  for (size_t k = at + 1; k < end; k++)
    if (says(t, k, "to and with plus for every")) end = k;
  if (end == at && is_word(t, at) && net_is_kind(t->item[at].word)) end = at + 1;
  if (end == at) return at;
  size_t used = made_of(st, t, end, of, p);
  if (used == 0) return add_part(p, of, tokens_span(t, at, end - at)) ? end : at;
  for (size_t k = first; k < p->count; k++) p->of[k] *= of;
  p->sum = sum + of;
  return end + used;
}

/* "3 parts minced turkey to 1 part cooked lentils" */
static bool parts_at(struct story *st, const struct tokens *t, size_t at, struct parts *p) {
  *p = (struct parts){.from = at};
  size_t told = 0;
  for (;;) {
    struct quantity q = quantity_at(t, at);
    size_t from = at + q.tokens;
    bool named = says(t, from, "part parts measure measures share shares");
    if (q.fault != QUANTITY_FINE || q.low != q.high || (!named && !(told > 0 && says(t, from, "of")))) break;
    if (named) from++;
    if (says(t, from, "of")) from++;
    if (says(t, from, "the")) from++;
    size_t end = food_or_kind(st, t, from, q.low, p);
    if (end == from) return false;
    told++;
    p->end = at = end;
    while (is_mark(t, at, ',') || is_mark(t, at, '+') || is_mark(t, at, '&') || is_mark(t, at, ':') || is_mark(t, at, ';') ||
           says(t, at, "to and plus with then for every each"))
      at++;
  }
  return told >= 2;
}

/* "To every kilo of duck meat come 150 g of hearts and 50 g of liver", "per 500 g of beef 40 g of kidney" */
static bool to_every_at(struct story *st, const struct tokens *t, size_t at, struct parts *p) {
  double grams = 0;
  *p = (struct parts){.from = at};
  if (!says(t, at, "to for with per on")) return false;
  bool per = says(t, at, "per");
  at++;
  bool every = says(t, at, "every each a one any");
  size_t unit = every ? at + 1 : at;
  if (every && says(t, unit, "kilo kilogram kg")) {
    grams = 1000, at = unit + 1;
  } else if (every && says(t, unit, "pound lb")) {
    grams = 453.6, at = unit + 1;
  } else if (per && says(t, at, "kilo kilogram kg")) {
    grams = 1000, at++;
  } else {
    size_t used = every || per ? refer_grams(t, unit, &grams) : 0;
    if (used == 0) return false;
    at = unit + used;
  }
  if (says(t, at, "of")) at++;
  if (says(t, at, "the")) at++;
  size_t end = at;
  while (is_word(t, end) && end < at + 4 && !says_a(t, end, CLASS_JOINS_PROPORTION) && !says(t, end, "there i we you"))
    end++;
  if (end == at || !post_names_food(st->r, t, at, end) || !add_part(p, grams, tokens_span(t, at, end - at))) return false;
  at = end;
  while (says_a(t, at, CLASS_JOINS_PROPORTION) || says(t, at, "there i we you in the") || is_mark(t, at, ',') ||
         is_mark(t, at, ':'))
    at++;
  for (;;) {
    size_t used = refer_grams(t, at, &grams), food = at + used;
    if (used == 0) break;
    if (says(t, food, "of")) food++;
    end = food_or_kind(st, t, food, grams, p);
    if (end == food) return false;
    p->end = at = end;
    at = past_joint(t, at);
  }
  return p->count >= 2;
}

/* ---- the total ---- */

/* Is the weight at 'at' one of all the food? "120 g of my own mix a day", "the bowl is 350 g", "350 g in all", "he gets
 * 400 g a day" */
static bool is_of_all(struct story *st, const struct tokens *t, size_t at, size_t used) {
  double kg;
  size_t behind = at + used, end = behind, begin = at;
  if (post_weight_at(t, at, &kg) > 0 && !says(t, at + 1, "g gr gram grams")) return false;
  if (says(t, behind, "of")) {
    for (end = behind + 1; is_word(t, end) && end < behind + 6; end++)
      if (says_a(t, end, CLASS_WORD_OF_ALL_FOOD) || says(t, end, "this it that these") ||
          says_a(t, end, CLASS_TELLS_A_TOTAL))
        return true;
    return false;
  }
  if (behind < t->count && is_word(t, behind) && post_food_end(st->r, t, behind) > behind) return false;
  while (begin > 0 && t->item[begin - 1].kind != TOKEN_MARK) begin--;
  while (end < t->count && t->item[end].kind != TOKEN_MARK) end++;
  for (size_t k = begin; k < end; k++) {
    if (k == at) k = behind;
    if (k < end && (says_a(t, k, CLASS_TELLS_A_TOTAL) || (is_word(t, k) && is_meal_word(t->item[k].word)))) return true;
    if (k < end && frequency_at(t, k).tokens > 0) return true;
  }
  return false;
}

/* How often a day that is fed, as the sentence tells: "twice a day", "one more with half of that at dawn", "each meal". */
static double times_a_day(const struct tokens *t, size_t from) {
  double times = 1, more = 0;
  for (size_t k = 0; k < t->count; k++) {
    struct frequency f = frequency_at(t, k);
    if (f.tokens > 0 && !f.refuse && f.times_per_28 == CALENDAR_DAYS && f.feedings > 1) times = f.feedings;
    if (f.tokens > 0 && f.times_per_28 < CALENDAR_DAYS) return NAN;
    struct quantity q = quantity_at(t, k);
    if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 2 && q.low <= 5 && says_a(t, k + q.tokens, CLASS_PORTION) &&
        k > from)
      times = q.low;
    bool again = k > from && says(t, k, "more another second again");
    for (size_t m = k + 1; again && m < t->count && m < k + 6; m++) {
      double part;
      size_t used = says(t, m, "half") ? 1 : post_part_at(t, m, &part);
      if (says(t, m, "half")) part = 0.5;
      if (says(t, m, "same") || says(t, m, "as")) part = 1, used = 1;
      if (used == 0) continue;
      more = part;
      break;
    }
  }
  return times + more;
}

struct total {
  double grams; /* a day */
  size_t sentence, at, tokens;
};

static bool find_total(struct story *st, size_t i, const struct parts *p, struct total *total) {
  size_t found = 0;
  for (size_t k = 0; k < st->count; k++) {
    const struct tokens *t = &st->s[k].t;
    for (size_t m = 0; m < t->count; m++) {
      double grams;
      size_t used = refer_grams(t, m, &grams);
      if (used == 0 || (k == i && m >= p->from && m < p->end) || !is_of_all(st, t, m, used)) continue;
      double times = times_a_day(t, m + used);
      if (isnan(times)) return false;
      if (found > 0 && total->grams != grams * times) return false;
      *total = (struct total){grams * times, k, m, used};
      found++;
      m += used - 1;
    }
  }
  return found > 0;
}

/* "For every 100 g of duck 30 g of barley. He gets 120 g of duck": by the food that the others come to. */
static bool scaled_by_first(struct story *st, size_t i, const struct parts *p) {
  for (size_t k = 0; k < st->count; k++) {
    const struct tokens *t = &st->s[k].t;
    for (size_t m = 0; m < t->count && k != i; m++) {
      double grams;
      size_t used = refer_grams(t, m, &grams), food = m + used, end;
      if (used == 0) continue;
      if (says(t, food, "of")) food++;
      end = post_food_end(st->r, t, food);
      if (end == food || !refer_same_food(p->food[0], tokens_span(t, food, end - food))) continue;
      struct buf b;
      buf_init(&b, st->r->arena, 60 * p->count + st->s[i].text.n + 100);
      for (size_t f = 1; f < p->count; f++) {
        buf_adds(&b, f > 1 ? ", " : "");
        num_sig(&b, p->of[f] / p->of[0] * grams, 4);
        buf_addf(&b, " g %.*s", SPAN_ARG(p->food[f]));
      }
      refer_between(st, i, p->from, p->end, buf_text(&b));
      return true;
    }
  }
  return false;
}

/* ---- written out ---- */

/* What told how much all of it is: nothing else of it is lost. */
static void forget_total(struct story *st, const struct total *total) {
  const struct tokens *t = &st->s[total->sentence].t;
  size_t from = total->at, to = total->at + total->tokens;
  bool animal = false;
  double kg;
  enum species s;
  for (size_t k = 0; k < t->count; k++)
    animal = animal || ((k < from || k >= to) && post_weight_at(t, k, &kg) > 0) ||
             (is_word(t, k) && is_animal_word(t->item[k].word, &s));
  if (!animal && !post_names_food(st->r, t, 0, t->count)) {
    refer_write(st, total->sentence, "");
    return;
  }
  if (!animal) return;
  for (size_t k = to; says(t, to, "of") && is_word(t, k) && k < to + 6; k++) /* "of my own raw mix" */
    if (says_a(t, k + 1, CLASS_TELLS_A_TOTAL) || says(t, k + 1, "this it that these food")) to = k + 2, k = to + 6;
  if (to < t->count) to += frequency_at(t, to).tokens;
  while (from > 0 && says(t, from - 1, "i we do feed give gets has get is about around he she so eats")) from--;
  refer_between(st, total->sentence, from, to, "");
}

static void write_parts(struct story *st, size_t i, const struct parts *p) {
  const struct tokens *t = &st->s[i].t;
  struct total total = {.sentence = st->count};
  bool found = find_total(st, i, p, &total);
  if (!found && p->sum > 20 && scaled_by_first(st, i, p)) return; /* of grams, not of parts */
  struct buf b;
  buf_init(&b, st->r->arena, 2 * st->s[i].text.n + 60 * p->count + 200);
  size_t head = p->from;
  while (head > 0 && t->item[head - 1].kind != TOKEN_MARK) head--;
  if (head > 0 && is_mark(t, head - 1, ':')) head = 0; /* "Every evening I weigh a bowl: 3 parts ..." */
  bool of_animal = false, ahead = found && total.sentence == i && total.at < p->from;
  for (size_t k = 0; k < p->from; k++)
    of_animal = of_animal || ((is_mark(t, k, '.') || is_number(t, k)) && !(ahead && k >= total.at));
  if (of_animal) head = ahead ? total.at : p->from;
  if (head > 0) buf_addf(&b, "%.*s ", SPAN_ARG(tokens_span(t, 0, head)));
  for (size_t k = 0; k < p->count; k++) {
    buf_adds(&b, k > 0 ? ", " : "");
    num_sig(&b, p->of[k] / p->sum * (found ? total.grams : 100), 4);
    buf_addf(&b, " %s %.*s", found ? "g" : "%", SPAN_ARG(p->food[k]));
  }
  const char *end = end_of(t, p->end - 1), *last = end_of(t, t->count - 1);
  if (!(found && total.sentence == i)) {
    if (last > end) buf_add(&b, (struct span){end, (size_t)(last - end)});
  } else { /* what else the sentence feeds: "..., plus 5 g of liver each" */
    size_t rest = total.at < p->from ? p->end : total.at + total.tokens;
    rest = past_joint(t, rest);
    if (rest < t->count && post_any_amount(t, rest) && post_names_food(st->r, t, rest, t->count))
      buf_addf(&b, "\x1F%.*s", SPAN_ARG(tokens_span(t, rest, t->count - rest)));
  }
  refer_write(st, i, buf_text(&b));
  if (found && total.sentence != i) forget_total(st, &total);
}

/* "100 g vegetables, that is to say half broccoli half carrot": a colon between a kind and its parts. */
static void kind_and_parts(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 3 < t->count; k++) {
    size_t from = k, used = phrase_of(t, k, CLASS_THAT_IS), to = k + used;
    double part;
    if (used == 0 || !is_mark(t, k - 1, ',')) continue;
    if (!says(t, to, "half") && post_part_at(t, to, &part) == 0) continue;
    from = k - 1;
    struct buf b;
    buf_init(&b, st->r->arena, 2 * st->s[i].text.n + 40);
    buf_adds(&b, ": ");
    size_t first = to;
    for (size_t m = to; m < t->count; m++) {
      bool again = m > first && (says(t, m, "half") || post_part_at(t, m, &part) > 0) && t->item[m - 1].kind != TOKEN_MARK &&
                   !says(t, m - 1, "and");
      buf_addf(&b, "%s%.*s",
               m == first                      ? ""
               : again                         ? ", "
               : t->item[m].kind == TOKEN_MARK ? ""
                                               : " ",
               SPAN_ARG(t->item[m].at));
    }
    refer_between(st, i, from, t->count, buf_text(&b));
    return;
  }
}

/* ---- a total by the serving ---- */

/* "four servings daily", "3 portions a day": how many; 0. */
static double servings_a_day(const struct tokens *t) {
  for (size_t k = 0; k < t->count; k++) {
    struct quantity q = quantity_at(t, k);
    size_t at = k + q.tokens;
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < 1 || q.low > 8) continue;
    bool named = says_a(t, at, CLASS_PORTION) || says(t, at, "times x feeds feedings helpings");
    if (named && (says(t, at + 1, "daily") || (says(t, at + 1, "a per each every") && says(t, at + 2, "day")))) return q.low;
  }
  return 0;
}

/* "Serving size 65 g, four servings daily", "1 day = 500 g", "500 g a day in two meals": how much is fed a day and nothing
 * else, up to a colon or the end. */
static void total_of_day(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  size_t end = 0, mass_at = 0, used = 0;
  double grams = 0, kg;
  while (end < t->count && !is_mark(t, end, ':')) end++;
  if (end < 3 || end > 16) return;
  struct tokens head = {t->item, end};
  for (size_t k = 0; k < end; k++) {
    double own;
    size_t mass = refer_grams(&head, k, &own);
    if (post_mention_at(st->r, &head, k) > 0) return;
    if (mass == 0) {
      if (post_weight_at(&head, k, &kg) > 0) return;
      continue;
    }
    if (used > 0) return;
    grams = own, used = mass, mass_at = k;
    k += mass - 1;
  }
  if (used == 0) return;
  bool day_is = is_mark(&head, mass_at > 0 ? mass_at - 1 : 0, '=') && mass_at > 1 && says(&head, mass_at - 2, "day d");
  bool serving = false, split = false;
  for (size_t k = 0; k < mass_at; k++)
    serving = serving || says(&head, k, "serving portion helping bowl meal feed feeding") || says(&head, k, "each per");
  size_t behind = mass_at + used, often = behind < end ? frequency_at(&head, behind).tokens : 0;
  split = mass_at == 0 && often > 0 && says(&head, often + behind, "in over split divided") && end < often + behind + 5;
  double servings = servings_a_day(&head);
  if (servings == 0 && serving && end == t->count && i + 1 < st->count) servings = servings_a_day(&st->s[i + 1].t);
  double day = day_is || split ? grams : serving && servings > 0 ? grams * servings : 0;
  if (!(day > 0)) return;
  struct buf b;
  buf_init(&b, st->r->arena, 100);
  buf_adds(&b, "Total ");
  num_sig(&b, day, 5);
  buf_adds(&b, " g a day\x1F");
  refer_between(st, i, 0, end < t->count ? end + 1 : end, buf_text(&b));
}

void refer_parts(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    const struct tokens *t = &st->s[i].t;
    if (t->count < 4) continue;
    total_of_day(st, i);
    t = &st->s[i].t;
    kind_and_parts(st, i);
    t = &st->s[i].t;
    for (size_t k = 0; k + 3 < t->count; k++) {
      struct parts p;
      if (!parts_at(st, t, k, &p) && !to_every_at(st, t, k, &p)) continue;
      write_parts(st, i, &p);
      break;
    }
  }
}
