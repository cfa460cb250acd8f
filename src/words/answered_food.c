/* What an owner asks of one of the foods: the judge is asked for the same bowl without it. */
#include <math.h>

#include "judge/exchange.h"
#include "words/answered_parts.h"

enum { NAMED_MOST = 7, LEFT_MOST = 4 };

/* ---- which lines ------------------------------------------------------------------------------------------------- */

/* Has the line all of its words, be they one or many: "kidneys" of "1 beef kidney"? */
static bool names(const char *line, const char *food) {
  for (struct span left = span_trim(span_of(food)); left.n > 0;) {
    size_t n = 0;
    while (n < left.n && left.p[n] != ' ') n++;
    struct span word = span_cut(left, 0, n);
    if (word.n > 3 && word.p[word.n - 1] == 's') word.n--;
    if (!span_holds_fold(span_of(line), word)) return false;
    left = span_trim(span_cut(left, n, left.n));
  }
  return food[0] != '\0';
}

bool answered_names_line(const struct asked_scene *x, const char *food, size_t line) {
  const struct ration_line *l = &x->r->ration->line[line];
  if (names(l->food_words && l->food_words[0] ? l->food_words : l->text, food)) return true;
  return names(library_name(x->lib, l->shown_food), food);
}

static bool is_meant(const struct asked_scene *x, size_t line) { return answered_names_line(x, x->q->food ? x->q->food : "", line); }

size_t answered_lines(const struct asked_scene *x, const char *food, size_t *first) {
  size_t n = 0;
  for (size_t i = 0; i < x->r->ration->line_count; i++) {
    if (!answered_names_line(x, food, i)) continue;
    if (n++ == 0) *first = i;
  }
  return n;
}

static size_t lines_meant(const struct asked_scene *x, size_t *first) {
  return answered_lines(x, x->q->food ? x->q->food : "", first);
}

/* ---- the bowl without them ---------------------------------------------------------------------------------------- */

static const struct check_result *without(const struct asked_scene *x, struct ration *left) {
  const struct ration *is = x->r->ration;
  struct ration_line *line = ARENA_NEW(x->a, struct ration_line, is->line_count + 1);
  *left = *is;
  left->line = line;
  left->line_count = 0;
  for (size_t i = 0; i < is->line_count; i++)
    if (!is_meant(x, i)) line[left->line_count++] = is->line[i];
  return left->line_count > 0 ? check_numbers(x->lib, left, x->r->animal, &x->r->options, x->a) : NULL;
}

static bool is_enough(const struct nutrient_result *n) {
  enum group_id g = words_group_of(n);
  return g == GROUP_MET || g == GROUP_NEAR_LIMIT || g == GROUP_OVER;
}

static bool is_too_little(const struct nutrient_result *n) {
  enum group_id g = words_group_of(n);
  return g == GROUP_SHORT || g == GROUP_THIN || g == GROUP_UNPROVEN;
}

static bool is_too_much(const struct nutrient_result *n) {
  return words_group_of(n) == GROUP_OVER || (n->upper > 0 && fmax(n->amount, n->window_high) > n->upper);
}

struct loss {
  enum nutrient lost[NUT_COUNT], cured[NUT_COUNT], torn[NUT_COUNT]; /* torn: too much with it, too little without */
  size_t lose, cure, tear;
};

static struct loss loss_of(const struct check_result *with, const struct check_result *less) {
  struct loss x = {.lose = 0};
  for (int n = 0; n < NUT_COUNT; n++) {
    const struct nutrient_result *was = &with->nutrient[n], *is = &less->nutrient[n];
    bool much = is_too_much(was), little = is_too_little(is);
    if (n == NUT_ENERGY) continue;
    if (much && little)
      x.torn[x.tear++] = (enum nutrient)n;
    else if (much && !is_too_much(is))
      x.cured[x.cure++] = (enum nutrient)n;
    else if (is_enough(was) && little)
      x.lost[x.lose++] = (enum nutrient)n;
  }
  return x;
}

