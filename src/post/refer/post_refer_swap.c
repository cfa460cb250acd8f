/* A food that another one takes the place of on some days or at one meal, in any order of the words: "one Sunday on two one
 * replaces the turkey by 6 eggs", "Mon, Wed and Fri the PM beef becomes salmon, same mass", "evening: the chicken is changed
 * to cod of the same weight, the others as in the morning". */
#include "base/num.h"
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

struct swap {
  size_t from, to;          /* the tokens that say it */
  size_t old_at, old_end;   /* the food that goes */
  struct span food, amount; /* the one that comes; its amount, "" not told */
  bool same;                /* as much of it, as the post says */
};

static bool is_comma(const struct tokens *t, size_t at) {
  return is_mark(t, at, ',') || is_mark(t, at, '(') || is_mark(t, at, '-');
}

static bool is_meal(const struct tokens *t, size_t at) {
  return is_word(t, at) && (is_meal_word(t->item[at].word) || token_is_a(&t->item[at], CLASS_MEAL) ||
                            says(t, at, "morning evening am pm night noon midday"));
}

/* ---- the food that comes ---- */

/* "of the same weight", "(same mass)", "gram for gram", "like for like", "in equal weight": the tokens; 0. */
static size_t as_much_at(const struct tokens *t, size_t at) {
  size_t from = at;
  bool bracket = is_mark(t, at, '(');
  while (is_comma(t, at)) at++;
  if (says(t, at, "gram grams weight like ounce pound piece") && says(t, at + 1, "for by") && is_word(t, at + 2)) {
    at += 3;
  } else {
    while (says(t, at, "of in with at the a an to also but and by")) at++;
    if (!says(t, at, "same equal identical") || !says_a(t, at + 1, CLASS_AS_MUCH)) return 0;
    at += 2;
  }
  if (bracket && is_mark(t, at, ')')) at++;
  return at - from;
}

/* "6 eggs", "salmon, same mass", "the same weight of duck", "as much cod": what comes from 'at' on; where it ends, 'at' it
 * is none. */
static size_t new_food(struct story *st, const struct tokens *t, size_t at, struct swap *s) {
  size_t from = at, same = as_much_at(t, at), end;
  s->amount = (struct span){"", 0};
  s->same = same > 0;
  if (same > 0) {
    at += same;
    if (says(t, at, "of")) at++;
  } else if (says(t, at, "as") && says(t, at + 1, "much many")) {
    at += 2, s->same = true;
  } else {
    struct post_amount a = at < t->count ? post_amount_at(t, at) : (struct post_amount){0};
    if (a.tokens > 0 && !a.is_percent) {
      s->amount = tokens_span(t, at, a.tokens);
      at += a.tokens;
    }
    while (says(t, at, "of the some")) at++;
  }
  end = post_food_end(st->r, t, at);
  for (size_t k = at + 1; k < end; k++)
    if (as_much_at(t, k) > 0) end = k; /* "lamb gram for gram" */
  if (end == at) return from;
  s->food = tokens_span(t, at, end - at);
  same = s->amount.n == 0 && !s->same ? as_much_at(t, end) : 0;
  s->same = s->same || same > 0;
  if (same > 0 || s->amount.n > 0) return end + same;
  size_t behind = is_comma(t, end) ? end + 1 : end;
  struct post_amount a = behind < t->count ? post_amount_at(t, behind) : (struct post_amount){0};
  if (a.tokens == 0 || a.bare || a.is_percent) return end;
  s->amount = tokens_span(t, behind, a.tokens);
  return behind + a.tokens + (is_mark(t, end, '(') && is_mark(t, behind + a.tokens, ')'));
}

/* ---- the food that goes ---- */

static bool is_day_word(const struct tokens *t, size_t at) {
  unsigned days;
  return frequency_at(t, at).tokens > 0 || post_days_named(t, at, &days) > 0;
}

/* The words before 'verb' that name a food, without times and articles; false where they name none. */
static bool food_before(struct story *st, const struct tokens *t, size_t verb, size_t *from, size_t *end) {
  size_t at = verb;
  while (at > 0 && is_word(t, at - 1) && verb - at < 6 &&
         !says(t, at - 1, "one i we you they and then when where on except but with save only") && !is_day_word(t, at - 1) &&
         !says(t, at - 1, "day days week weeks"))
    at--;
  *from = at;
  while (at < verb && (says(t, at, "the his her my our its a an") || is_meal(t, at))) at++;
  *end = verb;
  return at < verb && post_names_food(st->r, t, at, verb);
}

