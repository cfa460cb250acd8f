/* Where no line of a post could be read whole: what is surely a food and an amount in those that were left out is counted,
 * and the rest of its words is said and asked about. A text of which anything is understood is answered. */
#include "foods/hazard_words.h"
#include "post/post_parts.h"

/* Left out as its words were not all understood, and not as it may not be fed. */
static bool was_not_read(const struct post_left *left) {
  static const enum diag_code WHY[] = {DIAG_UNKNOWN_FOOD, DIAG_LEFT_OPEN, DIAG_CODE_COUNT};
  if (!left->fed) return false;
  for (size_t i = 0; i < COUNT_OF(WHY); i++)
    if (strcmp(left->why, post_why_in_words(WHY[i], false)) == 0) return true;
  return strcmp(left->why, POST_OFTEN_UNREAD) == 0;
}

/* The amount that stands nearest before 'at', else the first one; t->count none. */
static size_t amount_for(const struct post_reader *r, const struct tokens *t, size_t at, struct post_amount *out) {
  size_t found = t->count;
  for (size_t i = 0; i < t->count; i++) {
    double kg;
    size_t body = post_weight_at(t, i, &kg); /* "Dog 18 kg: mussels 15 g" */
    size_t skip = body > 0 && kg == r->weight_kg ? body : not_an_amount(t, i);
    struct post_amount a = skip > 0 ? (struct post_amount){0} : post_amount_at(t, i);
    bool fits = a.tokens > 0 && !a.cannot && !a.is_percent && !(a.bare && a.by_word);
    if (fits && (found == t->count || i < at)) {
      *out = a;
      found = i;
    }
    if (skip + a.tokens > 1) i += skip + a.tokens - 1;
  }
  return found;
}

/* "700 g mutton (boiled with turmeric)": the amount is of what stands before the bracket. */
static bool within_bracket(const struct tokens *t, size_t amount, size_t name) {
  for (size_t i = amount; i < name; i++)
    if (is_mark(t, i, '(')) return true;
  return false;
}

/* "beef mince": the longest name at a token that a record fits, without an animal or a part of it lost. */
static size_t name_of(struct post_reader *r, const struct tokens *t, size_t at) {
  enum { LONGEST = 4 };
  size_t best = post_mention_at(r, t, at);
  for (size_t n = best + 1; best > 0 && n <= LONGEST && at + n <= t->count && is_word(t, at + n - 1); n++) {
    struct search_hit hit;
    if (token_is_a(&t->item[at + n - 1], CLASS_CHATTER)) break;
    if (post_look_up(r, tokens_span(t, at, n), &hit) && hit.words_missed == 0 && hit.score >= 0.6) best = n;
  }
  return best;
}

static size_t amounts_in(const struct tokens *t) {
  size_t n = 0;
  for (size_t i = 0; i < t->count; i++) {
    size_t skip = not_an_amount(t, i);
    struct post_amount a = skip > 0 ? (struct post_amount){0} : post_amount_at(t, i);
    n += a.tokens > 0 && !a.bare;
    if (skip + a.tokens > 1) i += skip + a.tokens - 1;
  }
  return n;
}

static bool count_what_is_sure(struct post_reader *r, size_t item, const struct post_left *left) {
  struct tokens t = post_tokens(r, span_of(left->text));
  if (hazard_words_danger(r->lib, span_of(left->text), SPECIES_BOTH, r->arena) != NO_INDEX) return false;
  for (size_t i = 0; i < t.count; i++) {
    size_t n = name_of(r, &t, i);
    struct post_amount a = {0};
    size_t amount = n > 0 ? amount_for(r, &t, i, &a) : t.count;
    if (amount >= t.count || within_bracket(&t, amount, i)) continue;
    struct buf b, note;
    const char *assumed, *often = post_often_in(r, &t, 0, t.count);
    buf_init(&b, r->arena, left->text[0] ? 400 + strlen(left->text) : 400);
    if (a.bare && r->bare_unit[0] && !a.by_word) memcpy(a.unit, r->bare_unit, strlen(r->bare_unit) + 1);
    amount_write(&b, &a, 1);
    buf_addf(&b, " %.*s", SPAN_ARG(tokens_span(&t, i, n)));
    if (often[0]) buf_addf(&b, ", %s", often);
    struct ration_line got;
    if (!strict_takes(r, buf_text(&b), &assumed, &got)) continue;
    buf_init(&note, r->arena, 400 + strlen(left->text));
    buf_addf(&note, "counted without the other words of '%.*s'", SPAN_ARG(quoted(span_of(left->text))));
    struct item *now = &r->item[item];
    now->kind = ITEM_FOOD;
    now->text = arena_text(r->keep, buf_span(&b));
    now->grams = r->taken_grams;
    now->food = r->taken_food;
    now->words = span_of(arena_text(r->keep, r->taken_words));
    now->assumed = arena_text(r->keep, span_of(assumed));
    post_doubt(r, item, buf_text(&note));
    r->line = now->line;
    r->ask_of = item + 1;
    post_ask(r, 4, "Is '%s' what is meant by '%.*s'? How much of it is fed, and how often?", now->text,
             SPAN_ARG(post_quote(r, span_of(left->text))));
    r->ask_of = 0;
    if (amounts_in(&t) > 1) post_leave(r, span_of(left->text), "it names other amounts, which could not be read", true);
    return true;
  }
  return false;
}

void post_last_resort(struct post_reader *r) {
  if (post_any_food(r)) return;
  for (size_t k = 0; k < r->left_count; k++) {
    struct post_left left = r->left[k];
    if (!was_not_read(&left)) continue;
    for (size_t i = 0; i < r->count; i++) {
      if (r->item[i].kind != ITEM_UNKNOWN || strcmp(r->item[i].text, left.text) != 0) continue;
      if (!count_what_is_sure(r, i, &left)) break;
      memmove(r->left + k, r->left + k + 1, (r->left_count - k - 1) * sizeof *r->left);
      r->left_count--;
      k--;
      break;
    }
    arena_rewind(r->arena, r->begin);
  }
}
