/* "foods --json", "food --json" and "library --json". */
#include "judge/check.h"
#include "json/json_parts.h"

/* Library figures are floats: more digits than this are noise of the conversion. */
enum { FLOAT_DIGITS = 6, SCORE_DIGITS = 4 };

/* ---- what a record is called: 'it' is its index ------------------------------------------------------------------ */

static uint32_t index_of(const struct at *at) { return *(const uint32_t *)at->it; }
static const struct img_food *food_of(const struct at *at) { return library_food(at->lib, index_of(at)); }
static bool is_own(const struct at *at) { return (food_of(at)->flags & FOOD_OWN) != 0; }

static const char *head_code(const struct at *at) { return library_code(at->lib, index_of(at)); }
static const char *head_name(const struct at *at) { return library_name(at->lib, index_of(at)); }
static int head_part(const struct at *at) { return food_of(at)->part; }
static int head_state(const struct at *at) { return food_of(at)->state == STATE_UNSTATED ? -1 : (int)food_of(at)->state; }
static const char *head_source(const struct at *at) { return json_source_key(at->lib, food_of(at)->source); }

static const struct field HEAD[] = {
    TEXT_OF_ALWAYS("food", head_code, "the pin"),
    TEXT_OF_ALWAYS("name", head_name, "of the record"),
    WORD_OF_ALWAYS("part", head_part, part_word, PART_COUNT, "what it is of the animal or plant"),
    WORD_OF("state", head_state, state_word, STATE_COUNT, "how it was prepared"),
    TEXT_OF("source", head_source, "key of the source"),
};
static const struct shape head_shape = SHAPE("Record", HEAD, "which record");

/* ---- found by words ---------------------------------------------------------------------------------------------- */

static const void *hit_food(const struct at *at) { return &((const struct search_hit *)at->it)->food; }

static const struct field HIT[] = {
    SAME_OF_ALWAYS(hit_food, &head_shape),
    {MEMBER("score", "", struct search_hit, score, "how well the words fit"), .digits = SCORE_DIGITS,
     .presence = FIELD_ALWAYS},
    TRUTH("everyday_name", struct search_hit, exact_name, "the words are its everyday name"),
    NUMBER_ALWAYS("words_missed", "", struct search_hit, words_missed, "words that the record lacks"),
    TEXT("note", struct search_hit, note, "how the record differs from the words"),
};
static const struct shape hit_shape = SHAPE("FoundFood", HIT, "a record that the words fit");

static void write_words(struct json *j, const char *key, const struct at *at) {
  json_span(j, key, ((const struct found_foods *)at->it)->words);
}

static const struct field FOODS[] = {
    FREE("words", write_words, "string", "what was looked for"),
    ROWS("foods", struct found_foods, hit, count, &hit_shape, "best first"),
};
const struct shape json_foods_shape = SHAPE("Foods", FOODS, "the answer of `foods --json`");

void json_foods(const struct library *lib, struct span words, const struct search_hit *hits, size_t count, struct buf *out) {
  struct found_foods it = {words, hits, count};
  json_write(lib, &json_foods_shape, &it, out);
}

/* ---- sources ----------------------------------------------------------------------------------------------------- */

static const struct img_source *source_of(const struct at *at) { return at->it; }
static const char *source_key(const struct at *at) { return lib_str(at->lib, source_of(at)->key); }
static const char *source_title(const struct at *at) { return lib_str(at->lib, source_of(at)->title); }
static const char *source_licence(const struct at *at) { return lib_str(at->lib, source_of(at)->licence); }

static const struct field SOURCE[] = {
    TEXT_OF_ALWAYS("key", source_key, ""),
    TEXT_OF("title", source_title, "the publication, in one line"),
    TEXT_OF("licence", source_licence, ""),
    WORD("confidence", struct img_source, confidence, confidence_word, CONF_COUNT, "how well it is known"),
};
static const struct shape source_shape = SHAPE("Source", SOURCE, "where figures come from");

/* ---- one food ---------------------------------------------------------------------------------------------------- */

