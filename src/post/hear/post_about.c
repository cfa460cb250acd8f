/* The words around foods: who eats, how it is told, and what does not tell anything. */
#include "base/num.h"
#include "post/hear/post_hear.h"

bool is_chatter(struct span w) { return is_a(w, CLASS_CHATTER); }

bool begins_clause(struct span w) { return is_a(w, CLASS_CLAUSE_OPENER); }

bool is_meal_word(struct span w) { return is_a(w, CLASS_MEAL); }

bool is_animal_word(struct span w, enum species *species) {
  struct token k = {.kind = TOKEN_WORD, .word = w};
  return token_is_animal(&k, species);
}

bool token_is_animal(struct token *k, enum species *species) {
  bool cat = token_is_a(k, CLASS_CAT), animal = cat || token_is_a(k, CLASS_DOG);
  if (animal) *species = cat ? SPECIES_CAT : SPECIES_DOG;
  return animal;
}

bool is_vague(struct span w) { return is_a(w, CLASS_VAGUE_AMOUNT); }

struct span spelled_out(struct span w) {
  const char *means = means_as(w, CLASS_SHORT_FORM_OF);
  return means ? span_of(means) : w;
}

const char *cooked_by(struct span w) { return means_as(w, CLASS_COOKING_VERB); }

bool post_names_animal(struct span words, struct arena *arena) {
  struct tokens t = tokens_of(words, arena);
  for (size_t i = 0; i < t.count; i++)
    if (t.item[i].kind == TOKEN_WORD && token_is_a(&t.item[i], CLASS_ANIMAL_OF_FLESH)) return true;
  return false;
}

const char *post_joined(struct post_reader *r, const char *a, const char *b) {
  if (!a[0] || !b[0]) return a[0] ? a : b;
  struct buf out;
  buf_init(&out, r->arena, strlen(a) + strlen(b) + 8);
  buf_addf(&out, "%s; %s", a, b);
  return buf_text(&out);
}

bool post_tells_often(struct post_reader *r, const struct item *item) {
  struct tokens t = post_tokens(r, span_of(item->text));
  for (size_t k = 0; k < t.count; k++)
    if (frequency_at(&t, k).tokens > 0) return true;
  return false;
}

size_t post_part_at(const struct tokens *t, size_t at, double *part) {
  const char *means; /* "2/3" */
  size_t used = meaning_at(t, at, CLASS_PART, &means);
  if (used == 0) return 0;
  double over, under;
  const char *bar = strchr(means, '/');
  if (!bar || !num_parse((struct span){means, (size_t)(bar - means)}, &over) || !num_parse(span_of(bar + 1), &under))
    return 0;
  *part = over / under;
  return used;
}

bool says_same_weight(const struct tokens *t, size_t at) {
  return says(t, at, "same") && says_a(t, at + 1, CLASS_ITS_WEIGHT);
}

size_t post_same_weight_of(const struct tokens *t, size_t at) {
  size_t same = says(t, at, "the") ? at + 1 : at;
  bool portion = says(t, same, "same") && says(t, same + 1, "portion"); /* without "of" a meal once more */
  return (portion || says_same_weight(t, same)) && says(t, same + 2, "of") ? same + 3 - at : 0;
}
