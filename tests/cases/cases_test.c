/* cases_test.c: runs every *.case file of this folder. README.md beside it says how they are written. */
#define _POSIX_C_SOURCE 200809L
#include <dirent.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "animal/animal_text.h"
#include "base/num.h"
#include "journal/journal.h"
#include "label/label_text.h"
#include "larder/larder_text.h"
#include "recipe/frequency.h"
#include "recipe/recipe_text.h"
#include "tests/support/built_image.h"

enum { OUT_BYTES = 1 << 20, FILES_MOST = 64 };

static const struct date TODAY = {2026, 11, 2};

/* A copy of exactly its size, so that reading one byte too far is seen by the sanitizer. */
static struct span exact_copy(struct span s) {
  char *p = malloc(s.n > 0 ? s.n : 1);
  assert_non_null(p);
  if (s.n > 0) memcpy(p, s.p, s.n);
  return (struct span){p, s.n};
}

static void number(struct buf *b, double x) { num_sig(b, x, 5); }

static void print_complaints(struct buf *out, const struct diags *d) {
  for (size_t i = 0; i < d->count; i++)
    buf_addf(out, "%d:%d: %s%s\n", d->item[i].line, d->item[i].column, d->item[i].level == DIAG_WARNING ? "warning: " : "",
             d->item[i].message);
}

/* ---- what the readers made of it ---- */

static void print_headers(struct buf *out, const struct recipe *r) {
  if (r->name[0]) buf_addf(out, "name: %s\n", r->name);
  if (r->for_whom[0]) buf_addf(out, "for: %s\n", r->for_whom);
  if (r->note[0]) buf_addf(out, "note: %s\n", r->note);
  if (r->days_stated) {
    buf_adds(out, "days: ");
    number(out, r->days);
    buf_adds(out, "\n");
  }
  if (r->total_g > 0) {
    buf_adds(out, "total: ");
    number(out, r->total_g);
    buf_adds(out, " g\n");
  }
  if (r->cook != STATE_UNSTATED) buf_addf(out, "cook: %s\n", state_word[r->cook]);
}

static void print_words_line(struct buf *out, const struct recipe_line *l) {
  buf_addf(out, "%d: ", l->line);
  if (isnan(l->amount)) {
    buf_adds(out, "?");
  } else {
    number(out, l->amount);
  }
  if (l->amount_high > l->amount_low) {
    buf_adds(out, " (");
    number(out, l->amount_low);
    buf_adds(out, " to ");
    number(out, l->amount_high);
    buf_adds(out, ")");
  }
  buf_addf(out, " %s | %.*s |", l->unit_at.n > 0 && l->unit == UNIT_EACH ? "" : unit_info[l->unit].word, SPAN_ARG(l->food));
  if (l->unit_at.n > 0 && l->unit == UNIT_EACH) buf_addf(out, " measured by '%.*s'", SPAN_ARG(l->unit_at));
  if (l->package_g > 0) {
    buf_adds(out, " of ");
    number(out, l->package_g);
    buf_adds(out, " g");
  }
  if (!isnan(l->dose)) {
    buf_adds(out, " dose ");
    number(out, l->dose);
    buf_addf(out, " %s", unit_info[l->dose_unit].word);
  }
  if (l->state != STATE_UNSTATED) buf_addf(out, " %s", state_word[l->state]);
  if (l->raw_weight) buf_adds(out, " raw-weight");
  if (l->cooked_weight) buf_adds(out, " cooked-weight");
  if (l->broth >= 0) buf_adds(out, l->broth ? " broth-kept" : " broth-gone");
  if (l->wish.bone_in >= 0) buf_adds(out, l->wish.bone_in ? " bone-in" : " boneless");
  if (l->wish.skin >= 0) buf_adds(out, l->wish.skin ? " skin-on" : " skinless");
  if (l->wish.lean) buf_adds(out, " lean");
  if (l->wish.drained) buf_adds(out, " drained");
  if (l->wish.lean_percent >= 0) {
    buf_adds(out, " lean-percent ");
    number(out, l->wish.lean_percent);
  }
  if (l->days > 0) {
    buf_adds(out, " on ");
    frequency_print_days(out, l->days);
  } else if (l->frequency_stated) {
    buf_adds(out, " on ");
    number(out, l->times_per_28);
    buf_adds(out, "/28");
  }
  if (l->pin.n > 0) buf_addf(out, " pin %.*s", SPAN_ARG(l->pin));
  buf_adds(out, "\n");
}

