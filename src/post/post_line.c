/* The words of one food, and the strict line that they come to. */
#include "base/num.h"
#include "foods/search_words.h"
#include "post/post_item.h"

static bool keeps_meaning(const struct tokens *t, size_t at) { /* "no skin", "without bone", "not peeled" */
  return says(t, at, "no without not") && says(t, at + 1, "skin skins bone bones broth salt sugar added");
}

/* Words that say what is so anyway ("no shell", "no core") or nothing at all; how many tokens. */
static size_t says_nothing_new(const struct tokens *t, size_t at) {
  static const char *const PHRASES[] = {"most days",
                                        "in its own juice",
                                        "in its own juices",
                                        "in its juice",
                                        "in its juices",
                                        "in their own juice",
                                        "in its own fat",
                                        "stirred in",
                                        "stirred through",
                                        "mixed in",
                                        "mixed through",
                                        "on top",
                                        "thrown in",
                                        "chucked in",
                                        "added in",
                                        "over the top",
                                        "on the side",
                                        "give or take",
                                        "or so",
                                        "or thereabouts",
                                        "sprinkled on",
                                        "drizzled on",
                                        "blitzed up",
                                        "as well",
                                        "without fail",
                                        "too",
                                        "at a time",
                                        "and nothing else",
                                        "with nothing",
                                        "over it",
                                        "over that",
                                        "into it",
                                        "with it",
                                        "with that",
                                        "on it",
                                        "or thereabouts",
                                        "thereabouts",
                                        "after the bone is out",
                                        "all in",
                                        "all day",
                                        "if that",
                                        "at most",
                                        "in total",
                                        "altogether",
                                        "any flavour",
                                        "give or take a bit",
                                        "in the bowl",
                                        "in his bowl",
                                        "in her bowl",
                                        "of it",
                                        "once drained",
                                        "when drained",
                                        "in addition",
                                        "weighed after the cooking",
                                        "weighed after cooking"};
  for (size_t i = 0; i < COUNT_OF(PHRASES); i++) {
    size_t used = phrase_at(t, at, PHRASES[i]);
    if (used > 0) return used;
  }
  if (says(t, at, "no without") && says(t, at + 1, "shell shells core cores seeds peel pips stone stones stalks")) return 2;
  if (says(t, at,
           "soft cored peeled ones then just only really lightly gently nicely about approx approximately roughly finely"))
    return 1;
  return 0;
}

static void add_word(struct words *w, struct span s, bool glued) {
  if (w->text.n > 0 && (!glued || w->text.p[w->text.n - 1] == ',')) buf_addc(&w->text, ' ');
  buf_add(&w->text, s);
}

/* A percentage of a mince without a word to it: above, of lean meat; below, of fat. Between them it is left to be asked. */
static const double LEAN_LEAST = 70, FAT_LEAST = 1, FAT_MOST = 35;

static bool bare_percent(const struct tokens *t, size_t at) {
  const struct token *k = &t->item[at];
  if (k->kind != TOKEN_NUMBER || !is_mark(t, at + 1, '%') || says(t, at + 2, "fat lean milk extra milkfat")) return false;
  return k->value >= LEAN_LEAST ? k->value < 100 : k->value >= FAT_LEAST && k->value <= FAT_MOST;
}

static bool says_minced(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (says(t, i, "mince minced mincemeat ground burger burgers hamburger grind")) return true;
  return false;
}

/* "eggs + shells", "an egg, shell and all": how many tokens. */
static size_t shell_at(const struct tokens *t, size_t at) {
  static const char *const PHRASES[] = {
      "shell and all",  "shells and all",  "and shells",       "and shell",           "+ shells",   "+ shell",
      "& shells",       "& shell",         "and the shell",    "and its shell",       "plus shell", "plus shells",
      "plus the shell", "incl shells",     "including shells", "including the shell", "shell on",   "shells on",
      "with shells",    "with the shells", "shell included",   "shells included"};
  size_t egg = t->count;
  for (size_t i = at; i-- > 0 && i + 8 > at;)
    if (says(t, i, "egg eggs")) egg = i;
  for (size_t i = 0; egg < t->count && i < COUNT_OF(PHRASES); i++) {
    size_t used = phrase_at(t, at, PHRASES[i]);
    if (used > 0) return used;
  }
  return 0;
}

