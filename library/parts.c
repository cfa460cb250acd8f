/* Sorts every record by the rules of data/: part and spread class, kind, state, flags, retention group, the raw form of a
 * cooked record, the weight of one piece. What a rule cannot tell stands in data/part_exceptions.tsv. */
#include <ctype.h>
#include <math.h>
#include <stdio.h>

#include "base/num.h"
#include "foods/unit.h"
#include "library/match.h"

/* ---- rules ---------------------------------------------------------------------------------------------------- */

struct sort_rule {
  struct span groups, begins, words, unless;
};

static struct sort_rule rule_read(const struct tsv *t, size_t row) {
  return (struct sort_rule){tsv_cell(t, row, "groups"), tsv_cell(t, row, "begins"), tsv_cell(t, row, "words"),
                            tsv_cell(t, row, "unless")};
}

static bool lists_word(struct span list, const char *word) {
  while (list.n > 0)
    if (span_is(tsv_piece(&list, '|'), word)) return true;
  return false;
}

static bool begins_with_any(const char *name, struct span list) {
  while (list.n > 0) {
    struct span begin = tsv_piece(&list, '|');
    if (strncmp(name, begin.p, begin.n) == 0) return true;
  }
  return false;
}

static bool holds_any(const char *name, struct span list) {
  while (list.n > 0)
    if (name_has_term(name, tsv_piece(&list, '|'))) return true;
  return false;
}

static bool rule_fits(const struct sort_rule *r, const struct build_food *f) {
  if (r->groups.n > 0 && !lists_word(r->groups, f->group_code)) return false;
  if (r->begins.n > 0 && !begins_with_any(f->name, r->begins)) return false;
  if (r->words.n > 0 && !holds_any(f->name, r->words)) return false;
  return !holds_any(f->name, r->unless);
}

/* ---- part, kind, state, flags ---------------------------------------------------------------------------------- */

static const char *const FLAG_WORD[] = {
    "plain",    "enriched", "brand",        "dish",         "salted",     "cut",  "bone",      "always_bone_in",
    "skin",     "skinless", "lean_only",    "with_fat",     "drained",    "own",  "raw_white", "thiaminase",
    "fish_oil", "kelp",     "high_mercury", "high_oxalate", "fatty_fish", "rare", "uncommon"};
/* Not in the image: it only keeps a record from being plain. */
enum { FLAG_UNCOMMON = 1 << 22 };

static void set_part(const struct tsv *t, size_t row, struct build_food *f) {
  f->food.part = (uint8_t)tsv_word(t, row, "part", part_word, PART_COUNT);
  f->food.spread_class = (uint8_t)tsv_word(t, row, "class", spread_class_word, SPREAD_CLASS_COUNT);
}
static void set_kind(const struct tsv *t, size_t row, struct build_food *f) {
  f->food.kind = (uint8_t)tsv_word(t, row, "kind", kind_word, KIND_COUNT);
}
static void set_state(const struct tsv *t, size_t row, struct build_food *f) {
  f->food.state = (uint8_t)tsv_word(t, row, "state", state_word, STATE_COUNT);
}
static void set_flag(const struct tsv *t, size_t row, struct build_food *f) {
  f->food.flags |= 1u << tsv_word(t, row, "flag", FLAG_WORD, COUNT_OF(FLAG_WORD));
}

typedef void set_from_row(const struct tsv *t, size_t row, struct build_food *f);

/* Lets the rows of a table act on every food: the first that fits, or all of them. */
static void apply_table(struct foods_build *b, const char *data_dir, const char *file, set_from_row *set, bool all_rows) {
  static const char *const WANTED[] = {"groups", "begins", "words", "unless", "source", "confidence", NULL};
  struct tsv t;
  tsv_read(&t, path_join(b->arena, data_dir, file), WANTED, b->arena);
  struct sort_rule *rule = ARENA_NEW(b->arena, struct sort_rule, t.rows);
  for (size_t row = 0; row < t.rows; row++) {
    source_index(&t, row, "source");
    tsv_word(&t, row, "confidence", confidence_word, CONF_COUNT);
    rule[row] = rule_read(&t, row);
  }
  for (size_t i = 0; i < b->count; i++)
    for (size_t row = 0; row < t.rows; row++) {
      if (!rule_fits(&rule[row], &b->food[i])) continue;
      set(&t, row, &b->food[i]);
      if (!all_rows) break;
    }
}

/* A word in capitals is a brand, but for a few abbreviations that describe. */
static bool has_brand_word(const char *name) {
  static const char *const NO_BRAND[] = {"USDA", "BBQ", "DHA", "ARA", "KAMUT", "NFS", "NFSMI", "NLEA"};
  for (const char *p = name; *p;) {
    size_t n = 0;
    while (isupper((unsigned char)p[n]) || p[n] == '\'' || p[n] == '&' || p[n] == '-') n++;
    bool whole = n >= 3 && !islower((unsigned char)p[n]);
    for (size_t i = 0; i < COUNT_OF(NO_BRAND); i++) whole = whole && !span_is((struct span){p, n}, NO_BRAND[i]);
    if (whole) return true;
    p += n;
    while (isalnum((unsigned char)*p)) p++;
    while (*p && !isalnum((unsigned char)*p)) p++;
  }
  return false;
}

