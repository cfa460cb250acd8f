/* "check --json" and "need --json": the keys of one answer, in the documented order. */
#include "explain/quiet.h"
#include "post/post.h"
#include "words/answered.h"
#include "words/verdicts.h"
#include "json/json_parts.h"

/* ---- animal ------------------------------------------------------------------------------------------------------ */

static int animal_neutered(const struct at *at) { return ((const struct animal *)at->it)->neutered; }
static int animal_activity(const struct at *at) {
  const struct animal *a = at->it;
  return a->activity_stated ? (int)a->activity : -1;
}

static const void *body(const struct at *at) { return &checked_result(at)->body; }

static const struct field BODY[] = {
    NUMBER("ideal_kg", "kg", struct animal_body, ideal_kg, "stated, estimated from the condition, or the weight"),
    NUMBER("metabolic_kg", "", struct animal_body, metabolic_kg, "kilograms to the power of `metabolic_exponent`"),
    NUMBER("metabolic_exponent", "", struct animal_body, exponent, ""),
    TEXT("ideal_from", struct animal_body, ideal_from, "where the ideal weight comes from"),
};
static const struct shape body_shape = SHAPE("Body", BODY, "the weights that needs are counted by");

static void write_told(struct json *j, const char *key, const struct at *at) {
  struct animal nameless = *(const struct animal *)at->it;
  nameless.name = NULL;
  json_text(j, key, words_animal(j->out->arena, &nameless));
}

static const struct field ANIMAL[] = {
    TEXT("name", struct animal, name, "null when only a weight was given"),
    WORD("species", struct animal, species, species_word, SPECIES_COUNT, ""),
    NUMBER_ALWAYS("weight_kg", "kg", struct animal, weight_kg, ""),
    SAME_OF_ALWAYS(body, &body_shape),
    NUMBER("condition", "of 9", struct animal, condition, "body condition score"),
    NUMBER("age_years", "years", struct animal, age_years, ""),
    TRUTH_OR_NULL_OF("neutered", animal_neutered, "null when not said"),
    WORD_OF("activity", animal_activity, activity_word, ACTIVITY_COUNT, "null when not said"),
    TEXT("status", struct animal, status, "healthy, or what is not"),
    FREE("told", write_told, "string", "what it is, in words: dog, 18 kg, 6 years"),
};
static const struct shape animal_shape = SHAPE("Animal", ANIMAL, "the animal that the answer is for");

static const void *animal(const struct at *at) { return checked_result(at)->animal; }

static int standard(const struct at *at) { return (int)checked_result(at)->options.standard; }
static int basis(const struct at *at) {
  const struct check_result *r = checked_result(at);
  return (int)(checked_judged(r) ? r->allowances.basis : r->options.basis);
}

static const struct field MEASURE[] = {
    WORD_OF_ALWAYS("standard", standard, standard_key, STANDARD_COUNT, "whose allowances"),
    WORD_OF_ALWAYS("basis", basis, basis_key, BASIS_COUNT, "by body weight, or per 1000 kcal: the one that was used"),
};
static const struct shape measure_shape = SHAPE("Measure", MEASURE, "what needs are measured by");

/* ---- energy ------------------------------------------------------------------------------------------------------ */

static const char *supplier_line_status(const struct at *at) {
  return value_status_word[((const struct supplier *)at->it)->status];
}
static double supplier_line(const struct at *at) {
  return line_number(&checked_result(at)->ration->line[((const struct supplier *)at->it)->line]);
}

static const struct field ENERGY_SUPPLIER[] = {
    NUMBER_OF_ALWAYS("line", "", supplier_line, "of the recipe"),
    NUMBER_ALWAYS("share", "", struct supplier, share, "of the known amount, 0 to 1"),
    NUMBER_ALWAYS("amount", "unit", struct supplier, amount, "a day"),
};
static const struct shape energy_supplier_shape =
    SHAPE("EnergySupply", ENERGY_SUPPLIER, "what a line supplies of the energy");

static const struct field SUPPLIER[] = {
    SAME_AS(&energy_supplier_shape),
    TEXT_OF_ALWAYS("status", supplier_line_status, "what kind of figure the record has"),
};
static const struct shape supplier_shape = SHAPE("Supply", SUPPLIER, "what a line supplies");

