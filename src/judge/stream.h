/* stream.h: fills one stream of totals.h from the library. Layer: judge. */
#ifndef BW_STREAM_H
#define BW_STREAM_H

#include "judge/totals.h"

/* 's' zeroed but for food and retention. */
void stream_fill(struct stream *s, const struct library *lib, double carotene_factor);

#endif