static void set_plain(struct build_food *f) {
  if (*f->maker || has_brand_word(f->name)) f->food.flags |= FOOD_BRAND;
  uint32_t not_plain = FOOD_ENRICHED | FOOD_BRAND | FOOD_DISH | FOOD_SALTED | FLAG_UNCOMMON;
  if (!(f->food.flags & not_plain) && f->food.part != PART_OTHER) f->food.flags |= FOOD_PLAIN;
  f->food.flags &= ~(uint32_t)FLAG_UNCOMMON;
}

static void change_flags(const struct tsv *t, size_t row, struct build_food *f) {
  struct span list = tsv_cell(t, row, "flags");
  while (list.n > 0) {
    struct span word = tsv_piece(&list, '|');
    bool off = word.n > 0 && word.p[0] == '-';
    if (off) word = span_cut(word, 1, word.n);
    uint32_t bit = 0;
    for (size_t i = 0; i < COUNT_OF(FLAG_WORD); i++)
      if (span_is(word, FLAG_WORD[i])) bit = 1u << i;
    if (bit == 0) tsv_fail(t, row, "'%.*s' is not a flag", SPAN_ARG(word));
    f->food.flags = off ? f->food.flags & ~bit : f->food.flags | bit;
  }
}

/* "can (3.75 oz)=92|sardine=12" */
static void add_measures(struct arena *a, const struct tsv *t, size_t row, struct build_food *f) {
  struct span list = tsv_cell(t, row, "measures");
  while (list.n > 0) {
    struct span grams = tsv_piece(&list, '|');
    struct span words = tsv_piece(&grams, '=');
    double g;
    if (words.n == 0 || !num_parse(grams, &g) || !(g > 0)) tsv_fail(t, row, "a measure reads 'words=grams'");
    if (f->measure_count == COUNT_OF(f->measure)) tsv_fail(t, row, "too many measures");
    f->measure[f->measure_count++] = (struct build_measure){arena_text(a, words), g};
  }
}

static void apply_exceptions(struct foods_build *b, const char *data_dir) {
  static const char *const WANTED[] = {"code",    "part",     "class",  "kind",       "state", "flags",
                                       "piece_g", "measures", "source", "confidence", "note",  NULL};
  struct tsv t;
  tsv_read(&t, path_join(b->arena, data_dir, "part_exceptions.tsv"), WANTED, b->arena);
  for (size_t row = 0; row < t.rows; row++) {
    struct build_food *f = foods_by_code(b, arena_text(b->arena, tsv_cell(&t, row, "code")));
    if (!f) tsv_fail(&t, row, "there is no food '%.*s'", SPAN_ARG(tsv_cell(&t, row, "code")));
    source_index(&t, row, "source");
    if (tsv_cell(&t, row, "part").n) set_part(&t, row, f);
    if (tsv_cell(&t, row, "kind").n) set_kind(&t, row, f);
    if (tsv_cell(&t, row, "state").n) set_state(&t, row, f);
    tsv_word(&t, row, "confidence", confidence_word, CONF_COUNT);
    change_flags(&t, row, f);
    add_measures(b->arena, &t, row, f);
    if (tsv_cell(&t, row, "piece_g").n) f->food.piece_g = (float)tsv_number(&t, row, "piece_g");
    if (tsv_cell(&t, row, "note").n) f->note = arena_text(b->arena, tsv_cell(&t, row, "note"));
  }
}

/* ---- cooking --------------------------------------------------------------------------------------------------- */

/* Source of 5 %: the USDA retention table divides fish there (over 5 % fat: fatty). */
static const double FATTY_FISH = 5.0;

static void set_fish(struct build_food *f) {
  if (f->food.part != PART_FISH) return;
  bool fatty = f->value[NUT_FAT].mean > FATTY_FISH;
  if (fatty) f->food.flags |= FOOD_FATTY_FISH;
  f->food.retention_group = fatty ? RETAIN_FISH_FATTY : RETAIN_FISH_LEAN;
}

void sort_retention(struct foods_build *b, const char *data_dir) {
  static const char *const WANTED[] = {"part", "kind", "words", "unless", "codes", "group", "source", "confidence", NULL};
  struct tsv t;
  tsv_read(&t, path_join(b->arena, data_dir, "retention_groups.tsv"), WANTED, b->arena);
  struct food_rule *rule = ARENA_NEW(b->arena, struct food_rule, t.rows);
  for (size_t row = 0; row < t.rows; row++) rule[row] = food_rule_read(&t, row);
  for (size_t i = 0; i < b->count; i++) {
    struct build_food *f = &b->food[i];
    set_fish(f);
    for (size_t row = 0; row < t.rows && f->food.retention_group == RETAIN_NO_GROUP; row++) {
      if (food_rule_fits(&rule[row], f))
        f->food.retention_group = (uint32_t)tsv_word(&t, row, "group", retention_group_word, RETAIN_GROUP_COUNT);
    }
  }
}

