/* post_parts.h: the steps between a post and its strict text. Private to the room.
 *
 * Order: post_clean (marks of mail, pages and tables go), post_read (lines, sentences, headings), post_animal, post_item
 * (one food with its amount; post_find, post_cut, post_line and post_core are its steps), post_amount (amounts as people
 * write them), post_mix (mixtures), post_write (the strict text). Layer: post. */
#ifndef BW_POST_PARTS_H
#define BW_POST_PARTS_H

#include <math.h>

#include "post/post.h"
#include "post/post_words.h"
#include "recipe/recipe_food.h"
#include "recipe/recipe_line.h"
#include "recipe/recipe_text.h"
#include "text/scan.h"

enum { POST_MOST_ITEMS = 400, SENTENCE_MOST_WORDS = 150 };

/* ---- post_clean.c ---- */

/* The text as plain lines: no tags, quote marks, emoji or table borders. As many lines as the text has, so that numbers stay
 * true; a line that pages broke by tags is joined with 0x1F between its pieces. */
enum { POST_QUOTED = 0x1E }; /* begins a line that was written by somebody else */
struct span post_clean(struct span text, struct arena *arena);
/* post_marks.c, before that: dots, hyphens and list numbers around amounts ("beef.....200g", "beef-200g", "1 - 300 g beef").
 */
struct span post_marks(struct span text, struct arena *arena);
/* post_pictures.c: writes what the picture of n bytes stands for; false where it stands for nothing. And foods of which a
 * picture is all that the post has, once it is cleaned. */
bool post_take_picture(struct span in, size_t at, size_t n, struct buf *out);
struct post_reader;
void post_tell_pictures(struct post_reader *r, struct span text, struct span cleaned);
static inline bool post_is_letter(char c) { return (c | 0x20) >= 'a' && (c | 0x20) <= 'z'; }

/* ---- post_tokens.c ---- */

/* What a text is split into, with the classes of its words, for all who ask for the same text: none of the tokens is taken,
 * and the caller may take them. Like all of a sentence they last until r->arena is rewound. */
struct tokens post_tokens(const struct post_reader *r, struct span text);
struct splits;
struct splits *post_splits(struct arena *arena);
void post_splits_make_room(struct splits *s); /* between sentences */
void post_splits_free(struct splits *s);

/* ---- post_about.c, post_cues.c ---- */

bool is_chatter(struct span word);    /* says nothing of the food: "he", "gets", "usually" */
bool begins_clause(struct span word); /* "that", "because", "he": what follows is no food's name */
bool is_meal_word(struct span word);
bool is_animal_word(struct span word, enum species *species);
bool token_is_animal(struct token *k, enum species *species); /* the same of a word's token */
bool is_vague(struct span word);                              /* "some", "few" */
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
/* What people write for a word of a food: "vit" -> "vitamin"; the word itself when it is one. */
struct span spelled_out(struct span word);
/* "a third", "half": which part of a whole, and how many tokens; 0. */
size_t post_part_at(const struct tokens *t, size_t at, double *part);
/* "I boil" -> "boiled"; NULL. */
const char *cooked_by(struct span word);

/* ---- tokens that nothing has taken yet ---- */

static inline bool is_number(const struct tokens *t, size_t at) {
  return at < t->count && !t->item[at].taken && t->item[at].kind == TOKEN_NUMBER;
}
/* One of the words of a list with blanks between. */
static inline bool says(const struct tokens *t, size_t at, const char *words) {
  return is_word(t, at) && word_in(t->item[at].word, words);
}

/* ---- post_names.c ---- */

struct post_reader;
struct places;
struct places *post_places(struct arena *arena);
/* A word of the tables that names no food by itself, so that a search would not find one either. */
bool post_is_settled(struct post_reader *r, const struct token *k);
/* The tokens of the name of a food that begins here; 0. */
size_t post_mention_at(struct post_reader *r, const struct tokens *t, size_t at);