/* "meat of turkey", "yolk of egg", "oil of salmon": where the name of the whole stands; 0. */
static size_t of_at(const struct tokens *t, size_t at, size_t to) {
  if (!says(
          t, at,
          "meat yolk yolks egg eggs oil liver heart hearts kidney neck necks breast leg legs thigh thighs tongue tripe milk "
          "flesh filet fillet gizzard gizzards wing wings mince powder seeds flour shoulder"))
    return 0;
  size_t of = at + 1;
  if (!says(t, of, "of from")) return 0;
  if (says(t, of + 1, "the a an our")) of++;
  return of + 1 < to && is_word(t, of + 1) && !is_chatter(t->item[of + 1].word) && t->item[of + 1].word.n > 2 ? of + 1 : 0;
}

/* "per week" where a single day is named as well: it is that day's amount. */
static bool two_periods(const struct tokens *t, size_t from, size_t to, size_t at) {
  if (!says(t, at, "per a") || !says(t, at + 1, "week")) return false;
  for (size_t i = from; i < to; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens > 0 && f.times_per_28 == 4 && f.days != 0) return true;
  }
  return false;
}

/* Words inside a name that say nothing: "the 90/10", "at 5% of fat". */
static bool is_filler(const struct tokens *t, size_t at) {
  if (says(t, at, "the his her my our their your")) return true;
  if (says(t, at, "a an") && at > 0 && !says(t, at - 1, "and plus or")) return true;
  if (says(t, at, "at") && is_number(t, at + 1) && is_mark(t, at + 2, '%')) return true;
  if (says(t, at, "with") && is_number(t, at + 1) && is_mark(t, at + 2, '%')) return true;
  return says(t, at, "of") && at > 0 && is_mark(t, at - 1, '%');
}

/* "for the hairballs", "from the freezer", "because", "split over 3 meals": what follows names no food. */
static bool begins_aside(const struct tokens *t, size_t at) {
  if (says(t, at, "into") ||
      (says(t, at, "each one every") && says(t, at + 1, "tub bowl box container bag portion pot jar dish")))
    return true;
  if (says(t, at, "for from until whenever during after") && !says(t, at + 1, "frozen cooking dry")) {
    if (says(t, at, "from") && !says(t, at + 1, "the a an my our his her their")) return false;
    return !says(t, at, "from") || !says(t, at + 2, "tin can jar");
  }
  if (says(t, at, "split divided spread shared") && !says(t, at + 1, "pea peas lentil lentils mung chickpeas")) return true;
  if (says(t, at, "any thoughts opinions ok okay which whose") || phrase_at(t, at, "as long") > 0 ||
      phrase_at(t, at, "as soon") > 0)
    return true;
  if (says(t, at, "in") && says(t, at + 1, "the a an my") &&
      says(t, at + 2, "slow pot pan oven fridge freezer pressure instant steamer rice kong lickmat mat"))
    return true;
  if (says(t, at, "is are was") && at > 0 && !is_mark(t, at - 1, ',')) return true; /* "400 g lamb is liver" */
  if (says(t, at, "goes go going went") && at > 0) return true; /* "eggshell powder goes on once a day" */
  if (says(t, at, "made") && says(t, at + 1, "with in by")) return true;
  if (says(t, at, "over on with") && says(t, at + 1, "his her their my our the") &&
      says(t, at + 2, "breakfast dinner lunch supper tea meal bowl food evening morning porch news top"))
    return true;
  static const char *const PHRASES[] = {"on top of", "left down", "to keep", "to help", "in each", "in every",
                                        "to each",   "to every",  "so he",   "so she",  "if he",   "if she"};
  for (size_t i = 0; i < COUNT_OF(PHRASES); i++)
    if (phrase_at(t, at, PHRASES[i]) > 0) return true;
  return false;
}

