/* Where a sentence of a line ends, and the bullet or number at its front. */
#include "post/hear/post_hear.h"

/* "beef liver 100 g. Sorry ...": an amount behind a food ends a sentence; "2 tbsp. Olive oil" begins one. */
static bool ends_with_amount(struct span s) {
  size_t i = s.n;
  while (i > 0 && ((s.p[i - 1] | 0x20) >= 'a' && (s.p[i - 1] | 0x20) <= 'z')) i--;
  while (i > 0 && s.p[i - 1] == ' ') i--;
  size_t digits = i;
  while (i > 0 && ((s.p[i - 1] >= '0' && s.p[i - 1] <= '9') || memchr("./", s.p[i - 1], 2))) i--;
  if (i == digits) return false;
  while (i > 0 && memchr(" ,(:~=", s.p[i - 1], 6)) i--;
  if (i > 2 && s.p[i - 1] == ')') return true; /* "pasta (cooked) 180 g." */
  return i > 2 && ((s.p[i - 1] | 0x20) >= 'a' && (s.p[i - 1] | 0x20) <= 'z');
}

/* "28kg. 300g beef": a number and its unit, and nothing else. */
static bool is_an_amount(struct span s) {
  size_t i = 0;
  while (i < s.n && s.p[i] == ' ') i++;
  if (i >= s.n || s.p[i] < '0' || s.p[i] > '9') return false;
  while (i < s.n && memchr("0123456789.,/ ", s.p[i], 14)) i++;
  while (i < s.n && post_is_letter(s.p[i])) i++;
  return i == s.n;
}

/* "fish oil cap 1000mg. anything missing?": a food stands before its amount, so that none is to follow; but "300 g beef and
 * 100 g. rice". */
static bool has_its_food_before(struct span s) {
  static const char *const BEFORE[] = {"about", "approx", "around", "roughly", "nearly", "almost"};
  if (!ends_with_amount(s)) return false;
  size_t end = s.n;
  while (end > 0 && !(s.p[end - 1] >= '0' && s.p[end - 1] <= '9')) end--;
  while (end > 0 && memchr("0123456789./ ~(", s.p[end - 1], 15)) end--;
  for (size_t i = end; i > 0;) {
    size_t from = i;
    while (from > 0 && s.p[from - 1] != ' ') from--;
    struct span word = span_cut(s, from, i);
    if (word.n == 0 || memchr(",;:(", word.p[word.n - 1], 4) || is_a(word, CLASS_BETWEEN_FOODS)) return false;
    bool vague = false;
    for (size_t k = 0; k < COUNT_OF(BEFORE); k++) vague = vague || span_is_fold(word, BEFORE[k]);
    if (word.n > 2 && post_is_letter(word.p[0]) && !vague && !is_chatter(word)) return true;
    i = from > 0 ? from - 1 : 0;
  }
  return false;
}

/* "mixed in. what do you think?": a question or thanks in small letters. */
static bool opens_small(struct span rest) {
  static const char *const OPENS[] = {
      "what do ", "what am ",  "what else", "what is ",  "whats ",      "what's ",  "is this ",   "is that ",
      "is it ",   "is there ", "does this", "does that", "does it ",    "do i ",    "do you ",    "should i ",
      "am i ",    "can i ",    "how does ", "how is ",   "any thought", "any idea", "any advice", "anything ",
      "he's ",    "she's ",    "he is ",    "she is ",   "hes ",        "shes ",    "he has ",    "my vet ",
      "vet ",     "our vet ",  "thoughts",  "thanks",    "thank you",   "cheers",   "pls ",       "please "};
  for (size_t i = 0; i < COUNT_OF(OPENS); i++)
    if (span_starts_fold(rest, OPENS[i])) return true;
  return false;
}

