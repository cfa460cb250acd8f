/* Shares with their grams beside them: "10 % heart 72 g", "5 % liver (beef) 36", "60 % beef mince (240 g)". The grams are
 * what is fed; what they are shares of, where two of them agree on it or the post tells it ("2.5 % = 725 g"), weighs the
 * shares that have none ("7 % veg: broccoli, spinach"). */
#include "base/num.h"
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

enum { SHARES_MOST = 40, LABEL_WORDS = 3, OF_WEIGHT_MOST = 12 };
static const double NEAR = 0.08, NEAR_G = 1.2; /* owners round: 7 % of 725 g are 50 or 51 g */

/* One share of a line: from its number to where the next one begins. */
struct share {
  int line;
  double percent, grams, bare; /* NaN: none */
  struct span all, said;       /* "5 % liver (beef) 36", "36" */
  struct span food_a, food_b;  /* what stands before and behind the amount */
  bool lists;                  /* a kind, its amount, and which ones */
};
struct shares {
  struct share one[SHARES_MOST];
  size_t count;
  double told_g; /* "2.5 % = 725 g" */
};

static bool begins_share(const struct tokens *t, size_t at, double *percent, size_t *used) {
  bool begins = at == 0 || is_mark(t, at - 1, ',') || is_mark(t, at - 1, ';') || is_mark(t, at - 1, ':') ||
                ends_sentence(t, at - 1) || (at == 1 && t->item[0].kind == TOKEN_MARK);
  if (!begins || !is_number(t, at)) return false;
  struct post_amount a = post_amount_at(t, at);
  size_t behind = at + a.tokens;
  if (!a.is_percent || a.low != a.high || !(a.low > 0) || a.low >= 100) return false;
  if (!is_word(t, behind) || says(t, behind, "fat lean protein body bodyweight bw a per daily each milk cocoa of"))
    return false;
  *percent = a.low;
  *used = a.tokens;
  return true;
}

static struct span without_ends(struct span s, const char *front, const char *back) {
  while (s.n > 0 && strchr(front, s.p[0])) s = span_cut(s, 1, s.n);
  while (s.n > 0 && strchr(back, s.p[s.n - 1])) s.n--;
  return s;
}

/* "muscle: beef 85/15": what kind it is stands before which food it is; a list keeps its kind, whose weight it is. */
static size_t behind_label(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  size_t mark = from;
  while (mark < to && mark <= from + LABEL_WORDS && !is_mark(t, mark, ':')) mark++;
  if (mark == from || mark + 1 >= to || !is_mark(t, mark, ':')) return from;
  if (!post_names_food(r, t, mark + 1, to)) return from;
  for (size_t i = mark + 1; i < to; i++)
    if (is_mark(t, i, ',') || is_mark(t, i, '&') || is_mark(t, i, '/') || says(t, i, "and")) {
      bool number = i > 0 && is_number(t, i - 1) && is_number(t, i + 1); /* "85/15" */
      if (!number) return from;
    }
  return mark + 1;
}

/* The one weight of [from, to), or the bare number that it ends with. False where there are two. */
static bool weigh(const struct tokens *t, size_t from, size_t to, struct share *s, size_t *at, size_t *used) {
  *at = to, *used = 0;
  for (size_t i = from; i < to; i++) {
    size_t none = not_an_amount(t, i);
    struct post_amount a = none > 0 ? (struct post_amount){0} : post_amount_at(t, i);
    if (none > 1) i += none - 1;
    if (!a.is_mass || a.bare || a.cannot || a.low != a.high) {
      if (a.is_volume && !a.bare) return false;
      continue;
    }
    if (*used > 0) return false;
    s->grams = post_in_grams(&a), *at = i, *used = a.tokens;
    i += a.tokens - 1;
  }
  size_t last = to, open;
  while (last > from && is_mark(t, last - 1, '.')) last--;
  for (open = last; open > from && is_mark(t, last - 1, ')') && !is_mark(t, open, '(');) open--;
  if (is_mark(t, open, '(') && open > from && is_number(t, open - 1) && !is_number(t, open + 1))
    last = open; /* "18 (lamb)" */
  while (last > from && is_mark(t, last - 1, ')')) last--;
  if (*used == 0 && last > from + 1 && is_number(t, last - 1) && !is_mark(t, last - 2, '/')) {
    s->bare = t->item[last - 1].value;
    *at = last - 1, *used = 1;
  }
  return true;
}

