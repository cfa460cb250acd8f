/* blanks_trial: what the estimates of the food library are worth.
 *
 *   blanks_trial PACKAGES_DIR DATA_DIR --choose > tests/blanks/held.tsv     chooses the values, by a fixed seed
 *   blanks_trial PACKAGES_DIR DATA_DIR HELD.tsv [open|sealed] [--each]      blanks them all, estimates, compares
 *   ... --require ESTIMATED MEDIAN BAND_LOW BAND_HIGH                       ends with 1 unless the figures are as good (per
 * cent)
 *
 * The held values are published figures of raw meats, organs, fish and vegetables. They are made unknown before anything
 * is estimated, so nothing learns from them. Half of the foods are "open" and may guide a choice of method; the others
 * are "sealed". Layer: bench; links the builder. */
#define _POSIX_C_SOURCE 200809L
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/num.h"
#include "library/patterns.h"
#include "library/spread.h"

static void out_of_memory(void) { build_fail("out of memory"); }

enum section { SECTION_MEAT, SECTION_ORGAN, SECTION_FISH, SECTION_VEGETABLE, SECTION_COUNT };
static const char *const SECTION_WORD[SECTION_COUNT] = {"meat", "organ", "fish", "vegetable"};

static enum section section_of(const struct build_food *f) {
  switch ((enum part)f->food.part) {
  case PART_MUSCLE:
    return SECTION_MEAT;
  case PART_ORGAN_LIVER:
  case PART_ORGAN_SECRETING:
  case PART_ORGAN_OTHER:
    return SECTION_ORGAN;
  case PART_FISH:
    return SECTION_FISH;
  case PART_VEGETABLE:
    return SECTION_VEGETABLE;
  default:
    return SECTION_COUNT;
  }
}

/* ---- choosing ---------------------------------------------------------------------------------------------------- */

enum { FOODS_A_SECTION = 60, VALUES_A_FOOD = 6 }; /* of each draw */
static unsigned long long seed = 20261128;

static double unit_random(void) {
  seed = seed * 6364136223846793005ull + 1442695040888963407ull;
  return (double)(seed >> 11) / 9007199254740992.0;
}

/* Energy and the parts of 100 g are what estimates start from; vitamin A is computed, never stored. */
static bool is_held_nutrient(enum nutrient n) {
  enum nutrient_group g = nutrient_info[n].group;
  return blanks_is_estimated(n) && (g == NG_MINERAL || g == NG_TRACE || g == NG_VITAMIN);
}

static bool is_held_value(const struct build_food *f, enum nutrient n) {
  return is_held_nutrient(n) && f->value[n].status == VALUE_MEASURED && f->value[n].mean > 0;
}

static bool may_be_held(const struct build_food *f, enum section s) {
  return section_of(f) == s && f->food.state == STATE_RAW && blanks_is_plain(f) && strncmp(f->code, "usda:", 5) == 0;
}

/* Kinds take turns, so that 400 records of beef do not crowd out the one of goat: kind and the first two words. */
static int kin_of(const struct build_food *f, const char **name, int *names) {
  char key[120];
  size_t comma = strcspn(f->name, ","), end = f->name[comma] ? comma + 1 + strcspn(f->name + comma + 1, ",") : comma;
  snprintf(key, sizeof key, "%s:%.*s", kind_word[f->food.kind], f->food.kind == KIND_FISH ? (int)end : (int)comma, f->name);
  for (int i = 0; i < *names; i++)
    if (strcmp(name[i], key) == 0) return i;
  name[*names] = strdup(key);
  return (*names)++;
}

static void shuffle(size_t *x, size_t n) {
  for (size_t i = n; i > 1; i--) {
    size_t j = (size_t)(unit_random() * (double)i), keep = x[i - 1];
    x[i - 1] = x[j];
    x[j] = keep;
  }
}

enum draw { DRAW_KINDS, DRAW_RECORDS, DRAW_COUNT };
static const char *const DRAW_WORD[DRAW_COUNT] = {"kinds", "records"};

static void print_values(const struct build_food *f, enum section s, enum draw d, int turn) {
  size_t value[NUT_COUNT], values = 0;
  for (int n = 0; n < NUT_COUNT; n++)
    if (is_held_value(f, (enum nutrient)n)) value[values++] = (size_t)n;
  shuffle(value, values);
  for (size_t i = 0; i < values && i < VALUES_A_FOOD; i++)
    printf("%s\t%s\t%s\t%s\t%s\t%s\n", f->code, nutrient_info[value[i]].key, SECTION_WORD[s], DRAW_WORD[d],
           turn % 2 ? "sealed" : "open", f->name);
}