/* What stands in a name without being of it: how often, shells, the tin it came from; how many tokens. */
static size_t beside_the_name(const struct tokens *t, size_t from, size_t to, size_t i, struct words *w) {
  const struct token *k = &t->item[i];
  size_t nothing = phrase_at(t, i, "on top of") > 0 ? 0 : says_nothing_new(t, i);
  if (nothing > 0) {
    return nothing;
  }
  if (two_periods(t, from, to, i)) { /* "85 g per week, on Wednesday" */
    return 2;
  }
  size_t often = frequency_at(t, i).tokens;
  if (often > to - i) often = 0;
  if (often > 0) { /* "On Saturday I give beef liver 100 g": told beside it */
    if (w->count > 0) add_word(w, tokens_span(t, i, often), false);
    return often;
  }
  if (shell_at(t, i) > 0) { /* "eggs + shells" */
    while (w->text.n > 0 && w->text.p[w->text.n - 1] == ',') w->text.n--;
    buf_adds(&w->text, " with shell");
    return shell_at(t, i);
  }
  size_t tin = ANY_OF(t, i, "from the tin", "from a tin", "from a can", "from the can", "out of a tin", "out of the tin",
                      "out of a can", "from tins");
  if (tin > 0 && w->count > 0) {
    buf_adds(&w->text, ", canned");
    return tin;
  }
  if (w->count > 0 && phrase_at(t, i, "at each") > 0 && (i + 2 >= to || !is_word(t, i + 2))) { /* "30 g at each" */
    buf_adds(&w->text, ", at each meal");
    return 2;
  }
  size_t turned = of_at(t, i, to);
  if (turned > 0) { /* "yolk of egg" */
    add_word(w, t->item[turned].at, false);
    add_word(w, k->at, false);
    w->count += 2;
    return turned - i + 1;
  }
  return 0;
}

/* Words that are passed over, and those that the strict text says in another way; how many tokens. */
static size_t within_the_name(const struct tokens *t, size_t from, size_t to, size_t i, struct words *w) {
  const struct token *k = &t->item[i];
  if (says(t, i, "mince cook boil roast stew bake steam fry make") && i > 0 && says(t, i - 1, "i we")) return 1; /* a verb */
  if (w->count > 0 && is_filler(t, i)) return 1;
  bool ends = i + 1 >= to || is_mark(t, i + 1, '(') || is_mark(t, i + 1, ',');
  if (w->count > 0 && ends && w->skip_to > 0 &&
      says(t, i,
           "block blocks nugget nuggets patty patties pack packs pouch pouches puck "
           "pucks log logs roll rolls ball balls brick bricks"))
    return 1;
  if (w->count > 0 && says(t, i, "day week") && (i + 1 >= to || is_mark(t, i + 1, ','))) { /* "psyllium 1 tsp day" */
    bool comma = w->text.n > 0 && w->text.p[w->text.n - 1] == ',';
    buf_addf(&w->text, "%s a %.*s", comma ? "" : ",", SPAN_ARG(k->word));
    return 1;
  }
  if (says(t, i, "at") && not_an_amount(t, i + 1) > 0) { /* "at 6pm" */
    return 1 + not_an_amount(t, i + 1);
  }
  if (w->count == 0 && says(t, i, "bag bags tub tubs pack packs packet packets box pouch block blocks tray") &&
      says(t, i + 1, "of")) {
    return 2;
  }
  if (says(t, i, "egg") && says(t, i + 1, "shell shells")) {
    add_word(w, SPAN_LIT("eggshell"), false);
    w->count++;
    return 2;
  }
  size_t share = not_an_amount(t, i);
  if (share == 2 && is_mark(t, i + 1, '%') && !is_mark(t, i + 2, ')')) share = 0; /* "90% lean" stays as it is */
  if (share == 2 && is_mark(t, i + 1, '%') && k->value >= LEAN_LEAST) {           /* "(90%)" */
    add_word(w, k->at, false);
    buf_adds(&w->text, "% lean");
    return 2;
  }
  if (bare_percent(t, i) && says_minced(t, from, to)) { /* "turkey mince (7%)", "5% beef mince" */
    add_word(w, k->at, false);
    buf_adds(&w->text, k->value >= LEAN_LEAST ? "% lean" : "% fat");
    return 2;
  }
  return 0;
}