static const void *need(const struct at *at) {
  const struct check_result *r = checked_result(at);
  return checked_judged(r) ? &r->energy.need : NULL;
}

/* The keys stay when there is no need to tell. */
static double need_figure(const struct at *at, size_t offset) {
  const struct energy_need *e = need(at);
  return e ? *(const double *)((const char *)e + offset) : NOT_KNOWN;
}
static double need_kcal(const struct at *at) { return need_figure(at, offsetof(struct energy_need, kcal)); }
static double need_low(const struct at *at) { return need_figure(at, offsetof(struct energy_need, low_kcal)); }
static double need_high(const struct at *at) { return need_figure(at, offsetof(struct energy_need, high_kcal)); }
static const char *need_from(const struct at *at) {
  const struct energy_need *e = need(at);
  return e ? e->from : NULL;
}

static const struct field NEED_FIGURES[] = {
    NUMBER_OF("need_kcal", "kcal a day", need_kcal, "null without an animal and after a refusal"),
    NUMBER_OF("need_low_kcal", "kcal a day", need_low, "end of the usual range"),
    NUMBER_OF("need_high_kcal", "kcal a day", need_high, "end of the usual range"),
    TEXT_OF("need_from", need_from, "the equation in words, or where it was stated"),
};
static const struct shape need_figures_shape = SHAPE("EnergyNeed", NEED_FIGURES, "what the animal needs");

static const char *need_row_source(const struct at *at) {
  return json_source_key(at->lib, ((const struct img_energy *)at->it)->source);
}
static const char *need_row_words(const struct at *at) {
  return lib_str(at->lib, ((const struct img_energy *)at->it)->words);
}

static const struct field NEED_TABLE[] = {
    TEXT_OF("source", need_row_source, "key of the source"),
    NUMBER_ALWAYS("row", "", struct img_energy, row, "of the data file"),
    TEXT_OF("words", need_row_words, "what the row is about"),
    WORD("confidence", struct img_energy, confidence, confidence_word, CONF_COUNT, "how well the source is known"),
};
static const struct shape need_table_shape = SHAPE("NeedTable", NEED_TABLE, "the row behind the need");

static const void *need_row(const struct at *at) {
  const struct energy_need *e = need(at);
  return e ? e->row : NULL;
}

/* Of an energy that is known in part, or of food beside other food, nobody knows the shares. */
static double share_of(const struct at *at, double share) {
  return energy_is_whole(at->it) ? share : NOT_KNOWN;
}
static double protein_share(const struct at *at) {
  return share_of(at, ((const struct energy_result *)at->it)->share_protein);
}
static double fat_share(const struct at *at) { return share_of(at, ((const struct energy_result *)at->it)->share_fat); }
static double carbohydrate_share(const struct at *at) {
  return share_of(at, ((const struct energy_result *)at->it)->share_carbohydrate);
}

static const struct field SHARE[] = {
    NUMBER_OF("protein", "", protein_share, ""),
    NUMBER_OF("fat", "", fat_share, ""),
    NUMBER_OF("carbohydrate", "", carbohydrate_share, ""),
};
const struct shape json_share_shape = SHAPE("EnergyShare", SHARE, "shares of the energy, 0 to 1");

static const char *const ENERGY_BY[] = {"atwater", "published", "four-step"};
static int energy_by(const struct at *at) { return (int)checked_result(at)->options.energy_by; }

static int supply_in_part(const struct at *at) { return ((const struct energy_result *)at->it)->known == KNOWN_PART; }

