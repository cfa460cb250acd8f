/* post_hear.h: what words, amounts and names tell, and what is gathered of them: lines, questions, doubts. Private to
 * src/post. Layer: post/hear. */
#ifndef BW_POST_HEAR_H
#define BW_POST_HEAR_H

#include "post/hear/post_reader.h"

static inline bool is_number(const struct tokens *t, size_t at) {
  return at < t->count && !t->item[at].taken && t->item[at].kind == TOKEN_NUMBER;
}

static inline bool post_is_letter(char c) { return (c | 0x20) >= 'a' && (c | 0x20) <= 'z'; }

/* One of the words of a list with blanks between. */
static ALWAYS_INLINE bool says(const struct tokens *t, size_t at, const char *words) {
  return is_word(t, at) && word_in(t->item[at].word, words);
}

/* One food as it was found: its amount, how often, how cooked. */
struct wanted {
  struct post_amount amount;
  double times;
  const char *often;     /* "twice a week"; "" */
  const char *cooked;    /* NULL */
  const char *near;      /* what is said of an amount that is not quite so much; "" */
  struct span whole;     /* as the owner wrote it */
  struct span said;      /* of that, the food and its amount alone */
  size_t package_tokens; /* of the weight of a bag */
};

struct words {
  struct buf text;
  size_t count;
  const char *cooked;        /* "that I boil" */
  size_t skip_from, skip_to; /* tokens that are no words of the food */
};

static inline bool ends_sentence(const struct tokens *t, size_t at) {
  return at >= t->count || is_mark(t, at, '.') || is_mark(t, at, '!') || is_mark(t, at, '?') || is_mark(t, at, 0x1F);
}
static inline const char *token_begin(const struct tokens *t, size_t at) { return t->item[at].at.p; }
static inline const char *token_end(const struct tokens *t, size_t at) { return t->item[at].at.p + t->item[at].at.n; }

/* ---- post_tokens.c ---- */

/* What a text is split into, with the classes of its words, for all who ask for the same text: none of the tokens is taken,
 * and the caller may take them. Like all of a sentence they last until r->arena is rewound. */
struct tokens post_tokens(const struct post_reader *r, struct span text);
struct tokens post_tokens_kept(const struct post_reader *r, struct span text); /* in r->keep */
struct splits *post_splits(struct arena *arena);
void post_splits_make_room(struct splits *s); /* between sentences */
void post_splits_free(struct splits *s);

/* post_day_names.c: the days of the week that are named from 'at' on, as bits from Monday: how many tokens. */
size_t post_days_named(const struct tokens *t, size_t at, unsigned *days);

/* post_claim.c: which words are accounted for. */
void post_claim(struct post_reader *r, struct span text, enum claim_kind kind, size_t first, size_t last);
void post_claim_taken(struct post_reader *r, const struct tokens *t);
void post_hear(struct post_reader *r, struct span text, bool bulleted);

/* ---- post_amount.c ---- */

struct post_amount post_amount_at(const struct tokens *t, size_t at);
double post_in_grams(const struct post_amount *a); /* of a mass */

/* The tokens of a time, a lean share, a ratio, an age or a frequency that begin here and are no amount; 0. */
size_t not_an_amount(const struct tokens *t, size_t at);

/* "250 g", "1-2 tbsp" of an amount times 'by'. */
void amount_write(struct buf *b, const struct post_amount *a, double by);

/* post_activity.c: what a sentence says of how much the animal moves: enum activity; -1 nothing. */
int post_activity(const struct tokens *t);

/* ---- post_about.c ---- */

bool is_chatter(struct span word);    /* says nothing of the food: "he", "gets", "usually" */
bool begins_clause(struct span word); /* "that", "because", "he": what follows is no food's name */
bool is_meal_word(struct span word);
bool is_animal_word(struct span word, enum species *species);
bool token_is_animal(struct token *k, enum species *species); /* the same of a word's token */
bool is_vague(struct span word);                              /* "some", "few" */

/* What people write for a word of a food: "vit" -> "vitamin"; the word itself when it is one. */
struct span spelled_out(struct span word);

/* "a third", "half": which part of a whole, and how many tokens; 0. */
size_t post_part_at(const struct tokens *t, size_t at, double *part);

/* "same amount": as much of a food, and no meal once more; and "the same weight of": how many tokens; 0. */
bool says_same_weight(const struct tokens *t, size_t at);
size_t post_same_weight_of(const struct tokens *t, size_t at);

/* "I boil" -> "boiled"; NULL. */
const char *cooked_by(struct span word);

/* "a; b", or the one that is not empty. */
const char *post_joined(struct post_reader *r, const char *a, const char *b);

/* Does its text say on how many days, or how often a day, it is fed? */
bool post_tells_often(struct post_reader *r, const struct item *item);

/* "rabbit liver": does a word of it name the animal that it comes from? */
bool post_names_animal(struct span words, struct arena *arena);

/* ---- post_gather.c ---- */

