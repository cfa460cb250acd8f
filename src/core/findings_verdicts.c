/* Each nutrient that is short, thin, over or unproven, and the nutrients that hang on a single food. */
#include <math.h>

#include "core/findings_internal.h"

static const char *suppliers(const struct review *r, const struct nutrient_result *n) {
  int *line = ARENA_NEW(r->arena, int, n->from_count);
  for (size_t i = 0; i < n->from_count; i++) line[i] = n->from[i].line;
  return n->from_count ? lines_list(r, line, n->from_count, 2) : "no food here";
}

/* ---- what would close a gap ---------------------------------------------------------------------------------- */

/* The mean that has to be reached for the allowance to be met with the confidence asked, the relative spread staying as it
 * is. */
static double mean_wanted(const struct review *r, const struct nutrient_result *n) {
  double cv = isfinite(n->cv) ? n->cv : 0;
  return n->allowance / lognormal_quantile(1.0, cv, 1.0 - r->result->options.sure);
}

static double held(const struct review *r, uint32_t food, enum nutrient n) {
  const struct img_value *v = library_values(r->lib, food);
  double carotene = n == NUT_VITAMIN_A ? constant_of(r, "carotene-to-retinol") : 0;
  if (n != NUT_VITAMIN_A) return v[n].status == VALUE_UNKNOWN ? 0 : (double)v[n].mean;
  double retinol = v[NUT_RETINOL].status == VALUE_UNKNOWN ? 0 : (double)v[NUT_RETINOL].mean;
  double from_carotene =
      v[NUT_BETA_CAROTENE].status == VALUE_UNKNOWN || !isfinite(carotene) ? 0 : (double)v[NUT_BETA_CAROTENE].mean * carotene;
  return retinol + from_carotene;
}

/* Whether so many grams a day would push another nutrient over its upper limit. */
static bool opens_a_hole(const struct review *r, uint32_t food, double grams) {
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct nutrient_result *n = &r->result->nutrient[k];
    if (isfinite(n->upper) && !n->upper_greater_than && n->amount <= n->upper &&
        n->amount + grams / 100 * held(r, food, (enum nutrient)k) > n->upper)
      return true;
  }
  return false;
}

static const char *fix_words(const struct review *r, const struct img_fix *fix, double grams) {
  struct buf b;
  buf_init(&b, r->arena, 512);
  buf_addf(&b, "About %s of %s a day would close this", amount_words(r->arena, grams, "g"), lib_str(r->lib, fix->words));
  double fat = grams / 100 * held(r, fix->food, NUT_FAT), phytate = grams / 100 * held(r, fix->food, NUT_PHYTATE);
  const struct energy_result *e = &r->result->energy;
  double kcal = grams / 100 * held(r, fix->food, NUT_ENERGY);
  bool some = false;
  if (fat >= 0.5) {
    buf_addf(&b, " and add %s fat", amount_words(r->arena, fat, "g"));
    some = true;
  }
  if (phytate >= 10) {
    buf_addf(&b, "%s %s phytate", some ? " and" : " and add", amount_words(r->arena, phytate, "mg"));
    some = true;
  }
  if (kcal >= 0.03 * e->supply_kcal) buf_addf(&b, "%s %s", some ? " and" : " and add", amount_words(r->arena, kcal, "kcal"));
  buf_adds(&b, ".");
  return buf_text(&b);
}

/* The first food of the table that closes the gap within a sensible amount and opens no other hole; "" if none does. */
static const char *closing_food(const struct review *r, const struct nutrient_result *n) {
  const struct img_fix *fix = IMG_ROWS(&r->lib->image, IMG_FIXES, struct img_fix);
  size_t count = img_count(&r->lib->image, IMG_FIXES);
  double gap = mean_wanted(r, n) - n->window_amount;
  for (size_t i = 0; i < count; i++) {
    if (fix[i].nutrient != n->id) continue;
    if (fix[i].species != SPECIES_BOTH && fix[i].species != r->result->animal->species) continue;
    double per_gram = held(r, fix[i].food, n->id) / 100;
    if (!(per_gram > 0)) continue;
    double grams = gap / per_gram, size = r->result->body.metabolic_kg / pow(10, r->result->body.exponent);
    if (!(grams > 0 && grams <= (double)fix[i].most_g * size) || opens_a_hole(r, fix[i].food, grams)) continue;
    return fix_words(r, &fix[i], grams);
  }
  return "";
}