static const struct field ENERGY[] = {
    SAME_AS(&need_figures_shape),
    NUMBER("supply_kcal", "kcal a day", struct energy_result, supply_kcal, ""),
    NUMBER("kcal_per_kg", "kcal per kg", struct energy_result, kcal_per_kg, "of the food as eaten"),
    OBJECT_HERE("share", &json_share_shape, "where the energy comes from"),
    NUMBER("supply_low_kcal", "kcal a day", struct energy_result, supply_low, "5th percentile"),
    NUMBER("supply_high_kcal", "kcal a day", struct energy_result, supply_high, "95th percentile"),
    WORD_OF_ALWAYS("energy_by", energy_by, ENERGY_BY, (int)COUNT_OF(ENERGY_BY), "how the energy was counted"),
    NUMBER("published_kcal", "kcal a day", struct energy_result, published_kcal, "by the records' own energy figures"),
    NUMBER("four_step_kcal", "kcal a day", struct energy_result, four_step_kcal, "by the four-step equation"),
    NUMBER("grams_per_day", "g a day", struct energy_result, grams_per_day, "of food as eaten"),
    ROWS("from", struct energy_result, from, from_count, &energy_supplier_shape, "the lines, largest first; kcal"),
    OBJECT_OF("need_table", need_row, &need_table_shape, "null when the need was stated"),
    FREE_OF("ribbon", json_ribbon, "Ribbon | null", &json_ribbon_shape, "how it is drawn; null when neither is known"),
    WORD("supply_known", struct energy_result, known, known_word, KNOWN_COUNT,
         "how much of supply_kcal is known; part: it is a lower bound, none: null"),
    TRUTH_OF("supply_in_part", supply_in_part, "supply_kcal is a lower bound: some food's energy is known in part only, or food is fed that is not counted"),
};
static const struct shape energy_shape = SHAPE("Energy", ENERGY, "energy, needed and supplied");

static const struct field NEED_ENERGY[] = {
    SAME_AS(&need_figures_shape),
    OBJECT_OF("need_table", need_row, &need_table_shape, "null when the need was stated"),
};
static const struct shape need_energy_shape = SHAPE("NeedEnergy", NEED_ENERGY, "the energy needed");

/* ---- nutrients --------------------------------------------------------------------------------------------------- */

static const char *allowance_source(const struct at *at) {
  return json_source_key(at->lib, ((const struct img_allowance *)at->it)->source);
}
static const char *allowance_printed(const struct at *at) { return library_allowance_printed(at->lib, at->it); }
static const char *allowance_place(const struct at *at) { return library_allowance_place(at->lib, at->it); }

static const struct field ALLOWANCE[] = {
    TEXT_OF("source", allowance_source, "key of the source"),
    NUMBER_ALWAYS("row", "", struct img_allowance, row, "of the data file"),
    TEXT_OF("printed", allowance_printed, "the figure as printed"),
    WORD("confidence", struct img_allowance, confidence, confidence_word, CONF_COUNT, "how well the source is known"),
    TEXT_OF("own", allowance_place, "file, line and page of a row of your own; null for the built-in tables"),
};
static const struct shape allowance_shape = SHAPE("TableRow", ALLOWANCE, "the row behind a figure of the standard");

static const struct allowance *table_of(const struct at *at) { return ((const struct nutrient_result *)at->it)->table; }
static const void *allowance_row(const struct at *at) { return table_of(at) ? table_of(at)->allowance_row : NULL; }
static const void *minimum_row(const struct at *at) { return table_of(at) ? table_of(at)->minimum_row : NULL; }
static const void *upper_row(const struct at *at) { return table_of(at) ? table_of(at)->upper_row : NULL; }
static const char *how(const struct at *at) { return table_of(at) ? allowance_how(table_of(at)) : NULL; }

static const struct field TABLES[] = {
    OBJECT_OF("table", allowance_row, &allowance_shape, "of the allowance"),
    OBJECT_OF("minimum_table", minimum_row, &allowance_shape, "of the minimum"),
    OBJECT_OF("upper_table", upper_row, &allowance_shape, "of the upper limit"),
    TEXT_OF("how", how, "how the printed figure became the animal's"),
};
static const struct shape tables_shape = SHAPE("Tables", TABLES, "the rows behind the figures");

static const struct nutrient_info *info_of(const struct at *at) {
  return &nutrient_info[((const struct nutrient_result *)at->it)->id];
}
static const char *nutrient_key(const struct at *at) { return info_of(at)->key; }
static const char *nutrient_name(const struct at *at) { return info_of(at)->name; }
static const char *nutrient_unit(const struct at *at) { return info_of(at)->unit; }

static void write_said(struct json *j, const char *key, const struct at *at) {
  json_text(j, key, words_nutrient(j->out->arena, ((const struct nutrient_result *)at->it)->id));
}

static const struct field NAMED[] = {
    TEXT_OF_ALWAYS("key", nutrient_key, "of the nutrient"),
    TEXT_OF_ALWAYS("name", nutrient_name, "for people"),
    TEXT_OF_ALWAYS("unit", nutrient_unit, "of every amount beside it"),
};
static const struct shape named_shape = SHAPE("Named", NAMED, "which nutrient");

