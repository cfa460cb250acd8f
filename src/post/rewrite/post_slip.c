/* A slip of the tongue that its writer mends at once: "1 bottle... I mean 7 pumps of salmon oil" is 7 pumps. What was taken
 * back is blanked, before sentences are told apart, and told. */
#include "post/rewrite/post_rewrite.h"

enum { LINE_MOST = 4000 }; /* bytes: nobody slips in more */

static size_t without_marks(const struct tokens *t, size_t end) {
  while (end > 0 && t->item[end - 1].kind == TOKEN_MARK && !is_mark(t, end - 1, ')')) end--;
  return end;
}

/* "beef 200 g": that amount is of the beef, and none that begins. */
static bool begins(const struct tokens *t, size_t at) {
  return at == 0 || (t->item[at - 1].kind == TOKEN_MARK && !is_mark(t, at - 1, ':')) ||
         says(t, at - 1, "and plus with also gets has have feed give add");
}

/* The amount that stands right before 'end', behind nothing but marks, alone or with the same food as in 'food'; t->count:
 * none.
 */
static size_t amount_before(const struct tokens *t, size_t end, struct span food) {
  enum { MOST_TOKENS = 8 };
  bool stop =
      end > 1 && is_mark(t, end - 1, '.') && !is_mark(t, end - 2, '.'); /* another sentence is read as a correction */
  end = without_marks(t, end);
  for (size_t back = 1; back <= MOST_TOKENS && back <= end; back++) {
    size_t at = end - back;
    struct post_amount a = post_amount_at(t, at);
    if (a.tokens == 0 || a.by_word || a.tokens > back) continue;
    bool alone = a.tokens == back,
         same = !alone && !stop && span_eq_fold(tokens_span(t, at + a.tokens, back - a.tokens), food);
    if (alone || same) return begins(t, at) ? at : t->count;
  }
  return t->count;
}

/* In this line: what was taken back, up to the amount that stands for it; n 0: nothing. */
static struct span taken_back(struct post_reader *r, struct span line) {
  struct tokens t = post_tokens(r, line);
  for (size_t i = 1; i < t.count; i++) {
    size_t used = phrase_of(&t, i, CLASS_TAKES_BACK), now = i + used;
    if (used == 0) continue;
    while (is_mark(&t, now, ',') || is_mark(&t, now, '.')) now++;
    struct post_amount a = post_amount_at(&t, now);
    size_t food = now + a.tokens;
    if (a.tokens == 0 && t.item[i - 1].kind == TOKEN_MARK &&
        post_mention_at(r, &t, now) > 0) { /* "10 g rabbit... no wait chicken liver" */
      size_t end = without_marks(&t, i), from = end;
      while (from > 0 && from + 3 > end && is_word(&t, from - 1) && !says(&t, from - 1, "of and plus with") &&
             post_mention_at(r, &t, from) == 0)
        from--;
      struct post_amount own = {0};
      for (size_t back = 1; back <= 4 && back <= from && own.tokens == 0; back++) {
        own = post_amount_at(&t, from - back);
        if (own.tokens + (says(&t, from - 1, "of") ? 1 : 0) != back || !(own.is_mass || own.is_volume)) own.tokens = 0;
      }
      if (own.tokens > 0 && from < end && post_mention_at(r, &t, from) == end - from)
        return tokens_span(&t, from, now - from);
    }
    if (says(&t, food, "of")) food++;
    if (a.tokens == 0 || a.by_word || food >= t.count) continue;
    size_t end = post_food_end(r, &t, food), old = amount_before(&t, i, tokens_span(&t, food, end - food));
    if (end > food && old < t.count) return tokens_span(&t, old, now - old);
  }
  return (struct span){line.p, 0};
}

/* The same line where it goes on to mend itself. */
static char *mended(struct post_reader *r, struct span text, size_t at, size_t n, char *out, struct arena *arena) {
  enum { MENDED_A_LINE = 3 };
  for (int i = 0; i < MENDED_A_LINE && n < LINE_MOST; i++) {
    char *over = ARENA_NEW(r->arena, char, n + 1);
    memcpy(over, (out ? out : text.p) + at, n);
    struct span gone = post_mended(r, (struct span){(out ? out : text.p) + at, n}, over);
    if (gone.n == 0) break;
    post_note(r, gone, "mended in the same breath");
    if (!out) {
      out = ARENA_NEW(arena, char, text.n + 1);
      memcpy(out, text.p, text.n);
    }
    memcpy(out + at, over, n);
  }
  return out;
}

struct span post_without_slips(struct post_reader *r, struct span text, struct arena *arena) {
  enum { SLIPS_A_LINE = 4 };
  char *out = NULL;
  struct lines lines = lines_of(text);
  struct span line;
  while (lines_next(&lines, &line)) {
    size_t at = (size_t)(line.p - text.p);
    for (int slip = 0; slip < SLIPS_A_LINE && line.n < LINE_MOST; slip++) {
      struct span gone = taken_back(r, out ? (struct span){out + at, line.n} : line);
      if (gone.n == 0) break;
      r->line = lines.number;
      post_note(r, gone, "taken back in the same breath");
      size_t from = (size_t)(gone.p - (out ? out : text.p));
      if (!out) {
        out = ARENA_NEW(arena, char, text.n + 1);
        memcpy(out, text.p, text.n);
      }
      memset(out + from, ' ', gone.n);
    }
    r->line = lines.number;
    out = mended(r, text, at, line.n, out, arena);
    arena_rewind(r->arena, r->begin);
  }
  r->line = 0;
  return out ? (struct span){out, text.n} : text;
}
