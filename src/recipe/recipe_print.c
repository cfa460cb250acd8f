/* A ration written back as a recipe. Counted things stay counted as long as that reads back to the same grams; everything
 * else is printed in grams. Each line is read again before it is let out, so that what is printed is what was meant. */
#include <math.h>

#include "base/num.h"
#include "recipe/recipe_food.h"
#include "recipe/recipe_line.h"

enum { DIGITS = 12, LINE_BYTES = LINE_MOST_BYTES };

struct printer {
  const struct library *lib;
  const struct recipe *recipe;
  struct buf *out;
};

/* What stands in front: "2 large", "120-140 g". */
struct written {
  double amount, low, high;
  bool counted;
  bool raw_weight;
};

static void number(struct buf *b, double x) { num_sig(b, x, DIGITS); }

static void add(struct buf *b, const char *s) { buf_addf(b, ", %s", s); }

void recipe_print_frequency(struct buf *b, double times) {
  if (times >= CALENDAR_DAYS) {
    add(b, "daily");
  } else if (times == CALENDAR_DAYS / 2) {
    add(b, "every other day");
  } else if (times == 1) {
    add(b, "once a month");
  } else if (times == 2) {
    add(b, "every 2 weeks");
  } else if (times == 4) {
    add(b, "weekly");
  } else if (times == 8) {
    add(b, "twice a week");
  } else if (fmod(times, 4) == 0) {
    buf_addf(b, ", %d times a week", (int)(times / 4));
  } else {
    buf_adds(b, ", every ");
    number(b, CALENDAR_DAYS / times);
    buf_adds(b, " days");
  }
}

static void print_qualifiers(struct buf *b, const struct recipe_line *l, bool raw_weight) {
  const struct search_wish *w = &l->wish;
  if (raw_weight) add(b, "raw weight");
  if (l->cooked_weight) add(b, "cooked weight");
  if (l->state != STATE_UNSTATED) add(b, state_word[l->state]);
  if (w->bone_in >= 0) add(b, w->bone_in ? "bone-in" : "boneless");
  if (w->skin >= 0) add(b, w->skin ? "skin on" : "skinless");
  if (w->lean) add(b, "lean");
  if (w->lean_percent >= 0) {
    buf_adds(b, ", ");
    number(b, w->lean_percent);
    buf_adds(b, "% lean");
  }
  if (w->drained)
    add(b, "drained");
  else if (l->broth >= 0)
    add(b, l->broth ? "with broth" : "without broth");
}

static void print_amount(struct buf *b, const struct recipe_line *l, struct written w) {
  static const double LITTLE_G = 0.1, MG_PER_G = 1000;
  bool little = !w.counted && w.high > 0 && w.high < LITTLE_G;
  double factor = little ? MG_PER_G : 1;
  number(b, w.low * factor);
  if (w.high > w.low) {
    buf_addc(b, '-');
    number(b, w.high * factor);
  }
  if (!w.counted) {
    buf_adds(b, little ? " mg" : " g");
    return;
  }
  if (l->unit_at.n > 0) {
    buf_addc(b, ' ');
    buf_add(b, l->unit_at);
  }
  if (l->package_g > 0) {
    buf_adds(b, " (");
    number(b, l->package_g);
    buf_adds(b, " g each)");
  }
}

/* 'named': with the food's own words in front of the pin. */
static struct span line_text(struct printer *p, const struct recipe_line *l, const struct ration_line *r, struct written w,
                             bool named) {
  struct buf b;
  buf_init(&b, p->out->arena, LINE_BYTES);
  print_amount(&b, l, w);
  if (named && l->food.n > 0) buf_addf(&b, " %.*s", SPAN_ARG(l->food));
  if (w.counted && !isnan(l->dose)) {
    buf_adds(&b, ", ");
    number(&b, l->dose);
    buf_addf(&b, " %s", unit_info[l->dose_unit].word);
  }
  print_qualifiers(&b, l, w.raw_weight);
  if (l->days > 0) {
    buf_adds(&b, ", on ");
    frequency_print_days(&b, l->days);
  } else if (l->frequency_stated) {
    recipe_print_frequency(&b, l->times_per_28);
  }
  buf_addf(&b, " [%s]", library_code(p->lib, r->shown_food));
  return buf_span(&b);
}

/* ---- is it the same? ---- */

static bool same(double a, double b) { return fabs(a - b) <= 1e-9 * fmax(fabs(a), fabs(b)); }

static bool same_line(const struct ration_line *a, const struct ration_line *b) {
  if (a->part_count != b->part_count || a->state != b->state || !same(a->grams_fed, b->grams_fed)) return false;
  for (int i = 0; i < a->part_count; i++)
    if (a->part[i].food != b->part[i].food || a->part[i].retention != b->part[i].retention ||
        !same(a->part[i].grams, b->part[i].grams))
      return false;
  return true;
}

/* Reads the printed line as a recipe's reader would, under the same headers. */
static bool reads_back(struct printer *p, struct span text, const struct recipe_line *from, const struct ration_line *wanted,
                       struct ration_line *got) {
  struct arena *arena = p->out->arena;
  struct diags d;
  struct recipe_line line;
  diags_init(&d, arena, "", text);
  struct line_reader reader = {.out = &line, .d = &d, .arena = arena};
  if (!recipe_line_read(&reader, text, 1) || d.errors > 0) return false;
  if (reader.often.feedings != 1 || reader.often.each_meal || reader.often.per_28 > 0 || line.days != from->days ||
      line.frequency_stated != from->frequency_stated)
    return false;
  if (!same(line.times_per_28, from->times_per_28)) return false;
  return resolve_line(p->lib, p->recipe, &line, &d, got, arena) && same_line(got, wanted);
}

