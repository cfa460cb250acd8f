#include "animal/animal_text.h"

#include <math.h>

#include "base/num.h"
#include "foods/unit.h"
#include "text/date.h"
#include "text/scan.h"

enum { ANIMAL_MOST_BYTES = 256 * 1024, ANIMAL_LINE_BYTES = 4096, ANIMALS_MOST = 100 };

enum {
  KEY_ANIMAL,
  KEY_SPECIES,
  KEY_BORN,
  KEY_AGE,
  KEY_WEIGHT,
  KEY_IDEAL,
  KEY_CONDITION,
  KEY_ADULT,
  KEY_NEUTERED,
  KEY_ACTIVITY,
  KEY_STATUS,
  KEY_ENERGY,
  KEY_NOTE,
  KEY_COUNT
};

static const struct header_name KEYS[] = {{"Animal", KEY_ANIMAL, true},
                                          {"Species", KEY_SPECIES, true},
                                          {"Born", KEY_BORN, true},
                                          {"Age", KEY_AGE, true},
                                          {"Weight", KEY_WEIGHT, true},
                                          {"Ideal", KEY_IDEAL, true},
                                          {"Condition", KEY_CONDITION, true},
                                          {"Adult weight", KEY_ADULT, true},
                                          {"Neutered", KEY_NEUTERED, true},
                                          {"Activity", KEY_ACTIVITY, true},
                                          {"Status", KEY_STATUS, true},
                                          {"Energy", KEY_ENERGY, true},
                                          {"Note", KEY_NOTE, true},
                                          {"Ideal weight", KEY_IDEAL, false},
                                          {"Body condition", KEY_CONDITION, false},
                                          {"Body condition score", KEY_CONDITION, false},
                                          {"Condition score", KEY_CONDITION, false},
                                          {"Spayed", KEY_NEUTERED, false},
                                          {"Birthday", KEY_BORN, false},
                                          {"Notes", KEY_NOTE, false},
                                          {"Health", KEY_STATUS, false}};

struct animal_reader {
  struct diags *d;
  struct arena *arena;
  struct date today;
  struct animal *list;
  size_t count, cap;
  bool seen[KEY_COUNT];
  struct span name_at, weight_at, ideal_at; /* of the animal being read */
};

/* ---- values ---- */

#define SAY(r, at, ...) diag_add((r)->d, DIAG_ERROR, (at), __VA_ARGS__)

/* One number at the start of a value, and how many tokens it took; NaN after a complaint. */
static double number(struct animal_reader *r, struct span value, const struct tokens *t, const char *example, size_t *used) {
  struct quantity q = quantity_at(t, 0);
  *used = q.tokens;
  if (q.fault == QUANTITY_NONE) {
    SAY(r, value, "'%.*s' has no number; write it as in '%s'", SPAN_ARG(quoted(value)), example);
    return (double)NAN;
  }
  if (q.fault != QUANTITY_FINE) {
    quantity_complain(t, 0, q, r->d);
    return (double)NAN;
  }
  if (q.low != q.high) {
    SAY(r, value, "'%.*s' is a range; write one number, as in '%s'", SPAN_ARG(quoted(value)), example);
    return (double)NAN;
  }
  return q.low;
}

static bool says(const struct tokens *t, size_t at, const char *const *words, size_t count, size_t *used) {
  for (size_t i = 0; i < count; i++) {
    *used = phrase_at(t, at, words[i]);
    if (*used > 0) return true;
  }
  return false;
}
#define SAYS(t, at, used, ...)                                                                                              \
  says((t), (at), (const char *const[]){__VA_ARGS__}, COUNT_OF(((const char *const[]){__VA_ARGS__})), (used))

static bool ends(struct animal_reader *r, const struct tokens *t, size_t at, const char *example) {
  if (at < t->count && phrase_at(t, at, ".") > 0) at++;
  if (at >= t->count) return true;
  struct span rest = tokens_span(t, at, t->count - at);
  SAY(r, rest, "'%.*s' is not understood here; write it as in '%s'", SPAN_ARG(quoted(rest)), example);
  return false;
}

