/* The page's types: a file for each file of src/json that holds tables, one for the words, one for pictures, and an index.
 */
#include "explain/side.h"
#include "words/usual.h"
#include "json/json_parts.h"
#include "json/json_print.h"
#include "json/json_shapes.h"

/* ---- lists of words that have a name of their own ---------------------------------------------------------------- */

static const struct {
  const char *type, *list;
  const char *const *words;
  int count;
} LIST[] = {
    {"Verdict", "VERDICTS", verdict_word, VERDICT_COUNT},
    {"Known", "KNOWN_WORDS", known_word, KNOWN_COUNT},
    {"Weight", "WEIGHTS", finding_weight_word, FINDING_WEIGHT_COUNT},
    {"Standard", "STANDARD_KEYS", standard_key, STANDARD_COUNT},
    {"Basis", "BASIS_KEYS", basis_key, BASIS_COUNT},
    {"PartKey", "PART_KEYS", json_part_key, BOWL_COUNT},
    {"Species", "SPECIES", species_word, SPECIES_COUNT},
    {"Activity", "ACTIVITIES", activity_word, ACTIVITY_COUNT},
    {"Confidence", "CONFIDENCES", confidence_word, CONF_COUNT},
    {"ValueStatus", "VALUE_STATUSES", value_status_word, VALUE_STATUS_COUNT},
    {"FoodPart", "FOOD_PARTS", part_word, PART_COUNT},
    {"FoodState", "FOOD_STATES", state_word, STATE_COUNT},
    {"BalanceKey", "BALANCE_KEYS", balance_key, BALANCE_COUNT},
    {"ComplaintCode", "COMPLAINT_CODES", diag_code_key, DIAG_CODE_COUNT},
};

static const char *list_of(const char *const *words) {
  for (size_t i = 0; i < COUNT_OF(LIST); i++)
    if (LIST[i].words == words) return LIST[i].type;
  return NULL;
}

/* ---- one file ---------------------------------------------------------------------------------------------------- */

static void print_union(struct buf *out, const struct field *f) {
  const char *name = list_of(f->words);
  if (name) {
    buf_adds(out, name);
    return;
  }
  for (int i = 0; i < f->word_count; i++) buf_addf(out, "%s'%s'", i > 0 ? " | " : "", f->words[i]);
}

/* As a type of the page. */
static void print_type(struct buf *out, const struct field *f) {
  if (shows_number(f)) {
    buf_adds(out, "number");
  } else if (shows_text(f)) {
    buf_adds(out, "string");
  } else if (shows_truth(f)) {
    buf_adds(out, "boolean");
  } else if (shows_word(f)) {
    print_union(out, f);
  } else if (shows_list(f)) {
    buf_addf(out, "%s[]", f->of->name);
  } else if (f->kind == FIELD_OBJECT) {
    buf_adds(out, f->of->name);
  } else if (f->kind == FIELD_NUMBERS_OF) {
    buf_adds(out, f->gaps ? "(number | null)[]" : "number[]");
  } else if (f->kind == FIELD_TEXTS_OF) {
    buf_adds(out, "string[]");
  } else if (f->kind == FIELD_MAP_OF) {
    buf_adds(out, "Record<");
    print_union(out, f);
    buf_adds(out, ", number | null>");
  } else {
    buf_adds(out, f->type);
  }
  if (shows_null(f)) buf_adds(out, " | null");
}

static void print_said(struct buf *out, const struct field *f) {
  if (!f->doc[0] && !f->unit[0]) return;
  buf_addf(out, "  /** %s%s%s */\n", f->unit, f->unit[0] && f->doc[0] ? ": " : "", f->doc);
}

