/* Words as they were dictated: "full stop", "five point two kilos", no stops at all, "the first meal is ..., the second is
 * the same", and what is taken back in the same breath: "120 grams no wait 140 grams of beef". */
#include "base/num.h"
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

enum { SPOKEN_LEAST_WORDS = 22, WORDS_A_MARK = 18 };

/* A line of many words and hardly a mark among them. */
static bool is_spoken(const struct tokens *t) {
  size_t marks = 0;
  for (size_t i = 0; i < t->count; i++) marks += t->item[i].kind == TOKEN_MARK && !t->item[i].glued;
  for (size_t i = 0; i < t->count; i++)
    marks += is_mark(t, i, ',') || is_mark(t, i, '.') || is_mark(t, i, ';') || is_mark(t, i, ':');
  return t->count >= SPOKEN_LEAST_WORDS && marks * WORDS_A_MARK < t->count;
}

/* "full stop", "comma", twice at least. */
static bool speaks_marks(const struct tokens *t) {
  size_t marks = 0;
  for (size_t i = 0; i < t->count; i++)
    marks += says(t, i, "comma") || (says(t, i, "full") && says(t, i + 1, "stop")) ||
             (says(t, i, "new") && says(t, i + 1, "paragraph"));
  return marks > 1;
}

static bool is_digit_word(const struct tokens *t, size_t at, int *digit) {
  if (says(t, at, "zero nought oh")) return *digit = 0, true;
  struct quantity q = is_word(t, at) ? quantity_at(t, at) : (struct quantity){.fault = QUANTITY_NONE};
  bool one =
      q.fault == QUANTITY_FINE && q.tokens == 1 && q.low == q.high && q.low >= 1 && q.low <= 9 && q.low == floor(q.low);
  *digit = one && !says(t, at, "a an") ? (int)q.low : -1;
  return *digit >= 0;
}

/* "five point two", "twelve point two five": how many tokens; 0. */
static size_t decimal_in_words(const struct tokens *t, size_t at, double *value) {
  if (!(is_word(t, at) || is_number(t, at)) || says(t, at, "a an")) return 0;
  struct quantity q = quantity_at(t, at);
  size_t point = at + q.tokens, end = point + 1;
  int digit;
  double scale = 1;
  if (q.fault != QUANTITY_FINE || q.low != q.high || q.low != floor(q.low) || !says(t, point, "point")) return 0;
  for (*value = q.low; end < point + 4 && (is_digit_word(t, end, &digit) || is_number(t, end)); end++) {
    if (is_number(t, end)) digit = (int)t->item[end].value;
    if (digit > 9) return 0;
    *value += digit * (scale /= 10);
  }
  return end > point + 1 ? end - at : 0;
}

/* "the first one is", "and the second is": which meal, and how many tokens; 0. */
static size_t meal_counted(const struct tokens *t, size_t at, int *which) {
  size_t from = at;
  if (says(t, at, "and then")) at++;
  if (!says(t, at, "the")) return 0;
  *which = says(t, at + 1, "first") ? 0 : says(t, at + 1, "second") ? 1 : says(t, at + 1, "third last") ? 2 : -1;
  if (*which < 0) return 0;
  at += 2;
  if (says(t, at, "one meal")) at++;
  return says(t, at, "is") ? at + 1 - from : 0;
}

/* The line's meals are told one after the other: the last of them, from 0; -1. */
static int meals_counted(const struct tokens *t) {
  int which, most = -1;
  bool first = false, meals = false;
  for (size_t i = 0; i < t->count; i++) {
    meals = meals || says(t, i, "meals meal feeds");
    if (meal_counted(t, i, &which) == 0) continue;
    first = first || which == 0;
    if (which > most) most = which;
  }
  return meals && first && most > 0 ? most : -1;
}