static double kilograms(struct animal_reader *r, struct span value, const struct tokens *t) {
  static const char EXAMPLE[] = "Weight: 18.2 kg";
  size_t used = 0, unit_used = 0;
  double n = number(r, value, t, EXAMPLE, &used), ounces = 0;
  if (isnan(n)) return n;
  enum unit u = used < t->count && t->item[used].kind == TOKEN_WORD ? unit_by_word(t->item[used].word) : UNIT_NONE;
  if (unit_info[u].kind != UNIT_KIND_MASS) {
    SAY(r, value, "'%.*s': is that kg or lb? write it as in '%s' or '40 lb'", SPAN_ARG(quoted(value)), EXAMPLE);
    return (double)NAN;
  }
  size_t at = used + 1;
  if (u == UNIT_LB && at < t->count) { /* "10 lb 4 oz" */
    size_t more = phrase_at(t, at, "and");
    struct quantity oz = quantity_at(t, at + more);
    if (oz.fault == QUANTITY_FINE && SAYS(t, at + more + oz.tokens, &unit_used, "oz", "ounces", "ounce")) {
      ounces = oz.low;
      at += more + oz.tokens + unit_used;
    }
  }
  if (!ends(r, t, at, EXAMPLE)) return (double)NAN;
  double kg = (unit_convert(n, u) + unit_convert(ounces, UNIT_OZ)) / 1000;
  if (!(kg > 0)) {
    SAY(r, value, "a weight must be more than nothing");
    return (double)NAN;
  }
  return kg;
}

static double age_in_years(struct animal_reader *r, struct span value, const struct tokens *t) {
  static const char EXAMPLE[] = "Age: 6 years";
  double years = 0;
  size_t at = 0;
  do {
    struct tokens rest = {t->item + at, t->count - at};
    size_t used = 0, unit = 0;
    double n = number(r, value, &rest, EXAMPLE, &used), per_year;
    if (isnan(n)) return n;
    if (SAYS(&rest, used, &unit, "years", "year", "yrs", "yr", "y"))
      per_year = 1;
    else if (SAYS(&rest, used, &unit, "months", "month", "mo"))
      per_year = 12;
    else if (SAYS(&rest, used, &unit, "weeks", "week", "wks"))
      per_year = 52.18;
    else {
      SAY(r, value, "'%.*s': is that years or months? write it as in '%s' or 'Age: 18 months'", SPAN_ARG(quoted(value)),
          EXAMPLE);
      return (double)NAN;
    }
    years += n / per_year;
    at += used + unit;
    if (SAYS(t, at, &unit, "old"))
      at += unit;
    else if (SAYS(t, at, &unit, "and", ","))
      at += unit;
  } while (at < t->count);
  return years;
}

/* ---- keys ---- */

static void read_species(struct animal_reader *r, struct animal *a, struct span value, const struct tokens *t) {
  size_t used;
  if (SAYS(t, 0, &used, "dog", "dogs", "canine", "puppy", "bitch"))
    a->species = SPECIES_DOG;
  else if (SAYS(t, 0, &used, "cat", "cats", "feline", "kitten", "tomcat"))
    a->species = SPECIES_CAT;
  else
    SAY(r, value, "'%.*s' is not a species that can be worked out here; write 'dog' or 'cat'", SPAN_ARG(quoted(value)));
}

static void read_born(struct animal_reader *r, struct animal *a, struct span value) {
  struct date born;
  if (!date_read(value, &born)) {
    SAY(r, value, "'%.*s' is not a date; write year, month and day, as in 'Born: 2019-04-12'", SPAN_ARG(quoted(value)));
  } else if (r->today.year == 0) {
    SAY(r, value, "the day of today is not known here; write 'Age: 6 years' in place of 'Born'");
  } else if (date_days(born) > date_days(r->today)) {
    SAY(r, value, "'%.*s' lies in the future", SPAN_ARG(quoted(value)));
  } else {
    a->age_years = date_years_between(born, r->today);
  }
}

