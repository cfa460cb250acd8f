/* "Grams per kg of dog and day:" above a list: the numbers below it are for each kilogram that the animal weighs. They are
 * written as those of the animal, where the text tells one weight before them. */
#include "base/num.h"
#include "post/page/post_page.h"

/* Does the line end with a colon and tell that what follows is for each kilogram of the animal? */
static bool heads_list(const struct tokens *t) {
  enum { FAR = 5 };
  if (t->count < 4 || !is_mark(t, t->count - 1, ':')) return false;
  for (size_t i = 0; i + 2 < t->count; i++) {
    if (!says(t, i, "per every each") || !says(t, i + 1, "kg kilo kilogram")) continue;
    for (size_t k = i + 2; k < t->count && k < i + FAR; k++)
      if (says(t, k, "dog cat animal bodyweight body weighs weight")) return true;
  }
  return false;
}

/* The one weight of an animal in the text before 'end', in kg; NaN: none, or several. */
static double weight_before(struct post_reader *r, struct span text, const char *end) {
  double found = (double)NAN;
  struct span line;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line) && line.p < end;) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count; i++) {
      double kg;
      size_t used = post_weight_at(&t, i, &kg);
      if (used == 0 || says(&t, i + used, "of")) continue; /* "700 g of mix" */
      if (found > 0 && found != kg) return (double)NAN;
      found = kg;
      i += used - 1;
    }
  }
  return found;
}

/* "lean beef 12", "duck 14 g": a food and one number, in grams or without a unit. */
static bool write_times(struct buf *b, const struct tokens *t, struct span line, double kg) {
  size_t at = t->count, last = t->count;
  for (size_t i = 0; i < t->count; i++) {
    if (t->item[i].kind != TOKEN_NUMBER) continue;
    if (at < t->count) return false;
    at = last = i;
  }
  if (at == t->count || at == 0 || !(t->item[at].value > 0)) return false;
  if (says(t, at + 1, "g gr gram grams"))
    last = at + 1;
  else if (at + 1 < t->count && is_word(t, at + 1))
    return false;
  buf_add(b, (struct span){line.p, (size_t)(t->item[at].at.p - line.p)});
  num_sig(b, t->item[at].value * kg, 5);
  buf_adds(b, " g");
  const char *end = t->item[last].at.p + t->item[last].at.n;
  buf_add(b, (struct span){end, (size_t)(line.p + line.n - end)});
  return true;
}

struct span post_per_weight(struct post_reader *r, struct span text, struct arena *arena) {
  struct span line;
  struct buf b;
  double kg = (double)NAN;
  bool any = false;
  if (!memchr(text.p, ':', text.n)) return text;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line) && !any;) {
    struct span said = trim_blanks(line);
    if (said.n == 0 || said.p[said.n - 1] != ':') continue;
    struct tokens t = post_tokens(r, line);
    any = heads_list(&t) && (kg = weight_before(r, text, line.p)) > 0;
  }
  if (!any) return text;
  bool within = false;
  buf_init(&b, arena, 2 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    bool head = heads_list(&t);
    if (head || trim_blanks(line).n == 0) within = head;
    if (head)
      buf_adds(&b, "A day:");
    else if (!within || !write_times(&b, &t, line, kg))
      within = within && trim_blanks(line).n == 0, buf_add(&b, line);
    buf_addc(&b, '\n');
  }
  return buf_span(&b);
}
