/* Every row of data/findings.tsv is raised by one recipe and not by a near one: raises.txt says which. A row without a case
 * fails, and so does a placeholder that nobody filled. Toxic food and cooked bone come first, whoever eats. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "review_kit.h"
#include "tests/support/fresh_arena.h"
#include "words/verdicts.h"

enum { CASES_MOST = 200 };

struct tried {
  struct span who; /* animal of animals.txt, "-" for none, "dog18" for one of which only the weight is known */
  enum standard_id standard;
  struct buf recipe;
};

struct raise_case {
  struct span row, id;
  struct tried raises, near;
};

static struct span animals, base[2];
static struct raise_case cases[CASES_MOST];
static size_t case_count;

/* ---- reading the file ------------------------------------------------------------------------------------------ */

static void start_side(struct tried *s, struct span words, enum standard_id standard) {
  s->who = span_trim(words);
  s->standard = standard;
  buf_init(&s->recipe, &arena, 1 << 16);
}

/* "Juniper aafco2016" */
static struct span standard_of(struct span words, enum standard_id *standard) {
  words = span_trim(words);
  *standard = STANDARD_NRC2006;
  for (size_t i = 0; i < words.n; i++)
    if (words.p[i] == ' ') {
      assert_true(span_is(span_trim(span_cut(words, i, words.n)), standard_key[STANDARD_AAFCO2016]));
      *standard = STANDARD_AAFCO2016;
      return span_cut(words, 0, i);
    }
  return words;
}

static bool holds(struct span line, struct span word) {
  for (size_t i = 0; i + word.n <= line.n; i++)
    if (memcmp(line.p + i, word.p, word.n) == 0) return true;
  return false;
}

/* Expands "@dog" less the lines that "-word" takes out. */
static void write_recipe(struct tried *s, struct span body) {
  struct span rest = body, line, base_line, minus;
  while (next_line(&rest, &line)) {
    if (line.n == 0) continue;
    if (line.p[0] == '-') continue;
    if (line.p[0] != '@') {
      buf_addf(&s->recipe, "%.*s\n", (int)line.n, line.p);
      continue;
    }
    struct span from = base[span_is(line, "@cat")];
    while (next_line(&from, &base_line)) {
      bool out = false;
      struct span again = body;
      while (next_line(&again, &minus))
        out |= minus.n > 1 && minus.p[0] == '-' && holds(base_line, span_cut(minus, 1, minus.n));
      if (!out) buf_addf(&s->recipe, "%.*s\n", (int)base_line.n, base_line.p);
    }
  }
}

static void read_title(struct raise_case *c, struct span line) {
  const char *close = memchr(line.p, ']', line.n), *equal = memchr(line.p, '=', line.n);
  assert_non_null(close);
  size_t end = (size_t)(close - line.p), cut = equal && equal < close ? (size_t)(equal - line.p) : end;
  c->row = span_cut(line, 1, cut);
  c->id = cut < end ? span_cut(line, cut + 1, end) : c->row;
  enum standard_id standard;
  struct span who = standard_of(span_cut(line, end + 1, line.n), &standard);
  start_side(&c->raises, who, standard);
}

static void read_cases(void) {
  struct span rest = review_file(REVIEW_FOLDER "raises.txt", &arena), line = {NULL, 0};
  struct raise_case *c = NULL;
  struct buf body;
  bool near = false;
  buf_init(&body, &arena, 1 << 16);
  for (bool more = true; more;) {
    more = next_line(&rest, &line);
    bool title = more && line.n > 0 && line.p[0] == '[';
    if (c && (title || !more)) write_recipe(&c->near, buf_span(&body));
    if (title) {
      assert_true(case_count < CASES_MOST);
      c = &cases[case_count++];
      read_title(c, line);
      near = false;
      buf_init(&body, &arena, 1 << 16);
    } else if (more && c && line.n >= 4 && memcmp(line.p, "near", 4) == 0 && !near) {
      near = true;
      write_recipe(&c->raises, buf_span(&body));
      buf_init(&body, &arena, 1 << 16);
      struct span words = span_trim(span_cut(line, 4, line.n));
      enum standard_id standard = c->raises.standard;
      struct span who = words.n ? standard_of(words, &standard) : c->raises.who;
      start_side(&c->near, who, standard);
    } else if (more && c && line.n > 0 && line.p[0] != '#') {
      buf_addf(&body, "%.*s\n", (int)line.n, line.p);
    }
  }
}

