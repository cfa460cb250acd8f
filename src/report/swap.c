/* What could stand in a line's place: how much of it, what it repairs, what it breaks, what it costs in fat and money. */
#include "report/swap.h"
#include "base/table.h"

#include <math.h>

#include "report/answer.h"

enum { NUMBER_COLUMNS = 4, MOST_NAMED = 6 };

static void say(const struct pen *p, enum ink ink, const char *text) {
  struct prose how = prose_at(MARGIN, ink);
  prose_write(p, &how, text);
}

static const char *names(const struct pen *p, const char *const *item, int n) {
  return n > 0 ? say_list(p, item, n, p->all ? NUT_COUNT : MOST_NAMED) : "";
}

/* Nutrients of a list that are met (or not) in the ration 'r': "zinc and iron"; "" when there are none. Of which there is
 * then too much, not too little, is said. What was not known before is told apart. */
static const char *list_words(const struct pen *p, const struct swapped *s, const struct swapped_hit *h, bool better,
                              const struct check_result *r, bool met) {
  const enum nutrient *list = better ? h->repairs : h->breaks;
  const char *item[NUT_COUNT];
  int n = 0;
  for (size_t i = 0; i < (better ? h->repair_count : h->break_count); i++) {
    if (s->before->nutrient[list[i]].verdict == VERDICT_UNPROVEN) continue;
    if ((r->nutrient[list[i]].verdict == VERDICT_MET) != met) continue;
    const struct nutrient_result *x = &h->after->nutrient[list[i]];
    const char *much = x->verdict == VERDICT_OVER ? " (too much)" : x->close_to_limit ? " (close to its limit)" : "";
    item[n++] = say_text(p, "%s%s", words_nutrient(p->arena, list[i]), much);
  }
  return names(p, item, n);
}

/* What could not be judged before, and then can: of those the ones that then have this verdict. */
static const char *settled_words(const struct pen *p, const struct swapped *s, const struct swapped_hit *h,
                                 enum verdict then) {
  const char *item[NUT_COUNT];
  int n = 0;
  for (int better = 1; better >= 0; better--)
    for (size_t i = 0; i < (better ? h->repair_count : h->break_count); i++) {
      enum nutrient k = (better ? h->repairs : h->breaks)[i];
      bool settled = s->before->nutrient[k].verdict == VERDICT_UNPROVEN && h->after->nutrient[k].verdict == then;
      if (settled) item[n++] = words_nutrient(p->arena, k);
    }
  return names(p, item, n);
}

/* "repairs zinc; helps iron; breaks copper; worsens iodine; settles as met: niacin; settles as short: calcium" */
static const char *effect_words(const struct pen *p, const struct swapped *s, const struct swapped_hit *h) {
  static const struct {
    enum verdict then;
    const char *words;
  } SETTLED[] = {{VERDICT_MET, "met"}, {VERDICT_THIN, "thin"}, {VERDICT_SHORT, "short"}, {VERDICT_OVER, "too much"}};
  const char *repairs = list_words(p, s, h, true, h->after, true), *helps = list_words(p, s, h, true, h->after, false),
             *breaks = list_words(p, s, h, false, s->before, true), *worsens = list_words(p, s, h, false, s->before, false),
             *item[4 + COUNT_OF(SETTLED)];
  int n = 0;
  if (repairs[0]) item[n++] = say_text(p, "repairs %s", repairs);
  if (helps[0]) item[n++] = say_text(p, "helps %s", helps);
  if (breaks[0]) item[n++] = say_text(p, "breaks %s", breaks);
  if (worsens[0]) item[n++] = say_text(p, "worsens %s", worsens);
  for (size_t i = 0; i < COUNT_OF(SETTLED); i++) {
    const char *settled = settled_words(p, s, h, SETTLED[i].then);
    if (settled[0]) item[n++] = say_text(p, "settles as %s: %s", SETTLED[i].words, settled);
  }
  if (n == 0) return "changes no verdict";
  struct buf b;
  buf_init(&b, p->arena, 4096);
  for (int i = 0; i < n; i++) buf_addf(&b, "%s%s", i > 0 ? "; " : "", item[i]);
  return buf_text(&b);
}

/* Grams and kcal of a bowl: tenths below five, then whole ones. */
static const double LEAST_TOLD = 0.25, TO_TENTHS = 5;

static const char *change_words(const struct pen *p, double x, const char *unit, const char *what) {
  if (isnan(x)) return say_text(p, "%s not known", what[0] ? what : "energy");
  if (fabs(x) < LEAST_TOLD) return "";
  double told = fabs(x) < TO_TENTHS ? round(fabs(x) * 10) / 10 : round(fabs(x));
  return say_text(p, "%s %s%s%s", say_with_unit(p, told, unit), x > 0 ? "more" : "less", what[0] ? " " : "", what);
}

