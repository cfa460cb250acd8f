/* reactor.c: the calls that a WebAssembly host makes. Texts in, JSON out; the library image is handed over once.
 *
 * Layer: above app. The host writes into memory that bw_alloc gave; answers stay valid until the next call. */
#include "base/arena.h"
#include "core/image.h"

#include <stdlib.h>

#define EXPORT(name) __attribute__((export_name(name)))

EXPORT("bw_version") const char *bw_version(void) { return BW_VERSION; }

/* 16-byte aligned memory for the library image or a text; give it back with bw_free. */
EXPORT("bw_alloc") void *bw_alloc(size_t n) { return aligned_alloc(16, (n + 15) / 16 * 16); }
EXPORT("bw_free") void bw_free(void *p) { free(p); }

/* 0 when the image can be used, otherwise an enum image_fault. */
EXPORT("bw_image_fault") int bw_image_fault(const void *bytes, size_t n) {
  struct image img;
  return (int)image_open(&img, bytes, n);
}
