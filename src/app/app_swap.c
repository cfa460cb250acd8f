#include "app/app_swap.h"

#include <math.h>

#include "app/app_parts.h"
#include "app/app_post.h"
#include "foods/hazard_words.h"
#include "foods/portion.h"
#include "judge/verdict.h"
#include "larder/larder_text.h"
#include "recipe/recipe_food.h"
#include "words/words.h"

struct exchange {
  const struct library *lib;
  const struct app_swap_request *q;
  struct app_swap_answer *out;
  const struct recipe *recipe;
  const struct ration *ration;
  const struct recipe_line *words; /* of the line that goes */
  struct swapped *s;
  const struct larder_food *priced;
  size_t priced_count;
  struct arena *arena;
};

/* ---- which line ---------------------------------------------------------------------------------------------------------
 */

/* "4 '10 g chicken neck', 5 ...": what may be named. */
static const char *lines_to_name(const struct exchange *x) {
  enum { LINES_MOST = 20 };
  struct buf b;
  buf_init(&b, x->arena, 4000);
  for (size_t i = 0; i < x->ration->line_count && i < LINES_MOST; i++)
    buf_addf(&b, "%s%d '%s'", i > 0 ? ", " : "", x->ration->line[i].line, x->ration->line[i].text);
  return buf_text(&b);
}

static bool find_line(struct exchange *x) {
  struct span wanted = span_trim(span_of(x->q->check.ask.line)), nowhere = {NULL, 0};
  struct diags *d = &x->out->line_diags;
  size_t found = 0;
  for (size_t i = 0; i < x->ration->line_count && wanted.n > 0; i++) {
    if (!app_names_line(wanted, &x->ration->line[i])) continue;
    x->s->line = i;
    found++;
  }
  if (found == 1) return true;
  if (wanted.n == 0)
    diag_say(d, DIAG_ERROR, DIAG_NOT_FOUND, nowhere, "'swap' needs FILE LINE; the lines are %s", lines_to_name(x));
  else if (found == 0)
    diag_say(d, DIAG_ERROR, DIAG_NOT_FOUND, nowhere,
             "the recipe has no line '%.*s'; name it by its number in the text or by words from it: %s", SPAN_ARG(wanted),
             lines_to_name(x));
  else
    diag_say(d, DIAG_ERROR, DIAG_SEVERAL, nowhere, "%zu lines of the recipe fit '%.*s'; name one by its number in the text",
             found, SPAN_ARG(wanted));
  return false;
}

/* ---- which foods --------------------------------------------------------------------------------------------------------
 */

enum { ODD = FOOD_DISH | FOOD_BRAND | FOOD_ENRICHED | FOOD_SALTED };

static bool harmful(const struct exchange *x, const struct img_food *f, enum species s) {
  if (f->hazard == NO_INDEX || f->hazard >= img_count(&x->lib->image, IMG_HAZARDS)) return false;
  const struct img_hazard *h = &IMG_ROWS(&x->lib->image, IMG_HAZARDS, struct img_hazard)[f->hazard];
  return h->weight == FINDING_ACT && (h->species == SPECIES_BOTH || h->species == s);
}

/* An own label by its name. */
static bool named_harmful(const struct exchange *x, uint32_t food, enum species s) {
  if (food < img_count(&x->lib->image, IMG_FOODS)) return false;
  return hazard_words_danger(x->lib, span_of(library_name(x->lib, food)), (int)s, x->arena) != NO_INDEX;
}

/* The same trade role, fed in the same way: raw for raw, cooked for cooked. Powders and oils are what they are. */
static bool same_role(const struct exchange *x, const struct img_food *f, const struct img_food *now) {
  if (x->q->check.ask.any_part)
    return f->part != PART_OTHER || now->part == PART_OTHER; /* drinks, sweets, sauces: no part of a bowl */
  if (json_part_of((enum part)f->part) != json_part_of((enum part)now->part)) return false;
  if (f->part == PART_SUPPLEMENT || f->part == PART_FAT_OIL) return true;
  bool cooked = state_is_cooked((enum state)f->state), now_cooked = state_is_cooked((enum state)now->state);
  return cooked == now_cooked || f->state == STATE_UNSTATED || now->state == STATE_UNSTATED;
}

