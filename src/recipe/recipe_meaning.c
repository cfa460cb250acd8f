/* Words that change what a food is: "celery leaves" are no celery, "pumpkin kernels" no pumpkin, a hide no beef. A record
 * that does not show such a word is another food, and the line asks instead of taking it. */
#include "recipe/recipe_food.h"
#include "text/scan.h"

enum { NAME_CHARACTERS = 60 };

struct span short_name(const struct library *lib, uint32_t food) {
  struct span s = span_of(library_name(lib, food));
  if (s.n <= NAME_CHARACTERS) return s;
  s.n = NAME_CHARACTERS;
  while (s.n > 0 && s.p[s.n] != ' ') s.n--; /* between words, and so between characters */
  while (s.n > 0 && (s.p[s.n - 1] == ',' || s.p[s.n - 1] == ' ')) s.n--;
  return s;
}

/* Folded; behind each word the ones in a record's name that show it as well. */
static const struct {
  const char *word, *shown_by;
  bool by_name_too; /* asked even where the rest of the words is an everyday name ("beef stew", "pumpkin kernels") */
} CHANGES[] = {{"leaf", "leaf green green lettuce cabbage spinach chard kale herb basil parsley", true},
               {"kernel", "seed corn nut sunflower kernel germ", true},
               {"hide", "hide rawhide", true},
               {"stew", "stew", true},
               {"soup", "soup", false},
               {"pie", "pie", false},
               {"casserole", "casserole", false},
               {"fur", "fur", false},
               {"feather", "feather", false},
               {"hoof", "hoof", false},
               {"antler", "antler", false},
               {"horn", "horn", false},
               {"peel", "peel rind", false},
               {"husk", "husk", false},
               {"hull", "hull", false},
               {"bran", "bran", false},
               {"germ", "germ", false},
               {"flour", "flour meal", false},
               {"starch", "starch", false},
               {"extract", "extract", false},
               {"juice", "juice", false},
               {"jam", "jam preserve", false},
               {"roe", "roe", false},
               {"milt", "milt", false},
               {"blood", "blood", false},
               {"smoked", "smoked smoke", false},
               {"cured", "cured", false},
               {"pickled", "pickled pickle", false},
               {"candied", "candied", false},
               {"fermented", "fermented sauerkraut kimchi miso tempeh", false},
               {"sprouted", "sprouted sprout", false},
               {"breaded", "breaded stick nugget", false},
               {"battered", "battered batter stick", false},
               {"marinated", "marinated", false},
               {"seasoned", "seasoned", false},
               {"stuffed", "stuffed stuffing", false},
               {"sweetened", "sweetened", false},
               {"imitation", "imitation surimi", false},
               {"vegan", "meatless vegetarian vegan", false},
               {"vegetarian", "meatless vegetarian vegan", false},
               {"jerky", "jerky", false},
               {"substitute", "substitute", false}};

static bool shows_any(struct span name, struct span words) {
  struct span w;
  while (folded_word(&words, &w))
    if (has_folded_word(name, w)) return true;
  return false;
}

static struct span folded_name(struct line_food *f) {
  return search_fold(&f->lib->image, span_of(library_name(f->lib, f->food)), f->arena);
}

/* "salmon, tinned in oil" where the only record is packed in water. */
static void say_oil(struct line_food *f) {
  if (library_food(f->lib, f->food)->part != PART_FISH ||
      !has_folded_word(search_fold(&f->lib->image, f->line->whole, f->arena), SPAN_LIT("oil")) ||
      has_folded_word(folded_name(f), SPAN_LIT("oil")))
    return;
  diag_say(f->d, DIAG_WARNING, DIAG_DOUBTFUL, f->line->food_at,
           "[%s] is not packed in oil: the oil that clings to the fish is not counted", library_code(f->lib, f->food));
}

bool word_is_kept(struct line_food *f) {
  const struct recipe_line *l = f->line;
  if (l->pin.n > 0) return true; /* a pin ends all guessing */
  struct span said = search_fold(&f->lib->image, l->food, f->arena);
  say_oil(f);
  for (size_t i = 0; i < COUNT_OF(CHANGES); i++) {
    if (f->found_by_name && !CHANGES[i].by_name_too) continue; /* an everyday name was chosen by hand */
    if (!has_folded_word(said, span_of(CHANGES[i].word)) || shows_any(folded_name(f), span_of(CHANGES[i].shown_by)))
      continue;
    diag_say(f->d, DIAG_ERROR, DIAG_UNKNOWN_FOOD, l->food_at.n > 0 ? l->food_at : l->whole,
             "no food record shows the '%s' of '%.*s'; the nearest, [%s] %.*s, is another food: take its pin if it is "
             "meant, or give "
             "the food with its label",
             CHANGES[i].word, SPAN_ARG(quoted(l->food)), library_code(f->lib, f->food),
             SPAN_ARG(short_name(f->lib, f->food)));
    return false;
  }
  return true;
}
