/* internal.h: shared by the files of src/serve and by nobody else. */
#ifndef BW_SERVE_INTERNAL_H
#define BW_SERVE_INTERNAL_H

#include <microhttpd.h>
#include <pthread.h>

#include "serve/request.h"
#include "serve/server.h"
#include "serve/wire.h"

enum {
  PUT_MOST = 8 * 1024 * 1024, /* 4 MiB of text, most of which JSON may escape */
  BUNDLE_MOST = 64 * 1024 * 1024,
  DRAIN_MOST = 2 * BUNDLE_MOST, /* what is read and thrown away so that a refusal can be heard */
  ANSWER_MOST = 1024 * 1024 * 1024,
  VERSIONS_MOST = 500,
  VERSIONS_BYTES_MOST = 16 * 1024 * 1024,
  STREAMS_MOST = 32,
  CONNECTIONS_MOST = 100,
  CONNECTIONS_CROWDED = 90,  /* from here on each new connection takes the place of one that is waited for */
  CONNECTIONS_FULL = 97,     /* from here on whoever comes waits until one has gone */
  CONNECTIONS_FROM_ONE = 50, /* from one address, where others than this machine may ask */
  HEAD_SECONDS = 10,         /* for all of a request's head, and between two requests */
  IDLE_SECONDS = 30,
  STOP_SECONDS = 3, /* that answers under way are waited for */
  UPLOAD_SECONDS = 120
};

/* waiting.c */
struct waited;
struct waiting {
  pthread_mutex_t lock;      /* of all that follows */
  pthread_cond_t wake, gone; /* time to stop; a connection has ended */
  pthread_t watch;
  bool watching, stop;
  int head, body;       /* seconds */
  struct waited *first; /* one a connection */
  size_t count, cut;    /* all; those that were told to go and are still there */
};

struct server {
  struct serve_setup setup;
  struct MHD_Daemon *daemon;
  char token[TOKEN_CHARACTERS + 1];
  char address[128];
  struct guard guard;
  pthread_mutex_t lock; /* of what follows */
  pthread_cond_t news;  /* something was saved here, or it is time to stop */
  int64_t saves;
  int streams;
  int answering; /* requests from the moment when they are acted on until their answer is sent */
  bool stopping;
  struct waiting waiting;
};

/* One request, from its first line to its answer. */
struct request {
  struct server *server;
  struct MHD_Connection *connection;
  struct arena arena;
  struct route route;
  enum method method;
  enum refusal refusal;
  char *body; /* malloc'ed */
  size_t n, cap, most, seen;
  bool too_long, out_of_room;
  bool answering;
  int64_t began; /* seconds of the steady clock */
};

const char *header_of(struct request *r, const char *name);
const char *argument_of(struct request *r, const char *name); /* NULL when it is not there */

/* ---- answers (answer.c) ---- */

struct answer {
  struct MHD_Response *response; /* NULL: out of memory */
  unsigned status;
};
/* 'json' is copied. */
struct answer answer_json(unsigned status, struct span json);
struct answer answer_empty(unsigned status);
/* {"error": words, "why": key} */
struct answer answer_error(struct request *r, unsigned status, const char *key, const char *words);
struct answer answer_file(struct request *r);
void add_header(struct answer *a, const char *name, const char *value);
enum MHD_Result send_answer(struct request *r, struct answer a);

struct answer api_answer(struct request *r);     /* api.c */
struct answer changes_answer(struct request *r); /* changes.c */
void tell_news(struct server *s);                /* changes.c: wakes the streams */

int64_t steady_seconds(void);

/* ---- time limits of what is waited for (waiting.c) ---- */

bool waiting_start(struct waiting *w,
                   const struct serve_patience *p) MUST_USE; /* false: no thread; waiting_stop() is due all the same */
void waiting_stop(struct waiting *w);                        /* after the last connection is gone */
void connection_news(void *cls, struct MHD_Connection *connection, void **context, enum MHD_ConnectionNotificationCode code);
void waiting_for_head(struct request *r); /* the request is over, another may come */
void waiting_for_body(struct request *r);
void waiting_over(struct request *r);

#endif