static bool may_offer(const struct exchange *x, uint32_t food, const struct img_food *now, enum species s) {
  const struct img_food *f = library_food(x->lib, food);
  if (food_is_spice(x->lib, f) && !food_is_spice(x->lib, now)) return false; /* they stand in for each other only */
  if (food == x->ration->line[x->s->line].shown_food || (f->flags & FOOD_BONE)) return false;
  if ((f->flags & ODD & ~now->flags) || harmful(x, f, s) || named_harmful(x, food, s)) return false;
  return same_role(x, f, now);
}

/* The line as its words would be read with this food in it: same state, same bone, weighed as eaten. */
static bool line_with(const struct exchange *x, uint32_t food, struct arena *scratch, struct ration_line *out) {
  struct diags unheard;
  struct recipe_line words = *x->words;
  diags_init(&unheard, scratch, "", x->q->check.recipe.text);
  words.pin = (struct span){NULL, 0};
  words.unit = UNIT_G;
  struct line_food f = {.lib = x->lib, .recipe = x->recipe, .line = &words, .d = &unheard, .arena = scratch, .food = food};
  f.by_header = words.state == STATE_UNSTATED && x->recipe->cook != STATE_UNSTATED;
  f.state = f.by_header ? x->recipe->cook : words.state;
  *out = (struct ration_line){.text = "", .shown_food = food, .grams_from = "", .pinned = true};
  return cook_and_bone(&f, 1, 0, out) && out->grams_fed > 0 && !out->cooked_bone;
}

/* The foods that have a name in everyday speech, of 'image' foods: most of the library are cuts, breeds and makes that
 * nobody would look for, and some are of animals that few can buy. */
static bool *everyday_foods(const struct exchange *x, size_t image_foods) {
  const struct img_name *name = IMG_ROWS(&x->lib->image, IMG_NAMES, struct img_name);
  bool *is = ARENA_NEW(x->arena, bool, image_foods + 1);
  for (size_t i = 0; i < img_count(&x->lib->image, IMG_NAMES); i++)
    if (name[i].food < image_foods) is[name[i].food] = true;
  return is;
}

/* ---- how much of them, and which first
 * ------------------------------------------------------------------------------------ */

/* What people feed of a food a day. One of the same class as the line's may be as much as the line is, and twice that: a
 * leaner cut weighs more. */
static double most_of(const struct exchange *x, uint32_t food, const struct check_result *before) {
  static const double LEANER = 2, LEANER_OF_FAT = SWAP_BULK_OF_LEAN;
  enum species species = before->animal->species;
  const struct ration_line *line = &x->ration->line[x->s->line];
  double most = portion_most_g(x->lib, food, species, before->body.metabolic_kg, before->energy.grams_per_day);
  bool same_class = portion_of(x->lib, food, species) == portion_of(x->lib, line->shown_food, species);
  bool too_fat = before->nutrient[NUT_FAT].verdict == VERDICT_OVER;
  return same_class ? fmax(most, (too_fat ? LEANER_OF_FAT : LEANER) * ration_line_grams_per_day(line)) : most;
}

/* Close: of a piece with bone other such pieces; else the same animal's other cuts, the same kind of plant, what stands
 * beside it in the shop. Common: under a name that
 * people use, and of nothing that few shops sell (but for who feeds just that); whatever somebody keeps a label of. */
static enum swap_near near_of(const struct exchange *x, uint32_t food, const bool *everyday, enum species species) {
  size_t image_foods = img_count(&x->lib->image, IMG_FOODS);
  uint32_t now_food = x->ration->line[x->s->line].shown_food;
  const struct img_food *f = library_food(x->lib, food), *now = library_food(x->lib, now_food);
  if (food >= image_foods) return SWAP_COMMON;
  if (!everyday[food] || (f->flags & FOOD_RARE & ~now->flags)) return SWAP_RARE;
  if (x->ration->line[x->s->line].part_count > 1) /* flesh alone takes no bone's place */
    return f->flags & FOOD_ALWAYS_BONE_IN ? SWAP_CLOSE : SWAP_COMMON;
  bool close = now_food < image_foods && f->kind == now->kind && f->part == now->part &&
               portion_of(x->lib, food, species) == portion_of(x->lib, now_food, species);
  return close ? SWAP_CLOSE : SWAP_COMMON;
}

