/* Diaries that date their entries: days one after the other take turns; of entries further apart the later ones change the
 * earlier. Both are found in the whole text, before its lines are read. */
#include "base/num.h"
#include "post/whole/post_whole.h"

/* "2 Feb -", "Feb 2nd:", "2/2:" at the front of a line: how many bytes, with the day of the year that it is; 0. */
static size_t date_of_line(struct span line, struct arena *arena, int *day) {
  static const int BEFORE_MONTH[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
  struct tokens t = tokens_of(span_cut(line, 0, line.n < 40 ? line.n : 40), arena);
  size_t at = 0;
  while (at < t.count && (is_mark(&t, at, '-') || is_mark(&t, at, '*'))) at++;
  const char *month = NULL;
  double date = 0;
  size_t end = at;
  if (is_number(&t, at) && meaning_at(&t, at + 1, CLASS_MONTH_NUMBER, &month) > 0)
    date = t.item[at].value, end = at + 2;
  else if (meaning_at(&t, at, CLASS_MONTH_NUMBER, &month) > 0 && is_number(&t, at + 1))
    date = t.item[at + 1].value, end = at + 2;
  double number;
  if (end == at || !num_parse(span_of(month), &number) || !(date >= 1 && date <= 31)) return 0;
  if (says(&t, end, "st nd rd th")) end++;
  while (is_mark(&t, end, '(') || is_mark(&t, end, ')') || says(&t, end, "today yesterday now")) end++;
  if (!(is_mark(&t, end, '-') || is_mark(&t, end, ':'))) return 0;
  *day = BEFORE_MONTH[(int)number - 1] + (int)date;
  return (size_t)(t.item[end].at.p + t.item[end].at.n - line.p);
}

enum { ENTRIES_MOST = 31 };

struct span post_dated(struct post_reader *r, struct span text, struct arena *arena) {
  struct lines lines = lines_of(text);
  struct span line;
  int day[ENTRIES_MOST];
  size_t count = 0;
  bool one_by_one = true;
  while (lines_next(&lines, &line) && count < ENTRIES_MOST) {
    if (date_of_line(line, r->arena, &day[count]) == 0) continue;
    if (count > 0 && day[count] != day[count - 1] + 1) one_by_one = false;
    count++;
  }
  if (count < 2) return text;
  struct buf b;
  size_t entry = 0;
  buf_init(&b, arena, text.n + 12 * count + 8);
  for (lines = lines_of(text); lines_next(&lines, &line);) {
    int of = 0;
    size_t used = date_of_line(line, r->arena, &of);
    if (used > 0 && one_by_one)
      buf_addf(&b, "Day %d:", (int)++entry);
    else if (used > 0 && r->entries < COUNT_OF(r->entry_line))
      r->entry_line[r->entries++] = lines.number;
    buf_addf(&b, "%.*s\n", SPAN_ARG(span_cut(line, used, line.n)));
  }
  return buf_span(&b);
}

/* "At weekends cod": then "during the week" is from Monday to Friday. */
struct span post_weekdays(struct span text, struct arena *arena) {
  static const struct span SAID = SPAN_LIT("during the week");
  if (!span_holds_fold(text, SPAN_LIT("weekend")) || !span_holds_fold(text, SAID)) return text;
  struct buf b;
  buf_init(&b, arena, text.n + 8);
  for (size_t i = 0; i < text.n;) {
    bool here = span_starts_fold(span_cut(text, i, text.n), "during the week") &&
                !(i + SAID.n < text.n && post_is_letter(text.p[i + SAID.n]));
    if (here)
      buf_adds(&b, "on weekdays");
    else
      buf_addc(&b, text.p[i]);
    i += here ? SAID.n : 1;
  }
  return buf_span(&b);
}

static size_t entry_of(const struct post_reader *r, int line) {
  size_t entry = 0;
  while (entry < r->entries && r->entry_line[entry] <= line) entry++;
  return entry;
}

bool post_restate(struct post_reader *r, size_t old, size_t now) {
  struct item *was = &r->item[old], *is = &r->item[now];
  struct tokens a = post_tokens(r, span_of(was->text)), b = post_tokens(r, span_of(is->text));
  struct post_amount before = post_amount_at(&a, 0), amount = post_amount_at(&b, 0);
  if (before.tokens == 0 || amount.tokens == 0 || before.tokens >= a.count) return false;
  struct buf text;
  buf_init(&text, r->keep, strlen(was->text) + 60);
  amount_write(&text, &amount, 1);
  buf_addf(&text, " %s", a.item[before.tokens].at.p);
  was->text = buf_text(&text);
  was->grams = is->grams;
  is->kind = ITEM_GONE;
  return true;
}

/* A food that a later entry tells anew has the amount of that one. */
void post_settle_entries(struct post_reader *r) {
  for (size_t now = 0; now < r->count && r->entries > 1; now++) {
    size_t entry = entry_of(r, r->item[now].line);
    struct tokens words = post_tokens(r, r->item[now].words);
    if (r->item[now].kind != ITEM_FOOD || entry < 2 || words.count == 0) continue;
    struct span head = words.item[words.count - 1].word;
    for (size_t old = 0; old < now; old++) {
      if (r->item[old].kind != ITEM_FOOD || entry_of(r, r->item[old].line) >= entry || entry_of(r, r->item[old].line) == 0)
        continue;
      bool same = r->item[old].food == r->item[now].food || span_holds_fold(r->item[old].words, head);
      if (same && post_restate(r, old, now)) {
        post_doubt(r, old, "the amount of the last entry that tells one");
        break;
      }
    }
  }
}
