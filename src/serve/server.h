/* server.h: the page and its store over HTTP, for the browser on this machine.
 *
 * One thread a connection; every request gets an arena of its own. Layer: serve, on libmicrohttpd. */
#ifndef BW_SERVE_SERVER_H
#define BW_SERVE_SERVER_H

#include "serve/site.h"
#include "store/store.h"

/* How long a client is waited for, in seconds; 0: as long as is usual (internal.h). */
struct serve_patience {
  int head;    /* all of a request's head, and between two requests */
  int body;    /* all of its body */
  int silence; /* between two pieces of either */
};
struct serve_setup {
  struct store *store;     /* stays the caller's */
  const struct site *site; /* holds an index.html */
  const char *listen;      /* an address in figures; NULL: 127.0.0.1 */
  uint16_t port;           /* 0: any that is free */
  void (*on_full)(void);   /* out of memory; must not return */
  struct serve_patience patience;
};
struct server;

bool serve_is_loopback(const char *address);
/* False for what is no address. */
bool serve_is_address(const char *address);

/* Threads of the server inherit the caller's signal mask: block first what the caller waits for. False, with a sentence in
 * 'why', when it cannot listen; *in_use then says whether the port is taken. */
bool serve_start(const struct serve_setup *setup, struct server **out, bool *in_use, struct buf *why) MUST_USE;
/* "http://127.0.0.1:8427/" */
const char *serve_address(const struct server *s);
/* Takes no more connections, ends open streams, lets answers under way finish (up to three seconds), and gives everything
 * back. */
void serve_stop(struct server *s);

#endif
