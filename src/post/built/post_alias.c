/* What a kind of food is at the moment, told once for all its lines ("veg = carrots only"), or beside its own amount ("fruit
 * = apple 5", "meat 60% - all beef chuck"): the food is written in its place. */
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

enum { ALIASES_MOST = 6 };

struct alias {
  struct span kind, food;
};
struct aliases {
  struct alias of[ALIASES_MOST];
  size_t count;
};

static bool is_kind(const struct tokens *t, size_t at) {
  return says_a(t, at, CLASS_KIND_OF_FOOD) || says_a(t, at, CLASS_WORD_FOR_MANY) || says(t, at, "green");
}

/* "veg", "veggies"; "fruit", "fruits" */
static bool same_kind(struct span a, struct span b) {
  enum { STEM = 3 };
  return a.n >= STEM && b.n >= STEM && span_eq_fold(span_cut(a, 0, STEM), span_cut(b, 0, STEM));
}

static bool begins_clause_at(const struct tokens *t, size_t at) {
  return at == 0 || (t->item[at - 1].kind == TOKEN_MARK && !is_mark(t, at - 1, '-') && !is_mark(t, at - 1, '=')) ||
         says(t, at - 1, "and where");
}

static bool ends_clause_at(const struct tokens *t, size_t at) {
  return at >= t->count || ends_sentence(t, at) || is_mark(t, at, ',') || is_mark(t, at, ';') || is_mark(t, at, '(') ||
         is_mark(t, at, ')') || (says(t, at, "and") && is_kind(t, at + 1));
}

/* "only", "always", "at the moment": how many tokens; 'sure' where the word says that it is a definition. */
static size_t filler_at(const struct tokens *t, size_t at, bool *sure) {
  size_t used = phrase_of(t, at, CLASS_OF_THIS_KIND);
  *sure = *sure || used > 0;
  return used;
}

/* The food alone of [from, to), with fillers around it; "" where more stands there. */
static struct span one_food(struct post_reader *r, const struct tokens *t, size_t from, size_t *to, bool *sure) {
  static const struct span NONE = {"", 0};
  size_t used;
  while ((used = filler_at(t, from, sure)) > 0) from += used;
  size_t end = from;
  bool more = false;
  while (end < t->count && is_word(t, end) && !ends_clause_at(t, end) && filler_at(t, end, &more) == 0 &&
         post_amount_at(t, end).tokens == 0)
    end++;
  size_t at = end;
  while ((used = filler_at(t, at, sure)) > 0) at += used;
  *to = at;
  for (size_t i = from; i < end; i++)
    if (says(t, i, "and or whatever any mix mixed some with")) return NONE;
  bool plain = end > from && end - from <= 4 && post_names_food(r, t, from, end);
  return plain && !(end - from == 1 && is_kind(t, from)) ? tokens_span(t, from, end - from) : NONE;
}

/* "veg = carrots only", "greens means broccoli at the moment": the food, and where it ends; "" none. */
static struct span defined_at(struct post_reader *r, const struct tokens *t, size_t at, size_t *to) {
  static const struct span NONE = {"", 0};
  if (!is_kind(t, at) || !begins_clause_at(t, at)) return NONE;
  bool sure = is_mark(t, at + 1, '=') || says(t, at + 1, "means");
  if (!sure && !is_mark(t, at + 1, ':') && !says(t, at + 1, "is are")) return NONE;
  struct span food = one_food(r, t, at + 2, to, &sure);
  return sure ? food : NONE;
}

/* No list of several: what follows the comma is told of another kind. */
static bool is_a_list(struct post_reader *r, const struct tokens *t, size_t to) {
  size_t next = to + 1, end;
  if (!is_mark(t, to, ',')) return false;
  return defined_at(r, t, next, &end).n == 0 && post_food_end(r, t, next) > next;
}

