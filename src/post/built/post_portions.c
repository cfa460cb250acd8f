/* A whole that is told with its parts: "which comes to 700 g, and he has a seventh of it each day", "180 g a day: chicken 2
 * parts, hearts 1 part". */
#include "base/num.h"
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

/* "a seventh of it each day", "1/7 of the pot a day": how many tokens, with the part; 0. */
static size_t part_a_day(const struct tokens *t, size_t at, double *part) {
  const char *means;
  size_t used = meaning_at(t, at, CLASS_PART_OF_DAYS, &means);
  double days;
  if (used > 0 && num_parse(span_of(means), &days)) {
    *part = 1 / days;
  } else {
    struct quantity q = quantity_at(t, at);
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low < 1 && q.low > 0)) return 0;
    *part = q.low, used = q.tokens;
  }
  size_t end = at + used;
  if (!says(t, end, "of")) return 0;
  end++;
  if (says(t, end, "it that this them these those")) end++;
  if (says(t, end, "the this that") && is_word(t, end + 1)) end += 2;
  if (says(t, end - 1, "the")) return 0;
  if (says(t, end - 1, "it that this them") && says(t, end, "pot batch lot meat pan mix")) end++;
  struct frequency f = end < t->count ? frequency_at(t, end) : (struct frequency){0};
  if (f.tokens == 0 || f.times_per_28 != CALENDAR_DAYS || f.feedings > 1 || f.each_meal) return 0;
  return end + f.tokens - at;
}

/* The last food that is named in [from, to); 'to' none. Its words end at *end. */
static size_t last_food(struct post_reader *r, const struct tokens *t, size_t from, size_t to, size_t *end) {
  size_t found = to;
  for (size_t i = from; i < to; i++) {
    size_t used = post_mention_at(r, t, i);
    if (used == 0 && is_word(t, i) && !token_is_a(&t->item[i], CLASS_CHATTER) && says(t, i, "broth stock")) used = 1;
    if (used == 0 || says(t, i, "meat flesh")) continue;
    found = i;
    *end = post_food_end(r, t, i);
    if (*end > to || *end == i) *end = i + used;
    i = *end - 1;
  }
  return found;
}

/* "I boil a chicken and take off the meat, which comes to 700 grams, and he has a seventh of it each day": the food, and
 * what of it is a day's. */
static bool part_of_one(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 2; i < t->count; i++) {
    double part;
    size_t used = part_a_day(t, i, &part), from = i, masses = 0, mass = 0, end = 0;
    if (used == 0) continue;
    while (from > 0 && !ends_sentence(t, from - 1)) from--;
    struct post_amount a = {0};
    for (size_t k = from; k < i; k++) {
      struct post_amount here = post_amount_at(t, k);
      if (here.is_mass || here.is_volume) masses++, mass = k, a = here;
      if (here.tokens > 0) k += here.tokens - 1;
    }
    if (masses != 1 || a.low != a.high || !(post_in_grams(&a) * part > 0)) continue;
    size_t behind = mass + a.tokens + says(t, mass + a.tokens, "of");
    if (post_food_end(r, t, behind) > behind) continue; /* "I cook 700 g of beef, a seventh a day" has its food behind it */
    size_t food = last_food(r, t, from, mass, &end);
    if (food == mass) continue;
    bool meat = false;
    const char *cooked = NULL;
    for (size_t k = from; k < mass; k++) {
      meat = meat || says(t, k, "meat flesh");
      if (is_word(t, k) && !cooked && cooked_by(t->item[k].word)) cooked = cooked_by(t->item[k].word);
    }
    struct buf b;
    buf_init(&b, r->keep, line.n + 80);
    num_sig(&b, a.low * part, 4);
    buf_addf(&b, " %s %.*s%s%s%s a day", a.unit, SPAN_ARG(tokens_span(t, food, end - food)), meat ? " meat" : "",
             cooked ? ", " : "", cooked ? cooked : "");
    *out = post_cut_out(r, line, token_begin(t, from), token_end(t, i + used - 1), buf_text(&b));
    r->day_part = part;
    return true;
  }
  return false;
}

