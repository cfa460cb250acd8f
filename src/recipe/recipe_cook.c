/* Cooking losses and bone: what of the written grams is counted, and as which record. */
#include <math.h>

#include "base/num.h"
#include "recipe/recipe_food.h"
#include "text/scan.h"

/* 5 to 95 % of a normal spread, in standard deviations. */
static const double SPREAD_90 = 2 * 1.645;

/* ---- cooking ---- */

struct cooked {
  double yield; /* cooked grams of one gram of raw flesh; 1 when the record counts it as it is fed, or nothing is known */
  double yield_cv;
  bool weighed_raw; /* else as fed */
  int32_t retention;
};

static struct span food_words(const struct line_food *f) {
  return f->line->food.n > 0 ? quoted(f->line->food) : short_name(f->lib, f->food);
}

static struct span food_place(const struct line_food *f) {
  return f->line->food_at.n > 0 ? f->line->food_at : f->line->pin_at;
}

static int32_t choose_retention(struct line_food *f) {
  const struct img_food *food = library_food(f->lib, f->food);
  bool other = false, broth_matters = false;
  const struct img_retention *row =
      retention_row(f->lib, food->retention_group, f->state, f->line->broth, &other, &broth_matters);
  if (!row) {
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, food_place(f),
             "no cooking losses are known for '%.*s'; its vitamins are counted as if nothing were lost",
             SPAN_ARG(food_words(f)));
    return -1;
  }
  if (other)
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, food_place(f),
             "no cooking losses are known for '%.*s', %s; those of %s are used", SPAN_ARG(food_words(f)),
             state_word[f->state], state_word[row->state % STATE_COUNT]);
  if (broth_matters && f->line->broth < 0)
    diag_say(f->d, DIAG_WARNING, DIAG_COOKING, food_place(f),
             "counted as if the cooking water of '%.*s' were poured away; write 'with broth' if it is fed",
             SPAN_ARG(food_words(f)));
  return (int32_t)(row - IMG_ROWS(&f->lib->image, IMG_RETENTION, struct img_retention));
}

static bool say_no_yield(struct line_food *f, const char *why) {
  diag_say(f->d, DIAG_ERROR, DIAG_COOKING, food_place(f),
           "only a raw record of '%.*s' is known, [%s], and %s; weigh it raw and write 'raw weight, %s'",
           SPAN_ARG(food_words(f)), library_code(f->lib, f->food), why,
           f->state == STATE_COOKED_OTHER ? "simmered" : state_word[f->state]);
  return false;
}

static void say_rough_yield(struct line_food *f, struct weight_yield y) {
  struct buf b;
  buf_init(&b, f->arena, 80);
  num_sig(&b, y.low, 3);
  buf_adds(&b, " to ");
  num_sig(&b, y.high, 3);
  if (y.high > 1.15 * y.low)
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, food_place(f),
             "how much raw '%.*s' this was is only roughly known (1 g raw gives %s g cooked); weigh it raw and write 'raw "
             "weight, %s'",
             SPAN_ARG(food_words(f)), buf_text(&b), f->state == STATE_COOKED_OTHER ? "simmered" : state_word[f->state]);
}

/* A raw record that stands for cooked food. Pieces are counted as bought; spoons and grams are as fed unless the line says
 * that they were weighed raw. */
static bool cook_raw_record(struct line_food *f, struct cooked *c) {
  struct weight_yield y = yield_of(f->lib, f->food, f->state, f->arena);
  c->weighed_raw = f->line->raw_weight || f->piece;
  if (y.mean > 0) c->yield = y.mean;
  if (!c->weighed_raw) {
    if (f->spooned && !(f->line->package_g > 0))
      return say_no_yield(f, "a spoon or cup of it weighs something else when it is cooked");
    if (!(y.mean > 0)) return say_no_yield(f, "how much weight it loses or gains is not");
    c->yield_cv = (y.high - y.low) / (SPREAD_90 * y.mean);
    say_rough_yield(f, y);
  }
  c->retention = choose_retention(f);
  return true;
}

