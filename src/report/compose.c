/* A composed recipe: the text, what it costs, how every nutrient stands; or why there is none, what comes nearest and what
 * would help. */
#include "report/compose.h"

#include <math.h>

#include "report/answer.h"
#include "report/helps.h"
#include "report/review_left.h"

struct scene {
  struct pen pen;
  const struct library *lib;
  const struct composed_answer *a;
};

static void say(const struct pen *p, enum ink ink, const char *text) {
  struct prose how = prose_at(MARGIN, ink);
  prose_write(p, &how, text);
}

/* ---- texts --------------------------------------------------------------------------------------------------------- */

static void write_lines(const struct pen *p, const char *text, enum ink ink) {
  struct span rest = span_of(text);
  while (rest.n > 0) {
    struct row r;
    row_start(&r, p);
    row_end_kept(&r, MARGIN, ink, arena_text(p->arena, span_piece(&rest, '\n')));
  }
}

static const char *money(const struct scene *x, double amount) { return words_money(x->pen.arena, x->a->currency, amount); }

/* ", at a cost of £2.10 a day (£14.70 a week)"; where only some foods have a price, which have none. */
static const char *cost_words(const struct scene *x, const struct compose_dish *d) {
  const struct pen *p = &x->pen;
  const struct compose_request *q = x->a->request;
  const char *none[3];
  int without = 0;
  bool any = false;
  for (size_t i = 0; i < q->foods; i++) any |= !isnan(q->food[i].price);
  if (!any) return "";
  if (!isnan(d->cost)) return say_text(p, ", at a cost of %s a day (%s a week)", money(x, d->cost), money(x, 7 * d->cost));
  for (size_t i = 0; i < x->a->result->candidates && without < (int)COUNT_OF(none); i++) {
    const struct compose_food *f = &q->food[x->a->result->food_of[i]];
    if (isnan(f->price) && d->base[i] > 0) none[without++] = f->food.name;
  }
  return say_text(p, ", at a cost that is not known%s%s", without > 0 ? ": there is no price for " : "",
                  without > 0 ? say_list(p, none, without, without) : "");
}

static const char *sum_words(const struct scene *x, const struct compose_dish *d) {
  const struct pen *p = &x->pen;
  const char *cost = cost_words(x, d);
  return say_text(p, "%s g of food a day%s; aim: %s.", words_number(p->arena, d->grams), cost, x->a->aim);
}

/* "412 g of the base (38.2 %) and on top:" */
static void write_portions(const struct scene *x, const struct composed *c) {
  const struct pen *p = &x->pen;
  heading(p, "The base, for all of them in a day", "");
  write_lines(p, c->base, INK_STRONG);
  for (size_t i = 0; i < x->a->request->animals; i++) {
    const struct compose_bowl *b = &c->dish->bowl[i];
    double grams = 0;
    for (size_t k = 0; k < x->a->result->candidates; k++) grams += b->base[k];
    heading(p, b->animal->name, say_text(p, "%s kcal a day", words_whole(p->arena, b->after->energy.supply_kcal)));
    bool topped = c->bowl[i].topper[0] != '\0';
    say(p, INK_PLAIN,
        say_text(p, "%s g of the base (%s %%)%s", words_number(p->arena, grams), words_number(p->arena, 100 * b->share),
                 topped ? ", and on top of it:" : ", and nothing on top of it."));
    write_lines(p, c->bowl[i].topper, INK_STRONG);
  }
}

static void write_gap(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct compose_result *r = x->a->result;
  if (r->status == COMPOSE_STOPPED && r->dish)
    say(p, INK_PLAIN, "The search was stopped: everything is met, but a better recipe may exist.");
  else if (!r->proven && r->dish)
    say(p, INK_DIM, "Everything is met; whether a better recipe exists is not settled.");
  double gap = r->dish && r->objective > 0 ? (r->objective - r->bound) / r->objective : 0;
  if (r->dish && gap > 1e-4) say(p, INK_PLAIN, say_text(p, "None can be better by more than %s.", say_percent(p, gap)));
  if (r->dish && !r->dish->rounded && x->a->request->step)
    say(p, INK_DIM, "Not every amount could be rounded to what a kitchen scale shows without missing a need.");
}

static void write_figures(const struct scene *x, const struct composed_bowl *b) {
  struct view v = {x->pen, x->lib, b->after};
  answer_verdict(&v);
  answer_rails(&v);
}

/* Pure substances by the speck: right on paper, but nobody weighs that at home. */
static void write_specks(const struct scene *x, const struct compose_dish *d) {
  static const double LEAST_WEIGHED_G = 0.02;
  const struct pen *p = &x->pen;
  const char *item[64];
  int n = 0;
  for (size_t i = 0; i < x->a->result->candidates && n < (int)COUNT_OF(item); i++) {
    double g = d->base[i];
    if (g > 0 && g < LEAST_WEIGHED_G) item[n++] = x->a->request->food[x->a->result->food_of[i]].food.name;
  }
  if (n == 0) return;
  blank_line(p);
  say(p, INK_PLAIN,
      say_text(
          p,
          "Too little to weigh out for one day: %s. Weigh it once for many days, or use a capsule or drops that hold as "
          "much.",
          say_list(p, item, n, n)));
}