/* Behind 'at': the food that goes, up to one of the words of 'joint', where there are any. */
static bool food_behind(struct story *st, const struct tokens *t, size_t at, const char *joint, size_t *from, size_t *end) {
  enum { FAR = 6 };
  while (says(t, at, "the his her my our its out up") || is_meal(t, at)) at++;
  size_t to = at;
  while (to < t->count && is_word(t, to) && to < at + FAR && !(joint[0] && says(t, to, joint)) && !is_day_word(t, to)) to++;
  *from = at;
  *end = to;
  if (joint[0] && (!says(t, to, joint) || to == at)) return false;
  return to > at && post_names_food(st->r, t, at, to);
}

static size_t subject_begin(const struct tokens *t, size_t verb) {
  while (verb > 0 && says(t, verb - 1, "one i we you they he she gets get will then always just usually")) verb--;
  return verb;
}

/* "Replace OLD by NEW", "swap OLD for NEW"; "NEW replaces OLD". */
static bool swap_of_verb(struct story *st, const struct tokens *t, size_t k, struct swap *s) {
  if (!says_a(t, k, CLASS_SWAPS)) return false;
  bool passive = k > 0 && says(t, k - 1, "is are be gets get being becomes");
  bool short_passive = !passive && says(t, k, "replaced swapped exchanged substituted changed switched traded") &&
                       says(t, k + 1, "by with for to into against");
  size_t begin, end;
  if (short_passive && food_before(st, t, k, &s->from, &s->old_end)) { /* "chicken replaced with salmon" */
    s->old_at = s->from;
    s->to = new_food(st, t, k + 2, s);
    return s->to > k + 2;
  }
  if (passive) {
    if (!says(t, k + 1, "by with for to into against") || !food_before(st, t, k - 1, &s->from, &s->old_end)) return false;
    s->old_at = s->from;
    s->to = new_food(st, t, k + 2, s);
    return s->to > k + 2;
  }
  if (food_behind(st, t, k + 1, "by with for to into against", &begin, &end)) {
    s->from = subject_begin(t, k), s->old_at = begin, s->old_end = end;
    s->to = new_food(st, t, end + 1, s);
    return s->to > end + 1;
  }
  return false;
}

/* "OLD becomes NEW", "OLD gives way to NEW", "OLD turns into NEW". */
static bool swap_of_becoming(struct story *st, const struct tokens *t, size_t k, struct swap *s) {
  size_t used = phrase_of(t, k, CLASS_BECOMES);
  if (used == 0 || !food_before(st, t, k, &s->from, &s->old_end)) return false;
  s->old_at = s->from;
  s->to = new_food(st, t, k + used, s);
  return s->to > k + used;
}

/* "6 eggs replace the turkey", "cod takes the place of the beef, same weight", "cod stands in for it". */
static bool swap_of_standing_in(struct story *st, const struct tokens *t, size_t k, struct swap *s) {
  size_t used = phrase_of(t, k, CLASS_TAKES_ITS_PLACE), begin, end;
  if (used == 0 || !food_behind(st, t, k + used, "", &begin, &end)) return false;
  size_t from = k;
  while (from > 0 && t->item[from - 1].kind != TOKEN_MARK && k - from < 8 && !says(t, from - 1, "and then on when") &&
         !is_day_word(t, from - 1))
    from--;
  struct tokens before = {t->item, k};
  for (; from < k; from++)
    if (new_food(st, &before, from, s) == k) break;
  if (from >= k) return false;
  size_t same = s->amount.n == 0 ? as_much_at(t, end) : 0;
  s->from = from, s->old_at = begin, s->old_end = end, s->to = end + same;
  s->same = s->same || same > 0;
  return true;
}

/* ---- how much the other one was ---- */

struct told_part {
  size_t from, to; /* tokens between commas */
};
static bool next_part(const struct tokens *t, struct told_part *p) {
  size_t at = p->to;
  while (at < t->count && (t->item[at].kind == TOKEN_MARK || says(t, at, "and plus")) && !is_mark(t, at, '(')) at++;
  p->from = p->to = at;
  while (p->to < t->count && !is_mark(t, p->to, ',') && !is_mark(t, p->to, ';') && !is_mark(t, p->to, ':') &&
         !is_mark(t, p->to, '+') && !says(t, p->to, "and plus"))
    p->to++;
  return p->to > p->from;
}

