/* What the food library holds, how well it is known, and what was set aside. */
#include "report/answer.h"

#include <math.h>

enum { NAME_COLUMNS = 24, COUNT_COLUMNS = 9, GAP = 2, PATTERN_COLUMNS = 30, PATTERN_COUNT = 9, CLASSES_SHOWN = 16 };

static void write_count(const struct pen *p, const char *name, size_t count, size_t whole, const char *meaning) {
  struct row r;
  row_start(&r, p);
  row_fit(&r, MARGIN, NAME_COLUMNS, INK_PLAIN, name);
  int right = MARGIN + NAME_COLUMNS + COUNT_COLUMNS;
  row_right(&r, right, COUNT_COLUMNS, INK_STRONG, say_text(p, "%zu", count));
  if (whole > 0) row_right(&r, right + COUNT_COLUMNS, COUNT_COLUMNS, INK_DIM, say_percent(p, (double)count / (double)whole));
  right += COUNT_COLUMNS + GAP;
  row_fit(&r, right, p->width - right - 1, INK_DIM, meaning);
  row_end(&r);
}

static void by_source(const struct pen *p, const struct library *lib, size_t foods) {
  size_t sources = img_count(&lib->image, IMG_SOURCES);
  heading(p, "Foods by source", say_text(p, "%zu foods", foods));
  for (size_t s = 0; s < sources; s++) {
    size_t count = 0;
    for (size_t i = 0; i < foods; i++) count += library_food(lib, (uint32_t)i)->source == s;
    if (count == 0) continue;
    const struct img_source *row = library_source(lib, (uint32_t)s);
    write_count(p, s == 0 ? "your own labels" : lib_str(lib, row->key), count, foods, "");
    struct prose how = prose_at(MARGIN + 2, INK_DIM);
    prose_write(p, &how, lib_str(lib, row->title));
    const char *licence = lib_str(lib, row->licence);
    if (licence[0]) prose_write(p, &how, say_text(p, "licence: %s", licence));
  }
}

static void by_part(const struct pen *p, const struct library *lib, size_t foods) {
  heading(p, "Foods by part", "");
  for (int part = 0; part < PART_COUNT; part++) {
    size_t count = 0;
    for (size_t i = 0; i < foods; i++) count += library_food(lib, (uint32_t)i)->part == part;
    if (count > 0) write_count(p, part_word[part], count, foods, "");
  }
}

static void by_status(const struct pen *p, const struct library *lib, size_t foods) {
  size_t count[VALUE_STATUS_COUNT] = {0}, all = 0;
  for (size_t i = 0; i < foods; i++) {
    const struct img_value *v = library_values(lib, (uint32_t)i);
    for (int n = 0; n < NUT_COUNT; n++) {
      if (n == NUT_VITAMIN_A || v[n].status >= VALUE_STATUS_COUNT) continue;
      count[v[n].status]++;
      all++;
    }
  }
  heading(p, "How values are known", say_text(p, "%zu values", all));
  static const char *const MEANING[VALUE_STATUS_COUNT] = {[VALUE_UNKNOWN] = "no figure; never zero",
                                                          [VALUE_MEASURED] = "in a published table",
                                                          [VALUE_CITED] = "one figure from a named source",
                                                          [VALUE_ESTIMATED] = "from its class, with the error",
                                                          [VALUE_NONE] = "absent by nature, by a rule"};
  static const enum value_status ORDER[] = {VALUE_MEASURED, VALUE_CITED, VALUE_ESTIMATED, VALUE_NONE, VALUE_UNKNOWN};
  for (size_t i = 0; i < COUNT_OF(ORDER); i++)
    write_count(p, value_status_word[ORDER[i]], count[ORDER[i]], all, MEANING[ORDER[i]]);
}

/* ---- patterns -------------------------------------------------------------------------------------------------- */

static void write_pattern_head(const struct pen *p, bool one) {
  static const char *const CLASS[] = {"used for", "typical", "worst"}, *const ONE[] = {"used for", "from", "error"};
  struct row r;
  row_start(&r, p);
  int right = MARGIN + PATTERN_COLUMNS;
  for (size_t i = 0; i < COUNT_OF(CLASS); i++)
    row_right(&r, right += PATTERN_COUNT, PATTERN_COUNT, INK_DIM, one ? ONE[i] : CLASS[i]);
  row_end(&r);
}

static void write_pattern(const struct pen *p, const struct library *lib, const struct img_pattern *one) {
  struct row r;
  row_start(&r, p);
  const char *nutrient = one->nutrient < NUT_COUNT ? say_nutrient(p, (enum nutrient)one->nutrient) : "?";
  const char *base = one->base < NUT_COUNT ? say_nutrient(p, (enum nutrient)one->base) : "?";
  row_fit(&r, MARGIN, PATTERN_COLUMNS, INK_PLAIN, say_text(p, "%s: %s per %s", lib_str(lib, one->name), nutrient, base));
  int right = MARGIN + PATTERN_COLUMNS + PATTERN_COUNT;
  row_right(&r, right, PATTERN_COUNT, INK_PLAIN, say_text(p, "%u", one->applied));
  row_right(&r, right + PATTERN_COUNT, PATTERN_COUNT, INK_PLAIN, say_text(p, "%u", one->foods));
  row_right(&r, right + 2 * PATTERN_COUNT, PATTERN_COUNT, INK_STRONG, say_percent(p, (double)one->cv));
  row_end(&r);
}

static double median(double *x, size_t n) {
  for (size_t i = 1; i < n; i++) {
    double y = x[i];
    size_t k = i;
    for (; k > 0 && x[k - 1] > y; k--) x[k] = x[k - 1];
    x[k] = y;
  }
  return n == 0 ? (double)NAN : n % 2 ? x[n / 2] : (x[n / 2 - 1] + x[n / 2]) / 2;
}

