/* Whether the recipe's reader takes a line, and what only the owner can tell. */
#include "base/num.h"
#include "foods/hazard_words.h"
#include "foods/uncounted_words.h"
#include "post/hear/post_hear.h"

/* ---- the strict reader ---- */

static const char *assumptions_of(struct post_reader *r, const struct diags *d, const struct ration_line *l) {
  struct buf b;
  buf_init(&b, r->arena, 1200);
  if (l->assumed) buf_adds(&b, l->assumed);
  for (size_t i = 0; i < d->count; i++)
    if (d->item[i].code == DIAG_ASSUMED) buf_addf(&b, "%s%s", b.n > 0 ? "; " : "", d->item[i].message);
  return buf_text(&b);
}

bool strict_takes(struct post_reader *r, const char *text, const char **assumed, struct ration_line *got) {
  struct recipe recipe = {.name = "",
                          .for_whom = "",
                          .note = "",
                          .days = 1,
                          .meals_per_day = 2, /* settled with the whole */
                          .total_g = 1000,
                          .cook = STATE_UNSTATED};
  struct recipe_line line = {0};
  struct ration_line out;
  struct diags d;
  struct span s = span_of(text);
  diags_init(&d, r->arena, "", s);
  struct line_reader reader = {.out = &line, .d = &d, .arena = r->arena};
  *assumed = "";
  r->refused_for = DIAG_CODE_COUNT;
  bool taken = memchr(text, '#', s.n) == NULL && s.n < LINE_MOST_BYTES && recipe_line_read(&reader, s, 1) && d.errors == 0 &&
               resolve_line(r->lib, &recipe, &line, &d, &out, r->arena) && d.errors == 0;
  r->food_words = line.food;
  for (size_t i = 0; i < d.count && !taken; i++)
    if (d.item[i].level == DIAG_ERROR) {
      r->refused_for = d.item[i].code;
      break;
    }
  if (taken && line.food.n < 12 && is_a(post_tokens(r, line.food).item[0].word, CLASS_EVERYDAY)) return false; /* "same" */
  if (!taken) return false;
  *assumed = assumptions_of(r, &d, &out);
  r->taken_grams = out.grams_fed;
  r->taken_food = out.shown_food;
  r->taken_words = line.food;
  if (got) *got = out;
  return true;
}

struct span post_without_record(struct post_reader *r, struct span words) {
  struct tokens t = post_tokens(r, words);
  for (size_t i = 0; i < t.count; i++)
    if (says_a(&t, i, CLASS_NO_RECORD)) return t.item[i].word;
  return (struct span){"", 0};
}

/* ---- what is left out ---- */

const char POST_OFTEN_UNREAD[] = "how often it is fed could not be read";
const char *post_why_in_words(enum diag_code refused_for, bool no_measure) {
  if (no_measure) return "nobody but the owner knows how much that holds";
  switch (refused_for) {
  case DIAG_LABEL_NEEDED:
    return "only its label can tell what it contains";
  case DIAG_NO_WEIGHT:
    return "what one of them weighs is not known";
  case DIAG_UNKNOWN_FOOD:
  case DIAG_NOT_IN_LIBRARY:
    return "no food record fits these words well";
  case DIAG_LEFT_OPEN:
    return "it is left open which food it is";
  default:
    return "this line could not be read with certainty";
  }
}

static double weight_of(struct span words) { return text_holds(words, CLASS_WEIGHTY) ? 3 : 2; }

/* "duck wings", "feet", "quail mice": more than one. */
static bool is_plural(struct span words) {
  size_t last = words.n;
  while (last > 0 && words.p[last - 1] != ' ') last--;
  struct span word = span_cut(words, last, words.n);
  if (word.n < 3) return false;
  bool doubled = span_is_fold(span_cut(word, word.n - 2, word.n), "ss");
  return (!doubled && (word.p[word.n - 1] | 0x20) == 's') || word_in(word, "feet mice teeth");
}