/* Words of a name that only say how the food was prepared. */
static bool says_preparation(struct span part) {
  static const char *const WORDS[] = {"raw",
                                      "cooked",
                                      "fresh",
                                      "roasted",
                                      "braised",
                                      "stewed",
                                      "simmered",
                                      "boiled",
                                      "baked",
                                      "broiled",
                                      "grilled",
                                      "fried",
                                      "pan-fried",
                                      "pan-broiled",
                                      "pan-browned",
                                      "steamed",
                                      "microwaved",
                                      "poached",
                                      "hard-boiled",
                                      "drained",
                                      "without salt",
                                      "dry heat",
                                      "moist heat",
                                      "crumbles",
                                      "patty",
                                      "patties",
                                      "loaf",
                                      "unprepared",
                                      "uncooked",
                                      "dry",
                                      "cooked simmered",
                                      "pan-fried with oil",
                                      "fast roasted",
                                      "fast fried",
                                      "soaked and fried",
                                      "soaked and simmered",
                                      "cooked with water",
                                      "pan-broiled crumbles",
                                      "baked in skin",
                                      "cooked boiled"};
  for (size_t i = 0; i < COUNT_OF(WORDS); i++)
    if (span_is_fold(part, WORDS[i])) return true;
  return false;
}

static uint64_t name_without_preparation(struct arena *scratch, const char *name) {
  struct buf key;
  buf_init(&key, scratch, 512);
  struct span rest = span_of(name);
  while (rest.n > 0) {
    struct span part = tsv_piece(&rest, ',');
    if (says_preparation(part)) continue;
    for (size_t i = 0; i < part.n; i++) buf_addc(&key, (char)tolower((unsigned char)part.p[i]));
    buf_addc(&key, ',');
  }
  return checksum64(buf_text(&key), key.n);
}

static void set_raw_forms(struct foods_build *b) {
  uint64_t *key = ARENA_NEW(b->arena, uint64_t, b->count);
  for (size_t i = 0; i < b->count; i++) key[i] = name_without_preparation(b->arena, b->food[i].name);
  for (size_t i = 0; i < b->count; i++) {
    struct build_food *f = &b->food[i];
    if (!state_is_cooked((enum state)f->food.state)) continue;
    for (size_t j = 0; j < b->count && f->food.raw_form == NO_INDEX; j++)
      if (key[j] == key[i] && b->food[j].food.state == STATE_RAW && b->food[j].food.source == f->food.source)
        f->food.raw_form = (uint32_t)j;
  }
}

/* ---- pieces and spoons ------------------------------------------------------------------------------------------- */

static bool measure_begins(const struct build_measure *m, const char *word) {
  return span_starts_fold(span_of(m->words), word) && !isalpha((unsigned char)m->words[strlen(word)]);
}

/* One usual piece: the table's medium one, else its large one (an egg is sold large), else the fruit or vegetable itself. */
static void set_piece(struct build_food *f) {
  static const char *const PIECES[] = {"medium",      "large",  "fruit",  "small",    "egg",       "fillet", "potato",
                                       "sweetpotato", "pepper", "carrot", "banana",   "mushroom",  "sprout", "heart",
                                       "liver",       "tomato", "onion",  "cucumber", "drumstick", "thigh",  "piece"};
  if (f->food.spread_class == SPREAD_RED_MEAT) return; /* "1 piece" of brisket is a whole joint */
  for (size_t w = 0; w < COUNT_OF(PIECES); w++)
    for (int i = 0; i < f->measure_count; i++)
      if (!(f->food.piece_g > 0) && measure_begins(&f->measure[i], PIECES[w])) f->food.piece_g = (float)f->measure[i].grams;
}

static void set_density(struct build_food *f) {
  static const struct {
    const char *word;
    enum unit unit;
  } VOLUME[] = {{"tbsp", UNIT_TBSP}, {"tablespoon", UNIT_TBSP}, {"tsp", UNIT_TSP}, {"fl oz", UNIT_FL_OZ}, {"cup", UNIT_CUP}};
  for (size_t w = 0; w < COUNT_OF(VOLUME); w++)
    for (int i = 0; i < f->measure_count; i++)
      if (!(f->food.density > 0) && strcmp(f->measure[i].words, VOLUME[w].word) == 0)
        f->food.density = (float)(f->measure[i].grams / unit_convert(1, VOLUME[w].unit));
}

void sort_parts(struct foods_build *b, const char *data_dir) {
  apply_table(b, data_dir, "parts.tsv", set_part, false);
  apply_table(b, data_dir, "kinds.tsv", set_kind, false);
  apply_table(b, data_dir, "food_states.tsv", set_state, false);
  apply_table(b, data_dir, "food_flags.tsv", set_flag, true);
  for (size_t i = 0; i < b->count; i++) set_plain(&b->food[i]);
  apply_exceptions(b, data_dir);
  set_raw_forms(b);
  for (size_t i = 0; i < b->count; i++) {
    set_piece(&b->food[i]);
    set_density(&b->food[i]);
  }
}
