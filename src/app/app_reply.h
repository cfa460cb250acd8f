/* app_reply.h: what there is to answer to an owner: the check of the recipe and the change that would mend it.
 *
 * Layer: app. */
#ifndef BW_APP_REPLY_H
#define BW_APP_REPLY_H

#include "app/app_mend.h"
#include "post/post.h"

struct app_reply_answer {
  struct app_check_answer check; /* result NULL: not understood */
  struct app_mend_answer mend;   /* empty unless 'looked_for_change' */
  bool looked_for_change;        /* something is not met, and this is an animal that a formula is given for */
  const struct mended *mended;   /* NULL: none needed, or none found */
  bool too_much_changed;         /* one was found that leaves too little of the dinner to be recommended */
  /* Of a posted text: what only the owner can tell, most telling first, and what was fed but not understood. */
  const struct post_question *const *question;
  size_t questions;
  const char *const *left_out;
  size_t left_outs;
};

/* 'q' as for app_mend. A letter is waited for: the first good change is taken, not the last word on fewest lines. */
void app_reply(const struct library *lib, const struct app_mend_request *q, struct app_reply_answer *out,
               struct arena *arena);

#endif