static void take_share(struct post_reader *r, const struct tokens *t, size_t from, size_t used, size_t to, double percent,
                       struct shares *all) {
  struct share s = {.line = r->line, .percent = percent, .grams = (double)NAN, .bare = (double)NAN};
  size_t food = behind_label(r, t, from + used, to), at, weighed;
  if (all->count == SHARES_MOST || to <= food || !weigh(t, food, to, &s, &at, &weighed)) return;
  s.all = tokens_span(t, from, to - from);
  s.said = weighed > 0 ? tokens_span(t, at, weighed) : (struct span){"", 0};
  s.food_a = at > food ? without_ends(tokens_span(t, food, at - food), " -=:,~", " -=:,(~") : (struct span){"", 0};
  s.food_b = at + weighed < to ? without_ends(tokens_span(t, at + weighed, to - at - weighed), " -=:,;)~", " -=:,;.~")
                               : (struct span){"", 0};
  s.lists = at > food && !post_names_food(r, t, food, at) && is_mark(t, at + weighed, ',');
  if (s.food_a.n + s.food_b.n > 0) all->one[all->count++] = s;
}

/* "Feeding 2.5 % = 725 g", "eats 3% (120 g)": what is fed a day, of the animal's own weight. */
static size_t total_at(struct post_reader *r, const struct tokens *t, size_t *from, size_t *to, struct post_amount *of) {
  for (size_t i = 0; i + 2 < t->count; i++) {
    struct post_amount a = is_number(t, i) ? post_amount_at(t, i) : (struct post_amount){0};
    size_t mark = i + a.tokens;
    if (!a.is_percent || a.low > OF_WEIGHT_MOST || !(is_mark(t, mark, '=') || is_mark(t, mark, '('))) continue;
    *of = post_amount_at(t, mark + 1);
    size_t end = mark + 1 + of->tokens;
    if (!of->is_mass || of->bare || of->low != of->high || !(post_in_grams(of) > 20)) continue;
    if (is_mark(t, mark, '(') && !is_mark(t, end, ')')) continue;
    *from = i, *to = is_mark(t, mark, '(') ? end + 1 : end;
    size_t near = *to + 3 < t->count ? *to + 3 : t->count; /* "2 % = 8 g of salt" */
    return post_names_food(r, t, *to, near) ? 0 : *to - *from;
  }
  return 0;
}

static void gather(struct post_reader *r, struct span text, struct shares *all) {
  struct span line;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    if (line.n == 0 || line.p[0] == POST_QUOTED || !memchr(line.p, '%', line.n)) continue;
    struct tokens t = post_tokens(r, line);
    struct post_amount total;
    size_t from, to;
    r->line = lines.number;
    if (t.count > LINE_MOST_TOKENS) continue;
    if (total_at(r, &t, &from, &to, &total) > 0) {
      all->told_g = post_in_grams(&total);
      continue;
    }
    for (size_t i = 0; i < t.count; i++) {
      double percent, next_percent;
      size_t used, next_used;
      if (!begins_share(&t, i, &percent, &used)) continue;
      size_t end = i + used;
      while (end < t.count && !begins_share(&t, end, &next_percent, &next_used) && !ends_sentence(&t, end)) end++;
      size_t behind = end;
      while (end > i + used && (is_mark(&t, end - 1, ',') || is_mark(&t, end - 1, ';') || says(&t, end - 1, "and"))) end--;
      take_share(r, &t, i, used, end, percent, all);
      i = behind - 1;
    }
  }
  r->line = 0;
}

static bool fits(double grams, double percent, double whole) {
  double of_it = percent * whole / 100;
  return fabs(grams - of_it) <= fmax(NEAR_G, NEAR * of_it);
}

