#include "app/app_compose.h"

#include <math.h>

#include "app/app_parts.h"
#include "app/measure.h"
#include "app/mend_parts.h"
#include "base/num.h"

struct kitchen {
  const struct library *lib;
  const struct app_compose_request *q;
  const struct larder *larder;
  const struct larder_food *food;
  struct app_compose_answer *out;
  struct arena *arena;
};

/* ---- for whom ------------------------------------------------------------------------------------------------------- */

static const struct span WHOLE_TEXT = {NULL, 0};

static const struct animal *by_name(const struct animal *a, size_t count, const char *name) {
  for (size_t i = 0; i < count; i++)
    if (span_eq_fold(span_of(a[i].name), span_trim(span_of(name)))) return &a[i];
  return NULL;
}

static void say_no_such(struct kitchen *k, const struct animal *all, size_t count, const char *name) {
  struct buf b;
  buf_init(&b, k->arena, 512);
  for (size_t i = 0; i < count; i++) buf_addf(&b, "%s%s", i > 0 ? ", " : "", all[i].name);
  diag_say(&k->out->animal_diags, DIAG_ERROR, DIAG_WHICH_ANIMAL, WHOLE_TEXT, "there is no animal '%s' in %s; it has %s",
           name, k->q->check.animals.name, buf_text(&b));
}

/* The wanted ones of a text, in the order in which they were named. */
static size_t choose(struct kitchen *k, struct animal *all, size_t count, struct animal **chosen) {
  const char *const *name = k->q->check.for_name ? &k->q->check.for_name : k->larder->for_whom;
  size_t names = k->q->check.for_name ? 1 : k->larder->for_count, n = 0;
  if (names == 0 && count == 1) {
    *chosen = all;
    return 1;
  }
  if (names == 0) {
    diag_say(&k->out->animal_diags, DIAG_ERROR, DIAG_WHICH_ANIMAL, WHOLE_TEXT,
             "for which animals? name them in the larder, as in 'For: %s'", count > 0 ? all[0].name : "Juniper");
    return 0;
  }
  *chosen = ARENA_NEW(k->arena, struct animal, names);
  for (size_t i = 0; i < names; i++) {
    const struct animal *a = by_name(all, count, name[i]);
    if (a)
      (*chosen)[n++] = *a;
    else
      say_no_such(k, all, count, name[i]);
  }
  return n;
}

static size_t find_animals(struct kitchen *k, struct animal **out) {
  struct animal *all = NULL;
  size_t count = 0;
  if (k->q->check.one_off) {
    *out = ARENA_NEW(k->arena, struct animal, 1);
    **out = *k->q->check.one_off;
    return 1;
  }
  if (!k->q->check.animals.name) {
    diag_say(&k->out->animal_diags, DIAG_ERROR, DIAG_ANIMAL_NEEDED, WHOLE_TEXT,
             "a recipe is composed for an animal, and none is given");
    return 0;
  }
  if (!app_animals(&k->q->check.animals, k->q->check.ask.today, &k->out->animal_diags, &all, &count, k->arena)) return 0;
  for (size_t i = 0; i < count; i++) all[i] = *app_animal_as_noted(k->lib, &all[i], NULL, k->arena);
  return choose(k, all, count, out);
}

/* ---- the larder as a request ------------------------------------------------------------------------------------------ */

/* What stands behind the food and its pin, without the price. */
static const char *range_words(struct kitchen *k, const struct larder_line *l) {
  const char *from = l->food_at.p + l->food_at.n, *end = l->whole.p + l->whole.n;
  if (l->price_at.n > 0 && l->price_at.p >= from) end = l->price_at.p;
  struct span rest = span_trim((struct span){from, end > from ? (size_t)(end - from) : 0});
  if (rest.n > 0 && rest.p[0] == '[') {
    const char *close = memchr(rest.p, ']', rest.n);
    rest = close ? span_trim(span_cut(rest, (size_t)(close - rest.p) + 1, rest.n)) : rest;
  }
  while (rest.n > 0 && (rest.p[rest.n - 1] == ',' || rest.p[rest.n - 1] == ' ')) rest.n--;
  while (rest.n > 0 && (rest.p[0] == ',' || rest.p[0] == ' ')) rest = span_cut(rest, 1, rest.n);
  return l->range_at.n > 0 && rest.n > 0 ? arena_text(k->arena, rest) : NULL;
}

