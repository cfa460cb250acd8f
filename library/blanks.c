/* blanks.c: what a published record leaves blank, estimated from its nearest relatives: the same cut, the same kind, the
 * class, the nearest in composition, or the same food raw. Each is tried on values that are printed, each of these left
 * out in turn; the one that erred least fills the blank, and its error becomes part of the value's spread. */
#include <math.h>
#include <stdlib.h>

#include "base/table.h"
#include "library/stand_in.h"

enum { LEAST_RECORDS = 6 };
static const double WIDEST_BLANK_ERROR = 1.2; /* wider than that, "unknown" is the truer word */

/* Iodine, chloride, taurine and biotin are no columns of the large table: cited.c looks after them. */
bool blanks_is_estimated(enum nutrient n) {
  static const enum nutrient OTHERS[] = {NUT_VITAMIN_A, NUT_IODINE, NUT_CHLORIDE, NUT_BIOTIN};
  for (size_t i = 0; i < COUNT_OF(OTHERS); i++)
    if (OTHERS[i] == n) return false;
  enum nutrient_group g = nutrient_info[n].group;
  bool fat_kind = n == NUT_SATURATED || n == NUT_MONOUNSATURATED || n == NUT_POLYUNSATURATED || n == NUT_CHOLESTEROL;
  return g == NG_MINERAL || g == NG_TRACE || g == NG_VITAMIN || g == NG_OTHER || fat_kind || n == NUT_ASH;
}

/* The Indian tables teach plants only: docs/method/foods.md says why. */
static bool can_teach(const struct build_food *f) {
  return f->food.kind == KIND_PLANT ? strncmp(f->code, "ours:", 5) != 0 : strncmp(f->code, "usda:", 5) == 0;
}

/* ---- one class and preparation ------------------------------------------------------------------------------------ */

struct choice {
  enum stand_in how;
  int base;
  int level; /* place in the list of classes whose records teach: 0 the own class, then its parents */
  struct stand_trial trial;
  double error;
};
enum { MOST_CHOICES = 200, MOST_LEVELS = 8, MIXED = 3 };

/* One choice, or up to three that are averaged. */
struct mixture {
  int choice[MIXED], count;
  double error;
  size_t judged;
  int row; /* of IMG_PATTERNS once it has been used, -1 before */
};
enum { MOST_MIXTURES = 400 };

struct filling {
  struct foods_build *b;
  const struct pattern_classes *classes;
  struct kinship kinship;
  struct features *features;
  struct pattern_rows *rows;
  struct arena scratch;
};

static int by_kin(const void *a, const void *b) {
  const struct teacher *x = a, *y = b;
  if (x->kin != y->kin) return x->kin < y->kin ? -1 : 1;
  if (x->cut != y->cut) return x->cut < y->cut ? -1 : 1;
  return (x->food > y->food) - (x->food < y->food);
}

static void set_scale(struct stand_scene *s) {
  for (int k = 0; k < FEATURES; k++) {
    double sum = 0, squares = 0;
    int n = 0;
    for (size_t i = 0; i < s->teachers; i++) {
      double x = (double)s->features[s->teacher[i].food].x[k];
      if (!isfinite(x)) continue;
      sum += x;
      squares += x * x;
      n++;
    }
    double variance = n > 1 ? (squares - sum * sum / n) / (n - 1) : 0;
    s->scale.x[k] = (float)sqrt(fmax(variance, 0.01));
  }
}

/* Records of class 'level' and that preparation that print the nutrient. */
static struct stand_scene scene_of(struct filling *f, int level, enum preparation prep, enum nutrient n) {
  struct stand_scene s = {.kinship = &f->kinship, .features = f->features, .nutrient = n};
  size_t cap = 0;
  for (size_t i = 0; i < f->b->count; i++) {
    const struct build_food *food = &f->b->food[i];
    int own = f->classes->of_food[i];
    if (own < 0 || f->kinship.kin[i] < 0 || food->value[n].status != VALUE_MEASURED) continue;
    if (preparation_of(food) != prep || !can_teach(food) || !pattern_class_holds(f->classes, level, own)) continue;
    ARENA_PUSH(&f->scratch, s.teacher, s.teachers, cap, stand_in_teacher(f->b, &f->kinship, (uint32_t)i, n));
  }
  if (s.teachers > 0) qsort(s.teacher, s.teachers, sizeof *s.teacher, by_kin);
  set_scale(&s);
  return s;
}

/* Who judges: records of the own class, a few of each kin (of each cut within one kin), so that none outvotes the rest.
 * False when they are too few. */
