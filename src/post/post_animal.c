/* The animal told in passing, and how long a batch lasts. */
#include "base/num.h"
#include "post/post_parts.h"

/* ---- weight and age ---- */

static const double KG_PER_LB = 0.45359237;

/* Tokens of "22 kg", "55 lb", "65#", "4.2kg"; 0. */
static size_t weight_at(const struct tokens *t, size_t at, double *kg) {
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE || says(t, at, "a an")) return 0;
  double x = (q.low + q.high) / 2; /* "24-25 kg" */
  size_t unit = at + q.tokens;
  if (is_mark(t, unit, '-') || says(t, unit, "ish odd")) unit++;
  if (is_mark(t, unit, '-') || says(t, unit, "odd")) unit++;
  if (says(t, unit, "kg kgs kilo kilos kilogram kilograms kilogrammes kilogrammes"))
    *kg = x;
  else if (says(t, unit, "lb lbs pound pounds lbs."))
    *kg = x * KG_PER_LB;
  else if (is_mark(t, unit, '#') && t->item[unit].glued)
    *kg = x * KG_PER_LB;
  else
    return 0;
  return *kg >= 0.8 && *kg <= 110 ? unit + 1 - at : 0;
}

/* "5yrs", "3 yo", "8 years old", "7 y", "18 months" */
static size_t age_at(const struct tokens *t, size_t at, double *years) {
  struct quantity q = quantity_at(t, at);
  if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low > 0 && q.low < 30)) return 0;
  size_t end = at + q.tokens;
  if (is_mark(t, end, '-')) end++;
  if (says(t, end, "yr yrs year years yo y yrs. jahre jahr ans anni years-old year-old yr-old"))
    *years = q.low;
  else if (says(t, end, "month months mo mths") && q.low >= 2 && says(t, end + 1, "old"))
    *years = q.low / 12;
  else
    return 0;
  end++;
  if (is_mark(t, end, '.') && t->item[end].glued) end++;
  if (is_mark(t, end, '/') && says(t, end + 1, "o")) end += 2;
  if (is_mark(t, end, '-')) end++;
  if (says(t, end, "old")) end++;
  if (says(t, end, "ago worth")) return 0;
  return end - at;
}

/* The food that a weight would belong to: "4.2 kg chicken", "2 kg of beef". */
static bool belongs_to_food(struct post_reader *r, const struct tokens *t, size_t after) {
  enum species s;
  if (says(t, after, "of")) return true;
  size_t end = after;
  while (end < t->count && end < after + 4 && !t->item[end].taken && t->item[end].kind == TOKEN_WORD &&
         !is_animal_word(t->item[end].word, &s) && !is_chatter(t->item[end].word))
    end++;
  if (end == after ||
      says(t, after, "male female neutered spayed castrated intact adult senior old young neutral fixed active"))
    return false;
  struct search_hit hit;
  for (size_t n = end - after; n > 0; n--)
    if (post_look_up(r, tokens_span(t, after, n), &hit) && hit.words_missed == 0 && hit.score > 0.6 &&
        !(end < t->count && is_animal_word(t->item[end].word, &s)))
      return true;
  return false;
}

static bool says_animal(const struct tokens *t) {
  enum species s;
  for (size_t i = 0; i < t->count; i++) {
    if (t->item[i].taken || t->item[i].kind != TOKEN_WORD) continue;
    if (is_animal_word(t->item[i].word, &s)) return true;
    if (says(t, i,
             "spayed neutered castrated kastriert fixed desexed intact entire weighs weighing yo yrs years yr he she "
             "he's she's female male old"))
      return true;
  }
  return false;
}

static void take_neutered(struct post_reader *r, struct tokens *t, bool take_it) {
  for (size_t i = 0; i < t->count; i++) {
    bool yes = says(t, i, "spayed speyed neutered castrated desexed neuter spay kastriert snipped doctored") ||
               (says(t, i, "fixed"));
    bool no = says(t, i, "intact entire unneutered unspayed unkastriert");
    if (!yes && !no) continue;
    r->neutered = no ? 0 : 1;
    if (take_it) take(t, i, 1);
  }
}

/* "done years ago", "spayed two years ago": that is past, and he is neutered; the rest of the sentence is of today. */
static void take_long_done(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i + 1 < t->count; i++) {
    if (!says(t, i, "done spayed neutered castrated snipped fixed desexed")) continue;
    for (size_t k = i + 1; k < t->count && k <= i + 5; k++)
      if (says(t, k, "ago") && says(t, k - 1, "years year months yrs ages while long")) {
        r->neutered = 1;
        take(t, i, k + 1 - i);
      }
  }
}

