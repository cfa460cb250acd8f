/* Everything out as one file, and such a file taken in. */
#include <stdlib.h>

#include "store/internal.h"

enum { AROUND = 256 }; /* bytes that an entry has besides its body, about */

/* ---- out ---- */

static size_t body_bytes(const struct store_list *l) {
  size_t n = 0;
  for (size_t i = 0; i < l->count; i++) n += l->item[i].body.n + AROUND;
  return n;
}

static enum store_outcome read_all(sqlite3_stmt *q, size_t room, struct store_list *out, struct arena *arena) {
  int code;
  while ((code = sqlite3_step(q)) == SQLITE_ROW) {
    struct store_text t;
    size_t n = (size_t)sqlite3_column_bytes(q, 4) + AROUND;
    if (n > room) {
      out->more = true;
    } else if (read_row(q, &t, arena)) {
      room -= n;
      ARENA_PUSH(arena, out->item, out->count, out->cap, t);
    } else {
      count_damaged(q, out, arena);
    }
  }
  sqlite3_reset(q);
  return outcome_of(code);
}

enum store_outcome store_export(struct store *s, bool every, size_t most_bytes, struct store_bundle *out,
                                struct arena *arena) {
  *out = (struct store_bundle){0};
  take_turn(s);
  /* One reading transaction: texts and versions of the same moment, whatever others write meanwhile. */
  enum store_outcome outcome = begin(s, BEGIN_READ);
  if (outcome == STORE_DONE) {
    sqlite3_stmt *q = fresh(s, LIST);
    sqlite3_bind_int(q, 1, false);
    outcome = read_all(q, SIZE_MAX, &out->texts, arena);
    size_t used = body_bytes(&out->texts);
    q = fresh(s, ALL_VERSIONS);
    sqlite3_bind_int(q, 1, every);
    if (outcome == STORE_DONE) outcome = read_all(q, used < most_bytes ? most_bytes - used : 0, &out->versions, arena);
    outcome = finish(s, outcome);
  }
  pthread_mutex_unlock(&s->turn);
  return outcome;
}

/* ---- in ---- */

static int compare_spans(struct span a, struct span b) {
  int order = memcmp(a.p, b.p, a.n < b.n ? a.n : b.n);
  return order != 0 ? order : (a.n > b.n) - (a.n < b.n);
}

static int by_id_and_rev(const void *x, const void *y) {
  const struct store_text *a = *(const struct store_text *const *)x, *b = *(const struct store_text *const *)y;
  int order = compare_spans(a->id, b->id);
  if (order == 0) order = (a->rev > b->rev) - (a->rev < b->rev);
  return order != 0 ? order : (a > b) - (a < b); /* as they stand in the bundle: the same every time */
}

struct sorted {
  const struct store_text **item;
  size_t count, at;
};

static struct sorted sort(const struct store_list *l, struct arena *arena) {
  struct sorted s = {ARENA_NEW(arena, const struct store_text *, l->count + 1), l->count, 0};
  for (size_t i = 0; i < l->count; i++) s.item[i] = &l->item[i];
  if (s.count > 1) qsort(s.item, s.count, sizeof *s.item, by_id_and_rev);
  return s;
}

static const struct store_text *next_of(struct sorted *s, struct span id) {
  return s->at < s->count && span_eq(s->item[s->at]->id, id) ? s->item[s->at++] : NULL;
}

/* What the bundle brings for one id. */
struct intake {
  struct store *s;
  struct arena *arena;
  struct head head;          /* as it was */
  struct store_text present; /* the newest state as it was, when 'live' */
  bool live;
  struct span kind; /* of versions that come without one */
  int64_t top;      /* the highest rev so far */
  bool added;
};

/* *rev is 0 when no such state is here. */
static enum store_outcome find_state(struct store *s, const struct store_text *t, int64_t *rev) {
  sqlite3_stmt *q = fresh(s, FIND_STATE);
  bind_span(q, 1, t->id);
  bind_span(q, 2, t->saved);
  bind_span(q, 3, t->body);
  int code = sqlite3_step(q);
  *rev = code == SQLITE_ROW ? sqlite3_column_int64(q, 0) : 0;
  sqlite3_reset(q);
  return outcome_of(code);
}