static bool pick_judges(const struct filling *f, const struct stand_scene *s, int class, enum stand_in how, bool *judge) {
  enum { A_KIN = 8, A_CUT = 3, LEAST_KINS = 3, LEAST_CUTS = 4, MOST = 160 };
  bool within = how == STAND_CUT || how == STAND_KIN || how == STAND_NEAR;
  int last_kin = -1, last_cut = -1, of_kin = 0, of_cut = 0, kins = 0, cuts = 0, n = 0;
  for (size_t i = 0; i < s->teachers; i++) {
    const struct teacher *t = &s->teacher[i];
    judge[i] = false;
    if (!pattern_class_holds(f->classes, class, f->classes->of_food[t->food])) continue;
    kins += t->kin != last_kin;
    cuts += t->cut != last_cut;
    of_kin = t->kin != last_kin ? 0 : of_kin;
    of_cut = t->cut != last_cut ? 0 : of_cut;
    last_kin = t->kin;
    last_cut = t->cut;
    if (within ? of_cut >= A_CUT : of_kin >= A_KIN) continue;
    if (n >= MOST) continue;
    judge[i] = true;
    of_kin++;
    of_cut++;
    n++;
  }
  return within ? cuts >= LEAST_CUTS : kins >= LEAST_KINS;
}

static void add_choices(struct filling *f, const struct stand_scene *s, const int *class, int level, struct choice *choice,
                        int *count) {
  bool *judge = ARENA_NEW(&f->scratch, bool, s->teachers + 1);
  for (enum stand_in how = STAND_CUT; how < STAND_COUNT; how++) {
    struct stand_trial trial[STAND_BASES];
    int at = 0; /* the finest class with enough judges */
    while (at <= level && !pick_judges(f, s, class[at], how, judge)) at++;
    if (at > level) continue;
    stand_in_try(s, how, judge, trial, &f->scratch);
    for (int i = 0; i < STAND_BASES && *count < MOST_CHOICES; i++) {
      double error = stand_in_error(&trial[i], &f->scratch);
      if (error < WIDEST_BLANK_ERROR) choice[(*count)++] = (struct choice){how, i, level, trial[i], error};
    }
  }
}

static int by_error(const void *a, const void *b) {
  double x = ((const struct choice *)a)->error, y = ((const struct choice *)b)->error;
  return (x > y) - (x < y);
}

static int by_mixed_error(const void *a, const void *b) {
  double x = ((const struct mixture *)a)->error, y = ((const struct mixture *)b)->error;
  return (x > y) - (x < y);
}

/* Mean error on what all members were tried on. */
static struct stand_trial joined(const struct choice *choice, const struct mixture *m, struct arena *scratch) {
  const struct stand_trial *first = &choice[m->choice[0]].trial;
  struct stand_trial t = {ARENA_NEW(scratch, uint32_t, first->n + 1), ARENA_NEW(scratch, double, first->n + 1), 0};
  for (size_t i = 0; i < first->n; i++) {
    double sum = first->error[i];
    int found = 1;
    for (int k = 1; k < m->count; k++) {
      const struct stand_trial *other = &choice[m->choice[k]].trial;
      for (size_t j = 0; j < other->n; j++) {
        if (other->food[j] != first->food[i]) continue;
        sum += other->error[j];
        found++;
        break;
      }
    }
    if (found < m->count) continue;
    t.food[t.n] = first->food[i];
    t.error[t.n++] = sum / m->count;
  }
  return t;
}

static void add_mixture(struct filling *f, const struct choice *choice, struct mixture m, struct mixture *mixture,
                        int *count) {
  if (*count == MOST_MIXTURES) return;
  struct stand_trial t = m.count > 1 ? joined(choice, &m, &f->scratch) : choice[m.choice[0]].trial;
  m.error = m.count > 1 ? stand_in_error(&t, &f->scratch) : choice[m.choice[0]].error;
  m.judged = t.n;
  m.row = -1;
  /* A mixture is tried on fewer: it must be as well tested as its members. */
  for (int i = 0; i < m.count; i++)
    if (2 * t.n < choice[m.choice[i]].trial.n) return;
  if (m.error < WIDEST_BLANK_ERROR) mixture[(*count)++] = m;
}

