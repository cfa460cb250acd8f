#include "base/utf8.h"

size_t utf8_read(struct span s, uint32_t *code_point) {
  if (s.n == 0) return 0;
  const unsigned char *p = (const unsigned char *)s.p;
  if (p[0] < 0x80) {
    *code_point = p[0];
    return 1;
  }
  size_t n = p[0] >= 0xF0 ? 4 : p[0] >= 0xE0 ? 3 : 2;
  static const uint32_t LEAST[5] = {0, 0, 0x80, 0x800, 0x10000};
  if (p[0] < 0xC2 || p[0] > 0xF4 || s.n < n) return 0;
  uint32_t c = p[0] & (0x7Fu >> n);
  for (size_t i = 1; i < n; i++) {
    if ((p[i] & 0xC0) != 0x80) return 0;
    c = c << 6 | (p[i] & 0x3Fu);
  }
  if (c < LEAST[n] || c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF)) return 0;
  *code_point = c;
  return n;
}

bool utf8_is_obeyed(uint32_t c) {
  if (c < 0x20 || (c >= 0x7F && c <= 0x9F)) return true;
  return (c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

int utf8_count(struct span s) {
  int n = 0;
  for (size_t i = 0; i < s.n; i++) n += ((unsigned char)s.p[i] & 0xC0) != 0x80;
  return n;
}
