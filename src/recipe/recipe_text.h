/* recipe_text.h: reads a recipe as people post it.
 *
 * Two steps, so that the page can show the first without the second: recipe_parse reads the words of each line; then
 * recipe_resolve finds the food records and turns amounts into grams. Layer: recipe. */
#ifndef BW_RECIPE_TEXT_H
#define BW_RECIPE_TEXT_H

#include "foods/search.h"
#include "foods/unit.h"
#include "judge/animal.h"
#include "judge/ration.h"
#include "text/diag.h"

struct line_parts;

struct recipe_line {
  int line;                                        /* 1-based in the text */
  struct span whole;                               /* the line without comment, trimmed; points into the text */
  struct span shown;                               /* the same without a bullet before it */
  struct span remark;                              /* what stands behind '#' */
  struct span amount_at, unit_at, food_at, pin_at; /* for complaints and for the page's margin */
  struct span behind_pin, behind_pin_at;  /* words that nothing has read, where others stand before the pin; n 0: none */
  double amount, amount_low, amount_high; /* equal unless a range was written */
  enum unit unit;                         /* UNIT_EACH when none was written ("2 eggs") */
  double package_g;                       /* "(4.4 oz)" after the unit: grams of one; NaN */
  double dose;                            /* "1 capsule vitamin E 200 IU": a dose in the food's words; NaN */
  enum unit dose_unit;
  struct span food; /* the food's words without qualifiers */
  struct search_wish wish;
  enum state state;   /* as stated; STATE_UNSTATED */
  bool raw_weight;    /* "raw weight": weighed raw, then cooked */
  bool cooked_weight; /* "cooked weight" */
  int8_t broth;       /* 1 "with broth"/"broth kept", 0 "drained" after cooking, -1 not said */
  bool a_pinch;
  bool frequency_stated; /* in the line, or by a heading above it */
  double times_per_28;   /* 28 when not stated */
  unsigned days;         /* bit 0 Monday to bit 6 Sunday; 0: not named */
  double scaled;         /* 'amount' is that of one feeding day: so many times the amount that is written ("twice a day" 2,
                          * "a week" a seventh) */
  struct span pin;       /* "usda:13325" without brackets; n 0 if none */
};

/* What lines in per cent are shares of. */
enum shares_of {
  SHARES_OF_TOTAL, /* total_g */
  SHARES_OF_BODY,  /* feeds_share of the animal's weight */
  SHARES_OF_NEED   /* nothing is said: as much as the animal's energy need takes */
};

struct recipe {
  const char *name, *for_whom, *note; /* "" when absent */
  struct span name_at, for_at; /* the Recipe line, and whom the For line names; point into the text, n 0 when absent */
  double days;                 /* from Makes (and Meals); 1 when absent */
  bool days_stated;
  double meals_per_day; /* NaN */
  double total_g;       /* Total, or what Feeds makes of the days; NaN. Where shares_of is not known yet: 1000 g a day */
  enum shares_of shares_of;
  double feeds_share;          /* "Feeds: 2.5 % of body weight": 0.025; NaN */
  struct span animal_at;       /* "Dog: 18 kg, 6 years": the words after the colon; n 0 when there is none */
  enum species animal_species; /* of it */
  enum state cook;             /* Cook: for lines that say nothing else; STATE_UNSTATED */
  const char *const *never;    /* Never: foods that are not to be proposed, as they were written (foods/refused.h) */
  size_t never_count;
  const struct recipe_line *line;
  size_t line_count;
  const struct ration_uncounted *uncounted; /* "? 1 scoop of a multivitamin" */
  size_t uncounted_count;
  const struct ration_remark *remark; /* notes, headings and lines that gave no ingredient, but for the animal's name */
  size_t remark_count;
};

enum { RECIPE_MOST_BYTES = 4 * 1024 * 1024, RECIPE_MOST_LINES = 500, LINE_MOST_BYTES = 4096 };

/* What a line is to recipe_parse: kind and header of a line whose parts were read. 'foods': lines of food before it. */
void recipe_line_kind(struct line_parts *line, size_t foods, struct arena *arena);

bool recipe_parse(struct span text, struct diags *d, struct recipe *out, struct arena *arena) MUST_USE;
bool recipe_resolve(const struct library *lib, const struct recipe *recipe, struct diags *d, struct ration *out,
                    struct arena *arena) MUST_USE;
/* The line of food with this number in the text; NULL. */
const struct recipe_line *recipe_line_of(const struct recipe *r, int line);
/* Is it told as a share of a whole ("60 % beef mince")? */
bool recipe_is_share(const struct recipe *r, int line);

/* Writes a ration's recipe back as text that recipe_parse reads to the same thing (amounts in grams or as counted, pins
 * added). Used by the round-trip property and later by mend. */
/* ", twice a week": so many feedings in 28 days. */
void recipe_print_frequency(struct buf *b, double times_per_28);
void recipe_print(const struct library *lib, const struct recipe *recipe, const struct ration *ration, struct buf *out);

#endif