static void read_condition(struct animal_reader *r, struct animal *a, struct span value, const struct tokens *t) {
  static const char EXAMPLE[] = "Condition: 6/9";
  struct quantity score = {.fault = QUANTITY_NONE};
  size_t at = 0;
  /* "6/9" must not be read as two thirds. */
  if (t->count > 0 && t->item[0].kind == TOKEN_NUMBER) {
    struct tokens one = {t->item, 1};
    score = quantity_at(&one, 0);
    at = 1;
    size_t of = 0;
    if (SAYS(t, at, &of, "/", "of", "out of")) {
      at += of;
      if (at >= t->count || t->item[at].kind != TOKEN_NUMBER || t->item[at].value != 9) {
        SAY(r, value, "'%.*s': only the scale of nine is read; write it as in '%s'", SPAN_ARG(quoted(value)), EXAMPLE);
        return;
      }
      at++;
    }
  }
  if (score.fault != QUANTITY_FINE || !(score.low >= 1 && score.low <= 9)) {
    SAY(r, value, "'%.*s' is not a condition score from 1 to 9; write it as in '%s'", SPAN_ARG(quoted(value)), EXAMPLE);
  } else if (ends(r, t, at, EXAMPLE)) {
    a->condition = score.low;
  }
}

static void read_neutered(struct animal_reader *r, struct animal *a, struct span value, const struct tokens *t) {
  size_t used;
  if (SAYS(t, 0, &used, "yes", "y", "true", "spayed", "neutered", "castrated", "1"))
    a->neutered = 1;
  else if (SAYS(t, 0, &used, "no", "n", "false", "not", "intact", "entire", "0"))
    a->neutered = 0;
  else
    SAY(r, value, "'%.*s': write 'yes' or 'no'", SPAN_ARG(quoted(value)));
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

static void read_activity(struct animal_reader *r, struct animal *a, struct span value, const struct tokens *t) {
  for (size_t i = 0; i < COUNT_OF(ACTIVITY_WORDS); i++) {
    if (phrase_at(t, 0, ACTIVITY_WORDS[i].word) == 0) continue;
    a->activity = ACTIVITY_WORDS[i].activity;
    a->activity_stated = true;
    return;
  }
  struct buf b;
  buf_init(&b, r->arena, 200);
  for (int i = 0; i < ACTIVITY_COUNT; i++) buf_addf(&b, "%s%s", i > 0 ? ", " : "", activity_word[i]);
  SAY(r, value, "'%.*s' is not an activity; the words are %s", SPAN_ARG(quoted(value)), buf_text(&b));
}

static bool mentions(const struct tokens *t, const char *const *words, size_t count) {
  size_t used;
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, words, count, &used)) return true;
  return false;
}

/* "not pregnant", "no illness", "never ill": a word of denial right before it. */
static bool denied(const struct tokens *t, const char *word) {
  static const char *const DENIALS[] = {"not", "no", "never", "isn't", "without"};
  for (size_t i = 1; i < t->count; i++)
    for (size_t k = 0; k < COUNT_OF(DENIALS); k++)
      if (phrase_at(t, i, word) > 0 && phrase_at(t, i - 1, DENIALS[k]) > 0) return true;
  return false;
}

/* Only plain words of health count as healthy; whatever else is said is kept as it stands, and the animal counts as unwell.
 */