/* Words of [from, to) that belong to the food; what begins a clause ends them. */
void post_gather(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct words *w) {
  bool clause = false;
  for (size_t i = from; i < to; i++) {
    const struct token *k = &t->item[i];
    if (k->taken) continue;
    if (clause) {
      if (k->kind == TOKEN_WORD && !w->cooked) w->cooked = cooked_by(k->word);
      continue;
    }
    if (i == w->skip_from && w->skip_to > i) {
      i = w->skip_to - 1;
      continue;
    }
    size_t used = beside_the_name(t, from, to, i, w);
    if (used == 0) used = within_the_name(t, from, to, i, w);
    if (used > 0) {
      i += used - 1;
      continue;
    }
    if (k->kind == TOKEN_WORD) {
      bool purpose = says(t, i, "to for") && says(t, i + 1, "chew chewing gnaw share keep help clean taste train training");
      purpose =
          purpose || (says(t, i, "as") && (says(t, i + 1,
                                                "bribe bribes treat treats topper toppers snack snacks reward "
                                                "rewards training") ||
                                           (says(t, i + 1, "a an") && says(t, i + 2, "bribe treat topper snack reward"))));
      if ((purpose || begins_aside(t, i) || (begins_clause(k->word) && !keeps_meaning(t, i))) && w->count > 0) {
        clause = true;
        continue;
      }
      if (w->count == 0 && is_chatter(k->word)) continue;
      struct span word = spelled_out(k->word);
      if (word.p == k->word.p) word = k->at;
      if (word.n == 0) continue;
      add_word(w, word, false);
      w->count++;
    } else if (k->kind == TOKEN_MARK) {
      bool with = k->mark == '/' && i > from && says(t, i - 1, "w"); /* "w/ skin" */
      bool keep = k->mark == '%' || (k->mark == '/' && !with) || k->mark == '-';
      if (keep)
        add_word(w, k->at, k->glued || k->mark == '%');
      else if (w->text.n > 0 && w->text.p[w->text.n - 1] != ',' &&
               (k->mark == ',' || k->mark == '(' || k->mark == ')' || k->mark == ';'))
        buf_addc(&w->text, ',');
      else if (k->mark == '&')
        add_word(w, SPAN_LIT("&"), false);
    } else {
      add_word(w, k->at, k->glued && i > from && t->item[i - 1].kind == TOKEN_MARK);
      w->count++;
    }
  }
  (void)r;
}

struct span post_trimmed(struct span s) {
  while (s.n > 0 && (s.p[0] == ',' || s.p[0] == ' ' || s.p[0] == '-' || s.p[0] == '/')) s = span_cut(s, 1, s.n);
  for (;;) {
    while (s.n > 0 && (s.p[s.n - 1] == ',' || s.p[s.n - 1] == ' ' || s.p[s.n - 1] == '-' || s.p[s.n - 1] == '/')) s.n--;
    size_t last = s.n;
    while (last > 0 && s.p[last - 1] != ' ' && s.p[last - 1] != ',') last--;
    struct span word = span_cut(s, last, s.n);
    bool on_bone = word_in(word, "in on") && s.n > 8 &&
                   (span_holds_fold(span_cut(s, s.n - 8, s.n), SPAN_LIT("bone")) ||
                    span_holds_fold(span_cut(s, s.n - 8, s.n), SPAN_LIT("skin")));
    if (word.n == 0 || last == 0 || on_bone || !is_chatter(word) ||
        word_in(word, "day daily week night month meal meals morning evening nightly portion bowl serving tub bag "
                      "container"))
      return s;
    s.n = last;
  }
}

/* "x2", "x 2" at the end: how many times. */
double post_times_behind(const struct tokens *t, size_t from, size_t *to) {
  if (*to >= from + 2 && t->item[*to - 1].kind == TOKEN_NUMBER && says(t, *to - 2, "x")) {
    *to -= 2;
    return t->item[*to + 1].value;
  }
  if (*to >= from + 2 && t->item[*to - 1].kind == TOKEN_NUMBER && is_mark(t, *to - 2, 'x')) {
    *to -= 2;
    return t->item[*to + 1].value;
  }
  if (*to > from && is_word(t, *to - 1) && t->item[*to - 1].word.n >= 2 && t->item[*to - 1].word.p[0] == 'x') {
    double n;
    if (num_parse(span_cut(t->item[*to - 1].word, 1, t->item[*to - 1].word.n), &n) && n > 0) {
      --*to;
      return n;
    }
  }
  return 1;
}

static bool holds_capsule(struct span s) {
  if (s.n > 4 && span_is_fold(span_cut(s, s.n - 4, s.n), " cap")) return true; /* "fish oil cap" */
  return span_holds_fold(s, SPAN_LIT("capsule")) || span_holds_fold(s, SPAN_LIT("softgel")) ||
         span_holds_fold(s, SPAN_LIT("tablet")) || span_holds_fold(s, SPAN_LIT(" caps"));
}

