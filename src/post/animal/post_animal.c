/* The animal told in passing; of several, the one whose bowl it is. */
#include "post/animal/post_animal.h"
#include "base/num.h"

/* "34kg of black labrador" */
static bool is_of_an_animal(struct post_reader *r, const struct tokens *t, size_t at) {
  enum species s;
  for (size_t i = at + 1; says(t, at, "of") && i <= at + 3 && is_word(t, i); i++) {
    if (is_animal_word(t->item[i].word, &s)) return true;
    if (post_mention_at(r, t, i) > 0) break;
  }
  return false;
}

/* The food that a weight would belong to: "4.2 kg chicken", "2 kg of beef". */
static bool belongs_to_food(struct post_reader *r, const struct tokens *t, size_t after) {
  enum species s;
  if (is_of_an_animal(r, t, after)) return false;
  if (says(t, after, "of")) return true;
  size_t end = after;
  while (end < t->count && end < after + 4 && !t->item[end].taken && t->item[end].kind == TOKEN_WORD &&
         !token_is_animal(&t->item[end], &s) && !token_is_a(&t->item[end], CLASS_CHATTER))
    end++;
  if (end == after || says_a(t, after, CLASS_TOLD_BESIDE_WEIGHT)) return false;
  if (end < t->count && token_is_animal(&t->item[end], &s)) return false;
  for (size_t i = after; i < end; i++)
    if (post_mention_at(r, t, i) > 0) return true;
  return false;
}

/* "I do a mix of ...", "mix it and press it": nobody's breed. */
static bool mixes(const struct tokens *t, size_t at) {
  return says(t, at, "mix") && (says(t, at + 1, "of it in the them everything all with and") ||
                                (at > 0 && says(t, at - 1, "the this that i we to my veg meat")));
}

/* "my tom", "our old queen", "queen, 4 kg": such words are names elsewhere. */
static bool is_tom(const struct post_reader *r, const struct tokens *t, size_t at) {
  double kg;
  if (!says(t, at, "tom queen")) return false;
  if ((at > 0 && says(t, at - 1, "my our")) || (at > 1 && says(t, at - 2, "my our"))) return true;
  for (size_t i = 0; i < r->state_count; i++)
    if (r->state[i].sentence == r->heard_count && (r->state[i].kind == STATE_PREGNANT || r->state[i].kind == STATE_NURSING))
      return true;
  return at == 0 && says(t, at, "queen") && is_mark(t, 1, ',') && post_weight_at(t, 2, &kg) > 0;
}

static bool says_animal(const struct post_reader *r, const struct tokens *t) {
  enum species s;
  const struct told_state *state = r->state_count > 0 ? &r->state[r->state_count - 1] : NULL;
  if (state && state->sentence == r->heard_count) return true; /* "in whelp, 20 kg" */
  for (size_t i = 0; i < t->count; i++) {
    if (t->item[i].taken || t->item[i].kind != TOKEN_WORD) continue;
    if (token_is_animal(&t->item[i], &s) && !mixes(t, i)) return true;
    if (says_a(t, i, CLASS_OF_AN_ANIMAL) || is_tom(r, t, i)) return true;
  }
  return false;
}

static void count_species(struct post_reader *r, const struct tokens *t) {
  enum species s;
  for (size_t i = 0; i < t->count; i++)
    if (t->item[i].kind == TOKEN_WORD && token_is_animal(&t->item[i], &s) && !mixes(t, i))
      *(s == SPECIES_CAT ? &r->cat_words : &r->dog_words) += 1;
}

/* "Maine Coons", "Border collies": the last word of two is the animal. */
static bool is_first_of_breed(const struct tokens *t, size_t at) {
  enum species s;
  return t->item[at].at.p[0] >= 'A' && t->item[at].at.p[0] <= 'Z' && token_is_animal(&t->item[at + 1], &s);
}

