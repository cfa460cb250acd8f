/* post_line.h: one food with its amount, to a line that the strict reader takes. Private to src/post. Layer: post/line. */
#ifndef BW_POST_LINE_H
#define BW_POST_LINE_H

#include "post/hear/post_hear.h"

struct segment {
  size_t from, to;  /* tokens */
  size_t said_from; /* before a bracket, what holds for it: "Fish on Tuesdays (200 g cod)"; else from */
  size_t amount;    /* the token where it begins; SIZE_MAX none */
  struct post_amount value;
  bool vague, skip;
  bool same;                     /* the meal before once more */
  size_t old_amount, old_tokens; /* "a piece of lamb, 250 g": the amount that another one stands for; 0 tokens none */
  bool of_tin;
  bool trial; /* read it or let it be: nothing is left out and asked */
};

struct segments {
  struct segment at[64];
  size_t count;
};

/* post_near.c: "nearly", "a bit over" before amounts: heard in a sentence; and the range of the one at 'at', with what is
 * said of it; "". */
void post_hear_near(struct post_reader *r, struct tokens *t);
const char *post_take_near(struct post_reader *r, size_t at, struct post_amount *a);

/* post_dose.c: behind what each capsule holds, how many; 0. Behind how many, what each holds. */
double post_how_many_of(const struct tokens *t, const struct segment *s, struct words *words);
void post_unit_behind(struct post_reader *r, struct wanted *w, struct words *words);
void post_dose_of_each(const struct tokens *t, const struct segment *s, struct wanted *w, struct words *words);

/* post_line.c: adds the line that the strict reader takes for these words, or for them without what may go at their end;
 * false when it takes none, with its complaint. */
bool post_try_words(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code *why);

/* The words without "capsule", "tablet"; "" when nothing is left. */
struct span post_without_capsule(struct post_reader *r, struct span words);

/* post_cut.c: cuts the tokens at separators after which another food begins. */
void post_cut(struct post_reader *r, const struct tokens *t, struct segments *s);

/* post_served.c: is this amount put into the bowl at meals? */
bool post_is_at_meals(const struct tokens *t, size_t amount);

/* post_product.c: what is known by its label alone and stands in no line, as fed and not counted. */
void post_hear_products(struct post_reader *r);

/* post_line_else.c: the same, or what else these words may mean. */
/* "and a vitamin mix": a product without an amount is left out, and its label asked for. */
bool post_leave_product(struct post_reader *r, const struct tokens *t, size_t from, size_t to);
bool post_try_line(struct post_reader *r, const struct wanted *w, struct span words, enum diag_code *why);
const char *post_animal_of_meat(struct post_reader *r); /* that all meat counted so far is of; "" none, or several */

/* post_again.c: the meal before once more. */
void post_repeat_meal(struct post_reader *r, const struct tokens *t, const struct segment *s);

/* post_mix.c: adds the parts of a mixture, "liver and kidney, equal parts"; false when the words name none. */
bool post_mixture(struct post_reader *r, const struct wanted *w, struct span words);

/* post_core.c: the same of the words that surely name a food in [from, to), with what was passed over as an assumption. */
struct core_range {
  size_t from, to;    /* where the name is looked for */
  size_t behind, end; /* other words of the line, which must say nothing */
};
bool post_try_core(struct post_reader *r, const struct wanted *w, const struct tokens *t, struct core_range at,
                   const char *often);

/* post_amountless.c: a food without an amount: left out and asked about, or passed over. */
void post_take_amountless(struct post_reader *r, const struct tokens *t, const struct segment *s, bool bulleted);

/* post_often_of.c: how often, said beside several foods, of a meal or in passing. 'carried': what holds for the foods that
 * follow; "" nothing. */
bool post_each_morning(const struct tokens *t, size_t from, size_t to);
bool post_daily_beside(const struct tokens *t);
bool post_says_also(const struct tokens *t);
bool post_now_and_then(const struct tokens *t, size_t from, size_t to);
bool post_often_left_unread(const struct tokens *t, size_t from, size_t to);
bool post_says_other_days(const struct tokens *t, size_t from, size_t to);
bool post_at_one_meal(const struct tokens *t, size_t from, size_t to);
void post_carry_days(struct post_reader *r, const struct tokens *t, const struct segment *s, const char **carried);
bool post_fed_at_each_meal(struct post_reader *r, const struct tokens *t, const struct segment *s, size_t to,
                           const char **carried);
const char *post_often_of_all(struct post_reader *r, const struct tokens *t, const struct segments *s);
const char *post_days_of_both(struct post_reader *r, const struct tokens *t, const struct segments *s, size_t at);

/* post_item.c: the foods of one sentence, from its free tokens. */
void post_items(struct post_reader *r, struct tokens *t, bool bulleted);

#endif
