/* image_records.h: the food library as one read-only block of bytes: its records.
 *
 * The builder (library/) writes it; the program maps it (or a page fetches it) and reads it in place: nothing is
 * parsed and nothing is copied at start. Layout: a header, a directory of sections, then the sections, each an array
 * of one record type, 16-byte aligned, little-endian. Text is an offset into the string section, NUL-terminated;
 * offset 0 is the empty string. Row 0 of the source section means "no source". NaN is "no figure", never 0.
 *
 * Layer: foods. Pure: works on bytes that the caller owns and keeps for as long as the library is used. */
#ifndef BW_IMAGE_RECORDS_H
#define BW_IMAGE_RECORDS_H

#include "base/arena.h"
#include "foods/nutrient.h"

enum { IMAGE_VERSION = 8, NO_INDEX = 0xffffffff };
#define IMAGE_MAGIC "BWLIB\r\n\x1a" /* 8 bytes; the line end shows a transfer in text mode */

typedef uint32_t img_text; /* offset into the string section */

struct img_header {
  char magic[8];
  uint32_t version;        /* IMAGE_VERSION */
  uint32_t endian;         /* 0x01020304 as the writer's machine stores it */
  uint64_t bytes;          /* of the whole image */
  uint64_t checksum;       /* image_checksum of the whole */
  uint32_t nutrient_count; /* NUT_COUNT of the writer */
  uint32_t section_count;
  img_text made_from; /* one line: the data packages with their versions */
  uint32_t reserved;
};

struct img_section {
  uint32_t tag;    /* enum img_tag */
  uint32_t stride; /* bytes of one record: a reader with another idea of the record refuses the image */
  uint64_t offset; /* from the start of the image */
  uint64_t count;
};

enum img_tag {
  IMG_STRINGS = 1,   /* char */
  IMG_SOURCES,       /* struct img_source */
  IMG_FOODS,         /* struct img_food */
  IMG_VALUES,        /* struct img_value [food][NUT_COUNT] */
  IMG_MEASURES,      /* struct img_measure, grouped by food */
  IMG_CLASSES,       /* struct img_class_value [SPREAD_CLASS_COUNT][NUT_COUNT] */
  IMG_PATTERNS,      /* struct img_pattern: the amino- and fatty-acid patterns with their error, for reporting */
  IMG_TOKENS,        /* search: struct img_token, sorted by text */
  IMG_POSTINGS,      /* search: struct img_posting, grouped by token */
  IMG_NAMES,         /* search: struct img_name, everyday phrases and the record they mean */
  IMG_SYNONYMS,      /* search: struct img_synonym, word for word */
  IMG_FOLDS,         /* search: struct img_fold, accented letters to plain ones, sorted by code point */
  IMG_ALLOWANCES,    /* struct img_allowance */
  IMG_WINDOWS,       /* struct img_window */
  IMG_ENERGY,        /* struct img_energy */
  IMG_CONSTANTS,     /* struct img_constant: single figures by key, species-wise (exponents, carotene factor ...) */
  IMG_RETENTION,     /* struct img_retention */
  IMG_YIELDS,        /* struct img_yield */
  IMG_HAZARDS,       /* struct img_hazard */
  IMG_DENSITIES,     /* struct img_density */
  IMG_FINDINGS,      /* struct img_finding */
  IMG_QUARANTINE,    /* struct img_quarantine: columns set aside by rule, with the evidence */
  IMG_SEARCH_FOODS,  /* search: struct img_search_food, one a food in the order of the foods */
  IMG_FIXES,         /* struct img_fix: foods and shop units that people use to cover a nutrient */
  IMG_HOUSEHOLD,     /* struct img_household: handfuls, pinches, and pieces without a published weight */
  IMG_SHOP_UNITS,    /* struct img_shop_unit: what is sold by the tablet, capsule, drop, tin, egg */
  IMG_PORTIONS,      /* struct img_portion: how much of a kind of food people feed */
  IMG_FOOD_PORTIONS, /* struct img_food_portion, one a food in the order of the foods */
  IMG_SET_ASIDE,     /* struct img_set_aside: printed values that their class contradicts, by food and nutrient */
  IMG_KITCHEN,       /* struct img_kitchen: keeping, thawing, changing over */
  IMG_FOOD_GROUPS,   /* struct img_food_group: what people mean by a word for several foods */
  IMG_UNCOUNTED,     /* struct img_uncounted: what a thing that is no food of the tables can hold at most */
  IMG_SUMS,          /* uint64_t: checksums of parts, for a reader in haste; see image_open_in_parts() */
  IMG_TAG_END
};