static void read_status(struct animal_reader *r, struct animal *a, struct span value, const struct tokens *t) {
  static const char *const HEALTHY[] = {"healthy", "well", "fine", "good", "ok", "okay", "normal"};
  static const char *const FILLING[] = {"very",     "in",      "good",      "health",   "and",   "is",      "all",
                                        "a",        "adult",   "no",        "problems", "known", "illness", "not",
                                        "pregnant", "nursing", "lactating", "ill",      "sick"};
  static const char *const PREGNANT[] = {"pregnant", "expecting", "in whelp", "in kitten", "gestating"};
  static const char *const NURSING[] = {"nursing", "lactating", "lactation", "suckling", "in milk"};
  static const char *const ANTIBIOTICS[] = {"antibiotic", "antibiotics"};
  bool healthy_word = mentions(t, HEALTHY, COUNT_OF(HEALTHY)), only_known = true;
  size_t used;
  for (size_t i = 0; i < t->count; i++) {
    if (t->item[i].kind == TOKEN_MARK) continue;
    only_known =
        only_known && (says(t, i, HEALTHY, COUNT_OF(HEALTHY), &used) || says(t, i, FILLING, COUNT_OF(FILLING), &used));
  }
  a->pregnant = mentions(t, PREGNANT, COUNT_OF(PREGNANT)) && !denied(t, "pregnant");
  a->nursing = mentions(t, NURSING, COUNT_OF(NURSING)) && !denied(t, "nursing") && !denied(t, "lactating");
  a->antibiotics = mentions(t, ANTIBIOTICS, COUNT_OF(ANTIBIOTICS));
  bool unwell = (mentions(t, (const char *const[]){"ill", "sick"}, 2) && !denied(t, "ill") && !denied(t, "sick")) ||
                denied(t, "healthy") || denied(t, "well") || denied(t, "fine") || denied(t, "good") || denied(t, "ok");
  /* Pregnant and nursing have words of their own in the answer; they are no illness. */
  bool only_family = only_known && (a->pregnant || a->nursing);
  bool denies_illness = denied(t, "problems") || denied(t, "illness") || denied(t, "known");
  a->healthy = only_known && !unwell && (healthy_word || only_family || denies_illness);
  a->status = arena_text(r->arena, value);
}

static void read_energy(struct animal_reader *r, struct animal *a, struct span value, const struct tokens *t) {
  static const char EXAMPLE[] = "Energy: 780 kcal/day";
  size_t used = 0, unit = 0;
  double n = number(r, value, t, EXAMPLE, &used);
  if (isnan(n)) return;
  if (SAYS(t, used, &unit, "kj"))
    n /= 4.184; /* the thermochemical calorie, exact */
  else if (!SAYS(t, used, &unit, "kcal", "calories", "cal", "kcals")) {
    SAY(r, value, "'%.*s' has no unit; write it as in '%s'", SPAN_ARG(quoted(value)), EXAMPLE);
    return;
  }
  size_t at = used + unit;
  if (SAYS(t, at, &unit, "/ day", "a day", "per day", "daily", "/ d")) at += unit;
  if (!ends(r, t, at, EXAMPLE)) return;
  if (!(n > 0 && n <= 20000))
    SAY(r, value, "the energy of a day lies between 1 and 20000 kcal");
  else
    a->energy_kcal = n;
}

/* ---- one animal ---- */

static void begin_animal(struct animal_reader *r, struct span name) {
  struct animal a = {.name = arena_text(r->arena, name),
                     .species = SPECIES_DOG,
                     .weight_kg = (double)NAN,
                     .ideal_kg = (double)NAN,
                     .condition = (double)NAN,
                     .age_years = (double)NAN,
                     .adult_weight_kg = (double)NAN,
                     .neutered = -1,
                     .activity = ACTIVITY_MODERATE,
                     .energy_kcal = (double)NAN,
                     .status = "healthy",
                     .healthy = true};
  ARENA_PUSH(r->arena, r->list, r->count, r->cap, a);
  memset(r->seen, 0, sizeof r->seen);
  r->seen[KEY_ANIMAL] = true;
  r->name_at = name;
}

