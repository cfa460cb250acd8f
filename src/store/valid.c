/* What the store accepts, and what it believes of a row that it finds. */
#define _POSIX_C_SOURCE 200809L
#include <stdio.h>
#include <time.h>

#include "base/utf8.h"
#include "store/store.h"

bool store_id_fits(struct span id) {
  if (id.n < 1 || id.n > STORE_ID_MOST) return false;
  for (size_t i = 0; i < id.n; i++) {
    char c = id.p[i];
    bool fits = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-';
    if (!fits) return false;
  }
  return true;
}

bool store_kind_known(struct span kind) {
  static const char *const KINDS[] = {"recipe", "animals", "larder", "foods", "plan", "journal"};
  for (size_t i = 0; i < COUNT_OF(KINDS); i++)
    if (span_is(kind, KINDS[i])) return true;
  return false;
}

bool store_body_fits(struct span body) {
  if (body.n > STORE_BODY_MOST) return false;
  for (size_t i = 0; i < body.n;) {
    uint32_t c = 0;
    size_t n = utf8_read(span_cut(body, i, body.n), &c);
    if (n == 0 || c == 0) return false;
    i += n;
  }
  return true;
}

bool store_saved_fits(struct span saved) {
  static const char PATTERN[] = "dddd-dd-ddTdd:dd:dd";
  enum { WHOLE = sizeof PATTERN - 1 };
  if (saved.n < WHOLE + 1 || saved.n >= STORE_SAVED_BYTES || saved.p[saved.n - 1] != 'Z') return false;
  for (size_t i = 0; i + 1 < saved.n; i++) {
    char want = i < WHOLE ? PATTERN[i] : i == WHOLE ? '.' : 'd', c = saved.p[i];
    if (want == 'd' ? c < '0' || c > '9' : c != want) return false;
  }
  return saved.n != WHOLE + 2;
}

bool store_entry_fits(const struct store_text *t, bool version) {
  return store_id_fits(t->id) && (store_kind_known(t->kind) || (version && t->kind.n == 0)) && store_body_fits(t->body) &&
         store_saved_fits(t->saved) && t->rev >= 1 && t->rev <= STORE_REV_MOST;
}

void store_now(char out[STORE_SAVED_BYTES]) {
  struct timespec now = {0};
  struct tm utc = {.tm_year = 70, .tm_mday = 1};
  char seconds[STORE_SAVED_BYTES];
  clock_gettime(CLOCK_REALTIME, &now);
  gmtime_r(&now.tv_sec, &utc);
  if (strftime(seconds, sizeof seconds, "%Y-%m-%dT%H:%M:%S", &utc) != 19) memcpy(seconds, "1970-01-01T00:00:00", 20);
  snprintf(out, STORE_SAVED_BYTES, "%.19s.%03uZ", seconds, (unsigned)(now.tv_nsec / 1000000) % 1000U);
}