/* Every choice by itself, and the means of two and three of the best, which err less where they err apart. */
static int mixtures_of(struct filling *f, const struct choice *choice, int choices, struct mixture *mixture) {
  enum { BEST = 14 };
  int count = 0, most = choices < BEST ? choices : BEST;
  for (int i = 0; i < choices; i++) add_mixture(f, choice, (struct mixture){.choice = {i}, .count = 1}, mixture, &count);
  for (int i = 0; i < most; i++)
    for (int j = i + 1; j < most; j++) {
      if (choice[i].how == choice[j].how && choice[i].level == choice[j].level) continue;
      add_mixture(f, choice, (struct mixture){.choice = {i, j}, .count = 2}, mixture, &count);
      for (int k = j + 1; k < most; k++) {
        bool same = choice[k].level == choice[i].level && choice[k].how == choice[i].how;
        same |= choice[k].level == choice[j].level && choice[k].how == choice[j].how;
        if (!same) add_mixture(f, choice, (struct mixture){.choice = {i, j, k}, .count = 3}, mixture, &count);
      }
    }
  qsort(mixture, (size_t)count, sizeof *mixture, by_mixed_error);
  return count;
}

static WORD_TABLE(STAND_WORD, STAND_COUNT, "other records of the same cut", "other cuts of the same kind",
                  "the cuts nearest in composition", "the nearest of other kinds", "the other kinds of its class");

/* "ruminant muscle, raw: the nearest of other kinds" */
static size_t add_row(struct filling *f, int own, enum preparation prep, enum nutrient n, const struct choice *choice,
                      const struct mixture *m) {
  struct buf name;
  buf_init(&name, f->b->arena, 300);
  buf_addf(&name, "%s, %s: ", f->classes->class[own].name, preparation_word[prep]);
  bool told[STAND_COUNT] = {false};
  for (int i = 0, said = 0; i < m->count; i++) {
    enum stand_in how = choice[m->choice[i]].how;
    if (told[how]) continue;
    buf_addf(&name, "%s%s", said++ ? " and " : "", STAND_WORD[how]);
    told[how] = true;
  }
  return pattern_rows_add(f->rows, f->b, buf_text(&name),
                          (struct img_pattern){.nutrient = (uint32_t)n,
                                               .ratio = NAN,
                                               .base = (uint32_t)stand_in_base[choice[m->choice[0]].base],
                                               .cv = (float)m->error,
                                               .foods = (uint32_t)m->judged});
}

/* Geometric mean of what the members say; NaN when one of them cannot. */
static double say(const struct filling *f, uint32_t food, const struct stand_scene *scene, const struct choice *choice,
                  const struct mixture *m) {
  double logs = 0, least = INFINITY;
  for (int i = 0; i < m->count; i++) {
    const struct choice *c = &choice[m->choice[i]];
    struct stand_guess guess[STAND_BASES];
    double amount = stand_in_amount(&f->b->food[food], c->base);
    stand_in_guess(&scene[c->level], food, c->how, guess);
    double x = guess[c->base].ratio * amount;
    if (!(x >= 0)) return NAN;
    least = fmin(least, x);
    logs += log(fmax(x, 1e-12));
  }
  return least > 0 ? exp(logs / m->count) : 0;
}

static void fill_food(struct filling *f, uint32_t food, int own, enum preparation prep, enum nutrient n,
                      const struct stand_scene *scene, const struct choice *choice, struct mixture *mixture, int count) {
  for (int i = 0; i < count; i++) {
    struct mixture *m = &mixture[i];
    double x = say(f, food, scene, choice, m);
    if (!isfinite(x)) continue;
    if (m->row < 0) m->row = (int)add_row(f, own, prep, n, choice, m);
    foods_set(&f->b->food[food], n, x, VALUE_ESTIMATED, m->error, pattern_rows_source(f->b, (size_t)m->row));
    f->rows->row[m->row].applied++;
    return;
  }
}

static void fill_nutrient(struct filling *f, int own, enum preparation prep, enum nutrient n, const uint32_t *target,
                          size_t targets) {
  struct choice *choice = ARENA_NEW(&f->scratch, struct choice, MOST_CHOICES);
  struct mixture *mixture = ARENA_NEW(&f->scratch, struct mixture, MOST_MIXTURES);
  struct stand_scene scene[MOST_LEVELS];
  int class[MOST_LEVELS], levels = 0, choices = 0;
  size_t blanks = 0;
  for (size_t i = 0; i < targets; i++) blanks += f->b->food[target[i]].value[n].status == VALUE_UNKNOWN;
  if (blanks == 0) return;
  for (int c = own; c >= 0 && levels < MOST_LEVELS; c = f->classes->class[c].parent, levels++) {
    class[levels] = c;
    scene[levels] = scene_of(f, c, prep, n);
    add_choices(f, &scene[levels], class, levels, choice, &choices);
  }
  qsort(choice, (size_t)choices, sizeof *choice, by_error);
  int mixtures = mixtures_of(f, choice, choices, mixture);
  for (size_t i = 0; i < targets; i++)
    if (f->b->food[target[i]].value[n].status == VALUE_UNKNOWN)
      fill_food(f, target[i], own, prep, n, scene, choice, mixture, mixtures);
}

