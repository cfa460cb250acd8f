/* The clock and the terminal: asked here and nowhere else. */
#define _POSIX_C_SOURCE 200809L
#include <stdlib.h>
#include <sys/ioctl.h>
#include <time.h>
#include <unistd.h>

#include "cli/system.h"

enum { USUAL_WIDTH = 80, LEAST_WIDTH = 60, MOST_WIDTH = 160 };

/* ---- date ---- */

static int days_in_month(int year, int month) {
  static const int DAYS[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return DAYS[month - 1] + (month == 2 && leap);
}

static int digits(const char *p, int n) {
  int x = 0;
  for (int i = 0; i < n; i++) {
    if (p[i] < '0' || p[i] > '9') return -1;
    x = x * 10 + (p[i] - '0');
  }
  return x;
}

static bool read_date(const char *text, struct date *out) {
  if (strlen(text) != 10 || text[4] != '-' || text[7] != '-') return false;
  struct date d = {digits(text, 4), digits(text + 5, 2), digits(text + 8, 2)};
  if (d.year < 1900 || d.month < 1 || d.month > 12 || d.day < 1 || d.day > days_in_month(d.year, d.month)) return false;
  *out = d;
  return true;
}

int today(struct date *out) {
  const char *set = getenv("BOWLWRIGHT_TODAY");
  if (set && set[0]) {
    if (read_date(set, out)) return EXIT_COMPUTED;
    complain("BOWLWRIGHT_TODAY is '%s'; it should be a date such as 2026-11-02", set);
    return EXIT_USAGE;
  }
  struct tm local;
  time_t now = time(NULL);
  tzset();
  if (now == (time_t)-1 || !localtime_r(&now, &local)) {
    complain("the clock cannot be read");
    return EXIT_TROUBLE;
  }
  *out = (struct date){local.tm_year + 1900, local.tm_mon + 1, local.tm_mday};
  return EXIT_COMPUTED;
}

/* ---- terminal ---- */

static const char *set_variable(const char *name) {
  const char *value = getenv(name);
  return value && value[0] ? value : NULL;
}

static int width(bool terminal) {
  struct winsize size;
  int columns = 0;
  if (terminal && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0) columns = size.ws_col;
  const char *set = set_variable("COLUMNS");
  double x = 0;
  if (columns == 0 && set && num_parse(span_of(set), &x) && x >= LEAST_WIDTH && x <= MOST_WIDTH) columns = (int)x;
  if (columns == 0) columns = USUAL_WIDTH;
  return columns < LEAST_WIDTH ? LEAST_WIDTH : columns > MOST_WIDTH ? MOST_WIDTH : columns;
}

/* The first of these that is set decides, as it does for the C library. */
static bool speaks_utf8(void) {
  const char *locale = set_variable("LC_ALL");
  if (!locale) locale = set_variable("LC_CTYPE");
  if (!locale) locale = set_variable("LANG");
  struct span rest = span_of(locale ? locale : "");
  for (; rest.n > 0; rest = span_cut(rest, 1, rest.n))
    if (span_starts_fold(rest, "utf-8") || span_starts_fold(rest, "utf8")) return true;
  return false;
}

struct report_style terminal_style(const struct options *o) {
  bool terminal = isatty(STDOUT_FILENO) == 1;
  const char *kind = set_variable("TERM");
  bool colours = terminal && !set_variable("NO_COLOR") && kind && strcmp(kind, "dumb") != 0;
  return (struct report_style){.width = o->width ? o->width : width(terminal),
                               .colour = colours && !o->plain,
                               .unicode = speaks_utf8() && !o->plain && !(kind && strcmp(kind, "dumb") == 0),
                               .all = o->all};
}
