/* The foods of one sentence, a segment each, and what is said of each. */
#include "base/num.h"
#include "foods/hazard_words.h"
#include "foods/search_words.h"
#include "post/line/post_line.h"

/* ---- one food ---- */

static bool says_fed(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says_a(t, i, CLASS_FEEDING)) return true;
  return false;
}

/* A number without a measure in a sentence that feeds nothing: "we have 2 questions", "he is 3 and has been done". */
static bool is_no_food(struct post_reader *r, const struct tokens *t, const struct segment *s, bool bulleted) {
  enum species animal;
  bool words = false;
  for (size_t i = s->from; i < s->to; i++) {
    bool word = is_word(t, i) && !token_is_a(&t->item[i], CLASS_CHATTER) && !token_is_a(&t->item[i], CLASS_CLAUSE_OPENER) &&
                t->item[i].word.n > 2;
    words = words || (word && !token_is_animal(&t->item[i], &animal) && quantity_at(t, i).fault == QUANTITY_NONE &&
                      !says_a(t, i, CLASS_NO_FOOD));
  }
  if (!words) return !s->value.is_mass && !s->value.is_volume; /* "a collie cross of 7", "thanks in advance x" */
  bool weight = s->value.bare || s->value.cannot || strcmp(s->value.unit, "kg") == 0 || strcmp(s->value.unit, "lb") == 0;
  if (r->told_whole && weight && !bulleted && !says_fed(t) && !post_knows_a_word(r, t, s->from, s->to) &&
      !post_names_food(r, t, s->from, s->to))
    return true;
  for (size_t i = s->from; i < s->amount; i++)
    if (says_a(t, i, CLASS_NO_FOOD_NUMBER)) return true;
  bool listed = s->amount == 0 && is_number(t, 0); /* a line that begins with its amount */
  if (bulleted || listed || says_fed(t) || !s->value.bare) return false;
  if (r->count > r->line_from && holds_a(t, s->amount, s->to, CLASS_FED_THING)) return false; /* "..., 1 multivitamin" */
  return !post_names_food(r, t, s->from, s->to);
}

static void leave_with_question(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code why) {
  bool danger = post_leave(r, w->whole, post_why_in_words(why, w->amount.cannot), true);
  if (!danger) post_ask_missing(r, w, words, why);
}

/* Is it the words before the amount that name the food? */
static bool food_stands_first(struct post_reader *r, const struct tokens *t, const struct segment *s, size_t behind) {
  size_t before = content_words(r, t, s->from, s->amount), after = content_words(r, t, behind, s->to);
  if (before == 0) return false;
  size_t rest = behind; /* "taurine 250 mg sprinkled over" */
  for (size_t used; rest < s->to && (used = phrase_of(t, rest, CLASS_SAYS_NOTHING_NEW)) > 0;) rest += used;
  if (after == 0 || rest >= s->to) return true;
  if (post_tells_only_how(t, behind, s->to) && post_names_food(r, t, s->from, s->amount)) return true;
  if (post_names_food(r, t, s->from, s->amount) && !post_names_food(r, t, behind, s->to) && is_mark(t, behind, '('))
    return true; /* "pork loin 230 g (trimmed)" */
  size_t mark = s->amount > 0 ? s->amount - 1 : 0;
  bool marked = s->amount > s->from && (is_mark(t, mark, ':') || is_mark(t, mark, '-') || is_mark(t, mark, '=') ||
                                        is_mark(t, mark, '(') || is_mark(t, mark, ','));
  if (!marked) return false;
  struct words w = {0};
  buf_init(&w.text, r->arena, 2000);
  post_gather(r, t, s->from, s->amount, &w);
  struct search_hit hit;
  struct span words = post_trimmed(buf_span(&w.text));
  return words.n > 0 && post_look_up(r, words, &hit) && hit.words_missed == 0 && hit.score >= 0.6;
}

/* The weight of a bag or a tub that is told; where it stands, 0 none. */
static size_t mass_in(const struct tokens *t, size_t from, size_t to, struct wanted *w) {
  for (size_t i = from; i < to; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (!a.is_mass) continue;
    a.low *= w->amount.low;
    a.high *= w->amount.low;
    w->package_tokens = a.tokens;
    w->amount = a;
    return i;
  }
  return 0;
}

