/* Mixtures that a post names with an amount and tells the parts of elsewhere: "400 g from my meat mix ... Meat mix is 70 %
 * turkey mince, 20 % beef heart, 10 % chicken liver". The parts are written behind the name, and their own sentence goes. */
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

enum { MIXES_MOST = 4, NAME_MOST = 3 };

struct mix {
  struct span name, parts; /* parts as they are read: "equal parts carrot, kale" */
  struct span kind;        /* the name, or "mix" of a tub */
  struct span told;        /* the sentence that tells them */
  bool counted;
};

static bool is_vessel(const struct tokens *t, size_t at) {
  return at > 0 && says(t, at, "tub pot bag box recipe batch") && is_word(t, at - 1);
}

static bool ends_name(const struct tokens *t, size_t at) {
  return says_a(t, at, CLASS_MIXED_KIND) || says_a(t, at, CLASS_WORD_FOR_MANY) || is_vessel(t, at);
}

/* Words of parts: shares, fractions, or as much of each. */
static bool tells_parts(const struct tokens *t, size_t from, size_t to) {
  double part;
  for (size_t i = from; i < to; i++)
    if (is_mark(t, i, '%') || post_part_at(t, i, &part) > 0 || phrase_of(t, i, CLASS_AS_MUCH_OF_EACH) > 0) return true;
  return false;
}

/* "even much carrot, kale and beans, cooked", "as much broccoli as carrot", "spinach and squash, same of each": a list that the
 * reader of parts knows, "equal parts ..."; others as they stand. */
static struct span written_parts(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  bool even = false;
  struct buf b;
  for (size_t i = from; i < to; i++) even = even || phrase_of(t, i, CLASS_AS_MUCH_OF_EACH) > 0;
  size_t last = to;
  while (last > from && !is_mark(t, last - 1, ',')) last--;
  if (last > from + 1 && !post_names_food(r, t, last, to) && !(even && tells_parts(t, last, to))) to = last - 1; /* ", cooked" */
  if (!even) return tokens_span(t, from, to - from);
  buf_init(&b, r->keep, 300);
  buf_adds(&b, "equal parts");
  bool any = false, open = false;
  for (size_t i = from; i < to;) {
    size_t used = phrase_of(t, i, CLASS_AS_MUCH_OF_EACH), end = i + used;
    if (used == 0 && !says(t, i, "as and")) end = post_food_end(r, t, i);
    for (size_t k = i + 1; used == 0 && k < end; k++) /* "as much broccoli as carrot" */
      if (says(t, k, "as and")) end = k;
    if (used > 0 || end == i) {
      i = end > i ? end : i + 1;
      open = any;
      continue;
    }
    buf_addf(&b, "%s %.*s", open ? "," : "", SPAN_ARG(tokens_span(t, i, end - i)));
    any = true, i = end;
  }
  return buf_span(&b);
}

/* "The meat mix is 60 % beef, ...", at the begin of a sentence. */
static bool mix_at(struct post_reader *r, const struct tokens *t, size_t at, struct mix *m) {
  size_t from = says(t, at, "the my our his her their a") ? at + 1 : at, end = from, to, verb;
  while (end < t->count && end < from + NAME_MOST && is_word(t, end) && !says(t, end, "is are has contains holds equals consists made"))
    end++;
  if (end == from || !ends_name(t, end - 1) || (end == from + 1 && is_vessel(t, from))) return false;
  verb = end;
  if (is_mark(t, verb, ':') || is_mark(t, verb, '=') || says(t, verb, "is are has contains holds equals"))
    verb++;
  else if (says(t, verb, "consists made"))
    verb += 1 + says(t, verb + 1, "of up");
  else
    return false;
  for (to = verb; !ends_sentence(t, to); to++) {
    struct post_amount a = post_amount_at(t, to);
    if (a.is_mass || a.is_volume) return false;
  }
  if (to < verb + 3 || !tells_parts(t, verb, to) || !post_names_food(r, t, verb, to)) return false;
  bool stop = to < t->count;
  *m = (struct mix){.name = tokens_span(t, from, end - from),
                    .kind = is_vessel(t, end - 1) ? SPAN_LIT("mix") : tokens_span(t, from, end - from),
                    .parts = written_parts(r, t, verb, to),
                    .told = tokens_span(t, at, to + stop - at)};
  return true;
}

