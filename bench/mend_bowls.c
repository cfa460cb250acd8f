/* Mends the bowls of tests/mend/bowls.h and prints what became of each: one line of tab-separated figures a bowl.
 * Usage: bench_mend LIBRARY [FIRST COUNT [--text]] */
#include <stdio.h>
#include <stdlib.h>

#include "app/app_mend.h"
#include "bench/bench_kit.h"
#include "review/findings.h"
#include "tests/mend/bowls.h"

/* The line with the most grams of flesh or fish: what people call the dinner. */
static int main_line(const struct library *lib, const struct ration *r) {
  int best = -1;
  double most = 0;
  for (size_t i = 0; i < r->line_count; i++) {
    double g = ration_line_grams_per_day(&r->line[i]);
    enum part p = (enum part)library_food(lib, r->line[i].shown_food)->part;
    if ((p == PART_MUSCLE || p == PART_FISH) && g > most) {
      most = g;
      best = (int)i;
    }
  }
  return best;
}

static double kept_share(const struct mend_proposal *p, int line) {
  for (size_t i = 0; i < p->count; i++)
    if (p->change[i].line == line) return p->change[i].to_g / p->change[i].from_g;
  return 1;
}

static int added_lines(const struct mend_proposal *p) {
  int n = 0;
  for (size_t i = 0; i < p->count; i++) n += p->change[i].line < 0;
  return n;
}

/* Of what is added, foods that have to be bought and prepared. */
static int added_foods(const struct library *lib, const struct mend_proposal *p, const struct ration *before) {
  int n = 0;
  for (size_t i = 0; i < p->ration->line_count; i++)
    n += library_food(lib, p->ration->line[i].shown_food)->part != PART_SUPPLEMENT;
  for (size_t i = 0; i < before->line_count; i++)
    n -= library_food(lib, before->line[i].shown_food)->part != PART_SUPPLEMENT;
  for (size_t i = 0; i < p->count; i++)
    n += p->change[i].line >= 0 && !(p->change[i].to_g > 0) &&
         library_food(lib, before->line[p->change[i].line].shown_food)->part != PART_SUPPLEMENT;
  return n;
}

/* Lines of the owner's that go, though they are no danger. */
static int taken_out(const struct mend_proposal *p) {
  int n = 0;
  for (size_t i = 0; i < p->count; i++)
    n += p->change[i].line >= 0 && !(p->change[i].to_g > 0) && !p->change[i].danger && !p->change[i].unmeasured;
  return n;
}

/* Does it speak of how sure the figures are, rather than of the food? */
static bool of_certainty(const struct finding *f) {
  static const char *const ID[] = {"less-food", "other-records", "rests-on-one-food"};
  for (size_t i = 0; i < COUNT_OF(ID); i++)
    if (strcmp(f->id, ID[i]) == 0) return true;
  return false;
}

/* Findings that the new text has and the old one had not. */
static int new_findings(const struct check_result *before, const struct check_result *after, enum finding_weight weight,
                        bool certainty, bool tell) {
  int n = 0;
  for (size_t i = 0; i < after->finding_count; i++) {
    const struct finding *f = &after->finding[i];
    if (f->weight != weight || of_certainty(f) != certainty || findings_say(before, f->id)) continue;
    if (tell) fprintf(stderr, "%s: %s\n", f->id, f->text);
    n++;
  }
  return n;
}

static void one(const struct library *lib, int number, bool text) {
  static const char *const STANDARD[] = {"nrc", "fediaf", "aafco"};
  static const char *const STATUS[] = {"found", "none", "stopped", "refused", "not-linear"};
  struct arena arena;
  arena_init(&arena, NULL);
  struct bowl b = bowl_of(lib, number, &arena);
  struct app_mend_request q = {.one_way = true};
  struct app_mend_answer a;
  q.check.recipe = (struct app_input){"bowl", span_of(b.text)};
  q.check.one_off = &b.animal;
  q.check.ask.check = CHECK_OPTIONS_DEFAULT;
  q.check.ask.check.standard = b.standard;
  double began = bench_seconds(CLOCK_PROCESS_CPUTIME_ID);
  app_mend(lib, &q, &a, &arena);
  double took = bench_seconds(CLOCK_PROCESS_CPUTIME_ID) - began;
  if (text)
    printf("\n%s %.1f kg, %s\n%s", b.animal.species == SPECIES_CAT ? "cat" : "dog", b.animal.weight_kg, STANDARD[b.standard],
           b.text);
  if (!a.understood) {
    struct buf why;
    buf_init(&why, &arena, 10000);
    diags_print(&a.check.recipe_diags, &why, true);
    printf("%d\tunread\n%s\n", number, buf_text(&why));
  } else {
    const struct mended_answer *m = &a.answer;
    const struct mend_proposal *p = m->count > 0 ? m->found[0].proposal : NULL;
    int main_meat = main_line(lib, m->before->ration);
    printf("%d\t%s\t%.1f\t%s\t%s\t%s\t%.3f", number, b.animal.species == SPECIES_CAT ? "cat" : "dog", b.animal.weight_kg,
           STANDARD[b.standard], m->mend->already_met ? "met" : STATUS[m->mend->status],
           bowl_held_aside(number) ? "aside" : "open", took);
    if (p)
      printf("\t%.3f\t%d\t%zu\t%d\t%zu\t%d\t%d\t%d\t%d\t%d\t%.2f", main_meat >= 0 ? kept_share(p, main_meat) : 1, added_lines(p),
             p->count, p->fewest_proven, m->found[0].ask_count, added_foods(lib, p, m->before->ration), taken_out(p),
             new_findings(m->before, m->found[0].after, FINDING_ACT, false, text),
             new_findings(m->before, m->found[0].after, FINDING_WATCH, false, text),
             new_findings(m->before, m->found[0].after, FINDING_WATCH, true, text), m->found[0].pills);
    printf("\n");
    if (p && text) printf("--\n%s", m->found[0].text);
  }
  fflush(stdout);
  arena_free(&arena);
}

int main(int argc, char **argv) {
  if (argc < 2) return EXIT_FAILURE;
  struct library lib = bench_library(argv[1]);
  int first = argc > 3 ? atoi(argv[2]) : 0, count = argc > 3 ? atoi(argv[3]) : BOWLS;
  for (int i = first; i < first + count; i++) one(&lib, i, argc > 4);
  return EXIT_SUCCESS;
}