static void count_species(struct post_reader *r, const struct tokens *t) {
  enum species s;
  for (size_t i = 0; i < t->count; i++)
    if (t->item[i].kind == TOKEN_WORD && is_animal_word(t->item[i].word, &s))
      *(s == SPECIES_CAT ? &r->cat_words : &r->dog_words) += 1;
}

/* "Batch for 2 cats" */
static void count_animals(struct post_reader *r, struct tokens *t) {
  enum species s;
  for (size_t i = 0; i + 1 < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < 2 || q.low > 12 || q.low != floor(q.low)) continue;
    size_t next = i + q.tokens;
    bool several = says(t, next, "dogs cats kitties pups");
    bool ours = i > 0 && says(t, i - 1, "my our the for both");
    if (ours && is_word(t, next) && t->item[next].word.n > 3 && t->item[next].word.p[t->item[next].word.n - 1] == 's')
      several = true; /* "my two whippets" */
    if (several && is_animal_word(t->item[next].word, &s)) {
      r->animals = (int)q.low;
      post_ask(r, 3, "This batch is for %d animals. How much does each of them get, and what does each weigh?", r->animals);
      take(t, i, next + 1 - i);
    }
  }
}

/* "my tom", "our old queen": such words are names elsewhere. */
static void count_toms(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 1; i < t->count; i++)
    if (says(t, i, "tom queen") && (says(t, i - 1, "my our") || (i > 1 && says(t, i - 2, "my our")))) r->cat_words++;
}

static bool find_weight(struct post_reader *r, struct tokens *t, bool animal) {
  for (size_t i = 0; i < t->count; i++) {
    double kg = 0;
    size_t used = weight_at(t, i, &kg);
    bool range = i > 1 && (is_mark(t, i - 1, '-') || is_mark(t, i - 1, '/')) && is_number(t, i - 2);
    bool other = i > 0 && (says(t, i - 1, "ideal target goal ideally lost gained lose gain plus minus") ||
                           (i > 1 && says(t, i - 2, "ideal target goal was from lost gained lose gain")));
    if (used == 0 || range || other) continue; /* and not "his ideal weight is 20 kg" */
    bool weighs =
        i > 0 && (says(t, i - 1, "weighs weigh weighing weight weighed is hes shes he she he's she's dog's dog cat") ||
                  (i > 1 && says(t, i - 2, "weighs weighing weight") && says(t, i - 1, "about around is only")));
    weighs = weighs || (i > 1 && says(t, i - 2, "for")) ||
             (i > 2 && is_mark(t, i - 1, ',') && says(t, i - 3, "for")); /* "for Bear, 34kg" */
    if (!animal && !weighs) continue;
    if (belongs_to_food(r, t, i + used)) continue;
    if (r->weight_kg > 0) {
      if (fabs(r->weight_kg - kg) > 0.05 * kg)
        post_ask(r, 3, "Two weights are told for the animal. Which one is right today?");
      return true;
    }
    r->weight_kg = kg;
    r->animal_line = r->line;
    take(t, i, used);
    return true;
  }
  return false;
}

static void find_age(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    double years = 0;
    size_t used = age_at(t, i, &years);
    if (used == 0 || (i > 0 && says(t, i - 1, "for last past over within about") && !says(t, i + used - 1, "old"))) continue;
    if (isnan(r->age_years)) r->age_years = years;
    take(t, i, used);
    return;
  }
  /* "Dog: 22 kg, neutered, 5": a bare number in the animal's own line */
  for (size_t i = 1; i < t->count && isnan(r->age_years); i++) {
    bool said = says(t, i - 1,
                     "now turned nearly almost turning aged age she's he's is neutered spayed castrated fixed intact entire "
                     "male female") ||
                ((is_mark(t, i - 1, ',') || is_mark(t, i - 1, '/')) &&
                 (i + 1 == t->count || is_mark(t, i + 1, '/') || is_mark(t, i + 1, ',') || is_mark(t, i + 1, '.') ||
                  is_mark(t, i + 1, ')')));
    if (!is_number(t, i) || !said || !(t->item[i].value >= 1 && t->item[i].value <= 22)) continue;
    if (i + 1 < t->count && t->item[i + 1].kind == TOKEN_WORD &&
        !says(t, i + 1, "and but in on last this neutered spayed now"))
      continue;
    r->age_years = t->item[i].value;
    take(t, i, 1);
  }
}

