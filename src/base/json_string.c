#include "base/json_string.h"

#include "base/utf8.h"

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

void json_quoted(struct buf *out, struct span s) {
  buf_addc(out, '"');
  while (s.n > 0) {
    size_t plain = plain_length(s);
    if (plain > 0) {
      buf_add(out, span_cut(s, 0, plain));
      s = span_cut(s, plain, s.n);
      continue;
    }
    uint32_t c = 0;
    size_t n = utf8_read(s, &c);
    if (n == 0) {
      buf_adds(out, "\xEF\xBF\xBD"); /* U+FFFD for each byte that belongs to no character */
      n = 1;
    } else if (n == 1) {
      add_ascii(out, s.p[0]);
    } else if (c == 0x2028) {
      buf_adds(out, "\\u2028"); /* line ends to JavaScript, and to anything that splits output into lines */
    } else if (c == 0x2029) {
      buf_adds(out, "\\u2029");
    } else {
      buf_add(out, span_cut(s, 0, n));
    }
    s = span_cut(s, n, s.n);
  }
  buf_addc(out, '"');
}
