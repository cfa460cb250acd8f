#include "json/json.h"

#include "base/json_string.h"

enum { NUMBER_DIGITS = 9 };

void json_init(struct json *j, struct buf *out) { *j = (struct json){.out = out, .first = true}; }

static void begin(struct json *j, const char *key) {
  if (!j->first) buf_addc(j->out, ',');
  j->first = false;
  if (!key) return;
  buf_addc(j->out, '"');
  buf_adds(j->out, key);
  buf_adds(j->out, "\":");
}

void json_open(struct json *j, const char *key_or_null, char bracket) {
  begin(j, key_or_null);
  buf_addc(j->out, bracket);
  j->first = true;
}

void json_close(struct json *j, char bracket) {
  buf_addc(j->out, bracket);
  j->first = false;
}

void json_span(struct json *j, const char *key_or_null, struct span text) {
  begin(j, key_or_null);
  json_quoted(j->out, text);
}

void json_text(struct json *j, const char *key_or_null, const char *text_or_null) {
  if (!text_or_null) {
    json_nothing(j, key_or_null);
    return;
  }
  json_span(j, key_or_null, span_of(text_or_null));
}

void json_text_or_null(struct json *j, const char *key_or_null, const char *text) {
  json_text(j, key_or_null, text && text[0] ? text : NULL);
}

void json_digits(struct json *j, const char *key_or_null, double x, int digits) {
  begin(j, key_or_null);
  num_json(j->out, x, digits);
}

void json_number(struct json *j, const char *key_or_null, double x) { json_digits(j, key_or_null, x, NUMBER_DIGITS); }

void json_bool(struct json *j, const char *key_or_null, bool x) {
  begin(j, key_or_null);
  buf_adds(j->out, x ? "true" : "false");
}

void json_nothing(struct json *j, const char *key_or_null) {
  begin(j, key_or_null);
  buf_adds(j->out, "null");
}

void json_ready(struct json *j, const char *key_or_null, struct span json) {
  begin(j, key_or_null);
  buf_add(j->out, json);
}
