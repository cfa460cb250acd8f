/* A list of foods of which none has an amount: "peas, carrots and rice". */
#include "post/hear/post_hear.h"

enum { LISTED_FOODS_MOST = 8 };

/* Foods between ',', 'and', '&' in [from, to), each with a food's name in it and no amount; 0 when they are no such list. */
size_t post_foods_listed(struct post_reader *r, const struct tokens *t, size_t from, size_t to, struct span *out) {
  enum { WORDS_MOST = 5 };
  size_t n = 0, begin = from;
  bool named = false;
  for (size_t i = from; i <= to; i++) {
    bool end = i == to || is_mark(t, i, ',') || is_mark(t, i, '&') || is_mark(t, i, '+') || says(t, i, "and plus n");
    if (!end) {
      struct post_amount a = post_amount_at(t, i);
      if ((a.tokens > 0 && !says(t, i, "a an")) || i - begin >= WORDS_MOST) return 0;
      size_t used = post_mention_at(r, t, i);
      named = named || used > 0;
      if (used > 1) i += used - 1;
      continue;
    }
    if (i == begin) { /* ", and" */
      begin = i + 1;
      continue;
    }
    if (!named || n == LISTED_FOODS_MOST) return 0;
    out[n++] = tokens_span(t, begin, i - begin);
    begin = i + 1;
    named = false;
  }
  return n;
}