/* The amount that a part tells, of a measure or of pieces. */
static struct span amount_in(const struct tokens *t, struct told_part p) {
  for (size_t k = p.from; k < p.to; k++) {
    struct post_amount a = post_amount_at(t, k);
    if (a.tokens > 0 && !a.is_percent && !a.cannot && not_an_amount(t, k) == 0 && (!a.bare || is_number(t, k)))
      return tokens_span(t, k, a.tokens);
  }
  return (struct span){"", 0};
}

/* The meal that a sentence begins with; the token behind its head, 0 none. */
static size_t meal_head(const struct tokens *t, struct span *meal) {
  enum { FAR = 5 };
  for (size_t k = 0; k < FAR && k + 1 < t->count; k++) {
    if (!is_word(t, k)) return 0;
    bool meal_word = is_meal(t, k);
    if (!meal_word && !says(t, k, "in the at for every each on his her as a of")) return 0;
    if (!meal_word) continue;
    *meal = t->item[k].word;
    size_t behind = k + 1;
    while (is_mark(t, behind, ':') || is_mark(t, behind, ',') || is_mark(t, behind, '-') || is_mark(t, behind, '=') ||
           says(t, behind, "is it he she gets has"))
      behind++;
    return behind;
  }
  return 0;
}

/* The amount of the food that goes, where the text tells one; "". */
static struct span amount_of_old(struct story *st, size_t i, struct span old) {
  struct span found = {"", 0}, meal = {"", 0};
  bool several = false;
  for (size_t k = 0; k < st->count; k++) {
    const struct tokens *t = &st->s[k].t;
    struct told_part p = {0, 0};
    size_t head = meal_head(t, &meal);
    bool of_meal = head > 0 && net_has_word(old, meal);
    while (k != i && next_part(t, &p)) {
      struct span said = tokens_span(t, p.from, p.to - p.from), amount = amount_in(t, p);
      if (amount.n == 0 || !refer_same_food(old, said)) continue;
      if (of_meal) return amount;
      several = several || (found.n > 0 && !span_eq_fold(found, amount));
      if (found.n == 0) found = amount;
    }
  }
  return several ? (struct span){"", 0} : found;
}

/* ---- a meal that is as another one but for it ---- */

/* "the others as in the morning", "rest unchanged", "everything else same". */
static bool others_same(const struct tokens *t, struct span own_meal, struct span *meal) {
  bool found = false;
  for (size_t k = 0; k < t->count; k++) {
    bool others = says(t, k, "others rest remainder remaining same ditto likewise") ||
                  (says(t, k, "everything all things other") && says(t, k + 1, "else things"));
    if (!found && !others) continue;
    found = true;
    if (is_meal(t, k) && !span_eq_fold(t->item[k].word, own_meal)) *meal = t->item[k].word;
  }
  return found;
}

/* The sentence whose foods that meal repeats: the one that 'meal' heads, else the last before it that names the food. */
static size_t meal_repeated(const struct story *st, size_t i, struct span meal, struct span old, size_t *from) {
  for (size_t k = i; k-- > 0;) {
    struct span head = {"", 0};
    size_t behind = meal_head(&st->s[k].t, &head);
    if (behind == 0 || !post_any_amount(&st->s[k].t, behind)) continue;
    if (meal.n > 0 ? !span_eq_fold(head, meal) : !refer_same_food(old, st->s[k].text)) continue;
    *from = behind;
    return k;
  }
  return st->count;
}

