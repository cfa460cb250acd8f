/* What one piece weighs, told behind the pieces: "1 carrot a day, they're around 70 g", "one lamb rib, they come out at 200
 * g each". */
#include "base/num.h"
#include "post/govern/post_govern.h"

/* The one weight of a text that speaks of the pieces before it and names no food; tokens 0: it is no such text. */
static struct post_amount weight_of_one(struct post_reader *r, const struct tokens *t) {
  enum { LONGEST = 12 };
  struct post_amount found = {0};
  bool apiece = t->count > 1 && says(t, t->count - 1, "apiece each"); /* "chicks are around 35 g apiece" */
  if (t->count > LONGEST || !(says_a(t, 0, CLASS_PIECES_BEFORE) || apiece)) return found;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0 && !apiece && post_mention_at(r, t, i) > 0) return (struct post_amount){0};
    if (a.tokens == 0 || a.by_word) continue;
    if (!a.is_mass || found.tokens > 0) return (struct post_amount){0};
    found = a;
    i += a.tokens - 1;
  }
  return found;
}

/* The line before it in the post, when it counts pieces; r->count. */
static size_t pieces_before(const struct post_reader *r, size_t unread) {
  size_t k = unread;
  while (k > 0 && r->item[k - 1].kind == ITEM_GONE) k--;
  bool near = k > 0 && r->item[k - 1].kind == ITEM_FOOD && r->item[unread].line - r->item[k - 1].line <= 1;
  return near ? k - 1 : r->count;
}

static bool weigh_pieces(struct post_reader *r, size_t item, const struct post_amount *one) {
  struct tokens t = post_tokens(r, span_of(r->item[item].text));
  struct post_amount pieces = post_amount_at(&t, 0), all = *one;
  const char *assumed;
  if (pieces.tokens == 0 || pieces.unit[0] || pieces.tokens >= t.count || pieces.is_percent) return false;
  all.low *= pieces.low;
  all.high *= pieces.high;
  struct buf b, note;
  buf_init(&b, r->arena, strlen(r->item[item].text) + 60);
  amount_write(&b, &all, 1);
  buf_addf(&b, " %s", t.item[pieces.tokens].at.p);
  if (!strict_takes(r, buf_text(&b), &assumed, NULL) || r->taken_food != r->item[item].food) return false;
  buf_init(&note, r->arena, 80);
  buf_adds(&note, "one taken as ");
  amount_write(&note, one, 1);
  buf_adds(&note, ", as the post says");
  r->item[item].text = arena_text(r->keep, buf_span(&b));
  r->item[item].grams = r->taken_grams;
  r->item[item].assumed = arena_text(r->keep, buf_span(&note));
  return true;
}

/* "Chicks are around 35 g apiece", "his eggs weigh 55 g": what one weighs of a food that is counted above; false where the
 * sentence is another one. */
bool post_weighs_one(struct post_reader *r, const struct tokens *t, struct span text) {
  size_t at = says(t, 0, "the his her my our their its these those") ? 1 : 0, food = at;
  while (at < t->count && is_word(t, at) && !says_a(t, at, CLASS_WEIGHS) && at < food + 4) at++;
  if (at == food || !says_a(t, at, CLASS_WEIGHS) || !post_names_food(r, t, food, at)) return false;
  struct span word = t->item[at - 1].word;
  while (says_a(t, at, CLASS_WEIGHS) || says_a(t, at, CLASS_ABOUT) || says(t, at, "usually mostly out in at so only")) at++;
  struct post_amount one = post_amount_at(t, at);
  if (!one.is_mass) return false;
  at += one.tokens;
  bool each = says(t, at, "each apiece") || phrase_at(t, at, "a piece") > 0;
  at += each ? says(t, at, "a") ? 2 : 1 : 0;
  while (at < t->count && t->item[at].kind == TOKEN_MARK) at++;
  if (at < t->count) return false;
  for (size_t i = r->count; i-- > 0;) {
    if (r->item[i].kind != ITEM_FOOD || !net_has_word(r->item[i].words, word) || !weigh_pieces(r, i, &one)) continue;
    post_claim(r, text, CLAIM_TOLD, 0, 0);
    return true;
  }
  if (!each) return false;
  if (!post_leave(r, text, "it says what one weighs, and not how many are fed", true))
    post_ask(r, 3, "How many are fed of which you write '%.*s'?", SPAN_ARG(post_quote(r, text)));
  return true;
}

void net_weigh_pieces(struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++) {
    struct item *unread = &r->item[i];
    size_t pieces = unread->kind == ITEM_UNKNOWN ? pieces_before(r, i) : r->count;
    if (pieces >= r->count) continue;
    struct tokens t = post_tokens(r, span_of(unread->text));
    struct post_amount one = weight_of_one(r, &t);
    if (one.tokens == 0 || !weigh_pieces(r, pieces, &one)) continue;
    struct span text = span_of(unread->text);
    net_forget_item(r, i);
    for (size_t k = 0; k < r->left_count; k++)
      if (r->left[k].fed && span_eq(span_of(r->left[k].text), text)) {
        r->left[k].fed = false;
        r->left[k].why = "taken as what one of them weighs";
      }
    arena_rewind(r->arena, r->begin);
  }
}
