#include "explain/why.h"
#include "base/table.h"

#include <math.h>

#include "foods/constant_keys.h"
#include "foods/origin.h"
#include "judge/check_steps.h"
#include "judge/stats.h"

static const double PER_100_G = 100.0;

/* ---- what is asked --------------------------------------------------------------------------------------------- */

WORD_TABLE(balance_key, BALANCE_COUNT, "ca_p", "zn_cu", "n6_n3", "k_na", "phytate_zn");
WORD_TABLE(balance_name, BALANCE_COUNT, "calcium : phosphorus", "zinc : copper", "omega-6 : omega-3", "potassium : sodium",
           "phytate : zinc");

/* Without blanks, so that "calcium:phosphorus" is "calcium : phosphorus". */
static bool same_but_blanks(struct span a, const char *b) {
  size_t i = 0;
  for (; *b; b++) {
    if (*b == ' ') continue;
    while (i < a.n && a.p[i] == ' ') i++;
    if (i >= a.n || !span_eq_fold(span_cut(a, i, i + 1), (struct span){b, 1})) return false;
    i++;
  }
  return i == a.n;
}

/* What people call them beside the names of the table. */
static struct span known_as(struct span words) {
  static const struct {
    const char *called, *key;
  } ALSO[] = {{"b1", "thiamin"},
              {"vitamin b1", "thiamin"},
              {"thiamine", "thiamin"},
              {"b2", "riboflavin"},
              {"vitamin b2", "riboflavin"},
              {"b3", "niacin"},
              {"vitamin b3", "niacin"},
              {"b5", "pantothenic"},
              {"vitamin b5", "pantothenic"},
              {"b9", "folate"},
              {"vitamin b9", "folate"},
              {"folic acid", "folate"},
              {"omega 3", "epa_dha"},
              {"omega-3", "epa_dha"},
              {"omega 6", "linoleic"},
              {"omega-6", "linoleic"},
              {"calcium to phosphorus", "ca_p"},
              {"calcium/phosphorus", "ca_p"},
              {"calcium : phosphorus", "ca_p"},
              {"calcium phosphorus ratio", "ca_p"},
              {"calcium to phosphorus ratio", "ca_p"},
              {"zinc to copper", "zn_cu"}};
  for (size_t i = 0; i < sizeof ALSO / sizeof *ALSO; i++)
    if (span_is_fold(words, ALSO[i].called)) return span_of(ALSO[i].key);
  return words;
}

bool why_key_read(struct span words, struct why_key *out) {
  words = known_as(span_trim(words));
  *out = (struct why_key){NUT_NONE, BALANCE_COUNT};
  for (int i = 0; i < BALANCE_COUNT; i++) {
    if (!span_is_fold(words, balance_key[i]) && !same_but_blanks(words, balance_name[i])) continue;
    out->balance = (enum balance_id)i;
    return true;
  }
  out->nutrient = nutrient_by_key(words);
  if (out->nutrient == NUT_NONE) out->nutrient = nutrient_by_name(words);
  return out->nutrient != NUT_NONE;
}

const char *why_key_nearest(struct span words) {
  const int most = 3;
  const char *found = NULL;
  int best = most + 1;
  words = span_trim(words);
  for (int i = 0; i < NUT_COUNT + BALANCE_COUNT; i++) {
    const char *key = i < NUT_COUNT ? nutrient_info[i].key : balance_key[i - NUT_COUNT];
    int d = span_distance(words, span_of(key), most);
    if (i < NUT_COUNT) {
      int by_name = span_distance(words, span_of(nutrient_info[i].name), most);
      d = by_name < d ? by_name : d;
    }
    if (words.n >= 3 && strlen(key) > words.n && span_eq_fold(span_cut(span_of(key), 0, words.n), words)) d = 0;
    if (d < best) {
      best = d;
      found = key;
    }
  }
  return found;
}

/* ---- terms ----------------------------------------------------------------------------------------------------- */

struct book {
  const struct library *lib;
  const struct check_result *r;
  struct totals *t;
  enum species species;
  double carotene;
  struct arena *arena;
};

