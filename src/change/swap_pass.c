/* swap_pass.c: all offers judged in one run over arrays.
 *
 * In single precision, nutrient by nutrient, a block of offers at a time. The chance asked for, P(amount >= allowance) >=
 * sure, is the same as amount >= allowance x R(cv) with R = sqrt(1 + cv^2) exp(z sqrt(ln(1 + cv^2))), z the normal deviate
 * of 'sure'; likewise limit >= amount x K(cv), K = exp(z sigma - sigma^2 / 2). Both are held between two parabolas in cv.
 * What falls between the parabolas, or within single precision of any limit, is settled by verdict_of in double precision,
 * and offers that the sums cannot speak for by check_numbers: so the verdicts are exactly the judge's. */
#include <math.h>

#include "change/swap_parts.h"

enum { BLOCK = 256, DOUBT = 16 };

/* One run through arrays of one length: worth the widest registers that the machine at hand has. */
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
#define WIDE __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define WIDE
#endif

static const float NO_LIMIT = 1e30F; /* stands for "none", far beyond any amount, and still finite */

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

struct block {
  float allowance[BLOCK], floor[BLOCK], upper[BLOCK], grams[BLOCK], mean[BLOCK], variance[BLOCK], most[BLOCK];
  float trouble[BLOCK];
  int32_t verdict[BLOCK];
};

static inline int near(float a, float b) { return fabsf(a - b) <= 2e-5F * fabsf(b); }

/* verdict.c in single precision, with a mark where that is not enough. */
WIDE static void judge_block(struct block *restrict b, const struct supply *rest, struct band need, struct band keep) {
  const float rw = (float)rest->worst, vw = (float)rest->worst_cv, rm = (float)rest->worst_most, rr = (float)rest->rich,
              vr = (float)rest->rich_cv;
  for (int i = 0; i < BLOCK; i++) {
    float g = b->grams[i], allowance = b->allowance[i], upper = b->upper[i], least = b->floor[i];
    float x = g * b->mean[i], v = g * g * b->variance[i], worst = rw + x, rich = rr + x, missing = rm + g * b->most[i];
    float s2 = (vw + v) / (worst * worst), s = sqrtf(s2), t2 = (vr + v) / (rich * rich), t = sqrtf(t2);
    float need_lo = allowance * (1 + need.z * s + need.lo * s2), need_hi = allowance * (1 + need.z * s + need.hi * s2);
    float keep_lo = rich * (1 + keep.z * t + keep.lo * t2), keep_hi = rich * (1 + keep.z * t + keep.hi * t2);
    int over = rich > upper, below = worst < allowance, could = (missing > 0) & (worst + missing >= allowance);
    int thin = (worst < need_lo) | (upper < keep_lo);
    int low = worst < least ? VERDICT_SHORT : VERDICT_THIN;
    low = could ? VERDICT_UNPROVEN : low;
    int high = thin ? VERDICT_THIN : VERDICT_MET;
    int verdict = below ? low : high;
    verdict = over ? VERDICT_OVER : verdict;
    int unsure = ((worst >= need_lo * 0.9999F) & (worst <= need_hi * 1.0001F)) | (s > need.most);
    int unkept = ((upper >= keep_lo * 0.9999F) & (upper <= keep_hi * 1.0001F)) | ((t > keep.most) & (upper < NO_LIMIT));
    int doubt =
        near(worst, allowance) | near(rich, upper) | (below & (near(worst, least) | near(worst + missing, allowance)));
    doubt |= below ? 0 : unsure | unkept;
    b->verdict[i] = verdict | (doubt ? DOUBT : 0);
    float share = worst / allowance, excess = rich / upper - 1;
    excess = excess < 1 ? excess : 1;
    float trouble = verdict == VERDICT_THIN ? 0.25F : 0.0F;
    trouble = verdict == VERDICT_UNPROVEN ? 0.5F : trouble;
    trouble = verdict == VERDICT_SHORT ? 1.5F - share : trouble;
    b->trouble[i] = verdict == VERDICT_OVER ? 1 + excess : trouble;
  }
}

/* Without an allowance only the upper limit can be passed. */
static void judge_upper_only(struct block *b, const struct supply *rest) {
  for (int i = 0; i < BLOCK; i++) {
    float rich = (float)rest->rich + b->grams[i] * b->mean[i];
    int over = rich > b->upper[i];
    b->verdict[i] = (over ? VERDICT_OVER : VERDICT_NO_FIGURE) | (near(rich, b->upper[i]) ? DOUBT : 0);
    b->trouble[i] = over ? 1 + fminf(1, rich / b->upper[i] - 1) : 0;
  }
}

/* ---- figures of a block ----------------------------------------------------------------------------------------- */

static const double SHORT_SHARE = 0.70; /* where a standard has no minimum: verdict.c has the word, this only its place */

static void fixed_figures(const struct swap_row *row, struct block *b) {
  bool waived = row->waived, ceiling = row->ceiling_fixed && !isnan(row->upper.fixed);
  float allowance = waived ? -1 : (float)row->allowance.fixed;
  double least = isnan(row->minimum.fixed) ? SHORT_SHARE * row->allowance.fixed : row->minimum.fixed;
  for (int i = 0; i < BLOCK; i++) {
    b->allowance[i] = allowance;
    b->floor[i] = (float)least;
    b->upper[i] = ceiling ? (float)row->upper.fixed : NO_LIMIT;
  }
}

