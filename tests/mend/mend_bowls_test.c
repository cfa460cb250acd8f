/* Bowls as owners feed them (bowls.h, written before the code): what mend makes of them is still the owner's dinner, is met
 * when it is read again, raises nothing new that asks for action, and is left alone when mended again. Every remedy that the
 * review offers, typed in as it is written, is read, does what it says, breaks nothing else and raises nothing new to act
 * on. A larger run is in bench. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "app/app_mend.h"
#include "foods/portion.h"
#include "review/findings.h"
#include "tests/mend/bowls.h"
#include "tests/support/built_image.h"
#include "tests/support/sampled.h"
#include "words/words.h"

static struct arena arena;

static struct app_check_request request_of(const struct bowl *b, const char *text) {
  struct app_check_request q = {.recipe = {"bowl", span_of(text)}, .one_off = &b->animal};
  q.ask.check = CHECK_OPTIONS_DEFAULT;
  q.ask.check.standard = b->standard;
  return q;
}

static const struct check_result *check_of(const struct bowl *b, const char *text) {
  struct app_check_request q = request_of(b, text);
  struct app_check_answer a;
  app_check(built_library(), &q, &a, &arena);
  if (!a.result) {
    struct buf why;
    buf_init(&why, &arena, 10000);
    diags_print(&a.recipe_diags, &why, true);
    print_error("%s\n%s\n", text, buf_text(&why));
  }
  assert_non_null(a.result);
  return a.result;
}

static bool in_order(const struct nutrient_result *n) {
  bool told = n->verdict == VERDICT_OVER && model_limit_is_cautious(built_library(), n->id);
  return n->verdict == VERDICT_MET || n->verdict == VERDICT_NO_FIGURE || told;
}

/* ---- mended ---- */

static const struct mended *mended_of(const struct bowl *b, const char *text, struct app_mend_answer *a) {
  struct app_mend_request q = {.check = request_of(b, text), .one_way = true};
  app_mend(built_library(), &q, a, &arena);
  assert_true(a->understood);
  return a->answer.count > 0 ? &a->answer.found[0] : NULL;
}

/* No line of flesh loses more than a third, unless the answer says so. */
static void dinner_is_the_owners(const struct check_result *before, const struct mended *m) {
  for (size_t i = 0; i < m->proposal->count; i++) {
    const struct mend_change *c = &m->proposal->change[i];
    if (c->line < 0 || c->danger) continue;
    enum part part = (enum part)library_food(built_library(), before->ration->line[c->line].shown_food)->part;
    if (part == PART_MUSCLE && m->ask_count == 0) assert_true(c->to_g >= c->from_g * (2.0 / 3) * (1 - 1e-6));
  }
}

static void nothing_new_to_act_on(const struct check_result *before, const struct check_result *after, const char *text) {
  for (size_t i = 0; i < after->finding_count; i++) {
    const struct finding *f = &after->finding[i];
    bool uneven = strcmp(f->id, "ca-p-uneven") == 0; /* the ratio in any run of days counts as well */
    if ((f->weight != FINDING_ACT && !uneven) || findings_say(before, f->id)) continue;
    print_error("new to act on: %s\n%s\n", f->text, text);
    fail();
  }
}

/* What a kitchen scale shows of grams: tenths below 5, whole ones above; tenths up to 60 only where the line has no room for
 * whole ones, or was written so. */
static bool shown_by_a_scale(const char *line, bool fine) {
  size_t whole = strspn(line, "0123456789"), behind = line[whole] == '.' ? strspn(line + whole + 1, "0123456789") : 0;
  double most = fine ? 60 : 5, amount = 0;
  for (size_t i = 0; i < whole; i++) amount = 10 * amount + (line[i] - '0');
  return behind == 0 || (behind == 1 && amount < most);
}

static int fine_lines, shown_lines;

/* Meat of another kind does not come in beside the owner's unless the answer asks for something beyond the usual. */
static void amounts_are_measurable(const struct mended *m) {
  for (size_t i = 0; i < m->lines; i++) {
    const char *t = m->line[i].text;
    if (m->line[i].kind != LINE_IN) continue;
    if (!shown_by_a_scale(t, true)) print_error("%s\n", t);
    assert_true(shown_by_a_scale(t, true));
    fine_lines += !shown_by_a_scale(t, false);
    shown_lines++;
  }
  for (size_t i = 0; i < m->proposal->count && m->ask_count == 0; i++)
    if (m->proposal->change[i].line < 0) assert_null(strstr(m->food[i], "chicken breast"));
}

static int pairs;

/* Nobody buys two livers: of each kind no more foods than the owner feeds, and one where it was none, unless the answer asks
 * for something beyond the usual. Two forms of calcium may meet where nothing else was found (a tablet with vitamin D beside
 * bone meal): counted, and rare. */
