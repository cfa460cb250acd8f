#include "cli/options.h"

#include <math.h>

#include "foods/unit.h"

/* ---- the tables ---- */

const struct verb_spec verb_spec[VERB_COUNT] = {
    {"check", "FILE...", "judge a recipe for an animal: the main job",
     "Reads each recipe and says whether it gives the animal what it needs: energy, every nutrient against its allowance "
     "and upper "
     "limit, what falls short, what nobody knows, and which food supplies what. '-' reads standard input. Several recipes "
     "are "
     "answered one after the other (with --json one object a line). Without an animal only the composition of the food is "
     "shown.",
     "bowlwright check examples/weeknight-bowl.recipe --for Juniper",
     "is this bowl enough for Juniper, who is described in the examples folder?", 1, -1},
    {"mend", "FILE", "the smallest change of a recipe after which everything is met",
     "Finds the smallest change of a recipe that gives the animal what it needs: as few lines as possible, then as little "
     "of "
     "them as possible, foods before supplements, whole eggs and capsules, frequencies as they are. The answer is your own "
     "text with lines taken out and put in, the reason for each, and what moved. Foods are offered from the recipe, from a "
     "larder, from your own labels, then from a short list of ordinary foods and supplements. When no such change exists "
     "the "
     "limits that stand against each other are named (exit code 5).",
     "bowlwright mend examples/weeknight-bowl.recipe --for Juniper", "what would make this bowl enough for Juniper?", 1, 1},
    {"swap", "FILE LINE", "foods for one line's place, by what they repair and break",
     "Ranks the foods of the library for one line of a recipe: how much of each has as much energy (or weight), which "
     "nutrients "
     "it repairs and which it breaks, and what it costs in fat and food. LINE is the line's number in the text or words "
     "that "
     "stand in it. Foods of the same role in the bowl are compared unless --any-part is said. With a larder its prices are "
     "shown.",
     "bowlwright swap examples/weeknight-bowl.recipe \"lamb liver\" --for Juniper", "which other liver would do more?", 2,
     -1},
    {"compose", "LARDER", "a recipe from the foods that you have, under limits",
     "Finds the amounts of the foods in a larder text that give the animal everything it needs, within the ranges and "
     "limits "
     "that stand there, and the cheapest, lightest, leanest or nearest to a pattern of them. Several animals get one base "
     "and "
     "a topper for each. Amounts are what a kitchen can measure; the text that comes out can be checked like any other. "
     "When "
     "no recipe exists the limits that stand against each other are named, with the nearest recipe and the foods that would "
     "help (exit code 5).",
     "bowlwright compose examples/chest-freezer.larder --for Juniper", "what can be made from the chest freezer?", 1, 1},
    {"need", "[ANIMALS-FILE]", "energy and allowances of an animal, with their origin",
     "Shows what the animal needs a day: energy with its equation and range, and every allowance and upper limit with the "
     "row of "
     "the standard it comes from. A file with several animals is answered one after the other.",
     "bowlwright need --dog 18kg", "the needs of an adult dog of 18 kg", 0, 1},
    {"side", "FILE|FOOD...", "two to six recipes or foods side by side",
     "Sets two to six recipes on the same rails, one letter each, with what parts them first: short here and met there, "
     "then "
     "the largest differences. What is no file is a food, in words or as a pin; recipes and foods do not mix. With --cooked "
     "one recipe is set beside itself: raw, simmered with its broth, simmered and drained, baked.",
     "bowlwright side --food \"lamb liver\" --food \"chicken liver\"", "what the one has that the other has not", 0, -1},
    {"foods", "WORDS...", "find food records by what you would call the food",
     "Finds food records. Words may stand in any order; plurals, small typos and phrases such as 'skin on' or '90/10' are "
     "understood. The code in brackets, written behind a food in a recipe, pins that record.",
     "bowlwright foods lamb liver", "the records of lamb liver, best fit first", 1, -1},
    {"food", "PIN|WORDS...", "show one food record, with the origin of every value",
     "Shows one record with all its values, how far each may vary and where it comes from. Takes a pin such as usda:17199, "
     "or "
     "words that name one food.",
     "bowlwright food usda:17199", "one record, value by value", 1, -1},
    {"library", "", "what the food library holds and where it came from",
     "Shows how many foods and values the library holds and of which standing, every source with its licence, the error of "
     "the "
     "patterns behind estimated values, and what was set aside and why.",
     "bowlwright library", "sources, sizes, errors", 0, 0},
    {"serve", "", "the page in a browser, with its texts kept on this machine",
     "Gives the page to the browser on this machine and keeps its texts, with every earlier version, in one file. The "
     "address is "
     "printed; Ctrl-C stops. Nobody beyond this machine can reach it unless that is asked for twice. 'make serve' builds "
     "the "
     "program with the page in it. With --backup the file is copied instead, while another run may go on writing.",
     "bowlwright serve", "open http://127.0.0.1:8427/, write, and find it there tomorrow", 0, 0},
};

