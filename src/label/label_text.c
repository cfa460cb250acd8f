#include "label/label_text.h"
#include "label/label_nutrient.h"

#include <math.h>

#include "base/table.h"
#include "text/headers.h"

enum { LABEL_MOST_BYTES = 1024 * 1024, LABEL_LINE_BYTES = 4096, LABELS_MOST = 2000, CODE_BYTES = 60 };

/* What a jar holds differs from its label: the European guidance on labels allows -20 % and more (2012; from memory), which
 * is the 5 to 95 % band of a coefficient of variation of about 0.1. */
enum { LABEL_CV_CODE = 10 };

/* ORDER: rows of KEYS. */
enum { KEY_FOOD, KEY_CODE, KEY_PART, KEY_PER, KEY_DENSITY, KEY_STATE, KEY_NOTE, KEY_COUNT };

/* What one food's lines said, before it is known how much "Per" weighs. */
struct label_reader {
  struct diags *d;
  struct arena *arena;
  const struct library *lib;
  struct own_food *list;
  size_t count, cap;
  struct header_reader keys; /* of the food being read */
  struct span seen[KEY_COUNT];
  struct span name_at, code_at;
  double amount[NUT_COUNT]; /* per "Per", in the nutrient's unit; NaN not stated */
  struct span amount_at[NUT_COUNT];
  bool none[NUT_COUNT];  /* counted within another figure of the label */
  double per, per_grams; /* "2 capsules (1.6 g)": 2 and 1.6; grams NaN when not said */
  enum unit per_unit;
  const char *per_word; /* what is counted, as written, in the singular where it is a unit */
  double density;
};

#define SAY(code, r, at, ...) diag_say((r)->d, DIAG_ERROR, DIAG_##code, (at), __VA_ARGS__)

/* ---- keys ---- */

/* "mine:" and the name in small letters, digits and hyphens. */
static const char *make_code(struct label_reader *r, struct span name) {
  struct buf b;
  buf_init(&b, r->arena, CODE_BYTES);
  buf_adds(&b, "mine:");
  bool gap = false;
  for (size_t i = 0; i < name.n; i++) {
    char c = name.p[i];
    if (c >= 'A' && c <= 'Z') c = (char)(c + ('a' - 'A'));
    bool kept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (kept && gap && b.n > 5) buf_addc(&b, '-');
    if (kept) buf_addc(&b, c);
    gap = !kept;
  }
  return b.n > 5 ? buf_text(&b) : "";
}

static void read_code(struct header_value *v) {
  struct label_reader *r = v->reader;
  struct span value = v->value;
  struct span bare = span_starts_fold(value, "mine:") ? span_cut(value, 5, value.n) : value;
  bool fine = bare.n > 0 && bare.n < CODE_BYTES;
  for (size_t i = 0; i < bare.n; i++) {
    char c = bare.p[i];
    fine = fine && ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c == '-' && i > 0));
  }
  if (!fine) {
    SAY(UNKNOWN_WORD, r, value, "'%.*s' is not a code; write small letters, digits and hyphens, as in 'zinc-15'",
        SPAN_ARG(quoted(value)));
    return;
  }
  ((struct own_food *)v->into)->code = make_code(r, bare);
  r->code_at = value;
}

/* "organ_secreting" may be written "organ secreting". */
static bool same_word(struct span value, const char *word) {
  struct span w = span_of(word);
  if (value.n != w.n) return false;
  for (size_t i = 0; i < w.n; i++) {
    bool gap = w.p[i] == '_' && (value.p[i] == ' ' || value.p[i] == '-' || value.p[i] == '_');
    if (!gap && !span_eq_fold(span_cut(value, i, i + 1), span_cut(w, i, i + 1))) return false;
  }
  return true;
}

