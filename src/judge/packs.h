/* packs.h: four nutrients at once, of arrays of NUT_ROOM numbers: what stands behind the last nutrient is 0 and stays it.
 * Layer: judge, internal. */
#ifndef BW_JUDGE_PACKS_H
#define BW_JUDGE_PACKS_H

#include "foods/nutrient.h"

typedef double pack __attribute__((vector_size(32), aligned(8), may_alias));
typedef int64_t mask __attribute__((vector_size(32), aligned(8), may_alias));
enum { PACK = 4, PACKS = NUT_ROOM / PACK };

#define AT(numbers, p) (((pack *)(void *)(numbers))[p])
#define AT_CONST(numbers, p) (((const pack *)(const void *)(numbers))[p])
#define PLACE(numbers, p) (((mask *)(void *)(numbers))[p])
/* Which of four bytes are 'value': each lane gets all four, and looks at its own. */
#define ARE(bytes, p, value) ((((mask){0} + packs_bytes(bytes, p)) & PACK_OWN_BYTE) == PACK_OWN_BYTE / 0xff * (value))
#define PACK_OWN_BYTE ((mask){0xff, 0xff00, 0xff0000, 0xff000000})
static inline int64_t packs_bytes(const void *bytes, int p) {
  const uint8_t *b = (const uint8_t *)bytes + PACK * p;
  return (int64_t)((uint32_t)b[0] | (uint32_t)b[1] << 8 | (uint32_t)b[2] << 16 | (uint32_t)b[3] << 24);
}
/* 'x' where the mask is set, else 0. */
#define ONLY(where, x) ((pack)((mask)(x) & (where)))

#endif
