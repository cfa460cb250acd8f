/* post_reader.h: what is known of a post while it is read: the reader of all rooms. Private to src/post. Layer: post/hear.
 */
#ifndef BW_POST_READER_H
#define BW_POST_READER_H

#include <math.h>

#include "post/hear/post_words.h"
#include "post/post.h"
#include "recipe/recipe_food.h"
#include "recipe/recipe_line.h"
#include "recipe/recipe_text.h"
#include "text/scan.h"

struct places; /* post_names.c */
struct splits; /* post_tokens.c */

enum { POST_MOST_ITEMS = 400, SENTENCE_MOST_WORDS = 150 };
enum { POST_QUOTED = 0x1E }; /* in cleaned text: begins a line that was written by somebody else */

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
  bool no_name; /* no everyday name, and nobody asked for more; else all of it is known */
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

enum column { COLUMN_WORDS, COLUMN_AMOUNT, COLUMN_TIMES_A_DAY, COLUMN_DAYS_A_WEEK, COLUMN_MEAL };

/* Why an animal may be no healthy adult, as a sentence tells it; STATE_NOT: it does not. */
enum state_kind {
  STATE_NOT,
  STATE_YOUNG,
  STATE_PREGNANT,
  STATE_NURSING,
  STATE_ILL,
  STATE_MEDICINE,
  STATE_URGENT,  /* it cannot wait */
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

/* One of several that were weighed, by its name or by what it is; both may be "" in a row: "two dogs, 10 kg and 40 kg". */
struct weighed {
  struct span name, breed;
  double kg;
  int species, neutered, activity; /* -1 not said */
  int line;
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
  bool sure; /* said, and nothing to doubt */
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
  int last_days_counted;    /* "five days a week", the last that were counted and not named; 0 */
  struct span last_named;   /* the food that was named last; "" */
  struct span first_named;  /* the food of the last sentence that named one alone, with its words; "" */
  size_t named_in_sentence; /* and how many in that sentence */
  size_t ask_of;            /* a question is about this item, from 1; 0: the one that is being read */
  struct places *places;
  struct splits *splits;
  struct built built[16]; /* built/post_built.h */
  size_t built_count;
  double day_part; /* "a seventh of it each day"; 0 */
  int parts_line;  /* two foods with their parts stand in it */
  struct post_left *left;
  size_t left_count, left_cap;
  struct post_question *question;
  size_t question_count, question_cap;
  struct owners_question asked[OWNERS_QUESTIONS_MOST]; /* what is asked of the bowl; [asks] */
  size_t asks;
  /* what headings say until the next one */
  const char *days;        /* "on Monday and Thursday"; "" */
  const char *days_before; /* of the line before that had days of its own; "" */
  int entry_line[31];      /* where the dated entries of a diary begin; [entries] */
  size_t entries;
  unsigned fast_days;     /* bits from Monday */
  bool fasts_unpacked;    /* "then no bag": no part of a batch is meant for them */
  const char *period;     /* "a week"; "" */
  int period_line;        /* where it was said */
  const char *bare_unit;  /* "kg per week:": the unit of bare numbers; "" */
  bool all_in_grams;      /* the post says so */
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
  bool two_lengths;  /* and another one was told: of all that is in the batch */
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
  bool urgent;                           /* and it cannot wait */
  bool keeps_low_fat;                    /* it may have little fat only: by an illness that was, it is still fed so */
  bool loses, wants_less;                /* it weighs less than it did; and that was wanted */
  const char *status;                    /* the same in words of the strict text; "" nothing */
  const struct animal *given;            /* told beside the post, and right; NULL */
  double past_kg;                        /* what it weighed once, where nothing else is told; NaN */
  double lost_kg;                        /* "has lost 2 kg"; 0 */
  int neutered;                          /* -1 not said */
  int activity;                          /* enum activity; -1 not said */
  int animals;                           /* "2 cats" */
  bool for_one;                          /* "this is for one dog" */
  struct named_animal named[6];
  size_t named_count;
  struct weighed weighed[6]; /* for the parts of a pot, by need */
  size_t weighed_count;
  bool by_need;                       /* and their parts were counted so */
  struct part_of part[6], related[2]; /* as told, and as one animal's part of the other's */
  size_t part_count;
  struct part_of relative;  /* whose food is a part of another one's: "Dot gets the same, but half"; "" nobody's */
  size_t relative_sentence; /* that says so, from 1 */
  bool derived;             /* and it is that one that is asked about */
  bool by_weight;           /* the pot is shared out by what each of them weighs */
  double part_of_each;      /* "a third each"; 0 */
  double divided_by;        /* "both together, so halve it": among how many; 0; 1: evenly, among all */
  bool own;                 /* the sentence tells what one gets beside it */
  bool alone;               /* and that the others do not get it */
  bool feeds_each;          /* feeds_g is what each of several gets, and not all of them */
  bool one_pot;             /* words tell that several eat of one */
  bool they_share;          /* and that they share it */
  struct span own_name;     /* of an animal that is called as a food is; "" */
  struct span asked_about;  /* the name of the one that the post is about; "" */
  double pot_part;          /* the part that was counted, 0 all of it; as told? */
  bool pot_told;
  bool part_in_lines;                  /* the lines were divided: the days of the batch are not lengthened as well */
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
  bool served_below;          /* a heading said so of the lines below it */
  bool rows_of_labels;        /* the line before was a name, a colon and what was read of it */
  double fast_times;          /* on so many days of 28 nothing is fed, and nobody says on which; 0 */
  bool same_assumed;          /* of a swap in this sentence nobody says how much */
  struct near_amount near[8]; /* of the sentence being read */
  size_t near_count;
  bool at_meals;    /* the food being read is put into the bowl at meals */
  bool told_whole;  /* it told the animal or the batch */
  bool lists_small; /* its lines begin with small letters: none goes on in the next unless it ends open */
  bool ragged;      /* or a hand broke them, some short */
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

#endif