static size_t collect(const struct exchange *x, enum species species, struct ration_line **offers) {
  const struct img_food *now = library_food(x->lib, x->ration->line[x->s->line].shown_food);
  size_t n = 0;
  struct arena scratch;
  *offers = ARENA_NEW(x->arena, struct ration_line, library_count(x->lib));
  arena_init(&scratch, x->arena->on_full);
  size_t image_foods = img_count(&x->lib->image, IMG_FOODS);
  const bool *everyday = x->q->check.ask.everyday ? everyday_foods(x, image_foods) : NULL;
  for (uint32_t food = 0; food < library_count(x->lib); food++) {
    if (everyday && food < image_foods && !everyday[food]) continue;
    if (!may_offer(x, food, now, species)) continue;
    if (x->ration->never_count > 0 && ration_refuses(x->lib, x->ration, food, "", &scratch)) continue;
    if (line_with(x, food, &scratch, &(*offers)[n])) n++;
    arena_free(&scratch);
  }
  return n;
}

/* ---- what each would do -------------------------------------------------------------------------------------------------
 */

static double price_of(const struct exchange *x, uint32_t food) {
  for (size_t i = 0; i < x->priced_count; i++)
    if (x->priced[i].one.shown_food == food) return x->priced[i].price_per_g;
  return (double)NAN;
}

/* Nutrients whose verdict moves up (or down). That something becomes unknown is neither. */
static size_t moved(const struct check_result *before, const struct check_result *after, bool up, enum nutrient *list) {
  size_t n = 0;
  for (int i = 0; i < NUT_COUNT; i++) {
    int was = verdict_rank(before->nutrient[i].verdict), is = verdict_rank(after->nutrient[i].verdict);
    bool unknown = after->nutrient[i].verdict == VERDICT_UNPROVEN && before->nutrient[i].verdict != VERDICT_MET;
    if (!unknown && (up ? is > was : is < was)) list[n++] = (enum nutrient)i;
  }
  return n;
}

/* ---- the line as it would be typed --------------------------------------------------------------------------------------
 */

static struct span first_word(struct span words) {
  const char *comma = memchr(words.p, ',', words.n);
  return comma ? span_cut(words, 0, (size_t)(comma - words.p)) : words;
}

/* Nobody weighs to the twelfth digit: three of what will be written, which is 'share' days' worth. */
static void round_grams(struct ration_line *l, double share) {
  double written = l->grams_fed * share, step = pow(10, floor(log10(written)) - 2);
  double factor = round(written / step) * step / written;
  for (int i = 0; i < l->part_count; i++) l->part[i].grams *= factor;
  l->grams_fed *= factor;
}

/* The last line of the text that holds this one line under the recipe's headers; so it means there what it says here. */
static struct span print_alone(const struct exchange *x, const struct recipe_line *words, const struct ration_line *line,
                               double days) {
  struct recipe one = *x->recipe;
  struct ration alone = {.name = "", .days = days, .meals_per_day = NAN, .line = line, .line_count = 1};
  struct buf text;
  one.line = words;
  one.line_count = 1;
  buf_init(&text, x->arena, 1 << 20);
  recipe_print(x->lib, &one, &alone, &text);
  struct span all = buf_span(&text);
  if (all.n > 0) all.n--; /* the last line's end */
  size_t from = all.n;
  while (from > 0 && all.p[from - 1] != '\n') from--;
  return span_cut(all, from, all.n);
}

static const char *typed_line(const struct exchange *x, const struct ration *r) {
  struct recipe_line words = *x->words;
  struct ration_line line = r->line[x->s->line];
  if (!(line.grams_fed > 0)) return NULL;
  words.food = span_of(words_food(x->arena, x->lib, line.shown_food));
  words.pin = (struct span){NULL, 0};
  words.unit = UNIT_G;
  words.amount = words.amount_low = words.amount_high = words.package_g = 1;
  words.dose = NAN;
  words.wish = SEARCH_WISH_NONE;
  words.wish.bone_in = x->words->wish.bone_in;
  words.wish.drained = x->words->wish.drained;
  line.line = words.line;
  round_grams(&line, words.frequency_stated ? 1 : r->days);
  struct span text = print_alone(x, &words, &line, r->days);
  /* Words that would be read as something else were left out, and the name became a remark: fewer words may do. */
  if (memchr(text.p, '#', text.n)) {
    words.food = first_word(words.food);
    text = print_alone(x, &words, &line, r->days);
  }
  return arena_text(x->arena, text);
}