/* Beside protein its parts go without saying. */
static const char *listed(const struct asked_scene *x, const enum nutrient *n, size_t count, size_t most) {
  const char *item[NUT_COUNT];
  bool protein = false;
  size_t items = 0;
  for (size_t i = 0; i < count; i++) protein = protein || n[i] == NUT_PROTEIN;
  for (size_t i = 0; i < count; i++) {
    bool part = protein && n[i] != NUT_PROTEIN && nutrient_info[n[i]].group == nutrient_info[NUT_PROTEIN].group;
    if (!part || n[i] == NUT_TAURINE) item[items++] = words_nutrient(x->a, n[i]);
  }
  return words_list(x->a, item, items, items == most + 1 ? items : most);
}

struct answered_change answered_change(const struct check_result *was, const struct check_result *is) {
  struct answered_change c = {.lose = 0};
  for (int n = 0; n < NUT_COUNT; n++) {
    const struct nutrient_result *a = &was->nutrient[n], *b = &is->nutrient[n];
    if (n == NUT_ENERGY) continue;
    if (is_enough(a) && is_too_little(b)) c.lost[c.lose++] = (enum nutrient)n;
    if (is_too_little(a) && is_enough(b) && !is_too_much(b)) c.gained[c.gain++] = (enum nutrient)n;
    if (!is_too_much(a) && is_too_much(b)) c.harmed[c.harm++] = (enum nutrient)n;
    if (is_too_much(a) && !is_too_much(b)) c.cured[c.cure++] = (enum nutrient)n;
  }
  return c;
}

const char *answered_names(const struct asked_scene *x, const enum nutrient *n, size_t count) {
  return listed(x, n, count, LEFT_MOST);
}

/* ---- what stands in for them -------------------------------------------------------------------------------------- */

struct stand_in {
  const struct img_fix *fix;
  double grams;
  enum nutrient left[NUT_COUNT]; /* of what is lost: what it does not bring back */
  size_t lefts;
};

static bool may_stand_in(const struct asked_scene *x, const struct img_fix *fix) {
  const struct animal *a = x->r->animal;
  const char *called = lib_str(x->lib, fix->words);
  if (fix->shop_unit != NO_INDEX || fix->late || !ration_takes_fix(x->lib, x->r->ration, fix, a->species)) return false;
  const struct img_food *f = library_food(x->lib, fix->food);
  if (!f || f->part == PART_SUPPLEMENT || f->part == PART_FAT_OIL || names(called, x->q->food)) return false;
  return !ration_refuses(x->lib, x->r->ration, fix->food, called, x->a);
}

/* As much of one food that people add for what is lost, a portion of it at most. */
static struct stand_in best_stand_in(const struct asked_scene *x, const struct ration *left, const struct loss *loss,
                                     double grams) {
  const struct img_fix *fix = IMG_ROWS(&x->lib->image, IMG_FIXES, struct img_fix);
  struct stand_in best = {.fix = NULL, .lefts = loss->lose};
  struct exchange *ex =
      exchange_open(x->lib, left, left->line_count, x->r->animal, &x->r->options, x->a);
  for (size_t i = 0; i < img_count(&x->lib->image, IMG_FIXES); i++) {
    bool wanted = false;
    for (size_t k = 0; k < loss->lose; k++) wanted = wanted || fix[i].nutrient == (uint8_t)loss->lost[k];
    if (!wanted || !may_stand_in(x, &fix[i])) continue;
    struct ration_line in = {.text = "", .food_words = "", .part_count = 1, .grams_fed = grams, .shown_food = fix[i].food};
    in.part[0] = (struct portion){.food = fix[i].food, .grams = grams, .retention = -1};
    ration_spread_days(&in, CALENDAR_DAYS, 0);
    const struct check_result *r = exchange_line(ex, &in);
    struct stand_in one = {.fix = &fix[i], .grams = grams};
    bool harms = false;
    for (int n = 0; n < NUT_COUNT; n++) harms = harms || (is_too_much(&r->nutrient[n]) && !is_too_much(&x->r->nutrient[n]));
    for (size_t k = 0; k < loss->lose; k++)
      if (is_too_little(&r->nutrient[loss->lost[k]])) one.left[one.lefts++] = loss->lost[k];
    if (!harms && one.lefts < best.lefts) best = one;
  }
  exchange_close(ex);
  return best;
}