/* "Batch for 2 cats" */
static void count_animals(struct post_reader *r, struct tokens *t) {
  enum species s;
  for (size_t i = 0; i + 1 < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < 2 || q.low > 12 || q.low != floor(q.low)) continue;
    size_t next = i + q.tokens;
    bool ours = i == 0 || says(t, i - 1, "my our the for both have got own between among");
    if (ours && is_word(t, next + 1) &&
        says(t, next, "rescue old young indoor big small little fat elderly mini miniature toy standard"))
      next++;
    if (ours && is_word(t, next + 1) && is_first_of_breed(t, next)) next++; /* "my two Maine Coons" */
    bool several = says(t, next, "dogs cats kitties");
    several = several || (ours && says(t, next, "pups"));
    if (ours && is_word(t, next) && t->item[next].word.n > 3 && t->item[next].word.p[t->item[next].word.n - 1] == 's')
      several = true; /* "my two whippets" */
    if (several && token_is_animal(&t->item[next], &s)) {
      r->animals = (int)q.low;
      take(t, i, next + 1 - i);
    }
  }
}

/* "My two: Socks and Mittens", "my two, sisters": of what, the names or the rest of the post tell. */
static void count_ours(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i + 2 < t->count && !(r->animals > 1); i++)
    if (says(t, i, "my our") && says(t, i + 1, "two three") &&
        (is_mark(t, i + 2, ':') || is_mark(t, i + 2, ',') || is_mark(t, i + 2, '(') || is_mark(t, i + 2, '-')))
      r->animals = says(t, i + 1, "two") ? 2 : 3;
}

static void count_toms(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) r->cat_words += is_tom(r, t, i);
}

/* The nearest animal before the weight, or right behind it: "the dog: Moritz, 11 kg", "a 27 kg lab". */
static void species_by_weight(struct post_reader *r, const struct tokens *t, size_t at, size_t behind) {
  enum species s;
  size_t near = clause_begin(t, at) > 12 ? clause_begin(t, at) - 12 : 0;
  for (size_t i = at; i-- > near;)
    if (t->item[i].kind == TOKEN_WORD && token_is_animal(&t->item[i], &s)) {
      r->weighed_species = (int)s;
      return;
    }
  for (size_t i = behind; i < t->count && i < behind + 4 && !says(t, i, "and plus"); i++)
    if (is_word(t, i) && token_is_animal(&t->item[i], &s)) {
      r->weighed_species = (int)s;
      return;
    }
}

/* "Ida (9 kg)", "Moritz, 11 kg": the name before a weight; "" none. */
static struct span name_before(const struct tokens *t, size_t at) {
  enum species s;
  for (size_t back = 1; back <= 3 && back <= at; back++) {
    struct token *k = &t->item[at - back];
    if (k->kind == TOKEN_MARK && (k->mark == '(' || k->mark == ',' || k->mark == ':')) continue;
    if (back < 3 && says(t, at - back, "is weighs at about")) continue; /* "Duke is 36 kg" */
    bool name = k->kind == TOKEN_WORD && k->at.p[0] >= 'A' && k->at.p[0] <= 'Z' && k->at.n > 2 &&
                !token_is_a(k, CLASS_CHATTER) && !token_is_animal(k, &s) && !says(t, at - back, "the and weight");
    return name ? k->at : (struct span){"", 0};
  }
  return (struct span){"", 0};
}

static void remember_name(struct post_reader *r, struct span name, double kg) {
  if (name.n == 0 || r->named_count == COUNT_OF(r->named)) return;
  r->named[r->named_count++] = (struct named_animal){arena_span(r->keep, name), kg};
}

