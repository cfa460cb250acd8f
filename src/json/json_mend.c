/* "mend --json": the change, the new text, and how every nutrient stands before and after; all proposals under "proposals".
 */
#include "app/app_mend.h"
#include "base/table.h"

#include "json/json_parts.h"

static const struct mended_answer *answer(const struct at *at) { return at_within(at, &json_mend_shape); }

/* ---- a change ---------------------------------------------------------------------------------------------------- */

static const struct shape body_shape;
static const struct mended *mended(const struct at *at) { return at_within(at, &body_shape); }
static const struct mend_change *change(const struct at *at) { return at->it; }
/* Its place among the proposal's changes, of which some are additions. */
static size_t place(const struct at *at) { return (size_t)(change(at) - mended(at)->proposal->change); }

static size_t repairs(const struct at *at) { return change(at)->repair_count; }
static const char *repair(const struct at *at, size_t i) { return nutrient_info[change(at)->repairs[i]].key; }

static int for_energy(const struct at *at) { return change(at)->energy != 0; }
static int for_balance(const struct at *at) { return change(at)->balance != 0; }

static const struct field REPAIRS[] = {
    TEXTS_OF("repairs", repairs, repair, "keys of nutrients that would miss without it"),
    NUMBER_ALWAYS("too_much_from", "", struct mend_change, too_much_from,
                  "of these, those from this place on would be too much, those before it too little"),
    TRUTH_OF("for_energy", for_energy, "without it energy would leave its limits"),
    TRUTH_OF("for_balance", for_balance, "without it calcium to phosphorus would"),
    NUMBER_ALWAYS("covered", "", struct mend_change, covered,
                  "how many of 'open' are in order once this change and those before it are made"),
    NUMBER("usual_most_g", "g a day", struct mend_change, usual_most, "the usual portion that it passes; null: none"),
};
static const struct shape repairs_shape = SHAPE("MendRepairs", REPAIRS, "what a change is for");

static double change_line(const struct at *at) { return mended(at)->text_line[place(at)]; }
static const char *change_name(const struct at *at) { return mended(at)->food[place(at)]; }
static const char *change_food(const struct at *at) {
  return library_code(at->lib, answer(at)->before->ration->line[change(at)->line].shown_food);
}
static const char *change_from(const struct at *at) { return mended(at)->from[place(at)]; }
static const char *change_to(const struct at *at) { return mended(at)->to[place(at)]; }

static const struct field CHANGE[] = {
    NUMBER_OF_ALWAYS("line", "", change_line, "of the recipe"),
    TEXT_OF_ALWAYS("name", change_name, "what the food is called"),
    TEXT_OF_ALWAYS("food", change_food, "the pin"),
    NUMBER_ALWAYS("from_g", "g a day", struct mend_change, from_g, "as eaten"),
    NUMBER_ALWAYS("to_g", "g a day", struct mend_change, to_g, "as eaten; 0: the line goes"),
    TEXT_OF("from", change_from, "the amount as the text has it"),
    TEXT_OF("to", change_to, "the amount as the new text has it; null when the line goes"),
    TRUTH("dangerous", struct mend_change, danger, "taken out because it must not be fed"),
    SAME_AS(&repairs_shape),
};
static const struct shape change_shape = SHAPE("MendChange", CHANGE, "a line that changes");

static const char *added_text(const struct at *at) {
  const struct mended *m = mended(at);
  for (size_t k = 0; k < m->lines; k++)
    if (m->line[k].kind == LINE_IN && m->line[k].change == (int)place(at)) return m->line[k].text;
  return NULL;
}

static const struct field ADDED[] = {
    TEXT_OF_ALWAYS("name", change_name, "what the food is called"),
    NUMBER_ALWAYS("to_g", "g a day", struct mend_change, to_g, "as eaten"),
    TEXT_OF("to", change_to, "the amount as the new text has it"),
    TEXT_OF("text", added_text, "the new line"),
    SAME_AS(&repairs_shape),
};
static const struct shape added_shape = SHAPE("MendAdded", ADDED, "a line that is added");

static size_t changes(const struct at *at) { return mended(at)->proposal->count; }
static const void *changed(const struct at *at, size_t i) {
  const struct mend_change *c = &mended(at)->proposal->change[i];
  return c->line >= 0 ? c : NULL;
}
static const void *added(const struct at *at, size_t i) {
  const struct mend_change *c = &mended(at)->proposal->change[i];
  return c->line < 0 ? c : NULL;
}

/* ---- nutrients, before and after --------------------------------------------------------------------------------- */