static const struct field FIGURES[] = {
    NUMBER("minimum", "unit", struct nutrient_result, minimum, "a day"),
    NUMBER("allowance", "unit", struct nutrient_result, allowance, "a day, adjusted where `adjusted` says so"),
    NUMBER("upper", "unit", struct nutrient_result, upper, "a day"),
};
static const struct shape figures_shape = SHAPE("Figures", FIGURES, "what the standard asks");

static const struct field ADJUSTED[] = {
    NUMBER_ALWAYS("from", "unit", struct nutrient_result, adjusted_from, "the standard's own figure"),
    NUMBER_ALWAYS("to", "unit", struct nutrient_result, adjusted_to, "the figure used"),
    TEXT("why", struct nutrient_result, adjusted_why, ""),
};
static const struct shape adjusted_shape = SHAPE("Adjusted", ADJUSTED, "an allowance that other nutrients moved");

static const void *adjusted(const struct at *at) {
  return ((const struct nutrient_result *)at->it)->adjusted ? at->it : NULL;
}
static int nutrient_verdict(const struct at *at) {
  return checked_judged(checked_result(at)) ? (int)((const struct nutrient_result *)at->it)->verdict : -1;
}
static size_t missing(const struct at *at) { return who_supplies(at->it)->missing_count; }
static double missing_line(const struct at *at, size_t i) {
  return line_number(&checked_result(at)->ration->line[who_supplies(at->it)->missing[i]]);
}

static int upper_standard(const struct at *at) {
  const struct allowance *a = ((const struct nutrient_result *)at->it)->table;
  return a && a->upper_row ? (int)a->upper_row->standard : -1;
}
static double cautious_upper(const struct at *at) {
  const struct allowance *a = ((const struct nutrient_result *)at->it)->table;
  return a ? a->cautious : NOT_KNOWN;
}

static const struct field SUPPLIED[] = {
    ROWS("from", struct supply_list, from, from_count, &supplier_shape, "the lines that supply it, largest first"),
};
static const struct shape supplied_shape = SHAPE("Supplied", SUPPLIED, "who supplies a nutrient");

static const struct field SUPPLY_DRAWN[] = {
    FREE_OF("supply", json_supply, "SupplyBar | null", &json_supply_shape, "how they are drawn; null when nothing is known"),
};
static const struct shape supply_drawn_shape = SHAPE("SupplyDrawn", SUPPLY_DRAWN, "who supplies a nutrient, as a bar");

/* With every keystroke only what changes with it; the rest follows when the hand rests. */
static const void *unless_brief(const struct at *at) { return checked_brief(at) ? NULL : at->it; }
static const void *supplied(const struct at *at) { return checked_brief(at) ? NULL : who_supplies(at->it); }

