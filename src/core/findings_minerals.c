/* Calcium and bone, the mineral ratios, phytate, iodine and kelp, the fats' balance. */
#include <math.h>

#include "core/findings_internal.h"

static double threshold(const struct review *r, const char *id) {
  const struct img_finding *row = review_row(r, id);
  return row ? (double)row->threshold : NAN;
}

static bool judged(const struct review *r) { return r->result->animal && r->result->refusal == REFUSE_NOT; }

static void ratio_finding(struct review *r, const char *id, double ratio) {
  struct draft d;
  if (!draft_begin(&d, r, id, NULL)) return;
  draft_number(&d, "ratio", ratio, "");
  draft_number(&d, "limit", (double)d.row->threshold, "");
  draft_number(&d, "calcium", r->result->nutrient[NUT_CALCIUM].amount, "mg");
  draft_number(&d, "phosphorus", r->result->nutrient[NUT_PHOSPHORUS].amount, "mg");
  draft_number(&d, "zinc", r->result->nutrient[NUT_ZINC].amount, "mg");
  draft_number(&d, "copper", r->result->nutrient[NUT_COPPER].amount, "mg");
  draft_number(&d, "phytate", r->result->nutrient[NUT_PHYTATE].amount, "mg");
  draft_end(&d);
}

/* A ration without bone or any other source of calcium: said once, not three times. */
static void calcium_and_bone(struct review *r) {
  const struct nutrient_result *ca = &r->result->nutrient[NUT_CALCIUM];
  double ca_p = r->result->balance.ca_p;
  if (judged(r) && ca->verdict == VERDICT_SHORT && ca_p < threshold(r, "no-calcium-source")) {
    struct draft d;
    if (draft_begin(&d, r, "no-calcium-source", NULL)) {
      draft_number(&d, "amount", ca->amount, "mg");
      draft_number(&d, "allowance", ca->allowance, "mg");
      draft_number(&d, "ratio", ca_p, "");
      draft_number(&d, "gap", (ca->allowance - ca->amount) / 1000, "g");
      draft_end(&d);
      review_silence(r, "calcium-short");
    }
  } else if (ca_p < threshold(r, "ca-p-low")) {
    ratio_finding(r, "ca-p-low", ca_p);
  } else if (ca_p > threshold(r, "ca-p-high")) {
    ratio_finding(r, "ca-p-high", ca_p);
  }
  double bone_g = r->result->parts[JP_BONE] * r->result->energy.grams_per_day;
  const struct img_finding *row = review_row(r, "bone-too-much");
  if (!row || !judged(r) || !(bone_g > (double)row->threshold * r->result->animal->weight_kg)) return;
  struct draft d;
  if (!draft_begin(&d, r, "bone-too-much", NULL)) return;
  draft_number(&d, "bone", bone_g, "g");
  draft_percent(&d, "share", r->result->parts[JP_BONE]);
  draft_number(&d, "most", (double)row->threshold * r->result->animal->weight_kg, "g");
  draft_end(&d);
}

static void zinc_copper_phytate(struct review *r) {
  const struct balance *b = &r->result->balance;
  if (b->zn_cu < threshold(r, "zn-cu-low")) ratio_finding(r, "zn-cu-low", b->zn_cu);
  if (b->zn_cu > threshold(r, "zn-cu-high")) ratio_finding(r, "zn-cu-high", b->zn_cu);
  if (b->phytate_zn > threshold(r, "phytate-zinc-high")) {
    ratio_finding(r, "phytate-zinc-high", b->phytate_zn);
  } else if (b->phytate_zn > threshold(r, "phytate-zinc")) {
    ratio_finding(r, "phytate-zinc", b->phytate_zn);
  }
  if (b->ca_phytate_zn > threshold(r, "calcium-phytate-zinc")) ratio_finding(r, "calcium-phytate-zinc", b->ca_phytate_zn);
}

static void omega_balance(struct review *r) {
  double ratio = r->result->balance.n6_n3;
  if (ratio > threshold(r, "omega-over")) {
    ratio_finding(r, "omega-over", ratio);
  } else if (ratio > threshold(r, "omega-high")) {
    ratio_finding(r, "omega-high", ratio);
  }
}

static void iodine(struct review *r) {
  const struct nutrient_result *i = &r->result->nutrient[NUT_IODINE];
  const int *kelp;
  size_t kelp_count;
  struct draft d;
  if (any_line_with_flag(r, FOOD_KELP, &kelp, &kelp_count)) {
    if (!draft_begin(&d, r, "kelp-range", NULL)) return;
    draft_word(&d, "food", lines_list(r, kelp, kelp_count, 2));
    draft_number(&d, "amount", i->amount, "\xC2\xB5g");
    draft_number(&d, "low", i->low, "\xC2\xB5g");
    draft_number(&d, "high", i->high, "\xC2\xB5g");
    draft_number(&d, "allowance", i->allowance, "\xC2\xB5g");
    draft_end(&d);
    return;
  }
  bool poor = i->verdict == VERDICT_SHORT || i->verdict == VERDICT_UNPROVEN;
  if (!judged(r) || !poor || !(i->ratio < threshold(r, "iodine-absent"))) return;
  if (!draft_begin(&d, r, "iodine-absent", NULL)) return;
  draft_number(&d, "amount", i->amount, "\xC2\xB5g");
  draft_number(&d, "allowance", i->allowance, "\xC2\xB5g");
  draft_percent(&d, "percent", i->ratio);
  draft_end(&d);
  review_silence(r, "iodine-short");
  review_silence(r, "iodine-unproven");
}

void findings_minerals(struct review *r) {
  calcium_and_bone(r);
  zinc_copper_phytate(r);
  omega_balance(r);
  iodine(r);
}
