/* app.h: the use cases. Text in, result out; the command line, the page and the tests call the same functions.
 *
 * Layer: app. No I/O, no clock, no globals: files are read and the date is known by whoever calls. */
#ifndef BW_APP_H
#define BW_APP_H

#include "animal/animal_text.h"
#include "foods/search.h"
#include "judge/check.h"
#include "label/label_text.h"
#include "recipe/recipe_text.h"
#include "request/request.h"

struct post;

struct app_input {
  const char *name; /* as the person named the file */
  struct span text;
};

/* The household's journal, and the recipes that its days may name. */
struct app_journal {
  struct app_input text;
  const struct app_input *recipe;
  size_t count, named; /* the first ones were named, the others lie beside it */
};

struct app_check_request {
  struct app_input recipe;
  struct app_input animals;          /* text n 0: none given */
  const char *for_name;              /* which animal of that text; NULL: the recipe's For header, else the only one */
  const struct animal *one_off;      /* --dog KG / --cat KG; wins over 'animals' */
  const struct app_journal *journal; /* the need is taken from it when it is surer than the equation; NULL: none */
  struct request ask;                /* what is asked, and today's date */
  const struct post *post;           /* filled when 'ask.posted' was obeyed (app_post.h); NULL: the recipe is strict text */
};

struct app_check_answer {
  const struct check_result *result; /* NULL when the input was not understood */
  const struct post *post;           /* what was read of a posted text; NULL */
  const struct recipe *recipe;
  struct diags recipe_diags, animal_diags, journal_diags;
};

void app_check(const struct library *lib, const struct app_check_request *q, struct app_check_answer *out,
               struct arena *arena);
/* Energy and allowances of the animal alone: the same result with an empty ration, supply taken as the need. */
void app_need(const struct library *lib, const struct app_check_request *q, struct app_check_answer *out,
              struct arena *arena);
/* All animals of a text; false when it was not understood (out->animal_diags of a check would say the same). */
bool app_animals(const struct app_input *animals, struct date today, struct diags *d, struct animal **out, size_t *count,
                 struct arena *arena) MUST_USE;
/* The rows of a standard's book are used in place of ours; false when the text was not understood and nothing was taken. */
bool app_add_allowances(struct library *lib, const struct app_input *rows, struct diags *d, struct arena *arena) MUST_USE;
/* The foods of a label text join the library's own foods; false when the text was not understood and nothing was added. */
bool app_add_foods(struct library *lib, const struct app_input *labels, struct diags *d, struct arena *arena) MUST_USE;
/* A food by pin ("usda:17199") or by words; NO_INDEX when nothing fits, with the nearest hits either way. */
uint32_t app_food(const struct library *lib, struct span words, struct search_hit *hits, size_t most, size_t *count,
                  struct arena *arena);

#endif
