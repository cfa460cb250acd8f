/* Each nutrient that is short, thin, over or unproven. */
#include <math.h>

#include "base/table.h"
#include "foods/constant_keys.h"
#include "judge/meal.h"
#include "review/findings_internal.h"

static const char *suppliers(const struct review *r, const struct nutrient_result *n) {
  const struct supply_list *list = who_supplies(n);
  int *line = ARENA_NEW(r->arena, int, list->from_count);
  for (size_t i = 0; i < list->from_count; i++) line[i] = list->from[i].line;
  return lines_list(r, line, list->from_count, 2);
}

static const char *mostly_words(const struct review *r, const struct nutrient_result *n) {
  if (who_supplies(n)->from_count == 0) return "No food here contains any.";
  return words_text(r->arena, "Most of it comes from %s.", suppliers(r, n));
}

/* ---- words that only some nutrients have ------------------------------------------------------------------------- */

static const char *ratio_words(const struct review *r, double x) {
  return isfinite(x) ? amount_words(r->arena, x, "") : "not known";
}

/* What the species can make for itself; no standard counts it. */
static const char *species_note(struct review *r, enum nutrient n) {
  bool cat = r->result->animal->species == SPECIES_CAT;
  struct buf b;
  buf_init(&b, r->arena, 256);
  if (n == NUT_NIACIN) {
    buf_adds(&b, cat ? "Cats make next to none from tryptophan."
                     : "Dogs make some from tryptophan, but no standard counts it, so it is not counted here.");
  } else if (n == NUT_CHOLINE) {
    const struct nutrient_result *m = &r->result->nutrient[NUT_METHIONINE];
    double spare = fmax(0, known_part(m->amount) - m->allowance), per_gram = constant_of(r, K_METHIONINE_FOR_CHOLINE);
    if (spare > 0 && per_gram > 0)
      buf_addf(&b, "Surplus methionine (%s here) may spare some choline; how much is uncertain, so it is not counted.",
               amount_words(r->arena, spare, "g"));
  } else if (n == NUT_ARACHIDONIC && cat) {
    buf_adds(&b, "Cats cannot make it from plant oils.");
  }
  return buf_text(&b);
}

/* Why the food has to supply a vitamin that bacteria of the gut usually make. */
static const char *gut_condition(const struct review *r, enum nutrient n) {
  if (r->result->animal->antibiotics) return "antibiotics thin out the gut bacteria that make it";
  return n == NUT_BIOTIN ? "raw egg white binds what gut bacteria make"
                         : "cats fed a lot of fish have bled for lack of it all the same";
}

/* What is known and what could be there: the two ends that decide between the words. */
static const char *ends_words(const struct review *r, const struct nutrient_result *n) {
  const struct supply_list *list = who_supplies(n);
  if (list->missing_count + r->result->ration->uncounted_count == 0) return "";
  const char *unit = nutrient_info[n->id].unit, *need = amount_words(r->arena, n->allowance, unit);
  struct buf b;
  buf_init(&b, r->arena, 1024);
  bool some = n->window_amount > 0;
  if (some) buf_addf(&b, "the foods with data supply %s", amount_words(r->arena, n->window_amount, unit));
  buf_addf(&b, some ? " of the %s needed; " : "%s is needed; ", need);
  bool own = false; /* of a label of one's own nobody would publish any */
  for (size_t i = 0; i < list->missing_count; i++) own |= (food_of_line(r, (size_t)list->missing[i])->flags & FOOD_OWN) != 0;
  buf_addf(&b, "%s for %s, which could ", own ? "there is no figure" : "nobody has published a figure",
           unknown_list(r, list->missing, list->missing_count, 3));
  if (!isfinite(n->possible)) {
    buf_adds(&b, "contain any amount of it");
  } else {
    buf_addf(&b, some ? "lift that to %s" : "contain up to %s",
             !(n->window_most > 0) ? "next to none"
                                   : words_text(r->arena, "at most %s", amount_words(r->arena, n->window_most, unit)));
  }
  return buf_text(&b);
}

