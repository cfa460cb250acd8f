/* app_reply.h: what there is to answer to an owner: the check of the recipe and the change that would mend it.
 *
 * Layer: app. */
#ifndef BW_APP_REPLY_H
#define BW_APP_REPLY_H

#include "app/app_mend.h"
#include "post/post.h"

struct app_reply_answer {
  struct app_check_answer check;   /* result NULL: not understood */
  struct app_mend_answer mend;     /* empty where nothing is wanting, or nothing may be proposed */
  const struct mended *mended;     /* NULL: none needed, or none found */
  const struct mended *foods_only; /* another way, with foods alone, where that is good; NULL */
  const char *unlike; /* of a change that is another dinner, and is not recommended: what too little is left of; NULL */
  enum reply_why_none why_none; /* where nothing is mended */
  /* Of a posted text: what only the owner can tell, most telling first, and what was fed but not understood. */
  const struct post_question *const *question;
  size_t questions;
};

/* 'q' as for app_mend. The change is the one that 'app_mend' puts first, unless that is another dinner. */
void app_reply(const struct library *lib, const struct app_mend_request *q, struct app_reply_answer *out,
               struct arena *arena);

#endif