static void any_figures(const struct swap *s, const struct swap_row *row, struct block *b, size_t from, size_t n) {
  for (size_t i = 0; i < n; i++) {
    struct limits l = swap_limits(s, row, from + i);
    b->allowance[i] = row->waived ? -1 : (float)l.allowance;
    b->floor[i] = (float)(isnan(l.minimum) ? SHORT_SHARE * l.allowance : l.minimum);
    b->upper[i] = l.greater_than || isnan(l.upper) ? NO_LIMIT : (float)l.upper;
  }
}

/* Upper limits by energy and by weight: the stricter. Most rows have these and a fixed allowance. */
static void upper_by_energy(const struct swap *s, const struct swap_row *row, struct block *b, size_t from, size_t n) {
  float per_kcal = (float)row->upper.per_kcal, by_weight = isnan(row->upper.fixed) ? NO_LIMIT : (float)row->upper.fixed;
  bool forbids_fixed = row->ceiling_fixed;
  for (size_t i = 0; i < n; i++) {
    float e = per_kcal * s->kcal_now[from + i];
    bool energy = e < by_weight;
    b->upper[i] = energy ? (row->ceiling_per_kcal ? e : NO_LIMIT) : forbids_fixed ? by_weight : NO_LIMIT;
  }
}

static void figures(const struct swap *s, const struct swap_row *row, struct block *b, size_t from, size_t n) {
  bool moves = !isnan(row->allowance.per_kcal) || !isnan(row->minimum.per_kcal) ||
               (row->n == NUT_VITAMIN_E && !row->waived) || (row->n == NUT_ARGININE && s->arginine_per_protein > 0);
  fixed_figures(row, b);
  if (moves)
    any_figures(s, row, b, from, n);
  else if (!isnan(row->upper.per_kcal) && (row->ceiling_fixed || row->ceiling_per_kcal))
    upper_by_energy(s, row, b, from, n);
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
  *trouble = (float)swap_trouble(w, now.worst / l.allowance, now.rich / l.upper);
}

static void ask_judge(struct swap *s, size_t offer, struct arena *scratch) {
  struct ration r = swap_ration(s, offer, scratch);
  const struct check_result *c = check_numbers(s->ask.lib, &r, s->ask.animal, &s->ask.options, scratch);
  float trouble = 0;
  for (size_t i = 0; i < s->rows; i++) {
    const struct nutrient_result *n = &c->nutrient[s->row[i].n];
    s->row[i].verdict[offer] = (uint8_t)n->verdict;
    trouble += (float)swap_trouble(n->verdict, n->window_amount / n->allowance, n->window_high / n->upper);
  }
  s->trouble[offer] = trouble;
}

/* ---- the pass ---------------------------------------------------------------------------------------------------- */

static void load(const struct swap *s, const struct swap_row *row, struct block *b, size_t from, size_t n) {
  memcpy(b->grams, s->grams + from, n * sizeof(float));
  memcpy(b->mean, row->mean + from, n * sizeof(float));
  memcpy(b->variance, row->variance + from, n * sizeof(float));
  memcpy(b->most, row->most + from, n * sizeof(float));
}

static void one_row(struct swap *s, struct swap_row *row, struct band need, struct band keep, struct block *b, size_t from,
                    size_t n) {
  bool upper_only = isnan(row->allowance.fixed) && isnan(row->allowance.per_kcal);
  load(s, row, b, from, n);
  figures(s, row, b, from, n);
  if (upper_only)
    judge_upper_only(b, &row->rest);
  else
    judge_block(b, &row->rest, need, keep);
  for (size_t i = 0; i < n; i++) {
    size_t offer = from + i;
    if ((b->verdict[i] & DOUBT) && !s->special[offer]) settle(s, row, offer, &b->verdict[i], &b->trouble[i]);
    row->verdict[offer] = (uint8_t)(b->verdict[i] & ~DOUBT);
    s->trouble[offer] += b->trouble[i];
  }
}

void swap_pass(struct swap *s) {
  struct block b;
  memset(&b, 0, sizeof b);
  double z = normal_quantile(s->ask.options.sure);
  struct band need = band_of(needs, z), keep = band_of(keeps, z);
  memset(s->trouble, 0, s->ask.offers * sizeof *s->trouble);
  for (size_t from = 0; from < s->ask.offers && !s->judge_all; from += BLOCK) {
    size_t n = s->ask.offers - from < BLOCK ? s->ask.offers - from : BLOCK;
    for (size_t i = 0; i < s->rows; i++) one_row(s, &s->row[i], need, keep, &b, from, n);
  }
  struct arena scratch;
  arena_init(&scratch, s->arena->on_full);
  for (size_t i = 0; i < s->ask.offers; i++) {
    if (!s->special[i] || !(s->grams_exact[i] > 0)) continue;
    ask_judge(s, i, &scratch);
    arena_free(&scratch);
  }
}