static double number_of(const struct share *s) { return s->grams > 0 ? s->grams : s->bare; }

/* What they are shares of, where two of them agree, or one with what the post tells; of bare numbers three must. 0: not
 * known. */
static double whole_of(const struct shares *all) {
  double best = 0;
  size_t most = 1;
  for (size_t i = 0; i <= all->count; i++) {
    bool told = i == all->count;
    double whole = told ? all->told_g : number_of(&all->one[i]) / all->one[i].percent * 100;
    size_t agree = told, weighed = told;
    if (!(whole > 0)) continue;
    for (size_t k = 0; k < all->count; k++) {
      bool fit = fits(number_of(&all->one[k]), all->one[k].percent, whole);
      agree += fit, weighed += fit && all->one[k].grams > 0;
    }
    if (weighed == 0 && agree < 3) continue;
    if (agree > most || (told && agree >= most && agree > 1)) most = agree, best = whole;
  }
  return best;
}

static void write_share(struct post_reader *r, struct buf *b, const struct share *s, double whole) {
  double grams = s->grams;
  bool bare = !(grams > 0) && fits(s->bare, s->percent, whole), reckoned = !(grams > 0) && !bare;
  if (reckoned && s->bare > 0) { /* a number that is no weight of it */
    buf_add(b, s->all);
    return;
  }
  if (bare) grams = s->bare;
  if (reckoned) grams = s->percent * whole / 100;
  num_sig(b, grams, reckoned ? 3 : 5);
  bool list = s->food_a.n > 0 && s->food_b.n > 0 && s->lists; /* "10 % veg 30 g, spinach, carrots" */
  buf_addf(b, " g %.*s%s%.*s", SPAN_ARG(s->food_a),
           list                                 ? ": "
           : s->food_a.n > 0 && s->food_b.n > 0 ? " "
                                                : "",
           SPAN_ARG(s->food_b));
  if (reckoned || fits(grams, s->percent, whole)) return;
  struct buf note;
  struct tokens t = post_tokens(r, s->food_a.n > 0 ? s->food_a : s->food_b);
  buf_init(&note, r->keep, 120);
  buf_adds(&note, "the post also calls it ");
  num_sig(&note, s->percent, 3);
  buf_adds(&note, " %, which would be ");
  num_sig(&note, s->percent * whole / 100, 3);
  buf_adds(&note, " g; the grams were taken");
  r->line = s->line;
  if (t.count > 0) post_will_say(r, t.item[t.count - 1].at, buf_text(&note), NULL);
  r->line = 0;
}

static bool says_daily(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, "day daily")) return true;
  return false;
}

struct span post_shares_weighed(struct post_reader *r, struct span text, struct arena *arena) {
  if (!memchr(text.p, '%', text.n)) return text;
  struct shares *all = ARENA_NEW(r->keep, struct shares, 1);
  gather(r, text, all);
  double whole = whole_of(all);
  if (!(whole > 0)) {
    arena_rewind(r->arena, r->begin);
    return text;
  }
  struct buf b;
  struct span line;
  buf_init(&b, arena, 2 * text.n + 400);
  size_t next = 0;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    const char *at = line.p, *end = line.p + line.n;
    for (; next < all->count && all->one[next].line == lines.number; next++) {
      const struct share *s = &all->one[next];
      buf_add(&b, (struct span){at, (size_t)(s->all.p - at)});
      write_share(r, &b, s, whole);
      at = s->all.p + s->all.n;
    }
    struct tokens t = post_tokens(r, line);
    struct post_amount total;
    size_t from, to;
    if (at == line.p && t.count <= LINE_MOST_TOKENS && total_at(r, &t, &from, &to, &total) > 0 && !says_daily(&t)) {
      buf_add(&b, (struct span){at, (size_t)(token_begin(&t, from) - at)});
      amount_write(&b, &total, 1);
      buf_adds(&b, " a day");
      at = token_end(&t, to - 1);
    }
    buf_add(&b, (struct span){at, (size_t)(end - at)});
    buf_addc(&b, '\n');
  }
  arena_rewind(r->arena, r->begin);
  return buf_span(&b);
}