/* ---- checking -------------------------------------------------------------------------------------------------- */

static const struct check_result *check_side(struct tried *s) {
  struct check_options options = CHECK_OPTIONS_DEFAULT;
  options.standard = s->standard;
  if (!span_is(s->who, "dog18")) {
    bool nobody = span_is(s->who, "-");
    return review_check(buf_span(&s->recipe), nobody ? (struct span){NULL, 0} : animals,
                        nobody ? NULL : arena_text(&arena, s->who), options, &arena);
  }
  struct animal one = animal_plain(SPECIES_DOG, 18);
  struct app_check_request q = {
      .recipe = {"recipe", buf_span(&s->recipe)}, .one_off = &one, .ask = {.today = {2026, 11, 2}, .check = options}};
  struct app_check_answer a;
  app_check(built_library(), &q, &a, &arena);
  return a.result;
}

static const char *blank_in(const struct finding *f) {
  const char *text[] = {f->text, f->reason, f->remedy};
  for (size_t i = 0; i < COUNT_OF(text); i++)
    for (const char *at = text[i] ? strchr(text[i], '?') : NULL; at; at = strchr(at + 1, '?')) {
      bool question = at > text[i] && at[-1] >= 'a' && at[-1] <= 'z'; /* "How many days does it make?" */
      if (!question) return text[i];
    }
  return NULL;
}

static int complain(const struct raise_case *c, const char *what, const struct check_result *r) {
  fprintf(stderr, "  [%.*s] %s\n", (int)c->row.n, c->row.p, what);
  if (r) print_findings(r);
  return 1;
}

static int blanks(const struct raise_case *c, const struct check_result *r) {
  for (size_t i = 0; i < r->finding_count; i++) {
    const char *blank = blank_in(&r->finding[i]);
    if (blank) return complain(c, blank, NULL);
  }
  return 0;
}

static void each_row_is_raised_and_not_by_its_near(void **state) {
  (void)state;
  int wrong = 0;
  for (size_t i = 0; i < case_count; i++) {
    struct raise_case *c = &cases[i];
    const char *id = arena_text(&arena, c->id);
    const struct check_result *r = check_side(&c->raises), *near = check_side(&c->near);
    if (!r || !near) {
      wrong += complain(c, "a recipe was not understood", NULL);
      continue;
    }
    if (!finding_alone(r, id)) wrong += complain(c, "is not raised", r);
    if (place_of(near, id)) wrong += complain(c, "is raised by the near one", near);
    wrong += blanks(c, r) + blanks(c, near);
  }
  assert_int_equal(wrong, 0);
}

/* ---- what surfaces decide by stands beside the words, and says the same ---- */

static bool is_about(const struct finding *f, enum nutrient n) {
  for (size_t i = 0; i < f->nutrient_count; i++)
    if (f->nutrient[i] == n) return true;
  return false;
}

static const char *belied(const struct finding *f) {
  if (f->danger != (strncmp(f->text, f->asked ? "No: " : "Stop: ", f->asked ? 4 : 6) == 0)) return "'danger' is not what the sentence says";
  if (f->covers != (strstr(f->remedy, "would cover") != NULL)) return "'covers' is not what the remedy says";
  if (f->danger && !(f->bare[0] && f->advice[0] && f->about)) return "a danger says too little";
  if (f->danger && (span_holds_fold(span_of(f->bare), span_of("stop:")) || strstr(f->advice, "say so in the line")))
    return "the bare words of a danger hold what others say";
  for (int n = 0; n < NUT_COUNT; n++) {
    size_t k = strlen(nutrient_info[n].key);
    bool by_name = strncmp(f->id, nutrient_info[n].key, k) == 0 && f->id[k] == '-';
    if (by_name && !is_about(f, (enum nutrient)n)) return "does not say that it is about its own nutrient";
  }
  return NULL;
}