#define ON(verb) (1U << VERB_##verb)
enum {
  ANIMAL_VERBS = ON(CHECK) | ON(MEND) | ON(SWAP) | ON(COMPOSE) | ON(NEED) | ON(SIDE),
  ALL_VERBS = (1U << VERB_COUNT) - 1,
  ANSWERING_VERBS = ALL_VERBS & ~ON(SERVE)
};

static const char *const EQUAL[] = {"energy", "mass"};
static const char *const ENERGY_BY[] = {"atwater", "published", "four-step"};

const struct option_spec option_spec[OPT_COUNT] = {
    [OPT_FOR] =
        {"for", TAKES_TEXT, "FILE|NAME", ANIMAL_VERBS, 0, 0, NULL, 0,
         "a file with animals; the recipe's 'For:' line picks one of them. FILE:NAME, or --for a second time with a name, "
         "picks by name. A name alone picks from the one *.animals file in the recipe's folder"},
    [OPT_DOG] = {"dog", TAKES_WEIGHT, "KG", ANIMAL_VERBS, 0.5, 110, NULL, 0,
                 "an adult dog of this weight: 18, 18kg or 40lb"},
    [OPT_CAT] = {"cat", TAKES_WEIGHT, "KG", ANIMAL_VERBS, 0.5, 15, NULL, 0,
                 "an adult cat of this weight: 4.6, 4.6kg or 10lb"},
    [OPT_STANDARD] = {"standard", TAKES_WORD, "nrc2006|fediaf2021|aafco2016", ANIMAL_VERBS, 0, 0, standard_key,
                      STANDARD_COUNT, "whose allowances; default nrc2006"},
    [OPT_BASIS] = {"basis", TAKES_WORD, "weight|energy", ANIMAL_VERBS, 0, 0, basis_key, BASIS_COUNT,
                   "allowances by metabolic body weight, or per 1000 kcal eaten; default weight"},
    [OPT_SURE] = {"sure", TAKES_PERCENT, "PERCENT", ON(CHECK) | ON(MEND) | ON(SWAP) | ON(COMPOSE) | ON(SIDE), 50, 99, NULL,
                  0, "the confidence wanted before 'met' is said, 50 to 99; default 75"},
    [OPT_ENERGY_BY] = {"energy-by", TAKES_WORD, "atwater|published|four-step", ON(CHECK) | ON(SWAP) | ON(SIDE), 0, 0,
                       ENERGY_BY, COUNT_OF(ENERGY_BY), "how the food's energy is reckoned; default atwater"},
    [OPT_FOODS] = {"foods", TAKES_TEXT, "FILE",
                   ON(CHECK) | ON(MEND) | ON(SWAP) | ON(COMPOSE) | ON(SIDE) | ON(FOODS) | ON(FOOD), 0, 0, NULL, 0,
                   "your own foods and labels, for this run; may be given several times"},
    [OPT_WHY] =
        {"why", TAKES_TEXT, "NUTRIENT", ON(CHECK), 0, 0, NULL, 0,
         "the whole chain behind one number: zinc, energy, vitamin_e, calcium:phosphorus; may be given several times"},
    [OPT_RATIO] = {"ratio", TAKES_TEXT, "PARTS", ON(CHECK), 0, 0, NULL, 0,
                   "the bowl against parts by weight: 80:10:5:5 (muscle:bone:liver:other organs), 80:10:10, or 'muscle 70, "
                   "bone 10, liver 5, organ 5, plant 10'"},
    [OPT_COOKED] = {"cooked", TAKES_NOTHING, NULL, ON(SIDE), 0, 0, NULL, 0,
                    "one recipe raw, simmered with its broth, simmered and drained, baked"},
    [OPT_FOOD] = {"food", TAKES_TEXT, "FOOD", ON(SIDE), 0, 0, NULL, 0,
                  "a food to set beside others, even if a file has its name; may be given several times"},
    [OPT_PER] = {"per", TAKES_WORD, "day|1000kcal|100g", ON(SIDE), 0, 0, side_per_key, SIDE_PER_COUNT,
                 "what amounts are given for; default day for recipes, 1000kcal for foods"},
    [OPT_LARDER] = {"larder", TAKES_TEXT, "FILE", ON(MEND) | ON(SWAP), 0, 0, NULL, 0,
                    "foods that you have, with their ranges: offered before others; for swap: their prices"},
    [OPT_AIM] = {"aim", TAKES_TEXT, "AIM", ON(COMPOSE), 0, 0, NULL, 0,
                 "cheapest, lightest, leanest, or 'nearest to 80:10:5:5'; default the larder's own, else lightest"},
    [OPT_EQUAL] = {"equal", TAKES_WORD, "energy|mass", ON(SWAP), 0, 0, EQUAL, COUNT_OF(EQUAL),
                   "how much of the other food: as much energy (default) or as many grams"},
    [OPT_ANY_PART] = {"any-part", TAKES_NOTHING, NULL, ON(SWAP), 0, 0, NULL, 0,
                      "foods of every role, not only those of the line's own"},
    [OPT_EVERYDAY] = {"everyday", TAKES_NOTHING, NULL, ON(SWAP), 0, 0, NULL, 0,
                      "only foods that have a name in everyday speech, not every cut, breed and make of the tables"},
    [OPT_PATIENCE] = {"patience", TAKES_NUMBER, "SECONDS", ON(MEND) | ON(COMPOSE), 0.01, 86400, NULL, 0,
                      "how long to look for something better before the best that was found is shown; default 60"},
    [OPT_KEEP] = {"keep", TAKES_TEXT, "LINE", ON(MEND), 0, 0, NULL, 0,
                  "do not touch this line of the recipe: its number, or words that stand in it; may be given several times"},
    [OPT_NEVER] = {"never", TAKES_TEXT, "FOOD", ON(MEND), 0, 0, NULL, 0,
                   "do not add this food: words of its name, or its code; may be given several times"},
    [OPT_NO_SUPPLEMENTS] = {"no-supplements", TAKES_NOTHING, NULL, ON(MEND), 0, 0, NULL, 0, "add foods only"},
    [OPT_PROPOSALS] = {"proposals", TAKES_COUNT, "N", ON(MEND), 1, 9, NULL, 0,
                       "several changes, each with other lines than the ones before; default 1"},
    [OPT_KCAL] = {"kcal", TAKES_NUMBER, "KCAL", ON(MEND), 20, 10000, NULL, 0,
                  "the energy wanted a day (within 5 %); default that of the recipe when it is in the usual range, else the "
                  "animal's expected need"},
    [OPT_STORE] = {"store", TAKES_TEXT, "FILE", ON(SERVE), 0, 0, NULL, 0,
                   "where texts are kept; default bowlwright/bowlwright.db in $XDG_DATA_HOME, else in ~/.local/share"},
    [OPT_PORT] = {"port", TAKES_COUNT, "N", ON(SERVE), 0, 65535, NULL, 0, "default 8427; 0: any that is free"},
    [OPT_LISTEN] = {"listen", TAKES_TEXT, "ADDRESS", ON(SERVE), 0, 0, NULL, 0, "default 127.0.0.1, this machine alone"},
    [OPT_BEYOND] = {"yes-beyond-this-machine", TAKES_NOTHING, NULL, ON(SERVE), 0, 0, NULL, 0,
                    "with --listen: others may read and change the texts, and nothing is encrypted"},
    [OPT_PAGE] = {"page", TAKES_TEXT, "FOLDER", ON(SERVE), 0, 0, NULL, 0,
                  "the page as 'make site' writes it, in place of the one in the program"},
    [OPT_BACKUP] = {"backup", TAKES_TEXT, "FILE", ON(SERVE), 0, 0, NULL, 0,
                    "write a whole, checked copy of the store to a new file, and end"},
    [OPT_OPEN] = {"open", TAKES_NOTHING, NULL, ON(SERVE), 0, 0, NULL, 0, "show the page in the usual browser"},
    [OPT_STRICT] = {"strict", TAKES_NOTHING, NULL, ON(CHECK), 0, 0, NULL, 0, "exit code 1 when something is short or over"},
    [OPT_JSON] = {"json", TAKES_NOTHING, NULL, ANSWERING_VERBS, 0, 0, NULL, 0, "the answer as JSON, one object a line"},
    [OPT_ALL] = {"all", TAKES_NOTHING, NULL, ANSWERING_VERBS, 0, 0, NULL, 0, "unfold what is folded"},
    [OPT_PLAIN] = {"plain", TAKES_NOTHING, NULL, ANSWERING_VERBS, 0, 0, NULL, 0, "no colour, plain ASCII characters"},
    [OPT_WIDTH] = {"width", TAKES_COUNT, "COLUMNS", ANSWERING_VERBS, 60, 160, NULL, 0,
                   "how wide to draw; default the terminal's width, else 80"},
    [OPT_QUIET] = {"quiet", TAKES_NOTHING, NULL, ALL_VERBS, 0, 0, NULL, 0,
                   "no hints and warnings on standard error; errors are still shown"},
    [OPT_LIBRARY] =
        {"library", TAKES_TEXT, "PATH", ANSWERING_VERBS, 0, 0, NULL, 0,
         "the food library file; default bowlwright.library beside the program, then what $BOWLWRIGHT_LIBRARY names"},
    [OPT_HELP] = {"help", TAKES_NOTHING, NULL, ALL_VERBS, 0, 0, NULL, 0, "this text"},
    [OPT_VERSION] = {"version", TAKES_NOTHING, NULL, ALL_VERBS, 0, 0, NULL, 0, "the version of the program"},
};