/* Whose need is not that of the equation. */
static void write_measured(const struct scene *x) {
  const struct pen *p = &x->pen;
  for (size_t i = 0; i < x->a->request->animals; i++) {
    const struct animal *a = &x->a->request->animal[i];
    if (!a->measured) continue;
    say(p, INK_PLAIN,
        say_text(p, "%s needs %s kcal a day (between %s and %s), %s.", words_called(a),
                 words_whole(p->arena, a->measured->kcal), words_whole(p->arena, a->measured->low_kcal),
                 words_whole(p->arena, a->measured->high_kcal), a->measured->from));
  }
}

/* Foods of which less is used than the amounts alone would ask for. */
static void write_energy_unknown(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct compose_result *r = x->a->result;
  int n = (int)r->energy_unknown_count;
  if (n == 0 || r->conflict.energy_unknown) return; /* told as the reason */
  say(p, INK_PLAIN,
      say_text(p,
               "How much energy is in %s is not known, so no more of %s is used than leaves the energy of the bowl known. "
               "State %s kcal, or the protein, fat and carbohydrate.",
               say_list(p, r->energy_unknown, n, n), n == 1 ? "it" : "them", n == 1 ? "its" : "their"));
}

static void write_found(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct composed *c = x->a->found;
  bool household = x->a->request->animals > 1;
  heading(p, x->a->name[0] ? say_text(p, "From %s", x->a->name) : "Composed", "");
  say(p, INK_PLAIN, sum_words(x, c->dish));
  write_measured(x);
  write_energy_unknown(x);
  write_gap(x);
  if (household) {
    write_portions(x, c);
  } else {
    blank_line(p);
    write_lines(p, c->bowl[0].text, INK_STRONG);
  }
  write_specks(x, c->dish);
  for (size_t i = 0; i < x->a->request->animals; i++) {
    if (p->all || !household) write_figures(x, &c->bowl[i]);
    say_review_left(p, NULL, c->bowl[i].after, household ? c->dish->bowl[i].animal->name : "");
  }
  if (household && !p->all) {
    blank_line(p);
    say(p, INK_DIM, "Every nutrient is met for each of them; --all shows every nutrient, --json the recipe of each bowl.");
  }
}

/* ---- none ------------------------------------------------------------------------------------------------------------ */

static void write_conflict(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct compose_conflict *c = &x->a->result->conflict;
  if (c->sentence && c->sentence[0]) say(p, INK_STRONG, c->sentence);
  if (c->energy_unknown && c->sentence[0]) return; /* which limits that touches is no news */
  if (c->count == 0) {
    say(p, INK_PLAIN, "There was no time to work out which limits contradict each other.");
    return;
  }
  say(p, INK_PLAIN,
      c->by_counting ? "These cannot all be kept, with whole pieces and the number of foods as they are; without any one of "
                       "them the others can:"
      : c->count == 1 ? "This cannot be kept with the foods of the larder:"
                      : "These cannot all be kept; without any one of them the others can:");
  for (size_t i = 0; i < c->count; i++) {
    struct prose how = prose_at(MARGIN + 2, INK_PLAIN);
    how.indent = MARGIN + 4;
    prose_write(p, &how, say_text(p, "%s %s", pen_glyph(p, G_DASH), c->words[i]));
  }
}

enum { WANTING_SHOWN = 12 };

/* "zinc short (8.12 of 17.5 mg)"; where the figures look alike the chance tells them apart. */
static const char *wanting_words(const struct pen *p, const struct nutrient_result *r) {
  static const double ALIKE = 0.995;
  const char *name = words_nutrient(p->arena, r->id), *word = verdict_word[r->verdict], *unit = nutrient_info[r->id].unit;
  bool much = r->verdict == VERDICT_OVER || r->close_to_limit;
  if (!much && isnan(r->window_amount))
    return say_text(p, "%s %s (not known; %s needed)", name, word, say_with_unit(p, r->allowance, unit));
  bool unsure = r->verdict == VERDICT_THIN && !much && r->window_amount >= ALIKE * r->allowance;
  return say_text(p, "%s %s (%s of %s%s%s%s)", name, word, words_number(p->arena, much ? r->window_high : r->window_amount),
                  much ? "at most " : "", say_with_unit(p, much ? r->upper : r->allowance, unit), unsure ? ", chance " : "",
                  unsure ? say_chance(p, r->chance_met) : "");
}

