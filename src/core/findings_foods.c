/* What single foods bring along: liver, raw fish, raw egg, oxalate, mercury, fish oil, seeds, greens, raw meat. */
#include <math.h>

#include "core/findings_internal.h"

static const struct img_food *food_of(const struct review *r, size_t line) {
  return library_food(r->lib, r->result->ration->line[line].shown_food);
}

static bool is_raw(const struct review *r, size_t line) {
  enum state s = r->result->ration->line[line].state;
  return s == STATE_RAW || (s == STATE_UNSTATED && food_of(r, line)->state == STATE_RAW);
}

static void flagged_lines(struct review *r, const char *id, uint32_t flag, bool only_raw) {
  const struct ration *ration = r->result->ration;
  int *line = ARENA_NEW(r->arena, int, ration->line_count);
  size_t n = 0;
  double grams = 0;
  for (size_t i = 0; i < ration->line_count; i++)
    if ((food_of(r, i)->flags & flag) && ration->line[i].grams_fed > 0 && (!only_raw || is_raw(r, i))) {
      line[n++] = (int)i;
      grams += ration_line_grams_per_day(&ration->line[i]);
    }
  struct draft d;
  if (n == 0 || !draft_begin(&d, r, id, NULL)) return;
  draft_word(&d, "food", lines_list(r, line, n, 3));
  draft_number(&d, "grams", grams, "g");
  draft_end(&d);
}

/* Share of a nutrient that lines of one part and (optionally) of certain kinds supply. */
static double share_from(const struct review *r, enum nutrient n, enum part p, const int **lines, size_t *count) {
  const struct nutrient_result *x = &r->result->nutrient[n];
  int *found = ARENA_NEW(r->arena, int, x->from_count);
  size_t k = 0;
  double share = 0;
  for (size_t i = 0; i < x->from_count; i++)
    if (food_of(r, (size_t)x->from[i].line)->part == p) {
      share += x->from[i].share;
      found[k++] = x->from[i].line;
    }
  *lines = found;
  *count = k;
  return share;
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
    draft_word(&d, "food", lines_list(r, line, count, 2));
    draft_percent(&d, "share", share);
    draft_number(&d, "amount", n->amount, nutrient_info[n->id].unit);
    draft_number(&d, "allowance", n->allowance, nutrient_info[n->id].unit);
    draft_number(&d, "times", n->amount / n->allowance, "");
    draft_end(&d);
  }
  const struct img_finding *row = review_row(r, "liver-share");
  double share = r->result->parts[JP_ORGAN_LIVER];
  struct draft d;
  if (!row || !(share > (double)row->threshold) || !draft_begin(&d, r, "liver-share", NULL)) return;
  draft_percent(&d, "share", share);
  draft_percent(&d, "usual", (double)row->threshold2);
  draft_number(&d, "grams", share * r->result->energy.grams_per_day, "g");
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
  draft_word(&d, "food", lines_list(r, line, count, 3));
  draft_percent(&d, "manganese", mn);
  draft_percent(&d, "magnesium", mg);
  draft_number(&d, "fat", fat * r->result->nutrient[NUT_FAT].amount, "g");
  if (phytate > 0) {
    draft_number(&d, "phytate", phytate * r->result->nutrient[NUT_PHYTATE].amount, "mg");
  } else {
    draft_word(&d, "phytate", "an unknown amount of");
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
  draft_word(&d, "food", lines_list(r, line, count, 2));
  draft_number(&d, "amount", k->amount, "\xC2\xB5g");
  draft_percent(&d, "share", share);
  draft_end(&d);
}

static void choline_carriers(struct review *r) {
  const struct nutrient_result *c = &r->result->nutrient[NUT_CHOLINE];
  if (c->verdict != VERDICT_MET || c->from_count == 0) return;
  struct draft d;
  if (!draft_begin(&d, r, "choline-carriers", NULL)) return;
  int line[3];
  size_t n = 0;
  for (; n < 3 && n < c->from_count; n++) line[n] = c->from[n].line;
  draft_word(&d, "food", lines_list(r, line, n, 3));
  draft_number(&d, "amount", c->amount, "mg");
  draft_end(&d);
}

