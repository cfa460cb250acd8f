/* What the food library holds, how well it is known, and what was set aside. */
#include "base/table.h"
#include "report/answer.h"

#include <math.h>

enum { NAME_COLUMNS = 24, COUNT_COLUMNS = 9, GAP = 2 };

static void write_count(const struct pen *p, const char *name, size_t count, size_t whole, const char *meaning) {
  struct row r;
  row_start(&r, p);
  row_fit(&r, MARGIN, NAME_COLUMNS, INK_PLAIN, name);
  int right = MARGIN + NAME_COLUMNS + COUNT_COLUMNS;
  row_right(&r, right, COUNT_COLUMNS, INK_STRONG, say_text(p, "%zu", count));
  if (whole > 0) row_right(&r, right + COUNT_COLUMNS, COUNT_COLUMNS, INK_DIM, say_percent(p, (double)count / (double)whole));
  right += COUNT_COLUMNS + GAP;
  bool fits = text_columns(p, meaning) < p->width - right;
  if (fits) row_put(&r, right, INK_DIM, meaning);
  row_end(&r);
  struct prose below = prose_at(MARGIN + 2, INK_DIM);
  if (!fits) prose_write(p, &below, meaning);
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
    if (count > 0) write_count(p, words_food_part((enum part)part), count, foods, "");
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
  static const char *const MEANING[] = {[VALUE_UNKNOWN] = "no figure; never zero",
                                        [VALUE_MEASURED] = "in a published table",
                                        [VALUE_CITED] = "one figure from a named source",
                                        [VALUE_ESTIMATED] = "from its class, with the error",
                                        [VALUE_NONE] = "absent by nature, by a rule"};
  ROW_FOR_EACH(MEANING, VALUE_STATUS_COUNT);
  static const enum value_status ORDER[] = {VALUE_MEASURED, VALUE_CITED, VALUE_ESTIMATED, VALUE_NONE, VALUE_UNKNOWN};
  for (size_t i = 0; i < COUNT_OF(ORDER); i++)
    write_count(p, value_status_word[ORDER[i]], count[ORDER[i]], all, MEANING[ORDER[i]]);
}

/* ---- patterns -------------------------------------------------------------------------------------------------- */

enum { WORST_SHOWN = 10, ERROR_COLUMNS = 8, FIGURE_COLUMNS = 26 };

static double median(double *x, size_t n) {
  for (size_t i = 1; i < n; i++) {
    double y = x[i];
    size_t k = i;
    for (; k > 0 && x[k - 1] > y; k--) x[k] = x[k - 1];
    x[k] = y;
  }
  return n == 0 ? (double)NAN : n % 2 ? x[n / 2] : (x[n / 2 - 1] + x[n / 2]) / 2;
}

static const char *nutrient_of(const struct pen *p, const struct img_pattern *row) {
  return row->nutrient < NUT_COUNT ? words_nutrient(p->arena, (enum nutrient)row->nutrient) : "?";
}

/* The patterns of one class, in the order of the table. */
struct pattern_class {
  img_text name;
  uint32_t applied; /* the most records that any of its figures went to */
};

/* The classes that most foods lean on come first. */
static size_t classes_of(const struct img_pattern *rows, size_t count, struct pattern_class *item) {
  size_t n = 0;
  for (size_t i = 0; i < count; i++) {
    size_t k = 0;
    while (k < n && item[k].name != rows[i].name) k++;
    if (k == n) item[n++] = (struct pattern_class){.name = rows[i].name};

    if (rows[i].applied > item[k].applied) item[k].applied = rows[i].applied;
  }
  for (size_t i = 1; i < n; i++) {
    struct pattern_class c = item[i];
    size_t k = i;
    for (; k > 0 && c.applied > item[k - 1].applied; k--) item[k] = item[k - 1];
    item[k] = c;
  }
  return n;
}

enum kind_of_figure { FIGURE_AMINO, FIGURE_FATTY, FIGURE_OTHER, FIGURE_KINDS };

static enum kind_of_figure kind_of_figure(const struct img_pattern *row) {
  if (row->nutrient >= NUT_COUNT) return FIGURE_OTHER;
  enum nutrient_group g = nutrient_info[row->nutrient].group;
  return g == NG_AMINO ? FIGURE_AMINO : g == NG_FATTY ? FIGURE_FATTY : FIGURE_OTHER;
}

