/* The keys of the animal text, and how the value of each is read. */
#include "animal/animal_keys.h"

#include "base/num.h"
#include "base/table.h"
#include "foods/unit.h"

static struct animal *animal_of(const struct header_value *v) { return v->into; }

static bool ends(struct header_value *v, size_t at) { return value_ends(v->d, &v->t, at, v->row->example); }

/* "18.2 kg", "10 lb 4 oz" */
static void read_weight(struct header_value *v) {
  const struct tokens *t = &v->t;
  double *kg = (double *)(void *)((char *)v->into + v->row->to);
  size_t used = 0, unit_used = 0;
  double n = value_number(v->d, t, v->value, v->row->example, &used), ounces = 0;
  if (isnan(n)) return;
  enum unit u = used < t->count && t->item[used].kind == TOKEN_WORD ? unit_by_word(t->item[used].word) : UNIT_NONE;
  if (unit_info[u].kind != UNIT_KIND_MASS) {
    SAY(UNIT, v, v->value, "'%.*s': is that kg or lb? write it as in '%s' or '40 lb'", SPAN_ARG(quoted(v->value)),
        v->row->example);
    return;
  }
  size_t at = used + 1;
  if (u == UNIT_LB && at < t->count) {
    size_t more = phrase_at(t, at, "and");
    struct quantity oz = quantity_at(t, at + more);
    unit_used = ANY_OF(t, at + more + oz.tokens, "oz", "ounces", "ounce");
    if (oz.fault == QUANTITY_FINE && unit_used > 0) {
      ounces = oz.low;
      at += more + oz.tokens + unit_used;
    }
  }
  if (!ends(v, at)) return;
  double sum = (unit_convert(n, u) + unit_convert(ounces, UNIT_OZ)) / 1000;
  if (sum > 0)
    *kg = sum;
  else
    SAY(NUMBER, v, v->value, "a weight must be more than nothing");
}

static void read_age(struct header_value *v) {
  double years = 0;
  size_t at = 0;
  do {
    struct tokens rest = tokens_part(&v->t, at, v->t.count);
    size_t used = 0, unit;
    double n = value_number(v->d, &rest, v->value, v->row->example, &used), per_year;
    if (isnan(n)) return;
    if ((unit = ANY_OF(&rest, used, "years", "year", "yrs", "yr", "y")) > 0)
      per_year = 1;
    else if ((unit = ANY_OF(&rest, used, "months", "month", "mo")) > 0)
      per_year = 12;
    else if ((unit = ANY_OF(&rest, used, "weeks", "week", "wks")) > 0)
      per_year = 52.18;
    else {
      SAY(UNIT, v, v->value, "'%.*s': is that years or months? write it as in '%s' or 'Age: 18 months'",
          SPAN_ARG(quoted(v->value)), v->row->example);
      return;
    }
    years += n / per_year;
    at += used + unit;
    at += ANY_OF(&v->t, at, "old", "and", ",");
  } while (at < v->t.count);
  animal_of(v)->age_years = years;
}

static void read_species(struct header_value *v) {
  if (ANY_OF(&v->t, 0, "dog", "dogs", "canine", "puppy", "bitch") > 0)
    animal_of(v)->species = SPECIES_DOG;
  else if (ANY_OF(&v->t, 0, "cat", "cats", "feline", "kitten", "tomcat") > 0)
    animal_of(v)->species = SPECIES_CAT;
  else
    SAY(UNKNOWN_WORD, v, v->value, "'%.*s' is not a species that can be worked out here; write 'dog' or 'cat'",
        SPAN_ARG(quoted(v->value)));
}

static void read_born(struct header_value *v) {
  struct date born, today = ((const struct animal_reader *)v->reader)->today;
  if (!date_read(v->value, &born)) {
    SAY(NUMBER, v, v->value, "'%.*s' is not a date; write year, month and day, as in 'Born: 2019-04-12'",
        SPAN_ARG(quoted(v->value)));
  } else if (today.year == 0) {
    SAY(DATE, v, v->value, "today's date is not known here; write 'Age: 6 years' instead of 'Born'");
  } else if (date_days(born) > date_days(today)) {
    SAY(NUMBER, v, v->value, "'%.*s' is in the future", SPAN_ARG(quoted(v->value)));
  } else {
    animal_of(v)->age_years = date_years_between(born, today);
  }
}

