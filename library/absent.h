/* absent.h: the rules of data/absent.tsv: what a kind of food holds none of, by nature. */
#ifndef BW_LIBRARY_ABSENT_H
#define BW_LIBRARY_ABSENT_H

#include "library/match.h"

struct absent_rule {
  struct food_rule food;
  bool nutrient[NUT_COUNT];
  enum nutrient base; /* NUT_NONE, or the rule holds only where 'from' <= published amount of this <= 'to' */
  double from, to;    /* NaN: open */
  double trace;       /* a published figure up to this, in the nutrient's unit, does not speak against the rule */
  double doubt;       /* most share of published figures over that; more ends the program */
  bool enriched_too;  /* also for foods with vitamins or minerals added */
  uint16_t source;
  struct span id;
};

/* All rules of the table; the count goes to *n. */
struct absent_rule *absent_rules_read(struct foods_build *b, const char *data_dir, size_t *n);
bool absent_rule_fits(const struct absent_rule *r, const struct build_food *f);

#endif
