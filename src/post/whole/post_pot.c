/* One pot for several animals: which part of it goes to the one that is asked about. */
#include "base/num.h"
#include "post/govern/post_govern.h"
#include "post/whole/post_whole.h"

/* ---- parts ---- */

/* "half", "two thirds", "a third", "one quarter": the part, and how many tokens; 0. */
static size_t part_at(const struct tokens *t, size_t at, double *part) {
  size_t used = post_part_at(t, at, part);
  if (used > 0) return used;
  if (is_number(t, at) && is_mark(t, at + 1, '/') && is_number(t, at + 2) && t->item[at + 2].value > t->item[at].value &&
      t->item[at + 2].value <= 5)
    return *part = t->item[at].value / t->item[at + 2].value, 3;
  if (is_number(t, at) && is_mark(t, at + 1, '%') && t->item[at].value > 0 && t->item[at].value < 100)
    return *part = t->item[at].value / 100, 2; /* "gets 60%" */
  struct quantity q = quantity_at(t, at);
  if (q.fault == QUANTITY_FINE && q.low == q.high && q.low > 0 && q.low < 1) return *part = q.low, q.tokens;
  return 0;
}

/* "of it", "of the pot", "each", "every time", or nothing more: a part of the whole, and not of a tin. */
static bool of_the_whole(struct post_reader *r, const struct tokens *t, size_t at, bool *each) {
  *each = says(t, at, "each apiece");
  if (*each) return true;
  if (says(t, at, "of") && says(t, at + 1, "it that this everything them"))
    return !is_word(t, at + 2) || !post_mention_at(r, t, at + 2);
  if (says(t, at, "of") && says(t, at + 1, "the this that") && says_a(t, at + 2, CLASS_THE_POT)) return true;
  if (at >= t->count) return true;
  return t->item[at].kind == TOKEN_MARK || says(t, at, "and while but so left remaining too also");
}

static bool is_pronoun(const struct tokens *t, size_t at) { return says(t, at, "she he"); }

/* "The big fella has half", "the setter gets two thirds": who eats, by no name, right before the verb; "" nobody. */
static struct span nameless_before(struct post_reader *r, const struct tokens *t, size_t verb) {
  enum { WORDS_MOST = 3 };
  struct span none = {"", 0}, called;
  size_t from = verb;
  while (from > 0 && verb - from < WORDS_MOST && is_word(t, from - 1) && !says(t, from - 1, "the my our") &&
         post_mention_at(r, t, from - 1) == 0)
    from--;
  if (from == verb || from == 0 || !says(t, from - 1, "the my our") || says_a(t, verb - 1, CLASS_CHATTER) ||
      says_a(t, verb - 1, CLASS_MEAL) || says_a(t, verb - 1, CLASS_VESSEL) || says_a(t, verb - 1, CLASS_THE_POT))
    return none;
  size_t used;
  called = post_one_named(r, t, from, &used);
  return called.n > 0 && from + used == verb ? called : t->item[verb - 1].at;
}

static bool is_name(const struct tokens *t, size_t at) {
  enum species s;
  if (at >= t->count || t->item[at].kind != TOKEN_WORD || t->item[at].at.n < 2) return false;
  char c = t->item[at].at.p[0];
  return c >= 'A' && c <= 'Z' && !token_is_a(&t->item[at], CLASS_CHATTER) && !token_is_animal(&t->item[at], &s) &&
         !token_is_a(&t->item[at], CLASS_CLAUSE_OPENER) && !token_is_a(&t->item[at], CLASS_MEAL);
}

static void remember_part(struct post_reader *r, struct span name, double part) {
  for (size_t i = 0; i < r->part_count; i++)
    if (span_eq_fold(r->part[i].name, name)) {
      r->part[i].of = part;
      return;
    }
  if (r->part_count == COUNT_OF(r->part)) return;
  r->part[r->part_count++] = (struct part_of){name.n > 0 ? arena_span(r->keep, name) : name, part};
}

