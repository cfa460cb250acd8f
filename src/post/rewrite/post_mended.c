/* A line that goes on to mend itself: "1 lb liver... too rich, now it's 8 oz" is 8 oz of liver, "4 oz pork kidney - scrap
 * that, it's lamb kidney now" is lamb's, "1 oz husk... never mind, dropped it" is nothing. Written over in its place, and
 * told. */
#include "post/hear/post_net.h"
#include "post/rewrite/post_rewrite.h"

enum { MENDED_MOST = 400, CUE_FAR = 10, MEANT_FAR = 12 };

struct head {
  size_t from, to; /* tokens */
  size_t amount;   /* where it begins */
  struct post_amount value;
  size_t foods; /* names of foods in it */
};

/* Dots, or a dash between blanks: the tokens of the break; 0. */
static size_t break_at(const struct tokens *t, size_t at) {
  size_t n = 0;
  while (is_mark(t, at + n, '.')) n++;
  if (n > 1) return n;
  if (at < t->count && t->item[at].kind == TOKEN_MARK && t->item[at].mark == 0x2026) return 2;
  return is_mark(t, at, '-') && !t->item[at].glued && at + 1 < t->count && !t->item[at + 1].glued ? 1 : 0;
}

static struct post_amount amount_here(const struct tokens *t, size_t at) {
  struct post_amount a =
      not_an_amount(t, at) > 0 || frequency_at(t, at).tokens > 0 ? (struct post_amount){0} : post_amount_at(t, at);
  if (a.by_word && !a.is_mass && !a.is_volume) a.tokens = 0;
  return a;
}

/* The amounts and foods of [from, h->to), its only amount into 'h': how many amounts. */
static size_t count_head(struct post_reader *r, const struct tokens *t, size_t from, struct head *h) {
  size_t count = 0;
  h->from = from, h->foods = 0;
  for (size_t i = from; i < h->to;) {
    struct post_amount a = amount_here(t, i);
    if (a.tokens > 1 && i + a.tokens == h->to + 1) a.tokens--; /* "40 g...": the stop of its unit is one of the dots */
    if (a.tokens > 0 && i + a.tokens <= h->to) {
      h->amount = i, h->value = a;
      count++;
    } else {
      h->foods += post_mention_at(r, t, i) > 0;
      size_t skip = not_an_amount(t, i);
      a.tokens = skip > 0 ? skip : 1;
    }
    i += a.tokens;
  }
  return count;
}

/* What stands before the break: one amount and the words beside it, back to a mark or word that parts foods. */
static bool head_before(struct post_reader *r, const struct tokens *t, size_t to, struct head *h) {
  enum { PARTS_MOST = 3 };
  *h = (struct head){.to = to};
  int parts = 0;
  for (size_t from = to; from > 0; from--) {
    size_t at = from - 1;
    bool ends =
        is_mark(t, at, ';') || is_mark(t, at, '.') || is_mark(t, at, '!') || is_mark(t, at, '?') || is_mark(t, at, 0x1F);
    bool part = is_mark(t, at, ',') || is_mark(t, at, ':') || says(t, at, "and plus with");
    if (!ends && !part && at > 0) continue;
    size_t count = count_head(r, t, ends || part ? from : 0, h);
    if (count > 1) return false;
    if (count == 1 && (h->foods > 0 || at == 0)) break;
    if (ends || ++parts > PARTS_MOST || at == 0) return false;
  }
  while (h->from < h->to && t->item[h->from].kind == TOKEN_MARK) h->from++;
  for (size_t i = h->from; i < h->to; i++)
    if (says(t, i, "was were used until till before previously originally old")) return false; /* read as a change */
  return h->to > 0 && h->from < h->to && h->value.tokens > 0;
}

static bool same_kind(const struct post_amount *a, const struct post_amount *b) {
  if (a->is_percent || b->is_percent) return a->is_percent && b->is_percent;
  if (a->is_mass || b->is_mass) return a->is_mass && b->is_mass;
  return a->is_volume == b->is_volume;
}

static bool is_word_in(const struct tokens *t, size_t from, size_t to, size_t at) {
  return net_has_word(tokens_span(t, from, to - from), t->item[at].word);
}

/* "if", "on Fridays", "was": what follows is not what is fed instead. */
static bool is_of_other_times(const struct tokens *t, size_t from, size_t to) {
  for (size_t i = from; i < to; i++)
    if (says(t, i, "if when unless on sometimes until than was were instead except")) return true;
  return false;
}