/* "Evening: the chicken is changed to cod of the same weight, the others as in the morning" with all of its foods. */
static bool write_meal(struct story *st, size_t i, const struct swap *s) {
  const struct tokens *t = &st->s[i].t;
  struct span own = {"", 0}, meal = {"", 0};
  size_t head = meal_head(t, &own), from = 0;
  if (head == 0) return false;
  struct span old = tokens_span(t, s->old_at, s->old_end - s->old_at);
  bool said = others_same(t, own, &meal);
  size_t k = meal_repeated(st, i, meal, old, &from);
  if (k == st->count || !(said || s->same)) return false;
  const struct tokens *source = &st->s[k].t;
  struct buf b;
  buf_init(&b, st->r->arena, 2 * st->s[k].text.n + 2 * st->s[i].text.n + 200);
  size_t name = head;
  while (name > 0 && !is_word(t, name - 1)) name--;
  buf_addf(&b, "%.*s: ", SPAN_ARG(tokens_span(t, 0, name)));
  bool any = false, first = true;
  for (struct told_part p = {0, from}; next_part(source, &p); first = false) {
    struct span part = tokens_span(source, p.from, p.to - p.from),
                amount = s->amount.n > 0 ? s->amount : amount_in(source, p);
    bool swapped = amount.n > 0 && refer_same_food(old, part);
    any = any || swapped;
    buf_adds(&b, first ? "" : ", ");
    if (swapped)
      buf_addf(&b, "%.*s %.*s", SPAN_ARG(amount), SPAN_ARG(s->food));
    else
      buf_add(&b, part);
  }
  if (!any) return false;
  refer_write(st, i, buf_text(&b));
  return true;
}

/* "Evening: 80 g duck, rest ditto": what the duck stands for is the one food of the other meal with its weight; where none
 * has it, or several, it is asked. */
static void rest_same(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  struct span own = {"", 0}, meal = {"", 0}, amount = {"", 0}, here;
  size_t head = meal_head(t, &own), from = 0, rest = head, end, same = 0;
  while (rest < t->count && !(says(t, rest, "rest others remainder") && rest > head)) rest++;
  for (end = rest + 1; end < t->count && is_word(t, end); end++)
    same += says(t, end, "same ditto likewise unchanged idem as");
  if (head == 0 || rest >= t->count || same == 0 || end < t->count) return;
  (void)others_same(t, own, &meal);
  struct tokens before = {t->item, rest};
  struct told_part mine = {0, head};
  if (!next_part(&before, &mine)) return;
  amount = amount_in(&before, mine);
  here = tokens_span(t, mine.from, mine.to - mine.from);
  if (amount.n == 0 || (next_part(&before, &mine) && !says(t, mine.from, "the"))) return;
  size_t k = i;
  while (k-- > 0) {
    struct span other = {"", 0};
    from = meal_head(&st->s[k].t, &other);
    if (from > 0 && post_any_amount(&st->s[k].t, from) && (meal.n == 0 || span_eq_fold(other, meal))) break;
  }
  if (k >= i) return;
  const struct tokens *source = &st->s[k].t;
  size_t equal = 0;
  struct buf b;
  buf_init(&b, st->r->arena, 2 * st->s[k].text.n + 2 * st->s[i].text.n + 100);
  buf_addf(&b, "%.*s: %.*s", SPAN_ARG(own), SPAN_ARG(here));
  for (struct told_part p = {0, from}; next_part(source, &p);) {
    if (span_eq_fold(amount_in(source, p), amount)) {
      equal++;
      continue;
    }
    buf_addf(&b, ", %.*s", SPAN_ARG(tokens_span(source, p.from, p.to - p.from)));
  }
  if (equal != 1)
    buf_init(&b, st->r->arena, st->s[i].text.n + 100), buf_addf(&b, "%.*s: %.*s", SPAN_ARG(own), SPAN_ARG(here));
  if (equal != 1) {
    st->r->line = st->s[i].line;
    post_ask(st->r, 3.2, "You write '%.*s': which foods of the other meal are fed again? None was counted again.",
             SPAN_ARG(tokens_span(t, rest, t->count - rest)));
    st->r->line = 0;
    refer_beside(st, i, arena_span(st->r->keep, here), "counted without the rest, which is as at another meal");
  }
  refer_write(st, i, buf_text(&b));
}

/* ---- the sentence ---- */

static bool tells_some_days(const struct tokens *t) {
  unsigned days;
  for (size_t k = 0; k < t->count; k++) {
    struct frequency f = frequency_at(t, k);
    if (f.tokens > 0 && f.times_per_28 < CALENDAR_DAYS && !f.refuse) return true;
    if (post_days_named(t, k, &days) > 0) return true;
  }
  return false;
}

