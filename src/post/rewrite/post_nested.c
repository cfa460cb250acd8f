/* An amount of a kind of food and what that is made of, written out food by food: "organ mix 50 g (half liver, half
 * kidney)", "veg mush 60 g: carrot, kale, squash 2:1:1", "10% organ, half of it liver". */
#include "base/num.h"
#include "post/hear/post_net.h"
#include "post/rewrite/post_rewrite.h"

enum { PARTS_MOST = 6 };

struct nested_parts {
  double of[PARTS_MOST]; /* of the whole, 0 the rest of it */
  struct span food[PARTS_MOST];
  size_t count, end; /* behind the last token of it */
  bool unsaid;       /* equal parts that nobody tells */
};

static bool is_break(const struct tokens *t, size_t at) {
  return is_mark(t, at, ',') || is_mark(t, at, '(') || is_mark(t, at, ':') || is_mark(t, at, '-') || is_mark(t, at, '=') ||
         is_mark(t, at, ';');
}

/* "organ mix", "veg", "made of": words that name a kind of food or a mixture, and no food. */
static bool is_kind_word(struct post_reader *r, const struct tokens *t, size_t at) {
  if (!is_word(t, at)) return false;
  return net_is_kind(t->item[at].word) || says_a(t, at, CLASS_MIXED_KIND) ||
         (says(t, at,
               "a an the of my his her our in total split all is it's that's thats this these those namely being which it "
               "made up and cooked raw boiled "
               "steamed fresh frozen mixed blended pureed mashed") &&
          post_mention_at(r, t, at) == 0);
}

/* "half", "a third of it", "60 %", "the rest"; the part is 0 for the rest. */
static size_t part_told(const struct tokens *t, size_t at, double *part) {
  size_t used = 0;
  *part = 0;
  if (says(t, at, "the") && says(t, at + 1, "other remaining") && says(t, at + 2, "half third")) used = 3;
  if (used == 0 && says(t, at, "other remaining") && says(t, at + 1, "half third")) used = 2;
  if (used == 0 && says(t, at, "the") && says(t, at + 1, "rest remainder")) used = 2;
  if (used == 0 && says(t, at, "rest remainder")) used = 1;
  if (used == 0) used = post_part_at(t, at, part);
  if (used == 0 && is_number(t, at) && is_mark(t, at + 1, '%')) *part = t->item[at].value / 100, used = 2;
  if (used == 0) return 0;
  if (says(t, at + used, "of") && says(t, at + used + 1, "it that this them which")) used += 2;
  while (says(t, at + used, "of is are being as from as")) used++;
  return used;
}

/* "half beef liver, half beef kidney", "two thirds mince and the rest heart", "half of it liver". */
static bool by_fractions(struct post_reader *r, const struct tokens *t, size_t at, struct nested_parts *p) {
  double sum = 0;
  bool rest = false, of_it = false;
  for (*p = (struct nested_parts){.count = 0}; p->count < PARTS_MOST;) {
    double part;
    if (says_a(t, at, CLASS_ABOUT)) at++;
    size_t used = part_told(t, at, &part), from = at + used;
    of_it = of_it || (used > 1 && (says(t, from - 1, "it that this which") || says(t, from - 2, "it that this which")));
    size_t to = used > 0 ? post_food_end(r, t, from) : from;
    if (to == from || (part == 0 && rest)) break;
    rest = rest || part == 0;
    sum += part;
    p->of[p->count] = part;
    p->food[p->count++] = tokens_span(t, from, to - from);
    p->end = at = to;
    while (is_mark(t, at, ',') || is_mark(t, at, '/') || is_mark(t, at, '&') || is_mark(t, at, '+') ||
           says(t, at, "and plus"))
      at++;
  }
  for (size_t i = 0; i < p->count && rest; i++)
    if (p->of[i] == 0) p->of[i] = 1 - sum;
  if (p->count == 1) return of_it && p->of[0] < 1;
  return p->count > 1 && (rest ? sum < 0.99 : fabs(sum - 1) < 0.011);
}

/* "2:1:1", "3:2"; how many tokens. */
static size_t ratio_at(const struct tokens *t, size_t at, double of[PARTS_MOST], size_t *count) {
  size_t from = at;
  for (*count = 0; is_number(t, at) && *count < PARTS_MOST && t->item[at].value > 0;) {
    of[(*count)++] = t->item[at].value;
    at++;
    if (!((is_mark(t, at, ':') || is_mark(t, at, '/')) && t->item[at].glued && is_number(t, at + 1))) break;
    at++;
  }
  return *count >= 2 ? at - from : 0;
}

/* "equal parts", "in equal amounts", "half and half". */
static size_t equally_at(const struct tokens *t, size_t at) {
  size_t from = at;
  if (is_mark(t, at, '(') || is_mark(t, at, ',')) at++;
  if (says(t, at, "in all")) at++;
  if (says(t, at, "equal") &&
      says(t, at + 1, "parts amounts measure measures shares quantities proportions proportion weights"))
    return at + 2 - from;
  if (says(t, at, "equally evenly")) return at + 1 - from;
  size_t halves = phrase_of(t, at, CLASS_IN_HALVES); /* "half and half", "fifty fifty", "50/50" */
  return halves > 0 ? at + halves - from : 0;
}

