#include "json/json_print.h"

#include "explain/side.h"
#include "words/usual.h"
#include "json/json_parts.h"

/* ---- shapes, each once ------------------------------------------------------------------------------------------- */

enum { MOST_SHAPES = 160 };

struct shapes {
  const struct shape *at[MOST_SHAPES];
  size_t count;
};

static bool holds(const struct shapes *s, const struct shape *shape) {
  for (size_t i = 0; i < s->count; i++)
    if (s->at[i] == shape) return true;
  return false;
}

static void collect(struct shapes *s, const struct shape *shape);

static void collect_of(struct shapes *s, const struct shape *shape) {
  for (size_t i = 0; i < shape->count; i++) {
    const struct field *f = &shape->field[i];
    if (!f->of) continue;
    if (f->key[0]) {
      collect(s, f->of);
    } else {
      collect_of(s, f->of);
    }
  }
}

static void collect(struct shapes *s, const struct shape *shape) {
  if (holds(s, shape)) return;
  assert(s->count < MOST_SHAPES);
  s->at[s->count++] = shape;
  collect_of(s, shape);
}

/* What the command line answers; what only the page is told. */
static const struct shape *const ROOT[] = {
    &json_check_shape, &json_need_shape,   &json_foods_shape,   &json_food_shape,  &json_library_shape, &json_side_shape,
    &json_swap_shape,  &json_mend_shape,   &json_compose_shape, &json_reply_shape, &json_sheet_shape,   &json_unread_shape,
    &json_week_shape,  &json_rotate_shape, &json_many_shape,    &json_trend_shape, &json_slim_shape};
static const struct shape *const PAGE_ROOT[] = {&json_complaint_shape, &json_page_shape,  &json_lines_shape,
                                                &json_larder_shape,    &json_shelf_shape, &json_suggest_shape,
                                                &json_sheet_page_shape, &json_weeks_shape, &json_journal_shape, &json_entry_shape};

static struct shapes command_line_shapes(void) {
  struct shapes s = {{NULL}, 0};
  for (size_t i = 0; i < COUNT_OF(ROOT); i++) collect(&s, ROOT[i]);
  return s;
}

static struct shapes all_shapes(void) {
  struct shapes s = command_line_shapes();
  for (size_t i = 0; i < COUNT_OF(PAGE_ROOT); i++) collect(&s, PAGE_ROOT[i]);
  return s;
}

/* An object is one of two kinds where both may be left out: a key that both have is told once. */
enum { MOST_KEYS = 80 };

struct keys {
  const char *at[MOST_KEYS];
  size_t count;
};

static bool told_already(struct keys *told, const char *key) {
  for (size_t i = 0; i < told->count; i++)
    if (strcmp(told->at[i], key) == 0) return true;
  assert(told->count < MOST_KEYS);
  told->at[told->count++] = key;
  return false;
}

/* ---- what a key holds -------------------------------------------------------------------------------------------- */

static bool is_number(const struct field *f) { return f->kind <= FIELD_SIZE || f->kind == FIELD_NUMBER_OF; }

static bool is_text(const struct field *f) { return f->kind == FIELD_TEXT || f->kind == FIELD_TEXT_OF; }

static bool is_truth(const struct field *f) { return f->kind == FIELD_BOOL || f->kind == FIELD_TRUTH_OF; }

static bool is_word(const struct field *f) { return f->kind == FIELD_WORD || f->kind == FIELD_WORD_OF; }

static bool is_list(const struct field *f) {
  return f->kind == FIELD_ROWS || f->kind == FIELD_ROWS_IN || f->kind == FIELD_ROWS_OF;
}

/* Whole numbers that are members have no way to say that they are not known. */
static bool may_be_null(const struct field *f) {
  if (f->presence != FIELD_MAY_BE_NULL) return false;
  bool whole = f->kind > FIELD_FLOAT && f->kind <= FIELD_SIZE;
  return !whole || f->positive;
}

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

/* ---- types of the page ------------------------------------------------------------------------------------------- */

static void print_union(struct buf *out, const struct field *f) {
  const char *name = list_of(f->words);
  if (name) {
    buf_adds(out, name);
    return;
  }
  for (int i = 0; i < f->word_count; i++) buf_addf(out, "%s'%s'", i > 0 ? " | " : "", f->words[i]);
}

