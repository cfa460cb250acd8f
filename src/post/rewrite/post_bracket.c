/* "1 tsp oil (salmon)", "liver 20 g (beef)": which one it is stands behind the name, in brackets; written out as the name
 * that it is. */
#include "post/rewrite/post_rewrite.h"

static bool fits_so(struct post_reader *r, struct span words) {
  struct search_hit hit;
  return post_look_up(r, words, &hit) && hit.words_missed == 0 && hit.score >= 0.6;
}

/* A part of an animal, or an oil, that has no animal or plant before it: where it stands before 'open'; t->count. */
static size_t part_before(const struct tokens *t, size_t open) {
  for (size_t i = open; i-- > 0 && i + 5 > open;) {
    bool oil = says(t, i, "oil oils"), part = oil || says_a(t, i, CLASS_ORGAN_OF_MEAT) || says_a(t, i, CLASS_MINCED) ||
                                              says(t, i, "meat neck necks wing wings tripe tongue feet eggs egg yolk fat");
    if (!part) {
      if (is_word(t, i) && !means_as(t->item[i].word, CLASS_UNIT)) return t->count;
      continue;
    }
    struct post_amount a = i + 1 < open ? post_amount_at(t, i + 1) : (struct post_amount){0};
    if (i + 1 + a.tokens != open) return t->count;
    bool named = i > 0 && is_word(t, i - 1) && !token_is_a(&t->item[i - 1], CLASS_CHATTER) &&
                 !means_as(t->item[i - 1].word, CLASS_UNIT) && !says(t, i - 1, "raw fresh cooked minced t c");
    return named ? t->count : i;
  }
  return t->count;
}

/* "10% bone (chicken feet)", "15% raw meaty bones (chicken necks)": the bracket names the food itself, behind an amount and
 * a word for many. */
static bool food_in_bracket(struct post_reader *r, const struct tokens *t, struct span text, size_t open, struct span *out) {
  size_t from = open, close = open + 1;
  if (!is_mark(t, open, '(')) return false;
  while (from > 0 && (says_a(t, from - 1, CLASS_WORD_FOR_MANY) || says(t, from - 1, "raw meaty fresh"))) from--;
  if (from == open || !says_a(t, open - 1, CLASS_WORD_FOR_MANY)) return false;
  bool amount = false;
  for (size_t i = from > 4 ? from - 4 : 0; i < from && !amount; i++) {
    struct post_amount a = post_amount_at(t, i);
    amount = a.tokens > 0 && !a.by_word && i + a.tokens == from;
  }
  while (close < t->count && is_word(t, close) && close < open + 4) close++;
  if (says_a(t, open + 1, CLASS_PREPARED) || qualifier_of_food_at(t, open + 1) > 0) return false; /* "veg (mashed)" */
  if (!amount || close == open + 1 || !is_mark(t, close, ')') || !post_names_food(r, t, open + 1, close)) return false;
  struct span food = tokens_span(t, open + 1, close - open - 1);
  const struct token *last = &t->item[close];
  const char *end = last->at.p + last->at.n, *begin = t->item[from].at.p;
  struct buf b;
  if (!fits_so(r, food)) return false;
  buf_init(&b, r->keep, text.n + 8);
  buf_add(&b, (struct span){text.p, (size_t)(begin - text.p)});
  buf_add(&b, food);
  buf_add(&b, (struct span){end, (size_t)(text.p + text.n - end)});
  *out = buf_span(&b);
  return true;
}

/* "Sardines (water) 1/2 can", "mussels 15 g (green lipped)": with what stands in the bracket it is a food's everyday name.
 */
static bool name_with_bracket(struct post_reader *r, const struct tokens *t, struct span text, size_t open,
                              struct span *out) {
  enum { AMOUNT_MOST = 3 };
  size_t close = open + 1, food = open;
  if (!is_mark(t, open, '(')) return false;
  while (close < t->count && is_word(t, close) && close < open + 3) close++;
  if (close == open + 1 || !is_mark(t, close, ')')) return false;
  bool packed = holds_a(t, open + 1, close, CLASS_PACKED_IN);
  for (size_t back = 1; back <= AMOUNT_MOST && back < open && food == open; back++)
    if (post_amount_at(t, open - back).tokens == back) food = open - back;
  if (food == open && !packed) return false; /* "chicken (thigh)" is read as it stands */
  if (food == 0 || !is_word(t, food - 1) || post_mention_at(r, t, food - 1) == 0) return false;
  struct span word = t->item[food - 1].at, said = tokens_span(t, open + 1, close - open - 1);
  struct buf name, b;
  struct search_hit hit;
  buf_init(&name, r->arena, word.n + said.n + 8);
  if (packed)
    buf_addf(&name, "%.*s in %.*s", SPAN_ARG(word), SPAN_ARG(said));
  else
    buf_addf(&name, "%.*s %.*s", SPAN_ARG(said), SPAN_ARG(word));
  if (!post_look_up(r, buf_span(&name), &hit) || !hit.exact_name || hit.words_missed > 0) return false;
  const char *behind = word.p + word.n, *from = t->item[open].at.p, *end = t->item[close].at.p + t->item[close].at.n;
  buf_init(&b, r->keep, text.n + name.n + 8);
  buf_add(&b, (struct span){text.p, (size_t)(word.p - text.p)});
  buf_add(&b, buf_span(&name));
  buf_add(&b, (struct span){behind, (size_t)(from - behind)});
  buf_add(&b, (struct span){end, (size_t)(text.p + text.n - end)});
  *out = buf_span(&b);
  return true;
}

bool post_kind_in_bracket(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t open = 1; open + 1 < t->count; open++) {
    size_t close = open + 1, part;
    if (food_in_bracket(r, t, text, open, out) || name_with_bracket(r, t, text, open, out)) return true;
    bool bracket = is_mark(t, open, '('), at_end = is_mark(t, open, ',') || is_mark(t, open, ':') || is_mark(t, open, '-');
    if ((!bracket && !at_end) || (part = part_before(t, open)) >= t->count) continue;
    while (close < t->count && is_word(t, close) && close < open + 4) close++;
    if (close == open + 1 || (bracket ? !is_mark(t, close, ')') : close < t->count || !says(t, part, "oil oils"))) continue;
    struct span kind = tokens_span(t, open + 1, close - open - 1);
    if (!says(t, part, "oil oils") && !token_is_a(&t->item[open + 1], CLASS_ANIMAL_OF_FLESH)) continue;
    if (token_is_a(&t->item[open + 1], CLASS_CHATTER)) continue;
    struct buf name, b;
    buf_init(&name, r->arena, text.n + 8);
    bool whole = span_holds_fold(kind, t->item[part].word); /* "oil (cod liver oil)" */
    buf_add(&name, kind);
    if (!whole) buf_addf(&name, " %.*s", SPAN_ARG(t->item[part].at));
    if (!fits_so(r, buf_span(&name))) continue;
    const struct token *last = &t->item[bracket ? close : close - 1];
    const char *end = last->at.p + last->at.n, *at = t->item[part].at.p, *behind = at + t->item[part].at.n;
    buf_init(&b, r->keep, 2 * text.n + 8);
    buf_add(&b, (struct span){text.p, (size_t)(at - text.p)});
    buf_add(&b, buf_span(&name));
    buf_add(&b, (struct span){behind, (size_t)(t->item[open].at.p - behind)});
    while (b.n > 0 && b.p[b.n - 1] == ' ') b.n--;
    buf_add(&b, (struct span){end, (size_t)(text.p + text.n - end)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}