/* ---- did you mean ---- */

/* What somebody meant is the known word that begins with what was typed, else one that a slip or two away. */
static const char *nearest_known(struct span word, const char *const *words, int count) {
  int most = word.n < 4 ? 1 : word.n < 9 ? 2 : 3, best = most + 1;
  const char *found = NULL;
  for (int i = 0; i < count; i++) {
    struct span known = span_of(words[i]);
    if (word.n >= 2 && known.n > word.n && span_eq_fold(span_cut(known, 0, word.n), word)) return known.p;
    int d = span_distance(word, known, most);
    if (d < best) {
      best = d;
      found = known.p;
    }
  }
  return found;
}

/* ---- values ---- */

struct parse {
  struct options *out;
  struct buf *complaint;
  struct arena *arena;
  bool used[OPT_COUNT];
};

static bool read_number(struct parse *p, const struct option_spec *s, struct span text, double *x) {
  struct span t = span_trim(text);
  size_t used = num_read(t, x);
  if (used > 0 && used + 1 == t.n && t.p[used] == '%' && s->takes == TAKES_PERCENT) used++;
  if (used == 0 || used != t.n) {
    buf_addf(p->complaint, "--%s takes a number, not '%.*s'", s->word, SPAN_ARG(text));
    return false;
  }
  if (s->takes == TAKES_COUNT && *x != floor(*x)) {
    buf_addf(p->complaint, "--%s takes a whole number, not '%.*s'", s->word, SPAN_ARG(text));
    return false;
  }
  return true;
}

