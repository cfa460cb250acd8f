/* A vitamin that adds up, with its dose behind it or around "drops": "vit D3 drops 5000iu", "gets vitamin D 1000 IU drops"
 * is "5000 IU vitamin D3", so that no dose stays unread for a word of its form. */
#include "base/num.h"
#include "post/rewrite/post_rewrite.h"

/* "vitamin D3", "vit. a", "D3", "cholecalciferol": how many tokens, and which it is. */
static size_t vitamin_at(const struct tokens *t, size_t at, const char **which) {
  static const struct { const char *letter, *which; } LETTER[] = {{"d", "D"}, {"d2", "D2"}, {"d3", "D3"}, {"a", "A"}};
  if (says(t, at, "cholecalciferol")) {
    *which = "D3";
    return 1;
  }
  size_t used = says(t, at, "vitamin vit vits vitamins") ? 1 : 0, letter = at + used;
  if (used > 0 && is_mark(t, letter, '.')) letter++, used++;
  if (used > 0 && is_mark(t, letter, '-')) letter++, used++;
  for (size_t i = 0; i < COUNT_OF(LETTER); i++) {
    if (!says(t, letter, LETTER[i].letter) || (used == 0 && i != 2)) continue;
    *which = LETTER[i].which;
    return used + 1;
  }
  return 0;
}

static size_t past_form(const struct tokens *t, size_t at) {
  while (says(t, at, "drop drops liquid spray oil capsule capsules caps cap softgel softgels tablet tablets supplement") ||
         is_mark(t, at, ':') || is_mark(t, at, '(') || is_mark(t, at, ')') || is_mark(t, at, '-'))
    at++;
  return at;
}

/* "5000 iu", "5000iu", "25 mcg": how many tokens of a dose of a vitamin. */
static size_t dose_at(const struct tokens *t, size_t at, double *amount, bool *micrograms) {
  if (at >= t->count || t->item[at].kind != TOKEN_NUMBER || t->item[at].taken) return 0;
  *amount = t->item[at].value;
  size_t unit = at + 1, used = 0;
  *micrograms = says(t, unit, "mcg ug \xC2\xB5g \xCE\xBCg");
  if (*micrograms || says(t, unit, "iu ius ie units")) used = 2;
  if (used == 0 && says(t, unit, "i.u i.u.")) used = 2;
  return *amount > 0 ? used : 0;
}

/* "2 drops of vitamin D3 (400 IU each)", "1 capsule vitamin A 10000 IU": how many of them is said before it. */
static bool is_counted_before(const struct tokens *t, size_t at) {
  for (size_t i = at; i-- > 0 && i + 3 >= at;)
    if (is_number(t, i) || says(t, i, "a an one two half iu mcg ug mg")) return true;
  return false;
}

/* "vit E 400 every other day", "vitamin D 1000": the sizes that they are sold in, in international units. */
static bool bare_units(struct post_reader *r, const struct tokens *t, struct span text, size_t i, struct span *out) {
  static const double SIZES[] = {100, 200, 268, 400, 500, 800, 1000, 2000, 5000, 10000};
  size_t letter = says(t, i, "vitamin vit vits") ? i + 1 : t->count;
  if (is_mark(t, letter, '.')) letter++;
  size_t at = says(t, letter, "e d d3 a") ? letter + 1 : t->count;
  if (!is_number(t, at) || post_amount_at(t, at).unit[0] || says(t, at + 1, "iu i.u mg mcg ug units x")) return false;
  if (at + 1 < t->count && t->item[at + 1].kind == TOKEN_MARK && !is_mark(t, at + 1, ',') && !is_mark(t, at + 1, ';') &&
      !is_mark(t, at + 1, ')'))
    return false;
  for (size_t k = 0; k < COUNT_OF(SIZES); k++)
    if (t->item[at].value == SIZES[k]) {
      struct buf b;
      buf_init(&b, r->arena, 40);
      buf_addf(&b, "%.*s IU", SPAN_ARG(t->item[at].at));
      *out = post_cut_out(r, text, token_begin(t, at), token_end(t, at), buf_text(&b));
      return true;
    }
  return false;
}

bool post_vitamin_written_out(struct post_reader *r, const struct tokens *t, struct span text, struct span *out) {
  for (size_t i = 0; i + 2 < t->count; i++)
    if (bare_units(r, t, text, i, out)) return true;
  for (size_t i = 0; i < t->count; i++) {
    const char *which;
    size_t used = vitamin_at(t, i, &which), from = i;
    if (used == 0) continue;
    size_t form = past_form(t, i + used);
    bool told = i > 0 && says(t, i - 1, "iu ius mcg ug"),
         form_word = form > i + used && t->item[form - 1].kind == TOKEN_WORD;
    if (told && form_word && form == i + used + 1) { /* "1000 IU vitamin D drops" */
      const char *behind = t->item[form - 1].at.p + t->item[form - 1].at.n;
      *out = post_cut_out(r, text, t->item[form - 1].at.p, behind, "");
      return true;
    }
    while (from > 0 && says(t, from - 1, "of capsule softgel tablet drop cap")) from--;
    if (from > 0 && from < i && says(t, from - 1, "a an one"))
      from--; /* "a capsule of vitamin A 10000 IU" */
    else
      from = i;
    if (is_counted_before(t, from)) continue;
    double amount;
    bool micrograms;
    size_t dose = dose_at(t, form, &amount, &micrograms), end = form + dose;
    if (dose == 0 || says(t, end, "each per")) continue;
    struct buf b;
    buf_init(&b, r->arena, 80);
    num_sig(&b, amount, 7);
    buf_addf(&b, " %s vitamin %s", micrograms ? "mcg" : "IU", which);
    size_t behind = past_form(t, end);
    if (behind > end && t->item[behind - 1].kind == TOKEN_WORD) end = behind;
    if (says(t, end, "from") && says(t, end + 1, "me us")) end += 2;
    const char *to = t->item[end - 1].at.p + t->item[end - 1].at.n;
    *out = post_cut_out(r, text, t->item[from].at.p, to, buf_text(&b));
    return true;
  }
  return false;
}
