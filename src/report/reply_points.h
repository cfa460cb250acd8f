/* reply_points.h: what there is to say in a reply, before it is cut to length. Private to the reply. Layer: report. */
#ifndef BW_REPORT_REPLY_POINTS_H
#define BW_REPORT_REPLY_POINTS_H

#include "report/reply.h"
#include "words/usual.h"
#include "words/verdicts.h"

/* In the order in which they are told. ORDER REPLY_PART: reply_part[] in reply_points.c. */
enum reply_part_id {
  REPLY_DANGER,
  REPLY_VERDICT, /* what was asked, and what matters most */
  REPLY_CHANGE,
  REPLY_BOWL, /* all of it, as it is once changed */
  REPLY_ACT,
  REPLY_WATCH,
  REPLY_GOOD,
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
enum { ACTED_ON_MOST = 3, ACTED_ON_BESIDE_A_CHANGE = 2 };

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
  enum nutrient worst; /* what the verdict begins with; NUT_NONE */
  bool worst_is_too_much;
  bool mostly_unread;  /* what could be counted is no dinner: nothing is judged by it */
  bool told_uncounted; /* the change says already what could not be counted */
  struct reply_points all;
  struct arena *arena;
};
/* reply_said.c: is there a day on which nothing is fed? And is a need short only on such a day? */
bool reply_fasts(const struct gathering *g);
bool reply_is_by_fast(const struct gathering *g, const struct nutrient_result *n);
void reply_say(struct gathering *g, enum reply_part_id part, double worth, bool must, const char *text);
/* What could not be counted and may change something, in the owner's words and quotation marks, without what is told as a danger: nobody is to find
 * out what is in the garlic. "" when everything is counted. 'many' (may be NULL): more than one of them. */
const char *reply_uncounted(const struct gathering *g, bool *many);
/* The same, one by one. */
const char **reply_uncounted_items(const struct gathering *g, size_t *count);
/* What was not counted and changes nothing that is judged: nobody has to leave it out. "" */
const char *reply_waved_through(const struct gathering *g);
/* words_list() where all names are there: one too many is named, for "and 1 more" is no shorter. */
const char *reply_list(const struct gathering *g, const char *const *item, size_t count, size_t most);
/* reply_verdict.c: the first sentences. reply_praise.c: what is good. */
void reply_tell_verdict(struct gathering *g);
void reply_praise(struct gathering *g);
/* reply_bowl.c: the changed bowl line by line, each with what is new of it; false where the owner's lines and a few steps
 * say it as well. */
bool reply_tell_bowl(struct gathering *g, const struct mended *m);
/* reply_bowl.c: what a change is for: ", for zinc and iodine"; "" */
const char *reply_for_what(struct gathering *g, const struct mend_change *c);
const char *reply_why_changed(struct gathering *g, const struct mend_change *c);
/* Of a line of the owner's: does it change at all, beside what is scaled with all the others? */
bool reply_is_changed(const struct mended *m, size_t change);
/* Is this line of the owner's text no line of the changed bowl any more? */
bool reply_goes_out(const struct mended *m, int line);
/* Its share of the dinner was what is wrong: that is said of all such lines at once. */
bool reply_is_of_plate(const struct gathering *g, int line);
/* " to the pot", " over the bowl" of what is added to a batch; "" */
const char *reply_where_added(const struct gathering *g, size_t change);
/* The amount that the owner wrote of a line that changes; NULL: the change begins with another. */
const char *reply_was(const struct gathering *g, const struct mended *m, size_t change);
/* What to heed in buying it, which its short name does not say: ", one without sweetener" (xylitol kills dogs); "" */
const char *reply_which(const struct library *lib, const struct mended *m, size_t change);
/* reply_open.c: where there is no change, what stands in the way of one. */
void reply_tell_none(struct gathering *g);
/* reply_change.c: the change in the owner's own lines; where there is none, what stands in the way. */
void reply_tell_change(struct gathering *g);

struct reply_points reply_points(const struct reply_facts *f, enum reply_length length, struct arena *arena);

#endif