/* converted: the same figure was read on another basis. ORDER CONFIDENCE */
enum confidence { CONF_CONFIRMED, CONF_CONVERTED, CONF_MEMORY, CONF_COMMON_PRACTICE, CONF_CONFLICTING, CONF_COUNT };
extern const char *const confidence_word[CONF_COUNT];

struct img_source {
  img_text key;   /* "usda_sr28" */
  img_text title; /* the publication, in one line */
  img_text licence;
  uint32_t confidence;
};

/* ---- foods -------------------------------------------------------------------------------------------------- */

/* ORDER PART: what a trade's bowl is made of; part_word[] in image.c. */
enum part {
  PART_MUSCLE,
  PART_ORGAN_LIVER,
  PART_ORGAN_SECRETING,
  PART_ORGAN_OTHER,
  PART_BONE,
  PART_FISH,
  PART_SHELLFISH,
  PART_EGG,
  PART_DAIRY,
  PART_VEGETABLE,
  PART_FRUIT,
  PART_GRAIN,
  PART_LEGUME,
  PART_SEED_NUT,
  PART_FAT_OIL,
  PART_SUPPLEMENT,
  PART_OTHER,
  PART_COUNT
};
extern const char *const part_word[PART_COUNT];

/* ORDER SPREAD_CLASS: the classes of the variability table; spread_class_word[] in image.c. */
enum spread_class {
  SPREAD_DAIRY,
  SPREAD_EGG,
  SPREAD_FAT_OIL,
  SPREAD_FISH,
  SPREAD_FRUIT,
  SPREAD_GRAIN,
  SPREAD_LEGUME,
  SPREAD_ORGAN,
  SPREAD_OTHER,
  SPREAD_POULTRY,
  SPREAD_RED_MEAT,
  SPREAD_SEED_NUT,
  SPREAD_SHELLFISH,
  SPREAD_VEGETABLE,
  SPREAD_BONE,
  SPREAD_SUPPLEMENT,
  SPREAD_CLASS_COUNT
};
extern const char *const spread_class_word[SPREAD_CLASS_COUNT];

/* ORDER KIND: which creature (or plant) it is, as far as a fatty-acid pattern, a bone or a retention code depends on it. */
enum kind {
  KIND_BEEF,
  KIND_VEAL,
  KIND_PORK,
  KIND_LAMB,
  KIND_GOAT,
  KIND_GAME,
  KIND_RABBIT,
  KIND_CHICKEN,
  KIND_TURKEY,
  KIND_DUCK,
  KIND_GOOSE,
  KIND_BIRD_OTHER,
  KIND_FISH,
  KIND_SHELLFISH,
  KIND_EGG,
  KIND_MILK,
  KIND_PLANT,
  KIND_OTHER,
  KIND_COUNT
};
extern const char *const kind_word[KIND_COUNT];

/* ORDER STATE: how it was prepared; state_word[] in image.c has the words a recipe may use. */
enum state {
  STATE_RAW,
  STATE_BOILED,
  STATE_SIMMERED,
  STATE_BAKED,
  STATE_ROASTED,
  STATE_PAN_FRIED,
  STATE_STEAMED,
  STATE_PRESSURE_COOKED,
  STATE_GRILLED,
  STATE_MICROWAVED,
  STATE_CANNED,
  STATE_DRIED,
  STATE_FREEZE_DRIED,
  STATE_COOKED_OTHER,
  STATE_UNSTATED,
  STATE_COUNT
};
extern const char *const state_word[STATE_COUNT];
static inline bool state_is_cooked(enum state s) {
  return (s >= STATE_BOILED && s <= STATE_CANNED) || s == STATE_COOKED_OTHER;
}

