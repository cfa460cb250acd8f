/* larder_text.h: reads what there is to compose a recipe from: foods with ranges and prices, and limits for the whole.
 *
 *   Larder: the chest freezer
 *   For: Juniper
 *   Aim: cheapest
 *   lamb shoulder, raw            up to 300 g, 9.80 per kg
 *   egg                           0-1 a day, whole
 *   mackerel in brine, drained    at most twice a week, 110 g a time
 *   Limits: fat at most 50 % of energy; food at most 480 g; at most 9 foods
 *
 * Two steps as for recipes: larder_parse reads the words, larder_resolve finds the records and weighs one unit of each
 * food. Food words, states, pins and measures are read by the recipe's own readers. Layer: larder. */
#ifndef BW_LARDER_TEXT_H
#define BW_LARDER_TEXT_H

#include "judge/check.h"
#include "recipe/recipe_text.h"

struct larder_line {
  int line;          /* 1-based in the text */
  struct span whole; /* points into the text, as the other spans */
  struct span food_at;
  struct span range_at, price_at; /* n 0: nothing was said */
  /* One unit of the food as a recipe would write it ("1 large egg"): amount 1. Its spans point into the arena. */
  struct recipe_line one;
  double low, high; /* units a day, or at each feeding when 'times' say how often; high INFINITY: no limit */
  double least;     /* "at least 5 g if used": nothing, or at least this; 0 */
  bool whole_units;
  double times_low, times_high; /* feedings in 28 days; NaN: daily */
  bool a_time;                  /* the range speaks of one feeding */
  double price;                 /* of 'price_amount' x 'price_unit'; NaN: not said */
  double price_amount;
  enum unit price_unit; /* UNIT_EACH: of one piece */
  double pack;          /* "in packs of 500 g": what a shop sells at once; NaN: not said */
  enum unit pack_unit;  /* a mass, or UNIT_EACH: pieces */
};

enum larder_limit_kind {
  LARDER_ENERGY_SHARE, /* of 'nutrient' (protein, fat, carbohydrate): shares of energy, 0..1 */
  LARDER_KCAL,         /* kcal a day */
  LARDER_FOOD,         /* g a day as eaten */
  LARDER_PART,         /* 'parts': shares of the food as eaten, 0..1 */
  LARDER_FOODS,        /* how many of them; 'high' alone */
  LARDER_ONE_FOOD,     /* no food above this share */
  LARDER_NUTRIENT,     /* amount a day in the nutrient's unit */
  LARDER_COST          /* a day */
};

struct larder_limit {
  enum larder_limit_kind kind;
  int line;
  struct span at;
  double low, high; /* -INFINITY, INFINITY when open */
  enum nutrient nutrient;
  unsigned parts; /* bits 1 << enum bowl_part */
};

enum larder_aim { AIM_CHEAPEST, AIM_LIGHTEST, AIM_LEANEST, AIM_NEAREST, AIM_COUNT };
extern const char *const larder_aim_word[AIM_COUNT]; /* "cheapest" ... "nearest" */
/* The parts of a pattern such as 80:10:5:5, in its order: muscle meat, bone, liver, other secreting organs. */
enum { PATTERN_PARTS = 4 };
extern const enum bowl_part pattern_part[PATTERN_PARTS];

struct larder_wish {
  enum larder_aim aim;
  double pattern[PATTERN_PARTS]; /* shares, sum 1; AIM_NEAREST only */
};
/* "cheapest", "nearest to 80:10:5:5"; false after a complaint. */
bool larder_aim_read(struct span value, struct diags *d, struct larder_wish *out, struct arena *arena) MUST_USE;

struct larder {
  const char *name;            /* "" */
  const char *const *for_whom; /* names of the For header */
  size_t for_count;
  bool aim_stated;
  struct larder_wish wish;
  struct recipe recipe; /* its Cook header; name; no lines */
  const struct larder_line *line;
  size_t line_count;
  const struct larder_limit *limit;
  size_t limit_count;
  const char *currency; /* the sign before the prices; "" */
};

enum { LARDER_MOST_LINES = 300, LARDER_MOST_LIMITS = 100 };

bool larder_parse(struct span text, struct diags *d, struct larder *out, struct arena *arena) MUST_USE;

/* A food of the larder, weighed. */
struct larder_food {
  const struct larder_line *line;
  struct ration_line one; /* one unit on a day, daily */
  double unit_g;          /* grams as eaten of one unit */
  double price_per_g;     /* NaN: not said */
  const char *name;       /* as the person calls it */
};
/* [larder->line_count] foods in the order of the lines; false after a complaint. */
bool larder_resolve(const struct library *lib, const struct larder *larder, struct diags *d, struct larder_food **out,
                    struct arena *arena) MUST_USE;

/* The header's own word when this key is one ("Name" of a label is its "Food"); NULL. */
const char *larder_header(struct span key);

#endif
