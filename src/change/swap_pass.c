/* swap_pass.c: all offers judged in one run over arrays.
 *
 * In single precision, nutrient by nutrient, a block of offers at a time. The chance asked for, P(amount >= allowance) >=
 * sure, is the same as amount >= allowance x R(cv) with R = sqrt(1 + cv^2) exp(z sqrt(ln(1 + cv^2))), z the normal deviate
 * of 'sure'; likewise limit >= amount x K(cv), K = exp(z sigma - sigma^2 / 2). Both are held between two parabolas in cv.
 * What falls between the parabolas, or within single precision of any limit, is settled by verdict_of in double precision,
 * and offers that the sums cannot speak for by check_numbers: so the verdicts are exactly the judge's. */
#include <math.h>

#include "change/swap_parts.h"

enum { BLOCK = SWAP_PADDING, DOUBT = 16 };

/* One run through arrays of one length: worth the widest registers that the machine at hand has. */
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
#define WIDE __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define WIDE
#endif

#if defined(__GNUC__) || defined(__clang__)
#define IN_LINE __attribute__((always_inline))
#else
#define IN_LINE
#endif

static const float NO_LIMIT = 1e15F; /* stands for "none", far beyond any amount, and still finite */

/* 1 + z x + lo x^2 <= f(x) <= 1 + z x + hi x^2 for 0 <= x <= most. */
struct band {
  float z, lo, hi, most;
};

static double needs(double z, double cv) { return sqrt(1 + cv * cv) * exp(z * sqrt(log1p(cv * cv))); }
static double keeps(double z, double cv) {
  double sigma2 = log1p(cv * cv);
  return exp(z * sqrt(sigma2) - 0.5 * sigma2);
}

static struct band band_of(double (*f)(double, double), double z) {
  enum { SAMPLES = 600 };
  const double most = 1.5, slack = 0.002; /* the curve is smooth: between samples it moves by far less */
  double lo = INFINITY, hi = -INFINITY;
  for (int i = 5; i <= SAMPLES; i++) { /* nearer to 0 the quotient only repeats its limit */
    double x = most * i / SAMPLES, c = (f(z, x) - 1 - z * x) / (x * x);
    lo = fmin(lo, c);
    hi = fmax(hi, c);
  }
  return (struct band){(float)z, (float)(lo - slack), (float)(hi + slack), (float)most};
}

/* Eight foods at a time. Comparisons of such vectors give all ones or all zeros in each lane. */
enum { LANES = 8 };
typedef float wide __attribute__((vector_size(LANES * sizeof(float)), aligned(4), may_alias));
typedef int32_t flags __attribute__((vector_size(LANES * sizeof(int32_t)), aligned(4), may_alias));

/* A block of foods for one nutrient: its figures here, the rest in the arrays of the row. */
struct block {
  float allowance[BLOCK], floor[BLOCK], upper[BLOCK];
  float per_allowance[BLOCK], per_upper[BLOCK]; /* one divided by it */
  const float *grams, *mean, *variance, *most;
  float *trouble; /* what is found is added */
  int32_t *verdict;
  float one_trouble[BLOCK]; /* of this nutrient alone */
};

#define LOAD(p, i) (((const wide *)(p))[i])

/* Within single precision of each other. */
#define SIZE_OF(x) ((wide)((flags)(x)&0x7fffffff))
#define NEAR(a, b) (SIZE_OF((a) - (b)) <= 2e-5F * SIZE_OF(b))
/* left >= right x z x cv, for right, z and cv not below 0; 'square': (right x cv)^2. No square root is needed. */
#define BEYOND(left, z, square) (((left) >= 0.0F) & ((left) * (left) >= (z) * (z) * (square)))
#define WHERE(flag, x) ((wide)((flag) & (flags)(x)))

#define WIDE_ONE ((wide){1, 1, 1, 1, 1, 1, 1, 1})

/* verdict.c in single precision, with a mark where that is not enough. 'limited': some food may have an upper limit; the
 * compiler makes two loops of it. */