enum food_flag {
  FOOD_PLAIN = 1 << 0,    /* an ordinary single food: raw, or plainly cooked, nothing added */
  FOOD_ENRICHED = 1 << 1, /* vitamins or minerals added */
  FOOD_BRAND = 1 << 2,
  FOOD_DISH = 1 << 3,   /* mixed, prepared, fast food, baby food, restaurant */
  FOOD_SALTED = 1 << 4, /* salt, sugar, sauce, breading or cure added */
  FOOD_CUT = 1 << 5,    /* one of our own bone-in cuts: values are those of the flesh, bone is added by share */
  FOOD_BONE = 1 << 6,   /* bone itself */
  FOOD_ALWAYS_BONE_IN =
      1 << 7,               /* people mean it with the bone (duck neck, chicken foot): bone-in unless they say boneless */
  FOOD_SKIN = 1 << 8,       /* with skin */
  FOOD_SKINLESS = 1 << 9,   /* meat only */
  FOOD_LEAN_ONLY = 1 << 10, /* separable lean only */
  FOOD_WITH_FAT = 1 << 11,  /* separable lean and fat */
  FOOD_DRAINED = 1 << 12,
  FOOD_OWN = 1 << 13,        /* from a label that the user gave */
  FOOD_RAW_WHITE = 1 << 14,  /* raw egg white: avidin */
  FOOD_THIAMINASE = 1 << 15, /* a fish or shellfish reported to carry thiaminase when raw */
  FOOD_FISH_OIL = 1 << 16,
  FOOD_KELP = 1 << 17,
  FOOD_HIGH_MERCURY = 1 << 18,
  FOOD_HIGH_OXALATE = 1 << 19,
  FOOD_FATTY_FISH = 1 << 20, /* over 5 % fat: the retention table's own division */
  FOOD_RARE = 1 << 21        /* of an animal that few shops sell */
};

struct img_food {
  img_text code;  /* "usda:17199", "ifct:O032", "cut:duck-neck", "bone:chicken", "ours:eggshell" */
  img_text name;  /* as the published table names it */
  img_text group; /* food group of the published table */
  uint8_t part, spread_class, kind, state;
  uint32_t flags;      /* enum food_flag */
  float bone_share;    /* bone as a share of the piece as bought, 0..1; NaN: not a bone-in piece, or no figure */
  float bone_share_cv; /* its coefficient of variation */
  uint32_t bone_food;  /* index of the bone record that goes with it; NO_INDEX if none */
  float refuse;        /* published refuse, share of the piece as bought 0..1; NaN none */
  img_text refuse_text;
  uint32_t measure_first, measure_count;
  uint32_t hazard;          /* index into hazards; NO_INDEX none */
  uint32_t retention_group; /* enum retention_group: which cooking rows fit it */
  uint32_t raw_form;        /* for a cooked record: the raw record of the same food; NO_INDEX */
  uint16_t source;
  uint16_t bone_source; /* of bone_share */
  img_text note;        /* what a reader should know of this record; may be empty */
  float density;        /* g per ml for spoons and cups when no measure fits; NaN unknown */
  float piece_g;        /* one usual piece ("each", medium); NaN unknown */
};

/* ORDER STATUS: value_status_word[] in image.c. */
enum value_status { VALUE_UNKNOWN, VALUE_MEASURED, VALUE_CITED, VALUE_ESTIMATED, VALUE_NONE, VALUE_STATUS_COUNT };
extern const char *const value_status_word[VALUE_STATUS_COUNT];

/* 'source' of an estimate from a pattern is the count of sources + the row of the pattern: library_value_source and
 * library_value_pattern take that apart.
 * Amount per 100 g as eaten (edible part), in the nutrient's unit. VALUE_UNKNOWN has mean NaN; VALUE_NONE has mean 0
 * (absent by nature, by a rule that 'source' names). The spread is lognormal with this mean and coefficient of
 * variation; the code is hundredths: 0 .. 2.55. It already joins the spread between samples and the error of an estimate. */
