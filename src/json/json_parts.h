/* json_parts.h: the tables that several answers share. Layer: json, internal. */
#ifndef BW_JSON_PARTS_H
#define BW_JSON_PARTS_H

#include <math.h>

#include "json/field.h"

#define NOT_KNOWN ((double)NAN)

/* The outermost object of "check" and of "need". */
struct checked {
  const struct check_result *r;
  const struct asked *asked;
  bool for_page;     /* what the page never shows is not worked out */
  bool brief;        /* for a page, with every keystroke: nutrients without who supplies them and the rows behind them */
  double whole_kcal; /* for a page, whose handle sets how much of this is eaten; 0 elsewhere */
};
/* The result that this object is part of: within a Check or a Need. */
const struct check_result *checked_result(const struct at *at);
bool checked_brief(const struct at *at);
double checked_whole_kcal(const struct at *at); /* NaN where there is no handle */
/* Verdicts exist only where there is an animal that may be judged. */
bool checked_judged(const struct check_result *r);
/* A ration built without a text has no line numbers: NaN. */
double line_number(const struct ration_line *l);

/* Outermost objects. */
extern const struct shape json_check_shape, json_need_shape; /* struct checked */
extern const struct shape json_foods_shape;                  /* struct found_foods */
extern const struct shape json_food_shape, json_library_shape, json_side_shape, json_swap_shape, json_mend_shape,
    json_reply_shape, json_sheet_shape, json_sheet_page_shape, json_compose_shape, json_page_shape, json_suggest_shape,
    json_shelf_shape, json_near_shape, json_larder_shape, json_complaint_shape, json_lines_shape, json_week_shape,
    json_rotate_shape;                                                            /* struct app_week_one */
extern const struct shape json_many_shape;                                        /* struct many */
extern const struct shape json_weeks_shape, json_journal_shape, json_entry_shape; /* what the page is told of days */
extern const struct shape json_trend_shape;                                       /* struct app_trend_answer */
extern const struct shape json_slim_shape;                                        /* struct app_slim_answer */

/* Parts of them. */
extern const struct shape json_recipe_shape;  /* struct ration */
extern const struct shape json_share_shape;   /* struct energy_result: share of the energy */
extern const struct shape json_quiet_shape;   /* struct quiet */
extern const struct shape json_ratio_shape;   /* struct ratio_view */
extern const struct shape json_why_shape;     /* struct why */
extern const struct shape json_finding_shape; /* struct finding */
extern const struct shape json_helps_shape;   /* struct model_helps */
extern const struct shape json_left_shape;    /* struct left_seen */

/* json_rail.c: of a struct nutrient_result; null without an allowance. */
extern const struct shape json_rail_shape;
void json_rail(struct json *j, const char *key, const struct at *at);
void json_rail_says(struct json *j, const char *key, const struct at *at);
extern const struct shape json_ribbon_shape, json_supply_shape; /* struct ribbon, struct suppliers */
void json_ribbon(struct json *j, const char *key, const struct at *at);
void json_supply(struct json *j, const char *key, const struct at *at);

/* json_post.c */
extern const struct shape json_question_shape, json_left_out_shape, json_unread_shape;
size_t json_questions(const struct at *at);
const void *json_question(const struct at *at, size_t i);
size_t json_left_outs(const struct at *at);
const void *json_left_out(const struct at *at, size_t i);
const char *json_as_recipe(const struct at *at);

/* A bowl that was found, and what it is compared with. */
struct left_seen {
  const struct check_result *before, *after; /* NULL: none */
};

/* The keys of Left, within an object that is open at 'at'. */
void json_left(struct json *j, const struct at *at, const struct check_result *before, const struct check_result *after);

struct found_foods {
  struct span words;
  const struct search_hit *hit;
  size_t count;
};

#endif
