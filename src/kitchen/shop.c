/* What is to be bought for the lines of a batch. */
#include <math.h>

#include "kitchen/kitchen_parts.h"

struct shop {
  const struct kitchen_request *q;
  const struct check_result *r;
  struct kitchen_buy *buy;
  size_t count;
};

double kitchen_shop_g(double grams) {
  double step = grams < 20 ? 0.1 : grams < 100 ? 1 : grams < 250 ? 5 : grams < 1000 ? 10 : 50;
  return grams > 0 ? ceil(grams / step - 1e-9) * step : grams;
}

/* ---- the larder's line for a food ------------------------------------------------------------------------------ */

/* As fed first, then as bought. */
static const struct larder_food *larder_line(const struct kitchen_request *q, uint32_t fed, uint32_t bought) {
  const uint32_t wanted[] = {fed, bought};
  for (size_t w = 0; w < COUNT_OF(wanted); w++)
    for (size_t i = 0; q->larder && i < q->larder->line_count; i++)
      if (q->larder_food[i].one.part_count > 0 && q->larder_food[i].one.part[0].food == wanted[w]) return &q->larder_food[i];
  return NULL;
}

/* ---- refuse ---------------------------------------------------------------------------------------------------- */

static bool says_bone(const char *what) { return span_holds_fold(span_of(what), SPAN_LIT("bone")); }

/* Bought ready to eat: ground, cubed, boned, filleted, tinned. */
static bool bought_ready(const struct kitchen_request *q, const struct ration_line *l) {
  static const char *const READY[] = {"boneless", "mince",   "ground", "cubed",  "diced", "fillet",
                                      "stewing",  "shelled", "peeled", "frozen", "puree"};
  const struct recipe *recipe = q->recipe;
  for (size_t i = 0; recipe && i < recipe->line_count; i++)
    if (recipe->line[i].line == l->line && recipe->line[i].wish.bone_in == 0) return true;
  for (size_t i = 0; i < COUNT_OF(READY); i++)
    if (span_holds_fold(span_of(l->text ? l->text : ""), span_of(READY[i]))) return true;
  return false;
}

static void set_refuse(const struct shop *s, const struct ration_line *l, struct kitchen_buy *b) {
  const struct library *lib = s->q->lib;
  const struct img_food *f = library_food(lib, b->food);
  b->refuse = (double)NAN;
  b->refuse_what = "";
  if (b->with_bone || b->cooked_weight || (f->flags & FOOD_OWN) || !(f->refuse >= 0 && f->refuse < 1)) return;
  b->refuse = (double)f->refuse;
  b->refuse_what = lib_str(lib, f->refuse_text);
  b->refuse_is_bone = says_bone(b->refuse_what);
  if (bought_ready(s->q, l)) b->refuse = b->refuse_is_bone || b->refuse_what[0] ? 0 : b->refuse;
}

/* ---- lines of one food are one --------------------------------------------------------------------------------- */

static struct kitchen_buy buy_of(const struct shop *s, const struct kitchen_line *k) {
  const struct ration_line *l = &s->r->ration->line[k->index];
  const struct library *lib = s->q->lib;
  const struct img_food *f = library_food(lib, l->part[0].food);
  struct kitchen_buy b = {.food = l->part[0].food,
                          .name = k->food,
                          .with_bone = l->part_count > 1,
                          .edible_g = k->prepare_g,
                          .whole = k->whole,
                          .count = k->units * k->feedings,
                          .unit = k->unit,
                          .packs = (double)NAN,
                          .pack_g = (double)NAN,
                          .pack_count = (double)NAN,
                          .cost = (double)NAN};
  bool was_cooked = k->cook != STATE_RAW && state_is_cooked((enum state)f->state);
  const struct larder_food *has = larder_line(s->q, b.food, b.food);
  if (was_cooked && (has || !(k->prepare_g > 0))) { /* bought as it is fed */
    b.edible_g = k->fed_g * k->feedings;
    b.cooked_weight = !has;
  } else if (was_cooked) {
    b.food = f->raw_form;
    b.raw_of_cooked = true;
  }
  if (isnan(k->units) || unit_info[k->unit].kind == UNIT_KIND_VOLUME) {
    b.count = (double)NAN;
    b.unit = UNIT_EACH;
  }
  return b;
}