/* Is there a food among the words before the amount that the words behind it do not say again? "egg shells from 3 eggs" */
static bool drops_a_food(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct span said) {
  for (size_t i = from; i < to; i++)
    for (size_t n = 1; n <= 3 && i + n <= to; n++) {
      struct span run = tokens_span(t, i, n), shorter = span_cut(run, 0, run.n > 4 ? run.n - 1 : run.n);
      struct search_hit hit;
      if (!is_word(t, i) || token_is_a(&t->item[i], CLASS_CHATTER) || token_is_a(&t->item[i], CLASS_MEAL) || run.n < 3)
        continue;
      if (i > 0 && says(t, i - 1, "i we") && says_a(t, i, CLASS_COOKING_VERB_OF_US)) continue;
      if (span_holds_fold(said, shorter) || frequency_at(t, i).tokens > 0) continue;
      if (says(t, i + n, "eats gets has is weighs loves goes")) continue; /* an animal called Pumpkin */
      if (post_look_up(r, run, &hit) && hit.exact_name && hit.words_missed == 0) return true;
    }
  return false;
}

/* "1 bag (16 oz)", "a tin instead of 200 g": the words of the other amount are none of the name. True: the name may stand
 * before it. */
static bool skip_second_amount(struct words *words, struct wanted *w, const struct segment *s, size_t package) {
  if (package > 0) {
    words->skip_from = package;
    words->skip_to = package + w->package_tokens;
  }
  if (s->old_tokens == 0) return false;
  w->said = w->whole;
  words->skip_from = s->old_amount;
  words->skip_to = s->old_amount + s->old_tokens;
  if (s->of_tin) words->cooked = "canned";
  return true;
}

static bool read_apart(struct post_reader *r, const struct tokens *t, const struct segment *s, const char **carried,
                       bool bulleted);

/* "Half a 400 g tin of chickpeas": those of a tin, where a table has them. */
static bool try_tinned(struct post_reader *r, const struct wanted *w, struct span name) {
  enum diag_code why;
  struct wanted tinned = *w;
  if (!w->amount.tinned || w->cooked || w->amount.cannot) return false;
  tinned.cooked = "canned";
  return post_try_words(r, &tinned, name, &why);
}

/* "a big pot with water": what it is cooked in, and no food. */
static bool is_cookware(const struct tokens *t, size_t from, size_t to) {
  bool any = false;
  for (size_t i = from; i < to && i < t->count; i++) {
    bool pot = says_a(t, i, CLASS_COOKWARE);
    any = any || pot;
    if (!pot && t->item[i].kind == TOKEN_WORD && !says_a(t, i, CLASS_BESIDE_COOKWARE)) return false;
  }
  return any;
}

static bool passes_cookware(struct post_reader *r, const struct tokens *t, size_t amount, size_t from, size_t to) {
  if (!is_cookware(t, from, to)) return false;
  post_claim(r, tokens_span(t, amount, to - amount), CLAIM_TOLD, 0, 0);
  return true;
}

/* "Oil: 1 tsp olive", "oil 5 ml olive" */
static bool is_of_oil(const struct tokens *t, const struct segment *s) {
  bool label = s->amount > 1 && is_mark(t, s->amount - 1, ':') && says(t, s->amount - 2, "oil oils");
  return label || (s->amount == s->from + 1 && says(t, s->from, "oil oils"));
}

static bool is_plain_water(struct span name) {
  for (size_t from = 0; from < name.n;) {
    size_t to = from;
    while (to < name.n && name.p[to] != ' ') to++;
    if (!word_in(span_cut(name, from, to), "water hot warm boiling cold tepid plain tap")) return false;
    from = to + 1;
  }
  return name.n > 0;
}

