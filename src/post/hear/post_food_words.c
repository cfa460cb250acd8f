/* The words of a sentence that belong to one food: what stands in a name without being of it, what is said in another way.
 */
#include "base/num.h"
#include "post/hear/post_hear.h"

static bool keeps_meaning(const struct tokens *t, size_t at) { /* "no skin", "without bone", "not peeled" */
  return says(t, at, "no without not") && says_a(t, at + 1, CLASS_KEPT_BEHIND_NO);
}

/* Words that say what is so anyway ("no shell", "no core") or nothing at all; how many tokens. */
static size_t says_nothing_new(const struct tokens *t, size_t at) {
  size_t used = phrase_of(t, at, CLASS_SAYS_NOTHING_NEW);
  if (used > 0) return used;
  if (says(t, at, "no without") && says_a(t, at + 1, CLASS_NOT_EATEN_ANYWAY)) return 2;
  if (says_a(t, at, CLASS_SAYS_NOTHING)) return 1;
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
    if (says_a(t, i, CLASS_MINCED)) return true;
  return false;
}

/* "eggs + shells", "an egg, shell and all": how many tokens. */
static size_t shell_at(const struct tokens *t, size_t at) {
  size_t egg = t->count;
  for (size_t i = at; i-- > 0 && i + 8 > at;)
    if (says(t, i, "egg eggs")) egg = i;
  size_t used = egg < t->count ? phrase_of(t, at, CLASS_WITH_ITS_SHELL) : 0;
  return says(t, at + used, "off removed out taken discarded peeled thrown away") ? 0 : used; /* "with the shell taken off" */
}

/* "meat of turkey", "yolk of egg", "oil of salmon": where the name of the whole stands; 0. */
static size_t of_at(const struct tokens *t, size_t at, size_t to) {
  if (!says_a(t, at, CLASS_PART_OF)) return 0;
  size_t of = at + 1;
  if (!says(t, of, "of from")) return 0;
  if (says(t, of + 1, "the a an our")) of++;
  return of + 1 < to && is_word(t, of + 1) && !token_is_a(&t->item[of + 1], CLASS_CHATTER) && t->item[of + 1].word.n > 2
             ? of + 1
             : 0;
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
  if (says(t, at, "the") && at > 0 && says(t, at - 1, "off on with without in") && says(t, at + 1, "bone bones skin"))
    return false;
  if (says(t, at, "the his her my our their your")) return true;
  if (says(t, at, "a an") && at > 0 && !says(t, at - 1, "and plus or")) return true;
  if (says(t, at, "at") && is_number(t, at + 1) && is_mark(t, at + 2, '%')) return true;
  if (says(t, at, "with") && is_number(t, at + 1) && is_mark(t, at + 2, '%')) return true;
  return says(t, at, "of") && at > 0 && is_mark(t, at - 1, '%');
}