static bool read_weight(struct parse *p, const struct option_spec *s, struct span text, double *kg) {
  struct span t = span_trim(text);
  double x = 0;
  size_t used = num_read(t, &x);
  struct span unit_word = span_trim(span_cut(t, used, t.n));
  enum unit u = unit_word.n == 0 ? UNIT_KG : unit_by_word(unit_word);
  if (used > 0 && unit_word.n > 1 && unit_word.p[0] == ',') {
    buf_addf(p->complaint, "--%s takes a weight with a decimal point, like 4.6kg, not '%.*s'", s->word, SPAN_ARG(text));
    return false;
  }
  if (used == 0 || unit_info[u].kind != UNIT_KIND_MASS) {
    buf_addf(p->complaint, "--%s takes a weight such as 18kg or 40lb, not '%.*s'", s->word, SPAN_ARG(text));
    return false;
  }
  *kg = unit_convert(x, u) / 1000.0;
  return true;
}

static bool in_range(struct parse *p, const struct option_spec *s, double x, const char *unit) {
  if (x >= s->low && x <= s->high) return true;
  buf_addf(p->complaint, "--%s takes ", s->word);
  num_sig(p->complaint, s->low, 6);
  buf_adds(p->complaint, " to ");
  num_sig(p->complaint, s->high, 6);
  buf_addf(p->complaint, "%s, not ", unit);
  num_sig(p->complaint, x, 6);
  return false;
}