static struct compose_food *foods_of(struct kitchen *k) {
  struct compose_food *list = ARENA_NEW(k->arena, struct compose_food, k->larder->line_count);
  for (size_t i = 0; i < k->larder->line_count; i++) {
    const struct larder_food *f = &k->food[i];
    const struct larder_line *l = f->line;
    bool daily = !(l->times_high >= 0) || l->times_low >= CALENDAR_DAYS;
    list[i] = (struct compose_food){.food = {f->name, f->one},
                                    .low = l->low * f->unit_g,
                                    .high = l->high * f->unit_g,
                                    .least = l->least * f->unit_g,
                                    .whole = l->whole_units ? f->unit_g : 0,
                                    .times_low = daily ? (double)NAN : l->times_low,
                                    .times_high = daily ? (double)NAN : l->times_high,
                                    .price = f->price_per_g,
                                    .words = range_words(k, l)};
  }
  return list;
}

static struct compose_limit *limits_of(struct kitchen *k) {
  static const enum compose_limit_kind KIND[] = {[LARDER_ENERGY_SHARE] = COMPOSE_ENERGY_SHARE,
                                                 [LARDER_KCAL] = COMPOSE_KCAL,
                                                 [LARDER_FOOD] = COMPOSE_MASS,
                                                 [LARDER_PART] = COMPOSE_PART,
                                                 [LARDER_FOODS] = COMPOSE_FOODS,
                                                 [LARDER_ONE_FOOD] = COMPOSE_ONE_FOOD,
                                                 [LARDER_NUTRIENT] = COMPOSE_NUTRIENT,
                                                 [LARDER_COST] = COMPOSE_COST};
  struct compose_limit *list = ARENA_NEW(k->arena, struct compose_limit, k->larder->limit_count);
  for (size_t i = 0; i < k->larder->limit_count; i++) {
    const struct larder_limit *l = &k->larder->limit[i];
    list[i] = (struct compose_limit){KIND[l->kind], l->low, l->high, l->nutrient, l->parts, arena_text(k->arena, l->at)};
  }
  return list;
}

/* A food's own measure, and grams where a count need not be whole. */
static double step(void *user, size_t food, double grams) {
  const struct kitchen *k = user;
  const struct larder_food *f = &k->food[food];
  double in_units = kitchen_step(f->line->one.unit, grams / f->unit_g) * f->unit_g;
  return in_units > 0 ? in_units : kitchen_step(UNIT_G, grams);
}

/* A tenth of a gram of food, as far as it is weighed; of what a label doses any amount. */
static double floor_of(void *user, size_t food) {
  static const double TENTH = 0.1;
  const struct kitchen *k = user;
  const struct larder_food *f = &k->food[food];
  const struct img_food *record = library_food(k->lib, f->one.shown_food);
  return f->line->one.unit == UNIT_G && record && record->part != PART_SUPPLEMENT ? TENTH : 0;
}

static const char *aim_words(struct kitchen *k, const struct larder_wish *w) {
  struct buf b;
  if (w->aim != AIM_NEAREST) return larder_aim_word[w->aim];
  buf_init(&b, k->arena, 80);
  buf_adds(&b, "nearest to ");
  for (int i = 0; i < PATTERN_PARTS; i++) {
    if (i > 0) buf_addc(&b, ':');
    num_sig(&b, 100 * w->pattern[i], 4);
  }
  return buf_text(&b);
}

static void set_aim(struct kitchen *k, const struct larder_wish *w, struct compose_request *r) {
  static const enum compose_aim AIM[] = {COMPOSE_CHEAPEST, COMPOSE_LIGHTEST, COMPOSE_LEANEST, COMPOSE_NEAREST};
  r->aim = AIM[w->aim];
  for (int i = 0; i < PATTERN_PARTS && w->aim == AIM_NEAREST; i++) r->pattern[pattern_part[i]] = w->pattern[i];
  k->out->answer.aim = aim_words(k, w);
}

/* ---- texts ------------------------------------------------------------------------------------------------------------ */

/* The larder's lines as those of a recipe: one for each candidate. */
static struct recipe recipe_of(struct kitchen *k, const char *name, const char *for_whom) {
  const struct compose_result *r = k->out->answer.result;
  struct recipe recipe = k->larder->recipe;
  struct recipe_line *line = ARENA_NEW(k->arena, struct recipe_line, r->candidates);
  for (size_t i = 0; i < r->candidates; i++) {
    line[i] = k->larder->line[r->food_of[i]].one;
    line[i].line = (int)i + 1;
    line[i].frequency_stated = r->times_of[i] < CALENDAR_DAYS;
    line[i].times_per_28 = r->times_of[i];
  }
  recipe.name = name;
  recipe.for_whom = for_whom;
  recipe.line = line;
  recipe.line_count = r->candidates;
  return recipe;
}

static const char *print(struct kitchen *k, const struct recipe *recipe, const struct ration *ration) {
  struct buf b;
  buf_init(&b, k->arena, RECIPE_MOST_BYTES);
  recipe_print(k->lib, recipe, ration, &b);
  return buf_text(&b);
}