static const char *bone_food(const struct at *at) {
  return json_food_code(at->lib, ((const struct img_food *)at->it)->bone_food);
}
static const char *bone_source(const struct at *at) {
  return json_source_key(at->lib, ((const struct img_food *)at->it)->bone_source);
}
static int unless_boneless(const struct at *at) {
  return (((const struct img_food *)at->it)->flags & FOOD_ALWAYS_BONE_IN) != 0;
}

static const struct field BONE[] = {
    NUMBER("share", "", struct img_food, bone_share, "of the piece, 0 to 1"),
    NUMBER("share_cv", "", struct img_food, bone_share_cv, "its coefficient of variation"),
    TEXT_OF("food", bone_food, "the pin of the bone's record"),
    TEXT_OF("source", bone_source, "key of the source"),
    TRUTH_OF("unless_boneless", unless_boneless, "counted unless the line says boneless"),
};
static const struct shape bone_shape = SHAPE("Bone", BONE, "the bone in a piece");
static const void *bone(const struct at *at) { return food_of(at)->bone_share > 0 ? food_of(at) : NULL; }

static const char *measure_words(const struct at *at) {
  return lib_str(at->lib, ((const struct img_measure *)at->it)->words);
}

static const struct field MEASURE[] = {
    TEXT_OF_ALWAYS("words", measure_words, "one of these"),
    NUMBER("grams", "g", struct img_measure, grams, ""),
};
static const struct shape measure_shape = SHAPE("HouseholdMeasure", MEASURE, "what a household measure weighs");

static size_t measures(const struct at *at) {
  size_t count;
  library_measures(at->lib, index_of(at), &count);
  return count;
}
static const void *measure(const struct at *at, size_t i) {
  size_t count;
  return library_measures(at->lib, index_of(at), &count) + i;
}

static const struct field LABEL_UNIT[] = {
    TEXT("word", struct own_food, unit_word, "\"tablet\""),
    NUMBER("grams", "g", struct own_food, unit_g, ""),
};
static const struct shape label_unit_shape = SHAPE("LabelUnit", LABEL_UNIT, "the piece that a label speaks of");
static const void *label_unit(const struct at *at) {
  const struct own_food *own = library_own(at->lib, index_of(at));
  return own && own->unit_word ? own : NULL;
}

static const struct img_value *value(const struct at *at) { return at->it; }
static bool known(const struct at *at) { return value(at)->status != VALUE_UNKNOWN; }
static double quantile(const struct at *at, double p) {
  return known(at) ? lognormal_quantile((double)value(at)->mean, img_cv(*value(at)), p) : NOT_KNOWN;
}

static const char *value_key(const struct at *at) { return nutrient_info[at->place].key; }
static const char *value_name(const struct at *at) { return nutrient_info[at->place].name; }
static const char *value_unit(const struct at *at) { return nutrient_info[at->place].unit; }
static double value_amount(const struct at *at) { return known(at) ? (double)value(at)->mean : NOT_KNOWN; }
static double value_low(const struct at *at) { return quantile(at, 0.05); }
static double value_high(const struct at *at) { return quantile(at, 0.95); }
static double value_cv(const struct at *at) { return known(at) ? img_cv(*value(at)) : NOT_KNOWN; }
static int value_status(const struct at *at) {
  return value(at)->status < VALUE_STATUS_COUNT ? (int)value(at)->status : VALUE_UNKNOWN;
}
static const char *value_source(const struct at *at) {
  return json_source_key(at->lib, library_value_source(at->lib, value(at)));
}

#define FLOAT_OF(key_, unit_, get_, doc_)                                                                                   \
  { .key = (key_), .unit = (unit_), .doc = (doc_), .kind = FIELD_NUMBER_OF, .digits = FLOAT_DIGITS, .number = (get_) }

