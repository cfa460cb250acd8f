#include "text/json.h"

enum { NUMBER_DIGITS = 9 };

void json_init(struct json *j, struct buf *out) { *j = (struct json){.out = out, .first = true}; }

/* Bytes of one well-formed UTF-8 character at the start of 's' (RFC 3629: no overlong forms, no surrogates, nothing
 * above U+10FFFF), or 0. */
static size_t utf8_length(struct span s) {
  const unsigned char *p = (const unsigned char *)s.p;
  unsigned char low = 0x80, high = 0xBF;
  size_t n;
  if (p[0] < 0x80) return 1;
  if (p[0] >= 0xC2 && p[0] <= 0xDF) {
    n = 2;
  } else if (p[0] >= 0xE0 && p[0] <= 0xEF) {
    n = 3;
    if (p[0] == 0xE0) low = 0xA0;
    if (p[0] == 0xED) high = 0x9F;
  } else if (p[0] >= 0xF0 && p[0] <= 0xF4) {
    n = 4;
    if (p[0] == 0xF0) low = 0x90;
    if (p[0] == 0xF4) high = 0x8F;
  } else {
    return 0;
  }
  if (s.n < n || p[1] < low || p[1] > high) return 0;
  for (size_t i = 2; i < n; i++)
    if (p[i] < 0x80 || p[i] > 0xBF) return 0;
  return n;
}

static void add_control(struct buf *out, unsigned char c) {
  static const char HEX[] = "0123456789abcdef";
  buf_adds(out, "\\u00");
  buf_addc(out, HEX[c >> 4]);
  buf_addc(out, HEX[c & 15]);
}

static void add_ascii(struct buf *out, char c) {
  switch (c) {
  case '"':
    buf_adds(out, "\\\"");
    break;
  case '\\':
    buf_adds(out, "\\\\");
    break;
  case '\n':
    buf_adds(out, "\\n");
    break;
  case '\r':
    buf_adds(out, "\\r");
    break;
  case '\t':
    buf_adds(out, "\\t");
    break;
  default:
    if ((unsigned char)c < 0x20 || c == 0x7F) {
      add_control(out, (unsigned char)c);
    } else {
      buf_addc(out, c);
    }
  }
}

/* How many letters stand for themselves. */
static size_t plain_length(struct span s) {
  size_t n = 0;
  while (n < s.n && (unsigned char)s.p[n] >= 0x20 && (unsigned char)s.p[n] < 0x7F && s.p[n] != '"' && s.p[n] != '\\') n++;
  return n;
}

static void add_string(struct buf *out, struct span s) {
  buf_addc(out, '"');
  while (s.n > 0) {
    size_t plain = plain_length(s);
    if (plain > 0) {
      buf_add(out, span_cut(s, 0, plain));
      s = span_cut(s, plain, s.n);
      continue;
    }
    size_t n = utf8_length(s);
    if (n == 0) {
      buf_adds(out, "\xEF\xBF\xBD"); /* U+FFFD for each byte that belongs to no character */
      n = 1;
    } else if (n == 1) {
      add_ascii(out, s.p[0]);
    } else if (n == 3 && memcmp(s.p, "\xE2\x80\xA8", 3) == 0) {
      buf_adds(out, "\\u2028"); /* line ends to JavaScript, and to anything that splits output into lines */
    } else if (n == 3 && memcmp(s.p, "\xE2\x80\xA9", 3) == 0) {
      buf_adds(out, "\\u2029");
    } else {
      buf_add(out, span_cut(s, 0, n));
    }
    s = span_cut(s, n, s.n);
  }
  buf_addc(out, '"');
}

static void begin(struct json *j, const char *key) {
  if (!j->first) buf_addc(j->out, ',');
  j->first = false;
  if (!key) return;
  add_string(j->out, span_of(key));
  buf_addc(j->out, ':');
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
  add_string(j->out, text);
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
