/* mend_columns.c: what may be changed, as columns of a program, and that program solved with some of them in play. */
#include <math.h>

#include "base/num.h"
#include "base/table.h"
#include "change/mend_search.h"
#include "foods/portion.h"

/* A mended bowl is still the same bowl: first no line of the owner's loses more than a third; then lines that are not the
 * main food may shrink further or go, as an upper limit may force it; only when nothing is found so are portions stretched
 * and main foods cut further. Common practice (data/portions.tsv: cutting by more than a third reads as another dinner). */
static const struct mend_reach REACH[MEND_REACHES] = {{1.0 / 3, 1.0 / 3, 4.0 / 3, 1},
                                                      {1.0 / 3, 1.0 / 3, 4.0 / 3, 1},
                                                      {1.0 / 3, 1, 4.0 / 3, 1},
                                                      {1.0 / 3, 1, 1.5, 1.5},
                                                      {0.5, 1, 2, 2},
                                                      {0.5, 1, 3, 2},
                                                      {1, 1, 4, 2}};
/* From one step on a second food of a kind may come in; up to another what the review would remark on is avoided. */
enum { GROUP_KIN = 1 << 16 }; /* beyond all numbers of portion_one_of: offers of one group are of a kind as well */
static const int KIN_FREE = 4, KIN_FREE_AMONG_FOODS = 2, LAST_MANNERLY = 2;
static const int OTHER_MEAT_FROM = 4;        /* other meat in the place of the owner's: only when nothing else is left */
static const double MOST_TIMES = 3;          /* a line is not raised to more than 1 + 3 times its amount */
static const double MAIN_SHARE = 0.15;       /* of the bowl: a line as large as that is a main food, as is all flesh */
static const double MAIN_COST = 2;           /* of a main food raised by its whole amount; another line: 1 */
static const double LIVER_CUT_MOST = 0.7;    /* of a cat's little liver that is not too much: common practice */
static const double CUT_COSTS = 2;           /* times that when it is cut: an owner would rather add than take away */
static const double TIER_COST[] = {1, 2, 3}; /* ORDER mend_tier: a whole usual portion of it */
ROW_FOR_EACH(TIER_COST, MEND_SUPPLEMENT + 1);
static const double IN_USE = 1e-7;
static const long NODES = 200, NODES_AT_HAND = 1500, SOLVE_SPENDS = 5;

struct mend_reach mend_reach(int reach) {
  return REACH[reach];
}

/* ---- columns ------------------------------------------------------------------------------------------------------- */

static void add_column(struct mend_search *s, int candidate, struct mend_column c) {
  if (!(c.most > 0) || (c.whole > 0 && c.most < c.whole)) return;
  if (c.whole > 0) c.most = floor(c.most / c.whole + 1e-6) * c.whole;
  s->column[s->columns++] = c;
  model_column(s->p, candidate,
               (struct lp_col){.hi = c.most, .cost = c.cost, .second = c.cost + 1e-3 + c.price, .counted = true});
}

/* Of a bowl that is a meal at all; NaN: shares of it say nothing. */
static double bowl_grams(const struct mend_search *s) {
  if (s->before->energy.supply_kcal < s->before->energy.need.kcal / 4) return NAN;
  double sum = 0;
  for (size_t i = 0; i < s->q->ration->line_count; i++) sum += s->start[i];
  return sum;
}

bool mend_is_as_main(const struct mend_search *s, double grams) { return grams >= MAIN_SHARE * bowl_grams(s); }

/* What a line may be raised by while nothing is stretched: to its usual portion; a main food by a third. */
static double usual_raise(const struct mend_search *s, size_t line, bool main) {
  uint32_t food = s->q->ration->line[line].shown_food;
  double g = s->start[line], third = (REACH[0].raise - 1) * g;
  if (main) return third;
  double most = portion_most_g(s->lib, food, s->q->animal->species, s->before->body.metabolic_kg, bowl_grams(s));
  return isfinite(most) ? fmax(most - g, third) : MOST_TIMES * g;
}

