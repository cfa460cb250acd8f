/* Is the animal neutered? In words ("spayed", "had the snip"), in letters ("4yo FS", "M/N"), and by words that say other
 * things elsewhere ("done", "chopped"). */
#include "post/animal/post_animal.h"

/* "7 years, done": the word alone says other things elsewhere. */
static bool animal_beside(const struct tokens *t, size_t at) {
  double years, kg;
  for (size_t i = at > 6 ? at - 6 : 0; i < t->count && i < at + 6; i++)
    if (post_age_at(t, i, &years) > 0 || post_weight_at(t, i, &kg) > 0 || says_a(t, i, CLASS_BEFORE_NEUTERED)) return true;
  return false;
}

static bool begins_piece(const struct tokens *t, size_t at) { return at == 0 || t->item[at - 1].kind == TOKEN_MARK; }
static bool ends_piece(const struct tokens *t, size_t at) { return at >= t->count || t->item[at].kind == TOKEN_MARK; }

static bool names_animal(const struct tokens *t) {
  enum species s;
  for (size_t i = 0; i < t->count; i++)
    if (t->item[i].kind == TOKEN_WORD && is_animal_word(t->item[i].word, &s)) return true;
  return false;
}

/* "6, lab x, done", "staffy, 4 years, chopped, 22 kg": a piece of its own in a sentence that tells the animal and no food.
 */
static bool is_piece_of_animal(struct post_reader *r, const struct tokens *t, size_t at) {
  double kg;
  bool then = says(t, at + 1, "at") && quantity_at(t, at + 2).fault == QUANTITY_FINE; /* "chopped at two" */
  if (!begins_piece(t, at) || !(then || ends_piece(t, at + 1)) || post_names_food(r, t, 0, t->count)) return false;
  for (size_t i = 0; i < t->count; i++) {
    struct post_amount a = post_amount_at(t, i);
    if ((a.is_mass || a.is_volume) && post_weight_at(t, i, &kg) == 0) return false;
  }
  return names_animal(t) || animal_beside(t, at);
}

/* "FS", "M/N", "ME": letters of a vet's form, in capitals or with a stroke, beside an age, a weight or a breed; and not "Mn
 * 5 mg", which is manganese. How many tokens; 0. */
static size_t letters_at(const struct tokens *t, size_t at, enum post_class c) {
  enum species s;
  size_t used = phrase_of(t, at, c), behind = at + used;
  if (used == 0) return 0;
  struct post_amount a = post_amount_at(t, behind);
  if (a.is_mass && (strcmp(a.unit, "mg") == 0 || strcmp(a.unit, "mcg") == 0)) return 0;
  struct span w = t->item[at].at;
  if (used == 1 && !(w.n == 2 && w.p[0] <= 'Z' && w.p[1] <= 'Z')) return 0;
  bool number =
      (behind < t->count && t->item[behind].kind == TOKEN_NUMBER) ||
      (at > 0 && (t->item[at - 1].kind == TOKEN_NUMBER || is_a(t->item[at - 1].word, CLASS_YEARS))); /* taken or not */
  bool animal = (is_word(t, behind) && is_animal_word(t->item[behind].word, &s)) ||
                (at > 0 && is_word(t, at - 1) && is_animal_word(t->item[at - 1].word, &s));
  bool alone = begins_piece(t, at) && ends_piece(t, behind);
  return number || animal || alone ? used : 0;
}

/* "not spayed", "hasn't been done yet". */
static bool is_denied(const struct tokens *t, size_t at) {
  while (at > 0 && says(t, at - 1, "been be yet ever")) at--;
  return at > 0 && says(t, at - 1, "not isn't isnt never hasn't hasnt haven't havent aren't arent wasn't un");
}

/* What is said here of it, in how many tokens: 1 neutered, 0 not, -1 nothing. */
static int word_at(struct post_reader *r, const struct tokens *t, size_t at, size_t *used) {
  *used = 1;
  if (says_a(t, at, CLASS_NEUTERED)) return 1;
  if (says(t, at, "intact entire unneutered unspayed unkastriert")) return 0;
  if ((*used = phrase_of(t, at, CLASS_NEUTERED_IN_PASSING)) > 0) return 1;
  if ((*used = letters_at(t, at, CLASS_NEUTERED_IN_LETTERS)) > 0) return 1;
  if ((*used = letters_at(t, at, CLASS_ENTIRE_IN_LETTERS)) > 0) return 0;
  *used = 1;
  if (!says_a(t, at, CLASS_NEUTERED_IN_ITS_PLACE) || says_a(t, at + 1, CLASS_BEHIND_FIXED)) return -1;
  bool beside = says(t, at, "done") && animal_beside(t, at);
  return beside || is_piece_of_animal(r, t, at) ? 1 : -1;
}

static int told_at(struct post_reader *r, const struct tokens *t, size_t at, size_t *used) {
  int told = word_at(r, t, at, used);
  return told == 1 && is_denied(t, at) ? 0 : told;
}

bool post_says_neutered(struct post_reader *r, const struct tokens *t) {
  size_t used;
  for (size_t i = 0; i < t->count; i++)
    if (told_at(r, t, i, &used) >= 0) return true;
  return false;
}

/* "M/N" in a line of its own. */
bool post_told_in_letters(struct post_reader *r, struct tokens *t) {
  size_t yes = letters_at(t, 0, CLASS_NEUTERED_IN_LETTERS), no = yes > 0 ? 0 : letters_at(t, 0, CLASS_ENTIRE_IN_LETTERS);
  if (yes + no == 0 || yes + no < t->count) return false;
  r->neutered = yes > 0;
  take(t, 0, t->count);
  return true;
}

void post_take_neutered(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i < t->count; i++) {
    size_t used;
    int told = told_at(r, t, i, &used);
    if (told < 0) continue;
    r->neutered = told;
    size_t from = i > 0 && says(t, i - 1, "male female males females") ? i - 1 : i, to = i + used; /* "female spayed" */
    if (says(t, to, "male female males females")) to++;
    take(t, from, to - from);
  }
}

/* "done years ago", "spayed two years ago", "neutered last spring": that is past, and he is neutered; the rest of the
 * sentence is of today. */
void post_take_long_done(struct post_reader *r, struct tokens *t) {
  for (size_t i = 0; i + 1 < t->count; i++) {
    if (!says_a(t, i, CLASS_NEUTERED_LONG_AGO)) continue;
    for (size_t k = i + 1; k < t->count && k <= i + 5; k++)
      if ((says(t, k, "ago") && says_a(t, k - 1, CLASS_LONG_TIME)) ||
          (says(t, k - 1, "last") && says_a(t, k, CLASS_LAST_TIME))) {
        r->neutered = 1;
        take(t, i, k + 1 - i);
      }
  }
}