static void gather(struct post_reader *r, const struct tokens *t, struct aliases *all) {
  for (size_t i = 0; i + 2 < t->count && all->count < ALIASES_MOST; i++) {
    size_t to;
    struct span food = defined_at(r, t, i, &to);
    if (food.n == 0 || !ends_clause_at(t, to) || is_a_list(r, t, to)) continue;
    all->of[all->count++] = (struct alias){arena_span(r->keep, t->item[i].word), arena_span(r->keep, food)};
    i = to - 1;
  }
}

/* "The meat is beef mince 700 g a day": the food with the amount behind it. */
static bool told_of_kind(struct post_reader *r, const struct tokens *t, struct buf *b, size_t *at) {
  size_t i = *at, to;
  bool sure = false;
  if (!(begins_clause_at(t, i) || (says(t, i - 1, "the") && begins_clause_at(t, i - 1)))) return false;
  if (!says(t, i + 1, "is are") && !is_mark(t, i + 1, ':')) return false;
  struct span food = one_food(r, t, i + 2, &to, &sure);
  size_t comma = is_mark(t, to, ',') ? to + 1 : to;
  struct post_amount a = food.n > 0 ? post_amount_at(t, comma) : (struct post_amount){0};
  if (!a.is_mass || post_food_end(r, t, comma + a.tokens) > comma + a.tokens) return false;
  buf_addf(b, "%.*s %.*s", SPAN_ARG(tokens_span(t, comma, a.tokens)), SPAN_ARG(food));
  *at = comma + a.tokens;
  return true;
}

/* "fruit = apple 5", "meat 60% - all beef chuck": the amount with the food that is meant. */
static bool beside_its_amount(struct post_reader *r, const struct tokens *t, struct buf *b, size_t *at) {
  size_t i = *at, to;
  if (told_of_kind(r, t, b, at)) return true;
  if (!begins_clause_at(t, i)) return false;
  struct span food = defined_at(r, t, i, &to);
  struct post_amount a = post_amount_at(t, food.n > 0 ? to : i + 1);
  if (a.tokens == 0 || a.by_word) return false;
  if (food.n > 0) { /* the amount behind the food */
    if (!ends_clause_at(t, to + a.tokens)) return false;
    buf_addf(b, "%.*s %.*s", SPAN_ARG(food), SPAN_ARG(tokens_span(t, to, a.tokens)));
    *at = to + a.tokens;
    return true;
  }
  size_t mark = i + 1 + a.tokens;
  bool sure = false;
  if (!is_mark(t, mark, '-') && !is_mark(t, mark, '=') && !is_mark(t, mark, ':')) return false;
  food = one_food(r, t, mark + 1, &to, &sure);
  if (!sure || food.n == 0 || !ends_clause_at(t, to)) return false;
  buf_addf(b, "%.*s %.*s", SPAN_ARG(tokens_span(t, i + 1, a.tokens)), SPAN_ARG(food));
  *at = to;
  return true;
}

/* "fish fri (200 g sprats)", "egg sun (1 whole)": the amount of the bracket with the days before it. */
static bool in_bracket(struct post_reader *r, const struct tokens *t, struct buf *b, size_t *at) {
  enum { FAR = 16 }; /* words of a food and of its days */
  size_t i = *at, name = i + 1, open, close, bracket = i + 1;
  unsigned named = 0;
  if (!begins_clause_at(t, i)) return false;
  while (bracket < t->count && bracket < i + FAR && !is_mark(t, bracket, '(')) bracket++;
  if (!is_mark(t, bracket, '(') || post_amount_at(t, bracket + 1).tokens == 0) return false;
  if (!is_kind(t, i)) name = post_food_end(r, t, i);
  for (size_t k = i + 1; k < name; k++)
    if (post_days_named(t, k, &named) > 0) name = k;
  if (name == i || name > i + 3) return false;
  size_t days = says(t, name, "on") ? name + 1 : name;
  named = 0;
  size_t used = post_days_named(t, days, &named);
  if (used == 0 && days < t->count) used = frequency_at(t, days).tokens;
  open = days + used;
  if (used == 0 || !is_mark(t, open, '(')) return false;
  for (close = open + 1; close < t->count && !is_mark(t, close, ')') && !is_mark(t, close, '('); close++) {
  }
  struct post_amount a = post_amount_at(t, open + 1);
  size_t rest = open + 1 + a.tokens;
  if (a.tokens == 0 || !is_mark(t, close, ')') || rest > close) return false;
  struct span food = tokens_span(t, i, name - i);
  if (rest < close && post_names_food(r, t, rest, close)) {
    food = tokens_span(t, rest, close - rest);
  } else {
    if (rest < close && (is_kind(t, i) || !says(t, rest, "whole each per every a"))) return false;
    if (is_kind(t, i)) return false;
  }
  buf_addf(b, "%.*s %.*s %s", SPAN_ARG(tokens_span(t, open + 1, a.tokens)), SPAN_ARG(food), named != 0 ? "on " : "");
  if (named != 0)
    frequency_print_days(b, named);
  else
    buf_add(b, tokens_span(t, days, used));
  *at = close + 1;
  return true;
}

