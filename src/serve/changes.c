/* The stream of changes: server-sent events, woken by saves of this program and looking each second for those of others. */
#define _POSIX_C_SOURCE 200809L
#include <stdlib.h>
#include <time.h>

#include "serve/internal.h"

enum { BLOCK = 32 * 1024, CHANGES_AT_ONCE = 100, BEAT_SECONDS = 15 };

struct stream {
  struct server *server;
  struct arena arena;
  int64_t number; /* of the last change that was told */
  int64_t beat;   /* when something was sent last */
  struct buf out; /* what waits to be sent */
  size_t sent;
};

void tell_news(struct server *s) {
  pthread_mutex_lock(&s->lock);
  s->saves++;
  pthread_cond_broadcast(&s->news);
  pthread_mutex_unlock(&s->lock);
}

static void clear(struct stream *st) {
  arena_free(&st->arena);
  buf_init(&st->out, &st->arena, BLOCK);
  st->sent = 0;
}

/* False when the store cannot be read: the stream ends and the page asks again. */
static bool look(struct stream *st) {
  struct store_change *c;
  size_t count = 0;
  clear(st);
  enum store_outcome outcome = store_changes(st->server->setup.store, st->number, CHANGES_AT_ONCE, &c, &count, &st->arena);
  for (size_t i = 0; i < count; i++) {
    st->number = c[i].number; /* also of what is not told, else as many of those as come at once would be all that is seen */
    if (!store_id_fits(c[i].id)) continue;
    buf_addf(&st->out, "id: %ld\ndata: {\"id\":\"%.*s\",\"rev\":%ld}\n\n", (long)c[i].number, SPAN_ARG(c[i].id),
             (long)c[i].rev);
  }
  return outcome == STORE_DONE || outcome == STORE_BUSY;
}

/* True when it is time to stop. Returns at once when something was saved since 'seen'. */
static bool wait_for_news(struct server *s, int64_t *seen) {
  struct timespec until;
  clock_gettime(CLOCK_MONOTONIC, &until); /* as 'news' counts: a clock that is set back must not make it wait */
  until.tv_sec++;
  pthread_mutex_lock(&s->lock);
  if (!s->stopping && s->saves == *seen) pthread_cond_timedwait(&s->news, &s->lock, &until);
  *seen = s->saves;
  bool stop = s->stopping;
  pthread_mutex_unlock(&s->lock);
  return stop;
}

static bool fill(struct stream *st) {
  int64_t seen = -1;
  while (st->sent == st->out.n) {
    if (wait_for_news(st->server, &seen) || !look(st)) return false;
    if (st->out.n == 0 && steady_seconds() - st->beat >= BEAT_SECONDS) buf_adds(&st->out, ":\n\n");
  }
  st->beat = steady_seconds();
  return true;
}

static ssize_t next_bytes(void *cls, uint64_t position, char *to, size_t room) {
  struct stream *st = cls;
  (void)position;
  if (!fill(st)) return MHD_CONTENT_READER_END_OF_STREAM;
  size_t n = st->out.n - st->sent < room ? st->out.n - st->sent : room;
  memcpy(to, st->out.p + st->sent, n);
  st->sent += n;
  return (ssize_t)n;
}

static void end_stream(void *cls) {
  struct stream *st = cls;
  pthread_mutex_lock(&st->server->lock);
  st->server->streams--;
  pthread_mutex_unlock(&st->server->lock);
  arena_free(&st->arena);
  free(st);
}

/* From the last change that the browser heard of, when it says so; else from now on. */
static enum store_outcome starting_point(struct request *r, int64_t *number) {
  const char *last = header_of(r, "Last-Event-ID");
  struct buf quoted;
  enum store_outcome outcome = store_last_change(r->server->setup.store, number);
  if (!last || outcome != STORE_DONE) return outcome;
  int64_t heard = 0;
  buf_init(&quoted, &r->arena, 64);
  buf_addf(&quoted, "\"%s\"", last);
  if (!quoted.cut && read_rev(buf_text(&quoted), &heard) && heard < *number) *number = heard;
  return outcome;
}

static bool take_place(struct server *s) {
  pthread_mutex_lock(&s->lock);
  bool room = s->streams < STREAMS_MOST && !s->stopping;
  if (room) s->streams++;
  pthread_mutex_unlock(&s->lock);
  return room;
}

struct answer changes_answer(struct request *r) {
  int64_t number = 0;
  if (starting_point(r, &number) != STORE_DONE) return answer_error(r, 503, "busy", "the store cannot be read just now");
  if (!take_place(r->server)) return answer_error(r, 503, "streams", "too many tabs listen for changes");
  struct stream *st = calloc(1, sizeof *st);
  if (!st) r->server->setup.on_full();
  *st = (struct stream){.server = r->server, .number = number, .beat = steady_seconds()};
  arena_init(&st->arena, r->server->setup.on_full);
  clear(st);
  buf_adds(&st->out, "retry: 2000\n\n");
  struct answer a = {MHD_create_response_from_callback(MHD_SIZE_UNKNOWN, BLOCK, next_bytes, st, end_stream), 200};
  if (!a.response) end_stream(st);
  add_header(&a, MHD_HTTP_HEADER_CONTENT_TYPE, "text/event-stream");
  add_header(&a, MHD_HTTP_HEADER_CACHE_CONTROL, "no-store");
  return a;
}
