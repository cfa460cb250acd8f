/* The store over HTTP: one function a place and method (docs/internals/page-storage.md). */
#include <stdlib.h>

#include "serve/internal.h"

static struct answer finished(struct buf *b, unsigned status, struct request *r) {
  if (b->cut) return answer_error(r, 500, "too-long", "the answer is too long to be given");
  return answer_json(status, buf_span(b));
}

static void begin(struct buf *b, struct request *r) { buf_init(b, &r->arena, ANSWER_MOST); }

static struct answer failed(struct request *r, enum store_outcome outcome) {
  struct buf b;
  switch (outcome) {
  case STORE_NO_ROOM:
    return answer_error(r, 507, "room", "there is no room on the disk, or it refuses to write; nothing was changed");
  case STORE_READ_ONLY:
    return answer_error(r, 507, "read-only", "the store may only be read where it is; nothing was changed");
  case STORE_BUSY:
    return answer_error(r, 503, "busy", "another program keeps the store locked; nothing was changed");
  case STORE_MOVED:
    return answer_error(r, 500, "moved",
                        "the store's file was moved or removed; nothing can be saved until the server is started again");
  case STORE_DAMAGED:
    return answer_error(r, 500, "damaged", "the store's file is damaged; nothing was changed");
  default:
    buf_init(&b, &r->arena, 1024);
    buf_addf(&b, "the store failed: %s", store_reason(r->server->setup.store, &r->arena));
    return answer_error(r, 500, "store", buf_text(&b));
  }
}

static struct answer conflict(struct request *r, const struct store_text *theirs, bool found) {
  struct buf b;
  begin(&b, r);
  buf_adds(&b, "{\"theirs\":");
  if (found) {
    wire_text(&b, theirs);
  } else {
    buf_adds(&b, "null");
  }
  buf_adds(&b, "}\n");
  return finished(&b, 412, r);
}

static bool said(struct request *r, const char *name) {
  const char *value = argument_of(r, name);
  return value && strcmp(value, "1") == 0;
}

/* ---- reading ---- */

static struct answer get_texts(struct request *r) {
  struct store_list l;
  struct buf b;
  enum store_outcome outcome = store_list(r->server->setup.store, said(r, "removed"), &l, &r->arena);
  if (outcome != STORE_DONE) return failed(r, outcome);
  begin(&b, r);
  buf_adds(&b, "{\"texts\":");
  wire_list(&b, &l);
  buf_addf(&b, ",\"damaged\":%zu,\"damaged_ids\":", l.damaged);
  wire_ids(&b, &l);
  buf_adds(&b, "}\n");
  return finished(&b, 200, r);
}

static struct answer get_text(struct request *r) {
  struct store_text t;
  bool found = false;
  struct buf b;
  enum store_outcome outcome = store_read(r->server->setup.store, r->route.id, &t, &found, &r->arena);
  if (outcome != STORE_DONE) return failed(r, outcome);
  if (!found) return answer_error(r, 404, "nothing", "there is no such text");
  begin(&b, r);
  wire_text(&b, &t);
  buf_addc(&b, '\n');
  struct answer a = finished(&b, 200, r);
  struct buf tag;
  buf_init(&tag, &r->arena, 64);
  buf_addf(&tag, "\"%ld\"", (long)t.rev);
  add_header(&a, MHD_HTTP_HEADER_ETAG, buf_text(&tag));
  return a;
}

static bool before_wish(struct request *r, int64_t *before) {
  const char *text = argument_of(r, "before");
  struct buf quoted;
  *before = 0;
  if (!text) return true;
  buf_init(&quoted, &r->arena, 64);
  buf_addf(&quoted, "\"%s\"", text);
  return !quoted.cut && read_rev(buf_text(&quoted), before) && *before > 0;
}

static struct answer get_versions(struct request *r) {
  struct store_versions_wish wish = {0, said(r, "all"), VERSIONS_MOST, VERSIONS_BYTES_MOST};
  struct store_list l;
  struct buf b;
  if (!before_wish(r, &wish.before)) return answer_error(r, 400, "argument", "'before' takes the rev of a version");
  enum store_outcome outcome = store_versions(r->server->setup.store, r->route.id, &wish, &l, &r->arena);
  if (outcome != STORE_DONE) return failed(r, outcome);
  begin(&b, r);
  buf_adds(&b, "{\"versions\":");
  wire_list(&b, &l);
  buf_addf(&b, ",\"damaged\":%zu,\"more\":%s}\n", l.damaged, l.more ? "true" : "false");
  return finished(&b, 200, r);
}