static bool read_word(struct parse *p, const struct option_spec *s, struct span text, int *index) {
  for (int i = 0; i < s->word_count; i++) {
    if (span_is_fold(text, s->words[i])) {
      *index = i;
      return true;
    }
  }
  buf_addf(p->complaint, "--%s takes %s, not '%.*s'", s->word, s->value, SPAN_ARG(text));
  const char *near = nearest_known(text, s->words, s->word_count);
  if (near) buf_addf(p->complaint, "; did you mean '%s'?", near);
  return false;
}

static void list_add(struct parse *p, struct text_list *l, const char *item) {
  ARENA_PUSH(p->arena, l->item, l->count, l->cap, item);
}

static void store_number(struct options *o, enum option_id id, double x) {
  if (id == OPT_DOG) o->dog_kg = x;
  if (id == OPT_CAT) o->cat_kg = x;
  if (id == OPT_PROPOSALS) o->proposals = (int)x;
  if (id == OPT_KCAL) o->kcal = x;
  if (id == OPT_PORT) o->port = (int)x;
  if (id == OPT_PATIENCE) o->patience = x;
  if (id == OPT_SURE) o->check.sure = x / 100.0;
  if (id == OPT_WIDTH) o->width = (int)x;
}

static void store_word(struct options *o, enum option_id id, int index) {
  if (id == OPT_STANDARD) o->check.standard = (enum standard_id)index;
  if (id == OPT_BASIS) o->check.basis = (enum basis)index;
  if (id == OPT_EQUAL) o->equal_mass = index == 1;
  if (id == OPT_PER) {
    o->per = (enum side_per)index;
    o->per_given = true;
  }
  if (id == OPT_ENERGY_BY)
    o->check.energy_by = index == 0 ? ENERGY_ATWATER : index == 1 ? ENERGY_PUBLISHED : ENERGY_FOUR_STEP;
}

static void store_text(struct parse *p, enum option_id id, const char *text) {
  if (id == OPT_FOR) list_add(p, &p->out->for_whom, text);
  if (id == OPT_LARDER) p->out->larder = text;
  if (id == OPT_AIM) p->out->aim = text;
  if (id == OPT_KEEP) list_add(p, &p->out->keep, text);
  if (id == OPT_NEVER) list_add(p, &p->out->never, text);
  if (id == OPT_FOODS) list_add(p, &p->out->foods, text);
  if (id == OPT_WHY) list_add(p, &p->out->why, text);
  if (id == OPT_FOOD) list_add(p, &p->out->food, text);
  if (id == OPT_RATIO) p->out->ratio = text;
  if (id == OPT_LIBRARY) p->out->library = text;
  if (id == OPT_STORE) p->out->store = text;
  if (id == OPT_LISTEN) p->out->listen = text;
  if (id == OPT_PAGE) p->out->page = text;
  if (id == OPT_BACKUP) p->out->backup = text;
}