/* "cooked in 4 cups of water", "simmered with a cup of hot water" */
static bool is_cooking_water(const struct tokens *t, size_t amount, struct span name) {
  if (amount == 0 || !says(t, amount - 1, "in with") || !is_plain_water(name)) return false;
  bool cooks = says(t, amount - 1, "in");
  for (size_t i = 0; i < amount; i++)
    cooks =
        cooks || says(t, i, "cooked cook soaked soak boiled boil simmered simmer stewed made mixed blended thinned diluted");
  return cooks;
}

/* "sunflower per day" is "sunflower oil per day". */
static void add_oil(struct post_reader *r, struct buf *words) {
  struct span said = arena_span(r->arena, buf_span(words));
  struct tokens t = post_tokens(r, said);
  size_t n = said.n;
  for (size_t i = t.count; i-- > 1;)
    if (frequency_at(&t, i).tokens > 0) n = (size_t)(token_begin(&t, i) - said.p);
  while (n > 0 && memchr(" ,", said.p[n - 1], 2)) n--;
  words->n = 0;
  buf_addf(words, "%.*s oil%.*s", (int)n, said.p, (int)(said.n - n), said.p + n);
}

static void leave_without_often(struct post_reader *r, const struct wanted *w, bool unread) {
  if (!post_leave(r, w->whole, unread ? POST_OFTEN_UNREAD : "the post does not say how often", true))
    post_ask(r, 2, "How often, and how much of it, is '%.*s' fed?", SPAN_ARG(post_quote(r, w->said)));
}

static bool is_times(const struct tokens *t, size_t at) { return is_mark(t, at, 'x') || says(t, at, "x"); }

/* "7 x 300 g chicken", "3 x a raw egg" of a week: so often; of no period, so many times as much. */
static void counted_in_week(struct post_reader *r, const struct tokens *t, const struct segment *s, struct wanted *w,
                            const char *period) {
  size_t times = s->amount, one = times + 2;
  bool before = times > 1 && is_times(t, times - 1) && is_number(t, times - 2); /* "3 x a raw egg" */
  if (before) times -= 2, one = s->amount;
  if (!is_number(t, times) || !is_times(t, times + 1)) return;
  double many = t->item[times].value;
  struct post_amount a = post_amount_at(t, one);
  if (a.tokens == 0 || many != floor(many) || !(many >= 1)) return;
  if (before && strcmp(period, "a week") != 0) w->times = many;
  if (strcmp(period, "a week") != 0 || many > 7 || w->often != period) return;
  if (!before && !a.is_mass && !a.is_volume && !a.unit[0]) return; /* "2 x 3 eggs" is no way to write */
  w->amount = a;
  struct buf b;
  buf_init(&b, r->keep, 32);
  num_sig(&b, many, 2);
  buf_adds(&b, many == 1 ? " time a week" : " times a week");
  w->often = many == 7 ? "daily" : buf_text(&b);
}

/* "fish oil 0.5 g on top": of what is in the bowl. */
static bool goes_on_top(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i + 1 < to; i++)
    if (says(t, i, "on") && says(t, i + 1, "top") &&
        (i + 2 >= to || t->item[i + 2].kind == TOKEN_MARK || says(t, i + 2, "too daily")))
      return true;
  return false;
}

/* "Oil: flax 10 ml" */
static bool stands_under_oil(const struct tokens *t, size_t from) {
  return from >= 2 && is_mark(t, from - 1, ':') && says(t, from - 2, "oil oils");
}

/* The words before the amount. */
static void gather_before(struct post_reader *r, const struct tokens *t, const struct segment *s, struct words *words) {
  bool behind_old =
      s->old_tokens > 0 && !post_names_food(r, t, s->from, s->old_amount); /* "I swap in a tin of sardines (120 g)" */
  post_gather(r, t, behind_old ? s->old_amount : s->from, s->amount, words);
  struct span bare = post_trimmed(buf_span(&words->text)); /* "Salmon oil - " */
  if (bare.n > 0) words->text.n = (size_t)(bare.p + bare.n - words->text.p);
  if (stands_under_oil(t, s->from) && words->text.n > 0 && !span_holds_fold(buf_span(&words->text), SPAN_LIT("oil")))
    buf_adds(&words->text, " oil");
}

