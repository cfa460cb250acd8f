#include "words/words.h"
#include "base/table.h"

#include <math.h>

#include "base/num.h"

enum { NUMBER_BYTES = 40, SENTENCE_BYTES = 1 << 20, NAME_BYTES = 512 };

static struct buf scratch(struct arena *a, size_t most) {
  struct buf b;
  buf_init(&b, a, most);
  return b;
}

const char *words_text(struct arena *a, const char *fmt, ...) {
  struct buf b = scratch(a, SENTENCE_BYTES);
  va_list args;
  va_start(args, fmt);
  buf_addv(&b, fmt, args);
  va_end(args);
  return buf_text(&b);
}

/* ---- figures --------------------------------------------------------------------------------------------------- */

static const double SMALLEST = 0.001, FEWER_DIGITS = 0.01, ABSURD = 999999.5;

const char *words_number(struct arena *a, double x) {
  double size = fabs(x);
  struct buf b = scratch(a, NUMBER_BYTES);
  if (!isfinite(x)) return NOT_KNOWN_WORDS;
  if (size == 0) return "0";
  if (size < SMALLEST) return x < 0 ? "-0" : "<0.001";
  if (size >= ABSURD) { /* it must not break the columns */
    int power = (int)floor(log10(size));
    if (power > 99) return ">1e99";
    num_sig(&b, x / pow(10, power), 2);
    buf_addf(&b, "e%d", power);
  } else {
    num_sig(&b, x, size < FEWER_DIGITS ? 2 : size < 1000 ? 3 : 4);
  }
  return buf_text(&b);
}

const char *words_amount(struct arena *a, double x, const char *unit) {
  if (!isfinite(x)) return NOT_KNOWN_WORDS;
  if (!unit || !unit[0]) return words_number(a, x);
  return words_text(a, "%s %s", words_number(a, x), unit);
}

const char *words_mass(struct arena *a, double grams) {
  bool small = grams != 0 && fabs(grams) < 0.1;
  return small ? words_amount(a, grams * 1000, "mg") : words_amount(a, grams, "g");
}

const char *words_whole(struct arena *a, double x) {
  double size = fabs(x);
  if (!isfinite(x) || size >= ABSURD || (x != 0 && size < 0.95)) return words_number(a, x);
  struct buf b = scratch(a, NUMBER_BYTES);
  num_fixed(&b, x, size < 9.95 && fabs(x - round(x)) > 0.05 ? 1 : 0);
  return buf_text(&b);
}

static const char *percent(struct arena *a, double share, const char *under) {
  if (!isfinite(share)) return NOT_KNOWN_WORDS;
  if (share > 0 && share < 0.01) return words_text(a, "%s1 %%", under);
  if (share > 0.99 && share < 1) return ">99 %"; /* never a certainty that rounding made */
  return words_text(a, "%s %%", words_whole(a, floor(share * 100 + 0.5)));
}

static double never_certain(double chance) { return fmin(fmax(chance, 1e-9), 1 - 1e-9); }

const char *words_times(struct arena *a, double x) {
  static const double TENTHS_BELOW = 9.95;
  if (!isfinite(x) || x >= ABSURD || !(x > 0)) return words_text(a, "%s times", words_number(a, x));
  struct buf b = scratch(a, NUMBER_BYTES);
  double shown = x < TENTHS_BELOW ? round(x * 10) / 10 : round(x);
  if (shown == 2) return "twice";
  num_sig(&b, shown > 0 ? shown : x, 4);
  return words_text(a, "%s times", buf_text(&b));
}

const char *words_share(struct arena *a, double share) { return percent(a, share, "under "); }
const char *words_share_short(struct arena *a, double share) { return percent(a, share, "<"); }
const char *words_chance(struct arena *a, double chance) {
  return isfinite(chance) ? percent(a, never_certain(chance), "under ") : "";
}
const char *words_chance_short(struct arena *a, double chance) {
  return isfinite(chance) ? percent(a, never_certain(chance), "<") : "";
}

