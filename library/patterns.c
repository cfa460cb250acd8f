/* patterns.c: amino and fatty acids of foods that were not analysed, from the pattern of their class. */
#include "library/patterns.h"

#include <math.h>
#include <stdlib.h>

/* ---- which records share one analysis ------------------------------------------------------------------------ */

static const enum nutrient AMINO[] = {NUT_ARGININE, NUT_HISTIDINE,  NUT_ISOLEUCINE, NUT_LEUCINE,
                                      NUT_LYSINE,   NUT_METHIONINE, NUT_MET_CYS,    NUT_PHENYLALANINE,
                                      NUT_PHE_TYR,  NUT_THREONINE,  NUT_TRYPTOPHAN, NUT_VALINE};
static const enum nutrient FATTY[] = {NUT_LINOLEIC, NUT_ALPHA_LINOLENIC, NUT_ARACHIDONIC, NUT_EPA, NUT_DHA, NUT_EPA_DHA};

static bool is_amino(enum nutrient n) { return n >= NUT_ARGININE && n <= NUT_VALINE; }

static bool is_published(const struct build_food *f, enum nutrient n) {
  return f->value[n].status == VALUE_MEASURED || f->value[n].status == VALUE_CITED;
}

static double ratio(const struct build_food *f, enum nutrient n, enum nutrient base) {
  return (double)f->value[n].mean / (double)f->value[base].mean;
}

/* The printed digits cannot tell the two apart: equal within 1 % or within half of the last digit, in all that both have. */
static bool same_analysis(const struct build_food *a, const struct build_food *b, const enum nutrient *list, size_t n,
                          enum nutrient base) {
  int compared = 0;
  for (size_t i = 0; i < n; i++) {
    if (!is_published(a, list[i]) || !is_published(b, list[i])) continue;
    double x = ratio(a, list[i], base), y = ratio(b, list[i], base);
    double digit = 0.0005 / (double)a->value[base].mean + 0.0005 / (double)b->value[base].mean;
    if (!(fabs(x - y) <= fmax(0.01 * fmax(x, y), digit))) return false;
    compared++;
  }
  return compared >= 2;
}

/* The Indian tables grow many varieties of one crop; together they are one analysis of that crop. */
static bool same_crop(const struct build_food *a, const struct build_food *b) {
  bool both = strncmp(a->code, "ifct:", 5) == 0 && strncmp(b->code, "ifct:", 5) == 0;
  return both && a->scientific[0] && strcmp(a->scientific, b->scientific) == 0;
}

/* The Indian tables teach plants only: their meat columns are permuted, and the lysine of their fish is a third lower than
 * in every other table. */
static bool can_teach(const struct build_food *f) {
  if (f->food.flags & (FOOD_BRAND | FOOD_DISH)) return false;
  return f->food.kind == KIND_PLANT || strncmp(f->code, "usda:", 5) == 0;
}

static int group_of(const struct teachers *t, size_t i, bool amino) {
  const enum nutrient *list = amino ? AMINO : FATTY;
  size_t n = amino ? COUNT_OF(AMINO) : COUNT_OF(FATTY);
  enum nutrient base = amino ? NUT_PROTEIN : NUT_FAT;
  const int *group = amino ? t->amino_group : t->fatty_group;
  if (!is_published(t->food[i], amino ? NUT_LYSINE : NUT_LINOLEIC) || !(t->food[i]->value[base].mean > 0)) return -1;
  for (size_t j = 0; j < i; j++)
    if (group[j] >= 0 && (same_crop(t->food[i], t->food[j]) || same_analysis(t->food[i], t->food[j], list, n, base)))
      return group[j];
  return (int)i;
}

static struct teachers find_teachers(struct foods_build *b, const struct pattern_classes *p) {
  struct teachers t = {ARENA_NEW(b->arena, struct build_food *, b->count), ARENA_NEW(b->arena, int, b->count),
                       ARENA_NEW(b->arena, int, b->count), ARENA_NEW(b->arena, int, b->count), 0};
  for (size_t i = 0; i < b->count; i++) {
    struct build_food *f = &b->food[i];
    bool published = is_published(f, NUT_LYSINE) || is_published(f, NUT_LINOLEIC);
    if (!published || p->of_food[i] < 0 || !can_teach(f)) continue;
    size_t k = t.count++;
    t.food[k] = f;
    t.own_class[k] = p->of_food[i];
    t.amino_group[k] = group_of(&t, k, true);
    t.fatty_group[k] = group_of(&t, k, false);
  }
  return t;
}