static void store_flag(struct options *o, enum option_id id) {
  if (id == OPT_COOKED) o->cooked = true;
  if (id == OPT_NO_SUPPLEMENTS) o->no_supplements = true;
  if (id == OPT_ANY_PART) o->any_part = true;
  if (id == OPT_EVERYDAY) o->everyday = true;
  if (id == OPT_STRICT) o->strict = true;
  if (id == OPT_BEYOND) o->beyond = true;
  if (id == OPT_OPEN) o->open = true;
  if (id == OPT_JSON) o->json = true;
  if (id == OPT_ALL) o->all = true;
  if (id == OPT_PLAIN) o->plain = true;
  if (id == OPT_QUIET) o->quiet = true;
  if (id == OPT_HELP) o->help = true;
  if (id == OPT_VERSION) o->version = true;
}

static bool read_value(struct parse *p, enum option_id id, const char *text) {
  const struct option_spec *s = &option_spec[id];
  double x = NAN;
  int index = 0;
  switch (s->takes) {
  case TAKES_NOTHING:
    store_flag(p->out, id);
    return true;
  case TAKES_TEXT:
    if (text[0]) {
      store_text(p, id, text);
      return true;
    }
    buf_addf(p->complaint, "--%s needs a value: --%s %s", s->word, s->word, s->value);
    return false;
  case TAKES_WEIGHT:
    if (!read_weight(p, s, span_of(text), &x) || !in_range(p, s, x, " kg")) return false;
    store_number(p->out, id, x);
    return true;
  case TAKES_NUMBER:
  case TAKES_COUNT:
  case TAKES_PERCENT:
    if (!read_number(p, s, span_of(text), &x) || !in_range(p, s, x, s->takes == TAKES_PERCENT ? " per cent" : ""))
      return false;
    store_number(p->out, id, x);
    return true;
  case TAKES_WORD:
    if (!read_word(p, s, span_of(text), &index)) return false;
    store_word(p->out, id, index);
    return true;
  }
  return false;
}

/* ---- arguments ---- */

static enum option_id option_by_word(struct span word) {
  for (int i = 0; i < OPT_COUNT; i++)
    if (span_is(word, option_spec[i].word)) return (enum option_id)i;
  return OPT_COUNT;
}

static bool unknown_option(struct parse *p, struct span word) {
  buf_addf(p->complaint, "unknown option '--%.*s'", SPAN_ARG(word));
  const char *known[OPT_COUNT];
  for (int i = 0; i < OPT_COUNT; i++) known[i] = option_spec[i].word;
  const char *near = nearest_known(word, known, OPT_COUNT);
  if (near) buf_addf(p->complaint, "; did you mean '--%s'?", near);
  return false;
}

/* argv[*i] begins with "--" and is longer. Takes the next argument when the option wants a value and holds none. */
static bool read_option(struct parse *p, int argc, char **argv, int *i) {
  struct span word = span_of(argv[*i] + 2);
  const char *equals = memchr(word.p, '=', word.n), *value = NULL;
  if (equals) {
    value = equals + 1;
    word.n = (size_t)(equals - word.p);
  }
  enum option_id id = option_by_word(word);
  if (id == OPT_COUNT) return unknown_option(p, word);
  const struct option_spec *s = &option_spec[id];
  if (s->takes == TAKES_NOTHING && value) {
    buf_addf(p->complaint, "--%s takes no value", s->word);
    return false;
  }
  if (s->takes != TAKES_NOTHING && !value) {
    bool next = *i + 1 < argc && strncmp(argv[*i + 1], "--", 2) != 0;
    if (!next) {
      buf_addf(p->complaint, "--%s needs a value: --%s %s", s->word, s->word, s->value);
      return false;
    }
    value = argv[++*i];
  }
  p->used[id] = true;
  return read_value(p, id, value);
}

static bool read_verb(struct parse *p, const char *text) {
  struct span word = span_of(text);
  for (int v = 0; v < VERB_COUNT; v++) {
    if (span_is(word, verb_spec[v].word)) {
      p->out->verb = (enum verb)v;
      p->out->verb_given = true;
      return true;
    }
  }
  buf_addf(p->complaint, "unknown verb '%s'", text);
  const char *known[VERB_COUNT];
  for (int v = 0; v < VERB_COUNT; v++) known[v] = verb_spec[v].word;
  const char *near = nearest_known(word, known, VERB_COUNT);
  if (near) buf_addf(p->complaint, "; did you mean '%s'?", near);
  return false;
}