static void facts_stand_beside_the_words(void **state) {
  (void)state;
  int wrong = 0, dangers = 0, covers = 0, hearsay = 0;
  for (size_t i = 0; i < case_count; i++) {
    const struct check_result *r = check_side(&cases[i].raises);
    for (size_t k = 0; r && k < r->finding_count; k++) {
      const struct finding *f = &r->finding[k];
      const char *what = belied(f);
      if (what) wrong += complain(&cases[i], what, NULL);
      dangers += f->danger;
      covers += f->covers;
      hearsay += f->named_only;
    }
  }
  assert_int_equal(wrong, 0);
  assert_true(dangers > 5 && covers > 20 && hearsay > 0);
}

/* ---- a remedy says "less of" nothing but what stands in the recipe ---- */

/* Word by word: "salt, not iodised" of the recipe is "salt not iodised" in a sentence. */
static bool stands_in(struct span recipe, struct span food) {
  food = span_trim(food);
  if (span_starts_fold(food, "the ") || span_starts_fold(food, "what ")) return true;
  while (food.n > 0) {
    const char *space = memchr(food.p, ' ', food.n);
    size_t n = space ? (size_t)(space - food.p) : food.n;
    if (!span_holds_fold(recipe, span_cut(food, 0, n))) return false;
    food = span_trim(span_cut(food, n, food.n));
  }
  return true;
}

/* "beef liver and eggs" behind such words, up to the next mark. */
static bool names_what_is_there(struct span recipe, const char *remedy, const char *words) {
  for (const char *at = strstr(remedy, words); at; at = strstr(at + 1, words)) {
    const char *from = at + strlen(words);
    struct span rest = {from, strcspn(from, ".,;(")}, food;
    while (rest.n > 0) {
      const char *and = strstr(rest.p, " and ");
      size_t n = and&&and < rest.p + rest.n ? (size_t)(and-rest.p) : rest.n;
      food = span_cut(rest, 0, n);
      if (!stands_in(recipe, food)) return false;
      rest = n < rest.n ? span_cut(rest, n + 5, rest.n) : (struct span){NULL, 0};
    }
  }
  return true;
}

static void remedies_cut_back_only_what_is_there(void **state) {
  (void)state;
  static const char *const WORDS[] = {"ut back on ", "or less of ", "cutting back a little on "};
  int wrong = 0, seen = 0;
  for (size_t i = 0; i < case_count; i++) {
    struct tried *side = &cases[i].raises;
    const struct check_result *r = check_side(side);
    for (size_t k = 0; r && k < r->finding_count; k++)
      for (size_t w = 0; w < COUNT_OF(WORDS); w++) {
        seen += strstr(r->finding[k].remedy, WORDS[w]) != NULL;
        if (names_what_is_there(buf_span(&side->recipe), r->finding[k].remedy, WORDS[w])) continue;
        wrong += complain(&cases[i], r->finding[k].remedy, NULL);
      }
  }
  assert_true(seen > 10);
  assert_int_equal(wrong, 0);
}

/* ---- what another amount would change is what the check of that amount says ---- */

static const struct {
  const char *food;
  double grams;
} BOWL[] = {{"beef mince, 85% lean, raw", 90}, {"beef liver, raw", 12}, {"spinach, raw", 40}, {"cooked white rice", 60}};

static const struct check_result *bowl_times(double times) {
  struct tried s;
  start_side(&s, SPAN_LIT("Juniper"), STANDARD_NRC2006);
  for (size_t i = 0; i < COUNT_OF(BOWL); i++) buf_addf(&s.recipe, "%.4f g %s\n", BOWL[i].grams * times, BOWL[i].food);
  return check_side(&s);
}

static const char *energy_remedy(const struct check_result *r) {
  for (size_t i = 0; i < r->finding_count; i++)
    if (strncmp(r->finding[i].id, "energy-", 7) == 0 && strstr(r->finding[i].remedy, "of this same food"))
      return r->finding[i].remedy;
  return NULL;
}

