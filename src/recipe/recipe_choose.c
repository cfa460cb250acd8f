/* From the words of a line to one food record. */
#include <math.h>

#include "foods/hazard_words.h"
#include "recipe/recipe_food.h"
#include "text/scan.h"

enum { MOST_HITS = 24, SHOWN_HITS = 4, MOST_RIVALS = 8 };

/* Below this, or with a word that fits nothing, a record is not taken. */
static const double FITS_WELL = 0.6;

static size_t search(struct line_food *f, struct span words, const struct search_wish *wish, struct search_hit *hits) {
  return search_foods(f->lib, words, wish, hits, MOST_HITS, f->arena);
}

static bool fits(const struct search_hit *hits, size_t count) {
  return count > 0 && hits[0].score >= FITS_WELL && hits[0].words_missed == 0;
}

struct nearest {
  struct search_hit hit[MOST_HITS];
  size_t count;      /* of those to be shown */
  const char *words; /* "; the nearest are [usda:17199] Lamb, ..., ..."; "" when there are none */
};

static struct nearest nearest_records(struct line_food *f, struct span words) {
  struct nearest n = {.words = ""};
  struct search_wish wish = SEARCH_WISH_NONE;
  struct buf b;
  buf_init(&b, f->arena, 800);
  n.count = search(f, words, &wish, n.hit);
  if (n.count == 0) return n;
  buf_adds(&b, n.count == 1 ? "; the nearest is " : "; the nearest are ");
  if (n.count > SHOWN_HITS) n.count = SHOWN_HITS;
  for (size_t i = 0; i < n.count; i++)
    buf_addf(&b, "%s[%s] %.*s", i > 0 ? ", " : "", library_code(f->lib, n.hit[i].food),
             SPAN_ARG(short_name(f->lib, n.hit[i].food)));
  n.words = buf_text(&b);
  return n;
}

/* Their pins, at the end of the line or in the place of the pin that stands there. */
static void offer_pins(struct line_food *f, const struct nearest *n) {
  const struct recipe_line *l = f->line;
  bool pinned = l->pin_at.n > 0;
  struct span at = pinned ? l->pin_at : span_cut(l->whole, l->whole.n, l->whole.n);
  for (size_t i = 0; i < n->count; i++) {
    struct buf b;
    buf_init(&b, f->arena, 100);
    buf_addf(&b, "%s[%s]", pinned ? "" : " ", library_code(f->lib, n->hit[i].food));
    diag_fix(f->d, at, buf_text(&b), arena_text(f->arena, short_name(f->lib, n->hit[i].food)));
  }
}

/* ---- pins ---- */

/* Codes are lower case before the colon; what follows is taken as written first. */
static uint32_t food_by_pin(const struct library *lib, struct span pin, struct arena *arena) {
  uint32_t food = library_by_code(lib, pin);
  if (food != NO_INDEX) return food;
  char *p = arena_text(arena, pin);
  for (int pass = 0; pass < 2 && food == NO_INDEX; pass++) {
    for (size_t i = 0; i < pin.n && (pass == 1 || p[i] != ':'); i++)
      if (p[i] >= 'A' && p[i] <= 'Z') p[i] = (char)(p[i] + ('a' - 'A'));
    food = library_by_code(lib, (struct span){p, pin.n});
  }
  return food;
}

/* ---- words ---- */

