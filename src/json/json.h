/* json.h: writes JSON. Only writing: JSON is never needed as input. Keys are words of the program and go out as they are;
 * texts are escaped.
 *
 * Layer: json. */
#ifndef BW_JSON_H
#define BW_JSON_H

#include "app/app_compose.h"
#include "app/app_mend.h"
#include "app/app_swap.h"
#include "base/num.h"
#include "explain/asked.h"
#include "explain/side.h"
#include "explain/ways.h"
#include "foods/search.h"

struct app_page_answer;
struct app_larder_answer;
struct app_lines;
struct app_shelf_answer;
struct app_suggestions;
struct app_week_one;
struct app_rotate_answer;
struct app_trend_answer;
struct app_slim_answer;
struct app_week_answer;
struct app_journal_answer;
struct app_entry_answer;

struct json {
  struct buf *out;
  bool first; /* nothing written yet at this level: no comma */
};

void json_init(struct json *j, struct buf *out);
void json_open(struct json *j, const char *key_or_null, char bracket); /* '{' or '[' */
void json_close(struct json *j, char bracket);
void json_text(struct json *j, const char *key_or_null, const char *text_or_null);
void json_number(struct json *j, const char *key_or_null, double x); /* 9 significant digits; null when NaN */
void json_digits(struct json *j, const char *key_or_null, double x,
                 int digits); /* the same with fewer digits: a float has 6 */
void json_span(struct json *j, const char *key_or_null, struct span text);
void json_text_or_null(struct json *j, const char *key_or_null, const char *text); /* "" means "not given": null */
void json_bool(struct json *j, const char *key_or_null, bool x);
void json_nothing(struct json *j, const char *key_or_null);
void json_ready(struct json *j, const char *key_or_null, struct span json); /* written already */

/* The shapes of interface: one object each, no line end. */
void json_check(const struct library *lib, const struct check_result *r, struct buf *out);
/* The same with what was asked beside it: "ratio" and "why" behind the other keys. */
void json_check_asked(const struct library *lib, const struct check_result *r, const struct asked *asked, struct buf *out);
struct post;
/* A post in which no food could be counted. */
void json_unread(const struct library *lib, const struct post *post, struct buf *out);
void json_side(const struct library *lib, const struct side *s, const struct cooked_way *ways,
               struct buf *out); /* ways NULL: none */
void json_need(const struct library *lib, const struct check_result *empty_ration, struct buf *out);
void json_foods(const struct library *lib, struct span words, const struct search_hit *hits, size_t count, struct buf *out);
void json_food(const struct library *lib, uint32_t food, struct buf *out);
void json_library(const struct library *lib, struct buf *out);
void json_mend(const struct library *lib, const struct app_mend_answer *a, struct buf *out);
void json_reply(const struct library *lib, const char *text, bool markdown, const char *recipe, double scaled,
                struct buf *out); /* recipe NULL: none is proposed */
struct many;
/* The summary of a folder (words/many.h). */
void json_many(const struct library *lib, const struct many *m, struct buf *out);
struct kitchen;
struct sheet;
/* The sheet as a page of HTML: what a page hands on to be printed or kept. */
void json_sheet_page(const struct library *lib, const struct sheet *s, const char *html, struct buf *out);
void json_sheet(const struct library *lib, const struct kitchen *k, const struct sheet *s, struct buf *out);
void json_swap(const struct library *lib, const struct swapped *s, struct buf *out);
void json_rotate(const struct library *lib, const struct app_rotate_answer *a, struct buf *out);
void json_week(const struct library *lib, const struct app_week_one *a, struct buf *out);
void json_trend(const struct library *lib, const struct app_trend_answer *a, struct buf *out);
void json_slim(const struct library *lib, const struct app_slim_answer *a, struct buf *out);
void json_compose(const struct library *lib, const struct app_compose_answer *a, struct buf *out);

/* ---- what a page is told ---- */

/* {"complaints": [...], "answer": ...}: what every call of the WebAssembly module says. 'about': the complaints, each with
 * the name of its text; 'answer': JSON, of no bytes when there is none. */
void json_told(const struct diags *const *about, size_t texts, struct span answer, struct buf *out);
void json_page(const struct library *lib, const struct app_page_answer *a, struct buf *out);
void json_larder(const struct library *lib, const struct app_larder_answer *a, struct buf *out);
void json_lines(const struct app_lines *a, struct buf *out);
void json_shelf(const struct library *lib, const struct app_shelf_answer *a, struct buf *out);
void json_near(const struct library *lib, const bool *named, struct buf *out); /* app_named_foods */
void json_weeks(const struct library *lib, const struct app_week_answer *a, struct buf *out);
void json_journal(const struct library *lib, const struct app_journal_answer *a, struct buf *out);
void json_entry(const struct library *lib, const struct app_entry_answer *a, struct buf *out);
void json_suggest(const struct library *lib, const struct app_suggestions *a, struct buf *out);

#endif
