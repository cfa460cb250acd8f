#include "text/plain.h"

#include "base/buf.h"
#include "base/num.h"
#include "text/line_parts.h"

/* "250 g (125-375 g) beef mince" */
static struct span assumed_range(struct span line) {
  const char *end = line.p + line.n, *open = line.n > 0 ? memchr(line.p, '(', line.n) : NULL;
  const char *close = open ? memchr(open, ')', (size_t)(end - open)) : NULL;
  bool is = close && open > line.p && open[-1] == ' ' && open[1] >= '0' && open[1] <= '9';
  if (!is || !memchr(open, '-', (size_t)(close - open))) return (struct span){end, 0};
  return (struct span){open - 1, (size_t)(close + 1 - (open - 1))};
}

static void add_without(struct buf *b, struct span line, struct span part) {
  const char *from = part.p, *to = part.p + part.n, *end = line.p + line.n;
  while (part.n > 0 && from > line.p && from[-1] == ' ') from--;
  buf_add(b, (struct span){line.p, (size_t)(from - line.p)});
  buf_add(b, (struct span){to, (size_t)(end - to)});
}

/* "67.5-202.5 g" -> "about 135 g" */
static const char *in_the_middle(struct span line, struct arena *arena) {
  double low, high;
  struct buf b;
  size_t n = num_read(line, &low), more = 0;
  if (n > 0 && n < line.n && line.p[n] == '-') more = num_read(span_cut(line, n + 1, line.n), &high);
  if (more == 0 || !(high > low)) return arena_text(arena, line);
  double middle = (low + high) / 2;
  buf_init(&b, arena, line.n + 40);
  buf_adds(&b, "about ");
  num_sig(&b, middle, middle < 1000 ? 3 : 4);
  buf_add(&b, span_cut(line, n + 1 + more, line.n));
  return buf_text(&b);
}

/* The mark of a list: "- 40 g herring". */
static struct span without_bullet(struct span line) {
  static const struct span BULLET[] = {{"- ", 2}, {"* ", 2}, {"\xE2\x80\xA2 ", 4}};
  for (size_t i = 0; i < COUNT_OF(BULLET); i++)
    if (line.n >= BULLET[i].n && memcmp(line.p, BULLET[i].p, BULLET[i].n) == 0) return span_cut(line, BULLET[i].n, line.n);
  return line;
}

/* "0.333333 cup peas", as a strict text has it, is "1/3 cup peas" to whoever cooks; scales show decimals. */
static const char *in_fractions(const char *line, struct arena *arena) {
  static const char *const PART[][2] = {{"0.125 ", "1/8 "}, {"0.25 ", "1/4 "},     {"0.333333 ", "1/3 "},
                                        {"0.5 ", "1/2 "},   {"0.666667 ", "2/3 "}, {"0.75 ", "3/4 "}};
  static const char *const WEIGHT[] = {"g ", "kg ", "mg ", "oz ", "lb ", "ml "};
  struct span s = span_of(line);
  for (size_t i = 0; i < COUNT_OF(PART); i++) {
    size_t n = strlen(PART[i][0]);
    if (!span_starts_fold(s, PART[i][0])) continue;
    struct span rest = span_cut(s, n, s.n);
    for (size_t k = 0; k < COUNT_OF(WEIGHT); k++)
      if (span_starts_fold(rest, WEIGHT[k])) return line;
    struct buf b;
    buf_init(&b, arena, s.n + 8);
    buf_adds(&b, PART[i][1]);
    buf_add(&b, rest);
    return buf_text(&b);
  }
  return line;
}

const char *plain_of_a_day(const char *line, struct arena *arena) {
  static const char *const DAILY[] = {", per day", ", a day", ", daily", ", each day", ", every day"};
  struct span s = span_of(line);
  for (size_t i = 0; i < COUNT_OF(DAILY); i++) {
    size_t n = strlen(DAILY[i]);
    if (s.n > n && span_is_fold(span_cut(s, s.n - n, s.n), DAILY[i])) return arena_text(arena, span_cut(s, 0, s.n - n));
  }
  return line;
}

const char *plain_line(const char *line, struct arena *arena) {
  struct line_parts parts;
  struct buf no_pin, no_range;
  line_parts_read(span_of(line), &parts);
  struct span said = without_bullet(parts.said), pin = parts.pin.n > 0 ? parts.pin : span_cut(said, said.n, said.n);
  buf_init(&no_pin, arena, said.n + 1);
  add_without(&no_pin, said, pin);
  said = buf_span(&no_pin);
  buf_init(&no_range, arena, said.n + 1);
  add_without(&no_range, said, assumed_range(said));
  return in_fractions(in_the_middle(buf_span(&no_range), arena), arena);
}

struct span plain_next_piece(struct span *rest) {
  struct span piece = *rest;
  for (size_t i = 0; i + 1 < rest->n; i++) {
    const char *mark = memchr(rest->p + i, ';', rest->n - 1 - i);
    if (!mark) break;
    i = (size_t)(mark - rest->p);
    if (rest->p[i + 1] != ' ') continue;
    piece.n = i;
    *rest = span_cut(*rest, i + 2, rest->n);
    return piece;
  }
  *rest = span_cut(*rest, rest->n, rest->n);
  return piece;
}