static inline IN_LINE void judge_foods(struct block *restrict b, const struct supply *rest, struct band need,
                                       struct band keep, const bool limited) {
  const float rw = (float)rest->worst, vw = (float)rest->worst_cv, rm = (float)rest->worst_most;
  const float rr = (float)rest->rich, vr = (float)rest->rich_cv;
  for (int i = 0; i < BLOCK / LANES; i++) {
    wide g = LOAD(b->grams, i), allowance = LOAD(b->allowance, i), least = LOAD(b->floor, i);
    wide x = g * LOAD(b->mean, i), v = g * g * LOAD(b->variance, i), worst = rw + x, missing = rm + g * LOAD(b->most, i);
    wide s2 = (vw + v) / (worst * worst), base = allowance * s2, needed = allowance * base;
    flags met_lo = BEYOND(1.0001F * worst - allowance - need.lo * base, need.z, needed);
    flags met_hi = BEYOND(0.9999F * worst - allowance - need.hi * base, need.z, needed);
    flags waived = allowance < 0.0F;
    flags below = worst < allowance;
    flags poor = worst < least, lifted = (worst + missing >= allowance) | (poor & (worst + missing >= least));
    flags could = (missing > 0.0F) & lifted;
    flags met = (waived | met_hi) & ~below, unsure = ((met_lo ^ met_hi) | (s2 > need.most * need.most)) & ~waived;
    flags depth = NEAR(worst, least) | NEAR(worst + missing, allowance) | NEAR(worst + missing, least);
    flags doubt = NEAR(worst, allowance) | (below & depth);
    flags over = {0};
    wide trouble = WIDE_ONE * 0.0F;
    if (limited) {
      wide upper = LOAD(b->upper, i), rich = rr + x, spread = vr + v, t2 = spread / (rich * rich);
      flags kept_lo = BEYOND(1.0001F * upper - rich - keep.lo * (rich * t2), keep.z, spread);
      flags kept_hi = BEYOND(0.9999F * upper - rich - keep.hi * (rich * t2), keep.z, spread);
      wide excess = rich * LOAD(b->per_upper, i) - 1.0F;
      flags far = excess > 1.0F;
      over = rich > upper;
      met &= kept_hi;
      unsure |= (kept_lo ^ kept_hi) | (t2 > keep.most * keep.most);
      doubt |= NEAR(rich, upper);
      trouble = WHERE(over, 1.0F + WHERE(far, WIDE_ONE) + WHERE(~far, excess));
    }
    flags lacking = below & ~could & ~over, is_short = lacking & poor, is_unproven = below & could & ~over;
    flags is_met = met & ~over, is_thin = (lacking & ~poor) | (~below & ~met & ~over);
    doubt |= ~below & unsure;
    ((flags *)b->verdict)[i] = (over & VERDICT_OVER) | (is_unproven & VERDICT_UNPROVEN) | (is_short & VERDICT_SHORT) |
                               (is_thin & VERDICT_THIN) | (is_met & VERDICT_MET) | (doubt & DOUBT);
    trouble += WHERE(is_thin, 0.25F * WIDE_ONE) + WHERE(is_unproven, 0.5F * WIDE_ONE) +
               WHERE(is_short, 1.5F - worst * LOAD(b->per_allowance, i));
    ((wide *)b->one_trouble)[i] = trouble;
    ((wide *)b->trouble)[i] += trouble;
  }
}

WIDE static void judge_block(struct block *restrict b, const struct supply *rest, struct band need, struct band keep) {
  judge_foods(b, rest, need, keep, true);
}

WIDE static void judge_block_below(struct block *restrict b, const struct supply *rest, struct band need, struct band keep) {
  judge_foods(b, rest, need, keep, false);
}

/* Without an allowance only the upper limit can be passed. */
static void judge_upper_only(struct block *b, const struct supply *rest) {
  for (int i = 0; i < BLOCK; i++) {
    float rich = (float)rest->rich + b->grams[i] * b->mean[i];
    int over = rich > b->upper[i];
    b->verdict[i] =
        (over ? VERDICT_OVER : VERDICT_NO_FIGURE) | (fabsf(rich - b->upper[i]) <= 2e-5F * b->upper[i] ? DOUBT : 0);
    b->one_trouble[i] = over ? 1 + fminf(1, rich / b->upper[i] - 1) : 0;
    b->trouble[i] += b->one_trouble[i];
  }
}

/* ---- figures of a block ----------------------------------------------------------------------------------------- */

static const double SHORT_SHARE = 0.70; /* where a standard has no minimum: verdict.c has the word, this only its place */

