/* What single foods bring along: liver, oxalate, mercury, seeds, greens, carriers of choline, doubled supplements. */
#include <math.h>

#include "foods/constant_keys.h"
#include "review/findings_internal.h"

static double eaten_g(const struct review *r, size_t line) {
  return ration_line_grams_per_day(&r->result->ration->line[line]);
}

static void mercury(struct review *r) {
  const int *line;
  size_t n;
  struct draft d;
  if (!any_line_with_flag(r, FOOD_HIGH_MERCURY, &line, &n) || !draft_begin(&d, r, "mercury", NULL)) return;
  double grams = 0;
  for (size_t i = 0; i < n; i++) grams += eaten_g(r, (size_t)line[i]);
  draft_word(&d, "food", lines_list(r, line, n, 3));
  draft_number(&d, "grams", grams, "g");
  draft_end(&d);
}

/* ---- tuna: mercury a day against the least that harmed cats ---- */

/* mg per kg of tuna, as monitoring of canned fish finds it; "albacore" and "white" tins hold more. 0: no tuna. */
static double mercury_of_tuna(const struct review *r, const struct img_food *food) {
  const char *name = lib_str(r->lib, food->name);
  if ((food->flags & FOOD_OWN) || food->part != PART_FISH || !strstr(name, "tuna")) return 0;
  bool little = strstr(name, "light") || strstr(name, "skipjack");
  return constant_of(r, little ? K_MERCURY_LIGHT_TUNA : K_MERCURY_OTHER_TUNA);
}

static void tuna(struct review *r) {
  const struct ration *ration = r->result->ration;
  int *line = ARENA_NEW(r->arena, int, ration->line_count + 1);
  double mg = 0, grams = 0, harms = constant_of(r, K_MERCURY_HARMS);
  size_t n = 0;
  if (!r->result->animal) return;
  for (size_t i = 0; i < ration->line_count; i++) {
    double per_kg = mercury_of_tuna(r, food_of_line(r, i));
    if (!(per_kg > 0) || !(eaten_g(r, i) > 0)) continue;
    mg += eaten_g(r, i) / 1000 * per_kg;
    grams += eaten_g(r, i);
    line[n++] = (int)i;
  }
  double share = mg / r->result->animal->weight_kg / harms;
  struct draft d;
  if (n == 0 || !draft_begin(&d, r, "tuna-mercury", NULL) || !(share > (double)d.row->threshold)) return;
  if (share >= 1) d.weight = FINDING_ACT;
  draft_word(&d, "food", lines_list(r, line, n, 3));
  draft_number(&d, "grams", grams, "g");
  draft_percent(&d, "share", share);
  draft_number_because(&d, "mercury", mg, "mg");
  draft_number_because(&d, "harms_from", harms, "mg per kg weight");
  draft_end(&d);
}

/* The words of what was not counted, where one of them is 'word' and none denies it; NULL. */
static const char *uncounted_with(const struct review *r, const char *const *word, size_t words) {
  for (size_t i = 0; i < r->result->ration->uncounted_count; i++) {
    struct span text = span_of(r->result->ration->uncounted[i].text);
    bool denied = span_holds_fold(text, SPAN_LIT("no ")) || span_holds_fold(text, SPAN_LIT("never"));
    for (size_t k = 0; k < words && !denied; k++)
      if (span_holds_fold(text, span_of(word[k]))) return r->result->ration->uncounted[i].text;
  }
  return NULL;
}

/* Of a cat: tuna beside little that was read, and food made for dogs. */
void findings_uncounted(struct review *r) {
  static const char *const TUNA[] = {"tuna"}, *const DOG_FOOD[] = {"dog food", "dog kibble", "dogfood", "food for dogs"};
  struct draft d;
  if (!r->result->animal || r->result->animal->species != SPECIES_CAT) return;
  const char *tuna = uncounted_with(r, TUNA, COUNT_OF(TUNA)), *dog = uncounted_with(r, DOG_FOOD, COUNT_OF(DOG_FOOD));
  if (tuna && !review_has(r, "tuna-mercury") && draft_begin(&d, r, "tuna-unread", NULL)) {
    draft_word(&d, "words", tuna);
    draft_end(&d);
  }
  if (dog && draft_begin(&d, r, "dog-food-for-cat", NULL)) {
    draft_of(&d, NUT_TAURINE);
    draft_word(&d, "words", dog);
    draft_end(&d);
  }
}