static const struct img_retention *retention_of(const struct book *b, int32_t row) {
  if (row < 0 || (size_t)row >= img_count(&b->lib->image, IMG_RETENTION)) return NULL;
  return &IMG_ROWS(&b->lib->image, IMG_RETENTION, struct img_retention)[row];
}

static const char *origin_of(const struct book *b, uint32_t food, enum nutrient n) {
  struct buf words;
  buf_init(&words, b->arena, 1024);
  origin_words(b->lib, food, n, &words);
  return buf_text(&words);
}

static void add_term(const struct book *b, struct why_portion *p, enum nutrient n, double factor) {
  const struct img_value *v = &library_values(b->lib, p->food)[n];
  struct why_term t = {.nutrient = n,
                       .factor = factor,
                       .value = v->status == VALUE_UNKNOWN ? (double)NAN : (double)v->mean,
                       .cv = img_cv(*v),
                       .status = (enum value_status)v->status,
                       .source = library_value_source(b->lib, v),
                       .set_aside = library_set_aside(b->lib, p->food, n) != NULL,
                       .origin = origin_of(b, p->food, n),
                       .kept = 1,
                       .kept_status = VALUE_MEASURED};
  if (p->cooked && t.value > 0) {
    bool known = p->cooked->status[n] != VALUE_UNKNOWN;
    t.kept = known ? (double)p->cooked->mean[n] : (double)NAN;
    t.kept_cv = known ? (double)p->cooked->cv[n] : 0;
    t.kept_status = (enum value_status)p->cooked->status[n];
  }
  double x = factor * t.value * t.kept;
  t.per_100g = isnan(x) ? 0 : x;
  p->per_100g += t.per_100g;
  p->term[p->term_count++] = t;
}

static bool has_value(const struct book *b, const struct why_portion *p, enum nutrient n) {
  const struct img_value *v = &library_values(b->lib, p->food)[n];
  if (v->status == VALUE_UNKNOWN || isnan(v->mean)) return false;
  return !p->cooked || v->mean == 0 || (p->cooked->status[n] != VALUE_UNKNOWN && !isnan(p->cooked->mean[n]));
}

/* The same choices as energy.c: by factors, unless the record has gaps and states its energy; carbohydrate without fibre. */
static void add_energy_terms(const struct book *b, struct why_portion *p) {
  bool gap = !has_value(b, p, NUT_PROTEIN) || !has_value(b, p, NUT_FAT) || !has_value(b, p, NUT_CARBOHYDRATE);
  bool published = b->r->options.energy_by == ENERGY_PUBLISHED;
  if (published || (gap && has_value(b, p, NUT_ENERGY))) {
    add_term(b, p, NUT_ENERGY, 1);
    return;
  }
  double carbohydrate = library_constant_value(b->lib, K_ATWATER_CARBOHYDRATE, b->species);
  add_term(b, p, NUT_PROTEIN, library_constant_value(b->lib, K_ATWATER_PROTEIN, b->species));
  add_term(b, p, NUT_FAT, library_constant_value(b->lib, K_ATWATER_FAT, b->species));
  double before = p->per_100g;
  add_term(b, p, NUT_CARBOHYDRATE, carbohydrate);
  if (!has_value(b, p, NUT_CARBOHYDRATE)) return; /* then there is nothing that fibre could be taken off */
  add_term(b, p, NUT_FIBER, -carbohydrate);
  if (p->per_100g >= before) return;
  /* More fibre than carbohydrate: none is left. */
  p->term_count -= 2;
  p->per_100g = before;
}

static void add_terms(const struct book *b, struct why_portion *p, enum nutrient n) {
  if (n == NUT_ENERGY) {
    add_energy_terms(b, p);
  } else if (n == NUT_VITAMIN_A && !has_value(b, p, n)) {
    add_term(b, p, NUT_RETINOL, 1);
    if (b->carotene != 0) add_term(b, p, NUT_BETA_CAROTENE, b->carotene);
  } else if (n == NUT_EPA_DHA && !has_value(b, p, n) && has_value(b, p, NUT_EPA) && has_value(b, p, NUT_DHA)) {
    add_term(b, p, NUT_EPA, 1);
    add_term(b, p, NUT_DHA, 1);
  } else {
    add_term(b, p, n, 1);
  }
}

