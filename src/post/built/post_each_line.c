/* What the files of built/post_built.h share: line by line over a text, and the foods with their amounts that a part of it
 * tells.
 */
#include "post/built/post_built.h"
#include "post/hear/post_net.h"
#include "post/rewrite/post_rewrite.h"

enum { CHANGES_OF_A_LINE = 12, LOOK_BACK = 3000 }; /* bytes: longer than any post of tests/post is before its last line */

/* Of what stands before a line no more than a post holds: work grows as the text does. */
static struct span near(struct span before) {
  size_t from = before.n > LOOK_BACK ? before.n - LOOK_BACK : 0;
  while (from > 0 && from < before.n && before.p[from - 1] != '\n') from++;
  return span_cut(before, from, before.n);
}

struct span post_each_line(struct post_reader *r, struct span text, struct arena *arena, rewrite_line *rewrite) {
  struct buf b;
  struct span line;
  bool any = false;
  buf_init(&b, arena, 4 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    r->line = lines.number;
    struct span now = line;
    bool quoted = line.n > 0 && line.p[0] == POST_QUOTED; /* somebody else's */
    for (int i = 0; i < CHANGES_OF_A_LINE && !quoted; i++) {
      struct span out = rewrite(r, near(buf_span(&b)), now);
      if (out.p == now.p) break;
      now = out;
    }
    any = any || now.p != line.p;
    buf_add(&b, now);
    buf_addc(&b, '\n');
    arena_rewind(r->arena, r->begin);
  }
  r->line = 0;
  return any ? buf_span(&b) : text;
}

/* "Until Easter she ate ...", "he used to get ...": the sentence that 'at' stands in. */
static bool is_of_past(const struct tokens *t, size_t at) {
  size_t from = at, to = at;
  while (from > 0 && !ends_sentence(t, from - 1)) from--;
  while (!ends_sentence(t, to)) to++;
  struct tokens sentence = tokens_part(t, from, to);
  return not_fed(&sentence) == NOT_FED_PAST || says(&sentence, 0, "until till before");
}

size_t post_told_foods(struct post_reader *r, struct span text, struct told_food *out, size_t most) {
  size_t n = 0;
  struct span line;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count && n < most; i++) {
      struct post_amount a = post_amount_at(&t, i);
      if (a.tokens == 0 || a.bare || a.cannot) continue;
      size_t from = i + a.tokens, end;
      if (says(&t, from, "of")) from++;
      if ((end = post_food_end(r, &t, from)) > from)
        out[n++] = (struct told_food){.amount = a,
                                      .said = tokens_span(&t, i, a.tokens),
                                      .food = tokens_span(&t, from, end - from),
                                      .past = is_of_past(&t, i)};
      i = from - 1;
    }
  }
  return n;
}

size_t post_told_before(struct post_reader *r, struct span before, struct span line, const char *at, struct told_food *out) {
  struct buf all;
  buf_init(&all, r->keep, before.n + line.n + 2);
  buf_add(&all, before);
  buf_add(&all, (struct span){line.p, (size_t)(at - line.p)});
  return post_told_foods(r, buf_span(&all), out, TOLD_MOST);
}

const struct told_food *post_told_food_of(const struct told_food *f, size_t n, struct span word) {
  for (size_t i = n; i-- > 0;)
    if (net_has_word(f[i].food, word)) return &f[i];
  return NULL;
}

void post_will_say(struct post_reader *r, struct span word, const char *note, const char *ask) {
  if (r->built_count >= COUNT_OF(r->built)) return;
  r->built[r->built_count++] = (struct built){r->line, arena_span(r->keep, word), note, ask, false};
}

void post_will_note(struct post_reader *r, struct span word, const char *note) {
  size_t before = r->built_count;
  post_will_say(r, word, note, NULL);
  if (r->built_count > before) r->built[before].sure = true;
}

void post_say_builds(struct post_reader *r) {
  for (size_t i = 0; i < r->built_count; i++) {
    const struct built *b = &r->built[i];
    for (size_t k = 0; k < r->count; k++) {
      struct item *item = &r->item[k];
      if (item->kind != ITEM_FOOD || item->line != b->line || !net_has_word(span_of(item->text), b->word)) continue;
      if (b->sure)
        item->assumed = b->note; /* of all that there is to say */
      else
        post_doubt(r, k, b->note);
      if (!b->ask) continue;
      r->line = b->line;
      r->ask_of = k + 1;
      post_ask(r, 2, "%s", b->ask);
      r->ask_of = 0;
    }
  }
  r->line = 0;
}