/* The calcium of these foods is bound: does the ration still reach its allowance without it? */
static void oxalate(struct review *r) {
  const int *line;
  size_t count;
  if (!any_line_with_flag(r, FOOD_HIGH_OXALATE, &line, &count)) return;
  const struct nutrient_result *ca = &r->result->nutrient[NUT_CALCIUM];
  double bound = 0;
  const struct supply_list *list = who_supplies(ca);
  for (size_t i = 0; i < list->from_count; i++)
    for (size_t k = 0; k < count; k++)
      if (list->from[i].line == line[k]) bound += list->from[i].amount;
  bool decides = review_judged(r) && ca->verdict == VERDICT_MET && ca->window_amount - bound < ca->allowance;
  struct draft d;
  if (!draft_begin(&d, r, decides ? "oxalate-calcium" : "oxalate", NULL)) return;
  draft_of(&d, NUT_CALCIUM);
  draft_of(&d, NUT_OXALATE);
  draft_word(&d, "food", lines_list(r, line, count, 3));
  draft_number(&d, "calcium", bound, "mg");
  draft_percent(&d, "share", ca->amount > 0 ? bound / ca->amount : 0);
  draft_number(&d, "oxalate", r->result->nutrient[NUT_OXALATE].amount, "mg");
  draft_number(&d, "rest", ca->window_amount - bound, "mg");
  draft_number(&d, "allowance", ca->allowance, "mg");
  draft_end(&d);
}

/* Share of a nutrient that lines of one part and (optionally) of certain kinds supply. */
static double share_from(const struct review *r, enum nutrient n, enum part p, const int **lines, size_t *count) {
  const struct supply_list *x = who_supplies(&r->result->nutrient[n]);
  int *found = ARENA_NEW(r->arena, int, x->from_count);
  size_t k = 0;
  double share = 0;
  for (size_t i = 0; i < x->from_count; i++)
    if (food_of_line(r, (size_t)x->from[i].line)->part == p) {
      share += x->from[i].share;
      found[k++] = x->from[i].line;
    }
  *lines = found;
  *count = k;
  return share;
}

/* How much liver is in the bowl, and how much is usual. */
static void draft_liver(struct draft *d, struct review *r, const struct img_finding *row, double share) {
  draft_percent(d, "share", share);
  draft_percent(d, "usual", (double)row->threshold2);
  draft_number(d, "grams", share * r->result->energy.grams_per_day, "g");
}

/* Of an ill animal no verdict is given, and its vitamin A may be within a healthy one's limit: so much liver is told. */
static bool liver_of_ill(struct review *r, double share) {
  const struct img_finding *most = review_row(r, "liver-most-ill");
  bool ill = r->result->refusal == REFUSE_UNWELL || r->result->refusal == REFUSE_URGENT;
  struct draft d;
  if (!most || !r->result->animal || !ill || !(share > (double)most->threshold)) return false;
  if (review_has(r, "vitamin-a-by-weight") || !draft_begin(&d, r, "liver-most-ill", NULL)) return false;
  d.danger = true;
  d.about = "liver";
  draft_liver(&d, r, most, share);
  draft_end(&d);
  review_silence(r, "liver-share");
  review_silence(r, "liver-vitamin-a");
  return true;
}

