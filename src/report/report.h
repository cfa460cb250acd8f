/* report.h: answers drawn for a terminal. Draws, never computes.
 *
 * Layer: report. Pure: writes into a buffer; whoever owns the terminal says how wide it is and what it can show. */
#ifndef BW_REPORT_H
#define BW_REPORT_H

#include "base/buf.h"
#include "explain/asked.h"
#include "explain/side.h"
#include "explain/ways.h"
#include "foods/search.h"

struct report_style {
  int width;    /* columns; 0: 80. Drawn well from 60 to 160 */
  bool colour;  /* ANSI colours */
  bool unicode; /* box and block characters; without it plain ASCII */
  bool all;     /* unfold what is folded */
};

void report_check(const struct library *lib, const struct check_result *r, const struct report_style *style,
                  struct buf *out);
/* The same with parts against a ratio, when that was asked. */
void report_check_asked(const struct library *lib, const struct check_result *r, const struct asked *asked,
                        const struct report_style *style, struct buf *out);
/* Only the chains that were asked. */
void report_why(const struct library *lib, const struct check_result *r, const struct asked *asked,
                const struct report_style *style, struct buf *out);
/* 'ways': the ways of cooking that the rations are, NULL when they are something else. */
struct post;
/* A post in which no food could be counted. */
void report_unread(const struct post *post, const struct report_style *style, struct buf *out);
void report_side(const struct library *lib, const struct side *s, const struct cooked_way *ways,
                 const struct report_style *style, struct buf *out);
void report_need(const struct library *lib, const struct check_result *r, const struct report_style *style, struct buf *out);
void report_foods(const struct library *lib, struct span words, const struct search_hit *hits, size_t count,
                  const struct report_style *style, struct buf *out);
void report_food(const struct library *lib, uint32_t food, const struct report_style *style, struct buf *out);
void report_library(const struct library *lib, const struct report_style *style, struct buf *out);

#endif
