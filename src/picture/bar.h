/* bar.h: a bar of pieces as shapes. Layer: picture, internal. */
#ifndef BW_PICTURE_BAR_H
#define BW_PICTURE_BAR_H

#include "picture/drawing.h"
#include "picture/pieces.h"

/* About as wide as the letters are; whoever draws may know better. */
double text_width(const char *text, double size);
void draw_pieces(struct drawing *d, const struct pieces *p, double x, double y, double width, double height);
/* What each piece is, set in lines; how high that became. */
double draw_key(struct drawing *d, const struct pieces *p, double x, double y, double width, double size);

#endif