/* A little liver is what a cat's bowl is to have: where nothing of it is too much, it does not make room for a tablet. */
static bool is_good_liver(const struct mend_search *s, const struct img_food *f, double grams) {
  static const enum nutrient OF_LIVER[] = {NUT_VITAMIN_A, NUT_COPPER, NUT_VITAMIN_D};
  static const double USUAL = 0.06; /* of the food */
  bool much = !f || f->part != PART_ORGAN_LIVER || s->q->animal->species != SPECIES_CAT || grams > USUAL * bowl_grams(s);
  for (size_t i = 0; i < COUNT_OF(OF_LIVER); i++) much |= s->before->nutrient[OF_LIVER[i]].verdict == VERDICT_OVER;
  return !much;
}

static void own_columns(struct mend_search *s, size_t line, int candidate) {
  const struct mend_own *o = &s->q->own[line];
  double g = s->start[line];
  if (o->keep || s->danger[line] || !(g > 0)) return;
  const struct img_food *f = library_food(s->lib, s->q->ration->line[line].shown_food);
  bool supplement = f && f->part == PART_SUPPLEMENT,
       main = !supplement && f && (f->part == PART_MUSCLE || mend_is_as_main(s, g));
  struct mend_column c = {.line = (int)line,
                          .offer = -1,
                          .sign = 1,
                          .most = MOST_TIMES * g,
                          .usual = usual_raise(s, line, main),
                          .cost = (main ? MAIN_COST : 1) / g,
                          .price = o->price,
                          .whole = o->whole,
                          .step = o->step,
                          .floor = o->floor,
                          .main = main,
                          .with = {true, true, supplement},
                          .at_hand = true};
  c.most = fmax(c.most, c.usual);
  if (!f || !food_is_spice(s->lib, f)) add_column(s, candidate, c);
  c.sign = -1;
  c.cost *= CUT_COSTS;
  c.price = -c.price;
  c.most = is_good_liver(s, f, g) ? g * LIVER_CUT_MOST : g;
  c.usual = NAN;
  add_column(s, candidate, c);
}

static const char *name_of_line(const struct mend_search *s, size_t line) {
  const char *name = s->q->own[line].name, *text = s->q->ration->line[line].text;
  if (name && name[0]) return name;
  return text && text[0] ? text : library_name(s->lib, s->q->ration->line[line].shown_food);
}

static bool is_pill(const struct mend_offer *o) { return o->tier == MEND_SUPPLEMENT && o->whole > 0; }

/* What an offer costs a gram. Fed less often it is less trouble: half as much at least. */
static double offer_cost(const struct mend_offer *o) {
  double often = fmin(1, o->food.line.times_per_28 / CALENDAR_DAYS);
  return o->most > 0 ? TIER_COST[o->tier] * (1 + often) / 2 / o->most : 0;
}

/* How many of the bowl's gaps so much of an offer covers, each counted by the part that it covers. A guide for where the
 * search begins, no more: what cooking and spreads take away is not looked at. */
static double gaps_covered(const struct mend_search *s, const struct mend_offer *o) {
  const struct img_value *v = library_values(s->lib, o->food.line.shown_food);
  double sum = 0;
  for (int n = 0; n < NUT_COUNT; n++) {
    const struct nutrient_result *r = &s->before->nutrient[n];
    double have = isnan(r->window_amount) ? 0 : r->window_amount, gap = r->allowance - have;
    bool lacks = r->verdict == VERDICT_SHORT || r->verdict == VERDICT_THIN || r->verdict == VERDICT_UNPROVEN;
    double brings = v[n].status == VALUE_UNKNOWN ? 0 : (double)v[n].mean / 100 * o->most;
    if (lacks && brings > 0) sum += gap > brings ? brings / gap : 1;
  }
  return sum;
}

static bool kin_in_bowl(const struct mend_search *s, int kin) {
  for (size_t i = 0; kin > 0 && i < s->q->ration->line_count; i++)
    if (s->start[i] > 0 && portion_one_of(s->lib, s->q->ration->line[i].shown_food, s->q->animal->species) == kin)
      return true;
  return false;
}