struct mend {
  size_t end; /* what is written over goes up to here */
  struct span amount, food;
  bool drops;
};

/* Where the clause that begins at 'from' ends, and the talk behind it. */
static size_t end_of_talk(struct post_reader *r, const struct tokens *t, size_t from, bool all) {
  for (size_t end = from, next = from;;) {
    bool plain = true;
    while (next < t->count && !is_mark(t, next, ',') && !is_mark(t, next, ';') && !is_mark(t, next, '.') &&
           !is_mark(t, next, '!') && !is_mark(t, next, '+') && !is_mark(t, next, ')')) {
      plain = plain && amount_here(t, next).tokens == 0 && (next == from || post_mention_at(r, t, next) == 0);
      next++;
    }
    if (!plain) return end;
    end = next;
    if (next + 1 >= t->count || (!all && !says(t, next + 1, "i we he she it since as because cos bc so vet my"))) return end;
    next++;
  }
}

/* The amount or food that is meant, behind a word that takes back what stands in 'h'. */
static bool meant_behind(struct post_reader *r, const struct tokens *t, const struct head *h, size_t cue, bool close,
                         struct mend *m) {
  size_t far = close ? 3 : MEANT_FAR;
  for (size_t i = cue; i < t->count && i < cue + far; i++) {
    struct post_amount a = amount_here(t, i);
    size_t behind = i + a.tokens;
    if (a.tokens > 0 && says(t, i > 0 ? i - 1 : 0, "was from were per") && i > 0) {
      i = behind - 1;
      continue;
    }
    if (a.tokens > 0) {
      if (says(t, behind, "of")) behind++;
      size_t named = post_mention_at(r, t, behind);
      bool same = named > 0 && is_word_in(t, h->from, h->to, behind + named - 1);
      if (named > 0 && !same) return false;
      if (!same_kind(&a, &h->value)) return false;
      size_t often = frequency_at(t, i + a.tokens).tokens;
      m->amount = tokens_span(t, i, a.tokens + (named > 0 ? 0 : often));
      size_t after = named > 0 ? behind + named : i + a.tokens + often;
      while (after < t->count && (is_mark(t, after, ',') || says(t, after, "so"))) { /* "say 10 g, so 10 g" */
        struct post_amount again = amount_here(t, after + 1);
        if (says(t, after + 1, "so")) again = amount_here(t, after + 2);
        if (again.tokens == 0 || again.low != a.low || strcmp(again.unit, a.unit) != 0) break;
        after += (says(t, after + 1, "so") ? 2u : 1u) + again.tokens;
      }
      m->end = end_of_talk(r, t, after, false);
      return true;
    }
    size_t named = close ? 0 : post_mention_at(r, t, i);
    if (named == 0) continue;
    size_t from = i, end = post_food_end(r, t, i);
    if (end < i + named) end = i + named;
    while (from > cue && is_word(t, from - 1) && says_a(t, from - 1, CLASS_ANIMAL_OF_FLESH)) from--;
    bool told = says(t, end, "now instead today") || end >= t->count || t->item[end].kind == TOKEN_MARK;
    if (from > cue + 4 || !told || post_any_amount(&(struct tokens){t->item, end + 3 < t->count ? end + 3 : t->count}, end))
      return false;
    m->food = tokens_span(t, from, end - from);
    m->end = end_of_talk(r, t, end, false);
    return true;
  }
  return false;
}

/* What mends 'h' in the words from 'at' on. */
static bool mends(struct post_reader *r, const struct tokens *t, const struct head *h, size_t at, bool close,
                  struct mend *m) {
  size_t far = close ? 1 : CUE_FAR;
  *m = (struct mend){0};
  for (size_t i = at; i < t->count && i < at + far; i++) {
    const char *means;
    size_t used = meaning_at(t, i, CLASS_MENDS, &means);
    size_t amount = amount_here(t, i).tokens;
    if (amount > 0 && says(t, i + amount, "now today nowadays") && !close) return meant_behind(r, t, h, i, true, m);
    if (amount > 0) return false;
    if (used == 0 || (close && strcmp(means, "drops") == 0) || says(t, i + used, "and")) continue;
    if (strcmp(means, "drops") != 0 && meant_behind(r, t, h, i + used, close, m)) return true;
    if (strcmp(means, "drops") != 0) continue;
    size_t end = end_of_talk(r, t, i, true);
    bool again = end < t->count && meant_behind(r, t, h, i + used, close, m);
    if (again) return true;
    m->drops = true, m->end = end;
    return !is_of_other_times(t, at, end);
  }
  return false;
}

