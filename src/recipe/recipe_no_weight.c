/* A complaint about an amount that nobody can weigh, and what may stand in its place. */
#include <math.h>

#include "base/num.h"
#include "recipe/recipe_measures.h"
#include "text/scan.h"

static const char *known_measures(struct line_food *f) {
  struct measures all = measures_of(f);
  struct buf b;
  buf_init(&b, f->arena, 300);
  for (size_t i = 0; i < all.count; i++) {
    if (all.at[i].unit != UNIT_NONE && unit_info[all.at[i].unit % UNIT_COUNT].kind == UNIT_KIND_MASS) continue;
    buf_addf(&b, "%s%s (", b.n > 0 ? ", " : "; known are ", lib_str(f->lib, all.at[i].words));
    num_sig(&b, all.at[i].grams, 4);
    buf_adds(&b, " g)");
  }
  return buf_text(&b);
}

/* "1 brazil nut", of which a kernel is known to weigh 5 g: "5 g" in the amount's place. No weight is offered that is not
 * one of this very food. */
static void offer_measures(struct line_food *f) {
  enum { MOST_OFFERED = 3 };
  const struct recipe_line *l = f->line;
  struct measures all = measures_of(f);
  struct span at = l->amount_at;
  if (l->unit_at.n > 0 && l->unit_at.p + l->unit_at.n > at.p + at.n) at.n = (size_t)(l->unit_at.p + l->unit_at.n - at.p);
  for (size_t i = 0, offered = 0; i < all.count && offered < MOST_OFFERED && l->amount_low == l->amount_high; i++) {
    if (all.at[i].unit != UNIT_NONE) continue;
    struct buf write, label;
    buf_init(&write, f->arena, 64);
    buf_init(&label, f->arena, 256);
    num_sig(&write, l->amount * (double)all.at[i].grams, 3);
    buf_adds(&write, " g");
    buf_addf(&label, "%s (%s)", buf_text(&write), lib_str(f->lib, all.at[i].words));
    diag_fix(f->d, at, buf_text(&write), buf_text(&label));
    offered++;
  }
}

/* What the label of such a thing may say: of an oil its weight, of all else a dose. */
static const char *usual_dose(struct line_food *f) {
  const struct img_food *food = library_food(f->lib, f->food);
  return food && food->part == PART_FAT_OIL ? "1000 mg" : "15 mg";
}

bool say_no_weight(struct line_food *f) {
  const struct recipe_line *l = f->line;
  bool bare = l->unit == UNIT_EACH && l->unit_at.n == 0;
  struct span unit = bare ? SPAN_LIT("piece") : l->unit == UNIT_EACH ? quoted(l->unit_at) : span_of(unit_info[l->unit].word);
  struct span food = l->food.n > 0 ? quoted(l->food) : short_name(f->lib, f->food);
  if (unit_info[l->unit].kind == UNIT_KIND_MASS) {
    const char *its_unit = library_own(f->lib, f->food)->unit_word;
    diag_say(f->d, DIAG_ERROR, DIAG_NO_WEIGHT, l->amount_at,
             "the label of '%.*s' does not say what one %s weighs; count them, or add the weight to the label ('Per: 1 %s "
             "(0.4 g)')",
             SPAN_ARG(food), its_unit, its_unit);
  } else if (unit_info[l->unit].kind == UNIT_KIND_IU) {
    diag_say(f->d, DIAG_ERROR, DIAG_LABEL_NEEDED, l->amount_at,
             "[%s] does not say how many IU it contains; give the product's label as a food of your own",
             library_code(f->lib, f->food));
  } else if (!isnan(l->dose) || (l->unit >= UNIT_CAPSULE && l->unit <= UNIT_SOFTGEL)) {
    diag_say(f->d, DIAG_ERROR, DIAG_LABEL_NEEDED, l->amount_at,
             "what is in one %.*s of '%.*s' is not known; write what it holds behind it, as in '1 %s of %.*s %s', or give its "
             "label as a food of your own ('Food: ...', 'Per: 1 %s', 'Zinc: 15 mg')",
             SPAN_ARG(unit), SPAN_ARG(food), unit_info[l->unit].word, SPAN_ARG(food), usual_dose(f),
             unit_info[l->unit].word);
  } else if (l->unit == UNIT_DROP) {
    diag_say(f->d, DIAG_ERROR, DIAG_LABEL_NEEDED, l->amount_at,
             "what one drop of '%.*s' holds is not known; write it behind it, as in '1 drop of vitamin E 10 IU', or the grams",
             SPAN_ARG(food));
  } else {
    diag_say(f->d, DIAG_ERROR, DIAG_NO_WEIGHT, l->amount_at,
             "the weight of one %.*s of '%.*s' is not known%s; weigh it and write the grams", SPAN_ARG(unit), SPAN_ARG(food),
             known_measures(f));
    offer_measures(f);
  }
  return false;
}