static void fixed_figures(const struct swap_row *row, struct block *b) {
  bool waived = row->waived || !(row->allowance.fixed > 0), ceiling = row->ceiling_fixed && !isnan(row->upper.fixed);
  float allowance = waived ? -1 : (float)row->allowance.fixed;
  double least = isnan(row->minimum.fixed) ? SHORT_SHARE * row->allowance.fixed : row->minimum.fixed;
  for (int i = 0; i < BLOCK; i++) {
    b->allowance[i] = allowance;
    b->floor[i] = (float)least;
    b->upper[i] = ceiling ? (float)row->upper.fixed : NO_LIMIT;
    b->per_allowance[i] = 1 / allowance;
    b->per_upper[i] = 1 / b->upper[i];
  }
}

static void any_figures(const struct swap *s, const struct swap_row *row, struct block *b, size_t from, size_t n) {
  for (size_t i = 0; i < n; i++) {
    struct limits l = swap_limits(s, row, from + i);
    b->allowance[i] = row->waived || !(l.allowance > 0) ? -1 : (float)l.allowance;
    b->floor[i] = (float)(isnan(l.minimum) ? SHORT_SHARE * l.allowance : l.minimum);
    b->upper[i] = l.greater_than || isnan(l.upper) ? NO_LIMIT : (float)l.upper;
    b->per_allowance[i] = 1 / b->allowance[i];
    b->per_upper[i] = 1 / b->upper[i];
  }
}

/* Upper limits by energy and by weight: the stricter. Most rows have these and a fixed allowance. */
WIDE static void upper_by_energy(const struct swap_row *row, struct block *restrict b, const float *restrict kcal) {
  float per_kcal = (float)row->upper.per_kcal, by_weight = isnan(row->upper.fixed) ? NO_LIMIT : (float)row->upper.fixed;
  wide weight = WIDE_ONE * by_weight, none = WIDE_ONE * NO_LIMIT;
  wide if_weight = row->ceiling_fixed ? weight : none;
  for (int i = 0; i < BLOCK / LANES; i++) {
    wide energy = per_kcal * LOAD(kcal, i), if_energy = row->ceiling_per_kcal ? energy : none;
    flags stricter = energy < weight;
    wide upper = WHERE(stricter, if_energy) + WHERE(~stricter, if_weight);
    ((wide *)b->upper)[i] = upper;
    ((wide *)b->per_upper)[i] = 1.0F / upper;
  }
}

static bool moves(const struct swap *s, const struct swap_row *row) {
  return !isnan(row->allowance.per_kcal) || !isnan(row->minimum.per_kcal) || (row->n == NUT_VITAMIN_E && !row->waived) ||
         (row->n == NUT_ARGININE && s->arginine_per_protein > 0);
}

static bool has_ceiling(const struct swap_row *row) {
  return (row->ceiling_fixed && !isnan(row->upper.fixed)) || (row->ceiling_per_kcal && !isnan(row->upper.per_kcal));
}

/* fixed_figures stand already. */
static void figures(const struct swap *s, const struct swap_row *row, struct block *b, size_t from, size_t n) {
  if (moves(s, row))
    any_figures(s, row, b, from, n);
  else if (!isnan(row->upper.per_kcal) && (row->ceiling_fixed || row->ceiling_per_kcal))
    upper_by_energy(row, b, s->kcal_now + from);
}

/* ---- settling ---------------------------------------------------------------------------------------------------- */

static double cv_of(double mean, double variance) { return mean > 0 ? sqrt(variance) / mean : 0; }

/* The judge's own arithmetic for one nutrient of one offer. */
static void settle(const struct swap *s, const struct swap_row *row, size_t offer, int32_t *verdict, float *trouble) {
  double g = s->grams_exact[offer], x = g * row->mean_exact[offer], v = g * g * row->variance_exact[offer];
  const struct supply *r = &row->rest;
  struct limits l = swap_limits(s, row, offer);
  struct supply now = {.worst = r->worst + x,
                       .worst_cv = cv_of(r->worst + x, r->worst_cv + v),
                       .worst_most = r->worst + x + r->worst_most + g * row->most_exact[offer],
                       .rich = r->rich + x,
                       .rich_cv = cv_of(r->rich + x, r->rich_cv + v),
                       .rich_possible = r->rich + x + r->rich_possible + g * row->high_exact[offer]};
  enum verdict w = verdict_of(&l, &now, s->ask.options.sure).verdict;
  *verdict = (int32_t)w;
  *trouble =
      w == VERDICT_MET || w == VERDICT_NO_FIGURE ? 0 : (float)swap_trouble(w, now.worst / l.allowance, now.rich / l.upper);
}