static const void *value_pattern(const struct at *at) { return library_value_pattern(at->lib, value(at)); }
static const void *value_set_aside(const struct at *at) {
  return library_set_aside(at->lib, index_of(at->up), (enum nutrient)at->place);
}
static const char *estimate_from(const struct at *at) {
  return lib_str(at->lib, ((const struct img_pattern *)at->it)->name);
}
static const struct field ESTIMATE[] = {
    TEXT_OF_ALWAYS("from", estimate_from, "the class, and what of it stands in"),
    NUMBER_ALWAYS("tried", "", struct img_pattern, foods, "printed values that were left out and guessed"),
    NUMBER_ALWAYS("within", "", struct img_pattern, cv, "how far off, a coefficient of variation"),
};
static const struct shape estimate_shape = SHAPE("FoodEstimate", ESTIMATE, "what an estimate rests on");

static const char *aside_class(const struct at *at) {
  return lib_str(at->lib, ((const struct img_set_aside *)at->it)->class_name);
}
static const struct field ASIDE[] = {
    NUMBER_ALWAYS("printed", "unit", struct img_set_aside, printed, "by the table, per 100 g"),
    NUMBER_ALWAYS("share", "", struct img_set_aside, share, "of the protein"),
    NUMBER_ALWAYS("least", "", struct img_set_aside, least, "share in the other analyses"),
    NUMBER_ALWAYS("most", "", struct img_set_aside, most, "share in the other analyses"),
    NUMBER_ALWAYS("analyses", "", struct img_set_aside, analyses, "the others"),
    TEXT_OF_ALWAYS("class", aside_class, "whose analyses"),
};
static const struct shape aside_shape = SHAPE("FoodSetAside", ASIDE, "a printed value that its class contradicts");

static const struct field VALUE[] = {
    TEXT_OF_ALWAYS("key", value_key, "of the nutrient"),
    TEXT_OF_ALWAYS("name", value_name, "for people"),
    TEXT_OF_ALWAYS("unit", value_unit, "of the amounts"),
    FLOAT_OF("amount", "unit", value_amount, "per 100 g"),
    FLOAT_OF("low", "unit", value_low, "5th percentile"),
    FLOAT_OF("high", "unit", value_high, "95th percentile"),
    FLOAT_OF("cv", "", value_cv, "coefficient of variation"),
    WORD_OF_ALWAYS("status", value_status, value_status_word, VALUE_STATUS_COUNT, "what kind of figure it is"),
    TEXT_OF("source", value_source, "key of the source"),
    OBJECT_OF("estimate", value_pattern, &estimate_shape, "null for a value that does not rest on a class"),
    OBJECT_OF("set_aside", value_set_aside, &aside_shape, "null where the printed value is believed"),
};
static const struct shape value_shape = SHAPE("FoodValue", VALUE, "what 100 g of the record contain of a nutrient");

static size_t values(const struct at *at) {
  (void)at;
  return NUT_COUNT;
}
static const void *a_value(const struct at *at, size_t i) { return library_values(at->lib, index_of(at)) + i; }

static const char *food_group(const struct at *at) { return is_own(at) ? NULL : lib_str(at->lib, food_of(at)->group); }
static int food_class(const struct at *at) { return (int)json_part_of((enum part)food_of(at)->part); }
static const char *food_note(const struct at *at) { return library_note(at->lib, index_of(at)); }
static const void *origin(const struct at *at) {
  return food_of(at)->source ? library_source(at->lib, food_of(at)->source) : NULL;
}
static double refuse(const struct at *at) { return (double)food_of(at)->refuse; }
static const char *refuse_is(const struct at *at) { return is_own(at) ? NULL : lib_str(at->lib, food_of(at)->refuse_text); }
static double piece(const struct at *at) { return (double)food_of(at)->piece_g; }
static double density(const struct at *at) { return (double)food_of(at)->density; }
static const char *raw_form(const struct at *at) { return json_food_code(at->lib, food_of(at)->raw_form); }
static double per_g(const struct at *at) {
  (void)at;
  return 100;
}