static void print_members(struct buf *out, const struct shape *shape, bool absent, struct shown_keys *told) {
  for (size_t i = 0; i < shape->count; i++) {
    const struct field *f = &shape->field[i];
    bool may_be_absent = absent || f->presence == FIELD_MAY_BE_ABSENT;
    if (!f->key[0]) {
      print_members(out, f->of, may_be_absent, told);
      continue;
    }
    if (shows_again(told, f->key)) continue;
    print_said(out, f);
    bool plain = !strchr(f->key, ' ');
    buf_addf(out, plain ? "  %s%s: " : "  '%s'%s: ", f->key, may_be_absent ? "?" : "");
    print_type(out, f);
    buf_adds(out, ";\n");
  }
}

static const char WORDS[] = "words", PICTURES[] = "pictures", INDEX[] = "index";

/* "json_check.c" -> "check" */
static struct span room_of(const struct shape *shape) {
  static const char BEFORE[] = "json_", AFTER[] = ".c";
  struct span room = span_of(shape->room);
  return span_cut(room, sizeof BEFORE - 1, room.n - (sizeof AFTER - 1));
}

static void print_words_of_lists(struct buf *out) {
  for (size_t i = 0; i < COUNT_OF(LIST); i++) {
    buf_addf(out, "\nexport const %s = [", LIST[i].list);
    for (int w = 0; w < LIST[i].count; w++) buf_addf(out, "%s'%s'", w > 0 ? ", " : "", LIST[i].words[w]);
    buf_addf(out, "] as const;\nexport type %s = (typeof %s)[number];\n", LIST[i].type, LIST[i].list);
  }
  buf_adds(out, "\nexport const STANDARDS: { key: Standard; name: string }[] = [");
  for (int i = 0; i < STANDARD_COUNT; i++)
    buf_addf(out, "%s{ key: '%s', name: '%s' }", i > 0 ? ", " : "", standard_key[i], standard_name[i]);
  buf_adds(out, "];\n");
  buf_adds(out, "\n/** What people call a part of the bowl. */\nexport const PART_NAMES: Record<PartKey, string> = {");
  for (int i = 0; i < BOWL_COUNT; i++)
    buf_addf(out, "%s %s: '%s'", i > 0 ? "," : "", json_part_key[i], words_part((enum bowl_part)i));
  buf_adds(out, " };\n/** What people call a ratio. */\nexport const BALANCE_NAMES: Record<BalanceKey, string> = {");
  for (int i = 0; i < USUAL_COUNT; i++)
    buf_addf(out, "%s %s: '%s'", i > 0 ? "," : "", words_usual_key((size_t)i), words_usual_name((size_t)i));
  buf_adds(out,
           " };\n/** The heading over findings of a weight. */\nexport const WEIGHT_TITLES: Record<Weight, string> = {");
  for (int i = 0; i < FINDING_WEIGHT_COUNT; i++)
    buf_addf(out, "%s %s: '%s'", i > 0 ? "," : "", finding_weight_word[i], words_weight((enum finding_weight)i));
  buf_adds(out, " };\n/** What allowances are reckoned by. */\nexport const BASES: { key: Basis; name: string }[] = [");
  for (int i = 0; i < BASIS_COUNT; i++)
    buf_addf(out, "%s{ key: '%s', name: '%s' }", i > 0 ? ", " : "", basis_key[i], words_basis((enum basis)i));
  buf_adds(out, "];\n/** How a figure came to be known. */\nexport const CONFIDENCE_WORDS: Record<Confidence, string> = {");
  for (int i = 0; i < CONF_COUNT; i++)
    buf_addf(out, "%s '%s': '%s'", i > 0 ? "," : "", confidence_word[i], words_confidence((enum confidence)i));
  buf_adds(out, " };\n");
}

/* Names that the types of a file take from other files. */
struct taken {
  bool *shape;
  bool list[COUNT_OF(LIST)];
};

static void take(struct taken *t, const struct json_shapes *s, const struct shape *shape) {
  for (size_t i = 0; i < shape->count; i++) {
    const struct field *f = &shape->field[i];
    for (size_t k = 0; k < s->count; k++)
      if (f->key[0] && f->of == s->at[k]) t->shape[k] = true;
    for (size_t k = 0; k < COUNT_OF(LIST); k++)
      if (f->words == LIST[k].words) t->list[k] = true;
    if (!f->key[0]) take(t, s, f->of);
  }
}