static void one_food(struct post_reader *r, const struct tokens *t, struct segment s, const char **carried, bool bulleted) {
  if (s.skip || s.from >= t->count) return;
  if (s.same) {
    post_repeat_meal(r, t, &s);
    return;
  }
  if (s.amount == SIZE_MAX) {
    post_carry_days(r, t, &s, carried);
    post_take_amountless(r, t, &s, bulleted);
    return;
  }
  struct wanted w = {.amount = s.value, .whole = tokens_span(t, s.from, s.to - s.from), .often = "", .near = "", .times = 1};
  size_t behind = s.amount + s.value.tokens, to = s.to;
  w.times = post_times_behind(t, behind, &to);
  if (s.amount > 0 && says_a(t, s.amount - 1, CLASS_ABOUT)) w.amount.about = true;
  w.near = post_take_near(r, s.amount, &w.amount);
  size_t package = s.value.cannot ? mass_in(t, behind, to, &w) : 0; /* "1 bag (16 oz)" */
  for (size_t i = s.from; i < s.amount; i++)                        /* "Weekly row: sardines in water, 85 g" */
    if (is_mark(t, i, ':') && !post_names_food(r, t, s.from, i) && post_names_food(r, t, i + 1, s.amount)) s.from = i + 1;
  bool front = food_stands_first(r, t, &s, behind);
  w.said = front ? w.whole : tokens_span(t, s.amount, s.to - s.amount);
  struct words words = {0};
  buf_init(&words.text, r->arena, 4 * LINE_MOST_BYTES);
  front = skip_second_amount(&words, &w, &s, package) || front;
  double many = w.times == 1 && words.skip_to == 0 ? post_how_many_of(t, &s, &words) : 0;
  if (many > 0) w.times = many;
  if (words.skip_to == 0 && s.value.bare) post_dose_of_each(t, &s, &w, &words);
  const char *before = post_often_in(r, t, s.said_from, s.amount), *after = post_often_in(r, t, behind, to), *day = "";
  struct tokens begin = tokens_part(t, s.from, s.amount); /* "Mon-Fri 400 g lamb, Sun 1 kg necks" */
  if (!before[0] && begin.count > 0 && post_day_prefix(r, &begin, &day) > 0) before = day;
  if (before[0] && !front) *carried = before;
  if (front) {
    gather_before(r, t, &s, &words);
    if (words.text.n > 0 && behind < to) buf_addc(&words.text, ',');
  } else if (before[0] && !after[0]) {
    w.often = before;
  }
  post_gather(r, t, behind, to, &words);
  post_unit_behind(r, &w, &words);
  if (!front && is_of_oil(t, &s) && !span_holds_fold(buf_span(&words.text), SPAN_LIT("oil"))) add_oil(r, &words.text);
  w.cooked = words.cooked;
  if (!after[0] && post_each_morning(t, s.from, s.to)) after = w.often = "daily";
  if (post_fed_at_each_meal(r, t, &s, to, carried) && !before[0] && !after[0]) after = w.often = "at each meal";
  bool batch = r->makes_days > 0 || r->makes_meals > 0;
  if (!before[0] && !after[0] && batch && (post_says_also(t) || goes_on_top(t, s.from, s.to))) after = w.often = "daily";
  const char *period = r->period;
  if (strcmp(period, "a week") == 0 && r->any_day && post_daily_beside(t)) period = "daily";
  if (strcmp(period, "at each meal") == 0 && post_at_one_meal(t, s.said_from, to)) period = "daily";
  const char *lasts = r->lasts;
  r->lasts = ""; /* of the first food */
  bool others = post_says_other_days(t, s.said_from, to);
  if (others && !before[0] && post_says_other_days(t, s.said_from, s.amount))
    *carried = "on the other days"; /* "..., with 90 g of potato" */
  if (others && !before[0] && !after[0])
    w.often = "on the other days";
  else if (front && before[0] && !after[0] && !span_holds_fold(post_trimmed(buf_span(&words.text)), span_of(before)))
    w.often = before;
  else if (!before[0] && !after[0])
    w.often = lasts[0] ? lasts : (*carried)[0] ? *carried : r->days[0] ? r->days : period;
  if (!before[0] && !after[0]) counted_in_week(r, t, &s, &w, period);
  struct span name = post_trimmed(buf_span(&words.text));
  if (words.count == 0 || name.n == 0 || content_words(r, t, front ? s.from : behind, to) == 0) {
    if (!front && content_words(r, t, s.from, to) == 0) return; /* "4 kg", a weight with no food to it */
  }
  if (after[0] && !w.often[0] && !span_holds_fold(name, span_of(after))) w.often = after; /* "100 g a week of beef liver" */
  enum diag_code why = DIAG_CODE_COUNT;
  if (is_no_food(r, t, &s, bulleted)) return;
  if (s.value.bare && passes_cookware(r, t, s.amount, behind, to)) return;
  if (is_cooking_water(t, s.amount, name)) return;
  bool unread = !before[0] && !after[0] && !lasts[0] && post_often_left_unread(t, s.said_from, to);
  if (s.trial && (unread || post_now_and_then(t, s.said_from, to))) return;
  if (unread || post_now_and_then(t, s.said_from, to)) {
    leave_without_often(r, &w, unread);
    return;
  }
  if (!front && s.said_from == s.from && drops_a_food(r, t, s.from, s.amount, name)) {
    if (!s.trial && !read_apart(r, t, &s, carried, bulleted)) leave_with_question(r, &w, name, DIAG_CODE_COUNT);
    return;
  }
  if (post_mixture(r, &w, name)) return;
  if (try_tinned(r, &w, name)) return;
  if (!w.amount.cannot && post_try_line(r, &w, name, &why)) return;
  const char *told = w.often[0] ? w.often : after[0] ? after : before;
  struct core_range core = {front ? s.from : behind, front ? s.amount : to, front ? behind : to, to};
  if (!w.amount.cannot && post_try_core(r, &w, t, core, told)) return;
  if (!s.trial && !read_apart(r, t, &s, carried, bulleted)) leave_with_question(r, &w, name, why);
}

