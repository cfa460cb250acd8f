/* kitchen_parts.h: the pieces of kitchen.c. Private to this folder. Layer: kitchen. */
#ifndef BW_KITCHEN_PARTS_H
#define BW_KITCHEN_PARTS_H

#include "kitchen/kitchen.h"

/* shop.c: fills buy, cost and currency from the lines. */
void kitchen_shop(const struct kitchen_request *q, const struct check_result *r, struct kitchen *k, struct arena *arena);

#endif