/* A sentence as it was read. */
struct heard {
  struct span text;
  int line;
  bool bulleted;
  size_t claim_from, claim_to;
  int in_edit;    /* 1: it stands behind an edit's label on its line; -1: it does not; 0: nobody has looked */
  bool corrected; /* it put a line above right */
};
uint32_t post_hash(struct span text);

extern const char POST_REFUSED[]; /* why a thing that is never fed was left out */

/* The best record for these words without a wish, as search_foods finds it. */
bool post_look_up(struct post_reader *r, struct span words, struct search_hit *hit);
/* The same where it is found by an everyday name; cheaper where none fits. */
bool post_look_up_name(struct post_reader *r, struct span words, struct search_hit *hit);
void post_add(struct post_reader *r, enum item_kind kind, const char *text, const char *assumed);

/* Told, and not fed; no question. */
void post_note(struct post_reader *r, struct span text, const char *why);

/* Is it a danger, which then has been asked about? */
bool post_leave(struct post_reader *r, struct span text, const char *why, bool fed);

/* Told to be for several animals, and not what each of them gets. A batch of them is shared out equally. */
bool post_is_shared(const struct post_reader *r);

/* Has a question with this beginning been asked? Two of them have several readers. */
#define POST_FOR_HOW_LONG "How many days is this food for?"
#define POST_IS_IT_ALL "Is this all that is fed?"
const char *post_kilograms(struct post_reader *r, double kg); /* "4.2 kg", for what is asked */
bool post_has_asked(const struct post_reader *r, const char *begin);

/* The question, once; NULL when it was asked before or there are too many. */
struct post_question *post_ask(struct post_reader *r, double weight, const char *fmt, ...) PRINTF_LIKE(3, 4);
struct span post_without_tea_time(struct post_reader *r, struct span text); /* "for tea" is a meal */
void post_ask_of_danger(struct post_reader *r, uint32_t hazard, struct span text, bool fed);

/* post_settle.c: what needs the whole: shares, how long a batch lasts, and what the strict reader says to all of it. */
bool post_any_food(const struct post_reader *r);

/* The owner's words, to be quoted: without what joins them to others, brackets closed. */
struct span post_own_words(struct post_reader *r, struct span text);
struct span post_quote(struct post_reader *r, struct span text); /* and short */
size_t content_words(struct post_reader *r, const struct tokens *t, size_t from, size_t to);

/* post_sentence.c: where the sentence that begins at 'from' ends; takes a bullet or number at the front, and how many
 * tokens. */
size_t post_sentence_end(struct span line, size_t from);
size_t post_strip_bullet(struct tokens *t);

/* post_body.c: the tokens of "22 kg", "55 lb", "65#", "3 stone 2lb" here, and of "5yrs", "3 yo", "18 months", "9 week old";
 * 0. Is it the weight of what is cooked in one go? And takes "should be 18 kg". */
size_t post_weight_at(const struct tokens *t, size_t at, double *kg);
size_t post_age_at(const struct tokens *t, size_t at, double *years);
bool post_is_made_at_once(const struct tokens *t, size_t at, size_t used);
void post_hear_ideal(struct post_reader *r, struct tokens *t);

/* post_own_name.c: hears whether the animal is called as a food is, once for the text; post_names.c: is it that name here?
 */
void post_hear_own_name(struct post_reader *r, struct span text);
bool post_is_own_name(const struct post_reader *r, const struct tokens *t, size_t at);

/* post_thing.c: does "half a zorbix", "one zorbit" begin here, a thing that is fed, whatever it is? Are the words of
 * [from, to) such a thing, and no food? */
bool post_is_thing(const struct tokens *t, size_t at);
bool post_lists_thing(struct post_reader *r, const struct tokens *t, size_t from, size_t to);

/* Nothing but how a food was weighed, cut or cooked in [from, to)? */
bool post_tells_only_how(const struct tokens *t, size_t from, size_t to);

/* ---- post_names.c ---- */

struct places *post_places(struct arena *arena);

/* A word of the tables that names no food by itself, so that a search would not find one either. */
bool post_is_settled(struct post_reader *r, const struct token *k);

/* The tokens of the name of a food that begins here; 0. */
size_t post_mention_at(struct post_reader *r, const struct tokens *t, size_t at);

/* post_names.c: is this word and the next an everyday name together? */
bool post_names_both(struct post_reader *r, const struct tokens *t, size_t at);

/* ---- post_ask.c ---- */

/* Does the recipe's reader take this line? The assumption that it states goes into *assumed ("" none); what it complained of
 * first into r->refused_for. */
bool strict_takes(struct post_reader *r, const char *line, const char **assumed, struct ration_line *got);

/* A food that no table has, though its name is near another one's; "". */
struct span post_without_record(struct post_reader *r, struct span words);

/* post_ask.c */
extern const char POST_OFTEN_UNREAD[]; /* such a reason */
const char *post_why_in_words(enum diag_code refused_for, bool no_measure);
void post_ask_missing(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code refused_for);