/* "this week", "at the moment it's": which food a kind is just now; the tokens. */
static size_t just_now_at(const struct tokens *t, size_t at) {
  size_t from = at, used = phrase_of(t, at, CLASS_OF_THIS_KIND);
  if (used == 0) return 0;
  at += used;
  if (is_mark(t, at, ',') || is_mark(t, at, ':')) at++;
  if (says(t, at, "it") && says(t, at + 1, "is")) at++;
  if (says(t, at, "it's its is that's thats being")) at++;
  return at - from;
}

/* "carrot, kale and squash": how many foods, each with a name and no amount. */
static size_t list_of_foods(struct post_reader *r, const struct tokens *t, size_t at, bool to_too, struct nested_parts *p) {
  for (p->count = 0; p->count < PARTS_MOST;) {
    size_t to = post_food_end(r, t, at);
    if (to == at || post_amount_at(t, at).tokens > 0) break;
    p->food[p->count++] = tokens_span(t, at, to - at);
    p->end = at = to;
    while (is_mark(t, at, ',') || is_mark(t, at, '/') || is_mark(t, at, '&') || is_mark(t, at, '+') ||
           says(t, at, "and plus") || (to_too && says(t, at, "to")))
      at++;
    if (at == to) break;
  }
  return p->count;
}

/* "beef, ground, 90/10": its lean and its fat, and no two foods. */
static bool is_how_lean(struct post_reader *r, struct span food, const double of[PARTS_MOST], size_t count) {
  struct tokens t = post_tokens(r, food);
  bool ground = t.count > 0;
  for (size_t i = 0; i < t.count; i++) ground = ground && says(&t, i, "ground minced mince hamburger burger lean extra raw fresh");
  return ground && count == 2 && of[0] + of[1] == 100;
}

/* "a 3:2 blend of liver and kidney", "carrot, kale, squash 2:1:1", "equal parts peas and corn", and of a list behind a colon
 * or in a bracket nobody knows how much of each. */
static bool by_ratio(struct post_reader *r, const struct tokens *t, size_t at, bool listed, struct nested_parts *p) {
  double of[PARTS_MOST];
  size_t count = 0, begin = at;
  *p = (struct nested_parts){.count = 0};
  if (says(t, at, "a an in")) at++;
  size_t used = ratio_at(t, at, of, &count), equal = used > 0 ? 0 : equally_at(t, at);
  at += used + equal;
  while ((used > 0 || equal > 0) && (is_kind_word(r, t, at) || is_mark(t, at, ':'))) at++;
  if (used == 0 && equal == 0) at = begin;
  size_t foods = list_of_foods(r, t, at, used > 0, p);
  if (foods == 1 && listed) p->end += just_now_at(t, p->end); /* "veg = fennel these days" */
  bool closed = p->end >= t->count || is_mark(t, p->end, ')') || is_mark(t, p->end, '.') || is_mark(t, p->end, ';');
  closed = closed ||
           (is_mark(t, p->end, ',') && (post_amount_at(t, p->end + 1).tokens > 0 || says_a(t, p->end + 1, CLASS_PREPARED)));
  p->of[0] = 1;
  if (foods == 1 && listed && closed && used == 0 && equal == 0) return true; /* "Meat 300 g: beef mince" */
  if (foods < 2) return false;
  if (used == 0 && equal == 0) {
    size_t from = p->end;
    while (is_mark(t, from, ',') || is_mark(t, from, '(') || says(t, from, "in a at ratio of")) from++;
    used = ratio_at(t, from, of, &count);
    if (used > 0) {
      p->end = from + used;
      while (says(t, p->end, "ratio mix parts")) p->end++;
      if (from > 0 && is_mark(t, from - 1, '(') && is_mark(t, p->end, ')')) p->end++;
    } else if ((equal = equally_at(t, p->end)) > 0) {
      bool opens = is_mark(t, p->end, '(');
      p->end += equal;
      if (says(t, p->end, "of") && says(t, p->end + 1, "each")) p->end += 2;
      if (opens && is_mark(t, p->end, ')')) p->end++;
    }
  }
  if (used > 0 && (count != foods || is_how_lean(r, p->food[foods - 1], of, count))) return false;
  if (used == 0 && equal == 0) {
    bool ends = p->end >= t->count || is_mark(t, p->end, ')') || is_mark(t, p->end, '.') || is_mark(t, p->end, ';');
    p->unsaid = true;
    if (!listed || !ends) return false;
  }
  double sum = 0;
  for (size_t i = 0; i < foods; i++) sum += p->of[i] = used > 0 ? of[i] : 1;
  for (size_t i = 0; i < foods; i++) p->of[i] /= sum;
  return true;
}