static void read_condition(struct header_value *v) {
  const struct tokens *t = &v->t;
  struct quantity score = {.fault = QUANTITY_NONE};
  size_t at = 0;
  /* "6/9" must not be read as two thirds. */
  if (t->count > 0 && t->item[0].kind == TOKEN_NUMBER) {
    struct tokens one = {t->item, 1};
    score = quantity_at(&one, 0);
    at = 1;
    size_t of = ANY_OF(t, at, "/", "of", "out of");
    if (of > 0) {
      at += of;
      if (at >= t->count || t->item[at].kind != TOKEN_NUMBER || t->item[at].value != 9) {
        SAY(NUMBER, v, v->value, "'%.*s': only the scale of nine is read; write it as in '%s'", SPAN_ARG(quoted(v->value)),
            v->row->example);
        return;
      }
      at++;
    }
  }
  if (score.fault != QUANTITY_FINE || !(score.low >= 1 && score.low <= 9)) {
    SAY(NUMBER, v, v->value, "'%.*s' is not a condition score from 1 to 9; write it as in '%s'", SPAN_ARG(quoted(v->value)),
        v->row->example);
  } else if (ends(v, at)) {
    animal_of(v)->condition = score.low;
  }
}

static void read_neutered(struct header_value *v) {
  struct animal *a = animal_of(v);
  if (ANY_OF(&v->t, 0, "yes", "y", "true", "spayed", "neutered", "castrated", "1") > 0)
    a->neutered = 1;
  else if (ANY_OF(&v->t, 0, "no", "n", "false", "not", "intact", "entire", "0") > 0)
    a->neutered = 0;
  else
    SAY(UNKNOWN_WORD, v, v->value, "'%.*s': write 'yes' or 'no'", SPAN_ARG(quoted(v->value)));
}

static const struct {
  const char *word;
  enum activity activity;
} ACTIVITY_WORDS[] = {{"resting", ACTIVITY_RESTING},   {"rest", ACTIVITY_RESTING},    {"caged", ACTIVITY_RESTING},
                      {"low", ACTIVITY_LOW},           {"quiet", ACTIVITY_LOW},       {"slow", ACTIVITY_LOW},
                      {"retired", ACTIVITY_LOW},       {"indoors", ACTIVITY_LOW},     {"lazy", ACTIVITY_LOW},
                      {"moderate", ACTIVITY_MODERATE}, {"normal", ACTIVITY_MODERATE}, {"medium", ACTIVITY_MODERATE},
                      {"high", ACTIVITY_HIGH},         {"active", ACTIVITY_HIGH},     {"working", ACTIVITY_WORKING},
                      {"sled", ACTIVITY_WORKING}};

static void read_activity(struct header_value *v) {
  for (size_t i = 0; i < COUNT_OF(ACTIVITY_WORDS); i++) {
    if (phrase_at(&v->t, 0, ACTIVITY_WORDS[i].word) == 0) continue;
    animal_of(v)->activity = ACTIVITY_WORDS[i].activity;
    animal_of(v)->activity_stated = true;
    return;
  }
  value_words(v->d, v->value, "an activity", activity_word, ACTIVITY_COUNT);
}

bool animal_begins_with_activity(const struct tokens *t) {
  for (size_t i = 0; i < COUNT_OF(ACTIVITY_WORDS); i++)
    if (phrase_at(t, 0, ACTIVITY_WORDS[i].word) > 0) return true;
  return false;
}

bool animal_mentions(const struct tokens *t, const char *const *words, size_t count) {
  for (size_t i = 0; i < t->count; i++)
    if (any_of(t, i, words, count) > 0) return true;
  return false;
}

/* "not pregnant", "no illness", "never ill": a word of denial right before it. */
bool animal_denies(const struct tokens *t, const char *word) {
  static const char *const DENIALS[] = {"not", "no", "never", "isn't", "without"};
  for (size_t i = 1; i < t->count; i++)
    for (size_t k = 0; k < COUNT_OF(DENIALS); k++)
      if (phrase_at(t, i, word) > 0 && phrase_at(t, i - 1, DENIALS[k]) > 0) return true;
  return false;
}

/* Only plain words of health count as healthy; whatever else is said is kept as it stands, and the animal counts as unwell.
 */
