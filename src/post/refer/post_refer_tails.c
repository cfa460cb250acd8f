/* Words around a food that many write and few mean: "a strawberry or two", "no treats but carrots", "apple about a quarter",
 * "pork, 250 g a day lean shoulder", "a tin of sardines, 90 g tin in water"; and what is told of a food in a sentence that
 * speaks of more: "the pack says 1 g per 10 kg, so I give 2 g", "calcium comes from 2 g of eggshell powder". */
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

/* Most words are none of those looked for, which their first letter tells. */
static bool begins_with(const struct tokens *t, size_t at, char letter) {
  return at < t->count && t->item[at].kind == TOKEN_WORD && t->item[at].word.n > 0 && t->item[at].word.p[0] == letter;
}

/* "a strawberry or two", "a prawn or 2" */
static void one_or_two(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 1; k + 2 < t->count; k++) {
    bool two = begins_with(t, k + 1, 'o') && says(t, k + 1, "or") &&
               (says(t, k + 2, "two 2 three") || (is_number(t, k + 2) && t->item[k + 2].value <= 3));
    size_t food = k, from;
    if (!two || !is_word(t, k)) continue;
    while (food > 0 && k - food < 2 && !says(t, food - 1, "a an one the odd")) food--;
    from = food > 0 && says(t, food - 1, "a an one") ? food - 1 : food;
    if (from == food || !post_names_food(st->r, t, food, k + 1)) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 200);
    buf_addf(&b, "1-%s %.*s", says(t, k + 2, "three") || (is_number(t, k + 2) && t->item[k + 2].value == 3) ? "3" : "2",
             SPAN_ARG(tokens_span(t, food, k + 1 - food)));
    refer_between(st, i, from, k + 3, buf_text(&b));
    return;
  }
}

/* "No treats but carrots, around 20 g a day", "no biscuits, only cucumber, 25 g" */
static void nothing_but(struct story *st, size_t i) {
  enum { FAR = 4 };
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 3 < t->count; k++) {
    size_t but = k + 1, food, end;
    if (!begins_with(t, k, 'n') || !says(t, k, "no") || !says_a(t, k + 1, CLASS_FED_BESIDE)) continue;
    while (but < k + FAR && !says(t, but, "but except only just besides")) but++;
    if (!says(t, but, "but except only just besides")) continue;
    food = but + 1;
    while (says(t, food, "for a the some only")) food++;
    end = post_food_end(st->r, t, food);
    if (end == food || !post_any_amount(t, food) || post_any_amount(&(struct tokens){t->item, end}, food)) continue;
    refer_between(st, i, k, food, "");
    return;
  }
}

/* "apple about a quarter": a food and a part of one of it, and nothing else. */
static void part_of_one(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  double part = 0;
  if (t->count > 6 || t->count < 2 || !is_word(t, 0) || !says(t, t->count - 1, "half quarter third quarters thirds")) return;
  size_t end = post_food_end(st->r, t, 0), at = end;
  if (end == 0 || post_mention_at(st->r, t, 0) == 0) return;
  while (says(t, at, "about around roughly maybe approx") || is_mark(t, at, ',')) at++;
  if (says(t, at, "a one") && says(t, at + 1, "half quarter third")) at++;
  size_t used = says(t, at, "half quarter third") ? 1 : post_part_at(t, at, &part);
  if (used == 0 || at + used < t->count) return;
  if (used == 1) part = says(t, at, "half") ? 0.5 : says(t, at, "quarter") ? 0.25 : says(t, at, "third") ? 1.0 / 3 : part;
  if (!(part > 0 && part < 1)) return;
  struct buf b;
  buf_init(&b, st->r->arena, 200);
  buf_addf(&b, "%s %.*s",
           part == 0.5    ? "1/2"
           : part == 0.25 ? "1/4"
           : part == 0.75 ? "3/4"
           : part < 0.4   ? "1/3"
                          : "2/3",
           SPAN_ARG(tokens_span(t, 0, end)));
  refer_write(st, i, buf_text(&b));
}

