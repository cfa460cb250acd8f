#include "judge/standard.h"
#include "base/table.h"

#include <math.h>

#include "base/num.h"

WORD_TABLE(basis_key, BASIS_COUNT, "weight", "energy");

static const double PER_THOUSAND = 1000.0;

struct allowance_scale {
  double metabolic_kg, exponent;
  double column_kcal; /* kcal per metabolic kg of the column chosen; NaN when the standard has none */
  struct energy_eaten eaten;
  bool at_need; /* nobody knows what is eaten */
  enum basis basis;
  struct arena *arena; /* of the words, when they are asked for */
};

/* Row i of the library where it is of this species and was not replaced; else NULL. */
static inline const struct img_allowance *row_for(const struct library *lib, size_t i, enum species s) {
  const struct img_allowance *r = lib->own_allowance_count > 0
                                      ? library_allowance(lib, i)
                                      : &IMG_ROWS(&lib->image, IMG_ALLOWANCES, struct img_allowance)[i];
  if (!r || r->species != s) return NULL;
  return r->standard < STANDARD_COUNT && r->nutrient < NUT_COUNT && r->level < LEVEL_COUNT ? r : NULL;
}

/* A standard with two energy columns prints each figure twice; the column nearer to the animal's own need is its own.
 * Without a need the first column of the table stands. */
static void nearest_columns(const struct library *lib, enum species s, double coefficient, double column[STANDARD_COUNT]) {
  for (int k = 0; k < STANDARD_COUNT; k++) column[k] = (double)NAN;
  for (size_t i = 0, n = library_allowance_count(lib); i < n; i++) {
    const struct img_allowance *r = row_for(lib, i, s);
    if (!r || isnan(r->at_kcal)) continue;
    double at = r->at_kcal, *best = &column[r->standard];
    if (isnan(*best) || fabs(at - coefficient) < fabs(*best - coefficient)) *best = at;
  }
}

static bool better_column(const struct img_allowance *row, const struct img_allowance *now, double column) {
  return !now || (fabs(row->at_kcal - column) < fabs(now->at_kcal - column));
}

static void gather(const struct library *lib, enum species s, struct standard_rows *out) {
  for (size_t i = 0, n = library_allowance_count(lib); i < n; i++) {
    const struct img_allowance *r = row_for(lib, i, s);
    if (!r) continue;
    struct figures *f = &out->of[r->standard][r->nutrient][r->level];
    if (r->basis == PER_METABOLIC_KG) {
      if (!f->per_metabolic_kg) f->per_metabolic_kg = r;
    } else if (better_column(r, f->per_1000kcal, out->column_kcal[r->standard])) {
      f->per_1000kcal = r;
    }
  }
}

/* A day's amount by body weight: as printed per metabolic kg, else the density times the energy it was set at. */
static double by_weight(const struct figures *f, const struct allowance_scale *k, const struct img_allowance **row) {
  if (f->per_metabolic_kg) {
    *row = f->per_metabolic_kg;
    return f->per_metabolic_kg->amount * k->metabolic_kg;
  }
  if (!f->per_1000kcal) return (double)NAN;
  double at = isnan(f->per_1000kcal->at_kcal) ? k->column_kcal : (double)f->per_1000kcal->at_kcal;
  if (isnan(at)) return (double)NAN;
  *row = f->per_1000kcal;
  return f->per_1000kcal->amount * at / PER_THOUSAND * k->metabolic_kg;
}

static double by_energy(const struct figures *f, double kcal, const struct img_allowance **row) {
  if (!f->per_1000kcal) return (double)NAN;
  *row = f->per_1000kcal;
  return f->per_1000kcal->amount * kcal / PER_THOUSAND;
}

/* The basis asked for, and the other when the standard has no figure on it. */
static double lower_figure(const struct figures *f, const struct allowance_scale *k, const struct img_allowance **row,
                           bool *took_energy) {
  *took_energy = k->basis == BASIS_ENERGY;
  double x = *took_energy ? by_energy(f, k->eaten.for_needs, row) : by_weight(f, k, row);
  if (!isnan(x)) return x;
  *took_energy = !*took_energy;
  return *took_energy ? by_energy(f, k->eaten.for_needs, row) : by_weight(f, k, row);
}

/* Both bases, the stricter one. */
static double upper_figure(const struct figures *f, const struct allowance_scale *k, struct allowance *a) {
  const struct img_allowance *weight_row = NULL, *energy_row = NULL;
  double w = by_weight(f, k, &weight_row), e = by_energy(f, k->eaten.for_limits, &energy_row);
  bool take_energy = isnan(w) || e < w;
  a->upper_row = take_energy ? energy_row : weight_row;
  a->upper_by_weight = w;
  a->upper_by_energy = e;
  return take_energy ? e : w;
}

