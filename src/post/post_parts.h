/* post_parts.h: the steps of the reading itself. Private to src/post. Layer: post */
#ifndef BW_POST_PARTS_H
#define BW_POST_PARTS_H

#include "post/hear/post_hear.h"

/* post_last_resort.c: where no line was read whole, the foods and amounts that are sure. */
void post_last_resort(struct post_reader *r);

/* post_told.c: one sentence, which ends a row of a table or stands in a list when 'bulleted'. */
void post_read_sentence(struct post_reader *r, struct span text, bool bulleted);

/* post_advised.c: what is advised, where nothing else says what is fed. */
void post_take_advised(struct post_reader *r);

#endif