/* Somebody without stops begins another sentence here: "and in the evening", "she weighs", "Rocky is". */
static bool begins_spoken(struct post_reader *r, const struct tokens *t, size_t at) {
  if (at == 0 || ends_sentence(t, at - 1)) return false;
  const char *day;
  size_t every = at + (says(t, at, "and") ? 1 : 0);
  if (says(t, every, "every on") && every > at && meaning_at(t, every + 1, CLASS_DAY_OF_WEEK, &day) > 0) return true;
  if (phrase_of(t, at, CLASS_BEGINS_SPOKEN) > 0) return true;
  size_t often =
      says(t, at, "and") ? frequency_at(t, at + 1).tokens : 0; /* "and every other day thirty grams of broccoli" */
  if (often > 0 && post_amount_at(t, at + 1 + often).tokens > 0) return true;
  bool weight = says_a(t, at - 1, CLASS_KILOGRAMS) || says(t, at - 1, "pounds pound lb lbs"); /* "four kilos he has" */
  if (weight && says(t, at, "he she") && says(t, at + 1, "has gets eats")) return true;
  return says(t, at + 1, "is weighs gets eats") && post_pet_name(r, t, at).n > 0;
}

/* An amount stands between two tokens; without one nothing has ended yet. */
static bool amount_between(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens > 0 && (!a.bare || a.low > 1 || says(t, i, "half one a an"))) return true;
  }
  return false;
}

/* "per day green beans": a food right behind how often ends the one before. */
static size_t daily_at(const struct tokens *t, size_t at) {
  return says(t, at, "per a each") && says(t, at + 1, "day") ? 2 : says(t, at, "daily") ? 1 : 0;
}

/* "sweet potato a hundred and fifty per day", among grams: how many tokens the number has; 0. */
static size_t number_of_grams(struct post_reader *r, const struct tokens *t, size_t at) {
  static const double LEAST_G = 5; /* fewer may be pieces */
  struct quantity q = quantity_at(t, at);
  if (at == 0 || q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= LEAST_G) || daily_at(t, at + q.tokens) == 0)
    return 0;
  bool grams = false, food = false;
  for (size_t i = 0; i < t->count; i++) grams = grams || says(t, i, "grams gram g");
  for (size_t i = at > 3 ? at - 3 : 0; i < at; i++) {
    size_t used = post_mention_at(r, t, i);
    food = food || (used > 0 && i + used == at);
  }
  return grams && food ? q.tokens : 0;
}

/* "he has two meals so a hundred each", behind 200 g a day: it says that once more; how many tokens, 0. */
static size_t says_it_again(const struct tokens *t, size_t at) {
  if (!says(t, at, "he she they it") || !says(t, at + 1, "has gets eats have")) return 0;
  struct quantity meals = quantity_at(t, at + 2);
  size_t so = at + 2 + meals.tokens;
  if (meals.fault != QUANTITY_FINE || !says(t, so, "meals feeds bowls")) return 0;
  so++;
  if (says(t, so, "a per") && says(t, so + 1, "day")) so += 2;
  if (!says(t, so, "so")) return 0;
  so++;
  if (says(t, so, "it's that's thats its")) so++;
  struct post_amount each = post_amount_at(t, so);
  if (each.tokens == 0 || !says(t, so + each.tokens, "each")) return 0;
  for (size_t i = at; i-- > 0;) {
    struct post_amount a = post_amount_at(t, i);
    if (!a.is_mass) continue;
    return a.low == meals.low * each.low ? so + each.tokens + 1 - at : 0;
  }
  return 0;
}

struct spoken {
  bool all;   /* no stops */
  bool marks; /* they are spoken: "comma" */
  int meals;  /* the last one told, from 0; -1 */
  bool asked; /* of numbers without a unit */
};