/* "for the hairballs", "from the freezer", "because", "split over 3 meals": what follows names no food. */
static bool begins_aside(const struct tokens *t, size_t at) {
  if (says(t, at, "into") || (says(t, at, "each one every") && says_a(t, at + 1, CLASS_EACH_VESSEL))) return true;
  if (says(t, at, "for from until whenever during after") && !says(t, at + 1, "frozen cooking dry")) {
    if (says(t, at, "from") && !says_a(t, at + 1, CLASS_ARTICLE)) return false;
    return !says(t, at, "from") || !says(t, at + 2, "tin can jar");
  }
  if (says(t, at, "split divided spread shared") && !says(t, at + 1, "pea peas lentil lentils mung chickpeas")) return true;
  if (says_a(t, at, CLASS_QUESTION_OPENER) || phrase_at(t, at, "as long") > 0 || phrase_at(t, at, "as soon") > 0)
    return true;
  if (says(t, at, "in") && says(t, at + 1, "the a an my") && says_a(t, at + 2, CLASS_WHERE_COOKED)) return true;
  if (says(t, at, "is are was") && at > 0 && !is_mark(t, at - 1, ',')) return true; /* "400 g lamb is liver" */
  if (says(t, at, "goes go going went") && at > 0) return true; /* "eggshell powder goes on once a day" */
  if (says(t, at, "made") && says(t, at + 1, "with in by")) return true;
  if (says(t, at, "over on with") && says(t, at + 1, "his her their my our the") && says_a(t, at + 2, CLASS_BEHIND_OVER_HIS))
    return true;
  return phrase_of(t, at, CLASS_ASIDE_PHRASE) > 0;
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
  if (w->count > 0 && says(t, i, "in since") && says_a(t, i + 1, CLASS_MONTH_NAME)) return 2; /* "flax 10 ml since May" */
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
  bool at_each = says(t, i, "at in on onto over into") && says(t, i + 1, "each");
  if (w->count > 0 && at_each && (i + 2 >= to || !is_word(t, i + 2))) { /* "30 g at each", "a squirt of oil on each" */
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
  if (says_a(t, i, CLASS_VERB_OF_US) && i > 0 && says(t, i - 1, "i we")) return 1; /* a verb */
  if (w->count > 0 && is_filler(t, i)) return 1;
  size_t limit = ANY_OF(t, i, "max", "maximum", "min", "minimum", "up to", "at most", "at least", "under", "below", "about");
  if (w->count > 0 && limit > 0 && is_number(t, i + limit) && is_mark(t, i + limit + 1, '%'))
    return limit; /* "max 10% fat" */
  bool ends = i + 1 >= to || is_mark(t, i + 1, '(') || is_mark(t, i + 1, ',');
  if (w->count > 0 && ends && says(t, i, "am pm")) return 1; /* "200 g beef mince AM" */
  if (w->count > 0 && ends && w->skip_to > 0 && says_a(t, i, CLASS_SHAPE_OF_PACK)) return 1;
  if (w->count > 0 && says(t, i, "day week") && (i + 1 >= to || is_mark(t, i + 1, ','))) { /* "psyllium 1 tsp day" */
    bool comma = w->text.n > 0 && w->text.p[w->text.n - 1] == ',';
    buf_addf(&w->text, "%s a %.*s", comma ? "" : ",", SPAN_ARG(k->word));
    return 1;
  }
  if (says(t, i, "at") && not_an_amount(t, i + 1) > 0) { /* "at 6pm" */
    return 1 + not_an_amount(t, i + 1);
  }
  if (w->count == 0 && says_a(t, i, CLASS_PACK_BEFORE_OF) && says(t, i + 1, "of")) {
    return 2;
  }
  if (says(t, i, "day") && says(t, i + 1, "old") && says(t, i + 2, "chick chicks")) {
    add_word(w, SPAN_LIT("day-old"), false);
    w->count++;
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
static bool mentions_food(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (post_mention_at(r, t, i) > 0) return true;
  return false;
}

void post_gather(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct words *w) {
  bool clause = false;
  for (size_t i = from; i < to; i++) {
    struct token *k = &t->item[i];
    if (k->taken || post_is_own_name(r, t, i)) continue;
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
      bool purpose = says(t, i, "to for") && says_a(t, i + 1, CLASS_PURPOSE_VERB);
      purpose =
          purpose || (says(t, i, "as") && (says_a(t, i + 1, CLASS_PURPOSE) ||
                                           (says(t, i + 1, "a an") && says(t, i + 2, "bribe treat topper snack reward"))));
      if ((purpose || begins_aside(t, i) || (token_is_a(k, CLASS_CLAUSE_OPENER) && !keeps_meaning(t, i))) && w->count > 0) {
        clause = true;
        continue;
      }
      if (w->count == 0 && token_is_a(k, CLASS_CHATTER) && !post_names_both(r, t, i)) continue; /* but "split peas" */
      struct span word = spelled_out(k->word);
      if (word.p == k->word.p) word = k->at;
      const char *alone = word.n == 0 ? means_as(k->word, CLASS_MEANS_ALONE) : NULL;
      if (alone && !mentions_food(r, t, from, i) && !mentions_food(r, t, i + 1, to)) word = span_of(alone);
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
    if (word.n == 0 || last == 0 || on_bone || !is_chatter(word) || is_a(word, CLASS_KEPT_AT_END)) return s;
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
