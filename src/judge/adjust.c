/* adjust.c: what the food itself changes in a standard's figure. Every rule is linear in the amounts of food. */
#include <math.h>

#include "base/num.h"
#include "judge/check_steps.h"
#include "judge/constants.h"

static void set_allowance(struct nutrient_result *n, double to, const char *why) {
  n->adjusted = true;
  n->adjusted_from = n->allowance;
  n->adjusted_to = n->allowance = to;
  n->adjusted_why = why;
}

static double constant(const struct totals *t, const struct check_result *r, enum judge_constant c) {
  return judge_constant(t, c, r->animal->species);
}

static void set_no_need(struct nutrient_result *n, const char *why) {
  n->need_line[0] = n->need_line[1] = (struct need_line){0, 0};
  set_allowance(n, 0, why);
}

/* ---- vitamin E with unsaturated fat ----------------------------------------------------------------------------- */

static double fish_oil_g(const struct totals *t) {
  double g = 0;
  for (int i = 0; i < t->row_count; i++) {
    const struct img_food *f = t->stream[t->row[i].stream]->record;
    if (f && (f->flags & FOOD_FISH_OIL)) g += t->row[i].day_g;
  }
  return g;
}

/* Of a food that states only the sum, all counts as DHA, the one that asks for more. */
static double unnamed_epa_dha(const struct totals *t) {
  double g = 0;
  for (int i = 0; i < t->row_count; i++) {
    const struct stream *s = t->stream[t->row[i].stream];
    bool unnamed = (s->missing[NUT_EPA] || s->missing[NUT_DHA]) && !s->missing[NUT_EPA_DHA];
    if (unnamed) g += t->row[i].day_g * fmax(0.0, s->per_g[NUT_EPA_DHA] - s->per_g[NUT_EPA] - s->per_g[NUT_DHA]);
  }
  return g;
}

static void term(struct buf *b, const char *before, double grams, const char *of, double mg) {
  buf_adds(b, before);
  num_sig(b, grams, 3);
  buf_addf(b, " g %s x ", of);
  num_sig(b, mg, 3);
  buf_adds(b, " mg");
}

static double per_fish_oil(const struct totals *t, enum species s) {
  double per_oil = judge_constant(t, JUDGE_E_PER_FISH_OIL, s);
  return isnan(per_oil) ? 0 : per_oil;
}

/* Grams of fat that ask for vitamin E, in the bowl. */
struct fats {
  double pufa, epa, dha, oil;
};

static struct fats fats_of(const struct totals *t) {
  return (struct fats){t->amount[NUT_LINOLEIC] + t->amount[NUT_ARACHIDONIC] + t->amount[NUT_ALPHA_LINOLENIC],
                       t->amount[NUT_EPA], t->amount[NUT_DHA] + unnamed_epa_dha(t), fish_oil_g(t)};
}

static struct vitamin_e_need need_with(const struct fats *f, const struct totals *t, enum species s) {
  return (struct vitamin_e_need){judge_constant(t, JUDGE_E_PER_PUFA, s) * f->pufa +
                                     judge_constant(t, JUDGE_E_PER_EPA, s) * f->epa +
                                     judge_constant(t, JUDGE_E_PER_DHA, s) * f->dha,
                                 per_fish_oil(t, s) * f->oil};
}

struct vitamin_e_need vitamin_e_need(const struct totals *t, enum species s) {
  struct fats f = fats_of(t);
  return need_with(&f, t, s);
}

/* mg of alpha-tocopherol = 0.6 x g (linoleic + arachidonic + alpha-linolenic) + 1.5 x g EPA + 1.8 x g DHA, or the table's
 * figure where that is more; for cats 10 IU a gram of fish oil on top. Sources: data/constants.tsv, vitamin-e-per-... */
static void adjust_vitamin_e(const struct totals *t, struct check_result *r, struct arena *arena) {
  struct nutrient_result *e = &r->nutrient[NUT_VITAMIN_E];
  struct fats f = fats_of(t);
  struct vitamin_e_need need = need_with(&f, t, r->animal->species);
  double for_fat = need.for_fat, for_oil = need.for_oil;
  double to = fmax(e->allowance, for_fat) + for_oil;
  e->need_line[0].grows += for_oil;
  e->need_line[1] = (struct need_line){0, for_fat + for_oil};
  if (!(to > e->allowance)) return;
  if (!arena) {
    set_allowance(e, to, "");
    return;
  }
  struct buf why;
  buf_init(&why, arena, 300);
  if (for_fat > e->allowance) {
    term(&why, "unsaturated fat uses vitamin E up: ", f.pufa, "linoleic, arachidonic and alpha-linolenic acid",
         constant(t, r, JUDGE_E_PER_PUFA));
    term(&why, ", ", f.epa, "EPA", constant(t, r, JUDGE_E_PER_EPA));
    term(&why, ", ", f.dha, "DHA", constant(t, r, JUDGE_E_PER_DHA));
  }
  if (for_oil > 0)
    term(&why, for_fat > e->allowance ? "; and " : "the table's figure plus ", f.oil, "fish oil",
         per_fish_oil(t, r->animal->species));
  set_allowance(e, to, buf_text(&why));
}