/* What is written for the tokens from 'at' on; how many of them, 0: as they stand. */
static size_t spoken_at(struct post_reader *r, struct spoken *s, const struct tokens *t, size_t at, struct buf *b) {
  static const char *const MEAL[] = {"Breakfast", "Lunch", "Dinner"};
  double value;
  int which;
  size_t used = decimal_in_words(t, at, &value);
  if (used > 0) {
    num_sig(b, value, 6);
    return used;
  }
  if (says(t, at, "full") && says(t, at + 1, "stop") && !(at > 0 && says(t, at - 1, "a"))) {
    buf_addc(b, 0x1F);
    return 2 + says(t, at + 2, "and");
  }
  if (s->marks && says(t, at, "comma")) {
    buf_addc(b, ',');
    return 1;
  }
  if (says(t, at, "new") && says(t, at + 1, "paragraph line") && (s->all || s->marks)) {
    buf_addc(b, 0x1F);
    return 2;
  }
  if (s->meals > 0 && (used = meal_counted(t, at, &which)) > 0) {
    buf_addf(b, "%c%s:", 0x1F, MEAL[which == s->meals ? 2 : which]);
    return used;
  }
  if (!s->all) return 0;
  if ((used = says_it_again(t, at)) > 0) {
    buf_addc(b, 0x1F);
    return used;
  }
  if ((used = phrase_of(t, at, CLASS_SPOKEN_FILLER)) > 0) return used;
  if ((used = number_of_grams(r, t, at)) > 0) {
    num_sig(b, quantity_at(t, at).low, 6);
    buf_adds(b, " g");
    static const char NOTE[] = "no unit was said; taken as grams, like the others";
    post_will_say(r, t->item[at - 1].word, NOTE,
                  s->asked ? NULL : "Are the numbers without a unit grams? They were taken for grams.");
    s->asked = true;
  }
  return used;
}

struct span post_dictated(struct post_reader *r, struct span before, struct span line) {
  (void)before;
  struct tokens t = post_tokens(r, line);
  if (t.count > LINE_MOST_TOKENS) return line;
  struct spoken s = {.all = is_spoken(&t), .marks = speaks_marks(&t), .meals = meals_counted(&t)};
  struct buf b;
  const char *from = line.p;
  bool any = false;
  size_t begun = 0;
  buf_init(&b, r->keep, line.n + 24 * t.count + 8);
  for (size_t i = 0; i < t.count; i++) {
    buf_add(&b, (struct span){from, (size_t)(token_begin(&t, i) - from)});
    from = token_begin(&t, i);
    size_t daily = i > 0 && s.all ? daily_at(&t, i) : 0, used;
    bool tried = says(&t, i, "i") && (says(&t, i + 1, "tried") || phrase_at(&t, i, "i did try") > 0) && i > begun + 2;
    if (s.all && (tried || (begins_spoken(r, &t, i) && amount_between(&t, begun, i))))
      buf_addc(&b, 0x1F), any = true, begun = i;
    used = spoken_at(r, &s, &t, i, &b);
    if (used > 0) {
      any = true;
      i += used - 1;
      from = token_end(&t, i);
    } else if (daily > 0 && i + daily < t.count && !ends_sentence(&t, i + daily) && post_mention_at(r, &t, i + daily) > 0) {
      buf_addf(&b, "%.*s%c", SPAN_ARG(tokens_span(&t, i, daily)), 0x1F);
      any = true;
      i += daily - 1;
      from = token_end(&t, i);
    }
  }
  if (!any) return line;
  buf_add(&b, (struct span){from, (size_t)(line.p + line.n - from)});
  return buf_span(&b);
}

/* ---- taken back in the same breath ---- */

/* Behind "no sorry": "that was before, now it's"; where it ends. */
static size_t past_aside(const struct tokens *t, size_t at) {
  enum { FAR = 9 };
  size_t end = at;
  while (end < t->count && end < at + FAR && (is_mark(t, end, ',') || says_a(t, end, CLASS_AROUND_A_CORRECTION))) end++;
  return end;
}

