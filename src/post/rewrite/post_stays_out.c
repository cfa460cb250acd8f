/* A food that stays out on some days, and what is fed then, in the words that every reader knows: "On Mondays I skip the
 * tripe and give 150 g of mackerel", "on Saturday instead of reindeer herring 250 g", "100 g of sprats rather than the goat"
 * as "on Mondays 150 g of mackerel instead of the tripe". */
#include "post/rewrite/post_rewrite.h"

static bool on_some_days(const struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    struct frequency f = frequency_at(t, i);
    if (f.tokens > 0 && !f.refuse && f.times_per_28 < CALENDAR_DAYS) return true;
    if (f.tokens > 0) i += f.tokens - 1;
  }
  return false;
}

/* "skip", "leave out", "hold back": how many tokens. */
static size_t leaves_out(const struct tokens *t, size_t at) {
  if (says(t, at, "leave leaves miss misses hold holds take takes") && says(t, at + 1, "out off back")) return 2;
  return says(t, at, "skip skips omit omits drop drops miss misses hold holds leave leaves") ? 1 : 0;
}

static size_t clause_end(const struct tokens *t, size_t at) {
  int depth = 0;
  for (; at < t->count; at++) {
    depth += is_mark(t, at, '(') ? 1 : is_mark(t, at, ')') ? -1 : 0;
    if (depth < 0 ||
        (depth == 0 && (is_mark(t, at, ',') || is_mark(t, at, ';') || is_mark(t, at, '.') || is_mark(t, at, '!'))))
      break;
  }
  return at;
}

/* "I skip the tripe and give 150 g of mackerel" */
static bool skips(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { OLD_MOST = 4 };
  size_t used = leaves_out(t, i), old = i + used, end;
  if (used == 0 || !says(t, old, "the his her that")) return false;
  old++;
  for (end = old; end < old + OLD_MOST && is_word(t, end) && !says(t, end, "and out off");) end++;
  if (end == old || !post_names_food(r, t, old, end)) return false;
  size_t at = end;
  if (says(t, at, "out off")) at++;
  if (is_mark(t, at, ',')) at++;
  if (!says(t, at, "and then i we he she it") && at == end) return false;
  while (says(t, at,
              "and then instead i we he she it it's its gets has does do give feed add use make swap put in offer serve him "
              "her them is there's have get"))
    at++;
  struct post_amount a = post_amount_at(t, at);
  size_t food = at + a.tokens + (says(t, at + a.tokens, "of") ? 1 : 0);
  if (a.tokens == 0 || a.is_percent || post_food_end(r, t, food) == food) return false;
  size_t from = i, to = clause_end(t, food);
  while (from > 0 && says(t, from - 1, "i we he she they to just then and always usually")) from--;
  struct span fed = tokens_span(t, at, to - at);
  size_t instead = to;
  if (says(t, to - 1, "instead")) instead--, fed = tokens_span(t, at, instead - at);
  struct buf b;
  buf_init(&b, r->arena, text.n + 60);
  buf_addf(&b, "%.*s instead of the %.*s", SPAN_ARG(fed), SPAN_ARG(tokens_span(t, old, end - old)));
  *out = post_cut_out(r, text, token_begin(t, from), token_end(t, to - 1), buf_text(&b));
  return true;
}

/* "instead of reindeer herring 250 g": the food that goes and the one that comes, side by side. */
static bool side_by_side(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { NEW_MOST = 3 };
  size_t old = i + 2, used;
  if (!says(t, i, "instead") || !says(t, i + 1, "of")) return false;
  while (says(t, old, "the his her")) old++;
  used = post_mention_at(r, t, old);
  size_t fresh = old + used, named = used > 0 ? post_mention_at(r, t, fresh) : 0, end = fresh;
  if (named == 0) return false;
  while (end < fresh + NEW_MOST && is_word(t, end) && post_amount_at(t, end).tokens == 0) end++;
  struct post_amount a = post_amount_at(t, end);
  if (!(a.is_mass || a.is_volume)) return false;
  struct buf b;
  buf_init(&b, r->arena, text.n + 60);
  buf_addf(&b, "%.*s %.*s instead of the %.*s", SPAN_ARG(tokens_span(t, end, a.tokens)),
           SPAN_ARG(tokens_span(t, fresh, end - fresh)), SPAN_ARG(tokens_span(t, old, used)));
  *out = post_cut_out(r, text, token_begin(t, i), token_end(t, end + a.tokens - 1), buf_text(&b));
  return true;
}

/* "Saturday he gets steak, 120 g, in place of the chicken" */
static bool amount_between(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { NAME_MOST = 4 };
  bool place = says(t, i, "in") && says(t, i + 1, "place") && says(t, i + 2, "of"),
       instead = says(t, i, "instead") && says(t, i + 1, "of");
  if ((!place && !instead) || i < 4 || !is_mark(t, i - 1, ',')) return false;
  size_t amount = t->count, from;
  for (size_t back = 1; back <= 3 && back + 2 < i && amount == t->count; back++) {
    struct post_amount a = post_amount_at(t, i - 1 - back);
    if (a.tokens == back && (a.is_mass || a.is_volume)) amount = i - 1 - back;
  }
  if (amount == t->count || !(is_mark(t, amount - 1, ',') || is_mark(t, amount - 1, ':'))) return false;
  for (from = amount - 1; from > 0 && from + NAME_MOST >= amount && is_word(t, from - 1) &&
                          !token_is_a(&t->item[from - 1], CLASS_CHATTER) && frequency_at(t, from - 1).tokens == 0;)
    from--;
  if (from == amount - 1 || !post_names_food(r, t, from, amount - 1)) return false;
  struct buf b;
  buf_init(&b, r->arena, text.n + 40);
  buf_addf(&b, "%.*s %.*s instead of", SPAN_ARG(tokens_span(t, amount, i - 1 - amount)),
           SPAN_ARG(tokens_span(t, from, amount - 1 - from)));
  *out = post_cut_out(r, text, token_begin(t, from), token_end(t, i + (place ? 2 : 1)), buf_text(&b));
  return true;
}

