/* "Per kilo of mix:" as the base of the amounts behind it or below it: they are written as those of so much of a mix, of
 * which some is fed a day. Where they do not come to about the base ("per kg of food: 5 g of bone meal") it is another thing
 * and stays as it is. */
#include "base/num.h"
#include "post/page/post_page.h"

/* "per kilo of mix:", "for each kg of food:", "to every 100 g"; how many tokens, with the grams of the base; 0. */
static size_t base_at(const struct tokens *t, size_t at, double *grams) {
  size_t i = at;
  bool each_time =
      says(t, i, "each every") && says(t, i + 1, "time") && says(t, i + 2, "for"); /* "each time for 100 g of the mix" */
  if (each_time) i += 2;
  if (!each_time && says(t, i, "for to in") && says(t, i + 1, "each every")) i++;
  if (!each_time && !says(t, i, "per each every")) return 0;
  i++;
  struct post_amount a = post_amount_at(t, i);
  bool one = a.tokens == 0 && says(t, i, "kilo kg lb pound");
  if (!one && (!a.is_mass || a.low != a.high)) return 0;
  *grams = !one ? post_in_grams(&a) : says(t, i, "kilo kg") ? 1000 : 453.59237;
  i += one ? 1 : a.tokens;
  if (says(t, i, "of")) {
    i++;
    while (says(t, i, "the this his her finished raw cooked total ready whole made")) i++;
    if (!is_word(t, i) || !says_a(t, i, CLASS_MADE_IN_BULK)) return 0;
    i++;
  }
  while (says(t, i, "i we use take goes go there's is there")) i++;
  if (i < t->count && !is_mark(t, i, ':') && !is_mark(t, i, '-') && !is_mark(t, i, ',')) return 0;
  return (i < t->count ? i + 1 : i) - at;
}

/* As far as the text goes; what is fed of the mix is none of its parts. */
static double masses_from(const struct tokens *t, size_t from, const char *end) {
  double sum = 0;
  for (size_t i = from; i < t->count && t->item[i].at.p < end; i++) {
    struct post_amount a = post_amount_at(t, i);
    if (a.tokens == 0) continue;
    if (a.is_mass && strcmp(a.unit, "mg") != 0 && strcmp(a.unit, "mcg") != 0) sum += post_in_grams(&a);
    i += a.tokens - 1;
  }
  return sum;
}

struct span post_per_kilo(struct post_reader *r, struct span text, struct arena *arena) {
  static const double LEAST = 0.6, MOST = 1.4; /* of the base: own judgement */
  struct span line;
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct tokens t = post_tokens(r, line);
    for (size_t i = 0; i < t.count; i++) {
      double grams = 0;
      size_t used = base_at(&t, i, &grams);
      if (used == 0) continue;
      size_t at = (size_t)(t.item[i].at.p - line.p);
      double sum = masses_from(&t, i + used, line.p + post_sentence_end(line, at));
      struct span below;
      struct lines rest = lines;
      bool under = i + used >= t.count; /* a heading */
      bool begun = false;               /* the list stands below an empty line as well */
      while (under && lines_next(&rest, &below) && (!begun || trim_blanks(below).n > 0)) {
        begun = begun || trim_blanks(below).n > 0;
        struct tokens own = tokens_of(below, r->arena);
        sum += masses_from(&own, 0, below.p + below.n);
      }
      if (!(sum >= LEAST * grams && sum <= MOST * grams)) continue;
      struct buf b, base;
      buf_init(&base, r->arena, 60);
      num_sig(&base, grams, 6);
      buf_init(&b, arena, text.n + 60);
      buf_add(&b, (struct span){text.p, (size_t)(t.item[i].at.p - text.p)});
      buf_addf(&b, "for %s g of mix:", buf_text(&base));
      const char *end = t.item[i + used - 1].at.p + t.item[i + used - 1].at.n;
      buf_add(&b, (struct span){end, (size_t)(text.p + text.n - end)});
      return buf_span(&b);
    }
  }
  return text;
}