struct img_value {
  float mean;
  uint8_t cv_code;
  uint8_t status;
  uint16_t source;
};
static inline double img_cv(struct img_value v) { return v.cv_code / 100.0; }

/* "1 large (50 g)": grams of one such measure. */
struct img_measure {
  img_text words; /* "large", "cup, chopped", "fillet", "can (3.75 oz)" : the amount of 1 divided out */
  float grams;
  uint32_t unit; /* enum unit when the words begin with a kitchen unit (cup, tbsp ...), else UNIT_NONE */
};

/* What a food of the class holds of a nutrient, per 100 g: used as the bound for a food without a value. */
struct img_class_value {
  float median, high; /* high: 95th percentile of the class's known records; NaN if fewer than 5 are known */
  float cv;           /* spread within one described food (variability table), median over foods */
  uint32_t foods;
};

struct img_pattern {
  img_text name; /* "mammal muscle", "ruminant muscle, raw: the nearest of other kinds" */
  uint32_t nutrient;
  float ratio;      /* g per g of the base; NaN where each record has relatives of its own */
  uint32_t base;    /* enum nutrient: PROTEIN, FAT or POLYUNSATURATED; NUT_NONE: per 100 g, or the
                      share kept where the name says "from its raw form" */
  float cv;         /* leave-one-out error as a coefficient of variation (root mean square of relative error) */
  uint32_t foods;   /* records behind it */
  uint32_t applied; /* records that received an estimate from it */
};

/* ---- search --------------------------------------------------------------------------------------------------- */

struct img_token {
  img_text text;                         /* folded, singular, after the synonyms */
  uint32_t posting_first, posting_count; /* 0 postings: a word that people type but no name holds */
  uint32_t importance; /* hundredths: what a search loses when a food lacks this word; 0 for words that say nothing */
};
struct img_posting {
  uint32_t food;
  uint16_t position; /* of the word in the name, 0 first */
  uint16_t weight;   /* hundredths: what the food loses when the search did not ask for this word */
};
struct img_search_food {
  uint16_t words_weight; /* hundredths: the weights of all its postings together */
  uint16_t prior;        /* hundredths: what it loses before any word is read (dish, brand, enriched ...) */
  uint8_t lean_percent;  /* of "90% lean meat / 10% fat"; 0 when the name has none */
  uint8_t cut;           /* enum search_cut: what the name says of the bone */
  uint8_t name_words;
  uint8_t reserved;
};
enum search_cut { SEARCH_CUT_UNSAID, SEARCH_CUT_BONE_IN, SEARCH_CUT_BONELESS };
struct img_name {
  img_text phrase; /* folded words, sorted as people say them */
  img_text said;   /* the phrase as people say it */
  uint32_t food;
  uint32_t rank; /* 0 best */
  img_text note; /* where the record is not quite what the phrase says; "" */
};
struct img_synonym {
  img_text from, to; /* folded; 'to' may hold several words */
};
struct img_fold {
  uint32_t code_point;
  char plain[4]; /* NUL-padded */
};

/* ---- tables ------------------------------------------------------------------------------------------------- */

enum species { SPECIES_DOG, SPECIES_CAT, SPECIES_COUNT };
extern const char *const species_word[SPECIES_COUNT];
enum { SPECIES_BOTH = 2 };

/* ORDER STANDARD: X(enum, "key", "Name"). */
#define STANDARD_LIST(X)                                                                                                    \
  X(NRC2006, "nrc2006", "NRC 2006")                                                                                         \
  X(FEDIAF2021, "fediaf2021", "FEDIAF 2021")                                                                                \
  X(AAFCO2016, "aafco2016", "AAFCO 2016")

enum standard_id {
#define X(id, key, name) STANDARD_##id,
  STANDARD_LIST(X)
#undef X
      STANDARD_COUNT
};
extern const char *const standard_key[STANDARD_COUNT];  /* as on the command line */
extern const char *const standard_name[STANDARD_COUNT]; /* for people */