/* Who eats, before the verb at 'verb': a name, or "" for the one that is spoken of. False: nobody. */
static bool eater_before(const struct tokens *t, size_t verb, struct span *name) {
  enum { FAR = 10 };
  for (size_t i = verb; i-- > 0 && i + FAR > verb;) {
    if (t->item[i].kind == TOKEN_MARK && t->item[i].mark != ',' && t->item[i].mark != '(' && t->item[i].mark != ')')
      return false;
    if (is_pronoun(t, i)) return *name = (struct span){"", 0}, true;
    if (is_name(t, i)) return *name = t->item[i].at, true;
  }
  return false;
}

/* "the other half goes fifty-fifty to Elsie and Bean": what is left, in halves. */
static bool the_rest_to(struct post_reader *r, struct tokens *t, size_t at) {
  double left = 1;
  if (!says(t, at, "rest other remaining remainder")) return false;
  for (size_t i = 0; i < r->part_count; i++) left -= r->part[i].of;
  if (r->part_count == 0 || !(left > 0.01)) return false;
  struct span name[4];
  size_t names = 0;
  if (at > 1 && says(t, at - 1, "the") && is_name(t, at - 2)) name[names++] = t->item[at - 2].at; /* "Betty the rest" */
  for (size_t i = at; i < t->count && !is_mark(t, i, '.') && names < COUNT_OF(name); i++)
    if (is_name(t, i) && i > at && says(t, i - 1, "to and for between is")) name[names++] = t->item[i].at;
  struct span eater; /* "and Betty has the rest", "the collie takes the rest" */
  if (names == 0 && at > 1 && says(t, at - 1, "the") && says_a(t, at - 2, CLASS_EATER_VERB)) {
    eater = nameless_before(r, t, at - 2);
    if (eater.n > 0 || eater_before(t, at - 2, &eater)) name[names++] = eater;
  }
  for (size_t i = 0; i < names; i++) remember_part(r, name[i], left / (double)names);
  if (names > 0 && is_number(t, at + 1) && is_mark(t, at + 2, '%')) take(t, at + 1, 2); /* "the other 40%" */
  return names > 0;
}

/* "Moss gets twice what Juniper gets", "half as much as Moss" */
static bool relation(struct post_reader *r, const struct tokens *t, size_t at, size_t used, double times, size_t verb) {
  struct span one, other = {"", 0};
  bool what = says(t, at + used, "what") || (says(t, at + used, "of") && says(t, at + used + 1, "what whatever")) ||
              (says(t, at + used, "as") && says(t, at + used + 1, "much")) || says(t, at + used, "the");
  if (!what || !eater_before(t, verb, &one)) return false;
  for (size_t i = at + used; i < t->count && other.n == 0; i++)
    if (is_name(t, i)) other = t->item[i].at;
  if (other.n == 0) return false;
  r->related[0] = (struct part_of){one.n > 0 ? arena_span(r->keep, one) : one, times / (1 + times)};
  r->related[1] = (struct part_of){arena_span(r->keep, other), 1 / (1 + times)};
  r->relative = (struct part_of){r->related[0].name, times};
  return true;
}

/* "our cats Ash (4 kg) and Fig (6 kg) share 300 g a day": a pot, where somebody's part of it is told. */
static bool says_they_share(const struct tokens *t) {
  for (size_t i = 0, them = 0; i < t->count; i++) {
    them += says(t, i, "cats dogs girls boys both two pair they") || (says(t, i, "and") && is_name(t, i + 1));
    bool all = i + 1 < t->count && (post_amount_at(t, i + 1).is_mass || says_a(t, i + 1, CLASS_WORD_OF_ALL_FOOD));
    if (them > 0 && all && says(t, i, "share shares")) return true;
  }
  return false;
}