static void ask_what_food(struct post_reader *r, double weight, struct span words) {
  struct post_question *q = post_ask(r, weight,
                                     "Which kind of '%.*s' is it? If it has a label, what does it state per 100 g (energy, "
                                     "protein, fat, calcium, phosphorus)?",
                                     SPAN_ARG(words));
  if (!q) return;
  q->about = ASKS_WHAT_FOOD;
  q->food = arena_text(r->keep, words);
}

/* So much of it that it is no supplement: nobody counts it by tablet or scoop. */
static bool is_a_meal(const struct post_amount *a) {
  static const double LEAST_G = 30;
  return a->is_percent
             ? a->low >= 5
             : a->is_mass && post_in_grams(a) >= LEAST_G && strcmp(a->unit, "mg") != 0 && strcmp(a->unit, "mcg") != 0;
}

/* "meat a day": the food without how often. */
static struct span without_how_often(struct post_reader *r, struct span words) {
  struct tokens t = post_tokens(r, words);
  for (size_t i = 1; i < t.count; i++)
    if (frequency_at(&t, i).tokens > 0) {
      struct span name = tokens_span(&t, 0, i);
      while (name.n > 0 && memchr(" ,(-", name.p[name.n - 1], 4)) name.n--;
      return name;
    }
  return words;
}

/* "liver" of a word: where one begins, so that no "munchbone" is a bone. */
static bool names_part_of_animal(struct span words) {
  const char *means;
  for (size_t i = 0; i < words.n; i++)
    if ((i == 0 || words.p[i - 1] == ' ') && text_begins(span_cut(words, i, words.n), CLASS_NEEDS_AN_ANIMAL, &means) > 0)
      return true;
  return false;
}

/* What is known by its kind, and needs no composition: of treats how much, of a supplement its label, of what holds nothing
 * that counts not a word. False: it is of no such kind. */
static bool ask_of_kind(struct post_reader *r, struct span whole, struct span words) {
  struct uncounted_kind kind;
  if (!uncounted_kind_of(r->lib, words, &kind, r->arena) || kind.vague) return false;
  if (kind.snack) {
    post_ask(r, 2, "What is in '%.*s', and how many grams is it a day?", SPAN_ARG(post_quote(r, whole)));
    return true;
  }
  if (!kind.holds || isnan(kind.holds[NUT_PROTEIN])) return false;
  bool any = false;
  for (int n = 0; n < NUT_COUNT; n++) any = any || isnan(kind.holds[n]);
  if (any)
    post_ask(r, 2, "What does the label of the %.*s state for each nutrient, per tablet, scoop or gram?", SPAN_ARG(words));
  return true;
}

void post_ask_missing(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code refused_for) {
  words = quoted(without_how_often(r, words));
  bool pills = span_holds_fold(w->whole, SPAN_LIT("tablet")) || span_holds_fold(w->whole, SPAN_LIT("capsule")) ||
               span_holds_fold(w->whole, SPAN_LIT("softgel"));
  double weight = weight_of(words);
  if (words.n == 0) {
    post_ask(r, 2, "What is meant by '%.*s'?", SPAN_ARG(post_quote(r, w->whole)));
  } else if (!w->amount.cannot && ask_of_kind(r, w->whole, words)) {
    return;
  } else if (span_holds_fold(w->whole, SPAN_LIT("scoop"))) {
    post_ask(r, weight, "Which scoop of %.*s is that? Please weigh one, and say what its label states.", SPAN_ARG(words));
  } else if (w->amount.cannot) {
    post_ask(r, weight, "How many grams of %.*s is that? Please weigh it once.", SPAN_ARG(words));
  } else if ((refused_for == DIAG_LABEL_NEEDED || text_holds(words, CLASS_TOLD_BY_LABEL)) && is_a_meal(&w->amount) &&
             post_names_animal(words, r->arena)) {
    ask_what_food(r, 3, words);
  } else if (pills || refused_for == DIAG_LABEL_NEEDED || text_holds(words, CLASS_TOLD_BY_LABEL)) {
    post_ask(r, 3, "What does the label of the %.*s state for each nutrient, per tablet, scoop or gram?", SPAN_ARG(words));
  } else if (refused_for == DIAG_NO_WEIGHT && w->amount.is_volume) { /* "a teaspoon of parmesan" */
    post_ask(r, weight, "How many grams is '%.*s'? Please weigh it once.", SPAN_ARG(post_quote(r, w->whole)));
  } else if (refused_for == DIAG_NO_WEIGHT) {
    post_ask(r, weight,
             is_plural(words) ? "How many grams does one of the '%.*s' weigh?" : "How many grams does one '%.*s' weigh?",
             SPAN_ARG(words));
  } else if ((post_names_animal(words, r->arena) && text_holds(words, CLASS_PART_OF_BODY)) ||
             post_without_record(r, words).n > 0) {
    post_ask(
        r, 3,
        "No table has figures for %.*s. What does its label or its seller state per 100 g (energy, protein, fat, calcium, "
        "phosphorus)?",
        SPAN_ARG(words));
  } else if (names_part_of_animal(words)) {
    post_ask(r, 3, "Which animal is the %.*s from, and which parts are in it?", SPAN_ARG(words));
  } else {
    ask_what_food(r, weight, words);
  }
}

