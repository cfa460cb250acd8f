/* ration.h: a recipe made ready for arithmetic: lines of food in grams, on a calendar of days.
 *
 * Built by text/ from what a person wrote (or by hand in tests). Layer: judge. */
#ifndef BW_RATION_H
#define BW_RATION_H

#include "foods/uncounted_words.h"

enum { CALENDAR_DAYS = 28, LINE_PARTS = 2 };

/* One food of a line: the flesh, or the bone in it. */
struct portion {
  uint32_t food;
  double grams;      /* a day on which it is fed, as the record's values count it (raw grams for a raw record) */
  double grams_cv;   /* uncertainty of the amount itself (a range "2-3", a bone share); 0 for weighed amounts */
  int32_t retention; /* index into the retention table when a raw record stands for cooked food; -1 none */
};

struct ration_line {
  int line;               /* in the recipe's text, 1-based; 0 when there is none */
  const char *text;       /* as written, trimmed, without comment */
  const char *food_words; /* of it, the words that name the food: "lamb shoulder"; "" or NULL when a pin stands alone */
  const char *remark;     /* what stood behind '#'; NULL none */
  struct portion part[LINE_PARTS];
  int part_count;
  double grams_fed;           /* on the plate on a day when it is fed (with bone, as cooked if cooked) */
  bool frequency_stated;      /* how often was said, in the line or above it */
  double times_per_28;        /* days out of 28 on which it is fed: 28 daily, 8 twice a week, 4 weekly, 1 monthly */
  bool fed_on[CALENDAR_DAYS]; /* the first day is a Monday */
  enum state state;           /* as eaten */
  bool state_assumed;         /* nobody said whether it is fed raw or cooked: 'state' is the record's */
  bool cooked_bone;           /* a bone-in piece that is cooked */
  bool broth_kept;
  /* How the record was chosen. */
  bool pinned, found_by_name;
  const uint32_t *rivals; /* other records that fit about as well */
  size_t rival_count;
  uint32_t shown_food;    /* the record that the line names (part[0].food, or the cut) */
  const char *note;       /* how the record differs from the food that was written ("packed in oil"); "" or NULL none */
  const char *grams_from; /* "2 large at 50 g (usda measure)" ; "" when it was a mass */
  const char *assumed;    /* what was assumed of the amount ("one handful taken as 30 g ..."); NULL or "": nothing */
  double low_g, high_g;   /* a day on which it is fed: 'grams_fed' when nothing is unsure; 0 when built by hand */
};

/* What was written beside the food: a note, a heading, a remark, a line that could not be read. Nothing in it is fed as far
 * as is known; dangers are looked for in it all the same. */
struct ration_remark {
  int line; /* 1-based; 0 when there is none */
  const char *text;
};

/* Fed, but nobody knows what is in it or how much: "? 1 scoop of a multivitamin". Unknown in every nutrient, never zero; of
 * "? some kale" it is known what it is. */
struct ration_uncounted {
  int line; /* 1-based */
  const char *text;
  const uint32_t *may_be; /* records that fit its words; what it can supply at most goes by them (judge/uncounted.h) */
  size_t may_be_count;    /* 0: none does */
  bool is_read;           /* what follows was looked for; not in what was put together by hand */
  unsigned goes_out;      /* its words name a danger that must not be fed: one bit a species. Then it counts for nothing */
  double said_g;          /* grams that it says, at most; NaN none */
  struct uncounted_kind kind; /* what it is by its words, where no record fits */
  bool sole_food;         /* its words name food from a bag or a tin, of which an animal may live: "1 cup of kibble" */
};

struct ration {
  const char *name; /* "Weeknight bowl"; "" */
  double days;      /* that the batch makes; 1 when not said */
  bool days_stated;
  double meals_per_day; /* NaN when not said */
  const struct ration_line *line;
  size_t line_count;
  const struct ration_remark *remark;
  size_t remark_count;
  const struct ration_uncounted *uncounted;
  size_t uncounted_count;
  /* "new food": an elimination diet. What is fed is the diet, and only what is added is bound by it. */
  const char *const *never; /* foods that are not to be proposed for it, as they were written (foods/refused.h) */
  size_t never_count;
};

/* Grams a day on average, with bone, as eaten. */
double ration_line_grams_per_day(const struct ration_line *l);

/* Is most of the flesh, fish and organ meat cooked of which somebody said how it is fed? What is out of a tin says nothing
 * of that. Where nobody said it of any line the bowl counts as cooked: cooked liver does no harm beside raw meat, raw liver
 * may beside cooked. */
bool ration_is_cooked(const struct library *lib, const struct ration *r);
/* Is this food among those that are not to be proposed for it? 'called': what people call it, beside its record's name. */
/* Is it an elimination diet: is "new food" never to be added? */
bool ration_is_on_trial(const struct ration *r);
bool ration_refuses(const struct library *lib, const struct ration *r, uint32_t food, const char *called,
                    struct arena *arena);
/* Does a food that people add for one nutrient go into this bowl: for this animal, and in the bowl's own way, raw or
 * cooked? */
bool ration_takes_fix(const struct library *lib, const struct ration *r, const struct img_fix *fix, enum species s);

/* Fills fed_on by spreading 'times' days (1..28) evenly over the calendar. Without an offset the first d days hold as few
 * feedings as any d days in a row hold, and the last d days as many, for every d: foods whose days nobody named, all spread
 * so, fall together in the least favourable way, whatever the order of their lines. */
void ration_spread_days(struct ration_line *l, double times_per_28, int offset);
/* Fed on these days of every week: bit 0 Monday to bit 6 Sunday. */
void ration_name_days(struct ration_line *l, unsigned days);

#endif