/* ---- portions -------------------------------------------------------------------------------------------------- */

static int part_of(const struct ration_line *l, uint32_t food, int32_t retention, int from) {
  for (int i = from; i < l->part_count; i++)
    if (l->part[i].food == food && l->part[i].retention == retention) return i;
  return 0;
}

static double grams_in(const struct portion_row *row, const struct why_window *w) {
  return row->grams * (row->fed_before[w->first + w->days] - row->fed_before[w->first]) / w->days;
}

static void fill_portion(const struct book *b, const struct portion_row *row, const struct why_chain *c,
                         struct why_portion *p) {
  const struct stream *s = b->t->stream[row->stream];
  enum nutrient n = c->n->id;
  *p = (struct why_portion){.line = row->line,
                            .part = part_of(&b->r->ration->line[row->line], s->food, s->retention, 0),
                            .food = s->food,
                            .cooked = retention_of(b, s->retention),
                            .grams_fed = row->grams,
                            .grams = row->day_g,
                            .lean_grams = grams_in(row, &c->lean),
                            .rich_grams = grams_in(row, &c->rich),
                            .missing = s->missing[n],
                            .could_hold = s->missing[n] ? row->day_g * s->high_per_g[n] : 0};
  p->grams_cv = b->r->ration->line[row->line].part[p->part].grams_cv;
  add_terms(b, p, n);
  if (p->missing && p->per_100g == 0) p->per_100g = (double)NAN;
  p->amount = p->grams * p->per_100g / PER_100_G;
}

static bool written_before(const struct why_portion *a, const struct why_portion *b) {
  return a->line != b->line ? a->line < b->line : a->part < b->part;
}

static void sort_portions(struct why_portion *p, size_t n) {
  for (size_t i = 1; i < n; i++) {
    struct why_portion x = p[i];
    size_t j = i;
    for (; j > 0 && written_before(&x, &p[j - 1]); j--) p[j] = p[j - 1];
    p[j] = x;
  }
}

/* Covariance of each portion with the sum: these add up to the variance of totals.c. A food's content is shared by all its
 * portions, its retention by the portions of one stream, and the weight belongs to the portion. */
static void share_variance(const struct book *b, enum nutrient n, struct why_portion *p) {
  const struct totals *t = b->t;
  for (int from = 0; from < t->row_count;) {
    uint32_t food = t->stream[t->row[from].stream]->food;
    double whole = 0, content = 0;
    int to = from;
    for (; to < t->row_count && t->stream[t->row[to].stream]->food == food; to++) {
      whole += t->row[to].day_g * t->stream[t->row[to].stream]->per_g[n];
      content = fmax(content, t->stream[t->row[to].stream]->value_cv2[n]);
    }
    for (int i = from; i < to; i++) {
      const struct stream *s = t->stream[t->row[i].stream];
      double x = t->row[i].day_g * s->per_g[n], of_stream = 0;
      for (int k = from; k < to; k++)
        if (t->row[k].stream == t->row[i].stream) of_stream += t->row[k].day_g * s->per_g[n];
      p[i].from_content = content * whole * x;
      p[i].from_kept = (1 + content) * s->kept_cv2[n] * x * of_stream;
      p[i].from_weight = (1 + content) * (1 + s->kept_cv2[n]) * x * x * t->row[i].grams_cv2;
    }
    from = to;
  }
}

/* ---- window, chance, word -------------------------------------------------------------------------------------- */

static struct why_window window_of(const struct book *b, enum nutrient n, int first, int days, bool whole) {
  struct window_total w = whole ? totals_over_calendar(b->t, n) : totals_in_window(b->t, n, first, days);
  return (struct why_window){first, days, w.amount, w.cv, w.missing_most};
}

