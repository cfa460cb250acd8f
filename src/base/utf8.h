/* utf8.h: characters from bytes, after RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF.
 *
 * Layer: base. */
#ifndef BW_UTF8_H
#define BW_UTF8_H

#include "base/base.h"

/* Reads one character; returns its bytes (1 to 4), 0 when the bytes are no valid UTF-8 (or 's' is empty). */
size_t utf8_read(struct span s, uint32_t *code_point);
/* What a terminal or a reader of text obeys instead of showing it: the controls of C0 and C1 (U+009B begins a terminal's
 * commands as ESC [ does), the ends of lines and paragraphs U+2028 and U+2029, and the marks that turn or isolate the
 * direction of what follows, so that it reads otherwise than it is written. */
bool utf8_is_obeyed(uint32_t code_point);
/* Characters of valid text: bytes that go on with one do not count. */
int utf8_count(struct span s);

#endif
