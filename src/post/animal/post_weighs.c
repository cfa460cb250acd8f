/* What the animal weighs, told in passing; of several weights, the one that is asked about. */
#include "base/num.h"
#include "post/animal/post_animal.h"

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
  if (says(t, after, "ginger") && says(t, after + 1, "tom cat boy girl lad moggy one")) return false;
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

/* "Meg is 6, 19 kg, works a bit": a name with its age and its weight. */
static bool is_age_and_weight(struct post_reader *r, const struct tokens *t, size_t at, size_t used) {
  static const double OLDEST = 25;
  if (at < 4 || !is_mark(t, at - 1, ',') || (at + used < t->count && t->item[at + used].kind != TOKEN_MARK)) return false;
  size_t age = at - 2;
  if (age > 2 && says(t, age, "yrs years yr yo y")) age--;
  if (!is_number(t, age) || t->item[age].value > OLDEST || age < 2 || !says(t, age - 1, "is")) return false;
  char first = t->item[age - 2].at.p[0];
  return is_word(t, age - 2) && first >= 'A' && first <= 'Z' && post_mention_at(r, t, age - 2) == 0;
}

/* "my 21 kg mixture of everything", "Pedro (podenco, 19kg)": who it is needs no word that is known. */
static bool is_whose_weight(struct post_reader *r, const struct tokens *t, size_t at, size_t used) {
  for (size_t back = 1; back <= 4 && back <= at; back++) { /* "my girl Juniper 18kg" */
    if (says(t, at - back, "my our")) return true;
    bool bracket = is_mark(t, at - back, '(') && at > back && /* "our boy (25 kg)", and not "my mix (5 kg)" */
                   says(t, at - back - 1, "boy girl lad lass fella chap lady gent baby beast monster");
    if (t->item[at - back].kind != TOKEN_WORD && !is_mark(t, at - back, ',') && !bracket) break;
    if (post_mention_at(r, t, at - back) > 0) break;
  }
  if (is_introduced(r, t, at, used) || is_age_and_weight(r, t, at, used)) return true;
  size_t open = at;
  while (open > 0 && open + 5 > at && !is_mark(t, open, '(')) open--;
  if (open == 0 || !is_mark(t, open, '(') || t->item[open - 1].kind != TOKEN_WORD) return false;
  char first = t->item[open - 1].at.p[0];
  bool ends = is_mark(t, at + used, ')') || is_mark(t, at + used, ',');
  return ends && first >= 'A' && first <= 'Z' && post_mention_at(r, t, open - 1) == 0 && t->item[open - 1].at.n > 2;
}

/* "They are brothers, 15 kg each": of several, and no food. */
static bool weighs_each(struct post_reader *r, const struct tokens *t, size_t at, size_t used) {
  bool several = r->animals > 1 || r->one_pot;
  if (!says(t, at + used, "each apiece") || says_a(t, at + used + 1, CLASS_BEHIND_EACH_OF_TIME)) return false;
  for (size_t i = 0; i < t->count; i++) {
    if (i < at && says_a(t, i, CLASS_EATER_VERB)) return false;
    several = several || says(t, i, "they they're theyre both brothers sisters littermates");
  }
  return several && !post_names_food(r, t, 0, t->count);
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
  bool vet = says(t, behind + 1, "vet vets vet's") || /* "41 kg and the vet wants her at 33": the wish is heard already */
             (says(t, behind + 1, "the our my his her") && says(t, behind + 2, "vet vets vet's"));
  return at == 0 && says(t, behind, "and but") && (somebody || vet) && !post_any_amount(t, behind) &&
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

bool post_take_weight(struct post_reader *r, struct tokens *t, bool animal, size_t not_told) {
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
    bool each = weighs_each(r, t, i, used);
    r->weights_told = r->weights_told || each || (says(t, i + used, "each") && animal);
    weighs = weighs || each || (!animal && (is_whose_weight(r, t, i, used) || is_weight_of_today(r, t, i, used)));
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
