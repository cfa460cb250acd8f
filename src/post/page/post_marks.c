/* What people put between a food and its amount, and what stands glued to it: "beef.....200g", "beef-200g", "1lb4oz", "1#",
 * "two-thirds of a tsp", "between 30 and 40 g", "1 - 300 g beef" of a numbered list. Each becomes what the readers know. The
 * number of lines stays, and no look around is longer than a word or a line's number. */
#include "base/num.h"
#include "post/page/post_page.h"

enum { LOOK = 24 }; /* bytes around a mark: words are shorter */

static bool is_digit_byte(char c) { return c >= '0' && c <= '9'; }
static char byte_at(struct span s, size_t at) { return at < s.n ? s.p[at] : '\n'; }
static size_t past_blanks(struct span s, size_t at) {
  while (at < s.n && (s.p[at] == ' ' || s.p[at] == '\t')) at++;
  return at;
}

/* The letters that end before 'at' and those that begin there. */
static struct span letters_before(struct span s, size_t at) {
  size_t from = at;
  while (from > 0 && at - from < LOOK && post_is_letter(s.p[from - 1])) from--;
  return span_cut(s, from, at);
}
static struct span letters_from(struct span s, size_t at) {
  size_t to = at;
  while (to < s.n && to - at < LOOK && post_is_letter(s.p[to])) to++;
  return span_cut(s, at, to);
}

/* The number at 'at', in digits with at most one point, and its unit behind it: where both end; 0. */
static size_t past_number(struct span s, size_t at) {
  size_t to = at;
  bool point = false;
  while (to < s.n && to - at < LOOK &&
         (is_digit_byte(s.p[to]) || (!point && s.p[to] == '.' && is_digit_byte(byte_at(s, to + 1))))) {
    point = point || s.p[to] == '.';
    to++;
  }
  return to > at ? to : 0;
}
static bool small_is_unit(struct span word) {
  char small[LOOK];
  if (word.n == 0 || word.n >= LOOK) return false;
  for (size_t i = 0; i < word.n; i++) small[i] = (char)(word.p[i] | 0x20);
  return means_as((struct span){small, word.n}, CLASS_UNIT) != NULL;
}
static bool is_small(struct span word, enum post_class c) {
  char small[LOOK];
  if (word.n == 0 || word.n >= LOOK) return false;
  for (size_t i = 0; i < word.n; i++) small[i] = (char)(word.p[i] | 0x20);
  return is_a((struct span){small, word.n}, c);
}
static bool amount_begins(struct span s, size_t at) {
  size_t end = past_number(s, at);
  if (end == 0) return false;
  end = past_blanks(s, end);
  return byte_at(s, end) == '%' || small_is_unit(letters_from(s, end));
}

/* "beef.....200g", "chicken ... 200 g": dots that lead the eye from a food to its amount. And "beef.200g": one that is no
 * decimal point. How many bytes were taken. */
static size_t take_dots(struct span s, size_t at, struct buf *out) {
  size_t dots = at;
  for (;;) {
    if (byte_at(s, dots) == '.')
      dots++;
    else if (dots + 2 < s.n && memcmp(s.p + dots, "\xE2\x80\xA6", 3) == 0)
      dots += 3;
    else
      break;
  }
  if (dots == at) return 0;
  size_t next = past_blanks(s, dots), before = at;
  while (before > 0 && at - before < LOOK && s.p[before - 1] == ' ') before--;
  char last = before > 0 ? s.p[before - 1] : '\n';
  bool word = post_is_letter(last) || last == ')' || (unsigned char)last >= 0x80;
  bool leads = dots - at >= 2, figure = is_digit_byte(byte_at(s, next)) || byte_at(s, next) == '~';
  if (!word || !figure || (!leads && (next != dots || before != at || !amount_begins(s, next)))) {
    buf_add(out, span_cut(s, at, dots)); /* none of them is looked at again */
    return dots - at;
  }
  struct span short_form = letters_before(s, at);
  bool about = is_small(short_form, CLASS_ABOUT) || is_small(short_form, CLASS_SHORT_FORM);
  if (leads)
    buf_adds(out, about ? " " : ": ");
  else { /* "200g beef.50g rice" are two, "beef.50g" is one */
    size_t from = at;
    bool amount = false;
    while (from > 0 && at - from < 2 * LOOK && s.p[from - 1] != '\n' && s.p[from - 1] != ',') {
      amount = amount || is_digit_byte(s.p[from - 1]);
      from--;
    }
    buf_adds(out, amount && !about ? ", " : " ");
  }
  return next - at;
}

