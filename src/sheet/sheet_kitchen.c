/* Bowl, batch and shopping list. */
#include <math.h>

#include "sheet/maker.h"

static const char *plural_days(const struct maker *m) {
  double days = m->f->kitchen->days;
  return words_text(m->arena, "%s %s", words_whole(m->arena, days), days == 1 ? "day" : "days");
}

/* "2 large", "1/2 tsp", "3" */
static const char *units_words(const struct maker *m, double units, enum unit unit) {
  if (!(units > 0)) return "";
  const struct unit_info *u = &unit_info[unit];
  const char *word = unit == UNIT_EACH ? (units > 1 ? "pieces" : "piece") : units > 1 && u->many ? u->many : u->word;
  return words_text(m->arena, "%s %s", count_words(m, units), word);
}

static const char *when_words(const struct maker *m, const struct kitchen_line *k) {
  return k->times_per_28 >= CALENDAR_DAYS ? "every day" : words_frequency(m->arena, k->times_per_28);
}

/* A tablet is counted, and what it weighs tells nobody anything; an egg is weighed. */
static struct sheet_cell amount_cell(const struct maker *m, const struct kitchen_line *k, double grams, double units) {
  const char *weighed = mass(m, grams), *counted = units_words(m, units, k->unit);
  return k->whole ? (struct sheet_cell){counted, "", NULL} : (struct sheet_cell){weighed, counted, NULL};
}

/* ---- the bowl ---------------------------------------------------------------------------------------------------- */

enum { BOWL_FOOD, BOWL_DAY, BOWL_MEAL, BOWL_WHEN, BOWL_COLUMNS };

static void bowl_row(const struct maker *m, struct sheet_table *t, const struct kitchen_line *k) {
  struct sheet_cell *c = add_row(m, t);
  c[BOWL_FOOD].text = clean(m, k->food);
  if (k->danger) {
    t->row[t->rows - 1].tone = TONE_DANGER;
    c[BOWL_DAY].text = "none";
    c[BOWL_MEAL].text = "none";
    c[BOWL_WHEN].text = "never: see Danger";
    return;
  }
  c[BOWL_DAY] = amount_cell(m, k, k->fed_g, k->units);
  c[BOWL_MEAL].text = k->whole ? "in one meal" : mass(m, k->meal_g);
  c[BOWL_WHEN].text = when_words(m, k);
}

static void bowl(const struct maker *m) {
  static const struct sheet_column COLUMN[BOWL_COLUMNS] = {{"Food, as it is in the bowl", 0.43, false, false},
                                                           {"A day", 0.2, true, false},
                                                           {"A meal", 0.17, true, false},
                                                           {"When", 0.2, false, false}};
  const struct kitchen *k = m->f->kitchen;
  add_heading(m, "The bowl");
  struct sheet_table *t = add_table(m, "What goes into the bowl, a day and a meal", COLUMN, BOWL_COLUMNS);
  bool all_daily = true, danger = false;
  for (size_t i = 0; i < k->line_count; i++) {
    bowl_row(m, t, &k->line[i]);
    all_daily = all_daily && k->line[i].times_per_28 >= CALENDAR_DAYS;
    danger = danger || k->line[i].danger;
  }
  if (!danger) {
    struct sheet_cell *c = add_row(m, t);
    t->row[t->rows - 1].strong = true;
    c[BOWL_FOOD].text = all_daily ? "Together" : "Together, on average";
    c[BOWL_DAY].text = mass(m, k->bowl_g);
    c[BOWL_MEAL].text = mass(m, k->bowl_g / k->meals);
  }
  add_paragraph(m, TONE_DIM,
                words_text(m->arena, "%s %s a day%s.", words_number(m->arena, k->meals), k->meals == 1 ? "meal" : "meals",
                           k->meals_stated ? "" : ", as the recipe does not say how many"));
  if (m->style->units == UNITS_US)
    add_paragraph(m, TONE_DIM, "Less than half an ounce stays in grams: a scale in ounces shows too little of it.");
}

/* ---- the batch --------------------------------------------------------------------------------------------------- */

enum { BATCH_FOOD, BATCH_WEIGH, BATCH_COOK, BATCH_GIVES, BATCH_COLUMNS };

static const char *spread_words(const struct maker *m, const struct kitchen_line *k) {
  if (!(k->yield_high > 1.15 * k->yield_low) || !isfinite(k->ready_g) || !isfinite(k->prepare_g)) return "";
  bool from_raw = fabs(k->prepare_g * k->yield - k->ready_g) < 0.02 * k->ready_g;
  if (!from_raw) return "";
  return words_text(m->arena, "%s to %s", mass(m, k->prepare_g * k->yield_low), mass(m, k->prepare_g * k->yield_high));
}