static const struct nutrient_result *is(const struct at *at) { return at->it; }
static const struct nutrient_result *was(const struct at *at) { return &answer(at)->before->nutrient[is(at)->id]; }
static const char *nutrient_key(const struct at *at) { return nutrient_info[is(at)->id].key; }
static const char *nutrient_unit(const struct at *at) { return nutrient_info[is(at)->id].unit; }
static double nutrient_before(const struct at *at) { return was(at)->window_amount; }
static int verdict_before(const struct at *at) { return (int)was(at)->verdict; }

static const struct field NUTRIENT[] = {
    TEXT_OF_ALWAYS("key", nutrient_key, "of the nutrient"),
    TEXT_OF_ALWAYS("unit", nutrient_unit, "of the amounts"),
    NUMBER_OF("before", "unit", nutrient_before, "a day, in the poorest window"),
    NUMBER("after", "unit", struct nutrient_result, window_amount, "a day, in the poorest window"),
    NUMBER("allowance", "unit", struct nutrient_result, allowance, "a day"),
    NUMBER("upper", "unit", struct nutrient_result, upper, "a day"),
    NUMBER("chance_met", "", struct nutrient_result, chance_met, "afterwards"),
    WORD_OF_ALWAYS("verdict_before", verdict_before, verdict_word, VERDICT_COUNT, ""),
    WORD("verdict", struct nutrient_result, verdict, verdict_word, VERDICT_COUNT, ""),
};
static const struct shape nutrient_shape = SHAPE("MendNutrient", NUTRIENT, "a nutrient before and after");

static size_t nutrients(const struct at *at) {
  (void)at;
  return NUT_COUNT;
}
static const void *nutrient(const struct at *at, size_t i) {
  const struct nutrient_result *n = &mended(at)->after->nutrient[i];
  bool judged = n->verdict != VERDICT_NO_FIGURE || answer(at)->before->nutrient[i].verdict != VERDICT_NO_FIGURE;
  return judged ? n : NULL;
}

/* ---- a proposal -------------------------------------------------------------------------------------------------- */

static const struct field PROPOSAL[] = {
    NUMBER("objective", "", struct mend_proposal, cost, "what the search made least"),
    NUMBER_ALWAYS("lines_touched", "", struct mend_proposal, count, ""),
    NUMBER_ALWAYS("fewest_possible", "", struct mend_proposal, fewest,
                  "no change of fewer lines exists within the two bounds below"),
    TRUTH("fewest_proven", struct mend_proposal, fewest_proven, "it has no more lines than that"),
    TRUTH("least_proven", struct mend_proposal, least_proven,
          "before rounding none of as many lines costs a thousandth less"),
    TRUTH("one_line_more_for_round_amounts", struct mend_proposal, one_more,
          "with fewer, amounts would not have been measurable"),
    WORD("with", struct mend_proposal, with, mend_with_word, MEND_WITH_COUNT, "what it is made with"),
    NUMBER_ALWAYS("open", "", struct mend_proposal, open, "nutrients that were to be put in order"),
    TRUTH("partial", struct mend_proposal, partial, "the first steps only: things stay open"),
    NUMBER("cut_at_most", "", struct mend_proposal, reach.cut_main, "share of a main food that could be taken away"),
    NUMBER("stretched_at_most_times", "", struct mend_proposal, reach.stretch,
           "how many times the usual portion could be passed"),
};
static const struct shape proposal_shape = SHAPE("MendProposal", PROPOSAL, "how good the change is");
static const void *proposal(const struct at *at) { return mended(at)->proposal; }

static double kcal_before(const struct at *at) { return answer(at)->before->energy.supply_kcal; }
static double kcal_after(const struct at *at) { return mended(at)->after->energy.supply_kcal; }

static size_t asks(const struct at *at) { return mended(at)->ask_count; }
static const char *ask(const struct at *at, size_t i) { return mended(at)->asks[i]; }

static void write_left(struct json *j, const char *key, const struct at *at) {
  (void)key;
  json_left(j, at, answer(at)->before, mended(at)->after);
}