/* "pork, 250g/day lean shoulder, cooked": the animal stands before the amount of its cut. */
static void animal_first(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  if (t->count < 4 || !says_a(t, 0, CLASS_ANIMAL_OF_FLESH) || !(is_mark(t, 1, ',') || is_mark(t, 1, ':'))) return;
  struct post_amount a = post_amount_at(t, 2);
  size_t cut = 2 + a.tokens, end;
  if (a.tokens == 0 || !a.is_mass) return;
  if (is_mark(t, cut, '/'))
    cut += 2;
  else
    cut += cut < t->count ? frequency_at(t, cut).tokens : 0;
  if (says(t, cut, "of")) cut++;
  for (end = cut; is_word(t, end) && end < cut + 3; end++) {
  }
  if (end == cut || says_a(t, cut, CLASS_ANIMAL_OF_FLESH)) return;
  struct buf name, b;
  struct search_hit hit;
  buf_init(&name, st->r->arena, 200);
  buf_addf(&name, "%.*s %.*s", SPAN_ARG(t->item[0].at), SPAN_ARG(tokens_span(t, cut, end - cut)));
  if (!post_look_up(st->r, buf_span(&name), &hit) || hit.words_missed > 0) return;
  buf_init(&b, st->r->arena, st->s[i].text.n + 100);
  buf_addf(&b, "%.*s %.*s%.*s", SPAN_ARG(tokens_span(t, 2, cut - 2)), SPAN_ARG(buf_span(&name)),
           SPAN_ARG(end < t->count ? tokens_span(t, end, t->count - end) : ((struct span){"", 0})));
  refer_write(st, i, buf_text(&b));
}

/* Behind "tin of": where a comma or bracket tells what one of them weighs: "(the little 90 g tins in water)", ", 90 g tin". */
struct told_tin {
  size_t from, end;      /* with its bracket; end 0: nothing is told */
  struct span grams, in; /* "90 g", "in water" */
};

static struct told_tin told_tin_behind(const struct tokens *t, size_t food) {
  for (size_t m = food; m + 2 < t->count; m++) {
    double grams;
    size_t at = m + 1, used, end;
    if (!is_mark(t, m, ',') && !is_mark(t, m, '(')) continue;
    while (says(t, at, "the those these they're its it's my little lil small big tiny standard usual")) at++;
    used = refer_grams(t, at, &grams);
    end = at + used;
    if (used == 0 || !says(t, end, "tin can tins cans ones one")) continue;
    struct told_tin told = {m, end + 1, tokens_span(t, at, used), {"", 0}};
    if (says(t, end + 1, "in")) {
      size_t packed = phrase_of(t, end + 2, CLASS_PACKED_IN);
      if (packed > 0) told.in = tokens_span(t, end + 1, packed + 1), told.end = end + 2 + packed;
    }
    if (is_mark(t, m, '(') && !is_mark(t, told.end, ')')) return (struct told_tin){0};
    if (is_mark(t, m, '(')) told.end++;
    return told;
  }
  return (struct told_tin){0};
}

/* "a tin of sardines on top, 90 g tin in water", "half a tin of tuna (the small 80 g ones)": what is behind is the weight of
 * the tin that is told before. */
static void weight_of_tin(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 5 < t->count; k++) {
    if (!says(t, k + 1, "tin can tins cans") || !says(t, k + 2, "of")) continue;
    if (!says(t, k, "a one half") && !is_number(t, k) && t->item[k].kind != TOKEN_FRACTION) continue;
    size_t food = post_food_end(st->r, t, k + 3);
    struct told_tin told = food > k + 3 ? told_tin_behind(t, food) : (struct told_tin){0};
    if (told.end == 0) continue;
    struct buf b;
    buf_init(&b, st->r->arena, 2 * st->s[i].text.n + 60);
    buf_addf(&b, "%.*s tin of %.*s %.*s %.*s", SPAN_ARG(told.grams), SPAN_ARG(tokens_span(t, k + 3, food - k - 3)),
             SPAN_ARG(told.in), SPAN_ARG(told.from > food ? tokens_span(t, food, told.from - food) : ((struct span){"", 0})));
    refer_between(st, i, k + 1, told.end, buf_text(&b));
    return;
  }
}

