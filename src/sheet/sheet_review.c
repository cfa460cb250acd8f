/* The written review, the nutrients with their rails, and what nobody knows. */
#include <math.h>

#include "picture/rail.h"
#include "post/post.h"
#include "sheet/maker.h"
#include "words/verdicts.h"

/* ---- findings ---------------------------------------------------------------------------------------------------- */

static void findings(const struct maker *m, enum finding_weight weight, enum sheet_tone tone) {
  bool any = false;
  for (size_t i = 0; i < m->r->finding_count; i++) {
    const struct finding *f = &m->r->finding[i];
    if (f->weight != weight || f->danger) continue;
    if (!any) add_heading(m, words_weight(weight));
    any = true;
    add_box(m, tone, f->text, f->reason, f->remedy);
  }
}

static void questions(const struct maker *m) {
  const struct post *post = m->f->post;
  if (!post || post->question_count == 0) return;
  add_heading(m, "What only the owner can tell");
  for (size_t i = 0; i < post->question_count; i++) add_point(m, post->question[i].ask);
}

void make_findings(const struct maker *m) {
  findings(m, FINDING_ACT, TONE_ACT);
  findings(m, FINDING_WATCH, TONE_WATCH);
  findings(m, FINDING_KNOW, TONE_KNOW);
  questions(m);
}

/* ---- nutrients --------------------------------------------------------------------------------------------------- */

enum { NUT_NAME, NUT_RAIL, NUT_AMOUNT, NUT_NEED, NUT_MOST, NUT_CHANCE, NUT_COLUMNS };

static const char *amount(const struct maker *m, const struct nutrient_result *n) {
  if (n->known == KNOWN_NONE) return NOT_KNOWN_WORDS;
  const char *words = words_amount(m->arena, n->amount, nutrient_info[n->id].unit);
  return n->known == KNOWN_PART ? words_text(m->arena, "%s +", words) : words;
}

static const char *spread(const struct maker *m, const struct nutrient_result *n) {
  if (n->known == KNOWN_NONE || !isfinite(n->low) || !isfinite(n->high) || !(n->high > 0)) return "";
  return words_text(m->arena, "%s to %s", words_number(m->arena, n->low), words_number(m->arena, n->high));
}

static const char *limit(const struct maker *m, double x, const char *unit, bool greater) {
  if (!isfinite(x)) return "";
  return words_text(m->arena, "%s%s", words_amount(m->arena, x, unit), greater ? " (tested)" : "");
}

static const char *chance(const struct maker *m, const struct nutrient_result *n) {
  return words_chance_short(m->arena, rail_by_limit(n) ? n->chance_kept : n->chance_met);
}

static void nutrient_row(const struct maker *m, struct sheet_table *t, const struct nutrient_result *n) {
  const char *unit = nutrient_info[n->id].unit;
  struct sheet_cell *c = add_row(m, t);
  c[NUT_NAME].text = nutrient_info[n->id].name;
  if (n->window_days > 1) c[NUT_NAME].small = words_text(m->arena, "over %d days", n->window_days);
  c[NUT_RAIL].drawing = picture_rail(n, 130, m->arena);
  c[NUT_AMOUNT] = (struct sheet_cell){amount(m, n), spread(m, n), NULL};
  c[NUT_NEED].text = isfinite(n->allowance) ? words_amount(m->arena, n->allowance, unit) : "";
  const char *most = limit(m, n->upper, unit, n->upper_greater_than);
  if (t->columns == NUT_COLUMNS) {
    c[NUT_MOST].text = most;
    c[NUT_CHANCE].text = chance(m, n);
    return;
  }
  /* Large letters leave room for four columns. */
  const char *days = c[NUT_NAME].small;
  if (most[0]) c[NUT_NEED].small = words_text(m->arena, "at most %s", most);
  if (chance(m, n)[0]) c[NUT_NAME].small = words_text(m->arena, "%s%schance %s", days, days[0] ? ", " : "", chance(m, n));
}

static void no_figure(const struct maker *m, const struct group *g) {
  const char *item[NUT_COUNT];
  if (g->count == 0) return;
  for (int i = 0; i < g->count; i++)
    item[i] = words_text(m->arena, "%s %s", words_nutrient(m->arena, g->item[i]->id), amount(m, g->item[i]));
  add_paragraph(m, TONE_DIM,
                words_text(m->arena, "No figure in this standard: %s.",
                           words_list(m->arena, item, (size_t)g->count, (size_t)g->count)));
}

void make_nutrients(const struct maker *m) {
  static const struct sheet_column COLUMN[NUT_COLUMNS] = {
      {"Nutrient", 0.2, false, false}, {"Against the need", 0.29, false, true}, {"In the bowl", 0.17, true, false},
      {"Needed", 0.12, true, false},   {"At most", 0.13, true, false},          {"Chance", 0.09, true, false}};
  static const struct sheet_column LARGE[NUT_MOST] = {{"Nutrient", 0.3, false, false},
                                                      {"Against the need", 0.25, false, true},
                                                      {"In the bowl", 0.22, true, false},
                                                      {"Needed", 0.23, true, false}};
  struct group group[GROUP_COUNT];
  words_groups(m->r, group);
  add_heading(m, "Nutrients a day");
  struct sheet_table *t = add_table(m, "Every nutrient against what is needed", m->style->large ? LARGE : COLUMN,
                                    m->style->large ? NUT_MOST : NUT_COLUMNS);
  for (int g = 0; g < GROUP_NO_FIGURE; g++) {
    if (group[g].count == 0) continue;
    add_row_across(m, t,
                   group[g].aside[0] ? words_text(m->arena, "%s: %s", group[g].title, group[g].aside) : group[g].title);
    for (int i = 0; i < group[g].count; i++) nutrient_row(m, t, group[g].item[i]);
  }
  add_paragraph(
      m, TONE_DIM,
      words_text(m->arena,
                 "On the lines: %s. +: and perhaps more, for some foods have no figure. Small figures: 9 times in "
                 "10, and the days over which it may average. Chance: that the need is reached, or the limit kept.",
                 rail_legend(m->arena)));
  no_figure(m, &group[GROUP_NO_FIGURE]);
}

