/* request.h: what is asked, and whether it may be: pure functions of the request's own words.
 *
 * Layer: serve. */
#ifndef BW_SERVE_REQUEST_H
#define BW_SERVE_REQUEST_H

#include "base/buf.h"

enum { TOKEN_CHARACTERS = 43 }; /* 256 random bits, six a character */

/* ---- where ---- */

enum place {
  PLACE_FILE, /* a file of the page, which may not exist */
  PLACE_TEXTS,
  PLACE_TEXT,
  PLACE_VERSIONS,
  PLACE_BUNDLE,
  PLACE_CHANGES,
  PLACE_TOKEN,
  PLACE_NOWHERE /* below /api/, but nothing there */
};
struct route {
  enum place place;
  struct span id;   /* PLACE_TEXT, PLACE_VERSIONS: fits store_id_fits() */
  struct span path; /* PLACE_FILE: without the first slash */
};
/* 'path' as it came, nothing decoded, without the query: a '%' fits no id and no file. */
struct route route_of(struct span path);

enum method { METHOD_GET, METHOD_HEAD, METHOD_PUT, METHOD_POST, METHOD_DELETE, METHOD_OTHER };
enum method method_of(const char *word);
/* The methods that a place answers to, for 'Allow'. */
const char *methods_at(enum place p);
bool method_fits(enum place p, enum method m);

/* ---- headers ---- */

/* "12" with its quotes, as in If-Match: 0 to 10^15. False for anything else. */
bool read_rev(const char *text, int64_t *rev) MUST_USE;

struct headers { /* NULL: not sent */
  const char *host, *origin, *fetch_site, *fetch_mode, *token;
};
struct guard {
  const char *token;
  uint16_t port;
  bool beyond; /* asked to listen beyond this machine: any address in figures is a fine Host */
};
enum refusal { REFUSE_NOT, REFUSE_HOST, REFUSE_ORIGIN, REFUSE_TOKEN };
/* Nobody but the page that this server gave out may ask:
 * - Host is this machine's loopback name or address with our port, else a foreign name was pointed at us (rebinding);
 * - Origin, when sent, is that same address, and what the browser says about the asking site is "same-origin"; a page may be
 * opened from anywhere, its files may not be used from elsewhere;
 * - the token, for everything below /api/ but the token itself. */
enum refusal refuse(const struct guard *g, enum place place, enum method m, const struct headers *h);

#endif