static const uint8_t SPREAD_OF_PART[] = {
    [PART_MUSCLE] = SPREAD_RED_MEAT,       [PART_ORGAN_LIVER] = SPREAD_ORGAN, [PART_ORGAN_SECRETING] = SPREAD_ORGAN,
    [PART_ORGAN_OTHER] = SPREAD_ORGAN,     [PART_BONE] = SPREAD_BONE,         [PART_FISH] = SPREAD_FISH,
    [PART_SHELLFISH] = SPREAD_SHELLFISH,   [PART_EGG] = SPREAD_EGG,           [PART_DAIRY] = SPREAD_DAIRY,
    [PART_VEGETABLE] = SPREAD_VEGETABLE,   [PART_FRUIT] = SPREAD_FRUIT,       [PART_GRAIN] = SPREAD_GRAIN,
    [PART_LEGUME] = SPREAD_LEGUME,         [PART_SEED_NUT] = SPREAD_SEED_NUT, [PART_FAT_OIL] = SPREAD_FAT_OIL,
    [PART_SUPPLEMENT] = SPREAD_SUPPLEMENT, [PART_OTHER] = SPREAD_OTHER};
ROW_FOR_EACH(SPREAD_OF_PART, PART_COUNT);

static void read_part(struct header_value *v) {
  struct own_food *food = v->into;
  for (int p = 0; p < PART_COUNT; p++)
    if (same_word(v->value, part_word[p])) {
      food->food.part = (uint8_t)p;
      food->food.spread_class = SPREAD_OF_PART[p];
      return;
    }
  value_words(v->d, v->value, "a part", part_word, PART_COUNT);
}

static void read_state(struct header_value *v) {
  struct own_food *food = v->into;
  for (int s = 0; s < STATE_COUNT; s++)
    if (span_is_fold(v->value, state_word[s])) {
      food->food.state = (uint8_t)s;
      return;
    }
  value_words(v->d, v->value, "a state", state_word, STATE_UNSTATED);
}

/* "1 tablet (0.4 g)", "100 g", "5 ml", "2 capsules", "1 pump (0.8 g)" */
static void read_per(struct header_value *v) {
  struct label_reader *r = v->reader;
  struct span value = v->value;
  const struct tokens *t = &v->t;
  size_t used = 0, more = 0;
  r->per = value_number(r->d, t, value, v->row->example, &used);
  if (r->per <= 0) SAY(NUMBER, r, value, "'Per' must be more than nothing");
  if (!(r->per > 0)) return;
  r->per_unit = label_unit_at(t, used, &more);
  if (more > 0 && unit_info[r->per_unit].kind != UNIT_KIND_IU) {
    r->per_word = unit_info[r->per_unit].word;
  } else if (more == 0 && used < t->count && t->item[used].kind == TOKEN_WORD) {
    struct span word = t->item[used].word; /* "pump", "sachet"; of several, one */
    if (r->per != 1 && word.n > 3 && word.p[word.n - 1] == 's' && word.p[word.n - 2] != 's') word.n--;
    r->per_word = arena_text(r->arena, word);
    r->per_unit = UNIT_EACH;
    more = 1;
  } else {
    SAY(UNIT, r, value, "'%.*s' of what? write it as in '%s' or 'Per: 100 g'", SPAN_ARG(quoted(value)), v->row->example);
    return;
  }
  used += more;
  bool mass = unit_info[r->per_unit].kind == UNIT_KIND_MASS;
  if (mass) r->per_grams = unit_convert(r->per, r->per_unit);
  size_t bracket = phrase_at(t, used, "(");
  if (bracket > 0 && !mass) {
    struct tokens rest = tokens_part(t, used + 1, t->count);
    size_t n = 0, u = 0;
    double grams = value_number(r->d, &rest, rest.count > 0 ? tokens_span(&rest, 0, rest.count) : value, "(0.4 g)", &n);
    if (isnan(grams)) return;
    enum unit unit = label_unit_at(&rest, n, &u);
    if (unit_info[unit].kind != UNIT_KIND_MASS || !(grams > 0) || phrase_at(&rest, n + u, ")") == 0) {
      SAY(NUMBER, r, value, "the brackets hold a weight, as in '%s'", v->row->example);
      return;
    }
    r->per_grams = unit_convert(grams, unit);
    used += 1 + n + u + 1;
  }
  if (!value_ends(r->d, t, used, v->row->example)) r->per = (double)NAN;
}