/* A list of amounts without headers. */
static const char *print_amounts(struct kitchen *k, const double *grams) {
  const struct compose_result *r = k->out->answer.result;
  struct recipe recipe = recipe_of(k, "", "");
  struct ration_line *line = ARENA_NEW(k->arena, struct ration_line, r->candidates);
  struct ration ration = {.name = "", .days = 1, .meals_per_day = NAN, .line = line};
  recipe.cook = STATE_UNSTATED;
  for (size_t i = 0; i < r->candidates; i++) {
    if (!(grams[i] > 0)) continue;
    struct candidate c = k->out->answer.request->food[r->food_of[i]].food;
    ration_spread_days(&c.line, r->times_of[i], 0);
    c.line.line = (int)i + 1;
    line[ration.line_count++] = candidate_line(&c, grams[i]);
  }
  return print(k, &recipe, &ration);
}

static const char *recipe_name(struct kitchen *k, const struct animal *a) {
  struct buf b;
  const char *larder = k->larder->name[0] ? k->larder->name : "Composed";
  buf_init(&b, k->arena, 300);
  buf_adds(&b, larder);
  if (k->out->answer.request->animals > 1 && a->name[0]) buf_addf(&b, ", %s", a->name);
  return buf_text(&b);
}

/* As a kitchen measures it. A powder that is dosed in milligrams is rounded up: it is there for what is short. */
static double measurable(const struct kitchen *k, const struct larder_food *f, double grams) {
  enum unit u = f->line->one.unit;
  const struct img_food *record = library_food(k->lib, f->one.shown_food);
  bool dosed = unit_info[u].kind == UNIT_KIND_MASS && record && record->part == PART_SUPPLEMENT && grams < 1;
  double units = grams / f->unit_g;
  bool parted = unit_info[u].kind == UNIT_KIND_COUNT && fabs(2 * units - round(2 * units)) > 1e-6; /* beaten, and weighed */
  double step = dosed    ? kitchen_floor(UNIT_MG, grams * 1000) / 1000
                : parted ? kitchen_floor(UNIT_G, grams)
                         : kitchen_floor(u, units) * f->unit_g;
  if (!(step > 0)) return grams;
  return dosed ? ceil(grams / step - 1e-9) * step : fmax(1, round(grams / step)) * step;
}

/* A part of the base and a topper, added up. */
static const struct ration *measured(struct kitchen *k, const struct ration *ration) {
  struct ration *out = ARENA_NEW(k->arena, struct ration, 1);
  struct ration_line *line = ARENA_NEW(k->arena, struct ration_line, ration->line_count);
  *out = *ration;
  out->line = line;
  for (size_t i = 0; i < ration->line_count; i++) {
    const struct larder_food *f = &k->food[k->out->answer.result->food_of[ration->line[i].line - 1]];
    struct candidate c = {.line = ration->line[i]};
    double fed = c.line.grams_fed, share = fed > 0 ? measurable(k, f, fed) / fed : 1;
    line[i] = candidate_line(&c, share * ration_line_grams_per_day(&c.line));
  }
  return out;
}

/* The text is read like any other; a note of it is what the answer shows. What promises nothing need not be exact. */
static void write_bowl(struct kitchen *k, const struct compose_bowl *bowl, int index, bool promised,
                       struct composed_bowl *out) {
  struct recipe recipe = recipe_of(k, recipe_name(k, bowl->animal), bowl->animal->name);
  *out =
      (struct composed_bowl){.topper = "", .text = print(k, &recipe, promised ? bowl->ration : measured(k, bowl->ration))};
  struct app_check_request again = {.recipe = {"composed", span_of(out->text)},
                                    .one_off = bowl->animal,
                                    .ask = {.today = k->q->check.ask.today, .check = k->q->check.ask.check}};
  struct app_check_answer a;
  app_check(k->lib, &again, &a, k->arena);
  out->after = a.result;
  out->kept = a.result && model_keeps(k->out->answer.result->program, index, a.result);
  if (k->out->answer.request->animals > 1) out->topper = print_amounts(k, bowl->topper);
}

static const struct composed *write(struct kitchen *k, const struct compose_dish *dish, bool promised) {
  size_t animals = k->out->answer.request->animals;
  struct composed *c = ARENA_NEW(k->arena, struct composed, 1);
  struct composed_bowl *bowl = ARENA_NEW(k->arena, struct composed_bowl, animals);
  *c = (struct composed){.dish = dish, .bowl = bowl, .base = ""};
  for (size_t i = 0; i < animals; i++) write_bowl(k, &dish->bowl[i], (int)i, promised, &bowl[i]);
  if (animals > 1) c->base = print_amounts(k, dish->base);
  return c;
}

