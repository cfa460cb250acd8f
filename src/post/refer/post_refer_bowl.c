/* A bowl that is told in parts: "half the bowl is mince, a quarter is potato and the last quarter is half carrot, half
 * peas", "a third beef, a third heart, the rest pumpkin". Written as shares of the whole. */
#include "base/num.h"
#include "post/refer/post_refer.h"

enum { BOWL_MOST = 8 };

struct bowl_part {
  double of; /* of the whole */
  struct span food;
};

/* "a quarter", "the last third", "the remaining quarter", "the rest", "half of his bowl": its tokens; 'of' 0: what is left.
 */
static size_t part_of_bowl(const struct tokens *t, size_t at, double *of, bool *bowl) {
  size_t i = at, used;
  if (says_a(t, i, CLASS_ABOUT)) i++;
  *of = 0;
  if (says(t, i, "the") && says(t, i + 1, "rest remainder")) {
    i += 2;
  } else {
    bool last = says(t, i, "the") && says(t, i + 1, "last other remaining final second third");
    if (last) i += 2;
    bool bare = last && says(t, i, "half third quarter fifth sixth");
    used = bare ? 1 : post_part_at(t, i, of);
    if (used == 0 || is_mark(t, i + used, '%')) return 0;
    if (bare)
      *of = says(t, i, "half")      ? 0.5
            : says(t, i, "third")   ? 1.0 / 3
            : says(t, i, "quarter") ? 0.25
            : says(t, i, "fifth")   ? 0.2
                                    : 1.0 / 6;
    i += used;
  }
  size_t whole = says(t, i, "of") ? i + 1 : i;
  if (says(t, whole, "the his her a each every it")) whole++;
  if (says(t, whole, "bowl dish plate meal mix bowlful mixture"))
    *bowl = true, i = whole + 1;
  else if (says(t, i, "of") && says(t, i + 1, "it"))
    i += 2;
  return i - at;
}

/* Two foods in equal parts, or one: written into 'p', with what is left in 'n'; false where it is none. */
static bool foods_of_part(struct story *st, const struct tokens *t, size_t from, size_t to, double of,
                          struct bowl_part p[BOWL_MOST], size_t *n) {
  struct tokens part = tokens_part(t, from, to);
  size_t at = 0, begin = 0, first = *n;
  double sum = 0, told = 0;
  while (says(&part, at, "split evenly equally between half of")) at++;
  if (says(&part, 0, "split") && says(&part, at - 1, "half")) at--;
  if (!says(&part, 0, "split")) at = 0;
  for (begin = at; begin < part.count && *n < BOWL_MOST;) {
    double share = 0;
    size_t used = post_part_at(&part, begin, &share), food = begin + used, end = food;
    while (end < part.count && is_word(&part, end) && !says(&part, end, "and n plus in equal equally evenly") &&
           !(end > food && post_part_at(&part, end, &told) > 0))
      end++;
    if (end == food || !post_names_food(st->r, &part, food, end)) return false;
    if (is_mark(&part, end, '(')) /* "rice (cooked)" */
      while (end < part.count && !is_mark(&part, end - 1, ')')) end++;
    p[*n] = (struct bowl_part){share, tokens_span(&part, food, end - food)};
    sum += share;
    (*n)++;
    begin = end;
    while (begin < part.count && (part.item[begin].kind == TOKEN_MARK || says(&part, begin, "and n plus"))) begin++;
    if (says(&part, begin, "in equal equally evenly")) break;
  }
  size_t count = *n - first;
  if (count == 0 || (sum > 0 && !(sum > 0.98 && sum < 1.02))) return false;
  for (size_t k = first; k < *n; k++) p[k].of = of * (sum > 0 ? p[k].of : 1.0 / (double)count);
  return true;
}

/* Where the next part of the whole begins, behind a mark or an "and"; 'to' none. */
static size_t next_part_of(const struct tokens *t, size_t from, double left) {
  for (size_t k = from; k < t->count; k++) {
    double of;
    bool bowl = false;
    bool apart = is_mark(t, k, ',') || is_mark(t, k, ';') || is_mark(t, k, '+') || says(t, k, "and plus");
    size_t next = apart ? k + 1 : k;
    if (apart && says(t, next, "and then plus")) next++;
    size_t used = apart ? part_of_bowl(t, next, &of, &bowl) : 0;
    bool whole = used > 0 && (says(t, next, "the") || bowl || says(t, next + used, "is are") || of <= left + 0.011);
    if (whole && !(says(t, next, "half") && of > left + 0.011)) return next;
  }
  return t->count;
}

static void bowl_in_parts(struct story *st, size_t i) {
  const struct tokens *t = &st->s[i].t;
  struct bowl_part p[BOWL_MOST];
  size_t n = 0, parts = 0, begin = t->count, at;
  double left = 1;
  bool bowl = false;
  for (size_t k = 0; k + 2 < t->count && begin == t->count; k++) {
    double of;
    bool here = false;
    size_t used = (k == 0 || !is_word(t, k - 1) || t->item[k - 1].kind == TOKEN_MARK) ? part_of_bowl(t, k, &of, &here) : 0;
    if (used > 0 && here && of > 0) begin = k;
  }
  for (at = begin; at < t->count && n < BOWL_MOST && left > 0.011;) {
    double of;
    size_t used = part_of_bowl(t, at, &of, &bowl), food = at + used, end;
    if (used == 0) break;
    if (of == 0) of = left;
    while (says(t, food, "is are it's of being goes to") || is_mark(t, food, '=') || is_mark(t, food, ':')) food++;
    left -= of;
    end = left > 0.011 ? next_part_of(t, food, left) : t->count;
    if (left <= 0.011)
      for (end = food; end < t->count && !is_mark(t, end, '.') && !is_mark(t, end, ';'); end++) {
      }
    size_t last = end;
    while (last > food && (t->item[last - 1].kind == TOKEN_MARK || says(t, last - 1, "and then plus")) &&
           !is_mark(t, last - 1, ')'))
      last--;
    if (!foods_of_part(st, t, food, last, of, p, &n)) return;
    parts++;
    at = end;
  }
  if (!bowl || parts < 2 || !(left > -0.011 && left < 0.011)) return;
  struct buf b;
  buf_init(&b, st->r->arena, 2 * st->s[i].text.n + 400);
  for (size_t k = 0; k < n; k++) {
    buf_adds(&b, k > 0 ? ", " : "");
    num_sig(&b, 100 * p[k].of, 4);
    buf_addf(&b, " %% %.*s", SPAN_ARG(p[k].food));
  }
  refer_between(st, i, begin, at < t->count ? at : t->count, buf_text(&b));
}

void refer_bowl(struct story *st) {
  for (size_t i = 0; i < st->count; i++)
    for (size_t k = 0; k < st->s[i].t.count; k++)
      if (says(&st->s[i].t, k, "bowl dish plate meal mix bowlful mixture")) {
        bowl_in_parts(st, i);
        break;
      }
}
