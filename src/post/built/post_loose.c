/* Lines without the marks that part them: "mornings cod 50 g evenings cod 50 g", "80 g of lamb in the morning 80 at night",
 * "Cat. 4.3 kg", "the peas stay: 30 g". */
#include "base/num.h"
#include "post/built/post_built.h"
#include "post/rewrite/post_rewrite.h"

static bool is_time_of_meal(const struct tokens *t, size_t at) {
  return says(
      t, at,
      "morning mornings evening evenings night nights noon midday am pm breakfast brekkie lunch dinner supper bedtime "
      "afternoon");
}

/* An amount that is measured, in its sentence before 'at'. */
static bool measured_before(const struct tokens *t, size_t at) {
  for (size_t i = at; i-- > 0 && !ends_sentence(t, i);) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens > 0 && i + a.tokens <= at && (a.is_mass || a.is_volume)) return true;
  }
  return false;
}

/* "... evenings cod 50 g": a meal begins, with its food or its amount right behind it. */
static bool meal_begins(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 2; i + 1 < t->count; i++) {
    if (!is_time_of_meal(t, i) || !is_word(t, i - 1) || !measured_before(t, i)) continue;
    if (is_time_of_meal(t, i - 1) || says_a(t, i - 1, CLASS_DAY_OF_WEEK) ||
        says(t, i - 1,
             "in at for the each every his her my of on per to by and or with before after this same one a as "
             "like from until daily late early all weekday weekend"))
      continue;
    size_t behind = i + 1;
    if (is_mark(t, behind, ':') || is_mark(t, behind, '-') || is_mark(t, behind, '=')) behind++;
    struct post_amount a = post_amount_at(t, behind);
    bool food = post_food_end(r, t, behind) > behind && post_any_amount(t, behind);
    if (!food && !(a.is_mass || a.is_volume)) continue;
    char mark[] = {0x1F, 0};
    *out = post_cut_out(r, line, token_begin(t, i), token_begin(t, i), mark);
    return true;
  }
  return false;
}

/* "in the morning", "at night": how many tokens; 0. */
static size_t meal_phrase(const struct tokens *t, size_t at) {
  size_t from = at;
  if (says(t, at, "in at for")) at++;
  if (at == from) return 0;
  if (says(t, at, "the")) at++;
  return is_time_of_meal(t, at) ? at + 1 - from : 0;
}

