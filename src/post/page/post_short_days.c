/* What a whole text is read for before its lines are: days written with two letters, days that are as another one, and the
 * prices of a receipt. */
#include "post/page/post_page.h"

/* The day of two letters that stands at 'at' by itself, as it is written with three; NULL. */
static const char *short_day(struct span text, size_t at) {
  if (at + 2 > text.n || (at > 0 && post_is_letter(text.p[at - 1]))) return NULL;
  if (at + 2 < text.n && (post_is_letter(text.p[at + 2]) || text.p[at + 2] == '\'')) return NULL;
  struct span word = span_cut(text, at, at + 2);
  if (span_is_fold(word, "do") || span_is_fold(word, "so")) { /* English words, too: "Do = Di" */
    size_t behind = at + 2;
    while (behind < text.n && text.p[behind] == ' ') behind++;
    if (behind == text.n || (text.p[behind] != '=' && text.p[behind] != ':')) return NULL;
  }
  return means_as(word, CLASS_SHORT_DAY);
}

static bool begins_line(struct span text, size_t at) {
  enum { MOST_BEFORE = 40 }; /* blanks and bullets: more are no list's */
  size_t from = at;
  while (at > 0 && from - at < MOST_BEFORE && (text.p[at - 1] == ' ' || text.p[at - 1] == '-' || text.p[at - 1] == '*'))
    at--;
  return at == 0 || text.p[at - 1] == '\n' || text.p[at - 1] == 0x1F;
}

/* "Tu and Fr", "Mo, We": beside another day. */
static bool joins_days(struct span text, size_t at) {
  enum { BETWEEN_DAYS = 40 };
  size_t before = at;
  while (before > 0 && at - before < BETWEEN_DAYS &&
         (text.p[before - 1] == ' ' || text.p[before - 1] == ',' || text.p[before - 1] == '&'))
    before--;
  if (before >= 3 && span_is_fold(span_cut(text, before - 3, before), "and")) before -= 3;
  while (before > 0 && at - before < BETWEEN_DAYS && (text.p[before - 1] == ' ' || text.p[before - 1] == ',')) before--;
  if (before >= 2 && before < at && short_day(text, before - 2)) return true;
  size_t behind = at + 2;
  while (behind < text.n && (text.p[behind] == ' ' || text.p[behind] == ',' || text.p[behind] == '&')) behind++;
  if (behind > at + 2 && span_starts_fold(span_cut(text, behind, text.n), "and ")) behind += 4;
  return behind > at + 2 && short_day(text, behind) != NULL;
}

/* "M ...", "T ...", "W ...", "T ...", "F ...": lines that begin with the letters of the days in their order; the offsets of
 * the letters, and how many. */
static size_t letters_of_days(struct span text, size_t at[7]) {
  static const char LETTERS[] = "MTWTFSS";
  enum { WORKING_DAYS = 5 };
  size_t count = 0;
  for (size_t i = 0; i + 1 < text.n && count < 7; i++) {
    if (!begins_line(text, i) || text.p[i] == ' ' || text.p[i] == '\n' || text.p[i] == '-' || text.p[i] == '*') continue;
    bool alone = text.p[i + 1] == ' ' || text.p[i + 1] == ':' || text.p[i + 1] == '-' || text.p[i + 1] == '.';
    bool day = alone && text.p[i] == LETTERS[count];
    if (day)
      at[count++] = i;
    else if (count > 0 && count < WORKING_DAYS)
      count = 0;
    else if (count >= WORKING_DAYS)
      break;
    while (i + 1 < text.n && text.p[i + 1] != '\n') i++;
  }
  return count >= WORKING_DAYS ? count : 0;
}

