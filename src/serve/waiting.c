/* Who is waited for: connections whose request has not been read yet. libmicrohttpd only knows how long a connection has
 * been silent, so a client that sends a byte now and then would keep its place for ever, and a hundred of them would shut
 * everybody else out. Here a request's head and its body have a total time each, and when places run low the one that has
 * been waited for longest gives way: an honest client's head is there within milliseconds of its connection. */
#define _DEFAULT_SOURCE
#include <errno.h>
#include <stdlib.h>
#include <sys/socket.h>
#include <time.h>

#include "serve/internal.h"

int64_t steady_seconds(void) {
  struct timespec t = {0};
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec;
}

/* In the order in which they give way. */
enum phase { PHASE_HEAD, PHASE_BODY, PHASE_ANSWER };

struct waited {
  struct waited *next, *previous;
  int fd;
  enum phase phase;
  int64_t since; /* seconds of the steady clock */
  bool cut;
};

/* The socket is closed only after its end was told to connection_news(), which waits for the lock: 'fd' is still ours. */
static void cut(struct waiting *w, struct waited *c) {
  c->cut = true;
  w->cut++;
  shutdown(c->fd, SHUT_RDWR);
}

static int64_t seconds_allowed(const struct waiting *w, enum phase phase) { return phase == PHASE_HEAD ? w->head : w->body; }

static void cut_overdue(struct waiting *w, int64_t now) {
  for (struct waited *c = w->first; c; c = c->next)
    if (!c->cut && c->phase != PHASE_ANSWER && now - c->since > seconds_allowed(w, c->phase)) cut(w, c);
}

static bool gives_way_before(const struct waited *a, const struct waited *b) {
  return a->phase != b->phase ? a->phase < b->phase : a->since < b->since;
}

/* The newest stands first in the list, so that of several from the same second the oldest gives way. */
static void make_place(struct waiting *w) {
  struct waited *gives_way = NULL;
  for (struct waited *c = w->first; c; c = c->next)
    if (!c->cut && c->phase != PHASE_ANSWER && (!gives_way || !gives_way_before(gives_way, c))) gives_way = c;
  if (gives_way) cut(w, gives_way);
}

static struct timespec in_a_second(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  t.tv_sec++;
  return t;
}

/* Who is cut still has its place until its thread has heard of it, and the library turns away whoever comes when no place is
 * left. So the one that lets people in waits until some are gone: the next stand in the socket's queue meanwhile. */
static void let_them_go(struct waiting *w) {
  const struct timespec until = in_a_second();
  while (w->count >= CONNECTIONS_FULL && w->cut > 0 && pthread_cond_timedwait(&w->gone, &w->lock, &until) == 0) continue;
}

static void add(struct waiting *w, struct waited *c) {
  c->next = w->first;
  if (w->first) w->first->previous = c;
  w->first = c;
  w->count++;
}

static void take_out(struct waiting *w, struct waited *c) {
  if (c->next) c->next->previous = c->previous;
  *(c->previous ? &c->previous->next : &w->first) = c->next;
  w->count--;
  w->cut -= c->cut;
  pthread_cond_signal(&w->gone);
}

void connection_news(void *cls, struct MHD_Connection *connection, void **context,
                     enum MHD_ConnectionNotificationCode code) {
  struct waiting *w = &((struct server *)cls)->waiting;
  pthread_mutex_lock(&w->lock);
  if (code == MHD_CONNECTION_NOTIFY_STARTED) {
    struct waited *c = calloc(1, sizeof *c); /* without memory the connection is served all the same, without a limit */
    if (w->count >= CONNECTIONS_CROWDED) make_place(w);
    if (c) {
      c->fd = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD)->connect_fd;
      c->since = steady_seconds();
      add(w, c);
    }
    *context = c;
    let_them_go(w);
  } else if (*context) {
    take_out(w, *context);
    free(*context);
    *context = NULL;
  }
  pthread_mutex_unlock(&w->lock);
}

static void enter(struct request *r, enum phase phase) {
  struct waiting *w = &r->server->waiting;
  struct waited *c = MHD_get_connection_info(r->connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT)->socket_context;
  if (!c) return;
  pthread_mutex_lock(&w->lock);
  c->phase = phase;
  c->since = steady_seconds();
  pthread_mutex_unlock(&w->lock);
}

void waiting_for_body(struct request *r) { enter(r, PHASE_BODY); }
void waiting_over(struct request *r) { enter(r, PHASE_ANSWER); }
void waiting_for_head(struct request *r) { enter(r, PHASE_HEAD); }

static void *watch(void *cls) {
  struct waiting *w = cls;
  pthread_mutex_lock(&w->lock);
  while (!w->stop) {
    const struct timespec until = in_a_second();
    pthread_cond_timedwait(&w->wake, &w->lock, &until);
    cut_overdue(w, steady_seconds());
  }
  pthread_mutex_unlock(&w->lock);
  return NULL;
}

bool waiting_start(struct waiting *w, const struct serve_patience *p) {
  w->head = p->head;
  w->body = p->body;
  pthread_condattr_t steady;
  pthread_condattr_init(&steady);
  pthread_condattr_setclock(&steady, CLOCK_MONOTONIC);
  pthread_mutex_init(&w->lock, NULL);
  pthread_cond_init(&w->wake, &steady);
  pthread_cond_init(&w->gone, &steady);
  pthread_condattr_destroy(&steady);
  w->watching = pthread_create(&w->watch, NULL, watch, w) == 0;
  return w->watching;
}

void waiting_stop(struct waiting *w) {
  pthread_mutex_lock(&w->lock);
  w->stop = true;
  pthread_cond_signal(&w->wake);
  pthread_mutex_unlock(&w->lock);
  if (w->watching) pthread_join(w->watch, NULL);
  pthread_cond_destroy(&w->wake);
  pthread_cond_destroy(&w->gone);
  pthread_mutex_destroy(&w->lock);
}