/* "1000 mg salmon oil capsule": the dose of one; the count is behind it. */
static void write_front(struct buf *b, const struct post_amount *a, double times, struct span words) {
  bool dose =
      (strcmp(a->unit, "mg") == 0 || strcmp(a->unit, "IU") == 0 || strcmp(a->unit, "mcg") == 0) && holds_capsule(words);
  if (!dose) {
    struct post_amount written = *a;
    if (a->heaped) written.high *= 1.7;
    amount_write(b, &written, times);
    if (a->about && a->is_mass && a->low == a->high) {
      buf_adds(b, " (");
      num_sig(b, 0.9 * a->low * times, 4);
      buf_addc(b, '-');
      num_sig(b, 1.1 * a->low * times, 4);
      buf_addf(b, " %s)", a->unit);
    }
    return;
  }
  num_sig(b, times, 4);
  buf_adds(b, times > 1 ? " capsules" : " capsule");
}

static struct span without_capsule(struct post_reader *r, struct span words) {
  struct buf b;
  buf_init(&b, r->arena, words.n + 2);
  while (words.n > 0) {
    const char *blank = memchr(words.p, ' ', words.n);
    size_t n = blank ? (size_t)(blank - words.p) : words.n;
    struct span w = span_cut(words, 0, n);
    if (!word_in(w, "capsule capsules softgel softgels tablet tablets cap caps")) {
      if (b.n > 0) buf_addc(&b, ' ');
      buf_add(&b, w);
    }
    words = span_cut(words, blank ? n + 1 : n, words.n);
  }
  return b.n > 0 ? buf_span(&b) : (struct span){"", 0};
}

/* The strict line of an amount and words. */
static const char *compose(struct post_reader *r, const struct wanted *w, struct span words) {
  struct buf b;
  buf_init(&b, r->arena, 2 * words.n + 400);
  struct post_amount a = w->amount;
  if (a.bare && r->bare_unit[0] && !a.by_word) {
    memcpy(a.unit, r->bare_unit, strlen(r->bare_unit) + 1);
    a.bare = false;
  }
  write_front(&b, &a, w->times, words);
  bool dose = (strcmp(a.unit, "mg") == 0 || strcmp(a.unit, "IU") == 0 || strcmp(a.unit, "mcg") == 0) && holds_capsule(words);
  if (dose) words = without_capsule(r, words);
  buf_addf(&b, " %.*s", SPAN_ARG(words));
  if (dose) {
    buf_addc(&b, ' ');
    amount_write(&b, &a, 1);
  }
  if (w->cooked) buf_addf(&b, ", %s", w->cooked);
  if (w->often[0]) buf_addf(&b, ", %s", w->often);
  return buf_text(&b);
}

/* A word that no food's name has: it may go when the line is understood without it. */
static bool may_go(struct post_reader *r, struct span word) {
  struct span folded = search_fold(&r->lib->image, word, r->arena);
  if (folded.n == 0 || is_chatter(word)) return true;
  if (word_in(
          word,
          "first am pm nice lovely tasty yummy favourite favorite cheap shop supermarket butcher local home homemade fridge "
          "freezer organic poached trimmed "
          "treat training chunks pieces only maybe everyday"))
    return true;
  return search_token(&r->lib->image, folded) == NULL && folded.n > 2 && memchr(folded.p, ' ', folded.n) == NULL &&
         word_in(word, "grated shredded cubed diced chopped cooled mashed blended");
}

/* Words that the library's names do not spell so: told as an assumption. */
static const char *misspelt(struct post_reader *r, const char *name) {
  struct span words = r->food_words;
  struct tokens t = tokens_of(words, r->arena);
  struct synonyms syn = search_synonyms(&r->lib->image);
  for (size_t i = 0; i < t.count; i++) {
    if (t.item[i].kind != TOKEN_WORD || t.item[i].word.n < 4 || is_chatter(t.item[i].word)) continue;
    struct span folded = search_fold(&r->lib->image, t.item[i].word, r->arena);
    bool known = folded.n == 0 || memchr(folded.p, ' ', folded.n) || search_token(&r->lib->image, folded);
    for (size_t k = 0; k < syn.count && !known; k++) known = span_eq(span_of(syn.strings + syn.row[k].from), folded);
    size_t used;
    if (known || unit_at_token(&t, i, &used) != UNIT_NONE || span_holds_fold(span_of(name), t.item[i].word)) continue;
    struct buf b;
    buf_init(&b, r->arena, 200);
    buf_addf(&b, "'%.*s' read as %s", SPAN_ARG(quoted(t.item[i].at)), name);
    return buf_text(&b);
  }
  return "";
}

