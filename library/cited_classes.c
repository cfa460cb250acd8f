/* cited_classes.c: where a food has no figure of its own, what may stand in for it: its raw form, its class, its sodium. */
#include <math.h>

#include "library/cited.h"

double cited_mean(const struct cited_figure *f) { return f->sources > 0 ? f->sum / f->sources : 0; }

/* ---- cooked by way of raw -------------------------------------------------------------------------------------- */

struct cooking_step {
  enum nutrient nutrient;
  struct food_rule rule;
  double kept, error;
  uint16_t source;
};

static double dry_matter(const struct build_food *f) {
  return f->value[NUT_WATER].status == VALUE_MEASURED ? 100 - (double)f->value[NUT_WATER].mean : NAN;
}

static void cook(struct foods_build *b, struct build_food *f, const struct cooking_step *step) {
  if (f->food.raw_form == NO_INDEX || !food_rule_fits(&step->rule, f)) return;
  if (f->food.flags & (FOOD_BRAND | FOOD_DISH | FOOD_SALTED)) return;
  const struct build_food *raw = &b->food[f->food.raw_form];
  if (f->value[step->nutrient].status != VALUE_UNKNOWN || raw->value[step->nutrient].status == VALUE_UNKNOWN) return;
  double amount = (double)raw->value[step->nutrient].mean * dry_matter(f) / dry_matter(raw) * step->kept;
  if (!(amount >= 0)) return;
  foods_set(f, step->nutrient, amount, VALUE_ESTIMATED, hypot(raw->estimate_error[step->nutrient], step->error),
            step->source);
}

void cited_cooked(struct foods_build *b, const char *data_dir) {
  static const char *const WANTED[] = {"nutrient", "state", "kept", "error", "source", "confidence", NULL};
  struct tsv t;
  tsv_read(&t, path_join(b->arena, data_dir, "cited_cooking.tsv"), WANTED, b->arena);
  for (size_t row = 0; row < t.rows; row++) {
    struct cooking_step step = {nutrient_by_key(tsv_cell(&t, row, "nutrient")), food_rule_read(&t, row),
                                tsv_number(&t, row, "kept"), tsv_number(&t, row, "error"), source_index(&t, row, "source")};
    if (step.nutrient == NUT_NONE) tsv_fail(&t, row, "there is no such nutrient");
    if (!(step.kept > 0 && step.kept <= 1 && step.error >= 0))
      tsv_fail(&t, row, "'kept' is a share and 'error' is not negative");
    for (size_t i = 0; i < b->count; i++) cook(b, &b->food[i], &step);
  }
}

/* ---- by class --------------------------------------------------------------------------------------------------- */

enum { LEAST_FOODS = 3 };

struct class_figure {
  double mean, error;
  int foods;
};

static bool stands_behind(const struct cited_food *food, struct span class) {
  struct span list = food->class;
  while (list.n > 0) {
    const char *mark = memchr(list.p, '|', list.n);
    size_t n = mark ? (size_t)(mark - list.p) : list.n;
    if (span_eq(span_trim(span_cut(list, 0, n)), class)) return true;
    list = span_cut(list, n + (mark ? 1 : 0), list.n);
  }
  return false;
}

/* Mean over the class's cited foods. Error: spread between those foods (n - 1 in the divisor), with the error of a mean of
 * n and what sources usually differ by. */
static struct class_figure figure_of_class(const struct cited_tables *c, struct span class, enum nutrient n) {
  double sum = 0, squares = 0;
  int foods = 0;
  for (size_t i = 0; i < c->figures; i++) {
    if (c->figure[i].nutrient != n || !stands_behind(c->figure[i].food, class)) continue;
    sum += cited_mean(&c->figure[i]);
    squares += cited_mean(&c->figure[i]) * cited_mean(&c->figure[i]);
    foods++;
  }
  if (foods < LEAST_FOODS || !(sum > 0)) return (struct class_figure){NAN, NAN, foods};
  double mean = sum / foods, between = sqrt(fmax(0, (squares - sum * mean) / (foods - 1))) / mean;
  return (struct class_figure){mean, hypot(between * sqrt(1 + 1.0 / foods), c->usual_error[n]), foods};
}

void cited_by_class(struct foods_build *b, const struct cited_tables *c, const char *data_dir, bool raw) {
  static const char *const WANTED[] = {"class", "part", "kind", "state", "words", "unless", "source", "confidence", NULL};
  static const enum nutrient BY_CLASS[] = {NUT_IODINE, NUT_CHLORIDE, NUT_TAURINE, NUT_BIOTIN};
  struct tsv t;
  uint16_t source = source_by_key("class_pattern");
  tsv_read(&t, path_join(b->arena, data_dir, "cited_classes.tsv"), WANTED, b->arena);
  for (size_t row = 0; row < t.rows; row++) {
    struct food_rule rule = food_rule_read(&t, row);
    if (((rule.states >> STATE_RAW & 1u) != 0) != raw) continue;
    for (size_t k = 0; k < COUNT_OF(BY_CLASS); k++) {
      struct class_figure class = figure_of_class(c, tsv_cell(&t, row, "class"), BY_CLASS[k]);
      for (size_t i = 0; i < b->count && isfinite(class.mean); i++) {
        struct build_food *f = &b->food[i];
        bool shut_out =
            (f->food.flags & (FOOD_BRAND | FOOD_DISH | FOOD_SALTED)) || f->value[BY_CLASS[k]].status != VALUE_UNKNOWN;
        if (!shut_out && food_rule_fits(&rule, f))
          foods_set(f, BY_CLASS[k], class.mean, VALUE_ESTIMATED, class.error, source);
      }
    }
  }
}

/* ---- chloride of salt ------------------------------------------------------------------------------------------- */

/* Grams of chloride to a gram of sodium in salt: 35.453 / 22.990 (atomic masses). */
static const double CHLORIDE_OF_SODIUM = 35.453 / 22.990;
/* From here on nearly all sodium of a food is added salt: fresh meat, fish, milk and vegetables stay under 150 mg. */
static const double SALTED_SODIUM_MG = 300;
/* Some sodium is nitrite, phosphate or citrate. */
static const double SALT_ERROR = 0.25;

void cited_chloride_of_salt(struct foods_build *b) {
  static const enum part PARTS[] = {PART_MUSCLE, PART_ORGAN_LIVER, PART_ORGAN_OTHER, PART_FISH,     PART_SHELLFISH,
                                    PART_EGG,    PART_DAIRY,       PART_VEGETABLE,   PART_SEED_NUT, PART_FAT_OIL};
  uint16_t source = source_by_key("own_reasoning");
  for (size_t i = 0; i < b->count; i++) {
    struct build_food *f = &b->food[i];
    const struct img_value *sodium = &f->value[NUT_SODIUM];
    bool salty = sodium->status == VALUE_MEASURED && sodium->mean >= SALTED_SODIUM_MG;
    if (!salty || f->value[NUT_CHLORIDE].status != VALUE_UNKNOWN) continue;
    for (size_t k = 0; k < COUNT_OF(PARTS); k++)
      if (f->food.part == PARTS[k])
        foods_set(f, NUT_CHLORIDE, CHLORIDE_OF_SODIUM * (double)sodium->mean, VALUE_ESTIMATED, SALT_ERROR, source);
  }
}
