/* mend_collect.h: offers as they are gathered. Private to this folder.
 *
 * Each is read as the recipe's own reader would read the line that adds it, under the recipe's headers: what the search
 * counts with and what the new text says are then the same. */
#ifndef BW_APP_MEND_COLLECT_H
#define BW_APP_MEND_COLLECT_H

#include "app/mend_parts.h"

enum { MOST_COUNTED = 4, BATCH_DAYS = 5 };

struct collector {
  const struct library *lib;
  const struct app_mend_request *q;
  const struct recipe *recipe;
  const struct animal *animal;
  const struct check_result *before;
  struct offers *out;
  struct arena *arena;
  const char *headers;
  const struct ration *ration;
  const bool *without;
  int group; /* of offers, the last given */
  int foods; /* the last number of a group that a food has: beyond those of the larder's lines and of the nutrients */
  bool held[NUT_COUNT]; /* what is not counted may be a dose of it already (uncounted_doses) */
  double size;          /* of this animal against one of FIX_KG, by metabolic weight */
};

/* ---- mend_collect.c: may it be offered, and the line that would add it ---- */

bool collect_is_unwanted(const struct collector *c, uint32_t food, const char *words);
/* What is in the bowl already, raw or cooked, can be raised where it stands. */
bool collect_is_in_recipe(const struct collector *c, uint32_t food);
bool collect_may_offer(const struct collector *c, uint32_t food, const char *words);
bool collect_is_supplement(const struct library *lib, uint32_t food);

/* Everything of the recipe's text but its lines of food. */
const char *collect_headers(struct span text, const struct recipe *recipe, struct arena *arena);
/* The line as the recipe's reader takes it; false: it does not. */
bool collect_read_line(const struct collector *c, const char *line, struct ration_line *out);
/* "100 g", "ground eggshell [ours:eggshell]", ", weekly" in one. */
const char *collect_words(const struct collector *c, const char *amount, const char *food, const char *rest);
const char *collect_with_pin(const struct collector *c, const char *words, uint32_t food);
void collect_add(struct collector *c, struct mend_offer o, struct offer_text t);
double collect_days(const struct collector *c);
/* The usual most of a food, g a day, for this animal and bowl. */
double collect_portion(const struct collector *c, uint32_t food);
/* Is a weighed amount too small to be seen on a scale or a spoon? Grams in a line. */
bool collect_is_a_trace(double grams);
/* Weighed foods: at most so many grams a day for this animal. */
void collect_weighed(struct collector *c, uint32_t food, const char *words, enum mend_tier tier, double most, int since);
/* Powders and oils of which so little is usual that a scale at home does not show it: by the eighth of a teaspoon, every day
 * or less often. False: they are weighed. */
bool collect_spooned(struct collector *c, uint32_t food, const char *words, enum mend_tier tier, double most, int since);

/* ---- mend_units.c: by the tablet, the tin, the egg ---- */

void collect_shop_unit(struct collector *c, const struct img_shop_unit *u, const char *words, int since);

/* ---- mend_larder.c: what is at hand ---- */

void collect_larder(struct collector *c, struct diags *d);

#endif
