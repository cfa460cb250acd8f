/* The reply: words for people, and in which form they are. */
#include "json/json_parts.h"

struct reply_text {
  const char *text;
  bool markdown;
  const char *recipe;
};

static const struct field REPLY[] = {
    TEXT_ALWAYS("text", struct reply_text, text, "the answer, ready to paste"),
    TRUTH("markdown", struct reply_text, markdown, "false: plain text"),
    TEXT("recipe", struct reply_text, recipe, "the recipe that it proposes; null when it proposes none"),
};
const struct shape json_reply_shape = SHAPE("Reply", REPLY, "the answer of `reply --json`");

void json_reply(const struct library *lib, const char *text, bool markdown, const char *recipe, struct buf *out) {
  const struct reply_text it = {text, markdown, recipe};
  json_write(lib, &json_reply_shape, &it, out);
}
