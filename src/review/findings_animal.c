/* What the species and the age ask for beyond the allowances. */
#include <math.h>

#include "review/findings_internal.h"

static void cat_needs(struct review *r) {
  const struct nutrient_result *n = r->result->nutrient;
  const struct img_finding *carbohydrate = review_row(r, "cat-carbohydrate");
  struct draft d;
  if (carbohydrate && energy_is_whole(&r->result->energy) && r->result->energy.share_carbohydrate > (double)carbohydrate->threshold &&
      draft_begin(&d, r, "cat-carbohydrate", NULL)) {
    draft_of(&d, NUT_CARBOHYDRATE);
    draft_percent(&d, "share", r->result->energy.share_carbohydrate);
    draft_percent(&d, "usual", (double)carbohydrate->threshold);
    draft_end(&d);
  }
  bool poor_a = n[NUT_VITAMIN_A].verdict == VERDICT_SHORT || n[NUT_VITAMIN_A].verdict == VERDICT_THIN;
  if (poor_a && n[NUT_BETA_CAROTENE].amount > 0 && draft_begin(&d, r, "cat-carotene", NULL)) {
    draft_of(&d, NUT_VITAMIN_A);
    draft_number(&d, "carotene", n[NUT_BETA_CAROTENE].amount, "\xC2\xB5g");
    draft_number(&d, "amount", n[NUT_VITAMIN_A].amount, "\xC2\xB5g");
    draft_number(&d, "allowance", n[NUT_VITAMIN_A].allowance, "\xC2\xB5g");
    draft_end(&d);
  }
}

/* Oily fish as most of the diet inflames the body fat of cats where vitamin E is poor. */
static void cat_fish(struct review *r) {
  double share = r->result->parts[BOWL_FISH];
  const struct nutrient_result *e = &r->result->nutrient[NUT_VITAMIN_E];
  struct draft d;
  if (!is_mostly_fish(r, share) || !draft_begin(&d, r, "cat-mostly-fish", NULL)) return;
  draft_of(&d, NUT_VITAMIN_E);
  if (!is_lacking(e)) d.weight = FINDING_WATCH;
  draft_percent(&d, "share", share);
  draft_number(&d, "amount", e->amount, "mg");
  draft_number(&d, "allowance", e->allowance, "mg");
  draft_end(&d);
}

/* More protein asks for more B6; how much more nobody has put in a figure. */
static void cat_b6(struct review *r) {
  const struct nutrient_result *p = &r->result->nutrient[NUT_PROTEIN], *b6 = &r->result->nutrient[NUT_B6];
  struct draft d;
  if (is_lacking(b6) || !draft_begin(&d, r, "b6-protein", NULL)) return;
  if (!(p->amount > (double)d.row->threshold * p->allowance) || !(b6->ratio < (double)d.row->threshold2)) return;
  draft_of(&d, NUT_B6);
  draft_of(&d, NUT_PROTEIN);
  draft_number(&d, "protein", p->amount, "g");
  draft_number(&d, "times", p->amount / p->allowance, "");
  draft_number(&d, "amount", b6->amount, "mg");
  draft_percent(&d, "percent", b6->ratio);
  draft_end(&d);
}

/* Older animals keep their muscle on more protein than the allowance of a young adult. */
static void older(struct review *r) {
  const struct animal *a = r->result->animal;
  const char *id = a->species == SPECIES_CAT ? "older-protein-cat" : "older-protein-dog";
  const struct img_finding *row = review_row(r, id);
  const struct nutrient_result *p = &r->result->nutrient[NUT_PROTEIN];
  if (!row || !(a->age_years >= (double)row->threshold) || !(p->amount < (double)row->threshold2 * p->allowance)) return;
  if (p->verdict == VERDICT_SHORT) return;
  struct draft d;
  if (!draft_begin(&d, r, id, NULL)) return;
  draft_of(&d, NUT_PROTEIN);
  draft_number(&d, "age", a->age_years, "years");
  draft_number(&d, "amount", p->amount, "g");
  draft_number(&d, "wanted", (double)row->threshold2 * p->allowance, "g");
  draft_number(&d, "allowance", p->allowance, "g");
  draft_end(&d);
}

static void said_of_the_animal(struct review *r) {
  const struct animal *a = r->result->animal;
  struct draft d;
  if (!(a->age_years >= 0) && draft_begin(&d, r, "age-not-stated", NULL)) draft_end(&d);
  if (r->result->allowances.basis_forced && draft_begin(&d, r, "basis-forced", NULL)) {
    draft_word(&d, "standard", standard_name[r->result->allowances.standard]);
    draft_end(&d);
  }
}

/* The row that decided the word: the limit that is passed, the minimum that is missed, else the allowance. */
static const struct img_allowance *deciding_row(const struct nutrient_result *n) {
  if (n->verdict == VERDICT_OVER) return n->table->upper_row;
  if (n->verdict == VERDICT_SHORT && n->table->minimum_row) return n->table->minimum_row;
  return n->table->allowance_row;
}

/* How much of the yardstick itself was read, read on another basis, and recalled. */
static void standard_from_memory(struct review *r) {
  int count[CONF_COUNT] = {0}, all = 0;
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct img_allowance *row = deciding_row(&r->result->nutrient[k]);
    if (!row) continue;
    all++;
    count[row->confidence]++;
  }
  struct draft d;
  if (all == count[CONF_CONFIRMED] || !draft_begin(&d, r, "standard-from-memory", NULL)) return;
  draft_number(&d, "read", count[CONF_CONFIRMED], "");
  int read = (int)count[CONF_CONFIRMED];
  draft_word(&d, "read", read == 0 ? "none was" : words_text(r->arena, "%d %s", read, read == 1 ? "was" : "were"));
  draft_number(&d, "converted", count[CONF_CONVERTED], "");
  draft_number(&d, "recalled", all - count[CONF_CONFIRMED] - count[CONF_CONVERTED], "");
  draft_number(&d, "all", all, "");
  draft_word(&d, "standard", standard_name[r->result->allowances.standard]);
  draft_end(&d);
}

void findings_animal(struct review *r) {
  if (r->result->animal->species == SPECIES_CAT) {
    cat_needs(r);
    cat_fish(r);
    cat_b6(r);
  }
  older(r);
  said_of_the_animal(r);
  standard_from_memory(r);
}
