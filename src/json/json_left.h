/* json_left.h: what the review says of a bowl that was found. Layer: json, internal. */
#ifndef BW_JSON_LEFT_H
#define BW_JSON_LEFT_H

#include "judge/check.h"
#include "json/json.h"

/* "findings": those of weight act and watch; "new" tells whether they were not in 'before' (NULL: all are). */
void json_left(struct json *j, const struct check_result *before, const struct check_result *after);

#endif