/* ---- choosing a level and a base ----------------------------------------------------------------------------- */

struct choice {
  int level;
  enum nutrient base;
  double ratio, error;
  int foods;
  int row; /* of IMG_PATTERNS once it has been used, -1 before */
};

enum { MOST_CHOICES = 32 };

struct fitting {
  struct foods_build *b;
  const struct pattern_classes *classes;
  struct teachers teachers;
  struct ratio_set level, judged; /* room for all groups */
};

/* Ratios of the records of class 'c'. */
static void collect(const struct fitting *f, int c, enum nutrient n, enum nutrient base, struct ratio_set *set) {
  const struct teachers *t = &f->teachers;
  const int *group = is_amino(n) ? t->amino_group : t->fatty_group;
  set->count = 0;
  for (size_t i = 0; i < t->count; i++) {
    const struct build_food *food = t->food[i];
    bool usable = group[i] >= 0 && is_published(food, n) && is_published(food, base) && food->value[base].mean > 0;
    if (!usable || !pattern_class_holds(f->classes, c, t->own_class[i])) continue;
    if (!is_amino(n) && f->classes->class[t->own_class[i]].amino_only) continue;
    ratio_add(set, group[i], ratio(food, n, base));
  }
}

/* How well level 'c' foretells the analyses of 'f->judged', each left out in turn. */
static bool fit_level(struct fitting *f, int c, enum nutrient n, enum nutrient base, struct choice *out) {
  collect(f, c, n, base, &f->level);
  if ((int)f->level.count < f->classes->class[c].least) return false;
  *out = (struct choice){c, base, ratio_mean(&f->level), ratio_error(&f->level, &f->judged), (int)f->level.count, -1};
  return out->error <= PATTERN_WIDEST_ERROR;
}

/* The finest class, from 'own' upward, with enough analyses to be judged on; they are left in f->judged. -1: none. */
static int find_judge(struct fitting *f, int own, enum nutrient n, enum nutrient base) {
  for (int c = own; c >= 0; c = f->classes->class[c].parent) {
    collect(f, c, n, base, &f->judged);
    if ((int)f->judged.count >= f->classes->class[c].least) return c;
  }
  return -1;
}

static int by_error(const void *a, const void *b) {
  double x = ((const struct choice *)a)->error, y = ((const struct choice *)b)->error;
  return (x > y) - (x < y);
}

/* Every usable level and base for one class and nutrient, best first: the finest class with enough analyses and all its
 * parents compete for the smallest error on the analyses of that finest class. */
static int choose(struct fitting *f, int own, enum nutrient n, struct choice *out) {
  static const enum nutrient AMINO_BASE[] = {NUT_PROTEIN};
  static const enum nutrient FATTY_BASE[] = {NUT_POLYUNSATURATED, NUT_FAT, NUT_PROTEIN};
  const enum nutrient *base = is_amino(n) ? AMINO_BASE : FATTY_BASE;
  size_t bases = is_amino(n) ? COUNT_OF(AMINO_BASE) : COUNT_OF(FATTY_BASE);
  int count = 0;
  for (size_t i = 0; i < bases; i++)
    for (int c = find_judge(f, own, n, base[i]); c >= 0 && count < MOST_CHOICES; c = f->classes->class[c].parent)
      if (fit_level(f, c, n, base[i], &out[count])) count++;
  qsort(out, (size_t)count, sizeof *out, by_error);
  return count;
}

/* ---- applying ------------------------------------------------------------------------------------------------ */

static bool wants_estimate(const struct build_food *f, enum nutrient n) {
  return f->value[n].status == VALUE_UNKNOWN && !(f->food.flags & (FOOD_BRAND | FOOD_DISH | FOOD_BONE));
}

