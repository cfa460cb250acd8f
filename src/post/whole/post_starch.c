/* Rice, oats, lentils without a word of whether they were weighed dry or cooked, beside food that is said to be cooked:
 * whoever writes so weighs what goes into the bowl. Taken as cooked, said beside the line with its range, and asked. */
#include "base/num.h"
#include "post/whole/post_whole.h"

/* The range of what is weighed dry or cooked, as where a post says something of it that cannot be read (post_govern.c). */
static const double LOW = 0.7, HIGH = 1.4;
static const double DRY = 25; /* g of water in 100 g at most: no fresh peas, no tofu */

static bool says_cooked(const struct tokens *t, size_t from) {
  for (size_t i = from; i < t->count; i++)
    if (says(t, i, "cooked boiled steamed simmered baked roasted roast poached stewed fried grilled braised")) return true;
  return false;
}

/* Is any food but an egg said to be cooked? Who feeds raw boils eggs as well. */
static bool any_is_cooked(struct post_reader *r) {
  for (size_t i = 0; i < r->count; i++) {
    if (r->item[i].kind != ITEM_FOOD) continue;
    const struct img_food *f = library_food(r->lib, r->item[i].food);
    struct tokens t = post_tokens(r, span_of(r->item[i].text));
    if (f && f->part != PART_EGG && says_cooked(&t, 0)) return true;
  }
  return false;
}

/* "60 g cooked millet, and another 40 of the millet": another line of the same tells. */
static bool is_told_beside(struct post_reader *r, const struct item *item) {
  for (size_t i = 0; i < r->count; i++) {
    const struct img_food *f = library_food(r->lib, r->item[i].food);
    if (r->item[i].kind == ITEM_FOOD && f && f->raw_form == item->food) return true;
  }
  return false;
}

/* Nobody says of it how it was weighed, and it is eaten cooked alone. */
static bool may_be_dry(struct post_reader *r, const struct item *item) {
  const struct img_food *f = library_food(r->lib, item->food);
  if (item->kind != ITEM_FOOD || !f || (f->part != PART_GRAIN && f->part != PART_LEGUME) ||
      state_is_cooked((enum state)f->state))
    return false;
  if (!(library_values(r->lib, item->food)[NUT_WATER].mean < DRY) || strstr(item->assumed, "weighed") ||
      is_told_beside(r, item))
    return false;
  struct tokens t = post_tokens(r, span_of(item->text));
  for (size_t i = 0; i < t.count; i++)
    if (says(&t, i, "raw dry dried uncooked cooking soaked sprouted fermented weight canned tin ground flour meal"))
      return false;
  return !says_cooked(&t, 0);
}

/* "200 g rice" becomes "200 g (140-280 g) cooked rice". False: there is no such food. */
static bool take_as_cooked(struct post_reader *r, struct item *item) {
  struct tokens t = post_tokens(r, span_of(item->text));
  struct post_amount a = post_amount_at(&t, 0);
  const char *assumed;
  struct ration_line got;
  struct buf b;
  if (a.tokens == 0 || a.tokens >= t.count || is_mark(&t, a.tokens, '(') || a.is_percent) return false;
  buf_init(&b, r->arena, strlen(item->text) + 100);
  amount_write(&b, &a, 1);
  if (a.is_mass && !(a.high > a.low)) {
    buf_adds(&b, " (");
    num_sig(&b, LOW * a.low, 4);
    buf_addc(&b, '-');
    num_sig(&b, HIGH * a.low, 4);
    buf_addf(&b, " %s)", a.unit);
  }
  buf_addf(&b, " cooked %s", t.item[a.tokens].at.p);
  double grams = r->taken_grams;
  uint32_t food = r->taken_food;
  bool taken = strict_takes(r, buf_text(&b), &assumed, &got);
  const struct img_food *f = taken ? library_food(r->lib, got.shown_food) : NULL;
  r->taken_grams = grams;
  r->taken_food = food;
  if (!f || !state_is_cooked((enum state)f->state) || got.shown_food == item->food ||
      f->part != library_food(r->lib, item->food)->part)
    return false;
  item->text = arena_text(r->keep, buf_span(&b));
  item->food = got.shown_food;
  return true;
}

/* Asked once of all of them, at the line of the first. */
static void ask_of_them(struct post_reader *r, const size_t *taken, size_t count) {
  struct buf b;
  buf_init(&b, r->arena, 200);
  for (size_t i = 0; i < count; i++)
    buf_addf(&b, "%s'%.*s'",
             i == 0           ? ""
             : i + 1 == count ? " and "
                              : ", ",
             SPAN_ARG(post_quote(r, r->item[taken[i]].words)));
  r->line = r->item[taken[0]].line;
  r->ask_of = taken[0] + 1;
  post_ask(r, 2.4,
           count > 1 ? "Are %s weighed cooked or dry? They were taken as cooked."
                     : "Is %s weighed cooked or dry? It was taken as cooked.",
           buf_text(&b));
  r->ask_of = 0;
  r->line = 0;
}

void post_starch_as_cooked(struct post_reader *r) {
  enum { MOST = 8 };
  size_t taken[MOST], count = 0;
  if (!any_is_cooked(r)) return;
  for (size_t i = 0; i < r->count; i++) {
    if (!may_be_dry(r, &r->item[i]) || !take_as_cooked(r, &r->item[i])) continue;
    post_doubt(r, i, "taken as weighed cooked, as other food is; weighed dry it would be two to three times as much");
    if (count < MOST) taken[count++] = i;
  }
  if (count > 0) ask_of_them(r, taken, count);
}