/* A sentence about one of several animals that were named with their weights: it is that one's bowl. */
static void find_subject(struct post_reader *r, const struct tokens *t) {
  if (r->named_count < 2 || !post_any_amount(t, 0)) return;
  for (size_t i = 0; i < t->count; i++)
    for (size_t k = 0; k < r->named_count; k++) {
      struct span word = t->item[i].at;
      if (t->item[i].kind != TOKEN_WORD || word.n < r->named[k].name.n || (i > 0 && !is_mark(t, i - 1, '.') && i > 2))
        continue;
      if (word.n > r->named[k].name.n + 2 || !span_eq_fold(span_cut(word, 0, r->named[k].name.n), r->named[k].name))
        continue;
      r->weight_kg = r->named[k].kg;
      r->subject_named = true;
      return;
    }
}

/* "23 kg (50 lb)", "50 lb / 23 kg": the same once more in another unit; how many tokens. */
static size_t said_again(const struct tokens *t, size_t at, double kg) {
  static const double ALIKE = 0.08;
  double other = 0;
  bool open = is_mark(t, at, '(');
  if (!open && !is_mark(t, at, '/') && !is_mark(t, at, '=') && !says(t, at, "or")) return 0;
  size_t from = at + 1;
  while (says(t, from, "about around so roughly that's ca") || is_mark(t, from, '=')) from++;
  size_t used = post_weight_at(t, from, &other);
  if (used == 0 || fabs(other - kg) > ALIKE * kg || (open && !is_mark(t, from + used, ')'))) return 0;
  return from + used + open - at;
}

static void take_weight(struct post_reader *r, struct tokens *t, size_t at, size_t used, double kg) {
  species_by_weight(r, t, at, at + used);
  r->weight_kg = kg;
  r->animal_line = r->line;
  take(t, at, used + said_again(t, at + used, kg));
}

/* "My question is our cat, 3.8 kg", "please only the dog: Moritz, 11 kg" */
static bool says_this_one(const struct tokens *t) {
  if (holds_a(t, 0, t->count, CLASS_ASKED_ABOUT)) return true;
  for (size_t i = 0; i < t->count; i++)
    if (phrase_at(t, i, "question is") > 0 || phrase_at(t, i, "only the") > 0 || phrase_at(t, i, "about our") > 0 ||
        phrase_at(t, i, "about my") > 0 || phrase_at(t, i, "about the") > 0 || phrase_at(t, i, "just the") > 0)
      return true;
  return false;
}

/* "We have a Boerboel, Kaiser, 62kg", "meet Rolo, 20 lb on the scales": a sentence that names no food and no other amount.
 */
static bool is_introduced(struct post_reader *r, const struct tokens *t, size_t at, size_t used) {
  bool scales = false, have = false;
  for (size_t i = at + used; i < t->count && i < at + used + 6; i++) scales = scales || says(t, i, "scales");
  for (size_t i = 0; i < at; i++)
    have = have || says(t, i, "meet introducing") || (says(t, i, "have got own") && says(t, i + 1, "a an our my"));
  if (!have && !scales) return false;
  bool ends = at + used >= t->count || t->item[at + used].kind == TOKEN_MARK || scales;
  struct tokens before = {t->item, at};
  return ends && !post_any_amount(&before, 0) && !post_any_amount(t, at + used) && !post_names_food(r, t, 0, t->count);
}

/* "my 21 kg mixture of everything", "Pedro (podenco, 19kg)": who it is needs no word that is known. */
static bool is_whose_weight(struct post_reader *r, const struct tokens *t, size_t at, size_t used) {
  for (size_t back = 1; back <= 4 && back <= at; back++) { /* "my girl Juniper 18kg" */
    if (says(t, at - back, "my our")) return true;
    if (t->item[at - back].kind != TOKEN_WORD && !is_mark(t, at - back, ',')) break;
    if (post_mention_at(r, t, at - back) > 0) break;
  }
  if (is_introduced(r, t, at, used)) return true;
  size_t open = at;
  while (open > 0 && open + 5 > at && !is_mark(t, open, '(')) open--;
  if (open == 0 || !is_mark(t, open, '(') || t->item[open - 1].kind != TOKEN_WORD) return false;
  char first = t->item[open - 1].at.p[0];
  bool ends = is_mark(t, at + used, ')') || is_mark(t, at + used, ',');
  return ends && first >= 'A' && first <= 'Z' && post_mention_at(r, t, open - 1) == 0 && t->item[open - 1].at.n > 2;
}