/* A sum of two acids is at least the one that was published. */
static double at_least_its_part(const struct build_food *f, enum nutrient n, double amount) {
  enum nutrient part = n == NUT_MET_CYS ? NUT_METHIONINE : n == NUT_PHE_TYR ? NUT_PHENYLALANINE : NUT_NONE;
  return part != NUT_NONE && f->value[part].mean > amount ? (double)f->value[part].mean : amount;
}

static size_t add_row(struct fitting *f, struct pattern_rows *rows, int own, enum nutrient n, const struct choice *c) {
  struct buf name;
  buf_init(&name, f->b->arena, 200);
  buf_adds(&name, f->classes->class[own].name);
  if (c->level != own) buf_addf(&name, " (by %s)", f->classes->class[c->level].name);
  return pattern_rows_add(rows, f->b, buf_text(&name),
                          (struct img_pattern){.nutrient = (uint32_t)n,
                                               .ratio = (float)c->ratio,
                                               .base = (uint32_t)c->base,
                                               .cv = (float)c->error,
                                               .foods = (uint32_t)c->foods});
}

static void estimate(struct fitting *f, struct build_food *food, int own, enum nutrient n, struct choice *choice, int count,
                     struct pattern_rows *rows) {
  for (int i = 0; i < count; i++) {
    const struct img_value *base = &food->value[choice[i].base];
    if (base->status != VALUE_MEASURED && base->status != VALUE_CITED) continue;
    if (choice[i].row < 0) choice[i].row = (int)add_row(f, rows, own, n, &choice[i]);
    double amount = at_least_its_part(food, n, choice[i].ratio * (double)base->mean);
    foods_set(food, n, amount, VALUE_ESTIMATED, choice[i].error, pattern_rows_source(f->b, (size_t)choice[i].row));
    rows->row[choice[i].row].applied++;
    return;
  }
}

static void apply_class(struct fitting *f, int own, enum nutrient n, struct pattern_rows *rows) {
  struct choice choice[MOST_CHOICES];
  if (!is_amino(n) && f->classes->class[own].amino_only) return;
  int count = choose(f, own, n, choice);
  for (size_t i = 0; i < f->b->count; i++)
    if (f->classes->of_food[i] == own && wants_estimate(&f->b->food[i], n))
      estimate(f, &f->b->food[i], own, n, choice, count, rows);
}

/* EPA + DHA of a food is the sum of the two, with the error of the pattern of the sum. */
static void make_sums_agree(struct foods_build *b) {
  for (size_t i = 0; i < b->count; i++) {
    struct build_food *f = &b->food[i];
    const struct img_value *epa = &f->value[NUT_EPA], *dha = &f->value[NUT_DHA];
    bool both = epa->status != VALUE_UNKNOWN && dha->status != VALUE_UNKNOWN;
    if (both && f->value[NUT_EPA_DHA].status == VALUE_ESTIMATED) f->value[NUT_EPA_DHA].mean = epa->mean + dha->mean;
  }
}

void complete_patterns(struct foods_build *b, const char *data_dir) {
  struct pattern_classes classes;
  struct pattern_rows rows = {0};
  pattern_classes_read(&classes, b, data_dir);
  struct fitting f = {.b = b, .classes = &classes, .teachers = find_teachers(b, &classes)};
  set_aside_contradicted(b, &classes, &f.teachers);
  f.level.group = ARENA_NEW(b->arena, struct ratio_group, f.teachers.count + 1);
  f.judged.group = ARENA_NEW(b->arena, struct ratio_group, f.teachers.count + 1);
  for (int c = 0; c < classes.count; c++) {
    for (size_t i = 0; i < COUNT_OF(AMINO); i++) apply_class(&f, c, AMINO[i], &rows);
    for (size_t i = 0; i < COUNT_OF(FATTY); i++) apply_class(&f, c, FATTY[i], &rows);
  }
  make_sums_agree(b);
  fill_blanks(b, &classes, &rows);
  writer_section(b->w, IMG_PATTERNS, rows.row, rows.count, sizeof *rows.row);
}
