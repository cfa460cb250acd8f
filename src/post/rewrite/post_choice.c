/* One of several foods, each with its part of the days: "one of: half an egg, 30 g of cottage cheese", "a different fish
 * each week, 120 g a day: cod, salmon, haddock". */
#include "base/num.h"
#include "post/hear/post_net.h"
#include "post/rewrite/post_rewrite.h"

/* "Each morning one of: half an egg, 30 g of cottage cheese": each of them on its day. */
static bool one_of_these(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  enum { CHOICES_MOST = 6 };
  for (size_t i = 0; i + 4 < t->count; i++) {
    size_t at = i;
    if (says(t, at, "either any")) at++;
    if (!says(t, at, "one") || !says(t, at + 1, "of")) continue;
    at += 2;
    if (says(t, at, "these the those")) at++;
    if (says(t, at, "following")) at++;
    if (!is_mark(t, at, ':')) continue;
    at++;
    struct span choice[CHOICES_MOST];
    size_t n = 0, begin = at;
    for (size_t k = at; k <= t->count && n < CHOICES_MOST; k++) {
      bool ends = k == t->count || is_mark(t, k, '.');
      if (!ends && !is_mark(t, k, ',') && !is_mark(t, k, ';') && !is_mark(t, k, '/') && !says(t, k, "or")) continue;
      if (k > begin) {
        struct tokens piece = tokens_part(t, begin, k);
        bool amount = post_any_amount(&piece, 0) || quantity_at(&piece, 0).fault == QUANTITY_FINE;
        if (!amount || !post_names_food(r, &piece, 0, piece.count)) return false;
        choice[n++] = tokens_span(t, begin, k - begin);
      }
      begin = k + 1;
      if (ends) break;
    }
    if (n < 2) return false;
    size_t daily = i;
    while (daily > 0 && !is_mark(t, daily - 1, '.') && !is_mark(t, daily - 1, ';') &&
           frequency_at(t, daily - 1).tokens > 0 && daily - 1 + frequency_at(t, daily - 1).tokens <= i)
      daily--;
    for (size_t k = 0; k < i; k++)
      if (frequency_at(t, k).tokens > 0 && k + frequency_at(t, k).tokens == i) daily = k < daily ? k : daily;
    struct buf b;
    buf_init(&b, r->arena, 2 * text.n + 200);
    for (size_t k = 0; k < n; k++) {
      buf_addf(&b, "%s%.*s, every ", k > 0 ? ", " : "", SPAN_ARG(choice[k]));
      buf_addf(&b, "%d days", (int)n);
    }
    *out = post_cut_out(r, text, token_begin(t, daily), text.p + text.n, buf_text(&b));
    return true;
  }
  return false;
}

/* A food of a list that takes turns, without "one week", "the next", "then". */
static struct span bare_choice(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  struct span none = {"", 0};
  for (size_t used = 1; from < to && used > 0;) {
    used = phrase_of(t, from, CLASS_SECOND_TURN) + phrase_of(t, from, CLASS_FIRST_TURN);
    if (used == 0) used = phrase_of(t, from, CLASS_FIRST_TURN_BEHIND);
    if (used == 0) used = phrase_of(t, from, CLASS_SECOND_TURN_BEHIND);
    if (used == 0) used = phrase_of(t, from, CLASS_TAKING_TURNS);
    if (used == 0) used = says(t, from, "then and or either week it's its maybe between") ? 1 : 0;
    from += used;
  }
  size_t turn = from; /* "cod one week": the name ends there */
  while (turn < to && phrase_of(t, turn, CLASS_FIRST_TURN_BEHIND) == 0 && phrase_of(t, turn, CLASS_SECOND_TURN_BEHIND) == 0)
    turn++;
  struct tokens name = {t->item, turn};
  size_t end = post_food_end(r, &name, from);
  if (end == from) return none;
  for (size_t at = end, used; at < to; at += used) {
    used = phrase_of(t, at, CLASS_FIRST_TURN_BEHIND);
    if (used == 0) used = phrase_of(t, at, CLASS_SECOND_TURN_BEHIND);
    if (used == 0) used = phrase_of(t, at, CLASS_SECOND_TURN);
    if (used == 0 && says(t, at, "week then")) used = 1;
    if (used == 0) return none;
  }
  return tokens_span(t, from, end - from);
}