/* ---- what was read, and might have been meant otherwise ---- */

bool post_is_bony_piece(struct span words) {
  bool piece = false;
  const char *means;
  for (size_t i = 0; i < words.n && !piece; i++) /* whole words: "stewing" has no wing */
    piece = (i == 0 || words.p[i - 1] == ' ') && text_begins(span_cut(words, i, words.n), CLASS_BONY_PIECE, &means) > 0;
  return piece && !text_holds(words, CLASS_SAYS_OF_BONE);
}

static void ask_of_bone(struct post_reader *r, struct span whole) {
  struct post_question *q = post_ask(r, 3, "Is the bone in '%.*s' eaten too?", SPAN_ARG(whole));
  if (q) q->about = ASKS_OF_BONE;
}

/* Of a breast or a chop one may weigh twice as much as another. */
static void say_weight(struct post_reader *r, const struct ration_line *got) {
  struct item *item = &r->item[r->count - 1];
  struct buf b;
  buf_init(&b, r->arena, 80);
  buf_adds(&b, "taken as ");
  num_sig(&b, got->grams_fed, 2);
  buf_adds(&b, " g in all, as a table weighs them");
  item->assumed = arena_text(r->keep, span_of(post_joined(r, buf_text(&b), item->assumed)));
}

/* A spoon of what the table weighs by the cup, in cubes or slices. */
static bool is_spoon_of_pieces(struct post_reader *r, const struct ration_line *got) {
  static const char *const SHAPE[] = {"cubes", "cubed", "slices", "sliced", "chopped", "diced", "pieces", "halves"};
  struct tokens t = post_tokens(r, span_of(r->item[r->count - 1].text));
  struct post_amount a = post_amount_at(&t, 0);
  if (!a.is_volume || strstr(a.unit, "cup") || !got->grams_from || !strstr(got->grams_from, "cup")) return false;
  for (size_t i = 0; i < COUNT_OF(SHAPE); i++)
    if (strstr(got->grams_from, SHAPE[i])) return true;
  return false;
}

/* "2 whole sardines", "a salmon fillet": tables weigh the fish of a tin, or a fillet of a large fish. */
static bool is_piece_of_fish(struct post_reader *r, const struct ration_line *got) {
  static const double FEW_G = 8;
  if (library_food(r->lib, got->shown_food)->part != PART_FISH || got->grams_fed < FEW_G) return false;
  struct tokens t = post_tokens(r, span_of(r->item[r->count - 1].text));
  struct post_amount a = post_amount_at(&t, 0);
  return !a.is_volume && !a.is_mass && strcmp(a.unit, "can") != 0;
}

/* "Chicken thighs boneless": with their skin they hold twice the fat. Pieces with bone are fed as they come. */
static void ask_of_skin(struct post_reader *r, const struct ration_line *got, struct span whole) {
  static const double MUCH_G = 60;
  const char *name = library_name(r->lib, got->shown_food);
  const struct img_food *food = library_food(r->lib, got->shown_food);
  if (food->part != PART_MUSCLE || got->grams_fed < MUCH_G || got->part_count > 1 || !strstr(name, "and skin") ||
      text_holds(whole, CLASS_SAYS_OF_SKIN) || post_is_bony_piece(whole))
    return;
  post_ask(r, 2, "Is '%.*s' with or without the skin? It was counted with it.", SPAN_ARG(whole));
}

