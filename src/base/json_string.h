/* json_string.h: a text as a string of JSON.
 *
 * Layer: base. */
#ifndef BW_JSON_STRING_H
#define BW_JSON_STRING_H

#include "base/buf.h"

/* With its quotes. A byte that is no UTF-8 becomes U+FFFD; no line end of any kind is left. */
void json_quoted(struct buf *out, struct span text);

#endif