static void read_density(struct header_value *v) {
  size_t used = 0;
  double x = value_number(v->d, &v->t, v->value, v->row->example, &used);
  if (isnan(x) || !value_ends(v->d, &v->t, used + ANY_OF(&v->t, used, "g per ml", "g / ml"), v->row->example)) return;
  if (!(x > 0.05 && x < 5))
    SAY(NUMBER, v, v->value, "a density lies between 0.05 and 5 g per ml; write it as in '%s'", v->row->example);
  else
    ((struct label_reader *)v->reader)->density = x;
}

static const struct header_row KEYS[] = {
    {"Food", "Name", NULL, "Food: Zinc tablets", NULL, 0, false, false},
    {"Code", NULL, NULL, "Code: zinc-15", read_code, 0, false, false},
    {"Part", NULL, NULL, "Part: supplement", read_part, 0, false, false},
    {"Per", "Serving size|Serving", NULL, "Per: 1 tablet (0.4 g)", read_per, 0, false, false},
    {"Density", NULL, NULL, "Density: 0.92 g per ml", read_density, 0, false, false},
    {"State", NULL, NULL, "State: canned", read_state, 0, false, false},
    {"Note", "Notes", NULL, "Note: with food", header_text, offsetof(struct own_food, note), true, false}};
ROW_FOR_EACH(KEYS, KEY_COUNT);

/* ---- nutrients ---- */

static void read_nutrient(struct label_reader *r, struct header h, const struct tokens *t) {
  enum nutrient n = label_nutrient(h.key);
  if (n == NUT_NONE) {
    say_unknown_nutrient(r->d, h);
    return;
  }
  double amount = label_nutrient_amount(r->d, &n, h, t);
  if (isnan(amount)) return;
  if (!isnan(r->amount[n])) {
    SAY(TWICE, r, h.key, "a second amount of %s; keep one of them", nutrient_inside(r->arena, n));
    return;
  }
  r->amount[n] = amount;
  r->amount_at[n] = h.value;
  if (label_nutrient(h.key) == NUT_VITAMIN_A) { /* "Vitamin A" on a label is all of it */
    enum nutrient other = n == NUT_RETINOL ? NUT_BETA_CAROTENE : NUT_RETINOL;
    r->none[other] = true;
  }
}

/* ---- one food ---- */

static void begin_food(struct label_reader *r, struct span name) {
  struct own_food f = {.name = arena_text(r->arena, name), .code = "", .note = "", .unit_g = (double)NAN};
  f.food = (struct img_food){.part = PART_SUPPLEMENT,
                             .spread_class = SPREAD_SUPPLEMENT,
                             .kind = KIND_OTHER,
                             .state = STATE_UNSTATED,
                             .flags = FOOD_OWN,
                             .bone_share = (float)NAN,
                             .bone_share_cv = (float)NAN,
                             .bone_food = NO_INDEX,
                             .refuse = (float)NAN,
                             .hazard = NO_INDEX,
                             .retention_group = RETAIN_NO_GROUP,
                             .raw_form = NO_INDEX,
                             .density = (float)NAN,
                             .piece_g = (float)NAN};
  ARENA_PUSH(r->arena, r->list, r->count, r->cap, f);
  memset(r->seen, 0, sizeof r->seen);
  memset(r->none, 0, sizeof r->none);
  for (int i = 0; i < NUT_COUNT; i++) r->amount[i] = (double)NAN;
  r->seen[KEY_FOOD] = r->name_at = r->code_at = name;
  r->keys.into = &r->list[r->count - 1];
  r->per = r->per_grams = r->density = (double)NAN;
  r->per_unit = UNIT_NONE;
  r->per_word = NULL;
}

