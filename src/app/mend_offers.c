/* mend_offers.c: foods that may be added: what is at hand, what people use to bring a nutrient (data/fixes.tsv), the
 * person's own labels. */
#include "app/mend_collect.h"

#include <math.h>

#include "foods/portion.h"
#include "foods/refused.h"
#include "judge/uncounted.h"
#include "larder/larder_text.h"

static const double FIX_KG = 10;                                /* the table's amounts are for an animal of this weight */
static const double OWN_MOST_G = 60, OWN_SUPPLEMENT_MOST_G = 5; /* of an own food, for that animal: common practice */

bool offers_know(const struct library *lib, struct span never, struct arena *arena) {
  if (memchr(never.p, ',', never.n)) { /* "beef, chicken" would keep out what has both in it: a whole name, or an error */
    bool named = false;
    for (size_t i = 0; i < library_count(lib) && !named; i++)
      named = span_holds_fold(span_of(library_name(lib, (uint32_t)i)), never);
    return named;
  }
  const struct img_fix *fix = IMG_ROWS(&lib->image, IMG_FIXES, struct img_fix);
  for (size_t i = 0; i < img_count(&lib->image, IMG_FIXES); i++)
    if (food_is_refused(lib, fix[i].food, lib_str(lib, fix[i].words), never, arena)) return true;
  for (size_t i = 0; i < library_count(lib); i++)
    if (food_is_refused(lib, (uint32_t)i, "", never, arena)) return true;
  return food_group_of(lib, never, arena) != NULL;
}

/* Raw shellfish is not offered unless the owner has it. */
static bool is_raw_shellfish(const struct collector *c, uint32_t food) {
  const struct img_food *f = library_food(c->lib, food);
  return f->part == PART_SHELLFISH && f->state == STATE_RAW;
}

static bool is_liver(const struct collector *c, uint32_t food) {
  const struct img_food *f = library_food(c->lib, food);
  return f && f->part == PART_ORGAN_LIVER;
}

static bool is_enough(const struct collector *c, enum nutrient n) {
  enum verdict v = c->before->nutrient[n].verdict;
  return v == VERDICT_MET || v == VERDICT_OVER;
}

/* Another kind of liver beside the owner's is no help where that brings vitamin A and copper enough, or is as much as is
 * usual: more B vitamins of it bring more of these as well. */
static bool is_second_liver(const struct collector *c, uint32_t food) {
  double has = 0, usual = INFINITY;
  for (size_t i = 0; is_liver(c, food) && i < c->ration->line_count; i++) {
    uint32_t own = c->ration->line[i].shown_food;
    if (!is_liver(c, own)) continue;
    has += ration_line_grams_per_day(&c->ration->line[i]);
    usual = collect_portion(c, own);
  }
  return has > 0 && (has >= usual || (is_enough(c, NUT_VITAMIN_A) && is_enough(c, NUT_COPPER)));
}

static enum mend_tier tier_of(const struct collector *c, uint32_t food) {
  return collect_is_supplement(c->lib, food) ? MEND_SUPPLEMENT : MEND_FOOD;
}

/* ORDER 'late' of fixes.tsv: at once, when the small things do not suffice, when portions would have to be stretched. */
static const int SINCE[] = {0, 1, 3};

static bool may_offer_fix(const struct collector *c, const struct img_fix *fix, const char *words) {
  return collect_may_offer(c, fix->food, words) && !is_raw_shellfish(c, fix->food) && !is_second_liver(c, fix->food) &&
         !uncounted_is_doubled(c->lib, c->before, c->held, fix->food, collect_portion(c, fix->food));
}

static void offer_fixes(struct collector *c) {
  const struct img_fix *fix = IMG_ROWS(&c->lib->image, IMG_FIXES, struct img_fix);
  const struct img_shop_unit *unit = IMG_ROWS(&c->lib->image, IMG_SHOP_UNITS, struct img_shop_unit);
  for (size_t i = 0; i < img_count(&c->lib->image, IMG_FIXES); i++) {
    const char *words = lib_str(c->lib, fix[i].words);
    int since = SINCE[fix[i].late];
    if (!ration_takes_fix(c->lib, c->ration, &fix[i], c->animal->species)) continue;
    if (fix[i].shop_unit != NO_INDEX)
      collect_shop_unit(c, &unit[fix[i].shop_unit], words, since);
    else if (may_offer_fix(c, &fix[i], words) &&
             !collect_spooned(c, fix[i].food, words, tier_of(c, fix[i].food), collect_portion(c, fix[i].food), since))
      collect_weighed(c, fix[i].food, words, tier_of(c, fix[i].food), collect_portion(c, fix[i].food), since);
  }
}

static void offer_own(struct collector *c, const struct own_food *own, uint32_t food) {
  bool counted = own->unit_word && own->unit_g > 0;
  double most_g = (own->food.part == PART_SUPPLEMENT ? OWN_SUPPLEMENT_MOST_G : OWN_MOST_G) * c->size;
  if (!counted) {
    collect_weighed(c, food, own->name, tier_of(c, food), most_g, false);
    return;
  }
  struct mend_offer o = {.tier = MEND_LARDER, .whole = own->unit_g / collect_days(c)};
  struct offer_text t = {.food = collect_with_pin(c, own->name, food),
                         .name = own->name,
                         .unit = unit_by_word(span_of(own->unit_word)),
                         .unit_word = own->unit_word,
                         .unit_g = own->unit_g,
                         .frequency = "",
                         .per_day = collect_days(c)};
  struct buf one;
  buf_init(&one, c->arena, 80);
  buf_addf(&one, "1 %s", own->unit_word);
  if (!collect_read_line(c, collect_words(c, buf_text(&one), t.food, ""), &o.food.line)) return;
  o.food.name = t.name;
  o.whole = ration_line_grams_per_day(&o.food.line);
  t.unit_g = o.whole * collect_days(c);
  o.step = o.whole;
  o.most = fmax(1, floor(MOST_COUNTED * collect_days(c))) * o.whole;
  collect_add(c, o, t);
}

static void offer_own_foods(struct collector *c) {
  for (size_t i = 0; i < c->lib->own_count; i++) {
    uint32_t food = (uint32_t)(library_count(c->lib) - c->lib->own_count + i);
    if (collect_may_offer(c, food, c->lib->own[i].name)) offer_own(c, &c->lib->own[i], food);
  }
}

double offers_price(const struct offers *o, uint32_t food) {
  for (size_t i = 0; i < o->larder_count; i++)
    if (o->larder[i].one.shown_food == food) return o->larder[i].price_per_g;
  return (double)NAN;
}

void collect_offers(const struct library *lib, const struct app_mend_request *q, const struct recipe *recipe,
                    const struct check_result *before, const bool *without, struct diags *larder_diags, struct offers *out,
                    struct arena *arena) {
  const struct animal usual = {.name = "", .species = SPECIES_DOG, .weight_kg = FIX_KG, .ideal_kg = NAN, .condition = NAN};
  *out = (struct offers){0};
  struct collector c = {.lib = lib,
                        .q = q,
                        .recipe = recipe,
                        .animal = before->animal,
                        .before = before,
                        .out = out,
                        .arena = arena,
                        .headers = collect_headers(q->check.recipe.text, recipe, arena),
                        .ration = before->ration,
                        .without = without,
                        .foods = LARDER_MOST_LINES + 1 + NUT_COUNT};
  c.size = before->body.metabolic_kg / animal_body(lib, &usual).metabolic_kg;
  uncounted_doses(lib, before, c.held);
  collect_larder(&c, larder_diags);
  offer_own_foods(&c);
  offer_fixes(&c);
}