static const struct field FOOD[] = {
    SAME_AS(&head_shape),
    TEXT_OF("group", food_group, "of the published table"),
    WORD_OF_ALWAYS("class", food_class, json_part_key, BOWL_COUNT, "a key of `parts`"),
    TEXT_OF("note", food_note, "what to know of this record"),
    OBJECT_OF("origin", origin, &source_shape, ""),
    FLOAT_OF("refuse", "", refuse, "share of the piece as bought that is not eaten"),
    TEXT_OF("refuse_is", refuse_is, "what that is"),
    OBJECT_OF("bone", bone, &bone_shape, "null: not a piece with bone"),
    ROWS_OF("measures", measures, measure, &measure_shape, "household measures"),
    OBJECT_OF("label_unit", label_unit, &label_unit_shape, "of a food of your own"),
    FLOAT_OF("piece_g", "g", piece, "one usual piece"),
    FLOAT_OF("density_g_per_ml", "g per ml", density, ""),
    TEXT_OF("raw_form", raw_form, "the pin of the same food raw"),
    NUMBER_OF_ALWAYS("per_g", "g", per_g, "what the amounts are for: 100"),
    ROWS_OF("nutrients", values, a_value, &value_shape, ""),
};
const struct shape json_food_shape = SHAPE("FoodRecord", FOOD, "the answer of `food --json`");

void json_food(const struct library *lib, uint32_t food, struct buf *out) { json_write(lib, &json_food_shape, &food, out); }

/* ---- what the library holds -------------------------------------------------------------------------------------- */

static double values_of(const struct at *at, size_t status) {
  const struct img_value *v = IMG_ROWS(&at->lib->image, IMG_VALUES, struct img_value);
  size_t count = 0;
  for (size_t i = 0; i < img_count(&at->lib->image, IMG_VALUES); i++) count += v[i].status == status;
  return (double)count;
}

static const enum img_tag TABLE[] = {IMG_ALLOWANCES, IMG_WINDOWS,  IMG_ENERGY,    IMG_CONSTANTS, IMG_RETENTION,
                                     IMG_YIELDS,     IMG_HAZARDS,  IMG_DENSITIES, IMG_FINDINGS,  IMG_MEASURES,
                                     IMG_NAMES,      IMG_SYNONYMS, IMG_HOUSEHOLD, IMG_KITCHEN};
static const char *const TABLE_KEY[] = {"allowances",     "windows",  "energy",    "constants", "retention",
                                        "yields",         "hazards",  "densities", "findings",  "measures",
                                        "everyday_names", "synonyms", "household", "kitchen"};
static_assert(COUNT_OF(TABLE) == COUNT_OF(TABLE_KEY), "every table has its key");
static double rows_of(const struct at *at, size_t table) { return (double)img_count(&at->lib->image, TABLE[table]); }

static double source_foods(const struct at *at) {
  const struct img_food *food = IMG_ROWS(&at->lib->image, IMG_FOODS, struct img_food);
  size_t foods = 0;
  for (size_t k = 0; k < img_count(&at->lib->image, IMG_FOODS); k++) foods += food[k].source == at->place + 1;
  return (double)foods;
}

static const struct field COUNTED_SOURCE[] = {
    SAME_AS(&source_shape),
    NUMBER_OF_ALWAYS("foods", "", source_foods, "records that come from it"),
};
static const struct shape counted_source_shape = SHAPE("LibrarySource", COUNTED_SOURCE, "a source, and its records");

static size_t rows_in(const struct at *at, enum img_tag tag) { return img_count(&at->lib->image, tag); }
/* The first row of the table stands for "no source". */
static size_t sources(const struct at *at) { return rows_in(at, IMG_SOURCES) > 0 ? rows_in(at, IMG_SOURCES) - 1 : 0; }
static const void *a_source(const struct at *at, size_t i) {
  return IMG_ROWS(&at->lib->image, IMG_SOURCES, struct img_source) + i + 1;
}

static const struct img_pattern *pattern_of(const struct at *at) { return at->it; }
static const char *nutrient_key_or_null(uint32_t n) { return n < NUT_COUNT ? nutrient_info[n].key : NULL; }
static const char *pattern_name(const struct at *at) { return lib_str(at->lib, pattern_of(at)->name); }
static const char *pattern_key(const struct at *at) { return nutrient_key_or_null(pattern_of(at)->nutrient); }
static const char *pattern_base(const struct at *at) { return nutrient_key_or_null(pattern_of(at)->base); }