/* A word that tells more than how a food was cut, cooked or given. */
static bool names_something(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (is_word(t, i) && t->item[i].word.n > 3 && !token_is_a(&t->item[i], CLASS_CHATTER) && !says_a(t, i, CLASS_MAY_GO) &&
        !says_a(t, i, CLASS_SHAPE_MAY_GO) && !says_a(t, i, CLASS_CUT_OF_ONE))
      return true;
  return false;
}

static void leave_beside(struct post_reader *r, struct span text) {
  if (!post_leave(r, text, "no food record fits these words, and the post does not say how much", true))
    post_ask(r, 1.5, "What is '%.*s', and is it fed? How much of it a day?", SPAN_ARG(post_quote(r, text)));
}

/* "..., she weighs 3.6 kg", "..., ground (skin removed from half)": who it is for and how it was made name no food. */
static bool tells_no_food(struct post_reader *r, const struct tokens *t, size_t from, size_t to,
                          const struct post_amount *amount) {
  bool measured = amount && !amount->bare;
  bool told = false;
  if (measured || holds_a(t, from, to, CLASS_FED_THING)) return false;
  for (size_t i = from; i < to; i++) {
    if (post_mention_at(r, t, i) > 0) return false;
    told = told || phrase_of(t, i, CLASS_TELLS_NO_FOOD) > 0;
  }
  return told;
}