static void choose_section(const struct foods_build *b, enum section s) {
  size_t *food = malloc(b->count * sizeof *food), foods = 0;
  const char **name = malloc(b->count * sizeof *name);
  int *kin = malloc(b->count * sizeof *kin), names = 0, taken = 0;
  if (!food || !name || !kin) out_of_memory();
  for (size_t i = 0; i < b->count; i++)
    if (may_be_held(&b->food[i], s)) food[foods++] = i;
  shuffle(food, foods);
  for (size_t i = 0; i < foods; i++) kin[i] = kin_of(&b->food[food[i]], name, &names);
  while (taken < FOODS_A_SECTION && foods > 0) {
    bool *had = calloc((size_t)names, sizeof *had); /* one food of each kind a round */
    size_t left = 0;
    for (size_t i = 0; i < foods; i++) {
      if (taken < FOODS_A_SECTION && !had[kin[i]]) {
        print_values(&b->food[food[i]], s, DRAW_KINDS, taken++);
        had[kin[i]] = true;
      } else {
        kin[left] = kin[i];
        food[left++] = food[i];
      }
    }
    foods = left;
    free(had);
  }
  for (size_t i = 0; i < foods && i < FOODS_A_SECTION; i++) print_values(&b->food[food[i]], s, DRAW_RECORDS, (int)i);
  for (int i = 0; i < names; i++) free((void *)(uintptr_t)name[i]);
  free(food);
  free(kin);
  free((void *)(uintptr_t)name);
}

static void choose(const struct foods_build *b) {
  printf("# Published values that are made unknown before anything is estimated, and then compared with the estimates.\n"
         "# Chosen by bench/blanks_trial.c --choose, seed 20261128: %d raw foods a section, kinds taking turns, %d values "
         "each.\n"
         "# set: 'open' may guide a choice of method, 'sealed' may not.\n"
         "code\tnutrient\tsection\tdraw\tset\tname\n",
         FOODS_A_SECTION, VALUES_A_FOOD);
  for (enum section s = SECTION_MEAT; s < SECTION_COUNT; s++) choose_section(b, s);
}

/* ---- the trial --------------------------------------------------------------------------------------------------- */

struct held {
  size_t food;
  enum nutrient nutrient;
  enum section section;
  enum draw draw;
  bool sealed;
  double truth;
};

static size_t blank(struct foods_build *b, const struct tsv *t, struct held *held) {
  static const char *const SET_WORD[] = {"open", "sealed"};
  for (size_t i = 0; i < t->rows; i++) {
    struct build_food *f = foods_by_code(b, arena_text(b->arena, tsv_cell(t, i, "code")));
    enum nutrient n = nutrient_by_key(tsv_cell(t, i, "nutrient"));
    if (!f || n == NUT_NONE || f->value[n].status != VALUE_MEASURED) tsv_fail(t, i, "no published value");
    held[i] = (struct held){(size_t)(f - b->food),
                            n,
                            (enum section)tsv_word(t, i, "section", SECTION_WORD, SECTION_COUNT),
                            (enum draw)tsv_word(t, i, "draw", DRAW_WORD, DRAW_COUNT),
                            tsv_word(t, i, "set", SET_WORD, 2) == 1,
                            f->value[n].mean};
    f->value[n] = (struct img_value){.mean = NAN, .status = VALUE_UNKNOWN};
  }
  return t->rows;
}

struct score {
  int values, estimated, held_in; /* in the 5-95 band */
  double *error;
};

static void add(struct score *s, const struct build_food *f, const struct held *h) {
  const struct img_value *v = &f->value[h->nutrient];
  s->values++;
  if (v->status != VALUE_ESTIMATED) return;
  double mean = v->mean, sigma = sqrt(log1p(img_cv(*v) * img_cv(*v)));
  double away = fabs(log(h->truth / mean) + sigma * sigma / 2);
  s->held_in += away <= 1.6449 * sigma;
  s->error[s->estimated++] = fabs(mean - h->truth) / h->truth;
}

