/* A line in plainer words, each rule a small one: "threadfin or some other white fish", "rice \"to bind it\"", "10 g of
 * liver, beef", "egg yolk once a week", "beet + carrot + apple, each 300 g", "..., so there is 250 mg of taurine in it". */
#include "base/num.h"
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

static bool begins_here(const struct tokens *t, size_t at) {
  return at == 0 || is_mark(t, at - 1, ',') || is_mark(t, at - 1, ';') || ends_sentence(t, at - 1);
}

static bool ends_here(const struct tokens *t, size_t at) {
  return at >= t->count || ends_sentence(t, at) || is_mark(t, at, ',') || is_mark(t, at, ';') || says(t, at, "and");
}

/* "cod or some other white fish": the one that is named; "threadfin or some other white fish": white fish. */
static bool or_some_other(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  if (!says(t, i, "or") || i == 0) return false;
  size_t at = says(t, i + 1, "some any") && says(t, i + 2, "other") ? i + 3 : says(t, i + 1, "another") ? i + 2 : 0;
  if (at == 0 || says(t, at, "day")) return false;
  size_t end = at;
  while (end < at + 3 && says_a(t, end, CLASS_KIND_OF_FOOD)) end++;
  if (end == at) return false;
  if (post_mention_at(r, t, i - 1) == 0) /* nobody has figures for it: the kind */
    *out = post_cut_out(r, line, token_begin(t, i - 1), token_end(t, at - 1), "");
  else
    *out = post_cut_out(r, line, token_end(t, i - 1), token_end(t, end - 1), "");
  return true;
}

/* rice "to bind it" */
static bool quoted_purpose(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum { FAR = 8 };
  if (i == 0 || !is_mark(t, i, '"') || !says(t, i + 1, "to for as because so just")) return false;
  size_t end = i + 1;
  while (end < t->count && end < i + FAR && !is_mark(t, end, '"')) end++;
  if (!is_mark(t, end, '"')) return false;
  *out = post_cut_out(r, line, token_end(t, i - 1), token_end(t, end), "");
  return true;
}

/* "10 g of liver, beef" */
static bool animal_behind(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  if (i == 0 || !is_mark(t, i, ',') || !says_a(t, i - 1, CLASS_ORGAN_OF_MEAT) || !is_word(t, i + 1)) return false;
  struct token animal = t->item[i + 1];
  if (!token_is_a(&animal, CLASS_ANIMAL_OF_FLESH) || !ends_here(t, i + 2)) return false;
  size_t from = i - 1;
  if (from > 0 && !says(t, from - 1, "of") && post_amount_at(t, from - 1).tokens == 0 && is_word(t, from - 1) &&
      !(from > 1 && is_number(t, from - 2)))
    return false;
  struct buf b;
  buf_init(&b, r->keep, 80);
  buf_addf(&b, "%.*s %.*s", SPAN_ARG(t->item[i + 1].word), SPAN_ARG(t->item[i - 1].word));
  *out = post_cut_out(r, line, token_begin(t, from), token_end(t, i + 1), buf_text(&b));
  return true;
}

/* "egg yolk once a week": one of them; "eggs" are nobody knows how many. */
static bool lone_egg(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  size_t at = i;
  if (!begins_here(t, i)) return false;
  if (says(t, at, "raw boiled whole")) at++;
  if (!says(t, at, "egg")) return false;
  at += says(t, at + 1, "yolk") ? 2 : 1;
  if (is_mark(t, at, ':') || is_mark(t, at, '-')) at++;
  size_t often = at < t->count ? frequency_at(t, at).tokens : 0;
  if (often == 0 || !ends_here(t, at + often)) return false;
  *out = post_cut_out(r, line, token_begin(t, i), token_begin(t, i), "1 ");
  return true;
}