/* A record that was cooked by another method stands in; that is said. */
static void say_other_method(struct line_food *f, enum state is) {
  if (!same_kind_of_heat(f->state, is))
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, food_place(f), "there is no %s record of '%.*s'; [%s], which is %s, is used",
             state_word[f->state], SPAN_ARG(food_words(f)), library_code(f->lib, f->food), state_word[is]);
}

static bool read_cooking(struct line_food *f, struct cooked *c, struct ration_line *out) {
  const struct img_food *r = library_food(f->lib, f->food);
  bool wants_cooked = state_is_cooked(f->state) && f->state != STATE_CANNED;
  *c = (struct cooked){.yield = 1, .retention = -1};
  out->state = (enum state)r->state;
  out->broth_kept = f->line->broth == 1;
  if (!wants_cooked) {
    bool pinned_cooked = f->line->pin.n > 0 && f->state == STATE_RAW && state_is_cooked(out->state);
    if (pinned_cooked)
      diag_say(f->d, DIAG_WARNING, DIAG_COOKING, f->line->pin_at, "the line says raw, and [%s] is a %s record",
               library_code(f->lib, f->food), state_word[out->state]);
    return true;
  }
  if (stays_as_it_is(r)) return true;
  if (!cooks_from_raw(r)) {
    if (!f->line->raw_weight) { /* published as cooked, weighed as cooked */
      say_other_method(f, out->state);
      return true;
    }
    diag_say(f->d, DIAG_ERROR, DIAG_COOKING, food_place(f),
             "[%s] is a %s record and the weight is a raw one; pin a raw record or leave out 'raw weight'",
             library_code(f->lib, f->food), state_word[out->state]);
    return false;
  }
  out->state = f->state;
  if (f->by_header && r->retention_group == RETAIN_NO_GROUP) {
    out->state = (enum state)r->state;
    diag_say(f->d, DIAG_WARNING, DIAG_COOKING, food_place(f),
             "no cooking figures are known for '%.*s'; it is counted uncooked", SPAN_ARG(food_words(f)));
    return true;
  }
  return cook_raw_record(f, c);
}

/* ---- bone ---- */

static bool wants_bone(const struct line_food *f) {
  if (f->line->wish.bone_in >= 0) return f->line->wish.bone_in == 1;
  return library_food(f->lib, f->food)->flags & (FOOD_ALWAYS_BONE_IN | FOOD_CUT);
}

static bool has_bone(const struct img_food *r) { return r->bone_share > 0 && r->bone_share < 1 && r->bone_food != NO_INDEX; }

/* The bones of tinned fish are soft and are analysed with the rest: by its name, or by more calcium than the flesh of any
 * fish holds (USDA SR28: raw fillets at most 110 mg per 100 g, tins with their bones from 198 mg on). */
static bool holds_its_bone(const struct library *lib, uint32_t food) {
  static const double NO_FLESH_MG = 150;
  const struct img_food *r = library_food(lib, food);
  struct span name = span_of(library_name(lib, food));
  if (r->part != PART_FISH || r->state != STATE_CANNED || span_holds_fold(name, SPAN_LIT("without skin"))) return false;
  const struct img_value *calcium = &library_values(lib, food)[NUT_CALCIUM];
  return span_holds_fold(name, SPAN_LIT("with bone")) ||
         (calcium->status != VALUE_UNKNOWN && (double)calcium->mean >= NO_FLESH_MG);
}