static void one_of_each_kind(const struct check_result *before, const struct check_result *after, const struct mended *m) {
  bool pair = false;
  for (size_t i = 0; i < after->ration->line_count && m->ask_count == 0; i++) {
    enum species s = before->animal->species;
    uint32_t food = after->ration->line[i].shown_food;
    int kind = portion_one_of(built_library(), food, s), had = 0, has = 0;
    for (size_t k = 0; kind > 0 && k < before->ration->line_count; k++)
      had += portion_one_of(built_library(), before->ration->line[k].shown_food, s) == kind;
    for (size_t k = 0; kind > 0 && k < after->ration->line_count; k++)
      has += portion_one_of(built_library(), after->ration->line[k].shown_food, s) == kind;
    if (has <= (had > 0 ? had : 1)) continue;
    if (library_food(built_library(), food)->part != PART_SUPPLEMENT)
      fail_msg("two of a kind: %s\n%s", after->ration->line[i].text, m->text);
    pair = true;
  }
  pairs += pair;
}

static void mended_bowls_are_dinners(void **state) {
  (void)state;
  enum { TRIED = SAMPLED(BOWLS, BOWLS / 15) };
  int found = 0;
  for (int i = 0; i < TRIED; i++) {
    arena_init(&arena, NULL);
    struct bowl b = bowl_of(built_library(), i * BOWLS / TRIED, &arena);
    struct app_mend_answer a, again;
    const struct mended *m = mended_of(&b, b.text, &a);
    if (m) {
      const struct check_result *after = check_of(&b, m->text);
      for (int n = 0; n < NUT_COUNT; n++) assert_true(in_order(&after->nutrient[n]));
      assert_true(after->balance.ca_p >= 1 && after->balance.ca_p <= 2);
      dinner_is_the_owners(a.answer.before, m);
      amounts_are_measurable(m);
      one_of_each_kind(a.answer.before, after, m);
      nothing_new_to_act_on(a.answer.before, after, m->text);
      mended_of(&b, m->text, &again);
      assert_true(again.answer.mend->already_met);
      found++;
    }
    arena_free(&arena);
  }
  print_message("%d of %d mended; of %d lines %d in finer steps than whole grams from 5 g on\n", found, TRIED, shown_lines,
                fine_lines);
  print_message("%d with two forms of calcium\n", pairs);
  assert_true(fine_lines <= shown_lines / 50);
  assert_true(pairs <= TRIED / 100);
  assert_true(found >= TRIED * 9 / 10);
}

/* ---- remedies ---- */

/* A remedy as somebody would type it in: "About 8 g of sunflower oil a day (about 1/2 tbsp) would cover it ..." -> "8 g of
 * sunflower oil a day (about 1/2 tbsp)"; of two that go together two lines. 'rest': what follows, "cover it ..." */
static const char *typed(const char *remedy, const char **rest) {
  static const char *const BEFORE[] = {"About ", "No single food covers it; "};
  static const char WOULD[] = " would ";
  const char *from = NULL, *to = NULL;
  for (size_t i = 0; i < COUNT_OF(BEFORE) && !from; i++) {
    const char *at = strstr(remedy, BEFORE[i]);
    to = at ? strstr(at, WOULD) : NULL;
    for (const char *next = at; to && next && next < to; next = strstr(next + 1, BEFORE[i]))
      from = next + strlen(BEFORE[i]); /* the last before it */
  }
  if (!from) return NULL;
  *rest = to + sizeof WOULD - 1;
  static const char TOGETHER[] = " together with ";
  const char *both = strstr(from, TOGETHER);
  if (!both || both > to) return arena_text(&arena, (struct span){from, (size_t)(to - from)});
  const char *second = both + sizeof TOGETHER - 1;
  return words_text(&arena, "%.*s\n%.*s", (int)(both - from), from, (int)(to - second), second);
}

/* Is this nutrient to be met by it: that of the finding ("cover it"), or one that is named ("cover zinc and iron")? */
static bool is_meant(const char *id, const char *rest, enum nutrient n) {
  static const char COVER[] = "cover ";
  size_t key = strlen(nutrient_info[n].key);
  if (strncmp(rest, COVER, sizeof COVER - 1) != 0) return false;
  rest += sizeof COVER - 1;
  if (strncmp(rest, "it", 2) == 0) return strncmp(id, nutrient_info[n].key, key) == 0 && id[key] == '-';
  const char *end = strstr(rest, " and add "), *name = words_nutrient(&arena, n), *at = strstr(rest, name);
  return at && (!end || at < end);
}