/* "was 12.8 kg before", "was about 14 kg when he came" */
static bool is_past_weight(const struct tokens *t, size_t at) {
  while (at > 0 && says(t, at - 1, "about around only just nearly roughly approx")) at--;
  return at > 0 && says(t, at - 1, "was were");
}

/* "14.6 kg this morning", "4.4 kg today"; and "12.8 kg and finally has fur on his belly", where no food stands beside it. */
static bool is_weight_of_today(struct post_reader *r, const struct tokens *t, size_t at, size_t used) {
  size_t behind = at + used;
  if (says(t, behind, "today now currently atm") || (says(t, behind, "this") && says(t, behind + 1, "morning week")))
    return true;
  bool first = at == 0 && r->count == 0 && isnan(r->weight_kg) && says_a(t, behind - 1, CLASS_KILOGRAMS);
  bool alone = behind >= t->count || is_mark(t, behind, '.');
  bool heads = (is_mark(t, behind, ':') || is_mark(t, behind, ';')) && post_any_amount(t, behind);
  if (first && (alone || heads)) return true; /* "4.6 kg. 150 g cod", "20 kg: 280 g turkey" */
  bool somebody = false;
  for (size_t i = behind; i < t->count; i++) somebody = somebody || says(t, i, "he she his her he's she's hes shes");
  return at == 0 && says(t, behind, "and but") && somebody && !post_any_amount(t, behind) &&
         !post_names_food(r, t, behind, t->count);
}

/* "Tom, 5 kg, gets 120 g ..." */
static bool eats_behind_weight(struct post_reader *r, const struct tokens *t, size_t at, size_t used) {
  size_t name = at, verb = at + used;
  while (name > 0 && (is_mark(t, name - 1, ',') || is_mark(t, name - 1, '('))) name--;
  while (is_mark(t, verb, ',') || is_mark(t, verb, ')')) verb++;
  return name > 0 && says_a(t, verb, CLASS_EATER_VERB) && post_pet_name(r, t, name - 1).n > 0;
}

/* "Wren gets 150 g of cod, she's 8 kg": who the sentence begins with. */
static struct span subject_of(struct post_reader *r, const struct tokens *t, size_t at) {
  bool pronoun = at > 0 && says(t, at - 1, "she's he's shes hes");
  pronoun = pronoun || (at > 1 && says(t, at - 1, "is weighs") && says(t, at - 2, "she he"));
  struct span name = pronoun ? post_pet_name(r, t, 0) : (struct span){"", 0};
  return name.n > 0 && says_a(t, 1, CLASS_EATER_VERB) ? name : (struct span){"", 0};
}

/* "My cat 4 kg and dog 20 kg", "two cats, 4 kg and 5 kg": the weight of the next one. */
static void take_other_weight(struct post_reader *r, struct tokens *t, size_t at, size_t used) {
  enum species s;
  size_t from = at;
  while (from > 0 && (says(t, from - 1, "is at weighs about around") || is_mark(t, from - 1, '('))) from--;
  if (from > 0 && is_word(t, from - 1) && token_is_animal(&t->item[from - 1], &s)) {
    take(t, from - 1, at + used - (from - 1));
    if (r->weighed_species >= 0 && (int)s != r->weighed_species)
      r->other_species = true;
    else
      r->several_weights = true, r->weights_line = r->line;
  } else if (r->animals > 1 && at > 0 && (says(t, at - 1, "and n") || is_mark(t, at - 1, '&') || is_mark(t, at - 1, ','))) {
    take(t, at - 1, used + 1);
    r->weights_told = true;
  }
}