static bool is_flesh(const struct library *lib, uint32_t food) {
  const struct img_food *f = library_food(lib, food);
  return f && f->part == PART_MUSCLE;
}

static double fat_of(const struct library *lib, uint32_t food) { return library_values(lib, food)[NUT_FAT].mean; }

/* Meat beside the owner's that makes it another dinner: of another animal, or leaner. Thigh with its skin beside chicken
 * breast does not: lean meat alone is poor in fat, linoleic acid and zinc, and part of it for the fatter cut is what
 * everybody does. */
static bool is_other_meat(const struct mend_search *s, uint32_t food) {
  bool any = false;
  if (!is_flesh(s->lib, food)) return false;
  for (size_t i = 0; i < s->q->ration->line_count; i++) {
    uint32_t own = s->q->ration->line[i].shown_food;
    if (!(s->start[i] > 0) || !is_flesh(s->lib, own)) continue;
    bool same_animal = library_food(s->lib, own)->kind == library_food(s->lib, food)->kind;
    if (same_animal && fat_of(s->lib, food) > fat_of(s->lib, own)) return false;
    any = true;
  }
  return any;
}

static size_t list_candidates(struct mend_search *s, struct candidate *c, int *of_line, double *base) {
  const struct ration *r = s->q->ration;
  size_t n = 0;
  for (size_t i = 0; i < r->line_count; i++) {
    double g = ration_line_grams_per_day(&r->line[i]);
    s->danger[i] = !s->q->own[i].keep && mend_goes(s, &r->line[i]);
    s->start[i] = s->danger[i] ? 0 : g;
    of_line[i] = -1;
    if (!(g > 0)) continue;
    of_line[i] = (int)n;
    base[n] = s->start[i];
    c[n++] = (struct candidate){name_of_line(s, i), r->line[i]};
  }
  for (size_t i = 0; i < s->q->offers; i++) c[n++] = s->q->offer[i].food;
  return n;
}

/* A food that may be fed once or twice a week is two offers: not both. */
static void group_rows(struct mend_search *s) {
  for (int group = 1, more = 1; more; group++) {
    double *row = ARENA_NEW(s->arena, double, s->columns);
    const char *name = NULL;
    more = 0;
    for (size_t j = 0; j < s->columns; j++) {
      const struct mend_offer *o = s->column[j].offer >= 0 ? &s->q->offer[s->column[j].offer] : NULL;
      if (!o || o->group < group) continue;
      more |= o->group > group;
      if (o->group > group) continue;
      row[j] = 1 / s->column[j].usual;
      name = o->food.name;
    }
    struct buf b;
    buf_init(&b, s->arena, 300);
    if (name) buf_addf(&b, "%s: as often as the larder says", name);
    if (name) model_row(s->p, buf_text(&b), row, -INFINITY, 1);
  }
}

