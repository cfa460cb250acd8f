/* What is asked, and whether it may be. */
#define _POSIX_C_SOURCE 200809L
#include "serve/request.h"

#include <arpa/inet.h>
#include <stdlib.h>

#include "store/store.h"

/* ---- where ---- */

static bool take(struct span *s, const char *prefix) {
  size_t n = strlen(prefix);
  if (s->n < n || memcmp(s->p, prefix, n) != 0) return false;
  *s = span_cut(*s, n, s->n);
  return true;
}

static struct route text_route(struct span rest) {
  const char *slash = memchr(rest.p, '/', rest.n);
  struct route r = {.place = PLACE_TEXT, .id = slash ? span_cut(rest, 0, (size_t)(slash - rest.p)) : rest};
  if (slash) r.place = span_is(span_cut(rest, r.id.n, rest.n), "/versions") ? PLACE_VERSIONS : PLACE_NOWHERE;
  if (!store_id_fits(r.id)) r.place = PLACE_NOWHERE;
  return r;
}

struct route route_of(struct span path) {
  static const struct {
    const char *path;
    enum place place;
  } FIXED[] = {{"texts", PLACE_TEXTS}, {"bundle", PLACE_BUNDLE}, {"changes", PLACE_CHANGES}, {"token", PLACE_TOKEN}};
  struct span rest = path;
  if (!take(&rest, "/")) return (struct route){.place = PLACE_NOWHERE};
  struct span file = rest;
  if (!take(&rest, "api/")) return (struct route){.place = span_is(rest, "api") ? PLACE_NOWHERE : PLACE_FILE, .path = file};
  for (size_t i = 0; i < COUNT_OF(FIXED); i++)
    if (span_is(rest, FIXED[i].path)) return (struct route){.place = FIXED[i].place};
  if (take(&rest, "texts/")) return text_route(rest);
  return (struct route){.place = PLACE_NOWHERE};
}

enum method method_of(const char *word) {
  static const char *const WORDS[] = {"GET", "HEAD", "PUT", "POST", "DELETE"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (strcmp(word, WORDS[i]) == 0) return (enum method)i;
  return METHOD_OTHER;
}

const char *methods_at(enum place p) {
  if (p == PLACE_TEXT) return "GET, HEAD, PUT, DELETE";
  return p == PLACE_BUNDLE ? "GET, HEAD, POST" : "GET, HEAD";
}

bool method_fits(enum place p, enum method m) {
  if (m == METHOD_GET || m == METHOD_HEAD) return true;
  return (p == PLACE_TEXT && (m == METHOD_PUT || m == METHOD_DELETE)) || (p == PLACE_BUNDLE && m == METHOD_POST);
}

/* ---- headers ---- */

bool read_rev(const char *text, int64_t *rev) {
  enum { DIGITS_MOST = 15 };
  size_t n = strlen(text);
  if (n < 3 || n > DIGITS_MOST + 2 || text[0] != '"' || text[n - 1] != '"') return false;
  if (text[1] == '0' && n != 3) return false;
  *rev = 0;
  for (size_t i = 1; i + 1 < n; i++) {
    if (text[i] < '0' || text[i] > '9') return false;
    *rev = *rev * 10 + (text[i] - '0');
  }
  return true;
}

/* Takes ":PORT" off the end; without one it is 80, as browsers write it. */
static bool split_port(struct span *host, uint16_t port) {
  size_t n = host->n;
  uint32_t x = 0, place = 1;
  while (n > 0 && host->n - n < 5 && host->p[n - 1] >= '0' && host->p[n - 1] <= '9') {
    x += place * (uint32_t)(host->p[n - 1] - '0');
    place *= 10;
    n--;
  }
  if (n == 0 || n == host->n || host->p[n - 1] != ':') return port == 80;
  if (host->p[n] == '0') return false; /* no browser writes it so */
  *host = span_cut(*host, 0, n - 1);
  return x == port;
}

static bool is_address(struct span host) {
  char text[64];
  struct in6_addr parsed;
  bool six = host.n > 2 && host.p[0] == '[' && host.p[host.n - 1] == ']';
  if (six) host = span_cut(host, 1, host.n - 1);
  if (host.n >= sizeof text || host.n == 0) return false;
  memcpy(text, host.p, host.n);
  text[host.n] = '\0';
  return inet_pton(six ? AF_INET6 : AF_INET, text, &parsed) == 1;
}

static bool host_fits(const struct guard *g, struct span host) {
  if (!split_port(&host, g->port)) return false;
  if (span_is_fold(host, "localhost") || span_is(host, "127.0.0.1") || span_is(host, "[::1]")) return true;
  /* A name can be pointed at any address by whoever owns the name; an address in figures cannot. */
  return g->beyond && is_address(host);
}

static bool origin_fits(struct span origin, const char *host) {
  return take(&origin, "http://") && span_is_fold(origin, host);
}

/* The comparison takes as long for a near guess as for a wild one. */
static bool token_fits(const char *given, const char *token) {
  unsigned char differs = 0;
  if (!given || strlen(given) != strlen(token)) return false;
  for (size_t i = 0; token[i]; i++) differs |= (unsigned char)(given[i] ^ token[i]);
  return differs == 0;
}

static bool site_fits(enum place place, const struct headers *h) {
  if (!h->fetch_site || strcmp(h->fetch_site, "same-origin") == 0) return true;
  if (place != PLACE_FILE) return false;
  return strcmp(h->fetch_site, "none") == 0 || (h->fetch_mode && strcmp(h->fetch_mode, "navigate") == 0);
}

enum refusal refuse(const struct guard *g, enum place place, enum method m, const struct headers *h) {
  if (!h->host || !host_fits(g, span_of(h->host))) return REFUSE_HOST;
  bool changes = m != METHOD_GET && m != METHOD_HEAD;
  if (h->origin && (place != PLACE_FILE || changes) && !origin_fits(span_of(h->origin), h->host)) return REFUSE_ORIGIN;
  if (!site_fits(place, h)) return REFUSE_ORIGIN;
  if (place == PLACE_FILE || place == PLACE_TOKEN) return REFUSE_NOT;
  return token_fits(h->token, g->token) ? REFUSE_NOT : REFUSE_TOKEN;
}
