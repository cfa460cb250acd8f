/* The reply: words for people, and in which form they are. */
#include <math.h>

#include "json/json_parts.h"

struct reply_text {
  const char *text;
  bool markdown;
  const char *recipe;
  double scaled;
};

static const struct field REPLY[] = {
    TEXT_ALWAYS("text", struct reply_text, text, "the answer, ready to paste"),
    TRUTH("markdown", struct reply_text, markdown, "false: plain text"),
    TEXT("recipe", struct reply_text, recipe, "the recipe that it proposes; null when it proposes none"),
    NUMBER("scaled", "", struct reply_text, scaled,
           "what its amounts began with, as a share of those of the recipe; null: with those"),
};
const struct shape json_reply_shape = SHAPE("Reply", REPLY, "the answer of `reply --json`");

void json_reply(const struct library *lib, const char *text, bool markdown, const char *recipe, double scaled,
                struct buf *out) {
  const struct reply_text it = {text, markdown, recipe, scaled > 0 ? scaled : (double)NAN};
  json_write(lib, &json_reply_shape, &it, out);
}
