/* The JSON of the page's store. */
#include "serve/wire.h"

#include <jansson.h>

#include "base/json_string.h"

const char *wire_fault_text(enum wire_fault f) {
  switch (f) {
  case WIRE_FINE:
    break;
  case WIRE_NO_JSON:
    return "what was sent is not JSON in UTF-8";
  case WIRE_SHAPE:
    return "what was sent is JSON, but not of the shape that belongs here";
  case WIRE_TOO_LONG:
    return "a text may have up to 4 MiB";
  }
  return "";
}

/* ---- reading ---- */

static json_t *load(struct span json) {
  json_error_t error;
  return json_loadb(json.p ? json.p : "", json.n, JSON_REJECT_DUPLICATES, &error);
}

/* .p is NULL when the key is missing or no string. Lives as long as 'object'. */
static struct span member(const json_t *object, const char *key) {
  const json_t *value = json_object_get(object, key);
  return json_is_string(value) ? (struct span){json_string_value(value), json_string_length(value)} : (struct span){NULL, 0};
}

static enum wire_fault read_put(const json_t *x, struct wire_put *out, struct arena *arena) {
  struct span kind = member(x, "kind"), body = member(x, "body");
  const json_t *keep = json_object_get(x, "keep");
  if (!store_kind_known(kind) || !body.p || (keep && !json_is_boolean(keep))) return WIRE_SHAPE;
  if (body.n > STORE_BODY_MOST) return WIRE_TOO_LONG;
  *out = (struct wire_put){arena_span(arena, kind), arena_span(arena, body), keep && json_is_true(keep)};
  return WIRE_FINE;
}

enum wire_fault wire_read_put(struct span json, struct wire_put *out, struct arena *arena) {
  json_t *x = load(json);
  if (!x) return WIRE_NO_JSON;
  enum wire_fault fault = read_put(x, out, arena);
  json_decref(x);
  return fault;
}

/* A version may come without its kind. */
static bool read_entry(const json_t *x, bool version, struct store_text *out, struct arena *arena) {
  struct span id = member(x, "id"), kind = member(x, "kind"), body = member(x, "body"), saved = member(x, "saved");
  const json_t *rev = json_object_get(x, "rev");
  if (!id.p || !body.p || !saved.p || !json_is_integer(rev)) return false;
  if (!kind.p && version) kind = (struct span){"", 0};
  *out = (struct store_text){id, kind, body, saved, json_integer_value(rev)};
  if (!store_entry_fits(out, version)) return false;
  *out = (struct store_text){arena_span(arena, id), arena_span(arena, kind), arena_span(arena, body),
                             arena_span(arena, saved), out->rev};
  return true;
}

static void read_entries(const json_t *array, bool versions, struct store_list *out, size_t *ignored, struct arena *arena) {
  for (size_t i = 0; i < json_array_size(array); i++) {
    struct store_text t;
    if (read_entry(json_array_get(array, i), versions, &t, arena)) {
      ARENA_PUSH(arena, out->item, out->count, out->cap, t);
    } else {
      ++*ignored;
    }
  }
}

enum wire_fault wire_read_bundle(struct span json, struct store_bundle *out, size_t *ignored, struct arena *arena) {
  *out = (struct store_bundle){0};
  *ignored = 0;
  json_t *x = load(json);
  if (!x) return WIRE_NO_JSON;
  const json_t *mark = json_object_get(x, "bowlwright"), *texts = json_object_get(x, "texts");
  bool ours = json_is_integer(mark) && json_integer_value(mark) == 1 && json_is_array(texts);
  if (ours) {
    read_entries(texts, false, &out->texts, ignored, arena);
    read_entries(json_object_get(x, "versions"), true, &out->versions, ignored, arena);
  }
  json_decref(x);
  return out->texts.count + out->versions.count > 0 ? WIRE_FINE : WIRE_SHAPE;
}

/* ---- writing ---- */

void wire_text(struct buf *b, const struct store_text *t) {
  buf_adds(b, "{\"id\":");
  json_quoted(b, t->id);
  buf_adds(b, ",\"kind\":");
  json_quoted(b, t->kind);
  buf_adds(b, ",\"body\":");
  json_quoted(b, t->body);
  buf_addf(b, ",\"rev\":%ld,\"saved\":", (long)t->rev);
  json_quoted(b, t->saved);
  buf_addc(b, '}');
}

void wire_list(struct buf *b, const struct store_list *l) {
  buf_addc(b, '[');
  for (size_t i = 0; i < l->count; i++) {
    if (i > 0) buf_addc(b, ',');
    wire_text(b, &l->item[i]);
  }
  buf_addc(b, ']');
}

void wire_ids(struct buf *b, const struct store_list *l) {
  buf_addc(b, '[');
  for (size_t i = 0; i < l->damaged_ids; i++) {
    if (i > 0) buf_addc(b, ',');
    json_quoted(b, l->damaged_id[i]);
  }
  buf_addc(b, ']');
}

void wire_bundle(struct buf *b, const struct store_bundle *bundle) {
  buf_adds(b, "{\"bowlwright\":1,\"texts\":");
  wire_list(b, &bundle->texts);
  buf_adds(b, ",\"versions\":");
  wire_list(b, &bundle->versions);
  buf_addf(b, ",\"damaged\":%zu,\"more\":%s}\n", bundle->texts.damaged + bundle->versions.damaged,
           bundle->versions.more ? "true" : "false");
}