/* A weight that no such animal has is most often one in pounds. */
static void check_weight(struct animal_reader *r, const struct animal *a, double kg, struct span at) {
  if (isnan(kg)) return;
  double most = a->species == SPECIES_DOG ? 110 : 15, least = 0.5;
  struct buf b, pounds;
  buf_init(&b, r->arena, 40);
  buf_init(&pounds, r->arena, 40);
  num_sig(&b, kg, 4);
  num_sig(&pounds, kg, 4);
  if (kg > most)
    SAY(r, at, "%s kg is more than a %s weighs; if it is in pounds, write '%s lb'", buf_text(&b), species_word[a->species],
        buf_text(&pounds));
  else if (kg < least)
    SAY(r, at, "%s kg is less than an adult %s weighs; write the weight in kg or lb, as in '4.6 kg'", buf_text(&b),
        species_word[a->species]);
}

static void end_animal(struct animal_reader *r) {
  if (r->count == 0) return;
  const struct animal *a = &r->list[r->count - 1];
  const char *who = a->name[0] ? a->name : "this animal";
  if (!r->seen[KEY_SPECIES]) SAY(r, r->name_at, "the species of %s is missing; add 'Species: dog' or 'Species: cat'", who);
  if (!r->seen[KEY_WEIGHT]) SAY(r, r->name_at, "the weight of %s is missing; add a line such as 'Weight: 18.2 kg'", who);
  if (!r->seen[KEY_AGE] && !r->seen[KEY_BORN])
    SAY(r, r->name_at, "the age of %s is missing; add 'Born: 2019-04-12' or 'Age: 6 years'", who);
  if (a->age_years > 40) SAY(r, r->name_at, "%s would be more than 40 years old; check the age", who);
  if (!r->seen[KEY_SPECIES]) return;
  check_weight(r, a, a->weight_kg, r->weight_at);
  check_weight(r, a, a->ideal_kg, r->ideal_at);
  if (a->ideal_kg > 2.5 * a->weight_kg || a->ideal_kg < 0.4 * a->weight_kg)
    SAY(r, r->ideal_at, "the ideal weight and the weight of %s are too far apart; check the units", who);
}

static void read_value(struct animal_reader *r, int key, struct span value) {
  struct animal *a = &r->list[r->count - 1];
  struct tokens t = tokens_of(value, r->arena);
  switch (key) {
  case KEY_SPECIES:
    read_species(r, a, value, &t);
    break;
  case KEY_BORN:
    read_born(r, a, value);
    break;
  case KEY_AGE:
    a->age_years = age_in_years(r, value, &t);
    break;
  case KEY_WEIGHT:
    a->weight_kg = kilograms(r, value, &t);
    r->weight_at = value;
    break;
  case KEY_IDEAL:
    a->ideal_kg = kilograms(r, value, &t);
    r->ideal_at = value;
    break;
  case KEY_ADULT:
    a->adult_weight_kg = kilograms(r, value, &t);
    break;
  case KEY_CONDITION:
    read_condition(r, a, value, &t);
    break;
  case KEY_NEUTERED:
    read_neutered(r, a, value, &t);
    break;
  case KEY_ACTIVITY:
    read_activity(r, a, value, &t);
    break;
  case KEY_STATUS:
    read_status(r, a, value, &t);
    break;
  case KEY_ENERGY:
    read_energy(r, a, value, &t);
    break;
  default:
    break;
  }
}

