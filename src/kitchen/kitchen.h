/* kitchen.h: a ration as a cook meets it: what goes into the bowl, what a batch takes, what is to be bought for it and what
 * that costs, how it keeps, and how an animal is changed over to it.
 *
 * Everything is reckoned from the ration that was judged and from published figures of its records: what is thrown away
 * (refuse), what cooking takes or adds (yields). NaN is "not known" and is never taken for nothing. docs/method/kitchen.md.
 * Layer: kitchen. Pure. */
#ifndef BW_KITCHEN_H
#define BW_KITCHEN_H

#include "foods/cooking.h"
#include "judge/check.h"
#include "larder/larder_text.h"

enum { KITCHEN_USUAL_DAYS = 7, KITCHEN_USUAL_MEALS = 2, KITCHEN_MOST_DAYS = 90, KITCHEN_MOST_MEALS = 12 };

struct kitchen_request {
  double days, meals;                    /* not above 0: as the recipe says, else as is usual */
  const struct recipe *recipe;           /* the lines as they were read, for what is counted; may be NULL */
  const struct larder *larder;           /* NULL: no prices and no packs */
  const struct larder_food *larder_food; /* [larder->line_count] */
  const struct library *lib;
};

/* A line of the recipe in the kitchen. */
struct kitchen_line {
  size_t index;     /* into the ration's lines */
  const char *food; /* as the person calls it */
  bool danger;      /* must not be fed: it is not bought, cooked or portioned */
  double fed_g;     /* in the bowl on a day when it is fed */
  double times_per_28;
  double units;                        /* counted things or spoons on such a day; NaN: weighed */
  enum unit unit;                      /* of these; UNIT_EACH: pieces */
  bool whole;                          /* a counted thing: not shared out over meals */
  double meal_g;                       /* a meal of such a day; 'fed_g' when it is given whole */
  int feedings;                        /* the most of its days that fall into so many days in a row */
  double ready_g;                      /* fed_g x feedings: what the batch must yield; as weighed in the bowl */
  enum state cook;                     /* how it is cooked at home; STATE_RAW: not */
  double prepare_g;                    /* what goes into the pot for it, raw; NaN: not known */
  double yield, yield_low, yield_high; /* cooked grams of a raw one; 1 uncooked; NaN not known */
  const struct img_kitchen *keep;      /* NULL: no figure */
};

/* A food to be bought; lines of the same food are one. */
struct kitchen_buy {
  uint32_t food;           /* the record as bought: the raw one, where a cooked one is fed and its raw form is known */
  const char *name;        /* as the person calls it */
  bool raw_of_cooked;      /* 'food' is the raw form of what the recipe names */
  bool cooked_weight;      /* no raw weight is known: 'edible_g' are those of the cooked food */
  bool with_bone;          /* bone and flesh are both fed */
  double edible_g;         /* what must be left of it after peeling, boning, shelling */
  double refuse;           /* share thrown away, 0..1, as published for the record; NaN: no figure */
  const char *refuse_what; /* "Bone and skin"; "" */
  bool refuse_is_bone;     /* bought without bone nothing is thrown away */
  double buy_g;            /* as bought (without bone where only bone would be thrown away); NaN: not known */
  double bone_in_g;        /* bought with its bone; NaN: not that kind */
  bool whole;              /* capsules and the like */
  double count;            /* things, whole ones; NaN: bought by weight */
  enum unit unit;          /* UNIT_EACH: pieces */
  double packs, pack_g, pack_count; /* NaN: not in packs */
  double cost;                      /* NaN: no price is known */
};

struct kitchen {
  double days, meals;
  bool days_stated, meals_stated, days_by_recipe;
  const struct kitchen_line *line;
  size_t line_count;
  const struct kitchen_buy *buy;
  size_t buy_count;
  const char *currency;
  double cost;                        /* of what has a price; NaN: nothing has */
  size_t cost_unknown;                /* foods without a price */
  double bowl_g;                      /* average a day */
  double volume_ml;                   /* of a day's food, without air; NaN not known */
  double box_ml;                      /* that a box for one day should hold; NaN */
  double fridge_low, fridge_high;     /* days that the mixed bowl keeps; NaN: no figure for any of it */
  double freezer_low, freezer_high;   /* months; NaN */
  const struct img_kitchen *shortest; /* the row that decides in the fridge; NULL */
  const char *const *not_frozen;      /* foods that are not for the freezer, or without a figure there */
  size_t not_frozen_count;
  int boxes_fridge, boxes_freezer; /* one a day */
};

/* For a result of check.h for the same ration. */
const struct kitchen *kitchen_of(const struct check_result *r, const struct kitchen_request *q, struct arena *arena);

/* Days out of any 'days' in a row, at most, on which a line is fed: the calendar goes round. */
int kitchen_feedings(const struct ration_line *l, int days);
/* The row of data/kitchen.tsv that says how long a line keeps; NULL. */
const struct img_kitchen *kitchen_keep(const struct library *lib, const struct ration_line *l, struct arena *arena);
/* Grams as one buys them: rounded up to what a shop weighs. */
double kitchen_shop_g(double grams);

#endif