/* Where the kind's words begin that stand before the amount: "organ mix 50 g", "Veg: 60 g". */
static size_t kind_begins(struct post_reader *r, const struct tokens *t, size_t amount) {
  size_t at = amount, kinds = 0;
  if (at > 0 && (is_mark(t, at - 1, ':') || is_mark(t, at - 1, '-') || is_mark(t, at - 1, '(') || is_mark(t, at - 1, '=')))
    at--;
  while (at > 0 && is_kind_word(r, t, at - 1) && !says(t, at - 1, "and is all which it's that's thats")) {
    at--;
    kinds += net_is_kind(t->item[at].word) || says_a(t, at, CLASS_MIXED_KIND);
  }
  return kinds > 0 ? at : amount;
}

static void write_nested(struct post_reader *r, struct buf *b, const struct post_amount *a, const struct nested_parts *p,
                         struct span kind) {
  double left = 1;
  (void)r;
  if (p->unsaid) { /* the reader of mixtures says what it assumes */
    amount_write(b, a, 1);
    for (size_t i = 0; i < p->count; i++) buf_addf(b, "%s%.*s", i > 0 ? ", " : " mix (", SPAN_ARG(p->food[i]));
    buf_addc(b, ')');
    return;
  }
  for (size_t i = 0; i < p->count; i++) {
    if (i > 0) buf_adds(b, ", ");
    amount_write(b, a, p->of[i]);
    buf_addf(b, " %.*s", SPAN_ARG(p->food[i]));
    left -= p->of[i];
  }
  if (left < 0.02) return;
  buf_adds(b, ", ");
  amount_write(b, a, left);
  buf_addf(b, " other %.*s", SPAN_ARG(kind));
}

bool post_nested_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  if (holds_a(t, 0, t->count, CLASS_TAKING_TURNS)) return false;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0) continue;
    bool body = i > 0 && strcmp(a.unit, "kg") == 0 && says(t, i - 1, "his her their its body"); /* "3 % of his 20 kg" */
    if (!(a.is_mass || a.is_percent) || a.low != a.high || a.cannot || body) {
      i += a.tokens - 1;
      continue;
    }
    size_t begin = kind_begins(r, t, i), at = i + a.tokens, open = 0;
    bool kind = begin < i, listed = false, dash = false;
    if (begin < i && is_mark(t, i - 1, '(') && is_mark(t, at, ')')) at++;
    while (at < t->count) {
      size_t often = frequency_at(t, at).tokens;
      bool equal = equally_at(t, at) > 0 && !is_break(t, at);
      if (equal) break;
      if (often > 0 && frequency_at(t, at).times_per_28 == CALENDAR_DAYS && frequency_at(t, at).feedings <= 1) {
        at += often;
        continue;
      }
      double part;
      if (part_told(t, at + says_a(t, at, CLASS_ABOUT), &part) > 0 || (is_number(t, at) && is_mark(t, at + 1, ':'))) break;
      size_t now = kind ? just_now_at(t, at) : 0;
      if (now > 0) {
        listed = true;
        at += now - 1;
      } else if (is_break(t, at)) {
        open += is_mark(t, at, '(');
        listed = is_mark(t, at, ':') || is_mark(t, at, '(') || is_mark(t, at, '=');
        dash = is_mark(t, at, '-') && !t->item[at].glued;
      } else if (is_kind_word(r, t, at)) {
        kind = kind || net_is_kind(t->item[at].word) || says_a(t, at, CLASS_MIXED_KIND);
        listed = false;
      } else {
        break;
      }
      at++;
    }
    struct nested_parts p;
    bool found = by_fractions(r, t, at, &p) || by_ratio(r, t, at, kind && listed, &p);
    bool nothing_between = at == i + a.tokens;
    if (!found || open > 1 || (nothing_between && !kind && p.unsaid)) {
      i += a.tokens - 1;
      continue;
    }
    if (open > 0 && is_mark(t, p.end, ')')) p.end++;
    if (dash && is_mark(t, p.end, '-')) p.end++;
    struct span kind_words = begin < i ? tokens_span(t, begin, i - begin) : (struct span){"food", 4};
    for (size_t k = i + a.tokens; k < at && begin == i; k++)
      if (is_word(t, k) && net_is_kind(t->item[k].word)) kind_words = t->item[k].at;
    struct buf b;
    buf_init(&b, r->keep, 2 * text.n + 300);
    buf_add(&b, (struct span){text.p, (size_t)(t->item[begin].at.p - text.p)});
    write_nested(r, &b, &a, &p, kind_words);
    const char *rest = p.end > 0 ? t->item[p.end - 1].at.p + t->item[p.end - 1].at.n : text.p;
    if (dash && p.end < t->count && is_mark(t, p.end - 1, '-')) buf_adds(&b, ", ");
    buf_add(&b, (struct span){rest, (size_t)(text.p + text.n - rest)});
    *out = buf_span(&b);
    return true;
  }
  return false;
}
