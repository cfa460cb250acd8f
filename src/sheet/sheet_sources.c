/* Where every figure comes from. */
#include <math.h>

#include "foods/origin.h"
#include "sheet/maker.h"

static const char *energy_words(const struct check_result *r) {
  if (r->options.energy_by == ENERGY_PUBLISHED) return "as the tables publish it";
  if (r->options.energy_by == ENERGY_FOUR_STEP) return "by the four-step equation";
  return r->animal && r->animal->species == SPECIES_CAT ? "4, 8.5 and 4 kcal per gram of protein, fat and carbohydrate"
                                                        : "4, 9 and 4 kcal per gram of protein, fat and carbohydrate";
}

static void standard(const struct maker *m) {
  const struct allowance_set *set = &m->r->allowances;
  struct arena *a = m->arena;
  if (!sheet_judged(m)) return;
  bool energy = set->basis == BASIS_ENERGY;
  const char *by = energy ? words_basis(set->basis)
                          : words_text(a, "%s (%s kg is %s metabolic kg)", words_basis(set->basis),
                                       words_number(a, m->r->body.ideal_kg), words_number(a, m->r->body.metabolic_kg));
  const char *own =
      m->f->lib->own_allowance_count > 0 ? words_text(a, ", some of them from %s", m->f->lib->own_allowance_file) : "";
  add_point(m, words_text(a, "Needs: %s, %s%s. A need counts as met when the chance is at least %s.",
                          standard_name[set->standard < STANDARD_COUNT ? set->standard : STANDARD_NRC2006], by, own,
                          words_share(a, m->r->options.sure)));
  if (m->r->energy.need.from && m->r->energy.need.from[0])
    add_point(m, words_text(a, "Energy needed: %s.", m->r->energy.need.from));
}

static const char *source_title(const struct maker *m, uint32_t source) {
  const struct img_source *row = library_source(m->f->lib, source);
  return row ? lib_str(m->f->lib, row->title) : "";
}

/* ---- records ----------------------------------------------------------------------------------------------------- */

enum { REC_FOOD, REC_RECORD, REC_SOURCE, REC_COLUMNS };

/* Titles are long and few: each has a letter in the table and stands whole below it. */
struct titles {
  const char *item[26];
  size_t count;
};

static const char *letter(const struct maker *m, struct titles *t, const char *title) {
  size_t i = 0;
  if (!title[0]) return NOT_KNOWN_WORDS;
  for (; i < t->count; i++)
    if (strcmp(t->item[i], title) == 0) break;
  if (i == COUNT_OF(t->item)) return title;
  if (i == t->count) t->item[t->count++] = title;
  return words_text(m->arena, "%c", (char)('A' + i));
}

static void record_row(const struct maker *m, struct sheet_table *t, struct titles *titles, const struct ration_line *l,
                       size_t i) {
  const struct library *lib = m->f->lib;
  struct sheet_cell *c = add_row(m, t);
  const char *by = letter(m, titles, source_title(m, library_food(lib, l->shown_food)->source));
  int32_t cooked = l->part_count > 0 ? l->part[0].retention : -1;
  c[REC_FOOD].text = clean(m, words_line(m->arena, lib, m->r->ration, (int)i));
  c[REC_RECORD].text =
      clean(m, words_text(m->arena, "[%s] %s", library_code(lib, l->shown_food), library_name(lib, l->shown_food)));
  if (cooked >= 0) {
    const struct img_retention *row = IMG_ROWS(&lib->image, IMG_RETENTION, struct img_retention) + cooked;
    by = words_text(m->arena, "%s; losses %s", by, letter(m, titles, source_title(m, row->source)));
  }
  c[REC_SOURCE].text = by;
}

static void records(const struct maker *m) {
  static const struct sheet_column COLUMN[REC_COLUMNS] = {
      {"Food", 0.28, false, false}, {"Record", 0.54, false, false}, {"Source", 0.18, false, false}};
  const struct ration *ration = m->r->ration;
  struct titles titles = {.count = 0};
  if (ration->line_count == 0) return;
  struct sheet_table *t = add_table(m, "The record behind each food", COLUMN, REC_COLUMNS);
  for (size_t i = 0; i < ration->line_count; i++)
    if (ration->line[i].shown_food < library_count(m->f->lib)) record_row(m, t, &titles, &ration->line[i], i);
  for (size_t i = 0; i < titles.count; i++) add_point(m, words_text(m->arena, "%c: %s.", (char)('A' + i), titles.item[i]));
}

/* ---- estimates --------------------------------------------------------------------------------------------------- */

static const double MUCH_ESTIMATED = 0.2;