static void read_line(struct animal_reader *r, struct span line) {
  struct header h;
  if (!header_split(line, &h)) {
    SAY(r, line, "'%.*s' is not understood; write lines such as 'Weight: 18.2 kg', or '#' before a remark",
        SPAN_ARG(quoted(line)));
    return;
  }
  int key = header_id(h.key, KEYS, COUNT_OF(KEYS));
  if (key < 0) {
    SAY(r, h.key, "unknown word '%.*s'%s", SPAN_ARG(quoted(h.key)), header_hint(h.key, KEYS, COUNT_OF(KEYS), r->arena));
    header_fix(r->d, h.key, KEYS, COUNT_OF(KEYS));
    return;
  }
  if (h.value.n == 0) {
    SAY(r, line, "nothing stands after '%.*s:'", SPAN_ARG(quoted(h.key)));
    return;
  }
  if (key == KEY_ANIMAL) {
    end_animal(r);
    for (size_t i = 0; i < r->count; i++)
      if (span_eq_fold(span_of(r->list[i].name), h.value))
        SAY(r, h.value, "a second animal called '%.*s'; give it another name", SPAN_ARG(quoted(h.value)));
    begin_animal(r, h.value);
    return;
  }
  if (r->count == 0) begin_animal(r, span_cut(line, 0, 0)); /* a text without a name is one animal */
  if (r->seen[key] && key != KEY_NOTE) {
    SAY(r, line, "a second '%s' for the same animal; keep one of them, or begin the next one with 'Animal: NAME'",
        header_word(key, KEYS, COUNT_OF(KEYS)));
    return;
  }
  if ((key == KEY_AGE && r->seen[KEY_BORN]) || (key == KEY_BORN && r->seen[KEY_AGE]))
    SAY(r, line, "'Age' and 'Born' say the same; keep one of them");
  r->seen[key] = true;
  read_value(r, key, h.value);
}

bool animal_read(struct span text, struct date today, struct diags *d, struct animal **animals, size_t *count,
                 struct arena *arena) {
  struct animal_reader r = {.d = d, .arena = arena, .today = today};
  size_t errors = d->errors;
  *animals = NULL;
  *count = 0;
  if (!text_fit(text, ANIMAL_MOST_BYTES, ANIMAL_LINE_BYTES, d)) return false;
  struct lines lines = lines_of(text);
  struct span line;
  while (lines_next(&lines, &line) && r.count <= ANIMALS_MOST && d->errors < DIAG_MOST) {
    line = trim_blanks(without_comment(line));
    if (line.n > 0) read_line(&r, line);
  }
  end_animal(&r);
  if (r.count > ANIMALS_MOST) SAY(&r, r.name_at, "more than %d animals in one text", ANIMALS_MOST);
  if (r.count == 0 && d->errors == errors)
    SAY(&r, ((struct span){NULL, 0}), "there is no animal in this text; begin with 'Animal: NAME'");
  *animals = r.list;
  *count = r.count;
  return d->errors == errors;
}

static bool begins_animal(struct span line) {
  struct header h;
  return header_split(trim_blanks(without_comment(line)), &h) && header_id(h.key, KEYS, COUNT_OF(KEYS)) == KEY_ANIMAL;
}

static bool faulty_between(const struct diags *d, int from, int to) {
  for (size_t i = 0; i < d->count; i++)
    if (d->item[i].level == DIAG_ERROR && d->item[i].line >= from && d->item[i].line < to) return true;
  return false;
}

struct span animal_without_faulty(struct span text, const struct diags *d, struct arena *arena) {
  char *copy = arena_text(arena, text);
  struct lines lines = lines_of(text);
  struct span line;
  int from = 1; /* line of the animal that is being gone through, and where it begins */
  const char *begin = text.p;
  for (bool more = true; more;) {
    more = lines_next(&lines, &line);
    const char *end = more ? line.p : text.p + text.n;
    if (more && !begins_animal(line)) continue;
    if (faulty_between(d, from, more ? lines.number : lines.number + 1))
      for (const char *p = begin; p < end; p++)
        if (*p != '\n') copy[p - text.p] = ' ';
    begin = end;
    from = lines.number;
  }
  return (struct span){copy, text.n};
}

/* ---- an animal in a line ---- */