static void print_score(const char *name, struct score *s) {
  double half = quantile(s->error, (size_t)s->estimated, 0.5), most = quantile(s->error, (size_t)s->estimated, 0.9);
  printf("%-16s %5d  %5.1f %%   %5.1f %%  %6.1f %%   %5.1f %%\n", name, s->values, 100.0 * s->estimated / s->values,
         100 * half, 100 * most, 100.0 * s->held_in / s->estimated);
}

struct filter { /* -1: any */
  int want, draw, section, nutrient;
};

static bool fits(int wanted, int has) { return wanted < 0 || wanted == has; }

static struct score score_of(const struct foods_build *b, const struct held *h, size_t n, struct filter f, double *room) {
  struct score s = {.error = room};
  for (size_t i = 0; i < n; i++)
    if (fits(f.want, h[i].sealed) && fits(f.draw, (int)h[i].draw) && fits(f.section, (int)h[i].section) &&
        fits(f.nutrient, (int)h[i].nutrient))
      add(&s, &b->food[h[i].food], &h[i]);
  return s;
}

static void print_scores(const struct foods_build *b, const struct held *h, size_t n, int want, bool each) {
  static const char *const WORD[] = {"both sets", "open", "sealed"};
  double *room = malloc((n + 1) * sizeof *room);
  if (!room) out_of_memory();
  printf("%-16s %5s  %7s   %7s  %8s   %7s\n", WORD[want + 1], "held", "estim.", "median", "9 in 10", "in band");
  for (int d = 0; d < DRAW_COUNT; d++) {
    printf("%s\n", d == DRAW_KINDS ? "- kinds taking turns" : "- as the tables have them");
    for (int k = 0; k <= SECTION_COUNT; k++) {
      struct score x = score_of(b, h, n, (struct filter){want, d, k < SECTION_COUNT ? k : -1, -1}, room);
      if (x.values > 0) print_score(k < SECTION_COUNT ? SECTION_WORD[k] : "all", &x);
    }
  }
  if (each) printf("- all, by nutrient\n");
  for (int k = 0; each && k < NUT_COUNT; k++) {
    struct score x = score_of(b, h, n, (struct filter){want, -1, -1, k}, room);
    if (x.values > 0) print_score(nutrient_info[k].key, &x);
  }
  free(room);
}

/* Of the draw as the tables have them. */
static bool is_good_enough(const struct foods_build *b, const struct held *h, size_t n, int want, char **figure) {
  double *room = malloc((n + 1) * sizeof *room);
  if (!room) out_of_memory();
  struct score s = score_of(b, h, n, (struct filter){want, DRAW_RECORDS, -1, -1}, room);
  double estimated = 100.0 * s.estimated / s.values, band = 100.0 * s.held_in / s.estimated;
  double median = 100 * quantile(s.error, (size_t)s.estimated, 0.5);
  free(room);
  return estimated >= atof(figure[0]) && median <= atof(figure[1]) && band >= atof(figure[2]) && band <= atof(figure[3]);
}

int main(int argc, char **argv) {
  if (argc < 4) {
    fprintf(stderr, "usage: blanks_trial PACKAGES_DIR DATA_DIR --choose | HELD.tsv [open|sealed] [--each]\n");
    return 2;
  }
  struct arena arena;
  struct writer w;
  struct foods_build b;
  arena_init(&arena, out_of_memory);
  writer_init(&w, &arena);
  sources_read(&w, argv[2]);
  foods_gather(&b, &w, argv[1], argv[2]);
  if (strcmp(argv[3], "--choose") == 0) {
    choose(&b);
  } else {
    static const char *const WANTED[] = {"code", "nutrient", "section", "draw", "set", "name", NULL};
    struct tsv t;
    int want = -1, required = 0;
    bool each = false;
    for (int i = 4; i < argc; i++) {
      if (strcmp(argv[i], "open") == 0) want = 0;
      if (strcmp(argv[i], "sealed") == 0) want = 1;
      each |= strcmp(argv[i], "--each") == 0;
      if (strcmp(argv[i], "--require") == 0 && i + 4 < argc) required = i + 1;
    }
    tsv_read(&t, argv[3], WANTED, &arena);
    struct held *held = ARENA_NEW(&arena, struct held, t.rows);
    size_t n = blank(&b, &t, held);
    foods_estimate(&b, argv[2]);
    print_scores(&b, held, n, want, each);
    if (required && !is_good_enough(&b, held, n, want, argv + required)) return 1;
  }
  arena_free(&arena);
  return 0;
}