static double recipe_share(const struct printer *p, const struct recipe_line *l) {
  return l->frequency_stated ? 1 : p->recipe->days;
}

/* ---- lines ---- */

static struct written as_counted(const struct recipe_line *l, double factor) {
  return (struct written){l->amount * factor, l->amount_low * factor, l->amount_high * factor, true, l->raw_weight};
}

/* Grams as they were weighed: raw when the line says so or when pieces were counted, else as fed. */
static struct written as_grams(const struct printer *p, const struct recipe_line *l, const struct ration_line *r) {
  double raw = 0;
  for (int i = 0; i < r->part_count; i++) raw += r->part[i].grams;
  bool counted = unit_info[l->unit].kind == UNIT_KIND_COUNT;
  bool weighed_raw = l->raw_weight || (counted && r->part[0].retention >= 0) || (counted && !same(raw, r->grams_fed));
  double grams = (weighed_raw ? raw : r->grams_fed) * recipe_share(p, l), low = 1, high = 1;
  if (l->amount > 0) {
    low = l->amount_low / l->amount;
    high = l->amount_high / l->amount;
  }
  return (struct written){grams, grams * low, grams * high, false, weighed_raw};
}

/* A pin without words gets the record's name as a remark. */
static void finish_line(struct printer *p, struct span text, const struct recipe_line *l, const struct ration_line *r,
                        bool named) {
  buf_add(p->out, text);
  if (!named || l->food.n == 0) buf_addf(p->out, " # %s", library_name(p->lib, r->shown_food));
  buf_addc(p->out, '\n');
}

static void print_line(struct printer *p, const struct recipe_line *l, const struct ration_line *r) {
  struct ration_line got = {0};
  if (unit_info[l->unit].kind == UNIT_KIND_COUNT || l->unit == UNIT_PINCH) { /* a pinch keeps its range so */
    struct span text = line_text(p, l, r, as_counted(l, 1), true);
    bool fits = reads_back(p, text, l, r, &got);
    double factor = got.grams_fed > 0 ? r->grams_fed / got.grams_fed : 1, count = l->amount * factor;
    /* The amount was changed since it was written: whole things stay whole. */
    if (!fits && count >= 1 && same(count, round(count))) {
      text = line_text(p, l, r, as_counted(l, round(count) / l->amount), true);
      fits = reads_back(p, text, l, r, &got);
    }
    if (fits) {
      finish_line(p, text, l, r, true);
      return;
    }
  }
  struct span text = line_text(p, l, r, as_grams(p, l, r), true);
  /* If the food's words mean something else once the marks between them are gone, the pin says enough. */
  bool named = reads_back(p, text, l, r, &got);
  if (!named) text = line_text(p, l, r, as_grams(p, l, r), false);
  finish_line(p, text, l, r, named);
}

/* A food that no line of the recipe wrote. Its pin says all; the name is a remark. */
static void print_new_line(struct printer *p, const struct ration_line *r) {
  number(p->out, r->grams_fed);
  buf_adds(p->out, " g");
  recipe_print_frequency(p->out, r->times_per_28);
  buf_addf(p->out, " [%s] # %s\n", library_code(p->lib, r->shown_food), library_name(p->lib, r->shown_food));
}

static void print_note(struct buf *out, const char *note) {
  struct span rest = span_of(note), line;
  struct lines lines = lines_of(rest);
  while (lines_next(&lines, &line)) buf_addf(out, "Note: %.*s\n", SPAN_ARG(line));
}

static void print_headers(struct printer *p) {
  const struct recipe *r = p->recipe;
  if (r->name[0]) buf_addf(p->out, "Recipe: %s\n", r->name);
  if (r->for_whom[0]) buf_addf(p->out, "For: %s\n", r->for_whom);
  if (r->days_stated) {
    buf_adds(p->out, "Makes: ");
    number(p->out, r->days);
    buf_adds(p->out, r->days == 1 ? " day\n" : " days\n");
  }
  if (r->meals_per_day > 0) {
    buf_adds(p->out, "Meals: ");
    number(p->out, r->meals_per_day);
    buf_adds(p->out, " a day\n");
  }
  if (r->cook != STATE_UNSTATED) buf_addf(p->out, "Cook: %s\n", state_word[r->cook]);
  for (size_t i = 0; i < r->never_count; i++) buf_addf(p->out, "%s%s", i > 0 ? ", " : "Never: ", r->never[i]);
  if (r->never_count > 0) buf_addc(p->out, '\n');
  print_note(p->out, r->note);
  if (p->out->n > 0) buf_addc(p->out, '\n');
}

static const struct recipe_line *line_of(const struct recipe *r, int number_of_line) {
  for (size_t i = 0; i < r->line_count && number_of_line > 0; i++)
    if (r->line[i].line == number_of_line) return &r->line[i];
  return NULL;
}

void recipe_print(const struct library *lib, const struct recipe *recipe, const struct ration *ration, struct buf *out) {
  struct printer p = {lib, recipe, out};
  print_headers(&p);
  for (size_t i = 0; i < ration->line_count; i++) {
    const struct recipe_line *l = line_of(recipe, ration->line[i].line);
    if (l)
      print_line(&p, l, &ration->line[i]);
    else
      print_new_line(&p, &ration->line[i]);
  }
}
