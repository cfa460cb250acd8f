/* post_page.h: the text as it came, before its lines are read: marks of mail and pages, tables, headings of recipes. Private
 * to src/post. Layer: post/page. */
#ifndef BW_POST_PAGE_H
#define BW_POST_PAGE_H

#include "post/hear/post_hear.h"

/* ---- post_short_days.c ---- */

/* "Mo", "Tu" ... at the beginnings of lines become "Mon", "Tue" ... where the text has so many of them that they are days.
 */
struct span post_short_days(struct span text, struct arena *arena);
struct span post_without_prices(struct span text, struct arena *arena); /* of a receipt; as many lines */

/* post_marks.c, before that: dots, hyphens and list numbers around amounts ("beef.....200g", "beef-200g", "1 - 300 g beef").
 */
struct span post_marks(struct span text, struct arena *arena);

/* post_table.c: is it the head of a table? Its row as a line, itself when it is none; and cells with commas between. */
bool post_rows_without_unit(struct span text); /* is it a table of foods and bare numbers? They are taken as grams. */
/* The unit of a list of foods with bare numbers ("lamb mince 70", "rice 20 cooked"): "g", "%" where it says so; "" where it
 * is no such list, or nobody can tell. And was the amount of this strict line written without a unit in the line of the
 * text? */
const char *post_list_without_unit(struct span text);
bool post_is_bare_of(struct span line, const char *strict);
bool post_table_head(struct post_reader *r, struct span line);
struct span post_table_row(struct post_reader *r, struct span line);
struct span post_join_cells(struct span line, struct arena *arena, bool *table);

/* post_pictures.c: writes what the picture of n bytes stands for; false where it stands for nothing. And foods of which a
 * picture is all that the post has, once it is cleaned. */
bool post_take_picture(struct span in, size_t at, size_t n, struct buf *out);
void post_tell_pictures(struct post_reader *r, struct span text, struct span cleaned);

/* ---- post_clean.c ---- */

/* The text as plain lines: no tags, quote marks, emoji or table borders. As many lines as the text has, so that numbers stay
 * true; a line that pages broke by tags is joined with 0x1F between its pieces. */
struct span post_clean(struct span text, struct arena *arena);

/* post_boxes.c: over the text as it came. */
struct span post_boxes(struct post_reader *r, struct span text, struct arena *arena);

/* post_ahead.c, post_labels.c: numbers in words, kinds of days, and the headings of recipes that take turns, over the whole
 * text. post_per_kilo.c: "per kilo of mix:". */
struct span post_ahead(struct post_reader *r, struct span text, struct arena *arena);
struct span post_labels_written(struct post_reader *r, struct span text, struct arena *arena);
struct span post_per_kilo(struct post_reader *r, struct span text, struct arena *arena);

/* post_per_weight.c: a list under "per kg of dog" is written as that of the animal. */
struct span post_per_weight(struct post_reader *r, struct span text, struct arena *arena);

/* post_targets.c: without what the bowl is meant to hold, where the lines tell what it holds; as many lines. */
struct span post_without_targets(struct post_reader *r, struct span text, struct arena *arena);

/* post_wrapped.c: does somebody list without capitals? The next line, with those that go on with it. */
bool post_lists_small(struct span text, bool *ragged);
bool post_next_line(struct post_reader *r, struct lines *lines, struct span *line);

#endif
