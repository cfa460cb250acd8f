/* A food and its amount on lines of their own, one below the other: "food 1: pork mince" and "amount 1: 250 g", "what else:
 * zucchini" and "how much: 30 g". */
#include "post/built/post_built.h"

/* ---- "food 1: pork mince" and, below it, "amount 1: 250 g" ---- */

/* The number of such a line, and what stands behind its colon; 0. */
static int numbered(struct post_reader *r, struct span line, const char *names, struct span *value) {
  if (!memchr(line.p, ':', line.n) && !memchr(line.p, '=', line.n)) return 0;
  struct tokens t = post_tokens(r, line);
  size_t at = says(&t, 0, names) ? 1 : 0;
  if (at == 0) return 0;
  if (is_mark(&t, at, '#')) at++;
  if (!is_number(&t, at) || !(is_mark(&t, at + 1, ':') || is_mark(&t, at + 1, '=')) || at + 2 >= t.count) return 0;
  *value = tokens_span(&t, at + 2, t.count - at - 2);
  return (int)t.item[at].value;
}

static const char OF_FOODS[] = "food ingredient item meat product",
                  OF_AMOUNTS[] = "amount qty quantity weight grams g portion";

/* Each food with the amount of its number, on the line of the amount. */
static struct span numbered_pairs(struct post_reader *r, struct span text, struct arena *arena) {
  struct buf b;
  struct span line, food = {"", 0}, value;
  bool any = false;
  int open = 0;
  buf_init(&b, arena, 2 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    int foods = numbered(r, line, OF_FOODS, &value), amounts = foods > 0 ? 0 : numbered(r, line, OF_AMOUNTS, &value);
    struct lines ahead = lines;
    struct span next, after;
    bool followed = foods > 0 && lines_next(&ahead, &next) && numbered(r, next, OF_AMOUNTS, &after) == foods;
    if (followed) {
      food = value, open = foods, any = true;
    } else if (open > 0 && amounts == open) {
      buf_addf(&b, "%.*s %.*s", SPAN_ARG(value), SPAN_ARG(food));
      open = 0;
    } else {
      buf_add(&b, line);
    }
    buf_addc(&b, '\n');
  }
  return any ? buf_span(&b) : text;
}

/* ---- "what else: zucchini", "how much: 30 g", "how often: every day" ---- */

/* What stands behind such a label; "" where it is none. */
static struct span behind_label(struct span line, const char *first, const char *second, struct arena *arena) {
  if (!memchr(line.p, ':', line.n)) return (struct span){"", 0};
  struct tokens t = tokens_of(line, arena);
  size_t at = says(&t, 0, first) ? 1 : 0;
  if (at == 0 || (second[0] && !says(&t, at, second))) return (struct span){"", 0};
  for (size_t i = at; i < t.count && i < at + 5; i++)
    if (is_mark(&t, i, ':') && i + 1 < t.count) return tokens_span(&t, i + 1, t.count - i - 1);
  return (struct span){"", 0};
}

/* A food in a line with a label, how much of it in the next, and how often in the one behind that. */
static struct span how_much_below(struct post_reader *r, struct span text, struct arena *arena) {
  struct buf b;
  struct span line;
  bool any = false;
  buf_init(&b, arena, 2 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    struct lines ahead = lines;
    struct span next, third, much = {"", 0}, often = {"", 0};
    struct tokens t = post_tokens(r, line);
    size_t colon = 0;
    while (colon < t.count && !is_mark(&t, colon, ':')) colon++;
    bool labelled = colon > 0 && colon < 6 && colon + 1 < t.count && !post_any_amount(&t, 0) && !says(&t, 0, "how");
    if (labelled && lines_next(&ahead, &next)) much = behind_label(next, "how", "much many", r->arena);
    struct tokens m = tokens_of(much, r->arena);
    if (much.n == 0 || !post_any_amount(&m, 0)) {
      buf_addf(&b, "%.*s\n", SPAN_ARG(line));
      continue;
    }
    any = true;
    lines = ahead;
    if (lines_next(&ahead, &third)) often = behind_label(third, "how", "often", r->arena);
    buf_addf(&b, "\n- %.*s %.*s%s%.*s\n", SPAN_ARG(much), SPAN_ARG(tokens_span(&t, colon + 1, t.count - colon - 1)),
             often.n > 0 ? ", " : "", SPAN_ARG(often));
    if (often.n > 0) lines = ahead, buf_addc(&b, '\n');
  }
  return any ? buf_span(&b) : text;
}

struct span post_pairs(struct post_reader *r, struct span text, struct arena *arena) {
  return how_much_below(r, numbered_pairs(r, text, arena), arena);
}