static void batch_row(const struct maker *m, struct sheet_table *t, const struct kitchen_line *k) {
  if (k->danger || k->feedings == 0) return;
  struct sheet_cell *c = add_row(m, t);
  bool cooked = k->cook != STATE_RAW;
  c[BATCH_FOOD].text = clean(m, k->food);
  if (k->times_per_28 < CALENDAR_DAYS)
    c[BATCH_FOOD].small = words_text(m->arena, "for %d %s", k->feedings, k->feedings == 1 ? "feeding" : "feedings");
  c[BATCH_WEIGH] = amount_cell(m, k, k->prepare_g, k->units * k->feedings);
  c[BATCH_COOK].text = cooked ? (k->cook == STATE_COOKED_OTHER ? "cooked" : state_word[k->cook]) : "as it is";
  c[BATCH_GIVES].text = k->whole ? "" : mass(m, k->ready_g);
  c[BATCH_GIVES].small = cooked ? spread_words(m, k) : "";
}

static const char *why_days(const struct maker *m) {
  const struct kitchen *k = m->f->kitchen;
  if (k->days_stated) return "";
  if (k->days_by_recipe) return "As many days as the recipe makes. ";
  return "A week, as the recipe does not say how long it lasts. ";
}

static bool any_cooked(const struct kitchen *k) {
  for (size_t i = 0; i < k->line_count; i++)
    if (k->line[i].cook != STATE_RAW && !k->line[i].danger) return true;
  return false;
}

static void boxes(const struct maker *m) {
  const struct kitchen *k = m->f->kitchen;
  if (!isfinite(k->box_ml)) return;
  const char *where = "";
  if (k->fridge_high > 0 && k->boxes_freezer > 0) {
    where = words_text(m->arena, ": %d in the fridge, %d in the freezer", k->boxes_fridge, k->boxes_freezer);
  } else if (k->fridge_high > 0) {
    where = ": all of them in the fridge";
  }
  add_paragraph(m, TONE_PLAIN,
                words_text(m->arena, "Boxes: %s, one a day, each for at least %s%s.", words_whole(m->arena, k->days),
                           volume(m, k->box_ml), where));
}

static void batch(const struct maker *m) {
  static const struct sheet_column COLUMN[BATCH_COLUMNS] = {{"Food", 0.4, false, false},
                                                            {"Weigh, uncooked", 0.22, true, false},
                                                            {"Then", 0.17, false, false},
                                                            {"Ready for the bowl", 0.21, true, false}};
  const struct kitchen *k = m->f->kitchen;
  bool unknown = false, now_and_then = false;
  add_heading(m, words_text(m->arena, "A batch for %s", plural_days(m)));
  struct sheet_table *t =
      add_table(m, words_text(m->arena, "What a batch for %s takes and gives", plural_days(m)), COLUMN, BATCH_COLUMNS);
  for (size_t i = 0; i < k->line_count; i++) {
    batch_row(m, t, &k->line[i]);
    if (k->line[i].danger) continue;
    unknown = unknown || !isfinite(k->line[i].prepare_g) || !isfinite(k->line[i].ready_g);
    now_and_then = now_and_then || k->line[i].times_per_28 < CALENDAR_DAYS;
  }
  add_paragraph(
      m, TONE_DIM,
      words_text(
          m->arena, "%s%s%s%s", why_days(m),
          any_cooked(k) ? "What cooking takes or adds is an average: weigh what comes out of the pot, and share that out. "
                        : "",
          now_and_then ? "What is fed now and then is weighed on its day, and is listed here for as many of its days as can "
                         "fall into the batch. "
                       : "",
          unknown ? "\"Not known\": nobody has published what such a food weighs after cooking." : ""));
  boxes(m);
}

/* ---- shopping ---------------------------------------------------------------------------------------------------- */

enum { SHOP_FOOD, SHOP_BUY, SHOP_LOSS, SHOP_COST, SHOP_COLUMNS };

static const char *buy_words(const struct maker *m, const struct kitchen_buy *b) {
  struct arena *a = m->arena;
  if (b->packs > 0) {
    const char *of = b->pack_g > 0 ? mass(m, b->pack_g) : words_whole(a, b->pack_count);
    return words_text(a, "%s %s of %s", words_whole(a, b->packs), b->packs == 1 ? "pack" : "packs", of);
  }
  if (b->count > 0) return units_words(m, b->count, b->unit);
  return shop_mass(m, b->buy_g);
}

