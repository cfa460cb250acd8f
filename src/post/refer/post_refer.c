/* Sentences that refer to others: the whole text is cut into them, the rules write some of them anew, and the text is put
 * together again with as many lines. */
#include "post/refer/post_refer.h"

enum { PIECE_END = 0x1F };

/* ---- the text ---- */

/* A row of a table is no sentence that refers to others. */
static bool is_row(struct span line) {
  return line.n == 0 || line.p[0] == POST_QUOTED || memchr(line.p, '\t', line.n) || memchr(line.p, '|', line.n);
}

static struct span without_stop(struct span s) {
  while (s.n > 0 && memchr(" .\x1F\r", s.p[s.n - 1], 4)) s.n--;
  return s;
}

static void add_said(struct story *st, struct span text, int line, bool row) {
  struct said *s = &st->s[st->count++];
  *s = (struct said){.text = text, .line = line};
  if (!row) s->t = post_tokens_kept(st->r, without_stop(text));
  if (s->t.count >= SENTENCE_MOST_WORDS) s->t.count = 0;
}

static bool cut_into_sentences(struct story *st, struct span text) {
  struct span line;
  int number = 0;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    number++;
    size_t from = 0;
    do {
      size_t end = from < line.n ? post_sentence_end(line, from) : line.n;
      if (st->count == SAID_MOST) return false;
      add_said(st, span_cut(line, from, end), number, is_row(line));
      from = end;
    } while (from < line.n);
  }
  return true;
}

static struct span put_together(const struct story *st, size_t most, struct arena *arena) {
  struct buf b;
  int line = 1;
  bool apart = false, begun = false; /* a sentence of this line was written anew; one is written */
  for (size_t i = 0; i < st->count; i++) most += st->s[i].text.n + 4;
  buf_init(&b, arena, most);
  for (size_t i = 0; i < st->count; i++) {
    for (; line < st->s[i].line; line++) buf_addc(&b, '\n'), apart = begun = false;
    apart = apart || st->s[i].changed;
    struct span now = apart ? span_trim(st->s[i].text) : st->s[i].text;
    if (apart && begun && now.n > 0) buf_addc(&b, PIECE_END);
    begun = begun || now.n > 0;
    buf_add(&b, now);
  }
  buf_addc(&b, '\n');
  return buf_span(&b);
}

struct span post_refer(struct post_reader *r, struct span text, struct arena *arena) {
  if (text.n == 0) return text;
  struct story st = {.r = r, .s = ARENA_NEW(arena, struct said, SAID_MOST)};
  if (!cut_into_sentences(&st, text)) return text;
  refer_versions(&st);
  refer_meals(&st);
  refer_corrected(&st);
  refer_roster(&st);
  refer_bowl(&st);
  refer_rate(&st);
  refer_fronted(&st);
  refer_ordinary(&st);
  refer_plain(&st);
  refer_day_kinds(&st);
  refer_eaters(&st);
  refer_bracket(&st);
  refer_tails(&st);
  refer_days_later(&st);
  refer_weights(&st);
  refer_pieces(&st);
  refer_one_day(&st);
  refer_batch(&st);
  refer_parts(&st);
  refer_homes(&st);
  refer_kinds(&st);
  refer_pronouns(&st);
  refer_half(&st);
  refer_swap(&st);
  refer_weeks(&st);
  refer_wholes(&st);
  refer_sums(&st);
  refer_same(&st);
  refer_guard(&st);
  return st.changes > 0 ? put_together(&st, text.n + 8, arena) : text;
}
