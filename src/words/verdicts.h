/* verdicts.h: the verdicts told to a person: nutrients grouped by what the reader has to do, and the bowl in one sentence.
 *
 * Layer: words. */
#ifndef BW_WORDS_VERDICTS_H
#define BW_WORDS_VERDICTS_H

#include "words/words.h"

/* In the order in which they are told. "thin" of the judge is two things to a reader: hardly enough, and hardly not too
 * much. ORDER GROUP: GROUP[] in verdicts.c. */
enum group_id {
  GROUP_SHORT,
  GROUP_THIN,
  GROUP_NEAR_LIMIT,
  GROUP_OVER,
  GROUP_UNPROVEN,
  GROUP_MET,
  GROUP_NO_FIGURE,
  GROUP_COUNT
};

struct group {
  const char *key;                               /* "short", "near limit" */
  const char *title, *aside;                     /* "Short", "too little"; the aside may be "" */
  const struct nutrient_result *item[NUT_COUNT]; /* worst first; energy is told elsewhere */
  int count;
};

/* Of what is needed the share that is there: of an average day, or of the leanest days where only these are short. */
double words_share_had(const struct nutrient_result *n);

enum group_id words_group_of(const struct nutrient_result *n);
void words_groups(const struct check_result *r, struct group out[GROUP_COUNT]);
/* Where the review tells of it as something to act on, among the findings; their number where it does not. */
size_t words_place_of(const struct check_result *r, enum nutrient n);
/* In that order instead, for a sentence that names the first few: calcium at 30 % comes before manganese at 20 %. */
void words_as_told(const struct check_result *r, struct group *g);

/* Of what is over, behind "too much": "vitamin D; too much copper for so little energy". */
const char *words_too_much(const struct check_result *r, const struct group *high, struct arena *a);

/* That liver is most of the food, which leads every answer; "" where it is not. */
const char *words_mostly_liver(const struct check_result *r);

/* The bowl in one sentence: "Too much vitamin D; too little iodine, zinc and manganese." Terminal, JSON and page say this
 * one. */
const char *words_lead(const struct check_result *r, struct arena *a);

/* "“1 scoop kelp” and “a multivitamin”": what is fed but not counted, as it was written; "" when there is none. Whoever
 * proposes a change says that it reckons without them: they may supply what the change adds. */
const char *words_uncounted(const struct ration *r, struct arena *a);

/* How much of the food this is, where it is far less than all of it: what is said before all verdicts; where it is no meal or
 * too little to judge by (judge/meal.h), instead of them. "" else. */
const char *words_part_of_food(const struct check_result *r, struct arena *a);
/* What to weigh and to ask first about what is fed but not counted: "First find out what is in “a scoop of his mix” (a label,
 * or the weight and the kind of food), and weigh “some kale”."; "" when nothing is. 'skip': of those that are not asked
 * about, NULL none; 'how': with what is in brackets here. */
const char *words_ask_first(const struct ration *r, const bool *skip, bool how, struct arena *a);
/* "Only 9 % of the energy needed (79 of about 898 kcal a day) is counted" */
const char *words_counted_part(const struct check_result *r, struct arena *a);

/* Why a bowl whose energy is far from the need is not scaled to it: "How much energy it adds is not known, ..." */
const char *words_not_scaled(size_t uncounted, struct arena *a);

/* Both, before a change of the bowl: "This does not count “kelp”. Before anything is added, ..."; "" when all is counted. */
const char *words_before_change(const struct library *lib, const struct check_result *r, bool size_fits, struct arena *a);
/* "Its label must first say how much iodine it holds: until then none is added ..."; "" when it may be no such dose. */
const char *words_withheld(const struct library *lib, const struct check_result *r, struct arena *a);

#endif
