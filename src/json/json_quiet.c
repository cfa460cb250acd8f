/* "quiet": how far the food can be cut; "ratio": parts against a stated ratio. */
#include "explain/quiet.h"

#include "json/json_parts.h"

static const char *key_of(enum nutrient n) { return n < NUT_COUNT ? nutrient_info[n].key : NULL; }

static const struct quiet *quiet(const struct at *at) { return at_within(at, &json_quiet_shape); }

/* Keys that are met now and are not at this share. */
static void write_lost(struct json *j, const char *key, const struct at *at) {
  static const struct {
    const char *key;
    double share;
  } AT[] = {{"0.9", 0.9}, {"0.8", 0.8}, {"0.7", 0.7}, {"0.6", 0.6}};
  json_open(j, key, '{');
  for (size_t i = 0; i < COUNT_OF(AT); i++) {
    enum nutrient lost[NUT_COUNT];
    size_t n = quiet_lost_at(at->it, checked_result(at), AT[i].share, lost);
    json_open(j, AT[i].key, '[');
    for (size_t k = 0; k < n; k++) json_text(j, NULL, nutrient_info[lost[k]].key);
    json_close(j, ']');
  }
  json_close(j, '}');
}

static const char *crossing_key(const struct at *at) { return key_of(((const struct quiet_crossing *)at->it)->id); }
static double crossing_kcal(const struct at *at) {
  return ((const struct quiet_crossing *)at->it)->share * checked_result(at)->energy.supply_kcal;
}
static double crossing_short(const struct at *at) {
  return quiet(at)->of[((const struct quiet_crossing *)at->it)->id].short_from;
}

static const struct field CROSSING[] = {
    TEXT_OF_ALWAYS("key", crossing_key, "of the nutrient"),
    NUMBER_ALWAYS("share", "", struct quiet_crossing, share, "of the food, below which it is not met"),
    NUMBER_OF("kcal", "kcal a day", crossing_kcal, "of that much food"),
    NUMBER_OF("short_from", "", crossing_short, "share of the food below which it is short"),
};
static const struct shape crossing_shape = SHAPE("QuietCrossing", CROSSING, "where a nutrient stops being met");

static void write_crossings(struct json *j, const char *key, const struct at *at) {
  struct quiet_crossing crossing[NUT_COUNT];
  size_t n = quiet_crossings(at->it, crossing);
  json_open(j, key, '[');
  for (size_t i = 0; i < n; i++) {
    struct at inner = {at->lib, &crossing_shape, &crossing[i], at, i};
    json_shape(j, NULL, &crossing_shape, &inner);
  }
  json_close(j, ']');
}

static const char *first_lost(const struct at *at) { return key_of(quiet(at)->first_lost); }
static const char *last_met(const struct at *at) { return key_of(quiet(at)->last_met); }

static const struct field QUIET[] = {
    NUMBER("all_met_from", "", struct quiet, all_met_from, "share of the food, 1 as written; null when no share does"),
    NUMBER("smallest_kcal", "kcal a day", struct quiet, smallest_kcal, "of that share"),
    TEXT_OF("first_lost", first_lost, "key of the nutrient that falls first"),
    NUMBER("highest_fat_share", "", struct quiet, highest_fat_share, "of the energy, with the room filled by plain fat"),
    FREE("at", write_lost, "Record<string, string[]>", "`0.9` to `0.6`: keys that are met now and not then"),
    FREE_OF("crossings", write_crossings, "QuietCrossing[]", &crossing_shape, "the first to fall first"),
    TEXT_OF("last_met", last_met, "key of the nutrient that decides `all_met_from`"),
    NUMBER("still_met_from", "", struct quiet, still_met_from, "the same over those met now"),
    NUMBER_ALWAYS("unproven", "", struct quiet, unproven, "how many were left out for lack of data"),
};
const struct shape json_quiet_shape = SHAPE("Quiet", QUIET, "what becomes short when the animal gets less of the same food");

/* ---- ratio ------------------------------------------------------------------------------------------------------- */

static const struct ratio_view *view(const struct at *at) { return at_within(at, &json_ratio_shape); }

