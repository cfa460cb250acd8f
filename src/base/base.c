#include "base/base.h"

static int fold(char c) {
  unsigned char u = (unsigned char)c;
  return u >= 'A' && u <= 'Z' ? u + ('a' - 'A') : u;
}

bool span_eq(struct span a, struct span b) { return a.n == b.n && (a.n == 0 || memcmp(a.p, b.p, a.n) == 0); }

bool span_eq_fold(struct span a, struct span b) {
  if (a.n != b.n) return false;
  for (size_t i = 0; i < a.n; i++)
    if (fold(a.p[i]) != fold(b.p[i])) return false;
  return true;
}

/* Most texts that are compared differ in their first letter: no more than that may be said of two that agree. */
static bool may_be_same(char a, char b) { return ((a ^ b) & ~('a' ^ 'A')) == 0; }

bool span_is_fold(struct span a, const char *literal) {
  return (a.n == 0 || may_be_same(a.p[0], literal[0])) && span_eq_fold(a, span_of(literal));
}

bool span_starts_fold(struct span a, const char *literal) {
  if (a.n > 0 && literal[0] && !may_be_same(a.p[0], literal[0])) return false;
  size_t n = strlen(literal);
  return a.n >= n && span_eq_fold(span_cut(a, 0, n), (struct span){literal, n});
}

bool span_holds_fold(struct span text, struct span words) {
  if (words.n == 0) return true;
  for (size_t i = 0; i + words.n <= text.n; i++)
    if (may_be_same(text.p[i], words.p[0]) && span_eq_fold(span_cut(text, i, i + words.n), words)) return true;
  return false;
}

struct span span_piece(struct span *rest, char mark) {
  const char *hit = rest->n > 0 ? memchr(rest->p, mark, rest->n) : NULL;
  size_t n = hit ? (size_t)(hit - rest->p) : rest->n;
  struct span piece = span_cut(*rest, 0, n);
  *rest = span_cut(*rest, hit ? n + 1 : n, rest->n);
  return piece;
}

static bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r'; }

struct span span_trim(struct span s) {
  while (s.n > 0 && is_blank(s.p[0])) {
    s.p++;
    s.n--;
  }
  while (s.n > 0 && is_blank(s.p[s.n - 1])) s.n--;
  return s;
}

enum { LONGEST_WORD = 64 };

static int min3(int a, int b, int c) {
  int m = a < b ? a : b;
  return m < c ? m : c;
}

/* Only what lies within 'most' of the diagonal can be near: cells beside it count as too far. */
int span_distance(struct span a, struct span b, int most) {
  int row[3][LONGEST_WORD + 2];
  char x[LONGEST_WORD + 1] = "", y[LONGEST_WORD + 1] = "";
  if (a.n > LONGEST_WORD || b.n > LONGEST_WORD) return most + 1;
  int n = (int)a.n, m = (int)b.n;
  if (n - m > most || m - n > most) return most + 1;
  for (int i = 0; i < n; i++) x[i] = (char)fold(a.p[i]);
  for (int j = 0; j < m; j++) y[j] = (char)fold(b.p[j]);
  for (int j = 0; j <= m && j <= most + 1; j++) row[0][j] = j;
  for (int i = 1; i <= n; i++) {
    int *now = row[i % 3], *before = row[(i + 2) % 3], *two_before = row[(i + 1) % 3];
    int from = i > most + 1 ? i - most : 1, to = i + most < m ? i + most : m;
    int least = now[from - 1] = from > 1 ? most + 1 : i;
    for (int j = from; j <= to; j++) {
      now[j] = min3(before[j] + 1, now[j - 1] + 1, before[j - 1] + (x[i - 1] != y[j - 1]));
      bool swapped = i > 1 && j > 1 && x[i - 1] == y[j - 2] && x[i - 2] == y[j - 1];
      if (swapped && two_before[j - 2] + 1 < now[j]) now[j] = two_before[j - 2] + 1;
      if (now[j] < least) least = now[j];
    }
    now[to + 1] = most + 1;
    if (least > most) return most + 1;
  }
  return row[n % 3][m];
}
