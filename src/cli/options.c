#include "cli/options.h"

#include <math.h>

#define TO(kind, field) OPTION_TO(kind, struct options, field)

/* Whom the answer is for: said before what is asked. */
static const struct option WHOM[] = {
    {"for", TO(TEXTS, for_whom), "FILE|NAME", ANIMAL_VERBS | VERB(TREND) | VERB(JOURNAL),
     .help =
         "a file with animals; the recipe's 'For:' line picks one of them. FILE:NAME, or --for a second time with a name, "
         "picks by name. A name alone picks from the one *.animals file in the recipe's folder"},
    {"dog", TO(WEIGHT, dog_kg), "KG", ANIMAL_VERBS | VERB(TREND), .help = "an adult dog of this weight: 18, 18kg or 40lb",
     0.5, 110},
    {"cat", TO(WEIGHT, cat_kg), "KG", ANIMAL_VERBS | VERB(TREND), .help = "an adult cat of this weight: 4.6, 4.6kg or 10lb",
     0.5, 15},
};

static const char *const FORMATS[FORMAT_UNSAID] = {"html", "pdf"};

/* What only a command line has: files, the terminal, the page's server. */
static const struct option MACHINE[] = {
    {"foods", TO(TEXTS, foods), "FILE",
     RECIPE_VERBS | VERB(COMPOSE) | VERB(TREND) | VERB(SLIM) | VERB(WEEK) | VERB(FOODS) | VERB(FOOD),
     .help = "your own foods and labels, for this run; may be given several times"},
    {"allowances", TO(TEXT, allowances), "FILE", ANIMAL_VERBS,
     .help = "rows of a standard that you copied from its book, used in place of ours: nrc2006 dog zinc RA 2.0 mg/kg^0.75, "
             "p. 359"},
    {"worksheet", TO(FLAG, worksheet), NULL, VERB(NEED),
     .help = "the rows of the standard as text, to be checked against its book and given back with --allowances"},
    {"licences", TO(FLAG, licences), NULL, VERB(LIBRARY),
     .help = "the notices of third parties, whose work is part of the program, the food library and the page"},
    {"larder", TO(TEXT, larder), "FILE", VERB(MEND) | VERB(SLIM) | VERB(SWAP) | VERB(REPLY) | VERB(SHEET),
     .help = "foods that you have, with their ranges: offered before others; for swap and sheet: their prices and packs"},
    {"out", TO(TEXT, out), "FILE|FOLDER", VERB(CHECK) | VERB(REPLY) | VERB(SHEET),
     .help = "of a sheet: the file to write, FILE.html or FILE.pdf; of a folder of texts: where the answers and the summary "
             "are written"},
    {"jobs", TO(COUNT, jobs), "N", VERB(CHECK) | VERB(REPLY) | VERB(SHEET),
     .help = "of a folder of texts: how many are answered at a time; default: one a core", 1, 64},
    {"svg", TO(TEXT, svg), "FILE", VERB(CHECK),
     .help = "the answer as a picture in this file, or on standard output (-): energy and rails, or with --why who supplies "
             "the nutrient"},
    {"format", TO(WORD, format), NULL, VERB(SHEET), .help = "default as the file's name ends, else html", .words = FORMATS,
     .word_count = FORMAT_UNSAID},
    {"journal", TO(TEXT, journal), "FILE", ANIMAL_VERBS,
     .help =
         "weights and what was eaten: the animal's own need is taken from it when it is surer than the equation; for week: "
         "what was really eaten, in place of a plan. The recipes that it names are given as files or lie beside it"},
    {"food", TO(TEXTS, food), "FOOD", VERB(SIDE),
     .help = "a food to set beside others, even if a file has its name; may be given several times"},
    {"add", TO(TEXT, add), "LINE", VERB(JOURNAL),
     .help = "a line for the journal's file, written only when it is understood; it begins with its day, 'yesterday', or is "
             "today's"},
    {"csv", TO(FLAG, csv), NULL, VERB(JOURNAL), .help = "as a table of comma-separated values; FILE.csv is read as one"},
    {"store", TO(TEXT, store), "FILE", VERB(SERVE) | VERB(JOURNAL),
     .help =
         "where texts are kept; default bowlwright/bowlwright.db in $XDG_DATA_HOME, else in ~/.local/share. Of a journal: "
         "the file is kept there, and without a file it comes out of there"},
    {"port", TO(COUNT, port), "N", VERB(SERVE), .help = "default 8427; 0: any that is free", 0, 65535},
    {"listen", TO(TEXT, listen), "ADDRESS", VERB(SERVE), .help = "default 127.0.0.1, this machine alone"},
    {"yes-beyond-this-machine", TO(FLAG, beyond), NULL, VERB(SERVE),
     .help = "with --listen: others may read and change the texts, and nothing is encrypted"},
    {"page", TO(TEXT, page), "FOLDER", VERB(SERVE),
     .help = "the page as 'make site' writes it, in place of the one in the program"},
    {"backup", TO(TEXT, backup), "FILE", VERB(SERVE),
     .help = "write a whole, checked copy of the store to a new file, and end"},
    {"open", TO(FLAG, open), NULL, VERB(SERVE), .help = "show the page in the usual browser"},
    {"strict", TO(FLAG, strict), NULL, VERB(CHECK), .help = "exit code 1 when something is short or over"},
    {"json", TO(FLAG, json), NULL, ANSWERING_VERBS, .help = "the answer as JSON, one object a line"},
    {"all", TO(FLAG, all), NULL, ANSWERING_VERBS, .help = "unfold what is folded"},
    {"plain", TO(FLAG, plain), NULL, ANSWERING_VERBS, .help = "no colour, plain ASCII characters"},
    {"width", TO(COUNT, width), "COLUMNS", ANSWERING_VERBS,
     .help = "how wide to draw; default the terminal's width, else 80", 60, 160},
    {"quiet", TO(FLAG, quiet), NULL, ALL_VERBS, .help = "no hints and warnings on standard error; errors are still shown"},
    {"library", TO(TEXT, library), "PATH", ANSWERING_VERBS,
     .help = "the food library file; default bowlwright.library beside the program, then what $BOWLWRIGHT_LIBRARY names"},
    {"help", TO(FLAG, help), NULL, ALL_VERBS, .help = "this text"},
    {"version", TO(FLAG, version), NULL, ALL_VERBS, .help = "the version of the program"},
};