/* "My other one, 30 kg, just gets triple of everything" */
static bool is_of_other_one(const struct tokens *t, size_t at) {
  enum { FAR = 5 };
  for (size_t i = at; i-- > 0 && i + FAR > at && !is_mark(t, i, '.') && !is_mark(t, i, ';');)
    if (phrase_of(t, i, CLASS_OTHER_ONE) > 0) return true;
  return false;
}

static bool is_of_the_last_one(const struct tokens *t, size_t at) {
  enum { FAR = 5 };
  enum species s;
  for (size_t i = at, begin = at > FAR ? at - FAR : 0; i-- > begin;)
    if (says(t, i, "last previous late former") && is_word(t, i + 1) &&
        (is_animal_word(t->item[i + 1].word, &s) || says(t, i + 1, "one")))
      return true;
  return false;
}

/* "Weighs 36 now but should be 34": no unit, and among grams kilograms. */
static size_t bare_weight_at(struct post_reader *r, const struct tokens *t, size_t at, double *kg) {
  static const double LEAST_KG = 2, MOST_KG = 90;
  struct quantity q =
      at > 0 && is_number(t, at) && says(t, at - 1, "weighs weighing") ? quantity_at(t, at) : (struct quantity){0};
  size_t behind = at + q.tokens;
  bool ends = behind >= t->count || t->item[behind].kind == TOKEN_MARK || says_a(t, behind, CLASS_BEHIND_BARE_WEIGHT);
  if (q.tokens == 0 || q.fault != QUANTITY_FINE || q.low != q.high || !ends || !(q.low >= LEAST_KG && q.low <= MOST_KG))
    return 0;
  if (r->weight_kg > 0) return 0;
  *kg = q.low;
  return q.tokens;
}

/* "21 kg." alone, and the text tells no other weight: of the animal. */
void post_take_lone_weight(struct post_reader *r) {
  for (size_t i = 0; i < r->heard_count && !(r->weight_kg > 0); i++) {
    enum { FEW = 4 };
    struct tokens t = post_tokens(r, r->heard[i].text);
    double kg;
    size_t used = t.count > FEW ? 0 : post_weight_at(&t, 0, &kg);
    bool on_a_day = used > 0 && says(&t, used, "on") && says_a(&t, used + 1, CLASS_DAY_OF_WEEK) && used + 2 == t.count;
    if (used == 0 || (used < t.count && !on_a_day)) continue;
    bool fed = false;
    for (size_t k = 0; k < r->count; k++) fed = fed || (r->item[k].kind != ITEM_GONE && r->item[k].sentence == i + 1);
    if (fed) continue;
    r->weight_kg = kg;
    r->animal_line = r->heard[i].line;
    r->sentence = r->heard[i].text;
    post_claim(r, r->heard[i].text, CLAIM_TOLD, 0, 0);
  }
  r->sentence = (struct span){"", 0};
}

