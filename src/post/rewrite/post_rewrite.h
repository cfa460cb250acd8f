/* post_rewrite.h: what a sentence says of several foods at once, written out food by food. Private to src/post. Layer:
 * post/rewrite. */
#ifndef BW_POST_REWRITE_H
#define BW_POST_REWRITE_H

#include "post/hear/post_hear.h"

/* post_those_days.c: "on those two days" as the days that were named last. */
struct span post_those_days(struct post_reader *r, struct span text);

/* post_bracket.c: "oil (salmon)" as "salmon oil". */
bool post_kind_in_bracket(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* post_turns.c: foods that take turns, written out food by food. */
bool post_turns_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* post_except.c: "daily except Fridays when he gets 200 g cod", day by day. */
bool post_except_days(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* post_ratio.c: shares told in one go, food by food; and how much is fed in all, beside shares. */
bool post_ratio_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
void post_find_whole(struct post_reader *r);
size_t post_food_end(struct post_reader *r, const struct tokens *t, size_t from); /* of a food named at 'from'; 'from' */

/* post_swapped.c: one food for as much of another on some days; and, once it is read, that nobody said how much. */
bool post_swapped_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
void post_doubt_swapped(struct post_reader *r, size_t items);
bool post_either_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
bool post_choice_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
struct span post_rate_written_out(struct post_reader *r, struct span text); /* "40 g per kilo" as a share of its weight */

/* post_slip.c: "1 tin, I mean 2 tins of" as what was meant. */
struct span post_without_slips(struct post_reader *r, struct span text, struct arena *arena);

/* post_mended.c: what a line takes back further on, with its amount or food written over in 'out', a copy of the line; n 0:
 * nothing. */
struct span post_mended(struct post_reader *r, struct span line, char *out);

/* post_part_of_pill.c: "taurine 1/4 of a 1000mg capsule" as "taurine 250 mg". */
bool post_part_of_pill(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* post_tin.c: "half a can of pumpkin (425 g)" as "212.5 g canned pumpkin". */
bool post_part_of_tin(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* post_vitamin.c: "vit D3 drops 5000iu" as "5000 IU vitamin D3". */
bool post_vitamin_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* post_nested.c: an amount of a kind of food and what that is made of, written out food by food. */
bool post_nested_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* The text with 'instead' between 'from' and 'to'. post_changes.c, post_choice.c: what changed, with the amount of today;
 * and one of several foods, each with its part of the days. */
struct span post_cut_out(struct post_reader *r, struct span text, const char *from, const char *to, const char *instead);
bool post_change_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* post_terse.c: "50 g mash", "1 x 4 g scoop"; post_packs.c: "1 15-oz can"; post_rate_behind.c: "6 tsp, so one a day";
 * post_taken_out.c: "5 lb with bone, ends up 3 lb meat"; post_stays_out.c: "I skip the tripe and give 150 g cod". */
bool post_tersely_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
bool post_packs_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
bool post_rate_behind(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
bool post_taken_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);
bool post_left_out_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* post_said_so.c: what is said around a food and its amount, in fewer words. */
bool post_said_so_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* post_plainly.c: what is said of one food in a roundabout way, plainly. */
bool post_plainly_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out);

/* post_rewrite.c: the sentence with what it says of several foods at once written out food by food. */
struct span post_written_out(struct post_reader *r, struct span text);

#endif
