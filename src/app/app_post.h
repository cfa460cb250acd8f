/* app_post.h: a posted text in the place of a recipe.
 *
 * Layer: app. */
#ifndef BW_APP_POST_H
#define BW_APP_POST_H

#include "app/app.h"
#include "post/post.h"

/* When 'posted' is asked, reads the recipe's text as a post and puts the strict text in its place; q->post tells what was
 * assumed, left out and must be asked. Otherwise does nothing. The answer of a post in which no food was found is
 * post->sorry. */
void app_take_post(const struct library *lib, struct app_check_request *q, struct arena *arena);

/* An animal that was told beside the post, with what the post alone says of it: that it is young, pregnant, nursing or not
 * well. */
const struct animal *app_animal_of_post(const struct post *post, const struct animal *animal, struct arena *arena);

/* What is assumed of a line goes beside it. */
void app_assume(const struct post *post, struct ration *ration, struct arena *arena);

/* The questions by what their answers could change: a line is taken at its least, at its most, and as the other records that
 * its words fit; what changes no verdict comes after what does. The post with its questions in that order. */
const struct post *app_rank_questions(const struct library *lib, const struct post *post, const struct check_result *r,
                                      struct arena *arena);

#endif