/* "both dogs", "the pair of them", "my 2 dogs" */
static void count_them(struct post_reader *r, const struct tokens *t) {
  enum species s;
  for (size_t i = 0; i < t->count; i++) {
    bool both = says(t, i, "both") &&
                (says(t, i + 1, "dogs cats") ||
                 (says(t, i + 1, "my our") && is_word(t, i + 2) && token_is_animal(&t->item[i + 2], &s)) ||
                 (says(t, i + 1, "of") && says(t, i + 2, "them my our the"))) &&
                !says(t, i + 3, "next meals days");
    bool two = both || phrase_at(t, i, "the pair of them") > 0 ||
               (phrase_at(t, i, "the two of them") > 0 && i > 0 && says(t, i - 1, "for between lasts feeds does of")) ||
               phrase_at(t, i, "the two together") > 0 ||
               (phrase_at(t, i, "between the two") > 0 && !says(t, i + 3, "days meals feeds weeks bowls"));
    bool three = phrase_at(t, i, "the three of them") > 0 || phrase_at(t, i, "all three") > 0;
    if (!(r->animals > 1) && (two || three)) r->animals = two ? 2 : 3;
  }
}

/* "For my two dogs but the recipe is for Luna": one eats it, whoever else was named. */
static bool is_for_one_by_name(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i + 2 < t->count; i++) /* "So for Tiger only", "this is only about Willow" */
    if ((says(t, i, "for about just") && post_pet_name(r, t, i + 1).n > 0 && says(t, i + 2, "only alone")) ||
        (says(t, i, "only just") && says(t, i + 1, "about for") && post_pet_name(r, t, i + 2).n > 0) ||
        (says(t, i, "is") && says(t, i + 1, "about") && i > 0 && says(t, i - 1, "this post") && !r->one_pot &&
         post_pet_name(r, t, i + 2).n > 0))
      return true;
  for (size_t i = 0; i + 2 < t->count; i++)
    if (says(t, i, "is") && says(t, i + 1, "for just only") && i > 0 && says(t, i - 1, "recipe batch bowl food meal")) {
      size_t at = i + 2 + (size_t)says(t, i + 2, "for only just");
      if (post_pet_name(r, t, at).n > 0 && !says(t, at + 1, "and") && !is_mark(t, at + 1, '&')) return true;
    }
  return false;
}

/* "each of them gets", "per dog", "I've already halved it": the amounts are those of one. */
static bool tells_of_one(const struct tokens *t) {
  if (t->count > 0 && is_mark(t, t->count - 1, '?')) return false; /* "How much do I give each of them?" */
  for (size_t i = 0; i < t->count; i++)
    if (phrase_at(t, i, "each per day") > 0 || phrase_at(t, i, "each a day") > 0 || phrase_at(t, i, "each daily") > 0 ||
        phrase_at(t, i, "each of them") > 0 || phrase_at(t, i, "each of the") > 0 || says(t, i, "halved") ||
        (says(t, i, "per a") && says(t, i + 1, "dog cat head animal") && says(t, i, "per")) ||
        (says(t, i, "for") && says(t, i + 1, "one 1 single") && says(t, i + 2, "dog cat animal") && i > 0 &&
         says(t, i - 1, "are is amounts amount numbers weights all quantities")))
      return true;
  return false;
}

/* "each", or "of it each", and not "each day" */
static bool says_each_behind(const struct tokens *t, size_t at) {
  for (size_t i = at; i <= at + 3; i++) {
    if (says(t, i, "each apiece")) return !says_a(t, i + 1, CLASS_BEHIND_EACH_OF_TIME);
    if (i == at && !says(t, i, "of")) return false;
  }
  return false;
}

/* "Pip also gets 2 g of fish oil", "each cat gets an egg yolk", "they also get a yolk each": beside the pot. */
static bool tells_of_own(const struct tokens *t) {
  bool also = false, eats = false, each = false;
  enum species s;
  if (says(t, 0, "each every") && t->count > 2 && is_word(t, 1) && is_animal_word(t->item[1].word, &s) &&
      says_a(t, 2, CLASS_EATER_VERB))
    return true;
  for (size_t i = 0; i < t->count && !also; i++) also = says(t, i, "also besides extra addition too since alone");
  for (size_t i = 1; i < t->count && !each; i++) each = says_each_behind(t, i) && !says(t, i, "of");
  for (size_t i = 0; i < t->count && also && !eats; i++)
    eats = says(t, i, "gets has eats takes") || (each && says(t, i, "get have eat"));
  return eats;
}

/* "Each one gets 80 g", "every cat has 80 g", "they each get 80 g": how many tokens from 'at' on; 0. Of tubs "each one has".
 */
