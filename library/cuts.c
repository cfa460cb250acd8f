/* Bone: the bone share of published bone-in records, read from their refuse text, and our own bone-in cuts.
 * docs/method/bone.md says how the text is read. */
#include <ctype.h>
#include <math.h>

#include "base/num.h"
#include "library/foods.h"
#include "library/range.h"

struct bone_rules {
  struct tsv table;
  double default_cv;
  uint32_t bone_of_kind[KIND_COUNT];
};

static uint32_t index_of(struct foods_build *b, const struct tsv *t, size_t row, const char *column) {
  struct build_food *f = foods_by_code(b, arena_text(b->arena, tsv_cell(t, row, column)));
  if (!f) tsv_fail(t, row, "there is no food '%.*s'", SPAN_ARG(tsv_cell(t, row, column)));
  return (uint32_t)(f - b->food);
}

static struct bone_rules read_rules(struct foods_build *b, const char *data_dir) {
  static const char *const WANTED[] = {"topic", "item",   "share",      "low",  "high",
                                       "bone",  "source", "confidence", "note", NULL};
  struct bone_rules r = {.default_cv = NAN};
  tsv_read(&r.table, path_join(b->arena, data_dir, "bone.tsv"), WANTED, b->arena);
  for (int k = 0; k < KIND_COUNT; k++) r.bone_of_kind[k] = NO_INDEX;
  for (size_t row = 0; row < r.table.rows; row++) {
    struct span topic = tsv_cell(&r.table, row, "topic");
    source_index(&r.table, row, "source");
    if (span_is(topic, "kind"))
      r.bone_of_kind[tsv_word(&r.table, row, "item", kind_word, KIND_COUNT)] = index_of(b, &r.table, row, "bone");
    else if (span_is(topic, "default"))
      r.default_cv = tsv_number(&r.table, row, "share");
    else if (!span_is(topic, "share"))
      tsv_fail(&r.table, row, "'%.*s' is not a topic: kind, default or share", SPAN_ARG(topic));
  }
  if (!(r.default_cv > 0)) build_fail("%s: no default cv", r.table.path);
  return r;
}

/* ---- refuse text ------------------------------------------------------------------------------------------------ */

/* One clause of a refuse text: "Bone and connective tissue 32%". */
struct refuse_clause {
  char label[128]; /* lower case */
  double percent;  /* NaN when the text gives none */
};
enum { MOST_CLAUSES = 8 };

static void set_label(struct refuse_clause *c, struct span s) {
  size_t n = s.n < sizeof c->label - 1 ? s.n : sizeof c->label - 1;
  for (size_t i = 0; i < n; i++) c->label[i] = (char)tolower((unsigned char)s.p[i]);
  c->label[n] = '\0';
}

static bool is_digit(char c) { return c >= '0' && c <= '9'; }

/* The next "NN%" in the text: its place, its length with the sign, its value. */
static bool next_percent(struct span text, size_t *at, size_t *n, double *value) {
  for (size_t i = 0; i < text.n; i++) {
    if (!is_digit(text.p[i]) || (i > 0 && (is_digit(text.p[i - 1]) || text.p[i - 1] == '.'))) continue;
    size_t used = num_read(span_cut(text, i, text.n), value);
    if (used == 0 || i + used >= text.n || text.p[i + used] != '%') continue;
    *at = i;
    *n = used + 1;
    return true;
  }
  return false;
}

/* The table writes "Bone 22%, separable fat 8%" or "36% bone, 12% skin": the label stands before or after its figure. */
static int split_refuse(const char *refuse_text, struct refuse_clause *clause) {
  struct span text = span_trim(span_of(refuse_text));
  bool figure_first = text.n > 0 && is_digit(text.p[0]);
  int count = 0;
  size_t at, n;
  double percent;
  while (count < MOST_CLAUSES && next_percent(text, &at, &n, &percent)) {
    struct span rest = span_cut(text, at + n, text.n);
    struct span label = span_cut(text, 0, at);
    if (figure_first) {
      size_t next_at, next_n;
      double next;
      label = span_cut(rest, 0, next_percent(rest, &next_at, &next_n, &next) ? next_at : rest.n);
    }
    set_label(&clause[count], label);
    clause[count++].percent = percent;
    text = rest;
  }
  if (count == 0 && text.n > 0) {
    set_label(&clause[0], text);
    clause[count++].percent = NAN;
  }
  return count;
}

static bool says(const struct refuse_clause *c, const char *word) { return strstr(c->label, word) != NULL; }

/* Skin, fat and the like are not part of the piece that the record describes; connective tissue is, and is eaten. */
static bool is_taken_off(const struct refuse_clause *c) {
  return says(c, "skin") || says(c, "fat") || says(c, "breading") || says(c, "handling") || says(c, "trim");
}

