/* Several animals that a sentence weighs, by their names, by what they are, or in a row: "my 6 kg terrier and my 24 kg lab",
 * "a chihuahua (3 kg) and a rottweiler (45 kg)", "two dogs, 10 kg and 40 kg". */
#include "post/animal/post_animal.h"

/* "6 kg terrier", "24 kg old lab", "31 kg of labrador": where the animal's word stands; t->count none. */
static size_t animal_behind(struct post_reader *r, const struct tokens *t, size_t at) {
  enum { FAR = 4 };
  enum species s;
  for (size_t i = at; i < at + FAR && is_word(t, i); i++) {
    if (token_is_animal(&t->item[i], &s)) return i;
    if (says(t, i, "and plus or each is a an the with for gets eats has") || post_mention_at(r, t, i) > 0) break;
  }
  return t->count;
}

/* "a 40 kg ridgeback and a ...": a word that nobody knows, where others of the sentence are animals; t->count none. */
static size_t unknown_behind(struct post_reader *r, const struct tokens *t, size_t at, size_t behind) {
  if (at == 0 || !says(t, at - 1, "a an my our") || !is_word(t, behind) || post_mention_at(r, t, behind) > 0)
    return t->count;
  bool thing = says_a(t, behind, CLASS_VESSEL) || says_a(t, behind, CLASS_THE_POT) || says_a(t, behind, CLASS_CHATTER) ||
               says_a(t, behind, CLASS_KIND_OF_FOOD) || says_a(t, behind, CLASS_FED_THING);
  bool ends = behind + 1 >= t->count || t->item[behind + 1].kind == TOKEN_MARK || says(t, behind + 1, "and n who");
  return ends && !thing ? behind : t->count;
}

/* "whippet Jet (13 kg)", "Kiki weighs 4 kg", "a spaniel, 18 kg": the word before the weight; t->count none. */
static size_t called_before(struct post_reader *r, const struct tokens *t, size_t at) {
  enum { FAR = 4 };
  enum species s;
  for (size_t back = 1; back <= FAR && back <= at; back++) {
    size_t i = at - back;
    if (is_mark(t, i, '(') || is_mark(t, i, ',') || is_mark(t, i, ':') || is_mark(t, i, '-')) continue;
    if (says(t, i, "is weighs at about around who who's which is's weighing only just")) continue;
    bool animal = is_word(t, i) && token_is_animal(&t->item[i], &s);
    return animal || post_pet_name(r, t, i).n > 0 ? i : t->count;
  }
  return t->count;
}

static void name_it(struct post_reader *r, const struct tokens *t, size_t at, struct weighed *w) {
  enum species s;
  if (token_is_animal(&t->item[at], &s)) {
    w->breed = t->item[at].word;
    w->species = (int)s;
    return;
  }
  w->name = post_pet_name(r, t, at);
  if (at > 0 && is_word(t, at - 1) && token_is_animal(&t->item[at - 1], &s)) {
    w->breed = t->item[at - 1].word;
    w->species = (int)s;
  }
}

/* What else is said of the one in [from, to): how active it is, whether neutered. */
static void hear_of_it(const struct tokens *t, size_t from, size_t to, struct weighed *w) {
  struct tokens own = {t->item + from, to - from};
  w->activity = post_activity(&own);
  for (size_t i = 0; i < own.count; i++) {
    if (says_a(&own, i, CLASS_NEUTERED)) w->neutered = 1;
    if (says(&own, i, "entire intact unneutered unspayed")) w->neutered = 0;
  }
}

enum { WEIGHED_IN_A_SENTENCE = 6 };

struct found {
  struct weighed is[WEIGHED_IN_A_SENTENCE];
  size_t from[WEIGHED_IN_A_SENTENCE], to[WEIGHED_IN_A_SENTENCE]; /* the weight, and the animal's word behind it */
  size_t count, behind, unknown; /* of them so many by the word behind the weight, and by one that nobody knows */
};