static void write_wanting(const struct scene *x, const struct composed_bowl *b) {
  const struct pen *p = &x->pen;
  const char *item[NUT_COUNT];
  int n = 0;
  for (int i = 0; b->after && i < NUT_COUNT; i++) {
    const struct nutrient_result *r = &b->after->nutrient[i];
    if (r->verdict != VERDICT_MET && r->verdict != VERDICT_NO_FIGURE) item[n++] = wanting_words(p, r);
  }
  bool empty = !b->after || !(b->after->energy.grams_per_day > 0);
  say(p, INK_PLAIN,
      empty   ? "There is nothing in it: under these limits no food of the larder can be used."
      : n > 0 ? say_text(p, "In it: %s.", say_list(p, item, n, p->all ? NUT_COUNT : WANTING_SHOWN))
      : x->a->result->nearest_missed_count > 0 ? "Every nutrient is met in it; what it does not keep stands above."
                                               : "Every nutrient is met in it.");
}

/* "Not kept: Food: at most 300 g a day." */
static void write_missed(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct compose_result *r = x->a->result;
  const char **item = ARENA_NEW(p->arena, const char *, r->nearest_missed_count + 1);
  for (size_t i = 0; i < r->nearest_missed_count; i++) item[i] = say_text(p, "“%s”", r->nearest_missed[i]);
  if (r->nearest_missed_count > 0)
    say(p, INK_PLAIN, say_text(p, "Not kept: %s.", say_list(p, item, (int)r->nearest_missed_count, WANTING_SHOWN)));
}

static void write_nearest(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct composed *c = x->a->nearest;
  if (!c) return;
  heading(p, "The nearest", "it does not keep everything");
  if (!x->a->result->nearest_counted)
    say(p, INK_DIM, "Whole pieces, 'if used' and the number of foods are left aside in it.");
  write_missed(x);
  for (size_t i = 0; i < x->a->request->animals; i++) {
    write_wanting(x, &c->bowl[i]);
    if (!c->bowl[i].after) continue;
    blank_line(p);
    write_lines(p, c->bowl[i].text, INK_PLAIN);
  }
}

static void write_raises(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct compose_conflict *c = &x->a->result->conflict;
  const char *item[4];
  int n = 0;
  for (size_t i = 0; i < c->count && n < (int)COUNT_OF(item); i++)
    if (c->own[i]) item[n++] = say_text(p, "\"%s\"", c->words[i]);
  if (n > 0) say(p, INK_PLAIN, say_text(p, "Or ease a range of your own: %s.", say_list(p, item, n, n)));
}

static void write_help(const struct scene *x) {
  const struct pen *p = &x->pen;
  const struct compose_result *r = x->a->result;
  if (r->help.count == 0) {
    write_raises(x);
    return;
  }
  const char *where = x->a->request->animals == 1 ? ""
                      : r->help_for               ? say_text(p, ", on top for %s", r->help_for->name)
                                                  : ", in the base";
  heading(p, "What would help", say_text(p, "foods that are not in the larder%s", where));
  say_helps(p, x->lib, &r->help);
  write_raises(x);
}

static void write_none(const struct scene *x) {
  const struct pen *p = &x->pen;
  bool stopped = x->a->result->status == COMPOSE_STOPPED;
  heading(p, stopped ? "No recipe yet" : "No recipe",
          stopped                                 ? "the search ended before one was found"
          : x->a->result->conflict.energy_unknown ? "not every food has a known energy"
          : x->a->result->proven                  ? "none exists under these limits"
                                                  : "none was found under these limits");
  write_energy_unknown(x);
  if (!stopped) write_conflict(x);
  if (x->a->result->conflict.energy_unknown) return;
  if (x->a->result->cut_short)
    say(p, INK_PLAIN,
        "There was no time to look further: a nearer recipe may exist, and the search for what would help was not finished. "
        "Give it longer with --patience.");
  const struct compose_dish *nearest = x->a->nearest ? x->a->nearest->dish : NULL;
  if (x->a->result->conflict.no_meal && nearest && nearest->grams > 0) { /* what such a bowl lacks is no news */
    write_raises(x);
    return;
  }
  write_nearest(x);
  write_help(x);
}

/* ---- all of it ---------------------------------------------------------------------------------------------------------
 */

static void write_refused(const struct scene *x) {
  const struct animal *a = x->a->result->refused;
  enum refusal r = animal_refusal(a);
  heading(&x->pen, "No recipe", words_animal(x->pen.arena, a));
  say(&x->pen, INK_STRONG, refusal_text(r));
  say(&x->pen, INK_PLAIN, refusal_ask(r));
  say(&x->pen, INK_PLAIN, "'bowlwright check' shows what a recipe contains; none is composed for this animal.");
}

void report_compose(const struct library *lib, const struct composed_answer *a, const struct report_style *style,
                    struct buf *out) {
  struct scene x = {pen_start(style, out), lib, a};
  if (a->result->status == COMPOSE_REFUSED)
    write_refused(&x);
  else if (a->result->status == COMPOSE_NOT_LINEAR)
    say(&x.pen, INK_PLAIN, "Energy counted this way cannot be planned with; compose with the default way of counting it.");
  else if (a->found)
    write_found(&x);
  else
    write_none(&x);
}
