/* Calcium and bone, the mineral ratios, phytate against zinc, iodine and kelp. */
#include <math.h>

#include "foods/constant_keys.h"
#include "review/findings_internal.h"

static void ratio_words(struct draft *d, double ratio, double limit) {
  const struct nutrient_result *n = d->review->result->nutrient;
  draft_number(d, "ratio", ratio, "");
  draft_word(d, "ratio", words_ratio(d->review->arena, ratio));
  draft_number(d, "limit", limit, "");
  draft_number(d, "calcium", n[NUT_CALCIUM].amount, "mg");
  draft_number(d, "phosphorus", n[NUT_PHOSPHORUS].amount, "mg");
  draft_number(d, "zinc", n[NUT_ZINC].amount, "mg");
  draft_number(d, "copper", n[NUT_COPPER].amount, "mg");
  draft_number(d, "phytate", n[NUT_PHYTATE].amount, "mg");
}

/* For whoever asks for all that is said of a nutrient. */
static void about(struct draft *d, enum nutrient n) {
  draft_of(d, n);
  draft_text_because(d, "nutrients", nutrient_info[n].key);
}

static void about_calcium(struct draft *d) {
  about(d, NUT_CALCIUM);
  about(d, NUT_PHOSPHORUS);
}

/* Does a ratio stay on its side of the limit whatever foods without a value hold? Else nobody knows it, and what is said of
 * the two nutrients says so. What is fed without being counted is named in the words. */
static bool stays_below(const struct review *r, enum nutrient top, enum nutrient bottom, double limit) {
  const struct nutrient_result *n = r->result->nutrient;
  return r->result->ration->uncounted_count > 0 || n[top].possible < limit * n[bottom].amount;
}

static bool stays_above(const struct review *r, enum nutrient top, enum nutrient bottom, double limit) {
  const struct nutrient_result *n = r->result->nutrient;
  return r->result->ration->uncounted_count > 0 || n[top].amount > limit * n[bottom].possible;
}

/* Less of what supplies a metal helps only where that is a supplement or liver: meat feeds the animal. */
static const char *or_less(const struct review *r, enum nutrient n) {
  const struct nutrient_result *x = &r->result->nutrient[n];
  const struct supply_list *list = who_supplies(x);
  if (list->from_count == 0) return "";
  enum part part = (enum part)food_of_line(r, (size_t)list->from[0].line)->part;
  bool spare = part == PART_SUPPLEMENT || part == PART_ORGAN_LIVER;
  return spare ? words_text(r->arena, ", or less of %s", main_words(r, x, 0)) : "";
}

static void ratio_finding(struct review *r, const char *id, double ratio, enum nutrient one, enum nutrient other) {
  struct draft d;
  if (!draft_begin(&d, r, id, NULL)) return;
  about(&d, one);
  about(&d, other);
  ratio_words(&d, ratio, (double)d.row->threshold);
  draft_word(&d, "main", main_words(r, &r->result->nutrient[one], 0));
  draft_word(&d, "or_less_zinc", or_less(r, NUT_ZINC));
  draft_word(&d, "or_less_copper", or_less(r, NUT_COPPER));
  draft_end(&d);
}

/* ---- calcium, phosphorus, bone --------------------------------------------------------------------------------- */

static bool is_verdict(const struct review *r, enum nutrient n, enum verdict v) {
  return r->result->nutrient[n].verdict == v;
}

/* A ration without bone or any other source of calcium: said once, not three times. */
static bool no_calcium_source(struct review *r) {
  const struct nutrient_result *ca = &r->result->nutrient[NUT_CALCIUM];
  double ca_p = r->result->balance.ca_p;
  struct draft d;
  if (!review_judged(r) || ca->verdict != VERDICT_SHORT || !(ca_p < row_threshold(r, "no-calcium-source"))) return false;
  if (!draft_begin(&d, r, "no-calcium-source", NULL)) return false;
  about_calcium(&d);
  draft_number(&d, "amount", ca->amount, "mg");
  draft_number(&d, "allowance", ca->allowance, "mg");
  draft_number(&d, "ratio", ca_p, "");
  draft_word(&d, "ratio", words_ratio(r->arena, ca_p));
  draft_number(&d, "gap", (ca->allowance - ca->amount) / 1000, "g");
  draft_fix(&d, ca);
  draft_end(&d);
  review_silence(r, "calcium-short");
  return true;
}