static void liver(struct review *r) {
  static const struct {
    const char *id;
    enum nutrient n;
  } BRINGS[] = {{"liver-copper", NUT_COPPER}, {"liver-vitamin-a", NUT_VITAMIN_A}};
  for (size_t i = 0; i < COUNT_OF(BRINGS); i++) {
    const struct nutrient_result *n = &r->result->nutrient[BRINGS[i].n];
    const struct img_finding *row = review_row(r, BRINGS[i].id);
    const int *line;
    size_t count;
    double share = share_from(r, BRINGS[i].n, PART_ORGAN_LIVER, &line, &count);
    struct draft d;
    if (!row || !(share > (double)row->threshold2) || !(n->amount > (double)row->threshold * n->allowance)) continue;
    if (!draft_begin(&d, r, BRINGS[i].id, NULL)) continue;
    draft_of(&d, BRINGS[i].n);
    draft_word(&d, "food", lines_list(r, line, count, 2));
    draft_percent(&d, "share", share);
    draft_number(&d, "amount", n->amount, nutrient_info[n->id].unit);
    draft_number(&d, "allowance", n->allowance, nutrient_info[n->id].unit);
    draft_number(&d, "times", n->amount / n->allowance, "");
    draft_number_because(&d, "liver-share", r->result->parts[BOWL_ORGAN_LIVER], "share");
    draft_end(&d);
    review_silence(r, "liver-share");
  }
  /* What is over its limit is told by that. */
  if (r->result->nutrient[NUT_VITAMIN_A].verdict == VERDICT_OVER) review_silence(r, "liver-vitamin-a");
  const struct nutrient_result *cu = &r->result->nutrient[NUT_COPPER];
  if (cu->verdict == VERDICT_OVER && !cu->table->upper_borrowed) review_silence(r, "liver-copper");
  if (review_has(r, "liver-copper")) review_silence(r, "zn-cu-low");
  double share = r->result->parts[BOWL_ORGAN_LIVER];
  const struct img_finding *most = review_row(r, "liver-most"), *row = review_row(r, "liver-share");
  struct draft d;
  if (most && share > (double)most->threshold && review_judged(r) && draft_begin(&d, r, "liver-most", NULL)) {
    draft_liver(&d, r, most, share);
    draft_end(&d);
    review_silence(r, "liver-share");
    review_silence(r, "liver-vitamin-a");
    return;
  }
  if (liver_of_ill(r, share)) return;
  if (!row || !(share > (double)row->threshold) || !draft_begin(&d, r, "liver-share", NULL)) return;
  draft_liver(&d, r, row, share);
  draft_end(&d);
}

static void seeds(struct review *r) {
  const struct img_finding *row = review_row(r, "seeds-bring");
  const int *line, *other;
  size_t count, other_count;
  double mn = share_from(r, NUT_MANGANESE, PART_SEED_NUT, &line, &count);
  double mg = share_from(r, NUT_MAGNESIUM, PART_SEED_NUT, &other, &other_count);
  double fat = share_from(r, NUT_FAT, PART_SEED_NUT, &other, &other_count);
  double phytate = share_from(r, NUT_PHYTATE, PART_SEED_NUT, &other, &other_count);
  struct draft d;
  if (!row || count == 0 || !(fmax(mn, mg) > (double)row->threshold) || !draft_begin(&d, r, "seeds-bring", NULL)) return;
  draft_of(&d, NUT_MANGANESE);
  draft_of(&d, NUT_MAGNESIUM);
  draft_of(&d, NUT_FAT);
  draft_of(&d, NUT_PHYTATE);
  draft_word(&d, "food", lines_list(r, line, count, 3));
  draft_percent(&d, "manganese", mn);
  draft_percent(&d, "magnesium", mg);
  draft_number(&d, "fat", fat * r->result->nutrient[NUT_FAT].amount, "g");
  if (phytate > 0) {
    draft_number(&d, "phytate", phytate * r->result->nutrient[NUT_PHYTATE].amount, "mg");
  } else {
    draft_word(&d, "phytate", "an unknown amount");
  }
  draft_end(&d);
}

