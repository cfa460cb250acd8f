#include "json/json_print.h"

#include "json/json_shapes.h"

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
  if (shows_number(f)) {
    buf_addf(out, "number%s%s", f->unit[0] ? ", " : "", strcmp(f->unit, "unit") == 0 ? "in `unit`" : f->unit);
  } else if (shows_text(f)) {
    buf_adds(out, "text");
  } else if (shows_truth(f)) {
    buf_adds(out, "true or false");
  } else if (shows_word(f)) {
    print_words(out, f);
  } else if (f->kind == FIELD_OBJECT) {
    link_to(out, f->of);
  } else if (shows_list(f)) {
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
  if (shows_null(f)) buf_adds(out, " or null");
}

static void print_rows(struct buf *out, const struct shape *shape, bool absent, struct shown_keys *told) {
  for (size_t i = 0; i < shape->count; i++) {
    const struct field *f = &shape->field[i];
    bool may_be_absent = absent || f->presence == FIELD_MAY_BE_ABSENT;
    if (!f->key[0]) {
      print_rows(out, f->of, may_be_absent, told);
      continue;
    }
    if (shows_again(told, f->key)) continue;
    buf_addf(out, "| `%s`%s | ", f->key, may_be_absent ? " (may be left out)" : "");
    print_holds(out, f);
    buf_addf(out, " | %s |\n", f->doc);
  }
}

void json_print_manual(struct buf *out) {
  struct json_shapes s = json_command_line_shapes();
  for (size_t i = 0; i < s.count; i++) {
    buf_addf(out, "%s %s\n\n", json_is_root(s.at[i]) ? "##" : "###", s.at[i]->name);
    const char *doc = s.at[i]->doc;
    buf_addf(out, "%c%s.\n\n| key | holds | |\n| --- | --- | --- |\n",
             doc[0] >= 'a' && doc[0] <= 'z' ? doc[0] - 'a' + 'A' : doc[0], doc + 1);
    print_rows(out, s.at[i], false, &(struct shown_keys){{NULL}, 0});
    buf_addc(out, '\n');
  }
}

/* ---- the list for tests ------------------------------------------------------------------------------------------ */

static const char *type_word(const struct field *f) {
  if (shows_number(f)) return "number";
  if (shows_text(f)) return "text";
  if (shows_truth(f)) return "truth";
  if (shows_word(f)) return "word";
  if (shows_list(f)) return "list";
  if (f->kind == FIELD_OBJECT) return "object";
  if (f->kind == FIELD_NUMBERS_OF) return "numbers";
  if (f->kind == FIELD_TEXTS_OF) return "texts";
  if (f->kind == FIELD_MAP_OF) return "map";
  if (!f->of) return "free";
  return strchr(f->type, '[') ? "list" : "object";
}

static void print_key(struct json *j, const struct field *f, bool absent) {
  bool null = shows_null(f) || (f->type && strstr(f->type, "null"));
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

static void print_keys(struct json *j, const struct shape *shape, bool absent, struct shown_keys *told) {
  for (size_t i = 0; i < shape->count; i++) {
    const struct field *f = &shape->field[i];
    bool may_be_absent = absent || f->presence == FIELD_MAY_BE_ABSENT;
    if (!f->key[0]) {
      print_keys(j, f->of, may_be_absent, told);
    } else if (!shows_again(told, f->key)) {
      print_key(j, f, may_be_absent);
    }
  }
}

void json_print_keys(struct buf *out) {
  struct json_shapes s = json_command_line_shapes();
  struct json j;
  json_init(&j, out);
  json_open(&j, NULL, '{');
  for (size_t i = 0; i < s.count; i++) {
    json_open(&j, s.at[i]->name, '{');
    buf_addc(out, '\n');
    print_keys(&j, s.at[i], false, &(struct shown_keys){{NULL}, 0});
    json_close(&j, '}');
    buf_addc(out, '\n');
  }
  json_close(&j, '}');
  buf_addc(out, '\n');
}