enum allow_level { LEVEL_MINIMUM, LEVEL_ADEQUATE, LEVEL_ALLOWANCE, LEVEL_UPPER, LEVEL_COUNT };
enum allow_basis { PER_1000KCAL, PER_METABOLIC_KG, ALLOW_BASIS_COUNT };

/* One figure of a standard, already in the nutrient's unit of nutrient.h (IU and mg converted by the builder,
 * the printed figure kept as text). */
struct img_allowance {
  uint8_t standard, species, nutrient, level; /* enums above */
  uint8_t basis;                              /* enum allow_basis */
  uint8_t confidence;
  uint8_t greater_than; /* an upper figure that is only the highest level tested: warn, do not forbid */
  uint8_t cautious;     /* an upper figure that ordinary food passes without harm: told, never judged by */
  float amount;
  float at_kcal; /* energy per metabolic kg at which a per-1000-kcal figure was set (130, 110, 95; 100, 75); NaN if the
                    standard has none */
  uint16_t source, row; /* row: line of data/allowances.tsv, for tracing */
  img_text printed;     /* "18 mg per 1000 kcal" */
  img_text note;
};

struct img_window {
  uint8_t species; /* enum species or SPECIES_BOTH */
  uint8_t nutrient;
  uint8_t days;
  uint8_t highest_day; /* 1: an excess on one day matters too */
  uint8_t confidence;
  uint8_t reserved[3];
  uint16_t source, row;
  img_text note;
};

/* kcal = factor * kg^exponent, with a range. Chosen by species, activity, neuter status and age. */
struct img_energy {
  img_text key;              /* "dog-moderate" */
  img_text words;            /* "adult dog, moderate activity" */
  uint8_t species, activity; /* enum activity in animal.h; 0xff any */
  uint8_t neutered;          /* 0 no, 1 yes, 2 either */
  uint8_t confidence;
  float factor, low, high, exponent;
  float age_from, age_to; /* years; NaN open */
  uint16_t source, row;
  img_text note;
};

/* Sorted by key, then species. */
struct img_constant {
  img_text key;    /* "metabolic-exponent" */
  uint8_t species; /* or SPECIES_BOTH */
  uint8_t confidence;
  uint16_t source;
  float value, low, high; /* NaN where there is no range */
  uint32_t row;
  img_text unit, note;
};

/* ORDER RETENTION_GROUP */
enum retention_group {
  RETAIN_BEEF,
  RETAIN_PORK,
  RETAIN_CHICKEN,
  RETAIN_TURKEY,
  RETAIN_LAMB,
  RETAIN_LIVER,
  RETAIN_ORGAN,
  RETAIN_FISH_LEAN,
  RETAIN_FISH_FATTY,
  RETAIN_SHELLFISH,
  RETAIN_EGG,
  RETAIN_MILK,
  RETAIN_POTATO,
  RETAIN_SWEET_POTATO,
  RETAIN_GREENS,
  RETAIN_VEGETABLE,
  RETAIN_ROOT,
  RETAIN_OATMEAL,
  RETAIN_CEREAL,
  RETAIN_PASTA,
  RETAIN_RICE,
  RETAIN_LEGUME,
  RETAIN_NO_GROUP,
  RETAIN_GROUP_COUNT
};
extern const char *const retention_group_word[RETAIN_GROUP_COUNT];

/* One row per (group, method, broth kept or not): share of each nutrient that stays, 0..1, NaN where no factor exists. */
struct img_retention {
  img_text code, words; /* "0653", "BEEF,ROAST,SIMMERED,WO/DRIPPINGS" */
  uint8_t group, state; /* enum retention_group, enum state */
  uint8_t broth;        /* 0 discarded, 1 kept, 2 does not apply */
  uint8_t rank;         /* 0: the row that stands for this group, state and broth; others are kept for reading */
  uint16_t source, row;
  float mean[NUT_COUNT];
  float cv[NUT_COUNT]; /* 0 for a published factor (rounded to 5 %); the spread of a range where a kind's range stands in */
  uint8_t status[NUT_COUNT]; /* enum value_status: MEASURED published, CITED one named source, ESTIMATED range of this row's
                                own factors of that kind, UNKNOWN */
};