/* post_ratio.c: shares told in one go, food by food; and how much is fed in all, beside shares. */
bool post_ratio_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
void post_find_whole(struct post_reader *r);
size_t post_food_end(struct post_reader *r, const struct tokens *t, size_t from); /* of a food named at 'from'; 'from' */
/* post_nested.c: an amount of a kind of food and what that is made of, written out food by food. */
bool post_nested_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
/* The text with 'instead' between 'from' and 'to'. post_changes.c, post_choice.c: what changed, with the amount of today;
 * and one of several foods, each with its part of the days. */
struct span post_cut_out(struct post_reader *r, struct span text, const char *from, const char *to, const char *instead);
bool post_change_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
/* post_swapped.c: one food for as much of another on some days; and, once it is read, that nobody said how much. */
bool post_swapped_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
void post_doubt_swapped(struct post_reader *r, size_t items);
bool post_either_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
bool post_choice_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
struct span post_rate_written_out(struct post_reader *r, struct span text); /* "40 g per kilo" as a share of its weight */

/* post_turns.c: foods that take turns, written out food by food. */
bool post_turns_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
/* post_rewrite.c: the foods of a list in [from, to), each named and without an amount; 0 when it is no such list. And the
 * sentence with what it says of several foods at once written out food by food. */
size_t post_foods_listed(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct span *out);
struct span post_written_out(struct post_reader *r, struct span text);
/* post_those_days.c: "on those two days" as the days that were named last. */
struct span post_those_days(struct post_reader *r, struct span text);
/* post_bracket.c: "oil (salmon)" as "salmon oil". */
bool post_kind_in_bracket(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
/* post_except.c: "daily except Fridays when he gets 200 g cod", day by day. */
bool post_except_days(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* ---- post_amount.c ---- */

struct post_amount {
  size_t tokens; /* 0: no amount here */
  double low, high;
  char unit[16]; /* as the strict text writes it; "" counted */
  bool is_percent;
  bool is_mass, is_volume;
  bool bare;    /* a number alone */
  bool by_word; /* "a", "one": a number only when a food or a measure follows */
  bool heaped, scant;
  bool mug; /* nobody says which one */
  bool tinned;
  bool about;
  bool cannot; /* a scoop, a mug: nobody knows how much */
};
struct post_amount post_amount_at(const struct tokens *t, size_t at);
double post_in_grams(const struct post_amount *a); /* of a mass */
/* The tokens of a time, a lean share, a ratio, an age or a frequency that begin here and are no amount; 0. */
size_t not_an_amount(const struct tokens *t, size_t at);

/* ---- the reader ---- */

enum item_kind { ITEM_FOOD, ITEM_UNKNOWN, ITEM_GONE }; /* GONE: told again, or corrected; not written */

/* "Nearly 200 g": what stands before the amount at this token. */
struct near_amount {
  size_t at;
  bool less; /* or more */
  struct span said;
};

struct item {
  enum item_kind kind;
  int line;
  const char *text;    /* FOOD: the strict line; UNKNOWN: the owner's words */
  const char *assumed; /* "" none */
  double grams;        /* FOOD: of one feeding */
  uint32_t food;       /* FOOD: its record */
  struct span words;   /* FOOD: those that its record was found by */
  bool served;         /* beside a batch */
  bool at_meals;       /* put into the bowl at meals: no part of a batch */
  size_t sentence;     /* which one it stands in */
  struct span meal;    /* "Breakfast:" above or before it; "" */
  bool timed;          /* its sentence names a meal, a time or a day */
  bool doubted;        /* whether, how much or how often it is fed was assumed, and is asked */
  bool rough;          /* its weight is a usual one of many that it may have, and is asked */
  bool own;            /* of one animal alone, beside a pot for several */
  int dropped_by;      /* GONE: the line of the edit that says so; 0 */
};

/* What was looked up before; a post asks for the same words again and again. */
struct looked_up {
  struct span words;
  struct search_hit hit;
  bool any;
};
struct counted_words {
  struct span text;
  size_t count;
};
enum { LOOKED_UP_SLOTS = 256 };

/* A piece of the post's text that is accounted for: told as not fed, asked about, of the animal, or a counted line. Spans
 * point into the text of a sentence. */
enum claim_kind {
  CLAIM_TOLD,   /* whatever stands in it */
  CLAIM_LINE,   /* the foods of items 'first' to 'last', and no others */
  CLAIM_AMOUNT, /* an amount that a line has */
};
struct claim {
  struct span text;
  enum claim_kind kind;
  size_t first, last;
};
/* A sentence as it was read. */
struct heard {
  struct span text;
  int line;
  bool bulleted;
  size_t claim_from, claim_to;
  int in_edit; /* 1: it stands behind an edit's label on its line; -1: it does not; 0: nobody has looked */
};
uint32_t post_hash(struct span text);

enum column { COLUMN_WORDS, COLUMN_AMOUNT, COLUMN_TIMES_A_DAY, COLUMN_DAYS_A_WEEK, COLUMN_MEAL };

/* Why an animal may be no healthy adult, as a sentence tells it; STATE_NOT: it does not. */
enum state_kind {
  STATE_NOT,
  STATE_YOUNG,
  STATE_PREGNANT,
  STATE_NURSING,
  STATE_ILL,
  STATE_MEDICINE,
  STATE_WAS_ILL, /* it is over */
  STATE_PERHAPS
};
struct told_state {
  enum state_kind kind;
  struct span words, of; /* whose, by name; "" not said */
  int species;           /* whose; -1 */
  bool medicine;
  int line;
  size_t sentence; /* which one it stands in */
};

/* What is said beside the lines of a food that a rewritten sentence tells; 'food' "": all of that line. */
struct said_beside {
  int line;
  struct span food;
  const char *assumed;
};
struct named_animal {
  struct span name;
  double kg;
};
/* Whose part of a pot; "": of the one that is spoken of. */
struct part_of {
  struct span name;
  double of;
};

/* What will be said beside the line of a food that was written out, and asked; 'ask' may be NULL. */
struct built {
  int line;
  struct span word;
  const char *note, *ask;
};

struct post_reader {
  const struct library *lib;
  struct arena *arena; /* of one sentence: searches take much and leave nothing */
  struct arena_mark begin;
  struct arena *keep;                  /* of what is gathered */
  struct looked_up *looked_up;         /* [LOOKED_UP_SLOTS] */
  struct counted_words *counted_words; /* [LOOKED_UP_SLOTS] */
  struct item *item;
  size_t count, cap;
  struct claim *claim;
  size_t claim_count, claim_cap;
  struct heard *heard;
  size_t heard_count, heard_cap;
  struct span sentence;     /* being read */
  struct span last_days;    /* the days of the week that were named last; "" */
  unsigned last_days_set;   /* and which, from bit 0 Monday */
  struct span last_named;   /* the food that was named last; "" */
  struct span first_named;  /* the food of the last sentence that named one alone, with its words; "" */
  size_t named_in_sentence; /* and how many in that sentence */
  size_t ask_of;            /* a question is about this item, from 1; 0: the one that is being read */
  struct places *places;
  struct splits *splits;
  struct built built[16]; /* post_builds.h */
  size_t built_count;
  double day_part; /* "a seventh of it each day"; 0 */
  int parts_line;  /* two foods with their parts stand in it */
  struct post_left *left;
  size_t left_count, left_cap;
  struct post_question *question;
  size_t question_count, question_cap;
  /* what headings say until the next one */
  const char *days;        /* "on Monday and Thursday"; "" */
  const char *days_before; /* of the line before that had days of its own; "" */
  int entry_line[31];      /* where the dated entries of a diary begin; [entries] */
  size_t entries;
  unsigned fast_days;     /* bits from Monday */
  const char *period;     /* "a week"; "" */
  int period_line;        /* where it was said */
  const char *bare_unit;  /* "kg per week:": the unit of bare numbers; "" */
  const char *loose_unit; /* "(all in grams)": of those that are no count of pieces; "" */
  bool guessed_grams;     /* the unit of a table's numbers is told nowhere */
  bool unit_of_table;     /* until the table ends */
  enum column column[8];  /* of a table whose rows tell how often; [column_count] */
  size_t column_count;
  int day_column[8]; /* of a table with a column a day, from 0 Monday; [day_columns] */
  size_t day_columns;
  /* what holds for the whole */
  double makes_days, makes_meals, meals_a_day; /* NaN */
  int makes_line;
  double meals_told; /* "three meals a day", whatever it is said of; 0 */
  int meals_line;
  double meals_heard;                     /* the same, of any sentence; 0 none, NaN several */
  double total_g, feeds_g, feeds_percent; /* NaN */
  bool of_mix;                            /* they were told of a mix, whose parts the lines are */
  struct span whole_said;                 /* where a share's whole was told, when it was found by the shares; "" */
  bool any_percent, any_period, any_day;
  double cooks_days;           /* "I cook on Sundays": 7; 0 */
  double tub_g;                /* what a tub holds; 0 */
  struct post_amount yield;    /* what the batch comes to, in cups; .tokens 0 not told */
  bool in_bulk;                /* the text speaks of a freezer, or of food made for long */
  bool per_tub;                /* the foods of one tub are told */
  bool per_meal;               /* a line is told for each meal */
  bool only_shares;            /* of a whole that nobody told */
  double weight_kg, age_years; /* NaN */
  double ideal_kg;             /* NaN; what it should weigh */
  struct told_state state[12];
  size_t state_count;
  bool pup;                              /* "our pup", which may be of any age */
  bool young, pregnant, nursing, unwell; /* settled when all is read */
  const char *status;                    /* the same in words of the strict text; "" nothing */
  const struct animal *given;            /* told beside the post, and right; NULL */
  double past_kg;                        /* what it weighed once, where nothing else is told; NaN */
  int neutered;                          /* -1 not said */
  int activity;                          /* enum activity; -1 not said */
  int animals;                           /* "2 cats" */
  bool for_one;                          /* "this is for one dog" */
  struct named_animal named[6];
  size_t named_count;
  struct part_of part[6], related[2]; /* as told, and as one animal's part of the other's */
  size_t part_count;
  struct part_of relative;  /* whose food is a part of another one's: "Dot gets the same, but half"; "" nobody's */
  size_t relative_sentence; /* that says so, from 1 */
  bool derived;             /* and it is that one that is asked about */
  bool by_weight;           /* the pot is shared out by what each of them weighs */
  double part_of_each;      /* "a third each"; 0 */
  bool own;                 /* the sentence tells what one gets beside it */
  bool one_pot;             /* words tell that several eat of one */
  bool they_share;          /* and that they share it */
  struct span asked_about;  /* the name of the one that the post is about; "" */
  double pot_part;          /* the part that was counted, 0 all of it; as told? */
  bool pot_told;
  bool subject_named, several_weights; /* which of several animals it is about; two weights for one */
  int weights_line;
  bool weights_told, other_species; /* of several animals; a dog and a cat were weighed */
  int weighed_species;              /* beside the weight; -1 */
  int animal_line;
  int dog_words, cat_words;
  struct language {
    const char *name; /* "German"; "English" too */
    int words;        /* of it that were heard and are of no other */
  } language[6];
  enum species species;
  bool species_said;
  const char *never[16]; /* what is never to be fed, in small letters; [never_count] */
  size_t never_count;
  int line;                   /* being read */
  bool served;                /* this sentence tells what goes beside a batch */
  double fast_times;          /* on so many days of 28 nothing is fed, and nobody says on which; 0 */
  bool same_assumed;          /* of a swap in this sentence nobody says how much */
  struct near_amount near[8]; /* of the sentence being read */
  size_t near_count;
  bool at_meals;    /* the food being read is put into the bowl at meals */
  bool told_whole;  /* it told the animal or the batch */
  bool lists_small; /* its lines begin with small letters: none goes on in the next unless it ends open */
  int rotation;     /* "Day 1: ...", "Week B: ...": how many days or weeks take turns; 0 */
  bool turns_are_weeks;
  const char *lasts;             /* "every 14 days": how long the one food of this sentence lasts; "" */
  size_t line_from;              /* the items of this line begin here */
  bool meal_said;                /* a meal or a time begins this line or one above it */
  struct span meal;              /* its first word; "" */
  size_t meal_from, meal_before; /* the items of this meal and of the one before begin here */
  double taken_grams;            /* of the line that the strict reader took last */
  struct span food_words;        /* of the line that the strict reader saw last */
  enum diag_code refused_for;    /* what it complained of first; DIAG_CODE_COUNT: of nothing */
  uint32_t taken_food;           /* of the line that it took last */
  struct span taken_words;
  struct said_beside beside[12]; /* post_refer.c */
  size_t beside_count;
};

extern const char POST_REFUSED[]; /* why a thing that is never fed was left out */
/* The best record for these words without a wish, as search_foods finds it. */
bool post_look_up(struct post_reader *r, struct span words, struct search_hit *hit);
void post_add(struct post_reader *r, enum item_kind kind, const char *text, const char *assumed);
/* Told, and not fed; no question. */
void post_note(struct post_reader *r, struct span text, const char *why);
/* Is it a danger, which then has been asked about? */
bool post_leave(struct post_reader *r, struct span text, const char *why, bool fed);
/* The question, once; NULL when it was asked before or there are too many. */
/* Told to be for several animals, and not what each of them gets. A batch of them is shared out equally. */
bool post_is_shared(const struct post_reader *r);
/* Has a question with this beginning been asked? Two of them have several readers. */
#define POST_FOR_HOW_LONG "How many days is this food for?"
#define POST_IS_IT_ALL "Is this all that is fed?"
bool post_has_asked(const struct post_reader *r, const char *begin);
struct post_question *post_ask(struct post_reader *r, double weight, const char *fmt, ...) PRINTF_LIKE(3, 4);
struct span post_without_tea_time(struct post_reader *r, struct span text); /* "for tea" is a meal */
void post_ask_of_danger(struct post_reader *r, uint32_t hazard, struct span text, bool fed);

/* post_body.c: the tokens of "22 kg", "55 lb", "65#", "3 stone 2lb" here, and of "5yrs", "3 yo", "18 months", "9 week old";
 * 0. Is it the weight of what is cooked in one go? And takes "should be 18 kg". */
size_t post_weight_at(const struct tokens *t, size_t at, double *kg);
size_t post_age_at(const struct tokens *t, size_t at, double *years);
bool post_is_made_at_once(const struct tokens *t, size_t at, size_t used);
void post_hear_ideal(struct post_reader *r, struct tokens *t);
/* post_state.c: takes what tells that it is young, pregnant, nursing or ill; and, when all is read, what it comes to. */
void post_hear_state(struct post_reader *r, struct tokens *t);
void post_settle_state(struct post_reader *r);
/* Whose it is that a phrase in [at, behind) tells of: a name, a species, "" and -1 where nothing says; false: of somebody
 * who is not asked about. And is that the one that is asked about, when all is read? */
bool post_told_of(struct post_reader *r, const struct tokens *t, size_t at, size_t behind, struct span *of, int *species);
bool post_is_ours(const struct post_reader *r, struct span of, int species);
/* post_never.c: what the owner says is never to be fed, when all is read; asks where it is fed all the same. */
void post_hear_never(struct post_reader *r);

/* post_neutered.c: does it say that the animal is neutered, or that it is not? Takes it; and what is told as long done. */
bool post_says_neutered(struct post_reader *r, const struct tokens *t);
bool post_told_in_letters(struct post_reader *r, struct tokens *t);
void post_take_neutered(struct post_reader *r, struct tokens *t);
void post_take_long_done(struct post_reader *r, struct tokens *t);

/* post_activity.c: what a sentence says of how much the animal moves: enum activity; -1 nothing. */
int post_activity(const struct tokens *t);

/* post_heading.c: the tokens of a meal or a time ("AM 8:00 -") at the start; of days, which then are in *phrase; any amount
 * at all; and whether it is a line that gives its period to those below. */
size_t post_meal_prefix(const struct tokens *t);
/* How many numbered days or weeks take turns in the text: "Day 1: ...", "Week B: ..."; 0 when there are fewer than two. */
int post_day_rotation(struct span text, bool *weeks);
/* "Mo", "Tu" ... at the beginnings of lines become "Mon", "Tue" ... where the text has so many of them that they are days.
 */
struct span post_short_days(struct span text, struct arena *arena);
struct span post_without_slips(struct post_reader *r, struct span text, struct arena *arena); /* "1 tin, I mean 2 tins of" */
struct span post_without_prices(struct span text, struct arena *arena); /* of a receipt; as many lines */
/* "three meals a day, every meal the same", "each time": the amounts behind it are those of a meal; how many tokens to its
 * end. */
size_t post_each_meal(struct post_reader *r, const struct tokens *t);
double post_meals_said(const struct tokens *t); /* "three small meals", "twice a day"; 0 */
/* post_of_all.c: "she eats that twice daily", "sorry, per meal and not per day": how often all lines before are fed; true
 * when the sentence says so. And what of headings governed no line, once all is read. */
bool post_said_of_all(struct post_reader *r, const struct tokens *t, struct span text);
bool post_weighs_one(struct post_reader *r, const struct tokens *t, struct span text); /* post_one.c: of pieces above */
void post_doubt_headings(struct post_reader *r);
/* post_most_days.c: of the foods from 'items' on that the sentence feeds on most days. */
void post_doubt_most_days(struct post_reader *r, struct span text, size_t items);
size_t post_day_prefix(struct post_reader *r, const struct tokens *t, const char **phrase);
bool post_any_amount(const struct tokens *t, size_t from);
bool post_period_heading(struct post_reader *r, const struct tokens *t);

/* post_doubt.c: says of a counted line what was assumed; or takes it out, with the owner's words. */
void post_doubt(struct post_reader *r, size_t item, const char *assumed);
/* What the whole makes doubtful: several animals, meals told and no meal said, a food told twice, too little for the animal.
 */
void post_doubt_whole(struct post_reader *r);
void post_doubt_one_pot(struct post_reader *r);
void post_doubt_little(struct post_reader *r, double grams_a_day);
void post_doubt_total(struct post_reader *r, double grams_a_day); /* another sum than the post tells */
void post_withdraw(struct post_reader *r, size_t item, struct span text, const char *why);
/* post_claim.c: which words are accounted for. */
void post_claim(struct post_reader *r, struct span text, enum claim_kind kind, size_t first, size_t last);
void post_claim_taken(struct post_reader *r, const struct tokens *t);
void post_hear(struct post_reader *r, struct span text, bool bulleted);
/* post_net.c: tells, or asks about, each food and amount that nothing has accounted for: none is passed over in silence. */
void post_net(struct post_reader *r);
/* post_weak.c: lines whose record was found by a weak match say so, and are asked about. */
void post_doubt_weak(struct post_reader *r);
/* post_govern.c: asks about each word that changes an amount and that no reader has used; 'net_from': the claims of the net
 * begin there. */
void post_govern(struct post_reader *r, size_t net_from);

/* post_last_resort.c: where no line was read whole, the foods and amounts that are sure. */
void post_last_resort(struct post_reader *r);
/* post_advised.c: what is advised, where nothing else says what is fed. */
void post_take_advised(struct post_reader *r);
/* post_settle.c: what needs the whole: shares, how long a batch lasts, and what the strict reader says to all of it. */
bool post_any_food(const struct post_reader *r);
/* post_plausible.c: the days that the post names, where they alone make sense of far too much food; true when they were
 * taken. */
bool post_days_by_energy(struct post_reader *r, const struct recipe *recipe, const struct ration *ration);
/* Far more or far less than the animal needs, and shares of nobody knows what: said beside the lines, and asked. */
void post_doubt_energy(struct post_reader *r, const struct recipe *recipe, const struct ration *ration);
/* Shares of what the animal needs: is there anything left of it beside the lines that have amounts? */
bool post_shares_have_room(struct post_reader *r, const struct recipe *recipe, const struct ration *ration);
void post_settle(struct post_reader *r, struct post *out);

/* "A 250 g pot of cottage cheese lasts him two weeks": how often, and takes it; "". */
const char *post_lasts_alone(struct post_reader *r, struct tokens *t);

/* post_tubs.c: what a sentence tells of tubs: what each holds, and how many are eaten in a day; and, when all is read, how
 * much that is. Behind "Each tub holds": the tokens to its end; 0. */
void post_hear_tubs(struct post_reader *r, struct tokens *t);
void post_weigh_tubs(struct post_reader *r);
size_t post_in_each_tub(struct post_reader *r, const struct tokens *t);

/* post_yield.c: "makes about 10 cups", "he gets 2 cups a day": takes it, and how long that lasts. */
bool post_hear_yield(struct post_reader *r, struct tokens *t);

/* post_pot.c: what a sentence tells of parts of a pot for several animals; and the part of the one that is asked about, when
 * all is read. */
void post_hear_of_pot(struct post_reader *r, struct tokens *t);
void post_share_pot(struct post_reader *r);

/* post_pet.c, post_who.c: the name of an animal, without "'s"; "" none. Are these one name? Which one the post asks about,
 * and of whose food one gets a part, as a sentence tells; how many it names with their weights. And when all is read, the
 * foods of others than the one that is asked about are left out. */
struct span post_pet_name(struct post_reader *r, const struct tokens *t, size_t at);
bool post_same_name(struct span a, struct span b);
/* The same, or "the little one", in so many tokens; and one that is told so right before a weight. */
struct span post_one_named(struct post_reader *r, const struct tokens *t, size_t at, size_t *used);
struct span post_one_before(const struct tokens *t, size_t at);
void post_hear_who(struct post_reader *r, const struct tokens *t);
void post_hear_same(struct post_reader *r, struct tokens *t);
size_t post_roster(struct post_reader *r, const struct tokens *t);
void post_leave_others(struct post_reader *r);

/* post_swap.c: the days on which nothing is fed, as a sentence tells, from bit 0 Monday; 0. And what is fed every day is not
 * fed on them. */
unsigned post_fasts_on(struct post_reader *r, const struct tokens *t);
void post_leave_fasts_out(struct post_reader *r);

/* post_dates.c: the text without the dates of its entries, "Day 1:" for them where they are days one after the other. Where
 * it speaks of weekends, "during the week" as weekdays. The older of two lines gets the amount of the other, which goes. A
 * food of an earlier entry has the amount of the last one that tells it. */
struct span post_dated(struct post_reader *r, struct span text, struct arena *arena);
struct span post_weekdays(struct span text, struct arena *arena);
/* post_ahead.c, post_labels.c: numbers in words, kinds of days, and the headings of recipes that take turns, over the whole
 * text. The days of the week that are named from 'at' on, as bits from Monday: how many tokens (post_day_names.c). */
struct span post_ahead(struct post_reader *r, struct span text, struct arena *arena);
struct span post_per_kilo(struct post_reader *r, struct span text, struct arena *arena); /* "per kilo of mix:" */
struct span post_labels_written(struct post_reader *r, struct span text, struct arena *arena);
size_t post_days_named(const struct tokens *t, size_t at, unsigned *days);
bool post_restate(struct post_reader *r, size_t old, size_t now);
void post_settle_entries(struct post_reader *r);

/* post_animal.c: takes what a sentence tells of the animal, the batch and the whole; true when nothing else is left in it.
 */
bool post_animal(struct post_reader *r, struct tokens *t);
bool post_batch(struct post_reader *r, struct tokens *t);

/* "Wed: as Monday", "same as Tue plus 20 g of liver": the foods of that day on this one, or told and asked; how many tokens
 * say so, 0 none. 'marked': a colon stood before it, so that "same" alone is as the day before. */
size_t post_as_on_day(struct post_reader *r, const struct tokens *t, struct span text, bool marked);
/* "2x daily each of those", "all of that every day": says it of the foods of this line that were told before. */
bool post_told_of_those(struct post_reader *r, const struct tokens *t);
/* Is there the everyday name of a food in [from, to)? */
bool post_names_food(struct post_reader *r, const struct tokens *t, size_t from, size_t to);

/* post_item.c: the foods of one sentence, from its free tokens. */
void post_items(struct post_reader *r, struct tokens *t, bool bulleted);
/* Does the recipe's reader take this line? The assumption that it states goes into *assumed ("" none); what it complained of
 * first into r->refused_for. */
bool strict_takes(struct post_reader *r, const char *line, const char **assumed, struct ration_line *got);

/* post_write.c: the strict text, from what was gathered. */
void post_write(struct post_reader *r, struct post *out);
/* "250 g", "1-2 tbsp" of an amount times 'by'. */
void amount_write(struct buf *b, const struct post_amount *a, double by);

#endif
