#include "animal/animal_text.h"

#include <math.h>

#include "base/num.h"
#include "base/table.h"
#include "foods/unit.h"
#include "text/date.h"
#include "text/headers.h"

enum { ANIMAL_MOST_BYTES = 256 * 1024, ANIMAL_LINE_BYTES = 4096, ANIMALS_MOST = 100 };

/* ORDER: rows of KEYS. */
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

struct animal_reader {
  struct header_reader keys; /* of the animal being read */
  struct span seen[KEY_COUNT];
  struct span name_at;
  struct diags *d;
  struct arena *arena;
  struct date today;
  struct animal *list;
  size_t count, cap;
};

/* ---- values ---- */

#define SAY(code, r, at, ...) diag_say((r)->d, DIAG_ERROR, DIAG_##code, (at), __VA_ARGS__)

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

/* ---- keys ---- */

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

static bool mentions(const struct tokens *t, const char *const *words, size_t count) {
  for (size_t i = 0; i < t->count; i++)
    if (any_of(t, i, words, count) > 0) return true;
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
static void read_status(struct header_value *v) {
  static const char *const HEALTHY[] = {"healthy", "well", "fine", "good", "ok", "okay", "normal"};
  static const char *const FILLING[] = {"very",     "in",      "good",      "health",   "and",   "is",      "all",
                                        "a",        "adult",   "no",        "problems", "known", "illness", "not",
                                        "pregnant", "nursing", "lactating", "ill",      "sick",  "puppy",   "kitten",
                                        "growing",  "still",   "young",     "junior",   "pup",   "juvenile", "growth",
                                        "adolescent", "dog",   "cat",       "whelp",    "milk",  "expecting"};
  static const char *const PREGNANT[] = {"pregnant", "expecting", "in whelp", "in kitten", "gestating"};
  static const char *const NURSING[] = {"nursing", "lactating", "lactation", "suckling", "in milk"};
  static const char *const YOUNG[] = {"puppy",  "kitten",   "growing",     "still growing", "young", "junior",
                                      "pup",    "juvenile", "in growth",   "adolescent"};
  static const char *const ANTIBIOTICS[] = {"antibiotic", "antibiotics"};
  struct animal *a = animal_of(v);
  const struct tokens *t = &v->t;
  bool healthy_word = mentions(t, HEALTHY, COUNT_OF(HEALTHY)), only_known = true;
  for (size_t i = 0; i < t->count; i++)
    only_known = only_known && (t->item[i].kind == TOKEN_MARK || any_of(t, i, HEALTHY, COUNT_OF(HEALTHY)) > 0 ||
                                any_of(t, i, FILLING, COUNT_OF(FILLING)) > 0);
  a->pregnant = mentions(t, PREGNANT, COUNT_OF(PREGNANT)) && !denied(t, "pregnant");
  a->nursing = mentions(t, NURSING, COUNT_OF(NURSING)) && !denied(t, "nursing") && !denied(t, "lactating");
  a->young = (any_of(t, 0, YOUNG, COUNT_OF(YOUNG)) > 0 || (only_known && mentions(t, YOUNG, COUNT_OF(YOUNG)))) &&
             !denied(t, "puppy") && !denied(t, "kitten");
  a->antibiotics = mentions(t, ANTIBIOTICS, COUNT_OF(ANTIBIOTICS));
  bool unwell = (mentions(t, (const char *const[]){"ill", "sick"}, 2) && !denied(t, "ill") && !denied(t, "sick")) ||
                denied(t, "healthy") || denied(t, "well") || denied(t, "fine") || denied(t, "good") || denied(t, "ok");
  /* Pregnant, nursing and young have words of their own in the answer; they are no illness. */
  bool only_family = only_known && (a->pregnant || a->nursing || a->young);
  bool denies_illness = denied(t, "problems") || denied(t, "illness") || denied(t, "known");
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

static const struct header_row KEYS[] = {
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
ROW_FOR_EACH(KEYS, KEY_COUNT);

/* ---- one animal ---- */

static void begin_animal(struct animal_reader *r, struct span name) {
  struct animal a = animal_plain(SPECIES_DOG, (double)NAN);
  a.name = arena_text(r->arena, name);
  ARENA_PUSH(r->arena, r->list, r->count, r->cap, a);
  memset(r->seen, 0, sizeof r->seen);
  r->seen[KEY_ANIMAL] = r->name_at = name;
  r->keys.into = &r->list[r->count - 1];
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
    SAY(NUMBER, r, at, "%s kg is more than a %s weighs; if it is in pounds, write '%s lb'", buf_text(&b),
        species_word[a->species], buf_text(&pounds));
  else if (kg < least)
    SAY(NUMBER, r, at, "%s kg is less than an adult %s weighs; write the weight in kg or lb, as in '4.6 kg'", buf_text(&b),
        species_word[a->species]);
}

static void end_animal(struct animal_reader *r) {
  if (r->count == 0) return;
  const struct animal *a = &r->list[r->count - 1];
  const char *who = a->name[0] ? a->name : "this animal";
  if (!r->seen[KEY_SPECIES].p)
    SAY(EMPTY, r, r->name_at, "the species of %s is missing; add 'Species: dog' or 'Species: cat'", who);
  if (!r->seen[KEY_WEIGHT].p)
    SAY(EMPTY, r, r->name_at, "the weight of %s is missing; add a line such as 'Weight: 18.2 kg'", who);
  if (!r->seen[KEY_AGE].p && !r->seen[KEY_BORN].p)
    SAY(EMPTY, r, r->name_at, "the age of %s is missing; add 'Born: 2019-04-12' or 'Age: 6 years'", who);
  if (a->age_years > 40) SAY(NUMBER, r, r->name_at, "%s would be more than 40 years old; check the age", who);
  if (!r->seen[KEY_SPECIES].p) return;
  check_weight(r, a, a->weight_kg, r->seen[KEY_WEIGHT]);
  check_weight(r, a, a->ideal_kg, r->seen[KEY_IDEAL]);
  if (a->ideal_kg > 2.5 * a->weight_kg || a->ideal_kg < 0.4 * a->weight_kg)
    SAY(NUMBER, r, r->seen[KEY_IDEAL], "the ideal weight and the weight of %s are too far apart; check the units", who);
}

static void read_line(struct animal_reader *r, struct span line) {
  struct header h;
  if (!header_split(line, &h)) {
    SAY(NOT_UNDERSTOOD, r, line, "'%.*s' is not understood; write lines such as 'Weight: 18.2 kg', or '#' before a remark",
        SPAN_ARG(quoted(line)));
    return;
  }
  int key = header_row_of(&r->keys, h.key);
  if (key < 0) {
    header_unknown(&r->keys, h.key, DIAG_ERROR, "");
  } else if (key == KEY_ANIMAL && h.value.n > 0) {
    end_animal(r);
    for (size_t i = 0; i < r->count; i++)
      if (span_eq_fold(span_of(r->list[i].name), h.value))
        SAY(TWICE, r, h.value, "a second animal called '%.*s'; give it another name", SPAN_ARG(quoted(h.value)));
    begin_animal(r, h.value);
  } else {
    if (r->count == 0 && h.value.n > 0) begin_animal(r, span_cut(line, 0, 0)); /* a text without a name is one animal */
    if (!header_accept(&r->keys, key, h, line)) return;
    if ((key == KEY_AGE && r->seen[KEY_BORN].p) || (key == KEY_BORN && r->seen[KEY_AGE].p))
      SAY(TWICE, r, line, "'Age' and 'Born' say the same; keep one of them");
    header_read(&r->keys, key, h.value, line);
  }
}

static void begin_reading(struct animal_reader *r, struct date today, struct diags *d, struct arena *arena) {
  *r = (struct animal_reader){.d = d, .arena = arena, .today = today};
  r->keys = (struct header_reader){
      KEYS, KEY_COUNT, DIAG_ERROR, " for the same animal; keep one of them, or begin the next one with 'Animal: NAME'",
      d,    arena,     r->seen,    r,
      NULL};
}

bool animal_read(struct span text, struct date today, struct diags *d, struct animal **animals, size_t *count,
                 struct arena *arena) {
  struct animal_reader r;
  size_t errors = d->errors;
  begin_reading(&r, today, d, arena);
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
  if (r.count > ANIMALS_MOST) SAY(LIMIT, &r, r.name_at, "more than %d animals in one text", ANIMALS_MOST);
  if (r.count == 0 && d->errors == errors)
    SAY(EMPTY, &r, ((struct span){NULL, 0}), "there is no animal in this text; begin with 'Animal: NAME'");
  *animals = r.list;
  *count = r.count;
  return d->errors == errors;
}

static bool begins_animal(struct span line) {
  struct header h;
  return header_split(trim_blanks(without_comment(line)), &h) && span_is_fold(h.key, KEYS[KEY_ANIMAL].word);
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
  if (t->count == 0) return KEY_COUNT;
  if (phrase_at(t, 0, "not well") > 0) return KEY_STATUS; /* "not well (diarrhoea for three weeks)" */
  if (ANY_OF(t, 0, "ideal", "ideally") > 0) return KEY_IDEAL;
  if (ANY_OF(t, 0, "condition", "body condition", "bcs", "score") > 0) return KEY_CONDITION;
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
    SAY(NOT_UNDERSTOOD, r, words, "'%.*s' is not understood; write it as in '18 kg, 6 years, neutered'",
        SPAN_ARG(quoted(words)));
    return;
  }
  if (r->seen[key].p) {
    SAY(TWICE, r, words, "'%.*s' is said twice about one animal", SPAN_ARG(quoted(words)));
    return;
  }
  r->seen[key] = words;
  if (key == KEY_NEUTERED) {
    read_neutered_words(a, &t);
  } else {
    bool number = key == KEY_IDEAL || key == KEY_CONDITION || key == KEY_AGE || key == KEY_WEIGHT;
    header_read(&r->keys, key, number ? from_number(words, &t) : words, words);
  }
}

bool animal_read_words(struct span words, enum species species, struct date today, struct diags *d, struct animal *out,
                       struct arena *arena) {
  struct animal_reader r;
  size_t errors = d->errors;
  begin_reading(&r, today, d, arena);
  begin_animal(&r, span_cut(words, 0, 0));
  r.list[0].species = species;
  r.seen[KEY_SPECIES] = words;
  struct span rest = words;
  for (bool first = true; rest.n > 0; first = false) {
    size_t n = 0;
    while (n < rest.n && rest.p[n] != ',' && rest.p[n] != ';') n++;
    struct span clause = trim_blanks(span_cut(rest, 0, n));
    if (clause.n > 0) read_clause(&r, clause, first);
    rest = span_cut(rest, n + 1, rest.n);
  }
  if (!r.seen[KEY_WEIGHT].p && d->errors == errors)
    SAY(EMPTY, &r, words, "what does it weigh? write it as in '%s: 18 kg, 6 years, neutered'; a name goes after 'For:'",
        species == SPECIES_DOG ? "Dog" : "Cat");
  r.seen[KEY_AGE] = words; /* need not be said */
  r.name_at = words;
  if (d->errors == errors) end_animal(&r);
  *out = r.list[0];
  return d->errors == errors;
}

const char *animal_header(struct span key) {
  const struct header_reader known = {.row = KEYS, .rows = KEY_COUNT};
  int row = header_row_of(&known, key);
  return row >= 0 ? KEYS[row].word : NULL;
}
