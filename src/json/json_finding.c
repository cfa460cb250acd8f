/* The findings of the written review. */
#include "json/json_parts.h"

static void write_because_value(struct json *j, const char *key, const struct because *b) {
  if (b->text) {
    json_text(j, key, b->text);
  } else {
    json_number(j, key, b->value);
  }
}

static size_t count_key(const struct finding *f, const char *key, size_t from, size_t to) {
  size_t n = 0;
  for (size_t i = from; i < to; i++) n += strcmp(f->because[i].key, key) == 0;
  return n;
}

static void write_because_unit(struct json *j, const struct because *b) {
  if (!b->unit || !b->unit[0]) return;
  char key[64];
  size_t n = strlen(b->key);
  if (n + sizeof "_unit" > sizeof key) return;
  memcpy(key, b->key, n);
  memcpy(key + n, "_unit", sizeof "_unit");
  json_text(j, key, b->unit);
}

/* An object has every key once: facts that share a key become one array. */
static void write_because(struct json *j, const char *because, const struct at *at) {
  const struct finding *f = at->it;
  json_open(j, because, '{');
  for (size_t i = 0; i < f->because_count; i++) {
    const struct because *b = &f->because[i];
    if (count_key(f, b->key, 0, i) > 0) continue;
    if (count_key(f, b->key, i, f->because_count) == 1) {
      write_because_value(j, b->key, b);
    } else {
      json_open(j, b->key, '[');
      for (size_t k = i; k < f->because_count; k++)
        if (strcmp(f->because[k].key, b->key) == 0) write_because_value(j, NULL, &f->because[k]);
      json_close(j, ']');
    }
    write_because_unit(j, b);
  }
  json_close(j, '}');
}

static double finding_line(const struct at *at) {
  int line = ((const struct finding *)at->it)->line;
  return line > 0 ? line : NOT_KNOWN;
}

static size_t about_count(const struct at *at) { return ((const struct finding *)at->it)->nutrient_count; }
static const char *about(const struct at *at, size_t i) {
  return nutrient_info[((const struct finding *)at->it)->nutrient[i]].key;
}

static const struct field FINDING[] = {
    TEXT_ALWAYS("id", struct finding, id, "which finding, as in docs/method/findings.md"),
    WORD("weight", struct finding, weight, finding_weight_word, FINDING_WEIGHT_COUNT,
         "do something, keep an eye on it, good to know"),
    TEXT_ALWAYS("text", struct finding, text, "the sentence"),
    FREE("because", write_because, "Record<string, unknown>", "the facts behind it; keys differ from finding to finding"),
    TEXT("source", struct finding, source, "key of the source"),
    TEXT("reason", struct finding, reason, "why it matters"),
    TEXT("remedy", struct finding, remedy, "what would help"),
    WORD("confidence", struct finding, confidence, confidence_word, CONF_COUNT, "how well the source is known"),
    TRUTH("danger", struct finding, danger, "something in the bowl must not be fed at all"),
    NUMBER_OF("line", "", finding_line, "the line of the text that it speaks of; null when none or several"),
    TEXTS_OF("nutrients", about_count, about, "keys of the nutrients that it is about"),
};
const struct shape json_finding_shape = SHAPE("Finding", FINDING, "one finding of the written review");
