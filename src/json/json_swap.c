/* "swap --json": the foods that could stand in a line's place, best first. */
#include "judge/verdict.h"

#include "json/json_parts.h"

static const struct swapped *swapped(const struct at *at) { return at_within(at, &json_swap_shape); }

/* ---- verdicts that move: 'it' is the nutrient -------------------------------------------------------------------- */

static const struct shape hit_shape;
static const struct swapped_hit *hit(const struct at *at) { return at_within(at, &hit_shape); }

static enum nutrient moved(const struct at *at) { return *(const enum nutrient *)at->it; }
static const char *move_key(const struct at *at) { return nutrient_info[moved(at)].key; }
static int move_before(const struct at *at) { return (int)swapped(at)->before->nutrient[moved(at)].verdict; }
static int move_after(const struct at *at) { return (int)hit(at)->after->nutrient[moved(at)].verdict; }

static const struct field MOVE[] = {
    TEXT_OF_ALWAYS("key", move_key, "of the nutrient"),
    WORD_OF_ALWAYS("before", move_before, verdict_word, VERDICT_COUNT, "as the recipe is"),
    WORD_OF_ALWAYS("after", move_after, verdict_word, VERDICT_COUNT, "with this food"),
};
static const struct shape move_shape = SHAPE("SwapMove", MOVE, "a verdict that changes");

static const char *hit_food(const struct at *at) { return library_code(at->lib, hit(at)->food); }
static int hit_is_close(const struct at *at) { return hit(at)->near == SWAP_CLOSE; }
static const char *hit_near(const struct at *at) { return swap_near_word[hit(at)->near]; }
static const char *hit_name(const struct at *at) { return library_name(at->lib, hit(at)->food); }

enum { SCORE_DIGITS = 5 };

static const struct field HIT[] = {
    TEXT_OF_ALWAYS("food", hit_food, "the pin"),
    TEXT_OF_ALWAYS("name", hit_name, "of the record"),
    NUMBER_ALWAYS("grams", "g", struct swapped_hit, grams, "as eaten on a feeding day"),
    {MEMBER("score", "", struct swapped_hit, score, "what is repaired less what is broken"), .digits = SCORE_DIGITS},
    ROWS("repairs", struct swapped_hit, repairs, repair_count, &move_shape, "verdicts that get better"),
    ROWS("breaks", struct swapped_hit, breaks, break_count, &move_shape, "verdicts that get worse"),
    NUMBER("fat_g_change", "g a day", struct swapped_hit, fat_g, ""),
    NUMBER("kcal_change", "kcal a day", struct swapped_hit, kcal, ""),
    NUMBER("grams_change", "g a day", struct swapped_hit, eaten_g, ""),
    NUMBER("cost_per_day", "currency", struct swapped_hit, cost, "of this line; null without a price"),
    TRUTH_OF("familiar", hit_is_close, "the same animal's, or the same kind of plant: these come first"),
    TEXT_OF_ALWAYS("near", hit_near, "close (as above), common (in most shops), rare: in this order"),
    TRUTH("thiaminase", struct swapped_hit, thiaminase, "as fed it is reported to hold an enzyme that destroys thiamin"),
    TEXT("text", struct swapped_hit, text, "the line as it would be typed, grams rounded to three digits"),
};
static const struct shape hit_shape = SHAPE("SwapHit", HIT, "a food for the line's place");

/* ---- the whole --------------------------------------------------------------------------------------------------- */

static const struct ration_line *line(const struct at *at) { return &swapped(at)->ration->line[swapped(at)->line]; }
static const char *line_food(const struct at *at) { return library_code(at->lib, line(at)->shown_food); }
static double line_cost(const struct at *at) { return swapped(at)->cost; }

static const struct field LINE[] = {
    NUMBER_ALWAYS("line", "", struct ration_line, line, "of the recipe"),
    TEXT("text", struct ration_line, text, "as written"),
    TEXT_OF_ALWAYS("food", line_food, "the pin"),
    NUMBER_ALWAYS("grams", "g", struct ration_line, grams_fed, "as eaten on a feeding day"),
    NUMBER_OF("cost_per_day", "currency", line_cost, "null without a price"),
};
static const struct shape line_shape = SHAPE("SwapLine", LINE, "the line to be exchanged");
static const void *the_line(const struct at *at) { return line(at); }

static const char *const EQUAL[] = {"energy", "mass"};
static int equal(const struct at *at) { return swapped(at)->by_mass; }
static int standard(const struct at *at) { return (int)swapped(at)->before->options.standard; }
static double sure(const struct at *at) { return swapped(at)->before->options.sure; }
static const char *refused(const struct at *at) {
  return swapped(at)->refused ? refusal_text(animal_refusal(swapped(at)->before->animal)) : NULL;
}

static const struct field SWAP[] = {
    OBJECT_OF_ALWAYS("line", the_line, &line_shape, ""),
    WORD_OF_ALWAYS("equal", equal, EQUAL, (int)COUNT_OF(EQUAL), "what stays the same"),
    TRUTH("everyday", struct swapped, everyday, "only foods that have an everyday name were looked at"),
    TEXT("part", struct swapped, part, "a key of `parts`: only foods of this part; null: any"),
    WORD_OF_ALWAYS("standard", standard, standard_key, STANDARD_COUNT, ""),
    NUMBER_OF_ALWAYS("sure", "", sure, "the confidence asked for, 0.5 to 0.99"),
    NUMBER_ALWAYS("offered", "", struct swapped, offered, "foods looked at"),
    NUMBER_ALWAYS("possible", "", struct swapped, possible, "of those, light enough to be eaten"),
    ROWS("hits", struct swapped, hit, count, &hit_shape, "best first"),
    TEXT_OF("refused", refused, "why nothing is offered"),
};
const struct shape json_swap_shape = SHAPE("Swap", SWAP, "the answer of `swap --json`");

void json_swap(const struct library *lib, const struct swapped *s, struct buf *out) {
  json_write(lib, &json_swap_shape, s, out);
}
