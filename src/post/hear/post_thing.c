/* "half a zorbix", "one zorbit", "a dentizorb": a thing of its own that is fed, whatever it is, and no part of what was
 * counted. */
#include "post/hear/post_hear.h"

bool post_is_thing(const struct tokens *t, size_t at) {
  enum species animal;
  struct quantity q = quantity_at(t, at);
  size_t thing = at;
  if (q.fault == QUANTITY_FINE && q.tokens > 0)
    thing = at + q.tokens;
  else if (says(t, at, "a an one half some"))
    thing = at + 1;
  if (thing == at) return false;
  while (says(t, thing, "a an small big little large whole")) thing++;
  if (!is_word(t, thing) || t->item[thing].word.n < 3 || frequency_at(t, at).tokens > 0 || frequency_at(t, thing).tokens > 0)
    return false;
  struct token *k = &t->item[thing];
  if (token_is_a(k, CLASS_CHATTER) || token_is_a(k, CLASS_CLAUSE_OPENER) || token_is_animal(k, &animal) ||
      token_is_a(k, CLASS_MEAL) || token_is_a(k, CLASS_VESSEL) || token_is_a(k, CLASS_VESSEL_OF_SUPPLY) ||
      token_is_a(k, CLASS_COUNTS_TIME) || token_is_a(k, CLASS_EVERYDAY) || token_is_a(k, CLASS_UNIT) ||
      token_is_a(k, CLASS_NO_FOOD) || token_is_a(k, CLASS_ABOUT_THE_ANIMAL))
    return false;
  return !says(t, thing,
               "time times day days week weeks month months hour hours mouths pets animals third thirds quarter quarters "
               "half halves part parts amount amounts each");
}

/* "turkey with zorb": a word that no table has, and that tells neither how nor when it is fed. */
static bool is_unknown_word(struct post_reader *r, const struct tokens *t, size_t at) {
  struct span w = is_word(t, at) ? t->item[at].word : (struct span){"", 0};
  bool participle = w.n > 4 && span_is(span_cut(w, w.n - 2, w.n), "ed");
  enum species s;
  if (w.n < 4 || participle || post_is_settled(r, &t->item[at]) || frequency_at(t, at).tokens > 0) return false;
  struct token *k = &t->item[at];
  return !token_is_a(k, CLASS_CHATTER) && !token_is_a(k, CLASS_MEAL) && !token_is_a(k, CLASS_VESSEL) &&
         !token_is_a(k, CLASS_MAY_GO) && !token_is_a(k, CLASS_BEHIND_OVER_HIS) && !token_is_a(k, CLASS_CLAUSE_OPENER) &&
         !token_is_a(k, CLASS_EVERYDAY) && !token_is_a(k, CLASS_UNIT) && !token_is_a(k, CLASS_CUT_OF_ONE) &&
         !token_is_a(k, CLASS_NO_MENTION) && !token_is_animal(k, &s);
}

bool post_lists_thing(struct post_reader *r, const struct tokens *t, size_t from, size_t to) {
  enum { WORDS_MOST = 5, BY_ARTICLE_MOST = 3 };
  if (from >= to || to - from > (says(t, from, "a an") ? BY_ARTICLE_MOST : WORDS_MOST)) return false;
  for (size_t i = from; i < to; i++)
    if (!is_word(t, i) && !(i == from && is_number(t, i))) return false;
  bool with = from > 0 && says(t, from - 1, "with") && to - from <= 2, unknown = false;
  for (size_t i = from; i < to && with; i++) unknown = unknown || is_unknown_word(r, t, i);
  if (unknown && !post_names_food(r, t, from, to)) return true;
  bool its = says(t, from, "his her their") && to - from <= BY_ARTICLE_MOST && is_word(t, from + 1) &&
             t->item[from + 1].word.n > 4 && !says_a(t, from + 1, CLASS_BEHIND_OVER_HIS) &&
             !says_a(t, from + 1, CLASS_MEAL) && !says_a(t, from + 1, CLASS_VESSEL) && !says_a(t, from + 1, CLASS_CHATTER) &&
             !says_a(t, from + 1, CLASS_EVERYDAY) && !says_a(t, from + 1, CLASS_SERVED_MEAL) && !is_number(t, to);
  if (its && !post_names_food(r, t, from, to)) return true; /* "with his glucosamine" */
  return post_is_thing(t, from) && !post_names_food(r, t, from, to) && !holds_a(t, from, to, CLASS_CLAUSE_OPENER) &&
         !says(t, from + 1,
               "bit little lot few touch must tad day week good great big small whole present favourite favorite must-have");
}

/* "quinoa 1 cup dry", "carrot 30 g raw, grated": nothing but how it was weighed, cut or cooked. */
bool post_tells_only_how(const struct tokens *t, size_t from, size_t to) {
  bool any = false;
  for (size_t i = from; i < to; i++) {
    const char *state;
    struct span w = t->item[i].word;
    if (!is_word(t, i) || token_is_a(&t->item[i], CLASS_CHATTER) || frequency_at(t, i).tokens > 0) continue;
    bool participle = w.n > 4 && span_is(span_cut(w, w.n - 2, w.n), "ed");
    bool how = participle || says_a(t, i, CLASS_MAY_GO) || says_a(t, i, CLASS_SHAPE_MAY_GO) ||
               says_a(t, i, CLASS_CUT_OF_ONE) || meaning_at(t, i, CLASS_STATE_BEHIND_NAME, &state) > 0 ||
               says(t, i, "dry raw lean fresh whole plain boneless skinless") || says(t, i, "weight");
    if (!how) return false;
    any = true;
  }
  return any;
}