static size_t one_of_all_eats(const struct tokens *t, size_t at) {
  enum species s;
  if (says(t, at, "each") && at > 0 && says(t, at - 1, "they both cats dogs two three four them"))
    return says_a(t, at + 1, CLASS_EATER_VERB) ? 1 : 0;
  if (says(t, at, "each") && says(t, at + 1, "get have eat")) return 1; /* "Ash (4 kg) and Bo (8 kg) each get 100 g" */
  if (!says(t, at, "each every")) return 0;
  bool one = says(t, at + 1, "one"), animal = is_word(t, at + 1) && is_animal_word(t->item[at + 1].word, &s);
  if (one) return says(t, at + 2, "gets get eats") ? 2 : 0;
  return animal && says_a(t, at + 2, CLASS_EATER_VERB) ? 2 : 0;
}

static bool tells_of_each(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used = one_of_all_eats(t, i);
    if (used == 0) continue;
    post_claim(r, tokens_span(t, i, used), CLAIM_TOLD, 0, 0);
    return true;
  }
  return false;
}

/* "The two cats get a fifth of it each": how many stand before the verb; 0. */
static double how_many_before(const struct tokens *t, size_t verb) {
  enum { FAR = 4 };
  for (size_t i = verb; i-- > 0 && i + FAR > verb;) {
    struct quantity q = quantity_at(t, i);
    if (q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 2 && q.low <= 6 && q.low == floor(q.low)) return q.low;
  }
  return 0;
}

/* Where a verb of eating stands before the part at 'at'; t->count nowhere. */
static size_t verb_before_part(const struct tokens *t, size_t at) {
  for (size_t verb = at; verb > 0 && verb + 3 > at; verb--)
    if (says_a(t, verb - 1, CLASS_EATER_VERB)) return verb - 1;
  return t->count;
}

/* "Minnow gets two thirds, little Fig (3.4 kg) one third": the verb goes without saying. */
static bool gapped_eater(const struct tokens *t, size_t from, size_t at, struct span *name) {
  for (size_t i = at; i-- > from;)
    if (is_name(t, i)) return *name = t->item[i].at, true;
  return false;
}

/* "Two thirds goes to Brutus", "a third of it goes to the small one": who it goes to, behind the part; its end, 0 nobody. */
static size_t goes_to(struct post_reader *r, const struct tokens *t, size_t at, struct span *name) {
  if (says(t, at, "of") && says(t, at + 1, "it that this")) at += 2;
  if (!says(t, at, "goes go is are") || !says(t, at + 1, "to for")) return 0;
  if (is_name(t, at + 2)) return *name = t->item[at + 2].at, at + 3;
  size_t used, one = says(t, at + 2, "the my our") ? at + 3 : at + 2;
  *name = post_one_named(r, t, one, &used);
  return name->n > 0 ? one + used : 0;
}

static bool hear_part(struct post_reader *r, struct tokens *t, size_t i, size_t used, double part, size_t part_before) {
  struct span name;
  bool each, here = false;
  size_t verb = verb_before_part(t, i);
  size_t to = part < 1 ? goes_to(r, t, i + used, &name) : 0;
  if (to > 0) {
    remember_part(r, name, part);
    post_claim(r, tokens_span(t, i, to - i), CLAIM_TOLD, 0, 0);
    take(t, i, to - i);
    return true;
  }
  if (verb < t->count && relation(r, t, i, used, part, verb)) {
    if (is_mark(t, i + 1, '%')) take(t, i, used); /* "40 % of whatever Max gets" */
    return false;
  }
  if (!(part < 1) || !of_the_whole(r, t, i + used, &each)) return false;
  double group = verb < t->count && says_each_behind(t, i + used) ? how_many_before(t, verb) : 0;
  if (group > 0 && group * part < 0.99) /* and another one has the rest */
    remember_part(r, SPAN_LIT("*"), group * part), here = true;
  else if (verb < t->count && (each || says_each_behind(t, i + used)))
    r->part_of_each = part, here = true;
  else if (each && r->animals > 1 && fabs(part * r->animals - 1) < 0.02) /* "..., a third each" */
    r->part_of_each = part, here = true;
  else if (verb < t->count && (name = nameless_before(r, t, verb)).n > 0)
    remember_part(r, name, part), here = true;
  else if (verb < t->count ? eater_before(t, verb, &name) : part_before > 0 && gapped_eater(t, part_before, i, &name))
    remember_part(r, name, part), here = true;
  if (!here) return false;
  for (size_t k = i; k < i + used; k++) post_claim(r, t->item[k].at, CLAIM_TOLD, 0, 0);
  if (is_mark(t, i + 1, '%')) take(t, i, used); /* no food's share */
  return true;
}