/* "frozen green beans": a record of the frozen food goes before that of the fresh one. */
static const char *frozen_record(struct post_reader *r, const char *line, struct span words, struct ration_line *got) {
  struct search_hit hit;
  struct buf b;
  if (!span_holds_fold(words, SPAN_LIT("frozen")) || strstr(library_name(r->lib, got->shown_food), "frozen")) return line;
  buf_init(&b, r->arena, r->food_words.n + 200);
  buf_addf(&b, "frozen %.*s", SPAN_ARG(r->food_words));
  if (!post_look_up(r, buf_span(&b), &hit) || hit.words_missed > 0 || hit.score < 0.9) return line;
  if (!strstr(library_name(r->lib, hit.food), "frozen") ||
      library_food(r->lib, hit.food)->part != library_food(r->lib, got->shown_food)->part)
    return line;
  buf_init(&b, r->arena, strlen(line) + 100);
  buf_addf(&b, "%s [%s]", line, library_code(r->lib, hit.food));
  const char *assumed;
  return strict_takes(r, buf_text(&b), &assumed, got) ? buf_text(&b) : line;
}

/* Whole animals whose names are also those of plants. */
static bool is_prey(struct span words) {
  return (span_holds_fold(words, SPAN_LIT("mouse")) || span_holds_fold(words, SPAN_LIT("mice")) ||
          span_holds_fold(words, SPAN_LIT("chick")) || span_holds_fold(words, SPAN_LIT(" rat"))) &&
         !span_holds_fold(words, SPAN_LIT("chicken")) && !span_holds_fold(words, SPAN_LIT("chickpea"));
}

/* A raw wing, neck or drumstick is fed as it is bought: with its bone, unless the post says otherwise. */
static const char *with_its_bone(struct post_reader *r, const struct wanted *w, struct span words, const char **line,
                                 struct ration_line *got) {
  const struct img_food *food = library_food(r->lib, got->shown_food);
  struct ration_line whole;
  const char *assumed;
  bool raw = got->state == STATE_UNSTATED || got->state == STATE_RAW;
  if (!raw || food->part != PART_MUSCLE || !(food->bone_share > 0 && food->bone_share < 1) || got->part_count != 1 ||
      got->pinned || !post_is_bony_piece(w->said))
    return "";
  struct wanted with = *w;
  if (!w->amount.is_mass && !w->amount.is_percent) { /* tables weigh a piece as it is bought */
    with.amount = (struct post_amount){.low = got->grams_fed, .high = got->grams_fed, .unit = "g", .is_mass = true};
    with.times = 1;
  }
  struct buf b;
  buf_init(&b, r->arena, words.n + 20);
  buf_addf(&b, "%.*s, bone-in", SPAN_ARG(words));
  const char *bone_in = compose(r, &with, buf_span(&b));
  if (!strict_takes(r, bone_in, &assumed, &whole) || whole.part_count < 2) return "";
  *line = bone_in;
  *got = whole;
  struct buf note;
  buf_init(&note, r->arena, 200);
  buf_adds(&note, "counted with its bone, as raw pieces are fed; if the bone is taken out, ");
  num_sig(&note, whole.part[0].grams, 2);
  buf_adds(&note, " g of it are eaten");
  return buf_text(&note);
}

/* More of one food than any dog is given in a day: the weight of an animal, or of a batch that was not understood. */
static const double MOST_OF_ONE_FOOD_G = 6000;

/* So many pieces of something that weighs more than a berry are not pieces: "celery: 35" left out its unit. */
static bool is_no_count(const struct wanted *w, const struct ration_line *got) {
  static const double MOST_PIECES = 15, BERRY_G = 10;
  double pieces = w->amount.low;
  return w->amount.bare && pieces > MOST_PIECES && got->grams_from && got->grams_from[0] &&
         got->grams_fed > pieces * BERRY_G;
}