/* "chicken wing every other day", "duck neck (twice a week)": one of them, which is said. */
static bool lone_piece(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum { WORDS_MOST = 4 };
  if (!(begins_here(t, i) || says(t, i - 1, "and plus") || is_mark(t, i - 1, '-') || is_mark(t, i - 1, '+'))) return false;
  size_t end = i;
  while (end < i + WORDS_MOST && is_word(t, end) && !says_a(t, end, CLASS_LONE_PIECE) && !says(t, end, "a an the one")) end++;
  if (!says_a(t, end, CLASS_LONE_PIECE)) return false;
  size_t often = end + 1;
  bool open = is_mark(t, often, '(');
  if (open || is_mark(t, often, ':') || is_mark(t, often, '-') || is_mark(t, often, ',')) often++;
  struct frequency f = often < t->count ? frequency_at(t, often) : (struct frequency){0};
  size_t behind = often + f.tokens;
  if (f.tokens == 0 || f.refuse || !ends_here(t, open && is_mark(t, behind, ')') ? behind + 1 : behind)) return false;
  struct buf one, ask;
  const char *assumed;
  struct span food = tokens_span(t, i, end + 1 - i);
  buf_init(&one, r->arena, food.n + 8);
  buf_addf(&one, "1 %.*s", SPAN_ARG(food));
  if (!strict_takes(r, buf_text(&one), &assumed, NULL)) return false;
  buf_init(&ask, r->keep, food.n + 80);
  buf_addf(&ask, "How many of '%.*s' are fed at a time? One was counted.", SPAN_ARG(food));
  post_will_say(r, t->item[end].word, "counted as one; the post gives no number", buf_text(&ask));
  *out = post_cut_out(r, line, token_begin(t, i), token_begin(t, i), "1 ");
  return true;
}

/* "beet + carrot + apple, each 300 g" */
static bool each_behind(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum { MOST = 8 };
  struct span food[MOST];
  size_t count = 0, at = i;
  if (!begins_here(t, i)) return false;
  while (count < MOST) {
    size_t end = at;
    while (is_word(t, end) && end < at + 4 && !says(t, end, "and each")) end++;
    if (end == at || !post_names_food(r, t, at, end)) return false;
    food[count++] = tokens_span(t, at, end - at);
    at = end;
    while (is_mark(t, at, ',') || is_mark(t, at, '+') || is_mark(t, at, '&') || is_mark(t, at, '/') || says(t, at, "and"))
      at++;
    if (at == end) return false;
    if (says(t, at, "each")) break;
  }
  struct post_amount a = post_amount_at(t, at + 1);
  if (count < 2 || !a.is_mass || !ends_here(t, at + 1 + a.tokens)) return false;
  struct buf b;
  buf_init(&b, r->keep, line.n + 40 * count);
  for (size_t k = 0; k < count; k++)
    buf_addf(&b, "%s%.*s %.*s", k > 0 ? ", " : "", SPAN_ARG(tokens_span(t, at + 1, a.tokens)), SPAN_ARG(food[k]));
  *out = post_cut_out(r, line, token_begin(t, i), token_end(t, at + a.tokens), buf_text(&b));
  return true;
}

/* "the vet said if I do it I have to add taurine, so there is 250 mg of it": what is fed is a sentence of its own. */
static bool so_there_is(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  bool wanted = false, amount = false;
  if (i == 0 || !is_mark(t, i, ',') || !says(t, i + 1, "so") || !says(t, i + 2, "there there's i we he she now"))
    return false;
  for (size_t k = i; k-- > 0 && !ends_sentence(t, k);) wanted = wanted || says(t, k, "if must should have need needs");
  for (size_t k = i + 2; k < t->count && !ends_sentence(t, k); k++) {
    struct post_amount a = post_amount_at(t, k);
    amount = amount || ((a.is_mass || a.is_volume) && !a.bare);
  }
  if (!wanted || !amount) return false;
  *out = post_cut_out(r, line, token_begin(t, i), token_end(t, i + 1), "\x1F");
  return true;
}