/* "The bone meal tub says 1 tsp per 10 kg of dog so he gets 12 g": the amount that is given, of the food that is named. */
static void as_the_pack_says(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  size_t says_at = 0, food = 0, food_end = 0, so = 0;
  for (size_t k = 1; k < t->count && says_at == 0; k++)
    if ((begins_with(t, k, 's') || begins_with(t, k, 'r')) && says(t, k, "says recommends states reads") &&
        says_a(t, k - 1, CLASS_PACK_THAT_SAYS))
      says_at = k;
  for (size_t k = 0; says_at > 0 && k < says_at && food_end == 0; k++)
    if (post_mention_at(st->r, t, k) > 0) food = k, food_end = post_food_end(st->r, t, k);
  if (food_end <= food) return;
  if (food_end > says_at - 1) food_end = says_at - 1;
  for (size_t k = says_at; k + 2 < t->count; k++)
    if (says(t, k, "so") && says(t, k + 1, "i we he she it") && says_a(t, k + 2, CLASS_GIVEN_AMOUNT)) so = k + 3;
  if (so == 0) return;
  while (says(t, so, "him her it them about around roughly approx just")) so++;
  struct post_amount a = so < t->count ? post_amount_at(t, so) : (struct post_amount){0};
  size_t end = so + a.tokens;
  if (a.tokens == 0 || a.bare) return;
  if (says(t, end, "of") && says(t, end + 1, "it that")) end += 2;
  struct buf b;
  buf_init(&b, st->r->arena, st->s[i].text.n + 60);
  buf_addf(&b, "%.*s %.*s %.*s", SPAN_ARG(tokens_span(t, so, a.tokens)), SPAN_ARG(tokens_span(t, food, food_end - food)),
           SPAN_ARG(end < t->count ? tokens_span(t, end, t->count - end) : ((struct span){"", 0})));
  refer_write(st, i, buf_text(&b));
}

/* "Calcium comes from 28 g eggshell powder", "omega 3 comes from 5 g salmon oil, calcium from 2 g eggshell" */
static void comes_from(struct story *st, size_t i) {
  for (size_t k = 1; k + 1 < st->s[i].t.count; k++) {
    const struct tokens *t = &st->s[i].t;
    size_t from = k;
    if (!begins_with(t, k, 'f') || !says(t, k, "from") || post_amount_at(t, k + 1).tokens == 0) continue;
    bool comes = says(t, k - 1, "comes coming is");
    if (comes) from--;
    size_t name = from;
    while (name > 0 && from - name < 4 && t->item[name - 1].kind != TOKEN_MARK && !says(t, name - 1, "and with")) name--;
    bool nutrient = false;
    for (size_t m = name; m < from; m++)
      nutrient = nutrient || says_a(t, m, CLASS_MINERAL) ||
                 says(t, m, "calcium omega omega3 vitamin taurine fibre fiber fat protein");
    if (!nutrient) continue;
    refer_between(st, i, name, k + 1, "");
    if (name < k) k = name;
  }
}

/* "That adds up to 100 right?": nothing is fed by it. */
static void adds_up(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  for (size_t k = 0; k + 3 < t->count; k++) {
    size_t end = k + 4;
    if (!begins_with(t, k, 'a') || !says(t, k, "adds add") || !says(t, k + 1, "up") || !says(t, k + 2, "to") ||
        !is_number(t, k + 3))
      continue;
    while (is_mark(t, end, '%') || is_mark(t, end, '?') || says(t, end, "right percent ok i think hope doesn't it")) end++;
    if (end == t->count && k <= 3 && !post_names_food(st->r, t, 0, k)) refer_write(st, i, "");
    return;
  }
}

void refer_tails(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    if (st->s[i].t.count < 2) continue;
    animal_first(st, i);
    part_of_one(st, i);
    one_or_two(st, i);
    nothing_but(st, i);
    weight_of_tin(st, i);
    as_the_pack_says(st, i);
    comes_from(st, i);
    adds_up(st, i);
  }
}
