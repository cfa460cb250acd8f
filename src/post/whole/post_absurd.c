/* So much of one food, or of vegetables, that no such animal eats it in a day, in a bowl that is an ordinary one without it:
 * it was misread. It is left out, told and asked, and never used as if it were sure. */
#include "base/num.h"
#include "post/whole/post_whole.h"

/* Parts of the animal's weight a day: of any one food, of all vegetables and fruit, and of all that is left. Dogs of a toy's
 * size eat up to 5 or 6 % of their weight in all. Common practice. */
static const double MOST_OF_ONE = 0.10, MOST_OF_PLANTS = 0.06, MOST_BESIDE = 0.06;
/* Of the need for energy, that what is left must come to, and all at most; and of all vegetables, what one of them must be
 * to be one of too many. Own choice. */
static const double ORDINARY = 0.4, TOO_MUCH = 1.7, PART_OF_MANY = 0.2;

static bool is_fresh_plant(const struct library *lib, const struct ration_line *line) {
  enum part p = (enum part)library_food(lib, line->shown_food)->part;
  return p == PART_VEGETABLE || p == PART_FRUIT;
}

static struct item *item_of(struct post_reader *r, const struct post *out, int strict_line) {
  for (size_t k = 0; k < out->line_count && k < r->count; k++)
    if (out->line[k].strict_line == strict_line && r->item[k].kind == ITEM_FOOD) return &r->item[k];
  return NULL;
}

/* What of a food of shares is fed a day is known only where the animal's energy is: its weight in the recipe is one of 1000
 * g. */
static double scale_of_shares(struct post_reader *r, const struct recipe *recipe, const struct ration *ration) {
  double beside = post_kcal_a_day(r->lib, recipe, ration, false), all = post_kcal_a_day(r->lib, recipe, ration, true);
  if (recipe->shares_of != SHARES_OF_NEED) return 0;
  return all > beside ? fmax(0, post_kcal_needed(r) - beside) / (all - beside) : 0;
}

struct looked_at {
  double *grams;      /* a day, of each line */
  bool *out_of_scale; /* the same */
  double all, taken, kcal_left, kcal_taken;
};

static struct looked_at look_at(struct post_reader *r, const struct recipe *recipe, const struct ration *ration) {
  struct looked_at l = {.grams = ARENA_NEW(r->arena, double, ration->line_count + 1),
                        .out_of_scale = ARENA_NEW(r->arena, bool, ration->line_count + 1)};
  double body = 1000 * r->weight_kg, plants = 0, scale = scale_of_shares(r, recipe, ration);
  for (size_t i = 0; i < ration->line_count; i++) {
    const struct ration_line *line = &ration->line[i];
    l.grams[i] = ration_line_grams_per_day(line) * (recipe_is_share(recipe, line->line) ? scale : 1);
    l.all += l.grams[i];
    if (is_fresh_plant(r->lib, line)) plants += l.grams[i];
  }
  for (size_t i = 0; i < ration->line_count; i++) {
    const struct ration_line *line = &ration->line[i];
    bool of_many = plants > MOST_OF_PLANTS * body && is_fresh_plant(r->lib, line) && l.grams[i] > PART_OF_MANY * plants;
    l.out_of_scale[i] = l.grams[i] > MOST_OF_ONE * body || of_many;
    if (l.out_of_scale[i]) l.taken += l.grams[i];
    double *kcal = l.out_of_scale[i] ? &l.kcal_taken : &l.kcal_left;
    for (int k = 0; k < line->part_count; k++) {
      double per_100g = (double)library_values(r->lib, line->part[k].food)[NUT_ENERGY].mean;
      double part = line->part[k].grams * line->times_per_28 / CALENDAR_DAYS;
      if (per_100g >= 0) *kcal += per_100g / 100 * part * (recipe_is_share(recipe, line->line) ? scale : 1);
    }
  }
  return l;
}

bool post_leave_absurd(struct post_reader *r, const struct post *out, const struct recipe *recipe,
                       const struct ration *ration) {
  bool any = false;
  if (!(r->weight_kg > 0)) return false;
  struct looked_at l = look_at(r, recipe, ration);
  if (!(l.taken > 0) || l.all - l.taken > MOST_BESIDE * 1000 * r->weight_kg) return false;
  double need = post_kcal_needed(r), of_all = l.kcal_left + l.kcal_taken;
  if (l.kcal_left < ORDINARY * need || of_all > TOO_MUCH * need)
    return false; /* all of it is out of scale, and asked about */
  for (size_t i = 0; i < ration->line_count; i++) {
    struct item *item = l.out_of_scale[i] ? item_of(r, out, ration->line[i].line) : NULL;
    if (!item) continue;
    struct buf b;
    buf_init(&b, r->arena, 40);
    num_sig(&b, l.grams[i], 2);
    item->kind = ITEM_UNKNOWN;
    any = true;
    struct post_left left = {item->line, item->text, "so much of it that no such animal eats it in a day", true};
    ARENA_PUSH(r->keep, r->left, r->left_count, r->left_cap, left);
    r->line = item->line;
    post_ask(r, 5, "How many grams a day is '%s'? It would be %s g, more than such an animal eats; it was not counted.",
             item->text, buf_text(&b));
  }
  for (size_t i = 0; i < r->count && any; i++) post_doubt(r, i, "counted without what is out of all scale");
  r->line = 0;
  return any;
}
