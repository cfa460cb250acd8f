/* post_whole.h: what holds for the whole: batches, tubs, pots for several animals, shares; and the strict text. Private to
 * src/post. Layer: post/whole. */
#ifndef BW_POST_WHOLE_H
#define BW_POST_WHOLE_H

#include "post/hear/post_hear.h"

/* post_write.c: the strict text, from what was gathered. */
void post_write(struct post_reader *r, struct post *out);

/* post_starch.c: rice, oats and lentils of which nobody says whether they were weighed dry, beside cooked food. */
void post_starch_as_cooked(struct post_reader *r);

/* post_fed.c: how much is fed a day, and how much there is in all. */
void post_hear_fed(struct post_reader *r, struct tokens *t);

/* post_meals_of_mix.c: "3 meals of 250 g each of the following mix": how much of it is fed a day, and takes it. */
bool post_meals_of_mix(struct post_reader *r, struct tokens *t);

/* post_yield.c: "makes about 10 cups", "he gets 2 cups a day": takes it, and how long that lasts. */
bool post_hear_yield(struct post_reader *r, struct tokens *t);

/* post_tubs.c: what a sentence tells of tubs: what each holds, and how many are eaten in a day; and, when all is read, how
 * much that is. Behind "Each tub holds": the tokens to its end; 0. */
void post_hear_tubs(struct post_reader *r, struct tokens *t);
void post_weigh_tubs(struct post_reader *r);
size_t post_in_each_tub(struct post_reader *r, const struct tokens *t);

/* ---- post_batch.c ---- */

/* "A 250 g pot of cottage cheese lasts him two weeks": how often, and takes it; "". */
const char *post_lasts_alone(struct post_reader *r, struct tokens *t);

/* post_batch.c: takes what a sentence tells of the batch and the whole; true when nothing else is left in it. */
bool post_batch(struct post_reader *r, struct tokens *t);

/* post_plausible.c: the days that the post names, where they alone make sense of far too much food; true when they were
 * taken. */
bool post_days_by_energy(struct post_reader *r, const struct recipe *recipe, const struct ration *ration);

/* Far more or far less than the animal needs, and shares of nobody knows what: said beside the lines, and asked. */
void post_doubt_energy(struct post_reader *r, const struct recipe *recipe, const struct ration *ration);

/* Shares of what the animal needs: is there anything left of it beside the lines that have amounts? */
bool post_shares_have_room(struct post_reader *r, const struct recipe *recipe, const struct ration *ration);

/* post_absurd.c: what no such animal eats in a day, in a bowl that is an ordinary one without it, is left out and asked;
 * true when something was. */
bool post_leave_absurd(struct post_reader *r, const struct post *out, const struct recipe *recipe,
                       const struct ration *ration);

/* post_plausible.c: kcal a day by the records' own energy; what has none counts nothing. 'shares': told as shares, too. And
 * what the animal needs. */
double post_kcal_a_day(const struct library *lib, const struct recipe *recipe, const struct ration *ration, bool shares);
double post_kcal_needed(struct post_reader *r);

/* post_settle.c: of a pot for several, how long all of it lasts; before the part of one is taken. And what needs the whole
 * post. */
void post_days_of_pot(struct post_reader *r);
void post_settle(struct post_reader *r, struct post *out);

/* post_most_days.c: of the foods from 'items' on that the sentence feeds on most days. */
void post_doubt_most_days(struct post_reader *r, struct span text, size_t items);

/* post_dates.c: the text without the dates of its entries, "Day 1:" for them where they are days one after the other. Where
 * it speaks of weekends, "during the week" as weekdays. The older of two lines gets the amount of the other, which goes. A
 * food of an earlier entry has the amount of the last one that tells it. */
struct span post_dated(struct post_reader *r, struct span text, struct arena *arena);
struct span post_weekdays(struct span text, struct arena *arena);

/* The older of two lines gets the amount of the other, which goes. A food of an earlier entry has the amount of the last one
 * that tells it. */
bool post_restate(struct post_reader *r, size_t old, size_t now);
void post_settle_entries(struct post_reader *r);

/* post_who.c: of whose food one gets a part, as a sentence tells. And when all is read, the foods of others than the one
 * that is asked about are left out. */
void post_hear_same(struct post_reader *r, struct tokens *t);
void post_leave_others(struct post_reader *r);

/* post_of_all.c: "she eats that twice daily", "sorry, per meal and not per day": how often all lines before are fed; true
 * when the sentence says so. And what of headings governed no line, once all is read. */
bool post_said_of_all(struct post_reader *r, const struct tokens *t, struct span text);
void post_doubt_headings(struct post_reader *r);

/* "2x daily each of those", "all of that every day": says it of the foods of this line that were told before. */
bool post_told_of_those(struct post_reader *r, const struct tokens *t);

/* post_shared.c: how several share what is fed, and what one of them has alone, which is taken; words of one pot for
 * several. */
void post_hear_shared(struct post_reader *r, struct tokens *t);
bool post_tells_of_pot(const struct tokens *t);

/* post_need.c: of several that were weighed, the one that is asked about, when all is read. And its part of their pot by
 * what each of them needs, false where that cannot be told; what is said of it, which asks. */
struct part_by_need {
  double part, low, high;
};
void post_settle_weighed(struct post_reader *r);
bool post_part_by_need(const struct post_reader *r, struct part_by_need *out);
const char *post_say_by_need(struct post_reader *r, const struct part_by_need *p);

/* post_pot.c: what a sentence tells of parts of a pot for several animals; and the part of the one that is asked about, when
 * all is read. */
void post_hear_of_pot(struct post_reader *r, struct tokens *t);
void post_share_pot(struct post_reader *r);

/* post_cooked.c: does the owner say that the food is cooked, and of none of it that it is raw? */
bool post_says_cooked(struct span text);

/* post_pot.c: the part of one was taken by the days of the batch, and it lasts none any more: it is taken of the lines. */
void post_part_into_lines(struct post_reader *r);

#endif
