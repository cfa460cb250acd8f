/* Wherever nothing is known of a nutrient, no surface says 0 of it: not the drawn answer, not a finding, not JSON, not the
 * chain behind the figure, not the comparison. Over records of the whole library; what is unknown is read from the records
 * themselves. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include "explain/why.h"
#include "report/report.h"
#include "review/review.h"
#include "tests/support/built_image.h"
#include "tests/support/tiny_image.h"
#include "json/json.h"

enum { EVERY = 61, SEEN_LEAST = 300 };

static struct arena arena;
static int seen, needs_said;

static bool nothing_in_record(uint32_t food, enum nutrient n) {
  return library_values(built_library(), food)[n].status == VALUE_UNKNOWN;
}

/* "0", "0 mg", "(0 %": a 0 that stands alone. */
static bool holds_a_zero(const char *from, const char *to) {
  for (const char *c = from; c < to; c++) {
    bool before = c == from || *(c - 1) == ' ' || *(c - 1) == '(' || *(c - 1) == '=' || *(c - 1) == ':';
    bool after = c + 1 == to || c[1] == ' ' || c[1] == ',' || c[1] == ';' || c[1] == ')' || c[1] == '}' || c[1] == '+';
    if (*c == '0' && before && after) return true;
  }
  return false;
}

/* Lines of a drawing that begin with the nutrient's name. */
static void no_zero_in_its_lines(const char *text, const char *name, const char *food) {
  for (const char *line = text; *line;) {
    const char *end = strchr(line, '\n');
    size_t n = strlen(name), item = strcspn(line, ",\n"); /* in a list the next item is another nutrient's */
    if (strncmp(line, "  ", 2) == 0 && strncmp(line + 2, name, n) == 0 && line[2 + n] == ' ' &&
        holds_a_zero(line, line + item))
      fail_msg("%s, %s: '%.*s'", food, name, (int)(end - line), line);
    line = end + 1;
  }
}

static void no_zero_in_findings(const struct check_result *r, const struct nutrient_info *info, const char *food) {
  size_t n = strlen(info->key);
  for (size_t i = 0; i < r->finding_count; i++) {
    const struct finding *f = &r->finding[i];
    if (strncmp(f->id, info->key, n) != 0 || f->id[n] != '-') continue;
    if (holds_a_zero(f->text, f->text + strlen(f->text)) || strstr(f->text, "under 1 %"))
      fail_msg("%s: %s: %s", food, f->id, f->text);
    bool verdict = strcmp(f->id + n, "-short") == 0 || strcmp(f->id + n, "-unproven") == 0;
    if (!verdict || !f->remedy[0] || info == &nutrient_info[NUT_VITAMIN_K] || info == &nutrient_info[NUT_BIOTIN]) continue;
    /* Nobody can say what is missing, so a remedy says the need. */
    if (!strstr(f->remedy, " needs ") || strstr(f->remedy, "About")) fail_msg("%s: %s: %s", food, f->id, f->remedy);
    needs_said++;
  }
}

/* {"key":"choline", ... "amount":null, and no number 0 among the amounts of that object. */
static void null_in_json(const char *json, const struct nutrient_info *info, const char *food) {
  char key[80];
  snprintf(key, sizeof key, "{\"key\":\"%s\",\"name\"", info->key);
  const char *at = strstr(json, key);
  assert_non_null(at);
  const char *end = strstr(at, "\"cv\"");
  static const char *const NULL_KEYS[] = {"amount", "low", "high", "ratio", "chance_met", "window_amount", "lowest_day"};
  for (size_t i = 0; i < COUNT_OF(NULL_KEYS); i++) {
    snprintf(key, sizeof key, "\"%s\":null", NULL_KEYS[i]);
    const char *found = strstr(at, key);
    if (!found || found > end) fail_msg("%s, %s: '%s' is not null", food, info->key, NULL_KEYS[i]);
  }
}

static void no_zero_in_the_chain(const struct check_result *r, enum nutrient n, const char *food) {
  const struct report_style style = {80, false, true, true};
  struct why_key key = {n, BALANCE_COUNT};
  struct asked asked = {.why = why_of(built_library(), r, &key, 1, &arena), .why_count = 1};
  struct buf out;
  buf_init(&out, &arena, 1 << 20);
  report_why(built_library(), r, &asked, &style, &out);
  if (strstr(buf_text(&out), " 0 mg") || strstr(buf_text(&out), " 0 g a day") || !strstr(buf_text(&out), "not known"))
    fail_msg("%s: %s", food, buf_text(&out));
}

static void unknown_on_no_surface_as_zero(uint32_t food) {
  const struct library *lib = built_library();
  const struct report_style wide = {100, false, true, true}, narrow = {60, false, false, false};
  struct ration_line line = tiny_line(food, 150);
  struct ration ration = tiny_ration(&line, 1);
  struct animal dog = tiny_animal(SPECIES_DOG, 10);
  const struct check_result *r = check_ration(lib, &ration, &dog, NULL, &arena);
  struct buf drawn, small, json;
  buf_init(&drawn, &arena, 1 << 20);
  buf_init(&small, &arena, 1 << 20);
  buf_init(&json, &arena, 1 << 22);
  report_check(lib, r, &wide, &drawn);
  report_check(lib, r, &narrow, &small);
  json_check(lib, r, &json);
  bool chained = false;
  for (int n = 0; n < NUT_COUNT; n++) {
    if (n == NUT_ENERGY || n == NUT_VITAMIN_A || n == NUT_EPA_DHA || !nothing_in_record(food, (enum nutrient)n)) continue;
    const char *name = library_name(lib, food);
    assert_int_equal(r->nutrient[n].known, KNOWN_NONE);
    if (r->nutrient[n].allowance != 0) { /* a need of 0 is known, and drawn */
      no_zero_in_its_lines(buf_text(&drawn), nutrient_info[n].name, name);
      no_zero_in_its_lines(buf_text(&small), nutrient_info[n].name, name);
    }
    no_zero_in_findings(r, &nutrient_info[n], name);
    null_in_json(buf_text(&json), &nutrient_info[n], name);
    if (!chained) no_zero_in_the_chain(r, (enum nutrient)n, name);
    chained = true;
    seen++;
  }
}

static void never_zero(void **state) {
  (void)state;
  for (uint32_t food = 0; food < library_count(built_library()); food += EVERY) {
    arena_init(&arena, NULL);
    unknown_on_no_surface_as_zero(food);
    arena_free(&arena);
  }
  assert_true(seen > SEEN_LEAST && needs_said > SEEN_LEAST / 10);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(never_zero)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
