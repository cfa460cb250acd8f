/* post_animal.h: what a sentence tells of the animal. Private to src/post. Layer: post/animal. */
#ifndef BW_POST_ANIMAL_H
#define BW_POST_ANIMAL_H

#include "post/hear/post_hear.h"

/* post_neutered.c: does it say that the animal is neutered, or that it is not? Takes it; and what is told as long done. */
bool post_says_neutered(struct post_reader *r, const struct tokens *t);
bool post_told_in_letters(struct post_reader *r, struct tokens *t);
void post_take_neutered(struct post_reader *r, struct tokens *t);
void post_take_long_done(struct post_reader *r, struct tokens *t);

/* post_state.c: takes what tells that it is young, pregnant, nursing or ill; and, when all is read, what it comes to. */
void post_hear_state(struct post_reader *r, struct tokens *t);
void post_settle_state(struct post_reader *r);

/* Whose it is that a phrase in [at, behind) tells of: a name, a species, "" and -1 where nothing says; false: of somebody
 * who is not asked about. And is that the one that is asked about, when all is read? */
bool post_told_of(struct post_reader *r, const struct tokens *t, size_t at, size_t behind, struct span *of, int *species);
bool post_is_ours(const struct post_reader *r, struct span of, int species);

/* post_weighs.c: takes the weights of a sentence; true where one is the animal's. 'animal': the sentence is of one;
 * 'not_told': the token of what is past, at its end none. And "21 kg." alone, where the text tells no other weight. */
bool post_take_weight(struct post_reader *r, struct tokens *t, bool animal, size_t not_told);
void post_take_lone_weight(struct post_reader *r);

/* post_aged.c: takes the age; and is it "twelve" of "she is twelve and a bit deaf"? */
void post_take_age(struct post_reader *r, struct tokens *t);
bool post_is_age_in_words(const struct tokens *t, size_t at);

/* post_animal.c: takes what a sentence tells of the animal; true when nothing else is left in it. */
bool post_animal(struct post_reader *r, struct tokens *t);

/* post_weighed.c: remembers whom a sentence weighs, for a pot that several eat of; takes several of one kind that are told by
 * what they are: "my 6 kg terrier and my 24 kg lab". */
bool post_weighs_several(struct post_reader *r, struct tokens *t);
void post_count_animals(struct post_reader *r, struct tokens *t); /* "my two whippets" */

/* post_never.c: what the owner says is never to be fed, when all is read; asks where it is fed all the same. */
void post_hear_never(struct post_reader *r);

#endif