static void add_weight(struct buf *b, const struct allowance_scale *k) {
  buf_adds(b, "x ");
  num_sig(b, pow(k->metabolic_kg, 1.0 / k->exponent), 4);
  buf_adds(b, " kg^");
  num_sig(b, k->exponent, 3);
}

static void add_eaten(struct buf *b, const struct allowance_scale *k) {
  num_sig(b, k->eaten.for_needs, 4);
  buf_adds(b, k->at_need ? " kcal needed" : " kcal eaten");
}

const char *allowance_how(const struct allowance *a) {
  const struct img_allowance *row = a->allowance_row;
  const struct allowance_scale *k = a->scale;
  if (!row || !k) return "";
  struct buf b;
  buf_init(&b, k->arena, 160);
  num_sig(&b, row->amount, 4);
  buf_addc(&b, ' ');
  buf_adds(&b, nutrient_info[row->nutrient].unit);
  buf_addc(&b, ' ');
  double at = isnan(row->at_kcal) ? k->column_kcal : (double)row->at_kcal;
  bool by_metabolic_kg = row->basis == PER_METABOLIC_KG;
  bool by_column = !by_metabolic_kg &&
                   fabs(a->allowance - row->amount * at / PER_THOUSAND * k->metabolic_kg) <= 1e-9 * fabs(a->allowance);
  if (!by_metabolic_kg) buf_adds(&b, "per 1000 kcal x ");
  if (by_column) {
    num_sig(&b, at, 4);
    buf_adds(&b, " kcal ");
  }
  if (by_metabolic_kg || by_column)
    add_weight(&b, k);
  else
    add_eaten(&b, k);
  return buf_text(&b);
}

static void fill(struct allowance *a, const struct figures level[LEVEL_COUNT], const struct allowance_scale *k) {
  a->minimum = lower_figure(&level[LEVEL_MINIMUM], k, &a->minimum_row, &a->minimum_by_energy);
  /* An adequate intake stands in for an allowance that is not printed, never for a minimum. */
  a->allowance = lower_figure(&level[LEVEL_ALLOWANCE], k, &a->allowance_row, &a->allowance_by_energy);
  if (!a->allowance_row) a->allowance = lower_figure(&level[LEVEL_ADEQUATE], k, &a->allowance_row, &a->allowance_by_energy);
  /* A standard that prints a minimum alone asks for that. */
  if (!a->allowance_row && a->minimum_row) {
    a->allowance = a->minimum;
    a->allowance_row = a->minimum_row;
    a->allowance_by_energy = a->minimum_by_energy;
  }
  a->upper = upper_figure(&level[LEVEL_UPPER], k, a);
  a->upper_greater_than = a->upper_row && a->upper_row->greater_than;
  a->cautious = (double)NAN;
  if (a->upper_row && a->upper_row->cautious) {
    a->cautious = a->upper;
    a->cautious_row = a->upper_row;
    a->upper_row = NULL;
    a->upper = a->upper_by_weight = a->upper_by_energy = (double)NAN;
    a->upper_greater_than = false;
  }
  a->scale = k->arena ? k : NULL;
}

/* Of minerals and vitamins: too much of these harms whatever standard was asked for. */
static bool may_borrow(enum nutrient n, const struct allowance *a) {
  enum nutrient_group g = nutrient_info[n].group;
  return isnan(a->upper) && !a->cautious_row && (g == NG_MINERAL || g == NG_TRACE || g == NG_VITAMIN);
}

/* The strictest firm limit of another standard, where the one asked for has none. */
static void borrow_limits(const struct standard_rows *r, const struct allowance_scale *own, struct allowance_set *out,
                          bool again) {
  for (int other = 0; other < STANDARD_COUNT; other++) {
    struct allowance_scale k = *own;
    if (other == (int)r->standard) continue;
    k.column_kcal = r->column_kcal[other];
    for (int at = 0; at < (again ? r->moving_count : NUT_COUNT); at++) {
      int i = again ? r->moving[at] : at;
      struct allowance *mine = &out->of[i], theirs = {.upper = NAN};
      theirs.upper = upper_figure(&r->of[other][i][LEVEL_UPPER], &k, &theirs);
      bool firm = theirs.upper_row && !theirs.upper_row->greater_than && !theirs.upper_row->cautious;
      if (!firm || !(mine->upper_borrowed ? theirs.upper < mine->upper : may_borrow((enum nutrient)i, mine))) continue;
      mine->upper = theirs.upper;
      mine->upper_row = theirs.upper_row;
      mine->upper_by_weight = theirs.upper_by_weight;
      mine->upper_by_energy = theirs.upper_by_energy;
      mine->upper_borrowed = true;
    }
  }
}