/* "per meal wait no per day I mean": the rate before goes. */
static bool rate_taken_back(struct post_reader *r, const struct tokens *t, size_t at, size_t now, struct span line,
                            struct span *out) {
  struct frequency f = frequency_at(t, now);
  size_t end = now + f.tokens, from = at;
  if (f.tokens == 0 || f.refuse) return false;
  while (from > 0 && !ends_sentence(t, from - 1)) from--;
  for (size_t i = at; i-- > from;) {
    size_t old = frequency_at(t, i).tokens;
    if (old == 0 || i + old > at) continue;
    post_note(r, tokens_span(t, i, old), "taken back in the same breath");
    struct span without = post_cut_out(r, line, token_begin(t, at),
                                       token_end(t, end - 1 + (says(t, end, "i") && says(t, end + 1, "mean") ? 2 : 0)),
                                       arena_text(r->keep, tokens_span(t, now, f.tokens)));
    const char *begin = without.p + (token_begin(t, i) - line.p);
    *out = post_cut_out(r, without, begin, begin + (token_end(t, i + old - 1) - token_begin(t, i)), "");
    return true;
  }
  return false;
}

/* "seventy no sixty grams": how many tokens before 'at' are a number that goes; 0. */
static size_t number_taken_back(const struct tokens *t, size_t at) {
  struct quantity now = quantity_at(t, at + 1); /* "no 60" alone would be a name: number 60 */
  size_t unit = at + 1 + now.tokens;
  if (!says(t, at, "no") || now.fault != QUANTITY_FINE ||
      !(says(t, unit, "g gram grams ml") || says_a(t, unit, CLASS_KILOGRAMS)))
    return 0;
  for (size_t n = 4; n > 0; n--) {
    if (n > at) continue;
    struct quantity q = quantity_at(t, at - n);
    if (q.fault == QUANTITY_FINE && q.tokens == n && q.low >= 2) return n;
  }
  return 0;
}

/* "150 grams of lamb sorry I mean pork": the other food, as much of it. */
static bool other_food(struct post_reader *r, const struct tokens *t, size_t at, size_t now, struct span line,
                       struct span *out) {
  size_t food = at;
  if (post_food_end(r, t, now) == now || post_mention_at(r, t, now) == 0) return false;
  while (food > 0 && food + 4 > at && is_word(t, food - 1) && !says(t, food - 1, "of") &&
         post_amount_at(t, food - 1).tokens == 0)
    food--;
  if (food == at || post_food_end(r, t, food) < at) return false;
  size_t of = food - says(t, food - 1, "of");
  bool amount = false;
  for (size_t k = of > 3 ? of - 3 : 0; k < of; k++) {
    struct post_amount a = post_amount_at(t, k);
    amount = amount || (a.tokens > 0 && !a.bare && k + a.tokens == of);
  }
  if (!amount) return false;
  post_note(r, tokens_span(t, food, at - food), "taken back in the same breath");
  *out = post_cut_out(r, line, token_begin(t, food), token_begin(t, now), "");
  return true;
}

/* "20 g leek?? no, not leek, celery": the other one, as much of it. */
static bool not_but(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  enum { NEAR = 8 };
  for (size_t i = 2; i + 3 < t->count; i++) {
    if (!says(t, i, "not") || !is_word(t, i + 1) || !(is_mark(t, i + 2, ',') || says(t, i + 2, "but it's its"))) continue;
    size_t now = i + 3, was = i;
    while (says(t, now, "but it's its it is i mean")) now++;
    for (size_t k = i; k-- > 0 && k + NEAR > i && was == i;)
      if (is_word(t, k) && span_eq_fold(t->item[k].word, t->item[i + 1].word)) was = k;
    bool amount =
        was < i && was > 0 && is_word(t, was - 1) && (post_amount_at(t, was - 1).tokens > 0 || says(t, was - 1, "of"));
    for (size_t k = was > 2 ? was - 2 : 0; k < was && was < i; k++)
      amount = amount || k + post_amount_at(t, k).tokens == was;
    if (was == i || !amount || post_mention_at(r, t, now) == 0) continue;
    post_note(r, t->item[was].at, "taken back in the same breath");
    *out = post_cut_out(r, line, token_begin(t, was), token_begin(t, now), "");
    return true;
  }
  return false;
}