/* Tries the words, then without what may go at their end. */
static bool try_words(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code *why) {
  bool first = true;
  for (;; words = first ? words : post_trimmed(words)) { /* "bone meal" ends with a word that is chatter elsewhere */
    if (words.n == 0) return false;
    const char *assumed = "";
    const char *line = compose(r, w, words);
    struct ration_line got;
    bool taken = strict_takes(r, line, &assumed, &got);
    if (taken && is_prey(words) && library_food(r->lib, got.shown_food)->part != PART_MUSCLE) taken = false;
    if (taken && got.grams_fed > MOST_OF_ONE_FOOD_G && !(r->makes_days > 0) && !r->period[0]) taken = false;
    if (taken && is_no_count(w, &got)) taken = false;
    if (taken) {
      const char *bone = with_its_bone(r, w, words, &line, &got);
      if (bone[0]) assumed = "";
      line = frozen_record(r, line, words, &got);
      assumed = post_joined(r, bone, assumed);
      assumed = post_joined(r, assumed, misspelt(r, library_name(r->lib, got.shown_food)));
      if (span_holds_fold(w->said, SPAN_LIT("mutton")) || span_holds_fold(w->said, SPAN_LIT("hogget")))
        assumed = post_joined(r, "lamb stands in for mutton, which has no record; mutton is often fatter", assumed);
      if (w->amount.about) assumed = post_joined(r, "the owner's estimate, taken as a tenth more or less", assumed);
      if (w->amount.heaped) assumed = post_joined(r, "a heaped spoon taken as 1 to 1.7 level ones", assumed);
      post_add(r, ITEM_FOOD, line, assumed);
      post_ask_about(r, &got, w->said);
      return true;
    }
    if (first) {
      *why = r->refused_for;
      first = false;
      if (post_trimmed(words).n < words.n) continue;
    }
    size_t last = words.n;
    while (last > 0 && words.p[last - 1] != ' ' && words.p[last - 1] != ',') last--;
    if (last == 0 || !may_go(r, post_trimmed(span_cut(words, last, words.n)))) return false;
    words.n = last;
  }
}

static bool nobody_knows(struct post_reader *r, struct span words) {
  struct tokens t = tokens_of(words, r->arena);
  size_t n = 0;
  for (size_t i = 0; i < t.count; i++) {
    if (t.item[i].kind != TOKEN_WORD) continue;
    struct span folded = search_fold(&r->lib->image, t.item[i].word, r->arena);
    if (search_token(&r->lib->image, folded)) return false;
    n++;
  }
  return n > 0;
}

/* "arroz (cooked white rice)", "frango / chicken breast": one language explains the other. */
static bool try_translation(struct post_reader *r, const struct wanted *w, struct span words) {
  for (size_t i = 1; i + 1 < words.n; i++) {
    if (words.p[i] != ',' && words.p[i] != '/') continue;
    struct span first = post_trimmed(span_cut(words, 0, i)), second = post_trimmed(span_cut(words, i + 1, words.n));
    enum diag_code why;
    if (nobody_knows(r, first) && try_words(r, w, second, &why)) return true;
    if (nobody_knows(r, second) && try_words(r, w, first, &why)) return true;
  }
  return false;
}

/* "zinc 15 mg": labels state the mineral itself; which salt holds it makes no difference to the sum. */
static bool try_mineral(struct post_reader *r, const struct wanted *w, struct span words) {
  static const struct {
    const char *words, *code;
  } SALTS[] = {{"zinc", "ours:zinc-gluconate"},         {"manganese", "ours:manganese-gluconate"},
               {"copper", "ours:copper-gluconate"},     {"iodine", "ours:potassium-iodide"},
               {"iron", "ours:iron-bisglycinate"},      {"magnesium", "ours:magnesium-oxide"},
               {"potassium", "ours:potassium-chloride"}};
  if (strcmp(w->amount.unit, "mg") != 0 && strcmp(w->amount.unit, "mcg") != 0) return false;
  struct span bare = post_trimmed(without_capsule(r, words));
  for (size_t i = 0; i < COUNT_OF(SALTS); i++) {
    if (!span_is_fold(bare, SALTS[i].words)) continue;
    struct buf b;
    buf_init(&b, r->arena, 300);
    amount_write(&b, &w->amount, w->times);
    buf_addf(&b, " %s [%s]", SALTS[i].words, SALTS[i].code);
    if (w->often[0]) buf_addf(&b, ", %s", w->often);
    const char *assumed;
    if (!strict_takes(r, buf_text(&b), &assumed, NULL)) return false;
    post_add(r, ITEM_FOOD, buf_text(&b), "taken as the mineral itself, as labels state it; the form is not said");
    return true;
  }
  return false;
}

