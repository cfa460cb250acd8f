/* The server: its socket, its threads, one request from the first line to the answer. */
#define _DEFAULT_SOURCE
#include <arpa/inet.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/random.h>
#include <unistd.h>

#include "serve/internal.h"

enum { BACKLOG = 64, CONNECTION_BYTES = 64 * 1024, FIRST_BYTES = 16 * 1024 };

/* ---- one request ---- */

static size_t body_most(const struct request *r) {
  if (r->refusal != REFUSE_NOT) return 0;
  if (r->route.place == PLACE_TEXT && r->method == METHOD_PUT) return PUT_MOST;
  return r->route.place == PLACE_BUNDLE && r->method == METHOD_POST ? BUNDLE_MOST : 0;
}

static struct request *begin_request(struct server *s, struct MHD_Connection *c, const char *url, const char *method) {
  struct request *r = calloc(1, sizeof *r);
  if (!r) return NULL;
  r->server = s;
  r->connection = c;
  arena_init(&r->arena, s->setup.on_full);
  r->route = route_of(arena_span(&r->arena, span_of(url)));
  r->method = method_of(method);
  const struct headers h = {header_of(r, "Host"), header_of(r, "Origin"), header_of(r, "Sec-Fetch-Site"),
                            header_of(r, "Sec-Fetch-Mode"), header_of(r, "X-Bowlwright-Token")};
  r->refusal = refuse(&s->guard, r->route.place, r->method, &h);
  r->most = body_most(r);
  r->began = steady_seconds();
  return r;
}

static bool make_room(struct request *r, size_t n) {
  size_t cap = r->cap > 0 ? r->cap : FIRST_BYTES;
  while (cap < n) cap *= 2;
  if (cap == r->cap) return true;
  char *body = realloc(r->body, cap);
  if (!body) return false;
  r->body = body;
  r->cap = cap;
  return true;
}

/* What is not wanted is read and thrown away, so that the browser gets to hear why; up to a point. */
static enum MHD_Result take_upload(struct request *r, const char *bytes, size_t n) {
  r->seen += n;
  if (r->seen > DRAIN_MOST || steady_seconds() - r->began > r->server->setup.patience.body) return MHD_NO;
  if (r->most == 0 || r->too_long || r->out_of_room) return MHD_YES;
  if (r->n + n > r->most) {
    r->too_long = true;
  } else if (!make_room(r, r->n + n)) {
    r->out_of_room = true;
  } else {
    memcpy(r->body + r->n, bytes, n);
    r->n += n;
  }
  return MHD_YES;
}

static struct answer refused(struct request *r) {
  switch (r->refusal) {
  case REFUSE_HOST:
    return answer_error(r, 403, "host", "this address is not one of this server's own");
  case REFUSE_ORIGIN:
    return answer_error(r, 403, "origin", "only the page that this server gives out may ask");
  default:
    return answer_error(r, 403, "token", "the server was started again since this page was opened");
  }
}

static struct answer answer_of(struct request *r) {
  if (r->refusal != REFUSE_NOT) return refused(r);
  if (r->route.place == PLACE_NOWHERE) return answer_error(r, 404, "nothing", "there is nothing at this address");
  if (!method_fits(r->route.place, r->method)) {
    struct answer a = answer_error(r, 405, "method", "this address does not answer to that method");
    add_header(&a, MHD_HTTP_HEADER_ALLOW, methods_at(r->route.place));
    return a;
  }
  if (r->out_of_room) return answer_error(r, 503, "memory", "there is no memory for a text of that length");
  if (r->too_long) return answer_error(r, 413, "too-long", "a text may have up to 4 MiB, a file that is read up to 64 MiB");
  return r->route.place == PLACE_FILE ? answer_file(r) : api_answer(r);
}

/* False when the server stops: what has not been acted on is not begun. */
static bool begin_answer(struct request *r) {
  struct server *s = r->server;
  pthread_mutex_lock(&s->lock);
  r->answering = !s->stopping;
  s->answering += r->answering;
  pthread_mutex_unlock(&s->lock);
  return r->answering;
}

static void end_answer(struct request *r) {
  struct server *s = r->server;
  if (!r->answering) return;
  pthread_mutex_lock(&s->lock);
  s->answering--;
  if (s->stopping) pthread_cond_broadcast(&s->news);
  pthread_mutex_unlock(&s->lock);
}