static struct found find_weighed(struct post_reader *r, const struct tokens *t) {
  struct found f = {.count = 0};
  for (size_t i = 0; i < t->count && f.count < WEIGHED_IN_A_SENTENCE; i++) {
    struct weighed w = {.species = -1, .neutered = -1, .activity = -1, .line = r->line};
    size_t used = post_weight_at(t, i, &w.kg), behind = i + used;
    if (used == 0 || post_is_made_at_once(t, i, used)) continue;
    if (i > 0 && (says_a(t, i - 1, CLASS_BEFORE_ANOTHER_WEIGHT) || says(t, i - 1, "was were"))) continue;
    size_t breed = animal_behind(r, t, behind), called = breed < t->count ? t->count : called_before(r, t, i);
    bool joined = f.count > 0 && f.to[f.count - 1] + 1 == i &&
                  (says(t, i - 1, "and n") || is_mark(t, i - 1, '&') || is_mark(t, i - 1, ','));
    bool first_of_row = f.count == 0 && r->animals > 1 && (says(t, behind, "and n") || is_mark(t, behind, '&'));
    size_t unknown = breed == t->count && called == t->count ? unknown_behind(r, t, i, behind) : t->count;
    if (unknown < t->count) breed = unknown, w.breed = t->item[unknown].word, f.unknown++;
    double kg;
    first_of_row = first_of_row && post_weight_at(t, behind + 1, &kg) > 0;
    if (breed == t->count && called == t->count && !joined && !first_of_row) continue;
    if (unknown == t->count && (breed < t->count || called < t->count)) name_it(r, t, breed < t->count ? breed : called, &w);
    if (f.count > 0 && called < t->count && called < f.to[f.count - 1]) continue; /* the same one again */
    f.behind += breed < t->count;
    f.from[f.count] = breed < t->count || called == t->count ? i : called;
    f.to[f.count] = breed < t->count ? breed + 1 : behind;
    f.is[f.count++] = w;
    i = (breed < t->count ? breed + 1 : behind) - 1;
  }
  if (f.unknown > 0 && f.unknown >= f.count) return (struct found){.count = 0};
  for (size_t i = 0; i < f.count; i++) {
    for (size_t k = 0; k < f.count && f.is[i].species < 0 && f.unknown > 0; k++) f.is[i].species = f.is[k].species;
    size_t end = i + 1 < f.count ? f.from[i + 1] : f.to[i];
    while (i + 1 == f.count && end < t->count && end < f.to[i] + 4 && post_amount_at(t, end).tokens == 0) end++;
    hear_of_it(t, f.from[i], end, &f.is[i]);
  }
  return f;
}

static void remember(struct post_reader *r, const struct weighed *w) {
  for (size_t i = 0; i < r->weighed_count; i++) {
    const struct weighed *old = &r->weighed[i];
    bool same = w->name.n > 0 ? post_same_name(w->name, old->name) : w->breed.n > 0 && span_eq_fold(w->breed, old->breed);
    if (same && old->kg == w->kg) return;
  }
  if (r->weighed_count == COUNT_OF(r->weighed)) return;
  struct weighed *kept = &r->weighed[r->weighed_count++];
  *kept = *w;
  kept->name = arena_span(r->keep, w->name);
  kept->breed = arena_span(r->keep, w->breed);
}

/* "One pot feeds both my 6 kg terrier and my 24 kg lab": takes them; false: the words are for others to read. */
static bool take_them(struct post_reader *r, struct tokens *t, const struct found *f) {
  bool one_kind = true;
  for (size_t i = 1; i < f->count; i++) one_kind = one_kind && f->is[i].species == f->is[0].species;
  if (f->behind < f->count || r->other_species) return false;
  size_t from = f->from[0];
  while (from > 0 && says(t, from - 1, "my our a an the both between")) from--;
  size_t to = f->to[f->count - 1];
  if (r->animals <= 1) r->animals = (int)f->count;
  if (!(r->weight_kg > 0)) {
    r->weight_kg = f->is[0].kg;
    r->animal_line = r->line;
  }
  if (one_kind)
    r->several_weights = true, r->weights_line = r->line;
  else
    r->other_species = true;
  if (f->is[0].species >= 0) r->weighed_species = f->is[0].species;
  if (from > 0 && says(t, from - 1, "feeds for") && !(from > 1 && says(t, from - 2, "recipe meal")))
    r->one_pot = true; /* "feeds a 9 kg schnauzer and a 36 kg shepherd" */
  post_claim(r, tokens_span(t, from, to - from), CLAIM_TOLD, 0, 0);
  take(t, from, to - from);
  return true;
}

