/* What --why asks for. */
#include "cli/run.h"
#include "explain/why.h"

bool read_whys(const struct run *s, struct why_key *to, size_t *count) {
  const struct text_list *why = &s->options->ask.why;
  for (*count = 0; *count < why->count; ++*count) {
    struct span words = span_of(why->item[*count]);
    if (why_key_read(words, &to[*count])) continue;
    const char *near = why_key_nearest(words);
    complain("--why takes a nutrient, energy or a ratio, not '%s'%s%s%s", why->item[*count], near ? "; did you mean '" : "",
             near ? near : "", near ? "'?" : "");
    return false;
  }
  return true;
}