static const struct field NUTRIENT[] = {
    SAME_AS(&named_shape),
    NUMBER("amount", "unit", struct nutrient_result, amount, "a day: what is known"),
    NUMBER("low", "unit", struct nutrient_result, low, "5th percentile"),
    NUMBER("high", "unit", struct nutrient_result, high, "95th percentile"),
    NUMBER("known_share", "", struct nutrient_result, known_share, "of the food's mass that has a value, 0 to 1"),
    SAME_AS(&figures_shape),
    NUMBER("ratio", "", struct nutrient_result, ratio, "amount in the poorest window by the allowance"),
    NUMBER("chance_met", "", struct nutrient_result, chance_met, "that the allowance is reached, in the poorest window"),
    NUMBER("per_1000kcal", "unit", struct nutrient_result, per_1000kcal, "of the energy supplied"),
    WORD_OF("verdict", nutrient_verdict, verdict_word, VERDICT_COUNT, "null without an animal and after a refusal"),
    NUMBER_POSITIVE("window_days", "days", struct nutrient_result, window_days, "over which it may average"),
    OBJECT_OF("adjusted", adjusted, &adjusted_shape, "null when the standard's own figure was used"),
    SAME_OF_ALWAYS(supplied, &supplied_shape),
    NUMBERS_OF("missing", missing, missing_line, "lines whose record has no value"),
    NUMBER("chance_kept", "", struct nutrient_result, chance_kept, "that the upper limit is kept, in the richest window"),
    TRUTH("upper_greater_than", struct nutrient_result, upper_greater_than, "the highest level tested, no proven limit"),
    WORD_OF("upper_standard", upper_standard, standard_key, STANDARD_COUNT,
            "whose limit `upper` is: another's where the standard asked for sets none"),
    NUMBER_OF("cautious_upper", "unit", cautious_upper, "a limit that ordinary food passes without harm: decides nothing"),
    WORD("known", struct nutrient_result, known, known_word, KNOWN_COUNT, "how much of the amount is known"),
    TRUTH("near_upper", struct nutrient_result, near_upper, "below the limit, but not with the confidence asked"),
    TRUTH("close_to_limit", struct nutrient_result, close_to_limit, "thin for no other reason than its upper limit"),
    NUMBER("window_amount", "unit", struct nutrient_result, window_amount, "a day, in the poorest window"),
    NUMBER("window_high", "unit", struct nutrient_result, window_high, "a day, in the richest window"),
    TRUTH("verdict_by_window", struct nutrient_result, verdict_by_window, "the average alone would have done better"),
    NUMBER("lowest_day", "unit", struct nutrient_result, lowest_day, ""),
    NUMBER("highest_day", "unit", struct nutrient_result, highest_day, ""),
    TRUTH("highest_day_over", struct nutrient_result, highest_day_over, "the richest day alone passes the limit"),
    NUMBER("cv", "", struct nutrient_result, cv, "coefficient of variation of the amount"),
    NUMBER("possible", "unit", struct nutrient_result, possible,
           "if every food without a value held its class's high value"),
    TRUTH("estimate_decides", struct nutrient_result, estimate_decides,
          "with half of what is estimated from a class the word would be another"),
    NUMBER("estimated_share", "", struct nutrient_result, estimated_share,
           "of the amount that rests on estimates or cited figures"),
    SAME_OF_ALWAYS(unless_brief, &tables_shape),
    FREE("said", write_said, "string", "the name within a sentence"),
    FREE_OF("rail", json_rail, "Rail | null", &json_rail_shape, "where its marks are drawn; null without an allowance"),
    FREE("rail_says", json_rail_says, "string", "what its rail shows, for those who cannot see it"),
    SAME_OF_ALWAYS(unless_brief, &supply_drawn_shape),
};
static const struct shape nutrient_shape = SHAPE("Nutrient", NUTRIENT, "one nutrient, amounts a day");

/* ---- balance, parts ---------------------------------------------------------------------------------------------- */

static double balance_known(const struct at *at, size_t i) { return ((const struct balance *)at->it)->known_share[i]; }

static const struct field BALANCE[] = {
    NUMBER("ca_p", "g per g", struct balance, ca_p, "calcium to phosphorus"),
    NUMBER("zn_cu", "mg per mg", struct balance, zn_cu, "zinc to copper"),
    NUMBER("n6_n3", "g per g", struct balance, n6_n3, "omega-6 to omega-3"),
    NUMBER("k_na", "mg per mg", struct balance, k_na, "potassium to sodium"),
    NUMBER("phytate_zn", "mol per mol", struct balance, phytate_zn, "phytate to zinc"),
    NUMBER("ca_phytate_zn_mmol_per_1000kcal", "mmol per 1000 kcal", struct balance, ca_phytate_zn, ""),
    MAP_OF("known_share", balance_key, BALANCE_COUNT, balance_known, "the smaller known share of the two sides"),
};
static const struct shape balance_shape = SHAPE("Balance", BALANCE, "what stands to what");

static double part(const struct at *at, size_t i) { return checked_result(at)->parts[i]; }

/* ---- refusals --------------------------------------------------------------------------------------------------- */

static const char *refused_why(const struct at *at) { return refusal_key(checked_result(at)->refusal); }
static const char *refused_text(const struct at *at) { return refusal_text(checked_result(at)->refusal); }
static const char *refused_ask(const struct at *at) { return refusal_ask(checked_result(at)->refusal); }