/* "Twice a week the chicken is 60 g of prawns" */
static bool is_instead(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { OLD_MOST = 3 };
  size_t old = i + 1, end = old;
  if (!says(t, i, "the his her")) return false;
  while (end < old + OLD_MOST && is_word(t, end) && !says(t, end, "is are becomes")) end++;
  if (!says(t, end, "is are becomes") || !post_names_food(r, t, old, end)) return false;
  struct post_amount a = post_amount_at(t, end + 1);
  size_t food = end + 1 + a.tokens + (says(t, end + 1 + a.tokens, "of") ? 1 : 0), to = post_food_end(r, t, food);
  if (!a.is_mass || to == food) return false;
  for (size_t k = old; k < end; k++)
    for (size_t m = food; m < to; m++)
      if (span_eq_fold(t->item[k].word, t->item[m].word)) return false; /* "the mince is 60 g of beef mince" */
  struct buf b;
  buf_init(&b, r->arena, text.n + 60);
  buf_addf(&b, "%.*s instead of the %.*s", SPAN_ARG(tokens_span(t, end + 1, to - end - 1)),
           SPAN_ARG(tokens_span(t, old, end - old)));
  *out = post_cut_out(r, text, token_begin(t, i), token_end(t, to - 1), buf_text(&b));
  return true;
}

/* "a tin of sardines replaces a third of the beef" */
static bool replaces_part(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  double part;
  struct tokens before = {t->item, i};
  size_t used = says(t, i, "replaces replacing") ? post_part_at(t, i + 1, &part) : 0;
  if (used == 0 || !says(t, i + 1 + used, "of") || !post_any_amount(&before, 0)) return false;
  *out = post_cut_out(r, text, token_begin(t, i), token_end(t, i), "instead of");
  return true;
}

/* "Oil: was salmon 10 ml, changed to flax 10 ml in September" */
static bool was_and_is(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  enum { FAR = 10 };
  if (!says(t, i, "was were")) return false;
  struct tokens past = *t;
  for (size_t k = i + 2; k + 2 < t->count && k < i + FAR; k++) {
    bool now = says(t, k, "changed switched swapped moved") && says(t, k + 1, "to");
    past.count = k;
    if (!now || !post_any_amount(&past, i) || !post_any_amount(t, k + 2)) continue;
    post_note(r, tokens_span(t, i, k - i), "about the past");
    *out = post_cut_out(r, text, token_begin(t, i), token_end(t, k + 1), "");
    return true;
  }
  return false;
}

/* "100 g of sprats rather than the goat", "on one day in the week" */
static bool other_words(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  bool rather = says(t, i, "rather") && says(t, i + 1, "than") && says(t, i + 2, "the his her") && i > 0;
  if (rather) {
    *out = post_cut_out(r, text, token_begin(t, i), token_end(t, i + 1), "instead of");
    return true;
  }
  if (says(t, i, "each") && says(t, i + 1, "other second") &&
      says(t, i + 2, "day days")) { /* as people from abroad say it */
    *out = post_cut_out(r, text, token_begin(t, i), token_end(t, i), "every");
    return true;
  }
  size_t at = says(t, i, "on") ? i + 1 : i;
  bool one = (says(t, at, "one") || (is_number(t, at) && t->item[at].value == 1)) && says(t, at + 1, "day") &&
             says(t, at + 2, "in of out") && (says(t, at + 3, "the a") || says(t, at + 3, "of"));
  size_t week = at + 4;
  while (one && says(t, week, "the a")) week++;
  if (!one || !says(t, week, "week")) return false;
  size_t end = week + 1;
  while (says(t, end, "it's its it is he she gets has")) end++;
  if (post_amount_at(t, end).tokens == 0) end = week + 1;
  *out = post_cut_out(r, text, token_begin(t, i), token_end(t, end - 1), "once a week");
  return true;
}

bool post_left_out_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i + 3 < t->count; i++)
    if (amount_between(r, t, text, i, out) || replaces_part(r, t, text, i, out) || was_and_is(r, t, text, i, out))
      return true;
  bool may = false, some_days = false;
  for (size_t i = 0; i + 4 < t->count; i++) {
    some_days = some_days || (says(t, i, "is are becomes") && on_some_days(t));
    if (some_days) break;
  }
  for (size_t i = 0; some_days && i + 4 < t->count; i++)
    if (is_instead(r, t, text, i, out)) return true;
  for (size_t i = 0; i + 3 < t->count && !may; i++)
    may = leaves_out(t, i) > 0 || says(t, i, "instead rather") || (says(t, i, "day") && says(t, i + 1, "in of out")) ||
          (says(t, i, "each") && says(t, i + 1, "other second"));
  for (size_t i = 0; may && i + 3 < t->count; i++)
    if (other_words(r, t, text, i, out)) return true;
  if (!may || !on_some_days(t)) return false;
  for (size_t i = 0; i + 3 < t->count; i++)
    if (skips(r, t, text, i, out) || side_by_side(r, t, text, i, out)) return true;
  return false;
}
