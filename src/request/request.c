#include "request/request.h"

static const char *const PAPER[] = {"a4", "letter"}, *const UNITS[] = {"metric", "us"};
static const char *const EQUAL[] = {"energy", "mass"};
static const char *const ENERGY_BY[] = {"atwater", "published", "four-step"};

#define TO(kind, field) OPTION_TO(kind, struct request, field)
enum { ON_ANIMALS = ANIMAL_VERBS, FROM_PROGRAMS = 0 };

const struct option request_option[] = {
    {"standard", TO(WORD, check.standard), NULL, ON_ANIMALS, .help = "whose allowances; default nrc2006",
     .words = standard_key, .word_count = STANDARD_COUNT},
    {"basis", TO(WORD, check.basis), NULL, ON_ANIMALS,
     .help = "allowances by metabolic body weight, or per 1000 kcal eaten; default weight", .words = basis_key,
     .word_count = BASIS_COUNT},
    {"sure", TO(PERCENT, check.sure), "PERCENT", RECIPE_VERBS | VERB(COMPOSE) | VERB(WEEK) | VERB(SLIM),
     .help = "how sure the answer must be before a need counts as met, 50 to 99; default 75", 50, 99},
    {"energy-by", TO(WORD, check.energy_by), NULL, VERB(CHECK) | VERB(SWAP) | VERB(SIDE) | VERB(TREND),
     .help = "how the food's energy is worked out; default atwater", .words = ENERGY_BY, .word_count = COUNT_OF(ENERGY_BY)},
    {"posted", TO(FLAG, posted), NULL, RECIPE_VERBS | VERB(WEEK),
     .help = "the text is what somebody posted: sentences, greetings, handfuls; what is understood is always answered"},
    {"as-recipe", TO(FLAG, as_recipe), NULL, VERB(CHECK),
     .help = "with --posted: only the strict text that the post amounts to, with what was assumed and what is to be asked"},
    {"why", TO(TEXTS, why), "NUTRIENT", VERB(CHECK) | VERB(SHEET),
     .help = "the whole chain behind one number: zinc, energy, vitamin_e, calcium:phosphorus; on a sheet a picture of who "
             "supplies it; may be given several times"},
    {"ratio", TO(TEXT, ratio), "PARTS", VERB(CHECK),
     .help = "the bowl against parts by weight: 80:10:5:5 (muscle:bone:liver:other organs), 80:10:10, or 'muscle 70, bone "
             "10, liver "
             "5, organ 5, plant 10'"},
    {"cooked", TO(FLAG, cooked), NULL, VERB(SIDE),
     .help = "one recipe raw, simmered with its broth, simmered and drained, baked"},
    {"per", TO(WORD, per), NULL, VERB(SIDE),
     .help = "what amounts are given for; default day for recipes, 1000kcal for foods", .words = side_per_key,
     .word_count = SIDE_PER_COUNT},
    {"aim", TO(TEXT, aim), "AIM", VERB(COMPOSE),
     .help = "cheapest, lightest, leanest, or 'nearest to 80:10:5:5'; default the larder's own, else lightest"},
    {"equal", TO(WORD, equal), NULL, VERB(SWAP),
     .help = "how much of the other food: as much energy (default) or as many grams", .words = EQUAL,
     .word_count = COUNT_OF(EQUAL)},
    {"any-part", TO(FLAG, any_part), NULL, VERB(SWAP), .help = "foods of every role, not only of the line's own"},
    {"everyday", TO(FLAG, everyday), NULL, VERB(SWAP),
     .help = "only foods that have an everyday name, not every cut, breed and make in the tables"},
    {"patience", TO(NUMBER, patience), "SECONDS", VERB(MEND) | VERB(SLIM) | VERB(REPLY) | VERB(COMPOSE),
     .help = "how long to look for something better before showing the best so far; default 60", 0.01, 86400},
    {"keep", TO(TEXTS, keep), "LINE", VERB(MEND) | VERB(SLIM) | VERB(REPLY),
     .help = "do not touch this line of the recipe: its number, or words from it; may be given several times"},
    {"never", TO(TEXTS, never), "FOOD", VERB(MEND) | VERB(SLIM) | VERB(REPLY),
     .help = "do not add this food: words of its name, its code, or a word for several (poultry, dairy); may be given "
             "several times"},
    {"no-supplements", TO(FLAG, no_supplements), NULL, VERB(MEND) | VERB(SLIM) | VERB(REPLY), .help = "add foods only"},
    {"proposals", TO(COUNT, proposals), "N", VERB(MEND),
     .help = "several changes, each to other lines than the ones before; default 1", 1, 9},
    {"steps", TO(COUNT, steps), "N", VERB(MEND),
     .help = "stop after the first so many changes, those that cover most, and say what stays open", 1, 99},
    {"from", TO(DATE, from), "YYYY-MM-DD", VERB(SLIM), .help = "the first day of the plan; default today"},
    {"forecast", TO(COUNT, forecast), "DAYS", VERB(TREND), .help = "how far to look ahead; default 28", 1, 366},
    {"kcal", TO(NUMBER, kcal), "KCAL", VERB(MEND) | VERB(REPLY) | VERB(TREND),
     .help =
         "the energy wanted a day (within 5 %); default that of the recipe when it is in the usual range, else the animal's "
         "expected need; for trend: what is eaten from now on, default what it has eaten lately",
     20, 10000},
    {"lines", TO(COUNT, lines), "N", VERB(REPLY), .help = "an answer of at most this many lines, what matters most first", 1,
     40},
    {"full", TO(FLAG, full), NULL, VERB(REPLY), .help = "everything there is to say, with a table of the figures"},
    {"sign", TO(TEXT, sign), "NAME", VERB(REPLY), .help = "a name under the answer"},
    {"days", TO(COUNT, days), "N", VERB(SHEET) | VERB(WEEK),
     .help = "how many days are cooked and shopped for; default the recipe's, else 7; with --rotate, of the rotation: 2 to "
             "28, default 7",
     1, 90},
    {"meals", TO(COUNT, meals), "N", VERB(SHEET), .help = "meals a day; default the recipe's, else 2", 1, 12},
    {"paper", TO(WORD, paper), NULL, VERB(SHEET), .help = "default a4", .words = PAPER, .word_count = COUNT_OF(PAPER)},
    {"units", TO(WORD, units), NULL, VERB(SHEET),
     .help = "grams and litres, or ounces, pounds and fluid ounces; default metric", .words = UNITS,
     .word_count = COUNT_OF(UNITS)},
    {"large", TO(FLAG, large), NULL, VERB(SHEET), .help = "large print"},
    {"rotate", TO(FLAG, rotate), NULL, VERB(WEEK),
     .help =
         "of two to eight recipes: which on which day meets every window with the fewest changes of recipe; --days 14 for "
         "two weeks"},
    {"since", TO(DATE, since), "YYYY-MM-DD", VERB(WEEK), .help = "of a journal, only from this day on"},
    {"until", TO(DATE, until), "YYYY-MM-DD", VERB(WEEK) | VERB(TREND),
     .help = "of a journal, only up to this day; for trend: the day of the answer, default today"},
    {"line", TO(TEXT, line), "LINE", FROM_PROGRAMS, .help = NULL},
    {"most", TO(COUNT, most), "N", FROM_PROGRAMS, .help = NULL, 1, 100},
    {"eaten", TO(NUMBER, eaten), "SHARE", FROM_PROGRAMS, .help = NULL, 0.1, 10},
    {"numbers-only", TO(FLAG, numbers_only), NULL, FROM_PROGRAMS, .help = NULL},
    {"today", TO(DATE, today), "YYYY-MM-DD", FROM_PROGRAMS, .help = NULL},
};
const int request_option_count = COUNT_OF(request_option);

static const struct option *option_named(struct span word) {
  for (size_t i = 0; i < COUNT_OF(request_option); i++)
    if (span_is(word, request_option[i].word)) return &request_option[i];
  return NULL;
}

static bool read_line(struct span line, struct request *out, struct buf *complaint, struct arena *arena) {
  const char *equals = memchr(line.p, '=', line.n);
  size_t n = equals ? (size_t)(equals - line.p) : line.n;
  const struct option *o = option_named(span_cut(line, 0, n));
  if (!o) {
    buf_addf(complaint, "'%.*s' cannot be asked for", SPAN_ARG(span_cut(line, 0, n)));
    return false;
  }
  return option_read(o, arena_text(arena, span_cut(line, n + 1, line.n)), out, "", complaint, arena);
}

bool request_read(struct span lines, struct request *out, struct buf *complaint, struct arena *arena) {
  while (lines.n > 0) {
    struct span line = span_trim(span_piece(&lines, '\n'));
    if (line.n > 0 && !read_line(line, out, complaint, arena)) return false;
  }
  return true;
}