static const struct field REFUSED[] = {
    TEXT_OF_ALWAYS("why", refused_why, "`growth`, `pregnant`, `nursing`, `unwell`, `urgent`"),
    TEXT_OF_ALWAYS("text", refused_text, "what is not done, and why"),
    TEXT_OF_ALWAYS("ask", refused_ask, "whom to ask"),
};
static const struct shape refused_shape = SHAPE("Refused", REFUSED, "why no verdict is given");

static const void *refused(const struct at *at) { return checked_result(at)->refusal == REFUSE_NOT ? NULL : at->it; }

static double verdicts_are(const struct at *at, size_t verdict) { return checked_result(at)->verdict_count[verdict]; }
static const void *verdicts(const struct at *at) { return checked_judged(checked_result(at)) ? at->it : NULL; }

/* ---- at a glance ------------------------------------------------------------------------------------------------- */

static void write_lead(struct json *j, const char *key, const struct at *at) {
  json_text(j, key, words_lead(checked_result(at), j->out->arena));
}

/* Of a post in which something is asked; else the key is left out. */
static void write_answers(struct json *j, const char *key, const struct at *at) {
  const struct post *post = ((const struct checked *)at->it)->asked->post;
  if (!post || post->asks == 0) return;
  const char *words = words_answers(at->lib, checked_result(at), post->asked, post->asks, j->out->arena);
  if (words[0]) json_text(j, key, words);
}

static size_t group_nutrients(const struct at *at) { return (size_t)((const struct group *)at->it)->count; }
static const char *group_nutrient(const struct at *at, size_t i) {
  return nutrient_info[((const struct group *)at->it)->item[i]->id].key;
}

static const struct field GROUP[] = {
    TEXT_ALWAYS("key", struct group, key, ""),
    TEXT_ALWAYS("title", struct group, title, ""),
    TEXT("aside", struct group, aside, "what the title means"),
    TEXTS_OF("nutrients", group_nutrients, group_nutrient, "their keys, worst first"),
};
static const struct shape group_shape = SHAPE("Group", GROUP, "nutrients that ask the same of the reader");

static void write_groups(struct json *j, const char *key, const struct at *at) {
  struct group group[GROUP_COUNT];
  if (!checked_judged(checked_result(at))) {
    json_nothing(j, key);
    return;
  }
  words_groups(checked_result(at), group);
  json_open(j, key, '[');
  for (size_t i = 0; i < GROUP_COUNT; i++) {
    struct at inner = {at->lib, &group_shape, &group[i], at, i};
    json_shape(j, NULL, &group_shape, &inner);
  }
  json_close(j, ']');
}

/* ---- the whole --------------------------------------------------------------------------------------------------- */

static const void *recipe(const struct at *at) { return checked_result(at)->ration; }
static double sure(const struct at *at) { return checked_result(at)->options.sure; }
static const void *energy(const struct at *at) { return &checked_result(at)->energy; }
static const void *balance(const struct at *at) { return &checked_result(at)->balance; }
static size_t all_nutrients(const struct at *at) {
  (void)at;
  return NUT_COUNT;
}
static const void *nutrient(const struct at *at, size_t i) { return &checked_result(at)->nutrient[i]; }
static size_t findings(const struct at *at) { return checked_result(at)->finding_count; }
static const void *finding(const struct at *at, size_t i) { return &checked_result(at)->finding[i]; }

static const struct asked *asked(const struct at *at) { return ((const struct checked *)at->it)->asked; }
static const void *ratio(const struct at *at) { return asked(at)->ratio; }
static size_t whys(const struct at *at) { return asked(at)->why_count; }
static const void *why(const struct at *at, size_t i) { return &asked(at)->why[i]; }

/* The curve is worked out for whoever reads it. */
static void write_quiet(struct json *j, const char *key, const struct at *at) {
  if (((const struct checked *)at->it)->for_page) return;
  struct quiet q = quiet_of(checked_result(at));
  struct at inner = {at->lib, &json_quiet_shape, &q, at, 0};
  if (q.applies) {
    json_shape(j, key, &json_quiet_shape, &inner);
  } else {
    json_nothing(j, key);
  }
}