/* "On weekends an egg gets shared between her and the cat": of that egg, and not of what stands before it. */
static bool tells_of_one_food(struct post_reader *r, const struct tokens *t) {
  enum { BEFORE_LEAST = 3 };
  size_t amounts = 0, foods = 0;
  for (size_t i = 0; i < t->count; i++) {
    if (says(t, i, "it this that everything all batch pot mix total they same")) return false;
    size_t used = post_mention_at(r, t, i);
    foods += used > 0;
    struct post_amount a = post_amount_at(t, i);
    amounts += a.tokens > 0 && not_an_amount(t, i) == 0;
    if (used > 1) i += used - 1;
  }
  size_t before = 0;
  for (size_t i = 0; i < r->count; i++) before += r->item[i].kind == ITEM_FOOD;
  return foods == 1 && amounts == 1 && before >= BEFORE_LEAST;
}

void post_hear_of_pot(struct post_reader *r, struct tokens *t) {
  r->for_one = r->for_one || tells_of_one(t) || is_for_one_by_name(r, t);
  r->own = tells_of_each(r, t) || tells_of_own(t);
  post_hear_who(r, t);
  post_hear_same(r, t);
  count_them(r, t);
  r->by_weight = r->by_weight || holds_a(t, 0, t->count, CLASS_SHARED_BY_WEIGHT);
  r->one_pot = r->one_pot || r->by_weight || (post_tells_of_pot(t) && !tells_of_one_food(r, t));
  r->they_share = r->they_share || says_they_share(t);
  post_hear_shared(r, t);
  size_t part_before = 0, parts = 0; /* behind the part that was told before in this sentence; how many */
  for (size_t i = 0; i < t->count; i++) {
    double part = 0;
    if (the_rest_to(r, t, i)) return;
    size_t used = part_at(t, i, &part);
    if (used == 0 && says(t, i, "twice double")) used = 1, part = 2;
    if (used == 0) continue;
    if (hear_part(r, t, i, used, part, part_before)) part_before = i + used, parts++;
  }
  if (parts < 2 || post_names_food(r, t, 0, t->count)) return;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.is_mass || a.is_volume) return;
  }
  post_claim(r, tokens_span(t, 0, t->count), CLAIM_TOLD, 0, 0); /* nothing but who has which part */
  take(t, 0, t->count);
}

/* ---- what it comes to ---- */

static double part_of_name(const struct part_of *part, size_t count, struct span name) {
  for (size_t i = 0; i < count; i++)
    if (name.n == 0 ? part[i].name.n == 0 : part[i].name.n > 0 && post_same_name(part[i].name, name)) return part[i].of;
  return (double)NAN;
}

/* "Shared out according to bodyweight": where all of them were weighed. */
static double part_by_weight(const struct post_reader *r) {
  double all = 0, ours = 0;
  for (size_t i = 0; i < r->named_count; i++) {
    all += r->named[i].kg;
    if (post_same_name(r->named[i].name, r->asked_about)) ours = r->named[i].kg;
  }
  return (int)r->named_count >= r->animals && ours > 0 ? ours / all : (double)NAN;
}

/* "Brodie gets three quarters", and it is the other one of two that is asked about. */
static double what_is_left(const struct post_reader *r) {
  bool two = r->animals == 2 || (r->animals == 0 && r->named_count == 2);
  bool other = r->part_count == 1 && r->part[0].name.n > 1 && r->asked_about.n > 0 &&
               !post_same_name(r->part[0].name, r->asked_about);
  return two && other && r->part[0].of < 1 ? 1 - r->part[0].of : (double)NAN;
}