/* "2 tsp taurine - no, 1/4 tsp taurine": a "no" between marks takes back where the same food, or none, stands behind the
 * other amount. */
static size_t no_alone(struct post_reader *r, const struct tokens *t, size_t at) {
  if (at == 0 || !says(t, at, "no nope") || t->item[at - 1].kind != TOKEN_MARK || !is_mark(t, at + 1, ',')) return 0;
  struct post_amount a = post_amount_at(t, at + 2);
  size_t food = at + 2 + a.tokens + says(t, at + 2 + a.tokens, "of"), end = post_food_end(r, t, food);
  if (a.tokens == 0 || !(a.is_mass || a.is_volume)) return 0;
  for (size_t k = at; k-- > 0 && k + 6 > at && end > food;)
    if (is_word(t, k) && span_eq_fold(t->item[k].word, t->item[end - 1].word)) return 1;
  return end == food ? 1 : 0;
}

struct span post_correct_in_breath(struct post_reader *r, struct span before, struct span line) {
  enum { FAR = 6 };
  (void)before;
  struct tokens t = post_tokens(r, line);
  if (t.count > LINE_MOST_TOKENS) return line;
  struct span out = line;
  if (not_but(r, &t, line, &out)) return out;
  for (size_t i = 1; i + 1 < t.count; i++) {
    size_t slip = number_taken_back(&t, i); /* "seventy no sixty grams" */
    if (slip > 0) {
      post_note(r, tokens_span(&t, i - slip, slip), "taken back in the same breath");
      return post_cut_out(r, line, token_begin(&t, i - slip), token_begin(&t, i + 1), "");
    }
    size_t used = phrase_of(&t, i, CLASS_TAKES_BACK);
    if (used == 0) used = no_alone(r, &t, i);
    if (used == 0) continue;
    size_t now = past_aside(&t, i + used), old = i;
    struct post_amount a = post_amount_at(&t, now), was = {0};
    if (now < t.count && rate_taken_back(r, &t, i, now, line, &out)) return out;
    if (a.tokens == 0 && other_food(r, &t, i, now, line, &out)) return out;
    if (!(a.is_mass || a.is_volume)) continue;
    for (size_t k = i; k-- > 0 && k + FAR + 4 > i && !ends_sentence(&t, k);) {
      struct post_amount here = post_amount_at(&t, k);
      if (here.tokens == 0 || here.is_mass != a.is_mass || here.is_volume != a.is_volume || k + here.tokens + FAR < i)
        continue;
      old = k, was = here;
      if (k > 0 && post_amount_at(&t, k - 1).tokens == here.tokens + 1)
        old--, was = post_amount_at(&t, k - 1); /* "a tablespoon" */
      break;
    }
    if (old == i) continue;
    size_t food = now + a.tokens + says(&t, now + a.tokens, "of"), end = i;
    while (end > old && t.item[end - 1].kind == TOKEN_MARK) end--;
    post_note(r, tokens_span(&t, old, end - old), "taken back in the same breath");
    if (post_food_end(r, &t, food) > food) return post_cut_out(r, line, token_begin(&t, old), token_begin(&t, now), "");
    out = post_cut_out(r, line, token_begin(&t, end), token_end(&t, now + a.tokens - 1), "");
    const char *begin = out.p + (token_begin(&t, old) - line.p);
    return post_cut_out(r, out, begin, begin + tokens_span(&t, old, was.tokens).n,
                        arena_text(r->keep, tokens_span(&t, now, a.tokens)));
  }
  return line;
}