static void find_windows(const struct book *b, struct why_chain *c) {
  const struct nutrient_result *n = c->n;
  struct day_range e = totals_days(b->t, n->id, n->window_days);
  int days = e.alike ? CALENDAR_DAYS : n->window_days;
  c->lean = window_of(b, n->id, e.worst, days, e.alike);
  c->rich = window_of(b, n->id, e.rich, days, e.alike);
}

static struct why_chance chance_of(double mean, double cv, double figure, bool at_most) {
  struct why_chance c = {mean, cv, figure, (double)NAN, (double)NAN, (double)NAN};
  if (!(figure > 0)) return c;
  c.sigma = sqrt(log1p(cv * cv));
  if (mean > 0 && c.sigma > 0) c.z = (log(mean / figure) - c.sigma * c.sigma / 2) / c.sigma;
  c.chance = lognormal_chance_at_least(mean, cv, figure);
  if (!at_most) return c;
  c.z = -c.z;
  c.chance = 1 - c.chance;
  return c;
}

static void judge(const struct book *b, struct why_chain *c) {
  const struct nutrient_result *n = c->n;
  struct limits l = {n->minimum, n->allowance, n->upper, n->upper_greater_than};
  struct supply s = {.worst = c->lean.amount,
                     .worst_cv = c->lean.cv,
                     .worst_most = c->lean.amount + c->lean.could_hold,
                     .rich = c->rich.amount,
                     .rich_cv = c->rich.cv,
                     .rich_possible = (double)NAN};
  c->rule = verdict_of(&l, &s, b->r->options.sure).rule;
  c->met = chance_of(c->lean.amount, c->lean.cv, n->allowance, false);
  c->kept = chance_of(c->rich.amount, c->rich.cv, n->upper, true);
}

/* ---- energy in four steps -------------------------------------------------------------------------------------- */

static void four_steps(const struct book *b, struct why_four_step *f) {
  const double *g = b->t->amount;
#define CONSTANT(key) library_constant_value(b->lib, key, b->species)
  double dry = g[NUT_PROTEIN] + g[NUT_FAT] + g[NUT_CARBOHYDRATE] + g[NUT_ASH];
  f->gross = CONSTANT(K_GROSS_PROTEIN) * g[NUT_PROTEIN] + CONSTANT(K_GROSS_FAT) * g[NUT_FAT] +
             CONSTANT(K_GROSS_CARBOHYDRATE) * g[NUT_CARBOHYDRATE];
  f->digestible_percent = CONSTANT(K_DIGESTIBILITY_START) - CONSTANT(K_DIGESTIBILITY_SLOPE) * 100.0 * g[NUT_FIBER] / dry;
  f->urine = CONSTANT(K_URINARY_LOSS) * g[NUT_PROTEIN];
#undef CONSTANT
  f->kcal = f->gross * f->digestible_percent / 100.0 - f->urine;
}

/* As check.c does: what was summed as 0 is not known. */
static void withhold_unknown(struct why_chain *c) {
  double *const field[] = {&c->sum,      &c->variance,   &c->lean.amount, &c->lean.cv,   &c->rich.amount, &c->rich.cv,
                           &c->met.mean, &c->met.chance, &c->met.z,       &c->kept.mean, &c->kept.chance, &c->kept.z};
  for (size_t i = 0; i < COUNT_OF(field); i++) *field[i] = (double)NAN;
}

/* ---- all of it ------------------------------------------------------------------------------------------------- */

static const struct why_chain *chain_of(const struct book *b, enum nutrient n, struct arena *arena) {
  struct why_chain *c = ARENA_NEW(arena, struct why_chain, 1);
  struct why_portion *p = ARENA_NEW(arena, struct why_portion, (size_t)b->t->row_count);
  c->n = &b->r->nutrient[n];
  c->portion = p;
  c->count = (size_t)b->t->row_count;
  c->variance = b->t->variance[n];
  c->four_step = (struct why_four_step){NAN, NAN, NAN, NAN};
  find_windows(b, c);
  for (int i = 0; i < b->t->row_count; i++) {
    fill_portion(b, &b->t->row[i], c, &p[i]);
    c->sum += known_part(p[i].amount);
  }
  share_variance(b, n, p);
  sort_portions(p, c->count);
  judge(b, c);
  if ((n == NUT_ENERGY ? b->r->energy.known : c->n->known) == KNOWN_NONE) withhold_unknown(c);
  if (n == NUT_ENERGY && b->r->options.energy_by == ENERGY_FOUR_STEP) four_steps(b, &c->four_step);
  return c;
}