static void print_type(struct buf *out, const struct field *f) {
  if (is_number(f)) {
    buf_adds(out, "number");
  } else if (is_text(f)) {
    buf_adds(out, "string");
  } else if (is_truth(f)) {
    buf_adds(out, "boolean");
  } else if (is_word(f)) {
    print_union(out, f);
  } else if (is_list(f)) {
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
  if (may_be_null(f)) buf_adds(out, " | null");
}

static void print_said(struct buf *out, const struct field *f) {
  if (!f->doc[0] && !f->unit[0]) return;
  buf_addf(out, "  /** %s%s%s */\n", f->unit, f->unit[0] && f->doc[0] ? ": " : "", f->doc);
}

static void print_members(struct buf *out, const struct shape *shape, bool absent, struct keys *told) {
  for (size_t i = 0; i < shape->count; i++) {
    const struct field *f = &shape->field[i];
    bool may_be_absent = absent || f->presence == FIELD_MAY_BE_ABSENT;
    if (!f->key[0]) {
      print_members(out, f->of, may_be_absent, told);
      continue;
    }
    if (told_already(told, f->key)) continue;
    print_said(out, f);
    bool plain = !strchr(f->key, ' ');
    buf_addf(out, plain ? "  %s%s: " : "  '%s'%s: ", f->key, may_be_absent ? "?" : "");
    print_type(out, f);
    buf_adds(out, ";\n");
  }
}

void json_print_types(struct buf *out) {
  struct shapes s = all_shapes();
  buf_adds(out,
           "/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file\n"
           " * (tests/json/json_keys_test.c). Missing is null, never 0. */\n");
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
  json_print_pictures(out);
  buf_adds(out, "\n/** What every call of the core says; the answer is null when there is none. */\n"
                "export interface Envelope<T> {\n  complaints: Complaint[];\n  answer: T | null;\n}\n");
  for (size_t i = 0; i < s.count; i++) {
    buf_addf(out, "\n/** %s */\nexport interface %s {\n", s.at[i]->doc, s.at[i]->name);
    print_members(out, s.at[i], false, &(struct keys){{NULL}, 0});
    buf_adds(out, "}\n");
  }
}

/* ---- the manual -------------------------------------------------------------------------------------------------- */

enum { MOST_WORDS_TOLD = 12 };

static void print_words(struct buf *out, const struct field *f) {
  for (int i = 0; i < f->word_count && i < MOST_WORDS_TOLD; i++) buf_addf(out, "%s`%s`", i > 0 ? ", " : "", f->words[i]);
  if (f->word_count > MOST_WORDS_TOLD) buf_adds(out, " ...");
}

static void link_to(struct buf *out, const struct shape *shape) {
  buf_addf(out, "[%s](#", shape->name);
  for (const char *p = shape->name; *p; p++) buf_addc(out, *p >= 'A' && *p <= 'Z' ? (char)(*p - 'A' + 'a') : *p);
  buf_addc(out, ')');
}

static void print_holds(struct buf *out, const struct field *f) {
  if (is_number(f)) {
    buf_addf(out, "number%s%s", f->unit[0] ? ", " : "", strcmp(f->unit, "unit") == 0 ? "in `unit`" : f->unit);
  } else if (is_text(f)) {
    buf_adds(out, "text");
  } else if (is_truth(f)) {
    buf_adds(out, "true or false");
  } else if (is_word(f)) {
    print_words(out, f);
  } else if (f->kind == FIELD_OBJECT) {
    link_to(out, f->of);
  } else if (is_list(f)) {
    buf_adds(out, "list of ");
    link_to(out, f->of);
  } else if (f->kind == FIELD_NUMBERS_OF) {
    buf_adds(out, f->gaps ? "list of numbers and nulls" : "list of numbers");
  } else if (f->kind == FIELD_TEXTS_OF) {
    buf_adds(out, "list of texts");
  } else if (f->kind == FIELD_MAP_OF) {
    buf_adds(out, "numbers under ");
    print_words(out, f);
  } else if (f->of) {
    buf_adds(out, strchr(f->type, '[') ? "list of " : "");
    link_to(out, f->of);
    buf_adds(out, strstr(f->type, "null") ? " or null" : "");
  } else {
    bool text = strncmp(f->type, "string", 6) == 0, list = strchr(f->type, '[') != NULL;
    buf_adds(out, !text ? "object" : list ? "list of texts" : "text");
    if (strstr(f->type, "| null")) buf_adds(out, " or null");
  }
  if (may_be_null(f)) buf_adds(out, " or null");
}

static void print_rows(struct buf *out, const struct shape *shape, bool absent, struct keys *told) {
  for (size_t i = 0; i < shape->count; i++) {
    const struct field *f = &shape->field[i];
    bool may_be_absent = absent || f->presence == FIELD_MAY_BE_ABSENT;
    if (!f->key[0]) {
      print_rows(out, f->of, may_be_absent, told);
      continue;
    }
    if (told_already(told, f->key)) continue;
    buf_addf(out, "| `%s`%s | ", f->key, may_be_absent ? " (may be left out)" : "");
    print_holds(out, f);
    buf_addf(out, " | %s |\n", f->doc);
  }
}

static bool is_root(const struct shape *shape) {
  for (size_t i = 0; i < COUNT_OF(ROOT); i++)
    if (ROOT[i] == shape) return true;
  return false;
}

void json_print_manual(struct buf *out) {
  struct shapes s = command_line_shapes();
  for (size_t i = 0; i < s.count; i++) {
    buf_addf(out, "%s %s\n\n", is_root(s.at[i]) ? "##" : "###", s.at[i]->name);
    const char *doc = s.at[i]->doc;
    buf_addf(out, "%c%s.\n\n| key | holds | |\n| --- | --- | --- |\n",
             doc[0] >= 'a' && doc[0] <= 'z' ? doc[0] - 'a' + 'A' : doc[0], doc + 1);
    print_rows(out, s.at[i], false, &(struct keys){{NULL}, 0});
    buf_addc(out, '\n');
  }
}

/* ---- the list for tests ------------------------------------------------------------------------------------------ */

static const char *type_word(const struct field *f) {
  if (is_number(f)) return "number";
  if (is_text(f)) return "text";
  if (is_truth(f)) return "truth";
  if (is_word(f)) return "word";
  if (is_list(f)) return "list";
  if (f->kind == FIELD_OBJECT) return "object";
  if (f->kind == FIELD_NUMBERS_OF) return "numbers";
  if (f->kind == FIELD_TEXTS_OF) return "texts";
  if (f->kind == FIELD_MAP_OF) return "map";
  if (!f->of) return "free";
  return strchr(f->type, '[') ? "list" : "object";
}

static void print_key(struct json *j, const struct field *f, bool absent) {
  bool null = may_be_null(f) || (f->type && strstr(f->type, "null"));
  json_open(j, f->key, '{');
  json_text(j, "type", type_word(f));
  if (f->of) json_text(j, "of", f->of->name);
  if (null) json_bool(j, "null", true);
  if (f->gaps) json_bool(j, "gaps", true);
  if (absent) json_bool(j, "absent", true);
  if (f->words) {
    json_open(j, "words", '[');
    for (int i = 0; i < f->word_count; i++) json_text(j, NULL, f->words[i]);
    json_close(j, ']');
  }
  json_close(j, '}');
  buf_addc(j->out, '\n');
}

static void print_keys(struct json *j, const struct shape *shape, bool absent, struct keys *told) {
  for (size_t i = 0; i < shape->count; i++) {
    const struct field *f = &shape->field[i];
    bool may_be_absent = absent || f->presence == FIELD_MAY_BE_ABSENT;
    if (!f->key[0]) {
      print_keys(j, f->of, may_be_absent, told);
    } else if (!told_already(told, f->key)) {
      print_key(j, f, may_be_absent);
    }
  }
}

void json_print_keys(struct buf *out) {
  struct shapes s = command_line_shapes();
  struct json j;
  json_init(&j, out);
  json_open(&j, NULL, '{');
  for (size_t i = 0; i < s.count; i++) {
    json_open(&j, s.at[i]->name, '{');
    buf_addc(out, '\n');
    print_keys(&j, s.at[i], false, &(struct keys){{NULL}, 0});
    json_close(&j, '}');
    buf_addc(out, '\n');
  }
  json_close(&j, '}');
  buf_addc(out, '\n');
}
