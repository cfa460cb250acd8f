/* rotate_words.h: an answer on rotations in sentences. Private to this folder. */
#ifndef BW_APP_ROTATE_WORDS_H
#define BW_APP_ROTATE_WORDS_H

#include "app/app_rotate.h"

/* Fills the sentences of an answer whose figures stand. */
void rotate_say(struct app_rotate_answer *a, struct arena *arena);

#endif
