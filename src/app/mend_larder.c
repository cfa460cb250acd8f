/* mend_larder.c: the larder's foods as they may be added: so often, so much, in those pieces. */
#include "app/mend_collect.h"

#include <math.h>

#include "base/num.h"
#include "larder/larder_text.h"

/* What the larder states of the food beyond its name and record. "raw" is left out: under a header that cooks everything
 * this food is cooked as well. */
static void add_stated(struct buf *b, const struct larder_food *f, const struct img_food *record) {
  const struct recipe_line *one = &f->line->one;
  bool cooked = state_is_cooked(one->state) && one->state != STATE_CANNED;
  if (cooked && (enum state)record->state != f->one.state) {
    buf_addf(b, "%s, %s", one->raw_weight ? ", raw weight" : "", state_word[one->state]);
    if (one->broth >= 0) buf_adds(b, one->broth ? ", with broth" : ", without broth");
  }
  if (one->wish.bone_in >= 0) buf_adds(b, one->wish.bone_in ? ", bone-in" : ", boneless");
}

/* The food in a line that adds it so often; 'counted': its pieces stand before it. */
static const char *larder_words(const struct collector *c, const struct larder_food *f, double times, bool counted) {
  const struct recipe_line *one = &f->line->one;
  struct buf b;
  buf_init(&b, c->arena, LINE_MOST_BYTES);
  if (counted && one->package_g > 0) {
    buf_addc(&b, '(');
    num_sig(&b, one->package_g, 4);
    buf_adds(&b, " g each) ");
  }
  buf_adds(&b, f->name);
  if (counted && !isnan(one->dose)) {
    buf_adds(&b, ", ");
    num_sig(&b, one->dose, 12);
    buf_addf(&b, " %s", unit_info[one->dose_unit].word);
  }
  add_stated(&b, f, library_food(c->lib, f->one.shown_food));
  if (times < CALENDAR_DAYS) recipe_print_frequency(&b, times);
  return collect_with_pin(c, buf_text(&b), f->one.shown_food);
}

static bool is_larder_food(const struct larder_food *f, const struct ration_line *l) {
  return l->shown_food == f->one.shown_food && l->part_count == f->one.part_count && !l->cooked_bone;
}

/* One whole thing, as the larder counts it, in a line that adds it so often. False: it cannot be read back. */
static bool counted_text(const struct collector *c, const struct larder_food *f, double times, struct offer_text *t,
                         struct ration_line *read) {
  enum unit unit = f->line->one.unit;
  const char *word = unit == UNIT_EACH ? "" : unit_info[unit].word;
  struct buf one;
  if (!f->line->whole_units) return false;
  buf_init(&one, c->arena, 80);
  buf_addf(&one, word[0] ? "1 %s" : "1", word);
  *t = (struct offer_text){.name = f->name, .unit = unit, .unit_word = word, .frequency = "", .per_day = 1};
  t->food = larder_words(c, f, times, true);
  if (!collect_read_line(c, collect_words(c, buf_text(&one), t->food, ""), read)) return false;
  t->unit_g = ration_line_grams_per_day(read);
  return is_larder_food(f, read);
}

static bool weighed_text(const struct collector *c, const struct larder_food *f, double times, struct offer_text *t,
                         struct ration_line *read) {
  *t = (struct offer_text){.name = f->name, .unit = UNIT_G, .unit_word = "", .frequency = ""};
  t->food = larder_words(c, f, times, false);
  if (!collect_read_line(c, collect_words(c, "100 g", t->food, ""), read)) return false;
  t->per_day = 100 / ration_line_grams_per_day(read);
  return is_larder_food(f, read);
}

/* Grams as a text writes them for one unit of the larder. */
static double written_g(const struct larder_food *f) { return f->line->one.unit == UNIT_G ? 1 : f->unit_g; }

/* So often, and so much: the larder's range, a day or a time, holds for what the new line says. An open one ends where
 * nobody feeds more. What the larder always wants in the bowl is here wanted only if it is used at all. */
static void offer_so_often(struct collector *c, const struct larder_food *f, double times, int group) {
  const struct larder_line *l = f->line;
  struct offer_text t;
  struct mend_offer o = {.tier = MEND_LARDER, .group = group};
  bool daily = times >= CALENDAR_DAYS, counted = counted_text(c, f, times, &t, &o.food.line);
  if (!counted && !weighed_text(c, f, times, &t, &o.food.line)) return;
  double text_days =
      daily ? collect_days(c) : 1; /* a line fed daily is for all days of the batch, another for one feeding */
  double open_end = counted ? MOST_COUNTED : 100 * c->size / written_g(f);
  double high = isfinite(l->high) ? l->high : open_end, high_g = high * written_g(f) * text_days;
  double unit =
      text_days * (counted ? t.unit_g : written_g(f) / t.per_day); /* g a day on the plate for one of the larder's */
  if (!counted && collect_is_a_trace(high_g)) return;
  if (!daily) ration_spread_days(&o.food.line, times, 0);
  o.food.name = t.name;
  o.price = isnan(f->price_per_g) ? 0 : f->price_per_g;
  o.most = high * unit;
  o.least = fmax(l->low, l->least) * unit;
  o.step = counted ? t.unit_g : kitchen_step(UNIT_G, daily ? high_g / 2 : high_g) / t.per_day;
  if (counted) {
    o.whole = t.unit_g;
    o.most = floor(o.most / o.whole + 1e-9) * o.whole;
  }
  if (!daily && l->low == l->high) o.whole = o.step = o.most; /* a stated amount each time */
  if (o.most > 0) collect_add(c, o, t);
}

/* Feedings are counted by the week where they are whole weeks' numbers, else by the month. */
static void offer_now_and_then(struct collector *c, const struct larder_food *f, int group) {
  const struct larder_line *l = f->line;
  bool weekly = fmod(l->times_high, 4) == 0 && fmod(l->times_low, 4) == 0;
  double step = weekly ? 4 : 1, first = l->low == l->high ? fmax(step, l->times_low) : l->times_high;
  if (c->without[group - 1]) return;
  for (double times = first; times <= l->times_high; times += step) offer_so_often(c, f, times, group);
}

static void offer_larder_food(struct collector *c, const struct larder_food *f, int number) {
  if (!collect_may_offer(c, f->one.shown_food, f->name)) return;
  if (f->line->times_high >= 0 && f->line->times_high < CALENDAR_DAYS)
    offer_now_and_then(c, f, number);
  else
    offer_so_often(c, f, CALENDAR_DAYS, 0);
}

void collect_larder(struct collector *c, struct diags *d) {
  struct larder larder;
  struct larder_food *food = NULL;
  if (!c->q->larder.name) return;
  if (!larder_parse(c->q->larder.text, d, &larder, c->arena)) return;
  if (!larder_resolve(c->lib, &larder, d, &food, c->arena)) return;
  c->out->larder = food;
  c->out->larder_count = larder.line_count;
  c->out->currency = larder.currency ? larder.currency : "";
  for (size_t i = 0; i < larder.line_count; i++) offer_larder_food(c, &food[i], (int)i + 1);
}
