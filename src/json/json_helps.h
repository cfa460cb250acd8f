/* json_helps.h: foods that would make an impossible bowl possible. Layer: json, internal. */
#ifndef BW_JSON_HELPS_H
#define BW_JSON_HELPS_H

#include "change/model.h"
#include "json/json.h"

/* "would_help": each with food, name, grams_per_day, most_grams_per_day, enough, relief, helps_with; and
 * "would_help_together": food, name, grams_per_day, most_grams_per_day of each. */
void json_helps(struct json *j, const struct library *lib, const struct model_helps *h);

#endif