static const struct alias *alias_of(const struct aliases *all, struct span kind) {
  for (size_t i = 0; i < all->count; i++)
    if (same_kind(all->of[i].kind, kind)) return &all->of[i];
  return NULL;
}

/* Does the kind at 'at' stand by itself, with an amount before or behind it? */
static bool is_counted(const struct tokens *t, size_t at) {
  size_t next = at + 1;
  bool alone = next >= t->count || t->item[next].kind == TOKEN_MARK || frequency_at(t, next).tokens > 0 ||
               says(t, next, "and plus with as in at for");
  for (size_t i = at > 4 ? at - 4 : 0; alone && i < at; i++) {
    struct post_amount a = post_amount_at(t, i);
    size_t end = i + a.tokens;
    if (says(t, end, "of")) end++;
    if (a.tokens > 0 && !a.bare && end == at) return true;
  }
  struct post_amount behind = post_amount_at(t, next);
  return begins_clause_at(t, at) && behind.tokens > 0 && !behind.bare;
}

static bool write_line(struct post_reader *r, const struct aliases *all, struct span line, struct buf *b) {
  if (line.n == 0) return false;
  struct tokens t = post_tokens(r, line);
  const char *from = line.p;
  bool any = false, has_bracket = memchr(line.p, '(', line.n) != NULL;
  for (size_t i = 0; i < t.count; i++) {
    size_t to = i;
    if (!is_kind(&t, i) && !has_bracket) continue;
    struct span before = {from, (size_t)(t.item[i].at.p - from)};
    const struct alias *a = alias_of(all, t.item[i].word);
    struct buf now;
    buf_init(&now, r->arena, 300);
    if (a && defined_at(r, &t, i, &to).n > 0 && ends_clause_at(&t, to)) {
      while (is_mark(&t, to, ',') || says(&t, to, "and")) to++;
    } else if (a && is_counted(&t, i)) {
      buf_add(&now, a->food);
      to = i + 1;
    } else if (!(is_kind(&t, i) && beside_its_amount(r, &t, &now, &to)) && !(has_bracket && in_bracket(r, &t, &now, &to))) {
      continue;
    }
    buf_addf(b, "%.*s%.*s", SPAN_ARG(before), SPAN_ARG(buf_span(&now)));
    from = t.item[to - 1].at.p + t.item[to - 1].at.n;
    any = true;
    i = to - 1;
  }
  buf_add(b, (struct span){from, (size_t)(line.p + line.n - from)});
  return any;
}

struct span post_aliases(struct post_reader *r, struct span text, struct arena *arena) {
  struct aliases all = {.count = 0};
  struct span line;
  bool counted = false, any = false;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    gather(r, &t, &all);
  }
  for (struct lines lines = lines_of(text); all.count > 0 && !counted && lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count && !counted; i++)
      counted = is_kind(&t, i) && alias_of(&all, t.item[i].word) && is_counted(&t, i);
  }
  if (!counted) all.count = 0;
  struct buf b;
  buf_init(&b, arena, 2 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    any = write_line(r, &all, line, &b) || any;
    buf_addc(&b, '\n');
  }
  arena_rewind(r->arena, r->begin);
  return any ? buf_span(&b) : text;
}