/* Words that may name a food ("ground beef", "whole milk") or only say how it was cut, kept or raised. */
static bool may_be_left_out(struct span word) {
  static const char *const WORDS[] = {
      "ground",    "minced",   "mince",    "whole",  "peeled",   "mashed",  "pureed",   "organic", "pastured", "free-range",
      "grass-fed", "homemade", "leftover", "plain",  "shelled",  "hulled",  "unhulled", "trimmed", "good",     "large",
      "small",     "medium",   "ripe",     "finely", "powdered", "crushed", "local",    "washed",  "halved",   "quartered"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (span_is_fold(word, WORDS[i])) return true;
  return false;
}

/* 'n' 0 when nothing was left out, or everything would have been. */
static struct span without_optional_words(struct span words, struct arena *arena) {
  struct buf b;
  buf_init(&b, arena, LINE_MOST_BYTES);
  bool any = false;
  while (words.n > 0) {
    const char *blank = memchr(words.p, ' ', words.n);
    size_t n = blank ? (size_t)(blank - words.p) : words.n;
    struct span word = span_cut(words, 0, n);
    if (may_be_left_out(word)) {
      any = true;
    } else {
      if (b.n > 0) buf_addc(&b, ' ');
      buf_add(&b, word);
    }
    words = span_cut(words, blank ? n + 1 : n, words.n);
  }
  return any && b.n > 0 ? buf_span(&b) : (struct span){NULL, 0};
}

/* "peanuts no xylitol", "xylitol free peanut butter": that a danger is not in it names no food. 'n' 0 when nothing is
 * denied. */
static bool is_denial(struct line_food *f, struct span rest, size_t *end) {
  static const char *const BEFORE[] = {"no ", "without ", "never "};
  for (size_t i = 0; i < COUNT_OF(BEFORE); i++) {
    struct span what = span_cut(rest, strlen(BEFORE[i]), rest.n);
    if (!span_starts_fold(rest, BEFORE[i]) || hazard_words_danger(f->lib, what, SPECIES_BOTH, f->arena) == NO_INDEX)
      continue;
    *end = rest.n;
    return true;
  }
  const char *blank = memchr(rest.p, ' ', rest.n);
  size_t n = blank ? (size_t)(blank - rest.p) : rest.n, dash = n;
  while (dash > 0 && rest.p[dash - 1] != '-') dash--;
  bool one_word = dash > 0 && span_is_fold(span_cut(rest, dash, n), "free");
  bool two_words = blank && span_is_fold(span_cut(rest, n + 1, n + 5), "free") && (rest.n == n + 5 || rest.p[n + 5] == ' ');
  *end = two_words ? n + 5 : n;
  struct span what = span_cut(rest, 0, one_word ? dash - 1 : n);
  return (one_word || two_words) && hazard_words_danger(f->lib, what, SPECIES_BOTH, f->arena) != NO_INDEX;
}

static struct span without_denials(struct line_food *f, struct span words) {
  struct buf b;
  bool any = false;
  buf_init(&b, f->arena, LINE_MOST_BYTES);
  while (words.n > 0) {
    size_t end = 0;
    bool denial = is_denial(f, words, &end);
    if (!denial) {
      const char *blank = memchr(words.p, ' ', words.n);
      end = blank ? (size_t)(blank - words.p) : words.n;
      buf_addf(&b, "%s%.*s", b.n > 0 ? " " : "", SPAN_ARG(span_cut(words, 0, end)));
    }
    any = any || denial;
    words = span_cut(words, end < words.n ? end + 1 : end, words.n);
  }
  return any && b.n > 0 ? buf_span(&b) : (struct span){NULL, 0};
}

/* ---- beside a pin ---- */

/* What says how often and was not understood: read so, the food would be fed every day. */
static bool says_when(struct span word) {
  static const char *const WORDS[] = {"every", "once",   "twice",  "thrice", "times",     "week",  "weeks",
                                      "month", "months", "except", "unless", "fortnight", "until", "whenever"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (span_is_fold(word, WORDS[i])) return true;
  return false;
}

/* Words behind the pin that change nothing: "washed", "no xylitol", the record's own name. */
static bool says_nothing_more(struct line_food *f, struct span words) {
  struct span name = span_of(library_name(f->lib, f->food));
  while (words.n > 0) {
    size_t end = 0;
    if (!is_denial(f, words, &end)) {
      struct span rest = words, word = span_piece(&rest, ' ');
      end = word.n;
      if (!may_be_left_out(word) && !span_is_fold(word, "and") && !span_holds_fold(name, word)) return false;
    }
    words = span_cut(words, end < words.n ? end + 1 : end, words.n);
  }
  return true;
}

static bool pin_leaves_nothing(struct line_food *f) {
  const struct recipe_line *l = f->line;
  struct span rest = l->food, at = l->behind_pin_at;
  bool left = at.n > 0 && !says_nothing_more(f, l->behind_pin);
  while (!left && rest.n > 0)
    if (says_when(span_piece(&rest, ' '))) {
      left = true;
      at = l->food_at;
    }
  if (left)
    diag_say(f->d, DIAG_ERROR, DIAG_NOT_UNDERSTOOD, at,
             "'%.*s' is not understood; how often is written as in 'twice a week' or 'every 2 weeks', any other remark "
             "behind '#'",
             SPAN_ARG(quoted(at)));
  return !left;
}

static bool choose_pinned(struct line_food *f) {
  const struct recipe_line *l = f->line;
  f->food = food_by_pin(f->lib, l->pin, f->arena);
  if (f->food != NO_INDEX) return pin_leaves_nothing(f);
  const char *colon = memchr(l->pin.p, ':', l->pin.n);
  struct span words = l->food.n > 0 || !colon ? l->food : span_cut(l->pin, (size_t)(colon - l->pin.p) + 1, l->pin.n);
  struct nearest near = nearest_records(f, words);
  diag_say(f->d, DIAG_ERROR, DIAG_UNKNOWN_FOOD, l->pin_at, "there is no food record '%.*s'%s", SPAN_ARG(quoted(l->pin)),
           near.words);
  diag_brief(f->d, "there is no food record '%.*s'", SPAN_ARG(quoted(l->pin)));
  offer_pins(f, &near);
  return false;
}

/* ---- by words ---- */

/* Grain, pulses and seeds are sold dry and tables call that raw; any other dried food is not its raw record. */
static bool state_is_possible(const struct library *lib, uint32_t food, enum state wanted) {
  const struct img_food *r = library_food(lib, food);
  enum state is = (enum state)r->state;
  if (wanted != STATE_DRIED && wanted != STATE_FREEZE_DRIED) return true;
  if (is == STATE_DRIED || is == STATE_FREEZE_DRIED || is == STATE_UNSTATED) return true;
  return r->part == PART_GRAIN || r->part == PART_LEGUME || r->part == PART_SEED_NUT || r->part == PART_SUPPLEMENT;
}

static size_t search_in_states(struct line_food *f, struct span words, struct search_wish wish, struct search_hit *hits) {
  size_t count = search(f, words, &wish, hits);
  if (fits(hits, count)) return count;
  enum state second = state_is_cooked(wish.state) && wish.state != STATE_CANNED ? STATE_RAW : wish.state;
  if (f->line->unit == UNIT_CAN && f->line->state == STATE_UNSTATED) second = STATE_UNSTATED;
  if (second == wish.state) return count;
  wish.state = second; /* a raw record stands for a cooked food once its cooking losses are taken off */
  size_t again = search(f, words, &wish, hits);
  return fits(hits, again) ? again : 0;
}

/* A line with a danger in it says the danger, and asks for no other words; what is only doubtful is said as well. */
static bool say_danger(struct line_food *f) {
  struct hazard_hit hit[HAZARD_HITS_MOST];
  size_t n = hazard_words_find(f->lib, f->line->whole, hit, HAZARD_HITS_MOST, f->arena);
  const struct img_hazard *worst = NULL;
  for (size_t i = 0; i < n; i++) {
    const struct img_hazard *h = hazard_row(f->lib, hit[i].hazard);
    if (h->weight != FINDING_KNOW && (!worst || h->weight < worst->weight)) worst = h;
  }
  if (!worst) return false;
  diag_say(f->d, DIAG_ERROR, worst->weight == FINDING_ACT ? DIAG_DANGER : DIAG_DOUBTFUL,
           f->line->food_at.n > 0 ? f->line->food_at : f->line->whole, "%s: %s: %s. %s",
           worst->weight == FINDING_ACT ? "danger" : "caution", lib_str(f->lib, worst->words), lib_str(f->lib, worst->dose),
           lib_str(f->lib, worst->advice));
  if (worst->weight == FINDING_ACT) {
    diag_brief(f->d, "%s", lib_str(f->lib, worst->words));
    diag_more(f->d, "%s. %s", lib_str(f->lib, worst->dose), lib_str(f->lib, worst->advice));
  }
  return worst->weight == FINDING_ACT;
}

static void say_not_found(struct line_food *f, struct span words) {
  const struct recipe_line *l = f->line;
  if (say_danger(f)) return;
  struct nearest near = nearest_records(f, words);
  struct span at = l->food_at.n > 0 ? l->food_at : l->whole;
  const char *as_stated = f->state == STATE_UNSTATED ? "" : " as stated";
  if (near.count > 0) {
    diag_say(f->d, DIAG_ERROR, DIAG_UNKNOWN_FOOD, at,
             "no food record fits '%.*s' well%s%s; write other words, or one of these pins after the food",
             SPAN_ARG(quoted(words)), as_stated, near.words);
    diag_brief(f->d, "no food record fits '%.*s' well%s; write other words, or take one of the nearest",
               SPAN_ARG(quoted(words)), as_stated);
    offer_pins(f, &near);
  } else {
    diag_say(f->d, DIAG_ERROR, DIAG_NOT_IN_LIBRARY, at,
             "no food record is like '%.*s'; write other words, or describe it as a food of your own",
             SPAN_ARG(quoted(words)));
    diag_fix(f->d, span_cut(l->whole, 0, 0), "# ", "make it a remark");
  }
}

static void keep_rivals(struct line_food *f, const struct search_hit *hits, size_t count) {
  size_t n = search_rivals(hits, count);
  if (n > MOST_RIVALS) n = MOST_RIVALS;
  uint32_t *rivals = ARENA_NEW(f->arena, uint32_t, n + 1);
  for (size_t i = 0; i < n; i++) rivals[i] = hits[i + 1].food;
  f->rivals = rivals;
  f->rival_count = n;
}

/* What is not cooked even when the whole pot is: oils, powders and salts go in as they are, and a tin stays a tin. */
static bool header_applies(const struct library *lib, uint32_t food) {
  const struct img_food *r = library_food(lib, food);
  if (r->part == PART_SUPPLEMENT || r->part == PART_FAT_OIL || r->part == PART_BONE) return false;
  return r->state == STATE_RAW || r->state == STATE_UNSTATED ||
         (state_is_cooked((enum state)r->state) && r->state != STATE_CANNED);
}

/* Nobody bones a neck before it is cooked. A published cooked record has only the meat of such a piece, so that the raw
 * piece with its bone is taken and cooked instead. */
static void prefer_piece_with_bone(struct line_food *f, struct span words) {
  struct search_hit hits[MOST_HITS];
  struct search_wish wish = f->line->wish;
  const struct img_food *r = library_food(f->lib, f->food);
  if (!state_is_cooked((enum state)r->state) || r->state == STATE_CANNED || wish.bone_in >= 0) return;
  wish.state = STATE_RAW;
  size_t count = search(f, words, &wish, hits);
  if (!fits(hits, count) || !(library_food(f->lib, hits[0].food)->flags & FOOD_ALWAYS_BONE_IN)) return;
  f->food = hits[0].food;
  f->found_by_name = hits[0].exact_name;
  f->note = hits[0].note;
  keep_rivals(f, hits, count);
}

/* "1 whole rabbit" is the animal, not its meat: where everyday speech has a "whole rabbit", that is it. */
static bool choose_whole(struct line_food *f, struct span words) {
  struct search_hit hits[MOST_HITS];
  struct search_wish wish = f->line->wish;
  if (!span_is_fold(f->line->unit_at, "whole") || state_is_cooked(f->state)) return false;
  struct buf b;
  buf_init(&b, f->arena, words.n + 16);
  buf_addf(&b, "whole %.*s", SPAN_ARG(words));
  size_t count = search(f, buf_span(&b), &wish, hits);
  if (!fits(hits, count) || !hits[0].exact_name) return false;
  f->food = hits[0].food;
  f->found_by_name = true;
  f->note = hits[0].note;
  keep_rivals(f, hits, count);
  return true;
}

/* "2 fresh sardines": the tinned record that bare words name is not meant where there is one of the raw fish. */
static size_t prefer_fresh(struct line_food *f, struct span words, struct search_hit *hits, size_t count) {
  struct search_hit raw[MOST_HITS];
  struct search_wish wish = f->line->wish;
  const struct img_food *is = count > 0 ? library_food(f->lib, hits[0].food) : NULL;
  bool tinned = is && is->part == PART_FISH && is->state == STATE_CANNED;
  if (!tinned || f->state != STATE_UNSTATED || f->line->unit == UNIT_CAN ||
      !span_holds_fold(f->line->whole, SPAN_LIT("fresh")))
    return count;
  wish.state = STATE_RAW;
  size_t n = search(f, words, &wish, raw);
  if (!fits(raw, n) || library_food(f->lib, raw[0].food)->state == STATE_CANNED) return count;
  memcpy(hits, raw, n * sizeof *raw);
  return n;
}

static bool choose_by_words(struct line_food *f) {
  const struct recipe_line *l = f->line;
  struct search_hit hits[MOST_HITS];
  struct search_wish wish = l->wish;
  struct span words = l->food, calm = without_denials(f, words), fewer;
  if (calm.n > 0) words = calm;
  fewer = without_optional_words(words, f->arena);
  if (choose_whole(f, words)) return true;
  wish.state = l->raw_weight && state_is_cooked(f->state) ? STATE_RAW : f->state;
  if (l->unit == UNIT_CAN && l->state == STATE_UNSTATED) wish.state = STATE_CANNED;
  if (l->wish.drained && wish.state != STATE_CANNED && state_is_cooked(wish.state))
    wish.drained = false; /* it is the broth */
  size_t count = search_in_states(f, words, wish, hits);
  if (!fits(hits, count) && fewer.n > 0) count = search_in_states(f, fewer, wish, hits);
  if (!fits(hits, count)) {
    say_not_found(f, words);
    return false;
  }
  count = prefer_fresh(f, words, hits, count);
  f->food = hits[0].food;
  f->found_by_name = hits[0].exact_name;
  f->note = hits[0].note;
  keep_rivals(f, hits, count);
  prefer_piece_with_bone(f, words);
  if (state_is_possible(f->lib, f->food, f->state)) return true;
  diag_say(f->d, DIAG_ERROR, DIAG_COOKING, l->food_at,
           "there is no %s record of '%.*s' ([%s] is raw and holds several times the water); write the fresh weight, or "
           "give its label",
           state_word[f->state], SPAN_ARG(quoted(words)), library_code(f->lib, f->food));
  return false;
}

/* The header's method is tried on the food as it is bought first: only then is it known whether it is cooked at all. */
static bool choose_under_header(struct line_food *f) {
  enum state cook = f->recipe->cook;
  f->state = STATE_UNSTATED;
  if (!(f->line->pin.n > 0 ? choose_pinned(f) : choose_by_words(f))) return false;
  if (f->line->unit == UNIT_CAN || !header_applies(f->lib, f->food)) return true;
  f->state = cook;
  f->by_header = true;
  return f->line->pin.n > 0 || choose_by_words(f);
}

static bool choose(struct line_food *f) {
  const struct recipe_line *l = f->line;
  f->state = l->state;
  if (l->state == STATE_UNSTATED && f->recipe->cook != STATE_UNSTATED) return choose_under_header(f);
  return l->pin.n > 0 ? choose_pinned(f) : choose_by_words(f);
}

/* "99% lean turkey mince", where the leanest record has 93. */
static void say_other_leanness(struct line_food *f) {
  static const double SAME_WITHIN = 2.5; /* per cent */
  const struct img_search_food *named = IMG_ROWS(&f->lib->image, IMG_SEARCH_FOODS, struct img_search_food);
  double asked = f->line->wish.lean_percent;
  if (f->line->pin.n > 0 || !(asked >= 0) || f->food >= img_count(&f->lib->image, IMG_SEARCH_FOODS)) return;
  int is = named[f->food].lean_percent, wanted = (int)(fmin(asked, 100) + 0.5);
  if (is == 0)
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, f->line->food_at, "no record says %d %% lean; [%s] %.*s is used", wanted,
             library_code(f->lib, f->food), SPAN_ARG(short_name(f->lib, f->food)));
  else if (fabs(asked - is) > SAME_WITHIN)
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, f->line->food_at,
             "there is no record of %d %% lean; the one of %d %% is used, [%s]", wanted, is, library_code(f->lib, f->food));
}

/* A record that is not quite the food that was written is never taken in silence. */
bool choose_food(struct line_food *f) {
  f->note = "";
  if (!choose(f)) return false;
  if (!word_is_kept(f)) return false;
  say_other_leanness(f);
  if (f->note[0])
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, f->line->food_at, "read as [%s] %.*s: %s", library_code(f->lib, f->food),
             SPAN_ARG(short_name(f->lib, f->food)), f->note);
  return true;
}