static bool find_weight(struct post_reader *r, struct tokens *t, bool animal, size_t not_told) {
  bool found = false, this_one = says_this_one(t), roster = post_roster(r, t) >= 2;
  animal = animal || roster;
  for (size_t i = 0; i < t->count; i++) {
    double kg = 0;
    size_t used = post_weight_at(t, i, &kg);
    if (used == 0 && animal) {
      used = bare_weight_at(r, t, i, &kg);
      if (used > 0) post_ask(r, 3, "Is the weight in kilograms? It was taken for %s.", post_kilograms(r, kg));
    }
    bool range = i > 1 && (is_mark(t, i - 1, '-') || is_mark(t, i - 1, '/')) && is_number(t, i - 2);
    bool other =
        i > 0 && (says_a(t, i - 1, CLASS_BEFORE_ANOTHER_WEIGHT) || (i > 1 && says_a(t, i - 2, CLASS_BEHIND_ANOTHER_WEIGHT)));
    other = other || (says_a(t, i + used, CLASS_BEHIND_A_PACK_WEIGHT) && !is_of_an_animal(r, t, i + used));
    other = other || post_is_made_at_once(t, i, used);
    other = other || (used > 0 && frequency_at(t, i + used).tokens > 0 &&
                      says(t, i + used, "a per each every"));              /* "maybe 5kg a month" */
    if (used > 0 && (is_of_other_one(t, i) || is_of_the_last_one(t, i))) { /* that eats its own; "my last dog (25kg)" */
      take(t, i, used);
      continue;
    }
    if (used == 0 || range || other) continue; /* and not "his ideal weight is 20 kg" */
    if (not_told < t->count && clause_begin(t, not_told) == clause_begin(t, i)) continue; /* "two years ago he was 24 kg" */
    bool weighs =
        i > 0 && (says_a(t, i - 1, CLASS_BEFORE_WEIGHT) ||
                  (i > 1 && says(t, i - 2, "weighs weighing weight both they're theyre who's whos he's she's hes shes is") &&
                   says(t, i - 1, "about around is only weigh")));
    weighs = weighs || (i > 1 && says(t, i - 2, "for")) ||
             (i > 2 && is_mark(t, i - 1, ',') && says(t, i - 3, "for")); /* "for Bear, 34kg" */
    bool of_name =
        i == 1 && post_pet_name(r, t, 0).n > 0 && t->item[0].word.n > post_pet_name(r, t, 0).n; /* "Nell's 10 kg" */
    weighs = weighs || of_name;
    weighs = weighs || eats_behind_weight(r, t, i, used) || post_one_before(t, i).n > 0;
    weighs = weighs || (!animal && (is_whose_weight(r, t, i, used) || is_weight_of_today(r, t, i, used)));
    struct span name = name_before(t, i);
    if ((!animal && !weighs && !this_one) || belongs_to_food(r, t, i + used)) continue;
    if (is_past_weight(t, i)) {
      if (!(r->past_kg > 0)) r->past_kg = kg;
      take(t, i, used);
      continue;
    }
    struct span one = post_one_before(t, i);
    if (one.n > 0) name = one;
    size_t open = i; /* "Duke (Lab x, 35 kg)" */
    while (open > 0 && open + 6 > i && !is_mark(t, open, '(') && !is_mark(t, open, ')')) open--;
    bool bracket = name.n == 0 && open > 0 && is_mark(t, open, '(') && post_pet_name(r, t, open - 1).n > 0;
    if (bracket) name = post_pet_name(r, t, open - 1);
    if (name.n == 0) name = subject_of(r, t, i);
    bool by_name = name.n > 0 && (roster || bracket || one.n > 0 || is_mark(t, i - 1, '(') ||
                                  says(t, i - 1, "is weighs she's he's shes hes"));
    if (found && !by_name) { /* "Ida (9 kg) and Bruno (26 kg)" */
      take_other_weight(r, t, i, used);
      continue;
    }
    remember_name(r, name, kg);
    if (r->weight_kg > 0 && !this_one) {
      if (fabs(r->weight_kg - kg) > 0.05 * kg && !r->several_weights) {
        r->several_weights = true;
        r->weights_line = r->line;
      }
      take(t, i, used);
    } else {
      if (this_one && r->weight_kg > 0) {
        r->age_years = (double)NAN;
        r->neutered = -1;
        r->subject_named = true;
      }
      take_weight(r, t, i, used, kg);
      this_one = false;
    }
    found = true;
  }
  return found;
}

