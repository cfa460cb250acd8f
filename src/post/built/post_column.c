/* Columns of a table that are told by whose they are or of when: "Abe | Bea", "last year | now"; and the unit that the text
 * tells of all its numbers. */
#include "post/built/post_built.h"

static bool any_says(const struct tokens *t, const char *words) {
  for (size_t i = 0; i < t->count; i++)
    if (says(t, i, words)) return true;
  return false;
}

/* The animal that the text asks about, by its name; "" nobody says. */
static struct span asked_about(struct post_reader *r, struct span text) {
  struct post_reader *probe = ARENA_NEW(r->arena, struct post_reader, 1);
  struct span line;
  *probe = *r;
  probe->asked_about = (struct span){"", 0};
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    if (t.count < SENTENCE_MOST_WORDS) post_hear_who(probe, &t);
  }
  return probe->asked_about;
}

enum column_of post_column_of(struct post_reader *r, struct span text, struct span name) {
  struct tokens t = post_tokens(r, name);
  if (any_says(&t, "now today today's current currently new present nowadays")) return COLUMN_OF_NOW;
  if (any_says(&t, "until till last before old was former formerly previously earlier past")) return COLUMN_NOT_FED;
  if (says(&t, 0, "per") && says(&t, 1, "kg kilo lb pound pack bag")) return COLUMN_NOT_FED; /* what it costs */
  bool named = t.count == 1 && name.n > 1 && name.p[0] >= 'A' && name.p[0] <= 'Z' && !token_is_a(&t.item[0], CLASS_MEAL);
  struct span asked = named ? asked_about(r, text) : (struct span){"", 0};
  if (asked.n == 0) return COLUMN_OF_ANYTHING;
  return span_eq_fold(asked, name) ? COLUMN_OF_NOW : COLUMN_NOT_FED;
}

const char *post_unit_of_numbers(struct post_reader *r, struct span text) {
  struct span line;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count; i++) {
      bool alone = i == 0 || !is_number(&t, i - 1);
      if (alone && says(&t, i, "g gr gram grams")) return "g";
      if (alone && says(&t, i, "ounces oz") && i > 0 && says(&t, i - 1, "in are all")) return "oz";
    }
  }
  return "";
}