static bool read_arguments(struct parse *p, int argc, char **argv) {
  bool options_ended = false;
  for (int i = 1; i < argc; i++) {
    const char *a = argv[i];
    p->out->any = true;
    if (!options_ended && strcmp(a, "--") == 0) {
      options_ended = true;
    } else if (!options_ended && strncmp(a, "--", 2) == 0) {
      if (!read_option(p, argc, argv, &i)) return false;
    } else if (!options_ended && strcmp(a, "-h") == 0) {
      p->out->help = true;
    } else if (!options_ended && a[0] == '-' && a[1] != '\0') {
      buf_addf(p->complaint,
               "unknown option '%s'; options are whole words after two hyphens (a file of that name: put '--' before it)",
               a);
      return false;
    } else if (!p->out->verb_given) {
      if (!read_verb(p, a)) return false;
    } else {
      list_add(p, &p->out->operand, a);
    }
  }
  return true;
}

/* ---- what goes together ---- */

static bool verb_takes_options(struct parse *p) {
  for (int i = 0; i < OPT_COUNT; i++) {
    if (!p->used[i] || (option_spec[i].verbs & (1U << p->out->verb))) continue;
    buf_addf(p->complaint, "'%s' has no option --%s", verb_spec[p->out->verb].word, option_spec[i].word);
    return false;
  }
  return true;
}

static bool operands_fit(struct parse *p) {
  const struct verb_spec *v = &verb_spec[p->out->verb];
  const struct text_list *l = &p->out->operand;
  if (l->count < (size_t)v->least) {
    buf_addf(p->complaint, "'%s' needs %s", v->word, v->operands);
    return false;
  }
  if (v->most >= 0 && l->count > (size_t)v->most) {
    buf_addf(p->complaint, "'%s' does not know what to do with '%s'", v->word, l->item[v->most]);
    return false;
  }
  return true;
}

static bool one_animal(struct parse *p) {
  bool dog = p->used[OPT_DOG], cat = p->used[OPT_CAT];
  bool file = p->used[OPT_FOR] || (p->out->verb == VERB_NEED && p->out->operand.count > 0);
  if (dog + cat + file > 1) {
    buf_adds(p->complaint, "say one of --for, --dog and --cat: the answer is for one animal");
    return false;
  }
  if (p->out->verb == VERB_NEED && dog + cat + file == 0) {
    buf_adds(p->complaint, "'need' needs an animal: --dog 18kg, --cat 4.6kg or --for FILE");
    return false;
  }
  if (p->out->verb == VERB_MEND && dog + cat + file == 0) {
    buf_adds(p->complaint, "'mend' needs an animal to mend for: --dog 18kg, --cat 4.6kg or --for FILE");
    return false;
  }
  if ((p->out->verb == VERB_SWAP || p->out->verb == VERB_COMPOSE) && dog + cat + file == 0) {
    buf_addf(p->complaint, "'%s' needs an animal: --dog 18kg, --cat 4.6kg or --for FILE", verb_spec[p->out->verb].word);
    return false;
  }
  if (p->out->strict && dog + cat + file == 0) {
    buf_adds(p->complaint, "--strict needs an animal to judge for: --dog 18kg, --cat 4.6kg or --for FILE");
    return false;
  }
  return true;
}

bool options_parse(int argc, char **argv, struct options *out, struct buf *complaint, struct arena *arena) {
  struct parse p = {.out = out, .complaint = complaint, .arena = arena};
  *out = (struct options){
      .port = -1, .dog_kg = NAN, .kcal = NAN, .patience = NAN, .cat_kg = NAN, .check = CHECK_OPTIONS_DEFAULT};
  if (!read_arguments(&p, argc, argv)) return false;
  if (out->help || out->version || !out->any) return true;
  if (!out->verb_given) {
    buf_adds(complaint, "say what to do: check, mend, swap, compose, need, side, foods, food, library or serve");
    return false;
  }
  return verb_takes_options(&p) && operands_fit(&p) && one_animal(&p);
}