/* All figures of one pattern together. */
struct class_error {
  img_text name;
  double typical, worst;
  enum nutrient worst_nutrient;
  uint32_t applied; /* the most records that any of its figures went to */
};

static struct class_error class_error_of(const struct pen *p, const struct img_pattern *rows, size_t count, img_text name) {
  struct class_error c = {.name = name, .worst = -1, .worst_nutrient = NUT_NONE};
  double *error = ARENA_NEW(p->arena, double, count);
  size_t n = 0;
  for (size_t i = 0; i < count; i++) {
    if (rows[i].name != name) continue;
    if (rows[i].applied > c.applied) c.applied = rows[i].applied;
    if (!isfinite(rows[i].cv)) continue;
    error[n++] = (double)rows[i].cv;
    if ((double)rows[i].cv > c.worst && rows[i].nutrient < NUT_COUNT) {
      c.worst = (double)rows[i].cv;
      c.worst_nutrient = (enum nutrient)rows[i].nutrient;
    }
  }
  c.typical = median(error, n);
  return c;
}

static void write_class(const struct pen *p, const struct library *lib, const struct class_error *c) {
  struct row r;
  row_start(&r, p);
  row_fit(&r, MARGIN, PATTERN_COLUMNS, INK_PLAIN, lib_str(lib, c->name));
  int right = MARGIN + PATTERN_COLUMNS + PATTERN_COUNT;
  row_right(&r, right, PATTERN_COUNT, INK_PLAIN, say_text(p, "%u", c->applied));
  row_right(&r, right + PATTERN_COUNT, PATTERN_COUNT, INK_STRONG, say_percent(p, c->typical));
  right += 2 * PATTERN_COUNT;
  row_right(&r, right, PATTERN_COUNT, INK_PLAIN, say_percent(p, c->worst < 0 ? (double)NAN : c->worst));
  if (c->worst_nutrient != NUT_NONE)
    row_fit(&r, right + GAP, p->width - right - GAP, INK_DIM, say_nutrient(p, c->worst_nutrient));
  row_end(&r);
}

/* The patterns that most foods lean on come first. */
static void write_classes(const struct pen *p, const struct library *lib, const struct img_pattern *rows, size_t count) {
  struct class_error *item = ARENA_NEW(p->arena, struct class_error, count);
  size_t n = 0;
  for (size_t i = 0; i < count; i++) {
    bool seen = false;
    for (size_t k = 0; k < n && !seen; k++) seen = item[k].name == rows[i].name;
    if (seen) continue;
    struct class_error c = class_error_of(p, rows, count, rows[i].name);
    size_t k = n++;
    for (; k > 0 && c.applied > item[k - 1].applied; k--) item[k] = item[k - 1];
    item[k] = c;
  }
  for (size_t i = 0; i < n && i < CLASSES_SHOWN; i++) write_class(p, lib, &item[i]);
  struct prose how = prose_at(MARGIN, INK_DIM);
  if (n > CLASSES_SHOWN)
    prose_write(p, &how, say_text(p, "and %zu more patterns; --all shows every figure of each", n - CLASSES_SHOWN));
}

static void patterns(const struct pen *p, const struct library *lib) {
  const struct img_pattern *rows = IMG_ROWS(&lib->image, IMG_PATTERNS, struct img_pattern);
  size_t count = img_count(&lib->image, IMG_PATTERNS);
  if (count == 0) return;
  heading(p, "Patterns", "error when each food in turn is left out");
  write_pattern_head(p, p->all);
  if (!p->all) write_classes(p, lib, rows, count);
  for (size_t i = 0; i < count && p->all; i++) write_pattern(p, lib, &rows[i]);
}

static void quarantine(const struct pen *p, const struct library *lib) {
  const struct img_quarantine *rows = IMG_ROWS(&lib->image, IMG_QUARANTINE, struct img_quarantine);
  size_t count = img_count(&lib->image, IMG_QUARANTINE);
  if (count == 0) return;
  heading(p, "Set aside", "published, but not believed");
  for (size_t i = 0; i < count; i++) {
    struct prose how = prose_at(MARGIN, INK_PLAIN);
    how.indent = MARGIN + 2;
    prose_write(p, &how,
                say_text(p, "%s: %s (%u values)", lib_str(lib, rows[i].table), lib_str(lib, rows[i].what), rows[i].values));
    how.first = MARGIN + 2;
    how.ink = INK_DIM;
    prose_write(p, &how, lib_str(lib, rows[i].reason));
  }
}

void report_library(const struct library *lib, const struct report_style *style, struct buf *out) {
  struct pen pen = pen_start(style, out);
  const struct pen *p = &pen;
  size_t foods = library_count(lib);
  const struct img_header *header = lib->image.header;
  struct prose how = prose_at(MARGIN, INK_STRONG);
  blank_line(p);
  prose_write(p, &how, say_text(p, "The food library: %zu foods, %d nutrients", foods, NUT_COUNT - 1));
  how.ink = INK_DIM;
  if (header) {
    prose_write(p, &how, say_text(p, "Made from: %s", lib_str(lib, header->made_from)));
    prose_write(p, &how, say_text(p, "%s MB, layout %u", say_amount(p, (double)lib->image.n / 1e6), header->version));
  }
  if (lib->own_count > 0) prose_write(p, &how, say_text(p, "%zu of them from your own labels", lib->own_count));
  by_source(p, lib, foods);
  by_part(p, lib, foods);
  by_status(p, lib, foods);
  patterns(p, lib);
  quarantine(p, lib);
}
