/* num.h: numbers read and written the same everywhere: decimal point, no locale, no thousands marks.
 *
 * Layer: base. */
#ifndef BW_NUM_H
#define BW_NUM_H

#include "base/buf.h"

/* Reads an unsigned decimal at the start of 's': digits [. digits]; no sign, no exponent, no "inf".
 * Returns the bytes used, 0 when there is no number there or it has more than 15 significant digits.
 * Exact to the last bit: at most 15 digits are scaled by a power of ten that a double holds exactly. */
size_t num_read(struct span s, double *out);
/* The same with an optional sign and e-notation, the whole span; false when it is anything else. For data files. */
bool num_parse(struct span s, double *out) MUST_USE;

/* Fixed point with 'decimals' digits after the point (0 to 12), round half away from zero: 2.50 with one -> "2.5".
 * Not finite is written as "?" so that it cannot pass for a number. */
void num_fixed(struct buf *b, double x, int decimals);
/* At most 'digits' significant digits (1 to 12), without trailing zeros and without an exponent: 0.0123, 1480. */
void num_sig(struct buf *b, double x, int digits);
/* A JSON number with up to 'digits' significant digits, or null when not finite. */
void num_json(struct buf *b, double x, int digits);

#endif