static enum MHD_Result handle(void *cls, struct MHD_Connection *c, const char *url, const char *method, const char *version,
                              const char *bytes, size_t *n, void **request) {
  struct request *r = *request;
  (void)version;
  if (!r) {
    *request = r = begin_request(cls, c, url, method);
    if (r) waiting_for_body(r);
    return r ? MHD_YES : MHD_NO;
  }
  if (*n > 0) {
    enum MHD_Result taken = take_upload(r, bytes, *n);
    *n = 0;
    return taken;
  }
  waiting_over(r);
  return begin_answer(r) ? send_answer(r, answer_of(r)) : MHD_NO;
}

static void end_request(void *cls, struct MHD_Connection *c, void **request, enum MHD_RequestTerminationCode how) {
  struct request *r = *request;
  (void)cls, (void)c, (void)how;
  if (!r) return;
  end_answer(r);
  waiting_for_head(r);
  arena_free(&r->arena);
  free(r->body);
  free(r);
  *request = NULL;
}

/* Nothing is decoded: ids, file names and tokens hold no character that would need it. */
static size_t leave_as_is(void *cls, struct MHD_Connection *c, char *text) {
  (void)cls, (void)c;
  return strlen(text);
}

/* ---- the socket ---- */

struct place_to_listen {
  union {
    struct sockaddr any;
    struct sockaddr_in four;
    struct sockaddr_in6 six;
  } at;
  socklen_t n;
};

static bool read_address(const char *text, uint16_t port, struct place_to_listen *out) {
  memset(out, 0, sizeof *out);
  if (inet_pton(AF_INET, text, &out->at.four.sin_addr) == 1) {
    out->at.four.sin_family = AF_INET;
    out->at.four.sin_port = htons(port);
    out->n = sizeof out->at.four;
    return true;
  }
  if (inet_pton(AF_INET6, text, &out->at.six.sin6_addr) != 1) return false;
  out->at.six.sin6_family = AF_INET6;
  out->at.six.sin6_port = htons(port);
  out->n = sizeof out->at.six;
  return true;
}

bool serve_is_address(const char *address) {
  struct place_to_listen p;
  return read_address(address, 0, &p);
}

bool serve_is_loopback(const char *address) {
  struct place_to_listen p;
  if (!read_address(address, 0, &p)) return false;
  if (p.at.any.sa_family == AF_INET) return ntohl(p.at.four.sin_addr.s_addr) >> 24 == 127;
  return IN6_IS_ADDR_LOOPBACK(&p.at.six.sin6_addr);
}

/* The socket, or -1 with errno. */
static int listen_at(struct place_to_listen *p) {
  const int yes = 1;
  int fd = socket(p->at.any.sa_family, SOCK_STREAM | SOCK_CLOEXEC, 0);
  if (fd < 0) return -1;
  if (setsockopt(fd, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes) != 0 ||
      (p->at.any.sa_family == AF_INET6 && setsockopt(fd, IPPROTO_IPV6, IPV6_V6ONLY, &yes, sizeof yes) != 0) ||
      bind(fd, &p->at.any, p->n) != 0 || listen(fd, BACKLOG) != 0 || getsockname(fd, &p->at.any, &p->n) != 0) {
    int error = errno;
    close(fd);
    errno = error;
    return -1;
  }
  return fd;
}

/* ---- start and stop ---- */