static const struct field PATTERN[] = {
    TEXT_OF_ALWAYS("name", pattern_name, "the foods that it holds for"),
    TEXT_OF("key", pattern_key, "of the nutrient"),
    TEXT_OF("base", pattern_base,
            "key of the nutrient that it is counted by; null: per 100 g of food, or the share kept where the name says "
            "\"from its raw form\""),
    NUMBER("ratio", "unit per g of base", struct img_pattern, ratio, ""),
    NUMBER("leave_one_out_cv", "", struct img_pattern, cv, "error when each record is estimated from the others"),
    NUMBER_ALWAYS("foods", "", struct img_pattern, foods, "records behind it"),
    NUMBER_ALWAYS("applied", "", struct img_pattern, applied, "records that received an estimate"),
};
static const struct shape pattern_shape = SHAPE("Pattern", PATTERN, "a rule by which missing values are estimated");
static size_t patterns(const struct at *at) { return rows_in(at, IMG_PATTERNS); }
static const void *pattern(const struct at *at, size_t i) {
  return IMG_ROWS(&at->lib->image, IMG_PATTERNS, struct img_pattern) + i;
}

static const struct img_quarantine *shut_out(const struct at *at) { return at->it; }
static const char *shut_out_table(const struct at *at) { return lib_str(at->lib, shut_out(at)->table); }
static const char *shut_out_what(const struct at *at) { return lib_str(at->lib, shut_out(at)->what); }
static const char *shut_out_reason(const struct at *at) { return lib_str(at->lib, shut_out(at)->reason); }

static const struct field QUARANTINE[] = {
    TEXT_OF("table", shut_out_table, "where it stands"),
    TEXT_OF("what", shut_out_what, ""),
    TEXT_OF("reason", shut_out_reason, ""),
    NUMBER_ALWAYS("values", "", struct img_quarantine, values, "how many"),
};
static const struct shape quarantine_shape = SHAPE("Quarantine", QUARANTINE, "published values that are not used");
static size_t quarantined(const struct at *at) { return rows_in(at, IMG_QUARANTINE); }
static const void *quarantine(const struct at *at, size_t i) {
  return IMG_ROWS(&at->lib->image, IMG_QUARANTINE, struct img_quarantine) + i;
}

static const char *made_from(const struct at *at) { return lib_str(at->lib, at->lib->image.header->made_from); }
static double version(const struct at *at) { return at->lib->image.header->version; }
static double bytes(const struct at *at) { return (double)at->lib->image.n; }
static double foods(const struct at *at) { return (double)rows_in(at, IMG_FOODS); }
static double own_foods(const struct at *at) { return (double)at->lib->own_count; }

static const struct field LIBRARY[] = {
    TEXT_OF("made_from", made_from, "the packages it was built from"),
    NUMBER_OF_ALWAYS("version", "", version, "of the file's form"),
    NUMBER_OF_ALWAYS("bytes", "bytes", bytes, ""),
    NUMBER_OF_ALWAYS("foods", "", foods, "records"),
    NUMBER_OF_ALWAYS("own_foods", "", own_foods, "foods of your own beside them"),
    MAP_OF("values", value_status_word, VALUE_STATUS_COUNT, values_of, "how many figures are of each kind"),
    MAP_OF("rows", TABLE_KEY, (int)COUNT_OF(TABLE_KEY), rows_of, "of each table"),
    ROWS_OF("sources", sources, a_source, &counted_source_shape, ""),
    ROWS_OF("patterns", patterns, pattern, &pattern_shape, "rules by which missing values are estimated"),
    ROWS_OF("quarantine", quarantined, quarantine, &quarantine_shape, "published values that are not used"),
};
const struct shape json_library_shape = SHAPE("Library", LIBRARY, "the answer of `library --json`");

void json_library(const struct library *lib, struct buf *out) { json_write(lib, &json_library_shape, lib, out); }