static void write_errors_by_kind(const struct pen *p, const struct img_pattern *rows, size_t count) {
  static const char *const KIND[FIGURE_KINDS] = {"amino acids", "fatty acids", "all others"};
  double *error = ARENA_NEW(p->arena, double, count);
  for (int kind = 0; kind < FIGURE_KINDS; kind++) {
    size_t n = 0, figures = 0;
    for (size_t i = 0; i < count; i++) {
      if ((int)kind_of_figure(&rows[i]) != kind) continue;
      figures++;
      if (isfinite(rows[i].cv)) error[n++] = (double)rows[i].cv;
    }
    if (figures == 0) continue;
    struct row r;
    row_start(&r, p);
    row_put(&r, MARGIN, INK_PLAIN, KIND[kind]);
    row_right(&r, MARGIN + NAME_COLUMNS + COUNT_COLUMNS, COUNT_COLUMNS, INK_PLAIN, say_text(p, "%zu", figures));
    row_right(&r, MARGIN + NAME_COLUMNS + 2 * COUNT_COLUMNS, COUNT_COLUMNS, INK_STRONG, say_percent(p, median(error, n)));
    row_end(&r);
  }
}

static void write_worst(const struct pen *p, const struct library *lib, const struct img_pattern *rows, size_t count) {
  const struct img_pattern *worst[WORST_SHOWN];
  size_t n = 0;
  for (size_t i = 0; i < count; i++) {
    if (!isfinite(rows[i].cv) || (n == WORST_SHOWN && !(rows[i].cv > worst[n - 1]->cv))) continue;
    size_t k = n < WORST_SHOWN ? n++ : n - 1;
    for (; k > 0 && rows[i].cv > worst[k - 1]->cv; k--) worst[k] = worst[k - 1];
    worst[k] = &rows[i];
  }
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  blank_line(p);
  prose_write(p, &how, "The widest errors:");
  for (size_t i = 0; i < n; i++) {
    struct row r;
    row_start(&r, p);
    row_right(&r, MARGIN + ERROR_COLUMNS, ERROR_COLUMNS, INK_STRONG, say_percent(p, (double)worst[i]->cv));
    row_end_whole(&r, MARGIN + ERROR_COLUMNS + GAP, p->width - MARGIN - ERROR_COLUMNS - GAP - 1, INK_PLAIN,
                  say_text(p, "%s of %s", nutrient_of(p, worst[i]), lib_str(lib, worst[i]->name)));
  }
}

/* The class stands once, above its figures, so that neither has to be cut off. */
static void write_class(const struct pen *p, const struct library *lib, const struct img_pattern *rows, size_t count,
                        const struct pattern_class *c) {
  struct prose how = prose_at(MARGIN, INK_STRONG);
  blank_line(p);
  prose_write(p, &how,
              say_text(p, "%s, used for up to %u food%s", lib_str(lib, c->name), c->applied, c->applied == 1 ? "" : "s"));
  for (size_t i = 0; i < count; i++) {
    if (rows[i].name != c->name) continue;
    const char *base = rows[i].base < NUT_COUNT ? words_nutrient(p->arena, (enum nutrient)rows[i].base) : "";
    struct row r;
    row_start(&r, p);
    row_fit(&r, MARGIN + 2, FIGURE_COLUMNS, INK_PLAIN, nutrient_of(p, &rows[i]));
    int right = MARGIN + 2 + FIGURE_COLUMNS + ERROR_COLUMNS;
    row_right(&r, right, ERROR_COLUMNS, INK_STRONG, say_percent(p, (double)rows[i].cv));
    row_fit(&r, right + GAP, p->width - right - GAP - 1, INK_DIM,
            say_text(p, "from %u food%s%s%s", rows[i].foods, rows[i].foods == 1 ? "" : "s", base[0] ? ", per " : "", base));
    row_end(&r);
  }
}

static void patterns(const struct pen *p, const struct library *lib) {
  const struct img_pattern *rows = IMG_ROWS(&lib->image, IMG_PATTERNS, struct img_pattern);
  size_t count = img_count(&lib->image, IMG_PATTERNS);
  if (count == 0) return;
  struct pattern_class *item = ARENA_NEW(p->arena, struct pattern_class, count);
  size_t classes = classes_of(rows, count, item);
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  heading(p, "Patterns", "error when each food in turn is left out");
  prose_write(p, &how,
              say_text(p,
                       "Where a food has no figure, its class lends one: %zu figures of %zu classes. How far they are off, "
                       "at the median:",
                       count, classes));
  write_errors_by_kind(p, rows, count);
  if (!p->all) write_worst(p, lib, rows, count);
  for (size_t i = 0; i < classes && p->all; i++) write_class(p, lib, rows, count, &item[i]);
  how.ink = INK_DIM;
  if (!p->all) prose_write(p, &how, "--all shows every figure of every class.");
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
    prose_write(p, &how,
                say_text(p, "%s MB, layout %u", words_number(p->arena, (double)lib->image.n / 1e6), header->version));
  }
  if (lib->own_count > 0) prose_write(p, &how, say_text(p, "%zu of them from your own labels", lib->own_count));
  by_source(p, lib, foods);
  by_part(p, lib, foods);
  by_status(p, lib, foods);
  patterns(p, lib);
  quarantine(p, lib);
}