static size_t dash_bytes(struct span s, size_t at) {
  if (byte_at(s, at) == '-') return 1;
  bool wide = at + 2 < s.n && s.p[at] == '\xE2' && s.p[at + 1] == '\x80' && (s.p[at + 2] & 0xFF) >= 0x90 &&
              (s.p[at + 2] & 0xFF) <= 0x95;
  return wide ? 3 : 0;
}

/* "beef-200g", "liver(lamb)-10g", "eggs-2": a hyphen between a food and its amount; not "omega-3", "vitamin B-12 mcg". */
static size_t take_hyphen(struct span s, size_t at, struct buf *out) {
  size_t dash = dash_bytes(s, at);
  if (dash == 0 || at == 0 || !is_digit_byte(byte_at(s, at + dash))) return 0;
  struct span word = letters_before(s, at);
  bool bracket = s.p[at - 1] == ')';
  if (!bracket && (word.n < 3 || is_small(word, CLASS_NUMBERED_NAME) || small_is_unit(word))) return 0;
  size_t end = past_number(s, at + dash), last = past_blanks(s, end);
  bool ends = last >= s.n || memchr(",;\r\n", s.p[last], 4) != NULL;
  if (!amount_begins(s, at + dash) && !ends) return 0;
  buf_adds(out, ": ");
  return dash;
}

/* "1lb4oz", "1kg200g": two weights that stand together; and "1#", a pound. Behind the digits at 'at'. */
static size_t take_glued(struct span s, size_t at, struct buf *out) {
  size_t end = past_number(s, at);
  if (end == 0 || (at > 0 && (post_is_letter(s.p[at - 1]) || is_digit_byte(s.p[at - 1]) || s.p[at - 1] == '.'))) return 0;
  if (byte_at(s, end) == '#' && !is_digit_byte(byte_at(s, end + 1))) {
    buf_add(out, span_cut(s, at, end));
    buf_adds(out, " lb ");
    return end + 1 - at;
  }
  struct span unit = letters_from(s, end);
  char small[LOOK] = "";
  for (size_t i = 0; i < unit.n && i + 1 < LOOK; i++) small[i] = (char)(unit.p[i] | 0x20);
  if (!word_in(span_of(small), "lb lbs kg") || !is_digit_byte(byte_at(s, end + unit.n))) return 0;
  buf_add(out, span_cut(s, at, end + unit.n));
  buf_addc(out, ' ');
  return end + unit.n - at;
}

/* "two-thirds of a tsp", "three quarters of a cup": the part of a measure. */
static size_t take_part(struct span s, size_t at, struct buf *out) {
  const char *means;
  if (at > 0 && (post_is_letter(s.p[at - 1]) || s.p[at - 1] == '-')) return 0;
  size_t end = at + text_begins(span_cut(s, at, s.n), CLASS_PART_OF_MEASURE, &means);
  if (end == at || post_is_letter(byte_at(s, end))) return 0;
  size_t next = past_blanks(s, end);
  struct span rest = span_cut(s, next, s.n);
  if (span_starts_fold(rest, "of a "))
    next += 5;
  else if (span_starts_fold(rest, "of an "))
    next += 6;
  if (!small_is_unit(letters_from(s, next))) return 0;
  buf_addf(out, "%s ", means);
  return next - at;
}

/* "between 30 and 40 g": a range. */
static size_t take_between(struct span s, size_t at, struct buf *out) {
  static const char BETWEEN[] = "between ";
  double low, high;
  if ((s.p[at] | 0x20) != 'b' || !span_starts_fold(span_cut(s, at, s.n), BETWEEN)) return 0;
  if (at > 0 && post_is_letter(s.p[at - 1])) return 0;
  size_t from = past_blanks(s, at + sizeof BETWEEN - 1), end = past_number(s, from);
  if (end == 0 || !num_parse(span_cut(s, from, end), &low)) return 0;
  size_t and = past_blanks(s, end);
  struct span unit = letters_from(s, and);
  if (!span_is_fold(unit, "and") && small_is_unit(unit)) and = past_blanks(s, and+unit.n);
  if (!span_starts_fold(span_cut(s, and, s.n), "and ")) return 0;
  size_t second = past_blanks(s, and+4), last = past_number(s, second);
  if (last == 0 || !num_parse(span_cut(s, second, last), &high) || !(low < high) || !amount_begins(s, second)) return 0;
  buf_add(out, span_cut(s, from, end));
  buf_addc(out, '-');
  return second - at;
}

