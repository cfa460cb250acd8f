/* post_built.h: posts that are built otherwise than line by line, written out before their lines are read: forms, tables
 * under a row of names, interviews, dictation, letters. Private to src/post. Layer: post/built. */
#ifndef BW_POST_BUILT_H
#define BW_POST_BUILT_H

#include "post/hear/post_hear.h"

/* post_pairs.c, post_grid.c, post_interview.c */
struct span post_pairs(struct post_reader *r, struct span text, struct arena *arena);
struct span post_columns(struct post_reader *r, struct span text, struct arena *arena);

/* post_column.c: a column told by whose it is or of when; the unit that the text tells of all its numbers, "" none. */
enum column_of { COLUMN_OF_ANYTHING, COLUMN_OF_NOW, COLUMN_NOT_FED };
enum column_of post_column_of(struct post_reader *r, struct span text, struct span name);
const char *post_unit_of_numbers(struct post_reader *r, struct span text);
struct span post_interview(struct post_reader *r, struct span text, struct arena *arena);

/* post_alias.c: "veg = carrots only"; post_percents.c: a list of shares without signs. */
struct span post_aliases(struct post_reader *r, struct span text, struct arena *arena);
struct span post_percents(struct post_reader *r, struct span text, struct arena *arena);

/* post_shares_weighed.c: shares with their grams beside them. */
struct span post_shares_weighed(struct post_reader *r, struct span text, struct arena *arena);

/* post_mixes.c: the parts of a mixture that are told elsewhere, behind its amount. */
struct span post_mixes(struct post_reader *r, struct span text, struct arena *arena);

/* post_each_line.c: one line, with what stands before it; the line itself where nothing is to be written otherwise. */
typedef struct span rewrite_line(struct post_reader *r, struct span before, struct span line);
struct span post_each_line(struct post_reader *r, struct span text, struct arena *arena, rewrite_line *rewrite);
rewrite_line post_unweighed, post_form, post_numbers, post_dictated, post_correct_in_breath, post_refers, post_letters,
    post_parts_of_batch, post_dry, post_loose, post_later, post_plain, post_old_new, post_short_words;

/* A food and its amount as they stand in the text, in its order. */
struct told_food {
  struct post_amount amount;
  struct span said, food; /* "150 g", "beef mince" */
  bool past;              /* the sentence tells what was */
};
enum { TOLD_MOST = 48, LINE_MOST_TOKENS = 600 }; /* a longer line was written by nobody */
size_t post_told_foods(struct post_reader *r, struct span text, struct told_food *out, size_t most);

/* Those of all that stands before 'at' in the line, with what stands before the line; at most TOLD_MOST. */
size_t post_told_before(struct post_reader *r, struct span before, struct span line, const char *at, struct told_food *out);

/* The last of them that has the food's last word; NULL. */
const struct told_food *post_told_food_of(const struct told_food *f, size_t n, struct span word);

/* Said beside the line of this post's line that has the word, once all is read, and asked where 'ask' is not NULL. */
void post_will_say(struct post_reader *r, struct span word, const char *note, const char *ask);
void post_will_note(struct post_reader *r, struct span word, const char *note); /* and nothing to doubt */

/* All of it, over the whole text; the number of lines stays. And what was assumed by it, beside the lines that came of it.
 */
struct span post_builds(struct post_reader *r, struct span text, struct arena *arena);
void post_say_builds(struct post_reader *r);

#endif
