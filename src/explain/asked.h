/* asked.h: what was asked beside the answer itself. Layer: explain. */
#ifndef BW_ASKED_H
#define BW_ASKED_H

#include "explain/ratio.h"
#include "explain/why.h"

struct post; /* post/post.h */

struct asked {
  const struct why *why; /* chains, in the order asked */
  size_t why_count;
  const struct ratio_view *ratio; /* NULL: not asked */
  const struct post *post;        /* what the recipe was read from; NULL: it was strict text */
};

#endif