/* "Weight: 13.5 kg", "Neutered: yes", "Species: cat", "Breed: whippet" in lines of their own. */
static bool told_as_field(struct post_reader *r, struct tokens *t) {
  double kg;
  if (t->count < 3 || t->count > 8 || !is_mark(t, 1, ':')) return false;
  if (says(t, 0, "weight bodyweight weighs") && weight_at(t, 2, &kg) > 0) {
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
  struct search_hit hit;
  if (t->count < 2 || t->count > 9 || !is_word(t, 0) || weight_at(t, 1, &kg) == 0) return false;
  size_t end = 1 + weight_at(t, 1, &kg);
  if (is_mark(t, end, ',')) end++;
  end += age_at(t, end, &years);
  return end >= t->count && !post_look_up(r, t->item[0].at, &hit);
}

bool post_animal(struct post_reader *r, struct tokens *t) {
  if (t->count > 0 && says(t, 0, "kg")) return false; /* "kg per week:" */
  count_species(r, t);
  if (r->activity < 0) r->activity = post_activity(t);
  count_animals(r, t);
  count_toms(r, t);
  if (told_as_field(r, t) || told_alone(r, t)) return true;
  take_long_done(r, t);
  bool past = not_fed(t) != NULL, animal = says_animal(t) || a_name_and_a_weight(r, t);
  if (past) return false;
  bool before = r->weight_kg > 0;
  bool found = find_weight(r, t, animal);
  double years;
  bool tells_age = false;
  for (size_t i = 0; i < t->count && !tells_age; i++) tells_age = age_at(t, i, &years) > 0;
  bool owner = found || (animal && tells_age);
  if (!owner && animal) /* "She is 7 and fixed" */
    for (size_t i = 0; i + 1 < t->count; i++)
      owner = owner || (says(t, i, "she's he's aged") && is_number(t, i + 1)) ||
              (says(t, i, "she he") && says(t, i + 1, "is") && is_number(t, i + 2));
  bool told = false; /* "She is spayed and 5" */
  for (size_t i = 0; i < t->count && !owner && animal; i++)
    told = told || says(t, i, "spayed neutered castrated desexed fixed");
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
  take_neutered(r, t, true);
  return true;
}

/* ---- batches ---- */

static bool says_any(const struct tokens *t, const char *words) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, words)) return true;
  return false;
}

static void set_days(struct post_reader *r, double days) {
  if (!(days > 0) || days > 366) return;
  if (r->makes_days > 0 && r->makes_days != days) {
    post_ask(r, 3, "Two lengths are told for the batch. How many days does it last?");
    return;
  }
  r->makes_days = days;
  r->makes_line = r->line;
}

/* "makes 6 days", "7 days worth", "lasts 8 days", "5-day batch", "makes 2 weeks", "split into 14 meals" */
static bool batch_number_at(struct post_reader *r, struct tokens *t, size_t i, bool batch) {
  struct quantity q = quantity_at(t, i);
  if (q.fault != QUANTITY_FINE || q.low != q.high) return false;
  size_t unit = i + q.tokens;
  if (is_mark(t, unit, '-')) unit++;
  bool days = says(t, unit, "day days day's days' tage jours"), weeks = says(t, unit, "week weeks wks"),
       months = says(t, unit, "month months months' month's");
  bool meals = says(t, unit, "meals portions bowls servings tubs bags dinners containers");
  bool worth = says(t, unit + 1, "worth batch supply");
  bool lasts =
      i > 0 && says(t, i - 1, "makes make lasts last for over into feeds serves batch covers fills fill gives yields");
  bool every = i > 0 && says(t, i - 1, "every") && says_any(t, "make makes cook cooks batch prep");
  bool bracketed = batch && i > 0 && (is_mark(t, i - 1, '(') || is_mark(t, i - 1, ','));
  if (says(t, unit, "meal tub portion bowl bag container") && says(t, unit + 1, "a per") && says(t, unit + 2, "day")) {
    r->meals_a_day = q.low;
    take(t, i, unit + 3 - i);
    return false;
  }
  if (says(t, unit + 1, "ago old now a") || (!days && !weeks && !months && !meals)) return false;
  if (meals && (says(t, unit + 1, "a per") || (i > 0 && says(t, i - 1, "gets eats")))) {
    if (says(t, unit + 2, "day")) r->meals_a_day = q.low;
    return false;
  }
  if (!(worth || every || bracketed || (lasts && (batch || says_any(t, "makes lasts worth") || !months)))) return false;
  if (meals)
    r->makes_meals = q.low;
  else
    set_days(r, q.low * (days ? 1 : weeks ? 7 : 28));
  take(t, i, unit + 1 - i);
  return true;
}