bool mend_search_begin(struct mend_search *s, const struct library *lib, const struct mend_request *q,
                       const struct check_result *before, struct arena *arena) {
  size_t lines = q->ration->line_count, most = lines + q->offers;
  *s = (struct mend_search){.lib = lib, .q = q, .before = before, .arena = arena, .forced = -1};
  s->start = ARENA_NEW(arena, double, lines);
  s->danger = ARENA_NEW(arena, bool, lines);
  s->column = ARENA_NEW(arena, struct mend_column, 2 * most);
  struct candidate *c = ARENA_NEW(arena, struct candidate, most);
  int *of_line = ARENA_NEW(arena, int, lines);
  double *base = ARENA_NEW(arena, double, most);
  size_t count = list_candidates(s, c, of_line, base);
  s->p = model_new(lib, c, count, arena);
  for (size_t i = 0; i < lines; i++)
    if (of_line[i] >= 0) own_columns(s, i, of_line[i]);
  for (size_t i = 0; i < q->offers; i++) {
    const struct mend_offer *o = &q->offer[i];
    bool supplement = o->tier == MEND_SUPPLEMENT;
    struct mend_column col = {
        .line = -1,
        .offer = (int)i,
        .sign = 1,
        .most = o->most * MEND_STRETCH_MOST,
        .usual = o->most,
        .cost = offer_cost(o),
        .price = o->price,
        .whole = o->whole,
        .step = o->step,
        .floor = o->floor,
        .least = o->least,
        .gram = o->gram,
        .covers = gaps_covered(s, o),
        .since = o->since,
        .pill = is_pill(o),
        .with = {true, !supplement || o->anywhere, supplement || o->tier == MEND_LARDER},
        .at_hand = o->tier == MEND_LARDER,
        /* Nobody buys three fishes, but a larder may hold them. */
        .kin = o->tier == MEND_LARDER ? 0 : portion_one_of(lib, o->food.line.shown_food, q->animal->species)};
    col.kin_had = kin_in_bowl(s, col.kin);
    if (col.kin == 0 && o->group > 0) col.kin = GROUP_KIN + o->group;
    col.other_meat = !col.at_hand && is_other_meat(s, o->food.line.shown_food);
    /* The larder's own figure is firm, and so is a stated amount each time. */
    if (col.at_hand || (o->whole > 0 && !(o->most > o->whole))) col.most = o->most;
    add_column(s, (int)(count - q->offers + i), col);
  }
  s->banned = ARENA_NEW(arena, bool, s->columns);
  s->capped = ARENA_NEW(arena, bool, s->columns);
  s->coarse = ARENA_NEW(arena, bool, s->columns);
  double *share = ARENA_NEW(arena, double, s->columns);
  for (size_t j = 0; j < s->columns; j++) share[j] = s->column[j].sign;
  if (model_bowl(s->p, q->animal, &q->options, &q->limits, base, share) != 0) return false;
  group_rows(s);
  return true;
}

/* May this column be used at all, at this step of the reach? */
static bool plays(const struct mend_search *s, size_t j) {
  const struct mend_column *c = &s->column[j];
  if (s->banned[j] || !c->with[s->with] || (s->at_hand && !c->at_hand)) return false;
  if (c->since > s->reach && s->with == MEND_BOTH) return false;
  if (c->other_meat && s->reach < OTHER_MEAT_FROM) return false;
  return !(c->kin_had && !c->at_hand && mend_kin_counts(s));
}

/* ---- solving with some columns in play ----------------------------------------------------------------------------- */

double mend_within_reach(const struct mend_search *s, size_t column, int reach) {
  const struct mend_column *c = &s->column[column];
  const struct mend_reach *r = &REACH[reach];
  if (c->sign < 0) {
    double most = c->most * (c->main ? r->cut_main : r->cut);
    return c->whole > 0 ? floor(most / c->whole + 1e-6) * c->whole : most;
  }
  if (c->line >= 0 && c->main) return fmin(c->most, c->usual * (r->raise - 1) / (REACH[0].raise - 1));
  return fmin(c->most, s->capped[column] ? c->usual : c->usual * r->stretch);
}

/* A step divided by 'finer', as far as it can be measured: whole multiples of the floor. */
static double step_of(const struct mend_search *s, size_t j, double finer) {
  const struct mend_column *c = &s->column[j];
  if (c->whole > 0) return c->whole;
  double step = c->step / finer;
  if (c->floor > 0) step = fmax(1, floor(step / c->floor + 1e-6)) * c->floor;
  return s->coarse[j] ? fmax(step, c->gram) : step;
}