static void print_ration_line(struct buf *out, const struct library *lib, const struct ration_line *l) {
  double counted = 0;
  buf_addf(out, "%d: ", l->line);
  for (int i = 0; i < l->part_count; i++) {
    if (i > 0) buf_adds(out, " + ");
    number(out, l->part[i].grams);
    buf_addf(out, " g %s", library_code(lib, l->part[i].food));
    counted += l->part[i].grams;
    if (l->part[i].retention >= 0)
      buf_addf(out, " less losses of %s",
               state_word[IMG_ROWS(&lib->image, IMG_RETENTION, struct img_retention)[l->part[i].retention].state]);
    if (i == 0 && l->part_count == 1 && l->part[i].grams_cv > 0) {
      buf_adds(out, " cv ");
      num_sig(out, l->part[i].grams_cv, 3);
    }
  }
  if (fabs(counted - l->grams_fed) > 1e-9 * counted) {
    buf_adds(out, ", in the bowl ");
    number(out, l->grams_fed);
    buf_adds(out, " g");
  }
  if (l->times_per_28 < CALENDAR_DAYS) {
    buf_adds(out, ", on ");
    number(out, l->times_per_28);
    buf_adds(out, " of 28 days");
  }
  if (l->cooked_bone) buf_adds(out, ", cooked bone");
  buf_adds(out, "\n");
}

static void recipe_answer(struct buf *out, const struct library *lib, struct span text, bool words_only, struct arena *a) {
  struct diags d;
  struct recipe recipe;
  struct ration ration;
  diags_init(&d, a, "case", text);
  bool fine = recipe_parse(text, &d, &recipe, a);
  if (!words_only) fine = recipe_resolve(lib, &recipe, &d, &ration, a) && fine;
  assert_int_equal(fine, d.errors == 0);
  print_complaints(out, &d);
  print_headers(out, &recipe);
  if (words_only)
    for (size_t i = 0; i < recipe.line_count; i++) print_words_line(out, &recipe.line[i]);
  else
    for (size_t i = 0; i < ration.line_count; i++) print_ration_line(out, lib, &ration.line[i]);
}

static void figure(struct buf *out, const char *what, double x, const char *unit) {
  if (isnan(x)) return;
  buf_addf(out, ", %s ", what);
  number(out, x);
  buf_adds(out, unit);
}

static void animal_answer(struct buf *out, struct span text, struct arena *a) {
  struct diags d;
  struct animal *list;
  size_t count;
  diags_init(&d, a, "case", text);
  bool fine = animal_read(text, TODAY, &d, &list, &count, a);
  assert_int_equal(fine, d.errors == 0);
  print_complaints(out, &d);
  for (size_t i = 0; fine && i < count; i++) {
    const struct animal *x = &list[i];
    buf_addf(out, "%s: %s", x->name, species_word[x->species]);
    figure(out, "weighs", x->weight_kg, " kg");
    figure(out, "ideal", x->ideal_kg, " kg");
    figure(out, "condition", x->condition, "");
    figure(out, "age", x->age_years, "");
    figure(out, "adult", x->adult_weight_kg, " kg");
    figure(out, "energy", x->energy_kcal, " kcal");
    if (x->neutered >= 0) buf_adds(out, x->neutered ? ", neutered" : ", not neutered");
    if (x->activity_stated) buf_addf(out, ", %s activity", activity_word[x->activity]);
    if (x->pregnant) buf_adds(out, ", pregnant");
    if (x->nursing) buf_adds(out, ", nursing");
    if (x->antibiotics) buf_adds(out, ", antibiotics");
    if (!x->healthy) buf_addf(out, ", not healthy: %s", x->status);
    buf_adds(out, "\n");
  }
}