/* "200g beef x 2 meals", "2 eggs x 3 days a week": how often, in the words that the readers know. */
static size_t take_times(struct span s, size_t at, struct buf *out) {
  bool wide = at + 1 < s.n && memcmp(s.p + at, "\xC3\x97", 2) == 0;
  if (!wide && (s.p[at] | 0x20) != 'x') return 0;
  if (at == 0 || (!wide && s.p[at - 1] != ' ')) return 0;
  size_t from = past_blanks(s, at + (wide ? 2 : 1)), end = past_number(s, from), word = past_blanks(s, end);
  if (end == 0) return 0;
  struct span what = letters_from(s, word), number = span_cut(s, from, end);
  size_t behind = past_blanks(s, word + what.n);
  struct span rest = span_cut(s, behind, s.n);
  if (is_small(what, CLASS_EACH_PORTION) || span_is_fold(what, "meals") || span_is_fold(what, "feeds")) {
    buf_addf(out, ", %.*s times a day", SPAN_ARG(number));
    size_t day = span_starts_fold(rest, "a day")     ? 5
                 : span_starts_fold(rest, "per day") ? 7
                 : span_starts_fold(rest, "daily")   ? 5
                                                     : 0;
    return (day > 0 ? behind + day : word + what.n) - at;
  }
  bool week = span_starts_fold(rest, "a week") || span_starts_fold(rest, "per week") || span_starts_fold(rest, "/week");
  if (!span_is_fold(what, "days") || !week) return 0;
  buf_addf(out, ", %.*s days", SPAN_ARG(number));
  return word + what.n - at;
}

/* ---- numbered lists whose numbers could be amounts ---- */

struct numbered {
  unsigned value; /* of the line's first number; 0 none */
  size_t end;     /* behind the dash */
  bool apart;     /* blanks around the dash: less of a range */
  double next;    /* the number behind it; 0 */
};

static struct numbered numbered_line(struct span line) {
  struct numbered n = {0};
  size_t at = past_blanks(line, 0), digits = at;
  while (digits < line.n && digits - at < 2 && is_digit_byte(line.p[digits]))
    n.value = n.value * 10 + (unsigned)(line.p[digits++] - '0');
  size_t dash = past_blanks(line, digits), used = dash_bytes(line, dash);
  if (digits == at || used == 0) return (struct numbered){0};
  n.end = past_blanks(line, dash + used);
  n.apart = dash > digits && n.end > dash + used;
  size_t end = past_number(line, n.end);
  if (end > 0 && !num_parse(span_cut(line, n.end, end), &n.next)) n.next = 0;
  return n;
}

/* Do lines from here on count 1, 2, 3 with a dash behind, so that not all of them can be ranges? How many lines. */
static size_t lines_that_count(struct span text) {
  static const double HARDLY_A_RANGE = 5; /* times as much: "1 - 300 g" */
  size_t count = 0;
  bool no_range = false;
  for (struct span rest = text, line; rest.n > 0; count++) {
    line = span_piece(&rest, '\n');
    struct numbered n = numbered_line(line);
    if (n.value != count + 1) break;
    no_range = no_range || !(n.next > n.value) || n.next > HARDLY_A_RANGE * n.value;
  }
  return count >= 2 && no_range ? count : 0;
}