static bool tells_of_turns(const struct tokens *t) {
  bool different = false, each = false;
  if (holds_a(t, 0, t->count, CLASS_TAKING_TURNS) || holds_a(t, 0, t->count, CLASS_FIRST_TURN_BEHIND)) return true;
  for (size_t i = 0; i < t->count; i++) {
    different = different || says(t, i, "different another");
    each = each || (says(t, i, "each every") && says(t, i + 1, "week day month time"));
  }
  return different && each;
}

/* The last amount before the list that has no food of its own, or the one of the sentence; t->count none. */
static size_t amount_of_kind(struct post_reader *r, const struct tokens *t, size_t list, struct post_amount *a) {
  size_t found = t->count, count = 0;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount own = post_amount_at(t, i);
    if (own.tokens == 0) continue;
    size_t behind = i + own.tokens;
    if (says(t, behind, "of")) behind++;
    bool kind = is_word(t, behind) && (net_is_kind(t->item[behind].word) || says_a(t, behind, CLASS_ORGAN_OF_MEAT) ||
                                       says_a(t, behind, CLASS_MINCED));
    bool weighed = (own.is_mass || own.is_volume) && own.low == own.high && (kind || post_food_end(r, t, behind) == behind);
    if (weighed && i > list && count > 0) break;
    if (weighed) *a = own, found = i, count++;
    i += own.tokens - 1;
  }
  return found;
}

/* "A different fish each week, 120 g a day: cod one week, salmon the next, then haddock" */
static bool different_each(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  enum { CHOICES_MOST = 6 };
  if (!tells_of_turns(t)) return false;
  for (size_t colon = 0; colon < t->count; colon++) {
    if (!is_mark(t, colon, ':') && !says(t, colon, "either") && !is_mark(t, colon, '(') &&
        !(is_mark(t, colon, '-') && !t->item[colon].glued))
      continue;
    struct post_amount a = {0};
    size_t amount = amount_of_kind(r, t, colon, &a);
    if (amount == t->count) continue;
    struct span food[CHOICES_MOST];
    size_t n = 0, begin = colon + 1, end = begin;
    bool all = true;
    for (size_t k = begin; k <= t->count && all && n < CHOICES_MOST; k++) {
      bool ends = k == t->count || is_mark(t, k, '.') || is_mark(t, k, ';') || is_mark(t, k, ')') || is_mark(t, k, '-') ||
                  k == amount;
      if (!ends && !is_mark(t, k, ',') && !is_mark(t, k, '/') && !says(t, k, "or and then")) continue;
      if (k > begin) {
        struct span one = bare_choice(r, t, begin, k);
        all = one.n > 0;
        if (all) food[n++] = one, end = k;
      }
      begin = k + 1;
      if (ends) break;
    }
    if (n < 2 || !all) continue;
    struct buf b;
    buf_init(&b, r->arena, text.n + n * 80);
    size_t part = amount + a.tokens; /* "30 g heart (one week lamb, next week pork)" */
    if (says(t, part, "of")) part++;
    bool of_part = says_a(t, part, CLASS_PART_OF) || says_a(t, part, CLASS_ORGAN_OF_MEAT) || says_a(t, part, CLASS_MINCED);
    of_part = of_part && !net_is_kind(t->item[part].word);
    for (size_t k = 0; k < n; k++) {
      if (k > 0) buf_adds(&b, ", ");
      amount_write(&b, &a, 1 / (double)n);
      buf_addf(&b, " %.*s", SPAN_ARG(food[k]));
      if (of_part && amount < colon) buf_addf(&b, " %.*s", SPAN_ARG(t->item[part].at));
    }
    size_t last = end;
    if (is_mark(t, colon, '(') && is_mark(t, end, ')')) last++;
    size_t from = amount < colon ? amount : colon, lead = from; /* what leads to the list goes, and no other food */
    while (lead > 0 && !is_mark(t, lead - 1, '.') && !is_mark(t, lead - 1, ';')) lead--;
    struct tokens before = tokens_part(t, lead, from);
    if (!post_any_amount(&before, 0)) from = lead;
    size_t stop = amount > end ? amount + a.tokens : last;
    while (stop < t->count && amount > end && !is_mark(t, stop, ',') && !is_mark(t, stop, '.') && !is_mark(t, stop, ';') &&
           !says(t, stop, "plus and with"))
      stop++;
    *out = post_cut_out(r, text, token_begin(t, from), token_end(t, stop - 1), buf_text(&b));
    return true;
  }
  return false;
}

bool post_choice_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  return one_of_these(r, t, text, out) || different_each(r, t, text, out);
}
