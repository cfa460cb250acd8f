/* The animal told in passing; of several, the one whose bowl it is. */
#include "base/num.h"
#include "post/animal/post_animal.h"

/* "I do a mix of ...", "mix it and press it": nobody's breed. */
static bool mixes(const struct tokens *t, size_t at) {
  return says(t, at, "mix") && (says(t, at + 1, "of it in the them everything all with and") ||
                                (at > 0 && says(t, at - 1, "the this that i we to my veg meat")));
}

/* "my tom", "our old queen", "queen, 4 kg": such words are names elsewhere. */
static bool is_tom(const struct post_reader *r, const struct tokens *t, size_t at) {
  double kg;
  if (!says(t, at, "tom queen")) return false;
  if (at > 0 && t->item[at].at.p[0] >= 'a' &&
      says(t, at - 1,
           "black ginger tabby white grey gray tuxedo neutered castrated old young big indoor entire rescue farm red orange "
           "cream tortie year-old"))
    return true; /* "a 5 kg black tom" */
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

bool post_animal(struct post_reader *r, struct tokens *t) {
  if (t->count > 0 && says(t, 0, "kg")) return false; /* "kg per week:" */
  count_species(r, t);
  find_subject(r, t);
  bool animal = says_animal(r, t) || a_name_and_a_weight(r, t);
  if (r->activity < 0) r->activity = post_activity(t);
  count_ours(r, t);
  post_count_animals(r, t);
  count_toms(r, t);
  if (told_as_field(r, t) || told_alone(r, t) || post_told_in_letters(r, t)) return true;
  post_take_long_done(r, t);
  size_t not_told = t->count;
  if (not_fed_at(t, &not_told) != NOT_FED_PAST) not_told = t->count;
  bool not_said = not_fed(t) != NULL;
  bool before = r->weight_kg > 0;
  bool found = post_take_weight(r, t, animal, not_told);
  if (!found && not_said) return false;
  double years;
  bool tells_age = false;
  for (size_t i = 0; i < t->count && !tells_age; i++) tells_age = post_age_at(t, i, &years) > 0;
  bool owner = found || (animal && tells_age);
  if (!owner && animal) /* "She is 7 and fixed" */
    for (size_t i = 0; i + 1 < t->count; i++)
      owner = owner || (says(t, i, "she's he's aged") && is_number(t, i + 1)) ||
              (says(t, i, "she he") && says(t, i + 1, "is") && (is_number(t, i + 2) || post_is_age_in_words(t, i + 2)));
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
  if (!before || found || isnan(r->age_years)) post_take_age(r, t);
  post_take_neutered(r, t);
  return true;
}