static void check_code(struct label_reader *r, struct own_food *f) {
  if (!f->code[0]) f->code = make_code(r, span_of(f->name));
  if (!f->code[0]) {
    SAY(EMPTY, r, r->name_at, "no code can be made from this name; add a line such as 'Code: zinc-15'");
    return;
  }
  bool taken = r->lib && library_by_code(r->lib, span_of(f->code)) != NO_INDEX;
  for (size_t i = 0; i + 1 < r->count; i++) taken = taken || strcmp(r->list[i].code, f->code) == 0;
  if (taken)
    SAY(TWICE, r, r->code_at, "there is a food '%s' already; give this one another name or code, as in 'Code: zinc-15'",
        f->code);
}

/* Grams that the stated amounts belong to; NaN after a complaint. */
static double serving_grams(struct label_reader *r, struct own_food *f) {
  enum unit_kind kind = unit_info[r->per_unit].kind;
  f->food.density = (float)r->density;
  if (kind == UNIT_KIND_MASS) return r->per_grams;
  f->unit_word = r->per_word;
  if (kind == UNIT_KIND_VOLUME) {
    double ml = unit_convert(r->per, r->per_unit);
    double grams = r->per_grams > 0 ? r->per_grams : r->density * ml;
    if (!(grams > 0)) {
      SAY(NO_WEIGHT, r, r->seen[KEY_PER],
          "what do these millilitres weigh? write 'Per: 5 ml (4.6 g)' or add a line such as 'Density: 0.92 g per ml'");
      return (double)NAN;
    }
    f->food.density = (float)(grams / ml);
    f->unit_g = grams / r->per;
    return grams;
  }
  if (r->per_grams > 0) {
    f->unit_g = r->per_grams / r->per;
    return r->per_grams;
  }
  return r->per * LABEL_PIECE_G;
}

static bool is_mass_unit(const char *unit, double *grams) {
  enum unit u = unit_by_word(span_of(unit));
  *grams = u == UNIT_NONE ? (double)NAN : unit_convert(1, u);
  return u != UNIT_NONE;
}

/* A label of feed states protein, fat, fibre, ash and water, and its carbohydrate is what is left: the nitrogen-free extract
 * of proximate analysis, counted here with the fibre as food tables do. Stated energy goes before it. Figures that come to
 * more than the food leave it unknown, but for rounding. */
static void set_rest(struct img_value value[NUT_COUNT]) {
  static const enum nutrient STATED[] = {NUT_FIBER, NUT_PROTEIN, NUT_FAT, NUT_ASH, NUT_WATER};
  static const double ROUNDED_AWAY = 2, CV_CODE_MOST = UINT8_MAX;
  double rest = 100, variance = 0;
  if (value[NUT_CARBOHYDRATE].status != VALUE_UNKNOWN || value[NUT_ENERGY].status != VALUE_UNKNOWN) return;
  for (size_t i = 0; i < COUNT_OF(STATED); i++) {
    const struct img_value *v = &value[STATED[i]];
    if (v->status != VALUE_CITED) return;
    if (STATED[i] == NUT_FIBER) continue;
    double sd = (double)v->mean * img_cv(*v);
    rest -= (double)v->mean;
    variance += sd * sd;
  }
  double fiber = (double)value[NUT_FIBER].mean;
  if (rest < fiber - ROUNDED_AWAY) return;
  rest = fmax(rest, fiber);
  double cv_code = rest > 0 ? round(100 * sqrt(variance) / rest) : 0;
  value[NUT_CARBOHYDRATE] =
      (struct img_value){.mean = (float)rest, .cv_code = (uint8_t)fmin(cv_code, CV_CODE_MOST), .status = VALUE_ESTIMATED};
}