/* "The setter gets two thirds, Nell gets a third": of those whose parts are told the only one by its name; NaN. */
static double part_of_the_named(const struct post_reader *r) {
  double part = (double)NAN;
  size_t names = 0, nameless = 0;
  for (size_t i = 0; i < r->part_count; i++) {
    struct span name = r->part[i].name;
    bool named = name.n > 1 && name.p[0] >= 'A' && name.p[0] <= 'Z';
    if (named) part = r->part[i].of;
    names += named;
    nameless += name.n > 0 && !named;
  }
  return names == 1 && nameless > 0 ? part : (double)NAN;
}

/* The part of the one that is asked about; NaN when nobody told. 'told': in the post's own words. */
static double our_part(const struct post_reader *r, bool *told) {
  double part = (double)NAN;
  *told = r->derived;
  if (r->derived) return r->relative.of;
  double among = r->divided_by > 1 ? r->divided_by : r->animals;
  if (r->divided_by > 0 && among > 1 && (r->animals <= 1 || among == r->animals)) return *told = true, 1 / among;
  if (r->for_one && r->part_count == 0) return part; /* "each cat gets a yolk" beside parts that are told */
  bool pot = r->one_pot || r->makes_days > 0 || r->makes_meals > 0 || r->animals > 1 || r->part_count > 1 ||
             (r->they_share && r->part_count > 0);
  *told = true;
  if (r->part_of_each > 0) return r->part_of_each;
  if (r->asked_about.n == 0 && pot) part = part_of_the_named(r);
  if (r->by_weight && part_by_weight(r) > 0) return part_by_weight(r);
  if (r->asked_about.n > 0) part = part_of_name(r->part, r->part_count, r->asked_about);
  bool several = r->one_pot || r->animals > 1; /* "300 g beef and 2 kg rice. He gets a third of it each day" is three days */
  if (!(part > 0) && several) part = part_of_name(r->part, r->part_count, (struct span){"", 0});
  if (!(part > 0) && pot && r->asked_about.n > 0) part = part_of_name(r->related, 2, r->asked_about);
  if (!(part > 0) && pot) part = what_is_left(r);
  if (part > 0 && pot) return part;
  *told = false;
  return r->animals > 1 && !r->for_one && (r->one_pot || r->makes_days > 0) ? 1.0 / r->animals : (double)NAN;
}

static void take_part_of_item(struct post_reader *r, struct item *item, double part) {
  struct tokens t = post_tokens(r, span_of(item->text));
  struct post_amount a = post_amount_at(&t, 0);
  if (a.tokens == 0 || a.is_percent || a.tokens >= t.count) return;
  struct buf b;
  buf_init(&b, r->keep, strlen(item->text) + 100);
  amount_write(&b, &a, part);
  const char *rest = t.item[a.tokens].at.p;
  struct post_amount range = is_mark(&t, a.tokens, '(') ? post_amount_at(&t, a.tokens + 1) : (struct post_amount){0};
  size_t behind = a.tokens + 1 + range.tokens;
  if (range.tokens > 0 && range.high > range.low && is_mark(&t, behind, ')') &&
      behind + 1 < t.count) { /* "300 g (270-330 g)" */
    buf_adds(&b, " (");
    amount_write(&b, &range, part);
    buf_addc(&b, ')');
    rest = t.item[behind + 1].at.p;
  }
  buf_addf(&b, " %s", rest);
  item->text = buf_text(&b);
  item->grams *= part;
}

/* Of several that were weighed, the one that is asked about: what was told of another's age is not told of it. */
static void weigh_the_one_asked_about(struct post_reader *r) {
  for (size_t i = 0; i < r->named_count && r->asked_about.n > 0; i++) {
    if (!post_same_name(r->named[i].name, r->asked_about)) continue;
    r->subject_named = true;
    if (r->named[i].kg == r->weight_kg) return;
    r->weight_kg = r->named[i].kg;
    r->age_years = (double)NAN;
    r->neutered = -1;
    return;
  }
}

