#include "report/helps.h"

#include <math.h>

#include "report/say.h"

static void write_paragraph(const struct pen *p, const char *text) {
  struct prose how = prose_at(MARGIN, INK_PLAIN);
  how.indent = MARGIN + 4;
  prose_write(p, &how, text);
}

/* As shops sell it; NULL: it is weighed. */
static const struct img_shop_unit *sold_as(const struct library *lib, uint32_t food) {
  const struct img_shop_unit *u = IMG_ROWS(&lib->image, IMG_SHOP_UNITS, struct img_shop_unit);
  for (size_t i = 0; i < img_count(&lib->image, IMG_SHOP_UNITS); i++)
    if (u[i].food == food && u[i].nutrient < NUT_COUNT) return &u[i];
  return NULL;
}

static const char *named(const struct pen *p, const struct library *lib, uint32_t food) {
  const struct img_shop_unit *u = sold_as(lib, food);
  const char *words = u ? lib_str(lib, u->name) : words_food(p->arena, lib, food);
  return say_text(p, "%s [%s]", words, library_code(lib, food));
}

/* Up, so that it still suffices: whole grams from 5 g on, tenths below, hundredths below a tenth. */
static double weighed(double grams) {
  double step = grams > 4.9 ? 1 : grams > 0.1 ? 0.1 : 0.01;
  return ceil(grams / step - 1e-6) * step;
}

/* "1/2", "1 1/2", "2" */
static const char *in_halves(const struct pen *p, double units) {
  long whole = lround(floor(units));
  bool half = units - floor(units) > 0.25;
  return !half ? say_text(p, "%ld", whole) : whole > 0 ? say_text(p, "%ld 1/2", whole) : "1/2";
}

/* "1/2 tablet", "2 drops", "35 g" */
static const char *amount(const struct pen *p, const struct library *lib, uint32_t food, double grams) {
  const struct img_shop_unit *u = sold_as(lib, food);
  double per_g = u ? (double)library_values(lib, food)[u->nutrient].mean / 100 : 0;
  if (!(per_g > 0) || !(grams > 0)) return say_text(p, "%s g", words_number(p->arena, weighed(grams)));
  double part = u->halves ? 0.5 : 1, units = ceil(grams * per_g / (double)u->holds / part - 1e-6) * part;
  return say_text(p, "%s %s%s", in_halves(p, units), lib_str(lib, u->unit), units > 1 ? "s" : "");
}

static bool is_among(const char *const *item, int count, const char *x) {
  for (int i = 0; i < count; i++)
    if (strcmp(item[i], x) == 0) return true;
  return false;
}

/* "iodine and vitamin D": of limits with a nutrient its name, else the limit as it was said; of several bowls once. */
static const char *relieved(const struct pen *p, const struct model_help *h) {
  const char *item[HELP_LIMITS];
  int count = 0;
  for (size_t i = 0; i < h->relieved; i++) {
    const struct limit *l = h->limit[i];
    bool ratio = l->kind == LIMIT_CA_P_LEAST || l->kind == LIMIT_CA_P_MOST;
    const char *words = ratio                                                   ? "the ratio of calcium to phosphorus"
                        : l->kind == LIMIT_ALLOWANCE && l->nutrient != NUT_NONE ? words_nutrient(p->arena, l->nutrient)
                                                                                : say_text(p, "\"%s\"", l->name);
    if (!is_among(item, count, words)) item[count++] = words;
  }
  return say_list(p, item, count, HELP_LIMITS);
}

static void say_help(const struct pen *p, const struct library *lib, const struct model_help *h) {
  const char *name = named(p, lib, h->food), *grams = amount(p, lib, h->food, h->grams);
  if (h->enough)
    write_paragraph(p, say_text(p, "%s: with up to %s a day this becomes possible.", name, grams));
  else
    write_paragraph(p, say_text(p, "%s: up to %s a day would help with %s, and supply %s of what is missing.", name, grams,
                                relieved(p, h), say_percent(p, h->relief)));
}

/* "1 capsule natural vitamin E 100 IU [ours:vitamin-e-natural]", "35 g of beef liver [usda:13325]" */
static const char *member(const struct pen *p, const struct library *lib, const struct model_help *h) {
  const struct img_shop_unit *u = sold_as(lib, h->food);
  const char *much = amount(p, lib, h->food, h->grams);
  if (!u) return say_text(p, "up to %s of %s", much, named(p, lib, h->food));
  return say_text(p, "up to %s %s [%s]", much, lib_str(lib, u->one), library_code(lib, h->food));
}

static void say_team(const struct pen *p, const struct library *lib, const struct model_team *team) {
  const char *item[TEAM_MOST];
  if (team->count == 0) return;
  for (size_t i = 0; i < team->count; i++) item[i] = member(p, lib, &team->food[i]);
  write_paragraph(p, say_text(p, "Together they are enough: with %s a day this becomes possible.",
                              say_list(p, item, (int)team->count, TEAM_MOST)));
}

void say_helps(const struct pen *p, const struct library *lib, const struct model_helps *h) {
  for (size_t i = 0; i < h->count; i++) say_help(p, lib, &h->help[i]);
  say_team(p, lib, &h->team);
}