static void print_own_food(struct buf *out, const struct own_food *f) {
  buf_addf(out, "%s '%s' %s", f->code, f->name, part_word[f->food.part]);
  if (f->unit_word) buf_addf(out, ", by the %s", f->unit_word);
  figure(out, "of", f->unit_g, " g");
  figure(out, "density", (double)f->food.density, "");
  for (int i = 0; i < NUT_COUNT; i++) {
    if (f->value[i].status == VALUE_UNKNOWN) continue;
    buf_addf(out, ", %s ", nutrient_info[i].key);
    number(out, (double)f->value[i].mean);
    if (f->value[i].status == VALUE_NONE) buf_adds(out, " (none)");
  }
  buf_adds(out, "\n");
}

static void label_answer(struct buf *out, struct span text, struct arena *a) {
  struct diags d;
  struct library lib = *built_library();
  struct own_food *foods;
  size_t count;
  const char *mark = NULL;
  for (size_t i = 0; i + 11 <= text.n && !mark; i++)
    if (memcmp(text.p + i, "--- recipe\n", 11) == 0) mark = text.p + i;
  struct span label = exact_copy(mark ? span_cut(text, 0, (size_t)(mark - text.p)) : text);
  diags_init(&d, a, "case", label);
  bool fine = label_read(label, &lib, &d, &foods, &count, a);
  assert_int_equal(fine, d.errors == 0);
  print_complaints(out, &d);
  for (size_t i = 0; fine && i < count; i++) print_own_food(out, &foods[i]);
  if (fine && mark) {
    lib.own = foods;
    lib.own_count = count;
    struct span recipe = exact_copy(span_cut(text, (size_t)(mark - text.p) + 11, text.n));
    recipe_answer(out, &lib, recipe, false, a);
    free((void *)(uintptr_t)recipe.p);
  }
  free((void *)(uintptr_t)label.p);
}

/* ---- larders ---- */

static void range(struct buf *out, double low, double high) {
  if (!(low > 0)) {
    buf_adds(out, high < INFINITY ? " at most " : " any");
  } else {
    buf_adds(out, high < INFINITY ? " " : " at least ");
    if (low < high && high < INFINITY) {
      number(out, low);
      buf_adds(out, " to ");
    }
    if (high == INFINITY) number(out, low);
  }
  if (high < INFINITY) number(out, high);
}

static void print_larder_food(struct buf *out, const struct library *lib, const struct larder_food *f) {
  const struct larder_line *l = f->line;
  buf_addf(out, "%d: %s", l->line, library_code(lib, f->one.shown_food));
  range(out, l->low, l->high);
  buf_adds(out, l->whole_units ? " whole units of " : " units of ");
  number(out, f->unit_g);
  buf_adds(out, " g");
  if (l->least > 0) figure(out, "if used at least", l->least, "");
  if (l->times_high >= 0) {
    buf_adds(out, ", on");
    range(out, l->times_low, l->times_high);
    buf_adds(out, " of 28 days");
  }
  figure(out, "price of a kilogram", 1000 * f->price_per_g, "");
  buf_adds(out, "\n");
}

static void print_larder_limit(struct buf *out, const struct larder_limit *l) {
  static const char *const KINDS[] = {"energy share of", "kcal", "food", "part", "foods", "one food", "nutrient", "cost"};
  buf_addf(out, "%d: limit: %s", l->line, KINDS[l->kind]);
  if (l->kind == LARDER_ENERGY_SHARE || l->kind == LARDER_NUTRIENT) buf_addf(out, " %s", nutrient_info[l->nutrient].key);
  for (int p = 0; p < BOWL_COUNT; p++)
    if (l->parts & 1u << p) buf_addf(out, " %s", json_part_key[p]);
  range(out, l->low, l->high);
  buf_adds(out, "\n");
}