static struct answer get_bundle(struct request *r) {
  struct store_bundle bundle;
  struct buf b;
  /* JSON escapes: what is written here must fit when it is read again. */
  enum store_outcome outcome = store_export(r->server->setup.store, said(r, "all"), BUNDLE_MOST / 2, &bundle, &r->arena);
  if (outcome != STORE_DONE) return failed(r, outcome);
  begin(&b, r);
  wire_bundle(&b, &bundle);
  struct answer a = finished(&b, 200, r);
  add_header(&a, MHD_HTTP_HEADER_CONTENT_DISPOSITION, "attachment; filename=\"bowlwright.json\"");
  return a;
}

static struct answer get_token(struct request *r) {
  struct buf b;
  begin(&b, r);
  buf_addf(&b, "{\"token\":\"%s\",\"version\":\"%s\"}\n", r->server->token, BW_VERSION);
  return finished(&b, 200, r);
}

/* ---- changing ---- */

static bool find_rev(struct request *r, int64_t *rev, struct answer *wrong) {
  const char *match = header_of(r, MHD_HTTP_HEADER_IF_MATCH);
  if (!match) {
    *wrong = answer_error(r, 428, "rev", "a change names the rev that it was made from: If-Match: \"3\"");
    return false;
  }
  if (read_rev(match, rev)) return true;
  *wrong = answer_error(r, 400, "rev", "If-Match takes one rev in quotes, such as \"3\"");
  return false;
}

static struct answer fault(struct request *r, enum wire_fault f) {
  return answer_error(r, f == WIRE_TOO_LONG ? 413 : 400, f == WIRE_TOO_LONG ? "too-long" : "json", wire_fault_text(f));
}

static struct answer put_text(struct request *r) {
  struct wire_put put;
  struct store_text theirs;
  struct answer wrong;
  struct store_save save = {.id = r->route.id};
  char now[STORE_SAVED_BYTES];
  int64_t rev = 0;
  bool found = false;
  if (!find_rev(r, &save.base, &wrong)) return wrong;
  enum wire_fault f = wire_read_put((struct span){r->body, r->n}, &put, &r->arena);
  if (f != WIRE_FINE) return fault(r, f);
  store_now(now);
  save = (struct store_save){r->route.id, put.kind, put.body, save.base, put.keep, now};
  enum store_outcome outcome = store_write(r->server->setup.store, &save, &rev, &theirs, &found, &r->arena);
  if (outcome == STORE_CONFLICT) return conflict(r, &theirs, found);
  if (outcome != STORE_DONE) return failed(r, outcome);
  tell_news(r->server);
  struct buf b;
  begin(&b, r);
  buf_addf(&b, "{\"rev\":%ld,\"saved\":\"%s\"}\n", (long)rev, now);
  return finished(&b, 200, r);
}

static struct answer delete_text(struct request *r) {
  struct store_text theirs;
  struct answer wrong;
  int64_t base = 0;
  bool found = false;
  if (!find_rev(r, &base, &wrong)) return wrong;
  enum store_outcome outcome = store_remove(r->server->setup.store, r->route.id, base, &theirs, &found, &r->arena);
  if (outcome == STORE_CONFLICT) return conflict(r, &theirs, found);
  if (outcome != STORE_DONE) return failed(r, outcome);
  tell_news(r->server);
  return answer_empty(204);
}

static struct answer post_bundle(struct request *r) {
  struct store_bundle bundle;
  struct buf b;
  size_t ignored = 0;
  enum wire_fault f = wire_read_bundle((struct span){r->body, r->n}, &bundle, &ignored, &r->arena);
  if (f != WIRE_FINE) return fault(r, f);
  enum store_outcome outcome = store_import(r->server->setup.store, &bundle, &r->arena);
  if (outcome != STORE_DONE) return failed(r, outcome);
  tell_news(r->server);
  begin(&b, r);
  buf_addf(&b, "{\"texts\":%zu,\"versions\":%zu,\"ignored\":%zu}\n", bundle.texts.count, bundle.versions.count, ignored);
  return finished(&b, 200, r);
}

struct answer api_answer(struct request *r) {
  bool reads = r->method == METHOD_GET || r->method == METHOD_HEAD;
  switch (r->route.place) {
  case PLACE_TEXTS:
    return get_texts(r);
  case PLACE_TEXT:
    return reads ? get_text(r) : r->method == METHOD_PUT ? put_text(r) : delete_text(r);
  case PLACE_VERSIONS:
    return get_versions(r);
  case PLACE_BUNDLE:
    return reads ? get_bundle(r) : post_bundle(r);
  case PLACE_CHANGES:
    return changes_answer(r);
  case PLACE_TOKEN:
    return get_token(r);
  case PLACE_FILE:
  case PLACE_NOWHERE:
    break;
  }
  return answer_error(r, 404, "nothing", "there is nothing at this address");
}