static void find_age(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    double years = 0;
    size_t used = post_age_at(t, i, &years);
    if (used == 0 || (i > 0 && says(t, i - 1, "for last past over within about") && !says(t, i + used - 1, "old"))) continue;
    bool then =
        i > 1 && says(t, i - 1, "at") && (says_a(t, i - 2, CLASS_NEUTERED) || says_a(t, i - 2, CLASS_NEUTERED_IN_ITS_PLACE));
    bool doubted = is_mark(t, i + used, '?');                           /* "12 year old?? No, she is two" */
    if (isnan(r->age_years) && !then && !doubted) r->age_years = years; /* and not of "spayed at 2 years" */
    take(t, i, used);
    if (then) continue;
    return;
  }
  /* "Dog: 22 kg, neutered, 5": a bare number in the animal's own line */
  for (size_t i = 1; i < t->count && isnan(r->age_years); i++) {
    if (is_mark(t, i - 1, '/') && i > 1 && is_number(t, i - 2)) continue; /* "80/10/10" is a mince */
    bool said =
        says_a(t, i - 1, CLASS_BEFORE_AGE) || ((is_mark(t, i - 1, ',') || is_mark(t, i - 1, '/')) &&
                                               (i + 1 == t->count || is_mark(t, i + 1, '/') || is_mark(t, i + 1, ',') ||
                                                is_mark(t, i + 1, '.') || is_mark(t, i + 1, ')')));
    said = said || says(t, i - 1, "be both who's whos '");
    said = said || (is_mark(t, i - 1, '(') && is_mark(t, i + 1, ',') &&
                    says_a(t, i + 2, CLASS_TOLD_BESIDE_WEIGHT)); /* "(6, neutered)" */
    said =
        said || (i > 1 && says(t, i - 1, "roughly about around") && is_mark(t, i - 2, ',')); /* "rescue cat, roughly 6," */
    said = said || (i > 1 && (says(t, i - 1, "and n") || is_mark(t, i - 1, '&')) &&
                    t->item[i - 2].taken); /* behind the weight: "19 kg and 7" */
    said = said || (is_mark(t, i - 1, ',') && says(t, i + 1, "in last next") && says_a(t, i + 2, CLASS_MONTH_NAME));
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || says(t, i, "a an one") || !said || !(q.low >= 1 && q.low <= 22))
      continue;
    size_t next = i + q.tokens;
    if (next < t->count && t->item[next].kind == TOKEN_WORD && !says_a(t, next, CLASS_BEHIND_AGE)) continue;
    if (is_mark(t, next, '%') || is_mark(t, next, '/') || is_mark(t, next, 'x')) continue;
    r->age_years = q.low;
    take(t, i, q.tokens);
  }
}

/* "Weight: 13.5 kg", "Neutered: yes", "Species: cat", "Breed: whippet" in lines of their own. */
static bool told_as_field(struct post_reader *r, struct tokens *t) {
  double kg;
  if (t->count < 3 || t->count > 8) return false;
  size_t of_today = says(t, 0, "present current actual today's") && says(t, 1, "weight") ? 1 : 0;
  if (!is_mark(t, of_today + 1, ':')) return false;
  if (says(t, of_today, "weight bodyweight weighs") && post_weight_at(t, of_today + 2, &kg) > 0) {
    if (isnan(r->weight_kg)) r->weight_kg = kg, r->animal_line = r->line;
  } else if (says(t, 0, "neutered spayed castrated neuter desexed fixed") && says(t, 2, "yes y no n")) {
    r->neutered = says(t, 2, "yes y");
  } else if (!says(t, 0, "breed species animal pet sex gender") || post_any_amount(t, 2)) {
    return false;
  }
  take(t, 0, t->count);
  return true;
}

/* "Age: 4" in a line of its own. */
static bool told_alone(struct post_reader *r, struct tokens *t) {
  if (t->count > 6 || !says(t, 0, "age aged") || !is_number(t, is_mark(t, 1, ':') ? 2 : 1)) return false;
  double years = t->item[is_mark(t, 1, ':') ? 2 : 1].value;
  if (!(years > 0 && years < 30)) return false;
  if (isnan(r->age_years)) r->age_years = says(t, t->count - 1, "months month mo") ? years / 12 : years;
  take(t, 0, t->count);
  return true;
}