/* ---- the use case ------------------------------------------------------------------------------------------------------
 */

static bool read_all(struct kitchen *k, struct larder *larder, struct larder_wish *wish, struct animal **animal,
                     size_t *animals) {
  const struct app_compose_request *q = k->q;
  struct app_compose_answer *out = k->out;
  diags_init(&out->larder_diags, k->arena, q->larder.name, q->larder.text);
  diags_init(&out->animal_diags, k->arena, q->check.animals.name, q->check.animals.text);
  diags_init(&out->aim_diags, k->arena, "the aim", span_of(q->check.ask.aim ? q->check.ask.aim : ""));
  bool fine = larder_parse(q->larder.text, &out->larder_diags, larder, k->arena);
  struct larder_food *food = NULL;
  fine = larder_resolve(k->lib, larder, &out->larder_diags, &food, k->arena) && fine;
  k->food = food;
  *wish = larder->wish;
  if (q->check.ask.aim) fine = larder_aim_read(span_of(q->check.ask.aim), &out->aim_diags, wish, k->arena) && fine;
  *animals = find_animals(k, animal);
  return fine && *animals > 0 && out->animal_diags.errors == 0;
}

static bool all_priced(const struct kitchen *k) {
  for (size_t i = 0; i < k->larder->line_count; i++)
    if (isnan(k->food[i].price_per_g)) return false;
  return true;
}

static bool prices_suffice(struct kitchen *k, const struct larder_wish *wish) {
  k->out->answer.priced = all_priced(k);
  if (wish->aim != AIM_CHEAPEST || k->out->answer.priced) return true;
  for (size_t i = 0; i < k->larder->line_count; i++)
    if (isnan(k->food[i].price_per_g))
      diag_say(&k->out->larder_diags, DIAG_ERROR, DIAG_EMPTY, k->larder->line[i].whole,
               "what does it cost? write it as in '9.80 per kg', '0.06 each' or 'free'");
  return false;
}

/* A text that does not hold what was promised is no answer: it is shown as the nearest. */
static bool all_kept(const struct composed *c, size_t animals) {
  for (size_t i = 0; i < animals; i++)
    if (!c->bowl[i].kept) return false;
  return true;
}

static void hand_over(struct kitchen *k, struct compose_result *r) {
  struct composed_answer *a = &k->out->answer;
  a->result = r;
  if (r->dish) {
    const struct composed *c = write(k, r->dish, true);
    if (all_kept(c, a->request->animals)) {
      a->found = c;
      return;
    }
    r->status = COMPOSE_STOPPED;
    r->proven = false;
    r->nearest = r->dish;
    r->dish = NULL;
  }
  if (r->nearest) a->nearest = write(k, r->nearest, false);
}

static bool measure(struct kitchen *k, struct animal *animal) {
  const struct animal *a = animal;
  if (!app_measure_animal(k->lib, &k->q->check, &a, &k->out->journal_diags, k->arena)) return false;
  if (a != animal) *animal = *a;
  return true;
}

void app_compose(const struct library *lib, const struct app_compose_request *q, struct app_compose_answer *out,
                 struct arena *arena) {
  struct larder *larder = ARENA_NEW(arena, struct larder, 1);
  struct kitchen *k = ARENA_NEW(arena, struct kitchen, 1);
  struct compose_request *r = ARENA_NEW(arena, struct compose_request, 1);
  struct larder_wish wish;
  struct animal *animal = NULL;
  *out = (struct app_compose_answer){.larder = larder};
  *k = (struct kitchen){.lib = lib, .q = q, .larder = larder, .out = out, .arena = arena};
  bool understood = read_all(k, larder, &wish, &animal, &r->animals);
  if (q->check.journal) diags_init(&out->journal_diags, arena, q->check.journal->text.name, q->check.journal->text.text);
  for (size_t i = 0; understood && i < r->animals; i++) understood = measure(k, &animal[i]);
  if (!understood || !prices_suffice(k, &wish)) return;
  out->understood = true;
  r->food = foods_of(k);
  r->foods = larder->line_count;
  r->animal = animal;
  r->options = q->check.ask.check;
  r->limit = limits_of(k);
  r->limits = larder->limit_count;
  r->step = step;
  r->floor = floor_of;
  r->step_user = k;
  r->go_on = q->go_on;
  r->user = q->user;
  set_aim(k, &wish, r);
  struct composed_answer *a = &out->answer;
  a->request = r;
  a->name = larder->name;
  a->currency = larder->currency;
  struct compose_result *result = ARENA_NEW(arena, struct compose_result, 1);
  *result = *compose(lib, r, arena);
  hand_over(k, result);
}