/* ---- arginine with protein -------------------------------------------------------------------------------------- */

/* FEDIAF sets arginine at its own protein figure and adds a fixed part of every gram above it (Table VII-13). */
static double per_protein(const struct totals *t, enum standard_id standard, enum species s) {
  double part = standard == STANDARD_FEDIAF2021 ? judge_constant(t, JUDGE_ARGININE_PER_PROTEIN, s) : 0;
  return part > 0 ? part : 0;
}

double arginine_per_protein(const struct library *lib, enum standard_id standard, enum species s) {
  return per_protein(&(struct totals){.lib = lib}, standard, s);
}

static void adjust_arginine(const struct totals *t, struct check_result *r, struct arena *arena) {
  struct nutrient_result *a = &r->nutrient[NUT_ARGININE];
  const struct allowance *protein = &r->allowances.of[NUT_PROTEIN];
  double above = t->amount[NUT_PROTEIN] - protein->allowance;
  double part = per_protein(t, r->allowances.standard, r->animal->species);
  if (part > 0 && !isnan(above)) {
    a->need_line[1].fixed -= protein->allowance_by_energy ? 0 : part * protein->allowance;
    a->need_line[1].grows += part * (protein->allowance_by_energy ? above : t->amount[NUT_PROTEIN]);
  }
  if (!(above > 0) || !(part > 0)) return;
  if (!arena) {
    set_allowance(a, a->allowance + part * above, "");
    return;
  }
  struct buf why;
  buf_init(&why, arena, 200);
  buf_adds(&why, "the body needs arginine to clear protein: ");
  num_sig(&why, part, 3);
  buf_adds(&why, " g for each of the ");
  num_sig(&why, above, 3);
  buf_adds(&why, " g above this standard's protein figure");
  set_allowance(a, a->allowance + part * above, buf_text(&why));
}

/* ---- vitamins that the gut makes -------------------------------------------------------------------------------- */

static double dry_share_of_fish(const struct totals *t) {
  double fish = 0, all = 0;
  for (int i = 0; i < t->row_count; i++) {
    const struct portion_row *row = &t->row[i];
    const struct stream *s = t->stream[row->stream];
    const struct img_food *f = s->record;
    double dry = row->day_g * (s->per_g[NUT_PROTEIN] + s->per_g[NUT_FAT] + s->per_g[NUT_CARBOHYDRATE] + s->per_g[NUT_ASH]);
    all += dry;
    if (f && (f->part == PART_FISH || f->part == PART_SHELLFISH)) fish += dry;
  }
  return all > 0 ? fish / all : 0;
}

static bool has_raw_white(const struct totals *t) {
  for (int i = 0; i < t->row_count; i++) {
    const struct img_food *f = t->stream[t->row[i].stream]->record;
    if (f && (f->flags & FOOD_RAW_WHITE) && t->stream[t->row[i].stream]->retention < 0) return true;
  }
  return false;
}

static bool gut_makes(const struct totals *t, const struct check_result *r, enum judge_constant c) {
  return constant(t, r, c) > 0 && !r->animal->antibiotics;
}

/* Nothing need come from the food, unless a named condition holds: antibiotics; for vitamin K much fish; for biotin raw
 * white of egg. An empty bowl shows the table's own figures. */
static void adjust_gut_synthesis(const struct totals *t, struct check_result *r) {
  struct nutrient_result *k = &r->nutrient[NUT_VITAMIN_K], *biotin = &r->nutrient[NUT_BIOTIN];
  bool much_fish = dry_share_of_fish(t) > constant(t, r, JUDGE_FISH_SHARE_VITAMIN_K); /* NaN: no such rule */
  if (t->row_count == 0) return;
  if (k->allowance > 0 && gut_makes(t, r, JUDGE_GUT_VITAMIN_K) && !much_fish)
    set_no_need(k, "bacteria of the gut make enough for a healthy adult");
  if (biotin->allowance > 0 && gut_makes(t, r, JUDGE_GUT_BIOTIN) && !has_raw_white(t))
    set_no_need(biotin, "bacteria of the gut make enough for a healthy adult that gets no raw white of egg");
}

const enum nutrient adjusted_nutrient[ADJUSTED_COUNT] = {NUT_VITAMIN_E, NUT_ARGININE, NUT_VITAMIN_K, NUT_BIOTIN};

void adjust_allowances(const struct totals *t, struct check_result *result, struct arena *arena) {
  adjust_vitamin_e(t, result, arena);
  adjust_arginine(t, result, arena);
  adjust_gut_synthesis(t, result);
}