static void larder_answer(struct buf *out, struct span text, struct arena *a) {
  struct diags d;
  struct larder larder;
  struct larder_food *food = NULL;
  diags_init(&d, a, "case", text);
  bool fine = larder_parse(text, &d, &larder, a);
  fine = larder_resolve(built_library(), &larder, &d, &food, a) && fine;
  assert_int_equal(fine, d.errors == 0);
  print_complaints(out, &d);
  if (!fine) return;
  if (larder.name[0]) buf_addf(out, "name: %s\n", larder.name);
  for (size_t i = 0; i < larder.for_count; i++) buf_addf(out, "for: %s\n", larder.for_whom[i]);
  if (larder.aim_stated) buf_addf(out, "aim: %s", larder_aim_word[larder.wish.aim]);
  for (int i = 0; larder.aim_stated && larder.wish.aim == AIM_NEAREST && i < PATTERN_PARTS; i++) {
    buf_adds(out, i > 0 ? ":" : " ");
    number(out, 100 * larder.wish.pattern[i]);
  }
  if (larder.aim_stated) buf_adds(out, "\n");
  if (larder.recipe.cook != STATE_UNSTATED) buf_addf(out, "cook: %s\n", state_word[larder.recipe.cook]);
  for (size_t i = 0; i < larder.line_count; i++) print_larder_food(out, built_library(), &food[i]);
  for (size_t i = 0; i < larder.limit_count; i++) print_larder_limit(out, &larder.limit[i]);
}

/* ---- journals ---- */

static void print_day(struct buf *out, const char *name, long day) {
  static const char *const DAYS[] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
  buf_addf(out, "%s ", name);
  date_print(out, day);
  buf_addf(out, " %s:", DAYS[date_weekday(day)]);
}

static void print_intake(struct buf *out, const struct dated_intake *x) {
  buf_adds(out, x->item_count == 0 ? " ate nothing" : " ate");
  for (size_t i = 0; i < x->item_count; i++) {
    const struct journal_item *item = x->item[i];
    buf_adds(out, i > 0 ? ", " : " ");
    if (item->unknown) buf_adds(out, "unknown ");
    if (!isnan(item->grams)) {
      number(out, item->grams);
      buf_adds(out, " g ");
    }
    buf_addf(out, "'%.*s'", SPAN_ARG(item->food));
  }
  if (x->left_g > 0) {
    buf_adds(out, "; left ");
    number(out, x->left_g);
    buf_adds(out, " g");
  }
  if (x->left_share > 0) {
    buf_adds(out, "; left share ");
    number(out, x->left_share);
  }
  buf_adds(out, x->left_unknown ? "; left, nobody knows how much\n" : "\n");
}

static void journal_answer(struct buf *out, struct span text, struct arena *a) {
  static const char *const NAMES[] = {"Juniper", "Moss", "Pim", "Old Bess"};
  const struct journal_known known = {
      .name = NAMES, .name_count = COUNT_OF(NAMES), .today = date_days((struct date){2026, 11, 30})};
  struct diags d;
  struct journal j;
  size_t count;
  diags_init(&d, a, "case", text);
  bool fine = journal_read(text, &known, &d, &j, a);
  assert_int_equal(fine, d.errors == 0);
  print_complaints(out, &d);
  for (size_t n = 0; n < j.name_count; n++) {
    const struct dated_weight *w = journal_weights(&j, (int)n, &count, a);
    for (size_t i = 0; i < count; i++) {
      print_day(out, j.name[n], w[i].day);
      buf_adds(out, " ");
      number(out, w[i].kg);
      buf_adds(out, w[i].asked ? " kg, asked about\n" : " kg\n");
    }
    const struct dated_intake *eaten = journal_intakes(&j, (int)n, &count, a);
    for (size_t i = 0; i < count; i++) {
      print_day(out, j.name[n], eaten[i].day);
      print_intake(out, &eaten[i]);
    }
  }
}