/* ---- composition ------------------------------------------------------------------------------------------------- */

enum { HOLD_NAME, HOLD_DAY, HOLD_KCAL, HOLD_RANGE, HOLD_COLUMNS };

void make_composition(const struct maker *m) {
  static const struct sheet_column COLUMN[HOLD_COLUMNS] = {{"Nutrient", 0.34, false, false},
                                                           {"A day", 0.22, true, false},
                                                           {"In 1000 kcal", 0.22, true, false},
                                                           {"9 times in 10", 0.22, true, false}};
  add_heading(m, "What the food contains");
  struct sheet_table *t = add_table(m, "Every nutrient of the food", COLUMN, HOLD_COLUMNS);
  for (int g = NG_PROXIMATE; g < NG_COUNT; g++) {
    add_row_across(m, t, words_nutrient_group((enum nutrient_group)g));
    for (int i = 0; i < NUT_COUNT; i++) {
      const struct nutrient_result *n = &m->r->nutrient[i];
      if ((int)nutrient_info[i].group != g) continue;
      struct sheet_cell *c = add_row(m, t);
      c[HOLD_NAME].text = nutrient_info[i].name;
      c[HOLD_DAY].text = amount(m, n);
      c[HOLD_KCAL].text = n->known == KNOWN_NONE ? "" : words_amount(m->arena, n->per_1000kcal, nutrient_info[i].unit);
      c[HOLD_RANGE].text = spread(m, n);
    }
  }
  add_paragraph(m, TONE_DIM, "+ and perhaps more: some foods have no figure. \"Not known\" is never zero.");
}

/* ---- what is not known ------------------------------------------------------------------------------------------- */

static const char *lines_without(const struct maker *m, const struct nutrient_result *n) {
  const struct supply_list *list = who_supplies(n);
  const char **item = ARENA_NEW(m->arena, const char *, list->missing_count + 1);
  for (size_t i = 0; i < list->missing_count; i++) item[i] = words_line(m->arena, m->f->lib, m->r->ration, list->missing[i]);
  return words_list(m->arena, item, list->missing_count, 6);
}

/* Nutrients that the same foods have no figure for are told together. */
static void missing_figures(const struct maker *m) {
  const char *told[NUT_COUNT] = {NULL};
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &m->r->nutrient[i];
    bool asked = n->verdict != VERDICT_NO_FIGURE || !sheet_judged(m);
    told[i] = asked && who_supplies(n)->missing_count > 0 ? lines_without(m, n) : NULL;
  }
  for (int i = 0; i < NUT_COUNT; i++) {
    const char *name[NUT_COUNT];
    size_t names = 0;
    if (!told[i]) continue;
    for (int k = NUT_COUNT - 1; k > i; k--)
      if (told[k] && strcmp(told[k], told[i]) == 0 && k != i) names++;
    names = 0;
    for (int k = i; k < NUT_COUNT; k++) {
      if (!told[k] || (k != i && strcmp(told[k], told[i]) != 0)) continue;
      name[names++] = words_nutrient(m->arena, (enum nutrient)k);
      if (k != i) told[k] = NULL;
    }
    add_point(m, words_text(m->arena, "Nobody has published %s of %s.", words_list(m->arena, name, names, names), told[i]));
  }
}

static void left_out(const struct maker *m) {
  const struct post *post = m->f->post;
  for (size_t i = 0; post && i < post->left_count; i++)
    if (post->left[i].fed)
      add_point(m, words_text(m->arena, "“%s” is not counted: %s.", post->left[i].text, post->left[i].why));
}

static void kitchen_unknown(const struct maker *m) {
  const struct kitchen *k = m->f->kitchen;
  for (size_t i = 0; i < k->line_count; i++)
    if (!isfinite(k->line[i].yield) && k->line[i].cook != STATE_RAW)
      add_point(m, words_text(m->arena, "What %s weighs after it was %s is not known.", k->line[i].food,
                              k->line[i].cook == STATE_COOKED_OTHER ? "cooked" : state_word[k->line[i].cook]));
  for (size_t i = 0; i < m->r->ration->line_count; i++) {
    const struct ration_line *l = &m->r->ration->line[i];
    if (l->assumed && l->assumed[0])
      add_point(m, words_text(m->arena, "%s: %s.", words_line(m->arena, m->f->lib, m->r->ration, (int)i), l->assumed));
  }
}

void make_unknown(const struct maker *m) {
  size_t before = m->s->count;
  add_heading(m, "What is not known");
  size_t told = m->s->count;
  const char *uncounted = words_uncounted(m->r->ration, m->arena);
  if (uncounted[0]) add_point(m, words_text(m->arena, "%s: fed, and not counted in anything above.", uncounted));
  left_out(m);
  missing_figures(m);
  kitchen_unknown(m);
  if (m->s->count == told) m->s->count = before;
}
