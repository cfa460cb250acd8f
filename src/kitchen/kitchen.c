#include "kitchen/kitchen.h"

#include <math.h>

#include "explain/ways.h"
#include "foods/search.h"
#include "kitchen/kitchen_parts.h"
#include "review/findings.h"
#include "words/words.h"

/* ---- how often ------------------------------------------------------------------------------------------------- */

int kitchen_feedings(const struct ration_line *l, int days) {
  int all = 0, most = 0, rest = days % CALENDAR_DAYS;
  for (int d = 0; d < CALENDAR_DAYS; d++) all += l->fed_on[d];
  for (int first = 0; first < CALENDAR_DAYS && rest > 0; first++) {
    int n = 0;
    for (int k = 0; k < rest; k++) n += l->fed_on[(first + k) % CALENDAR_DAYS];
    if (n > most) most = n;
  }
  return days / CALENDAR_DAYS * all + most;
}

/* ---- how long it keeps ----------------------------------------------------------------------------------------- */

static enum kitchen_form form_of(enum state s) {
  if (s == STATE_CANNED) return KITCHEN_CANNED;
  if (state_is_cooked(s)) return KITCHEN_COOKED;
  return s == STATE_RAW || s == STATE_UNSTATED ? KITCHEN_RAW : KITCHEN_ANY_FORM;
}

static bool names_one_of(struct span alternatives, struct span name) {
  while (alternatives.n > 0) {
    const char *bar = memchr(alternatives.p, '|', alternatives.n);
    size_t n = bar ? (size_t)(bar - alternatives.p) : alternatives.n;
    if (has_folded_word(name, span_cut(alternatives, 0, n))) return true;
    alternatives = span_cut(alternatives, n + 1, alternatives.n);
  }
  return false;
}

const struct img_kitchen *kitchen_keep(const struct library *lib, const struct ration_line *l, struct arena *arena) {
  const struct img_kitchen *row = IMG_ROWS(&lib->image, IMG_KITCHEN, struct img_kitchen);
  if (l->part_count < 1 || l->part[0].food >= library_count(lib)) return NULL;
  const struct img_food *f = library_food(lib, l->part[0].food);
  enum kitchen_form form = form_of(l->state);
  struct span name = search_fold(&lib->image, span_of(library_name(lib, l->part[0].food)), arena);
  struct span said = search_fold(&lib->image, span_of(l->food_words ? l->food_words : ""), arena);
  if (form == KITCHEN_ANY_FORM) return NULL; /* dried: it keeps as its label says */
  for (size_t i = 0; i < img_count(&lib->image, IMG_KITCHEN); i++) {
    struct span words = span_of(lib_str(lib, row[i].words));
    if (row[i].topic != KITCHEN_KEEP || !(row[i].parts >> f->part & 1) || !(row[i].kinds >> f->kind & 1)) continue;
    if (row[i].form != KITCHEN_ANY_FORM && row[i].form != form) continue;
    if (words.n == 0 || names_one_of(words, name) || names_one_of(words, said)) return &row[i];
  }
  return NULL;
}

static void keep_all(struct kitchen *k, struct arena *arena) {
  const char **not_frozen = ARENA_NEW(arena, const char *, k->line_count + 1);
  k->fridge_low = k->fridge_high = k->freezer_low = k->freezer_high = (double)NAN;
  for (size_t i = 0; i < k->line_count; i++) {
    const struct img_kitchen *row = k->line[i].keep;
    if (!row || k->line[i].danger) continue;
    bool shorter =
        !k->shortest || row->high < k->shortest->high || (row->high == k->shortest->high && row->low < k->shortest->low);
    if (shorter) k->shortest = row;
    if (!(row->high2 > 0)) {
      not_frozen[k->not_frozen_count++] = k->line[i].food;
    } else if (!(k->freezer_high <= (double)row->high2)) {
      k->freezer_low = (double)row->low2;
      k->freezer_high = (double)row->high2;
    }
  }
  k->not_frozen = not_frozen;
  if (!k->shortest) return;
  k->fridge_low = (double)k->shortest->low;
  k->fridge_high = (double)k->shortest->high;
}

/* ---- lines ----------------------------------------------------------------------------------------------------- */

static const struct recipe_line *read_line(const struct recipe *r, int line) {
  for (size_t i = 0; r && i < r->line_count; i++)
    if (r->line[i].line == line) return &r->line[i];
  return NULL;
}

/* What the person counted or spooned, on one day when it is fed. */
static void count_units(const struct kitchen_request *q, const struct ration_line *l, struct kitchen_line *k) {
  const struct recipe_line *read = read_line(q->recipe, l->line);
  k->units = (double)NAN;
  k->unit = UNIT_EACH;
  if (!read || !(read->amount > 0)) return;
  enum unit_kind kind = unit_info[read->unit].kind;
  if (kind != UNIT_KIND_COUNT && kind != UNIT_KIND_VOLUME) return;
  k->units = read->frequency_stated ? read->amount : read->amount / q->recipe->days;
  k->unit = read->unit;
  k->whole = kind == UNIT_KIND_COUNT && library_food(q->lib, l->shown_food)->part == PART_SUPPLEMENT;
}