static void ask_judge(struct swap *s, size_t offer, struct arena *scratch) {
  struct ration r = swap_ration(s, offer, scratch);
  const struct check_result *c = check_numbers(s->ask.lib, &r, s->ask.animal, &s->ask.options, scratch);
  float trouble = 0;
  for (size_t i = 0; i < s->rows; i++) {
    const struct nutrient_result *n = &c->nutrient[s->row[i].n];
    s->row[i].verdict[offer] = (int32_t)n->verdict;
    trouble += (float)swap_trouble_of(n);
  }
  s->trouble[offer] = trouble;
}

/* ---- the pass ---------------------------------------------------------------------------------------------------- */

static void place(const struct swap *s, const struct swap_row *row, struct block *b, size_t from) {
  b->grams = s->grams + from;
  b->mean = row->mean + from;
  b->variance = row->variance + from;
  b->most = row->most + from;
  b->trouble = s->trouble + from;
  b->verdict = row->verdict + from;
}

static void settle_doubts(struct swap *s, struct swap_row *row, struct block *b, size_t from, size_t n) {
  for (size_t i = 0; i < n; i += LANES) {
    uint64_t v[LANES / 2], both = (uint64_t)DOUBT << 32 | DOUBT;
    memcpy(v, &b->verdict[i], sizeof v);
    if (!((v[0] | v[1] | v[2] | v[3]) & both)) continue;
    for (size_t k = i; k < i + LANES && k < n; k++) {
      if (!(b->verdict[k] & DOUBT)) continue;
      b->verdict[k] &= ~DOUBT;
      if (s->special[from + k] || !(s->grams_exact[from + k] > 0)) continue;
      float trouble;
      settle(s, row, from + k, &b->verdict[k], &trouble);
      b->trouble[k] += trouble - b->one_trouble[k];
    }
  }
}

/* Above the highest level tested it is for the judge to say whether nearly certainly. */
static void doubt_above_tested(const struct swap *s, const struct swap_row *row, struct block *b, size_t from, size_t n) {
  if (row->ceiling_fixed && row->ceiling_per_kcal) return;
  for (size_t i = 0; i < n; i++) {
    struct limits l = swap_limits(s, row, from + i);
    if (l.greater_than && row->rest.rich + s->grams_exact[from + i] * row->mean_exact[from + i] > l.upper)
      b->verdict[i] |= DOUBT;
  }
}

static void one_row(struct swap *s, struct swap_row *row, struct band need, struct band keep, struct block *b) {
  bool upper_only = isnan(row->allowance.fixed) && isnan(row->allowance.per_kcal);
  fixed_figures(row, b);
  for (size_t from = 0; from < s->ask.offers; from += BLOCK) {
    size_t n = s->ask.offers - from < BLOCK ? s->ask.offers - from : BLOCK;
    place(s, row, b, from);
    figures(s, row, b, from, n);
    if (upper_only)
      judge_upper_only(b, &row->rest);
    else if (has_ceiling(row))
      judge_block(b, &row->rest, need, keep);
    else
      judge_block_below(b, &row->rest, need, keep);
    doubt_above_tested(s, row, b, from, n);
    settle_doubts(s, row, b, from, n);
  }
}

void swap_pass(struct swap *s) {
  struct block b;
  memset(&b, 0, sizeof b);
  double z = normal_quantile(s->ask.options.sure);
  struct band need = band_of(needs, z), keep = band_of(keeps, z);
  memset(s->trouble, 0, (s->ask.offers + SWAP_PADDING) * sizeof *s->trouble);
  for (size_t i = 0; i < s->rows && !s->judge_all; i++) one_row(s, &s->row[i], need, keep, &b);
  struct arena scratch;
  arena_init(&scratch, s->arena->on_full);
  for (size_t i = 0; i < s->ask.offers; i++) {
    if (!s->special[i] || !(s->grams_exact[i] > 0)) continue;
    ask_judge(s, i, &scratch);
    arena_free(&scratch);
  }
}
