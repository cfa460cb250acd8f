/* plate_first.c: the proportions of a dinner set right (change/plate.h), written into its text before anything is looked
 * for. A line that goes becomes blank, so that all others keep their numbers. */
#include <math.h>

#include "app/app_parts.h"
#include "app/mend_parts.h"
#include "change/plate.h"
#include "words/words.h"

static double wanted_kcal(const struct app_mend_request *q, const struct check_result *before) {
  double supply = before->energy.supply_kcal, need = before->energy.need.kcal;
  if (q->check.ask.kcal > 0) return q->check.ask.kcal;
  return mend_size_fits(before) ? fmin(supply, need) : need;
}

/* To steps that a kitchen measures; what stays does not vanish. */
static double measured(const struct mend_own *own, double grams) {
  double step = own->whole > 0 ? own->whole : own->step;
  return step > 0 && grams > 0 ? fmax(step, round(grams / step) * step) : grams;
}

/* "300 g pork belly, raw" -> "140 g pork tenderloin, raw [usda:10218]" */
static const char *leaner_line(const struct text_edit *e, struct span whole, const struct ration_line *l, uint32_t food,
                               double grams) {
  const char *name = plate_name(e->lib, food);
  const struct img_food *f = library_food(e->lib, food);
  struct span line = span_trim(whole);
  bool bullet = line.n > 2 && (line.p[0] == '-' || line.p[0] == '*') && line.p[1] == ' ', daily = l->frequency_stated;
  double amount = grams * (daily || !(e->recipe->days > 0) ? 1 : e->recipe->days), step = kitchen_step(UNIT_G, amount);
  struct buf b;
  buf_init(&b, e->arena, LINE_MOST_BYTES);
  if (bullet) buf_addf(&b, "%c ", line.p[0]);
  kitchen_amount(&b, UNIT_G, fmax(step, round(amount / step) * step));
  buf_addf(&b, " g %s%s [%s]%s", name ? name : library_name(e->lib, food),
           f->state == STATE_RAW && e->recipe->cook == STATE_UNSTATED ? ", raw" : "", library_code(e->lib, food),
           daily ? ", daily" : "");
  return buf_text(&b);
}

static const char *name_of(const struct text_edit *e, uint32_t food) {
  const char *name = plate_name(e->lib, food);
  return name ? name : words_food(e->arena, e->lib, food);
}

/* ---- in words --------------------------------------------------------------------------------------------------------- */

static const char *exchanges(const struct text_edit *e, const struct plate *p) {
  enum { TOLD_MOST = 4 };
  const char *item[TOLD_MOST];
  size_t n = 0;
  for (size_t i = 0; i < e->ration->line_count && n < COUNT_OF(item); i++)
    if (p->lean[i] != NO_INDEX)
      item[n++] = words_text(e->arena, "%s in place of the %s", name_of(e, p->lean[i]),
                             arena_text(e->arena, recipe_line_of(e->recipe, e->ration->line[i].line)->food));
  return words_list(e->arena, item, n, n);
}

/* What is wrong with the whole, and what is done about it first. */
static const char *first_words(const struct text_edit *e, const struct plate *p, double kcal) {
  const char *one_day = p->times < 1 ? words_text(e->arena, " Amounts are for %s kcal a day, %s of what is written.",
                                                  words_whole(e->arena, kcal), words_share(e->arena, p->times))
                                     : "";
  if (p->tuna_g > 0)
    return words_text(e->arena,
                      "Tuna is not a food for every day: the mercury of %s g a day adds up in a cat. So first %s; a portion of tuna "
                      "once a week does no harm, sardines or salmon are other fish.%s",
                      words_whole(e->arena, p->tuna_g), exchanges(e, p), one_day);
  if (p->of_fat > 0)
    return words_text(e->arena, "Fat supplies %s of the energy, more than the upper limit. So first %s.%s",
                      words_share(e->arena, p->of_fat), exchanges(e, p), one_day);
  const char *liver = p->of_liver > 0 ? words_text(e->arena,
                                                   "Liver is %s of the food, many times what is usual. So it is cut first, "
                                                   "and the meat takes its place.",
                                                   words_share(e->arena, p->of_liver))
                                      : "",
             *watery = p->of_watery > 0
                           ? words_text(e->arena,
                                        "Vegetables and fruit are %s of the food; enough energy from this same food would "
                                        "weigh %s g a day. So they are cut first, and the meat is raised.",
                                        words_share(e->arena, p->of_watery), words_whole(e->arena, p->would_weigh_g))
                           : "";
  return words_text(e->arena, "%s%s%s%s", watery, watery[0] && liver[0] ? " " : "", liver, one_day);
}

/* ---- the text --------------------------------------------------------------------------------------------------------- */

/* Line by line; false when a line cannot be written so. */
static bool write_lines(const struct text_edit *e, const struct plate *p, const struct mend_own *own, struct buf *text,
                        struct plate_line *changed, size_t *count) {
  struct span rest = e->q->check.recipe.text;
  for (int number = 1; rest.n > 0; number++) {
    struct span whole = span_piece(&rest, '\n');
    if (whole.n > 0 && whole.p[whole.n - 1] == '\r') whole.n--;
    const char *is = arena_text(e->arena, whole), *was = is;
    const struct recipe_line *words = recipe_line_of(e->recipe, number);
    for (size_t i = 0; words && i < e->ration->line_count; i++) {
      const struct ration_line *l = &e->ration->line[i];
      double g = ration_line_grams_per_day(l), to = measured(&own[i], p->to_g[i]);
      if (l->line != number || !(g > 0) || own[i].keep) continue;
      if (p->lean[i] != NO_INDEX)
        is = leaner_line(e, whole, l, p->lean[i], p->to_g[i]);
      else if (!(to > 0))
        is = "";
      else if (fabs(to / g - 1) > 1e-6)
        is = text_line_times(e, whole, words, to / g);
    }
    if (words && strcmp(is, was) != 0)
      changed[(*count)++] = (struct plate_line){number, was, is, arena_text(e->arena, words->food)};
    buf_addf(text, "%s\n", is);
  }
  return *count > 0;
}

bool plate_first(const struct text_edit *e, const struct mend_own *own, const struct check_result *before,
                 struct app_mend_request *q, struct mended_answer *out) {
  struct plate plate;
  bool *keep = ARENA_NEW(e->arena, bool, e->ration->line_count + 1);
  for (size_t i = 0; i < e->ration->line_count; i++) keep[i] = own[i].keep;
  struct plate_request ask = {.ration = e->ration,
                              .before = before,
                              .kcal = wanted_kcal(q, before),
                              .keep = keep,
                              .never = q->check.ask.never.item,
                              .nevers = q->check.ask.never.count};
  struct buf text;
  struct plate_line *changed = ARENA_NEW(e->arena, struct plate_line, e->recipe->line_count + 1);
  size_t count = 0;
  if (!plate_right(e->lib, &ask, &plate, e->arena)) return false;
  buf_init(&text, e->arena, 2 * RECIPE_MOST_BYTES);
  if (!write_lines(e, &plate, own, &text, changed, &count)) return false;
  out->plate = changed;
  out->plate_count = count;
  out->plate_words = first_words(e, &plate, ask.kcal);
  q->check.recipe.text = span_of(buf_text(&text));
  return true;
}