/* Smallest and largest ratio of sums over runs of so many days. */
static void ratio_over_windows(const double *a, const double *b, int days, double *low, double *high) {
  *low = INFINITY;
  *high = -INFINITY;
  for (int first = 0; first < CALENDAR_DAYS; first++) {
    double x = 0, y = 0;
    for (int k = 0; k < days; k++) {
      x += a[(first + k) % CALENDAR_DAYS];
      y += b[(first + k) % CALENDAR_DAYS];
    }
    if (!(y > 0)) continue;
    *low = fmin(*low, x / y);
    *high = fmax(*high, x / y);
  }
}

/* The average is fine, but calcium and phosphorus do not come together: over the same few days the ratio leaves its bounds.
 */
static void uneven_calcium(struct review *r) {
  const struct totals *t = review_totals(r);
  if (t->same_every_day || r->result->nutrient[NUT_CALCIUM].verdict_by_window) return; /* the shortage says it */
  double calcium[CALENDAR_DAYS], phosphorus[CALENDAR_DAYS], low, high;
  int days = r->result->nutrient[NUT_CALCIUM].window_days;
  totals_series(t, NUT_CALCIUM, calcium);
  totals_series(t, NUT_PHOSPHORUS, phosphorus);
  ratio_over_windows(calcium, phosphorus, days, &low, &high);
  bool below = low<row_threshold(r, "ca-p-low"), above = high> row_threshold(r, "ca-p-high");
  struct draft d;
  if ((!below && !above) || !draft_begin(&d, r, "ca-p-uneven", NULL)) return;
  about_calcium(&d);
  draft_number(&d, "ratio", r->result->balance.ca_p, "");
  draft_word(&d, "ratio", words_ratio(r->arena, r->result->balance.ca_p));
  draft_number(&d, "low", low, "");
  draft_number(&d, "high", high, "");
  draft_number(&d, "days", days, days == 1 ? "day" : "days");
  draft_word(&d, "uneven", uneven_words(r, &r->result->nutrient[NUT_CALCIUM]));
  draft_end(&d);
}

static void bone(struct review *r) {
  double bone_g = r->result->parts[BOWL_BONE] * r->result->energy.grams_per_day;
  struct draft d;
  if (!review_judged(r) || !draft_begin(&d, r, "bone-too-much", NULL)) return;
  about_calcium(&d);
  double most = (double)d.row->threshold * r->result->animal->weight_kg;
  if (!(bone_g > most)) return;
  draft_number(&d, "bone", bone_g, "g");
  draft_percent(&d, "share", r->result->parts[BOWL_BONE]);
  draft_number(&d, "most", most, "g");
  draft_number(&d, "ratio", r->result->balance.ca_p, "");
  draft_word(&d, "ratio", words_ratio(r->arena, r->result->balance.ca_p));
  draft_end(&d);
  review_silence(r, "ca-p-high");
  review_silence_nutrient(r, NUT_CALCIUM);
}

static void little_calcium(struct review *r, double ca_p) {
  const struct nutrient_result *ca = &r->result->nutrient[NUT_CALCIUM];
  struct draft d;
  if (!draft_begin(&d, r, "ca-p-low", NULL)) return;
  about_calcium(&d);
  ratio_words(&d, ca_p, (double)d.row->threshold);
  bool judged = review_judged(r);
  struct buf of;
  buf_init(&of, r->arena, 80);
  if (judged) {
    double share = ca->amount / ca->allowance;
    draft_percent(&d, "percent", share);
    buf_addf(&of, ", %s of the allowance", words_share(r->arena, share));
  }
  draft_word(&d, "of", buf_text(&of));
  const struct nutrient_result *p = &r->result->nutrient[NUT_PHOSPHORUS];
  bool p_spare = !judged || !is_lacking(p);
  draft_word(&d, "or_less",
             p_spare ? words_text(r->arena, ", or less of what supplies phosphorus (%s now)",
                                  amount_words(r->arena, p->amount, "mg"))
                     : "");
  bool open = judged && ca->verdict == VERDICT_UNPROVEN && r->result->ration->uncounted_count > 0;
  draft_word(&d, "unless", open ? ", unless what is not counted supplies it" : "");
  draft_word(&d, "fix", "");
  if (judged && is_lacking(ca)) draft_fix(&d, ca);
  draft_end(&d);
  review_silence(r, "calcium-thin");
}

