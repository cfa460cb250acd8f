/* Days written with two letters. */
#include "post/post_parts.h"

static const char SHORT[7][3] = {"mo", "tu", "we", "th", "fr", "sa", "su"};
static const char LONGER[7][5] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

static bool is_letter(char c) { return (c | 0x20) >= 'a' && (c | 0x20) <= 'z'; }

/* The day that stands at 'at' by itself; -1. */
static int short_day(struct span text, size_t at) {
  if (at + 2 > text.n || (at > 0 && is_letter(text.p[at - 1]))) return -1;
  if (at + 2 < text.n && (is_letter(text.p[at + 2]) || text.p[at + 2] == '\'')) return -1;
  for (int d = 0; d < 7; d++)
    if (span_is_fold(span_cut(text, at, at + 2), SHORT[d])) return d;
  return -1;
}

static bool begins_line(struct span text, size_t at) {
  while (at > 0 && (text.p[at - 1] == ' ' || text.p[at - 1] == '-' || text.p[at - 1] == '*')) at--;
  return at == 0 || text.p[at - 1] == '\n' || text.p[at - 1] == 0x1F;
}

/* "Tu and Fr", "Mo, We": beside another day. */
static bool joins_days(struct span text, size_t at) {
  size_t before = at;
  while (before > 0 && (text.p[before - 1] == ' ' || text.p[before - 1] == ',' || text.p[before - 1] == '&')) before--;
  if (before >= 3 && span_is_fold(span_cut(text, before - 3, before), "and")) before -= 3;
  while (before > 0 && (text.p[before - 1] == ' ' || text.p[before - 1] == ',')) before--;
  if (before >= 2 && before < at && short_day(text, before - 2) >= 0) return true;
  size_t behind = at + 2;
  while (behind < text.n && (text.p[behind] == ' ' || text.p[behind] == ',' || text.p[behind] == '&')) behind++;
  if (behind > at + 2 && span_starts_fold(span_cut(text, behind, text.n), "and ")) behind += 4;
  return behind > at + 2 && short_day(text, behind) >= 0;
}

struct span post_short_days(struct span text, struct arena *arena) {
  enum { ENOUGH = 4 };
  bool seen[7] = {false};
  int count = 0;
  for (size_t i = 0; i < text.n; i++) {
    int day = begins_line(text, i) ? short_day(text, i) : -1;
    if (day < 0 || seen[day]) continue;
    seen[day] = true;
    count++;
  }
  if (count < ENOUGH) return text;
  struct buf b;
  buf_init(&b, arena, 2 * text.n + 8);
  for (size_t i = 0; i < text.n; i++) {
    int day = short_day(text, i);
    if (day < 0 || !(begins_line(text, i) || joins_days(text, i))) {
      buf_addc(&b, text.p[i]);
      continue;
    }
    buf_adds(&b, LONGER[day]);
    if (begins_line(text, i) && i + 2 < text.n && text.p[i + 2] == ' ') buf_addc(&b, ':');
    i++;
  }
  return buf_span(&b);
}