/* Names between two marks: each one that stands there, and "N more". */
static int names_between(const char *from, const char *to) {
  int names = 1;
  for (const char *at = from; at < to; at++) {
    bool and = strncmp(at, " and ", 5) == 0;
    names += *at == ',' || and;
    if (and&&at[5] >= '0' && at[5] <= '9') names += atoi(at + 5) - 1;
  }
  return names;
}

static void the_amount_that_is_needed_is_told_as_it_is_judged(void **state) {
  (void)state;
  static const double TIMES[] = {1, 6};
  for (size_t i = 0; i < COUNT_OF(TIMES); i++) {
    const struct check_result *r = bowl_times(TIMES[i]);
    assert_non_null(r);
    const struct check_result *right = bowl_times(TIMES[i] * r->energy.need.kcal / r->energy.supply_kcal);
    assert_non_null(right);
    const char *words = energy_remedy(r);
    assert_non_null(words);
    const char *freed = strstr(words, " would no longer be short, but "), *end = strstr(words, " still would");
    const char *food = strstr(words, "of this same food ") + strlen("of this same food ");
    int low = right->verdict_count[VERDICT_SHORT], was = r->verdict_count[VERDICT_SHORT];
    if (TIMES[i] > 1) {
      const char *within = strstr(words, " would be within the limit, but ");
      if (within) food = within + strlen(" would be within the limit, but ");
      assert_int_equal(names_between(food, strstr(words, " would be short")), low);
      continue;
    }
    assert_true(freed && end);
    assert_int_equal(names_between(food, freed), was - low);
    assert_int_equal(names_between(freed + strlen(" would no longer be short, but "), end), low);
  }
}

static void every_row_has_a_case(void **state) {
  (void)state;
  const struct library *lib = built_library();
  const struct img_finding *rows = IMG_ROWS(&lib->image, IMG_FINDINGS, struct img_finding);
  int lacking = 0;
  for (size_t i = 0; i < img_count(&lib->image, IMG_FINDINGS); i++) {
    bool found = false;
    for (size_t k = 0; k < case_count; k++) found |= span_is(cases[k].row, lib_str(lib, rows[i].id));
    if (!found) fprintf(stderr, "  no case for '%s'\n", lib_str(lib, rows[i].id));
    lacking += !found;
  }
  assert_true(case_count > 0);
  assert_int_equal(lacking, 0);
}

/* A puppy gets no verdict, but poison is poison. */
static void dangers_come_first_whoever_eats(void **state) {
  (void)state;
  static const char *const WHO[] = {"Pup", "Juniper", "Pim", "-"};
  static const char TEXT[] = "300 g chicken breast, boiled\n30 g onion, raw\n100 g chicken drumsticks, roasted, bone-in\n";
  for (size_t i = 0; i < COUNT_OF(WHO); i++) {
    struct tried s;
    start_side(&s, span_of(WHO[i]), STANDARD_NRC2006);
    buf_adds(&s.recipe, TEXT);
    const struct check_result *r = check_side(&s);
    assert_non_null(r);
    assert_true(r->finding_count >= 2);
    assert_string_equal(r->finding[0].id, "toxic-food");
    assert_string_equal(r->finding[1].id, "cooked-bone");
    assert_true(r->finding[0].line == 2 && findings_mark_line(r, 2) && findings_mark_line(r, 3) &&
                !findings_mark_line(r, 1));
    assert_non_null(strstr(words_lead(r, &arena), "Do not feed this as it is: onion and cooked bone."));
    if (strcmp(WHO[i], "Pup") != 0) continue;
    assert_int_equal(r->refusal, REFUSE_GROWTH);
    for (int k = 0; k < NUT_COUNT; k++) assert_int_equal(r->nutrient[k].verdict, VERDICT_NO_FIGURE);
  }
}