/* A wing, a neck, a drumstick, and nothing is said of its bone. */
bool post_is_bony_piece(struct span words);
void post_ask_about(struct post_reader *r, const struct ration_line *got, struct span whole);

/* post_pet.c: the name of an animal, without "'s"; "" none. Are these one name? */
struct span post_pet_name(struct post_reader *r, const struct tokens *t, size_t at);
bool post_same_name(struct span a, struct span b);

/* The same, or "the little one", in so many tokens; and one that is told so right before a weight. */
struct span post_one_named(struct post_reader *r, const struct tokens *t, size_t at, size_t *used);
struct span post_one_before(const struct tokens *t, size_t at);

/* Which animal the post asks about, as a sentence tells; how many it names with their weights. */
void post_hear_who(struct post_reader *r, const struct tokens *t);
size_t post_roster(struct post_reader *r, const struct tokens *t);

/* post_listed.c: the foods of a list in [from, to), each named and without an amount; 0 when it is no such list. */
size_t post_foods_listed(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct span *out);

/* post_food_words.c: words of [from, to) that belong to the food; what begins a clause ends them. */
void post_gather(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct words *w);

/* Without marks and chatter at the ends. */
struct span post_trimmed(struct span s);

/* "x2" at the end of [from, *to): how many times, and *to before it; 1. */
double post_times_behind(const struct tokens *t, size_t from, size_t *to);

/* ---- post_find.c ---- */

/* Is there the everyday name of a food in [from, to)? */
bool post_names_food(struct post_reader *r, const struct tokens *t, size_t from, size_t to);

/* post_find.c: the first frequency of [from, to), as written, one that names a meal or days before others, "" none; the
 * first amount, t->count none; is there a word that some food's name has? */
const char *post_often_in(struct post_reader *r, const struct tokens *t, size_t from, size_t to);
size_t post_find_amount(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct post_amount *out);
bool post_knows_a_word(struct post_reader *r, const struct tokens *t, size_t from, size_t to);

/* post_heading.c: the tokens of a meal or a time ("AM 8:00 -") at the start. */
size_t post_meal_prefix(const struct tokens *t);

/* How many numbered days or weeks take turns in the text: "Day 1: ...", "Week B: ..."; 0 when there are fewer than two. */
int post_day_rotation(struct span text, bool *weeks);

/* "three meals a day, every meal the same", "each time": the amounts behind it are those of a meal; how many tokens to its
 * end. */
size_t post_each_meal(struct post_reader *r, struct tokens *t);
double post_meals_said(const struct tokens *t); /* "three small meals", "twice a day"; 0 */

/* post_heading.c: the tokens of days at the start, which then are in *phrase; any amount at all; and whether it is a line
 * that gives its period to those below. */
size_t post_day_prefix(struct post_reader *r, const struct tokens *t, const char **phrase);
bool post_any_amount(const struct tokens *t, size_t from);
bool post_period_heading(struct post_reader *r, const struct tokens *t);

/* "Wed: as Monday", "same as Tue plus 20 g of liver": the foods of that day on this one, or told and asked; how many tokens
 * say so, 0 none. 'marked': a colon stood before it, so that "same" alone is as the day before. */
size_t post_as_on_day(struct post_reader *r, struct tokens *t, struct span text, bool marked); /* post_other_day.c */

/* ---- post_cues.c ---- */

/* "told as what was", "as advice", "as refused"; NULL when the sentence says what is fed. */
extern const char NOT_FED_PAST[], NOT_FED_ADVICE[], NOT_FED_HEARSAY[]; /* such a reason */
const char *not_fed(const struct tokens *t);
const char *not_fed_at(const struct tokens *t, size_t *at); /* where it is said */

/* Is it about an animal that is not asked about? */
bool is_of_another(const struct tokens *t);

/* Where the clause begins that 'at' stands in. Where what is not fed begins behind food that is, 0 none; does it speak of
 * that food? And where food that is fed begins behind it, t->count nowhere. */
size_t clause_begin(const struct tokens *t, size_t at);
size_t clause_before(const struct tokens *t, size_t told);
bool looks_back(const struct tokens *t, size_t clause, size_t told);
size_t fed_again_at(const struct tokens *t, size_t from);

/* post_doubt.c: says of a counted line what was assumed; or takes it out, with the owner's words. */
void post_doubt(struct post_reader *r, size_t item, const char *assumed);

/* What the whole makes doubtful: several animals, meals told and no meal said, a food told twice, too little for the animal.
 */
void post_doubt_whole(struct post_reader *r);
void post_doubt_one_pot(struct post_reader *r);
void post_doubt_little(struct post_reader *r, double grams_a_day);
void post_doubt_total(struct post_reader *r, double grams_a_day); /* another sum than the post tells */
void post_withdraw(struct post_reader *r, size_t item, struct span text, const char *why);

#endif