static void greens(struct review *r) {
  const struct img_finding *row = review_row(r, "greens-vitamin-k");
  const struct nutrient_result *k = &r->result->nutrient[NUT_VITAMIN_K];
  const int *line;
  size_t count;
  double share = share_from(r, NUT_VITAMIN_K, PART_VEGETABLE, &line, &count);
  struct draft d;
  if (!row || !(share > (double)row->threshold2) || !(k->amount > (double)row->threshold)) return;
  if (!draft_begin(&d, r, "greens-vitamin-k", NULL)) return;
  draft_of(&d, NUT_VITAMIN_K);
  draft_word(&d, "food", lines_list(r, line, count, 2));
  draft_number(&d, "amount", k->amount, "\xC2\xB5g");
  draft_percent(&d, "share", share);
  draft_end(&d);
}

static void choline_carriers(struct review *r) {
  const struct nutrient_result *c = &r->result->nutrient[NUT_CHOLINE];
  const struct supply_list *list = who_supplies(c);
  if (c->verdict != VERDICT_MET || list->from_count == 0) return;
  struct draft d;
  if (!draft_begin(&d, r, "choline-carriers", NULL)) return;
  draft_of(&d, NUT_CHOLINE);
  int line[3];
  size_t n = 0;
  for (; n < 3 && n < list->from_count; n++) line[n] = list->from[n].line;
  draft_word(&d, "food", lines_list(r, line, n, 3));
  draft_number(&d, "amount", c->amount, "mg");
  draft_end(&d);
}

/* Pills and powders, and for the vitamins A and D the oil of a fish's liver. */
static bool is_concentrate(const struct review *r, int line, enum nutrient n) {
  const struct img_food *f = food_of_line(r, (size_t)line);
  bool liver_oil = f->part == PART_FAT_OIL && (f->flags & FOOD_FISH_OIL) && (n == NUT_VITAMIN_A || n == NUT_VITAMIN_D);
  return f->part == PART_SUPPLEMENT || liver_oil;
}

static bool same_food_before(const struct review *r, const int *line, size_t count, int other) {
  const struct ration_line *l = r->result->ration->line;
  for (size_t i = 0; i < count; i++)
    if (l[line[i]].shown_food == l[other].shown_food) return true;
  return false;
}

/* Two supplements that bring the same concentrated nutrient: easily given twice without noticing. One product on two lines
 * is no second one. Where the need is not met
 * without the lesser of them it was shared out on purpose: bone meal for the phosphorus, eggshell for the calcium. */
static void doubled_supplements(struct review *r) {
  static const enum nutrient RISKY[] = {NUT_VITAMIN_A, NUT_VITAMIN_D, NUT_IODINE, NUT_SELENIUM,
                                        NUT_ZINC,      NUT_COPPER,    NUT_IRON,   NUT_CALCIUM};
  const struct img_finding *row = review_row(r, "supplements-doubled");
  for (size_t i = 0; i < COUNT_OF(RISKY) && row; i++) {
    const struct nutrient_result *n = &r->result->nutrient[RISKY[i]];
    const struct supply_list *list = who_supplies(n);
    int *line = ARENA_NEW(r->arena, int, list->from_count);
    size_t count = 0;
    double least = INFINITY;
    for (size_t k = 0; k < list->from_count; k++)
      if (is_concentrate(r, list->from[k].line, RISKY[i]) && list->from[k].share > (double)row->threshold &&
          !same_food_before(r, line, count, list->from[k].line)) {
        line[count++] = list->from[k].line;
        least = fmin(least, list->from[k].amount);
      }
    struct draft d;
    if (count < 2 || n->amount - least < n->allowance || !draft_begin(&d, r, "supplements-doubled", NULL)) continue;
    draft_word(&d, "name", nutrient_info[n->id].name);
    draft_word(&d, "food", lines_list(r, line, count, 3));
    draft_number(&d, "amount", n->amount, nutrient_info[n->id].unit);
    draft_of(&d, n->id);
    draft_text_because(&d, "nutrient", nutrient_info[n->id].key);
    draft_end(&d);
  }
}

void findings_foods(struct review *r) {
  oxalate(r);
  mercury(r);
  tuna(r);
  liver(r);
  seeds(r);
  greens(r);
  choline_carriers(r);
  doubled_supplements(r);
}