static int trouble(const struct nutrient_result *n) {
  return in_order(n) ? 0 : n->verdict == VERDICT_SHORT || n->verdict == VERDICT_OVER ? 2 : 1;
}

/* What is told in a list as well is no new thing when it gets a sentence of its own, nor are other words for a shortage. */
static bool was_told(const struct check_result *was, const struct finding *f) {
  if (findings_say(was, f->id) || strncmp(f->id, "several-", 8) == 0) return true;
  if (strcmp(f->id, "vitamin-e-for-fat") == 0) return trouble(&was->nutrient[NUT_VITAMIN_E]) == 2;
  for (int n = 0; n < NUT_COUNT; n++) {
    const char *key = nutrient_info[n].key;
    bool lacks = strcmp(f->id, words_text(&arena, "%s-short", key)) == 0 ||
                 strcmp(f->id, words_text(&arena, "%s-unproven", key)) == 0;
    if (lacks) return was->nutrient[n].verdict == VERDICT_SHORT || was->nutrient[n].verdict == VERDICT_UNPROVEN;
  }
  return false;
}

static void raises_nothing_new(const struct check_result *was, const struct check_result *is, const char *line) {
  for (size_t i = 0; i < is->finding_count; i++) {
    const struct finding *f = &is->finding[i];
    if (f->weight == FINDING_ACT && !was_told(was, f)) fail_msg("'%s' raises %s: %s", line, f->id, f->text);
  }
}

/* The ceilings of data/portions.tsv hold for what the review names as for what mend adds. */
static void keeps_to_the_usual(const struct check_result *was, const struct check_result *is, const char *line) {
  const struct ration_line *more = &is->ration->line[is->ration->line_count - 1];
  double most = portion_most_g(built_library(), more->shown_food, was->animal->species, was->body.metabolic_kg,
                               was->energy.grams_per_day);
  bool usual = !(ration_line_grams_per_day(more) > most * (1 + 1e-6));
  if (!usual) print_error("'%s' is more than %g g\n", line, most);
  assert_true(usual);
}

static int does_what_it_says(const struct bowl *b, const struct check_result *was, const char *id, const char *line,
                             const char *rest) {
  struct buf text;
  int met = 0;
  buf_init(&text, &arena, 20000);
  buf_addf(&text, "%s%s\n", b->text, line);
  const struct check_result *is = check_of(b, buf_text(&text));
  keeps_to_the_usual(was, is, line);
  raises_nothing_new(was, is, line);
  for (int n = 0; n < NUT_COUNT; n++) {
    const struct nutrient_result *before = &was->nutrient[n], *after = &is->nutrient[n];
    bool meant = trouble(before) > 0 && is_meant(id, rest, (enum nutrient)n);
    bool worse = trouble(after) > trouble(before) || (meant && after->verdict != VERDICT_MET);
    if (worse)
      print_error("%s: '%s' makes %s %s\n%s\n", id, line, nutrient_info[n].key, verdict_word[after->verdict], b->text);
    assert_false(worse);
    met += meant;
  }
  return met;
}

/* Lines of a batch are for all of its days, but what is said to be given "a day" is read as that. */
static void remedies_do_what_they_say(void **state) {
  (void)state;
  enum { TRIED = SAMPLED(BOWLS, BOWLS / 15) };
  int said = 0, covering = 0, several = 0, batches = 0, with_copper = 0, together = 0;
  for (int i = 0; i < TRIED; i++)
    for (int standard = 0; standard < STANDARD_COUNT; standard++) {
      arena_init(&arena, NULL);
      struct bowl b = bowl_of(built_library(), i * BOWLS / TRIED, &arena);
      b.standard = (enum standard_id)standard;
      const struct check_result *was = check_of(&b, b.text);
      for (size_t k = 0; k < was->finding_count; k++) {
        const char *rest = NULL, *line = typed(was->finding[k].remedy ? was->finding[k].remedy : "", &rest);
        if (!line) continue;
        int met = does_what_it_says(&b, was, was->finding[k].id, line, rest);
        said++;
        covering += met > 0;
        several += met > 1;
        batches += strstr(b.text, "Makes:") != NULL;
        with_copper += strstr(line, "with copper") != NULL;
        together += strchr(line, '\n') != NULL;
      }
      arena_free(&arena);
    }
  print_message("%d remedies typed in: %d cover what they name, %d several at once, %d in batches, %d zinc with copper, "
                "%d two that go together\n",
                said, covering, several, batches, with_copper, together);
  assert_true(with_copper > 0);
  assert_true(said >= TRIED * 3 && covering >= TRIED && batches >= TRIED / 2);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(mended_bowls_are_dinners),
                                     cmocka_unit_test(remedies_do_what_they_say)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