static const struct field BODY[] = {
    ROWS_OF("change", changes, changed, &change_shape, "lines that change"),
    ROWS_OF("added", changes, added, &added_shape, "lines that are added"),
    TEXT("text", struct mended, text, "the new recipe, which `check` reads"),
    NUMBER("cost_per_day", "currency a day", struct mended, cost, "at the larder's prices; null when a food has none"),
    TEXT("summary", struct mended, summary, "what it comes to, in a sentence"),
    TEXTS_OF("asks", asks, ask, "what it stretches, in words"),
    TEXT("another_dinner", struct mended, unlike,
         "a main food of which less than half is left for the sake of other things; null: it is the same dinner"),
    SAME_OF_ALWAYS(proposal, &proposal_shape),
    NUMBER_OF("supply_kcal_before", "kcal a day", kcal_before, ""),
    NUMBER_OF("supply_kcal", "kcal a day", kcal_after, ""),
    ROWS_OF("nutrients", nutrients, nutrient, &nutrient_shape, "those with a figure"),
    FREE_SAME(write_left, &json_left_shape),
};
static const struct shape body_shape = SHAPE("MendFound", BODY, "a change of the recipe");

/* ---- cooked first ------------------------------------------------------------------------------------------------ */

static const struct field COOKED[] = {
    NUMBER_ALWAYS("line", "", struct cooked_first, line, "of the recipe"),
    TEXT("name", struct cooked_first, food, "what the food is called"),
    TEXT("from", struct cooked_first, was, "the whole line, raw"),
    TEXT("to", struct cooked_first, is, "the whole line, cooked; its amount may change as well"),
};
static const struct shape cooked_shape =
    SHAPE("MendCooked", COOKED, "a line that is cooked, because raw it destroys thiamin");
static size_t cooked_lines(const struct at *at) { return answer(at)->cooked_count; }
static const void *cooked_line(const struct at *at, size_t i) { return &answer(at)->cooked[i]; }

/* ---- set right first --------------------------------------------------------------------------------------------- */

static const struct field PLATE[] = {
    NUMBER_ALWAYS("line", "", struct plate_line, line, "of the recipe"),
    TEXT("name", struct plate_line, food, "what the food was called"),
    TEXT("from", struct plate_line, was, "the whole line"),
    TEXT("to", struct plate_line, is, "the whole line as the search began with it; empty: taken out"),
};
static const struct shape plate_shape =
    SHAPE("MendPlate", PLATE, "a line that was changed first, because the proportions of the dinner were wrong");
static size_t plate_lines(const struct at *at) { return answer(at)->plate_count; }
static const void *plate_line(const struct at *at, size_t i) { return &answer(at)->plate[i]; }
static const char *plate_said(const struct at *at) {
  return answer(at)->plate_count > 0 ? answer(at)->plate_words : NULL;
}

/* ---- left out first ---------------------------------------------------------------------------------------------- */

static const struct field LEFT_OUT[] = {
    NUMBER_ALWAYS("line", "", struct left_out, line, "of the recipe"),
    TEXT("from", struct left_out, was, "the whole line"),
    TEXT("advice", struct left_out, advice, "what to do about it"),
};
static const struct shape left_out_shape =
    SHAPE("MendLeftOut", LEFT_OUT, "a line of something uncounted that is taken out, because it is dangerous");
static size_t left_out_lines(const struct at *at) { return answer(at)->left_out_count; }
static const void *left_out_line(const struct at *at, size_t i) { return &answer(at)->left_out[i]; }

/* ---- the whole --------------------------------------------------------------------------------------------------- */

/* ORDER MEND_STATUS. */
static const char *const STATUS[] = {"found", "none-exists", "stopped", "refused", "not-linear"};
ROW_FOR_EACH(STATUS, MEND_NOT_LINEAR + 1);

static int status(const struct at *at) { return (int)answer(at)->mend->status; }
static const struct check_result *before(const struct at *at) { return answer(at)->before; }
static const char *recipe(const struct at *at) { return before(at)->ration->name; }
static const char *animal(const struct at *at) { return before(at)->animal ? before(at)->animal->name : NULL; }
static int standard(const struct at *at) { return (int)before(at)->options.standard; }
static int basis(const struct at *at) { return (int)before(at)->allowances.basis; }
static double sure(const struct at *at) { return before(at)->options.sure; }
static double scaled(const struct at *at) { return answer(at)->scaled > 0 ? answer(at)->scaled : NOT_KNOWN; }
static const char *not_counted(const struct at *at) {
  const char *words = answer(at)->not_counted;
  return words && words[0] ? words : NULL;
}
static int already_met(const struct at *at) { return answer(at)->mend->already_met; }
static int stopped(const struct at *at) { return answer(at)->mend->stopped; }
static const char *refused(const struct at *at) {
  return answer(at)->mend->status == MEND_REFUSED ? refusal_key(before(at)->refusal) : NULL;
}
static const void *first_found(const struct at *at) { return answer(at)->count > 0 ? &answer(at)->found[0] : NULL; }
static size_t more(const struct at *at) { return answer(at)->count; }