static void set_values(struct label_reader *r, struct own_food *f, double grams) {
  double unit_grams;
  for (int i = 0; i < NUT_COUNT; i++) {
    f->value[i] = (struct img_value){.mean = NAN, .status = VALUE_UNKNOWN};
    if (r->none[i] && isnan(r->amount[i])) f->value[i] = (struct img_value){.mean = 0, .status = VALUE_NONE};
    if (isnan(r->amount[i])) continue;
    bool weighed = r->per_grams > 0 || r->density > 0;
    if (weighed && is_mass_unit(nutrient_info[i].unit, &unit_grams) && r->amount[i] * unit_grams > 1.001 * grams)
      SAY(NUMBER, r, r->amount_at[i], "that is more %s than the food weighs", nutrient_inside(r->arena, (enum nutrient)i));
    f->value[i] =
        (struct img_value){.mean = (float)(r->amount[i] / grams * 100), .cv_code = LABEL_CV_CODE, .status = VALUE_CITED};
  }
  if (!isnan(r->amount[NUT_EPA]) && !isnan(r->amount[NUT_DHA]) && isnan(r->amount[NUT_EPA_DHA])) {
    f->value[NUT_EPA_DHA] = f->value[NUT_EPA];
    f->value[NUT_EPA_DHA].mean += f->value[NUT_DHA].mean;
  }
  if (f->unit_g > 0 || !f->unit_word) set_rest(f->value);
}

static void end_food(struct label_reader *r) {
  if (r->count == 0) return;
  struct own_food *f = &r->list[r->count - 1];
  check_code(r, f);
  if (!r->seen[KEY_PER].p) {
    SAY(EMPTY, r, r->name_at,
        "what do the amounts of '%s' belong to? add a line such as 'Per: 1 tablet (0.4 g)' or 'Per: 100 g'", f->name);
    return;
  }
  if (!(r->per > 0)) return;
  double grams = serving_grams(r, f);
  if (grams > 0) set_values(r, f, grams);
}

static void read_line(struct label_reader *r, struct span line) {
  struct header h;
  if (!header_split(line, &h)) {
    SAY(NOT_UNDERSTOOD, r, line, "'%.*s' is not understood; write lines such as 'Zinc: 15 mg', or '#' before a remark",
        SPAN_ARG(quoted(line)));
    return;
  }
  int key = header_row_of(&r->keys, h.key);
  if (r->count == 0 && key != KEY_FOOD && h.value.n > 0) {
    SAY(EMPTY, r, line, "a label begins with its name; write 'Food: Zinc tablets' above this line");
    begin_food(r, span_cut(line, 0, 0));
    r->seen[KEY_PER] = line; /* one complaint is enough for a text that lacks its first line */
    r->list[0].code = "mine:?";
  }
  if (key == KEY_FOOD && h.value.n > 0) {
    end_food(r);
    begin_food(r, h.value);
  } else if (header_accept(&r->keys, key, h, line)) {
    struct tokens t = tokens_of(h.value, r->arena);
    if (key >= 0)
      header_read(&r->keys, key, h.value, line);
    else
      read_nutrient(r, h, &t);
  }
}

bool label_read(struct span text, const struct library *lib, struct diags *d, struct own_food **foods, size_t *count,
                struct arena *arena) {
  struct label_reader *r = ARENA_NEW(arena, struct label_reader, 1);
  *r = (struct label_reader){.d = d, .arena = arena, .lib = lib};
  r->keys = (struct header_reader){
      KEYS, KEY_COUNT, DIAG_ERROR, " for the same food; keep one of them, or begin the next one with 'Food: NAME'",
      d,    arena,     r->seen,    r,
      NULL};
  size_t errors = d->errors;
  *foods = NULL;
  *count = 0;
  if (!text_fit(text, LABEL_MOST_BYTES, LABEL_LINE_BYTES, d)) return false;
  struct lines lines = lines_of(text);
  struct span line;
  while (lines_next(&lines, &line) && r->count <= LABELS_MOST && d->errors < DIAG_MOST) {
    line = trim_blanks(without_comment(line));
    if (line.n > 0) read_line(r, line);
  }
  end_food(r);
  if (r->count > LABELS_MOST) SAY(LIMIT, r, r->name_at, "more than %d foods in one text", LABELS_MOST);
  if (r->count == 0 && d->errors == errors)
    SAY(EMPTY, r, ((struct span){NULL, 0}), "there is no food in this text; begin with 'Food: NAME'");
  *foods = r->list;
  *count = r->count;
  return d->errors == errors;
}

const char *label_header(struct span key) {
  const struct header_reader known = {.row = KEYS, .rows = KEY_COUNT};
  int row = header_row_of(&known, key);
  return row >= 0 ? KEYS[row].word : NULL;
}