/* "We had a 6 kg terrier and a 24 kg lab", "was a 6 kg puppy and is now a 24 kg lab" */
static bool is_of_then(const struct tokens *t, size_t to) {
  for (size_t i = 0; i < to; i++)
    if (says(t, i, "had was were lost") || phrase_at(t, i, "used to") > 0) return true;
  return false;
}

bool post_weighs_several(struct post_reader *r, struct tokens *t) {
  struct found f = find_weighed(r, t);
  if (f.count == 0 || is_of_then(t, f.from[0])) return false;
  for (size_t i = 0; i < f.count; i++) remember(r, &f.is[i]);
  if (f.count < 2) return false;
  for (size_t i = f.to[f.count - 1]; i < t->count && i < f.to[f.count - 1] + 4; i++)
    if (says(t, i, "share shares")) { /* "a chihuahua (3 kg) and a rottweiler (45 kg) who share 1.2 kg of pork" */
      r->one_pot = true;
      size_t from = i > 0 && says(t, i - 1, "who which that they") ? i - 1 : i;
      post_claim(r, tokens_span(t, from, i + 1 - from), CLAIM_TOLD, 0, 0);
    }
  return take_them(r, t, &f);
}

/* ---- how many they are ---- */

/* "Maine Coons", "Border collies": the last word of two is the animal. */
static bool is_first_of_breed(const struct tokens *t, size_t at) {
  enum species s;
  return t->item[at].at.p[0] >= 'A' && t->item[at].at.p[0] <= 'Z' && token_is_animal(&t->item[at + 1], &s);
}

static bool is_plural_animal(const struct tokens *t, size_t at) {
  enum species s;
  struct span w = t->item[at].word;
  return w.n > 3 && w.p[w.n - 1] == 's' && token_is_animal(&t->item[at], &s);
}

/* "Batch for 2 cats" */
void post_count_animals(struct post_reader *r, struct tokens *t) {
  enum species s;
  for (size_t i = 0; i + 1 < t->count; i++) {
    double each;
    if (says(t, i, "pair couple trio") && says(t, i + 1, "of")) { /* "my pair of 7 kg terriers" */
      size_t of = i + 2 + post_weight_at(t, i + 2, &each);
      if (is_word(t, of) && (says(t, of, "dogs cats") || is_plural_animal(t, of))) r->animals = says(t, i, "trio") ? 3 : 2;
    }
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < 2 || q.low > 12 || q.low != floor(q.low)) continue;
    size_t next = i + q.tokens;
    bool ours = i == 0 || says(t, i - 1, "my our the for both have got own between among");
    if (ours && is_word(t, next + 1) &&
        says(t, next, "rescue old young indoor big small little fat elderly mini miniature toy standard"))
      next++;
    if (ours && is_word(t, next + 1) && is_first_of_breed(t, next)) next++; /* "my two Maine Coons" */
    double kg;
    size_t weight = ours ? post_weight_at(t, next, &kg) : 0; /* "my two 12 kg dogs": the weight is read as others are */
    if (weight > 0 &&
        (says(t, next + weight, "dogs cats") || (is_word(t, next + weight) && is_plural_animal(t, next + weight)))) {
      r->animals = (int)q.low;
      continue;
    }
    bool several = says(t, next, "dogs cats kitties");
    several = several || (ours && says(t, next, "pups"));
    several = several || (ours && is_word(t, next) && is_plural_animal(t, next)); /* "my two whippets" */
    if (several && token_is_animal(&t->item[next], &s)) {
      r->animals = (int)q.low;
      take(t, i, next + 1 - i);
    }
  }
}
