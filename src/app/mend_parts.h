/* mend_parts.h: the pieces of app_mend.c. Private to this folder. */
#ifndef BW_APP_MEND_PARTS_H
#define BW_APP_MEND_PARTS_H

#include "app/app_mend.h"

/* ---- kitchen.c: amounts as people measure them ---- */

/* The smallest sensible change of an amount in this unit: 10 of 600 g, a quarter of a teaspoon, one egg. */
double kitchen_step(enum unit u, double amount);
/* Finer than this nobody measures: whole grams from 5 g on, tenths below; eighths of spoons. */
double kitchen_floor(enum unit u, double amount);
/* The nearest amount that can be measured, as finely as the one that was written; never nothing. Of counted things quarters.
 * 'fine': 3.5 g may become 5.2 g, though from 5 g on whole grams are enough for most. */
double kitchen_rounded(enum unit u, double amount, double written, bool fine);
/* Counted things stay whole (halves and quarters, where these were written): the unit of counting; 0 for what is measured.
 */
double kitchen_whole(enum unit u, double amount);
/* "540", "1 3/4" */
void kitchen_amount(struct buf *b, enum unit u, double amount);
/* "120 mg", "45 g", "25 \xC2\xB5g" */
void kitchen_mass(struct buf *b, double grams);

/* ---- mend_offers.c: what may be added ---- */

struct offer_text {
  const char *food; /* words and pin as they stand in a recipe line: "ground eggshell [ours:eggshell]" */
  const char *name; /* the words alone */
  enum unit unit;   /* UNIT_G: weighed; otherwise counted */
  const char *unit_word;
  const char *many;      /* what follows the counting word for several of them; NULL: as 'food' */
  double unit_g;         /* grams as eaten of one counted thing */
  const char *frequency; /* "" or ", weekly" */
  bool weekly;           /* which it says */
  double per_day;        /* amount as written for a gram a day on the plate */
};

struct offers {
  struct mend_offer *offer;
  struct offer_text *text;
  size_t count, cap, text_count, text_cap;
  const struct larder_food *larder; /* for its prices */
  size_t larder_count;
  const char *currency;
};
/* A gram as eaten, at the larder's price; NaN: it has none. */
double offers_price(const struct offers *o, uint32_t food);

/* 'before': the recipe judged as it is. 'without' [lines of the larder]: foods fed now and then that are left out. The group
 * of such an offer is 1 + the index of its line. */
void collect_offers(const struct library *lib, const struct app_mend_request *q, const struct recipe *recipe,
                    const struct check_result *before, const bool *without, struct diags *larder_diags, struct offers *out,
                    struct arena *arena);

/* Is there any food that these words of the person's would keep out? */
bool offers_know(const struct library *lib, struct span never, struct arena *arena);

/* ---- mend_choose.c: whether it is still the same dinner ---- */

/* 'found': those of 'out', which may still be moved. */
void mend_choose(struct mended_answer *out, struct mended *found);

/* ---- app_mend.c: what is asked of the search ---- */

struct mending {
  const struct library *lib;
  struct app_mend_request *q; /* the post read, shares weighed, the recipe scaled */
  const struct ration *ration;
  const struct animal *animal;
  struct mend_own *own; /* [ration->line_count] */
  bool *without;        /* lines of the larder that are left out */
  struct offers offers;
  struct mend_request request;
  struct arena *arena;
};
/* Reads the recipe and makes the request, as yet without offers. False: it is not understood, 'out' says why. */
bool mending_begin(const struct library *lib, const struct app_mend_request *asked, struct app_mend_answer *out,
                   struct mending *w, struct arena *arena);
/* What may be added. False: the larder is not understood. */
bool mending_offer(struct mending *w, struct app_mend_answer *out);

/* ---- mend_text.c: the person's own text, changed ---- */

struct text_edit {
  const struct library *lib;
  const struct app_mend_request *q;
  const struct recipe *recipe;
  const struct ration *ration;
  const struct offers *offers;
  struct arena *arena;
  const struct cooked_first *cooked; /* lines of the text that were written as cooked first */
  size_t cooked_count;
  const struct plate_line *plate; /* lines of the text that were changed first */
  size_t plate_count;
  const struct left_out *left_out; /* lines of the text that were taken out first */
  size_t left_out_count;
  const struct animal *animal; /* for whom the text is made */
};
/* Fills text, lines and words of 'out' for a proposal, in amounts that a kitchen measures; 'fine' as above. */
void edit_text(const struct text_edit *e, const struct mend_proposal *p, bool fine, struct mended *out);
/* ---- one_or_several.c: words that follow a number ---- */

/* "pinch" of "pinches"; false, and nothing is written: it is no plural. */
bool word_as_one(struct buf *b, struct span w);
/* "pinches" of "pinch"; false, and nothing is written: it is one already. */
bool word_as_several(struct buf *b, struct span w);
/* Behind what 'b' holds of a line, number and all: of the rest of it the words up to the thing that is counted, as the amount
 * asks for. 'was': the amount that was written. How many bytes of the rest were written, 0: none need be. */
size_t add_counted(struct buf *b, const struct text_edit *e, const char *from, const char *end, double amount, double was);
/* Does the text say another amount than the search found, because nobody measures that one? Of a line of the owner's. */
bool text_rounds(const struct text_edit *e, const struct mend_change *c);
/* The text with every share of the bowl as grams: a share says nothing any more once something is added. */
const char *text_in_grams(const struct text_edit *e);
/* cook_first.c: the text with raw fish that carries thiaminase written as cooked, where the animal is a cat. False: there is
 * none, or none that can be written so; 'q' is as it was then. */
bool cook_first(const struct library *lib, struct app_mend_request *q, const struct recipe *recipe,
                const struct ration *ration, enum species species, struct mended_answer *out, struct arena *arena);
/* leave_out.c: the text without the lines of what is not counted and must not be fed. False: there is none; 'q' is as it
 * was then. */
bool leave_out_first(struct app_mend_request *q, const struct check_result *before, struct mended_answer *out,
                     struct arena *arena);
/* A line of the text with its amount multiplied. */
const char *text_line_times(const struct text_edit *e, struct span whole, const struct recipe_line *l, double factor);
/* plate_first.c: the text with the proportions of the dinner set right, where these are what is wrong (change/plate.h).
 * False: they are not; 'q' is as it was then. */
bool plate_first(const struct text_edit *e, const struct mend_own *own, const struct check_result *before,
                 struct app_mend_request *q, struct mended_answer *out);
/* shell_first.c: the text with eggs without their shells, where calcium must come down and the shells are much of it; they
 * join what plate_first has set right. False: there are none; 'q' is as it was then. */
bool shell_first(const struct text_edit *e, const struct mend_own *own, const struct check_result *before,
                 struct app_mend_request *q, struct mended_answer *out);
/* mend_words.c: fills summary and asks; 'after' is there already. */
void mend_words(const struct text_edit *e, struct mended *m);

#endif