struct img_yield {
  img_text words;
  uint8_t group, state;
  uint8_t confidence, reserved;
  float yield; /* cooked g per raw g */
  float low, high;
  uint16_t source, row;
};

struct img_hazard {
  img_text id;     /* "onion" */
  img_text words;  /* which foods, in plain words */
  img_text match;  /* alternatives with '|' between: all folded words of one alternative stand in the food's name and no word
                      given  as '-word' does; empty: found by id only */
  uint8_t species; /* or SPECIES_BOTH */
  uint8_t weight;  /* enum finding_weight */
  uint8_t confidence;
  uint8_t raw_only; /* 1: only when it is eaten raw */
  uint16_t source, row;
  img_text dose; /* what is known of amounts, in words */
  img_text advice;
  /* For foods/hazard_words.h: alternatives with '|' between, folded. What names it, phrases that are something else, phrases
     that settle it wherever they stand, and which of its words are also names of animals. */
  img_text said, unless, answered, names;
};

struct img_density {
  img_text words; /* folded words of the food */
  float g_per_ml;
  uint16_t source, row;
};

struct img_household {
  img_text words;          /* folded; '|' between spellings; "" for a row that weighs a piece */
  img_text foods;          /* a measure's foods: folded words of a name or a part's word, '|' between, "" all; of a piece all
                              of its words */
  float low, middle, high; /* low and high hold 90 of 100 cases */
  uint8_t is_volume;       /* ml, else g */
  uint8_t confidence;
  uint16_t source, row;
};

enum finding_weight { FINDING_ACT, FINDING_WATCH, FINDING_KNOW, FINDING_WEIGHT_COUNT };
extern const char *const finding_weight_word[FINDING_WEIGHT_COUNT];

/* Words and threshold of one kind of finding; the condition itself is code in a findings_*.c, found by id. */
struct img_finding {
  img_text id;
  uint8_t weight, confidence;
  uint16_t order;              /* among those of one weight: smaller comes first */
  float threshold, threshold2; /* meaning stands in 'note'; NaN none */
  img_text words;              /* a sentence with {placeholders} */
  img_text reason;             /* why it matters */
  img_text remedy;             /* what would change it */
  uint16_t source, row;
  img_text note;
};

/* For which bowls a food is meant: raw liver for raw ones, cooked liver for cooked ones. ORDER 'way' of fixes.tsv */
enum fix_way { FIX_ANY, FIX_RAW, FIX_COOKED, FIX_WAY_COUNT };

/* A food or a shop unit that people add for the sake of one nutrient; what it supplies is computed from its record. */
struct img_fix {
  uint8_t nutrient, species; /* SPECIES_BOTH */
  uint8_t confidence;
  uint8_t late; /* only when the others do not suffice */
  uint32_t food;
  uint32_t shop_unit; /* NO_INDEX: weighed in grams */
  img_text words;     /* "ground pumpkin seed" */
  uint16_t source, row;
  uint8_t way, reserved[3]; /* enum fix_way */
};

/* Something counted, as shops sell it: "1 tablet zinc 10 mg [ours:zinc-gluconate]". The recipe's own reader says how many
 * grams that is. */
struct img_shop_unit {
  img_text key, unit; /* "zinc-10", "tablet": the counting word of a recipe line */
  img_text one, many; /* what follows it for one and for several */
  img_text name;      /* "zinc tablet, 10 mg of zinc" */
  uint32_t food;
  float most;       /* units a feeding for an animal of 10 kg */
  uint8_t nutrient; /* what it holds is stated of; NUT_COUNT: a food */
  uint8_t halves;   /* a half can be measured out */
  uint8_t often[4]; /* feedings in 28 days that are usual, most first; 0 ends the list */
  uint8_t confidence, reserved;
  float holds;      /* of the nutrient, in its unit; of a food, grams */
  float times_need; /* a smallest dose of more than so many times the daily need is not offered; NaN for a food */
  uint16_t source, row;
};