static void add_line(struct shop *s, const struct kitchen_line *k) {
  if (k->danger || k->feedings == 0) return;
  struct kitchen_buy b = buy_of(s, k);
  for (size_t i = 0; i < s->count; i++) {
    struct kitchen_buy *other = &s->buy[i];
    if (other->food != b.food || other->with_bone != b.with_bone || other->cooked_weight != b.cooked_weight) continue;
    other->edible_g += b.edible_g;
    if (other->unit != b.unit) b.count = (double)NAN;
    other->count += b.count;
    return;
  }
  set_refuse(s, &s->r->ration->line[k->index], &b);
  s->buy[s->count++] = b;
}

/* ---- weights, packs and prices --------------------------------------------------------------------------------- */

static void weigh(struct kitchen_buy *b) {
  double thrown = b->refuse > 0 ? b->refuse : 0;
  b->bone_in_g = (double)NAN;
  b->buy_g = b->cooked_weight ? (double)NAN : b->edible_g;
  if (thrown > 0 && b->refuse_is_bone) {
    b->bone_in_g = b->edible_g / (1 - thrown);
  } else if (thrown > 0) {
    b->buy_g = b->edible_g / (1 - thrown);
  }
  if (b->count > 0) b->count = ceil(b->count - 1e-9);
}

static void pack(const struct larder_food *f, struct kitchen_buy *b) {
  const struct larder_line *l = f->line;
  if (!(l->pack > 0)) return;
  if (unit_info[l->pack_unit].kind == UNIT_KIND_MASS) {
    b->pack_g = unit_convert(l->pack, l->pack_unit);
    b->packs = ceil(b->buy_g / b->pack_g - 1e-9);
    return;
  }
  double things = b->count > 0 ? b->count : ceil(b->edible_g / f->unit_g - 1e-9);
  b->pack_count = l->pack;
  b->packs = ceil(things / b->pack_count - 1e-9);
}

static void price(const struct larder_food *f, struct kitchen_buy *b) {
  const struct larder_line *l = f->line;
  if (!(f->price_per_g >= 0)) return;
  bool by_piece = unit_info[l->price_unit].kind == UNIT_KIND_COUNT;
  double grams = b->packs * b->pack_g > 0 ? b->packs * b->pack_g : b->buy_g;
  double things = b->count > 0 ? b->count : ceil(b->edible_g / f->unit_g - 1e-9);
  if (b->packs * b->pack_count > 0) things = b->packs * b->pack_count;
  b->cost = by_piece ? things * f->unit_g * f->price_per_g : grams * f->price_per_g;
  if (f->price_per_g == 0) b->cost = 0;
}

static void settle(const struct shop *s, struct kitchen *k, struct kitchen_buy *b) {
  weigh(b);
  const struct larder_food *has = larder_line(s->q, b->food, b->food);
  if (has) {
    pack(has, b);
    price(has, b);
  }
  if (isnan(b->cost)) {
    k->cost_unknown++;
  } else {
    k->cost = known_part(k->cost) + b->cost;
  }
}

void kitchen_shop(const struct kitchen_request *q, const struct check_result *r, struct kitchen *k, struct arena *arena) {
  struct shop s = {q, r, ARENA_NEW(arena, struct kitchen_buy, k->line_count + 1), 0};
  k->cost = (double)NAN;
  k->currency = q->larder && q->larder->currency ? q->larder->currency : "";
  for (size_t i = 0; i < k->line_count; i++) add_line(&s, &k->line[i]);
  for (size_t i = 0; i < s.count; i++) settle(&s, k, &s.buy[i]);
  k->buy = s.buy;
  k->buy_count = s.count;
}