/* Too much calcium for the phosphorus: which of the two is at fault? */
static void much_calcium(struct review *r, double ca_p) {
  const struct nutrient_result *ca = &r->result->nutrient[NUT_CALCIUM], *p = &r->result->nutrient[NUT_PHOSPHORUS];
  bool p_lacks = review_judged(r) && is_lacking(p);
  struct draft d;
  if (!draft_begin_as(&d, r, "ca-p-high", p_lacks ? "ca-p-high-phosphorus" : "ca-p-high")) return;
  double limit = row_threshold(r, "ca-p-high");
  about_calcium(&d);
  ratio_words(&d, ca_p, limit);
  bool hardly = strcmp(words_number(r->arena, ca_p), words_number(r->arena, limit)) == 0;
  if (hardly) draft_word(&d, "ratio", words_text(r->arena, "just over %s", words_number(r->arena, limit)));
  draft_word(&d, "main", main_words(r, ca, 0));
  draft_percent(&d, "p_percent", p->amount / p->allowance);
  if (p_lacks) d.gap = p;
  draft_end(&d);
}

static void calcium_and_bone(struct review *r) {
  double ca_p = r->result->balance.ca_p;
  bool judged = review_judged(r);
  bone(r);
  if (no_calcium_source(r)) return;
  /* The shortage or surplus itself names the ratio. */
  bool said_low = judged && is_verdict(r, NUT_CALCIUM, VERDICT_SHORT);
  bool said_high = judged && is_verdict(r, NUT_CALCIUM, VERDICT_OVER);
  double low = row_threshold(r, "ca-p-low"), high = row_threshold(r, "ca-p-high");
  if (ca_p < low) {
    if (!said_low && stays_below(r, NUT_CALCIUM, NUT_PHOSPHORUS, low)) little_calcium(r, ca_p);
  } else if (ca_p > high) {
    if (!said_high && stays_above(r, NUT_CALCIUM, NUT_PHOSPHORUS, high)) much_calcium(r, ca_p);
  } else {
    uneven_calcium(r);
  }
}

/* ---- zinc ------------------------------------------------------------------------------------------------------ */

static double calcium_of_dry_matter(const struct review *r) {
  const struct nutrient_result *n = r->result->nutrient;
  double dry = known_part(n[NUT_PROTEIN].amount) + known_part(n[NUT_FAT].amount) + known_part(n[NUT_CARBOHYDRATE].amount) +
               known_part(n[NUT_ASH].amount);
  return dry > 0 ? n[NUT_CALCIUM].amount / 1000 / dry : (double)NAN;
}

/* Calcium tightens the grip of phytate: a straight line between the two diets that were tested, flat beyond them. */
static double phytate_limit(const struct review *r) {
  static const double TESTED_LOW = 0.0075, TESTED_HIGH = 0.0175; /* calcium, share of dry matter: Morris and Ellis 1980 */
  double at_low = constant_of(r, K_PHYTATE_ZINC), at_high = constant_of(r, K_PHYTATE_ZINC_HIGH_CALCIUM);
  double where = (calcium_of_dry_matter(r) - TESTED_LOW) / (TESTED_HIGH - TESTED_LOW);
  return at_low + (at_high - at_low) * fmin(1, fmax(0, where));
}

static void phytate(struct review *r) {
  const struct balance *b = &r->result->balance;
  double limit = phytate_limit(r);
  const char *id = b->phytate_zn > limit ? "phytate-zinc-high" : "phytate-zinc";
  struct draft d;
  if (!(b->phytate_zn > row_threshold(r, "phytate-zinc")) || !draft_begin(&d, r, id, NULL)) {
    if (b->ca_phytate_zn > row_threshold(r, "calcium-phytate-zinc"))
      ratio_finding(r, "calcium-phytate-zinc", b->ca_phytate_zn, NUT_ZINC, NUT_CALCIUM);
    return;
  }
  about(&d, NUT_ZINC);
  draft_of(&d, NUT_PHYTATE);
  ratio_words(&d, b->phytate_zn, limit);
  draft_percent(&d, "calcium_share", calcium_of_dry_matter(r));
  draft_number(&d, "product", b->ca_phytate_zn, "mmol per 1000 kcal");
  draft_end(&d);
}