/* A limit of nothing stands in no table of ours, but in any library that somebody made. */
static double share_of(double amount, double limit) {
  if (limit > 0) return amount / limit;
  return amount > 0 ? (double)INFINITY : 0;
}

/* "2.51 g in a whole day's food", where the bowl may be a part of that; "" else. */
static const char *limit_of_a_day(const struct review *r, const struct nutrient_result *n) {
  double most = meal_limit_of_a_day(r->result, n);
  return isnan(most) ? ""
                     : words_text(r->arena, "%s in a whole day's food",
                                  amount_words(r->arena, most, nutrient_info[n->id].unit));
}

/* The limit, and whose it is where this standard sets none; what passes it: the average, or the richest days. */
static void limit_words(struct draft *d, const struct nutrient_result *n) {
  const char *unit = nutrient_info[n->id].unit;
  enum standard_id asked = d->review->result->options.standard;
  draft_number(d, "upper", n->upper, unit);
  draft_percent(d, "of_upper", share_of(n->amount, n->upper));
  draft_number(d, "rich", n->window_high, unit);
  draft_percent(d, "of_upper_rich", share_of(n->window_high, n->upper));
  struct arena *a = d->review->arena;
  const char *day = limit_of_a_day(d->review, n), *upper = amount_words(a, n->upper, unit);
  if (!n->table->upper_borrowed) {
    if (day[0]) draft_word(d, "upper", words_text(a, "%s for so much energy (%s)", upper, day));
    return;
  }
  const char *lender = standard_name[n->table->upper_row->standard];
  draft_word(d, "upper",
             words_text(a, "%s%s (%s%s%s; %s sets none)", upper, day[0] ? " for so much energy" : "", day, day[0] ? "; " : "",
                        lender, standard_name[asked]));
  draft_text_because(d, "upper_standard", standard_key[n->table->upper_row->standard]);
}

/* "at least 0.54 µg" where foods without a value could add something to speak of. */
static const char *known_words(struct review *r, const struct nutrient_result *n) {
  static const double TO_SPEAK_OF = 0.05; /* of the allowance; own judgement */
  const char *amount = amount_words(r->arena, n->amount, nutrient_info[n->id].unit);
  bool more = n->verdict == VERDICT_SHORT && n->known == KNOWN_PART && n->possible - n->amount > TO_SPEAK_OF * n->allowance;
  return more ? words_text(r->arena, "at least %s", amount) : amount;
}