/* The end of the sentence that begins at 'from': after ". ", "! ", "? " where a new one begins. */
size_t post_sentence_end(struct span line, size_t from) {
  for (size_t i = from; i + 1 < line.n; i++) {
    char c = line.p[i];
    if (c == 0x1F || ((c == '!' || c == '?') && line.p[i + 1] == ' ')) return i + 1;
    if (c != '.' || line.p[i + 1] != ' ') continue;
    size_t next = i + 2;
    while (next < line.n && line.p[next] == ' ') next++;
    bool bracket = next + 1 < line.n && line.p[next] == '('; /* "30 g. (In other words ...)" */
    char first = next < line.n ? line.p[bracket ? next + 1 : next] : ' ';
    bool capital = first >= 'A' && first <= 'Z';
    size_t word = i;
    while (word > from && line.p[word - 1] != ' ') word--;
    struct span before = span_cut(line, word, i);
    bool short_form = is_a(before, CLASS_SHORT_FORM) || before.n < 2 || (before.n == 2 && before.p[0] <= '9');
    if (short_form && capital && ends_with_amount(span_cut(line, from, i))) short_form = false;
    if (before.n == 1 && capital && word > from + 3 &&
        (span_holds_fold(span_cut(line, word - 4, word), SPAN_LIT("vit ")) ||
         span_holds_fold(span_cut(line, word - 4, word), SPAN_LIT("min "))))
      short_form = false;                                                      /* "one drop vit E. No problems" */
    bool figure = next < line.n && line.p[next] >= '0' && line.p[next] <= '9'; /* "Dog, 20 kg. 300 g beef" */
    size_t unit = 0;                                                           /* "31kg" */
    while (unit < before.n && ((before.p[unit] >= '0' && before.p[unit] <= '9') || before.p[unit] == ',')) unit++;
    if (figure && is_a(span_cut(before, unit, before.n), CLASS_UNIT_BEFORE_STOP) &&
        (ends_with_amount(span_cut(line, from, i)) || is_an_amount(span_cut(line, from, i))))
      return i + 1;
    bool small = next < line.n && line.p[next] >= 'a' && line.p[next] <= 'z';
    if (small && is_a(span_cut(before, unit, before.n), CLASS_UNIT) && has_its_food_before(span_cut(line, from, i)))
      return i + 1;
    if (small && !short_form && opens_small(span_cut(line, next, line.n))) return i + 1;
    bool points_back = figure && word_in(before, "it us me so too"); /* "Mo gets half of it. 200 g beef ..." */
    bool symbol = next + 2 < line.n && line.p[next + 1] == ' ' && line.p[next + 2] == '='; /* "m = 9 kg. f = 2/d." */
    bool closed =
        before.n > 1 && memchr(")%", before.p[before.n - 1], 2); /* "(like 5g). my friend", "ox liver 5%. No idea" */
    if (closed && (capital || small || (figure && before.p[before.n - 1] == ')')))
      return i + 1; /* "(should be 28). 400 g" */
    if (!short_form && (capital || points_back || symbol || (i - word >= 3 && before.p[0] > '9'))) return i + 1;
  }
  return line.n;
}

size_t post_strip_bullet(struct tokens *t) {
  size_t i = 0;
  for (;; i++) {
    bool number = i + 1 < t->count && t->item[i].kind == TOKEN_NUMBER && t->item[i + 1].kind == TOKEN_MARK &&
                  t->item[i + 1].glued && (t->item[i + 1].mark == ')' || t->item[i + 1].mark == '.') && i + 2 < t->count &&
                  !t->item[i + 2].glued && t->item[i].value < 100;
    if (number) {
      take(t, i, 2);
      i++;
      continue;
    }
    bool mark = i < t->count && t->item[i].kind == TOKEN_MARK;
    if (!mark) break;
    uint32_t m = t->item[i].mark;
    if (!(m == '-' || m == '*' || m == '+' || m == '>' || m == 0xB7 || m == ',' || m == '&' || m == '=' ||
          (m >= 0x2000 && m < 0x3000 && m != 0x2044)))
      break;
    t->item[i].taken = true;
  }
  return i;
}
