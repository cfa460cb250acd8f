/* write.h: a model as text in the LP format that most solvers read, for people who want to see it or solve it elsewhere.
 *
 * Columns are x1, x2, ..., rows r1, r2, ...; their names stand beside them in comments. A row with two limits is written as
 * two (r3_lo, r3_hi). "Zero or at least" and counted columns get a binary u, whole units a whole variable k, with rows that
 * tie them to x. Numbers have sixteen significant digits, decimal point, no locale.
 *
 * Layer: lp. */
#ifndef BW_LP_WRITE_H
#define BW_LP_WRITE_H

#include "base/buf.h"
#include "lp/lp.h"

/* False, and nothing useful written, when the format cannot say it: a counted or "zero or at least" column without an upper
 * limit. 'mixed' false leaves 'least', 'unit' and 'most_used' aside, as lp_solve does. */
bool lp_write(const struct lp_model *m, bool mixed, struct buf *out);

#endif
