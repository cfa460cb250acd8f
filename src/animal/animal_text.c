/* The animal text: its lines one by one, and an animal that stands in one line. */
#include "animal/animal_text.h"

#include <math.h>

#include "animal/animal_keys.h"
#include "base/num.h"

enum { ANIMAL_MOST_BYTES = 256 * 1024, ANIMAL_LINE_BYTES = 4096, ANIMALS_MOST = 100 };

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
      ANIMAL_KEYS, KEY_COUNT,
      DIAG_ERROR,  " for the same animal; keep one of them, or begin the next one with 'Animal: NAME'",
      d,           arena,
      r->seen,     r,
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
  return header_split(trim_blanks(without_comment(line)), &h) && span_is_fold(h.key, ANIMAL_KEYS[KEY_ANIMAL].word);
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
  if (animal_mentions(t, NEUTERED, COUNT_OF(NEUTERED))) return KEY_NEUTERED;
  if (animal_mentions(t, YEARS, COUNT_OF(YEARS))) return KEY_AGE;
  if (animal_mentions(t, HEALTH, COUNT_OF(HEALTH))) return KEY_STATUS;
  if (animal_begins_with_activity(t)) return KEY_ACTIVITY;
  return t->item[0].kind == TOKEN_NUMBER ? KEY_WEIGHT : KEY_COUNT;
}

static void read_neutered_words(struct animal *a, const struct tokens *t) {
  static const char *const INTACT[] = {"intact", "entire", "unneutered"};
  bool no = animal_mentions(t, INTACT, COUNT_OF(INTACT)) || animal_denies(t, "neutered") || animal_denies(t, "spayed") ||
            animal_denies(t, "castrated");
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
  const struct header_reader known = {.row = ANIMAL_KEYS, .rows = KEY_COUNT};
  int row = header_row_of(&known, key);
  return row >= 0 ? ANIMAL_KEYS[row].word : NULL;
}
