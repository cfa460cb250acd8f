/* The balance of the fats, and the vitamin E that they use up. */
#include <math.h>

#include "review/findings_internal.h"

/* Could foods without a value hold so much omega-3 that the ratio is fine? Then nobody knows it. What is fed without being
 * counted is named in the words. */
static bool omega_3_may_do(const struct review *r, double limit) {
  const struct nutrient_result *n = r->result->nutrient;
  double six = known_part(n[NUT_LINOLEIC].amount) + known_part(n[NUT_ARACHIDONIC].amount),
         three = n[NUT_ALPHA_LINOLENIC].possible + n[NUT_EPA_DHA].possible;
  return r->result->ration->uncounted_count == 0 && !(six > limit * three);
}

static void omega_balance(struct review *r) {
  double ratio = r->result->balance.n6_n3;
  const struct nutrient_result *n3 = &r->result->nutrient[NUT_EPA_DHA];
  const char *id = omega_6_is_over(r, &r->result->balance, n3) ? "omega-over"
                   : ratio > row_threshold(r, "omega-high")    ? "omega-high"
                                                               : NULL;
  /* A shortage of EPA and DHA names the ratio itself and has the same remedy. */
  if (!id || (review_judged(r) && n3->verdict == VERDICT_SHORT) || omega_3_may_do(r, row_threshold(r, id))) return;
  struct draft d;
  if (!draft_begin(&d, r, id, NULL)) return;
  draft_of(&d, NUT_EPA_DHA);
  draft_of(&d, NUT_LINOLEIC);
  draft_number(&d, "ratio", ratio, "");
  draft_number(&d, "limit", (double)d.row->threshold, "");
  draft_word(&d, "main", main_words(r, &r->result->nutrient[NUT_LINOLEIC], 0));
  draft_end(&d);
}

/* Whose fat raises the need; less of it helps only where it is an oil, for the rest of the bowl hangs on no other line. */
static void fat_words(struct draft *d) {
  const struct review *r = d->review;
  int line = line_behind_vitamin_e(r);
  draft_word(d, "raiser", line < 0 ? "its foods" : line_words(r, line));
  draft_word(d, "or_less", line_is_oil(r, line) ? words_text(r->arena, ", or less %s", line_words(r, line)) : "");
}

/* Fat that raises the need is said as one finding, not as a bare shortage; a rise of a few per cent is not the point. */
static void vitamin_e_for_fat(struct review *r) {
  static const double SMALL_GAP = 0.01; /* of the need: nobody weighs out so little; what is wanting is certainty */
  const struct nutrient_result *e = &r->result->nutrient[NUT_VITAMIN_E];
  if (!review_judged(r) || !e->adjusted || !is_lacking(e) || e->known == KNOWN_NONE) return;
  if (!(e->adjusted_to > row_threshold2(r, "vitamin-e-for-fat") * e->adjusted_from)) return;
  struct draft d;
  double gap = e->adjusted_to - e->window_amount;
  bool missing = gap > SMALL_GAP * e->adjusted_to;
  if (!draft_begin_as(&d, r, "vitamin-e-for-fat", missing ? "vitamin-e-for-fat" : "vitamin-e-for-fat-unsure")) return;
  draft_of(&d, NUT_VITAMIN_E);
  draft_number(&d, "amount", e->amount, "mg");
  draft_number(&d, "from", e->adjusted_from, "mg");
  draft_number(&d, "to", e->adjusted_to, "mg");
  draft_percent(&d, "percent", e->amount / e->adjusted_to);
  draft_word(&d, "why", e->adjusted_why);
  fat_words(&d);
  if (missing) draft_number(&d, "gap", gap, "mg");
  draft_fix(&d, e);
  if (e->verdict != VERDICT_SHORT) d.weight = FINDING_WATCH;
  d.severity = (int)(999 * (1 - row_threshold(r, "vitamin-e-for-fat") / 10 * (1 - fmin(1, e->ratio))));
  draft_end(&d);
  review_silence_nutrient(r, NUT_VITAMIN_E);
}

void findings_fats(struct review *r) {
  omega_balance(r);
  vitamin_e_for_fat(r);
}