/* Whoever reads these keys finds them in every answer. */
static size_t no_changes(const struct at *at) {
  (void)at;
  return 0;
}
static const void *no_change(const struct at *at, size_t i) {
  (void)at;
  (void)i;
  return NULL;
}
static const char *no_text(const struct at *at) {
  (void)at;
  return NULL;
}
static const struct field UNCHANGED[] = {
    ROWS_OF("change", no_changes, no_change, &change_shape,
            "lines that change; none where nothing needs to change, or where no change was found"),
    ROWS_OF("added", no_changes, no_change, &added_shape, "lines that are added; none in the same cases"),
    TEXT_OF("text", no_text, "the new recipe, which `check` reads; null in the same cases"),
};
static const struct shape unchanged_shape =
    SHAPE("MendUnchanged", UNCHANGED, "what stands in place of a change where nothing needs to change or no change exists");
static const void *unchanged(const struct at *at) { return answer(at)->count == 0 ? answer(at) : NULL; }

static const void *another(const struct at *at, size_t i) { return &answer(at)->found[i]; }

static int proven(const struct at *at) { return answer(at)->mend->proven; }
static size_t conflicts(const struct at *at) { return answer(at)->mend->conflict.count; }
static const char *conflict(const struct at *at, size_t i) { return answer(at)->mend->conflict.words[i]; }
static const void *nearest(const struct at *at) { return answer(at)->nearest; }
static const void *helps(const struct at *at) { return &answer(at)->mend->help; }

static const struct field NONE[] = {
    TRUTH_OF("proven", proven, "by arithmetic, not by patience"),
    TEXTS_OF("conflict", conflicts, conflict, "a smallest set of limits that cannot all be kept, in words"),
    OBJECT_OF("nearest", nearest, &body_shape, "the change that comes closest"),
    SAME_OF_ALWAYS(helps, &json_helps_shape),
};
static const struct shape none_shape = SHAPE("MendNone", NONE, "why there is no change");
static const void *none(const struct at *at) {
  enum mend_status s = answer(at)->mend->status;
  return s == MEND_NONE || s == MEND_STOPPED ? answer(at) : NULL;
}

static size_t nevers(const struct at *at) { return answer(at)->before->ration->never_count; }
static const char *never(const struct at *at, size_t i) { return answer(at)->before->ration->never[i]; }

static const struct field MEND[] = {
    WORD_OF_ALWAYS("status", status, STATUS, (int)COUNT_OF(STATUS), ""),
    TEXT_OF("recipe", recipe, "its name"),
    TEXT_OF("animal", animal, "its name; null when only a weight was given"),
    WORD_OF_ALWAYS("standard", standard, standard_key, STANDARD_COUNT, ""),
    WORD_OF_ALWAYS("basis", basis, basis_key, BASIS_COUNT, ""),
    NUMBER_OF_ALWAYS("sure", "", sure, "the confidence asked for, 0.5 to 0.99"),
    TEXT_OF("not_counted", not_counted,
            "what is fed but not counted, what to do about it first, and whether that kept the rest from being scaled"),
    TEXTS_OF("never", nevers, never, "foods that the text says are not to be proposed, as it names them"),
    TRUTH_OF("already_met", already_met, "nothing needs to change"),
    NUMBER_OF("scaled", "", scaled, "every amount was first multiplied by this to fit the energy; null: it fitted"),
    ROWS_OF("left_out", left_out_lines, left_out_line, &left_out_shape, "dangers in what is not counted, taken out"),
    TEXT_OF("plate_words", plate_said, "what is wrong with the dinner as a whole, and what was set right first"),
    ROWS_OF("plate", plate_lines, plate_line, &plate_shape, "lines that were changed for that"),
    ROWS_OF("cooked", cooked_lines, cooked_line, &cooked_shape, "raw fish that a cat must not have raw, written as cooked"),
    TRUTH_OF("stopped", stopped, "the search was ended by whoever waited"),
    TEXT_OF("refused", refused, "why no formula is given: a key"),
    SAME_OF_ALWAYS(unchanged, &unchanged_shape), /* or the same keys of what was found: one of the two always stands */
    SAME_OF(first_found, &body_shape),
    ROWS_OF("proposals", more, another, &body_shape, "all of them, the one shown first first"),
    SAME_OF(none, &none_shape),
};
const struct shape json_mend_shape = SHAPE("Mend", MEND, "the answer of `mend --json`");

void json_mend(const struct library *lib, const struct app_mend_answer *a, struct buf *out) {
  json_write(lib, &json_mend_shape, &a->answer, out);
}
