#include "json/json_left.h"

#include "review/findings.h"

void json_left(struct json *j, const struct check_result *before, const struct check_result *after) {
  json_open(j, "findings", '[');
  for (size_t i = 0; after && i < after->finding_count; i++) {
    const struct finding *f = &after->finding[i];
    if (f->weight != FINDING_ACT && f->weight != FINDING_WATCH) continue;
    json_open(j, NULL, '{');
    json_text(j, "id", f->id);
    json_text(j, "weight", f->weight == FINDING_ACT ? "act" : "watch");
    json_bool(j, "new", !findings_say(before, f->id));
    json_text(j, "text", f->text);
    json_close(j, '}');
  }
  json_close(j, ']');
}
