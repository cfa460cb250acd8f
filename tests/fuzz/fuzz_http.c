/* fuzz_http.c: any bytes as what a browser, or somebody who says so, sends: the first byte says what they are. Nothing but
 * the page's own requests is let in, and what is read keeps the rules of docs/internals/page-storage.md; what is read is
 * written and read again. */
#include "fuzz_library.h"
#include "serve/request.h"
#include "serve/wire.h"

static const char TOKEN[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefg";

static void guards(struct span text, struct arena *arena) {
  /* Up to five headers, one a line; an empty line: not sent. */
  const char *at[5] = {NULL};
  struct span rest = text;
  for (size_t i = 0; i < COUNT_OF(at) && rest.n > 0; i++) {
    const char *end = memchr(rest.p, '\n', rest.n);
    size_t n = end ? (size_t)(end - rest.p) : rest.n;
    if (n > 0) at[i] = arena_text(arena, span_cut(rest, 0, n));
    rest = span_cut(rest, n + 1, rest.n);
  }
  const struct headers h = {at[0], at[1], at[2], at[3], at[4]};
  for (int beyond = 0; beyond < 2; beyond++) {
    const struct guard g = {TOKEN, 8427, beyond == 1};
    bool token = h.token && strcmp(h.token, TOKEN) == 0;
    for (int p = 0; p <= PLACE_NOWHERE; p++)
      for (int m = 0; m <= METHOD_OTHER; m++) {
        bool in = refuse(&g, (enum place)p, (enum method)m, &h) == REFUSE_NOT;
        bool keeps_texts = p != PLACE_FILE && p != PLACE_TOKEN;
        must(!in || h.host, "nobody without a Host is let in", text);
        must(!in || !keeps_texts || token, "nobody without the token is let in", text);
      }
  }
}

static void keeps_the_rules(const struct store_text *t, bool version, struct span text) {
  must(store_id_fits(t->id) && store_body_fits(t->body) && store_saved_fits(t->saved), "an entry keeps the rules", text);
  must(store_kind_known(t->kind) || (version && t->kind.n == 0), "a kind is known", text);
  must(t->rev >= 1 && t->rev <= STORE_REV_MOST, "a rev is in its range", text);
}

static bool same(const struct store_text *a, const struct store_text *b) {
  return span_eq(a->id, b->id) && span_eq(a->kind, b->kind) && span_eq(a->body, b->body) && span_eq(a->saved, b->saved) &&
         a->rev == b->rev;
}

static void bundles(struct span text, struct arena *arena) {
  struct store_bundle in, again;
  struct buf out;
  size_t ignored = 0;
  if (wire_read_bundle(text, &in, &ignored, arena) != WIRE_FINE) return;
  for (size_t i = 0; i < in.texts.count; i++) keeps_the_rules(&in.texts.item[i], false, text);
  for (size_t i = 0; i < in.versions.count; i++) keeps_the_rules(&in.versions.item[i], true, text);
  buf_init(&out, arena, 1 << 24);
  wire_bundle(&out, &in);
  must(wire_read_bundle(buf_span(&out), &again, &ignored, arena) == WIRE_FINE, "what is written is read", text);
  must(again.texts.count == in.texts.count, "no text is lost", text);
  for (size_t i = 0; i < in.texts.count; i++) must(same(&in.texts.item[i], &again.texts.item[i]), "texts stay", text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
  struct arena arena;
  struct wire_put put;
  int64_t rev = 0;
  if (size == 0) return 0;
  struct span text = {(const char *)data + 1, size - 1};
  arena_init(&arena, NULL);
  const char *words = arena_text(&arena, text);
  struct route r;
  switch (data[0] % 5) {
  case 0:
    r = route_of(text);
    if (r.place == PLACE_TEXT || r.place == PLACE_VERSIONS) must(store_id_fits(r.id), "an id keeps the rules", text);
    if (r.place == PLACE_FILE) must(r.path.n + 1 == text.n, "a file is the whole path", text);
    break;
  case 1:
    if (read_rev(words, &rev)) must(rev >= 0 && rev < 1000000000000000, "a rev is in its range", text);
    break;
  case 2:
    guards(text, &arena);
    break;
  case 3:
    if (wire_read_put(text, &put, &arena) == WIRE_FINE)
      must(store_kind_known(put.kind) && store_body_fits(put.body), "a save keeps the rules", text);
    break;
  default:
    bundles(text, &arena);
  }
  arena_free(&arena);
  return 0;
}