/* "dog 32 kg, per day 500 g tripe": an amount is one of a day anyway. */
static bool per_day_before(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  if (!begins_here(t, i) || !says(t, i, "per a each") || !says(t, i + 1, "day")) return false;
  struct post_amount a = post_amount_at(t, i + 2);
  if (!a.is_mass) return false;
  *out = post_cut_out(r, line, token_begin(t, i), token_begin(t, i + 2), "");
  return true;
}

/* "gsd 34kg chicken carcass 400g": the animal is told first. */
static bool animal_first(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum species s;
  double kg;
  if (i > 3 || !is_word(t, i) || !token_is_animal(&(struct token){.kind = TOKEN_WORD, .word = t->item[i].word}, &s))
    return false;
  size_t at = i + 1, used;
  while (at < i + 3 && is_word(t, at) && !is_number(t, at) && post_weight_at(t, at, &kg) == 0) at++;
  used = at < t->count ? post_weight_at(t, at, &kg) : 0;
  size_t food = at + used, end = used > 0 ? post_food_end(r, t, food) : food;
  if (end == food || !post_amount_at(t, end).is_mass) return false;
  *out = post_cut_out(r, line, token_end(t, food - 1), token_end(t, food - 1), ",");
  return true;
}

/* "Fridays no meat just 2 eggs": what is fed in its place begins there. */
static bool no_just(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum { FAR = 4 };
  if (!says(t, i, "no") || !is_word(t, i + 1)) return false;
  for (size_t k = i + 2; k < t->count && k <= i + FAR && is_word(t, k); k++) {
    if (!says(t, k, "just only instead")) continue;
    if (post_amount_at(t, k + 1).tokens == 0 || post_amount_at(t, i + 1).tokens > 0) return false;
    *out = post_cut_out(r, line, token_end(t, k - 1), token_end(t, k), ",");
    return true;
  }
  return false;
}

/* "kidney and spleen 5 %,": one share behind two foods, as "5 % kidney and spleen". */
static bool share_behind_two(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  enum { WORDS_MOST = 7 };
  if (!(begins_here(t, i) || is_mark(t, i - 1, ':')) || !is_word(t, i)) return false;
  size_t and = t->count, end = i;
  while (end < i + WORDS_MOST && is_word(t, end)) {
    if (says(t, end, "and")) and = and < t->count ? i : end;
    end++;
  }
  if (and == t->count || and <= i || and + 1 >= end || !is_number(t, end) || !is_mark(t, end + 1, '%')) return false;
  if (!ends_here(t, end + 2) && !is_mark(t, end + 2, ')')) return false;
  if (!post_names_food(r, t, i, and) || !post_names_food(r, t, and + 1, end)) return false;
  struct buf b;
  buf_init(&b, r->keep, line.n + 20);
  buf_addf(&b, "%.*s%% %.*s", SPAN_ARG(t->item[end].at), SPAN_ARG(tokens_span(t, i, end - i)));
  *out = post_cut_out(r, line, token_begin(t, i), token_end(t, end + 1), buf_text(&b));
  return true;
}

