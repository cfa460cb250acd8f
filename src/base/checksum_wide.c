#include "base/checksum_wide.h"

#ifdef MACHINE_HAS_WIDTHS
#pragma GCC target("avx2")
#define XXH_INLINE_ALL
#define XXH_VECTOR XXH_AVX2
#include <xxhash.h>

uint64_t checksum64_wide(const void *data, size_t n) { return XXH3_64bits(data, n); }
#endif