/* ---- lists and names ------------------------------------------------------------------------------------------- */

const char *words_money(struct arena *a, const char *currency, double x) {
  if (!isfinite(x)) return NOT_KNOWN_WORDS;
  bool specks = x > 0 && x < 0.01;
  struct buf b = scratch(a, NUMBER_BYTES + NAME_BYTES);
  buf_addf(&b, "%s%s", specks ? "under " : "", currency ? currency : "");
  num_fixed(&b, specks ? 0.01 : x, 2);
  return buf_text(&b);
}

const char *words_list(struct arena *a, const char *const *item, size_t count, size_t most) {
  if (count == 0) return "";
  struct buf b = scratch(a, (size_t)64 * 1024);
  size_t shown = count <= most ? count : most;
  for (size_t i = 0; i < shown; i++) {
    if (i > 0) buf_adds(&b, i + 1 == count ? " and " : ", ");
    buf_adds(&b, item[i]);
  }
  if (shown < count) buf_addf(&b, shown > 0 ? " and %zu more" : "%zu of them", count - shown);
  return buf_text(&b);
}

const char *words_nutrient(struct arena *a, enum nutrient n) { return nutrient_inside(a, n); }

static bool is_state_word(struct span w) {
  for (int i = 0; i < STATE_COUNT; i++)
    if (state_word[i] && span_is_fold(w, state_word[i])) return true;
  return false;
}

/* The first parts of a name as the tables print it, without its way of cooking. */
static const char *short_name(struct arena *a, struct span name) {
  enum { PARTS_MOST = 3 };
  struct buf b = scratch(a, NAME_BYTES);
  for (int parts = 0; name.n > 0 && parts < PARTS_MOST;) {
    const char *comma = memchr(name.p, ',', name.n);
    size_t n = comma ? (size_t)(comma - name.p) : name.n;
    struct span part = span_trim(span_cut(name, 0, n));
    if (!is_state_word(part)) buf_addf(&b, "%s%.*s", parts++ > 0 ? ", " : "", SPAN_ARG(part));
    name = span_cut(name, n + 1, name.n);
  }
  return buf_text(&b);
}

const char *words_food(struct arena *a, const struct library *lib, uint32_t food) {
  if (food >= library_count(lib)) return "a food";
  const struct img_name *name = IMG_ROWS(&lib->image, IMG_NAMES, struct img_name);
  for (size_t i = 0; i < img_count(&lib->image, IMG_NAMES); i++)
    if (name[i].food == food && name[i].rank == 0) return lib_str(lib, name[i].said);
  if (library_food(lib, food)->flags & FOOD_OWN) return library_name(lib, food);
  return short_name(a, span_of(library_name(lib, food)));
}

const char *words_ratio(struct arena *a, double x) {
  static const double SMALL = 0.1, LEAST = 0.005;
  if (!(x < SMALL)) return words_number(a, x);
  return x < LEAST ? "almost 0" : words_text(a, "0.%02d", (int)(x * 100 + 0.5));
}

/* "little garlic" of a post's "a little garlic": how much is no part of the name. */
static const char *without_how_much(const char *words) {
  static const char *const HOW_MUCH[] = {"little ", "few ", "some ", "bit of ", "a little ", "a few ", "a bit of "};
  for (size_t i = 0; i < sizeof HOW_MUCH / sizeof *HOW_MUCH; i++)
    if (span_starts_fold(span_of(words), HOW_MUCH[i])) return words + strlen(HOW_MUCH[i]);
  return words;
}

const char *words_line(struct arena *a, const struct library *lib, const struct ration *ration, int line_index) {
  if (!ration || line_index < 0 || (size_t)line_index >= ration->line_count) return "a food";
  const struct ration_line *l = &ration->line[line_index];
  return l->food_words && l->food_words[0] ? without_how_much(l->food_words) : words_food(a, lib, l->shown_food);
}