static struct span with_days(struct span text, const size_t at[7], size_t count, struct arena *arena) {
  static const char *const NAME[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
  struct buf b;
  buf_init(&b, arena, text.n + 5 * count + 2);
  for (size_t i = 0, k = 0; i < text.n; i++) {
    static const char SURE[] = "MWFTS"; /* "same as W"; "T = T" is as on Tuesday, "S = S" as on Saturday */
    const char *sure = memchr(SURE, text.p[i], 5);
    bool equals = i > 3 && span_is_fold(span_cut(text, i - 2, i), "= ");
    bool named = sure && i > 3 && (equals || (sure < SURE + 3 && span_is_fold(span_cut(text, i - 3, i), "as "))) &&
                 !post_is_letter(text.p[i + 1 < text.n ? i + 1 : i - 1]);
    if (named && !(k < count && i == at[k])) {
      buf_adds(&b, NAME[*sure == 'T' ? 1 : *sure == 'S' ? 5 : 2 * (sure - SURE)]);
      continue;
    }
    if (k == count || i != at[k]) {
      buf_addc(&b, text.p[i]);
      continue;
    }
    buf_adds(&b, NAME[k++]);
    if (text.p[i + 1] == ' ') buf_addc(&b, ':');
  }
  return buf_span(&b);
}

/* The day at the front of a piece of a line, and how many bytes; 0. */
static size_t day_at(struct span s, struct span *day) {
  size_t n = 0;
  while (n < s.n && post_is_letter(s.p[n])) n++;
  const char *two = n == 2 ? short_day(s, 0) : NULL;
  *day = two ? span_of(two) : span_cut(s, 0, n);
  return n > 2 && !is_a(*day, CLASS_DAY_OF_WEEK) ? 0 : two || n > 2 ? n : 0;
}

static size_t past_blanks(struct span s, size_t at, const char *marks) {
  while (at < s.n && strchr(marks, s.p[at])) at++;
  return at;
}

/* "Th = Mo", "Wed like Mon" as "Thu same as Mon"; false where the line is none of these. */
static bool write_alike(struct span line, struct buf *b) {
  static const struct span SAME[] = {SPAN_LIT("="), SPAN_LIT("like ")};
  size_t at = past_blanks(line, 0, " -*");
  struct span day, other;
  size_t used = day_at(span_cut(line, at, line.n), &day);
  if (used == 0) return false;
  at = past_blanks(line, at + used, " :-");
  for (size_t i = 0; i < COUNT_OF(SAME); i++) {
    struct span rest = span_cut(line, at, line.n);
    if (rest.n < SAME[i].n || !span_eq_fold(span_cut(rest, 0, SAME[i].n), SAME[i])) continue;
    size_t from = past_blanks(rest, SAME[i].n, " ");
    used = day_at(span_cut(rest, from, rest.n), &other);
    if (used == 0) return false;
    buf_addf(b, "%.*s same as %.*s%.*s", SPAN_ARG(day), SPAN_ARG(other), SPAN_ARG(span_cut(rest, from + used, rest.n)));
    return true;
  }
  return false;
}

static struct span days_alike(struct span text, struct arena *arena) {
  struct buf b;
  struct span line;
  bool any = false;
  buf_init(&b, arena, 2 * text.n + 400);
  for (struct lines lines = lines_of(text); lines_next(&lines, &line);) {
    bool alike = write_alike(line, &b);
    if (!alike) buf_add(&b, line);
    buf_addc(&b, '\n');
    any = any || alike;
  }
  return any ? buf_span(&b) : text;
}

static struct span short_days(struct span text, struct arena *arena) {
  size_t letter[7], letters = letters_of_days(text, letter);
  if (letters > 0) text = with_days(text, letter, letters, arena);
  enum { ENOUGH = 4 };
  const char *seen[7] = {NULL};
  size_t count = 0;
  for (size_t i = 0; i < text.n; i++) {
    const char *day = short_day(text, i);
    if (day && !begins_line(text, i)) day = NULL;
    for (size_t k = 0; day && k < count; k++)
      if (strcmp(seen[k], day) == 0) day = NULL;
    if (day && count < COUNT_OF(seen)) seen[count++] = day;
  }
  if (count < ENOUGH) return text;
  struct buf b;
  buf_init(&b, arena, 2 * text.n + 8);
  for (size_t i = 0; i < text.n; i++) {
    const char *day = short_day(text, i);
    if (!day || !(begins_line(text, i) || joins_days(text, i))) {
      buf_addc(&b, text.p[i]);
      continue;
    }
    buf_adds(&b, day);
    if (begins_line(text, i) && i + 2 < text.n && text.p[i + 2] == ' ') buf_addc(&b, ':');
    i++;
  }
  return buf_span(&b);
}

struct span post_short_days(struct span text, struct arena *arena) {
  return days_alike(short_days(text, arena), arena);
}

/* Where a price ends the line, "Carrots 700g   0.49": its first byte; line.n where none does. */
static size_t price_at(struct span line) {
  size_t end = line.n, at;
  while (end > 0 && (line.p[end - 1] == ' ' || line.p[end - 1] == '\t' || line.p[end - 1] == '\r')) end--;
  for (at = end; at > 0 && ((line.p[at - 1] >= '0' && line.p[at - 1] <= '9') || line.p[at - 1] == '.'); at--) {
  }
  bool cents = end >= at + 4 && line.p[end - 3] == '.' && memchr(line.p + at, '.', end - at) == line.p + end - 3;
  size_t blank = at;
  while (blank > 0 && (line.p[blank - 1] == ' ' || line.p[blank - 1] == '\t')) blank--;
  bool apart = at >= blank + 2 || (at > blank && line.p[at - 1] == '\t');
  bool amount = false; /* "1.4kg": a weight stands before it */
  for (size_t i = 0; i + 1 < blank; i++)
    amount = amount || (line.p[i] >= '0' && line.p[i] <= '9' &&
                        (line.p[i + 1] == 'g' || line.p[i + 1] == 'k' || line.p[i + 1] == 'm'));
  return cents && apart && amount ? blank : line.n;
}

struct span post_without_prices(struct span text, struct arena *arena) {
  enum { ENOUGH = 2 };
  struct lines lines = lines_of(text);
  struct span line;
  size_t prices = 0;
  while (lines_next(&lines, &line)) prices += price_at(line) < line.n;
  if (prices < ENOUGH) return text;
  struct buf b;
  buf_init(&b, arena, text.n + 2);
  for (lines = lines_of(text); lines_next(&lines, &line);)
    buf_addf(&b, "%.*s\n", SPAN_ARG(span_cut(line, 0, price_at(line))));
  return buf_span(&b);
}