static void add_sum(const struct check_result *r, struct why_sum *at, int *count, enum nutrient n, double molar_mass) {
  at[(*count)++] = (struct why_sum){n, r->nutrient[n].amount, molar_mass};
}

static struct why_ratio ratio_of(const struct book *b, enum balance_id id) {
  const struct balance *x = &b->r->balance;
  const double value[] = {x->ca_p, x->zn_cu, x->n6_n3, x->k_na, x->phytate_zn}, none = (double)NAN;
  ROW_FOR_EACH(value, BALANCE_COUNT);
  struct why_ratio q = {.id = id, .value = value[id], .known_share = x->known_share[id]};
  static const enum nutrient TOP[][WHY_SUMS] = {[BALANCE_CA_P] = {NUT_CALCIUM, NUT_NONE},
                                                [BALANCE_ZN_CU] = {NUT_ZINC, NUT_NONE},
                                                [BALANCE_N6_N3] = {NUT_LINOLEIC, NUT_ARACHIDONIC},
                                                [BALANCE_K_NA] = {NUT_POTASSIUM, NUT_NONE},
                                                [BALANCE_PHYTATE_ZN] = {NUT_PHYTATE, NUT_NONE}};
  ROW_FOR_EACH(TOP, BALANCE_COUNT);
  static const enum nutrient BOTTOM[BALANCE_COUNT][WHY_SUMS] = {[BALANCE_CA_P] = {NUT_PHOSPHORUS, NUT_NONE},
                                                                [BALANCE_ZN_CU] = {NUT_COPPER, NUT_NONE},
                                                                [BALANCE_N6_N3] = {NUT_ALPHA_LINOLENIC, NUT_EPA_DHA},
                                                                [BALANCE_K_NA] = {NUT_SODIUM, NUT_NONE},
                                                                [BALANCE_PHYTATE_ZN] = {NUT_ZINC, NUT_NONE}};
  bool molar = id == BALANCE_PHYTATE_ZN;
  double above = molar ? library_constant_value(b->lib, K_MOLAR_PHYTATE, b->species) : none;
  double below = molar ? library_constant_value(b->lib, K_MOLAR_ZINC, b->species) : none;
  for (int i = 0; i < WHY_SUMS; i++) {
    if (TOP[id][i] != NUT_NONE) add_sum(b->r, q.top, &q.top_count, TOP[id][i], above);
    if (BOTTOM[id][i] != NUT_NONE) add_sum(b->r, q.bottom, &q.bottom_count, BOTTOM[id][i], below);
  }
  return q;
}

/* The sums are gathered again as check.c does it. */
static struct book open_book(const struct library *lib, const struct check_result *r, struct arena *arena) {
  struct book b = {.lib = lib, .r = r, .arena = arena, .species = r->animal ? r->animal->species : SPECIES_DOG};
  struct energy_result energy;
  b.carotene = r->animal ? library_constant_value(lib, K_CAROTENE_FACTOR, b.species) : 0.0;
  b.t = totals_gather(lib, r->ration, b.carotene, arena);
  energy_supply(b.t, b.species, &r->options, &energy, arena);
  return b;
}

const struct why *why_of(const struct library *lib, const struct check_result *r, const struct why_key *keys, size_t count,
                         struct arena *arena) {
  struct why *why = ARENA_NEW(arena, struct why, count);
  struct book b = open_book(lib, r, arena);
  for (size_t i = 0; i < count; i++) {
    why[i].key = keys[i];
    if (keys[i].nutrient == NUT_NONE) {
      why[i].ratio = ratio_of(&b, keys[i].balance);
    } else {
      why[i].chain = chain_of(&b, keys[i].nutrient, arena);
    }
  }
  return why;
}