/* ---- the files ---- */

static struct span read_file(const char *path) {
  FILE *f = fopen(path, "rb");
  assert_non_null(f);
  static char bytes[1 << 20];
  size_t n = fread(bytes, 1, sizeof bytes, f);
  fclose(f);
  assert_true(n > 0 && n < sizeof bytes);
  return exact_copy((struct span){bytes, n});
}

static struct span next_line(struct span *rest) {
  const char *end = memchr(rest->p, '\n', rest->n);
  size_t n = end ? (size_t)(end - rest->p) + 1 : rest->n;
  struct span line = span_cut(*rest, 0, n);
  *rest = span_cut(*rest, n, rest->n);
  return line;
}

static bool starts(struct span s, const char *with) { return span_starts_fold(s, with); }

/* Runs one case; returns 0 or 1 for the count of those that failed. */
static int run_case(const char *file, struct span name, struct span text, struct span expected) {
  struct arena a;
  struct buf out;
  arena_init(&a, NULL);
  buf_init(&out, &a, OUT_BYTES);
  struct span copy = exact_copy(text);
  if (strncmp(file, "recipe", 6) == 0)
    recipe_answer(&out, built_library(), copy, false, &a);
  else if (strncmp(file, "words", 5) == 0)
    recipe_answer(&out, NULL, copy, true, &a);
  else if (strncmp(file, "animal", 6) == 0)
    animal_answer(&out, copy, &a);
  else if (strncmp(file, "label", 5) == 0)
    label_answer(&out, copy, &a);
  else if (strncmp(file, "larder", 6) == 0)
    larder_answer(&out, copy, &a);
  else if (strncmp(file, "journal", 7) == 0)
    journal_answer(&out, copy, &a);
  else
    fail_msg("%s: the file's name does not say which reader it is for", file);
  free((void *)(uintptr_t)copy.p);
  bool same = span_eq(buf_span(&out), expected);
  if (!same)
    fprintf(stderr, "%s: %.*s\n--- expected\n%.*s--- came out\n%s---\n", file, SPAN_ARG(name), SPAN_ARG(expected),
            buf_text(&out));
  arena_free(&a);
  return !same;
}

static int run_file(const char *file, int *cases) {
  char path[1024];
  snprintf(path, sizeof path, "%s/tests/cases/%s", BW_SOURCE_DIR, file);
  struct span whole = read_file(path), rest = whole, line = next_line(&rest);
  int failed = 0;
  while (line.n > 0) {
    if (!starts(line, "===")) {
      line = next_line(&rest);
      continue;
    }
    struct span name = span_trim(span_cut(line, 3, line.n - 1)), text = {rest.p, 0}, expected;
    while (rest.n > 0 && !starts(rest, "--- gives")) text.n += next_line(&rest).n;
    next_line(&rest);
    expected = (struct span){rest.p, 0};
    while (rest.n > 0 && !starts(rest, "===") && !starts(rest, ";")) expected.n += next_line(&rest).n;
    while (expected.n > 1 && expected.p[expected.n - 1] == '\n' && expected.p[expected.n - 2] == '\n') expected.n--;
    if (expected.n == 1 && expected.p[0] == '\n') expected.n = 0;
    failed += run_case(file, name, text, expected);
    ++*cases;
    line = next_line(&rest);
  }
  free((void *)(uintptr_t)whole.p);
  return failed;
}

static void every_case(void **state) {
  (void)state;
  DIR *folder = opendir(BW_SOURCE_DIR "/tests/cases");
  int cases = 0, failed = 0;
  assert_non_null(folder);
  for (struct dirent *e; (e = readdir(folder)) != NULL;) {
    size_t n = strlen(e->d_name);
    if (n > 5 && strcmp(e->d_name + n - 5, ".case") == 0) failed += run_file(e->d_name, &cases);
  }
  closedir(folder);
  print_message("%d cases\n", cases);
  assert_int_equal(failed, 0);
  assert_true(cases >= 60);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(every_case)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