/* Cooking ends the enzyme. */
static bool carries_thiaminase(const struct exchange *x, const struct ration_line *l) {
  const struct img_food *f = library_food(x->lib, l->shown_food);
  enum state state = l->state != STATE_UNSTATED ? l->state : (enum state)f->state;
  return (f->flags & FOOD_THIAMINASE) && !state_is_cooked(state);
}

/* NaN where nobody knows it of the food that goes, or of the one that comes. */
static double change_of(const struct exchange *x, const struct check_result *after, enum nutrient n) {
  const struct nutrient_result *side[] = {&x->s->before->nutrient[n], &after->nutrient[n]};
  for (size_t k = 0; k < COUNT_OF(side); k++)
    if (nutrient_lacks_line(side[k], (int)x->s->line)) return (double)NAN;
  return known_part(side[1]->amount) - known_part(side[0]->amount);
}

static struct swapped_hit hit_of(const struct exchange *x, const struct swap *swap, size_t offer,
                                 const struct ration_line *line) {
  struct swapped_hit h = {.food = line->shown_food, .grams = swap_grams(swap, offer), .score = swap_score(swap, offer)};
  struct ration *r = ARENA_NEW(x->arena, struct ration, 1);
  *r = swap_ration(swap, offer, x->arena);
  const struct check_result *before = x->s->before;
  h.thiaminase = carries_thiaminase(x, line);
  h.after = check_numbers(x->lib, r, before->animal, &before->options, x->arena);
  enum nutrient *up = ARENA_NEW(x->arena, enum nutrient, NUT_COUNT), *down = ARENA_NEW(x->arena, enum nutrient, NUT_COUNT);
  h.repair_count = moved(before, h.after, true, up);
  h.break_count = moved(before, h.after, false, down);
  h.repairs = up;
  h.breaks = down;
  h.fat_g = change_of(x, h.after, NUT_FAT);
  h.kcal = change_of(x, h.after, NUT_ENERGY);
  h.eaten_g = h.after->energy.grams_per_day - before->energy.grams_per_day;
  h.text = typed_line(x, r);
  h.cost = price_of(x, h.food) * h.grams * x->ration->line[x->s->line].times_per_28 / CALENDAR_DAYS;
  return h;
}

/* "Lamb, foreshank, separable lean and fat": without how far the butcher trimmed it, and the grade. */
static struct span cut_of(const struct exchange *x, uint32_t food) {
  const char *name = library_name(x->lib, food), *trimmed = strstr(name, ", trimmed to");
  return trimmed ? (struct span){name, (size_t)(trimmed - name)} : span_of(name);
}

/* Of one cut in several trims the best is enough to think of. */
static void one_of_a_cut(const struct exchange *x, const struct swap *swap, const struct ration_line *offers, size_t n,
                         enum swap_near *near) {
  for (size_t i = 0; i < n; i++)
    for (size_t k = 0; k < i && near[i] > SWAP_RARE; k++) {
      bool fits = near[k] > SWAP_RARE && swap_grams(swap, i) > 0 && swap_grams(swap, k) > 0;
      if (!fits || !span_eq_fold(cut_of(x, offers[i].shown_food), cut_of(x, offers[k].shown_food))) continue;
      near[swap_score(swap, i) > swap_score(swap, k) ? k : i] = SWAP_RARE;
    }
}

