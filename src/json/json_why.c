/* "why" of "check --json --why": every factor of the arithmetic, so that it can be done again from the printed numbers. */
#include "explain/why.h"

#include "json/json_parts.h"

/* A source in two keys: its key, and the publication in one line. */
static const char *title_of(const struct library *lib, uint32_t source) {
  const struct img_source *row = source ? library_source(lib, source) : NULL;
  return row ? lib_str(lib, row->title) : NULL;
}

#define SOURCE_OF(name, type)                                                                                               \
  static const char *name##_source(const struct at *at) {                                                                   \
    return json_source_key(at->lib, ((const type *)at->it)->source);                                                        \
  }                                                                                                                         \
  static const char *name##_title(const struct at *at) { return title_of(at->lib, ((const type *)at->it)->source); }
#define SOURCE_ROWS(name)                                                                                                   \
  TEXT_OF("source", name##_source, "key of the source"), TEXT_OF("source_title", name##_title, "the publication")

/* ---- lines ------------------------------------------------------------------------------------------------------- */

#define WHY_DIGITS 6 /* what the library stores */

static const char *term_key(const struct at *at) { return nutrient_info[((const struct why_term *)at->it)->nutrient].key; }
static const char *term_origin(const struct at *at) {
  const char *words = ((const struct why_term *)at->it)->origin;
  return words[0] ? words : NULL;
}
static const char *term_unit(const struct at *at) { return nutrient_info[((const struct why_term *)at->it)->nutrient].unit; }
static double term_cv(const struct at *at) {
  const struct why_term *t = at->it;
  return t->status == VALUE_UNKNOWN ? NOT_KNOWN : t->cv;
}
SOURCE_OF(term, struct why_term)

static const struct field TERM[] = {
    TEXT_OF_ALWAYS("key", term_key, "of the record's figure"),
    TEXT_OF_ALWAYS("unit", term_unit, "of the figure"),
    NUMBER_ALWAYS("factor", "", struct why_term, factor, "1, or what turns this figure into the nutrient"),
    {MEMBER("per_100g", "unit", struct why_term, value, "of the record"), .digits = WHY_DIGITS},
    WORD("status", struct why_term, status, value_status_word, VALUE_STATUS_COUNT, "what kind of figure it is"),
    {.key = "cv",
     .unit = "",
     .doc = SAID("its coefficient of variation"),
     .kind = FIELD_NUMBER_OF,
     .digits = WHY_DIGITS,
     .number = term_cv},
    SOURCE_ROWS(term),
    TEXT_OF("origin", term_origin, "where the figure comes from, in one line"),
    {MEMBER("kept", "", struct why_term, kept, "share that cooking leaves"), .digits = WHY_DIGITS},
    WORD("kept_status", struct why_term, kept_status, value_status_word, VALUE_STATUS_COUNT, ""),
    {MEMBER("kept_cv", "", struct why_term, kept_cv, ""), .digits = WHY_DIGITS},
};
static const struct shape term_shape = SHAPE("WhyTerm", TERM, "one figure of a record");

static const char *cooking_code(const struct at *at) {
  return lib_str(at->lib, ((const struct img_retention *)at->it)->code);
}
static const char *cooking_words(const struct at *at) {
  return lib_str(at->lib, ((const struct img_retention *)at->it)->words);
}
SOURCE_OF(cooking, struct img_retention)

static const struct field COOKING[] = {
    TEXT_OF("code", cooking_code, "of the row, as its table prints it"),
    TEXT_OF("words", cooking_words, "what the row is about"),
    SOURCE_ROWS(cooking),
    NUMBER_ALWAYS("row", "", struct img_retention, row, "of the data file"),
};
static const struct shape cooking_shape = SHAPE("WhyCooking", COOKING, "the row behind the losses in cooking");

static const struct why_portion *portion(const struct at *at) { return at->it; }
static const struct ration_line *line_of(const struct at *at) {
  return &checked_result(at)->ration->line[portion(at)->line];
}
static const struct why_chain *chain(const struct at *at);

enum { PIECE_WHOLE, PIECE_FLESH, PIECE_BONE };
static const char *const PIECE[] = {"whole", "flesh", "bone"};

static double portion_line(const struct at *at) { return line_number(line_of(at)); }
static const char *portion_text(const struct at *at) { return line_of(at)->text; }
static const char *portion_food(const struct at *at) { return library_code(at->lib, portion(at)->food); }
static const char *portion_name(const struct at *at) { return library_name(at->lib, portion(at)->food); }
static int portion_part(const struct at *at) {
  return line_of(at)->part_count < 2 ? PIECE_WHOLE : portion(at)->part == 0 ? PIECE_FLESH : PIECE_BONE;
}
static const char *portion_grams_from(const struct at *at) { return line_of(at)->grams_from; }
static double portion_days(const struct at *at) { return line_of(at)->times_per_28 / 4; }
static const void *portion_cooked(const struct at *at) { return portion(at)->cooked; }
static double portion_variance(const struct at *at) {
  const struct why_portion *p = portion(at);
  double whole = chain(at)->variance;
  return whole > 0 ? (p->from_content + p->from_kept + p->from_weight) / whole : NOT_KNOWN;
}

static const struct field VARIANCE[] = {
    NUMBER_ALWAYS("content", "unit squared", struct why_portion, from_content, "by the spread of foods"),
    NUMBER_ALWAYS("cooking", "unit squared", struct why_portion, from_kept, "by what cooking leaves"),
    NUMBER_ALWAYS("weight", "unit squared", struct why_portion, from_weight, "by the amount"),
};
static const struct shape variance_shape = SHAPE("WhyVariance", VARIANCE, "parts of the variance of the sum");

static const struct field PORTION[] = {
    NUMBER_OF("line", "", portion_line, "of the recipe"),
    TEXT_OF("text", portion_text, "as written"),
    TEXT_OF_ALWAYS("food", portion_food, "the pin"),
    TEXT_OF_ALWAYS("name", portion_name, "of the record"),
    WORD_OF_ALWAYS("part", portion_part, PIECE, (int)COUNT_OF(PIECE), "of a piece with bone"),
    TEXT_OF("grams_from", portion_grams_from, "how a count or spoon became grams"),
    NUMBER("grams_when_fed", "g", struct why_portion, grams_fed, "on a day when it is fed, as the record counts it"),
    NUMBER_OF("days_per_week", "days", portion_days, ""),
    NUMBER("grams_per_day", "g a day", struct why_portion, grams, "over the calendar"),
    NUMBER("grams_cv", "", struct why_portion, grams_cv, ""),
    NUMBER("grams_per_day_lean", "g a day", struct why_portion, lean_grams, "in the poorest window"),
    NUMBER("grams_per_day_rich", "g a day", struct why_portion, rich_grams, "in the richest window"),
    OBJECT_OF("cooking_table", portion_cooked, &cooking_shape, "null: uncooked, or published as cooked"),
    ROWS_IN("values", struct why_portion, term, term_count, &term_shape, "figures of the record"),
    NUMBER("per_100g", "unit", struct why_portion, per_100g, "sum over `values`"),
    NUMBER("amount", "unit", struct why_portion, amount, "a day"),
    TRUTH("missing", struct why_portion, missing, "a figure is lacking"),
    NUMBER("could_hold", "unit", struct why_portion, could_hold,
           "more a day, if it held what the richest of its class hold"),
    NUMBER_OF("variance_share", "", portion_variance, "of the variance of the sum"),
    OBJECT_HERE("variance", &variance_shape, ""),
};
static const struct shape portion_shape = SHAPE("WhyLine", PORTION, "one food of one line: the flesh, or the bone in it");

/* ---- window, need, chance ---------------------------------------------------------------------------------------- */

static double first_day(const struct at *at) { return ((const struct why_window *)at->it)->first + 1; }

static const struct field RUN[] = {
    NUMBER_OF("first_day", "", first_day, "of the 28"),
    NUMBER_ALWAYS("days", "days", struct why_window, days, ""),
    NUMBER("amount", "unit", struct why_window, amount, "a day"),
    NUMBER("cv", "", struct why_window, cv, ""),
};
static const struct shape run_shape = SHAPE("WhyRun", RUN, "a run of days");

static const char *window_note(const struct at *at) { return lib_str(at->lib, ((const struct img_window *)at->it)->note); }
SOURCE_OF(window, struct img_window)

static const struct field WINDOW_TABLE[] = {
    SOURCE_ROWS(window),
    NUMBER_ALWAYS("row", "", struct img_window, row, "of the data file"),
    WORD("confidence", struct img_window, confidence, confidence_word, CONF_COUNT, ""),
    TEXT_OF("note", window_note, ""),
};
static const struct shape window_table_shape = SHAPE("WhyWindowTable", WINDOW_TABLE, "the row behind the window");

static double window_days(const struct at *at) {
  return chain(at)->n->window_days > 0 ? chain(at)->n->window_days : NOT_KNOWN;
}
static const void *window_row(const struct at *at) { return chain(at)->n->window; }

static const struct field WINDOW[] = {
    NUMBER_OF("days", "days", window_days, "over which it may average"),
    OBJECT_IN("lean", struct why_chain, lean, &run_shape, "the poorest"),
    OBJECT_IN("rich", struct why_chain, rich, &run_shape, "the richest"),
    OBJECT_OF("table", window_row, &window_table_shape, ""),
};
static const struct shape window_shape = SHAPE("WhyWindow", WINDOW, "the days over which the nutrient may average");

static int figure_standard(const struct at *at) { return ((const struct img_allowance *)at->it)->standard; }
static const char *figure_printed(const struct at *at) { return library_allowance_printed(at->lib, at->it); }
static const char *figure_note(const struct at *at) {
  return lib_str(at->lib, ((const struct img_allowance *)at->it)->note);
}
static double figure_amount(const struct at *at) {
  const struct allowance *t = chain(at)->n->table;
  return at->it == t->minimum_row ? t->minimum : at->it == t->allowance_row ? t->allowance : t->upper;
}
SOURCE_OF(figure, struct img_allowance)

static const struct field FIGURE[] = {
    NUMBER_OF("amount", "unit", figure_amount, "a day"),
    WORD_OF_ALWAYS("standard", figure_standard, standard_key, STANDARD_COUNT, ""),
    TEXT_OF("printed", figure_printed, "the figure as printed"),
    WORD("confidence", struct img_allowance, confidence, confidence_word, CONF_COUNT, ""),
    SOURCE_ROWS(figure),
    NUMBER_ALWAYS("row", "", struct img_allowance, row, "of the data file"),
    TEXT_OF("note", figure_note, ""),
};
static const struct shape figure_shape = SHAPE("WhyFigure", FIGURE, "a figure of the standard and its row");

static const struct allowance *table(const struct at *at) { return chain(at)->n->table; }
static const void *minimum(const struct at *at) { return table(at) ? table(at)->minimum_row : NULL; }
static const void *allowance(const struct at *at) { return table(at) ? table(at)->allowance_row : NULL; }
static const void *upper(const struct at *at) { return table(at) ? table(at)->upper_row : NULL; }
static const char *how(const struct at *at) { return table(at) ? allowance_how(table(at)) : NULL; }
static double adjusted_to(const struct at *at) { return chain(at)->n->adjusted ? chain(at)->n->adjusted_to : NOT_KNOWN; }
static const char *adjusted_why(const struct at *at) { return chain(at)->n->adjusted ? chain(at)->n->adjusted_why : NULL; }

static const struct field NEED[] = {
    OBJECT_OF("minimum", minimum, &figure_shape, ""),
    OBJECT_OF("allowance", allowance, &figure_shape, ""),
    OBJECT_OF("upper", upper, &figure_shape, ""),
    TEXT_OF("how", how, "how the printed figure became the animal's"),
    NUMBER_OF("adjusted_to", "unit", adjusted_to, "what other nutrients made of it"),
    TEXT_OF("adjusted_why", adjusted_why, ""),
};
static const struct shape need_shape = SHAPE("WhyNeed", NEED, "what the amount is held against");

static const struct field CHANCE[] = {
    NUMBER("mean", "unit", struct why_chance, mean, "a day"),
    NUMBER("cv", "", struct why_chance, cv, ""),
    NUMBER("figure", "unit", struct why_chance, figure, "to be reached or kept"),
    NUMBER("sigma", "", struct why_chance, sigma, "of the logarithm"),
    NUMBER("z", "", struct why_chance, z, ""),
    NUMBER("chance", "", struct why_chance, chance, "0 to 1"),
};
static const struct shape one_chance_shape = SHAPE("WhyChance", CHANCE, "a chance and how it comes about");

static const void *if_any(const struct why_chance *c) { return c->chance == c->chance ? c : NULL; }
static const void *chance_met(const struct at *at) { return if_any(&chain(at)->met); }
static const void *chance_kept(const struct at *at) { return if_any(&chain(at)->kept); }

static const struct field CHANCES[] = {
    OBJECT_OF("met", chance_met, &one_chance_shape, "of reaching the allowance"),
    OBJECT_OF("kept", chance_kept, &one_chance_shape, "of keeping the upper limit"),
};
static const struct shape chances_shape = SHAPE("WhyChances", CHANCES, "how sure it is");

static const char *energy_row_source(const struct at *at) {
  return json_source_key(at->lib, ((const struct energy_need *)at->it)->row->source);
}
static const char *energy_row_title(const struct at *at) {
  return title_of(at->lib, ((const struct energy_need *)at->it)->row->source);
}
static double energy_row_number(const struct at *at) { return ((const struct energy_need *)at->it)->row->row; }
static int energy_row_confidence(const struct at *at) { return ((const struct energy_need *)at->it)->row->confidence; }

static const struct field ENERGY_ROW[] = {
    SOURCE_ROWS(energy_row),
    NUMBER_OF("row", "", energy_row_number, "of the data file"),
    WORD_OF("confidence", energy_row_confidence, confidence_word, CONF_COUNT, ""),
};
static const struct shape energy_row_shape = SHAPE("WhyEnergyRow", ENERGY_ROW, "the row behind the need");
static const void *energy_row(const struct at *at) { return ((const struct energy_need *)at->it)->row ? at->it : NULL; }

static const struct field ENERGY_NEED[] = {
    NUMBER("kcal", "kcal a day", struct energy_need, kcal, ""),
    TEXT("from", struct energy_need, from, "the equation in words"),
    SAME_OF(energy_row, &energy_row_shape),
};
static const struct shape energy_need_shape = SHAPE("WhyEnergyNeed", ENERGY_NEED, "the animal's energy need");
static const void *energy_need(const struct at *at) {
  return chain(at)->n->id == NUT_ENERGY ? &checked_result(at)->energy.need : NULL;
}

static const struct field FOUR_STEP[] = {
    NUMBER("gross_kcal", "kcal a day", struct why_four_step, gross, ""),
    NUMBER("digestible_percent", "%", struct why_four_step, digestible_percent, ""),
    NUMBER("urine_kcal", "kcal a day", struct why_four_step, urine, "lost with the urine"),
    NUMBER("kcal", "kcal a day", struct why_four_step, kcal, ""),
};
static const struct shape four_step_shape = SHAPE("WhyFourStep", FOUR_STEP, "the four-step equation");
static const void *four_step(const struct at *at) {
  const struct why_four_step *f = &chain(at)->four_step;
  return chain(at)->n->id == NUT_ENERGY && f->kcal == f->kcal ? f : NULL;
}

/* ---- a chain ----------------------------------------------------------------------------------------------------- */

static const char *chain_key(const struct at *at) { return nutrient_info[chain(at)->n->id].key; }
static const char *chain_name(const struct at *at) { return nutrient_info[chain(at)->n->id].name; }
static const char *chain_unit(const struct at *at) { return nutrient_info[chain(at)->n->id].unit; }
static double chain_amount(const struct at *at) { return chain(at)->n->amount; }
static double chain_low(const struct at *at) { return chain(at)->n->low; }
static double chain_high(const struct at *at) { return chain(at)->n->high; }
static bool judged(const struct at *at) { return checked_judged(checked_result(at)); }
static int chain_verdict(const struct at *at) { return judged(at) ? (int)chain(at)->n->verdict : -1; }
static int chain_rule(const struct at *at) { return judged(at) ? (int)chain(at)->rule : -1; }
static const char *chain_rule_text(const struct at *at) { return judged(at) ? verdict_rule_text[chain(at)->rule] : NULL; }

static const struct field CHAIN[] = {
    TEXT_OF_ALWAYS("key", chain_key, "of the nutrient"),
    TEXT_OF_ALWAYS("name", chain_name, "for people"),
    TEXT_OF_ALWAYS("unit", chain_unit, "of every amount beside it"),
    NUMBER_OF("amount", "unit", chain_amount, "a day"),
    WORD_OF("verdict", chain_verdict, verdict_word, VERDICT_COUNT, ""),
    WORD_OF("rule", chain_rule, verdict_rule_key, RULE_COUNT, "that decided the verdict"),
    TEXT_OF("rule_text", chain_rule_text, "the same in words"),
    ROWS("lines", struct why_chain, portion, count, &portion_shape, "in the order of the recipe"),
    NUMBER("sum", "unit", struct why_chain, sum, "a day"),
    NUMBER("variance", "unit squared", struct why_chain, variance, "of the sum"),
    NUMBER_OF("low", "unit", chain_low, "5th percentile"),
    NUMBER_OF("high", "unit", chain_high, "95th percentile"),
    OBJECT_HERE("window", &window_shape, ""),
    OBJECT_HERE("need", &need_shape, ""),
    OBJECT_HERE("chance", &chances_shape, ""),
    OBJECT_IF("energy_need", energy_need, &energy_need_shape, "with energy"),
    OBJECT_IF("four_step", four_step, &four_step_shape, "with energy counted that way"),
};
static const struct shape chain_shape = SHAPE("WhyChain", CHAIN, "the chain behind a nutrient");
static const struct why_chain *chain(const struct at *at) { return at_within(at, &chain_shape); }

/* ---- ratios ------------------------------------------------------------------------------------------------------ */

static const char *sum_key(const struct at *at) { return nutrient_info[((const struct why_sum *)at->it)->nutrient].key; }
static const char *sum_unit(const struct at *at) { return nutrient_info[((const struct why_sum *)at->it)->nutrient].unit; }

static const struct field SUM[] = {
    TEXT_OF_ALWAYS("key", sum_key, "of the nutrient"),
    TEXT_OF_ALWAYS("unit", sum_unit, ""),
    NUMBER("amount", "unit", struct why_sum, amount, "a day"),
    NUMBER("molar_mass", "g per mol", struct why_sum, molar_mass, "null: the ratio is of masses"),
};
static const struct shape sum_shape = SHAPE("WhySum", SUM, "one side of a ratio");

static const char *ratio_key(const struct at *at) { return balance_key[((const struct why_ratio *)at->it)->id]; }
static const char *ratio_name(const struct at *at) { return balance_name[((const struct why_ratio *)at->it)->id]; }

static const struct field RATIO[] = {
    TEXT_OF_ALWAYS("key", ratio_key, "of `balance`"),
    TEXT_OF_ALWAYS("name", ratio_name, "for people"),
    NUMBER("value", "", struct why_ratio, value, ""),
    ROWS_IN("above", struct why_ratio, top, top_count, &sum_shape, ""),
    ROWS_IN("below", struct why_ratio, bottom, bottom_count, &sum_shape, ""),
    NUMBER("known_share", "", struct why_ratio, known_share, "the smaller of the two sides"),
};
static const struct shape ratio_shape = SHAPE("WhyRatio", RATIO, "the chain behind a ratio");

static const void *why_chain(const struct at *at) { return ((const struct why *)at->it)->chain; }
static const void *why_ratio(const struct at *at) {
  const struct why *w = at->it;
  return w->chain ? NULL : &w->ratio;
}

static const struct field WHY[] = {SAME_OF(why_chain, &chain_shape), SAME_OF(why_ratio, &ratio_shape)};
const struct shape json_why_shape = SHAPE("Why", WHY, "the chain behind a nutrient, or behind a ratio");
