/* Memory is taken once, with its pages in place: that the kernel brings in a page where one is missing costs many times what
 * a page costs of a piece that is asked for as a whole. */
#define _DEFAULT_SOURCE
#include <features.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif
#include <stdint.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <unistd.h>

#include "cli/system.h"

enum { KIB = 1024, MIB = 1024 * KIB };

/* A kernel that does not know of it brings the pages in one by one, as ever. */
#if defined(__GLIBC__) && defined(MADV_POPULATE_WRITE)
static void put_pages_in_place(void *from, size_t n) {
  long page = sysconf(_SC_PAGESIZE);
  size_t into = page > 0 ? (size_t)((uintptr_t)from % (uintptr_t)page) : 0;
  if (page > 0) (void)madvise((char *)from - into, into + n, MADV_POPULATE_WRITE);
}
#endif

/* What is asked for again would be cleared again, page by page: nothing is given back. Hardly an answer takes less than the
 * first piece. */
void keep_memory(void) {
#ifdef __GLIBC__
  mallopt(M_TRIM_THRESHOLD, 64 * MIB);
  mallopt(M_MMAP_THRESHOLD, 32 * MIB);
  mallopt(M_TOP_PAD, MIB);
#ifdef MADV_POPULATE_WRITE
  enum { FIRST_PIECE = 640 * KIB };
  void *first = malloc(FIRST_PIECE);
  if (first) put_pages_in_place(first, FIRST_PIECE);
  free(first);
#endif
#endif
}