static void rank(struct exchange *x, const struct animal *animal) {
  struct ration_line *offers;
  size_t n = collect(x, animal->species, &offers);
  double *most_g = ARENA_NEW(x->arena, double, n);
  enum swap_near *near = ARENA_NEW(x->arena, enum swap_near, n);
  const bool *everyday = everyday_foods(x, img_count(&x->lib->image, IMG_FOODS));
  for (size_t i = 0; i < n; i++) {
    most_g[i] = most_of(x, offers[i].shown_food, x->s->before);
    near[i] = near_of(x, offers[i].shown_food, everyday, animal->species);
  }
  struct swap_ask ask = {x->lib, x->ration, x->s->line, animal, x->q->check.ask.check, x->q->check.ask.equal == EQUAL_MASS,
                         offers, n,         most_g,     near};
  struct swap *swap = swap_open(&ask, x->arena);
  if (!swap) {
    x->s->refused = true;
    return;
  }
  swap_pass(swap);
  one_of_a_cut(x, swap, offers, n, near);
  size_t *best = ARENA_NEW(x->arena, size_t, (size_t)x->q->check.ask.most);
  enum swap_near *part = ARENA_NEW(x->arena, enum swap_near, (size_t)x->q->check.ask.most);
  struct swapped_hit *hits = ARENA_NEW(x->arena, struct swapped_hit, (size_t)x->q->check.ask.most);
  x->s->offered = n;
  x->s->possible = swap_possible(swap);
  x->s->by_mass = swap_is_by_mass(swap);
  x->s->energy_unknown = swap_energy_is_unknown(swap);
  x->s->count = swap_best(swap, best, part, (size_t)x->q->check.ask.most);
  for (size_t i = 0; i < x->s->count; i++) {
    hits[i] = hit_of(x, swap, best[i], &offers[best[i]]);
    hits[i].near = part[i];
  }
  x->s->hit = hits;
}

/* ---- the use case --------------------------------------------------------------------------------------------------------
 */

static bool read_prices(struct exchange *x) {
  struct larder *larder = ARENA_NEW(x->arena, struct larder, 1);
  struct larder_food *food = NULL;
  diags_init(&x->out->larder_diags, x->arena, x->q->larder.name, x->q->larder.text);
  x->s->currency = "";
  if (!x->q->larder.name) return true;
  if (!larder_parse(x->q->larder.text, &x->out->larder_diags, larder, x->arena)) return false;
  if (!larder_resolve(x->lib, larder, &x->out->larder_diags, &food, x->arena)) return false;
  x->priced = food;
  x->priced_count = larder->line_count;
  x->s->currency = larder->currency;
  return true;
}

static const struct recipe_line *words_of(const struct recipe *r, int line) {
  for (size_t i = 0; i < r->line_count; i++)
    if (r->line[i].line == line) return &r->line[i];
  return &r->line[0];
}

static bool needs_animal(struct exchange *x, const struct animal *animal) {
  if (animal) return true;
  diag_say(&x->out->check.animal_diags, DIAG_ERROR, DIAG_ANIMAL_NEEDED, (struct span){NULL, 0},
           "ranking foods needs an animal, and none is given");
  return false;
}

void app_swap(const struct library *lib, const struct app_swap_request *q, struct app_swap_answer *out,
              struct arena *arena) {
  const struct animal *animal = NULL;
  *out = (struct app_swap_answer){0};
  struct app_swap_request *read = ARENA_NEW(arena, struct app_swap_request, 1); /* a post is read before all else */
  *read = *q;
  app_take_post(lib, &read->check, arena);
  q = read;
  struct exchange x = {.lib = lib, .q = q, .out = out, .arena = arena, .s = ARENA_NEW(arena, struct swapped, 1)};
  diags_init(&out->line_diags, arena, "the line to exchange", (struct span){NULL, 0});
  bool understood = app_understand(lib, &q->check, &out->check, &x.ration, &animal, arena);
  x.recipe = out->check.recipe;
  understood = read_prices(&x) && understood;
  understood = understood && find_line(&x);
  if (!understood || !needs_animal(&x, animal)) return;
  const struct ration_line *line = &x.ration->line[x.s->line];
  const struct img_food *now = library_food(lib, line->shown_food);
  x.words = words_of(x.recipe, line->line);
  x.s->ration = x.ration;
  x.s->asked_by_mass = q->check.ask.equal == EQUAL_MASS;
  x.s->everyday = q->check.ask.everyday;
  x.s->part = q->check.ask.any_part ? NULL : json_part_key[json_part_of((enum part)now->part)];
  x.s->before = check_numbers(lib, x.ration, animal, &q->check.ask.check, arena);
  x.s->cost = price_of(&x, line->shown_food) * ration_line_grams_per_day(line);
  rank(&x, animal);
  out->swapped = x.s;
}