/* "Portions: 10" */
static bool portions_first(struct post_reader *r, struct tokens *t) {
  bool named = says(t, 0, "portions portion servings serves meals") && is_mark(t, 1, ':') && is_number(t, 2);
  if (!named || !(t->item[2].value >= 2)) return false;
  r->makes_meals = t->item[2].value;
  take(t, 0, t->count);
  return true;
}

static void find_meals_a_day(struct post_reader *r, const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || q.low > 6) continue;
    size_t end = i + q.tokens;
    if (says(t, end, "meals meal tubs tub portions portion bowls bowl bags bag servings serving containers container"))
      end++;
    if (says(t, end, "a per each") && says(t, end + 1, "day")) r->meals_a_day = q.low;
  }
}

/* "2.5% of body weight", "total 600g per day", "Batch of 4kg", "Total 7kg" */
static void find_totals(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0 || a.low != a.high) continue;
    size_t end = i + a.tokens;
    if (a.is_percent && (phrase_at(t, end, "of body weight") > 0 || phrase_at(t, end, "of bodyweight") > 0 ||
                         phrase_at(t, end, "body weight") > 0 || phrase_at(t, end, "of her body weight") > 0 ||
                         phrase_at(t, end, "of his body weight") > 0 || phrase_at(t, end, "bodyweight") > 0)) {
      r->feeds_percent = a.low;
      take(t, i, a.tokens);
      return;
    }
    bool behind = phrase_at(t, end, "in total") > 0 || phrase_at(t, end, "altogether") > 0 || phrase_at(t, end, "total") > 0;
    if (behind) end += says(t, end, "in") ? 2 : 1;
    bool total = behind || (i > 0 && (says(t, i - 1, "total totals totalling altogether") ||
                                      (i > 1 && says(t, i - 1, "of is") && says(t, i - 2, "batch total")) ||
                                      (i > 1 && is_mark(t, i - 1, ':') && says(t, i - 2, "total batch"))));
    bool a_day = phrase_at(t, end, "per day") > 0 || phrase_at(t, end, "a day") > 0 || phrase_at(t, end, "daily") > 0 ||
                 phrase_at(t, end, "/ day") > 0;
    size_t about = i > 0 && says(t, i - 1, "about approx approximately around roughly") ? 1 : 0;
    bool makes = i > about && says(t, i - 1 - about, "makes make yields yield");
    bool feeds = a_day && i > about && says(t, i - 1 - about, "feed feeds gets get eats eat fed is");
    bool food = end < t->count && !a_day && t->item[end].kind == TOKEN_WORD &&
                !says(t, end, "of per a total in and for so which that");
    total = total || ((makes || feeds) && !food && a.is_mass);
    if (!a.is_mass || !total) continue;
    double grams = a.low * (strcmp(a.unit, "kg") == 0   ? 1000
                            : strcmp(a.unit, "lb") == 0 ? 453.59237
                            : strcmp(a.unit, "oz") == 0 ? 28.349523
                                                        : 1);
    if (a_day)
      r->feeds_g = grams;
    else
      r->total_g = grams;
    take(t, i, a.tokens);
    return;
  }
}

bool post_batch(struct post_reader *r, struct tokens *t) {
  bool batch = says_any(t, "batch batches makes make made worth split lasts pot cook freezer freeze stew fills");
  bool found = false;
  if (portions_first(r, t)) return true;
  find_totals(r, t);
  for (size_t i = 0; i < t->count; i++)
    if (!t->item[i].taken) found = batch_number_at(r, t, i, batch) || found;
  if (phrase_at(t, 0, "every") == 0)
    for (size_t i = 0; i < t->count; i++) {
      bool week = phrase_at(t, i, "a week's worth") > 0 || phrase_at(t, i, "a weeks worth") > 0;
      bool month = phrase_at(t, i, "a months worth") > 0 || phrase_at(t, i, "a month's worth") > 0;
      if (week || month) set_days(r, week ? 7 : 28);
      found = found || week || month;
    }
  if (found) find_meals_a_day(r, t);
  return found;
}