/* "Max 17.5 kg": a word that no food has, a weight, and nothing else but an age. */
static bool a_name_and_a_weight(struct post_reader *r, const struct tokens *t) {
  double kg, years;
  size_t at = is_mark(t, 1, ',') || is_mark(t, 1, ':') ? 2 : 1; /* "Moss, 31 kg" */
  if (is_mark(t, 1, '(')) at = 2;
  if (t->count < 2 || !is_word(t, 0) || post_weight_at(t, at, &kg) == 0) return false;
  size_t end = at + post_weight_at(t, at, &kg);
  if (is_mark(t, end, ')')) end++;
  bool eats = is_mark(t, end, ':') || says(t, end, "eats gets has is"); /* "Moss 31 kg eats 600 g a day" */
  if (is_mark(t, end, ',')) end++;
  end += post_age_at(t, end, &years);
  if (is_mark(t, end, '.') || is_mark(t, end, ':')) end++;
  bool capital = t->item[0].at.p[0] >= 'A' && t->item[0].at.p[0] <= 'Z';
  return (end >= t->count || eats) && capital && t->item[0].at.n > 2 && post_mention_at(r, t, 0) == 0 &&
         !says_a(t, 0, CLASS_OF_A_BATCH_WEIGHT);
}

/* "She is twelve and a bit deaf" */
static bool is_age_in_words(const struct tokens *t, size_t at) {
  struct quantity q = quantity_at(t, at);
  size_t behind = at + q.tokens;
  return q.fault == QUANTITY_FINE && q.low == q.high && q.low >= 1 && q.low <= 22 && !says(t, at, "a an one") &&
         (behind >= t->count || t->item[behind].kind == TOKEN_MARK || says_a(t, behind, CLASS_BEHIND_AGE));
}

bool post_animal(struct post_reader *r, struct tokens *t) {
  if (t->count > 0 && says(t, 0, "kg")) return false; /* "kg per week:" */
  count_species(r, t);
  find_subject(r, t);
  bool animal = says_animal(r, t) || a_name_and_a_weight(r, t);
  if (r->activity < 0) r->activity = post_activity(t);
  count_ours(r, t);
  count_animals(r, t);
  count_toms(r, t);
  if (told_as_field(r, t) || told_alone(r, t) || post_told_in_letters(r, t)) return true;
  post_take_long_done(r, t);
  size_t not_told = t->count;
  if (not_fed_at(t, &not_told) != NOT_FED_PAST) not_told = t->count;
  bool not_said = not_fed(t) != NULL;
  bool before = r->weight_kg > 0;
  bool found = find_weight(r, t, animal, not_told);
  if (!found && not_said) return false;
  double years;
  bool tells_age = false;
  for (size_t i = 0; i < t->count && !tells_age; i++) tells_age = post_age_at(t, i, &years) > 0;
  bool owner = found || (animal && tells_age);
  if (!owner && animal) /* "She is 7 and fixed" */
    for (size_t i = 0; i + 1 < t->count; i++)
      owner = owner || (says(t, i, "she's he's aged") && is_number(t, i + 1)) ||
              (says(t, i, "she he") && says(t, i + 1, "is") && (is_number(t, i + 2) || is_age_in_words(t, i + 2)));
  bool told = false; /* "She is spayed and 5" */
  if (!owner && animal) told = post_says_neutered(r, t);
  for (size_t i = 0; i < t->count && told; i++) {
    struct post_amount a = post_amount_at(t, i);
    told = a.tokens == 0 || a.bare;
  }
  if (told)
    for (size_t i = 0; i < t->count && isnan(r->age_years); i++)
      if (is_number(t, i) && t->item[i].value >= 1 && t->item[i].value <= 22) {
        r->age_years = t->item[i].value;
        take(t, i, 1);
      }
  if (!owner && !told) return false;
  if (!before || found || isnan(r->age_years)) find_age(r, t);
  post_take_neutered(r, t);
  return true;
}