static void read_status(struct header_value *v) {
  static const char *const HEALTHY[] = {"healthy", "well", "fine", "good", "ok", "okay", "normal"};
  static const char *const FILLING[] = {"very",       "in",      "good",      "health",   "and",   "is",       "all",
                                        "a",          "adult",   "no",        "problems", "known", "illness",  "not",
                                        "pregnant",   "nursing", "lactating", "ill",      "sick",  "puppy",    "kitten",
                                        "growing",    "still",   "young",     "junior",   "pup",   "juvenile", "growth",
                                        "adolescent", "dog",     "cat",       "whelp",    "milk",  "expecting"};
  static const char *const PREGNANT[] = {"pregnant", "expecting", "in whelp", "in kitten", "gestating"};
  static const char *const NURSING[] = {"nursing", "lactating", "lactation", "suckling", "in milk"};
  static const char *const YOUNG[] = {"puppy",  "kitten", "growing",  "still growing", "young",
                                      "junior", "pup",    "juvenile", "in growth",     "adolescent"};
  static const char *const ANTIBIOTICS[] = {"antibiotic", "antibiotics"};
  struct animal *a = animal_of(v);
  const struct tokens *t = &v->t;
  bool healthy_word = animal_mentions(t, HEALTHY, COUNT_OF(HEALTHY)), only_known = true;
  for (size_t i = 0; i < t->count; i++)
    only_known = only_known && (t->item[i].kind == TOKEN_MARK || any_of(t, i, HEALTHY, COUNT_OF(HEALTHY)) > 0 ||
                                any_of(t, i, FILLING, COUNT_OF(FILLING)) > 0);
  a->pregnant = animal_mentions(t, PREGNANT, COUNT_OF(PREGNANT)) && !animal_denies(t, "pregnant");
  a->nursing =
      animal_mentions(t, NURSING, COUNT_OF(NURSING)) && !animal_denies(t, "nursing") && !animal_denies(t, "lactating");
  a->young = (any_of(t, 0, YOUNG, COUNT_OF(YOUNG)) > 0 || (only_known && animal_mentions(t, YOUNG, COUNT_OF(YOUNG)))) &&
             !animal_denies(t, "puppy") && !animal_denies(t, "kitten");
  a->antibiotics = animal_mentions(t, ANTIBIOTICS, COUNT_OF(ANTIBIOTICS));
  bool unwell = (animal_mentions(t, (const char *const[]){"ill", "sick"}, 2) && !animal_denies(t, "ill") &&
                 !animal_denies(t, "sick")) ||
                animal_denies(t, "healthy") || animal_denies(t, "well") || animal_denies(t, "fine") ||
                animal_denies(t, "good") || animal_denies(t, "ok");
  /* Pregnant, nursing and young have words of their own in the answer; they are no illness. */
  bool only_family = only_known && (a->pregnant || a->nursing || a->young);
  bool denies_illness = animal_denies(t, "problems") || animal_denies(t, "illness") || animal_denies(t, "known");
  a->healthy = only_known && !unwell && (healthy_word || only_family || denies_illness);
  a->status = arena_text(v->arena, v->value);
}

static void read_note(struct header_value *v) {
  struct animal *a = animal_of(v);
  struct buf b;
  buf_init(&b, v->arena, strlen(a->note) + v->value.n + 2);
  buf_addf(&b, "%s%s%.*s", a->note, a->note[0] ? "\n" : "", SPAN_ARG(v->value));
  a->note = buf_text(&b);
}

static void read_energy(struct header_value *v) {
  size_t used = 0;
  double n = value_number(v->d, &v->t, v->value, v->row->example, &used);
  if (isnan(n)) return;
  size_t kj = phrase_at(&v->t, used, "kj"), unit = kj + ANY_OF(&v->t, used, "kcal", "calories", "cal", "kcals");
  if (kj > 0) n /= 4.184; /* the thermochemical calorie, exact */
  if (unit == 0) {
    SAY(UNIT, v, v->value, "'%.*s' has no unit; write it as in '%s'", SPAN_ARG(quoted(v->value)), v->row->example);
    return;
  }
  used += unit;
  if (!ends(v, used + ANY_OF(&v->t, used, "/ day", "a day", "per day", "daily", "/ d"))) return;
  if (!(n > 0 && n <= 20000))
    SAY(NUMBER, v, v->value, "a day's energy is between 1 and 20000 kcal");
  else
    animal_of(v)->energy_kcal = n;
}

const struct header_row ANIMAL_KEYS[] = {
    {"Animal", NULL, "Name", "Animal: Juniper", NULL, 0, false, false},
    {"Species", NULL, NULL, "Species: dog", read_species, 0, false, false},
    {"Born", "Birthday", NULL, "Born: 2019-04-12", read_born, 0, false, false},
    {"Age", NULL, NULL, "Age: 6 years", read_age, 0, false, false},
    {"Weight", NULL, NULL, "Weight: 18.2 kg", read_weight, offsetof(struct animal, weight_kg), false, false},
    {"Ideal", "Ideal weight", NULL, "Ideal: 17.5 kg", read_weight, offsetof(struct animal, ideal_kg), false, false},
    {"Condition", "Body condition|Body condition score|Condition score", NULL, "Condition: 6/9", read_condition, 0, false,
     false},
    {"Adult weight", NULL, NULL, "Adult weight: 18 kg", read_weight, offsetof(struct animal, adult_weight_kg), false, false},
    {"Neutered", "Spayed", NULL, "Neutered: yes", read_neutered, 0, false, false},
    {"Activity", NULL, NULL, "Activity: moderate", read_activity, 0, false, false},
    {"Status", "Health", NULL, "Status: healthy", read_status, 0, false, false},
    {"Energy", NULL, NULL, "Energy: 780 kcal/day", read_energy, 0, false, false},
    {"Note", "Notes", NULL, "Note: hates carrots", read_note, 0, true, false}};
ROW_FOR_EACH(ANIMAL_KEYS, KEY_COUNT);