static void print_import(struct buf *out, const char *const *name, size_t n, struct span file) {
  if (n == 0) return;
  buf_adds(out, "import type { ");
  for (size_t i = 0; i < n; i++) buf_addf(out, "%s%s", i > 0 ? ", " : "", name[i]);
  buf_addf(out, " } from './%.*s';\n", SPAN_ARG(file));
}

static bool is_first_of_room(const struct json_shapes *s, size_t i) {
  for (size_t k = 0; k < i; k++)
    if (span_eq(room_of(s->at[k]), room_of(s->at[i]))) return false;
  return true;
}

static void print_imports(struct buf *out, const struct json_shapes *s, const struct taken *t, struct span own) {
  const char *name[SHAPES_MOST];
  size_t n = 0;
  for (size_t k = 0; k < COUNT_OF(LIST); k++)
    if (t->list[k]) name[n++] = LIST[k].type;
  print_import(out, name, n, span_of(WORDS));
  for (size_t i = 0; i < s->count; i++) {
    struct span room = room_of(s->at[i]);
    if (!is_first_of_room(s, i) || span_eq(room, own)) continue;
    n = 0;
    for (size_t k = i; k < s->count; k++)
      if (t->shape[k] && span_eq(room_of(s->at[k]), room)) name[n++] = s->at[k]->name;
    print_import(out, name, n, room);
  }
}

static void print_room(struct buf *out, const struct json_shapes *s, struct span room) {
  struct taken t = {.shape = ARENA_NEW(out->arena, bool, s->count)};
  for (size_t i = 0; i < s->count; i++)
    if (span_eq(room_of(s->at[i]), room)) take(&t, s, s->at[i]);
  print_imports(out, s, &t, room);
  for (size_t i = 0; i < s->count; i++) {
    if (!span_eq(room_of(s->at[i]), room)) continue;
    buf_addf(out, "\n/** %s */\nexport interface %s {\n", s->at[i]->doc, s->at[i]->name);
    print_members(out, s->at[i], false, &(struct shown_keys){{NULL}, 0});
    buf_adds(out, "}\n");
  }
}

/* ---- all files --------------------------------------------------------------------------------------------------- */

size_t json_type_files(const char *name[JSON_TYPE_FILES_MOST], struct arena *arena) {
  struct json_shapes s = json_all_shapes();
  size_t n = 0;
  name[n++] = INDEX;
  name[n++] = WORDS;
  name[n++] = PICTURES;
  for (size_t i = 0; i < s.count; i++) {
    if (!is_first_of_room(&s, i)) continue;
    assert(n < JSON_TYPE_FILES_MOST);
    name[n++] = arena_text(arena, room_of(s.at[i]));
  }
  return n;
}

static void print_index(struct buf *out) {
  const char *name[JSON_TYPE_FILES_MOST];
  size_t n = json_type_files(name, out->arena);
  buf_addf(out, "import type { %s } from './%.*s';\n\n", json_complaint_shape.name,
           SPAN_ARG(room_of(&json_complaint_shape)));
  for (size_t i = 1; i < n; i++) buf_addf(out, "export * from './%s';\n", name[i]);
  buf_addf(out,
           "\n/** What every call of the core says; the answer is null when there is none. */\n"
           "export interface Envelope<T> {\n  complaints: %s[];\n  answer: T | null;\n}\n",
           json_complaint_shape.name);
}

void json_print_types(const char *name, struct buf *out) {
  struct json_shapes s = json_all_shapes();
  buf_adds(out,
           "/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file\n"
           " * (tests/json/json_keys_test.c). Missing is null, never 0. */\n");
  if (strcmp(name, INDEX) == 0)
    print_index(out);
  else if (strcmp(name, WORDS) == 0)
    print_words_of_lists(out);
  else if (strcmp(name, PICTURES) == 0)
    json_print_pictures(out);
  else
    print_room(out, &s, span_of(name));
}