/* The ratio is told only where neither metal's own verdict tells it already. */
static void zinc_and_copper(struct review *r) {
  double ratio = r->result->balance.zn_cu;
  const struct nutrient_result *n = r->result->nutrient;
  bool judged = review_judged(r);
  double low = row_threshold(r, "zn-cu-low"), high = row_threshold(r, "zn-cu-high");
  bool is_low = ratio < low && stays_below(r, NUT_ZINC, NUT_COPPER, low);
  if (is_low && !(judged && n[NUT_ZINC].verdict == VERDICT_SHORT))
    ratio_finding(r, "zn-cu-low", ratio, NUT_ZINC, NUT_COPPER);
  bool copper_short = judged && n[NUT_COPPER].verdict == VERDICT_SHORT;
  if (zinc_crowds_copper(r, &r->result->balance, &n[NUT_ZINC], &n[NUT_COPPER]))
    ratio_finding(r, "zn-cu-high-copper-short", ratio, NUT_ZINC, NUT_COPPER);
  else if (ratio > high && !copper_short && stays_above(r, NUT_ZINC, NUT_COPPER, high))
    ratio_finding(r, "zn-cu-high", ratio, NUT_ZINC, NUT_COPPER);
}

/* ---- iodine ---------------------------------------------------------------------------------------------------- */

static void kelp(struct review *r, const int *line, size_t count) {
  const struct nutrient_result *i = &r->result->nutrient[NUT_IODINE];
  struct draft d;
  const char *id = i->amount > i->upper ? "kelp-over" : "kelp-range";
  if (!draft_begin(&d, r, id, NULL)) return;
  about(&d, NUT_IODINE);
  draft_word(&d, "food", lines_list(r, line, count, 2));
  draft_number(&d, "amount", i->amount, "\xC2\xB5g");
  draft_number(&d, "low", i->low, "\xC2\xB5g");
  draft_number(&d, "high", i->high, "\xC2\xB5g");
  if (review_judged(r)) {
    draft_number(&d, "allowance", i->allowance, "\xC2\xB5g");
  } else {
    draft_word(&d, "allowance", "not judged here");
  }
  if (isfinite(i->upper)) draft_number(&d, "upper", i->upper, "\xC2\xB5g");
  draft_number_because(&d, "kelp-range", i->high / i->low, "");
  draft_end(&d);
  review_silence_nutrient(r, NUT_IODINE);
}

/* Is there a food without a value among the lines that is none of nature: an own label, a brand, a dish? */
static bool any_is_made_up(const struct review *r, const struct nutrient_result *n) {
  const struct supply_list *list = who_supplies(n);
  bool any = false;
  for (size_t i = 0; i < list->missing_count; i++)
    any |= (food_of_line(r, (size_t)list->missing[i])->flags & (FOOD_OWN | FOOD_BRAND | FOOD_DISH | FOOD_ENRICHED)) != 0;
  return any;
}

static void iodine(struct review *r) {
  const struct nutrient_result *i = &r->result->nutrient[NUT_IODINE];
  const int *lines;
  size_t count;
  struct draft d;
  if (any_line_with_flag(r, FOOD_KELP, &lines, &count)) {
    kelp(r, lines, count);
    return;
  }
  /* A food that is fed and not counted may supply it all, and so may one that somebody made up: it may have iodised salt. */
  bool open = i->verdict == VERDICT_UNPROVEN && r->result->ration->uncounted_count == 0 && !any_is_made_up(r, i);
  bool poor = i->verdict == VERDICT_SHORT || open;
  if (!review_judged(r) || !poor || !(i->ratio < row_threshold(r, "iodine-absent"))) return;
  if (!draft_begin(&d, r, "iodine-absent", NULL)) return;
  about(&d, NUT_IODINE);
  draft_number(&d, "amount", i->amount, "\xC2\xB5g");
  draft_number(&d, "allowance", i->allowance, "\xC2\xB5g");
  draft_percent(&d, "percent", i->amount / i->allowance);
  draft_fix(&d, i);
  d.severity = (int)(999 * (1 - gravity_of(r, NUT_IODINE) / 10 * (1 - i->ratio)));
  draft_end(&d);
  review_silence_nutrient(r, NUT_IODINE);
}

void findings_minerals(struct review *r) {
  calcium_and_bone(r);
  zinc_and_copper(r);
  phytate(r);
  iodine(r);
}