static const char *buy_small(const struct maker *m, const struct kitchen_buy *b) {
  struct arena *a = m->arena;
  if (b->cooked_weight) return words_text(a, "%s cooked; its raw weight is not known", mass(m, b->edible_g));
  if (b->packs > 0 && b->count > 0) return words_text(a, "%s are used", units_words(m, b->count, b->unit));
  if (b->packs > 0) return words_text(a, "%s are used", mass(m, b->buy_g));
  if (b->bone_in_g > 0) return words_text(a, "without bone; with its bone %s", shop_mass(m, b->bone_in_g));
  return b->count > 0 && !b->whole ? mass(m, b->edible_g) : "";
}

static const char *loss_words(const struct maker *m, const struct kitchen_buy *b) {
  if (b->with_bone) return "none: the bone is fed";
  if (b->cooked_weight) return "";
  if (b->whole) return "none";
  if (!isfinite(b->refuse)) return NOT_KNOWN_WORDS;
  if (!(b->refuse > 0)) return "none";
  return words_share(m->arena, b->refuse);
}

static const char *loss_small(const struct maker *m, const struct kitchen_buy *b) {
  (void)m;
  return b->refuse > 0 ? b->refuse_what : "";
}

static const char *food_small(const struct maker *m, const struct kitchen_buy *b) {
  return b->raw_of_cooked ? words_text(m->arena, "raw: %s", library_name(m->f->lib, b->food)) : "";
}

static void shop_row(const struct maker *m, struct sheet_table *t, const struct kitchen_buy *b) {
  struct sheet_cell *c = add_row(m, t);
  c[SHOP_FOOD] = (struct sheet_cell){clean(m, b->name), food_small(m, b), NULL};
  c[SHOP_BUY] = (struct sheet_cell){buy_words(m, b), buy_small(m, b), NULL};
  c[SHOP_LOSS] = (struct sheet_cell){loss_words(m, b), loss_small(m, b), NULL};
  if (t->columns > SHOP_COST) c[SHOP_COST].text = b->cost == 0 ? "free" : money(m, b->cost);
}

static void cost_row(const struct maker *m, struct sheet_table *t) {
  const struct kitchen *k = m->f->kitchen;
  struct sheet_cell *c = add_row(m, t);
  t->row[t->rows - 1].strong = true;
  c[SHOP_FOOD].text = k->cost_unknown > 0 ? "What has a price" : "Together";
  c[SHOP_COST].text = money(m, k->cost);
}

static const char *unpriced(const struct maker *m) {
  const struct kitchen *k = m->f->kitchen;
  const char **name = ARENA_NEW(m->arena, const char *, k->buy_count + 1);
  size_t count = 0;
  for (size_t i = 0; i < k->buy_count; i++)
    if (isnan(k->buy[i].cost)) name[count++] = k->buy[i].name;
  return words_text(m->arena, "No price is known for %s.", words_list(m->arena, name, count, 12));
}

static void shopping(const struct maker *m) {
  static const struct sheet_column COLUMN[SHOP_COLUMNS] = {{"Food", 0.36, false, false},
                                                           {"Buy", 0.3, false, false},
                                                           {"Thrown away", 0.2, false, false},
                                                           {"Cost", 0.14, true, false}};
  static const struct sheet_column UNPRICED[] = {
      {"Food", 0.42, false, false}, {"Buy", 0.34, false, false}, {"Thrown away", 0.24, false, false}};
  const struct kitchen *k = m->f->kitchen;
  bool priced = isfinite(k->cost), refuse = false, bone = false;
  add_heading(m, words_text(m->arena, "Shopping for %s", plural_days(m)));
  struct sheet_table *t = add_table(m, words_text(m->arena, "What to buy for %s", plural_days(m)),
                                    priced ? COLUMN : UNPRICED, priced ? SHOP_COLUMNS : (int)COUNT_OF(UNPRICED));
  for (size_t i = 0; i < k->buy_count; i++) {
    shop_row(m, t, &k->buy[i]);
    refuse = refuse || k->buy[i].refuse > 0;
    bone = bone || k->buy[i].bone_in_g > 0;
  }
  if (priced) cost_row(m, t);
  add_paragraph(m, TONE_DIM,
                refuse ? "Peel, shell, core and bone are thrown away as the food table prints it, and are added; "
                         "amounts are rounded up."
                       : "Amounts are rounded up.");
  if (priced && k->cost_unknown > 0) add_paragraph(m, TONE_DIM, unpriced(m));
  if (priced && bone) add_paragraph(m, TONE_DIM, "Costs are those of meat without bone, where both are given.");
  if (!priced) add_paragraph(m, TONE_DIM, "What it costs is not known: a larder with prices would say.");
}

void make_kitchen(const struct maker *m) {
  if (m->f->kitchen->line_count == 0) return;
  bowl(m);
  batch(m);
  shopping(m);
}