static bool is_letter(char c) { return ((c | 0x20) >= 'a' && (c | 0x20) <= 'z') || (unsigned char)c >= 0x80; }

/* Not within another word: the rice of "licorice". */
const char *words_in_line(const char *line, const char *food) {
  const char *at = strstr(line, food);
  while (at && at > line && food[0] && is_letter(at[-1])) at = strstr(at + 1, food);
  return at;
}

const char *words_capital(struct arena *a, const char *text) {
  return text[0] >= 'a' && text[0] <= 'z' ? words_text(a, "%c%s", text[0] - 'a' + 'A', text + 1) : text;
}

const char *words_called(const struct animal *animal) {
  if (!animal) return "the animal";
  if (animal->name && animal->name[0]) return animal->name;
  return animal->species == SPECIES_CAT ? "the cat" : "the dog";
}

static const char *age_words(struct arena *a, double years) {
  if (years >= 2) return words_text(a, "%s years", words_whole(a, floor(years)));
  double months = floor(years * 12 + 1e-6); /* a third of a year is four months */
  return words_text(a, "%s month%s", words_whole(a, months), months == 1 ? "" : "s");
}

const char *words_animal(struct arena *a, const struct animal *animal) {
  struct buf b = scratch(a, 4096);
  if (animal->name && animal->name[0]) buf_addf(&b, "%s, ", animal->name);
  buf_addf(&b, "%s, %s kg", species_word[animal->species == SPECIES_CAT ? SPECIES_CAT : SPECIES_DOG],
           words_number(a, animal->weight_kg));
  if (animal->age_years >= 0) buf_addf(&b, ", %s", age_words(a, animal->age_years));
  if (animal->neutered == 1) buf_adds(&b, ", neutered");
  if (animal->activity_stated && animal->activity < ACTIVITY_COUNT) {
    bool is_adjective = animal->activity != ACTIVITY_RESTING && animal->activity != ACTIVITY_WORKING;
    buf_addf(&b, ", %s%s", activity_word[animal->activity], is_adjective ? " activity" : "");
  }
  return buf_text(&b);
}

/* ---- what tells records of one food apart stands last in their names ---- */

static struct span next_word_of(struct span *rest) {
  size_t from = 0, to;
  while (from < rest->n && !is_letter(rest->p[from])) from++;
  for (to = from; to < rest->n && is_letter(rest->p[to]);) to++;
  struct span word = span_cut(*rest, from, to);
  *rest = span_cut(*rest, to, rest->n);
  return word;
}

static struct span singular(struct span word) {
  return word.n > 1 && (word.p[word.n - 1] | 0x20) == 's' ? span_cut(word, 0, word.n - 1) : word;
}

static bool line_has_word(struct span line, struct span word) {
  for (struct span w = next_word_of(&line); w.n > 0; w = next_word_of(&line))
    if (span_eq_fold(singular(w), singular(word))) return true;
  return false;
}

static bool said_already(struct span part, struct span line) {
  if (span_is_fold(part, "domestic") || span_is_fold(part, "variety meats and by-products")) return true;
  for (struct span w = next_word_of(&part); w.n > 0; w = next_word_of(&part))
    if (!line_has_word(line, w)) return false;
  return true;
}

const char *words_telling(struct arena *a, const struct library *lib, uint32_t food, struct span line) {
  const char *name = library_name(lib, food);
  struct buf b = scratch(a, strlen(name) + 1);
  for (const char *p = name; *p;) {
    const char *end = strstr(p, ", ");
    struct span part = {p, end ? (size_t)(end - p) : strlen(p)};
    if (!said_already(part, line)) buf_addf(&b, "%s%.*s", b.n > 0 ? ", " : "", SPAN_ARG(part));
    p = end ? end + 2 : p + part.n;
  }
  return b.n > 0 ? buf_text(&b) : name;
}

