/* contradicted.c: printed, but not to be believed. A table's makers fill gaps too; where one analysis gives an amino acid a
 * share of the protein that no other analysis of the class comes near, the class is believed and not the one. */
#include <math.h>

#include "library/patterns.h"
#include "library/spread.h"

/* A share is set aside when it lies over 1.4 times beyond the nearest of all the others, over 1.6 times and over four robust
 * deviations from their median. Plants are left alone, since a class holds germ and grain, leaf and stalk. Where four or
 * more acids of one record stand out, its protein differs, and the acids are left alone. */
static const double BEYOND = 1.4, FROM_MEDIAN = 1.6, DEVIATIONS = 4;
enum { LEAST_OTHERS = 4, MOST_OF_A_RECORD = 3 };

static const enum nutrient ACID[] = {NUT_ARGININE, NUT_HISTIDINE,  NUT_ISOLEUCINE, NUT_LEUCINE,
                                     NUT_LYSINE,   NUT_METHIONINE, NUT_MET_CYS,    NUT_PHENYLALANINE,
                                     NUT_PHE_TYR,  NUT_THREONINE,  NUT_TRYPTOPHAN, NUT_VALINE};

static double share_of(const struct build_food *f, enum nutrient n) {
  const struct img_value *v = &f->value[n], *protein = &f->value[NUT_PROTEIN];
  if (v->status != VALUE_MEASURED || protein->status != VALUE_MEASURED) return NAN;
  return (double)v->mean / (double)protein->mean;
}

struct contradiction_room { /* for as many as there are records */
  bool *seen;
  double *log;
};

struct others {
  double least, most, median, deviation; /* deviation: of the logarithms, 1.4826 x median absolute */
  uint32_t analyses;
  int class;
};

/* The shares of the class without one analysis. An analysis counts once, by the first record that prints it. */
static struct others others_in(const struct pattern_classes *p, const struct teachers *t, int class, int group,
                               enum nutrient n, struct contradiction_room *room) {
  struct others o = {INFINITY, 0, NAN, NAN, 0, class};
  memset(room->seen, 0, t->count * sizeof *room->seen);
  for (size_t i = 0; i < t->count; i++) {
    int g = t->amino_group[i];
    double share = g >= 0 && g != group && !room->seen[g] ? share_of(t->food[i], n) : NAN;
    if (!(share > 0) || !pattern_class_holds(p, class, t->own_class[i])) continue;
    room->seen[g] = true;
    room->log[o.analyses++] = log(share);
    o.least = fmin(o.least, share);
    o.most = fmax(o.most, share);
  }
  double median = quantile(room->log, o.analyses, 0.5);
  for (uint32_t i = 0; i < o.analyses; i++) room->log[i] = fabs(room->log[i] - median);
  o.median = exp(median);
  o.deviation = 1.4826 * quantile(room->log, o.analyses, 0.5);
  return o;
}

/* The finest class with enough other analyses. */
static struct others others_of(const struct pattern_classes *p, const struct teachers *t, size_t i, enum nutrient n,
                               struct contradiction_room *room) {
  struct others o = {.class = -1};
  for (int c = t->own_class[i]; c >= 0 && o.analyses < LEAST_OTHERS; c = p->class[c].parent)
    o = others_in(p, t, c, t->amino_group[i], n, room);
  return o;
}

static bool contradicts(const struct others *o, double share) {
  if (o->analyses < LEAST_OTHERS) return false;
  double away = fabs(log(share / o->median));
  bool outside = share * BEYOND < o->least || share > BEYOND * o->most;
  return outside && away > log(FROM_MEDIAN) && away > DEVIATIONS * o->deviation;
}

static void report(struct foods_build *b, const struct img_set_aside *row, size_t n) {
  struct buf what, why;
  buf_init(&what, b->arena, 1 << 16);
  buf_init(&why, b->arena, 1 << 16);
  if (n == 0) return;
  for (size_t i = 0; i < n; i++) {
    const struct build_food *f = &b->food[row[i].food];
    buf_addf(&what, "%s%s of %s (%s)", i ? "; " : "", nutrient_info[row[i].nutrient].name, f->name, f->code);
  }
  buf_addf(&why,
           "all other analyses of the class lie over %.1f times away, and their median over %.1f times and over %.0f robust "
           "deviations (%s of %s: %.2f %% of the protein, where %u others have %.2f to %.2f %%)",
           BEYOND, FROM_MEDIAN, DEVIATIONS, nutrient_info[row[0].nutrient].name, b->food[row[0].food].name,
           100 * (double)row[0].share, row[0].analyses, 100 * (double)row[0].least, 100 * (double)row[0].most);
  struct img_quarantine q = {writer_textz(b->w, "usda_sr28"), writer_textz(b->w, buf_text(&what)),
                             writer_textz(b->w, buf_text(&why)), (uint32_t)n};
  quarantine_add(b->w, &q, 1);
}

/* The acids of one record that its class contradicts. */
static size_t find_contradicted(struct foods_build *b, const struct pattern_classes *p, const struct teachers *t, size_t i,
                                struct contradiction_room *room, struct img_set_aside *found) {
  size_t n = 0;
  if (t->food[i]->food.kind == KIND_PLANT || t->amino_group[i] < 0) return 0;
  for (size_t k = 0; k < COUNT_OF(ACID); k++) {
    double share = share_of(t->food[i], ACID[k]);
    if (!(share > 0)) continue;
    struct others o = others_of(p, t, i, ACID[k], room);
    if (!contradicts(&o, share)) continue;
    found[n++] = (struct img_set_aside){(uint32_t)(t->food[i] - b->food),
                                        (uint32_t)ACID[k],
                                        t->food[i]->value[ACID[k]].mean,
                                        (float)share,
                                        (float)o.least,
                                        (float)o.most,
                                        o.analyses,
                                        writer_textz(b->w, p->class[o.class].name)};
  }
  return n;
}

void set_aside_contradicted(struct foods_build *b, const struct pattern_classes *p, const struct teachers *t) {
  struct img_set_aside *row = NULL, found[COUNT_OF(ACID)];
  size_t count = 0, cap = 0;
  struct contradiction_room room = {ARENA_NEW(b->arena, bool, t->count + 1), ARENA_NEW(b->arena, double, t->count + 1)};
  for (size_t i = 0; i < t->count; i++) {
    size_t n = find_contradicted(b, p, t, i, &room, found);
    for (size_t k = 0; k < n && n <= MOST_OF_A_RECORD; k++) ARENA_PUSH(b->arena, row, count, cap, found[k]);
  }
  /* Only now, so that the order in which they are found decides nothing. */
  for (size_t i = 0; i < count; i++) {
    struct build_food *f = &b->food[row[i].food];
    f->value[row[i].nutrient] = (struct img_value){.mean = NAN, .status = VALUE_UNKNOWN};
  }
  report(b, row, count);
  writer_section(b->w, IMG_SET_ASIDE, row, count, sizeof *row);
}
