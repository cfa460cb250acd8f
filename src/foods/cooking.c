#include "foods/cooking.h"

#include <math.h>

#include "foods/search.h"

/* ---- words ----------------------------------------------------------------------------------------------------- */

bool folded_word(struct span *rest, struct span *word) {
  if (rest->n == 0) return false;
  const char *blank = memchr(rest->p, ' ', rest->n);
  size_t n = blank ? (size_t)(blank - rest->p) : rest->n;
  *word = span_cut(*rest, 0, n);
  *rest = span_cut(*rest, blank ? n + 1 : n, rest->n);
  return true;
}

bool has_folded_word(struct span in, struct span word) {
  struct span w;
  while (folded_word(&in, &w))
    if (span_eq(w, word)) return true;
  return false;
}

int shared_words(struct span words, struct span in) {
  int shared = 0;
  struct span w;
  while (folded_word(&words, &w)) shared += has_folded_word(in, w);
  return shared;
}

/* ---- tables ---------------------------------------------------------------------------------------------------- */

static const enum state MOIST[] = {STATE_SIMMERED, STATE_BOILED, STATE_PRESSURE_COOKED, STATE_STEAMED, STATE_MICROWAVED};
static const enum state DRY[] = {STATE_ROASTED, STATE_BAKED, STATE_GRILLED, STATE_PAN_FRIED};
enum { METHODS = COUNT_OF(MOIST) + COUNT_OF(DRY) + 2 };

/* The method itself, then its own kind (in water or in dry heat), then "cooked" without a method, then the other kind. */
static size_t methods_by_nearness(enum state s, enum state out[METHODS]) {
  bool dry = false;
  for (size_t i = 0; i < COUNT_OF(DRY); i++) dry = dry || DRY[i] == s;
  size_t n = 0;
  out[n++] = s;
  for (int pass = 0; pass < 2; pass++) {
    const enum state *kind = dry == (pass == 0) ? DRY : MOIST;
    size_t count = dry == (pass == 0) ? COUNT_OF(DRY) : COUNT_OF(MOIST);
    for (size_t i = 0; i < count; i++)
      if (kind[i] != s) out[n++] = kind[i];
    if (pass == 0 && s != STATE_COOKED_OTHER) out[n++] = STATE_COOKED_OTHER;
  }
  return n;
}

/* The best row of one method; 'broth' as fed: 1 kept, 0 poured away. Rows to which it does not apply fit either. */
static const struct img_retention *row_of_method(const struct library *lib, uint32_t group, enum state s, int8_t broth) {
  const struct img_retention *rows = IMG_ROWS(&lib->image, IMG_RETENTION, struct img_retention), *found = NULL;
  for (size_t i = 0; i < img_count(&lib->image, IMG_RETENTION); i++) {
    if (rows[i].group != group || rows[i].state != s || rows[i].rank != 0) continue;
    if (rows[i].broth == broth) return &rows[i];
    if (rows[i].broth == 2 && !found) found = &rows[i];
  }
  return found;
}

const struct img_retention *retention_row(const struct library *lib, uint32_t group, enum state state, int8_t broth,
                                          bool *other_method, bool *broth_matters) {
  enum state near[METHODS];
  size_t n = methods_by_nearness(state, near);
  *other_method = *broth_matters = false;
  if (group == RETAIN_NO_GROUP) return NULL;
  for (size_t i = 0; i < n; i++) {
    const struct img_retention *kept = row_of_method(lib, group, near[i], 1), *gone = row_of_method(lib, group, near[i], 0);
    const struct img_retention *row = broth == 1 ? kept : gone;
    if (!row) row = kept ? kept : gone;
    if (!row) continue;
    *other_method = i > 0;
    *broth_matters = kept && gone && kept != gone;
    return row;
  }
  return NULL;
}

/* Of the rows of one method: those that share most words with the food's name. */
static struct weight_yield yield_of_method(const struct library *lib, uint32_t group, enum state s, struct span name,
                                           struct arena *arena) {
  const struct img_yield *rows = IMG_ROWS(&lib->image, IMG_YIELDS, struct img_yield);
  struct weight_yield y = {.mean = (double)NAN};
  int best = -1, count = 0;
  double sum = 0;
  for (size_t i = 0; i < img_count(&lib->image, IMG_YIELDS); i++) {
    if (rows[i].group != group || rows[i].state != s || !(rows[i].yield > 0)) continue;
    struct span words = search_fold(&lib->image, span_of(lib_str(lib, rows[i].words)), arena);
    int shared = shared_words(words, name);
    double low = rows[i].low > 0 ? (double)rows[i].low : (double)rows[i].yield;
    double high = rows[i].high > 0 ? (double)rows[i].high : (double)rows[i].yield;
    if (shared < best) continue;
    if (shared > best) {
      best = shared;
      count = 0;
      sum = 0;
      y.low = INFINITY;
      y.high = 0;
    }
    count++;
    sum += (double)rows[i].yield;
    y.low = fmin(y.low, low);
    y.high = fmax(y.high, high);
  }
  if (count > 0) y.mean = sum / count;
  y.by_group = best <= 0;
  return y;
}

struct weight_yield yield_of(const struct library *lib, uint32_t food, enum state state, struct arena *arena) {
  enum state near[METHODS];
  size_t n = methods_by_nearness(state, near);
  uint32_t group = library_food(lib, food)->retention_group;
  struct span name = search_fold(&lib->image, span_of(library_name(lib, food)), arena);
  for (size_t i = 0; i < n && group != RETAIN_NO_GROUP; i++) {
    struct weight_yield y = yield_of_method(lib, group, near[i], name, arena);
    if (!(y.mean > 0)) continue;
    y.other_method = i > 0;
    return y;
  }
  return (struct weight_yield){.mean = (double)NAN, .low = (double)NAN, .high = (double)NAN};
}

/* ---- what can be cooked ---------------------------------------------------------------------------------------- */

bool cooks_from_raw(const struct img_food *r) {
  return r->state == STATE_RAW || r->state == STATE_UNSTATED || r->state == STATE_DRIED;
}

bool stays_as_it_is(const struct img_food *r) {
  return r->part == PART_SUPPLEMENT || r->part == PART_FAT_OIL || r->part == PART_BONE;
}

static bool is_one_of(enum state s, const enum state *states, size_t count) {
  for (size_t i = 0; i < count; i++)
    if (states[i] == s) return true;
  return false;
}

bool same_kind_of_heat(enum state a, enum state b) {
  if (a == STATE_COOKED_OTHER || b == STATE_COOKED_OTHER) return true;
  return is_one_of(a, MOIST, COUNT_OF(MOIST)) == is_one_of(b, MOIST, COUNT_OF(MOIST));
}
