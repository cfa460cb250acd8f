/* recipe_line.h: the steps that read one line of a recipe. Private to the recipe reader.
 *
 * Order: pin, frequency, qualifiers (each takes the words it understands), then the amount and its unit, then whatever words
 * are left name the food. Layer: recipe. */
#ifndef BW_RECIPE_LINE_H
#define BW_RECIPE_LINE_H

#include "recipe/frequency.h"
#include "recipe/recipe_text.h"
#include "text/headers.h"

struct line_reader {
  struct tokens t;
  struct span text; /* the line without comment, trimmed */
  struct recipe_line *out;
  struct diags *d;
  struct arena *arena;
  bool first;             /* the first line of the text that says anything: it may be a title */
  struct frequency often; /* what it says of how often; tokens 0: nothing */
  struct span each_meal_at;
};

/* False when the line is of no use for what follows (no food in it); a line that only has a bad amount is kept with
 * amount NaN, so that its food is looked up and complained about in the same run. Complaints go to r->d. */
bool recipe_line_read(struct line_reader *r, struct span line, int number) MUST_USE;
/* recipe_amounts.c: true when 's' begins with something that looks like an amount ("200g", "1/2 cup", "2 eggs"). */
bool starts_with_amount(struct span s, struct arena *arena);

/* recipe_amounts.c: the amount that stands before the food; amounts behind it, the first of which is the line's when none
 * stood before it; the unit that the food's last word is ("2 salmon fillets"). Each takes its tokens. */
bool read_front_amount(struct line_reader *r);
void read_tail_amounts(struct line_reader *r, bool have_amount);
void read_trailing_unit(struct line_reader *r);

/* recipe_qualifiers.c: takes "raw weight", "bone-in", "90% lean", "chopped" ... */
void read_qualifiers(struct line_reader *r);
/* The tokens of such words that begin here and change what is counted ("boiled", "off the bone"; not "chopped"); 0. */
size_t qualifier_of_food_at(const struct tokens *t, size_t at);
/* A cooking method as a header says it: "simmer", "roasted", "pressure cooker"; STATE_COUNT when it is none. */
enum state method_by_words(const struct tokens *t, size_t at, size_t *used);

/* The value of "Cook:", a method with the qualifiers that go with it; false after a complaint. */
bool cook_read(struct header_value *v, struct recipe_line *said) MUST_USE;

/* The unit at a token: "g", "fl oz", "tbsp.", "%"; UNIT_NONE and 0 tokens when there is none. */
enum unit unit_at_token(const struct tokens *t, size_t at, size_t *used);
/* recipe_unit_words.c: words that stand where a unit stands and are none.
 * A household measure has no weight of its own ("a bunch of", "1 head"): the food's own measures decide. */
bool is_household_word(struct span w);
/* Kitchen units that exist but are not read: their size differs between countries or is too coarse. */
bool is_foreign_unit(struct span w);
/* Words of foods that a slip of one or two letters would turn into a unit ("peach" and "each", "sweet" and "sheet"). */
bool only_looks_like_unit(struct span w);
/* The first token from 'at' on that nothing has understood yet; t->count when there is none. */
size_t next_free(const struct tokens *t, size_t at);

/* Tokens that nothing has understood yet. */
static inline bool is_mark(const struct tokens *t, size_t at, char mark) {
  return at < t->count && !t->item[at].taken && t->item[at].kind == TOKEN_MARK && t->item[at].mark == (unsigned char)mark;
}
static inline bool is_word(const struct tokens *t, size_t at) {
  return at < t->count && !t->item[at].taken && t->item[at].kind == TOKEN_WORD;
}

#endif