void standard_gather(const struct library *lib, enum standard_id std, enum basis basis, const struct animal *a,
                     const struct energy_need *need, struct standard_rows *out) {
  struct animal_body body = animal_body(lib, a);
  memset(out, 0, sizeof *out);
  standard_ask(out, std, basis, &body, need->kcal);
  nearest_columns(lib, a->species, need->coefficient, out->column_kcal);
  gather(lib, a->species, out);
}

void standard_ask(struct standard_rows *rows, enum standard_id std, enum basis basis, const struct animal_body *body,
                  double need_kcal) {
  rows->standard = std;
  rows->basis = basis;
  rows->body = *body;
  rows->need_kcal = need_kcal;
}

/* Nothing eaten: what would have to be eaten stands in, so that an empty bowl is not measured against nothing. */
static struct energy_eaten or_need(const struct standard_rows *r, struct energy_eaten eaten) {
  return (struct energy_eaten){eaten.for_needs > 0 ? eaten.for_needs : r->need_kcal,
                               eaten.for_limits > 0 ? eaten.for_limits : r->need_kcal};
}

/* 'again': 'out' was filled from these rows before, and what does not grow with the food stands there. */
static void reckon(const struct standard_rows *r, struct energy_eaten eaten, struct allowance_set *out, bool again,
                   struct arena *arena) {
  double column = r->column_kcal[r->standard];
  struct allowance_scale here, *k = arena ? ARENA_NEW(arena, struct allowance_scale, 1) : &here;
  *k = (struct allowance_scale){.metabolic_kg = r->body.metabolic_kg,
                                .exponent = r->body.exponent,
                                .column_kcal = column,
                                .eaten = or_need(r, eaten),
                                .at_need = !(eaten.for_needs > 0),
                                .basis = r->basis,
                                .arena = arena};
  out->standard = r->standard;
  out->basis = r->basis;
  out->basis_forced = false;
  if (isnan(column)) { /* no energy is tied to a weight: densities only */
    k->basis = out->basis = BASIS_ENERGY;
    out->basis_forced = r->basis != BASIS_ENERGY;
  }
  for (int at = 0; at < (again ? r->moving_count : NUT_COUNT); at++) {
    int i = again ? r->moving[at] : at;
    out->of[i] = (struct allowance){.minimum = 0};
    fill(&out->of[i], r->of[r->standard][i], k);
  }
  for (int i = 0; again && arena && i < NUT_COUNT; i++) out->of[i].scale = k;
  borrow_limits(r, k, out, again);
}

void standard_at(const struct standard_rows *r, struct energy_eaten eaten, struct allowance_set *out, struct arena *arena) {
  reckon(r, eaten, out, false, arena);
}

void standard_again(const struct standard_rows *r, struct energy_eaten eaten, struct allowance_set *out, struct arena *arena) {
  reckon(r, eaten, out, true, arena);
}

static bool has_density(const struct standard_rows *r, int n) {
  for (int k = 0; k < STANDARD_COUNT; k++)
    if (r->of[k][n][LEVEL_UPPER].per_1000kcal) return true;
  return false;
}

void standard_fix(struct standard_rows *r, struct allowance_set *keep) {
  standard_at(r, (struct energy_eaten){r->need_kcal, r->need_kcal}, keep, NULL);
  r->moving_count = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct allowance *a = &keep->of[i];
    bool by_energy = (a->allowance_row && a->allowance_by_energy) || (a->minimum_row && a->minimum_by_energy);
    if (by_energy || has_density(r, i)) r->moving[r->moving_count++] = i;
  }
}

void standard_allowances(const struct library *lib, enum standard_id std, enum basis basis, const struct animal *a,
                         const struct energy_need *need, struct energy_eaten eaten, struct allowance_set *out,
                         struct arena *arena) {
  struct standard_rows rows;
  standard_gather(lib, std, basis, a, need, &rows);
  standard_at(&rows, eaten, out, arena);
}

void standard_windows(const struct library *lib, enum species s, const struct img_window *out[NUT_COUNT]) {
  const struct img_window *rows = IMG_ROWS(&lib->image, IMG_WINDOWS, struct img_window);
  size_t n = img_count(&lib->image, IMG_WINDOWS);
  for (int i = 0; i < NUT_COUNT; i++) out[i] = NULL;
  for (size_t i = 0; i < n; i++) {
    if (rows[i].nutrient >= NUT_COUNT) continue;
    const struct img_window **at = &out[rows[i].nutrient];
    bool own = rows[i].species == s, shared = rows[i].species == SPECIES_BOTH;
    if ((own && (!*at || (*at)->species != s)) || (shared && !*at)) *at = &rows[i];
  }
}

const struct img_window *standard_window(const struct library *lib, enum species s, enum nutrient n) {
  const struct img_window *all[NUT_COUNT];
  standard_windows(lib, s, all);
  return all[n];
}