/* A line split in two says the same, but for the figures' last digits: what rests on a food rests on all its lines. */
static void one_food_on_two_lines_is_one_food(void **state) {
  (void)state;
  static const char *const LIVER[] = {"24 g beef liver [usda:13325]\n",
                                      "12 g beef liver [usda:13325]\n12 g beef liver [usda:13325]\n"};
  for (size_t i = 0; i < COUNT_OF(LIVER); i++) {
    struct tried s;
    start_side(&s, SPAN_LIT("Juniper"), STANDARD_NRC2006);
    buf_addf(&s.recipe, "400 g chicken thighs, skin on, raw\n200 g rice, cooked\n%s", LIVER[i]);
    const struct check_result *r = check_side(&s);
    assert_non_null(r);
    assert_true(place_of(r, "rests-on-one-food") > 0);
  }
}

/* Four pieces of one cut vary as one: the band of the calcium is that of the whole weight on one line. */
static void pieces_of_one_cut_vary_together(void **state) {
  (void)state;
  static const char *const TEXT[] = {"200 g chicken wings, raw, bone-in\n",
                                     "50 g chicken wings, raw, bone-in\n50 g chicken wings, raw, bone-in\n"
                                     "50 g chicken wings, raw, bone-in\n50 g chicken wings, raw, bone-in\n"};
  const struct nutrient_result *ca[2];
  for (size_t i = 0; i < COUNT_OF(TEXT); i++) {
    struct tried s;
    start_side(&s, SPAN_LIT("Juniper"), STANDARD_NRC2006);
    buf_adds(&s.recipe, TEXT[i]);
    const struct check_result *r = check_side(&s);
    assert_non_null(r);
    ca[i] = &r->nutrient[NUT_CALCIUM];
  }
  assert_true(fabs(ca[0]->amount - ca[1]->amount) < 1e-9 * ca[0]->amount);
  assert_true(fabs(ca[0]->low - ca[1]->low) < 1e-6 * ca[0]->low);
  assert_true(fabs(ca[0]->high - ca[1]->high) < 1e-6 * ca[0]->high);
}

/* Each needs a source and a confidence that a reader can look up. */
static void every_row_names_its_source(void **state) {
  (void)state;
  const struct library *lib = built_library();
  const struct img_finding *rows = IMG_ROWS(&lib->image, IMG_FINDINGS, struct img_finding);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FINDINGS); i++) {
    assert_true(rows[i].source != 0);
    assert_true(lib_str(lib, rows[i].words)[0] != '\0');
  }
}

/* docs/method/findings.md tells when each is raised. */
static void every_row_is_documented(void **state) {
  (void)state;
  const struct library *lib = built_library();
  const struct img_finding *rows = IMG_ROWS(&lib->image, IMG_FINDINGS, struct img_finding);
  const char *text = review_file(BW_SOURCE_DIR "/docs/method/findings.md", &arena).p;
  for (size_t i = 0; i < img_count(&lib->image, IMG_FINDINGS); i++) {
    struct buf cell;
    buf_init(&cell, &arena, 128);
    buf_addf(&cell, "| `%s` |", lib_str(lib, rows[i].id));
    if (!strstr(text, buf_text(&cell))) fail_msg("docs/method/findings.md has no row for %s", lib_str(lib, rows[i].id));
  }
}

static int start(void **state) {
  fresh(state);
  animals = review_file(REVIEW_FOLDER "animals.txt", &arena);
  base[0] = review_file(REVIEW_FOLDER "base-dog.recipe", &arena);
  base[1] = review_file(REVIEW_FOLDER "base-cat.recipe", &arena);
  read_cases();
  return 0;
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_row_has_a_case),
      cmocka_unit_test(every_row_names_its_source),
      cmocka_unit_test(every_row_is_documented),
      cmocka_unit_test(each_row_is_raised_and_not_by_its_near),
      cmocka_unit_test(facts_stand_beside_the_words),
      cmocka_unit_test(the_amount_that_is_needed_is_told_as_it_is_judged),
      cmocka_unit_test(remedies_cut_back_only_what_is_there),
      cmocka_unit_test(dangers_come_first_whoever_eats),
      cmocka_unit_test(one_food_on_two_lines_is_one_food),
      cmocka_unit_test(pieces_of_one_cut_vary_together),
  };
  return cmocka_run_group_tests(tests, start, done);
}