const char *words_frequency(struct arena *a, double times) {
  if (!isfinite(times)) return "not known how often";
  if (times >= 28) return "daily";
  if (times == 14) return "every other day";
  if (times == 4) return "weekly";
  if (times == 1) return "once in 28 days";
  if (fmod(times, 4) == 0) return words_text(a, "%s days in 7", words_whole(a, times / 4));
  return words_text(a, "%s days in 28", words_whole(a, times));
}

/* ORDER PART */
static WORD_TABLE(PART_PLAIN, PART_COUNT, "muscle meat", "liver", "secreting organ", "organ fed as meat", "bone", "fish",
                  "shellfish", "egg", "dairy", "vegetable", "fruit", "grain", "legume", "seed or nut", "fat or oil",
                  "supplement", "other");

const char *words_food_part(enum part part) { return part < PART_COUNT ? PART_PLAIN[part] : PART_PLAIN[PART_OTHER]; }

const char *words_nutrient_group(enum nutrient_group group) {
  static const char *const TITLE[] = {[NG_ENERGY] = "",           [NG_PROXIMATE] = "What it is made of",
                                      [NG_AMINO] = "Amino acids", [NG_FATTY] = "Fatty acids",
                                      [NG_MINERAL] = "Minerals",  [NG_TRACE] = "Trace elements",
                                      [NG_VITAMIN] = "Vitamins",  [NG_OTHER] = "Other"};
  ROW_FOR_EACH(TITLE, NG_COUNT);
  return TITLE[group];
}

const char *words_part(enum bowl_part part) {
  static const char *const NAME[] = {[BOWL_MUSCLE] = "muscle meat",
                                     [BOWL_ORGAN_LIVER] = "liver",
                                     [BOWL_ORGAN_SECRETING] = "other organs",
                                     [BOWL_BONE] = "bone",
                                     [BOWL_PLANT] = "plants",
                                     [BOWL_FISH] = "fish",
                                     [BOWL_EGG] = "egg",
                                     [BOWL_DAIRY] = "dairy",
                                     [BOWL_FAT_OIL] = "fat and oil",
                                     [BOWL_SUPPLEMENT] = "supplements",
                                     [BOWL_OTHER] = "other"};
  ROW_FOR_EACH(NAME, BOWL_COUNT);
  return part < BOWL_COUNT ? NAME[part] : "other";
}

const char *words_need_range(struct arena *a, const struct animal *animal, const struct energy_need *need) {
  if (!isfinite(need->low_kcal) || !isfinite(need->high_kcal)) return "";
  return words_text(a, animal && animal->measured ? "by the journal, between %s and %s" : "animals differ: %s to %s",
                    words_whole(a, need->low_kcal), words_whole(a, need->high_kcal));
}

const char *words_weight(enum finding_weight weight) {
  static const char *const TITLE[] = {
      [FINDING_ACT] = "Act on", [FINDING_WATCH] = "Keep an eye on", [FINDING_KNOW] = "Good to know"};
  ROW_FOR_EACH(TITLE, FINDING_WEIGHT_COUNT);
  return TITLE[weight];
}

const char *words_basis(enum basis basis) {
  static const char *const NAME[] = {[BASIS_WEIGHT] = "by body weight", [BASIS_ENERGY] = "per 1000 kcal eaten"};
  ROW_FOR_EACH(NAME, BASIS_COUNT);
  return NAME[basis];
}

const char *words_confidence(enum confidence confidence) {
  static const char *const SAID[] = {[CONF_CONFIRMED] = "read in the source itself",
                                     [CONF_CONVERTED] = "read on another basis",
                                     [CONF_MEMORY] = "recalled, not read in the source itself",
                                     [CONF_COMMON_PRACTICE] = "common practice, no published figure",
                                     [CONF_CONFLICTING] = "sources disagree"};
  ROW_FOR_EACH(SAID, CONF_COUNT);
  return SAID[confidence];
}