/* A batch for so many bowls lasts longer where nothing is fed on some days: written as what is fed on the others. What is
 * told for whole weeks is their total, unless no bag is meant for those days. */
static void take_batch_day_by_day(struct post_reader *r) {
  bool meals = r->makes_meals > 0 && r->meals_a_day > 0;
  double days = meals ? r->makes_meals / r->meals_a_day : r->makes_days;
  if (r->fast_days == 0 || !(days > 1) || (r->makes_meals > 0 && !meals) || (fmod(days, 7) == 0 && !r->fasts_unpacked))
    return;
  struct buf b;
  buf_init(&b, r->keep, 60);
  buf_adds(&b, "of the batch one part in ");
  num_sig(&b, days, 3);
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    if (item->kind != ITEM_FOOD || item->served || item->at_meals || post_tells_often(r, item)) continue;
    take_part_of_item(r, item, 1 / days);
    item->assumed = arena_text(r->keep, span_of(post_joined(r, buf_text(&b), item->assumed)));
  }
  r->makes_days = r->makes_meals = (double)NAN;
}

/* "1.4 kg chicken thigh, a week" of a pot that lasts a week: its amounts are the pot's. */
static bool told_for_pot(const struct post_reader *r, const struct item *item) {
  struct span text = span_of(item->text), week = SPAN_LIT(", a week");
  bool ends = text.n > week.n && span_eq(span_cut(text, text.n - week.n, text.n), week);
  return ends && r->makes_days == CALENDAR_DAYS / 4.0 && !item->at_meals;
}

/* A batch whose days turn out to be none, after its part was taken by them: the lines are divided instead. */
void post_part_into_lines(struct post_reader *r) {
  if (!(r->pot_part > 0) || r->part_in_lines || r->makes_days > 0 || r->makes_meals > 0) return;
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    if (item->kind == ITEM_FOOD && !item->served && !item->own && !item->at_meals && !post_tells_often(r, item))
      take_part_of_item(r, item, r->pot_part);
  }
  r->part_in_lines = true;
}

void post_share_pot(struct post_reader *r) {
  bool told;
  take_batch_day_by_day(r);
  post_leave_fasts_out(r);
  weigh_the_one_asked_about(r);
  post_settle_weighed(r);
  double part = our_part(r, &told);
  bool shared = false; /* and not each line one animal's own */
  for (size_t i = 0; i < r->count; i++)
    shared = shared || (r->item[i].kind == ITEM_FOOD && !r->item[i].served && !r->item[i].own);
  if (!(part > 0 && part < 1) || !shared) return;
  struct part_by_need need;
  r->by_need = !told && post_part_by_need(r, &need);
  if (r->by_need) part = need.part;
  bool batch = r->makes_days > 0 || r->makes_meals > 0;
  struct buf b;
  buf_init(&b, r->keep, 400);
  if (told) {
    buf_adds(&b, "this animal's part of what the post gives for all: ");
    num_sig(&b, 100 * part, 3);
    buf_adds(&b, " %");
  } else if (r->by_need) {
    buf_adds(&b, post_say_by_need(r, &need));
  } else {
    buf_adds(&b, "one of ");
    num_sig(&b, 1 / part, 3);
    buf_adds(&b, batch ? " equal shares, a batch for as many animals" : " equal shares, of food for as many animals");
  }
  bool others = false; /* lines that are the batch's */
  for (size_t i = 0; i < r->count; i++) {
    struct item *item = &r->item[i];
    bool week = item->kind == ITEM_FOOD && batch && told_for_pot(r, item);
    if (item->kind != ITEM_FOOD || item->served || item->own ||
        (batch && !week && (item->at_meals || post_tells_often(r, item))))
      continue;
    if (!batch || week) take_part_of_item(r, item, part);
    others = others || !week;
    item->assumed = arena_text(r->keep, span_of(post_joined(r, buf_text(&b), item->assumed)));
    item->doubted = item->doubted || !told;
  }
  if (batch && !others) r->makes_days = (double)NAN; /* its lines say for how long they are */
  r->part_in_lines = !batch || !others;
  r->pot_part = part;
  r->pot_told = told;
}