/* "fish, hake": the kind, and then which one. */
static bool try_without_kind(struct post_reader *r, const struct wanted *w, struct span words) {
  const char *comma = words.n == 0 ? NULL : memchr(words.p, ',', words.n);
  enum diag_code why;
  if (!comma) return false;
  struct span kind = post_trimmed(span_cut(words, 0, (size_t)(comma - words.p)));
  if (!span_is_fold(kind, "white fish") && !span_is_fold(kind, "oily fish") &&
      !word_in(
          kind,
          "fish meat oil vegetable vegetables veg fruit offal organ organs grain carb carbs protein starch dairy greens"))
    return false;
  return try_words(r, w, post_trimmed(span_cut(words, (size_t)(comma - words.p) + 1, words.n)), &why);
}

/* The animal of the first flesh that was counted; "" none, or several. */
static const char *animal_of_meat(struct post_reader *r) {
  struct span found = {"", 0};
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind != ITEM_FOOD) continue;
    struct tokens t = tokens_of(r->item[i].words, r->arena);
    for (size_t k = 0; k < t.count; k++)
      if (is_word(&t, k) && word_in(t.item[k].word, post_animals)) {
        if (found.n > 0 && !span_eq_fold(found, t.item[k].word)) return "";
        found = t.item[k].word;
      }
  }
  return found.n > 0 ? arena_text(r->arena, found) : "";
}

/* "80 % chicken, 10 % heart": an organ without an animal is that of the meat, where there is one. */
static bool try_organ_of_meat(struct post_reader *r, const struct wanted *w, struct span words) {
  struct tokens t = tokens_of(words, r->arena);
  size_t organ = t.count;
  if (!w->amount.is_percent) return false;
  for (size_t i = 0; i < t.count; i++) {
    if (!is_word(&t, i) || says(&t, i, "raw fresh cooked minced ground")) continue;
    if (organ < t.count ||
        !says(&t, i, "heart hearts liver livers kidney kidneys spleen lung lungs gizzard gizzards bone bones"))
      return false;
    organ = i;
  }
  const char *animal = organ < t.count ? animal_of_meat(r) : "";
  if (!animal[0]) return false;
  struct buf b, note;
  enum diag_code why;
  buf_init(&b, r->arena, words.n + 40);
  buf_addf(&b, "%s %.*s", animal, SPAN_ARG(words));
  size_t before = r->count;
  if (!try_words(r, w, buf_span(&b), &why)) return false;
  buf_init(&note, r->arena, 120);
  buf_addf(&note, "taken from %s, as the meat; the post does not say which animal", animal);
  for (size_t i = before; i < r->count; i++) post_doubt(r, i, buf_text(&note));
  post_ask(r, 2, "Which animal is the '%.*s' from? It was taken from %s, as the meat is.", SPAN_ARG(post_quote(r, words)),
           animal);
  return true;
}

/* "chicken mince with bone", of which no table has the bone: the whole bird. */
static bool try_whole_bird(struct post_reader *r, const struct wanted *w, struct span words) {
  struct tokens t = tokens_of(words, r->arena);
  const char *animal = "";
  bool minced = false, bone = false;
  for (size_t i = 0; i < t.count; i++) {
    if (!is_word(&t, i)) continue;
    if (word_in(t.item[i].word, post_animals) && !animal[0])
      animal = arena_text(r->arena, t.item[i].word);
    else if (says(&t, i, "mince minced ground"))
      minced = true;
    else if (says(&t, i, "bone bones bone-in"))
      bone = true;
    else if (!says(&t, i, "with incl including in and raw the its ground whole"))
      return false;
  }
  if (!animal[0] || !minced || !bone) return false;
  struct buf b;
  enum diag_code why;
  buf_init(&b, r->arena, 80);
  buf_addf(&b, "whole %s, with bone", animal);
  size_t before = r->count;
  if (!try_words(r, w, buf_span(&b), &why)) return false;
  for (size_t i = before; i < r->count; i++)
    post_doubt(r, i, "minced with its bone: counted as the whole animal; its label tells how much bone it holds");
  post_ask(r, 3, "How much bone does the label of the '%.*s' state? The whole animal was counted.",
           SPAN_ARG(post_quote(r, words)));
  return true;
}

bool post_try_line(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code *why) {
  if (try_without_kind(r, w, words)) return true;
  return try_words(r, w, words, why) || try_whole_bird(r, w, words) || try_organ_of_meat(r, w, words) ||
         try_mineral(r, w, words) || try_translation(r, w, words);
}