void mend_play(struct mend_search *s, const bool *in, enum grain grain, double finer) {
  struct lp_model *m = model_lp(s->p);
  model_manners(s->p, s->reach <= LAST_MANNERLY);
  for (size_t j = 0; j < s->columns; j++) {
    const struct mend_column *c = &s->column[j];
    struct lp_col *col = &m->col[j];
    double most = mend_within_reach(s, j, s->reach), step = step_of(s, j, finer);
    bool in_play = (!in || in[j]) && plays(s, j), stepped = c->whole > 0 || (grain == GRAIN_STEPS && step > 0);
    col->hi = in_play ? most : 0;
    col->lo = s->forced == (int)j && in_play && grain == GRAIN_NONE ? fmin(s->forced_to, most) : 0;
    col->least = col->unit = 0;
    if (!in_play || grain == GRAIN_NONE) continue;
    if (stepped) {
      col->unit = step;
      col->hi = floor(most / step + 1e-6) * step;
      col->least = ceil(c->least / step - 1e-6) * step;
    } else {
      col->least = fmin(fmax(step, c->least), most);
    }
  }
}

/* Foods alone rarely suffice with one of each kind: there a second one may come in before portions are doubled. */
bool mend_kin_counts(const struct mend_search *s) {
  return s->reach < (s->with == MEND_FOODS ? KIN_FREE_AMONG_FOODS : KIN_FREE);
}

bool mend_kin_clash(const struct mend_search *s, const bool *in) {
  for (size_t i = 0; mend_kin_counts(s) && i < s->columns; i++)
    for (size_t j = 0; in[i] && s->column[i].kin > 0 && j < i; j++)
      if (in[j] && s->column[j].kin == s->column[i].kin) return true;
  return false;
}

void mend_costs(struct mend_search *s, const double *cost) {
  struct lp_model *m = model_lp(s->p);
  for (size_t j = 0; j < s->columns; j++) m->col[j].cost = cost ? cost[j] : s->column[j].cost;
}

bool mend_in_use(const struct mend_search *s, size_t j, double x) { return x > IN_USE * s->column[j].most; }

int mend_lines_in_use(const struct mend_search *s, const double *x, bool *in) {
  int n = 0;
  for (size_t j = 0; j < s->columns; j++) {
    in[j] = mend_in_use(s, j, x[j]);
    n += in[j];
  }
  return n;
}

double mend_cost_of(const struct mend_search *s, const double *x) {
  double sum = 0;
  for (size_t j = 0; j < s->columns; j++) sum += s->column[j].cost * x[j];
  return sum;
}

/* ---- solving ---------------------------------------------------------------------------------------------------------- */

bool mend_go_on(struct mend_search *s) {
  if (s->finishing || s->stopped || !s->q->go_on) return s->finishing || !s->stopped;
  /* What is told never goes back, though a search that goes further begins again. */
  if (!s->untold && s->shown_lines > 0 && (s->told_lines == 0 || s->shown_lines < s->told_lines)) s->told_lines = s->shown_lines;
  struct lp_answer shown = {.status = LP_STOPPED, .has_x = s->told_lines > 0, .objective = s->told_lines};
  s->stopped = !s->q->go_on(s->q->user, &shown,
                            s->told_lines > 0 && s->shown_fewest > s->told_lines ? s->told_lines : s->shown_fewest, 0);
  return !s->stopped;
}

static bool ask(void *user, const struct lp_answer *best, double bound, long nodes) {
  (void)best;
  (void)bound;
  (void)nodes;
  return mend_go_on(user);
}

struct model_answer mend_solve(struct mend_search *s, bool mixed, long nodes) {
  struct lp_limits l = {.nodes = nodes, .go_on = ask, .user = s};
  model_lp(s->p)->most_used = -1;
  struct model_answer a = model_solve(s->p, mixed, &l);
  s->spent += SOLVE_SPENDS * a.rounds + a.nodes;
  if (a.status == PROGRAM_NONE && !a.proven) s->doubted = true;
  return a;
}

bool mend_within(struct mend_search *s, const bool *in, enum grain grain, double finer, struct mend_choice *out,
                 bool *none) {
  mend_play(s, in, grain, finer);
  struct model_answer a = mend_solve(s, true, s->at_hand ? NODES_AT_HAND : NODES);
  *none = a.status == PROGRAM_NONE && a.proven;
  if (!a.has_x) return false;
  out->x = a.x;
  out->cost = mend_cost_of(s, a.x);
  return true;
}