/* ---- one nutrient ------------------------------------------------------------------------------------------------ */

static void nutrient_words(struct draft *d, const struct nutrient_result *n) {
  struct review *r = d->review;
  const char *unit = nutrient_info[n->id].unit;
  draft_word(d, "name", nutrient_info[n->id].name);
  draft_number(d, "amount", n->amount, unit);
  draft_number(d, "allowance", n->allowance, unit);
  draft_number(d, "worst", n->window_amount, unit);
  draft_number(d, "days", n->window_days, n->window_days == 1 ? "day" : "days");
  draft_percent(d, "percent", n->amount / n->allowance);
  draft_percent(d, "worst_percent", n->ratio);
  draft_percent(d, "chance", n->chance_met);
  if (isfinite(n->minimum)) draft_number(d, "minimum", n->minimum, unit);
  if (isfinite(n->upper)) {
    draft_number(d, "upper", n->upper, unit);
    draft_percent(d, "of_upper", n->amount / n->upper);
  }
  draft_word(d, "suppliers", suppliers(r, n));
  draft_word(d, "missing", n->missing_count ? lines_list(r, n->missing, n->missing_count, 3) : "");
  draft_word(d, "adjusted_why", n->adjusted_why);
}

/* 'always': the words of the generic row hold even where the nutrient has a row of its own. */
static void nutrient_finding(struct review *r, const struct nutrient_result *n, const char *suffix, const char *generic,
                             bool always) {
  struct draft d;
  const char *id = review_id(r, n->id, suffix);
  if (!(always ? draft_begin_as(&d, r, id, generic) : draft_begin(&d, r, id, generic))) return;
  nutrient_words(&d, n);
  bool gap = n->verdict == VERDICT_SHORT || n->verdict == VERDICT_THIN;
  draft_word(&d, "fix", gap && isfinite(n->allowance) ? closing_food(r, n) : "");
  d.severity = n->verdict == VERDICT_OVER ? (int)(999 * n->upper / (n->amount + n->upper)) : (int)(999 * fmin(1, n->ratio));
  draft_end(&d);
}

static void one_nutrient(struct review *r, const struct nutrient_result *n) {
  bool between = n->verdict_by_window && n->ratio < 1;
  switch (n->verdict) {
  case VERDICT_SHORT:
    nutrient_finding(r, n, "short", between ? "nutrient-short-between" : "nutrient-short", between);
    break;
  case VERDICT_THIN:
    if (n->near_upper) {
      nutrient_finding(r, n, "near-upper", "nutrient-near-upper", false);
    } else if (between) {
      nutrient_finding(r, n, "thin", "nutrient-thin-between", true);
    } else {
      nutrient_finding(r, n, "thin", n->ratio >= 1 ? "nutrient-unsure" : "nutrient-thin", false);
    }
    break;
  case VERDICT_OVER:
    nutrient_finding(r, n, "over", "nutrient-over", false);
    break;
  case VERDICT_UNPROVEN:
    nutrient_finding(r, n, "unproven", "nutrient-unproven", false);
    break;
  default:
    break;
  }
  if (n->verdict != VERDICT_OVER && n->upper_greater_than && n->amount > n->upper)
    nutrient_finding(r, n, "above-tested", "nutrient-above-tested", false);
  if (n->verdict != VERDICT_OVER && n->highest_day_over) {
    struct draft d;
    if (!draft_begin(&d, r, review_id(r, n->id, "rich-day"), "nutrient-rich-day")) return;
    nutrient_words(&d, n);
    draft_number(&d, "highest", n->highest_day, nutrient_info[n->id].unit);
    draft_end(&d);
  }
}