/* "80 g of lamb in the morning, 80 at night": the second number is of the same food. */
static bool number_at_meal(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  static const double LEAST = 5;
  for (size_t i = 3; i + 1 < t->count; i++) {
    struct quantity q = quantity_at(t, i);
    if (q.fault != QUANTITY_FINE || q.low != q.high || !(q.low >= LEAST) || meal_phrase(t, i + q.tokens) == 0) continue;
    if (not_an_amount(t, i) > 0) continue;
    size_t end = i, k = i;
    if (says(t, end - 1, "and then") || is_mark(t, end - 1, ',')) end--;
    while (k > 0 && !ends_sentence(t, k - 1)) {
      struct post_amount a = post_amount_at(t, --k);
      if (a.tokens > 0 && k + a.tokens <= i && (a.is_mass || !a.bare)) break;
    }
    struct post_amount a = post_amount_at(t, k);
    size_t food = k + a.tokens + says(t, k + a.tokens, "of"), food_end = post_food_end(r, t, food);
    if (!a.is_mass || food_end == food || food_end + meal_phrase(t, food_end) != end || end == food_end) continue;
    struct buf b;
    buf_init(&b, r->keep, line.n + 40);
    buf_addc(&b, 0x1F);
    num_sig(&b, q.low, 6);
    buf_addf(&b, " %s %.*s", a.unit, SPAN_ARG(tokens_span(t, food, food_end - food)));
    *out = post_cut_out(r, line, token_end(t, end - 1), token_end(t, i + q.tokens - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "dog. 6 kg", at the end: what the animal weighs. */
static bool animal_and_weight(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 0; i + 2 < t->count; i++) {
    enum species s;
    double kg;
    if (!is_word(t, i) || !is_animal_word(t->item[i].word, &s) || !is_mark(t, i + 1, '.')) continue;
    size_t used = post_weight_at(t, i + 2, &kg), end = i + 2 + used;
    if (used == 0 || !(end >= t->count || (ends_sentence(t, end) && !t->item[end].taken))) continue;
    *out = post_cut_out(r, line, token_begin(t, i + 1), token_end(t, i + 1), ",");
    return true;
  }
  return false;
}

/* "The peas stay: 30 g", "the oil remains at 1 tsp": fed as before. */
static bool stays_at(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 1; i + 2 < t->count; i++) {
    if (!says(t, i, "stay stays stayed remain remains remained")) continue;
    size_t at = i + 1, from = i;
    while (says(t, at, "at the same as they it are were was is with") || is_mark(t, at, ':') || is_mark(t, at, ',') ||
           is_mark(t, at, '('))
      at++;
    struct post_amount a = post_amount_at(t, at);
    while (from > 0 && is_word(t, from - 1) && from + 4 > i && !says(t, from - 1, "and but the what")) from--;
    if (!(a.is_mass || a.is_volume) || from == i || !post_names_food(r, t, from, i)) continue;
    *out = post_cut_out(r, line, token_end(t, i - 1), token_begin(t, at), ": ");
    return true;
  }
  return false;
}

/* "Friday is liver day, 15 g, chicken's"; and "Out: kibble, 120 g", which is fed no longer. */
static bool food_day(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  for (size_t i = 0; i + 2 < t->count; i++) {
    const char *day;
    bool begins = i == 0 || ends_sentence(t, i - 1);
    if (begins && says(t, i, "out") && is_mark(t, i + 1, ':') && post_any_amount(t, i + 2)) {
      *out = post_cut_out(r, line, token_begin(t, i), token_end(t, i), "Dropped");
      return true;
    }
    if (!is_word(t, i) || meaning_at(t, i, CLASS_DAY_OF_WEEK, &day) == 0 || !says(t, i + 1, "is")) continue;
    size_t end = i + 2;
    while (is_word(t, end) && end < i + 5 && !says(t, end, "day")) end++;
    if (!says(t, end, "day") || end == i + 2 || !post_names_food(r, t, i + 2, end)) continue;
    size_t at = end + 1 + (is_mark(t, end + 1, ',') || is_mark(t, end + 1, ':') || is_mark(t, end + 1, '-'));
    struct post_amount a = post_amount_at(t, at);
    if (a.tokens == 0) continue;
    size_t last = at + a.tokens, of = last + is_mark(t, last, ',');
    struct span whose = {"", 0};
    if (is_word(t, of) && t->item[of].word.n > 3) {
      struct span w = t->item[of].word;
      bool own = span_is(span_cut(w, w.n - 2, w.n), "'s") && is_a(span_cut(w, 0, w.n - 2), CLASS_ANIMAL_OF_FLESH);
      if (own) whose = span_cut(w, 0, w.n - 2), last = of + 1;
    }
    struct buf b;
    buf_init(&b, r->keep, line.n + 40);
    buf_addf(&b, "On %.*s %.*s %.*s%s%.*s", SPAN_ARG(t->item[i].at), SPAN_ARG(tokens_span(t, at, a.tokens)), SPAN_ARG(whose),
             whose.n > 0 ? " " : "", SPAN_ARG(tokens_span(t, i + 2, end - i - 2)));
    *out = post_cut_out(r, line, token_begin(t, i), token_end(t, last - 1), buf_text(&b));
    return true;
  }
  return false;
}

/* "1) minced lamb 150 g 2) potato 100 g": a list in one line. */
static bool inline_list(struct post_reader *r, const struct tokens *t, struct span line, struct span *out) {
  int want = 1;
  size_t last = 0;
  for (size_t i = 0; i + 2 < t->count; i++) {
    bool number = is_number(t, i) && is_mark(t, i + 1, ')') && t->item[i + 1].glued && t->item[i].value == want;
    if (!number || (i > 0 && is_mark(t, i - 1, '('))) continue;
    last = i, want++;
  }
  if (want < 3 || last == 0) return false; /* the last of them first, so that those before it still count */
  char mark[] = {0x1F, 0};
  *out = post_cut_out(r, line, token_begin(t, last), token_end(t, last + 1), mark);
  return true;
}

struct span post_loose(struct post_reader *r, struct span before, struct span line) {
  (void)before;
  struct tokens t = post_tokens(r, line);
  struct span out = line;
  if (t.count > SENTENCE_MOST_WORDS * 2) return line;
  return animal_and_weight(r, &t, line, &out) || number_at_meal(r, &t, line, &out) || meal_begins(r, &t, line, &out) ||
                 stays_at(r, &t, line, &out) || food_day(r, &t, line, &out) || inline_list(r, &t, line, &out)
             ? out
             : line;
}
