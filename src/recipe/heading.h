/* heading.h: a line, or the words before a colon, that say when the lines below are fed: "Monday:", "Tue, Thu", "kg per
 * week:", "Twice a week:"; or at which meal, which changes nothing.
 *
 * Layer: recipe. */
#ifndef BW_HEADING_H
#define BW_HEADING_H

#include "foods/unit.h"
#include "recipe/frequency.h"

enum heading_kind {
  HEADING_NONE,
  HEADING_WHEN, /* 'when' holds for the lines below */
  HEADING_MEAL,
  HEADING_DAY_NUMBER /* "Day 2": of a plan that has no place in a week */
};

struct heading {
  enum heading_kind kind;
  struct frequency when;
  enum unit unit; /* of numbers without one: "kg per week"; UNIT_NONE */
  bool alone;     /* nothing else stands there */
};
struct heading heading_read(struct span words, struct arena *arena);
/* The same where nothing but a heading counts: what says anything else is HEADING_NONE, and is not read to its end. */
struct heading heading_alone(struct span words, struct arena *arena);

#endif
