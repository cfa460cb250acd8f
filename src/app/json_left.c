#include "app/json_left.h"

static bool had(const struct check_result *r, const char *id) {
  for (size_t i = 0; r && i < r->finding_count; i++)
    if (strcmp(r->finding[i].id, id) == 0) return true;
  return false;
}

void json_left(struct json *j, const struct check_result *before, const struct check_result *after) {
  json_open(j, "findings", '[');
  for (size_t i = 0; after && i < after->finding_count; i++) {
    const struct finding *f = &after->finding[i];
    if (f->weight != FINDING_ACT && f->weight != FINDING_WATCH) continue;
    json_open(j, NULL, '{');
    json_text(j, "id", f->id);
    json_text(j, "weight", f->weight == FINDING_ACT ? "act" : "watch");
    json_bool(j, "new", !had(before, f->id));
    json_text(j, "text", f->text);
    json_close(j, '}');
  }
  json_close(j, ']');
}