static bool make_token(char out[TOKEN_CHARACTERS + 1]) {
  static const char LETTERS[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  unsigned char random[TOKEN_CHARACTERS];
  if (getrandom(random, sizeof random, 0) != (ssize_t)sizeof random) return false;
  for (size_t i = 0; i < TOKEN_CHARACTERS; i++) out[i] = LETTERS[random[i] & 63];
  out[TOKEN_CHARACTERS] = '\0';
  return true;
}

static void set_address(struct server *s, const struct place_to_listen *p) {
  bool six = p->at.any.sa_family == AF_INET6;
  s->guard.port = ntohs(six ? p->at.six.sin6_port : p->at.four.sin_port);
  const char *listen = s->setup.listen;
  if (strcmp(listen, "0.0.0.0") == 0) listen = "127.0.0.1";
  if (strcmp(listen, "::") == 0) listen = "::1";
  snprintf(s->address, sizeof s->address, six ? "http://[%s]:%u/" : "http://%s:%u/", listen, (unsigned)s->guard.port);
}

static bool start_daemon(struct server *s, int fd) {
  unsigned from_one = s->guard.beyond ? (unsigned)CONNECTIONS_FROM_ONE : 0;
  s->daemon = MHD_start_daemon(MHD_USE_THREAD_PER_CONNECTION | MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_POLL | MHD_USE_ITC,
                               0, NULL, NULL, handle, s, MHD_OPTION_LISTEN_SOCKET, fd, MHD_OPTION_NOTIFY_COMPLETED,
                               end_request, NULL, MHD_OPTION_UNESCAPE_CALLBACK, leave_as_is, NULL,
                               MHD_OPTION_CONNECTION_LIMIT, (unsigned)CONNECTIONS_MOST, MHD_OPTION_CONNECTION_TIMEOUT,
                               (unsigned)s->setup.patience.silence, MHD_OPTION_CONNECTION_MEMORY_LIMIT,
                               (size_t)CONNECTION_BYTES, MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_NOTIFY_CONNECTION,
                               connection_news, s, MHD_OPTION_PER_IP_CONNECTION_LIMIT, from_one, MHD_OPTION_END);
  return s->daemon != NULL;
}

static void give_back(struct server *s) {
  waiting_stop(&s->waiting);
  pthread_cond_destroy(&s->news);
  pthread_mutex_destroy(&s->lock);
  free(s);
}

static void set_patience(struct serve_patience *p) {
  if (p->head == 0) p->head = HEAD_SECONDS;
  if (p->body == 0) p->body = UPLOAD_SECONDS;
  if (p->silence == 0) p->silence = IDLE_SECONDS;
}

static void make_news(struct server *s) {
  pthread_condattr_t steady;
  pthread_condattr_init(&steady);
  pthread_condattr_setclock(&steady, CLOCK_MONOTONIC);
  pthread_cond_init(&s->news, &steady);
  pthread_condattr_destroy(&steady);
}

bool serve_start(const struct serve_setup *setup, struct server **out, bool *in_use, struct buf *why) {
  struct place_to_listen p;
  *out = NULL;
  *in_use = false;
  struct server *s = calloc(1, sizeof *s);
  if (!s) setup->on_full();
  s->setup = *setup;
  if (!s->setup.listen) s->setup.listen = "127.0.0.1";
  set_patience(&s->setup.patience);
  pthread_mutex_init(&s->lock, NULL);
  make_news(s);
  bool watched = waiting_start(&s->waiting, &s->setup.patience);
  int fd = read_address(s->setup.listen, setup->port, &p) ? listen_at(&p) : -1;
  if (fd < 0) {
    *in_use = errno == EADDRINUSE;
    buf_adds(why, strerror(errno));
    give_back(s);
    return false;
  }
  set_address(s, &p);
  s->guard.beyond = strcmp(s->setup.listen, "127.0.0.1") != 0 && strcmp(s->setup.listen, "::1") != 0;
  bool started = watched && make_token(s->token);
  s->guard.token = s->token;
  if (!started || !start_daemon(s, fd)) {
    buf_adds(why, "the server cannot be started");
    close(fd);
    give_back(s);
    return false;
  }
  *out = s;
  return true;
}

const char *serve_address(const struct server *s) { return s->address; }

/* MHD_stop_daemon cuts connections, also between a save and its answer: whoever saved would not hear that it is kept. */
static void let_answers_finish(struct server *s) {
  struct timespec until;
  clock_gettime(CLOCK_MONOTONIC, &until);
  until.tv_sec += STOP_SECONDS;
  pthread_mutex_lock(&s->lock);
  s->stopping = true;
  pthread_cond_broadcast(&s->news);
  while (s->answering > 0 && pthread_cond_timedwait(&s->news, &s->lock, &until) == 0) continue;
  pthread_mutex_unlock(&s->lock);
}

void serve_stop(struct server *s) {
  if (!s) return;
  int fd = MHD_quiesce_daemon(s->daemon);
  let_answers_finish(s);
  MHD_stop_daemon(s->daemon);
  if (fd != MHD_INVALID_SOCKET) close(fd);
  give_back(s);
}