/* Which key these words answer; KEY_COUNT when none. */
static int key_of_words(const struct tokens *t) {
  static const char *const YEARS[] = {"years", "year", "yrs", "yr", "y", "yo", "months", "month", "weeks", "old"};
  static const char *const NEUTERED[] = {"neutered", "spayed", "castrated", "desexed", "intact", "entire", "unneutered"};
  static const char *const HEALTH[] = {"healthy", "pregnant", "nursing", "lactating", "ill",  "sick",
                                       "well",    "unwell",   "puppy",   "kitten",    "whelp"};
  size_t used;
  if (t->count == 0) return KEY_COUNT;
  if (SAYS(t, 0, &used, "ideal", "ideally")) return KEY_IDEAL;
  if (SAYS(t, 0, &used, "condition", "body condition", "bcs", "score")) return KEY_CONDITION;
  if (mentions(t, NEUTERED, COUNT_OF(NEUTERED))) return KEY_NEUTERED;
  if (mentions(t, YEARS, COUNT_OF(YEARS))) return KEY_AGE;
  if (mentions(t, HEALTH, COUNT_OF(HEALTH))) return KEY_STATUS;
  for (size_t i = 0; i < COUNT_OF(ACTIVITY_WORDS); i++)
    if (phrase_at(t, 0, ACTIVITY_WORDS[i].word) > 0) return KEY_ACTIVITY;
  return t->item[0].kind == TOKEN_NUMBER ? KEY_WEIGHT : KEY_COUNT;
}

static void read_neutered_words(struct animal *a, const struct tokens *t) {
  static const char *const INTACT[] = {"intact", "entire", "unneutered"};
  bool no = mentions(t, INTACT, COUNT_OF(INTACT)) || denied(t, "neutered") || denied(t, "spayed") || denied(t, "castrated");
  a->neutered = no ? 0 : 1;
}

/* Words before the value ("ideal 17 kg", "condition 6/9", "aged 6 years") are stepped over. */
static struct span from_number(struct span words, const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (t->item[i].kind != TOKEN_WORD && t->item[i].kind != TOKEN_MARK)
      return span_cut(words, (size_t)(t->item[i].at.p - words.p), words.n);
  return words;
}

static void read_clause(struct animal_reader *r, struct span words, bool first) {
  struct animal *a = &r->list[0];
  struct tokens t = tokens_of(words, r->arena);
  int key = key_of_words(&t);
  if (key == KEY_COUNT && first) {
    a->name = arena_text(r->arena, words);
    return;
  }
  if (key == KEY_COUNT) {
    SAY(r, words, "'%.*s' is not understood; write it as in '18 kg, 6 years, neutered'", SPAN_ARG(quoted(words)));
    return;
  }
  if (r->seen[key]) {
    SAY(r, words, "'%.*s' is said twice of one animal", SPAN_ARG(quoted(words)));
    return;
  }
  r->seen[key] = true;
  if (key == KEY_NEUTERED) {
    read_neutered_words(a, &t);
  } else {
    bool number = key == KEY_IDEAL || key == KEY_CONDITION || key == KEY_AGE || key == KEY_WEIGHT;
    read_value(r, key, number ? from_number(words, &t) : words);
  }
}

bool animal_read_words(struct span words, enum species species, struct date today, struct diags *d, struct animal *out,
                       struct arena *arena) {
  struct animal_reader r = {.d = d, .arena = arena, .today = today};
  size_t errors = d->errors;
  begin_animal(&r, span_cut(words, 0, 0));
  r.list[0].species = species;
  r.seen[KEY_SPECIES] = true;
  struct span rest = words;
  for (bool first = true; rest.n > 0; first = false) {
    size_t n = 0;
    while (n < rest.n && rest.p[n] != ',' && rest.p[n] != ';') n++;
    struct span clause = trim_blanks(span_cut(rest, 0, n));
    if (clause.n > 0) read_clause(&r, clause, first);
    rest = span_cut(rest, n + 1, rest.n);
  }
  if (!r.seen[KEY_WEIGHT] && d->errors == errors)
    SAY(&r, words, "what does it weigh? write it as in '%s: 18 kg, 6 years, neutered'; a name goes behind 'For:'",
        species == SPECIES_DOG ? "Dog" : "Cat");
  r.seen[KEY_AGE] = true; /* need not be said */
  r.name_at = words;
  if (d->errors == errors) end_animal(&r);
  *out = r.list[0];
  return d->errors == errors;
}