/* "a 400 g tin of beans shared out over four days", beside other foods: every four days one, and no batch. */
static bool spread_over_days(struct post_reader *r, const struct tokens *t, size_t i, struct span before, struct span line,
                             struct span *out) {
  enum { DAYS_MOST = 14 };
  size_t at = i + 1;
  if (!says(t, i, "split spread shared divided stretched") || i < 2 || says(t, i - 1, "it's its it is are all")) return false;
  if (says(t, at, "out")) at++;
  if (!says(t, at, "over across between")) return false;
  at++;
  struct quantity q = quantity_at(t, at);
  size_t days = at + q.tokens;
  if (q.fault != QUANTITY_FINE || q.low != q.high || q.low < 2 || q.low > DAYS_MOST || !says(t, days, "days")) return false;
  for (size_t k = 0; k < t->count; k++)
    if (says(t, k, "batch batches pot pots pan cook cooker stew freezer freeze make makes mix meals")) return false;
  size_t amount = i;
  while (amount > 0 && !ends_sentence(t, amount - 1) && post_amount_at(t, amount - 1).tokens == 0) amount--;
  if (amount == 0 || post_amount_at(t, amount - 1).tokens == 0) return false;
  amount--;
  while (amount > 0 && post_amount_at(t, amount - 1).tokens > 1) amount--; /* its first token */
  bool tin = false, others = false;
  for (size_t k = amount; k < i; k++) tin = tin || says(t, k, "tin can tins cans jar");
  struct tokens head = tokens_part(t, 0, amount), above = post_tokens(r, before);
  others = post_any_amount(&head, 0) || post_any_amount(&above, 0);
  if (!tin && !others) return false;
  struct buf b;
  buf_init(&b, r->keep, line.n + 20);
  buf_adds(&b, ", every ");
  num_sig(&b, q.low, 3);
  buf_adds(&b, " days");
  size_t behind = is_mark(t, i - 1, ',') ? i - 2 : i - 1;
  *out = post_cut_out(r, line, token_end(t, behind), token_end(t, days), buf_text(&b));
  return true;
}

/* "Since last week 40 g cod": what is fed since then is fed today. */
static bool since_then(struct post_reader *r, const struct tokens *t, size_t i, struct span line, struct span *out) {
  bool since = says(t, i, "since") && says(t, i + 1, "last"); /* "for the last month" */
  size_t at = since ? i + 2 : i + 3, amount;
  since = since || (says(t, i, "for") && says(t, i + 1, "the") && says(t, i + 2, "last past"));
  while (says(t, at, "few two three four couple of") && at < i + 6) at++;
  if (!begins_here(t, i) || !since || !is_word(t, at)) return false;
  at += is_mark(t, at + 1, ',') ? 2 : 1;
  amount = at;
  while (amount < t->count && amount < at + 4 && !ends_sentence(t, amount) && !is_number(t, amount)) amount++;
  if (!is_number(t, amount) || !says(t, amount + 1, "g gr grams kg oz lb ml")) return false; /* and not "week 40" */
  for (size_t k = at; k < amount; k++)
    if (says(t, k, "no not without stopped instead")) return false;
  *out = post_cut_out(r, line, token_begin(t, i), token_begin(t, at), "");
  return true;
}

/* All of them in the line. */
static struct span with_lone_pieces(struct post_reader *r, struct span line) {
  enum { PIECES_MOST = 5 };
  for (int n = 0; n < PIECES_MOST; n++) {
    struct tokens t = post_tokens(r, line);
    struct span out = line;
    bool found = false;
    for (size_t i = 0; i + 1 < t.count && t.count <= LINE_MOST_TOKENS && !found; i++)
      found = lone_piece(r, &t, i, line, &out);
    if (!found) return line;
    line = out;
  }
  return line;
}

struct span post_plain(struct post_reader *r, struct span before, struct span line) {
  line = with_lone_pieces(r, line);
  struct tokens t = post_tokens(r, line);
  struct span out = line;
  if (t.count > LINE_MOST_TOKENS) return line;
  bool each = false;
  for (size_t i = 0; i < t.count && !each; i++) each = says(&t, i, "each");
  for (size_t i = 0; i + 1 < t.count; i++)
    if (since_then(r, &t, i, line, &out) || spread_over_days(r, &t, i, before, line, &out) || share_behind_two(r, &t, i, line, &out) || or_some_other(r, &t, i, line, &out) || quoted_purpose(r, &t, i, line, &out) || animal_behind(r, &t, i, line, &out) ||
        lone_egg(r, &t, i, line, &out) || no_just(r, &t, i, line, &out) || per_day_before(r, &t, i, line, &out) ||
        animal_first(r, &t, i, line, &out) || so_there_is(r, &t, i, line, &out) ||
        (each && each_behind(r, &t, i, line, &out)))
      return out;
  return line;
}
