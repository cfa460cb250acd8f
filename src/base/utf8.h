/* utf8.h: characters from bytes, after RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF.
 *
 * Layer: base. */
#ifndef BW_UTF8_H
#define BW_UTF8_H

#include "base/base.h"

/* Reads one character; returns its bytes (1 to 4), 0 when the bytes are no valid UTF-8 (or 's' is empty). */
size_t utf8_read(struct span s, uint32_t *code_point);
/* Characters of valid text: bytes that go on with one do not count. */
int utf8_count(struct span s);

#endif