static void cook_line(const struct library *lib, const struct ration_line *l, struct kitchen_line *k, struct arena *arena) {
  const struct img_food *f = library_food(lib, l->part[0].food);
  double bone = l->part_count > 1 ? l->part[1].grams : 0, flesh = l->part[0].grams;
  k->cook = STATE_RAW;
  k->yield = k->yield_low = k->yield_high = 1;
  k->prepare_g = (flesh + bone) * k->feedings;
  bool cooked = l->state < STATE_COUNT && state_is_cooked(l->state) && l->state != STATE_CANNED;
  if (!cooked || stays_as_it_is(f)) return;
  bool from_raw = !state_is_cooked((enum state)f->state);
  uint32_t raw = from_raw ? l->part[0].food : f->raw_form;
  struct weight_yield y = {.mean = (double)NAN, .low = (double)NAN, .high = (double)NAN};
  if (raw < library_count(lib)) y = yield_of(lib, raw, l->state, arena);
  k->cook = l->state;
  k->yield = y.mean;
  k->yield_low = y.low;
  k->yield_high = y.high;
  if (from_raw) {
    if (!(y.mean > 0)) k->ready_g = (double)NAN;
  } else {
    k->prepare_g = y.mean > 0 ? (flesh / y.mean + bone) * k->feedings : (double)NAN;
  }
}

/* "iodine 225 µg" of "1 tablet iodine 225 µg [pin]": which tablet it is stands in its strength. 'name' where there is more
 * than that. */
static const char *with_strength(const struct ration_line *l, const char *name, struct arena *arena) {
  const char *from = l->text && name[0] ? strstr(l->text, name) : NULL;
  if (!from) return name;
  size_t n = strcspn(from, ",[#(;");
  for (const char *at = from + strlen(name); at < from + n; at++)
    if (*at >= '0' && *at <= '9') return arena_text(arena, span_trim((struct span){from, n}));
  return name;
}

static struct kitchen_line line_of(const struct kitchen_request *q, const struct check_result *r, const struct kitchen *all,
                                   size_t i, struct arena *arena) {
  const struct ration_line *l = &r->ration->line[i];
  struct kitchen_line k = {.index = i,
                           .food = words_line(arena, q->lib, r->ration, (int)i),
                           .danger = findings_mark_line(r, l->line),
                           .fed_g = l->grams_fed,
                           .times_per_28 = l->times_per_28};
  k.feedings = kitchen_feedings(l, (int)all->days);
  k.ready_g = k.fed_g * k.feedings;
  k.keep = kitchen_keep(q->lib, l, arena);
  count_units(q, l, &k);
  if (k.whole) k.food = with_strength(l, k.food, arena);
  k.meal_g = k.whole ? k.fed_g : k.fed_g / all->meals;
  cook_line(q->lib, l, &k, arena);
  return k;
}

/* ---- boxes ----------------------------------------------------------------------------------------------------- */

static double box_room(const struct library *lib) {
  const struct img_kitchen *row = IMG_ROWS(&lib->image, IMG_KITCHEN, struct img_kitchen);
  for (size_t i = 0; i < img_count(&lib->image, IMG_KITCHEN); i++)
    if (row[i].topic == KITCHEN_BOX) return (double)row[i].share;
  return (double)NAN;
}

static void box_all(const struct library *lib, const struct check_result *r, struct kitchen *k) {
  static const double STEP_ML = 50;
  k->bowl_g = r->energy.grams_per_day;
  k->volume_ml = volume_of(lib, r);
  k->box_ml = ceil(k->volume_ml * box_room(lib) / STEP_ML) * STEP_ML;
  int days = (int)k->days, fresh = k->fridge_high > 0 ? (int)k->fridge_high : 0;
  k->boxes_fridge = fresh < days ? fresh : days;
  k->boxes_freezer = days - k->boxes_fridge;
}

/* ---- all of it -------------------------------------------------------------------------------------------------- */

static void settle_days(const struct check_result *r, const struct kitchen_request *q, struct kitchen *k) {
  const struct ration *ration = r->ration;
  k->days_stated = q->days > 0;
  k->days_by_recipe = !k->days_stated && ration->days_stated;
  double days = k->days_stated ? q->days : k->days_by_recipe ? ration->days : KITCHEN_USUAL_DAYS;
  k->days = fmin(fmax(ceil(days), 1), KITCHEN_MOST_DAYS);
  k->meals_stated = q->meals > 0 || ration->meals_per_day > 0;
  double meals = q->meals > 0 ? q->meals : ration->meals_per_day > 0 ? ration->meals_per_day : KITCHEN_USUAL_MEALS;
  k->meals = fmin(fmax(meals, 1), KITCHEN_MOST_MEALS);
}

const struct kitchen *kitchen_of(const struct check_result *r, const struct kitchen_request *q, struct arena *arena) {
  struct kitchen *k = ARENA_NEW(arena, struct kitchen, 1);
  struct kitchen_line *line = ARENA_NEW(arena, struct kitchen_line, r->ration->line_count + 1);
  settle_days(r, q, k);
  for (size_t i = 0; i < r->ration->line_count; i++) line[i] = line_of(q, r, k, i, arena);
  k->line = line;
  k->line_count = r->ration->line_count;
  keep_all(k, arena);
  box_all(q->lib, r, k);
  kitchen_shop(q, r, k, arena);
  return k;
}