/* Revs of the bundle are kept for a text that is new here; else they would meet those that are here. One so high that
 * saves could pass what a bundle may hold is not kept. */
static enum store_outcome take_state(struct intake *in, struct store_text t, bool kept) {
  bool keeps = !in->head.known && t.rev > in->top && t.rev <= STORE_REV_MOST / 2;
  t.rev = keeps ? t.rev : in->top + 1;
  in->top = t.rev;
  in->added = true;
  return add_state(in->s, &t, kept);
}

static enum store_outcome take_version(struct intake *in, struct store_text v) {
  int64_t here = 0;
  if (v.kind.n == 0) v.kind = in->kind;
  if (!store_kind_known(v.kind)) return STORE_DONE;
  enum store_outcome outcome = find_state(in->s, &v, &here);
  if (outcome != STORE_DONE) return outcome;
  return here > 0 ? mark_kept(in->s, v.id, here) : take_state(in, v, true);
}

static enum store_outcome take_newest(struct intake *in, const struct store_text *text) {
  if (in->live && !in->added && span_eq(in->present.body, text->body)) return STORE_DONE;
  enum store_outcome outcome = in->head.known ? mark_kept(in->s, text->id, in->head.rev) : STORE_DONE;
  if (outcome == STORE_DONE) outcome = take_state(in, *text, false);
  return outcome == STORE_DONE ? set_head(in->s, text->id, in->top, false) : outcome;
}

/* A text that the bundle only has versions of was removed where the bundle was made. Here it stays what it is. */
static enum store_outcome end_without_text(struct intake *in, struct span id) {
  if (!in->added) return STORE_DONE;
  return in->live ? take_newest(in, &in->present) : set_head(in->s, id, in->top, true);
}

static enum store_outcome take_id(struct intake *in, struct span id, struct sorted *texts, struct sorted *versions) {
  const struct store_text *text, *v, *newest = NULL;
  enum store_outcome outcome = read_head(in->s, id, &in->head);
  if (outcome == STORE_DONE) outcome = read_newest(in->s, id, &in->present, &in->live, in->arena);
  in->top = in->head.rev;
  bool with_text = texts->at < texts->count && span_eq(texts->item[texts->at]->id, id);
  in->kind = with_text ? texts->item[texts->at]->kind : in->live ? in->present.kind : (struct span){"", 0};
  while ((v = next_of(versions, id)))
    if (outcome == STORE_DONE) outcome = take_version(in, *v);
  while ((text = next_of(texts, id))) { /* of several, the last is the text, the others are versions of it */
    if (newest && outcome == STORE_DONE) outcome = take_version(in, *newest);
    newest = text;
  }
  if (newest && outcome == STORE_DONE) outcome = take_newest(in, newest);
  return outcome == STORE_DONE && !with_text ? end_without_text(in, id) : outcome;
}

static enum store_outcome take_all(struct store *s, struct sorted *texts, struct sorted *versions, struct arena *arena) {
  enum store_outcome outcome = STORE_DONE;
  while (outcome == STORE_DONE && (texts->at < texts->count || versions->at < versions->count)) {
    struct intake in = {.s = s, .arena = arena};
    const struct store_text *t = texts->at < texts->count ? texts->item[texts->at] : NULL;
    const struct store_text *v = versions->at < versions->count ? versions->item[versions->at] : NULL;
    struct span id = !v || (t && compare_spans(t->id, v->id) <= 0) ? t->id : v->id;
    outcome = take_id(&in, id, texts, versions);
  }
  return outcome;
}

static bool fits(const struct store_list *l, bool versions) {
  for (size_t i = 0; i < l->count; i++)
    if (!store_entry_fits(&l->item[i], versions)) return false;
  return true;
}

enum store_outcome store_import(struct store *s, const struct store_bundle *in, struct arena *arena) {
  if (!fits(&in->texts, false) || !fits(&in->versions, true)) return STORE_TROUBLE;
  struct sorted texts = sort(&in->texts, arena), versions = sort(&in->versions, arena);
  take_turn(s);
  enum store_outcome outcome = begin(s, BEGIN_WRITE);
  if (outcome == STORE_DONE) outcome = finish(s, take_all(s, &texts, &versions, arena));
  pthread_mutex_unlock(&s->turn);
  return outcome;
}