enum { WHOMS = COUNT_OF(WHOM), MACHINES = COUNT_OF(MACHINE), OPTIONS_MOST = 96 };

static bool is_asked(int i) { return i >= WHOMS && i < WHOMS + request_option_count; }

const struct option *option_row(int i) {
  if (i < WHOMS) return &WHOM[i];
  if (is_asked(i)) return &request_option[i - WHOMS];
  i -= WHOMS + request_option_count;
  return i < MACHINES ? &MACHINE[i] : NULL;
}

struct parse {
  struct options *out;
  struct buf *complaint;
  struct arena *arena;
  bool used[OPTIONS_MOST];
};

static void list_add(struct parse *p, struct text_list *l, const char *item) {
  ARENA_PUSH(p->arena, l->item, l->count, l->cap, item);
}

/* ---- arguments ---- */

/* -1: none. Rows without verbs are not of the command line. */
static int option_by_word(struct span word) {
  const struct option *o;
  for (int i = 0; (o = option_row(i)); i++)
    if (o->verbs && span_is(word, o->word)) return i;
  return -1;
}

static bool unknown_option(struct parse *p, struct span word) {
  const char *known[OPTIONS_MOST];
  const struct option *o;
  int count = 0;
  for (int i = 0; (o = option_row(i)); i++)
    if (o->verbs) known[count++] = o->word;
  buf_addf(p->complaint, "unknown option '--%.*s'", SPAN_ARG(word));
  const char *near = option_nearest_word(word, known, count);
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
  int at = option_by_word(word);
  if (at < 0) return unknown_option(p, word);
  const struct option *o = option_row(at);
  if (o->kind == OPTION_FLAG && value) {
    buf_addf(p->complaint, "--%s takes no value", o->word);
    return false;
  }
  if (o->kind == OPTION_FLAG) value = "";
  if (!value) {
    bool next = *i + 1 < argc && strncmp(argv[*i + 1], "--", 2) != 0;
    if (!next) {
      buf_addf(p->complaint, "--%s needs a value: --%s ", o->word, o->word);
      option_value(o, p->complaint);
      return false;
    }
    value = argv[++*i];
  }
  p->used[at] = true;
  return option_read(o, value, is_asked(at) ? (void *)&p->out->ask : p->out, "--", p->complaint, p->arena);
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
  const char *near = option_nearest_word(word, known, VERB_COUNT);
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
  const struct option *o;
  for (int i = 0; (o = option_row(i)); i++) {
    if (!p->used[i] || (o->verbs & (1U << p->out->verb))) continue;
    bool post = strcmp(o->word, "posted") == 0;
    buf_addf(p->complaint, "'%s' has no option --%s%s", verb_spec[p->out->verb].word, o->word,
             post ? "; 'check FILE --posted --as-recipe' writes the post as a recipe first" : "");
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
  const struct verb_spec *v = &verb_spec[p->out->verb];
  bool dog = p->out->dog_kg > 0, cat = p->out->cat_kg > 0;
  bool file = p->out->for_whom.count > 0 || (v->operands_are == OPERANDS_ARE_ANIMALS && p->out->operand.count > 0);
  static const char WAYS[] = "--dog 18kg, --cat 4.6kg or --for FILE";
  if (dog + cat + file > 1) {
    buf_adds(p->complaint, "give one of --for, --dog and --cat: the answer is for one animal");
    return false;
  }
  if (dog + cat + file == 1) return true;
  if (v->needs_animal) buf_addf(p->complaint, "'%s' needs %s: %s", v->word, v->needs_animal, WAYS);
  return !v->needs_animal;
}

static bool no_verb(struct parse *p) {
  buf_adds(p->complaint, "say what to do: ");
  for (int v = 0; v < VERB_COUNT; v++)
    buf_addf(p->complaint, "%s%s", v == 0 ? "" : v + 1 < VERB_COUNT ? ", " : " or ", verb_spec[v].word);
  return false;
}

bool options_parse(int argc, char **argv, struct options *out, struct buf *complaint, struct arena *arena) {
  struct parse p = {.out = out, .complaint = complaint, .arena = arena};
  *out = (struct options){.ask = REQUEST_DEFAULT, .port = -1, .format = FORMAT_UNSAID, .dog_kg = NAN, .cat_kg = NAN};
  if (!read_arguments(&p, argc, argv)) return false;
  if (out->help || out->version || !out->any) return true;
  if (!out->verb_given) return no_verb(&p);
  return verb_takes_options(&p) && operands_fit(&p) && one_animal(&p);
}