/* "1/4 tsp kelp, iodine drops": what stands before a comma is understood by itself, and the rest is told or asked. */
static bool read_apart(struct post_reader *r, const struct tokens *t, const struct segment *s, const char **carried,
                       bool bulleted) {
  for (size_t i = s->amount + s->value.tokens; i + 1 < s->to; i++) {
    struct segment front = *s, behind = {.from = i + 1, .to = s->to, .said_from = i + 1, .amount = SIZE_MAX, .vague = true};
    size_t items = r->count, asked = r->question_count;
    if ((!is_mark(t, i, ',') && !is_mark(t, i, ';')) || content_words(r, t, i + 1, s->to) == 0) continue;
    if (frequency_at(t, i + 1).tokens > 0)
      return false; /* "..., every other day 500 g of pork" may govern what is before it */
    front.to = i;
    front.trial = true;
    one_food(r, t, front, carried, bulleted);
    if (r->count == items || r->item[r->count - 1].kind != ITEM_FOOD) {
      r->question_count = asked;
      continue;
    }
    size_t at = post_find_amount(r, t, i + 1, s->to, &behind.value), read = r->count;
    if (at < s->to) behind.amount = at;
    struct span said = tokens_span(t, i + 1, s->to - i - 1);
    bool danger = at >= s->to && hazard_words_danger(r->lib, said, SPECIES_BOTH, r->arena) != NO_INDEX;
    bool food = post_names_food(r, t, i + 1, s->to) || holds_a(t, i + 1, s->to, CLASS_FED_THING);
    bool told = tells_no_food(r, t, i + 1, s->to, at < s->to ? &behind.value : NULL);
    if (danger)
      leave_beside(r, said); /* "half an avocado, macadamia nuts a few" */
    else if (told)
      post_note(r, said, "mentioned, but not taken as fed");
    else if (at < s->to || food)
      one_food(r, t, behind, carried, bulleted); /* and not of "half a slice of toast, dry" */
    else if (names_something(t, i + 1, s->to))
      leave_beside(r, tokens_span(t, i + 1, s->to - i - 1));
    bool rest = danger || (r->count > read && r->item[r->count - 1].kind == ITEM_FOOD);
    struct buf unread;
    buf_init(&unread, r->arena, 400);
    buf_addf(&unread, "what is written behind it could not be read: '%.*s'",
             SPAN_ARG(post_quote(r, tokens_span(t, i + 1, s->to - i - 1))));
    bool own =
        at >= s->to && holds_a(t, i + 1, s->to, CLASS_FED_THING); /* "1.2 g calcium, a kelp tab": asked about by itself */
    for (size_t k = items; k < read && !rest && !told && !own; k++) post_doubt(r, k, buf_text(&unread));
    return true;
  }
  return false;
}

/* "a pot for both, plus 250 mg of taurine each": no part of the pot. */
static bool is_for_each_of_them(struct post_reader *r, const struct tokens *t, const struct segment *s) {
  size_t last = s->to < t->count ? s->to : t->count;
  if (s->amount == SIZE_MAX || s->skip || s->same || s->old_tokens > 0) return false;
  while (last > s->amount && t->item[last - 1].kind == TOKEN_MARK) last--;
  bool dose = strcmp(s->value.unit, "mg") == 0 || strcmp(s->value.unit, "IU") == 0 || strcmp(s->value.unit, "mcg") == 0;
  if (last <= s->amount + s->value.tokens + !dose || !says(t, last - 1, "each apiece")) return false;
  if (says(t, last - 2, "drained net weight")) return false; /* "2 tins (102 g drained each)" */
  for (size_t i = s->amount + s->value.tokens; i + 1 < last; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.is_mass && i + a.tokens == last - 1 && s->value.low >= 2 && !s->value.is_mass) return false;
  }
  if (says(t, last - 2, "third half quarter fifth sixth thirds quarters") || is_mark(t, last - 2, '%'))
    return false; /* of a pot */
  post_claim(r, t->item[last - 1].at, CLAIM_TOLD, 0, 0);
  return true;
}

/* Its words are accounted for by the lines that came of it. */
static void claim_segment(struct post_reader *r, const struct tokens *t, const struct segment *s, size_t items) {
  struct span whole = s->from < t->count ? tokens_span(t, s->said_from, s->to - s->said_from) : (struct span){"", 0};
  if (whole.n == 0) return;
  bool ditto = false; /* that was repeated nowhere: asked about */
  for (size_t i = s->from; i < s->to && s->same; i++) ditto = ditto || says(t, i, "ditto");
  bool same = s->same && (r->count > items || (!ditto && !post_names_food(r, t, s->from, s->to)));
  if (s->skip || same) post_claim(r, whole, CLAIM_TOLD, 0, 0);
  if (r->count == items || s->amount == SIZE_MAX) return;
  post_claim(r, whole, CLAIM_LINE, items, r->count);
  post_claim(r, tokens_span(t, s->amount, s->value.tokens), CLAIM_AMOUNT, items, r->count);
  if (s->old_tokens > 0) post_claim(r, tokens_span(t, s->old_amount, s->old_tokens), CLAIM_AMOUNT, items, r->count);
}