static void nutrient_words(struct draft *d, const struct nutrient_result *n) {
  struct review *r = d->review;
  const char *unit = nutrient_info[n->id].unit;
  draft_word(d, "name", nutrient_info[n->id].name);
  draft_word(d, "amount", known_words(r, n));
  draft_number_because(d, "amount", n->amount, unit);
  draft_number(d, "allowance", n->allowance, unit);
  draft_number(d, "worst", n->window_amount, unit);
  draft_number(d, "days", n->window_days, n->window_days == 1 ? "day" : "days");
  draft_percent(d, "percent", n->amount / n->allowance);
  draft_percent(d, "worst_percent", n->ratio);
  draft_percent(d, "chance", n->chance_met);
  if (isfinite(n->minimum)) draft_number(d, "minimum", n->minimum, unit);
  draft_word(d, "floor",
             isfinite(n->minimum) ? "Above the bare minimum, below what is advised."
                                  : "Less than a third below what is advised.");
  if (isfinite(n->upper)) limit_words(d, n);
  const struct supply_list *list = who_supplies(n);
  bool by_chance = n->chance_kept < r->result->options.sure || list->missing_count == 0;
  draft_word(d, "cause", by_chance ? "foods vary, so it may pass it" : "foods without a value could lift it past that");
  draft_word(d, "suppliers", suppliers(r, n));
  draft_word(d, "mostly", mostly_words(r, n));
  draft_word(d, "main", main_words(r, n, n->amount - n->upper));
  draft_word(d, "uneven", uneven_words(r, n));
  draft_word(d, "less_first", less_first_words(r, n));
  if (n->id == NUT_FAT) draft_word(d, "leaner", leaner_words(r));
  draft_word(d, "most",
             !(n->window_most > 0) ? "next to none"
                                   : words_text(r->arena, "at most %s", amount_words(r->arena, n->window_most, unit)));
  draft_word(d, "missing", unknown_list(r, list->missing, list->missing_count, 3));
  draft_word(d, "inside", words_nutrient(r->arena, n->id));
  draft_word(d, "ends", ends_words(r, n));
  draft_word(d, "adjusted_why", n->adjusted_why);
  draft_word(d, "note", species_note(r, n->id));
  double ca_p = r->result->balance.ca_p;
  if (n->id == NUT_CALCIUM || n->id == NUT_PHOSPHORUS)
    draft_word(d, "ca_p", isfinite(ca_p) ? words_text(r->arena, "%s to 1", ratio_words(r, ca_p)) : "not known");
  if (n->id == NUT_EPA_DHA) {
    draft_word(d, "n6_n3", ratio_words(r, r->result->balance.n6_n3));
    if (r->result->balance.n6_n3 > row_threshold(r, "omega-high"))
      draft_number_because(d, "omega-high", r->result->balance.n6_n3, "");
  }
  if (n->id == NUT_VITAMIN_K || n->id == NUT_BIOTIN) draft_word(d, "condition", gut_condition(r, n->id));
}

/* ---- one nutrient ------------------------------------------------------------------------------------------------ */

/* ORDER NUTRIENT: the amino acids stand together. */
static_assert(NUT_VALINE - NUT_ARGININE == 11 && NUT_TRYPTOPHAN > NUT_ARGININE && NUT_TRYPTOPHAN < NUT_VALINE,
              "ORDER NUTRIENT: arginine to valine");
static bool is_amino(enum nutrient n) { return n >= NUT_ARGININE && n <= NUT_VALINE; }

/* How much the gap matters: gravity x the share that is missing; of one that may be met, x the chance that it is not. */
static double score_of(struct review *r, const struct nutrient_result *n) {
  double missing = fmax(0, 1 - known_part(n->ratio)), doubt = 0.2 * (1 - n->chance_met);
  return gravity_of(r, n->id) * fmax(missing, isfinite(doubt) ? doubt : 0);
}

static enum fold fold_of(const struct nutrient_result *n, enum finding_weight weight) {
  if (n->id == NUT_VITAMIN_K || n->id == NUT_BIOTIN) return FOLD_ALONE; /* the condition is the point, not the figure */
  if (n->verdict == VERDICT_SHORT) return is_amino(n->id) ? FOLD_AMINO : weight == FINDING_ACT ? FOLD_SHORT : FOLD_ALONE;
  if (weight != FINDING_WATCH) return FOLD_ALONE;
  if (n->verdict == VERDICT_UNPROVEN) return FOLD_UNPROVEN;
  return n->verdict == VERDICT_THIN && !n->close_to_limit ? FOLD_THIN : FOLD_ALONE;
}

/* Where nothing is known nobody can say what is missing, only what is needed. */
static const char *need_words(const struct review *r, const struct nutrient_result *n) {
  return words_text(r->arena, "%s needs %s a day.", words_called(r->result->animal),
                    amount_words(r->arena, n->allowance, nutrient_info[n->id].unit));
}

static const double GRAVITY_MOST = 10;

