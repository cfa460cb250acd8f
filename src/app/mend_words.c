/* mend_words.c: a proposal in a sentence, and what it asks of the owner beyond the usual. */
#include <math.h>

#include "app/mend_parts.h"
#include "base/num.h"

struct tally {
  int own, added;
  double grams; /* a day, weighed or counted as food */
  double pills; /* a day, of what is given every day */
  double pills_on_average;
  int now_and_then; /* pills that are given less often */
};

static bool is_pill(const struct text_edit *e, const struct mend_change *c) {
  uint32_t food = e->offers->offer[c->offer].food.line.shown_food;
  enum unit u = e->offers->text[c->offer].unit;
  return u == UNIT_SOFTGEL || (library_food(e->lib, food)->part == PART_SUPPLEMENT && unit_info[u].kind == UNIT_KIND_COUNT);
}

static double pills_a_day(const struct text_edit *e, const struct mend_change *c) {
  const struct offer_text *t = &e->offers->text[c->offer];
  const struct ration_line *l = &e->offers->offer[c->offer].food.line;
  double a_feeding = t->unit_g > 0 ? c->to_g * t->per_day / t->unit_g : 0;
  bool potted = l->times_per_28 >= CALENDAR_DAYS && !t->frequency[0];
  return potted ? a_feeding / (e->recipe->days > 0 ? e->recipe->days : 1) : a_feeding * l->times_per_28 / CALENDAR_DAYS;
}

static struct tally tally_of(const struct text_edit *e, const struct mend_proposal *p) {
  struct tally t = {0};
  for (size_t i = 0; i < p->count; i++) {
    const struct mend_change *c = &p->change[i];
    t.own += c->line >= 0;
    t.added += c->line < 0;
    if (c->line >= 0) continue;
    bool rare = e->offers->offer[c->offer].food.line.times_per_28 < CALENDAR_DAYS;
    if (is_pill(e, c)) t.pills_on_average += pills_a_day(e, c);
    if (is_pill(e, c) && rare)
      t.now_and_then++;
    else if (is_pill(e, c))
      t.pills += pills_a_day(e, c);
    else
      t.grams += c->to_g;
  }
  return t;
}

static void add_lines(struct buf *b, int n, const char *one, const char *many) {
  buf_addf(b, "%d line%s %s", n, n == 1 ? "" : "s", n == 1 ? one : many);
}

/* " (64 g and 2 pills or drops a day, 1 more now and then)" */
static void add_daily(struct buf *b, const struct tally *t) {
  bool daily = t->grams > 0 || t->pills > 0;
  if (!daily && t->now_and_then == 0) return;
  buf_adds(b, " (");
  if (t->grams > 0) num_sig(b, t->grams >= 100 ? round(t->grams) : t->grams, t->grams >= 100 ? 6 : 2);
  if (t->grams > 0) buf_adds(b, " g");
  if (t->grams > 0 && t->pills > 0) buf_adds(b, " and ");
  if (t->pills > 0) num_sig(b, t->pills, 2);
  const char *many = t->pills >= 1.05 ? "s" : ""; /* as two figures show it */
  if (t->pills > 0) buf_addf(b, " pill%s or drop%s", many, many);
  if (daily) buf_adds(b, " a day");
  if (t->now_and_then > 0 && t->pills > 0) buf_addf(b, ", %d more now and then", t->now_and_then);
  if (t->now_and_then > 0 && !(t->pills > 0))
    buf_addf(b, "%s%d pill%s or drop%s now and then", daily ? ", " : "", t->now_and_then, t->now_and_then > 1 ? "s" : "",
             t->now_and_then > 1 ? "s" : "");
  buf_addc(b, ')');
}

/* "7 lines are added (64 g and 2 pills or drops a day), 1 of your lines changes; 1420 kcal a day." */
static const char *summary_words(const struct text_edit *e, struct mended *m) {
  struct tally t = tally_of(e, m->proposal);
  m->pills = t.pills_on_average;
  struct buf b;
  buf_init(&b, e->arena, 400);
  if (t.added > 0) add_lines(&b, t.added, "is added", "are added");
  add_daily(&b, &t);
  if (t.own > 0) buf_addf(&b, "%s%d of your lines %s", t.added > 0 ? ", " : "", t.own, t.own == 1 ? "changes" : "change");
  buf_adds(&b, "; ");
  num_fixed(&b, m->after->energy.supply_kcal, 0);
  buf_addf(&b, " kcal a day; %s.", m->ask_count > 0 ? "beyond the usual: see below" : "nothing beyond the usual portions");
  return buf_text(&b);
}

static const char *mass_words(const struct text_edit *e, double grams) {
  struct buf b;
  buf_init(&b, e->arena, 60);
  double shown = grams >= 10 ? round(grams) : round(grams * 10) / 10;
  kitchen_mass(&b, shown > 0 ? shown : grams);
  return buf_text(&b);
}

static const char *ask_words(const struct text_edit *e, const struct mended *m, size_t i) {
  const struct mend_change *c = &m->proposal->change[i];
  struct buf b;
  buf_init(&b, e->arena, 400);
  if (c->line >= 0 && c->to_g < c->from_g)
    buf_addf(&b, "%s cut to %s a day (by more than a third)", m->food[i], mass_words(e, c->to_g));
  else
    buf_addf(&b, "%s, %s a day (%s is usual)", m->food[i], mass_words(e, c->to_g), mass_words(e, c->usual_most));
  if (c->line >= 0 && !(c->to_g > 0)) {
    buf_init(&b, e->arena, 400);
    buf_addf(&b, "%s left out", m->food[i]);
  }
  return buf_text(&b);
}

/* What is shown as the same amount, as kitchens measure it, is no more than usual. */
static bool asks_more(const struct text_edit *e, const struct mend_change *c) {
  if (isnan(c->usual_most) || c->danger) return false;
  bool cut = c->line >= 0 && c->to_g < c->from_g;
  return cut || strcmp(mass_words(e, c->to_g), mass_words(e, c->usual_most)) != 0;
}

void mend_words(const struct text_edit *e, struct mended *m) {
  const struct mend_proposal *p = m->proposal;
  m->asks = ARENA_NEW(e->arena, const char *, p->count + 1);
  m->ask_count = 0;
  for (size_t i = 0; i < p->count; i++)
    if (asks_more(e, &p->change[i])) m->asks[m->ask_count++] = ask_words(e, m, i);
  m->summary = summary_words(e, m);
}
