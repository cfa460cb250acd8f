#include <math.h>

#include "base/num.h"
#include "recipe/recipe_food.h"
#include "text/scan.h"

/* More than any dog or cat is fed in a day: a slip of the unit. */
static const double MOST_GRAMS_A_DAY = 50000;

/* A range stands for the middle 90 % of a normal spread. */
static double range_cv(double low, double middle, double high) {
  return middle > 0 ? (high - low) / (2 * 1.645 * middle) : 0;
}

static bool amount_is_sane(struct line_food *f, double grams_per_day) {
  struct buf b;
  buf_init(&b, f->arena, 64);
  if (grams_per_day >= 0 && grams_per_day <= MOST_GRAMS_A_DAY) return true;
  num_sig(&b, grams_per_day / 1000, 4);
  diag_say(f->d, DIAG_ERROR, DIAG_LIMIT, f->line->amount_at, "that is %s kg a day; more than 50 kg a day is not read",
           buf_text(&b));
  return false;
}

static void begin_line(const struct line_food *f, struct ration_line *out) {
  const struct recipe_line *l = f->line;
  *out = (struct ration_line){.line = l->line,
                              .text = arena_text(f->arena, l->shown),
                              .food_words = arena_text(f->arena, l->food),
                              .remark = l->remark.n > 0 ? arena_text(f->arena, l->remark) : NULL,
                              .state = STATE_UNSTATED,
                              .frequency_stated = l->frequency_stated,
                              .pinned = l->pin.n > 0,
                              .found_by_name = f->found_by_name,
                              .rivals = f->rivals,
                              .rival_count = f->rival_count,
                              .shown_food = f->food,
                              .note = f->note,
                              .grams_from = f->grams_from,
                              .assumed = f->assumed};
}

/* Lines with a frequency say what one feeding day holds; the others are the batch, shared out over its days. */
bool resolve_line(const struct library *lib, const struct recipe *recipe, const struct recipe_line *line, struct diags *d,
                  struct ration_line *out, struct arena *arena) {
  struct line_food f = {.lib = lib, .recipe = recipe, .line = line, .d = d, .arena = arena, .food = NO_INDEX};
  if (!choose_food(&f)) return false;
  if (!find_grams(&f)) return false;
  double grams = line->frequency_stated ? f.grams : f.grams / recipe->days;
  if (!amount_is_sane(&f, grams)) return false;
  begin_line(&f, out);
  if (!cook_and_bone(&f, grams, range_cv(f.grams_low, f.grams, f.grams_high), out)) return false;
  out->low_g = f.grams > 0 ? out->grams_fed * f.grams_low / f.grams : out->grams_fed;
  out->high_g = f.grams > 0 ? out->grams_fed * f.grams_high / f.grams : out->grams_fed;
  return amount_is_sane(&f, out->grams_fed);
}

const struct recipe_line *recipe_line_of(const struct recipe *r, int line) {
  for (size_t i = 0; i < r->line_count && line > 0; i++)
    if (r->line[i].line == line) return &r->line[i];
  return NULL;
}

bool recipe_is_share(const struct recipe *r, int line) {
  const struct recipe_line *l = recipe_line_of(r, line);
  return l && l->unit == UNIT_PERCENT;
}

bool recipe_resolve(const struct library *lib, const struct recipe *recipe, struct diags *d, struct ration *out,
                    struct arena *arena) {
  size_t errors = d->errors;
  struct ration_line *lines = ARENA_NEW(arena, struct ration_line, recipe->line_count + 1);
  *out = (struct ration){.name = recipe->name,
                         .days = recipe->days,
                         .days_stated = recipe->days_stated,
                         .meals_per_day = recipe->meals_per_day,
                         .line = lines,
                         .never = recipe->never,
                         .never_count = recipe->never_count,
                         .remark = recipe->remark,
                         .remark_count = recipe->remark_count,
                         .uncounted = uncounted_foods(lib, recipe, arena),
                         .uncounted_count = recipe->uncounted_count};
  for (size_t i = 0; i < recipe->line_count && d->errors < DIAG_MOST; i++) {
    struct ration_line *line = &lines[out->line_count];
    if (!resolve_line(lib, recipe, &recipe->line[i], d, line, arena)) continue;
    if (recipe->line[i].days > 0)
      ration_name_days(line, recipe->line[i].days);
    else
      ration_spread_days(line, recipe->line[i].times_per_28, 0);
    out->line_count++;
  }
  return d->errors == errors;
}