/* 'always': the words of the generic row hold even where the nutrient has a row of its own. */
static void nutrient_finding(struct review *r, const struct nutrient_result *n, const char *suffix, const char *generic,
                             bool always) {
  struct draft d;
  const char *id = review_id(r, n->id, suffix);
  if (!(always ? draft_begin_as(&d, r, id, generic) : draft_begin(&d, r, id, generic))) return;
  nutrient_words(&d, n);
  bool gap = is_lacking(n) && isfinite(n->allowance);
  draft_word(&d, "fix", gap && n->known == KNOWN_NONE ? need_words(r, n) : "");
  d.gap = gap && n->known != KNOWN_NONE ? n : NULL;
  d.nutrient = n->id;
  d.score = gap ? score_of(r, n) : 0;
  d.fold = fold_of(n, d.weight);
  double severity = n->verdict == VERDICT_OVER ? n->upper / (n->window_high + n->upper) : 1 - d.score / GRAVITY_MOST;
  d.severity = isfinite(severity) ? (int)(999 * fmin(fmax(severity, -1000), 1000)) : 0; /* damaged tables leave no figure */
  draft_end(&d);
}

static void lacking(struct review *r, const struct nutrient_result *n) {
  bool between = n->verdict_by_window && n->ratio < 1;
  if (n->verdict == VERDICT_SHORT && n->known == KNOWN_NONE) {
    nutrient_finding(r, n, "short", "nutrient-short-unknown", true);
  } else if (n->verdict == VERDICT_SHORT) {
    nutrient_finding(r, n, "short", between ? "nutrient-short-between" : "nutrient-short", between);
  } else if (n->verdict == VERDICT_UNPROVEN) {
    nutrient_finding(r, n, "unproven", "nutrient-unproven", false);
  } else if (between) {
    nutrient_finding(r, n, "thin", "nutrient-thin-between", true);
  } else {
    nutrient_finding(r, n, "thin", n->ratio >= 1 ? "nutrient-unsure" : "nutrient-thin", n->ratio >= 1);
  }
}

/* A limit that ordinary food passes without harm is told, and decides nothing. */
static void cautious_limit(struct review *r, const struct nutrient_result *n) {
  struct draft d;
  if (!(n->amount > n->table->cautious) || !draft_begin(&d, r, review_id(r, n->id, "cautious"), "nutrient-cautious")) return;
  draft_of(&d, n->id);
  nutrient_words(&d, n);
  draft_number(&d, "cautious", n->table->cautious, nutrient_info[n->id].unit);
  draft_word(&d, "why", lib_str(r->lib, n->table->cautious_row->note));
  draft_end(&d);
}

static void above(struct review *r, const struct nutrient_result *n) {
  if (n->verdict == VERDICT_OVER) {
    bool tested = n->upper_greater_than, richest = !tested && n->amount <= n->upper;
    const char *row = tested ? "nutrient-over-tested" : richest ? "nutrient-over-richest" : "nutrient-over";
    nutrient_finding(r, n, "over", row, tested || richest);
    return;
  }
  cautious_limit(r, n);
  if (n->upper_greater_than && n->amount > n->upper)
    nutrient_finding(r, n, "above-tested", "nutrient-above-tested", false);
  else if (n->close_to_limit)
    nutrient_finding(r, n, "near-upper", "nutrient-near-upper", false);
  if (!n->highest_day_over) return;
  struct draft d;
  if (!draft_begin(&d, r, review_id(r, n->id, "rich-day"), "nutrient-rich-day")) return;
  draft_of(&d, n->id);
  nutrient_words(&d, n);
  draft_number(&d, "highest", n->highest_day, nutrient_info[n->id].unit);
  draft_end(&d);
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

void findings_over(struct review *r) {
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct nutrient_result *n = &r->result->nutrient[k];
    if (n->verdict == VERDICT_OVER || n->highest_day_over) above(r, n);
  }
}

void findings_verdicts(struct review *r) {
  for (int k = 0; k < NUT_COUNT; k++) {
    const struct nutrient_result *n = &r->result->nutrient[k];
    if (is_lacking(n)) lacking(r, n);
    above(r, n);
  }
  silence_the_obvious(r);
}
