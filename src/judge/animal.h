/* animal.h: the animal, whether it may be judged at all, and what energy it needs.
 *
 * Layer: judge. */
#ifndef BW_ANIMAL_H
#define BW_ANIMAL_H

#include "foods/library.h"

/* ORDER ACTIVITY: the builder writes these numbers into the energy table; activity_word[] in animal.c. */
enum activity { ACTIVITY_RESTING, ACTIVITY_LOW, ACTIVITY_MODERATE, ACTIVITY_HIGH, ACTIVITY_WORKING, ACTIVITY_COUNT };
extern const char *const activity_word[ACTIVITY_COUNT];

/* What scale and diary say that the animal needs (trend/trend.h). */
struct measured_energy {
  double kcal, low_kcal, high_kcal; /* a day; nine chances in ten */
  const char *from;                 /* "from the journal: ..." */
};

struct animal {
  const char *name; /* "Juniper"; "" when it was given on the command line only */
  enum species species;
  double weight_kg;
  double ideal_kg;        /* as stated; NaN when not */
  double condition;       /* of 9; NaN */
  double age_years;       /* NaN when not stated (one-off animals count as adult, and the answer says so) */
  double adult_weight_kg; /* expected adult weight; NaN: the weight itself */
  int8_t neutered;        /* 1, 0, -1 not said */
  enum activity activity;
  bool activity_stated;
  double energy_kcal; /* "Energy: 780 kcal/day"; NaN */
  const struct measured_energy
      *measured;          /* beats what is stated, and the equation; NULL: none, or the equation is as sure */
  bool pregnant, nursing; /* stated */
  bool young;             /* called a puppy or a kitten */
  const char *status;     /* "healthy", or the words that say what is not */
  bool healthy;           /* true for "healthy", "well", "fine", or nothing said */
  bool urgent;            /* what is said of it cannot wait; then it is not healthy */
  const char *note;       /* "Note:" lines, '\n' between; "" */
  /* conditions under which gut synthesis is not trusted */
  bool antibiotics;
};

/* A healthy adult of which nothing but the weight is said. */
struct animal animal_plain(enum species species, double weight_kg);

/* Why no verdict is given. ORDER REFUSAL: refusal texts in animal.c. */
enum refusal { REFUSE_NOT, REFUSE_GROWTH, REFUSE_PREGNANT, REFUSE_NURSING, REFUSE_UNWELL, REFUSE_URGENT, REFUSE_COUNT };

enum refusal animal_refusal(const struct animal *a);
/* Key ("growth"), a kind sentence on what is not done and why, and whom to ask. */
const char *refusal_key(enum refusal r);
const char *refusal_text(enum refusal r);
const char *refusal_ask(enum refusal r);

struct energy_need {
  double kcal, low_kcal, high_kcal; /* a day */
  double coefficient;               /* kcal per metabolic kg that this amounts to */
  const char *from; /* "from the journal: ...", "stated" or "110 kcal x kg^0.75 (adult dog, moderate activity)" */
  const struct img_energy *row; /* NULL when stated or measured */
};

struct animal_body {
  double ideal_kg; /* stated, or estimated from the condition score, or the weight */
  const char *ideal_from;
  double metabolic_kg; /* ideal_kg to the power of the species' exponent */
  double exponent;
  double loss_kcal; /* of one that is too heavy: the least that is fed a day while it loses weight; NaN of every other one */
  /* Likewise what is aimed at: the mean of what animals of trials lost weight on, and its high end. */
  double aim_kcal, aim_high_kcal;
};

/* The least that is fed a day. Dogs: the low end of the intakes on which dogs of trials lost weight; cats: the mean of
 * theirs, for a cat that eats too little may die of a fatty liver. By the ideal weight. docs/method/slim.md. */
double animal_loss_floor(const struct library *lib, enum species s, double ideal_kg);

struct animal_body animal_body(const struct library *lib, const struct animal *a);
/* Measured, else stated, else by the equation. Range of the equation: the table's own where it has one, else +-2 SD of the
 * observed spread (constants energy-sd-share). */
struct energy_need animal_energy(const struct library *lib, const struct animal *a, struct arena *arena);

#endif