static const char *stand_in_words(const struct asked_scene *x, const struct ration *left, const struct loss *loss,
                                  size_t line) {
  static const double A_MORSEL = 2;
  double grams = round(ration_line_grams_per_day(&x->r->ration->line[line]));
  const struct img_food *f = library_food(x->lib, x->r->ration->line[line].shown_food);
  if (!f || f->part == PART_SUPPLEMENT || f->part == PART_FAT_OIL || grams < A_MORSEL || loss->lose == 0) return "";
  struct stand_in s = best_stand_in(x, left, loss, grams);
  if (!s.fix) return "";
  const char *food = words_text(x->a, " %s of %s a day in its place", words_mass(x->a, s.grams), lib_str(x->lib, s.fix->words));
  if (s.lefts == 0) return words_text(x->a, "%s would make up for it.", food);
  return words_text(x->a, "%s would leave only %s to make up for.", food, listed(x, s.left, s.lefts, LEFT_MOST));
}

/* A powder of one nutrient, kelp: what is said of its nutrient says it all. */
static bool is_supplement(const struct asked_scene *x, size_t line) {
  const struct img_food *f = library_food(x->lib, x->r->ration->line[line].shown_food);
  return f && f->part == PART_SUPPLEMENT;
}

/* ---- the answers -------------------------------------------------------------------------------------------------- */

static const char *torn_words(const struct asked_scene *x, const struct loss *loss) {
  if (loss->tear == 0) return "";
  return words_text(x->a, " With it there is too much %s, and without it too little: less of it fits, and not none.",
                    listed(x, loss->torn, loss->tear, LEFT_MOST));
}

const char *answered_without(const struct asked_scene *x) {
  struct ration left;
  size_t line = 0;
  if (lines_meant(x, &line) != 1 || (x->q->of != ASKED_OF_FOOD && is_supplement(x, line))) return "";
  const struct check_result *less = without(x, &left);
  if (!less) return "";
  struct loss loss = loss_of(x->r, less);
  const char *food = words_line(x->a, x->lib, x->r->ration, (int)line),
             *cured = loss.cure > 0 ? words_text(x->a, "there would no longer be too much %s",
                                                 listed(x, loss.cured, loss.cure, LEFT_MOST))
                                    : "";
  if (loss.lose == 0 && loss.tear == 0)
    return cured[0] ? words_text(x->a, "Yes, leave %s out: %s, and nothing that is enough now would fall short.", food, cured)
                    : words_text(x->a, "Yes, %s may be left out: nothing that is enough now would fall short.", food);
  if (loss.lose == 0) return words_text(x->a, "Not all of it.%s", torn_words(x, &loss));
  return words_text(x->a, "Not without something in its place: without %s there would be too little %s%s%s.%s%s", food,
                    listed(x, loss.lost, loss.lose, NAMED_MOST), cured[0] ? ", though " : "", cured, torn_words(x, &loss),
                    stand_in_words(x, &left, &loss, line));
}

const char *answered_hangs(const struct asked_scene *x) {
  struct ration left;
  size_t line = 0;
  if (lines_meant(x, &line) != 1) return "";
  const struct check_result *less = without(x, &left);
  const char *food = words_line(x->a, x->lib, x->r->ration, (int)line);
  if (!less) return words_text(x->a, "All of it hangs on %s: there is no other food.", food);
  struct loss loss = loss_of(x->r, less);
  const char *energy = "";
  for (size_t i = 0; i < x->r->energy.from_count; i++)
    if (x->r->energy.from[i].line == (int)line)
      energy = words_text(x->a, " It gives %s of the energy.", words_share(x->a, x->r->energy.from[i].share));
  if (loss.lose + loss.tear == 0)
    return words_text(x->a, "Nothing that is enough hangs on %s alone.%s", food, energy);
  for (size_t i = 0; i < loss.tear; i++) loss.lost[loss.lose++] = loss.torn[i];
  return words_text(x->a, "On %s alone hang%s %s: without it there would be too little.%s", food, loss.lose == 1 ? "s" : "",
                    listed(x, loss.lost, loss.lose, NAMED_MOST), energy);
}