static const char *costs(const struct pen *p, const struct swapped *s, const struct swapped_hit *h) {
  const char *item[4];
  size_t n = 0;
  const char *fat = change_words(p, h->fat_g, "g", "fat"), *kcal = change_words(p, h->kcal, "kcal", ""),
             *mass = change_words(p, h->eaten_g, "g", "food");
  if (fat[0]) item[n++] = fat;
  if (s->by_mass && kcal[0] && !s->energy_unknown) item[n++] = kcal; /* said in the title */
  if (!s->by_mass && mass[0]) item[n++] = mass;
  if (!isnan(h->cost)) item[n++] = say_text(p, "%s a day", words_money(p->arena, s->currency, h->cost));
  return n > 0 ? say_list(p, item, (int)n, 4) : "no more fat, no more food";
}

static void write_hit(const struct pen *p, const struct library *lib, const struct swapped *s, size_t i) {
  const struct swapped_hit *h = &s->hit[i];
  int at = MARGIN + NUMBER_COLUMNS + 1, right = p->width - MARGIN;
  struct row r;
  row_start(&r, p);
  row_right(&r, at - 1, NUMBER_COLUMNS, INK_DIM, say_text(p, "%zu", i + 1));
  int pin = row_right(&r, right, right - at, INK_ACCENT, say_text(p, "[%s]", library_code(lib, h->food)));
  const char *grams = say_with_unit(p, h->grams, "g");
  int name = row_put(&r, at, INK_PLAIN, grams) + 1;
  row_end_whole(&r, name, pin - 2 - name, INK_STRONG, library_name(lib, h->food));
  struct prose how = prose_at(at, INK_PLAIN);
  how.right = right;
  prose_write(p, &how, say_text(p, "%s; %s.", effect_words(p, s, h), costs(p, s, h)));
  if (h->thiaminase)
    prose_write(p, &how, "Raw, it is listed as containing an enzyme that destroys thiamin: cook it, or choose another.");
}

static void write_title(const struct pen *p, const struct library *lib, const struct swapped *s) {
  const struct ration_line *l = &s->ration->line[s->line];
  const struct animal *a = s->before->animal;
  heading(p, say_text(p, "In place of %s", words_line(p->arena, lib, s->ration, (int)s->line)),
          say_text(p, "%s g, %s", words_number(p->arena, l->grams_fed),
                   a->name && a->name[0] ? a->name : words_animal(p->arena, a)));
  const char *foods = say_text(p, "%zu %sfoods", s->offered, s->everyday ? "everyday " : "");
  const char *which = s->part ? say_text(p, "%s with the same role in the bowl", foods) : foods;
  const char *by = s->by_mass ? "at equal weight" : "at equal energy";
  const char *why = !s->by_mass || s->asked_by_mass ? ""
                    : s->energy_unknown             ? " (how much energy the line has is not known)"
                                                    : " (the line has no energy to compare)";
  say(p, INK_PLAIN, say_text(p, "%s, %s%s.", which, by, why));
  static const double NO_DAY = 1.5; /* times the need */
  const struct energy_result *e = &s->before->energy;
  if (e->supply_kcal > NO_DAY * e->need.kcal)
    say(p, INK_PLAIN,
        say_text(p,
                 "As written it is %s times the energy of a day (%s of about %s kcal); the grams below are for all of it.",
                 words_number(p->arena, e->supply_kcal / e->need.kcal), words_whole(p->arena, e->supply_kcal),
                 words_whole(p->arena, e->need.kcal)));
  if (s->possible < s->offered && s->by_mass)
    say(p, INK_DIM, say_text(p, "%zu are left out: that is more of them than people feed.", s->offered - s->possible));
  if (s->possible < s->offered && !s->by_mass)
    say(p, INK_DIM,
        say_text(p,
                 "%zu are left out: they have no energy or none that is known, it would take more of them than people feed, "
                 "or more than %d times the weight.",
                 s->offered - s->possible,
                 s->before->nutrient[NUT_FAT].verdict == VERDICT_OVER ? SWAP_BULK_OF_LEAN : SWAP_BULK));
}

void report_swap(const struct library *lib, const struct swapped *s, const struct report_style *style, struct buf *out) {
  struct pen pen = pen_start(style, out);
  struct view v = {pen, lib, s->before};
  if (s->refused) {
    answer_title(&v);
    answer_refusal(&v);
    struct prose how = prose_at(MARGIN, INK_PLAIN);
    prose_write(&pen, &how, "'bowlwright check' shows it; no food is ranked for this animal.");
    return;
  }
  static const char *const PART[] = {"All others, the best first:", "Others that most shops sell, the best first:",
                                     "Close to it, the best first:"}; /* ORDER swap_near */
  ROW_FOR_EACH(PART, SWAP_NEARS);
  write_title(&pen, lib, s);
  blank_line(&pen);
  for (size_t i = 0; i < s->count; i++) {
    if (i == 0 || s->hit[i].near != s->hit[i - 1].near) say(&pen, INK_DIM, PART[s->hit[i].near]);
    write_hit(&pen, lib, s, i);
  }
  if (s->count == 0) say(&pen, INK_PLAIN, "No food of the library can take its place.");
}
