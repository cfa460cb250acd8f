#include "base/checksum_wide.h"

#include "base/base.h"

#define XXH_INLINE_ALL
#include <xxhash.h>

/* Under this the registers of every machine are as quick. */
enum { WIDE_FROM = 512 };

uint64_t checksum64(const void *data, size_t n) {
#ifdef MACHINE_HAS_WIDTHS
  MACHINE_KEPT(kept);
  if (n >= WIDE_FROM && machine_width_kept(&kept) != MACHINE_PLAIN) return checksum64_wide(data, n);
#endif
  return XXH3_64bits(data, n);
}