/* "... ok, it's 3 quail eggs a week": behind dots, another amount of the same food needs no word that takes back. */
static bool says_again(struct post_reader *r, const struct tokens *t, const struct head *h, size_t at, struct mend *m) {
  enum { TALK_MOST = 5 };
  if (h->foods == 0 || (h->value.is_mass || h->value.is_volume)) return false;
  for (size_t i = at; i < t->count && i < at + TALK_MOST; i++) {
    struct post_amount a = amount_here(t, i);
    if (a.tokens == 0 && !is_word(t, i) && !is_mark(t, i, ',')) return false;
    if (a.tokens == 0) continue;
    size_t end = i + a.tokens;
    size_t named = 0;
    while (end < t->count && is_word(t, end) && (named = post_mention_at(r, t, end)) == 0 &&
           is_word_in(t, h->from, h->to, end))
      end++;
    if (named == 0 || !is_word_in(t, h->from, h->to, end + named - 1) || !same_kind(&a, &h->value)) return false;
    *m = (struct mend){.end = i, .amount = {"", 0}};
    return true;
  }
  return false;
}

/* Writes 'm' over the line that 't' was read from, whose bytes are 'out'. */
static void write_over(const struct tokens *t, const struct head *h, const struct mend *m, const char *line, char *out,
                       struct arena *arena) {
  size_t from = (size_t)(token_begin(t, h->from) - line), to = (size_t)(token_end(t, m->end - 1) - line);
  struct buf b;
  buf_init(&b, arena, to - from + 8);
  struct span before = tokens_span(t, h->from, h->amount - h->from), own = tokens_span(t, h->amount, h->value.tokens);
  size_t rest = h->amount + h->value.tokens;
  struct span behind = rest < h->to ? tokens_span(t, rest, h->to - rest) : (struct span){"", 0};
  if (m->amount.n > 0)
    buf_addf(&b, "%.*s %.*s %.*s", SPAN_ARG(before), SPAN_ARG(m->amount), SPAN_ARG(behind));
  else if (m->food.n > 0)
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(own), SPAN_ARG(m->food));
  struct span text = span_trim(buf_span(&b));
  if (text.n > to - from) return;
  memset(out + from, ' ', to - from);
  if (text.n > 0) memcpy(out + from, text.p, text.n);
}

/* "Our tom, 6.8 kg, should be 4.5 kg": what an animal weighs, which nobody mends. */
static bool is_of_an_animal(const struct head *h) {
  return h->foods == 0 && (strcmp(h->value.unit, "kg") == 0 || strcmp(h->value.unit, "lb") == 0);
}

struct span post_mended(struct post_reader *r, struct span line, char *out) {
  struct tokens t = post_tokens(r, line);
  for (size_t at = 1; at + 1 < t.count; at++) {
    size_t dots = break_at(&t, at);
    bool comma = dots == 0 && (is_mark(&t, at, ',') || is_mark(&t, at, '('));
    if (dots == 0 && !comma) continue;
    struct head h;
    struct mend m;
    size_t behind = at + (comma ? 1 : dots);
    bool may = comma ? phrase_of(&t, behind, CLASS_MENDS) > 0 : true;
    if (!may || !head_before(r, &t, at, &h) || is_of_an_animal(&h)) continue;
    bool mended = mends(r, &t, &h, behind, comma, &m) || (dots > 1 && says_again(r, &t, &h, behind, &m));
    if (!mended || m.end <= h.from || m.end > t.count || (h.foods == 0 && m.amount.n > 0 && h.to < h.from + 2)) continue;
    if (is_mark(&t, at, '(') && is_mark(&t, m.end, ')')) m.end++;
    struct span gone = tokens_span(&t, h.from, m.end - h.from);
    if (gone.n > MENDED_MOST) continue;
    struct span told = arena_span(r->keep, gone);
    write_over(&t, &h, &m, line.p, out, r->arena);
    return told;
  }
  return (struct span){line.p, 0};
}
