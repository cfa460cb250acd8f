/* What the rules of sentences that refer to others share: a sentence is written anew, cut in two or told, amounts in it are
 * multiplied, and something is said beside the lines of a food. */
#include "post/refer/post_refer.h"
#include "post/rewrite/post_rewrite.h"

#include "base/num.h"

void refer_write(struct story *st, size_t i, const char *text) {
  struct said *s = &st->s[i];
  s->text = span_of(arena_text(st->r->keep, span_of(text)));
  s->t = post_tokens_kept(st->r, s->text);
  s->changed = true;
  st->changes++;
}

bool refer_split(struct story *st, size_t i, size_t at) {
  const struct tokens *t = &st->s[i].t;
  if (st->count == SAID_MOST || at == 0 || at >= t->count) return false;
  struct span rest = tokens_span(t, at, t->count - at), front = tokens_span(t, 0, at);
  for (size_t k = st->count; k > i + 1; k--) st->s[k] = st->s[k - 1];
  st->count++;
  st->s[i + 1] = (struct said){.line = st->s[i].line};
  refer_write(st, i + 1, arena_text(st->r->keep, rest));
  refer_write(st, i, arena_text(st->r->keep, front));
  return true;
}

void refer_between(struct story *st, size_t i, size_t from, size_t to, const char *instead) {
  const struct tokens *t = &st->s[i].t;
  const struct token *last = &t->item[t->count - 1];
  const char *begin = t->item[0].at.p, *at = from < t->count ? t->item[from].at.p : last->at.p + last->at.n;
  struct span text = {begin, (size_t)(last->at.p + last->at.n - begin)};
  struct span now = post_cut_out(st->r, text, at, to > from ? t->item[to - 1].at.p + t->item[to - 1].at.n : at, instead);
  refer_write(st, i, arena_text(st->r->arena, now));
}

void refer_tell(struct story *st, size_t i, const char *why) {
  st->r->line = st->s[i].line;
  struct span text = span_trim(st->s[i].text);
  while (text.n > 0 && memchr(".\x1F", text.p[text.n - 1], 2)) text.n--;
  post_note(st->r, text, why);
  st->r->line = 0;
}

size_t refer_grams(const struct tokens *t, size_t at, double *grams) {
  struct post_amount a = at < t->count && is_number(t, at) ? post_amount_at(t, at) : (struct post_amount){0};
  if (a.tokens == 0 || !a.is_mass || a.is_percent || a.low != a.high) return 0;
  *grams = post_in_grams(&a);
  return a.tokens;
}

/* Is it how much of a food? "2 x", "3 meals" and times of day are not. */
static bool is_of_food(const struct tokens *t, size_t at, const struct post_amount *a) {
  if (a->tokens == 0 || a->is_percent || a->cannot || not_an_amount(t, at) > 0) return false;
  if (a->is_mass || a->is_volume || a->unit[0]) return true;
  size_t behind = at + a->tokens;
  return a->bare && is_number(t, at) && is_word(t, behind) && !says_a(t, behind, CLASS_COUNTS_TIME);
}

size_t refer_scaled(struct buf *b, const struct tokens *t, size_t from, size_t to, double by) {
  const char *at = from < to ? t->item[from].at.p : "";
  size_t count = 0;
  for (size_t i = from; i < to; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (!is_of_food(t, i, &a)) continue;
    buf_add(b, (struct span){at, (size_t)(t->item[i].at.p - at)});
    amount_write(b, &a, by);
    i += a.tokens - 1;
    at = t->item[i].at.p + t->item[i].at.n;
    count++;
  }
  if (from < to) {
    const char *end = t->item[to - 1].at.p + t->item[to - 1].at.n;
    if (end > at) buf_add(b, (struct span){at, (size_t)(end - at)});
  }
  return count;
}

bool refer_same_food(struct span a, struct span b) {
  for (size_t i = 0; i < a.n;) {
    size_t from = i;
    while (i < a.n && post_is_letter(a.p[i])) i++;
    struct span word = span_cut(a, from, i);
    if (word.n > 2 && !is_chatter(word) && !net_is_kind(word) && net_has_word(b, word)) return true;
    if (i == from) i++;
  }
  return false;
}

/* ---- what is said beside a line ---- */

void refer_beside(struct story *st, size_t i, struct span food, const char *assumed) {
  struct post_reader *r = st->r;
  if (r->beside_count == COUNT_OF(r->beside)) return;
  r->beside[r->beside_count++] = (struct said_beside){i < st->count ? st->s[i].line : 0, arena_span(r->keep, food), assumed};
}

void post_refer_beside(struct post_reader *r) {
  for (size_t k = 0; k < r->beside_count; k++)
    for (size_t i = 0; i < r->count; i++)
      if (r->item[i].kind == ITEM_FOOD && (r->beside[k].line == 0 || r->item[i].line == r->beside[k].line) &&
          (r->beside[k].food.n == 0 || refer_same_food(r->beside[k].food, r->item[i].words)))
        post_doubt(r, i, r->beside[k].assumed);
}