/* "The broth, 1 litre, I pour over in equal parts too": as much of it a day as of what was told before. */
static bool equal_parts_too(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  if (!(r->day_part > 0)) return false;
  for (size_t i = 1; i < t->count; i++) {
    size_t used = phrase_of(t, i, CLASS_EQUAL_PARTS_TOO), from = i, end = i;
    if (used == 0) continue;
    while (from > 0 && !ends_sentence(t, from - 1)) from--;
    for (size_t k = from; k < i; k++) {
      struct post_amount a = post_amount_at(t, k);
      size_t food = last_food(r, t, from, k, &end);
      if (!(a.is_mass || a.is_volume) || a.low != a.high || food == k) continue;
      struct buf b;
      buf_init(&b, r->keep, 100);
      num_sig(&b, a.low * r->day_part, 4);
      buf_addf(&b, " %s %.*s a day", a.unit, SPAN_ARG(tokens_span(t, food, end - food)));
      size_t to = i + used + says(t, i + used, "too as");
      *out = post_cut_out(r, line, token_begin(t, from), token_end(t, to - 1), buf_text(&b));
      return true;
    }
  }
  return false;
}

/* "I cook 1.4 kg of pork and 700 g of sweet potato on a Sunday. He gets a seventh of the pot each day.": how long it lasts;
 * and the day on which it is cooked is none on which it is fed. */
static bool part_of_pot(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 1; i < t->count; i++) {
    double part;
    size_t used = part_a_day(t, i, &part), from = i;
    if (used == 0) continue;
    while (from > 0 && !ends_sentence(t, from - 1)) from--;
    if (from == 0 || post_any_amount(&(struct tokens){t->item, i}, from)) continue;
    double days = floor(1 / part + 0.5);
    if (fabs(days * part - 1) > 0.001) continue;
    struct told_food told[TOLD_MOST];
    if (post_told_foods(r, (struct span){line.p, (size_t)(token_begin(t, from) - line.p)}, told, TOLD_MOST) == 0) continue;
    struct buf b;
    buf_init(&b, r->keep, 60);
    buf_adds(&b, "It lasts ");
    num_sig(&b, days, 3);
    buf_adds(&b, " days");
    *out = post_cut_out(r, line, token_begin(t, from), token_end(t, i + used - 1), buf_text(&b));
    for (size_t k = 0; k + 2 < from; k++) { /* "on a Sunday" */
      const char *day;
      size_t name = k + 1 + says(t, k + 1, "a");
      if (!says(t, k, "on every") || meaning_at(t, name, CLASS_DAY_OF_WEEK, &day) == 0) continue;
      *out = post_cut_out(r, *out, out->p + (token_begin(t, k) - line.p), out->p + (token_end(t, name) - line.p), "");
      break;
    }
    return true;
  }
  return false;
}

/* "Pork 300 g. Half of that weight in vegetables": of the one amount that was told before it. */
static bool part_of_that(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 1; i + 3 < t->count; i++) {
    double part;
    size_t used = post_part_at(t, i, &part), at = i + used;
    if (used == 0) continue;
    if (says(t, at, "of") && says(t, at + 1, "that this")) at++;
    if (!says(t, at, "that this")) continue;
    at++;
    bool weight = says_a(t, at, CLASS_ITS_WEIGHT), half_that = t->item[at - 1].at.p == t->item[i + used].at.p;
    if (weight) at++;
    if (!(weight || half_that) || !says(t, at, "in of")) continue; /* "half that of beans" */
    size_t food = at + 1, end = food;
    while (is_word(t, end) && end < food + 4) end++;
    bool named = post_names_food(r, t, food, end) || (is_word(t, food) && is_a(t->item[food].word, CLASS_KIND_OF_FOOD));
    struct post_amount a = {0};
    size_t measured = 0;
    for (size_t k = 0; k < i; k++) {
      struct post_amount here = post_amount_at(t, k);
      double kg;
      bool weighed = here.is_mass && post_weight_at(t, k, &kg) == 0;
      if (weighed && !(measured > 0 && here.low == a.low && strcmp(here.unit, a.unit) == 0)) a = here, measured++;
      if (here.tokens > 0) k += here.tokens - 1;
    }
    if (!named || measured != 1 || a.low != a.high) continue;
    struct buf b;
    buf_init(&b, r->keep, 60);
    num_sig(&b, a.low * part, 4);
    buf_addf(&b, " %s ", a.unit);
    size_t kind = is_a(t->item[food].word, CLASS_KIND_OF_FOOD) && is_mark(t, food + 1, '('); /* "vegetables (courgette)" */
    const char *to = kind ? token_begin(t, food + 2) : token_begin(t, food);
    post_will_say(r, t->item[kind ? food + 2 : food].word, "a part of the amount told before it", NULL);
    *out = post_cut_out(r, line, token_begin(t, i), to, buf_text(&b));
    return true;
  }
  return false;
}