static size_t all_parts(const struct at *at) {
  (void)at;
  return BOWL_COUNT;
}
static const char *piece_part(const struct at *at, size_t i) {
  return ((const struct ratio_piece *)at->it)->parts & (1U << i) ? json_part_key[i] : NULL;
}
static double piece_share(const struct at *at) { return view(at)->row[at->place].share; }
static double piece_grams(const struct at *at) { return view(at)->row[at->place].grams; }
static double piece_asked(const struct at *at) { return view(at)->row[at->place].asked_g; }
static double piece_difference(const struct at *at) { return view(at)->row[at->place].difference_g; }

static const struct field PIECE[] = {
    TEXT("name", struct ratio_piece, name, "for people"),
    TEXTS_OF("parts", all_parts, piece_part, "keys of `parts` that it joins"),
    NUMBER_ALWAYS("share_asked", "", struct ratio_piece, share, "0 to 1"),
    NUMBER_OF("share", "", piece_share, "of the food as it is, 0 to 1"),
    NUMBER_OF("grams", "g a day", piece_grams, ""),
    NUMBER_OF("grams_asked", "g a day", piece_asked, ""),
    NUMBER_OF("difference_g", "g a day", piece_difference, "asked less what is there"),
};
static const struct shape piece_shape = SHAPE("RatioPiece", PIECE, "one part of the stated ratio");

static void write_beside(struct json *j, const char *key, const struct at *at) {
  const struct ratio_view *v = at->it;
  json_open(j, key, '{');
  for (int i = 0; i < BOWL_COUNT; i++)
    if (v->beside_g[i] > 0) json_number(j, json_part_key[i], v->beside_g[i]);
  json_close(j, '}');
}

static const struct nutrient_result *needed(const struct at *at) {
  return &checked_result(at)->nutrient[((const struct ratio_need *)at->it)->id];
}
static const char *need_key(const struct at *at) { return nutrient_info[needed(at)->id].key; }
static const char *need_unit(const struct at *at) { return nutrient_info[needed(at)->id].unit; }
static double need_amount(const struct at *at) { return needed(at)->amount; }
static double need_allowance(const struct at *at) { return needed(at)->allowance; }
static int need_verdict(const struct at *at) { return (int)needed(at)->verdict; }
static double need_line(const struct at *at) {
  int line = ((const struct ratio_need *)at->it)->line;
  return line >= 0 ? line_number(&checked_result(at)->ration->line[line]) : NOT_KNOWN;
}

static const struct field NEED[] = {
    TEXT_OF_ALWAYS("key", need_key, "of the nutrient"),
    TEXT_OF_ALWAYS("unit", need_unit, "of the amounts"),
    NUMBER_OF("amount", "unit", need_amount, "a day"),
    NUMBER_OF("allowance", "unit", need_allowance, "a day"),
    NUMBER("best", "unit", struct ratio_need, best, "a day, with every part filled with its richest food"),
    WORD_OF_ALWAYS("verdict", need_verdict, verdict_word, VERDICT_COUNT, ""),
    TRUTH("unproven", struct ratio_need, unproven, "a food that the ratio has room for lacks a value"),
    NUMBER_OF("line", "", need_line, "of the recipe, that supplies most of `best`"),
};
static const struct shape need_shape = SHAPE("RatioNeed", NEED, "a need that the ratio leaves open");

static const struct field RATIO[] = {
    NUMBER("grams_per_day", "g a day", struct ratio_view, total_g, ""),
    ROWS_IN("pieces", struct ratio_view, ratio.piece, ratio.count, &piece_shape, ""),
    FREE("beside", write_beside, "Record<string, number>", "g a day of parts that the ratio does not name"),
    ROWS_IN("left_open", struct ratio_view, open, open_count, &need_shape, "no division by this ratio helps"),
    ROWS_IN("within_reach", struct ratio_view, within, within_count, &need_shape, "another division could"),
};
const struct shape json_ratio_shape = SHAPE("Ratio", RATIO, "the parts of the bowl against a stated ratio");
