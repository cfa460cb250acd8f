/* rail.h: one nutrient as a line. The allowance is always at the same column; the scale is logarithmic, from a quarter of
 * the allowance to eight times it.
 *
 * A cell stands for the half-open interval of half a cell to either side of its middle; ends of the band are drawn to half
 * a cell. Layer: report, internal. */
#ifndef BW_REPORT_RAIL_H
#define BW_REPORT_RAIL_H

#include "picture/rail.h"
#include "report/pen.h"

static inline int rail_cells(int per_octave) { return RAIL_OCTAVES * per_octave + 1; }
static inline int rail_need_cell(int per_octave) { return RAIL_OCTAVES_BELOW * per_octave; }
/* Half cells from the left edge of the rail; far outside is cut to one before or one after the rail. NaN: -1. */
int rail_half(double ratio, int per_octave);

void rail_draw(struct row *r, int column, int per_octave, const struct rail *rail, enum ink ink);
/* The scale above the rails: a quarter, half, "need", 2, 4, 8 times. */
void rail_scale(struct row *r, int column, int per_octave);

#endif
