/* What goes back: status, headers, bytes. */
#include <stdio.h>

#include "base/json_string.h"
#include "serve/internal.h"

const char *header_of(struct request *r, const char *name) {
  return MHD_lookup_connection_value(r->connection, MHD_HEADER_KIND, name);
}

const char *argument_of(struct request *r, const char *name) {
  return MHD_lookup_connection_value(r->connection, MHD_GET_ARGUMENT_KIND, name);
}

/* The same policy as in page/index.html, and nobody may frame it. */
static const char POLICY[] = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; font-src 'self'; "
                             "img-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; "
                             "form-action 'none'; frame-ancestors 'none'";

void add_header(struct answer *a, const char *name, const char *value) {
  /* Only when memory is out; the answer is then better lost than sent without its guard. */
  if (a->response && MHD_add_response_header(a->response, name, value) != MHD_YES) {
    MHD_destroy_response(a->response);
    a->response = NULL;
  }
}

static void add_guards(struct answer *a) {
  add_header(a, "Content-Security-Policy", POLICY);
  add_header(a, "X-Content-Type-Options", "nosniff");
  add_header(a, "Referrer-Policy", "no-referrer");
  add_header(a, "Cross-Origin-Opener-Policy", "same-origin");
  add_header(a, "Cross-Origin-Resource-Policy", "same-origin");
  add_header(a, "X-Frame-Options", "DENY");
  add_header(a, "Permissions-Policy", "camera=(), microphone=(), geolocation=(), payment=(), usb=()");
}

static struct answer answer_bytes(unsigned status, struct span bytes, enum MHD_ResponseMemoryMode how) {
  /* The cast drops a const that libmicrohttpd keeps: it copies, or reads only. */
  return (struct answer){MHD_create_response_from_buffer(bytes.n, (void *)(uintptr_t)bytes.p, how), status};
}

struct answer answer_json(unsigned status, struct span json) {
  struct answer a = answer_bytes(status, json, MHD_RESPMEM_MUST_COPY);
  add_header(&a, MHD_HTTP_HEADER_CONTENT_TYPE, "application/json");
  add_header(&a, MHD_HTTP_HEADER_CACHE_CONTROL, "no-store");
  return a;
}

struct answer answer_empty(unsigned status) {
  return answer_bytes(status, SPAN_LIT(""), MHD_RESPMEM_PERSISTENT);
}

struct answer answer_error(struct request *r, unsigned status, const char *key, const char *words) {
  struct buf b;
  buf_init(&b, &r->arena, 4096);
  buf_adds(&b, "{\"error\":");
  json_quoted(&b, span_of(words));
  buf_addf(&b, ",\"why\":\"%s\"}\n", key);
  return answer_json(status, buf_span(&b));
}

/* ---- files of the page ---- */

static struct answer answer_index(struct request *r, const struct site_file *f) {
  struct buf b;
  buf_init(&b, &r->arena, f->n + 4096);
  if (!site_index(f, r->server->token, &b)) return answer_error(r, 500, "page", "the page in this program has no head");
  struct answer a = answer_bytes(200, buf_span(&b), MHD_RESPMEM_MUST_COPY);
  /* It holds the token of this run. */
  add_header(&a, MHD_HTTP_HEADER_CACHE_CONTROL, "no-store");
  return a;
}

static bool has_it_already(struct request *r, const struct site_file *f) {
  const char *known = header_of(r, MHD_HTTP_HEADER_IF_NONE_MATCH);
  return known && strstr(known, f->etag) != NULL;
}

struct answer answer_file(struct request *r) {
  const struct site_file *f = site_find(r->server->setup.site, r->route.path);
  if (!f) return answer_error(r, 404, "nothing", "there is nothing at this address");
  struct answer a;
  if (strcmp(f->path, "index.html") == 0) {
    a = answer_index(r, f);
  } else {
    a = has_it_already(r, f) ? answer_empty(304)
                             : answer_bytes(200, (struct span){(const char *)f->bytes, f->n}, MHD_RESPMEM_PERSISTENT);
    add_header(&a, MHD_HTTP_HEADER_ETAG, f->etag);
    add_header(&a, MHD_HTTP_HEADER_CACHE_CONTROL,
               site_never_changes(f) ? "public, max-age=31536000, immutable" : "no-cache");
  }
  if (a.status == 200) add_header(&a, MHD_HTTP_HEADER_CONTENT_TYPE, site_type_of(f->path));
  return a;
}

enum MHD_Result send_answer(struct request *r, struct answer a) {
  add_guards(&a);
  if (!a.response) return MHD_NO;
  enum MHD_Result sent = MHD_queue_response(r->connection, a.status, a.response);
  MHD_destroy_response(a.response);
  return sent;
}
