/* One amount and several foods of which one is fed: "300 g of either chicken or turkey mince", "50 g carrots or peas", "100
 * g of cod, haddock or salmon", "either beef or lamb, 300 g". Each is written out with the amount, as one in the place of
 * another (post_doubt.c counts the first and asks). */
#include "base/num.h"
#include "post/rewrite/post_rewrite.h"

enum { EITHER_MOST = 5, EITHER_WORDS_MOST = 6 };

struct either {
  struct span food[EITHER_MOST];
  size_t count, end; /* behind the last one */
};

static bool parts(const struct tokens *t, size_t at) {
  return says(t, at, "or") || is_mark(t, at, ',') || is_mark(t, at, '/');
}

static bool ends_food(const struct tokens *t, size_t at) {
  return at >= t->count || t->item[at].kind == TOKEN_MARK || frequency_at(t, at).tokens > 0 || says(t, at, "or") ||
         says_a(t, at, CLASS_BEHIND_A_NAME) || says_a(t, at, CLASS_CLAUSE_OPENER) || post_amount_at(t, at).tokens > 0;
}

/* One name, and nothing besides. */
static size_t food_end(struct post_reader *r, const struct tokens *t, size_t from) {
  size_t to = from;
  while (!ends_food(t, to)) to++;
  return to > from && to - from <= EITHER_WORDS_MOST && post_names_food(r, t, from, to) ? to : from;
}

static bool of_one_part(struct post_reader *r, const struct either *e) {
  struct search_hit first, hit;
  for (size_t i = 0; i < e->count; i++) {
    if (!post_look_up(r, e->food[i], i == 0 ? &first : &hit)) return false;
    if (i > 0 && library_food(r->lib, hit.food)->part != library_food(r->lib, first.food)->part) return false;
  }
  return true;
}

/* "chicken or turkey mince": what stands behind the last animal belongs to each. */
static void share_noun(struct post_reader *r, struct either *e) {
  struct tokens last = tokens_of(e->food[e->count - 1], r->arena);
  if (last.count < 2 || !says_a(&last, 0, CLASS_ANIMAL_OF_FLESH)) return;
  struct span noun = tokens_span(&last, 1, last.count - 1);
  for (size_t i = 0; i + 1 < e->count; i++) {
    struct tokens own = tokens_of(e->food[i], r->arena);
    if (own.count != 1 || !says_a(&own, 0, CLASS_ANIMAL_OF_FLESH)) continue;
    struct buf b;
    buf_init(&b, r->arena, e->food[i].n + noun.n + 2);
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(e->food[i]), SPAN_ARG(noun));
    e->food[i] = buf_span(&b);
  }
}

/* The foods from 'from' on with "or" before the last. */
static bool choice_at(struct post_reader *r, const struct tokens *t, size_t from, struct either *e) {
  bool commas = false, is_choice = false;
  *e = (struct either){.count = 0};
  for (size_t at = from; e->count < EITHER_MOST;) {
    size_t to = food_end(r, t, at);
    if (to == at) break;
    e->food[e->count++] = tokens_span(t, at, to - at);
    e->end = to;
    if (is_choice || !parts(t, to)) break;
    commas = commas || !says(t, to, "or");
    at = to + 1;
    if (says(t, to, "or") || (is_mark(t, to, ',') && says(t, to + 1, "or"))) is_choice = true;
    if (is_mark(t, to, ',') && says(t, at, "or")) at++;
  }
  if (!is_choice || e->count < 2) return false;
  share_noun(r, e);
  return !commas || of_one_part(r, e); /* "100 g rice, carrots or peas" are no such choice */
}

/* "8 g liver (chicken or ox)": the food stands before the animals. */
static bool choice_in_bracket(struct post_reader *r, const struct tokens *t, size_t from, struct either *e) {
  size_t open = from;
  while (is_word(t, open) && open < from + 3) open++;
  *e = (struct either){.count = 0};
  if (open == from || !is_mark(t, open, '(') || !says(t, open + 2, "or") || !is_mark(t, open + 4, ')')) return false;
  if (!says_a(t, open + 1, CLASS_ANIMAL_OF_FLESH) || !says_a(t, open + 3, CLASS_ANIMAL_OF_FLESH)) return false;
  for (size_t i = open + 1; i <= open + 3; i += 2) {
    struct buf b;
    buf_init(&b, r->arena, 120 + t->item[open].at.n);
    buf_addf(&b, "%.*s %.*s", SPAN_ARG(t->item[i].at), SPAN_ARG(quoted(tokens_span(t, from, open - from))));
    e->food[e->count++] = buf_span(&b);
  }
  e->end = open + 5;
  return true;
}