/* The usual most of a kind of food. */
struct img_portion {
  img_text words, often;    /* "white fish", "daily" */
  float most_g, most_share; /* as eaten a day: per kg of metabolic weight; of the bowl, 0..1 */
  uint8_t species, confidence;
  uint16_t source, row;
  uint16_t one_of; /* of foods with the same number only one is added; 0: as many as one likes */
};
enum { NO_PORTION = 255 };
struct img_food_portion {
  uint8_t of[2]; /* [enum species] index into the portions, or NO_PORTION */
};

/* ORDER KITCHEN_TOPIC, KITCHEN_FORM: kitchen_topic_word[], kitchen_form_word[] in image.c. */
enum kitchen_topic {
  KITCHEN_KEEP,
  KITCHEN_COLD,
  KITCHEN_THAW,
  KITCHEN_SERVE,
  KITCHEN_BOX,
  KITCHEN_CHANGE,
  KITCHEN_CHANGE_CARE,
  KITCHEN_TOPICS
};
extern const char *const kitchen_topic_word[KITCHEN_TOPICS];
enum kitchen_form { KITCHEN_ANY_FORM, KITCHEN_RAW, KITCHEN_COOKED, KITCHEN_CANNED, KITCHEN_FORMS };
extern const char *const kitchen_form_word[KITCHEN_FORMS];

/* What is known of keeping and handling food; which columns hold what is told in data/kitchen.tsv, topic by topic. */
struct img_kitchen {
  img_text key, words;          /* words: folded alternatives with '|' between */
  img_text says, says_us;       /* says_us "" where there are no units in it */
  uint32_t parts, kinds;        /* one bit a value of enum part, enum kind */
  float low, high, low2, high2; /* NaN none */
  float share;
  uint8_t topic, form, confidence, reserved;
  uint16_t source, row;
};

/* A word for several foods ("poultry", "dairy"), and which foods it means: data/food_groups.tsv. */
struct img_food_group {
  img_text words, names; /* folded alternatives with '|' between */
  uint32_t kinds, parts; /* one bit a value of enum kind, enum part */
  uint8_t confidence, reserved[3];
  uint16_t source, row;
};

/* ORDER UNCOUNTED_AS: uncounted_as_word[] in image.c; data/uncounted.tsv says what each is. */
enum uncounted_as {
  UNCOUNTED_DOSE,
  UNCOUNTED_VAGUE, /* a dose, where no other word says which */
  UNCOUNTED_SNACK,
  UNCOUNTED_TRIFLE,
  UNCOUNTED_MEASURE,
  UNCOUNTED_POWDER,
  UNCOUNTED_SERVING, /* what is fed of it in a day, however it is measured */
  UNCOUNTED_AS_COUNT
};
extern const char *const uncounted_as_word[UNCOUNTED_AS_COUNT];

/* What is fed and not counted, by the words for its kind. */
struct img_uncounted {
  img_text name;          /* "a multivitamin" */
  img_text words, unless; /* alternatives with '|' between: words in small letters, a blank between */
  uint8_t as, confidence; /* enum uncounted_as */
  uint16_t source, row, reserved;
  float few, most;        /* of a snack: shares of the need for energy; else NaN */
  float holds[NUT_COUNT]; /* at most: in a dose, or in 100 g of dry matter of a snack; NaN any amount */
};

/* A printed value that is not believed: all independent analyses of its class lie elsewhere. The estimate stands in its
 * place; what was printed is shown beside it. */
struct img_set_aside {
  uint32_t food;
  uint32_t nutrient;
  float printed;            /* per 100 g */
  float share, least, most; /* per g of protein: this one, and the range of the others */
  uint32_t analyses;        /* the others */
  uint32_t class_name;      /* img_text */
};

struct img_quarantine {
  img_text table;  /* "ifct2017" */
  img_text what;   /* which columns of which records */
  img_text reason; /* the evidence, in one sentence with numbers */
  uint32_t values; /* how many values were set aside */
};

#endif
