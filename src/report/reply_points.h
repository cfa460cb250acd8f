/* reply_points.h: what there is to say in a reply, before it is cut to length. Private to the reply. Layer: report. */
#ifndef BW_REPORT_REPLY_POINTS_H
#define BW_REPORT_REPLY_POINTS_H

#include "report/reply.h"
#include "words/usual.h"
#include "words/verdicts.h"

/* In the order in which they are told. ORDER REPLY_PART: reply_part[] in reply_points.c. */
enum reply_part_id {
  REPLY_GREETING,
  REPLY_DANGER,
  REPLY_GOOD,
  REPLY_ACT,
  REPLY_CHANGE,
  REPLY_WATCH,
  REPLY_KNOW,
  REPLY_QUESTION,
  REPLY_SURE,
  REPLY_CARE,
  REPLY_PART_COUNT
};

enum reply_shape { SHAPE_PARAGRAPH, SHAPE_LISTED, SHAPE_NUMBERED };
struct reply_part {
  const char *title; /* "": none */
  enum reply_shape shape;
};
extern const struct reply_part reply_part[REPLY_PART_COUNT];

/* Points of less worth are said only to fill a letter that would be too short. */
#define WORTH_SAYING 10.0
/* Points of so much worth stay in a letter that grows too long. */
#define WORTH_KEEPING 44.5

/* So many things to act on are told in full in a letter. */
enum { ACTED_ON_MOST = 3 };

struct reply_point {
  enum reply_part_id part;
  const char *text; /* whole sentences */
  double worth;     /* among all points: larger is said first when there is little room */
  bool must;        /* said in every letter */
  bool taken, passed;
};

struct reply_points {
  struct reply_point *point;
  size_t count, cap;
};

struct gathering {
  const struct reply_facts *f;
  const struct check_result *r;
  enum reply_length length;
  bool mostly_unread;  /* what could be counted is no dinner: nothing is judged by it */
  bool told_uncounted; /* the change says already what could not be counted */
  struct reply_points all;
  struct arena *arena;
};
void reply_say(struct gathering *g, enum reply_part_id part, double worth, bool must, const char *text);
/* What could not be counted, in the owner's words and quotation marks, without what is told as a danger: nobody is to find
 * out what is in the garlic. "" when everything is counted. 'many' (may be NULL): more than one of them. */
const char *reply_uncounted(struct gathering *g, bool *many);
/* The same, one by one. */
const char **reply_uncounted_items(const struct gathering *g, size_t *count);
/* words_list() where all names are there: one too many is named, for "and 1 more" is no shorter. */
const char *reply_list(const struct gathering *g, const char *const *item, size_t count, size_t most);
/* reply_change.c: the change in the owner's own lines; where there is none, what stands in the way. */
void reply_tell_change(struct gathering *g);

struct reply_points reply_points(const struct reply_facts *f, enum reply_length length, struct arena *arena);

#endif