/* A sum says what its half says: met_cys when methionine is short as well, single acids when protein itself is short. */
static void silence_the_obvious(struct review *r) {
  const struct nutrient_result *n = r->result->nutrient;
  if (n[NUT_PROTEIN].verdict == VERDICT_SHORT)
    for (int k = NUT_ARGININE; k <= NUT_VALINE; k++) {
      review_silence(r, review_id(r, (enum nutrient)k, "short"));
      review_silence(r, review_id(r, (enum nutrient)k, "thin"));
    }
  if (n[NUT_MET_CYS].verdict == n[NUT_METHIONINE].verdict)
    review_silence(r, review_id(r, NUT_METHIONINE, verdict_word[n[NUT_METHIONINE].verdict]));
  if (n[NUT_PHE_TYR].verdict == n[NUT_PHENYLALANINE].verdict)
    review_silence(r, review_id(r, NUT_PHENYLALANINE, verdict_word[n[NUT_PHENYLALANINE].verdict]));
}

/* ---- one food carries it ------------------------------------------------------------------------------------------ */

static bool rests_on(const struct review *r, const struct nutrient_result *n, int line, double share) {
  (void)r;
  bool judged = n->verdict == VERDICT_MET || n->verdict == VERDICT_THIN;
  return judged && n->allowance > 0 && n->from_count > 0 && n->from[0].line == line && n->from[0].share > share &&
         nutrient_info[n->id].group != NG_PROXIMATE && nutrient_info[n->id].group != NG_AMINO;
}

static double energy_share_of_line(const struct review *r, int line) {
  const struct energy_result *e = &r->result->energy;
  for (size_t i = 0; i < e->from_count; i++)
    if (e->from[i].line == line) return e->from[i].share;
  return 0;
}

/* A main ingredient carries much by its mere size; what matters is the small line that nothing else could replace. */
static void rests_on_one_food(struct review *r) {
  const struct img_finding *row = review_row(r, "rests-on-one-food");
  if (!row) return;
  for (size_t line = 0; line < r->result->ration->line_count; line++) {
    if (energy_share_of_line(r, (int)line) > row->threshold2) continue;
    struct buf names;
    buf_init(&names, r->arena, 512);
    size_t count = 0;
    for (int k = 0; k < NUT_COUNT; k++)
      if (rests_on(r, &r->result->nutrient[k], (int)line, row->threshold)) {
        buf_addf(&names, "%s%s", count++ ? ", " : "", nutrient_info[k].name);
      }
    struct draft d;
    if (count == 0 || !draft_begin(&d, r, "rests-on-one-food", NULL)) continue;
    draft_word(&d, "names", buf_text(&names));
    draft_word(&d, "food", line_words(r, (int)line));
    draft_text_because(&d, "nutrients", buf_text(&names));
    draft_number(&d, "line", r->result->ration->line[line].line, "");
    draft_percent(&d, "threshold", row->threshold);
    d.severity = (int)(999 / (count + 1));
    draft_end(&d);
  }
}

static void rests_on_estimates(struct review *r) {
  const struct img_finding *row = review_row(r, "rests-on-estimates");
  struct buf names;
  buf_init(&names, r->arena, 512);
  size_t count = 0;
  for (int k = 0; k < NUT_COUNT && row; k++) {
    const struct nutrient_result *n = &r->result->nutrient[k];
    if (n->verdict == VERDICT_MET && n->estimated_share > row->threshold && nutrient_info[k].group != NG_AMINO)
      buf_addf(&names, "%s%s", count++ ? ", " : "", nutrient_info[k].name);
  }
  struct draft d;
  if (count == 0 || !draft_begin(&d, r, "rests-on-estimates", NULL)) return;
  draft_word(&d, "names", buf_text(&names));
  draft_percent(&d, "threshold", row->threshold);
  draft_text_because(&d, "nutrients", buf_text(&names));
  draft_end(&d);
}

void findings_verdicts(struct review *r) {
  for (int k = 0; k < NUT_COUNT; k++) one_nutrient(r, &r->result->nutrient[k]);
  silence_the_obvious(r);
  rests_on_one_food(r);
  rests_on_estimates(r);
}