/* "beef 200, mixed veg 60 (cooked) twice a day": a kind of food and a bare number among foods, of which nobody took a word.
 */
static void tell_kind_unread(struct post_reader *r, const struct tokens *t, const struct segment *s, size_t items,
                             size_t left) {
  static const double LEAST = 5; /* fewer may be pieces, meals or days */
  bool kind = false;
  if (r->count > items || r->left_count > left || s->amount == SIZE_MAX || s->skip || s->same || r->count == r->line_from)
    return;
  if (!s->value.bare || s->value.by_word || !(s->value.low >= LEAST) || not_an_amount(t, s->amount) > 0) return;
  for (size_t i = s->from; i < s->amount; i++) {
    if (frequency_at(t, i).tokens > 0 || is_mark(t, i, ':')) return;
    kind = kind || (is_word(t, i) && says_a(t, i, CLASS_KIND_OF_FOOD));
  }
  if (!kind || s->amount - s->from > 4) return;
  struct span text = tokens_span(t, s->from, s->to - s->from);
  if (!post_leave(r, text, "the post does not say how much", true))
    post_ask(r, 2.5, "How much is '%.*s', in grams?", SPAN_ARG(post_quote(r, text)));
}

void post_items(struct post_reader *r, struct tokens *t, bool bulleted) {
  struct segments *s = arena_raw(r->arena, 1, sizeof *s); /* of the room for 64 a few are used */
  s->count = 0;
  const char *carried = "";
  struct frequency first = t->count > 0 ? frequency_at(t, 0) : (struct frequency){0};
  if (first.tokens > 0 && !first.refuse && first.tokens < t->count) /* "On Fridays no meat, he gets 300 g of cod" */
    carried = post_often_in(r, t, 0, first.tokens);
  size_t then = says(t, 0, "then and plus also") ? 1 : 0; /* "Then daily I add 1 ml of oil and a pinch of salt" */
  struct frequency of_all = then > 0 ? frequency_at(t, then) : (struct frequency){0};
  if (of_all.tokens > 0 && !of_all.refuse && says(t, then + of_all.tokens, "i we he she they it"))
    carried = post_often_in(r, t, then, then + of_all.tokens);
  for (size_t i = 0; i < t->count; i++) /* "gets through a pack of pork and a bag of spinach a week" */
    if ((says(t, i, "gets goes get go") && says(t, i + 1, "through")) || (says(t, i, "i we") && says(t, i + 1, "buy order")))
      carried = post_often_in(r, t, 0, t->count);
  post_hear_near(r, t);
  post_cut(r, t, s);
  if (!carried[0]) carried = post_often_of_all(r, t, s);
  for (size_t i = 0; i < s->count; i++) {
    size_t items = r->count, left = r->left_count;
    const char *both = carried[0] ? "" : post_days_of_both(r, t, s, i), *here = both[0] ? both : carried;
    bool own = r->own;
    r->own = own || is_for_each_of_them(r, t, &s->at[i]);
    r->at_meals = s->at[i].amount != SIZE_MAX && post_is_at_meals(t, s->at[i].amount);
    one_food(r, t, s->at[i], &here, bulleted);
    r->own = own;
    r->at_meals = false;
    tell_kind_unread(r, t, &s->at[i], items, left);
    if (both[0] && s->at[i].value.low != s->at[i + 1].value.low)
      for (size_t k = items; k < r->count; k++) post_doubt(r, k, "the days named after the next food taken for both");
    if (!both[0]) carried = here;
    bool of_bracket = s->at[i].skip && i + 1 < s->count && s->at[i + 1].said_from <= s->at[i].from;
    if (!of_bracket) claim_segment(r, t, &s->at[i], items); /* what stands before a bracket belongs to what is in it */
  }
}