/* Two supplements that bring the same concentrated nutrient: easily given twice without noticing. */
static void doubled_supplements(struct review *r) {
  static const enum nutrient RISKY[] = {NUT_VITAMIN_A, NUT_VITAMIN_D, NUT_IODINE, NUT_SELENIUM,
                                        NUT_ZINC,      NUT_COPPER,    NUT_IRON,   NUT_CALCIUM};
  const struct img_finding *row = review_row(r, "supplements-doubled");
  for (size_t i = 0; i < COUNT_OF(RISKY) && row; i++) {
    const struct nutrient_result *n = &r->result->nutrient[RISKY[i]];
    int *line = ARENA_NEW(r->arena, int, n->from_count);
    size_t count = 0;
    for (size_t k = 0; k < n->from_count; k++)
      if (food_of(r, (size_t)n->from[k].line)->part == PART_SUPPLEMENT && n->from[k].share > (double)row->threshold)
        line[count++] = n->from[k].line;
    struct draft d;
    if (count < 2 || !draft_begin(&d, r, "supplements-doubled", NULL)) continue;
    draft_word(&d, "name", nutrient_info[n->id].name);
    draft_word(&d, "food", lines_list(r, line, count, 3));
    draft_number(&d, "amount", n->amount, nutrient_info[n->id].unit);
    draft_text_because(&d, "nutrient", nutrient_info[n->id].key);
    draft_end(&d);
  }
}

static bool is_animal_flesh(enum part p) { return p <= PART_EGG; /* ORDER PART: muscle .. egg */ }

static void raw_food(struct review *r) {
  const struct ration *ration = r->result->ration;
  int *any = ARENA_NEW(r->arena, int, ration->line_count), *pork = ARENA_NEW(r->arena, int, ration->line_count),
      *game = ARENA_NEW(r->arena, int, ration->line_count), *fish = ARENA_NEW(r->arena, int, ration->line_count);
  size_t any_n = 0, pork_n = 0, game_n = 0, fish_n = 0;
  for (size_t i = 0; i < ration->line_count; i++) {
    const struct img_food *f = food_of(r, i);
    if (!is_raw(r, i) || !is_animal_flesh(f->part) || !(ration->line[i].grams_fed > 0)) continue;
    any[any_n++] = (int)i;
    if (f->kind == KIND_PORK) pork[pork_n++] = (int)i;
    if (f->kind == KIND_GAME) game[game_n++] = (int)i;
    if (f->part == PART_FISH) fish[fish_n++] = (int)i;
  }
  const struct {
    const char *id;
    const int *line;
    size_t count;
  } say[] = {{"raw-hygiene", any, any_n},
             {"raw-pork", pork, pork_n},
             {"raw-game", game, game_n},
             {"raw-fish-parasites", fish, fish_n}};
  for (size_t i = 0; i < COUNT_OF(say); i++) {
    struct draft d;
    if (say[i].count == 0 || !draft_begin(&d, r, say[i].id, NULL)) continue;
    draft_word(&d, "food", lines_list(r, say[i].line, say[i].count, 3));
    draft_end(&d);
  }
}

/* Fish oil raises the need for vitamin E: said as one finding, not as a bare shortage. */
static void fish_oil_and_vitamin_e(struct review *r) {
  const struct nutrient_result *e = &r->result->nutrient[NUT_VITAMIN_E];
  bool poor = e->verdict == VERDICT_SHORT || e->verdict == VERDICT_THIN || e->verdict == VERDICT_UNPROVEN;
  if (!e->adjusted || !poor) return;
  struct draft d;
  if (!draft_begin(&d, r, "vitamin-e-for-fat", NULL)) return;
  draft_number(&d, "amount", e->amount, "mg");
  draft_number(&d, "from", e->adjusted_from, "mg");
  draft_number(&d, "to", e->adjusted_to, "mg");
  draft_word(&d, "why", e->adjusted_why);
  draft_number(&d, "gap", fmax(0, e->adjusted_to - e->window_amount), "mg");
  d.severity = (int)(999 * fmin(1, e->ratio));
  draft_end(&d);
  review_silence(r, "vitamin_e-short");
  review_silence(r, "vitamin_e-thin");
  review_silence(r, "vitamin_e-unproven");
}

void findings_foods(struct review *r) {
  bool cat = r->result->animal && r->result->animal->species == SPECIES_CAT;
  flagged_lines(r, cat ? "thiaminase-cat" : "thiaminase-dog", FOOD_THIAMINASE, true);
  flagged_lines(r, "avidin", FOOD_RAW_WHITE, true);
  flagged_lines(r, "oxalate", FOOD_HIGH_OXALATE, false);
  flagged_lines(r, "mercury", FOOD_HIGH_MERCURY, false);
  liver(r);
  seeds(r);
  greens(r);
  choline_carriers(r);
  doubled_supplements(r);
  fish_oil_and_vitamin_e(r);
  raw_food(r);
}
