/* site.h: the files of the page: those built into the program, or a folder read once at the start. Either way a request can
 * only name what stands in this list.
 *
 * Layer: serve. */
#ifndef BW_SERVE_SITE_H
#define BW_SERVE_SITE_H

#include "base/buf.h"

struct site_file {
  const char *path; /* "assets/index-1a2b.js" */
  const char *etag; /* with its quotes */
  const unsigned char *bytes;
  size_t n;
};
struct site {
  const struct site_file *item;
  size_t count;
};

/* The page in this program; count 0 when it was built without one. Made by tools/embed-site.cmake. */
extern const struct site site_built_in;

/* Reads a built page's folder. False, with a sentence in 'why', when it holds no index.html or cannot be read. */
bool site_read_folder(const char *folder, struct site *out, struct buf *why, struct arena *arena) MUST_USE;
/* NULL when there is no such file; "" is index.html. 'path' is as it stands in the request, without the first slash. */
const struct site_file *site_find(const struct site *s, struct span path);
/* Files whose name holds the hash of what they are. */
bool site_never_changes(const struct site_file *f);
/* The page with what it needs to know put into its head: that texts are kept here, and the token. False when it has no head.
 */
bool site_index(const struct site_file *index, const char *token, struct buf *out) MUST_USE;
const char *site_type_of(const char *path); /* for Content-Type */

#endif