/* Bone as a share of bone and edible piece; NaN when the text does not tell. */
static double bone_share_of(const char *refuse_text, double refuse) {
  struct refuse_clause clause[MOST_CLAUSES];
  int count = split_refuse(refuse_text, clause);
  double bone = NAN, taken_off = 0;
  for (int i = 0; i < count; i++) {
    const struct refuse_clause *c = &clause[i];
    double percent = isnan(c->percent) && count == 1 ? 100 * refuse : c->percent;
    if (says(c, "bone") && (is_taken_off(c) || says(c, "viscera"))) return NAN; /* bone and skin in one figure */
    if (says(c, "bone") && isnan(bone)) bone = percent; /* a second figure for bone counts the same bone again */
    if (is_taken_off(c)) taken_off += percent;
  }
  if (!(bone >= 1) || !(taken_off < 100 - bone)) return NAN; /* splinters under 1 % do not make a bone-in piece */
  return bone / (100 - taken_off);
}

/* ---- published records ------------------------------------------------------------------------------------------- */

static void set_share(struct build_food *f, double share, double cv, uint32_t bone, uint16_t source) {
  f->food.bone_share = (float)share;
  f->food.bone_share_cv = (float)cv;
  f->food.bone_food = bone;
  f->food.bone_source = source;
}

static bool may_hold_bone(const struct build_food *f) {
  return f->food.part == PART_MUSCLE || f->food.part == PART_FISH || f->food.part == PART_OTHER;
}

static double row_cv(const struct bone_rules *r, const struct tsv *t, size_t row) {
  double low = tsv_number(t, row, "low"), high = tsv_number(t, row, "high");
  if (isnan(low) && isnan(high)) return r->default_cv;
  double cv = range_cv(low, high);
  if (!(cv >= 0)) tsv_fail(t, row, "low and high are no range");
  return cv;
}

static double row_share(const struct tsv *t, size_t row) {
  double share = tsv_number(t, row, "share");
  if (!(share > 0) || !(share < 1)) tsv_fail(t, row, "a bone share lies between 0 and 1");
  return share;
}

static void set_published_shares(struct foods_build *b, const struct bone_rules *r) {
  uint16_t sr28 = source_by_key("usda_sr28");
  for (size_t i = 0; i < b->count; i++) {
    struct build_food *f = &b->food[i];
    if (!f->refuse_text || !may_hold_bone(f)) continue;
    double share = bone_share_of(f->refuse_text, f->food.refuse);
    uint32_t bone = r->bone_of_kind[f->food.kind];
    if (share > 0 && bone != NO_INDEX) set_share(f, share, r->default_cv, bone, sr28);
  }
  for (size_t row = 0; row < r->table.rows; row++) {
    if (!span_is(tsv_cell(&r->table, row, "topic"), "share")) continue;
    struct build_food *f = &b->food[index_of(b, &r->table, row, "item")];
    set_share(f, row_share(&r->table, row), row_cv(r, &r->table, row), r->bone_of_kind[f->food.kind],
              source_index(&r->table, row, "source"));
  }
}

/* ---- our own cuts -------------------------------------------------------------------------------------------------- */

static void add_cut(struct foods_build *b, const struct bone_rules *r, const struct tsv *t, size_t row) {
  static const char *const YES_NO[] = {"no", "yes"};
  struct arena *a = b->arena;
  uint32_t flesh = index_of(b, t, row, "flesh"), bone = index_of(b, t, row, "bone");
  const char *code = arena_text(a, tsv_cell(t, row, "code"));
  foods_add(b, code);
  struct build_food *f = foods_by_code(b, code);
  const struct build_food *from = &b->food[flesh];
  *f = *from;
  f->code = code;
  f->name = arena_text(a, tsv_cell(t, row, "name"));
  f->short_name = f->common_name = f->refuse_text = "";
  f->group = "Bone-in cuts";
  struct buf note;
  buf_init(&note, a, 1000);
  buf_addf(&note, "flesh: %s (%s)", from->name, from->code);
  struct span more = tsv_cell(t, row, "note");
  if (more.n > 0) buf_addf(&note, "; %.*s", SPAN_ARG(more));
  f->note = buf_text(&note);
  if (f->food.part != PART_EGG) f->food.part = PART_MUSCLE; /* an egg in its shell is an egg */
  f->food.state = STATE_RAW;
  f->food.raw_form = NO_INDEX;
  f->food.refuse = NAN;
  f->food.flags = (f->food.flags & (uint32_t)(FOOD_SKIN | FOOD_SKINLESS)) | FOOD_CUT | FOOD_PLAIN;
  if (tsv_word(t, row, "always", YES_NO, 2)) f->food.flags |= FOOD_ALWAYS_BONE_IN;
  f->food.piece_g = (float)tsv_number(t, row, "piece_g");
  f->measure_count = 0;
  set_share(f, row_share(t, row), row_cv(r, t, row), bone, source_index(t, row, "source"));
  tsv_word(t, row, "confidence", confidence_word, CONF_COUNT);
}

void add_cuts(struct foods_build *b, const char *data_dir) {
  static const char *const WANTED[] = {"code",   "name",    "flesh",  "bone",       "share", "low", "high",
                                       "always", "piece_g", "source", "confidence", "note",  NULL};
  struct bone_rules rules = read_rules(b, data_dir);
  set_published_shares(b, &rules);
  struct tsv t;
  tsv_read(&t, path_join(b->arena, data_dir, "cuts.tsv"), WANTED, b->arena);
  for (size_t row = 0; row < t.rows; row++) add_cut(b, &rules, &t, row);
}