static bool write_some_days(struct story *st, size_t i, const struct swap *s) {
  const struct tokens *t = &st->s[i].t;
  if (!tells_some_days(t)) return false;
  struct span old = tokens_span(t, s->old_at, s->old_end - s->old_at), amount = s->amount;
  if (amount.n == 0) amount = amount_of_old(st, i, old);
  if (amount.n == 0) return false;
  size_t bare = s->old_at;
  while (bare + 1 < s->old_end && (says(t, bare, "the his her my our a an") || is_meal(t, bare))) bare++;
  struct buf b;
  buf_init(&b, st->r->arena, st->s[i].text.n + 200);
  buf_addf(&b, "%.*s %.*s instead of the %.*s", SPAN_ARG(amount), SPAN_ARG(s->food),
           SPAN_ARG(tokens_span(t, bare, s->old_end - bare)));
  if (s->amount.n == 0 && !s->same)
    refer_beside(st, i, arena_span(st->r->keep, s->food), "the same weight as of the food that it stands for was assumed");
  refer_between(st, i, s->from, s->to, buf_text(&b));
  return true;
}

/* "250 g of mince every evening, but every third evening it's tripe": the food before the "but" goes on these days. */
static bool swap_behind_but(struct story *st, const struct tokens *t, size_t k, struct swap *s) {
  if (k == 0 || !says(t, k, "but except only save") || says(t, k - 1, "nothing")) return false;
  if (says(t, k, "except save") && !says(t, k + 1, "that")) return false; /* "except Fridays when": read day by day */
  size_t at = k + 1, food = k, end = k;
  if (says(t, at, "that then for")) at++;
  if (says(t, at, "on for")) at++;
  unsigned days;
  size_t often = post_days_named(t, at, &days), behind;
  if (often == 0 && at < t->count) {
    struct frequency f = frequency_at(t, at);
    often = !f.refuse && f.times_per_28 < CALENDAR_DAYS ? f.tokens : 0;
  }
  behind = at + often;
  if (is_mark(t, behind, ',')) behind++;
  if (often == 0 || !says(t, behind, "it it's its then he she when there's is")) return false;
  while (says(t, behind, "it it's its then is he she gets has eats when there's")) behind++;
  for (size_t m = 0; m < k; m++) { /* the last food with an amount */
    double grams;
    size_t used = refer_grams(t, m, &grams), from = m + used;
    if (used == 0) continue;
    if (says(t, from, "of")) from++;
    struct tokens before = {t->item, k};
    size_t to = post_food_end(st->r, &before, from);
    if (to > from) food = from, end = to;
  }
  if (end == food) return false;
  s->to = new_food(st, t, behind, s);
  if (s->to == behind || says(t, s->to, "no") || says(t, s->to + 1, "no")) return false; /* "prawns and no chicken" */
  if (s->amount.n == 0) s->same = true;
  s->from = behind, s->old_at = food, s->old_end = end;
  if (s->amount.n == 0) { /* as much as of the other */
    for (size_t m = 0; m < food; m++) {
      double grams;
      size_t used = refer_grams(t, m, &grams);
      if (used > 0) s->amount = tokens_span(t, m, used);
    }
  }
  return true;
}

/* The same in two sentences: "but every third evening it's tripe" is one of its own. */
static void write_behind_but(struct story *st, size_t i, size_t k, const struct swap *s) {
  const struct tokens *t = &st->s[i].t;
  struct buf b;
  size_t cut = k, from = k + 1;
  while (cut > 0 && t->item[cut - 1].kind == TOKEN_MARK) cut--;
  if (says(t, from, "that then for")) from++;
  size_t often = from;
  while (often < s->from && !says(t, often, "it it's its then he she when there's is")) often++;
  buf_init(&b, st->r->arena, 2 * st->s[i].text.n + 200);
  buf_addf(&b, "\x1F%.*s %.*s %.*s instead of the %.*s", SPAN_ARG(tokens_span(t, from, often - from)), SPAN_ARG(s->amount),
           SPAN_ARG(s->food), SPAN_ARG(tokens_span(t, s->old_at, s->old_end - s->old_at)));
  refer_between(st, i, cut, s->to, buf_text(&b));
}

void refer_swap(struct story *st) {
  for (size_t i = 0; i < st->count; i++) {
    if (st->s[i].t.count > 4) rest_same(st, i);
    const struct tokens *t = &st->s[i].t;
    for (size_t k = 0; k + 1 < t->count; k++) {
      struct swap s;
      if (swap_behind_but(st, t, k, &s)) {
        write_behind_but(st, i, k, &s);
        break;
      }
      if (!swap_of_verb(st, t, k, &s) && !swap_of_becoming(st, t, k, &s) && !swap_of_standing_in(st, t, k, &s)) continue;
      if (write_meal(st, i, &s) || write_some_days(st, i, &s)) break;
    }
  }
}
