/* page_answer.h: what a page needs after every keystroke, as one JSON object.
 *
 * Layer: above app. Pure: the library, the texts and the date come from the caller. */
#ifndef BW_PAGE_ANSWER_H
#define BW_PAGE_ANSWER_H

#include "app/app.h"
#include "json/json.h"

/* {"complaints": [{"text": "recipe"|"animals", "level", "line", "column", "width", "message"}],
 *  "left_out": [lines], "eaten": 1, "all_kcal": 703.1, "check": {...}|null}
 *
 * While a person types, one line is nearly always half a line. Lines of the recipe that are not understood are left out,
 * said to be so, and the rest is judged; "check" is null only when even that cannot be done. "all_kcal" is the energy when
 * all of it is eaten, null without a check. Columns and widths count characters from 1. */
void page_answer(const struct library *lib, const struct app_check_request *q, struct buf *out, struct arena *arena);

/* A check of the lines that are understood; a->result is NULL when even that cannot be done. The lines left out are those
 * with errors in a->recipe_diags. */
void check_understood_lines(const struct library *lib, const struct app_check_request *q, struct app_check_answer *a,
                            struct arena *arena);

/* {"complaints": [...]} about a larder text. */
void page_larder(const struct library *lib, struct span larder, struct buf *out, struct arena *arena);

/* A label text: its foods join the library's own. {"complaints": [...], "foods": [{"food", "name"}]}.
 * While a person types, one food is nearly always half a food: foods that are not understood are
 * left out, the others are used. */
void page_foods(struct library *lib, struct span labels, struct buf *out, struct arena *arena);

/* Shared with page_foods.c: the items of "complaints". */
void page_complaints(struct json *j, const char *text, const struct diags *d);

/* Foods for a line that is being written: {"column", "width" (of the food's words), "words",
 *  "names": [{"phrase", "food", "name"}], "foods": [as in the JSON of foods]}. 'names' are everyday names that the words
 * begin; column 0 when the line holds no food words yet. */
void page_suggest(const struct library *lib, struct span line, size_t most, struct buf *out, struct arena *arena);

/* Every food of the image in its order, for whoever sends the library in two parts: [[pin, name, whether an everyday phrase
 * means it or it is used to bring a nutrient, the number of its bone record or -1, of its raw form or -1]]. */
void page_near(const struct library *lib, struct buf *out, struct arena *arena);

#endif