/* "rabbit w/ bone", "1 date w/o the stone": a part of the food that is with it, or without. */
static size_t take_with(struct span s, size_t at, struct buf *out) {
  static const char *const PART[] = {"bone",  "bones",  "skin", "skins", "shell", "shells", "fat",  "organs",
                                     "stone", "stones", "pit",  "pits",  "core",  "peel",   "seeds"};
  if ((s.p[at] | 0x20) != 'w' || byte_at(s, at + 1) != '/' || (at > 0 && post_is_letter(s.p[at - 1]))) return 0;
  bool without = (byte_at(s, at + 2) | 0x20) == 'o' && byte_at(s, at + 3) == ' ';
  size_t from = past_blanks(s, at + (without ? 3 : 2));
  if (without && span_starts_fold(span_cut(s, from, s.n), "the ")) from += 4;
  for (size_t i = 0; i < COUNT_OF(PART); i++) {
    if (!span_is_fold(letters_from(s, from), PART[i])) continue;
    buf_adds(out, without ? "without " : "with ");
    return from - at;
  }
  return 0;
}

/* "A.M. 200 g tripe. P.M. ...", "at 6 p.m. with peas": the stops end no sentence; where it begins one it heads what follows.
 */
static size_t take_am_pm(struct span s, size_t at, struct buf *out) {
  char half = (char)(s.p[at] | 0x20);
  bool inside = at > 0 && (post_is_letter(s.p[at - 1]) || s.p[at - 1] == '.');
  if ((half != 'a' && half != 'p') || inside || byte_at(s, at + 1) != '.' || (byte_at(s, at + 2) | 0x20) != 'm') return 0;
  if (byte_at(s, at + 3) != '.' && post_is_letter(byte_at(s, at + 3))) return 0;
  size_t before = at, end = byte_at(s, at + 3) == '.' ? at + 4 : at + 3, next = past_blanks(s, end);
  while (before > 0 && at - before < LOOK && s.p[before - 1] == ' ') before--;
  bool begins = before == 0 || s.p[before - 1] == '\n' || s.p[before - 1] == '.';
  char then = byte_at(s, next);
  buf_addf(out, "%cm", half);
  if (begins && (post_is_letter(then) || is_digit_byte(then)))
    buf_addc(out, ':');
  else if (end == at + 4 && (then == '\n' || (then >= 'A' && then <= 'Z')))
    buf_addc(out, '.');
  return end - at;
}

/* "~ turkey thigh 85 g" on three lines or more: a bullet, and no "about". */
static bool has_wavy_bullets(struct span text) {
  size_t lines = 0;
  for (size_t i = 0; i + 1 < text.n; i++)
    lines += (i == 0 || text.p[i - 1] == '\n') && text.p[i] == '~' && text.p[i + 1] == ' ';
  return lines >= 3;
}

struct span post_marks(struct span text, struct arena *arena) {
  bool wavy = has_wavy_bullets(text);
  struct buf b;
  size_t counted = 0;
  buf_init(&b, arena, 4 * text.n + 16);
  for (size_t i = 0; i < text.n;) {
    if (i == 0 || text.p[i - 1] == '\n') {
      struct numbered n = numbered_line(span_cut(text, i, i + 3 * LOOK < text.n ? i + 3 * LOOK : text.n));
      if (counted > 0)
        counted--;
      else if (n.value == 1)
        counted = lines_that_count(span_cut(text, i, text.n));
      if (counted > 0) {
        i += n.end;
        continue;
      }
    }
    char now = text.p[i];
    size_t used = 0;
    if (wavy && now == '~' && (i == 0 || text.p[i - 1] == '\n')) {
      buf_addc(&b, '-');
      i++;
      continue;
    }
    if (now == '.' || now == '\xE2') used = take_dots(text, i, &b);
    if (used == 0 && (now == '-' || now == '\xE2')) used = take_hyphen(text, i, &b);
    if (used == 0 && is_digit_byte(now)) used = take_glued(text, i, &b);
    if (used == 0 && (now == 'x' || now == 'X' || now == '\xC3')) used = take_times(text, i, &b);
    if (used == 0 && (now == 'w' || now == 'W')) used = take_with(text, i, &b);
    if (used == 0 && (now == 'a' || now == 'A' || now == 'p' || now == 'P')) used = take_am_pm(text, i, &b);
    if (used == 0 && post_is_letter(now)) used = take_part(text, i, &b);
    if (used == 0 && post_is_letter(now)) used = take_between(text, i, &b);
    if (used == 0) buf_addc(&b, text.p[i]);
    i += used > 0 ? used : 1;
  }
  return buf_span(&b);
}