/* What the largest part of it that is no published figure rests on: the record's own value, or what cooking leaves of it. */
static const char *estimate_origin(const struct maker *m, const struct nutrient_result *n) {
  const struct supply_list *list = who_supplies(n);
  for (size_t i = 0; i < list->from_count; i++) {
    const struct supplier *from = &list->from[i];
    const struct ration_line *l = &m->r->ration->line[from->line];
    const char *food = words_line(m->arena, m->f->lib, m->r->ration, from->line);
    struct buf b;
    if (from->status != VALUE_ESTIMATED && from->status != VALUE_CITED) continue;
    if (l->part_count < 1) continue;
    if (library_values(m->f->lib, l->part[0].food)[n->id].status == VALUE_MEASURED)
      return words_text(m->arena, "what cooking leaves of it in %s is an estimate", food);
    buf_init(&b, m->arena, 4096);
    origin_words(m->f->lib, l->part[0].food, n->id, &b);
    if (b.n > 0) return words_text(m->arena, "%s: %s", food, buf_text(&b));
  }
  return "several foods";
}

/* Those that rest on the same are told together. */
static void estimates(const struct maker *m) {
  const char *origin[NUT_COUNT] = {NULL};
  bool any = false;
  for (int i = 0; i < NUT_COUNT; i++) {
    const struct nutrient_result *n = &m->r->nutrient[i];
    bool matters = n->verdict != VERDICT_NO_FIGURE && (n->estimated_share > MUCH_ESTIMATED || n->estimate_decides);
    if (matters && n->estimated_share > 0) origin[i] = estimate_origin(m, n);
  }
  for (int i = 0; i < NUT_COUNT; i++) {
    const char *item[NUT_COUNT], *same = origin[i];
    size_t items = 0;
    for (int k = i; same && k < NUT_COUNT; k++) {
      const struct nutrient_result *n = &m->r->nutrient[k];
      if (!origin[k] || strcmp(origin[k], same) != 0) continue;
      const char *name = items > 0 ? words_nutrient(m->arena, (enum nutrient)k) : nutrient_info[k].name;
      item[items++] = words_text(m->arena, "%s (%s%s)", name, words_share(m->arena, n->estimated_share),
                                 n->estimate_decides ? ", decides the verdict" : "");
      origin[k] = NULL;
    }
    if (items == 0) continue;
    if (!any) add_paragraph(m, TONE_STRONG, "What rests on estimates or on single figures, and how much of it");
    any = true;
    add_point(m, words_text(m->arena, "%s: %s.", words_list(m->arena, item, items, items), same));
  }
}

/* ---- the kitchen's own ------------------------------------------------------------------------------------------- */

/* The tables that have yields, each once. */
static const char *yield_sources(const struct maker *m) {
  enum { MOST = 6 };
  const struct img_yield *row = IMG_ROWS(&m->f->lib->image, IMG_YIELDS, struct img_yield);
  const char *title[MOST];
  size_t count = 0;
  for (size_t i = 0; i < img_count(&m->f->lib->image, IMG_YIELDS) && count < MOST; i++) {
    const char *words = source_title(m, row[i].source);
    bool seen = !words[0];
    for (size_t k = 0; k < count; k++) seen = seen || strcmp(title[k], words) == 0;
    if (!seen) title[count++] = words;
  }
  struct buf b;
  buf_init(&b, m->arena, 8192);
  for (size_t i = 0; i < count; i++) buf_addf(&b, "%s%s", i ? "; " : "", title[i]);
  return buf_text(&b);
}

static bool any_cooked(const struct kitchen *k) {
  for (size_t i = 0; i < k->line_count; i++)
    if (k->line[i].cook != STATE_RAW) return true;
  return false;
}

static void kitchen_sources(const struct maker *m) {
  const struct img_kitchen *row = IMG_ROWS(&m->f->lib->image, IMG_KITCHEN, struct img_kitchen);
  const char *keeping = "", *words = yield_sources(m);
  if (m->f->kitchen->line_count == 0 || (m->r->animal && m->r->refusal != REFUSE_NOT)) return;
  for (size_t i = 0; i < img_count(&m->f->lib->image, IMG_KITCHEN); i++)
    if (row[i].topic == KITCHEN_COLD) keeping = source_title(m, row[i].source);
  if (any_cooked(m->f->kitchen)) add_point(m, words_text(m->arena, "What cooking takes or adds: %s.", words));
  add_point(m, words_text(m->arena, "Keeping and thawing: %s.", keeping));
  add_point(m, "Changing over: a habit of the trade, without a published source.");
}

void make_sources(const struct maker *m) {
  add_heading(m, "Where this comes from");
  standard(m);
  add_point(m, words_text(m->arena, "Energy of the food: %s.", energy_words(m->r)));
  records(m);
  estimates(m);
  kitchen_sources(m);
}