static size_t find_mixes(struct post_reader *r, struct span text, struct mix m[MIXES_MOST]) {
  size_t n = 0;
  struct span line;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i + 4 < t.count && n < MIXES_MOST && t.count <= LINE_MOST_TOKENS; i++)
      if ((i == 0 || ends_sentence(&t, i - 1) || is_mark(&t, i - 1, '-')) && mix_at(r, &t, i, &m[n])) n++;
  }
  return n;
}

/* The tokens of the mixture's name here, in one number or the other; 0. */
static size_t name_at(const struct post_reader *r, const struct tokens *t, size_t at, struct span name) {
  struct tokens n = post_tokens(r, name);
  for (size_t k = 0; k < n.count; k++) {
    if (!is_word(t, at + k) || !is_word(&n, k)) return 0;
    struct span a = t->item[at + k].word, b = n.item[k].word;
    if (a.n > b.n + 1 || b.n > a.n + 1) return 0;
    struct span shorter = a.n < b.n ? a : b, longer = a.n < b.n ? b : a;
    if (!span_eq_fold(shorter, span_cut(longer, 0, shorter.n))) return 0;
    if (longer.n > shorter.n && longer.p[longer.n - 1] != 's') return 0;
  }
  return n.count;
}

/* "400 g from my meat mix", at the amount: where the words between it and the name begin, and where the name ends; false: none. */
static bool counted_at(const struct post_reader *r, const struct tokens *t, size_t at, struct mix *m, size_t *from, size_t *to) {
  struct post_amount a = post_amount_at(t, at);
  if (!a.is_mass || a.low != a.high) return false;
  size_t i = *from = at + a.tokens;
  struct frequency daily = i < t->count ? frequency_at(t, i) : (struct frequency){0};
  if (daily.times_per_28 == CALENDAR_DAYS) i = *from = i + daily.tokens;
  while (says(t, i, "of from out my the our his her their this")) i++;
  size_t used = name_at(r, t, i, m->name);
  *to = i + used;
  return used > 0 && !is_mark(t, *to, '(') && !is_mark(t, *to, ':') && !is_mark(t, *to, '=') && !says(t, *to, "is are");
}

static const struct mix *told_here(const struct mix *m, size_t n, const char *at) {
  for (size_t k = 0; k < n; k++)
    if (m[k].counted && m[k].told.p == at) return &m[k];
  return NULL;
}

/* The line with the parts behind what is counted, and without what told them. */
static void write_line(struct post_reader *r, struct span line, struct mix *m, size_t n, struct buf *b) {
  struct tokens t = post_tokens(r, line);
  const char *from = line.p;
  for (size_t i = 0; i < t.count; i++) {
    const struct mix *told = told_here(m, n, t.item[i].at.p);
    if (told) {
      buf_add(b, (struct span){from, (size_t)(told->told.p - from)});
      from = told->told.p + told->told.n;
      while (i + 1 < t.count && t.item[i + 1].at.p < from) i++;
      continue;
    }
    for (size_t k = 0; k < n; k++) {
      size_t words, end;
      if (!counted_at(r, &t, i, &m[k], &words, &end)) continue;
      buf_add(b, (struct span){from, (size_t)(t.item[words].at.p - from)});
      buf_addf(b, "%.*s (%.*s)", SPAN_ARG(m[k].kind), SPAN_ARG(m[k].parts));
      from = t.item[end - 1].at.p + t.item[end - 1].at.n;
      i = end - 1;
      break;
    }
  }
  buf_add(b, (struct span){from, (size_t)(line.p + line.n - from)});
}

struct span post_mixes(struct post_reader *r, struct span text, struct arena *arena) {
  struct mix m[MIXES_MOST];
  size_t n = find_mixes(r, text, m), counted = 0, from, to;
  struct span line;
  for (struct lines lines = lines_of(text); n > 0 && lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count; i++)
      for (size_t k = 0; k < n; k++)
        if (!m[k].counted && counted_at(r, &t, i, &m[k], &from, &to)) m[k].counted = true, counted++;
  }
  if (counted == 0) {
    arena_rewind(r->arena, r->begin);
    return text;
  }
  size_t kept = 0;
  for (size_t k = 0; k < n; k++)
    if (m[k].counted) m[kept++] = m[k];
  struct buf b;
  buf_init(&b, arena, 3 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    write_line(r, line, m, kept, &b);
    buf_addc(&b, '\n');
  }
  arena_rewind(r->arena, r->begin);
  return buf_span(&b);
}