static struct span each_written(struct post_reader *r, struct span text, const struct either *e, struct span amount,
                                struct span often, struct span replaced) {
  struct buf b;
  buf_init(&b, r->keep, (4 * EITHER_MOST + 4) * text.n + 400); /* of each an amount, a food, a noun and how often */
  buf_add(&b, (struct span){text.p, (size_t)(replaced.p - text.p)});
  for (size_t i = 0; i < e->count; i++)
    buf_addf(&b, "%s%.*s %.*s%s%.*s", i > 0 ? ", or " : "", SPAN_ARG(amount), SPAN_ARG(e->food[i]), often.n > 0 ? " " : "",
             SPAN_ARG(often));
  const char *rest = replaced.p + replaced.n;
  buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
  return buf_span(&b);
}

/* "Either beef or lamb, 300 g": the amount behind, and no other food to it; its tokens, 0. */
static size_t amount_behind(struct post_reader *r, const struct tokens *t, size_t at, size_t *begin) {
  *begin = at;
  while (is_mark(t, *begin, ',') || is_mark(t, *begin, '-') || is_mark(t, *begin, ':') || is_mark(t, *begin, '(')) ++*begin;
  if (*begin == at) return 0;
  struct post_amount a = post_amount_at(t, *begin);
  size_t behind = *begin + a.tokens;
  if (!a.is_mass && !a.is_volume) return 0;
  return behind >= t->count || post_food_end(r, t, behind) == behind ? a.tokens : 0;
}

/* "(alternate days)", ", likewise alternating", "on alternate days", "(I alternate)", "same thing, alternating": each of them
 * on its day; the tokens, 0. */
static size_t turns_behind(const struct tokens *t, size_t at) {
  enum { FAR = 8 };
  size_t i = at;
  bool open = false, turns = false;
  for (; i < t->count && i < at + FAR; i++) {
    bool turning = says_a(t, i, CLASS_TAKING_TURNS_ABOUT) || says_a(t, i, CLASS_TAKING_TURNS);
    if (is_mark(t, i, ')') && open) {
      i++;
      break;
    }
    open = open || is_mark(t, i, '(');
    turns = turns || turning;
    if (is_mark(t, i, ',') && turns) break;
    bool around = turning || is_mark(t, i, ',') || is_mark(t, i, '(') || is_mark(t, i, '-') ||
                  says(t, i, "i we on in the them these it same thing system way likewise also days day daily every other each again too");
    if (!around) break;
  }
  bool ends = i >= t->count || t->item[i].kind == TOKEN_MARK || t->item[i - 1].kind == TOKEN_MARK || says(t, i, "and plus with");
  return turns && ends ? i - at : 0;
}

/* Each with its amount, every so many days. */
static struct span turns_written(struct post_reader *r, struct span text, const struct either *e, struct span amount,
                                 struct span replaced) {
  struct buf b;
  buf_init(&b, r->keep, (4 * EITHER_MOST + 4) * text.n + 400);
  buf_add(&b, (struct span){text.p, (size_t)(replaced.p - text.p)});
  for (size_t i = 0; i < e->count; i++)
    buf_addf(&b, "%s%.*s %.*s every %d days", i > 0 ? ", " : "", SPAN_ARG(amount), SPAN_ARG(e->food[i]), (int)e->count);
  const char *rest = replaced.p + replaced.n;
  buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
  return buf_span(&b);
}

bool post_either_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  struct either e;
  bool any = false;
  for (size_t i = 0; i < t->count; i++) any = any || says(t, i, "or");
  for (size_t i = 0; i < t->count && any; i++) {
    struct post_amount a = post_amount_at(t, i);
    size_t from = i + a.tokens;
    if (a.tokens > 0 && !a.is_percent && !a.cannot) {
      if (says(t, from, "of")) from++;
      if (says(t, from, "either")) from++;
      if (choice_at(r, t, from, &e) || choice_in_bracket(r, t, from, &e)) {
        size_t turns = turns_behind(t, e.end);
        if (turns > 0) {
          *out = turns_written(r, text, &e, tokens_span(t, i, a.tokens), tokens_span(t, i, e.end + turns - i));
          return true;
        }
        size_t often = e.end < t->count ? frequency_at(t, e.end).tokens : 0;
        struct span how_often = often > 0 ? tokens_span(t, e.end, often) : (struct span){"", 0};
        *out = each_written(r, text, &e, tokens_span(t, i, a.tokens), how_often, tokens_span(t, i, e.end + often - i));
        return true;
      }
      i += a.tokens - 1;
      continue;
    }
    size_t begin;
    if (!says(t, i, "either") || !choice_at(r, t, i + 1, &e)) continue;
    size_t amount = amount_behind(r, t, e.end, &begin);
    if (amount == 0) continue;
    *out = each_written(r, text, &e, tokens_span(t, begin, amount), (struct span){"", 0},
                        tokens_span(t, i, begin + amount - i));
    return true;
  }
  return false;
}