/* ---- parts of a given amount ---- */

/* Where the clause that ends with "2 parts" begins; 'at' when no food stands in it alone. */
static size_t food_of_part(struct post_reader *r, const struct tokens *t, size_t at) {
  size_t from = at;
  while (from > 0 && !ends_sentence(t, from - 1) && !is_mark(t, from - 1, ',') && !is_mark(t, from - 1, ';') &&
         !is_mark(t, from - 1, ':') && !is_mark(t, from - 1, '/') && !is_mark(t, from - 1, '+') &&
         !says(t, from - 1, "and to"))
    from--;
  return from < at && post_names_food(r, t, from, at) && !post_any_amount(&(struct tokens){t->item, at}, from) ? from : at;
}

/* "chicken 2 parts" as "2 parts chicken", where two foods at least have theirs. */
static bool parts_behind(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  size_t first = t->count, count = 0, used_first = 0;
  for (size_t i = 1; i + 1 < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || !says(t, i + q.tokens, "part parts")) continue;
    size_t behind = i + q.tokens + 1;
    if (says(t, behind, "of") || food_of_part(r, t, i) == i) continue;
    count++;
    if (first == t->count) first = i, used_first = q.tokens + 1;
  }
  if (first == t->count || (count < 2 && r->parts_line != r->line)) return false;
  r->parts_line = r->line;
  size_t from = food_of_part(r, t, first);
  struct buf b;
  buf_init(&b, r->keep, line.n + 8);
  buf_addf(&b, "%.*s %.*s", SPAN_ARG(tokens_span(t, first, used_first)), SPAN_ARG(tokens_span(t, from, first - from)));
  *out = post_cut_out(r, line, token_begin(t, from), token_end(t, first + used_first - 1), buf_text(&b));
  return true;
}

/* "180 g / day // chicken ...": two strokes end a sentence. */
static bool strokes(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 1; i + 1 < t->count; i++)
    if (is_mark(t, i, '/') && is_mark(t, i + 1, '/') && t->item[i + 1].glued && !t->item[i].glued) {
      char end[] = {0x1F, 0};
      *out = post_cut_out(r, line, token_begin(t, i), token_end(t, i + 1), end);
      return true;
    }
  return false;
}

struct span post_parts_of_batch(struct post_reader *r, struct span before, struct span line) {
  (void)before;
  struct tokens t = post_tokens(r, line);
  if (t.count > LINE_MOST_TOKENS) return line;
  struct span out = line;
  bool may = false;
  for (size_t i = 0; i < t.count && !may; i++)
    may = says(&t, i, "of part parts portions") || (is_mark(&t, i, '/') && is_mark(&t, i + 1, '/'));
  if (!may) return line;
  return strokes(r, &t, line, &out) || part_of_one(r, &t, line, &out) || equal_parts_too(r, &t, line, &out) ||
                 part_of_pot(r, &t, line, &out) || parts_behind(r, &t, line, &out) || part_of_that(r, &t, line, &out)
             ? out
             : line;
}