/* Records of the same creature that have a bone share, those with shared words first. */
static const char *bone_in_records(struct line_food *f) {
  enum { MOST = 24, SHOWN = 5 };
  struct search_hit hits[MOST];
  struct search_wish wish = SEARCH_WISH_NONE;
  wish.bone_in = 1;
  const struct img_food *r = library_food(f->lib, f->food);
  struct buf b;
  buf_init(&b, f->arena, 600);
  struct span words = f->line->food.n > 0 ? f->line->food : span_of(library_name(f->lib, f->food));
  size_t count = search_foods(f->lib, words, &wish, hits, MOST, f->arena);
  int shown = 0;
  uint32_t last[SHOWN];
  for (size_t i = 0; i < count + library_count(f->lib) && shown < SHOWN; i++) {
    uint32_t food = i < count ? hits[i].food : (uint32_t)(i - count);
    const struct img_food *other = library_food(f->lib, food);
    bool again = false;
    for (int k = 0; k < shown; k++) again = again || last[k] == food;
    if (!has_bone(other) || other->kind != r->kind || again || (i >= count && !(other->flags & FOOD_CUT))) continue;
    buf_addf(&b, "%s[%s] %.*s", shown > 0 ? ", " : "; bone-in records are ", library_code(f->lib, food),
             SPAN_ARG(short_name(f->lib, food)));
    last[shown++] = food;
  }
  return buf_text(&b);
}

/* The bone keeps its weight in the pot: a raw piece of bone share s weighs, cooked, s + (1 - s) x yield of itself. */
static void fill_portions(struct line_food *f, double grams, double cv, struct cooked c, double share,
                          struct ration_line *out) {
  const struct img_food *r = library_food(f->lib, f->food);
  double piece = f->edible_only ? grams / (1 - share) : grams, kept = share + (1 - share) * c.yield;
  double raw = c.weighed_raw ? piece : piece / kept;
  out->grams_fed = raw * kept;
  cv = hypot(cv, c.yield_cv);
  double bone_cv = share > 0 && r->bone_share_cv >= 0 ? (double)r->bone_share_cv : 0;
  double flesh_cv = bone_cv * share / (1 - share); /* what the bone has more, the flesh has less */
  out->part_count = share > 0 ? 2 : 1;
  out->part[0] = (struct portion){f->food, raw * (1 - share), hypot(cv, flesh_cv), c.retention};
  if (share > 0) out->part[1] = (struct portion){r->bone_food, raw * share, hypot(cv, bone_cv), -1};
  bool is_bone = share > 0 && (library_food(f->lib, r->bone_food)->flags & FOOD_BONE); /* and no eggshell */
  out->cooked_bone = is_bone && state_is_cooked(out->state) && out->state != STATE_CANNED;
}

bool cook_and_bone(struct line_food *f, double grams, double grams_cv, struct ration_line *out) {
  struct cooked c;
  if (!read_cooking(f, &c, out)) return false;
  const struct img_food *r = library_food(f->lib, f->food);
  bool bone = wants_bone(f) && !(r->flags & FOOD_BONE);
  if (bone && !has_bone(r) && holds_its_bone(f->lib, f->food)) bone = false;
  if (bone && !has_bone(r) && f->line->wish.bone_in == 1) {
    const char *others = bone_in_records(f);
    diag_say(f->d, DIAG_ERROR, DIAG_NO_WEIGHT, food_place(f), "how much of '%.*s' is bone is not known for [%s]%s",
             SPAN_ARG(food_words(f)), library_code(f->lib, f->food),
             others[0] ? others : "; weigh flesh and bone apart, with a line such as '20 g [bone:fish]' for the bone");
    return false;
  }
  bool counted_raw = f->piece && (out->state == STATE_RAW || out->state == STATE_UNSTATED);
  if (!bone && counted_raw && f->line->wish.bone_in < 0 && f->line->pin.n == 0 && has_bone(r))
    diag_say(f->d, DIAG_WARNING, DIAG_ASSUMED, food_place(f),
             "'%.*s' is counted without its bone; write 'bone-in' if the bone is eaten, 'boneless' if not",
             SPAN_ARG(food_words(f)));
  bool said = f->line->state != STATE_UNSTATED || f->recipe->cook != STATE_UNSTATED || f->line->pin.n > 0;
  fill_portions(f, grams, grams_cv, c, bone && has_bone(r) ? (double)r->bone_share : 0, out);
  out->state_assumed = !said && out->part_count < 2 && !state_is_cooked(out->state); /* bone is eaten raw */
  return true;
}