static const struct field CHECK[] = {
    OBJECT_OF_ALWAYS("recipe", recipe, &json_recipe_shape, ""),
    OBJECT_OF("animal", animal, &animal_shape, "null when none was given"),
    SAME_AS(&measure_shape),
    NUMBER_OF_ALWAYS("sure", "", sure, "the confidence asked for, 0.5 to 0.99"),
    OBJECT_OF_ALWAYS("energy", energy, &energy_shape, ""),
    ROWS_OF("nutrients", all_nutrients, nutrient, &nutrient_shape, "each one, always in the same order"),
    OBJECT_OF_ALWAYS("balance", balance, &balance_shape, ""),
    MAP_OF("parts", json_part_key, BOWL_COUNT, part, "shares of the mass as eaten, 0 to 1"),
    ROWS_OF("findings", findings, finding, &json_finding_shape, "dangers first, then by weight"),
    OBJECT_OF("refused", refused, &refused_shape, "null when a verdict is given"),
    MAP_OR_NULL_OF("verdicts", verdicts, verdict_word, VERDICT_COUNT, verdicts_are, "how many nutrients have each verdict"),
    FREE("lead", write_lead, "string", "the bowl in one sentence, as the terminal says it"),
    FREE_IF("answers", write_answers, "string", NULL,
            "with `--posted`: what the figures say to what the owner asks; absent where nothing is asked"),
    FREE_OF("groups", write_groups, "Group[] | null", &group_shape,
            "the nutrients by what is to be done, in the order in which they are told; null where nothing is judged"),
    FREE_IF("quiet", write_quiet, "Quiet | null", &json_quiet_shape,
            "less of the same food; null where the need shrinks with it"),
    ROWS_IF("questions", json_questions, json_question, &json_question_shape,
            "with `--posted`: what only the owner can tell, most telling first"),
    ROWS_IF("left_out", json_left_outs, json_left_out, &json_left_out_shape,
            "with `--posted`: what is not counted, in the order of the post"),
    TEXT_OF("as_recipe", json_as_recipe,
            "the strict text that a post amounts to, which `line` numbers; null without `--posted`"),
    OBJECT_IF("ratio", ratio, &json_ratio_shape, "with `--ratio`"),
    ROWS_IF("why", whys, why, &json_why_shape, "with `--why`, in the order asked"),
};
const struct shape json_check_shape = SHAPE_OF_CHECKED("Check", CHECK, "the answer of `check --json`, one object a recipe");

void json_check(const struct library *lib, const struct check_result *r, struct buf *out) {
  static const struct asked NOTHING = {.why = NULL};
  json_check_asked(lib, r, &NOTHING, out);
}

void json_check_asked(const struct library *lib, const struct check_result *r, const struct asked *asked, struct buf *out) {
  struct checked it = {.r = r, .asked = asked};
  json_write(lib, &json_check_shape, &it, out);
}

/* ---- need -------------------------------------------------------------------------------------------------------- */

static const struct field NEED_NUTRIENT[] = {
    SAME_AS(&named_shape),
    SAME_AS(&figures_shape),
    TRUTH("upper_greater_than", struct nutrient_result, upper_greater_than, "the highest level tested, no proven limit"),
    NUMBER_POSITIVE("window_days", "days", struct nutrient_result, window_days, "over which it may average"),
    SAME_AS(&tables_shape),
};
static const struct shape need_nutrient_shape = SHAPE("NeedNutrient", NEED_NUTRIENT, "what is needed of a nutrient");

static size_t needed_nutrients(const struct at *at) { return checked_judged(checked_result(at)) ? NUT_COUNT : 0; }
static const void *needed_nutrient(const struct at *at, size_t i) {
  const struct nutrient_result *n = &checked_result(at)->nutrient[i];
  return n->minimum == n->minimum || n->allowance == n->allowance || n->upper == n->upper ? n : NULL;
}

static const struct field NEED[] = {
    OBJECT_OF("animal", animal, &animal_shape, ""),
    SAME_AS(&measure_shape),
    OBJECT_OF_ALWAYS("energy", energy, &need_energy_shape, ""),
    ROWS_OF("nutrients", needed_nutrients, needed_nutrient, &need_nutrient_shape, "those with a figure"),
    OBJECT_OF("refused", refused, &refused_shape, "null when a need is given"),
};
const struct shape json_need_shape = SHAPE_OF_CHECKED("Need", NEED, "the answer of `need --json`");

void json_need(const struct library *lib, const struct check_result *r, struct buf *out) {
  struct checked it = {.r = r};
  json_write(lib, &json_need_shape, &it, out);
}