/* "White fish" is cod, haddock, pollock or another lean one. */
static void ask_of_fish(struct post_reader *r, struct span whole) {
  struct item *item = r->count > 0 ? &r->item[r->count - 1] : NULL;
  const char *fish = NULL;
  struct buf b;
  if (!item) return;
  struct span text = span_of(item->text);
  for (size_t i = 0; i < text.n && !fish; i++)
    if (text_begins(span_cut(text, i, text.n), CLASS_LEAN_SEA_FISH, &fish) == 0) fish = NULL;
  if (!fish) return;
  buf_init(&b, r->arena, 80);
  buf_addf(&b, "taken as %s, a lean sea fish", fish);
  item->assumed = arena_text(r->keep, span_of(post_joined(r, buf_text(&b), item->assumed)));
  post_ask(r, 2, "Which white fish is '%.*s': cod, haddock, pollock, hake? It was counted as %s.", SPAN_ARG(whole), fish);
}

void post_ask_about(struct post_reader *r, const struct ration_line *got, struct span whole) {
  const char *name = library_name(r->lib, got->shown_food);
  const struct img_food *food = library_food(r->lib, got->shown_food);
  whole = post_quote(r, whole);
  bool rough = true;
  if (got->assumed && strstr(got->assumed, "one pump taken"))
    post_ask(r, 2, "How much does one pump give? Please weigh or measure ten of them ('%.*s').", SPAN_ARG(whole));
  else if (got->assumed && strstr(got->assumed, "one can taken"))
    post_ask(r, 1, "How many grams does the tin in '%.*s' hold, drained? The label says.", SPAN_ARG(whole));
  else if (got->assumed && strstr(got->assumed, "weighed as mash"))
    post_ask(r, 1, "Is it mashed, or in pieces, in '%.*s'? It was weighed as mash.", SPAN_ARG(whole));
  else if (got->assumed && got->high_g > 2 * got->low_g && got->grams_fed >= 4)
    post_ask(r, 1, "What does '%.*s' weigh, in grams? A rough weight was assumed.", SPAN_ARG(whole));
  else
    rough = false;
  bool piece = got->grams_from && got->grams_from[0] && !got->assumed && food->part == PART_MUSCLE && got->grams_fed >= 30;
  piece = piece || is_spoon_of_pieces(r, got);
  if (!piece && got->grams_from && got->grams_from[0] && !got->assumed && is_piece_of_fish(r, got)) {
    piece = true;
    post_ask(r, 1, "What does '%.*s' weigh, in grams? A table's weight was taken.", SPAN_ARG(whole));
  }
  if (piece) say_weight(r, got);
  if ((rough || piece) && r->count > 0) r->item[r->count - 1].rough = true;
  if (got->shown_food < img_count(&r->lib->image, IMG_FOODS) && strstr(name, "eaweed"))
    post_ask(r, 3, "How much iodine does the label of the kelp or seaweed state ('%.*s')?", SPAN_ARG(whole));
  bool with_bone = food->bone_share > 0 && food->bone_share < 1 && got->part_count == 1 && food->part == PART_MUSCLE;
  bool assumed_in = got->part_count == 2 && post_is_bony_piece(whole) && !(food->flags & FOOD_ALWAYS_BONE_IN);
  if ((with_bone && (post_is_bony_piece(whole) || (got->grams_from && got->grams_from[0]))) || assumed_in)
    ask_of_bone(r, whole);
  ask_of_skin(r, got, whole);
  ask_of_fish(r, whole);
  bool minced = strstr(name, "ground") != NULL && food->part == PART_MUSCLE;
  if (minced && got->rival_count > 0 && got->grams_fed >= 30 && !text_holds(whole, CLASS_SAYS_OF_FAT))
    post_ask(r, 2, "How fat is the mince in '%.*s' (the label gives a percentage)?", SPAN_ARG(whole));
}
