/* Days written with two letters. */
#include "post/post_parts.h"

/* The day of two letters that stands at 'at' by itself, as it is written with three; NULL. */
static const char *short_day(struct span text, size_t at) {
  if (at + 2 > text.n || (at > 0 && post_is_letter(text.p[at - 1]))) return NULL;
  if (at + 2 < text.n && (post_is_letter(text.p[at + 2]) || text.p[at + 2] == '\'')) return NULL;
  char small[2] = {(char)(text.p[at] | 0x20), (char)(text.p[at + 1] | 0x20)};
  return means_as((struct span){small, 2}, CLASS_SHORT_DAY);
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
  if (before >= 2 && before < at && short_day(text, before - 2)) return true;
  size_t behind = at + 2;
  while (behind < text.n && (text.p[behind] == ' ' || text.p[behind] == ',' || text.p[behind] == '&')) behind++;
  if (behind > at + 2 && span_starts_fold(span_cut(text, behind, text.n), "and ")) behind += 4;
  return behind > at + 2 && short_day(text, behind) != NULL;
}

struct span post_short_days(struct span text, struct arena *arena) {
  enum { ENOUGH = 4 };
  const char *seen[7] = {NULL};
  size_t count = 0;
  for (size_t i = 0; i < text.n; i++) {
    const char *day = begins_line(text, i) ? short_day(text, i) : NULL;
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