static void fill_class(struct filling *f, int own, enum preparation prep) {
  uint32_t *target = ARENA_NEW(f->b->arena, uint32_t, f->b->count);
  size_t targets = 0;
  for (size_t i = 0; i < f->b->count; i++)
    if (f->classes->of_food[i] == own && f->kinship.kin[i] >= 0 && preparation_of(&f->b->food[i]) == prep)
      target[targets++] = (uint32_t)i;
  for (int n = 0; n < NUT_COUNT && targets > 0; n++) {
    if (blanks_is_estimated((enum nutrient)n)) fill_nutrient(f, own, prep, (enum nutrient)n, target, targets);
    arena_free(&f->scratch);
  }
}

/* ---- cooked by way of raw ---------------------------------------------------------------------------------------- */

static double dry_matter(const struct build_food *f) {
  return f->value[NUT_WATER].status == VALUE_MEASURED ? 100 - (double)f->value[NUT_WATER].mean : NAN;
}

/* What a cooked record would hold if all of the nutrient stayed with the dry matter; NaN when that cannot be said. */
static double carried_over(const struct foods_build *b, const struct build_food *f, enum nutrient n) {
  if (f->food.raw_form == NO_INDEX || !blanks_is_plain(f) || !state_is_cooked((enum state)f->food.state)) return NAN;
  const struct build_food *raw = &b->food[f->food.raw_form];
  return raw->value[n].status == VALUE_MEASURED ? (double)raw->value[n].mean * dry_matter(f) / dry_matter(raw) : NAN;
}

/* The share that stays is learnt, nutrient by nutrient, from the pairs where both the raw and the cooked record are
 * published, within one part of the bowl; its error is found by leaving each pair out. */
static void fill_from_raw(struct foods_build *b, enum part part, enum nutrient n, struct ratio_set *set,
                          struct pattern_rows *rows) {
  int row = -1;
  set->count = 0;
  for (size_t i = 0; i < b->count; i++) {
    struct build_food *f = &b->food[i];
    double whole = f->food.part == part ? carried_over(b, f, n) : NAN;
    if (whole > 0 && f->value[n].status == VALUE_MEASURED) ratio_add(set, (int)i, (double)f->value[n].mean / whole);
  }
  double kept = ratio_mean(set), error = ratio_error(set, set);
  if (set->count < LEAST_RECORDS || !(error < WIDEST_BLANK_ERROR)) return;
  struct buf name;
  buf_init(&name, b->arena, 200);
  buf_addf(&name, "%s, cooked: its raw form by dry matter", part_word[part]);
  for (size_t i = 0; i < b->count; i++) {
    struct build_food *f = &b->food[i];
    double whole = f->food.part == part ? carried_over(b, f, n) : NAN;
    if (!(whole >= 0) || f->value[n].status != VALUE_UNKNOWN) continue;
    if (row < 0)
      row = (int)pattern_rows_add(rows, b, buf_text(&name),
                                  (struct img_pattern){.nutrient = (uint32_t)n,
                                                       .ratio = (float)kept,
                                                       .base = NUT_NONE,
                                                       .cv = (float)error,
                                                       .foods = (uint32_t)set->count});
    foods_set(f, n, kept * whole, VALUE_ESTIMATED, error, pattern_rows_source(b, (size_t)row));
    rows->row[row].applied++;
  }
}

void fill_blanks(struct foods_build *b, const struct pattern_classes *p, struct pattern_rows *rows) {
  struct ratio_set set = {ARENA_NEW(b->arena, struct ratio_group, b->count), 0};
  for (int part = 0; part < PART_COUNT; part++)
    for (int n = 0; n < NUT_COUNT; n++)
      if (blanks_is_estimated((enum nutrient)n)) fill_from_raw(b, (enum part)part, (enum nutrient)n, &set, rows);
  struct filling f = {.b = b, .classes = p, .kinship = kinship_of(b), .rows = rows};
  f.features = ARENA_NEW(b->arena, struct features, b->count);
  for (size_t i = 0; i < b->count; i++) f.features[i] = features_of(&b->food[i]);
  arena_init(&f.scratch, b->arena->on_full);
  for (int c = 0; c < p->count; c++)
    for (int prep = 0; prep < PREP_COUNT; prep++) fill_class(&f, c, (enum preparation)prep);
  arena_free(&f.scratch);
}
