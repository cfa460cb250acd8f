/* bowl_parts.h: keys of an answer that have a file of their own. Layer: json, internal. */
#ifndef BW_JSON_PARTS_H
#define BW_JSON_PARTS_H

#include <math.h>

#include "explain/quiet.h"
#include "json/json.h"

void json_quiet(struct json *j, const struct check_result *r);                             /* "quiet" */
void json_ratio(struct json *j, const struct check_result *r, const struct ratio_view *v); /* "ratio" */
void json_why(struct json *j, const struct library *lib, const struct check_result *r, const struct asked *asked);

#endif
